//! What putting shafts teeth out of time comes to.
//!
//! Must not know: where the crank stands, slack (what is asked is the installation, turned tight), or
//! what a valve would say to it.

use crate::report::marked;
use job::Job;

/// Every marked shaft with the teeth that it is put out.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatIf {
    /// The marked shafts, in belt order, the crank first.
    pub shafts: Vec<ShaftOut>,
}

/// One shaft of the installation asked about, against the crank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShaftOut {
    /// Index of its wheel.
    pub wheel: usize,
    /// Teeth that it was put from in time, ahead positive.
    pub set_teeth: i64,
    /// Most teeth that it can be put, either way.
    pub most_teeth: i64,
    /// Teeth from in time against the crank: its own less the crank's.
    pub teeth: i64,
    /// `teeth` in degrees of this shaft.
    pub shaft_deg: f64,
    /// `teeth` in crank degrees.
    pub crank_deg: f64,
    /// What its best tooth leaves, teeth, ahead positive: the geometry is never a whole number of
    /// pitches.
    pub best_tooth_error_teeth: f64,
    /// `teeth` and that together, in crank degrees.
    pub with_best_tooth_crank_deg: f64,
}

/// The installation of a job, as it is put.
pub fn what_if(job: &Job) -> WhatIf {
    let (drive, out) = (job.drive(), job.cord().teeth_out());
    let per_tooth = drive.crank_deg_per_tooth();
    let shafts = marked(drive)
        .map(|k| {
            let z = drive.sprockets()[k].teeth;
            let teeth = out[k] - out[0];
            let best_deg = drive.best_tooth_deg()[k];
            ShaftOut {
                wheel: drive.sprockets()[k].wheel,
                set_teeth: out[k],
                most_teeth: i64::from(z / 2),
                teeth: if k == 0 { out[0] } else { teeth },
                shaft_deg: (if k == 0 { out[0] } else { teeth }) as f64 * 360.0 / f64::from(z),
                crank_deg: (if k == 0 { out[0] } else { teeth }) as f64 * per_tooth,
                best_tooth_error_teeth: best_deg / per_tooth,
                with_best_tooth_crank_deg: teeth as f64 * per_tooth + best_deg,
            }
        })
        .collect();
    WhatIf { shafts }
}
