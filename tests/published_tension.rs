//! Tension, friction, mesh and sighting against published figures, in the units of their sources.
//!
//! Must not know: anything that the program itself worked out.
//!
//! *Seen*: read in the source. *Computed*: inputs seen, or pure geometry, and the figure computed from them.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::TAU;
use drive::{
    Angle, Belt, Carrier, DVec2, Drive, Face, Fixing, LEAST_TEETH_IN_MESH, LEAST_WRAP_DEG, Mark,
    MarkOn, Parts, Rim, Seized, Sense, Takes, Tensioned, Tensioner, Wheel, bearing_loads_n,
    belt_speed_m_per_s, grip, in_mesh_factor, mark_radius_mm, pushed_tension_n, pushes_back_n,
    rim_force_n, seems_off, seized, sight_shift_mm, squarer_than, tensions, tone_hz,
    tone_tension_n,
};

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found}, not {expected} ± {tolerance}");
}

#[track_caller]
fn within(found: f64, expected: f64, share: f64) {
    near(found, expected, expected.abs() * share);
}

/// Crank, one shaft, and a smooth wheel between them in the run that leaves the crank, drawn outwards; all
/// on a line of centres 300 mm long, and the smooth wheel's `wrap_deg` stands as asked.
fn drive(crank: u32, pitch_mm: f64) -> Drive {
    let belt = Belt {
        teeth: 120,
        pitch_mm,
        thickness_mm: 5.5,
        tooth_height_mm: 3.5,
        pitch_line_differential_mm: 0.686,
    };
    let wheel = |x: f64, y: f64, rim, mark| Wheel {
        centre: DVec2::new(x, y),
        rim,
        mark,
        friction_n_m: 0.0,
        spring_torque_n_m: 0.0,
        fixing: Fixing::Keyed,
    };
    let mark =
        Some(Mark { cover: Angle::from_clock_deg(0.0), on: MarkOn::Groove, radius_mm: None });
    let smooth = Rim::Smooth { outside_radius_mm: 25.0, face: Face::Toothed };
    let high = 300.0 * pitch_mm / 9.525;
    let wheels = Vec::from([
        wheel(0.0, 0.0, Rim::Toothed { teeth: crank }, mark),
        wheel(-high / 2.0, high / 2.0, smooth, None),
        wheel(0.0, high, Rim::Toothed { teeth: 2 * crank }, mark),
    ]);
    let tensioner = Tensioner {
        wheel: 1,
        carrier: Carrier::Slide { tightening: Angle::from_clock_deg(270.0) },
        right_back: -60.0,
        fully_out: 200.0,
    };
    let parts =
        Parts { belt, crank_turns: Sense::Clockwise, wheels, tensioner, counted: Vec::new() };
    Drive::new(parts).unwrap()
}

/// RMA IP-24, as given by engineersedge.com 15347 (seen). Another maker's table has 0.7 and 0.5 for five
/// and four.
#[test]
fn few_teeth_in_mesh_carry_less() {
    for (teeth, factor) in [(20.0, 1.0), (6.0, 1.0), (5.0, 0.8), (4.0, 0.6), (3.0, 0.4), (2.0, 0.2)]
    {
        near(in_mesh_factor(teeth), factor, 1e-12);
    }
    // A part of a tooth carries nothing, and below none there is nothing.
    near(in_mesh_factor(5.9), 0.8, 1e-12);
    near(in_mesh_factor(0.3), 0.0, 1e-12);
}

/// A maker's drive design note, 2012 (seen): 60° and six teeth.
#[test]
fn the_least_mesh_of_a_loaded_sprocket() {
    assert_eq!((LEAST_TEETH_IN_MESH, LEAST_WRAP_DEG), (6, 60.0));
}

/// korins.com catalogue p. 25 (seen): 0.11 kg/m, 0.17 m, 220 Hz; the page prints 610 N. And back.
#[test]
fn a_span_sounds_by_its_tension() {
    within(tone_tension_n(220.0, 0.11, 170.0), 615.45, 0.01);
    near(tone_hz(624.0, 0.11, 170.0), 221.5, 0.5);
    near(tone_hz(tone_tension_n(220.0, 0.11, 170.0), 0.11, 170.0), 220.0, 1e-9);
}

/// SDP/SI D790, technical section (seen): pushed aside by a 64th of the span, T/16; a string exactly
/// 0.0624695·T (computed).
#[test]
fn a_span_gives_to_a_push() {
    let (tension, span) = (400.0, 192.0);
    within(pushes_back_n(tension, span, span / 64.0), tension / 16.0, 0.0005);
    near(pushes_back_n(tension, span, span / 64.0), 0.062_469_5 * tension, 1e-4);
    near(pushed_tension_n(25.0, span, span / 64.0) / 25.0, 16.0, 16.0 * 0.0005);
}

/// 2T/d: 10 N·m at a pitch diameter of 60.638 mm (computed).
#[test]
fn a_moment_pulls_at_the_pitch_circle() {
    near(rim_force_n(10.0, 60.638 / 2.0), 329.83, 5e-3);
}

/// Statics (computed): 900 and 300 N, half round 1200 N, a quarter round 948.68 N. The drive's own spans
/// stand at other angles, so the law of cosines is asked of every wheel, and the two of it directly.
#[test]
fn a_bearing_carries_the_resultant() {
    let law = |a: f64, b: f64, wrap: f64| libm::sqrt(a * a + b * b - 2.0 * a * b * libm::cos(wrap));
    near(law(900.0, 300.0, TAU / 2.0), 1200.0, 1e-6);
    near(law(900.0, 300.0, TAU / 4.0), 948.683_298, 1e-6);
    let drive = drive(22, 9.525);
    let spans = [300.0, 550.0, 900.0];
    let loads = bearing_loads_n(&drive, &spans);
    for i in 0..3 {
        let wrap = drive.taut_stance().path.wraps_rad[i];
        near(loads[i].length(), law(spans[i], spans[(i + 2) % 3], wrap), 1e-9);
    }
}

/// The same two rows on belts that really turn by half a turn and by a quarter.
#[test]
fn half_round_and_a_quarter_round() {
    let belt = Belt {
        teeth: 100,
        pitch_mm: 8.0,
        thickness_mm: 5.2,
        tooth_height_mm: 3.0,
        pitch_line_differential_mm: 0.686,
    };
    // Two equal sprockets level with each other, two equal wheels below: a rectangle, each a quarter round.
    let square = |side: f64| {
        let wheel = |x: f64, y: f64, teeth| Wheel {
            centre: DVec2::new(x, y),
            rim: teeth,
            mark: None,
            friction_n_m: 0.0,
            spring_torque_n_m: 0.0,
            fixing: Fixing::Keyed,
        };
        let toothed = Rim::Toothed { teeth: 20 };
        vec![
            wheel(0.0, 0.0, toothed),
            wheel(0.0, side, toothed),
            wheel(side, side, toothed),
            wheel(side, 0.0, toothed),
        ]
    };
    let parts = Parts {
        belt,
        crank_turns: Sense::Clockwise,
        wheels: square(160.0),
        tensioner: Tensioner {
            wheel: 3,
            carrier: Carrier::Slide { tightening: Angle::from_clock_deg(135.0) },
            right_back: -10.0,
            fully_out: 10.0,
        },
        counted: Vec::new(),
    };
    let drive = Drive::new(parts).unwrap();
    near(bearing_loads_n(&drive, &[900.0, 300.0, 300.0, 300.0])[1].length(), 948.683_298, 1e-6);
    // Round two wheels in one: what arrives at the second and leaves the third is half a turn apart.
    let loads = bearing_loads_n(&drive, &[900.0, 500.0, 300.0, 300.0]);
    near((loads[1] + loads[2]).length(), 1200.0, 1e-6);
}

/// v = d·n/19100 (docshare.tips; computed): 24 × 9.525 mm.
#[test]
fn how_fast_the_belt_runs() {
    let drive = drive(24, 9.525);
    let diameter_mm = 24.0 * 9.525 / (TAU / 2.0);
    for (rpm, m_per_s) in [(250.0, 0.953), (800.0, 3.048), (3000.0, 11.430), (6000.0, 22.860)] {
        near(belt_speed_m_per_s(&drive, rpm), m_per_s, 5e-4);
        within(belt_speed_m_per_s(&drive, rpm), diameter_mm * rpm / 19_100.0, 2e-4);
    }
}

/// Beer and Johnston, capstan problem (seen): 80 lb hold 5000 lb with two turns at µ 0.329066. And the
/// formula at µ 0.3 (sources print 2.6 at half a turn and 44 at two).
#[test]
fn a_belt_grips_what_it_is_wrapped_round() {
    within(80.0 * grip(0.329_066, 2.0 * TAU), 5000.0, 1e-3);
    for (turns, times) in [(0.5, 2.5663), (1.0, 6.5861), (2.0, 43.376)] {
        within(grip(0.3, turns * TAU), times, 0.001);
    }
}

/// Khurmi and Gupta, Theory of Machines, examples 11.4 and 11.5 (seen).
#[test]
fn what_a_belt_that_slides_takes() {
    // Ø 600 mm, 200 rpm, µ 0.25, 160°, 2500 N.
    let speed = TAU / 2.0 * 0.6 * 200.0 / 60.0;
    let slack_n = 2500.0 / grip(0.25, Angle::from_deg(160.0).rad());
    within(speed * 1000.0, 6283.0, 0.001);
    within(slack_n, 1243.8, 0.001);
    within((2500.0 - slack_n) * speed, 7890.0, 0.001);
    // 9000 N, µ 0.25, two and a half turns, Ø 300 mm, 20 rpm.
    let slack_n = 9000.0 / grip(0.25, 2.5 * TAU);
    within(slack_n, 177.33, 0.001);
    within((9000.0 - slack_n) * TAU / 2.0 * 0.3 * 20.0 / 60.0, 2772.0, 0.001);
}

/// The formula (computed): 300 N, µ 0.25, 60°, 22 × 9.525 mm at 800, 3000, 6000 rpm.
#[test]
fn a_locked_wheel_heats() {
    let friction_n = 300.0 * (grip(0.25, TAU / 6.0) - 1.0);
    within(friction_n, 89.78, 0.002);
    let drive = drive(22, 9.525);
    for (rpm, heat_w) in [(800.0, 251.0), (3000.0, 941.0), (6000.0, 1881.0)] {
        within(friction_n * belt_speed_m_per_s(&drive, rpm), heat_w, 0.002);
    }
}

/// The same through a whole drive: the tensioner's wheel locked, whatever it is wrapped by. What leaves is
/// e^(µβ) of what meets it, the two balance the spring, and the crank pays the difference.
#[test]
fn a_locked_wheel_in_its_drive() {
    let drive = drive(22, 9.525);
    let pull = 400.0;
    let sprung = Tensioned::Spring { pull };
    let Seized::Slides { meets_n, leaves_n, friction_n, crank_n_m } =
        seized(&drive, sprung, &[], 1, [0.25, 0.6]).unwrap()
    else {
        panic!("a smooth wheel")
    };
    let path = &drive.taut_stance().path;
    let wrap = path.wraps_rad[1];
    let out = Angle::from_clock_deg(270.0).unit();
    let radius_m = drive.taut_stance().discs[0].radius / 1000.0;
    for (i, friction) in [0.25, 0.6].into_iter().enumerate() {
        near(leaves_n[i], meets_n[i] * libm::exp(friction * wrap), 1e-9);
        near(leaves_n[i] - meets_n[i], friction_n[i], 1e-9);
        let balance = meets_n[i] * path.spans[0].direction.dot(out)
            - leaves_n[i] * path.spans[1].direction.dot(out);
        near(balance, pull, 1e-9);
        near(crank_n_m[i], friction_n[i] * radius_m, 1e-9);
    }
    for sprocket in [0, 2] {
        let told = seized(&drive, sprung, &[], sprocket, [0.25, 0.6]).unwrap();
        assert_eq!(told, Seized::StripsOrJumps);
    }
}

/// Belt mass (calculator.academy, belt frequency; seen): 8M 20 mm 0.10, 14M 40 mm 0.36 kg/m, to a fifth. The
/// layouts that ship are our own inventions: each must lie between these, scaled by its width.
#[test]
fn the_shipped_belts_weigh_what_belts_weigh() {
    let per_mm = [0.10 / 20.0, 0.36 / 40.0];
    let directory = concat!(env!("CARGO_MANIFEST_DIR"), "/../layouts");
    let mut seen = 0;
    for entry in std::fs::read_dir(directory).unwrap() {
        let file = entry.unwrap().path();
        if file.extension().is_none_or(|ext| ext != "toml") {
            continue;
        }
        let layout = layout::read(&std::fs::read_to_string(&file).unwrap()).unwrap();
        let (mass, width) = (layout.belt.mass_kg_per_m.unwrap(), layout.belt.width_mm.unwrap());
        let least = 0.8 * per_mm[0] * width * layout.belt.thickness_mm / 6.0;
        let most = 1.2 * per_mm[1] * width;
        assert!((least..=most).contains(&mass), "{file:?}: {mass}, not {least} to {most}");
        seen += 1;
    }
    assert!(seen > 0);
}

/// Friction, rubber on dry steel 0.5 to 0.6 (finishing.com 172/51), belts in handbooks 0.25 to 0.3
/// (engineersedge.com, belt design; both seen): what is assumed where nobody says covers both.
#[test]
fn the_assumed_friction_covers_what_is_published() {
    let assumed = advice::TensionAsked::default();
    for [low, high] in [assumed.friction_back, assumed.friction_toothed] {
        for published in [0.25, 0.3, 0.5, 0.6] {
            assert!((low..=high).contains(&published), "{published}");
        }
    }
}

/// g·tan v (computed), gap 10 mm.
#[test]
fn a_mark_from_the_side() {
    for (deg, mm) in [(5.0, 0.875), (10.0, 1.763), (15.0, 2.679), (20.0, 3.640), (30.0, 5.774)] {
        near(sight_shift_mm(10.0, Angle::from_deg(deg)), mm, 1e-3);
        near(sight_shift_mm(10.0, Angle::from_deg(-deg)), -mm, 1e-3);
    }
    // One whole tooth of 9.525 mm at 43.61°, at the pitch radius; and how square that is.
    let radius_mm = 24.0 * 9.525 / TAU;
    near(seems_off(10.0, Angle::from_deg(43.61), radius_mm, 24).teeth, 1.0, 4e-4);
    near(squarer_than(10.0, radius_mm, 24, 1.0).deg(), 43.61, 0.01);
    // Half a tooth: its own tangent.
    near(squarer_than(10.0, radius_mm, 24, 0.5).deg(), libm::atan(0.476_25).to_degrees(), 1e-9);
    // At twice the radius the same shift is half the teeth and half the degrees.
    let (near_in, far_out) = (
        seems_off(10.0, Angle::from_deg(20.0), radius_mm, 24),
        seems_off(10.0, Angle::from_deg(20.0), 2.0 * radius_mm, 24),
    );
    near(near_in.mm, far_out.mm, 1e-12);
    near(near_in.teeth, 2.0 * far_out.teeth, 1e-12);
    near(near_in.deg, near_in.teeth * 15.0, 1e-12);
    near(far_out.deg, far_out.mm / (2.0 * radius_mm) * 360.0 / TAU, 1e-12);
    let drive = drive(24, 9.525);
    near(mark_radius_mm(&drive, 0), radius_mm - 0.686, 1e-9);
}

/// Torque and what it does, by hand: 10 N·m on a shaft of twice the crank's size pull 10/ρ in the run after
/// it, and cost the crank half of that moment.
#[test]
fn a_shaft_pulls_in_the_run_behind_it() {
    let drive = drive(22, 9.525);
    let sprung = Tensioned::Spring { pull: 400.0 };
    let still = tensions(&drive, sprung, &[]).unwrap();
    let takes = [Takes::Moment(0.0), Takes::Moment(0.0), Takes::Moment(10.0)];
    let turning = tensions(&drive, sprung, &takes).unwrap();
    near(still.crank_n_m, 0.0, 1e-12);
    near(turning.spans_n[0], still.spans_n[0], 1e-9);
    near(turning.spans_n[1], still.spans_n[1], 1e-9);
    near(turning.spans_n[2] - still.spans_n[2], 10_000.0 / (44.0 * 9.525 / TAU), 1e-9);
    near(turning.crank_n_m, 5.0, 1e-9);
    assert!(!turning.gives_way);
}
