//! Numbers of a layout file with their units, and ranges of them.
//!
//! Must not know: which key a number stands behind.

use crate::lang::Lang;
use crate::number::NBSP;
use layout::Unit;

/// A number with its unit, all digits told: `5.5 mm`, `−12°`, `1 tooth`.
pub(crate) fn amount(lang: Lang, x: f64, unit: Unit) -> String {
    with_unit(lang.exact(x), unit_word(lang, unit, x.abs() == 1.0), unit)
}

/// From least to most, the unit told once: `6 to 200 teeth`, `−45° to 45°`.
pub(crate) fn range(lang: Lang, least: f64, most: f64, unit: Unit) -> String {
    if least == most {
        return amount(lang, least, unit);
    }
    let to = lang.pick("to", "bis");
    let low = match unit {
        Unit::Degrees => amount(lang, least, unit),
        Unit::Bare
        | Unit::Millimetres
        | Unit::Teeth
        | Unit::CrankTurns
        | Unit::Newtons
        | Unit::NewtonsPerMillimetre
        | Unit::NewtonMetres
        | Unit::PoundForceFeet
        | Unit::PoundForceInches
        | Unit::KilogramsPerMetre => lang.exact(least),
    };
    format!("{low} {to} {}", amount(lang, most, unit))
}

fn with_unit(number: String, word: &str, unit: Unit) -> String {
    match unit {
        Unit::Bare => number,
        Unit::Degrees => number + word,
        _ => format!("{number}{NBSP}{word}"),
    }
}

/// The word for a unit beside one of it or many.
pub(crate) fn unit_word(lang: Lang, unit: Unit, one: bool) -> &'static str {
    match (unit, one) {
        (Unit::Bare, _) => "",
        (Unit::Millimetres, _) => "mm",
        (Unit::Degrees, _) => "°",
        (Unit::Teeth, true) => lang.pick("tooth", "Zahn"),
        (Unit::Teeth, false) => lang.pick("teeth", "Zähne"),
        (Unit::CrankTurns, true) => lang.pick("crank turn", "Kurbelumdrehung"),
        (Unit::CrankTurns, false) => lang.pick("crank turns", "Kurbelumdrehungen"),
        (Unit::Newtons, _) => "N",
        (Unit::NewtonsPerMillimetre, _) => "N/mm",
        (Unit::NewtonMetres, _) => "N·m",
        (Unit::PoundForceFeet, _) => "lbf·ft",
        (Unit::PoundForceInches, _) => "lbf·in",
        (Unit::KilogramsPerMetre, _) => "kg/m",
    }
}
