//! Fasteners: one torque or several stages, on a wheel that exists.

use super::{called_wheel, one_of};
use crate::findings::Findings;
use crate::tree::Node;

const TIGHTENED: &[&str] = &["torque_n_m", "torque_lbf_ft", "torque_lbf_in", "stages"];
const STAGE: &[&str] = &["torque_n_m", "torque_lbf_ft", "torque_lbf_in", "angle_deg"];

pub(super) fn check(top: &Node, findings: &mut Findings<'_>) {
    for fastener in top.tables("fastener") {
        called_wheel(top, fastener, "wheel", findings);
        one_of(fastener, TIGHTENED, false, findings);
        for stage in fastener.tables("stages") {
            one_of(stage, STAGE, false, findings);
        }
    }
}
