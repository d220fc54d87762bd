//! Does it add up? The belt's known teeth against the path that the layout measures, counted teeth against
//! centres, and, where they disagree, the slips that would explain it: each undone on trial and looked at.
//!
//! Must not know: languages. It says what *would* fit, never what is.

mod digits;
mod measure;
mod slip;

pub use slip::{Mistyped, Slip};

use crate::ratio::{CamshaftTeeth, camshafts_out, camshafts_out_with};
use layout::{Edit, Layout, Sketch, Value, apply};
use measure::{Measure, closes, measure};
use serde::Serialize;
use slip::{Trial, trials};
use std::cmp::Ordering;

/// With the belt and every count within this of the path, teeth, a layout adds up: about what a best tooth
/// leaves, and a tensioner pinned a little short of tight.
const ADDS_UP_TEETH: f64 = 0.45;
/// What is left over below this is no better or worse, teeth.
const EVEN_TEETH: f64 = 0.1;
/// What the rarest slip counts more than an everyday one, in teeth left over.
const RARE_TEETH: f64 = 0.5;
/// What a tensioner counts that moves square to its pull, in teeth left over: those that people build move
/// nearly along it (from memory, no source). It tells pivots apart that fit alike.
const ASKEW_TEETH: f64 = 0.3;
/// A slip that leaves more than this over explains nothing, teeth.
const EXPLAINS_TEETH: f64 = 1.0;
/// Most causes told.
const MOST_CAUSES: usize = 5;

/// Whether a layout adds up.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AddsUp {
    /// Whether it does.
    pub adds_up: bool,
    /// Teeth of the belt as the layout has them.
    pub belt_teeth: u32,
    /// The path with the tensioner where it is bolted up, belt teeth; null where there is none.
    pub path_teeth: Option<f64>,
    /// What the belt has over that path, teeth, negative where it is short.
    pub misfit_teeth: Option<f64>,
    /// The same, mm.
    pub misfit_mm: Option<f64>,
    /// Fewest and most whole teeth of belts that would fit over the tensioner's travel; null where none would.
    pub fits_teeth: Option<[u32; 2]>,
    /// Counted teeth against the centres.
    pub counts: Vec<CountMisfit>,
    /// Camshaft sprockets that do not have twice the crank's teeth: told beside, whether or not it adds up.
    pub camshafts_out: Vec<CamshaftTeeth>,
    /// Slips that would explain it, the likeliest first; none where it adds up.
    pub causes: Vec<Cause>,
}

/// A count that somebody made against what the centres give.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CountMisfit {
    /// The wheel counted from.
    pub from: String,
    /// The wheel counted to.
    pub to: String,
    /// Teeth counted.
    pub counted_teeth: u32,
    /// What it has over the path between the two, teeth.
    pub misfit_teeth: f64,
}

/// A slip that would explain it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cause {
    /// What.
    #[serde(skip)]
    pub slip: Slip,
    /// The key concerned, as problems name it.
    pub key: String,
    /// What would stand there, as the file writes it; for a wheel in another place of the order, its number.
    pub to: String,
    /// To how many teeth belt and counts would fit then, all differences together.
    pub fits_to_teeth: f64,
    /// The change.
    #[serde(skip)]
    pub edit: Edit,
}

impl Cause {
    /// `text` with the slip undone; `None` where that cannot be.
    pub fn applied(&self, text: &str) -> Option<String> {
        apply(text, std::slice::from_ref(&self.edit)).ok()
    }
}

/// Whether the layout of this text adds up; `None` where the text cannot be read.
pub fn adds_up(text: &str) -> Option<AddsUp> {
    Sketch::of(text).map(|sketch| of(&sketch))
}

fn of(sketch: &Sketch) -> AddsUp {
    let Sketch { layout, parts } = sketch;
    let now = measure(layout, parts);
    let left = now.as_ref().filter(|_| closes(layout, parts)).map(Measure::left_over_teeth);
    let counts = now.as_ref().map_or_else(Vec::new, |now| {
        let counts = layout.counts.iter().zip(&now.counts_teeth);
        counts
            .map(|(count, misfit_teeth)| CountMisfit {
                from: layout.wheels[count.from].id.clone(),
                to: layout.wheels[count.to].id.clone(),
                counted_teeth: count.teeth,
                misfit_teeth: *misfit_teeth,
            })
            .collect()
    });
    let adds_up =
        left.is_some() && now.as_ref().is_some_and(|now| now.worst_teeth() < ADDS_UP_TEETH);
    let pitch_mm = parts.belt.pitch_mm;
    AddsUp {
        adds_up,
        belt_teeth: parts.belt.teeth,
        path_teeth: now.as_ref().map(|now| f64::from(parts.belt.teeth) - now.belt_teeth),
        misfit_teeth: now.as_ref().map(|now| now.belt_teeth),
        misfit_mm: now.as_ref().map(|now| now.belt_teeth * pitch_mm),
        fits_teeth: measure::fits_teeth(parts),
        counts,
        camshafts_out: camshafts_out(layout),
        causes: if adds_up { Vec::new() } else { causes(sketch, left) },
    }
}

/// The slips that would explain it; `left` is what is left over now, if the drive can be at all.
fn causes(sketch: &Sketch, left: Option<f64>) -> Vec<Cause> {
    let most = left.map_or(EXPLAINS_TEETH, |left| EXPLAINS_TEETH.min(0.6 * left));
    let out_now = camshafts_out(&sketch.layout).len();
    let look = |trial: Trial| {
        let rights = camshafts_righted(&sketch.layout, &trial, out_now);
        // A camshaft that turns as it must is not made one that does not.
        if rights == Ordering::Greater {
            return None;
        }
        let then = measure(&sketch.layout, &trial.parts)?;
        let left = then.left_over_teeth();
        let rights = rights == Ordering::Less;
        let most = if rights { EXPLAINS_TEETH } else { most };
        let closes = left < most && closes(&sketch.layout, &trial.parts);
        let cost = left.max(EVEN_TEETH)
            + RARE_TEETH * trial.slip.rare()
            + ASKEW_TEETH * (1.0 - then.along_pull);
        closes.then_some((trial, left, rights, cost))
    };
    let mut all: Vec<(Trial, f64, bool, f64)> =
        trials(&sketch.layout, &sketch.parts).into_iter().filter_map(look).collect();
    // While a camshaft cannot turn as it must, what leaves it so explains nothing.
    if all.iter().any(|(_, _, rights, _)| *rights) {
        all.retain(|(_, _, rights, _)| *rights);
    }
    all.sort_by(|(.., a), (.., b)| a.total_cmp(b));
    all.truncate(MOST_CAUSES);
    let cause = |(Trial { slip, edit, .. }, fits_to_teeth, _, _)| {
        let (key, to) = told(&edit);
        Cause { slip, key, to, fits_to_teeth, edit }
    };
    all.into_iter().map(cause).collect()
}

/// How many camshafts do not turn once for two turns of the crank then, against `out_now`.
fn camshafts_righted(layout: &Layout, trial: &Trial, out_now: usize) -> Ordering {
    match trial.slip {
        Slip::SprocketTeeth { wheel, teeth } => {
            let with = |i: usize| if i == wheel { Some(teeth) } else { layout.wheels[i].teeth() };
            camshafts_out_with(layout, with).len().cmp(&out_now)
        }
        _ => Ordering::Equal,
    }
}

fn told(edit: &Edit) -> (String, String) {
    match edit {
        Edit::Set { path, value } => {
            let value = match value {
                Value::Text(text) => format!("{text:?}"),
                Value::Number(number) => number.to_string(),
                Value::Numbers(numbers) => format!("{numbers:?}"),
                Value::Flag(flag) => flag.to_string(),
            };
            (path.clone(), value)
        }
        Edit::Move { list, from, to } => (format!("{list}[{from}]"), to.to_string()),
        Edit::Remove { path } => (path.clone(), String::new()),
        Edit::Insert { list, at, .. } => (format!("{list}[{at}]"), String::new()),
    }
}
