//! With every shaft free: the map of contact against the plain way, every order of moves replayed in
//! small steps, and where there is said to be none, an exhaustive search of a coarse grid.
//!
//! Must not know: how a way is looked for.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use engine::{Engine, Loose, Phasing, Shaft, Stand, Stop, Way};
use fastrand::Rng;
use proofs::plain_engine::PlainEngine;
use proofs::random_engine::{Drawn, figures};

/// Steps of a replay, degrees.
const REPLAY_DEG: f64 = 0.5;

struct Case {
    seed: u64,
    engine: Engine,
    plain: PlainEngine,
    stand: Stand,
}

impl Case {
    /// A random engine that is clear on its marks, found standing anywhere where nothing touches.
    fn draw(seed: u64, drawn: Drawn) -> Option<Self> {
        let stated = figures(seed, drawn);
        let plain = PlainEngine::of(&stated).unwrap();
        let engine = Engine::new(stated).unwrap_or_else(|flaws| panic!("seed {seed}: {flaws:?}"));
        let cams = engine.camshafts().len();
        if plain.gap_mm(0.0, &vec![0.0; cams]) < 0.0 {
            return None;
        }
        let mut rng = Rng::with_seed(seed ^ 0x5eed);
        let mut found: Vec<Stand> = Vec::new();
        let enough = if drawn == Drawn::Usual { 1 } else { 30 };
        for _ in 0..400 {
            let crank_deg = 360.0 * rng.f64();
            let camshafts_deg: Vec<f64> = (0..cams).map(|_| 720.0 * rng.f64()).collect();
            if plain.gap_mm(crank_deg, &camshafts_deg) > 0.0 {
                found.push(Stand { crank_deg, camshafts_deg });
                if found.len() == enough {
                    break;
                }
            }
        }
        // Of several, the one most shut in.
        let loose = engine.loose().unwrap();
        let room = |stand: &Stand| {
            let shafts = core::iter::once(Shaft::Crank).chain((0..cams).map(Shaft::Camshaft));
            let each = shafts.map(|shaft| {
                let freedom = loose.freedom(stand, shaft);
                let way = |stop: Option<Stop>| stop.map_or(720.0, |stop| stop.after_deg);
                way(freedom.back) + way(freedom.forward)
            });
            each.sum::<f64>()
        };
        let stand = found.iter().min_by(|a, b| room(a).total_cmp(&room(b)))?.clone();
        Some(Self { seed, engine, plain, stand })
    }

    /// Turns through the moves and looks at every step; what is told of each is what is seen.
    fn replay(&self, loose: &Loose<'_>, way: &Way) {
        let Way::Moves(moves) = way else { return };
        let mut at = self.stand.clone();
        for (n, one) in moves.iter().enumerate() {
            let told = loose.nearest_on_the_way(&at, one.shaft, one.by_deg);
            let told = told.unwrap().gap_mm;
            assert!((told - one.nearest.unwrap().gap_mm).abs() < 1e-9, "seed {}", self.seed);
            let steps = libm::ceil(one.by_deg.abs() / REPLAY_DEG).max(1.0) as u32;
            let from = at.clone();
            let mut least = f64::INFINITY;
            for step in 0..=steps {
                let by = one.by_deg * f64::from(step) / f64::from(steps);
                at = from.clone();
                match one.shaft {
                    Shaft::Crank => at.crank_deg += by,
                    Shaft::Camshaft(i) => at.camshafts_deg[i] += by,
                }
                least = least.min(self.plain.gap_mm(at.crank_deg, &at.camshafts_deg));
            }
            assert!(least > -1e-9, "seed {}, move {n} of {moves:?}: {least}", self.seed);
            assert!(told < least + 1e-9, "seed {}, move {n}: {told}, seen {least}", self.seed);
        }
        let round = |deg: f64, period: f64| (deg - period * libm::round(deg / period)).abs();
        assert!(round(at.crank_deg, 360.0) < 1e-6, "seed {}: {at:?}", self.seed);
        for deg in &at.camshafts_deg {
            assert!(round(*deg, 720.0) < 1e-6, "seed {}: {at:?}", self.seed);
        }
    }

    /// Whether a search of every place of a grid, each shaft moved from line to line, reaches the
    /// marks. The grid has lines at the marks and where the shafts stand.
    fn grid_reaches(&self) -> bool {
        let cams = self.stand.camshafts_deg.len();
        let (crank_step, cam_step) =
            [(5.0, 10.0), (5.0, 10.0), (10.0, 15.0), (20.0, 40.0)][cams.min(4) - 1];
        let lines = |step: f64, period: f64, also: f64| {
            let mut all: Vec<f64> =
                (0..(period / step) as u32).map(|i| f64::from(i) * step).collect();
            all.push(also.rem_euclid(period));
            all.sort_by(f64::total_cmp);
            all.dedup();
            all
        };
        let crank = lines(crank_step, 360.0, self.stand.crank_deg);
        let cam: Vec<Vec<f64>> =
            self.stand.camshafts_deg.iter().map(|deg| lines(cam_step, 720.0, *deg)).collect();
        let free = |gap: &dyn Fn(f64) -> f64, from: f64, to: f64| {
            let steps = libm::ceil((to - from).abs() / 0.5).max(1.0) as u32;
            (0..=steps).all(|i| gap(from + (to - from) * f64::from(i) / f64::from(steps)) >= 0.0)
        };
        let next = |lines: &[f64], i: usize, period: f64| {
            lines.get(i + 1).copied().unwrap_or(lines[0] + period)
        };
        // For each camshaft: from (crank line, camshaft line) on to the next of either.
        let mut crank_on = Vec::new();
        let mut cam_on = Vec::new();
        for (c, own) in cam.iter().enumerate() {
            let gap = |crank, cam| self.plain.camshaft_gap_mm(c, crank, cam);
            let mut by_crank = Vec::new();
            let mut by_cam = Vec::new();
            for (i, at) in crank.iter().enumerate() {
                for (j, phi) in own.iter().enumerate() {
                    by_crank.push(free(&|x| gap(x, *phi), *at, next(&crank, i, 360.0)));
                    by_cam.push(free(&|x| gap(*at, x), *phi, next(own, j, 720.0)));
                }
            }
            crank_on.push(by_crank);
            cam_on.push(by_cam);
        }
        // For each camshaft and another: from a line of it to the next, the other on a line.
        let met = self.engine.valves_meet_at_lift_sum_mm().is_some();
        let mut meet = vec![vec![Vec::new(); cams]; cams];
        for (c, d) in (0..cams).flat_map(|c| (0..cams).map(move |d| (c, d))) {
            if met && c != d {
                for j in 0..cam[c].len() {
                    for other in &cam[d] {
                        let gap = |x| self.plain.pair_gap_mm(c, x, d, *other);
                        meet[c][d].push(free(&gap, cam[c][j], next(&cam[c], j, 720.0)));
                    }
                }
            }
        }
        let meet_on = |c: usize, j: usize, places: &[usize]| {
            !met || (0..cams).all(|d| d == c || meet[c][d][j * cam[d].len() + places[d]])
        };
        let sizes: Vec<usize> =
            core::iter::once(crank.len()).chain(cam.iter().map(Vec::len)).collect();
        let key = |place: &[usize]| place.iter().zip(&sizes).fold(0, |k, (p, n)| k * n + p);
        let find = |lines: &[f64], deg: f64, period: f64| {
            lines.iter().position(|line| *line == deg.rem_euclid(period)).unwrap()
        };
        let mut start = vec![find(&crank, self.stand.crank_deg, 360.0)];
        start.extend(cam.iter().zip(&self.stand.camshafts_deg).map(|(l, d)| find(l, *d, 720.0)));
        let mut seen = vec![false; sizes.iter().product()];
        seen[key(&start)] = true;
        let mut open = vec![start];
        while let Some(place) = open.pop() {
            if place.iter().all(|i| *i == 0) {
                return true;
            }
            for (shaft, n) in sizes.iter().enumerate() {
                for forward in [true, false] {
                    let to =
                        if forward { (place[shaft] + 1) % n } else { (place[shaft] + n - 1) % n };
                    let edge = if forward { place[shaft] } else { to };
                    let clear = if shaft == 0 {
                        (0..cams).all(|c| crank_on[c][edge * cam[c].len() + place[c + 1]])
                    } else {
                        let c = shaft - 1;
                        cam_on[c][place[0] * cam[c].len() + edge] && meet_on(c, edge, &place[1..])
                    };
                    if clear {
                        let mut beside = place.clone();
                        beside[shaft] = to;
                        let key = key(&beside);
                        if !seen[key] {
                            seen[key] = true;
                            open.push(beside);
                        }
                    }
                }
            }
        }
        false
    }
}

/// What became of many engines.
#[derive(Debug, Default)]
struct Tally {
    home: usize,
    none: usize,
    /// Of those brought home, how many were looked for on the grid too, and how many it found.
    grid: (usize, usize),
}

impl Tally {
    fn add(&mut self, case: &Case) {
        let loose = case.engine.loose().unwrap();
        let way = loose.way_to_marks(&case.stand);
        case.replay(&loose, &way);
        match &way {
            Way::Moves(_) => {
                self.home += 1;
                if self.grid.0 < 25 && case.stand.camshafts_deg.len() <= 2 {
                    self.grid.0 += 1;
                    self.grid.1 += usize::from(case.grid_reaches());
                }
            }
            Way::None => {
                self.none += 1;
                assert!(!case.grid_reaches(), "seed {}: a coarse grid finds a way", case.seed);
            }
            other => panic!("seed {}: {other:?}", case.seed),
        }
    }
}

/// A thousand engines as they are, found standing anywhere.
#[test]
fn usual_engines_come_home() {
    let mut tally = Tally::default();
    for case in (0..1100).filter_map(|seed| Case::draw(seed, Drawn::Usual)) {
        tally.add(&case);
    }
    assert!(tally.home + tally.none >= 1000, "{tally:?}");
    // The grid is no straw man: mostly it finds a way too.
    assert!(tally.grid.1 >= 20, "{tally:?}");
}

/// Engines whose shafts are often shut in, found standing where they are shut in most.
#[test]
fn shut_in_engines_come_home_or_a_grid_agrees() {
    let mut tally = Tally::default();
    for case in (0..2000).filter_map(|seed| Case::draw(seed, Drawn::Tight)) {
        tally.add(&case);
    }
    assert!(tally.home >= 1000 && tally.none >= 20, "{tally:?}");
}

/// Two camshafts whose valves can meet besides; the last three engines have no way to their marks.
#[test]
fn valves_that_meet() {
    let mut tally = Tally::default();
    for case in
        (0..80).chain([977, 1402, 2353]).filter_map(|seed| Case::draw(seed, Drawn::ValvesMeet))
    {
        tally.add(&case);
    }
    assert!(tally.home >= 40 && tally.none >= 3, "{tally:?}");
}

/// One line of the map: its arcs end where a gap is zero, and hold exactly what touches.
#[test]
fn arcs_of_the_map() {
    for case in (0..40).filter_map(|seed| Case::draw(seed, Drawn::Tight)) {
        let loose = case.engine.loose().unwrap();
        let phased = case.engine.camshafts().iter().any(|c| c.phaser_deg().is_some());
        for camshaft in (0..case.engine.camshafts().len()).filter(|_| !phased) {
            for crank in [0.0, 13.7, 90.0, 201.0, 352.4] {
                let arcs = loose.touching_arcs(camshaft, crank);
                for cam in 0..1440 {
                    let cam = f64::from(cam) * 0.5 + 0.0371;
                    let gap = case.plain.camshaft_gap_mm(camshaft, crank, cam);
                    let inside = arcs.iter().any(|arc| arc.contains(cam, 720.0));
                    assert_eq!(inside, gap < 0.0, "seed {}, {crank}, {cam}: {gap}", case.seed);
                    let near = loose.near(camshaft, crank, cam).unwrap().gap_mm;
                    assert!((near - gap).abs() < 1e-9, "seed {}: {near}, {gap}", case.seed);
                }
            }
        }
    }
}

/// How far a shaft may turn: nothing touches before the stop, and there something begins to.
#[test]
fn freedom_ends_where_something_touches() {
    let mut stops = 0;
    for case in (0..300).filter_map(|seed| Case::draw(seed, Drawn::Tight)) {
        if case.engine.camshafts().iter().any(|c| c.phaser_deg().is_some()) {
            continue;
        }
        let loose = case.engine.loose().unwrap();
        let cams = case.engine.camshafts().len();
        for shaft in core::iter::once(Shaft::Crank).chain((0..cams).map(Shaft::Camshaft)) {
            let freedom = loose.freedom(&case.stand, shaft);
            for (stop, sign) in [(freedom.back, -1.0), (freedom.forward, 1.0)] {
                let gap = |by: f64| {
                    let mut at = case.stand.clone();
                    match shaft {
                        Shaft::Crank => at.crank_deg += sign * by,
                        Shaft::Camshaft(i) => at.camshafts_deg[i] += sign * by,
                    }
                    case.plain.gap_mm(at.crank_deg, &at.camshafts_deg)
                };
                let far = stop.map_or(720.0, |stop| stop.after_deg);
                for i in 0..=200 {
                    assert!(gap(far * f64::from(i) / 200.0) > -1e-9, "seed {}", case.seed);
                }
                if let Some(stop) = stop {
                    stops += 1;
                    assert!(gap(stop.after_deg).abs() < 1e-9, "seed {}", case.seed);
                    assert!(gap(stop.after_deg + 0.01) < 0.0, "seed {}", case.seed);
                }
            }
        }
    }
    assert!(stops > 500, "{stops}");
}

/// The belt on and camshafts out: turned together nothing touches before the stop, and there it does.
#[test]
fn turned_together() {
    let mut stops = 0;
    for seed in 0..200 {
        let stated = figures(seed, Drawn::Usual);
        let (plain, engine) = (PlainEngine::of(&stated).unwrap(), Engine::new(stated).unwrap());
        if engine.camshafts().iter().any(|c| c.phaser_deg().is_some()) {
            continue;
        }
        let mut rng = Rng::with_seed(seed);
        let errors: Vec<f64> =
            engine.camshafts().iter().map(|_| 120.0 * (rng.f64() - 0.5)).collect();
        let from = 720.0 * rng.f64();
        let gap = |crank: f64| {
            let cams: Vec<f64> = errors.iter().map(|error| crank + error).collect();
            plain.gap_mm(crank, &cams)
        };
        let freedom = engine.freedom_together(&errors, from, Phasing::AtRest);
        for (stop, sign) in [(freedom.back, -1.0), (freedom.forward, 1.0)] {
            if gap(from) < 0.0 {
                assert_eq!(stop.unwrap().after_deg, 0.0, "seed {seed}");
                continue;
            }
            let far = stop.map_or(720.0, |stop| stop.after_deg);
            for i in 0..=1000 {
                assert!(gap(from + sign * far * f64::from(i) / 1000.0) > -1e-9, "seed {seed}");
            }
            if let Some(stop) = stop {
                stops += 1;
                assert!(gap(from + sign * stop.after_deg).abs() < 1e-9, "seed {seed}");
                assert!(gap(from + sign * (stop.after_deg + 0.01)) < 0.0, "seed {seed}");
            }
        }
    }
    assert!(stops > 100, "{stops}");
}
