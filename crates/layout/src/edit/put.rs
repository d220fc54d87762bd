//! Values put behind keys, as a person would write them.
//!
//! Must not know: where in a document, or what else must change.

use super::{EditRefused, Value};
use crate::key::{Key, Kind};
use toml_edit::{Array, Item, Table, TableLike};

/// The TOML of a value behind `key`; `None` where the key cannot hold its kind.
pub(super) fn value(key: &Key, value: &Value) -> Option<toml_edit::Value> {
    let number = |number: f64| {
        let number = toml_edit::Value::from(number);
        if key.is_whole() { pointless(number) } else { number }
    };
    Some(match (key.kind, value) {
        (Kind::Text { .. } | Kind::Id | Kind::WheelId | Kind::Choice(_), Value::Text(text)) => {
            text.as_str().into()
        }
        (Kind::Whole(_) | Kind::Number(_), Value::Number(n)) if n.is_finite() => number(*n),
        (Kind::Point(_) | Kind::Pair(_) | Kind::List { .. }, Value::Numbers(all))
            if all.iter().all(|n| n.is_finite()) =>
        {
            toml_edit::Value::Array(all.iter().map(|n| number(*n)).collect::<Array>())
        }
        (Kind::Flag, Value::Flag(flag)) => (*flag).into(),
        _ => return None,
    })
}

/// A table with these keys of `list`.
pub(super) fn table(list: &Key, keys: &[(&'static str, Value)]) -> Result<Table, EditRefused> {
    let mut table = Table::new();
    for (name, each) in keys {
        let key = list.keys().iter().find(|key| key.name == *name);
        let value = key.and_then(|key| value(key, each));
        let value = value.ok_or_else(|| EditRefused::NoSuchKey(format!("{}.{name}", list.name)))?;
        table.insert(name, Item::Value(value));
    }
    Ok(table)
}

/// Puts `value` behind `name`, with what stood around the one before; one that says the same already stays
/// as it is written.
pub(super) fn put(table: &mut dyn TableLike, name: &str, value: toml_edit::Value) {
    match table.get_mut(name) {
        Some(Item::Value(old)) => replace(old, value),
        _ => add(table, name, Item::Value(value)),
    }
}

/// Puts `new` in place of `old`, in its style: what says the same stays, a whole number goes on without a
/// point, and of a list only the entries that are others change.
fn replace(old: &mut toml_edit::Value, new: toml_edit::Value) {
    use toml_edit::Value::{Array, Integer};
    if same(old, &new) {
        return;
    }
    let new = match (&mut *old, new) {
        (Array(old), Array(new)) => return replace_entries(old, new),
        (Integer(_), new) => pointless(new),
        (_, new) => new,
    };
    let decor = old.decor().clone();
    *old = new;
    *old.decor_mut() = decor;
}

fn replace_entries(old: &mut Array, new: Array) {
    let is_pointless = !old.is_empty() && old.iter().all(toml_edit::Value::is_integer);
    while old.len() > new.len() {
        old.remove(old.len() - 1);
    }
    for (at, new) in new.into_iter().enumerate() {
        match old.get_mut(at) {
            Some(old) => replace(old, new),
            None => old.push(if is_pointless { pointless(new) } else { new }),
        }
    }
}

/// A whole number without a point; any other value as it is.
fn pointless(value: toml_edit::Value) -> toml_edit::Value {
    match value.as_float() {
        Some(x) if (x as i64) as f64 == x => (x as i64).into(),
        _ => value,
    }
}

/// Adds a key at the end of a table. In a table in a line the space before the brace stays before it; in one
/// of its own that is at most blanks at a line's end.
pub(super) fn add(table: &mut dyn TableLike, name: &str, item: Item) {
    let mut space = None;
    if let Some((_, last)) = table.iter_mut().last()
        && let Some(last) = last.as_value_mut()
        && let Some(suffix) = last.decor().suffix().and_then(|suffix| suffix.as_str())
        && !suffix.is_empty()
        && suffix.trim().is_empty()
    {
        space = Some(suffix.to_owned());
        last.decor_mut().set_suffix("");
    }
    table.insert(name, item);
    if let (Some(space), Some(Item::Value(new))) = (space, table.get_mut(name)) {
        *new.decor_mut() = toml_edit::Decor::new(" ", space);
    }
}

fn same(a: &toml_edit::Value, b: &toml_edit::Value) -> bool {
    use toml_edit::Value::{Array, Boolean, Float, Integer, String};
    let number = |value: &toml_edit::Value| match value {
        Integer(n) => Some(*n.value() as f64),
        Float(n) => Some(*n.value()),
        _ => None,
    };
    match (a, b) {
        // A line's end is one, of either kind.
        (String(a), String(b)) => {
            a.value().replace("\r\n", "\n") == b.value().replace("\r\n", "\n")
        }
        (Boolean(a), Boolean(b)) => a.value() == b.value(),
        (Array(a), Array(b)) => {
            a.len() == b.len() && a.iter().zip(b.iter()).all(|(a, b)| same(a, b))
        }
        (a, b) => number(a).is_some() && number(a) == number(b),
    }
}
