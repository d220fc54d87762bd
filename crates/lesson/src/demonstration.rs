//! A demonstration as its file holds it, read and checked; and the files that ship.
//!
//! Must not know: whether its actions can be done (`play` finds out), or what its readings are.

use crate::caption::{Piece, pieces};
use crate::flaw::Flaw;
use advice::MOST_ASIDE_DEG;
use job::Action;
use serde::Deserialize;

macro_rules! files {
    ($($name:literal,)*) => {
        /// The demonstrations that ship, in the order in which they are offered.
        pub const FILES: [&str; [$($name),*].len()] =
            [$(include_str!(concat!("../demonstrations/", $name, ".json"))),*];
    };
}

files! {
    "how-the-belt-keeps-time",
    "why-twice-round",
    "one-tooth-out",
    "three-out-touching",
    "where-the-slack-goes",
    "landing-on-the-mark",
    "pin-pulled-too-early",
    "why-stripes-drift",
    "a-mark-from-the-side",
    "a-seized-idler",
    "what-an-idler-goes-through",
    "spring-and-camshaft",
}

/// A demonstration.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Demonstration {
    /// Small letters, digits and hyphens; one of a kind.
    pub id: String,
    /// What it shows.
    pub title: Text,
    /// The layout that it is shown on, by its file's name without the ending.
    pub layout: String,
    /// Whether it speaks of the engine behind the belt.
    #[serde(default)]
    pub needs_engine: bool,
    /// What is shown, one after the other.
    pub steps: Vec<Step>,
}

/// One step: things done, where to look, what to say.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// What is done, in order; may be nothing.
    #[serde(default)]
    pub actions: Vec<Action>,
    /// Where to look.
    #[serde(default)]
    pub camera: Camera,
    /// How far off square the marks are looked at, degrees, positive to the side from which they seem ahead.
    #[serde(default)]
    pub aside_deg: f64,
    /// What is said once it is done; readings stand in it by their key, in braces.
    pub caption: Text,
    /// What to be careful about, if anything.
    pub caution: Option<Text>,
    /// How long it is left to be read before the next step, s.
    pub pause_s: f64,
    /// Whether the last action must be stopped short of what it asks for: that is the point of it.
    #[serde(default)]
    pub stops_short: bool,
}

/// A text in each language.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Text {
    /// English.
    pub en: String,
    /// German.
    pub de: String,
}

/// Where to look.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Camera {
    /// The whole drive.
    #[default]
    Drive,
    /// A wheel from near, by its id.
    Wheel(String),
    /// The turn dial.
    Dial,
    /// A cylinder in section, counted from 1.
    Cylinder(usize),
}

/// Shortest and longest pause, s.
const PAUSE_S: [f64; 2] = [2.0, 30.0];

impl Text {
    fn by_lang(&self) -> [(&'static str, &str); 2] {
        [("en", &self.en), ("de", &self.de)]
    }
}

impl Demonstration {
    /// Reads and checks a file.
    ///
    /// # Errors
    /// The first thing wrong with it.
    pub fn read(text: &str) -> Result<Self, Flaw> {
        let read: Self = serde_json::from_str(text).map_err(|e| Flaw::NotRead {
            line: e.line(),
            column: e.column(),
            what: e.to_string(),
        })?;
        let in_id = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        if read.id.is_empty() || !read.id.chars().all(in_id) {
            return Err(Flaw::BadId { found: read.id });
        }
        said(&read.title, 0)?;
        if read.steps.is_empty() {
            return Err(Flaw::NoSteps);
        }
        for (i, step) in read.steps.iter().enumerate() {
            step.check(i + 1, read.needs_engine)?;
        }
        Ok(read)
    }

    /// Every reading that its captions name.
    pub fn readings(&self) -> impl Iterator<Item = &str> {
        let captions = self.steps.iter().map(|step| step.caption.en.as_str());
        captions.flat_map(|caption| named(caption).unwrap_or_default())
    }
}

impl Step {
    fn check(&self, step: usize, engine: bool) -> Result<(), Flaw> {
        said(&self.caption, step)?;
        if let Some(caution) = &self.caution {
            said(caution, step)?;
        }
        let mut each = Vec::new();
        for (lang, text) in self.caption.by_lang() {
            let mut keys = named(text).ok_or(Flaw::BadBraces { step, lang })?;
            keys.sort_unstable();
            keys.dedup();
            each.push(keys);
        }
        if each.windows(2).any(|pair| pair[0] != pair[1]) {
            return Err(Flaw::ReadingsDiffer { step });
        }
        let [least, most] = PAUSE_S;
        if !(least..=most).contains(&self.pause_s) {
            return Err(Flaw::BadPause { step, found: self.pause_s, least, most });
        }
        if self.aside_deg.abs() > MOST_ASIDE_DEG {
            let (found, most) = (self.aside_deg, MOST_ASIDE_DEG);
            return Err(Flaw::BadSide { step, found, most });
        }
        if self.stops_short && self.actions.is_empty() {
            return Err(Flaw::NothingToStop { step });
        }
        match self.camera {
            Camera::Cylinder(cylinder) if !engine || cylinder == 0 => {
                Err(Flaw::NoCylinder { step })
            }
            _ => Ok(()),
        }
    }
}

fn said(text: &Text, step: usize) -> Result<(), Flaw> {
    let empty = text.by_lang().into_iter().find(|(_, text)| text.trim().is_empty());
    empty.map_or(Ok(()), |(lang, _)| Err(Flaw::NoText { step, lang }))
}

fn named(caption: &str) -> Option<Vec<&str>> {
    let keys = pieces(caption)?.into_iter().filter_map(|piece| match piece {
        Piece::Reading(key) => Some(key),
        Piece::Words(_) => None,
    });
    Some(keys.collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::{Value, json};
    use std::collections::BTreeSet;

    #[test]
    fn every_file_that_ships_is_sound_and_one_of_a_kind() {
        let all: Vec<Demonstration> =
            FILES.iter().map(|text| Demonstration::read(text).unwrap()).collect();
        let ids: BTreeSet<&str> = all.iter().map(|one| one.id.as_str()).collect();
        assert_eq!(ids.len(), all.len());
        for one in &all {
            let shown = one.steps.iter().any(|step| !step.actions.is_empty());
            assert!(shown, "{}: nothing is done", one.id);
        }
    }

    fn sound() -> Value {
        json!({
            "id": "one", "title": {"en": "One", "de": "Eins"}, "layout": "six",
            "steps": [{
                "actions": [{"turn_to": {"crank_deg": 90.0}}],
                "caption": {"en": "At {crank_deg}.", "de": "Bei {crank_deg}."},
                "pause_s": 4.0,
            }],
        })
    }

    fn flaw(change: impl FnOnce(&mut Value)) -> Flaw {
        let mut file = sound();
        change(&mut file);
        Demonstration::read(&file.to_string()).unwrap_err()
    }

    #[test]
    fn each_flaw_is_named() {
        let read = Demonstration::read(&sound().to_string()).unwrap();
        assert_eq!(read.readings().collect::<Vec<_>>(), ["crank_deg"]);
        assert_eq!(flaw(|f| f["id"] = json!("One")), Flaw::BadId { found: "One".into() });
        assert_eq!(flaw(|f| f["steps"] = json!([])), Flaw::NoSteps);
        assert_eq!(flaw(|f| f["title"]["de"] = json!(" ")), Flaw::NoText { step: 0, lang: "de" });
        let step = |f: &mut Value, key: &str, to: Value| f["steps"][0][key] = to;
        let caption = |en: &str| json!({"en": en, "de": "Bei {crank_deg}."});
        assert_eq!(
            flaw(|f| step(f, "caption", caption("At {crank_deg."))),
            Flaw::BadBraces { step: 1, lang: "en" }
        );
        assert_eq!(flaw(|f| step(f, "caption", caption("At."))), Flaw::ReadingsDiffer { step: 1 });
        assert!(matches!(
            flaw(|f| step(f, "pause_s", json!(0.5))),
            Flaw::BadPause { step: 1, found: 0.5, .. }
        ));
        assert_eq!(
            flaw(|f| {
                step(f, "actions", json!([]));
                step(f, "stops_short", json!(true));
            }),
            Flaw::NothingToStop { step: 1 }
        );
        assert!(matches!(
            flaw(|f| step(f, "aside_deg", json!(60.0))),
            Flaw::BadSide { step: 1, found: 60.0, .. }
        ));
        let cylinder = json!({"cylinder": 1});
        assert_eq!(flaw(|f| step(f, "camera", cylinder)), Flaw::NoCylinder { step: 1 });
        for broken in [
            flaw(|f| step(f, "captions", json!("x"))),
            flaw(|f| step(f, "actions", json!([{"turn_two": {}}]))),
            flaw(|f| step(f, "camera", json!("moon"))),
        ] {
            assert!(matches!(broken, Flaw::NotRead { .. }), "{broken:?}");
        }
    }
}
