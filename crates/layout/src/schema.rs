//! The table of keys as a JSON Schema (draft 2020-12), so that an editor completes and checks a layout
//! while it is typed.
//!
//! Must not know any key by name. What goes across keys (`rules`) and across wheels (the drive) a
//! schema cannot say: a file that it lets through may still have problems, one that it does not is wrong.

mod json;

use crate::key::{Bounds, Key, Kind, Presence};
use crate::keys::LAYOUT;
use json::{Json, object, text, words};

/// What an id looks like, as `walk` has it, and the most characters of one.
const ID_PATTERN: &str = "^[a-z][a-z0-9_]*$";
const LONGEST_ID: usize = 40;

/// The schema of the layout file as JSON text, the same for every run.
///
/// ```
/// let schema = layout::schema();
/// assert!(schema.contains("\"pitch_line_differential_mm\"") && schema.ends_with("}\n"));
/// ```
pub fn schema() -> String {
    let mut entries = vec![
        ("$schema", text("https://json-schema.org/draft/2020-12/schema")),
        ("title", text("Layout of a timing belt drive")),
    ];
    entries.extend(table(LAYOUT));
    object(entries).pretty()
}

/// What a table with these keys must be.
fn table(keys: &'static [Key]) -> Vec<(&'static str, Json)> {
    let required = keys.iter().filter(|key| key.presence == Presence::Required);
    let properties = keys.iter().map(|key| (key.name, property(key))).collect();
    let mut entries = vec![
        ("type", text("object")),
        ("required", words(required.map(|key| key.name))),
        ("properties", Json::Object(properties)),
        ("additionalProperties", Json::Flag(false)),
    ];
    let conditions = conditions(keys);
    if !conditions.is_empty() {
        entries.push(("allOf", Json::List(conditions)));
    }
    entries
}

/// For each word of each key that decides about its neighbours: which of them must be there with it,
/// and which must not.
fn conditions(keys: &'static [Key]) -> Vec<Json> {
    let mut conditions = Vec::new();
    for decider in keys {
        let Kind::Choice(choices) = decider.kind else { continue };
        let hanging: Vec<&Key> = keys.iter().filter(|key| hangs_on(key, decider.name)).collect();
        if hanging.is_empty() {
            continue;
        }
        for word in choices {
            let is = object(vec![
                ("properties", object(vec![(decider.name, object(vec![("const", text(word))]))])),
                ("required", words([decider.name])),
            ]);
            conditions.extend(condition(is, &hanging, Some(word)));
        }
        if decider.presence != Presence::Required {
            let absent = object(vec![("not", object(vec![("required", words([decider.name]))]))]);
            conditions.extend(condition(absent, &hanging, None));
        }
    }
    conditions
}

fn condition(when: Json, hanging: &[&'static Key], word: Option<&str>) -> Option<Json> {
    let must = hanging.iter().filter(|key| allowance(key, word) == Allowance::Must);
    let must: Vec<&str> = must.map(|key| key.name).collect();
    let never = hanging.iter().filter(|key| allowance(key, word) == Allowance::Never);
    let never: Vec<_> = never.map(|key| (key.name, Json::Flag(false))).collect();
    let mut then = Vec::new();
    if !must.is_empty() {
        then.push(("required", words(must)));
    }
    if !never.is_empty() {
        then.push(("properties", Json::Object(never)));
    }
    (!then.is_empty()).then(|| object(vec![("if", when), ("then", object(then))]))
}

fn hangs_on(key: &Key, decider: &str) -> bool {
    matches!(key.presence, Presence::When { key, .. } if key == decider)
}

#[derive(PartialEq)]
enum Allowance {
    Must,
    May,
    Never,
}

/// Whether a key goes with this word of the key that decides about it; `None`: with no word.
fn allowance(key: &Key, word: Option<&str>) -> Allowance {
    let Presence::When { required, optional, .. } = key.presence else { return Allowance::May };
    let among = |words: &[&str]| word.is_some_and(|word| words.contains(&word));
    match (among(required), among(optional)) {
        (true, _) => Allowance::Must,
        (false, true) => Allowance::May,
        (false, false) => Allowance::Never,
    }
}

/// What may stand behind one key, and what it is.
fn property(key: &'static Key) -> Json {
    let mut entries = vec![("description", text(key.about))];
    entries.extend(kind(key.kind));
    object(entries)
}

fn kind(kind: Kind) -> Vec<(&'static str, Json)> {
    match kind {
        Kind::Text { longest } => {
            vec![("type", text("string")), ("minLength", count(1)), ("maxLength", count(longest))]
        }
        Kind::Id | Kind::WheelId => vec![
            ("type", text("string")),
            ("pattern", text(ID_PATTERN)),
            ("maxLength", count(LONGEST_ID)),
        ],
        Kind::Choice(choices) => vec![("enum", words(choices.iter().copied()))],
        Kind::Whole(bounds) => number(bounds, true),
        Kind::Number(bounds) => number(bounds, false),
        Kind::Point(each) | Kind::Pair(each) => list(number(each, false), 2, 2),
        Kind::List { each, whole, fewest, most } => list(number(each, whole), fewest, most),
        Kind::Flag => vec![("type", text("boolean"))],
        Kind::Table(keys) => table(keys),
        Kind::Tables { keys, fewest, most } => list(table(keys), fewest, most),
    }
}

fn number(bounds: Bounds, whole: bool) -> Vec<(&'static str, Json)> {
    vec![
        ("type", text(if whole { "integer" } else { "number" })),
        ("minimum", Json::Number(bounds.least)),
        ("maximum", Json::Number(bounds.most)),
    ]
}

fn list(each: Vec<(&'static str, Json)>, fewest: usize, most: usize) -> Vec<(&'static str, Json)> {
    vec![
        ("type", text("array")),
        ("minItems", count(fewest)),
        ("maxItems", count(most)),
        ("items", object(each)),
    ]
}

fn count(n: usize) -> Json {
    Json::Number(n as f64)
}

#[cfg(test)]
mod tests;
