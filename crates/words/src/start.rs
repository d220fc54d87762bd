//! Starting a layout from three counts, in words: the arrangements, what stands in the text, what follows at
//! once, and why a count cannot be.
//!
//! Must not know: where any wheel of it stands.

use crate::lang::Lang;
use crate::problem::range;
use advice::CamshaftTeeth;
use layout::{Arrangement, StartCount, StartRefused, StartWords};

/// What people call an arrangement.
pub const fn arrangement(lang: Lang, arrangement: Arrangement) -> &'static str {
    match arrangement {
        Arrangement::InLineOne => lang.pick("In line, one camshaft", "Reihe, eine Nockenwelle"),
        Arrangement::InLineTwo => lang.pick("In line, two camshafts", "Reihe, zwei Nockenwellen"),
        Arrangement::VeeOne => {
            lang.pick("Vee, one camshaft a bank", "V-Motor, eine Nockenwelle je Bank")
        }
        Arrangement::VeeTwo => {
            lang.pick("Vee, two camshafts a bank", "V-Motor, zwei Nockenwellen je Bank")
        }
        Arrangement::InjectionPump => {
            lang.pick("Camshaft and injection pump", "Nockenwelle und Einspritzpumpe")
        }
        Arrangement::BalanceShaft => lang.pick("Balance-shaft belt", "Riemen der Ausgleichswelle"),
    }
}

/// What is counted, for an arrangement.
pub const fn count(lang: Lang, arrangement: Arrangement, count: StartCount) -> &'static str {
    match (count, arrangement) {
        (StartCount::Crank, _) => {
            lang.pick("Teeth of the crank sprocket", "Zähne des Kurbelwellenrads")
        }
        (StartCount::Belt, _) => lang.pick("Teeth of the belt", "Zähne des Riemens"),
        (StartCount::Driven, Arrangement::BalanceShaft) => {
            lang.pick("Teeth of the balance-shaft sprocket", "Zähne des Ausgleichswellenrads")
        }
        (StartCount::Driven, Arrangement::InjectionPump) => lang.pick(
            "Teeth of the camshaft and the pump sprocket",
            "Zähne von Nockenwellen- und Pumpenrad",
        ),
        (StartCount::Driven, _) => {
            lang.pick("Teeth of a camshaft sprocket", "Zähne eines Nockenwellenrads")
        }
    }
}

/// The sentences of a text that is started.
pub fn start_words(lang: Lang, kind: Arrangement) -> StartWords {
    let called = arrangement(lang, kind);
    let text = |en: &str, de: &str| lang.pick(en, de).to_owned();
    StartWords {
        title: match lang {
            Lang::En => format!("Provisional: {called}"),
            Lang::De => format!("Vorläufig: {called}"),
        },
        about: text(
            "Started from three counts. Where the wheels stand, how large the smooth ones are and where the marks point is made up so that the belt fits: measure, enter, and take no other figure from it to a vehicle.",
            "Aus drei Zähnezahlen begonnen. Wo die Räder stehen, wie groß die glatten sind und wohin die Markierungen zeigen, ist erfunden, damit der Riemen passt: messen, eintragen und keine andere Zahl davon auf ein Fahrzeug übertragen.",
        ),
        head: vec![
            text(
                "Three figures here are counted: the teeth of the crank sprocket, of what it drives, of the belt.",
                "Drei Angaben hier sind gezählt: die Zähne von Kurbelwellenrad, getriebenem Rad und Riemen.",
            ),
            text(
                "Everything marked provisional is made up so that this belt fits. Put your own figures in its place,",
                "Alles, was vorläufig heißt, ist erfunden, damit dieser Riemen passt. Eigene Maße an seine Stelle setzen,",
            ),
            text(
                "then say in centres_good_to_mm how good they are and take the line `provisional = true` out.",
                "dann in centres_good_to_mm sagen, wie genau sie sind, und die Zeile `provisional = true` streichen.",
            ),
        ],
        counted: text("counted", "gezählt"),
        provisional: text("provisional", "vorläufig"),
        order: text(
            "In the order in which the running belt meets them, the crank first.",
            "In der Reihenfolge, in der der laufende Riemen sie trifft, die Kurbelwelle zuerst.",
        ),
    }
}

/// Why nothing was started, in a sentence.
pub fn start_refused(lang: Lang, kind: Arrangement, refused: StartRefused) -> String {
    match refused {
        StartRefused::OutOfBounds { count: which, found, bounds } => {
            let (what, found) = (count(lang, kind, which), lang.number(f64::from(found), 0));
            let allowed = range(lang, bounds.least, bounds.most, bounds.unit);
            match lang {
                Lang::En => format!("{what}: {found} cannot be; it may be {allowed}."),
                Lang::De => format!("{what}: {found} kann nicht sein; möglich sind {allowed}."),
            }
        }
        StartRefused::BeltTooShort { found, least } => {
            let (found, least) =
                (lang.teeth_dative(f64::from(found), 0), lang.teeth(f64::from(least), 0));
            match lang {
                Lang::En => format!(
                    "A belt of {found} is too short for these sprockets in this arrangement; it takes {least} or more. Count again, or choose another arrangement."
                ),
                Lang::De => format!(
                    "Ein Riemen mit {found} ist für diese Räder in dieser Anordnung zu kurz; er braucht mindestens {least}. Nachzählen oder eine andere Anordnung wählen."
                ),
            }
        }
        StartRefused::NotDrawn { found, shorter, longer } => {
            let found = lang.teeth(f64::from(found), 0);
            let other = |teeth: u32| lang.number(f64::from(teeth), 0);
            let one_of = match longer {
                Some(longer) => {
                    format!("{} {} {}", other(shorter), lang.pick("or", "oder"), other(longer))
                }
                None => other(shorter),
            };
            match lang {
                Lang::En => format!(
                    "With a belt of {found} this arrangement could not be drawn on these sprockets; with {one_of} it can. Count again, or choose another arrangement."
                ),
                Lang::De => format!(
                    "Bei einem Riemen von {found} ließ sich diese Anordnung mit diesen Rädern nicht zeichnen; bei {one_of} geht es. Nachzählen oder eine andere Anordnung wählen."
                ),
            }
        }
        StartRefused::NoBelt { most } => {
            let most = lang.teeth(f64::from(most), 0);
            match lang {
                Lang::En => format!(
                    "No belt of up to {most} goes round these sprockets in this arrangement. Count again, or choose another arrangement."
                ),
                Lang::De => format!(
                    "Um diese Räder geht in dieser Anordnung kein Riemen bis {most}. Nachzählen oder eine andere Anordnung wählen."
                ),
            }
        }
    }
}

/// That a count is unusual for the shaft to turn as it must; `None` where it is usual.
pub fn start_warning(lang: Lang, kind: Arrangement, crank: u32, driven: u32) -> Option<String> {
    let usual = kind.usual_teeth(crank);
    if usual == Some(driven) {
        return None;
    }
    let (found, crank) = (lang.teeth(f64::from(driven), 0), lang.teeth_dative(f64::from(crank), 0));
    let usual = usual.map(|teeth| lang.number(f64::from(teeth), 0));
    Some(match (lang, kind, usual) {
        (Lang::En, Arrangement::BalanceShaft, Some(usual)) => format!(
            "With {crank} on the crank a balance shaft at twice its speed has {usual}, not {found}. Look again whether that is right."
        ),
        (Lang::De, Arrangement::BalanceShaft, Some(usual)) => format!(
            "Bei {crank} an der Kurbelwelle hat eine doppelt so schnelle Ausgleichswelle {usual}, nicht {found}. Nachsehen, ob das stimmt."
        ),
        (Lang::En, Arrangement::BalanceShaft, None) => {
            format!("With {crank} on the crank no balance shaft turns at just twice its speed.")
        }
        (Lang::De, Arrangement::BalanceShaft, None) => format!(
            "Bei {crank} an der Kurbelwelle dreht keine Ausgleichswelle genau doppelt so schnell."
        ),
        (_, _, usual) => camshaft_out(lang, &crank, &usual.unwrap_or_default(), &found),
    })
}

/// That a layout's camshaft sprocket has not twice the crank's teeth.
pub fn camshaft_ratio(lang: Lang, out: &CamshaftTeeth) -> String {
    let crank = lang.teeth_dative(f64::from(out.crank_teeth), 0);
    let found = lang.teeth(f64::from(out.teeth), 0);
    camshaft_out(lang, &crank, &lang.number(f64::from(out.usual_teeth), 0), &found)
}

fn camshaft_out(lang: Lang, crank: &str, usual: &str, found: &str) -> String {
    match lang {
        Lang::En => format!(
            "A camshaft turns once for two turns of the crank: with {crank} there it has {usual}, not {found}. Look again whether that is right."
        ),
        Lang::De => format!(
            "Eine Nockenwelle dreht sich einmal in zwei Kurbelumdrehungen: Bei {crank} dort hat sie {usual}, nicht {found}. Nachsehen, ob das stimmt."
        ),
    }
}

/// That a drive of these counts of crank, driven sprocket and belt is what is in view.
pub fn in_view(lang: Lang, [crank, driven, belt]: [u32; 3]) -> String {
    match lang {
        Lang::En => format!(
            "In view is still the drive of {crank} and {driven} teeth with a belt of {belt}."
        ),
        Lang::De => format!(
            "Im Bild ist noch der Trieb mit {crank} und {driven} Zähnen und einem Riemen mit {belt}."
        ),
    }
}

/// The names of what follows at once: a tooth at the crank, a tooth at what it drives, when a stripe meets its
/// mark, when all do.
pub const fn answer_names(lang: Lang, kind: Arrangement) -> [&'static str; 4] {
    [
        lang.pick("One tooth at the crank", "Ein Zahn an der Kurbelwelle"),
        match kind {
            Arrangement::BalanceShaft => {
                lang.pick("One tooth at the balance shaft", "Ein Zahn an der Ausgleichswelle")
            }
            _ => lang.pick("One tooth at the camshaft", "Ein Zahn an der Nockenwelle"),
        },
        lang.pick(
            "A stripe is back at the crank's mark after",
            "Ein Strich ist wieder an der Kurbelmarkierung nach",
        ),
        lang.pick(
            "All stripes and marks meet after",
            "Alle Striche und Markierungen treffen sich nach",
        ),
    ]
}

/// A tooth at a shaft: `7.5°, 15° of crank`.
pub fn tooth(lang: Lang, deg: f64, crank_deg: f64) -> String {
    let [deg, crank_deg] = [deg, crank_deg].map(|deg| format!("{}°", lang.short_number(deg, 2)));
    if deg == crank_deg {
        return deg;
    }
    match lang {
        Lang::En => format!("{deg}, {crank_deg} of crank"),
        Lang::De => format!("{deg}, {crank_deg} Kurbelwinkel"),
    }
}

/// In place of a figure that rests on what is made up.
pub const fn not_known(lang: Lang) -> &'static str {
    lang.pick("not known", "nicht bekannt")
}

/// That a layout is provisional, in one sentence.
pub const fn provisional(lang: Lang) -> &'static str {
    lang.pick(
        "Provisional: only the tooth counts are known, the rest is made up so that the belt fits.",
        "Vorläufig: Nur die Zähnezahlen sind bekannt, alles andere ist erfunden, damit der Riemen passt.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use layout::{Plan, start};

    fn started(
        lang: Lang,
        kind: Arrangement,
        [crank, driven, belt]: [u32; 3],
    ) -> Result<String, StartRefused> {
        start(kind, crank, driven, belt, &start_words(lang, kind))
    }

    #[test]
    fn the_examples_open_in_every_language() {
        for lang in Lang::ALL {
            for kind in Arrangement::ALL {
                let text = started(lang, kind, kind.example()).unwrap();
                let layout = Plan::open(&text).unwrap().layout;
                assert!(layout.provisional && layout.title.contains(arrangement(lang, kind)));
                let [crank, driven, _] = kind.example();
                assert_eq!(start_warning(lang, kind, crank, driven), None);
                assert!(start_warning(lang, kind, crank, driven + 1).is_some());
            }
        }
    }

    #[test]
    fn what_cannot_be_says_what_can() {
        let told = |kind, counts| {
            let refused = started(Lang::En, kind, counts).unwrap_err();
            start_refused(Lang::En, kind, refused).replace('\u{a0}', " ")
        };
        let two = Arrangement::InLineTwo;
        assert_eq!(
            told(two, [3, 48, 150]),
            "Teeth of the crank sprocket: 3 cannot be; it may be 6 to 200 teeth."
        );
        let short = told(two, [24, 48, 60]);
        let least = short.split("takes ").nth(1).and_then(|s| s.split(' ').next()).unwrap();
        assert!(started(Lang::En, two, [24, 48, least.parse().unwrap()]).is_ok(), "{short}");
        assert!(told(Arrangement::VeeTwo, [200, 200, 400]).contains("400 teeth"));
    }
}
