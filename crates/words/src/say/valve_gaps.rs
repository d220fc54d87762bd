//! Pistons and valves in words: how they stand, what a place on a curve reads, where something would
//! touch, and what is not stated.
//!
//! Must not know: how any of it is drawn.

use crate::lang::{Lang, Reader};
use crate::say::list;
use advice::{ContactArcs, CylinderReading, NotStated, ValveReading};
use engine::Kind;

/// Lift and gaps that read as nothing, mm.
const NOTHING_MM: f64 = 0.005;

/// A valve's name at the beginning of a sentence or table.
pub fn valve_name(lang: Lang, valve: Kind) -> &'static str {
    match valve {
        Kind::Intake => lang.pick("Intake valve", "Einlassventil"),
        Kind::Exhaust => lang.pick("Exhaust valve", "Auslassventil"),
    }
}

fn valve_within(lang: Lang, valve: Kind) -> &'static str {
    match valve {
        Kind::Intake => lang.pick("intake valve", "Einlassventil"),
        Kind::Exhaust => lang.pick("exhaust valve", "Auslassventil"),
    }
}

/// What a picture lacks: `No room at the top stated for the intake valve of Left camshaft: no gap can
/// be told.`
pub fn not_stated(lang: Lang, what: &NotStated, names: &[&str]) -> String {
    let name = |wheel: usize| names.get(wheel).copied().unwrap_or_default();
    match what {
        NotStated::Engine => lang
            .pick(
                "No engine figures in this layout: degrees only.",
                "Keine Motormaße in diesem Layout: nur Gradzahlen.",
            )
            .to_owned(),
        NotStated::Crank => lang
            .pick(
                "No stroke and rod stated in this layout: where a piston stands cannot be told.",
                "Hub und Pleuel sind in diesem Layout nicht angegeben: Wo ein Kolben steht, lässt sich nicht sagen.",
            )
            .to_owned(),
        NotStated::Camshafts => lang
            .pick(
                "No valve figures in this layout: degrees only.",
                "Keine Ventilmaße in diesem Layout: nur Gradzahlen.",
            )
            .to_owned(),
        NotStated::Valves { wheel } => match lang {
            Lang::En => format!("No valve figures stated for {}: degrees only.", name(*wheel)),
            Lang::De => format!("Keine Ventilmaße angegeben für {}: nur Gradzahlen.", name(*wheel)),
        },
        NotStated::Lift { wheel, valve } => {
            let (valve, name) = (valve_within(lang, *valve), name(*wheel));
            match lang {
                Lang::En => format!("No lift stated for the {valve} of {name}: no gap can be told."),
                Lang::De => format!(
                    "Kein Hub angegeben für das {valve} von {name}: Ein Abstand lässt sich nicht sagen."
                ),
            }
        }
        NotStated::Room { wheel, valve } => {
            let (valve, name) = (valve_within(lang, *valve), name(*wheel));
            match lang {
                Lang::En => format!(
                    "No room at the top stated for the {valve} of {name}: no gap can be told."
                ),
                Lang::De => format!(
                    "Kein Abstand am oberen Totpunkt angegeben für das {valve} von {name}: Ein Abstand lässt sich nicht sagen."
                ),
            }
        }
    }
}

/// A cylinder by its number from 1.
pub fn cylinder_name(lang: Lang, cylinder: usize) -> String {
    format!("{} {}", lang.pick("Cylinder", "Zylinder"), cylinder + 1)
}

/// How a cylinder stands: `Cylinder 3: piston 12.4 mm below its top; intake valve open 6.1 mm, 3.2 mm
/// from the piston; exhaust valve shut, 15.6 mm from the piston.`
pub fn cylinder_sentence(reader: Reader, reading: &CylinderReading) -> String {
    let lang = reader.lang;
    let piston = reader.length(reading.piston_mm);
    let piston = match lang {
        Lang::En => format!("piston {piston} below its top"),
        Lang::De => format!("Kolben {piston} unter seinem oberen Totpunkt"),
    };
    let valves = reading.valves.iter().map(|valve| valve_stands(reader, valve));
    let parts: Vec<String> = std::iter::once(piston).chain(valves).collect();
    format!("{}: {}.", cylinder_name(lang, reading.cylinder), parts.join("; "))
}

fn valve_stands(reader: Reader, valve: &ValveReading) -> String {
    let lang = reader.lang;
    let name = valve_within(lang, valve.valve);
    let opened = match valve.lift_mm {
        None => lang.pick("lift not stated", "Hub nicht angegeben").to_owned(),
        Some(mm) if mm < NOTHING_MM => lang.pick("shut", "geschlossen").to_owned(),
        Some(mm) => match lang {
            Lang::En => format!("open {}", reader.length(mm)),
            Lang::De => format!("{} offen", reader.length(mm)),
        },
    };
    match valve.gap_mm {
        None => format!("{name} {opened}"),
        Some(mm) => format!("{name} {opened}, {}", from_piston(reader, mm)),
    }
}

/// A gap at one instant: `3.2 mm from the piston`, `would be 0.8 mm inside the piston`.
pub fn from_piston(reader: Reader, gap_mm: f64) -> String {
    let mm = reader.length(gap_mm.abs());
    match (reader.lang, gap_mm < 0.0) {
        (Lang::En, false) => format!("{mm} from the piston"),
        (Lang::En, true) => format!("would touch: {mm} inside the piston"),
        (Lang::De, false) => format!("{mm} vom Kolben"),
        (Lang::De, true) => format!("würde anstoßen: {mm} im Kolben"),
    }
}

/// A place on the curves: `12° after overlap top: intake valve 3.1 mm down, 4.2 mm from the piston; …`.
/// For each valve, how far it reaches down along the bore and its gap, mm.
pub fn curve_sentence(reader: Reader, at_deg: f64, valves: &[(Kind, f64, f64)]) -> String {
    let lang = reader.lang;
    let deg = lang.degrees(at_deg.abs());
    let place = match (lang, at_deg.abs() < 0.05, at_deg < 0.0) {
        (Lang::En, true, _) => "At the overlap top".to_owned(),
        (Lang::En, _, true) => format!("{deg} before the overlap top"),
        (Lang::En, _, false) => format!("{deg} after the overlap top"),
        (Lang::De, true, _) => "Am Überschneidungs-OT".to_owned(),
        (Lang::De, _, true) => format!("{deg} vor dem Überschneidungs-OT"),
        (Lang::De, _, false) => format!("{deg} nach dem Überschneidungs-OT"),
    };
    let told = valves.iter().map(|(valve, down_mm, gap_mm)| {
        let (name, down) = (valve_within(lang, *valve), reader.length(*down_mm));
        let down = match lang {
            _ if *down_mm < NOTHING_MM => {
                format!("{name} {}", lang.pick("shut", "geschlossen"))
            }
            Lang::En => format!("{name} {down} down"),
            Lang::De => format!("{name} {down} unten"),
        };
        format!("{down}, {}", from_piston(reader, *gap_mm))
    });
    format!("{place}: {}.", told.collect::<Vec<_>>().join("; "))
}

/// Teeth out in a few words: `2 teeth ahead`, `in time`.
pub fn teeth_place(lang: Lang, teeth: i64) -> String {
    let count = lang.teeth(teeth.unsigned_abs() as f64, 0);
    match (lang, teeth) {
        (_, 0) => lang.pick("in time", "auf Markierung").to_owned(),
        (Lang::En, 1..) => format!("{count} ahead"),
        (Lang::En, _) => format!("{count} behind"),
        (Lang::De, 1..) => format!("{count} vor"),
        (Lang::De, _) => format!("{count} zurück"),
    }
}

/// A least gap in a table: `1.8 mm`, `−0.8 mm: touches`.
pub fn least_gap(reader: Reader, gap_mm: f64) -> String {
    let lang = reader.lang;
    let length = reader.length(gap_mm);
    if gap_mm < 0.0 { format!("{length}: {}", lang.pick("touches", "stößt an")) } else { length }
}

/// A least gap as told of a valve: `at least 1.8 mm from the piston`.
fn at_least(reader: Reader, gap_mm: f64) -> String {
    let least = if gap_mm < 0.0 { "" } else { reader.lang.pick("at least ", "mindestens ") };
    format!("{least}{}", from_piston(reader, gap_mm))
}

/// The least gaps with camshafts so many teeth out: `2 teeth ahead: intake valve at least 1.8 mm from
/// the piston; exhaust valve would touch: 0.8 mm inside the piston.`
pub fn teeth_sentence(reader: Reader, teeth: i64, valves: &[(Kind, f64)]) -> String {
    let lang = reader.lang;
    let told = valves.iter().map(|(valve, gap_mm)| {
        format!("{} {}", valve_within(lang, *valve), at_least(reader, *gap_mm))
    });
    let told = told.collect::<Vec<_>>().join("; ");
    let place = teeth_place(lang, teeth);
    let mut first = place.chars();
    let capital = first.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    format!("{capital}{}: {told}.", first.as_str())
}

/// The least gap of each valve at its own camshaft's teeth; one that is beyond the plot says so.
pub fn gaps_now(reader: Reader, valves: &[(Kind, i64, Option<f64>)]) -> String {
    let lang = reader.lang;
    let told = valves.iter().map(|(valve, teeth, gap_mm)| {
        let (name, place) = (valve_within(lang, *valve), teeth_place(lang, *teeth));
        let gap = gap_mm.map_or_else(
            || lang.pick("beyond this plot", "außerhalb dieser Kurve").to_owned(),
            |mm| at_least(reader, mm),
        );
        format!("{name}, {place}: {gap}")
    });
    let told = told.collect::<Vec<_>>().join("; ");
    lang.pick("As it is set: ", "So wie es eingestellt ist: ").to_owned() + &told + "."
}

/// Where in the two turns of the dial something would touch, the belt tight as it is fitted.
pub fn arcs_sentence(lang: Lang, arcs: &ContactArcs) -> String {
    if arcs.touching.is_empty() {
        return if arcs.near.is_empty() {
            lang.pick(
                "As the belt is fitted no valve touches its piston anywhere in the two turns, and no gap is under the usual margin.",
                "So wie der Riemen liegt, berührt in den zwei Umdrehungen kein Ventil seinen Kolben, und kein Abstand liegt unter dem üblichen Maß.",
            )
        } else {
            lang.pick(
                "As the belt is fitted no valve touches its piston anywhere in the two turns; some gaps are under the usual margin.",
                "So wie der Riemen liegt, berührt in den zwei Umdrehungen kein Ventil seinen Kolben; manche Abstände liegen unter dem üblichen Maß.",
            )
        }
        .to_owned();
    }
    let places: Vec<String> = arcs
        .touching
        .iter()
        .map(|arc| {
            let (from, to) = (lang.degrees(arc.from_deg), lang.degrees(arc.to_deg));
            match lang {
                Lang::En => format!("{from} to {to}"),
                Lang::De => format!("{from} bis {to}"),
            }
        })
        .collect();
    let places = list(lang, &places);
    match lang {
        Lang::En => format!(
            "As the belt is fitted some valve would touch its piston at {places} of crank, in the two turns of the dial."
        ),
        Lang::De => format!(
            "So wie der Riemen liegt, würde in den zwei Umdrehungen der Scheibe ein Ventil seinen Kolben berühren bei {places} Kurbelwinkel."
        ),
    }
}

/// What the dial's arcs mean.
pub fn arcs_note(reader: Reader) -> String {
    let [intake, exhaust] =
        [Kind::Intake, Kind::Exhaust].map(|valve| reader.length(advice::usual_margin_mm(valve)));
    match reader.lang {
        Lang::En => format!(
            "Thick arcs: some valve would touch. Thin arcs: some gap is under the usual margin, {intake} at intake and {exhaust} at exhaust valves: a rule of thumb, not this engine's own figure."
        ),
        Lang::De => format!(
            "Dicke Bögen: Ein Ventil würde anstoßen. Dünne Bögen: Ein Abstand liegt unter dem üblichen Maß, {intake} am Einlass und {exhaust} am Auslass: eine Faustregel, kein Maß dieses Motors."
        ),
    }
}

/// A place of the contact map: `Crank 30° before its mark, Left camshaft 12.5° past its mark: nearest
/// valve 3.2 mm from its piston (cylinder 3, intake valve).`
pub fn map_sentence(
    reader: Reader,
    shafts: [(&str, f64); 2],
    nearest: Option<(usize, Kind, f64)>,
) -> String {
    let lang = reader.lang;
    let places = shafts.map(|(name, deg)| {
        let by = lang.degrees(deg.abs());
        match (lang, deg.abs() < 0.05, deg < 0.0) {
            (Lang::En, true, _) => format!("{name} on its mark"),
            (Lang::En, _, true) => format!("{name} {by} before its mark"),
            (Lang::En, _, false) => format!("{name} {by} past its mark"),
            (Lang::De, true, _) => format!("{name} auf der Markierung"),
            (Lang::De, _, true) => format!("{name} {by} vor der Markierung"),
            (Lang::De, _, false) => format!("{name} {by} hinter der Markierung"),
        }
    });
    let places = places.join(", ");
    let Some((cylinder, valve, gap_mm)) = nearest else { return format!("{places}.") };
    let (name, from) = (valve_within(lang, valve), from_piston(reader, gap_mm));
    let cylinder = cylinder + 1;
    match lang {
        Lang::En => format!("{places}: nearest is the {name} of cylinder {cylinder}, {from}."),
        Lang::De => {
            format!("{places}: Am nächsten ist das {name} von Zylinder {cylinder}, {from}.")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    #[test]
    fn a_cylinder_in_both_languages() {
        let reading = CylinderReading {
            cylinder: 2,
            piston_mm: 12.44,
            at_deg: 30.0,
            valves: vec![
                ValveReading { valve: Kind::Intake, lift_mm: Some(6.1), gap_mm: Some(3.2) },
                ValveReading { valve: Kind::Exhaust, lift_mm: Some(0.0), gap_mm: Some(-0.8) },
            ],
        };
        let of = |lang| {
            let text = cylinder_sentence(Reader { lang, units: Units::Metric }, &reading);
            text.replace('\u{a0}', " ")
        };
        assert_eq!(
            of(Lang::En),
            "Cylinder 3: piston 12.4 mm below its top; intake valve open 6.1 mm, 3.2 mm from the piston; exhaust valve shut, would touch: 0.8 mm inside the piston."
        );
        assert_eq!(
            of(Lang::De),
            "Zylinder 3: Kolben 12,4 mm unter seinem oberen Totpunkt; Einlassventil 6,1 mm offen, 3,2 mm vom Kolben; Auslassventil geschlossen, würde anstoßen: 0,8 mm im Kolben."
        );
    }

    #[test]
    fn teeth_and_places() {
        let reader = Reader { lang: Lang::En, units: Units::Metric };
        let told = teeth_sentence(reader, -1, &[(Kind::Intake, 1.84), (Kind::Exhaust, -0.3)]);
        assert_eq!(
            told.replace('\u{a0}', " "),
            "1 tooth behind: intake valve at least 1.8 mm from the piston; exhaust valve would touch: 0.3 mm inside the piston."
        );
        let at = |deg| curve_sentence(reader, deg, &[]);
        assert_eq!(at(-12.0), "12° before the overlap top: .");
        let shafts = [("Crankshaft", -30.0), ("Camshaft", 0.0)];
        assert_eq!(
            map_sentence(reader, shafts, None),
            "Crankshaft 30° before its mark, Camshaft on its mark."
        );
    }
}
