//! Marks in words: where each stands, and which shaft is ahead or behind.
//!
//! Must not know: who moved what.

use crate::lang::Lang;
use advice::{MarkAtTurn, ShaftReading};

/// Where a mark stands against the cover's: `on`, `6 teeth ahead`, `half a turn away`.
pub fn mark_now(lang: Lang, reading: &ShaftReading, teeth: u32) -> String {
    place(lang, reading.mark_error_teeth, reading.on_its_mark, teeth)
}

/// The same for a row of the table of turns.
pub fn mark_at_turn(lang: Lang, mark: &MarkAtTurn, teeth: u32) -> String {
    place(lang, mark.error_teeth, mark.on, teeth)
}

fn place(lang: Lang, error: f64, on: bool, teeth: u32) -> String {
    let half = f64::from(teeth) / 2.0;
    if (half - error.abs()).abs() < advice::HALF_A_TOOTH {
        return lang.pick("half a turn away", "halbe Umdr. weg").to_owned();
    }
    let count = lang.teeth(error.abs(), 1);
    let none = lang.short_number(error.abs(), 1) == "0";
    let count = if on { lang.teeth_off(error.abs()) } else { count };
    let off = format!("{count} {}", off_way(lang, error > 0.0));
    match (on, none) {
        (true, true) => lang.pick("on", "auf Markierung").to_owned(),
        (true, false) => format!("{}, {off}", lang.pick("on", "auf Markierung")),
        (false, _) => off,
    }
}

/// Which way a mark is off: a place that it has been turned to, not a tooth that it was hung out.
pub(crate) const fn off_way(lang: Lang, ahead: bool) -> &'static str {
    if ahead { lang.pick("ahead", "voraus") } else { lang.pick("behind", "zurück") }
}

/// Where a shaft stands, and how it is held: `on, held`, `2 teeth behind; bolt slack`.
pub fn shaft_stands(lang: Lang, reading: &ShaftReading, teeth: u32) -> String {
    let mut text = mark_now(lang, reading, teeth);
    if reading.held {
        text.push_str(lang.pick(", held", ", gehalten"));
    }
    if reading.bolt_slack {
        text.push_str(lang.pick("; sprocket bolt slack", "; Schraube des Zahnrads lose"));
    }
    let slip = reading.sprocket_on_shaft_deg;
    if lang.number(slip, 2) != lang.number(0.0, 2) {
        let by = lang.fine_degrees(slip.abs());
        text.push_str(&match (lang, slip > 0.0) {
            (Lang::En, true) => format!("; the sprocket sits {by} forward on its shaft"),
            (Lang::En, false) => format!("; the sprocket sits {by} back on its shaft"),
            (Lang::De, true) => format!("; das Rad sitzt {by} vorwärts auf der Welle"),
            (Lang::De, false) => format!("; das Rad sitzt {by} zurück auf der Welle"),
        });
    }
    text
}

/// Where the groove to count from is, against its wheel's mark: `at the mark`, `12 teeth past the mark`.
pub fn groove_from_mark(lang: Lang, past_teeth: f64) -> String {
    if past_teeth == 0.0 {
        return lang.pick("at the mark", "an der Markierung").to_owned();
    }
    let count = lang.teeth(past_teeth.abs(), 1);
    match (lang, past_teeth > 0.0) {
        (Lang::En, true) => format!("{count} past the mark"),
        (Lang::En, false) => format!("{count} before the mark"),
        (Lang::De, true) => format!("{count} nach der Markierung"),
        (Lang::De, false) => format!("{count} vor der Markierung"),
    }
}

/// How a shaft's belt is fitted against the crank: `in time`, `1 tooth behind`.
pub fn fitted(lang: Lang, reading: &ShaftReading) -> String {
    if reading.in_time {
        return lang.pick("in time", "Steuerzeit stimmt").to_owned();
    }
    ahead(lang, reading.fitted_teeth as f64)
}

/// How a shaft stands against the crank: `in time`, `1 tooth behind`, and how far it leads or lags
/// within the slack.
pub fn against_crank(lang: Lang, reading: &ShaftReading) -> String {
    let fitted = fitted(lang, reading);
    let lead = lang.teeth(reading.lead_teeth.abs(), 1);
    if lang.short_number(reading.lead_teeth.abs(), 1) == "0" {
        return fitted;
    }
    match (lang, reading.lead_teeth > 0.0) {
        (Lang::En, true) => format!("{fitted}; leads {lead} in the slack"),
        (Lang::En, false) => format!("{fitted}; lags {lead} in the slack"),
        (Lang::De, true) => format!("{fitted}; eilt im losen Riemen {lead} vor"),
        (Lang::De, false) => format!("{fitted}; eilt im losen Riemen {lead} nach"),
    }
}

/// In place of that with the belt off: nothing ties a shaft to the crank.
pub fn belt_off(lang: Lang) -> String {
    lang.pick("belt off", "Riemen ab").to_owned()
}

fn ahead(lang: Lang, teeth: f64) -> String {
    let count = lang.teeth(teeth.abs(), 1);
    match (lang, teeth > 0.0) {
        (Lang::En, true) => format!("{count} ahead"),
        (Lang::En, false) => format!("{count} behind"),
        (Lang::De, true) => format!("{count} zu früh"),
        (Lang::De, false) => format!("{count} zu spät"),
    }
}

/// What the best tooth leaves: `0.08 of a tooth behind`; to a hundredth, finer than any mark is read.
pub fn best_tooth(lang: Lang, teeth: f64) -> String {
    let number = lang.number(teeth.abs(), 2);
    if lang.number(teeth, 2) == lang.number(0.0, 2) {
        return lang.pick("dead on", "genau auf Markierung").to_owned();
    }
    let way = off_way(lang, teeth > 0.0);
    match lang {
        Lang::En => format!("{number} of a tooth {way}"),
        Lang::De => format!("{number}\u{a0}Zahn {way}"),
    }
}

/// Which shafts are out against the crank, in sentences; empty if none is. `names` by wheel index.
pub fn shaft_sentence(lang: Lang, shafts: &[ShaftReading], names: &[&str]) -> String {
    let mut sentences = Vec::new();
    for shaft in shafts.iter().filter(|s| !s.in_time) {
        let name = names.get(shaft.wheel).copied().unwrap_or_default();
        let count = ahead(lang, shaft.fitted_teeth as f64);
        let deg = lang.degrees(shaft.fitted_crank_deg.abs());
        let early = shaft.fitted_teeth > 0;
        sentences.push(match lang {
            Lang::En => {
                format!(
                    "{name} is {count}: {deg} of crank {}.",
                    if early { "early" } else { "late" }
                )
            }
            Lang::De => {
                format!(
                    "{name} ist {count}: {deg} Kurbelwinkel zu {}.",
                    if early { "früh" } else { "spät" }
                )
            }
        });
    }
    sentences.join(" ")
}
