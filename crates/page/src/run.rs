//! A run of the crank to an angle, over time: gently off, gently in.
//!
//! Must not know: clocks (it is told how much time has passed), or what it turns.

use drive::Turned;

/// Most time that one frame may bring on, s: after a pause the run goes on where it was.
const LONGEST_FRAME_S: f64 = 0.1;

/// A run under way.
#[derive(Clone, Copy, Debug)]
pub struct Run {
    from: Turned,
    to: Turned,
    lasts_s: f64,
    passed_s: f64,
}

impl Run {
    /// From one angle to another: a tooth in a fifth of a second, a turn in one, many turns in no more
    /// than nine. With `still`, at once.
    pub fn new(from: Turned, to: Turned, still: bool) -> Self {
        let turns = to.since(from).abs() / 360.0;
        let lasts_s = if still { 0.0 } else { 0.15 + 8.85 * turns / (turns + 8.0) };
        Self { from, to, lasts_s, passed_s: 0.0 }
    }

    /// Where it ends.
    pub fn to(&self) -> Turned {
        self.to
    }

    /// Where the crank is `elapsed_s` later, and whether that is the end.
    pub fn on(&mut self, elapsed_s: f64) -> (Turned, bool) {
        self.passed_s += elapsed_s.clamp(0.0, LONGEST_FRAME_S);
        let part = self.passed_s / self.lasts_s;
        // Also where the time is none, or no number.
        if part < 1.0 {
            let eased = part * part * (3.0 - 2.0 * part);
            (self.from.plus(self.to.since(self.from) * eased).tidy(), false)
        } else {
            (self.to, true)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_ends_exactly_where_it_should() {
        let to = Turned { turns: 173, deg: 0.0 };
        let mut run = Run::new(Turned::default(), to, false);
        let (halfway, done) = run.on(0.05);
        assert!(!done && halfway.since(Turned::default()) > 0.0);
        for _ in 0..100 {
            run.on(60.0);
        }
        assert_eq!(run.on(60.0), (to, true));
        assert_eq!(Run::new(to, Turned::default(), true).on(0.0), (Turned::default(), true));
    }
}
