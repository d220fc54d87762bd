//! The engine behind the belt in words: whether valves can meet pistons, what teeth out do to them, and
//! what may be turned with the belt off.
//!
//! Must not know: how any of it was worked out. No verdict goes beyond the figures.

use crate::lang::{Lang, Reader, Units};
use crate::say::list;
use advice::{BeltOff, CamshaftOut, CrankingOut, FreedomReport, MoveReport, NearParts, ValveOut};
use engine::{AnyAngle, Between, Contact, Kind, LeastGap, Snap, Turns};

/// That a gap is a calculation: said at every figure.
pub const fn only_figures(lang: Lang) -> &'static str {
    lang.pick(
        "A calculation from figures that somebody entered, not a licence to turn an engine.",
        "Eine Rechnung aus Maßen, die jemand eingetragen hat, keine Erlaubnis, einen Motor zu drehen.",
    )
}

/// That a layout has no engine.
pub const fn no_engine(lang: Lang) -> &'static str {
    lang.pick(
        "No engine figures in this layout: degrees only.",
        "Keine Motormaße in diesem Layout: nur Grad.",
    )
}

/// Interference or free-wheeling, for these figures.
pub fn contact(reader: Reader, any: Option<&AnyAngle>) -> String {
    let lang = reader.lang;
    let Some(any) = any else {
        return lang
            .pick(
                "Whether valves can meet pistons cannot be told: the layout has too few figures.",
                "Ob Ventile auf Kolben treffen können, lässt sich nicht sagen: Dem Layout fehlen Maße.",
            )
            .to_owned();
    };
    let gap = gap_mm(reader, any.worst_gap_mm.abs());
    let rest = if any.all_known {
        ""
    } else {
        lang.pick(
            " Not every valve has its figures: another may be worse.",
            " Nicht jedes Ventil hat seine Maße: Ein anderes kann schlechter stehen.",
        )
    };
    match (lang, any.contact) {
        (Lang::En, Contact::Interference) => format!(
            "Interference engine, by these figures: a valve open furthest would reach {gap} into a piston at its top.{rest}"
        ),
        (Lang::En, Contact::FreeWheeling) => format!(
            "Free-wheeling engine, by these figures: with a valve open furthest and its piston at the top {gap} are left.{rest}"
        ),
        (Lang::De, Contact::Interference) => format!(
            "Kein Freiläufer, nach diesen Maßen: Ein ganz offenes Ventil reichte {gap} in einen Kolben am oberen Totpunkt.{rest}"
        ),
        (Lang::De, Contact::FreeWheeling) => format!(
            "Freiläufer, nach diesen Maßen: Bei ganz offenem Ventil und Kolben am oberen Totpunkt bleiben {gap}.{rest}"
        ),
    }
}

/// Figures of an engine are given to a tenth of a millimetre: nearer than this nothing is told, mm.
const CLOSE_MM: f64 = 0.1;

/// A gap to a tenth of a millimetre; in inches to a thousandth. One that would round to nothing is less than
/// the last place told.
pub fn gap_mm(reader: Reader, mm: f64) -> String {
    let lang = reader.lang;
    let (places, last) = match reader.units {
        Units::Inch => (3, 0.001),
        Units::Metric => (1, 0.1),
    };
    let number = lang.number(reader.in_unit(mm), places);
    if number == lang.number(0.0, places) {
        let last = lang.number(last, places);
        let less = lang.pick("less than", "weniger als");
        return format!("{less} {last}\u{a0}{}", reader.unit());
    }
    format!("{number}\u{a0}{}", reader.unit())
}

/// What the present choice does to one camshaft, in a sentence or two.
pub fn bank(reader: Reader, c: &CamshaftOut, name: &str) -> String {
    let lang = reader.lang;
    let how = how_far(lang, c.teeth);
    let Some((valve, least)) = c.worst() else {
        return match lang {
            Lang::En => {
                format!("{name} {how}: no gap can be told, its valves have too few figures.")
            }
            Lang::De => {
                format!("{name} {how}: kein Abstand zu nennen, seine Ventile haben zu wenige Maße.")
            }
        };
    };
    let which = valve_of(lang, valve.kind);
    let place = at_top(lang, least.at_deg);
    let gap = gap_mm(reader, least.along_bore_mm.abs());
    let touches = least.along_bore_mm < 0.0;
    let first = match (lang, touches) {
        (Lang::En, true) => format!(
            "{name} {how}: by these figures the {which} valve and its piston would be {gap} in each other's way, most {place}."
        ),
        (Lang::En, false) => format!(
            "{name} {how}: no valve of it touches a piston, by these figures; nearest is the {which} valve with {gap}, {place}."
        ),
        (Lang::De, true) => format!(
            "{name} {how}: Nach diesen Maßen wären {which}ventil und Kolben sich {gap} im Weg, am meisten {place}."
        ),
        (Lang::De, false) => format!(
            "{name} {how}: Nach diesen Maßen berührt keins der Ventile einen Kolben; am nächsten kommt das {which}ventil mit {gap}, {place}."
        ),
    };
    let mut all = vec![first];
    if least.along_bore_mm.abs() < CLOSE_MM {
        all.push(
            lang.pick(
                "That is too close to call: the figures are given to a tenth of a millimetre.",
                "Das ist zu knapp für ein Urteil: Die Maße sind auf Zehntelmillimeter angegeben.",
            )
            .to_owned(),
        );
    }
    all.extend(Some(touch_from(lang, c)).filter(|told| !told.is_empty()));
    if !touches && is_past_touching(c) {
        all.push(
            lang.pick(
                "So far out it passes again; on the way there it would not have.",
                "So weit daneben geht es wieder vorbei; auf dem Weg dorthin nicht.",
            )
            .to_owned(),
        );
    }
    all.join(" ")
}

fn is_past_touching(c: &CamshaftOut) -> bool {
    let beyond =
        |first: Option<u32>, teeth: i64| first.is_some_and(|first| teeth > i64::from(first));
    c.first_touch.is_some_and(|touch| beyond(touch.early, c.teeth) || beyond(touch.late, -c.teeth))
}

/// At how many teeth it would touch, counted from in time.
fn touch_from(lang: Lang, c: &CamshaftOut) -> String {
    let Some(touch) = c.first_touch else { return String::new() };
    // In German behind "ab".
    let count = |teeth: u32| lang.teeth(f64::from(teeth), 0).replace("Zähne", "Zähnen");
    if touch.early == Some(0) || touch.late == Some(0) {
        return lang
            .pick(
                "It touches even in time, by these figures: check them.",
                "Es berührt sogar mit richtiger Steuerzeit: Die Maße prüfen.",
            )
            .to_owned();
    }
    match (lang, touch.early, touch.late) {
        (Lang::En, None, None) => "It touches at no number of teeth.".to_owned(),
        (Lang::En, Some(early), None) => format!("It would touch from {} early.", count(early)),
        (Lang::En, None, Some(late)) => format!("It would touch from {} late.", count(late)),
        (Lang::En, Some(early), Some(late)) => {
            format!("It would touch from {} early or {} late.", count(early), count(late))
        }
        (Lang::De, None, None) => "Es berührt bei keiner Zähnezahl.".to_owned(),
        (Lang::De, Some(early), None) => format!("Berührung ab {} zu früh.", count(early)),
        (Lang::De, None, Some(late)) => format!("Berührung ab {} zu spät.", count(late)),
        (Lang::De, Some(early), Some(late)) => {
            format!("Berührung ab {} zu früh oder {} zu spät.", count(early), count(late))
        }
    }
}

fn how_far(lang: Lang, teeth: i64) -> String {
    let count = lang.teeth(teeth.unsigned_abs() as f64, 0);
    match (lang, teeth) {
        (Lang::En, 0) => "in time".to_owned(),
        (Lang::De, 0) => "mit richtiger Steuerzeit".to_owned(),
        (Lang::En, 1..) => format!("{count} early"),
        (Lang::En, _) => format!("{count} late"),
        (Lang::De, 1..) => format!("{count} zu früh"),
        (Lang::De, _) => format!("{count} zu spät"),
    }
}

/// `intake`, `Einlass`.
fn valve_of(lang: Lang, kind: Kind) -> &'static str {
    match kind {
        Kind::Intake => lang.pick("intake", "Einlass"),
        Kind::Exhaust => lang.pick("exhaust", "Auslass"),
    }
}

/// A kind of valve as a row's name.
pub const fn valve_name(lang: Lang, kind: Kind) -> &'static str {
    match kind {
        Kind::Intake => lang.pick("Intake valves", "Einlassventile"),
        Kind::Exhaust => lang.pick("Exhaust valves", "Auslassventile"),
    }
}

/// `12° after its overlap top`.
fn at_top(lang: Lang, deg: f64) -> String {
    let by = lang.degrees(deg.abs());
    if lang.number(deg, 1) == lang.number(0.0, 1) {
        return lang.pick("at its overlap top", "am Überschneidungs-OT").to_owned();
    }
    match (lang, deg > 0.0) {
        (Lang::En, true) => format!("{by} after its overlap top"),
        (Lang::En, false) => format!("{by} before its overlap top"),
        (Lang::De, true) => format!("{by} nach dem Überschneidungs-OT"),
        (Lang::De, false) => format!("{by} vor dem Überschneidungs-OT"),
    }
}

/// A least gap and where: `3.1 mm, 12° after its overlap top`; `touches: 0.40 mm too little`.
pub fn least_gap(reader: Reader, least: &LeastGap) -> String {
    let lang = reader.lang;
    let gap = gap_mm(reader, least.along_bore_mm.abs());
    let place = at_top(lang, least.at_deg);
    if least.along_bore_mm < 0.0 {
        return match lang {
            Lang::En => format!("touches: {gap} too little, {place}"),
            Lang::De => format!("berührt: {gap} zu wenig, {place}"),
        };
    }
    format!("{gap}, {place}")
}

/// A valve's events: `10° before top to 50° after bottom`.
pub fn events(lang: Lang, v: &ValveOut, in_time: bool) -> String {
    let (opens, closes) = v.events[usize::from(in_time)].before_after_deg(v.kind);
    let (top, bottom) = (lang.pick("top", "OT"), lang.pick("bottom", "UT"));
    let (first, last) = match v.kind {
        Kind::Intake => (top, bottom),
        Kind::Exhaust => (bottom, top),
    };
    let side = |deg: f64, before: bool, centre: &str| {
        let word = if (deg >= 0.0) == before {
            lang.pick("before", "vor")
        } else {
            lang.pick("after", "nach")
        };
        format!("{} {word} {centre}", lang.degrees(deg.abs()))
    };
    let to = lang.pick("to", "bis");
    format!("{} {to} {}", side(opens, true, first), side(closes, false, last))
}

/// Overlap and separation: `22° overlap, 110° between lobes`.
pub fn between(lang: Lang, b: &Between) -> String {
    let (overlap, lobes) = (lang.degrees(b.overlap_deg), lang.degrees(b.separation_cam_deg));
    match lang {
        Lang::En => format!("{overlap} overlap, lobes {lobes} apart (camshaft)"),
        Lang::De => format!("{overlap} Überschneidung, Spreizung {lobes} (Nockenwelle)"),
    }
}

/// A cranking pressure: a range where nobody chose an exponent.
pub fn pressure(lang: Lang, c: &CrankingOut, chosen: bool) -> String {
    let bar = |x: f64| lang.number(x, 1);
    let gauge = lang.pick("on a gauge", "am Manometer");
    let absolute = lang.pick("absolute", "absolut");
    if chosen {
        return format!(
            "{}\u{a0}bar {gauge} ({}\u{a0}bar {absolute})",
            bar(c.gauge_bar[1]),
            bar(c.absolute_bar[1])
        );
    }
    let to = lang.pick("to", "bis");
    format!(
        "{} {to} {}\u{a0}bar {gauge} ({} {to} {}\u{a0}bar {absolute})",
        bar(c.gauge_bar[0]),
        bar(c.gauge_bar[2]),
        bar(c.absolute_bar[0]),
        bar(c.absolute_bar[2])
    )
}

/// From where a cranking pressure is counted: `counted from the intake valve's closing, 50° after bottom`.
pub fn counted_from(reader: Reader, c: &CrankingOut) -> String {
    let lang = reader.lang;
    let by = lang.degrees(c.closes_abdc_deg.abs());
    let side = match (lang, c.closes_abdc_deg < 0.0) {
        (Lang::En, true) => format!("{by} before bottom"),
        (Lang::En, false) => format!("{by} after bottom"),
        (Lang::De, true) => format!("{by} vor UT"),
        (Lang::De, false) => format!("{by} nach UT"),
    };
    let lift = match (lang, c.shut_at_lift_mm > 0.0) {
        (_, false) => String::new(),
        (Lang::En, true) => format!(", at {} of lift", reader.length(c.shut_at_lift_mm)),
        (Lang::De, true) => format!(", bei {} Hub", reader.length(c.shut_at_lift_mm)),
    };
    match lang {
        Lang::En => format!("counted from the intake valve's closing, {side}{lift}"),
        Lang::De => format!("gerechnet ab Einlass schließt, {side}{lift}"),
    }
}

/// That nothing is squeezed: a valve is open.
pub const fn no_compression(lang: Lang, open: Kind) -> &'static str {
    match open {
        Kind::Intake => lang.pick(
            "No compression: by these figures the intake valve is open at the firing top, or shuts before the charge is in.",
            "Keine Kompression: Nach diesen Maßen ist das Einlassventil am Zünd-OT offen oder schließt, bevor die Ladung darin ist.",
        ),
        Kind::Exhaust => lang.pick(
            "No compression: by these figures the exhaust valve is open while the piston comes up to fire.",
            "Keine Kompression: Nach diesen Maßen ist das Auslassventil offen, während der Kolben zum Zünden hochkommt.",
        ),
    }
}

/// How a cranking pressure compares with that in time: `12 % lower than in time`.
pub fn pressure_change(lang: Lang, [now, time]: &[CrankingOut; 2]) -> String {
    let change = now.gauge_bar[1] / time.gauge_bar[1] - 1.0;
    let by = format!("{}\u{a0}%", lang.number(change.abs() * 100.0, 0));
    if lang.number(change * 100.0, 0) == lang.number(0.0, 0) {
        return lang.pick("as in time", "wie mit richtiger Steuerzeit").to_owned();
    }
    match (lang, change > 0.0) {
        (Lang::En, true) => format!("{by} higher than in time"),
        (Lang::En, false) => format!("{by} lower than in time"),
        (Lang::De, true) => format!("{by} höher als mit richtiger Steuerzeit"),
        (Lang::De, false) => format!("{by} niedriger als mit richtiger Steuerzeit"),
    }
}

/// Which way a camshaft wants to turn at its mark; empty where that is not known.
pub fn snap(lang: Lang, snap: Option<&Snap>) -> String {
    let Some(snap) = snap else { return String::new() };
    let size = snap.moment_n_m.map(|moment| {
        let moment = lang.number(moment.abs(), 1);
        match lang {
            Lang::En => format!(", with about {moment}\u{a0}N·m by its springs' figures"),
            Lang::De => format!(", mit etwa {moment}\u{a0}N·m nach den Maßen ihrer Federn"),
        }
    });
    let size = size.unwrap_or_default();
    match (lang, snap.turns) {
        (Lang::En, Turns::Forward) => {
            format!("At its mark its valve springs push it forward{size}.")
        }
        (Lang::En, Turns::Back) => format!("At its mark its valve springs push it back{size}."),
        (Lang::En, Turns::Neither) => {
            "At its mark its valve springs push it neither way.".to_owned()
        }
        (Lang::De, Turns::Forward) => {
            format!("An ihrer Markierung drücken die Ventilfedern sie vorwärts{size}.")
        }
        (Lang::De, Turns::Back) => {
            format!("An ihrer Markierung drücken die Ventilfedern sie zurück{size}.")
        }
        (Lang::De, Turns::Neither) => {
            "An ihrer Markierung drücken die Ventilfedern sie nirgendwohin.".to_owned()
        }
    }
}

/// Two parts that meet: `the intake valve of cylinder 3 and its piston`.
pub fn parts(lang: Lang, p: &NearParts) -> String {
    let cylinder = p.cylinder;
    match (lang, p.valve) {
        (Lang::En, Some(valve)) => {
            format!("the {valve} valve of cylinder {cylinder} and its piston")
        }
        (Lang::En, None) => format!("both valves of cylinder {cylinder}"),
        (Lang::De, Some("intake")) => {
            format!("das Einlassventil von Zylinder {cylinder} und sein Kolben")
        }
        (Lang::De, Some(_)) => format!("das Auslassventil von Zylinder {cylinder} und sein Kolben"),
        (Lang::De, None) => format!("beide Ventile von Zylinder {cylinder}"),
    }
}

/// How far a shaft may turn: `34° back, all the way forward`.
pub fn freedom(lang: Lang, f: &FreedomReport) -> String {
    let side = |deg: Option<f64>, meets: Option<&NearParts>, word: &str| match (deg, meets) {
        (Some(deg), Some(meets)) => {
            let (by, meets) = (lang.degrees(deg), parts(lang, meets));
            format!("{by} {word} ({meets})")
        }
        _ => match lang {
            Lang::En => format!("all the way {word}"),
            Lang::De => format!("ganz herum {word}"),
        },
    };
    let back = side(f.back_deg, f.back_meets.as_ref(), lang.pick("back", "zurück"));
    let forward = side(f.forward_deg, f.forward_meets.as_ref(), lang.pick("forward", "vorwärts"));
    format!("{back}; {forward}")
}

/// The belt off, in sentences: what is missing, or how near things are and whether there is a way.
pub fn belt_off(reader: Reader, answer: &BeltOff) -> String {
    let lang = reader.lang;
    if let Some(missing) = &answer.missing {
        return match lang {
            Lang::En => {
                format!("Nothing can be said with the belt off: the layout lacks {missing}.")
            }
            Lang::De => format!(
                "Bei abgenommenem Riemen lässt sich nichts sagen: Dem Layout fehlt {missing}."
            ),
        };
    }
    let mut all = Vec::new();
    if let Some(near) = &answer.nearest {
        let (gap, meets) = (gap_mm(reader, near.gap_mm.abs()), parts(lang, &near.parts));
        let (touching, sum) = (near.gap_mm.abs() < CLOSE_MM, near.parts.valve.is_none());
        all.push(match (lang, near.gap_mm < 0.0) {
            (Lang::En, false) if touching => format!("As they stand {meets} touch, or are too close to tell."),
            (Lang::De, false) if touching => format!("So wie sie stehen berühren sich {meets}, oder es ist zu knapp für ein Urteil."),
            (Lang::En, false) if sum => format!("As they stand nothing touches; nearest are {meets}, which may open {gap} further together before they meet."),
            (Lang::De, false) if sum => format!("So wie sie stehen berührt sich nichts; am nächsten: {meets}, zusammen dürfen sie {gap} weiter öffnen, bis sie sich treffen."),
            (Lang::En, false) => format!("As they stand nothing touches; nearest are {meets}, with {gap}."),
            (Lang::En, true) => format!("They cannot stand so: {meets} would be {gap} in each other's way, or something is bent."),
            (Lang::De, false) => format!("So wie sie stehen berührt sich nichts; am nächsten: {meets}, mit {gap}."),
            (Lang::De, true) => format!("So können sie nicht stehen: {meets} wären sich {gap} im Weg, oder etwas ist krumm."),
        });
    }
    match answer.way {
        Some("moves") if answer.moves.is_empty() => all.push(
            lang.pick("Every shaft stands on its mark.", "Jede Welle steht auf ihrer Markierung.")
                .to_owned(),
        ),
        Some("moves") => all.push(
            lang.pick(
                "In this order everything comes back to its mark touching nothing, by these figures:",
                "In dieser Reihenfolge kommt nach diesen Maßen alles zu seiner Markierung, ohne etwas zu berühren:",
            )
            .to_owned(),
        ),
        Some("none") => all.push(
            lang.pick(
                "There is no order of moves back to the marks that touches nothing, by these figures.",
                "Nach diesen Maßen gibt es keine Reihenfolge zurück zu den Markierungen, die nichts berührt.",
            )
            .to_owned(),
        ),
        Some("touches_at_marks") => all.push(
            lang.pick(
                "On their marks something would touch, by these figures: no way is looked for.",
                "Auf den Markierungen würde sich nach diesen Maßen etwas berühren: Es wird kein Weg gesucht.",
            )
            .to_owned(),
        ),
        _ => {}
    }
    if !answer.not_stated.is_empty() {
        let mut cylinders: Vec<usize> =
            answer.not_stated.iter().map(|(cylinder, _)| *cylinder).collect();
        cylinders.dedup();
        let cylinders: Vec<String> = cylinders.iter().map(usize::to_string).collect();
        let cylinders = list(lang, &cylinders);
        // Before any verdict.
        all.insert(0, match lang {
            Lang::En => format!("The layout says nothing of some valves, in cylinders {cylinders}: none of this speaks of them."),
            Lang::De => format!("Das Layout sagt nichts über manche Ventile, in den Zylindern {cylinders}: Von ihnen ist hier nicht die Rede."),
        });
    }
    all.join(" ")
}

/// One move: `Crankshaft 60° forward, 1.2 mm left at the least`.
pub fn move_text(reader: Reader, m: &MoveReport, name: &str) -> String {
    let lang = reader.lang;
    let by = lang.fine_degrees(m.deg.abs());
    let way =
        if m.deg < 0.0 { lang.pick("back", "zurück") } else { lang.pick("forward", "vorwärts") };
    let gap = m.least_gap_mm.map(|mm| gap_mm(reader, mm));
    match (lang, gap) {
        (Lang::En, Some(gap)) => format!("{name} {by} {way}, {gap} left at the least"),
        (Lang::De, Some(gap)) => format!("{name} {by} {way}, mindestens {gap} frei"),
        (_, None) => format!("{name} {by} {way}"),
    }
}

/// That a four's parking angle is wrong for this engine; empty where it is not, or nothing is known.
pub fn parking_trap(reader: Reader, depth_mm: Option<f64>) -> String {
    let lang = reader.lang;
    let Some(mm) = depth_mm else { return String::new() };
    let mm = gap_mm(reader, mm);
    match lang {
        Lang::En => format!(
            "A quarter turn past top, where a four in line is parked, is wrong for this engine: a piston stands only {mm} below its top there."
        ),
        Lang::De => format!(
            "Eine Vierteldrehung nach OT, wo man einen Reihenvierzylinder abstellt, ist für diesen Motor falsch: Ein Kolben steht dort nur {mm} unter OT."
        ),
    }
}

/// Where to leave the crank.
pub fn parking(reader: Reader, p: &advice::ParkingReport) -> String {
    let lang = reader.lang;
    let by = lang.degrees(p.crank_deg.abs());
    let at_mark = lang.number(p.crank_deg, 1) == lang.number(0.0, 1);
    let place = match (lang, p.crank_deg < 0.0) {
        (Lang::En, _) if at_mark => "crank at its mark".to_owned(),
        (Lang::De, _) if at_mark => "Kurbelwelle an ihrer Markierung".to_owned(),
        (Lang::En, true) => format!("crank {by} before its mark"),
        (Lang::En, false) => format!("crank {by} past its mark"),
        (Lang::De, true) => format!("Kurbelwelle {by} vor ihrer Markierung"),
        (Lang::De, false) => format!("Kurbelwelle {by} nach ihrer Markierung"),
    };
    let depth = p.least_depth_mm.map(|mm| {
        let mm = gap_mm(reader, mm);
        match lang {
            Lang::En => format!(", highest piston {mm} below its top"),
            Lang::De => format!(", höchster Kolben {mm} unter OT"),
        }
    });
    let clears = match p.clears_any_lift {
        Some(true) => {
            lang.pick(", clear of every valve at any lift", ", frei von jedem Ventil bei jedem Hub")
        }
        Some(false) => lang.pick(
            ", but not clear of every valve at full lift",
            ", aber nicht von jedem Ventil bei vollem Hub",
        ),
        None => "",
    };
    format!("{place}{}{clears}", depth.unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::FirstTouch;

    fn camshaft(teeth: i64, gap_mm: f64) -> CamshaftOut {
        let events = engine::Events::of(Kind::Exhaust, 52.0, 10.0);
        let least = |along_bore_mm| LeastGap {
            along_bore_mm,
            along_stem_mm: along_bore_mm,
            at_deg: -7.25,
            phase_deg: 0.0,
        };
        CamshaftOut {
            wheel: 1,
            teeth,
            crank_deg: teeth as f64 * 15.0,
            cylinders: vec![0, 2, 4],
            valves: vec![ValveOut {
                kind: Kind::Exhaust,
                events: [events.ahead(teeth as f64 * 15.0), events],
                least: Some([least(gap_mm), least(3.1)]),
                under_usual: gap_mm < 2.5,
            }],
            between: None,
            cranking: None,
            leaks: None,
            first_touch: Some(FirstTouch { early: None, late: Some(3) }),
            snap: None,
        }
    }

    fn plain(text: &str) -> String {
        text.replace('\u{a0}', " ")
    }

    #[test]
    fn a_bank_in_a_sentence_and_no_more_than_was_computed() {
        let told = |lang, teeth, gap| {
            plain(&bank(
                Reader { lang, ..Reader::default() },
                &camshaft(teeth, gap),
                "Left camshaft",
            ))
        };
        assert_eq!(
            told(Lang::En, -3, -0.52),
            "Left camshaft 3 teeth late: by these figures the exhaust valve and its piston would be 0.5 mm in each other's way, most 7.2° before its overlap top. It would touch from 3 teeth late."
        );
        assert_eq!(
            told(Lang::En, 0, 3.06),
            "Left camshaft in time: no valve of it touches a piston, by these figures; nearest is the exhaust valve with 3.1 mm, 7.2° before its overlap top. It would touch from 3 teeth late."
        );
        assert!(
            told(Lang::De, -3, -0.52).contains("wären Auslassventil und Kolben sich 0,5 mm im Weg")
        );
        assert!(told(Lang::De, -3, -0.52).contains("ab 3 Zähnen zu spät"));
        assert!(told(Lang::En, -3, -0.04).contains("would be less than 0.1 mm in"));
        assert!(told(Lang::En, -3, -0.04).contains("too close to call"));
        assert!(told(Lang::En, -9, 2.0).ends_with("on the way there it would not have."));
        let mut early = camshaft(0, -1.0);
        early.first_touch = Some(FirstTouch { early: Some(0), late: Some(0) });
        assert!(
            bank(Reader::default(), &early, "Left camshaft")
                .ends_with("in time, by these figures: check them.")
        );
        let mut unknown = camshaft(1, 0.0);
        unknown.valves[0].least = None;
        for lang in Lang::ALL {
            assert!(
                bank(Reader { lang, ..Reader::default() }, &unknown, "Left camshaft")
                    .ends_with('.')
            );
        }
    }

    #[test]
    fn events_have_their_dead_centres() {
        let c = camshaft(-3, 1.0);
        let told = |in_time| plain(&events(Lang::En, &c.valves[0], in_time));
        assert_eq!(told(true), "52° before bottom to 10° after top");
        assert_eq!(told(false), "7° before bottom to 55° after top");
        let ahead = camshaft(4, 1.0);
        let told = plain(&events(Lang::De, &ahead.valves[0], false));
        assert_eq!(told, "112° vor UT bis 50° vor OT");
    }

    #[test]
    fn pressures_are_ranges_until_somebody_chooses() {
        let c = |effective_ratio, gauge_bar: [f64; 3]| CrankingOut {
            closes_abdc_deg: 50.0,
            shut_at_lift_mm: 0.0,
            effective_ratio,
            gauge_bar,
            absolute_bar: gauge_bar.map(|bar| bar + 1.01325),
        };
        let (now, time) = (c(8.0, [11.3, 12.6, 14.1]), c(8.6, [12.4, 13.9, 15.6]));
        assert_eq!(
            plain(&pressure(Lang::En, &now, false)),
            "11.3 to 14.1 bar on a gauge (12.3 to 15.1 bar absolute)"
        );
        assert_eq!(
            plain(&pressure(Lang::De, &now, true)),
            "12,6 bar am Manometer (13,6 bar absolut)"
        );
        assert_eq!(plain(&pressure_change(Lang::En, &[now, time])), "9 % lower than in time");
        assert_eq!(plain(&pressure_change(Lang::En, &[time, time])), "as in time");
    }
}
