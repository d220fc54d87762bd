//! What people type into fields, in the units and signs of both languages.

use super::*;
use layout::{LAYOUT, key_at};

fn reader(lang: Lang) -> Reader {
    Reader { lang, units: Units::Metric }
}

/// Every reader that there can be.
fn readers() -> impl Iterator<Item = Reader> {
    Lang::ALL
        .into_iter()
        .flat_map(|lang| [Units::Metric, Units::Inch].map(|units| Reader { lang, units }))
}

fn told(reader: Reader, path: &str, typed: &[&str]) -> Result<Option<Understood>, String> {
    let typed: Vec<String> = typed.iter().map(|text| (*text).to_owned()).collect();
    understood(reader, key_at(LAYOUT, path).unwrap(), None, &typed)
}

fn read(lang: Lang, path: &str, typed: &str) -> Result<f64, String> {
    match told(reader(lang), path, &[typed])? {
        Some(Understood { value: Value::Number(x), .. }) => Ok(x),
        other => panic!("{other:?}"),
    }
}

#[track_caller]
fn near(path: &str, typed: &str, wanted: f64) {
    let x = read(Lang::En, path, typed).unwrap();
    assert!((x - wanted).abs() <= 1e-6 * wanted.abs(), "{typed}: {x}");
}

/// 1 lbf·ft = 1.3558179483314 N·m, 1 lbf·in = 0.1129848290276 N·m, 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm:
/// NIST SP 811, Appendix B.
#[test]
fn units_by_nist_sp_811() {
    for typed in ["40 in-lb", "40 lbf·in", "40in.lbf", "40 LB-IN", "40 in-lbs"] {
        near("wheel[0].friction_n_m", typed, 40.0 * 0.112_984_829_027_6);
    }
    near("fastener[0].torque_n_m", "3.3 lbf ft", 3.3 * 1.355_817_948_331_4);
    near("fastener[0].torque_n_m", "0.5 kgf m", 0.5 * 9.806_65);
    near("fastener[0].torque_lbf_ft", "88 N·m", 88.0 / 1.355_817_948_331_4);
    near("fastener[0].torque_lbf_in", "10 lbf·ft", 120.0);
    near("tensioner.force_n", "80 lbf", 80.0 * 4.448_221_615_260_5);
    near("tensioner.force_n", "0,4 kN", 400.0);
    near("wheel[0].outside_diameter_mm", "2 1/2 in", 63.5);
    near("wheel[0].outside_diameter_mm", "2-1/2\"", 63.5);
    near("wheel[0].outside_diameter_mm", "2½ inch", 63.5);
    near("wheel[0].outside_diameter_mm", "7/8”", 22.225);
    near("belt.thickness_mm", "1/4 in", 6.35);
    near("belt.pitch_mm", "3/8 in", 9.525);
    near("belt.mass_kg_per_m", "110 g/m", 0.11);
    near("belt.mass_kg_per_m", "1.2 kg/m", 1.2);
    // The usual least gap, intake: 2.0 mm for 0.080 in (fordmuscle.com, piston to valve).
    near("engine.camshaft[0].intake.gap_at_tdc_mm", "80 thou", 2.032);
}

#[test]
fn whatever_is_not_written_plainly_is_said_as_understood() {
    let said = |lang, path, typed| {
        let said = told(reader(lang), path, &[typed]).unwrap().unwrap().said;
        said.replace('\u{a0}', " ")
    };
    for (lang, typed, wanted) in [
        (Lang::En, "12.5", ""),
        (Lang::De, "12,5", ""),
        (Lang::En, "12,5", "= 12.5 mm"),
        (Lang::De, "12.5", "= 12,5 mm"),
        (Lang::En, "1.25e1", "= 12.5 mm"),
        (Lang::En, "1/2 in", "= 12.7 mm"),
    ] {
        assert_eq!(said(lang, "belt.thickness_mm", typed), wanted, "{typed}");
    }
    assert_eq!(said(Lang::En, "belt.tensile_stiffness_n", "400'000"), "= 400000 N");
    // Nobody means it, and its zeros would fill the file.
    assert_eq!(said(Lang::En, "wheel[0].friction_n_m", "1e-320"), "= 0 N·m");
    assert_eq!(read(Lang::En, "wheel[0].friction_n_m", "1e-320"), Ok(0.0));
}

#[test]
fn numbers_as_people_write_them() {
    for typed in ["12,5", "12.5", " 12.5mm ", "1.25e1", "12.500", "12½", "12 1/2 mm", "1,25 cm"] {
        near("belt.thickness_mm", typed, 12.5);
    }
    for typed in ["400 000", "400'000 N", "400 kN", "4e5", "400000,0"] {
        near("belt.tensile_stiffness_n", typed, 400_000.0);
    }
    near("tensioner.tightening_clock_deg", "−95°", -95.0);
    near("tensioner.tightening_clock_deg", "- 95 deg", -95.0);
    near("belt.pitch_line_differential_mm", "0,686", 0.686);
    near("belt.teeth", "173 teeth", 173.0);
    near("belt.teeth", "173,0", 173.0);
    near("engine.compression_ratio", "9.5:1", 9.5);
}

#[test]
fn what_is_not_clear_is_asked() {
    for (path, typed, says) in [
        ("belt.tensile_stiffness_n", "400,000", "400.000 or 400000"),
        ("wheel[0].at_mm", "1,234", "1.234 or 1234"),
        ("belt.teeth", "many", "“many” is not a number"),
        ("belt.teeth", "173.5", "whole number"),
        ("belt.teeth", "1730", "“1730” is outside what is allowed. Allowed: 20 to 400\u{a0}teeth."),
        ("belt.teeth", "173 mm", "Understood: teeth"),
        ("belt.thickness_mm", "5 N", "Understood: mm, cm, m, µm, in, ft, thou"),
        ("belt.thickness_mm", "2 in", "“2 in” is 50.8\u{a0}mm: outside"),
        ("belt.thickness_mm", "1/0", "not understood"),
        ("belt.thickness_mm", "1.2.3", "is not a number"),
        ("belt.thickness_mm", "1e999", "is not a number"),
        ("belt.thickness_mm", "NaN", "is not a number"),
        ("belt.thickness_mm", ",", "is not a number"),
        ("engine.compression_ratio", "9.5 mm", "no unit belongs here"),
        ("fastener[0].torque_n_m", "40 ft/lb", "Understood: N·m"),
    ] {
        let told = told(reader(Lang::En), path, &[typed]).unwrap_err();
        assert!(told.contains(says) && told.contains("Allowed: "), "{typed}: {told}");
    }
    let told_in_german = told(reader(Lang::De), "belt.teeth", &["173 mm"]).unwrap_err();
    assert!(told_in_german.contains("Verstanden: Zähne."), "{told_in_german}");
    let half = told(reader(Lang::De), "wheel[0].at_mm", &["1", " "]).unwrap_err();
    assert_eq!(half, "Eine Zahl fehlt. Erlaubt: −2000 bis 2000\u{a0}mm.");
}

/// The reader's own sign is never asked about, in either language.
#[test]
fn the_own_decimal_sign_is_no_question() {
    assert_eq!(read(Lang::En, "belt.pitch_mm", "9.525"), Ok(9.525));
    assert_eq!(read(Lang::De, "belt.pitch_mm", "9,525"), Ok(9.525));
    assert!(read(Lang::En, "belt.pitch_mm", "9,525").unwrap_err().contains("9.525 or 9525"));
    assert!(read(Lang::De, "belt.pitch_mm", "9.525").unwrap_err().contains("9,525 oder 9525"));
}

#[test]
fn it_is_told_how_it_was_understood() {
    let path = "wheel[0].friction_n_m";
    let said = |reader, path, typed: &[&str]| told(reader, path, typed).unwrap().unwrap().said;
    assert_eq!(said(reader(Lang::En), path, &["40 in-lb"]), "= 4.519393\u{a0}N·m");
    assert_eq!(said(reader(Lang::De), path, &["40 in-lb"]), "= 4,519393\u{a0}N·m");
    assert_eq!(said(reader(Lang::En), path, &["4.5"]), "");
    assert_eq!(told(reader(Lang::En), path, &[" "]), Ok(None));
    let both = told(reader(Lang::En), "wheel[0].at_mm", &["1 in", "-2"]).unwrap().unwrap();
    assert_eq!(both.value, Value::Numbers(vec![25.4, -2.0]));
    assert_eq!(both.said, "= 25.4\u{a0}mm; −2\u{a0}mm");
    let inch = Reader { lang: Lang::En, units: Units::Inch };
    assert_eq!(said(inch, "belt.width_mm", &["1"]), "= 1\u{a0}in (25.4\u{a0}mm)");
    assert_eq!(said(inch, "belt.width_mm", &["12.7 mm"]), "= 0.5\u{a0}in (12.7\u{a0}mm)");
    let told = told(inch, "wheel[0].outside_diameter_mm", &["40"]).unwrap_err();
    let wanted = "“40” is 40 in (1016 mm): outside what is allowed. Allowed: 0.1969 to 39.37 in (5 to 1000 mm).";
    assert_eq!(told.replace('\u{a0}', " "), wanted);
}

#[test]
fn lists_are_parted_as_people_part_them() {
    let all = |path: &str, typed: &str| match told(reader(Lang::De), path, &[typed]) {
        Ok(Some(Understood { value: Value::Numbers(all), .. })) => all,
        other => panic!("{other:?}"),
    };
    for typed in ["1,3,5", "1, 3, 5", "1 3 5", "1; 3; 5", " 1\n3\n5\n", "1;3;5;"] {
        assert_eq!(all("engine.camshaft[0].cylinders", typed), [1.0, 3.0, 5.0], "{typed}");
    }
    assert_eq!(all("engine.camshaft[0].cylinders", "1,3"), [1.0, 3.0]);
    assert_eq!(all("engine.fires_at_deg", "0,5; 180 °"), [0.5, 180.0]);
    assert_eq!(all("engine.fires_at_deg", "0 180,5\t360"), [0.0, 180.5, 360.0]);
    assert_eq!(all("engine.fires_at_deg", "0,540,180"), [0.0, 540.0, 180.0]);
}

/// Every key that takes figures, with its bounds and whether they must be whole.
fn figures(keys: &'static [Key], each: &mut impl FnMut(&'static Key, Bounds, bool)) {
    for key in keys {
        if let Some(bounds) = figures_of(key) {
            let whole = matches!(key.kind, Kind::Whole(_) | Kind::List { whole: true, .. });
            each(key, bounds, whole);
        }
        figures(key.keys(), each);
    }
}

fn flat(value: &Value) -> Vec<f64> {
    match value {
        Value::Number(x) => vec![*x],
        Value::Numbers(all) => all.clone(),
        Value::Text(_) | Value::Flag(_) => Vec::new(),
    }
}

/// What any field shows means the same when it is read again, for every reader: to the bit where it is shown
/// as the file has it, else as near as it is shown; and a figure that nobody touched keeps every bit.
#[test]
fn what_is_shown_is_understood() {
    let mut random = fastrand::Rng::with_seed(7);
    let mut tried = 0;
    figures(LAYOUT, &mut |key, bounds, whole| {
        for reader in readers() {
            for _ in 0..100 {
                let mut draw = || {
                    let x = bounds.least + random.f64() * (bounds.most - bounds.least);
                    let places = random.i32(0..6);
                    let x: f64 =
                        format!("{x:.*}", if whole { 0 } else { places as usize }).parse().unwrap();
                    x.clamp(bounds.least, bounds.most)
                };
                let value = match key.kind {
                    Kind::Whole(_) | Kind::Number(_) => Value::Number(draw()),
                    _ => Value::Numbers(vec![draw(), draw()]),
                };
                let shown = fields(reader, key, &value);
                let again = match understood(reader, key, None, &shown) {
                    Ok(Some(again)) => again.value,
                    // In inches the very bound may be shown as a little outside.
                    Err(_) if in_inches(reader, bounds.unit) => continue,
                    other => panic!("{} {shown:?}: {other:?}", key.name),
                };
                tried += 1;
                let by = if in_inches(reader, bounds.unit) { 1.3e-3 } else { 0.0 };
                for (a, b) in flat(&value).iter().zip(flat(&again)) {
                    assert!((a - b).abs() <= by + a.abs() * by * 1e-3, "{} {shown:?}", key.name);
                }
                let kept = understood(reader, key, Some(&value), &shown).unwrap().unwrap();
                assert_eq!((kept.value, kept.said), (value, String::new()), "{}", key.name);
            }
        }
    });
    assert!(tried > 20_000, "{tried}");
}

#[test]
fn only_the_figure_that_was_changed_changes() {
    let inch = Reader { lang: Lang::En, units: Units::Inch };
    let key = key_at(LAYOUT, "wheel[0].at_mm").unwrap();
    let present = Value::Numbers(vec![-153.3, 317.6]);
    let mut shown = fields(inch, key, &present);
    assert_eq!(shown, ["−6.0354", "12.5039"]);
    shown[0] = "-6".to_owned();
    let after = understood(inch, key, Some(&present), &shown).unwrap().unwrap();
    assert_eq!(after.value, Value::Numbers(vec![-152.4, 317.6]));
    // A list that grew in its middle.
    let key = key_at(LAYOUT, "engine.camshaft[0].intake.measured_lift_mm").unwrap();
    let present = Value::Numbers(vec![0.0, 3.3, 8.6]);
    let shown = fields(inch, key, &present)[0].replace("; 0.3386", "; 1/4; 0.3386");
    let after = understood(inch, key, Some(&present), &[shown]).unwrap().unwrap();
    assert_eq!(after.value, Value::Numbers(vec![0.0, 3.3, 6.35, 8.6]));
}

/// Whatever is typed: an answer within bounds, or one short line that says what is allowed.
#[test]
fn nothing_typed_is_ever_too_much() {
    let pieces = [
        "1", "12", "345", "000", "9", ".", ",", ";", "-", "−", "+", "e", "/", " ", "\u{a0}", "½",
        "⁄", "mm", "in", "\"", "°", "N·m", "lbf", "ft", "'", "’", "\n", "\u{202e}", "ä", "🦀",
        "NaN", "inf", "0x",
    ];
    let mut random = fastrand::Rng::with_seed(11);
    let (mut good, mut bad) = (0, 0);
    figures(LAYOUT, &mut |key, bounds, whole| {
        for _ in 0..400 {
            let many = if random.u8(..50) == 0 { 3000 } else { random.usize(1..8) };
            let typed: String = (0..many).map(|_| pieces[random.usize(..pieces.len())]).collect();
            for reader in readers() {
                match understood(reader, key, None, std::slice::from_ref(&typed)) {
                    Ok(Some(Understood { value, .. })) => {
                        good += 1;
                        let fits = |x: &f64| bounds.allow(*x) && (!whole || x.fract() == 0.0);
                        assert!(flat(&value).iter().all(fits), "{typed:?}: {value:?}");
                    }
                    Ok(None) => assert_eq!(typed.trim(), ""),
                    Err(told) => {
                        bad += 1;
                        let allowed = reader.lang.pick("Allowed: ", "Erlaubt: ");
                        assert!(told.contains(allowed) && told.ends_with('.'), "{told}");
                        assert!(told.chars().count() < 450, "{told}");
                        assert!(!told.contains(char::is_control) && !told.contains('\u{202e}'));
                    }
                }
            }
        }
    });
    assert!(good > 2000 && bad > 20_000, "{good} {bad}");
}
