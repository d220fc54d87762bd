//! What each command does: the layout to its answer as text.
//!
//! Must not know: how a file is read, where the answer goes.

use crate::args::{self, BeltOff, Draw, Pose, Report, WhatIf};
use crate::fault::Fault;
use crate::{drawing, engine_text, fitting_text, input, pose_text, report_text};
use advice::EXPONENTS;
use engine::Stand;
use job::{Action, Job, Refusal};
use serde::Serialize;
use std::collections::BTreeMap;
use std::path::Path;
use std::rc::Rc;
use words::command::{exponent_refused, given_twice, onto_the_layout, travel_refused};
use words::{Lang, Reader};

/// How far the tensioner may stand from where it was asked to and still count as there: a travel that
/// was printed and is typed again goes through decimal digits and, about a pivot, through radians.
const SAME_TRAVEL: f64 = 1e-9;

/// What follows from the layout.
///
/// # Errors
/// The problems of the file.
pub fn report(lang: Lang, asked: &Report) -> Result<String, Vec<Fault>> {
    let plan = input::plan(lang, &asked.file).map_err(input::Closed::faults)?;
    let report = advice::report(&plan);
    if asked.json {
        return json(&asked.file, &report);
    }
    Ok(report_text::text(Reader { lang, ..Reader::default() }, &plan, &report))
}

/// How to hang the belt.
///
/// # Errors
/// The problems of the file.
pub fn fitting(lang: Lang, asked: &Report) -> Result<String, Vec<Fault>> {
    let plan = input::plan(lang, &asked.file).map_err(input::Closed::faults)?;
    let answer = advice::fitting(&plan);
    if asked.json {
        return json(&asked.file, &answer);
    }
    Ok(fitting_text::text(Reader { lang, ..Reader::default() }, &plan, &answer))
}

/// What shafts teeth out come to.
///
/// # Errors
/// The problems of the file; what of the asked cannot be.
pub fn what_if(lang: Lang, asked: &WhatIf) -> Result<String, Vec<Fault>> {
    let plan = input::plan(lang, &asked.file).map_err(input::Closed::faults)?;
    let refused = |option: &str, message| vec![Fault::of_file(&asked.file, option, message)];
    if let Some(n) = asked.exponent
        && !(EXPONENTS[0]..=EXPONENTS[1]).contains(&n)
    {
        return Err(refused("--exponent", exponent_refused(lang, n, EXPONENTS)));
    }
    let mut job = Job::new(Rc::new(plan));
    put_out(lang, &mut job, &asked.file, &asked.teeth)?;
    if asked.json {
        return json(&asked.file, &advice::what_if_report(&job, asked.exponent));
    }
    let reader = Reader { lang, ..Reader::default() };
    let behind = advice::engine_out(&job, asked.exponent);
    Ok(engine_text::what_if(reader, job.plan(), &advice::what_if(&job), behind.as_ref()))
}

/// What may be turned with the belt off.
///
/// # Errors
/// The problems of the file; what of the asked cannot be.
pub fn belt_off(lang: Lang, asked: &BeltOff) -> Result<String, Vec<Fault>> {
    let plan = input::plan(lang, &asked.file).map_err(input::Closed::faults)?;
    let refused = |option: &str, message| vec![Fault::of_file(&asked.file, option, message)];
    let wheels: Vec<usize> =
        plan.engine.as_ref().map_or_else(Vec::new, |engine| engine.wheels.clone());
    let mut stand = Stand { crank_deg: asked.crank_deg, camshafts_deg: vec![0.0; wheels.len()] };
    let far = |deg: f64| !(-MOST_DEG..=MOST_DEG).contains(&deg);
    for (option, deg) in std::iter::once(("--crank-deg", asked.crank_deg))
        .chain(asked.shaft.iter().map(|(_, deg)| ("--shaft", *deg)))
    {
        if far(deg) {
            let why =
                Refusal::OutOfRange { found: deg, least: -MOST_DEG, most: MOST_DEG, unit: "deg" };
            return Err(refused(option, words::refusal(lang, &why)));
        }
    }
    for (shaft, deg) in &asked.shaft {
        let Some(c) = wheels.iter().position(|wheel| plan.id(*wheel) == shaft) else {
            let shafts = wheels.iter().map(|wheel| plan.id(*wheel).to_owned()).collect();
            let why = Refusal::NoSuchShaft { found: shaft.clone(), shafts };
            return Err(refused("--shaft", words::refusal(lang, &why)));
        };
        // A camshaft's own degrees are two of the crank's.
        stand.camshafts_deg[c] = 2.0 * deg;
    }
    let Some(answer) = advice::belt_off(&plan, &stand, true) else {
        return Err(refused("engine", words::say::engine::no_engine(lang).to_owned()));
    };
    if asked.json {
        return json(&asked.file, &answer);
    }
    Ok(engine_text::belt_off(Reader { lang, ..Reader::default() }, &plan, &answer))
}

/// Farthest that a shaft may be said to stand from its mark, degrees.
const MOST_DEG: f64 = 1e6;

/// Where everything stands, put as asked.
///
/// # Errors
/// The problems of the file; what of the asked cannot be.
pub fn pose(lang: Lang, asked: &Pose) -> Result<String, Vec<Fault>> {
    let job = stand(lang, &asked.stand)?;
    let pose = advice::pose(&job);
    if asked.json {
        return json(&asked.stand.file, &pose);
    }
    Ok(pose_text::text(Reader { lang, ..Reader::default() }, job.plan(), &pose))
}

/// The drive as a drawing, put as asked.
///
/// # Errors
/// The problems of the file; what of the asked cannot be.
pub fn draw(lang: Lang, asked: &Draw) -> Result<String, Vec<Fault>> {
    let job = stand(lang, &asked.stand)?;
    if same_file(&asked.out, &asked.stand.file) {
        return Err(vec![Fault::of_file(&asked.out, "--out", onto_the_layout(lang).to_owned())]);
    }
    Ok(drawing::svg(Reader { lang, ..Reader::default() }, &job))
}

/// Whether both name one file that is there.
fn same_file(a: &Path, b: &Path) -> bool {
    let real = |file: &Path| file.canonicalize().ok();
    real(a).is_some_and(|a| real(b) == Some(a))
}

fn stand(lang: Lang, asked: &args::Stand) -> Result<Job, Vec<Fault>> {
    let plan = input::plan(lang, &asked.file).map_err(input::Closed::faults)?;
    let mut job = Job::new(Rc::new(plan));
    let refused = |option: &str, message| vec![Fault::of_file(&asked.file, option, message)];
    let act = |job: &mut Job, option: &str, action: Action| {
        job.act(&action, false).map_err(|why| refused(option, words::refusal(lang, &why)))
    };
    put_out(lang, &mut job, &asked.file, &asked.teeth)?;
    if let Some(travel) = asked.travel {
        let went = job.act(&Action::TensionerTo { travel }, false).is_ok();
        if !went || (job.travel() - travel).abs() > SAME_TRAVEL {
            let reading = advice::readings(&job).tensioner;
            let message = travel_refused(lang, travel, &reading, job.travel_unit());
            return Err(refused("--travel", message));
        }
    }
    act(&mut job, "--crank-deg", Action::TurnTo { crank_deg: asked.crank_deg })?;
    Ok(job)
}

/// Puts shafts teeth out as asked.
fn put_out(
    lang: Lang,
    job: &mut Job,
    file: &Path,
    asked: &[(String, i64)],
) -> Result<(), Vec<Fault>> {
    let refused = |message| vec![Fault::of_file(file, "--teeth", message)];
    let mut teeth = BTreeMap::new();
    for (shaft, n) in asked {
        if teeth.insert(shaft.clone(), *n).is_some() {
            return Err(refused(given_twice(lang, shaft)));
        }
    }
    let done = job.act(&Action::SetTeeth(teeth), false);
    done.map(|_| ()).map_err(|why| refused(words::refusal(lang, &why)))
}

/// An answer as JSON text.
pub fn json(file: &Path, answer: &impl Serialize) -> Result<String, Vec<Fault>> {
    match serde_json::to_string_pretty(answer) {
        Ok(text) => Ok(text + "\n"),
        Err(why) => Err(vec![Fault::of_file(file, "", why.to_string())]),
    }
}
