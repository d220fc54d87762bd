//! The engines of the layouts that ship do what their files say of them.
//!
//! Must not know: how a gap is worked out.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use engine::{AnyAngle, Contact, FirstTouch, Kind, Phasing, Teeth, Turns};
use layout::{Plan, Role};
use std::path::Path;

const FREE_WHEELING: &str = "four-in-line-one-camshaft-eccentric";
const TWO_CAMSHAFTS: &str = "four-in-line-two-camshafts-arm";
const THREE_TEETH: &str = "six-in-a-vee-one-camshaft-a-bank";
const PHASED: &str = "six-in-a-vee-two-camshafts-a-bank";
const ONE_TOOTH: &str = "diesel-four-with-injection-pump";
const ALL: [&str; 5] = [FREE_WHEELING, TWO_CAMSHAFTS, THREE_TEETH, PHASED, ONE_TOOTH];

fn open(name: &str) -> Plan {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../layouts");
    let text = std::fs::read_to_string(folder.join(format!("{name}.toml"))).unwrap();
    Plan::open(&text).unwrap_or_else(|problems| panic!("{name}: {problems:?}"))
}

/// A camshaft of a layout's engine, its teeth, and how far it is ahead of its mark on its best tooth.
struct Shaft {
    camshaft: usize,
    teeth: Teeth,
    best_tooth_error_deg: f64,
}

fn shafts(plan: &Plan) -> Vec<Shaft> {
    let report = advice::report(plan);
    let wheels = plan.engine.as_ref().unwrap().wheels.iter().enumerate();
    wheels
        .map(|(camshaft, &wheel)| {
            let shaft = report.shafts.iter().find(|shaft| shaft.id == plan.id(wheel)).unwrap();
            let layout::Rim::Toothed { teeth: all } = plan.layout.wheels[wheel].rim else {
                panic!("smooth")
            };
            Shaft {
                camshaft,
                teeth: Teeth { deg_each: shaft.crank_degrees_per_tooth.abs(), all },
                best_tooth_error_deg: shaft.best_tooth_error_crank_deg,
            }
        })
        .collect()
}

fn touch(plan: &Plan, shaft: &Shaft, error_deg: f64) -> FirstTouch {
    let engine = &plan.engine.as_ref().unwrap().engine;
    let rest = Phasing::AtRest;
    engine.first_touch_of_camshaft(shaft.camshaft, error_deg, shaft.teeth, rest).unwrap()
}

/// The first touching tooth of the camshafts, early and late, marks in time; the same with each on its
/// best tooth.
fn touches(name: &str) -> Vec<FirstTouch> {
    let plan = open(name);
    let of = |shaft: &Shaft| {
        let exact = touch(&plan, shaft, 0.0);
        assert_eq!(touch(&plan, shaft, shaft.best_tooth_error_deg), exact, "{name}");
        exact
    };
    shafts(&plan).iter().map(of).collect()
}

fn any_angle(name: &str) -> AnyAngle {
    open(name).engine.unwrap().engine.any_angle().unwrap()
}

#[test]
fn one_never_touches() {
    let never = FirstTouch { early: None, late: None };
    assert_eq!(touches(FREE_WHEELING), [never]);
    for name in ALL {
        let any = any_angle(name);
        assert!(any.all_known, "{name}");
        assert_eq!(any.contact == Contact::FreeWheeling, name == FREE_WHEELING, "{name}: {any:?}");
    }
}

#[test]
fn one_survives_two_teeth_and_touches_at_three() {
    let three = FirstTouch { early: Some(3), late: Some(3) };
    assert_eq!(touches(THREE_TEETH), [three, three]);
}

#[test]
fn one_touches_at_a_single_tooth() {
    assert_eq!(touches(ONE_TOOTH), [FirstTouch { early: Some(1), late: Some(1) }]);
}

#[test]
fn one_has_different_camshafts_for_intake_and_exhaust() {
    let plan = open(TWO_CAMSHAFTS);
    let engine = &plan.engine.as_ref().unwrap().engine;
    let [out, into] = engine.camshafts() else { panic!("{engine:?}") };
    let (exhaust, intake) = (out.valve(Kind::Exhaust).unwrap(), into.valve(Kind::Intake).unwrap());
    assert!(out.valve(Kind::Intake).is_none() && into.valve(Kind::Exhaust).is_none());
    let most_mm = |valve: &engine::Valve| valve.lobe().unwrap().most_mm();
    assert_ne!(most_mm(exhaust), most_mm(intake));
    assert_ne!(exhaust.events().duration_deg(), intake.events().duration_deg());
    assert_ne!(exhaust.room(), intake.room());
    // Their valves cannot meet in time.
    let sum = |i: u32| {
        let deg = f64::from(i) * 0.1 - 360.0;
        exhaust.lobe().unwrap().lift_mm(deg) + intake.lobe().unwrap().lift_mm(deg)
    };
    let most = (0..7200).map(sum).fold(0.0, f64::max);
    assert!(most + 1.0 < engine.valves_meet_at_lift_sum_mm().unwrap(), "{most}");
    // Out either way the one touches early and the other late.
    let [out, into] = touches(TWO_CAMSHAFTS)[..] else { panic!() };
    assert_eq!((out.late, into.early), (Some(2), Some(2)));
}

#[test]
fn one_is_timed_away_from_top_and_its_springs_push_as_its_wheels_say() {
    let away = |name: &&str| open(name).layout.engine.unwrap().crank_at_marks_atdc_deg != 0.0;
    assert_eq!(ALL.into_iter().filter(away).collect::<Vec<_>>(), [TWO_CAMSHAFTS]);
    let plan = open(TWO_CAMSHAFTS);
    let behind = plan.engine.as_ref().unwrap();
    assert_eq!(behind.engine.at_marks_deg(), 630.0);
    for (camshaft, &wheel) in behind.wheels.iter().enumerate() {
        let snap = behind.engine.snap(camshaft, 0.0).unwrap();
        let stated = plan.layout.wheels[wheel].spring_torque_n_m.unwrap();
        let moment = snap.moment_n_m.unwrap();
        assert!((moment - stated).abs() < 0.3, "{}: {moment}, {stated}", plan.id(wheel));
        assert_eq!(snap.turns, if stated > 0.0 { Turns::Forward } else { Turns::Back });
    }
}

#[test]
fn in_time_none_touches_on_its_best_tooth_however_it_is_phased() {
    let mut phased = 0;
    for name in ALL {
        let plan = open(name);
        let engine = &plan.engine.as_ref().unwrap().engine;
        phased += engine.camshafts().iter().filter(|c| c.phaser_deg().is_some()).count();
        let shafts = shafts(&plan);
        let errors: Vec<f64> = shafts.iter().map(|shaft| shaft.best_tooth_error_deg).collect();
        for errors in [&[][..], &errors] {
            for phasing in [Phasing::AtRest, Phasing::WholeRange] {
                let gaps = engine.least_gaps(errors, phasing);
                assert!(!gaps.is_empty());
                for gap in gaps {
                    assert!(gap.least.along_bore_mm > 0.2, "{name}: {gap:?}");
                    if gap.cylinder == engine.camshafts()[gap.camshaft].cylinders()[0] {
                        let least = gap.least;
                        println!(
                            "{name} {:?} {errors:.2?} {phasing:?}: {:.3} mm at {:.1}°",
                            gap.valve, least.along_bore_mm, least.at_deg
                        );
                    }
                }
            }
        }
        for shaft in &shafts {
            println!("{name} {}: {:?}", shaft.camshaft, touch(&plan, shaft, 0.0));
        }
    }
    assert_eq!(phased, 2);
    // A tooth early, its phaser fully forward, is what that file says it is.
    let plan = open(PHASED);
    let engine = &plan.engine.as_ref().unwrap().engine;
    let with_phaser = shafts(&plan).into_iter().filter(|shaft| {
        let camshaft = &engine.camshafts()[shaft.camshaft];
        camshaft.phaser_deg() == Some([0.0, 40.0])
    });
    for shaft in with_phaser {
        let gap = |phasing| {
            let early = shaft.teeth.deg_each;
            engine.gap(shaft.camshaft, Kind::Intake, early, phasing).unwrap().touches()
        };
        assert!(!gap(Phasing::AtRest) && gap(Phasing::WholeRange));
    }
}

/// Every cylinder has its valves, each bank its own cylinders, firing evenly.
#[test]
fn the_cylinders_are_those_of_their_type() {
    for name in ALL {
        let plan = open(name);
        let behind = plan.engine.as_ref().unwrap();
        let engine = &behind.engine;
        let cylinders = engine.cylinders();
        assert_eq!(cylinders, if name.starts_with("six") { 6 } else { 4 }, "{name}");
        let mut fires: Vec<f64> = engine.fires_at_deg().to_vec();
        fires.sort_by(f64::total_cmp);
        let apart = 720.0 / cylinders as f64;
        assert!(fires.iter().enumerate().all(|(i, deg)| *deg == apart * i as f64), "{name}");
        for cylinder in 0..cylinders {
            for kind in Kind::BOTH {
                assert!(engine.moved_by(cylinder, kind).is_some(), "{name}: {cylinder} {kind:?}");
            }
        }
        let wheels = behind.wheels.iter().map(|&wheel| &plan.layout.wheels[wheel]);
        for (wheel, camshaft) in wheels.zip(engine.camshafts()) {
            assert_eq!(wheel.role, Role::Camshaft);
            let own = if cylinders == 6 { 3 } else { 4 };
            assert_eq!(camshaft.cylinders().len(), own, "{name}");
            for (word, kind) in [("intake", Kind::Intake), ("exhaust", Kind::Exhaust)] {
                let other = if kind == Kind::Intake { Kind::Exhaust } else { Kind::Intake };
                if wheel.id.ends_with(word) {
                    assert!(camshaft.valve(kind).is_some() && camshaft.valve(other).is_none());
                }
            }
        }
        if cylinders == 4 {
            // 1, 3, 4, 2.
            assert_eq!(engine.fires_at_deg(), [0.0, 540.0, 180.0, 360.0], "{name}");
            continue;
        }
        // The banks fire in turn.
        for camshaft in engine.camshafts() {
            let mut own: Vec<f64> =
                camshaft.cylinders().iter().map(|&k| engine.fires_at_deg()[k]).collect();
            own.sort_by(f64::total_cmp);
            assert!(own.windows(2).all(|two| two[1] - two[0] == 240.0), "{name}: {own:?}");
        }
    }
}
