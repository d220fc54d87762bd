//! How far each shaft is from the places that somebody might turn it to: its own mark, and the others on
//! its wheel that can be taken for it.
//!
//! Must not know: who turns it.

use crate::report::marked;
use drive::{Sense, mark_error_teeth, wrap_to};
use job::Job;

/// A marked shaft and where it might be turned to.
#[derive(Clone, Debug, PartialEq)]
pub struct Hand {
    /// Index of its wheel.
    pub wheel: usize,
    /// Turning it by so many of its degrees, forward positive, the shorter way, brings its mark up.
    pub to_mark_deg: f64,
    /// For each other mark on the wheel: its index in the layout, and the same for it.
    pub to_others_deg: Vec<(usize, f64)>,
}

/// The marked shafts of a job as it stands, in belt order.
pub fn hands(job: &Job) -> Vec<Hand> {
    let (plan, drive) = (job.plan(), job.drive());
    marked(drive)
        .map(|k| {
            let sprocket = &drive.sprockets()[k];
            let z = f64::from(sprocket.teeth);
            let turned = job.cord().turned()[k];
            let off_deg = mark_error_teeth(turned, sprocket.teeth, drive.crank_teeth()) * 360.0 / z;
            let wheel = sprocket.wheel;
            // A wheel that turns clockwise brings up forward what stands anticlockwise of its mark.
            let sign = match drive.wheels()[wheel].sense(drive.crank_turns()) {
                Sense::Clockwise => -1.0,
                Sense::Anticlockwise => 1.0,
            };
            let others = plan.layout.wheels[wheel].other_marks.iter().enumerate();
            Hand {
                wheel,
                to_mark_deg: -off_deg,
                to_others_deg: others
                    .map(|(i, other)| (i, wrap_to(sign * other.wheel_clock_deg - off_deg, 360.0)))
                    .collect(),
            }
        })
        .collect()
}
