//! Checks what stands behind one key against its kind and its bounds.
//!
//! Must not know any key by name.

use std::ops::Range;

use toml::de::{DeArray, DeInteger, DeValue};

use super::{At, Walk};
use crate::findings::Finding;
use crate::key::{Bounds, Key, Kind};
use crate::nearest::nearest;
use crate::problem::{Counted, Found, ProblemKind, clipped};
use crate::tree::Content;

/// Longest id, in characters.
const LONGEST_ID: usize = 40;

impl At {
    /// An entry of the list that stands here.
    fn entry(&self, index: usize, span: Range<usize>) -> Self {
        Self { span, path: format!("{}[{index}]", self.path), part: self.part.clone() }
    }
}

impl Walk<'_, '_> {
    /// What stands behind a key, or `Wrong` once it has been told why.
    pub(super) fn value(&mut self, value: &DeValue<'_>, kind: &'static Kind, at: At) -> Content {
        match (kind, value) {
            (Kind::Text { longest }, DeValue::String(text)) => {
                let found = text.chars().count();
                if !(1..=*longest).contains(&found) {
                    return self.wrong_count(&at, Counted::Characters, found, 1, *longest);
                }
                Content::Text(text.to_string())
            }
            (Kind::Id, DeValue::String(text)) if !is_id(text) => {
                self.wrong(&at, || ProblemKind::BadId { found: clipped(text) })
            }
            (Kind::Id | Kind::WheelId, DeValue::String(text)) => Content::Text(text.to_string()),
            (Kind::Choice(allowed), DeValue::String(text)) => {
                if allowed.contains(&&**text) {
                    return Content::Text(text.to_string());
                }
                self.wrong(&at, || ProblemKind::NotAChoice {
                    found: clipped(text),
                    nearest: nearest(text, allowed.iter().copied()),
                    allowed,
                })
            }
            (Kind::Whole(bounds), DeValue::Integer(_) | DeValue::Float(_)) => {
                self.number(value, *bounds, true, &at).map_or(Content::Wrong, Content::Number)
            }
            (Kind::Number(bounds), DeValue::Integer(_) | DeValue::Float(_)) => {
                self.number(value, *bounds, false, &at).map_or(Content::Wrong, Content::Number)
            }
            (Kind::Point(each), DeValue::Array(list)) => {
                self.list(list, *each, false, (2, 2), kind, &at)
            }
            (Kind::Pair(each), DeValue::Array(list)) => {
                let content = self.list(list, *each, false, (2, 2), kind, &at);
                match content {
                    Content::Numbers(ref two) if two.first() >= two.last() => {
                        let (low, high) = (two.first().copied(), two.last().copied());
                        let low = low.unwrap_or_default();
                        let high = high.unwrap_or_default();
                        self.wrong(&at, || ProblemKind::NotInOrder { low, high, unit: each.unit })
                    }
                    content => content,
                }
            }
            (Kind::List { each, whole, fewest, most }, DeValue::Array(list)) => {
                self.list(list, *each, *whole, (*fewest, *most), kind, &at)
            }
            (Kind::Flag, DeValue::Boolean(flag)) => Content::Flag(*flag),
            (Kind::Table(keys), DeValue::Table(table)) => {
                Content::Table(self.table(table, keys, at))
            }
            (Kind::Tables { keys, fewest, most }, DeValue::Array(list)) => {
                self.tables(list, keys, (*fewest, *most), kind, &at)
            }
            _ => self.wrong_type(&at, value, kind),
        }
    }

    fn list(
        &mut self,
        list: &DeArray<'_>,
        each: Bounds,
        whole: bool,
        (fewest, most): (usize, usize),
        kind: &'static Kind,
        at: &At,
    ) -> Content {
        if !(fewest..=most).contains(&list.len()) {
            return self.wrong_count(at, Counted::Entries, list.len(), fewest, most);
        }
        let mut numbers = Vec::with_capacity(list.len());
        for (index, entry) in list.iter().enumerate() {
            let at = at.entry(index, entry.span());
            if !matches!(entry.get_ref(), DeValue::Integer(_) | DeValue::Float(_)) {
                self.wrong_type(&at, entry.get_ref(), kind);
            } else if let Some(number) = self.number(entry.get_ref(), each, whole, &at) {
                numbers.push(number);
            }
        }
        if numbers.len() == list.len() { Content::Numbers(numbers) } else { Content::Wrong }
    }

    fn tables(
        &mut self,
        list: &DeArray<'_>,
        keys: &'static [Key],
        (fewest, most): (usize, usize),
        kind: &'static Kind,
        at: &At,
    ) -> Content {
        if list.len() < fewest && self.missing_too {
            self.wrong_count(at, Counted::Tables, list.len(), fewest, most);
        } else if let Some(surplus) = list.get(most) {
            let at = at.entry(most, surplus.span());
            self.wrong_count(&at, Counted::Tables, list.len(), fewest, most);
        }
        let mut nodes = Vec::new();
        for (index, entry) in list.iter().enumerate().take(most) {
            let at = at.entry(index, entry.span());
            match entry.get_ref() {
                DeValue::Table(table) => nodes.push(self.table(table, keys, at)),
                other => {
                    self.wrong_type(&at, other, kind);
                }
            }
        }
        Content::Tables(nodes)
    }

    fn number(&mut self, value: &DeValue<'_>, bounds: Bounds, whole: bool, at: &At) -> Option<f64> {
        let (number, written) = match value {
            DeValue::Integer(integer) => (integer_as_f64(integer), integer.as_str()),
            DeValue::Float(float) => (float.as_str().parse().ok(), float.as_str()),
            _ => (None, ""),
        };
        let Some(found) = number.filter(|number: &f64| number.is_finite()) else {
            self.wrong(at, || ProblemKind::NotFinite { found: clipped(written), bounds });
            return None;
        };
        if whole && found.fract() != 0.0 {
            self.wrong(at, || ProblemKind::NotWhole { found, bounds });
            return None;
        }
        if !bounds.allow(found) {
            self.wrong(at, || ProblemKind::OutOfBounds { found, bounds });
            return None;
        }
        Some(found)
    }

    fn wrong_type(&mut self, at: &At, value: &DeValue<'_>, wanted: &'static Kind) -> Content {
        self.wrong(at, || ProblemKind::WrongType { found: found(value), wanted: *wanted })
    }

    fn wrong_count(
        &mut self,
        at: &At,
        of: Counted,
        found: usize,
        fewest: usize,
        most: usize,
    ) -> Content {
        self.wrong(at, || ProblemKind::WrongCount { of, found, fewest, most })
    }

    fn wrong(&mut self, at: &At, kind: impl FnOnce() -> ProblemKind) -> Content {
        self.findings.add(at.span.clone(), |span| Finding {
            kind: kind(),
            span,
            key: at.path.clone(),
            part: at.part.clone(),
        });
        Content::Wrong
    }
}

/// `[a-z][a-z0-9_]*`, not too long.
pub(super) fn is_id(text: &str) -> bool {
    let tail = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'_';
    text.len() <= LONGEST_ID
        && text.starts_with(|first: char| first.is_ascii_lowercase())
        && text.bytes().all(tail)
}

fn integer_as_f64(integer: &DeInteger<'_>) -> Option<f64> {
    match integer.radix() {
        10 => integer.as_str().parse().ok(),
        radix => i64::from_str_radix(integer.as_str(), radix).ok().map(|whole| whole as f64),
    }
}

fn found(value: &DeValue<'_>) -> Found {
    match value {
        DeValue::String(text) => Found::Text(clipped(text)),
        DeValue::Integer(integer) => Found::Number(clipped(integer.as_str())),
        DeValue::Float(float) => Found::Number(clipped(float.as_str())),
        DeValue::Boolean(flag) => Found::Flag(*flag),
        DeValue::Datetime(_) => Found::Date,
        DeValue::Array(list) => Found::List(list.len()),
        DeValue::Table(_) => Found::Table,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::key::{Unit, key_at};
    use crate::keys::LAYOUT;
    use crate::sample::{SLIDE, one, told};

    fn bounds(path: &str) -> Bounds {
        match key_at(LAYOUT, path).unwrap().kind {
            Kind::Whole(b) | Kind::Number(b) | Kind::Point(b) | Kind::List { each: b, .. } => b,
            _ => panic!("{path} has no bounds"),
        }
    }

    #[test]
    fn other_kinds_of_value() {
        let wrong = |found, path| ProblemKind::WrongType {
            found,
            wanted: key_at(LAYOUT, path).unwrap().kind,
        };
        for (from, to, found, at, key, part) in [
            ("teeth = 167", "teeth = '167'", Found::Text("167".into()), "8:9", "belt.teeth", ""),
            ("teeth = 167", "teeth = true", Found::Flag(true), "8:9", "belt.teeth", ""),
            ("teeth = 167", "teeth = 1979-05-27", Found::Date, "8:9", "belt.teeth", ""),
            ("[0.0, 0.0]", "7.0", Found::Number("7.0".into()), "24:9", "wheel[0].at_mm", "crank"),
            ("[0.0, 0.0]", "{ x = 0 }", Found::Table, "24:9", "wheel[0].at_mm", "crank"),
            ("true\n", "[1]\n", Found::List(1), "16:19", "belt.direction_arrow", ""),
            ("[belt]", "[[belt]]", Found::List(1), "7:1", "belt", ""),
        ] {
            assert_eq!(told(from, to), one(wrong(found, key), at, key, part), "{to}");
        }
        assert_eq!(
            told("[0.0, 0.0]", "[0.0, 'a']"),
            one(
                wrong(Found::Text("a".into()), "wheel.at_mm"),
                "24:15",
                "wheel[0].at_mm[1]",
                "crank"
            )
        );
        assert_eq!(
            told("stages = [{ torque_n_m = 40.0 }", "stages = [1"),
            one(
                wrong(Found::Number("1".into()), "fastener.stages"),
                "108:11",
                "fastener[1].stages[0]",
                ""
            )
        );
    }

    #[test]
    fn numbers_that_are_not_right() {
        assert_eq!(
            told("teeth = 167", "teeth = 19"),
            one(
                ProblemKind::OutOfBounds { found: 19.0, bounds: bounds("belt.teeth") },
                "8:9",
                "belt.teeth",
                ""
            )
        );
        assert_eq!(
            told("teeth = 167", "teeth = 167.5"),
            one(
                ProblemKind::NotWhole { found: 167.5, bounds: bounds("belt.teeth") },
                "8:9",
                "belt.teeth",
                ""
            )
        );
        for written in ["nan", "-inf", "1e999"] {
            assert_eq!(
                told("9.525", written),
                one(
                    ProblemKind::NotFinite {
                        found: written.into(),
                        bounds: bounds("belt.pitch_mm")
                    },
                    "9:12",
                    "belt.pitch_mm",
                    ""
                )
            );
        }
        // However large, a whole number is told as a number.
        let huge = told("teeth = 167", "teeth = 99999999999999999999999");
        assert!(matches!(huge[0].0, ProblemKind::OutOfBounds { found, .. } if found > 9e22));
        assert_eq!(crate::read(&SLIDE.replace("= 167", "= 0xA7")).unwrap().belt.teeth, 167);
        assert_eq!(
            told("format = 1", "format = 0"),
            one(
                ProblemKind::OutOfBounds { found: 0.0, bounds: bounds("format") },
                "2:10",
                "format",
                ""
            )
        );
    }

    #[test]
    fn words_lists_and_pairs_that_are_not_right() {
        assert_eq!(
            told("\"camshaft\"", "\"cam_shaft\""),
            one(
                ProblemKind::NotAChoice {
                    found: "cam_shaft".into(),
                    nearest: Some("camshaft"),
                    allowed: crate::choice::Role::WORDS,
                },
                "30:8",
                "wheel[1].role",
                "cam_left"
            )
        );
        assert_eq!(
            told("[0.0, 0.0]", "[0.0]"),
            one(
                ProblemKind::WrongCount { of: Counted::Entries, found: 1, fewest: 2, most: 2 },
                "24:9",
                "wheel[0].at_mm",
                "crank"
            )
        );
        assert_eq!(
            told("\"arrow\"", "\"\""),
            one(
                ProblemKind::WrongCount { of: Counted::Characters, found: 0, fewest: 1, most: 120 },
                "35:50",
                "wheel[1].other_marks[0].label",
                "cam_left"
            )
        );
        assert_eq!(
            told("[-5.0, 5.0]", "[5.0, -5.0]"),
            one(
                ProblemKind::NotInOrder { low: 5.0, high: -5.0, unit: Unit::Degrees },
                "37:12",
                "wheel[1].slot_deg",
                "cam_left"
            )
        );
        let crowd = "[[wheel]]\nid = 'x'\n".repeat(60);
        let told = told("[tensioner]", &(crowd + "[tensioner]"));
        let count = ProblemKind::WrongCount { of: Counted::Tables, found: 65, fewest: 2, most: 64 };
        assert!(told.iter().any(|(kind, _, key, _)| *kind == count && key == "wheel[64]"));
    }

    #[test]
    fn ids_have_a_form() {
        for bad in ["Crank", "1st", "", "cam left", "_a", "kurbel_ä", &"a".repeat(41)] {
            let told = told("id = \"pump\"", &format!("id = \"{bad}\""));
            let kind = ProblemKind::BadId { found: bad.into() };
            assert_eq!(told, one(kind, "43:6", "wheel[2].id", ""));
        }
    }
}
