//! Angles that cannot be mistaken for one another, and the whole-number arithmetic of teeth.
//!
//! Must not know: wheels, belts, or who is asking.

use core::f64::consts::{PI, TAU};
use glam::DVec2;

/// Newton millimetres in a newton metre.
pub(crate) const N_MM_PER_N_M: f64 = 1000.0;

/// Force at the rim of a wheel of this radius that a moment comes to, N: M/r. `radius_mm` above 0.
pub fn rim_force_n(moment_n_m: f64, radius_mm: f64) -> f64 {
    moment_n_m * N_MM_PER_N_M / radius_mm
}

/// A direction or a turn in the plane, held in radians, anticlockwise positive, zero along +x.
///
/// People read and write directions as on a clock face, in degrees clockwise from twelve; the two
/// `clock` functions are the only place where that is turned round.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct Angle(f64);

impl Angle {
    /// From radians, anticlockwise positive.
    pub const fn from_rad(rad: f64) -> Self {
        Self(rad)
    }

    /// From degrees, anticlockwise positive.
    pub fn from_deg(deg: f64) -> Self {
        Self(deg * (PI / 180.0))
    }

    /// The direction that a clock's hand has at `deg` degrees clockwise from twelve.
    ///
    /// ```
    /// let three_o_clock = drive::Angle::from_clock_deg(90.0);
    /// assert!((three_o_clock.unit().x - 1.0).abs() < 1e-15);
    /// ```
    pub fn from_clock_deg(deg: f64) -> Self {
        Self::from_deg(90.0 - deg)
    }

    /// The direction of a vector; zero for a vector without length.
    pub fn of(v: DVec2) -> Self {
        Self(libm::atan2(v.y, v.x))
    }

    /// In radians, as it was given (not reduced to one turn).
    pub const fn rad(self) -> f64 {
        self.0
    }

    /// In degrees, anticlockwise positive, not reduced to one turn.
    pub fn deg(self) -> f64 {
        self.0 * (180.0 / PI)
    }

    /// As on a clock face: degrees clockwise from twelve, in [0, 360).
    pub fn clock_deg(self) -> f64 {
        let deg = libm::fmod(90.0 - self.deg(), 360.0);
        if deg < 0.0 { deg + 360.0 } else { deg }
    }

    /// The unit vector in this direction.
    pub fn unit(self) -> DVec2 {
        let (sin, cos) = libm::sincos(self.0);
        DVec2::new(cos, sin)
    }

    /// This direction turned on by `rad` radians, anticlockwise positive.
    pub fn turned(self, rad: f64) -> Self {
        Self(self.0 + rad)
    }
}

/// `rad` brought into (−π, π] by whole turns.
pub fn wrap_rad(rad: f64) -> f64 {
    let turns = libm::ceil(rad / TAU - 0.5);
    rad - turns * TAU
}

/// `x` brought into (−n/2, n/2] by whole multiples of `n`.
pub fn wrap_to(x: f64, n: f64) -> f64 {
    x - libm::ceil(x / n - 0.5) * n
}

/// The greatest whole number that divides both; `gcd(0, n)` is `n`.
pub fn gcd(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// The least whole number that both divide; `None` where it does not fit 64 bits or one is zero.
pub fn lcm(a: u64, b: u64) -> Option<u64> {
    if a == 0 || b == 0 { None } else { (a / gcd(a, b)).checked_mul(b) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_face_runs_the_other_way() {
        for (clock, x, y) in [(0.0, 0.0, 1.0), (90.0, 1.0, 0.0), (180.0, 0.0, -1.0)] {
            let u = Angle::from_clock_deg(clock).unit();
            assert!((u - DVec2::new(x, y)).length() < 1e-15);
        }
        assert!((Angle::from_clock_deg(359.5).clock_deg() - 359.5).abs() < 1e-12);
        assert!(
            (Angle::from_rad(-7.0).clock_deg()
                - Angle::of(Angle::from_rad(-7.0).unit()).clock_deg())
            .abs()
                < 1e-12
        );
    }

    #[test]
    fn half_a_turn_is_kept_positive() {
        assert_eq!(wrap_rad(PI), PI);
        assert!((wrap_rad(-PI) - PI).abs() < 1e-15);
        assert_eq!(wrap_to(24.0, 48.0), 24.0);
        assert_eq!(wrap_to(-24.0, 48.0), 24.0);
        assert_eq!(wrap_to(47.0, 48.0), -1.0);
    }

    #[test]
    fn whole_numbers() {
        assert_eq!(gcd(36, 24), 12);
        assert_eq!(lcm(167, 2), Some(334));
        assert_eq!(lcm(u64::MAX, 2), None);
        assert_eq!(lcm(0, 2), None);
    }
}
