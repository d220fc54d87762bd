//! A measured lift: points read with a degree disc and a dial gauge, joined by monotone cubics.
//!
//! Must not know: which valve it is, or what is wrong with a table (`lobe` asks first).

use crate::law::inverse;
use alloc::vec::Vec;

/// One reading of a measured lift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiftPoint {
    /// Crank degrees after the cylinder's overlap top; negative before it.
    pub at_deg: f64,
    /// Lift along the stem, mm.
    pub lift_mm: f64,
}

/// Points joined so that lift neither overshoots nor wiggles between two of them: cubic Hermite
/// pieces with the slopes of F. N. Fritsch and R. E. Carlson, *Monotone Piecewise Cubic
/// Interpolation*, SIAM J. Numer. Anal. 17 (1980). Slope is zero at both ends, where the valve sits.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Table {
    /// Degrees from the middle of the top, lift mm, slope mm per degree; at least two, rising.
    knots: Vec<Knot>,
    /// Index of the first knot at greatest lift.
    top: usize,
    /// Index of the last knot at greatest lift.
    top_end: usize,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Knot {
    at: f64,
    lift: f64,
    slope: f64,
}

impl Table {
    /// From at least three points in order of angle that rise to one top and fall from it, the first
    /// and the last at zero lift; also gives the middle of the top in the points' own degrees.
    pub(crate) fn new(points: &[LiftPoint]) -> Option<(Self, f64)> {
        let most = points.iter().fold(0.0, |most: f64, p| most.max(p.lift_mm));
        let top = points.iter().position(|p| p.lift_mm == most)?;
        let top_end = points.iter().rposition(|p| p.lift_mm == most)?;
        let middle = 0.5 * (points[top].at_deg + points[top_end].at_deg);
        let steep = |i: usize| {
            let (a, b) = (points.get(i)?, points.get(i + 1)?);
            Some((b.lift_mm - a.lift_mm) / (b.at_deg - a.at_deg))
        };
        // Between two pieces that both rise or both fall: their mean; elsewhere level.
        let mut knots: Vec<Knot> = Vec::with_capacity(points.len());
        for (i, p) in points.iter().enumerate() {
            let before = if i == 0 { None } else { steep(i - 1) };
            let slope = match (before, steep(i)) {
                (Some(a), Some(b)) if a * b > 0.0 => 0.5 * (a + b),
                _ => 0.0,
            };
            knots.push(Knot { at: p.at_deg - middle, lift: p.lift_mm, slope });
        }
        for i in 0..knots.len().saturating_sub(1) {
            let steep = steep(i)?;
            if steep == 0.0 {
                continue;
            }
            let (alpha, beta) = (knots[i].slope / steep, knots[i + 1].slope / steep);
            let size2 = alpha * alpha + beta * beta;
            if size2 > 9.0 {
                let shrink = 3.0 / libm::sqrt(size2);
                knots[i].slope = shrink * alpha * steep;
                knots[i + 1].slope = shrink * beta * steep;
            }
        }
        Some((Self { knots, top, top_end }, middle))
    }

    /// Where lift begins, degrees from the middle of the top, below zero.
    pub(crate) fn opens(&self) -> f64 {
        self.knots[0].at
    }

    /// Where lift ends, degrees from the middle of the top, above zero.
    pub(crate) fn closes(&self) -> f64 {
        self.knots[self.knots.len() - 1].at
    }

    /// Greatest lift, mm.
    pub(crate) fn most(&self) -> f64 {
        self.knots[self.top].lift
    }

    /// Lift and its slope, mm and mm per degree; zero outside.
    pub(crate) fn lift(&self, at: f64) -> (f64, f64) {
        let next = self.knots.partition_point(|k| k.at <= at);
        match (next.checked_sub(1).map(|i| &self.knots[i]), self.knots.get(next)) {
            (Some(a), Some(b)) => piece(a, b, at),
            _ => (0.0, 0.0),
        }
    }

    /// The greatest size of the second derivative, mm per degree squared. On a cubic piece it is
    /// linear, so it is greatest at an end of a piece.
    pub(crate) fn most_bend(&self) -> f64 {
        self.knots.windows(2).fold(0.0, |most: f64, ab| {
            let (a, b) = (&ab[0], &ab[1]);
            let width = b.at - a.at;
            let steep = (b.lift - a.lift) / width;
            let start = (6.0 * steep - 4.0 * a.slope - 2.0 * b.slope) / width;
            let end = (2.0 * a.slope + 4.0 * b.slope - 6.0 * steep) / width;
            most.max(start.abs()).max(end.abs())
        })
    }

    /// Where lift rises through `lift`, which lies in [0, most): the last place that is not above it.
    pub(crate) fn rises_through(&self, lift: f64) -> f64 {
        let next = self.knots[..=self.top].partition_point(|k| k.lift <= lift).max(1);
        let (a, b) = (&self.knots[next - 1], &self.knots[next]);
        inverse(a.at, b.at, lift, |x| piece(a, b, x))
    }

    /// Where lift falls through `lift`, which lies in [0, most): the first place not above it.
    pub(crate) fn falls_through(&self, lift: f64) -> f64 {
        let past = self.knots[self.top_end..].partition_point(|k| k.lift > lift);
        let next = (self.top_end + past).min(self.knots.len() - 1);
        let (a, b) = (&self.knots[next - 1], &self.knots[next]);
        let down = inverse(-b.at, -a.at, lift, |x| {
            let (y, slope) = piece(a, b, -x);
            (y, -slope)
        });
        -down
    }
}

/// The cubic between two knots and its slope at `at`.
fn piece(a: &Knot, b: &Knot, at: f64) -> (f64, f64) {
    let width = b.at - a.at;
    let t = (at - a.at) / width;
    let rise = b.lift - a.lift;
    let (from, to) = (a.slope * width, b.slope * width);
    // Lift less that of the first knot, in powers of t.
    let (c2, c3) = (3.0 * rise - 2.0 * from - to, from + to - 2.0 * rise);
    let lift = a.lift + t * (from + t * (c2 + t * c3));
    let slope = (from + t * (2.0 * c2 + t * 3.0 * c3)) / width;
    (lift.clamp(a.lift.min(b.lift), a.lift.max(b.lift)), slope)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table() -> Table {
        let points: Vec<LiftPoint> = [
            (-20.0, 0.0),
            (0.0, 0.4),
            (30.0, 3.1),
            (70.0, 8.2),
            (100.0, 9.0),
            (110.0, 9.0),
            (150.0, 5.0),
            (200.0, 0.3),
            (230.0, 0.0),
        ]
        .iter()
        .map(|&(at_deg, lift_mm)| LiftPoint { at_deg, lift_mm })
        .collect();
        let (table, middle) = Table::new(&points).unwrap();
        assert_eq!(middle, 105.0);
        for p in &points {
            assert!((table.lift(p.at_deg - middle).0 - p.lift_mm).abs() < 1e-14);
        }
        table
    }

    #[test]
    fn it_never_turns_back_between_points() {
        let table = table();
        let mut before = 0.0;
        for i in -1300..=1300 {
            let at = f64::from(i) / 10.0;
            let (lift, slope) = table.lift(at);
            if at <= 0.0 {
                assert!(lift >= before && slope >= 0.0, "{at}");
            } else {
                assert!(lift <= before && slope <= 0.0, "{at}");
            }
            before = lift;
        }
        assert_eq!(table.most(), 9.0);
        assert_eq!((table.opens(), table.closes()), (-125.0, 125.0));
        assert_eq!(table.lift(3.0), (9.0, 0.0));
        assert_eq!(table.lift(126.0), (0.0, 0.0));
        assert_eq!(table.lift(-126.0), (0.0, 0.0));
    }

    #[test]
    fn slopes_bends_and_inverses() {
        let table = table();
        let step = 1e-5;
        for i in -1240..1240 {
            let at = f64::from(i) / 10.0 + 0.05;
            let slope = (table.lift(at + step).0 - table.lift(at - step).0) / (2.0 * step);
            assert!((slope - table.lift(at).1).abs() < 1e-8, "{at}");
            let bend = (table.lift(at + step).1 - table.lift(at - step).1) / (2.0 * step);
            assert!(bend.abs() <= table.most_bend() * (1.0 + 1e-6), "{at}: {bend}");
        }
        for i in 1..90 {
            let lift = f64::from(i) / 10.0;
            if lift < 9.0 {
                let (up, down) = (table.rises_through(lift), table.falls_through(lift));
                assert!(up < 0.0 && (table.lift(up).0 - lift).abs() < 1e-12, "{lift}");
                assert!(down > 0.0 && (table.lift(down).0 - lift).abs() < 1e-12, "{lift}");
            }
        }
        assert!((table.rises_through(0.0) - table.opens()).abs() < 1e-6);
        assert!((table.falls_through(0.0) - table.closes()).abs() < 1e-6);
    }
}
