//! The slack belt in hands, on ten thousand random drives: shafts held and let go, sprockets afloat on
//! them, the tensioner moved as far as what is held lets it, the belt off and on, springs. Nothing runs
//! short, nothing held moves, and it is all one whether a turn is done at once or in a thousand pieces.
//!
//! Must not know: how shafts drag one another. Slack is worked out from where the shafts stand.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use drive::{
    Cord, Hold, SPRING_REACH_DEG, Seat, TIGHT_MM, Turned, mark_error_teeth,
    returns_after_crank_turns, wrap_to,
};
use proofs::deed::{Came, Deed, Seen, apart, groove_phase};
use proofs::ring::between;
use proofs::state::State;

const SEEDS: u64 = 10_000;
/// Sums of a dozen terms of up to some thousand mm lose 1e-11 of one; a run that is a hair short,
/// within `TIGHT_MM`, counts as tight.
const NEAR_MM: f64 = 1e-9;

/// With the belt on: every run's slack is at least none, and all together are what the belt has over
/// the path.
#[track_caller]
fn assert_consistent(seed: u64, state: &State, after: &Deed) {
    if !state.cord.is_on() {
        return;
    }
    let mut all = 0.0;
    for j in 0..state.drive.sprockets().len() {
        let slack = state.slack_mm(j);
        assert!(slack >= -NEAR_MM, "seed {seed}: run {j} is {slack} mm short after {after:?}");
        let read = state.cord.slack_mm(&state.drive, &state.stance, j);
        assert!(
            read >= 0.0 && (read - slack).abs() < 2.0 * NEAR_MM,
            "seed {seed}: {read}, {slack}"
        );
        all += slack;
    }
    let off = all - state.all_slack_mm();
    assert!(off.abs() < NEAR_MM, "seed {seed}: {off} mm of slack too many after {after:?}");
}

/// Whatever is done in whatever order, no run is ever short, no slack is made or lost, and a loose
/// sprocket stays within its fixing's play.
#[test]
fn nothing_runs_short() {
    let mut seen = Seen::default();
    for seed in 0..SEEDS {
        let mut state = State::handled(seed).unwrap();
        for _ in 0..20 {
            let deed = state.draw_deed();
            state.carry_out(&deed);
            assert_consistent(seed, &state, &deed);
            for k in 0..state.drive.sprockets().len() {
                if matches!(state.cord.seats()[k], Seat::Loose { .. }) {
                    let (slip, (back, ahead)) = (state.cord.slip_deg(k), state.drive.play_deg(k));
                    // To the rounding of some thousand degrees.
                    let within = slip >= back - 1e-9 && slip <= ahead + 1e-9;
                    assert!(within, "seed {seed}: {k} slips {slip} of {back} to {ahead}: {deed:?}");
                }
            }
        }
        seen.see(&state);
    }
    println!("{seen:?}");
    assert!(seen.all(), "{seen:?}");
}

/// What is held stands where it stood, bit for bit, whatever else is turned, drawn up, let go or left to
/// its springs. Putting the belt on, which counts whole turns anew, may move what is held, and says
/// exactly what it moved and how far.
#[test]
fn nothing_held_moves() {
    let (mut stood, mut gave) = (0_u32, 0_u32);
    for seed in 0..SEEDS {
        let mut state = State::handled(seed).unwrap();
        for _ in 0..20 {
            let deed = state.draw_deed();
            let before = state.clone();
            let came = state.carry_out(&deed);
            let forced = match &came {
                Came::Hung(Ok(forced)) => Some(forced),
                Came::Hung(Err(_)) => {
                    assert_eq!(state.cord, before.cord, "seed {seed}: refused, and changed");
                    None
                }
                _ => None,
            };
            for k in 0..state.drive.sprockets().len() {
                if before.cord.holds()[k] != state.cord.holds()[k] {
                    continue;
                }
                let (Some(was), Some(is)) = (before.held_at(k), state.held_at(k)) else { continue };
                // Tightening tells the shaft by the sprocket from there on: the last bit may differ.
                if deed == Deed::Tighten(k) {
                    assert!(is.since(was).abs() < 1e-12, "seed {seed}: {was:?} to {is:?}");
                    continue;
                }
                let Some(forced) = forced else {
                    stood += 1;
                    assert_eq!(is, was, "seed {seed}: held {k} moved at {deed:?}");
                    continue;
                };
                let declared = forced.iter().find(|(held, _)| *held == k).map_or(0.0, |f| f.1);
                gave += u32::from(declared != 0.0);
                let z = f64::from(state.drive.sprockets()[k].teeth);
                let per_tooth = state.drive.crank_deg_per_tooth();
                let moved = wrap_to(is.since(was) / per_tooth - declared / per_tooth, z);
                assert!(moved.abs() < 1e-9, "seed {seed}: held {k} moved {moved} teeth unsaid");
            }
            if let Some(forced) = forced {
                let held = |k: usize| state.cord.holds()[k].is_some();
                assert!(forced.iter().all(|(k, _)| held(*k)), "seed {seed}: {forced:?}");
                // A hair's breadth is no giving: nobody should be told of it.
                assert!(forced.iter().all(|(_, by)| by.abs() > 1e-9), "seed {seed}: {forced:?}");
            }
        }
    }
    println!("held and stood {stood} times, gave to a short belt {gave} times");
    assert!(stood > 100_000 && gave > 500, "{stood}, {gave}");
}

/// A turn of a sprocket or of a shaft, whatever is held or afloat, cut into pieces that end at the same
/// place: the very same cord, and the very same stop.
#[test]
fn cutting_a_turn_into_pieces_changes_nothing() {
    let (mut stopped, mut afloat) = (0_u32, 0_u32);
    for seed in 0..SEEDS {
        let mut state = State::handled(seed).unwrap();
        let k = state.rng.usize(0..state.drive.sprockets().len());
        let of_shaft = state.rng.bool();
        let from = if of_shaft { state.cord.shaft(k) } else { state.cord.turned()[k] };
        let most = [3.0, 50.0, 20_000.0][(seed % 3) as usize];
        let to = from.plus(between(&mut state.rng, -most, most)).tidy();
        let turn = |cord: &mut Cord, to: Turned| {
            if of_shaft {
                cord.turn_shaft(&state.drive, &state.stance, k, to)
            } else {
                cord.turn(&state.drive, &state.stance, k, to)
            }
        };
        let mut whole = state.cord.clone();
        let stop = turn(&mut whole, to);
        stopped += u32::from(stop.is_some());
        afloat += u32::from(matches!(state.cord.seats()[k], Seat::Loose { .. }));
        let pieces: &[u32] = if seed % 10 == 0 { &[1, 7, 1000] } else { &[1, 7] };
        for &pieces in pieces {
            let mut cord = state.cord.clone();
            for n in 1..pieces {
                let part = from.plus(to.since(from) * f64::from(n) / f64::from(pieces)).tidy();
                turn(&mut cord, part);
            }
            assert_eq!(turn(&mut cord, to), stop, "seed {seed} in {pieces} pieces");
            assert_eq!(cord, whole, "seed {seed} in {pieces} pieces");
        }
    }
    println!("stopped {stopped}, afloat {afloat}");
    assert!(stopped > 500 && afloat > 500, "{stopped}, {afloat}");
}

/// Turned exactly to where the tight belt stops it, neither more nor less, a sprocket leaves what is held
/// where it is, bit for bit.
#[test]
fn drawn_exactly_tight_against_what_is_held() {
    let mut drawn = 0_u32;
    for seed in 0..SEEDS {
        let mut state = State::with_more_to_do(seed).unwrap();
        state.slacken();
        state.stir();
        let n = state.drive.sprockets().len();
        for k in 1..n {
            if state.drive.is_marked(k) {
                state.cord.hold(k, Some(Hold::Shaft));
            }
        }
        let Some(last) = (1..n).rev().find(|k| state.drive.is_marked(*k)) else { continue };
        let held_stand = |cord: &Cord| {
            let all = cord.turned().iter().zip(cord.holds());
            all.filter(|(_, hold)| hold.is_some()).map(|(t, _)| *t).collect::<Vec<_>>()
        };
        let before = state.clone();
        state.carry_out(&Deed::BringForward(0));
        assert_eq!(held_stand(&before.cord), held_stand(&state.cord), "seed {seed}");
        drawn += 1;
        for j in last..n {
            assert!(state.slack_mm(j).abs() < NEAR_MM, "seed {seed}: the pulled run {j} is tight");
        }
        // And no way further: asked to, it is drawn up to the very same place, shafts between and all.
        let there = state.cord.clone();
        let mut beyond = before.cord.clone();
        let on = there.turned()[0].plus(400.0);
        let stop = beyond.turn(&state.drive, &state.stance, 0, on);
        assert_eq!(stop, Some(last), "seed {seed}");
        assert!(beyond == there, "seed {seed}: {beyond:?}, {there:?}");
        // A last digit or two short of it, nothing held is dragged by one either.
        for short in 1..=4 {
            let mut cord = before.cord.clone();
            let to = beyond.turned()[0].plus(-2e-14 * f64::from(short));
            cord.turn(&state.drive, &state.stance, 0, to);
            assert_eq!(held_stand(&before.cord), held_stand(&cord), "seed {seed}");
        }
    }
    assert!(drawn > 5000, "{drawn}");
}

/// Forward and back by the same amount, with nothing held every mark is left further on by all the slack,
/// a shaft whose sprocket floats by its play besides; held ones stay, and so does all that lies
/// beyond them.
#[test]
fn forward_and_back_leaves_the_lash_where_nothing_is_held() {
    let mut floated = 0_u32;
    for seed in 0..SEEDS {
        let mut state = State::with_more_to_do(seed).unwrap();
        state.slacken();
        for k in 1..state.drive.sprockets().len() {
            let fixing = state.drive.wheels()[state.drive.sprockets()[k].wheel].fixing;
            if fixing != drive::Fixing::Keyed && state.rng.bool() {
                state.cord.slacken(k);
            }
        }
        let slack = state.all_slack_deg();
        let (drive, stance, cord) = (&state.drive, &state.stance, &mut state.cord);
        let mut to = |by: f64| {
            let to = cord.turned()[0].plus(by);
            cord.turn(drive, stance, 0, to);
            cord.clone()
        };
        // Far enough to take up slack and the play of every fixing.
        let before = to(slack + 2000.0);
        let far = slack + 2000.0 + 100.0 * fastrand::Rng::with_seed(seed).f64();
        to(far);
        to(-far);
        let home = before.turned()[0].since(cord.turned()[0]);
        assert!(home.abs() < 1e-9, "seed {seed}: {home}");
        cord.turn(drive, stance, 0, before.turned()[0]);
        for k in 1..drive.sprockets().len() {
            let left = cord.turned()[k].since(before.turned()[k]);
            assert!((left - slack).abs() < 1e-9, "seed {seed}: mark {k} left {left} of {slack}");
            let (back, ahead) = match cord.seats()[k] {
                Seat::Tight { .. } => (0.0, 0.0),
                Seat::Loose { .. } => drive.play_deg(k),
            };
            let left = cord.shaft(k).since(before.shaft(k));
            if back.is_finite() {
                floated += u32::from(back != ahead);
                let off = left - slack - (ahead - back);
                assert!(off.abs() < 1e-9, "seed {seed}: shaft {k} left {left} of {slack}");
            } else {
                assert_eq!(left, 0.0, "seed {seed}: nothing turns a shaft on its taper");
            }
        }
        // One sprocket held: the crank has all slack to go and not more, to and fro between the very same
        // places.
        let held = state.rng.usize(1..state.drive.sprockets().len());
        state.cord.hold(held, Some(Hold::Sprocket));
        let stood = state.cord.turned()[held];
        let [ahead, back, again] = [far, -far, far].map(|by| {
            let to = state.cord.turned()[0].plus(by);
            let stop = state.cord.turn(&state.drive, &state.stance, 0, to);
            assert_eq!(stop, Some(held), "seed {seed}");
            assert_eq!(state.cord.turned()[held], stood, "seed {seed}");
            state.cord.clone()
        });
        let lash = ahead.turned()[0].since(back.turned()[0]);
        assert!((lash - slack).abs() < 1e-9, "seed {seed}: the crank has {lash} of {slack}");
        assert_eq!(ahead.turned()[0], again.turned()[0], "seed {seed}");
    }
    assert!(floated > 1000, "{floated}");
}

/// Two turns of a tight belt bring back every mark that returns in two turns, and no other.
#[test]
fn two_turns_bring_back_what_returns_in_two() {
    let (mut back, mut away) = (0_u32, 0_u32);
    for seed in 0..SEEDS {
        let mut state = State::random(seed).unwrap();
        let taut = state.drive.taut().travel;
        state.move_to(taut);
        let crank_teeth = state.drive.crank_teeth();
        let errors = |state: &State| -> Vec<f64> {
            let marks = state.drive.sprockets().iter().zip(state.cord.turned());
            marks
                .map(|(s, t)| {
                    mark_error_teeth(*t, s.teeth, crank_teeth) * 360.0 / f64::from(s.teeth)
                })
                .collect()
        };
        let before = errors(&state);
        let to = state.cord.turned()[0].plus(720.0);
        state.turn(0, to);
        for (k, (was, is)) in before.iter().zip(errors(&state)).enumerate() {
            let off = wrap_to(is - was, 360.0).abs();
            let returns = returns_after_crank_turns(state.drive.sprockets()[k].teeth, crank_teeth);
            if 2_u64.is_multiple_of(returns) {
                back += 1;
                assert!(off < 1e-9, "seed {seed}: mark {k} is {off}° off after two turns");
            } else {
                away += 1;
                let least = 360.0 / f64::from(state.drive.sprockets()[k].teeth);
                assert!(off > least - 1e-9, "seed {seed}: mark {k} came back too soon");
            }
        }
    }
    println!("{back} came back, {away} did not");
    assert!(back > 10_000 && away > 1000, "{back}, {away}");
}

/// The tensioner stops where the belt between held shafts is tight, and not before: there nothing held
/// leaves a run short, a little further something would.
#[test]
fn the_tensioner_goes_as_far_as_what_is_held_lets_it() {
    let (mut stopped, mut free, mut at_once) = (0_u32, 0_u32, 0_u32);
    for seed in 0..SEEDS {
        let mut state = State::handled(seed).unwrap();
        if !state.cord.is_on() {
            continue;
        }
        let mm = state.drive.mm_per_crank_deg();
        let taut = state.drive.taut().travel;
        let right_back = state.drive.tensioner().right_back;
        let somewhere = between(&mut state.rng, right_back, taut);
        for to in [taut, somewhere, right_back, taut] {
            let from = state.stance.travel;
            let within = state.cord.travel_within_holds(&state.drive, &state.stance, to);
            let spare_mm = |travel: f64| {
                let stance = state.drive.stance_at(travel);
                state.cord.spare_between_holds_deg(&state.drive, &stance) * mm
            };
            assert!(spare_mm(within) >= -NEAR_MM, "seed {seed}: short by {}", -spare_mm(within));
            let (low, high) = (from.min(to), from.max(to));
            assert!(within >= low && within <= high, "seed {seed}: {within} of {low} to {high}");
            if within == to {
                free += 1;
            } else {
                stopped += 1;
                at_once += u32::from(within == from);
                // A millionth of travel draws out far more than a hair.
                let further = within + 1e-6 * (to - within).signum();
                // A toothed tensioner carries a groove along: a run beside it may grow shorter before it
                // grows longer, and what is tight to begin with may have some to spare a little on.
                let mover = &state.drive.wheels()[state.drive.tensioner().wheel];
                let turns_back = mover.teeth().is_some() && within == from;
                assert!(
                    turns_back || spare_mm(further) < -TIGHT_MM,
                    "seed {seed}: from {from} to {to} stopped at {within} with {} to spare a little on",
                    spare_mm(further)
                );
            }
            state.carry_out(&Deed::Tensioner(to));
            assert_consistent(seed, &state, &Deed::Tensioner(to));
        }
    }
    println!("stopped {stopped}, at once {at_once}, free {free}");
    assert!(stopped > 1000 && free > 1000, "{stopped}, {free}");
}

/// Springs turn a shaft only their own way, no further than their reach, and only one that stands at its
/// mark, bolted, with nothing holding it; what it drags goes along its way. Nothing runs short.
#[test]
fn springs_turn_what_stands_at_its_mark_their_own_way() {
    let (mut sprang, mut reached, mut stayed) = (0_u32, 0_u32, 0_u32);
    for seed in 0..SEEDS {
        let mut state = State::with_more_to_do(seed).unwrap();
        let most = state.drive.tensioner().right_back;
        state.move_to(most);
        let n = state.drive.sprockets().len();
        for k in 1..n {
            // Near the mark or a little off it; some held, some afloat.
            let teeth = between(&mut state.rng, -1.0, 1.0);
            let to = state.cord.turned()[k].plus(teeth * state.drive.crank_deg_per_tooth());
            state.turn(k, to);
            if state.rng.u8(..4) == 0 {
                let hold = if state.rng.bool() { Hold::Shaft } else { Hold::Sprocket };
                state.cord.hold(k, Some(hold));
            }
            let fixing = state.drive.wheels()[state.drive.sprockets()[k].wheel].fixing;
            if fixing != drive::Fixing::Keyed && state.rng.bool() {
                state.cord.slacken(k);
            }
        }
        if state.rng.u8(..4) == 0 {
            state.cord.take_off();
        }
        let before = state.clone();
        let Came::Sprang(turned) = state.carry_out(&Deed::Springs) else { panic!() };
        assert_consistent(seed, &state, &Deed::Springs);
        let spring =
            |k: usize| state.drive.wheels()[state.drive.sprockets()[k].wheel].spring_torque_n_m;
        for &(k, by) in &turned {
            sprang += 1;
            let z = f64::from(state.drive.sprockets()[k].teeth);
            let own_deg = by * f64::from(state.drive.crank_teeth()) / z;
            // The reach counts from the mark, which the shaft was at to half a tooth.
            let teeth = state.drive.sprockets()[k].teeth;
            let crank_teeth = state.drive.crank_teeth();
            let off = drive::mark_error_teeth(before.cord.turned()[k], teeth, crank_teeth);
            let ends_deg = (off * 360.0 / z + own_deg).abs();
            reached += u32::from((ends_deg - SPRING_REACH_DEG).abs() < 1e-9);
            assert!(ends_deg <= SPRING_REACH_DEG + 1e-9, "seed {seed}: {k} sprang to {ends_deg}°");
            assert!(by * spring(k) > 0.0, "seed {seed}: {k} sprang against its springs");
            assert_eq!(before.cord.holds()[k], None, "seed {seed}: {k} is held");
            let bolted = matches!(before.cord.seats()[k], Seat::Tight { .. });
            assert!(bolted && state.drive.is_marked(k), "seed {seed}: {k}");
        }
        // One sprang, or was dragged to or from its mark by another that did.
        let ways: Vec<f64> = turned.iter().map(|(_, by)| by.signum()).collect();
        for k in 0..n {
            let phase = groove_phase(&state.drive, &before.cord, k);
            let off = apart(phase, 0.0, f64::from(state.drive.sprockets()[k].teeth));
            let itself = turned.iter().find(|t| t.0 == k);
            let by = state.cord.turned()[k].since(before.cord.turned()[k]);
            if turned.len() == 1 {
                assert!(
                    itself.is_none() || off.abs() < 0.5,
                    "seed {seed}: {k} is {off} off its mark"
                );
            }
            // What is drawn tight is set anew: the last digit may go either way.
            assert!(by.abs() < 1e-11 || ways.contains(&by.signum()), "seed {seed}: {k} went {by}");
            if before.cord.holds()[k].is_some() {
                stayed += 1;
                assert_eq!(state.held_at(k), before.held_at(k), "seed {seed}: held {k} sprang");
            }
            if !state.cord.is_on() && itself.is_none() {
                assert_eq!(by, 0.0, "seed {seed}: no belt to drag {k}");
            }
        }
    }
    println!("sprang {sprang}, to the end of their reach {reached}, held {stayed}");
    assert!(sprang > 1000 && reached > 200 && stayed > 2000, "{sprang}, {reached}, {stayed}");
}
