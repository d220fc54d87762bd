//! Why something was not done, in a sentence or two.
//!
//! Must not know: by what it was asked for, a drag or a command.

use crate::lang::Lang;
use crate::problem::{amount, bare_list, quoted, range};
use job::Refusal;
use layout::Unit;

/// Why an action was refused, and what would not be; always in one line.
///
/// ```
/// let refusal = job::Refusal::OutOfRange { found: 30.0, least: -24.0, most: 24.0, unit: "teeth" };
/// let told = words::refusal(words::Lang::En, &refusal);
/// assert_eq!(told.replace('\u{a0}', " "), "30 teeth is too far; it may be −24 to 24 teeth.");
/// ```
pub fn refusal(lang: Lang, refusal: &Refusal) -> String {
    let and = lang.pick("and", "und");
    match refusal {
        Refusal::NoSuchShaft { found, shafts } => {
            let (found, shafts) = (quoted(lang, found), bare_list(shafts, and));
            match lang {
                Lang::En => format!("There is no wheel {found}. The shafts are {shafts}."),
                Lang::De => format!("Es gibt kein Rad {found}. Die Wellen sind {shafts}."),
            }
        }
        Refusal::NotTimed { found, timed } => {
            let (found, timed) = (quoted(lang, found), bare_list(timed, and));
            match lang {
                Lang::En => {
                    format!("{found} has no mark, so it cannot be teeth out. With marks: {timed}.")
                }
                Lang::De => format!(
                    "{found} hat keine Markierung und kann nicht um Zähne versetzt stehen. Markierungen haben {timed}."
                ),
            }
        }
        Refusal::NotASprocket { found, shafts } => {
            let (found, shafts) = (quoted(lang, found), bare_list(shafts, and));
            match lang {
                Lang::En => format!(
                    "{found} is a smooth wheel; turning it moves nothing. The belt's teeth turn {shafts}."
                ),
                Lang::De => format!(
                    "{found} ist ein glattes Rad; es zu drehen bewegt nichts. Verzahnt sind {shafts}."
                ),
            }
        }
        Refusal::IsHeld { found } => {
            let found = quoted(lang, found);
            match lang {
                Lang::En => format!("{found} is held. Let it go first."),
                Lang::De => format!("{found} ist gehalten. Erst loslassen."),
            }
        }
        Refusal::IsNotHeld { found } => {
            let found = quoted(lang, found);
            match lang {
                Lang::En => format!("Nothing holds {found}, so there is nothing to let go."),
                Lang::De => format!("{found} hält nichts; es gibt nichts loszulassen."),
            }
        }
        Refusal::DoesNotFloat { found, floating } => does_not_float(lang, found, floating),
        Refusal::BeltIsOff => lang
            .pick("The belt is off. Put it on first.", "Der Riemen ist ab. Erst auflegen.")
            .to_owned(),
        Refusal::NoRoom { slack_mm, needs_mm, fully_back } => {
            let (slack, needs) = (lang.number(*slack_mm, 1), lang.number(*needs_mm, 1));
            match lang {
                Lang::En if *fully_back => format!(
                    "Even fully back the tensioner frees {slack}\u{a0}mm of belt only, and its teeth clear a sprocket's grooves with {needs}\u{a0}mm at the least: this belt comes neither off nor on so. Look at the travel in the layout."
                ),
                Lang::De if *fully_back => format!(
                    "Auch ganz zurück gibt die Spannrolle nur {slack}\u{a0}mm Riemen frei; frühestens mit {needs}\u{a0}mm kommen seine Zähne aus den Lücken eines Rads. So geht dieser Riemen weder ab noch auf: den Weg im Layout prüfen."
                ),
                Lang::En => format!(
                    "The belt has {slack}\u{a0}mm of slack, and its teeth clear a sprocket's grooves with {needs}\u{a0}mm at the least. Draw the tensioner back first."
                ),
                Lang::De => format!(
                    "Der Riemen hat {slack}\u{a0}mm lose Länge; frühestens mit {needs}\u{a0}mm kommen seine Zähne aus den Lücken eines Rads. Erst die Spannrolle zurückziehen."
                ),
            }
        }
        Refusal::NoSuchCount { found, counts } => {
            let (found, counts) = (quoted(lang, found), bare_list(counts, and));
            match lang {
                Lang::En => format!("No teeth are counted over {found}. It may be {counts}."),
                Lang::De => format!("Über {found} wird nicht gezählt. Möglich sind {counts}."),
            }
        }
        Refusal::CountsDoNotSum { sum, belt } => {
            let (sum, belt) = (lang.teeth(*sum as f64, 0), lang.teeth(*belt as f64, 0));
            match lang {
                Lang::En => format!("These counts come to {sum}; the belt has {belt}."),
                Lang::De => format!("Zusammen sind das {sum}; der Riemen hat {belt}."),
            }
        }
        Refusal::DoesNotReach { from, to, teeth } => {
            let (from, to) = (quoted(lang, from), quoted(lang, to));
            let short = lang.teeth(*teeth, 1);
            match lang {
                Lang::En => format!(
                    "As the shafts stand, the belt from {from} to {to} is {short} short. Turn a shaft towards its mark, or hang more teeth there."
                ),
                Lang::De => format!(
                    "So wie die Wellen stehen, fehlen dem Riemen von {from} nach {to} {short}. Eine Welle zu ihrer Markierung drehen oder dort mehr Zähne auflegen."
                ),
            }
        }
        Refusal::OutOfRange { found, least, most, unit } => {
            let unit = unit_of(unit);
            if found.is_nan() {
                let allowed = range(lang, *least, *most, unit);
                return match lang {
                    Lang::En => format!("NaN is no number; it may be {allowed}."),
                    Lang::De => format!("NaN ist keine Zahl; möglich sind {allowed}."),
                };
            }
            let (found, allowed) = (amount(lang, *found, unit), range(lang, *least, *most, unit));
            match lang {
                Lang::En => format!("{found} is too far; it may be {allowed}."),
                Lang::De => format!("{found}: das ist zu weit; möglich sind {allowed}."),
            }
        }
    }
}

fn does_not_float(lang: Lang, found: &str, floating: &[String]) -> String {
    let found = quoted(lang, found);
    let others = bare_list(floating, lang.pick("and", "und"));
    match (lang, floating.is_empty()) {
        (Lang::En, true) => {
            format!("The sprocket {found} is keyed to its shaft, and so are all others here.")
        }
        (Lang::En, false) => {
            format!("The sprocket {found} is keyed to its shaft. With slots or a taper: {others}.")
        }
        (Lang::De, true) => {
            format!("Das Rad {found} sitzt fest auf seiner Welle, wie alle anderen hier.")
        }
        (Lang::De, false) => format!(
            "Das Rad {found} sitzt fest auf seiner Welle. Mit Langlöchern oder Kegel: {others}."
        ),
    }
}

/// The unit that a refusal names.
fn unit_of(name: &str) -> Unit {
    match name {
        "deg" => Unit::Degrees,
        "mm" => Unit::Millimetres,
        "teeth" => Unit::Teeth,
        _ => Unit::Bare,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(lang: Lang, r: &Refusal) -> String {
        refusal(lang, r).replace('\u{a0}', " ")
    }

    #[test]
    fn every_refusal_says_what_would_do() {
        let ids = || vec!["crank".to_owned(), "cam_left".to_owned(), "cam_right".to_owned()];
        let far = |found, unit| Refusal::OutOfRange { found, least: -24.0, most: 24.0, unit };
        for lang in Lang::ALL {
            for (refusal, says) in [
                (Refusal::NoSuchShaft { found: "cam_lef".into(), shafts: ids() }, "cam_lef"),
                (Refusal::NotTimed { found: "idler".into(), timed: ids() }, "idler"),
                (Refusal::NotASprocket { found: "idler".into(), shafts: ids() }, "cam_right"),
                (Refusal::IsHeld { found: "crank".into() }, "crank"),
                (Refusal::IsNotHeld { found: "crank".into() }, "crank"),
                (Refusal::DoesNotFloat { found: "crank".into(), floating: ids() }, "cam_left"),
                (Refusal::DoesNotFloat { found: "crank".into(), floating: vec![] }, "crank"),
                (Refusal::BeltIsOff, "."),
                (Refusal::NoRoom { slack_mm: 0.0, needs_mm: 3.21, fully_back: false }, " mm"),
                (Refusal::NoRoom { slack_mm: 0.0, needs_mm: 3.21, fully_back: true }, " mm"),
                (Refusal::NoSuchCount { found: "a>b".into(), counts: ids() }, "cam_left"),
                (Refusal::CountsDoNotSum { sum: 170, belt: 173 }, "173 "),
                (
                    Refusal::DoesNotReach { from: "crank".into(), to: "cam".into(), teeth: 2.25 },
                    "cam",
                ),
                (far(30.0, "teeth"), "30 "),
                (far(-30.5, "mm"), " mm"),
                (far(f64::INFINITY, "deg"), "24°"),
                (far(f64::NAN, "deg"), "NaN"),
            ] {
                let told = plain(lang, &refusal);
                assert!(told.contains(says) && told.ends_with('.'), "{told}");
                assert!(!told.contains("  ") && !told.contains('{'), "{told}");
            }
        }
    }

    #[test]
    fn exact_sentences() {
        let ids = vec!["crank".to_owned(), "cam_left".to_owned()];
        let none = Refusal::NoSuchShaft { found: "cam\nlef".into(), shafts: ids };
        assert_eq!(
            plain(Lang::En, &none),
            "There is no wheel “cam\u{fffd}lef”. The shafts are crank and cam_left."
        );
        assert_eq!(
            plain(Lang::De, &none),
            "Es gibt kein Rad „cam\u{fffd}lef“. Die Wellen sind crank und cam_left."
        );
    }
}
