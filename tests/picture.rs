//! The picture states nothing that the readings do not: wedge angles, tooth places, stripes and hanging
//! lengths, recovered from the display list alone, equal what `advice` says, in every state.
//!
//! Must not know: how the picture is drawn beyond what its shapes' docs promise.

#![allow(clippy::unwrap_used, clippy::panic)] // A helper of a test fails the test.

use drive::{DVec2, Drive, Pose, Turned};
use job::{Action, Job};
use layout::Plan;
use picture::{Class, DrivePicture, Item, List, Part, Piece};
use proofs::random::sound_layout;
use std::collections::BTreeMap;
use std::f64::consts::TAU;
use std::rc::Rc;

const CASES: u64 = 2_000;
const NEAR: f64 = 1e-6;
const SIX: &str = include_str!("../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

/// A job in some state: teeth out, tensioner somewhere, crank turned both ways.
fn job(text: &str, seed: u64) -> Job {
    let mut job = Job::new(Rc::new(Plan::open(text).unwrap()));
    let mut rng = fastrand::Rng::with_seed(seed ^ 0x5eed);
    let shafts: Vec<String> = (0..job.drive().wheels().len())
        .filter(|i| job.drive().wheels()[*i].mark.is_some())
        .map(|i| job.plan().id(i).to_owned())
        .collect();
    let mut act = |action: Action| {
        job.act(&action, false).unwrap();
    };
    if rng.bool() {
        let shaft = shafts[rng.usize(..shafts.len())].clone();
        act(Action::SetTeeth(BTreeMap::from([(shaft, rng.i64(-2..=2))])));
    }
    if rng.bool() {
        act(Action::Tensioner(job::TensionerMove::Back));
    }
    act(Action::TurnTo { crank_deg: rng.f64() * 4000.0 - 2000.0 });
    act(Action::TurnTo { crank_deg: rng.f64() * 4000.0 - 2000.0 });
    job
}

fn corners(list: &List, item: &Item) -> Vec<DVec2> {
    list.outline(item)
        .filter_map(|piece| match piece {
            Piece::Move(p) | Piece::Line(p) => Some(p),
            Piece::Arc { .. } | Piece::Close => None,
        })
        .collect()
}

fn middle(points: &[DVec2]) -> DVec2 {
    points.iter().sum::<DVec2>() / points.len() as f64
}

/// Direction of `p` from `centre` as turned forward from `from_rad`, in teeth of `z`, in (−z/2, z/2].
fn forward_teeth(p: DVec2, centre: DVec2, from_rad: f64, sense: f64, z: f64) -> f64 {
    let d = p - centre;
    drive::wrap_to(sense * (libm::atan2(d.y, d.x) - from_rad) * z / TAU, z)
}

fn near_on_circle(a: f64, b: f64, z: f64) -> bool {
    drive::wrap_to(a - b, z).abs() < NEAR
}

/// From the side: every wedge where it seems to stand by its reading, and nothing but what is marked on wheels
/// drawn elsewhere than square.
fn from_the_side(job: &Job, aside_deg: f64, what: &str) {
    let drive = job.drive();
    let pose = Pose::of(drive, job.stance(), job.cord());
    let (mut square, mut list) = (List::default(), List::default());
    let picture = DrivePicture::new(drive);
    picture.draw(&mut square, job, &pose, None);
    picture.draw_from(&mut list, job, &pose, None, aside_deg);
    let seen = advice::sight(job, aside_deg);
    for mark in &seen.marks {
        let (i, disc) = (mark.wheel, &job.stance().discs[mark.wheel]);
        let z = f64::from(drive.wheels()[i].teeth().unwrap());
        let cover = drive.wheels()[i].mark.unwrap().cover.rad();
        let wedge = |list: &List| {
            let drawn = |x: &&Item| {
                matches!(x.class, Class::MarkIn | Class::MarkOut) && x.part == Part::Wheel(i)
            };
            let item = list.items().iter().find(drawn).unwrap();
            forward_teeth(corners(list, item)[0], disc.centre, cover, disc.sense, z)
        };
        assert!(near_on_circle(wedge(&list), mark.apparent_teeth, z), "{what}: wheel {i}");
        let shift = wedge(&list) - wedge(&square);
        assert!(near_on_circle(shift, mark.seems_teeth, z), "{what}: wheel {i} by {shift}");
        // The reading itself, by hand: g·tan v along the mark's own circle.
        let stated = drive.wheels()[i].mark.unwrap().radius_mm;
        let radius = stated.unwrap_or_else(|| drive.wheels()[i].outside_radius_mm(drive.belt()));
        let arc = mark.seems_teeth / z * TAU * radius;
        let expected = mark.gap_mm * libm::tan(aside_deg.to_radians());
        assert!((arc - expected).abs() < NEAR, "{what}: {arc} mm, not {expected}");
    }
    assert_eq!(square.items().len(), list.items().len(), "{what}");
    let mut moved = 0;
    for (a, b) in square.items().iter().zip(list.items()) {
        assert_eq!((a.class, a.part), (b.class, b.part), "{what}");
        let same = square.outline(a).eq(list.outline(b));
        let on_a_wheel = matches!(
            a.class,
            Class::MarkIn | Class::MarkOut | Class::Ghost | Class::Drift | Class::OtherMark
        );
        assert!(same || on_a_wheel, "{what}: {:?} moved", a.class);
        moved += usize::from(!same);
    }
    assert!(moved >= seen.marks.len(), "{what}: {moved} moved");
}

#[test]
fn from_the_side_marks_seem_elsewhere_and_nothing_moves() {
    for seed in 0..CASES / 10 {
        let aside_deg = fastrand::Rng::with_seed(seed).f64() * 88.0 - 44.0;
        from_the_side(&job(&sound_layout(seed).toml(), seed), aside_deg, &format!("seed {seed}"));
    }
    for deg in [-45.0, -10.0, 5.0, 45.0] {
        from_the_side(&job(SIX, 3), deg, &format!("{deg}° aside"));
    }
}

fn check(job: &Job, what: &str) {
    let drive = job.drive();
    let pose = Pose::of(drive, job.stance(), job.cord());
    let mut list = List::default();
    DrivePicture::new(drive).draw(&mut list, job, &pose, None);
    let said = advice::pose(job);
    let readings = advice::readings(job);
    marks(job, &list, &said, &readings, what);
    belt_teeth(&list, &said, drive, what);
    stripes(job, &list, &said, what);
    hanging(job, &list, &said, what);
}

fn marks(
    job: &Job,
    list: &List,
    said: &advice::PoseReport,
    readings: &advice::Readings,
    what: &str,
) {
    let drive = job.drive();
    for reading in &readings.shafts {
        let i = reading.wheel;
        let disc = &job.stance().discs[i];
        let z = f64::from(drive.wheels()[i].teeth().unwrap());
        let cover = drive.wheels()[i].mark.unwrap().cover.rad();
        let of = |class: Class, part: Part| -> Vec<Vec<DVec2>> {
            let items = list.items().iter().filter(|x| x.class == class && x.part == part);
            items.map(|x| corners(list, x)).collect()
        };
        // The notch, even about the cover's mark.
        let notch: Vec<DVec2> = of(Class::CoverMark, Part::Cover(i)).concat();
        let at = forward_teeth(middle(&notch), disc.centre, cover, disc.sense, z);
        assert!(at.abs() < NEAR, "{what}: notch of wheel {i} is {at} teeth off");
        // The wedge's tip.
        let class = if reading.in_time { Class::MarkIn } else { Class::MarkOut };
        let wedge = of(class, Part::Wheel(i));
        assert_eq!(wedge.len(), 1, "{what}: one wedge on wheel {i}, as in time as it reads");
        let tip = forward_teeth(wedge[0][0], disc.centre, cover, disc.sense, z);
        let stated = said.wheels[i].mark_error_teeth.unwrap();
        assert!(near_on_circle(tip, stated, z), "{what}: wedge {tip}, reading {stated}");
        assert!(near_on_circle(tip, reading.mark_error_teeth, z));
        // Where it should be: only where it is out, and as far from the wedge as it reads.
        let ghost = of(Class::Ghost, Part::Wheel(i));
        assert_eq!(ghost.len(), usize::from(!reading.in_time));
        if let Some(ghost) = ghost.first() {
            let should = forward_teeth(ghost[0], disc.centre, cover, disc.sense, z);
            assert!(near_on_circle(tip - should, reading.ahead_teeth, z), "{what}: ghost");
            let drift =
                list.items().iter().find(|x| x.class == Class::Drift && x.part == Part::Wheel(i));
            let sweep = list.outline(drift.unwrap()).find_map(|piece| match piece {
                Piece::Arc { sweep_rad, .. } => Some(sweep_rad * disc.sense * z / TAU),
                _ => None,
            });
            assert!((sweep.unwrap() - reading.ahead_teeth).abs() < NEAR, "{what}: drift");
        }
    }
}

fn belt_teeth(list: &List, said: &advice::PoseReport, drive: &Drive, what: &str) {
    let mut seen = 0;
    for item in list.items().iter().filter(|x| x.class == Class::BeltTooth) {
        let Part::BeltTooth(number) = item.part else { panic!("{what}: a tooth without number") };
        let c = corners(list, item);
        let place = middle(&[c[0], c[3]]).to_array();
        let stated = said.belt_teeth[number].at_mm;
        let off = libm::hypot(place[0] - stated[0], place[1] - stated[1]);
        assert!(off < NEAR, "{what}: tooth {number} drawn {off} mm from where it reads");
        seen += 1;
    }
    assert_eq!(seen, drive.belt().teeth, "{what}: every tooth once");
}

/// Each stripe lies on the tooth that sat in its sprocket's reference groove when the belt was in time.
fn stripes(job: &Job, list: &List, said: &advice::PoseReport, what: &str) {
    let drive = job.drive();
    let mut tooth = 0;
    for (k, sprocket) in drive.sprockets().iter().enumerate() {
        let bars: Vec<DVec2> = list
            .items()
            .iter()
            .filter(|x| x.class == Class::Stripe && x.part == Part::Stripe(k))
            .flat_map(|x| corners(list, x))
            .collect();
        let marked = drive.wheels()[sprocket.wheel].mark.is_some();
        assert_eq!(bars.is_empty(), !marked, "{what}: stripes at marked sprockets only");
        if marked {
            // The bars stand out alike on both faces: their middle is off the pitch line by half of
            // what the belt's tips and back differ.
            let stated = DVec2::from_array(said.belt_teeth[tooth].at_mm);
            let off = (middle(&bars) - stated).length();
            let lean = (drive.belt().tips_mm() - drive.belt().back_mm()).abs() / 2.0;
            assert!((off - lean).abs() < NEAR, "{what}: stripe {k} is {off} mm from its tooth");
        }
        tooth += usize::try_from(drive.teeth_in_time()[k]).unwrap();
    }
}

/// The pitch line's length in each run, from the drawn body, less the taut path is the slack.
fn hanging(job: &Job, list: &List, said: &advice::PoseReport, what: &str) {
    let drive = job.drive();
    let (belt, sense) = (drive.belt(), drive.crank_turns().sign());
    // From the land up to the back is the body; the pitch line lies a differential above the land.
    let body = belt.thickness_mm - belt.tooth_height_mm;
    let offset = body / 2.0 - belt.pitch_line_differential_mm;
    let n = drive.wheels().len();
    for (j, run) in said.runs.iter().enumerate() {
        let item = list
            .items()
            .iter()
            .find(|x| x.class == Class::BeltBody && x.part == Part::Belt(Some(j)))
            .unwrap();
        assert!((item.width_mm - body).abs() < NEAR);
        let (mut drawn, mut at) = (0.0, DVec2::ZERO);
        for piece in list.outline(item) {
            match piece {
                Piece::Move(p) => at = p,
                Piece::Line(p) => {
                    drawn += (p - at).length();
                    at = p;
                }
                Piece::Arc { centre, radius, from_rad, sweep_rad } => {
                    drawn += (radius - offset * sense * sweep_rad.signum()) * sweep_rad.abs();
                    let end = from_rad + sweep_rad;
                    at = centre + DVec2::new(libm::cos(end), libm::sin(end)) * radius;
                }
                Piece::Close => {}
            }
        }
        let path = &job.stance().path;
        let start = drive.sprockets()[j].wheel;
        let end = drive.sprockets()[drive.next(j)].wheel;
        let (mut taut, mut i) = (path.spans[start].length, (start + 1) % n);
        while i != end {
            taut += path.wraps_rad[i] * job.stance().discs[i].radius + path.spans[i].length;
            i = (i + 1) % n;
        }
        let slack = drawn - taut;
        assert!(
            (slack - run.slack_mm).abs() < NEAR,
            "{what}: run {j} hangs {slack} mm, reads {}",
            run.slack_mm
        );
    }
}

#[test]
fn random_drives_in_random_states_are_drawn_as_they_read() {
    for seed in 0..CASES {
        check(&job(&sound_layout(seed).toml(), seed), &format!("seed {seed}"));
    }
}

#[test]
fn the_shipped_drive_is_drawn_as_it_reads_at_every_degree_and_far_out() {
    let mut job = job(SIX, 7);
    for deg in 0..=720 {
        job.act(&Action::TurnTo { crank_deg: f64::from(deg) }, false).unwrap();
        check(&job, &format!("{deg}°"));
    }
    job.run_crank_to(Turned { turns: 1_000_003, deg: 33.25 });
    check(&job, "a million turns on");
}

/// A tooth exactly where the belt meets the crank, or a hair to either side of it, is still one tooth.
#[test]
fn no_tooth_is_lost_where_the_belt_meets_the_crank() {
    let mut job = Job::new(Rc::new(Plan::open(SIX).unwrap()));
    let pose = Pose::of(job.drive(), job.stance(), job.cord());
    let Some(drive::Piece::Arc(arc)) = pose.pieces.first() else { panic!("the crank's wrap") };
    // The first tooth on the wrap, as far past its beginning as the crank has to turn back.
    let (entry, _) = arc.at(0.0);
    let along = |p: DVec2| {
        let (d, e) = (p - arc.centre, entry - arc.centre);
        arc.sweep_rad.signum() * libm::atan2(e.perp_dot(d), e.dot(d))
    };
    let seated = pose.teeth.iter().filter(|t| t.seat == Some(0));
    let first = seated.map(|t| along(t.at)).fold(f64::INFINITY, f64::min);
    for tooth in 0..24 {
        let mut crank_deg = -first.to_degrees() + 15.0 * f64::from(tooth);
        for _ in 0..20 {
            crank_deg = crank_deg.next_down();
        }
        for _ in 0..40 {
            job.act(&Action::TurnTo { crank_deg }, true).unwrap();
            check(&job, &format!("{crank_deg}°"));
            let laid = Pose::of(job.drive(), job.stance(), job.cord()).teeth;
            let pitch = job.drive().belt().pitch_mm;
            for (a, b) in laid.iter().zip(laid.iter().skip(1)) {
                let apart = (a.at - b.at).length();
                assert!(apart < pitch + NEAR && apart > 0.9 * pitch, "{crank_deg}°: {apart} mm");
            }
            crank_deg = crank_deg.next_up();
        }
    }
}

/// With the belt off what the readings say of a mark is what is drawn: out where it stands half a tooth or more
/// from its notch and from where the crank would have it, and never the crank, from which others are judged.
#[test]
fn with_the_belt_off_marks_are_drawn_out_as_they_read() {
    let arm = include_str!("../layouts/four-in-line-two-camshafts-arm.toml");
    let mut job = Job::new(Rc::new(Plan::open(arm).unwrap()));
    for action in [Action::Tensioner(job::TensionerMove::Back), Action::Belt(job::BeltMove::Off)] {
        job.act(&action, false).unwrap();
    }
    let drawn = |job: &Job| {
        let pose = Pose::of(job.drive(), job.stance(), job.cord());
        let mut list = List::default();
        DrivePicture::new(job.drive()).draw(&mut list, job, &pose, None);
        list
    };
    let wheels = |list: &List, class: Class| -> Vec<Part> {
        list.items().iter().filter(|x| x.class == class).map(|x| x.part).collect()
    };
    let camshafts: Vec<Part> = ["cam_exhaust", "cam_intake"]
        .iter()
        .map(|id| Part::Wheel(job.plan().wheel_index(id).unwrap()))
        .collect();
    let list = drawn(&job);
    let mut out = wheels(&list, Class::MarkOut);
    out.sort_by_key(|part| camshafts.iter().position(|one| one == part));
    assert_eq!(out, camshafts);
    assert_eq!(wheels(&list, Class::MarkIn), [Part::Wheel(0)]);
    assert_eq!(wheels(&list, Class::Ghost).len(), 2);
    // A mark that is not the timing mark is no wedge.
    let other = list.items().iter().find(|x| x.class == Class::OtherMark).unwrap();
    let wedge = list.items().iter().find(|x| x.class == Class::Ghost).unwrap();
    assert_ne!(corners(&list, other).len(), corners(&list, wedge).len());
    // Backed off for room, the crank is not out, nor are camshafts on their notches.
    let mut job = Job::new(Rc::new(Plan::open(SIX).unwrap()));
    for action in [
        Action::Tensioner(job::TensionerMove::Back),
        Action::Belt(job::BeltMove::Off),
        Action::Turn { shaft: "crank".into(), deg: -30.0 },
    ] {
        job.act(&action, false).unwrap();
    }
    assert_eq!(wheels(&drawn(&job), Class::MarkOut), []);
}
