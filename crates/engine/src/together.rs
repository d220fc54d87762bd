//! The belt on: how far the crank may be turned with every camshaft following, before something meets.
//!
//! Must not know: what makes the camshafts follow.

use crate::angle::{CYCLE_DEG, Taken};
use crate::engine::Engine;
use crate::events::Kind;
use crate::gap::Phasing;
use crate::stand::{Freedom, Meeting};

impl Engine {
    /// How far the crank may turn each way from `crank_deg` past its mark with every camshaft turning
    /// along, `errors_deg` crank degrees ahead (0 where none is given), before a valve meets its piston;
    /// 0 where one already does. Valves whose gap is not known stop nothing.
    pub fn freedom_together(
        &self,
        errors_deg: &[f64],
        crank_deg: f64,
        phasing: Phasing,
    ) -> Freedom {
        let mut freedom = Freedom { back: None, forward: None };
        for (camshaft, c) in self.camshafts().iter().enumerate() {
            let error_deg = errors_deg.get(camshaft).copied().unwrap_or(0.0);
            for valve in Kind::BOTH {
                let Some(gap) = self.gap(camshaft, valve, error_deg, phasing) else { continue };
                for arc in gap.below(0.0) {
                    let taken =
                        if arc.len_deg() >= CYCLE_DEG { Taken::All } else { Taken::Open(arc) };
                    for &cylinder in c.cylinders() {
                        let at_deg = self.from_overlap_deg(cylinder, crank_deg);
                        let parts = Meeting::Piston { cylinder, camshaft, valve };
                        freedom.narrow(taken, at_deg, CYCLE_DEG, parts);
                    }
                }
            }
        }
        freedom
    }
}
