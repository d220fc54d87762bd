//! What one valve over its piston, or two valves of one cylinder, take from the circles of the shafts
//! that could bring them together: each one arc.
//!
//! Must not know: other valves, or who is turning what.

use crate::angle::{Arc, CYCLE_DEG, TURN_DEG, Taken, within};
use crate::crank::SliderCrank;
use crate::events::Kind;
use crate::lobe::Lobe;
use crate::stand::Meeting;

/// A valve over its piston.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Over<'a> {
    pub(crate) cylinder: usize,
    pub(crate) camshaft: usize,
    pub(crate) kind: Kind,
    pub(crate) lobe: &'a Lobe,
    pub(crate) cos_lean: f64,
    pub(crate) at_top_mm: f64,
    /// Where the crank has the piston at a top, degrees past the crank's mark.
    pub(crate) top_deg: f64,
    /// Where the camshaft is at the cylinder's overlap top, crank degrees past its mark.
    pub(crate) zero_deg: f64,
}

/// The two valves of one cylinder on two camshafts.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pair<'a> {
    pub(crate) cylinder: usize,
    /// (camshaft, lobe), the intake first.
    pub(crate) sides: [(usize, &'a Lobe); 2],
    pub(crate) zero_deg: f64,
    pub(crate) sum_mm: f64,
}

impl Over<'_> {
    pub(crate) fn parts(&self) -> Meeting {
        Meeting::Piston { cylinder: self.cylinder, camshaft: self.camshaft, valve: self.kind }
    }

    pub(crate) fn lift_mm(&self, cam_deg: f64) -> f64 {
        self.lobe.lift_mm(cam_deg - self.zero_deg)
    }

    pub(crate) fn gap_mm(&self, piston: &SliderCrank, crank_deg: f64, lift_mm: f64) -> f64 {
        self.at_top_mm + piston.depth_mm(crank_deg - self.top_deg) - self.cos_lean * lift_mm
    }

    /// Crank angles at which the piston is in the way of the valve open by `lift_mm`.
    pub(crate) fn takes_from_crank(&self, piston: &SliderCrank, lift_mm: f64) -> Taken {
        let needed_mm = self.cos_lean * lift_mm - self.at_top_mm;
        if needed_mm <= 0.0 {
            Taken::Nothing
        } else if needed_mm > piston.stroke_mm() {
            Taken::All
        } else {
            let half = piston.deg_at_depth(needed_mm);
            Taken::Open(Arc { from_deg: self.top_deg - half, to_deg: self.top_deg + half })
        }
    }

    /// Camshaft angles at which the valve is in the way of the piston `depth_mm` below its top.
    pub(crate) fn takes_from_cam(&self, depth_mm: f64) -> Taken {
        takes(self.lobe, self.zero_deg, (self.at_top_mm + depth_mm) / self.cos_lean)
    }

    /// The greatest lift while the camshaft turns from `from_deg` to `to_deg`, which is not less.
    pub(crate) fn most_lift_mm(&self, from_deg: f64, to_deg: f64) -> f64 {
        most_lift(self.lobe, self.zero_deg, from_deg, to_deg)
    }
}

impl Pair<'_> {
    pub(crate) fn parts(&self) -> Meeting {
        let [(intake, _), (exhaust, _)] = self.sides;
        Meeting::Valves { cylinder: self.cylinder, intake, exhaust }
    }

    /// The sum of lifts that is left.
    pub(crate) fn gap_mm(&self, lifts_mm: [f64; 2]) -> f64 {
        self.sum_mm - lifts_mm[0] - lifts_mm[1]
    }

    pub(crate) fn lift_mm(&self, side: usize, cam_deg: f64) -> f64 {
        self.sides[side].1.lift_mm(cam_deg - self.zero_deg)
    }

    /// Angles of one side's camshaft at which its valve meets the other, open by `other_mm`.
    pub(crate) fn takes_from(&self, side: usize, other_mm: f64) -> Taken {
        takes(self.sides[side].1, self.zero_deg, self.sum_mm - other_mm)
    }

    pub(crate) fn most_lift_mm(&self, side: usize, from_deg: f64, to_deg: f64) -> f64 {
        most_lift(self.sides[side].1, self.zero_deg, from_deg, to_deg)
    }
}

/// Camshaft angles at which a lift is above what is allowed.
fn takes(lobe: &Lobe, zero_deg: f64, allowed_mm: f64) -> Taken {
    if allowed_mm < 0.0 {
        return Taken::All;
    }
    lobe.above(allowed_mm).map_or(Taken::Nothing, |(up, down)| {
        Taken::Open(Arc { from_deg: up + zero_deg, to_deg: down + zero_deg })
    })
}

fn most_lift(lobe: &Lobe, zero_deg: f64, from_deg: f64, to_deg: f64) -> f64 {
    let turned = Arc { from_deg: from_deg - zero_deg, to_deg: to_deg - zero_deg };
    // A turn that meets the top elsewhere than at its beginning starts on it: then an end will do.
    if turned.contains(lobe.top().0, CYCLE_DEG) {
        lobe.most_mm()
    } else {
        // One rise and one fall: away from the top, greatest at an end.
        lobe.lift_mm(turned.from_deg).max(lobe.lift_mm(turned.to_deg))
    }
}

/// The crank angle between two at which a piston with a top at `top_deg` stands highest.
pub(crate) fn nearest_to_top(from_deg: f64, to_deg: f64, top_deg: f64) -> f64 {
    let turned = Arc { from_deg, to_deg };
    let away = |deg: f64| {
        let past = within(deg - top_deg, TURN_DEG);
        past.min(TURN_DEG - past)
    };
    if turned.contains(top_deg, TURN_DEG) {
        top_deg
    } else if away(from_deg) < away(to_deg) {
        from_deg
    } else {
        to_deg
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_highest_of_a_turn() {
        assert_eq!(nearest_to_top(-10.0, 20.0, 5.0), 5.0);
        assert_eq!(nearest_to_top(350.0, 380.0, 5.0), 5.0);
        assert_eq!(nearest_to_top(30.0, 80.0, 0.0), 30.0);
        assert_eq!(nearest_to_top(280.0, 330.0, 0.0), 330.0);
        assert_eq!(nearest_to_top(90.0, 90.0, 0.0), 90.0);
    }
}
