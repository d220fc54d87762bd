//! What teeth out of time do to the engine behind the belt: events, gaps, compression, each beside its
//! value in time. In time is on the best tooth, which is seldom dead on: what it leaves is in every figure
//! here (`clearance` leaves it out).
//!
//! Must not know: where the crank stands, slack (what is asked is the installation, turned tight), or any
//! judgement beyond the figures.

use crate::clearance::{teeth_of, valve_name};
use crate::readings::fitted_teeth;
use crate::stand::{errors_deg, in_time_errors_deg};
use engine::{
    AnyAngle, Between, Cranking, Engine, Events, FirstTouch, Kind, LeastGap, Phasing, Snap,
};
use job::Job;
use layout::EnginePlan;
use serde::Serialize;

/// The usual least gap of an intake valve, mm: a default, for want of a figure of the engine's own (2.0
/// mm, fordmuscle.com, piston to valve).
pub const USUAL_INTAKE_MM: f64 = 2.0;
/// The same of an exhaust valve, mm (2.5 mm, the same source).
pub const USUAL_EXHAUST_MM: f64 = 2.5;

/// The least and greatest exponent that cranking pressures are told for where nobody chose one.
pub const EXPONENTS: [f64; 2] = [1.20, 1.30];

/// The installation's engine.
#[derive(Clone, Debug, PartialEq)]
pub struct EngineOut {
    /// Whether pistons and valves can meet at all, at any angles; `None` where figures are missing.
    pub any_angle: Option<AnyAngle>,
    /// Each camshaft.
    pub camshafts: Vec<CamshaftOut>,
    /// The exponent that cranking pressures are worked out with, and whether somebody chose it.
    pub exponent: f64,
    /// Whether somebody chose it.
    pub exponent_chosen: bool,
}

/// One camshaft of the installation.
#[derive(Clone, Debug, PartialEq)]
pub struct CamshaftOut {
    /// Index of its wheel.
    pub wheel: usize,
    /// Teeth from in time against the crank, ahead positive.
    pub teeth: i64,
    /// The same in crank degrees.
    pub crank_deg: f64,
    /// The cylinders whose valves it moves, by index from 0.
    pub cylinders: Vec<usize>,
    /// Its valves.
    pub valves: Vec<ValveOut>,
    /// Overlap and separation in one of its cylinders, now and in time; `None` where one of the
    /// cylinder's valves is not known.
    pub between: Option<[Between; 2]>,
    /// Compression, now and in time; `None` without the figures or an intake valve, or where a valve is
    /// open while it should squeeze.
    pub cranking: Option<[CrankingOut; 2]>,
    /// A valve that is open while the piston comes up to fire: nothing is squeezed then.
    pub leaks: Option<Kind>,
    /// First touching tooth each way, counted from in time.
    pub first_touch: Option<FirstTouch>,
    /// Which way it wants to turn at its mark when the belt comes off.
    pub snap: Option<Snap>,
}

/// A valve of the installation.
#[derive(Clone, Debug, PartialEq)]
pub struct ValveOut {
    /// Which.
    pub kind: Kind,
    /// Its events now and in time.
    pub events: [Events; 2],
    /// Its least gap now and in time; `None` where no gap can be told.
    pub least: Option<[LeastGap; 2]>,
    /// Whether it is under the usual least gap now.
    pub under_usual: bool,
}

/// Compression.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CrankingOut {
    /// From where it is counted: the intake valve's closing, crank degrees after bottom.
    pub closes_abdc_deg: f64,
    /// The lift at which that closing is taken, mm: the one at which the layout states events.
    pub shut_at_lift_mm: f64,
    /// Effective compression ratio, from intake closing on.
    pub effective_ratio: f64,
    /// Cranking pressure a gauge would show, bar: with the least exponent, the one worked with, the
    /// greatest.
    pub gauge_bar: [f64; 3],
    /// The same, absolute.
    pub absolute_bar: [f64; 3],
}

/// By what share of it a gauge shows more than in time; `both` are now and in time.
pub fn gauge_change([now, time]: &[CrankingOut; 2]) -> f64 {
    now.gauge_bar[1] / time.gauge_bar[1] - 1.0
}

impl CamshaftOut {
    /// The valve that is nearest to its piston, or furthest into it.
    pub fn worst(&self) -> Option<(&ValveOut, LeastGap)> {
        let known = self.valves.iter().filter_map(|v| v.least.map(|[now, _]| (v, now)));
        known.min_by(|a, b| a.1.along_bore_mm.total_cmp(&b.1.along_bore_mm))
    }
}

/// The engine of a job's installation; `None` without one in the layout. `exponent` is the one that
/// somebody chose.
pub fn engine_out(job: &Job, exponent: Option<f64>) -> Option<EngineOut> {
    let plan = job.plan();
    let EnginePlan { engine, wheels } = plan.engine.as_ref()?;
    let teeth: Vec<i64> = wheels
        .iter()
        .map(|wheel| plan.drive.sprocket_of(*wheel).map_or(0, |k| fitted_teeth(job, k)))
        .collect();
    // On its best tooth a mark is not dead on: what that leaves is in both.
    let (errors, in_time) = (errors_deg(job)?, in_time_errors_deg(job)?);
    let chosen = exponent.and_then(|n| Cranking::new(n, Cranking::default().air_bar()).ok());
    let cranking = chosen.unwrap_or_default();
    let camshafts = wheels
        .iter()
        .enumerate()
        .filter_map(|(c, wheel)| {
            let camshaft = engine.camshafts().get(c)?;
            let first = camshaft.cylinders().first().copied();
            let valves = [Kind::Intake, Kind::Exhaust].into_iter().filter_map(|kind| {
                let events = [errors[c], in_time[c]].map(|error| engine.events(c, kind, error));
                let [Some(now), Some(time)] = events else { return None };
                let least =
                    |error| engine.gap(c, kind, error, Phasing::AtRest).map(|gap| gap.least());
                let least = least(errors[c]).zip(least(in_time[c])).map(|(now, time)| [now, time]);
                let usual = match kind {
                    Kind::Intake => USUAL_INTAKE_MM,
                    Kind::Exhaust => USUAL_EXHAUST_MM,
                };
                let under_usual = least.is_some_and(|[now, _]| now.along_bore_mm < usual);
                Some(ValveOut { kind, events: [now, time], least, under_usual })
            });
            let between = first.and_then(|cylinder| {
                Some([engine.between(cylinder, &errors)?, engine.between(cylinder, &in_time)?])
            });
            // Further down the lobe only a law says where the valve shuts, not the layout.
            let shut_mm = camshaft.valve(Kind::Intake).map_or(0.0, |valve| valve.at_lift_mm());
            let squeeze = |error| {
                let ratio = engine.effective_ratio(c, error, shut_mm)?;
                let (_, closes) =
                    engine.events(c, Kind::Intake, error)?.before_after_deg(Kind::Intake);
                Some(cranked(ratio, &cranking, closes, shut_mm))
            };
            let leaks = first.and_then(|cylinder| leaks(engine, c, cylinder, &errors));
            let teeth_of = teeth_of(&plan.drive, *wheel);
            Some(CamshaftOut {
                wheel: *wheel,
                teeth: teeth[c],
                crank_deg: teeth[c] as f64 * plan.drive.crank_deg_per_tooth(),
                cylinders: camshaft.cylinders().to_vec(),
                valves: valves.collect(),
                between,
                cranking: squeeze(errors[c])
                    .zip(squeeze(in_time[c]))
                    .filter(|_| leaks.is_none())
                    .map(|(now, time)| [now, time]),
                leaks,
                first_touch: teeth_of.and_then(|teeth| {
                    engine.first_touch_of_camshaft(c, in_time[c], teeth, Phasing::AtRest)
                }),
                snap: engine.snap(c, 0.0),
            })
        })
        .collect();
    Some(EngineOut {
        any_angle: engine.any_angle(),
        camshafts,
        exponent: cranking.exponent(),
        exponent_chosen: chosen.is_some(),
    })
}

/// A valve of `cylinder` that is open on the stroke that squeezes, the intake valve on camshaft `c`: the
/// intake past the firing top, or the exhaust anywhere from where the intake shuts up to there.
fn leaks(engine: &Engine, c: usize, cylinder: usize, errors: &[f64]) -> Option<Kind> {
    const FIRING_TOP_DEG: f64 = 360.0;
    let intake = engine.events(c, Kind::Intake, errors[c])?;
    if intake.closes_deg >= FIRING_TOP_DEG || intake.closes_deg <= 0.0 {
        return Some(Kind::Intake);
    }
    let by = engine.moved_by(cylinder, Kind::Exhaust)?;
    let exhaust = engine.events(by, Kind::Exhaust, *errors.get(by)?)?;
    let open = [-720.0, 0.0, 720.0].iter().any(|cycle| {
        exhaust.opens_deg + cycle < FIRING_TOP_DEG && exhaust.closes_deg + cycle > intake.closes_deg
    });
    open.then_some(Kind::Exhaust)
}

fn cranked(
    effective_ratio: f64,
    chosen: &Cranking,
    closes_abdc_deg: f64,
    shut_at_lift_mm: f64,
) -> CrankingOut {
    let at = |n: f64| engine::polytropic(chosen.air_bar(), effective_ratio, n);
    let absolute_bar = [at(EXPONENTS[0]), at(chosen.exponent()), at(EXPONENTS[1])];
    let gauge_bar = absolute_bar.map(|bar| bar - chosen.air_bar());
    CrankingOut { closes_abdc_deg, shut_at_lift_mm, effective_ratio, gauge_bar, absolute_bar }
}

/// What `two-turns what-if` prints.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WhatIfReport {
    /// The marked shafts.
    pub shafts: Vec<ShaftWhatIf>,
    /// The engine; null without one in the layout.
    pub engine: Option<EngineWhatIf>,
}

/// A marked shaft.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ShaftWhatIf {
    /// Its id.
    pub id: String,
    /// Teeth from in time against the crank, ahead positive; the crank's own as it was put.
    pub teeth: i64,
    /// The same in degrees of the shaft.
    pub shaft_deg: f64,
    /// The same in crank degrees.
    pub crank_deg: f64,
    /// What its best tooth leaves, teeth, ahead positive.
    pub best_tooth_error_teeth: f64,
}

/// The engine.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EngineWhatIf {
    /// `interference` or `free-wheeling`, for these figures; null where they are not enough.
    pub contact: Option<&'static str>,
    /// The camshafts.
    pub camshafts: Vec<CamshaftWhatIf>,
    /// The exponent of cranking pressures.
    pub exponent: f64,
}

/// A camshaft.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CamshaftWhatIf {
    /// Id of its wheel.
    pub camshaft: String,
    /// Teeth against the crank, ahead positive.
    pub teeth: i64,
    /// Its cylinders, from 1.
    pub cylinders: Vec<usize>,
    /// Its valves.
    pub valves: Vec<ValveWhatIf>,
    /// Overlap, crank degrees; null where not known.
    pub overlap_deg: Option<f64>,
    /// In time.
    pub overlap_in_time_deg: Option<f64>,
    /// Angle between the lobes' middles, camshaft degrees; null where not known.
    pub separation_cam_deg: Option<f64>,
    /// In time.
    pub separation_in_time_cam_deg: Option<f64>,
    /// Compression; null where not known.
    pub cranking: Option<CrankingOut>,
    /// In time.
    pub cranking_in_time: Option<CrankingOut>,
    /// A valve that is open while the piston comes up to fire, `intake` or `exhaust`; null if none.
    pub open_on_compression: Option<&'static str>,
    /// First touching tooth early from in time; null if none.
    pub teeth_early_to_contact: Option<u32>,
    /// The same late.
    pub teeth_late_to_contact: Option<u32>,
}

/// A valve.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ValveWhatIf {
    /// `intake` or `exhaust`.
    pub valve: &'static str,
    /// Opens before its dead centre, crank degrees.
    pub opens_before_deg: f64,
    /// Closes after its dead centre.
    pub closes_after_deg: f64,
    /// In time.
    pub opens_before_in_time_deg: f64,
    /// In time.
    pub closes_after_in_time_deg: f64,
    /// Open for so many crank degrees.
    pub duration_deg: f64,
    /// Middle between opening and closing, crank degrees from the overlap top.
    pub centreline_deg: f64,
    /// Least gap along the bore, mm; null where no gap can be told.
    pub least_gap_mm: Option<f64>,
    /// In time.
    pub least_gap_in_time_mm: Option<f64>,
    /// Where, crank degrees from the cylinder's overlap top.
    pub at_crank_deg: Option<f64>,
    /// Whether it would touch.
    pub touches: Option<bool>,
}

/// The answer for a job's installation.
pub fn what_if_report(job: &Job, exponent: Option<f64>) -> WhatIfReport {
    let plan = job.plan();
    let id = |wheel: usize| plan.id(wheel).to_owned();
    let shafts = crate::what_if(job).shafts;
    let engine = engine_out(job, exponent).map(|out| EngineWhatIf {
        contact: out.any_angle.filter(|any| any.all_known).map(|any| contact_name(&any)),
        exponent: out.exponent,
        camshafts: out
            .camshafts
            .iter()
            .map(|c| CamshaftWhatIf {
                camshaft: id(c.wheel),
                teeth: c.teeth,
                cylinders: c.cylinders.iter().map(|cylinder| cylinder + 1).collect(),
                valves: c.valves.iter().map(valve_report).collect(),
                overlap_deg: c.between.map(|[now, _]| now.overlap_deg),
                overlap_in_time_deg: c.between.map(|[_, time]| time.overlap_deg),
                separation_cam_deg: c.between.map(|[now, _]| now.separation_cam_deg),
                separation_in_time_cam_deg: c.between.map(|[_, time]| time.separation_cam_deg),
                cranking: c.cranking.map(|[now, _]| now),
                cranking_in_time: c.cranking.map(|[_, time]| time),
                open_on_compression: c.leaks.map(valve_name),
                teeth_early_to_contact: c.first_touch.and_then(|touch| touch.early),
                teeth_late_to_contact: c.first_touch.and_then(|touch| touch.late),
            })
            .collect(),
    });
    WhatIfReport {
        shafts: shafts
            .iter()
            .map(|s| ShaftWhatIf {
                id: id(s.wheel),
                teeth: s.teeth,
                shaft_deg: s.shaft_deg,
                crank_deg: s.crank_deg,
                best_tooth_error_teeth: s.best_tooth_error_teeth,
            })
            .collect(),
        engine,
    }
}

fn valve_report(v: &ValveOut) -> ValveWhatIf {
    let [now, time] = v.events.map(|events| events.before_after_deg(v.kind));
    ValveWhatIf {
        valve: valve_name(v.kind),
        opens_before_deg: now.0,
        closes_after_deg: now.1,
        opens_before_in_time_deg: time.0,
        closes_after_in_time_deg: time.1,
        duration_deg: v.events[0].duration_deg(),
        centreline_deg: v.events[0].centreline_deg(),
        least_gap_mm: v.least.map(|[now, _]| now.along_bore_mm),
        least_gap_in_time_mm: v.least.map(|[_, time]| time.along_bore_mm),
        at_crank_deg: v.least.map(|[now, _]| now.at_deg),
        touches: v.least.map(|[now, _]| now.along_bore_mm < 0.0),
    }
}

/// The trade's words for whether pistons and valves can meet.
pub const fn contact_name(any: &AnyAngle) -> &'static str {
    match any.contact {
        engine::Contact::Interference => "interference",
        engine::Contact::FreeWheeling => "free-wheeling",
    }
}
