//! Where in the file a problem is, and how what stands there is quoted.
//!
//! Must not know: what is wrong.

use crate::lang::Lang;
use layout::{Key, Kind, LAYOUT, Problem, key_at};

/// The part of the layout that a problem is at.
pub(super) struct Spot<'p> {
    lang: Lang,
    /// The wheel's id, where the key is one of a wheel.
    wheel: Option<&'p str>,
    /// The key's path, below the wheel if there is one.
    path: String,
    /// What the format says of the key.
    pub(super) key: Option<&'static Key>,
}

impl<'p> Spot<'p> {
    pub(super) fn of(lang: Lang, problem: &'p Problem) -> Self {
        let below = problem.key.strip_prefix("wheel[").and_then(|rest| rest.split_once("]."));
        let (wheel, path) = match (problem.part.as_deref(), below) {
            (Some(id), Some((_, below))) => (Some(id), below),
            _ => (None, problem.key.as_str()),
        };
        Self { lang, wheel, path: clean(path), key: key_at(LAYOUT, &problem.key) }
    }

    /// The key, to begin a sentence with: `Wheel “idler”: teeth`, or `belt.teeth`.
    pub(super) fn key(&self) -> String {
        self.wheel_first() + &self.path
    }

    /// The key without the entry of a list that it ends in.
    pub(super) fn list(&self) -> String {
        let path = if self.is_entry() { self.path.rsplit_once('[') } else { None };
        self.wheel_first() + path.map_or(self.path.as_str(), |(list, _)| list)
    }

    /// The last step of the key's path.
    pub(super) fn last(&self) -> &str {
        self.path.rsplit('.').next().unwrap_or_default()
    }

    /// Whether the key is one entry of a list.
    pub(super) fn is_entry(&self) -> bool {
        self.path.ends_with(']')
    }

    /// Whether the key, as a whole, is a list of numbers.
    pub(super) fn is_list(&self) -> bool {
        let kind = self.key.map(|key| key.kind);
        let numbers = matches!(kind, Some(Kind::List { .. } | Kind::Pair(_) | Kind::Point(_)));
        numbers && !self.is_entry()
    }

    /// Whether the key is one of a wheel's own.
    pub(super) fn is_at_wheel(&self) -> bool {
        self.wheel.is_some()
    }

    /// `sentence`, said of the wheel if the problem is at one.
    pub(super) fn here(&self, sentence: &str) -> String {
        match (self.lang, self.wheel) {
            (_, None) => sentence.to_owned(),
            // A sentence behind a colon begins small in English and large in German.
            (Lang::En, Some(_)) => {
                let mut letters = sentence.chars();
                let first = letters.next().map(char::to_lowercase).into_iter().flatten();
                self.wheel_first() + &first.collect::<String>() + letters.as_str()
            }
            (Lang::De, Some(_)) => self.wheel_first() + sentence,
        }
    }

    fn wheel_first(&self) -> String {
        match (self.lang, self.wheel) {
            (_, None) => String::new(),
            (Lang::En, Some(id)) => format!("Wheel {}: ", quoted(self.lang, id)),
            (Lang::De, Some(id)) => format!("Rad {}: ", quoted(self.lang, id)),
        }
    }
}

/// `text` in this language's quotation marks, in one line.
pub(crate) fn quoted(lang: Lang, text: &str) -> String {
    let text = clean(text);
    match lang {
        Lang::En => format!("“{text}”"),
        Lang::De => format!("„{text}“"),
    }
}

/// What a file or a person says, in one line and with nothing in it that a terminal would obey.
pub(super) fn clean(text: &str) -> String {
    let shown = |c: char| if c.is_control() || is_direction(c) { '\u{fffd}' } else { c };
    text.chars().map(shown).collect()
}

/// Marks that turn the direction of the text behind them, and line ends that are no control characters.
const fn is_direction(c: char) -> bool {
    matches!(c, '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Words to choose from, each quoted: `“a”, “b” or “c”`.
pub(super) fn quoted_list(lang: Lang, words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| quoted(lang, word)).collect();
    joined(&quoted, lang.pick("or", "oder"))
}

/// Keys as they are, joined by a word: `a, b and c`.
pub(crate) fn bare_list<S: AsRef<str>>(words: &[S], between: &str) -> String {
    let words: Vec<String> = words.iter().map(|word| clean(word.as_ref())).collect();
    joined(&words, between)
}

fn joined(words: &[String], between: &str) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} {between} {last}", most.join(", ")),
    }
}
