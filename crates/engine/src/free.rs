//! Where camshafts may stand while the crank is at, or turns through, some angle; in pieces between
//! which they can move.
//!
//! Must not know: what path is wanted (`route` does).

use crate::angle::{Arc, CYCLE_DEG, TURN_DEG, Taken, left_over, within};
use crate::loose::Loose;
use crate::obstacle::nearest_to_top;
use alloc::vec::Vec;

/// What is taken is drawn this much wider, degrees, so that rounding never lets parts touch.
const EDGE_DEG: f64 = 1e-9;
/// A place this near a free piece counts as in it, degrees.
const NEAR_DEG: f64 = 1e-6;

/// Lines that cut a circle, and the cells that they make: line 0, the stretch from it to line 1, line
/// 1 and so on round.
#[derive(Clone, Debug)]
pub(crate) struct Lines {
    lines: Vec<f64>,
    period: f64,
}

impl Lines {
    /// Every `step` degrees from 0, and at these angles too.
    pub(crate) fn new(step: f64, period: f64, also: impl IntoIterator<Item = f64>) -> Self {
        let count = libm::ceil(period / step) as usize;
        let mut lines: Vec<f64> = (0..count).map(|i| i as f64 * step).collect();
        lines.extend(also.into_iter().map(|deg| within(deg, period)));
        lines.sort_by(f64::total_cmp);
        lines.dedup();
        Self { lines, period }
    }

    pub(crate) fn cells(&self) -> usize {
        2 * self.lines.len()
    }

    /// From where to where a cell is.
    pub(crate) fn cell(&self, cell: usize) -> (f64, f64) {
        let from = self.lines[cell / 2];
        if cell.is_multiple_of(2) {
            return (from, from);
        }
        (from, self.lines.get(cell / 2 + 1).copied().unwrap_or(self.lines[0] + self.period))
    }

    /// The cell that an angle is in, a line before a stretch.
    pub(crate) fn find(&self, deg: f64) -> usize {
        let deg = within(deg, self.period);
        let past = self.lines.partition_point(|line| *line <= deg).max(1) - 1;
        if self.lines[past] == deg { 2 * past } else { 2 * past + 1 }
    }

    /// The cells beside one.
    pub(crate) fn beside(&self, cell: usize) -> [usize; 2] {
        let n = self.cells();
        [(cell + n - 1) % n, (cell + 1) % n]
    }
}

/// Camshafts that can meet each other: mostly one alone; a pair where their valves can touch.
#[derive(Clone, Debug)]
pub(crate) struct Group {
    /// The other camshaft, of a pair.
    pub(crate) across: Option<Across>,
    /// The camshaft that moves within a column.
    pub(crate) along: usize,
}

/// The camshaft along whose turn a pair's columns lie.
#[derive(Clone, Debug)]
pub(crate) struct Across {
    pub(crate) camshaft: usize,
    lines: Lines,
    /// What the two camshafts' valves take from each column, whatever the crank does.
    met: Vec<Vec<Arc>>,
}

/// Where the camshafts of a group stand, crank degrees past their marks: across (0 for one alone) and
/// along.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spot {
    pub(crate) across: f64,
    pub(crate) along: f64,
}

/// A column's stretch of free angle, and which connected piece of the whole it belongs to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stretch {
    pub(crate) column: usize,
    pub(crate) arc: Arc,
    pub(crate) piece: usize,
}

/// Everywhere that a group may stand, for one cell of the crank.
#[derive(Clone, Debug, Default)]
pub(crate) struct FreeSet {
    pub(crate) stretches: Vec<Stretch>,
    /// Where each column's stretches begin; one more at the end.
    starts: Vec<usize>,
    pub(crate) pieces: usize,
}

impl Group {
    pub(crate) fn alone(camshaft: usize) -> Self {
        Self { across: None, along: camshaft }
    }

    /// Two camshafts whose valves can meet, the first cut into columns.
    pub(crate) fn pair(loose: &Loose<'_>, camshaft: usize, along: usize, lines: Lines) -> Self {
        let column = |cell: usize| -> Vec<Arc> {
            let (from, to) = lines.cell(cell);
            let both = loose.pairs.iter().flat_map(|pair| [(pair, 0), (pair, 1)]);
            both.filter(|(pair, side)| {
                pair.sides[*side].0 == along && pair.sides[1 - side].0 == camshaft
            })
            .filter_map(|(pair, side)| {
                let other_mm = pair.most_lift_mm(1 - side, from, to);
                wider(pair.takes_from(side, other_mm))
            })
            .collect()
        };
        let met = (0..lines.cells()).map(column).collect();
        Self { across: Some(Across { camshaft, lines, met }), along }
    }

    pub(crate) fn column(&self, spot: Spot) -> usize {
        self.across.as_ref().map_or(0, |across| across.lines.find(spot.across))
    }

    pub(crate) fn columns_beside(&self, column: usize) -> [Option<usize>; 2] {
        self.across.as_ref().map_or([None; 2], |across| across.lines.beside(column).map(Some))
    }

    /// An angle across that stands for a column: its line, or the middle of its stretch.
    pub(crate) fn middle_of(&self, column: usize) -> f64 {
        self.across.as_ref().map_or(0.0, |across| {
            let (from, to) = across.lines.cell(column);
            0.5 * (from + to)
        })
    }

    /// Where the group may stand while the crank is anywhere from `from_deg` to `to_deg`. Everything
    /// here is free for the whole of that turn, and for all angles across of its column.
    pub(crate) fn free(&self, loose: &Loose<'_>, from_deg: f64, to_deg: f64) -> FreeSet {
        let by_pistons = |camshaft: usize| -> Vec<Arc> {
            let valves = loose.valves.iter().filter(|v| v.camshaft == camshaft);
            let taken = valves.map(|v| {
                let highest = nearest_to_top(from_deg, to_deg, v.top_deg);
                v.takes_from_cam(loose.piston.depth_mm(highest - v.top_deg))
            });
            taken.filter_map(wider).collect()
        };
        let mut set = FreeSet { starts: Vec::from([0]), ..FreeSet::default() };
        let mut along = by_pistons(self.along);
        if let Some(Across { camshaft, lines, met }) = &self.across {
            let across = left_over(&mut by_pistons(*camshaft), CYCLE_DEG);
            let pistons = along.len();
            for (column, met) in met.iter().enumerate() {
                let (from, to) = lines.cell(column);
                let clear = |arc: &Arc| {
                    let past = within(from - arc.from_deg, CYCLE_DEG);
                    arc.len_deg() >= CYCLE_DEG || past + (to - from) <= arc.len_deg()
                };
                if across.iter().any(clear) {
                    along.truncate(pistons);
                    along.extend(met);
                    set.push(column, &mut along.clone());
                }
                set.starts.push(set.stretches.len());
            }
        } else {
            set.push(0, &mut along);
            set.starts.push(set.stretches.len());
        }
        set.join(self);
        set
    }
}

/// What is taken, a trifle wider.
fn wider(taken: Taken) -> Option<Arc> {
    let arc = taken.arc(CYCLE_DEG)?;
    Some(Arc { from_deg: arc.from_deg - EDGE_DEG, to_deg: arc.to_deg + EDGE_DEG })
}

impl FreeSet {
    fn push(&mut self, column: usize, taken: &mut [Arc]) {
        let arcs = left_over(taken, CYCLE_DEG).into_iter();
        self.stretches.extend(arcs.map(|arc| Stretch { column, arc, piece: usize::MAX }));
    }

    pub(crate) fn in_column(&self, column: usize) -> core::ops::Range<usize> {
        self.starts[column]..self.starts[column + 1]
    }

    /// The stretches beside one that share angles with it.
    pub(crate) fn beside(&self, group: &Group, stretch: usize) -> impl Iterator<Item = usize> {
        let here = self.stretches[stretch];
        group
            .columns_beside(here.column)
            .into_iter()
            .flatten()
            .flat_map(|column| self.in_column(column))
            .filter(move |other| common(&here.arc, &self.stretches[*other].arc).is_some())
    }

    /// Numbers the connected pieces.
    fn join(&mut self, group: &Group) {
        for first in 0..self.stretches.len() {
            if self.stretches[first].piece != usize::MAX {
                continue;
            }
            let piece = self.pieces;
            self.pieces += 1;
            self.stretches[first].piece = piece;
            let mut open = Vec::from([first]);
            while let Some(stretch) = open.pop() {
                let known = open.len();
                let new = self.beside(group, stretch);
                open.extend(new.filter(|other| self.stretches[*other].piece == usize::MAX));
                for other in &open[known..] {
                    self.stretches[*other].piece = piece;
                }
            }
        }
    }

    /// The stretch in which a spot is.
    pub(crate) fn find(&self, group: &Group, spot: Spot) -> Option<usize> {
        self.in_column(group.column(spot)).find(|i| {
            let arc = self.stretches[*i].arc;
            Arc { from_deg: arc.from_deg - NEAR_DEG, to_deg: arc.to_deg + NEAR_DEG }
                .contains(spot.along, CYCLE_DEG)
        })
    }

    /// Whether a spot is in one of its pieces, to the last digit.
    pub(crate) fn holds(&self, group: &Group, piece: usize, spot: Spot) -> bool {
        self.in_column(group.column(spot)).any(|i| {
            let stretch = self.stretches[i];
            stretch.piece == piece && stretch.arc.contains(spot.along, CYCLE_DEG)
        })
    }

    /// For each piece of this set, the piece of a larger one that it lies in.
    pub(crate) fn pieces_in(&self, group: &Group, larger: &Self) -> Vec<usize> {
        let mut found: Vec<usize> = Vec::from_iter((0..self.pieces).map(|_| usize::MAX));
        for stretch in &self.stretches {
            if found[stretch.piece] == usize::MAX {
                let along = 0.5 * (stretch.arc.from_deg + stretch.arc.to_deg);
                let spot = Spot { across: group.middle_of(stretch.column), along };
                if let Some(i) = larger.find(group, spot) {
                    found[stretch.piece] = larger.stretches[i].piece;
                }
            }
        }
        found
    }
}

/// The longer part that two arcs of a camshaft's turn have in common.
pub(crate) fn common(a: &Arc, b: &Arc) -> Option<Arc> {
    let parts = a.common(b, CYCLE_DEG).into_iter().flatten();
    parts.max_by(|a, b| a.len_deg().total_cmp(&b.len_deg()))
}

/// Cells of the crank's turn fine enough for these camshafts, with lines at the tops and the given
/// angles.
pub(crate) fn crank_lines(loose: &Loose<'_>, step: f64, also: f64) -> Lines {
    let tops = loose.valves.iter().map(|v| v.top_deg);
    let parkings = loose.engine.parking().into_iter().map(|p| p.from_marks_deg);
    let all: Vec<f64> = tops.chain(parkings).chain([also]).collect();
    Lines::new(step, TURN_DEG, all)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture::four;

    #[test]
    fn cells_go_round() {
        let lines = Lines::new(90.0, 360.0, [45.0, 405.0]);
        assert_eq!(lines.cells(), 10);
        assert_eq!(lines.cell(lines.find(45.0)), (45.0, 45.0));
        assert_eq!(lines.cell(lines.find(50.0)), (45.0, 90.0));
        assert_eq!(lines.cell(lines.find(-10.0)), (270.0, 360.0));
        assert_eq!(lines.cell(lines.find(360.0)), (0.0, 0.0));
        assert_eq!(lines.beside(0), [9, 1]);
    }

    #[test]
    fn a_stretch_takes_at_least_what_its_ends_take() {
        let engine = four(2.6);
        let loose = engine.loose().unwrap();
        let group = Group::alone(0);
        for from in 0..180 {
            let (from, to) = (f64::from(from) * 2.0, f64::from(from) * 2.0 + 2.0);
            let stretch = group.free(&loose, from, to);
            for line in [group.free(&loose, from, from), group.free(&loose, to, to)] {
                assert!(stretch.pieces_in(&group, &line).iter().all(|piece| *piece < line.pieces));
            }
        }
        // Parked, the camshaft may stand anywhere; at a top it is shut in between lifts.
        assert_eq!(group.free(&loose, 90.0, 90.0).pieces, 1);
        assert!(group.free(&loose, 0.0, 0.0).pieces > 1);
    }
}
