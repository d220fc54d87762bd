//! Random states of random drives: the tensioner somewhere, marks some teeth out, shafts turned this
//! way and that.
//!
//! Must not know: what such a state should read.

use crate::random::sound_layout;
use crate::ring::between;
use drive::{Cord, Drive, Flaw, Parts, Stance, Turned};
use fastrand::Rng;

/// Most teeth that a shaft is put out.
const MOST_TEETH_OUT: i64 = 3;

/// A drive, where its tensioner stands and how its belt hangs.
#[derive(Clone, Debug)]
pub struct State {
    /// The drive.
    pub drive: Drive,
    /// Its geometry.
    pub stance: Stance,
    /// Its shafts.
    pub cord: Cord,
    /// For more of the same.
    pub rng: Rng,
}

impl State {
    /// The drive of this seed, in time and tight.
    ///
    /// # Errors
    /// None for a layout that is sound.
    pub fn tight(seed: u64) -> Result<Self, Vec<Flaw>> {
        Self::of(seed, sound_layout(seed).parts)
    }

    /// The same drive with sprockets that can float, springs and locks.
    ///
    /// # Errors
    /// None for a layout that is sound.
    pub fn with_more_to_do(seed: u64) -> Result<Self, Vec<Flaw>> {
        Self::of(seed, sound_layout(seed).with_more_to_do().parts)
    }

    /// A drive of these parts, in time and tight; `seed` is for what is drawn later.
    ///
    /// # Errors
    /// The flaws of parts that are not sound.
    pub fn of(seed: u64, parts: Parts) -> Result<Self, Vec<Flaw>> {
        let drive = Drive::new(parts)?;
        let stance = drive.taut_stance().clone();
        let cord = Cord::in_time(&drive);
        Ok(Self { drive, stance, cord, rng: Rng::with_seed(!seed) })
    }

    /// The drive of this seed in some state: a third of them tight, a third slack, a third slackened
    /// and tightened again in part.
    ///
    /// # Errors
    /// None for a layout that is sound.
    pub fn random(seed: u64) -> Result<Self, Vec<Flaw>> {
        let mut state = Self::tight(seed)?;
        for k in 0..state.drive.sprockets().len() {
            if state.rng.f64() < 0.3 {
                let out = state.rng.i64(-MOST_TEETH_OUT..=MOST_TEETH_OUT);
                state.cord.set_teeth(&state.drive, k, out);
            }
        }
        if !seed.is_multiple_of(3) {
            state.slacken();
            state.stir();
        }
        if seed % 3 == 2 {
            state.tighten();
        }
        state.stir();
        Ok(state)
    }

    /// Draws the tensioner back some of the way.
    pub fn slacken(&mut self) {
        let travel = self.drive.tensioner().right_back;
        let travel = between(&mut self.rng, travel, self.stance.travel);
        self.move_to(travel);
    }

    /// Brings the tensioner up again, some of the way to tight.
    pub fn tighten(&mut self) {
        let travel = between(&mut self.rng, self.stance.travel, self.drive.taut().travel);
        self.move_to(travel);
    }

    /// Moves the tensioner to `travel`. Also drawn back it may leave a run too short, where it is
    /// toothed and its own grooves come along: then too something gives.
    pub fn move_to(&mut self, travel: f64) {
        self.stance = self.drive.stance_at(travel);
        self.cord.give_way(&self.drive, &self.stance);
    }

    /// Turns a few shafts, a little or a lot, either way.
    pub fn stir(&mut self) {
        for _ in 0..self.rng.usize(0..6) {
            let k = self.rng.usize(0..self.drive.sprockets().len());
            let most = [5.0, 60.0, 5000.0][self.rng.usize(0..3)];
            let to = self.cord.turned()[k].plus(between(&mut self.rng, -most, most)).tidy();
            self.turn(k, to);
        }
    }

    /// Turns shaft `k`.
    pub fn turn(&mut self, k: usize, to: Turned) {
        self.cord.turn(&self.drive, &self.stance, k, to);
    }

    /// Slack of run `j` by the cord's own equation, mm, with nothing rounded away: teeth · pitch, less
    /// the path, and what its two ends have paid out and taken up.
    pub fn slack_mm(&self, j: usize) -> f64 {
        let next = (j + 1) % self.drive.sprockets().len();
        let (out, taken) = (self.cord.turned()[j], self.cord.turned()[next]);
        let crank_turn_mm = f64::from(self.drive.crank_teeth()) * self.drive.belt().pitch_mm;
        let turns = (out.turns - taken.turns) as f64 + (out.deg - taken.deg) / 360.0;
        let teeth = self.cord.teeth(&self.drive, j) as f64;
        teeth * self.drive.belt().pitch_mm - self.stance.run_mm[j] + turns * crank_turn_mm
    }

    /// All slack together, mm: the belt less the path.
    pub fn all_slack_mm(&self) -> f64 {
        self.drive.belt().pitch_length_mm() - self.stance.path.length_mm
    }

    /// The same as crank degrees.
    pub fn all_slack_deg(&self) -> f64 {
        self.all_slack_mm() / self.drive.mm_per_crank_deg()
    }
}
