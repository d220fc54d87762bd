//! A belt's path worked out the plain way, with angles instead of vectors, and the support function
//! of a set of circles. Both are here to disagree with the crate under test if it is wrong.
//!
//! Must not know: the crate under test, but for its vector type.

use core::f64::consts::{FRAC_PI_2, TAU};
use drive::DVec2;

/// A circle that a belt's pitch line bends round; `sense` is +1 anticlockwise, −1 clockwise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    /// Centre, mm.
    pub centre: DVec2,
    /// Radius, mm.
    pub radius: f64,
    /// +1 anticlockwise, −1 clockwise.
    pub sense: f64,
}

/// A closed path round circles.
#[derive(Clone, Debug, Default)]
pub struct PlainPath {
    /// Length of the straight part from each circle to the next, mm.
    pub span_mm: Vec<f64>,
    /// Its direction, rad from +x.
    pub heading_rad: Vec<f64>,
    /// Wrap on each circle, rad, in [0, 2π).
    pub wrap_rad: Vec<f64>,
    /// Length of the whole, mm.
    pub length_mm: f64,
}

/// The unit vector at `rad` anticlockwise from +x.
pub fn unit(rad: f64) -> DVec2 {
    DVec2::new(libm::cos(rad), libm::sin(rad))
}

/// The path round `circles` in that order; NaN where there is no tangent.
pub fn path(circles: &[Circle]) -> PlainPath {
    let n = circles.len();
    let mut p = PlainPath::default();
    for (i, a) in circles.iter().enumerate() {
        let b = &circles[(i + 1) % n];
        let (x, y) = (b.centre.x - a.centre.x, b.centre.y - a.centre.y);
        let apart = libm::hypot(x, y);
        let offset = a.radius * a.sense - b.radius * b.sense;
        p.span_mm.push(apart * libm::cos(libm::asin(offset / apart)));
        p.heading_rad.push(libm::atan2(y, x) + libm::asin(offset / apart));
    }
    for (i, circle) in circles.iter().enumerate() {
        let turn = p.heading_rad[i] - p.heading_rad[(i + n - 1) % n];
        p.wrap_rad.push((circle.sense * turn).rem_euclid(TAU));
    }
    let on_wheels: f64 = circles.iter().zip(&p.wrap_rad).map(|(c, w)| c.radius * w).sum();
    p.length_mm = p.span_mm.iter().sum::<f64>() + on_wheels;
    p
}

impl PlainPath {
    /// Direction from the centre of circle `i` to where span `i` leaves it, rad.
    pub fn leaves_rad(&self, circles: &[Circle], i: usize) -> f64 {
        self.heading_rad[i] - FRAC_PI_2 * circles[i].sense
    }

    /// Where span `i` leaves circle `i`, mm.
    pub fn leaves(&self, circles: &[Circle], i: usize) -> DVec2 {
        circles[i].centre + unit(self.leaves_rad(circles, i)) * circles[i].radius
    }

    /// The middle of span `i`, mm.
    pub fn middle(&self, circles: &[Circle], i: usize) -> DVec2 {
        self.leaves(circles, i) + unit(self.heading_rad[i]) * (self.span_mm[i] / 2.0)
    }
}

/// How far `circle` reaches in direction `rad` from the origin, mm.
pub fn reach(circle: &Circle, rad: f64) -> f64 {
    circle.centre.dot(unit(rad)) + circle.radius
}

/// Cauchy's formula for the boundary of the circles' convex hull, mm: ∫₀²π maxᵢ(**c**ᵢ·**u**(θ) + ρᵢ)
/// dθ, exactly. Between two neighbouring directions in which some pair of circles reaches equally
/// far, one circle reaches furthest throughout and its part integrates in closed form.
pub fn hull_boundary_mm(circles: &[Circle]) -> f64 {
    let mut breaks = vec![0.0, TAU];
    for (i, a) in circles.iter().enumerate() {
        for b in &circles[..i] {
            let d = b.centre - a.centre;
            let cos = (a.radius - b.radius) / d.length();
            if cos.abs() <= 1.0 {
                let (middle, half) = (libm::atan2(d.y, d.x), libm::acos(cos));
                breaks.push((middle - half).rem_euclid(TAU));
                breaks.push((middle + half).rem_euclid(TAU));
            }
        }
    }
    breaks.sort_by(f64::total_cmp);
    let mut whole = 0.0;
    for pair in breaks.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        let middle = 0.5 * (from + to);
        let furthest = circles.iter().max_by(|a, b| reach(a, middle).total_cmp(&reach(b, middle)));
        if let Some(c) = furthest {
            let side = unit(to - FRAC_PI_2) - unit(from - FRAC_PI_2);
            whole += c.centre.dot(side) + c.radius * (to - from);
        }
    }
    whole
}
