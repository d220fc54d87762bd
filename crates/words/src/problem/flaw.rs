//! Drives that cannot be, told in the names that people gave to their wheels.
//!
//! Says what was computed and what to look at, never which of these is the culprit.
//!
//! Must not know: how the geometry was found.

use super::quoted;
use crate::lang::Lang;
use crate::number::NBSP;
use crate::written::written;
use drive::{Angle, Flaw, When};
use layout::TravelUnit;

/// The drive that a flaw is in.
pub(super) struct Setting<'a> {
    /// What people call the wheels, by index.
    pub names: &'a [String],
    /// What a belt tooth is as a length, mm.
    pub pitch_mm: f64,
    /// The unit of the tensioner's travel in the file.
    pub travel_unit: TravelUnit,
}

/// Why no belt could run so.
pub(super) fn flaw(lang: Lang, flaw: &Flaw, setting: &Setting) -> String {
    let names = setting.names;
    let with_teeth = |mm: f64| {
        let teeth = lang.teeth(mm / setting.pitch_mm, 1);
        format!("{}{NBSP}mm ({teeth})", lang.tenths(mm))
    };
    let name = |i: usize| names.get(i).map_or("", |name| written(lang, name));
    let wheel = |i: usize| match lang {
        Lang::En => format!("the {}", super::place::clean(name(i))),
        Lang::De => quoted(lang, name(i)),
    };
    let next = |i: usize| if i + 1 < names.len() { i + 1 } else { 0 };
    let mm = |mm: f64| format!("{}{NBSP}mm", lang.tenths(mm));
    let sentence = match *flaw {
        Flaw::NoTangent { from, to } => {
            let (from, to) = (wheel(from), wheel(to));
            match lang {
                Lang::En => format!(
                    "the belt cannot get from {from} to {to}: they overlap or one lies inside the other. Check where both stand and how large they are."
                ),
                Lang::De => format!(
                    "Der Riemen kommt nicht von {from} nach {to}: Sie überdecken sich oder eines liegt im anderen. Lage und Größe beider prüfen."
                ),
            }
        }
        Flaw::NotTouched { wheel: i, missed_by_rad, when } => {
            not_touched(lang, &wheel(i), missed_by_rad, when)
        }
        Flaw::Overlap { a, b, by_mm } => {
            let (a, b, by) = (wheel(a), wheel(b), mm(by_mm));
            match lang {
                Lang::En => format!(
                    "{a} and {b} would have to be {by} farther apart, the belt on them counted in. Check where both stand and how large they are."
                ),
                Lang::De => format!(
                    "{a} und {b} müssten {by} weiter auseinander stehen, den Riemen auf ihnen mitgerechnet. Lage und Größe beider prüfen."
                ),
            }
        }
        Flaw::SpanThroughWheel { from, to, wheel: i, by_mm } => {
            let (from, to, i, by) = (wheel(from), wheel(to), wheel(i), mm(by_mm));
            match lang {
                Lang::En => format!(
                    "the span from {from} to {to} would pass through {i}, {by} deep. Check where the three stand and the order of the wheels."
                ),
                Lang::De => format!(
                    "Das Trum von {from} nach {to} ginge durch {i}, {by} tief. Lage der drei und Reihenfolge der Räder prüfen."
                ),
            }
        }
        Flaw::SpansCross { a, b } => {
            let (a, after_a, b, after_b) = (wheel(a), wheel(next(a)), wheel(b), wheel(next(b)));
            match lang {
                Lang::En => format!(
                    "the span from {a} to {after_a} crosses the span from {b} to {after_b}. Check the order of the wheels and the face that runs on each."
                ),
                Lang::De => format!(
                    "Das Trum von {a} nach {after_a} kreuzt das Trum von {b} nach {after_b}. Reihenfolge der Räder und die Riemenseite auf jedem prüfen."
                ),
            }
        }
        Flaw::SpansTouch { a, b, by_mm } => {
            let (a, after_a, b, after_b) = (wheel(a), wheel(next(a)), wheel(b), wheel(next(b)));
            let by = mm(by_mm);
            match lang {
                Lang::En => format!(
                    "the span from {a} to {after_a} and the span from {b} to {after_b} would have to be {by} farther apart, the belt's own thickness counted in. Check where these wheels stand."
                ),
                Lang::De => format!(
                    "Das Trum von {a} nach {after_a} und das Trum von {b} nach {after_b} müssten {by} weiter auseinander liegen, die Dicke des Riemens mitgerechnet. Lage dieser Räder prüfen."
                ),
            }
        }
        Flaw::NoMetal { wheel: i, by_mm } => {
            let (i, by) = (wheel(i), mm(by_mm));
            match lang {
                Lang::En => format!(
                    "{i} is so small that the belt's teeth would reach {by} beyond its centre. Check its teeth, the belt's pitch and its tooth height."
                ),
                Lang::De => format!(
                    "{i} ist so klein, dass die Zähne des Riemens {by} über seine Mitte hinausreichen würden. Seine Zähnezahl sowie Teilung und Zahnhöhe des Riemens prüfen."
                ),
            }
        }
        Flaw::NotOneLoop { turns } => {
            let turns = lang.exact(f64::from(turns));
            match lang {
                Lang::En => format!(
                    "followed all round, the belt turns {turns} times in the crank's direction; it must turn exactly once. Check crank_turns, the order of the wheels and the face that runs on each."
                ),
                Lang::De => format!(
                    "Einmal ganz verfolgt, dreht sich der Riemen {turns}-mal im Drehsinn der Kurbelwelle; es muss genau einmal sein. crank_turns, Reihenfolge der Räder und die Riemenseite auf jedem prüfen."
                ),
            }
        }
        Flaw::BeltTooShort { by_mm } => {
            let by = with_teeth(by_mm);
            match lang {
                Lang::En => format!(
                    "right back, the tensioner still leaves the path {by} longer than the belt: the belt cannot be fitted. Check the belt's teeth and pitch, the wheels, and the tensioner's travel and direction."
                ),
                Lang::De => format!(
                    "Ganz zurückgenommen lässt die Spannrolle den Weg immer noch {by} länger als den Riemen: Er lässt sich nicht auflegen. Zähnezahl und Teilung des Riemens, die Räder sowie Weg und Richtung der Spannrolle prüfen."
                ),
            }
        }
        Flaw::BeltTooLong { by_mm } => {
            let by = with_teeth(by_mm);
            match lang {
                Lang::En => format!(
                    "as far out as the tensioner goes, it still leaves the path {by} shorter than the belt: the belt never gets tight. Check the belt's teeth and pitch, the wheels, and the tensioner's travel and direction."
                ),
                Lang::De => format!(
                    "So weit die Spannrolle auch geht, lässt sie den Weg immer noch {by} kürzer als den Riemen: Er wird nie straff. Zähnezahl und Teilung des Riemens, die Räder sowie Weg und Richtung der Spannrolle prüfen."
                ),
            }
        }
        Flaw::DeadPoint { travel } => {
            let at = match setting.travel_unit {
                TravelUnit::Mm => mm(travel),
                TravelUnit::Deg => format!("{}°", lang.tenths(setting.travel_unit.outside(travel))),
            };
            match lang {
                Lang::En => format!(
                    "within its travel, at {at}, the tensioner passes a point beyond which it tightens no more. Check its travel, which way it tightens, and where it slides or turns."
                ),
                Lang::De => format!(
                    "Innerhalb ihres Weges, bei {at}, geht die Spannrolle über einen Punkt, hinter dem sie nicht weiter spannt. Ihren Weg, ihre Spannrichtung und ihre Führung oder ihren Drehpunkt prüfen."
                ),
            }
        }
        Flaw::CountNotWhole { from, to } => {
            let (from, to) = (wheel(from), wheel(to));
            match lang {
                Lang::En => format!(
                    "from the mark of {from} to that of {to} there is no whole number of teeth: one mark is on a groove and the other on a tooth. Count between the dotted grooves (counted_from = \"reference\"), or check on what the marks are."
                ),
                Lang::De => format!(
                    "Von der Markierung an {from} zu der an {to} sind es keine ganzen Zähne: Eine sitzt auf einer Lücke, die andere auf einem Zahn. Zwischen den Bezugslücken zählen (counted_from = \"reference\") oder prüfen, worauf die Markierungen sitzen."
                ),
            }
        }
        Flaw::CountLeavesNone { from, to, teeth } => {
            let (from, to) = (wheel(from), wheel(to));
            let left = lang.teeth(teeth as f64, 0);
            match lang {
                Lang::En => format!(
                    "the counted teeth leave {left} for the belt from {from} to {to}. Check the counts, and from which wheel to which they go along the running belt."
                ),
                Lang::De => format!(
                    "Die gezählten Zähne lassen dem Riemen von {from} nach {to} {left}. Die Zählungen prüfen, und von welchem Rad zu welchem sie in Laufrichtung gehen."
                ),
            }
        }
        Flaw::CountsDoNotSum { counted, belt } => match lang {
            Lang::En => format!(
                "the teeth counted between the wheels add up to {counted}, and the belt has {belt} teeth. Check the counts and the belt's teeth."
            ),
            Lang::De => format!(
                "Die zwischen den Rädern gezählten Zähne geben zusammen {counted}, und der Riemen hat {belt} Zähne. Die Zählungen und die Zähnezahl des Riemens prüfen."
            ),
        },
    };
    capital(&sentence)
}

fn not_touched(lang: Lang, wheel: &str, missed_by_rad: f64, when: When) -> String {
    let by = format!("{}°", lang.tenths(Angle::from_rad(missed_by_rad).deg()));
    match (lang, when) {
        (Lang::En, When::Taut) => format!(
            "the belt would pass {wheel} without touching it (by {by}): it is on the wrong face, or its place is wrong."
        ),
        (Lang::En, When::RightBack) => format!(
            "with the tensioner right back, the belt would pass {wheel} without touching it (by {by}): it is on the wrong face, its place is wrong, or the tensioner goes back too far."
        ),
        (Lang::De, When::Taut) => format!(
            "Der Riemen liefe am Rad {wheel} vorbei, ohne es zu berühren (um {by}): Die Riemenseite oder die Lage stimmt nicht."
        ),
        (Lang::De, When::RightBack) => format!(
            "Mit der Spannrolle ganz zurück liefe der Riemen am Rad {wheel} vorbei, ohne es zu berühren (um {by}): Die Riemenseite oder die Lage stimmt nicht, oder die Spannrolle geht zu weit zurück."
        ),
    }
}

/// Where the pointer of a sprung eccentric stands instead of in its window.
pub(super) fn pointer(lang: Lang, at_deg: f64, [low, high]: [f64; 2]) -> String {
    let [at, low, high] = [at_deg, low, high].map(|deg| lang.degrees(deg));
    match lang {
        Lang::En => format!(
            "With the belt tight, the pointer stands at {at} of travel, outside its window from {low} to {high}. Check the belt's teeth, the wheels, the tensioner's travel and the window."
        ),
        Lang::De => format!(
            "Bei straffem Riemen steht der Zeiger bei {at} Weg, außerhalb seines Fensters von {low} bis {high}. Zähnezahl des Riemens, Räder, Weg der Spannrolle und Fenster prüfen."
        ),
    }
}

fn capital(sentence: &str) -> String {
    let mut letters = sentence.chars();
    let first = letters.next().map(char::to_uppercase).into_iter().flatten();
    first.collect::<String>() + letters.as_str()
}
