//! What must be right across keys, once each has been checked by itself.
//!
//! Must not know any geometry: two wheels at one place, or a belt that does not go round, are for
//! the drive to find.

mod belt;
mod counts;
mod engine;
mod tensioner;
mod wheels;
mod workshop;

use crate::findings::Findings;
use crate::nearest::nearest;
use crate::problem::{Need, ProblemKind, clipped};
use crate::tree::Node;

/// Checks everything that goes across keys.
pub(crate) fn check(top: &Node, findings: &mut Findings<'_>) {
    belt::check(top, findings);
    wheels::check(top, findings);
    tensioner::check(top, findings);
    counts::check(top, findings);
    engine::check(top, findings);
    workshop::check(top, findings);
}

/// The wheel that `name` in `node` calls by its id. One that does not exist is told; `None` also
/// where the key is not there.
fn called_wheel<'n>(
    top: &'n Node,
    node: &Node,
    name: &str,
    findings: &mut Findings<'_>,
) -> Option<&'n Node> {
    let id = node.text(name)?;
    let wheels = top.tables("wheel");
    let called = wheels.iter().find(|wheel| wheel.text("id") == Some(id));
    if called.is_none() {
        let ids = wheels.iter().filter_map(|wheel| wheel.text("id"));
        let nearest = nearest(id, ids).map(str::to_owned);
        let kind = ProblemKind::UnknownWheel { found: clipped(id), nearest };
        node.tell(findings, name, kind);
    }
    called
}

/// The wheel that `name` in `node` calls is not fit for it.
fn unfit(node: &Node, name: &str, wheel: &Node, needs: Need, findings: &mut Findings<'_>) {
    let part = wheel.text("id").unwrap_or_default();
    node.tell_of(findings, name, part, ProblemKind::UnfitWheel { needs });
}

/// Exactly one of `keys` must be there; with `more_allowed`, at least one.
fn one_of(
    node: &Node,
    keys: &'static [&'static str],
    more_allowed: bool,
    findings: &mut Findings<'_>,
) {
    let found: Vec<_> = keys.iter().copied().filter(|key| node.has(key)).collect();
    if found.is_empty() || (found.len() > 1 && !more_allowed) {
        // At the last of those that are there, which is one too many; else at the table.
        let name = found.last().or(keys.first()).copied().unwrap_or_default();
        node.tell(findings, name, ProblemKind::OneOf { keys, found, more_allowed });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::key::Unit;
    use crate::sample::{SLIDE, all_kinds, one, told, told_of};

    fn unfit(needs: Need) -> ProblemKind {
        ProblemKind::UnfitWheel { needs }
    }

    #[test]
    fn wheels() {
        assert_eq!(
            told("id = \"pump\"", "id = \"cam_left\""),
            one(
                ProblemKind::RepeatedId { found: "cam_left".into(), first: "wheel[1].id".into() },
                "43:6",
                "wheel[2].id",
                "cam_left"
            )
        );
        let keys: &[_] = &["teeth", "outside_diameter_mm"];
        let either = |found| ProblemKind::OneOf { keys, found, more_allowed: false };
        assert_eq!(
            told("outside_diameter_mm = 60.0\n", ""),
            one(either(vec![]), "42:1", "wheel[2].teeth", "pump")
        );
        assert_eq!(
            told("teeth = 24", "teeth = 24\noutside_diameter_mm = 60.0")[0].0,
            either(keys.to_vec())
        );
        assert_eq!(
            told("face = \"back\"\noutside_diameter_mm = 60.0", "face = \"back\"\nteeth = 20"),
            one(unfit(Need::ToothedFace), "45:8", "wheel[2].face", "pump")
        );
        assert_eq!(
            told(
                "at_mm = [0, 200]",
                "at_mm = [0, 200]\nmark = { cover_clock_deg = 0, on = 'groove' }"
            ),
            one(unfit(Need::Toothed), "48:8", "wheel[2].mark", "pump")
        );
        assert_eq!(
            told("role = \"water_pump\"", "role = \"distributor\""),
            one(unfit(Need::Toothed), "44:8", "wheel[2].role", "pump")
        );
    }

    #[test]
    fn the_crank() {
        let start = SLIDE.find("[[wheel]]").unwrap();
        let end = start + SLIDE[start..].find("\n\n").unwrap() + 2;
        let crank = &SLIDE[start..end];
        let others = SLIDE.replace(crank, "");
        assert_eq!(
            told_of(&others, "[tensioner]", &format!("{crank}[tensioner]")),
            one(unfit(Need::First), "61:8", "wheel[4].role", "crank")
        );
        assert_eq!(
            told("role = \"crank\"", "role = \"other\""),
            one(ProblemKind::NoCrank, "18:1", "wheel", "")
        );
        assert_eq!(
            told(
                "role = \"camshaft\"\nface = \"toothed\"\nteeth = 48.0",
                "role = \"crank\"\nface = \"toothed\"\nteeth = 48.0"
            ),
            one(unfit(Need::NotASecondCrank), "51:8", "wheel[3].role", "cam_right")
        );
        assert_eq!(
            told(
                "mark = { cover_clock_deg = 0.0, on = \"groove\", radius_mm = 30, gap_mm = 6.5, seen_at = \"damper\" }\n",
                ""
            ),
            one(unfit(Need::Marked), "18:1", "wheel[0].mark", "crank")
        );
    }

    #[test]
    fn the_belt() {
        let below = |found, most| ProblemKind::Disagrees {
            found,
            least: None,
            most: Some(most),
            inclusive: false,
            unit: Unit::Millimetres,
            set_by: "belt.thickness_mm".into(),
        };
        assert_eq!(
            told("tooth_height_mm = 3.5", "tooth_height_mm = 5.5"),
            one(below(5.5, 5.5), "11:19", "belt.tooth_height_mm", "")
        );
        assert_eq!(
            told("0.686", "2"),
            one(below(2.0, 2.0), "12:30", "belt.pitch_line_differential_mm", "")
        );
    }

    #[test]
    fn the_tensioner() {
        let unknown = |found: &str, nearest: Option<&str>| ProblemKind::UnknownWheel {
            found: found.into(),
            nearest: nearest.map(str::to_owned),
        };
        assert_eq!(
            told("wheel = \"tensioner\"", "wheel = \"tensoner\""),
            one(unknown("tensoner", Some("tensioner")), "69:9", "tensioner.wheel", "")
        );
        assert_eq!(
            told("wheel = \"tensioner\"", "wheel = \"pump\""),
            one(unfit(Need::Role("tensioner")), "69:9", "tensioner.wheel", "pump")
        );
        let beyond = |found, low, high, unit, set_by: &str| ProblemKind::Disagrees {
            found,
            least: Some(low),
            most: Some(high),
            inclusive: true,
            unit,
            set_by: set_by.into(),
        };
        assert_eq!(
            told("pinned_mm = 1.0", "pinned_mm = 14.5"),
            one(
                beyond(14.5, -30.0, 14.0, Unit::Millimetres, "tensioner.travel_mm"),
                "73:13",
                "tensioner.pinned_mm",
                ""
            )
        );
        let [_, arm, eccentric, sprung] = all_kinds();
        for (text, from, to, found, low, high) in [
            (arm, "pinned_deg = 2", "pinned_deg = -21", -21.0, -20.0, 30.0),
            (eccentric, "set_deg = 40", "set_deg = 91", 91.0, -20.0, 90.0),
            (sprung.clone(), "[30, 50]", "[-25, 50]", -25.0, -20.0, 90.0),
            (sprung, "[30, 50]", "[30, 95]", 95.0, -20.0, 90.0),
        ] {
            let told = told_of(&text, from, to);
            assert_eq!(told.len(), 1);
            let kind = beyond(found, low, high, Unit::Degrees, "tensioner.travel_deg");
            assert_eq!(told[0].0, kind, "{to}");
        }
    }

    #[test]
    fn counts() {
        assert_eq!(
            told("from = \"cam_left\"", "from = \"pump\""),
            one(unfit(Need::Marked), "77:8", "count[0].from", "pump")
        );
        assert_eq!(
            told("to = \"cam_right\"", "to = \"cam_left\""),
            one(unfit(Need::AnotherWheel), "78:6", "count[0].to", "cam_left")
        );
        assert_eq!(
            told("to = \"cam_right\"", "to = \"cam_middle\"")[0].0,
            ProblemKind::UnknownWheel { found: "cam_middle".into(), nearest: None }
        );
        assert_eq!(
            told("teeth = 47", "teeth = 167"),
            one(
                ProblemKind::Disagrees {
                    found: 167.0,
                    least: None,
                    most: Some(167.0),
                    inclusive: false,
                    unit: Unit::Teeth,
                    set_by: "belt.teeth".into(),
                },
                "79:9",
                "count[0].teeth",
                ""
            )
        );
    }

    #[test]
    fn the_engine_and_the_fasteners() {
        assert_eq!(
            told("rod_mm = 133.0", "rod_mm = 40.0")[0].0,
            ProblemKind::Disagrees {
                found: 40.0,
                least: Some(40.0),
                most: None,
                inclusive: false,
                unit: Unit::Millimetres,
                set_by: "engine.stroke_mm".into(),
            }
        );
        assert_eq!(told("[0, 120,", "[60, 120,")[0].2, "engine.fires_at_deg");
        assert_eq!(told("[1, 3, 5]", "[1, 3, 7]")[0].2, "engine.camshaft[0].cylinders");
        assert_eq!(
            told("wheel = \"cam_left\"\ncyl", "wheel = \"crank\"\ncyl"),
            one(unfit(Need::Role("camshaft")), "92:9", "engine.camshaft[0].wheel", "crank")
        );
        let start = SLIDE.find("intake").unwrap();
        let end = SLIDE.find("\n[[fastener]]").unwrap();
        let keys: &[_] = &["intake", "exhaust"];
        assert_eq!(
            told(&SLIDE[start..end], ""),
            one(
                ProblemKind::OneOf { keys, found: vec![], more_allowed: true },
                "91:1",
                "engine.camshaft[0].intake",
                ""
            )
        );
        let of = |told: Vec<crate::sample::Told>| match &told[..] {
            [(ProblemKind::OneOf { found, .. }, _, key, _)] => (found.clone(), key.clone()),
            other => panic!("{other:?}"),
        };
        assert_eq!(
            of(told("torque_n_m = 88.0", "torque_n_m = 88.0\ntorque_lbf_ft = 65")),
            (vec!["torque_n_m", "torque_lbf_ft"], "fastener[0].torque_lbf_ft".into())
        );
        assert_eq!(
            of(told("{ angle_deg = 90.0 }", "{}")),
            (vec![], "fastener[1].stages[3].torque_n_m".into())
        );
    }

    #[test]
    fn a_valve_states_its_motion_one_way_and_whole() {
        let missing = |name: &'static str| ProblemKind::MissingKey { name };
        let one_of = |keys: &'static [&'static str], found: &[&'static str]| ProblemKind::OneOf {
            keys,
            found: found.to_vec(),
            more_allowed: false,
        };
        let ways: &[_] = &["opens_btdc_deg", "measured_at_deg"];
        let lifts: &[_] = &["lift_mm", "measured_lift_mm"];
        let [slide, _, measured, _] = all_kinds();
        let intake = |key: &str| format!("engine.camshaft[0].intake.{key}");
        let events = "opens_btdc_deg = 10, closes_abdc_deg = 50,";
        for (text, from, to, kind, key) in [
            (&slide, "opens_btdc_deg = 10,", "", missing("opens_btdc_deg"), "opens_btdc_deg"),
            (&slide, "closes_abdc_deg = 50,", "", missing("closes_abdc_deg"), "closes_abdc_deg"),
            (&slide, "lift_mm = 9.0,", "", missing("lift_mm"), "lift_mm"),
            (&slide, "law = \"3-4-5\",", "", missing("law"), "law"),
            (&slide, events, "", one_of(ways, &[]), "opens_btdc_deg"),
            (
                &measured,
                "intake  = {",
                "intake = { opens_btdc_deg = 10, closes_abdc_deg = 50,",
                one_of(ways, &["opens_btdc_deg", "measured_at_deg"]),
                "measured_at_deg",
            ),
            (
                &measured,
                "intake  = {",
                "intake = { lift_mm = 9,",
                one_of(lifts, &["lift_mm", "measured_lift_mm"]),
                "measured_lift_mm",
            ),
            (
                &measured,
                "measured_at_deg = [-10, 40, 110, 180, 230],",
                "",
                missing("measured_at_deg"),
                "measured_at_deg",
            ),
            (
                &measured,
                "measured_lift_mm = [0, 3.5, 9, 3.5, 0],",
                "",
                missing("measured_lift_mm"),
                "measured_lift_mm",
            ),
            (
                &measured,
                "[0, 3.5, 9, 3.5, 0]",
                "[0, 3.5, 9, 0]",
                ProblemKind::UnequalLists {
                    found: 4,
                    other: 5,
                    other_key: intake("measured_at_deg"),
                },
                "measured_lift_mm",
            ),
            (&measured, "spring_shut_n = 250,", "", missing("spring_shut_n"), "spring_shut_n"),
            (
                &measured,
                "spring_rate_n_per_mm = 30,",
                "",
                missing("spring_rate_n_per_mm"),
                "spring_rate_n_per_mm",
            ),
        ] {
            let told = told_of(text, from, to);
            let told: Vec<_> = told.into_iter().map(|(kind, _, key, _)| (kind, key)).collect();
            assert_eq!(told, [(kind, intake(key))], "{from} → {to}");
        }
        // Degrees alone will do, and so will a valve of which no gap can be told.
        for (from, to) in [
            (" lift_mm = 9.0, events_at_lift_mm = 0.0, law = \"3-4-5\",", ""),
            (" lean_deg = 20.0,", ""),
            (", gap_at_tdc_mm = 2.6", ""),
            ("stroke_mm = 80.0\n", ""),
        ] {
            assert!(crate::read(&slide.replacen(from, to, 1)).is_ok(), "{from}");
        }
        assert_eq!(
            told("fires_at_deg = [0, 120, 240, 360, 480, 600]\n", ""),
            one(missing("fires_at_deg"), "82:1", "engine.fires_at_deg", "")
        );
    }
}
