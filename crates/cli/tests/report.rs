//! What `two-turns report` prints of the layout that ships.

#![allow(clippy::unwrap_used, reason = "tests")]

mod run;

use run::{SIX, json, keys, numbers, run, run_with, with_id};

#[test]
fn the_keys_are_those_that_readers_rely_on() {
    let report = json(&["report", SIX]);
    let tops = [
        "belt",
        "camshafts_out",
        "clearance",
        "counts",
        "provisional",
        "shafts",
        "spans",
        "stripes",
        "tensioner",
        "wheels",
    ];
    assert_eq!(keys(&report), tops);
    for (part, expected) in [
        (&report["belt"], vec!["pitch_length_mm", "pitch_mm", "teeth"]),
        (
            &report["tensioner"],
            vec!["length_rate_mm_per_unit", "slack_when_back_mm", "travel", "unit"],
        ),
        (&report["spans"][0], vec!["from", "leaves_mm", "length_mm", "meets_mm", "to"]),
        (
            &report["wheels"][0],
            vec!["id", "pitch_radius_mm", "teeth_in_mesh", "turns_per_crank_turn", "wrap_deg"],
        ),
        (&report["counts"][0], vec!["from", "geometric_teeth", "known", "teeth", "to"]),
        (
            &report["stripes"],
            vec!["crank_turns_to_meet_crank_mark", "crank_turns_to_meet_every_mark"],
        ),
    ] {
        assert_eq!(keys(part), expected);
    }
    let shaft = [
        "id",
        "degrees_per_tooth",
        "crank_degrees_per_tooth",
        "best_tooth_error_teeth",
        "best_tooth_error_crank_deg",
        "returns_after_crank_turns",
    ];
    assert!(shaft.iter().all(|key| keys(&report["shafts"][0]).contains(key)));
}

#[test]
fn the_figures_are_those_of_arithmetic() {
    let report = json(&["report", SIX]);
    assert_eq!(report["belt"]["teeth"], 173);
    let length = report["belt"]["pitch_length_mm"].as_f64().unwrap();
    assert!((length - 173.0 * 9.525).abs() < 1e-9);
    // Counts go all round the belt, whole and by geometry.
    assert_eq!(numbers(&report["counts"], "teeth").iter().sum::<f64>(), 173.0);
    let geometry: f64 = numbers(&report["counts"], "geometric_teeth").iter().sum();
    assert!((geometry - 173.0).abs() < 1e-6);
    // Spans and arcs make up the belt.
    let spans: f64 = numbers(&report["spans"], "length_mm").iter().sum();
    let arcs: f64 = numbers(&report["wheels"], "teeth_in_mesh").iter().map(|t| t * 9.525).sum();
    assert!((spans + arcs - length).abs() < 1e-5);
    // 360° over 24 and 48 teeth; the same 15° of crank at each.
    for (id, deg, turns) in [("crank", 15.0, 1), ("cam_left", 7.5, 2), ("cam_right", 7.5, 2)] {
        let shaft = with_id(&report["shafts"], id);
        assert_eq!(shaft["degrees_per_tooth"], deg);
        assert_eq!(shaft["crank_degrees_per_tooth"], 15.0);
        assert_eq!(shaft["returns_after_crank_turns"], turns);
        let best = shaft["best_tooth_error_teeth"].as_f64().unwrap();
        assert!(best.abs() <= 0.5);
        assert!((shaft["best_tooth_error_crank_deg"].as_f64().unwrap() - best * 15.0).abs() < 1e-9);
    }
    assert_eq!(with_id(&report["wheels"], "cam_left")["turns_per_crank_turn"], 0.5);
    assert!(with_id(&report["wheels"], "idler")["turns_per_crank_turn"].as_f64().unwrap() < 0.0);
    // 173 and 24 have no factor in common; both camshafts are back every other turn.
    assert_eq!(report["stripes"]["crank_turns_to_meet_crank_mark"], 173);
    assert_eq!(report["stripes"]["crank_turns_to_meet_every_mark"], 346);
}

#[test]
fn standard_input_does_as_well() {
    let text = std::fs::read_to_string(SIX).unwrap();
    let piped = run_with(&["report", "-", "--json"], &text, &[]);
    assert_eq!((piped.code, piped.err.as_str()), (Some(0), ""));
    assert_eq!(piped.out, run(&["report", SIX, "--json"]).out);
}

#[test]
fn people_read_tables_in_their_language() {
    let english = run(&["report", SIX]).out;
    assert!(english.contains("173\u{a0}teeth") && english.contains("Water pump → Right camshaft"));
    let german = run_with(&["report", SIX], "", &[("LANG", "de_DE.UTF-8")]).out;
    assert!(german.contains("173\u{a0}Zähne") && german.contains("9,525\u{a0}mm"));
    assert_eq!(run(&["--lang", "de", "report", SIX]).out, german);
    assert_eq!(run(&["report", SIX, "--lang", "de"]).out, german);
    // What machines read is the same in every language.
    assert_eq!(
        run(&["report", SIX, "--json", "--lang", "de"]).out,
        run(&["report", SIX, "--json"]).out
    );
}
