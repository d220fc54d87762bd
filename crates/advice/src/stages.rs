//! The usual order of fitting a belt, how far a job has come in it, and what comes next.
//!
//! Must not know: words. Nobody is kept to the order: it is read off the job as it stands.

use crate::fitting::Fitting;
use crate::warnings::{TWO_TURNS_DEG, is_up};
use drive::{Fixing, Seat, mark_error_teeth};
use job::{Action, BeltMove, HangAs, Job, TensionerMove, TensionerState};

/// A four-stroke engine's cycle, crank degrees.
const CYCLE_DEG: f64 = 720.0;

/// A step of the usual order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Bring every mark up.
    MarksUp,
    /// Hold the shafts that the belt times.
    HoldShafts,
    /// Draw the tensioner back.
    DrawBack,
    /// Take the old belt off.
    TakeOff,
    /// Slacken the bolts of sprockets that float.
    SlackenBolts,
    /// Back the crank off.
    BackOff,
    /// Hang the belt.
    Hang,
    /// Bolt the tensioner up, its pin in.
    BoltUp,
    /// Bring the crank forward until the belt into it is tight.
    TakeUp,
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

/// A step, and how it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct StageNow {
    /// The step.
    pub stage: Stage,
    /// Whether it is done.
    pub done: bool,
    /// Whether it is the next to do.
    pub next: bool,
    /// What does it, in order.
    pub actions: Vec<Action>,
}

/// The usual order for a job's layout, `answer` being its fitting answer.
pub fn stages(job: &Job, answer: &Fitting) -> Vec<StageNow> {
    let drive = job.drive();
    let locked = job.plan().is_locked_by_hand();
    let floats = (0..drive.sprockets().len()).any(|k| floats(job, k));
    let mut all = Vec::new();
    for stage in [
        Stage::MarksUp,
        Stage::HoldShafts,
        Stage::DrawBack,
        Stage::TakeOff,
        Stage::SlackenBolts,
        Stage::BackOff,
        Stage::Hang,
        Stage::BoltUp,
        Stage::TakeUp,
        Stage::TightenBolts,
        Stage::LetGo,
        Stage::TurnTwice,
        Stage::PullPin,
        Stage::TurnTwiceAgain,
    ] {
        let belongs = match stage {
            Stage::SlackenBolts | Stage::TightenBolts => floats,
            Stage::BackOff => answer.teeth_to_back_off > 0,
            Stage::PullPin | Stage::TurnTwiceAgain => !locked,
            _ => true,
        };
        if belongs {
            let actions = actions(job, stage, answer);
            all.push(StageNow { stage, done: false, next: false, actions });
        }
    }
    mark(job, &mut all);
    all
}

/// Ticks off what is done: everything before the phase that the job is in, and in it what shows.
fn mark(job: &Job, all: &mut [StageNow]) {
    let phase = Phase::of(job);
    for now in all.iter_mut() {
        let of = Phase::of_stage(now.stage);
        now.done = of < phase || (of == phase && shows(job, now.stage));
    }
    if let Some(next) = all.iter_mut().find(|now| !now.done) {
        next.next = true;
    }
}

/// What cannot be seen from the shafts and the belt alone: how far the work has come.
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
            (true, state) if is_up(state) => Self::Up,
            (true, _) => Self::Hung,
        }
    }

    fn of_stage(stage: Stage) -> Self {
        match stage {
            Stage::MarksUp | Stage::HoldShafts | Stage::DrawBack | Stage::TakeOff => Self::Old,
            Stage::SlackenBolts | Stage::BackOff | Stage::Hang => Self::Off,
            Stage::BoltUp => Self::Hung,
            Stage::TakeUp
            | Stage::TightenBolts
            | Stage::LetGo
            | Stage::TurnTwice
            | Stage::PullPin => Self::Up,
            Stage::TurnTwiceAgain => Self::PinOut,
        }
    }
}

/// Whether a step of the phase in hand is done.
fn shows(job: &Job, stage: Stage) -> bool {
    let (drive, cord, work) = (job.drive(), job.cord(), job.work());
    let anchors = || (0..drive.sprockets().len()).filter(|k| drive.is_marked(*k));
    let error = |k: usize| {
        mark_error_teeth(cord.turned()[k], drive.sprockets()[k].teeth, drive.crank_teeth())
    };
    let turned_twice = |deg: Option<f64>| deg.is_some_and(|deg| deg >= TWO_TURNS_DEG);
    match stage {
        Stage::MarksUp => anchors().all(|k| error(k).abs() < crate::HALF_A_TOOTH),
        Stage::HoldShafts => {
            let rest = anchors().filter(|k| *k != 0);
            rest.clone().count() > 0 && rest.clone().all(|k| cord.holds()[k].is_some())
        }
        Stage::DrawBack => !is_up(work.tensioner),
        Stage::SlackenBolts => {
            let loose = |k: &usize| matches!(cord.seats()[*k], Seat::Loose { .. });
            (0..cord.seats().len()).filter(|k| floats(job, *k)).all(|k| loose(&k))
        }
        Stage::BackOff => error(0) <= -crate::HALF_A_TOOTH,
        Stage::TakeUp => drive
            .gaps()
            .last()
            .is_none_or(|gap| cord.gap_slack_mm(drive, job.stance(), *gap) == 0.0),
        Stage::TightenBolts => cord.seats().iter().all(|seat| matches!(seat, Seat::Tight { .. })),
        Stage::LetGo => cord.holds().iter().all(Option::is_none),
        Stage::TurnTwice => turned_twice(work.turned_since_bolted_deg()),
        Stage::TurnTwiceAgain => turned_twice(work.turned_since_pin_deg()),
        // Doing these opens the next phase.
        Stage::TakeOff | Stage::Hang | Stage::BoltUp | Stage::PullPin => false,
    }
}

/// Whether sprocket `k` is to float while the belt goes on: it has a lock on its shaft to be set by.
fn floats(job: &Job, k: usize) -> bool {
    let wheel = job.drive().sprockets()[k].wheel;
    let on_shaft = job.plan().layout.wheels[wheel]
        .lock
        .is_some_and(|lock| matches!(lock.on, layout::LockOn::Shaft));
    on_shaft && job.drive().wheels()[wheel].fixing != Fixing::Keyed
}

/// The next angle, forward, at which every shaft of a four-stroke engine is back, degrees.
fn next_cycle_deg(job: &Job) -> f64 {
    libm::ceil(job.crank().total_deg() / CYCLE_DEG - 1e-9) * CYCLE_DEG
}

fn actions(job: &Job, stage: Stage, answer: &Fitting) -> Vec<Action> {
    let (plan, drive, cord) = (job.plan(), job.drive(), job.cord());
    let id = |k: usize| plan.id(drive.sprockets()[k].wheel).to_owned();
    let crank = || id(0);
    let each = |which: &dyn Fn(usize) -> bool, action: &dyn Fn(String) -> Action| {
        (0..drive.sprockets().len()).filter(|k| which(*k)).map(|k| action(id(k))).collect()
    };
    match stage {
        Stage::MarksUp => vec![Action::TurnTo { crank_deg: next_cycle_deg(job) }],
        Stage::HoldShafts => {
            each(&|k| k != 0 && drive.is_marked(k) && cord.holds()[k].is_none(), &|shaft| {
                Action::Hold { shaft }
            })
        }
        Stage::DrawBack => vec![Action::Tensioner(TensionerMove::Back)],
        Stage::TakeOff => vec![Action::Belt(BeltMove::Off)],
        Stage::SlackenBolts => each(&|k| floats(job, k), &|shaft| Action::Slacken { shaft }),
        Stage::BackOff => {
            let deg = -(answer.teeth_to_back_off as f64) * drive.crank_deg_per_tooth();
            vec![Action::Turn { shaft: crank(), deg }]
        }
        Stage::Hang => vec![Action::Hang(HangAs::InTime)],
        Stage::BoltUp => vec![Action::Tensioner(TensionerMove::BoltUp)],
        Stage::TakeUp => vec![Action::BringForward { shaft: crank() }],
        Stage::TightenBolts => each(&|k| matches!(cord.seats()[k], Seat::Loose { .. }), &|shaft| {
            Action::Tighten { shaft }
        }),
        Stage::LetGo => each(&|k| cord.holds()[k].is_some(), &|shaft| Action::Release { shaft }),
        Stage::TurnTwice | Stage::TurnTwiceAgain => {
            vec![Action::Turn { shaft: crank(), deg: 720.0 }]
        }
        Stage::PullPin => vec![Action::Tensioner(TensionerMove::PullPin)],
    }
}
