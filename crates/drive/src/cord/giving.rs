//! What gives when a run grows too short: the tensioner has drawn belt out of it, or it was hung with
//! fewer teeth than reach.
//!
//! Must not know: who moved the tensioner, or why the belt was hung so.

use super::{Cord, Hold, Seat, TIGHT_MM};
use crate::drive::Drive;
use crate::mesh::Stance;
use crate::turned::Turned;
use crate::units::rim_force_n;
use alloc::vec::Vec;

impl Cord {
    /// Takes up what a moved tensioner has drawn out of a run: wherever the run is now too short, one
    /// of its two ends gives. The chain of tight runs that needs the least force does (the sum of
    /// friction moment over pitch radius along it, less what valve springs help); of equal ones the one
    /// with fewer sprockets, then the one that turns forward. Nothing held gives: what then remains
    /// short is for [`Cord::travel_within_holds`] to rule out beforehand.
    pub fn give_way(&mut self, drive: &Drive, stance: &Stance) {
        self.give(drive, stance, false);
    }

    /// As [`Cord::give_way`] for a belt just hung: a sprocket without a mark, which takes whichever groove
    /// comes, is turned to meet it before any marked one is. And where only held sprockets are left to
    /// give, the chain with the fewest of them does: the belt can only be hung so. Each held one that
    /// moved, with crank degrees, forward positive.
    pub(super) fn give_way_against_holds(
        &mut self,
        drive: &Drive,
        stance: &Stance,
    ) -> Vec<(usize, f64)> {
        let before: Vec<Turned> = (0..self.turned.len()).map(|k| self.held_place(k)).collect();
        self.give(drive, stance, true);
        let moved = |k: usize| (k, self.held_place(k).since(before[k]));
        let held = (0..before.len()).filter(|k| self.holds[*k].is_some());
        let tight = TIGHT_MM / drive.mm_per_crank_deg();
        held.map(moved).filter(|(_, by)| by.abs() > tight).collect()
    }

    /// Where what is held of `k` stands.
    fn held_place(&self, k: usize) -> Turned {
        match self.holds[k] {
            Some(Hold::Shaft) => self.shaft(k),
            _ => self.turned[k],
        }
    }

    fn give(&mut self, drive: &Drive, stance: &Stance, hanging: bool) {
        let tight = TIGHT_MM / drive.mm_per_crank_deg();
        let runs = self.turned.len();
        // One short run may have to wait for another: each round serves one, or uses up one run's slack.
        for _ in 0..2 * runs {
            for j in 0..runs {
                self.give_into(drive, stance, j, hanging);
            }
            if (0..runs).all(|j| self.slack_deg(drive, stance, j) >= -tight) {
                return;
            }
        }
    }

    fn give_into(&mut self, drive: &Drive, stance: &Stance, j: usize, hanging: bool) {
        let tight = TIGHT_MM / drive.mm_per_crank_deg();
        // Each round tightens one more run, uses up one fixing's play, or ends the shortage.
        for _ in 0..4 * self.turned.len() {
            let short = -self.slack_deg(drive, stance, j);
            if short <= 0.0 {
                break;
            }
            let chain = |past: bool| {
                let behind = self.chain(drive, stance, j, true, past, tight);
                let ahead = self.chain(drive, stance, j, false, past, tight);
                Chain::easier(behind, ahead, hanging)
            };
            let by_right = chain(false);
            // What is held is not moved for a hair.
            let forced = hanging && short > tight;
            let Some(best) = by_right.or_else(|| forced.then(|| chain(true))?) else {
                break;
            };
            let by = if best.room_deg < short { best.room_deg } else { short };
            let (sprocket, by) = if best.forward { (j, by) } else { (drive.next(j), -by) };
            let to = self.turned[sprocket].plus(by);
            let holds = by_right.is_none().then(|| {
                let none = alloc::vec![None; self.holds.len()];
                core::mem::replace(&mut self.holds, none)
            });
            // Not as a turn by hand: what is held may leave another run short as yet, which would stop it.
            self.drag(drive, stance, sprocket, to, best.forward, best.sprockets - 1);
            if let Some(holds) = holds {
                self.holds = holds;
            }
        }
    }

    /// The sprockets that would have to turn with the near end of run `j` for it to give, up to the
    /// first run with slack. `None` where there is none, where another run is short first, or where
    /// something held stands in the way; `past` goes on past that.
    fn chain(
        &self,
        drive: &Drive,
        stance: &Stance,
        j: usize,
        forward: bool,
        past: bool,
        tight: f64,
    ) -> Option<Chain> {
        let mut chain = Chain {
            forward,
            held: 0,
            marked: 0,
            force_n: 0.0,
            sprockets: 0,
            room_deg: f64::INFINITY,
        };
        let mut at = if forward { j } else { drive.next(j) };
        loop {
            let member = self.member(drive, at, forward, tight);
            if member.held && !past {
                return None;
            }
            chain.held += usize::from(member.held);
            chain.marked += usize::from(drive.is_marked(at));
            chain.force_n += member.force_n;
            chain.room_deg = least(chain.room_deg, member.room_deg);
            chain.sprockets += 1;
            let run = if forward { drive.previous(at) } else { at };
            if run == j {
                return None;
            }
            let room_deg = self.slack_deg(drive, stance, run);
            if room_deg > tight {
                chain.room_deg = least(chain.room_deg, room_deg);
                return Some(chain);
            }
            if room_deg < -tight {
                return None;
            }
            at = if forward { drive.previous(at) } else { drive.next(at) };
        }
    }

    fn member(&self, drive: &Drive, k: usize, forward: bool, tight: f64) -> Member {
        let left = |limit: Turned| {
            let by = limit.since(self.turned[k]);
            if forward { by } else { -by }
        };
        if let Seat::Loose { shaft } = self.seats[k]
            && self.holds[k] != Some(Hold::Sprocket)
        {
            let (back, ahead) = drive.play_deg(k);
            let play = if forward { ahead } else { back };
            let room_deg = if play.is_finite() { left(shaft.plus(play)) } else { f64::INFINITY };
            if room_deg > tight {
                return Member { held: false, force_n: 0.0, room_deg };
            }
        }
        let force_n = self.resistance_n(drive, k, forward);
        Member { held: self.holds[k].is_some(), force_n, room_deg: f64::INFINITY }
    }

    /// Belt force that turns shaft `k` this way, N: friction, less what its valve springs help.
    pub(super) fn resistance_n(&self, drive: &Drive, k: usize, forward: bool) -> f64 {
        let wheel = &drive.wheels()[drive.sprockets()[k].wheel];
        let spring_n_m = if self.is_at_mark(drive, k) { wheel.spring_torque_n_m } else { 0.0 };
        let helps_n_m = if forward { spring_n_m } else { -spring_n_m };
        rim_force_n(wheel.friction_n_m - helps_n_m, wheel.pitch_radius_mm(drive.belt()))
    }

    /// How much belt there is to spare, in crank degrees, between the two held sprockets that have the
    /// least: below zero where held so they leave a run too short. Infinite with nothing held.
    pub fn spare_between_holds_deg(&self, drive: &Drive, stance: &Stance) -> f64 {
        let mut least_deg = f64::INFINITY;
        self.each_spare_deg(drive, stance, |_, spare_deg| least_deg = least(least_deg, spare_deg));
        least_deg
    }

    /// What there is to spare between every two held sprockets, by their places among all pairs.
    fn each_spare_deg(&self, drive: &Drive, stance: &Stance, mut take: impl FnMut(usize, f64)) {
        if !self.on {
            return;
        }
        let mut pair = 0;
        for from in 0..self.turned.len() {
            let Some(furthest) = self.limit(drive, from, true) else { continue };
            let (mut at, mut lead_deg) = (from, 0.0);
            loop {
                lead_deg += self.lead_deg(drive, stance, at);
                at = drive.next(at);
                if at == from {
                    break;
                }
                if let Some(limit) = self.limit(drive, at, false) {
                    take(pair, furthest.since(limit) + lead_deg);
                    pair += 1;
                }
            }
        }
    }

    /// How far the tensioner, standing at `from`, can be moved towards `to` before the belt between
    /// held sprockets is tight; `to` itself if nothing stops it.
    ///
    /// What there is to spare falls as the path lengthens, and the path lengthens with travel all the
    /// way to tight: one root, which regula falsi with halved weights (the Illinois rule) closes in on.
    /// Two held sprockets between which the belt stays long enough stop nothing, however tight it is.
    pub fn travel_within_holds(&self, drive: &Drive, from: &Stance, to: f64) -> f64 {
        let tight = TIGHT_MM / drive.mm_per_crank_deg();
        let mut stops = Vec::new();
        let mut far_spare = f64::INFINITY;
        self.each_spare_deg(drive, &drive.stance_at(to), |_, spare_deg| {
            stops.push(spare_deg < -tight);
            far_spare = least(far_spare, spare_deg);
        });
        if far_spare >= -tight {
            return to;
        }
        let spare = |stance: &Stance| {
            let mut least_deg = f64::INFINITY;
            self.each_spare_deg(drive, stance, |pair, spare_deg| {
                if stops[pair] {
                    least_deg = least(least_deg, spare_deg);
                }
            });
            least_deg
        };
        let (mut far, mut near, mut near_spare) = (to, from.travel, spare(from));
        if near_spare <= 0.0 {
            return near;
        }
        let mut kept_far = false;
        for _ in 0..100 {
            if near_spare <= tight / 2.0 {
                break;
            }
            let part = near_spare / (near_spare - far_spare);
            let travel = near + (far - near) * part;
            let here = spare(&drive.stance_at(travel));
            if here >= 0.0 {
                (near, near_spare) = (travel, here);
                if kept_far {
                    far_spare /= 2.0;
                }
                kept_far = true;
            } else {
                (far, far_spare) = (travel, here);
                if !kept_far {
                    near_spare /= 2.0;
                }
                kept_far = false;
            }
        }
        near
    }
}

struct Member {
    held: bool,
    force_n: f64,
    room_deg: f64,
}

#[derive(Clone, Copy)]
struct Chain {
    forward: bool,
    held: usize,
    marked: usize,
    force_n: f64,
    sprockets: usize,
    room_deg: f64,
}

impl Chain {
    /// The one to give: of what is held the fewest, then, with `marks_last`, of what is marked, then the
    /// one that takes the least force.
    fn easier(behind: Option<Self>, ahead: Option<Self>, marks_last: bool) -> Option<Self> {
        match (behind, ahead) {
            (Some(b), Some(a)) => {
                let marked = |chain: &Self| if marks_last { chain.marked } else { 0 };
                let order = a
                    .held
                    .cmp(&b.held)
                    .then(marked(&a).cmp(&marked(&b)))
                    .then(a.force_n.total_cmp(&b.force_n))
                    .then(a.sprockets.cmp(&b.sprockets));
                Some(if order.is_lt() { a } else { b })
            }
            (b, a) => b.or(a),
        }
    }
}

fn least(a: f64, b: f64) -> f64 {
    if b < a { b } else { a }
}
