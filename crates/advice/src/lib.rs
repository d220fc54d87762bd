//! Answers about a drive and its state, each a pure function of the one truth.
//!
//! [`report`] and [`pose`] are what the command line prints as JSON: their field names are a contract
//! with everything that reads that. [`readings`], [`what_if`] and [`marks_at_turns`] are what the page
//! says.
//!
//! **Must not know:** how the state came about, words in any language, pictures.

mod pose;
mod readings;
mod report;
mod turns;
mod what_if;

pub use pose::{BeltToothPose, PoseReport, RunPose, TensionerPose, WheelPose, pose};
pub use readings::{
    Readings, RunReading, ShaftReading, StripeReading, TensionerReading, ahead_teeth, fitted_teeth,
    readings,
};
pub use report::{
    BeltReport, CountReport, Report, ShaftReport, SpanReport, StripesReport, TensionerReport,
    WheelReport, report,
};
pub use turns::{MarkAtTurn, MarksAtTurns, TurnRow, marks_at_turns};
pub use what_if::{ShaftOut, WhatIf, what_if};

/// A mark this far off, in teeth, is no longer on: another tooth would bring it nearer.
pub const HALF_A_TOOTH: f64 = 0.5;
