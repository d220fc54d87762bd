//! The belt off: how far each shaft may turn, where to park the crank, and an order of moves that brings
//! everything back to its marks touching nothing.
//!
//! Must not know: how anything came to stand so, or sentences.

use crate::clearance::valve_name;
use engine::{Freedom, Meeting, Missing, Near, Parking, Shaft, Stand, Way};
use layout::{EnginePlan, Plan};
use serde::Serialize;

/// An angle this near to a parking angle is one, degrees.
pub(crate) const PARKED_DEG: f64 = 10.0;

/// The answer. Degrees of each shaft's own, wheels by id.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BeltOff {
    /// What is missing for any of this; null where nothing is.
    pub missing: Option<String>,
    /// Where to leave the crank, best first.
    pub parking: Vec<ParkingReport>,
    /// How far the highest piston stands below its top a quarter turn past cylinder 1's, where a four in
    /// line is parked, mm; null where that is a parking angle here too, or stroke and rod are not known.
    pub quarter_turn_depth_mm: Option<f64>,
    /// How far each shaft may turn from where it stands, all others still.
    pub freedom: Vec<FreedomReport>,
    /// The least gap of all as they stand, mm, and between what; null where something is missing.
    pub nearest: Option<NearReport>,
    /// `moves`, `none`, `touches_now` or `touches_at_marks`; null where something is missing.
    pub way: Option<&'static str>,
    /// The moves, in order; empty for any other `way`, and where all stand on their marks.
    pub moves: Vec<MoveReport>,
    /// Valves of which the layout says nothing, so that none of this speaks of them: cylinder and valve.
    pub not_stated: Vec<(usize, &'static str)>,
}

/// An angle at which to leave the crank.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ParkingReport {
    /// From the crank's mark, forward positive, degrees.
    pub crank_deg: f64,
    /// How far the highest piston stands below its top, mm; null without stroke and rod.
    pub least_depth_mm: Option<f64>,
    /// Whether every valve clears there at any angle of its camshaft; null where not known.
    pub clears_any_lift: Option<bool>,
}

/// How far a shaft may turn.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FreedomReport {
    /// The shaft.
    pub shaft: String,
    /// Back, its own degrees, 0 or more; null all the way round.
    pub back_deg: Option<f64>,
    /// What it meets there.
    pub back_meets: Option<NearParts>,
    /// Forward.
    pub forward_deg: Option<f64>,
    /// What it meets there.
    pub forward_meets: Option<NearParts>,
}

/// The two parts nearest to each other.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NearReport {
    /// The gap, mm.
    pub gap_mm: f64,
    /// Between what.
    pub parts: NearParts,
}

/// Two parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct NearParts {
    /// The cylinder, from 1.
    pub cylinder: usize,
    /// `intake` or `exhaust` against the piston; null for one valve against the other.
    pub valve: Option<&'static str>,
}

/// A move.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MoveReport {
    /// The shaft.
    pub shaft: String,
    /// By so many of its own degrees, forward positive.
    pub deg: f64,
    /// The least gap on the way, mm; null where nothing comes near.
    pub least_gap_mm: Option<f64>,
}

impl From<Meeting> for NearParts {
    fn from(parts: Meeting) -> Self {
        match parts {
            Meeting::Piston { cylinder, valve, .. } => {
                Self { cylinder: cylinder + 1, valve: Some(valve_name(valve)) }
            }
            Meeting::Valves { cylinder, .. } => Self { cylinder: cylinder + 1, valve: None },
        }
    }
}

/// The answer for a plan whose shafts stand so; `with_way` also looks for an order of moves, which can
/// take some milliseconds. `None` without an engine in the layout.
pub fn belt_off(plan: &Plan, stand: &Stand, with_way: bool) -> Option<BeltOff> {
    let EnginePlan { engine, wheels } = plan.engine.as_ref()?;
    let mut parking: Vec<ParkingReport> = engine.parking().iter().map(parking_report).collect();
    let quarter_turn_depth_mm = quarter_turn_trap(engine);
    let id = |shaft: Shaft| match shaft {
        Shaft::Crank => plan.id(0).to_owned(),
        Shaft::Camshaft(c) => plan.id(wheels[c]).to_owned(),
    };
    let loose = match engine.loose() {
        Ok(loose) => loose,
        Err(missing) => {
            return Some(BeltOff {
                missing: Some(missing_key(plan, missing)),
                parking,
                quarter_turn_depth_mm,
                freedom: Vec::new(),
                nearest: None,
                way: None,
                moves: Vec::new(),
                not_stated: Vec::new(),
            });
        }
    };
    // Of every valve nothing is told while some are missing.
    if !loose.not_stated().is_empty() {
        parking.iter_mut().for_each(|place| place.clears_any_lift = None);
    }
    let shafts = std::iter::once(Shaft::Crank).chain((0..wheels.len()).map(Shaft::Camshaft));
    let freedom =
        shafts.map(|shaft| freedom_report(id(shaft), shaft, loose.freedom(stand, shaft))).collect();
    let way = with_way.then(|| loose.way_to_marks(stand));
    let moves = match &way {
        Some(Way::Moves(moves)) => moves
            .iter()
            .map(|m| MoveReport {
                shaft: id(m.shaft),
                deg: own_deg(m.shaft, m.by_deg),
                least_gap_mm: m.nearest.map(|near| near.gap_mm),
            })
            .collect(),
        _ => Vec::new(),
    };
    Some(BeltOff {
        missing: None,
        parking,
        quarter_turn_depth_mm,
        freedom,
        nearest: loose.nearest(stand).map(near_report),
        way: way.map(|way| match way {
            Way::Moves(_) => "moves",
            Way::None => "none",
            Way::TouchesNow(_) => "touches_now",
            Way::TouchesAtMarks(_) => "touches_at_marks",
        }),
        moves,
        not_stated: loose
            .not_stated()
            .into_iter()
            .map(|(cylinder, kind)| (cylinder + 1, valve_name(kind)))
            .collect(),
    })
}

/// How far the highest piston is down a quarter turn past cylinder 1's top, where that is no place to park.
fn quarter_turn_trap(engine: &engine::Engine) -> Option<f64> {
    let parks = |p: &Parking| (libm::fmod(p.after_top_deg, 180.0) - 90.0).abs() < PARKED_DEG;
    if engine.parking().iter().any(parks) {
        return None;
    }
    let depths = engine.depths_mm(90.0 - engine.at_marks_deg())?;
    depths.into_iter().reduce(f64::min)
}

/// Crank degrees as degrees of a shaft's own: a camshaft turns half as far.
fn own_deg(shaft: Shaft, crank_deg: f64) -> f64 {
    match shaft {
        Shaft::Crank => crank_deg,
        Shaft::Camshaft(_) => crank_deg / 2.0,
    }
}

fn freedom_report(id: String, shaft: Shaft, freedom: Freedom) -> FreedomReport {
    FreedomReport {
        shaft: id,
        back_deg: freedom.back.map(|stop| own_deg(shaft, stop.after_deg)),
        back_meets: freedom.back.map(|stop| stop.parts.into()),
        forward_deg: freedom.forward.map(|stop| own_deg(shaft, stop.after_deg)),
        forward_meets: freedom.forward.map(|stop| stop.parts.into()),
    }
}

fn parking_report(parking: &Parking) -> ParkingReport {
    ParkingReport {
        crank_deg: parking.from_marks_deg,
        least_depth_mm: parking.least_depth_mm,
        clears_any_lift: parking.clears_any_lift,
    }
}

fn near_report(near: Near) -> NearReport {
    NearReport { gap_mm: near.gap_mm, parts: near.parts.into() }
}

/// The key in the layout that would have to be there.
fn missing_key(plan: &Plan, missing: Missing) -> String {
    let wheel = |camshaft: usize| {
        let wheels = plan.engine.as_ref().map(|engine| &engine.wheels);
        wheels.and_then(|wheels| wheels.get(camshaft)).map_or("", |wheel| plan.id(*wheel))
    };
    match missing {
        Missing::Crank => "engine.stroke_mm, engine.rod_mm".to_owned(),
        Missing::Camshafts => "engine.camshaft".to_owned(),
        Missing::Valves { camshaft } => {
            format!("engine.camshaft ({}): intake, exhaust", wheel(camshaft))
        }
        Missing::Valve { camshaft, valve } => format!(
            "engine.camshaft ({}).{}: lift_mm, law, lean_deg, gap_at_tdc_mm",
            wheel(camshaft),
            valve_name(valve)
        ),
    }
}
