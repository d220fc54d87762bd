//! The drive as it stands at one moment: every wheel's turn, the belt's pieces, every belt tooth.
//!
//! Must not know: how it came to stand so, or how it is drawn.

use crate::cord::Cord;
use crate::drive::Drive;
use crate::geometry::touch;
use crate::hang::{Arc, Hang, at_on};
use crate::marks::mark_error_teeth;
use crate::mesh::Stance;
use crate::turned::Turned;
use crate::units::Angle;
use alloc::vec::Vec;
use core::f64::consts::TAU;
use glam::DVec2;

/// One piece of the belt's pitch line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// On a wheel, or part of a hanging curve.
    Arc(Arc),
    /// A straight run.
    Line {
        /// Start, mm.
        from: DVec2,
        /// End, mm.
        to: DVec2,
    },
}

/// One tooth of the belt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeltTooth {
    /// Its middle on the pitch line, mm.
    pub at: DVec2,
    /// The belt's direction of travel there, a unit vector.
    pub direction: DVec2,
    /// Index of the sprocket's wheel in whose groove it sits.
    pub seat: Option<usize>,
}

/// A drive at one moment. With the belt off it has no slack, pieces or belt teeth. The buffers are kept
/// from one moment to the next.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pose {
    /// How far the belt has carried each wheel, in wheel order.
    pub turned: Vec<Turned>,
    /// Slack in each run, mm.
    pub slack_mm: Vec<f64>,
    /// The pitch line, all round, starting where the belt meets the crank.
    pub pieces: Vec<Piece>,
    /// For each piece, the run it belongs to, or `None` on a sprocket.
    pub piece_run: Vec<Option<usize>>,
    /// Every belt tooth. Tooth 0 sits in the crank's reference groove when the crank is on its mark
    /// for the first time, tooth 1 is the next along the travel; a tooth keeps its number for good.
    pub teeth: Vec<BeltTooth>,
}

impl Pose {
    /// The pose of a drive with the tensioner as in `stance` and shafts as in `cord`.
    pub fn of(drive: &Drive, stance: &Stance, cord: &Cord) -> Self {
        let mut pose = Self::default();
        pose.take(drive, stance, cord);
        pose
    }

    /// As [`Pose::of`], into this pose's own buffers.
    pub fn take(&mut self, drive: &Drive, stance: &Stance, cord: &Cord) {
        self.pieces.clear();
        self.piece_run.clear();
        self.turned.clear();
        self.turned.resize(drive.wheels().len(), Turned::default());
        self.slack_mm.clear();
        let belt_teeth = drive.belt().teeth as usize;
        self.teeth.clear();
        let nowhere = BeltTooth { at: DVec2::ZERO, direction: DVec2::X, seat: None };
        self.teeth.resize(belt_teeth, nowhere);
        let mut walk = Walk::start(drive, stance, cord, &mut self.teeth);
        let n = stance.discs.len();
        for (j, sprocket) in drive.sprockets().iter().enumerate() {
            let slack = cord.slack_mm(drive, stance, j);
            self.slack_mm.push(slack);
            let (here, there) = (cord.turned()[j], cord.turned()[drive.next(j)]);
            self.turned[sprocket.wheel] = here;
            walk.enter_sprocket(j);
            self.pieces.push(walk.wrap(sprocket.wheel, true));
            self.piece_run.push(None);
            let place = drive.hanging()[j];
            let end = drive.sprockets()[drive.next(j)].wheel;
            let (mut at, mut carried_by) = (sprocket.wheel, here);
            loop {
                if at == place.span {
                    // Smooth wheels before the hanging span move with the sprocket behind, those
                    // after it with the sprocket ahead.
                    carried_by = there;
                    walk.hanging(at, slack, place.bow, &mut self.pieces);
                } else {
                    self.pieces.push(walk.span(at));
                }
                at = (at + 1) % n;
                if at == end {
                    break;
                }
                self.piece_run.resize(self.pieces.len(), Some(j));
                self.turned[at] = carried_by;
                self.pieces.push(walk.wrap(at, false));
            }
            self.piece_run.resize(self.pieces.len(), Some(j));
        }
        if !cord.is_on() {
            self.pieces.clear();
            self.piece_run.clear();
            self.slack_mm.clear();
            self.teeth.clear();
        }
    }

    /// How far wheel `i` is turned forward, degrees at the wheel, over all its turns.
    pub fn turned_deg(&self, drive: &Drive, i: usize) -> f64 {
        let turned = self.turned[i];
        let crank = f64::from(drive.crank_teeth());
        match drive.wheels()[i].teeth() {
            Some(z) => {
                let z = f64::from(z);
                turned.turns as f64 * (crank / z) * 360.0 + turned.deg * crank / z
            }
            None => turned.total_deg() * smooth_ratio(drive, i),
        }
    }

    /// Direction by which wheel `i` is turned from how the layout draws it, anticlockwise positive,
    /// within one turn. Whole turns of a sprocket are taken away in whole numbers.
    pub fn rotation(&self, drive: &Drive, i: usize) -> Angle {
        let turned = self.turned[i];
        let crank = drive.crank_teeth();
        let turns = match drive.wheels()[i].teeth() {
            Some(z) => {
                let whole =
                    (i128::from(turned.turns) * i128::from(crank)).rem_euclid(i128::from(z));
                (whole as f64 + turned.deg * f64::from(crank) / 360.0) / f64::from(z)
            }
            None => turned.total_deg() * smooth_ratio(drive, i) / 360.0,
        };
        let part = turns - libm::floor(turns);
        let sense = drive.wheels()[i].sense(drive.crank_turns()).sign();
        Angle::from_rad(sense * part * TAU)
    }

    /// How far the mark of wheel `i` is from its cover mark, in its own teeth, ahead positive. `None`
    /// without a mark.
    pub fn mark_error_teeth(&self, drive: &Drive, i: usize) -> Option<f64> {
        let wheel = &drive.wheels()[i];
        let z = wheel.teeth()?;
        wheel.mark.map(|_| mark_error_teeth(self.turned[i], z, drive.crank_teeth()))
    }
}

/// Turns of a smooth wheel a turn of the crank.
fn smooth_ratio(drive: &Drive, i: usize) -> f64 {
    let belt = drive.belt();
    belt.sprocket_pitch_radius_mm(drive.crank_teeth()) / drive.wheels()[i].pitch_radius_mm(belt)
}

/// Follows the belt round and lays its teeth down, one pitch apart along it.
///
/// `here` is the place along the belt, mm, where the piece in hand starts; tooth i lies at i·p. At
/// each sprocket it is set anew from that sprocket, so that a tooth in a groove is where the groove
/// is, not where the path before it ended.
struct Walk<'a> {
    drive: &'a Drive,
    stance: &'a Stance,
    cord: &'a Cord,
    teeth: &'a mut [BeltTooth],
    here: f64,
    sprocket_tooth: i64,
    next_tooth: i64,
    last_tooth: i64,
    shift: i64,
}

impl<'a> Walk<'a> {
    fn start(
        drive: &'a Drive,
        stance: &'a Stance,
        cord: &'a Cord,
        teeth: &'a mut [BeltTooth],
    ) -> Self {
        let count = teeth.len() as i64;
        let turns = i128::from(cord.turned()[0].turns) * i128::from(drive.crank_teeth());
        let shift = turns.rem_euclid(i128::from(count.max(1))) as i64;
        let mut walk = Self {
            drive,
            stance,
            cord,
            teeth,
            here: 0.0,
            sprocket_tooth: 0,
            next_tooth: 0,
            last_tooth: 0,
            shift,
        };
        walk.here = walk.meets_at(0);
        // A tooth that stands at the very start but for rounding is the first, not the last.
        walk.next_tooth = libm::ceil(walk.here / drive.belt().pitch_mm - 1e-9) as i64;
        walk.last_tooth = walk.next_tooth + count;
        walk
    }

    /// Place along the belt where it meets sprocket `j`, by that sprocket's own turn.
    fn meets_at(&self, j: usize) -> f64 {
        let base = Turned { turns: self.cord.turned()[0].turns, deg: 0.0 };
        let carried = self.cord.turned()[j].since(base) * self.drive.mm_per_crank_deg();
        self.sprocket_tooth as f64 * self.drive.belt().pitch_mm - carried - self.stance.before_mm[j]
    }

    fn enter_sprocket(&mut self, j: usize) {
        self.here = self.meets_at(j);
        self.sprocket_tooth += self.cord.teeth(self.drive, j);
    }

    fn wrap(&mut self, wheel: usize, sprocket: bool) -> Piece {
        let disc = &self.stance.discs[wheel];
        let arc = Arc {
            centre: disc.centre,
            radius: disc.radius,
            from_rad: Angle::of(touch(self.stance.path.arriving(wheel).direction, disc.sense))
                .rad(),
            sweep_rad: disc.sense * self.stance.path.wraps_rad[wheel],
        };
        let per_mm = disc.sense / disc.radius;
        self.lay(arc.length(), sprocket.then_some(wheel), |along| arc.at(along * per_mm));
        Piece::Arc(arc)
    }

    fn span(&mut self, wheel: usize) -> Piece {
        let span = self.stance.path.spans[wheel];
        self.lay(span.length, None, |along| (span.leaves + span.direction * along, span.direction));
        Piece::Line { from: span.leaves, to: span.meets }
    }

    fn hanging(&mut self, wheel: usize, slack_mm: f64, bow: f64, pieces: &mut Vec<Piece>) {
        let hang = Hang::new(&self.stance.path.spans[wheel], slack_mm, bow);
        match hang.arcs() {
            None => pieces.push(self.span(wheel)),
            Some(arcs) => {
                self.lay(hang.length_mm, None, |along| at_on(&arcs, along));
                pieces.extend(arcs.map(Piece::Arc));
            }
        }
    }

    /// Lays the teeth that fall on the next `length` mm.
    fn lay(&mut self, length: f64, seat: Option<usize>, at: impl Fn(f64) -> (DVec2, DVec2)) {
        let pitch = self.drive.belt().pitch_mm;
        let end = self.here + length;
        while self.next_tooth < self.last_tooth {
            let place = self.next_tooth as f64 * pitch;
            if place >= end {
                break;
            }
            self.put(seat, at(place - self.here));
        }
        self.here = end;
    }

    fn put(&mut self, seat: Option<usize>, (at, direction): (DVec2, DVec2)) {
        let count = self.teeth.len() as i64;
        let number = (self.next_tooth - self.shift).rem_euclid(count) as usize;
        self.teeth[number] = BeltTooth { at, direction, seat };
        self.next_tooth += 1;
    }
}
