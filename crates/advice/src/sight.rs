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
    /// Whether it reads as on another tooth than it is on.
    pub misread: bool,
    /// How far off square one may look to either side and still read the tooth that it is on, degrees: from
    /// what is left to half a tooth as the mark stands.
    pub squarer_than_deg: f64,
    /// The gap for which that is, mm: the layout's; where it is assumed, the greatest that may be met.
    pub squarer_for_gap_mm: f64,
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
        let squarer_for_gap_mm = if gap_assumed { USUAL_GAPS_MM[1] } else { gap_mm };
        let left_teeth = left_to_half_a_tooth(true_teeth);
        let apparent_teeth = true_teeth + seems.teeth;
        SightedMark {
            wheel,
            gap_mm,
            gap_assumed,
            seems_mm: seems.mm,
            seems_teeth: seems.teeth,
            seems_deg: seems.deg,
            apparent_teeth,
            apparent_deg: true_teeth * deg_per_tooth + seems.deg,
            misread: (apparent_teeth - true_teeth.round()).abs() >= HALF_A_TOOTH,
            squarer_than_deg: squarer_than(squarer_for_gap_mm, radius_mm, teeth, left_teeth).deg(),
            squarer_for_gap_mm,
        }
    });
    Sight { aside_deg, marks: marks.collect() }
}

/// How much more a mark may seem off before it reads as on another tooth.
fn left_to_half_a_tooth(teeth: f64) -> f64 {
    (HALF_A_TOOTH - (teeth - teeth.round()).abs()).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use job::Action;
    use layout::Plan;

    const SHIPPED: &str = include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

    fn turned(text: &str, crank_deg: f64) -> Job {
        let mut job = Job::new(Plan::open(text).unwrap().into());
        job.act(&Action::TurnTo { crank_deg }, false).unwrap();
        job
    }

    /// Looked at from just within the angle told, to either side and over every gap that may be met, a mark
    /// reads as on the tooth that it is on; from just beyond, on one side and over the greatest gap, it does not.
    /// The shift is gap·tan(angle) at the mark's own radius, worked out here anew.
    #[test]
    fn as_square_as_is_told_a_mark_is_read_right() {
        let stated = SHIPPED.replacen("mark = {", "mark = { gap_mm = 4.0,", 1);
        for (text, crank_deg) in
            [(SHIPPED, 0.0), (SHIPPED, 5.0), (SHIPPED, -3.0), (SHIPPED, 7.0), (&stated, 4.0)]
        {
            let job = turned(text, crank_deg);
            for (i, mark) in sight(&job, 0.0).marks.iter().enumerate() {
                let drive = job.drive();
                let teeth = f64::from(drive.wheels()[mark.wheel].teeth().unwrap());
                let tooth_mm = std::f64::consts::TAU * mark_radius_mm(drive, mark.wheel) / teeth;
                let stands = mark.apparent_teeth;
                let gaps = if mark.gap_assumed { USUAL_GAPS_MM } else { [mark.gap_mm; 2] };
                assert_eq!(mark.gap_assumed, !(text == stated && i == 0));
                let reads = |gap_mm: f64, deg: f64| {
                    let shift = gap_mm * libm::tan(deg.to_radians()) / tooth_mm;
                    libm::round(stands + shift)
                };
                let on = libm::round(stands);
                let deg = mark.squarer_than_deg;
                for gap_mm in gaps {
                    for aside in [deg - 0.01, 0.01 - deg] {
                        assert_eq!(reads(gap_mm, aside), on, "{crank_deg} {mark:?}");
                    }
                }
                let beyond = [deg + 0.01, -0.01 - deg].map(|aside| reads(gaps[1], aside));
                assert!(beyond.iter().any(|tooth| *tooth != on), "{crank_deg} {mark:?}");
            }
        }
    }

    #[test]
    fn a_mark_that_seems_on_another_tooth_is_misread() {
        // 5° of 15° stand off already: 10 mm at 20°, a third of a tooth more, are too much.
        let job = turned(SHIPPED, 5.0);
        let crank = |aside| sight(&job, aside).marks[0];
        assert!(crank(20.0).misread && crank(20.0).seems_teeth < HALF_A_TOOTH);
        assert!(!crank(0.0).misread && !crank(-20.0).misread);
    }
}
