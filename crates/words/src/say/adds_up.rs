//! Whether a layout adds up, in words: the misfit, and what would explain it. Never a verdict beyond what was
//! worked out.
//!
//! Must not know: how a slip was found.

use crate::lang::{Lang, Reader};
use crate::start::camshaft_ratio;
use crate::written::written;
use advice::{AddsUp, CamshaftTeeth, Cause, Mistyped, Slip};
use layout::Layout;

/// A slip that leaves less than this over fits: it reads as none, teeth.
const FITS_TEETH: f64 = 0.05;

/// How belt and path compare, in a sentence or two.
pub fn misfit(reader: Reader, answer: &AddsUp) -> String {
    let lang = reader.lang;
    let belt = lang.teeth(f64::from(answer.belt_teeth), 0);
    let (Some(path), Some(teeth), Some(mm)) =
        (answer.path_teeth, answer.misfit_teeth, answer.misfit_mm)
    else {
        return lang
            .pick(
                "No belt goes round these wheels as they stand, so there is no path to compare it with.",
                "Um diese Räder geht so kein Riemen; es gibt keinen Weg, mit dem er zu vergleichen wäre.",
            )
            .to_owned();
    };
    let (path, off) = (lang.teeth(path, 1), lang.teeth(teeth.abs(), 1));
    let mm = reader.length(mm.abs());
    let mut told = match (lang, answer.adds_up, teeth > 0.0) {
        (Lang::En, true, _) => format!(
            "It adds up: with the tensioner where it is bolted up the path is {path} long, and the belt has {belt}."
        ),
        (Lang::De, true, _) => format!(
            "Es geht auf: Mit der Spannrolle dort, wo sie angeschraubt wird, ist der Weg {path} lang, und der Riemen hat {belt}."
        ),
        (Lang::En, false, long) => format!(
            "With the tensioner where it is bolted up the path is {path} long, and the belt has {belt}: it is {off} ({mm}) too {}.",
            if long { "long" } else { "short" }
        ),
        (Lang::De, false, long) => format!(
            "Mit der Spannrolle dort, wo sie angeschraubt wird, ist der Weg {path} lang, und der Riemen hat {belt}: Er ist um {off} ({mm}) zu {}.",
            if long { "lang" } else { "kurz" }
        ),
    };
    if let (false, Some([least, most])) = (answer.adds_up, answer.fits_teeth) {
        let within = (least..=most).contains(&answer.belt_teeth);
        let [least, most] = [least, most].map(|teeth| lang.number(f64::from(teeth), 0));
        told += match (lang, within) {
            (Lang::En, true) => {
                " The tensioner's travel could take that up, but the tensioner would then stand elsewhere than where the layout has it bolted up."
            }
            (Lang::De, true) => {
                " Der Weg der Spannrolle könnte das aufnehmen, nur stünde sie dann anderswo, als das Layout sie anschrauben lässt."
            }
            (_, false) => "",
        };
        told += &match (lang, least == most) {
            (Lang::En, true) => {
                format!(" Over its travel the tensioner takes up a belt of {most} teeth.")
            }
            (Lang::En, false) => {
                format!(" Over its travel the tensioner takes up belts of {least} to {most} teeth.")
            }
            (Lang::De, true) => {
                format!(" Über ihren Weg nimmt die Spannrolle einen Riemen mit {most} Zähnen auf.")
            }
            (Lang::De, false) => {
                format!(
                    " Über ihren Weg nimmt die Spannrolle Riemen mit {least} bis {most} Zähnen auf."
                )
            }
        };
    }
    told
}

/// What stands at the dashed way of a belt that cannot be hung, `misfit_mm` longer than it.
pub fn unhung(reader: Reader, misfit_mm: Option<f64>, pitch_mm: f64) -> String {
    let lang = reader.lang;
    let Some(mm) = misfit_mm else {
        return lang
            .pick("No belt goes round the wheels so.", "Um die Räder geht so kein Riemen.")
            .to_owned();
    };
    let teeth = mm.abs() / pitch_mm;
    if teeth < 0.05 {
        return lang
            .pick(
                "Dashed, with the tensioner bolted up: the belt is long enough, and still cannot run so.",
                "Gestrichelt, die Spannrolle angeschraubt: Der Riemen ist lang genug und kann so doch nicht laufen.",
            )
            .to_owned();
    }
    let (teeth, off) = (lang.teeth(teeth, 1), reader.length(mm.abs()));
    match lang {
        Lang::En => format!(
            "Dashed, with the tensioner bolted up: the belt is {teeth} ({off}) too {}.",
            if mm > 0.0 { "long" } else { "short" }
        ),
        Lang::De => format!(
            "Gestrichelt, die Spannrolle angeschraubt: Der Riemen ist um {teeth} ({off}) zu {}.",
            if mm > 0.0 { "lang" } else { "kurz" }
        ),
    }
}

/// The counts that differ from the centres by more than half a tooth, a sentence each.
pub fn count_misfits(lang: Lang, layout: &Layout, answer: &AddsUp) -> Vec<String> {
    let name = |id: &str| {
        let wheel = layout.wheels.iter().position(|wheel| wheel.id == id);
        wheel.map_or("", |wheel| name(lang, layout, wheel))
    };
    let off = answer.counts.iter().filter(|c| c.misfit_teeth.abs() >= advice::HALF_A_TOOTH);
    off.map(|count| {
        let (from, to) = (name(&count.from), name(&count.to));
        let counted = f64::from(count.counted_teeth);
        let centres = lang.teeth(counted - count.misfit_teeth, 1);
        let counted = lang.teeth(counted, 0);
        match lang {
            Lang::En => format!("{from} to {to}: counted {counted}, by the centres {centres}."),
            Lang::De => {
                format!("{from} bis {to}: gezählt {counted}, nach den Mittelpunkten {centres}.")
            }
        }
    })
    .collect()
}

/// The whole answer, a sentence or two in each line: the misfit, counts that differ, camshafts that do not turn
/// as they must, the likeliest causes.
pub fn adds_up_lines(
    reader: Reader,
    layout: &Layout,
    answer: &AddsUp,
    causes: usize,
) -> Vec<String> {
    let lang = reader.lang;
    let mut lines = vec![misfit(reader, answer)];
    lines.extend(count_misfits(lang, layout, answer));
    lines.extend(camshaft_lines(lang, layout, &answer.camshafts_out));
    lines.extend(answer.causes.iter().take(causes).map(|each| cause(lang, layout, each)));
    lines
}

fn name(lang: Lang, layout: &Layout, wheel: usize) -> &str {
    layout.wheels.get(wheel).map_or("", |wheel| written(lang, &wheel.name))
}

/// What would explain it: `Idler on the belt's back: then everything would fit to 0.3 of a tooth.`
pub fn cause(lang: Lang, layout: &Layout, cause: &Cause) -> String {
    let fits = lang.teeth_off(cause.fits_to_teeth);
    let guess = slip(lang, layout, cause.slip);
    match (lang, cause.fits_to_teeth < FITS_TEETH) {
        (Lang::En, true) => format!("{guess}: then everything would fit."),
        (Lang::En, false) => format!("{guess}: then everything would fit to {fits}."),
        (Lang::De, true) => format!("{guess}: Dann würde alles passen."),
        (Lang::De, false) => format!("{guess}: Dann würde alles auf {fits} genau passen."),
    }
}

/// Camshaft sprockets that do not have twice the crank's teeth, a line each.
pub fn camshaft_lines(lang: Lang, layout: &Layout, out: &[CamshaftTeeth]) -> Vec<String> {
    let line = |out: &CamshaftTeeth| {
        let wheel = layout.wheels.iter().position(|wheel| wheel.id == out.wheel);
        let name = wheel.map_or("", |wheel| name(lang, layout, wheel));
        format!("{name}: {}", camshaft_ratio(lang, out))
    };
    out.iter().map(line).collect()
}

fn slip(lang: Lang, layout: &Layout, slip: Slip) -> String {
    let name = |wheel: usize| name(lang, layout, wheel);
    let teeth = |teeth: u32| lang.teeth(f64::from(teeth), 0);
    let with_teeth = |teeth: u32| lang.teeth_dative(f64::from(teeth), 0);
    match slip {
        Slip::Face { wheel, back } => {
            let name = name(wheel);
            match (lang, back) {
                (Lang::En, true) => format!("{name} on the belt's back"),
                (Lang::En, false) => format!("{name} on the belt's toothed face"),
                (Lang::De, true) => format!("{name} auf dem Rücken des Riemens"),
                (Lang::De, false) => format!("{name} auf der Zahnseite des Riemens"),
            }
        }
        Slip::BeltTeeth { teeth: z, .. } => match lang {
            Lang::En => format!("A belt of {}", teeth(z)),
            Lang::De => format!("Ein Riemen mit {}", with_teeth(z)),
        },
        Slip::SprocketTeeth { wheel, teeth: z } => match lang {
            Lang::En => format!("{} with {}", name(wheel), teeth(z)),
            Lang::De => format!("{} mit {}", name(wheel), with_teeth(z)),
        },
        Slip::Count { count, teeth: z } => {
            let ends = layout.counts.get(count).map(|count| (name(count.from), name(count.to)));
            let (from, to) = ends.unwrap_or_default();
            match lang {
                Lang::En => format!("From {from} to {to} {} counted", teeth(z)),
                Lang::De => format!("Von {from} bis {to} {} gezählt", teeth(z)),
            }
        }
        Slip::Diameter { wheel, outside_diameter_mm } => {
            let (name, mm) = (name(wheel), lang.exact(outside_diameter_mm));
            match lang {
                Lang::En => {
                    format!(
                        "{name} {mm}\u{a0}mm across (a radius for a diameter, or the other way)"
                    )
                }
                Lang::De => format!(
                    "{name} mit {mm}\u{a0}mm Durchmesser (Radius und Durchmesser verwechselt)"
                ),
            }
        }
        Slip::Centre { wheel, how, at_mm: [x, y] } => {
            let what = match wheel {
                Some(wheel) => name(wheel),
                None => lang.pick("The tensioner's pivot", "Der Drehpunkt der Spannrolle"),
            };
            let (x, y) = (lang.exact(x), lang.exact(y));
            let how = mistyped(lang, how);
            match lang {
                Lang::En => format!("{what} at x {x}, y {y}\u{a0}mm ({how})"),
                Lang::De => format!("{what} bei x {x}, y {y}\u{a0}mm ({how})"),
            }
        }
        Slip::Order { wheel } => {
            let (first, then) = (name(wheel + 1), name(wheel));
            match lang {
                Lang::En => format!("The belt meeting {first} before {then}"),
                Lang::De => format!("Erst {first}, dann {then} im Lauf des Riemens"),
            }
        }
        Slip::Pitch { pitch_mm } => {
            let mm = lang.exact(pitch_mm);
            match lang {
                Lang::En => format!("A belt of {mm}\u{a0}mm pitch"),
                Lang::De => format!("Ein Riemen mit {mm}\u{a0}mm Teilung"),
            }
        }
        Slip::Tightening => lang
            .pick("The tensioner tightening the other way", "Die Spannrolle andersherum spannend")
            .to_owned(),
    }
}

const fn mistyped(lang: Lang, how: Mistyped) -> &'static str {
    match how {
        Mistyped::Sign => lang.pick("a sign", "ein Vorzeichen"),
        Mistyped::Swapped => lang.pick("x and y exchanged", "x und y vertauscht"),
        Mistyped::Digits => lang.pick("two digits exchanged", "zwei Ziffern vertauscht"),
        Mistyped::Nought => lang.pick("a nought out of place", "eine Null verrutscht"),
        Mistyped::Decimal => lang.pick("the decimal point out of place", "das Komma verrutscht"),
        Mistyped::Hundred => lang.pick("a hundred off", "um hundert daneben"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use layout::Sketch;

    const SHIPPED: &str = include_str!("../../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

    fn told(lang: Lang, from: &str, to: &str) -> Vec<String> {
        assert!(SHIPPED.contains(from));
        let text = SHIPPED.replacen(from, to, 1);
        let (layout, answer) = (Sketch::of(&text).unwrap().layout, advice::adds_up(&text).unwrap());
        let reader = Reader { lang, ..Reader::default() };
        adds_up_lines(reader, &layout, &answer, 1)
            .into_iter()
            .map(|line| line.replace('\u{a0}', " "))
            .collect()
    }

    #[test]
    fn a_camshaft_that_turns_wrong_is_told_and_its_slip_comes_first() {
        for lang in Lang::ALL {
            let lines = told(lang, "teeth = 48", "teeth = 47");
            let all = lines.join("|");
            assert!(all.contains("48, ") && all.contains("47 "), "{all}");
            assert!(!all.contains("49 "), "{all}");
        }
        let en = told(Lang::En, "teeth = 48", "teeth = 47");
        let ratio = "Left camshaft: A camshaft turns once for two turns of the crank: with 24 teeth there it has 48, not 47 teeth.";
        assert!(en.iter().any(|line| line.starts_with(ratio)), "{en:?}");
        let last = en.last().unwrap();
        assert!(
            last.starts_with("Left camshaft with 48 teeth: then everything would fit"),
            "{en:?}"
        );
        let de = told(Lang::De, "teeth = 48", "teeth = 47");
        assert!(de.last().unwrap().contains("mit 48 Zähnen: Dann würde alles"), "{de:?}");
    }

    #[test]
    fn what_fits_to_nothing_fits() {
        let text = SHIPPED.replacen("teeth = 173", "teeth = 174", 1);
        let layout = Sketch::of(&text).unwrap().layout;
        let mut cause = advice::adds_up(&text).unwrap().causes.remove(0);
        cause.fits_to_teeth = 0.04;
        assert!(super::cause(Lang::En, &layout, &cause).ends_with("everything would fit."));
        assert!(super::cause(Lang::De, &layout, &cause).ends_with("Dann würde alles passen."));
    }

    #[test]
    fn a_misfit_and_what_would_explain_it() {
        let long = told(Lang::En, "teeth = 173", "teeth = 174");
        assert!(
            long[0].contains("it is 1.1 teeth (10.") && long[0].contains("too long"),
            "{long:?}"
        );
        assert!(long[1].starts_with("A belt of 173 teeth: then everything would fit"), "{long:?}");
        let turned = told(Lang::De, "at_mm = [6.0, 240.0]", "at_mm = [240.0, 6.0]");
        assert!(turned[1].starts_with("Wasserpumpe bei x 6, y 240 mm (x und y vertauscht): Dann"));
        // A belt within what the tensioner takes up is not told as if it could not be one of them.
        let short = told(Lang::En, "teeth = 173", "teeth = 172");
        assert!(short[0].contains("could take that up, but"), "{short:?}");
        let right = told(Lang::En, "teeth = 173", "teeth = 173");
        assert!(right.len() == 1 && right[0].starts_with("It adds up"), "{right:?}");
    }
}
