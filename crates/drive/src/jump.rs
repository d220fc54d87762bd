//! How much slack lets a belt jump a tooth on a sprocket.
//!
//! Must not know: how much slack there is, or who holds what.
//!
//! An estimate. With the whole wrap lifted at once, teeth clear the grooves where the pitch line runs a
//! tooth's height further out: that takes L(ρ + h) − L(ρ) of belt. A belt that climbs out from one end of
//! the wrap needs roughly half of that. So slack over what a whole wrap needs is a margin to warn from
//! at a half, strongly from one, and below that no promise.

use crate::drive::Drive;
use crate::mesh::Stance;
use crate::path::Path;

/// Slack over need from which to warn: a belt climbing out from one end may clear.
pub const MAY_JUMP: f64 = 0.5;
/// Slack over need from which the whole wrap can clear at once.
pub const CLEARS: f64 = 1.0;

/// Belt that sprocket `k` needs for its whole wrap to clear the grooves, mm, above 0; infinite where a
/// belt lifted so would no longer pass the wheels beside it.
pub fn clears_with_mm(drive: &Drive, stance: &Stance, k: usize) -> f64 {
    let mut discs = stance.discs.clone();
    discs[drive.sprockets()[k].wheel].radius += drive.belt().tooth_height_mm;
    match Path::round(&discs) {
        Ok(lifted) => lifted.length_mm - stance.path.length_mm,
        Err(_) => f64::INFINITY,
    }
}

/// The least that any sprocket needs, mm: with less slack the belt comes neither on nor off.
pub fn comes_off_with_mm(drive: &Drive, stance: &Stance) -> f64 {
    let all = (0..drive.sprockets().len()).map(|k| clears_with_mm(drive, stance, k));
    all.fold(f64::INFINITY, |least, mm| if mm < least { mm } else { least })
}
