//! What must hold of any belt's path, on ten thousand random drives: Cauchy's formula, closure, and
//! that nothing depends on where the drive lies or which wheel comes first.
//!
//! Must not know: how the path is worked out.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::TAU;
use drive::{DVec2, Disc, Drive, Face, Path};
use proofs::plain::{Circle, hull_boundary_mm, path, unit};
use proofs::random::sound_layout;

const SEEDS: u64 = 10_000;

/// The circles of a random drive with its belt tight, and the sense of its crank.
fn taut_discs(seed: u64) -> (Vec<Disc>, f64) {
    let layout = sound_layout(seed);
    let sense = layout.parts.crank_turns.sign();
    let drive = Drive::new(layout.parts).unwrap();
    (drive.taut_stance().discs.clone(), sense)
}

fn circles(discs: &[Disc]) -> Vec<Circle> {
    discs.iter().map(|d| Circle { centre: d.centre, radius: d.radius, sense: d.sense }).collect()
}

#[track_caller]
fn same(seed: u64, a: f64, b: f64, relative: f64) {
    assert!((a - b).abs() <= relative * a.abs().max(b.abs()).max(1.0), "seed {seed}: {a}, {b}");
}

/// Cauchy's formula (geometry): with every wheel on the toothed face and touched, length is the
/// integral over all directions of how far the wheels reach. From every random drive the wheels of
/// the toothed face alone make such a path: what pressed it in is left off.
#[test]
fn cauchy() {
    let mut most_wheels = 0;
    for seed in 0..SEEDS {
        let (discs, sense) = taut_discs(seed);
        let inside: Vec<Disc> = discs.into_iter().filter(|d| d.sense == sense).collect();
        most_wheels = most_wheels.max(inside.len());
        let length = Path::round(&inside).unwrap().length_mm;
        same(seed, length, hull_boundary_mm(&circles(&inside)), 1e-12);
    }
    assert_eq!(most_wheels, 7);
}

/// The same path by angles instead of vectors, wheels on the back included.
#[test]
fn the_plain_way_agrees() {
    for seed in 0..SEEDS {
        let (discs, _) = taut_discs(seed);
        let (found, plain) = (Path::round(&discs).unwrap(), path(&circles(&discs)));
        same(seed, found.length_mm, plain.length_mm, 1e-12);
        for i in 0..discs.len() {
            same(seed, found.wraps_rad[i], plain.wrap_rad[i], 1e-9);
            same(seed, found.spans[i].length, plain.span_mm[i], 1e-9);
            let leaves = plain.leaves(&circles(&discs), i);
            assert!((found.spans[i].leaves - leaves).length() < 1e-9, "seed {seed}");
        }
    }
}

/// Geometry: a belt that does not cross itself turns once in all, Σ τβ = ±2π.
#[test]
fn closure() {
    for seed in 0..SEEDS {
        let (discs, sense) = taut_discs(seed);
        let path = Path::round(&discs).unwrap();
        let turned: f64 = discs.iter().zip(&path.wraps_rad).map(|(d, w)| d.sense * w).sum();
        same(seed, turned, sense * TAU, 1e-12);
        for (i, disc) in discs.iter().enumerate() {
            // Every span is square to both radii and meets where the arc of its wheel begins.
            let arriving = path.arriving(i);
            assert!(arriving.direction.dot(arriving.meets - disc.centre).abs() < 1e-9);
            let meets = disc.centre + unit(path.meets_at(&discs, i).rad()) * disc.radius;
            assert!((meets - arriving.meets).length() < 1e-9, "seed {seed}");
        }
    }
}

/// A drive may be turned, shifted, seen in a mirror, or listed from another wheel on.
#[test]
fn nothing_depends_on_where_it_lies() {
    for seed in 0..SEEDS {
        let mut rng = fastrand::Rng::with_seed(seed);
        let (discs, _) = taut_discs(seed);
        let path = Path::round(&discs).unwrap();
        let turn = unit(rng.f64() * TAU);
        let shift = DVec2::new(rng.f64(), rng.f64()) * 1000.0;
        let moved: Vec<Disc> =
            discs.iter().map(|d| Disc { centre: turn.rotate(d.centre) + shift, ..*d }).collect();
        let mirrored: Vec<Disc> = discs
            .iter()
            .map(|d| Disc { centre: DVec2::new(-d.centre.x, d.centre.y), sense: -d.sense, ..*d })
            .collect();
        for other in [&moved, &mirrored] {
            let other = Path::round(other).unwrap();
            same(seed, path.length_mm, other.length_mm, 1e-12);
            for (a, b) in path.wraps_rad.iter().zip(&other.wraps_rad) {
                same(seed, *a, *b, 1e-9);
            }
        }
        let first = rng.usize(0..discs.len());
        let mut renumbered = discs.clone();
        renumbered.rotate_left(first);
        let other = Path::round(&renumbered).unwrap();
        same(seed, path.length_mm, other.length_mm, 1e-13);
        for i in 0..discs.len() {
            let j = (i + first) % discs.len();
            assert_eq!(path.spans[j], other.spans[i], "seed {seed}");
            assert_eq!(path.wraps_rad[j], other.wraps_rad[i], "seed {seed}");
        }
    }
}

/// The whole drive seen in a mirror: the crank turns the other way, and every count and every forward
/// turn is what it was.
#[test]
fn a_drive_in_the_mirror_reads_the_same() {
    for seed in 0..SEEDS {
        let layout = sound_layout(seed);
        let here = Drive::new(layout.parts.clone()).unwrap();
        let there = Drive::new(layout.mirrored()).unwrap();
        same(seed, here.taut().travel, there.taut().travel, 1e-8);
        same(seed, here.taut().length_rate, there.taut().length_rate, 1e-8);
        same(seed, here.slack_when_back_mm(), there.slack_when_back_mm(), 1e-8);
        for (j, (a, b)) in here.sprockets().iter().zip(there.sprockets()).enumerate() {
            let (run_a, run_b) = (here.taut_stance().run_mm[j], there.taut_stance().run_mm[j]);
            // A groove and its mark lie where the mirror puts them; the count to it may differ by one
            // where two grooves are equally near the middle, which random angles never make them.
            same(seed, run_a, run_b, 1e-8);
            assert_eq!(a.past_mark_teeth, b.past_mark_teeth, "seed {seed}");
        }
        // Where the sum of the runs lies all but half way between two counts, rounding may go either
        // way; everywhere else the counts are the same.
        let mut along = 0.0;
        let clear = here.taut_stance().run_mm.iter().all(|run| {
            along += run / here.belt().pitch_mm;
            (along - along.floor() - 0.5).abs() > 1e-9
        });
        if clear {
            assert_eq!(here.teeth_in_time(), there.teeth_in_time(), "seed {seed}");
        }
        for (i, wheel) in here.wheels().iter().enumerate() {
            assert_eq!(wheel.face() == Face::Back, there.wheels()[i].face() == Face::Back);
        }
    }
}
