//! The tensioner: the wheel that it moves, and its settings within its travel.

use super::{called_wheel, unfit};
use crate::choice::Role;
use crate::findings::Findings;
use crate::key::Unit;
use crate::problem::{Need, ProblemKind};
use crate::tree::Node;

pub(super) fn check(top: &Node, findings: &mut Findings<'_>) {
    let Some(tensioner) = top.table("tensioner") else { return };
    if let Some(wheel) = called_wheel(top, tensioner, "wheel", findings)
        && wheel.text("role").is_some_and(|role| role != Role::Tensioner.word())
    {
        unfit(tensioner, "wheel", wheel, Need::Role(Role::Tensioner.word()), findings);
    }
    for (setting, travel, unit) in [
        ("pinned_mm", "travel_mm", Unit::Millimetres),
        ("pinned_deg", "travel_deg", Unit::Degrees),
        ("set_deg", "travel_deg", Unit::Degrees),
    ] {
        if let Some(found) = tensioner.number(setting) {
            within(tensioner, setting, found, travel, unit, findings);
        }
    }
    // One of the window's ends is enough to be told.
    if let Some([low, high]) = tensioner.two("pointer_window_deg")
        && !within(tensioner, "pointer_window_deg", low, "travel_deg", Unit::Degrees, findings)
    {
        within(tensioner, "pointer_window_deg", high, "travel_deg", Unit::Degrees, findings);
    }
}

/// Tells a setting beyond the travel. Gives whether it did.
fn within(
    tensioner: &Node,
    name: &str,
    found: f64,
    travel: &str,
    unit: Unit,
    findings: &mut Findings<'_>,
) -> bool {
    let Some([low, high]) = tensioner.two(travel) else { return false };
    let beyond = !(low..=high).contains(&found);
    if beyond {
        let kind = ProblemKind::Disagrees {
            found,
            least: Some(low),
            most: Some(high),
            inclusive: true,
            unit,
            set_by: tensioner.path_of(travel),
        };
        tensioner.tell(findings, name, kind);
    }
    beyond
}
