//! What the program says natively of the layouts that ship and of random ones, in a form that the
//! browser proofs hold against what the page's core says: every figure byte for byte.
//!
//! Prints one JSON object a line: the layout's text, the report, the fitting and tension answers, after each action
//! the pose, and after each action of a rehearsal the readings, all printed as the page prints them.
//! Takes the seeds to draw from: `parity 0 1000` draws a thousand, of which a hundred are rehearsed.
//!
//! Must not know: anything of browsers, or what the figures should be.

use fastrand::Rng;
use job::{Action, BeltMove, HangAs, Job, TensionerMove};
use layout::Plan;
use proofs::random::sound_layout;
use serde::Serialize;
use std::collections::BTreeMap;
use std::error::Error;
use std::io::{BufWriter, Write};
use std::rc::Rc;

const SHIPPED: [(&str, &str); 6] = [
    ("six, 1", include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml")),
    ("six, 2", include_str!("../../../layouts/six-in-a-vee-two-camshafts-a-bank.toml")),
    ("four, 1", include_str!("../../../layouts/four-in-line-one-camshaft-eccentric.toml")),
    ("four, 2", include_str!("../../../layouts/four-in-line-two-camshafts-arm.toml")),
    ("diesel", include_str!("../../../layouts/diesel-four-with-injection-pump.toml")),
    ("balance", include_str!("../../../layouts/balance-shaft-belt.toml")),
];

/// Random layouts on which a belt is fitted as well.
const REHEARSED: u64 = 100;

/// One layout and everything that was said of it.
#[derive(Serialize)]
struct Case {
    name: String,
    layout: String,
    report: String,
    fitting: String,
    tension: String,
    steps: Vec<Step>,
    rehearsal: Vec<Rehearsed>,
}

/// An action, and the pose that it left.
#[derive(Serialize)]
struct Step {
    action: Action,
    pose: String,
}

/// An action of the rehearsal, and the readings that it left: the ones before where it was refused.
#[derive(Serialize)]
struct Rehearsed {
    action: Action,
    moment: String,
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut seeds = std::env::args().skip(1).map(|word| word.parse::<u64>());
    let from = seeds.next().transpose()?.unwrap_or(0);
    let to = seeds.next().transpose()?.unwrap_or(from);
    let mut out = BufWriter::new(std::io::stdout().lock());
    for (name, text) in SHIPPED {
        let shipped = case(name.to_owned(), text.to_owned(), from, true)?;
        writeln!(out, "{}", serde_json::to_string(&shipped)?)?;
    }
    for seed in from..to {
        let rehearsed = seed - from < REHEARSED;
        let drawn = case(format!("seed {seed}"), sound_layout(seed).toml(), seed, rehearsed)?;
        writeln!(out, "{}", serde_json::to_string(&drawn)?)?;
    }
    Ok(out.flush()?)
}

fn case(name: String, layout: String, seed: u64, rehearsed: bool) -> Result<Case, Box<dyn Error>> {
    let plan = Plan::open(&layout).map_err(|problems| format!("{name}: {problems:?}"))?;
    let plan = Rc::new(plan);
    let report = serde_json::to_string_pretty(&advice::report(&plan))?;
    let fitting = serde_json::to_string_pretty(&advice::fitting(&plan))?;
    let asked = advice::TensionAsked::default();
    let tension = serde_json::to_string_pretty(&advice::tension(&plan, &asked))?;
    // As on the page, where a hand that turns feels what it meets.
    let mut job = Job::new(Rc::clone(&plan)).feeling_contact();
    let mut steps = Vec::new();
    for action in actions(&job, seed) {
        job.act(&action, false).map_err(|refusal| format!("{name}: {refusal:?}"))?;
        let pose = serde_json::to_string_pretty(&advice::pose(&job))?;
        steps.push(Step { action, pose });
    }
    let mut job = Job::new(plan).feeling_contact();
    let mut rehearsal = Vec::new();
    if rehearsed {
        for action in fitting_actions(&job) {
            // What is refused leaves everything as it was, there as here.
            drop(job.act(&action, false));
            let moment = serde_json::to_string(&advice::moment(&job))?;
            rehearsal.push(Rehearsed { action, moment });
        }
    }
    Ok(Case { name, layout, report, fitting, tension, steps, rehearsal })
}

/// A belt fitted: in the usual order, but hung as it falls before it is hung counted, and a tooth wrong
/// after that; and in the end turned back.
fn fitting_actions(job: &Job) -> Vec<Action> {
    let plan = job.plan();
    let drive = &plan.drive;
    let sprockets: Vec<String> =
        drive.sprockets().iter().map(|sprocket| plan.id(sprocket.wheel).to_owned()).collect();
    let crank = || sprockets[0].clone();
    let others = || sprockets.iter().skip(1).cloned();
    let tooth_deg = drive.crank_deg_per_tooth();
    let gaps = drive.gaps();
    let last = gaps.len() - 1;
    let one_more = drive.gap_teeth_in_time()[last] + 1;
    let wrong = BTreeMap::from([(job.gap_name(gaps[last]), one_more)]);
    let mut all: Vec<Action> = others().map(|shaft| Action::Hold { shaft }).collect();
    all.push(Action::Tensioner(TensionerMove::Back));
    all.push(Action::Belt(BeltMove::Off));
    all.extend(others().map(|shaft| Action::Slacken { shaft }));
    all.push(Action::Turn { shaft: crank(), deg: -1.3 * tooth_deg });
    all.push(Action::Hang(HangAs::AsItFalls));
    all.push(Action::Tensioner(TensionerMove::BoltUp));
    all.push(Action::BringForward { shaft: crank() });
    all.push(Action::Tensioner(TensionerMove::Back));
    all.push(Action::Hang(HangAs::InTime));
    all.push(Action::Tensioner(TensionerMove::BoltUp));
    all.push(Action::BringForward { shaft: crank() });
    all.extend(others().map(|shaft| Action::Tighten { shaft }));
    all.extend(others().map(|shaft| Action::Release { shaft }));
    all.push(Action::Turn { shaft: crank(), deg: 720.0 });
    all.push(Action::Tensioner(TensionerMove::PullPin));
    all.push(Action::Turn { shaft: crank(), deg: 720.0 });
    all.push(Action::Tensioner(TensionerMove::Back));
    all.push(Action::Hang(HangAs::Teeth(wrong)));
    all.push(Action::Tensioner(TensionerMove::PullPin));
    all.push(Action::Turn { shaft: crank(), deg: -2.0 * tooth_deg });
    all
}

/// Turned, teeth out, slack, slack dragged about by a shaft, half taken up and tight again.
fn actions(job: &Job, seed: u64) -> Vec<Action> {
    let mut rng = Rng::with_seed(!seed);
    let mut deg = |most: f64| most * (2.0 * rng.f64() - 1.0);
    let plan = job.plan();
    let wheels = plan.drive.wheels();
    let marked: Vec<usize> = (0..wheels.len()).filter(|i| wheels[*i].mark.is_some()).collect();
    let last = marked.last().copied().unwrap_or(0);
    let teeth: BTreeMap<String, i64> = marked
        .iter()
        .zip([1, -2, 3].into_iter().cycle())
        .map(|(i, n)| (plan.id(*i).to_owned(), n))
        .collect();
    let unit = plan.travel_unit();
    let (back, tight) = (plan.drive.tensioner().right_back, plan.drive.taut().travel);
    vec![
        Action::TurnTo { crank_deg: deg(1000.0) },
        Action::SetTeeth(teeth),
        Action::Tensioner(TensionerMove::Back),
        Action::Turn { shaft: plan.id(last).to_owned(), deg: deg(200.0) },
        Action::TensionerTo { travel: unit.outside(back + 0.375 * (tight - back)) },
        Action::TurnTo { crank_deg: deg(100_000.0) },
        Action::Tensioner(TensionerMove::PullPin),
    ]
}
