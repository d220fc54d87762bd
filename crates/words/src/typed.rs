//! What a person types into a field, understood: numbers with or without a unit, fractions, decimal commas,
//! in the unit of the field's key.
//!
//! Must not know: where it is typed. Which keys there are stands in the layout's own table.
//!
//! A comma and a point are both a decimal sign. The one that is not the reader's own, with exactly three
//! digits behind it and one to three before it other than a lone 0, could as well part thousands: it is asked
//! about, never guessed.

mod number;
mod unit;

use crate::lang::{Lang, Reader, Units};
use crate::problem::{amount, range};
use layout::{Bounds, Key, Kind, Unit, Value};
use number::{Misread, number};

/// What was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Understood {
    /// The value, in the key's own unit.
    pub value: Value,
    /// How it was understood, where that is more than the bare number that was typed: `= 4.52 N·m`.
    pub said: String,
}

/// What `typed` means behind `key`: one text a figure for points and pairs, else one. Nothing typed is nothing
/// understood: `None`.
///
/// # Errors
/// Why it means nothing there, in a sentence: what was typed, and what is allowed.
pub fn understood(
    reader: Reader,
    key: &Key,
    typed: &[String],
) -> Result<Option<Understood>, String> {
    if typed.iter().all(|text| text.trim().is_empty()) {
        return Ok(None);
    }
    let first = typed.first().map_or("", String::as_str);
    let bare = |value: Value| Ok(Some(Understood { value, said: String::new() }));
    match key.kind {
        Kind::Text { .. } | Kind::Id | Kind::WheelId | Kind::Choice(_) => {
            bare(Value::Text(first.trim().to_owned()))
        }
        Kind::Flag => bare(Value::Flag(first == "true")),
        Kind::Whole(bounds) | Kind::Number(bounds) => {
            let whole = matches!(key.kind, Kind::Whole(_));
            let (value, said) = figure(reader, bounds, whole, first)?;
            Ok(Some(Understood { value: Value::Number(value), said }))
        }
        Kind::Point(bounds) | Kind::Pair(bounds) => figures(reader, bounds, false, typed.iter()),
        Kind::List { each, whole, .. } => {
            let parts: Vec<String> = first
                .split([';', ' ', '\n', '\t'])
                .map(|part| part.trim_end_matches(',').to_owned())
                .filter(|part| !part.is_empty())
                .collect();
            figures(reader, each, whole, parts.iter())
        }
        Kind::Table(_) | Kind::Tables { .. } => Ok(None),
    }
}

/// A value as it stands in the fields: one text for each figure, in the reader's units where a length is
/// shown in inches.
pub fn fields(reader: Reader, key: &Key, value: &Value) -> Vec<String> {
    match (value, key.kind) {
        (Value::Text(text), _) => vec![text.clone()],
        (Value::Flag(flag), _) => vec![flag.to_string()],
        (Value::Number(x), Kind::Whole(bounds) | Kind::Number(bounds)) => {
            vec![shown(reader, bounds.unit, *x)]
        }
        (Value::Numbers(all), Kind::Point(bounds) | Kind::Pair(bounds)) => {
            all.iter().map(|x| shown(reader, bounds.unit, *x)).collect()
        }
        (Value::Numbers(all), Kind::List { each, .. }) => {
            let texts: Vec<String> = all.iter().map(|x| shown(reader, each.unit, *x)).collect();
            vec![texts.join("; ")]
        }
        (Value::Number(x), _) => vec![reader.lang.exact(*x)],
        (Value::Numbers(all), _) => all.iter().map(|x| reader.lang.exact(*x)).collect(),
    }
}

/// The unit that a bare number in a field of `key` is taken in, as a word.
pub fn unit_of(reader: Reader, key: &Key) -> &'static str {
    let (Kind::Whole(bounds)
    | Kind::Number(bounds)
    | Kind::Point(bounds)
    | Kind::Pair(bounds)
    | Kind::List { each: bounds, .. }) = key.kind
    else {
        return "";
    };
    unit::word(reader.lang, shown_in(reader, bounds.unit))
}

/// What a number of the file is shown in.
fn shown_in(reader: Reader, unit: Unit) -> unit::Typed {
    match (unit, reader.units) {
        (Unit::Millimetres, Units::Inch) => unit::Typed::Inch,
        _ => unit::Typed::Own(unit),
    }
}

fn shown(reader: Reader, unit: Unit, x: f64) -> String {
    match shown_in(reader, unit) {
        unit::Typed::Inch => reader.lang.short_number(x / unit::MM_PER_INCH, 4),
        _ => reader.lang.exact(x),
    }
}

fn figures<'t>(
    reader: Reader,
    bounds: Bounds,
    whole: bool,
    typed: impl Iterator<Item = &'t String>,
) -> Result<Option<Understood>, String> {
    let all: Result<Vec<(f64, String)>, String> =
        typed.map(|text| figure(reader, bounds, whole, text)).collect();
    let all = all?;
    let said = match all.iter().any(|(_, said)| !said.is_empty()) {
        true => {
            let texts: Vec<String> =
                all.iter().map(|(x, _)| amount(reader.lang, *x, bounds.unit)).collect();
            format!("= {}", texts.join("; "))
        }
        false => String::new(),
    };
    let value = Value::Numbers(all.into_iter().map(|(x, _)| x).collect());
    Ok(Some(Understood { value, said }))
}

/// One figure in the file's unit, and how it was understood.
fn figure(
    reader: Reader,
    bounds: Bounds,
    whole: bool,
    typed: &str,
) -> Result<(f64, String), String> {
    let lang = reader.lang;
    let allowed = range(lang, bounds.least, bounds.most, bounds.unit);
    let other = lang.pick(",", ".").chars().next().unwrap_or(',');
    let (x, rest) = number(typed, other).map_err(|why| misread(lang, typed, why, &allowed))?;
    let typed_in = match rest {
        "" => shown_in(reader, bounds.unit),
        word => unit::from_word(word, bounds.unit)
            .ok_or_else(|| foreign_unit(lang, word, bounds.unit, &allowed))?,
    };
    let factor = unit::factor(typed_in, bounds.unit);
    // What came through a factor is cut where no tool measures any more.
    let exact = x * factor;
    let value = if factor == 1.0 { x } else { cut(exact) };
    if whole && value.fract() != 0.0 {
        return Err(not_whole(lang, typed, &allowed));
    }
    if !bounds.allow(value) {
        return Err(outside(lang, &amount(lang, value, bounds.unit), &allowed));
    }
    let plain = rest.is_empty() && factor == 1.0 && !typed.contains('/');
    let said =
        if plain { String::new() } else { format!("= {}", amount(lang, value, bounds.unit)) };
    Ok((value, said))
}

/// To seven significant digits.
fn cut(x: f64) -> f64 {
    format!("{x:.6e}").parse().unwrap_or(x)
}

fn misread(lang: Lang, typed: &str, why: Misread, allowed: &str) -> String {
    let typed = typed.trim();
    let why = match (why, lang) {
        (Misread::Thousands { small, large }, Lang::De) => {
            Misread::Thousands { small: small.replace('.', ","), large }
        }
        (why, _) => why,
    };
    match (why, lang) {
        (Misread::NoNumber, Lang::En) => {
            format!("“{typed}” is not a number. Allowed: {allowed}.")
        }
        (Misread::NoNumber, Lang::De) => {
            format!("„{typed}“ ist keine Zahl. Erlaubt: {allowed}.")
        }
        (Misread::Thousands { small, large }, Lang::En) => {
            format!("“{typed}”: is that {small} or {large}? Write one of the two.")
        }
        (Misread::Thousands { small, large }, Lang::De) => {
            format!("„{typed}“: ist das {small} oder {large}? Bitte eines von beiden schreiben.")
        }
    }
}

fn foreign_unit(lang: Lang, word: &str, unit: Unit, allowed: &str) -> String {
    let known = unit::words(unit).join(", ");
    match (lang, known.is_empty()) {
        (Lang::En, true) => {
            format!(
                "“{word}” after the number is not understood: no unit belongs there. Allowed: {allowed}."
            )
        }
        (Lang::De, true) => {
            format!(
                "„{word}“ nach der Zahl wird nicht verstanden: da gehört keine Einheit hin. Erlaubt: {allowed}."
            )
        }
        (Lang::En, false) => {
            format!(
                "The unit “{word}” is not understood here. Understood: {known}. Allowed: {allowed}."
            )
        }
        (Lang::De, false) => {
            format!(
                "Die Einheit „{word}“ wird hier nicht verstanden. Verstanden: {known}. Erlaubt: {allowed}."
            )
        }
    }
}

fn not_whole(lang: Lang, typed: &str, allowed: &str) -> String {
    let typed = typed.trim();
    match lang {
        Lang::En => format!("“{typed}” is not a whole number. Allowed: {allowed}."),
        Lang::De => format!("„{typed}“ ist keine ganze Zahl. Erlaubt: {allowed}."),
    }
}

fn outside(lang: Lang, amount: &str, allowed: &str) -> String {
    match lang {
        Lang::En => format!("{amount} is outside what is allowed: {allowed}."),
        Lang::De => format!("{amount} liegt außerhalb des Erlaubten: {allowed}."),
    }
}

#[cfg(test)]
mod tests;
