//! A layout broken in one way, in every way in which people break one: for the proofs of what does not add up.
//!
//! Must not know: how a slip is found.

use layout::{Edit, Layout, Rim, TensionerKind, Value, apply};

/// A slip made in a text.
#[derive(Clone, Debug)]
pub struct Broken {
    /// What kind.
    pub kind: &'static str,
    /// Which wheel or key, and how.
    pub what: String,
    /// The text with the slip in it.
    pub text: String,
}

/// The kinds of slips.
pub const KINDS: [&str; 14] = [
    "face",
    "belt",
    "sprocket",
    "count",
    "diameter",
    "sign",
    "swapped",
    "digits",
    "decimal",
    "hundred",
    "nought",
    "order",
    "pitch",
    "tightening",
];

/// `text` with each slip in turn; `layout` is what it says.
pub fn broken(text: &str, layout: &Layout) -> Vec<Broken> {
    let mut all = Vec::new();
    let mut put = |kind, path: String, value: Value| {
        let what = format!("{path} = {value:?}");
        if let Ok(text) = apply(text, &[Edit::Set { path, value }]) {
            all.push(Broken { kind, what, text });
        }
    };
    for (i, wheel) in layout.wheels.iter().enumerate() {
        let key = |name: &str| format!("wheel[{i}].{name}");
        match wheel.rim {
            Rim::Toothed { teeth } => {
                for teeth in [teeth - 1, teeth + 1] {
                    put("sprocket", key("teeth"), Value::Number(f64::from(teeth)));
                }
            }
            Rim::Smooth { outside_diameter_mm } => {
                let other = if wheel.face.word() == "back" { "toothed" } else { "back" };
                put("face", key("face"), Value::Text(other.to_owned()));
                for times in [0.5, 2.0] {
                    let diameter = outside_diameter_mm * times;
                    put("diameter", key("outside_diameter_mm"), Value::Number(diameter));
                }
            }
        }
        for (kind, at) in mistyped(wheel.at_mm) {
            put(kind, key("at_mm"), Value::Numbers(at.to_vec()));
        }
    }
    for teeth in [layout.belt.teeth - 1, layout.belt.teeth + 1] {
        put("belt", "belt.teeth".to_owned(), Value::Number(f64::from(teeth)));
    }
    for (i, count) in layout.counts.iter().enumerate() {
        for teeth in [count.teeth - 1, count.teeth + 1] {
            put("count", format!("count[{i}].teeth"), Value::Number(f64::from(teeth)));
        }
    }
    for pitch in [5.0, 8.0, 9.525, 12.7] {
        if pitch != layout.belt.pitch_mm {
            put("pitch", "belt.pitch_mm".to_owned(), Value::Number(pitch));
        }
    }
    match layout.tensioner.kind {
        TensionerKind::Slide { tightening_clock_deg, .. } => {
            let other = Value::Number((tightening_clock_deg + 180.0) % 360.0);
            put("tightening", "tensioner.tightening_clock_deg".to_owned(), other);
        }
        TensionerKind::Arm { tightening, pivot_mm: at, .. }
        | TensionerKind::Eccentric { tightening, bolt_mm: at, .. }
        | TensionerKind::SprungEccentric { tightening, bolt_mm: at, .. } => {
            let other =
                if tightening.word() == "clockwise" { "anticlockwise" } else { "clockwise" };
            put("tightening", "tensioner.tightening".to_owned(), Value::Text(other.to_owned()));
            let arm = matches!(layout.tensioner.kind, TensionerKind::Arm { .. });
            let key = if arm { "tensioner.pivot_mm" } else { "tensioner.bolt_mm" };
            for (kind, at) in mistyped(at) {
                put(kind, key.to_owned(), Value::Numbers(at.to_vec()));
            }
        }
    }
    for i in 1..layout.wheels.len() - 1 {
        let moved = Edit::Move { list: "wheel".to_owned(), from: i, to: i + 1 };
        if let Ok(text) = apply(text, &[moved]) {
            all.push(Broken { kind: "order", what: format!("wheel[{i}]"), text });
        }
    }
    all
}

/// A place mistyped: a sign, x for y, two digits, a place of the point, a hundred too many.
fn mistyped([x, y]: [f64; 2]) -> Vec<(&'static str, [f64; 2])> {
    let mut all = vec![("swapped", [y, x])];
    for (axis, number) in [x, y].into_iter().enumerate() {
        let mut put = |kind, number: f64| {
            let mut at = [x, y];
            at[axis] = number;
            all.push((kind, at));
        };
        put("sign", -number);
        put("decimal", libm::round(number * 1e3) / 1e2);
        put("decimal", libm::round(number * 1e3) / 1e4);
        put("hundred", libm::round((number + 100.0f64.copysign(number)) * 10.0) / 10.0);
        let digits: Vec<char> = format!("{number:?}").chars().collect();
        let places: Vec<usize> =
            (0..digits.len()).filter(|i| digits[*i].is_ascii_digit()).collect();
        for pair in places.windows(2) {
            let mut digits = digits.clone();
            digits.swap(pair[0], pair[1]);
            if let Ok(other) = digits.into_iter().collect::<String>().parse::<f64>() {
                let places = |number: f64| format!("{:.0}", libm::floor(number.abs())).len();
                let nought = places(other) != places(number);
                put(if nought { "nought" } else { "digits" }, other);
            }
        }
    }
    all.retain(|(_, at)| *at != [x, y]);
    all
}
