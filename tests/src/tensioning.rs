//! A random tensioner for a belt that is already tight: how its wheel is carried, and how far it may
//! travel without ever losing its grip.
//!
//! Must not know: where on the page the drive will lie, or the tensioner that the crate under test
//! would make of it.
//!
//! *No dead point.* A wheel of the ring is drawn outwards along θᵢ, one on the back inwards square to
//! its span, give or take `JITTER_RAD`. With the belt turning by α before and β after that
//! direction, length grows at 2·sin((α+β)/2)·cos(j + (α−β)/2), j being how far off it is drawn. On a
//! ring (α−β)/2 stays under 45° (ring.rs: three wheels, gaps of 180° and 90°, each tangent a quarter
//! of Δ off), on the back under 17°. A pivot turns the direction too, so its travel is kept to
//! `RING_TURN_RAD` and `BACK_TURN_RAD`; all told the cosine stays above zero.

use crate::plain::{Circle, path, unit};
use crate::ring::between;
use core::f64::consts::FRAC_PI_2;
use drive::DVec2;
use fastrand::Rng;

/// How far off the best direction a wheel is drawn, rad.
const JITTER_RAD: f64 = 0.2;
/// Most that a pivot turns a wheel of the ring away from where the belt is tight, rad.
const RING_TURN_RAD: f64 = 0.3;
/// Most that a pivot turns a wheel on the back, rad.
const BACK_TURN_RAD: f64 = 0.7;
/// Reach of an eccentric, bolt to centre, mm.
const ECCENTRIC_MM: (f64, f64) = (4.0, 10.0);
/// Teeth that right back should free, where the geometry allows.
const FREED_TEETH: (f64, f64) = (1.0, 4.0);

/// The kinds of tensioner that a layout file names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Along a straight line.
    Slide,
    /// A pulley on an arm.
    Arm,
    /// Turned about its bolt and locked.
    Eccentric,
    /// The same, with a spring and a pointer.
    SprungEccentric,
}

/// What carries the wheel.
#[derive(Clone, Copy, Debug)]
pub enum Carried {
    /// Towards this direction, rad; travel in mm.
    Along(f64),
    /// About a point; +1 anticlockwise tightens, −1 clockwise; travel in radians.
    About(DVec2, f64),
}

impl Carried {
    /// Where a wheel that stands at `home` stands after `travel`.
    pub fn centre(&self, home: DVec2, travel: f64) -> DVec2 {
        match *self {
            Self::Along(rad) => home + unit(rad) * travel,
            Self::About(pivot, sense) => {
                let (arm, turn) = (home - pivot, unit(sense * travel));
                pivot + DVec2::new(arm.x * turn.x - arm.y * turn.y, arm.x * turn.y + arm.y * turn.x)
            }
        }
    }
}

/// A tensioner whose travel is zero where the belt is tight.
#[derive(Clone, Copy, Debug)]
pub struct Tensioning {
    /// What it is called.
    pub kind: Kind,
    /// What carries its wheel.
    pub carried: Carried,
    /// Travel right back, below zero.
    pub back: f64,
    /// Travel fully out, above zero.
    pub out: f64,
    /// How much belt right back frees, mm.
    pub freed_mm: f64,
}

impl Tensioning {
    /// Draws one for wheel `wheel` of a tight belt, which may be displaced by `most_mm`; `towards_rad`
    /// is the direction that tightens best.
    pub fn draw(
        rng: &mut Rng,
        circles: &[Circle],
        wheel: usize,
        towards_rad: f64,
        most_mm: f64,
        pitch_mm: f64,
    ) -> Self {
        let kinds = [Kind::Slide, Kind::Arm, Kind::Eccentric, Kind::SprungEccentric];
        let kind = kinds[rng.usize(0..kinds.len())];
        let home = circles[wheel].centre;
        let direction = towards_rad + between(rng, -JITTER_RAD, JITTER_RAD);
        let (carried, most) = if kind == Kind::Slide {
            (Carried::Along(direction), most_mm)
        } else {
            let arm_mm = match kind {
                Kind::Arm => 25.0 + 3.0 * most_mm * (1.0 + rng.f64()),
                _ => between(rng, ECCENTRIC_MM.0, ECCENTRIC_MM.1),
            };
            let sense = if rng.bool() { 1.0 } else { -1.0 };
            let pivot = home - unit(direction - sense * FRAC_PI_2) * arm_mm;
            let turn = if circles[wheel].sense > 0.0 { RING_TURN_RAD } else { BACK_TURN_RAD };
            let chord = (most_mm / (2.0 * arm_mm)).min(1.0);
            (Carried::About(pivot, sense), turn.min(2.0 * libm::asin(chord)))
        };
        let freed = |back: f64| {
            let mut moved = circles.to_vec();
            moved[wheel].centre = carried.centre(home, -back);
            path(circles).length_mm - path(&moved).length_mm
        };
        let wanted = pitch_mm * between(rng, FREED_TEETH.0, FREED_TEETH.1);
        let back = if freed(most) > wanted {
            bisect(0.0, most, |back| freed(back) < wanted)
        } else {
            most * between(rng, 0.7, 1.0)
        };
        let out = most * between(rng, 0.1, 1.0);
        Self { kind, carried, back: -back, out, freed_mm: freed(back) }
    }
}

/// The place between `low` and `high` where `below` turns from true to false.
pub fn bisect(low: f64, high: f64, below: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (low, high);
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if below(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}
