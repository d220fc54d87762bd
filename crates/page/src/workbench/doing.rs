//! Calls that do something to the drive: actions, runs of the crank, a hand, undo.
//!
//! Must not know: how any of it is worked out or worded.

use super::{Held, Told, Workbench};
use crate::crossing::{into, out};
use crate::hand::Hold;
use crate::panel::wheel_names;
use crate::run::Run;
use crate::workbench::showing::dial_view;
use drive::DVec2;
use job::{Action, Job, Stopped};
use std::rc::Rc;
use tsify::Ts;
use wasm_bindgen::prelude::{JsError, wasm_bindgen};
use words::say;

#[wasm_bindgen]
impl Workbench {
    /// Does an action; with `goes_on` it carries on the one before, as one drag of a hand. A run
    /// under way ends where it is.
    ///
    /// # Errors
    /// An action that is none.
    pub fn act(&mut self, action: Ts<Action>, goes_on: bool) -> Result<Ts<Told>, JsError> {
        let action = into(action)?;
        let told = self.do_it(&action, goes_on);
        if told.done {
            self.stop_run();
        }
        out(&told)
    }

    /// Takes the last step back.
    ///
    /// # Errors
    /// Never in practice.
    pub fn undo(&mut self) -> Result<Ts<Told>, JsError> {
        self.stop_run();
        self.step(Job::undo)
    }

    /// Takes the last undone step again.
    ///
    /// # Errors
    /// Never in practice.
    pub fn redo(&mut self) -> Result<Ts<Told>, JsError> {
        self.stop_run();
        self.step(Job::redo)
    }

    /// Takes back every step since the layout was put on the bench; gives how many there were.
    pub fn rewind(&mut self) -> usize {
        self.stop_run();
        self.job.rewind()
    }

    /// Lets the crank run to an angle; with `still`, it is there at once.
    ///
    /// # Errors
    /// Never in practice; an angle out of range is told.
    #[wasm_bindgen(js_name = runTo)]
    pub fn run_to(&mut self, crank_deg: f64, still: bool) -> Result<Ts<Told>, JsError> {
        self.finish_run();
        let told = self.start_run(crank_deg, still);
        out(&told)
    }

    /// Lets the crank run on by so many degrees from where it is, or from where it is running to.
    ///
    /// # Errors
    /// Never in practice; an angle out of range is told.
    #[wasm_bindgen(js_name = runBy)]
    pub fn run_by(&mut self, deg: f64, still: bool) -> Result<Ts<Told>, JsError> {
        self.finish_run();
        let told = self.start_run(self.job.crank().total_deg() + deg, still);
        out(&told)
    }

    /// Ends a run where it is.
    #[wasm_bindgen(js_name = stopRun)]
    pub fn stop_run(&mut self) {
        self.run = None;
        self.arrive(false);
    }

    /// Brings a run on by so many milliseconds. Whether it goes on.
    pub fn frame(&mut self, elapsed_ms: f64) -> bool {
        let Some(run) = &mut self.run else { return false };
        let (at, done) = run.on(elapsed_ms / 1000.0);
        self.job.run_crank_to(at);
        if done {
            self.run = None;
            self.arrive(true);
        }
        !done
    }

    /// Rings a wheel, by index; none below 0.
    pub fn pick(&mut self, wheel: i32) {
        self.picked = usize::try_from(wheel).ok();
    }

    /// Takes hold of what is at a point of the view (px); nothing if there is nothing.
    ///
    /// # Errors
    /// Never in practice.
    pub fn grab(&mut self, x: f64, y: f64) -> Result<Option<Ts<Held>>, JsError> {
        let point = self.view.to_mm(DVec2::new(x, y));
        self.hold = None;
        if self.draft.is_some() {
            return Ok(None);
        }
        let Some(wheel) = self.picture.part_at(&self.job, point) else { return Ok(None) };
        self.hold = Hold::take(&self.job, wheel, point);
        out(&Held { wheel, moves: self.hold.is_some() }).map(Some)
    }

    /// Moves the hand to a point of the view (px). With `goes_on`, the same drag goes on.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = dragTo)]
    pub fn drag_to(&mut self, x: f64, y: f64, goes_on: bool) -> Result<Option<Ts<Told>>, JsError> {
        let Some(hold) = self.hold else { return Ok(None) };
        let point = self.view.to_mm(DVec2::new(x, y));
        let (hold, action) = hold.moved(&self.job, point);
        self.hold = Some(hold);
        self.stop_run();
        let told = self.do_it(&action, goes_on);
        out(&told).map(Some)
    }

    /// The crank angle that a hand at a point of the dial asks for (px from its top left corner, on a
    /// dial of `size` px); no number at the very middle.
    #[wasm_bindgen(js_name = dialAngle)]
    pub fn dial_angle(&self, x: f64, y: f64, size: f64) -> f64 {
        let point = dial_view(size).to_mm(DVec2::new(x, y));
        picture::dial_angle_deg(point, self.job.crank().total_deg()).unwrap_or(f64::NAN)
    }
}

impl Workbench {
    pub(super) fn finish_run(&mut self) {
        if let Some(run) = self.run.take() {
            self.job.run_crank_to(run.to());
            self.arrive(true);
        }
    }

    fn start_run(&mut self, crank_deg: f64, still: bool) -> Told {
        let from = self.job.crank();
        let (outcome, end) = match self.job.begin_run(crank_deg) {
            Ok(begun) => begun,
            Err(refusal) => return self.refused(&refusal),
        };
        self.look_where_it_met(&outcome);
        let run = Run::new(from, end, still);
        if still {
            self.job.run_crank_to(run.to());
        } else {
            self.run = Some(run);
        }
        self.told(&outcome)
    }

    pub(super) fn do_it(&mut self, action: &Action, goes_on: bool) -> Told {
        match self.job.act(action, goes_on) {
            Ok(outcome) => {
                self.look_where_it_met(&outcome);
                self.told(&outcome)
            }
            Err(refusal) => self.refused(&refusal),
        }
    }

    fn look_where_it_met(&mut self, outcome: &job::Outcome) {
        if let Some(Stopped::Contact(contact)) = outcome.stopped() {
            self.valves.met(&self.job, contact.cylinder);
        }
    }

    fn told(&self, outcome: &job::Outcome) -> Told {
        let plan = self.job.plan();
        let names = wheel_names(plan, self.reader.lang);
        let text = say::outcome(self.reader, outcome, &names, plan.travel_unit());
        Told { done: true, text, stopped: outcome.stopped().is_some(), other_layout: false }
    }

    fn refused(&self, refusal: &job::Refusal) -> Told {
        let (plan, lang) = (self.job.plan(), self.reader.lang);
        let named = refusal.clone().with_names(|id| {
            plan.wheel_index(id).map(|i| words::written(lang, plan.name(i)).to_owned())
        });
        Told {
            done: false,
            text: words::refusal(lang, &named),
            stopped: false,
            other_layout: false,
        }
    }

    fn step(&mut self, way: fn(&mut Job) -> Option<job::Step>) -> Result<Ts<Told>, JsError> {
        let (plan, draft) = (Rc::clone(self.job.plan()), self.job.draft().cloned());
        let step = way(&mut self.job);
        let text = step.as_ref().map_or("", |step| say::step_name(self.reader.lang, step));
        let same_plan = Rc::ptr_eq(&plan, self.job.plan());
        let other_layout = !(same_plan && draft.as_ref() == self.job.draft());
        if other_layout {
            self.dress();
        }
        out(&Told { done: step.is_some(), text: text.to_owned(), stopped: false, other_layout })
    }
}
