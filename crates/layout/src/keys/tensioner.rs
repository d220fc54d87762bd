//! The keys of `[tensioner]`, by its kind.

use crate::choice::Tightening;
use crate::key::{Bounds, Key, Kind, Presence, Unit, deg, mm, newton_metres};

const SLIDE: &str = "slide";
const ARM: &str = "arm";
const ECCENTRIC: &str = "eccentric";
const SPRUNG_ECCENTRIC: &str = "sprung_eccentric";

pub(super) static TENSIONER: &[Key] = &[
    Key::required("wheel", Kind::WheelId, "The wheel that it moves."),
    Key::required(
        "kind",
        Kind::Choice(&[SLIDE, ARM, ECCENTRIC, SPRUNG_ECCENTRIC]),
        "How the wheel moves.",
    ),
    with(
        "tightening_clock_deg",
        Kind::Number(deg(-360.0, 360.0)),
        &[SLIDE],
        "The direction that tightens: 0 at twelve o'clock, clockwise, seen at the belt end.",
    ),
    with(
        "travel_mm",
        Kind::Pair(mm(-500.0, 500.0)),
        &[SLIDE],
        "Right back and fully out; 0 is where the wheel's centre is stated, positive tightens.",
    ),
    with(
        "pinned_mm",
        Kind::Number(mm(-500.0, 500.0)),
        &[SLIDE],
        "Where it stands bolted up with the pin still in.",
    ),
    with(
        "force_n",
        Kind::Number(Bounds { least: 0.0, most: 20_000.0, unit: Unit::Newtons }),
        &[SLIDE],
        "Force along the travel with the pin out.",
    ),
    with(
        "pivot_mm",
        Kind::Point(mm(-2000.0, 2000.0)),
        &[ARM],
        "Where the arm turns, x to the right and y up, seen at the belt end.",
    ),
    with(
        "bolt_mm",
        Kind::Point(mm(-2000.0, 2000.0)),
        &[ECCENTRIC, SPRUNG_ECCENTRIC],
        "Where the bolt is about which the eccentric turns, x to the right and y up, seen at the belt end.",
    ),
    with(
        "tightening",
        Kind::Choice(Tightening::WORDS),
        &[ARM, ECCENTRIC, SPRUNG_ECCENTRIC],
        "Which way it is turned to tighten, seen at the belt end.",
    ),
    with(
        "travel_deg",
        Kind::Pair(deg(-360.0, 360.0)),
        &[ARM, ECCENTRIC, SPRUNG_ECCENTRIC],
        "Right back and fully out; 0 is where the wheel's centre is stated, positive tightens.",
    ),
    with(
        "pinned_deg",
        Kind::Number(deg(-360.0, 360.0)),
        &[ARM],
        "Where it stands bolted up with the pin still in.",
    ),
    Key {
        name: "set_deg",
        kind: Kind::Number(deg(-360.0, 360.0)),
        presence: Presence::When {
            key: "kind",
            required: &[ECCENTRIC],
            optional: &[SPRUNG_ECCENTRIC],
        },
        about: "How far it is turned before it is locked.",
    },
    with(
        "moment_n_m",
        Kind::Number(newton_metres(0.0, 1000.0)),
        &[ARM, SPRUNG_ECCENTRIC],
        "Moment of its spring.",
    ),
    with(
        "pointer_window_deg",
        Kind::Pair(deg(-360.0, 360.0)),
        &[SPRUNG_ECCENTRIC],
        "Between what turns its pointer must stand when the belt is fitted.",
    ),
];

/// A key that tensioners of these kinds must have and others must not.
const fn with(
    name: &'static str,
    kind: Kind,
    kinds: &'static [&'static str],
    about: &'static str,
) -> Key {
    let presence = Presence::When { key: "kind", required: kinds, optional: &[] };
    Key { name, kind, presence, about }
}
