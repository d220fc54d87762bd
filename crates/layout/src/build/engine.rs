//! The engine's part of the tree to values.
//!
//! Must not check anything: the table and the rules did.

use super::{Built, missing, number, wheel_index, word};
use crate::choice::{Law, TopAtMarks};
use crate::document::WheelValues;
use crate::engine_values::{
    CamshaftValues, EngineValues, LiftReading, LiftValues, MotionValues, SpringValues, ValveValues,
};
use crate::tree::Node;

pub(super) fn engine(node: &Node, wheels: &[WheelValues]) -> Built<EngineValues> {
    let camshafts = node.tables("camshaft").iter().map(|camshaft| {
        let numbers = camshaft.numbers("cylinders").unwrap_or_default();
        Ok(CamshaftValues {
            wheel: wheel_index(camshaft, "wheel", wheels)?,
            // Whole numbers from 1.
            cylinders: numbers.iter().map(|number| *number as usize - 1).collect(),
            intake: camshaft
                .table("intake")
                .map(|node| valve(node, "opens_btdc_deg", "closes_abdc_deg"))
                .transpose()?,
            exhaust: camshaft
                .table("exhaust")
                .map(|node| valve(node, "opens_bbdc_deg", "closes_atdc_deg"))
                .transpose()?,
        })
    });
    Ok(EngineValues {
        bore_mm: node.number("bore_mm"),
        stroke_mm: node.number("stroke_mm"),
        rod_mm: node.number("rod_mm"),
        compression_ratio: node.number("compression_ratio"),
        crank_at_marks_atdc_deg: node.number("crank_at_marks_atdc_deg").unwrap_or(0.0),
        cylinder_1_at_marks: node
            .text("cylinder_1_at_marks")
            .and_then(TopAtMarks::from_word)
            .unwrap_or(TopAtMarks::Firing),
        fires_at_deg: node.numbers("fires_at_deg").unwrap_or_default().to_vec(),
        valves_meet_at_lift_sum_mm: node.number("valves_meet_at_lift_sum_mm"),
        camshafts: camshafts.collect::<Built<_>>()?,
    })
}

fn valve(node: &Node, opens: &'static str, closes: &'static str) -> Built<ValveValues> {
    let spring = |shut_n| -> Built<SpringValues> {
        Ok(SpringValues { shut_n, rate_n_per_mm: number(node, "spring_rate_n_per_mm")? })
    };
    Ok(ValveValues {
        motion: match node.numbers("measured_at_deg") {
            Some(at_deg) => measured(node, at_deg)?,
            None => MotionValues::Events {
                opens_before_deg: number(node, opens)?,
                closes_after_deg: number(node, closes)?,
                lift: node.number("lift_mm").map(|lift_mm| lift(node, lift_mm)).transpose()?,
            },
        },
        events_at_lift_mm: node.number("events_at_lift_mm"),
        lean_deg: node.number("lean_deg"),
        gap_at_tdc_mm: node.number("gap_at_tdc_mm"),
        spring: node.number("spring_shut_n").map(spring).transpose()?,
    })
}

fn lift(node: &Node, lift_mm: f64) -> Built<LiftValues> {
    Ok(LiftValues { lift_mm, law: word(node, "law", Law::from_word)? })
}

fn measured(node: &Node, at_deg: &[f64]) -> Built<MotionValues> {
    let name = "measured_lift_mm";
    let lifts = node.numbers(name).ok_or_else(|| missing(node, name))?;
    let both = at_deg.iter().zip(lifts);
    let readings = both.map(|(&at_deg, &lift_mm)| LiftReading { at_deg, lift_mm }).collect();
    Ok(MotionValues::Measured { readings })
}
