//! What somebody standing at the engine could read off it just now.
//!
//! Must not know: units that people choose, or how a reading is worded.

use crate::HALF_A_TOOTH;
use crate::at_shaft;
use crate::ratio::{CamshaftTeeth, camshafts_out};
use crate::report::marked;
use drive::{Seat, mark_error_teeth, wrap_to};
use job::{Job, TensionerState};
use layout::TensionerKind;

/// A lead below this is rounding, teeth.
const TIGHT_TEETH: f64 = 1e-9;

/// All readings of a job as it stands. Wheels by index.
#[derive(Clone, Debug, PartialEq)]
pub struct Readings {
    /// Crank degrees from its mark, over all turns.
    pub crank_deg: f64,
    /// Whole turns in that, rounded down.
    pub crank_turns: i64,
    /// Degrees beyond them, 0 up to 360.
    pub crank_part_deg: f64,
    /// Whether the belt is on.
    pub belt_on: bool,
    /// The marked shafts, in belt order.
    pub shafts: Vec<ShaftReading>,
    /// The runs, in belt order; none with the belt off.
    pub runs: Vec<RunReading>,
    /// All slack together, mm.
    pub slack_mm: f64,
    /// The tensioner.
    pub tensioner: TensionerReading,
    /// The crank's stripe on the belt.
    pub stripe: StripeReading,
    /// Camshaft sprockets that do not have twice the crank's teeth.
    pub camshafts_out: Vec<CamshaftTeeth>,
}

/// A marked shaft.
#[derive(Clone, Debug, PartialEq)]
pub struct ShaftReading {
    /// Index of its wheel.
    pub wheel: usize,
    /// How far its mark is from the cover's, in its own teeth, ahead positive, at most half a turn.
    pub mark_error_teeth: f64,
    /// The same at the shaft, degrees.
    pub mark_error_deg: f64,
    /// Whether the mark stands at the cover's, to the nearest tooth.
    pub on_its_mark: bool,
    /// How far it is ahead of where its best tooth would have it for where the crank stands, teeth;
    /// this does not change as a tight belt is turned.
    pub ahead_teeth: f64,
    /// The same in crank degrees.
    pub ahead_crank_deg: f64,
    /// Teeth that its belt is fitted from in time against the crank, ahead positive.
    pub fitted_teeth: i64,
    /// The same in crank degrees.
    pub fitted_crank_deg: f64,
    /// How far it leads (lags where negative) within the slack, teeth: what `ahead_teeth` has beyond
    /// `fitted_teeth`. 0 on a tight belt.
    pub lead_teeth: f64,
    /// Whether it is fitted in time.
    pub in_time: bool,
    /// How far it stands ahead of where it should be, where it is out ([`out_teeth`]).
    pub out_teeth: Option<f64>,
    /// Whether it is held.
    pub held: bool,
    /// Whether its sprocket's bolt is slack.
    pub bolt_slack: bool,
    /// How far its sprocket is turned forward on the shaft, degrees.
    pub sprocket_on_shaft_deg: f64,
    /// How far the shaft itself is from its timed place, degrees, ahead positive.
    pub shaft_error_deg: f64,
}

/// A run between two sprockets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunReading {
    /// Index of the wheel that it leaves.
    pub from: usize,
    /// Index of the wheel that it meets.
    pub to: usize,
    /// Belt teeth between their reference grooves.
    pub teeth: i64,
    /// Slack, mm.
    pub slack_mm: f64,
    /// Slack in belt pitches.
    pub slack_teeth: f64,
}

/// The tensioner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TensionerReading {
    /// Its travel in the layout's unit.
    pub travel: f64,
    /// Its travel right back.
    pub right_back: f64,
    /// Its travel with the belt tight.
    pub tight: f64,
    /// How it stands.
    pub state: TensionerState,
    /// Where a sprung eccentric's pointer must stand, degrees of travel.
    pub window_deg: Option<[f64; 2]>,
}

/// The crank's stripe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StripeReading {
    /// How far past the crank's mark it stands when that mark is up, belt teeth, 0 up to the belt's;
    /// between marks, how far the belt has carried it.
    pub past_mark_teeth: f64,
    /// The same the shorter way round, negative where it is short of it.
    pub nearest_teeth: f64,
    /// Whole crank turns after which it first meets the mark.
    pub meets_after_turns: u64,
    /// Whole crank turns to go forward until it next does.
    pub turns_to_go: u64,
}

/// How far sprocket `k` is ahead of where its best tooth would have it for where the crank stands, in
/// its own teeth, at most half its turn. Turning a tight belt does not change it.
pub fn ahead_teeth(job: &Job, k: usize) -> f64 {
    let (drive, turned) = (job.drive(), job.cord().turned());
    let ahead_deg = turned[k].since(turned[0]) - drive.best_tooth_deg()[k];
    let ahead = ahead_deg / drive.crank_deg_per_tooth();
    wrap_to(ahead, f64::from(drive.sprockets()[k].teeth))
}

/// Teeth that the belt of sprocket `k` is fitted from in time against the crank, ahead positive; 0 for
/// the crank itself.
pub fn fitted_teeth(job: &Job, k: usize) -> i64 {
    let out = job.cord().teeth_out();
    if k == 0 { 0 } else { out[k] - out[0] }
}

/// How far sprocket `k` stands ahead of where it should be, in its own teeth, where it is out: fitted out of
/// time or, with the belt off, neither at its own mark nor where the crank would have it, by the lesser of
/// the two. With the belt off the crank, from which the others are judged, is not out.
pub fn out_teeth(job: &Job, k: usize) -> Option<f64> {
    let (drive, cord) = (job.drive(), job.cord());
    let ahead = ahead_teeth(job, k);
    if cord.is_on() {
        return (fitted_teeth(job, k) != 0).then_some(ahead);
    }
    let teeth = drive.sprockets()[k].teeth;
    let from_mark = mark_error_teeth(cord.turned()[k], teeth, drive.crank_teeth());
    let nearest = if ahead.abs() < from_mark.abs() { ahead } else { from_mark };
    (k != 0 && nearest.abs() >= HALF_A_TOOTH).then_some(nearest)
}

/// The readings of a job as it stands.
pub fn readings(job: &Job) -> Readings {
    let (drive, cord) = (job.drive(), job.cord());
    let crank = job.crank();
    let per_tooth = drive.crank_deg_per_tooth();
    let shafts = marked(drive)
        .map(|k| {
            let sprocket = &drive.sprockets()[k];
            let error = mark_error_teeth(cord.turned()[k], sprocket.teeth, drive.crank_teeth());
            let ahead_teeth = ahead_teeth(job, k);
            let fitted_teeth = fitted_teeth(job, k);
            let z = f64::from(sprocket.teeth);
            let lead_teeth = wrap_to(ahead_teeth - fitted_teeth as f64, z);
            ShaftReading {
                wheel: sprocket.wheel,
                mark_error_teeth: error,
                mark_error_deg: error * 360.0 / f64::from(sprocket.teeth),
                on_its_mark: error.abs() < HALF_A_TOOTH,
                ahead_teeth,
                ahead_crank_deg: ahead_teeth * per_tooth,
                fitted_teeth,
                fitted_crank_deg: fitted_teeth as f64 * per_tooth,
                lead_teeth: if lead_teeth.abs() < TIGHT_TEETH { 0.0 } else { lead_teeth },
                in_time: fitted_teeth == 0,
                out_teeth: out_teeth(job, k),
                held: cord.holds()[k].is_some(),
                bolt_slack: matches!(cord.seats()[k], Seat::Loose { .. }),
                sprocket_on_shaft_deg: at_shaft(drive, k, cord.slip_deg(k)),
                shaft_error_deg: mark_error_teeth(
                    cord.shaft(k),
                    sprocket.teeth,
                    drive.crank_teeth(),
                ) * 360.0
                    / f64::from(sprocket.teeth),
            }
        })
        .collect();
    let runs: Vec<RunReading> = (0..if cord.is_on() { drive.sprockets().len() } else { 0 })
        .map(|j| {
            let slack_mm = cord.slack_mm(drive, job.stance(), j);
            RunReading {
                from: drive.sprockets()[j].wheel,
                to: drive.sprockets()[drive.next(j)].wheel,
                teeth: cord.teeth(drive, j),
                slack_mm,
                slack_teeth: slack_mm / drive.belt().pitch_mm,
            }
        })
        .collect();
    Readings {
        crank_deg: crank.total_deg(),
        crank_turns: crank.turns,
        crank_part_deg: crank.deg,
        belt_on: cord.is_on(),
        shafts,
        slack_mm: runs.iter().map(|run| run.slack_mm).sum(),
        runs,
        tensioner: TensionerReading {
            travel: job.travel(),
            right_back: job.travel_unit().outside(drive.tensioner().right_back),
            tight: job.travel_unit().outside(drive.taut().travel),
            state: job.work().tensioner,
            window_deg: match job.plan().layout.tensioner.kind {
                TensionerKind::SprungEccentric { pointer_window_deg, .. } => {
                    Some(pointer_window_deg)
                }
                _ => None,
            },
        },
        stripe: stripe(job),
        camshafts_out: camshafts_out(&job.plan().layout),
    }
}

fn stripe(job: &Job) -> StripeReading {
    let drive = job.drive();
    let crank = job.crank();
    let (belt, teeth) = (drive.belt().teeth, drive.crank_teeth());
    let whole = f64::from(drive::stripe_drift_teeth(crank.turns, belt, teeth));
    let past = whole + crank.deg / drive.crank_deg_per_tooth();
    let past_mark_teeth = if past >= f64::from(belt) { past - f64::from(belt) } else { past };
    let meets_after_turns = drive::stripe_returns_after_crank_turns(belt, teeth);
    let done = i128::from(crank.turns).rem_euclid(i128::from(meets_after_turns.max(1))) as u64;
    StripeReading {
        past_mark_teeth,
        nearest_teeth: wrap_to(past_mark_teeth, f64::from(belt)),
        meets_after_turns,
        turns_to_go: meets_after_turns - done,
    }
}
