//! The slack belt: a cord that cannot stretch and can hang. Where every shaft stands, how much slack
//! each run holds, and who drags whom.
//!
//! Must not know: names, pictures, or how the belt came to be hung so.
//!
//! For the run j from sprocket a to sprocket b, with n teeth between their reference grooves and G mm
//! of path,
//!
//! ```text
//! slack = n·p − G + (belt travel at a) − (belt travel at b)  ≥ 0
//! ```
//!
//! a turning forward pays belt out into the run, b turning forward takes it up. Summed round the loop
//! the travels cancel: all slack together is always T·p − L.
//!
//! A dragged shaft's place is *set* from the one that drags it, never added to. So a turn cut into
//! pieces ends exactly where the whole turn ends, and nothing drifts however often it is done.

use crate::drive::Drive;
use crate::mesh::Stance;
use crate::turned::Turned;
use alloc::vec;
use alloc::vec::Vec;

/// Slack below this is none, mm: the run is tight.
pub const TIGHT_MM: f64 = 1e-9;

/// Where every sprocket stands and how the belt is hung.
#[derive(Clone, Debug, PartialEq)]
pub struct Cord {
    /// For each sprocket, how far the belt has carried it since its mark was in time.
    turned: Vec<Turned>,
    /// For each sprocket, teeth from in time, ahead positive.
    teeth_out: Vec<i64>,
}

impl Cord {
    /// The belt hung in time, tight, the crank on its mark and every other sprocket where its best
    /// tooth leaves it.
    pub fn in_time(drive: &Drive) -> Self {
        let at = |deg: &f64| Turned { turns: 0, deg: *deg };
        let turned: Vec<Turned> = drive.best_tooth_deg().iter().map(at).collect();
        let teeth_out = vec![0; turned.len()];
        Self { turned, teeth_out }
    }

    /// How far each sprocket has been carried, in belt order.
    pub fn turned(&self) -> &[Turned] {
        &self.turned
    }

    /// Teeth from in time of each sprocket, ahead positive.
    pub fn teeth_out(&self) -> &[i64] {
        &self.teeth_out
    }

    /// Belt teeth between the reference grooves of run `j`.
    pub fn teeth(&self, drive: &Drive, j: usize) -> i64 {
        drive.teeth_in_time()[j] + self.teeth_out[drive.next(j)] - self.teeth_out[j]
    }

    /// Belt in run `j` beyond its path when both its sprockets stand on their marks, crank degrees.
    fn lead_deg(&self, drive: &Drive, stance: &Stance, j: usize) -> f64 {
        let over = self.teeth(drive, j) as f64 - stance.run_mm[j] / drive.belt().pitch_mm;
        over * drive.crank_deg_per_tooth()
    }

    fn slack_deg(&self, drive: &Drive, stance: &Stance, j: usize) -> f64 {
        self.turned[j].since(self.turned[drive.next(j)]) + self.lead_deg(drive, stance, j)
    }

    /// Slack in run `j`, mm, 0 or more; exactly 0 where the run is tight.
    pub fn slack_mm(&self, drive: &Drive, stance: &Stance, j: usize) -> f64 {
        let slack = self.slack_deg(drive, stance, j) * drive.mm_per_crank_deg();
        if slack < TIGHT_MM { 0.0 } else { slack }
    }

    /// Turns sprocket `k` to `to`, dragging what a tight belt drags: forward, the sprockets behind it
    /// on the belt; backward, those ahead. What nothing drags stays.
    pub fn turn(&mut self, drive: &Drive, stance: &Stance, k: usize, to: Turned) {
        let by = to.since(self.turned[k]);
        if by == 0.0 {
            return;
        }
        let forward = by > 0.0;
        self.turned[k] = to;
        let mut at = k;
        for _ in 1..self.turned.len() {
            let other = if forward { drive.previous(at) } else { drive.next(at) };
            let dragged_to = if forward {
                self.turned[at].plus(-self.lead_deg(drive, stance, other))
            } else {
                self.turned[at].plus(self.lead_deg(drive, stance, at))
            };
            let by = dragged_to.since(self.turned[other]);
            if (forward && by <= 0.0) || (!forward && by >= 0.0) {
                return;
            }
            self.turned[other] = dragged_to;
            at = other;
        }
    }

    /// Puts sprocket `k` `teeth` from in time (ahead positive) without moving the crank or any slack.
    /// Putting the crank ahead puts every other sprocket behind: the same installation.
    pub fn set_teeth(&mut self, drive: &Drive, k: usize, teeth: i64) {
        let moved = (teeth - self.teeth_out[k]) as f64 * drive.crank_deg_per_tooth();
        self.teeth_out[k] = teeth;
        for (j, turned) in self.turned.iter_mut().enumerate() {
            if k == 0 && j != 0 {
                *turned = turned.plus(-moved);
            } else if k != 0 && j == k {
                *turned = turned.plus(moved);
            }
        }
    }

    /// Takes up what a moved tensioner has drawn out of a run: wherever the run is now too short, one
    /// of its two ends gives. The chain of tight runs that needs the least force does (the sum of
    /// friction moment over pitch radius along it); of equal ones the one with fewer sprockets, then
    /// the one that turns forward.
    pub fn give_way(&mut self, drive: &Drive, stance: &Stance) {
        let tight = TIGHT_MM / drive.mm_per_crank_deg();
        for j in 0..self.turned.len() {
            // Each round tightens one more run or ends the shortage.
            for _ in 0..2 * self.turned.len() {
                let short = -self.slack_deg(drive, stance, j);
                if short <= 0.0 {
                    break;
                }
                let behind = self.chain(drive, stance, j, true, tight);
                let ahead = self.chain(drive, stance, j, false, tight);
                let Some(best) = Chain::easier(behind, ahead) else { break };
                let by = if best.room_deg < short { best.room_deg } else { short };
                let (sprocket, by) = if best.forward { (j, by) } else { (drive.next(j), -by) };
                self.turn(drive, stance, sprocket, self.turned[sprocket].plus(by));
            }
        }
    }

    /// The sprockets that would have to turn with the near end of run `j` for it to give, up to the
    /// first run with slack. `None` where there is none.
    fn chain(
        &self,
        drive: &Drive,
        stance: &Stance,
        j: usize,
        forward: bool,
        tight: f64,
    ) -> Option<Chain> {
        let (mut force_n, mut sprockets) = (0.0, 0);
        let mut at = if forward { j } else { drive.next(j) };
        loop {
            let wheel = &drive.wheels()[drive.sprockets()[at].wheel];
            force_n += wheel.friction_n_m * 1000.0 / wheel.pitch_radius_mm(drive.belt());
            sprockets += 1;
            let run = if forward { drive.previous(at) } else { at };
            if run == j {
                return None;
            }
            let room_deg = self.slack_deg(drive, stance, run);
            if room_deg > tight {
                return Some(Chain { forward, force_n, sprockets, room_deg });
            }
            at = if forward { drive.previous(at) } else { drive.next(at) };
        }
    }
}

#[derive(Clone, Copy)]
struct Chain {
    forward: bool,
    force_n: f64,
    sprockets: usize,
    room_deg: f64,
}

impl Chain {
    fn easier(behind: Option<Self>, ahead: Option<Self>) -> Option<Self> {
        match (behind, ahead) {
            (Some(b), Some(a)) => {
                let ahead_is =
                    a.force_n < b.force_n || (a.force_n == b.force_n && a.sprockets < b.sprockets);
                Some(if ahead_is { a } else { b })
            }
            (b, a) => b.or(a),
        }
    }
}
