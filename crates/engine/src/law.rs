//! The textbook laws by which a cam lifts: displacement, slope and their inverse, in units of the
//! whole rise.
//!
//! Must not know: millimetres, degrees, or valves.

use core::f64::consts::PI;

/// How a valve rises from its seat; it falls the same way backwards.
///
/// u runs from 0 to 1 over the rise, s is lift over greatest lift.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Law {
    /// s = (1 − cos πu)/2. Acceleration jumps at the seat.
    Harmonic,
    /// s = u − sin(2πu)/2π.
    Cycloidal,
    /// s = 10u³ − 15u⁴ + 6u⁵.
    Polynomial345,
    /// s = 35u⁴ − 84u⁵ + 70u⁶ − 20u⁷.
    Polynomial4567,
}

impl Law {
    /// Every law.
    pub const ALL: [Self; 4] =
        [Self::Harmonic, Self::Cycloidal, Self::Polynomial345, Self::Polynomial4567];

    /// s at u, in [0, 1]; 0 before the rise and 1 after it.
    pub fn rise(self, u: f64) -> f64 {
        let u = u.clamp(0.0, 1.0);
        match self {
            Self::Harmonic => {
                let half = libm::sin(u * (PI / 2.0));
                half * half
            }
            Self::Cycloidal => (u - libm::sin(2.0 * PI * u) / (2.0 * PI)).clamp(0.0, 1.0),
            Self::Polynomial345 => (u * u * u * (10.0 + u * (6.0 * u - 15.0))).clamp(0.0, 1.0),
            Self::Polynomial4567 => {
                let u2 = u * u;
                (u2 * u2 * (35.0 + u * (u * (70.0 - 20.0 * u) - 84.0))).clamp(0.0, 1.0)
            }
        }
    }

    /// ds/du at u, not below zero; 0 before and after the rise.
    pub fn slope(self, u: f64) -> f64 {
        let u = u.clamp(0.0, 1.0);
        let both = u * (1.0 - u);
        match self {
            Self::Harmonic => (PI / 2.0) * libm::sin(PI * u),
            Self::Cycloidal => 1.0 - libm::cos(2.0 * PI * u),
            Self::Polynomial345 => 30.0 * both * both,
            Self::Polynomial4567 => 140.0 * both * both * both,
        }
    }

    /// The greatest size of d²s/du²: π²/2, 2π, 10/√3, 84/(5√5).
    pub fn most_bend(self) -> f64 {
        match self {
            Self::Harmonic => PI * PI / 2.0,
            Self::Cycloidal => 2.0 * PI,
            Self::Polynomial345 => 10.0 / libm::sqrt(3.0),
            Self::Polynomial4567 => 84.0 / (5.0 * libm::sqrt(5.0)),
        }
    }

    /// The u at which the rise has reached `s`; 0 for `s` ≤ 0 and 1 for `s` ≥ 1.
    ///
    /// Newton's steps inside a bracket that halves where they leave it.
    pub fn u_at(self, s: f64) -> f64 {
        if s <= 0.0 {
            return 0.0;
        }
        if s >= 1.0 {
            return 1.0;
        }
        if self == Self::Harmonic {
            return libm::asin(libm::sqrt(s)) / (PI / 2.0);
        }
        inverse(0.0, 1.0, s, |u| (self.rise(u), self.slope(u)))
    }
}

/// Where a function that does not fall from `low` to `high` reaches `target`, which lies between its
/// values there; `f` gives it and its slope.
pub(crate) fn inverse(low: f64, high: f64, target: f64, f: impl Fn(f64) -> (f64, f64)) -> f64 {
    let (mut low, mut high) = (low, high);
    let mut x = 0.5 * (low + high);
    for _ in 0..200 {
        let (y, slope) = f(x);
        if y < target {
            low = x;
        } else {
            high = x;
        }
        let newton = x - (y - target) / slope;
        let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
        if (next - x).abs() <= 1e-15 * x.abs().max(1.0) || next == low || next == high {
            return next;
        }
        x = next;
    }
    x
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slopes_and_bends_agree_with_differences() {
        let step = 1e-5;
        for law in Law::ALL {
            let mut most: f64 = 0.0;
            for i in 1..2000 {
                let u = f64::from(i) / 2000.0;
                let slope = (law.rise(u + step) - law.rise(u - step)) / (2.0 * step);
                assert!((slope - law.slope(u)).abs() < 1e-8, "{law:?} at {u}");
                let bend = (law.slope(u + step) - law.slope(u - step)) / (2.0 * step);
                most = most.max(bend.abs());
            }
            assert!((most - law.most_bend()).abs() < 1e-3 * most, "{law:?}: {most}");
        }
    }

    #[test]
    fn there_and_back() {
        for law in Law::ALL {
            assert_eq!((law.rise(0.0), law.rise(1.0)), (0.0, 1.0));
            assert_eq!((law.rise(-1.0), law.rise(2.0)), (0.0, 1.0));
            assert_eq!((law.u_at(0.0), law.u_at(1.0)), (0.0, 1.0));
            for i in 1..1000 {
                let s = f64::from(i) / 1000.0;
                assert!((law.rise(law.u_at(s)) - s).abs() < 1e-14, "{law:?} at {s}");
                assert!((law.rise(s) + law.rise(1.0 - s) - 1.0).abs() < 1e-14, "{law:?} at {s}");
            }
            let s = 1e-12;
            assert!((law.rise(law.u_at(s)) - s).abs() < 1e-17, "{law:?}");
        }
    }
}
