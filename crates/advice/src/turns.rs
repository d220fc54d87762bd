//! The marks, each time the crank's own mark comes up.
//!
//! Must not know: how a table is drawn.

use crate::HALF_A_TOOTH;
use crate::report::marked;
use drive::{Turned, mark_error_teeth, returns_after_crank_turns, stripe_drift_teeth};
use job::Job;

/// Most rows that the table has.
const MOST_ROWS: u64 = 6;

/// What turning on from here would show.
#[derive(Clone, Debug, PartialEq)]
pub struct MarksAtTurns {
    /// Index of each marked wheel, in belt order, the crank first.
    pub wheels: Vec<usize>,
    /// Crank turns after which each of these comes back to its mark.
    pub returns_after: Vec<u64>,
    /// A row for each time that the crank's mark comes up, the first at or ahead of where it stands.
    pub rows: Vec<TurnRow>,
}

/// The marks at one whole turn of the crank.
#[derive(Clone, Debug, PartialEq)]
pub struct TurnRow {
    /// The crank's whole turns from the start.
    pub crank_turns: i64,
    /// Each marked shaft, in the order of [`MarksAtTurns::wheels`].
    pub marks: Vec<MarkAtTurn>,
    /// How far past the crank's mark its stripe stands, belt teeth.
    pub stripe_past_mark_teeth: u32,
}

/// One mark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkAtTurn {
    /// Teeth from its cover mark, ahead positive.
    pub error_teeth: f64,
    /// Whether that is on, to the nearest tooth.
    pub on: bool,
}

/// Turns a copy of the job forward, from mark to mark of the crank.
pub fn marks_at_turns(job: &Job) -> MarksAtTurns {
    let drive = job.drive();
    let marked: Vec<usize> = marked(drive).collect();
    let teeth = |k: usize| drive.sprockets()[k].teeth;
    let returns_after: Vec<u64> =
        marked.iter().map(|k| returns_after_crank_turns(teeth(*k), drive.crank_teeth())).collect();
    let longest = returns_after.iter().copied().max().unwrap_or(1);
    let rows = longest.clamp(2, MOST_ROWS) + 1;
    let crank = job.crank();
    let first = if crank.deg > 0.0 { crank.turns + 1 } else { crank.turns };
    let mut cord = job.cord().clone();
    for k in 0..cord.holds().len() {
        // What they will read once everything is let go.
        cord.hold(k, None);
    }
    let rows = (0..rows as i64)
        .map(|row| {
            let crank_turns = first + row;
            cord.turn(drive, job.stance(), 0, Turned { turns: crank_turns, deg: 0.0 });
            TurnRow {
                crank_turns,
                marks: marked
                    .iter()
                    .map(|k| {
                        let error =
                            mark_error_teeth(cord.turned()[*k], teeth(*k), drive.crank_teeth());
                        MarkAtTurn { error_teeth: error, on: error.abs() < HALF_A_TOOTH }
                    })
                    .collect(),
                stripe_past_mark_teeth: stripe_drift_teeth(
                    crank_turns,
                    drive.belt().teeth,
                    drive.crank_teeth(),
                ),
            }
        })
        .collect();
    let wheels = marked.iter().map(|k| drive.sprockets()[*k].wheel).collect();
    MarksAtTurns { wheels, returns_after, rows }
}
