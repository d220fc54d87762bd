//! What a person types into a field, understood: numbers with or without a unit, fractions, decimal commas,
//! in the unit of the field's key.
//!
//! Must not know: where it is typed. Which keys there are stands in the layout's own table.
//!
//! A comma and a point are both a decimal sign. The one that is not the reader's own, with exactly three
//! digits behind it and one to three before it other than a lone 0, could as well part thousands: it is asked
//! about, never guessed. Thousands parted twice, by blanks or by apostrophes are plain.

mod number;
mod refused;
mod unit;

use crate::lang::{Lang, Reader, Units};
use crate::problem::{amount, range, unit_word};
use layout::{Bounds, Key, Kind, Unit, Value};
use number::{Number, number};
use refused::Refused;

/// What was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Understood {
    /// The value, in the key's own unit.
    pub value: Value,
    /// How it was understood, where that is more than a plain number in the reader's own writing:
    /// `= 4.519393 N·m`.
    pub said: String,
}

/// What `typed` means behind `key`, where `present` stands now: one text a figure for points and pairs, else
/// one. A figure whose text is still the one that [`fields`] shows keeps its value to the last bit. Nothing
/// typed is nothing understood: `None`. Whether text, ids and words are right is for reading the file to tell.
///
/// # Errors
/// Why it means nothing there, in a sentence: what was typed, and what is allowed.
pub fn understood(
    reader: Reader,
    key: &Key,
    present: Option<&Value>,
    typed: &[String],
) -> Result<Option<Understood>, String> {
    if typed.iter().all(|text| text.trim().is_empty()) {
        return Ok(None);
    }
    let first = typed.first().map_or("", |text| text.trim());
    let bare = |value: Value| Ok(Some(Understood { value, said: String::new() }));
    let field = |bounds: Bounds, whole: bool| Field { reader, bounds, whole };
    match key.kind {
        Kind::Text { .. } | Kind::Id | Kind::WheelId | Kind::Choice(_) => {
            bare(Value::Text(first.to_owned()))
        }
        Kind::Flag => bare(Value::Flag(first == "true")),
        Kind::Whole(bounds) | Kind::Number(bounds) => {
            let field = field(bounds, matches!(key.kind, Kind::Whole(_)));
            let (x, said) = field.figure(present, 0, first)?;
            let said = if said { field.said(x) } else { String::new() };
            Ok(Some(Understood { value: Value::Number(x), said }))
        }
        Kind::Point(bounds) | Kind::Pair(bounds) => {
            let typed: Vec<&str> = typed.iter().map(String::as_str).collect();
            field(bounds, false).figures(present, &typed).map(Some)
        }
        Kind::List { each, whole, .. } => {
            field(each, whole).figures(present, &entries(first, whole)).map(Some)
        }
        Kind::Table(_) | Kind::Tables { .. } => Ok(None),
    }
}

/// The entries of a list that is typed in one text. Semicolons and line ends part it before anything else;
/// where there are none blanks do, and commas that cannot be decimal signs: several in a row, or any between
/// whole numbers.
fn entries(typed: &str, whole: bool) -> Vec<&str> {
    let is_blank = |c: char| c.is_whitespace();
    let parts: Vec<&str> = if typed.contains([';', '\n']) {
        typed.split([';', '\n']).collect()
    } else if typed.contains(is_blank) {
        typed.split(is_blank).map(|part| part.trim_end_matches(',')).collect()
    } else if whole || typed.matches(',').count() > 1 {
        typed.split(',').collect()
    } else {
        vec![typed]
    };
    parts.into_iter().map(str::trim).filter(|part| !part.is_empty()).collect()
}

/// A value as it stands in the fields: one text for each figure, in the reader's units where a length is
/// shown in inches.
pub fn fields(reader: Reader, key: &Key, value: &Value) -> Vec<String> {
    let unit = figures_of(key).map_or(Unit::Bare, |bounds| bounds.unit);
    match value {
        Value::Text(text) => vec![text.clone()],
        Value::Flag(flag) => vec![flag.to_string()],
        Value::Number(x) => vec![shown(reader, unit, *x)],
        Value::Numbers(all) => {
            let texts: Vec<String> = all.iter().map(|x| shown(reader, unit, *x)).collect();
            if matches!(key.kind, Kind::List { .. }) { vec![texts.join("; ")] } else { texts }
        }
    }
}

/// The unit that a bare number in a field of `key` is taken in, as a word.
pub fn unit_of(reader: Reader, key: &Key) -> &'static str {
    match figures_of(key) {
        Some(bounds) if in_inches(reader, bounds.unit) => inches(reader.lang),
        Some(bounds) => unit_word(reader.lang, bounds.unit, false),
        None => "",
    }
}

/// The bounds of the figures that stand behind a key, each.
fn figures_of(key: &Key) -> Option<Bounds> {
    match key.kind {
        Kind::Whole(bounds)
        | Kind::Number(bounds)
        | Kind::Point(bounds)
        | Kind::Pair(bounds)
        | Kind::List { each: bounds, .. } => Some(bounds),
        Kind::Text { .. }
        | Kind::Id
        | Kind::WheelId
        | Kind::Choice(_)
        | Kind::Flag
        | Kind::Table(_)
        | Kind::Tables { .. } => None,
    }
}

/// Whether figures of `unit` are shown, and bare ones taken, in inches.
fn in_inches(reader: Reader, unit: Unit) -> bool {
    (unit, reader.units) == (Unit::Millimetres, Units::Inch)
}

fn inches(lang: Lang) -> &'static str {
    lang.pick("in", "Zoll")
}

fn shown(reader: Reader, unit: Unit, x: f64) -> String {
    match in_inches(reader, unit) {
        true => reader.lang.short_number(x / unit::MM_PER_INCH, INCH_PLACES),
        false => reader.lang.exact(x),
    }
}

/// Nothing in a layout is as small as this in its unit: it is taken for none.
const NOTHING: f64 = 1e-12;

/// Decimals of an inch that are shown: finer than any rule or calliper.
const INCH_PLACES: usize = 4;

/// A field for one figure or some of a kind.
struct Field {
    reader: Reader,
    bounds: Bounds,
    /// Whether each must be whole.
    whole: bool,
}

impl Field {
    fn figures(&self, present: Option<&Value>, typed: &[&str]) -> Result<Understood, String> {
        let figure = |(i, text): (usize, &&str)| self.figure(present, i, text);
        let all: Vec<(f64, bool)> =
            typed.iter().enumerate().map(figure).collect::<Result<_, _>>()?;
        let said = match all.iter().any(|(_, said)| *said) {
            true => {
                let texts: Vec<String> = all.iter().map(|(x, _)| self.amount(*x)).collect();
                format!("= {}", texts.join("; "))
            }
            false => String::new(),
        };
        let value = Value::Numbers(all.into_iter().map(|(x, _)| x).collect());
        Ok(Understood { value, said })
    }

    /// Figure `i` in the file's unit, and whether there is anything to say of how it was understood.
    fn figure(
        &self,
        present: Option<&Value>,
        i: usize,
        typed: &str,
    ) -> Result<(f64, bool), String> {
        if let Some(kept) = self.kept(present, i, typed) {
            return Ok((kept, false));
        }
        let found = self.read(typed);
        found.map_err(|why| refused::sentence(self.reader.lang, typed, &why, &self.allowed()))
    }

    /// The present figure that `typed` shows: the one in its place, or another of a list.
    fn kept(&self, present: Option<&Value>, i: usize, typed: &str) -> Option<f64> {
        let present: &[f64] = match present? {
            Value::Number(x) => core::slice::from_ref(x),
            Value::Numbers(all) => all,
            Value::Text(_) | Value::Flag(_) => &[],
        };
        let is_shown = |x: &&f64| shown(self.reader, self.bounds.unit, **x) == typed.trim();
        let allowed = |x: &&f64| self.bounds.allow(**x) && (!self.whole || x.fract() == 0.0);
        let here = present.get(i).filter(is_shown);
        here.or_else(|| present.iter().find(is_shown)).filter(allowed).copied()
    }

    fn read(&self, typed: &str) -> Result<(f64, bool), Refused> {
        let Bounds { unit, .. } = self.bounds;
        if typed.trim().is_empty() {
            return Err(Refused::Nothing);
        }
        let foreign = self.reader.lang.pick(",", ".").chars().next().unwrap_or(',');
        let Number { x, has_fraction, rest } = number(typed, foreign)?;
        let factor = match rest {
            "" if in_inches(self.reader, unit) => unit::MM_PER_INCH,
            "" => 1.0,
            word => unit::factor(word, unit).ok_or_else(|| Refused::Unit {
                word: word.to_owned(),
                known: unit::words(self.reader.lang, unit),
            })?,
        };
        // What came through a factor or a fraction is cut where no tool measures any more.
        let made = factor != 1.0 || has_fraction;
        let value = if made { cut(x * factor) } else { x };
        let value = if value.abs() < NOTHING { 0.0 } else { value };
        if self.whole && value.fract() != 0.0 {
            return Err(Refused::NotWhole);
        }
        let plain = |c: char| c.is_ascii_digit() || (".,-".contains(c) && c != foreign);
        let says_more = made || !typed.trim().chars().all(plain);
        if !self.bounds.allow(value) {
            return Err(Refused::Outside(says_more.then(|| self.amount(value))));
        }
        Ok((value, says_more))
    }

    fn said(&self, x: f64) -> String {
        format!("= {}", self.amount(x))
    }

    /// In the reader's unit, and in the file's where that is another.
    fn amount(&self, x: f64) -> String {
        let file = amount(self.reader.lang, x, self.bounds.unit);
        match in_inches(self.reader, self.bounds.unit) {
            true => {
                let (x, unit) = (shown(self.reader, self.bounds.unit, x), inches(self.reader.lang));
                format!("{x}\u{a0}{unit} ({file})")
            }
            false => file,
        }
    }

    /// What is allowed, in the reader's unit too, there cut inwards.
    fn allowed(&self) -> String {
        let Bounds { least, most, unit } = self.bounds;
        let lang = self.reader.lang;
        let file = range(lang, least, most, unit);
        if !in_inches(self.reader, unit) {
            return file;
        }
        let places = |mm: f64| mm / unit::MM_PER_INCH * 1e4;
        let [least, most] =
            [places(least).ceil(), places(most).floor()].map(|x| lang.exact(x / 1e4));
        let to = lang.pick("to", "bis");
        format!("{least} {to} {most}\u{a0}{} ({file})", inches(lang))
    }
}

/// To seven significant digits.
fn cut(x: f64) -> f64 {
    format!("{x:.6e}").parse().unwrap_or(x)
}

#[cfg(test)]
mod tests;
