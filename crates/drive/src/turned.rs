//! How far the belt has carried a shaft, exact over any number of turns.
//!
//! Must not know: which shaft, or how many teeth it has.

/// Belt travel past a wheel since its mark was in time, in crank turns and crank degrees, forward
/// positive.
///
/// Crank degrees compare shafts: on a belt that the crank drives, one tooth is the same number of
/// crank degrees at every sprocket. Whole turns are kept apart so that nothing is lost over any
/// number of them; `deg` need not lie within one turn, since a shaft is always set relative to the
/// one that dragged it.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Turned {
    /// Whole crank turns.
    pub turns: i64,
    /// Crank degrees beyond these.
    pub deg: f64,
}

impl Turned {
    /// `crank_deg` split into whole turns and a rest in [0, 360). Must be finite and below 2⁵³ turns.
    pub fn from_deg(crank_deg: f64) -> Self {
        // fmod is exact; a rest just below zero may round up to a whole turn when 360 is added.
        let rest = libm::fmod(crank_deg, 360.0);
        let deg = if rest < 0.0 { rest + 360.0 } else { rest };
        let deg = if deg < 360.0 { deg } else { 0.0 };
        Self { turns: libm::round((crank_deg - deg) / 360.0) as i64, deg }
    }

    /// In crank degrees all told; loses places beyond some millions of turns.
    pub fn total_deg(self) -> f64 {
        self.turns as f64 * 360.0 + self.deg
    }

    /// This and `deg` more (less where negative).
    pub fn plus(self, deg: f64) -> Self {
        Self { turns: self.turns, deg: self.deg + deg }
    }

    /// This with its degrees brought into [0, 360).
    pub fn tidy(self) -> Self {
        let rest = Self::from_deg(self.deg);
        Self { turns: self.turns.saturating_add(rest.turns), deg: rest.deg }
    }

    /// Crank degrees from `earlier` to this, forward positive.
    pub fn since(self, earlier: Self) -> f64 {
        (self.turns.saturating_sub(earlier.turns)) as f64 * 360.0 + (self.deg - earlier.deg)
    }

    /// The one further forward.
    pub fn later(self, other: Self) -> Self {
        if other.since(self) > 0.0 { other } else { self }
    }

    /// The one further back.
    pub fn earlier(self, other: Self) -> Self {
        if other.since(self) < 0.0 { other } else { self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn degrees_split_and_join() {
        for deg in [0.0, 359.999, 360.0, 720.5, -0.25, -360.0, -1e-14, 1e12 + 0.5, 7.5] {
            let t = Turned::from_deg(deg);
            assert!((0.0..360.0).contains(&t.deg), "{deg}: {t:?}");
            assert!((t.total_deg() - deg).abs() <= 1e-12 * deg.abs().max(1.0), "{deg}: {t:?}");
        }
        assert_eq!(Turned::from_deg(-90.0), Turned { turns: -1, deg: 270.0 });
    }

    #[test]
    fn turns_do_not_blur_degrees() {
        let far = Turned { turns: 1 << 40, deg: 0.1 };
        assert_eq!(far.plus(0.2).since(far), (0.1 + 0.2) - 0.1);
        assert_eq!(far.later(far.plus(-1.0)), far);
        assert_eq!(far.earlier(far.plus(-1.0)), far.plus(-1.0));
    }
}
