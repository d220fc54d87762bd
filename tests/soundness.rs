//! Random layouts are sound: ten thousand of them, each accepted as it was made, and between them
//! everything that a drive can have.
//!
//! Must not know: how the layouts are drawn, beyond what they say of themselves.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use drive::{Carrier, Drive, MarkOn, Sense};
use proofs::random::sound_layout;
use proofs::tensioning::Kind;

const SEEDS: u64 = 10_000;

#[test]
fn every_random_layout_is_sound_and_closes_where_it_was_made_to() {
    for seed in 0..SEEDS {
        let layout = sound_layout(seed);
        let drive = match Drive::new(layout.parts.clone()) {
            Ok(drive) => drive,
            Err(flaws) => panic!("seed {seed}, {:?}: {flaws:?}", layout.kind),
        };
        // Belt length is met to 1e-9 mm; what that is in travel depends on the rate of length.
        let per_mm = 1.0 / drive.taut().length_rate;
        let off = (drive.taut().travel - layout.taut_travel).abs();
        assert!(off < 1e-8 * per_mm.max(1.0), "seed {seed}: {off}");
        let freed = drive.slack_when_back_mm();
        assert!((freed - layout.freed_mm).abs() < 1e-7, "seed {seed}: {freed}");
        assert!(freed > 0.0, "seed {seed}: right back frees nothing");
    }
}

/// Shares of ten thousand below which the draw would have become one-sided.
#[test]
fn between_them_they_have_everything() {
    let mut seen = [("", 0); 18];
    let names = [
        "slide",
        "arm",
        "eccentric",
        "sprung eccentric",
        "clockwise",
        "anticlockwise",
        "nothing on the back",
        "three on the back",
        "tensioner on the back",
        "tensioner on the toothed face",
        "toothed tensioner",
        "sprocket without a mark",
        "mark on a tooth",
        "mark on a groove",
        "two wheels",
        "ten wheels",
        "right back frees one tooth to four",
        "smooth wheel on the toothed face",
    ];
    for (slot, name) in seen.iter_mut().zip(names) {
        slot.0 = name;
    }
    for seed in 0..SEEDS {
        let layout = sound_layout(seed);
        let parts = &layout.parts;
        let sense = parts.crank_turns.sign();
        let back = parts.wheels.iter().filter(|w| w.sense(parts.crank_turns).sign() != sense);
        let back = back.count();
        let mover = &parts.wheels[parts.tensioner.wheel];
        let on_back = mover.sense(parts.crank_turns) != parts.crank_turns;
        let marks = || parts.wheels.iter().filter_map(|w| w.mark);
        let freed = layout.freed_mm / parts.belt.pitch_mm;
        let slide = matches!(parts.tensioner.carrier, Carrier::Slide { .. });
        assert_eq!(slide, layout.kind == Kind::Slide);
        let smooth = parts.wheels.iter().filter(|w| w.teeth().is_none()).count();
        let has = [
            layout.kind == Kind::Slide,
            layout.kind == Kind::Arm,
            layout.kind == Kind::Eccentric,
            layout.kind == Kind::SprungEccentric,
            parts.crank_turns == Sense::Clockwise,
            parts.crank_turns == Sense::Anticlockwise,
            layout.all_inside,
            back == 3,
            on_back,
            !on_back,
            mover.teeth().is_some(),
            parts.wheels.iter().any(|w| w.teeth().is_some() && w.mark.is_none()),
            marks().any(|m| m.on == MarkOn::Tooth),
            marks().any(|m| m.on == MarkOn::Groove),
            parts.wheels.len() == 2,
            parts.wheels.len() == 10,
            (1.0 - 1e-9..4.0).contains(&freed),
            smooth > back,
        ];
        for (slot, has) in seen.iter_mut().zip(has) {
            slot.1 += u32::from(has);
        }
    }
    println!("of {SEEDS}: {seen:?}");
    for (name, count) in seen {
        assert!(count >= 100, "{name}: {count} of {SEEDS}");
    }
}
