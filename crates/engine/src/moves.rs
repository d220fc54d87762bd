//! From wherever the shafts were found back to their marks: an order of moves, one shaft at a time,
//! that touches nothing.
//!
//! Must not know: why somebody wants to.

use crate::angle::{CYCLE_DEG, TURN_DEG, within, wrap_cycle, wrap_turn};
use crate::free::{Group, Lines, Spot, crank_lines};
use crate::loose::Loose;
use crate::parking::Parking;
use crate::route::Atlas;
use crate::stand::{Near, Shaft, Stand};
use crate::walk::walk;
use alloc::vec::Vec;

/// Cells of the crank's turn where each camshaft moves for itself, degrees.
const STEP_DEG: f64 = 1.0;
/// Cells of the crank's turn where camshafts move in pairs, degrees.
const PAIR_STEP_DEG: f64 = 2.5;
/// Columns of one camshaft's turn in a pair, crank degrees.
const COLUMN_DEG: f64 = 5.0;
/// Room that is looked for on the way, mm: the first that can be had is kept.
const ROOMS_MM: [f64; 4] = [1.0, 0.3, 0.1, 0.0];
/// Moves shorter than this are none, degrees.
const STILL_DEG: f64 = 1e-9;

/// One shaft turned one way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Move {
    /// Which.
    pub shaft: Shaft,
    /// By so many crank degrees, forward positive; a camshaft itself turns by half as many.
    pub by_deg: f64,
    /// The nearest that anything comes on the way.
    pub nearest: Option<Near>,
}

/// What can be done from where the shafts stand.
#[derive(Clone, Debug, PartialEq)]
pub enum Way {
    /// These moves, in this order, bring every shaft to its mark; none where all stand there.
    Moves(Vec<Move>),
    /// No order of moves does.
    None,
    /// Something would touch as the shafts stand: they cannot stand so, or something is bent.
    TouchesNow(Near),
    /// Something would touch with every shaft on its mark.
    TouchesAtMarks(Near),
}

impl Loose<'_> {
    /// An order of moves that brings every shaft from a stand to its mark, touching nothing.
    ///
    /// With each shaft free, one turn of the crank is like another: its mark comes round every 360°.
    ///
    /// First what a workshop does is tried: the crank to a parking angle where every valve clears at
    /// any lift, each camshaft to its mark, the crank to its own. Where there is no such angle or it
    /// cannot be turned to directly, a search over the crank's turn cut into cells of at most 1°, with
    /// every camshaft's free angles exact in each cell. What it gives is proved clear over whole moves,
    /// by 1 mm where that can be had, else by 0.3 or 0.1 mm or by nothing at all: each move says by how
    /// much. No more is asked for than there is where the shafts stand and at the marks.
    ///
    /// Where it gives [`Way::None`] there is none but perhaps one through a passage so narrow that it
    /// closes within a cell; of camshafts whose valves can meet each other, 2.5° of the crank and 5
    /// crank degrees of one of the two.
    pub fn way_to_marks(&self, stand: &Stand) -> Way {
        let from = self.tidy(stand);
        let marks = self.tidy(&Stand::on_marks());
        let (Some(now), Some(home)) = (self.nearest(&from), self.nearest(&marks)) else {
            return Way::None;
        };
        if now.gap_mm < 0.0 {
            return Way::TouchesNow(now);
        }
        if home.gap_mm < 0.0 {
            return Way::TouchesAtMarks(home);
        }
        // A little less than there is, so that rounding does not take the ends themselves.
        let most_mm = 0.9 * now.gap_mm.min(home.gap_mm);
        let mut before_mm = f64::INFINITY;
        for room_mm in ROOMS_MM.map(|room| room.min(most_mm)) {
            if room_mm == before_mm {
                continue;
            }
            before_mm = room_mm;
            let nearer = self.keeping(room_mm);
            let found = nearer
                .crank_alone(&from)
                .or_else(|| nearer.by_parking(&from, &marks, room_mm))
                .or_else(|| nearer.searched(&from, &marks));
            if let Some(moves) = found {
                return Way::Moves(self.with_nearest(from, moves));
            }
        }
        Way::None
    }

    /// Every camshaft present, every angle within its circle.
    fn tidy(&self, stand: &Stand) -> Stand {
        let cams = 0..self.engine.camshafts().len();
        Stand {
            crank_deg: within(stand.crank_deg, TURN_DEG),
            camshafts_deg: cams.map(|i| within(stand.camshaft_deg(i), CYCLE_DEG)).collect(),
        }
    }

    /// The crank turned straight to an angle, the shorter way that is free.
    fn straight(&self, stand: &Stand, to_deg: f64) -> Option<f64> {
        let short = wrap_turn(to_deg - stand.crank_deg);
        let long = if short > 0.0 { short - TURN_DEG } else { short + TURN_DEG };
        if short.abs() <= STILL_DEG {
            return Some(short);
        }
        let freedom = self.freedom(stand, Shaft::Crank);
        [short, long].into_iter().find(|by_deg| {
            let stop = if *by_deg > 0.0 { freedom.forward } else { freedom.back };
            stop.is_none_or(|stop| stop.after_deg >= by_deg.abs())
        })
    }

    /// Camshafts on their marks already: the crank straight to its own.
    fn crank_alone(&self, from: &Stand) -> Option<Vec<(Shaft, f64)>> {
        let on_mark = |deg: &f64| wrap_cycle(*deg).abs() <= STILL_DEG;
        let ready = from.camshafts_deg.iter().all(on_mark);
        ready.then(|| self.straight(from, 0.0)).flatten().map(|by| Vec::from([(Shaft::Crank, by)]))
    }

    /// By the parking angle that needs the least turning of the crank.
    fn by_parking(&self, from: &Stand, marks: &Stand, room_mm: f64) -> Option<Vec<(Shaft, f64)>> {
        if !self.pairs.is_empty() {
            return None;
        }
        let worst_mm = self.engine.any_angle()?.worst_gap_mm;
        let safe = |p: &Parking| p.least_depth_mm.is_some_and(|deep| worst_mm + deep >= room_mm);
        let ways = self.engine.parking().into_iter().filter(safe).filter_map(|parking| {
            let there = self.straight(from, parking.from_marks_deg)?;
            // What is free one way is free the other.
            let back = -self.straight(marks, parking.from_marks_deg)?;
            Some((there, back))
        });
        let turning = |way: &(f64, f64)| way.0.abs() + way.1.abs();
        let (there, back) = ways.min_by(|a, b| turning(a).total_cmp(&turning(b)))?;
        let mut moves = Vec::from([(Shaft::Crank, there)]);
        for (camshaft, deg) in from.camshafts_deg.iter().enumerate() {
            moves.push((Shaft::Camshaft(camshaft), -wrap_cycle(*deg)));
        }
        moves.push((Shaft::Crank, back));
        Some(moves)
    }

    fn searched(&self, from: &Stand, marks: &Stand) -> Option<Vec<(Shaft, f64)>> {
        let groups = self.groups(from);
        let step = if self.pairs.is_empty() { STEP_DEG } else { PAIR_STEP_DEG };
        let lines = crank_lines(self, step, from.crank_deg);
        let mut atlas = Atlas::new(self, lines, groups);
        let spots = |stand: &Stand| -> Vec<Spot> {
            atlas.groups.iter().map(|group| group.spot(stand)).collect()
        };
        let (mut at, home) = (spots(from), spots(marks));
        let start = atlas.node(from.crank_deg, &at)?;
        let goal = atlas.node(0.0, &home)?;
        let route = atlas.route(&start, &goal)?;
        Some(walk(&mut atlas, &route, &mut at, &home))
    }

    /// Camshafts that can meet each other together, the others each alone.
    fn groups(&self, from: &Stand) -> Vec<Group> {
        let mut groups: Vec<Group> = Vec::new();
        let mut paired: Vec<usize> = Vec::new();
        for pair in &self.pairs {
            let [across, along] = pair.sides.map(|side| side.0);
            if !paired.contains(&across) {
                let lines = Lines::new(COLUMN_DEG, CYCLE_DEG, [from.camshaft_deg(across)]);
                groups.push(Group::pair(self, across, along, lines));
                paired.extend([across, along]);
            }
        }
        let alone = (0..self.engine.camshafts().len()).filter(|i| !paired.contains(i));
        groups.extend(alone.map(Group::alone));
        groups
    }

    /// Joined where one shaft goes on, and each with the nearest that anything comes.
    fn with_nearest(&self, from: Stand, moves: Vec<(Shaft, f64)>) -> Vec<Move> {
        let mut joined: Vec<(Shaft, f64)> = Vec::new();
        for (shaft, by_deg) in moves.into_iter().filter(|(_, by_deg)| by_deg.abs() > STILL_DEG) {
            match joined.last_mut() {
                Some((last, so_far)) if *last == shaft && *so_far * by_deg > 0.0 => {
                    *so_far += by_deg;
                }
                _ => joined.push((shaft, by_deg)),
            }
        }
        let mut stand = from;
        let mut with = Vec::with_capacity(joined.len());
        for (shaft, by_deg) in joined {
            let nearest = self.nearest_on_the_way(&stand, shaft, by_deg);
            with.push(Move { shaft, by_deg, nearest });
            match shaft {
                Shaft::Crank => stand.crank_deg += by_deg,
                Shaft::Camshaft(i) => stand.camshafts_deg[i] += by_deg,
            }
        }
        with
    }
}

impl Group {
    fn spot(&self, stand: &Stand) -> Spot {
        let across = self.across.as_ref().map_or(0.0, |other| stand.camshaft_deg(other.camshaft));
        Spot { across, along: stand.camshaft_deg(self.along) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::Engine;
    use crate::figures::{AtMarks, Top};
    use crate::fixture::{four, four_figures};

    fn stand(crank_deg: f64, cam_deg: f64) -> Stand {
        Stand { crank_deg, camshafts_deg: Vec::from([cam_deg]) }
    }

    fn turns(engine: &Engine, from: &Stand) -> Vec<(Shaft, f64)> {
        match engine.loose().unwrap().way_to_marks(from) {
            Way::Moves(moves) => moves.iter().map(|m| (m.shaft, libm::round(m.by_deg))).collect(),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn on_the_marks_there_is_nothing_to_do() {
        assert_eq!(turns(&four(2.6), &stand(0.0, 0.0)), []);
        assert_eq!(turns(&four(2.6), &stand(-720.0, 1440.0)), []);
    }

    #[test]
    fn by_the_parking_angle() {
        let moves = turns(&four(2.6), &stand(80.0, 200.0));
        let crank = Shaft::Crank;
        assert_eq!(moves, [(crank, 10.0), (Shaft::Camshaft(0), -200.0), (crank, -90.0)]);
        // With the camshaft on its mark the crank goes straight there.
        assert_eq!(turns(&four(2.6), &stand(20.0, 0.0)), [(crank, -20.0)]);
    }

    #[test]
    fn without_pistons_in_the_way_each_goes_straight() {
        let moves = turns(&four(30.0), &stand(0.0, 300.0));
        let total: f64 = moves.iter().map(|(_, by)| by.abs()).sum();
        assert!(total <= 480.0, "{moves:?}");
    }

    #[test]
    fn touching_is_told_before_anything() {
        let engine = four(2.6);
        let loose = engine.loose().unwrap();
        assert!(
            matches!(loose.way_to_marks(&stand(0.0, 90.0)), Way::TouchesNow(n) if n.gap_mm < 0.0)
        );
        let engine = four(-1.0);
        let loose = engine.loose().unwrap();
        assert!(matches!(loose.way_to_marks(&stand(90.0, 0.0)), Way::TouchesAtMarks(_)));
    }

    /// Two camshafts on one cylinder, no piston in the way: an intake valve that has to come back past
    /// an exhaust valve open furthest. The exhaust camshaft must give way and return.
    #[test]
    fn a_camshaft_gives_way_to_another() {
        let mut figures = four_figures(30.0);
        figures.fires_at_deg.truncate(1);
        figures.at_marks = AtMarks { crank_atdc_deg: -100.0, top: Top::Overlap };
        let mut intake = figures.camshafts[0].clone();
        intake.cylinders.truncate(1);
        let mut exhaust = intake.clone();
        (intake.exhaust, exhaust.intake) = (None, None);
        figures.camshafts = Vec::from([intake, exhaust]);
        figures.valves_meet_at_lift_sum_mm = Some(10.0);
        let engine = Engine::new(figures).unwrap();
        let loose = engine.loose().unwrap();
        let from = Stand { crank_deg: 0.0, camshafts_deg: Vec::from([345.0, 0.0]) };
        let Way::Moves(moves) = loose.way_to_marks(&from) else { panic!("no way") };
        let exhaust = moves.iter().filter(|m| m.shaft == Shaft::Camshaft(1));
        assert!(exhaust.count() >= 2, "{moves:?}");
        assert!(moves.iter().all(|m| m.nearest.unwrap().gap_mm >= 0.0), "{moves:?}");
    }

    #[test]
    fn the_search_agrees_that_a_four_comes_home() {
        let engine = four(2.6);
        let loose = engine.loose().unwrap();
        let (from, marks) = (loose.tidy(&stand(80.0, 200.0)), loose.tidy(&Stand::on_marks()));
        let moves = loose.with_nearest(from.clone(), loose.searched(&from, &marks).unwrap());
        assert!(moves.iter().all(|m| m.nearest.unwrap().gap_mm >= 0.0), "{moves:?}");
    }
}
