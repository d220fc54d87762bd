//! Random engines with all their figures: any number of cylinders, even and uneven firing, one or two
//! camshafts to a bank, every law and measured lifts, phasers, marks away from top.
//!
//! Must not know: what the crate under test makes of them.

use engine::{
    AtMarks, CamshaftFigures, CrankFigures, Events, Figures, Kind, Law, LiftPoint, Motion, Room,
    Top, ValveFigures,
};
use fastrand::Rng;

/// A number between two.
pub fn between(rng: &mut Rng, low: f64, high: f64) -> f64 {
    low + (high - low) * rng.f64()
}

/// What a random engine is drawn for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Drawn {
    /// As engines are.
    Usual,
    /// Long lifts and little room, so that shafts are often shut in.
    Tight,
    /// Either of these, with two camshafts to each cylinder whose valves can meet.
    ValvesMeet,
}

/// A random valve by a law, or measured where there is none.
pub fn valve(rng: &mut Rng, kind: Kind, law: Option<Law>, drawn: Drawn) -> ValveFigures {
    let tight = drawn == Drawn::Tight || drawn == Drawn::ValvesMeet && rng.u8(0..4) > 0;
    let before = between(rng, -10.0, 35.0);
    let after = between(rng, 20.0, 75.0);
    let (before, after) = if kind == Kind::Intake { (before, after) } else { (after, before) };
    let events = Events::of(kind, before, after);
    let lift_mm = if tight { between(rng, 9.0, 20.0) } else { between(rng, 6.0, 13.0) };
    let at_lift_mm = if rng.bool() { 0.0 } else { between(rng, 0.05, 1.3) };
    let motion = match law {
        Some(law) => Motion::Law { events, at_lift_mm, lift_mm, law },
        None => Motion::Measured { points: measured(rng, &events, lift_mm), at_lift_mm: 0.0 },
    };
    let lean_deg = between(rng, -35.0, 35.0);
    let gap = if tight { between(rng, 0.3, 1.5) } else { between(rng, 0.8, 8.0) };
    ValveFigures { motion, room: Some(Room { lean_deg, gap_at_top_mm: gap }), spring: None }
}

/// Points of a lopsided lift with a little noise that never turns back.
fn measured(rng: &mut Rng, events: &Events, lift_mm: f64) -> Vec<LiftPoint> {
    let rises = rng.usize(2..9);
    let falls = rng.usize(2..9);
    let top = between(rng, 0.4, 0.6);
    let at = |share: f64| events.opens_deg + share * events.duration_deg();
    let mut points = vec![LiftPoint { at_deg: at(0.0), lift_mm: 0.0 }];
    for i in 1..rises {
        let u = (i as f64 + between(rng, -0.3, 0.3)) / rises as f64;
        let lift_mm = lift_mm * u * u * (3.0 - 2.0 * u);
        points.push(LiftPoint { at_deg: at(u * top), lift_mm });
    }
    points.push(LiftPoint { at_deg: at(top), lift_mm });
    if rng.bool() {
        points.push(LiftPoint { at_deg: at(top + 0.02), lift_mm });
    }
    for i in 1..falls {
        let u = (i as f64 + between(rng, -0.3, 0.3)) / falls as f64;
        let lift_mm = lift_mm * (1.0 - u * u * (3.0 - 2.0 * u));
        points.push(LiftPoint { at_deg: at(top + 0.03 + u * (0.97 - top)), lift_mm });
    }
    points.push(LiftPoint { at_deg: at(1.0), lift_mm: 0.0 });
    points
}

/// Figures of a random engine.
pub fn figures(seed: u64, drawn: Drawn) -> Figures {
    let mut rng = Rng::with_seed(seed);
    let rng = &mut rng;
    let cylinders = match drawn {
        Drawn::ValvesMeet => rng.usize(2..9),
        Drawn::Tight => rng.usize(2..9),
        Drawn::Usual => [1, 2, 3, 4, 4, 5, 6, 6, 8][rng.usize(0..9)],
    };
    let stroke_mm = between(rng, 60.0, 110.0);
    let rod_mm = stroke_mm * between(rng, 1.3, 2.3);
    let mut fires_at_deg: Vec<f64> =
        (0..cylinders).map(|i| 720.0 * i as f64 / cylinders as f64).collect();
    if rng.u8(0..4) == 0 {
        for deg in fires_at_deg.iter_mut().skip(1) {
            *deg = (*deg + between(rng, -30.0, 30.0)).clamp(0.0, 719.0);
        }
    }
    rng.shuffle(&mut fires_at_deg[1..]);
    // Cylinders of each bank.
    let banks: Vec<Vec<usize>> = if cylinders >= 4 && rng.bool() && drawn != Drawn::ValvesMeet {
        vec![(0..cylinders / 2).collect(), (cylinders / 2..cylinders).collect()]
    } else {
        vec![(0..cylinders).collect()]
    };
    let apart = drawn == Drawn::ValvesMeet || rng.bool();
    let law = |rng: &mut Rng| [None].into_iter().chain(Law::ALL.map(Some)).nth(rng.usize(0..5));
    let mut intake = valve(rng, Kind::Intake, None, drawn);
    let mut exhaust = valve(rng, Kind::Exhaust, None, drawn);
    if let Some(Some(law)) = law(rng) {
        intake = valve(rng, Kind::Intake, Some(law), drawn);
        exhaust = valve(rng, Kind::Exhaust, Some(law), drawn);
    }
    let phaser_deg =
        (rng.u8(0..5) == 0).then(|| [between(rng, -20.0, 0.0), between(rng, 0.0, 30.0)]);
    let camshafts = banks
        .into_iter()
        .flat_map(|cylinders| {
            let of = |intake: bool, out: bool, other: &ValveFigures, own: &ValveFigures| {
                CamshaftFigures {
                    cylinders: cylinders.clone(),
                    intake: intake.then(|| own.clone()),
                    exhaust: out.then(|| other.clone()),
                    phaser_deg: if intake { phaser_deg } else { None },
                }
            };
            if apart {
                vec![of(true, false, &exhaust, &intake), of(false, true, &exhaust, &intake)]
            } else {
                vec![of(true, true, &exhaust, &intake)]
            }
        })
        .collect();
    let most = |v: &ValveFigures| match &v.motion {
        Motion::Law { lift_mm, .. } => *lift_mm,
        Motion::Measured { points, .. } => points.iter().map(|p| p.lift_mm).fold(0.0, f64::max),
        Motion::Stated { .. } => 0.0,
    };
    let sum = most(&intake).max(most(&exhaust)) + between(rng, 0.0, 1.5) * rng.f64();
    let away = rng.u8(0..3) == 0;
    Figures {
        bore_mm: None,
        crank: Some(CrankFigures { stroke_mm, rod_mm }),
        compression_ratio: Some(between(rng, 7.0, 13.0)),
        at_marks: AtMarks {
            crank_atdc_deg: if away { between(rng, -90.0, 90.0) } else { 0.0 },
            top: if rng.bool() { Top::Firing } else { Top::Overlap },
        },
        fires_at_deg,
        camshafts,
        valves_meet_at_lift_sum_mm: (drawn == Drawn::ValvesMeet).then_some(sum),
    }
}
