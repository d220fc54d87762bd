//! What `two-turns fitting` prints of the layout that ships.

#![allow(clippy::unwrap_used, reason = "tests")]

mod run;

use run::{SIX, edited, json, run, run_with};
use serde_json::Value;

#[test]
fn the_keys_are_those_that_readers_rely_on() {
    let answer = json(&["fitting", SIX]);
    assert_eq!(answer["pulled_run"]["from"], "cam_right");
    assert_eq!(answer["pulled_run"]["to"], "crank");
    let teeth = answer["pulled_run"]["teeth"].as_i64().unwrap();
    assert!(answer["most_teeth_back_off"].is_i64());
    assert!(answer["slack_when_back_teeth"].is_f64());
    let landing = answer["landing"].as_array().unwrap();
    let counts: Vec<i64> =
        landing.iter().map(|row| row["teeth_in_pulled_run"].as_i64().unwrap()).collect();
    assert_eq!(counts, [teeth - 2, teeth - 1, teeth, teeth + 1, teeth + 2]);
    for pair in landing.windows(2) {
        let by = |key: &str| pair[1][key].as_f64().unwrap() - pair[0][key].as_f64().unwrap();
        assert!((by("crank_lands_teeth") - 1.0).abs() < 1e-9, "n more teeth land n ahead");
        // One of 24 teeth is 15° of the crank.
        assert!((by("crank_lands_deg") - 15.0).abs() < 1e-9);
    }
    let list = |key: &str, id: &str| -> Vec<String> {
        let all = answer[key].as_array().unwrap();
        all.iter().map(|entry: &Value| entry[id].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(list("lash", "shaft"), ["crank", "cam_left", "cam_right"]);
    assert_eq!(list("jump_margin", "wheel"), ["crank", "cam_left", "cam_right"]);
    assert!(answer["lash"][0]["deg"] == 0.0 && answer["lash"][1]["deg"].as_f64().unwrap() > 0.0);
    let order: Vec<&str> =
        answer["thread_order"].as_array().unwrap().iter().map(|id| id.as_str().unwrap()).collect();
    assert_eq!(order, ["crank", "idler", "cam_right", "water_pump", "cam_left", "tensioner"]);
}

#[test]
fn it_is_consistent_with_the_report() {
    let (answer, report) = (json(&["fitting", SIX]), json(&["report", SIX]));
    for (a, b) in
        answer["counts"].as_array().unwrap().iter().zip(report["counts"].as_array().unwrap())
    {
        assert_eq!((&a["from"], &a["to"], &a["teeth"]), (&b["from"], &b["to"], &b["teeth"]));
    }
    let back_mm = report["tensioner"]["slack_when_back_mm"].as_f64().unwrap();
    let back = answer["slack_when_back_teeth"].as_f64().unwrap();
    assert!((back - back_mm / report["belt"]["pitch_mm"].as_f64().unwrap()).abs() < 1e-12);
}

#[test]
fn doubt_about_the_centres_is_told() {
    let said = |mm: &str| {
        let text = edited("crank_turns", &format!("centres_good_to_mm = {mm}\ncrank_turns"));
        run_with(&["fitting", "-", "--json"], &text, &[("LC_ALL", "C")]).out
    };
    let certain = |mm: &str| -> Vec<bool> {
        let answer: Value = serde_json::from_str(&said(mm)).unwrap();
        let counts = answer["counts"].as_array().unwrap().clone();
        counts.iter().map(|count| count["certain"].as_bool().unwrap()).collect()
    };
    assert_eq!(certain("0.1"), [true, true, true]);
    assert_eq!(certain("5.0"), [false, false, false]);
    // What is certain is told exactly, and only that; what is not, between the counts that it may be.
    for mm in ["0.1", "0.9", "1.5", "5.0"] {
        let answer: Value = serde_json::from_str(&said(mm)).unwrap();
        for count in answer["counts"].as_array().unwrap() {
            assert_eq!(count["known"] == "exactly", count["certain"] == true, "{mm}: {count}");
            if let Some(between) = count["known"]["between"].as_array() {
                let teeth = count["teeth"].as_i64().unwrap();
                let [least, most] = [0, 1].map(|i| between[i].as_i64().unwrap());
                assert!(least < teeth && teeth < most && most - least <= 8, "{mm}: {count}");
            }
        }
    }
    assert!(json(&["fitting", SIX])["counts"][0]["certain"].is_null(), "nobody said how good");
}

#[test]
fn a_person_reads_it_in_either_language() {
    let (en, de) = (run(&["fitting", SIX]).out, run(&["fitting", SIX, "--lang", "de"]).out);
    assert!(en.contains("From dot to dot, Right camshaft to Crankshaft: 54\u{a0}teeth"), "{en}");
    assert!(
        de.contains("Von Punkt zu Punkt, Right camshaft bis Crankshaft: 54\u{a0}Zähne"),
        "{de}"
    );
    assert!(en.contains("estimate") && de.contains("Schätzung"));
}
