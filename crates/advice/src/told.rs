//! A tension answer as a person may be told it: without what rests on made-up figures, or on a friction that
//! nobody entered.
//!
//! Must not know: words.

use crate::tension::{Friction, SeizedWheel, Tension, WheelTension};

impl Tension {
    /// The answer with what nobody knows left out; as JSON it stays whole, and says `provisional`.
    #[must_use]
    pub fn told(&self) -> Self {
        let mut told = self.clone();
        if told.friction == Friction::NotEntered {
            if told.state == "turning" {
                told.crank_moment_n_m = None;
            }
            for mark in &mut told.pin_moves {
                (mark.turning_deg, mark.turning_teeth) = (None, None);
            }
        }
        if told.provisional {
            told.without_made_up();
        }
        told
    }

    /// Of a provisional layout tooth counts are known, so how often sprockets and belt go round; neither spring
    /// nor path nor any smooth wheel.
    fn without_made_up(&mut self) {
        if self.resting_from == "spring" {
            self.resting_tension_n = None;
        }
        self.gives_way = false;
        self.crank_moment_n_m = None;
        self.spans.clear();
        self.pin_moves.clear();
        (self.tensioner.moves, self.tensioner.gives_way_n_m) = (None, None);
        (self.belt.stretch_mm, self.belt.centrifugal_n) = (None, None);
        for wheel in &mut self.wheels {
            let turns_per_km = wheel.turns_per_km.filter(|_| wheel.in_mesh_factor.is_some());
            let turns_per_hour = wheel.turns_per_hour.filter(|_| wheel.in_mesh_factor.is_some());
            *wheel = WheelTension {
                bearing_load_n: None,
                bearing_towards_clock_deg: None,
                in_mesh_factor: None,
                turns_per_km,
                turns_per_hour,
                ..wheel.clone()
            };
        }
        if let Some(seized) = &mut self.seized {
            *seized = SeizedWheel {
                friction_n: None,
                heat_w: None,
                meets_n: None,
                leaves_n: None,
                crank_n_m: None,
                ..seized.clone()
            };
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::{Friction, TensionAsked, tension};
    use layout::Plan;

    const SHIPPED: &str = include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

    #[test]
    fn nothing_that_rests_on_a_made_up_spring_or_centre_is_told() {
        let text = SHIPPED.replacen("format = 1", "format = 1\nprovisional = true", 1);
        let plan = Plan::open(&text).unwrap();
        let pump = plan.wheel_index("water_pump");
        for measured_n in [None, Some(180.0)] {
            let asked = TensionAsked { seized: pump, measured_n, ..TensionAsked::default() };
            for asked in [asked.by_hand(), asked] {
                let answer = tension(&plan, &asked);
                assert!(answer.provisional && answer.resting_tension_n.is_some());
                let told = answer.told();
                assert_eq!(told.resting_tension_n, measured_n);
                assert!(told.spans.is_empty() && told.pin_moves.is_empty());
                assert!(told.crank_moment_n_m.is_none() && told.belt.stretch_mm.is_none());
                assert!(told.tensioner.gives_way_n_m.is_none());
                let seized = told.seized.unwrap();
                assert!(seized.friction_n.is_none() && seized.heat_w.is_none());
                for (wheel, values) in told.wheels.iter().zip(&plan.layout.wheels) {
                    assert!(wheel.bearing_load_n.is_none());
                    assert_eq!(wheel.turns_per_km.is_some(), values.teeth().is_some());
                }
            }
        }
        let whole = tension(&Plan::open(SHIPPED).unwrap(), &TensionAsked::default());
        assert_eq!(whole.told(), whole);
    }

    #[test]
    fn no_friction_entered_is_no_friction_known() {
        let of = |keep: &[&str]| {
            let kept = |line: &&str| {
                !line.starts_with("friction_n_m") || keep.iter().any(|k| line.contains(k))
            };
            let text: Vec<&str> = SHIPPED.lines().filter(kept).collect();
            tension(&Plan::open(&text.join("\n")).unwrap(), &TensionAsked::default().by_hand())
        };
        let none = of(&[]);
        assert_eq!(none.friction, Friction::NotEntered);
        let told = none.told();
        assert!(told.crank_moment_n_m.is_none());
        assert!(told.pin_moves.iter().all(|m| m.turning_deg.is_none()));
        // The camshafts' alone, and the crank's alone.
        assert_eq!(of(&["2.5"]).friction, Friction::Part);
        assert_eq!(of(&["8.0"]).friction, Friction::Part);
        assert_eq!(of(&["2.5", "8.0"]).friction, Friction::Entered);
    }
}
