//! The fitting answer in words: the count that decides, the working room, and how sure it is.
//!
//! Must not know: how it was worked out.

use crate::lang::{Lang, Reader};
use crate::problem::range;
use crate::say::marks::off_way;
use advice::{BestTooth, CountKnown, Fitting, Landing, PaintCount};
use layout::Unit;

/// The headline: which count lands the crank. `from` and `to` are the names of the pulled run's ends.
pub fn fitting_headline(lang: Lang, answer: &Fitting, from: &str, to: &str) -> String {
    let teeth = answer.pulled_run.teeth;
    if answer.pulled_run.from == answer.pulled_run.to {
        return lang
            .pick(
                "Only the crank has a mark here: no count decides anything.",
                "Nur die Kurbelwelle hat hier eine Markierung: Keine Zähnezahl entscheidet etwas.",
            )
            .to_owned();
    }
    let count = count_told(lang, teeth, answer.pulled_run_known);
    match answer.pulled_run_known {
        CountKnown::Exactly => {}
        CountKnown::Between(..) => {
            return match lang {
                Lang::En => format!(
                    "From dot to dot, {from} to {to}: {count}, as the centres are known. Count it on the old belt: that count puts the crank on its mark."
                ),
                Lang::De => format!(
                    "Von Punkt zu Punkt, {from} bis {to}: {count}, so wie die Mittelpunkte bekannt sind. Am alten Riemen zählen: Diese Zahl bringt die Kurbelwelle auf ihre Markierung."
                ),
            };
        }
        CountKnown::Not => {
            return match lang {
                Lang::En => format!(
                    "From {from} to {to}: how many teeth is not told, since it rests on centres that are not known well enough. Count it on the old belt, or measure the centres."
                ),
                Lang::De => format!(
                    "Von {from} bis {to}: Wie viele Zähne, wird nicht gesagt, denn das hängt an Mittelpunkten, die nicht gut genug bekannt sind. Am alten Riemen zählen oder die Mittelpunkte messen."
                ),
            };
        }
    }
    match lang {
        Lang::En => format!(
            "From dot to dot, {from} to {to}: {count}. The tooth in the first dotted groove counts 0, the one in the last {teeth}. That count puts the crank on its mark; backing it off does not change it."
        ),
        Lang::De => format!(
            "Von Punkt zu Punkt, {from} bis {to}: {count}. Der Zahn in der ersten Zahnlücke mit Punkt ist die 0, der in der letzten die {teeth}. Diese Zahl bringt die Kurbelwelle auf ihre Markierung; das Zurückdrehen ändert daran nichts."
        ),
    }
}

/// How far to back the crank off, how far it goes at the most, and what room that leaves. `deg` are the
/// crank degrees of a tooth.
pub fn back_off(lang: Lang, answer: &Fitting, deg: f64) -> String {
    if answer.provisional {
        return lang
            .pick(
                "How far to back the crank off rests on where the tensioner stands, which is made up here: it is not told.",
                "Wie weit die Kurbelwelle zurückzudrehen ist, hängt am Ort der Spannrolle, der hier erfunden ist: Es wird nicht gesagt.",
            )
            .to_owned();
    }
    if answer.teeth_to_back_off == 0 && answer.most_teeth_back_off > 0 {
        let room = lang.teeth(answer.room_in_pulled_run_teeth, 1);
        return match lang {
            Lang::En => format!(
                "No need to back the crank off: {room} of slack hang in the run into it as it is."
            ),
            Lang::De => format!(
                "Zurückdrehen ist nicht nötig: {room} hängen im Trum vor der Kurbelwelle ohnehin lose."
            ),
        };
    }
    let most = lang.teeth(answer.most_teeth_back_off as f64, 0);
    let slack = lang.teeth(answer.slack_when_back_teeth, 1);
    if answer.teeth_to_back_off == 0 && answer.most_teeth_back_off == 0 {
        return match (lang, answer.tensioner_leaves_crank) {
            (Lang::En, true) => format!(
                "Do not back it off: fully back, the tensioner frees {slack} of belt, less than a tooth of it in the run that leaves the crank."
            ),
            (Lang::En, false) => format!(
                "Do not back it off: the tensioner frees {slack} of belt, but not in the run that leaves the crank, and with the other shafts on their marks none of it gets there."
            ),
            (Lang::De, true) => format!(
                "Nicht zurückdrehen: Ganz zurück gibt die Spannrolle {slack} Riemen frei, im Trum hinter der Kurbelwelle weniger als einen Zahn."
            ),
            (Lang::De, false) => format!(
                "Nicht zurückdrehen: Die Spannrolle gibt {slack} Riemen frei, aber nicht im Trum hinter der Kurbelwelle, und dorthin kommt nichts davon, solange die anderen Wellen auf ihren Markierungen stehen."
            ),
        };
    }
    let most = match (lang, answer.most_teeth_back_off_certain) {
        (Lang::En, Some(false)) => {
            format!("{most}, give or take one: the centres are not known well enough to be sure")
        }
        (Lang::De, Some(false)) => {
            format!("{most}, auf einen genau: Sicherer lassen die Mittelpunkte es nicht sagen")
        }
        _ => most,
    };
    let teeth = lang.teeth(answer.teeth_to_back_off as f64, 0);
    let by = lang.degrees(answer.teeth_to_back_off as f64 * deg);
    let pulled = lang.teeth(answer.room_in_pulled_run_teeth, 1);
    let leaving = lang.teeth(answer.room_leaving_crank_teeth, 1);
    match lang {
        Lang::En => format!(
            "For room to work, back the crank off {teeth} ({by}): {pulled} of slack then hang in the run into it and {leaving} in the run that leaves it. At most {most}: fully back, the tensioner frees {slack}."
        ),
        Lang::De => format!(
            "Um Platz zu haben, die Kurbelwelle {teeth} ({by}) zurückdrehen: Dann hängen {pulled} im Trum vor ihr und {leaving} im Trum hinter ihr lose. Höchstens {most}: Ganz zurück gibt die Spannrolle {slack} frei."
        ),
    }
}

/// Where the crank lands with one of the counts: `on its mark, 0.1 tooth behind`, `1 tooth ahead, 15°`.
pub fn lands(lang: Lang, row: &Landing) -> String {
    let teeth = row.crank_lands_teeth;
    let near = teeth.abs() < advice::HALF_A_TOOTH;
    let off = off(lang, teeth, row.crank_lands_deg);
    match (near, lang.number(teeth, 2) == lang.number(0.0, 2)) {
        (true, true) => lang.pick("dead on its mark", "genau auf der Markierung").to_owned(),
        (true, false) => format!("{}, {off}", lang.pick("on its mark", "auf der Markierung")),
        (false, _) => off,
    }
}

/// A mark some teeth off: `0.1 tooth behind (1.4°)`.
pub fn off(lang: Lang, teeth: f64, deg: f64) -> String {
    if lang.number(teeth, 2) == lang.number(0.0, 2) {
        return lang.pick("dead on", "genau").to_owned();
    }
    let (count, deg) = (lang.teeth_off(teeth.abs()), lang.fine_degrees(deg.abs()));
    format!("{count} {} ({deg})", off_way(lang, teeth > 0.0))
}

/// What the best tooth leaves of a mark, as finely as the doubt lets it be told.
pub fn best_tooth_told(lang: Lang, best: &BestTooth) -> String {
    match (best.told, best.doubt_teeth) {
        (Some(false), _) => lang
            .pick(
                "within half a tooth; the centres are not known well enough to say more",
                "innerhalb eines halben Zahns; genauer lassen die Mittelpunkte es nicht sagen",
            )
            .to_owned(),
        (_, Some(doubt)) => {
            let doubt = lang.number(doubt, 2);
            let told = off(lang, best.teeth, best.deg);
            match lang {
                Lang::En => format!("{told}, give or take {doubt} of a tooth"),
                Lang::De => format!("{told}, auf {doubt} Zahn genau"),
            }
        }
        (_, None) => off(lang, best.teeth, best.deg),
    }
}

/// A count of teeth, or between what it lies: `47 teeth`, `43 to 47 teeth`, `not known`.
pub fn count_told(lang: Lang, teeth: i64, known: CountKnown) -> String {
    match known {
        CountKnown::Exactly => lang.teeth(teeth as f64, 0),
        CountKnown::Between(least, most) => range(lang, least as f64, most as f64, Unit::Teeth),
        CountKnown::Not => lang.pick("not known: count it", "nicht bekannt: zählen").to_owned(),
    }
}

/// How sure a count between two marks is: `counted`, `sure while every centre is right to 0.8 mm`.
pub fn count_is_sure(reader: Reader, count: &PaintCount) -> String {
    let lang = reader.lang;
    if count.counted {
        return lang.pick("counted", "gezählt").to_owned();
    }
    let Some(within_mm) = count.holds_within_mm else {
        return lang.pick("sure", "sicher").to_owned();
    };
    let within = reader.length(within_mm);
    match (lang, count.certain) {
        (Lang::En, Some(true)) => format!("sure: centres may be off by {within}"),
        (Lang::En, Some(false)) => {
            format!(
                "not sure: centres would have to be right to {within}. Count it on the old belt"
            )
        }
        (Lang::En, None) => format!("right while every centre is right to {within}"),
        (Lang::De, Some(true)) => format!("sicher: Mittelpunkte dürfen {within} abweichen"),
        (Lang::De, Some(false)) => format!(
            "nicht sicher: Mittelpunkte müssten auf {within} stimmen. Am alten Riemen zählen"
        ),
        (Lang::De, None) => format!("stimmt, solange jeder Mittelpunkt auf {within} stimmt"),
    }
}

/// How sure the whole answer is, in a sentence.
pub fn fitting_sure(reader: Reader, answer: &Fitting) -> String {
    let lang = reader.lang;
    let all_counted = answer.counts.iter().all(|count| count.counted);
    if answer.counts.len() < 2 {
        return String::new();
    }
    if all_counted {
        return lang
            .pick(
                "Every count here was counted on a belt: they are certain. How far off dead on the marks sit follows from the centres.",
                "Jede Zahl hier wurde am Riemen gezählt: Sie sind sicher. Wie weit die Markierungen neben genau stehen, folgt aus den Mittelpunkten.",
            )
            .to_owned();
    }
    let doubtful = answer.counts.iter().filter(|count| count.certain == Some(false)).count();
    match (answer.centres_good_to_mm, doubtful) {
        (None, _) => {
            let within = answer.counts.iter().filter_map(|count| count.holds_within_mm);
            let least = within.fold(f64::INFINITY, f64::min);
            let within = reader.length(least);
            match lang {
                Lang::En => format!(
                    "The layout does not say how well its centres are known. The counts hold while every centre is right to {within}; counting on the old belt makes them certain."
                ),
                Lang::De => format!(
                    "Das Layout sagt nicht, wie gut seine Mittelpunkte bekannt sind. Die Zahlen gelten, solange jeder Mittelpunkt auf {within} stimmt; am alten Riemen gezählt sind sie sicher."
                ),
            }
        }
        (Some(mm), 0) => {
            let mm = reader.length(mm);
            match lang {
                Lang::En => format!(
                    "With every centre right to {mm}, as the layout says, the counts are certain."
                ),
                Lang::De => format!(
                    "Stimmt jeder Mittelpunkt auf {mm}, wie das Layout sagt, sind die Zahlen sicher."
                ),
            }
        }
        (Some(mm), _) => {
            let mm = reader.length(mm);
            match lang {
                Lang::En => format!(
                    "With centres right to {mm} only, as the layout says, not every count is certain: count on the old belt where the table says so."
                ),
                Lang::De => format!(
                    "Stimmen die Mittelpunkte nur auf {mm}, wie das Layout sagt, ist nicht jede Zahl sicher: am alten Riemen zählen, wo die Tabelle es sagt."
                ),
            }
        }
    }
}

/// The lash of the whole belt with the tensioner bolted up, in a sentence. `deg` at the crank.
pub fn lash_sentence(reader: Reader, slack_mm: f64, crank_deg: f64) -> String {
    let lang = reader.lang;
    if lang.number(slack_mm, 2) == lang.number(0.0, 2) {
        return lang
            .pick(
                "Bolted up, the tensioner leaves no slack: a mark reads the same forwards and backwards.",
                "Angeschraubt lässt die Spannrolle nichts lose: Eine Markierung steht vorwärts und rückwärts gleich.",
            )
            .to_owned();
    }
    let (slack, deg) = (reader.length(slack_mm), lang.fine_degrees(crank_deg));
    match lang {
        Lang::En => format!(
            "Bolted up with its pin in, the tensioner leaves {slack} of slack: come up to a mark forwards and backwards, and the shafts stand {deg} of crank apart. So come up to marks in the running direction only."
        ),
        Lang::De => format!(
            "Angeschraubt, mit Stift, lässt die Spannrolle {slack} lose: Kommt man vorwärts und rückwärts zu einer Markierung, stehen die Wellen {deg} Kurbelwinkel auseinander. Darum Markierungen nur in Laufrichtung anfahren."
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(text: &str) -> String {
        text.replace('\u{a0}', " ")
    }

    #[test]
    fn a_mark_off_is_told_with_its_side_and_unit() {
        assert_eq!(plain(&off(Lang::En, 1.0, 15.0)), "1 tooth ahead (15°)");
        assert_eq!(plain(&off(Lang::En, -0.08, -0.6)), "0.08 of a tooth behind (0.6°)");
        assert_eq!(plain(&off(Lang::En, -1.1, -16.5)), "1.1 teeth behind (16.5°)");
        assert_eq!(off(Lang::En, 0.004, 0.06), "dead on");
        assert_eq!(plain(&off(Lang::De, -0.08, -0.6)), "0,08 Zahn zurück (0,6°)");
        assert_eq!(plain(&off(Lang::De, 2.0, 15.0)), "2 Zähne voraus (15°)");
    }

    #[test]
    fn a_count_is_told_as_well_as_it_is_known() {
        let told = |lang, known| plain(&count_told(lang, 45, known));
        assert_eq!(told(Lang::En, CountKnown::Exactly), "45 teeth");
        assert_eq!(told(Lang::En, CountKnown::Between(43, 47)), "43 to 47 teeth");
        assert_eq!(told(Lang::De, CountKnown::Between(43, 47)), "43 bis 47 Zähne");
        assert!(!told(Lang::En, CountKnown::Not).contains("45"));
    }

    #[test]
    fn a_fraction_is_told_only_while_the_doubt_lets_it() {
        let best = |told, doubt_teeth| BestTooth {
            shaft: "cam".into(),
            teeth: 0.2,
            deg: 1.5,
            doubt_teeth,
            told,
        };
        let told = |best: &BestTooth| plain(&best_tooth_told(Lang::En, best));
        assert_eq!(told(&best(None, None)), "0.2 of a tooth ahead (1.5°)");
        assert_eq!(
            told(&best(Some(true), Some(0.1))),
            "0.2 of a tooth ahead (1.5°), give or take 0.10 of a tooth"
        );
        assert!(!told(&best(Some(false), Some(0.4))).contains("0.2"));
    }
}
