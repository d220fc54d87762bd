//! Path length, spans and wraps against published answers, in the units of their sources.
//!
//! Must not know: anything that the program itself worked out.
//!
//! *Seen*: read in the source. *Computed*: inputs seen, or pure geometry, and the figure computed with
//! the named library.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::{PI, TAU};
use drive::{Belt, DVec2, Disc, Flaw, Path, Scene, flaws};
use proofs::plain::{Circle, hull_boundary_mm};

/// Wheels given as (x, y, radius, sense).
fn discs(wheels: &[(f64, f64, f64, f64)]) -> Vec<Disc> {
    wheels
        .iter()
        .map(|&(x, y, radius, sense)| Disc { centre: DVec2::new(x, y), radius, sense })
        .collect()
}

fn round(wheels: &[(f64, f64, f64, f64)]) -> Path {
    Path::round(&discs(wheels)).unwrap()
}

/// An open belt on two wheels, `apart` from centre to centre.
fn open(large: f64, small: f64, apart: f64) -> Path {
    round(&[(0.0, 0.0, large, -1.0), (apart, 0.0, small, -1.0)])
}

/// A crossed belt: the second wheel turns the other way.
fn crossed(large: f64, small: f64, apart: f64) -> Path {
    let wheels = [(0.0, 0.0, large, -1.0), (apart, 0.0, small, 1.0)];
    assert_is_refused(&wheels);
    round(&wheels)
}

/// The path function computes it; a layout must not have it.
fn assert_is_refused(wheels: &[(f64, f64, f64, f64)]) {
    let discs = discs(wheels);
    let path = Path::round(&discs).unwrap();
    let outside_mm: Vec<f64> = discs.iter().map(|d| d.radius).collect();
    let belt = Belt {
        teeth: 100,
        pitch_mm: 1e-3,
        thickness_mm: 3e-6,
        tooth_height_mm: 1e-6,
        pitch_line_differential_mm: 1e-6,
    };
    let scene =
        Scene { belt: &belt, discs: &discs, outside_mm: &outside_mm, path: &path, sense: -1.0 };
    assert_eq!(flaws(&scene), [Flaw::SpansCross { a: 0, b: 1 }]);
}

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found}, not {expected} ± {tolerance}");
}

/// Shigley/Budynas solutions ch. 17 (seen): D 18, d 6, C 96 in.
#[test]
fn shigley_open_belt_in_inches() {
    let path = open(18.0 / 2.0, 6.0 / 2.0, 96.0);
    near(path.length_mm, 230.07423, 1e-5);
    near(path.wraps_rad[1], 3.016511, 1e-5);
    near(path.wraps_rad[0], 3.266674, 1e-5);
}

/// solve.club, length of the rope (seen): r 6 and 1, C 13.
#[test]
fn solve_club_rope() {
    near(open(6.0, 1.0, 13.0).length_mm, 49.9390597721275, 1e-10);
    near(open(6.0, 1.0, 13.0).length_mm, 24.0 + 12.0 * PI - 10.0 * libm::atan(12.0 / 5.0), 1e-10);
}

/// expertsmind.com 30119111 (seen): Ø 1.6 and 0.5, C 12 m. It prints 27.32.
#[test]
fn expertsmind_open_belt_in_metres() {
    let path = open(1.6 / 2.0, 0.5 / 2.0, 12.0);
    near(path.length_mm, 27.32, 0.005);
    near(path.length_mm, 27.323885, 1e-6);
}

/// algebra.com 810429 (computed): r 6 and 21, C 30.
#[test]
fn algebra_com_open_belt() {
    near(open(21.0, 6.0, 30.0).length_mm, 30.0 * libm::sqrt(3.0) + 32.0 * PI, 1e-6);
}

/// Los Angeles City College 2002 problem 7 (computed): crossed, Ø 18 and 12, C 30.
#[test]
fn los_angeles_crossed_belt() {
    let path = crossed(18.0 / 2.0, 12.0 / 2.0, 30.0);
    near(path.length_mm, 30.0 * libm::sqrt(3.0) + 20.0 * PI, 1e-6);
    near(path.length_mm, 114.793377, 1e-6);
}

/// mechdiploma.com, two pulleys 450 mm (computed from seen inputs): crossed, Ø 0.45 and 0.20,
/// C 1.95 m; at 200 rpm, 1 kN and µ 0.25 the wrap gives the slack side and the power.
#[test]
fn mechdiploma_crossed_belt_with_power() {
    let path = crossed(0.45 / 2.0, 0.20 / 2.0, 1.95);
    near(path.length_mm, 4.97531, 1e-4);
    near(path.wraps_rad[0].to_degrees(), 199.188, 1e-3);
    near(path.wraps_rad[1].to_degrees(), 199.188, 1e-3);
    let slack_side = 1000.0 / libm::exp(0.25 * path.wraps_rad[0]);
    near(slack_side, 419.32, 419.32 * 1e-4);
    let speed = PI * 0.45 * 200.0 / 60.0;
    near((1000.0 - slack_side) * speed, 2736.4, 2736.4 * 1e-4);
}

/// perplexus.info 58446 (seen): three equal wheels Ø 2, centre distances 6, 9, 13.
#[test]
fn perplexus_three_equal() {
    // The third centre from its distances 6 and 9 to two that are 13 apart.
    let x = (13.0 * 13.0 + 6.0 * 6.0 - 9.0 * 9.0) / (2.0 * 13.0);
    let y = libm::sqrt(6.0 * 6.0 - x * x);
    let path = round(&[(0.0, 0.0, 1.0, 1.0), (13.0, 0.0, 1.0, 1.0), (x, y, 1.0, 1.0)]);
    near(path.length_mm, 28.0 + TAU, 1e-9);
}

/// University of Regina, Math Central QQ.02.06 (computed), agreeing with a convex hull by shapely
/// 2.2.0: r 10 at (0, 0), r 20 at (75, 0), r 3 at (−12.5, 48.412292).
#[test]
fn regina_three_unequal() {
    let path =
        round(&[(0.0, 0.0, 10.0, 1.0), (75.0, 0.0, 20.0, 1.0), (-12.5, 48.412292, 3.0, 1.0)]);
    near(path.length_mm, 300.49929, 1e-5);
    for (found, expected) in path.wraps_rad.iter().zip([75.90808, 168.49505, 115.59687]) {
        near(found.to_degrees(), expected, 1e-5);
    }
    for (found, expected) in path.spans.iter().zip([74.33034, 98.54441, 49.50758]) {
        near(found.length, expected, 1e-5);
    }
}

/// Two independent methods (computed): inside r 20 at (±50, 0), on the back r 15 at (0, −20).
#[test]
fn back_side_idler() {
    let path = round(&[(-50.0, 0.0, 20.0, 1.0), (0.0, -20.0, 15.0, -1.0), (50.0, 0.0, 20.0, 1.0)]);
    near(path.length_mm, 330.406590, 1e-6);
    for (found, expected) in path.wraps_rad.iter().zip([198.73519, 37.47039, 198.73519]) {
        near(found.to_degrees(), expected, 1e-5);
    }
    for (found, expected) in path.spans.iter().zip([40.926764, 40.926764, 100.0]) {
        near(found.length, expected, 1e-6);
    }
}

/// Geometry (computed): in any closed belt that does not cross itself, inside wraps less back wraps
/// make 360°; in a crossed one 0°.
#[test]
fn closure() {
    let turned = |wheels: &[(f64, f64, f64, f64)]| -> f64 {
        round(wheels).wraps_rad.iter().zip(wheels).map(|(wrap, w)| w.3 * wrap).sum()
    };
    let inside = [(0.0, 0.0, 10.0, 1.0), (75.0, 0.0, 20.0, 1.0), (-12.5, 48.4, 3.0, 1.0)];
    near(turned(&inside).to_degrees(), 360.0, 1e-9);
    let back = [(-50.0, 0.0, 20.0, 1.0), (0.0, -20.0, 15.0, -1.0), (50.0, 0.0, 20.0, 1.0)];
    near(turned(&back).to_degrees(), 360.0, 1e-9);
    let crossed = [(0.0, 0.0, 9.0, 1.0), (30.0, 0.0, 6.0, -1.0)];
    near(turned(&crossed).to_degrees(), 0.0, 1e-9);
}

/// Cauchy's formula (geometry, computed): all inside and every wheel touched,
/// L = ∫₀²π maxᵢ(**c**ᵢ·**u**(θ) + ρᵢ) dθ.
#[test]
fn cauchy_on_the_three_unequal() {
    let wheels = [(0.0, 0.0, 10.0), (75.0, 0.0, 20.0), (-12.5, 48.412292, 3.0)];
    let circles =
        wheels.map(|(x, y, radius)| Circle { centre: DVec2::new(x, y), radius, sense: 1.0 });
    near(hull_boundary_mm(&circles), round(&wheels.map(|w| (w.0, w.1, w.2, 1.0))).length_mm, 1e-9);
    near(hull_boundary_mm(&circles), 300.49929, 1e-5);
}

/// docshare.tips, technical timing (seen): equal wheels, L = 2C + z·p.
#[test]
fn equal_wheels() {
    for (teeth, pitch, apart) in [(20, 9.525, 150.0), (24, 8.0, 96.5), (36, 5.08, 411.0)] {
        let belt = Belt {
            teeth: 100,
            pitch_mm: pitch,
            thickness_mm: 3.6,
            tooth_height_mm: 1.91,
            pitch_line_differential_mm: 0.381,
        };
        let r = belt.sprocket_pitch_radius_mm(teeth);
        near(open(r, r, apart).length_mm, 2.0 * apart + f64::from(teeth) * pitch, 1e-9);
    }
}

/// A trap: a 3-D printer parts page works centre distances from outside diameters, 0.8 to 1.0 mm too
/// long. MXL belt, 2.032 mm pitch, differential 0.254 mm (SDP/SI handbook D265, table 4, seen).
#[test]
fn outside_diameters_for_pitch_diameters_are_wrong() {
    // Thickness and tooth height play no part here.
    let belt = Belt {
        teeth: 150,
        pitch_mm: 2.032,
        thickness_mm: 1.0,
        tooth_height_mm: 0.5,
        pitch_line_differential_mm: 0.254,
    };
    let apart = |radii: [f64; 2]| {
        proofs::tensioning::bisect(50.0, 300.0, |c| {
            open(radii[0], radii[1], c).length_mm < belt.pitch_length_mm()
        })
    };
    // Three wheel pairs like those that such a page sells.
    for teeth in [[20, 60], [16, 64], [20, 80]] {
        let pitch_radii = teeth.map(|z| belt.sprocket_pitch_radius_mm(z));
        let outside_radii = pitch_radii.map(|r| r - belt.pitch_line_differential_mm);
        let right = apart(pitch_radii);
        let wrong = apart(outside_radii) - right;
        assert!((0.8..=1.0).contains(&wrong), "{teeth:?}: {wrong} mm too long");
    }
}

/// A trap: one homework page uses arctan for arcsin and prints 2204.857; exact 2206.114 mm, for
/// Ø 105, Ø 393, C 697.
#[test]
fn arcsine_and_not_arctangent() {
    let length = open(393.0 / 2.0, 105.0 / 2.0, 697.0).length_mm;
    near(length, 2206.114, 5e-4);
    assert!((length - 2204.857).abs() > 1.0);
}

/// A trap: one contest answer gives 12 + 20π m for three Ø 20 cm wheels; it is 12 + 0.2π.
#[test]
fn metres_and_not_centimetres() {
    let r = 0.20 / 2.0;
    // Centres 12 m all round.
    let path = round(&[(0.0, 0.0, r, 1.0), (4.0, 0.0, r, 1.0), (4.0, 3.0, r, 1.0)]);
    near(path.length_mm, 12.0 + 0.2 * PI, 1e-9);
}
