//! `two-turns run`: actions from a file, a line after each.

#![allow(clippy::unwrap_used, reason = "tests")]

mod run;

use run::{Done, SIX, keys, run_with};
use serde_json::Value;

fn run_actions(actions: &str, more: &[&str]) -> Done {
    run_with(&[&["run", SIX, "-"], more].concat(), actions, &[("LC_ALL", "C")])
}

fn lines(actions: &str) -> Vec<Value> {
    let done = run_actions(actions, &["--json"]);
    assert_eq!((done.code, done.err.as_str()), (Some(0), ""), "{actions}");
    done.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

/// The whole job that ships, from the shafts held to two turns after the pin.
#[test]
fn the_rehearsal_that_ships_ends_in_time() {
    let lines = lines(include_str!("../../../layouts/six-in-a-vee-rehearsal.jsonl"));
    let last = lines.last().unwrap();
    assert_eq!((last["crank_deg"].as_f64(), &last["belt_on"]), (Some(1440.0), &Value::Bool(true)));
    assert_eq!(last["warnings"], Value::Array(Vec::new()));
    for shaft in last["shafts"].as_array().unwrap() {
        assert!(shaft["mark_error_teeth"].as_f64().unwrap().abs() < 0.5, "{shaft}");
        assert_eq!(shaft["held"], false);
    }
}

#[test]
fn a_line_for_each_action_with_the_keys_that_readers_rely_on() {
    let lines = lines(
        r#"{"tensioner": "back"}

{"hold": {"shaft": "cam_left"}}
{"hold": {"shaft": "cam_right"}}
{"turn": {"shaft": "crank", "deg": -15.0}}
{"hang": {"teeth": {"cam_right>crank": 55}}}
{"tensioner": "bolt_up"}
{"bring_forward": {"shaft": "crank"}}
"#,
    );
    assert_eq!(lines.len(), 7);
    for line in &lines {
        for key in ["crank_deg", "did", "runs", "shafts", "tensioner", "warnings"] {
            assert!(!line[key].is_null(), "{key}");
        }
        assert_eq!(keys(&line["tensioner"]), ["state", "travel", "unit"]);
        let shaft = &line["shafts"][0];
        for key in ["id", "turned_deg", "mark_error_teeth", "held"] {
            assert!(!shaft[key].is_null(), "{key}");
        }
        assert!(line["runs"].as_array().unwrap().iter().all(|run| run["slack_mm"].is_number()));
    }
    assert_eq!(lines[0]["tensioner"]["state"], "back");
    assert_eq!(lines[2]["shafts"][2]["held"], true);
    assert_eq!(lines[5]["tensioner"]["state"], "pinned");
    // One tooth more in the pulled run lands the crank a tooth ahead, to the nearest.
    let off = lines[6]["shafts"][0]["mark_error_teeth"].as_f64().unwrap();
    assert!((off - 1.0).abs() < 0.5, "{off}");
}

#[test]
fn held_shafts_stop_the_crank_and_it_is_said() {
    let lines = lines(
        r#"{"hold": {"shaft": "cam_left"}}
{"turn": {"shaft": "crank", "deg": 90}}
"#,
    );
    assert_eq!(lines[1]["crank_deg"], 0.0);
    let did = lines[1]["did"].as_str().unwrap();
    assert!(did.contains("the belt is tight") && did.contains("Left camshaft is held"), "{did}");
}

#[test]
fn it_stops_at_what_cannot_be_done_and_says_where() {
    let done = run_actions(
        "{\"tensioner\": \"back\"}\n{\"turn\": {\"shaft\": \"cam\", \"deg\": 1}}\n{\"belt\": \"off\"}\n",
        &["--json"],
    );
    assert_eq!(done.code, Some(2));
    assert_eq!(done.out.lines().count(), 1, "what was done is told");
    let faults: Value = serde_json::from_str(&done.err).unwrap();
    assert_eq!(faults[0]["line"], 2);
    assert!(faults[0]["message"].as_str().unwrap().contains("cam_left"), "{faults}");
    for (line, says) in [
        ("{\"jump\": {}}", "turn_to"),
        ("{\"turn\": {\"shaft\": \"crank\"}}", "deg"),
        ("turn", "no action"),
        ("{\"belt\": \"off\"}", "Draw the tensioner back first"),
        ("{\"hang\": {\"teeth\": {\"crank>cam_right\": 60}}}", "mm"),
        ("{\"release\": {\"shaft\": \"crank\"}}", "Nothing holds"),
        ("{\"slacken\": {\"shaft\": \"crank\"}}", "keyed"),
    ] {
        let done = run_actions(line, &[]);
        assert_eq!(done.code, Some(2), "{line}");
        assert!(done.err.starts_with("-:1:") && done.err.contains(says), "{line}: {}", done.err);
    }
}

#[test]
fn counts_that_cannot_be_are_refused() {
    let refused = |hang: &str| {
        let done = run_actions(&format!("{{\"tensioner\": \"back\"}}\n{hang}\n"), &[]);
        assert_eq!(done.code, Some(2), "{hang}");
        done.err.replace('\u{a0}', " ")
    };
    let err = refused(r#"{"hang": {"teeth": {"crank>cam_right": 60}}}"#);
    assert!(err.contains("crank>cam_left, cam_left>cam_right and cam_right>crank"), "{err}");
    let err = refused(
        r#"{"hang": {"teeth": {"crank>cam_left": 55, "cam_left>cam_right": 64, "cam_right>crank": 55}}}"#,
    );
    assert!(err.contains("174 teeth") && err.contains("173 teeth"), "{err}");
    let err = refused(r#"{"hang": {"teeth": {"cam_left>cam_right": 60}}}"#);
    assert!(err.contains("4 teeth short"), "{err}");
    let err = refused(r#"{"hang": {"teeth": {"cam_left>cam_right": 0}}}"#);
    assert!(err.contains("1 to 173"), "{err}");
}

#[test]
fn a_person_reads_it() {
    let done = run_actions("{\"tensioner\": \"back\"}\n{\"belt\": \"off\"}\n", &[]);
    assert_eq!(done.code, Some(0));
    assert!(done.out.contains("The belt is off."), "{}", done.out);
    assert!(done.out.contains("! Nothing holds Left camshaft and Right camshaft"), "{}", done.out);
}
