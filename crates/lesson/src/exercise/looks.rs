//! What can be seen of a drive by somebody who reads no figures: roughly where each mark stands, and where
//! the belt hangs.
//!
//! Must not know: what should be seen.

use super::fault::marked;
use advice::{hands, sight};
use drive::Sense;
use job::Job;

/// Half teeth from a notch, beyond which the eye says where on the clock a mark stands.
const FAR_HALVES: i64 = 6;

/// What is seen.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Looks {
    /// Every mark on the wheels, in belt order, each wheel's timing mark first.
    pub marks: Vec<SeenMark>,
    /// Every run that hangs.
    pub runs: Vec<SeenRun>,
}

/// A mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SeenMark {
    /// Index of its wheel.
    pub wheel: usize,
    /// Which of the wheel's other marks; the timing mark where it is none.
    pub other: Option<usize>,
    /// Where it seems to stand.
    pub place: Place,
}

/// Where a mark seems to stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// At the cover's notch or near it: half teeth clockwise of it, to the nearest.
    Near(i64),
    /// Away from it, towards this hour of a clock face, 1 to 12.
    Hour(u8),
}

/// A run that hangs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SeenRun {
    /// Index of the sprocket that it leaves.
    pub run: usize,
    /// How much hangs, half teeth to the nearest, 1 or more.
    pub halves: i64,
}

/// What is seen of a job looked at `aside_deg` off square.
pub fn looks(job: &Job, aside_deg: f64) -> Looks {
    let (plan, drive) = (job.plan(), job.drive());
    let sighted = sight(job, aside_deg).marks;
    let hands = hands(job);
    let mut marks = Vec::new();
    for ((k, mark), hand) in marked(drive).zip(&sighted).zip(&hands) {
        let sprocket = &drive.sprockets()[k];
        let wheel = sprocket.wheel;
        let clockwise = match drive.wheels()[wheel].sense(drive.crank_turns()) {
            Sense::Clockwise => 1.0,
            Sense::Anticlockwise => -1.0,
        };
        let cover_deg = plan.layout.wheels[wheel].mark.map_or(0.0, |mark| mark.cover_clock_deg);
        let mut see = |other: Option<usize>, off_deg: f64| {
            let off_deg = clockwise * off_deg;
            let place = place(off_deg, cover_deg, f64::from(sprocket.teeth));
            marks.push(SeenMark { wheel, other, place });
        };
        see(None, mark.apparent_deg);
        for (other, by_deg) in &hand.to_others_deg {
            see(Some(*other), -by_deg + mark.seems_deg);
        }
    }
    let all = if job.cord().is_on() { drive.sprockets().len() } else { 0 };
    let runs = (0..all).filter_map(|run| {
        let teeth = job.cord().slack_mm(drive, job.stance(), run) / drive.belt().pitch_mm;
        let halves = libm::round(2.0 * teeth) as i64;
        (halves > 0).then_some(SeenRun { run, halves })
    });
    Looks { marks, runs: runs.collect() }
}

/// A mark `off_deg` clockwise of the notch at `cover_deg`, on a wheel with `teeth` grooves.
fn place(off_deg: f64, cover_deg: f64, teeth: f64) -> Place {
    let off_deg = drive::wrap_to(off_deg, 360.0);
    let halves = libm::round(2.0 * off_deg * teeth / 360.0) as i64;
    if halves.abs() <= FAR_HALVES {
        return Place::Near(halves);
    }
    let hour = libm::round((cover_deg + off_deg) / 30.0) as i64;
    match hour.rem_euclid(12) {
        0 => Place::Hour(12),
        hour => Place::Hour(hour as u8),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_the_notch_in_half_teeth_else_on_the_clock() {
        assert_eq!(place(7.4, 0.0, 48.0), Place::Near(2));
        assert_eq!(place(-3.6, 90.0, 48.0), Place::Near(-1));
        assert_eq!(place(356.4, 90.0, 48.0), Place::Near(-1));
        assert_eq!(place(180.0, 0.0, 48.0), Place::Hour(6));
        assert_eq!(place(-90.0, 90.0, 48.0), Place::Hour(12));
        assert_eq!(place(-120.0, 90.0, 48.0), Place::Hour(11));
    }
}
