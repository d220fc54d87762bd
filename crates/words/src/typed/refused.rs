//! Why what was typed means nothing in its field, in a sentence that says what was typed and what is allowed.
//!
//! Must not know: how it was read.

use super::number::Misread;
use crate::lang::Lang;
use crate::problem::quoted;
use layout::clipped;

/// Why it means nothing there.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Refused {
    /// Nothing is typed where one of several figures stands.
    Nothing,
    /// It begins with no number.
    NoNumber,
    /// Its sign may part thousands or decimals: both, written with a point.
    Thousands { small: String, large: String },
    /// What stands behind the number is no unit of the right kind; these are.
    Unit { word: String, known: Vec<&'static str> },
    /// A whole number is wanted.
    NotWhole,
    /// Outside the bounds; the amount, where it is not the bare number that was typed.
    Outside(Option<String>),
}

impl From<Misread> for Refused {
    fn from(misread: Misread) -> Self {
        match misread {
            Misread::NoNumber => Self::NoNumber,
            Misread::Thousands { small, large } => Self::Thousands { small, large },
        }
    }
}

/// The sentence, always in one line.
pub(super) fn sentence(lang: Lang, typed: &str, why: &Refused, allowed: &str) -> String {
    let typed = quoted(lang, &clipped(typed.trim()));
    let allowed = match lang {
        Lang::En => format!("Allowed: {allowed}."),
        Lang::De => format!("Erlaubt: {allowed}."),
    };
    match (why, lang) {
        (Refused::Nothing, Lang::En) => format!("A number is missing. {allowed}"),
        (Refused::Nothing, Lang::De) => format!("Eine Zahl fehlt. {allowed}"),
        (Refused::NoNumber, Lang::En) => format!("{typed} is not a number. {allowed}"),
        (Refused::NoNumber, Lang::De) => format!("{typed} ist keine Zahl. {allowed}"),
        (Refused::Thousands { small, large }, Lang::En) => {
            format!("{typed}: is that {small} or {large}? Write one of the two. {allowed}")
        }
        (Refused::Thousands { small, large }, Lang::De) => {
            let small = small.replace('.', ",");
            format!("{typed}: Ist das {small} oder {large}? Eines davon schreiben. {allowed}")
        }
        (Refused::Unit { word, known }, _) => {
            let word = quoted(lang, &clipped(word));
            format!("{} {allowed}", foreign_unit(lang, &typed, &word, &known.join(", ")))
        }
        (Refused::NotWhole, Lang::En) => format!("{typed} is not a whole number. {allowed}"),
        (Refused::NotWhole, Lang::De) => format!("{typed} ist keine ganze Zahl. {allowed}"),
        (Refused::Outside(None), Lang::En) => {
            format!("{typed} is outside what is allowed. {allowed}")
        }
        (Refused::Outside(None), Lang::De) => {
            format!("{typed} liegt außerhalb des Erlaubten. {allowed}")
        }
        (Refused::Outside(Some(amount)), Lang::En) => {
            format!("{typed} is {amount}: outside what is allowed. {allowed}")
        }
        (Refused::Outside(Some(amount)), Lang::De) => {
            format!("{typed} ist {amount}: außerhalb des Erlaubten. {allowed}")
        }
    }
}

fn foreign_unit(lang: Lang, typed: &str, word: &str, known: &str) -> String {
    match (lang, known.is_empty()) {
        (Lang::En, true) => format!("{typed}: no unit belongs here, and {word} is not understood."),
        (Lang::De, true) => {
            format!("{typed}: Hier gehört keine Einheit hin, und {word} wird nicht verstanden.")
        }
        (Lang::En, false) => {
            format!("{typed}: the unit {word} is not understood here. Understood: {known}.")
        }
        (Lang::De, false) => {
            format!("{typed}: Die Einheit {word} wird hier nicht verstanden. Verstanden: {known}.")
        }
    }
}
