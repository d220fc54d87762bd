//! How long the drive's mathematics takes: medians over batches, in nanoseconds, beside the figures
//! aimed at. It reports and judges nothing: machines differ.
//!
//! Must not know: what the answers should be.

use core::hint::black_box;
use drive::{
    Angle, Belt, Carrier, Cord, DVec2, Disc, Drive, Face, Mark, MarkOn, Moving, Parts, Path, Pose,
    Rim, Scene, Sense, Tensioner, Turned, Wheel, flaws,
};
use job::{Action, HangAs, Job, TensionerMove};
use layout::Plan;
use proofs::stopwatch::report;
use std::rc::Rc;

/// An invented six in a vee: crank, two camshafts, a pump, idlers on both faces, 167 teeth.
fn eight_wheels() -> Parts {
    let belt = Belt {
        teeth: 167,
        pitch_mm: 9.525,
        thickness_mm: 5.5,
        tooth_height_mm: 3.5,
        pitch_line_differential_mm: 0.686,
    };
    let wheel = |x: f64, y: f64, rim, marked: bool| Wheel {
        centre: DVec2::new(x, y),
        rim,
        mark: marked.then(|| Mark {
            cover: Angle::from_clock_deg(0.0),
            on: MarkOn::Groove,
            radius_mm: None,
        }),
        friction_n_m: 2.0,
        spring_torque_n_m: 0.0,
        fixing: drive::Fixing::Keyed,
    };
    let toothed = |teeth| Rim::Toothed { teeth };
    let smooth = |outside_radius_mm, face| Rim::Smooth { outside_radius_mm, face };
    let wheels = Vec::from([
        wheel(0.0, 0.0, toothed(24), true),
        wheel(-130.0, 80.0, smooth(30.0, Face::Toothed), false),
        wheel(-240.0, 198.0, toothed(48), true),
        wheel(-70.0, 198.0, smooth(28.0, Face::Back), false),
        wheel(0.0, 153.0, toothed(26), false),
        wheel(70.0, 198.0, smooth(28.0, Face::Back), false),
        wheel(240.0, 198.0, toothed(48), true),
        wheel(130.0, 80.0, smooth(30.0, Face::Toothed), false),
    ]);
    let tensioner = Tensioner {
        wheel: 1,
        carrier: Carrier::Slide { tightening: Angle::from_clock_deg(250.0) },
        right_back: 0.0,
        fully_out: 150.0,
    };
    Parts { belt, crank_turns: Sense::Clockwise, wheels, tensioner, counted: Vec::new() }
}

fn main() {
    let parts = eight_wheels();
    let drive = match Drive::new(parts.clone()) {
        Ok(drive) => drive,
        Err(flaws) => {
            println!("no such drive: {flaws:?}");
            return;
        }
    };
    println!("8 wheels, {} belt teeth", drive.belt().teeth);
    let discs: Vec<Disc> = drive.taut_stance().discs.clone();
    let outside_mm: Vec<f64> =
        drive.wheels().iter().map(|w| w.outside_radius_mm(drive.belt())).collect();
    let mut path = Path::default();
    report("path of 8 wheels", Some(500.0), || {
        black_box(path.trace(black_box(&discs))).ok();
    });
    let sense = drive.crank_turns().sign();
    report("path with every soundness check", Some(1000.0), || {
        path.trace(black_box(&discs)).ok();
        let (belt, discs) = (drive.belt(), &discs);
        let scene = Scene { belt, discs, outside_mm: &outside_mm, path: &path, sense };
        black_box(flaws(black_box(&scene)));
    });
    let home = drive.wheels()[drive.tensioner().wheel].centre;
    let mut moving = Moving {
        belt: drive.belt(),
        tensioner: drive.tensioner(),
        home,
        discs: discs.clone(),
        path: Path::default(),
    };
    report("tensioner solve", Some(5000.0), || {
        black_box(moving.taut(black_box(&outside_mm), sense)).ok();
    });
    report("a whole drive put together", None, || {
        black_box(Drive::new(black_box(parts.clone()))).ok();
    });
    let taut = drive.taut_stance();
    let mut cord = Cord::in_time(&drive);
    let mut pose = Pose::default();
    let mut deg = 0.0;
    report(&format!("pose of a {}-tooth belt", drive.belt().teeth), None, || {
        deg += 1.0;
        cord.turn(&drive, taut, 0, Turned::from_deg(deg));
        pose.take(&drive, taut, &cord);
        black_box(&pose);
    });
    let back = drive.stance_at(drive.tensioner().right_back);
    report("the same belt slack", None, || {
        deg += 1.0;
        cord.turn(&drive, &back, 0, Turned::from_deg(deg));
        pose.take(&drive, &back, &cord);
        black_box(&pose);
    });
    report("one turn action", None, || {
        deg += 1.0;
        cord.turn(&drive, &back, 0, black_box(Turned::from_deg(deg)));
    });
    one_action_with_readings();
}

/// What the page does for each thing that a person does: the action itself, and every reading anew.
fn one_action_with_readings() {
    const SIX: &str = include_str!("../../layouts/six-in-a-vee-two-camshafts-a-bank.toml");
    let Ok(plan) = Plan::open(SIX) else {
        println!("no such layout");
        return;
    };
    println!("a six with two camshafts a bank, {} belt teeth", plan.drive.belt().teeth);
    let asked = advice::TensionAsked { seized: Some(1), ..advice::TensionAsked::default() };
    report("how tight it is, all of it", None, || {
        black_box(advice::tension(black_box(&plan), black_box(&asked)));
    });
    let tooth_deg = plan.drive.crank_deg_per_tooth();
    let mut job = Job::new(Rc::new(plan));
    let back = job.act(&Action::Tensioner(TensionerMove::Back), false);
    let turn = Action::Turn { shaft: "crank".to_owned(), deg: tooth_deg };
    let hang = Action::Hang(HangAs::InTime);
    report("turn by a tooth, with readings", Some(20_000.0), || {
        // As one drag goes on, so that what is kept to undo does not grow.
        black_box(job.act(black_box(&turn), true)).ok();
        black_box(advice::readings(&job));
    });
    let mut hung = true;
    report("hang in time, with readings", Some(20_000.0), || {
        hung &= black_box(job.act(black_box(&hang), true)).is_ok();
        black_box(advice::readings(&job));
    });
    if back.is_err() || !hung {
        println!("an action was refused: these times mean nothing");
    }
}
