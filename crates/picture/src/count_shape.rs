//! What to paint on a new belt before it goes on: a tick at every tooth from one stripe to the next, longer
//! ones to count by, and an arrow along the travel.
//!
//! Must not know: wheels, or how many teeth are right; it is told where the stripes are.

use crate::list::{Class, List, Part};
use drive::{Belt, BeltTooth, DVec2, Pose, rot90};

/// From the belt's back to a tick, mm.
const OFF_MM: f64 = 2.0;
/// Length of a tick, of every fifth and of every tenth, mm.
const TICK_MM: [f64; 3] = [2.2, 4.4, 7.0];

/// The arrow stands so many teeth beyond the middle, where the tag with the count is.
const ARROW_TEETH: usize = 7;

/// Emits the ticks from the stripe on tooth `from` to the one on tooth `to` (beyond the last tooth: round
/// to the first stripe), counted from 0 at `from`; and an arrow past the middle.
pub(crate) fn ticks(list: &mut List, belt: &Belt, pose: &Pose, sense: f64, from: usize, to: usize) {
    for count in 1..to.saturating_sub(from) {
        let Some(tooth) = tooth(pose, from + count) else { continue };
        let length = match count {
            n if n % 10 == 0 => TICK_MM[2],
            n if n % 5 == 0 => TICK_MM[1],
            _ => TICK_MM[0],
        };
        let out = outward(tooth, sense);
        let start = tooth.at + out * (belt.back_mm() + OFF_MM);
        list.begin(Class::CountTick, Part::BeltTooth((from + count) % pose.teeth.len()));
        list.move_to(start);
        list.line_to(start + out * length);
    }
    if let Some(beside) = tooth(pose, from + (to - from) / 2 + ARROW_TEETH) {
        arrow(list, belt, beside, sense);
    }
}

/// The middle of a gap on the pitch line, and the way out from there.
pub(crate) fn tag_at(
    pose: &Pose,
    sense: f64,
    (from, to): (usize, usize),
) -> Option<(DVec2, DVec2)> {
    let middle = tooth(pose, from + (to - from) / 2)?;
    Some((middle.at, outward(middle, sense)))
}

fn tooth(pose: &Pose, number: usize) -> Option<&BeltTooth> {
    pose.teeth.get(number % pose.teeth.len().max(1))
}

fn outward(tooth: &BeltTooth, sense: f64) -> DVec2 {
    rot90(tooth.direction) * -sense
}

/// An arrowhead on a short shaft, on the belt's back beyond the ticks, the way the belt runs.
fn arrow(list: &mut List, belt: &Belt, tooth: &BeltTooth, sense: f64) {
    let out = outward(tooth, sense);
    let middle = tooth.at + out * (belt.back_mm() + OFF_MM + TICK_MM[2] + 3.0);
    let along = tooth.direction;
    let tip = middle + along * 8.0;
    list.begin(Class::Arrow, Part::Belt(None));
    list.move_to(middle - along * 8.0);
    list.line_to(tip);
    list.move_to(tip - along * 4.0 + out * 2.8);
    list.line_to(tip);
    list.line_to(tip - along * 4.0 - out * 2.8);
}
