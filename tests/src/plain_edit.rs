//! A layout file as a plain tree of values, and the plain way of changing one: no text, no comments, no order
//! of keys. What a changed text must read as.
//!
//! Must not know: how a text is changed.

use layout::{Edit, Key, Kind, LAYOUT, Presence, Value, key_at};
use std::collections::BTreeMap;
use toml::de::{DeTable, DeValue};

/// A value, a table or a list of tables.
#[derive(Clone, Debug, PartialEq)]
pub enum Tree {
    /// What stands behind a key; a number whichever way it is written.
    Value(Value),
    /// A table.
    Table(Table),
    /// A list of tables.
    Tables(Vec<Table>),
}

/// A table's keys.
pub type Table = BTreeMap<String, Tree>;

/// Without tables that have nothing in them: written with points in their keys, they are not there at all.
pub fn pruned(table: &Table) -> Table {
    let kept = |(name, tree): (&String, &Tree)| {
        let tree = match tree {
            Tree::Table(inner) => Some(pruned(inner)).filter(|t| !t.is_empty()).map(Tree::Table),
            Tree::Tables(all) => Some(Tree::Tables(all.iter().map(pruned).collect())),
            Tree::Value(value) => Some(Tree::Value(value.clone())),
        };
        tree.map(|tree| (name.clone(), tree))
    };
    table.iter().filter_map(kept).collect()
}

/// The tree of a text, and the byte range in which each value stands, by path; `None` if it is no TOML, or
/// holds what no key of a layout can.
pub fn tree(text: &str) -> Option<(Table, BTreeMap<String, core::ops::Range<usize>>)> {
    let document = DeTable::parse(text.strip_prefix('\u{feff}').unwrap_or(text)).ok()?;
    let mut places = BTreeMap::new();
    let tree = table(document.get_ref(), "", &mut places)?;
    if text.starts_with('\u{feff}') {
        places.values_mut().for_each(|place| *place = place.start + 3..place.end + 3);
    }
    Some((tree, places))
}

type Places = BTreeMap<String, core::ops::Range<usize>>;

fn table(table: &DeTable<'_>, above: &str, places: &mut Places) -> Option<Table> {
    let mut tree = Table::new();
    for (name, at) in table.iter() {
        let path = joined(above, name.get_ref());
        let found = match at.get_ref() {
            DeValue::Table(inner) => Tree::Table(self::table(inner, &path, places)?),
            DeValue::Array(list)
                if list.iter().any(|e| matches!(e.get_ref(), DeValue::Table(_))) =>
            {
                let mut tables = Vec::new();
                for (i, entry) in list.iter().enumerate() {
                    let DeValue::Table(inner) = entry.get_ref() else { return None };
                    tables.push(self::table(inner, &format!("{path}[{i}]"), places)?);
                }
                Tree::Tables(tables)
            }
            found => {
                places.insert(path, at.span());
                Tree::Value(value(found)?)
            }
        };
        tree.insert(name.get_ref().to_string(), found);
    }
    Some(tree)
}

fn value(found: &DeValue<'_>) -> Option<Value> {
    Some(match found {
        // A line's end is one, of either kind.
        DeValue::String(text) => Value::Text(text.replace("\r\n", "\n")),
        DeValue::Boolean(flag) => Value::Flag(*flag),
        DeValue::Array(list) => {
            Value::Numbers(list.iter().map(|e| number(e.get_ref())).collect::<Option<_>>()?)
        }
        found => Value::Number(number(found)?),
    })
}

fn number(found: &DeValue<'_>) -> Option<f64> {
    match found {
        DeValue::Integer(whole) => {
            i64::from_str_radix(&whole.as_str().replace('_', ""), whole.radix())
                .ok()
                .map(|n| n as f64)
        }
        DeValue::Float(float) => float.as_str().replace('_', "").parse().ok(),
        _ => None,
    }
}

fn joined(above: &str, name: &str) -> String {
    if above.is_empty() { name.to_owned() } else { format!("{above}.{name}") }
}

/// Makes one change; whether it can be made. A tree to which it cannot is left as it is.
pub fn change(tree: &mut Table, edit: &Edit) -> bool {
    match edit {
        Edit::Set { path, value } => set(tree, path, value),
        Edit::Remove { path } => remove(tree, path),
        Edit::Insert { list, at, keys } => {
            let (above, name) = split(list);
            let new: Table =
                keys.iter().map(|(k, v)| ((*k).to_owned(), Tree::Value(v.clone()))).collect();
            let Some(table) = walk(tree, above, true) else { return false };
            let entry = table.entry(name.to_owned()).or_insert_with(|| Tree::Tables(Vec::new()));
            let Tree::Tables(tables) = entry else { return false };
            tables.insert((*at).min(tables.len()), new);
            true
        }
        Edit::Move { list, from, to } => {
            let (above, name) = split(list);
            let found = walk(tree, above, false).and_then(|table| table.get_mut(name));
            let Some(Tree::Tables(tables)) = found else { return false };
            if *from.max(to) >= tables.len() {
                return false;
            }
            let moved = tables.remove(*from);
            tables.insert(*to, moved);
            true
        }
    }
}

fn set(tree: &mut Table, path: &str, value: &Value) -> bool {
    let (above, name) = split(path);
    if path.starts_with("wheel[") && name == "id" {
        let old = match walk(tree, above, false).and_then(|table| table.get(name)) {
            Some(Tree::Value(Value::Text(old))) => Some(old.clone()),
            _ => None,
        };
        if let (Some(old), Value::Text(new)) = (old, value) {
            let called = |id: &str| ids(tree).iter().filter(|each| *each == id).count();
            if called(&old) == 1 && called(new) == 0 {
                rename(tree, LAYOUT, &old, new);
            }
        }
    }
    let keys = key_at(LAYOUT, above).map_or(LAYOUT, Key::keys);
    let Some(table) = walk(tree, above, true) else { return false };
    table.insert(name.to_owned(), Tree::Value(value.clone()));
    for key in keys {
        let goes = match (key.presence, value) {
            (Presence::When { key, required, optional }, Value::Text(word)) if key == name => {
                !required.contains(&word.as_str()) && !optional.contains(&word.as_str())
            }
            _ => in_place_of(name).contains(&key.name),
        };
        if goes {
            table.remove(key.name);
        }
    }
    true
}

/// What a new value puts out of its table.
fn in_place_of(name: &str) -> &'static [&'static str] {
    match name {
        "teeth" => &["outside_diameter_mm"],
        "outside_diameter_mm" => &["teeth", "mark"],
        "torque_n_m" => &["torque_lbf_ft", "torque_lbf_in", "stages"],
        "torque_lbf_ft" => &["torque_n_m", "torque_lbf_in", "stages"],
        "torque_lbf_in" => &["torque_n_m", "torque_lbf_ft", "stages"],
        _ => &[],
    }
}

fn remove(tree: &mut Table, path: &str) -> bool {
    let (above, name) = split(path);
    let (name, at) = entry(name);
    let Some(at) = at else {
        return walk(tree, above, false).is_some_and(|table| table.remove(name).is_some());
    };
    let Some(table) = walk(tree, above, false) else { return false };
    let Some(Tree::Tables(tables)) = table.get_mut(name) else { return false };
    if at >= tables.len() {
        return false;
    }
    let gone = tables.remove(at);
    if tables.is_empty() {
        table.remove(name);
    }
    if let (true, Some(Tree::Value(Value::Text(id)))) = (name == "wheel", gone.get("id")) {
        forget(tree, LAYOUT, id);
    }
    true
}

fn ids(tree: &Table) -> Vec<String> {
    let Some(Tree::Tables(wheels)) = tree.get("wheel") else { return Vec::new() };
    let id = |wheel: &Table| match wheel.get("id") {
        Some(Tree::Value(Value::Text(id))) => Some(id.clone()),
        _ => None,
    };
    wheels.iter().filter_map(id).collect()
}

fn rename(table: &mut Table, keys: &[Key], old: &str, new: &str) {
    for key in keys {
        match table.get_mut(key.name) {
            Some(Tree::Value(Value::Text(id))) if key.kind == Kind::WheelId && id == old => {
                *id = new.to_owned();
            }
            Some(Tree::Table(inner)) => rename(inner, key.keys(), old, new),
            Some(Tree::Tables(all)) => {
                all.iter_mut().for_each(|inner| rename(inner, key.keys(), old, new));
            }
            _ => {}
        }
    }
}

fn forget(table: &mut Table, keys: &[Key], id: &str) {
    let names = |table: &Table, key: &Key| {
        key.kind == Kind::WheelId
            && table.get(key.name) == Some(&Tree::Value(Value::Text(id.to_owned())))
    };
    for key in keys {
        if names(table, key) && key.presence == Presence::Optional {
            table.remove(key.name);
        }
        match table.get_mut(key.name) {
            Some(Tree::Table(inner)) => forget(inner, key.keys(), id),
            Some(Tree::Tables(all)) => {
                let must = |inner: &Table| {
                    let required = |k: &&Key| k.presence == Presence::Required;
                    key.keys().iter().filter(required).any(|k| names(inner, k))
                };
                all.retain(|inner| !must(inner));
                all.iter_mut().for_each(|inner| forget(inner, key.keys(), id));
                if all.is_empty() {
                    table.remove(key.name);
                }
            }
            _ => {}
        }
    }
}

/// The table at the end of `path`; with `make`, tables that are not there are made.
fn walk<'t>(tree: &'t mut Table, path: &str, make: bool) -> Option<&'t mut Table> {
    let mut table = tree;
    for step in path.split('.').filter(|step| !step.is_empty()) {
        let (name, at) = entry(step);
        if make && at.is_none() && !table.contains_key(name) {
            table.insert(name.to_owned(), Tree::Table(Table::new()));
        }
        table = match (table.get_mut(name)?, at) {
            (Tree::Table(inner), None) => inner,
            (Tree::Tables(all), Some(at)) => all.get_mut(at)?,
            _ => return None,
        };
    }
    Some(table)
}

/// A path without its last step, and that.
fn split(path: &str) -> (&str, &str) {
    path.rsplit_once('.').unwrap_or(("", path))
}

/// The name of a step and which entry it is, if it says so.
fn entry(step: &str) -> (&str, Option<usize>) {
    match step.strip_suffix(']').and_then(|step| step.split_once('[')) {
        Some((name, at)) => (name, at.parse().ok()),
        None => (step, None),
    }
}
