//! The keys of `[[fastener]]` and `[[caution]]`.

use super::{LONG_TEXT, SHORT_TEXT};
use crate::key::{Bounds, Key, Kind, Unit, deg, newton_metres};

pub(super) static FASTENER: &[Key] = &[
    Key::required("part", SHORT_TEXT, "What it is called."),
    Key::optional("wheel", Kind::WheelId, "The wheel that it belongs to."),
    TORQUE_N_M,
    TORQUE_LBF_FT,
    TORQUE_LBF_IN,
    Key::optional(
        "stages",
        Kind::Tables { keys: STAGE, fewest: 1, most: 8 },
        "The steps in which it is tightened, in place of one torque.",
    ),
    Key::optional("new_each_time", Kind::Flag, "Whether a new one is taken each time."),
    Key::optional(
        "when",
        Kind::Choice(&["before_belt", "before_tension", "after_tension"]),
        "When in the job it is tightened.",
    ),
    Key::optional("hold_with", SHORT_TEXT, "What keeps the part from turning meanwhile."),
    Key::optional("thread", Kind::Choice(&["right", "left"]), "Which way its thread goes."),
];

static STAGE: &[Key] = &[
    TORQUE_N_M,
    TORQUE_LBF_FT,
    TORQUE_LBF_IN,
    Key::optional("angle_deg", Kind::Number(deg(1.0, 720.0)), "How far it is turned on."),
];

const TORQUE_N_M: Key =
    Key::optional("torque_n_m", Kind::Number(newton_metres(0.1, 2000.0)), "Its torque.");
const TORQUE_LBF_FT: Key = Key::optional(
    "torque_lbf_ft",
    Kind::Number(Bounds { least: 0.1, most: 1500.0, unit: Unit::PoundForceFeet }),
    "Its torque.",
);
const TORQUE_LBF_IN: Key = Key::optional(
    "torque_lbf_in",
    Kind::Number(Bounds { least: 1.0, most: 18_000.0, unit: Unit::PoundForceInches }),
    "Its torque.",
);

pub(super) static CAUTION: &[Key] = &[Key::required("text", LONG_TEXT, "What to watch out for.")];
