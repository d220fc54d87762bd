//! Units that people type, and what one of each is in the unit of the file.
//!
//! Must not know: numbers or bounds. Factors are exact: NIST SP 811, Appendix B (inch, pound-force, foot,
//! kilogram-force).

use crate::lang::Lang;
use layout::Unit;

/// Millimetres in an inch, exactly.
pub(super) const MM_PER_INCH: f64 = 25.4;
/// Newtons in a pound-force, exactly.
const N_PER_LBF: f64 = 4.448_221_615_260_5;
/// Newtons in a kilogram-force, exactly.
const N_PER_KGF: f64 = 9.806_65;
/// Kilograms in a pound, exactly.
const KG_PER_LB: f64 = 0.453_592_37;
const MM_PER_FOOT: f64 = 304.8;

/// A unit that a number was typed in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Typed {
    /// The file's own.
    Own(Unit),
    /// Inches.
    Inch,
    /// Another one: so many of the file's.
    Times(f64),
}

/// How many of the file's `unit` one of them is.
pub(super) fn factor(typed: Typed, unit: Unit) -> f64 {
    match typed {
        Typed::Own(_) => 1.0,
        Typed::Inch if unit == Unit::Millimetres => MM_PER_INCH,
        Typed::Inch => 1.0,
        Typed::Times(factor) => factor,
    }
}

/// The word for it beside a field.
pub(super) fn word(lang: Lang, typed: Typed) -> &'static str {
    match typed {
        Typed::Inch => lang.pick("in", "Zoll"),
        Typed::Own(unit) => crate::problem::unit_word(lang, unit, false),
        Typed::Times(_) => "",
    }
}

/// The units that are understood where the file has `unit`, as they may be typed.
pub(super) fn words(unit: Unit) -> Vec<&'static str> {
    table(unit).iter().map(|(word, _)| *word).collect()
}

/// The unit that `word` names where the file has `unit`; blanks, points and hyphens in it do not matter.
pub(super) fn from_word(word: &str, unit: Unit) -> Option<Typed> {
    let plain = |text: &str| -> String {
        let kept = text
            .chars()
            .filter(|c| !c.is_whitespace() && !matches!(c, '.' | '-' | '·' | '*' | '⋅'));
        kept.flat_map(char::to_lowercase).collect()
    };
    let asked = plain(word);
    let known = table(unit).iter().find(|(word, _)| plain(word) == asked)?;
    Some(if known.1 == 1.0 { Typed::Own(unit) } else { Typed::Times(known.1) })
}

fn table(unit: Unit) -> &'static [(&'static str, f64)] {
    const LBF_FT: f64 = N_PER_LBF * MM_PER_FOOT / 1000.0;
    const LBF_IN: f64 = N_PER_LBF * MM_PER_INCH / 1000.0;
    match unit {
        Unit::Bare => &[(":1", 1.0), ("to 1", 1.0)],
        Unit::Millimetres => &[
            ("mm", 1.0),
            ("cm", 10.0),
            ("m", 1000.0),
            ("µm", 0.001),
            ("in", MM_PER_INCH),
            ("\"", MM_PER_INCH),
            ("″", MM_PER_INCH),
            ("inch", MM_PER_INCH),
            ("inches", MM_PER_INCH),
            ("Zoll", MM_PER_INCH),
            ("thou", MM_PER_INCH / 1000.0),
        ],
        Unit::Degrees => &[("°", 1.0), ("deg", 1.0), ("degrees", 1.0), ("Grad", 1.0)],
        Unit::Teeth => &[("teeth", 1.0), ("tooth", 1.0), ("T", 1.0), ("Z", 1.0), ("Zähne", 1.0)],
        Unit::CrankTurns => &[("turns", 1.0), ("turn", 1.0), ("Umdrehungen", 1.0)],
        Unit::Newtons => &[
            ("N", 1.0),
            ("kN", 1000.0),
            ("lbf", N_PER_LBF),
            ("lb", N_PER_LBF),
            ("kgf", N_PER_KGF),
            ("kp", N_PER_KGF),
        ],
        Unit::NewtonsPerMillimetre => &[
            ("N/mm", 1.0),
            ("N/m", 0.001),
            ("lbf/in", N_PER_LBF / MM_PER_INCH),
            ("lb/in", N_PER_LBF / MM_PER_INCH),
        ],
        Unit::NewtonMetres => &[
            ("N·m", 1.0),
            ("N·cm", 0.01),
            ("lbf·ft", LBF_FT),
            ("ft·lbf", LBF_FT),
            ("lb-ft", LBF_FT),
            ("ft-lb", LBF_FT),
            ("lbf·in", LBF_IN),
            ("in·lbf", LBF_IN),
            ("in-lb", LBF_IN),
            ("lb-in", LBF_IN),
            ("kgf·m", N_PER_KGF),
            ("kgf·cm", N_PER_KGF / 100.0),
        ],
        Unit::PoundForceFeet => &[
            ("lbf·ft", 1.0),
            ("ft·lbf", 1.0),
            ("lb-ft", 1.0),
            ("ft-lb", 1.0),
            ("lbf·in", 1.0 / 12.0),
            ("in-lb", 1.0 / 12.0),
            ("lb-in", 1.0 / 12.0),
            ("N·m", 1.0 / LBF_FT),
        ],
        Unit::PoundForceInches => &[
            ("lbf·in", 1.0),
            ("in·lbf", 1.0),
            ("in-lb", 1.0),
            ("lb-in", 1.0),
            ("lbf·ft", 12.0),
            ("ft-lb", 12.0),
            ("lb-ft", 12.0),
            ("N·m", 1.0 / LBF_IN),
        ],
        Unit::KilogramsPerMetre => {
            &[("kg/m", 1.0), ("g/m", 0.001), ("lb/ft", KG_PER_LB / (MM_PER_FOOT / 1000.0))]
        }
    }
}
