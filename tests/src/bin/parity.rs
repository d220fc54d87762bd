//! What the program says natively of the layout that ships and of random ones, in a form that the
//! browser proofs hold against what the page's core says: every figure byte for byte.
//!
//! Prints one JSON object a line: the layout's text, the report, and after each action the pose, both
//! printed as the page prints them. Takes the seeds to draw from: `parity 0 1000` draws a thousand.
//!
//! Must not know: anything of browsers, or what the figures should be.

use fastrand::Rng;
use job::{Action, Job, TensionerMove};
use layout::Plan;
use proofs::random::sound_layout;
use serde::Serialize;
use std::collections::BTreeMap;
use std::error::Error;
use std::io::{BufWriter, Write};
use std::rc::Rc;

const SHIPPED: &str = include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

/// One layout and everything that was said of it.
#[derive(Serialize)]
struct Case {
    name: String,
    layout: String,
    report: String,
    steps: Vec<Step>,
}

/// An action, and the pose that it left.
#[derive(Serialize)]
struct Step {
    action: Action,
    pose: String,
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut seeds = std::env::args().skip(1).map(|word| word.parse::<u64>());
    let from = seeds.next().transpose()?.unwrap_or(0);
    let to = seeds.next().transpose()?.unwrap_or(from);
    let mut out = BufWriter::new(std::io::stdout().lock());
    let shipped = case("shipped".to_owned(), SHIPPED.to_owned(), from)?;
    writeln!(out, "{}", serde_json::to_string(&shipped)?)?;
    for seed in from..to {
        let drawn = case(format!("seed {seed}"), sound_layout(seed).toml(), seed)?;
        writeln!(out, "{}", serde_json::to_string(&drawn)?)?;
    }
    Ok(out.flush()?)
}

fn case(name: String, layout: String, seed: u64) -> Result<Case, Box<dyn Error>> {
    let plan = Plan::open(&layout).map_err(|problems| format!("{name}: {problems:?}"))?;
    let report = serde_json::to_string_pretty(&advice::report(&plan))?;
    let mut job = Job::new(Rc::new(plan));
    let mut steps = Vec::new();
    for action in actions(&job, seed) {
        job.act(&action, false).map_err(|refusal| format!("{name}: {refusal:?}"))?;
        let pose = serde_json::to_string_pretty(&advice::pose(&job))?;
        steps.push(Step { action, pose });
    }
    Ok(Case { name, layout, report, steps })
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
