//! What each command does: the layout to its answer as text.
//!
//! Must not know: how a file is read, where the answer goes.

use crate::args::{Pose, Report};
use crate::fault::Fault;
use crate::{input, pose_text, report_text};
use job::{Action, Job};
use serde::Serialize;
use std::collections::BTreeMap;
use std::path::Path;
use words::command::{given_twice, travel_refused};
use words::{Lang, Reader};

/// How far the tensioner may stand from where it was asked to and still count as there: a travel that
/// was printed and is typed again goes through decimal digits and, about a pivot, through radians.
const SAME_TRAVEL: f64 = 1e-9;

/// What follows from the layout.
///
/// # Errors
/// The problems of the file.
pub fn report(lang: Lang, asked: &Report) -> Result<String, Vec<Fault>> {
    let plan = input::plan(lang, &asked.file)?;
    let report = advice::report(&plan);
    if asked.json {
        return json(&asked.file, &report);
    }
    Ok(report_text::text(Reader { lang, ..Reader::default() }, &plan, &report))
}

/// Where everything stands, put as asked.
///
/// # Errors
/// The problems of the file; what of the asked cannot be.
pub fn pose(lang: Lang, asked: &Pose) -> Result<String, Vec<Fault>> {
    let mut job = Job::new(input::plan(lang, &asked.file)?);
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
    let pose = advice::pose(&job);
    if asked.json {
        return json(&asked.file, &pose);
    }
    Ok(pose_text::text(Reader { lang, ..Reader::default() }, job.plan(), &pose))
}

fn json(file: &Path, answer: &impl Serialize) -> Result<String, Vec<Fault>> {
    match serde_json::to_string_pretty(answer) {
        Ok(text) => Ok(text + "\n"),
        Err(why) => Err(vec![Fault::of_file(file, "", why.to_string())]),
    }
}
