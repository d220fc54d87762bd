//! What a late or early intake closing does to compression, and what a gauge would show on cranking.
//!
//! Must not know: how well the rings and valves seal.

use crate::bounds;
use crate::engine::Engine;
use crate::events::Kind;
use crate::flaw::{Figure, Flaw};

/// How the air in a cylinder is taken to be squeezed on cranking: p·Vⁿ stays, from the air's own
/// pressure at intake closing.
///
/// n lies below what air alone would give (about 1.4) since the charge loses heat and some of itself.
/// It is an estimate; answers should show it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cranking {
    exponent: f64,
    air_bar: f64,
}

impl Default for Cranking {
    /// n = 1.25 and standard air, 1.01325 bar.
    fn default() -> Self {
        Self { exponent: 1.25, air_bar: 1.01325 }
    }
}

/// A cranking pressure, bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pressure {
    /// Above nothing.
    pub absolute_bar: f64,
    /// Above the air outside: what a gauge shows.
    pub gauge_bar: f64,
}

impl Cranking {
    /// From the exponent and the air's pressure, bar.
    ///
    /// # Errors
    /// Whichever lies outside [`bounds::EXPONENT`] or [`bounds::AIR_BAR`].
    pub fn new(exponent: f64, air_bar: f64) -> Result<Self, Flaw> {
        for (figure, found, (least, most)) in [
            (Figure::Exponent, exponent, bounds::EXPONENT),
            (Figure::Air, air_bar, bounds::AIR_BAR),
        ] {
            if !(least..=most).contains(&found) {
                return Err(Flaw::OutOfRange { figure, found, least, most });
            }
        }
        Ok(Self { exponent, air_bar })
    }

    /// n.
    pub fn exponent(&self) -> f64 {
        self.exponent
    }

    /// The air's pressure, bar.
    pub fn air_bar(&self) -> f64 {
        self.air_bar
    }

    /// The pressure at the top after squeezing by `ratio`.
    pub fn pressure(&self, ratio: f64) -> Pressure {
        let absolute_bar = polytropic(self.air_bar, ratio, self.exponent);
        Pressure { absolute_bar, gauge_bar: absolute_bar - self.air_bar }
    }
}

/// Pressure after a volume is made `ratio` times smaller with p·Vⁿ kept: p·ratioⁿ, in the unit of
/// `from`. A ratio of 1 gives `from`; a ratio below zero is not a number.
pub fn polytropic(from: f64, ratio: f64, exponent: f64) -> f64 {
    from * libm::pow(ratio, exponent)
}

/// The part of a compression ratio that is left when squeezing begins with the piston only a share
/// `of_stroke` of its stroke below the top: 1 + (ratio − 1)·share.
pub fn ratio_from(compression_ratio: f64, of_stroke: f64) -> f64 {
    1.0 + (compression_ratio - 1.0) * of_stroke
}

impl Engine {
    /// The compression ratio from intake closing on, with the camshaft `error_deg` crank degrees ahead
    /// and the valve taken as shut when its lift has fallen to `shut_at_lift_mm` (0 the seat). Where
    /// only degrees are known, from the stated closing.
    ///
    /// Squeezing begins where the valve shuts, before the bottom or after it, and the more of the
    /// stroke is left above the piston there, the more is squeezed; at the bottom it is the whole ratio.
    /// `None` without ratio, stroke and rod, an intake valve, or such a lift.
    pub fn effective_ratio(
        &self,
        camshaft: usize,
        error_deg: f64,
        shut_at_lift_mm: f64,
    ) -> Option<f64> {
        let crank = self.crank()?;
        let valve = self.camshafts().get(camshaft)?.valve(Kind::Intake)?;
        let events = match valve.lobe() {
            Some(_) => valve.events_at(shut_at_lift_mm)?,
            None => valve.events(),
        };
        let closes = events.ahead(error_deg).closes_deg;
        Some(ratio_from(self.compression_ratio()?, crank.depth_mm(closes) / crank.stroke_mm()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_exponent_keeps_its_bounds() {
        assert!(Cranking::new(1.2, 1.0).is_ok() && Cranking::new(1.3, 1.0).is_ok());
        for (exponent, air) in [(1.19, 1.0), (1.31, 1.0), (f64::NAN, 1.0), (1.25, 0.0)] {
            assert!(Cranking::new(exponent, air).is_err(), "{exponent}, {air}");
        }
        let none = Cranking::default().pressure(1.0);
        assert_eq!((none.absolute_bar, none.gauge_bar), (1.01325, 0.0));
    }
}
