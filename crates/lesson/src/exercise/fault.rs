//! The faults that an exercise can hide, how they are brought onto a drive, and what they come to.
//!
//! Must not know: which of them is chosen, or what an answer looks like.

use advice::hands;
use drive::Drive;
use job::{Action, Job, TensionerMove};
use layout::{MarkUse, Plan};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// How far off square the class looks where that is the fault, degrees: far enough to seem half a tooth with
/// the usual gap.
pub const ASIDE_DEG: f64 = 30.0;

/// Most teeth that a shaft is put out.
const MOST_TEETH: i64 = 2;

/// The share of all slack that is brought into a wrong run.
const SHARE_IN_WRONG_RUN: f64 = 0.8;
/// Less slack than this is not seen in a wrong run, teeth.
const SEEN_TEETH: f64 = 0.75;

/// A fault. Wheels by index.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// A shaft is teeth out, ahead positive.
    TeethOut {
        /// Its wheel.
        wheel: usize,
        /// Teeth.
        teeth: i64,
    },
    /// A mark that does not count stands where the timing mark should.
    Decoy {
        /// Its wheel.
        wheel: usize,
        /// Which of the wheel's other marks.
        mark: usize,
    },
    /// The drive is looked at from the side.
    Aside {
        /// Whether marks seem ahead from there; else behind.
        ahead: bool,
    },
    /// The tensioner is back, and slack hangs in a run that it does not stand in.
    Slack {
        /// The sprocket that the run leaves, by index.
        run: usize,
    },
}

/// What faults come to: the same for two that nobody can tell apart because they are the same.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Finding {
    /// For each marked sprocket its teeth against the crank, brought into one turn of it; 0 for the crank. So
    /// *the crank a tooth ahead* and *every other shaft a tooth behind* are one finding.
    pub installation: Vec<i64>,
    /// Whether the drive is looked at from the side.
    pub aside: bool,
    /// The run, by the sprocket that it leaves, in which slack hangs wrongly.
    pub slack: Option<usize>,
}

/// The marked sprockets of a drive, in belt order, the crank first.
pub(super) fn marked(drive: &Drive) -> impl Iterator<Item = usize> + '_ {
    (0..drive.sprockets().len()).filter(|k| drive.is_marked(*k))
}

/// Every fault and pair of faults that can be hidden on a layout, in a fixed order, no two that come to the
/// same.
pub fn catalogue(plan: &Rc<Plan>) -> Vec<Vec<Fault>> {
    let single = singles(plan);
    let mut all: Vec<Vec<Fault>> = single.iter().map(|fault| vec![*fault]).collect();
    for (i, one) in single.iter().enumerate() {
        for other in &single[i + 1..] {
            if go_together(plan, *one, *other) {
                all.push(vec![*one, *other]);
            }
        }
    }
    let mut known = BTreeSet::new();
    // Which side one looks from is no other finding, but another thing to see.
    let side = |case: &[Fault]| case.contains(&Fault::Aside { ahead: true });
    all.retain(|case| known.insert((finding(plan, case), side(case))));
    all
}

fn singles(plan: &Plan) -> Vec<Fault> {
    let drive = &plan.drive;
    let mut all = Vec::new();
    for k in marked(drive) {
        let wheel = drive.sprockets()[k].wheel;
        for teeth in (-MOST_TEETH..=MOST_TEETH).filter(|teeth| *teeth != 0) {
            all.push(Fault::TeethOut { wheel, teeth });
        }
        let others = plan.layout.wheels[wheel].other_marks.iter().enumerate();
        let decoys = others.filter(|(_, other)| other.mark_use == MarkUse::Decoy);
        all.extend(decoys.map(|(mark, _)| Fault::Decoy { wheel, mark }));
    }
    all.extend([true, false].map(|ahead| Fault::Aside { ahead }));
    let run = drive.tensioner_run();
    let before = (run + drive.sprockets().len() - 1) % drive.sprockets().len();
    let wrong = [before, drive.next(run)].into_iter().filter(|wrong| *wrong != run);
    all.extend(
        wrong.filter(|wrong| mover(drive, *wrong).is_some()).map(|run| Fault::Slack { run }),
    );
    all
}

/// Two of a kind only where they are shafts, and the crank only by itself among those: more is for nobody to
/// see through.
fn go_together(plan: &Plan, one: Fault, other: Fault) -> bool {
    let shaft = |fault: Fault| match fault {
        Fault::TeethOut { wheel, .. } | Fault::Decoy { wheel, .. } => Some(wheel),
        Fault::Aside { .. } | Fault::Slack { .. } => None,
    };
    let crank = plan.drive.sprockets()[0].wheel;
    match (shaft(one), shaft(other)) {
        (Some(a), Some(b)) => a != b && a != crank && b != crank,
        (None, None) => core::mem::discriminant(&one) != core::mem::discriminant(&other),
        _ => true,
    }
}

/// What faults come to on a layout.
pub(super) fn finding(plan: &Rc<Plan>, faults: &[Fault]) -> Finding {
    let mut teeth = BTreeMap::new();
    let (mut aside, mut slack) = (false, None);
    for fault in faults {
        match *fault {
            Fault::TeethOut { wheel, teeth: out } => *teeth.entry(wheel).or_insert(0) += out,
            Fault::Decoy { wheel, mark } => {
                *teeth.entry(wheel).or_insert(0) += decoy_teeth(plan, wheel, mark);
            }
            Fault::Aside { .. } => aside = true,
            Fault::Slack { run } => slack = Some(run),
        }
    }
    Finding { installation: installation(plan, &teeth), aside, slack }
}

/// For each marked sprocket its teeth against the crank, brought into one turn, from teeth out by wheel.
pub(super) fn installation(plan: &Plan, teeth: &BTreeMap<usize, i64>) -> Vec<i64> {
    let drive = &plan.drive;
    let out = |k: usize| teeth.get(&drive.sprockets()[k].wheel).copied().unwrap_or(0);
    let against = |k: usize| (out(k) - out(0)).rem_euclid(i64::from(drive.sprockets()[k].teeth));
    marked(drive).map(against).collect()
}

/// By how many teeth a wheel is out with one of its other marks where its timing mark should be; the nearest
/// whole number.
pub(super) fn decoy_teeth(plan: &Rc<Plan>, wheel: usize, mark: usize) -> i64 {
    let job = Job::new(Rc::clone(plan));
    let hand = hands(&job).into_iter().find(|hand| hand.wheel == wheel);
    let by = hand.and_then(|hand| hand.to_others_deg.into_iter().find(|(i, _)| *i == mark));
    let z = plan.drive.wheels()[wheel].teeth().unwrap_or(0);
    by.map_or(0, |(_, deg)| libm::round(deg * f64::from(z) / 360.0) as i64)
}

/// The sprocket to turn so that slack comes from the tensioner's run into this one, and whether forward.
fn mover(drive: &Drive, run: usize) -> Option<(usize, bool)> {
    let own = drive.tensioner_run();
    let found = if drive.next(run) == own { (own, false) } else { (run, true) };
    drive.is_marked(found.0).then_some(found)
}

/// The drive with these faults, and how far off square it is looked at; `None` where they cannot be hidden.
pub(super) fn hide(plan: Rc<Plan>, faults: &[Fault]) -> Option<(Job, f64)> {
    let mut job = Job::new(Rc::clone(&plan));
    let mut aside_deg = 0.0;
    let mut slack = None;
    let mut teeth = BTreeMap::new();
    for fault in faults {
        match *fault {
            Fault::TeethOut { wheel, teeth: out } => teeth.insert(plan.id(wheel).to_owned(), out),
            Fault::Decoy { wheel, mark } => {
                teeth.insert(plan.id(wheel).to_owned(), decoy_teeth(&plan, wheel, mark))
            }
            Fault::Aside { ahead } => {
                aside_deg = if ahead { ASIDE_DEG } else { -ASIDE_DEG };
                None
            }
            Fault::Slack { run } => {
                slack = Some(run);
                None
            }
        };
    }
    job.act(&Action::SetTeeth(teeth), false).ok()?;
    if let Some(run) = slack {
        let drive = &plan.drive;
        let (k, forward) = mover(drive, run)?;
        job.act(&Action::Tensioner(TensionerMove::Back), false).ok()?;
        let all_mm: f64 =
            (0..drive.sprockets().len()).map(|j| job.cord().slack_mm(drive, job.stance(), j)).sum();
        let by_teeth = SHARE_IN_WRONG_RUN * all_mm / drive.belt().pitch_mm;
        if by_teeth < SEEN_TEETH {
            return None;
        }
        let sprocket = &drive.sprockets()[k];
        let deg = by_teeth * 360.0 / f64::from(sprocket.teeth);
        let deg = if forward { deg } else { -deg };
        let shaft = plan.id(sprocket.wheel).to_owned();
        job.act(&Action::Turn { shaft, deg }, false).ok()?;
    }
    Some((job.without_history(), aside_deg))
}
