//! A layout from three counts: the teeth of the crank, of what it drives and of the belt, in one of a handful
//! of arrangements. The drive fits exactly these counts; everything else in it is provisional, and says so.
//!
//! Must not know: any language; the sentences in the text are handed in.

mod arrangement;
mod place;

use crate::choice::Arrangement;
use crate::key::{Bounds, Kind, key_at};
use crate::keys::LAYOUT;
use crate::plan::Plan;
use arrangement::Shape;
pub use arrangement::camshaft_teeth;
use drive::{Belt, DVec2};
use place::{Placed, fitted};
use std::fmt::Write as _;

/// The section that a provisional drive has: 8 mm, of a common automotive size (from memory, no source).
const SECTION: Belt = Belt {
    teeth: 0,
    pitch_mm: 8.0,
    thickness_mm: 5.2,
    tooth_height_mm: 3.04,
    pitch_line_differential_mm: 0.686,
};

/// Part of how deep the tensioner presses that it may go back, and out.
const TRAVEL: f64 = 0.9;

/// Slack that the tensioner leaves bolted up, as its travel, mm.
const PINNED_BACK_MM: f64 = 1.0;

/// The sentences in a text that is started, each without line breaks and quotation marks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StartWords {
    /// The title, which says that the layout is provisional.
    pub title: String,
    /// What a reader should know of it.
    pub about: String,
    /// Lines of comment at the top.
    pub head: Vec<String>,
    /// Beside a figure that the person counted.
    pub counted: String,
    /// Beside, or over, figures that are provisional.
    pub provisional: String,
    /// Over the wheels.
    pub order: String,
}

/// Which of the three counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StartCount {
    /// Of the crank's sprocket.
    Crank,
    /// Of each sprocket that it drives.
    Driven,
    /// Of the belt.
    Belt,
}

/// Why nothing was started.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StartRefused {
    /// A count that the format does not allow.
    OutOfBounds {
        /// Which.
        count: StartCount,
        /// What was given.
        found: u32,
        /// What is allowed.
        bounds: Bounds,
    },
    /// The belt does not go round these sprockets.
    BeltTooShort {
        /// Its teeth.
        found: u32,
        /// The fewest with which the arrangement can be drawn.
        least: u32,
    },
    /// The arrangement could not be drawn for this belt, though it can for shorter ones.
    NotDrawn {
        /// Its teeth.
        found: u32,
        /// The most below that with which it can.
        shorter: u32,
        /// The fewest above that, if there are any.
        longer: Option<u32>,
    },
    /// No belt of the format goes round these sprockets.
    NoBelt {
        /// Most teeth of a belt.
        most: u32,
    },
}

/// The text of a provisional layout with exactly these counts, in time. The tensioner stands near the middle
/// of its travel, and every cover mark where the best tooth has the wheel's.
///
/// # Errors
/// What of the counts cannot be.
pub fn start(
    arrangement: Arrangement,
    crank_teeth: u32,
    driven_teeth: u32,
    belt_teeth: u32,
    words: &StartWords,
) -> Result<String, StartRefused> {
    in_bounds(StartCount::Crank, crank_teeth, "wheel[0].teeth")?;
    in_bounds(StartCount::Driven, driven_teeth, "wheel[0].teeth")?;
    let belt = in_bounds(StartCount::Belt, belt_teeth, "belt.teeth")?;
    let most = belt.most as u32;
    let teeth = [crank_teeth, driven_teeth];
    if let Some(text) = text(arrangement.shape(), teeth, belt_teeth, words) {
        return Ok(text);
    }
    let can = |belt: &u32| text(arrangement.shape(), teeth, *belt, words).is_some();
    let shorter = (belt.least as u32..belt_teeth).rev().find(can);
    let longer = (belt_teeth + 1..=most).find(can);
    Err(match (shorter, longer) {
        (Some(shorter), longer) => StartRefused::NotDrawn { found: belt_teeth, shorter, longer },
        (None, Some(least)) => StartRefused::BeltTooShort { found: belt_teeth, least },
        (None, None) => StartRefused::NoBelt { most },
    })
}

fn in_bounds(count: StartCount, found: u32, key: &str) -> Result<Bounds, StartRefused> {
    match key_at(LAYOUT, key).map(|key| key.kind) {
        Some(Kind::Whole(bounds)) if !bounds.allow(f64::from(found)) => {
            Err(StartRefused::OutOfBounds { count, found, bounds })
        }
        Some(Kind::Whole(bounds)) => Ok(bounds),
        _ => Err(StartRefused::NoBelt { most: 0 }),
    }
}

/// The text, if a belt can run so.
fn text(shape: &Shape, teeth: [u32; 2], belt_teeth: u32, words: &StartWords) -> Option<String> {
    let belt = Belt { teeth: belt_teeth, ..SECTION };
    let placed = fitted(shape, teeth, &belt)?;
    let mut marks_deg = vec![0.0; shape.sprockets.len()];
    let first = written(shape, &placed, teeth, &belt, &marks_deg, 0.0, words);
    let drive = Plan::open(&first).ok()?.drive;
    // A cover mark moved by what the best tooth leaves is where the wheel's mark stands.
    for (k, deg) in marks_deg.iter_mut().enumerate().skip(1) {
        *deg = drive.best_tooth_deg()[k] * f64::from(teeth[0]) / f64::from(teeth[1]);
    }
    let text = written(shape, &placed, teeth, &belt, &marks_deg, drive.taut().travel, words);
    Plan::open(&text).ok().map(|_| text)
}

/// The text with marks at these clock angles and the belt tight at this travel, mm.
fn written(
    shape: &Shape,
    placed: &Placed,
    teeth: [u32; 2],
    belt: &Belt,
    marks_deg: &[f64],
    tight_mm: f64,
    words: &StartWords,
) -> String {
    let StartWords { title, about, head, counted, provisional, order } = words;
    let mut out = String::new();
    for line in head {
        let _ = writeln!(out, "# {line}");
    }
    let doubt_mm = doubt_mm(placed);
    let _ = write!(
        out,
        "format = 1\ntitle = \"{title}\"\nabout = \"{about}\"\nprovisional = true\n\
         crank_turns = \"clockwise\"   # {provisional}\ncentres_good_to_mm = {doubt_mm:.0}\n\n\
         [belt]\nteeth = {}   # {counted}\n# {provisional}:\npitch_mm = {:?}\nthickness_mm = {:?}\n\
         tooth_height_mm = {:?}\npitch_line_differential_mm = {:?}\n\n# {order}\n",
        belt.teeth,
        belt.pitch_mm,
        belt.thickness_mm,
        belt.tooth_height_mm,
        belt.pitch_line_differential_mm,
    );
    for (i, sprocket) in shape.sprockets.iter().enumerate() {
        let teeth = if i == 0 { teeth[0] } else { teeth[1] };
        let (at, deg) = (point(placed.sprockets[i]), rounded(marks_deg[i], 1000.0));
        let _ = write!(
            out,
            "\n[[wheel]]\nid = \"{}\"\nname = \"{}\"\nrole = \"{}\"\nface = \"toothed\"\n\
             teeth = {teeth}   # {counted}\nat_mm = {at}   # {provisional}\n\
             mark = {{ cover_clock_deg = {deg:.3}, on = \"groove\" }}   # {provisional}\n",
            sprocket.id,
            sprocket.name,
            sprocket.role.word(),
        );
        for (wheel, smooth) in shape.pressed.iter().zip(&placed.pressed) {
            if wheel.after != i {
                continue;
            }
            let _ = write!(
                out,
                "\n[[wheel]]   # {provisional}\nid = \"{}\"\nname = \"{}\"\nrole = \"{}\"\n\
                 face = \"back\"\noutside_diameter_mm = {:.1}\nat_mm = {}\n",
                wheel.id,
                wheel.name,
                wheel.role.word(),
                2.0 * smooth.outside_radius_mm,
                point(smooth.centre),
            );
        }
    }
    if let Some(tensioner) = placed.pressed.first() {
        let travel_mm = TRAVEL * tensioner.depth_mm;
        let _ = write!(
            out,
            "\n[tensioner]   # {provisional}\nwheel = \"tensioner\"\nkind = \"slide\"\n\
             tightening_clock_deg = {:.1}\ntravel_mm = [{:.1}, {travel_mm:.1}]\npinned_mm = {:.1}\n\
             force_n = 350.0\n",
            drive::Angle::of(tensioner.inwards).clock_deg(),
            -travel_mm,
            (tight_mm - PINNED_BACK_MM).max(-travel_mm / 2.0),
        );
    }
    out
}

/// How far off a centre may be, mm: nobody has measured anything, and half of the greatest distance there is
/// still leaves the same wheels on the same belt.
fn doubt_mm(placed: &Placed) -> f64 {
    let furthest = placed.sprockets.iter().map(|at| at.length()).fold(0.0, f64::max);
    furthest / 2.0
}

fn point(at: DVec2) -> String {
    format!("[{:.1}, {:.1}]", rounded(at.x, 10.0), rounded(at.y, 10.0))
}

/// To whole parts of so many to one, never a negative nothing.
fn rounded(number: f64, parts: f64) -> f64 {
    (DVec2::splat(number * parts).round() / parts).x + 0.0
}
