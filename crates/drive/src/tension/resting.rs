//! The tensioner's spring against the belt.
//!
//! Must not know: what moves the belt.

use crate::drive::Drive;
use crate::units::N_MM_PER_N_M;

/// Tension all round with the pin out and nothing turning, N: the spring's force over how fast it makes
/// the belt longer, T = Q/(dL/dq). Virtual work: a small travel dq gives Q·dq and takes T·dL.
///
/// `pull` is N along a slide and N·mm about a pivot, 0 or more, in the sense that tightens. To first order:
/// dL/dq is that of the belt tight and not yet stretched.
pub fn resting_tension_n(drive: &Drive, pull: f64) -> f64 {
    pull / drive.taut().length_rate
}

/// Moment at the crank, turned back by hand, from which a sprung tensioner gives way, N·m: the run that the
/// crank then pulls is the tensioner's own, and holds no more than the resting tension. The run into the
/// crank has by then gone slack.
pub fn gives_way_n_m(drive: &Drive, resting_n: f64) -> f64 {
    resting_n * drive.belt().sprocket_pitch_radius_mm(drive.crank_teeth()) / N_MM_PER_N_M
}
