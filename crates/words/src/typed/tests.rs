use super::*;
use layout::{LAYOUT, key_at};

fn reader(lang: Lang) -> Reader {
    Reader { lang, units: Units::Metric }
}

fn read(path: &str, typed: &str) -> Result<f64, String> {
    let key = key_at(LAYOUT, path).unwrap();
    match understood(reader(Lang::En), key, &[typed.to_owned()])? {
        Some(Understood { value: Value::Number(x), .. }) => Ok(x),
        other => panic!("{other:?}"),
    }
}

#[track_caller]
fn near(path: &str, typed: &str, wanted: f64) {
    let x = read(path, typed).unwrap();
    assert!((x - wanted).abs() <= 1e-6 * wanted.abs(), "{typed}: {x}");
}

/// 1 lbf·ft = 1.3558179483314 N·m, 1 lbf·in = 0.1129848290276 N·m, 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm:
/// NIST SP 811, Appendix B.
#[test]
fn units_by_nist_sp_811() {
    for typed in ["40 in-lb", "40 lbf·in", "40in.lbf", "40 LB-IN"] {
        near("wheel[0].friction_n_m", typed, 40.0 * 0.112_984_829_027_6);
    }
    near("fastener[0].torque_n_m", "65 lbf ft", 65.0 * 1.355_817_948_331_4);
    near("fastener[0].torque_lbf_ft", "88 N·m", 88.0 / 1.355_817_948_331_4);
    near("fastener[0].torque_lbf_in", "10 lbf·ft", 120.0);
    near("tensioner.force_n", "80 lbf", 80.0 * 4.448_221_615_260_5);
    near("tensioner.force_n", "0,4 kN", 400.0);
    near("wheel[0].outside_diameter_mm", "2 1/2 in", 63.5);
    near("wheel[0].outside_diameter_mm", "2-1/2\"", 63.5);
    near("wheel[0].outside_diameter_mm", "2½ inch", 63.5);
    near("belt.thickness_mm", "1/4 in", 6.35);
    near("belt.pitch_mm", "3/8 in", 9.525);
    near("belt.mass_kg_per_m", "110 g/m", 0.11);
}

#[test]
fn numbers_as_people_write_them() {
    for (typed, wanted) in [
        ("12,5", 12.5),
        ("12.5", 12.5),
        (" 12.5mm ", 12.5),
        ("1.25e1", 12.5),
        ("12.500", 12.5),
        ("12½", 12.5),
    ] {
        near("belt.thickness_mm", typed, wanted);
    }
    near("tensioner.tightening_clock_deg", "−95°", -95.0);
    near("tensioner.tightening_clock_deg", "- 95 deg", -95.0);
    near("belt.pitch_line_differential_mm", "0,686", 0.686);
    near("belt.teeth", "173 teeth", 173.0);
    near("engine.compression_ratio", "9.5:1", 9.5);
}

#[test]
fn what_is_not_clear_is_asked() {
    for (path, typed, says) in [
        ("belt.tensile_stiffness_n", "400,000", "400.000 or 400000"),
        ("belt.teeth", "many", "is not a number"),
        ("belt.teeth", "173.5", "whole number"),
        ("belt.teeth", "1730", "20 to 400\u{a0}teeth"),
        ("belt.teeth", "173 mm", "Understood: teeth"),
        ("belt.thickness_mm", "5 N", "Understood: mm"),
        ("belt.thickness_mm", "1/0", "not understood"),
        ("belt.thickness_mm", "1.2.3", "is not a number"),
        ("belt.thickness_mm", "1e999", "is not a number"),
        ("belt.thickness_mm", "NaN", "is not a number"),
        ("belt.thickness_mm", ",", "is not a number"),
    ] {
        let told = read(path, typed).unwrap_err();
        assert!(told.contains(says), "{typed}: {told}");
    }
}

/// The reader's own sign is never asked about, in either language.
#[test]
fn the_own_decimal_sign_is_no_question() {
    let key = key_at(LAYOUT, "belt.pitch_mm").unwrap();
    let read = |lang, typed: &str| understood(reader(lang), key, &[typed.to_owned()]);
    assert_eq!(read(Lang::En, "9.525").unwrap().unwrap().value, Value::Number(9.525));
    assert_eq!(read(Lang::De, "9,525").unwrap().unwrap().value, Value::Number(9.525));
    assert!(read(Lang::En, "9,525").unwrap_err().contains("9.525 or 9525"));
    assert!(read(Lang::De, "9.525").unwrap_err().contains("9,525 oder 9525"));
}

#[test]
fn it_is_told_how_it_was_understood() {
    let key = key_at(LAYOUT, "wheel[0].friction_n_m").unwrap();
    let said = |lang, typed: &str| {
        understood(reader(lang), key, &[typed.to_owned()]).unwrap().unwrap().said
    };
    assert_eq!(said(Lang::En, "40 in-lb"), "= 4.519393\u{a0}N·m");
    assert_eq!(said(Lang::De, "40 in-lb"), "= 4,519393\u{a0}N·m");
    assert_eq!(said(Lang::En, "4.5"), "");
    assert_eq!(understood(reader(Lang::En), key, &[" ".to_owned()]), Ok(None));
    let at = key_at(LAYOUT, "wheel[0].at_mm").unwrap();
    let both = understood(reader(Lang::En), at, &["1 in".into(), "-2".into()]).unwrap().unwrap();
    assert_eq!(both.value, Value::Numbers(vec![25.4, -2.0]));
    assert_eq!(both.said, "= 25.4\u{a0}mm; −2\u{a0}mm");
}

/// What a field shows means the same when it is read again, in both languages and both systems of units.
#[test]
fn what_is_shown_is_understood() {
    let mut random = fastrand::Rng::with_seed(7);
    for path in [
        "wheel[0].at_mm",
        "belt.thickness_mm",
        "engine.fires_at_deg",
        "wheel[0].friction_n_m",
        "belt.teeth",
    ] {
        let key = key_at(LAYOUT, path).unwrap();
        for lang in Lang::ALL {
            for units in [Units::Metric, Units::Inch] {
                for _ in 0..200 {
                    let reader = Reader { lang, units };
                    let x = f64::from(random.i32(60..400))
                        / if path == "belt.teeth" { 1.0 } else { 16.0 };
                    let value = match key.kind {
                        Kind::Whole(_) | Kind::Number(_) => Value::Number(x),
                        _ => Value::Numbers(vec![x, x + 1.0]),
                    };
                    let shown = fields(reader, key, &value);
                    let again = match understood(reader, key, &shown) {
                        Ok(Some(again)) => again.value,
                        other => panic!("{path} {shown:?}: {other:?}"),
                    };
                    let flat = |value: &Value| match value {
                        Value::Number(x) => vec![*x],
                        Value::Numbers(all) => all.clone(),
                        _ => Vec::new(),
                    };
                    for (a, b) in flat(&value).iter().zip(flat(&again)) {
                        assert!((a - b).abs() < 2e-3, "{path} {shown:?}");
                    }
                }
            }
        }
    }
}
