//! The pictures of the engine state nothing but what its figures give: gaps, depths and lifts, the dial's
//! arcs and the contact map, recovered from the display list alone, equal what `engine` says.
//!
//! Must not know: how the pictures are drawn beyond what their shapes' docs promise.

#![allow(clippy::unwrap_used, clippy::panic)] // A helper of a test fails the test.

use drive::{DVec2, Sense};
use engine::{CYCLE_DEG, Engine, Kind, Phasing, Stand, wrap_cycle};
use fastrand::Rng;
use job::{Action, Job};
use layout::Plan;
use picture::{Class, ContactMap, DIAL_REACH, Dial, Item, List, Part, Piece, Section};
use proofs::random_engine::{Drawn, figures};
use std::collections::BTreeMap;
use std::rc::Rc;

const CASES: u64 = 2_000;
const NEAR: f64 = 1e-6;

const SHIPPED: [&str; 5] = [
    include_str!("../layouts/diesel-four-with-injection-pump.toml"),
    include_str!("../layouts/four-in-line-one-camshaft-eccentric.toml"),
    include_str!("../layouts/four-in-line-two-camshafts-arm.toml"),
    include_str!("../layouts/six-in-a-vee-one-camshaft-a-bank.toml"),
    include_str!("../layouts/six-in-a-vee-two-camshafts-a-bank.toml"),
];

fn corners(list: &List, item: &Item) -> Vec<DVec2> {
    list.outline(item)
        .filter_map(|piece| match piece {
            Piece::Move(p) | Piece::Line(p) => Some(p),
            Piece::Arc { .. } | Piece::Close => None,
        })
        .collect()
}

/// What `list` shows of one cylinder is what the engine says of it at `stand`.
fn is_true(engine: &Engine, cylinder: usize, stand: &Stand, what: &str) -> usize {
    let Some(section) = Section::new(engine, cylinder, Sense::Clockwise) else {
        assert!(engine.crank().is_none(), "{what}");
        return 0;
    };
    let mut list = List::default();
    section.draw(&mut list, stand);
    let all = |class: Class| list.items().iter().filter(move |item| item.class == class);
    let highest =
        |item: &Item| corners(&list, item).iter().fold(f64::NEG_INFINITY, |most, p| most.max(p.y));
    let [piston] = all(Class::Piston).collect::<Vec<_>>()[..] else { panic!("{what}: no piston") };
    let crown = highest(piston);
    let at_deg = engine.from_overlap_deg(cylinder, stand.crank_deg);
    let depth = section.crown_top_mm() - crown;
    assert!((depth - engine.crank().unwrap().depth_mm(at_deg)).abs() < NEAR, "{what}: depth");
    let mut seen = 0;
    for kind in Kind::BOTH {
        let part = Part::Valve(cylinder, kind);
        let of = |class: Class| all(class).find(|item| item.part == part);
        let gap = engine.moved_by(cylinder, kind).and_then(|camshaft| {
            let error = stand.camshaft_deg(camshaft) - stand.crank_deg;
            engine.gap(camshaft, kind, error, Phasing::AtRest)
        });
        let drawn = of(Class::Valve).or(of(Class::ValveTouching));
        assert_eq!(drawn.is_some(), gap.is_some(), "{what}: {kind:?}");
        let (Some(drawn), Some(gap)) = (drawn, gap) else { continue };
        seen += 1;
        let gap_mm = gap.at_mm(at_deg);
        let low = corners(&list, drawn).iter().fold(f64::INFINITY, |least, p| least.min(p.y));
        assert!((low - crown - gap_mm).abs() < NEAR, "{what}: {kind:?} {} {gap_mm}", low - crown);
        assert_eq!(drawn.class == Class::ValveTouching, gap_mm < 0.0, "{what}: {kind:?}");
        // The gap's own line says the same.
        let line = corners(&list, of(Class::Gap).unwrap());
        let [from, to] = line[..] else { panic!("{what}: {line:?}") };
        assert!(from.x == to.x && (from.y - to.y - gap_mm).abs() < NEAR, "{what}: line");
    }
    // Rod and throw have their length.
    let circles: Vec<DVec2> = all(Class::Rod)
        .flat_map(|item| list.outline(item).collect::<Vec<_>>())
        .filter_map(|piece| match piece {
            Piece::Arc { centre, .. } => Some(centre),
            _ => None,
        })
        .collect();
    let [big_end, pin] = circles[..] else { panic!("{what}: {circles:?}") };
    let crank = engine.crank().unwrap();
    assert!(((big_end - pin).length() - crank.rod_mm()).abs() < NEAR, "{what}: rod");
    assert!((2.0 * big_end.length() - crank.stroke_mm()).abs() < NEAR, "{what}: throw");
    seen
}

/// A job in some state: teeth out, tensioner somewhere, crank turned both ways, belt perhaps off.
fn job(text: &str, rng: &mut Rng) -> Job {
    let mut job = Job::new(Rc::new(Plan::open(text).unwrap()));
    let wheels = job.plan().engine.as_ref().unwrap().wheels.clone();
    let ids: Vec<String> = wheels.iter().map(|wheel| job.plan().id(*wheel).to_owned()).collect();
    let mut act = |action: Action| {
        let _ = job.act(&action, false);
    };
    for id in &ids {
        act(Action::SetTeeth(BTreeMap::from([(id.clone(), rng.i64(-4..=4))])));
    }
    match rng.u8(..3) {
        0 => {}
        1 => act(Action::Tensioner(job::TensionerMove::Back)),
        _ => {
            act(Action::Tensioner(job::TensionerMove::Back));
            act(Action::Belt(job::BeltMove::Off));
            for id in &ids {
                act(Action::Turn { shaft: id.clone(), deg: rng.f64() * 720.0 - 360.0 });
            }
        }
    }
    act(Action::TurnTo { crank_deg: rng.f64() * 4000.0 - 2000.0 });
    act(Action::TurnTo { crank_deg: rng.f64() * 4000.0 - 2000.0 });
    job
}

#[test]
fn the_section_shows_the_gaps_of_the_shipped_layouts() {
    let mut seen = 0;
    for case in 0..CASES {
        let mut rng = Rng::with_seed(case);
        let job = job(SHIPPED[case as usize % SHIPPED.len()], &mut rng);
        let engine = &job.plan().engine.as_ref().unwrap().engine;
        let stand = advice::stand(&job).unwrap();
        let cylinder = rng.usize(..engine.cylinders());
        seen += is_true(engine, cylinder, &stand, &format!("case {case}"));
        // The reading says the same.
        let reading = advice::cylinder_reading(engine, &stand, cylinder).unwrap();
        assert_eq!(reading.valves.len(), 2, "case {case}");
    }
    assert_eq!(seen as u64, 2 * CASES);
}

#[test]
fn the_section_shows_the_gaps_of_random_engines() {
    let (mut seen, mut touching) = (0, 0);
    for seed in 0..CASES {
        let Ok(engine) =
            Engine::new(figures(seed, if seed % 2 == 0 { Drawn::Usual } else { Drawn::Tight }))
        else {
            continue;
        };
        let mut rng = Rng::with_seed(seed ^ 0xcafe);
        let camshafts_deg = (0..engine.camshafts().len()).map(|_| rng.f64() * 720.0).collect();
        let stand = Stand { crank_deg: rng.f64() * 720.0, camshafts_deg };
        for cylinder in 0..engine.cylinders() {
            seen += is_true(&engine, cylinder, &stand, &format!("seed {seed}, {cylinder}"));
        }
        let nearest = engine.loose().ok().and_then(|loose| loose.nearest(&stand));
        touching += usize::from(nearest.is_some_and(|near| near.gap_mm < 0.0));
    }
    assert!(seen > 2_000 && touching > 50, "{seen} {touching}");
}

/// With the belt tight the camshafts stand as far ahead as the installation says.
#[test]
fn where_shafts_stand_and_how_far_out_they_are_agree() {
    for case in 0..200 {
        let mut rng = Rng::with_seed(case);
        let mut job = job(SHIPPED[case as usize % SHIPPED.len()], &mut rng);
        if !job.cord().is_on() {
            continue;
        }
        let _ = job.act(&Action::Tensioner(job::TensionerMove::PullPin), false);
        if advice::readings(&job).slack_mm > 1e-9 {
            continue;
        }
        let stand = advice::stand(&job).unwrap();
        for (camshaft, error) in advice::errors_deg(&job).unwrap().into_iter().enumerate() {
            let ahead = stand.camshaft_deg(camshaft) - stand.crank_deg;
            assert!(wrap_cycle(ahead - error).abs() < 1e-6, "case {case}: {ahead} {error}");
        }
    }
}

/// A million turns on, everything stands where it did.
#[test]
fn whole_turns_are_exact() {
    for text in SHIPPED {
        let mut job = Job::new(Rc::new(Plan::open(text).unwrap()));
        job.act(&Action::TurnTo { crank_deg: 33.25 }, false).unwrap();
        let before = advice::stand(&job).unwrap();
        job.act(&Action::TurnTo { crank_deg: 33.25 + 720.0 * 500_000.0 }, false).unwrap();
        assert_eq!(advice::stand(&job).unwrap(), before);
    }
}

/// How far past the start of the spiral a point of the dial is, crank degrees, if it is beside it by
/// `outward`.
fn on_the_dial(p: DVec2) -> (f64, f64) {
    let clock = drive::Angle::of(p).clock_deg();
    // Of the two windings the one whose outside the point is on.
    let beside = |deg: f64| p.length() - Dial::place(deg).length();
    let [a, b] = [clock, clock + 360.0];
    if beside(b) > 0.0 { (b, beside(b)) } else { (a, beside(a)) }
}

#[test]
fn the_dials_arcs_are_where_some_gap_is_below() {
    let mut arcs_seen = 0;
    for (text, teeth) in SHIPPED.iter().zip([1, 3, 3, 3, 3]) {
        let mut job = Job::new(Rc::new(Plan::open(text).unwrap()));
        let plan = job.plan().engine.clone().unwrap();
        let id = job.plan().id(plan.wheels[0]).to_owned();
        job.act(&Action::SetTeeth(BTreeMap::from([(id, teeth)])), false).unwrap();
        let (contact, errors) = (advice::contact_arcs_of(&job), advice::errors_deg(&job).unwrap());
        let mut list = List::default();
        Dial::draw(&mut list, &job, &contact);
        let drawn: Vec<(f64, f64)> = list
            .items()
            .iter()
            .filter(|item| item.class == Class::ContactArc)
            .map(|item| {
                let points = corners(&list, item);
                assert!(points.iter().all(|p| p.length() < DIAL_REACH));
                let ends = [points[0], points[points.len() - 1]].map(on_the_dial);
                // At the very end of the spiral the clock begins anew.
                let end = if ends[1].0 < ends[0].0 { ends[1].0 + 360.0 } else { ends[1].0 };
                (ends[0].0, end)
            })
            .collect();
        assert_eq!(drawn.len(), contact.touching.len());
        arcs_seen += drawn.len();
        for (drawn, arc) in drawn.iter().zip(&contact.touching) {
            assert!((drawn.0 - arc.from_deg).abs() < NEAR && (drawn.1 - arc.to_deg).abs() < NEAR);
        }
        for step in 0..7_200 {
            let crank_deg = f64::from(step) * 0.1 + 0.013;
            let least = plan.engine.camshafts().iter().enumerate().flat_map(|(i, c)| {
                let (engine, error) = (&plan.engine, errors[i]);
                Kind::BOTH.into_iter().flat_map(move |kind| {
                    let gap = engine.gap(i, kind, error, Phasing::AtRest);
                    c.cylinders().iter().filter_map(move |cylinder| {
                        Some(gap?.at_mm(engine.from_overlap_deg(*cylinder, crank_deg)))
                    })
                })
            });
            let touches = least.fold(f64::INFINITY, f64::min) < 0.0;
            let inside = drawn.iter().any(|(from, to)| (*from..=*to).contains(&crank_deg));
            assert_eq!(inside, touches, "{crank_deg}");
        }
    }
    assert!(arcs_seen >= 8, "{arcs_seen}");
}

#[test]
fn the_maps_region_is_where_valves_would_touch() {
    for (case, text) in SHIPPED.iter().enumerate() {
        let plan = Plan::open(text).unwrap();
        let engine = &plan.engine.as_ref().unwrap().engine;
        let loose = engine.loose().unwrap();
        let mut rng = Rng::with_seed(case as u64);
        for camshaft in 0..engine.camshafts().len() {
            let map = ContactMap::new(&loose, camshaft);
            let camshafts_deg = vec![rng.f64() * 720.0; camshaft + 1];
            let stand = Stand { crank_deg: rng.f64() * 720.0, camshafts_deg };
            let mut list = List::default();
            map.draw(&mut list, &stand);
            let of = |class: Class| list.items().iter().find(move |item| item.class == class);
            let boxes: Vec<DVec2> =
                of(Class::MapTouch).map(|item| corners(&list, item)).unwrap_or_default();
            for _ in 0..400 {
                let crank = f64::from(rng.i32(-180..180)) + 0.5;
                let cam = rng.f64() * 360.0 - 180.0;
                let near = loose.near(camshaft, crank, 2.0 * cam).unwrap();
                let inside = boxes
                    .chunks_exact(4)
                    .any(|b| (b[0].x..b[1].x).contains(&crank) && (b[0].y..b[2].y).contains(&cam));
                assert_eq!(inside, near.gap_mm < 0.0, "{case} {camshaft}: {crank} {cam} {near:?}");
            }
            let place = map.place(&stand);
            let point = list.outline(of(Class::MapPoint).unwrap()).find_map(|piece| match piece {
                Piece::Arc { centre, .. } => Some(centre),
                _ => None,
            });
            assert!((point.unwrap() - place).length() < NEAR);
            let back = wrap_cycle(2.0 * place.y - stand.camshaft_deg(camshaft));
            assert!(back.abs() < NEAR && place.y.abs() <= CYCLE_DEG / 4.0);
        }
    }
}
