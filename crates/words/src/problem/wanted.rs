//! What the format wants behind a key, and what was found there instead.
//!
//! Must not know: where.

use super::place::{quoted, quoted_list};
use super::quantity::range;
use crate::lang::Lang;
use layout::{Bounds, Found, Kind};

/// What a key wants, to end a sentence with: `a whole number, 6 to 200 teeth`.
pub(super) fn wanted(lang: Lang, kind: &Kind) -> String {
    let within = |b: &Bounds| range(lang, b.least, b.most, b.unit);
    match (kind, lang) {
        (Kind::Text { longest }, Lang::En) => {
            format!("text of up to {longest} characters, in quotation marks")
        }
        (Kind::Text { longest }, Lang::De) => {
            format!("ein Text von höchstens {longest} Zeichen, in Anführungszeichen")
        }
        (Kind::Id, Lang::En) => {
            "an id of small letters, digits and _, in quotation marks".to_owned()
        }
        (Kind::Id, Lang::De) => {
            "eine id aus Kleinbuchstaben, Ziffern und _, in Anführungszeichen".to_owned()
        }
        (Kind::WheelId, Lang::En) => "the id of a wheel, in quotation marks".to_owned(),
        (Kind::WheelId, Lang::De) => "die id eines Rades, in Anführungszeichen".to_owned(),
        (Kind::Choice(words), _) => quoted_list(lang, words),
        (Kind::Whole(b) | Kind::Number(b), _) if b.least == b.most => {
            format!("{} {}", lang.pick("the number", "die Zahl"), within(b))
        }
        (Kind::Whole(b), _) => format!("{}, {}", number(lang, true), within(b)),
        (Kind::Number(b), _) => format!("{}, {}", number(lang, false), within(b)),
        (Kind::Point(b), Lang::En) => format!("a point [x, y], each {}", within(b)),
        (Kind::Point(b), Lang::De) => format!("ein Punkt [x, y], jeweils {}", within(b)),
        (Kind::Pair(b), Lang::En) => format!("a pair [low, high], each {}", within(b)),
        (Kind::Pair(b), Lang::De) => format!("ein Paar [kleiner, größer], jeweils {}", within(b)),
        (Kind::List { each, whole, fewest, most }, Lang::En) => {
            let whole = if *whole { "whole " } else { "" };
            format!("a list of {fewest} to {most} {whole}numbers, each {}", within(each))
        }
        (Kind::List { each, whole, fewest, most }, Lang::De) => {
            let whole = if *whole { "ganzen " } else { "" };
            format!("eine Liste von {fewest} bis {most} {whole}Zahlen, jeweils {}", within(each))
        }
        (Kind::Flag, _) => lang.pick("true or false", "true oder false").to_owned(),
        (Kind::Table(_), _) => table(lang),
        (Kind::Tables { .. }, Lang::En) => "a list of tables, each in [[ ]]".to_owned(),
        (Kind::Tables { .. }, Lang::De) => "eine Liste von Tabellen, jede in [[ ]]".to_owned(),
    }
}

/// What one entry of a key's list wants; what the key wants where it is no list.
pub(super) fn wanted_entry(lang: Lang, kind: &Kind) -> String {
    match kind {
        Kind::Point(each) | Kind::Pair(each) => wanted(lang, &Kind::Number(*each)),
        Kind::List { each, whole: true, .. } => wanted(lang, &Kind::Whole(*each)),
        Kind::List { each, whole: false, .. } => wanted(lang, &Kind::Number(*each)),
        Kind::Tables { .. } => table(lang),
        Kind::Text { .. }
        | Kind::Id
        | Kind::WheelId
        | Kind::Choice(_)
        | Kind::Whole(_)
        | Kind::Number(_)
        | Kind::Flag
        | Kind::Table(_) => wanted(lang, kind),
    }
}

/// What was found: `the text “167”`.
pub(super) fn found(lang: Lang, found: &Found) -> String {
    match (found, lang) {
        (Found::Text(text), Lang::En) => format!("the text {}", quoted(lang, text)),
        (Found::Text(text), Lang::De) => format!("der Text {}", quoted(lang, text)),
        (Found::Number(written), Lang::En) => format!("the number {written}"),
        (Found::Number(written), Lang::De) => format!("die Zahl {written}"),
        (Found::Flag(flag), _) => flag.to_string(),
        (Found::Date, _) => lang.pick("a date or a time", "ein Datum oder eine Uhrzeit").to_owned(),
        (Found::List(1), _) => {
            lang.pick("a list of 1 entry", "eine Liste mit 1 Eintrag").to_owned()
        }
        (Found::List(n), Lang::En) => format!("a list of {n} entries"),
        (Found::List(n), Lang::De) => format!("eine Liste mit {n} Einträgen"),
        (Found::Table, _) => table(lang),
    }
}

/// Whether the quotation marks are all that is wrong.
pub(super) fn is_quoted_number(found: &Found, kind: &Kind) -> bool {
    let number = matches!(kind, Kind::Whole(_) | Kind::Number(_));
    matches!(found, Found::Text(text) if number && text.trim().parse::<f64>().is_ok())
}

fn number(lang: Lang, whole: bool) -> &'static str {
    if whole {
        lang.pick("a whole number", "eine ganze Zahl")
    } else {
        lang.pick("a number", "eine Zahl")
    }
}

fn table(lang: Lang) -> String {
    lang.pick("a table", "eine Tabelle").to_owned()
}
