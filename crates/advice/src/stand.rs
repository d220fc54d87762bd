//! Where the shafts of the engine behind the belt stand, and how far each camshaft is from in time, as
//! `engine` counts: crank degrees past the mark, 720 to a camshaft's turn.
//!
//! Must not know: what stands in whose way.

use drive::Drive;
use engine::{CYCLE_DEG, Stand};
use job::{Job, cycle_deg};

/// Where crank and camshafts stand, each brought into one working cycle: in [0, 720). A camshaft stands
/// where its shaft does, not where a sprocket that floats on it does. `None` where the layout has no
/// engine.
pub fn stand(job: &Job) -> Option<Stand> {
    let drive = job.drive();
    let camshafts = sprockets(job)?;
    let place = |k: usize| within_cycle(cycle_deg(drive, k, job.cord().shaft(k)));
    Some(Stand { crank_deg: place(0), camshafts_deg: camshafts.into_iter().map(place).collect() })
}

/// How far each of the engine's camshafts is ahead of the crank as the belt is fitted and turned tight,
/// crank degrees: whole teeth, what the best tooth leaves, and what a sprocket is turned on its shaft.
/// `None` where the layout has no engine.
pub fn errors_deg(job: &Job) -> Option<Vec<f64>> {
    let (drive, cord) = (job.drive(), job.cord());
    let out = cord.teeth_out();
    let error = |k: usize| {
        let teeth = (out[k] - out[0]) as f64 * deg_per_tooth(drive, k);
        teeth + in_time_error_deg(job, k)
    };
    Some(sprockets(job)?.into_iter().map(error).collect())
}

/// The same with every shaft in time on its best tooth.
pub fn in_time_errors_deg(job: &Job) -> Option<Vec<f64>> {
    Some(sprockets(job)?.into_iter().map(|k| in_time_error_deg(job, k)).collect())
}

/// One tooth of sprocket `k`, a camshaft's, in crank degrees of the engine: 720 to its turn.
pub fn deg_per_tooth(drive: &Drive, k: usize) -> f64 {
    CYCLE_DEG / f64::from(drive.sprockets()[k].teeth)
}

/// The sprockets of the engine's camshafts, in the engine's order.
pub(crate) fn sprockets(job: &Job) -> Option<Vec<usize>> {
    let wheels = &job.plan().engine.as_ref()?.wheels;
    wheels.iter().map(|wheel| job.drive().sprocket_of(*wheel)).collect()
}

fn in_time_error_deg(job: &Job, k: usize) -> f64 {
    let (drive, cord) = (job.drive(), job.cord());
    (drive.best_tooth_deg()[k] - cord.slip_deg(k)) * cycles_per_travel(drive, k) + cord.slip_deg(0)
}

/// Crank degrees of the engine to one crank degree of belt travel: 1 at a camshaft with twice the
/// crank's teeth.
fn cycles_per_travel(drive: &Drive, k: usize) -> f64 {
    2.0 * f64::from(drive.crank_teeth()) / f64::from(drive.sprockets()[k].teeth)
}

fn within_cycle(deg: f64) -> f64 {
    let rest = libm::fmod(deg, CYCLE_DEG);
    let rest = if rest < 0.0 { rest + CYCLE_DEG } else { rest };
    if rest < CYCLE_DEG { rest } else { 0.0 }
}
