//! What the engine's figures give for pictures: the reading of one cylinder as it stands, curves over
//! the cycle, least gaps against teeth, and where in the cycle something would touch.
//!
//! Phasers are taken at rest. A gap is a calculation from figures that somebody entered.
//!
//! Must not know: how any of it is drawn or worded.

use crate::stand::{deg_per_tooth, errors_deg, in_time_errors_deg, sprockets};
use engine::{Arc, CYCLE_DEG, Engine, Kind, Phasing, Stand, wrap_cycle};
use job::Job;

/// Teeth out each way for which [`gaps_by_teeth`] tells the least gap.
pub const TEETH_EACH_WAY: i64 = 6;

/// The margin that is usually wanted between a valve and its piston, mm: a rule of thumb from tuning
/// practice, not any engine's own figure.
pub const fn usual_margin_mm(valve: Kind) -> f64 {
    match valve {
        Kind::Intake => 2.0,
        Kind::Exhaust => 2.5,
    }
}

/// One cylinder as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct CylinderReading {
    /// Its index.
    pub cylinder: usize,
    /// How far its piston stands below its top, mm.
    pub piston_mm: f64,
    /// Crank degrees from its own overlap top, in (−360, 360].
    pub at_deg: f64,
    /// Its valves that are stated, the intake first.
    pub valves: Vec<ValveReading>,
}

/// One valve as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ValveReading {
    /// Which.
    pub valve: Kind,
    /// Its lift along the stem, mm; `None` where only degrees are stated.
    pub lift_mm: Option<f64>,
    /// From its piston along the bore, mm, below zero where they would be in the same place; `None`
    /// where its room is not stated.
    pub gap_mm: Option<f64>,
}

/// The reading of a cylinder with the shafts where `stand` has them; `None` without stroke and rod, or
/// such a cylinder.
pub fn cylinder_reading(
    engine: &Engine,
    stand: &Stand,
    cylinder: usize,
) -> Option<CylinderReading> {
    let piston = engine.crank()?;
    if cylinder >= engine.cylinders() {
        return None;
    }
    let at_deg = engine.from_overlap_deg(cylinder, stand.crank_deg);
    let valve = |valve: Kind| {
        let camshaft = engine.moved_by(cylinder, valve)?;
        let cam_deg = stand.camshaft_deg(camshaft);
        let stated = engine.camshafts().get(camshaft)?.valve(valve)?;
        let gap = engine.gap(camshaft, valve, cam_deg - stand.crank_deg, Phasing::AtRest);
        Some(ValveReading {
            valve,
            lift_mm: stated
                .lobe()
                .map(|lobe| lobe.lift_mm(engine.from_overlap_deg(cylinder, cam_deg))),
            gap_mm: gap.map(|gap| gap.at_mm(at_deg)),
        })
    };
    Some(CylinderReading {
        cylinder,
        piston_mm: piston.depth_mm(at_deg),
        at_deg,
        valves: Kind::BOTH.into_iter().filter_map(valve).collect(),
    })
}

/// The cylinder with the least gap of the installation as it is put, the first of equals; `None` where
/// no gap is known.
pub fn nearest_cylinder(job: &Job) -> Option<usize> {
    let engine = &job.plan().engine.as_ref()?.engine;
    let errors = errors_deg(job)?;
    let mut least: Option<(f64, usize)> = None;
    for (camshaft, c) in engine.camshafts().iter().enumerate() {
        for valve in Kind::BOTH {
            let error = errors.get(camshaft).copied().unwrap_or(0.0);
            let Some(gap) = engine.gap(camshaft, valve, error, Phasing::AtRest) else { continue };
            let (mm, first) = (gap.least().along_bore_mm, c.cylinders().iter().min());
            if let Some(&first) = first
                && least.is_none_or(|(most, _)| mm < most - 1e-6)
            {
                least = Some((mm, first));
            }
        }
    }
    least.map(|(_, cylinder)| cylinder)
}

/// One valve over the cycle, a step of one crank degree between places, 721 of them from −360° to 360°
/// after the cylinder's overlap top.
#[derive(Clone, Debug, PartialEq)]
pub struct ValveCurve {
    /// Which valve.
    pub valve: Kind,
    /// How far the piston stands below the shut valve along the bore, mm.
    pub piston_mm: Vec<f64>,
    /// How far the valve reaches down along the bore, mm. The gap is the one less the other.
    pub valve_mm: Vec<f64>,
    /// The same with its camshaft in time on its best tooth.
    pub in_time_mm: Vec<f64>,
}

/// The places of a [`ValveCurve`], crank degrees after the overlap top.
pub fn curve_places_deg() -> impl Iterator<Item = f64> {
    (-360..=360).map(f64::from)
}

/// The curve of a cylinder's valve for the installation as it is put; `None` where its gap is not known.
pub fn valve_curve(job: &Job, cylinder: usize, valve: Kind) -> Option<ValveCurve> {
    let engine = &job.plan().engine.as_ref()?.engine;
    let camshaft = engine.moved_by(cylinder, valve)?;
    let gap =
        |errors: Vec<f64>| engine.gap(camshaft, valve, *errors.get(camshaft)?, Phasing::AtRest);
    let (now, in_time) = (gap(errors_deg(job)?)?, gap(in_time_errors_deg(job)?)?);
    Some(ValveCurve {
        valve,
        piston_mm: curve_places_deg().map(|deg| now.piston_mm(deg)).collect(),
        valve_mm: curve_places_deg().map(|deg| now.valve_mm(deg)).collect(),
        in_time_mm: curve_places_deg().map(|deg| in_time.valve_mm(deg)).collect(),
    })
}

/// The least gaps of a camshaft's valve from [`TEETH_EACH_WAY`] behind to as many ahead.
#[derive(Clone, Debug, PartialEq)]
pub struct TeethGaps {
    /// The camshaft, by its index in the engine.
    pub camshaft: usize,
    /// Its wheel.
    pub wheel: usize,
    /// Which valve.
    pub valve: Kind,
    /// The least gap along the bore for each number of teeth out, mm.
    pub gaps_mm: Vec<f64>,
}

/// Teeth that a camshaft, by its index in the engine, is put out now against the crank, ahead positive.
pub fn camshaft_teeth_out(job: &Job, camshaft: usize) -> Option<i64> {
    let k = *sprockets(job)?.get(camshaft)?;
    let out = job.cord().teeth_out();
    Some(out[k] - out[0])
}

/// The least gap of every valve whose gap is known against teeth out. It does not matter how many it is
/// out now.
pub fn gaps_by_teeth(job: &Job) -> Vec<TeethGaps> {
    let of = || {
        let plan = job.plan().engine.as_ref()?;
        Some((plan, in_time_errors_deg(job)?, sprockets(job)?))
    };
    let Some((plan, in_time, sprockets)) = of() else { return Vec::new() };
    let mut found = Vec::new();
    for (camshaft, &k) in sprockets.iter().enumerate() {
        for valve in Kind::BOTH {
            let each = deg_per_tooth(job.drive(), k);
            let gaps: Option<Vec<f64>> = (-TEETH_EACH_WAY..=TEETH_EACH_WAY)
                .map(|teeth| {
                    let error_deg = in_time[camshaft] + teeth as f64 * each;
                    let gap = plan.engine.gap(camshaft, valve, error_deg, Phasing::AtRest)?;
                    Some(gap.least().along_bore_mm)
                })
                .collect();
            let Some(gaps_mm) = gaps else { continue };
            found.push(TeethGaps { camshaft, wheel: plan.wheels[camshaft], valve, gaps_mm });
        }
    }
    found
}

/// Where in the cycle of two crank turns something would touch, or come nearer than is usual.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ContactArcs {
    /// Some valve and its piston would be in the same place: crank degrees past the crank's mark, in
    /// order, each within [0, 720].
    pub touching: Vec<Arc>,
    /// Some gap is below [`usual_margin_mm`]: the same, touching included.
    pub near: Vec<Arc>,
}

/// The arcs of the cycle in which a valve would touch, camshafts `errors_deg` crank degrees ahead.
pub fn contact_arcs(engine: &Engine, errors_deg: &[f64]) -> ContactArcs {
    let (mut touching, mut near) = (Vec::new(), Vec::new());
    for (camshaft, c) in engine.camshafts().iter().enumerate() {
        let error = errors_deg.get(camshaft).copied().unwrap_or(0.0);
        for valve in Kind::BOTH {
            let Some(gap) = engine.gap(camshaft, valve, error, Phasing::AtRest) else { continue };
            for (margin_mm, into) in [(0.0, &mut touching), (usual_margin_mm(valve), &mut near)] {
                let below = gap.below(margin_mm);
                for &cylinder in c.cylinders() {
                    let zero = engine.from_overlap_deg(cylinder, 0.0);
                    into.extend(below.iter().map(|arc| Arc {
                        from_deg: arc.from_deg - zero,
                        to_deg: arc.to_deg - zero,
                    }));
                }
            }
        }
    }
    ContactArcs { touching: joined(&touching), near: joined(&near) }
}

/// Arcs of the cycle joined where they meet, in order, none beyond [0, 720].
fn joined(arcs: &[Arc]) -> Vec<Arc> {
    let mut pieces = Vec::new();
    for arc in arcs {
        if arc.len_deg() >= CYCLE_DEG {
            return vec![Arc { from_deg: 0.0, to_deg: CYCLE_DEG }];
        }
        let from = wrap_cycle(arc.from_deg);
        let from = if from < 0.0 { from + CYCLE_DEG } else { from };
        let to = from + arc.len_deg();
        pieces.push(Arc { from_deg: from, to_deg: to.min(CYCLE_DEG) });
        if to > CYCLE_DEG {
            pieces.push(Arc { from_deg: 0.0, to_deg: to - CYCLE_DEG });
        }
    }
    pieces.sort_by(|a, b| a.from_deg.total_cmp(&b.from_deg));
    let mut all: Vec<Arc> = Vec::new();
    for piece in pieces {
        match all.last_mut() {
            Some(last) if piece.from_deg <= last.to_deg => {
                last.to_deg = last.to_deg.max(piece.to_deg);
            }
            _ => all.push(piece),
        }
    }
    all
}

/// The arcs of a job as the belt is fitted; none where the belt is off or no gap is known.
pub fn contact_arcs_of(job: &Job) -> ContactArcs {
    let engine = job.plan().engine.as_ref().filter(|_| job.cord().is_on());
    match (engine, errors_deg(job)) {
        (Some(plan), Some(errors)) => contact_arcs(&plan.engine, &errors),
        _ => ContactArcs::default(),
    }
}

/// What of the engine's figures is not there, so that pictures lack something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotStated {
    /// There is no engine.
    Engine,
    /// Stroke and rod.
    Crank,
    /// Any camshaft.
    Camshafts,
    /// Any valve of this camshaft.
    Valves {
        /// Its wheel.
        wheel: usize,
    },
    /// The lift of this camshaft's valve.
    Lift {
        /// Its wheel.
        wheel: usize,
        /// Which valve.
        valve: Kind,
    },
    /// Lean and room at the top of this camshaft's valve.
    Room {
        /// Its wheel.
        wheel: usize,
        /// Which valve.
        valve: Kind,
    },
}

/// Everything that pictures lack. Nothing can be drawn where it holds `Engine`, `Crank` or `Camshafts`.
pub fn not_stated(job: &Job) -> Vec<NotStated> {
    let Some(plan) = job.plan().engine.as_ref() else { return vec![NotStated::Engine] };
    if plan.engine.crank().is_none() {
        return vec![NotStated::Crank];
    }
    if plan.engine.camshafts().is_empty() {
        return vec![NotStated::Camshafts];
    }
    let of = |(camshaft, &wheel): (&engine::Camshaft, &usize)| {
        if camshaft.valves().next().is_none() {
            return vec![NotStated::Valves { wheel }];
        }
        let lacks = |valve: &engine::Valve| match (valve.lobe(), valve.room()) {
            (None, _) => Some(NotStated::Lift { wheel, valve: valve.kind() }),
            (_, None) => Some(NotStated::Room { wheel, valve: valve.kind() }),
            _ => None,
        };
        camshaft.valves().filter_map(lacks).collect::<Vec<_>>()
    };
    plan.engine.camshafts().iter().zip(&plan.wheels).flat_map(of).collect()
}
