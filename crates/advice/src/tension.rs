//! How tight the belt is, and why every wheel that it runs over matters: what `two-turns tension` prints.
//!
//! Must not know: words, or where any shaft stands just now.
//!
//! Friction, speed and distance are estimates: each is a range that somebody may narrow, each figure that
//! rests on one is a range too, and the assumptions stand beside. What the layout does not state (the belt's
//! stiffness or mass, the pull of a tensioner locked by hand) leaves the figure out.

use crate::at_shaft;
use crate::report::marked;
use drive::{
    Angle, DVec2, Drive, Face, NoBalance, Seized, Takes, Tensioned, Tensions, bearing_loads_n,
    belt_speed_m_per_s, gives_way_n_m, in_mesh_factor, laps_per_crank_turn, moves, pushes_back_n,
    resting_tension_n, seized, stretch_mm, tensions, tone_hz, tooth_meets_per_crank_turn,
};
use layout::Plan;
use serde::Serialize;

/// Coefficient of friction of a belt over a wheel that does not turn, where nobody says: belts in handbooks
/// 0.25 to 0.3 (engineersedge.com, belt design), rubber on dry steel 0.5 to 0.6 (finishing.com 172/51).
pub const FRICTION: [f64; 2] = [0.25, 0.6];
/// Crank speed where nobody says: from idling to driving along. An assumption, no source.
pub const RPM: [f64; 2] = [800.0, 3000.0];
/// Crank turns in a kilometre where nobody says: 2500 rpm are 1500 at 100 km/h and 3000 at 50 km/h. The
/// speeds are an assumption, no source.
pub const CRANK_TURNS_PER_KM: [f64; 2] = [1500.0, 3000.0];
/// How far a span is pushed aside in its middle, in spans (SDP/SI D790).
pub const PUSH_ASIDE_SPANS: f64 = 1.0 / 64.0;

/// What is asked beside the layout. Ranges are [low, high], low not above high.
#[derive(Clone, Debug, PartialEq)]
pub struct TensionAsked {
    /// Crank speed while the engine runs, rpm; shafts then take their moments.
    pub rpm: Option<f64>,
    /// Crank speeds that figures are told for where no one speed is asked, rpm.
    pub speeds_rpm: [f64; 2],
    /// Whether shafts take their moments, as they do while a hand turns the crank forward.
    pub turning: bool,
    /// Crank turns in a kilometre.
    pub crank_turns_per_km: Option<[f64; 2]>,
    /// Index of a wheel that no longer turns.
    pub seized: Option<usize>,
    /// What shafts take from the belt: wheel and N·m, positive holding it back, in place of a sprocket's
    /// friction in the layout; a smooth wheel is free. Given any, the drive is taken to turn.
    pub moments_n_m: Vec<(usize, f64)>,
    /// Coefficient of friction of the belt's back.
    pub friction_back: [f64; 2],
    /// The same of its toothed face.
    pub friction_toothed: [f64; 2],
    /// Resting tension that somebody measured, N, in place of the spring's.
    pub measured_n: Option<f64>,
}

impl Default for TensionAsked {
    fn default() -> Self {
        Self {
            rpm: None,
            speeds_rpm: RPM,
            turning: false,
            crank_turns_per_km: None,
            seized: None,
            moments_n_m: Vec::new(),
            friction_back: FRICTION,
            friction_toothed: FRICTION,
            measured_n: None,
        }
    }
}

impl TensionAsked {
    /// The same with the drive turned by hand.
    pub fn by_hand(&self) -> Self {
        Self { turning: true, ..self.clone() }
    }
}

/// Crank turns in a kilometre at a crank speed and a road speed, both above 0, as a range of one.
pub fn crank_turns_per_km(rpm: f64, km_per_h: f64) -> [f64; 2] {
    [60.0 * rpm / km_per_h; 2]
}

/// The answer. Full precision; N, Hz, degrees, mm, wheels by id; ranges as [low, high].
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Tension {
    /// Whether all but some counts is made up, the spring too: what rests on it is no answer then.
    pub provisional: bool,
    /// Whether the layout, or what is asked, says what shafts take to turn.
    pub friction: Friction,
    /// Tension all round, pin out, nothing turning; null where a tensioner is locked by hand and nobody
    /// measured.
    pub resting_tension_n: Option<f64>,
    /// Where that comes from: `spring`, `measured` or `not_known`.
    pub resting_from: &'static str,
    /// `at_rest` or `turning`: what spans and bearings are told for.
    pub state: &'static str,
    /// Whether the moments are more than the tensioner holds, so that a run hangs slack.
    pub gives_way: bool,
    /// Moment that turns the crank, N·m; null where the tension is.
    pub crank_moment_n_m: Option<f64>,
    /// The spans, in belt order.
    pub spans: Vec<SpanTension>,
    /// The wheels, in belt order.
    pub wheels: Vec<WheelTension>,
    /// How far each mark moves against the crank when the pin is pulled and the belt stretches; empty where
    /// the tension or the belt's stiffness is not known.
    pub pin_moves: Vec<PinMove>,
    /// The tensioner.
    pub tensioner: TensionerPull,
    /// The belt.
    pub belt: BeltRun,
    /// The wheel that no longer turns, if one is asked for.
    pub seized: Option<SeizedWheel>,
    /// What estimates rest on.
    pub assumed: Assumed,
}

/// Whether it is said what shafts take to turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Friction {
    /// Of every sprocket.
    Entered,
    /// Of some.
    Part,
    /// Of none.
    NotEntered,
}

/// A straight span.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpanTension {
    /// The wheel that it leaves.
    pub from: String,
    /// The wheel that it meets.
    pub to: String,
    /// Its length, mm.
    pub length_mm: f64,
    /// What it presses the wheels with.
    pub tension_n: Option<f64>,
    /// Its lowest tone when plucked; null without the belt's mass.
    pub tone_hz: Option<f64>,
    /// What pushes its middle aside by a 64th of its length.
    pub push_n: Option<f64>,
    /// That 64th, mm.
    pub push_aside_mm: f64,
}

/// A wheel.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WheelTension {
    /// Its id.
    pub id: String,
    /// What its bearing carries.
    pub bearing_load_n: Option<f64>,
    /// Whereto, degrees clockwise from twelve; null where it carries nothing.
    pub bearing_towards_clock_deg: Option<f64>,
    /// What it takes from the belt, N·m.
    pub takes_n_m: f64,
    /// For a sprocket, what it can carry with so few teeth in mesh, of what it could with six or more.
    pub in_mesh_factor: Option<f64>,
    /// How often it turns in a kilometre.
    pub turns_per_km: Option<[f64; 2]>,
    /// How often it turns in an hour.
    pub turns_per_hour: Option<[f64; 2]>,
}

/// A mark when the pin is pulled.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PinMove {
    /// The shaft.
    pub shaft: String,
    /// Its mark against the crank's, degrees of the shaft, ahead positive.
    pub mark_moves_deg: f64,
    /// The same in teeth.
    pub mark_moves_teeth: f64,
    /// The same with the shafts taking their moments, as while a hand turns the crank forward.
    pub turning_deg: Option<f64>,
    /// The same in teeth.
    pub turning_teeth: Option<f64>,
}

/// The tensioner.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TensionerPull {
    /// How fast the path lengthens with travel, mm per `unit`.
    pub length_rate_mm_per_unit: f64,
    /// How far it goes out beyond tight as the belt stretches, in `unit`.
    pub moves: Option<f64>,
    /// `mm` or `deg`.
    pub unit: &'static str,
    /// Moment at the crank, turned back, from which it gives way; null for one that is locked.
    pub gives_way_n_m: Option<f64>,
}

/// The belt.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BeltRun {
    /// How much longer it is than without tension, mm.
    pub stretch_mm: Option<f64>,
    /// How fast it runs.
    pub speed_m_per_s: [f64; 2],
    /// What its own weight adds to the pull in its cords at that speed, m′v²: wheels do not feel it.
    pub centrifugal_n: Option<[f64; 2]>,
    /// How often it goes round in a kilometre.
    pub laps_per_km: [f64; 2],
    /// How often each of its teeth runs into a groove in a kilometre.
    pub tooth_meets_per_km: [f64; 2],
}

/// A wheel that no longer turns. What spans and bearings are told for leaves it out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SeizedWheel {
    /// Its id.
    pub wheel: String,
    /// `slides`; `strips_or_jumps` for a sprocket, but `engine_stands` for the crank, which drives the belt;
    /// `not_known` without a tension.
    pub end: &'static str,
    /// Friction of the belt that slides over it.
    pub friction_n: Option<[f64; 2]>,
    /// What that heats with.
    pub heat_w: Option<[f64; 2]>,
    /// Tension where the belt meets it.
    pub meets_n: Option<[f64; 2]>,
    /// Tension where the belt leaves it.
    pub leaves_n: Option<[f64; 2]>,
    /// What it costs at the crank, N·m.
    pub crank_n_m: Option<[f64; 2]>,
    /// Coefficient of friction taken.
    pub friction: [f64; 2],
}

/// What estimates rest on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Assumed {
    /// Crank speed, rpm.
    pub rpm: [f64; 2],
    /// Crank turns in a kilometre.
    pub crank_turns_per_km: [f64; 2],
    /// Coefficient of friction of the belt's back.
    pub friction_back: [f64; 2],
    /// The same of its toothed face.
    pub friction_toothed: [f64; 2],
}

/// What the tension rests on; `None` where it is not known.
fn tensioned(plan: &Plan, measured_n: Option<f64>) -> Option<(Tensioned, f64)> {
    let drive = &plan.drive;
    match (measured_n, plan.is_locked_by_hand()) {
        (Some(resting_n), true) => Some((Tensioned::Locked { resting_n }, resting_n)),
        (Some(resting_n), false) => {
            Some((Tensioned::Spring { pull: resting_n * drive.taut().length_rate }, resting_n))
        }
        (None, _) => {
            let pull = plan.tensioner_pull()?;
            Some((Tensioned::Spring { pull }, resting_tension_n(drive, pull)))
        }
    }
}

/// What each wheel takes while the drive turns: what is asked, else a sprocket the friction that the layout
/// states, and a smooth wheel nothing, being free.
fn takes(drive: &Drive, asked: &TensionAsked) -> Vec<Takes> {
    let own = drive.wheels().iter().enumerate().map(|(i, wheel)| {
        let given = asked.moments_n_m.iter().rev().find(|(w, _)| *w == i).map(|(_, n_m)| *n_m);
        let own = if wheel.teeth().is_some() { wheel.friction_n_m } else { 0.0 };
        Takes::Moment(given.unwrap_or(own))
    });
    own.collect()
}

/// Of which sprockets it is known what they take.
fn friction(plan: &Plan, asked: &TensionAsked) -> Friction {
    let given = |wheel: usize| {
        plan.layout.wheels[wheel].friction_n_m.is_some()
            || asked.moments_n_m.iter().any(|(given, _)| *given == wheel)
    };
    let mut sprockets = plan.drive.sprockets().iter().map(|s| given(s.wheel));
    let some = !asked.moments_n_m.is_empty() || sprockets.clone().any(|given| given);
    match (sprockets.all(|given| given), some) {
        (true, _) => Friction::Entered,
        (false, true) => Friction::Part,
        (false, false) => Friction::NotEntered,
    }
}

/// A range times a share.
fn times([low, high]: [f64; 2], by: f64) -> [f64; 2] {
    [low * by, high * by]
}

/// How tight a plan's belt is, on its best teeth and with its tensioner up.
pub fn tension(plan: &Plan, asked: &TensionAsked) -> Tension {
    let drive = &plan.drive;
    let belt = &plan.layout.belt;
    let known = tensioned(plan, asked.measured_n);
    let resting_n = known.map(|(_, resting_n)| resting_n);
    let turns = asked.turning || asked.rpm.is_some() || !asked.moments_n_m.is_empty();
    let takes = takes(drive, asked);
    let solve = |takes: &[Takes]| known.and_then(|(by, _)| tensions(drive, by, takes).ok());
    let (still, turning) = (solve(&[]), solve(&takes));
    let now = if turns { turning.as_ref() } else { still.as_ref() };
    let rpm = asked.rpm.map_or(asked.speeds_rpm, |rpm| [rpm, rpm]);
    let assumed = Assumed {
        rpm,
        crank_turns_per_km: asked.crank_turns_per_km.unwrap_or(CRANK_TURNS_PER_KM),
        friction_back: asked.friction_back,
        friction_toothed: asked.friction_toothed,
    };
    let stretched = |at: Option<&Tensions>| {
        let spans_n = &at?.spans_n;
        Some(stretch_mm(drive, spans_n, belt.tensile_stiffness_n?))
    };
    let stretch = stretched(still.as_ref());
    let rate = drive.taut().length_rate;
    let unit = plan.travel_unit();
    let speed_m_per_s = rpm.map(|rpm| belt_speed_m_per_s(drive, rpm));
    let per_km = |per_turn: f64| times(assumed.crank_turns_per_km, per_turn);
    Tension {
        provisional: plan.layout.provisional,
        friction: friction(plan, asked),
        resting_tension_n: resting_n,
        resting_from: match (asked.measured_n, resting_n) {
            (Some(_), _) => "measured",
            (None, Some(_)) => "spring",
            (None, None) => "not_known",
        },
        state: if turns { "turning" } else { "at_rest" },
        gives_way: now.is_some_and(|now| now.gives_way),
        crank_moment_n_m: now.map(|now| now.crank_n_m),
        spans: spans(plan, now),
        wheels: wheels(plan, now, if turns { &takes } else { &[] }, &assumed),
        pin_moves: stretch.as_deref().map_or_else(Vec::new, |stretch| {
            pin_moves(plan, stretch, stretched(turning.as_ref()).as_deref())
        }),
        tensioner: TensionerPull {
            length_rate_mm_per_unit: unit.rate_outside(rate),
            moves: stretch.as_ref().map(|mm| unit.outside(moves(drive, mm).travel)),
            unit: unit.name(),
            gives_way_n_m: resting_n
                .filter(|_| !plan.is_locked_by_hand())
                .map(|resting_n| gives_way_n_m(drive, resting_n)),
        },
        belt: BeltRun {
            stretch_mm: stretch.map(|mm| mm.iter().sum()),
            speed_m_per_s,
            centrifugal_n: belt.mass_kg_per_m.map(|mass| speed_m_per_s.map(|v| mass * v * v)),
            laps_per_km: per_km(laps_per_crank_turn(drive)),
            tooth_meets_per_km: per_km(tooth_meets_per_crank_turn(drive)),
        },
        seized: asked.seized.map(|wheel| {
            let takes: &[Takes] = if turns { &takes } else { &[] };
            seized_wheel(plan, known.map(|(by, _)| by), takes, wheel, asked, speed_m_per_s)
        }),
        assumed,
    }
}

fn spans(plan: &Plan, now: Option<&Tensions>) -> Vec<SpanTension> {
    let path = &plan.drive.taut_stance().path;
    let n = path.len();
    let spans = path.spans.iter().enumerate();
    spans
        .map(|(i, span)| {
            let tension_n = now.and_then(|now| now.spans_n.get(i).copied());
            let (mass, mm) = (plan.layout.belt.mass_kg_per_m, span.length);
            let push_aside_mm = mm * PUSH_ASIDE_SPANS;
            SpanTension {
                from: plan.id(i).to_owned(),
                to: plan.id((i + 1) % n).to_owned(),
                length_mm: mm,
                tension_n,
                tone_hz: tension_n.zip(mass).map(|(t, mass)| tone_hz(t, mass, mm)),
                push_n: tension_n.map(|t| pushes_back_n(t, mm, push_aside_mm)),
                push_aside_mm,
            }
        })
        .collect()
}

fn wheels(
    plan: &Plan,
    now: Option<&Tensions>,
    takes: &[Takes],
    assumed: &Assumed,
) -> Vec<WheelTension> {
    let drive = &plan.drive;
    let loads: Option<Vec<DVec2>> = now.map(|now| bearing_loads_n(drive, &now.spans_n));
    (0..drive.wheels().len())
        .map(|i| {
            let load = loads.as_ref().map(|loads| loads[i]);
            let turns = drive.turns_per_crank_turn(i).abs();
            let toothed = drive.wheels()[i].teeth().is_some();
            WheelTension {
                id: plan.id(i).to_owned(),
                bearing_load_n: load.map(DVec2::length),
                bearing_towards_clock_deg: load
                    .filter(|load| load.length() > 0.0)
                    .map(|load| Angle::of(load).clock_deg()),
                takes_n_m: match takes.get(i) {
                    Some(Takes::Moment(n_m)) => *n_m,
                    Some(Takes::Slides(_)) | None => 0.0,
                },
                in_mesh_factor: toothed.then(|| in_mesh_factor(drive.teeth_in_mesh(i))),
                turns_per_km: Some(times(assumed.crank_turns_per_km, turns)),
                turns_per_hour: Some(times(assumed.rpm, 60.0 * turns)),
            }
        })
        .collect()
}

fn pin_moves(plan: &Plan, still_mm: &[f64], turning_mm: Option<&[f64]>) -> Vec<PinMove> {
    let drive = &plan.drive;
    let per_deg = drive.mm_per_crank_deg();
    let still = moves(drive, still_mm).sprockets_mm;
    let turning = turning_mm.map(|mm| moves(drive, mm).sprockets_mm);
    marked(drive)
        .map(|k| PinMove {
            shaft: plan.id(drive.sprockets()[k].wheel).to_owned(),
            mark_moves_deg: at_shaft(drive, k, still[k] / per_deg),
            mark_moves_teeth: still[k] / drive.belt().pitch_mm,
            turning_teeth: turning.as_ref().map(|mm| mm[k] / drive.belt().pitch_mm),
            turning_deg: turning.as_ref().map(|mm| at_shaft(drive, k, mm[k] / per_deg)),
        })
        .collect()
}

fn seized_wheel(
    plan: &Plan,
    by: Option<Tensioned>,
    takes: &[Takes],
    wheel: usize,
    asked: &TensionAsked,
    speed_m_per_s: [f64; 2],
) -> SeizedWheel {
    let drive = &plan.drive;
    let toothed = drive.wheels()[wheel].teeth().is_some();
    let friction = match drive.wheels()[wheel].face() {
        Face::Back => asked.friction_back,
        Face::Toothed => asked.friction_toothed,
    };
    let mut told = SeizedWheel {
        wheel: plan.id(wheel).to_owned(),
        end: match toothed {
            _ if wheel == drive.sprockets()[0].wheel => "engine_stands",
            true => "strips_or_jumps",
            false => "not_known",
        },
        friction_n: None,
        heat_w: None,
        meets_n: None,
        leaves_n: None,
        crank_n_m: None,
        friction,
    };
    let found = by.ok_or(NoBalance).and_then(|by| seized(drive, by, takes, wheel, friction));
    if let Ok(Seized::Slides { meets_n, leaves_n, friction_n, crank_n_m }) = found {
        told.end = "slides";
        told.heat_w = Some([friction_n[0] * speed_m_per_s[0], friction_n[1] * speed_m_per_s[1]]);
        told.friction_n = Some(friction_n);
        told.meets_n = Some(meets_n);
        told.leaves_n = Some(leaves_n);
        told.crank_n_m = Some(crank_n_m);
    }
    told
}
