//! What there is to watch out for, a sentence or two each.
//!
//! Must not know: when it is to be said.

use crate::lang::{Lang, Reader};
use crate::say::list;
use advice::Warning;
use layout::TravelUnit;

/// One warning in words. `names` by wheel index; `others` for each wheel the labels of its other marks.
pub fn warning(reader: Reader, warning: &Warning, names: &[&str], others: &[Vec<&str>]) -> String {
    let lang = reader.lang;
    let name = |i: &usize| names.get(*i).copied().unwrap_or_default();
    let all = |wheels: &[usize]| {
        let named: Vec<String> = wheels.iter().map(|i| name(i).to_owned()).collect();
        list(lang, &named)
    };
    match warning {
        Warning::OutOfTime { wheels } => out_of_time(lang, wheels, names),
        Warning::FarFromMark { wheel, deg } => {
            let (shaft, by) = (name(wheel), lang.degrees(deg.abs()));
            match lang {
                Lang::En => format!("{shaft} stands {by} from its mark with no belt to keep it in step: on an engine valves may meet pistons. Stop, and bring it back the way it came."),
                Lang::De => format!("{shaft} steht {by} neben der Markierung, und kein Riemen hält sie im Gleichlauf: Am Motor können Ventile auf Kolben treffen. Anhalten und auf demselben Weg zurückdrehen."),
            }
        }
        Warning::HeldAtOtherMark { wheel, mark } => {
            let label = others.get(*wheel).and_then(|all| all.get(*mark)).copied().unwrap_or("?");
            let shaft = name(wheel);
            match lang {
                Lang::En => format!("{shaft} is held on “{label}”, a mark that does not count here. Bring its own mark up."),
                Lang::De => format!("{shaft} ist auf „{label}“ gehalten; diese Markierung zählt hier nicht. Die richtige Markierung anfahren."),
            }
        }
        Warning::MayJump { wheels, clears } => {
            let at: Vec<usize> = wheels.iter().map(|(wheel, _)| *wheel).collect();
            may_jump(lang, &all(&at), *clears)
        }
        Warning::NothingHolds { wheels } => {
            let shafts = all(wheels);
            match lang {
                Lang::En => format!("Nothing holds {shafts}: hold each on its mark before the belt goes on or off, or it may turn."),
                Lang::De => format!("Nichts hält {shafts}: jede auf ihrer Markierung halten, bevor der Riemen auf- oder abgeht, sonst kann sie sich drehen."),
            }
        }
        Warning::HeldOffMark { wheel, deg } => {
            let (shaft, by) = (name(wheel), lang.fine_degrees(deg.abs()));
            match (lang, *deg > 0.0) {
                (Lang::En, true) => format!("{shaft} is held {by} ahead of its mark."),
                (Lang::En, false) => format!("{shaft} is held {by} behind its mark."),
                (Lang::De, true) => format!("{shaft} ist gehalten, ihre Markierung {by} voraus."),
                (Lang::De, false) => format!("{shaft} ist gehalten, ihre Markierung {by} zurück."),
            }
        }
        Warning::SlackElsewhere { from, to, slack_mm, slack_teeth, pulled } => {
            let slack = format!("{}, {}", reader.length(*slack_mm), lang.teeth(*slack_teeth, 1));
            let (from, to) = (name(from), name(to));
            match (lang, pulled) {
                (Lang::En, true) => format!("Slack in the wrong run: {slack}, from {from} to {to}, where the tensioner does not reach. Bring the crank forward until it is tight, and read no mark before."),
                (Lang::En, false) => format!("Slack in the wrong run: {slack}, from {from} to {to}, where the tensioner does not reach. Turning over in the running direction draws it up."),
                (Lang::De, true) => format!("Lose Länge im falschen Trum: {slack}, von {from} nach {to}, wo die Spannrolle nicht hinkommt. Die Kurbelwelle nach vorn holen, bis es straff ist, und vorher keine Markierung lesen."),
                (Lang::De, false) => format!("Lose Länge im falschen Trum: {slack}, von {from} nach {to}, wo die Spannrolle nicht hinkommt. Durchdrehen in Laufrichtung holt sie heran."),
            }
        }
        Warning::PinPulledUnchecked { turned_deg } => {
            let turned = lang.degrees(*turned_deg);
            match lang {
                Lang::En => format!("The pin was pulled after {turned} of turning with it in, not after two turns (720°) that show the marks. If a mark is out now, the spring has to be drawn back and pinned again."),
                Lang::De => format!("Der Stift wurde nach {turned} Drehung mit Stift gezogen, nicht nach zwei Umdrehungen (720°), die die Markierungen zeigen. Steht jetzt eine falsch, muss die Feder zurück und der Stift wieder hinein."),
            }
        }
        Warning::TurnedBackPinOut { gives_way_n_m } => {
            let moment = gives_way_n_m.map(|n_m| lang.newton_metres(n_m));
            let at = match (lang, moment) {
                (Lang::En, Some(moment)) => format!(" at about {moment} on the crank (an estimate from the layout's spring)"),
                (Lang::De, Some(moment)) => format!(" bei etwa {moment} an der Kurbelwelle nach (eine Schätzung aus der Feder des Layouts)"),
                (Lang::En, None) => " at a moment that is not known".to_owned(),
                (Lang::De, None) => " bei einem Moment nach, das nicht bekannt ist".to_owned(),
            };
            match lang {
                Lang::En => format!("Turned back with the pin out: now the tensioner's run pulls. Its spring gives way{at}, the run into the crank goes slack, and teeth may jump there. Never turn back."),
                Lang::De => format!("Mit gezogenem Stift zurückgedreht: Jetzt zieht das Trum der Spannrolle. Ihre Feder gibt{at}, das Trum vor der Kurbelwelle wird lose, und dort können Zähne überspringen. Nie zurückdrehen."),
            }
        }
        Warning::TurnedBackSlack => lang
            .pick(
                "Turned back: the slack lies on the other side now, and marks read differently. Go on, and come up to the marks forwards.",
                "Zurückgedreht: Die lose Länge liegt jetzt auf der anderen Seite, und Markierungen stehen anders. Weiterdrehen und die Markierungen vorwärts anfahren.",
            )
            .to_owned(),
        Warning::StillHeld { wheels } => {
            let shafts = all(wheels);
            match lang {
                Lang::En => format!("Still held: {shafts}. Let go before turning over."),
                Lang::De => format!("Noch gehalten: {shafts}. Vor dem Durchdrehen loslassen."),
            }
        }
        Warning::BoltSlack { wheel } => {
            let shaft = name(wheel);
            match lang {
                Lang::En => format!("{shaft}: its sprocket's bolt is still slack. Tighten it before turning over, with a counter-hold on the sprocket; never against a lock, never against the belt."),
                Lang::De => format!("{shaft}: Die Schraube des Zahnrads ist noch lose. Vor dem Durchdrehen festziehen, mit Gegenhalter am Rad; nie gegen das Absteckwerkzeug, nie gegen den Riemen."),
            }
        }
        Warning::PointerOutside { at_deg, window_deg } => pointer(lang, *at_deg, *window_deg),
    }
}

fn out_of_time(lang: Lang, wheels: &[(usize, i64)], names: &[&str]) -> String {
    let each: Vec<String> = wheels
        .iter()
        .map(|(wheel, teeth)| {
            let shaft = names.get(*wheel).copied().unwrap_or_default();
            let count = lang.teeth(teeth.unsigned_abs() as f64, 0);
            match (lang, *teeth > 0) {
                (Lang::En, true) => format!("{shaft} {count} ahead"),
                (Lang::En, false) => format!("{shaft} {count} behind"),
                (Lang::De, true) => format!("{shaft} {count} zu früh"),
                (Lang::De, false) => format!("{shaft} {count} zu spät"),
            }
        })
        .collect();
    let out = list(lang, &each);
    match lang {
        Lang::En => format!(
            "Not in time: {out}. Turn it over no further and leave the pin in: tensioner back, belt off, count again."
        ),
        Lang::De => format!(
            "Steuerzeit falsch: {out}. Nicht weiter durchdrehen, Stift drin lassen: Spannrolle zurück, Riemen ab, neu zählen."
        ),
    }
}

fn may_jump(lang: Lang, at: &str, clears: bool) -> String {
    match (lang, clears) {
        (Lang::En, false) => format!(
            "An estimate: there is slack enough for the belt to climb a tooth at {at}. Turn nothing roughly."
        ),
        (Lang::En, true) => format!(
            "An estimate: there is slack enough for the belt to jump a tooth at {at}. Turn no more than needed until the tensioner is up."
        ),
        (Lang::De, false) => format!(
            "Eine Schätzung: Der Riemen ist lose genug, um bei {at} an einem Zahn hochzusteigen. Nichts ruckartig drehen."
        ),
        (Lang::De, true) => format!(
            "Eine Schätzung: Der Riemen ist lose genug, um bei {at} einen Zahn zu überspringen. Nicht mehr als nötig drehen, bis die Spannrolle sitzt."
        ),
    }
}

fn pointer(lang: Lang, at_deg: f64, [low, high]: [f64; 2]) -> String {
    let (at, low, high) = (lang.degrees(at_deg), lang.degrees(low), lang.degrees(high));
    match lang {
        Lang::En => format!(
            "The tensioner's pointer stands at {at}, outside its window of {low} to {high}."
        ),
        Lang::De => format!(
            "Der Zeiger der Spannrolle steht bei {at}, außerhalb seines Fensters von {low} bis {high}."
        ),
    }
}

/// Where a sprung eccentric's pointer stands, in a sentence; empty for a tensioner without one.
pub fn pointer_sentence(lang: Lang, reading: &advice::TensionerReading) -> String {
    let Some([low, high]) = reading.window_deg else { return String::new() };
    let inside = reading.travel >= low && reading.travel <= high;
    if !inside {
        return pointer(lang, reading.travel, [low, high]);
    }
    let (at, low, high) = (lang.degrees(reading.travel), lang.degrees(low), lang.degrees(high));
    match lang {
        Lang::En => format!("The pointer stands at {at}, in its window of {low} to {high}."),
        Lang::De => format!("Der Zeiger steht bei {at}, in seinem Fenster von {low} bis {high}."),
    }
}

/// The tensioner's travel as a reading says it.
pub fn travel(reader: Reader, travel: f64, unit: TravelUnit) -> String {
    match unit {
        TravelUnit::Mm => reader.length(travel),
        TravelUnit::Deg => reader.lang.degrees(travel),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NAMES: [&str; 3] = ["Crankshaft", "Left camshaft", "Right camshaft"];

    fn others() -> Vec<Vec<&'static str>> {
        vec![vec![], vec!["EX"], vec![]]
    }

    fn all() -> Vec<Warning> {
        let (slack_mm, slack_teeth) = (19.05, 2.0);
        vec![
            Warning::OutOfTime { wheels: vec![(1, -1), (2, 2)] },
            Warning::FarFromMark { wheel: 0, deg: 90.0 },
            Warning::HeldAtOtherMark { wheel: 1, mark: 0 },
            Warning::MayJump { wheels: vec![(0, 0.6)], clears: false },
            Warning::MayJump { wheels: vec![(0, 2.0), (1, 0.7)], clears: true },
            Warning::NothingHolds { wheels: vec![1, 2] },
            Warning::HeldOffMark { wheel: 1, deg: 4.0 },
            Warning::HeldOffMark { wheel: 1, deg: -4.0 },
            Warning::SlackElsewhere { from: 2, to: 0, slack_mm, slack_teeth, pulled: true },
            Warning::SlackElsewhere { from: 1, to: 2, slack_mm, slack_teeth, pulled: false },
            Warning::PinPulledUnchecked { turned_deg: 90.0 },
            Warning::TurnedBackPinOut { gives_way_n_m: Some(17.2) },
            Warning::TurnedBackPinOut { gives_way_n_m: None },
            Warning::TurnedBackSlack,
            Warning::StillHeld { wheels: vec![1, 2] },
            Warning::BoltSlack { wheel: 1 },
            Warning::PointerOutside { at_deg: 14.0, window_deg: [-5.0, 5.0] },
        ]
    }

    #[test]
    fn every_warning_is_whole_sentences_in_each_language() {
        for lang in Lang::ALL {
            let reader = Reader { lang, ..Reader::default() };
            for each in all() {
                let text = warning(reader, &each, &NAMES, &others());
                assert!(text.ends_with('.'), "{text}");
                assert!(
                    !text.contains("  ") && !text.contains('{') && !text.contains('\n'),
                    "{text}"
                );
            }
        }
    }

    #[test]
    fn estimates_say_so() {
        let reader = Reader::default();
        for each in all() {
            let estimate = matches!(
                each,
                Warning::MayJump { .. } | Warning::TurnedBackPinOut { gives_way_n_m: Some(_) }
            );
            let text = warning(reader, &each, &NAMES, &others()).to_lowercase();
            assert_eq!(text.contains("estimate"), estimate, "{text}");
        }
    }
}
