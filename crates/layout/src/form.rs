//! A layout's text as rows to fill in: every key that may stand in it, with what stands there now. Made from
//! the table of keys, so that a form can neither miss one nor invent one.
//!
//! Must not know: what a row looks like or how it is worded, nor whether a value is right: problems carry the
//! same paths.

use crate::edit::Value;
use crate::key::{Key, Kind, Presence};
use crate::keys::LAYOUT;
use toml_edit::{Document, Item, TableLike};

/// One row.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its key.
    pub key: &'static Key,
    /// The key's path, as problems and edits name it.
    pub path: String,
    /// Whether the key must be there as the file stands.
    pub needed: bool,
    /// What stands there.
    pub content: Content,
}

/// What stands in a row.
#[derive(Clone, Debug, PartialEq)]
pub enum Content {
    /// Nothing yet, where a value or a table may stand.
    Nothing,
    /// A value of a kind that the key can hold.
    Value(Value),
    /// Something else, as it is written.
    Other(String),
    /// A table: its rows.
    Table(Vec<Row>),
    /// A list of tables: the rows of each.
    Tables(Vec<Vec<Row>>),
}

/// The rows of a layout file; `None` if its text is no TOML.
pub fn form(text: &str) -> Option<Vec<Row>> {
    let document: Document<&str> = Document::parse(text).ok()?;
    Some(rows(document.as_table(), LAYOUT, ""))
}

/// The rows of a new table of `keys` that would stand at `path`, nothing in it yet.
pub fn empty_rows(keys: &'static [Key], path: &str) -> Vec<Row> {
    rows(&toml_edit::Table::new(), keys, path)
}

/// The value that stands at `path` in these rows; `None` where none does.
pub fn value_at<'r>(rows: &'r [Row], path: &str) -> Option<&'r Value> {
    rows.iter().filter(|row| path.starts_with(&row.path)).find_map(|row| match &row.content {
        Content::Value(value) if row.path == path => Some(value),
        Content::Table(rows) => value_at(rows, path),
        Content::Tables(tables) => tables.iter().find_map(|rows| value_at(rows, path)),
        Content::Value(_) | Content::Nothing | Content::Other(_) => None,
    })
}

/// The text that stands in the row of the key `name`; `None` where none does.
pub fn text_in<'r>(rows: &'r [Row], name: &str) -> Option<&'r str> {
    match &rows.iter().find(|row| row.key.name == name)?.content {
        Content::Value(Value::Text(text)) => Some(text),
        _ => None,
    }
}

/// The rows of each entry of the list of tables at `path`; none where there is no such list.
pub fn entries_at<'r>(rows: &'r [Row], path: &str) -> &'r [Vec<Row>] {
    let row = rows.iter().find(|row| {
        path.strip_prefix(&row.path).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
    });
    match row.map(|row| (&row.content, row.path == path)) {
        Some((Content::Tables(entries), true)) => entries,
        Some((Content::Table(inner), false)) => entries_at(inner, path),
        _ => &[],
    }
}

fn rows(table: &dyn TableLike, keys: &'static [Key], above: &str) -> Vec<Row> {
    let path = |key: &Key| match above {
        "" => key.name.to_owned(),
        above => format!("{above}.{}", key.name),
    };
    let row = |key: &'static Key| {
        let (needed, allowed) = wanted(key, table);
        let item = table.get(key.name);
        if !allowed && item.is_none() {
            return None;
        }
        let path = path(key);
        let content = item.map_or_else(|| empty(key), |item| content(item, key, &path));
        Some(Row { key, path, needed, content })
    };
    keys.iter().filter_map(row).collect()
}

/// Whether a key must be in this table, and whether it may.
fn wanted(key: &Key, table: &dyn TableLike) -> (bool, bool) {
    match key.presence {
        Presence::Required => (true, true),
        Presence::Optional => (false, true),
        Presence::When { key, required, optional } => {
            let word = table.get(key).and_then(|item| item.as_str()).unwrap_or("");
            (required.contains(&word), required.contains(&word) || optional.contains(&word))
        }
    }
}

fn empty(key: &Key) -> Content {
    match key.kind {
        Kind::Tables { .. } => Content::Tables(Vec::new()),
        _ => Content::Nothing,
    }
}

fn content(item: &Item, key: &'static Key, path: &str) -> Content {
    let other = || Content::Other(item.to_string().trim().to_owned());
    match key.kind {
        Kind::Table(keys) => match item.as_table_like() {
            Some(table) => Content::Table(rows(table, keys, path)),
            None => other(),
        },
        Kind::Tables { keys, .. } => {
            let at = |i: usize| format!("{path}[{i}]");
            let each = |(i, table): (usize, &dyn TableLike)| rows(table, keys, &at(i));
            match (item.as_array_of_tables(), item.as_array()) {
                (Some(tables), _) => {
                    let tables = tables.iter().map(|table| table as &dyn TableLike);
                    Content::Tables(tables.enumerate().map(each).collect())
                }
                (_, Some(array)) => {
                    let table = |value: &'_ toml_edit::Value| value.as_inline_table().is_some();
                    if !array.iter().all(table) {
                        return other();
                    }
                    let tables = array.iter().filter_map(|value| value.as_inline_table());
                    let tables = tables.map(|table| table as &dyn TableLike);
                    Content::Tables(tables.enumerate().map(each).collect())
                }
                _ => other(),
            }
        }
        _ => value(item, key).map_or_else(other, Content::Value),
    }
}

fn value(item: &Item, key: &Key) -> Option<Value> {
    let number = |value: &toml_edit::Value| {
        value.as_float().or_else(|| value.as_integer().map(|whole| whole as f64))
    };
    match key.kind {
        Kind::Text { .. } | Kind::Id | Kind::WheelId | Kind::Choice(_) => {
            item.as_str().map(|text| Value::Text(text.to_owned()))
        }
        Kind::Whole(_) | Kind::Number(_) => item.as_value().and_then(number).map(Value::Number),
        Kind::Point(_) | Kind::Pair(_) | Kind::List { .. } => {
            item.as_array()?.iter().map(number).collect::<Option<Vec<f64>>>().map(Value::Numbers)
        }
        Kind::Flag => item.as_bool().map(Value::Flag),
        Kind::Table(_) | Kind::Tables { .. } => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Edit, apply, key_at, sample};

    fn walk<'r>(rows: &'r [Row], each: &mut impl FnMut(&'r Row)) {
        for row in rows {
            each(row);
            match &row.content {
                Content::Table(rows) => walk(rows, each),
                Content::Tables(tables) => tables.iter().for_each(|rows| walk(rows, each)),
                _ => {}
            }
        }
    }

    /// What a form shows, put back, changes nothing: it shows what the file says, all of it.
    #[test]
    fn rows_say_what_the_file_says() {
        for text in &sample::all_kinds() {
            let rows = form(text).unwrap();
            let mut values = 0;
            walk(&rows, &mut |row| {
                assert_eq!(key_at(LAYOUT, &row.path), Some(row.key), "{}", row.path);
                match &row.content {
                    Content::Value(value) => {
                        values += 1;
                        assert_eq!(value_at(&rows, &row.path), Some(value));
                        let edit = Edit::Set { path: row.path.clone(), value: value.clone() };
                        assert_eq!(apply(text, &[edit]).unwrap(), *text, "{}", row.path);
                        let edit = Edit::Remove { path: row.path.clone() };
                        assert_ne!(apply(text, &[edit]).unwrap(), *text, "{}", row.path);
                    }
                    Content::Other(written) => panic!("{}: {written}", row.path),
                    _ => {}
                }
            });
            let table: toml_edit::DocumentMut = text.parse().unwrap();
            assert_eq!(values, leaves(table.as_item()));
        }
    }

    /// How many values a document has, tables and lists of tables not counted.
    fn leaves(item: &Item) -> usize {
        if let Some(table) = item.as_table_like() {
            return table.iter().map(|(_, item)| leaves(item)).sum();
        }
        if let Some(tables) = item.as_array_of_tables() {
            return tables.iter().flat_map(|t| t.iter()).map(|(_, item)| leaves(item)).sum();
        }
        let inline = |value: &toml_edit::Value| {
            value.as_inline_table().map(|_| leaves(&Item::Value(value.clone())))
        };
        match item.as_array() {
            Some(array) if array.iter().any(|value| inline(value).is_some()) => {
                array.iter().filter_map(inline).sum()
            }
            _ => 1,
        }
    }

    #[test]
    fn texts_and_entries_are_found_by_name_and_path() {
        let rows = form(sample::SLIDE).unwrap();
        assert_eq!(text_in(&rows, "crank_turns"), Some("clockwise"));
        assert_eq!((text_in(&rows, "format"), text_in(&rows, "titel")), (None, None));
        let wheels = entries_at(&rows, "wheel");
        let ids: Vec<_> = wheels.iter().map(|wheel| text_in(wheel, "id")).collect();
        let read = crate::read(sample::SLIDE).unwrap();
        assert_eq!(ids, read.wheels.iter().map(|w| Some(w.id.as_str())).collect::<Vec<_>>());
        let camshafts = read.engine.unwrap().camshafts.len();
        assert_eq!(entries_at(&rows, "engine.camshaft").len(), camshafts);
        for none in ["whee", "wheels", "belt", "engine", "belt.teeth", "engine.camshaf"] {
            assert!(entries_at(&rows, none).is_empty(), "{none}");
        }
    }

    #[test]
    fn a_text_on_the_way_has_its_rows_too() {
        assert_eq!(form("format = "), None);
        let rows = form("format = \"one\"\n[tensioner]\nkind = \"arm\"\n").unwrap();
        let find = |path: &str| {
            let mut found = None;
            walk(&rows, &mut |row| {
                if row.path == path {
                    found = Some(row);
                }
            });
            found
        };
        assert_eq!(find("format").unwrap().content, Content::Other("\"one\"".into()));
        assert!(find("title").unwrap().needed);
        assert_eq!(find("belt").unwrap().content, Content::Nothing);
        assert_eq!(find("wheel").unwrap().content, Content::Tables(Vec::new()));
        assert!(find("tensioner.pivot_mm").is_some_and(|row| row.needed));
        assert!(find("tensioner.bolt_mm").is_none(), "not with an arm");
    }
}
