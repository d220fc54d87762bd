//! What every wheel goes through until a belt is due, and what one that seizes would do to the belt.
//!
//! Must not know: words, or where any shaft stands.

use crate::tension::{Assumed, SeizedWheel, TensionAsked, tension};
use layout::Plan;

/// The distance after which a belt is taken to be due, km. An assumption, no source: what counts is in the
/// vehicle's own service information.
pub const DUE_KM: f64 = 100_000.0;

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
    pub assumed: Assumed,
}

/// A wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelWearing {
    /// What its bearing carries at rest, N; `None` where the tension is not known.
    pub bearing_load_n: Option<f64>,
    /// How often it turns in a kilometre; `None` where its size is made up.
    pub turns_per_km: Option<[f64; 2]>,
    /// How often it has turned when the belt is due.
    pub turns_when_due: Option<[f64; 2]>,
    /// What becomes of the belt if it no longer turns.
    pub seized: Option<SeizedWheel>,
}

/// What a plan's wheels go through, by the usual assumptions.
pub fn wearing(plan: &Plan) -> Wearing {
    let answer = tension(plan, &TensionAsked::default()).told();
    let until_due = |per_km: [f64; 2]| per_km.map(|per_km| per_km * DUE_KM);
    let wheels = answer.wheels.iter().enumerate().map(|(i, wheel)| {
        let asked = TensionAsked { seized: Some(i), ..TensionAsked::default() };
        WheelWearing {
            bearing_load_n: wheel.bearing_load_n,
            turns_per_km: wheel.turns_per_km,
            turns_when_due: wheel.turns_per_km.map(until_due),
            seized: tension(plan, &asked).told().seized,
        }
    });
    Wearing {
        wheels: wheels.collect(),
        tooth_meets_when_due: until_due(answer.belt.tooth_meets_per_km),
        provisional: answer.provisional,
        assumed: answer.assumed,
    }
}
