//! What must hold of any tight belt, on a thousand random drives: the spring balances the belt at its own
//! wheel, bearings carry what the belt presses, nothing is left over, and stretch moves marks one way.
//!
//! Must not know: how a tension is found. Directions and lengths come from `plain`.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::FRAC_PI_2;
use drive::{
    Angle, Carrier, DVec2, Drive, MarkOn, Parts, Takes, Tensioned, Tensions, bearing_loads_n,
    gives_way_n_m, grip, moves, resting_tension_n, seized, stretch_mm, tensions,
};
use fastrand::Rng;
use proofs::plain::{Circle, PlainPath, path, unit};
use proofs::random::{RandomLayout, sound_layout};
use proofs::tensioning::bisect;
use std::collections::BTreeSet;

const SEEDS: u64 = 1_000;
const STIFFNESS_N: f64 = 400_000.0;

struct Taut {
    layout: RandomLayout,
    drive: Drive,
    circles: Vec<Circle>,
    path: PlainPath,
    rng: Rng,
}

fn circles(drive: &Drive, travel: f64) -> Vec<Circle> {
    let t = drive.tensioner();
    let wheels = drive.wheels().iter().enumerate();
    wheels
        .map(|(i, w)| {
            let disc = w.disc(drive.belt(), drive.crank_turns());
            let centre = if i == t.wheel { t.centre(w.centre, travel) } else { w.centre };
            Circle { centre, radius: disc.radius, sense: disc.sense }
        })
        .collect()
}

fn taut(seed: u64) -> Taut {
    let layout = sound_layout(seed);
    let drive = Drive::new(layout.parts.clone()).unwrap();
    let circles = circles(&drive, drive.taut().travel);
    let path = path(&circles);
    Taut { layout, drive, circles, path, rng: Rng::with_seed(seed ^ 0x7e5) }
}

impl Taut {
    /// A spring such that the belt rests at 100 to 600 N.
    fn pull(&mut self) -> f64 {
        (100.0 + 500.0 * self.rng.f64()) * self.drive.taut().length_rate
    }

    /// Moments that hold the belt back at its sprockets, small enough that no span hangs.
    fn takes(&mut self) -> Vec<Takes> {
        let all = self.drive.wheels().to_vec();
        all.iter()
            .map(|w| Takes::Moment(if w.teeth().is_some() { 0.4 * self.rng.f64() } else { 0.0 }))
            .collect()
    }

    fn before(&self, i: usize) -> usize {
        (i + self.circles.len() - 1) % self.circles.len()
    }

    /// What the spring must hold: the belt's force on the tensioner's wheel, turned to its travel. On a slide
    /// its part along it, about a pivot its moment; by lines of action, not by rates.
    fn held(&self, spans_n: &[f64]) -> f64 {
        let t = self.drive.tensioner();
        let (before, centre) = (self.before(t.wheel), self.circles[t.wheel].centre);
        let force = unit(self.path.heading_rad[t.wheel]) * spans_n[t.wheel]
            - unit(self.path.heading_rad[before]) * spans_n[before];
        match t.carrier {
            Carrier::Slide { tightening } => -force.dot(tightening.unit()),
            Carrier::Pivot { pivot, tightening } => {
                -(centre - pivot).perp_dot(force) * tightening.sign()
            }
        }
    }
}

fn relative(found: f64, expected: f64) -> f64 {
    (found - expected).abs() / expected.abs().max(1.0)
}

/// Virtual work against the balance of forces at the tensioner's wheel: at rest, turning, and with a wheel
/// seized.
#[test]
fn the_spring_balances_the_belt() {
    let (mut kinds, mut slid) = (BTreeSet::new(), 0);
    for seed in 0..SEEDS {
        let mut taut = taut(seed);
        kinds.insert(format!("{:?}", taut.layout.kind));
        let pull = taut.pull();
        let sprung = Tensioned::Spring { pull };
        let resting = resting_tension_n(&taut.drive, pull);
        let n = taut.circles.len();
        assert!(relative(taut.held(&vec![resting; n]), pull) < 1e-9, "seed {seed}");
        let still = tensions(&taut.drive, sprung, &[]).unwrap();
        assert!(still.spans_n.iter().all(|t| relative(*t, resting) < 1e-9), "seed {seed}");
        let mut takes = taut.takes();
        let turning = tensions(&taut.drive, sprung, &takes).unwrap();
        assert!(!turning.gives_way, "seed {seed}");
        assert!(relative(taut.held(&turning.spans_n), pull) < 1e-9, "seed {seed}");
        let smooth = (0..n).find(|i| taut.drive.wheels()[*i].teeth().is_none());
        let Some(wheel) = smooth else { continue };
        takes[wheel] = Takes::Slides(0.3);
        let Ok(dragged) = tensions(&taut.drive, sprung, &takes) else { continue };
        if dragged.gives_way {
            continue;
        }
        slid += 1;
        assert!(relative(taut.held(&dragged.spans_n), pull) < 1e-9, "seed {seed}");
        let times = dragged.spans_n[wheel] / dragged.spans_n[taut.before(wheel)];
        assert!(relative(times, grip(0.3, taut.path.wrap_rad[wheel])) < 1e-9, "seed {seed}");
    }
    assert_eq!(kinds.len(), 4, "every kind of tensioner");
    assert!(slid > SEEDS / 4, "{slid} with a wheel seized");
}

/// A tensioner that is locked keeps the belt's length: the stretch of all runs together is what it was.
#[test]
fn a_locked_tensioner_keeps_the_length() {
    for seed in 0..SEEDS {
        let mut taut = taut(seed);
        let locked = Tensioned::Locked { resting_n: 300.0 };
        let takes = taut.takes();
        let sum =
            |t: &Tensions| -> f64 { stretch_mm(&taut.drive, &t.spans_n, STIFFNESS_N).iter().sum() };
        let still = sum(&tensions(&taut.drive, locked, &[]).unwrap());
        let turning = tensions(&taut.drive, locked, &takes).unwrap();
        if turning.gives_way {
            continue;
        }
        assert!((sum(&turning) - still).abs() < 1e-9, "seed {seed}");
        let whole = 300.0 / STIFFNESS_N * taut.drive.belt().pitch_length_mm();
        assert!((still - whole).abs() < 1e-9, "seed {seed}");
    }
}

/// Bearing loads by another route: what the belt presses and drags along its wrap, summed up. Over dθ that
/// is T·dθ inwards and dT along it, however T grows from the one span's to the other's.
#[test]
fn bearings_carry_what_the_belt_presses() {
    const PIECES: u32 = 200;
    for seed in 0..SEEDS {
        let mut taut = taut(seed);
        let (sprung, takes) = (Tensioned::Spring { pull: taut.pull() }, taut.takes());
        let tensions = tensions(&taut.drive, sprung, &takes).unwrap();
        let loads = bearing_loads_n(&taut.drive, &tensions.spans_n);
        for (i, circle) in taut.circles.iter().enumerate() {
            let before = taut.before(i);
            let (meets, leaves) = (tensions.spans_n[before], tensions.spans_n[i]);
            let wrap = taut.path.wrap_rad[i];
            let from = taut.path.heading_rad[before] - FRAC_PI_2 * circle.sense;
            // Grows with the cube of the way round: no even growth, as teeth would have it.
            let at = |u: f64| {
                let tension = meets + (leaves - meets) * u * u * u;
                let grows = (leaves - meets) * 3.0 * u * u;
                let place = from + circle.sense * wrap * u;
                unit(place + FRAC_PI_2 * circle.sense) * grows - unit(place) * (tension * wrap)
            };
            let h = 1.0 / f64::from(PIECES);
            let mut sum = DVec2::ZERO;
            for k in 0..PIECES {
                let u = f64::from(k) * h;
                sum += (at(u) + at(u + h / 2.0) * 4.0 + at(u + h)) * (h / 6.0);
            }
            assert!((sum - loads[i]).length() < 1e-6, "seed {seed}, wheel {i}: {sum} {}", loads[i]);
        }
    }
}

/// Nothing is left over: the belt's forces on all wheels sum to nothing, and their moments about any point
/// with what it turns the shafts by, the crank's own hand included, to nothing too.
#[test]
fn nothing_is_left_over() {
    for seed in 0..SEEDS {
        let mut taut = taut(seed);
        let (sprung, takes) = (Tensioned::Spring { pull: taut.pull() }, taut.takes());
        let tensions = tensions(&taut.drive, sprung, &takes).unwrap();
        let loads = bearing_loads_n(&taut.drive, &tensions.spans_n);
        let sum: DVec2 = loads.iter().sum();
        assert!(sum.length() < 1e-9, "seed {seed}: {sum}");
        let about = DVec2::new(taut.rng.f64() * 500.0, taut.rng.f64() * 500.0);
        let levers: f64 =
            taut.circles.iter().zip(&loads).map(|(c, f)| (c.centre - about).perp_dot(*f)).sum();
        let turns: f64 = taut
            .circles
            .iter()
            .zip(&takes)
            .enumerate()
            .map(|(i, (circle, take))| {
                let Takes::Moment(n_m) = take else { panic!("only moments") };
                // The belt turns each shaft forward by what it takes, and the crank back by what drives it.
                let by = if i == 0 { n_m - tensions.crank_n_m } else { *n_m };
                circle.sense * by * 1000.0
            })
            .sum();
        assert!((levers + turns).abs() < 1e-6, "seed {seed}: {levers} {turns} N·mm");
    }
}

/// Turned back until the tensioner gives way: with the tensioner in the run that leaves the crank, shafts
/// that together hold back T₀·ρ leave nothing in the run into it; a little less still pulls, a little more
/// hangs slack.
#[test]
fn it_gives_way_at_its_own_tension() {
    let mut asked = 0;
    for seed in 0..SEEDS {
        let mut taut = taut(seed);
        let sprockets = taut.drive.sprockets().to_vec();
        let smooth = taut.drive.wheels()[taut.drive.tensioner().wheel].teeth().is_none();
        if !smooth || sprockets.len() < 2 || taut.drive.tensioner().wheel > sprockets[1].wheel {
            continue;
        }
        asked += 1;
        let pull = taut.pull();
        let resting = resting_tension_n(&taut.drive, pull);
        let last = sprockets[sprockets.len() - 1].wheel;
        let gives_way = gives_way_n_m(&taut.drive, resting);
        let backwards = |share: f64| {
            let mut takes = vec![Takes::Moment(0.0); taut.circles.len()];
            let moment = gives_way * taut.circles[last].radius / taut.circles[0].radius;
            takes[last] = Takes::Moment(-share * moment);
            tensions(&taut.drive, Tensioned::Spring { pull }, &takes).unwrap()
        };
        let near = backwards(0.999);
        assert!(!near.gives_way && near.spans_n[last] > 0.0, "seed {seed}");
        assert!(relative(near.crank_n_m, -0.999 * gives_way) < 1e-9, "seed {seed}");
        let beyond = backwards(1.001);
        assert!(beyond.gives_way && beyond.spans_n[last] == 0.0, "seed {seed}");
    }
    assert!(asked > SEEDS / 20, "{asked}");
}

/// Where a tight belt goes as it stretches all over: the tensioner to where the plain path is that much
/// longer, and each shaft back by what lies between it and the crank.
#[test]
fn the_tensioner_follows_the_stretch() {
    for seed in 0..SEEDS {
        let mut taut = taut(seed);
        // A thousandth of what is usual, so that the first order is all there is.
        let resting = 0.3 * (1.0 + taut.rng.f64());
        let n = taut.circles.len();
        let stretch = stretch_mm(&taut.drive, &vec![resting; n], STIFFNESS_N);
        let moved = moves(&taut.drive, &stretch);
        let longer = taut.drive.belt().pitch_length_mm() * (1.0 + resting / STIFFNESS_N);
        let at = taut.drive.taut().travel;
        let length = |q: f64| path(&circles(&taut.drive, q)).length_mm;
        let far = 3.0 * moved.travel;
        let travel = bisect(0.0, far, |q| length(at + q) < longer);
        let off = (travel - moved.travel).abs() * taut.drive.taut().length_rate;
        assert!(off < 2e-6, "seed {seed}: {off} mm of belt");
        // Round the loop it closes: into the crank lies what the tensioner has not taken.
        let sprockets = taut.drive.sprockets();
        let smooth = taut.drive.wheels()[taut.drive.tensioner().wheel].teeth().is_none();
        if !smooth {
            continue;
        }
        let run = taut.drive.tensioner_run();
        for (k, mm) in moved.sprockets_mm.iter().enumerate() {
            // Before the tensioner's run shafts are carried ahead by the stretch behind them, past it back.
            let expected: f64 = if k <= run {
                stretch[..k].iter().sum()
            } else {
                -stretch[k..].iter().sum::<f64>()
            };
            assert!((mm - expected).abs() < 1e-9, "seed {seed}, {k} of {}", sprockets.len());
        }
    }
}

/// Tension gone, marks are back; half of it, half way. And which groove somebody counts from is all one:
/// with every mark elsewhere the same runs stretch alike and the same shafts move alike.
#[test]
fn stretch_goes_with_the_tension_and_not_with_the_marks() {
    for seed in 0..SEEDS {
        let mut taut = taut(seed);
        let (sprung, takes) = (Tensioned::Spring { pull: taut.pull() }, taut.takes());
        let tight = tensions(&taut.drive, sprung, &takes).unwrap();
        let at = |drive: &Drive, share: f64| {
            let spans: Vec<f64> = tight.spans_n.iter().map(|t| t * share).collect();
            moves(drive, &stretch_mm(drive, &spans, STIFFNESS_N))
        };
        let (none, half, whole) =
            (at(&taut.drive, 0.0), at(&taut.drive, 0.5), at(&taut.drive, 1.0));
        assert!(none.travel == 0.0 && none.sprockets_mm.iter().all(|mm| *mm == 0.0));
        assert!((half.travel * 2.0 - whole.travel).abs() < 1e-12, "seed {seed}");
        let other = remarked(&taut.layout.parts, &mut taut.rng);
        let elsewhere = at(&Drive::new(other).unwrap(), 1.0);
        assert!((elsewhere.travel - whole.travel).abs() < 1e-12, "seed {seed}");
        for (k, mm) in whole.sprockets_mm.iter().enumerate() {
            assert!((half.sprockets_mm[k] * 2.0 - mm).abs() < 1e-12, "seed {seed}");
            assert!((elsewhere.sprockets_mm[k] - mm).abs() < 1e-12, "seed {seed}");
        }
    }
}

/// What DEVELOPERS.md says of the layouts that ship: pulling the pin moves no mark by a fifth of a tooth.
#[test]
fn the_shipped_marks_move_less_than_a_tooth() {
    let directory = concat!(env!("CARGO_MANIFEST_DIR"), "/../layouts");
    let mut moved = 0;
    for entry in std::fs::read_dir(directory).unwrap() {
        let file = entry.unwrap().path();
        if file.extension().is_none_or(|ext| ext != "toml") {
            continue;
        }
        let plan = layout::Plan::open(&std::fs::read_to_string(&file).unwrap()).unwrap();
        for pin in advice::tension(&plan, &advice::TensionAsked::default()).pin_moves {
            assert!(pin.mark_moves_teeth.abs() < 0.2, "{file:?}: {pin:?}");
            moved += usize::from(pin.mark_moves_teeth != 0.0);
        }
    }
    assert!(moved > 5, "{moved}");
}

/// The same drive with its marks elsewhere, and so with other reference grooves.
fn remarked(parts: &Parts, rng: &mut Rng) -> Parts {
    let mut parts = parts.clone();
    for wheel in &mut parts.wheels {
        wheel.mark = wheel.mark.map(|mark| drive::Mark {
            cover: Angle::from_clock_deg(rng.f64() * 360.0),
            on: if rng.bool() { MarkOn::Tooth } else { MarkOn::Groove },
            ..mark
        });
    }
    parts
}

/// More friction, more of everything: a range in is a range out, low to high.
#[test]
fn a_range_stays_a_range() {
    let mut asked = 0;
    for seed in 0..SEEDS {
        let mut taut = taut(seed);
        let sprung = Tensioned::Spring { pull: taut.pull() };
        for wheel in 0..taut.circles.len() {
            let told = seized(&taut.drive, sprung, &[], wheel, [0.25, 0.6]);
            let Ok(drive::Seized::Slides { friction_n: [low, high], crank_n_m, .. }) = told else {
                continue;
            };
            asked += 1;
            assert!(low > 0.0 && high > low, "seed {seed}: {low} to {high}");
            assert!(crank_n_m[0] > 0.0 && crank_n_m[1] > crank_n_m[0], "seed {seed}");
        }
    }
    assert!(asked > SEEDS / 2, "{asked}");
}
