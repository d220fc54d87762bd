//! One more entry for a list of tables, with something sound in every key that it must have: an idler that
//! the belt just touches where the next wheel is wanted, a count, a camshaft, a bolt, a caution.
//!
//! Must not know: where on a screen it is asked for.

use crate::choice::{Face, MarkUse, Role};
use crate::edit::{Edit, Value};
use crate::form::{Row, entries_at, form, text_in};
use crate::plan::{Plan, Sketch};
use drive::{DVec2, Disc, tangent, touch};

/// Outside diameter of a new idler, mm: an idler of a usual size (from memory, no source).
const IDLER_MM: f64 = 60.0;
/// How far a new idler is pressed into the belt, mm: enough to be touched, too little to matter.
const PRESSED_MM: f64 = 2.0;
/// Where a new wheel goes that cannot be put beside a belt, mm: somewhere in view.
const SOMEWHERE_MM: DVec2 = DVec2::new(100.0, 150.0);

/// The edit that puts one more entry before entry `at` of `list` (`wheel`, `count`, `engine.camshaft`,
/// `fastener`, `caution`, `wheel[2].other_marks`) of this layout text; `None` for another list, or where the
/// text is no TOML. In a text with other slips it is something to be filled in.
pub fn another(text: &str, list: &str, at: usize) -> Option<Edit> {
    let rows = form(text)?;
    let wheels = entries_at(&rows, "wheel");
    // The crank stays first.
    let at = if list == "wheel" { at.clamp(1.min(wheels.len()), wheels.len()) } else { at };
    let word = |word: &str| Value::Text(word.to_owned());
    let id_of = |role: Role, nth: usize| {
        let of_role = |wheel: &&Vec<Row>| text_in(wheel, "role") == Some(role.word());
        let wheel = wheels.iter().filter(of_role).nth(nth);
        wheel.and_then(|wheel| text_in(wheel, "id")).unwrap_or_default()
    };
    let keys = match list {
        "wheel" => wheel(text, free_id(wheels), at),
        "count" => vec![
            ("from", word(id_of(Role::Crank, 0))),
            ("to", word(id_of(Role::Camshaft, 0))),
            ("teeth", Value::Number(20.0)),
            ("counted_from", word("reference")),
        ],
        "engine.camshaft" => {
            let have = entries_at(&rows, "engine.camshaft").len();
            vec![
                ("wheel", word(id_of(Role::Camshaft, have))),
                ("cylinders", Value::Numbers(vec![1.0])),
            ]
        }
        "fastener" => vec![("part", word("?"))],
        "caution" => vec![("text", word("?"))],
        marks if marks.ends_with(".other_marks") => vec![
            ("wheel_clock_deg", Value::Number(90.0)),
            ("label", word("?")),
            ("use", word(MarkUse::Decoy.word())),
        ],
        stages if stages.ends_with(".stages") => vec![("torque_n_m", Value::Number(1.0))],
        _ => return None,
    };
    Some(Edit::Insert { list: list.to_owned(), at, keys })
}

/// An id that no wheel has.
fn free_id(wheels: &[Vec<Row>]) -> String {
    let taken = |id: &str| wheels.iter().any(|wheel| text_in(wheel, "id") == Some(id));
    let numbered = (2..).map(|n| format!("idler_{n}"));
    let all = std::iter::once("idler".to_owned()).chain(numbered);
    all.into_iter().find(|id| !taken(id)).unwrap_or_default()
}

fn wheel(text: &str, id: String, at: usize) -> Vec<(&'static str, Value)> {
    let word = |word: &str| Value::Text(word.to_owned());
    let centre = match Sketch::of(text) {
        Some(sketch) => beside_the_belt(text, &sketch, at),
        None => SOMEWHERE_MM,
    };
    let tenth = |mm: f64| (DVec2::splat(mm * 10.0).round() / 10.0).x;
    vec![
        ("id", Value::Text(id)),
        ("role", word(Role::Idler.word())),
        ("face", word(Face::Back.word())),
        ("outside_diameter_mm", Value::Number(IDLER_MM)),
        ("at_mm", Value::Numbers(vec![tenth(centre.x), tenth(centre.y)])),
    ]
}

/// Where an idler on the belt's back, wheel `at` from then on, would just press into the span before the
/// present wheel `at`.
fn beside_the_belt(text: &str, sketch: &Sketch, at: usize) -> DVec2 {
    let parts = &sketch.parts;
    let count = parts.wheels.len();
    let (a, b) = (at - 1, at % count);
    // The tensioner's wheel stands where the tight belt holds it, if the belt can run.
    let discs: Option<Vec<Disc>> =
        Plan::open(text).ok().map(|plan| plan.drive.taut_stance().discs.clone());
    let disc = |i: usize| match discs.as_ref().and_then(|discs| discs.get(i)) {
        Some(disc) => *disc,
        None => {
            let wheel = &parts.wheels[i];
            Disc {
                centre: wheel.centre,
                radius: wheel.pitch_radius_mm(&parts.belt),
                sense: wheel.sense(parts.crank_turns).sign(),
            }
        }
    };
    let (a, b) = (disc(a), disc(b));
    let middle = (a.centre + b.centre) / 2.0;
    let Some(span) = tangent(&a, &b) else { return middle };
    let idler = drive::Wheel {
        rim: drive::Rim::Smooth { outside_radius_mm: IDLER_MM / 2.0, face: drive::Face::Back },
        ..parts.wheels[0]
    };
    let radius = idler.pitch_radius_mm(&parts.belt);
    let touches = touch(span.direction, -parts.crank_turns.sign());
    (span.leaves + span.meets) / 2.0 - touches * (radius - PRESSED_MM)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{apply, form};

    const SHIPPED: &str = include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

    #[test]
    fn an_idler_more_is_touched_wherever_it_is_put() {
        let wheels = crate::read(SHIPPED).unwrap().wheels.len();
        for at in 0..=wheels {
            let edit = another(SHIPPED, "wheel", at).unwrap();
            let text = apply(SHIPPED, &[edit]).unwrap();
            let at = at.max(1);
            let layout = crate::read(&text).unwrap();
            assert_eq!(layout.wheels.len(), wheels + 1);
            let flaws: Vec<_> = match Plan::open(&text) {
                Ok(_) => Vec::new(),
                Err(problems) => problems.into_iter().map(|p| p.kind).collect(),
            };
            let untouched = flaws.iter().any(|kind| {
                matches!(kind, crate::ProblemKind::Geometry {
                    flaw: drive::Flaw::NotTouched { wheel, .. } | drive::Flaw::NoTangent { to: wheel, .. }, ..
                } if *wheel == at)
            });
            assert!(!untouched, "{at}: {flaws:?}");
        }
    }

    #[test]
    fn every_list_takes_one_more_that_can_be_read() {
        for list in ["count", "engine.camshaft", "fastener", "caution"] {
            let text = apply(SHIPPED, &[another(SHIPPED, list, 99).unwrap()]).unwrap();
            assert!(form(&text).is_some(), "{list}");
            let shape = crate::read(&text).err().unwrap_or_default();
            assert!(
                shape.iter().all(|p| !matches!(p.kind, crate::ProblemKind::MissingKey { .. })),
                "{list}: {shape:?}"
            );
        }
        assert_eq!(another(SHIPPED, "belt", 0), None);
        assert_eq!(another("format = ", "wheel", 0), None);
        // Also where the tensioner has lost its wheel, or nothing is there yet.
        let lost = apply(SHIPPED, &[Edit::Remove { path: "wheel[1]".into() }]).unwrap();
        for text in [lost.as_str(), "", "format = 1\n"] {
            let edit = another(text, "wheel", 9).unwrap();
            assert!(apply(text, &[edit]).unwrap().contains("idler"), "{text}");
        }
    }
}
