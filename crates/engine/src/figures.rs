//! What somebody states of an engine, not yet checked.
//!
//! Must not know: what is allowed (`bounds` and `engine` do).

use crate::law::Law;
use crate::table::LiftPoint;
use alloc::vec::Vec;

/// An engine's figures. What is absent makes the answers that need it absent, and nothing else.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    /// Cylinder diameter, mm.
    pub bore_mm: Option<f64>,
    /// Stroke and rod; without them no piston can be placed.
    pub crank: Option<CrankFigures>,
    /// Volume of a cylinder at the bottom over that at the top.
    pub compression_ratio: Option<f64>,
    /// Where the crank stands when all marks are in time.
    pub at_marks: AtMarks,
    /// Crank degrees from cylinder 1's firing top to each cylinder's own, cylinder 1's 0 first.
    pub fires_at_deg: Vec<f64>,
    /// The camshafts.
    pub camshafts: Vec<CamshaftFigures>,
    /// Where an intake and an exhaust valve of one cylinder stand on two camshafts: the sum of both
    /// lifts at which their heads meet, mm. Measured by holding one open and pressing the other down.
    pub valves_meet_at_lift_sum_mm: Option<f64>,
}

/// Stroke and connecting rod.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CrankFigures {
    /// Travel of a piston, mm.
    pub stroke_mm: f64,
    /// Rod between its centres, mm; longer than half the stroke.
    pub rod_mm: f64,
}

/// Where the crank stands when all marks are in time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtMarks {
    /// Crank degrees after cylinder 1's top; negative before it.
    pub crank_atdc_deg: f64,
    /// Which of cylinder 1's two tops that is.
    pub top: Top,
}

/// The two tops of a piston in one cycle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Top {
    /// Between compression and power.
    Firing,
    /// Between exhaust and intake.
    Overlap,
}

/// One camshaft. Without either valve it is known to be there and no more.
#[derive(Clone, Debug, PartialEq)]
pub struct CamshaftFigures {
    /// The cylinders whose valves it moves, by index from 0.
    pub cylinders: Vec<usize>,
    /// Its intake valves, alike on every cylinder.
    pub intake: Option<ValveFigures>,
    /// Its exhaust valves, alike on every cylinder.
    pub exhaust: Option<ValveFigures>,
    /// How far a phaser can bring it from where it stands at rest, crank degrees, ahead positive, from
    /// the furthest back (not above 0) to the furthest ahead (not below 0).
    pub phaser_deg: Option<[f64; 2]>,
}

/// One kind of valve on a camshaft.
#[derive(Clone, Debug, PartialEq)]
pub struct ValveFigures {
    /// When and how far it opens.
    pub motion: Motion,
    /// How it stands over the piston; without it no gap can be told.
    pub room: Option<Room>,
    /// Its spring; without it the snap has a direction and no size.
    pub spring: Option<Spring>,
}

/// When and how far a valve opens.
#[derive(Clone, Debug, PartialEq)]
pub enum Motion {
    /// Opening and closing alone: degrees, and no lift.
    Stated {
        /// Opening and closing.
        events: Events,
    },
    /// By a law.
    Law {
        /// Opening and closing, read at `at_lift_mm`.
        events: Events,
        /// The lift at which they were read, mm, from 0 (the seat) to below `lift_mm`.
        at_lift_mm: f64,
        /// Greatest lift along the stem, mm.
        lift_mm: f64,
        /// The law of rise and, backwards, of fall.
        law: Law,
    },
    /// By a measured table.
    Measured {
        /// Readings in order of angle, one rise and one fall, zero lift at both ends.
        points: Vec<LiftPoint>,
        /// The lift at which opening and closing are told, mm, from 0 to below the greatest.
        at_lift_mm: f64,
    },
}

/// Opening and closing of a valve, crank degrees after the cylinder's overlap top; closing is after
/// opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Events {
    /// Opening; mostly negative for an exhaust valve.
    pub opens_deg: f64,
    /// Closing.
    pub closes_deg: f64,
}

/// A valve over its piston.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// How far the stem leans from the cylinder's axis, degrees, either way.
    pub lean_deg: f64,
    /// Room between the shut valve and the piston at its top, along the cylinder, mm.
    pub gap_at_top_mm: f64,
}

/// A valve spring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spring {
    /// Force with the valve shut, N.
    pub shut_n: f64,
    /// How it grows with lift, N per mm.
    pub rate_n_per_mm: f64,
}
