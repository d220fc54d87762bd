//! Where the tensioner stands when the belt is tight.
//!
//! Must not know: springs and forces, or what the wheels are called.

use crate::belt::Belt;
use crate::flaw::{Flaw, When};
use crate::geometry::Disc;
use crate::path::{NoTangent, Path};
use crate::sound::{Scene, not_touched};
use crate::tensioner::Tensioner;
use alloc::vec::Vec;
use glam::DVec2;

/// Belt length is met to this, mm.
const LENGTH_TOLERANCE_MM: f64 = 1e-10;

/// Steps that the search takes along a travel. An arm that needs more tightens so little, some
/// thousandths of what it moves, that it is as good as at its dead point.
const MOST_STEPS: u32 = 4096;

/// The tensioner against a tight belt, not yet stretched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taut {
    /// Its travel, mm or radians.
    pub travel: f64,
    /// How fast the path lengthens with travel there, mm per mm or mm per radian; above zero.
    pub length_rate: f64,
}

/// A drive's circles with the tensioner free to move.
#[derive(Clone, Debug)]
pub struct Moving<'a> {
    /// The belt.
    pub belt: &'a Belt,
    /// The tensioner.
    pub tensioner: &'a Tensioner,
    /// Where the tensioner's wheel stands at no travel, mm.
    pub home: DVec2,
    /// The circles; the tensioner's own is moved about.
    pub discs: Vec<Disc>,
    /// The path as last traced.
    pub path: Path,
}

impl Moving<'_> {
    /// Moves the tensioner to `travel` and traces the path; gives (length, its rate with travel).
    ///
    /// The rate is ∇L · d**c**/dq with ∇L = **u** arriving − **u** leaving: the wraps roll and add
    /// nothing to first order.
    ///
    /// # Errors
    /// Two neighbours without a tangent there.
    pub fn stand_at(&mut self, travel: f64) -> Result<(f64, f64), NoTangent> {
        let wheel = self.tensioner.wheel;
        self.discs[wheel].centre = self.tensioner.centre(self.home, travel);
        self.path.trace(&self.discs)?;
        let pull = self.path.arriving(wheel).direction - self.path.spans[wheel].direction;
        Ok((self.path.length_mm, pull.dot(self.tensioner.centre_rate(self.home, travel))))
    }

    /// The travel at which the path is as long as the belt.
    ///
    /// The search starts right back and goes on only where length is sure to grow with travel: since
    /// L″ ≥ −b ([`Tensioner::bends_down_at_most`]), a rate L′ stays above zero for a step of L′/b, so
    /// no dead point is stepped over. On that stretch the root is single; Newton's steps, halving
    /// where they leave the bracket, close in on it.
    ///
    /// # Errors
    /// The flaw that stands in the way: the wheel not touched right back, a dead point inside the
    /// travel, the belt too short or too long, or no tangent right back.
    pub fn taut(&mut self, outside_mm: &[f64], sense: f64) -> Result<Taut, Flaw> {
        let target = self.belt.pitch_length_mm();
        let (back, out) = (self.tensioner.right_back, self.tensioner.fully_out);
        let no_tangent = |e: NoTangent| Flaw::NoTangent { from: e.from, to: e.to };
        let (length, rate) = self.stand_at(back).map_err(no_tangent)?;
        let mut missed = Vec::new();
        let scene =
            Scene { belt: self.belt, discs: &self.discs, outside_mm, path: &self.path, sense };
        not_touched(&scene, When::RightBack, &mut missed);
        if let Some(flaw) = missed.first() {
            return Err(*flaw);
        }
        if length > target + LENGTH_TOLERANCE_MM {
            return Err(Flaw::BeltTooShort { by_mm: length - target });
        }
        let (low, high) = self.bracket(Point { travel: back, length, rate }, out, target)?;
        self.close_in(low, high, target)
    }

    /// Two travels, length growing all the way between them, the belt's length between theirs. `high`
    /// has no length where the wheel runs into its neighbour first. The dead point is looked for over
    /// the whole travel, also beyond the root: a tensioner must not be able to pass it.
    fn bracket(&mut self, from: Point, out: f64, target: f64) -> Result<(Point, Point), Flaw> {
        let bend = self.tensioner.bends_down_at_most(self.home);
        let dead_below = 1e-6 * self.tensioner.centre_rate(self.home, from.travel).length();
        let (mut low, mut high) = (from, None);
        let mut here = from;
        for step in 0.. {
            if here.rate <= dead_below || step > MOST_STEPS {
                return Err(Flaw::DeadPoint { travel: here.travel });
            }
            let sure = if bend > 0.0 { here.travel + here.rate / bend } else { out };
            let next = if sure < out { sure } else { out };
            match self.stand_at(next) {
                Ok((length, rate)) => here = Point { travel: next, length, rate },
                // Further out the wheel would run into its neighbour: too far.
                Err(_) if high.is_none() => {
                    return Ok((low, Point { travel: next, length: f64::INFINITY, rate: 0.0 }));
                }
                Err(_) => break,
            }
            if here.length < target {
                low = here;
            } else if high.is_none() {
                high = Some(here);
            }
            if next >= out {
                break;
            }
        }
        if here.rate <= dead_below {
            return Err(Flaw::DeadPoint { travel: here.travel });
        }
        match high {
            Some(high) => Ok((low, high)),
            None if here.length >= target - LENGTH_TOLERANCE_MM => Ok((low, here)),
            None => Err(Flaw::BeltTooLong { by_mm: target - here.length }),
        }
    }

    fn close_in(&mut self, low: Point, high: Point, target: f64) -> Result<Taut, Flaw> {
        let (mut below, mut above) = (low.travel, high.travel);
        let mut at = if high.length.is_finite() { high } else { low };
        // Each round at least halves the bracket or takes a Newton step inside it: 200 are enough to
        // exhaust the bits of a double.
        for _ in 0..200 {
            let miss = at.length - target;
            if miss.abs() <= LENGTH_TOLERANCE_MM {
                break;
            }
            if miss > 0.0 {
                above = at.travel
            } else {
                below = at.travel
            }
            let newton = at.travel - miss / at.rate;
            let inside = newton > below && newton < above;
            let next = if inside { newton } else { 0.5 * (below + above) };
            if next == at.travel {
                break;
            }
            at = match self.stand_at(next) {
                Ok((length, rate)) => Point { travel: next, length, rate },
                Err(_) => {
                    above = next;
                    continue;
                }
            };
        }
        if (at.length - target).abs() > 1e-6 {
            // The wheel runs into its neighbour before the belt is tight.
            return Err(Flaw::BeltTooLong { by_mm: target - at.length });
        }
        Ok(Taut { travel: at.travel, length_rate: at.rate })
    }
}

#[derive(Clone, Copy)]
struct Point {
    travel: f64,
    length: f64,
    rate: f64,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tensioner::Carrier;
    use crate::units::Angle;
    use crate::wheel::Sense;

    fn belt(length: f64) -> Belt {
        Belt {
            teeth: 100,
            pitch_mm: length / 100.0,
            thickness_mm: 5.5,
            tooth_height_mm: 3.5,
            pitch_line_differential_mm: 0.686,
        }
    }

    fn taut(carrier: Carrier, travel: (f64, f64), length: f64) -> Result<Taut, Flaw> {
        let discs = [(0.0, 0.0), (200.0, 0.0), (100.0, 90.0)].map(|(x, y)| Disc {
            centre: DVec2::new(x, y),
            radius: 20.0,
            sense: 1.0,
        });
        let tensioner = Tensioner { wheel: 2, carrier, right_back: travel.0, fully_out: travel.1 };
        let belt = belt(length);
        let mut moving = Moving {
            belt: &belt,
            tensioner: &tensioner,
            home: discs[2].centre,
            discs: discs.to_vec(),
            path: Path::default(),
        };
        moving.taut(&[19.0; 3], 1.0)
    }

    const UP: Carrier =
        Carrier::Slide { tightening: Angle::from_rad(core::f64::consts::FRAC_PI_2) };

    /// Length of the belt round three equal wheels: the triangle of centres and one circumference.
    fn triangle(height: f64) -> f64 {
        200.0 + 2.0 * libm::sqrt(100.0 * 100.0 + height * height) + 40.0 * core::f64::consts::PI
    }

    #[test]
    fn a_slide_stands_where_the_triangle_closes() {
        let t = taut(UP, (-30.0, 30.0), triangle(97.0)).unwrap();
        assert!((t.travel - 7.0).abs() < 1e-9);
        let rate = 2.0 * 97.0 / libm::sqrt(100.0 * 100.0 + 97.0 * 97.0);
        assert!((t.length_rate - rate).abs() < 1e-9);
    }

    #[test]
    fn too_short_and_too_long_say_by_how_much() {
        let Err(Flaw::BeltTooShort { by_mm }) = taut(UP, (-30.0, 30.0), triangle(60.0) - 4.0)
        else {
            panic!("right back the path is at height 60")
        };
        assert!((by_mm - 4.0).abs() < 1e-9);
        let Err(Flaw::BeltTooLong { by_mm }) = taut(UP, (-30.0, 30.0), triangle(120.0) + 3.0)
        else {
            panic!("fully out the path is at height 120")
        };
        assert!((by_mm - 3.0).abs() < 1e-9);
    }

    #[test]
    fn a_dead_point_is_found_wherever_it_lies() {
        // An arm from (100, 60), 30 long, straight up: turned on it first lifts, then sinks again.
        let arm =
            Carrier::Pivot { pivot: DVec2::new(100.0, 60.0), tightening: Sense::Anticlockwise };
        let Err(Flaw::DeadPoint { travel }) = taut(arm, (-1.0, 1.0), triangle(85.0)) else {
            panic!("straight up is the dead point")
        };
        assert!(travel.abs() < 1e-4, "{travel}");
        assert!(taut(arm, (-1.0, -0.2), triangle(85.0)).is_ok());
        assert!(matches!(
            taut(arm, (0.1, 1.0), triangle(85.0)),
            Err(Flaw::DeadPoint { .. } | Flaw::BeltTooShort { .. })
        ));
    }

    #[test]
    fn right_back_out_of_the_belt_is_named() {
        assert!(matches!(
            taut(UP, (-95.0, 30.0), triangle(97.0)),
            Err(Flaw::NotTouched { wheel: 2, when: When::RightBack, .. })
        ));
    }
}
