//! The layouts that ship, carried inside the page, and those that small pictures show.
//!
//! Must not know: what is in them.

use job::Job;
use layout::{Arrangement, Plan};
use std::rc::Rc;

macro_rules! layouts {
    ($($name:literal,)*) => {
        /// Their names, as those of their files without the ending.
        const NAMES: [&str; [$($name),*].len()] = [$($name),*];

        /// All of them.
        pub const TEXTS: [&str; NAMES.len()] =
            [$(include_str!(concat!("../../../layouts/", $name, ".toml"))),*];
    };
}

layouts! {
    "four-in-line-one-camshaft-eccentric",
    "four-in-line-two-camshafts-arm",
    "six-in-a-vee-one-camshaft-a-bank",
    "six-in-a-vee-two-camshafts-a-bank",
    "diesel-four-with-injection-pump",
    "balance-shaft-belt",
}

/// The one that is on the bench when the page opens.
pub const FIRST: &str = TEXTS[2];

/// Layouts that small pictures show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gallery {
    /// Those that ship.
    Shipped,
    /// The arrangements that one can be started from, with counts that go together.
    Arrangements,
}

impl Gallery {
    fn texts(self) -> Vec<String> {
        match self {
            Self::Shipped => TEXTS.map(str::to_owned).to_vec(),
            Self::Arrangements => Arrangement::ALL.map(example).to_vec(),
        }
    }
}

/// Never shown in words, so that any language will do; empty where it could not be started.
fn example(kind: Arrangement) -> String {
    let [crank, driven, belt] = kind.example();
    let words = words::start::start_words(words::Lang::En, kind);
    layout::start(kind, crank, driven, belt, &words).unwrap_or_default()
}

/// Those that have been looked at, each in time.
#[derive(Default)]
pub struct Shipped {
    jobs: [Vec<Option<Job>>; 2],
}

impl Shipped {
    /// Layout `index` of a gallery in time; `None` where there is none.
    pub fn job(&mut self, gallery: Gallery, index: usize) -> Option<&Job> {
        let jobs = match gallery {
            Gallery::Shipped => &mut self.jobs[0],
            Gallery::Arrangements => &mut self.jobs[1],
        };
        if jobs.is_empty() {
            let job = |text: &String| Plan::open(text).ok().map(|plan| Job::new(Rc::new(plan)));
            *jobs = gallery.texts().iter().map(job).collect();
        }
        jobs.get(index)?.as_ref()
    }

    /// The plan of the layout of this name; `None` where there is none.
    pub fn plan(&mut self, name: &str) -> Option<Rc<Plan>> {
        let index = NAMES.iter().position(|known| *known == name)?;
        self.job(Gallery::Shipped, index).map(|job| Rc::clone(job.plan()))
    }

    /// Title of a layout that ships; empty where there is none.
    pub fn title(&mut self, index: usize) -> String {
        let job = self.job(Gallery::Shipped, index);
        job.map_or_else(String::new, |job| job.plan().layout.title.clone())
    }
}
