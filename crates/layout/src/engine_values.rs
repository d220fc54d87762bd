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
#[derive(Clone, Debug, PartialEq, Default)]
pub struct ValveValues {
    /// Opening before its dead centre: the top for an intake valve, the bottom for an exhaust valve.
    pub opens_before_deg: Option<f64>,
    /// Closing after its dead centre: the bottom for an intake valve, the top for an exhaust valve.
    pub closes_after_deg: Option<f64>,
    /// Greatest lift.
    pub lift_mm: Option<f64>,
    /// The lift at which opening and closing were read.
    pub events_at_lift_mm: Option<f64>,
    /// The law by which the lift rises and falls.
    pub law: Option<Law>,
    /// Crank angles of a measured lift, after the cylinder's overlap top.
    pub measured_at_deg: Vec<f64>,
    /// The lift at each of them.
    pub measured_lift_mm: Vec<f64>,
    /// How far it leans from the cylinder's axis.
    pub lean_deg: Option<f64>,
    /// Room between the shut valve and the piston at its top, along the cylinder.
    pub gap_at_tdc_mm: Option<f64>,
    /// Force of its spring with the valve shut.
    pub spring_shut_n: Option<f64>,
    /// How that grows with lift.
    pub spring_rate_n_per_mm: Option<f64>,
}
