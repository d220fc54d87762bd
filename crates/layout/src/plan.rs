//! From a checked file to a sound drive: the layout's values in the drive's own units and signs.
//!
//! Must not know TOML. This is the only place where a clock face and degrees become the drive's
//! angles, and where a flaw in the geometry finds its place in the text.

mod engine;

pub use engine::EnginePlan;

use crate::choice::{CountedFrom, CrankTurns, Face, Fixing, MarkOn, Tightening};
use crate::document::{CountValues, Layout, Rim, TensionerKind, TensionerValues, WheelValues};
use crate::place::Place;
use crate::problem::{Problem, ProblemKind};
use crate::read::{read, text};
use drive::{
    Angle, Belt, Carrier, Counted, CountedBetween, DVec2, Drive, Flaw, Mark, Parts, Sense,
    Tensioner, Wheel,
};

/// A layout and the drive that it describes: neither can be wrong. Wheel i of the one is wheel i of
/// the other.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The values as the file has them.
    pub layout: Layout,
    /// The drive, its belt tight and in time.
    pub drive: Drive,
    /// The engine behind it, if the file has one.
    pub engine: Option<EnginePlan>,
    /// The file's text.
    pub text: String,
}

/// A layout that can be read, whether or not a belt could run so: what can be drawn of it.
#[derive(Clone, Debug)]
pub struct Sketch {
    /// The values as the file has them.
    pub layout: Layout,
    /// What the drive would be made of. Wheel i of the one is wheel i of the other.
    pub parts: Parts,
}

impl Sketch {
    /// The sketch of a layout file; `None` if it cannot be read.
    pub fn of(text: &str) -> Option<Self> {
        let layout = read(text).ok()?;
        let parts = parts(&layout);
        Some(Self { layout, parts })
    }
}

impl Plan {
    /// Reads a layout file and puts its drive together.
    ///
    /// # Errors
    /// Every problem of the text; if there is none, every flaw of the geometry, each at the part of
    /// the text that it concerns.
    pub fn open(text: &str) -> Result<Self, Vec<Problem>> {
        let layout = read(text)?;
        let engine = engine::engine(&layout);
        let drive = match Drive::new(parts(&layout)) {
            Ok(drive) => match pointer_outside(&layout, &drive) {
                None => Ok(drive),
                Some(problem) => Err(vec![problem]),
            },
            Err(flaws) => Err(flaws.into_iter().map(|flaw| problem(&layout, flaw)).collect()),
        };
        match (drive, engine) {
            (Ok(drive), Ok(engine)) => Ok(Self { layout, drive, engine, text: text.to_owned() }),
            (drive, engine) => {
                let mut all = drive.err().unwrap_or_default();
                all.extend(engine.err().unwrap_or_default());
                all.sort_by_key(|problem: &Problem| problem.place.from_byte);
                Err(all)
            }
        }
    }

    /// As [`Plan::open`], from a file's bytes.
    ///
    /// # Errors
    /// Those of [`Plan::open`], and where the bytes are not UTF-8.
    pub fn open_bytes(bytes: &[u8]) -> Result<Self, Vec<Problem>> {
        Self::open(text(bytes)?)
    }

    /// What people call wheel `i`; empty for a wheel that there is not.
    pub fn name(&self, i: usize) -> &str {
        self.layout.wheels.get(i).map_or("", |w| &w.name)
    }

    /// What the file calls wheel `i`; empty for a wheel that there is not.
    pub fn id(&self, i: usize) -> &str {
        self.layout.wheels.get(i).map_or("", |w| &w.id)
    }

    /// Index of the wheel with this id.
    pub fn wheel_index(&self, id: &str) -> Option<usize> {
        self.layout.wheels.iter().position(|w| w.id == id)
    }

    /// The unit in which the file gives the tensioner's travel.
    pub fn travel_unit(&self) -> TravelUnit {
        self.layout.tensioner.kind.travel_unit()
    }

    /// Where the tensioner stands bolted up with its pin in, or turned and locked, in the drive's
    /// units; `None` where the file says nothing.
    pub fn bolted_travel(&self) -> Option<f64> {
        self.layout.tensioner.kind.bolted_travel()
    }

    /// What the tensioner's spring pulls with, pin out: N along a slide, N·mm about a pivot, in the sense
    /// that tightens. `None` for one that is locked by hand: nobody's file knows how tight that one is.
    pub fn tensioner_pull(&self) -> Option<f64> {
        match self.layout.tensioner.kind {
            TensionerKind::Slide { force_n, .. } => Some(force_n),
            TensionerKind::Arm { moment_n_m, .. }
            | TensionerKind::SprungEccentric { moment_n_m, .. } => Some(moment_n_m * 1000.0),
            TensionerKind::Eccentric { .. } => None,
        }
    }

    /// Whether the tensioner is turned and locked by hand, with no spring and no pin.
    pub fn is_locked_by_hand(&self) -> bool {
        matches!(self.layout.tensioner.kind, TensionerKind::Eccentric { .. })
    }
}

impl TensionerKind {
    /// As [`Plan::bolted_travel`].
    pub fn bolted_travel(&self) -> Option<f64> {
        let unit = self.travel_unit();
        match *self {
            Self::Slide { pinned_mm, .. } => Some(unit.inside(pinned_mm)),
            Self::Arm { pinned_deg, .. } => Some(unit.inside(pinned_deg)),
            Self::Eccentric { set_deg, .. } => Some(unit.inside(set_deg)),
            Self::SprungEccentric { set_deg, .. } => set_deg.map(|d| unit.inside(d)),
        }
    }

    /// The unit of its travel.
    pub const fn travel_unit(&self) -> TravelUnit {
        match self {
            Self::Slide { .. } => TravelUnit::Mm,
            Self::Arm { .. } | Self::Eccentric { .. } | Self::SprungEccentric { .. } => {
                TravelUnit::Deg
            }
        }
    }
}

/// The unit of a tensioner's travel in files and on screens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TravelUnit {
    /// On a slide: mm in the drive too.
    Mm,
    /// About a pivot: radians in the drive.
    Deg,
}

impl TravelUnit {
    /// As files write it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Deg => "deg",
        }
    }

    /// From the file's unit to the drive's.
    pub fn inside(self, travel: f64) -> f64 {
        match self {
            Self::Mm => travel,
            Self::Deg => Angle::from_deg(travel).rad(),
        }
    }

    /// From the drive's unit to the file's.
    pub fn outside(self, travel: f64) -> f64 {
        match self {
            Self::Mm => travel,
            Self::Deg => Angle::from_rad(travel).deg(),
        }
    }

    /// A rate per unit of the drive as one per unit of the file.
    pub fn rate_outside(self, rate: f64) -> f64 {
        match self {
            Self::Mm => rate,
            Self::Deg => Angle::from_deg(rate).rad(),
        }
    }
}

/// The layout's values as the drive takes them.
fn parts(layout: &Layout) -> Parts {
    let belt = &layout.belt;
    Parts {
        belt: Belt {
            teeth: belt.teeth,
            pitch_mm: belt.pitch_mm,
            thickness_mm: belt.thickness_mm,
            tooth_height_mm: belt.tooth_height_mm,
            pitch_line_differential_mm: belt.pitch_line_differential_mm,
        },
        crank_turns: match layout.crank_turns {
            CrankTurns::Clockwise => Sense::Clockwise,
            CrankTurns::Anticlockwise => Sense::Anticlockwise,
        },
        wheels: layout.wheels.iter().map(wheel).collect(),
        tensioner: tensioner(&layout.tensioner),
        counted: layout.counts.iter().map(counted).collect(),
    }
}

fn counted(values: &CountValues) -> Counted {
    Counted {
        from: values.from,
        to: values.to,
        teeth: i64::from(values.teeth),
        between: match values.counted_from {
            CountedFrom::Reference => CountedBetween::References,
            CountedFrom::Mark => CountedBetween::Marks,
        },
    }
}

fn wheel(values: &WheelValues) -> Wheel {
    let face = match values.face {
        Face::Toothed => drive::Face::Toothed,
        Face::Back => drive::Face::Back,
    };
    Wheel {
        centre: DVec2::from_array(values.at_mm),
        rim: match values.rim {
            Rim::Toothed { teeth } => drive::Rim::Toothed { teeth },
            Rim::Smooth { outside_diameter_mm } => {
                drive::Rim::Smooth { outside_radius_mm: outside_diameter_mm / 2.0, face }
            }
        },
        mark: values.mark.map(|mark| Mark {
            cover: Angle::from_clock_deg(mark.cover_clock_deg),
            on: match mark.on {
                MarkOn::Groove => drive::MarkOn::Groove,
                MarkOn::Tooth => drive::MarkOn::Tooth,
            },
            radius_mm: mark.radius_mm,
        }),
        friction_n_m: values.friction_n_m.unwrap_or(0.0),
        spring_torque_n_m: values.spring_torque_n_m.unwrap_or(0.0),
        fixing: match (values.fixing, values.slot_deg) {
            (Some(Fixing::Taper), _) => drive::Fixing::Taper,
            (Some(Fixing::Slotted), Some([low, high])) => drive::Fixing::Slotted {
                back: Angle::from_deg(low.min(0.0)),
                forward: Angle::from_deg(high.max(0.0)),
            },
            _ => drive::Fixing::Keyed,
        },
    }
}

fn tensioner(values: &TensionerValues) -> Tensioner {
    let about = |at: [f64; 2], tightening, [low, high]: [f64; 2]| Tensioner {
        wheel: values.wheel,
        carrier: Carrier::Pivot {
            pivot: DVec2::from_array(at),
            tightening: match tightening {
                Tightening::Clockwise => Sense::Clockwise,
                Tightening::Anticlockwise => Sense::Anticlockwise,
            },
        },
        right_back: Angle::from_deg(low).rad(),
        fully_out: Angle::from_deg(high).rad(),
    };
    match values.kind {
        TensionerKind::Slide { tightening_clock_deg, travel_mm: [low, high], .. } => Tensioner {
            wheel: values.wheel,
            carrier: Carrier::Slide { tightening: Angle::from_clock_deg(tightening_clock_deg) },
            right_back: low,
            fully_out: high,
        },
        TensionerKind::Arm { pivot_mm, tightening, travel_deg, .. } => {
            about(pivot_mm, tightening, travel_deg)
        }
        TensionerKind::Eccentric { bolt_mm, tightening, travel_deg, .. }
        | TensionerKind::SprungEccentric { bolt_mm, tightening, travel_deg, .. } => {
            about(bolt_mm, tightening, travel_deg)
        }
    }
}

/// A sprung eccentric's pointer shows its travel: with the belt tight it stands in its window, or the
/// belt, the wheels or the window are not those of one drive.
fn pointer_outside(layout: &Layout, drive: &Drive) -> Option<Problem> {
    let TensionerKind::SprungEccentric { pointer_window_deg: window_deg, .. } =
        layout.tensioner.kind
    else {
        return None;
    };
    let at_deg = TravelUnit::Deg.outside(drive.taut().travel);
    let [low, high] = window_deg;
    if at_deg >= low && at_deg <= high {
        return None;
    }
    let key = "tensioner.pointer_window_deg".to_owned();
    let part = layout.wheels.get(layout.tensioner.wheel).map(|w| w.id.clone());
    let kind = ProblemKind::PointerOutside { at_deg, window_deg };
    Some(Problem { kind, place: layout.place_of(&key), key, part })
}

/// A flaw at the part of the text that it concerns.
fn problem(layout: &Layout, flaw: Flaw) -> Problem {
    let at_wheel = |i: usize| {
        let place = layout.wheels.get(i).map_or(Place::default(), |w| w.at_place);
        (format!("wheel[{i}].at_mm"), place, layout.wheels.get(i).map(|w| w.id.clone()))
    };
    let at_count = |from: usize, to: usize| {
        let counts = &layout.counts;
        let i = counts.iter().position(|c| c.from == from && c.to == to).unwrap_or(0);
        let place = counts.get(i).map_or(Place::default(), |c| c.place);
        (format!("count[{i}]"), place, layout.wheels.get(to).map(|w| w.id.clone()))
    };
    let (key, place, part) = match flaw {
        Flaw::NoTangent { to, .. } => at_wheel(to),
        Flaw::NotTouched { wheel, .. }
        | Flaw::SpanThroughWheel { wheel, .. }
        | Flaw::NoMetal { wheel, .. } => at_wheel(wheel),
        Flaw::Overlap { b, .. } => at_wheel(b),
        Flaw::SpansCross { a, .. } | Flaw::SpansTouch { a, .. } => at_wheel(a),
        Flaw::NotOneLoop { .. } => at_wheel(0),
        Flaw::BeltTooShort { .. } | Flaw::BeltTooLong { .. } => {
            ("belt.teeth".to_owned(), layout.belt.teeth_place, None)
        }
        Flaw::CountNotWhole { from, to } => at_count(from, to),
        Flaw::CountsDoNotSum { .. } | Flaw::CountLeavesNone { .. } => {
            let place = layout.counts.first().map_or(Place::default(), |c| c.place);
            ("count[0]".to_owned(), place, None)
        }
        Flaw::DeadPoint { .. } => {
            let id = layout.wheels.get(layout.tensioner.wheel).map(|w| w.id.clone());
            ("tensioner".to_owned(), layout.tensioner.place, id)
        }
    };
    let kind = ProblemKind::Geometry {
        flaw,
        names: layout.wheels.iter().map(|w| w.name.clone()).collect(),
        pitch_mm: layout.belt.pitch_mm,
        travel_unit: layout.tensioner.kind.travel_unit(),
    };
    Problem { kind, place, key, part }
}
