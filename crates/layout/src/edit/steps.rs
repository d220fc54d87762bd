//! The way through a document along the path of a key.
//!
//! Must not know: which keys there are.

use super::EditRefused;
use toml_edit::{InlineTable, Item, Table, TableLike, Value};

/// One step of a path.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step<'p> {
    pub(super) name: &'p str,
    /// Which entry, where the path says.
    pub(super) at: Option<usize>,
}

/// The steps of `path`.
pub(super) fn steps(path: &str) -> Vec<Step<'_>> {
    let step = |part: &'_ str| -> Option<usize> {
        let (_, rest) = part.split_once('[')?;
        rest.strip_suffix(']')?.parse().ok()
    };
    path.split('.')
        .map(|part| Step { name: part.split('[').next().unwrap_or(part), at: step(part) })
        .collect()
}

/// The table in which the last step of `path` stands, and that step's name. With `make`, tables on the way
/// that are not there are made.
pub(super) fn parent<'d, 'p>(
    table: &'d mut dyn TableLike,
    path: &'p str,
    make: bool,
) -> Result<(&'d mut dyn TableLike, &'p str), EditRefused> {
    let mut way = steps(path);
    let last = way.pop().map_or("", |step| step.name);
    let nothing = || EditRefused::NothingThere(path.to_owned());
    let mut table = table;
    for (depth, Step { name, at }) in way.into_iter().enumerate() {
        if make && at.is_none() && !table.contains_key(name) {
            // At the top a table of its own; below, one in the line.
            let new = match depth {
                0 => Item::Table(Table::new()),
                _ => Item::Value(Value::InlineTable(InlineTable::new())),
            };
            super::put::add(table, name, new);
        }
        let item = table.get_mut(name).ok_or_else(nothing)?;
        table = match at {
            None => item.as_table_like_mut(),
            Some(at) => entry(item, at),
        }
        .ok_or_else(nothing)?;
    }
    Ok((table, last))
}

/// Entry `at` of a list of tables, in whichever of its two forms it is written.
pub(super) fn entry(item: &mut Item, at: usize) -> Option<&mut dyn TableLike> {
    match item {
        Item::ArrayOfTables(tables) => tables.get_mut(at).map(|table| table as &mut dyn TableLike),
        Item::Value(Value::Array(array)) => {
            let table = array.get_mut(at)?.as_inline_table_mut()?;
            Some(table as &mut dyn TableLike)
        }
        _ => None,
    }
}

/// How many entries a list of tables has.
pub(super) fn entries(item: &Item) -> usize {
    match item {
        Item::ArrayOfTables(tables) => tables.len(),
        Item::Value(Value::Array(array)) => array.len(),
        _ => 0,
    }
}
