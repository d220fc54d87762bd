//! The way back: snapshots before each step, and those undone.
//!
//! Must not know: what a snapshot holds.

use std::collections::VecDeque;

/// Snapshots kept; older ones are let go.
const MOST: usize = 10_000;

/// Undo and redo over snapshots of `S`, each with the step `A` that was taken from it.
#[derive(Clone, Debug)]
pub struct History<S, A> {
    done: VecDeque<(S, A)>,
    undone: Vec<(S, A)>,
}

impl<S, A> Default for History<S, A> {
    fn default() -> Self {
        Self { done: VecDeque::new(), undone: Vec::new() }
    }
}

impl<S, A> History<S, A> {
    /// Keeps how it was before `step`. What had been undone can then no longer be redone.
    pub fn keep(&mut self, before: S, step: A) {
        self.undone.clear();
        if self.done.len() == MOST {
            self.done.pop_front();
        }
        self.done.push_back((before, step));
    }

    /// Gives `step` as what led on from the last snapshot, in place of what did: a drag is one step.
    /// Whether there was one.
    pub fn replace_step(&mut self, step: A) -> bool {
        match self.done.back_mut() {
            Some(last) if self.undone.is_empty() => {
                last.1 = step;
                true
            }
            _ => false,
        }
    }

    /// How it was before the last step.
    pub fn last(&self) -> Option<&S> {
        self.done.back().map(|(before, _)| before)
    }

    /// Lets the last step go: it came to nothing.
    pub fn forget_last(&mut self) {
        self.done.pop_back();
    }

    /// Takes the last step back: gives how it was before, and the step, in exchange for how it is.
    pub fn undo(&mut self, now: S) -> Option<(S, A)>
    where
        A: Clone,
    {
        let (before, step) = self.done.pop_back()?;
        self.undone.push((now, step.clone()));
        Some((before, step))
    }

    /// Takes the last undone step again.
    pub fn redo(&mut self, now: S) -> Option<(S, A)>
    where
        A: Clone,
    {
        let (after, step) = self.undone.pop()?;
        self.done.push_back((now, step.clone()));
        Some((after, step))
    }

    /// The step that undo would take back.
    pub fn to_undo(&self) -> Option<&A> {
        self.done.back().map(|(_, step)| step)
    }

    /// The step that redo would take again.
    pub fn to_redo(&self) -> Option<&A> {
        self.undone.last().map(|(_, step)| step)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        let mut h = History::default();
        h.keep(0, "one");
        h.keep(1, "two");
        assert_eq!(h.undo(2), Some((1, "two")));
        assert_eq!(h.undo(1), Some((0, "one")));
        assert_eq!(h.undo(0), None);
        assert_eq!(h.redo(0), Some((1, "one")));
        assert_eq!((h.to_undo(), h.to_redo()), (Some(&"one"), Some(&"two")));
        h.keep(1, "other");
        assert_eq!(h.redo(5), None, "a new step forgets what was undone");
    }
}
