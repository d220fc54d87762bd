//! A whole drive, put together and found sound: values that cannot be wrong.
//!
//! Must not know: files, names, or where any shaft stands (`cord` holds that).

use crate::belt::Belt;
use crate::count::{Counted, teeth_in_time};
use crate::fit::{Moving, Taut};
use crate::flaw::Flaw;
use crate::geometry::Disc;
use crate::hang::HangingPlace;
use crate::mesh::{Reference, Stance};
use crate::path::Path;
use crate::sound::{Scene, flaws};
use crate::tensioner::Tensioner;
use crate::wheel::{Fixing, Sense, Wheel};
use alloc::vec::Vec;

/// What a drive is made of, not yet checked. The crank's sprocket comes first; the wheels follow in
/// the order in which the running belt meets them.
#[derive(Clone, Debug, PartialEq)]
pub struct Parts {
    /// The belt.
    pub belt: Belt,
    /// Which way the crank turns when the engine runs, seen at the belt end.
    pub crank_turns: Sense,
    /// The wheels; the first is a sprocket.
    pub wheels: Vec<Wheel>,
    /// The tensioner.
    pub tensioner: Tensioner,
    /// Teeth that somebody counted; they settle what the geometry leaves open.
    pub counted: Vec<Counted>,
}

/// A sound drive with its belt tight.
#[derive(Clone, Debug)]
pub struct Drive {
    parts: Parts,
    taut: Taut,
    stance: Stance,
    sprockets: Vec<Reference>,
    teeth_in_time: Vec<i64>,
    best_tooth_deg: Vec<f64>,
    hanging: Vec<HangingPlace>,
    slack_when_back_mm: f64,
}

impl Drive {
    /// Puts a drive together: finds where its tensioner stands with the belt tight, checks that the
    /// belt can run so, and counts the teeth of each run.
    ///
    /// # Errors
    /// Every flaw found. With the belt never tight, those of the drive as it is drawn, and why.
    ///
    /// # Panics
    /// Never, given a first wheel with teeth and a tensioner index within the wheels; a drive without
    /// them gives [`Flaw::NotOneLoop`].
    pub fn new(parts: Parts) -> Result<Self, Vec<Flaw>> {
        let Some(home) = parts.wheels.get(parts.tensioner.wheel).map(|w| w.centre) else {
            return Err(Vec::from([Flaw::NotOneLoop { turns: 0 }]));
        };
        if parts.wheels.len() < 2 || parts.wheels[0].teeth().is_none() {
            return Err(Vec::from([Flaw::NotOneLoop { turns: 0 }]));
        }
        let discs: Vec<Disc> =
            parts.wheels.iter().map(|w| w.disc(&parts.belt, parts.crank_turns)).collect();
        let outside_mm: Vec<f64> =
            parts.wheels.iter().map(|w| w.outside_radius_mm(&parts.belt)).collect();
        let sense = parts.crank_turns.sign();
        let mut moving = Moving {
            belt: &parts.belt,
            tensioner: &parts.tensioner,
            home,
            discs,
            path: Path::default(),
        };
        let taut = moving.taut(&outside_mm, sense);
        let stand = taut.map_or(0.0, |t| t.travel);
        let found = match moving.stand_at(stand) {
            Err(e) => Vec::from([Flaw::NoTangent { from: e.from, to: e.to }]),
            Ok(_) => flaws(&Scene {
                belt: &parts.belt,
                discs: &moving.discs,
                outside_mm: &outside_mm,
                path: &moving.path,
                sense,
            }),
        };
        let taut = match taut {
            Ok(taut) if found.is_empty() => taut,
            Ok(_) => return Err(found),
            Err(why) => {
                let mut all = found;
                if !all.iter().any(|flaw| flaw.same_part(&why)) {
                    all.push(why);
                }
                return Err(all);
            }
        };
        let mut stance = Stance { travel: taut.travel, ..Stance::default() };
        stance.discs = moving.discs;
        stance.path = moving.path;
        let sprockets: Vec<Reference> = (0..parts.wheels.len())
            .filter_map(|i| parts.wheels[i].teeth().map(|z| (i, z)))
            .map(|(i, z)| Reference::find(&parts.wheels, &stance.discs, &stance.path, i, z))
            .collect();
        stance.measure(&sprockets);
        let teeth_in_time = teeth_in_time(&parts.belt, &sprockets, &stance.run_mm, &parts.counted)
            .map_err(|flaw| Vec::from([flaw]))?;
        let best_tooth_deg = best_tooth_deg(&parts.belt, &sprockets, &stance, &teeth_in_time);
        let mut drive = Self {
            teeth_in_time,
            best_tooth_deg,
            parts,
            taut,
            stance,
            sprockets,
            hanging: Vec::new(),
            slack_when_back_mm: 0.0,
        };
        drive.slack_when_back_mm = drive.belt().pitch_length_mm()
            - drive.stance_at(drive.parts.tensioner.right_back).path.length_mm;
        drive.hanging = HangingPlace::find_all(&drive);
        Ok(drive)
    }

    /// The belt.
    pub fn belt(&self) -> &Belt {
        &self.parts.belt
    }

    /// All wheels in belt order, the crank's sprocket first.
    pub fn wheels(&self) -> &[Wheel] {
        &self.parts.wheels
    }

    /// Teeth that somebody counted.
    pub fn counted(&self) -> &[Counted] {
        &self.parts.counted
    }

    /// Which way the crank turns, seen at the belt end.
    pub fn crank_turns(&self) -> Sense {
        self.parts.crank_turns
    }

    /// The tensioner.
    pub fn tensioner(&self) -> &Tensioner {
        &self.parts.tensioner
    }

    /// Where the tensioner stands with the belt tight and unstretched.
    pub fn taut(&self) -> Taut {
        self.taut
    }

    /// The geometry with the belt tight.
    pub fn taut_stance(&self) -> &Stance {
        &self.stance
    }

    /// The sprockets in belt order, the crank's first. Run j leads from sprocket j to the next, and
    /// the last run leads into the crank.
    pub fn sprockets(&self) -> &[Reference] {
        &self.sprockets
    }

    /// Index of sprocket `j`'s successor along the belt.
    pub fn next(&self, j: usize) -> usize {
        if j + 1 == self.sprockets.len() { 0 } else { j + 1 }
    }

    /// Index of sprocket `j`'s predecessor along the belt; also that of the run into it.
    pub fn previous(&self, j: usize) -> usize {
        if j == 0 { self.sprockets.len() - 1 } else { j - 1 }
    }

    /// Which sprocket wheel `i` is.
    pub fn sprocket_of(&self, wheel: usize) -> Option<usize> {
        self.sprockets.iter().position(|s| s.wheel == wheel)
    }

    /// Whether sprocket `k` is to be timed; the crank always is.
    pub fn is_marked(&self, k: usize) -> bool {
        k == 0 || self.parts.wheels[self.sprockets[k].wheel].mark.is_some()
    }

    /// How far sprocket `k` floats on its shaft, back and forward, while its bolt is slack: crank
    /// degrees of belt travel, the first 0 or less, the second 0 or more; infinite on a taper.
    pub fn play_deg(&self, k: usize) -> (f64, f64) {
        let sprocket = &self.sprockets[k];
        let at_crank = f64::from(sprocket.teeth) / f64::from(self.crank_teeth());
        match self.parts.wheels[sprocket.wheel].fixing {
            Fixing::Keyed => (0.0, 0.0),
            Fixing::Slotted { back, forward } => (back.deg() * at_crank, forward.deg() * at_crank),
            Fixing::Taper => (f64::NEG_INFINITY, f64::INFINITY),
        }
    }

    /// Whole teeth in each run with every mark in time; they sum to the belt.
    pub fn teeth_in_time(&self) -> &[i64] {
        &self.teeth_in_time
    }

    /// What its best tooth leaves of each sprocket's mark with the crank on its own, crank degrees,
    /// ahead positive: the geometry is never a whole number of pitches. For a sprocket without a mark,
    /// how far it stands from where its middle groove was taken to be.
    pub fn best_tooth_deg(&self) -> &[f64] {
        &self.best_tooth_deg
    }

    /// Grooves of the crank's sprocket.
    pub fn crank_teeth(&self) -> u32 {
        self.sprockets[0].teeth
    }

    /// Turns of wheel `i` for one of the crank: positive in the crank's own sense, negative against it. A
    /// smooth wheel is turned without slip at belt speed over its *pitch line's* radius.
    pub fn turns_per_crank_turn(&self, i: usize) -> f64 {
        let (wheel, belt) = (&self.parts.wheels[i], self.belt());
        let crank = self.crank_teeth();
        let ratio = match wheel.teeth() {
            Some(z) => f64::from(crank) / f64::from(z),
            None => belt.sprocket_pitch_radius_mm(crank) / wheel.pitch_radius_mm(belt),
        };
        if wheel.sense(self.crank_turns()) == self.crank_turns() { ratio } else { -ratio }
    }

    /// Wrap of wheel `i` with the belt tight, in belt pitches: for a sprocket its teeth in mesh.
    pub fn teeth_in_mesh(&self, i: usize) -> f64 {
        self.stance.path.wraps_rad[i] * self.stance.discs[i].radius / self.parts.belt.pitch_mm
    }

    /// Crank degrees in which the belt moves by one tooth: the same at every sprocket.
    pub fn crank_deg_per_tooth(&self) -> f64 {
        360.0 / f64::from(self.crank_teeth())
    }

    /// Belt travel in one crank degree, mm.
    pub fn mm_per_crank_deg(&self) -> f64 {
        f64::from(self.crank_teeth()) * self.parts.belt.pitch_mm / 360.0
    }

    /// Where slack hangs in each run.
    pub fn hanging(&self) -> &[HangingPlace] {
        &self.hanging
    }

    /// Slack in the whole belt with the tensioner right back, mm.
    pub fn slack_when_back_mm(&self) -> f64 {
        self.slack_when_back_mm
    }

    /// The geometry with the tensioner at `travel`, brought into its travel and never beyond tight.
    pub fn stance_at(&self, travel: f64) -> Stance {
        let t = &self.parts.tensioner;
        let travel = if travel.is_nan() { self.taut.travel } else { travel };
        let travel = travel.clamp(t.right_back, self.taut.travel.max(t.right_back));
        let mut stance = Stance { travel, discs: self.stance.discs.clone(), ..Stance::default() };
        stance.discs[t.wheel].centre = t.centre(self.parts.wheels[t.wheel].centre, travel);
        if stance.path.trace(&stance.discs).is_err() {
            // Between right back and tight every tangent exists, since the search went that way.
            return self.stance.clone();
        }
        stance.measure(&self.sprockets);
        stance
    }
}

/// Counted from the crank, whole teeth less path, in crank degrees.
fn best_tooth_deg(
    belt: &Belt,
    sprockets: &[Reference],
    stance: &Stance,
    teeth_in_time: &[i64],
) -> Vec<f64> {
    let per_tooth = 360.0 / f64::from(sprockets.first().map_or(1, |crank| crank.teeth));
    let mut ahead = 0.0;
    let runs = teeth_in_time.iter().zip(&stance.run_mm);
    runs.map(|(teeth, run)| {
        let here = ahead;
        ahead += (*teeth as f64 - run / belt.pitch_mm) * per_tooth;
        here
    })
    .collect()
}
