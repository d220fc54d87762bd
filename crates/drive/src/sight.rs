//! A mark looked at from the side: how far off it seems.
//!
//! Must not know: where any mark stands.
//!
//! The wheel's mark and the cover's lie a gap apart along the line of sight. An eye off to one side by an
//! angle v past square sees the one displaced against the other by g·tan v. What that is in teeth and
//! degrees is decided at the mark's own radius, where it is read.

use crate::drive::Drive;
use crate::units::Angle;
use core::f64::consts::TAU;

/// How far off a mark seems, positive as it seems ahead.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct SeemsOff {
    /// At the mark, mm.
    pub mm: f64,
    /// In the wheel's teeth, at the mark's radius.
    pub teeth: f64,
    /// In the wheel's degrees.
    pub deg: f64,
}

/// How far apart the marks seem, mm: g·tan v. `aside` is how far off square the eye is, less than a quarter
/// turn either way, positive to the side from which the mark seems ahead.
pub fn sight_shift_mm(gap_mm: f64, aside: Angle) -> f64 {
    gap_mm * libm::tan(aside.rad())
}

/// How far off a mark of a wheel with `teeth` grooves seems, made at `radius_mm` from its centre, above 0.
pub fn seems_off(gap_mm: f64, aside: Angle, radius_mm: f64, teeth: u32) -> SeemsOff {
    let mm = sight_shift_mm(gap_mm, aside);
    let rad = mm / radius_mm;
    SeemsOff { mm, teeth: rad * f64::from(teeth) / TAU, deg: Angle::from_rad(rad).deg() }
}

/// How far off square one may look and still not misread by `teeth_off` teeth; 0 up to a quarter turn. With
/// half a tooth: how square one must look to be sure which tooth it is.
pub fn squarer_than(gap_mm: f64, radius_mm: f64, teeth: u32, teeth_off: f64) -> Angle {
    let arc_mm = teeth_off * TAU * radius_mm / f64::from(teeth);
    Angle::from_rad(libm::atan2(arc_mm, gap_mm))
}

/// The radius at which the mark of wheel `wheel` is read, mm: its own where it is stated, else the wheel's
/// outside radius.
pub fn mark_radius_mm(drive: &Drive, wheel: usize) -> f64 {
    let (wheel, belt) = (&drive.wheels()[wheel], drive.belt());
    let stated = wheel.mark.and_then(|mark| mark.radius_mm).filter(|mm| *mm > 0.0);
    stated.unwrap_or_else(|| wheel.outside_radius_mm(belt))
}
