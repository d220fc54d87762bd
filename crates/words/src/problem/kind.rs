//! The sentence for every kind of problem, the languages side by side.
//!
//! Must not know: anything but the problem.

use super::engine::engine;
use super::figure::{disagrees, limits, out_of_bounds, within, wrong_count};
use super::flaw::{Setting, flaw, pointer};
use super::keys::{did_you_mean, missing, one_of};
use super::need::unfit;
use super::place::{Spot, bare_list, quoted, quoted_list};
use super::quantity::amount;
use super::syntax::syntax;
use super::wanted::{found as found_there, is_quoted_number, wanted, wanted_entry};
use crate::lang::Lang;
use layout::{Kind, Problem, ProblemKind};

/// The problem in words.
pub(super) fn told(lang: Lang, problem: &Problem) -> String {
    let spot = Spot::of(lang, problem);
    match &problem.kind {
        ProblemKind::TooLong { bytes, most } => match lang {
            Lang::En => {
                format!("This is {bytes} bytes long; a layout file has at most {most} bytes.")
            }
            Lang::De => {
                format!("Das ist {bytes} Byte lang; eine Layoutdatei hat höchstens {most} Byte.")
            }
        },
        ProblemKind::NotUtf8 => lang
            .pick(
                "From here on this is not UTF-8 text. Save the file in the encoding UTF-8.",
                "Ab hier ist das kein Text in UTF-8. Die Datei in der Kodierung UTF-8 speichern.",
            )
            .to_owned(),
        ProblemKind::Syntax { fault, parser_says } => syntax(lang, &spot, *fault, parser_says),
        ProblemKind::UnknownKey { found, nearest, allowed } => {
            let found = quoted(lang, found);
            let there_is = match lang {
                Lang::En => format!("There is no key {found} here."),
                Lang::De => format!("Hier gibt es keinen Schlüssel {found}."),
            };
            let names: Vec<&str> = allowed.iter().map(|key| key.name).collect();
            let names = bare_list(&names, lang.pick("and", "und"));
            let rest = did_you_mean(lang, *nearest).unwrap_or_else(|| match lang {
                Lang::En => format!("The keys here are {names}."),
                Lang::De => format!("Die Schlüssel hier sind {names}."),
            });
            spot.here(&format!("{there_is} {rest}"))
        }
        ProblemKind::MissingKey { name: _ } => missing(lang, &spot),
        ProblemKind::OutOfPlace { because, found, belongs_to } => {
            let key = spot.key();
            let belongs = quoted_list(lang, belongs_to);
            match (lang, found) {
                (Lang::En, Some(word)) => {
                    let word = quoted(lang, word);
                    format!("{key} does not go with {because} {word}; it goes with {belongs}.")
                }
                (Lang::De, Some(word)) => {
                    let word = quoted(lang, word);
                    format!("{key} passt nicht zu {because} {word}; es gehört zu {belongs}.")
                }
                (Lang::En, None) => {
                    format!("{key} goes only with {because} {belongs}; {because} is not there.")
                }
                (Lang::De, None) => {
                    format!(
                        "{key} passt nur zu {because} {belongs}; {because} ist nicht angegeben."
                    )
                }
            }
        }
        ProblemKind::OneOf { keys, found, more_allowed } => {
            spot.here(&one_of(lang, keys, found, *more_allowed))
        }
        ProblemKind::WrongType { found, wanted: kind } => {
            let entry = spot.is_entry();
            let wants = if entry { wanted_entry(lang, kind) } else { wanted(lang, kind) };
            let (key, there) = (spot.key(), found_there(lang, found));
            let bare = is_quoted_number(found, kind);
            match lang {
                Lang::En => {
                    let bare = if bare { " Leave the quotation marks out." } else { "" };
                    format!("{key} is {there}; it must be {wants}.{bare}")
                }
                Lang::De => {
                    let bare = if bare { " Die Anführungszeichen weglassen." } else { "" };
                    format!("{key} ist {there}; verlangt ist {wants}.{bare}")
                }
            }
        }
        ProblemKind::Newer { found, known } => match lang {
            Lang::En => format!(
                "This is a layout from a newer Two Turns: its format is {found}, and this one reads format {known}. Nothing else of it was looked at. Open it with a newer Two Turns."
            ),
            Lang::De => format!(
                "Das ist ein Layout aus einem neueren Two Turns: Sein Format ist {found}, und dieses hier liest Format {known}. Weiter wurde nichts geprüft. Mit einem neueren Two Turns öffnen."
            ),
        },
        ProblemKind::OutOfBounds { found, bounds } => out_of_bounds(lang, &spot, *found, bounds),
        ProblemKind::NotFinite { found, bounds } => {
            let (key, within) = (spot.key(), within(lang, bounds));
            match lang {
                Lang::En => format!("{key} is {found}, which is no finite number; {within}."),
                Lang::De => format!("{key} ist {found}, das ist keine endliche Zahl; {within}."),
            }
        }
        ProblemKind::NotWhole { found, bounds } => {
            let (key, found) = (spot.key(), amount(lang, *found, bounds.unit));
            let wants = wanted(lang, &Kind::Whole(*bounds));
            match lang {
                Lang::En => format!("{key} is {found}; it must be {wants}."),
                Lang::De => format!("{key} ist {found}; verlangt ist {wants}."),
            }
        }
        ProblemKind::NotAChoice { found, nearest, allowed } => {
            let (key, found) = (spot.key(), quoted(lang, found));
            let words = quoted_list(lang, allowed);
            match (lang, did_you_mean(lang, *nearest)) {
                (Lang::En, Some(hint)) => format!("{key} cannot be {found}. {hint}"),
                (Lang::De, Some(hint)) => format!("{key} kann nicht {found} sein. {hint}"),
                (Lang::En, None) => format!("{key} cannot be {found}; it must be {words}."),
                (Lang::De, None) => format!("{key} kann nicht {found} sein, nur {words}."),
            }
        }
        ProblemKind::WrongCount { of, found, fewest, most } => {
            wrong_count(lang, &spot, *of, *found, (*fewest, *most))
        }
        ProblemKind::NotInOrder { low, high, unit } => {
            let (low, high) = (amount(lang, *low, *unit), amount(lang, *high, *unit));
            let key = spot.key();
            match lang {
                Lang::En => {
                    format!("{key} goes from {low} to {high}; the first must be below the second.")
                }
                Lang::De => format!(
                    "{key} geht von {low} bis {high}; der erste Wert muss kleiner als der zweite sein."
                ),
            }
        }
        ProblemKind::Disagrees { found, least, most, inclusive, unit, set_by } => {
            let limits = limits(lang, *least, *most, *inclusive, *unit);
            disagrees(lang, &spot, &amount(lang, *found, *unit), &limits, set_by)
        }
        ProblemKind::UnequalLists { found, other, other_key } => {
            let key = spot.key();
            match lang {
                Lang::En => format!(
                    "{key} has {found} entries and {other_key} has {other}; both must have as many."
                ),
                Lang::De => format!(
                    "{key} hat {found} Einträge, {other_key} hat {other}; beide müssen gleich viele haben."
                ),
            }
        }
        ProblemKind::PointerOutside { at_deg, window_deg } => pointer(lang, *at_deg, *window_deg),
        ProblemKind::Engine { flaw } => engine(lang, *flaw),
        ProblemKind::Geometry { flaw: why, names, pitch_mm, travel_unit } => {
            flaw(lang, why, &Setting { names, pitch_mm: *pitch_mm, travel_unit: *travel_unit })
        }
        ProblemKind::BadId { found } => {
            let found = quoted(lang, found);
            match lang {
                Lang::En => format!(
                    "{found} cannot be an id. An id has small letters from a to z, digits and _, begins with a letter and has at most 40 characters."
                ),
                Lang::De => format!(
                    "{found} kann keine id sein. Eine id hat Kleinbuchstaben von a bis z, Ziffern und _, beginnt mit einem Buchstaben und hat höchstens 40 Zeichen."
                ),
            }
        }
        ProblemKind::RepeatedId { found, first } => {
            let found = quoted(lang, found);
            match lang {
                Lang::En => format!(
                    "The id {found} is taken by an earlier wheel ({first}); each wheel has its own."
                ),
                Lang::De => format!(
                    "Die id {found} hat schon ein früheres Rad ({first}); jedes Rad hat seine eigene."
                ),
            }
        }
        ProblemKind::UnknownWheel { found, nearest } => {
            let (key, found) = (spot.key(), quoted(lang, found));
            let hint = did_you_mean(lang, nearest.as_deref());
            let hint = hint.map_or(String::new(), |hint| format!(" {hint}"));
            match lang {
                Lang::En => format!("{key} is {found}, and no wheel has this id.{hint}"),
                Lang::De => format!("{key} ist {found}, und kein Rad hat diese id.{hint}"),
            }
        }
        ProblemKind::UnfitWheel { needs } => {
            unfit(lang, &spot, problem.part.as_deref().unwrap_or_default(), *needs)
        }
        ProblemKind::NoCrank => lang
            .pick(
                "No wheel has the role “crank”; the first [[wheel]] must be the crank.",
                "Kein Rad hat die role „crank“; das erste [[wheel]] muss die Kurbelwelle sein.",
            )
            .to_owned(),
        ProblemKind::More { count: 1 } => {
            lang.pick("1 more problem is not told.", "1 weiteres Problem ist nicht genannt.").into()
        }
        ProblemKind::More { count } => match lang {
            Lang::En => format!("{count} more problems are not told."),
            Lang::De => format!("{count} weitere Probleme sind nicht genannt."),
        },
    }
}
