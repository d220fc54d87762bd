//! The turn dial: a spiral of two turns of the crank, which is one whole cycle.
//!
//! The same place on the clock is the same piston position, once in each winding. It is drawn in units
//! of its own: its outer winding ends at [`DIAL_REACH`] from the middle.
//!
//! Must not know: the drive's picture.

use crate::list::{Class, List, Part};
use advice::ContactArcs;
use drive::{Angle, DVec2, Turned};
use job::Job;

/// How far the dial reaches from its middle, in its own units.
pub const DIAL_REACH: f64 = 100.0;

const INNER: f64 = 51.0;
const OUTER: f64 = 85.0;
const CYCLE_DEG: f64 = 720.0;
/// How far outside the winding contact arcs run.
const BESIDE: f64 = 6.5;
/// The winding is drawn in straight pieces of this many degrees.
const PIECE_DEG: f64 = 6.0;

/// Draws the dial for where a job's crank stands.
#[derive(Clone, Copy, Debug, Default)]
pub struct Dial;

impl Dial {
    /// Where `crank_deg` (0 to 720) is on the spiral.
    pub fn place(crank_deg: f64) -> DVec2 {
        Self::beside(crank_deg, 0.0)
    }

    /// The crank's angle within its cycle of two turns, 0 up to 720.
    pub fn within_cycle(crank: Turned) -> f64 {
        crank.deg + if crank.turns.rem_euclid(2) == 1 { 360.0 } else { 0.0 }
    }

    fn beside(crank_deg: f64, outward: f64) -> DVec2 {
        let radius = INNER + (OUTER - INNER) * crank_deg / CYCLE_DEG;
        Angle::from_clock_deg(crank_deg).unit() * (radius + outward)
    }

    /// Draws it on top of what `list` holds, with the arcs in which a valve would touch or come near.
    pub fn draw(list: &mut List, job: &Job, contact: &ContactArcs) {
        Self::face(list, job);
        let within = Self::within_cycle(job.crank());
        for (class, arcs) in
            [(Class::NearArc, &contact.near), (Class::ContactArc, &contact.touching)]
        {
            for arc in arcs {
                winding(list, class, arc.from_deg, arc.to_deg, BESIDE);
            }
        }
        for (k, sprocket) in job.drive().sprockets().iter().enumerate().skip(1) {
            if job.drive().wheels()[sprocket.wheel].mark.is_some() {
                meeting_places(list, job, k);
            }
        }
        Self::hand(list, within);
    }

    /// What is there whatever is hung on the wheels.
    fn face(list: &mut List, job: &Job) {
        let within = Self::within_cycle(job.crank());
        winding(list, Class::Winding, 0.0, CYCLE_DEG, 0.0);
        // Turned back past the start, nothing of the cycle has been turned through.
        if job.crank().turns >= 0 {
            winding(list, Class::Turned, 0.0, within, 0.0);
        }
        for step in 0..=24 {
            let deg = f64::from(step) * 30.0;
            let half = if step % 3 == 0 { 5.5 } else { 2.5 };
            list.begin(Class::Division, Part::Dial);
            list.move_to(Self::beside(deg, -half));
            list.line_to(Self::beside(deg, half));
        }
        crank_mark(list);
    }

    /// Draws it without anything that tells how other shafts stand.
    pub fn draw_unjudged(list: &mut List, job: &Job) {
        Self::face(list, job);
        Self::hand(list, Self::within_cycle(job.crank()));
    }

    fn hand(list: &mut List, within: f64) {
        list.begin(Class::Hand, Part::Dial);
        list.move_to(Angle::from_clock_deg(within).unit() * 38.0);
        list.line_to(Self::place(within));
        list.begin(Class::Knob, Part::Dial);
        list.circle(Self::place(within), 9.0);
    }
}

/// At the top, where the crank's own mark is up once in each turn: a notch as on the cover.
fn crank_mark(list: &mut List) {
    for side in [1.0, -1.0] {
        list.begin(Class::CoverMark, Part::Dial);
        list.polygon([
            DVec2::new(side * 0.8, 90.5),
            DVec2::new(side * 0.8, 99.0),
            DVec2::new(side * 6.0, 99.0),
        ]);
    }
}

/// A wedge inside the winding at each place in the cycle where sprocket `k`'s mark is at the cover's.
fn meeting_places(list: &mut List, job: &Job, k: usize) {
    let drive = job.drive();
    let ahead = advice::ahead_teeth(job, k);
    let out = advice::out_teeth(job, k).is_some();
    let class = if out { Class::MarkOut } else { Class::MarkIn };
    let turn_deg = 360.0 * f64::from(drive.sprockets()[k].teeth) / f64::from(drive.crank_teeth());
    // A mark that is ahead meets its cover mark that much sooner.
    let first = -ahead * drive.crank_deg_per_tooth();
    let mut at = first - libm::floor(first / turn_deg) * turn_deg;
    // A shade more, so that the end of the cycle shows what its beginning does.
    while at <= CYCLE_DEG + 1e-9 {
        list.begin(class, Part::Dial);
        list.polygon([
            Dial::beside(at, -4.5),
            turned(Dial::beside(at, -13.5), 5.5),
            turned(Dial::beside(at, -13.5), -5.5),
        ]);
        at += turn_deg;
    }
}

/// `p` moved about the middle by `by` of the dial's units.
fn turned(p: DVec2, by: f64) -> DVec2 {
    Angle::from_rad(by / p.length()).unit().rotate(p)
}

fn winding(list: &mut List, class: Class, from: f64, to: f64, outward: f64) {
    list.begin(class, Part::Dial);
    list.move_to(Dial::beside(from, outward));
    let mut at = from + PIECE_DEG;
    while at < to {
        list.line_to(Dial::beside(at, outward));
        at += PIECE_DEG;
    }
    list.line_to(Dial::beside(to, outward));
}

/// The crank angle that a hand at `point` (in the dial's units, y up) asks for, as near as can be to
/// `now_deg`: it follows the hand round and round, like a wrench. `None` at the very middle.
pub fn dial_angle_deg(point: DVec2, now_deg: f64) -> Option<f64> {
    if point.length() < 4.0 {
        return None;
    }
    let asked = Angle::of(point).clock_deg();
    Some(now_deg + drive::wrap_to(asked - now_deg, 360.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_place_on_the_clock_once_in_each_winding() {
        for deg in [0.0, 90.0, 200.0, 359.0] {
            let (inner, outer) = (Dial::place(deg), Dial::place(deg + 360.0));
            assert!(inner.perp_dot(outer).abs() < 1e-9 && inner.dot(outer) > 0.0);
            assert!(outer.length() > inner.length());
        }
    }

    #[test]
    fn a_hand_is_followed_over_turns() {
        let mut now = 700.0;
        for deg in [710.0, 719.0, 1.0, 30.0, 200.0, 300.0, 10.0] {
            now = dial_angle_deg(Angle::from_clock_deg(deg).unit() * 60.0, now).unwrap();
        }
        assert!((now - (720.0 + 370.0)).abs() < 1e-9);
        assert_eq!(dial_angle_deg(DVec2::ZERO, 5.0), None);
    }
}
