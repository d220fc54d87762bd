//! A hand that turns shafts stops where a valve meets its piston, and nowhere else: on the layouts that
//! ship, against stepping through the turn.
//!
//! Must not know: how the stop was found.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use drive::Turned;
use engine::{Kind, Phasing};
use fastrand::Rng;
use job::{Action, BeltMove, Did, Job, Stopped, TensionerMove, cycle_deg};
use layout::Plan;
use std::collections::BTreeMap;
use std::path::Path;
use std::rc::Rc;

fn shipped() -> Vec<Rc<Plan>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../layouts");
    let mut plans: Vec<Rc<Plan>> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|end| end == "toml"))
        .map(|path| Rc::new(Plan::open(&std::fs::read_to_string(path).unwrap()).unwrap()))
        .filter(|plan| plan.engine.is_some())
        .collect();
    plans.sort_by(|a, b| a.layout.title.cmp(&b.layout.title));
    assert_eq!(plans.len(), 5, "with an engine");
    plans
}

/// The least gap of any valve of any cylinder as the shafts stand now, mm.
fn gap_now(job: &Job) -> f64 {
    let plan = job.plan();
    let engine = &plan.engine.as_ref().unwrap().engine;
    let place = |k: usize| cycle_deg(&plan.drive, k, job.cord().shaft(k));
    let crank = place(0);
    let mut least = f64::INFINITY;
    for (camshaft, wheel) in plan.engine.as_ref().unwrap().wheels.iter().enumerate() {
        let k = plan.drive.sprocket_of(*wheel).unwrap();
        for kind in [Kind::Intake, Kind::Exhaust] {
            let error = place(k) - crank;
            let Some(gap) = engine.gap(camshaft, kind, error, Phasing::AtRest) else { continue };
            for cylinder in engine.camshafts()[camshaft].cylinders() {
                least = least.min(gap.at_mm(engine.from_overlap_deg(*cylinder, crank)));
            }
        }
    }
    least
}

fn act(job: &mut Job, action: Action) -> Did {
    job.act(&action, false).unwrap().did
}

/// Turned in random ways with the belt on, slack and off, shafts end where nothing touches; where a turn
/// was stopped by contact there is none to speak of left; and on the way nothing touched.
#[test]
fn a_turn_ends_where_a_valve_meets_its_piston() {
    let (mut stopped, mut free) = (0_u32, 0_u32);
    for (n, plan) in shipped().iter().cycle().take(400).enumerate() {
        let mut rng = Rng::with_seed(n as u64);
        let mut job = Job::new(Rc::clone(plan)).feeling_contact();
        let ids: Vec<String> =
            plan.drive.sprockets().iter().map(|s| plan.id(s.wheel).to_owned()).collect();
        match rng.u8(0..3) {
            0 => {
                act(&mut job, Action::Tensioner(TensionerMove::Back));
            }
            1 => {
                act(&mut job, Action::Tensioner(TensionerMove::Back));
                act(&mut job, Action::Belt(BeltMove::Off));
            }
            _ => {}
        }
        for _ in 0..12 {
            let shaft = ids[rng.usize(0..ids.len())].clone();
            let deg = (rng.f64() - 0.5) * [20.0, 300.0, 1500.0][rng.usize(0..3)];
            let mut stepped = job.clone();
            let did = act(&mut job, Action::Turn { shaft: shaft.clone(), deg });
            let Did::Turned { deg: went, stopped_by, .. } = did else { panic!() };
            assert!(gap_now(&job) > -1e-6, "{n}: {} is in a piston", plan.layout.title);
            // The same way in small steps, put where they should be: nothing touches before the end.
            let steps = 200;
            for _ in 0..steps {
                let part = went / f64::from(steps);
                let _ = stepped.act(&Action::Turn { shaft: shaft.clone(), deg: part }, false);
                assert!(gap_now(&stepped) > -1e-6, "{n}: on the way");
            }
            match stopped_by {
                Some(Stopped::Contact(_)) => {
                    stopped += 1;
                    let gap = gap_now(&job);
                    assert!(gap < 1e-4, "{n}: stopped {gap} mm off");
                    // And it goes no further that way, however often it is tried.
                    let Did::Turned { deg: more, .. } =
                        act(&mut job, Action::Turn { shaft, deg: deg.signum() * 5.0 })
                    else {
                        panic!()
                    };
                    assert!(more.abs() < 1e-4, "{n}: went on by {more}");
                }
                _ => free += 1,
            }
        }
    }
    assert!(stopped > 200 && free > 1000, "{stopped}, {free}");
}

/// The touching engine one tooth past what it survives, turned over: it stops within two turns; a tooth
/// less and it does not.
#[test]
fn one_tooth_past_what_it_survives_it_stops() {
    let six = shipped()
        .into_iter()
        .find(|plan| plan.layout.title == "Six in a vee, one camshaft a bank")
        .unwrap();
    for (teeth, stops) in [(-3, true), (-2, false), (2, false), (3, true)] {
        let mut job = Job::new(Rc::clone(&six)).feeling_contact();
        // A quarter turn on, where no valve is near any piston, so that the teeth can be put out.
        act(&mut job, Action::TurnTo { crank_deg: 60.0 });
        act(&mut job, Action::SetTeeth(BTreeMap::from([("cam_left".to_owned(), teeth)])));
        let Did::TurnedTo { stopped_by, .. } = act(&mut job, Action::TurnTo { crank_deg: 780.0 })
        else {
            panic!()
        };
        let contact = matches!(stopped_by, Some(Stopped::Contact(_)));
        assert_eq!(contact, stops, "{teeth} teeth");
    }
    // Without a hand that feels, shafts go where they are put.
    let mut job = Job::new(six);
    act(&mut job, Action::SetTeeth(BTreeMap::from([("cam_left".to_owned(), -3)])));
    act(&mut job, Action::TurnTo { crank_deg: 720.0 });
    assert_eq!(job.crank(), Turned { turns: 2, deg: 0.0 });
}

/// The usual order of fitting meets nothing on any of them.
#[test]
fn fitting_as_usual_meets_nothing() {
    for plan in shipped() {
        let mut job = Job::new(Rc::clone(&plan)).feeling_contact();
        let answer = advice::fitting(&plan);
        for _ in 0..20 {
            let steps = advice::stages(&job, &answer);
            let Some(step) = steps.into_iter().find(|step| step.next) else { break };
            for action in step.actions {
                let did = act(&mut job, action);
                let contact = match did {
                    Did::Turned { stopped_by, .. }
                    | Did::TurnedTo { stopped_by, .. }
                    | Did::BroughtForward { stopped_by, .. } => {
                        matches!(stopped_by, Some(Stopped::Contact(_)))
                    }
                    _ => false,
                };
                assert!(!contact, "{}: {did:?}", plan.layout.title);
            }
        }
        let done = advice::stages(&job, &answer).iter().all(|step| step.done);
        assert!(done, "{}", plan.layout.title);
    }
}

/// What *What if* says in words and what its plots draw is the same figure, for every camshaft and number
/// of teeth.
#[test]
fn words_and_plots_have_the_same_gaps() {
    let mut compared = 0_u32;
    for plan in shipped() {
        let job = Job::new(Rc::clone(&plan));
        let plots = advice::gaps_by_teeth(&job);
        for teeth in -3..=3_i64 {
            let mut job = job.clone();
            for wheel in &plan.engine.as_ref().unwrap().wheels {
                let id = plan.id(*wheel).to_owned();
                act(&mut job, Action::SetTeeth(BTreeMap::from([(id, teeth)])));
            }
            let said = advice::engine_out(&job, None).unwrap();
            for plot in &plots {
                let camshaft = said.camshafts.iter().find(|c| c.wheel == plot.wheel).unwrap();
                let valve = camshaft.valves.iter().find(|v| v.kind == plot.valve).unwrap();
                let [now, in_time] = valve.least.unwrap();
                // The plot's list has no teeth out in its middle.
                let middle = plot.gaps_mm.len() / 2;
                let at = |n: i64| plot.gaps_mm[(middle as i64 + n) as usize];
                assert!((now.along_bore_mm - at(teeth)).abs() < 1e-9, "{}", plan.layout.title);
                assert!((in_time.along_bore_mm - at(0)).abs() < 1e-9, "{}", plan.layout.title);
                compared += 1;
            }
        }
    }
    assert!(compared > 50, "{compared}");
}
