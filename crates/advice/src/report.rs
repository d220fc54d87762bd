//! The whole drive in time, as figures: what `two-turns report` prints.
//!
//! Must not know: where any shaft stands just now.

use crate::clearance::{Clearance, clearance};
use crate::count_range::{CountKnown, count_known};
use crate::ratio::{CamshaftTeeth, camshafts_out};
use drive::{
    Drive, Gap, all_return_after_crank_turns, path_doubt, returns_after_crank_turns,
    stripe_returns_after_crank_turns,
};
use layout::Plan;
use serde::Serialize;

/// Everything that follows from a layout alone. Full precision; degrees, mm, wheels by id.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Report {
    /// Whether all but some counts is made up: what rests on it is no answer then.
    pub provisional: bool,
    /// The belt.
    pub belt: BeltReport,
    /// The tensioner.
    pub tensioner: TensionerReport,
    /// The straight runs, in belt order.
    pub spans: Vec<SpanReport>,
    /// The wheels, in belt order.
    pub wheels: Vec<WheelReport>,
    /// Teeth between neighbouring marked wheels along the travel.
    pub counts: Vec<CountReport>,
    /// Camshaft sprockets that do not have twice the crank's teeth.
    pub camshafts_out: Vec<CamshaftTeeth>,
    /// The marked wheels.
    pub shafts: Vec<ShaftReport>,
    /// When stripes on the belt meet marks again.
    pub stripes: StripesReport,
    /// How near valves come to pistons in time; empty without an engine in the layout.
    pub clearance: Vec<Clearance>,
}

/// The belt.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BeltReport {
    /// Teeth all round.
    pub teeth: u32,
    /// Pitch, mm.
    pub pitch_mm: f64,
    /// Teeth times pitch, mm.
    pub pitch_length_mm: f64,
}

/// The tensioner.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TensionerReport {
    /// Travel with the belt tight and unstretched, in `unit`.
    pub travel: f64,
    /// `mm` or `deg`.
    pub unit: &'static str,
    /// Slack in the whole belt with the tensioner right back, mm.
    pub slack_when_back_mm: f64,
    /// How fast the path lengthens with travel where the belt is tight.
    pub length_rate_mm_per_unit: f64,
}

/// A straight run.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpanReport {
    /// The wheel that it leaves.
    pub from: String,
    /// The wheel that it meets.
    pub to: String,
    /// Its length, mm.
    pub length_mm: f64,
    /// Where it leaves, mm.
    pub leaves_mm: [f64; 2],
    /// Where it meets, mm.
    pub meets_mm: [f64; 2],
}

/// A wheel.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WheelReport {
    /// Its id.
    pub id: String,
    /// Radius to the pitch line, mm.
    pub pitch_radius_mm: f64,
    /// Wrap, degrees.
    pub wrap_deg: f64,
    /// Wrap in belt pitches.
    pub teeth_in_mesh: f64,
    /// Turns for each turn of the crank: positive in the crank's own sense, negative against it.
    pub turns_per_crank_turn: f64,
}

/// Teeth between two neighbouring marked wheels.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CountReport {
    /// The wheel counted from.
    pub from: String,
    /// The wheel counted to, along the travel.
    pub to: String,
    /// Whole teeth between their reference grooves with every mark in time.
    pub teeth: i64,
    /// What the geometry alone gives.
    pub geometric_teeth: f64,
    /// Between which counts the doubt about the centres leaves it.
    pub known: CountKnown,
}

/// A marked wheel.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ShaftReport {
    /// Its id.
    pub id: String,
    /// One tooth at this shaft, degrees.
    pub degrees_per_tooth: f64,
    /// One tooth in crank degrees.
    pub crank_degrees_per_tooth: f64,
    /// How far off its mark the best tooth leaves it, teeth, ahead positive.
    pub best_tooth_error_teeth: f64,
    /// The same in crank degrees.
    pub best_tooth_error_crank_deg: f64,
    /// Crank turns until its mark is back.
    pub returns_after_crank_turns: u64,
    /// How far its reference groove is past its mark, teeth, forward positive.
    pub reference_past_mark_teeth: f64,
}

/// When stripes on the belt meet marks again.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StripesReport {
    /// Crank turns until the crank's stripe stands at its mark again.
    pub crank_turns_to_meet_crank_mark: u64,
    /// Crank turns until all stripes and all marks meet at once; null beyond 64 bits.
    pub crank_turns_to_meet_every_mark: Option<u64>,
}

/// The report on a plan.
pub fn report(plan: &Plan) -> Report {
    let drive = &plan.drive;
    let (belt, taut, unit) = (drive.belt(), drive.taut(), plan.travel_unit());
    let path = &drive.taut_stance().path;
    let n = drive.wheels().len();
    let id = |i: usize| plan.id(i).to_owned();
    Report {
        provisional: plan.layout.provisional,
        belt: BeltReport {
            teeth: belt.teeth,
            pitch_mm: belt.pitch_mm,
            pitch_length_mm: belt.pitch_length_mm(),
        },
        tensioner: TensionerReport {
            travel: unit.outside(taut.travel),
            unit: unit.name(),
            slack_when_back_mm: drive.slack_when_back_mm(),
            length_rate_mm_per_unit: unit.rate_outside(taut.length_rate),
        },
        spans: path
            .spans
            .iter()
            .enumerate()
            .map(|(i, span)| SpanReport {
                from: id(i),
                to: id((i + 1) % n),
                length_mm: span.length,
                leaves_mm: span.leaves.to_array(),
                meets_mm: span.meets.to_array(),
            })
            .collect(),
        wheels: (0..n).map(|i| wheel(plan, i)).collect(),
        counts: counts(plan),
        camshafts_out: camshafts_out(&plan.layout),
        shafts: shafts(plan),
        clearance: clearance(plan),
        stripes: StripesReport {
            crank_turns_to_meet_crank_mark: stripe_returns_after_crank_turns(
                belt.teeth,
                drive.crank_teeth(),
            ),
            crank_turns_to_meet_every_mark: all_return_after_crank_turns(
                belt.teeth,
                drive.crank_teeth(),
                marked(drive).map(|k| drive.sprockets()[k].teeth),
            ),
        },
    }
}

/// The sprockets that have marks, in belt order.
pub(crate) fn marked(drive: &Drive) -> impl Iterator<Item = usize> + '_ {
    (0..drive.sprockets().len())
        .filter(|k| drive.wheels()[drive.sprockets()[*k].wheel].mark.is_some())
}

fn wheel(plan: &Plan, i: usize) -> WheelReport {
    let drive = &plan.drive;
    let pitch_radius_mm = drive.wheels()[i].pitch_radius_mm(drive.belt());
    let wrap_rad = drive.taut_stance().path.wraps_rad[i];
    WheelReport {
        id: plan.id(i).to_owned(),
        pitch_radius_mm,
        wrap_deg: drive::Angle::from_rad(wrap_rad).deg(),
        teeth_in_mesh: drive.teeth_in_mesh(i),
        turns_per_crank_turn: drive.turns_per_crank_turn(i),
    }
}

fn counts(plan: &Plan) -> Vec<CountReport> {
    let drive = &plan.drive;
    let marked: Vec<usize> = marked(drive).collect();
    let doubt = path_doubt(drive);
    let mut counts = Vec::with_capacity(marked.len());
    for (at, from) in marked.iter().enumerate() {
        let to = marked[(at + 1) % marked.len()];
        let (mut teeth, mut along, mut run) = (0, 0.0, *from);
        loop {
            teeth += drive.teeth_in_time()[run];
            along += drive.taut_stance().run_mm[run];
            run = drive.next(run);
            if run == to {
                break;
            }
        }
        let geometric_teeth = along / drive.belt().pitch_mm;
        counts.push(CountReport {
            from: plan.id(drive.sprockets()[*from].wheel).to_owned(),
            to: plan.id(drive.sprockets()[to].wheel).to_owned(),
            teeth,
            geometric_teeth,
            known: count_known(plan, Gap { from: *from, to }, teeth, geometric_teeth, &doubt),
        });
    }
    counts
}

fn shafts(plan: &Plan) -> Vec<ShaftReport> {
    let drive = &plan.drive;
    let per_tooth = drive.crank_deg_per_tooth();
    marked(drive)
        .map(|k| {
            let sprocket = &drive.sprockets()[k];
            let error = drive.best_tooth_deg()[k];
            ShaftReport {
                id: plan.id(sprocket.wheel).to_owned(),
                degrees_per_tooth: 360.0 / f64::from(sprocket.teeth),
                crank_degrees_per_tooth: per_tooth,
                best_tooth_error_teeth: error / per_tooth,
                best_tooth_error_crank_deg: error,
                returns_after_crank_turns: returns_after_crank_turns(
                    sprocket.teeth,
                    drive.crank_teeth(),
                ),
                reference_past_mark_teeth: sprocket.past_mark_teeth.unwrap_or(0.0),
            }
        })
        .collect()
}
