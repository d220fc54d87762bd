//! Between which counts a count of teeth may lie, as the doubt about the wheels' centres leaves it.
//!
//! Must not know: who counts.

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

/// What is known of the count of a gap that is `geometric_teeth` by its centres. `doubt` is the drive's.
pub(crate) fn count_known(
    plan: &Plan,
    gap: Gap,
    geometric_teeth: f64,
    doubt: &[f64],
) -> CountKnown {
    let drive = &plan.drive;
    let Some(good_to_mm) = plan.layout.centres_good_to_mm else { return CountKnown::Exactly };
    if tied(drive, gap) || gap.from == gap.to {
        return CountKnown::Exactly;
    }
    let off_teeth = good_to_mm * (doubt[gap.from] + doubt[gap.to]) / drive.belt().pitch_mm;
    let least = libm::round(geometric_teeth - off_teeth) as i64;
    let most = libm::round(geometric_teeth + off_teeth) as i64;
    match most - least {
        0 => CountKnown::Exactly,
        1..=TOLD_WITHIN_TEETH => CountKnown::Between(least, most),
        _ => CountKnown::Not,
    }
}
