//! Between which counts a count of teeth may lie, as the doubt about the wheels' centres leaves it.
//!
//! Must not know: who counts.

use crate::HALF_A_TOOTH;
use crate::fitting::tied;
use drive::Gap;
use layout::Plan;
use serde::Serialize;

/// A range wider than this, teeth, is no help: whoever counts with their eyes open does better.
const TOLD_WITHIN_TEETH: i64 = 8;

/// What is known of a count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CountKnown {
    /// That it is this one, or nobody has said how far the centres may be off.
    Exactly,
    /// That it lies between these, both included.
    Between(i64, i64),
    /// Hardly anything.
    Not,
}

/// What is known of the count of a gap that holds `teeth` in time and is `geometric_teeth` by its centres.
/// `doubt` is the drive's.
pub(crate) fn count_known(
    plan: &Plan,
    gap: Gap,
    teeth: i64,
    geometric_teeth: f64,
    doubt: &[f64],
) -> CountKnown {
    let drive = &plan.drive;
    let Some(good_to_mm) = plan.layout.centres_good_to_mm else { return CountKnown::Exactly };
    let ends = [gap.from, gap.to];
    if tied(drive, gap) || ends.iter().all(|end| good_to_mm < holds_within_mm(plan, *end, doubt)) {
        return CountKnown::Exactly;
    }
    let off_teeth = good_to_mm * (doubt[gap.from] + doubt[gap.to]) / drive.belt().pitch_mm;
    let least = libm::round(geometric_teeth - off_teeth) as i64;
    let most = libm::round(geometric_teeth + off_teeth) as i64;
    // An end that may be a tooth off leaves the count one.
    let (least, most) = (least.min(teeth - 1).max(1), most.max(teeth + 1));
    match most - least {
        ..=TOLD_WITHIN_TEETH => CountKnown::Between(least, most),
        _ => CountKnown::Not,
    }
}

/// How far off every centre may be for the tooth of sprocket `k` to stay the nearest, mm: each end is the
/// nearest whole tooth while it is off by less than half of one. Without end for the crank.
pub(crate) fn holds_within_mm(plan: &Plan, k: usize, doubt: &[f64]) -> f64 {
    let drive = &plan.drive;
    let off = (drive.best_tooth_deg()[k] / drive.crank_deg_per_tooth()).abs();
    let room = if off < HALF_A_TOOTH { HALF_A_TOOTH - off } else { 0.0 };
    if doubt[k] > 0.0 { room * drive.belt().pitch_mm / doubt[k] } else { f64::INFINITY }
}
