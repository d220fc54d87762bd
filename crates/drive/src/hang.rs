//! The curve in which a slack run hangs, exactly as long as it should be, and where it hangs.
//!
//! Must not know: what weight or stiffness a belt has. The curve is a picture of the slack's length
//! and place, not of its sag.
//!
//! The curve is three arcs that leave and arrive along the span, so that nothing kinks: a turn by α
//! towards the bow, one by 2α back over the crown, one by α towards the end. With radii R₁ at the ends
//! and R₂ over the crown the chord is 2(R₁ + R₂)·sin α and the length 2(R₁ + R₂)·α: so α is the root of
//! sin α / α = chord/length, and R₁ + R₂ = chord / (2·sin α), however the two share it.

use crate::cord::TIGHT_MM;
use crate::drive::Drive;
use crate::geometry::{Span, distance_to_segment, rot90};
use alloc::vec::Vec;
use glam::DVec2;

/// The ends' share of the sum of the radii.
const ENDS: f64 = 0.35;

/// Where a run's slack hangs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HangingPlace {
    /// Index of the wheel whose leaving span hangs: the run's longest with the belt tight.
    pub span: usize,
    /// Which side it bows to: +1 to the left of the travel, −1 to the right.
    pub bow: f64,
}

impl HangingPlace {
    /// One for each run of a tight drive: its longest span, bowed to the side with more room.
    pub fn find_all(drive: &Drive) -> Vec<Self> {
        let stance = drive.taut_stance();
        let n = stance.discs.len();
        (0..drive.sprockets().len())
            .map(|j| {
                let end = drive.sprockets()[drive.next(j)].wheel;
                let mut at = drive.sprockets()[j].wheel;
                let mut span = at;
                loop {
                    at = (at + 1) % n;
                    if at == end {
                        break;
                    }
                    if stance.path.spans[at].length > stance.path.spans[span].length {
                        span = at;
                    }
                }
                let left = room(drive, span, 1.0);
                let right = room(drive, span, -1.0);
                Self { span, bow: if left >= right { 1.0 } else { -1.0 } }
            })
            .collect()
    }
}

/// The least distance, mm, from the slack curve on one side to anything else in the drive.
fn room(drive: &Drive, span: usize, bow: f64) -> f64 {
    let stance = drive.taut_stance();
    let n = stance.discs.len();
    let slack = drive.slack_when_back_mm().max(drive.belt().pitch_mm);
    let hang = Hang::new(&stance.path.spans[span], slack, bow);
    let mut least = f64::INFINITY;
    for step in 1..8 {
        let (p, _) = hang.at(hang.length_mm * f64::from(step) / 8.0);
        for (i, disc) in stance.discs.iter().enumerate() {
            let outside = drive.wheels()[i].outside_radius_mm(drive.belt());
            least = least.min((p - disc.centre).length() - outside);
            if i != span && i != (span + 1) % n && (i + 1) % n != span {
                let other = &stance.path.spans[i];
                least = least.min(distance_to_segment(p, other.leaves, other.meets));
            }
        }
    }
    least
}

/// A hanging span.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hang {
    start: DVec2,
    direction: DVec2,
    bow: f64,
    alpha_rad: f64,
    ends_mm: f64,
    crown_mm: f64,
    /// Length along the curve, mm.
    pub length_mm: f64,
}

/// One arc of a curve, followed from `from_rad` by `sweep_rad` (anticlockwise positive).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// Centre, mm.
    pub centre: DVec2,
    /// Radius, mm.
    pub radius: f64,
    /// Direction from the centre to where it starts, rad.
    pub from_rad: f64,
    /// How far it goes round, rad, anticlockwise positive.
    pub sweep_rad: f64,
}

impl Arc {
    /// The point `sweep` radians on from the start, and the direction of travel there.
    pub fn at(&self, sweep: f64) -> (DVec2, DVec2) {
        let (sin, cos) = libm::sincos(self.from_rad + sweep);
        let out = DVec2::new(cos, sin);
        let travel = if self.sweep_rad < 0.0 { -rot90(out) } else { rot90(out) };
        (self.centre + out * self.radius, travel)
    }

    /// Length, mm.
    pub fn length(&self) -> f64 {
        self.radius * self.sweep_rad.abs()
    }
}

impl Hang {
    /// `span` with `slack_mm` more belt in it than it is long, bowed to `bow` (+1 left of the travel).
    /// Without slack it is straight.
    pub fn new(span: &Span, slack_mm: f64, bow: f64) -> Self {
        let length_mm = span.length + slack_mm;
        let straight = Self {
            start: span.leaves,
            direction: span.direction,
            bow,
            alpha_rad: 0.0,
            ends_mm: 0.0,
            crown_mm: 0.0,
            length_mm,
        };
        if slack_mm < TIGHT_MM || span.length <= 0.0 {
            return straight;
        }
        let alpha_rad = half_angle(slack_mm / length_mm);
        let radii = span.length / (2.0 * libm::sin(alpha_rad));
        Self { alpha_rad, ends_mm: ENDS * radii, crown_mm: (1.0 - ENDS) * radii, ..straight }
    }

    /// The three arcs, or `None` where it is straight.
    pub fn arcs(&self) -> Option<[Arc; 3]> {
        if self.alpha_rad == 0.0 {
            return None;
        }
        let (a, up) = (self.alpha_rad, rot90(self.direction) * self.bow);
        let heading = libm::atan2(self.direction.y, self.direction.x);
        let chord_end =
            self.start + self.direction * (2.0 * (self.ends_mm + self.crown_mm) * libm::sin(a));
        let first = self.start + up * self.ends_mm;
        let last = chord_end + up * self.ends_mm;
        let radii = self.ends_mm + self.crown_mm;
        let (sin, cos) = libm::sincos(a);
        let crown = first + (self.direction * sin - up * cos) * radii;
        let quarter = core::f64::consts::FRAC_PI_2 * self.bow;
        let turn = a * self.bow;
        Some([
            Arc {
                centre: first,
                radius: self.ends_mm,
                from_rad: heading - quarter,
                sweep_rad: turn,
            },
            Arc {
                centre: crown,
                radius: self.crown_mm,
                from_rad: heading + turn + quarter,
                sweep_rad: -2.0 * turn,
            },
            Arc {
                centre: last,
                radius: self.ends_mm,
                from_rad: heading - turn - quarter,
                sweep_rad: turn,
            },
        ])
    }

    /// The point `along` mm from the start, and the direction of travel there.
    pub fn at(&self, along: f64) -> (DVec2, DVec2) {
        let Some(arcs) = self.arcs() else {
            return (self.start + self.direction * along, self.direction);
        };
        at_on(&arcs, along)
    }
}

/// As [`Hang::at`], with the arcs already made.
pub(crate) fn at_on(arcs: &[Arc; 3], along: f64) -> (DVec2, DVec2) {
    let mut rest = along;
    for (i, arc) in arcs.iter().enumerate() {
        let length = arc.length();
        if rest <= length || i == 2 {
            return arc.at(rest / arc.radius * arc.sweep_rad.signum());
        }
        rest -= length;
    }
    (arcs[0].centre, DVec2::X)
}

/// The root α in (0, π) of sin α / α = 1 − `extra`, for `extra` in (0, 1).
///
/// sin α − (1 − extra)·α is concave there; Newton's method comes down on its root from the right after
/// one step, and stops where the next step no longer changes it.
fn half_angle(extra: f64) -> f64 {
    let mut alpha = libm::sqrt(6.0 * extra);
    for _ in 0..60 {
        let (sin, cos) = libm::sincos(alpha);
        let slope = cos - (1.0 - extra);
        // Above π the sine turns up again: stay inside.
        let next = (alpha - (sin - (1.0 - extra) * alpha) / slope).min(core::f64::consts::PI);
        if (next - alpha).abs() <= 1e-15 * alpha {
            return next;
        }
        alpha = next;
    }
    alpha
}

#[cfg(test)]
mod tests {
    use super::*;

    fn span(length: f64) -> Span {
        let direction = DVec2::new(0.6, 0.8);
        let leaves = DVec2::new(3.0, -2.0);
        Span { leaves, meets: leaves + direction * length, direction, length }
    }

    #[test]
    fn it_is_as_long_as_it_should_be_and_ends_where_the_span_ends() {
        for length in [1.0, 40.0, 300.0] {
            for slack in [1e-8, 1e-3, 0.5, 20.0, 60.0, 300.0] {
                for bow in [1.0, -1.0] {
                    let s = span(length);
                    let h = Hang::new(&s, slack, bow);
                    let arcs = h.arcs().unwrap();
                    let sum: f64 = arcs.iter().map(Arc::length).sum();
                    assert!((sum - length - slack).abs() < 1e-9, "{length} {slack}: {sum}");
                    let (p, d) = h.at(h.length_mm);
                    assert!((p - s.meets).length() < 1e-7, "{length} {slack}: ends at {p}");
                    assert!((d - s.direction).length() < 1e-7, "and along the span");
                    let (p, d) = h.at(0.0);
                    assert!((p - s.leaves).length() < 1e-9 && (d - s.direction).length() < 1e-9);
                    let (crown, _) = h.at(h.length_mm / 2.0);
                    let side = s.direction.perp_dot(crown - s.leaves);
                    assert!(side * bow > 0.0, "bows to its side");
                }
            }
        }
    }

    #[test]
    fn its_arcs_join_without_a_kink() {
        let h = Hang::new(&span(100.0), 30.0, 1.0);
        let arcs = h.arcs().unwrap();
        for pair in arcs.windows(2) {
            let (p, d) = pair[0].at(pair[0].sweep_rad);
            let (q, e) = pair[1].at(0.0);
            assert!((p - q).length() < 1e-9 && (d - e).length() < 1e-9);
        }
    }

    #[test]
    fn without_slack_it_is_the_span() {
        let s = span(50.0);
        let h = Hang::new(&s, 0.0, 1.0);
        assert!(h.arcs().is_none());
        assert_eq!(h.at(50.0).1, s.direction);
    }
}
