//! A layout on the way: what is wrong with its text, and what can be drawn of it meanwhile.
//!
//! Must not know: what is on the bench.

use advice::LaidOut;
use drive::DVec2;
use layout::{Plan, Problem, ProblemKind, Sketch};
use picture::{Ground, List, SketchPicture};
use serde::Serialize;
use tsify::Tsify;
use words::{Lang, Reader, say, written};

/// One problem of a layout file.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct ProblemLine {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
    /// Where it starts in the text, in the units that a page counts text in (UTF-16).
    pub from: usize,
    /// Where it ends.
    pub to: usize,
    /// The key's path.
    pub key: String,
    /// The wheel concerned, by id.
    pub part: Option<String>,
    /// What is wrong, in a sentence.
    pub text: String,
}

/// The problems of `text` as the page lists them.
pub fn problem_lines(lang: Lang, text: &str, problems: &[Problem]) -> Vec<ProblemLine> {
    let units = |byte: usize| text.get(..byte).map_or(0, |before| before.encode_utf16().count());
    problems
        .iter()
        .map(|p| ProblemLine {
            line: p.place.line,
            column: p.place.column,
            from: units(p.place.from_byte),
            to: units(p.place.to_byte),
            key: p.key.clone(),
            part: p.part.clone(),
            text: words::problem(lang, p),
        })
        .collect()
}

/// A layout that can be read but not run, as it is shown.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct DraftPart {
    /// Its title.
    pub title: String,
    /// By how much the belt does not fit its way, or that there is none, in a sentence.
    pub misfit: String,
    /// Its wheels.
    pub wheels: Vec<DraftWheel>,
}

/// A wheel of a sketch.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct DraftWheel {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// A few words on it.
    pub note: String,
    /// Whether it stands in the belt's way.
    pub fault: bool,
}

/// A layout that can be read, round whose wheels no belt can run.
pub struct Draft {
    sketch: Sketch,
    laid: LaidOut,
    picture: SketchPicture,
    faults: Vec<usize>,
}

impl Draft {
    /// The draft of a text; `None` if its problems leave nothing to draw.
    pub fn of(text: &str) -> Option<Self> {
        let sketch = Sketch::of(text)?;
        let mut faults = Vec::new();
        for problem in Plan::open(text).err().unwrap_or_default() {
            let by_id = |id: &String| sketch.layout.wheels.iter().position(|w| w.id == *id);
            faults.extend(problem.part.as_ref().and_then(by_id));
            if let ProblemKind::Geometry { flaw, .. } = &problem.kind {
                faults.extend(flaw.wheels());
            }
        }
        faults.sort_unstable();
        faults.dedup();
        let (picture, laid) = (SketchPicture::new(&sketch.parts), advice::laid_out(&sketch));
        Some(Self { sketch, laid, picture, faults })
    }

    /// What its wheels take up.
    pub fn ground(&self) -> Ground {
        Ground::of_parts(&self.sketch.parts, &self.laid)
    }

    /// Draws it on top of what `list` holds.
    pub fn draw(&self, list: &mut List) {
        self.picture.draw(list, &self.sketch.parts, &self.laid, &self.faults);
    }

    /// The wheel at `point`, if there is one.
    pub fn part_at(&self, point: DVec2) -> Option<usize> {
        let belt_mm = self.sketch.parts.belt.thickness_mm;
        let mut discs = self.laid.discs.iter();
        discs.position(|disc| (point - disc.centre).length() <= disc.radius + belt_mm)
    }

    /// What the page says of it.
    pub fn part(&self, reader: Reader) -> DraftPart {
        let (lang, pitch_mm) = (reader.lang, self.sketch.parts.belt.pitch_mm);
        DraftPart {
            title: written(lang, &self.sketch.layout.title).to_owned(),
            misfit: say::adds_up::unhung(reader, self.laid.misfit_mm, pitch_mm),
            wheels: self.wheels(lang),
        }
    }

    fn wheels(&self, lang: Lang) -> Vec<DraftWheel> {
        let wheels = self.sketch.layout.wheels.iter().enumerate();
        wheels
            .map(|(i, wheel)| DraftWheel {
                id: wheel.id.clone(),
                name: written(lang, &wheel.name).to_owned(),
                note: say::wheel_note(lang, wheel),
                fault: self.faults.contains(&i),
            })
            .collect()
    }
}
