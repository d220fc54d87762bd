//! What a class says is wrong, and whether it is.
//!
//! Must not know: what was hidden.

use super::fault::{Fault, Finding, finding};
use layout::{MarkUse, Plan};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::rc::Rc;

/// An answer. What it does not name is in order. Shafts by id.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(default, deny_unknown_fields)]
pub struct ClassAnswer {
    /// Teeth that shafts are out, ahead positive.
    #[cfg_attr(feature = "ts", tsify(type = "Record<string, number>"))]
    pub teeth: BTreeMap<String, i64>,
    /// Shafts that stand on a mark that does not count.
    pub decoys: Vec<String>,
    /// Whether it was looked at from the side.
    pub aside: bool,
    /// The run in which slack hangs wrongly, such as `cam_right>crank`.
    pub slack: Option<String>,
}

/// A name in an answer that the drive does not have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unknown(pub String);

/// How an answer compares with what is hidden.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// Whether every shaft is judged rightly.
    pub shafts: bool,
    /// Whether the view is.
    pub view: bool,
    /// Whether the slack is.
    pub slack: bool,
}

impl Verdict {
    pub(super) fn of(hidden: &Finding, said: &Finding) -> Self {
        Self {
            shafts: hidden.installation == said.installation,
            view: hidden.aside == said.aside,
            slack: hidden.slack == said.slack,
        }
    }

    /// Whether all of it is right.
    pub fn right(self) -> bool {
        self.shafts && self.view && self.slack
    }
}

impl ClassAnswer {
    /// What the answer comes to: the same whichever way it is said.
    pub(super) fn finding(&self, plan: &Rc<Plan>) -> Result<Finding, Unknown> {
        let timed = |id: &String| {
            let wheel = plan.wheel_index(id).filter(|i| plan.drive.wheels()[*i].mark.is_some());
            wheel.ok_or_else(|| Unknown(id.clone()))
        };
        let mut faults = Vec::new();
        for (id, teeth) in &self.teeth {
            faults.push(Fault::TeethOut { wheel: timed(id)?, teeth: *teeth });
        }
        for id in &self.decoys {
            let wheel = timed(id)?;
            let mut others = plan.layout.wheels[wheel].other_marks.iter();
            let mark = others.position(|other| other.mark_use == MarkUse::Decoy);
            faults.push(Fault::Decoy { wheel, mark: mark.ok_or_else(|| Unknown(id.clone()))? });
        }
        if self.aside {
            faults.push(Fault::Aside { ahead: true });
        }
        if let Some(name) = &self.slack {
            let run = run_named(plan, name).ok_or_else(|| Unknown(name.clone()))?;
            faults.push(Fault::Slack { run });
        }
        Ok(finding(plan, &faults))
    }

    /// The answer that names exactly these faults.
    pub fn naming(plan: &Plan, faults: &[Fault]) -> Self {
        let mut answer = Self::default();
        for fault in faults {
            match *fault {
                Fault::TeethOut { wheel, teeth } => {
                    answer.teeth.insert(plan.id(wheel).to_owned(), teeth);
                }
                Fault::Decoy { wheel, .. } => answer.decoys.push(plan.id(wheel).to_owned()),
                Fault::Aside { .. } => answer.aside = true,
                Fault::Slack { run } => answer.slack = Some(run_name(plan, run)),
            }
        }
        answer
    }
}

/// A run as answers name it, by the sprocket that it leaves.
pub fn run_name(plan: &Plan, run: usize) -> String {
    let drive = &plan.drive;
    let id = |k: usize| plan.id(drive.sprockets()[k].wheel);
    format!("{}>{}", id(run), id(drive.next(run)))
}

fn run_named(plan: &Plan, name: &str) -> Option<usize> {
    (0..plan.drive.sprockets().len()).find(|run| run_name(plan, *run) == name)
}
