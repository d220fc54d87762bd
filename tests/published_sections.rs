//! Belt pitches, sections, diameters and standard lengths against published tables.
//!
//! Must not know: anything that the program itself worked out.

use core::f64::consts::PI;
use drive::{Belt, DVec2, Face, Rim, Wheel};

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found}, not {expected} ± {tolerance}");
}

/// A belt from total thickness, tooth height and differential.
fn belt(pitch_mm: f64, teeth: u32, section: [f64; 3]) -> Belt {
    Belt {
        teeth,
        pitch_mm,
        thickness_mm: section[0],
        tooth_height_mm: section[1],
        pitch_line_differential_mm: section[2],
    }
}

fn sprocket(teeth: u32) -> Wheel {
    Wheel {
        centre: DVec2::ZERO,
        rim: Rim::Toothed { teeth },
        mark: None,
        friction_n_m: 0.0,
        spring_torque_n_m: 0.0,
        fixing: drive::Fixing::Keyed,
    }
}

fn smooth(outside_radius_mm: f64, face: Face) -> Wheel {
    Wheel { rim: Rim::Smooth { outside_radius_mm, face }, ..sprocket(1) }
}

/// Pitches of ISO 5296 classes MXL, XL, L, H, XH, XXH, as listed by PTI glossary "ISO 5296" (seen);
/// pitch diameter p·z/π: SDP/SI D265 (seen).
#[test]
fn pitch_diameter_of_every_inch_class() {
    for pitch in [2.032, 5.08, 9.525, 12.7, 22.225, 31.75] {
        let belt = belt(pitch, 100, [0.3 * pitch, 0.2 * pitch, 0.05 * pitch]);
        for z in [10, 24, 48, 120] {
            let diameter = 2.0 * sprocket(z).pitch_radius_mm(&belt);
            near(diameter, pitch * f64::from(z) / PI, 1e-9);
        }
    }
}

/// Differentials: MXL, XL 0.254 and L 0.381 mm (SDP/SI Handbook D265, table 4, seen). The sprocket's
/// metal ends one differential inside its pitch circle.
#[test]
fn outside_diameter_is_two_differentials_less() {
    for (pitch, differential) in [(2.032, 0.254), (5.08, 0.254), (9.525, 0.381)] {
        let belt = belt(pitch, 100, [0.4 * pitch, 0.2 * pitch, differential]);
        let wheel = sprocket(20);
        let less = 2.0 * (wheel.pitch_radius_mm(&belt) - wheel.outside_radius_mm(&belt));
        near(less, 2.0 * differential, 0.001);
    }
}

/// Pitch and outside diameters, from p·z/π and the differential (computed): L section with 0.381 mm;
/// 8 mm pitch with 0.686 mm.
#[test]
fn pitch_and_outside_diameters() {
    let l = belt(9.525, 33, [3.6, 1.91, 0.381]);
    let eight = belt(8.0, 120, [6.0, 3.38, 0.686]);
    for (belt, z, pitch_diameter, outside, tolerance) in [
        (&l, 20, 60.638, 59.876, 0.005),
        (&l, 24, 72.766, 72.004, 0.005),
        (&l, 40, 121.276, 120.514, 0.005),
        (&l, 48, 145.531, 144.769, 0.005),
        (&eight, 22, 56.023, 54.651, 0.01),
        (&eight, 24, 61.116, 59.744, 0.01),
        (&eight, 48, 122.231, 120.859, 0.01),
    ] {
        near(2.0 * sprocket(z).pitch_radius_mm(belt), pitch_diameter, tolerance);
        near(2.0 * sprocket(z).outside_radius_mm(belt), outside, tolerance);
    }
}

/// Sections H3M, H5M, H8M, H14M, ISO 13050 names (transbelting.com 3M–20M page, seen): total
/// thickness, tooth height, differential. A smooth wheel's pitch line stands off its metal by tooth
/// and differential on the toothed face, by what is left of the thickness on the back.
#[test]
fn a_smooth_wheel_stands_off_by_the_section() {
    for (pitch, section) in [
        (3.0, [2.4, 1.21, 0.381]),
        (5.0, [3.8, 2.08, 0.572]),
        (8.0, [6.0, 3.38, 0.686]),
        (14.0, [10.0, 6.02, 1.397]),
    ] {
        let belt = belt(pitch, 100, section);
        let toothed = smooth(30.0, Face::Toothed).pitch_radius_mm(&belt) - 30.0;
        let back = smooth(30.0, Face::Back).pitch_radius_mm(&belt) - 30.0;
        near(toothed, section[1] + section[2], 1e-12);
        near(toothed + back, section[0], 1e-12);
        assert!(back > 0.0 && back < toothed);
    }
}

/// Standard lengths, exact: 124L, 150L, 187L, 210L, 225L have 33, 40, 50, 56, 60 teeth
/// (engineersedge.com, synchronous timing belt lengths, seen). The number is the length in tenths of
/// an inch, any rest left off or rounded; a tooth is 3.75 of them, so no other count would fit.
#[test]
fn inch_lengths() {
    for (tenths, teeth) in [(124.0, 33), (150.0, 40), (187.0, 50), (210.0, 56), (225.0, 60)] {
        let length_mm = belt(9.525, teeth, [3.6, 1.91, 0.381]).pitch_length_mm();
        near(length_mm / 2.54, tenths, 0.5 + 1e-9);
    }
}

/// 8 mm lengths 960, 1064, 1200, 1256 mm have 120, 133, 150, 157 teeth: a maker's rubber timing belt
/// range list (seen).
#[test]
fn metric_lengths() {
    for (length_mm, teeth) in [(960.0, 120), (1064.0, 133), (1200.0, 150), (1256.0, 157)] {
        assert_eq!(belt(8.0, teeth, [6.0, 3.38, 0.686]).pitch_length_mm(), length_mm);
    }
}

/// Automotive sections (pioneerdrivebelt.com automotive timing belts table, seen; a maker's table:
/// starting values only): tooth height and total, with the differential about 0.686 mm (ISO
/// 9010/9011, from memory, unverified). Every one leaves a back of plausible thickness to run on.
#[test]
fn automotive_sections_have_a_back() {
    let z = [[4.10, 1.91], [4.5, 2.92], [5.50, 3.50], [5.7, 3.20], [5.7, 3.53]];
    let y = [[5.20, 3.04], [5.2, 3.04], [5.2, 2.95], [5.20, 3.02]];
    let sections = z.map(|s| (9.525, s)).into_iter().chain(y.map(|s| (8.0, s)));
    for (pitch, [total, tooth]) in sections {
        let belt = belt(pitch, 100, [total, tooth, 0.686]);
        near(belt.back_mm() + belt.tips_mm(), total, 1e-12);
        assert!(belt.back_mm() > 0.5, "{total} {tooth}");
    }
}
