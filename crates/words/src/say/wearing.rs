//! What wheels and belt go through until the belt is due, in words.
//!
//! Must not know: how it was worked out.

use crate::command::{out_of_bounds, range_turned};
use crate::lang::Lang;
use advice::{Assumption, Wearing};

/// A very large count as a range of millions, to two digits: `250 to 500 million`.
pub fn millions(lang: Lang, range: [f64; 2]) -> String {
    let numbers = crate::say::turns_range(lang, range.map(|count| count / 1e6));
    match lang {
        Lang::En => format!("{numbers} million"),
        Lang::De => format!("{numbers} Millionen"),
    }
}

/// An assumption by its name, and the unit that it is typed in; it may have none.
pub const fn assumption(lang: Lang, assumption: Assumption) -> (&'static str, &'static str) {
    match assumption {
        Assumption::CrankTurnsPerKm => {
            (lang.pick("Crank turns in a kilometre", "Kurbelumdrehungen je Kilometer"), "")
        }
        Assumption::DueKm => {
            (lang.pick("The belt is due after", "Der Riemen ist fällig nach"), "km")
        }
        Assumption::Rpm => (lang.pick("Crank speed", "Drehzahl"), lang.pick("rpm", "U/min")),
        Assumption::FrictionBack => (
            lang.pick("Friction of the belt's back, seized", "Reibungszahl des Rückens, Rad fest"),
            "",
        ),
        Assumption::FrictionToothed => {
            (lang.pick("Friction of its teeth, seized", "Reibungszahl der Zähne, Rad fest"), "")
        }
    }
}

/// Why an assumption cannot be so.
pub fn assumption_refused(lang: Lang, which: Assumption, range: [f64; 2]) -> String {
    let bounds = which.bounds();
    let beyond = range.iter().find(|x| !(bounds[0]..=bounds[1]).contains(*x));
    match beyond {
        Some(x) if x.is_nan() => {
            lang.pick("Two numbers are needed.", "Es braucht zwei Zahlen.").to_owned()
        }
        Some(x) => out_of_bounds(lang, *x, bounds, assumption(lang, which).1),
        None => range_turned(lang, range[0], range[1]),
    }
}

/// What all of it rests on.
pub fn wearing_assumes(lang: Lang, wearing: &Wearing) -> String {
    let assumed = &wearing.assumed;
    let crank = lang.range(assumed.crank_turns_per_km, |turns| lang.number(turns, 0));
    let rpm = lang.range(assumed.rpm, |rpm| lang.number(rpm, 0));
    let mu = lang.range(assumed.friction_back, |mu| lang.number(mu, 2));
    let km = lang.range(wearing.assumptions.of(Assumption::DueKm), |km| lang.number(km, 0));
    if wearing.provisional {
        return match lang {
            Lang::En => format!(
                "Estimates: {crank} crank turns in a kilometre, a belt due after {km} km (an assumption). This layout is provisional: its spring, its smooth wheels and where all stand are made up, so loads, friction, heat and how often a smooth wheel turns are not told."
            ),
            Lang::De => format!(
                "Schätzungen: {crank} Kurbelumdrehungen je Kilometer, ein Riemen fällig nach {km} km (eine Annahme). Dieses Layout ist vorläufig: Seine Feder, seine glatten Räder und wo alle stehen, ist erfunden; Lasten, Reibung, Hitze und wie oft ein glattes Rad sich dreht, werden darum nicht gesagt."
            ),
        };
    }
    match lang {
        Lang::En => format!(
            "Estimates: {crank} crank turns in a kilometre, a belt due after {km} km (an assumption), seized wheels at {rpm} rpm with a coefficient of friction of {mu}. None of it says that a belt or a bearing is fit to run on."
        ),
        Lang::De => format!(
            "Schätzungen: {crank} Kurbelumdrehungen je Kilometer, ein Riemen fällig nach {km} km (eine Annahme), feste Räder bei {rpm} U/min mit einer Reibungszahl von {mu}. Nichts davon sagt, dass ein Riemen oder Lager weiterlaufen darf."
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn millions_are_told_to_two_digits() {
        assert_eq!(millions(Lang::En, [248.3e6, 496.7e6]), "250 to 500 million");
        assert_eq!(millions(Lang::De, [83.0e6, 83.0e6]), "83 Millionen");
    }
}
