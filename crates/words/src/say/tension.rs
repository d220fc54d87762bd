//! How tight the belt is and what that does, in sentences.
//!
//! Must not know: how a figure was found. Nothing here says that a belt is fit to run on.

use crate::lang::{Lang, Reader};
use crate::number::NBSP;
use crate::say::marks::off_way;
use advice::{Assumed, Friction, PinMove, SeizedWheel, Tension};
use job::TensionerState;

/// What belts of hydrogenated nitrile rubber are made to run at, °C (azom.com, article 537).
const SERVICE_DEG_C: [f64; 2] = [-40.0, 150.0];
/// Held above this for long such rubber hardens and cracks, °C (pioneerdrivebelt.com, a maker's page).
const HARDENS_ABOVE_DEG_C: f64 = 85.0;

/// The tension with the pin out and nothing turning.
pub fn resting(lang: Lang, answer: &Tension) -> String {
    let Some(resting_n) = answer.resting_tension_n else {
        if answer.provisional && answer.resting_from == "spring" {
            return made_up(lang).to_owned();
        }
        return lang
            .pick(
                "How tight the belt rests is not known: this tensioner is turned and locked by hand, without a spring. Measure it at a span, by its tone or a push in its middle.",
                "Wie straff der Riemen ruht, ist nicht bekannt: Diese Spannrolle wird von Hand gedreht und festgezogen, ohne Feder. An einem freien Trum messen, am Ton oder mit einem Druck auf die Mitte.",
            )
            .to_owned();
    };
    let tension = lang.newtons(resting_n);
    let measured = format!("{}{NBSP}N", lang.short_number(resting_n, 1));
    match (lang, answer.resting_from) {
        (Lang::En, "measured") => format!("The belt rests at {measured} all round, as measured."),
        (Lang::De, "measured") => format!("Der Riemen ruht ringsum bei {measured}, wie gemessen."),
        (Lang::En, _) => format!(
            "With the pin out the belt rests at about {tension} all round, by the layout's spring and once it has been turned over so that friction has let it even out."
        ),
        (Lang::De, _) => format!(
            "Mit gezogenem Stift ruht der Riemen ringsum bei etwa {tension}: nach der Feder des Layouts und sobald er durchgedreht ist, sodass Reibung ihn hat ausgleichen lassen."
        ),
    }
}

/// That a provisional layout's forces are none.
pub const fn made_up(lang: Lang) -> &'static str {
    lang.pick(
        "How tight the belt rests is not known: this layout is provisional, and its tensioner's spring and where its wheels stand are made up. What rests on them is not told. Measure and enter them, or measure the tension at a span.",
        "Wie straff der Riemen ruht, ist nicht bekannt: Dieses Layout ist vorläufig, und die Feder seiner Spannrolle und die Lage seiner Räder sind erfunden. Was daran hängt, wird nicht gesagt. Messen und eintragen, oder die Spannung an einem Trum messen.",
    )
}

/// Where the job stands: whether the belt is tensioned at all.
pub fn tension_now(lang: Lang, state: TensionerState, belt_on: bool, rest: &Tension) -> String {
    if !belt_on {
        return lang.pick("The belt is off.", "Der Riemen ist ab.").to_owned();
    }
    match state {
        TensionerState::Back | TensionerState::DrawnBack => lang
            .pick(
                "The tensioner is drawn back: the belt has no tension yet.",
                "Die Spannrolle ist zurückgezogen: Der Riemen hat noch keine Spannung.",
            )
            .to_owned(),
        TensionerState::Pinned => lang
            .pick(
                "Before the pin: bolted up, the spring does not pull yet. What marks read now is without stretch.",
                "Vor dem Ziehen des Stifts: angeschraubt, die Feder zieht noch nicht. Was Markierungen jetzt zeigen, ist ohne Dehnung.",
            )
            .to_owned(),
        TensionerState::PinOut | TensionerState::Locked => resting(lang, rest),
    }
}

/// A mark as the belt stretches: `0.3° behind (0.04 of a tooth)`.
pub fn pin_move(lang: Lang, moves: &PinMove) -> String {
    stretched(lang, moves.mark_moves_deg, moves.mark_moves_teeth)
}

/// The same while a hand turns the crank forward.
pub fn turning_move(lang: Lang, moves: &PinMove) -> String {
    let turning = moves.turning_deg.zip(moves.turning_teeth);
    turning.map_or_else(|| "–".to_owned(), |(deg, teeth)| stretched(lang, deg, teeth))
}

fn stretched(lang: Lang, deg: f64, teeth: f64) -> String {
    if lang.number(deg, 2) == lang.number(0.0, 2) {
        return lang.pick("stays", "bleibt").to_owned();
    }
    let ahead = deg > 0.0;
    let (deg, teeth) = (lang.fine_degrees(deg.abs()), lang.teeth_off(teeth.abs()));
    format!("{deg} {} ({teeth})", off_way(lang, ahead))
}

/// What pulling the pin does to marks, told apart from a tooth.
pub fn pin_moves_sentence(reader: Reader, answer: &Tension) -> String {
    let lang = reader.lang;
    let Some(stretch_mm) = answer.belt.stretch_mm else {
        return lang
            .pick(
                "How far marks move as the belt stretches is not known: that takes the belt's tensile stiffness and its tension.",
                "Wie weit Markierungen beim Dehnen des Riemens wandern, ist nicht bekannt: Dazu braucht es seine Zugsteifigkeit und seine Spannung.",
            )
            .to_owned();
    };
    let most = answer.pin_moves.iter().map(|m| m.mark_moves_teeth.abs()).fold(0.0, f64::max);
    let stretch = reader.estimated_length(stretch_mm);
    let share = lang.teeth_off(most);
    match (lang, most < advice::HALF_A_TOOTH) {
        (Lang::En, true) => format!(
            "Pulled tight, the belt is about {stretch} longer, and marks move by up to about {share}. A mark that moves by a whole tooth has jumped or was out before."
        ),
        (Lang::En, false) => format!(
            "Pulled tight, the belt is about {stretch} longer, and marks move by up to about {share}: as much as a tooth out would show. Check the stiffness and the spring in the layout."
        ),
        (Lang::De, true) => format!(
            "Gespannt ist der Riemen um etwa {stretch} länger, und Markierungen wandern um bis zu etwa {share}. Eine Markierung, die um einen ganzen Zahn wandert, ist übersprungen oder stand schon vorher falsch."
        ),
        (Lang::De, false) => format!(
            "Gespannt ist der Riemen um etwa {stretch} länger, und Markierungen wandern um bis zu etwa {share}: so weit, wie ein falscher Zahn es zeigte. Zugsteifigkeit und Feder im Layout prüfen."
        ),
    }
}

/// What a hand needs to turn the drive forward, and how tight the run into the crank is then.
pub fn by_hand(lang: Lang, turning: &Tension) -> String {
    if turning.friction == Friction::NotEntered {
        return lang
            .pick(
                "What it takes to turn it forward by hand is not known, nor how marks and spans stand meanwhile: the layout states no shaft's friction.",
                "Was es braucht, um von Hand vorwärts zu drehen, ist nicht bekannt, auch nicht, wie Markierungen und Trume dabei stehen: Das Layout nennt für keine Welle eine Reibung.",
            )
            .to_owned();
    }
    let (Some(moment), Some(pulled)) =
        (turning.crank_moment_n_m, turning.spans.last().and_then(|span| span.tension_n))
    else {
        return String::new();
    };
    let (moment, pulled) = (lang.newton_metres(moment), lang.newtons(pulled));
    let least = if turning.friction == Friction::Part {
        lang.pick("at least about", "mindestens etwa")
    } else {
        lang.pick("about", "etwa")
    };
    match (lang, turning.gives_way) {
        (Lang::En, false) => format!(
            "Turned forward by hand it takes {least} {moment} at the crank, by the shafts' friction in the layout; the span into the crank is then at {least} {pulled}."
        ),
        (Lang::En, true) => format!(
            "Turned forward by hand it would take {least} {moment} at the crank, by the shafts' friction in the layout: more than the tensioner holds against, and a run goes slack."
        ),
        (Lang::De, false) => format!(
            "Von Hand vorwärts gedreht braucht es {least} {moment} an der Kurbelwelle, nach der Reibung der Wellen im Layout; im Trum vor der Kurbelwelle sind es dann {least} {pulled}."
        ),
        (Lang::De, true) => format!(
            "Von Hand vorwärts gedreht bräuchte es {least} {moment} an der Kurbelwelle, nach der Reibung der Wellen im Layout: mehr, als die Spannrolle hält, und ein Trum wird lose."
        ),
    }
}

/// From which moment the tensioner yields to a crank turned back; empty for one that is locked.
pub fn tension_gives_way(lang: Lang, answer: &Tension) -> String {
    let Some(gives_way_n_m) = answer.tensioner.gives_way_n_m else {
        if !answer.provisional || answer.resting_from == "not_known" {
            return String::new();
        }
        return lang
            .pick(
                "Turned back, the tensioner gives way; from which moment is not known, as its spring is made up. Never turn back.",
                "Zurückgedreht gibt die Spannrolle nach; ab welchem Moment, ist nicht bekannt, denn ihre Feder ist erfunden. Nie zurückdrehen.",
            )
            .to_owned();
    };
    let moment = lang.newton_metres(gives_way_n_m);
    match lang {
        Lang::En => format!(
            "Turned back, the tensioner gives way from about {moment} at the crank (an estimate from its spring), a hand's strength: the run into the crank goes slack. Never turn back."
        ),
        Lang::De => format!(
            "Zurückgedreht gibt die Spannrolle ab etwa {moment} an der Kurbelwelle nach (eine Schätzung aus ihrer Feder), so viel wie eine Hand aufbringt: Das Trum vor der Kurbelwelle wird lose. Nie zurückdrehen."
        ),
    }
}

/// A span's tone: `210 Hz`.
pub fn tone(lang: Lang, hz: f64) -> String {
    format!("{}{NBSP}Hz", lang.two_digits(hz))
}

/// What becomes of the belt at a wheel that no longer turns. `name` is the wheel's; `made_up`, whether the
/// tension that it would rest on is.
pub fn seized_sentence(
    lang: Lang,
    name: &str,
    assumed: &Assumed,
    made_up: bool,
    wheel: &SeizedWheel,
) -> String {
    let (Some(friction_n), Some(heat_w)) = (wheel.friction_n, wheel.heat_w) else {
        return match (lang, wheel.end) {
            (Lang::En, "engine_stands") => format!(
                "{name} seized: it drives the belt, so engine and belt stand. Nothing is pulled over it."
            ),
            (Lang::De, "engine_stands") => format!(
                "{name} fest: Sie treibt den Riemen, also stehen Motor und Riemen. Nichts wird darüber gezogen."
            ),
            (Lang::En, "strips_or_jumps") => format!(
                "{name} seized: it has teeth, so the belt cannot slide over it. It strips its teeth or jumps; no figure here says when."
            ),
            (Lang::De, "strips_or_jumps") => format!(
                "{name} fest: Es hat Zähne, der Riemen kann nicht darüber gleiten. Er schert seine Zähne ab oder springt über; keine Zahl hier sagt, wann."
            ),
            (Lang::En, _) if made_up => format!(
                "{name} seized: the belt slides over it, but its friction cannot be told, since the layout is provisional and what it rests on is made up."
            ),
            (Lang::De, _) if made_up => format!(
                "{name} fest: Der Riemen gleitet darüber, aber die Reibung lässt sich nicht sagen, denn das Layout ist vorläufig, und woran sie hängt, ist erfunden."
            ),
            (Lang::En, _) => format!(
                "{name} seized: the belt slides over it, but its friction cannot be told, since the belt's tension is not known."
            ),
            (Lang::De, _) => format!(
                "{name} fest: Der Riemen gleitet darüber, aber die Reibung lässt sich nicht sagen, denn die Spannung ist nicht bekannt."
            ),
        };
    };
    let friction = lang.estimates(friction_n, |n| lang.newtons(n));
    let heat = lang.estimates(heat_w, |w| lang.watts(w));
    let rpm = lang.range(assumed.rpm, |rpm| lang.number(rpm, 0));
    let mu = lang.range(wheel.friction, |mu| lang.number(mu, 2));
    let [least, most] = SERVICE_DEG_C.map(|deg| lang.number(deg, 0));
    let hardens = lang.number(HARDENS_ABOVE_DEG_C, 0);
    match lang {
        Lang::En => format!(
            "{name} seized: the belt slides over it with about {friction} of friction, which heats with about {heat} at {rpm} rpm. An estimate, for a coefficient of friction of {mu}. For comparison: such rubber is made for {least} to {most}{NBSP}°C, and hardens and cracks when held above {hardens}{NBSP}°C for long."
        ),
        Lang::De => format!(
            "{name} fest: Der Riemen gleitet darüber mit etwa {friction} Reibung, und das heizt mit etwa {heat} bei {rpm} U/min. Eine Schätzung, für eine Reibungszahl von {mu}. Zum Vergleich: Solches Gummi ist für {least} bis {most}{NBSP}°C gemacht; lange über {hardens}{NBSP}°C gehalten, wird es hart und reißt."
        ),
    }
}

/// A range of turns, to two digits: `2500 to 5000`.
pub fn turns_range(lang: Lang, range: [f64; 2]) -> String {
    lang.range(range, |turns| {
        let mut unit = 1.0;
        while turns / unit >= 100.0 {
            unit *= 10.0;
        }
        lang.number((turns / unit).round() * unit, 0)
    })
}

/// How often the belt goes round, and what that rests on.
pub fn turns_sentence(lang: Lang, answer: &Tension) -> String {
    let crank = lang.range(answer.assumed.crank_turns_per_km, |turns| lang.number(turns, 0));
    let laps = turns_range(lang, answer.belt.laps_per_km);
    let meets = turns_range(lang, answer.belt.tooth_meets_per_km);
    match lang {
        Lang::En => format!(
            "In a kilometre the belt goes round {laps} times, and each of its teeth runs into a groove {meets} times. An estimate, for {crank} crank turns in a kilometre (2500 rpm are 1500 at 100 km/h and 3000 at 50 km/h)."
        ),
        Lang::De => format!(
            "Auf einem Kilometer läuft der Riemen {laps}-mal um, und jeder seiner Zähne läuft {meets}-mal in eine Zahnlücke. Eine Schätzung, für {crank} Kurbelumdrehungen je Kilometer (2500 U/min sind 1500 bei 100 km/h und 3000 bei 50 km/h)."
        ),
    }
}

/// What the figures beside a job rest on.
pub const fn tension_rests_on(lang: Lang, answer: &Tension) -> &'static str {
    if answer.provisional {
        return made_up(lang);
    }
    lang.pick(
        "Estimates from the layout's spring, belt stiffness and shaft friction, on the best tooth. The picture and the marks above leave stretch out. None of it says that a belt is fit to run on.",
        "Schätzungen aus Feder, Zugsteifigkeit und Wellenreibung im Layout, auf dem besten Zahn. Bild und Markierungen oben lassen die Dehnung weg. Nichts davon sagt, dass ein Riemen weiterlaufen darf.",
    )
}

/// What the figures as a whole rest on.
pub fn tension_assumes(lang: Lang, answer: &Tension) -> &'static str {
    match answer.state {
        _ if answer.provisional => lang.pick(
            "This layout is provisional: only what follows from its tooth counts is told. It does not say that a belt or a bearing is fit to run on.",
            "Dieses Layout ist vorläufig: Gesagt wird nur, was aus seinen Zähnezahlen folgt. Es sagt nicht, dass ein Riemen oder Lager weiterlaufen darf.",
        ),
        "turning" if answer.friction == Friction::NotEntered => lang.pick(
            "Spans and bearings as at rest: no shaft's friction is entered, so what turning adds is not known; a running engine's shafts pull unevenly and more. A calculation from figures that somebody entered: it does not say that a belt or a bearing is fit to run on.",
            "Trume und Lager wie in Ruhe: Für keine Welle ist eine Reibung eingetragen, darum ist nicht bekannt, was das Drehen hinzufügt; die Wellen eines laufenden Motors ziehen ungleichmäßig und mehr. Eine Rechnung aus Zahlen, die jemand eingetragen hat: Sie sagt nicht, dass ein Riemen oder Lager weiterlaufen darf.",
        ),
        "turning" => lang.pick(
            "Spans and bearings while it turns, each sprocket taking the moment given or else its friction by hand from the layout, smooth wheels free; a running engine's shafts pull unevenly and more. A calculation from figures that somebody entered: it does not say that a belt or a bearing is fit to run on.",
            "Trume und Lager beim Drehen; jedes Zahnrad nimmt das angegebene Moment oder sonst seine Reibung von Hand aus dem Layout, glatte Räder laufen frei. Die Wellen eines laufenden Motors ziehen ungleichmäßig und mehr. Eine Rechnung aus Zahlen, die jemand eingetragen hat: Sie sagt nicht, dass ein Riemen oder Lager weiterlaufen darf.",
        ),
        _ => lang.pick(
            "Spans and bearings at rest. A calculation from figures that somebody entered: it does not say that a belt or a bearing is fit to run on.",
            "Trume und Lager in Ruhe. Eine Rechnung aus Zahlen, die jemand eingetragen hat: Sie sagt nicht, dass ein Riemen oder Lager weiterlaufen darf.",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turns_are_told_no_finer_than_they_are_known() {
        assert_eq!(turns_range(Lang::En, [1234.0, 5678.0]), "1200 to 5700");
        assert_eq!(turns_range(Lang::De, [208.2, 416.4]), "210 bis 420");
        assert_eq!(turns_range(Lang::En, [48_123.0, 48_123.0]), "48000");
    }
}
