//! What `two-turns tension` prints of the layouts that ship.

#![allow(clippy::unwrap_used, reason = "tests")]

mod run;

use run::{SIX, edited, json, keys, numbers, run, run_with, with_id};
use serde_json::Value;

/// A layout whose tensioner is turned and locked by hand.
const ECCENTRIC: &str =
    concat!(env!("CARGO_MANIFEST_DIR"), "/../../layouts/four-in-line-one-camshaft-eccentric.toml");

fn pair(value: &Value) -> [f64; 2] {
    let both: Vec<f64> = value.as_array().unwrap().iter().map(|x| x.as_f64().unwrap()).collect();
    both.try_into().unwrap()
}

fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-9 * expected.abs().max(1.0), "{found}, not {expected}");
}

#[test]
fn the_keys_are_those_that_readers_rely_on() {
    let answer = json(&["tension", SIX, "--seized", "water_pump"]);
    for key in ["resting_tension_n", "spans", "wheels", "pin_moves", "seized"] {
        assert!(keys(&answer).contains(&key), "{key}");
    }
    for key in ["from", "to", "tension_n", "tone_hz"] {
        assert!(keys(&answer["spans"][0]).contains(&key), "{key}");
    }
    for key in ["id", "bearing_load_n", "turns_per_km", "turns_per_hour"] {
        assert!(keys(&answer["wheels"][0]).contains(&key), "{key}");
    }
    for key in ["shaft", "mark_moves_deg"] {
        assert!(keys(&answer["pin_moves"][0]).contains(&key), "{key}");
    }
    for key in ["wheel", "friction_n", "heat_w"] {
        assert!(keys(&answer["seized"]).contains(&key), "{key}");
    }
    assert!(json(&["tension", SIX])["seized"].is_null());
}

/// Against the report: the spring is 350 N (the layout's own figure), over how fast it lengthens the belt.
#[test]
fn the_spring_over_its_lever() {
    let (answer, report) = (json(&["tension", SIX]), json(&["report", SIX]));
    let rate = report["tensioner"]["length_rate_mm_per_unit"].as_f64().unwrap();
    let resting = answer["resting_tension_n"].as_f64().unwrap();
    near(resting, 350.0 / rate);
    for tension in numbers(&answer["spans"], "tension_n") {
        near(tension, resting);
    }
    // At rest each bearing carries 2·T·sin(wrap/2).
    for wheel in report["wheels"].as_array().unwrap() {
        let wrap = wheel["wrap_deg"].as_f64().unwrap().to_radians();
        let id = wheel["id"].as_str().unwrap();
        let load = with_id(&answer["wheels"], id)["bearing_load_n"].as_f64().unwrap();
        near(load, 2.0 * resting * libm::sin(wrap / 2.0));
        let turns = wheel["turns_per_crank_turn"].as_f64().unwrap().abs();
        let told = pair(&with_id(&answer["wheels"], id)["turns_per_km"]);
        let crank = pair(&answer["assumed"]["crank_turns_per_km"]);
        near(told[0], turns * crank[0]);
        near(told[1], turns * crank[1]);
    }
    // A string of 0.11 kg/m (the layout's own figure): f = √(T/m′)/(2ℓ).
    for span in answer["spans"].as_array().unwrap() {
        let (mm, hz) = (span["length_mm"].as_f64().unwrap(), span["tone_hz"].as_f64().unwrap());
        near(hz * 2.0 * mm / 1000.0, libm::sqrt(resting / 0.11));
    }
    // The crank's mark is what the others are read against; theirs lag, by less than a tooth.
    assert_eq!(answer["pin_moves"][0]["mark_moves_deg"], 0.0);
    for moves in numbers(&answer["pin_moves"], "mark_moves_deg").into_iter().skip(1) {
        assert!((-7.5..0.0).contains(&moves), "{moves}");
    }
}

#[test]
fn shafts_pull_while_it_turns_and_smooth_wheels_do_not() {
    let answer = json(&["tension", SIX, "--rpm", "3000", "--moment", "cam_left=5,cam_right=3"]);
    let spans = answer["spans"].as_array().unwrap();
    let into = |id: &str| spans.iter().find(|s| s["to"] == id).unwrap()["tension_n"].as_f64();
    let from = |id: &str| spans.iter().find(|s| s["from"] == id).unwrap()["tension_n"].as_f64();
    let grows = |id: &str| from(id).unwrap() - into(id).unwrap();
    // 48 teeth of 9.525 mm: the pitch radius is 48·9.525/2π mm. The camshafts take 5 and 3 N·m.
    let radius_m = 48.0 * 9.525 / std::f64::consts::TAU / 1000.0;
    near(grows("cam_left"), 5.0 / radius_m);
    near(grows("cam_right"), 3.0 / radius_m);
    for id in ["tensioner", "water_pump", "idler"] {
        near(from(id).unwrap(), into(id).unwrap());
    }
    // Half of each at the crank, which turns twice as fast, beside its own friction, 8 N·m in the layout.
    near(answer["crank_moment_n_m"].as_f64().unwrap(), 8.0 + 4.0);
    // 40 in-lb are 40 · 0.1129848 N·m (NIST SP 811).
    let inches = json(&["tension", SIX, "--moment", "cam_left=40in-lb"]);
    let taken = with_id(&inches["wheels"], "cam_left")["takes_n_m"].as_f64().unwrap();
    assert!((taken - 40.0 * 0.112_984_8).abs() < 1e-5, "{taken}");
    let dragging = json(&["tension", SIX, "--moment", "idler=1"]);
    assert_eq!(with_id(&dragging["wheels"], "idler")["takes_n_m"], 1.0);
    let hours = pair(&with_id(&answer["wheels"], "crank")["turns_per_hour"]);
    assert_eq!(hours, [180_000.0, 180_000.0]);
    let by_road = json(&["tension", SIX, "--rpm", "3000", "--km-per-h", "120"]);
    assert_eq!(pair(&by_road["assumed"]["crank_turns_per_km"]), [1500.0, 1500.0]);
}

/// v = z·p·rpm/60; a smooth wheel slides, a sprocket does not and no figure is made up for it.
#[test]
fn a_seized_wheel_heats_or_strips() {
    let args = ["tension", SIX, "--rpm", "3000", "--seized", "water_pump"];
    let answer = json(&args);
    let (friction, heat) =
        (pair(&answer["seized"]["friction_n"]), pair(&answer["seized"]["heat_w"]));
    let speed = 24.0 * 9.525 / 1000.0 * 3000.0 / 60.0;
    for i in 0..2 {
        near(heat[i], friction[i] * speed);
        let (meets, leaves) =
            (pair(&answer["seized"]["meets_n"]), pair(&answer["seized"]["leaves_n"]));
        let wrap =
            with_id(&json(&["report", SIX])["wheels"], "water_pump")["wrap_deg"].as_f64().unwrap();
        near(leaves[i], meets[i] * libm::exp([0.25, 0.6][i] * wrap.to_radians()));
    }
    let narrow = json(&[&args[..], &["--friction-back", "0.3"]].concat());
    let one = pair(&narrow["seized"]["friction_n"]);
    assert!(one[0] == one[1] && one[0] > friction[0] && one[0] < friction[1]);
    let stuck = json(&["tension", SIX, "--seized", "cam_left"]);
    assert_eq!(stuck["seized"]["end"], "strips_or_jumps");
    assert!(stuck["seized"]["friction_n"].is_null() && stuck["seized"]["heat_w"].is_null());
}

#[test]
fn a_tensioner_locked_by_hand_is_known_once_measured() {
    let answer = json(&["tension", ECCENTRIC]);
    assert!(answer["resting_tension_n"].is_null() && answer["resting_from"] == "not_known");
    assert!(answer["spans"].as_array().unwrap().iter().all(|span| span["tension_n"].is_null()));
    assert!(answer["pin_moves"].as_array().unwrap().is_empty());
    assert!(run(&["tension", ECCENTRIC]).out.contains("not known"));
    let measured = json(&["tension", ECCENTRIC, "--tension-n", "180"]);
    assert_eq!(measured["resting_tension_n"], 180.0);
    assert!(measured["tensioner"]["gives_way_n_m"].is_null(), "locked, it does not yield");
    assert!(!measured["pin_moves"].as_array().unwrap().is_empty());
}

#[test]
fn what_cannot_be_is_refused_in_a_sentence() {
    for (args, says) in [
        (["--seized", "pump"], "Did you mean “water_pump”? The wheels are crank, tensioner,"),
        (["--moment", "cam_lfet=1"], "Did you mean “cam_left”?"),
        (["--moment", "cam_left=40mm"], "--moment"),
        (["--rpm", "0"], "rpm"),
        (["--friction-back", "0.6..0.3"], "lower end first"),
        (["--friction-toothed", "9"], "--friction-toothed"),
        (["--turns-per-km", "nan"], "--turns-per-km"),
        (["--moment", "cam_left=1,cam_left=2"], "twice"),
        (["--tension-n", "1e9"], "20000"),
    ] {
        let done = run(&[&["tension", SIX][..], &args[..]].concat());
        assert_eq!(done.code, Some(2), "{args:?}");
        assert!(done.err.contains(says) && done.out.is_empty(), "{args:?}: {}", done.err);
    }
}

#[test]
fn a_person_reads_it_in_either_language_with_its_assumptions() {
    let args = ["tension", SIX, "--seized", "water_pump"];
    let en = run(&args).out;
    let de = run(&[&args[..], &["--lang", "de"]].concat()).out;
    assert!(en.contains("An estimate, for a coefficient of friction of 0.25 to 0.60"), "{en}");
    assert!(en.contains("800 to 3000 rpm") && en.contains("1500 to 3000 crank turns"), "{en}");
    assert!(en.contains("does not say that a belt or a bearing is fit to run on"), "{en}");
    assert!(de.contains("Eine Schätzung, für eine Reibungszahl von 0,25 bis 0,60"), "{de}");
    assert!(de.contains("−40 bis 150\u{a0}°C"), "HNBR, azom.com article 537: {de}");
}

/// What a person is told of a layout on standard input.
fn told(text: &str, more: &[&str]) -> String {
    let done = run_with(&[&["tension", "-"], more].concat(), text, &[("LC_ALL", "C")]);
    assert_eq!((done.code, done.err.as_str()), (Some(0), ""));
    done.out.replace('\u{a0}', " ")
}

#[test]
fn of_a_provisional_layout_no_force_is_told() {
    let text = edited("format = 1", "format = 1\nprovisional = true");
    for more in [&["--seized", "water_pump"][..], &["--rpm", "800"], &[]] {
        let en = told(&text, more);
        assert!(en.contains("not known: this layout is provisional"), "{en}");
        for made_up in [" N ", " N·m", " W ", " Hz", " mm", "N\n"] {
            assert!(!en.contains(made_up), "{made_up:?}: {en}");
        }
        // Tooth counts are known, so how often sprockets go round.
        assert!(en.contains("1500 to 3000"), "{en}");
    }
    let done = run_with(&["tension", "-", "--json"], &text, &[]);
    let answer: Value = serde_json::from_str(&done.out).unwrap();
    assert_eq!(answer["provisional"], true);
    assert!(answer["resting_tension_n"].is_number());
    assert_eq!(json(&["tension", SIX])["provisional"], false);
}

#[test]
fn no_friction_entered_is_said_and_nothing_is_made_of_it() {
    let text: Vec<String> = edited("", "")
        .lines()
        .filter(|line| !line.starts_with("friction_n_m"))
        .map(str::to_owned)
        .collect();
    let text = text.join("\n");
    let en = told(&text, &["--rpm", "800"]);
    assert!(en.contains("is not known") && en.contains("states no shaft's friction"), "{en}");
    assert!(en.contains("as at rest") && !en.contains("0 N·m at the crank"), "{en}");
    let part = told(&edited("friction_n_m = 8.0\n", ""), &[]);
    assert!(part.contains("it takes at least about 2.5 N·m"), "{part}");
}
