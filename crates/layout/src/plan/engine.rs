//! The layout's engine as the `engine` room takes it, and its flaws at their places in the text.
//!
//! Must not know TOML.

use crate::choice::{Law, PhaserRest, TopAtMarks};
use crate::document::Layout;
use crate::engine_values::{CamshaftValues, EngineValues, ValveValues};
use crate::problem::{Problem, ProblemKind};
use engine::{
    AtMarks, CamshaftFigures, CrankFigures, Engine, Events, Figure, Figures, Flaw, Kind, LiftPoint,
    Motion, Room, Spring, Top, ValveFigure, ValveFigures,
};

/// The engine behind a drive: it cannot be wrong by itself.
#[derive(Clone, Debug)]
pub struct EnginePlan {
    /// The engine.
    pub engine: Engine,
    /// For each of its camshafts, the index of the wheel that drives it.
    pub wheels: Vec<usize>,
}

/// The engine of a layout; `None` where it has none.
///
/// # Errors
/// Every flaw of the engine, each at the part of the text that it concerns.
pub(super) fn engine(layout: &Layout) -> Result<Option<EnginePlan>, Vec<Problem>> {
    let Some(values) = &layout.engine else { return Ok(None) };
    let engine = Engine::new(figures(layout, values)).map_err(|flaws| {
        flaws.into_iter().map(|flaw| problem(layout, values, flaw)).collect::<Vec<_>>()
    })?;
    let wheels = values.camshafts.iter().map(|camshaft| camshaft.wheel).collect();
    Ok(Some(EnginePlan { engine, wheels }))
}

fn figures(layout: &Layout, values: &EngineValues) -> Figures {
    let crank = values.stroke_mm.zip(values.rod_mm);
    // A file that says nothing of firing has no camshaft figures either: one cylinder stands for all.
    let fires = &values.fires_at_deg;
    Figures {
        bore_mm: values.bore_mm,
        crank: crank.map(|(stroke_mm, rod_mm)| CrankFigures { stroke_mm, rod_mm }),
        compression_ratio: values.compression_ratio,
        at_marks: AtMarks {
            crank_atdc_deg: values.crank_at_marks_atdc_deg,
            top: match values.cylinder_1_at_marks {
                TopAtMarks::Firing => Top::Firing,
                TopAtMarks::Overlap => Top::Overlap,
            },
        },
        fires_at_deg: if fires.is_empty() { vec![0.0] } else { fires.clone() },
        camshafts: values.camshafts.iter().map(|camshaft| camshaft_of(layout, camshaft)).collect(),
        valves_meet_at_lift_sum_mm: values.valves_meet_at_lift_sum_mm,
    }
}

fn camshaft_of(layout: &Layout, values: &CamshaftValues) -> CamshaftFigures {
    let phaser = layout.wheels.get(values.wheel).and_then(|wheel| wheel.phaser);
    CamshaftFigures {
        cylinders: values.cylinders.clone(),
        intake: values.intake.as_ref().map(|valve| valve_of(valve, Kind::Intake)),
        exhaust: values.exhaust.as_ref().map(|valve| valve_of(valve, Kind::Exhaust)),
        // From where it rests, in crank degrees: two to one of the camshaft.
        phaser_deg: phaser.map(|phaser| {
            let [low, high] = phaser.range_cam_deg;
            let rest = match phaser.rest {
                PhaserRest::Late => low,
                PhaserRest::Early => high,
            };
            [2.0 * (low - rest), 2.0 * (high - rest)]
        }),
    }
}

fn valve_of(values: &ValveValues, kind: Kind) -> ValveFigures {
    let ends = values.opens_before_deg.zip(values.closes_after_deg);
    let events = ends.map(|(opens, closes)| Events::of(kind, opens, closes));
    let at_lift_mm = values.events_at_lift_mm.unwrap_or(0.0);
    let measured = values.measured_at_deg.iter().zip(&values.measured_lift_mm);
    let motion = match (events, values.lift_mm, values.law) {
        _ if !values.measured_at_deg.is_empty() => Motion::Measured {
            points: measured.map(|(&at_deg, &lift_mm)| LiftPoint { at_deg, lift_mm }).collect(),
            at_lift_mm,
        },
        (Some(events), Some(lift_mm), Some(law)) => {
            Motion::Law { events, at_lift_mm, lift_mm, law: law_of(law) }
        }
        (events, _, _) => {
            // The rules see to it that one of the two ways to state a motion is there.
            Motion::Stated { events: events.unwrap_or_else(|| Events::of(kind, 0.0, 0.0)) }
        }
    };
    let room = values.lean_deg.zip(values.gap_at_tdc_mm);
    let spring = values.spring_shut_n.zip(values.spring_rate_n_per_mm);
    ValveFigures {
        motion,
        room: room.map(|(lean_deg, gap_at_top_mm)| Room { lean_deg, gap_at_top_mm }),
        spring: spring.map(|(shut_n, rate_n_per_mm)| Spring { shut_n, rate_n_per_mm }),
    }
}

fn law_of(law: Law) -> engine::Law {
    match law {
        Law::Harmonic => engine::Law::Harmonic,
        Law::Cycloidal => engine::Law::Cycloidal,
        Law::P345 => engine::Law::Polynomial345,
        Law::P4567 => engine::Law::Polynomial4567,
    }
}

/// A flaw at the part of the text that it concerns.
fn problem(layout: &Layout, values: &EngineValues, flaw: Flaw) -> Problem {
    let of_camshaft = |camshaft: usize, below: &str| format!("engine.camshaft[{camshaft}]{below}");
    let of_valve = |camshaft: usize, kind: Kind, below: &str| {
        let valve = match kind {
            Kind::Intake => "intake",
            Kind::Exhaust => "exhaust",
        };
        format!("engine.camshaft[{camshaft}].{valve}{below}")
    };
    let of_figure = |figure: Figure| match figure {
        Figure::Bore => "engine.bore_mm".to_owned(),
        Figure::Stroke => "engine.stroke_mm".to_owned(),
        Figure::Rod => "engine.rod_mm".to_owned(),
        Figure::CompressionRatio => "engine.compression_ratio".to_owned(),
        Figure::CrankAtMarks => "engine.crank_at_marks_atdc_deg".to_owned(),
        Figure::FiresAt(cylinder) => format!("engine.fires_at_deg[{cylinder}]"),
        Figure::Camshafts => "engine.camshaft".to_owned(),
        Figure::Cylinders(camshaft) => of_camshaft(camshaft, ".cylinders"),
        Figure::Phaser(camshaft) => {
            let wheel = values.camshafts.get(camshaft).map_or(0, |c| c.wheel);
            format!("wheel[{wheel}].phaser.range_cam_deg")
        }
        Figure::ValvesMeet => "engine.valves_meet_at_lift_sum_mm".to_owned(),
        Figure::Valve { camshaft, valve, figure } => {
            of_valve(camshaft, valve, key_of(valve, figure))
        }
        Figure::Exponent | Figure::Air => "engine".to_owned(),
    };
    let (key, camshaft) = match flaw {
        Flaw::OutOfRange { figure, .. }
        | Flaw::NotBetween { figure, .. }
        | Flaw::Count { figure, .. } => (of_figure(figure), camshaft_in(figure)),
        Flaw::NoSuchCylinder { camshaft, .. } => {
            (of_camshaft(camshaft, ".cylinders"), Some(camshaft))
        }
        Flaw::MovedTwice { camshaft, valve, .. } => (of_valve(camshaft, valve, ""), Some(camshaft)),
        Flaw::TableTurnsBack { camshaft, valve, point } => {
            (of_valve(camshaft, valve, &format!(".measured_lift_mm[{point}]")), Some(camshaft))
        }
        Flaw::MeetsMoreThanOne { camshaft } => (of_camshaft(camshaft, ""), Some(camshaft)),
    };
    let wheel = camshaft.and_then(|c| values.camshafts.get(c)).map(|c| c.wheel);
    let part = wheel.and_then(|i| layout.wheels.get(i)).map(|wheel| wheel.id.clone());
    Problem { kind: ProblemKind::Engine { flaw }, place: layout.place_of(&key), key, part }
}

fn camshaft_in(figure: Figure) -> Option<usize> {
    match figure {
        Figure::Cylinders(camshaft) | Figure::Phaser(camshaft) => Some(camshaft),
        Figure::Valve { camshaft, .. } => Some(camshaft),
        _ => None,
    }
}

fn key_of(kind: Kind, figure: ValveFigure) -> &'static str {
    match (figure, kind) {
        (ValveFigure::Opens, Kind::Intake) => ".opens_btdc_deg",
        (ValveFigure::Opens, Kind::Exhaust) => ".opens_bbdc_deg",
        (ValveFigure::Closes, Kind::Intake) => ".closes_abdc_deg",
        (ValveFigure::Closes, Kind::Exhaust) => ".closes_atdc_deg",
        (ValveFigure::Duration | ValveFigure::Reach, _) => "",
        (ValveFigure::Lift, _) => ".lift_mm",
        (ValveFigure::AtLift, _) => ".events_at_lift_mm",
        (ValveFigure::Points, _) => ".measured_at_deg",
        (ValveFigure::Lean, _) => ".lean_deg",
        (ValveFigure::Gap, _) => ".gap_at_tdc_mm",
        (ValveFigure::SpringShut, _) => ".spring_shut_n",
        (ValveFigure::SpringRate, _) => ".spring_rate_n_per_mm",
    }
}
