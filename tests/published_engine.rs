//! Piston, valves and compression against published figures, each with its source as it was found:
//! *seen*, *computed* from seen inputs or pure geometry, or *from memory*.
//!
//! Must not know: anything that the program itself worked out.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::PI;
use engine::{
    AtMarks, CamshaftFigures, CrankFigures, Cranking, Engine, Events, Figures, Kind, Law, Motion,
    Phasing, Room, SliderCrank, Top, ValveFigures, polytropic, ratio_from,
};
use proofs::tensioning::bisect;

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found}, not {expected} ± {tolerance}");
}

/// An engine with stroke 80 and rod 133 mm and at most one camshaft, that of all its cylinders.
fn engine(
    compression_ratio: f64,
    fires_at_deg: &[f64],
    intake: Option<ValveFigures>,
    exhaust: Option<ValveFigures>,
) -> Engine {
    let some = intake.is_some() || exhaust.is_some();
    let cylinders = (0..fires_at_deg.len()).collect();
    let camshaft = CamshaftFigures { cylinders, intake, exhaust, phaser_deg: None };
    Engine::new(Figures {
        bore_mm: None,
        crank: Some(CrankFigures { stroke_mm: 80.0, rod_mm: 133.0 }),
        compression_ratio: Some(compression_ratio),
        at_marks: AtMarks { crank_atdc_deg: 0.0, top: Top::Firing },
        fires_at_deg: fires_at_deg.to_vec(),
        camshafts: if some { vec![camshaft] } else { Vec::new() },
        valves_meet_at_lift_sum_mm: None,
    })
    .unwrap()
}

/// A valve of which only degrees are known.
fn degrees(kind: Kind, opens_before: f64, closes_after: f64) -> Option<ValveFigures> {
    let events = Events::of(kind, opens_before, closes_after);
    Some(ValveFigures { motion: Motion::Stated { events }, room: None, spring: None })
}

/// Khurmi & Gupta, Theory of Machines, ex. 15.9 (seen): the crank angle at which a piston stands 10 mm
/// down, a 50, r 200 mm, is 33.123° (drawn 33°).
#[test]
fn crank_angle_for_a_depth() {
    let crank = SliderCrank::new(100.0, 200.0).unwrap();
    near(crank.deg_at_depth(10.0), 33.123, 0.005);
    near(crank.depth_mm(crank.deg_at_depth(10.0)), 10.0, 1e-12);
}

/// Khurmi & Gupta ex. 15.3 (seen; exact by numpy): the piston is fastest at 74.529° with 6.5617 m/s; a
/// 0.3, r 1.0 m, 200 rpm. The two-term formula gives 75° and 6.54, up to 0.5° and 0.3 % off.
#[test]
fn fastest_piston() {
    let crank = SliderCrank::new(600.0, 1000.0).unwrap();
    let fastest = bisect(30.0, 120.0, |deg| crank.depth_bend(deg) > 0.0);
    near(fastest, 74.529, 1e-3);
    let deg_per_s = 200.0 / 60.0 * 360.0;
    near(crank.depth_rate(fastest) * deg_per_s / 1e3, 6.5617, 1e-4);
}

/// Khurmi & Gupta ex. 15.5 (seen; exact by numpy): at 60°, a 150, r 600 mm, 450 rpm, 6.9054 m/s and
/// 124.949 m/s² (printed 6.9 and 124.91).
#[test]
fn speed_and_acceleration() {
    let crank = SliderCrank::new(300.0, 600.0).unwrap();
    let deg_per_s = 450.0 / 60.0 * 360.0;
    near(crank.depth_rate(60.0) * deg_per_s / 1e3, 6.9054, 1e-4);
    near(crank.depth_bend(60.0) * deg_per_s * deg_per_s / 1e3, 124.949, 1e-3);
}

/// The exact formula (computed, numpy): travel, stroke 80, rod 133 mm.
#[test]
fn travel() {
    let crank = SliderCrank::new(80.0, 133.0).unwrap();
    for (deg, depth) in [
        (5.0, 0.198),
        (10.0, 0.789),
        (15.0, 1.767),
        (20.0, 3.118),
        (30.0, 6.871),
        (45.0, 14.758),
        (60.0, 24.590),
        (90.0, 46.158),
        (120.0, 64.590),
    ] {
        near(crank.depth_mm(deg), depth, 1e-3);
        near(crank.depth_mm(-deg), depth, 1e-3);
    }
}

/// "Static vs dynamic compression ratio" (0.9053 seen, dimensions from memory): stroke 3.48, rod 5.7
/// in; 70° after bottom the piston has risen 0.9053 in.
#[test]
fn rise_from_the_bottom() {
    let crank = SliderCrank::new(3.48, 5.7).unwrap();
    near(crank.stroke_mm() - crank.depth_mm(180.0 + 70.0), 0.9053, 1e-4);
}

/// forabodiesonly.com 1970493881 (seen): IVO 6, IVC 42, EVC 12 give duration 228°, intake centreline
/// 108°, overlap 18°.
#[test]
fn event_relations() {
    let engine = engine(
        9.0,
        &[0.0],
        degrees(Kind::Intake, 6.0, 42.0),
        // The exhaust's opening plays no part.
        degrees(Kind::Exhaust, 46.0, 12.0),
    );
    let intake = engine.events(0, Kind::Intake, 0.0).unwrap();
    near(intake.duration_deg(), 228.0, 0.0);
    near(intake.centreline_deg(), 108.0, 0.0);
    near(engine.between(0, &[]).unwrap().overlap_deg, 18.0, 0.0);
}

/// ausmini.com 237565 (seen): a camshaft of 20-60, 60-20 advanced by 5° has 25-55, 65-15, retarded by
/// 5° 15-65, 55-25.
#[test]
fn advance_and_retard() {
    let engine =
        engine(9.0, &[0.0], degrees(Kind::Intake, 20.0, 60.0), degrees(Kind::Exhaust, 60.0, 20.0));
    let events = |kind, ahead| engine.events(0, kind, ahead).unwrap().before_after_deg(kind);
    assert_eq!(events(Kind::Intake, 5.0), (25.0, 55.0));
    assert_eq!(events(Kind::Exhaust, 5.0), (65.0, 15.0));
    assert_eq!(events(Kind::Intake, -5.0), (15.0, 65.0));
    assert_eq!(events(Kind::Exhaust, -5.0), (55.0, 25.0));
}

/// US Army TM 9-8000, fig. 2-55 (seen): IVO 28, EVC 45, overlap 73°.
#[test]
fn overlap() {
    // The other two events play no part.
    let engine =
        engine(9.0, &[0.0], degrees(Kind::Intake, 28.0, 50.0), degrees(Kind::Exhaust, 50.0, 45.0));
    near(engine.between(0, &[]).unwrap().overlap_deg, 73.0, 0.0);
}

/// Standard cam laws (computed, sympy 1.14.0): lift at u = .1, .25, .5, .75 of the rise.
#[test]
fn lift_laws() {
    for (law, expected) in [
        (Law::Harmonic, [0.024472, 0.146447, 0.5, 0.853553]),
        (Law::Cycloidal, [0.006451, 0.090845, 0.5, 0.909155]),
        (Law::Polynomial345, [0.008560, 0.103516, 0.5, 0.896484]),
        (Law::Polynomial4567, [0.002728, 0.070557, 0.5, 0.929443]),
    ] {
        for (u, s) in [0.1, 0.25, 0.5, 0.75].into_iter().zip(expected) {
            near(law.rise(u), s, 1e-6);
        }
    }
}

/// The intake valve of the table below: 3-4-5, lift 9.0, 240° from seat to seat, centreline 110°, lean
/// 20°.
fn intake(gap_at_top_mm: f64) -> Option<ValveFigures> {
    let events = Events { opens_deg: -10.0, closes_deg: 230.0 };
    let law = Law::Polynomial345;
    Some(ValveFigures {
        motion: Motion::Law { events, at_lift_mm: 0.0, lift_mm: 9.0, law },
        room: Some(Room { lean_deg: 20.0, gap_at_top_mm }),
        spring: None,
    })
}

/// Own equation g = g₀ + x − lift·cos α (computed, numpy and scipy): the least gap of an intake valve
/// less g₀ and its place after top, with the camshaft 0 to 90° ahead; stroke 80, rod 133.
#[test]
fn least_gap_of_an_intake_valve() {
    let engine = engine(9.5, &[0.0], intake(2.6), None);
    for (ahead, less_mm, at_deg) in [
        (0.0, -0.049, 0.9),
        (15.0, -0.678, 4.6),
        (30.0, -2.180, 7.7),
        (45.0, -4.119, 8.3),
        (60.0, -5.970, 7.1),
        (75.0, -7.384, 4.8),
        (90.0, -8.201, 2.1),
    ] {
        let least = engine.gap(0, Kind::Intake, ahead, Phasing::AtRest).unwrap().least();
        near(least.along_bore_mm - 2.6, less_mm, 2e-3);
        near(least.at_deg, at_deg, 0.05);
        near(least.along_stem_mm, least.along_bore_mm / libm::cos(20.0 * PI / 180.0), 1e-12);
    }
}

/// fordmuscle.com, piston to valve (seen): usual least gaps are 2.0 mm at the intake and 2.5 mm at the
/// exhaust valve (0.080, 0.100 in). A default and an input: what is checked is that such a margin can
/// be asked for, and that this engine keeps it in time and not two teeth of 15° ahead.
#[test]
fn a_usual_margin() {
    let engine = engine(9.5, &[0.0], intake(2.6), None);
    let arcs = |ahead, margin: f64| {
        engine.gap(0, Kind::Intake, ahead, Phasing::AtRest).unwrap().below(margin)
    };
    assert_eq!(arcs(0.0, 2.0), []);
    assert_eq!(arcs(15.0, 2.0).len(), 1);
    assert!(arcs(30.0, 2.5)[0].len_deg() > arcs(15.0, 2.0)[0].len_deg());
    near(0.080 * 25.4, 2.0, 0.05);
    near(0.100 * 25.4, 2.5, 0.05);
}

/// The exact formula (computed): effective ratio, stroke 80, rod 133, 10:1, intake closing 0, 30, 50,
/// 70, 90° after bottom.
#[test]
fn effective_ratio() {
    for (late, expected) in
        [(0.0, 10.0), (30.0, 9.567), (50.0, 8.795), (70.0, 7.649), (90.0, 6.193)]
    {
        let engine = engine(10.0, &[0.0], degrees(Kind::Intake, 10.0, late), None);
        near(engine.effective_ratio(0, 0.0, 0.0).unwrap(), expected, 1e-3);
    }
}

/// altsci.com, compression ratio (seen): ratio 7.5, n 1.3, 14.7 psi give 201.8 psi absolute.
#[test]
fn pressure() {
    near(polytropic(14.7, 7.5, 1.3), 201.8, 0.1);
    const BAR_PER_PSI: f64 = 0.068_947_572_931_683_6;
    let cranking = Cranking::new(1.3, 14.7 * BAR_PER_PSI).unwrap();
    near(cranking.pressure(7.5).absolute_bar / BAR_PER_PSI, 201.8, 0.1);
    near(cranking.pressure(7.5).gauge_bar / BAR_PER_PSI, 201.8 - 14.7, 0.1);
}

/// H. N. Gupta ex. 2.2 (seen): 1.2 bar at 5 % and 4.8 bar at 75 % of the compression stroke with n 1.3
/// make the ratio 9.512 (printed 9.5).
#[test]
fn ratio_from_two_points() {
    let ratio = bisect(2.0, 30.0, |ratio| {
        let squeezed = ratio_from(ratio, 1.0 - 0.05) / ratio_from(ratio, 1.0 - 0.75);
        polytropic(1.2, squeezed, 1.3) < 4.8
    });
    near(ratio, 9.512, 0.005);
}

/// Formula (computed): at 9.5:1, n 1.25, stroke 80, rod 133, an intake closing at 65 instead of 50°
/// after bottom costs 11.5 % of the absolute and 12.4 % of the gauge pressure.
#[test]
fn cranking_pressure() {
    let engine = engine(9.5, &[0.0], degrees(Kind::Intake, 10.0, 50.0), None);
    let pressure =
        |ahead| Cranking::default().pressure(engine.effective_ratio(0, ahead, 0.0).unwrap());
    let (in_time, late) = (pressure(0.0), pressure(-15.0));
    near(100.0 * (late.absolute_bar / in_time.absolute_bar - 1.0), -11.5, 0.1);
    near(100.0 * (late.gauge_bar / in_time.gauge_bar - 1.0), -12.4, 0.1);
}

/// The rows of `reference/isentropic.csv`: library, ratio, kelvin, atmospheres, exponent.
fn isentropic() -> Vec<(String, f64, f64, f64, f64)> {
    let lines = include_str!("reference/isentropic.csv").lines().skip(1);
    lines
        .map(|line| {
            let (library, rest) = line.split_once(',').unwrap();
            let n: Vec<f64> = rest.split(',').map(|n| n.parse().unwrap()).collect();
            (library.to_owned(), n[0], n[1], n[2], n[3])
        })
        .collect()
}

/// Isentropic air, 300 K, 1 atm, ratio 10 (computed): cantera 3.2.0, air.yaml, 729.74 K and 24.325 atm;
/// CoolProp 8.0.0, 733.49 K and 24.681 atm. The committed table has both. Squeezed step by step by
/// p·Vⁿ, each step with the exponent that the library gives there, this crate comes to the library's
/// pressure at every ratio; with the default 1.25 it stays below, as a cylinder that loses heat must.
#[test]
fn isentropic_air() {
    let rows = isentropic();
    for (library, kelvin, atm) in
        [("cantera 3.2.0", 729.74, 24.325), ("CoolProp 8.0.0", 733.49, 24.681)]
    {
        let own: Vec<_> = rows.iter().filter(|row| row.0 == library).collect();
        let ten = own.iter().find(|row| row.1 == 10.0).unwrap();
        near(ten.2, kelvin, kelvin * 0.0005);
        near(ten.3, atm, atm * 0.0005);
        let mut pressure = own[0].3;
        for pair in own.windows(2) {
            let exponent = 0.5 * (pair[0].4 + pair[1].4);
            pressure = polytropic(pressure, pair[1].1 / pair[0].1, exponent);
            near(pressure, pair[1].3, pair[1].3 * 0.0005);
            let cranked = Cranking::new(1.25, 1.01325).unwrap().pressure(pair[1].1);
            assert!(cranked.absolute_bar < pair[1].3 * 1.01325);
        }
    }
}

/// US Army TM 5-3895-382-24 (seen): four in line fire 1-3-4-2, 180° apart; US Army TM 9-8000 p. 2-18
/// (seen): a six fires every 120°. Their pistons then come to top that far apart.
#[test]
fn firing_orders() {
    let four = engine(9.0, &[0.0, 540.0, 180.0, 360.0], None, None);
    for (turn, cylinder) in [(0.0, 0), (180.0, 2), (360.0, 3), (540.0, 1)] {
        // At its firing top a cylinder is half a cycle from its overlap top.
        near(four.from_overlap_deg(cylinder, turn).abs(), 360.0, 0.0);
        near(four.depths_mm(turn).unwrap()[cylinder], 0.0, 1e-12);
    }
    let six = engine(9.0, &[0.0, 120.0, 240.0, 360.0, 480.0, 600.0], None, None);
    for turn in [0.0, 120.0, 240.0] {
        assert_eq!(six.depths_mm(turn).unwrap().iter().filter(|d| **d < 1e-9).count(), 2);
    }
}

/// Largest least depth (computed): a four in line, stroke 80, rod 133, is parked at 90 and 270°, every
/// piston 46.158 mm down.
#[test]
fn parking_a_four() {
    let four = engine(9.0, &[0.0, 540.0, 180.0, 360.0], None, None);
    let parking = four.parking();
    assert_eq!(parking.len(), 2);
    for (found, expected) in parking.iter().zip([90.0, 270.0]) {
        near(found.after_top_deg, expected, 0.05);
        near(found.least_depth_mm.unwrap(), 46.158, 1e-3);
        for depth in four.depths_mm(found.from_marks_deg).unwrap() {
            near(depth, 46.158, 1e-3);
        }
    }
}

/// The same (computed): a 60° V6 with even firing is parked at 60, 180, 300°, 24.590 mm. And the trap
/// (computed): at a four's 90° its pistons stand 46.16, 6.87 and 76.15 mm down.
#[test]
fn parking_a_six_and_the_trap() {
    let six = engine(9.0, &[0.0, 120.0, 240.0, 360.0, 480.0, 600.0], None, None);
    let parking = six.parking();
    assert_eq!(parking.len(), 3);
    for (found, expected) in parking.iter().zip([60.0, 180.0, 300.0]) {
        near(found.after_top_deg, expected, 0.05);
        near(found.least_depth_mm.unwrap(), 24.590, 1e-3);
    }
    let depths = six.depths_mm(90.0).unwrap();
    for (depth, expected) in depths.iter().zip([46.16, 6.87, 76.15, 46.16, 6.87, 76.15]) {
        near(*depth, expected, 0.01);
    }
    assert!(parking.iter().all(|p| (p.after_top_deg - 90.0).abs() > 20.0));
}
