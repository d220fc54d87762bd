//! Keys that are missing, or of which one has to be chosen.
//!
//! Must not know: what stands behind them.

use super::place::{Spot, bare_list, quoted};
use super::wanted::wanted;
use crate::lang::Lang;
use layout::Kind;

pub(crate) fn did_you_mean(lang: Lang, nearest: Option<&str>) -> Option<String> {
    let nearest = quoted(lang, nearest?);
    Some(match lang {
        Lang::En => format!("Did you mean {nearest}?"),
        Lang::De => format!("Ist {nearest} gemeint?"),
    })
}

pub(super) fn missing(lang: Lang, spot: &Spot<'_>) -> String {
    let key = spot.key();
    match (spot.key.map(|key| key.kind), lang) {
        (Some(Kind::Table(_)), Lang::En) => format!("The table {key} is missing."),
        (Some(Kind::Table(_)), Lang::De) => format!("Die Tabelle {key} fehlt."),
        (Some(Kind::Tables { fewest, .. }), Lang::En) => {
            format!("There is no [[{key}]]; at least {fewest} must be there.")
        }
        (Some(Kind::Tables { fewest, .. }), Lang::De) => {
            format!("Es gibt kein [[{key}]]; mindestens {fewest} müssen da sein.")
        }
        (Some(kind), Lang::En) => format!("{key} is missing: {}.", wanted(lang, &kind)),
        (Some(kind), Lang::De) => format!("{key} fehlt: {}.", wanted(lang, &kind)),
        (None, Lang::En) => format!("{key} is missing."),
        (None, Lang::De) => format!("{key} fehlt."),
    }
}

pub(super) fn one_of(lang: Lang, keys: &[&str], found: &[&str], more_allowed: bool) -> String {
    let and = lang.pick("and", "und");
    let either = bare_list(keys, lang.pick("or", "oder"));
    match (lang, found.is_empty(), more_allowed) {
        (Lang::En, true, true) => {
            format!("There must be at least one of {}.", bare_list(keys, and))
        }
        (Lang::De, true, true) => {
            format!("Mindestens eines von {} muss da sein.", bare_list(keys, and))
        }
        (Lang::En, true, false) => format!("There must be {either}."),
        (Lang::De, true, false) => format!("Es fehlt {either}."),
        (Lang::En, false, _) => {
            format!("There are {}; only one of them may be there.", bare_list(found, and))
        }
        (Lang::De, false, _) => {
            format!("Da sind {}; nur eines davon darf da sein.", bare_list(found, and))
        }
    }
}
