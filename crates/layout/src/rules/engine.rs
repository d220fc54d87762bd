//! The engine: a rod longer than the crank's throw, camshafts on marked camshaft wheels, cylinders
//! that exist.

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
    let Some(wheel) = called_wheel(top, camshaft, "wheel", findings) else { return };
    if wheel.text("role").is_some_and(|role| role != Role::Camshaft.word()) {
        unfit(camshaft, "wheel", wheel, Need::Role(Role::Camshaft.word()), findings);
    } else if !wheel.has("mark") {
        unfit(camshaft, "wheel", wheel, Need::Marked, findings);
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
