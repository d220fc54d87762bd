//! The belt's own figures: teeth and cords must fit into its thickness.

use crate::findings::Findings;
use crate::key::Unit;
use crate::problem::ProblemKind;
use crate::tree::Node;

pub(super) fn check(top: &Node, findings: &mut Findings<'_>) {
    let Some(belt) = top.table("belt") else { return };
    let (Some(thickness), Some(height)) =
        (belt.number("thickness_mm"), belt.number("tooth_height_mm"))
    else {
        return;
    };
    if height >= thickness {
        tell(belt, "tooth_height_mm", height, thickness, findings);
    } else if let Some(differential) = belt.number("pitch_line_differential_mm")
        && differential >= thickness - height
    {
        // The pitch line runs between the land and the back of the belt.
        tell(belt, "pitch_line_differential_mm", differential, thickness - height, findings);
    }
}

fn tell(belt: &Node, name: &str, found: f64, below: f64, findings: &mut Findings<'_>) {
    let kind = ProblemKind::Disagrees {
        found,
        least: None,
        most: Some(below),
        inclusive: false,
        unit: Unit::Millimetres,
        set_by: belt.path_of("thickness_mm"),
    };
    belt.tell(findings, name, kind);
}
