//! The slider-crank: how far a piston stands below its top for an angle of the crank, exactly.
//!
//! Must not know: valves, or how many cylinders there are.

use core::f64::consts::PI;

/// Radians in one degree.
pub(crate) const RAD_PER_DEG: f64 = PI / 180.0;

/// Crank throw and connecting rod, the rod longer than the throw; the piston pin runs through the
/// cylinder's axis, which meets the crank's.
///
/// With crank radius a and rod r, at θ after top, the piston stands
/// x = a(1 − cos θ) + r − √(r² − a² sin² θ) below its top.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SliderCrank {
    /// Crank radius, half the stroke, mm.
    throw_mm: f64,
    /// Rod length between its centres, mm.
    rod_mm: f64,
}

impl SliderCrank {
    /// From the stroke and the rod's length between centres, mm; `None` unless both are finite, the
    /// stroke is above zero and the rod is longer than half of it.
    ///
    /// ```
    /// let crank = engine::SliderCrank::new(80.0, 133.0).unwrap();
    /// assert!((crank.depth_mm(90.0) - 46.158).abs() < 1e-3);
    /// assert!((crank.deg_at_depth(46.158) - 90.0).abs() < 1e-3);
    /// ```
    pub fn new(stroke_mm: f64, rod_mm: f64) -> Option<Self> {
        let throw_mm = stroke_mm / 2.0;
        let sound = throw_mm > 0.0 && rod_mm > throw_mm && rod_mm < f64::INFINITY;
        sound.then_some(Self { throw_mm, rod_mm })
    }

    /// The piston's travel, mm.
    pub fn stroke_mm(&self) -> f64 {
        2.0 * self.throw_mm
    }

    /// The rod's length between centres, mm.
    pub fn rod_mm(&self) -> f64 {
        self.rod_mm
    }

    /// How far the piston stands below its top at `deg` after it, mm, in [0, stroke].
    ///
    /// Worked as 2a sin²(θ/2) + a² sin²θ / (r + √(r² − a² sin²θ)), the same without the loss of places
    /// near the top.
    pub fn depth_mm(&self, deg: f64) -> f64 {
        let (a, r) = (self.throw_mm, self.rod_mm);
        let (half_sin, half_cos) = libm::sincos(deg * (RAD_PER_DEG / 2.0));
        let across = 2.0 * a * half_sin * half_cos;
        2.0 * a * half_sin * half_sin + across * across / (r + self.upright_mm(across))
    }

    /// How fast the depth grows with the crank, mm per degree; negative while the piston rises.
    pub fn depth_rate(&self, deg: f64) -> f64 {
        let (sin, cos) = libm::sincos(deg * RAD_PER_DEG);
        let across = self.throw_mm * sin;
        across * (1.0 + self.throw_mm * cos / self.upright_mm(across)) * RAD_PER_DEG
    }

    /// How fast that rate itself changes, mm per degree squared; above zero about the top.
    pub fn depth_bend(&self, deg: f64) -> f64 {
        let (a, r) = (self.throw_mm, self.rod_mm);
        let (sin, cos) = libm::sincos(deg * RAD_PER_DEG);
        let s2 = sin * sin;
        let upright = self.upright_mm(a * sin);
        let rod_part = r * r * (1.0 - 2.0 * s2) + a * a * s2 * s2;
        (a * cos + a * a * rod_part / (upright * upright * upright)) * RAD_PER_DEG * RAD_PER_DEG
    }

    /// A number that [`Self::depth_bend`] never exceeds in size: a + a²/√(r² − a²), mm per degree
    /// squared (`DEVELOPERS.md` has the derivation). Very large where the rod is hardly longer than the
    /// throw.
    pub fn most_bend(&self) -> f64 {
        let a = self.throw_mm;
        (a + a * a / self.upright_mm(a)) * RAD_PER_DEG * RAD_PER_DEG
    }

    /// The crank angle in [0, 180] after top at which the piston stands `depth_mm` below it; a depth
    /// beyond top or bottom is taken as top or bottom.
    ///
    /// With y = a + r − x from the crank's axis to the pin, the cosine rule gives
    /// tan²(θ/2) = x(2r − x) / ((2a − x)(2a + 2r − x)): no loss of places at either end.
    pub fn deg_at_depth(&self, depth_mm: f64) -> f64 {
        let (a, r) = (self.throw_mm, self.rod_mm);
        let x = depth_mm.clamp(0.0, 2.0 * a);
        let over = libm::sqrt(x * (2.0 * r - x).max(0.0));
        let under = libm::sqrt((2.0 * a - x) * (2.0 * a + 2.0 * r - x));
        2.0 * libm::atan2(over, under) / RAD_PER_DEG
    }

    /// How far the rod reaches along the cylinder when its big end stands `across_mm` off its axis.
    fn upright_mm(&self, across_mm: f64) -> f64 {
        libm::sqrt((self.rod_mm - across_mm) * (self.rod_mm + across_mm))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        for (stroke, rod) in [(80.0, 133.0), (120.0, 61.0), (30.0, 900.0)] {
            let crank = SliderCrank::new(stroke, rod).unwrap();
            for tenth in 0..=1800 {
                let deg = f64::from(tenth) / 10.0;
                let back = crank.deg_at_depth(crank.depth_mm(deg));
                assert!((back - deg).abs() < 1e-7, "{stroke}, {rod}: {deg} and back {back}");
            }
            assert_eq!(crank.depth_mm(0.0), 0.0);
            assert!((crank.depth_mm(180.0) - stroke).abs() < 1e-12);
            assert_eq!(crank.deg_at_depth(-3.0), 0.0);
            assert_eq!(crank.deg_at_depth(stroke + 3.0), 180.0);
        }
    }

    #[test]
    fn rates_agree_with_differences() {
        let step = 1e-4;
        for (stroke, rod) in [(80.0, 133.0), (100.0, 52.0)] {
            let crank = SliderCrank::new(stroke, rod).unwrap();
            for i in 0..720 {
                let deg = f64::from(i) * 0.5;
                let (before, after) = (deg - step, deg + step);
                let rate = (crank.depth_mm(after) - crank.depth_mm(before)) / (2.0 * step);
                assert!((rate - crank.depth_rate(deg)).abs() < 1e-8, "{deg}");
                let bend = (crank.depth_rate(after) - crank.depth_rate(before)) / (2.0 * step);
                assert!((bend - crank.depth_bend(deg)).abs() < 1e-6, "{deg}");
                assert!(crank.depth_bend(deg).abs() <= crank.most_bend() * (1.0 + 1e-12));
            }
        }
    }

    #[test]
    fn a_rod_must_reach() {
        for (stroke, rod) in
            [(80.0, 40.0), (0.0, 10.0), (-1.0, 5.0), (f64::NAN, 100.0), (80.0, f64::NAN)]
        {
            assert_eq!(SliderCrank::new(stroke, rod), None);
        }
    }
}
