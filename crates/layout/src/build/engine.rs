//! The engine's part of the tree to values.
//!
//! Must not check anything: the table and the rules did.

use super::{Built, wheel_index};
use crate::choice::{Law, TopAtMarks};
use crate::document::WheelValues;
use crate::engine_values::{CamshaftValues, EngineValues, ValveValues};
use crate::tree::Node;

pub(super) fn engine(node: &Node, wheels: &[WheelValues]) -> Built<EngineValues> {
    let camshafts = node.tables("camshaft").iter().map(|camshaft| {
        let numbers = camshaft.numbers("cylinders").unwrap_or_default();
        Ok(CamshaftValues {
            wheel: wheel_index(camshaft, "wheel", wheels)?,
            // Whole numbers from 1.
            cylinders: numbers.iter().map(|number| *number as usize - 1).collect(),
            intake: camshaft.table("intake").map(|n| valve(n, "opens_btdc_deg", "closes_abdc_deg")),
            exhaust: camshaft
                .table("exhaust")
                .map(|n| valve(n, "opens_bbdc_deg", "closes_atdc_deg")),
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

fn valve(node: &Node, opens: &str, closes: &str) -> ValveValues {
    let list = |name| node.numbers(name).unwrap_or_default().to_vec();
    ValveValues {
        opens_before_deg: node.number(opens),
        closes_after_deg: node.number(closes),
        lift_mm: node.number("lift_mm"),
        events_at_lift_mm: node.number("events_at_lift_mm"),
        law: node.text("law").and_then(Law::from_word),
        measured_at_deg: list("measured_at_deg"),
        measured_lift_mm: list("measured_lift_mm"),
        lean_deg: node.number("lean_deg"),
        gap_at_tdc_mm: node.number("gap_at_tdc_mm"),
        spring_shut_n: node.number("spring_shut_n"),
        spring_rate_n_per_mm: node.number("spring_rate_n_per_mm"),
    }
}
