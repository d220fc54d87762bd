//! The keys of `[engine]` and `[[engine.camshaft]]`.

use crate::choice::{Law, TopAtMarks};
use crate::key::{Bounds, Key, Kind, Unit, bare, deg, mm};

/// Most points of a measured lift.
const MOST_POINTS: usize = 1000;
/// Most cylinders of an engine.
const MOST_CYLINDERS: usize = 16;

pub(super) static ENGINE: &[Key] = &[
    Key::optional("bore_mm", Kind::Number(mm(10.0, 500.0)), "Diameter of a cylinder."),
    Key::optional("stroke_mm", Kind::Number(mm(10.0, 500.0)), "Travel of a piston."),
    Key::optional(
        "rod_mm",
        Kind::Number(mm(10.0, 1500.0)),
        "Length of a connecting rod between its centres.",
    ),
    Key::optional(
        "compression_ratio",
        Kind::Number(bare(3.0, 30.0)),
        "Volume of a cylinder at the bottom over that at the top.",
    ),
    Key::optional(
        "crank_at_marks_atdc_deg",
        Kind::Number(deg(-360.0, 360.0)),
        "Crank angle after cylinder 1's top when all marks are in time.",
    ),
    Key::optional(
        "cylinder_1_at_marks",
        Kind::Choice(TopAtMarks::WORDS),
        "Which of its two tops cylinder 1 is at when all marks are in time.",
    ),
    Key::optional(
        "fires_at_deg",
        Kind::List { each: deg(0.0, 720.0), whole: false, fewest: 1, most: MOST_CYLINDERS },
        "Crank angle of each cylinder's firing top after cylinder 1's, cylinder 1 first.",
    ),
    Key::optional(
        "valves_meet_at_lift_sum_mm",
        Kind::Number(mm(0.0, 80.0)),
        "Both lifts together at which an intake and an exhaust valve of one cylinder meet.",
    ),
    Key::optional(
        "camshaft",
        Kind::Tables { keys: CAMSHAFT, fewest: 0, most: 8 },
        "The camshafts with their valves.",
    ),
];

static CAMSHAFT: &[Key] = &[
    Key::required("wheel", Kind::WheelId, "The wheel that drives it."),
    Key::required(
        "cylinders",
        Kind::List {
            each: bare(1.0, MOST_CYLINDERS as f64),
            whole: true,
            fewest: 1,
            most: MOST_CYLINDERS,
        },
        "The cylinders whose valves it moves, by number.",
    ),
    Key::optional("intake", Kind::Table(INTAKE), "Its intake valves, if it has any."),
    Key::optional("exhaust", Kind::Table(EXHAUST), "Its exhaust valves, if it has any."),
];

static INTAKE: &[Key] = &[
    Key::optional(
        "opens_btdc_deg",
        Kind::Number(deg(-180.0, 180.0)),
        "Crank angle before top at which the valve opens.",
    ),
    Key::optional(
        "closes_abdc_deg",
        Kind::Number(deg(-180.0, 180.0)),
        "Crank angle after bottom at which the valve closes.",
    ),
    LIFT,
    EVENTS_AT_LIFT,
    LAW,
    MEASURED_AT,
    MEASURED_LIFT,
    LEAN,
    GAP,
    SPRING_SHUT,
    SPRING_RATE,
];

static EXHAUST: &[Key] = &[
    Key::optional(
        "opens_bbdc_deg",
        Kind::Number(deg(-180.0, 180.0)),
        "Crank angle before bottom at which the valve opens.",
    ),
    Key::optional(
        "closes_atdc_deg",
        Kind::Number(deg(-180.0, 180.0)),
        "Crank angle after top at which the valve closes.",
    ),
    LIFT,
    EVENTS_AT_LIFT,
    LAW,
    MEASURED_AT,
    MEASURED_LIFT,
    LEAN,
    GAP,
    SPRING_SHUT,
    SPRING_RATE,
];

const LIFT: Key =
    Key::optional("lift_mm", Kind::Number(mm(0.5, 40.0)), "How far the valve opens at most.");
const EVENTS_AT_LIFT: Key = Key::optional(
    "events_at_lift_mm",
    Kind::Number(mm(0.0, 5.0)),
    "The lift at which opening and closing were read.",
);
const LAW: Key =
    Key::optional("law", Kind::Choice(Law::WORDS), "The law by which the lift rises and falls.");
const LEAN: Key = Key::optional(
    "lean_deg",
    Kind::Number(deg(-60.0, 60.0)),
    "How far the valve leans from the cylinder's axis.",
);
const GAP: Key = Key::optional(
    "gap_at_tdc_mm",
    Kind::Number(mm(-5.0, 50.0)),
    "Room between the shut valve and the piston at its top, along the cylinder.",
);
const MEASURED_AT: Key = Key::optional(
    "measured_at_deg",
    Kind::List { each: deg(-720.0, 720.0), whole: false, fewest: 3, most: MOST_POINTS },
    "Crank angles after the cylinder's overlap top at which the lift was measured, in order.",
);
const MEASURED_LIFT: Key = Key::optional(
    "measured_lift_mm",
    Kind::List { each: mm(0.0, 40.0), whole: false, fewest: 3, most: MOST_POINTS },
    "The lift at each of these angles: from 0 up to one top and down to 0.",
);
const SPRING_SHUT: Key = Key::optional(
    "spring_shut_n",
    Kind::Number(Bounds { least: 0.0, most: 10_000.0, unit: Unit::Newtons }),
    "Force of the valve's spring with the valve shut.",
);
const SPRING_RATE: Key = Key::optional(
    "spring_rate_n_per_mm",
    Kind::Number(Bounds { least: 0.0, most: 1000.0, unit: Unit::NewtonsPerMillimetre }),
    "How much that force grows with each millimetre of lift.",
);
