//! Where a hand that turns a shaft is stopped because a valve meets its piston.
//!
//! Must not know: sentences, or how the belt drags what it drags.
//!
//! A turn moves a crank and a camshaft the same way or not at all. Whichever moves further moves alone
//! first, while slack is drawn up; from there both go together. So each camshaft's way is at most two
//! pieces, and on each of them the first contact is exact.

use drive::{Cord, Drive, Turned};
use engine::{Engine, Kind, Meeting, Turning};
use layout::EnginePlan;

/// What meets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Contact {
    /// The cylinder, by index from 0.
    pub cylinder: usize,
    /// Index of the wheel of the valve's camshaft.
    pub wheel: usize,
    /// Which valve.
    pub valve: Kind,
}

/// How far short of contact a turn is stopped, crank degrees: outside it whatever rounding does.
const SHORT_DEG: f64 = 1e-6;

/// Where shaft `k` stands in the engine's cycle: crank degrees past its mark, in [0, 720). Whole turns
/// are taken away in whole numbers.
pub fn cycle_deg(drive: &Drive, k: usize, turned: Turned) -> f64 {
    let (z, crank) = (drive.sprockets()[k].teeth, drive.crank_teeth());
    if k == 0 {
        return 360.0 * turned.turns.rem_euclid(2) as f64 + turned.deg;
    }
    let whole = (i128::from(turned.turns) * i128::from(crank)).rem_euclid(i128::from(z));
    let teeth = whole as f64 + turned.deg * f64::from(crank) / 360.0;
    teeth / f64::from(z) * 720.0
}

/// How far sprocket `driver` may go of a turn that would bring the belt from `before` to `after`, crank
/// degrees not below 0, and what stops it there; `None` where nothing does.
pub(crate) fn first_contact(
    plan: &EnginePlan,
    drive: &Drive,
    before: &Cord,
    after: &Cord,
    driver: usize,
) -> Option<(f64, Contact)> {
    let moved = |k: usize| after.shaft(k).since(before.shaft(k));
    let whole = moved(driver).abs();
    let mut first: Option<(f64, Contact)> = None;
    for (camshaft, &wheel) in plan.wheels.iter().enumerate() {
        let Some(k) = drive.sprocket_of(wheel) else { continue };
        // One that does not turn at half the crank's speed is no four-stroke camshaft.
        if drive.sprockets()[k].teeth != 2 * drive.crank_teeth() {
            continue;
        }
        let (crank, cam) = (moved(0), moved(k));
        let pair = Pair {
            engine: &plan.engine,
            camshaft,
            crank_deg: cycle_deg(drive, 0, before.shaft(0)),
            cam_deg: cycle_deg(drive, k, before.shaft(k)),
        };
        let Some((after_deg, cylinder, valve)) = pair.first(crank, cam) else { continue };
        // The one that moves further began with the driver or later.
        let further = crank.abs().max(cam.abs());
        let at = whole - (further - after_deg) - SHORT_DEG;
        let at = if at > 0.0 { at } else { 0.0 };
        if first.is_none_or(|(so_far, _)| at < so_far) {
            first = Some((at, Contact { cylinder, wheel, valve }));
        }
    }
    first
}

struct Pair<'a> {
    engine: &'a Engine,
    camshaft: usize,
    crank_deg: f64,
    cam_deg: f64,
}

impl Pair<'_> {
    /// After how far, of the way of whichever moves further, a valve of the camshaft meets a piston.
    fn first(&self, crank: f64, cam: f64) -> Option<(f64, usize, Kind)> {
        let further = if crank.abs() >= cam.abs() { crank } else { cam };
        let together = crank.abs().min(cam.abs());
        let sign = if further < 0.0 { -1.0 } else { 1.0 };
        let alone = further.abs() - together;
        let turning = if crank.abs() >= cam.abs() { Turning::Crank } else { Turning::Camshaft };
        let stop = |crank_deg, cam_deg, turning, by: f64| {
            self.engine.until_contact(self.camshaft, crank_deg, cam_deg, turning, sign * by)
        };
        let met = |before: f64, stop: engine::Stop| match stop.parts {
            Meeting::Piston { cylinder, valve, .. } => {
                Some((before + stop.after_deg, cylinder, valve))
            }
            Meeting::Valves { .. } => None,
        };
        if let Some(stop) = stop(self.crank_deg, self.cam_deg, turning, alone) {
            return met(0.0, stop);
        }
        let (mut crank_deg, mut cam_deg) = (self.crank_deg, self.cam_deg);
        match turning {
            Turning::Crank => crank_deg += sign * alone,
            _ => cam_deg += sign * alone,
        }
        met(alone, stop(crank_deg, cam_deg, Turning::Together, together)?)
    }
}
