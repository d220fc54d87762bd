//! The marks looked at from the side: what they read and what they seem to.
//!
//! Must not know: any formula, any sentence.

use super::{Said, said};
use advice::{MOST_ASIDE_DEG, readings, sight};
use job::Job;
use serde::Serialize;
use tsify::Tsify;
use words::{Reader, say};

/// Marks from the side.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct SightPart {
    /// How far off square.
    pub aside: Said,
    /// How far that can be either way, degrees.
    pub most_deg: f64,
    /// What it does, in a sentence.
    pub sentence: String,
    /// What gap it rests on.
    pub gaps: String,
    /// The marks.
    pub marks: Vec<SightRow>,
}

/// A mark from the side.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct SightRow {
    /// Its shaft.
    pub name: String,
    /// Where it stands.
    pub stands: String,
    /// Where it seems to stand.
    pub seems: Said,
    /// How far that is from where it stands.
    pub off: Said,
    /// How square one must look to be sure of half a tooth.
    pub sure: Said,
    /// Whether it seems on another tooth than it is.
    pub misread: bool,
}

impl SightPart {
    /// The marks of a job looked at from `aside_deg` off square.
    pub fn of(job: &Job, reader: Reader, aside_deg: f64, names: &[&str]) -> Self {
        let (lang, seen, now) = (reader.lang, sight(job, aside_deg), readings(job));
        let marks = seen.marks.iter().zip(&now.shafts).map(|(mark, shaft)| {
            let id = job.plan().id(mark.wheel);
            let key = |what: &str| format!("sight.marks.{id}.{what}");
            SightRow {
                name: names[mark.wheel].to_owned(),
                stands: say::off(lang, shaft.mark_error_teeth, shaft.mark_error_deg),
                seems: said(
                    key("apparent_teeth"),
                    mark.apparent_teeth,
                    say::sight_apparent(lang, mark),
                ),
                off: said(key("seems_mm"), mark.seems_mm, reader.length(mark.seems_mm)),
                sure: said(
                    key("squarer_than_deg"),
                    mark.squarer_than_deg,
                    say::square_enough(reader, mark),
                ),
                misread: mark.misread,
            }
        });
        Self {
            aside: said("sight.aside_deg".into(), seen.aside_deg, say::aside(lang, seen.aside_deg)),
            most_deg: MOST_ASIDE_DEG,
            sentence: say::sight_sentence(reader, &seen),
            gaps: say::sight_gaps(reader, &seen),
            marks: marks.collect(),
        }
    }
}
