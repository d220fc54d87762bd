//! Shafts and teeth against published figures: ratios, degrees a tooth, when marks come back.
//!
//! Must not know: anything that the program itself worked out.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::{PI, TAU};
use drive::{
    Angle, Arc, Belt, Carrier, Cord, DVec2, Drive, Face, Mark, MarkOn, Parts, Pose, Rim, Sense,
    Tensioner, Turned, Wheel, all_return_after_crank_turns, returns_after_crank_turns,
    stripe_drift_teeth, stripe_returns_after_crank_turns,
};

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found}, not {expected} ± {tolerance}");
}

/// Crank and one shaft with marks at twelve, an idler that slides out on the return, 8 mm pitch.
fn drive(crank: u32, shaft: u32) -> Drive {
    let belt = Belt {
        teeth: 120,
        pitch_mm: 8.0,
        thickness_mm: 5.2,
        tooth_height_mm: 3.0,
        pitch_line_differential_mm: 0.686,
    };
    let mark =
        Some(Mark { cover: Angle::from_clock_deg(0.0), on: MarkOn::Groove, radius_mm: None });
    let sprocket = |x: f64, y: f64, teeth| Wheel {
        centre: DVec2::new(x, y),
        rim: Rim::Toothed { teeth },
        mark,
        friction_n_m: 1.0,
        spring_torque_n_m: 0.0,
        fixing: drive::Fixing::Keyed,
    };
    let idler = Wheel {
        centre: DVec2::new(-150.0, 150.0),
        rim: Rim::Smooth { outside_radius_mm: 25.0, face: Face::Toothed },
        mark: None,
        friction_n_m: 0.0,
        spring_torque_n_m: 0.0,
        fixing: drive::Fixing::Keyed,
    };
    let wheels = Vec::from([sprocket(0.0, 0.0, crank), idler, sprocket(0.0, 300.0, shaft)]);
    let tensioner = Tensioner {
        wheel: 1,
        carrier: Carrier::Slide { tightening: Angle::from_clock_deg(270.0) },
        right_back: -80.0,
        fully_out: 300.0,
    };
    Drive::new(Parts {
        belt,
        crank_turns: Sense::Clockwise,
        wheels,
        tensioner,
        counted: Vec::new(),
    })
    .unwrap()
}

/// The tight drive with its crank turned forward by so many degrees from the marks.
fn at(drive: &Drive, crank_deg: f64) -> Pose {
    let mut cord = Cord::in_time(drive);
    cord.turn(drive, drive.taut_stance(), 0, Turned::from_deg(crank_deg));
    Pose::of(drive, drive.taut_stance(), &cord)
}

/// Four-stroke, cam to crank 1:2: US Army TM 5-3820-256-24-5; Britannica, gasoline engine (seen).
#[test]
fn a_camshaft_turns_once_for_two_of_the_crank() {
    let d = drive(24, 48);
    let turned = at(&d, 720.0).turned_deg(&d, 2) - at(&d, 0.0).turned_deg(&d, 2);
    near(turned, 360.0, 1e-9);
    assert_eq!(returns_after_crank_turns(48, 24), 2);
}

/// ecomodder.com 485717 (seen): with 24 and 48 teeth one tooth is 15 crank degrees, 7.5 cam degrees.
#[test]
fn one_tooth_out() {
    let d = drive(24, 48);
    near(d.crank_deg_per_tooth(), 15.0, 0.0);
    let turned = at(&d, 15.0).turned_deg(&d, 2) - at(&d, 0.0).turned_deg(&d, 2);
    near(turned, 7.5, 1e-12);
    let mut cord = Cord::in_time(&d);
    let before = Pose::of(&d, d.taut_stance(), &cord);
    cord.set_teeth(&d, 1, 1);
    let after = Pose::of(&d, d.taut_stance(), &cord);
    near(after.turned_deg(&d, 2) - before.turned_deg(&d, 2), 7.5, 1e-12);
}

/// Geometry (computed): crank degrees a tooth, 720/z of the camshaft.
#[test]
fn crank_degrees_a_tooth() {
    for (cam, expected) in
        [(36, 20.0), (38, 18.947), (40, 18.0), (42, 17.143), (44, 16.364), (48, 15.0), (50, 14.4)]
    {
        let d = drive(cam / 2, cam);
        near(d.crank_deg_per_tooth(), expected, 1e-3);
        near(d.crank_deg_per_tooth(), 720.0 / f64::from(cam), 1e-12);
    }
}

/// US Army TM 5-3895-382-24 (seen): one tooth of a camshaft as an arc on three wheels: 23, 35 and
/// 37 mm on Ø 203, 310 and 327 mm are 12.98, 12.94 and 12.97°.
#[test]
fn one_tooth_as_an_arc() {
    for (arc_mm, diameter_mm, expected_deg) in
        [(23.0, 203.0, 12.98), (35.0, 310.0, 12.94), (37.0, 327.0, 12.97)]
    {
        let sweep_rad = Angle::from_deg(expected_deg).rad();
        let radius = diameter_mm / 2.0;
        let arc = Arc { centre: DVec2::ZERO, radius, from_rad: 0.3, sweep_rad: -sweep_rad };
        let tolerance_mm = 0.3 / 360.0 * PI * diameter_mm;
        near(arc.length(), arc_mm, tolerance_mm);
        near(Angle::from_rad(arc_mm / radius).deg(), expected_deg, 0.3);
        // Follow the arc: it ends where that turn leads.
        let (end, _) = arc.at(arc.sweep_rad);
        let chord = 2.0 * radius * libm::sin(sweep_rad / 2.0);
        near((end - arc.at(0.0).0).length(), chord, 1e-9);
    }
}

/// Common practice, no source; the ratios are arithmetic: two crank turns bring every half-speed and
/// crank-speed shaft back on its mark, the belt's stripes not; a 36-groove shaft on a 24-groove crank
/// needs three.
#[test]
fn marks_after_turning() {
    for (shaft, turns) in [(48, 2), (24, 1), (36, 3)] {
        let d = drive(24, shaft);
        // Once forward first, so that the shaft hangs from the crank on both occasions.
        let error = |n: u32| at(&d, 360.0 * f64::from(n)).mark_error_teeth(&d, 2).unwrap();
        let first = error(turns);
        assert_eq!(error(2 * turns), first);
        assert_eq!(returns_after_crank_turns(shaft, 24), u64::from(turns));
        for n in 1..turns {
            assert!((error(turns + n) - first).abs() > 0.5, "{shaft} after {n}");
        }
    }
    let d = drive(24, 48);
    let stripe = |pose: &Pose| pose.teeth[0].at;
    let home = stripe(&at(&d, 0.0));
    assert!((stripe(&at(&d, 720.0)) - home).length() > d.belt().pitch_mm);
    assert_eq!(stripe_drift_teeth(2, 120, 24), 48);
    // 120 teeth on a crank of 24: five turns, and with two-turn shafts ten.
    assert!((stripe(&at(&d, 5.0 * 360.0)) - home).length() < 1e-9);
    assert_eq!(stripe_returns_after_crank_turns(120, 24), 5);
    assert_eq!(all_return_after_crank_turns(120, 24, [48]), Some(10));
}

/// The same counted on the sprocket itself: z grooves one pitch apart on the pitch circle (SDP/SI
/// D265, seen: pitch diameter p·z/π), so the belt carries it by a tooth each pitch.
#[test]
fn a_pitch_of_belt_turns_a_sprocket_by_one_groove() {
    let d = drive(24, 48);
    let per_tooth = d.crank_deg_per_tooth();
    let belt_mm = per_tooth * d.mm_per_crank_deg();
    near(belt_mm, 8.0, 1e-12);
    let radius = d.belt().sprocket_pitch_radius_mm(48);
    near(belt_mm / radius, TAU / 48.0, 1e-12);
}
