//! How tight every span is while wheels take moments from the belt.
//!
//! Must not know: why a wheel takes one.
//!
//! Along the travel tension grows at a sprocket by what its shaft takes, moment over pitch radius; at a wheel
//! that the belt is drawn over by e^(μβ); at a free wheel not at all. The crank makes up the rest. So every
//! span is a·y + b with y the tension that leaves the crank, and one condition is left for y: a spring
//! balances the two spans at its own wheel; a tensioner that is locked keeps the belt's length, and with it
//! the mean tension.

use crate::drive::Drive;
use crate::tension::slide::grip;
use crate::units::rim_force_n;
use alloc::vec::Vec;
use glam::DVec2;

/// What sets the tension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tensioned {
    /// A spring, free to follow: N along a slide, N·mm about a pivot, in the sense that tightens.
    Spring {
        /// Force or moment.
        pull: f64,
    },
    /// Locked in its place.
    Locked {
        /// Tension all round with nothing turning, N.
        resting_n: f64,
    },
}

/// What a wheel takes from the belt that runs over it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Takes {
    /// A moment, N·m, positive where it holds the belt back, as friction does while the belt runs forward;
    /// 0 for a free wheel. What is given for the crank is what it takes besides driving the belt.
    Moment(f64),
    /// A smooth wheel that does not turn: the belt slides over it with this coefficient of friction.
    Slides(f64),
}

/// How tight the belt is.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Tensions {
    /// Tension of each span, N, 0 or more; span i leaves wheel i.
    pub spans_n: Vec<f64>,
    /// Moment that turns the crank, N·m, forward positive.
    pub crank_n_m: f64,
    /// Whether a span would have to push: the moments are more than the tensioner holds, and a run hangs
    /// slack. Its tension is told as 0.
    pub gives_way: bool,
}

/// No tension balances the spring: a wheel that the belt is drawn over pulls the tensioner along with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoBalance;

/// How tight each span is with the belt tight and its wheels taking `takes`, one for each wheel; a wheel
/// beyond the list is free. Belt running forward; for backwards give the moments their other sign.
///
/// # Errors
/// Where no tension balances the tensioner.
pub fn tensions(
    drive: &Drive,
    tensioned: Tensioned,
    takes: &[Takes],
) -> Result<Tensions, NoBalance> {
    let stance = drive.taut_stance();
    let n = stance.discs.len();
    let take = |i: usize| takes.get(i).copied().unwrap_or(Takes::Moment(0.0));
    // Each span as (a, b).
    let mut spans = Vec::with_capacity(n);
    let mut here = (1.0, 0.0);
    spans.push(here);
    for i in 1..n {
        here = match take(i) {
            Takes::Moment(n_m) => (here.0, here.1 + rim_force_n(n_m, stance.discs[i].radius)),
            Takes::Slides(friction) => {
                let more = grip(friction, stance.path.wraps_rad[i]);
                (here.0 * more, here.1 * more)
            }
        };
        spans.push(here);
    }
    let (a, b, wanted) = match tensioned {
        Tensioned::Spring { pull } => {
            let t = drive.tensioner().wheel;
            let before = if t == 0 { n - 1 } else { t - 1 };
            let lever = tensioner_lever(drive);
            let arriving = stance.path.spans[before].direction.dot(lever);
            let leaving = stance.path.spans[t].direction.dot(lever);
            let balance =
                |of: fn((f64, f64)) -> f64| of(spans[before]) * arriving - of(spans[t]) * leaving;
            (balance(|s| s.0), balance(|s| s.1), pull)
        }
        Tensioned::Locked { resting_n } => {
            let lengths = shared_lengths_mm(drive);
            let sum = |of: fn((f64, f64)) -> f64| {
                spans.iter().zip(&lengths).map(|(s, mm)| of(*s) * mm).sum::<f64>()
            };
            (sum(|s| s.0), sum(|s| s.1), resting_n * stance.path.length_mm)
        }
    };
    let leaves_crank = (wanted - b) / a;
    if !(a > 0.0 && leaves_crank.is_finite()) {
        return Err(NoBalance);
    }
    let all: Vec<f64> = spans.iter().map(|(a, b)| a * leaves_crank + b).collect();
    let own = match take(0) {
        Takes::Moment(n_m) => n_m,
        Takes::Slides(_) => 0.0,
    };
    let drives_n = all[n - 1] - all[0];
    let gives_way = all.iter().any(|tension| *tension < -ROUNDING_N);
    Ok(Tensions {
        crank_n_m: drives_n / rim_force_n(1.0, stance.discs[0].radius) + own,
        spans_n: all.into_iter().map(|tension| if tension > 0.0 { tension } else { 0.0 }).collect(),
        gives_way,
    })
}

/// Below this a tension is none, N.
const ROUNDING_N: f64 = 1e-9;

/// How the tensioner's wheel moves with its travel where the belt is tight, mm per mm or mm per radian.
pub(super) fn tensioner_lever(drive: &Drive) -> DVec2 {
    let t = drive.tensioner();
    t.centre_rate(drive.wheels()[t.wheel].centre, drive.taut().travel)
}

/// The belt shared out to its spans: each with half of the wrap at either end, mm; together the path.
pub(super) fn shared_lengths_mm(drive: &Drive) -> Vec<f64> {
    let stance = drive.taut_stance();
    let n = stance.discs.len();
    let half = |i: usize| stance.discs[i].radius * stance.path.wraps_rad[i] / 2.0;
    let spans = stance.path.spans.iter().enumerate();
    spans.map(|(i, span)| half(i) + span.length + half((i + 1) % n)).collect()
}
