//! What a tooth out does, on engines of every kind: events, overlap and separation, compression,
//! interference, snap.
//!
//! Must not know: any published figure (`published_engine` has those).

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use engine::{
    Contact, Engine, Events, Kind, Motion, Phasing, Shaft, Spring, Stand, Top, Turns, bounds,
};
use fastrand::Rng;
use proofs::random_engine::{Drawn, between, figures};

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found}, not {expected} ± {tolerance}");
}

fn engines() -> impl Iterator<Item = (u64, Engine)> {
    (0..300).map(|seed| (seed, Engine::new(figures(seed, Drawn::Usual)).unwrap()))
}

/// One camshaft with both valves a tooth out: all four events move together, durations, overlap and
/// separation stay; the other bank is untouched.
#[test]
fn a_shared_camshaft_a_tooth_out() {
    let mut two_banks = 0;
    for (seed, engine) in engines() {
        if engine.camshafts()[0].valves().count() < 2 {
            continue;
        }
        for tooth in [15.0, -15.0, 18.0, -40.0] {
            let before = engine.least_gaps(&[0.0, 0.0], Phasing::AtRest);
            let after = engine.least_gaps(&[tooth, 0.0], Phasing::AtRest);
            for kind in Kind::BOTH {
                let (was, is) =
                    (engine.events(0, kind, 0.0).unwrap(), engine.events(0, kind, tooth).unwrap());
                near(is.opens_deg, was.opens_deg - tooth, 1e-12);
                near(is.closes_deg, was.closes_deg - tooth, 1e-12);
                near(is.duration_deg(), was.duration_deg(), 1e-12);
            }
            for (cylinder, own) in
                (0..engine.cylinders()).map(|k| (k, engine.moved_by(k, Kind::Intake) == Some(0)))
            {
                let (was, is) = (engine.between(cylinder, &[]), engine.between(cylinder, &[tooth]));
                near(is.unwrap().overlap_deg, was.unwrap().overlap_deg, 1e-9);
                near(is.unwrap().separation_cam_deg, was.unwrap().separation_cam_deg, 1e-9);
                if !own {
                    two_banks += 1;
                    let of = |all: &[engine::ValveGap]| -> Vec<engine::LeastGap> {
                        all.iter().filter(|g| g.cylinder == cylinder).map(|g| g.least).collect()
                    };
                    assert_eq!(of(&before), of(&after), "seed {seed}");
                }
            }
        }
    }
    assert!(two_banks > 50, "{two_banks}");
}

/// The intake camshaft alone out by N: overlap changes by N, separation by N/2 the other way.
#[test]
fn an_intake_camshaft_alone() {
    let mut seen = 0;
    for (_, engine) in engines().filter(|(_, e)| e.camshafts()[0].valves().count() == 1) {
        for n in [15.0, -20.0, 36.0] {
            seen += 1;
            let mut errors = vec![0.0; engine.camshafts().len()];
            errors[engine.moved_by(0, Kind::Intake).unwrap()] = n;
            let (was, is) = (engine.between(0, &[]).unwrap(), engine.between(0, &errors).unwrap());
            near(is.overlap_deg - was.overlap_deg, n, 1e-9);
            near(is.separation_cam_deg - was.separation_cam_deg, -n / 2.0, 1e-9);
        }
    }
    assert!(seen > 50, "{seen}");
}

/// The effective ratio is greatest, and the whole ratio, when the valve shuts at the bottom.
#[test]
fn compression_is_greatest_with_the_valve_shut_at_the_bottom() {
    for (seed, engine) in engines() {
        let camshaft = engine.moved_by(0, Kind::Intake).unwrap();
        let shut_at = 0.02;
        let valve = engine.camshafts()[camshaft].valve(Kind::Intake).unwrap();
        let late = valve.events_at(shut_at).unwrap().closes_deg - 180.0;
        let ratio = |ahead| engine.effective_ratio(camshaft, ahead, shut_at).unwrap();
        let whole = engine.compression_ratio().unwrap();
        near(ratio(late), whole, 1e-9);
        let mut before = whole;
        for i in 1..90 {
            let off = f64::from(i) * 2.0;
            near(ratio(late + off), ratio(late - off), 1e-9);
            assert!(ratio(late + off) < before, "seed {seed}, {off}");
            before = ratio(late + off);
        }
    }
}

/// Free-wheeling is what never touches at any error; interference touches at some.
#[test]
fn interference_or_free_wheeling() {
    let mut each = [0, 0];
    for seed in 0..120 {
        let mut stated = figures(seed, Drawn::Usual);
        if seed.is_multiple_of(3) {
            // Deep pockets.
            for c in &mut stated.camshafts {
                for valve in c.intake.iter_mut().chain(&mut c.exhaust) {
                    valve.room.as_mut().unwrap().gap_at_top_mm += 8.0;
                }
            }
        }
        let engine = Engine::new(stated).unwrap();
        let any = engine.any_angle().unwrap();
        assert!(any.all_known);
        let mut least = f64::INFINITY;
        // The least gap over all errors of a camshaft is where the valve is open furthest at the top.
        for i in 0..720 {
            let errors = vec![f64::from(i); engine.camshafts().len()];
            for gap in engine.least_gaps(&errors, Phasing::AtRest) {
                least = least.min(gap.least.along_bore_mm);
            }
        }
        assert!(least > any.worst_gap_mm - 1e-8, "seed {seed}");
        near(least, any.worst_gap_mm, 0.01);
        each[usize::from(any.contact == Contact::FreeWheeling)] += 1;
        assert_eq!(any.contact == Contact::FreeWheeling, any.worst_gap_mm >= 0.0);
    }
    assert!(each.iter().all(|n| *n > 20), "{each:?}");
}

/// Parking: nowhere in the turn does the highest piston stand lower, and each stated angle is lower
/// than just beside it.
#[test]
fn parking_is_lowest() {
    for (seed, engine) in engines() {
        let least = |deg| engine.depths_mm(deg).unwrap().into_iter().fold(f64::INFINITY, f64::min);
        let parking = engine.parking();
        let best = parking[0].least_depth_mm.unwrap();
        for i in 0..3600 {
            assert!(least(f64::from(i) / 10.0) <= best + 1e-9, "seed {seed}");
        }
        for (i, p) in parking.iter().enumerate() {
            let depth = p.least_depth_mm.unwrap();
            near(least(p.from_marks_deg), depth, 1e-9);
            assert!(
                least(p.from_marks_deg + 0.05) < depth && least(p.from_marks_deg - 0.05) < depth
            );
            assert!(i == 0 || depth <= parking[i - 1].least_depth_mm.unwrap() + 1e-9);
            if p.clears_any_lift == Some(true) {
                // Every camshaft may turn all the way round.
                let loose = engine.loose().unwrap();
                let stand = Stand { crank_deg: p.from_marks_deg, camshafts_deg: Vec::new() };
                for camshaft in 0..engine.camshafts().len() {
                    let freedom = loose.freedom(&stand, Shaft::Camshaft(camshaft));
                    assert!(freedom.back.is_none() && freedom.forward.is_none(), "seed {seed}");
                }
            }
        }
    }
}

/// A camshaft whose valves are opening is pushed back, one whose valves are closing is pushed on; the
/// moment is how fast the springs' energy falls.
#[test]
fn snap() {
    let spring = Spring { shut_n: 250.0, rate_n_per_mm: 30.0 };
    let mut each = [0; 2];
    for seed in 0..300 {
        let mut stated = figures(seed, Drawn::Usual);
        for c in &mut stated.camshafts {
            for valve in c.intake.iter_mut().chain(&mut c.exhaust) {
                valve.spring = Some(spring);
            }
        }
        let engine = Engine::new(stated).unwrap();
        for (camshaft, c) in engine.camshafts().iter().enumerate() {
            // Energy in the springs, N·mm, at a camshaft angle in crank degrees.
            let energy = |cam_deg: f64| -> f64 {
                let each = c
                    .valves()
                    .flat_map(|v| c.cylinders().iter().map(move |k| (v.lobe().unwrap(), *k)));
                each.map(|(lobe, k)| {
                    let lift = lobe.lift_mm(engine.from_overlap_deg(k, cam_deg));
                    lift * (spring.shut_n + 0.5 * spring.rate_n_per_mm * lift)
                })
                .sum()
            };
            for deg in [0.0, 33.0, 250.0] {
                let snap = engine.snap(camshaft, deg).unwrap();
                let step = 1e-4;
                let rate = (energy(deg + step) - energy(deg - step)) / (2.0 * step);
                let per_cam_rad = rate * 2.0 * 180.0 / core::f64::consts::PI / 1e3;
                near(snap.moment_n_m.unwrap(), -per_cam_rad, 1e-3);
                if per_cam_rad.abs() > 0.01 {
                    let on = per_cam_rad < 0.0;
                    assert_eq!(snap.turns, if on { Turns::Forward } else { Turns::Back });
                    each[usize::from(on)] += 1;
                }
            }
        }
    }
    assert!(each.iter().all(|n| *n > 100), "{each:?}");
}

/// Figures drawn from the table of bounds are taken, ends included, and just outside they are not.
#[test]
fn bounds_are_kept() {
    let mut rng = Rng::with_seed(7);
    let base = figures(1, Drawn::Usual);
    let refused = |change: &dyn Fn(&mut engine::Figures, f64), (least, most): bounds::Bounds| {
        let with = |x| {
            let mut stated = base.clone();
            change(&mut stated, x);
            Engine::new(stated).err().map_or(0, |flaws| flaws.len())
        };
        let outside = (most - least) * 1e-6 + 1e-9;
        for x in [least, most, 0.5 * (least + most)] {
            assert_eq!(with(x), 0, "{x}");
        }
        for x in [least - outside, most + outside, f64::NAN, f64::INFINITY] {
            assert_eq!(with(x), 1, "{x}");
        }
    };
    refused(&|f, x| f.bore_mm = Some(x), bounds::BORE_MM);
    refused(&|f, x| f.compression_ratio = Some(x), bounds::COMPRESSION_RATIO);
    refused(&|f, x| f.at_marks.crank_atdc_deg = x, bounds::CRANK_AT_MARKS_DEG);
    refused(&|f, x| f.fires_at_deg[1] = x, bounds::FIRES_AT_DEG);
    let stroke =
        (base.crank.unwrap().stroke_mm / 2.0 * (1.0 + 1e-9), bounds::ROD_MOST_MM * 0.999_999);
    for _ in 0..20 {
        let x = between(&mut rng, stroke.0, stroke.1);
        let mut stated = base.clone();
        stated.crank.as_mut().unwrap().rod_mm = x;
        assert!(Engine::new(stated).is_ok());
    }
}

/// No figures that are taken, however odd, give anything that is not a number.
#[test]
fn nothing_that_is_not_a_number() {
    let mut taken = 0;
    for seed in 0..2000 {
        let mut rng = Rng::with_seed(seed);
        let rng = &mut rng;
        let mut stated = figures(seed, Drawn::Tight);
        let edge = |rng: &mut Rng, (low, high): bounds::Bounds| {
            [low, high, between(rng, low, high)][rng.usize(0..3)]
        };
        let crank = stated.crank.as_mut().unwrap();
        crank.stroke_mm = edge(rng, bounds::STROKE_MM);
        crank.rod_mm = edge(rng, (crank.stroke_mm * 0.5 * (1.0 + 1e-12), bounds::ROD_MOST_MM));
        stated.at_marks.crank_atdc_deg = edge(rng, bounds::CRANK_AT_MARKS_DEG);
        stated.at_marks.top = Top::Overlap;
        for c in &mut stated.camshafts {
            for (kind, valve) in [(Kind::Intake, &mut c.intake), (Kind::Exhaust, &mut c.exhaust)] {
                let Some(valve) = valve else { continue };
                let room = valve.room.as_mut().unwrap();
                room.lean_deg = edge(rng, bounds::LEAN_DEG);
                room.gap_at_top_mm = edge(rng, bounds::GAP_AT_TOP_MM);
                if let Motion::Law { events, at_lift_mm, lift_mm, .. } = &mut valve.motion {
                    let (opens, closes) =
                        (edge(rng, bounds::EVENT_DEG), edge(rng, bounds::EVENT_DEG));
                    *events = Events::of(kind, opens, closes);
                    *lift_mm = edge(rng, bounds::LIFT_MM);
                    *at_lift_mm = if rng.bool() { 0.0 } else { between(rng, 0.0, *lift_mm) };
                }
            }
        }
        let Ok(engine) = Engine::new(stated) else { continue };
        taken += 1;
        let errors: Vec<f64> =
            engine.camshafts().iter().map(|_| between(rng, -720.0, 720.0)).collect();
        for g in engine.least_gaps(&errors, Phasing::WholeRange) {
            let l = g.least;
            assert!(
                l.along_bore_mm.is_finite()
                    && l.along_stem_mm.is_finite()
                    && (-360.0..=360.0).contains(&l.at_deg)
                    && l.phase_deg.is_finite(),
                "seed {seed}: {g:?}"
            );
        }
        let loose = engine.loose().unwrap();
        let stand = Stand { crank_deg: between(rng, -1e4, 1e4), camshafts_deg: errors };
        assert!(loose.nearest(&stand).unwrap().gap_mm.is_finite());
        loose.way_to_marks(&stand);
    }
    assert!(taken > 300, "{taken}");
}
