//! Calls of the task *Explain*: demonstrations on the bench; what is shown there, put in place of the
//! person's own job, which is taken up again as it was.
//!
//! Must not know: what a demonstration shows, or how long anything is left to be read.

use super::Workbench;
use super::exercising::Exercising;
use crate::crossing::{out, told as js_error};
use crate::run::Run;
use crate::telling::{CaptionPiece, Look, LookAt, caption, look, step, told};
use job::{Action, Job};
use lesson::{Demonstration, FILES, Play};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsError, wasm_bindgen};
use words::{Reader, say, written};

/// What is shown in place of the person's own job.
pub struct Lesson {
    /// The job that was on the bench, with its whole history.
    own: Job,
    pub(super) what: What,
}

/// What is shown.
pub(super) enum What {
    /// A demonstration.
    Demonstration(Box<Showing>),
    /// A blind exercise.
    Exercise(Box<Exercising>),
}

/// A demonstration under way.
pub(super) struct Showing {
    play: Play,
    /// Whether the crank is on its way to where the step ends.
    arriving: bool,
    /// The caption as last told: where, to whom.
    told: Option<(usize, Reader, Vec<CaptionPiece>)>,
}

/// A demonstration to choose.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct DemonstrationRow {
    /// Its id.
    pub id: String,
    /// What it shows.
    pub title: String,
    /// The layout that it is shown on, by its title.
    pub layout: String,
    /// How long it is.
    pub length: String,
}

/// The list of them.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct Demonstrations {
    /// In the order in which they are offered.
    pub rows: Vec<DemonstrationRow>,
}

/// A demonstration under way.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct LessonPart {
    /// Its id.
    pub id: String,
    /// What it shows.
    pub title: String,
    /// The step where it is, from 0.
    pub step: usize,
    /// How many there are.
    pub steps: usize,
    /// Where that is, in words.
    pub step_text: String,
    /// What is said, with its readings.
    pub caption: Vec<CaptionPiece>,
    /// What to be careful about; empty for nothing.
    pub caution: String,
    /// Where to look.
    pub look: Look,
    /// How far off square one looks, degrees.
    pub aside_deg: f64,
    /// How long it is left to be read, s.
    pub pause_s: f64,
    /// Whether somebody has moved something since: it no longer stands as the step left it.
    pub strayed: bool,
}

#[wasm_bindgen]
impl Workbench {
    /// The demonstrations that ship.
    ///
    /// # Errors
    /// Never in practice.
    pub fn demonstrations(&mut self) -> Result<Ts<Demonstrations>, JsError> {
        let lang = self.reader.lang;
        let all = FILES.iter().filter_map(|text| Demonstration::read(text).ok());
        let rows = all
            .map(|one| {
                let plan = self.shipped.plan(&one.layout);
                let title = plan.map_or_else(String::new, |plan| plan.layout.title.clone());
                DemonstrationRow {
                    title: told(lang, &one.title).to_owned(),
                    layout: written(lang, &title).to_owned(),
                    length: say::lesson_length(lang, one.steps.len()),
                    id: one.id,
                }
            })
            .collect();
        out(&Demonstrations { rows })
    }

    /// Puts a demonstration on the bench at its first step, and what was there aside.
    ///
    /// # Errors
    /// If there is none of this id, or it did not run, which tests rule out.
    #[wasm_bindgen(js_name = startDemonstration)]
    pub fn start_demonstration(&mut self, id: &str) -> Result<(), JsError> {
        let mut all = FILES.iter().filter_map(|text| Demonstration::read(text).ok());
        let found = all.find(|one| one.id == id);
        let play = found.and_then(|one| {
            let plan = self.shipped.plan(&one.layout)?;
            Play::new(one, plan).ok()
        });
        let play = play.ok_or_else(|| js_error("No such demonstration."))?;
        let job = play.scene().to.clone();
        let showing = Showing { play, arriving: false, told: None };
        self.put_aside(job, What::Demonstration(Box::new(showing)));
        Ok(())
    }

    /// Goes to a step of the demonstration, also back, also to where it is already: everything then stands
    /// exactly as that step leaves it. Going on to the next, the crank is seen to turn, unless `still`.
    /// Whether something moves.
    #[wasm_bindgen(js_name = goToStep)]
    pub fn go_to_step(&mut self, to: usize, still: bool) -> bool {
        let Some(showing) = showing(&mut self.lesson) else { return false };
        let next = to == showing.play.at() + 1;
        showing.play.go_to(to);
        let scene = showing.play.scene();
        let (from, end) = (scene.from.crank(), scene.to.crank());
        let turns = matches!(
            step(&showing.play).actions.last(),
            Some(Action::Turn { .. } | Action::TurnTo { .. } | Action::BringForward { .. })
        );
        let moves = turns && next && !still && from != end && scene.from.cord().is_on();
        showing.arriving = moves;
        (self.run, self.hold) = (None, None);
        if moves {
            self.job = scene.from.clone();
            self.run = Some(Run::new(from, end, false));
        } else {
            self.job = scene.to.clone();
        }
        self.look_there();
        moves
    }

    /// The demonstration under way; nothing while there is none.
    ///
    /// # Errors
    /// Never in practice.
    pub fn lesson(&mut self) -> Result<Option<Ts<LessonPart>>, JsError> {
        let reader = self.reader;
        let Some(showing) = showing(&mut self.lesson) else { return Ok(None) };
        let play = &showing.play;
        let at = play.at();
        if !showing.told.as_ref().is_some_and(|(step, to, _)| (*step, *to) == (at, reader)) {
            showing.told = Some((at, reader, caption(play, reader)));
        }
        let moved = || advice::moment(&self.job) != advice::moment(&play.scene().to);
        let text = |text: &lesson::Text| told(reader.lang, text).to_owned();
        out(&LessonPart {
            id: play.demonstration.id.clone(),
            title: text(&play.demonstration.title),
            step: at,
            steps: play.demonstration.steps.len(),
            step_text: say::step_of(reader.lang, at, play.demonstration.steps.len()),
            caption: showing.told.as_ref().map_or_else(Vec::new, |(_, _, told)| told.clone()),
            caution: step(play).caution.as_ref().map_or_else(String::new, text),
            look: look(play),
            aside_deg: step(play).aside_deg,
            pause_s: step(play).pause_s,
            strayed: !showing.arriving && moved(),
        })
        .map(Some)
    }

    /// Ends the demonstration: the person's own work is on the bench again, with its way back.
    #[wasm_bindgen(js_name = endLesson)]
    pub fn end_lesson(&mut self) {
        if self.take_up_own() {
            self.dress();
        }
    }
}

impl Workbench {
    /// The person's own job, on the bench or put aside.
    pub(super) fn own(&self) -> &Job {
        self.lesson.as_ref().map_or(&self.job, |lesson| &lesson.own)
    }

    /// Puts the person's own job back on the bench, without dressing the view. Whether it was not there.
    pub(super) fn take_up_own(&mut self) -> bool {
        let Some(lesson) = self.lesson.take() else { return false };
        (self.run, self.hold, self.aside_deg) = (None, None, 0.0);
        self.job = lesson.own;
        true
    }

    /// Puts `job` on the bench for what is shown, and what was there aside.
    pub(super) fn put_aside(&mut self, job: Job, what: What) {
        // What was on its way is there when it is taken up again.
        self.finish_run();
        self.take_up_own();
        let own = std::mem::replace(&mut self.job, job);
        self.lesson = Some(Lesson { own, what });
        self.dress();
        self.look_there();
    }

    /// Looks at what is shown as it wants to be looked at: which cylinder, how far off square.
    pub(super) fn look_there(&mut self) {
        let (cylinder, aside_deg) = match self.lesson.as_ref().map(|lesson| &lesson.what) {
            Some(What::Demonstration(showing)) => {
                let look = Some(look(&showing.play)).filter(|look| look.at == LookAt::Cylinder);
                (look.map(|look| look.index), step(&showing.play).aside_deg)
            }
            Some(What::Exercise(exercising)) => (None, exercising.aside_deg()),
            None => (None, 0.0),
        };
        self.valves.choose(cylinder);
        self.aside_deg = aside_deg;
    }

    /// A run of the crank has ended, or something else was done in its place.
    pub(super) fn arrive(&mut self, at_end: bool) {
        let Some(showing) = showing(&mut self.lesson) else { return };
        if std::mem::take(&mut showing.arriving) && at_end {
            self.job = showing.play.scene().to.clone();
        }
    }
}

/// The demonstration under way, if that is what is shown.
fn showing(lesson: &mut Option<Lesson>) -> Option<&mut Showing> {
    match &mut lesson.as_mut()?.what {
        What::Demonstration(showing) => Some(showing),
        What::Exercise(_) => None,
    }
}
