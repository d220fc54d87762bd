//! Answers about a drive and its state, each a pure function of the one truth.
//!
//! [`report`], [`pose`], [`fitting`], [`tension`](fn@tension) and [`moment`] are what the command line prints as JSON: their field
//! names are a contract with everything that reads that. [`readings`], [`what_if`], [`marks_at_turns`],
//! [`stages`] and [`warnings`] are what the page says.
//!
//! **Must not know:** how the state came about, words in any language, pictures.

mod adds_up;
mod belt_off;
mod clearance;
mod count_range;
mod engine_out;
mod fitting;
mod hands;
mod laid_out;
mod moment;
mod pose;
mod ratio;
mod readings;
mod report;
mod sight;
mod stages;
mod stand;
mod tension;
mod told;
mod turns;
mod valve_gaps;
mod warnings;
mod wearing;
mod what_if;

pub use adds_up::{AddsUp, Cause, CountMisfit, Mistyped, Slip, adds_up};
pub use belt_off::{
    BeltOff, FreedomReport, MoveReport, NearParts, NearReport, ParkingReport, belt_off,
};
pub use clearance::{Clearance, clearance, valve_name};
pub use count_range::CountKnown;
pub use engine_out::{
    CamshaftOut, CamshaftWhatIf, CrankingOut, EXPONENTS, EngineOut, EngineWhatIf, ShaftWhatIf,
    USUAL_EXHAUST_MM, USUAL_INTAKE_MM, ValveOut, ValveWhatIf, WhatIfReport, contact_name,
    engine_out, gauge_change, what_if_report,
};
pub(crate) use fitting::at_shaft;
pub use fitting::{
    BestTooth, Fitting, JumpMargin, Landing, Lash, MarkLands, PaintCount, PulledRun,
    TOLD_BELOW_TEETH, fitting,
};
pub use hands::{Hand, hands};
pub use laid_out::{LaidOut, laid_out};
pub use moment::{Moment, RunMoment, ShaftMoment, TensionerMoment, moment};

pub use pose::{BeltToothPose, PoseReport, RunPose, TensionerPose, WheelPose, pose};
pub use ratio::{CamshaftTeeth, camshafts_out};
pub use readings::{
    Readings, RunReading, ShaftReading, StripeReading, TensionerReading, ahead_teeth, fitted_teeth,
    out_teeth, readings,
};
pub use report::{
    BeltReport, CountReport, Report, ShaftReport, SpanReport, StripesReport, TensionerReport,
    WheelReport, report,
};
pub use sight::{
    MOST_ASIDE_DEG, Sight, SightedMark, USUAL_GAP_MM, USUAL_GAPS_MM, mark_seems, sight,
};
pub use stages::{Stage, StageNow, stages};
pub use stand::{deg_per_tooth, errors_deg, in_time_errors_deg, stand};
pub use tension::{
    Assumed, BeltRun, CRANK_TURNS_PER_KM, FRICTION, Friction, PUSH_ASIDE_SPANS, PinMove, RPM,
    SeizedWheel, SpanTension, Tension, TensionAsked, TensionerPull, WheelTension,
    crank_turns_per_km, tension,
};
pub use turns::{MarkAtTurn, MarksAtTurns, TurnRow, marks_at_turns};
pub use valve_gaps::{
    ContactArcs, CylinderReading, NotStated, TEETH_EACH_WAY, TeethGaps, ValveCurve, ValveReading,
    camshaft_teeth_out, contact_arcs, contact_arcs_of, curve_places_deg, cylinder_reading,
    gaps_by_teeth, nearest_cylinder, not_stated, usual_margin_mm, valve_curve,
};
pub use warnings::{TWO_TURNS_DEG, Warning, gives_way_n_m, jump_margins, warnings};
pub use wearing::{Assumption, Assumptions, DUE_KM, Wearing, WheelWearing, wearing};
pub use what_if::{ShaftOut, WhatIf, what_if};

/// A mark this far off, in teeth, is no longer on: another tooth would bring it nearer.
pub const HALF_A_TOOTH: f64 = 0.5;
