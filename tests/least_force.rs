//! Where shafts end up when one is turned, or when the tensioner draws belt out, held against a general
//! linear programme: of all places that leave no run short, those that take the least work against
//! friction. And how much slack can come to a sprocket at the most.
//!
//! The programme is solved by `microlp` (Apache-2.0), a general solver by the simplex method in pure
//! Rust, which knows nothing of belts and works to about 1e-8.
//!
//! Must not know: chains, dragging, or in which order runs are looked at.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use drive::Hold;
use microlp::{ComparisonOp, OptimizationDirection, Problem};
use proofs::random::sound_layout;
use proofs::ring::between;
use proofs::state::State;

const CASES: u32 = 1000;
/// The solver's 1e-8, summed over a dozen sprockets and then some.
const NEAR_MM: f64 = 1e-6;
/// Slack below this is none to the solver, mm.
const SOLVER_MM: f64 = 1e-8;

/// What one sprocket may do, mm of belt travel, and what a millimetre of it costs, forward and back.
#[derive(Clone, Copy)]
struct May {
    cost: [f64; 2],
    ahead_mm: (f64, f64),
    back_mm: (f64, f64),
}

/// How far each sprocket moves, mm, where the costs together are least (or most) and no run is short.
fn best_moves(state: &State, least: bool, may: &[May]) -> Vec<f64> {
    let direction =
        if least { OptimizationDirection::Minimize } else { OptimizationDirection::Maximize };
    let mut problem = Problem::new(direction);
    let moves: Vec<_> = may
        .iter()
        .map(|m| (problem.add_var(m.cost[0], m.ahead_mm), problem.add_var(m.cost[1], m.back_mm)))
        .collect();
    for j in 0..may.len() {
        let (a, b) = (moves[j], moves[state.drive.next(j)]);
        // A hair counts as none, or what is held at both ends could not be met.
        let slack = state.slack_mm(j);
        let slack = if slack.abs() < SOLVER_MM { 0.0 } else { slack };
        let terms = [(a.0, 1.0), (a.1, -1.0), (b.0, -1.0), (b.1, 1.0)];
        problem.add_constraint(terms, ComparisonOp::Ge, -slack);
    }
    let solved = problem.solve().unwrap().into_solution().unwrap();
    moves.iter().map(|(ahead, back)| solved.var_value(*ahead) - solved.var_value(*back)).collect()
}

/// Every sprocket may move at the cost of its friction, what is held not at all.
fn as_held(state: &State) -> Vec<May> {
    let drive = &state.drive;
    let may = |k: usize| {
        let wheel = &drive.wheels()[drive.sprockets()[k].wheel];
        // N·mm over mm of radius: N.
        let cost = wheel.friction_n_m * 1000.0 / wheel.pitch_radius_mm(drive.belt());
        let most = if state.cord.holds()[k].is_some() { 0.0 } else { f64::INFINITY };
        May { cost: [cost; 2], ahead_mm: (0.0, most), back_mm: (0.0, most) }
    };
    (0..drive.sprockets().len()).map(may).collect()
}

/// A drive whose frictions are all different, slackened, stirred, some of it held.
fn drawn(seed: u64) -> State {
    let mut parts = sound_layout(seed).parts;
    let mut rng = fastrand::Rng::with_seed(seed ^ 0xF1);
    for wheel in &mut parts.wheels {
        wheel.friction_n_m = between(&mut rng, 0.5, 9.0);
    }
    let mut state = State::of(seed, parts).unwrap();
    state.slacken();
    state.stir();
    for k in 0..state.drive.sprockets().len() {
        if state.rng.u8(..4) == 0 {
            state.cord.hold(k, Some(Hold::Shaft));
        }
    }
    state
}

#[track_caller]
fn assert_moved(seed: u64, before: &State, after: &State, expected: &[f64]) {
    let mm = before.drive.mm_per_crank_deg();
    for (k, expected) in expected.iter().enumerate() {
        let moved = after.cord.turned()[k].since(before.cord.turned()[k]) * mm;
        let off = moved - expected;
        assert!(off.abs() < NEAR_MM, "seed {seed}: sprocket {k} moved {moved}, not {expected} mm");
    }
}

/// One sprocket turned, as far as what is held lets it: no other moves further than it must.
#[test]
fn a_turn_drags_no_more_than_it_must() {
    let (mut cases, mut stopped, mut dragged) = (0, 0, 0);
    for seed in 0.. {
        if cases == CASES {
            break;
        }
        let mut state = drawn(seed);
        let n = state.drive.sprockets().len();
        let k = state.rng.usize(0..n);
        let by_deg = between(&mut state.rng, -60.0, 60.0);
        let before = state.clone();
        let stop =
            state.cord.turn(&state.drive, &state.stance, k, state.cord.turned()[k].plus(by_deg));
        cases += 1;
        stopped += u32::from(stop.is_some());
        // How far it can go at all, the others free of cost.
        let by_mm = by_deg.abs() * state.drive.mm_per_crank_deg();
        let mut may: Vec<May> =
            as_held(&before).iter().map(|m| May { cost: [0.0; 2], ..*m }).collect();
        if before.cord.holds()[k].is_none() {
            let (ahead, back) = if by_deg > 0.0 { (by_mm, 0.0) } else { (0.0, by_mm) };
            may[k] = May { cost: [1.0; 2], ahead_mm: (0.0, ahead), back_mm: (0.0, back) };
        }
        let reach = best_moves(&before, false, &may)[k];
        assert_eq!(
            stop.is_some(),
            by_mm - reach.abs() > NEAR_MM,
            "seed {seed}: {reach} of {by_mm}"
        );
        // Then the least that the others must do; the solver must not be asked for its last digit.
        let there = (reach.abs() - SOLVER_MM).max(0.0);
        let mut may = as_held(&before);
        let (ahead, back) = if by_deg > 0.0 { (there, 0.0) } else { (0.0, there) };
        may[k] = May { cost: [0.0; 2], ahead_mm: (ahead, ahead), back_mm: (back, back) };
        let expected = best_moves(&before, true, &may);
        dragged += u32::from(expected.iter().filter(|mm| mm.abs() > 1e-3).count() > 1);
        assert_moved(seed, &before, &state, &expected);
    }
    println!("{cases} turns, {stopped} stopped, {dragged} dragged something");
    assert!(stopped > 100 && dragged > 200, "{stopped}, {dragged}");
}

/// The tensioner brought up: of all ways to give it the belt, the one that takes the least work.
#[test]
fn what_gives_is_what_takes_the_least_work() {
    let (mut cases, mut gave, mut several) = (0, 0, 0);
    for seed in 0.. {
        if cases == CASES {
            break;
        }
        let mut state = drawn(seed);
        if state.drive.wheels()[state.drive.tensioner().wheel].teeth().is_some() {
            // A sprocket that moves shortens two runs, and which of them is served first is not settled by
            // work alone.
            continue;
        }
        cases += 1;
        let taut = state.drive.taut().travel;
        let to = between(&mut state.rng, state.stance.travel, taut);
        let within = state.cord.travel_within_holds(&state.drive, &state.stance, to);
        state.stance = state.drive.stance_at(within);
        let before = state.clone();
        state.cord.give_way(&state.drive, &state.stance);
        let expected = best_moves(&before, true, &as_held(&before));
        let moving = expected.iter().filter(|mm| mm.abs() > 1e-3).count();
        gave += u32::from(moving > 0);
        several += u32::from(moving > 1);
        assert_moved(seed, &before, &state, &expected);
    }
    println!("{cases} moves, {gave} made something give, {several} several sprockets");
    assert!(gave > 300 && several > 100, "{gave}, {several}");
}

/// Slack within reach of a sprocket: the most that its two runs can hold together, whatever is turned that
/// is not held.
#[test]
fn slack_within_reach_is_the_most_that_can_come() {
    let (mut cases, mut part) = (0, 0);
    for seed in 0.. {
        if cases == CASES {
            break;
        }
        let mut state = drawn(seed);
        let n = state.drive.sprockets().len();
        for k in 0..n {
            if state.rng.u8(..3) == 0 {
                state.cord.hold(k, Some(Hold::Sprocket));
            }
        }
        let k = state.rng.usize(0..n);
        let (before, after) = (state.drive.previous(k), state.drive.next(k));
        cases += 1;
        // The runs either side grow as the one before turns forward and the one after turns back; a run
        // that both share is all there is.
        let mut may: Vec<May> =
            as_held(&state).iter().map(|m| May { cost: [0.0; 2], ..*m }).collect();
        let mut most = if n == 2 {
            state.all_slack_mm()
        } else {
            may[before].cost = [1.0, -1.0];
            may[after].cost = [-1.0, 1.0];
            // Turned all together nothing changes: one of them stays where it is.
            may[k] = May { cost: [0.0; 2], ahead_mm: (0.0, 0.0), back_mm: (0.0, 0.0) };
            let moves = best_moves(&state, false, &may);
            state.slack_mm(before) + state.slack_mm(k) + moves[before] - moves[after]
        };
        if most < 0.0 {
            most = 0.0;
        }
        let reach = state.cord.slack_within_reach_mm(&state.drive, &state.stance, k);
        part += u32::from(state.all_slack_mm() - reach > 1e-3);
        assert!((reach - most).abs() < NEAR_MM, "seed {seed}: {k} has {reach}, not {most} mm");
    }
    println!("{cases} cases, in {part} of them not all slack");
    assert!(part > 100, "{part}");
}
