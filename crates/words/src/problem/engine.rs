//! What is wrong with the figures of an engine, in a sentence.
//!
//! Must not know: where in the file they stand.

use super::{amount, range};
use crate::lang::Lang;
use engine::{Figure, Flaw, Kind, ValveFigure};
use layout::Unit;

/// One flaw of an engine. Cylinders and camshafts are counted from 1.
pub(super) fn engine(lang: Lang, flaw: Flaw) -> String {
    match flaw {
        Flaw::OutOfRange { figure, found, least, most } => {
            let (what, unit) = figure_of(lang, figure);
            let (found, allowed) = (amount(lang, found, unit), range(lang, least, most, unit));
            match lang {
                Lang::En => format!("{what} comes to {found}; it may be {allowed}."),
                Lang::De => format!("{what}: Es ergeben sich {found}; möglich sind {allowed}."),
            }
        }
        Flaw::NotBetween { figure, found, above, below, or_equal } => {
            let (what, unit) = figure_of(lang, figure);
            let of = |x: f64| amount(lang, x, unit);
            let from = match (lang, or_equal) {
                (Lang::En, true) => format!("{} or more", of(above)),
                (Lang::En, false) => format!("above {}", of(above)),
                (Lang::De, true) => format!("mindestens {}", of(above)),
                (Lang::De, false) => format!("über {}", of(above)),
            };
            match lang {
                Lang::En => {
                    format!("{what} is {}; it must be {from} and below {}.", of(found), of(below))
                }
                Lang::De => format!(
                    "{what}: {}; der Wert muss {from} und unter {} liegen.",
                    of(found),
                    of(below)
                ),
            }
        }
        Flaw::Count { figure, found, fewest, most } => {
            let (what, _) = figure_of(lang, figure);
            match lang {
                Lang::En => format!("{what}: {found} are too few or too many; it may be {fewest} to {most}."),
                Lang::De => format!("{what}: {found} sind zu wenige oder zu viele; möglich sind {fewest} bis {most}."),
            }
        }
        Flaw::NoSuchCylinder { cylinder, cylinders, .. } => {
            let number = cylinder + 1;
            match lang {
                Lang::En => format!("There is no cylinder {number}: fires_at_deg has {cylinders}."),
                Lang::De => format!("Einen Zylinder {number} gibt es nicht: fires_at_deg hat {cylinders}."),
            }
        }
        Flaw::MovedTwice { cylinder, valve, .. } => {
            let number = cylinder + 1;
            match (lang, valve) {
                (Lang::En, Kind::Intake) => format!("The intake valves of cylinder {number} are moved twice."),
                (Lang::En, Kind::Exhaust) => format!("The exhaust valves of cylinder {number} are moved twice."),
                (Lang::De, Kind::Intake) => format!("Die Einlassventile von Zylinder {number} werden zweimal bewegt."),
                (Lang::De, Kind::Exhaust) => format!("Die Auslassventile von Zylinder {number} werden zweimal bewegt."),
            }
        }
        Flaw::TableTurnsBack { point, .. } => {
            let number = point + 1;
            match lang {
                Lang::En => format!("Point {number} of the measured lift does not fit: angles must rise, and the lift must rise from 0 to one top and fall to 0."),
                Lang::De => format!("Punkt {number} des gemessenen Hubs passt nicht: Die Winkel müssen steigen, der Hub muss von 0 bis zu einem Höchstwert steigen und auf 0 fallen."),
            }
        }
        Flaw::MeetsMoreThanOne { .. } => lang
            .pick(
                "Valves can meet valves here, and this camshaft shares cylinders with more than one other. Such an engine is not worked out: leave valves_meet_at_lift_sum_mm out.",
                "Hier können Ventile auf Ventile treffen, und diese Nockenwelle teilt Zylinder mit mehr als einer anderen. Solch ein Motor wird nicht gerechnet: valves_meet_at_lift_sum_mm weglassen.",
            )
            .to_owned(),
    }
}

fn figure_of(lang: Lang, figure: Figure) -> (&'static str, Unit) {
    match figure {
        Figure::Bore => (lang.pick("The bore", "Bohrung"), Unit::Millimetres),
        Figure::Stroke => (lang.pick("The stroke", "Kolbenhub"), Unit::Millimetres),
        Figure::Rod => (lang.pick("The connecting rod", "Pleuel"), Unit::Millimetres),
        Figure::CompressionRatio => {
            (lang.pick("The compression ratio", "Verdichtungsverhältnis"), Unit::Bare)
        }
        Figure::CrankAtMarks => (
            lang.pick("The crank angle at the marks", "Kurbelwinkel an den Markierungen"),
            Unit::Degrees,
        ),
        Figure::FiresAt(_) => {
            (lang.pick("The cylinder's firing angle", "Zündwinkel des Zylinders"), Unit::Degrees)
        }
        Figure::Camshafts => (lang.pick("The camshafts", "Nockenwellen"), Unit::Bare),
        Figure::Cylinders(_) => {
            (lang.pick("The camshaft's cylinders", "Zylinder der Nockenwelle"), Unit::Bare)
        }
        Figure::Phaser(_) => (
            lang.pick("The phaser's range at the crank", "Verstellbereich an der Kurbelwelle"),
            Unit::Degrees,
        ),
        Figure::ValvesMeet => (
            lang.pick(
                "The sum of lifts at which valves meet",
                "Hubsumme, bei der Ventile sich treffen",
            ),
            Unit::Millimetres,
        ),
        Figure::Valve { figure, .. } => valve_figure(lang, figure),
        Figure::Exponent => (lang.pick("The exponent", "Exponent"), Unit::Bare),
        Figure::Air => (lang.pick("The air pressure in bar", "Luftdruck in bar"), Unit::Bare),
    }
}

fn valve_figure(lang: Lang, figure: ValveFigure) -> (&'static str, Unit) {
    match figure {
        ValveFigure::Opens => {
            (lang.pick("The valve's opening", "Öffnen des Ventils"), Unit::Degrees)
        }
        ValveFigure::Closes => {
            (lang.pick("The valve's closing", "Schließen des Ventils"), Unit::Degrees)
        }
        ValveFigure::Duration => (
            lang.pick("The time that the valve is open", "Öffnungsdauer des Ventils"),
            Unit::Degrees,
        ),
        ValveFigure::Reach => (
            lang.pick(
                "From the middle of the valve's lift to its seat",
                "Von der Mitte des Ventilhubs bis zum Sitz",
            ),
            Unit::Degrees,
        ),
        ValveFigure::Lift => (lang.pick("The lift", "Ventilhub"), Unit::Millimetres),
        ValveFigure::AtLift => (
            lang.pick("The lift at which events were read", "Hub, bei dem abgelesen wurde"),
            Unit::Millimetres,
        ),
        ValveFigure::Points => {
            (lang.pick("The points of the measured lift", "Punkte des gemessenen Hubs"), Unit::Bare)
        }
        ValveFigure::Lean => (lang.pick("The valve's lean", "Neigung des Ventils"), Unit::Degrees),
        ValveFigure::Gap => (
            lang.pick("The room at the piston's top", "Abstand am oberen Totpunkt"),
            Unit::Millimetres,
        ),
        ValveFigure::SpringShut => (lang.pick("The spring's force", "Federkraft"), Unit::Newtons),
        ValveFigure::SpringRate => {
            (lang.pick("The spring's rate", "Federrate"), Unit::NewtonsPerMillimetre)
        }
    }
}
