//! How fast the belt runs, and how often it goes round and its teeth meet grooves.
//!
//! Must not know: kilometres or hours; who has crank turns has the rest.

use crate::drive::Drive;

/// Belt speed at `rpm` of the crank, m/s: z·p·rpm/60.
pub fn belt_speed_m_per_s(drive: &Drive, rpm: f64) -> f64 {
    f64::from(drive.crank_teeth()) * drive.belt().pitch_mm / 1000.0 * rpm / 60.0
}

/// How often the belt goes round in one turn of the crank.
pub fn laps_per_crank_turn(drive: &Drive) -> f64 {
    f64::from(drive.crank_teeth()) / f64::from(drive.belt().teeth)
}

/// How often each of the belt's teeth runs into a groove in one turn of the crank: once a lap at every
/// sprocket.
pub fn tooth_meets_per_crank_turn(drive: &Drive) -> f64 {
    laps_per_crank_turn(drive) * drive.sprockets().len() as f64
}
