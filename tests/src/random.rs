//! Random layouts, sound by construction: a ring, wheels pressed into it, a tensioner, marks, and the
//! whole turned, mirrored and shifted. Ready parts, and the same as a layout file's text. Asked for, some
//! sprockets float on their shafts once slackened, valve springs push some shafts, and locks fit some.
//!
//! Must not know: what the crate under test makes of them. Lengths come from `plain`.

use crate::plain::path;
use crate::ring::{between, section};
use crate::shape::{Part, Shape};
use crate::tensioning::{Carried, Kind, Tensioning};
use core::f64::consts::{FRAC_PI_2, PI, TAU};
use drive::{
    Angle, Carrier, DVec2, Face, Fixing, Mark, MarkOn, Parts, Rim, Sense, Tensioner, Wheel,
};
use fastrand::Rng;

/// Most that valve springs push a shaft with, N·m: more than any friction drawn here.
const MOST_SPRING_N_M: f64 = 25.0;

/// A random layout.
#[derive(Clone, Debug)]
pub struct RandomLayout {
    /// What it was drawn from.
    pub seed: u64,
    /// Ready for the crate under test.
    pub parts: Parts,
    /// Whether no wheel runs on the belt's back.
    pub all_inside: bool,
    /// The travel at which it was made to close, mm or radians.
    pub taut_travel: f64,
    /// How much belt the tensioner frees right back, mm.
    pub freed_mm: f64,
    /// The kind of tensioner.
    pub kind: Kind,
    /// Words and numbers as a file states them.
    pub(crate) stated: Stated,
}

/// What a file states in its own units where the parts have others.
#[derive(Clone, Debug, Default)]
pub(crate) struct Stated {
    pub ids: Vec<String>,
    pub outside_diameter_mm: Vec<f64>,
    pub cover_clock_deg: Vec<f64>,
    /// Slots, degrees back and forward.
    pub slot_deg: Vec<Option<[f64; 2]>>,
    /// What a lock holds.
    pub lock_on: Vec<Option<&'static str>>,
    pub tightening_clock_deg: f64,
    /// mm or degrees.
    pub travel: [f64; 2],
    /// Somewhere between right back and tight, mm or degrees.
    pub pinned: f64,
}

/// Where the drive lies on the page.
struct Placing {
    mirrored: bool,
    turn_rad: f64,
    shift: DVec2,
}

impl Placing {
    fn draw(rng: &mut Rng) -> Self {
        let shift = DVec2::new(between(rng, -500.0, 500.0), between(rng, -500.0, 500.0));
        Self { mirrored: rng.bool(), turn_rad: rng.f64() * TAU, shift }
    }

    fn direction(&self, rad: f64) -> f64 {
        self.turn_rad + if self.mirrored { PI - rad } else { rad }
    }

    fn point(&self, p: DVec2) -> DVec2 {
        let x = if self.mirrored { -p.x } else { p.x };
        let (sin, cos) = (libm::sin(self.turn_rad), libm::cos(self.turn_rad));
        self.shift + DVec2::new(x * cos - p.y * sin, x * sin + p.y * cos)
    }

    fn sense(&self, sense: f64) -> Sense {
        if (sense > 0.0) == self.mirrored { Sense::Clockwise } else { Sense::Anticlockwise }
    }
}

/// The layout of this seed.
pub fn sound_layout(seed: u64) -> RandomLayout {
    let mut rng = Rng::with_seed(seed);
    let rng = &mut rng;
    let mut belt = section(rng);
    let shape = Shape::draw(rng, &belt);
    let (circles, teeth) = shape.closed(belt.pitch_mm);
    belt.teeth = teeth;
    let order = shape.order();
    let moving = order.iter().position(|part| *part == shape.moves).unwrap_or(0);
    let (towards, most_mm) = match shape.moves {
        Part::Ring(i) => (shape.ring.at_rad[i], shape.ring.displaced_mm),
        Part::Pressed(k) => {
            let pressed = &shape.pressed[k];
            let free = path(&shape.ring.circles(shape.ring.radius_mm));
            (free.heading_rad[pressed.span] + FRAC_PI_2, pressed.displaced_mm)
        }
    };
    let t = Tensioning::draw(rng, &circles, moving, towards, most_mm, belt.pitch_mm);
    let placing = Placing::draw(rng);
    let drawn_at = between(rng, t.back, t.out);
    let mut stated = Stated::default();
    let mut wheels = Vec::new();
    for (i, (part, circle)) in order.iter().zip(&circles).enumerate() {
        let centre =
            if i == moving { t.carried.centre(circle.centre, drawn_at) } else { circle.centre };
        let grooves = match *part {
            Part::Ring(k) => shape.ring.grooves[k],
            Part::Pressed(_) => None,
        };
        let marked = grooves.is_some() && i != moving && (i == 0 || rng.f64() < 0.8);
        let back = circle.sense < 0.0;
        let stand_off = if back { belt.back_mm() } else { belt.tips_mm() };
        let diameter = 2.0 * (circle.radius - stand_off);
        let clock_deg = rng.f64() * 360.0;
        let on = if rng.bool() { MarkOn::Groove } else { MarkOn::Tooth };
        let face = if back { Face::Back } else { Face::Toothed };
        wheels.push(Wheel {
            centre: placing.point(centre),
            rim: match grooves {
                Some(teeth) => Rim::Toothed { teeth },
                None => Rim::Smooth { outside_radius_mm: diameter / 2.0, face },
            },
            mark: marked.then(|| Mark {
                cover: Angle::from_clock_deg(clock_deg),
                on,
                radius_mm: None,
            }),
            friction_n_m: libm::round(rng.f64() * 100.0) / 10.0,
            spring_torque_n_m: 0.0,
            fixing: Fixing::Keyed,
        });
        stated.ids.push(match (i, i == moving, grooves.is_some()) {
            (0, ..) => "crank".into(),
            (_, true, _) => "tensioner".into(),
            (_, _, true) => format!("shaft_{i}"),
            (_, _, false) => format!("idler_{i}"),
        });
        stated.outside_diameter_mm.push(diameter);
        stated.cover_clock_deg.push(clock_deg);
        stated.slot_deg.push(None);
        stated.lock_on.push(None);
    }
    let (back, out) = (t.back - drawn_at, t.out - drawn_at);
    let pinned = between(rng, back, -drawn_at);
    let (carrier, in_parts) = match t.carried {
        Carried::Along(rad) => {
            let clock_deg = Angle::from_rad(placing.direction(rad)).clock_deg();
            stated.tightening_clock_deg = clock_deg;
            stated.travel = [back, out];
            stated.pinned = pinned;
            (Carrier::Slide { tightening: Angle::from_clock_deg(clock_deg) }, stated.travel)
        }
        Carried::About(pivot, sense) => {
            let deg = |rad: f64| Angle::from_rad(rad).deg();
            stated.travel = [deg(back), deg(out)];
            stated.pinned = deg(pinned);
            let carrier =
                Carrier::Pivot { pivot: placing.point(pivot), tightening: placing.sense(sense) };
            (carrier, stated.travel.map(|deg| Angle::from_deg(deg).rad()))
        }
    };
    let tensioner =
        Tensioner { wheel: moving, carrier, right_back: in_parts[0], fully_out: in_parts[1] };
    RandomLayout {
        seed,
        parts: Parts {
            belt,
            crank_turns: placing.sense(1.0),
            wheels,
            tensioner,
            counted: Vec::new(),
        },
        all_inside: shape.pressed.is_empty(),
        taut_travel: -drawn_at,
        freed_mm: t.freed_mm,
        kind: t.kind,
        stated,
    }
}

impl RandomLayout {
    /// The same drive with more to do: half of its sprockets float on their shafts once slackened, valve
    /// springs push half of its marked shafts, and half of them have a lock.
    pub fn with_more_to_do(mut self) -> Self {
        let mut rng = Rng::with_seed(self.seed ^ 0x5ee_d5ee_d5ee_d5ee);
        let moving = self.parts.tensioner.wheel;
        for (i, wheel) in self.parts.wheels.iter_mut().enumerate() {
            if i == 0 || i == moving || wheel.teeth().is_none() {
                continue;
            }
            wheel.fixing = match rng.u8(..4) {
                0 => {
                    let slot = [between(&mut rng, -8.0, 0.0), between(&mut rng, 0.0, 8.0)];
                    self.stated.slot_deg[i] = Some(slot);
                    let [back, forward] = slot.map(Angle::from_deg);
                    Fixing::Slotted { back, forward }
                }
                1 => Fixing::Taper,
                _ => Fixing::Keyed,
            };
            if wheel.mark.is_some() && rng.bool() {
                wheel.spring_torque_n_m = between(&mut rng, -MOST_SPRING_N_M, MOST_SPRING_N_M);
            }
            if wheel.mark.is_some() && rng.bool() {
                self.stated.lock_on[i] = Some(if rng.bool() { "shaft" } else { "sprocket" });
            }
        }
        self
    }

    /// The same drive seen in a mirror that stands upright on the page.
    pub fn mirrored(&self) -> Parts {
        let mut parts = self.parts.clone();
        let flip = |p: DVec2| DVec2::new(-p.x, p.y);
        let turned = |a: Angle| Angle::from_rad(PI - a.rad());
        parts.crank_turns = parts.crank_turns.reversed();
        for wheel in &mut parts.wheels {
            wheel.centre = flip(wheel.centre);
            wheel.mark = wheel.mark.map(|m| Mark { cover: turned(m.cover), ..m });
        }
        parts.tensioner.carrier = match parts.tensioner.carrier {
            Carrier::Slide { tightening } => Carrier::Slide { tightening: turned(tightening) },
            Carrier::Pivot { pivot, tightening } => {
                Carrier::Pivot { pivot: flip(pivot), tightening: tightening.reversed() }
            }
        };
        parts
    }
}
