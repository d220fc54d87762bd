//! What an action came to, and what undo and redo would take back or do again.
//!
//! Must not know: why it was done.

use crate::lang::{Lang, Reader};
use crate::say::{list, travel};
use engine::Kind;
use job::{
    Action, Contact, Did, HangAs, Moved, Outcome, Step, Stopped, TensionerMove, TensionerState,
    TensionerStop,
};
use layout::TravelUnit;

/// A shaft that moved by less than this is not worth telling, degrees.
const TOLD_FROM_DEG: f64 = 0.05;

/// What was done and what else that moved, in a sentence or a few. `names` by wheel index.
pub fn outcome(reader: Reader, outcome: &Outcome, names: &[&str], unit: TravelUnit) -> String {
    let lang = reader.lang;
    let mut text = did(reader, &outcome.did, names, unit);
    let name = |i: usize| names.get(i).copied().unwrap_or_default();
    for Moved { wheel, deg } in outcome.gave.iter().filter(|moved| is_worth_telling(moved)) {
        let (shaft, by) = (name(*wheel), way(lang, *deg));
        text.push_str(&match lang {
            Lang::En => format!(
                " {shaft} cannot be held just there: the belt reaches only with it {by}, and holds it so."
            ),
            Lang::De => format!(
                " {shaft} lässt sich genau dort nicht halten: Der Riemen reicht nur, wenn sie {by} steht, und hält sie so."
            ),
        });
    }
    let drawn: Vec<String> = outcome
        .drew
        .iter()
        .filter(|moved| is_worth_telling(moved))
        .map(|Moved { wheel, deg }| format!("{} {}", name(*wheel), way(lang, *deg)))
        .collect();
    if !drawn.is_empty() {
        let drawn = list(lang, &drawn);
        text.push_str(&match lang {
            Lang::En => format!(" The belt draws along: {drawn}."),
            Lang::De => format!(" Der Riemen zieht mit: {drawn}."),
        });
    }
    for Moved { wheel, deg } in &outcome.sprang {
        let (shaft, by) = (name(*wheel), way(lang, *deg));
        text.push_str(&match lang {
            Lang::En => format!(" Nothing holds {shaft}: its valve springs turn it {by}."),
            Lang::De => format!(" {shaft} hält nichts: Ihre Ventilfedern drehen sie {by}."),
        });
    }
    if let Some(at) = outcome.took_up {
        let at = travel(reader, at, unit);
        text.push_str(&match lang {
            Lang::En => format!(" The tensioner takes up what it can, to {at} of travel."),
            Lang::De => format!(" Die Spannrolle nimmt auf, was sie kann, bis {at} Weg."),
        });
    }
    text
}

/// Whether anybody would see a shaft move so far.
fn is_worth_telling(moved: &Moved) -> bool {
    moved.deg.abs() > TOLD_FROM_DEG
}

/// `7.5° forward`, `7.5° back`.
fn way(lang: Lang, deg: f64) -> String {
    let by = lang.fine_degrees(deg.abs());
    match (lang, deg < 0.0) {
        (Lang::En, false) => format!("{by} forward"),
        (Lang::En, true) => format!("{by} back"),
        (Lang::De, false) => format!("{by} vorwärts"),
        (Lang::De, true) => format!("{by} zurück"),
    }
}

/// What stopped a turn, as the end of a sentence.
fn stopped(lang: Lang, by: Option<Stopped>, names: &[&str]) -> String {
    let name = |i: usize| names.get(i).copied().unwrap_or_default();
    match (by, lang) {
        (None, _) => ".".to_owned(),
        (Some(Stopped::Held(wheel)), Lang::En) => {
            format!("; there the belt is tight, and {} is held.", name(wheel))
        }
        (Some(Stopped::Held(wheel)), Lang::De) => {
            format!("; dort ist der Riemen straff, und {} ist gehalten.", name(wheel))
        }
        (Some(Stopped::Contact(contact)), _) => contact_stop(lang, contact, name(contact.wheel)),
    }
}

fn contact_stop(lang: Lang, contact: Contact, camshaft: &str) -> String {
    let cylinder = contact.cylinder + 1;
    match (lang, contact.valve) {
        (Lang::En, Kind::Intake) => format!(
            "; it stops hard: an intake valve of cylinder {cylinder} ({camshaft}) is against its piston, by the layout's figures. On an engine go back the way it came and find out why."
        ),
        (Lang::En, Kind::Exhaust) => format!(
            "; it stops hard: an exhaust valve of cylinder {cylinder} ({camshaft}) is against its piston, by the layout's figures. On an engine go back the way it came and find out why."
        ),
        (Lang::De, Kind::Intake) => format!(
            "; harter Anschlag: Ein Einlassventil von Zylinder {cylinder} ({camshaft}) liegt am Kolben an, nach den Maßen des Layouts. Am Motor auf demselben Weg zurück und die Ursache suchen."
        ),
        (Lang::De, Kind::Exhaust) => format!(
            "; harter Anschlag: Ein Auslassventil von Zylinder {cylinder} ({camshaft}) liegt am Kolben an, nach den Maßen des Layouts. Am Motor auf demselben Weg zurück und die Ursache suchen."
        ),
    }
}

fn did(reader: Reader, did: &Did, names: &[&str], unit: TravelUnit) -> String {
    let lang = reader.lang;
    let name = |i: usize| names.get(i).copied().unwrap_or_default();
    match did {
        Did::Turned { wheel, deg, stopped_by } => {
            let (shaft, by) = (name(*wheel), way(lang, *deg));
            let end = stopped(lang, *stopped_by, names);
            match lang {
                Lang::En => format!("{shaft} turned {by}{end}"),
                Lang::De => format!("{shaft} {by} gedreht{end}"),
            }
        }
        Did::TurnedTo { crank_deg, stopped_by } => {
            let at = lang.degrees(*crank_deg);
            let end = stopped(lang, *stopped_by, names);
            match lang {
                Lang::En => format!("Crank turned to {at}{end}"),
                Lang::De => format!("Kurbelwelle auf {at} gedreht{end}"),
            }
        }
        Did::BroughtForward { wheel, deg, stopped_by: Some(by @ Stopped::Contact(_)) } => {
            let (shaft, by_deg) = (name(*wheel), way(lang, *deg));
            let end = stopped(lang, Some(*by), names);
            match lang {
                Lang::En => format!("{shaft} brought {by_deg}{end}"),
                Lang::De => format!("{shaft} {by_deg} geholt{end}"),
            }
        }
        Did::BroughtForward { wheel, deg, .. } => {
            let shaft = name(*wheel);
            if *deg == 0.0 {
                return match lang {
                    Lang::En => format!("The belt into {shaft} is tight already."),
                    Lang::De => format!("Der Riemen vor {shaft} ist schon straff."),
                };
            }
            let by = way(lang, *deg);
            match lang {
                Lang::En => format!("{shaft} brought {by}: the belt into it is tight."),
                Lang::De => format!("{shaft} {by} geholt: Der Riemen davor ist straff."),
            }
        }
        Did::Held { wheel, locked } => {
            let shaft = name(*wheel);
            match (lang, locked) {
                (Lang::En, false) => format!("{shaft} held where it stands."),
                (Lang::En, true) => format!("{shaft} locked in its timed place."),
                (Lang::De, false) => format!("{shaft} gehalten, wo sie steht."),
                (Lang::De, true) => format!("{shaft} in Steuerzeitenstellung abgesteckt."),
            }
        }
        Did::Released { wheel } => {
            let shaft = name(*wheel);
            match lang {
                Lang::En => format!("{shaft} let go."),
                Lang::De => format!("{shaft} losgelassen."),
            }
        }
        Did::Slackened { wheel } => {
            let shaft = name(*wheel);
            match lang {
                Lang::En => format!("{shaft}: sprocket bolt slackened; the sprocket floats on its shaft."),
                Lang::De => format!("{shaft}: Schraube des Zahnrads gelöst; das Rad ist auf der Welle verdrehbar."),
            }
        }
        Did::Tightened { wheel, slip_deg } => {
            let (shaft, by) = (name(*wheel), way(lang, *slip_deg));
            if lang.number(*slip_deg, 1) == lang.number(0.0, 1) {
                return match lang {
                    Lang::En => format!("{shaft}: sprocket bolt tight, the sprocket where it was."),
                    Lang::De => format!("{shaft}: Schraube des Zahnrads fest, das Rad wo es war."),
                };
            }
            match lang {
                Lang::En => format!("{shaft}: sprocket bolt tight, the sprocket {by} on its shaft."),
                Lang::De => format!("{shaft}: Schraube des Zahnrads fest, das Rad {by} auf der Welle."),
            }
        }
        Did::TakenOff => lang.pick("The belt is off.", "Der Riemen ist ab.").to_owned(),
        Did::Hung { in_time: true } => lang
            .pick(
                "Belt put on with the teeth that bring every mark in time.",
                "Riemen aufgelegt, mit den Zähnen, die jede Markierung stimmen lassen.",
            )
            .to_owned(),
        Did::Hung { in_time: false } => lang
            .pick(
                "Belt put on, with other teeth between the marks than bring them in time.",
                "Riemen aufgelegt, mit anderen Zähnezahlen zwischen den Markierungen als richtig wären.",
            )
            .to_owned(),
        Did::TensionerMoved { travel, state, stopped } => {
            tensioner(reader, *travel, *state, *stopped, unit)
        }
        Did::TeethSet(set) => teeth_set(lang, set, names),
    }
}

fn tensioner(
    reader: Reader,
    travel: f64,
    state: TensionerState,
    stopped: Option<TensionerStop>,
    unit: TravelUnit,
) -> String {
    let lang = reader.lang;
    let at = self::travel(reader, travel, unit);
    let moved = match (lang, state) {
        (Lang::En, TensionerState::Back) => format!("Tensioner fully back, at {at} of travel"),
        (Lang::En, TensionerState::DrawnBack) => format!("Tensioner at {at} of travel"),
        (Lang::En, TensionerState::Pinned) => {
            format!("Tensioner bolted up with its pin in, at {at} of travel")
        }
        (Lang::En, TensionerState::PinOut) => {
            format!("Pin out: the tensioner stands at {at} of travel")
        }
        (Lang::En, TensionerState::Locked) => {
            format!("Tensioner turned to {at} of travel and locked")
        }
        (Lang::De, TensionerState::Back) => format!("Spannrolle ganz zurück, bei {at} Weg"),
        (Lang::De, TensionerState::DrawnBack) => format!("Spannrolle bei {at} Weg"),
        (Lang::De, TensionerState::Pinned) => {
            format!("Spannrolle angeschraubt, Stift steckt, bei {at} Weg")
        }
        (Lang::De, TensionerState::PinOut) => {
            format!("Stift gezogen: Die Spannrolle steht bei {at} Weg")
        }
        (Lang::De, TensionerState::Locked) => {
            format!("Spannrolle auf {at} Weg gedreht und festgezogen")
        }
    };
    let end = match stopped {
        None => "",
        Some(TensionerStop::End) if state == TensionerState::DrawnBack => {
            lang.pick(": it goes no further", ": weiter geht es nicht")
        }
        Some(TensionerStop::End) => "",
        Some(TensionerStop::Holds) => lang.pick(
            ": it goes no further, since the belt is tight between shafts that are held",
            ": weiter geht es nicht, der Riemen ist zwischen gehaltenen Wellen straff",
        ),
    };
    format!("{moved}{end}.")
}

fn teeth_set(lang: Lang, set: &[(usize, i64)], names: &[&str]) -> String {
    if set.is_empty() {
        return lang.pick("Nothing changed.", "Nichts geändert.").to_owned();
    }
    let parts: Vec<String> = set
        .iter()
        .map(|(wheel, teeth)| {
            let shaft = names.get(*wheel).copied().unwrap_or_default();
            let count = lang.teeth(teeth.unsigned_abs() as f64, 0);
            match (lang, *teeth) {
                (Lang::En, 0) => format!("{shaft} in time"),
                (Lang::De, 0) => format!("{shaft}: Steuerzeit stimmt"),
                (Lang::En, 1..) => format!("{shaft} {count} ahead"),
                (Lang::En, _) => format!("{shaft} {count} behind"),
                (Lang::De, 1..) => format!("{shaft} {count} zu früh"),
                (Lang::De, _) => format!("{shaft} {count} zu spät"),
            }
        })
        .collect();
    format!("{}.", parts.join(", "))
}

/// What a step is called in the history: `turn the crank`.
pub fn step_name(lang: Lang, step: &Step) -> &'static str {
    match step {
        Step::Done(action) => action_name(lang, action),
        Step::Opened => lang.pick("change the layout", "Layout wechseln"),
    }
}

fn action_name(lang: Lang, action: &Action) -> &'static str {
    match action {
        Action::Turn { .. } => lang.pick("turn a shaft", "Welle drehen"),
        Action::TurnTo { .. } => lang.pick("turn the crank", "Kurbelwelle drehen"),
        Action::BringForward { .. } => lang.pick("bring a shaft forward", "Welle nach vorn holen"),
        Action::Hold { .. } => lang.pick("hold a shaft", "Welle halten"),
        Action::Release { .. } => lang.pick("let a shaft go", "Welle loslassen"),
        Action::Slacken { .. } => {
            lang.pick("slacken a sprocket's bolt", "Schraube des Zahnrads lösen")
        }
        Action::Tighten { .. } => {
            lang.pick("tighten a sprocket's bolt", "Schraube des Zahnrads festziehen")
        }
        Action::Belt(_) => lang.pick("take the belt off", "Riemen abnehmen"),
        Action::Hang(HangAs::InTime | HangAs::AsItFalls | HangAs::Teeth(_)) => {
            lang.pick("put the belt on", "Riemen auflegen")
        }
        Action::TensionerTo { .. } => lang.pick("move the tensioner", "Spannrolle bewegen"),
        Action::Tensioner(TensionerMove::Back) => {
            lang.pick("draw the tensioner right back", "Spannrolle ganz zurückziehen")
        }
        Action::Tensioner(TensionerMove::BoltUp) => {
            lang.pick("bolt the tensioner up", "Spannrolle anschrauben")
        }
        Action::Tensioner(TensionerMove::PullPin) => {
            lang.pick("pull the pin", "Sicherungsstift ziehen")
        }
        Action::SetTeeth(_) => lang.pick("put a shaft teeth out", "Welle um Zähne versetzen"),
    }
}
