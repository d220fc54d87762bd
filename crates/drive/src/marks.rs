//! Timing marks: how far off they are, and when each comes back.
//!
//! Must not know: geometry; all here is whole-number arithmetic of teeth and turns.

use crate::turned::Turned;
use crate::units::{gcd, lcm, wrap_to};

/// How far a sprocket's mark is from its cover mark, in its own teeth, ahead positive, in
/// (−z/2, z/2]. `teeth` are its grooves, `crank_teeth` the crank's.
///
/// Whole turns are taken away in whole numbers, so that the millionth turn reads as the first.
pub fn mark_error_teeth(turned: Turned, teeth: u32, crank_teeth: u32) -> f64 {
    let whole = (i128::from(turned.turns) * i128::from(crank_teeth)).rem_euclid(i128::from(teeth));
    wrap_to(whole as f64 + turned.deg * f64::from(crank_teeth) / 360.0, f64::from(teeth))
}

/// Crank turns until a sprocket's mark is back on its cover mark: z/gcd(z, z of the crank). Two for
/// a camshaft; three for 36 grooves on a crank of 24.
pub fn returns_after_crank_turns(teeth: u32, crank_teeth: u32) -> u64 {
    let z = u64::from(teeth);
    z / gcd(z, u64::from(crank_teeth)).max(1)
}

/// Crank turns until a stripe on the belt stands at the crank's mark again: T/gcd(T, z of the crank).
pub fn stripe_returns_after_crank_turns(belt_teeth: u32, crank_teeth: u32) -> u64 {
    returns_after_crank_turns(belt_teeth, crank_teeth)
}

/// Crank turns until every stripe and every mark meet again at once: the least common multiple of
/// what the belt and each sprocket need. `None` where it does not fit 64 bits.
pub fn all_return_after_crank_turns(
    belt_teeth: u32,
    crank_teeth: u32,
    marked: impl IntoIterator<Item = u32>,
) -> Option<u64> {
    let belt = stripe_returns_after_crank_turns(belt_teeth, crank_teeth);
    marked
        .into_iter()
        .try_fold(belt, |turns, z| lcm(turns, returns_after_crank_turns(z, crank_teeth)))
}

/// How many belt teeth past the crank's mark its stripe stands after `crank_turns` whole turns, in
/// [0, T): N·z mod T.
pub fn stripe_drift_teeth(crank_turns: i64, belt_teeth: u32, crank_teeth: u32) -> u32 {
    let drift = i128::from(crank_turns) * i128::from(crank_teeth);
    drift.rem_euclid(i128::from(belt_teeth).max(1)) as u32
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common practice, no source: two crank turns bring every half-speed and every crank-speed shaft
    /// back on its mark, belt stripes not. The ratios are arithmetic.
    #[test]
    fn two_turns_bring_camshafts_back_but_not_stripes() {
        assert_eq!(returns_after_crank_turns(24, 24), 1);
        assert_eq!(returns_after_crank_turns(48, 24), 2);
        assert_eq!(returns_after_crank_turns(36, 24), 3);
        assert_eq!(returns_after_crank_turns(12, 24), 1, "at twice crank speed");
        assert_eq!(stripe_returns_after_crank_turns(167, 24), 167);
        assert_eq!(all_return_after_crank_turns(167, 24, [24, 48, 48]), Some(334));
        assert_eq!(stripe_drift_teeth(2, 167, 24), 48);
        assert_eq!(stripe_drift_teeth(-1, 167, 24), 143);
    }

    #[test]
    fn a_millionth_turn_reads_as_the_first() {
        let near = mark_error_teeth(Turned { turns: 1, deg: 90.125 }, 48, 24);
        let far = mark_error_teeth(Turned { turns: 2_000_000_001, deg: 90.125 }, 48, 24);
        assert_eq!(near, far);
        assert_eq!(mark_error_teeth(Turned { turns: 1, deg: 0.0 }, 48, 24), 24.0, "half a turn");
    }
}
