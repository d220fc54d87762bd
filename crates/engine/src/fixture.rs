//! An invented engine for the tests at files' feet.

use crate::engine::Engine;
use crate::events::Kind;
use crate::figures::{
    AtMarks, CamshaftFigures, CrankFigures, Events, Figures, Motion, Room, Top, ValveFigures,
};
use crate::law::Law;
use alloc::vec::Vec;

/// A four in line with one camshaft and that room at the top.
pub(crate) fn four(gap_at_top_mm: f64) -> Engine {
    Engine::new(four_figures(gap_at_top_mm)).unwrap()
}

pub(crate) fn four_figures(gap_at_top_mm: f64) -> Figures {
    let valve = |kind, before, after| {
        Some(ValveFigures {
            motion: Motion::Law {
                events: Events::of(kind, before, after),
                at_lift_mm: 0.0,
                lift_mm: 9.0,
                law: Law::Polynomial345,
            },
            room: Some(Room { lean_deg: 20.0, gap_at_top_mm }),
            spring: None,
        })
    };
    Figures {
        bore_mm: None,
        crank: Some(CrankFigures { stroke_mm: 80.0, rod_mm: 133.0 }),
        compression_ratio: None,
        at_marks: AtMarks { crank_atdc_deg: 0.0, top: Top::Firing },
        fires_at_deg: Vec::from([0.0, 540.0, 180.0, 360.0]),
        camshafts: Vec::from([CamshaftFigures {
            cylinders: (0..4).collect(),
            intake: valve(Kind::Intake, 10.0, 50.0),
            exhaust: valve(Kind::Exhaust, 48.0, 12.0),
            phaser_deg: None,
        }]),
        valves_meet_at_lift_sum_mm: None,
    }
}
