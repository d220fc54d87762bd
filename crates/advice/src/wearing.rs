//! What every wheel goes through until a belt is due, and what one that seizes would do to the belt.
//!
//! Must not know: words, or where any shaft stands.

use crate::tension::{
    Assumed, CRANK_TURNS_PER_KM, FRICTION, RPM, SeizedWheel, TensionAsked, tension,
};
use layout::Plan;

/// The distance after which a belt is taken to be due, km. An assumption, no source: what counts is in the
/// vehicle's own service information.
pub const DUE_KM: f64 = 100_000.0;

/// Something assumed beside the layout, a range that somebody may change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Assumption {
    /// Crank turns in a kilometre.
    CrankTurnsPerKm,
    /// When the belt is due, km.
    DueKm,
    /// Crank speed, rpm.
    Rpm,
    /// Coefficient of friction of the belt's back.
    FrictionBack,
    /// The same of its toothed face.
    FrictionToothed,
}

impl Assumption {
    /// All, in the order in which they are told.
    pub const ALL: [Self; 5] =
        [Self::CrankTurnsPerKm, Self::DueKm, Self::Rpm, Self::FrictionBack, Self::FrictionToothed];

    /// The least and greatest that it may be.
    pub const fn bounds(self) -> [f64; 2] {
        match self {
            Self::CrankTurnsPerKm => [1.0, 1.0e6],
            Self::DueKm => [1.0, 1.0e6],
            Self::Rpm => [1.0, 20_000.0],
            Self::FrictionBack | Self::FrictionToothed => [0.0, 2.0],
        }
    }

    /// What is assumed where nobody says.
    pub const fn usual(self) -> [f64; 2] {
        match self {
            Self::CrankTurnsPerKm => CRANK_TURNS_PER_KM,
            Self::DueKm => [DUE_KM; 2],
            Self::Rpm => RPM,
            Self::FrictionBack | Self::FrictionToothed => FRICTION,
        }
    }

    /// Whether it may be so: within its bounds, the lower end first.
    pub fn allows(self, [low, high]: [f64; 2]) -> bool {
        let [least, most] = self.bounds();
        least <= low && low <= high && high <= most
    }
}

/// Every assumption, as it is usual or as somebody has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assumptions([[f64; 2]; Assumption::ALL.len()]);

impl Default for Assumptions {
    fn default() -> Self {
        Self(Assumption::ALL.map(Assumption::usual))
    }
}

impl Assumptions {
    /// One of them.
    pub const fn of(&self, assumption: Assumption) -> [f64; 2] {
        self.0[assumption as usize]
    }

    /// Takes a range for one of them, if it may be so. Whether it may.
    pub fn take(&mut self, assumption: Assumption, range: [f64; 2]) -> bool {
        let allowed = assumption.allows(range);
        if allowed {
            self.0[assumption as usize] = range;
        }
        allowed
    }
}

/// What wheels and belt go through. Ranges are [low, high].
#[derive(Clone, Debug, PartialEq)]
pub struct Wearing {
    /// The wheels, in belt order.
    pub wheels: Vec<WheelWearing>,
    /// How often each of the belt's teeth runs into a groove until it is due.
    pub tooth_meets_when_due: [f64; 2],
    /// Whether the layout is provisional, so that what rests on made-up figures is left out.
    pub provisional: bool,
    /// What all that rests on.
    pub assumptions: Assumptions,
    /// The same as how tight it is tells it.
    pub assumed: Assumed,
}

/// A wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelWearing {
    /// What its bearing carries at rest, N; `None` where the tension is not known.
    pub bearing_load_n: Option<f64>,
    /// How often it turns in a kilometre; `None` where its size is made up.
    pub turns_per_km: Option<[f64; 2]>,
    /// How often it turns in an hour; likewise.
    pub turns_per_hour: Option<[f64; 2]>,
    /// How often it has turned when the belt is due.
    pub turns_when_due: Option<[f64; 2]>,
    /// What becomes of the belt if it no longer turns.
    pub seized: Option<SeizedWheel>,
}

/// What a plan's wheels go through, by these assumptions.
pub fn wearing(plan: &Plan, assumptions: &Assumptions) -> Wearing {
    let asked = TensionAsked {
        speeds_rpm: assumptions.of(Assumption::Rpm),
        crank_turns_per_km: Some(assumptions.of(Assumption::CrankTurnsPerKm)),
        friction_back: assumptions.of(Assumption::FrictionBack),
        friction_toothed: assumptions.of(Assumption::FrictionToothed),
        ..TensionAsked::default()
    };
    let answer = tension(plan, &asked).told();
    let due_km = assumptions.of(Assumption::DueKm);
    let until_due = |per_km: [f64; 2]| [per_km[0] * due_km[0], per_km[1] * due_km[1]];
    let wheels = answer.wheels.iter().enumerate().map(|(i, wheel)| {
        let asked = TensionAsked { seized: Some(i), ..asked.clone() };
        WheelWearing {
            bearing_load_n: wheel.bearing_load_n,
            turns_per_km: wheel.turns_per_km,
            turns_per_hour: wheel.turns_per_hour,
            turns_when_due: wheel.turns_per_km.map(until_due),
            seized: tension(plan, &asked).told().seized,
        }
    });
    Wearing {
        wheels: wheels.collect(),
        tooth_meets_when_due: until_due(answer.belt.tooth_meets_per_km),
        provisional: answer.provisional,
        assumptions: *assumptions,
        assumed: answer.assumed,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIX: &str = include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

    /// What is assumed twice as much comes to twice as much, and only what rests on it.
    #[test]
    fn figures_follow_what_is_assumed() {
        let plan = Plan::open(SIX).unwrap();
        let usual = wearing(&plan, &Assumptions::default());
        let with = |assumption: Assumption| {
            let mut all = Assumptions::default();
            assert!(all.take(assumption, assumption.usual().map(|end| 2.0 * end)));
            wearing(&plan, &all)
        };
        for (i, wheel) in usual.wheels.iter().enumerate() {
            let twice = |range: Option<[f64; 2]>| range.map(|range| range.map(|end| 2.0 * end));
            let km = with(Assumption::CrankTurnsPerKm).wheels.swap_remove(i);
            assert_eq!(km.turns_per_km, twice(wheel.turns_per_km));
            assert_eq!(km.turns_when_due, twice(wheel.turns_when_due));
            let due = with(Assumption::DueKm).wheels.swap_remove(i);
            assert_eq!(due.turns_per_km, wheel.turns_per_km);
            assert_eq!(due.turns_when_due, twice(wheel.turns_when_due));
            let rpm = with(Assumption::Rpm).wheels.swap_remove(i);
            assert_eq!(rpm.turns_per_hour, twice(wheel.turns_per_hour));
            assert_eq!(rpm.bearing_load_n, wheel.bearing_load_n);
            let heat = |wheel: &WheelWearing| wheel.seized.as_ref()?.heat_w;
            assert_eq!(heat(&rpm), twice(heat(wheel)));
        }
    }

    #[test]
    fn what_cannot_be_is_not_taken() {
        let mut all = Assumptions::default();
        for range in [[3.0, 0.2], [-0.1, 0.5], [0.3, 2.5], [f64::NAN, 0.5], [0.3, f64::NAN]] {
            assert!(!all.take(Assumption::FrictionBack, range), "{range:?}");
        }
        assert_eq!(all, Assumptions::default());
        assert!(all.take(Assumption::FrictionBack, [0.3, 0.3]));
        assert_eq!(all.of(Assumption::FrictionBack), [0.3, 0.3]);
    }
}
