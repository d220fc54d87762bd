//! A belt drawn over a wheel that no longer turns (Euler, Eytelwein).
//!
//! Must not know: why it does not turn, or how hot anything becomes.
//!
//! Friction is an estimate: rubber on dry steel is given as 0.5 to 0.6, belts in handbooks as 0.25 to 0.3,
//! and the belt's back and its toothed face differ. So it is taken as a range, and gives one.

use crate::drive::Drive;
use crate::tension::spans::{NoBalance, Takes, Tensioned, tensions};
use alloc::vec;

/// By how much a belt that slides over a wheel is tighter where it leaves: e^(μβ), `friction` μ 0 or more,
/// `wrap_rad` β.
pub fn grip(friction: f64, wrap_rad: f64) -> f64 {
    libm::exp(friction * wrap_rad)
}

/// What becomes of the belt at a wheel that does not turn. Ranges are [with the least friction, with the
/// most].
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seized {
    /// A smooth wheel: the belt slides over it.
    Slides {
        /// Tension where the belt meets it, N.
        meets_n: [f64; 2],
        /// Tension where it leaves, N.
        leaves_n: [f64; 2],
        /// The difference, N: with the belt's speed in m/s the heat in W.
        friction_n: [f64; 2],
        /// What it costs at the crank beside a free wheel, N·m.
        crank_n_m: [f64; 2],
    },
    /// A sprocket: the belt cannot slide. It strips its teeth or jumps, and no figure says when.
    StripsOrJumps,
}

/// Wheel `wheel` seized, the others taking `takes`; `friction` is the range of μ, low to high.
///
/// # Errors
/// Where no tension balances the tensioner.
pub fn seized(
    drive: &Drive,
    tensioned: Tensioned,
    takes: &[Takes],
    wheel: usize,
    friction: [f64; 2],
) -> Result<Seized, NoBalance> {
    let n = drive.wheels().len();
    if drive.wheels().get(wheel).is_none_or(|w| w.teeth().is_some()) {
        return Ok(Seized::StripsOrJumps);
    }
    let before = if wheel == 0 { n - 1 } else { wheel - 1 };
    let free = tensions(drive, tensioned, takes)?;
    let mut with = vec![Takes::Moment(0.0); n];
    with[..takes.len().min(n)].copy_from_slice(&takes[..takes.len().min(n)]);
    let mut at = |friction: f64| {
        with[wheel] = Takes::Slides(friction);
        tensions(drive, tensioned, &with)
    };
    let [low, high] = [at(friction[0])?, at(friction[1])?];
    let both = |of: &dyn Fn(&super::Tensions) -> f64| [of(&low), of(&high)];
    Ok(Seized::Slides {
        meets_n: both(&|t| t.spans_n[before]),
        leaves_n: both(&|t| t.spans_n[wheel]),
        friction_n: both(&|t| t.spans_n[wheel] - t.spans_n[before]),
        crank_n_m: both(&|t| t.crank_n_m - free.crank_n_m),
    })
}
