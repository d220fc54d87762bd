//! Teeth in grooves: each sprocket's reference groove, and the path from one to the next.
//!
//! Must not know: slack, or where any shaft stands just now.

use crate::geometry::Disc;
use crate::path::Path;
use crate::units::wrap_rad;
use crate::wheel::{MarkOn, Wheel};
use alloc::vec::Vec;
use core::f64::consts::TAU;

/// Two grooves count as equally near the middle of the wrap within this part of a pitch.
const EQUALLY_NEAR: f64 = 1e-9;

/// A sprocket's *reference groove*: the one nearest the middle of its wrap when all marks are in
/// time. A person can count from there; from a mark that hangs in the air, away from the belt, they
/// cannot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reference {
    /// Index of the sprocket among the drive's wheels.
    pub wheel: usize,
    /// Its grooves.
    pub teeth: u32,
    /// Direction of the reference groove from the centre with the mark in time, rad, anticlockwise
    /// from +x. Without a mark any groove will do: the middle of the wrap.
    pub at_rad: f64,
    /// How far the reference groove is past the mark, forward positive, in this sprocket's teeth: a
    /// whole number where the mark is on a groove, a half more where it is on a tooth. `None`
    /// without a mark.
    pub past_mark_teeth: Option<f64>,
}

impl Reference {
    /// The reference groove of sprocket `wheel`; `teeth` are its grooves.
    ///
    /// Of two grooves equally near the middle, the one further along the belt's travel.
    pub fn find(wheels: &[Wheel], discs: &[Disc], path: &Path, wheel: usize, teeth: u32) -> Self {
        let middle = path.wrap_middle(discs, wheel);
        let Some(mark) = wheels[wheel].mark else {
            return Self { wheel, teeth, at_rad: middle.rad(), past_mark_teeth: None };
        };
        let z = f64::from(teeth);
        let sense = discs[wheel].sense;
        // The mark, then a groove, in teeth past the middle of the wrap.
        let mark_past = wrap_rad(sense * (mark.cover.rad() - middle.rad())) * z / TAU;
        let groove = match mark.on {
            MarkOn::Groove => mark_past,
            MarkOn::Tooth => mark_past + 0.5,
        };
        let nearest = groove - libm::ceil(groove - 0.5 - EQUALLY_NEAR);
        Self {
            wheel,
            teeth,
            at_rad: middle.rad() + sense * nearest * TAU / z,
            past_mark_teeth: Some(libm::round(2.0 * (nearest - mark_past)) / 2.0),
        }
    }
}

/// The drive's geometry with the tensioner at one place.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Stance {
    /// The tensioner's travel, mm or radians.
    pub travel: f64,
    /// The circles that the pitch line bends round.
    pub discs: Vec<Disc>,
    /// The path round them.
    pub path: Path,
    /// For each sprocket in belt order, the arc from where the belt meets it to its reference groove
    /// with the mark in time, mm.
    pub before_mm: Vec<f64>,
    /// For each sprocket, the arc from that groove to where the belt leaves, mm.
    pub after_mm: Vec<f64>,
    /// For each run, the path from reference groove to reference groove, mm.
    pub run_mm: Vec<f64>,
}

impl Stance {
    /// Measures the runs along a path already traced.
    pub fn measure(&mut self, references: &[Reference]) {
        self.before_mm.clear();
        self.after_mm.clear();
        self.run_mm.clear();
        for r in references {
            let disc = &self.discs[r.wheel];
            let half = self.path.wraps_rad[r.wheel] / 2.0;
            let middle = self.path.wrap_middle(&self.discs, r.wheel);
            let past = wrap_rad(disc.sense * (r.at_rad - middle.rad()));
            self.before_mm.push(disc.radius * (half + past));
            self.after_mm.push(disc.radius * (half - past));
        }
        let n = self.discs.len();
        for (j, r) in references.iter().enumerate() {
            let k = if j + 1 == references.len() { 0 } else { j + 1 };
            let end = references[k].wheel;
            let mut along = self.after_mm[j] + self.path.spans[r.wheel].length;
            let mut at = (r.wheel + 1) % n;
            while at != end {
                along += self.discs[at].radius * self.path.wraps_rad[at];
                along += self.path.spans[at].length;
                at = (at + 1) % n;
            }
            self.run_mm.push(along + self.before_mm[k]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Angle;
    use crate::wheel::{Fixing, Mark, Rim};
    use glam::DVec2;

    /// A sprocket of 20 on an open two-wheel belt, wrapped from 270° over 180° to 90°: middle at 180°.
    fn reference(clock_deg: f64, on: MarkOn) -> Reference {
        let wheel = |x: f64, mark| Wheel {
            centre: DVec2::new(x, 0.0),
            rim: Rim::Toothed { teeth: 20 },
            mark,
            friction_n_m: 0.0,
            spring_torque_n_m: 0.0,
            fixing: Fixing::Keyed,
        };
        let mark = Some(Mark { cover: Angle::from_clock_deg(clock_deg), on, radius_mm: None });
        let wheels = [wheel(0.0, mark), wheel(100.0, None)];
        let discs =
            [0.0, 100.0].map(|x| Disc { centre: DVec2::new(x, 0.0), radius: 20.0, sense: -1.0 });
        let path = Path::round(&discs).unwrap();
        Reference::find(&wheels, &discs, &path, 0, 20)
    }

    fn clock(r: &Reference) -> f64 {
        Angle::from_rad(r.at_rad).clock_deg()
    }

    #[test]
    fn the_groove_nearest_the_middle_of_the_wrap() {
        // 18° a tooth; the wrap's middle is at nine o'clock.
        let r = reference(270.0, MarkOn::Groove);
        assert!((clock(&r) - 270.0).abs() < 1e-9 && r.past_mark_teeth == Some(0.0));
        // Mark at twelve: five teeth forward (clockwise) from nine o'clock.
        let r = reference(0.0, MarkOn::Groove);
        assert!((clock(&r) - 270.0).abs() < 1e-9 && r.past_mark_teeth == Some(-5.0));
    }

    #[test]
    fn of_two_grooves_equally_near_the_one_further_along() {
        let r = reference(270.0, MarkOn::Tooth);
        assert!((clock(&r) - 279.0).abs() < 1e-9, "{}", clock(&r));
        assert_eq!(r.past_mark_teeth, Some(0.5));
        let r = reference(270.0 - 9.0, MarkOn::Groove);
        assert!((clock(&r) - 279.0).abs() < 1e-9, "{}", clock(&r));
        assert_eq!(r.past_mark_teeth, Some(1.0));
    }
}
