//! The drive at one moment, as figures: what `two-turns pose` prints.
//!
//! Must not know: which actions led there.

use drive::Pose;
use job::Job;
use serde::Serialize;

/// Where everything stands. Full precision; degrees, mm, wheels by id.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PoseReport {
    /// The crank's angle from its mark over all its turns, degrees.
    pub crank_deg: f64,
    /// The tensioner.
    pub tensioner: TensionerPose,
    /// The wheels, in belt order.
    pub wheels: Vec<WheelPose>,
    /// The runs between toothed wheels, in belt order.
    pub runs: Vec<RunPose>,
    /// The belt's teeth; a tooth keeps its place in this list for good.
    pub belt_teeth: Vec<BeltToothPose>,
}

/// Where the tensioner stands.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TensionerPose {
    /// Its travel, in `unit`.
    pub travel: f64,
    /// `mm` or `deg`.
    pub unit: &'static str,
}

/// Where a wheel stands.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WheelPose {
    /// Its id.
    pub id: String,
    /// Its centre, mm.
    pub at_mm: [f64; 2],
    /// How far it is turned, forward positive, over all its turns, degrees.
    pub turned_deg: f64,
    /// How far its mark is from the cover's, in its own teeth, ahead positive; null without a mark.
    pub mark_error_teeth: Option<f64>,
}

/// A run between two toothed wheels.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunPose {
    /// The wheel that it leaves.
    pub from: String,
    /// The wheel that it meets.
    pub to: String,
    /// Its slack, mm.
    pub slack_mm: f64,
}

/// A tooth of the belt.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BeltToothPose {
    /// Its middle on the pitch line, mm.
    pub at_mm: [f64; 2],
    /// The wheel in whose groove it sits; null where it is free or on a smooth wheel.
    #[serde(rename = "in")]
    pub seat: Option<String>,
}

/// The pose of a job as it stands.
pub fn pose(job: &Job) -> PoseReport {
    let (plan, drive) = (job.plan(), job.drive());
    let pose = Pose::of(drive, job.stance(), job.cord());
    let id = |i: usize| plan.id(i).to_owned();
    PoseReport {
        crank_deg: job.crank().total_deg(),
        tensioner: TensionerPose { travel: job.travel(), unit: job.travel_unit().name() },
        wheels: (0..drive.wheels().len())
            .map(|i| WheelPose {
                id: id(i),
                at_mm: job.stance().discs[i].centre.to_array(),
                turned_deg: pose.turned_deg(drive, i),
                mark_error_teeth: pose.mark_error_teeth(drive, i),
            })
            .collect(),
        runs: pose
            .slack_mm
            .iter()
            .enumerate()
            .map(|(j, slack)| RunPose {
                from: id(drive.sprockets()[j].wheel),
                to: id(drive.sprockets()[drive.next(j)].wheel),
                slack_mm: *slack,
            })
            .collect(),
        belt_teeth: pose
            .teeth
            .iter()
            .map(|tooth| BeltToothPose { at_mm: tooth.at.to_array(), seat: tooth.seat.map(id) })
            .collect(),
    }
}
