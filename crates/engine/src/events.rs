//! Opening and closing: as a workshop writes them, and what follows from them.
//!
//! Must not know: lift, or pistons.

use crate::figures::Events;

/// Which of a cylinder's valves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Lets the charge in.
    Intake,
    /// Lets it out.
    Exhaust,
}

impl Kind {
    /// Both, the intake first.
    pub const BOTH: [Self; 2] = [Self::Intake, Self::Exhaust];

    /// The dead centre before which the valve opens and that after which it closes, degrees after the
    /// overlap top: an intake valve opens before top and closes after bottom, an exhaust valve opens
    /// before bottom and closes after top.
    fn dead_centres_deg(self) -> (f64, f64) {
        match self {
            Self::Intake => (0.0, 180.0),
            Self::Exhaust => (-180.0, 0.0),
        }
    }
}

impl Events {
    /// From crank degrees before the dead centre before which this kind of valve opens, and after the
    /// one after which it closes; either may be negative.
    ///
    /// ```
    /// use engine::{Events, Kind};
    /// let intake = Events::of(Kind::Intake, 10.0, 50.0);
    /// assert_eq!(intake, Events { opens_deg: -10.0, closes_deg: 230.0 });
    /// assert_eq!(intake.duration_deg(), 240.0);
    /// ```
    pub fn of(kind: Kind, opens_before_deg: f64, closes_after_deg: f64) -> Self {
        let (before, after) = kind.dead_centres_deg();
        Self { opens_deg: before - opens_before_deg, closes_deg: after + closes_after_deg }
    }

    /// As a workshop writes them: degrees of opening before, and of closing after, its dead centre.
    pub fn before_after_deg(&self, kind: Kind) -> (f64, f64) {
        let (before, after) = kind.dead_centres_deg();
        (before - self.opens_deg, self.closes_deg - after)
    }

    /// With the camshaft `ahead_deg` crank degrees ahead: both come that much earlier.
    pub fn ahead(&self, ahead_deg: f64) -> Self {
        Self { opens_deg: self.opens_deg - ahead_deg, closes_deg: self.closes_deg - ahead_deg }
    }

    /// From opening to closing, crank degrees.
    pub fn duration_deg(&self) -> f64 {
        self.closes_deg - self.opens_deg
    }

    /// Midway between opening and closing, crank degrees after the overlap top; before it, negative,
    /// for most exhaust valves.
    pub fn centreline_deg(&self) -> f64 {
        0.5 * (self.opens_deg + self.closes_deg)
    }
}

/// How a cylinder's two valves stand to each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// From the intake's opening to the exhaust's closing, crank degrees; negative where one shuts
    /// before the other opens.
    pub overlap_deg: f64,
    /// Between the two centrelines, in degrees of the *camshaft*, half the crank's.
    pub separation_cam_deg: f64,
}

impl Between {
    /// From both valves' events in the same cycle.
    pub fn of(intake: &Events, exhaust: &Events) -> Self {
        Self {
            overlap_deg: exhaust.closes_deg - intake.opens_deg,
            separation_cam_deg: 0.5 * (intake.centreline_deg() - exhaust.centreline_deg()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn written_and_read_again() {
        for kind in Kind::BOTH {
            let events = Events::of(kind, 12.0, 48.0);
            assert_eq!(events.before_after_deg(kind), (12.0, 48.0));
            assert_eq!(events.duration_deg(), 240.0);
            assert_eq!(events.ahead(15.0).before_after_deg(kind), (27.0, 33.0));
        }
    }

    #[test]
    fn between_two_valves() {
        let intake = Events::of(Kind::Intake, 10.0, 50.0);
        let exhaust = Events::of(Kind::Exhaust, 50.0, 10.0);
        let between = Between::of(&intake, &exhaust);
        assert_eq!(between, Between { overlap_deg: 20.0, separation_cam_deg: 110.0 });
    }
}
