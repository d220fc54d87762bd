//! The search: through which cells of the crank's turn, and which free pieces of every camshaft in
//! them, the marks can be reached.
//!
//! Must not know: single moves (`moves` makes them).

use crate::free::{FreeSet, Group, Lines, Spot};
use crate::loose::Loose;
use alloc::collections::{BTreeMap, BinaryHeap};
use alloc::rc::Rc;
use alloc::vec::Vec;
use core::cmp::Reverse;

/// A cell of the crank's turn with the free piece that each group stands in.
pub(crate) type Node = (usize, Vec<usize>);

/// Free sets by cell, worked out when first asked for.
pub(crate) struct Atlas<'a> {
    loose: &'a Loose<'a>,
    pub(crate) lines: Lines,
    pub(crate) groups: Vec<Group>,
    sets: Vec<Vec<Option<Rc<FreeSet>>>>,
    inner: BTreeMap<(usize, usize, usize), Rc<Vec<usize>>>,
}

impl<'a> Atlas<'a> {
    pub(crate) fn new(loose: &'a Loose<'a>, lines: Lines, groups: Vec<Group>) -> Self {
        let sets = groups.iter().map(|_| (0..lines.cells()).map(|_| None).collect()).collect();
        Self { loose, lines, groups, sets, inner: BTreeMap::new() }
    }

    pub(crate) fn set(&mut self, group: usize, cell: usize) -> Rc<FreeSet> {
        if let Some(set) = &self.sets[group][cell] {
            return Rc::clone(set);
        }
        let (from, to) = self.lines.cell(cell);
        let set = Rc::new(self.groups[group].free(self.loose, from, to));
        self.sets[group][cell] = Some(Rc::clone(&set));
        set
    }

    /// The node of a crank angle and the groups' places; `None` where one of them is not free.
    pub(crate) fn node(&mut self, crank_deg: f64, spots: &[Spot]) -> Option<Node> {
        let cell = self.lines.find(crank_deg);
        let mut pieces = Vec::with_capacity(spots.len());
        for (group, spot) in spots.iter().enumerate() {
            let set = self.set(group, cell);
            pieces.push(set.stretches[set.find(&self.groups[group], *spot)?].piece);
        }
        Some((cell, pieces))
    }

    /// For each piece of a group in a stretch of the crank's turn, the piece at a line beside it.
    fn inner(&mut self, group: usize, stretch: usize, line: usize) -> Rc<Vec<usize>> {
        if let Some(known) = self.inner.get(&(group, stretch, line)) {
            return Rc::clone(known);
        }
        let (small, large) = (self.set(group, stretch), self.set(group, line));
        let known = Rc::new(small.pieces_in(&self.groups[group], &large));
        self.inner.insert((group, stretch, line), Rc::clone(&known));
        known
    }

    /// The nodes that can be reached from one by turning the crank a cell on or back, the camshafts
    /// moving within their pieces.
    fn beside(&mut self, (cell, pieces): &Node) -> Vec<Node> {
        let mut found = Vec::new();
        for next in self.lines.beside(*cell) {
            let mut choices: Vec<Vec<usize>> = Vec::from([Vec::new()]);
            for (group, piece) in pieces.iter().enumerate() {
                // From a stretch to a line each piece lies in one; the other way there may be several.
                let options: Vec<usize> = if cell.is_multiple_of(2) {
                    let inner = self.inner(group, next, *cell);
                    (0..inner.len()).filter(|i| inner[*i] == *piece).collect()
                } else {
                    let on = self.inner(group, *cell, next)[*piece];
                    if on == usize::MAX { Vec::new() } else { Vec::from([on]) }
                };
                choices = choices
                    .into_iter()
                    .flat_map(|choice| {
                        options.iter().map(move |option| {
                            let mut longer = choice.clone();
                            longer.push(*option);
                            longer
                        })
                    })
                    .collect();
            }
            found.extend(choices.into_iter().map(|pieces| (next, pieces)));
        }
        found
    }

    /// The nodes from one to another with the least turning of the crank, both ends included; `None`
    /// where there is no way between them.
    pub(crate) fn route(&mut self, from: &Node, to: &Node) -> Option<Vec<Node>> {
        let mut reached: BTreeMap<Node, (u64, Option<Node>)> = BTreeMap::new();
        let mut open = BinaryHeap::new();
        reached.insert(from.clone(), (0, None));
        open.push(Reverse((0_u64, from.clone())));
        while let Some(Reverse((turned, node))) = open.pop() {
            if node == *to {
                let mut back = Vec::from([node]);
                while let Some((_, Some(before))) = back.last().and_then(|n| reached.get(n)) {
                    let before = before.clone();
                    back.push(before);
                }
                back.reverse();
                return Some(back);
            }
            if reached.get(&node).is_some_and(|(best, _)| *best < turned) {
                continue;
            }
            for next in self.beside(&node) {
                // Half a stretch to go in, half to go out; in millionths of a degree, so that order is
                // the same everywhere.
                let stretch = if next.0 % 2 == 1 { next.0 } else { node.0 };
                let (begin, end) = self.lines.cell(stretch);
                let turned = turned + (0.5e6 * (end - begin)) as u64;
                if reached.get(&next).is_none_or(|(best, _)| turned < *best) {
                    reached.insert(next.clone(), (turned, Some(node.clone())));
                    open.push(Reverse((turned, next)));
                }
            }
        }
        None
    }
}
