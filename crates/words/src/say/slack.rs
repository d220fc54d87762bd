//! Slack in words, and where the tensioner stands.
//!
//! Must not know: who dragged whom.

use crate::lang::{Lang, Reader};
use crate::say::travel;
use advice::{Readings, RunReading, TensionerReading};
use job::TensionerState;
use layout::TravelUnit;

/// Slack below this is hardly any, teeth.
const HARDLY_TEETH: f64 = 0.1;

/// A run's name: `Crankshaft → Left camshaft`.
pub fn run_name(run: &RunReading, names: &[&str]) -> String {
    let name = |i: usize| names.get(i).copied().unwrap_or_default();
    format!("{} → {}", name(run.from), name(run.to))
}

/// Which side a run is with the engine running: the crank pulls the one that runs into it, and lets go
/// the one that leaves it. Empty for the others.
pub fn run_side(lang: Lang, run: &RunReading, crank: usize) -> &'static str {
    if run.to == crank {
        lang.pick("tight side", "Zugtrum")
    } else if run.from == crank {
        lang.pick("slack side", "Leertrum")
    } else {
        ""
    }
}

/// A run's slack: `tight`, `21.0 mm, 2.2 teeth`.
pub fn slack_cell(reader: Reader, run: &RunReading) -> String {
    if run.slack_mm == 0.0 {
        return reader.lang.pick("tight", "straff").to_owned();
    }
    amount(reader, run)
}

/// `21.0 mm, 2.2 teeth`; of less than a tenth of a tooth, `0.4 mm, hardly any`.
fn amount(reader: Reader, run: &RunReading) -> String {
    let lang = reader.lang;
    let length = reader.length(run.slack_mm);
    if run.slack_teeth < HARDLY_TEETH {
        return format!("{length}, {}", lang.pick("hardly any", "kaum etwas"));
    }
    format!("{length}, {}", lang.teeth(run.slack_teeth, 1))
}

/// The same in as few letters as a tag has room for; empty where there is hardly any.
pub fn slack_tag(reader: Reader, run: &RunReading) -> String {
    if run.slack_teeth < HARDLY_TEETH {
        return String::new();
    }
    reader.lang.teeth(run.slack_teeth, 1)
}

/// Where the slack hangs, in a sentence; that the belt is tight if nowhere.
pub fn slack_sentence(reader: Reader, readings: &Readings, names: &[&str]) -> String {
    let lang = reader.lang;
    if !readings.belt_on {
        return lang.pick("The belt is off.", "Der Riemen ist ab.").to_owned();
    }
    let name = |i: usize| names.get(i).copied().unwrap_or_default();
    let hanging: Vec<String> = readings
        .runs
        .iter()
        .filter(|run| run.slack_mm > 0.0)
        .map(|run| {
            let slack = amount(reader, run);
            let (from, to) = (name(run.from), name(run.to));
            match lang {
                Lang::En => format!("{slack}, in the run from {from} to {to}"),
                Lang::De => format!("{slack}, im Trum von {from} nach {to}"),
            }
        })
        .collect();
    if hanging.is_empty() {
        return lang.pick("The belt is tight.", "Der Riemen ist straff.").to_owned();
    }
    format!("{} {}.", lang.pick("Slack:", "Lose:"), hanging.join("; "))
}

/// Where the tensioner stands, in a sentence.
pub fn tensioner_sentence(
    reader: Reader,
    reading: &TensionerReading,
    unit: TravelUnit,
    belt_on: bool,
) -> String {
    let lang = reader.lang;
    let amount = |by: f64| travel(reader, by, unit);
    let at = amount(reading.travel);
    if reading.travel >= reading.tight && belt_on {
        let pin_out = reading.state == TensionerState::PinOut;
        return match (lang, pin_out) {
            (Lang::En, true) => format!("Pin out, it holds the belt tight, at {at} of travel."),
            (Lang::En, false) => format!("It holds the belt tight, at {at} of travel."),
            (Lang::De, true) => format!("Stift gezogen: Sie hält den Riemen straff, bei {at} Weg."),
            (Lang::De, false) => format!("Sie hält den Riemen straff, bei {at} Weg."),
        };
    }
    let short = amount(reading.tight - reading.travel);
    match (lang, reading.state) {
        (Lang::En, TensionerState::Back) => format!("Fully back: {short} short of tight."),
        (Lang::En, TensionerState::DrawnBack) => format!("Drawn back: {short} short of tight."),
        (Lang::En, TensionerState::Pinned) => {
            format!("Bolted up, pin in, at {at} of travel: {short} short of tight.")
        }
        (Lang::En, TensionerState::PinOut) => {
            format!("Pin out, at {at} of travel: {short} short of tight.")
        }
        (Lang::En, TensionerState::Locked) => {
            format!("Locked at {at} of travel: {short} short of tight.")
        }
        (Lang::De, TensionerState::Back) => format!("Ganz zurück: {short} bis straff."),
        (Lang::De, TensionerState::DrawnBack) => format!("Zurückgezogen: {short} bis straff."),
        (Lang::De, TensionerState::Pinned) => {
            format!("Angeschraubt, Stift steckt, bei {at} Weg: {short} bis straff.")
        }
        (Lang::De, TensionerState::PinOut) => {
            format!("Stift gezogen, bei {at} Weg: {short} bis straff.")
        }
        (Lang::De, TensionerState::Locked) => {
            format!("Festgezogen bei {at} Weg: {short} bis straff.")
        }
    }
}
