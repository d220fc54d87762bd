//! Where free shafts stand, what can meet, and how far a shaft may turn before it does.
//!
//! Must not know: engines.

use crate::angle::{Taken, within};
use crate::events::Kind;
use alloc::vec::Vec;

/// Where the shafts stand, each by crank degrees past its own mark, forward positive. The crank comes
/// round every 360 of them, a camshaft every 720. All finite.
#[derive(Clone, Debug, PartialEq)]
pub struct Stand {
    /// The crank.
    pub crank_deg: f64,
    /// The camshafts in the engine's order; one that is not given stands on its mark.
    pub camshafts_deg: Vec<f64>,
}

/// A shaft that can be turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shaft {
    /// The crank.
    Crank,
    /// A camshaft by index.
    Camshaft(usize),
}

/// Two parts that can meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meeting {
    /// A valve and its piston.
    Piston {
        /// The cylinder.
        cylinder: usize,
        /// The valve's camshaft.
        camshaft: usize,
        /// Which valve.
        valve: Kind,
    },
    /// Both valves of a cylinder.
    Valves {
        /// The cylinder.
        cylinder: usize,
        /// The intake's camshaft.
        intake: usize,
        /// The exhaust's camshaft.
        exhaust: usize,
    },
}

/// The two parts nearest to each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Near {
    /// The gap between them, mm: along the bore for a piston and a valve, for two valves the sum of
    /// lifts that is left. Below zero they would be in the same place.
    pub gap_mm: f64,
    /// Which.
    pub parts: Meeting,
}

/// Where a shaft that is turned comes up against something.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stop {
    /// After so many crank degrees, not below zero.
    pub after_deg: f64,
    /// What meets there.
    pub parts: Meeting,
}

/// How far a shaft may turn each way; `None` where it may turn all the way round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Freedom {
    /// Against its running direction.
    pub back: Option<Stop>,
    /// In its running direction.
    pub forward: Option<Stop>,
}

impl Stand {
    /// Every shaft on its mark.
    pub fn on_marks() -> Self {
        Self { crank_deg: 0.0, camshafts_deg: Vec::new() }
    }

    /// Where one camshaft stands.
    pub fn camshaft_deg(&self, camshaft: usize) -> f64 {
        self.camshafts_deg.get(camshaft).copied().unwrap_or(0.0)
    }
}

impl Freedom {
    pub(crate) fn narrow(&mut self, taken: Taken, at_deg: f64, period: f64, parts: Meeting) {
        let (back, forward) = match taken {
            Taken::Nothing => return,
            Taken::All => (0.0, 0.0),
            Taken::Open(arc) => {
                let past = within(at_deg - arc.from_deg, period);
                if past > 0.0 && past < arc.len_deg() {
                    (0.0, 0.0)
                } else {
                    (within(past - arc.len_deg(), period), within(-past, period))
                }
            }
        };
        for (side, after_deg) in [(&mut self.back, back), (&mut self.forward, forward)] {
            if side.is_none_or(|stop| after_deg < stop.after_deg) {
                *side = Some(Stop { after_deg, parts });
            }
        }
    }
}
