//! The blind exercise in words: what the eye sees, how an answer was, and what was hidden.
//!
//! Must not know: what should have been seen.

use crate::lang::Lang;
use lesson::exercise::{Place, Verdict};

/// An exercise's name.
pub fn exercise_title(lang: Lang, number: u32) -> String {
    match lang {
        Lang::En => format!("Exercise {number}"),
        Lang::De => format!("Übung {number}"),
    }
}

/// Where a mark seems to stand: `Left camshaft: the wedge stands about half a tooth clockwise of its notch.`
/// `other` is the label of a mark that is not the timing mark.
pub fn seen_mark(lang: Lang, shaft: &str, other: Option<&str>, place: Place) -> String {
    let what = match (lang, other) {
        (Lang::En, None) => "the wedge".to_owned(),
        (Lang::De, None) => "der Keil".to_owned(),
        (Lang::En, Some(label)) => format!("the hollow mark “{label}”"),
        (Lang::De, Some(label)) => format!("die hohle Markierung „{label}“"),
    };
    let place = match place {
        Place::Near(0) => lang.pick("stands at the notch", "steht an der Kerbe").to_owned(),
        Place::Near(halves) => {
            let by = about(lang, halves.unsigned_abs());
            match (lang, halves > 0) {
                (Lang::En, true) => format!("stands {by} clockwise of the notch"),
                (Lang::En, false) => format!("stands {by} anticlockwise of the notch"),
                (Lang::De, true) => format!("steht {by} im Uhrzeigersinn neben der Kerbe"),
                (Lang::De, false) => format!("steht {by} gegen den Uhrzeigersinn neben der Kerbe"),
            }
        }
        Place::Hour(hour) => match lang {
            Lang::En => format!("points towards {hour} o'clock"),
            Lang::De => format!("zeigt auf {hour} Uhr"),
        },
    };
    format!("{shaft}: {what} {place}.")
}

/// A run that hangs: `From A to B the belt hangs, by about 2 teeth.`
pub fn seen_run(lang: Lang, from: &str, to: &str, halves: u64) -> String {
    let by = about(lang, halves);
    match lang {
        Lang::En => format!("From {from} to {to} the belt hangs, by {by}."),
        Lang::De => format!("Von {from} nach {to} hängt der Riemen, um {by}."),
    }
}

/// So many half teeth, as the eye tells them.
fn about(lang: Lang, halves: u64) -> String {
    if halves == 1 {
        return lang.pick("about half a tooth", "etwa einen halben Zahn").to_owned();
    }
    let count = lang.teeth(halves as f64 / 2.0, 1);
    match lang {
        Lang::En => format!("about {count}"),
        Lang::De if halves == 2 => "etwa einen Zahn".to_owned(),
        Lang::De => format!("etwa {count}"),
    }
}

/// How far an answer has a shaft out: `1 tooth ahead`.
pub fn answer_teeth(lang: Lang, teeth: i64) -> String {
    let count = lang.teeth(teeth.unsigned_abs() as f64, 0);
    match (lang, teeth) {
        (_, 0) => lang.pick("in time", "Steuerzeit stimmt").to_owned(),
        (Lang::En, 1..) => format!("{count} ahead"),
        (Lang::En, _) => format!("{count} behind"),
        (Lang::De, 1..) => format!("{count} zu früh"),
        (Lang::De, _) => format!("{count} zu spät"),
    }
}

/// A tag on slack while figures are hidden.
pub const fn hidden_slack(lang: Lang) -> &'static str {
    lang.pick("slack", "lose")
}

/// Beside a box to tick: that a shaft stands on a mark that does not count.
pub fn stands_on(lang: Lang, label: &str) -> String {
    match lang {
        Lang::En => format!("It stands on “{label}”, which does not count"),
        Lang::De => format!("Sie steht auf „{label}“, die nicht zählt"),
    }
}

/// How an answer was.
pub fn verdict(lang: Lang, verdict: Verdict) -> String {
    if verdict.right() {
        return lang.pick("Right.", "Richtig.").to_owned();
    }
    let parts = [
        (verdict.shafts, lang.pick("the shafts", "die Wellen")),
        (verdict.view, lang.pick("the view", "der Blick")),
        (verdict.slack, lang.pick("the slack", "die lose Länge")),
    ];
    let list = |right: bool| {
        let all = parts.iter().filter(|(is, _)| *is == right);
        super::list(lang, &all.map(|(_, part)| (*part).to_owned()).collect::<Vec<_>>())
    };
    let (right, wrong) = (list(true), list(false));
    match (lang, right.is_empty()) {
        (Lang::En, true) => format!("Not yet. Look again at {wrong}."),
        (Lang::En, false) => format!("Not yet. Right so far: {right}. Look again at {wrong}."),
        (Lang::De, true) => format!("Noch nicht. Noch einmal ansehen: {wrong}."),
        (Lang::De, false) => {
            format!("Noch nicht. Richtig bisher: {right}. Noch einmal ansehen: {wrong}.")
        }
    }
}

/// What was hidden, as a sentence can have it.
#[derive(Clone, Copy, Debug)]
pub enum Hidden<'a> {
    /// A shaft by teeth and crank degrees, ahead positive.
    TeethOut {
        /// The shaft.
        shaft: &'a str,
        /// Whether it is the crank.
        is_crank: bool,
        /// Teeth.
        teeth: i64,
        /// The same in crank degrees.
        crank_deg: f64,
    },
    /// A shaft that stands on a mark that does not count.
    Decoy {
        /// The shaft.
        shaft: &'a str,
        /// The mark.
        label: &'a str,
        /// Teeth that it is out, ahead positive.
        teeth: i64,
    },
    /// A look from the side.
    Aside {
        /// Degrees off square, positive to the side from which marks seem ahead.
        deg: f64,
    },
    /// Slack in a run where no tensioner reaches it.
    Slack {
        /// The wheel that the run leaves.
        from: &'a str,
        /// The wheel that it meets.
        to: &'a str,
    },
}

/// A fault explained.
pub fn fault(lang: Lang, hidden: Hidden<'_>) -> String {
    match hidden {
        Hidden::TeethOut { shaft, is_crank, teeth, crank_deg } => {
            let (count, deg) =
                (lang.teeth(teeth.unsigned_abs() as f64, 0), lang.degrees(crank_deg.abs()));
            let out = match (lang, teeth > 0) {
                (Lang::En, true) => format!("{shaft} is {count} ahead: {deg} of crank."),
                (Lang::En, false) => format!("{shaft} is {count} behind: {deg} of crank."),
                (Lang::De, true) => format!("{shaft}: {count} zu früh, {deg} an der Kurbelwelle."),
                (Lang::De, false) => format!("{shaft}: {count} zu spät, {deg} an der Kurbelwelle."),
            };
            if !is_crank {
                return out;
            }
            let same = match (lang, teeth > 0) {
                (Lang::En, true) => format!(
                    "That is the same as every other shaft {count} behind: one installation, said both ways."
                ),
                (Lang::En, false) => format!(
                    "That is the same as every other shaft {count} ahead: one installation, said both ways."
                ),
                (Lang::De, true) => format!(
                    "Das ist dasselbe wie jede andere Welle {count} zu spät: ein Stand, auf zwei Arten gesagt."
                ),
                (Lang::De, false) => format!(
                    "Das ist dasselbe wie jede andere Welle {count} zu früh: ein Stand, auf zwei Arten gesagt."
                ),
            };
            format!("{out} {same}")
        }
        Hidden::Decoy { shaft, label, teeth } => {
            let count = lang.teeth(teeth.unsigned_abs() as f64, 0);
            match lang {
                Lang::En => format!(
                    "{shaft} was brought up on “{label}”, a mark that does not count here: it is {count} out."
                ),
                Lang::De => format!(
                    "{shaft} wurde auf „{label}“ gestellt, eine Markierung, die hier nicht zählt: {count} daneben."
                ),
            }
        }
        Hidden::Aside { deg } => {
            let by = lang.degrees(deg.abs());
            match (lang, deg > 0.0) {
                (Lang::En, true) => format!(
                    "You looked from {by} to the side: every mark seemed ahead of where it stands. Look square, or use a mirror."
                ),
                (Lang::En, false) => format!(
                    "You looked from {by} to the side: every mark seemed behind where it stands. Look square, or use a mirror."
                ),
                (Lang::De, true) => format!(
                    "Der Blick kam {by} von der Seite: Jede Markierung schien weiter vorn, als sie steht. Gerade hinsehen oder einen Spiegel nehmen."
                ),
                (Lang::De, false) => format!(
                    "Der Blick kam {by} von der Seite: Jede Markierung schien weiter hinten, als sie steht. Gerade hinsehen oder einen Spiegel nehmen."
                ),
            }
        }
        Hidden::Slack { from, to } => match lang {
            Lang::En => format!(
                "Slack hung in the run from {from} to {to}, where the tensioner does not reach it. Turning the crank forward brings it to the tensioner; before that, marks prove nothing."
            ),
            Lang::De => format!(
                "Die lose Länge hing im Trum von {from} nach {to}, wo die Spannrolle nicht hinkommt. Vorwärtsdrehen bringt sie zur Spannrolle; vorher beweist keine Markierung etwas."
            ),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_eye_sees_is_told_in_half_teeth() {
        let told =
            |lang, place| seen_mark(lang, "Left camshaft", None, place).replace('\u{a0}', " ");
        assert_eq!(
            told(Lang::En, Place::Near(-1)),
            "Left camshaft: the wedge stands about half a tooth anticlockwise of the notch."
        );
        assert_eq!(
            told(Lang::En, Place::Near(3)),
            "Left camshaft: the wedge stands about 1.5 teeth clockwise of the notch."
        );
        assert!(told(Lang::De, Place::Near(2)).contains("etwa einen Zahn im Uhrzeigersinn"));
        assert!(told(Lang::De, Place::Hour(7)).ends_with("zeigt auf 7 Uhr."));
    }

    #[test]
    fn an_answer_has_its_unit_and_its_way() {
        let told = |lang, teeth| answer_teeth(lang, teeth).replace('\u{a0}', " ");
        assert_eq!(told(Lang::En, 1), "1 tooth ahead");
        assert_eq!(told(Lang::En, -2), "2 teeth behind");
        assert_eq!(told(Lang::De, -1), "1 Zahn zu spät");
        assert_eq!(told(Lang::En, 0), "in time");
    }

    #[test]
    fn a_wrong_answer_says_where_to_look_again() {
        let wrong = Verdict { shafts: true, view: false, slack: true };
        assert_eq!(
            verdict(Lang::En, wrong),
            "Not yet. Right so far: the shafts and the slack. Look again at the view."
        );
        let all = Verdict { shafts: false, view: false, slack: false };
        assert!(verdict(Lang::De, all).ends_with("die Wellen, der Blick und die lose Länge."));
    }
}
