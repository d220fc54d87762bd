//! How long a call takes: the median over batches, in nanoseconds, beside the figure aimed at. It
//! reports and judges nothing: machines differ.
//!
//! Must not know: what is called.

use std::time::Instant;

/// An odd number, so that one is in the middle.
const BATCHES: usize = 201;
/// A batch runs about so long, ns.
const BATCH_NS: f64 = 2e6;

/// The median time of one call, ns.
fn median_ns(mut call: impl FnMut()) -> f64 {
    let mut calls = 1_u32;
    loop {
        let start = Instant::now();
        (0..calls).for_each(|_| call());
        let took = start.elapsed().as_nanos() as f64;
        if took > BATCH_NS / 4.0 {
            calls = ((f64::from(calls) * BATCH_NS / took) as u32).max(1);
            break;
        }
        calls *= 2;
    }
    let mut batches: Vec<f64> = (0..BATCHES)
        .map(|_| {
            let start = Instant::now();
            (0..calls).for_each(|_| call());
            start.elapsed().as_nanos() as f64 / f64::from(calls)
        })
        .collect();
    batches.sort_by(f64::total_cmp);
    batches[BATCHES / 2]
}

/// Prints the median time of one call beside what it is aimed at.
pub fn report(what: &str, aim_ns: Option<f64>, call: impl FnMut()) {
    let ns = median_ns(call);
    match aim_ns {
        Some(aim) => println!("{what:<44} {ns:>10.1} ns   aimed at {aim:.0}"),
        None => println!("{what:<44} {ns:>10.1} ns"),
    }
}
