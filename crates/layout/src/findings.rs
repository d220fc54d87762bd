//! Gathers problems while a file is checked, and puts them in the order of the file.
//!
//! Must not know what is checked. However bad the file, it keeps and tells a bounded number.

use std::collections::BTreeSet;
use std::ops::Range;

use crate::place::Lines;
use crate::problem::{Problem, ProblemKind};

/// Most problems told of one file; a last one then says how many more there are.
pub const MOST_PROBLEMS: usize = 100;

/// A problem whose place is not worked out yet.
#[derive(Debug)]
pub(crate) struct Finding {
    pub(crate) kind: ProblemKind,
    pub(crate) span: Range<usize>,
    pub(crate) key: String,
    pub(crate) part: Option<String>,
}

/// The problems found so far.
pub(crate) struct Findings<'t> {
    lines: &'t Lines<'t>,
    found: Vec<Finding>,
    more: usize,
    /// Lines with a syntax error, from 0: what was recovered from them is a guess.
    spoiled: BTreeSet<usize>,
}

impl<'t> Findings<'t> {
    pub(crate) fn new(lines: &'t Lines<'t>) -> Self {
        Self { lines, found: Vec::new(), more: 0, spoiled: BTreeSet::new() }
    }

    /// Adds a finding at `span`, worked out only when there is still room for it.
    /// One that only follows from a syntax error in the same line is dropped.
    pub(crate) fn add(
        &mut self,
        span: Range<usize>,
        finding: impl FnOnce(Range<usize>) -> Finding,
    ) {
        if self.spoiled.contains(&self.lines.line(span.start)) {
            return;
        }
        self.keep(span, finding);
    }

    /// Adds a syntax error, the first of its line: the parser stumbles on behind it. From now on
    /// nothing else is said about that line.
    pub(crate) fn add_syntax(
        &mut self,
        span: Range<usize>,
        finding: impl FnOnce(Range<usize>) -> Finding,
    ) {
        if self.spoiled.insert(self.lines.line(span.start)) {
            self.keep(span, finding);
        }
    }

    fn keep(&mut self, span: Range<usize>, finding: impl FnOnce(Range<usize>) -> Finding) {
        if self.found.len() < MOST_PROBLEMS {
            self.found.push(finding(span));
        } else {
            self.more += 1;
        }
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.found.is_empty()
    }

    pub(crate) fn iter_mut(&mut self) -> impl Iterator<Item = &mut Finding> {
        self.found.iter_mut()
    }

    /// All of them in the order of the file, with their places.
    pub(crate) fn into_problems(mut self) -> Vec<Problem> {
        self.found.sort_by_key(|finding| finding.span.start);
        let mut problems: Vec<Problem> = self
            .found
            .into_iter()
            .map(|Finding { kind, span, key, part }| Problem {
                kind,
                place: self.lines.place(&span),
                key,
                part,
            })
            .collect();
        if self.more > 0 {
            let place = problems.last().map(|last| last.place).unwrap_or_default();
            let kind = ProblemKind::More { count: self.more };
            problems.push(Problem { kind, place, key: String::new(), part: None });
        }
        problems
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_list_is_bounded_and_ordered() {
        let text = "x\n".repeat(300);
        let lines = Lines::new(&text);
        let mut findings = Findings::new(&lines);
        for line in (0..300).rev() {
            findings.add(line * 2..line * 2 + 1, |span| Finding {
                kind: ProblemKind::NoCrank,
                span,
                key: String::new(),
                part: None,
            });
        }
        let problems = findings.into_problems();
        assert_eq!(problems.len(), MOST_PROBLEMS + 1);
        assert!(problems.is_sorted_by_key(|problem| problem.place.line));
        assert_eq!(problems[MOST_PROBLEMS].kind, ProblemKind::More { count: 200 });
    }
}
