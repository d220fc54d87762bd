//! A valve's lift over the whole cycle, at rest or swept over everything that a phaser can do.
//!
//! Must not know: pistons, or which way early is called.

use crate::angle::wrap_cycle;
use crate::law::Law;
use crate::table::Table;

/// A lift that rises from the seat to one top and falls back to it, over the angle after the
/// cylinder's overlap top.
///
/// A *swept* lobe gives the greatest lift that the valve can have while its camshaft is phased
/// anywhere between two ends: the same flanks, drawn apart by a level top.
#[derive(Clone, Debug, PartialEq)]
pub struct Lobe {
    /// Middle of the top when the phaser rests, degrees after the overlap top.
    centre_deg: f64,
    shape: Shape,
    /// How far it can be phased ahead, crank degrees, not below zero.
    ahead_deg: f64,
    /// How far it can be phased back, crank degrees, not below zero.
    back_deg: f64,
}

#[derive(Clone, Debug, PartialEq)]
enum Shape {
    Law { law: Law, half_deg: f64, lift_mm: f64 },
    Table(Table),
}

impl Lobe {
    /// A law's rise and fall about a centre, seat to seat in twice `half_deg`.
    pub(crate) fn law(law: Law, centre_deg: f64, half_deg: f64, lift_mm: f64) -> Self {
        let shape = Shape::Law { law, half_deg, lift_mm };
        Self { centre_deg, shape, ahead_deg: 0.0, back_deg: 0.0 }
    }

    /// A measured lift about the middle of its top.
    pub(crate) fn table(table: Table, centre_deg: f64) -> Self {
        Self { centre_deg, shape: Shape::Table(table), ahead_deg: 0.0, back_deg: 0.0 }
    }

    /// The same swept over a phaser's range, crank degrees ahead of rest, `from` ≤ 0 ≤ `to`.
    pub(crate) fn swept(&self, from_deg: f64, to_deg: f64) -> Self {
        Self { ahead_deg: to_deg, back_deg: -from_deg, ..self.clone() }
    }

    /// Greatest lift along the stem, mm.
    pub fn most_mm(&self) -> f64 {
        match &self.shape {
            Shape::Law { lift_mm, .. } => *lift_mm,
            Shape::Table(table) => table.most(),
        }
    }

    /// Lift along the stem at `deg` after the overlap top, mm, not below zero.
    pub fn lift_mm(&self, deg: f64) -> f64 {
        self.lift_and_rate(deg).0
    }

    /// How fast lift grows with the crank there, mm per degree; negative while the valve closes.
    pub fn lift_rate(&self, deg: f64) -> f64 {
        self.lift_and_rate(deg).1
    }

    pub(crate) fn lift_and_rate(&self, deg: f64) -> (f64, f64) {
        let at = self.unswept(wrap_cycle(deg - self.centre_deg));
        match &self.shape {
            Shape::Law { law, half_deg, lift_mm } => {
                let u = 1.0 - at.abs() / half_deg;
                if u <= 0.0 {
                    return (0.0, 0.0);
                }
                let rate = law.slope(u) * lift_mm / half_deg;
                (law.rise(u) * lift_mm, if at > 0.0 { -rate } else { rate })
            }
            Shape::Table(table) => table.lift(at),
        }
    }

    /// How far ahead of rest the phaser stands when the valve is open furthest at `deg`, crank degrees;
    /// 0 where phasing makes no difference.
    pub(crate) fn phase_deg(&self, deg: f64) -> f64 {
        let at = wrap_cycle(deg - self.centre_deg);
        let phase = (self.unswept(at) - at).clamp(-self.back_deg, self.ahead_deg);
        if self.lift_mm(deg) > 0.0 { phase } else { 0.0 }
    }

    /// A number that the second derivative of lift never exceeds in size, mm per degree squared.
    pub(crate) fn most_bend(&self) -> f64 {
        match &self.shape {
            Shape::Law { law, half_deg, lift_mm } => {
                law.most_bend() * lift_mm / (half_deg * half_deg)
            }
            Shape::Table(table) => table.most_bend(),
        }
    }

    /// Where lift rises through `lift_mm` and falls through it again, degrees after the overlap top, the
    /// second after the first; zero gives seat to seat. `None` where it never exceeds that lift or the
    /// lift is below zero.
    pub fn above(&self, lift_mm: f64) -> Option<(f64, f64)> {
        if !(0.0..self.most_mm()).contains(&lift_mm) {
            return None;
        }
        let (up, down) = match &self.shape {
            Shape::Law { law, half_deg, lift_mm: most } => {
                let from_top = half_deg * (1.0 - law.u_at(lift_mm / most));
                (-from_top, from_top)
            }
            Shape::Table(table) if lift_mm == 0.0 => (table.opens(), table.closes()),
            Shape::Table(table) => (table.rises_through(lift_mm), table.falls_through(lift_mm)),
        };
        Some((self.centre_deg + up - self.ahead_deg, self.centre_deg + down + self.back_deg))
    }

    /// The ends of the top: from where to where lift is greatest, at least where a phaser makes it so.
    pub(crate) fn top(&self) -> (f64, f64) {
        (self.centre_deg - self.ahead_deg, self.centre_deg + self.back_deg)
    }

    /// Middle of the top at rest, degrees after the overlap top.
    pub fn centre_deg(&self) -> f64 {
        self.centre_deg
    }

    /// The greatest angle between the middle of the top and where the valve sits, degrees.
    pub(crate) fn reach_deg(&self) -> f64 {
        let (up, down) = match &self.shape {
            Shape::Law { half_deg, .. } => (*half_deg, *half_deg),
            Shape::Table(table) => (-table.opens(), table.closes()),
        };
        (up + self.ahead_deg).max(down + self.back_deg)
    }

    /// An angle from the middle of the top brought to where the unswept lobe has the same lift.
    fn unswept(&self, at: f64) -> f64 {
        if at < -self.ahead_deg {
            at + self.ahead_deg
        } else if at > self.back_deg {
            at - self.back_deg
        } else {
            0.0
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_swept_lobe_is_the_most_of_all_phases() {
        let rest = Lobe::law(Law::Polynomial345, 110.0, 120.0, 9.0);
        let swept = rest.swept(-10.0, 40.0);
        for i in -720..720 {
            let deg = f64::from(i) * 0.5;
            let most = (0..=5000)
                .fold(0.0, |most: f64, k| most.max(rest.lift_mm(deg - 10.0 + f64::from(k) * 0.01)));
            assert!((swept.lift_mm(deg) - most).abs() < 1e-5, "{deg}");
            let phase = swept.phase_deg(deg);
            assert!((-10.0..=40.0).contains(&phase));
            assert!((rest.lift_mm(deg + phase) - swept.lift_mm(deg)).abs() < 1e-9, "{deg}");
        }
        assert_eq!(swept.above(0.0), Some((-50.0, 240.0)));
        assert_eq!(swept.top(), (70.0, 120.0));
        assert_eq!(swept.reach_deg(), 160.0);
    }

    #[test]
    fn flanks_are_found_again() {
        for law in Law::ALL {
            let lobe = Lobe::law(law, -115.0, 130.0, 8.5);
            assert_eq!(lobe.above(8.5), None);
            assert_eq!(lobe.above(-0.1), None);
            for i in 0..85 {
                let lift = f64::from(i) / 10.0;
                let (up, down) = lobe.above(lift).unwrap();
                assert!((lobe.lift_mm(up) - lift).abs() < 1e-12, "{law:?} at {lift}");
                assert!((lobe.lift_mm(down) - lift).abs() < 1e-12, "{law:?} at {lift}");
                assert!(up < -115.0 && down > -115.0);
            }
            assert_eq!(lobe.lift_mm(-115.0 + 720.0), 8.5);
            assert!(lobe.lift_rate(-150.0) > 0.0 && lobe.lift_rate(-80.0) < 0.0);
        }
    }
}
