//! The layouts that ship, carried inside the page.
//!
//! Must not know: what is in them.

use job::Job;
use layout::Plan;
use std::rc::Rc;

macro_rules! layout {
    ($name:literal) => {
        include_str!(concat!("../../../layouts/", $name, ".toml"))
    };
}

/// The one that is on the bench when the page opens.
pub const FIRST: &str = layout!("six-in-a-vee-one-camshaft-a-bank");

/// All of them.
pub const TEXTS: [&str; 6] = [
    layout!("four-in-line-one-camshaft-eccentric"),
    layout!("four-in-line-two-camshafts-arm"),
    FIRST,
    layout!("six-in-a-vee-two-camshafts-a-bank"),
    layout!("diesel-four-with-injection-pump"),
    layout!("balance-shaft-belt"),
];

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
