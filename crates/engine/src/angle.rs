//! Angles that come round again: the crank after a turn, a camshaft after two of them.
//!
//! Must not know: what turns.

/// Crank degrees in one turn of the crank.
pub const TURN_DEG: f64 = 360.0;

/// Crank degrees in one working cycle, which is one turn of a camshaft.
pub const CYCLE_DEG: f64 = 720.0;

/// `deg` brought into (−360, 360] by whole cycles. Not finite stays so.
pub fn wrap_cycle(deg: f64) -> f64 {
    deg - libm::ceil(deg / CYCLE_DEG - 0.5) * CYCLE_DEG
}

/// `deg` brought into (−180, 180] by whole turns of the crank. Not finite stays so.
pub fn wrap_turn(deg: f64) -> f64 {
    deg - libm::ceil(deg / TURN_DEG - 0.5) * TURN_DEG
}

/// `deg` brought into [0, `period`) by whole periods.
pub(crate) fn within(deg: f64, period: f64) -> f64 {
    let rest = libm::fmod(deg, period);
    // A rest just below zero may round up to the whole period.
    let rest = if rest < 0.0 { rest + period } else { rest };
    if rest < period { rest } else { 0.0 }
}

/// A stretch of angle, degrees; `to_deg` is not before `from_deg` and may lie beyond the end of the
/// cycle or turn in which the arc begins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// Where it begins.
    pub from_deg: f64,
    /// Where it ends.
    pub to_deg: f64,
}

impl Arc {
    /// How long it is, degrees, not below zero.
    pub fn len_deg(&self) -> f64 {
        self.to_deg - self.from_deg
    }

    /// Whether an angle lies in it, ends included, on a circle of `period` degrees.
    pub fn contains(&self, deg: f64, period: f64) -> bool {
        self.len_deg() >= period || within(deg - self.from_deg, period) <= self.len_deg()
    }

    /// What two arcs have in common on a circle of `period` degrees: up to two arcs.
    pub(crate) fn common(&self, other: &Self, period: f64) -> [Option<Self>; 2] {
        if self.len_deg() >= period {
            return [Some(*other), None];
        }
        if other.len_deg() >= period {
            return [Some(*self), None];
        }
        let ahead = within(other.from_deg - self.from_deg, period);
        let len = self.len_deg();
        let piece = |start: f64, len: f64| Some(Self { from_deg: start, to_deg: start + len });
        let first = (ahead <= len)
            .then(|| piece(self.from_deg + ahead, other.len_deg().min(len - ahead)))
            .flatten();
        let round = ahead + other.len_deg() - period;
        let second = (round >= 0.0).then(|| piece(self.from_deg, round.min(len))).flatten();
        [first, second]
    }
}

/// What is left of a circle of `period` degrees when open arcs are taken out of it: arcs of some
/// length, none touching another, each beginning in [0, 2·`period`). Nothing taken out leaves one arc of
/// a whole period from 0.
pub(crate) fn left_over(taken: &mut [Arc], period: f64) -> alloc::vec::Vec<Arc> {
    let mut left = alloc::vec::Vec::new();
    for arc in taken.iter_mut() {
        let from_deg = within(arc.from_deg, period);
        *arc = Arc { from_deg, to_deg: from_deg + arc.len_deg() };
    }
    taken.sort_by(|a, b| a.from_deg.total_cmp(&b.from_deg));
    let Some(first) = taken.first().map(|arc| arc.from_deg) else {
        left.push(Arc { from_deg: 0.0, to_deg: period });
        return left;
    };
    // An arc that runs on past the end of the circle takes from its beginning too.
    let mut upto = taken.iter().fold(first, |upto, arc| upto.max(arc.to_deg - period));
    for arc in taken.iter() {
        if arc.from_deg > upto {
            left.push(Arc { from_deg: upto, to_deg: arc.from_deg });
        }
        upto = upto.max(arc.to_deg);
    }
    if first + period > upto {
        left.push(Arc { from_deg: upto, to_deg: first + period });
    }
    left
}

/// Angles that something takes from a circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Taken {
    Nothing,
    Open(Arc),
    All,
}

impl Taken {
    /// As an arc of a circle of `period`.
    pub(crate) fn arc(self, period: f64) -> Option<Arc> {
        match self {
            Self::Nothing => None,
            Self::Open(arc) => Some(arc),
            Self::All => Some(Arc { from_deg: 0.0, to_deg: period }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::vec::Vec;

    fn arc(from_deg: f64, to_deg: f64) -> Arc {
        Arc { from_deg, to_deg }
    }

    #[test]
    fn half_a_cycle_is_kept_positive() {
        assert_eq!(wrap_cycle(-360.0), 360.0);
        assert_eq!(wrap_cycle(361.0), -359.0);
        assert_eq!(wrap_turn(-180.0), 180.0);
        assert_eq!(wrap_turn(725.0), 5.0);
        assert_eq!(within(-1e-300, 720.0), 0.0);
        assert_eq!(within(-90.0, 360.0), 270.0);
    }

    #[test]
    fn common_parts_on_a_circle() {
        let pieces =
            |a: Arc, b: Arc| -> Vec<Arc> { a.common(&b, 720.0).into_iter().flatten().collect() };
        assert_eq!(pieces(arc(10.0, 50.0), arc(40.0, 90.0)), [arc(40.0, 50.0)]);
        assert_eq!(pieces(arc(10.0, 50.0), arc(60.0, 90.0)), []);
        assert_eq!(pieces(arc(700.0, 750.0), arc(10.0, 90.0)), [arc(730.0, 750.0)]);
        // Two long arcs meet twice.
        assert_eq!(pieces(arc(0.0, 500.0), arc(400.0, 800.0)), [arc(400.0, 500.0), arc(0.0, 80.0)]);
        assert_eq!(pieces(arc(0.0, 720.0), arc(5.0, 6.0)), [arc(5.0, 6.0)]);
    }

    #[test]
    fn what_is_left_of_a_circle() {
        assert_eq!(left_over(&mut [], 720.0), [arc(0.0, 720.0)]);
        assert_eq!(left_over(&mut [arc(100.0, 200.0)], 720.0), [arc(200.0, 820.0)]);
        assert_eq!(
            left_over(&mut [arc(-20.0, 30.0), arc(100.0, 200.0), arc(150.0, 160.0)], 720.0),
            [arc(200.0, 700.0), arc(750.0, 820.0)]
        );
        assert_eq!(left_over(&mut [arc(0.0, 400.0), arc(390.0, 730.0)], 720.0), []);
        assert_eq!(left_over(&mut [arc(5.0, 725.0)], 720.0), []);
    }
}
