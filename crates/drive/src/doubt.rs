//! How much a doubt about the wheels' centres moves what is counted along the belt.
//!
//! Must not know: how large the doubt is.
//!
//! The path from the crank's reference groove to another sprocket's changes with every centre, directly
//! and through the tensioner, which takes up whatever the whole path gains. Each rate is a central
//! difference over a hundredth of a millimetre with the belt kept tight. Every centre may be off in the
//! direction that matters most, so that the rates' lengths add: the worst case, to first order. The pivot
//! or bolt of a tensioner is taken as exact.

use crate::drive::Drive;
use crate::fit::Moving;
use crate::mesh::Stance;
use crate::path::Path;
use alloc::vec;
use alloc::vec::Vec;
use glam::DVec2;

/// Half the step of the difference, mm.
const STEP_MM: f64 = 0.01;

/// For each sprocket, how far the path from the crank's reference groove to its own may be off at the
/// worst, mm for each mm that every wheel's centre may be off. 0 for the crank.
pub fn path_doubt(drive: &Drive) -> Vec<f64> {
    let sprockets = drive.sprockets().len();
    let mut doubt = vec![0.0; sprockets];
    for wheel in 0..drive.wheels().len() {
        let rates = |axis: DVec2| {
            let ahead = places_mm(drive, wheel, axis * STEP_MM);
            let back = places_mm(drive, wheel, axis * -STEP_MM);
            (0..sprockets).map(move |k| (ahead[k] - back[k]) / (2.0 * STEP_MM))
        };
        for (k, (x, y)) in rates(DVec2::X).zip(rates(DVec2::Y)).enumerate() {
            doubt[k] += DVec2::new(x, y).length();
        }
    }
    doubt
}

/// The path from the crank's reference groove to each sprocket's with one wheel shifted, the belt tight.
fn places_mm(drive: &Drive, shifted: usize, by: DVec2) -> Vec<f64> {
    let tensioner = drive.tensioner();
    let mut discs = drive.taut_stance().discs.clone();
    discs[shifted].centre += by;
    let moved = if shifted == tensioner.wheel { by } else { DVec2::ZERO };
    let home = drive.wheels()[tensioner.wheel].centre + moved;
    let belt = drive.belt();
    let mut moving = Moving { belt, tensioner, home, discs, path: Path::default() };
    let mut travel = drive.taut().travel;
    // Newton's steps: the shift is so small that the third changes nothing that a double shows.
    for _ in 0..3 {
        let Ok((length, rate)) = moving.stand_at(travel) else { break };
        travel -= (length - belt.pitch_length_mm()) / rate;
    }
    if moving.stand_at(travel).is_err() {
        return vec![0.0; drive.sprockets().len()];
    }
    let mut stance = Stance { travel, discs: moving.discs, path: moving.path, ..Stance::default() };
    stance.measure(drive.sprockets());
    let mut along = 0.0;
    let place = |run: &f64| {
        let here = along;
        along += run;
        here
    };
    stance.run_mm.iter().map(place).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::belt::Belt;
    use crate::drive::Parts;
    use crate::tensioner::{Carrier, Tensioner};
    use crate::units::Angle;
    use crate::wheel::{Face, Fixing, Mark, MarkOn, Rim, Sense, Wheel};

    /// Two equal sprockets one above the other, a smooth wheel pressing on one span's back. Moved up by
    /// one, the upper sprocket is one span further along the free side: its path grows by one.
    #[test]
    fn a_sprocket_further_off_is_further_along() {
        let belt = Belt {
            teeth: 64,
            pitch_mm: 8.0,
            thickness_mm: 5.2,
            tooth_height_mm: 3.0,
            pitch_line_differential_mm: 0.686,
        };
        let wheel = |y: f64| Wheel {
            centre: DVec2::new(0.0, y),
            rim: Rim::Toothed { teeth: 20 },
            mark: Some(Mark {
                cover: Angle::from_clock_deg(0.0),
                on: MarkOn::Groove,
                radius_mm: None,
            }),
            friction_n_m: 0.0,
            spring_torque_n_m: 0.0,
            fixing: Fixing::Keyed,
        };
        let presses = Wheel {
            centre: DVec2::new(40.0, 85.0),
            rim: Rim::Smooth { outside_radius_mm: 15.0, face: Face::Back },
            mark: None,
            friction_n_m: 0.0,
            spring_torque_n_m: 0.0,
            fixing: Fixing::Keyed,
        };
        let parts = Parts {
            belt,
            crank_turns: Sense::Clockwise,
            wheels: vec![wheel(0.0), wheel(170.0), presses],
            tensioner: Tensioner {
                wheel: 2,
                carrier: Carrier::Slide { tightening: Angle::from_clock_deg(270.0) },
                right_back: -1.0,
                fully_out: 40.0,
            },
            counted: Vec::new(),
        };
        let drive = Drive::new(parts).unwrap();
        let ahead = places_mm(&drive, 1, DVec2::new(0.0, 0.01));
        let back = places_mm(&drive, 1, DVec2::new(0.0, -0.01));
        let rate = (ahead[1] - back[1]) / 0.02;
        assert!((rate - 1.0).abs() < 1e-6, "{rate}");
        let doubt = path_doubt(&drive);
        assert_eq!(doubt[0], 0.0);
        assert!(doubt[1] >= 2.0 - 1e-6, "both ends move it: {}", doubt[1]);
    }
}
