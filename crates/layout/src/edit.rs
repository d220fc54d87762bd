//! Changes to a layout's text, key by key, that leave comments, order and spacing of everything else as
//! they are.
//!
//! Must not know: whether what comes of it is a sound layout. That is for reading to tell.

mod bytes;
mod list;
mod put;
mod refer;
mod steps;

use crate::key::{Key, Kind, Presence, key_at};
use crate::keys::LAYOUT;
use crate::place::{Lines, Place};
use steps::{Step, parent, steps};
use toml_edit::{DocumentMut, TableLike};

/// What stands behind a key.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Text, a word of a choice, an id.
    Text(String),
    /// A number, whole or not, in the key's own unit.
    Number(f64),
    /// A point, a pair, a list.
    Numbers(Vec<f64>),
    /// Yes or no.
    Flag(bool),
}

/// One change. Paths are those of [`crate::Problem::key`]: `belt.teeth`, `wheel[3].mark.on`,
/// `engine.camshaft[0].intake.lift_mm`.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Puts a value behind a key, which is added if it is not there, and its table with it. What the
    /// format does not allow beside the new value goes: `outside_diameter_mm` beside `teeth`, a slide's
    /// keys beside `kind = "arm"`. A new id of a wheel is new wherever the file names the wheel, unless
    /// another wheel has the new one or had the old one: what names either goes on meaning the other.
    Set {
        /// Which key.
        path: String,
        /// What stands behind it from now on.
        value: Value,
    },
    /// Takes a key, a table or an entry of a list of tables away; a wheel with the counts and the
    /// camshafts that name it.
    Remove {
        /// Which.
        path: String,
    },
    /// Puts a new table into a list of tables.
    Insert {
        /// The list: `wheel`, `count`, `engine.camshaft`.
        list: String,
        /// Before which entry; at or past their number, after the last.
        at: usize,
        /// Its keys, in this order.
        keys: Vec<(&'static str, Value)>,
    },
    /// Puts an entry of a list of tables elsewhere in it.
    Move {
        /// The list.
        list: String,
        /// Which entry.
        from: usize,
        /// Which it is to be.
        to: usize,
    },
}

/// Why a text was not changed.
#[derive(Clone, Debug, PartialEq)]
pub enum EditRefused {
    /// It is no TOML, first here.
    NotToml(Place),
    /// The format has no such key, or it cannot hold this.
    NoSuchKey(String),
    /// The text has no such table.
    NothingThere(String),
}

/// `text` with these changes made one after the other. Everything else in it stays as it is, to the byte.
///
/// # Errors
/// The first change that cannot be made; none is made then.
pub fn apply(text: &str, edits: &[Edit]) -> Result<String, EditRefused> {
    let mut document: DocumentMut = text.parse().map_err(|error: toml_edit::TomlError| {
        let span = error.span().unwrap_or(0..0);
        EditRefused::NotToml(Lines::new(text).place(&span))
    })?;
    let before = document.to_string();
    for edit in edits {
        one(&mut document, edit)?;
    }
    Ok(bytes::spliced(text, &before, &document.to_string()))
}

fn one(document: &mut DocumentMut, edit: &Edit) -> Result<(), EditRefused> {
    match edit {
        Edit::Set { path, value } => set(document, path, value),
        Edit::Remove { path } => remove(document, path),
        Edit::Insert { list, at, keys } => {
            let key = known(list)?;
            let (table, name) = parent(document.as_table_mut(), list, true)?;
            list::insert(table, name, *at, &put::table(key, keys)?, list)
        }
        Edit::Move { list, from, to } => {
            known(list)?;
            let (table, name) = parent(document.as_table_mut(), list, false)?;
            list::shift(table, name, *from, *to, list)
        }
    }
}

fn set(document: &mut DocumentMut, path: &str, value: &Value) -> Result<(), EditRefused> {
    let key = known(path)?;
    let value = put::value(key, value).ok_or_else(|| EditRefused::NoSuchKey(path.to_owned()))?;
    if refer::is_wheel_id(path) {
        let (table, _) = parent(document.as_table_mut(), path, false)?;
        let old = table.get(key.name).and_then(|item| item.as_str()).map(str::to_owned);
        if let (Some(old), Some(new)) = (old, value.as_str())
            && refer::wheels_called(document.as_table_mut(), &old) == 1
            && refer::wheels_called(document.as_table_mut(), new) == 0
        {
            refer::rename(document.as_table_mut(), LAYOUT, &old, new);
        }
    }
    let (table, name) = parent(document.as_table_mut(), path, true)?;
    put::put(table, name, value);
    for unwanted in excluded(path, table) {
        table.remove(unwanted);
    }
    Ok(())
}

fn remove(document: &mut DocumentMut, path: &str) -> Result<(), EditRefused> {
    known(path)?;
    let last = steps(path).pop();
    let (table, name) = parent(document.as_table_mut(), path, false)?;
    let Some(Step { at: Some(at), .. }) = last else {
        return match table.remove(name) {
            Some(_) => Ok(()),
            None => Err(EditRefused::NothingThere(path.to_owned())),
        };
    };
    let id = list::remove(table, name, at, path)?;
    if let (Some(id), "wheel") = (id, name) {
        refer::forget(document.as_table_mut(), LAYOUT, &id);
    }
    Ok(())
}

fn known(path: &str) -> Result<&'static Key, EditRefused> {
    key_at(LAYOUT, path).ok_or_else(|| EditRefused::NoSuchKey(path.to_owned()))
}

/// The keys of `table` that cannot stand beside what has just been put at `path`.
fn excluded(path: &str, table: &dyn TableLike) -> Vec<&'static str> {
    let name = path.rsplit('.').next().unwrap_or(path);
    let above = path.strip_suffix(name).and_then(|above| above.strip_suffix('.'));
    let keys = above.and_then(|above| key_at(LAYOUT, above)).map_or(LAYOUT, |key| key.keys());
    let word = |key: &str| table.get(key).and_then(|item| item.as_str());
    let out = |key: &&Key| match key.presence {
        Presence::When { key: on, required, optional } if on == name => {
            word(on).is_some_and(|word| !required.contains(&word) && !optional.contains(&word))
        }
        _ => either(name).contains(&key.name),
    };
    keys.iter().filter(out).map(|key| key.name).collect()
}

/// Keys of which one stands in place of the others.
fn either(name: &str) -> &'static [&'static str] {
    match name {
        "teeth" => &["outside_diameter_mm"],
        "outside_diameter_mm" => &["teeth", "mark"],
        "torque_n_m" => &["torque_lbf_ft", "torque_lbf_in", "stages"],
        "torque_lbf_ft" => &["torque_n_m", "torque_lbf_in", "stages"],
        "torque_lbf_in" => &["torque_n_m", "torque_lbf_ft", "stages"],
        _ => &[],
    }
}

impl Key {
    /// Whether its value is written as a whole number.
    fn is_whole(&self) -> bool {
        matches!(self.kind, Kind::Whole(_) | Kind::List { whole: true, .. })
    }
}

#[cfg(test)]
mod tests;
