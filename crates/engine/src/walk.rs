//! From a route to single moves: each shaft left where it is for as long as it can stay there.
//!
//! Must not know: how the route was found.

use crate::angle::{Arc, CYCLE_DEG, wrap_cycle};
use crate::free::{Spot, common};
use crate::route::{Atlas, Node};
use crate::stand::Shaft;
use alloc::collections::VecDeque;
use alloc::vec::Vec;

/// Moves along a route: before each stretch of the crank's turn every group moves, if it must, to
/// where it can stay for as long as possible.
pub(crate) fn walk(
    atlas: &mut Atlas<'_>,
    route: &[Node],
    at: &mut [Spot],
    home: &[Spot],
) -> Vec<(Shaft, f64)> {
    let mut moves = Vec::new();
    for step in (0..route.len().saturating_sub(1)).step_by(2) {
        let (line, stretch, next) = (route[step].0, route[step + 1].0, route[step + 2].0);
        for group in 0..at.len() {
            let piece = route[step + 1].1[group];
            if atlas.set(group, stretch).holds(&atlas.groups[group], piece, at[group]) {
                continue;
            }
            let target = stays_longest(atlas, group, &route[step + 1..], home[group]);
            shift(atlas, group, line, &mut at[group], target, &mut moves);
        }
        let (from, to) = atlas.lines.cell(stretch);
        let forward = atlas.lines.beside(line)[1] == stretch;
        moves.push((Shaft::Crank, if forward { to - from } else { from - to }));
        debug_assert!(next.is_multiple_of(2));
    }
    let last = route.last().map_or(0, |node| node.0);
    for group in 0..at.len() {
        shift(atlas, group, last, &mut at[group], home[group], &mut moves);
    }
    moves
}

/// The spot of a group's piece in the first cell that is still free furthest along the cells ahead.
fn stays_longest(atlas: &mut Atlas<'_>, group: usize, ahead: &[Node], home: Spot) -> Spot {
    let in_piece = |atlas: &mut Atlas<'_>, node: &Node| -> Vec<(usize, Arc)> {
        let set = atlas.set(group, node.0);
        let own = set.stretches.iter().filter(|s| s.piece == node.1[group]);
        own.map(|s| (s.column, s.arc)).collect()
    };
    let mut stays = in_piece(atlas, &ahead[0]);
    // Lines between stretches take nothing that the stretches do not.
    for node in ahead.iter().skip(2).step_by(2) {
        let next = in_piece(atlas, node);
        let mut both = Vec::new();
        for (column, arc) in &stays {
            let same = next.iter().filter(|(other, _)| other == column);
            both.extend(same.filter_map(|(_, other)| Some((*column, common(arc, other)?))));
        }
        if both.is_empty() {
            break;
        }
        stays = both;
    }
    let columns = &atlas.groups[group];
    let home_column = columns.column(home);
    let holds_home = |(column, arc): &(usize, Arc)| {
        *column == home_column && arc.contains(home.along, CYCLE_DEG)
    };
    if stays.iter().any(holds_home) {
        return home;
    }
    let widest = stays.iter().max_by(|a, b| a.1.len_deg().total_cmp(&b.1.len_deg()));
    widest.map_or(home, |(column, arc)| Spot {
        across: columns.middle_of(*column),
        along: 0.5 * (arc.from_deg + arc.to_deg),
    })
}

/// Moves a group within its piece at a line of the crank's turn, from column to column.
fn shift(
    atlas: &mut Atlas<'_>,
    group: usize,
    line: usize,
    at: &mut Spot,
    target: Spot,
    moves: &mut Vec<(Shaft, f64)>,
) {
    let set = atlas.set(group, line);
    let group = &atlas.groups[group];
    let (Some(from), Some(to)) = (set.find(group, *at), set.find(group, target)) else { return };
    // Breadth first from the target, so that following it back leads there by the fewest columns.
    let mut towards: Vec<Option<usize>> = set.stretches.iter().map(|_| None).collect();
    towards[to] = Some(to);
    let mut open = VecDeque::from([to]);
    while let Some(stretch) = open.pop_front() {
        for other in set.beside(group, stretch) {
            if towards[other].is_none() {
                towards[other] = Some(stretch);
                open.push_back(other);
            }
        }
    }
    let mut here = from;
    while here != to {
        let Some(next) = towards[here] else { return };
        let (own, beyond) = (set.stretches[here], set.stretches[next]);
        if !beyond.arc.contains(at.along, CYCLE_DEG) {
            // As far ahead as one place serves.
            let mut serves = own.arc;
            let mut look = here;
            while look != to {
                let Some(further) = towards[look] else { break };
                let Some(both) = common(&serves, &set.stretches[further].arc) else { break };
                (serves, look) = (both, further);
            }
            let along = if look == to && serves.contains(target.along, CYCLE_DEG) {
                target.along
            } else {
                0.5 * (serves.from_deg + serves.to_deg)
            };
            turn_within(&own.arc, &mut at.along, along, group.along, moves);
        }
        if let Some(other) = &group.across {
            let across = if next == to { target.across } else { group.middle_of(beyond.column) };
            moves.push((Shaft::Camshaft(other.camshaft), wrap_cycle(across - at.across)));
            at.across = across;
        }
        here = next;
    }
    if let Some(other) = &group.across {
        moves.push((Shaft::Camshaft(other.camshaft), wrap_cycle(target.across - at.across)));
        at.across = target.across;
    }
    let arc = set.stretches[to].arc;
    turn_within(&arc, &mut at.along, target.along, group.along, moves);
}

/// Turns a camshaft to another angle of the same free arc, without leaving it.
fn turn_within(arc: &Arc, at: &mut f64, to: f64, camshaft: usize, moves: &mut Vec<(Shaft, f64)>) {
    let by_deg = if arc.len_deg() >= CYCLE_DEG {
        wrap_cycle(to - *at)
    } else {
        // From the arc's middle, so that an end is not taken for the far one by rounding.
        let middle = 0.5 * (arc.from_deg + arc.to_deg);
        wrap_cycle(to - middle) - wrap_cycle(*at - middle)
    };
    moves.push((Shaft::Camshaft(camshaft), by_deg));
    *at = to;
}
