//! Putting the belt on: with so many teeth between the marks, or as it falls.
//!
//! Must not know: how a person counted, or whether the tensioner leaves room.
//!
//! A *gap* is the belt from one anchor to the next along its travel; the crank and every marked sprocket
//! are anchors. A sprocket without a mark takes whichever groove comes.

use super::{Cord, Seat};
use crate::drive::Drive;
use crate::mesh::Stance;
use crate::turned::Turned;
use crate::units::wrap_to;
use alloc::vec::Vec;

/// Hanging a belt, a shaft is nudged this far to meet a groove, teeth; further it must be turned first.
/// Just one tooth is common, where shafts stand in time: rounding must not decide it.
const NUDGE_TEETH: f64 = 1.0 + 1e-6;

/// Belt from one anchor to the next. Both are sprockets by index; the same one where there is no other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Gap {
    /// The anchor that it leaves.
    pub from: usize,
    /// The anchor that it meets.
    pub to: usize,
}

/// A gap that the teeth asked for do not reach across.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TooShort {
    /// The gap.
    pub gap: Gap,
    /// By how many teeth, above 0.
    pub teeth: f64,
}

impl Drive {
    /// The gaps in belt order; the first leaves the crank, the last meets it.
    pub fn gaps(&self) -> Vec<Gap> {
        let mut gaps = Vec::new();
        let mut from = 0;
        for k in 1..self.sprockets().len() {
            if self.is_marked(k) {
                gaps.push(Gap { from, to: k });
                from = k;
            }
        }
        gaps.push(Gap { from, to: 0 });
        gaps
    }

    /// The runs of a gap, along the travel.
    pub fn runs_of(&self, gap: Gap) -> impl Iterator<Item = usize> {
        let end = if gap.to == 0 { self.sprockets().len() } else { gap.to };
        gap.from..end
    }

    /// The run in which the tensioner stands; of two, for a toothed one, the run into it.
    pub fn tensioner_run(&self) -> usize {
        let wheel = self.tensioner().wheel;
        let before = self.sprockets().iter().take_while(|s| s.wheel < wheel).count();
        before.saturating_sub(1)
    }

    /// Whole teeth in each gap with every mark in time.
    pub fn gap_teeth_in_time(&self) -> Vec<i64> {
        let teeth = |gap: &Gap| self.runs_of(*gap).map(|j| self.teeth_in_time()[j]).sum();
        self.gaps().iter().map(teeth).collect()
    }
}

impl Cord {
    /// Takes the belt off: every sprocket then turns by itself.
    pub fn take_off(&mut self) {
        self.on = false;
    }

    /// Belt teeth in `gap` as it is hung.
    pub fn gap_teeth(&self, drive: &Drive, gap: Gap) -> i64 {
        drive.runs_of(gap).map(|j| self.teeth(drive, j)).sum()
    }

    /// Slack in `gap`, mm.
    pub fn gap_slack_mm(&self, drive: &Drive, stance: &Stance, gap: Gap) -> f64 {
        drive.runs_of(gap).map(|j| self.slack_mm(drive, stance, j)).sum()
    }

    /// The teeth with which the belt falls into place on shafts that stand as they do: in each gap the
    /// whole number nearest to what it spans, the rest in the tensioner's gap.
    pub fn teeth_as_it_falls(&self, drive: &Drive, stance: &Stance) -> Vec<i64> {
        let mut at = self.clone();
        at.count_anew(drive);
        let gaps = drive.gaps();
        let tensioner = tensioner_gap(drive, &gaps);
        let spans = |gap: &Gap| libm::ceil(at.span_teeth(drive, stance, *gap) - 0.5) as i64;
        let mut teeth: Vec<i64> = gaps.iter().map(spans).collect();
        let others: i64 = (0..gaps.len()).filter(|g| *g != tensioner).map(|g| teeth[g]).sum();
        teeth[tensioner] = i64::from(drive.belt().teeth) - others;
        teeth
    }

    /// Puts the belt on with these teeth in each gap, which must sum to the belt's, shafts standing as
    /// they do. Turns are counted anew, so that every mark that is up counts as up. Where a gap is a
    /// little short a shaft gives way, held ones last; gives each held one that had to, with crank
    /// degrees, forward positive.
    ///
    /// # Errors
    /// The gap that falls most short, where that is more than one tooth; nothing has changed then.
    pub fn put_on(
        &mut self,
        drive: &Drive,
        stance: &Stance,
        gap_teeth: &[i64],
    ) -> Result<Vec<(usize, f64)>, TooShort> {
        let mut hung = self.clone();
        hung.count_anew(drive);
        let gaps = drive.gaps();
        let mut worst: Option<TooShort> = None;
        for (gap, teeth) in gaps.iter().zip(gap_teeth) {
            let short = hung.span_teeth(drive, stance, *gap) - *teeth as f64;
            if short > NUDGE_TEETH && worst.is_none_or(|w| short > w.teeth) {
                worst = Some(TooShort { gap: *gap, teeth: short });
            }
        }
        if let Some(worst) = worst {
            return Err(worst);
        }
        let mut out = 0;
        for (gap, teeth) in gaps.iter().zip(gap_teeth) {
            hung.teeth_out[gap.from] = out;
            hung.share(drive, stance, *gap, *teeth);
            let in_time: i64 = drive.runs_of(*gap).map(|j| drive.teeth_in_time()[j]).sum();
            out += teeth - in_time;
        }
        hung.on = true;
        let forced = hung.give_way_against_holds(drive, stance);
        *self = hung;
        Ok(forced)
    }

    /// What `gap` spans as its anchors stand, in belt pitches.
    fn span_teeth(&self, drive: &Drive, stance: &Stance, gap: Gap) -> f64 {
        let path_mm: f64 = drive.runs_of(gap).map(|j| stance.run_mm[j]).sum();
        let lead_deg = self.turned[gap.from].since(self.turned[gap.to]);
        path_mm / drive.belt().pitch_mm - lead_deg / drive.crank_deg_per_tooth()
    }

    /// Shares `teeth` of a gap out among its runs: every sprocket without a mark takes the groove that
    /// leaves the least slack on the side away from where slack belongs, which is the tensioner's run,
    /// or else the run into the gap's end.
    fn share(&mut self, drive: &Drive, stance: &Stance, gap: Gap, teeth: i64) {
        let runs: Vec<usize> = drive.runs_of(gap).collect();
        let Some(last) = runs.last() else { return };
        let slack_run = drive.tensioner_run();
        let slack_run = if runs.contains(&slack_run) { slack_run } else { *last };
        let pitch_mm = drive.belt().pitch_mm;
        let per_tooth = drive.crank_deg_per_tooth();
        // Teeth that run j needs with its ends as they stand.
        let needs = |cord: &Self, j: usize| {
            let lead = cord.turned[j].since(cord.turned[drive.next(j)]) / per_tooth;
            libm::ceil(stance.run_mm[j] / pitch_mm - lead - 1e-9) as i64
        };
        for &j in runs.iter().take_while(|j| **j != slack_run) {
            let to = drive.next(j);
            self.teeth_out[to] = self.teeth_out[j] + needs(self, j) - drive.teeth_in_time()[j];
        }
        // From the far end back: the anchor there is so many teeth out.
        let in_time: i64 = runs.iter().map(|j| drive.teeth_in_time()[*j]).sum();
        let mut out = self.teeth_out[gap.from] + teeth - in_time;
        for &j in runs.iter().rev().take_while(|j| **j != slack_run) {
            out -= needs(self, j) - drive.teeth_in_time()[j];
            self.teeth_out[j] = out;
        }
    }

    /// Counts every sprocket's turns anew: the crank from whichever whole turn brings the marks nearest
    /// to agreeing with it, every other from whichever of its own whole turns brings it nearest to the
    /// crank. Nothing moves: a sprocket turned by all its teeth looks as before.
    fn count_anew(&mut self, drive: &Drive) {
        let crank = self.turned[0].tidy();
        let nearest = crank.turns + i64::from(crank.deg > 180.0);
        let disagreement = |cord: &Self, off: i64| -> f64 {
            let crank = Turned { turns: crank.turns - nearest - off, deg: crank.deg };
            let marked = (1..cord.turned.len()).filter(|k| drive.is_marked(*k));
            marked
                .map(|k| {
                    let ahead = cord.turned[k].since(crank) / drive.crank_deg_per_tooth();
                    wrap_to(ahead, f64::from(drive.sprockets()[k].teeth)).abs()
                })
                .sum()
        };
        let mut best = (disagreement(self, 0), 0);
        for off in [-1, 1] {
            let here = disagreement(self, off);
            if here < best.0 - 1e-6 {
                best = (here, off);
            }
        }
        let turns = nearest + best.1;
        self.count_from(0, Turned { turns, deg: 0.0 });
        for k in 1..self.turned.len() {
            let z = f64::from(drive.sprockets()[k].teeth);
            let ahead = self.turned[k].since(self.turned[0]) / drive.crank_deg_per_tooth();
            let whole = libm::round(ahead - wrap_to(ahead, z)) as i64;
            let crank_teeth = i64::from(drive.crank_teeth());
            let rest = whole.rem_euclid(crank_teeth) as f64 * drive.crank_deg_per_tooth();
            self.count_from(k, Turned { turns: whole.div_euclid(crank_teeth), deg: rest });
        }
    }

    fn count_from(&mut self, k: usize, start: Turned) {
        let from = |t: Turned| Turned { turns: t.turns - start.turns, deg: t.deg - start.deg };
        self.turned[k] = from(self.turned[k]);
        if let Seat::Loose { shaft } = &mut self.seats[k] {
            *shaft = from(*shaft);
        }
    }
}

/// Index of the gap that the tensioner stands in.
pub(super) fn tensioner_gap(drive: &Drive, gaps: &[Gap]) -> usize {
    let run = drive.tensioner_run();
    gaps.iter().position(|gap| drive.runs_of(*gap).any(|j| j == run)).unwrap_or(0)
}
