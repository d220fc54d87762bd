//! Valve springs on a shaft that nothing holds: with its mark up, belt slack or off, it snaps aside.
//!
//! Must not know: valves. It is told one moment for each shaft, at its mark.

use super::{Cord, Seat, TIGHT_MM};
use crate::drive::Drive;
use crate::marks::mark_error_teeth;
use crate::mesh::Stance;
use crate::units::rim_force_n;
use alloc::vec::Vec;

/// How far valve springs turn a shaft from its mark at the most, degrees of that shaft: about half a
/// lobe's flank. An assumption, no source; a tight belt stops it sooner.
pub const SPRING_REACH_DEG: f64 = 20.0;

/// A shaft is at its mark within this, teeth.
const AT_MARK_TEETH: f64 = 0.5;

impl Cord {
    /// Whether the mark of sprocket `k` is up, to half a tooth.
    pub(super) fn is_at_mark(&self, drive: &Drive, k: usize) -> bool {
        let teeth = drive.sprockets()[k].teeth;
        let off = mark_error_teeth(self.turned[k], teeth, drive.crank_teeth());
        off > -AT_MARK_TEETH && off < AT_MARK_TEETH
    }

    /// Lets valve springs turn each shaft that stands at its mark with nothing holding it, friction not
    /// enough to keep it, and slack to turn into. It drags along what it is stronger than. Gives the
    /// shafts that turned, with crank degrees, forward positive.
    pub fn spring_back(&mut self, drive: &Drive, stance: &Stance) -> Vec<(usize, f64)> {
        let mut turned = Vec::new();
        for k in 0..self.turned.len() {
            let wheel = &drive.wheels()[drive.sprockets()[k].wheel];
            let moment_n_m = wheel.spring_torque_n_m.abs() - wheel.friction_n_m;
            let bolted = matches!(self.seats[k], Seat::Tight { .. });
            let free = self.holds[k].is_none() && bolted && drive.is_marked(k);
            if !(free && moment_n_m > 0.0 && self.is_at_mark(drive, k)) {
                continue;
            }
            let forward = wheel.spring_torque_n_m > 0.0;
            let force_n = rim_force_n(moment_n_m, wheel.pitch_radius_mm(drive.belt()));
            let before = self.turned[k];
            self.snap(drive, stance, k, forward, force_n);
            let by = self.turned[k].since(before);
            if by != 0.0 {
                turned.push((k, by));
            }
        }
        turned
    }

    fn snap(&mut self, drive: &Drive, stance: &Stance, k: usize, forward: bool, force_n: f64) {
        let sign = if forward { 1.0 } else { -1.0 };
        let reach = SPRING_REACH_DEG * f64::from(drive.sprockets()[k].teeth)
            / f64::from(drive.crank_teeth());
        // Counted from its mark, wherever about it the shaft stands.
        let teeth = drive.sprockets()[k].teeth;
        let off_teeth = mark_error_teeth(self.turned[k], teeth, drive.crank_teeth());
        let end = self.turned[k].plus(sign * reach - off_teeth * drive.crank_deg_per_tooth());
        for _ in 0..=self.turned.len() {
            let left = sign * end.since(self.turned[k]);
            let room =
                if self.on { self.room_deg(drive, stance, k, forward, force_n) } else { left };
            if left <= 0.0 || room <= TIGHT_MM / drive.mm_per_crank_deg() {
                return;
            }
            let to = if room < left { self.turned[k].plus(sign * room) } else { end };
            self.turn(drive, stance, k, to);
        }
    }

    /// How far `k` turns before the belt asks for more than `force_n`, crank degrees.
    fn room_deg(
        &self,
        drive: &Drive,
        stance: &Stance,
        k: usize,
        forward: bool,
        force_n: f64,
    ) -> f64 {
        let tight = TIGHT_MM / drive.mm_per_crank_deg();
        let (mut at, mut needs_n) = (k, 0.0);
        for _ in 0..self.turned.len() {
            let run = if forward { drive.previous(at) } else { at };
            let slack = self.slack_deg(drive, stance, run);
            if slack > tight {
                return slack;
            }
            at = if forward { drive.previous(at) } else { drive.next(at) };
            needs_n += self.resistance_n(drive, at, forward);
            if self.holds[at].is_some() || needs_n >= force_n || at == k {
                return 0.0;
            }
        }
        0.0
    }
}
