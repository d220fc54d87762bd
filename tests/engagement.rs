//! Teeth in grooves, on ten thousand random drives in random states: every belt tooth on a sprocket
//! lies in one of its grooves, every other one a pitch further along a belt that closes.
//!
//! Must not know: how a pose is laid. Grooves are found from the marks, places along the belt from the
//! pieces.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::TAU;
use drive::{MarkOn, Piece, Pose};
use proofs::follow::{Line, length_mm, point};
use proofs::state::State;

const SEEDS: u64 = 10_000;
/// What everything must agree to, mm.
const NEAR_MM: f64 = 1e-6;

fn posed(seed: u64) -> (State, Pose) {
    let state = State::random(seed).unwrap();
    let pose = Pose::of(&state.drive, &state.stance, &state.cord);
    (state, pose)
}

/// Direction of one groove of sprocket `j` as it stands, rad: by its mark, or without one by its
/// reference, turned forward by what the belt has carried it.
fn groove_rad(state: &State, j: usize) -> f64 {
    let reference = &state.drive.sprockets()[j];
    let wheel = &state.drive.wheels()[reference.wheel];
    let z = f64::from(reference.teeth);
    let forward = state.drive.crank_turns().sign();
    let in_time = match wheel.mark {
        None => reference.at_rad,
        Some(mark) => match mark.on {
            MarkOn::Groove => mark.cover.rad(),
            MarkOn::Tooth => mark.cover.rad() + forward * 0.5 * TAU / z,
        },
    };
    let turned = state.cord.turned()[j];
    let crank_turns = turned.turns as f64 + turned.deg / 360.0;
    in_time + forward * crank_turns * f64::from(state.drive.crank_teeth()) / z * TAU
}

#[test]
fn every_tooth_on_a_sprocket_sits_in_a_groove() {
    let (mut seated, mut worst) = (0_u64, 0.0_f64);
    for seed in 0..SEEDS {
        let (state, pose) = posed(seed);
        let pitch = state.drive.belt().pitch_mm;
        for tooth in &pose.teeth {
            let Some(i) = tooth.seat else { continue };
            let j = state.drive.sprocket_of(i).unwrap();
            let disc = &state.stance.discs[i];
            let out = tooth.at - disc.centre;
            let off_radius = (out.length() - disc.radius).abs();
            let past = (libm::atan2(out.y, out.x) - groove_rad(&state, j)) * disc.radius / pitch;
            let off_groove = (past - past.round()).abs() * pitch;
            worst = worst.max(off_radius).max(off_groove);
            assert!(off_radius < NEAR_MM, "seed {seed}, wheel {i}: {off_radius} off its circle");
            assert!(off_groove < NEAR_MM, "seed {seed}, wheel {i}: {off_groove} off its groove");
            seated += 1;
        }
    }
    println!("{seated} seated teeth, the worst {worst} mm off");
    assert!(seated > 20 * SEEDS, "{seated}");
}

#[test]
fn teeth_are_a_pitch_apart_along_a_belt_that_closes() {
    let mut slack_runs = 0;
    for seed in 0..SEEDS {
        let (state, pose) = posed(seed);
        let belt = state.drive.belt();
        let line = Line::of(&pose.pieces);
        let off = line.whole_mm() - f64::from(belt.teeth) * belt.pitch_mm;
        assert!(off.abs() < NEAR_MM, "seed {seed}: {off} mm of belt too many");
        for (k, piece) in pose.pieces.iter().enumerate() {
            let (end, heading) = point(piece, length_mm(piece));
            let (start, onward) = point(&pose.pieces[(k + 1) % pose.pieces.len()], 0.0);
            assert!((end - start).length() < NEAR_MM, "seed {seed}: piece {k} is not joined");
            assert!((heading - onward).length() < NEAR_MM, "seed {seed}: a kink after {k}");
        }
        assert_eq!(pose.teeth.len(), belt.teeth as usize);
        let first = line.find(pose.teeth[0].at, pose.teeth[0].direction, NEAR_MM);
        let first = first.unwrap_or_else(|| panic!("seed {seed}: tooth 0 is not on the belt"));
        for (k, tooth) in pose.teeth.iter().enumerate() {
            let along = first + k as f64 * belt.pitch_mm;
            let (at, direction) = line.at(along);
            assert!((at - tooth.at).length() < NEAR_MM, "seed {seed}: tooth {k}");
            assert!((direction - tooth.direction).length() < NEAR_MM, "seed {seed}: tooth {k}");
            assert_seat(seed, &state, &pose, &line, along, k);
        }
        slack_runs += hanging_is_slack(seed, &state, &pose);
    }
    assert!(slack_runs > SEEDS / 3, "{slack_runs}");
}

/// Tooth `k`, `along` mm on, has a seat just when it lies on a sprocket, and then that sprocket.
fn assert_seat(seed: u64, state: &State, pose: &Pose, line: &Line, along: f64, k: usize) {
    let (piece, into) = line.piece_at(along);
    // Where a wrap begins or ends, either is right.
    if into < NEAR_MM || length_mm(&pose.pieces[piece]) - into < NEAR_MM {
        return;
    }
    let on = match (&pose.pieces[piece], pose.piece_run[piece]) {
        (Piece::Arc(arc), None) => state
            .drive
            .sprockets()
            .iter()
            .map(|s| s.wheel)
            .find(|&i| state.stance.discs[i].centre == arc.centre),
        _ => None,
    };
    assert_eq!(on.is_some(), pose.piece_run[piece].is_none(), "seed {seed}: piece {piece}");
    assert_eq!(pose.teeth[k].seat, on, "seed {seed}: tooth {k}");
}

/// Belt in each run's hanging curve less its chord is that run's slack; gives the number of runs that
/// hang.
fn hanging_is_slack(seed: u64, state: &State, pose: &Pose) -> u64 {
    let wheels: Vec<_> = state.stance.discs.iter().map(|d| d.centre).collect();
    let mut hanging = 0;
    for j in 0..state.drive.sprockets().len() {
        let curve: Vec<&Piece> = pose
            .pieces
            .iter()
            .zip(&pose.piece_run)
            .filter(|(piece, run)| {
                let on_wheel = matches!(piece, Piece::Arc(arc) if wheels.contains(&arc.centre));
                **run == Some(j) && matches!(piece, Piece::Arc(_)) && !on_wheel
            })
            .map(|(piece, _)| piece)
            .collect();
        let slack = pose.slack_mm[j];
        let Some((first, last)) = curve.first().zip(curve.last()) else {
            assert_eq!(slack, 0.0, "seed {seed}: slack {slack} and nothing hangs");
            continue;
        };
        let chord = (point(last, length_mm(last)).0 - point(first, 0.0).0).length();
        let length: f64 = curve.iter().map(|piece| length_mm(piece)).sum();
        assert!((length - chord - slack).abs() < NEAR_MM, "seed {seed}: run {j} hangs wrong");
        hanging += 1;
    }
    hanging
}

/// A smooth wheel turns as the belt runs over it, without slip at its pitch line (forward is the other
/// way round on the back): with the sprocket behind it up to where the run hangs, from there on with
/// the one ahead.
#[test]
fn smooth_wheels_turn_with_the_belt() {
    let mut compared = [0, 0];
    for seed in 0..SEEDS {
        let (state, pose) = posed(seed);
        let drive = &state.drive;
        let per_deg = TAU / 360.0 * state.stance.discs[0].radius;
        for (i, disc) in state.stance.discs.iter().enumerate() {
            if drive.wheels()[i].teeth().is_some() {
                continue;
            }
            let on = |piece: &Piece| matches!(piece, Piece::Arc(arc) if arc.centre == disc.centre);
            let here = pose.pieces.iter().position(on).unwrap();
            let j = pose.piece_run[here].unwrap();
            let hangs = |k: &usize| {
                pose.piece_run[*k] == Some(j)
                    && matches!(&pose.pieces[*k], Piece::Arc(arc)
                        if state.stance.discs.iter().all(|d| d.centre != arc.centre))
            };
            let carried = pose.turned[i];
            let (behind, ahead) = (state.cord.turned()[j], state.cord.turned()[drive.next(j)]);
            match (0..pose.pieces.len()).find(hangs) {
                Some(hanging) if hanging > here => {
                    assert_eq!(carried, behind, "seed {seed}, wheel {i}");
                    compared[0] += 1;
                }
                Some(_) => {
                    assert_eq!(carried, ahead, "seed {seed}, wheel {i}");
                    compared[1] += 1;
                }
                None => assert!(carried == behind || carried == ahead, "seed {seed}, wheel {i}"),
            }
            let turned_rad = pose.turned_deg(drive, i).to_radians();
            let belt_mm = (carried.turns as f64 * 360.0 + carried.deg) * per_deg;
            assert!((turned_rad * disc.radius - belt_mm).abs() < 1e-6, "seed {seed}, wheel {i}");
            let drawn = pose.rotation(drive, i).rad();
            let apart = (drawn - disc.sense * turned_rad) / TAU;
            assert!((apart - apart.round()).abs() < 1e-9, "seed {seed}, wheel {i}");
        }
    }
    assert!(compared.iter().all(|&n| n > 1000), "{compared:?}");
}

/// How far each sprocket is drawn turned, and what its mark reads, agree with how far it was carried.
#[test]
fn turns_and_marks_agree_with_the_grooves() {
    for seed in 0..SEEDS {
        let (state, pose) = posed(seed);
        let forward = state.drive.crank_turns().sign();
        for (j, reference) in state.drive.sprockets().iter().enumerate() {
            let i = reference.wheel;
            let z = f64::from(reference.teeth);
            let deg = pose.turned_deg(&state.drive, i);
            let drawn = pose.rotation(&state.drive, i).rad();
            let apart = (drawn - forward * deg.to_radians()) / TAU;
            assert!((apart - apart.round()).abs() < 1e-9, "seed {seed}, wheel {i}");
            let wheel = &state.drive.wheels()[i];
            let half = match wheel.mark {
                Some(mark) if mark.on == MarkOn::Tooth => 0.5,
                _ => 0.0,
            };
            let Some(error) = pose.mark_error_teeth(&state.drive, i) else {
                assert!(wheel.mark.is_none());
                continue;
            };
            assert!(error > -z / 2.0 && error <= z / 2.0);
            let cover = wheel.mark.unwrap().cover.rad();
            let from_mark = cover + forward * (error + half) * TAU / z;
            let apart = (from_mark - groove_rad(&state, j)) / TAU;
            assert!((apart - apart.round()).abs() < 1e-9, "seed {seed}, wheel {i}: {error}");
        }
    }
}
