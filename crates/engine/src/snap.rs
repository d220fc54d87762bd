//! Which way a camshaft wants to turn of itself when the belt comes off.
//!
//! Must not know: friction, which may well hold it.

use crate::engine::Engine;

/// What the valve springs do to one camshaft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Snap {
    /// Which way.
    pub turns: Turns,
    /// The springs' moment on the camshaft, forward positive, N·m, with one spring of the stated
    /// figures to each cylinder and kind; `None` unless every open valve's spring is known.
    pub moment_n_m: Option<f64>,
}

/// A way to turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turns {
    /// On, in its running direction.
    Forward,
    /// Back.
    Back,
    /// Neither: every valve is shut or at its top, or those that open and those that close cancel.
    Neither,
}

/// Slopes, summed, that count as none, mm per crank degree.
const LEVEL_MM_PER_DEG: f64 = 1e-9;

impl Engine {
    /// Which way a camshaft wants to turn when it stands `cam_deg` crank degrees past its mark.
    ///
    /// A spring pushes its valve shut. A valve that would open further on turning forward pushes the
    /// camshaft back, one that is closing pushes it on: the moment is −Σ F·dlift/dturn. Without springs
    /// every valve counts alike, by its slope alone. `None` where a valve's lift is not known, or there
    /// is no valve.
    pub fn snap(&self, camshaft: usize, cam_deg: f64) -> Option<Snap> {
        let c = self.camshafts().get(camshaft)?;
        let (mut slopes, mut moment, mut all_sprung) = (0.0, 0.0, true);
        c.valves().next()?;
        for valve in c.valves() {
            let lobe = valve.lobe()?;
            for &cylinder in c.cylinders() {
                let (lift, rate) = lobe.lift_and_rate(self.from_overlap_deg(cylinder, cam_deg));
                slopes += rate;
                match valve.spring() {
                    Some(spring) => moment += (spring.shut_n + spring.rate_n_per_mm * lift) * rate,
                    None => all_sprung &= lift <= 0.0,
                }
            }
        }
        // N·mm per crank degree, of which a camshaft's radian has 2·180/π.
        let moment_n_m =
            all_sprung.then_some(-moment * 2.0 * (180.0 / core::f64::consts::PI) / 1e3);
        let pushes = moment_n_m.map_or(-slopes, |moment| moment);
        let turns = if slopes.abs() <= LEVEL_MM_PER_DEG && pushes.abs() <= LEVEL_MM_PER_DEG {
            Turns::Neither
        } else if pushes > 0.0 {
            Turns::Forward
        } else {
            Turns::Back
        };
        Some(Snap { turns, moment_n_m })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::events::Kind;
    use crate::fixture::{four, four_figures};

    #[test]
    fn an_opening_valve_pushes_back_and_a_closing_one_on() {
        let mut figures = four_figures(2.6);
        figures.fires_at_deg.truncate(1);
        figures.camshafts[0].cylinders.truncate(1);
        figures.camshafts[0].exhaust = None;
        let engine = Engine::new(figures).unwrap();
        let centre = engine.events(0, Kind::Intake, 0.0).unwrap().centreline_deg();
        // Cylinder 1's overlap top is one crank turn after its mark.
        let snap = |deg: f64| engine.snap(0, 360.0 + deg).unwrap();
        assert_eq!(snap(centre - 40.0), Snap { turns: Turns::Back, moment_n_m: None });
        assert_eq!(snap(centre + 40.0).turns, Turns::Forward);
        assert_eq!(snap(centre + 200.0).turns, Turns::Neither);
        assert_eq!(snap(centre + 200.0).moment_n_m, Some(0.0));
    }

    #[test]
    fn unknown_lift_is_no_answer() {
        assert_eq!(four(2.6).snap(1, 0.0), None);
        let mut figures = four_figures(2.6);
        figures.camshafts[0].intake = None;
        figures.camshafts[0].exhaust = None;
        assert_eq!(Engine::new(figures).unwrap().snap(0, 0.0), None);
    }
}
