//! The engine: a rod longer than the crank's throw, camshafts on marked camshaft wheels, cylinders
//! that exist, each valve's motion stated one way and whole.

use super::{called_wheel, one_of, unfit};
use crate::choice::Role;
use crate::findings::Findings;
use crate::key::Unit;
use crate::problem::{Need, ProblemKind};
use crate::tree::Node;

pub(super) fn check(top: &Node, findings: &mut Findings<'_>) {
    let Some(engine) = top.table("engine") else { return };
    if let (Some(rod), Some(stroke)) = (engine.number("rod_mm"), engine.number("stroke_mm"))
        && rod <= stroke / 2.0
    {
        let set_by = engine.path_of("stroke_mm");
        let least = Some(stroke / 2.0);
        tell(engine, "rod_mm", rod, (least, None, false), Unit::Millimetres, set_by, findings);
    }
    let fires = engine.numbers("fires_at_deg");
    if let Some(first) = fires.and_then(|fires| fires.first())
        && *first != 0.0
    {
        // Cylinder 1 fires 0° after itself.
        let set_by = engine.path_of("fires_at_deg[0]");
        let zero = (Some(0.0), Some(0.0), true);
        tell(engine, "fires_at_deg", *first, zero, Unit::Degrees, set_by, findings);
    }
    if !engine.tables("camshaft").is_empty() {
        needed(engine, "fires_at_deg", findings);
    }
    for camshaft in engine.tables("camshaft") {
        check_camshaft(top, camshaft, findings);
        let last = fires.map(|fires| fires.len() as f64);
        let beyond = |number: &&f64| last.is_some_and(|last| **number > last);
        if let Some(found) = camshaft.numbers("cylinders").and_then(|all| all.iter().find(beyond)) {
            let set_by = engine.path_of("fires_at_deg");
            let upto = (Some(1.0), last, true);
            tell(camshaft, "cylinders", *found, upto, Unit::Bare, set_by, findings);
        }
    }
}

fn check_camshaft(top: &Node, camshaft: &Node, findings: &mut Findings<'_>) {
    one_of(camshaft, &["intake", "exhaust"], true, findings);
    if let Some(valve) = camshaft.table("intake") {
        check_valve(valve, &INTAKE, findings);
    }
    if let Some(valve) = camshaft.table("exhaust") {
        check_valve(valve, &EXHAUST, findings);
    }
    let Some(wheel) = called_wheel(top, camshaft, "wheel", findings) else { return };
    if wheel.text("role").is_some_and(|role| role != Role::Camshaft.word()) {
        unfit(camshaft, "wheel", wheel, Need::Role(Role::Camshaft.word()), findings);
    } else if !wheel.has("mark") {
        unfit(camshaft, "wheel", wheel, Need::Marked, findings);
    }
}

/// The keys of a valve's opening and closing.
struct Events {
    opens: &'static str,
    closes: &'static str,
    /// The first key of each way to state its motion.
    ways: &'static [&'static str],
}

const INTAKE: Events = Events {
    opens: "opens_btdc_deg",
    closes: "closes_abdc_deg",
    ways: &["opens_btdc_deg", MEASURED_AT],
};
const EXHAUST: Events = Events {
    opens: "opens_bbdc_deg",
    closes: "closes_atdc_deg",
    ways: &["opens_bbdc_deg", MEASURED_AT],
};
const MEASURED_AT: &str = "measured_at_deg";
const MEASURED_LIFT: &str = "measured_lift_mm";

/// A valve's motion is stated by its events, with or without a lift and its law, or by a measured lift.
fn check_valve(valve: &Node, events: &Events, findings: &mut Findings<'_>) {
    let &Events { opens, closes, ways } = events;
    pair(valve, opens, closes, findings);
    pair(valve, MEASURED_AT, MEASURED_LIFT, findings);
    pair(valve, "spring_shut_n", "spring_rate_n_per_mm", findings);
    let first_of = |names: [&'static str; 2]| names.into_iter().find(|name| valve.has(name));
    let both = |keys, one, other| {
        let found = vec![one, other];
        (other, ProblemKind::OneOf { keys, found, more_allowed: false })
    };
    let measured = first_of([MEASURED_AT, MEASURED_LIFT]);
    let told = match (first_of([opens, closes]), measured, first_of(["lift_mm", "law"])) {
        (None, None, _) => {
            Some((opens, ProblemKind::OneOf { keys: ways, found: vec![], more_allowed: false }))
        }
        (Some(event), Some(measured), _) => Some(both(ways, event, measured)),
        // A law goes with events as its lift does.
        (None, Some(_), Some(lift)) => Some(both(&["lift_mm", MEASURED_LIFT], lift, MEASURED_LIFT)),
        _ => None,
    };
    if let Some((name, kind)) = told {
        valve.tell(findings, name, kind);
    }
    if measured.is_none() {
        pair(valve, "lift_mm", "law", findings);
    }
    if let (Some(at), Some(lift)) = (valve.numbers(MEASURED_AT), valve.numbers(MEASURED_LIFT))
        && at.len() != lift.len()
    {
        let other_key = valve.path_of(MEASURED_AT);
        let kind = ProblemKind::UnequalLists { found: lift.len(), other: at.len(), other_key };
        valve.tell(findings, MEASURED_LIFT, kind);
    }
}

/// Two keys that are there together or not at all.
fn pair(node: &Node, one: &'static str, other: &'static str, findings: &mut Findings<'_>) {
    match (node.has(one), node.has(other)) {
        (true, false) => needed(node, other, findings),
        (false, true) => needed(node, one, findings),
        _ => {}
    }
}

/// A key that must be there because of others that are.
fn needed(node: &Node, name: &'static str, findings: &mut Findings<'_>) {
    if !node.has(name) {
        node.tell(findings, name, ProblemKind::MissingKey { name });
    }
}

fn tell(
    node: &Node,
    name: &str,
    found: f64,
    (least, most, inclusive): (Option<f64>, Option<f64>, bool),
    unit: Unit,
    set_by: String,
    findings: &mut Findings<'_>,
) {
    node.tell(
        findings,
        name,
        ProblemKind::Disagrees { found, least, most, inclusive, unit, set_by },
    );
}
