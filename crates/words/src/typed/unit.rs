//! Units that people type, and what one of each is in the unit of the file.
//!
//! Must not know: numbers or bounds. Factors are exact: NIST SP 811, Appendix B (inch, foot, pound,
//! pound-force, kilogram-force).

use crate::lang::Lang;
use crate::problem::unit_word;
use layout::Unit;

/// Millimetres in an inch, exactly.
pub(super) const MM_PER_INCH: f64 = 25.4;
const MM_PER_FOOT: f64 = 304.8;
/// Newtons in a pound-force, exactly.
const N_PER_LBF: f64 = 4.448_221_615_260_5;
/// Newtons in a kilogram-force, exactly.
const N_PER_KGF: f64 = 9.806_65;
/// Kilograms in a pound, exactly.
const KG_PER_LB: f64 = 0.453_592_37;
/// Newton metres in a pound-force foot.
const N_M_PER_LBF_FT: f64 = N_PER_LBF * MM_PER_FOOT / 1000.0;
/// Newton metres in a pound-force inch.
const N_M_PER_LBF_IN: f64 = N_PER_LBF * MM_PER_INCH / 1000.0;

/// A unit, all the ways in which it may be typed, and how many of the file's it is. The first way is the one
/// that is told.
type Known = (&'static [&'static str], f64);

/// The units that are understood where the file has `unit`, as they are told, its own first; none beside a bare
/// number, though a ratio may be said to be so many to one.
pub(super) fn words(lang: Lang, unit: Unit) -> Vec<&'static str> {
    let others = known(unit).iter().skip(1).filter_map(|(ways, _)| ways.first());
    let own = Some(unit_word(lang, unit, false)).filter(|_| unit != Unit::Bare);
    own.into_iter().chain(others.copied()).collect()
}

/// How many of the file's `unit` one `word` is; `None` where it is no unit of that kind. Case, blanks, points
/// and hyphens do not matter, nor the plural of pounds.
pub(super) fn factor(word: &str, unit: Unit) -> Option<f64> {
    let asked = bare(word);
    let called = |known: &&Known| known.0.iter().any(|way| bare(way) == asked);
    known(unit).iter().find(called).map(|(_, factor)| *factor)
}

fn bare(word: &str) -> String {
    let kept = word.chars().filter_map(|c| match c {
        '.' | '-' | '·' | '⋅' | '*' | '×' => None,
        '″' | '”' | '“' | '„' => Some('"'),
        c if c.is_whitespace() => None,
        c => Some(c),
    });
    let small: String = kept.flat_map(char::to_lowercase).collect();
    small.replace("''", "\"").replace("lbs", "lb")
}

const LBF_FT: &[&str] = &["lbf·ft", "ft·lbf", "lb-ft", "ft-lb"];
const LBF_IN: &[&str] = &["lbf·in", "in·lbf", "lb-in", "in-lb"];

fn known(unit: Unit) -> &'static [Known] {
    match unit {
        Unit::Bare => &[(&[":1", "to 1", "zu 1"], 1.0)],
        Unit::Millimetres => &[
            (&["mm"], 1.0),
            (&["cm"], 10.0),
            (&["m"], 1000.0),
            (&["µm", "μm"], 0.001),
            (&["in", "\"", "inch", "inches", "Zoll"], MM_PER_INCH),
            (&["ft", "foot", "feet", "Fuß"], MM_PER_FOOT),
            (&["thou"], MM_PER_INCH / 1000.0),
        ],
        Unit::Degrees => &[(&["°", "deg", "degree", "degrees", "Grad"], 1.0)],
        Unit::Teeth => &[(&["teeth", "tooth", "Zähne", "Zahn", "T", "Z"], 1.0)],
        Unit::CrankTurns => &[(
            &["turns", "turn", "crank turns", "Umdrehungen", "Umdrehung", "Kurbelumdrehungen", "U"],
            1.0,
        )],
        Unit::Newtons => &[
            (&["N"], 1.0),
            (&["kN"], 1000.0),
            (&["daN"], 10.0),
            (&["lbf", "lb", "pounds"], N_PER_LBF),
            (&["kgf", "kp"], N_PER_KGF),
        ],
        Unit::NewtonsPerMillimetre => &[
            (&["N/mm", "kN/m"], 1.0),
            (&["N/m"], 0.001),
            (&["N/cm"], 0.1),
            (&["lbf/in", "lb/in"], N_PER_LBF / MM_PER_INCH),
            (&["kgf/mm", "kp/mm"], N_PER_KGF),
        ],
        Unit::NewtonMetres => &[
            (&["N·m"], 1.0),
            (&["N·cm"], 0.01),
            (&["daN·m"], 10.0),
            (LBF_FT, N_M_PER_LBF_FT),
            (LBF_IN, N_M_PER_LBF_IN),
            (&["kgf·m", "kp·m", "m·kgf", "m·kp"], N_PER_KGF),
            (&["kgf·cm", "kp·cm", "cm·kgf"], N_PER_KGF / 100.0),
        ],
        Unit::PoundForceFeet => {
            &[(LBF_FT, 1.0), (LBF_IN, 1.0 / 12.0), (&["N·m"], 1.0 / N_M_PER_LBF_FT)]
        }
        Unit::PoundForceInches => {
            &[(LBF_IN, 1.0), (LBF_FT, 12.0), (&["N·m"], 1.0 / N_M_PER_LBF_IN)]
        }
        Unit::KilogramsPerMetre => &[
            (&["kg/m", "g/mm"], 1.0),
            (&["g/m"], 0.001),
            (&["g/cm"], 0.1),
            (&["lb/ft"], KG_PER_LB / (MM_PER_FOOT / 1000.0)),
            (&["lb/in"], KG_PER_LB / (MM_PER_INCH / 1000.0)),
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Unit; 11] = [
        Unit::Bare,
        Unit::Millimetres,
        Unit::Degrees,
        Unit::Teeth,
        Unit::CrankTurns,
        Unit::Newtons,
        Unit::NewtonsPerMillimetre,
        Unit::NewtonMetres,
        Unit::PoundForceFeet,
        Unit::PoundForceInches,
        Unit::KilogramsPerMetre,
    ];

    /// NIST SP 811, Appendix B. To the digits printed there: inch, foot, mil (a thou), pound-force, kilogram-force and
    /// kilopond, pound-force foot, pound-force inch, kilogram-force metre, pound-force per inch, pound per
    /// foot, pound per inch.
    #[test]
    fn factors_are_those_of_nist_sp_811() {
        for (word, unit, printed, places) in [
            ("in", Unit::Millimetres, 25.4, 1e-15),
            ("ft", Unit::Millimetres, 304.8, 1e-15),
            ("thou", Unit::Millimetres, 0.0254, 1e-15),
            ("lbf", Unit::Newtons, 4.448_222, 2e-7),
            ("kgf", Unit::Newtons, 9.806_65, 1e-15),
            ("kp", Unit::Newtons, 9.806_65, 1e-15),
            ("lbf·ft", Unit::NewtonMetres, 1.355_818, 4e-7),
            ("lbf·in", Unit::NewtonMetres, 0.112_984_8, 4e-7),
            ("kgf·m", Unit::NewtonMetres, 9.806_65, 1e-15),
            ("lbf/in", Unit::NewtonsPerMillimetre, 0.175_126_8, 4e-7),
            ("lb/ft", Unit::KilogramsPerMetre, 1.488_164, 4e-7),
            ("lb/in", Unit::KilogramsPerMetre, 17.857_97, 4e-7),
        ] {
            let factor = factor(word, unit).unwrap();
            assert!((factor / printed - 1.0).abs() <= places, "{word}: {factor}");
        }
        // By the definitions, to all digits.
        let near = |word, unit, exact: f64| {
            let factor = factor(word, unit).unwrap();
            assert!((factor - exact).abs() < 1e-13, "{word}: {factor}");
        };
        near("lbf·ft", Unit::NewtonMetres, 1.355_817_948_331_4);
        near("lbf·in", Unit::NewtonMetres, 0.112_984_829_027_6);
        near("lbf", Unit::Newtons, 4.448_221_615_260_5);
    }

    #[test]
    fn every_unit_is_typed_as_it_is_told_and_means_one_thing() {
        for unit in ALL {
            for word in Lang::ALL.into_iter().flat_map(|lang| words(lang, unit)) {
                assert!(factor(word, unit).is_some(), "{word}");
            }
            for own in Lang::ALL.map(|lang| words(lang, unit).first().copied()) {
                assert!(own.is_none_or(|own| factor(own, unit) == Some(1.0)), "{own:?}");
            }
            let ways: Vec<String> =
                known(unit).iter().flat_map(|(ways, _)| ways.iter().map(|way| bare(way))).collect();
            for (i, way) in ways.iter().enumerate() {
                assert!(!ways[..i].contains(way) && !way.is_empty(), "{way}");
            }
        }
        // What a moment is in one unit it is in the other.
        for (word, unit) in [("lbf·in", Unit::PoundForceFeet), ("N·m", Unit::PoundForceInches)] {
            let there = if unit == Unit::PoundForceFeet { "lbf·ft" } else { "lbf·in" };
            let through = factor(word, Unit::NewtonMetres).unwrap()
                / factor(there, Unit::NewtonMetres).unwrap();
            assert!((factor(word, unit).unwrap() / through - 1.0).abs() < 1e-15, "{word}");
        }
    }

    #[test]
    fn spelt_as_people_do() {
        let same = |ways: &[&str], unit, as_told| {
            for way in ways {
                assert_eq!(factor(way, unit), factor(as_told, unit), "{way}");
            }
        };
        same(&["in-lb", "in. lbs.", "LBF IN", "inlbs", "lbf*in"], Unit::NewtonMetres, "lbf·in");
        same(&["ft-lbs", "lb. ft", "lbf ft", "ft⋅lbf"], Unit::NewtonMetres, "lbf·ft");
        same(&["Nm", "N m", "N*m", "n·m"], Unit::NewtonMetres, "N·m");
        same(&["”", "''", "Inch", "ZOLL", "in."], Unit::Millimetres, "in");
        assert_eq!(factor("ft/lb", Unit::NewtonMetres), None);
        assert_eq!(factor("kg", Unit::Newtons), None);
        assert_eq!(factor("in", Unit::NewtonMetres), None);
        assert_eq!(factor("", Unit::Millimetres), None);
    }
}
