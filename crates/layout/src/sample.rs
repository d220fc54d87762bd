//! Good layouts for the tests of this crate. Together they use every key there is.

use crate::problem::{Problem, ProblemKind};

/// A problem as the tests compare it: kind, `line:column`, key path, part.
pub(crate) type Told = (ProblemKind, String, String, Option<String>);

/// Every key but those of the other kinds of tensioner.
pub(crate) const SLIDE: &str = r#"# a comment
format = 1
title = "Six in a vee"
about = "Invented. Not a real engine: «zwei Zahnräder»."
crank_turns = "clockwise"

[belt]
teeth = 167
pitch_mm = 9.525
thickness_mm = 5.5   # whole belt
tooth_height_mm = 3.5
pitch_line_differential_mm = 0.686
width_mm = 25.4
tensile_stiffness_n = 400000.0
mass_kg_per_m = 0.11
direction_arrow = true

[[wheel]]
id = "crank"
name = "Crankshaft sprocket"
role = "crank"
face = "toothed"
teeth = 24
at_mm = [0.0, 0.0]
mark = { cover_clock_deg = 0.0, on = "groove", radius_mm = 30, gap_mm = 6.5, seen_at = "damper" }
friction_n_m = 8.0

[[wheel]]
id = "cam_left"
role = "camshaft"
face = "toothed"
teeth = 48
at_mm = [-180.5, 310]
mark = { cover_clock_deg = -12.5, on = "tooth" }
other_marks = [{ wheel_clock_deg = 40.0, label = "arrow", use = "decoy" }]
fixing = "slotted"
slot_deg = [-5.0, 5.0]
lock = { by = "pin", on = "shaft" }
phaser = { rest = "late", range_cam_deg = [0.0, 25.0], locks = true }
spring_torque_n_m = -3.0

[[wheel]]
id = "pump"
role = "water_pump"
face = "back"
outside_diameter_mm = 60.0
at_mm = [0, 200]

[[wheel]]
id = "cam_right"
role = "camshaft"
face = "toothed"
teeth = 48.0
at_mm = [180, 310]
repeats_every_crank_turns = 4
position_check = "Look at the slot."
[wheel.mark]
cover_clock_deg = 12.5
on = "groove"

[[wheel]]
id = "tensioner"
role = "tensioner"
face = "back"
outside_diameter_mm = 55
at_mm = [90, 80]

[tensioner]
wheel = "tensioner"
kind = "slide"
tightening_clock_deg = 95.0
travel_mm = [-30.0, 14.0]
pinned_mm = 1.0
force_n = 350.0

[[count]]
from = "cam_left"
to = "cam_right"
teeth = 47
counted_from = "reference"

[engine]
bore_mm = 92.0
stroke_mm = 80.0
rod_mm = 133.0
compression_ratio = 9.5
crank_at_marks_atdc_deg = 0.0
cylinder_1_at_marks = "firing"
fires_at_deg = [0, 120, 240, 360, 480, 600]

[[engine.camshaft]]
wheel = "cam_left"
cylinders = [1, 3, 5]
intake  = { opens_btdc_deg = 10, closes_abdc_deg = 50, lift_mm = 9.0, events_at_lift_mm = 0.0, law = "3-4-5", lean_deg = 20.0, gap_at_tdc_mm = 2.6 }
exhaust = { opens_bbdc_deg = 48, closes_atdc_deg = 12, lift_mm = 8.6, events_at_lift_mm = 0.0, law = "3-4-5", lean_deg = 22.0, gap_at_tdc_mm = 2.8 }

[[fastener]]
part = "Camshaft sprocket bolt"
wheel = "cam_left"
torque_n_m = 88.0
new_each_time = false
when = "after_tension"
hold_with = "counter-hold"
thread = "left"

[[fastener]]
part = "Damper bolt"
stages = [{ torque_n_m = 40.0 }, { torque_lbf_ft = 40 }, { torque_lbf_in = 90 }, { angle_deg = 90.0 }]

[[fastener]]
part = "Pump bolt"
torque_lbf_ft = 12

[[fastener]]
part = "Cover bolt"
torque_lbf_in = 90

[[caution]]
text = "A thrust washer sits behind the tensioner pulley."
"#;

const ARM: &str = r#"kind = "arm"
pivot_mm = [50, 60]
tightening = "anticlockwise"
travel_deg = [-20, 30]
pinned_deg = 2
moment_n_m = 15
"#;

const ECCENTRIC: &str = r#"kind = "eccentric"
bolt_mm = [85, 80]
tightening = "clockwise"
travel_deg = [-20, 90]
set_deg = 40
"#;

const SPRUNG_ECCENTRIC: &str = r#"kind = "sprung_eccentric"
bolt_mm = [85, 80]
tightening = "clockwise"
travel_deg = [-20, 90]
set_deg = 40
moment_n_m = 15
pointer_window_deg = [30, 50]
"#;

const INTAKE: &str = "opens_btdc_deg = 10, closes_abdc_deg = 50, lift_mm = 9.0, events_at_lift_mm = 0.0, law = \"3-4-5\",";
const INTAKE_MEASURED: &str = "measured_at_deg = [-10, 40, 110, 180, 230], measured_lift_mm = [0, 3.5, 9, 3.5, 0], events_at_lift_mm = 0.0, spring_shut_n = 250, spring_rate_n_per_mm = 30,";
const EXHAUST: &str = "opens_bbdc_deg = 48, closes_atdc_deg = 12, lift_mm = 8.6, events_at_lift_mm = 0.0, law = \"3-4-5\",";
const EXHAUST_MEASURED: &str = "measured_at_deg = [-228, -178, -108, -38, 12], measured_lift_mm = [0, 3.4, 8.6, 3.4, 0], spring_shut_n = 250, spring_rate_n_per_mm = 30,";

/// The same layout with each of the four kinds of tensioner.
pub(crate) fn all_kinds() -> [String; 4] {
    let from = SLIDE.find("kind = \"slide\"").unwrap();
    let to = SLIDE.find("\n[[count]]").unwrap();
    let with = |keys: &str| SLIDE[..from].to_owned() + keys + &SLIDE[to..];
    // Two keys at the top more, in a kind of its own so that no line of the others moves.
    let arm = with(ARM).replacen(
        "\n\n[belt]",
        "\ncentres_good_to_mm = 0.5\nprovisional = true\n\n[belt]",
        1,
    );
    // A measured lift, springs, and valves that meet, likewise.
    let eccentric = with(ECCENTRIC)
        .replacen("\n\n[[engine.", "\nvalves_meet_at_lift_sum_mm = 11.0\n\n[[engine.", 1)
        .replacen(INTAKE, INTAKE_MEASURED, 1)
        .replacen(EXHAUST, EXHAUST_MEASURED, 1);
    [SLIDE.to_owned(), arm, eccentric, with(SPRUNG_ECCENTRIC)]
}

/// What is told of the sample when `from` is written as `to`.
pub(crate) fn told(from: &str, to: &str) -> Vec<Told> {
    told_of(SLIDE, from, to)
}

/// The same for any text.
pub(crate) fn told_of(text: &str, from: &str, to: &str) -> Vec<Told> {
    assert!(text.contains(from), "{from:?} is not in the sample");
    let problems = crate::read(&text.replacen(from, to, 1)).unwrap_err();
    let told = |Problem { kind, place, key, part }| {
        (kind, format!("{}:{}", place.line, place.column), key, part)
    };
    problems.into_iter().map(told).collect()
}

/// One problem, as [`told`] gives it.
pub(crate) fn one(kind: ProblemKind, at: &str, key: &str, part: &str) -> Vec<Told> {
    let part = (!part.is_empty()).then(|| part.to_owned());
    vec![(kind, at.to_owned(), key.to_owned(), part)]
}
