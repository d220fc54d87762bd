//! The wheels among themselves: ids, the crank first, teeth where there must be teeth.

use std::collections::BTreeMap;

use super::one_of;
use crate::choice::{Face, Role};
use crate::findings::Findings;
use crate::problem::{Need, ProblemKind};
use crate::tree::Node;

pub(super) fn check(top: &Node, findings: &mut Findings<'_>) {
    let wheels = top.tables("wheel");
    repeated_ids(wheels, findings);
    crank(top, wheels, findings);
    for wheel in wheels {
        teeth(wheel, findings);
    }
}

fn repeated_ids(wheels: &[Node], findings: &mut Findings<'_>) {
    let mut first_with = BTreeMap::new();
    for wheel in wheels {
        let Some(id) = wheel.text("id") else { continue };
        let first: &Node = first_with.entry(id).or_insert(wheel);
        if !std::ptr::eq(first, wheel) {
            let kind = ProblemKind::RepeatedId { found: id.to_owned(), first: first.path_of("id") };
            wheel.tell(findings, "id", kind);
        }
    }
}

/// One crank, it comes first, and it has a mark to time everything by.
fn crank(top: &Node, wheels: &[Node], findings: &mut Findings<'_>) {
    let mut cranks =
        wheels.iter().enumerate().filter(|(_, wheel)| role(wheel) == Some(Role::Crank));
    match cranks.next() {
        Some((index, crank)) => {
            if index != 0 {
                tell(crank, "role", Need::First, findings);
            }
            if !crank.has("mark") {
                tell(crank, "mark", Need::Marked, findings);
            }
        }
        // A role that is missing or wrong may have been meant for the crank's.
        None if !wheels.is_empty() && wheels.iter().all(|wheel| role(wheel).is_some()) => {
            top.tell(findings, "wheel", ProblemKind::NoCrank);
        }
        None => {}
    }
    for (_, second) in cranks {
        tell(second, "role", Need::NotASecondCrank, findings);
    }
}

fn teeth(wheel: &Node, findings: &mut Findings<'_>) {
    one_of(wheel, &["teeth", "outside_diameter_mm"], false, findings);
    if wheel.has("teeth") {
        if wheel.text("face").and_then(Face::from_word) == Some(Face::Back) {
            tell(wheel, "face", Need::ToothedFace, findings);
        }
    } else if wheel.has("outside_diameter_mm") {
        for name in ["mark", "other_marks"] {
            if wheel.has(name) {
                tell(wheel, name, Need::Toothed, findings);
            }
        }
        if role(wheel).is_some_and(Role::is_timed) {
            tell(wheel, "role", Need::Toothed, findings);
        }
    }
}

fn role(wheel: &Node) -> Option<Role> {
    wheel.text("role").and_then(Role::from_word)
}

fn tell(wheel: &Node, name: &str, needs: Need, findings: &mut Findings<'_>) {
    wheel.tell(findings, name, ProblemKind::UnfitWheel { needs });
}
