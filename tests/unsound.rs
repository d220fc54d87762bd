//! Drives that no belt could run on: random ones shaken until many are, each judged a second time by
//! following the belt in short steps and looking for places where it meets itself or a wheel.
//!
//! Must not know: by which signs the crate under test tells.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::TAU;
use drive::{DVec2, Disc, Drive, Flaw, Parts, Path, Scene, flaws};
use proofs::plain::{Circle, path, unit};
use proofs::random::sound_layout;
use proofs::ring::between;

const SEEDS: u64 = 10_000;
/// The belt is followed round a wheel in steps of at most this, rad.
const STEP_RAD: f64 = 0.05;

/// A sound drive with some wheels shifted, one perhaps on the other face, two perhaps out of order.
fn shaken(seed: u64) -> (Parts, Vec<Disc>) {
    let mut rng = fastrand::Rng::with_seed(seed);
    let mut parts = sound_layout(seed).parts;
    let size = parts.belt.pitch_length_mm() / TAU;
    let far = size * [0.1, 0.4, 1.0][rng.usize(0..3)];
    for wheel in &mut parts.wheels {
        if rng.f64() < 0.4 {
            wheel.centre += DVec2::new(between(&mut rng, -far, far), between(&mut rng, -far, far));
        }
    }
    let n = parts.wheels.len();
    if rng.f64() < 0.1 {
        parts.wheels.swap(rng.usize(0..n), rng.usize(0..n));
    }
    let mut discs: Vec<Disc> =
        parts.wheels.iter().map(|w| w.disc(&parts.belt, parts.crank_turns)).collect();
    if rng.f64() < 0.1 {
        discs[rng.usize(0..n)].sense *= -1.0;
    }
    (parts, discs)
}

/// The pitch line in short straight steps, each with the wheel it lies on, if any.
fn steps(discs: &[Disc], path: &Path) -> Vec<(DVec2, DVec2, Option<usize>)> {
    let mut steps = Vec::new();
    for (i, disc) in discs.iter().enumerate() {
        let wrap = path.wraps_rad[i];
        let count = libm::ceil(wrap / STEP_RAD).max(1.0);
        let from = path.meets_at(discs, i).rad();
        let at = |k: f64| disc.centre + unit(from + disc.sense * wrap * k / count) * disc.radius;
        for k in 0..count as u32 {
            let k = f64::from(k);
            steps.push((at(k), at(k + 1.0), Some(i)));
        }
        let span = &path.spans[i];
        steps.push((span.leaves, span.meets, None));
    }
    steps
}

/// Whether two steps cross in their insides.
fn cross(p: &(DVec2, DVec2, Option<usize>), q: &(DVec2, DVec2, Option<usize>)) -> bool {
    let side = |a: DVec2, b: DVec2, c: DVec2| (b - a).perp_dot(c - a);
    let apart = |p: DVec2, q: DVec2, r: DVec2, s: DVec2| side(p, q, r) * side(p, q, s) < 0.0;
    apart(p.0, p.1, q.0, q.1) && apart(q.0, q.1, p.0, p.1)
}

/// Whether the belt, followed all round, meets itself anywhere. Steps that follow one another share
/// their ends and are not compared.
fn meets_itself(steps: &[(DVec2, DVec2, Option<usize>)]) -> bool {
    let n = steps.len();
    (0..n).any(|k| (0..k).any(|l| k - l > 1 && k - l < n - 1 && cross(&steps[k], &steps[l])))
}

#[test]
fn what_is_found_sound_is_sound_and_what_crosses_crosses() {
    let (mut sound, mut crossed) = (0, 0);
    for seed in 0..SEEDS {
        let (parts, discs) = shaken(seed);
        let Ok(path) = Path::round(&discs) else { continue };
        let outside_mm: Vec<f64> =
            parts.wheels.iter().map(|w| w.outside_radius_mm(&parts.belt)).collect();
        let sense = parts.crank_turns.sign();
        let (belt, outside) = (&parts.belt, &outside_mm);
        let found = flaws(&Scene { belt, discs: &discs, outside_mm: outside, path: &path, sense });
        let steps = steps(&discs, &path);
        let turned: f64 = discs.iter().zip(&path.wraps_rad).map(|(d, w)| d.sense * w).sum();
        let once = (turned - sense * TAU).abs() < 1e-9;
        if found.is_empty() {
            sound += 1;
            assert!(once, "seed {seed}: turns {turned}");
            assert!(!meets_itself(&steps), "seed {seed}: the belt meets itself");
            for (i, disc) in discs.iter().enumerate() {
                for j in 0..i {
                    let apart = (disc.centre - discs[j].centre).length();
                    assert!(apart >= outside[i] + outside[j], "seed {seed}: {i}, {j} overlap");
                }
                for (from, to, on) in &steps {
                    let near = drive::distance_to_segment(disc.centre, *from, *to);
                    assert!(*on == Some(i) || near > outside[i] - 1e-9, "seed {seed}: wheel {i}");
                }
            }
        }
        let topology = found.iter().any(|flaw| {
            matches!(
                flaw,
                Flaw::NotTouched { .. } | Flaw::SpansCross { .. } | Flaw::NotOneLoop { .. }
            )
        });
        if topology {
            crossed += 1;
            assert!(meets_itself(&steps) || !once, "seed {seed}: wrongly told {found:?}");
        }
    }
    println!("{sound} sound, {crossed} crossed of {SEEDS}");
    assert!(sound > 1000 && crossed > 1000, "{sound} sound, {crossed} crossed");
}

/// A belt with too few teeth is too short, one with too many too long, by what the path says.
#[test]
fn too_short_and_too_long() {
    for seed in 0..SEEDS {
        let mut rng = fastrand::Rng::with_seed(seed);
        let parts = sound_layout(seed).parts;
        let pitch = parts.belt.pitch_mm;
        let length = |travel: f64| {
            let mut circles: Vec<Circle> = parts
                .wheels
                .iter()
                .map(|w| w.disc(&parts.belt, parts.crank_turns))
                .map(|d| Circle { centre: d.centre, radius: d.radius, sense: d.sense })
                .collect();
            let t = &parts.tensioner;
            circles[t.wheel].centre = t.centre(circles[t.wheel].centre, travel);
            path(&circles).length_mm
        };
        let shortest = length(parts.tensioner.right_back);
        let longest = length(parts.tensioner.fully_out);
        let with = |teeth: f64| {
            let mut parts = parts.clone();
            parts.belt.teeth = teeth as u32;
            Drive::new(parts).unwrap_err()
        };
        let few = libm::ceil(shortest / pitch) - f64::from(rng.u32(1..9));
        let many = libm::floor(longest / pitch) + f64::from(rng.u32(1..9));
        for (flaws, teeth) in [(with(few), few), (with(many), many)] {
            let by = match flaws.last() {
                Some(Flaw::BeltTooShort { by_mm }) => shortest - teeth * pitch - by_mm,
                Some(Flaw::BeltTooLong { by_mm }) => teeth * pitch - longest - by_mm,
                _ => panic!("seed {seed}: {flaws:?}"),
            };
            let short = matches!(flaws.last(), Some(Flaw::BeltTooShort { .. }));
            assert_eq!(short, teeth == few, "seed {seed}: {flaws:?}");
            assert!(by.abs() < 1e-8, "seed {seed}: off by {by}");
        }
    }
}
