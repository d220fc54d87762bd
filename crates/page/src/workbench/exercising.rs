//! Calls of the blind exercise: a fault hidden on the bench, what can be seen of it, an answer marked.
//!
//! Must not know: what is hidden, before the class has said it or given up.

use super::Workbench;
use super::explain::What;
use crate::crossing::{into, out, told as js_error};
use crate::panel::{Panel, wheel_names};
use job::Job;
use layout::{MarkUse, Plan};
use lesson::exercise::{ClassAnswer, Exercise, Fault, Verdict, looks, run_name};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsError, wasm_bindgen};
use words::{Lang, say, written};

/// An exercise under way.
pub struct Exercising {
    exercise: Exercise,
    /// Whether the eye has been brought square.
    square: bool,
    verdict: Option<Verdict>,
    /// Whether the class has found it, or given up: then nothing is hidden any more.
    open: bool,
}

/// An exercise as the page shows it.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct ExercisePart {
    /// Its name.
    pub title: String,
    /// What can be seen, a sentence each.
    pub seen: Vec<String>,
    /// Whether the eye has been brought square.
    pub square: bool,
    /// The marked shafts, which an answer may name.
    pub shafts: Vec<AnswerShaft>,
    /// The runs.
    pub runs: Vec<AnswerRun>,
    /// How the last answer was; empty before one.
    pub verdict: String,
    /// Whether it was right.
    pub right: bool,
    /// What was hidden, a sentence each, once that is open.
    pub hidden: Vec<String>,
    /// Whether it is.
    pub open: bool,
}

/// A shaft that an answer may name.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct AnswerShaft {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Beside a box to tick: that it stands on a mark that does not count; empty where it has none.
    pub decoy: String,
}

/// A run that an answer may name.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct AnswerRun {
    /// As an answer names it.
    pub key: String,
    /// Its two ends.
    pub name: String,
}

#[wasm_bindgen]
impl Workbench {
    /// Hides the fault of a number on the bench, and puts what was there aside.
    ///
    /// # Errors
    /// If nothing could be hidden, which tests rule out.
    #[wasm_bindgen(js_name = startExercise)]
    pub fn start_exercise(&mut self, number: u32) -> Result<(), JsError> {
        let exercise = Exercise::of(number, &mut |name| self.shipped.plan(name));
        let exercise = exercise.ok_or_else(|| js_error("No such exercise."))?;
        let job = exercise.job.clone();
        let what = Exercising { exercise, square: false, verdict: None, open: false };
        self.put_aside(job, What::Exercise(Box::new(what)));
        Ok(())
    }

    /// Brings the eye square, or back to where the class found it.
    #[wasm_bindgen(js_name = lookSquare)]
    pub fn look_square(&mut self, square: bool) {
        if let Some(exercising) = self.exercising() {
            exercising.square = square;
        }
        self.look_there();
    }

    /// Everything as the class found it.
    #[wasm_bindgen(js_name = asFound)]
    pub fn as_found(&mut self) {
        let Some(exercising) = self.exercising() else { return };
        exercising.square = false;
        let job = exercising.exercise.job.clone();
        self.stop_run();
        (self.job, self.hold) = (job, None);
        self.look_there();
    }

    /// How far an answer has a shaft out, in the reader's words.
    #[wasm_bindgen(js_name = answerTeeth)]
    pub fn answer_teeth(&self, teeth: i32) -> String {
        say::answer_teeth(self.reader.lang, i64::from(teeth))
    }

    /// Marks an answer.
    ///
    /// # Errors
    /// An answer that is none.
    #[wasm_bindgen(js_name = giveAnswer)]
    pub fn give_answer(&mut self, answer: Ts<ClassAnswer>) -> Result<(), JsError> {
        let answer = into(answer)?;
        let Some(exercising) = self.exercising() else { return Ok(()) };
        let verdict = exercising.exercise.judge(&answer);
        let verdict = verdict.map_err(|unknown| js_error(format!("No {}.", unknown.0)))?;
        exercising.verdict = Some(verdict);
        exercising.open |= verdict.right();
        Ok(())
    }

    /// Shows what is hidden.
    #[wasm_bindgen(js_name = openExercise)]
    pub fn open_exercise(&mut self) {
        if let Some(exercising) = self.exercising() {
            exercising.open = true;
        }
    }

    /// The exercise under way; nothing while there is none.
    ///
    /// # Errors
    /// Never in practice.
    pub fn exercise(&mut self) -> Result<Option<Ts<ExercisePart>>, JsError> {
        let (lang, aside_deg) = (self.reader.lang, self.aside_deg);
        let job = self.job.clone();
        let Some(exercising) = self.exercising() else { return Ok(None) };
        out(&exercising.part(lang, &job, aside_deg)).map(Some)
    }
}

impl Workbench {
    fn exercising(&mut self) -> Option<&mut Exercising> {
        match &mut self.lesson.as_mut()?.what {
            What::Exercise(exercising) => Some(exercising),
            What::Demonstration(_) => None,
        }
    }

    /// Whether something is hidden that nothing on the page may give away.
    pub(super) fn hides(&self) -> bool {
        let what = self.lesson.as_ref().map(|lesson| &lesson.what);
        matches!(what, Some(What::Exercise(exercising)) if !exercising.open)
    }

    /// Takes out of a panel whatever tells what is hidden.
    pub(super) fn hide_in(&self, panel: &mut Panel) {
        let plain = |said: &mut crate::panel::Said| {
            (said.value, said.text) = (0.0, String::new());
        };
        // Where the crank truly stands tells a mark seen from the side from one that is out.
        plain(&mut panel.crank);
        (panel.crank_turn, panel.crank_spoken) = (String::new(), String::new());
        panel.dial_deg = 0.0;
        panel.crank_sentence = String::new();
        panel.shaft_sentence = String::new();
        panel.slack_sentence = String::new();
        panel.what_if_sentence = String::new();
        panel.shafts.clear();
        panel.turns.clear();
        panel.what_if.clear();
        panel.sight.marks.clear();
        panel.any_out = false;
        plain(&mut panel.sight.aside);
        panel.sight.sentence = String::new();
        for run in &mut panel.runs {
            plain(&mut run.teeth);
            plain(&mut run.slack);
            if !run.tag.is_empty() {
                say::hidden_slack(self.reader.lang).clone_into(&mut run.tag);
            }
        }
        for wheel in &mut panel.wheels {
            plain(&mut wheel.turned);
        }
    }
}

impl Exercising {
    /// How far off square one looks, degrees.
    pub(super) fn aside_deg(&self) -> f64 {
        if self.square { 0.0 } else { self.exercise.aside_deg }
    }

    fn part(&self, lang: Lang, job: &Job, aside_deg: f64) -> ExercisePart {
        let plan = self.exercise.job.plan();
        let names = wheel_names(plan, lang);
        let drive = &plan.drive;
        let label = |wheel: usize, mark: usize| {
            let others = &plan.layout.wheels[wheel].other_marks;
            others.get(mark).map_or("", |other| written(lang, &other.label))
        };
        let sprocket = |k: usize| names[drive.sprockets()[k].wheel];
        let seen = looks(job, aside_deg);
        let marks = seen.marks.iter().map(|mark| {
            let other = mark.other.map(|other| label(mark.wheel, other));
            say::seen_mark(lang, names[mark.wheel], other, mark.place)
        });
        let runs = seen.runs.iter().map(|run| {
            let (from, to) = (sprocket(run.run), sprocket(drive.next(run.run)));
            say::seen_run(lang, from, to, run.halves.unsigned_abs())
        });
        let marked = drive.sprockets().iter().map(|s| s.wheel);
        let marked = marked.filter(|wheel| drive.wheels()[*wheel].mark.is_some());
        let decoy = |wheel: usize| {
            let mut others = plan.layout.wheels[wheel].other_marks.iter();
            let mark = others.position(|other| other.mark_use == MarkUse::Decoy);
            mark.map_or_else(String::new, |mark| say::stands_on(lang, label(wheel, mark)))
        };
        ExercisePart {
            title: say::exercise_title(lang, self.exercise.number),
            seen: marks.chain(runs).collect(),
            square: self.square,
            shafts: marked
                .map(|wheel| AnswerShaft {
                    id: plan.id(wheel).to_owned(),
                    name: names[wheel].to_owned(),
                    decoy: decoy(wheel),
                })
                .collect(),
            runs: (0..drive.sprockets().len())
                .map(|run| AnswerRun {
                    key: run_name(plan, run),
                    name: format!("{} → {}", sprocket(run), sprocket(drive.next(run))),
                })
                .collect(),
            verdict: self.verdict.map_or_else(String::new, |v| say::verdict(lang, v)),
            right: self.verdict.is_some_and(Verdict::right),
            hidden: if self.open { self.hidden(plan, lang, &names, &label) } else { Vec::new() },
            open: self.open,
        }
    }

    fn hidden<'a>(
        &self,
        plan: &Plan,
        lang: Lang,
        names: &[&'a str],
        label: &dyn Fn(usize, usize) -> &'a str,
    ) -> Vec<String> {
        let drive = &plan.drive;
        let each = self.exercise.faults().iter().map(|fault| match *fault {
            Fault::TeethOut { wheel, teeth } => say::Hidden::TeethOut {
                shaft: names[wheel],
                is_crank: wheel == drive.sprockets()[0].wheel,
                teeth,
                crank_deg: teeth as f64 * drive.crank_deg_per_tooth(),
            },
            Fault::Decoy { wheel, mark } => say::Hidden::Decoy {
                shaft: names[wheel],
                label: label(wheel, mark),
                teeth: self.exercise.decoy_teeth(wheel, mark),
            },
            Fault::Aside { .. } => say::Hidden::Aside { deg: self.exercise.aside_deg },
            Fault::Slack { run } => say::Hidden::Slack {
                from: names[drive.sprockets()[run].wheel],
                to: names[drive.sprockets()[drive.next(run)].wheel],
            },
        });
        each.map(|hidden| say::fault(lang, hidden)).collect()
    }
}
