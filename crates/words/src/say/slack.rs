//! Slack in words, and where the tensioner stands.
//!
//! Must not know: who dragged whom.

use crate::lang::{Lang, Reader};
use advice::{Readings, RunReading, TensionerReading};
use layout::TravelUnit;

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
    format!("{}, {}", reader.length(run.slack_mm), reader.lang.teeth(run.slack_teeth, 1))
}

/// Where the slack hangs, in a sentence; that the belt is tight if nowhere.
pub fn slack_sentence(reader: Reader, readings: &Readings, names: &[&str]) -> String {
    let lang = reader.lang;
    let name = |i: usize| names.get(i).copied().unwrap_or_default();
    let hanging: Vec<String> = readings
        .runs
        .iter()
        .filter(|run| run.slack_mm > 0.0)
        .map(|run| {
            let (length, teeth) = (reader.length(run.slack_mm), lang.teeth(run.slack_teeth, 1));
            let (from, to) = (name(run.from), name(run.to));
            match lang {
                Lang::En => format!("{length}, {teeth}, in the run from {from} to {to}"),
                Lang::De => format!("{length}, {teeth}, im Trum von {from} nach {to}"),
            }
        })
        .collect();
    if hanging.is_empty() {
        return lang.pick("The belt is tight.", "Der Riemen ist straff.").to_owned();
    }
    format!("{} {}.", lang.pick("Slack:", "Lose:"), hanging.join("; "))
}

/// Where the tensioner stands, in a sentence.
pub fn tensioner_sentence(reader: Reader, reading: &TensionerReading, unit: TravelUnit) -> String {
    let lang = reader.lang;
    let amount = |travel: f64| match unit {
        TravelUnit::Mm => reader.length(travel),
        TravelUnit::Deg => lang.degrees(travel),
    };
    if reading.travel >= reading.tight {
        return match lang {
            Lang::En => {
                format!("It holds the belt tight, at {} of travel.", amount(reading.travel))
            }
            Lang::De => format!("Sie hält den Riemen straff, bei {} Weg.", amount(reading.travel)),
        };
    }
    let back = amount(reading.tight - reading.travel);
    let right_back = reading.travel <= reading.right_back;
    match (lang, right_back) {
        (Lang::En, true) => format!("Fully back: {back} short of tight."),
        (Lang::En, false) => format!("Drawn back: {back} short of tight."),
        (Lang::De, true) => format!("Ganz zurück: {back} bis straff."),
        (Lang::De, false) => format!("Zurückgezogen: {back} bis straff."),
    }
}
