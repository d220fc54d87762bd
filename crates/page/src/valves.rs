//! What the pictures of the engine are made from, kept until something that it rests on changes.
//!
//! Must not know: any formula, any sentence.

use advice::{ContactArcs, TeethGaps};
use job::Job;
use picture::ContactMap;

/// The engine's pictures of one job.
#[derive(Debug, Default)]
pub struct Valves {
    /// The cylinder that somebody chose; else the one with the least gap.
    chosen: Option<usize>,
    /// What the rest follows from: each camshaft's error as fitted, and whether the belt is on.
    errors_deg: Option<Vec<f64>>,
    belt_on: bool,
    arcs: ContactArcs,
    nearest: Option<usize>,
    in_time_deg: Option<Vec<f64>>,
    teeth: Vec<TeethGaps>,
    map: Option<ContactMap>,
}

impl Valves {
    /// Chooses a cylinder, or none.
    pub fn choose(&mut self, cylinder: Option<usize>) {
        self.chosen = cylinder;
    }

    /// Which cylinder somebody chose.
    pub fn chosen(&self) -> Option<usize> {
        self.chosen
    }

    /// A valve of this cylinder has met its piston: it is the one to see, until teeth change.
    pub fn met(&mut self, job: &Job, cylinder: usize) {
        self.follow(job);
        self.nearest = Some(cylinder);
    }

    /// The cylinder shown.
    pub fn cylinder(&mut self, job: &Job) -> usize {
        self.follow(job);
        self.chosen.or(self.nearest).unwrap_or(0)
    }

    /// The dial's arcs.
    pub fn arcs(&mut self, job: &Job) -> &ContactArcs {
        self.follow(job);
        &self.arcs
    }

    /// Least gaps against teeth out, of every valve.
    pub fn teeth(&mut self, job: &Job) -> &[TeethGaps] {
        let in_time = advice::in_time_errors_deg(job);
        if in_time != self.in_time_deg {
            self.teeth = advice::gaps_by_teeth(job);
            self.in_time_deg = in_time;
        }
        &self.teeth
    }

    /// The contact map of a camshaft; `None` where a figure that it needs is not known.
    pub fn map(&mut self, job: &Job, camshaft: usize) -> Option<&ContactMap> {
        if self.map.as_ref().is_none_or(|map| map.camshaft() != camshaft) {
            let engine = &job.plan().engine.as_ref()?.engine;
            self.map = Some(ContactMap::new(&engine.loose().ok()?, camshaft));
        }
        self.map.as_ref()
    }

    fn follow(&mut self, job: &Job) {
        let (errors, on) = (advice::errors_deg(job), job.cord().is_on());
        if errors != self.errors_deg || on != self.belt_on {
            self.arcs = advice::contact_arcs_of(job);
            self.nearest = advice::nearest_cylinder(job);
            (self.errors_deg, self.belt_on) = (errors, on);
        }
    }
}
