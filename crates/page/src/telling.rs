//! A demonstration made ready to be told: its captions with the readings that the panel shows filled in.
//!
//! Must not know: any formula; any sentence but those that the demonstrations bring.

use crate::panel::{Answers, Panel, Said, Wanted};
use advice::Assumptions;
use drive::Pose;
use job::Job;
use lesson::{Camera, Piece, Play, Step, Text, pieces};
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;
use tsify::Tsify;
use words::{Lang, Reader};

/// A piece of a caption: words, or a reading.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct CaptionPiece {
    /// Words as they stand; empty for a reading.
    pub words: String,
    /// The reading.
    pub said: Option<Said>,
}

/// Where to look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct Look {
    /// What is looked at.
    pub at: LookAt,
    /// Index of the wheel or the cylinder, if it is one.
    pub index: usize,
}

/// What is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum LookAt {
    /// The whole drive.
    Drive,
    /// A wheel from near.
    Wheel,
    /// The turn dial.
    Dial,
    /// A cylinder in section.
    Cylinder,
}

/// A text in the reader's language.
pub fn told(lang: Lang, text: &Text) -> &str {
    lang.pick(&text.en, &text.de)
}

/// The caption of the step where `play` is, with the readings of its end.
pub fn caption(play: &Play, reader: Reader) -> Vec<CaptionPiece> {
    let step = step(play);
    let readings = readings(&play.scene().to, reader, step.aside_deg);
    let all = pieces(told(reader.lang, &step.caption)).unwrap_or_default();
    let piece = |piece: Piece<'_>| match piece {
        Piece::Words(words) => CaptionPiece { words: words.to_owned(), said: None },
        Piece::Reading(key) => {
            CaptionPiece { words: String::new(), said: readings.get(key).cloned() }
        }
    };
    all.into_iter().map(piece).collect()
}

/// The step where `play` is.
pub fn step(play: &Play) -> &Step {
    &play.demonstration.steps[play.at()]
}

/// Where its step looks.
pub fn look(play: &Play) -> Look {
    let (at, index) = match &step(play).camera {
        Camera::Drive => (LookAt::Drive, 0),
        Camera::Dial => (LookAt::Dial, 0),
        Camera::Cylinder(cylinder) => (LookAt::Cylinder, cylinder - 1),
        Camera::Wheel(id) => match play.scene().to.plan().wheel_index(id) {
            Some(index) => (LookAt::Wheel, index),
            None => (LookAt::Drive, 0),
        },
    };
    Look { at, index }
}

/// Every reading that the page shows of a job in any of its tasks, by key.
fn readings(job: &Job, reader: Reader, aside_deg: f64) -> BTreeMap<String, Said> {
    let pose = Pose::of(job.drive(), job.stance(), job.cord());
    let wheels = 0..job.drive().wheels().len();
    let turned: Vec<f64> = wheels.map(|i| pose.turned_deg(job.drive(), i)).collect();
    let wanted =
        Wanted { fitting: true, engine: true, wearing: true, aside_deg, ..Wanted::default() };
    let answers = Answers::of(job.plan(), &Assumptions::default());
    let panel = Panel::of(job, reader, &turned, &answers, wanted);
    let mut all = BTreeMap::new();
    collect(&serde_json::to_value(panel).unwrap_or_default(), &mut all);
    all
}

/// A reading is an object with a key, a figure and a text, wherever in the panel it stands.
fn collect(value: &Value, all: &mut BTreeMap<String, Said>) {
    match value {
        Value::Object(fields) => {
            let text = |name: &str| fields.get(name).and_then(Value::as_str).map(str::to_owned);
            let figure = fields.get("value").and_then(Value::as_f64);
            if let (Some(key), Some(value), Some(text)) = (text("key"), figure, text("text")) {
                all.insert(key.clone(), Said { key, value, text });
            }
            fields.values().for_each(|field| collect(field, all));
        }
        Value::Array(each) => each.iter().for_each(|one| collect(one, all)),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shipped::Shipped;
    use lesson::{Demonstration, FILES};
    use words::Units;

    /// Every demonstration, played on its layout.
    fn plays() -> Vec<Play> {
        let mut shipped = Shipped::default();
        let play = |text: &&str| {
            let read = Demonstration::read(text).unwrap();
            let plan = shipped.plan(&read.layout).unwrap();
            assert!(plan.engine.is_some() || !read.needs_engine, "{}: no engine", read.id);
            let id = read.id.clone();
            Play::new(read, plan).unwrap_or_else(|stuck| panic!("{id}: {stuck:?}"))
        };
        FILES.iter().map(play).collect()
    }

    fn text(pieces: &[CaptionPiece]) -> String {
        let piece = |p: &CaptionPiece| p.said.as_ref().map_or(p.words.clone(), |s| s.text.clone());
        pieces.iter().map(piece).collect()
    }

    /// Read them with `cargo test -p page captions -- --nocapture`.
    #[test]
    fn captions_have_every_reading_in_both_languages_and_units() {
        for mut play in plays() {
            for lang in Lang::ALL {
                for units in [Units::Metric, Units::Inch] {
                    println!("\n{} ({})", told(lang, &play.demonstration.title), lang.code());
                    for i in 0..play.demonstration.steps.len() {
                        play.go_to(i);
                        let all = caption(&play, Reader { lang, units });
                        println!("  {}. {}", i + 1, text(&all));
                        for piece in &all {
                            let told = piece.said.as_ref().map_or(&piece.words, |s| &s.text);
                            let (id, words) = (&play.demonstration.id, &step(&play).caption.en);
                            assert!(!told.is_empty(), "{id}, step {}: {words}", i + 1);
                        }
                    }
                }
            }
        }
    }

    /// The figure in the caption and the one drawn beside it may differ by no more than both are rounded to.
    #[test]
    fn a_cylinder_is_shown_where_the_gap_that_is_told_can_be_seen() {
        let mut shown = 0;
        for mut play in plays() {
            for i in 0..play.demonstration.steps.len() {
                play.go_to(i);
                let Camera::Cylinder(cylinder) = step(&play).camera else { continue };
                let job = &play.scene().to;
                let engine = &job.plan().engine.as_ref().unwrap().engine;
                let stand = advice::stand(job).unwrap();
                let drawn = advice::cylinder_reading(engine, &stand, cylinder - 1).unwrap();
                for piece in caption(&play, Reader::default()) {
                    let Some(told) = piece.said else { continue };
                    let kind = drawn.valves.iter().find(|valve| {
                        told.key
                            .ends_with(&format!("{}.least_gap_mm", advice::valve_name(valve.valve)))
                    });
                    let Some(gap_mm) = kind.and_then(|valve| valve.gap_mm) else { continue };
                    let off_mm = (gap_mm - told.value).abs();
                    assert!(off_mm < 0.02, "{}, {i}: {off_mm}", play.demonstration.id);
                    shown += 1;
                }
            }
        }
        assert_eq!(shown, 4);
    }

    #[test]
    fn every_camera_finds_what_it_looks_at() {
        for mut play in plays() {
            for i in 0..play.demonstration.steps.len() {
                play.go_to(i);
                let (plan, look) = (play.scene().to.plan(), look(&play));
                match &step(&play).camera {
                    Camera::Wheel(id) => {
                        assert_eq!(Some(look.index), plan.wheel_index(id));
                        assert_eq!(look.at, LookAt::Wheel, "{id}");
                    }
                    Camera::Cylinder(_) => {
                        let engine = &plan.engine.as_ref().unwrap().engine;
                        assert!(look.index < engine.cylinders());
                    }
                    Camera::Drive | Camera::Dial => {}
                }
            }
        }
    }
}
