//! How near valves come to pistons with every mark in time, and how many teeth out they would meet.
//!
//! Must not know: where any shaft stands just now. In time means exactly: what the best tooth leaves is
//! left out.

use drive::Drive;
use engine::{Kind, Phasing, Teeth};
use layout::{EnginePlan, Plan};
use serde::Serialize;

/// One kind of valve of a camshaft.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Clearance {
    /// Id of the camshaft's wheel.
    pub camshaft: String,
    /// `intake` or `exhaust`.
    pub valve: &'static str,
    /// Least gap to the piston along the bore, mm; below zero they would be in the same place.
    pub least_gap_mm: f64,
    /// Where, crank degrees from that cylinder's own overlap top, −360 to 360.
    pub at_crank_deg: f64,
    /// The least over a phaser's whole range, mm; null without one.
    pub least_gap_phased_mm: Option<f64>,
    /// First tooth early at which they touch, to half a turn of the camshaft; null if none does.
    pub teeth_early_to_contact: Option<u32>,
    /// The same late.
    pub teeth_late_to_contact: Option<u32>,
}

/// Every camshaft's valves of a plan whose gaps are known; none without an engine.
pub fn clearance(plan: &Plan) -> Vec<Clearance> {
    let Some(EnginePlan { engine, wheels }) = &plan.engine else { return Vec::new() };
    let mut all = Vec::new();
    for (camshaft, wheel) in wheels.iter().enumerate() {
        let Some(teeth) = teeth_of(&plan.drive, *wheel) else { continue };
        let phased = engine.camshafts().get(camshaft).is_some_and(|c| c.phaser_deg().is_some());
        for kind in [Kind::Intake, Kind::Exhaust] {
            let Some(gap) = engine.gap(camshaft, kind, 0.0, Phasing::AtRest) else { continue };
            let least = gap.least();
            let touch = engine.first_touch(camshaft, kind, 0.0, teeth, Phasing::AtRest);
            let whole = engine.gap(camshaft, kind, 0.0, Phasing::WholeRange).filter(|_| phased);
            all.push(Clearance {
                camshaft: plan.id(*wheel).to_owned(),
                valve: valve_name(kind),
                least_gap_mm: least.along_bore_mm,
                at_crank_deg: least.at_deg,
                least_gap_phased_mm: whole.map(|gap| gap.least().along_bore_mm),
                teeth_early_to_contact: touch.and_then(|touch| touch.early),
                teeth_late_to_contact: touch.and_then(|touch| touch.late),
            });
        }
    }
    all
}

/// The teeth of a camshaft's wheel as the engine counts them.
pub(crate) fn teeth_of(drive: &Drive, wheel: usize) -> Option<Teeth> {
    let all = drive.wheels().get(wheel)?.teeth()?;
    Some(Teeth { deg_each: drive.crank_deg_per_tooth(), all })
}

/// As files and JSON write it.
pub const fn valve_name(kind: Kind) -> &'static str {
    match kind {
        Kind::Intake => "intake",
        Kind::Exhaust => "exhaust",
    }
}
