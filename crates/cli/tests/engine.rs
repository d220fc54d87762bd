//! What `two-turns what-if`, `belt-off` and the clearance in `report` print of layouts that ship.

#![allow(clippy::unwrap_used, reason = "tests")]

mod run;

use run::{SIX, edited, json, keys, run, run_with};
use serde_json::Value;

const DIESEL: &str =
    concat!(env!("CARGO_MANIFEST_DIR"), "/../../layouts/diesel-four-with-injection-pump.toml");
const BALANCE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../layouts/balance-shaft-belt.toml");

fn camshaft<'a>(answer: &'a Value, id: &str) -> &'a Value {
    let all = answer["engine"]["camshafts"].as_array().unwrap();
    all.iter().find(|c| c["camshaft"] == id).unwrap()
}

#[test]
fn the_report_tells_clearance() {
    let report = json(&["report", DIESEL]);
    let all = report["clearance"].as_array().unwrap();
    assert_eq!(all.len(), 2);
    for c in all {
        assert_eq!(
            keys(c),
            [
                "at_crank_deg",
                "camshaft",
                "least_gap_mm",
                "least_gap_phased_mm",
                "teeth_early_to_contact",
                "teeth_late_to_contact",
                "valve"
            ]
        );
        assert!(c["least_gap_mm"].as_f64().unwrap() > 0.0);
        assert!((-360.0..=360.0).contains(&c["at_crank_deg"].as_f64().unwrap()));
    }
    let first = |key: &str| all.iter().filter_map(|c| c[key].as_u64()).min();
    assert_eq!(
        (first("teeth_early_to_contact"), first("teeth_late_to_contact")),
        (Some(1), Some(1))
    );
    assert_eq!(json(&["report", BALANCE])["clearance"], Value::Array(Vec::new()));
}

/// One shared camshaft a tooth out moves all four of its events together; durations, overlap and
/// separation stay, and so does the other bank.
#[test]
fn a_shared_camshaft_a_tooth_out() {
    let in_time = json(&["what-if", SIX]);
    let late = json(&["what-if", SIX, "--teeth", "cam_left=-1"]);
    let (was, is) = (camshaft(&in_time, "cam_left"), camshaft(&late, "cam_left"));
    for (a, b) in was["valves"].as_array().unwrap().iter().zip(is["valves"].as_array().unwrap()) {
        let by = |key: &str| b[key].as_f64().unwrap() - a[key].as_f64().unwrap();
        // One of 24 teeth is 15° of the crank.
        assert!((by("opens_before_deg") + 15.0).abs() < 1e-9);
        assert!((by("closes_after_deg") - 15.0).abs() < 1e-9);
        assert!(by("duration_deg").abs() < 1e-9 && (by("centreline_deg") - 15.0).abs() < 1e-9);
        assert_eq!(a["least_gap_mm"], b["least_gap_in_time_mm"]);
    }
    for key in ["overlap_deg", "separation_cam_deg"] {
        assert!((was[key].as_f64().unwrap() - is[key].as_f64().unwrap()).abs() < 1e-9, "{key}");
    }
    assert_eq!(camshaft(&in_time, "cam_right"), camshaft(&late, "cam_right"));
    let gauge = |c: &Value| c["cranking"]["gauge_bar"][1].as_f64().unwrap();
    assert!(gauge(is) < gauge(was), "closing later squeezes less");
    let ratio = |c: &Value| c["cranking"]["effective_ratio"].as_f64().unwrap();
    let n = late["engine"]["exponent"].as_f64().unwrap();
    // p·ratioⁿ less the air outside, 1.01325 bar.
    let expected = 1.01325 * (libm::pow(ratio(is), n) - 1.0);
    assert!((gauge(is) - expected).abs() < 1e-9);
}

#[test]
fn what_it_survives_and_what_it_does_not() {
    for (teeth, touches) in [("-2", false), ("-3", true), ("2", false), ("3", true)] {
        let answer = json(&["what-if", SIX, "--teeth", &format!("cam_left={teeth}")]);
        let left = camshaft(&answer, "cam_left");
        let any = left["valves"].as_array().unwrap().iter().any(|v| v["touches"] == true);
        assert_eq!(any, touches, "{teeth}");
        assert_eq!(left["teeth_early_to_contact"], 3);
        assert_eq!(left["teeth_late_to_contact"], 3);
        assert_eq!(answer["engine"]["contact"], "interference");
    }
    // The crank a tooth ahead is every camshaft a tooth behind.
    let crank = json(&["what-if", SIX, "--teeth", "crank=1"]);
    assert_eq!(camshaft(&crank, "cam_left")["teeth"], -1);
}

/// A valve that is open while the piston comes up to fire lets everything out: no pressure is told.
#[test]
fn nothing_is_squeezed_past_an_open_valve() {
    let arm =
        concat!(env!("CARGO_MANIFEST_DIR"), "/../../layouts/four-in-line-two-camshafts-arm.toml");
    let told = |teeth: &str| json(&["what-if", arm, "--teeth", teeth]);
    for (teeth, intake, open) in
        [("cam_exhaust=16", "cam_intake", "exhaust"), ("cam_intake=-16", "cam_intake", "intake")]
    {
        let answer = told(teeth);
        let c = camshaft(&answer, intake);
        assert!(c["cranking"].is_null(), "{teeth}");
        assert_eq!(c["open_on_compression"], open);
        let out = run(&["what-if", arm, "--teeth", teeth]);
        assert!(out.out.contains("No compression"), "{teeth}");
    }
    for teeth in ["cam_exhaust=-2", "cam_intake=2"] {
        assert!(camshaft(&told(teeth), "cam_intake")["cranking"].is_object(), "{teeth}");
    }
}

#[test]
fn exponents_and_engines_that_are_not_there() {
    let done = run(&["what-if", SIX, "--exponent", "1.4"]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.contains("1.20 to 1.30"), "{}", done.err);
    let chosen = run(&["what-if", SIX, "--exponent", "1.3"]).out;
    let range = run(&["what-if", SIX]).out;
    assert!(range.contains(" to ") && range.contains("bar on a gauge") && chosen != range);
    assert!(range.contains("not a licence to turn an engine"));
    let none = json(&["what-if", BALANCE]);
    assert!(none["engine"].is_null() && none["shafts"].is_array());
    assert!(run(&["what-if", BALANCE]).out.contains("degrees only"));
    let done = run(&["belt-off", BALANCE]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.contains("degrees only"), "{}", done.err);
}

#[test]
fn the_belt_off() {
    let answer =
        json(&["belt-off", SIX, "--crank-deg", "60", "--shaft", "cam_left=75,cam_right=-100"]);
    assert_eq!(answer["way"], "moves");
    let moves = answer["moves"].as_array().unwrap();
    // The moves bring each shaft to its mark: from 60, 75 and −100 degrees of their own.
    for (id, from, period) in
        [("crank", 60.0, 360.0), ("cam_left", 75.0, 360.0), ("cam_right", -100.0, 360.0)]
    {
        let by: f64 =
            moves.iter().filter(|m| m["shaft"] == id).map(|m| m["deg"].as_f64().unwrap()).sum();
        let off = (from + by) / period;
        assert!((off - off.round()).abs() < 1e-9, "{id}: {by}");
        assert!(moves.iter().all(|m| m["least_gap_mm"].as_f64().unwrap() > 0.0));
    }
    // Sixty degrees is where this six is best parked (its tops are 120° apart).
    let parking: Vec<f64> = answer["parking"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| p["crank_deg"].as_f64().unwrap())
        .collect();
    assert_eq!(parking.len(), 3);
    assert!(parking.iter().all(|deg| ((deg - 60.0) / 120.0).fract().abs() < 1e-9), "{parking:?}");
    let freedom = answer["freedom"].as_array().unwrap();
    assert_eq!(
        keys(&freedom[0]),
        ["back_deg", "back_meets", "forward_deg", "forward_meets", "shaft"]
    );
    // A four's parking angle is wrong for a six: at 90° a piston is near its top.
    let four = json(&["belt-off", SIX, "--crank-deg", "90", "--shaft", "cam_left=90"]);
    assert!(four["parking"].as_array().unwrap().iter().all(|p| p["crank_deg"] != 90.0));
    let depth = four["quarter_turn_depth_mm"].as_f64().unwrap();
    let best = four["parking"][0]["least_depth_mm"].as_f64().unwrap();
    assert!(depth < 10.0 && best > 20.0, "{depth}, {best}");
    assert!(
        run(&["belt-off", SIX]).out.contains("a four in line is parked, is wrong for this engine")
    );
    assert!(json(&["belt-off", DIESEL])["quarter_turn_depth_mm"].is_null(), "a four");
    let here = json(&["belt-off", SIX, "--crank-deg", "0", "--shaft", "cam_right=-40"]);
    assert_eq!(here["way"], "touches_now");
    let done = run(&["belt-off", SIX, "--shaft", "idler=3"]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.contains("cam_left"), "{}", done.err);
}

#[test]
fn what_is_missing_is_named() {
    let text = edited("stroke_mm", "# stroke_mm");
    let of = |args: &[&str]| {
        let done = run_with(args, &text, &[("LC_ALL", "C")]);
        assert_eq!((done.code, done.err.as_str()), (Some(0), ""), "{args:?}");
        done.out
    };
    let answer: Value = serde_json::from_str(&of(&["belt-off", "-", "--json"])).unwrap();
    assert!(answer["missing"].as_str().unwrap().contains("stroke_mm"));
    assert!(of(&["belt-off", "-"]).contains("lacks engine.stroke_mm"));
    let what_if = of(&["what-if", "-"]);
    assert!(what_if.contains("no gap can be told"), "{what_if}");
    let answer: Value = serde_json::from_str(&of(&["what-if", "-", "--json"])).unwrap();
    // With the piston at its top and a valve open furthest no stroke is needed.
    assert_eq!(answer["engine"]["contact"], "interference");
    assert!(camshaft(&answer, "cam_left")["valves"][0]["least_gap_mm"].is_null());
}
