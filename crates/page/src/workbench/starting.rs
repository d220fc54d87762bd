//! Calls that start a layout from three counts, and that ask whether the one being written adds up.
//!
//! Must not know: how either is worked out.

use super::Workbench;
use crate::crossing::out;
use crate::panel::{Said, said};
use crate::shipped::Gallery;
use layout::{Arrangement, LAYOUT, Plan, Sketch, StartCount, Value, key_at};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;
use words::say::adds_up;
use words::{start, typed};

/// Most causes offered.
const MOST_CAUSES: usize = 3;

/// An arrangement to start from.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct ArrangementPart {
    /// What people call it.
    pub name: String,
    /// What is counted: crank, driven, belt.
    pub counts: [String; 3],
    /// Three counts that go together.
    pub example: [u32; 3],
}

/// All of them.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct ArrangementsPart {
    /// In the order in which they are asked for.
    pub all: Vec<ArrangementPart>,
}

/// What comes of three counts.
#[derive(Clone, Debug, Default, Serialize, Tsify)]
pub struct StartedPart {
    /// What is wrong with each as it was typed, in a sentence; else empty.
    pub wrong: [String; 3],
    /// The layout's text; empty where there is none.
    pub text: String,
    /// That a drive of these counts is in view, in a sentence.
    pub in_view: String,
    /// Why there is none, in a sentence; else empty.
    pub refused: String,
    /// What is unusual about the counts, in a sentence; else empty.
    pub warning: String,
    /// What follows at once.
    pub answers: Vec<Answer>,
    /// What does not.
    pub provisional: String,
}

/// A figure with its name.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct Answer {
    /// What it is.
    pub name: String,
    /// The figure.
    pub reading: Said,
}

/// Whether the text being written adds up.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct AddsUpPart {
    /// Whether it does.
    pub adds_up: bool,
    /// How belt and path compare, and counts that differ from the centres, in sentences.
    pub misfit: Vec<String>,
    /// What would explain it, the likeliest first.
    pub causes: Vec<CausePart>,
}

/// What would explain it.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct CausePart {
    /// In a sentence.
    pub says: String,
    /// The text with that changed.
    pub text: String,
}

#[wasm_bindgen]
impl Workbench {
    /// The arrangements that a layout can be started from.
    ///
    /// # Errors
    /// Never in practice.
    pub fn arrangements(&self) -> Result<Ts<ArrangementsPart>, JsError> {
        let lang = self.reader.lang;
        let part = |kind: Arrangement| ArrangementPart {
            name: start::arrangement(lang, kind).to_owned(),
            counts: [StartCount::Crank, StartCount::Driven, StartCount::Belt]
                .map(|count| start::count(lang, kind, count).to_owned()),
            example: kind.example(),
        };
        out(&ArrangementsPart { all: Arrangement::ALL.into_iter().map(part).collect() })
    }

    /// What comes of three counts, as they were typed, in an arrangement; nothing is put on the bench.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = startFrom)]
    pub fn start_from(
        &self,
        arrangement: usize,
        typed: Vec<String>,
    ) -> Result<Option<Ts<StartedPart>>, JsError> {
        let lang = self.reader.lang;
        let Some(kind) = Arrangement::ALL.get(arrangement).copied() else { return Ok(None) };
        let [crank, driven, belt] = ["wheel[0].teeth", "wheel[0].teeth", "belt.teeth"];
        let mut typed = typed.iter();
        let counts = [crank, driven, belt].map(|path| self.count(path, typed.next()));
        let wrong = counts.each_ref().map(|count| count.clone().err().unwrap_or_default());
        let [Ok(Some(crank)), Ok(Some(driven)), Ok(Some(belt))] = counts else {
            return out(&StartedPart { wrong, ..StartedPart::default() }).map(Some);
        };
        let started = layout::start(kind, crank, driven, belt, &start::start_words(lang, kind));
        let part = match started {
            Ok(text) => StartedPart {
                in_view: start::in_view(lang, [crank, driven, belt]),
                warning: start::start_warning(lang, kind, crank, driven).unwrap_or_default(),
                answers: self.answers_of(kind, &text),
                provisional: start::provisional(lang).to_owned(),
                text,
                ..StartedPart::default()
            },
            Err(why) => StartedPart {
                refused: start::start_refused(lang, kind, why),
                ..StartedPart::default()
            },
        };
        out(&part).map(Some)
    }

    /// Paints a small picture of an arrangement on a cleared canvas.
    ///
    /// # Errors
    /// What the canvas refuses.
    #[wasm_bindgen(js_name = paintArrangement)]
    pub fn paint_arrangement(
        &mut self,
        index: usize,
        ctx: &CanvasRenderingContext2d,
        width: f64,
        height: f64,
        density: f64,
    ) -> Result<(), JsValue> {
        self.paint_small(Gallery::Arrangements, index, ctx, width, height, density)
    }

    /// Whether the text being written adds up; nothing where it cannot be read, or was made up so that it would.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = addsUp)]
    pub fn adds_up(&self) -> Result<Option<Ts<AddsUpPart>>, JsError> {
        let text = self.job.text();
        let lang = self.reader.lang;
        let Some((sketch, answer)) = Sketch::of(text).zip(advice::adds_up(text)) else {
            return Ok(None);
        };
        // Of course it does: its wheels were put so that it would.
        let made_up = sketch.layout.provisional && answer.adds_up;
        if made_up && answer.camshafts_out.is_empty() {
            return Ok(None);
        }
        let causes = answer.causes.iter().take(MOST_CAUSES).filter_map(|cause| {
            let says = adds_up::cause(lang, &sketch.layout, cause);
            cause.applied(text).map(|text| CausePart { says, text })
        });
        out(&AddsUpPart {
            adds_up: answer.adds_up,
            misfit: if made_up {
                adds_up::camshaft_lines(lang, &sketch.layout, &answer.camshafts_out)
            } else {
                adds_up::adds_up_lines(self.reader, &sketch.layout, &answer, 0)
            },
            causes: causes.collect(),
        })
        .map(Some)
    }
}

impl Workbench {
    /// A count that is typed where the format has one at `path`, as its form would take it.
    fn count(&self, path: &str, typed: Option<&String>) -> Result<Option<u32>, String> {
        let Some((key, typed)) = key_at(LAYOUT, path).zip(typed) else { return Ok(None) };
        let understood = typed::understood(self.reader, key, None, std::slice::from_ref(typed))?;
        Ok(understood.and_then(|understood| match understood.value {
            Value::Number(count) => Some(count as u32),
            _ => None,
        }))
    }

    /// What follows from the counts alone.
    fn answers_of(&self, kind: Arrangement, text: &str) -> Vec<Answer> {
        let lang = self.reader.lang;
        let Ok(plan) = Plan::open(text) else { return Vec::new() };
        let report = advice::report(&plan);
        let [at_crank, at_driven, stripe, all] = start::answer_names(lang, kind);
        let mut answers = Vec::new();
        let mut put = |name: &str, key: String, value: f64, text: String| {
            answers.push(Answer { name: name.to_owned(), reading: said(key, value, text) });
        };
        for (shaft, name) in report.shafts.iter().take(2).zip([at_crank, at_driven]) {
            let key = format!("start.shafts.{}.degrees_per_tooth", shaft.id);
            let deg = shaft.degrees_per_tooth;
            put(name, key, deg, start::tooth(lang, deg, shaft.crank_degrees_per_tooth));
        }
        let turns = report.stripes.crank_turns_to_meet_crank_mark;
        let key = "start.stripes.crank_turns_to_meet_crank_mark".to_owned();
        put(stripe, key, turns as f64, lang.turns(turns));
        if let Some(turns) = report.stripes.crank_turns_to_meet_every_mark {
            let key = "start.stripes.crank_turns_to_meet_every_mark".to_owned();
            put(all, key, turns as f64, lang.turns(turns));
        }
        answers
    }
}
