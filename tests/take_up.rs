//! The slack belt as a cord, on ten thousand random drives: slack is neither made nor lost, turning
//! moves it from run to run, and tightening takes it up.
//!
//! Must not know: how shafts drag one another. Slack is worked out from where the shafts stand.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use drive::{Cord, Drive, Pose, wrap_to};
use proofs::random::sound_layout;
use proofs::ring::between;
use proofs::state::State;

const SEEDS: u64 = 10_000;
const NEAR_MM: f64 = 1e-9;

/// Every run's slack is at least none, all together are what the belt has over the path, and the
/// reading is that slack.
#[track_caller]
fn assert_consistent(seed: u64, state: &State) {
    let runs = state.drive.sprockets().len();
    let mut all = 0.0;
    for j in 0..runs {
        let slack = state.slack_mm(j);
        assert!(slack >= -NEAR_MM, "seed {seed}: run {j} is {slack} mm short");
        let read = state.cord.slack_mm(&state.drive, &state.stance, j);
        assert!(read >= 0.0 && (read - slack).abs() < 2.0 * NEAR_MM, "seed {seed}: {read}");
        all += slack;
    }
    let off = all - state.all_slack_mm();
    assert!(off.abs() < NEAR_MM, "seed {seed}: {off} mm of slack too many");
}

#[test]
fn slack_is_neither_made_nor_lost() {
    for seed in 0..SEEDS {
        let mut state = State::random(seed).unwrap();
        assert_consistent(seed, &state);
        for _ in 0..3 {
            state.slacken();
            state.stir();
            assert_consistent(seed, &state);
            state.tighten();
            assert_consistent(seed, &state);
            state.stir();
            assert_consistent(seed, &state);
        }
    }
}

fn turn_crank(state: &mut State, by_deg: f64) {
    let to = state.cord.turned()[0].plus(by_deg).tidy();
    state.turn(0, to);
}

/// Forward the crank draws all slack into the run that leaves it, backward into the run that arrives.
#[test]
fn the_crank_sweeps_all_slack_to_one_side() {
    for seed in 0..SEEDS {
        let mut state = State::random(seed).unwrap();
        state.slacken();
        let last = state.drive.sprockets().len() - 1;
        for (way, run) in [(1.0, 0), (-1.0, last)] {
            let by = way * (state.all_slack_deg() + 1.0);
            turn_crank(&mut state, by);
            for j in 0..=last {
                let expected = if j == run { state.all_slack_mm() } else { 0.0 };
                let slack = state.slack_mm(j);
                assert!((slack - expected).abs() < NEAR_MM, "seed {seed}: run {j} holds {slack}");
            }
        }
    }
}

/// Forward and back by the same amount, every shaft is left further on by all the slack; turned back
/// by no more than the slack, no other shaft moves at all.
#[test]
fn forward_and_back_leaves_the_lash() {
    for seed in 0..SEEDS {
        let mut state = State::random(seed).unwrap();
        state.slacken();
        let slack = state.all_slack_deg();
        turn_crank(&mut state, slack + 1.0);
        let before = state.cord.clone();
        let home = before.turned()[0];
        if slack > 1e-6 {
            turn_crank(&mut state, -0.999 * slack);
            for (k, turned) in state.cord.turned().iter().enumerate().skip(1) {
                assert_eq!(*turned, before.turned()[k], "seed {seed}: nothing drags shaft {k}");
            }
            state.turn(0, home);
        }
        let far = slack + between(&mut state.rng, 1.0, 2000.0);
        turn_crank(&mut state, far);
        turn_crank(&mut state, -far);
        state.turn(0, home);
        for (k, turned) in state.cord.turned().iter().enumerate().skip(1) {
            let left = turned.since(before.turned()[k]);
            assert!((left - slack).abs() < 1e-9, "seed {seed}: shaft {k} left {left} of {slack}");
        }
    }
}

/// A turn cut into pieces that end at the same place gives the very same cord, bit for bit.
#[test]
fn cutting_a_turn_into_pieces_changes_nothing() {
    for seed in 0..SEEDS {
        let mut state = State::random(seed).unwrap();
        let k = state.rng.usize(0..state.drive.sprockets().len());
        let from = state.cord.turned()[k];
        let most = [3.0, 50.0, 20_000.0][(seed % 3) as usize];
        let to = from.plus(between(&mut state.rng, -most, most)).tidy();
        let whole = {
            let mut cord = state.cord.clone();
            cord.turn(&state.drive, &state.stance, k, to);
            cord
        };
        let pieces: &[u32] = if seed % 10 == 0 { &[7, 1000] } else { &[7] };
        for &pieces in pieces {
            let mut cord = state.cord.clone();
            for n in 1..pieces {
                let part = from.plus(to.since(from) * f64::from(n) / f64::from(pieces)).tidy();
                cord.turn(&state.drive, &state.stance, k, part);
            }
            cord.turn(&state.drive, &state.stance, k, to);
            assert_eq!(cord, whole, "seed {seed} in {pieces} pieces");
        }
    }
}

/// However it was slackened and turned, brought up to tight it holds no slack anywhere: every shaft
/// stands where its neighbour puts it.
#[test]
fn tight_is_tight() {
    for seed in 0..SEEDS {
        let mut state = State::random(seed).unwrap();
        state.slacken();
        state.stir();
        let taut = state.drive.taut().travel;
        state.move_to(taut);
        assert_consistent(seed, &state);
        for j in 0..state.drive.sprockets().len() {
            let slack = state.slack_mm(j);
            assert!(slack.abs() < NEAR_MM, "seed {seed}: run {j} holds {slack}");
        }
        // And as the same teeth would stand had they never been slack, turned on to the same place.
        let mut fresh = Cord::in_time(&state.drive);
        for (k, teeth) in state.cord.teeth_out().iter().enumerate() {
            fresh.set_teeth(&state.drive, k, *teeth);
        }
        fresh.turn(&state.drive, &state.stance, 0, state.cord.turned()[0]);
        for (a, b) in fresh.turned().iter().zip(state.cord.turned()) {
            assert!(a.since(*b).abs() < 1e-8, "seed {seed}: {a:?}, {b:?}");
        }
    }
}

/// Where either end of a run that grows too short could give, the one that is harder to turn stays.
#[test]
fn the_harder_shaft_is_not_dragged() {
    let mut tried = 0;
    for seed in 0..SEEDS {
        let mut parts = sound_layout(seed).parts;
        let n = parts.wheels.len();
        let mover = parts.tensioner.wheel;
        if parts.wheels[mover].teeth().is_some() {
            // A sprocket that moves shortens two runs at once.
            continue;
        }
        tried += 1;
        let toothed = |i: &usize| parts.wheels[*i].teeth().is_some();
        let behind = (1..n).map(|k| (mover + n - k) % n).find(toothed).unwrap();
        let ahead = (1..n).map(|k| (mover + k) % n).find(toothed).unwrap();
        let behind_is_hard = seed % 2 == 0;
        parts.wheels[behind].friction_n_m = if behind_is_hard { 900.0 } else { 1.0 };
        parts.wheels[ahead].friction_n_m = if behind_is_hard { 1.0 } else { 900.0 };
        let drive = Drive::new(parts).unwrap();
        let (a, b) = (drive.sprocket_of(behind).unwrap(), drive.sprocket_of(ahead).unwrap());
        let back = drive.stance_at(drive.tensioner().right_back);
        let slack = drive.slack_when_back_mm() / drive.mm_per_crank_deg();
        let mut cord = Cord::in_time(&drive);
        // A third of the slack to either side of the run, a third left in it.
        let (to_a, to_b) =
            (cord.turned()[a].plus(-slack / 3.0), cord.turned()[b].plus(slack / 3.0));
        cord.turn(&drive, &back, a, to_a);
        cord.turn(&drive, &back, b, to_b);
        let half = drive.belt().pitch_length_mm() - drive.slack_when_back_mm() / 2.0;
        let (low, high) = (drive.tensioner().right_back, drive.taut().travel);
        let travel =
            proofs::tensioning::bisect(low, high, |q| drive.stance_at(q).path.length_mm < half);
        let before = cord.clone();
        cord.give_way(&drive, &drive.stance_at(travel));
        let gave = |k: usize| cord.turned()[k].since(before.turned()[k]);
        // Half of the slack is taken up, a third of it from the run itself: a sixth must give.
        let expected = if behind_is_hard { (0.0, -slack / 6.0) } else { (slack / 6.0, 0.0) };
        assert!((gave(a) - expected.0).abs() < 1e-8, "seed {seed}: behind gave {}", gave(a));
        assert!((gave(b) - expected.1).abs() < 1e-8, "seed {seed}: ahead gave {}", gave(b));
        for k in (0..drive.sprockets().len()).filter(|k| *k != a && *k != b) {
            assert!(gave(k).abs() < 1e-9, "seed {seed}: shaft {k} is no part of it");
        }
    }
    assert!(tried > 3000, "{tried}");
}

/// One shaft put some teeth out: its mark moves by so many, no other does, and no slack moves. The
/// crank put ahead is every other shaft put behind.
#[test]
fn teeth_out_move_one_mark() {
    for seed in 0..SEEDS {
        let mut state = State::random(seed).unwrap();
        let k = state.rng.usize(0..state.drive.sprockets().len());
        let by = state.rng.i64(-5..=5);
        let before = state.clone();
        let was = before.cord.teeth_out()[k];
        state.cord.set_teeth(&state.drive, k, was + by);
        assert_consistent(seed, &state);
        let read = |state: &State| Pose::of(&state.drive, &state.stance, &state.cord);
        let (earlier, later) = (read(&before), read(&state));
        for (j, sprocket) in state.drive.sprockets().iter().enumerate() {
            let z = f64::from(sprocket.teeth);
            let moved = match (k, j) {
                (0, 0) => 0.0,
                (0, _) => -by as f64,
                (k, j) if k == j => by as f64,
                _ => 0.0,
            };
            let i = sprocket.wheel;
            if let Some(was) = earlier.mark_error_teeth(&state.drive, i) {
                let is = later.mark_error_teeth(&state.drive, i).unwrap();
                assert!(wrap_to(is - was - moved, z).abs() < 1e-9, "seed {seed}: {was}, {is}");
            }
            let slack = before.slack_mm(j) - state.slack_mm(j);
            assert!(slack.abs() < NEAR_MM, "seed {seed}: run {j} lost {slack}");
        }
        // And back again.
        state.cord.set_teeth(&state.drive, k, was);
        for (a, b) in state.cord.turned().iter().zip(before.cord.turned()) {
            assert!(a.since(*b).abs() < 1e-9, "seed {seed}");
        }
    }
}
