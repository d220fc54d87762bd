//! Camshaft sprockets that do not turn their shaft once for two turns of the crank.
//!
//! Must not know: languages. A four-stroke is meant (common practice, no source): where an engine is another,
//! or the first wheel sits on an intermediate shaft, it may be right all the same, so this is no flaw.

use layout::{Layout, Role, camshaft_teeth};
use serde::Serialize;

/// A camshaft sprocket whose teeth are not twice the crank's.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CamshaftTeeth {
    /// The wheel.
    pub wheel: String,
    /// Teeth that it has.
    pub teeth: u32,
    /// Teeth that the crank has.
    pub crank_teeth: u32,
    /// Twice as many.
    pub usual_teeth: u32,
}

/// All of a layout, in belt order.
pub fn camshafts_out(layout: &Layout) -> Vec<CamshaftTeeth> {
    camshafts_out_with(layout, |wheel| layout.wheels[wheel].teeth())
}

/// The same with other teeth, by wheel.
pub(crate) fn camshafts_out_with(
    layout: &Layout,
    teeth_of: impl Fn(usize) -> Option<u32>,
) -> Vec<CamshaftTeeth> {
    let Some(crank_teeth) = teeth_of(0) else { return Vec::new() };
    let usual_teeth = camshaft_teeth(crank_teeth);
    let wheels = layout.wheels.iter().enumerate().filter(|(_, w)| w.role == Role::Camshaft);
    wheels
        .filter_map(|(i, w)| teeth_of(i).map(|teeth| (w.id.clone(), teeth)))
        .filter(|(_, teeth)| *teeth != usual_teeth)
        .map(|(wheel, teeth)| CamshaftTeeth { wheel, teeth, crank_teeth, usual_teeth })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use layout::Plan;

    const SHIPPED: &str = include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

    #[test]
    fn a_camshaft_has_twice_the_cranks_teeth() {
        let of = |text: &str| camshafts_out(&Plan::open(text).unwrap().layout);
        assert_eq!(of(SHIPPED), []);
        let out = CamshaftTeeth {
            wheel: "cam_left".to_owned(),
            teeth: 47,
            crank_teeth: 24,
            usual_teeth: 48,
        };
        assert_eq!(of(&SHIPPED.replacen("teeth = 48", "teeth = 47", 1)), [out]);
        // A balance shaft turns otherwise, and nobody minds.
        let balance = include_str!("../../../layouts/balance-shaft-belt.toml");
        assert_eq!(of(balance), []);
    }
}
