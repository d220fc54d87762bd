//! The belt off: where crank and one camshaft may not stand together, as a map to read and to move in.
//!
//! Across: the crank, from half a turn before its mark to half a turn after. Up: the camshaft in its own
//! degrees, the same. One unit is one degree of either; the middle is both on their marks.
//!
//! Must not know: what turns the shafts.

use crate::list::{Class, List, Part};
use drive::DVec2;
use engine::{CYCLE_DEG, Loose, Stand, wrap_cycle, wrap_turn};

/// How far the map reaches from its middle.
pub const MAP_REACH: f64 = 180.0;

/// How wide its columns are, crank degrees; each is exact in its middle.
const COLUMN_DEG: f64 = 1.0;
const COLUMNS: u32 = 360;

/// The map of a camshaft, its touching region worked out once.
#[derive(Clone, Debug)]
pub struct ContactMap {
    camshaft: usize,
    /// Crank degrees at the middle of the column, from and to in degrees of the camshaft.
    touching: Vec<(f64, f64, f64)>,
}

impl ContactMap {
    /// The map of crank × a camshaft, by its index in the engine.
    pub fn new(loose: &Loose<'_>, camshaft: usize) -> Self {
        let mut touching = Vec::new();
        for column in 0..COLUMNS {
            let crank_deg = (f64::from(column) + 0.5) * COLUMN_DEG - MAP_REACH;
            for arc in loose.touching_arcs(camshaft, crank_deg) {
                let from = wrap_cycle(arc.from_deg) / 2.0;
                let to = from + arc.len_deg() / 2.0;
                if arc.len_deg() >= CYCLE_DEG {
                    touching.push((crank_deg, -MAP_REACH, MAP_REACH));
                    continue;
                }
                touching.push((crank_deg, from, to.min(MAP_REACH)));
                if to > MAP_REACH {
                    touching.push((crank_deg, -MAP_REACH, to - 2.0 * MAP_REACH));
                }
            }
        }
        Self { camshaft, touching }
    }

    /// Its camshaft.
    pub fn camshaft(&self) -> usize {
        self.camshaft
    }

    /// Where on the map crank and camshaft stand.
    pub fn place(&self, stand: &Stand) -> DVec2 {
        let cam = wrap_cycle(stand.camshaft_deg(self.camshaft)) / 2.0;
        DVec2::new(wrap_turn(stand.crank_deg), cam)
    }

    /// Draws it on top of what `list` holds, with the shafts where `stand` has them.
    pub fn draw(&self, list: &mut List, stand: &Stand) {
        let part = Part::Map(self.camshaft);
        if !self.touching.is_empty() {
            list.begin(Class::MapTouch, part);
        }
        for (crank, from, to) in &self.touching {
            let half = 0.5 * COLUMN_DEG;
            list.polygon([
                DVec2::new(crank - half, *from),
                DVec2::new(crank + half, *from),
                DVec2::new(crank + half, *to),
                DVec2::new(crank - half, *to),
            ]);
        }
        list.begin(Class::MapLine, part);
        for step in -2..=2 {
            let at = f64::from(step) * 90.0;
            list.move_to(DVec2::new(at, -MAP_REACH));
            list.line_to(DVec2::new(at, MAP_REACH));
            list.move_to(DVec2::new(-MAP_REACH, at));
            list.line_to(DVec2::new(MAP_REACH, at));
        }
        list.begin(Class::MapMark, part);
        for arm in [DVec2::X, DVec2::Y] {
            list.move_to(arm * 12.0);
            list.line_to(arm * -12.0);
        }
        list.begin(Class::MapPoint, part);
        list.circle(self.place(stand), 7.0);
    }
}
