//! Everything that a person can do, in any order, on the layouts that ship and on random ones: what is
//! refused changes nothing, undo goes all the way back and redo all the way on, nothing held moves
//! unsaid, no run is short and no reading is ever not a number.
//!
//! Must not know: how an action is done, or which should be refused.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use drive::{Cord, Hold, Stance, Turned};
use fastrand::Rng;
use job::{Action, BeltMove, Did, HangAs, Job, Outcome, TensionerMove, Work};
use layout::Plan;
use proofs::random::sound_layout;
use std::collections::BTreeMap;
use std::path::Path;
use std::rc::Rc;

const SEQUENCES: u64 = 2000;
const ACTIONS: usize = 40;
const NEAR_MM: f64 = 1e-9;

fn shipped() -> Vec<Rc<Plan>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../layouts");
    let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut files: Vec<_> = files.filter(|p| p.extension().is_some_and(|e| e == "toml")).collect();
    files.sort();
    assert_eq!(files.len(), 6);
    let open = |file: &std::path::PathBuf| {
        Rc::new(Plan::open(&std::fs::read_to_string(file).unwrap()).unwrap())
    };
    files.iter().map(open).collect()
}

/// A shipped layout and a random one by turns.
fn plan(shipped: &[Rc<Plan>], n: u64) -> Rc<Plan> {
    if n.is_multiple_of(2) {
        Rc::clone(&shipped[(n / 2) as usize % shipped.len()])
    } else {
        Rc::new(Plan::open(&sound_layout(n).with_more_to_do().toml()).unwrap())
    }
}

/// A shaft's id, or now and then a wheel that is none, or no wheel at all.
fn shaft(rng: &mut Rng, plan: &Plan) -> String {
    let drive = &plan.drive;
    match rng.u8(..20) {
        0 => "no_such_wheel".to_owned(),
        1 => plan.id(rng.usize(..drive.wheels().len())).to_owned(),
        _ => plan.id(drive.sprockets()[rng.usize(..drive.sprockets().len())].wheel).to_owned(),
    }
}

/// Degrees, small or large, now and then beyond anything.
fn degrees(rng: &mut Rng) -> f64 {
    let odd = [0.0, 360.0, -720.0, 5e8, f64::NAN, f64::INFINITY];
    match rng.u8(..12) {
        0 => odd[rng.usize(..odd.len())],
        1 => (rng.f64() - 0.5) * 1e6,
        2..6 => (rng.f64() - 0.5) * 2000.0,
        _ => (rng.f64() - 0.5) * 60.0,
    }
}

fn draw(rng: &mut Rng, job: &Job) -> Action {
    let plan = job.plan();
    let shaft = shaft(rng, plan);
    let moves = [TensionerMove::Back, TensionerMove::Back, TensionerMove::BoltUp];
    match rng.u8(..20) {
        0..3 => Action::Turn { shaft, deg: degrees(rng) },
        3 => Action::TurnTo { crank_deg: degrees(rng) },
        4 | 5 => Action::BringForward { shaft },
        6 | 7 => Action::Hold { shaft },
        8 => Action::Release { shaft },
        9 | 10 => Action::Slacken { shaft },
        11 => Action::Tighten { shaft },
        12 => Action::Belt(BeltMove::Off),
        13 => Action::Hang(if rng.bool() { HangAs::InTime } else { HangAs::AsItFalls }),
        14 => {
            let gaps = job.drive().gaps();
            let now = job.cord().teeth_as_it_falls(job.drive(), job.stance());
            let mut named = BTreeMap::new();
            for (gap, teeth) in gaps.iter().zip(now) {
                if rng.bool() {
                    named.insert(job.gap_name(*gap), teeth + rng.i64(-1..=2));
                }
            }
            if rng.u8(..10) == 0 {
                named.insert("crank>nowhere".to_owned(), 10);
            }
            Action::Hang(HangAs::Teeth(named))
        }
        15 => {
            let (back, taut) = (job.drive().tensioner().right_back, job.drive().taut().travel);
            let travel = job.travel_unit().outside(back + (taut - back) * (rng.f64() * 1.4 - 0.2));
            Action::TensionerTo { travel: if rng.u8(..10) == 0 { f64::NAN } else { travel } }
        }
        16 | 17 => Action::Tensioner(moves[rng.usize(..3)]),
        18 => Action::Tensioner(TensionerMove::PullPin),
        _ => {
            let most = if rng.u8(..5) == 0 { 100 } else { 3 };
            Action::SetTeeth(BTreeMap::from([(shaft, rng.i64(-most..=most))]))
        }
    }
}

fn kind(action: &Action) -> &'static str {
    match action {
        Action::Turn { .. } => "turn",
        Action::TurnTo { .. } => "turn_to",
        Action::BringForward { .. } => "bring_forward",
        Action::Hold { .. } => "hold",
        Action::Release { .. } => "release",
        Action::Slacken { .. } => "slacken",
        Action::Tighten { .. } => "tighten",
        Action::Belt(_) => "belt",
        Action::Hang(_) => "hang",
        Action::TensionerTo { .. } => "tensioner_to",
        Action::Tensioner(_) => "tensioner",
        Action::SetTeeth(_) => "set_teeth",
    }
}

fn state(job: &Job) -> (Cord, Stance, Work) {
    (job.cord().clone(), job.stance().clone(), *job.work())
}

/// What is held, and where it stands.
fn held(job: &Job) -> Vec<Option<(Hold, Turned)>> {
    let place = |(k, hold): (usize, &Option<Hold>)| {
        hold.map(|hold| match hold {
            Hold::Shaft => (hold, job.cord().shaft(k)),
            Hold::Sprocket => (hold, job.cord().turned()[k]),
        })
    };
    job.cord().holds().iter().enumerate().map(place).collect()
}

#[track_caller]
fn assert_sound(n: u64, job: &Job, after: &Action) {
    let readings = format!("{:?}", advice::readings(job));
    assert!(!readings.contains("NaN") && !readings.contains("inf"), "{n}, {after:?}: {readings}");
    let pose = format!("{:?}", advice::pose(job));
    assert!(!pose.contains("NaN") && !pose.contains("inf"), "{n}, {after:?}: {pose}");
    if !job.cord().is_on() {
        return;
    }
    let (drive, stance, cord) = (job.drive(), job.stance(), job.cord());
    let mut all = 0.0;
    for j in 0..drive.sprockets().len() {
        let lead = cord.turned()[j].since(cord.turned()[drive.next(j)]) * drive.mm_per_crank_deg();
        let belt = cord.teeth(drive, j) as f64 * drive.belt().pitch_mm;
        let slack = belt - stance.run_mm[j] + lead;
        assert!(slack > -NEAR_MM, "{n}: run {j} is {slack} mm short after {after:?}");
        all += slack;
    }
    let over = drive.belt().pitch_length_mm() - stance.path.length_mm;
    // A million degrees of turning leave their last digits in each sum.
    assert!((all - over).abs() < NEAR_MM, "{n}: {all} mm of slack for {over} after {after:?}");
}

/// What an action may do to what is held: hanging only what it says gave, putting teeth out and holding
/// only what they are asked to.
#[track_caller]
fn assert_held(
    n: u64,
    before: &[Option<(Hold, Turned)>],
    job: &Job,
    did: &Outcome,
    action: &Action,
) {
    let own = match action {
        Action::Hold { shaft } | Action::Tighten { shaft } => Some(shaft.as_str()),
        _ => None,
    };
    for (k, (was, is)) in before.iter().zip(held(job)).enumerate() {
        let (Some((by, was)), Some((now_by, is))) = (was, is) else { continue };
        let wheel = job.drive().sprockets()[k].wheel;
        if *by != now_by || own == Some(job.plan().id(wheel)) {
            continue;
        }
        if matches!(action, Action::Hang(_)) {
            // Turns are counted anew: what shows is the mark.
            let z = job.drive().sprockets()[k].teeth;
            let moved = is.since(*was) / job.drive().crank_deg_per_tooth();
            let said = did.gave.iter().find(|g| g.wheel == wheel).map_or(0.0, |g| g.deg);
            let unsaid = drive::wrap_to(moved - said * f64::from(z) / 360.0, f64::from(z));
            assert!(unsaid.abs() < 1e-8, "{n}: held {k} moved {unsaid} teeth unsaid at {action:?}");
        } else {
            assert_eq!(is, *was, "{n}: held {k} moved at {action:?}");
        }
    }
}

#[test]
fn whatever_is_done_can_be_undone_and_what_is_refused_changes_nothing() {
    let shipped = shipped();
    let mut counts: BTreeMap<&str, (u32, u32)> = BTreeMap::new();
    let (mut gave, mut sprang) = (0_usize, 0_usize);
    for n in 0..SEQUENCES {
        let mut rng = Rng::with_seed(n ^ 0xD0);
        let mut job = Job::new(plan(&shipped, n));
        let start = state(&job);
        for _ in 0..ACTIONS {
            let action = draw(&mut rng, &job);
            let before = state(&job);
            let (steps, pose) = (job.next_steps().0.cloned(), advice::pose(&job));
            let held_before = held(&job);
            let count = counts.entry(kind(&action)).or_default();
            let goes_on = rng.u8(..10) == 0;
            match job.act(&action, goes_on) {
                Err(_) => {
                    count.1 += 1;
                    assert_eq!(state(&job), before, "{n}: refused {action:?}");
                    assert_eq!(job.next_steps().0.cloned(), steps, "{n}: refused {action:?}");
                    assert_eq!(advice::pose(&job), pose, "{n}: refused {action:?}");
                }
                Ok(outcome) => {
                    count.0 += 1;
                    gave += outcome.gave.len();
                    sprang += outcome.sprang.len();
                    assert_sound(n, &job, &action);
                    assert_held(n, &held_before, &job, &outcome, &action);
                }
            }
            if rng.u8(..8) == 0 {
                let here = state(&job);
                if job.undo().is_some() {
                    job.redo().unwrap();
                }
                assert_eq!(state(&job), here, "{n}: undone and done again");
            }
        }
        let end = state(&job);
        while job.undo().is_some() {}
        assert_eq!(state(&job), start, "{n}: undone all the way");
        while job.redo().is_some() {}
        assert_eq!(state(&job), end, "{n}: done again all the way");
    }
    println!("done and refused: {counts:?}; gave {gave}, sprang {sprang}");
    assert_eq!(counts.len(), 12, "every kind of action");
    for (kind, (done, refused)) in &counts {
        // A tensioner can always be moved to a place that has a name.
        assert!(*done > 50 && (*refused > 0 || *kind == "tensioner"), "{kind}: {done}, {refused}");
    }
    assert!(gave > 20 && sprang > 100, "{gave}, {sprang}");
}

/// A run of the crank, frame by frame, ends exactly where one action does, and is one step.
#[test]
fn a_run_frame_by_frame_ends_where_the_action_does() {
    let shipped = shipped();
    let (mut went, mut stopped) = (0_u32, 0_u32);
    for n in 0..SEQUENCES {
        let mut rng = Rng::with_seed(n ^ 0x0F);
        let mut job = Job::new(plan(&shipped, n));
        for _ in 0..ACTIONS / 2 {
            let action = draw(&mut rng, &job);
            let _ = job.act(&action, false);
        }
        let before = state(&job);
        let crank_deg = job.crank().total_deg() + (rng.f64() - 0.5) * 1500.0;
        let mut at_once = job.clone();
        let Ok(outcome) = at_once.act(&Action::TurnTo { crank_deg }, false) else {
            assert!(job.begin_run(crank_deg).is_err(), "{n}");
            assert_eq!(state(&job), before, "{n}");
            continue;
        };
        let from = job.crank();
        let (foretold, end) = job.begin_run(crank_deg).unwrap();
        assert_eq!(foretold, outcome, "{n}");
        assert_eq!(state(&job), before, "{n}: begun, and nothing turned yet");
        let frames = rng.u32(1..60);
        for frame in 1..frames {
            let part = end.since(from) * f64::from(frame) / f64::from(frames);
            job.run_crank_to(from.plus(part).tidy());
        }
        job.run_crank_to(Turned::from_deg(crank_deg));
        stopped += u32::from(matches!(foretold.did, Did::TurnedTo { stopped_by: Some(_), .. }));
        if end.since(from).abs() > 1e-9 {
            went += 1;
            assert_eq!(state(&job), state(&at_once), "{n} in {frames} frames");
        } else {
            // Tight already, it goes nowhere: frames a last digit apart may pull a shaft along by one.
            for (a, b) in job.cord().turned().iter().zip(at_once.cord().turned()) {
                assert!(a.since(*b).abs() < 1e-9, "{n} in {frames} frames: {a:?}, {b:?}");
            }
        }
        job.undo().unwrap();
        assert_eq!(state(&job), before, "{n}: one step");
    }
    println!("went {went}, stopped {stopped}");
    assert!(went > 500 && stopped > 100, "{went}, {stopped}");
}

/// The fitting rehearsed on the layouts that ship: every shaft but the crank held at its mark, the crank
/// backed off, the belt hung with so many teeth in the pulled gap, the crank brought forward. However far it
/// was backed off it lands on the same place, and a tooth more lands it a tooth ahead.
#[test]
fn the_fitting_rehearsed_on_the_layouts_that_ship() {
    let mut landed = 0_u32;
    for plan in shipped() {
        let title = &plan.layout.title;
        let drive = &plan.drive;
        let gaps = drive.gaps();
        let last = gaps.len() - 1;
        let in_time = drive.gap_teeth_in_time();
        let mut landings: BTreeMap<i64, (f64, Vec<u32>)> = BTreeMap::new();
        for more in -1..=1_i64 {
            for back_off in 0..=6_u32 {
                let mut job = Job::new(Rc::clone(&plan));
                let mut act = |action: Action| job.act(&action, false);
                for gap in &gaps[1..] {
                    let shaft = plan.id(drive.sprockets()[gap.from].wheel).to_owned();
                    // Before anything is loose: valve springs turn what nothing holds.
                    act(Action::Hold { shaft: shaft.clone() }).unwrap();
                    // Afloat on its shaft, a sprocket meets the belt and nothing held has to give.
                    let _ = act(Action::Slacken { shaft });
                }
                act(Action::Tensioner(TensionerMove::Back)).unwrap();
                act(Action::Belt(BeltMove::Off)).unwrap();
                let deg = -f64::from(back_off) * drive.crank_deg_per_tooth();
                act(Action::Turn { shaft: "crank".to_owned(), deg }).unwrap();
                let name = |g: usize| {
                    let id = |k: usize| plan.id(drive.sprockets()[k].wheel);
                    format!("{}>{}", id(gaps[g].from), id(gaps[g].to))
                };
                let teeth = BTreeMap::from([(name(last), in_time[last] + more)]);
                let Ok(hung) = act(Action::Hang(HangAs::Teeth(teeth))) else { continue };
                // Where they have to give, so does where the crank lands.
                if !hung.gave.is_empty() {
                    continue;
                }
                act(Action::BringForward { shaft: "crank".to_owned() }).unwrap();
                let there = job.crank().total_deg();
                let landing = landings.entry(more).or_insert((there, Vec::new()));
                landing.1.push(back_off);
                landed += 1;
                let off = there - landing.0;
                assert!(off.abs() < NEAR_MM, "{title}: {back_off} back lands {off} off");
            }
        }
        println!("{title}: {landings:?}");
        for (more, (there, _)) in &landings {
            let Some((in_time, _)) = landings.get(&0) else { continue };
            let off = there - in_time - *more as f64 * drive.crank_deg_per_tooth();
            assert!(off.abs() < NEAR_MM, "{title}: {more} more lands {off} off");
        }
        assert!(landings.len() == 3, "{title}: {landings:?}");
    }
    assert!(landed > 40, "{landed}");
}
