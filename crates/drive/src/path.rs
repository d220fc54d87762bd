//! The belt's path round all the wheels: spans, wraps and length.
//!
//! Must not know: whether a real belt could run so (`sound` judges that), or teeth.

use crate::geometry::{Disc, Span, tangent, touch};
use crate::units::Angle;
use alloc::vec::Vec;
use core::f64::consts::TAU;

/// A closed belt's pitch line round a list of discs.
///
/// Span `i` runs from disc `i` to the next; wrap `i` is the arc on disc `i` between span `i − 1` and
/// span `i`. The buffers are kept from one tracing to the next.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path {
    /// The straight parts, one from each disc to the next.
    pub spans: Vec<Span>,
    /// Wrap on each disc, rad, in [0, 2π), in the sense in which it turns.
    pub wraps_rad: Vec<f64>,
    /// Length of the whole, mm.
    pub length_mm: f64,
}

/// There is no straight line from disc `from` to disc `to` that leaves and meets them the way they
/// turn: they overlap, or one lies inside the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoTangent {
    /// Index of the disc that the belt would leave.
    pub from: usize,
    /// Index of the disc that it would meet.
    pub to: usize,
}

impl Path {
    /// The path round `discs`, in the order in which the belt meets them.
    ///
    /// # Errors
    /// The first pair of neighbours without a tangent.
    ///
    /// ```
    /// use drive::{Path, Disc, DVec2};
    /// // Two wheels of radius 6 and 1 at 13: 24 + 12π − 10·atan(12/5).
    /// let discs = [(0.0, 6.0), (13.0, 1.0)]
    ///     .map(|(x, radius)| Disc { centre: DVec2::new(x, 0.0), radius, sense: 1.0 });
    /// assert!((Path::round(&discs).unwrap().length_mm - 49.9390597721275).abs() < 1e-10);
    /// ```
    pub fn round(discs: &[Disc]) -> Result<Self, NoTangent> {
        let mut path = Self::default();
        path.trace(discs)?;
        Ok(path)
    }

    /// As [`Path::round`], into this path's own buffers.
    ///
    /// # Errors
    /// The first pair of neighbours without a tangent; what the buffers hold is then of no use.
    pub fn trace(&mut self, discs: &[Disc]) -> Result<(), NoTangent> {
        self.spans.clear();
        self.wraps_rad.clear();
        self.length_mm = 0.0;
        let n = discs.len();
        for (i, disc) in discs.iter().enumerate() {
            let to = if i + 1 == n { 0 } else { i + 1 };
            let span = tangent(disc, &discs[to]).ok_or(NoTangent { from: i, to })?;
            self.length_mm += span.length;
            self.spans.push(span);
        }
        let Some(last) = self.spans.last() else { return Ok(()) };
        let mut arriving = last.direction;
        for (disc, span) in discs.iter().zip(&self.spans) {
            let leaving = span.direction;
            let turn = disc.sense * libm::atan2(arriving.perp_dot(leaving), arriving.dot(leaving));
            let wrap = if turn < 0.0 { turn + TAU } else { turn };
            self.length_mm += disc.radius * wrap;
            self.wraps_rad.push(wrap);
            arriving = leaving;
        }
        Ok(())
    }

    /// Number of discs.
    pub fn len(&self) -> usize {
        self.spans.len()
    }

    /// Whether it goes round nothing.
    pub fn is_empty(&self) -> bool {
        self.spans.is_empty()
    }

    /// The span that arrives at disc `i`.
    pub fn arriving(&self, i: usize) -> &Span {
        &self.spans[if i == 0 { self.spans.len() - 1 } else { i - 1 }]
    }

    /// Direction, from its centre, of the point where the belt meets disc `i`.
    pub fn meets_at(&self, discs: &[Disc], i: usize) -> Angle {
        Angle::of(touch(self.arriving(i).direction, discs[i].sense))
    }

    /// Direction, from its centre, of the middle of the wrap on disc `i`.
    pub fn wrap_middle(&self, discs: &[Disc], i: usize) -> Angle {
        self.meets_at(discs, i).turned(discs[i].sense * self.wraps_rad[i] / 2.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::PI;
    use glam::DVec2;

    #[test]
    fn equal_wheels() {
        // L = 2C + z·p (docshare.tips, technical timing).
        let discs =
            [0.0, 100.0].map(|x| Disc { centre: DVec2::new(x, 0.0), radius: 20.0, sense: -1.0 });
        let path = Path::round(&discs).unwrap();
        assert!((path.length_mm - (200.0 + 40.0 * PI)).abs() < 1e-12);
        assert!((path.wraps_rad[0] - PI).abs() < 1e-12);
    }

    #[test]
    fn the_pair_without_a_tangent_is_named() {
        let discs = [(0.0, 20.0), (100.0, 20.0), (105.0, 5.0)].map(|(x, radius)| Disc {
            centre: DVec2::new(x, 0.0),
            radius,
            sense: -1.0,
        });
        assert_eq!(Path::round(&discs), Err(NoTangent { from: 1, to: 2 }));
    }

    #[test]
    fn nothing_has_no_length() {
        assert_eq!(Path::round(&[]).unwrap().length_mm, 0.0);
    }
}
