//! What `two-turns pose` prints of the layout that ships.

#![allow(clippy::unwrap_used, reason = "tests")]

mod run;

use run::{SIX, json, keys, numbers, run, with_id};
use serde_json::Value;

fn error_teeth(pose: &Value, id: &str) -> f64 {
    with_id(&pose["wheels"], id)["mark_error_teeth"].as_f64().unwrap()
}

fn turned_deg(pose: &Value, id: &str) -> f64 {
    with_id(&pose["wheels"], id)["turned_deg"].as_f64().unwrap()
}

#[test]
fn the_keys_are_those_that_readers_rely_on() {
    let pose = json(&["pose", SIX]);
    for list in ["wheels", "runs", "belt_teeth"] {
        assert!(pose[list].is_array(), "{list}");
    }
    assert_eq!(keys(&pose["wheels"][0]), ["at_mm", "id", "mark_error_teeth", "turned_deg"]);
    assert_eq!(keys(&pose["runs"][0]), ["from", "slack_mm", "to"]);
    assert_eq!(keys(&pose["belt_teeth"][0]), ["at_mm", "in"]);
    assert_eq!(pose["belt_teeth"].as_array().unwrap().len(), 173);
    assert!(with_id(&pose["wheels"], "idler")["mark_error_teeth"].is_null());
    let seats = pose["belt_teeth"].as_array().unwrap().iter().map(|tooth| &tooth["in"]);
    let seats: Vec<&Value> = seats.collect();
    assert!(seats.iter().any(|seat| seat.is_null()));
    assert!(seats.iter().any(|seat| **seat == "cam_left"));
    assert!(!seats.iter().any(|seat| **seat == "idler"));
}

#[test]
fn one_tooth_out_is_one_tooth_out() {
    let in_time = json(&["pose", SIX]);
    let late = json(&["pose", SIX, "--teeth", "cam_left=-1"]);
    let shift = error_teeth(&late, "cam_left") - error_teeth(&in_time, "cam_left");
    assert!((shift + 1.0).abs() < 1e-9);
    // One of 48 teeth is 7.5° at the camshaft.
    let shift = turned_deg(&late, "cam_left") - turned_deg(&in_time, "cam_left");
    assert!((shift + 7.5).abs() < 1e-9);
    for id in ["crank", "cam_right"] {
        assert_eq!(error_teeth(&late, id), error_teeth(&in_time, id));
    }
    // The crank one ahead is every other shaft one behind.
    let ahead = json(&["pose", SIX, "--teeth", "crank=1"]);
    assert_eq!(error_teeth(&ahead, "crank"), 0.0);
    for id in ["cam_left", "cam_right"] {
        assert!((error_teeth(&ahead, id) - error_teeth(&in_time, id) + 1.0).abs() < 1e-9);
    }
}

#[test]
fn several_shafts_by_commas_or_one_by_one() {
    let commas = run(&["pose", SIX, "--json", "--teeth", "crank=-1,cam_left=2"]).out;
    let twice = run(&["pose", SIX, "--json", "--teeth", "crank=-1", "--teeth", "cam_left=2"]).out;
    assert_eq!(commas, twice);
    let (in_time, both) = (json(&["pose", SIX]), serde_json::from_str(&commas).unwrap());
    for (id, teeth) in [("cam_left", 3.0), ("cam_right", 1.0)] {
        assert!((error_teeth(&both, id) - error_teeth(&in_time, id) - teeth).abs() < 1e-9, "{id}");
    }
}

#[test]
fn the_crank_turns_both_ways_and_takes_all_along() {
    let start = json(&["pose", SIX]);
    for deg in ["-90", "-0.5", "720", "1e6"] {
        let pose = json(&["pose", SIX, "--crank-deg", deg]);
        let asked: f64 = deg.parse().unwrap();
        assert_eq!(pose["crank_deg"], asked);
        assert_eq!(turned_deg(&pose, "crank"), asked);
        let along = turned_deg(&pose, "cam_right") - turned_deg(&start, "cam_right");
        assert!((along - asked / 2.0).abs() < 1e-6, "{deg}");
    }
    // Two turns of the crank are one of a camshaft.
    let two_turns = json(&["pose", SIX, "--crank-deg", "720"]);
    assert!((error_teeth(&two_turns, "cam_left") - error_teeth(&start, "cam_left")).abs() < 1e-9);
}

#[test]
fn slack_is_all_there_with_the_tensioner_back() {
    let slack = |pose: &Value| numbers(&pose["runs"], "slack_mm").iter().sum::<f64>();
    assert!(slack(&json(&["pose", SIX])).abs() < 1e-6);
    let report = json(&["report", SIX]);
    let when_back = report["tensioner"]["slack_when_back_mm"].as_f64().unwrap();
    for deg in ["0", "-33", "400"] {
        let back = json(&["pose", SIX, "--travel", "-38", "--crank-deg", deg]);
        assert_eq!(back["tensioner"]["travel"], -38.0);
        assert!((slack(&back) - when_back).abs() < 1e-6, "{deg}");
    }
    // The travel that the report prints can be asked for.
    let tight = report["tensioner"]["travel"].to_string();
    assert!(slack(&json(&["pose", SIX, "--travel", &tight])).abs() < 1e-6);
}

#[test]
fn a_travel_that_cannot_be_is_refused_with_what_can() {
    for travel in ["12", "-38.5", "1e9", "nan", "-inf"] {
        let done = run(&["pose", SIX, &format!("--travel={travel}"), "--json"]);
        assert_eq!((done.code, done.out.as_str()), (Some(2), ""), "{travel}");
        let faults: Value = serde_json::from_str(&done.err).unwrap();
        assert_eq!(faults[0]["key"], "--travel");
        assert!(faults[0]["line"].is_null());
    }
    let done = run(&["pose", SIX, "--travel", "12"]);
    assert_eq!(done.err.lines().count(), 1);
    let said = "The tensioner cannot stand at 12\u{a0}mm: it is right back at −38\u{a0}mm, and at ";
    assert!(done.err.contains(said), "{}", done.err);
    // What is offered is taken.
    let (_, offered) = done.err.rsplit_once("and at ").unwrap();
    let (tight, _) = offered.split_once('\u{a0}').unwrap();
    assert_eq!(run(&["pose", SIX, "--travel", tight]).code, Some(0), "{tight}");
}

#[test]
fn shafts_that_cannot_be_out_are_refused() {
    for (teeth, says) in [
        ("cam_lef=1", "crank, cam_left and cam_right"),
        ("idler=1", "crank, cam_left and cam_right"),
        ("cam_left=25", "−24 to 24\u{a0}teeth"),
        ("cam_left=1,cam_left=2", "twice"),
    ] {
        let done = run(&["pose", SIX, "--teeth", teeth]);
        assert_eq!((done.code, done.out.as_str()), (Some(2), ""), "{teeth}");
        assert!(done.err.contains(says) && done.err.lines().count() == 1, "{}", done.err);
    }
    assert_eq!(run(&["pose", SIX, "--crank-deg", "1e12"]).code, Some(2));
}

#[test]
fn people_read_tables() {
    let done = run(&["pose", SIX, "--teeth", "cam_left=-1", "--lang", "de"]);
    assert_eq!((done.code, done.err.as_str()), (Some(0), ""));
    assert!(done.out.contains("Left camshaft") && done.out.contains("Zähne"), "{}", done.out);
}
