//! Marks in words: where each stands, and which shaft is ahead or behind.
//!
//! Must not know: who moved what.

use crate::lang::Lang;
use advice::{MarkAtTurn, ShaftReading};

/// Where a mark stands against the cover's: `on`, `6 teeth past`, `half a turn away`.
pub fn mark_now(lang: Lang, reading: &ShaftReading, teeth: u32) -> String {
    place(lang, reading.mark_error_teeth, reading.on_its_mark, teeth)
}

/// The same for a row of the table of turns.
pub fn mark_at_turn(lang: Lang, mark: &MarkAtTurn, teeth: u32) -> String {
    place(lang, mark.error_teeth, mark.on, teeth)
}

fn place(lang: Lang, error: f64, on: bool, teeth: u32) -> String {
    if on {
        return lang.pick("on", "steht").to_owned();
    }
    let half = f64::from(teeth) / 2.0;
    if (half - error.abs()).abs() < advice::HALF_A_TOOTH {
        return lang.pick("half a turn away", "halbe Umdr. weg").to_owned();
    }
    let count = lang.teeth(error.abs(), 1);
    match (lang, error > 0.0) {
        (Lang::En, true) => format!("{count} past"),
        (Lang::En, false) => format!("{count} before"),
        (Lang::De, true) => format!("{count} dahinter"),
        (Lang::De, false) => format!("{count} davor"),
    }
}

/// How a shaft stands against the crank: `in time`, `1 tooth behind`. To the nearest tooth where the
/// belt is tight; else with a decimal.
pub fn against_crank(lang: Lang, reading: &ShaftReading) -> String {
    if reading.in_time {
        return lang.pick("in time", "im Takt").to_owned();
    }
    ahead(lang, reading.ahead_teeth)
}

fn ahead(lang: Lang, teeth: f64) -> String {
    let count = lang.teeth(teeth.abs(), 1);
    match (lang, teeth > 0.0) {
        (Lang::En, true) => format!("{count} ahead"),
        (Lang::En, false) => format!("{count} behind"),
        (Lang::De, true) => format!("{count} voraus"),
        (Lang::De, false) => format!("{count} zurück"),
    }
}

/// What the best tooth leaves: `0.08 of a tooth behind`; to a hundredth, finer than any mark is read.
pub fn best_tooth(lang: Lang, teeth: f64) -> String {
    let number = lang.number(teeth.abs(), 2);
    if lang.number(teeth, 2) == lang.number(0.0, 2) {
        return lang.pick("dead on", "genau").to_owned();
    }
    match (lang, teeth > 0.0) {
        (Lang::En, true) => format!("{number}\u{a0}tooth ahead"),
        (Lang::En, false) => format!("{number}\u{a0}tooth behind"),
        (Lang::De, true) => format!("{number}\u{a0}Zahn voraus"),
        (Lang::De, false) => format!("{number}\u{a0}Zahn zurück"),
    }
}

/// Which shafts are out against the crank, in sentences; empty if none is. `names` by wheel index.
pub fn shaft_sentence(lang: Lang, shafts: &[ShaftReading], names: &[&str]) -> String {
    let mut sentences = Vec::new();
    for shaft in shafts.iter().filter(|s| !s.in_time) {
        let name = names.get(shaft.wheel).copied().unwrap_or_default();
        let count = ahead(lang, shaft.ahead_teeth);
        let deg = lang.degrees(shaft.ahead_crank_deg.abs());
        let early = shaft.ahead_crank_deg > 0.0;
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
