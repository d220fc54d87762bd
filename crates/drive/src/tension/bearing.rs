//! What the belt's pull does to each wheel: the load on its bearing, and how many teeth share it.
//!
//! Must not know: how the tensions came about.

use crate::drive::Drive;
use alloc::vec::Vec;
use glam::DVec2;

/// A loaded sprocket should have at least this many teeth in mesh (a maker's drive design note, 2012).
pub const LEAST_TEETH_IN_MESH: u32 = 6;
/// And at least this much wrap, degrees (the same source).
pub const LEAST_WRAP_DEG: f64 = 60.0;

/// How much of the power rating is left for each whole tooth below six.
const LOST_PER_TOOTH: f64 = 0.2;

/// The belt's force on each wheel, N, in the drive's own plane: the leaving span pulls along the travel, the
/// arriving one against it. What the bearing carries, the wheel's weight aside.
pub fn bearing_loads_n(drive: &Drive, spans_n: &[f64]) -> Vec<DVec2> {
    let spans = &drive.taut_stance().path.spans;
    let n = spans.len();
    let pull = |i: usize| spans[i].direction * spans_n.get(i).copied().unwrap_or(0.0);
    (0..n).map(|i| pull(i) - pull(if i == 0 { n - 1 } else { i - 1 })).collect()
}

/// What a sprocket can carry with so many teeth in mesh, of what it could with six or more: 1 − 0.2·(6 − n)
/// with n the whole teeth in mesh, 1 from six on and never below 0 (RMA IP-24).
pub fn in_mesh_factor(teeth_in_mesh: f64) -> f64 {
    let missing = f64::from(LEAST_TEETH_IN_MESH) - libm::floor(teeth_in_mesh + WHOLE);
    (1.0 - LOST_PER_TOOTH * missing).clamp(0.0, 1.0)
}

/// Nearer than this below a whole tooth is that tooth.
const WHOLE: f64 = 1e-9;
