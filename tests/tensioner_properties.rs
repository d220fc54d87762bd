//! What must hold of any tensioner, on ten thousand random drives: its lever on the belt's length, its
//! convexity, and that it stands at the one place where the belt is tight.
//!
//! Must not know: how the place is found.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use drive::{Carrier, Disc, Drive, Flaw, Moving, Parts, Path};
use proofs::plain::{Circle, path};
use proofs::random::sound_layout;
use proofs::tensioning::bisect;

const SEEDS: u64 = 10_000;
/// Drives whose whole travel is scanned.
const SCANNED: u64 = 10_000;
/// Places in such a scan.
const PLACES: u32 = 200;

fn moving(parts: &Parts) -> Moving<'_> {
    let discs: Vec<Disc> =
        parts.wheels.iter().map(|w| w.disc(&parts.belt, parts.crank_turns)).collect();
    let home = discs[parts.tensioner.wheel].centre;
    Moving { belt: &parts.belt, tensioner: &parts.tensioner, home, discs, path: Path::default() }
}

/// Length with the tensioner at `travel`, the plain way.
fn plain_length(parts: &Parts, travel: f64) -> f64 {
    let t = &parts.tensioner;
    let circles: Vec<Circle> = parts
        .wheels
        .iter()
        .enumerate()
        .map(|(i, w)| {
            let disc = w.disc(&parts.belt, parts.crank_turns);
            let centre = if i == t.wheel { t.centre(w.centre, travel) } else { w.centre };
            Circle { centre, radius: disc.radius, sense: disc.sense }
        })
        .collect();
    path(&circles).length_mm
}

fn within(parts: &Parts, share: f64) -> f64 {
    let t = &parts.tensioner;
    t.right_back + share * (t.fully_out - t.right_back)
}

/// dL/dq against the central difference, anywhere in the travel.
#[test]
fn the_rate_is_the_slope_of_the_length() {
    for seed in 0..SEEDS {
        let parts = sound_layout(seed).parts;
        let mut moving = moving(&parts);
        let travel = within(&parts, fastrand::Rng::with_seed(seed).f64());
        let (length, rate) = moving.stand_at(travel).unwrap();
        assert!((length - plain_length(&parts, travel)).abs() < 1e-8, "seed {seed}");
        let lever = parts.tensioner.centre_rate(moving.home, travel).length();
        let step = 1e-3 / lever;
        let mut at = |travel: f64| moving.stand_at(travel).unwrap().0;
        let slope = (at(travel + step) - at(travel - step)) / (2.0 * step);
        assert!((slope - rate).abs() < 1e-6 * lever, "seed {seed}: {rate}, by difference {slope}");
        assert!(rate > 0.0 && rate <= 2.0 * lever, "seed {seed}: {rate}");
    }
}

/// Along a slide length is a convex function of travel; on a circle it is once b/2·q² is added, b
/// being what the tensioner states.
#[test]
fn length_is_convex_along_a_slide_and_nearly_so_on_a_circle() {
    let mut slides = 0;
    for seed in 0..SEEDS {
        let parts = sound_layout(seed).parts;
        let mut moving = moving(&parts);
        let bend = parts.tensioner.bends_down_at_most(moving.home);
        if matches!(parts.tensioner.carrier, Carrier::Slide { .. }) {
            slides += 1;
            assert_eq!(bend, 0.0);
        }
        let lengths: Vec<f64> = (0..=20)
            .map(|k| moving.stand_at(within(&parts, f64::from(k) / 20.0)).unwrap().0)
            .collect();
        let step = within(&parts, 0.05) - within(&parts, 0.0);
        for three in lengths.windows(3) {
            let bent = three[0] - 2.0 * three[1] + three[2];
            assert!(bent + bend * step * step >= -1e-9, "seed {seed}: {bent}");
        }
    }
    assert!(slides > 2000, "{slides}");
}

/// The tight place against a scan of the whole travel: there is one, and it is that one.
#[test]
fn it_stands_where_a_scan_finds_the_belt_tight() {
    for seed in 0..SCANNED {
        let parts = sound_layout(seed).parts;
        let target = parts.belt.pitch_length_mm();
        let at = |k: u32| within(&parts, f64::from(k) / f64::from(PLACES));
        let crossings: Vec<u32> = (0..PLACES)
            .filter(|&k| {
                plain_length(&parts, at(k)) < target && plain_length(&parts, at(k + 1)) >= target
            })
            .collect();
        assert_eq!(crossings.len(), 1, "seed {seed}");
        let (low, high) = (at(crossings[0]), at(crossings[0] + 1));
        let travel = bisect(low, high, |q| plain_length(&parts, q) < target);
        let drive = Drive::new(parts.clone()).unwrap();
        let off = (drive.taut().travel - travel).abs() * drive.taut().length_rate;
        assert!(off < 1e-9, "seed {seed}: {off} mm of belt");
        // Wherever it stands, the whole of the slack is what the belt has over the path.
        for share in [0.0, 0.3, 0.8] {
            let q = parts.tensioner.right_back
                + share * (drive.taut().travel - parts.tensioner.right_back);
            let length = drive.stance_at(q).path.length_mm;
            assert!((length - plain_length(&parts, q)).abs() < 1e-9, "seed {seed}");
            assert!(length <= target + 1e-9, "seed {seed}");
        }
        let beyond = drive.stance_at(parts.tensioner.fully_out);
        assert!((beyond.path.length_mm - target).abs() < 1e-9, "seed {seed}: never beyond tight");
    }
}

/// Arms and eccentrics turned on past what they were made for: a dead point is named where a scan finds
/// that the path no longer grows, there, and nowhere else.
#[test]
fn a_dead_point_is_named_where_a_scan_finds_one() {
    let (mut dead, mut alive) = (0, 0);
    for seed in 0..SCANNED {
        let mut parts = sound_layout(seed).parts;
        if matches!(parts.tensioner.carrier, Carrier::Slide { .. }) {
            continue;
        }
        let mut rng = fastrand::Rng::with_seed(!seed);
        let reach = parts.tensioner.fully_out - parts.tensioner.right_back;
        parts.tensioner.fully_out += rng.f64() * 2.5;
        let mut moving = moving(&parts);
        // As far as the wheel can turn before it runs into its neighbours.
        let at = |k: u32| within(&parts, f64::from(k) / f64::from(PLACES));
        let free: Vec<u32> = (0..=PLACES).take_while(|&k| moving.stand_at(at(k)).is_ok()).collect();
        let mut lengths: Vec<f64> = free.iter().map(|&k| plain_length(&parts, at(k))).collect();
        // Where a wheel leaves the belt its wrap folds over and the length jumps: no belt from there.
        let lever = parts.tensioner.centre_rate(moving.home, 0.0).length();
        let most = 2.0 * lever * (at(1) - at(0)) + 1e-9;
        let jump = lengths.windows(2).position(|two| (two[1] - two[0]).abs() > most);
        lengths.truncate(jump.map_or(lengths.len(), |k| k + 1));
        let sinks = lengths.windows(2).position(|two| two[1] < two[0]);
        let target = parts.belt.pitch_length_mm();
        let found = moving.taut(&outside_mm(&parts), parts.crank_turns.sign());
        match (sinks, found) {
            (Some(k), Err(Flaw::DeadPoint { travel })) => {
                let step = at(1) - at(0);
                let place = at(free[k]);
                assert!(
                    (travel - place).abs() <= 2.0 * step,
                    "seed {seed}: {travel}, scan {place}"
                );
                dead += 1;
            }
            (Some(k), other) => {
                // A wheel that jammed before it came there stops the search too.
                let jammed = lengths.len() <= PLACES as usize;
                assert!(jammed, "seed {seed}: sinks at step {k} of {reach}: {other:?}");
            }
            (None, Ok(taut)) => {
                assert!((plain_length(&parts, taut.travel) - target).abs() < 1e-8, "seed {seed}");
                alive += 1;
            }
            (None, Err(Flaw::DeadPoint { travel })) => {
                // Between the last two places of the scan, at the most.
                let last = at(lengths.len() as u32 - 1);
                assert!(travel >= last - 2.0 * (at(1) - at(0)), "seed {seed}: {travel}");
            }
            (None, Err(other)) => panic!("seed {seed}: {other:?}"),
        }
    }
    assert!(dead > 1_000 && alive > 1_000, "{dead} with a dead point, {alive} without");
}

fn outside_mm(parts: &Parts) -> Vec<f64> {
    parts.wheels.iter().map(|w| w.outside_radius_mm(&parts.belt)).collect()
}
