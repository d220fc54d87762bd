//! The layout's engine as the `engine` room takes it, and its flaws at their places in the text.
//!
//! Must not know TOML.

use crate::choice::{Law, PhaserRest, TopAtMarks};
use crate::document::Layout;
use crate::engine_values::{CamshaftValues, EngineValues, MotionValues, ValveValues};
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
    // A file that says nothing of firing has no camshafts here either: one cylinder stands for all.
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
    let at_lift_mm = values.events_at_lift_mm.unwrap_or(0.0);
    let motion = match &values.motion {
        MotionValues::Measured { readings } => Motion::Measured {
            points: readings
                .iter()
                .map(|reading| LiftPoint { at_deg: reading.at_deg, lift_mm: reading.lift_mm })
                .collect(),
            at_lift_mm,
        },
        MotionValues::Events { opens_before_deg, closes_after_deg, lift } => {
            let events = Events::of(kind, *opens_before_deg, *closes_after_deg);
            match lift {
                Some(lift) => {
                    let (lift_mm, law) = (lift.lift_mm, law_of(lift.law));
                    Motion::Law { events, at_lift_mm, lift_mm, law }
                }
                None => Motion::Stated { events },
            }
        }
    };
    let room = values.lean_deg.zip(values.gap_at_tdc_mm);
    let spring = values.spring;
    ValveFigures {
        motion,
        room: room.map(|(lean_deg, gap_at_top_mm)| Room { lean_deg, gap_at_top_mm }),
        spring: spring.map(|s| Spring { shut_n: s.shut_n, rate_n_per_mm: s.rate_n_per_mm }),
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
            let stated = values.camshafts.get(camshaft).and_then(|c| match valve {
                Kind::Intake => c.intake.as_ref(),
                Kind::Exhaust => c.exhaust.as_ref(),
            });
            let is_measured =
                stated.is_some_and(|v| matches!(v.motion, MotionValues::Measured { .. }));
            of_valve(camshaft, valve, key_of(valve, figure, is_measured))
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

/// The key below a valve that states the figure; none where several do.
fn key_of(kind: Kind, figure: ValveFigure, is_measured: bool) -> &'static str {
    match (figure, kind) {
        (ValveFigure::Opens, Kind::Intake) => ".opens_btdc_deg",
        (ValveFigure::Opens, Kind::Exhaust) => ".opens_bbdc_deg",
        (ValveFigure::Closes, Kind::Intake) => ".closes_abdc_deg",
        (ValveFigure::Closes, Kind::Exhaust) => ".closes_atdc_deg",
        (ValveFigure::Duration | ValveFigure::Reach, _) => "",
        (ValveFigure::Lift, _) if is_measured => ".measured_lift_mm",
        (ValveFigure::Lift, _) => ".lift_mm",
        (ValveFigure::AtLift, _) => ".events_at_lift_mm",
        (ValveFigure::Points, _) => ".measured_at_deg",
        (ValveFigure::Lean, _) => ".lean_deg",
        (ValveFigure::Gap, _) => ".gap_at_tdc_mm",
        (ValveFigure::SpringShut, _) => ".spring_shut_n",
        (ValveFigure::SpringRate, _) => ".spring_rate_n_per_mm",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::read::read;
    use crate::sample::{SLIDE, all_kinds};

    fn opened(text: &str) -> EnginePlan {
        engine(&read(text).unwrap()).unwrap().unwrap()
    }

    #[test]
    fn the_sample_gives_its_engine() {
        let plan = opened(SLIDE);
        let engine = &plan.engine;
        assert_eq!(plan.wheels, [1]);
        assert_eq!(engine.bore_mm(), Some(92.0));
        assert_eq!(engine.compression_ratio(), Some(9.5));
        assert_eq!(engine.fires_at_deg(), [0.0, 120.0, 240.0, 360.0, 480.0, 600.0]);
        assert_eq!(engine.at_marks_deg(), 0.0);
        let [camshaft] = engine.camshafts() else { panic!("{engine:?}") };
        assert_eq!(camshaft.cylinders(), [0, 2, 4]);
        // Twice the 25 degrees of the camshaft, from its late end.
        assert_eq!(camshaft.phaser_deg(), Some([0.0, 50.0]));
        let intake = camshaft.valve(Kind::Intake).unwrap();
        assert_eq!(intake.events(), Events { opens_deg: -10.0, closes_deg: 230.0 });
        assert_eq!(intake.lobe().unwrap().most_mm(), 9.0);
        assert_eq!(intake.room(), Some(Room { lean_deg: 20.0, gap_at_top_mm: 2.6 }));
        assert_eq!(intake.spring(), None);
        let exhaust = camshaft.valve(Kind::Exhaust).unwrap();
        assert_eq!(exhaust.events(), Events { opens_deg: -228.0, closes_deg: 12.0 });
        assert_eq!(exhaust.room(), Some(Room { lean_deg: 22.0, gap_at_top_mm: 2.8 }));
        assert!((engine.crank().unwrap().depth_mm(180.0) - 80.0).abs() < 1e-12);
    }

    #[test]
    fn a_measured_lift_and_a_phaser_at_its_early_end() {
        let [_, _, measured, _] = all_kinds();
        let plan = opened(&measured.replacen("rest = \"late\"", "rest = \"early\"", 1));
        assert_eq!(plan.engine.valves_meet_at_lift_sum_mm(), Some(11.0));
        let camshaft = &plan.engine.camshafts()[0];
        assert_eq!(camshaft.phaser_deg(), Some([-50.0, 0.0]));
        let exhaust = camshaft.valve(Kind::Exhaust).unwrap();
        assert_eq!(exhaust.events(), Events { opens_deg: -228.0, closes_deg: 12.0 });
        assert_eq!(exhaust.lobe().unwrap().most_mm(), 8.6);
        assert_eq!(exhaust.spring(), Some(Spring { shut_n: 250.0, rate_n_per_mm: 30.0 }));
    }

    #[test]
    fn what_is_left_out_is_not_there() {
        let start = SLIDE.find("[engine]").unwrap();
        let end = SLIDE.find("[[fastener]]").unwrap();
        let with = |engine: &str| SLIDE[..start].to_owned() + engine + &SLIDE[end..];
        assert!(engine(&read(&with("")).unwrap()).unwrap().is_none());
        let plan = opened(&with("[engine]\nrod_mm = 133.0\n"));
        assert!(plan.wheels.is_empty() && plan.engine.crank().is_none());
        let degrees = "[engine]\nfires_at_deg = [0, 360]\n[[engine.camshaft]]\n\
            wheel = \"cam_left\"\ncylinders = [1]\n\
            intake = { opens_btdc_deg = 10, closes_abdc_deg = 50, lean_deg = 20.0 }\n";
        let plan = opened(&with(degrees));
        let intake = plan.engine.camshafts()[0].valve(Kind::Intake).unwrap();
        assert_eq!(intake.events(), Events { opens_deg: -10.0, closes_deg: 230.0 });
        assert!(intake.lobe().is_none() && intake.room().is_none());
        assert_eq!(plan.engine.gap(0, Kind::Intake, 0.0, engine::Phasing::AtRest).map(drop), None);
    }

    #[test]
    fn each_flaw_is_told_where_it_stands() {
        let [slide, _, measured, _] = all_kinds();
        let more = |camshafts: &str| format!("{camshafts}\n[[fastener]]");
        let second = more(
            "[[engine.camshaft]]\nwheel = \"cam_right\"\ncylinders = [2, 5]\n\
             exhaust = { opens_bbdc_deg = 48, closes_atdc_deg = 12 }\n",
        );
        let third = more(
            "[[engine.camshaft]]\nwheel = \"cam_right\"\ncylinders = [1]\n\
             exhaust = { opens_bbdc_deg = 48, closes_atdc_deg = 12 }\n\
             [[engine.camshaft]]\nwheel = \"cam_right\"\ncylinders = [3]\n\
             exhaust = { opens_bbdc_deg = 48, closes_atdc_deg = 12 }\n",
        );
        let apart = measured.replacen("exhaust = {", "# ", 1);
        let intake = "engine.camshaft[0].intake";
        let lifts = "measured_lift_mm = [0, 3.5, 9, 3.5, 0], events_at_lift_mm = 0.0";
        for (text, from, to, key, at, part) in [
            (
                &slide,
                "[0.0, 25.0]",
                "[-60, 60]",
                "wheel[1].phaser.range_cam_deg",
                "[-60",
                "cam_left",
            ),
            (
                &slide,
                "_deg = 10, closes_abdc_deg = 50",
                "_deg = -150, closes_abdc_deg = -150",
                intake,
                "{",
                "cam_left",
            ),
            (
                &slide,
                "9.0, events_at_lift_mm = 0.0",
                "5.0, events_at_lift_mm = 4.9999",
                intake,
                "{",
                "cam_left",
            ),
            (
                &slide,
                "9.0, events_at_lift_mm = 0.0",
                "4.0, events_at_lift_mm = 4.5",
                "engine.camshaft[0].intake.events_at_lift_mm",
                "4.5",
                "cam_left",
            ),
            (&slide, "[[fastener]]", &second, "engine.camshaft[1].exhaust", "{", "cam_right"),
            (&slide, "[1, 3, 5]", "[1, 3, 3]", intake, "{", "cam_left"),
            (&measured, "= 11.0", "= 8.5", "engine.valves_meet_at_lift_sum_mm", "8.5", ""),
            (
                &measured,
                "[0, 3.5, 9, 3.5, 0]",
                "[0, 3.5, 3, 3.5, 0]",
                "engine.camshaft[0].intake.measured_lift_mm[3]",
                "[0, 3.5, 3,",
                "cam_left",
            ),
            (
                &measured,
                "[0, 3.5, 9, 3.5, 0]",
                "[0, 0.1, 0.3, 0.1, 0]",
                "engine.camshaft[0].intake.measured_lift_mm",
                "[0, 0.1",
                "cam_left",
            ),
            (
                &measured,
                lifts,
                "measured_lift_mm = [0, 1, 2, 1, 0], events_at_lift_mm = 2.0",
                "engine.camshaft[0].intake.events_at_lift_mm",
                "2.0",
                "cam_left",
            ),
            (
                &apart,
                "[[fastener]]",
                &third,
                "engine.camshaft[0]",
                "[[engine.camshaft]]",
                "cam_left",
            ),
        ] {
            assert!(text.contains(from), "{from}");
            let text = text.replacen(from, to, 1);
            let problems = engine(&read(&text).unwrap()).map(|_| ()).unwrap_err();
            let told = problems.iter().find(|problem| problem.key == key);
            let problem = told.unwrap_or_else(|| panic!("{to}: {problems:?}"));
            assert!(matches!(problem.kind, ProblemKind::Engine { .. }), "{problem:?}");
            assert!(text[problem.place.from_byte..].starts_with(at), "{to}: {problem:?}");
            assert_eq!(problem.part.as_deref().unwrap_or_default(), part, "{to}");
        }
    }
}
