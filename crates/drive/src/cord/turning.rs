//! Turning a sprocket by hand: what a tight belt drags along, and where something held stops it.
//!
//! Must not know: forces. Whoever turns is strong enough for whatever is not held.

use super::{Cord, Hold, Seat, over_deg};
use crate::drive::Drive;
use crate::mesh::Stance;
use crate::turned::Turned;

impl Cord {
    /// Turns sprocket `k` to `to`, dragging what a tight belt drags: forward, the sprockets behind it
    /// on the belt; backward, those ahead. What nothing drags stays. Where a held one would be dragged
    /// the belt is tight and the turn stops: gives that one, `k` itself where it is held.
    pub fn turn(&mut self, drive: &Drive, stance: &Stance, k: usize, to: Turned) -> Option<usize> {
        let by = to.since(self.turned[k]);
        if by == 0.0 {
            return None;
        }
        let forward = by > 0.0;
        match self.stop(drive, stance, k, forward) {
            // Just as far is drawn up too, so that it is all one in how many pieces it came there.
            Some((place, held)) if !is_beyond(place, to, forward) => {
                if is_beyond(place, self.turned[k], forward) {
                    self.draw_up_to(drive, stance, k, held, forward);
                }
                is_beyond(to, place, forward).then_some(held)
            }
            _ => {
                self.drag(drive, stance, k, to, forward, self.turned.len() - 1);
                None
            }
        }
    }

    /// Turns the shaft of sprocket `k` to `to`. Bolted it takes its sprocket along; with the bolt slack
    /// only once their fixing has no more play. Gives what stopped it, as [`Cord::turn`].
    pub fn turn_shaft(
        &mut self,
        drive: &Drive,
        stance: &Stance,
        k: usize,
        to: Turned,
    ) -> Option<usize> {
        let (back, ahead) = match self.seats[k] {
            Seat::Tight { slip_deg } => return self.turn(drive, stance, k, to.plus(slip_deg)),
            Seat::Loose { .. } => drive.play_deg(k),
        };
        if self.holds[k] == Some(Hold::Shaft) {
            return Some(k);
        }
        let slip = self.turned[k].since(to);
        let play = if slip > ahead {
            ahead
        } else if slip < back {
            back
        } else {
            self.seats[k] = Seat::Loose { shaft: to };
            return None;
        };
        let stopped = self.turn(drive, stance, k, to.plus(play));
        self.seats[k] = Seat::Loose { shaft: self.turned[k].plus(-play) };
        stopped
    }

    /// Where sprocket `k` stands when the belt into it is drawn tight from the last marked sprocket
    /// before it: as far as it comes forward without dragging a mark.
    pub fn drawn_up(&self, drive: &Drive, stance: &Stance, k: usize) -> Turned {
        let mut from = drive.previous(k);
        while from != k && !drive.is_marked(from) {
            from = drive.previous(from);
        }
        if !self.on {
            return self.turned[k];
        }
        self.carried(drive, stance, from, self.turned[from], k, true).later(self.turned[k])
    }

    /// How far a held sprocket `k` can still go; `None` where nothing stops it.
    pub(super) fn limit(&self, drive: &Drive, k: usize, forward: bool) -> Option<Turned> {
        match (self.holds[k]?, self.seats[k]) {
            (Hold::Sprocket, _) | (Hold::Shaft, Seat::Tight { .. }) => Some(self.turned[k]),
            (Hold::Shaft, Seat::Loose { shaft }) => {
                let (back, ahead) = drive.play_deg(k);
                let play = if forward { ahead } else { back };
                play.is_finite().then(|| shaft.plus(play))
            }
        }
    }

    /// Whether sprocket `k` is held and does not float.
    fn is_fast(&self, k: usize) -> bool {
        match (self.holds[k], self.seats[k]) {
            (Some(Hold::Sprocket), _) | (Some(Hold::Shaft), Seat::Tight { .. }) => true,
            (Some(Hold::Shaft), Seat::Loose { .. }) | (None, _) => false,
        }
    }

    /// Puts sprocket `k` at `to`; at the end of its play it takes a loose shaft along that is not held.
    pub(super) fn put(&mut self, drive: &Drive, k: usize, to: Turned) {
        self.turned[k] = to;
        if self.holds[k] == Some(Hold::Shaft) {
            return;
        }
        if let Seat::Loose { shaft } = &mut self.seats[k] {
            let (back, ahead) = drive.play_deg(k);
            let slip = to.since(*shaft);
            if slip > ahead {
                *shaft = to.plus(-ahead);
            } else if slip < back {
                *shaft = to.plus(-back);
            }
        }
    }

    /// The nearest place at which something held stops `k`, and what.
    fn stop(
        &self,
        drive: &Drive,
        stance: &Stance,
        k: usize,
        forward: bool,
    ) -> Option<(Turned, usize)> {
        let mut nearest: Option<(Turned, usize)> = None;
        let mut at = k;
        for _ in 0..self.turned.len() {
            if let Some(limit) = self.limit(drive, at, forward) {
                let place = self.carried(drive, stance, at, limit, k, forward);
                if nearest.is_none_or(|(so_far, _)| is_beyond(so_far, place, forward)) {
                    nearest = Some((place, at));
                }
            }
            // What cannot move at all comes before whatever is held beyond it: only the last digit
            // could tell otherwise.
            if !self.on || self.is_fast(at) {
                break;
            }
            at = behind(drive, at, forward);
        }
        nearest
    }

    /// Where `k` stands with every run between it and `from` tight, `from` standing at `place`. Teeth are
    /// summed before anything else, so that how they are shared out among the runs changes no digit.
    fn carried(
        &self,
        drive: &Drive,
        stance: &Stance,
        from: usize,
        place: Turned,
        k: usize,
        forward: bool,
    ) -> Turned {
        let (mut at, mut teeth, mut path_mm) = (from, 0, 0.0);
        while at != k {
            let towards = behind(drive, at, !forward);
            let run = if forward { at } else { towards };
            teeth += self.teeth(drive, run);
            path_mm += stance.run_mm[run];
            at = towards;
        }
        let lead_deg = over_deg(drive, teeth, path_mm);
        place.plus(if forward { lead_deg } else { -lead_deg })
    }

    /// Puts everything from `held` to `k` where the tight belt between them has it; where `held` itself
    /// goes on to the end of its play, it drags what lies beyond.
    fn draw_up_to(&mut self, drive: &Drive, stance: &Stance, k: usize, held: usize, forward: bool) {
        let Some(place) = self.limit(drive, held, forward) else { return };
        if is_beyond(place, self.turned[held], forward) {
            self.drag(drive, stance, held, place, forward, self.turned.len() - 1);
        }
        let mut at = held;
        while at != k {
            at = behind(drive, at, !forward);
            let there = self.carried(drive, stance, held, place, at, forward);
            self.put(drive, at, there);
        }
    }

    /// Puts sprocket `k` at `to` and drags what a tight belt drags, `most` others at the most.
    pub(super) fn drag(
        &mut self,
        drive: &Drive,
        stance: &Stance,
        k: usize,
        to: Turned,
        forward: bool,
        most: usize,
    ) {
        self.put(drive, k, to);
        if !self.on {
            return;
        }
        let mut at = k;
        for _ in 0..most {
            let other = behind(drive, at, forward);
            let dragged_to = if forward {
                self.turned[at].plus(-self.lead_deg(drive, stance, other))
            } else {
                self.turned[at].plus(self.lead_deg(drive, stance, at))
            };
            // How far what is held lets it was asked beforehand: only the last digits could go further.
            let dragged_to = match self.limit(drive, other, forward) {
                Some(limit) if is_beyond(dragged_to, limit, forward) => limit,
                _ => dragged_to,
            };
            if !is_beyond(dragged_to, self.turned[other], forward) {
                return;
            }
            self.put(drive, other, dragged_to);
            at = other;
        }
    }
}

/// The sprocket that `at` drags when it turns: the one before it on the belt when it turns forward, the
/// one after it when it turns back.
fn behind(drive: &Drive, at: usize, forward: bool) -> usize {
    if forward { drive.previous(at) } else { drive.next(at) }
}

fn is_beyond(place: Turned, other: Turned, forward: bool) -> bool {
    let by = place.since(other);
    if forward { by > 0.0 } else { by < 0.0 }
}
