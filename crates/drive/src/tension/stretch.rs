//! What tension does to the belt's length, and with it to the marks and the tensioner.
//!
//! Must not know: teeth out, slack.
//!
//! A run stretches by tension over EA times its *physical* length: its spans, its smooth wraps and half of
//! either end's wrap, since a sprocket's teeth take the tension up round its wrap. So it does not depend on
//! which groove somebody counts from. The tensioner follows: Σ stretch = (dL/dq)·Δq. A shaft moves by what
//! the runs between it and the crank have stretched, less what the tensioner's run takes back.

use crate::drive::Drive;
use crate::tension::spans::{shared_lengths_mm, tensioner_lever};
use alloc::vec;
use alloc::vec::Vec;

/// How far everything has moved from where the belt was tight but not stretched, the crank standing still.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Moves {
    /// Travel of the tensioner, mm or radians, tightening positive.
    pub travel: f64,
    /// For each sprocket in belt order, belt travel at its pitch circle, mm, ahead positive; 0 for the crank.
    pub sprockets_mm: Vec<f64>,
}

/// How much each run is longer than without tension, mm. `spans_n` are the tensions of the spans, N;
/// `stiffness_n` is EA, force over strain, N, above 0.
pub fn stretch_mm(drive: &Drive, spans_n: &[f64], stiffness_n: f64) -> Vec<f64> {
    let lengths = shared_lengths_mm(drive);
    let mut runs = vec![0.0; drive.sprockets().len()];
    let mut run = 0;
    for (i, (length, tension)) in lengths.iter().zip(spans_n).enumerate() {
        if let Some(k) = drive.sprocket_of(i) {
            run = k;
        }
        runs[run] += tension * length / stiffness_n;
    }
    runs
}

/// Where the runs' stretch, mm, takes marks and tensioner, to first order.
pub fn moves(drive: &Drive, stretch_mm: &[f64]) -> Moves {
    let travel = stretch_mm.iter().sum::<f64>() / drive.taut().length_rate;
    let growth = run_rates(drive);
    let mut along = 0.0;
    let step = |(stretch, rate): (&f64, &f64)| {
        let here = along;
        along += stretch - rate * travel;
        here
    };
    let sprockets_mm = stretch_mm.iter().zip(&growth).map(step).collect();
    Moves { travel, sprockets_mm }
}

/// How fast the path of each run grows with the tensioner's travel, mm per mm or mm per radian: all in one
/// run, or in the two beside a tensioner that is itself a sprocket.
fn run_rates(drive: &Drive) -> Vec<f64> {
    let t = drive.tensioner().wheel;
    let path = &drive.taut_stance().path;
    let lever = tensioner_lever(drive);
    let mut rates = vec![0.0; drive.sprockets().len()];
    let run_of =
        |span: usize| (0..=span).rev().find_map(|wheel| drive.sprocket_of(wheel)).unwrap_or(0);
    let before = if t == 0 { path.len() - 1 } else { t - 1 };
    rates[run_of(before)] += path.arriving(t).direction.dot(lever);
    rates[run_of(t)] -= path.spans[t].direction.dot(lever);
    rates
}
