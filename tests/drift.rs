//! Turning for as long as one likes: after any number of turns marks read as they did, and the belt's
//! stripes stand where counting puts them.
//!
//! Must not know: how turns are kept.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::TAU;
use drive::{Pose, Turned, returns_after_crank_turns, stripe_drift_teeth};
use proofs::state::State;

const SEEDS: u64 = 10_000;
const MOST_TURNS: i64 = 1_000_000_000;

/// Turns the crank from beyond on one side to `turns` and `deg`, so that it drags everything.
fn bring_crank(state: &mut State, turns: i64, deg: f64, forward: bool) {
    let run_up = state.all_slack_deg() + 400.0;
    let from = Turned { turns, deg }.plus(if forward { -run_up } else { run_up });
    state.turn(0, from);
    let far = if forward { -run_up } else { run_up };
    state.turn(0, from.plus(far));
    state.turn(0, Turned { turns, deg });
}

/// N·z of the crank counted round the belt: the stripe on belt tooth 0 is that many teeth past the
/// crank's reference groove, so that groove holds the tooth that many before it.
#[test]
fn the_stripe_is_where_counting_puts_it() {
    for seed in 0..SEEDS {
        let mut state = State::random(seed).unwrap();
        let turns = state.rng.i64(-MOST_TURNS..=MOST_TURNS);
        state.turn(0, Turned { turns, deg: 0.0 });
        let pose = Pose::of(&state.drive, &state.stance, &state.cord);
        let crank = &state.drive.sprockets()[0];
        let disc = &state.stance.discs[crank.wheel];
        let groove = disc.centre + proofs::plain::unit(crank.at_rad) * disc.radius;
        let teeth = i128::from(state.drive.belt().teeth);
        let drift = (i128::from(turns) * i128::from(crank.teeth)).rem_euclid(teeth);
        let there = (teeth - drift) % teeth;
        let off = (pose.teeth[there as usize].at - groove).length();
        let wrap = state.stance.path.wraps_rad[crank.wheel];
        let in_mesh = state.stance.before_mm[0] >= 0.0 && state.stance.after_mm[0] >= 0.0;
        assert!(in_mesh || wrap < TAU / f64::from(crank.teeth), "seed {seed}");
        assert!(!in_mesh || off < 1e-6, "seed {seed}, {turns} turns: {off}");
        let said = stripe_drift_teeth(turns, state.drive.belt().teeth, crank.teeth);
        assert_eq!(i128::from(said), drift, "seed {seed}");
    }
}

/// Slack and the shafts' places against one another are the same at the thousand-millionth turn as at
/// the first, to the last digits of a degree within one turn.
#[test]
fn far_away_reads_as_near() {
    for seed in 0..SEEDS {
        let mut state = State::random(seed).unwrap();
        let deg = state.rng.f64() * 360.0;
        let forward = state.rng.bool();
        let far = state.rng.i64(MOST_TURNS / 2..=MOST_TURNS);
        let read = |state: &mut State, turns: i64| {
            bring_crank(state, turns, deg, forward);
            // Some of the slack shared out.
            let shared = state.all_slack_deg() / 3.0;
            let to = state.cord.turned()[0].plus(if forward { -shared } else { shared });
            state.turn(0, to);
            let pose = Pose::of(&state.drive, &state.stance, &state.cord);
            let crank = state.cord.turned()[0];
            let lead: Vec<f64> = state.cord.turned().iter().map(|t| t.since(crank)).collect();
            (pose.slack_mm, lead, pose.teeth.len())
        };
        let near = read(&mut state, 0);
        for turns in [far, -far] {
            let there = read(&mut state, turns);
            for (a, b) in near.0.iter().zip(&there.0).chain(near.1.iter().zip(&there.1)) {
                assert!((a - b).abs() < 1e-9, "seed {seed} at {turns}: {a}, {b}");
            }
        }
    }
}

/// After as many turns as bring every shaft back, every mark has the very same error: bit for bit,
/// both ways, near the first turn and near the thousand-millionth.
#[test]
fn marks_come_back_exactly() {
    for seed in 0..SEEDS {
        let mut state = State::random(seed).unwrap();
        let crank_teeth = state.drive.crank_teeth();
        let period = state.drive.sprockets().iter().fold(1_u64, |turns, s| {
            drive::lcm(turns, returns_after_crank_turns(s.teeth, crank_teeth)).unwrap()
        }) as i64;
        let forward = state.rng.bool();
        let deg = state.rng.f64() * 360.0;
        let errors = |state: &State| -> Vec<Option<f64>> {
            let pose = Pose::of(&state.drive, &state.stance, &state.cord);
            (0..state.drive.wheels().len())
                .map(|i| pose.mark_error_teeth(&state.drive, i))
                .collect()
        };
        bring_crank(&mut state, 0, deg, forward);
        let before = errors(&state);
        let many = state.rng.i64(1..=(MOST_TURNS / period).max(1)) * period;
        for turns in [period, -period, many, -many] {
            bring_crank(&mut state, turns, deg, forward);
            assert_eq!(errors(&state), before, "seed {seed} after {turns} turns");
        }
        // One turn fewer leaves some shaft elsewhere, unless every shaft comes back each turn.
        if period > 1 {
            bring_crank(&mut state, many - 1, deg, forward);
            let all_marked = state.drive.sprockets().iter().all(|s| s.past_mark_teeth.is_some());
            assert!(!all_marked || errors(&state) != before, "seed {seed}");
        }
    }
}

/// A round of work that ends where it began: belt slackened, crank turned on and back, belt tightened,
/// crank turned on two turns. From the second time on every round leaves the very same state, and
/// tightening what is tight changes nothing.
#[test]
fn a_thousand_rounds_leave_no_trace() {
    for seed in 0..200 {
        let mut state = State::random(seed).unwrap();
        let (back, taut) = (state.drive.tensioner().right_back, state.drive.taut().travel);
        let mut settled = None;
        for round in 0..1000_i64 {
            state.move_to(back);
            state.turn(0, Turned { turns: 5, deg: 77.0 });
            state.turn(0, Turned { turns: -3, deg: 12.5 });
            state.move_to(taut);
            let again = {
                let mut cord = state.cord.clone();
                cord.give_way(&state.drive, &state.stance);
                cord
            };
            for (a, b) in again.turned().iter().zip(state.cord.turned()) {
                assert!(a.since(*b).abs() < 1e-12, "seed {seed}, round {round}: {a:?} {b:?}");
            }
            state.turn(0, Turned { turns: 2, deg: 0.0 });
            match &settled {
                Some(settled) => assert_eq!(&state.cord, settled, "seed {seed}, round {round}"),
                None => settled = Some(state.cord.clone()),
            }
        }
    }
}
