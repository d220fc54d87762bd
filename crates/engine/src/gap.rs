//! The gap between one valve and its piston over the whole cycle: the least of it, and the arcs in
//! which it is below a margin.
//!
//! Must not know: how the crank came there, or other valves.

use crate::angle::{Arc, CYCLE_DEG, wrap_cycle};
use crate::crank::{RAD_PER_DEG, SliderCrank};
use crate::engine::Engine;
use crate::events::Kind;
use crate::lobe::Lobe;
use alloc::vec::Vec;

/// Least gaps are met to this, mm.
const LEAST_TOLERANCE_MM: f64 = 1e-9;
/// Pieces of angle are not cut below this, degrees.
const FINEST_DEG: f64 = 1e-9;

/// How far a phaser is taken to move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phasing {
    /// It rests.
    AtRest,
    /// Anywhere in its stated range, wherever that is worst.
    WholeRange,
}

/// The gap between a valve and its piston as a function of the crank, g(ψ) = g₀ + x(ψ) − lift·cos α.
///
/// ψ counts crank degrees from the cylinder's own overlap top. The gap is along the bore, mm; below
/// zero the two would be in the same place. Along the stem it is g/cos α: a valve pushed on along its
/// stem by s comes s·cos α nearer.
#[derive(Clone, Copy, Debug)]
pub struct Gap<'a> {
    piston: &'a SliderCrank,
    lobe: &'a Lobe,
    cos_lean: f64,
    at_top_mm: f64,
    error_deg: f64,
}

/// The least gap of a valve over the whole cycle, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeastGap {
    /// Along the bore, mm; negative where valve and piston would be in the same place.
    pub along_bore_mm: f64,
    /// The same along the valve's stem, mm.
    pub along_stem_mm: f64,
    /// Crank degrees from the cylinder's own overlap top, in [−360, 360]; of equal places the one
    /// nearest that top.
    pub at_deg: f64,
    /// Where the phaser is worst, crank degrees ahead of its rest; 0 without one.
    pub phase_deg: f64,
}

/// A least gap with the cylinder and valve that it is of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ValveGap {
    /// The camshaft.
    pub camshaft: usize,
    /// The cylinder.
    pub cylinder: usize,
    /// The valve.
    pub valve: Kind,
    /// Its least gap.
    pub least: LeastGap,
}

/// A place on the cycle with what the bounds need.
#[derive(Clone, Copy)]
struct Place {
    deg: f64,
    depth: f64,
    drop: f64,
    gap: f64,
}

impl Engine {
    /// The gap of a valve with its camshaft `error_deg` crank degrees ahead; it is the same for every
    /// cylinder of the camshaft. `None` where stroke and rod, the valve, its lift or its room at the top
    /// are not known, or the error is not finite.
    pub fn gap(
        &self,
        camshaft: usize,
        kind: Kind,
        error_deg: f64,
        phasing: Phasing,
    ) -> Option<Gap<'_>> {
        let valve = self.camshafts().get(camshaft)?.valve(kind)?;
        let lobe = match phasing {
            Phasing::AtRest => valve.lobe()?,
            Phasing::WholeRange => valve.swept()?,
        };
        let room = valve.room()?;
        let cos_lean = libm::cos(room.lean_deg * RAD_PER_DEG);
        let (piston, at_top_mm) = (self.crank()?, room.gap_at_top_mm);
        let error_deg = Some(wrap_cycle(error_deg)).filter(|deg| deg.is_finite())?;
        Some(Gap { piston, lobe, cos_lean, at_top_mm, error_deg })
    }

    /// The least gap of every valve of every cylinder whose figures are known, each camshaft
    /// `errors_deg` crank degrees ahead (0 where none is given).
    pub fn least_gaps(&self, errors_deg: &[f64], phasing: Phasing) -> Vec<ValveGap> {
        let mut found = Vec::new();
        for (camshaft, c) in self.camshafts().iter().enumerate() {
            let error_deg = errors_deg.get(camshaft).copied().unwrap_or(0.0);
            for valve in Kind::BOTH {
                let Some(gap) = self.gap(camshaft, valve, error_deg, phasing) else { continue };
                let least = gap.least();
                let each = c.cylinders().iter();
                found.extend(each.map(|&cylinder| ValveGap { camshaft, cylinder, valve, least }));
            }
        }
        found
    }
}

impl Gap<'_> {
    /// The gap along the bore at `deg` after the overlap top, mm.
    pub fn at_mm(&self, deg: f64) -> f64 {
        self.place(deg).gap
    }

    /// How fast it grows with the crank there, mm per degree.
    pub fn rate(&self, deg: f64) -> f64 {
        self.piston.depth_rate(deg) - self.cos_lean * self.lobe.lift_rate(deg + self.error_deg)
    }

    /// How far the piston stands below the shut valve there, mm.
    pub fn piston_mm(&self, deg: f64) -> f64 {
        self.at_top_mm + self.piston.depth_mm(deg)
    }

    /// How far the valve reaches down along the bore there, mm.
    pub fn valve_mm(&self, deg: f64) -> f64 {
        self.cos_lean * self.lobe.lift_mm(deg + self.error_deg)
    }

    /// The least gap over the cycle, to 1e-9 mm.
    ///
    /// The cycle is cut where the piston or the valve turns back, so that on each piece both move one
    /// way. On a piece from a to b, w wide, the gap is at least g₀ + least x − greatest lift·cos α, each
    /// at an end; and at least min(g(a), g(b)) − M·w²/8, M a bound on the second derivative. Pieces
    /// that the better of these proves to hold nothing lower are left, the others halved: what is found
    /// is the least of all, and not of some samples.
    pub fn least(&self) -> LeastGap {
        // The place nearest the overlap top comes first and stays unless another is lower.
        let mut best = self.place(0.0);
        let pieces = self.pieces();
        for piece in &pieces {
            if piece.0.gap < best.gap {
                best = piece.0;
            }
        }
        let bend = self.most_bend();
        let mut open = pieces;
        let mut width = 0.0;
        while let Some((a, b)) = open.pop() {
            if self.floor(&a, &b, bend) >= best.gap - LEAST_TOLERANCE_MM
                || b.deg - a.deg < FINEST_DEG
            {
                continue;
            }
            let middle = self.place(0.5 * (a.deg + b.deg));
            if middle.gap < best.gap {
                best = middle;
                width = b.deg - a.deg;
            }
            open.push((a, middle));
            open.push((middle, b));
        }
        let at_deg = self.settled(best, width.max(0.01));
        let gap = self.at_mm(at_deg);
        LeastGap {
            along_bore_mm: gap,
            along_stem_mm: gap / self.cos_lean,
            at_deg,
            phase_deg: self.lobe.phase_deg(at_deg + self.error_deg),
        }
    }

    /// Where in the cycle the gap is below `margin_mm`, each arc beginning in [−360, 360) and in order;
    /// one of 720° where it always is. With a margin of 0: where valve and piston would be in the same
    /// place. An arc that only touches the margin at one place is none.
    ///
    /// Cut as for [`Self::least`]; a piece is left when it is proved to lie all above or all below, and
    /// a crossing is closed in on when the gap is proved to move one way.
    pub fn below(&self, margin_mm: f64) -> Vec<Arc> {
        let bend = self.most_bend();
        let mut crossings: Vec<(f64, bool)> = Vec::new();
        let mut open = self.pieces();
        // Taken from the end, so that crossings come in order.
        open.reverse();
        let starts_below = self.at_mm(-0.5 * CYCLE_DEG) < margin_mm;
        while let Some((a, b)) = open.pop() {
            let width = b.deg - a.deg;
            let middle = self.place(0.5 * (a.deg + b.deg));
            let one_way = self.rate(middle.deg).abs() > 0.5 * bend * width || width < FINEST_DEG;
            if one_way {
                if (a.gap < margin_mm) != (b.gap < margin_mm) {
                    crossings.push((self.crossing(a, b, margin_mm), b.gap < margin_mm));
                }
            } else if self.floor(&a, &b, bend) < margin_mm
                && self.ceiling(&a, &b, bend) >= margin_mm
            {
                open.push((middle, b));
                open.push((a, middle));
            } else if (a.gap < margin_mm) != (b.gap < margin_mm) {
                // One end lies on the margin itself.
                let end = if a.gap < margin_mm { b.deg } else { a.deg };
                crossings.push((end, b.gap < margin_mm));
            }
        }
        arcs(starts_below, &crossings)
    }

    /// Whether valve and piston would touch anywhere in the cycle: the least gap is below zero.
    pub fn touches(&self) -> bool {
        self.least().along_bore_mm < 0.0
    }

    fn place(&self, deg: f64) -> Place {
        let (depth, drop) = (self.piston.depth_mm(deg), self.valve_mm(deg));
        Place { deg, depth, drop, gap: self.at_top_mm + depth - drop }
    }

    /// The cycle from −360 to 360 in pieces on which piston and valve each move one way.
    fn pieces(&self) -> Vec<(Place, Place)> {
        let half = 0.5 * CYCLE_DEG;
        let (seat_from, seat_to) = self.lobe.above(0.0).unwrap_or((0.0, 0.0));
        let (top_from, top_to) = self.lobe.top();
        let turns = [seat_from, top_from, top_to, seat_to].map(|d| wrap_cycle(d - self.error_deg));
        let mut cuts = Vec::from([-half, -0.5 * half, 0.0, 0.5 * half, half]);
        cuts.extend(turns);
        cuts.sort_by(f64::total_cmp);
        let places: Vec<Place> = cuts.into_iter().map(|deg| self.place(deg)).collect();
        places.windows(2).map(|ab| (ab[0], ab[1])).filter(|(a, b)| b.deg > a.deg).collect()
    }

    /// A number that the second derivative never exceeds in size, mm per degree squared.
    fn most_bend(&self) -> f64 {
        self.piston.most_bend() + self.cos_lean * self.lobe.most_bend()
    }

    /// What the gap is not below on a piece.
    fn floor(&self, a: &Place, b: &Place, bend: f64) -> f64 {
        let one_way = self.at_top_mm + a.depth.min(b.depth) - a.drop.max(b.drop);
        one_way.max(a.gap.min(b.gap) - sag(a, b, bend))
    }

    /// What the gap is not above on a piece.
    fn ceiling(&self, a: &Place, b: &Place, bend: f64) -> f64 {
        let one_way = self.at_top_mm + a.depth.max(b.depth) - a.drop.min(b.drop);
        one_way.min(a.gap.max(b.gap) + sag(a, b, bend))
    }

    /// The place of the least gap to the last digits: where its slope changes sign within `width` of
    /// `best`, if the gap there is not more.
    fn settled(&self, best: Place, width: f64) -> f64 {
        let half = 0.5 * CYCLE_DEG;
        let (mut low, mut high) = ((best.deg - width).max(-half), (best.deg + width).min(half));
        if self.rate(low) >= 0.0 || self.rate(high) <= 0.0 {
            return best.deg;
        }
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if self.rate(middle) < 0.0 { low = middle } else { high = middle }
        }
        let deg = 0.5 * (low + high);
        if self.at_mm(deg) < best.gap { deg } else { best.deg }
    }

    /// Where a gap that moves one way from a to b crosses the margin.
    fn crossing(&self, a: Place, b: Place, margin_mm: f64) -> f64 {
        let (mut low, mut high) = (a.deg, b.deg);
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            if middle <= low || middle >= high {
                break;
            }
            if (self.at_mm(middle) < margin_mm) == (a.gap < margin_mm) {
                low = middle;
            } else {
                high = middle;
            }
        }
        0.5 * (low + high)
    }
}

/// How far a function with that bend can hang below, or stand above, its chord.
fn sag(a: &Place, b: &Place, bend: f64) -> f64 {
    let width = b.deg - a.deg;
    bend * width * width / 8.0
}

/// Arcs from the crossings of −360…360 in order, each with whether the gap is below after it.
fn arcs(starts_below: bool, crossings: &[(f64, bool)]) -> Vec<Arc> {
    let half = 0.5 * CYCLE_DEG;
    let mut found: Vec<Arc> = Vec::new();
    let mut from = starts_below.then_some(-half);
    for &(deg, below) in crossings {
        match (from, below) {
            (None, true) => from = Some(deg),
            (Some(from_deg), false) => {
                if deg > from_deg {
                    found.push(Arc { from_deg, to_deg: deg });
                }
                from = None;
            }
            _ => {}
        }
    }
    if let Some(from_deg) = from {
        // It runs on over the end of the cycle: one arc with the first, which begins there.
        let first = found.first().copied().filter(|arc| arc.from_deg == -half && starts_below);
        let to_deg = first.map_or(half, |arc| arc.to_deg + CYCLE_DEG);
        if first.is_some() {
            found.remove(0);
        }
        found.push(Arc { from_deg, to_deg });
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::Law;

    fn gap<'a>(piston: &'a SliderCrank, lobe: &'a Lobe, at_top_mm: f64, error_deg: f64) -> Gap<'a> {
        Gap { piston, lobe, cos_lean: 0.95, at_top_mm, error_deg }
    }

    #[test]
    fn a_shut_valve_is_nearest_at_the_overlap_top() {
        let piston = SliderCrank::new(80.0, 133.0).unwrap();
        // Opens long after top and shuts before the next: both tops are alike, the first is told.
        let lobe = Lobe::law(Law::Cycloidal, 180.0, 60.0, 8.0);
        let least = gap(&piston, &lobe, 2.5, 0.0).least();
        assert_eq!((least.along_bore_mm, least.at_deg, least.phase_deg), (2.5, 0.0, 0.0));
        assert!((least.along_stem_mm - 2.5 / 0.95).abs() < 1e-12);
    }

    #[test]
    fn the_bound_holds_and_the_least_is_level() {
        // Hardly any piston, so that the valve's own bend counts; and hardly any valve.
        for (stroke, rod, half, lift) in [(10.0, 400.0, 40.0, 12.0), (100.0, 55.0, 150.0, 0.5)] {
            let piston = SliderCrank::new(stroke, rod).unwrap();
            for law in Law::ALL {
                let lobe = Lobe::law(law, 30.0, half, lift);
                let gap = gap(&piston, &lobe, 2.5, 0.0);
                let mut most: f64 = 0.0;
                for i in 0..7200 {
                    let deg = f64::from(i) * 0.1 - 360.0;
                    most = most.max((gap.rate(deg + 0.1) - gap.rate(deg)).abs() / 0.1);
                }
                let bound = gap.most_bend();
                assert!(most <= bound * (1.0 + 1e-9), "{law:?}: {most}, bound {bound}");
                assert!(most > 0.5 * bound, "{law:?}: {most}, bound {bound}");
                assert!(gap.rate(gap.least().at_deg).abs() < 1e-9, "{law:?}");
            }
        }
    }

    #[test]
    fn arcs_end_where_the_gap_is_the_margin() {
        let piston = SliderCrank::new(80.0, 133.0).unwrap();
        let lobe = Lobe::law(Law::Polynomial345, 110.0, 120.0, 9.0);
        for ahead in [0.0, 20.0, 60.0, 110.0, 250.0, 500.0] {
            for margin in [0.0, 0.5, 2.0, 2.4999, 2.5001, 8.0] {
                let gap = gap(&piston, &lobe, 2.5, ahead);
                let arcs = gap.below(margin);
                for arc in &arcs {
                    for end in [arc.from_deg, arc.to_deg] {
                        assert!((gap.at_mm(end) - margin).abs() < 1e-9, "{ahead}, {margin}");
                    }
                }
                for i in -7200..7200 {
                    let deg = f64::from(i) * 0.05 + 0.0123;
                    let inside = arcs.iter().any(|arc| arc.contains(deg, CYCLE_DEG));
                    assert_eq!(inside, gap.at_mm(deg) < margin, "{ahead}, {margin} at {deg}");
                }
            }
        }
    }

    #[test]
    fn always_and_never() {
        let piston = SliderCrank::new(20.0, 133.0).unwrap();
        let lobe = Lobe::law(Law::Harmonic, 110.0, 120.0, 9.0);
        let gap = gap(&piston, &lobe, 5.0, 0.0);
        assert_eq!(gap.below(100.0), [Arc { from_deg: -360.0, to_deg: 360.0 }]);
        assert_eq!(gap.below(-10.0), []);
        assert_eq!(gap.below(gap.least().along_bore_mm - 1e-9), []);
    }
}
