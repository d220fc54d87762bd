//! Turning by hand: how far the crank, one camshaft, or both together go before a valve of that camshaft
//! meets its piston.
//!
//! Must not know: what makes the two turn together or apart.

use crate::angle::{Arc, CYCLE_DEG, TURN_DEG, within};
use crate::crank::RAD_PER_DEG;
use crate::engine::Engine;
use crate::events::Kind;
use crate::gap::Phasing;
use crate::stand::{Meeting, Stop};
use alloc::vec::Vec;

/// Which of a crank and one camshaft turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turning {
    /// The crank alone.
    Crank,
    /// The camshaft alone.
    Camshaft,
    /// Both, as a tight belt turns them: equal crank degrees.
    Together,
}

impl Engine {
    /// Where a turn of `by_deg` crank degrees, forward positive, first brings a valve of `camshaft`
    /// against its piston; `None` where it does not. Crank and camshaft start `crank_deg` and `cam_deg`
    /// crank degrees past their marks.
    ///
    /// A phaser rests. Valves whose gap is not known stop nothing, nor does one that is in its piston's
    /// way as they stand: that cannot be, and the way out of it must be free.
    pub fn until_contact(
        &self,
        camshaft: usize,
        crank_deg: f64,
        cam_deg: f64,
        turning: Turning,
        by_deg: f64,
    ) -> Option<Stop> {
        let shaft = self.camshafts().get(camshaft)?;
        if by_deg == 0.0 {
            return None;
        }
        let mut first: Option<Stop> = None;
        let mut meet = |arc: Arc, period: f64, at_deg: f64, parts: Meeting| {
            let after_deg = reach(arc, period, at_deg, by_deg);
            if let Some(after_deg) = after_deg
                && first.is_none_or(|stop| after_deg < stop.after_deg)
            {
                first = Some(Stop { after_deg, parts });
            }
        };
        for valve in Kind::BOTH {
            let Some(gap) = self.gap(camshaft, valve, cam_deg - crank_deg, Phasing::AtRest) else {
                continue;
            };
            let both = turning == Turning::Together;
            // Mostly nothing touches, and that is found sooner than where.
            let together = if both && gap.touches() { gap.below(0.0) } else { Vec::new() };
            for &cylinder in shaft.cylinders() {
                let parts = Meeting::Piston { cylinder, camshaft, valve };
                let crank_at = self.from_overlap_deg(cylinder, crank_deg);
                let cam_at = self.from_overlap_deg(cylinder, cam_deg);
                match turning {
                    Turning::Together => {
                        for arc in &together {
                            meet(*arc, CYCLE_DEG, crank_at, parts);
                        }
                    }
                    Turning::Crank => {
                        if let Some(arc) = self.crank_arc(camshaft, valve, cam_at) {
                            meet(arc, TURN_DEG, crank_at, parts);
                        }
                    }
                    Turning::Camshaft => {
                        if let Some(arc) = self.camshaft_arc(camshaft, valve, crank_at) {
                            meet(arc, CYCLE_DEG, cam_at, parts);
                        }
                    }
                }
            }
        }
        first
    }

    /// With the valve as far open as it is at `cam_at` after the overlap top, the crank's arc about the
    /// piston's top in which it is in the way.
    fn crank_arc(&self, camshaft: usize, kind: Kind, cam_at: f64) -> Option<Arc> {
        let valve = self.camshafts().get(camshaft)?.valve(kind)?;
        let (lobe, room, crank) = (valve.lobe()?, valve.room()?, self.crank()?);
        let reach_mm =
            lobe.lift_mm(cam_at) * libm::cos(room.lean_deg * RAD_PER_DEG) - room.gap_at_top_mm;
        if reach_mm <= 0.0 {
            return None;
        }
        if reach_mm > crank.stroke_mm() {
            return Some(Arc { from_deg: 0.0, to_deg: TURN_DEG });
        }
        let half = crank.deg_at_depth(reach_mm);
        Some(Arc { from_deg: -half, to_deg: half })
    }

    /// With the piston where it is at `crank_at` after the overlap top, the camshaft's arc in which the
    /// valve is in its way.
    fn camshaft_arc(&self, camshaft: usize, kind: Kind, crank_at: f64) -> Option<Arc> {
        let valve = self.camshafts().get(camshaft)?.valve(kind)?;
        let (lobe, room, crank) = (valve.lobe()?, valve.room()?, self.crank()?);
        let free_mm = (room.gap_at_top_mm + crank.depth_mm(crank_at))
            / libm::cos(room.lean_deg * RAD_PER_DEG);
        if free_mm < 0.0 {
            return Some(Arc { from_deg: 0.0, to_deg: CYCLE_DEG });
        }
        let (from_deg, to_deg) = lobe.above(free_mm)?;
        Some(Arc { from_deg, to_deg })
    }
}

/// After how many degrees a turn of `by_deg` from `at_deg` enters an arc; `None` where it does not, or
/// begins inside.
fn reach(arc: Arc, period: f64, at_deg: f64, by_deg: f64) -> Option<f64> {
    let past = within(at_deg - arc.from_deg, period);
    if past > 0.0 && past < arc.len_deg() || arc.len_deg() >= period {
        return None;
    }
    let after_deg =
        if by_deg > 0.0 { within(-past, period) } else { within(past - arc.len_deg(), period) };
    (after_deg < by_deg.abs()).then_some(after_deg)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture::four;

    /// The crank of a four turned with the camshaft still, every valve's lift fixed: it stops where the
    /// gap of that valve is none.
    #[test]
    fn a_stop_is_where_the_gap_is_none() {
        let engine = four(1.0);
        for cam_deg in [0.0, 33.0, 100.0, 250.0, 400.0, 555.0, 700.0] {
            for by_deg in [360.0, -360.0] {
                let stop = engine.until_contact(0, 90.0, cam_deg, Turning::Crank, by_deg);
                let Some(stop) = stop else { continue };
                let Meeting::Piston { cylinder, camshaft, valve } = stop.parts else { panic!() };
                let crank = 90.0 + stop.after_deg * if by_deg > 0.0 { 1.0 } else { -1.0 };
                let gap = engine.gap(camshaft, valve, cam_deg - crank, Phasing::AtRest).unwrap();
                let at = gap.at_mm(engine.from_overlap_deg(cylinder, crank));
                assert!(at.abs() < 1e-9, "{cam_deg} {by_deg}: {at}");
            }
        }
    }

    #[test]
    fn each_way_of_turning_agrees_where_it_should() {
        let engine = four(0.5);
        // In time it runs free; a good way out it does not.
        assert_eq!(engine.until_contact(0, 0.0, 0.0, Turning::Together, 1440.0), None);
        let mut compared = 0;
        for late in [30.0, 45.0, 60.0, 90.0, 120.0, 150.0] {
            let free = engine.freedom_together(&[-late], 90.0, Phasing::AtRest);
            let Some(free) = free.forward.filter(|stop| stop.after_deg > 0.0) else { continue };
            compared += 1;
            let turned = |crank: f64, by_deg: f64| {
                engine.until_contact(0, crank, crank - late, Turning::Together, by_deg)
            };
            let stop = turned(90.0, 1440.0).unwrap();
            assert_eq!(free.after_deg, stop.after_deg);
            // Begun inside, nothing stops the way out of that; a short turn ends before.
            assert_eq!(turned(90.0 + stop.after_deg + 1e-3, -1.0), None);
            assert_eq!(turned(90.0, stop.after_deg / 2.0), None);
        }
        assert!(compared > 2, "{compared}");
    }

    #[test]
    fn a_camshaft_alone_stops_at_the_piston_too() {
        let engine = four(0.5);
        let stop = engine.until_contact(0, 0.0, 0.0, Turning::Camshaft, 720.0).unwrap();
        let Meeting::Piston { cylinder, camshaft, valve } = stop.parts else { panic!() };
        let gap = engine.gap(camshaft, valve, stop.after_deg, Phasing::AtRest).unwrap();
        assert!(gap.at_mm(engine.from_overlap_deg(cylinder, 0.0)).abs() < 1e-9);
    }
}
