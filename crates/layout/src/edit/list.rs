//! Entries of a list of tables: put in, taken out, put elsewhere, in either form in which TOML writes one.
//!
//! Must not know: which lists there are.

use super::EditRefused;
use super::steps::{entries, entry};
use toml_edit::{Array, ArrayOfTables, Item, Table, TableLike, Value};

/// Puts `new` before entry `at` of the list `name` in `table`, which is made if it is not there.
pub(super) fn insert(
    table: &mut dyn TableLike,
    name: &str,
    at: usize,
    new: &Table,
    path: &str,
) -> Result<(), EditRefused> {
    if !table.contains_key(name) {
        // Inside a table in a line only a list in a line can stand; no such list is missing at the top.
        table.insert(name, Item::ArrayOfTables(ArrayOfTables::new()));
    }
    match table.get_mut(name) {
        Some(Item::ArrayOfTables(tables)) => {
            let mut new = new.clone();
            new.decor_mut().set_prefix("\n");
            tables.insert(at.min(tables.len()), new);
            Ok(())
        }
        Some(Item::Value(Value::Array(array))) => {
            array.insert(at.min(array.len()), Value::InlineTable(new.clone().into_inline_table()));
            Ok(())
        }
        _ => Err(EditRefused::NothingThere(path.to_owned())),
    }
}

/// Takes entry `at` out; gives its `id`, if it has one. A list that is left empty goes too.
pub(super) fn remove(
    table: &mut dyn TableLike,
    name: &str,
    at: usize,
    path: &str,
) -> Result<Option<String>, EditRefused> {
    let nothing = || EditRefused::NothingThere(path.to_owned());
    let item = table.get_mut(name).ok_or_else(nothing)?;
    let there = entry(item, at).ok_or_else(nothing)?;
    let id = there.get("id").and_then(|item| item.as_str()).map(str::to_owned);
    match item {
        Item::ArrayOfTables(tables) => {
            tables.remove(at);
        }
        Item::Value(Value::Array(array)) => {
            array.remove(at);
        }
        _ => return Err(nothing()),
    }
    if entries(item) == 0 {
        table.remove(name);
    }
    Ok(id)
}

/// Puts entry `from` where it is entry `to`.
pub(super) fn shift(
    table: &mut dyn TableLike,
    name: &str,
    from: usize,
    to: usize,
    path: &str,
) -> Result<(), EditRefused> {
    let nothing = || EditRefused::NothingThere(path.to_owned());
    let item = table.get_mut(name).ok_or_else(nothing)?;
    if from.max(to) >= entries(item) {
        return Err(nothing());
    }
    match item {
        Item::ArrayOfTables(tables) => shift_tables(tables, from, to),
        Item::Value(Value::Array(array)) => shift_values(array, from, to),
        _ => return Err(nothing()),
    }
    Ok(())
}

/// Each place in the file keeps standing where it was, and takes what comes to stand there, comments and all.
fn shift_tables(tables: &mut ArrayOfTables, from: usize, to: usize) {
    let mut all: Vec<Table> = tables.iter().cloned().collect();
    let moved = all.remove(from);
    all.insert(to, moved);
    // In the order of the list, right behind one another from where the first of them stood.
    let first = tables.iter().filter_map(Table::position).min();
    tables.clear();
    for (i, mut table) in all.into_iter().enumerate() {
        place(&mut table, if i == 0 { first } else { None });
        tables.push(table);
    }
}

fn place(table: &mut Table, position: Option<isize>) {
    table.set_position(position);
    for (_, item) in table.iter_mut() {
        match item {
            Item::Table(below) => place(below, None),
            Item::ArrayOfTables(below) => below.iter_mut().for_each(|each| place(each, None)),
            _ => {}
        }
    }
}

fn shift_values(array: &mut Array, from: usize, to: usize) {
    let decors: Vec<_> = array.iter().map(|value| value.decor().clone()).collect();
    let moved = array.remove(from);
    array.insert_formatted(to, moved);
    for (value, decor) in array.iter_mut().zip(decors) {
        *value.decor_mut() = decor;
    }
}
