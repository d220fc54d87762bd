//! Random drives written as layout files and read back: the same drive, bit for bit.
//!
//! Must not know: how a layout file is read.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use drive::Drive;
use engine::{Engine, Motion};
use layout::Plan;
use proofs::random::sound_layout;

const SEEDS: u64 = 10_000;

#[test]
fn a_layout_file_says_all_there_is_to_say() {
    for seed in 0..SEEDS {
        let drawn = sound_layout(seed).with_more_to_do();
        let text = drawn.toml();
        let plan = match Plan::open(&text) {
            Ok(plan) => plan,
            Err(problems) => panic!("seed {seed}: {problems:?}\n{text}"),
        };
        let (read, drive) = (&plan.drive, Drive::new(drawn.parts).unwrap());
        assert_eq!(read.belt(), drive.belt(), "seed {seed}");
        assert_eq!(read.crank_turns(), drive.crank_turns(), "seed {seed}");
        assert_eq!(read.wheels(), drive.wheels(), "seed {seed}");
        assert_eq!(read.tensioner(), drive.tensioner(), "seed {seed}");
        assert_eq!(read.taut(), drive.taut(), "seed {seed}");
        assert_eq!(read.teeth_in_time(), drive.teeth_in_time(), "seed {seed}");
        assert_eq!(read.taut_stance(), drive.taut_stance(), "seed {seed}");
    }
}

#[test]
fn a_layout_file_says_all_there_is_to_say_of_its_engine() {
    let (mut camshafts, mut phased, mut measured) = (0, 0, 0);
    for seed in 0..SEEDS {
        let drawn = sound_layout(seed).toml_with_engine();
        let text = drawn.text;
        let plan = match Plan::open(&text) {
            Ok(plan) => plan,
            Err(problems) => panic!("seed {seed}: {problems:?}\n{text}"),
        };
        for camshaft in &drawn.figures.camshafts {
            let valves = camshaft.intake.iter().chain(&camshaft.exhaust);
            camshafts += 1;
            phased += usize::from(camshaft.phaser_deg.is_some());
            let is_measured = |motion: &Motion| matches!(motion, Motion::Measured { .. });
            measured += valves.filter(|valve| is_measured(&valve.motion)).count();
        }
        let read = plan.engine.unwrap();
        assert_eq!(read.wheels, drawn.wheels, "seed {seed}");
        assert_eq!(read.engine, Engine::new(drawn.figures).unwrap(), "seed {seed}\n{text}");
    }
    println!("{camshafts} camshafts, {phased} phased, {measured} measured lifts");
    assert!(camshafts > SEEDS / 2 && phased > 500 && measured > 500);
}
