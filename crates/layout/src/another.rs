//! One more entry for a list of tables, with something sound in every key that it must have: an idler that
//! the belt just touches where the next wheel is wanted, a count, a camshaft, a bolt, a caution.
//!
//! Must not know: where on a screen it is asked for.

use crate::choice::{Face, MarkUse, Role};
use crate::edit::{Edit, Value, apply};
use crate::form::{Row, entries_at, form, text_in};
use crate::plan::{Plan, Sketch};
use crate::problem::{Problem, ProblemKind};
use drive::{DVec2, Disc, tangent, touch};

/// Outside diameters of a new idler, mm: one of a usual size (from memory, no source), and smaller ones for
/// where that finds no room.
const IDLER_MM: [f64; 4] = [60.0, 50.0, 40.0, 30.0];
/// How far a new idler is pressed into the belt, mm: enough to be touched, too little to matter.
const PRESSED_MM: f64 = 2.0;
/// Places tried along a span, from its middle out either way, and what part of it lies between two.
const TRIES: u32 = 9;
const OUT: f64 = 0.05;
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
    let somewhere = Beside { face: Face::Back, diameter_mm: IDLER_MM[0], centre: SOMEWHERE_MM };
    let place =
        Sketch::of(text).map_or(somewhere, |sketch| beside_the_belt(text, &sketch, &id, at));
    keys(id, place)
}

fn keys(id: String, Beside { face, diameter_mm, centre }: Beside) -> Vec<(&'static str, Value)> {
    let word = |word: &str| Value::Text(word.to_owned());
    let tenth = |mm: f64| (DVec2::splat(mm * 10.0).round() / 10.0).x;
    vec![
        ("id", Value::Text(id)),
        ("role", word(Role::Idler.word())),
        ("face", word(face.word())),
        ("outside_diameter_mm", Value::Number(diameter_mm)),
        ("at_mm", Value::Numbers(vec![tenth(centre.x), tenth(centre.y)])),
    ]
}

/// A place for an idler at a span of the belt.
#[derive(Clone, Copy)]
struct Beside {
    face: Face,
    diameter_mm: f64,
    centre: DVec2,
}

/// Where an idler, wheel `at` from then on, would just press into the span before the present wheel `at`: as
/// near the span's middle as it overlaps nothing there, rather on the belt's back; in the middle if it
/// overlaps something everywhere.
fn beside_the_belt(text: &str, sketch: &Sketch, id: &str, at: usize) -> Beside {
    let parts = &sketch.parts;
    let count = parts.wheels.len();
    // The tensioner's wheel stands where the tight belt holds it, if the belt can run.
    let taut: Option<Vec<Disc>> =
        Plan::open(text).ok().map(|plan| plan.drive.taut_stance().discs.clone());
    let discs = taut.unwrap_or_else(|| {
        parts.wheels.iter().map(|wheel| wheel.disc(&parts.belt, parts.crank_turns)).collect()
    });
    let (a, b) = (at - 1, at % count);
    let Some(span) = tangent(&discs[a], &discs[b]) else {
        let centre = (discs[a].centre + discs[b].centre) / 2.0;
        return Beside { face: Face::Back, diameter_mm: IDLER_MM[0], centre };
    };
    let along = |share: f64, face: Face, diameter_mm: f64| {
        let (of_belt, sense) = match face {
            Face::Back => (drive::Face::Back, -parts.crank_turns.sign()),
            Face::Toothed => (drive::Face::Toothed, parts.crank_turns.sign()),
        };
        let idler = drive::Wheel {
            rim: drive::Rim::Smooth { outside_radius_mm: diameter_mm / 2.0, face: of_belt },
            ..parts.wheels[0]
        };
        let radius = idler.pitch_radius_mm(&parts.belt) - PRESSED_MM;
        let on_span = span.leaves + (span.meets - span.leaves) * share;
        Beside { face, diameter_mm, centre: on_span - touch(span.direction, sense) * radius }
    };
    let free = |place: &Beside| {
        let edit = Edit::Insert { list: "wheel".into(), at, keys: keys(id.to_owned(), *place) };
        let problems = apply(text, &[edit]).map(|text| Plan::open(&text).err().unwrap_or_default());
        let in_the_way = |problem: &Problem| match &problem.kind {
            ProblemKind::Geometry { flaw, .. } => flaw.wheels().contains(&at),
            _ => false,
        };
        problems.is_ok_and(|problems| !problems.iter().any(in_the_way))
    };
    let shares = || (0..=TRIES).flat_map(|k| [1.0, -1.0].map(|way| 0.5 + way * OUT * f64::from(k)));
    let places = IDLER_MM.into_iter().flat_map(|diameter_mm| {
        let faces = [Face::Back, Face::Toothed].into_iter();
        faces.flat_map(move |face| shares().map(move |share| (share, face, diameter_mm)))
    });
    let found = places.map(|(share, face, diameter_mm)| along(share, face, diameter_mm)).find(free);
    found.unwrap_or_else(|| along(0.5, Face::Back, IDLER_MM[0]))
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
    fn an_idler_more_overlaps_nothing_wherever_there_is_room() {
        let shipped = concat!(env!("CARGO_MANIFEST_DIR"), "/../../layouts");
        let mut crowded = Vec::new();
        for file in std::fs::read_dir(shipped).unwrap().map(|entry| entry.unwrap().path()) {
            let Ok(text) = std::fs::read_to_string(&file) else { continue };
            let Ok(plan) = Plan::open(&text) else { continue };
            for at in 1..=plan.layout.wheels.len() {
                let more = apply(&text, &[another(&text, "wheel", at).unwrap()]).unwrap();
                let problems = Plan::open(&more).err().unwrap_or_default();
                let overlaps = problems.iter().any(|problem| {
                    matches!(problem.kind, crate::ProblemKind::Geometry {
                        flaw: drive::Flaw::Overlap { a, b, .. }, ..
                    } if a == at || b == at)
                });
                if overlaps {
                    let name = file.file_name().unwrap().to_string_lossy().into_owned();
                    crowded.push(format!("{name} before wheel {at}"));
                }
            }
        }
        // Between water pump, idler and crank there is no room for the smallest either.
        let diesel = "diesel-four-with-injection-pump.toml";
        let none = [6, 7].map(|at| format!("{diesel} before wheel {at}"));
        assert_eq!(crowded, none);
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
