//! The schema against a validator of another hand: every good layout passes, broken ones do not, at
//! the very bounds too.
//!
//! Must not know how the schema is made.

use super::*;
use crate::sample::{SLIDE, all_kinds};
use jsonschema::Validator;
use serde_json::Value;
use std::path::Path;
use toml::de::{DeTable, DeValue};

const WRITTEN: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../layouts/layout.schema.json");

fn validator() -> Validator {
    let schema: Value = serde_json::from_str(&schema()).unwrap();
    jsonschema::draft202012::meta::validate(&schema).unwrap();
    jsonschema::draft202012::new(&schema).unwrap()
}

/// A layout file as JSON has it.
fn json(text: &str) -> Value {
    let document = DeTable::parse(text).unwrap();
    table(document.get_ref())
}

fn table(table: &DeTable<'_>) -> Value {
    let entries = table.iter().map(|(key, at)| (key.get_ref().to_string(), value(at.get_ref())));
    Value::Object(entries.collect())
}

fn value(found: &DeValue<'_>) -> Value {
    match found {
        DeValue::String(text) => text.as_ref().into(),
        DeValue::Integer(whole) => {
            i64::from_str_radix(whole.as_str(), whole.radix()).unwrap().into()
        }
        DeValue::Float(float) => float.as_str().parse::<f64>().unwrap().into(),
        DeValue::Boolean(flag) => (*flag).into(),
        DeValue::Datetime(date) => date.to_string().into(),
        DeValue::Array(list) => list.iter().map(|entry| value(entry.get_ref())).collect(),
        DeValue::Table(inner) => table(inner),
    }
}

#[test]
fn the_written_schema_is_that_of_the_table() {
    let written = std::fs::read_to_string(WRITTEN).unwrap_or_default();
    let same = written.replace('\r', "") == schema();
    assert!(same, "layouts/layout.schema.json is not current: `cargo xtask schema` writes it");
}

#[test]
fn every_good_layout_passes() {
    let validator = validator();
    for text in all_kinds() {
        validator.validate(&json(&text)).unwrap();
    }
    let mut shipped = 0;
    for entry in std::fs::read_dir(Path::new(WRITTEN).parent().unwrap()).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|end| end == "toml") {
            let text = std::fs::read_to_string(&path).unwrap();
            let document = json(&text);
            let passes = validator.validate(&document);
            assert!(passes.is_ok(), "{}: {passes:?}", path.display());
            shipped += 1;
        }
    }
    assert!(shipped > 0);
}

#[test]
fn broken_layouts_do_not_pass() {
    let validator = validator();
    let [_, arm, eccentric, sprung] = all_kinds();
    let broken = [
        (SLIDE, "format = 1", "format = 2"),
        (SLIDE, "title = \"Six in a vee\"\n", ""),
        (SLIDE, "title = \"Six in a vee\"", "titel = \"Six in a vee\""),
        (SLIDE, "title = \"Six in a vee\"", "title = \"\""),
        (SLIDE, "crank_turns = \"clockwise\"", "crank_turns = \"right\""),
        (SLIDE, "teeth = 167", "teeth = 19"),
        (SLIDE, "teeth = 167", "teeth = 167.5"),
        (SLIDE, "teeth = 167", "teeth = \"167\""),
        (SLIDE, "pitch_mm = 9.525", "pitch_mm = 95"),
        (SLIDE, "[0.0, 0.0]", "[0.0]"),
        (SLIDE, "[0.0, 0.0]", "[0.0, 2001]"),
        (SLIDE, "id = \"pump\"", "id = \"Pump\""),
        (SLIDE, "role = \"water_pump\"", "role = \"pump\""),
        (SLIDE, "on = \"tooth\"", "on = \"tooth\", colour = \"red\""),
        (SLIDE, ", locks = true", ""),
        (SLIDE, "direction_arrow = true", "direction_arrow = 1"),
        (SLIDE, "cylinders = [1, 3, 5]", "cylinders = []"),
        (SLIDE, "cylinders = [1, 3, 5]", "cylinders = [1, 3.5]"),
        // Keys that go with the word of a neighbour.
        (SLIDE, "fixing = \"slotted\"\n", ""),
        (SLIDE, "fixing = \"slotted\"", "fixing = \"keyed\""),
        (SLIDE, "slot_deg = [-5.0, 5.0]\n", ""),
        (SLIDE, "force_n = 350.0", ""),
        (SLIDE, "force_n = 350.0", "force_n = 350.0\nmoment_n_m = 3"),
        (SLIDE, "kind = \"slide\"\n", ""),
        (SLIDE, "kind = \"slide\"", "kind = \"arm\""),
        (&arm, "pinned_deg = 2\n", ""),
        (&eccentric, "set_deg = 40\n", ""),
        (&eccentric, "set_deg = 40", "set_deg = 40\nmoment_n_m = 3"),
        (&sprung, "moment_n_m = 15\n", ""),
    ];
    for (text, from, to) in broken {
        assert!(text.contains(from), "{from}");
        let text = text.replacen(from, to, 1);
        assert!(!validator.is_valid(&json(&text)), "{from} → {to}");
        assert!(crate::read(&text).is_err(), "{from} → {to}");
    }
    let wheel = "[[wheel]]\nid = \"x\"\nrole = \"idler\"\nface = \"back\"\nat_mm = [0, 0]\n";
    let crowd = SLIDE.replace("[tensioner]", &(wheel.repeat(60) + "[tensioner]"));
    assert!(!validator.is_valid(&json(&crowd)));
}

#[test]
fn what_may_be_left_out_may_be_left_out() {
    let validator = validator();
    let [.., sprung] = all_kinds();
    for (text, from, to) in [
        (sprung.as_str(), "set_deg = 40\n", ""),
        (SLIDE, "slot_deg = [-5.0, 5.0]\n", "fixing = \"keyed\"\n"),
        (SLIDE, "name = \"Crankshaft sprocket\"\n", ""),
    ] {
        let text = match from.starts_with("slot") {
            true => text.replacen("fixing = \"slotted\"\n", "", 1).replacen(from, to, 1),
            false => text.replacen(from, to, 1),
        };
        validator.validate(&json(&text)).unwrap();
        crate::read(&text).unwrap();
    }
}

#[test]
fn ids_are_as_long_as_the_reader_takes_them() {
    let validator = validator();
    for (length, good) in [(40, true), (41, false)] {
        let text = SLIDE.replace("\"pump\"", &format!("\"{}\"", "p".repeat(length)));
        assert_eq!(validator.is_valid(&json(&text)), good);
        assert_eq!(crate::read(&text).is_ok(), good);
    }
}
