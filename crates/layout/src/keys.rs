//! Every key of the layout file, with its kind and its bounds: the one table behind the reader,
//! the forms, the schema, the error messages and the property tests.
//!
//! Must not know how a file is read, nor what goes across keys (that is `rules`).

mod belt;
mod engine;
mod tensioner;
mod wheel;
mod workshop;

use crate::choice::{CountedFrom, CrankTurns};
use crate::key::{Key, Kind, bare, mm, teeth};
use crate::newer::KNOWN;

/// Most wheels in one drive.
pub const MOST_WHEELS: usize = 64;

/// A title, a name, a label.
const SHORT_TEXT: Kind = Kind::Text { longest: 120 };
/// A sentence or some.
const LONG_TEXT: Kind = Kind::Text { longest: 2000 };

/// The keys at the top of the file; all others stand below these.
pub static LAYOUT: &[Key] = &[
    Key::required(
        "format",
        Kind::Whole(bare(1.0, KNOWN as f64)),
        "The version of the file format.",
    ),
    Key::required("title", SHORT_TEXT, "What the layout is called."),
    Key::optional("about", LONG_TEXT, "What a reader should know of the layout."),
    Key::optional(
        "provisional",
        Kind::Flag,
        "Whether all but some counts is made up, so that what rests on it is no answer.",
    ),
    Key::required(
        "crank_turns",
        Kind::Choice(CrankTurns::WORDS),
        "Which way the crankshaft turns in running, seen at the belt end.",
    ),
    Key::optional(
        "centres_good_to_mm",
        Kind::Number(mm(0.0, 1000.0)),
        "How far off each wheel's centre may be; left out, nobody has said.",
    ),
    Key::required("belt", Kind::Table(belt::BELT), "The timing belt."),
    Key::required(
        "wheel",
        Kind::Tables { keys: wheel::WHEEL, fewest: 2, most: MOST_WHEELS },
        "The wheels in the order in which the running belt meets them, the crank first.",
    ),
    Key::required(
        "tensioner",
        Kind::Table(tensioner::TENSIONER),
        "What moves the tensioner pulley.",
    ),
    Key::optional(
        "count",
        Kind::Tables { keys: COUNT, fewest: 0, most: MOST_WHEELS },
        "Teeth that somebody counted on the belt.",
    ),
    Key::optional(
        "engine",
        Kind::Table(engine::ENGINE),
        "The engine behind the drive; without it the belt side works in full.",
    ),
    Key::optional(
        "fastener",
        Kind::Tables { keys: workshop::FASTENER, fewest: 0, most: 200 },
        "Bolts and nuts with their torques.",
    ),
    Key::optional(
        "caution",
        Kind::Tables { keys: workshop::CAUTION, fewest: 0, most: 100 },
        "Things to watch out for at this drive.",
    ),
];

static COUNT: &[Key] = &[
    Key::required("from", Kind::WheelId, "The marked wheel from which was counted."),
    Key::required(
        "to",
        Kind::WheelId,
        "The marked wheel up to which was counted, along the running of the belt.",
    ),
    Key::required("teeth", Kind::Whole(teeth(1.0, 400.0)), "Belt teeth between the two."),
    Key::required(
        "counted_from",
        Kind::Choice(CountedFrom::WORDS),
        "Whether the count goes between the grooves nearest mid-wrap or between the marks.",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::key::{Bounds, Presence};
    use crate::problem::ProblemKind;
    use crate::read::read;
    use crate::sample::all_kinds;

    fn every(keys: &'static [Key], see: &mut impl FnMut(&'static [Key], &'static Key)) {
        for key in keys {
            see(keys, key);
            every(key.keys(), see);
        }
    }

    #[test]
    fn the_table_makes_sense() {
        every(LAYOUT, &mut |siblings, key| {
            assert_eq!(siblings.iter().filter(|other| other.name == key.name).count(), 1);
            assert!(key.about.ends_with('.') && key.about.len() > 10, "{}", key.name);
            if let Presence::When { key: decider, required, optional } = key.presence {
                let decider = siblings.iter().find(|other| other.name == decider).unwrap();
                let Kind::Choice(words) = decider.kind else { panic!("{}", key.name) };
                assert!(required.iter().chain(optional).all(|word| words.contains(word)));
            }
            if let Kind::Whole(b) | Kind::Number(b) | Kind::Point(b) | Kind::Pair(b) = key.kind {
                assert!(b.least <= b.most && b.least.is_finite() && b.most.is_finite());
            }
        });
    }

    #[test]
    fn names_carry_their_unit() {
        use crate::key::Unit::*;
        every(LAYOUT, &mut |_, key| {
            let (Kind::Whole(b)
            | Kind::Number(b)
            | Kind::Point(b)
            | Kind::Pair(b)
            | Kind::List { each: b, .. }) = key.kind
            else {
                return;
            };
            let unit = match b.unit {
                Bare => return,
                Millimetres => "_mm",
                Degrees => "_deg",
                Teeth => "teeth",
                CrankTurns => "crank_turns",
                Newtons => "_n",
                NewtonsPerMillimetre => "_n_per_mm",
                NewtonMetres => "_n_m",
                PoundForceFeet => "_lbf_ft",
                PoundForceInches => "_lbf_in",
                KilogramsPerMetre => "_kg_per_m",
            };
            assert!(key.name.ends_with(unit), "{}", key.name);
        });
    }

    /// Every key of the table with its path, without numbers.
    fn every_key(keys: &'static [Key], path: &str, see: &mut impl FnMut(&str, &'static Key)) {
        for key in keys {
            let path =
                if path.is_empty() { key.name.into() } else { format!("{path}.{}", key.name) };
            see(&path, key);
            every_key(key.keys(), &path, see);
        }
    }

    /// Where in one of the good layouts the key stands: text, place, key path.
    fn used(path: &str) -> (String, crate::Place, String) {
        for text in all_kinds() {
            for (key, place) in read(&text).unwrap().places {
                let plain: Vec<_> =
                    key.split('.').filter_map(|step| step.split('[').next()).collect();
                if plain.join(".") == path && !key.ends_with(']') {
                    return (text, place, key);
                }
            }
        }
        panic!("{path} is in none of the good layouts");
    }

    #[test]
    fn every_key_is_accepted() {
        every_key(LAYOUT, "", &mut |path, _| drop(used(path)));
    }

    /// Whether it comes from the rules and not from the table.
    fn is_across_keys(kind: &ProblemKind) -> bool {
        use ProblemKind::*;
        matches!(
            kind,
            Disagrees { .. }
                | UnfitWheel { .. }
                | OutOfPlace { .. }
                | UnknownWheel { .. }
                | UnequalLists { .. }
        )
    }

    #[test]
    fn every_bound_just_inside_and_just_outside() {
        let mut tried = 0;
        every_key(LAYOUT, "", &mut |path, key| {
            let (text, place, at) = used(path);
            let told = |written: &str| {
                let text =
                    format!("{}{written}{}", &text[..place.from_byte], &text[place.to_byte..]);
                let problems = read(&text).err().unwrap_or_default();
                problems.iter().any(|problem| {
                    let there = problem.key == at || problem.key.starts_with(&format!("{at}["));
                    there && !is_across_keys(&problem.kind)
                })
            };
            let step = |bounds: Bounds| (bounds.most - bounds.least).max(1.0) * 1e-9;
            let mut number = |bounds: Bounds, step: f64, write: &dyn Fn(f64) -> String| {
                tried += 1;
                for inside in [bounds.least, bounds.most] {
                    assert!(!told(&write(inside)), "{path} = {}", write(inside));
                }
                for outside in [bounds.least - step, bounds.most + step] {
                    assert!(told(&write(outside)), "{path} = {}", write(outside));
                }
            };
            match key.kind {
                Kind::Whole(bounds) => number(bounds, 1.0, &|n| format!("{n}")),
                Kind::Number(bounds) => number(bounds, step(bounds), &|n| format!("{n:?}")),
                Kind::Point(bounds) => {
                    number(bounds, step(bounds), &|n| format!("[{n:?}, 0]"));
                    number(bounds, step(bounds), &|n| format!("[0, {n:?}]"));
                }
                Kind::Pair(bounds) => {
                    let middle = (bounds.least + bounds.most) / 2.0;
                    number(bounds, step(bounds), &|n| {
                        let (low, high) = (n.min(middle), n.max(middle));
                        format!("[{low:?}, {high:?}]")
                    });
                }
                Kind::List { each, whole, fewest, most } => {
                    let step = if whole { 1.0 } else { step(each) };
                    number(each, step, &|n| format!("{:?}", vec![n; fewest]));
                    let list = |length| format!("{:?}", vec![each.least; length]);
                    assert!(!told(&list(fewest)) && !told(&list(most)), "{path}");
                    assert!(told(&list(fewest - 1)) && told(&list(most + 1)), "{path}");
                }
                Kind::Text { longest } => {
                    let text = |length| format!("'{}'", "ä".repeat(length));
                    assert!(!told(&text(1)) && !told(&text(longest)), "{path}");
                    assert!(told(&text(0)) && told(&text(longest + 1)), "{path}");
                }
                Kind::Choice(words) => {
                    assert!(words.iter().all(|word| !told(&format!("'{word}'"))), "{path}");
                    assert!(told("'no such word'") && told("1"), "{path}");
                }
                Kind::Id | Kind::WheelId => assert!(told("1"), "{path}"),
                Kind::Flag => {
                    assert!(!told("true") && !told("false") && told("'true'"), "{path}");
                }
                Kind::Table(_) | Kind::Tables { .. } => {}
            }
        });
        assert!(tried > 60, "{tried}");
    }
}
