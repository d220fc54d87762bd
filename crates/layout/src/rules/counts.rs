//! Counted teeth: between two different marked wheels, fewer than the belt has.

use super::{called_wheel, unfit};
use crate::findings::Findings;
use crate::key::Unit;
use crate::problem::{Need, ProblemKind};
use crate::tree::Node;

pub(super) fn check(top: &Node, findings: &mut Findings<'_>) {
    let belt_teeth = top.table("belt").and_then(|belt| belt.number("teeth"));
    for count in top.tables("count") {
        for name in ["from", "to"] {
            if let Some(wheel) = called_wheel(top, count, name, findings)
                && !wheel.has("mark")
            {
                unfit(count, name, wheel, Need::Marked, findings);
            }
        }
        if let (Some(from), Some(to)) = (count.text("from"), count.text("to"))
            && from == to
        {
            let kind = ProblemKind::UnfitWheel { needs: Need::AnotherWheel };
            count.tell_of(findings, "to", to, kind);
        }
        if let (Some(found), Some(all)) = (count.number("teeth"), belt_teeth)
            && found >= all
        {
            let kind = ProblemKind::Disagrees {
                found,
                least: None,
                most: Some(all),
                inclusive: false,
                unit: Unit::Teeth,
                set_by: "belt.teeth".to_owned(),
            };
            count.tell(findings, "teeth", kind);
        }
    }
}
