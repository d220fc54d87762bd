//! Where the crank stands, and the stripe that the belt carries away.
//!
//! Must not know: other shafts.

use crate::lang::Lang;
use crate::start::camshaft_ratio;
use advice::{Readings, StripeReading};
use drive::Sense;

/// The crank's angle: from the start up to the end of the first cycle and a turn back, within its turn
/// beyond.
pub fn crank_angle(lang: Lang, readings: &Readings) -> String {
    let within = (-360.0..=720.0).contains(&readings.crank_deg);
    lang.degrees(if within { readings.crank_deg } else { readings.crank_part_deg })
}

/// Which turn the crank is in: `turn 1 of 2`; beyond the first cycle the turns are counted on.
pub fn turn_of_cycle(lang: Lang, readings: &Readings) -> String {
    let (turns, part) = as_read(readings);
    let turn = turns + 1;
    let at_end = part == 0.0 && turns == 2;
    match (turn, at_end) {
        (0, _) => lang.pick("turned back", "zurückgedreht").to_owned(),
        (_, true) => lang.pick("two turns done", "zwei Umdr. gedreht").to_owned(),
        (1 | 2, _) => match lang {
            Lang::En => format!("turn {turn} of 2"),
            Lang::De => format!("Umdr. {turn} von 2"),
        },
        _ => match lang {
            Lang::En => format!("turn {}", lang.number(turn as f64, 0)),
            Lang::De => format!("Umdr. {}", lang.number(turn as f64, 0)),
        },
    }
}

/// Whole turns and degrees beyond them as they are told: a hair short of a mark is on it, and not the end of the
/// turn before.
fn as_read(readings: &Readings) -> (i64, f64) {
    match readings.crank_part_deg {
        part if part < DEAD_ON_DEG => (readings.crank_turns, 0.0),
        part if part > 360.0 - DEAD_ON_DEG => (readings.crank_turns + 1, 0.0),
        part => (readings.crank_turns, part),
    }
}

/// The dial's setting as a screen reader says it.
pub fn dial_spoken(lang: Lang, readings: &Readings) -> String {
    let (whole, part) = as_read(readings);
    let (part, turns) = (lang.degrees(part), lang.number(whole as f64, 0));
    match (lang, whole) {
        (_, 0) => part,
        (Lang::En, 1) => format!("1 turn and {part}"),
        (Lang::En, _) => format!("{turns} turns and {part}"),
        (Lang::De, 1) => format!("1 Umdrehung und {part}"),
        (Lang::De, _) => format!("{turns} Umdrehungen und {part}"),
    }
}

/// Nearer than this nobody reads a mark, degrees.
const DEAD_ON_DEG: f64 = 0.05;

/// Where the crank stands, in a sentence, and what that says of the marks.
pub fn crank_state(lang: Lang, readings: &Readings) -> String {
    let part = readings.crank_part_deg;
    let place = if part != 0.0 && !(DEAD_ON_DEG..=360.0 - DEAD_ON_DEG).contains(&part) {
        lang.pick("The crank is on its mark.", "Die Kurbelwelle steht auf ihrer Markierung.")
            .to_owned()
    } else if readings.crank_part_deg == 0.0 {
        at_the_mark(lang, readings)
    } else {
        // The shorter way: 30° before reads better than 330° past.
        let part = readings.crank_part_deg;
        let (deg, past) = if part > 180.0 { (360.0 - part, false) } else { (part, true) };
        let deg = lang.degrees(deg);
        match (lang, past) {
            (Lang::En, true) => format!("The crank is {deg} past its mark."),
            (Lang::En, false) => format!("The crank is {deg} before its mark."),
            (Lang::De, true) => format!("Die Kurbelwelle steht {deg} nach ihrer Markierung."),
            (Lang::De, false) => format!("Die Kurbelwelle steht {deg} vor ihrer Markierung."),
        }
    };
    if !readings.belt_on {
        let off = lang.pick(
            "The belt is off: every shaft turns by itself.",
            "Der Riemen ist ab: Jede Welle dreht für sich.",
        );
        return format!("{off} {place}");
    }
    if readings.slack_mm == 0.0 {
        return place;
    }
    let slack = lang.pick(
        "The belt is slack: marks prove nothing yet.",
        "Der Riemen ist lose: Markierungen beweisen noch nichts.",
    );
    format!("{slack} {place}")
}

fn at_the_mark(lang: Lang, readings: &Readings) -> String {
    let turns = readings.crank_turns;
    let all_on = readings.shafts.iter().all(|s| s.on_its_mark);
    let fitted = readings.shafts.iter().all(|s| s.in_time);
    let count = lang.turns(turns.unsigned_abs());
    let ratio = readings.camshafts_out.first().map(|out| camshaft_ratio(lang, out));
    let back = if turns < 0 { lang.pick(" back", " rückwärts") } else { "" };
    match (lang, turns, all_on) {
        (Lang::En, 0, true) => "All marks are on.".to_owned(),
        (Lang::De, 0, true) => "Alle Markierungen stimmen.".to_owned(),
        (Lang::En, 0, false) => "The crank is on its mark.".to_owned(),
        (Lang::De, 0, false) => "Die Kurbelwelle steht auf ihrer Markierung.".to_owned(),
        (Lang::En, _, true) => format!("All marks are on again after {count}{back}."),
        (Lang::De, _, true) => format!("Alle Markierungen stehen wieder nach {count}{back}."),
        // An engine that never comes to its marks as it must is nothing to call normal.
        (Lang::En, _, false) if ratio.is_some() => format!(
            "After {count}{back} the crank is on its mark and another shaft is not. {}",
            ratio.unwrap_or_default()
        ),
        (Lang::De, _, false) if ratio.is_some() => format!(
            "Nach {count}{back} steht die Kurbelwelle auf ihrer Markierung, eine andere Welle nicht. {}",
            ratio.unwrap_or_default()
        ),
        (Lang::En, _, false) if fitted => format!(
            "After {count}{back} the crank is on its mark and another shaft is not yet: normal, turn on."
        ),
        (Lang::De, _, false) if fitted => format!(
            "Nach {count}{back} steht die Kurbelwelle auf ihrer Markierung, eine andere Welle noch nicht: normal, weiterdrehen."
        ),
        (Lang::En, _, false) => format!("After {count}{back} the crank is on its mark."),
        (Lang::De, _, false) => {
            format!("Nach {count}{back} steht die Kurbelwelle auf ihrer Markierung.")
        }
    }
}

/// How far the crank's stripe is from the groove that it was painted at, the shorter way: `48 teeth
/// past its groove`.
pub fn stripe_now(lang: Lang, stripe: &StripeReading) -> String {
    if stripe.nearest_teeth == 0.0 {
        return lang.pick("at its groove", "an seiner Lücke").to_owned();
    }
    let teeth = lang.teeth(stripe.nearest_teeth.abs(), 1);
    match (lang, stripe.nearest_teeth > 0.0) {
        (Lang::En, true) => format!("{teeth} past its groove"),
        (Lang::En, false) => format!("{teeth} before its groove"),
        (Lang::De, true) => format!("{teeth} nach seiner Lücke"),
        (Lang::De, false) => format!("{teeth} vor seiner Lücke"),
    }
}

/// After how many turns the stripe meets its groove again with the mark up, in a sentence.
pub fn stripe_meets(lang: Lang, stripe: &StripeReading) -> String {
    let (now, to_go) = (stripe_now(lang, stripe), lang.turns(stripe.turns_to_go));
    match lang {
        Lang::En => {
            format!("The crank's stripe is {now}. With the mark up they next meet in {to_go}.")
        }
        Lang::De => format!(
            "Der Strich der Kurbelwelle steht {now}. Mit der Markierung oben treffen sie sich in {to_go} wieder."
        ),
    }
}

/// How the drive is seen and which way it runs: `Seen at the belt end. Runs clockwise.`
pub fn seen_from(lang: Lang, crank: Sense) -> &'static str {
    match crank {
        Sense::Clockwise => lang.pick(
            "Seen at the belt end. The crank runs clockwise.",
            "Von der Riemenseite gesehen. Die Kurbelwelle läuft rechtsherum.",
        ),
        Sense::Anticlockwise => lang.pick(
            "Seen at the belt end. The crank runs anticlockwise.",
            "Von der Riemenseite gesehen. Die Kurbelwelle läuft linksherum.",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use job::{Action, Job};
    use layout::Plan;

    const SHIPPED: &str = include_str!("../../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

    fn after_a_turn(lang: Lang, text: &str) -> String {
        let mut job = Job::new(Plan::open(text).unwrap().into());
        job.act(&Action::TurnTo { crank_deg: 360.0 }, false).unwrap();
        crank_state(lang, &advice::readings(&job)).replace('\u{a0}', " ")
    }

    #[test]
    fn a_hair_short_of_its_mark_the_crank_is_not_turned_back() {
        let mut job = Job::new(Plan::open(SHIPPED).unwrap().into());
        let mut at = |crank_deg| {
            job.act(&Action::TurnTo { crank_deg }, false).unwrap();
            let now = advice::readings(&job);
            [crank_angle(Lang::En, &now), turn_of_cycle(Lang::En, &now)].join(" ")
        };
        assert_eq!(at(-0.001), "0° turn 1 of 2");
        assert_eq!(at(-1.0), "−1° turned back");
        assert_eq!(at(719.999), "720° two turns done");
    }

    #[test]
    fn a_camshaft_that_turns_wrong_is_not_called_normal() {
        assert!(after_a_turn(Lang::En, SHIPPED).ends_with("not yet: normal, turn on."));
        let wrong = SHIPPED.replacen("teeth = 48", "teeth = 47", 1);
        let en = after_a_turn(Lang::En, &wrong);
        assert!(!en.contains("normal") && en.contains("it has 48, not 47 teeth"), "{en}");
        let de = after_a_turn(Lang::De, &wrong);
        assert!(!de.contains("normal") && de.contains("Bei 24 Zähnen dort hat sie 48"), "{de}");
    }
}
