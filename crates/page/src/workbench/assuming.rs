//! Calls that change what is assumed of wheels and belt beside the layout, and which wheel is taken to seize.
//!
//! Must not know: what rests on an assumption.

use super::Workbench;
use advice::{Assumption, Assumptions};
use wasm_bindgen::prelude::wasm_bindgen;

/// What the person assumes.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Assuming {
    own: Assumptions,
    /// What was asked last and cannot be so.
    pub(super) refused: Option<(Assumption, [f64; 2])>,
    /// Index of the wheel that is taken to seize.
    pub(super) seized: Option<usize>,
}

#[wasm_bindgen]
impl Workbench {
    /// Assumes a range for one of the assumptions, by its place in the panel; what cannot be so is told
    /// there. What is shown to a class rests on the usual ones.
    pub fn assume(&mut self, place: usize, low: f64, high: f64) {
        let Some(assumption) = Assumption::ALL.get(place).copied() else { return };
        if self.lesson.is_some() {
            return;
        }
        let taken = self.assuming.own.take(assumption, [low, high]);
        self.assuming.refused = (!taken).then_some((assumption, [low, high]));
        self.answers.wearing = advice::wearing(self.job.plan(), &self.assumptions());
    }

    /// Takes a wheel to seize, by index; below 0 none.
    #[wasm_bindgen(js_name = supposeSeized)]
    pub fn suppose_seized(&mut self, wheel: i32) {
        self.assuming.seized = usize::try_from(wheel).ok();
    }
}

impl Workbench {
    /// What is assumed of what is on the bench.
    pub(super) fn assumptions(&self) -> Assumptions {
        if self.lesson.is_some() { Assumptions::default() } else { self.assuming.own }
    }
}
