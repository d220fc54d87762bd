//! Changes to layout texts that ship and to small ones: what is edited, and that nothing else is.

use super::*;
use crate::sample;

fn set(text: &str, path: &str, value: Value) -> String {
    apply(text, &[Edit::Set { path: path.to_owned(), value }]).unwrap()
}

/// The lines in which two texts differ, one after the other.
fn changed<'t>(before: &'t str, after: &'t str) -> Vec<(&'t str, &'t str)> {
    assert_eq!(before.lines().count(), after.lines().count(), "{after}");
    before.lines().zip(after.lines()).filter(|(a, b)| a != b).collect()
}

const SHIPPED: &str = include_str!("../../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

#[test]
fn nothing_else_moves() {
    for text in [SHIPPED, sample::SLIDE] {
        assert_eq!(apply(text, &[]).unwrap(), text);
        let windows = format!("\u{feff}{}", text.replace('\n', "\r\n"));
        assert_eq!(apply(&windows, &[]).unwrap(), windows);
    }
    let after = set(SHIPPED, "belt.teeth", Value::Number(174.0));
    assert_eq!(changed(SHIPPED, &after), [("teeth = 173", "teeth = 174")]);
    let after = set(SHIPPED, "wheel[2].at_mm", Value::Numbers(vec![-150.0, 317.65]));
    assert_eq!(changed(SHIPPED, &after), [("at_mm = [-153.3, 317.6]", "at_mm = [-150.0, 317.65]")]);
    let after = set(SHIPPED, "wheel[0].mark.on", Value::Text("groove".into()));
    assert_eq!(
        changed(SHIPPED, &after),
        [(
            r#"mark = { cover_clock_deg = 0.0, on = "tooth" }"#,
            r#"mark = { cover_clock_deg = 0.0, on = "groove" }"#
        )]
    );
    assert_eq!(set(&after, "wheel[0].mark.on", Value::Text("tooth".into())), SHIPPED);
}

#[test]
fn comments_and_odd_spacing_survive() {
    let text = "# top\nformat = 1   # one\n  title='x' # mine\n\n[belt] # of rubber\nteeth  =  0o171 # counted twice\n# the end\n";
    let after = set(text, "belt.teeth", Value::Number(120.0));
    assert_eq!(after, text.replace("0o171", "120"));
    assert_eq!(set(text, "belt.teeth", Value::Number(121.0)), text, "it says so already");
    let after = set(text, "belt.pitch_mm", Value::Number(9.525));
    assert_eq!(after, text.replace("twice\n", "twice\npitch_mm = 9.525\n"));
    assert_eq!(apply(&after, &[Edit::Remove { path: "belt.pitch_mm".into() }]).unwrap(), text);
    let after = set(text, "engine.bore_mm", Value::Number(80.0));
    assert!(after.starts_with(text.trim_end_matches("# the end\n")), "{after}");
    assert!(after.contains("[engine]\nbore_mm = 80.0\n"), "{after}");
    let after = set(SHIPPED, "wheel[0].mark.radius_mm", Value::Number(30.0));
    assert!(
        after.contains(r#"mark = { cover_clock_deg = 0.0, on = "tooth", radius_mm = 30.0 }"#),
        "{after}"
    );
    let after = set(SHIPPED, "wheel[1].mark.on", Value::Text("tooth".into()));
    assert!(after.contains("friction_n_m = 0.05\nmark = { on = \"tooth\" }\n"), "{after}");
}

#[test]
fn what_cannot_stand_beside_goes() {
    let after = set(SHIPPED, "wheel[3].face", Value::Text("toothed".into()));
    let after = set(&after, "wheel[3].teeth", Value::Number(20.0));
    assert!(!after.contains("outside_diameter_mm = 72.0"));
    let layout = crate::read(&after).unwrap();
    assert_eq!(layout.wheels[3].rim, crate::Rim::Toothed { teeth: 20 });
    let after = set(SHIPPED, "tensioner.kind", Value::Text("arm".into()));
    for gone in ["tightening_clock_deg", "travel_mm", "pinned_mm", "force_n"] {
        assert!(!after.contains(gone), "{gone}");
    }
}

#[test]
fn a_wheel_is_renamed_wherever_it_is_named() {
    let after = set(SHIPPED, "wheel[2].id", Value::Text("cam_l".into()));
    assert!(!after.contains("\"cam_left\""), "{after}");
    let (before, after) = (crate::read(SHIPPED).unwrap(), crate::read(&after).unwrap());
    assert_eq!(before.wheels.len(), after.wheels.len());
    assert_eq!(before.counts.len(), after.counts.len());
}

#[test]
fn wheels_come_go_and_change_places() {
    let keys = vec![
        ("id", Value::Text("second_idler".into())),
        ("role", Value::Text("idler".into())),
        ("face", Value::Text("back".into())),
        ("outside_diameter_mm", Value::Number(60.0)),
        ("at_mm", Value::Numbers(vec![120.0, 90.0])),
    ];
    let insert = Edit::Insert { list: "wheel".into(), at: 3, keys };
    let with = apply(SHIPPED, std::slice::from_ref(&insert)).unwrap();
    let ids = |text: &str| -> Vec<String> {
        crate::read(text).unwrap().wheels.into_iter().map(|wheel| wheel.id).collect()
    };
    let before = ids(SHIPPED);
    let mut wanted = before.clone();
    wanted.insert(3, "second_idler".into());
    assert_eq!(ids(&with), wanted);
    let without = apply(&with, &[Edit::Remove { path: "wheel[3]".into() }]).unwrap();
    assert_eq!(without, SHIPPED);

    let moved = apply(SHIPPED, &[Edit::Move { list: "wheel".into(), from: 1, to: 4 }]).unwrap();
    let mut wanted = before.clone();
    let tensioner = wanted.remove(1);
    wanted.insert(4, tensioner);
    assert_eq!(ids(&moved), wanted);
    let back = apply(&moved, &[Edit::Move { list: "wheel".into(), from: 4, to: 1 }]).unwrap();
    assert_eq!(back, SHIPPED);

    let gone = apply(SHIPPED, &[Edit::Remove { path: "wheel[2]".into() }]).unwrap();
    assert!(!gone.contains("\"cam_left\""), "{gone}");
    let problems = apply(SHIPPED, &[Edit::Remove { path: "wheel[1]".into() }]);
    assert!(crate::read(&problems.unwrap()).is_err(), "the tensioner has lost its wheel");
}

#[test]
fn lists_that_are_not_there_and_lists_in_a_line() {
    let count = |from: &str, to: &str| {
        vec![
            ("from", Value::Text(from.into())),
            ("to", Value::Text(to.into())),
            ("teeth", Value::Number(40.0)),
            ("counted_from", Value::Text("reference".into())),
        ]
    };
    let insert = |at, from, to| Edit::Insert { list: "count".into(), at, keys: count(from, to) };
    let text = "format = 1\n\n[belt]\nteeth = 9\n";
    let after = apply(text, &[insert(9, "a", "b"), insert(0, "c", "d")]).unwrap();
    assert!(after.starts_with(text), "{after}");
    assert!(after.find("\"c\"").unwrap() < after.find("\"a\"").unwrap(), "{after}");
    let gone = [0, 0].map(|i| Edit::Remove { path: format!("count[{i}]") });
    assert_eq!(apply(&after, &gone).unwrap(), text);

    let text = "count = [ { from = \"a\" }, { from = \"b\" } ] # two\n";
    let moved = Edit::Move { list: "count".into(), from: 0, to: 1 };
    assert_eq!(
        apply(text, &[moved]).unwrap(),
        "count = [ { from = \"b\" }, { from = \"a\" } ] # two\n"
    );
    assert_eq!(set(text, "count[1].from", Value::Text("c".into())), text.replace("\"b\"", "\"c\""));
}

#[test]
fn what_cannot_be_is_refused() {
    let set = |path: &str, value| apply(SHIPPED, &[Edit::Set { path: path.into(), value }]);
    let number = || Value::Number(1.0);
    assert!(matches!(set("belt.colour", number()), Err(EditRefused::NoSuchKey(_))));
    assert!(matches!(set("wheel[99].teeth", number()), Err(EditRefused::NothingThere(_))));
    assert!(matches!(set("title", number()), Err(EditRefused::NoSuchKey(_))));
    assert!(matches!(set("belt.teeth", Value::Number(f64::NAN)), Err(EditRefused::NoSuchKey(_))));
    let broken = apply("format = 1\ntitle = \n", &[]);
    let Err(EditRefused::NotToml(place)) = broken else { panic!("{broken:?}") };
    assert_eq!(place.line, 2);
    for (from, to) in [(0, 99), (99, 0)] {
        let shift = Edit::Move { list: "wheel".into(), from, to };
        assert!(matches!(apply(SHIPPED, &[shift]), Err(EditRefused::NothingThere(_))));
    }
}

/// Random edits of every kind on shipped and sample texts: what is not edited keeps every byte.
#[test]
fn comments_outlive_ten_thousand_edits() {
    let mut random = fastrand::Rng::with_seed(6);
    let marked: Vec<String> = [SHIPPED, sample::SLIDE]
        .map(|text| {
            let lines = text.lines().enumerate();
            lines
                .map(|(i, line)| match line.starts_with('[') || line.contains(" = ") {
                    true if !line.ends_with('[') && !line.ends_with(',') => {
                        format!("{line} # note {i}\n")
                    }
                    _ => format!("{line}\n"),
                })
                .collect()
        })
        .to_vec();
    for text in &marked {
        assert_eq!(apply(text, &[]).unwrap(), *text);
        let notes = text.matches("# note").count();
        let mut now = text.clone();
        let wheels = crate::read(text).unwrap().wheels.len();
        for _ in 0..5_000 {
            let i = random.usize(0..wheels);
            let edit = match random.u32(0..4) {
                0 => Edit::Set {
                    path: format!("wheel[{i}].at_mm"),
                    value: Value::Numbers(vec![f64::from(random.i32(-99..99)), 0.5]),
                },
                1 => Edit::Set {
                    path: "belt.teeth".into(),
                    value: Value::Number(f64::from(random.i32(20..400))),
                },
                2 => Edit::Move { list: "wheel".into(), from: i, to: random.usize(0..wheels) },
                _ => Edit::Set {
                    path: format!("wheel[{i}].friction_n_m"),
                    value: Value::Number(f64::from(random.i32(0..9))),
                },
            };
            now = apply(&now, &[edit]).unwrap();
        }
        assert_eq!(now.matches("# note").count(), notes);
    }
}
