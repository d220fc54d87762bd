//! Figures that a layout file cannot have: out of bounds, too many, at odds with another.
//!
//! Must not know: where a bound comes from.

use super::place::Spot;
use super::quantity::{amount, range};
use crate::lang::Lang;
use layout::{Bounds, Counted, Unit};

pub(super) fn within(lang: Lang, b: &Bounds) -> String {
    let allowed = range(lang, b.least, b.most, b.unit);
    match (lang, b.least == b.most) {
        (Lang::En, true) => format!("it must be {allowed}"),
        (Lang::En, false) => format!("it may be {allowed}"),
        (Lang::De, true) => format!("es muss {allowed} sein"),
        (Lang::De, false) => format!("erlaubt sind {allowed}"),
    }
}

pub(super) fn out_of_bounds(lang: Lang, spot: &Spot<'_>, found: f64, bounds: &Bounds) -> String {
    let (key, is) = (spot.key(), lang.pick("is", "ist"));
    let allowed = range(lang, bounds.least, bounds.most, bounds.unit);
    // What has the teeth says it shorter than the unit on both sides.
    let toothed = match (bounds.unit, spot.is_at_wheel(), spot.list() == "belt.teeth") {
        (Unit::Teeth, true, _) => Some(lang.pick("a toothed wheel has", "ein verzahntes Rad hat")),
        (Unit::Teeth, false, true) => Some(lang.pick("a belt has", "ein Riemen hat")),
        _ => None,
    };
    match toothed {
        Some(has) => format!("{key} {is} {}; {has} {allowed}.", lang.exact(found)),
        None => {
            let found = amount(lang, found, bounds.unit);
            format!("{key} {is} {found}; {}.", within(lang, bounds))
        }
    }
}

pub(super) fn wrong_count(
    lang: Lang,
    spot: &Spot<'_>,
    of: Counted,
    found: usize,
    (fewest, most): (usize, usize),
) -> String {
    let allowed = match (lang, fewest == most) {
        (_, true) => most.to_string(),
        (Lang::En, false) => format!("{fewest} to {most}"),
        (Lang::De, false) => format!("{fewest} bis {most}"),
    };
    let list = spot.list();
    match (of, lang, found) {
        (Counted::Characters, Lang::En, 0) => {
            format!("{list} is empty; it must have {allowed} characters.")
        }
        (Counted::Characters, Lang::De, 0) => {
            format!("{list} ist leer; es muss {allowed} Zeichen haben.")
        }
        (Counted::Characters, Lang::En, _) => {
            format!("{list} has {found} characters; it must have {allowed}.")
        }
        (Counted::Characters, Lang::De, _) => {
            format!("{list} hat {found} Zeichen; es müssen {allowed} sein.")
        }
        (Counted::Entries, Lang::En, 1) => {
            format!("{list} has 1 entry; it must have {allowed}.")
        }
        (Counted::Entries, Lang::De, 1) => {
            format!("{list} hat 1 Eintrag; es müssen {allowed} sein.")
        }
        (Counted::Entries, Lang::En, _) => {
            format!("{list} has {found} entries; it must have {allowed}.")
        }
        (Counted::Entries, Lang::De, _) => {
            format!("{list} hat {found} Einträge; es müssen {allowed} sein.")
        }
        (Counted::Tables, Lang::En, 1) => {
            format!("There is 1 [[{list}]]; there must be {allowed}.")
        }
        (Counted::Tables, Lang::De, 1) => {
            format!("Es gibt 1 [[{list}]]; es müssen {allowed} sein.")
        }
        (Counted::Tables, Lang::En, _) => {
            format!("There are {found} [[{list}]]; there must be {allowed}.")
        }
        (Counted::Tables, Lang::De, _) => {
            format!("Es gibt {found} [[{list}]]; es müssen {allowed} sein.")
        }
    }
}

pub(super) fn limits(
    lang: Lang,
    least: Option<f64>,
    most: Option<f64>,
    equal: bool,
    unit: Unit,
) -> String {
    // Worked out from other figures, they may carry the last bits of a subtraction.
    let limit = |x: f64| amount(lang, format!("{x:.11e}").parse().unwrap_or(x), unit);
    let en = lang == Lang::En;
    match (least, most) {
        (Some(low), Some(high)) if low == high => {
            let only = limit(low);
            if en { format!("must be {only}") } else { format!("muss {only} sein") }
        }
        (Some(low), Some(high)) => {
            let allowed = range(lang, low, high, unit);
            match (en, equal) {
                (true, true) => format!("may be {allowed}"),
                (true, false) => format!("must be within {allowed}"),
                (false, true) => format!("darf {allowed} betragen"),
                (false, false) => format!("muss innerhalb von {allowed} liegen"),
            }
        }
        (Some(low), None) => match (en, equal, limit(low)) {
            (true, true, low) => format!("must be at least {low}"),
            (true, false, low) => format!("must be above {low}"),
            (false, true, low) => format!("muss mindestens {low} sein"),
            (false, false, low) => format!("muss größer als {low} sein"),
        },
        (None, Some(high)) => match (en, equal, limit(high)) {
            (true, true, high) => format!("must be at most {high}"),
            (true, false, high) => format!("must be below {high}"),
            (false, true, high) => format!("darf höchstens {high} sein"),
            (false, false, high) => format!("muss kleiner als {high} sein"),
        },
        (None, None) => lang.pick("must be another", "muss ein anderer sein").to_owned(),
    }
}

pub(super) fn disagrees(
    lang: Lang,
    spot: &Spot<'_>,
    found: &str,
    limits: &str,
    set_by: &str,
) -> String {
    let key = spot.key();
    let first = set_by.strip_suffix("[0]").is_some_and(|list| key == list);
    match (lang, first, spot.is_list()) {
        (Lang::En, true, _) => format!("The first entry of {key} is {found}; it {limits}."),
        (Lang::De, true, _) => format!("Der erste Eintrag von {key} ist {found}; er {limits}."),
        (Lang::En, false, true) => {
            format!("{key} has {found} in it; each {limits}, as follows from {set_by}.")
        }
        (Lang::De, false, true) => {
            format!("{key} enthält {found}; jeder Wert {limits}, das folgt aus {set_by}.")
        }
        (Lang::En, false, false) => {
            format!("{key} is {found}; it {limits}, as follows from {set_by}.")
        }
        (Lang::De, false, false) => {
            format!("{key} ist {found}; der Wert {limits}, das folgt aus {set_by}.")
        }
    }
}
