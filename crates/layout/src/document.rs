//! A layout as plain values, in the units of the file: checked, so that none of them is wrong by
//! itself and all names lead somewhere.
//!
//! Must not know TOML, nor whether the belt really goes round: that is for the drive to find, and
//! the places kept here are where such a problem points.

use crate::choice::{
    CountedFrom, CrankTurns, Face, Fixing, LockBy, LockOn, MarkOn, MarkUse, PhaserRest, Role,
    SeenAt, Tightening,
};
use crate::engine_values::EngineValues;
use crate::place::{Place, Places};

/// A whole layout. The fasteners are checked in the file but not yet kept here.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// What it is called.
    pub title: String,
    /// What a reader should know of it.
    pub about: Option<String>,
    /// Whether all but some counts is made up; `false` if the file says nothing.
    pub provisional: bool,
    /// Which way the crankshaft turns, seen at the belt end.
    pub crank_turns: CrankTurns,
    /// How far off each wheel's centre may be; `None` where nobody has said.
    pub centres_good_to_mm: Option<f64>,
    /// The timing belt.
    pub belt: BeltValues,
    /// 2 to 64 wheels in the order in which the running belt meets them; the first is the crank.
    pub wheels: Vec<WheelValues>,
    /// What moves the tensioner pulley.
    pub tensioner: TensionerValues,
    /// Teeth that somebody counted.
    pub counts: Vec<CountValues>,
    /// The engine behind the drive, if the file has one.
    pub engine: Option<EngineValues>,
    /// Things to watch out for.
    pub cautions: Vec<CautionValues>,
    pub(crate) places: Places,
}

impl Layout {
    /// The wheel with this id.
    pub fn wheel(&self, id: &str) -> Option<&WheelValues> {
        self.wheels.iter().find(|wheel| wheel.id == id)
    }

    /// Where a key stands in the text: what is behind its equals sign, or the header of a table.
    /// A wheel may be named by number or by id (`wheel[3].teeth`, `wheel.cam_left.teeth`).
    /// A key that is left out has the place of the nearest table around it; the top of the text
    /// if there is none.
    pub fn place_of(&self, key: &str) -> Place {
        let by_number = self.by_number(key);
        let mut path = by_number.as_deref().unwrap_or(key);
        loop {
            if let Some(place) = self.places.get(path) {
                return *place;
            }
            match path.rfind(['.', '[']) {
                Some(end) => path = path.get(..end).unwrap_or_default(),
                None => return Place::default(),
            }
        }
    }

    /// `wheel.cam_left.teeth` as `wheel[3].teeth`.
    fn by_number(&self, key: &str) -> Option<String> {
        let rest = key.strip_prefix("wheel.")?;
        let (id, below) = rest.split_at(rest.find('.').unwrap_or(rest.len()));
        let index = self.wheels.iter().position(|wheel| wheel.id == id)?;
        Some(format!("wheel[{index}]{below}"))
    }
}

/// The timing belt.
#[derive(Clone, Debug, PartialEq)]
pub struct BeltValues {
    /// Teeth all round, 20 to 400.
    pub teeth: u32,
    /// From one tooth to the next along the pitch line.
    pub pitch_mm: f64,
    /// The whole belt, tooth tip to back; more than `tooth_height_mm`.
    pub thickness_mm: f64,
    /// From the land between the teeth to the tip of a tooth.
    pub tooth_height_mm: f64,
    /// From the land up to the pitch line; less than the belt is thick there.
    pub pitch_line_differential_mm: f64,
    /// Width.
    pub width_mm: Option<f64>,
    /// Force over strain.
    pub tensile_stiffness_n: Option<f64>,
    /// Mass of one metre.
    pub mass_kg_per_m: Option<f64>,
    /// Whether an arrow says which way it runs; `false` if the file says nothing.
    pub direction_arrow: bool,
    /// Where `teeth` is.
    pub teeth_place: Place,
}

/// One wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelValues {
    /// Its name in the file, of the form `[a-z][a-z0-9_]*`; no other wheel has it.
    pub id: String,
    /// What people call it; the id if the file says nothing.
    pub name: String,
    /// What it is for.
    pub role: Role,
    /// The belt face that runs on it; always the toothed one for a toothed wheel.
    pub face: Face,
    /// Toothed or smooth, and how large.
    pub rim: Rim,
    /// Its centre, x to the right and y up, seen at the belt end. For the tensioner's wheel this
    /// is where travel is 0.
    pub at_mm: [f64; 2],
    /// Its timing mark; only a toothed wheel has one, and the crank always.
    pub mark: Option<MarkValues>,
    /// Its other marks.
    pub other_marks: Vec<OtherMarkValues>,
    /// What it takes to turn the shaft by hand.
    pub friction_n_m: Option<f64>,
    /// How it sits on its shaft.
    pub fixing: Option<Fixing>,
    /// `[low, high]`: how far the slots let it turn on its shaft, forward positive; exactly where
    /// `fixing` is slotted.
    pub slot_deg: Option<[f64; 2]>,
    /// What holds the shaft in its timed position.
    pub lock: Option<LockValues>,
    /// After how many crank turns the shaft geared behind it stands the same again.
    pub repeats_every_crank_turns: Option<u32>,
    /// How to tell which of its positions that shaft is in.
    pub position_check: Option<String>,
    /// What turns the shaft in its wheel.
    pub phaser: Option<PhaserValues>,
    /// Torque of the valve springs at its mark, forward positive.
    pub spring_torque_n_m: Option<f64>,
    /// Where the wheel's table is.
    pub place: Place,
    /// Where `at_mm` is.
    pub at_place: Place,
}

impl WheelValues {
    /// Its teeth; `None` for a smooth one.
    pub const fn teeth(&self) -> Option<u32> {
        match self.rim {
            Rim::Toothed { teeth } => Some(teeth),
            Rim::Smooth { .. } => None,
        }
    }
}

/// The rim of a wheel, on which the belt runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rim {
    /// Toothed.
    Toothed {
        /// Its teeth, 6 to 200.
        teeth: u32,
    },
    /// Smooth.
    Smooth {
        /// Its diameter where the belt runs.
        outside_diameter_mm: f64,
    },
}

/// A wheel's timing mark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkValues {
    /// Where the fixed mark is: 0 at twelve o'clock, clockwise, seen at the belt end.
    pub cover_clock_deg: f64,
    /// What of the wheel the mark is made on.
    pub on: MarkOn,
    /// How far from the wheel's centre.
    pub radius_mm: Option<f64>,
    /// Gap between it and the fixed mark, along the line of sight.
    pub gap_mm: Option<f64>,
    /// Where it is looked at.
    pub seen_at: Option<SeenAt>,
}

/// A mark that is not the timing mark.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherMarkValues {
    /// Where on the wheel, clockwise from the timing mark.
    pub wheel_clock_deg: f64,
    /// What it looks like.
    pub label: String,
    /// What it is for.
    pub mark_use: MarkUse,
}

/// What holds a shaft in its timed position.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LockValues {
    /// With what.
    pub by: LockBy,
    /// On what.
    pub on: LockOn,
}

/// What turns a shaft in its wheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhaserValues {
    /// Where it stands at rest.
    pub rest: PhaserRest,
    /// `[low, high]` in degrees of the camshaft, early positive.
    pub range_cam_deg: [f64; 2],
    /// Whether a pin holds it at rest.
    pub locks: bool,
}

/// What moves the tensioner pulley.
#[derive(Clone, Debug, PartialEq)]
pub struct TensionerValues {
    /// Index into [`Layout::wheels`] of the wheel that it moves; its role is `tensioner`.
    pub wheel: usize,
    /// How it moves.
    pub kind: TensionerKind,
    /// Where its table is.
    pub place: Place,
}

/// How a tensioner moves. Travel is `[right back, fully out]`, low below high, 0 at the wheel's
/// `at_mm`, positive tightening; settings lie within it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TensionerKind {
    /// Along a straight line, pushed by a spring.
    Slide {
        /// The direction that tightens: 0 at twelve o'clock, clockwise, seen at the belt end.
        tightening_clock_deg: f64,
        /// Its travel.
        travel_mm: [f64; 2],
        /// Where it stands bolted up with the pin in.
        pinned_mm: f64,
        /// Force along the travel, pin out.
        force_n: f64,
    },
    /// On an arm about a pivot, turned by a spring.
    Arm {
        /// Where the arm turns.
        pivot_mm: [f64; 2],
        /// Which way tightens.
        tightening: Tightening,
        /// Its travel.
        travel_deg: [f64; 2],
        /// Where it stands bolted up with the pin in.
        pinned_deg: f64,
        /// Moment of the spring, pin out.
        moment_n_m: f64,
    },
    /// On an eccentric, turned by hand and locked.
    Eccentric {
        /// The bolt about which it turns.
        bolt_mm: [f64; 2],
        /// Which way tightens.
        tightening: Tightening,
        /// Its travel.
        travel_deg: [f64; 2],
        /// How far it is turned before it is locked.
        set_deg: f64,
    },
    /// On an eccentric with a spring and a pointer.
    SprungEccentric {
        /// The bolt about which it turns.
        bolt_mm: [f64; 2],
        /// Which way tightens.
        tightening: Tightening,
        /// Its travel.
        travel_deg: [f64; 2],
        /// How far it is turned before it is locked, where the file says so.
        set_deg: Option<f64>,
        /// Moment of the spring.
        moment_n_m: f64,
        /// `[low, high]` between which its pointer must stand.
        pointer_window_deg: [f64; 2],
    },
}

/// Teeth that somebody counted on the belt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CountValues {
    /// Index into [`Layout::wheels`] of the marked wheel from which was counted.
    pub from: usize,
    /// Index of the marked wheel up to which was counted, along the running of the belt.
    pub to: usize,
    /// How many; fewer than the belt has.
    pub teeth: u32,
    /// Between what.
    pub counted_from: CountedFrom,
    /// Where its table is.
    pub place: Place,
}

/// Something to watch out for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CautionValues {
    /// What.
    pub text: String,
}

#[cfg(test)]
mod tests {
    use crate::sample::SLIDE;

    #[test]
    fn keys_have_places_by_number_and_by_id() {
        let layout = crate::read(SLIDE).unwrap();
        let at = |key| {
            let place = layout.place_of(key);
            &SLIDE[place.from_byte..place.to_byte]
        };
        assert_eq!(at("belt.teeth"), "167");
        assert_eq!(at("wheel[1].teeth"), "48");
        assert_eq!(at("wheel.cam_left.teeth"), "48");
        assert_eq!(at("wheel.cam_left.at_mm"), "[-180.5, 310]");
        assert_eq!(at("wheel.cam_left"), "[[wheel]]");
        assert_eq!(at("tensioner"), "[tensioner]");
        assert_eq!(at("belt.no_such_key"), "[belt]");
        assert_eq!(at("wheel.cam_left.mark.no_such_key"), at("wheel.cam_left.mark"));
        assert_eq!(at("no_such_key"), "");
        assert_eq!(layout.wheels[1].at_place, layout.place_of("wheel.cam_left.at_mm"));
        assert_eq!(layout.counts[0].place, layout.place_of("count[0]"));
    }
}
