//! Where the crank stands, and the stripe that the belt carries away.
//!
//! Must not know: other shafts.

use crate::lang::Lang;
use advice::{Readings, StripeReading};

/// The crank's angle over all its turns: `412.5°`.
pub fn crank_angle(lang: Lang, readings: &Readings) -> String {
    lang.degrees(readings.crank_deg)
}

/// Which turn the crank is in: `turn 1 of 2`; beyond the first cycle the turns are counted on.
pub fn turn_of_cycle(lang: Lang, readings: &Readings) -> String {
    let turn = readings.crank_turns + 1;
    let at_end = readings.crank_part_deg == 0.0 && readings.crank_turns == 2;
    match (turn, at_end) {
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

/// The dial's setting as a screen reader says it.
pub fn dial_spoken(lang: Lang, readings: &Readings) -> String {
    let part = lang.degrees(readings.crank_part_deg);
    let turns = lang.number(readings.crank_turns as f64, 0);
    match (lang, readings.crank_turns) {
        (_, 0) => part,
        (Lang::En, 1) => format!("1 turn and {part}"),
        (Lang::En, _) => format!("{turns} turns and {part}"),
        (Lang::De, 1) => format!("1 Umdrehung und {part}"),
        (Lang::De, _) => format!("{turns} Umdrehungen und {part}"),
    }
}

/// Where the crank stands, in a sentence.
pub fn crank_state(lang: Lang, readings: &Readings) -> String {
    let turns = readings.crank_turns;
    let whole = readings.crank_part_deg == 0.0;
    let all_on = readings.shafts.iter().all(|s| s.on_its_mark);
    let count = lang.turns(turns.unsigned_abs());
    match (lang, whole, turns) {
        (Lang::En, true, 0) if all_on => "All marks are on.".to_owned(),
        (Lang::De, true, 0) if all_on => "Alle Markierungen stehen.".to_owned(),
        (Lang::En, true, 0) => "The crank is on its mark.".to_owned(),
        (Lang::De, true, 0) => "Die Kurbelwelle steht auf ihrer Markierung.".to_owned(),
        (Lang::En, true, _) if all_on => {
            format!("All marks are on again after {count}{}.", back(lang, turns))
        }
        (Lang::De, true, _) if all_on => {
            format!("Alle Markierungen stehen wieder nach {}{}.", dative(turns), back(lang, turns))
        }
        (Lang::En, true, _) => {
            format!("After {count}{} the crank is on its mark.", back(lang, turns))
        }
        (Lang::De, true, _) => format!(
            "Nach {}{} steht die Kurbelwelle auf ihrer Markierung.",
            dative(turns),
            back(lang, turns)
        ),
        (Lang::En, false, _) => {
            format!("The crank is {} past its mark.", lang.degrees(readings.crank_part_deg))
        }
        (Lang::De, false, _) => format!(
            "Die Kurbelwelle steht {} hinter ihrer Markierung.",
            lang.degrees(readings.crank_part_deg)
        ),
    }
}

fn dative(turns: i64) -> String {
    let n = turns.unsigned_abs();
    if n == 1 { "1\u{a0}Umdrehung".to_owned() } else { format!("{n}\u{a0}Umdrehungen") }
}

fn back(lang: Lang, turns: i64) -> &'static str {
    if turns < 0 { lang.pick(" back", " rückwärts") } else { "" }
}

/// How far the crank's stripe has been carried: `48 teeth past the mark`.
pub fn stripe_now(lang: Lang, stripe: &StripeReading) -> String {
    if stripe.past_mark_teeth == 0.0 {
        return lang.pick("at the mark", "an der Markierung").to_owned();
    }
    let teeth = lang.teeth(stripe.past_mark_teeth, 1);
    match lang {
        Lang::En => format!("{teeth} past the mark"),
        Lang::De => format!("{teeth} hinter der Markierung"),
    }
}

/// After how many turns the stripe meets the mark, in a sentence.
pub fn stripe_meets(lang: Lang, stripe: &StripeReading) -> String {
    let every = stripe.meets_after_turns;
    let to_go = lang.turns(stripe.turns_to_go);
    match (lang, stripe.turns_to_go) {
        (Lang::En, 0) => format!(
            "The crank's stripe is at the mark. It meets it again only after {}.",
            lang.turns(every)
        ),
        (Lang::De, 0) => format!(
            "Der Strich der Kurbelwelle steht an der Markierung. Er trifft sie erst nach {} wieder.",
            lang.turns(every)
        ),
        (Lang::En, _) => {
            format!("The crank's stripe is {}. They meet in {to_go}.", stripe_now(lang, stripe))
        }
        (Lang::De, _) => format!(
            "Der Strich der Kurbelwelle steht {}. Sie treffen sich in {to_go}.",
            stripe_now(lang, stripe)
        ),
    }
}
