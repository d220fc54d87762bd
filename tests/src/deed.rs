//! Random deeds on the slack belt: everything that a hand can do to it, in any order; and plain ways to
//! say what is held, where a mark stands and how far each gap spans.
//!
//! Must not know: what should come of a deed.

use crate::ring::between;
use crate::state::State;
use drive::{Cord, Drive, Fixing, Flaw, Gap, Hold, Seat, Stance, TooShort, Turned};

/// Teeth by which a random count differs from how the belt falls at the most.
const MOST_MISCOUNTED: i64 = 2;

/// One thing done.
#[derive(Clone, Debug, PartialEq)]
pub enum Deed {
    /// A sprocket turned to a place.
    Turn(usize, Turned),
    /// A shaft turned to a place.
    TurnShaft(usize, Turned),
    /// A sprocket turned exactly to where the belt into it is tight.
    BringForward(usize),
    /// Taken hold of.
    Hold(usize, Hold),
    /// Let go.
    Release(usize),
    /// Its bolt slackened.
    Slacken(usize),
    /// Its bolt tightened.
    Tighten(usize),
    /// The tensioner moved this far, if held shafts let it.
    Tensioner(f64),
    /// The belt taken off.
    TakeOff,
    /// The belt put on with these teeth in its gaps.
    PutOn(Vec<i64>),
    /// Springs left to themselves.
    Springs,
}

/// What came of a deed.
#[derive(Clone, Debug, PartialEq)]
pub enum Came {
    /// Nothing to say.
    Done,
    /// A turn, and what stopped it.
    Stopped(Option<usize>),
    /// The tensioner stands here now.
    Travel(f64),
    /// The belt went on, and these held ones gave; or it fell too short.
    Hung(Result<Vec<(usize, f64)>, TooShort>),
    /// These sprang.
    Sprang(Vec<(usize, f64)>),
}

impl State {
    /// A drive with sprockets that can float, springs and locks, in some state that deeds led to.
    ///
    /// # Errors
    /// None for a layout that is sound.
    pub fn handled(seed: u64) -> Result<Self, Vec<Flaw>> {
        let mut state = Self::with_more_to_do(seed)?;
        state.slacken();
        for _ in 0..state.rng.usize(4..16) {
            let deed = state.draw_deed();
            state.carry_out(&deed);
        }
        Ok(state)
    }

    /// Something that can be done just now.
    pub fn draw_deed(&mut self) -> Deed {
        let n = self.drive.sprockets().len();
        let k = self.rng.usize(0..n);
        let most = [5.0, 60.0, 5000.0][self.rng.usize(0..3)];
        let by = between(&mut self.rng, -most, most);
        let hold = if self.rng.bool() { Hold::Shaft } else { Hold::Sprocket };
        let floats = self.drive.wheels()[self.drive.sprockets()[k].wheel].fixing != Fixing::Keyed;
        match self.rng.u8(..27) {
            0..4 => Deed::Turn(k, self.cord.turned()[k].plus(by).tidy()),
            4..8 => Deed::TurnShaft(k, self.cord.shaft(k).plus(by).tidy()),
            8..10 => Deed::BringForward(k),
            10..13 => Deed::Hold(k, hold),
            13..15 => Deed::Release(k),
            15..19 if floats => Deed::Slacken(k),
            19 if floats => Deed::Tighten(k),
            20..23 => {
                let (back, taut) = (self.drive.tensioner().right_back, self.drive.taut().travel);
                let within = between(&mut self.rng, back, taut);
                Deed::Tensioner([back, within, within, taut][self.rng.usize(0..4)])
            }
            23 => Deed::TakeOff,
            24 | 25 => Deed::PutOn(self.draw_count()),
            _ => Deed::Springs,
        }
    }

    /// Teeth for each gap: in time, as the belt falls, or a little otherwise.
    pub fn draw_count(&mut self) -> Vec<i64> {
        let mut teeth = if self.rng.u8(..3) == 0 {
            self.drive.gap_teeth_in_time()
        } else {
            self.cord.teeth_as_it_falls(&self.drive, &self.stance)
        };
        if self.rng.bool() {
            let (from, to) = (self.rng.usize(..teeth.len()), self.rng.usize(..teeth.len()));
            let by = self.rng.i64(0..=MOST_MISCOUNTED);
            teeth[from] -= by;
            teeth[to] += by;
        }
        teeth
    }

    /// Does it.
    pub fn carry_out(&mut self, deed: &Deed) -> Came {
        let (drive, stance, cord) = (&self.drive, &self.stance, &mut self.cord);
        match deed {
            Deed::Turn(k, to) => Came::Stopped(cord.turn(drive, stance, *k, *to)),
            Deed::TurnShaft(k, to) => Came::Stopped(cord.turn_shaft(drive, stance, *k, *to)),
            Deed::BringForward(k) => {
                let to = cord.drawn_up(drive, stance, *k);
                Came::Stopped(cord.turn(drive, stance, *k, to))
            }
            Deed::Hold(k, hold) => {
                cord.hold(*k, Some(*hold));
                Came::Done
            }
            Deed::Release(k) => {
                cord.hold(*k, None);
                Came::Done
            }
            Deed::Slacken(k) => {
                cord.slacken(*k);
                Came::Done
            }
            Deed::Tighten(k) => {
                cord.tighten(*k);
                Came::Done
            }
            Deed::Tensioner(travel) => {
                let within = cord.travel_within_holds(drive, stance, *travel);
                self.stance = drive.stance_at(within);
                if cord.is_on() {
                    cord.give_way(drive, &self.stance);
                }
                Came::Travel(within)
            }
            Deed::TakeOff => {
                cord.take_off();
                Came::Done
            }
            Deed::PutOn(teeth) => Came::Hung(cord.put_on(drive, stance, teeth)),
            Deed::Springs => Came::Sprang(cord.spring_back(drive, stance)),
        }
    }

    /// What is held of sprocket `k`, and where that stands.
    pub fn held_at(&self, k: usize) -> Option<Turned> {
        Some(match self.cord.holds()[k]? {
            Hold::Shaft => self.cord.shaft(k),
            Hold::Sprocket => self.cord.turned()[k],
        })
    }

    /// How far each gap spans with the shafts as they look, belt pitches: turns that do not show left
    /// out. The crank is looked at from whichever turn the other marks agree with best; `None` where it is
    /// too near to tell.
    pub fn spans_teeth(&self) -> Option<Vec<f64>> {
        let places = looks(&self.drive, &self.cord)?;
        let span = |gap: &Gap| span_teeth(&self.drive, &self.stance, &places, *gap);
        Some(self.drive.gaps().iter().map(span).collect())
    }
}

fn span_teeth(drive: &Drive, stance: &Stance, places: &[f64], gap: Gap) -> f64 {
    let path_mm: f64 = drive.runs_of(gap).map(|j| stance.run_mm[j]).sum();
    path_mm / drive.belt().pitch_mm - places[gap.from] + places[gap.to]
}

/// Belt teeth that sprocket `k` is turned past its mark, in [0, z).
pub fn groove_phase(drive: &Drive, cord: &Cord, k: usize) -> f64 {
    let (z, crank) = (f64::from(drive.sprockets()[k].teeth), f64::from(drive.crank_teeth()));
    let t = cord.turned()[k];
    let whole = i128::from(t.turns) * i128::from(drive.crank_teeth());
    let whole = whole.rem_euclid(i128::from(drive.sprockets()[k].teeth)) as f64;
    (whole + t.deg * crank / 360.0).rem_euclid(z)
}

/// `a` − `b` the shorter way round a sprocket of `z`.
pub fn apart(a: f64, b: f64, z: f64) -> f64 {
    let off = (a - b).rem_euclid(z);
    if off > z / 2.0 { off - z } else { off }
}

/// Teeth that every sprocket looks to be past its mark, from where the crank looks to be.
fn looks(drive: &Drive, cord: &Cord) -> Option<Vec<f64>> {
    let z = |k: usize| f64::from(drive.sprockets()[k].teeth);
    let phases: Vec<f64> = (0..cord.turned().len()).map(|k| groove_phase(drive, cord, k)).collect();
    let from = |crank: f64| -> Vec<f64> {
        let mut places = vec![crank];
        places.extend((1..phases.len()).map(|k| crank + apart(phases[k], crank, z(k))));
        places
    };
    let disagreement = |places: &[f64]| -> f64 {
        let marked = (1..places.len()).filter(|k| drive.is_marked(*k));
        marked.map(|k| (places[k] - places[0]).abs()).sum()
    };
    let crank = apart(phases[0], 0.0, z(0));
    let ways = [0.0, 1.0, -1.0].map(|off| from(crank + off * z(0)));
    let mut best = ways[0].clone();
    let mut clear = true;
    for other in &ways[1..] {
        let better = disagreement(&best) - disagreement(other);
        // Equally well is clear too: then the first of them.
        clear &= better.abs() < 1e-9 || better.abs() > 1e-3;
        if better > 1e-6 {
            best.clone_from(other);
        }
    }
    // Also where the crank, or a shaft, looks as far one way round as the other.
    let halfway = |off: f64, z: f64| (off.abs() - z / 2.0).abs() < 1e-3;
    let lone = (1..best.len()).any(|k| halfway(best[k] - best[0], z(k)));
    (clear && !lone && !halfway(crank, z(0))).then_some(best)
}

/// What a random state shows that is easily left out: a proof counts that each really came.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Seen {
    /// Two marked shafts next to one another that cannot both be held on their marks.
    pub negative_leftover: u32,
    /// A mark that stands away from the belt when in time.
    pub mark_off_the_wrap: u32,
    /// A tensioner that stands in neither run of the crank.
    pub tensioner_off_the_crank: u32,
    /// A toothed tensioner.
    pub toothed_tensioner: u32,
    /// An arm or eccentric that tightens anticlockwise.
    pub anticlockwise_pivot: u32,
    /// Sprockets without a mark.
    pub unmarked: u32,
    /// Something held.
    pub held: u32,
    /// A sprocket afloat on a held shaft.
    pub afloat_and_held: u32,
    /// The belt off.
    pub off: u32,
}

impl Seen {
    /// Counts what `state` shows.
    pub fn see(&mut self, state: &State) {
        let (drive, cord) = (&state.drive, &state.cord);
        let taut = drive.taut_stance();
        let gaps = drive.gaps();
        let leftover = |gap: &Gap| {
            let path_mm: f64 = drive.runs_of(*gap).map(|j| taut.run_mm[j]).sum();
            let teeth: i64 = drive.runs_of(*gap).map(|j| drive.teeth_in_time()[j]).sum();
            teeth as f64 * drive.belt().pitch_mm - path_mm
        };
        let between_two = |gap: &&Gap| gap.from != 0 && gap.to != 0;
        let negative = gaps.iter().filter(between_two).any(|gap| leftover(gap) < -0.01);
        let off_the_wrap = drive.sprockets().iter().any(|s| {
            let wrap_teeth =
                taut.path.wraps_rad[s.wheel] * f64::from(s.teeth) / core::f64::consts::TAU;
            s.past_mark_teeth.is_some_and(|past| past.abs() > wrap_teeth / 2.0 + 0.5)
        });
        let run = drive.tensioner_run();
        let mover = &drive.wheels()[drive.tensioner().wheel];
        let off_the_crank = run != 0 && drive.next(run) != 0;
        let anticlockwise = matches!(
            drive.tensioner().carrier,
            drive::Carrier::Pivot { tightening: drive::Sense::Anticlockwise, .. }
        );
        let n = drive.sprockets().len();
        let afloat = |k: usize| {
            matches!(cord.seats()[k], Seat::Loose { .. }) && cord.holds()[k] == Some(Hold::Shaft)
        };
        self.negative_leftover += u32::from(negative);
        self.mark_off_the_wrap += u32::from(off_the_wrap);
        self.tensioner_off_the_crank += u32::from(off_the_crank);
        self.toothed_tensioner += u32::from(mover.teeth().is_some());
        self.anticlockwise_pivot += u32::from(anticlockwise);
        self.unmarked += u32::from((0..n).any(|k| !drive.is_marked(k)));
        self.held += u32::from(cord.holds().iter().any(Option::is_some));
        self.afloat_and_held += u32::from((0..n).any(afloat));
        self.off += u32::from(!cord.is_on());
    }

    /// Whether each came at all.
    pub fn all(&self) -> bool {
        [
            self.negative_leftover,
            self.mark_off_the_wrap,
            self.tensioner_off_the_crank,
            self.toothed_tensioner,
            self.anticlockwise_pivot,
            self.unmarked,
            self.held,
            self.afloat_and_held,
            self.off,
        ]
        .iter()
        .all(|count| *count > 0)
    }
}
