//! The usual order of fitting a belt, how far a job has come in it, and what comes next.
//!
//! Must not know: words. Nobody is kept to the order: it is read off the job as it stands.

use crate::fitting::Fitting;
use crate::readings::fitted_teeth;
use crate::report::marked;
use crate::warnings::{TWO_TURNS_DEG, is_up};
use drive::{Fixing, Seat, mark_error_teeth};
use job::{Action, BeltMove, HangAs, HungSo, Job, TakenOff, TensionerMove, TensionerState};

/// A tensioner is where it should be within this, mm or radians.
const SHORT_TRAVEL: f64 = 1e-6;

/// A four-stroke engine's cycle, crank turns.
const CYCLE_TURNS: u64 = 2;
/// Most turns to bring every mark up at once; where it takes more, a cycle has to do.
const MOST_TURNS: u64 = 24;

/// A step of the usual order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Bring every mark up.
    MarksUp,
    /// Slacken the bolts of sprockets that float.
    SlackenBolts,
    /// Hold the shafts that the belt times.
    HoldShafts,
    /// Draw the tensioner back.
    DrawBack,
    /// Take the old belt off.
    TakeOff,
    /// Back the crank off.
    BackOff,
    /// Hang the belt.
    Hang,
    /// Bring the crank forward until the belt into it is tight.
    TakeUp,
    /// Bolt the tensioner up, its pin in.
    BoltUp,
    /// Tighten the bolts of sprockets that float.
    TightenBolts,
    /// Let go of everything.
    LetGo,
    /// Turn it over twice and read the marks.
    TurnTwice,
    /// Pull the pin.
    PullPin,
    /// Turn it over twice again.
    TurnTwiceAgain,
}

impl Stage {
    /// All of them, in the usual order.
    pub const ALL: [Self; 14] = [
        Self::MarksUp,
        Self::SlackenBolts,
        Self::HoldShafts,
        Self::DrawBack,
        Self::TakeOff,
        Self::BackOff,
        Self::Hang,
        Self::TakeUp,
        Self::BoltUp,
        Self::TightenBolts,
        Self::LetGo,
        Self::TurnTwice,
        Self::PullPin,
        Self::TurnTwiceAgain,
    ];
}

/// A step, and how it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct StageNow {
    /// The step.
    pub stage: Stage,
    /// Whether it is done.
    pub done: bool,
    /// Whether its time is over without that.
    pub skipped: bool,
    /// Whether it is the next to do.
    pub next: bool,
    /// What does it, in order.
    pub actions: Vec<Action>,
}

/// The usual order for a job's layout, `answer` being its fitting answer.
pub fn stages(job: &Job, answer: &Fitting) -> Vec<StageNow> {
    let locked = job.plan().is_locked_by_hand();
    let floats = (0..job.drive().sprockets().len()).any(|k| floats(job, k));
    let belongs = |stage: &Stage| match stage {
        Stage::SlackenBolts | Stage::TightenBolts => floats,
        Stage::BackOff => answer.teeth_to_back_off > 0,
        Stage::PullPin | Stage::TurnTwiceAgain => !locked,
        _ => true,
    };
    let phase = Phase::of(job);
    let mut next_is_found = false;
    Stage::ALL
        .into_iter()
        .filter(belongs)
        .map(|stage| {
            let standing = standing(job, stage, phase);
            let next = standing == Standing::Open && !next_is_found;
            next_is_found |= next;
            let (done, skipped) = (standing == Standing::Done, standing == Standing::Skipped);
            StageNow { stage, done, skipped, next, actions: actions(job, stage, answer) }
        })
        .collect()
}

/// How far the work has come, as what is on and where the tensioner stands show it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Phase {
    /// The old belt is on.
    Old,
    /// No belt is on.
    Off,
    /// The new belt hangs.
    Hung,
    /// The tensioner is up.
    Up,
    /// The pin is out.
    PinOut,
}

impl Phase {
    fn of(job: &Job) -> Self {
        let work = job.work();
        if !job.cord().is_on() {
            return Self::Off;
        }
        match (work.hung_at.is_some(), work.tensioner) {
            (false, _) => Self::Old,
            (true, TensionerState::PinOut) => Self::PinOut,
            (true, state) if is_up(state) && is_out_far_enough(job) => Self::Up,
            (true, _) => Self::Hung,
        }
    }
}

/// Whether a tensioner that is bolted up stands where that is, or as far as what is held lets it: once
/// that is let go, what stands short is bolted up again.
fn is_out_far_enough(job: &Job) -> bool {
    let drive = job.drive();
    let taut = drive.taut().travel;
    let bolted = job.plan().bolted_travel().unwrap_or(taut);
    let free = if bolted < taut { bolted } else { taut };
    let within = job.cord().travel_within_holds(drive, job.stance(), free);
    job.stance().travel >= within - SHORT_TRAVEL
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Standing {
    Open,
    Done,
    Skipped,
}

/// How a step stands: done if it shows, or did when its time was; skipped if its time is over.
fn standing(job: &Job, stage: Stage, phase: Phase) -> Standing {
    let (drive, cord, work) = (job.drive(), job.cord(), job.work());
    let open = |done: bool| if done { Standing::Done } else { Standing::Open };
    let then = |now: bool, over: bool, was: bool| match (over, if over { was } else { now }) {
        (_, true) => Standing::Done,
        (true, false) => Standing::Skipped,
        (false, false) => Standing::Open,
    };
    let anchors = || (0..drive.sprockets().len()).filter(|k| drive.is_marked(*k));
    let error = |k: usize| {
        mark_error_teeth(cord.turned()[k], drive.sprockets()[k].teeth, drive.crank_teeth())
    };
    let is_up_now = |k: usize| error(k).abs() < crate::HALF_A_TOOTH;
    let taken_off = work.taken_off.unwrap_or(TakenOff { marks_up: false, held: false });
    let hung = work.hung.unwrap_or(HungSo { crank_back: false, bolt_slack: false });
    let twice = |deg: Option<f64>| deg.is_some_and(|deg| deg >= TWO_TURNS_DEG);
    match stage {
        Stage::MarksUp => then(anchors().all(is_up_now), phase > Phase::Old, taken_off.marks_up),
        Stage::SlackenBolts => {
            let loose = |k: usize| matches!(cord.seats()[k], Seat::Loose { .. });
            let now = (0..cord.seats().len()).filter(|k| floats(job, *k)).all(loose);
            then(now, phase > Phase::Off, hung.bolt_slack)
        }
        Stage::HoldShafts => {
            let held = |k: usize| k == 0 || (cord.holds()[k].is_some() && is_up_now(k));
            let over = phase > Phase::Hung || (phase == Phase::Hung && is_up(work.tensioner));
            then(anchors().all(held), over, taken_off.held)
        }
        Stage::DrawBack => open(phase > Phase::Off || !is_up(work.tensioner)),
        Stage::TakeOff => open(phase > Phase::Old),
        Stage::BackOff => {
            then(error(0) <= -crate::HALF_A_TOOTH, phase > Phase::Off, hung.crank_back)
        }
        Stage::Hang => open(phase > Phase::Off),
        Stage::TakeUp => {
            let last = drive.gaps().into_iter().next_back();
            let tight = last.is_none_or(|gap| cord.gap_slack_mm(drive, job.stance(), gap) == 0.0);
            open(phase > Phase::Off && tight)
        }
        Stage::BoltUp => open(phase > Phase::Hung),
        Stage::TightenBolts => {
            let tight = cord.seats().iter().all(|seat| matches!(seat, Seat::Tight { .. }));
            open(phase > Phase::Hung && tight)
        }
        Stage::LetGo => open(phase > Phase::Hung && cord.holds().iter().all(Option::is_none)),
        Stage::TurnTwice => {
            let now = twice(work.turned_since_bolted_deg()) && marks_are_right(job);
            let was = work.turned_before_pin_deg >= TWO_TURNS_DEG;
            then(phase == Phase::Up && now, phase == Phase::PinOut, was)
        }
        Stage::PullPin => open(phase == Phase::PinOut),
        Stage::TurnTwiceAgain => {
            let read = twice(work.turned_since_pin_deg()) && marks_are_right(job);
            open(phase == Phase::PinOut && read)
        }
    }
}

/// Whether every shaft is fitted in time with nothing hanging that the tensioner does not reach.
pub(crate) fn marks_are_right(job: &Job) -> bool {
    let in_time = marked(job.drive()).all(|k| fitted_teeth(job, k) == 0);
    in_time && job.cord().is_on()
}

/// Whether sprocket `k` is to float while the belt goes on: it has a lock on its shaft to be set by.
fn floats(job: &Job, k: usize) -> bool {
    let wheel = job.drive().sprockets()[k].wheel;
    let on_shaft = job.plan().layout.wheels[wheel]
        .lock
        .is_some_and(|lock| matches!(lock.on, layout::LockOn::Shaft));
    on_shaft && job.drive().wheels()[wheel].fixing != Fixing::Keyed
}

/// The next angle, forward, at which every mark is up, degrees.
fn all_up_deg(job: &Job) -> f64 {
    let drive = job.drive();
    let every = marked(drive).try_fold(CYCLE_TURNS, |turns, k| {
        let teeth = drive.sprockets()[k].teeth;
        drive::lcm(turns, drive::returns_after_crank_turns(teeth, drive.crank_teeth()))
    });
    let turns = every.filter(|turns| *turns <= MOST_TURNS).unwrap_or(CYCLE_TURNS);
    let period_deg = turns as f64 * 360.0;
    libm::ceil(job.crank().total_deg() / period_deg - 1e-9) * period_deg
}

/// Two turns on from the crank's mark, the next one forward, degrees.
fn two_turns_on_deg(job: &Job) -> f64 {
    (libm::ceil(job.crank().total_deg() / 360.0 - 1e-9) + 2.0) * 360.0
}

fn actions(job: &Job, stage: Stage, answer: &Fitting) -> Vec<Action> {
    let (plan, drive, cord) = (job.plan(), job.drive(), job.cord());
    let id = |k: usize| plan.id(drive.sprockets()[k].wheel).to_owned();
    let crank = || id(0);
    let each = |which: &dyn Fn(usize) -> bool, action: &dyn Fn(String) -> Action| {
        (0..drive.sprockets().len()).filter(|k| which(*k)).map(|k| action(id(k))).collect()
    };
    match stage {
        Stage::MarksUp => vec![Action::TurnTo { crank_deg: all_up_deg(job) }],
        Stage::HoldShafts => {
            each(&|k| k != 0 && drive.is_marked(k) && cord.holds()[k].is_none(), &|shaft| {
                Action::Hold { shaft }
            })
        }
        Stage::DrawBack => vec![Action::Tensioner(TensionerMove::Back)],
        Stage::TakeOff => vec![Action::Belt(BeltMove::Off)],
        Stage::SlackenBolts => each(&|k| floats(job, k), &|shaft| Action::Slacken { shaft }),
        Stage::BackOff => {
            let teeth = drive.sprockets()[0].teeth;
            let ahead = mark_error_teeth(cord.turned()[0], teeth, drive.crank_teeth());
            let teeth = -(answer.teeth_to_back_off as f64) - ahead;
            vec![Action::Turn { shaft: crank(), deg: teeth * drive.crank_deg_per_tooth() }]
        }
        Stage::Hang => vec![Action::Hang(HangAs::InTime)],
        Stage::BoltUp => vec![Action::Tensioner(TensionerMove::BoltUp)],
        Stage::TakeUp => vec![Action::BringForward { shaft: crank() }],
        Stage::TightenBolts => each(&|k| matches!(cord.seats()[k], Seat::Loose { .. }), &|shaft| {
            Action::Tighten { shaft }
        }),
        Stage::LetGo => each(&|k| cord.holds()[k].is_some(), &|shaft| Action::Release { shaft }),
        Stage::TurnTwice | Stage::TurnTwiceAgain => {
            vec![Action::TurnTo { crank_deg: two_turns_on_deg(job) }]
        }
        Stage::PullPin => vec![Action::Tensioner(TensionerMove::PullPin)],
    }
}
