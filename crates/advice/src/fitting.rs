//! Hanging the belt, worked out before anybody touches it: which count decides, how far the crank can be
//! backed off, where a tooth more or less lands it, and how sure all that is.
//!
//! Must not know: where any shaft stands just now, or what has been done.
//!
//! With the shafts before it held on their marks, the crank comes forward until the belt into it, the
//! *pulled run*, is tight. It then stands where that run's teeth put it: n teeth more, n teeth ahead. How
//! far it was backed off before is working room and nothing else.

use crate::count_range::{CountKnown, count_known, holds_within_mm};
use crate::report::marked;
use drive::{Drive, Gap, clears_with_mm, path_doubt, thread_order};
use layout::Plan;
use serde::Serialize;

/// Rows of the landing table either side of the right count.
const LANDING_ROWS: i64 = 2;

/// Room in the pulled run that makes hanging easy, teeth. Common practice backs the crank off two teeth,
/// sometimes three (no source): this is what two leave where the geometry comes out even.
const EASY_ROOM_TEETH: f64 = 1.5;

/// A mark's place is told to a fraction of a tooth only while its own doubt is below this, teeth.
pub const TOLD_BELOW_TEETH: f64 = 0.25;

/// A difference below this is rounding, teeth.
const ROUNDING_TEETH: f64 = 1e-9;

/// The answer up front.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fitting {
    /// The run that the crank pulls: from the last marked sprocket into the crank.
    pub pulled_run: PulledRun,
    /// Most whole teeth that the crank can be backed off with every other marked shaft on its mark and
    /// the tensioner right back.
    pub most_teeth_back_off: i64,
    /// Whether the doubt about the centres leaves that number certain; null where the layout gives none.
    pub most_teeth_back_off_certain: Option<bool>,
    /// Teeth to back it off: enough for room in the pulled run, no more than there are.
    pub teeth_to_back_off: i64,
    /// Slack in the pulled run then, teeth.
    pub room_in_pulled_run_teeth: f64,
    /// Slack left in the run that leaves the crank then, teeth.
    pub room_leaving_crank_teeth: f64,
    /// Whether the tensioner stands in the run that leaves the crank: only its slack lets the crank back.
    pub tensioner_leaves_crank: bool,
    /// Slack in the whole belt with the tensioner right back, teeth.
    pub slack_when_back_teeth: f64,
    /// Slack in the whole belt with the tensioner bolted up, before it pulls, mm.
    pub slack_when_bolted_mm: f64,
    /// Where the crank lands with each count, the right one in the middle.
    pub landing: Vec<Landing>,
    /// What the best tooth leaves of each mark but the crank's.
    pub best_tooth: Vec<BestTooth>,
    /// How far each mark lags more when it is come up to backwards than forwards, with the tensioner
    /// bolted up.
    pub lash: Vec<Lash>,
    /// How near each sprocket's belt is to jumping a tooth. An estimate.
    pub jump_margin: Vec<JumpMargin>,
    /// Ids of the wheels in an order in which to lay the belt on.
    pub thread_order: Vec<String>,
    /// Teeth to count on the old belt and to paint on the new one.
    pub counts: Vec<PaintCount>,
    /// How far off a wheel's centre may be, mm, as the layout says; null where it does not.
    pub centres_good_to_mm: Option<f64>,
    /// Whether all but some counts is made up: what rests on it is no answer then.
    pub provisional: bool,
    /// What is known of the count in the pulled run.
    pub pulled_run_known: CountKnown,
}

/// The run that decides.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PulledRun {
    /// The last marked wheel before the crank.
    pub from: String,
    /// The crank.
    pub to: String,
    /// Whole teeth between their reference grooves that land the crank on its mark.
    pub teeth: i64,
}

/// A count in the pulled run, and what comes of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Landing {
    /// Teeth in the pulled run.
    pub teeth_in_pulled_run: i64,
    /// Where the crank lands, teeth from its mark, ahead positive, the last shaft held on its mark.
    pub crank_lands_teeth: f64,
    /// The same in crank degrees.
    pub crank_lands_deg: f64,
    /// Where each other mark reads once the belt is tight and the crank on its mark: wheel and teeth,
    /// ahead positive, in belt order.
    pub marks: Vec<MarkLands>,
}

/// A mark after tightening, the crank on its own.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MarkLands {
    /// The shaft.
    pub shaft: String,
    /// Teeth from its mark, ahead positive.
    pub teeth: f64,
    /// The same in the shaft's own degrees.
    pub deg: f64,
}

/// What the best tooth leaves.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BestTooth {
    /// The shaft.
    pub shaft: String,
    /// Teeth from dead on, ahead positive.
    pub teeth: f64,
    /// The same in the shaft's own degrees.
    pub deg: f64,
    /// Its doubt, teeth either way, from the doubt about the centres; null where the layout gives none.
    pub doubt_teeth: Option<f64>,
    /// Whether the doubt lets a fraction of a tooth be told; null without one.
    pub told: Option<bool>,
}

/// The lash at a mark.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Lash {
    /// The shaft.
    pub shaft: String,
    /// Degrees of that shaft; 0 for the crank, which is turned.
    pub deg: f64,
}

/// How near a sprocket's belt is to jumping a tooth.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct JumpMargin {
    /// The wheel.
    pub wheel: String,
    /// Slack over what its whole wrap needs to clear, with the tensioner bolted up: warn from 0.5.
    pub margin: f64,
    /// The same with the tensioner right back.
    pub margin_right_back: f64,
    /// Belt that its whole wrap needs to clear, mm.
    pub needs_mm: f64,
}

/// Teeth between two neighbouring marks.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PaintCount {
    /// The wheel counted from.
    pub from: String,
    /// The wheel counted to, along the travel.
    pub to: String,
    /// Between their reference grooves, the ones nearest the middle of each wrap.
    pub teeth: i64,
    /// From the middle of the one wrap to the middle of the other, in pitches: what lies between if no
    /// groove is counted from.
    pub between_wrap_middles_teeth: f64,
    /// How far the reference groove at `from` is past that wheel's mark, teeth, forward positive.
    pub from_past_mark_teeth: f64,
    /// Whether somebody's count ties the two ends together.
    pub counted: bool,
    /// How far off every wheel's centre may be before this count would be another, mm; null where
    /// somebody counted.
    pub holds_within_mm: Option<f64>,
    /// Whether the doubt about the centres leaves the count certain; null where the layout states none
    /// and nobody counted.
    pub certain: Option<bool>,
    /// Between which counts that leaves it.
    pub known: CountKnown,
}

/// The answer for a plan.
pub fn fitting(plan: &Plan) -> Fitting {
    let drive = &plan.drive;
    let pitch_mm = drive.belt().pitch_mm;
    let gaps = drive.gaps();
    let in_time = drive.gap_teeth_in_time();
    let (first, last) = (0, gaps.len() - 1);
    let back = drive.stance_at(drive.tensioner().right_back);
    let bolted = drive.stance_at(plan.bolted_travel().unwrap_or(drive.taut().travel));
    let spans = |stance: &drive::Stance, gap: Gap| -> f64 {
        drive.runs_of(gap).map(|j| stance.run_mm[j]).sum::<f64>() / pitch_mm
    };
    let belt_mm = drive.belt().pitch_length_mm();
    let slack_when_back_teeth = drive.slack_when_back_mm() / pitch_mm;
    let slack_when_bolted_mm = positive(belt_mm - bolted.path.length_mm);
    // With every other mark up, backing off by k takes k teeth out of the run that leaves the crank.
    let leaving = in_time[first] as f64 - spans(&back, gaps[first]);
    let most_teeth_back_off = positive(libm::floor(leaving + ROUNDING_TEETH)) as i64;
    let pulled = in_time[last] as f64 - spans(&back, gaps[last]);
    let wanted = positive(libm::ceil(EASY_ROOM_TEETH - pulled - ROUNDING_TEETH)) as i64;
    let teeth_to_back_off = wanted.min(most_teeth_back_off);
    let leaves = in_time[last] as f64 - spans(drive.taut_stance(), gaps[last]);
    let doubt = path_doubt(drive);
    let counts: Vec<PaintCount> =
        (0..gaps.len()).map(|g| paint_count(plan, gaps[g], in_time[g], &doubt)).collect();
    Fitting {
        pulled_run: PulledRun {
            from: id(plan, gaps[last].from),
            to: id(plan, gaps[last].to),
            teeth: in_time[last],
        },
        most_teeth_back_off,
        most_teeth_back_off_certain: plan.layout.centres_good_to_mm.map(|mm| {
            let doubt_teeth = doubt[gaps[first].to] * mm / pitch_mm;
            let over = leaving - libm::floor(leaving);
            doubt_teeth < over && doubt_teeth < 1.0 - over
        }),
        teeth_to_back_off,
        room_in_pulled_run_teeth: positive(pulled + teeth_to_back_off as f64),
        room_leaving_crank_teeth: positive(leaving - teeth_to_back_off as f64),
        tensioner_leaves_crank: drive.runs_of(gaps[first]).any(|j| j == drive.tensioner_run()),
        slack_when_back_teeth,
        slack_when_bolted_mm,
        landing: (-LANDING_ROWS..=LANDING_ROWS)
            .map(|more| landing(plan, in_time[last], more, leaves))
            .collect(),
        best_tooth: marked(drive)
            .filter(|k| *k != 0)
            .map(|k| best_tooth(plan, k, doubt[k] / pitch_mm))
            .collect(),
        lash: marked(drive)
            .map(|k| {
                let crank_deg = slack_when_bolted_mm / drive.mm_per_crank_deg();
                let deg = if k == 0 { 0.0 } else { at_shaft(drive, k, crank_deg) };
                Lash { shaft: id(plan, k), deg }
            })
            .collect(),
        jump_margin: (0..drive.sprockets().len())
            .map(|k| {
                let needs_mm = clears_with_mm(drive, drive.taut_stance(), k);
                JumpMargin {
                    wheel: id(plan, k),
                    margin: slack_when_bolted_mm / clears_with_mm(drive, &bolted, k),
                    margin_right_back: drive.slack_when_back_mm() / clears_with_mm(drive, &back, k),
                    needs_mm,
                }
            })
            .collect(),
        thread_order: thread_order(drive).into_iter().map(|i| plan.id(i).to_owned()).collect(),
        centres_good_to_mm: plan.layout.centres_good_to_mm,
        provisional: plan.layout.provisional,
        pulled_run_known: counts.last().map_or(CountKnown::Exactly, |count| count.known),
        counts,
    }
}

fn landing(plan: &Plan, in_time: i64, more: i64, leaves: f64) -> Landing {
    let drive = &plan.drive;
    let crank_lands_teeth = leaves + more as f64;
    Landing {
        teeth_in_pulled_run: in_time + more,
        crank_lands_teeth,
        crank_lands_deg: crank_lands_teeth * drive.crank_deg_per_tooth(),
        marks: marked(drive)
            .filter(|k| *k != 0)
            .map(|k| {
                let teeth = drive.best_tooth_deg()[k] / drive.crank_deg_per_tooth() - more as f64;
                MarkLands { shaft: id(plan, k), teeth, deg: teeth_deg(drive, k, teeth) }
            })
            .collect(),
    }
}

fn best_tooth(plan: &Plan, k: usize, doubt_teeth_per_mm: f64) -> BestTooth {
    let drive = &plan.drive;
    let teeth = drive.best_tooth_deg()[k] / drive.crank_deg_per_tooth();
    let doubt_teeth = plan.layout.centres_good_to_mm.map(|mm| doubt_teeth_per_mm * mm);
    BestTooth {
        shaft: id(plan, k),
        teeth,
        deg: teeth_deg(drive, k, teeth),
        doubt_teeth,
        told: doubt_teeth.map(|doubt| doubt < TOLD_BELOW_TEETH),
    }
}

fn paint_count(plan: &Plan, gap: Gap, teeth: i64, doubt: &[f64]) -> PaintCount {
    let drive = &plan.drive;
    let pitch_mm = drive.belt().pitch_mm;
    let counted = tied(drive, gap);
    let holds = |k: usize| holds_within_mm(plan, k, doubt);
    let (a, b) = (holds(gap.from), holds(gap.to));
    let within_mm = if a < b { a } else { b };
    let holds_within_mm = (!counted && within_mm.is_finite()).then_some(within_mm);
    let good_to = plan.layout.centres_good_to_mm;
    let stance = drive.taut_stance();
    let past_middle = |k: usize| (stance.before_mm[k] - stance.after_mm[k]) / 2.0;
    let along: f64 = drive.runs_of(gap).map(|j| stance.run_mm[j]).sum();
    let middles_mm = along + past_middle(gap.from) - past_middle(gap.to);
    PaintCount {
        from: id(plan, gap.from),
        to: id(plan, gap.to),
        teeth,
        between_wrap_middles_teeth: middles_mm / pitch_mm,
        from_past_mark_teeth: drive.sprockets()[gap.from].past_mark_teeth.unwrap_or(0.0),
        counted,
        holds_within_mm,
        known: count_known(plan, gap, teeth, along / pitch_mm, doubt),
        certain: if counted { Some(true) } else { good_to.map(|mm| mm < within_mm) },
    }
}

/// Whether counts tie the two ends of a gap together, directly or by others.
pub(crate) fn tied(drive: &Drive, gap: Gap) -> bool {
    let wheel = |k: usize| drive.sprockets()[k].wheel;
    let (from, to) = (wheel(gap.from), wheel(gap.to));
    let mut reached = vec![from];
    let mut at = 0;
    while let Some(here) = reached.get(at).copied() {
        for count in drive.counted() {
            for (a, b) in [(count.from, count.to), (count.to, count.from)] {
                if a == here && !reached.contains(&b) {
                    reached.push(b);
                }
            }
        }
        at += 1;
    }
    from != to && reached.contains(&to)
}

/// Crank degrees of belt travel in degrees of sprocket `k`.
pub(crate) fn at_shaft(drive: &Drive, k: usize, crank_deg: f64) -> f64 {
    crank_deg * f64::from(drive.crank_teeth()) / f64::from(drive.sprockets()[k].teeth)
}

fn teeth_deg(drive: &Drive, k: usize, teeth: f64) -> f64 {
    teeth * 360.0 / f64::from(drive.sprockets()[k].teeth)
}

fn id(plan: &Plan, k: usize) -> String {
    plan.id(plan.drive.sprockets()[k].wheel).to_owned()
}

fn positive(x: f64) -> f64 {
    if x > 0.0 { x } else { 0.0 }
}
