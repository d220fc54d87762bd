//! Changes to the text of layouts, random ones and those that ship, written as untidily as people write: a
//! changed text reads as the plain tree with the plain change, and all else in it keeps every byte.
//!
//! Must not know: how a text is changed.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use fastrand::Rng;
use layout::{Bounds, Edit, EditRefused, Key, Kind, LAYOUT, Presence, Value, apply, key_at};
use proofs::plain_edit::{Table, Tree, change, pruned, tree};
use proofs::random::sound_layout;
use proofs::slip::slipped;
use proofs::untidy::{notes, untidy};

const SEEDS: u64 = 200;

/// Counts and bolts for a layout that has none.
const WORKSHOP: &str = "
[[count]]
from = \"crank\"
to = \"tensioner\"
teeth = 40
counted_from = \"reference\"

[[fastener]]
part = \"A bolt\"
wheel = \"crank\"
stages = [{ torque_n_m = 40.0 }, { angle_deg = 90.0 }]

[[fastener]]
part = \"Another\"
wheel = \"tensioner\"
torque_lbf_ft = 30.5
thread = \"left\"

[[caution]]
text = \"A washer sits behind the pulley.\"
";

/// Tidy layouts: one that ships or a random one, with everything in it.
fn tidy(rng: &mut Rng, seed: u64) -> String {
    let mut shipped = include_str!("../layouts/four-in-line-two-camshafts-arm.toml").to_owned();
    match seed % 8 {
        0 => include_str!("../layouts/six-in-a-vee-two-camshafts-a-bank.toml").to_owned(),
        1 => std::mem::take(&mut shipped),
        _ => {
            let drawn = sound_layout(rng.u64(..)).with_more_to_do();
            drawn.toml_with_engine().text + WORKSHOP
        }
    }
}

fn drawn(seed: u64) -> (Rng, String) {
    let mut rng = Rng::with_seed(seed);
    let tidy = tidy(&mut rng, seed);
    let mut text = untidy(&mut rng, &tidy);
    match seed % 5 {
        1 => text.insert(0, '\u{feff}'),
        // No end to the last line.
        2 => text.truncate(text.trim_end().len()),
        _ => {}
    }
    let (plain, untidied) = (tree(&tidy), tree(&text));
    assert!(untidied.is_some(), "seed {seed}:\n{text}");
    assert_eq!(plain.map(|(tree, _)| tree), untidied.map(|(tree, _)| tree), "seed {seed}:\n{text}");
    (rng, text)
}

/// A number within the bounds, as somebody would type it.
fn figure(rng: &mut Rng, bounds: Bounds, whole: bool) -> f64 {
    let places = if whole { 0 } else { rng.usize(..4) };
    let x = bounds.least + rng.f64() * (bounds.most - bounds.least);
    let x: f64 = format!("{x:.places$}").parse().unwrap();
    x.clamp(bounds.least, bounds.most) + 0.0
}

/// Something that may stand behind the key.
fn value(rng: &mut Rng, tree: &Table, key: &Key) -> Option<Value> {
    Some(match key.kind {
        Kind::Text { .. } => {
            let texts = ["Left", "a \"b\" # c", "ä\\n€ '''", "two\nlines", "[x]", "= 1"];
            Value::Text(texts[rng.usize(..texts.len())].to_owned())
        }
        Kind::Id => Value::Text(format!("wheel_{}", rng.u16(..))),
        Kind::WheelId => {
            let Some(Tree::Tables(wheels)) = tree.get("wheel") else { return None };
            match wheels[rng.usize(..wheels.len())].get("id") {
                Some(Tree::Value(id)) => id.clone(),
                _ => return None,
            }
        }
        Kind::Choice(words) => Value::Text(words[rng.usize(..words.len())].to_owned()),
        Kind::Whole(bounds) => Value::Number(figure(rng, bounds, true)),
        Kind::Number(bounds) => Value::Number(figure(rng, bounds, false)),
        Kind::Point(bounds) | Kind::Pair(bounds) => {
            Value::Numbers((0..2).map(|_| figure(rng, bounds, false)).collect())
        }
        Kind::List { each, whole, fewest, .. } => {
            let many = fewest + rng.usize(..6);
            Value::Numbers((0..many).map(|_| figure(rng, each, whole)).collect())
        }
        Kind::Flag => Value::Flag(rng.bool()),
        Kind::Table(_) | Kind::Tables { .. } => return None,
    })
}

/// Every path at which a value stands or may stand in the tables that there are, with its key.
fn paths(table: &Table, keys: &'static [Key], above: &str, out: &mut Vec<(String, &'static Key)>) {
    for key in keys {
        let path =
            if above.is_empty() { key.name.to_owned() } else { format!("{above}.{}", key.name) };
        match (table.get(key.name), key.kind) {
            (Some(Tree::Table(inner)), _) => paths(inner, key.keys(), &path, out),
            (None, Kind::Table(inner)) => paths(&Table::new(), inner, &path, out),
            (Some(Tree::Tables(all)), _) => {
                for (i, inner) in all.iter().enumerate() {
                    paths(inner, key.keys(), &format!("{path}[{i}]"), out);
                }
            }
            (None, Kind::Tables { .. }) => {}
            _ => out.push((path, key)),
        }
    }
}

/// A value set somewhere.
fn set(rng: &mut Rng, tree: &Table) -> Edit {
    let mut all = Vec::new();
    paths(tree, LAYOUT, "", &mut all);
    loop {
        let (path, key) = all[rng.usize(..all.len())].clone();
        if let Some(value) = value(rng, tree, key) {
            return Edit::Set { path, value };
        }
    }
}

/// Any change.
fn any(rng: &mut Rng, tree: &Table) -> Edit {
    let list = ["wheel", "count", "fastener", "caution", "engine.camshaft"][rng.usize(..5)];
    let key = key_at(LAYOUT, list).unwrap();
    match rng.u8(..8) {
        0 => {
            let required = key.keys().iter().filter(|key| key.presence == Presence::Required);
            let keys =
                required.filter_map(|key| Some((key.name, value(rng, tree, key)?))).collect();
            Edit::Insert { list: list.to_owned(), at: rng.usize(..6), keys }
        }
        1 => Edit::Remove { path: format!("{list}[{}]", rng.usize(..6)) },
        2 => {
            let mut all = Vec::new();
            paths(tree, LAYOUT, "", &mut all);
            let path = &all[rng.usize(..all.len())].0;
            // A value, or the whole table that it stands in.
            let above = path.rsplit_once('.').map(|(above, _)| above);
            let table = above.filter(|above| !above.ends_with(']') && rng.u8(..4) == 0);
            Edit::Remove { path: table.unwrap_or(path).to_owned() }
        }
        3 | 4 => Edit::Move { list: list.to_owned(), from: rng.usize(..7), to: rng.usize(..7) },
        _ => set(rng, tree),
    }
}

/// Whether setting the key may change something else on purpose.
fn reaches_further(key: &Key) -> bool {
    let decides = ["kind", "fixing", "teeth", "outside_diameter_mm"].contains(&key.name);
    decides || key.name.starts_with("torque_") || key.kind == Kind::Id
}

/// Setting what is there changes its own bytes and no others.
#[test]
fn all_but_the_value_keeps_every_byte() {
    let mut sets = 0;
    for seed in 0..SEEDS {
        let (mut rng, mut text) = drawn(seed);
        if seed % 6 == 0 {
            // Some lines end one way and some the other.
            let lines = text.split_inclusive('\n').map(|line| line.trim_end_matches(['\r', '\n']));
            text = lines.map(|line| line.to_owned() + ["\n", "\r\n"][rng.usize(..2)]).collect();
        }
        let (plain, places) = tree(&text).unwrap();
        let paths: Vec<&String> = places.keys().collect();
        for _ in 0..20 {
            let path = paths[rng.usize(..paths.len())].clone();
            let (key, place) = (key_at(LAYOUT, &path).unwrap(), places[&path].clone());
            if reaches_further(key) {
                continue;
            }
            let new = value(&mut rng, &plain, key).unwrap();
            sets += 1;
            let put = |text: &str, value: &Value| {
                let edit = Edit::Set { path: path.clone(), value: value.clone() };
                apply(text, &[edit]).unwrap()
            };
            let after = put(&text, &new);
            let context = format!("seed {seed}: {path} = {new:?}\n{text}\n=>\n{after}");
            assert!(after.starts_with(&text[..place.start]), "{context}");
            assert!(after.ends_with(&text[place.end..]), "{context}");
            let mut wanted = plain.clone();
            assert!(change(&mut wanted, &Edit::Set { path: path.clone(), value: new.clone() }));
            let (found, places) = tree(&after).unwrap_or_else(|| panic!("{context}"));
            assert_eq!(found, wanted, "{context}");
            // The value and nothing around it is what changed.
            let now = &places[&path];
            assert_eq!((now.start, after.len() - now.end), (place.start, text.len() - place.end));
            assert_eq!(put(&after, &new), after, "{context}");
            // Once it is written our way, there and back is nothing.
            let other = value(&mut rng, &plain, key).unwrap();
            let ours = put(&put(&after, &other), &new);
            assert_eq!(put(&put(&ours, &other), &new), ours, "{context}");
        }
    }
    println!("{sets} values set");
    assert!(sets > 2500, "{sets}");
}

/// One change after the other, of every kind: each time the text reads as the plain tree with the plain change.
/// Comments go only with what is taken away.
#[test]
fn a_changed_text_reads_as_the_plain_tree() {
    let (mut made, mut refused) = (0, 0);
    for seed in 0..SEEDS {
        let (mut rng, mut text) = drawn(seed);
        for _ in 0..40 {
            let (mut plain, _) = tree(&text).unwrap();
            let edit = any(&mut rng, &plain);
            let can_be = change(&mut plain, &edit);
            let context = format!("seed {seed}: {edit:?}\n{text}");
            let after = match apply(&text, std::slice::from_ref(&edit)) {
                Ok(after) => after,
                Err(why) => {
                    assert!(
                        !can_be && matches!(why, EditRefused::NothingThere(_)),
                        "{why:?} {context}"
                    );
                    refused += 1;
                    continue;
                }
            };
            assert!(can_be, "{context}");
            let Some((found, _)) = tree(&after) else { panic!("no TOML: {context}\n=>\n{after}") };
            assert_eq!(pruned(&found), pruned(&plain), "{context}\n=>\n{after}");
            let (before, now) = (notes(&text), notes(&after));
            let takes = match &edit {
                Edit::Remove { .. } => true,
                Edit::Set { path, value } => {
                    let key = key_at(LAYOUT, path).unwrap();
                    // A list over several lines may have notes of its own entries.
                    reaches_further(key) || matches!(value, Value::Numbers(_))
                }
                Edit::Insert { .. } | Edit::Move { .. } => false,
            };
            match takes {
                true => {
                    assert!(now.iter().all(|note| before.contains(note)), "{context}\n=>\n{after}")
                }
                false => assert_eq!(now, before, "{context}\n=>\n{after}"),
            }
            assert!(now.windows(2).all(|two| two[0] != two[1]), "{context}\n=>\n{after}");
            text = after;
            made += 1;
        }
    }
    println!("{made} changes made, {refused} refused");
    assert!(made > 4000 && refused > 500, "{made} {refused}");
}

/// Moved there and back, put in and taken out, a list is what it was, to the byte.
#[test]
fn there_and_back_is_nothing() {
    let (mut moved, mut put_in) = (0, 0);
    for seed in 0..SEEDS {
        let (mut rng, text) = drawn(seed);
        let (plain, _) = tree(&text).unwrap();
        for list in ["wheel", "count", "fastener", "caution"] {
            let Some(Tree::Tables(all)) = plain.get(list) else { continue };
            let (from, to) = (rng.usize(..all.len()), rng.usize(..all.len()));
            let shift = |from, to| Edit::Move { list: list.to_owned(), from, to };
            let there = apply(&text, &[shift(from, to)]).unwrap();
            let back = apply(&there, &[shift(to, from)]).unwrap();
            assert_eq!(back, text, "seed {seed}: {list} {from} {to}\n{there}");
            moved += usize::from(from != to);
            let at = rng.usize(..=all.len());
            let keys = vec![("id", Value::Text("none_so_called".to_owned()))];
            let keys = if list == "wheel" { keys } else { Vec::new() };
            let insert = Edit::Insert { list: list.to_owned(), at, keys };
            let with = apply(&text, &[insert]).unwrap();
            let without = apply(&with, &[Edit::Remove { path: format!("{list}[{at}]") }]).unwrap();
            // What is put in behind a last line without an end gives it one.
            let lines = match text.ends_with('\n') {
                true => without.as_str(),
                false => without.trim_end_matches(['\r', '\n']),
            };
            assert_eq!(lines, text, "seed {seed}: {list} {at}\n{with}");
            put_in += 1;
        }
    }
    assert!(moved > 200 && put_in > 500, "{moved} {put_in}");
}

/// A wheel called like another for a while, as while its id is being typed, takes no other's counts along.
#[test]
fn an_id_that_is_taken_for_a_while_mixes_nothing_up() {
    for seed in 0..SEEDS {
        let (mut rng, text) = drawn(seed);
        let (plain, _) = tree(&text).unwrap();
        let Some(Tree::Tables(wheels)) = plain.get("wheel") else { panic!("seed {seed}") };
        let id = |i: usize| match wheels[i].get("id") {
            Some(Tree::Value(id)) => id.clone(),
            _ => panic!("seed {seed}"),
        };
        let (one, other) = (rng.usize(..wheels.len()), rng.usize(..wheels.len()));
        let path = format!("wheel[{one}].id");
        let set =
            |text: &str, value| apply(text, &[Edit::Set { path: path.clone(), value }]).unwrap();
        let taken = set(&text, id(other));
        let back = set(&taken, id(one));
        assert_eq!(tree(&back).map(|(tree, _)| tree), Some(plain.clone()), "seed {seed}\n{taken}");
    }
}

/// Texts with slips in them, cut short, of anything at all: changed and then still TOML, or refused with a
/// place that is in the text.
#[test]
fn hostile_texts_are_changed_or_refused() {
    let pieces = [
        "[",
        "]",
        "[[",
        "]]",
        "{",
        "}",
        "=",
        ",",
        "\"",
        "'",
        "'''",
        "#",
        "\n",
        "\r\n",
        ".",
        "wheel",
        "belt",
        "teeth",
        "at_mm",
        "mark",
        "id",
        "1",
        "1e999",
        "nan",
        "0x",
        "true",
        "2026-01-01",
        "é",
        "\u{0}",
        " ",
        "\u{feff}",
        "engine",
        "camshaft",
        "intake",
    ];
    let (mut changed, mut refused, mut no_toml) = (0, 0, 0);
    for seed in 0..4 * SEEDS {
        let (mut rng, text) = drawn(seed % SEEDS);
        rng.seed(seed);
        let (plain, _) = tree(&text).unwrap();
        let hostile = match seed % 4 {
            0 => slipped(&mut rng, &text, &text),
            1 => {
                let cut = rng.usize(..text.len());
                let cut = (cut..).find(|at| text.is_char_boundary(*at)).unwrap();
                text[..cut].to_owned()
            }
            2 => {
                let soup: String = (0..9).map(|_| pieces[rng.usize(..pieces.len())]).collect();
                let at = (rng.usize(..text.len())..).find(|at| text.is_char_boundary(*at)).unwrap();
                format!("{}{soup}{}", &text[..at], &text[at..])
            }
            _ => (0..rng.usize(..60)).map(|_| pieces[rng.usize(..pieces.len())]).collect(),
        };
        for _ in 0..10 {
            match apply(&hostile, &[any(&mut rng, &plain)]) {
                Ok(after) => {
                    changed += 1;
                    let parsed = toml::de::DeTable::parse(after.trim_start_matches('\u{feff}'));
                    assert!(parsed.is_ok(), "seed {seed}\n{hostile}\n=>\n{after}");
                }
                Err(EditRefused::NotToml(place)) => {
                    no_toml += 1;
                    assert!(place.from_byte <= place.to_byte && place.to_byte <= hostile.len());
                    assert!(place.line >= 1 && place.column >= 1);
                }
                Err(EditRefused::NoSuchKey(_) | EditRefused::NothingThere(_)) => refused += 1,
            }
        }
    }
    println!("{changed} changed, {refused} refused, {no_toml} no TOML");
    assert!(changed > 1000 && refused > 100 && no_toml > 1000, "{changed} {refused} {no_toml}");
}
