//! The keys of `[engine]` and `[[engine.camshaft]]`.

use crate::key::{Key, Kind, bare, deg, mm};

/// Most cylinders of an engine.
const MOST_CYLINDERS: usize = 16;

pub(super) static ENGINE: &[Key] = &[
    Key::required("bore_mm", Kind::Number(mm(10.0, 500.0)), "Diameter of a cylinder."),
    Key::required("stroke_mm", Kind::Number(mm(10.0, 500.0)), "Travel of a piston."),
    Key::required(
        "rod_mm",
        Kind::Number(mm(10.0, 1500.0)),
        "Length of a connecting rod between its centres.",
    ),
    Key::required(
        "compression_ratio",
        Kind::Number(bare(3.0, 30.0)),
        "Volume of a cylinder at the bottom over that at the top.",
    ),
    Key::required(
        "crank_at_marks_atdc_deg",
        Kind::Number(deg(-360.0, 360.0)),
        "Crank angle after cylinder 1's top when all marks are in time.",
    ),
    Key::required(
        "cylinder_1_at_marks",
        Kind::Choice(&["firing", "overlap"]),
        "Which of its two tops cylinder 1 is at when all marks are in time.",
    ),
    Key::required(
        "fires_at_deg",
        Kind::List { each: deg(0.0, 720.0), whole: false, fewest: 1, most: MOST_CYLINDERS },
        "Crank angle of each cylinder's firing top after cylinder 1's, cylinder 1 first.",
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
    Key::required(
        "opens_btdc_deg",
        Kind::Number(deg(-180.0, 180.0)),
        "Crank angle before top at which the valve opens.",
    ),
    Key::required(
        "closes_abdc_deg",
        Kind::Number(deg(-180.0, 180.0)),
        "Crank angle after bottom at which the valve closes.",
    ),
    LIFT,
    EVENTS_AT_LIFT,
    LAW,
    LEAN,
    GAP,
];

static EXHAUST: &[Key] = &[
    Key::required(
        "opens_bbdc_deg",
        Kind::Number(deg(-180.0, 180.0)),
        "Crank angle before bottom at which the valve opens.",
    ),
    Key::required(
        "closes_atdc_deg",
        Kind::Number(deg(-180.0, 180.0)),
        "Crank angle after top at which the valve closes.",
    ),
    LIFT,
    EVENTS_AT_LIFT,
    LAW,
    LEAN,
    GAP,
];

const LIFT: Key =
    Key::required("lift_mm", Kind::Number(mm(0.5, 40.0)), "How far the valve opens at most.");
const EVENTS_AT_LIFT: Key = Key::required(
    "events_at_lift_mm",
    Kind::Number(mm(0.0, 5.0)),
    "The lift at which opening and closing were read.",
);
const LAW: Key = Key::required(
    "law",
    Kind::Choice(&["harmonic", "cycloidal", "3-4-5", "4-5-6-7"]),
    "The law by which the lift rises and falls.",
);
const LEAN: Key = Key::required(
    "lean_deg",
    Kind::Number(deg(-60.0, 60.0)),
    "How far the valve leans from the cylinder's axis.",
);
const GAP: Key = Key::required(
    "gap_at_tdc_mm",
    Kind::Number(mm(-5.0, 50.0)),
    "Room between the shut valve and the piston at its top, along the cylinder.",
);
