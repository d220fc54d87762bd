//! What each command does: the layout to its answer as text.
//!
//! Must not know: how a file is read, where the answer goes.

use crate::args::{Draw, Pose, Report, Stand};
use crate::fault::Fault;
use crate::{drawing, fitting_text, input, pose_text, report_text};
use job::{Action, Job};
use serde::Serialize;
use std::collections::BTreeMap;
use std::path::Path;
use std::rc::Rc;
use words::command::{given_twice, onto_the_layout, travel_refused};
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

fn stand(lang: Lang, asked: &Stand) -> Result<Job, Vec<Fault>> {
    let plan = input::plan(lang, &asked.file).map_err(input::Closed::faults)?;
    let mut job = Job::new(Rc::new(plan));
    let refused = |option: &str, message| vec![Fault::of_file(&asked.file, option, message)];
    let act = |job: &mut Job, option: &str, action: Action| {
        job.act(&action, false).map_err(|why| refused(option, words::refusal(lang, &why)))
    };
    let mut teeth = BTreeMap::new();
    for (shaft, n) in &asked.teeth {
        if teeth.insert(shaft.clone(), *n).is_some() {
            return Err(refused("--teeth", given_twice(lang, shaft)));
        }
    }
    act(&mut job, "--teeth", Action::SetTeeth(teeth))?;
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

/// An answer as JSON text.
pub fn json(file: &Path, answer: &impl Serialize) -> Result<String, Vec<Fault>> {
    match serde_json::to_string_pretty(answer) {
        Ok(text) => Ok(text + "\n"),
        Err(why) => Err(vec![Fault::of_file(file, "", why.to_string())]),
    }
}
