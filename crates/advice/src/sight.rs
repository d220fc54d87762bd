//! Marks looked at from the side: what they seem to read while the drive stands still.
//!
//! Must not know: words, or what is drawn.

use crate::HALF_A_TOOTH;
use crate::report::marked;
use drive::{Angle, SeemsOff, mark_error_teeth, mark_radius_mm, seems_off, squarer_than};
use job::Job;

/// Gap between a wheel's mark and its cover's where the layout says nothing, mm. An assumption, no source.
pub const USUAL_GAP_MM: f64 = 10.0;
/// The least and greatest that may be met, mm. An assumption, no source.
pub const USUAL_GAPS_MM: [f64; 2] = [2.0, 20.0];
/// How far to either side of square one may be taken to look, degrees.
pub const MOST_ASIDE_DEG: f64 = 45.0;

/// All marks from one side.
#[derive(Clone, Debug, PartialEq)]
pub struct Sight {
    /// How far off square, degrees, positive to the side from which marks seem ahead. Each mark is looked at
    /// from so far to its own side.
    pub aside_deg: f64,
    /// The marked shafts, in belt order.
    pub marks: Vec<SightedMark>,
}

/// A mark from the side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SightedMark {
    /// Index of its wheel.
    pub wheel: usize,
    /// Gap between the marks, mm.
    pub gap_mm: f64,
    /// Whether the layout leaves the gap out, so that it is assumed.
    pub gap_assumed: bool,
    /// How far ahead the mark seems of where it is, mm at its radius.
    pub seems_mm: f64,
    /// The same in the wheel's teeth.
    pub seems_teeth: f64,
    /// The same in its degrees.
    pub seems_deg: f64,
    /// What it seems to read, teeth from the cover's mark, ahead positive.
    pub apparent_teeth: f64,
    /// The same in degrees of the wheel.
    pub apparent_deg: f64,
    /// How far off square one may look and still be sure of half a tooth, degrees.
    pub squarer_than_deg: f64,
}

/// How far ahead the mark of wheel `wheel`, a sprocket, seems of where it is, looked at `aside_deg` off
/// square; what is beyond what one can look from is brought back to it.
pub fn mark_seems(job: &Job, wheel: usize, aside_deg: f64) -> SeemsOff {
    let drive = job.drive();
    let teeth = drive.wheels()[wheel].teeth().unwrap_or(1);
    let (gap_mm, _) = gap(job, wheel);
    let aside = Angle::from_deg(within(aside_deg));
    seems_off(gap_mm, aside, mark_radius_mm(drive, wheel), teeth)
}

fn within(aside_deg: f64) -> f64 {
    let deg = if aside_deg.is_nan() { 0.0 } else { aside_deg };
    deg.clamp(-MOST_ASIDE_DEG, MOST_ASIDE_DEG)
}

/// The gap, mm, and whether it is assumed.
fn gap(job: &Job, wheel: usize) -> (f64, bool) {
    let stated = job.plan().layout.wheels[wheel].mark.and_then(|mark| mark.gap_mm);
    (stated.unwrap_or(USUAL_GAP_MM), stated.is_none())
}

/// The marks of a job as it stands, looked at `aside_deg` off square; what is beyond what one can look from
/// is brought back to it.
pub fn sight(job: &Job, aside_deg: f64) -> Sight {
    let drive = job.drive();
    let aside_deg = within(aside_deg);
    let marks = marked(drive).map(|k| {
        let sprocket = &drive.sprockets()[k];
        let (wheel, teeth) = (sprocket.wheel, sprocket.teeth);
        let (gap_mm, gap_assumed) = gap(job, wheel);
        let radius_mm = mark_radius_mm(drive, wheel);
        let seems = mark_seems(job, wheel, aside_deg);
        let true_teeth = mark_error_teeth(job.cord().turned()[k], teeth, drive.crank_teeth());
        let deg_per_tooth = 360.0 / f64::from(teeth);
        SightedMark {
            wheel,
            gap_mm,
            gap_assumed,
            seems_mm: seems.mm,
            seems_teeth: seems.teeth,
            seems_deg: seems.deg,
            apparent_teeth: true_teeth + seems.teeth,
            apparent_deg: true_teeth * deg_per_tooth + seems.deg,
            squarer_than_deg: squarer_than(gap_mm, radius_mm, teeth, HALF_A_TOOTH).deg(),
        }
    });
    Sight { aside_deg, marks: marks.collect() }
}
