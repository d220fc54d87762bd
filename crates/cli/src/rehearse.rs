//! `two-turns run`: a file of actions done one after the other, a line of readings after each.
//!
//! Must not know: how an action is done, or any word that `words` has not.

use crate::args::Run;
use crate::fault::Fault;
use crate::input;
use crate::report_text::travel;
use advice::{Moment, moment, warnings};
use job::{Action, Job};
use serde::Serialize;
use std::path::Path;
use std::rc::Rc;
use words::command::{Headings, no_action, one_standard_input};
use words::{Lang, Reader, say};

/// What came of it: what to print, and what then stopped it.
pub struct Rehearsed {
    /// A line, or some, for each action that was done.
    pub answer: String,
    /// Why the next was not.
    pub faults: Vec<Fault>,
}

/// A line of JSON.
#[derive(Serialize)]
struct Line<'a> {
    did: String,
    #[serde(flatten)]
    moment: &'a Moment,
    warnings: Vec<String>,
}

/// Does the actions of a file on the drive of another, in time and tight to begin with. It stops at the
/// first that cannot be done.
///
/// # Errors
/// The problems of the layout; that the actions cannot be read.
pub fn run(lang: Lang, asked: &Run) -> Result<Rehearsed, Vec<Fault>> {
    let both = asked.file == Path::new("-") && asked.actions == Path::new("-");
    if both {
        let why = Fault::of_file(&asked.actions, "", one_standard_input(lang).to_owned());
        return Err(vec![why]);
    }
    let plan = input::plan(lang, &asked.file).map_err(input::Closed::faults)?;
    let text = input::text(lang, &asked.actions).map_err(|fault| vec![fault])?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
    let reader = Reader { lang, ..Reader::default() };
    let mut job = Job::new(Rc::new(plan)).feeling_contact();
    let (mut answer, mut faults) = (String::new(), Vec::new());
    for (number, line) in text.lines().enumerate() {
        if line.trim().is_empty() {
            continue;
        }
        let fault = |column: usize, message: String| Fault {
            line: Some(number + 1),
            column: Some(column),
            ..Fault::of_file(&asked.actions, "", message)
        };
        let action: Action = match serde_json::from_str(line) {
            Ok(action) => action,
            Err(why) => {
                // The parser counts bytes, and lines of this one line.
                let before = line.get(..why.column().saturating_sub(1)).unwrap_or(line);
                let says = why.to_string();
                let says = says.split(" at line ").next().unwrap_or_default();
                faults.push(fault(before.chars().count() + 1, no_action(lang, says)));
                break;
            }
        };
        match job.act(&action, false) {
            Ok(outcome) => answer += &told(reader, &job, &outcome, asked.json),
            Err(why) => {
                faults.push(fault(1, words::refusal(lang, &why)));
                break;
            }
        }
    }
    Ok(Rehearsed { answer, faults })
}

fn told(reader: Reader, job: &Job, outcome: &job::Outcome, as_json: bool) -> String {
    let plan = job.plan();
    let names: Vec<&str> = (0..plan.layout.wheels.len()).map(|i| plan.name(i)).collect();
    let did = say::outcome(reader, outcome, &names, plan.travel_unit());
    let others: Vec<Vec<&str>> = plan
        .layout
        .wheels
        .iter()
        .map(|wheel| wheel.other_marks.iter().map(|mark| &*mark.label).collect())
        .collect();
    let warnings: Vec<String> =
        warnings(job).iter().map(|w| say::warning(reader, w, &names, &others)).collect();
    let now = moment(job);
    if as_json {
        let line = Line { did, moment: &now, warnings };
        return serde_json::to_string(&line).unwrap_or_default() + "\n";
    }
    let h = Headings::of(reader.lang);
    let readings = advice::readings(job);
    let mut out = format!("{did}\n");
    let marks: Vec<String> = readings
        .shafts
        .iter()
        .map(|s| {
            let teeth = job.drive().wheels()[s.wheel].teeth().unwrap_or(1);
            format!("{}: {}", names[s.wheel], say::shaft_stands(reader.lang, s, teeth))
        })
        .collect();
    out += &format!("  {}\n", marks.join("; "));
    let at = travel(reader, now.tensioner.travel, now.tensioner.unit);
    out += &format!("  {} {at}. {}\n", h.tensioner, say::slack_sentence(reader, &readings, &names));
    for warning in warnings {
        out += &format!("  ! {warning}\n");
    }
    out.replace(|c: char| c.is_control() && c != '\n', " ")
}
