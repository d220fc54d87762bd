//! Where to leave the crank so that every piston is as far from its valves as it can be.
//!
//! Must not know: camshafts, but for whether they would clear.

use crate::angle::{TURN_DEG, within, wrap_turn};
use crate::crank::SliderCrank;
use crate::engine::Engine;
use alloc::vec::Vec;

/// An angle of the crank at which the highest piston stands lower than just before or after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parking {
    /// Crank degrees after cylinder 1's top, in [0, 360).
    pub after_top_deg: f64,
    /// The same from the crank's mark, forward positive, in (−180, 180].
    pub from_marks_deg: f64,
    /// How far the highest piston stands below its top there, mm; `None` without stroke and rod.
    pub least_depth_mm: Option<f64>,
    /// Whether every valve clears its piston there at any angle of its camshaft; `None` where a valve's
    /// figures are not known, or no valve is.
    pub clears_any_lift: Option<bool>,
}

impl Engine {
    /// All parking angles of one crank turn, best first, then in order of angle.
    ///
    /// A piston stands lower the further the crank is from that piston's top, either way. So the
    /// highest is the one whose top is nearest, and it is lowest midway between two neighbouring tops:
    /// one parking angle to each gap between tops, deeper in a wider gap. This holds for any firing
    /// intervals, and needs neither stroke nor rod but to say how deep.
    pub fn parking(&self) -> Vec<Parking> {
        let mut tops: Vec<f64> =
            self.fires_at_deg().iter().map(|deg| within(*deg, TURN_DEG)).collect();
        tops.sort_by(f64::total_cmp);
        // Two pistons that go up and down together have one top.
        tops.dedup_by(|a, b| *a - *b < 1e-9);
        let mut found: Vec<Parking> = Vec::with_capacity(tops.len());
        for (i, top) in tops.iter().enumerate() {
            let next = tops.get(i + 1).copied().unwrap_or(tops[0] + TURN_DEG);
            let half = 0.5 * (next - top);
            if half < 1e-9 {
                continue;
            }
            let least_depth_mm = self.crank().map(|crank| crank.depth_mm(half));
            found.push(Parking {
                after_top_deg: within(top + half, TURN_DEG),
                from_marks_deg: wrap_turn(top + half - self.at_marks_deg()),
                least_depth_mm,
                clears_any_lift: self.clears_at(least_depth_mm),
            });
        }
        let gap = |p: &Parking| self.depths_key(p);
        found.sort_by(|a, b| {
            // Equal gaps differ by rounding alone.
            let (a_gap, b_gap) = (gap(a), gap(b));
            if (a_gap - b_gap).abs() < 1e-9 {
                a.after_top_deg.total_cmp(&b.after_top_deg)
            } else {
                b_gap.total_cmp(&a_gap)
            }
        });
        found
    }

    /// How far each piston stands below its top with the crank `crank_deg` past its mark, mm, cylinder
    /// 1 first; `None` without stroke and rod.
    pub fn depths_mm(&self, crank_deg: f64) -> Option<Vec<f64>> {
        let crank = self.crank()?;
        let depth = |k| SliderCrank::depth_mm(crank, self.from_overlap_deg(k, crank_deg));
        Some((0..self.cylinders()).map(depth).collect())
    }

    /// Degrees from a parking angle to the nearest top.
    fn depths_key(&self, parking: &Parking) -> f64 {
        let away = |top: &f64| wrap_turn(parking.after_top_deg - top).abs();
        self.fires_at_deg().iter().map(away).fold(TURN_DEG, f64::min)
    }

    fn clears_at(&self, depth_mm: Option<f64>) -> Option<bool> {
        let depth_mm = depth_mm?;
        let any = self.any_angle().filter(|any| any.all_known)?;
        Some(any.worst_gap_mm + depth_mm >= 0.0)
    }
}

#[cfg(test)]
mod tests {
    use crate::engine::Engine;
    use crate::fixture::{four, four_figures};

    #[test]
    fn a_four_has_two_and_one_cylinder_has_one() {
        let parking = four(2.6).parking();
        assert_eq!(parking.len(), 2);
        assert_eq!(parking[0].clears_any_lift, Some(true));
        let mut figures = four_figures(2.6);
        figures.fires_at_deg.truncate(1);
        figures.camshafts[0].cylinders.truncate(1);
        figures.at_marks.crank_atdc_deg = 30.0;
        let parking = Engine::new(figures).unwrap().parking();
        assert_eq!(parking.len(), 1);
        assert_eq!((parking[0].after_top_deg, parking[0].from_marks_deg), (180.0, 150.0));
        assert!((parking[0].least_depth_mm.unwrap() - 80.0).abs() < 1e-12);
    }

    #[test]
    fn uneven_firing_is_parked_in_the_widest_gap() {
        let mut figures = four_figures(2.6);
        figures.fires_at_deg = [0.0, 90.0, 360.0, 450.0].to_vec();
        let parking = Engine::new(figures).unwrap().parking();
        let angles: alloc::vec::Vec<f64> = parking.iter().map(|p| p.after_top_deg).collect();
        assert_eq!(angles, [225.0, 45.0]);
    }

    #[test]
    fn without_figures_there_is_an_angle_and_no_depth() {
        let mut figures = four_figures(2.6);
        figures.crank = None;
        let parking = Engine::new(figures).unwrap().parking();
        assert_eq!(parking[0].after_top_deg, 90.0);
        assert_eq!((parking[0].least_depth_mm, parking[0].clears_any_lift), (None, None));
    }
}
