//! What an action came to, and what undo and redo would take back or do again.
//!
//! Must not know: why it was done.

use crate::lang::{Lang, Reader};
use job::{Action, Did, Step, TensionerMove};
use layout::TravelUnit;

/// What was done, in one sentence. `names` by wheel index.
pub fn did(reader: Reader, did: &Did, names: &[&str], unit: TravelUnit) -> String {
    let lang = reader.lang;
    let name = |i: usize| names.get(i).copied().unwrap_or_default();
    match did {
        Did::Turned { wheel, deg } => {
            let (shaft, by) = (name(*wheel), lang.degrees(deg.abs()));
            match (lang, *deg < 0.0) {
                (Lang::En, false) => format!("{shaft} turned forward by {by}."),
                (Lang::En, true) => format!("{shaft} turned back by {by}."),
                (Lang::De, false) => format!("{shaft} um {by} vorwärts gedreht."),
                (Lang::De, true) => format!("{shaft} um {by} zurück gedreht."),
            }
        }
        Did::TurnedTo { crank_deg } => {
            let at = lang.degrees(*crank_deg);
            match lang {
                Lang::En => format!("Crank turned to {at}."),
                Lang::De => format!("Kurbelwelle auf {at} gedreht."),
            }
        }
        Did::TensionerMoved { travel, stopped } => {
            let at = match unit {
                TravelUnit::Mm => reader.length(*travel),
                TravelUnit::Deg => lang.degrees(*travel),
            };
            match (lang, stopped) {
                (Lang::En, false) => format!("Tensioner at {at} of travel."),
                (Lang::En, true) => format!("Tensioner at {at} of travel: it goes no further."),
                (Lang::De, false) => format!("Spannrolle bei {at} Weg."),
                (Lang::De, true) => format!("Spannrolle bei {at} Weg: weiter geht es nicht."),
            }
        }
        Did::TeethSet(set) => {
            let parts: Vec<String> = set
                .iter()
                .map(|(wheel, teeth)| {
                    let shaft = name(*wheel);
                    let count = lang.teeth(teeth.unsigned_abs() as f64, 0);
                    match (lang, *teeth) {
                        (Lang::En, 0) => format!("{shaft} in time"),
                        (Lang::De, 0) => format!("{shaft}: Steuerzeit stimmt"),
                        (Lang::En, 1..) => format!("{shaft} {count} ahead"),
                        (Lang::En, _) => format!("{shaft} {count} behind"),
                        (Lang::De, 1..) => format!("{shaft} {count} zu früh"),
                        (Lang::De, _) => format!("{shaft} {count} zu spät"),
                    }
                })
                .collect();
            format!("{}.", parts.join(", "))
        }
    }
}

/// What a step is called in the history: `turn the crank`.
pub fn step_name(lang: Lang, step: &Step) -> &'static str {
    match step {
        Step::Done(action) => action_name(lang, action),
        Step::Opened => lang.pick("change the layout", "Layout wechseln"),
    }
}

fn action_name(lang: Lang, action: &Action) -> &'static str {
    match action {
        Action::Turn { .. } => lang.pick("turn a shaft", "Welle drehen"),
        Action::TurnTo { .. } => lang.pick("turn the crank", "Kurbelwelle drehen"),
        Action::TensionerTo { .. } => lang.pick("move the tensioner", "Spannrolle bewegen"),
        Action::Tensioner(TensionerMove::Back) => {
            lang.pick("draw the tensioner right back", "Spannrolle ganz zurückziehen")
        }
        Action::Tensioner(TensionerMove::BoltUp) => {
            lang.pick("bolt the tensioner up", "Spannrolle anschrauben")
        }
        Action::Tensioner(TensionerMove::PullPin) => {
            lang.pick("take up the slack", "Durchhang wegnehmen")
        }
        Action::SetTeeth(_) => lang.pick("put a shaft teeth out", "Welle um Zähne versetzen"),
    }
}
