//! The layouts that ship, carried inside the page.
//!
//! Must not know: what is in them.

use job::Job;
use layout::Plan;
use std::rc::Rc;

/// The one that is on the bench when the page opens.
pub const FIRST: &str = include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

/// All of them.
pub const TEXTS: [&str; 1] = [FIRST];

/// Those that have been looked at, each in time.
#[derive(Default)]
pub struct Shipped {
    jobs: Vec<Option<Job>>,
}

impl Shipped {
    /// Layout `index` in time; `None` where there is none.
    pub fn job(&mut self, index: usize) -> Option<&Job> {
        if self.jobs.is_empty() {
            let job = |text: &&str| Plan::open(text).ok().map(|plan| Job::new(Rc::new(plan)));
            self.jobs = TEXTS.iter().map(job).collect();
        }
        self.jobs.get(index)?.as_ref()
    }

    /// Its title; empty where there is none.
    pub fn title(&mut self, index: usize) -> String {
        self.job(index).map_or_else(String::new, |job| job.plan().layout.title.clone())
    }
}
