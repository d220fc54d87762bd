//! The slips that people make in writing a layout, each undone on trial: what stands in the file, put as it
//! would have been meant.
//!
//! Must not know: whether anything fits then.

use super::digits::meant;
use drive::{Carrier, DVec2, Face, Parts, Rim, Sense};
use layout::{Edit, Layout, TensionerKind, Value};

/// Pitches of common sections, mm: 5, 8 and 14 of ISO 13050, 3/8 in and 1/2 in of ISO 5296.
const PITCHES_MM: [f64; 5] = [5.0, 8.0, 9.525, 12.7, 14.0];

/// Teeth by which somebody may have miscounted a whole belt.
const MISCOUNTED: u32 = 3;

/// A slip that there may be in a layout. Wheels by index.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Slip {
    /// A smooth wheel runs on the other face.
    Face {
        /// The wheel.
        wheel: usize,
        /// Whether it would run on the belt's back.
        back: bool,
    },
    /// The belt has another number of teeth.
    BeltTeeth {
        /// It would have.
        teeth: u32,
        /// How many more or fewer.
        off: u32,
    },
    /// A sprocket has another number of teeth.
    SprocketTeeth {
        /// The sprocket.
        wheel: usize,
        /// It would have.
        teeth: u32,
    },
    /// Somebody counted one more or one fewer.
    Count {
        /// Which count.
        count: usize,
        /// It would be.
        teeth: u32,
    },
    /// A smooth wheel's radius stands for its diameter, or its diameter was doubled.
    Diameter {
        /// The wheel.
        wheel: usize,
        /// It would be, mm.
        outside_diameter_mm: f64,
    },
    /// A centre is mistyped.
    Centre {
        /// The wheel; `None` for the tensioner's pivot or bolt.
        wheel: Option<usize>,
        /// How.
        how: Mistyped,
        /// It would be, mm.
        at_mm: [f64; 2],
    },
    /// Two neighbours are listed the wrong way round.
    Order {
        /// The earlier one; the next is the other.
        wheel: usize,
    },
    /// The belt has another pitch.
    Pitch {
        /// It would be, mm.
        pitch_mm: f64,
    },
    /// The tensioner tightens the other way.
    Tightening,
}

/// How a number was mistyped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mistyped {
    /// A sign is wrong.
    Sign,
    /// x stands for y and y for x.
    Swapped,
    /// Two digits stand for one another.
    Digits,
    /// A nought and the digit beside it, so that the number is a place longer or shorter.
    Nought,
    /// The point is a place off.
    Decimal,
    /// It is a hundred off.
    Hundred,
}

impl Slip {
    /// How rare the slip is, from 0 (an everyday one) to 1 (from memory of such files, no source).
    pub(super) const fn rare(&self) -> f64 {
        match self {
            Self::Face { .. } => 0.0,
            Self::BeltTeeth { off, .. } => 0.15 * *off as f64 - 0.05,
            Self::Count { .. } => 0.2,
            Self::Diameter { .. } | Self::SprocketTeeth { .. } => 0.25,
            Self::Pitch { .. } => 0.3,
            Self::Order { .. } | Self::Tightening => 0.35,
            Self::Centre { how: Mistyped::Sign, .. } => 0.4,
            Self::Centre { how: Mistyped::Digits | Mistyped::Swapped, .. } => 0.6,
            Self::Centre { how: Mistyped::Hundred, .. } => 0.65,
            Self::Centre { how: Mistyped::Decimal, .. } => 0.7,
            Self::Centre { how: Mistyped::Nought, .. } => 0.8,
        }
    }
}

/// A slip undone.
#[derive(Clone, Debug)]
pub(super) struct Trial {
    pub slip: Slip,
    /// What that changes in the file.
    pub edit: Edit,
    /// The drive then.
    pub parts: Parts,
}

/// Every slip that can be undone in this layout. `parts` are the layout's.
pub(super) fn trials(layout: &Layout, parts: &Parts) -> Vec<Trial> {
    let mut all = Vec::new();
    for wheel in 0..parts.wheels.len() {
        rims(parts, wheel, &mut all);
        centres(
            layout.wheels[wheel].at_mm,
            Some(wheel),
            &format!("wheel[{wheel}].at_mm"),
            parts,
            &mut all,
        );
        // The crank stays first.
        if wheel > 0 && wheel + 1 < parts.wheels.len() {
            let edit = Edit::Move { list: "wheel".to_owned(), from: wheel, to: wheel + 1 };
            all.push(Trial { slip: Slip::Order { wheel }, edit, parts: swapped(parts, wheel) });
        }
    }
    let least = parts.belt.teeth.saturating_sub(MISCOUNTED);
    for teeth in (least..=parts.belt.teeth + MISCOUNTED).filter(|teeth| *teeth != parts.belt.teeth)
    {
        let off = teeth.abs_diff(parts.belt.teeth);
        let mut parts = parts.clone();
        parts.belt.teeth = teeth;
        let edit = set("belt.teeth".to_owned(), Value::Number(f64::from(teeth)));
        all.push(Trial { slip: Slip::BeltTeeth { teeth, off }, edit, parts });
    }
    for (count, counted) in layout.counts.iter().enumerate() {
        for teeth in around(counted.teeth) {
            let mut parts = parts.clone();
            parts.counted[count].teeth = i64::from(teeth);
            let edit = set(format!("count[{count}].teeth"), Value::Number(f64::from(teeth)));
            all.push(Trial { slip: Slip::Count { count, teeth }, edit, parts });
        }
    }
    for pitch_mm in PITCHES_MM {
        if pitch_mm != parts.belt.pitch_mm {
            let mut parts = parts.clone();
            parts.belt.pitch_mm = pitch_mm;
            let edit = set("belt.pitch_mm".to_owned(), Value::Number(pitch_mm));
            all.push(Trial { slip: Slip::Pitch { pitch_mm }, edit, parts });
        }
    }
    tensioner(layout, parts, &mut all);
    all
}

fn set(path: String, value: Value) -> Edit {
    Edit::Set { path, value }
}

fn around(teeth: u32) -> [u32; 2] {
    [teeth.saturating_sub(1), teeth + 1]
}

fn rims(parts: &Parts, wheel: usize, all: &mut Vec<Trial>) {
    let with = |rim: Rim| {
        let mut parts = parts.clone();
        parts.wheels[wheel].rim = rim;
        parts
    };
    match parts.wheels[wheel].rim {
        Rim::Toothed { teeth } => all.extend(around(teeth).map(|teeth| Trial {
            slip: Slip::SprocketTeeth { wheel, teeth },
            edit: set(format!("wheel[{wheel}].teeth"), Value::Number(f64::from(teeth))),
            parts: with(Rim::Toothed { teeth }),
        })),
        Rim::Smooth { outside_radius_mm, face } => {
            let back = face == Face::Toothed;
            let other = if back { Face::Back } else { Face::Toothed };
            let word = if back { layout::Face::Back } else { layout::Face::Toothed };
            all.push(Trial {
                slip: Slip::Face { wheel, back },
                edit: set(format!("wheel[{wheel}].face"), Value::Text(word.word().to_owned())),
                parts: with(Rim::Smooth { outside_radius_mm, face: other }),
            });
            all.extend([0.5, 2.0].map(|times| {
                let outside_diameter_mm = 2.0 * outside_radius_mm * times;
                Trial {
                    slip: Slip::Diameter { wheel, outside_diameter_mm },
                    edit: set(
                        format!("wheel[{wheel}].outside_diameter_mm"),
                        Value::Number(outside_diameter_mm),
                    ),
                    parts: with(Rim::Smooth { outside_radius_mm: outside_radius_mm * times, face }),
                }
            }));
        }
    }
}

/// What a centre may have been meant to be.
fn centres(at_mm: [f64; 2], wheel: Option<usize>, path: &str, parts: &Parts, all: &mut Vec<Trial>) {
    let mut tried = vec![at_mm];
    let mut put = |how: Mistyped, at_mm: [f64; 2]| {
        if tried.contains(&at_mm) {
            return;
        }
        tried.push(at_mm);
        let mut parts = parts.clone();
        let at = DVec2::from_array(at_mm);
        match (wheel, &mut parts.tensioner.carrier) {
            (Some(wheel), _) => parts.wheels[wheel].centre = at,
            (None, Carrier::Pivot { pivot, .. }) => *pivot = at,
            (None, Carrier::Slide { .. }) => {}
        }
        let edit = set(path.to_owned(), Value::Numbers(at_mm.to_vec()));
        all.push(Trial { slip: Slip::Centre { wheel, how, at_mm }, edit, parts });
    };
    let [x, y] = at_mm;
    put(Mistyped::Swapped, [y, x]);
    for (how, x) in meant(x) {
        put(how, [x, y]);
    }
    for (how, y) in meant(y) {
        put(how, [x, y]);
    }
}

/// With wheel `i` and the next one the other way round.
fn swapped(parts: &Parts, i: usize) -> Parts {
    let mut parts = parts.clone();
    parts.wheels.swap(i, i + 1);
    let follow = |wheel: usize| match wheel {
        wheel if wheel == i => i + 1,
        wheel if wheel == i + 1 => i,
        wheel => wheel,
    };
    parts.tensioner.wheel = follow(parts.tensioner.wheel);
    for count in &mut parts.counted {
        (count.from, count.to) = (follow(count.from), follow(count.to));
    }
    parts
}

fn tensioner(layout: &Layout, parts: &Parts, all: &mut Vec<Trial>) {
    let mut other = parts.clone();
    let edit = match (&mut other.tensioner.carrier, layout.tensioner.kind) {
        (Carrier::Slide { tightening }, TensionerKind::Slide { tightening_clock_deg, .. }) => {
            let clock_deg = if tightening_clock_deg < 180.0 {
                tightening_clock_deg + 180.0
            } else {
                tightening_clock_deg - 180.0
            };
            *tightening = drive::Angle::from_clock_deg(clock_deg);
            set("tensioner.tightening_clock_deg".to_owned(), Value::Number(clock_deg))
        }
        (Carrier::Pivot { tightening, .. }, kind) => {
            let (other, word) = match *tightening {
                Sense::Clockwise => (Sense::Anticlockwise, layout::Tightening::Anticlockwise),
                Sense::Anticlockwise => (Sense::Clockwise, layout::Tightening::Clockwise),
            };
            *tightening = other;
            let pivot = match kind {
                TensionerKind::Arm { pivot_mm, .. } => Some(("tensioner.pivot_mm", pivot_mm)),
                TensionerKind::Eccentric { bolt_mm, .. }
                | TensionerKind::SprungEccentric { bolt_mm, .. } => {
                    Some(("tensioner.bolt_mm", bolt_mm))
                }
                TensionerKind::Slide { .. } => None,
            };
            if let Some((path, at_mm)) = pivot {
                centres(at_mm, None, path, parts, all);
            }
            set("tensioner.tightening".to_owned(), Value::Text(word.word().to_owned()))
        }
        _ => return,
    };
    all.push(Trial { slip: Slip::Tightening, edit, parts: other });
}
