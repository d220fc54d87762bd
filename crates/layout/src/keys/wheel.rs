//! The keys of `[[wheel]]` and of the tables in it.

use super::{LONG_TEXT, SHORT_TEXT};
use crate::choice::{Face, Fixing, LockBy, LockOn, MarkOn, MarkUse, PhaserRest, Role, SeenAt};
use crate::key::{Bounds, Key, Kind, Presence, Unit, deg, mm, newton_metres, teeth};

pub(super) static WHEEL: &[Key] = &[
    Key::required("id", Kind::Id, "The name by which the rest of the file calls the wheel."),
    Key::optional("name", SHORT_TEXT, "What people call the wheel; the id if left out."),
    Key::required("role", Kind::Choice(Role::WORDS), "What the wheel is for."),
    Key::required("face", Kind::Choice(Face::WORDS), "The belt face that runs on it."),
    Key::optional(
        "teeth",
        Kind::Whole(teeth(6.0, 200.0)),
        "Teeth of a toothed wheel; a smooth one has an outside diameter instead.",
    ),
    Key::optional(
        "outside_diameter_mm",
        Kind::Number(mm(5.0, 1000.0)),
        "Diameter of a smooth wheel where the belt runs; a toothed one has teeth instead.",
    ),
    Key::required(
        "at_mm",
        Kind::Point(mm(-2000.0, 2000.0)),
        "Where its centre is, x to the right and y up, seen at the belt end.",
    ),
    Key::optional("mark", Kind::Table(MARK), "Its timing mark."),
    Key::optional(
        "other_marks",
        Kind::Tables { keys: OTHER_MARK, fewest: 0, most: 32 },
        "Marks on the wheel that are not its timing mark.",
    ),
    Key::optional(
        "friction_n_m",
        Kind::Number(newton_metres(0.0, 500.0)),
        "What it takes to turn the shaft by hand.",
    ),
    Key::optional("fixing", Kind::Choice(Fixing::WORDS), "How the wheel sits on its shaft."),
    Key {
        name: "slot_deg",
        kind: Kind::Pair(deg(-45.0, 45.0)),
        presence: Presence::When { key: "fixing", required: &["slotted"], optional: &[] },
        about: "How far the slots let the wheel turn on its shaft, forward positive.",
    },
    Key::optional("lock", Kind::Table(LOCK), "What holds the shaft in its timed position."),
    Key::optional(
        "repeats_every_crank_turns",
        Kind::Whole(Bounds { least: 1.0, most: 64.0, unit: Unit::CrankTurns }),
        "After how many crank turns the shaft geared behind the wheel stands the same again.",
    ),
    Key::optional(
        "position_check",
        LONG_TEXT,
        "How to tell in which of its positions a shaft geared behind the wheel stands.",
    ),
    Key::optional("phaser", Kind::Table(PHASER), "A device that turns the shaft in its wheel."),
    Key::optional(
        "spring_torque_n_m",
        Kind::Number(newton_metres(-500.0, 500.0)),
        "Torque of the valve springs on the shaft at its mark, forward positive.",
    ),
];

static MARK: &[Key] = &[
    Key::required(
        "cover_clock_deg",
        Kind::Number(deg(-360.0, 360.0)),
        "Where the fixed mark is: 0 at twelve o'clock, clockwise, seen at the belt end.",
    ),
    Key::required("on", Kind::Choice(MarkOn::WORDS), "What of the wheel the mark is made on."),
    Key::optional(
        "radius_mm",
        Kind::Number(mm(0.0, 1000.0)),
        "How far from the wheel's centre the mark is.",
    ),
    Key::optional(
        "gap_mm",
        Kind::Number(mm(0.0, 200.0)),
        "Gap between the wheel's mark and the fixed one, along the line of sight.",
    ),
    Key::optional("seen_at", Kind::Choice(SeenAt::WORDS), "Where the mark is looked at."),
];

static OTHER_MARK: &[Key] = &[
    Key::required(
        "wheel_clock_deg",
        Kind::Number(deg(-360.0, 360.0)),
        "Where on the wheel it is, clockwise from the timing mark.",
    ),
    Key::required("label", SHORT_TEXT, "What it looks like."),
    Key::required("use", Kind::Choice(MarkUse::WORDS), "What it is for."),
];

static LOCK: &[Key] = &[
    Key::required("by", Kind::Choice(LockBy::WORDS), "With what the shaft is locked."),
    Key::required("on", Kind::Choice(LockOn::WORDS), "What the lock holds."),
];

static PHASER: &[Key] = &[
    Key::required("rest", Kind::Choice(PhaserRest::WORDS), "Where it stands at rest."),
    Key::required(
        "range_cam_deg",
        Kind::Pair(deg(-90.0, 90.0)),
        "How far it turns the shaft, in degrees of the camshaft, early positive.",
    ),
    Key::required("locks", Kind::Flag, "Whether a pin holds it at rest."),
];
