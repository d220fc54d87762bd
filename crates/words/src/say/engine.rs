//! The engine behind the belt in words: whether valves can meet pistons, what teeth out do to them, and
//! what may be turned with the belt off.
//!
//! Must not know: how any of it was worked out. No verdict goes beyond the figures.

mod belt_off;
mod compression;

pub use belt_off::{belt_off, freedom, move_text, parking, parking_trap, parts};
pub use compression::{absolute, counted_from, gauge, no_compression, pressure, pressure_change};

use crate::lang::{Lang, Reader, Units};
use advice::{CamshaftOut, ValveOut};
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
    let count = |teeth: u32| lang.teeth_dative(f64::from(teeth), 0);
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

/// A least gap: `3.1 mm`; `touches: 0.4 mm too little`.
pub fn least_gap(reader: Reader, least: &LeastGap) -> String {
    let gap = gap_mm(reader, least.along_bore_mm.abs());
    match (reader.lang, least.along_bore_mm < 0.0) {
        (_, false) => gap,
        (Lang::En, true) => format!("touches: {gap} too little"),
        (Lang::De, true) => format!("berührt: {gap} zu wenig"),
    }
}

/// Where it is: `12° after its overlap top`.
pub fn least_gap_place(lang: Lang, least: &LeastGap) -> String {
    at_top(lang, least.at_deg)
}

/// Both: `3.1 mm, 12° after its overlap top`.
pub fn least_gap_and_place(reader: Reader, least: &LeastGap) -> String {
    format!("{}, {}", least_gap(reader, least), least_gap_place(reader.lang, least))
}

/// A valve's events: `10° before top to 50° after bottom`.
pub fn events(lang: Lang, v: &ValveOut, in_time: bool) -> String {
    let (opens, closes) = v.events[usize::from(in_time)].before_after_deg(v.kind);
    let (top, bottom) = (lang.pick("top", "OT"), lang.pick("bottom", "UT"));
    let (first, last) = match v.kind {
        Kind::Intake => (top, bottom),
        Kind::Exhaust => (bottom, top),
    };
    let to = lang.pick("to", "bis");
    format!("{} {to} {}", at_centre(lang, opens, true, first), at_centre(lang, closes, false, last))
}

/// So many degrees before a dead centre, or after it; below zero the other way.
fn at_centre(lang: Lang, deg: f64, before: bool, centre: &str) -> String {
    let is_before = (deg >= 0.0) == before;
    let word = if is_before { lang.pick("before", "vor") } else { lang.pick("after", "nach") };
    format!("{} {word} {centre}", lang.degrees(deg.abs()))
}

/// Overlap and separation: `22° overlap, 110° between lobes`.
pub fn between(lang: Lang, b: &Between) -> String {
    let (overlap, lobes) = (lang.degrees(b.overlap_deg), lang.degrees(b.separation_cam_deg));
    match lang {
        Lang::En => format!("{overlap} overlap, lobes {lobes} apart (camshaft)"),
        Lang::De => format!("{overlap} Überschneidung, Spreizung {lobes} (Nockenwelle)"),
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

    pub(super) fn plain(text: &str) -> String {
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
}
