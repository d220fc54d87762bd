//! A cord that was left, and is taken up again as it was.
//!
//! Must not know: where it was kept meanwhile.

use super::{Cord, Hold, Seat, TIGHT_MM};
use crate::drive::Drive;
use crate::mesh::Stance;
use crate::turned::Turned;
use alloc::vec::Vec;

/// Further than this no shaft is turned, crank turns.
const MOST_TURNS: f64 = 1e9;
/// Rounding may leave a tight run this much too short, as a multiple of what counts as tight.
const ROUNDING: f64 = 1e3;

/// All that a [`Cord`] is: what its readings of the same names give, each in belt order.
#[derive(Clone, Debug, PartialEq)]
pub struct CordState {
    /// How far each sprocket is turned.
    pub turned: Vec<Turned>,
    /// Teeth from in time of each, ahead positive.
    pub teeth_out: Vec<i64>,
    /// How each sits on its shaft.
    pub seats: Vec<Seat>,
    /// What holds each.
    pub holds: Vec<Option<Hold>>,
    /// Whether the belt is on.
    pub on: bool,
}

impl Cord {
    /// All that the cord is.
    pub fn state(&self) -> CordState {
        let Self { turned, teeth_out, seats, holds, on } = self.clone();
        CordState { turned, teeth_out, seats, holds, on }
    }

    /// The cord that was in this state; `None` where none can be with this drive and its tensioner standing
    /// so: not as many sprockets, a place that is no number, a run shorter than its path.
    pub fn resumed(drive: &Drive, stance: &Stance, state: CordState) -> Option<Self> {
        let CordState { turned, teeth_out, seats, holds, on } = state;
        let n = drive.sprockets().len();
        if [turned.len(), teeth_out.len(), seats.len(), holds.len()] != [n; 4] {
            return None;
        }
        let is_place = |at: &Turned| at.total_deg().abs() <= MOST_TURNS * 360.0;
        let sits = |seat: &Seat| match seat {
            Seat::Tight { slip_deg } => slip_deg.abs() <= 360.0,
            Seat::Loose { shaft } => is_place(shaft),
        };
        let most_out = i64::from(drive.belt().teeth);
        let whole = turned.iter().all(is_place)
            && seats.iter().all(sits)
            && teeth_out.iter().all(|out| (-most_out..=most_out).contains(out));
        let cord = Self { turned, teeth_out, seats, holds, on };
        let short = |j: usize| {
            cord.slack_deg(drive, stance, j) * drive.mm_per_crank_deg() < -ROUNDING * TIGHT_MM
        };
        let hangs = || !on || !(0..n).any(short);
        (whole && hangs()).then_some(cord)
    }
}
