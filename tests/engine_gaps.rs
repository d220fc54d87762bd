//! Least gaps against looking everywhere: 1,000 random engines, every law and measured lifts, each at a
//! random error of its camshaft, to 1e-6 mm.
//!
//! Must not know: how the crate looks for them.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::PI;
use engine::{CamshaftFigures, Engine, Figures, Kind, Law, Phasing, Teeth};
use fastrand::Rng;
use proofs::plain_engine::{PlainLift, depth_mm};
use proofs::random_engine::{Drawn, between, figures, valve};

const ENGINES: u64 = 1000;
/// Places to a degree.
const FINE: i32 = 100;

/// One valve on one camshaft in the place of those drawn.
fn with_one_valve(seed: u64, kind: Kind, law: Option<Law>) -> Figures {
    let mut rng = Rng::with_seed(seed ^ 0xca11);
    let mut stated = figures(seed, Drawn::Usual);
    let drawn = if seed.is_multiple_of(3) { Drawn::Tight } else { Drawn::Usual };
    let own = Some(valve(&mut rng, kind, law, drawn));
    let (intake, exhaust) = if kind == Kind::Intake { (own, None) } else { (None, own) };
    stated.camshafts =
        vec![CamshaftFigures { cylinders: vec![0], intake, exhaust, phaser_deg: None }];
    stated
}

/// The least of a function from −360 to 360 by places 0.01° apart, refined about the lowest.
fn brute(gap: impl Fn(f64) -> f64, samples: impl Iterator<Item = (f64, f64)>) -> (f64, f64) {
    let (at, _) = samples.min_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
    let step = 1.0 / f64::from(FINE);
    let (mut low, mut high) = (at - step, at + step);
    for _ in 0..100 {
        let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if gap(a) < gap(b) { high = b } else { low = a }
    }
    let at = 0.5 * (low + high);
    (at, gap(at))
}

fn prove(law: Option<Law>) {
    let mut touching = 0;
    for seed in 0..ENGINES {
        let kind = if seed.is_multiple_of(2) { Kind::Intake } else { Kind::Exhaust };
        let stated = with_one_valve(seed, kind, law);
        let mut rng = Rng::with_seed(seed ^ 0xe440);
        // Mostly some teeth out, now and then anywhere.
        let most = if seed.is_multiple_of(5) { 360.0 } else { 90.0 };
        let error_deg = between(&mut rng, -most, most);
        let crank = stated.crank.unwrap();
        let own = stated.camshafts[0].intake.as_ref().or(stated.camshafts[0].exhaust.as_ref());
        let own = own.unwrap();
        let (lift, room) = (PlainLift::of(&own.motion).unwrap(), own.room.unwrap());
        let cos_lean = libm::cos(room.lean_deg * PI / 180.0);
        let plain = |deg: f64| {
            room.gap_at_top_mm + depth_mm(crank.stroke_mm, crank.rod_mm, deg)
                - cos_lean * lift.mm(deg + error_deg)
        };
        let places = (-360 * FINE..=360 * FINE).map(|i| f64::from(i) / f64::from(FINE));
        let (at, least) = brute(plain, places.map(|deg| (deg, plain(deg))));
        let engine = Engine::new(stated).unwrap_or_else(|flaws| panic!("{seed}: {flaws:?}"));
        let gap = engine.gap(0, kind, error_deg, Phasing::AtRest).unwrap();
        let found = gap.least();
        let name = format!("seed {seed}, {law:?}, at {at}: {least}, found {found:?}");
        assert!((found.along_bore_mm - least).abs() < 1e-6, "{name}");
        assert!((plain(found.at_deg) - least).abs() < 1e-6, "{name}");
        assert!((found.along_stem_mm * cos_lean - found.along_bore_mm).abs() < 1e-9, "{name}");
        let arcs = gap.below(0.0);
        assert_eq!(arcs.is_empty(), found.along_bore_mm >= 0.0, "{name}");
        assert_eq!(gap.touches(), least < 0.0, "{name}");
        touching += u32::from(least < 0.0);
        for margin in [0.0, 1.5] {
            for arc in gap.below(margin) {
                for end in [arc.from_deg, arc.to_deg] {
                    assert!((plain(end) - margin).abs() < 1e-6, "{name}: {arc:?}");
                }
                let middle = 0.5 * (arc.from_deg + arc.to_deg);
                assert!(plain(middle) < margin, "{name}: {arc:?}");
            }
        }
    }
    assert!((200..900).contains(&touching), "{touching}");
}

#[test]
fn harmonic() {
    prove(Some(Law::Harmonic));
}

#[test]
fn cycloidal() {
    prove(Some(Law::Cycloidal));
}

#[test]
fn polynomial_3_4_5() {
    prove(Some(Law::Polynomial345));
}

#[test]
fn polynomial_4_5_6_7() {
    prove(Some(Law::Polynomial4567));
}

#[test]
fn measured() {
    prove(None);
}

/// Phased anywhere in its range: the least of the least gaps at single phases.
#[test]
fn phased() {
    let mut phased = 0;
    for seed in 0..300 {
        let stated = figures(seed, Drawn::Usual);
        let engine = Engine::new(stated).unwrap();
        for (camshaft, c) in engine.camshafts().iter().enumerate() {
            let Some([back, ahead]) = c.phaser_deg() else { continue };
            for valve in c.valves() {
                phased += 1;
                let whole = |error| {
                    engine.gap(camshaft, valve.kind(), error, Phasing::WholeRange).unwrap().least()
                };
                let single = |error| {
                    engine.gap(camshaft, valve.kind(), error, Phasing::AtRest).unwrap().least()
                };
                for error in [-40.0, 0.0, 25.0] {
                    let worst = whole(error);
                    for i in 0..=50 {
                        let phase = back + (ahead - back) * f64::from(i) / 50.0;
                        assert!(worst.along_bore_mm < single(error + phase).along_bore_mm + 1e-8);
                    }
                    assert!((back..=ahead).contains(&worst.phase_deg));
                    let there = single(error + worst.phase_deg).along_bore_mm;
                    assert!((there - worst.along_bore_mm).abs() < 1e-8, "seed {seed}, {error}");
                }
            }
        }
    }
    assert!(phased > 50, "{phased}");
}

/// The first touching tooth: none before it touches, and it does; of the crank, the other way round.
#[test]
fn first_touching_teeth() {
    let mut touching = 0;
    for seed in 0..200 {
        let engine = Engine::new(figures(seed, Drawn::Usual)).unwrap();
        let (teeth, per_tooth, phasing) = (40, 18.0, Phasing::WholeRange);
        let wheel = Teeth { deg_each: per_tooth, all: teeth };
        let mut crank = (None, None);
        for camshaft in 0..engine.camshafts().len() {
            let first = engine.first_touch_of_camshaft(camshaft, 0.0, wheel, phasing).unwrap();
            let touches = |out: f64| {
                let mut errors = vec![0.0; engine.camshafts().len()];
                errors[camshaft] = out * per_tooth;
                let all = engine.least_gaps(&errors, phasing);
                all.iter().any(|g| g.camshaft == camshaft && g.least.along_bore_mm < 0.0)
            };
            for (found, sign) in [(first.early, 1.0), (first.late, -1.0)] {
                for n in 0..found.unwrap_or(teeth / 2 + 1) {
                    assert!(!touches(sign * f64::from(n)), "seed {seed}, {n}");
                }
                if let Some(n) = found {
                    touching += 1;
                    assert!(touches(sign * f64::from(n)), "seed {seed}, {n}");
                }
            }
            let sooner = |a: Option<u32>, b: Option<u32>| a.into_iter().chain(b).min();
            crank = (sooner(crank.0, first.late), sooner(crank.1, first.early));
        }
        let all = engine.first_touch_of_crank(&[], wheel, phasing).unwrap();
        assert_eq!((all.early, all.late), crank, "seed {seed}");
    }
    assert!(touching > 100, "{touching}");
}
