//! Ten layouts unlike those that ship, with their true counts: each adds up; each broken in one way, in every
//! way that people break one, has the true cause among the first three, wherever the slip changes the fit.
//!
//! Must not know: how a slip is found.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use layout::{Plan, Sketch};
use proofs::broken::{KINDS, broken};
use std::collections::BTreeMap;

/// The layouts of a folder beside this one, with their names, in order.
fn folder(name: &str) -> Vec<(String, String)> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(name);
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "toml"))
        .collect();
    files.sort();
    let read = |path: std::path::PathBuf| {
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        (name, std::fs::read_to_string(path).unwrap())
    };
    files.into_iter().map(read).collect()
}

#[test]
fn layouts_that_are_right_add_up() {
    let files = folder("own");
    assert_eq!(files.len(), 10);
    for (name, text) in files {
        Plan::open(&text).unwrap();
        let answer = advice::adds_up(&text).unwrap();
        assert!(answer.adds_up && answer.causes.is_empty(), "{name}: {answer:?}");
        assert!(!answer.counts.is_empty(), "{name}");
    }
}

#[derive(Default, Debug)]
struct Tally {
    slips: usize,
    unreadable: usize,
    adds_up: usize,
    first: usize,
    first_three: usize,
    missed: Vec<String>,
}

#[test]
fn the_true_cause_is_among_the_first_three() {
    let mut tallies: BTreeMap<&str, Tally> = BTreeMap::new();
    let mut hidden: Vec<(String, &str)> = Vec::new();
    for (name, text) in folder("own") {
        let right = Sketch::of(&text).unwrap();
        let true_answer = advice::adds_up(&text).unwrap();
        let mut seen = Vec::new();
        for slip in broken(&text, &right.layout) {
            let tally = tallies.entry(slip.kind).or_default();
            tally.slips += 1;
            let Some(answer) = advice::adds_up(&slip.text) else {
                tally.unreadable += 1;
                continue;
            };
            if answer.adds_up {
                tally.adds_up += 1;
                // Nothing to be seen: neither belt nor counts move by half a tooth.
                let moved = |a: f64, b: f64| assert!((a - b).abs() < 0.6, "{name}: {}", slip.what);
                moved(answer.misfit_teeth.unwrap(), true_answer.misfit_teeth.unwrap());
                for (a, b) in answer.counts.iter().zip(&true_answer.counts) {
                    moved(a.misfit_teeth, b.misfit_teeth);
                }
                continue;
            }
            seen.push(slip.kind);
            let undone = |cause: &advice::Cause| {
                let text = cause.applied(&slip.text).unwrap();
                Sketch::of(&text).is_some_and(|sketch| sketch.parts == right.parts)
            };
            match answer.causes.iter().position(undone) {
                Some(0) => tally.first += 1,
                Some(1 | 2) => tally.first_three += 1,
                at => {
                    let told: Vec<_> = answer
                        .causes
                        .iter()
                        .map(|c| format!("{} {} {:.2}", c.key, c.to, c.fits_to_teeth))
                        .collect();
                    let left: f64 = answer.misfit_teeth.unwrap_or(f64::NAN);
                    tally.missed.push(format!("{name}: {} ({left:.2}) {at:?} {told:?}", slip.what));
                }
            }
        }
        hidden.extend(KINDS.iter().filter(|k| !seen.contains(*k)).map(|k| (name.clone(), *k)));
    }
    let (mut slips, mut first, mut first_three) = (0, 0, 0);
    for kind in KINDS {
        let t = &tallies[kind];
        println!(
            "{kind}: {} slips, {} unreadable, {} add up, {} first, {} second or third, {} missed",
            t.slips,
            t.unreadable,
            t.adds_up,
            t.first,
            t.first_three,
            t.missed.len()
        );
        slips += t.slips - t.unreadable - t.adds_up;
        first += t.first;
        first_three += t.first + t.first_three;
        // A nought gone from the front of a pivot's place leaves little to tell the pivots by.
        let allowed = if kind == "nought" { 1 } else { 0 };
        assert!(t.missed.len() <= allowed, "{kind}: {:#?}", t.missed);
        assert!(t.first > 0, "{kind}");
    }
    println!("{slips} change the fit: {first} first, {first_three} among the first three");
    println!("none of this kind changes this layout's fit: {hidden:?}");
    assert!(slips > 800 && first * 10 > slips * 9, "{first} of {slips}");
}

/// Files of all sorts, sound and broken: an answer or none, and every figure a number.
#[test]
fn whatever_can_be_read_has_an_answer() {
    let mut rng = fastrand::Rng::with_seed(7);
    let shipped = folder("../layouts");
    let (mut right, mut explained) = (0, 0);
    for round in 0..1500 {
        let (name, text) = &shipped[round % shipped.len()];
        let other = &shipped[rng.usize(..shipped.len())].1;
        let text =
            if round < 6 { text.clone() } else { proofs::slip::slipped(&mut rng, text, other) };
        let Some(answer) = advice::adds_up(&text) else { continue };
        assert!(round >= 6 || answer.adds_up, "{name}: {answer:?}");
        assert_eq!(answer.adds_up, answer.adds_up && answer.causes.is_empty());
        right += usize::from(answer.adds_up);
        explained += usize::from(!answer.causes.is_empty());
        for cause in &answer.causes {
            let changed = cause.applied(&text).unwrap();
            assert!(cause.fits_to_teeth.is_finite() && changed != text, "{cause:?}");
            let then = advice::adds_up(&changed);
            assert!(then.is_some_and(|then| then.misfit_teeth.is_some()), "{cause:?}");
        }
    }
    assert!(right > 100 && explained > 50, "{right} {explained}");
}
