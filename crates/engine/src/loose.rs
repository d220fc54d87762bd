//! The engine with every shaft free to turn by itself: what meets what, and how far each may turn.
//!
//! Must not know: how to get anywhere (`moves` does).

use crate::angle::{Arc, CYCLE_DEG, TURN_DEG, left_over, within};
use crate::crank::{RAD_PER_DEG, SliderCrank};
use crate::engine::Engine;
use crate::events::Kind;
use crate::obstacle::{Over, Pair, nearest_to_top};
use crate::stand::{Freedom, Near, Shaft, Stand};
use alloc::vec::Vec;

/// What has to be known before anything can be said of free shafts, and is not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// Stroke and rod.
    Crank,
    /// Any camshaft.
    Camshafts,
    /// Every valve of this camshaft.
    Valves {
        /// The camshaft.
        camshaft: usize,
    },
    /// Lift, lean or room of a valve.
    Valve {
        /// The camshaft.
        camshaft: usize,
        /// Which of its valves.
        valve: Kind,
    },
}

/// An engine all of whose stated valves have their figures, with every shaft free.
///
/// A camshaft with a phaser is taken with it wherever in its range it is worst.
#[derive(Clone, Debug)]
pub struct Loose<'a> {
    pub(crate) engine: &'a Engine,
    pub(crate) piston: &'a SliderCrank,
    pub(crate) valves: Vec<Over<'a>>,
    pub(crate) pairs: Vec<Pair<'a>>,
}

impl Engine {
    /// The engine with every shaft free to turn.
    ///
    /// # Errors
    /// The first figure that is missing: without it nothing could be said to be clear.
    pub fn loose(&self) -> Result<Loose<'_>, Missing> {
        let piston = self.crank().ok_or(Missing::Crank)?;
        if self.camshafts().is_empty() {
            return Err(Missing::Camshafts);
        }
        let mut valves = Vec::new();
        for (camshaft, c) in self.camshafts().iter().enumerate() {
            if c.valves().next().is_none() {
                return Err(Missing::Valves { camshaft });
            }
            for valve in c.valves() {
                let kind = valve.kind();
                let missing = Missing::Valve { camshaft, valve: kind };
                let lobe = valve.swept().ok_or(missing)?;
                let room = valve.room().ok_or(missing)?;
                valves.extend(c.cylinders().iter().map(|&cylinder| Over {
                    cylinder,
                    camshaft,
                    kind,
                    lobe,
                    cos_lean: libm::cos(room.lean_deg * RAD_PER_DEG),
                    at_top_mm: room.gap_at_top_mm,
                    top_deg: -self.from_overlap_deg(cylinder, 0.0),
                    zero_deg: -self.from_overlap_deg(cylinder, 0.0),
                }));
            }
        }
        let mut pairs = Vec::new();
        if let Some(sum_mm) = self.valves_meet_at_lift_sum_mm() {
            for intake in valves.iter().filter(|v| v.kind == Kind::Intake) {
                let other = |v: &&Over<'_>| {
                    v.kind == Kind::Exhaust
                        && v.cylinder == intake.cylinder
                        && v.camshaft != intake.camshaft
                };
                pairs.extend(valves.iter().filter(other).map(|exhaust| Pair {
                    cylinder: intake.cylinder,
                    sides: [(intake.camshaft, intake.lobe), (exhaust.camshaft, exhaust.lobe)],
                    zero_deg: intake.zero_deg,
                    sum_mm,
                }));
            }
        }
        Ok(Loose { engine: self, piston, valves, pairs })
    }
}

impl<'a> Loose<'a> {
    /// The engine.
    pub fn engine(&self) -> &'a Engine {
        self.engine
    }

    /// The same with every two parts taken as nearer by `room_mm`: what is clear here keeps that room.
    pub(crate) fn keeping(&self, room_mm: f64) -> Self {
        let mut nearer = self.clone();
        for valve in &mut nearer.valves {
            valve.at_top_mm -= room_mm;
        }
        for pair in &mut nearer.pairs {
            pair.sum_mm -= room_mm;
        }
        nearer
    }

    /// Valves of which nothing is stated, by cylinder: nothing here speaks of them.
    pub fn not_stated(&self) -> Vec<(usize, Kind)> {
        (0..self.engine.cylinders())
            .flat_map(|cylinder| Kind::BOTH.map(|kind| (cylinder, kind)))
            .filter(|(cylinder, kind)| self.engine.moved_by(*cylinder, *kind).is_none())
            .collect()
    }

    /// The nearest that a valve of one camshaft is to its piston with crank and camshaft so many crank
    /// degrees past their marks: one place of the map of crank × camshaft. `None` for a camshaft that
    /// is not there.
    pub fn near(&self, camshaft: usize, crank_deg: f64, cam_deg: f64) -> Option<Near> {
        self.valves
            .iter()
            .filter(|v| v.camshaft == camshaft)
            .map(|v| Near {
                gap_mm: v.gap_mm(self.piston, crank_deg, v.lift_mm(cam_deg)),
                parts: v.parts(),
            })
            .min_by(|a, b| a.gap_mm.total_cmp(&b.gap_mm))
    }

    /// The two parts nearest to touching of all; at least one valve is there.
    pub fn nearest(&self, stand: &Stand) -> Option<Near> {
        let pistons = (0..self.engine.camshafts().len())
            .filter_map(|i| self.near(i, stand.crank_deg, stand.camshaft_deg(i)));
        let valves = self.pairs.iter().map(|pair| {
            let lift = |side: usize| pair.lift_mm(side, stand.camshaft_deg(pair.sides[side].0));
            Near { gap_mm: pair.gap_mm([lift(0), lift(1)]), parts: pair.parts() }
        });
        pistons.chain(valves).min_by(|a, b| a.gap_mm.total_cmp(&b.gap_mm))
    }

    /// The arcs of a camshaft's turn, crank degrees past its mark, in which a valve of it would be in
    /// the same place as its piston with the crank `crank_deg` past its mark: one line of the map. They
    /// begin in [0, 720) in order; one of 720° where it touches anywhere.
    pub fn touching_arcs(&self, camshaft: usize, crank_deg: f64) -> Vec<Arc> {
        let valves = self.valves.iter().filter(|v| v.camshaft == camshaft);
        let mut taken: Vec<Arc> = valves
            .filter_map(|v| {
                let depth_mm = self.piston.depth_mm(crank_deg - v.top_deg);
                v.takes_from_cam(depth_mm).arc(CYCLE_DEG)
            })
            .collect();
        let free = left_over(&mut taken, CYCLE_DEG);
        if taken.is_empty() {
            return Vec::new();
        }
        if free.is_empty() {
            return Vec::from([Arc { from_deg: 0.0, to_deg: CYCLE_DEG }]);
        }
        // What lies between one free arc and the next.
        let mut touching: Vec<Arc> = (0..free.len())
            .map(|i| {
                let next = free.get(i + 1).map_or(free[0].from_deg + CYCLE_DEG, |n| n.from_deg);
                let from_deg = within(free[i].to_deg, CYCLE_DEG);
                Arc { from_deg, to_deg: from_deg + (next - free[i].to_deg) }
            })
            .collect();
        touching.sort_by(|a, b| a.from_deg.total_cmp(&b.from_deg));
        touching
    }

    /// How far a shaft may turn each way with the others where they stand, before two parts meet; 0
    /// where they already do.
    pub fn freedom(&self, stand: &Stand, shaft: Shaft) -> Freedom {
        let mut freedom = Freedom { back: None, forward: None };
        match shaft {
            Shaft::Crank => {
                for v in &self.valves {
                    let lift_mm = v.lift_mm(stand.camshaft_deg(v.camshaft));
                    let taken = v.takes_from_crank(self.piston, lift_mm);
                    freedom.narrow(taken, stand.crank_deg, TURN_DEG, v.parts());
                }
            }
            Shaft::Camshaft(camshaft) => {
                let cam_deg = stand.camshaft_deg(camshaft);
                for v in self.valves.iter().filter(|v| v.camshaft == camshaft) {
                    let depth_mm = self.piston.depth_mm(stand.crank_deg - v.top_deg);
                    freedom.narrow(v.takes_from_cam(depth_mm), cam_deg, CYCLE_DEG, v.parts());
                }
                for pair in &self.pairs {
                    for side in [0, 1] {
                        if pair.sides[side].0 == camshaft {
                            let other = 1 - side;
                            let other_deg = stand.camshaft_deg(pair.sides[other].0);
                            let taken = pair.takes_from(side, pair.lift_mm(other, other_deg));
                            freedom.narrow(taken, cam_deg, CYCLE_DEG, pair.parts());
                        }
                    }
                }
            }
        }
        freedom
    }

    /// The nearest that anything comes while one shaft turns by `by_deg` from a stand: exact over the
    /// whole move, not sampled.
    pub fn nearest_on_the_way(&self, stand: &Stand, shaft: Shaft, by_deg: f64) -> Option<Near> {
        let low = |at: f64| at.min(at + by_deg);
        let high = |at: f64| at.max(at + by_deg);
        let mut all = Vec::new();
        for v in &self.valves {
            let cam_deg = stand.camshaft_deg(v.camshaft);
            let gap_mm = match shaft {
                Shaft::Crank => {
                    let (from, to) = (low(stand.crank_deg), high(stand.crank_deg));
                    v.gap_mm(self.piston, nearest_to_top(from, to, v.top_deg), v.lift_mm(cam_deg))
                }
                Shaft::Camshaft(camshaft) if camshaft == v.camshaft => {
                    let lift_mm = v.most_lift_mm(low(cam_deg), high(cam_deg));
                    v.gap_mm(self.piston, stand.crank_deg, lift_mm)
                }
                Shaft::Camshaft(_) => v.gap_mm(self.piston, stand.crank_deg, v.lift_mm(cam_deg)),
            };
            all.push(Near { gap_mm, parts: v.parts() });
        }
        for pair in &self.pairs {
            let most = |side: usize| {
                let camshaft = pair.sides[side].0;
                let at = stand.camshaft_deg(camshaft);
                if shaft == Shaft::Camshaft(camshaft) {
                    pair.most_lift_mm(side, low(at), high(at))
                } else {
                    pair.lift_mm(side, at)
                }
            };
            all.push(Near { gap_mm: pair.gap_mm([most(0), most(1)]), parts: pair.parts() });
        }
        all.into_iter().min_by(|a, b| a.gap_mm.total_cmp(&b.gap_mm))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture::{four, four_figures};

    #[test]
    fn what_is_missing_is_named() {
        let missing = |change: &dyn Fn(&mut crate::figures::Figures)| {
            let mut figures = four_figures(2.6);
            change(&mut figures);
            Engine::new(figures).unwrap().loose().err()
        };
        assert_eq!(missing(&|_| ()), None);
        assert_eq!(missing(&|f| f.crank = None), Some(Missing::Crank));
        assert_eq!(missing(&|f| f.camshafts.clear()), Some(Missing::Camshafts));
        let valve = Some(Missing::Valve { camshaft: 0, valve: Kind::Exhaust });
        assert_eq!(missing(&|f| f.camshafts[0].exhaust.as_mut().unwrap().room = None), valve);
        assert_eq!(
            missing(&|f| (f.camshafts[0].intake, f.camshafts[0].exhaust) = (None, None)),
            Some(Missing::Valves { camshaft: 0 })
        );
        let mut figures = four_figures(2.6);
        figures.camshafts[0].exhaust = None;
        let engine = Engine::new(figures).unwrap();
        assert_eq!(engine.loose().unwrap().not_stated().len(), 4);
    }

    #[test]
    fn at_its_marks_a_four_is_shut_in_and_parked_it_is_not() {
        let engine = four(2.6);
        let loose = engine.loose().unwrap();
        let marks = loose.freedom(&Stand::on_marks(), Shaft::Camshaft(0));
        assert!(marks.back.is_some() && marks.forward.is_some());
        let touching = Stand { crank_deg: 0.0, camshafts_deg: Vec::from([90.0]) };
        for shaft in [Shaft::Crank, Shaft::Camshaft(0)] {
            let stuck = loose.freedom(&touching, shaft);
            let after = [stuck.back, stuck.forward].map(|stop| stop.unwrap().after_deg);
            assert_eq!(after, [0.0, 0.0]);
        }
        let parked = Stand { crank_deg: 90.0, camshafts_deg: Vec::new() };
        let free = Freedom { back: None, forward: None };
        assert_eq!(loose.freedom(&parked, Shaft::Camshaft(0)), free);
        assert_eq!(loose.touching_arcs(0, 90.0), []);
        assert!(!loose.touching_arcs(0, 0.0).is_empty());
    }
}
