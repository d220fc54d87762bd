//! The engine behind the drive as plain values, in the units of the file. Every one may be absent but
//! what a camshaft is; what is absent makes the answers that need it absent, and nothing else.
//!
//! Must not know TOML, nor what pistons and valves make of it.

use crate::choice::{Law, TopAtMarks};

/// The engine.
#[derive(Clone, Debug, PartialEq)]
pub struct EngineValues {
    /// Diameter of a cylinder.
    pub bore_mm: Option<f64>,
    /// Travel of a piston.
    pub stroke_mm: Option<f64>,
    /// Connecting rod between its centres; longer than half the stroke.
    pub rod_mm: Option<f64>,
    /// Volume of a cylinder at the bottom over that at the top.
    pub compression_ratio: Option<f64>,
    /// Crank angle after cylinder 1's top when all marks are in time; 0 if the file says nothing.
    pub crank_at_marks_atdc_deg: f64,
    /// Which top that is; the firing one if the file says nothing.
    pub cylinder_1_at_marks: TopAtMarks,
    /// Crank angle of each cylinder's firing top after cylinder 1's, cylinder 1's 0 first; empty if the
    /// file says nothing.
    pub fires_at_deg: Vec<f64>,
    /// The sum of lifts at which an intake and an exhaust valve of one cylinder on two camshafts meet.
    pub valves_meet_at_lift_sum_mm: Option<f64>,
    /// The camshafts.
    pub camshafts: Vec<CamshaftValues>,
}

/// A camshaft and its valves.
#[derive(Clone, Debug, PartialEq)]
pub struct CamshaftValues {
    /// Index into the layout's wheels of the one that drives it.
    pub wheel: usize,
    /// The cylinders whose valves it moves, by index from 0.
    pub cylinders: Vec<usize>,
    /// Its intake valves.
    pub intake: Option<ValveValues>,
    /// Its exhaust valves.
    pub exhaust: Option<ValveValues>,
}

/// One kind of valve of a camshaft.
#[derive(Clone, Debug, PartialEq)]
pub struct ValveValues {
    /// When it opens and closes, and how far.
    pub motion: MotionValues,
    /// The lift at which opening and closing were read.
    pub events_at_lift_mm: Option<f64>,
    /// How far it leans from the cylinder's axis.
    pub lean_deg: Option<f64>,
    /// Room between the shut valve and the piston at its top, along the cylinder.
    pub gap_at_tdc_mm: Option<f64>,
    /// Its spring.
    pub spring: Option<SpringValues>,
}

/// The one way in which a valve's motion is stated.
#[derive(Clone, Debug, PartialEq)]
pub enum MotionValues {
    /// By opening and closing.
    Events {
        /// Opening before its dead centre: the top for an intake valve, the bottom for an exhaust valve.
        opens_before_deg: f64,
        /// Closing after its dead centre: the bottom for an intake valve, the top for an exhaust valve.
        closes_after_deg: f64,
        /// How far it opens in between, where that is known.
        lift: Option<LiftValues>,
    },
    /// By a measured lift.
    Measured {
        /// In the order of the file.
        readings: Vec<LiftReading>,
    },
}

/// Greatest lift, and how it is reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiftValues {
    /// Greatest lift.
    pub lift_mm: f64,
    /// The law by which the lift rises and falls.
    pub law: Law,
}

/// One reading of a lift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiftReading {
    /// Crank angle after the cylinder's overlap top.
    pub at_deg: f64,
    /// The lift there.
    pub lift_mm: f64,
}

/// A valve spring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpringValues {
    /// Its force with the valve shut.
    pub shut_n: f64,
    /// How that grows with lift.
    pub rate_n_per_mm: f64,
}
