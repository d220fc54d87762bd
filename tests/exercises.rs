//! The blind exercise: of a thousand numbers each can be solved from what can be seen, the right answer is
//! judged right however it is said, and every other one wrong.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use job::{Action, Job};
use layout::Plan;
use lesson::exercise::{
    ClassAnswer, Exercise, Fault, Finding, LAYOUTS, Looks, MOST_NUMBER, catalogue, looks,
};
use std::collections::BTreeMap;
use std::rc::Rc;

/// The plans that exercises are set on, by name.
fn plans() -> BTreeMap<&'static str, Rc<Plan>> {
    let open = |name: &&'static str| {
        let path = format!("{}/../layouts/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap();
        (*name, Rc::new(Plan::open(&text).unwrap()))
    };
    LAYOUTS.iter().map(open).collect()
}

fn exercise(plans: &BTreeMap<&'static str, Rc<Plan>>, number: u32) -> Exercise {
    Exercise::of(number, &mut |name| plans.get(name).cloned()).unwrap()
}

/// Numbers all over the range, from first to last.
fn numbers() -> impl Iterator<Item = u32> {
    (0..1000).map(|i| i * 1001)
}

/// Everything that a class sees: as it is found, the eye brought square, and each time the crank's mark
/// then comes up, looked at both ways.
fn seen(exercise: &Exercise) -> Vec<Looks> {
    let views = |job: &Job| [exercise.aside_deg, 0.0].map(|aside_deg| looks(job, aside_deg));
    let mut all = views(&exercise.job).to_vec();
    let mut job = exercise.job.clone();
    let turns = job.crank().turns;
    for turn in 1..=2 {
        let crank_deg = (turns + turn) as f64 * 360.0;
        job.act(&Action::TurnTo { crank_deg }, false).unwrap();
        all.extend(views(&job));
    }
    all
}

/// Every case of a layout: what it comes to, and what is seen of it.
fn cases(plan: &Rc<Plan>) -> Vec<(Vec<Fault>, Finding, Vec<Looks>)> {
    let all = catalogue(plan).into_iter();
    let hidden = all.map(|faults| {
        let exercise = Exercise::with(0, Rc::clone(plan), faults.clone())
            .unwrap_or_else(|| panic!("{}: {faults:?}", plan.layout.title));
        (faults, exercise.finding().clone(), seen(&exercise))
    });
    hidden.collect()
}

#[test]
fn each_of_a_thousand_is_solvable_and_marked_rightly() {
    let plans = plans();
    let known: BTreeMap<&str, _> = plans.iter().map(|(name, plan)| (*name, cases(plan))).collect();
    let mut kinds = [0; 3];
    let mut layouts = std::collections::BTreeSet::new();
    for number in numbers() {
        let exercise = exercise(&plans, number);
        assert!(exercise.job.next_steps() == (None, None), "{number}: undo tells");
        let plan = exercise.job.plan();
        let (name, _) = plans.iter().find(|(_, known)| Rc::ptr_eq(known, plan)).unwrap();
        layouts.insert(*name);
        kinds[exercise.faults().len()] += 1;
        let own = seen(&exercise);
        for (faults, finding, looks) in &known[name] {
            let answer = ClassAnswer::naming(plan, faults);
            let right = exercise.judge(&answer).unwrap().right();
            assert_eq!(right, finding == exercise.finding(), "{number}: {faults:?}");
            if !right {
                assert_ne!(looks, &own, "{number}: {:?} and {faults:?}", exercise.faults());
            }
        }
        let in_time = exercise.judge(&ClassAnswer::default()).unwrap();
        assert!(!in_time.right(), "{number}: nothing is wrong");
    }
    assert_eq!(layouts.len(), LAYOUTS.len(), "every layout comes up");
    assert!(kinds[1] > 400 && kinds[2] > 400, "{kinds:?}");
}

#[test]
fn the_same_installation_is_one_finding_however_it_is_said() {
    let plans = plans();
    for plan in plans.values() {
        let ids: Vec<&str> = plan
            .drive
            .sprockets()
            .iter()
            .map(|s| s.wheel)
            .filter(|i| plan.drive.wheels()[*i].mark.is_some())
            .map(|i| plan.id(i))
            .collect();
        for teeth in [-2, -1, 1, 2] {
            let faults = vec![Fault::TeethOut { wheel: plan.wheel_index(ids[0]).unwrap(), teeth }];
            let exercise = Exercise::with(1, Rc::clone(plan), faults).unwrap();
            let behind = ids[1..].iter().map(|id| ((*id).to_owned(), -teeth));
            let answer = ClassAnswer { teeth: behind.collect(), ..ClassAnswer::default() };
            assert!(exercise.judge(&answer).unwrap().right(), "{}", plan.layout.title);
            let mut wrong = answer.clone();
            *wrong.teeth.get_mut(ids[1]).unwrap() += 1;
            assert!(!exercise.judge(&wrong).unwrap().shafts);
        }
    }
}

#[test]
fn a_decoy_named_by_its_teeth_is_right_as_well() {
    let plans = plans();
    let plan = &plans["four-in-line-two-camshafts-arm"];
    let all = catalogue(plan);
    let decoy = all.iter().find(|case| matches!(case[..], [Fault::Decoy { .. }])).unwrap();
    let exercise = Exercise::with(1, Rc::clone(plan), decoy.clone()).unwrap();
    let teeth = |n: i64| ClassAnswer {
        teeth: BTreeMap::from([("cam_intake".to_owned(), n)]),
        ..ClassAnswer::default()
    };
    // The layout has the mark EX 142.5° clockwise of the right one on a wheel of 48 that runs clockwise:
    // 19 teeth back bring it up, or 29 forward.
    assert!(exercise.judge(&teeth(-19)).unwrap().right());
    assert!(exercise.judge(&teeth(29)).unwrap().right());
    assert!(!exercise.judge(&teeth(19)).unwrap().right());
    let unknown = ClassAnswer { decoys: vec!["cam_exhaust".to_owned()], ..ClassAnswer::default() };
    assert!(exercise.judge(&unknown).is_err(), "it has no such mark");
}

#[test]
fn the_same_number_hides_the_same_fault() {
    let plans = plans();
    for number in [0, 7, 123_456, MOST_NUMBER] {
        let (one, other) = (exercise(&plans, number), exercise(&plans, number));
        assert_eq!(one.faults(), other.faults());
        assert_eq!(advice::moment(&one.job), advice::moment(&other.job));
    }
    assert_eq!(
        exercise(&plans, MOST_NUMBER).faults(),
        exercise(&plans, u32::MAX).faults(),
        "beyond the last number stands the last"
    );
}
