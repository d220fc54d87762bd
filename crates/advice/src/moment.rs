//! What stands in a line of `two-turns run`: the readings after an action.
//!
//! Must not know: sentences; whoever prints adds them.

use crate::at_shaft;
use drive::mark_error_teeth;
use job::{Job, TensionerState};
use serde::Serialize;

/// The readings after an action. Full precision; degrees, mm, wheels by id.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Moment {
    /// The crank's angle from its mark over all its turns, degrees.
    pub crank_deg: f64,
    /// The marked shafts, in belt order.
    pub shafts: Vec<ShaftMoment>,
    /// The runs between toothed wheels, in belt order; none with the belt off.
    pub runs: Vec<RunMoment>,
    /// The tensioner.
    pub tensioner: TensionerMoment,
    /// Whether the belt is on.
    pub belt_on: bool,
}

/// A marked shaft.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ShaftMoment {
    /// Its id.
    pub id: String,
    /// How far its sprocket is turned, forward positive, over all its turns, degrees.
    pub turned_deg: f64,
    /// How far its mark is from the cover's, in its own teeth, ahead positive.
    pub mark_error_teeth: f64,
    /// Whether it is held.
    pub held: bool,
    /// How far its sprocket is turned forward on the shaft, degrees.
    pub sprocket_on_shaft_deg: f64,
    /// How far the shaft itself is from its timed place, degrees, ahead positive.
    pub shaft_error_deg: f64,
}

/// A run between two toothed wheels.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunMoment {
    /// The wheel that it leaves.
    pub from: String,
    /// The wheel that it meets.
    pub to: String,
    /// Its slack, mm.
    pub slack_mm: f64,
    /// Belt teeth between the reference grooves.
    pub teeth: i64,
}

/// Where the tensioner stands.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TensionerMoment {
    /// Its travel, in `unit`.
    pub travel: f64,
    /// `mm` or `deg`.
    pub unit: &'static str,
    /// How it stands there.
    pub state: TensionerState,
}

/// The readings of a job as it stands.
pub fn moment(job: &Job) -> Moment {
    let (plan, drive, cord) = (job.plan(), job.drive(), job.cord());
    let id = |k: usize| plan.id(drive.sprockets()[k].wheel).to_owned();
    let runs = if cord.is_on() { drive.sprockets().len() } else { 0 };
    Moment {
        crank_deg: job.crank().total_deg(),
        shafts: crate::report::marked(drive)
            .map(|k| {
                let teeth = drive.sprockets()[k].teeth;
                let off = |at| mark_error_teeth(at, teeth, drive.crank_teeth());
                ShaftMoment {
                    id: id(k),
                    turned_deg: at_shaft(drive, k, cord.turned()[k].total_deg()),
                    mark_error_teeth: off(cord.turned()[k]),
                    held: cord.holds()[k].is_some(),
                    sprocket_on_shaft_deg: at_shaft(drive, k, cord.slip_deg(k)),
                    shaft_error_deg: off(cord.shaft(k)) * 360.0 / f64::from(teeth),
                }
            })
            .collect(),
        runs: (0..runs)
            .map(|j| RunMoment {
                from: id(j),
                to: id(drive.next(j)),
                slack_mm: cord.slack_mm(drive, job.stance(), j),
                teeth: cord.teeth(drive, j),
            })
            .collect(),
        tensioner: TensionerMoment {
            travel: job.travel(),
            unit: job.travel_unit().name(),
            state: job.work().tensioner,
        },
        belt_on: cord.is_on(),
    }
}
