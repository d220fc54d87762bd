//! Layouts started from three counts, over wide ranges of all three: each opens, has exactly these counts,
//! and stands in time; what is refused is refused rightly.
//!
//! Must not know: how a start is found.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use layout::{Arrangement, Plan, Rim, StartRefused, start};
use words::Lang;
use words::start::start_words;

/// Belts are tried from too short up to this.
const LONGEST: u32 = 260;

fn started(kind: Arrangement, [crank, driven, belt]: [u32; 3]) -> Result<String, StartRefused> {
    start(kind, crank, driven, belt, &start_words(Lang::En, kind))
}

fn check(kind: Arrangement, counts: [u32; 3]) {
    let what = format!("{} {counts:?}", kind.word());
    let [crank, driven, belt] = counts;
    let text = match started(kind, counts) {
        Ok(text) => text,
        Err(refused) => panic!("{what}: {refused:?}"),
    };
    let plan = match Plan::open(&text) {
        Ok(plan) => plan,
        Err(problems) => panic!("{what}: {problems:?}\n{text}"),
    };
    let (drive, layout) = (&plan.drive, &plan.layout);
    assert!(layout.provisional && layout.centres_good_to_mm.is_some(), "{what}");
    assert_eq!(drive.belt().teeth, belt, "{what}");
    for (i, wheel) in layout.wheels.iter().enumerate() {
        match wheel.rim {
            Rim::Toothed { teeth } => {
                assert_eq!(teeth, if i == 0 { crank } else { driven }, "{what}")
            }
            Rim::Smooth { .. } => assert!(wheel.mark.is_none()),
        }
    }
    let tensioner = drive.tensioner();
    let (back, out) = (tensioner.right_back, tensioner.fully_out);
    let off_middle = (drive.taut().travel - (back + out) / 2.0).abs() / (out - back);
    assert!(off_middle < 0.2, "{what}: {off_middle}\n{text}");
    let report = advice::report(&plan);
    for shaft in &report.shafts {
        assert!(shaft.best_tooth_error_teeth.abs() < 1e-3, "{what}: {shaft:?}");
        assert_eq!(shaft.crank_degrees_per_tooth, 360.0 / f64::from(crank));
    }
    assert_eq!(report.counts.iter().map(|count| count.teeth).sum::<i64>(), i64::from(belt));
}

#[test]
fn whatever_three_counts_go_together_make_a_drive() {
    let (mut made, mut least_of_all) = (0, u32::MAX);
    for kind in Arrangement::ALL {
        for crank in 16..=32 {
            let usual = kind.usual_teeth(crank).unwrap_or(crank);
            for driven in [usual, crank, crank + 7, usual + usual / 4] {
                let least = match started(kind, [crank, driven, 20]) {
                    Ok(_) => 20,
                    Err(StartRefused::BeltTooShort { found: 20, least }) => least,
                    Err(refused) => panic!("{kind:?} {crank} {driven}: {refused:?}"),
                };
                least_of_all = least_of_all.min(least);
                for belt in (least..least + 12).chain((least + 12..=LONGEST).step_by(17)) {
                    check(kind, [crank, driven, belt]);
                    made += 1;
                }
            }
        }
    }
    println!("{made} made, the shortest belt {least_of_all}");
    assert!(made > 5000, "{made}");
}

#[test]
fn a_belt_that_cannot_be_drawn_between_others_is_not_called_too_short() {
    for (kind, counts) in
        [(Arrangement::ALL[0], [6, 6, 160]), (Arrangement::BalanceShaft, [7, 6, 290])]
    {
        let refused = started(kind, counts).unwrap_err();
        let StartRefused::NotDrawn { shorter, .. } = refused else { panic!("{refused:?}") };
        check(kind, [counts[0], counts[1], shorter]);
    }
}

#[test]
fn no_count_is_too_odd_for_an_answer() {
    let mut rng = fastrand::Rng::with_seed(1);
    for _ in 0..300 {
        let kind = Arrangement::ALL[rng.usize(..6)];
        let counts = [rng.u32(0..=210), rng.u32(0..=210), rng.u32(0..=420)];
        match started(kind, counts) {
            Ok(_) => check(kind, counts),
            Err(StartRefused::OutOfBounds { found, bounds, .. }) => {
                assert!(counts.contains(&found) && !bounds.allow(f64::from(found)));
            }
            Err(StartRefused::BeltTooShort { found, least }) => {
                assert_eq!(found, counts[2]);
                check(kind, [counts[0], counts[1], least]);
                // What is too short for it is too short at any lesser length.
                let shorter = rng.u32(10..found.max(11));
                assert!(started(kind, [counts[0], counts[1], shorter]).is_err());
            }
            Err(StartRefused::NotDrawn { found, shorter, longer }) => {
                assert!(found == counts[2] && shorter < found);
                for belt in longer.into_iter().chain([shorter]) {
                    check(kind, [counts[0], counts[1], belt]);
                }
            }
            Err(StartRefused::NoBelt { most }) => {
                assert!(started(kind, [counts[0], counts[1], most]).is_err());
            }
        }
    }
}
