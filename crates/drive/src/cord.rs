//! The slack belt: a cord that cannot stretch and can hang. Where every sprocket stands, how much slack
//! each run holds, what is held, and how a sprocket sits on its shaft.
//!
//! Must not know: names, pictures, or what any of it means to a mechanic.
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
//! A dragged sprocket's place is *set* from the one that drags it, or from the held one that stops it,
//! never added to. So a turn cut into pieces ends exactly where the whole turn ends, and nothing drifts
//! however often it is done.
//!
//! `turning` drags, `giving` takes up what a moved tensioner draws out, `putting_on` hangs the belt,
//! `springs` lets valve springs turn what nothing holds, `resuming` takes a cord up that was left.

mod giving;
mod putting_on;
mod resuming;
mod springs;
mod turning;

pub use putting_on::{Gap, TooShort};
pub use resuming::CordState;
pub use springs::SPRING_REACH_DEG;

use crate::drive::Drive;
use crate::mesh::Stance;
use crate::turned::Turned;
use alloc::vec;
use alloc::vec::Vec;

/// Slack below this is none, mm: the run is tight.
pub const TIGHT_MM: f64 = 1e-9;

/// What a hand, a clamp or a pin holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hold {
    /// The shaft: its sprocket is held with it while their bolt is tight.
    Shaft,
    /// The sprocket.
    Sprocket,
}

/// How a sprocket sits on its shaft just now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seat {
    /// Bolted: they turn as one.
    Tight {
        /// How far the sprocket is turned forward on its shaft from where the maker has it, crank
        /// degrees.
        slip_deg: f64,
    },
    /// Its bolt slack: the sprocket floats as far as its fixing lets it.
    Loose {
        /// Where the shaft stands.
        shaft: Turned,
    },
}

/// Where every sprocket stands and how the belt is hung.
#[derive(Clone, Debug, PartialEq)]
pub struct Cord {
    /// For each sprocket, how far it is turned since its mark was in time, as belt travel.
    turned: Vec<Turned>,
    /// For each sprocket, teeth from in time, ahead positive.
    teeth_out: Vec<i64>,
    seats: Vec<Seat>,
    holds: Vec<Option<Hold>>,
    on: bool,
}

impl Cord {
    /// The belt hung in time, tight, nothing held, the crank on its mark and every other sprocket where
    /// its best tooth leaves it.
    pub fn in_time(drive: &Drive) -> Self {
        let at = |deg: &f64| Turned { turns: 0, deg: *deg };
        let turned: Vec<Turned> = drive.best_tooth_deg().iter().map(at).collect();
        let n = turned.len();
        let seats = vec![Seat::Tight { slip_deg: 0.0 }; n];
        Self { turned, teeth_out: vec![0; n], seats, holds: vec![None; n], on: true }
    }

    /// How far each sprocket is turned, in belt order.
    pub fn turned(&self) -> &[Turned] {
        &self.turned
    }

    /// Teeth from in time of each sprocket, ahead positive.
    pub fn teeth_out(&self) -> &[i64] {
        &self.teeth_out
    }

    /// Whether the belt is on.
    pub fn is_on(&self) -> bool {
        self.on
    }

    /// What holds each sprocket.
    pub fn holds(&self) -> &[Option<Hold>] {
        &self.holds
    }

    /// How each sprocket sits on its shaft.
    pub fn seats(&self) -> &[Seat] {
        &self.seats
    }

    /// Where the shaft of sprocket `k` stands.
    pub fn shaft(&self, k: usize) -> Turned {
        match self.seats[k] {
            Seat::Tight { slip_deg } => self.turned[k].plus(-slip_deg),
            Seat::Loose { shaft } => shaft,
        }
    }

    /// How far sprocket `k` is turned forward on its shaft, crank degrees.
    pub fn slip_deg(&self, k: usize) -> f64 {
        match self.seats[k] {
            Seat::Tight { slip_deg } => slip_deg,
            Seat::Loose { shaft } => self.turned[k].since(shaft),
        }
    }

    /// Takes hold of sprocket `k`, or lets go of it.
    pub fn hold(&mut self, k: usize, hold: Option<Hold>) {
        self.holds[k] = hold;
    }

    /// Slackens the bolt of sprocket `k`: it floats on its shaft as far as its fixing lets it.
    pub fn slacken(&mut self, k: usize) {
        self.seats[k] = Seat::Loose { shaft: self.shaft(k) };
    }

    /// Tightens the bolt of sprocket `k`: from here the two turn as one.
    pub fn tighten(&mut self, k: usize) {
        self.seats[k] = Seat::Tight { slip_deg: self.slip_deg(k) };
    }

    /// Belt teeth between the reference grooves of run `j`.
    pub fn teeth(&self, drive: &Drive, j: usize) -> i64 {
        drive.teeth_in_time()[j] + self.teeth_out[drive.next(j)] - self.teeth_out[j]
    }

    /// Belt in run `j` beyond its path when both its sprockets stand on their marks, crank degrees.
    fn lead_deg(&self, drive: &Drive, stance: &Stance, j: usize) -> f64 {
        over_deg(drive, self.teeth(drive, j), stance.run_mm[j])
    }

    fn slack_deg(&self, drive: &Drive, stance: &Stance, j: usize) -> f64 {
        self.turned[j].since(self.turned[drive.next(j)]) + self.lead_deg(drive, stance, j)
    }

    /// Slack in run `j`, mm, 0 or more; exactly 0 where the run is tight, and with the belt off.
    pub fn slack_mm(&self, drive: &Drive, stance: &Stance, j: usize) -> f64 {
        let slack = self.slack_deg(drive, stance, j) * drive.mm_per_crank_deg();
        if slack < TIGHT_MM || !self.on { 0.0 } else { slack }
    }

    /// Slack that can come to sprocket `k` without any held one turning, mm.
    pub fn slack_within_reach_mm(&self, drive: &Drive, stance: &Stance, k: usize) -> f64 {
        let n = self.turned.len();
        let (mut sum, mut taken) = (0.0, 0);
        let mut at = k;
        // Ahead, up to a held sprocket or all the way round.
        while taken < n {
            sum += self.slack_mm(drive, stance, at);
            taken += 1;
            at = drive.next(at);
            if self.holds[at].is_some() {
                break;
            }
        }
        let mut at = k;
        while taken < n {
            at = drive.previous(at);
            sum += self.slack_mm(drive, stance, at);
            taken += 1;
            if self.holds[at].is_some() {
                break;
            }
        }
        sum
    }

    /// Puts sprocket `k` `teeth` from in time (ahead positive) without moving the crank or any slack.
    /// Putting the crank ahead puts every other sprocket behind: the same installation. Shafts turn with
    /// their sprockets, held or not.
    pub fn set_teeth(&mut self, drive: &Drive, k: usize, teeth: i64) {
        let moved = (teeth - self.teeth_out[k]) as f64 * drive.crank_deg_per_tooth();
        self.teeth_out[k] = teeth;
        for j in 0..self.turned.len() {
            if k == 0 && j != 0 {
                self.carry(j, -moved);
            } else if k != 0 && j == k {
                self.carry(j, moved);
            }
        }
    }

    /// Turns sprocket and shaft `k` together by crank degrees.
    fn carry(&mut self, k: usize, by_deg: f64) {
        self.turned[k] = self.turned[k].plus(by_deg);
        if let Seat::Loose { shaft } = &mut self.seats[k] {
            *shaft = shaft.plus(by_deg);
        }
    }
}

/// So many belt teeth beyond so long a path, crank degrees.
fn over_deg(drive: &Drive, teeth: i64, path_mm: f64) -> f64 {
    (teeth as f64 - path_mm / drive.belt().pitch_mm) * drive.crank_deg_per_tooth()
}
