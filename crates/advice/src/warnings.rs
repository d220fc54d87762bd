//! What somebody who knows would say while the belt is being fitted: what may jump, what nothing holds,
//! what was done too soon.
//!
//! Must not know: words, or what to do next (`stages` does).

use crate::belt_off::PARKED_DEG;
use crate::hands::hands;
use crate::readings::fitted_teeth;
use crate::report::marked;
use drive::{CLEARS, Hold, MAY_JUMP, Seat, clears_with_mm, comes_off_with_mm, mark_error_teeth};
use job::{Job, TensionerState};
use layout::TensionerKind;

/// Slack below this in a run that should be tight is no matter, teeth.
const SOME_SLACK_TEETH: f64 = 0.1;

/// A held mark further off than this is worth saying, teeth.
const OFF_ITS_MARK_TEETH: f64 = 0.25;

/// Beyond what the belt frees, so many teeth more from a mark are said to be far.
const ROOM_TEETH: f64 = 1.0;

/// Turning back by less than this is not turning back, degrees of the crank.
const TURNED_BACK_DEG: f64 = 1.0;

/// Two turns of the crank, degrees, but for rounding.
pub const TWO_TURNS_DEG: f64 = 720.0 - 1e-6;

/// One thing to say. Wheels by index.
#[derive(Clone, Debug, PartialEq)]
pub enum Warning {
    /// Shafts are fitted out of time, and the tensioner is up.
    OutOfTime {
        /// The wheels, each with its teeth against the crank, ahead positive.
        wheels: Vec<(usize, i64)>,
    },
    /// With the belt off or hanging loose a shaft stands far from its mark: a valve may be in the way.
    FarFromMark {
        /// The wheel.
        wheel: usize,
        /// How far, degrees at the shaft, ahead positive.
        deg: f64,
    },
    /// A shaft is held with another mark of its wheel up, not its timing mark.
    HeldAtOtherMark {
        /// The wheel.
        wheel: usize,
        /// Which of its other marks, by index in the layout.
        mark: usize,
    },
    /// There is slack enough for the belt to jump a tooth. An estimate.
    MayJump {
        /// The wheels, each with slack over what its whole wrap needs, 0.5 or more.
        wheels: Vec<(usize, f64)>,
        /// Whether a whole wrap can clear at once on one of them.
        clears: bool,
    },
    /// The belt is off or hangs loose, and nothing holds these shafts on their marks.
    NothingHolds {
        /// The wheels.
        wheels: Vec<usize>,
    },
    /// A shaft is held, but off its mark.
    HeldOffMark {
        /// The wheel.
        wheel: usize,
        /// Its mark, degrees at the shaft, ahead positive.
        deg: f64,
    },
    /// The tensioner stands bolted up, and slack hangs where it does not reach.
    SlackElsewhere {
        /// The wheel that the run leaves.
        from: usize,
        /// The wheel that it meets.
        to: usize,
        /// Slack, mm.
        slack_mm: f64,
        /// Slack in belt pitches.
        slack_teeth: f64,
        /// Whether bringing the crank forward takes it up.
        pulled: bool,
    },
    /// The pin was pulled before two turns had shown the marks.
    PinPulledUnchecked {
        /// How far the crank had been turned with the pin in, degrees.
        turned_deg: f64,
    },
    /// The crank has been turned back with the pin out: the tensioner stands in the run that then pulls.
    TurnedBackPinOut {
        /// Moment at the crank from which the spring gives way, N·m. An estimate; `None` where it is made up.
        gives_way_n_m: Option<f64>,
    },
    /// The crank has been turned back with slack in the belt: the lash lies on the other side now.
    TurnedBackSlack,
    /// Shafts are still held with the tensioner up: they must go free before turning over.
    StillHeld {
        /// The wheels.
        wheels: Vec<usize>,
    },
    /// The bolt of a sprocket is slack with the tensioner up.
    BoltSlack {
        /// The wheel.
        wheel: usize,
    },
    /// A sprung eccentric's pointer stands outside its window with the pin out.
    PointerOutside {
        /// Where it stands, degrees.
        at_deg: f64,
        /// Its window, degrees.
        window_deg: [f64; 2],
    },
}

/// What there is to say of a job as it stands, the gravest first.
pub fn warnings(job: &Job) -> Vec<Warning> {
    let mut all = Vec::new();
    if job.cord().is_on() {
        out_of_time(job, &mut all);
    }
    far_off(job, &mut all);
    holding(job, &mut all);
    if job.cord().is_on() {
        slack(job, &mut all);
        turning(job, &mut all);
        jumping(job, &mut all);
    }
    pointer(job, &mut all);
    all
}

/// Whether the tensioner stands where it is to stay: bolted up, locked or with its pin out.
pub(crate) fn is_up(state: TensionerState) -> bool {
    match state {
        TensionerState::Pinned | TensionerState::PinOut | TensionerState::Locked => true,
        TensionerState::Back | TensionerState::DrawnBack => false,
    }
}

fn holding(job: &Job, all: &mut Vec<Warning>) {
    let (drive, cord) = (job.drive(), job.cord());
    let wheel = |k: usize| drive.sprockets()[k].wheel;
    let held = |k: &usize| cord.holds()[*k].is_some();
    let slack_mm = drive.belt().pitch_length_mm() - job.stance().path.length_mm;
    let loose = !cord.is_on() || slack_mm >= comes_off_with_mm(drive, job.stance());
    if loose {
        let free: Vec<usize> = marked(drive).filter(|k| *k != 0 && !held(k)).map(wheel).collect();
        if !free.is_empty() {
            all.push(Warning::NothingHolds { wheels: free });
        }
    }
    for k in marked(drive).filter(held).filter(|k| *k != 0) {
        let teeth = drive.sprockets()[k].teeth;
        let place = match cord.holds()[k] {
            Some(Hold::Shaft) => cord.shaft(k),
            _ => cord.turned()[k],
        };
        let off = mark_error_teeth(place, teeth, drive.crank_teeth());
        let deg = off * 360.0 / f64::from(teeth);
        let wheel = wheel(k);
        if let Some(mark) = other_mark_up(job, wheel) {
            all.push(Warning::HeldAtOtherMark { wheel, mark });
        } else if off.abs() > OFF_ITS_MARK_TEETH {
            all.push(Warning::HeldOffMark { wheel, deg });
        }
    }
    let work = job.work();
    if is_up(work.tensioner) && cord.is_on() {
        for k in 0..drive.sprockets().len() {
            if matches!(cord.seats()[k], Seat::Loose { .. }) {
                all.push(Warning::BoltSlack { wheel: wheel(k) });
            }
        }
        let tight_but_for_holds = drive
            .gaps()
            .iter()
            .all(|gap| gap.to != 0 || cord.gap_slack_mm(drive, job.stance(), *gap) == 0.0);
        let wheels: Vec<usize> = (0..drive.sprockets().len()).filter(held).map(wheel).collect();
        if work.hung_at.is_some() && tight_but_for_holds && !wheels.is_empty() {
            all.push(Warning::StillHeld { wheels });
        }
    }
}

/// The other mark of a wheel that is up, to half a tooth.
fn other_mark_up(job: &Job, wheel: usize) -> Option<usize> {
    let teeth = job.drive().wheels()[wheel].teeth()?;
    let half_deg = 180.0 / f64::from(teeth);
    let hand = hands(job).into_iter().find(|hand| hand.wheel == wheel)?;
    if hand.to_mark_deg.abs() < half_deg {
        return None;
    }
    hand.to_others_deg.iter().find(|(_, deg)| deg.abs() < half_deg).map(|(mark, _)| *mark)
}

/// With no belt to hold it together, a shaft far from its mark may have a valve in a piston's way.
fn far_off(job: &Job, all: &mut Vec<Warning>) {
    let (drive, cord) = (job.drive(), job.cord());
    let loose_mm = drive.belt().pitch_length_mm() - job.stance().path.length_mm;
    let loose = !cord.is_on() || loose_mm >= comes_off_with_mm(drive, job.stance());
    if !loose || is_up(job.work().tensioner) && cord.is_on() {
        return;
    }
    let most = drive.slack_when_back_mm() / drive.belt().pitch_mm + ROOM_TEETH;
    for k in marked(drive) {
        let teeth = drive.sprockets()[k].teeth;
        let off = mark_error_teeth(cord.turned()[k], teeth, drive.crank_teeth());
        if off.abs() > most && !(k == 0 && is_parked(job)) {
            let deg = off * 360.0 / f64::from(teeth);
            all.push(Warning::FarFromMark { wheel: drive.sprockets()[k].wheel, deg });
        }
    }
}

/// Whether the crank stands where this engine is best parked with the belt off, to a few degrees.
fn is_parked(job: &Job) -> bool {
    let Some(plan) = job.plan().engine.as_ref() else { return false };
    let crank = job.crank().total_deg();
    let near = |parking: &engine::Parking| {
        drive::wrap_to(crank - parking.from_marks_deg, 360.0).abs() < PARKED_DEG
    };
    !job.cord().is_on() && plan.engine.parking().iter().any(near)
}

fn out_of_time(job: &Job, all: &mut Vec<Warning>) {
    if job.work().hung_at.is_none() || !is_up(job.work().tensioner) {
        return;
    }
    let drive = job.drive();
    let out: Vec<(usize, i64)> = marked(drive)
        .map(|k| (drive.sprockets()[k].wheel, fitted_teeth(job, k)))
        .filter(|(_, teeth)| *teeth != 0)
        .collect();
    if !out.is_empty() {
        all.push(Warning::OutOfTime { wheels: out });
    }
}

fn slack(job: &Job, all: &mut Vec<Warning>) {
    let (drive, cord) = (job.drive(), job.cord());
    if !is_up(job.work().tensioner) {
        return;
    }
    let pitch_mm = drive.belt().pitch_mm;
    let tensioner = drive.tensioner_run();
    for gap in drive.gaps() {
        if drive.runs_of(gap).any(|j| j == tensioner) {
            continue;
        }
        let slack_mm = cord.gap_slack_mm(drive, job.stance(), gap);
        if slack_mm > SOME_SLACK_TEETH * pitch_mm {
            all.push(Warning::SlackElsewhere {
                from: drive.sprockets()[gap.from].wheel,
                to: drive.sprockets()[gap.to].wheel,
                slack_mm,
                slack_teeth: slack_mm / pitch_mm,
                pulled: gap.to == 0,
            });
        }
    }
}

fn turning(job: &Job, all: &mut Vec<Warning>) {
    let work = job.work();
    if work.pulled_at.is_some() && work.turned_before_pin_deg < TWO_TURNS_DEG {
        all.push(Warning::PinPulledUnchecked { turned_deg: work.turned_before_pin_deg });
    }
    let turned_back = work.furthest.since(job.cord().turned()[0]) > TURNED_BACK_DEG;
    if !turned_back {
        return;
    }
    match work.tensioner {
        TensionerState::PinOut => {
            all.push(Warning::TurnedBackPinOut { gives_way_n_m: gives_way_n_m(job) });
        }
        TensionerState::Pinned | TensionerState::Locked => {
            let slack_mm = job.drive().belt().pitch_length_mm() - job.stance().path.length_mm;
            if slack_mm > drive::TIGHT_MM {
                all.push(Warning::TurnedBackSlack);
            }
        }
        TensionerState::Back | TensionerState::DrawnBack => {}
    }
}

/// Moment at the crank, turned back, from which a sprung tensioner gives way, N·m. `None` for one that is
/// locked by hand, and where the spring is made up.
pub fn gives_way_n_m(job: &Job) -> Option<f64> {
    let drive = job.drive();
    if job.plan().layout.provisional {
        return None;
    }
    let resting_n = drive::resting_tension_n(drive, job.plan().tensioner_pull()?);
    Some(drive::gives_way_n_m(drive, resting_n))
}

fn jumping(job: &Job, all: &mut Vec<Warning>) {
    let wheels: Vec<(usize, f64)> =
        jump_margins(job).into_iter().filter(|(_, margin)| *margin >= MAY_JUMP).collect();
    if !wheels.is_empty() {
        let clears = wheels.iter().any(|(_, margin)| *margin >= CLEARS);
        all.push(Warning::MayJump { wheels, clears });
    }
}

/// For each sprocket, its wheel and the slack that can reach it over what its whole wrap needs to clear.
pub fn jump_margins(job: &Job) -> Vec<(usize, f64)> {
    let (drive, cord, stance) = (job.drive(), job.cord(), job.stance());
    let margin = |k: usize| {
        let reach_mm = cord.slack_within_reach_mm(drive, stance, k);
        if reach_mm == 0.0 { 0.0 } else { reach_mm / clears_with_mm(drive, stance, k) }
    };
    (0..drive.sprockets().len()).map(|k| (drive.sprockets()[k].wheel, margin(k))).collect()
}

fn pointer(job: &Job, all: &mut Vec<Warning>) {
    let TensionerKind::SprungEccentric { pointer_window_deg: window_deg, .. } =
        job.plan().layout.tensioner.kind
    else {
        return;
    };
    let at_deg = job.travel();
    let inside = at_deg >= window_deg[0] && at_deg <= window_deg[1];
    if job.work().tensioner == TensionerState::PinOut && !inside {
        all.push(Warning::PointerOutside { at_deg, window_deg });
    }
}
