//! A demonstration played on a job: how everything stands after each of its steps, worked out once, so that
//! going back, going on and coming back from somebody's own tries all end at the very same place.
//!
//! Must not know: time, or how a step is shown.

use crate::demonstration::Demonstration;
use job::{Action, Job, Refusal};
use layout::Plan;
use std::rc::Rc;

/// A step as it is shown.
#[derive(Clone, Debug)]
pub struct Scene {
    /// Before the last of its actions.
    pub from: Job,
    /// After all of them.
    pub to: Job,
}

/// A demonstration and where in it one is.
#[derive(Clone, Debug)]
pub struct Play {
    /// What is played.
    pub demonstration: Demonstration,
    scenes: Vec<Scene>,
    at: usize,
}

/// Why a demonstration does not run to its end.
#[derive(Clone, Debug, PartialEq)]
pub struct Stuck {
    /// The step, from 0.
    pub step: usize,
    /// The action in it, from 0.
    pub action: usize,
    /// What is wrong.
    pub why: Why,
}

/// What is wrong with an action in its place.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// It cannot be done.
    Refused(Refusal),
    /// Something stops it short, and the file does not say so.
    StoppedShort,
    /// The file says that something stops it short, and nothing does.
    NotStopped,
}

impl Play {
    /// The demonstration on its layout, found in time and tight, with hands that feel what they meet;
    /// at its first step.
    ///
    /// # Errors
    /// Where it does not run.
    pub fn new(demonstration: Demonstration, plan: Rc<Plan>) -> Result<Self, Stuck> {
        let mut job = Job::new(plan).feeling_contact();
        let mut scenes = Vec::with_capacity(demonstration.steps.len());
        for (i, step) in demonstration.steps.iter().enumerate() {
            let mut from = job.clone();
            for (k, action) in step.actions.iter().enumerate() {
                from = job.clone();
                let last = k + 1 == step.actions.len();
                do_one(&mut job, action, step.stops_short && last).map_err(|why| Stuck {
                    step: i,
                    action: k,
                    why,
                })?;
            }
            job = job.without_history();
            scenes.push(Scene { from: from.without_history(), to: job.clone() });
        }
        Ok(Self { demonstration, scenes, at: 0 })
    }

    /// Where in it one is: a step, from 0.
    pub fn at(&self) -> usize {
        self.at
    }

    /// Goes to a step; beyond the last, to the last.
    pub fn go_to(&mut self, step: usize) {
        self.at = step.min(self.scenes.len() - 1);
    }

    /// The step where one is.
    pub fn scene(&self) -> &Scene {
        &self.scenes[self.at]
    }
}

fn do_one(job: &mut Job, action: &Action, stops_short: bool) -> Result<(), Why> {
    let outcome = job.act(action, false).map_err(Why::Refused)?;
    match (outcome.stopped().is_some(), stops_short) {
        (true, false) => Err(Why::StoppedShort),
        (false, true) => Err(Why::NotStopped),
        _ => Ok(()),
    }
}
