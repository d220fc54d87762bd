//! Circles with a sense, the straight lines between them, and distances in the plane.
//!
//! Must not know: belts, teeth, or why anybody wants a tangent.

use glam::DVec2;

/// A circle with a sense of turning.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    /// Centre, mm.
    pub centre: DVec2,
    /// Radius, mm, above zero.
    pub radius: f64,
    /// +1 turning anticlockwise, −1 clockwise.
    pub sense: f64,
}

/// The straight run of a belt from one disc to the next.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Span {
    /// Where it leaves the first disc, mm.
    pub leaves: DVec2,
    /// Where it meets the second, mm.
    pub meets: DVec2,
    /// Its direction of travel, a unit vector.
    pub direction: DVec2,
    /// Its length, mm.
    pub length: f64,
}

impl Span {
    /// The span's point nearest to `p`, mm.
    pub fn nearest(&self, p: DVec2) -> DVec2 {
        let along = (p - self.leaves).dot(self.direction).clamp(0.0, self.length);
        self.leaves + self.direction * along
    }
}

/// `v` turned a quarter turn anticlockwise.
pub fn rot90(v: DVec2) -> DVec2 {
    DVec2::new(-v.y, v.x)
}

/// Where, seen from the centre, a belt travelling in direction `u` touches a disc that turns with
/// `sense`: the unit vector from the centre to that point.
pub fn touch(u: DVec2, sense: f64) -> DVec2 {
    DVec2::new(u.y, -u.x) * sense
}

/// The directed tangent from `a` to `b`: the line that leaves `a` the way `a` turns and meets `b`
/// the way `b` turns. `None` where there is none, that is where one disc lies inside the other (same
/// sense) or the two overlap (opposite senses).
///
/// With **d** from centre to centre, D its length and k = ρa·τa − ρb·τb, the length is √(D² − k²) and
/// the direction (ℓ·**d** + k·rot90(**d**))/D²: the tangent makes the angle asin(k/D) with **d**.
///
/// ```
/// use drive::{tangent, Disc, DVec2};
/// let a = Disc { centre: DVec2::ZERO, radius: 6.0, sense: 1.0 };
/// let b = Disc { centre: DVec2::new(13.0, 0.0), radius: 1.0, sense: 1.0 };
/// assert!((tangent(&a, &b).unwrap().length - 12.0).abs() < 1e-12);
/// ```
pub fn tangent(a: &Disc, b: &Disc) -> Option<Span> {
    let d = b.centre - a.centre;
    let k = a.radius * a.sense - b.radius * b.sense;
    let d2 = d.length_squared();
    let l2 = d2 - k * k;
    // Written so that a NaN is "none" too.
    if !(l2 > 0.0 && d2 > 0.0) {
        return None;
    }
    let length = libm::sqrt(l2);
    let direction = (d * length + rot90(d) * k) / d2;
    Some(Span {
        leaves: a.centre + touch(direction, a.sense) * a.radius,
        meets: b.centre + touch(direction, b.sense) * b.radius,
        direction,
        length,
    })
}

/// Shortest distance from `p` to the segment `a`–`b`, mm.
pub fn distance_to_segment(p: DVec2, a: DVec2, b: DVec2) -> f64 {
    let ab = b - a;
    let l2 = ab.length_squared();
    let t = if l2 > 0.0 { ((p - a).dot(ab) / l2).clamp(0.0, 1.0) } else { 0.0 };
    (p - (a + ab * t)).length()
}

/// Whether the segments `a`–`b` and `c`–`d` have a point in common.
pub fn segments_meet(a: DVec2, b: DVec2, c: DVec2, d: DVec2) -> bool {
    let side = |p: DVec2, q: DVec2, r: DVec2| (q - p).perp_dot(r - p);
    side(a, b, c) * side(a, b, d) <= 0.0 && side(c, d, a) * side(c, d, b) <= 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn disc(x: f64, radius: f64, sense: f64) -> Disc {
        Disc { centre: DVec2::new(x, 0.0), radius, sense }
    }

    #[test]
    fn a_span_leaves_the_way_the_disc_turns() {
        let s = tangent(&disc(0.0, 2.0, -1.0), &disc(10.0, 2.0, -1.0)).unwrap();
        assert!((s.leaves - DVec2::new(0.0, 2.0)).length() < 1e-15, "over the top, clockwise");
        let s = tangent(&disc(0.0, 2.0, 1.0), &disc(10.0, 2.0, -1.0)).unwrap();
        assert!(s.leaves.y < 0.0 && s.meets.y > 0.0, "crosses over to the other side");
        assert!(s.direction.dot(s.leaves).abs() < 1e-12, "square to the radius");
    }

    #[test]
    fn no_tangent_has_no_number() {
        assert!(tangent(&disc(0.0, 5.0, 1.0), &disc(3.0, 1.0, 1.0)).is_none(), "one in the other");
        assert!(tangent(&disc(0.0, 5.0, 1.0), &disc(5.5, 1.0, -1.0)).is_none(), "overlap, crossed");
        assert!(tangent(&disc(0.0, 5.0, 1.0), &disc(0.0, 5.0, 1.0)).is_none(), "the same place");
        assert!(tangent(&disc(f64::NAN, 5.0, 1.0), &disc(0.0, 5.0, 1.0)).is_none());
    }

    #[test]
    fn distances() {
        let (a, b) = (DVec2::ZERO, DVec2::new(4.0, 0.0));
        assert_eq!(distance_to_segment(DVec2::new(2.0, 3.0), a, b), 3.0);
        assert_eq!(distance_to_segment(DVec2::new(-3.0, 4.0), a, b), 5.0);
        assert!(segments_meet(a, b, DVec2::new(1.0, -1.0), DVec2::new(1.0, 1.0)));
        assert!(!segments_meet(a, b, DVec2::new(5.0, -1.0), DVec2::new(5.0, 1.0)));
    }
}
