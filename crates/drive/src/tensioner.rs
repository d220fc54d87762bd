//! The one wheel that moves: where its centre stands for a given travel.
//!
//! Must not know: how long the belt is (`fit` asks), or springs.

use crate::geometry::rot90;
use crate::units::Angle;
use crate::wheel::Sense;
use glam::DVec2;

/// How the tensioner's wheel is carried.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Carrier {
    /// Along a straight line; travel in mm.
    Slide {
        /// The direction that tightens.
        tightening: Angle,
    },
    /// About a fixed point; travel in radians. A pulley on an arm, and an eccentric turned about its
    /// bolt, are the same geometry.
    Pivot {
        /// The pivot, or the eccentric's bolt, mm.
        pivot: DVec2,
        /// Which way tightens.
        tightening: Sense,
    },
}

/// The tensioner: which wheel moves, how, and how far.
///
/// Travel is mm on a slide and radians about a pivot, zero where the layout draws the wheel, and
/// positive in tightening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tensioner {
    /// Index of the wheel that moves.
    pub wheel: usize,
    /// How it is carried.
    pub carrier: Carrier,
    /// Travel when it is right back.
    pub right_back: f64,
    /// Travel when it is fully out; more than `right_back`.
    pub fully_out: f64,
}

impl Tensioner {
    /// Where the wheel's centre stands at `travel`, if it stands at `home` at none.
    pub fn centre(&self, home: DVec2, travel: f64) -> DVec2 {
        match self.carrier {
            Carrier::Slide { tightening } => home + tightening.unit() * travel,
            Carrier::Pivot { pivot, tightening } => {
                let turn = Angle::from_rad(tightening.sign() * travel).unit();
                pivot + turn.rotate(home - pivot)
            }
        }
    }

    /// How fast the centre moves with travel: a vector, mm per mm or mm per radian.
    pub fn centre_rate(&self, home: DVec2, travel: f64) -> DVec2 {
        match self.carrier {
            Carrier::Slide { tightening } => tightening.unit(),
            Carrier::Pivot { pivot, tightening } => {
                rot90(self.centre(home, travel) - pivot) * tightening.sign()
            }
        }
    }

    /// A number `b` such that belt length as a function of travel never bends down faster than `b`
    /// (L″ ≥ −b).
    ///
    /// L is a convex function of the wheel's centre, since its Hessian is Σ n nᵀ/ℓ over the two spans
    /// (n square to the span, ℓ its length). Along a slide L is therefore convex: 0. On a circle of
    /// radius r the centre's own curvature adds ∇L·**c**″, at least −2r, since ∇L is the difference
    /// of two unit vectors.
    pub fn bends_down_at_most(&self, home: DVec2) -> f64 {
        match self.carrier {
            Carrier::Slide { .. } => 0.0,
            Carrier::Pivot { pivot, .. } => 2.0 * (home - pivot).length(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::FRAC_PI_2;

    #[test]
    fn a_slide_goes_where_it_tightens() {
        let t = Tensioner {
            wheel: 0,
            carrier: Carrier::Slide { tightening: Angle::from_clock_deg(90.0) },
            right_back: -5.0,
            fully_out: 5.0,
        };
        assert!((t.centre(DVec2::new(1.0, 2.0), 3.0) - DVec2::new(4.0, 2.0)).length() < 1e-12);
    }

    #[test]
    fn an_arm_turns_the_way_it_tightens() {
        for (tightening, y) in [(Sense::Anticlockwise, 10.0), (Sense::Clockwise, -10.0)] {
            let t = Tensioner {
                wheel: 0,
                carrier: Carrier::Pivot { pivot: DVec2::ZERO, tightening },
                right_back: 0.0,
                fully_out: 2.0,
            };
            let home = DVec2::new(10.0, 0.0);
            assert!((t.centre(home, FRAC_PI_2) - DVec2::new(0.0, y)).length() < 1e-12);
            let step = 1e-6;
            let by_difference =
                (t.centre(home, 0.3 + step) - t.centre(home, 0.3 - step)) / (2.0 * step);
            assert!((by_difference - t.centre_rate(home, 0.3)).length() < 1e-7);
        }
    }
}
