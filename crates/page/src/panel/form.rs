//! A layout's text as rows of fields, worded, with the problems of each at it.
//!
//! Must not know: what a key means, or how a field looks.

use crate::draft::ProblemLine;
use layout::{Content, Key, Kind, Row, empty_rows, text_in};
use serde::Serialize;
use tsify::Tsify;
use words::{
    Reader, choice_meaning, choice_name, field_meaning, field_name, field_optional, figure_names,
    one_more, typed,
};

/// What a row is filled in with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum FieldKind {
    /// A line of text.
    Text,
    /// Some lines of text.
    LongText,
    /// One of some words.
    Choice,
    /// Yes or no.
    Flag,
    /// One figure.
    Number,
    /// Two figures.
    Two,
    /// Figures one after the other.
    List,
    /// Rows of its own, or none.
    Table,
    /// A list of tables, each with rows of its own.
    Tables,
}

/// One row of the form.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct FormRow {
    /// Its key's path.
    pub path: String,
    /// Its name.
    pub name: String,
    /// What it means, and what the word means that stands there.
    pub meaning: String,
    /// What it is filled in with.
    pub kind: FieldKind,
    /// Whether it must be filled in.
    pub needed: bool,
    /// Beside its name, where it need not be.
    pub optional: String,
    /// Whether there is anything.
    pub there: bool,
    /// What stands there, one text a figure.
    pub texts: Vec<String>,
    /// What each of its figures is, where there are two.
    pub figures: Vec<String>,
    /// The unit of its figures.
    pub unit: String,
    /// The words that it can be, each with how people say it.
    pub choices: Vec<FormChoice>,
    /// The rows of its table.
    pub rows: Vec<FormRow>,
    /// The entries of its list.
    pub entries: Vec<FormEntry>,
    /// Whether one more entry may be added.
    pub more: bool,
    /// What adding one is called.
    pub one_more: String,
    /// What is wrong there.
    pub problems: Vec<String>,
}

/// A word that may stand in a row.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct FormChoice {
    /// As the file has it.
    pub word: String,
    /// As people say it.
    pub name: String,
}

/// An entry of a list of tables.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct FormEntry {
    /// Its path.
    pub path: String,
    /// What it is called.
    pub name: String,
    /// The wheel that it is, by id.
    pub wheel: Option<String>,
    /// Its rows.
    pub rows: Vec<FormRow>,
    /// What is wrong with it as a whole.
    pub problems: Vec<String>,
}

/// What came of filling in a field.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct Filled {
    /// Whether it can stand there.
    pub done: bool,
    /// How it was understood, or why not; empty where there is nothing to say.
    pub text: String,
}

/// What a form is made with.
pub struct Form<'f> {
    /// The reader.
    pub reader: Reader,
    /// All problems of the text.
    pub problems: &'f [ProblemLine],
    /// Ids and names of the wheels, for what names one.
    pub wheels: Vec<FormChoice>,
}

impl Form<'_> {
    /// The rows as the page shows them; `above` is the name of the table that they stand in.
    pub fn rows(&self, rows: &[Row], above: &str) -> Vec<FormRow> {
        // Where only one figure is allowed there is nothing to fill in.
        let fixed = |key: &Key| matches!(key.kind, Kind::Whole(b) if b.least == b.most);
        let open = rows.iter().filter(|row| !fixed(row.key) || row.content == Content::Nothing);
        open.map(|row| self.row(row, above)).collect()
    }

    fn row(&self, row: &Row, above: &str) -> FormRow {
        let (key, lang) = (row.key, self.reader.lang);
        let kind = kind(key);
        let (mut texts, mut rows, mut entries) = (Vec::new(), Vec::new(), Vec::new());
        let mut there = true;
        match &row.content {
            Content::Nothing => {
                there = false;
                // What is filled in below makes the table.
                if let Kind::Table(keys) = key.kind {
                    rows = self.rows(&empty_rows(keys, &row.path), key.name);
                    rows.iter_mut().for_each(|row| row.needed = false);
                }
            }
            Content::Value(value) => texts = typed::fields(self.reader, key, value),
            Content::Other(written) => texts = vec![written.clone()],
            Content::Table(inner) => rows = self.rows(inner, key.name),
            Content::Tables(tables) => {
                let each = |(i, rows): (usize, &Vec<Row>)| {
                    self.entry(key, &format!("{}[{i}]", row.path), rows)
                };
                entries = tables.iter().enumerate().map(each).collect();
            }
        }
        let most = if let Kind::Tables { most, .. } = key.kind { most } else { 0 };
        FormRow {
            path: row.path.clone(),
            name: field_name(lang, above, key).to_owned(),
            meaning: self.meaning(row, above),
            kind,
            needed: row.needed,
            optional: field_optional(lang, above, key).to_owned(),
            there,
            texts,
            figures: figure_names(lang, key).into_iter().flatten().map(str::to_owned).collect(),
            unit: typed::unit_of(self.reader, key).to_owned(),
            choices: self.choices(key),
            rows,
            more: entries.len() < most,
            one_more: one_more(lang, key).to_owned(),
            entries,
            problems: self.problems_at(&row.path, kind),
        }
    }

    fn entry(&self, key: &'static Key, path: &str, rows: &[Row]) -> FormEntry {
        let said = |name: &str| text_in(rows, name);
        let wheel = if key.name == "wheel" { said("id").map(str::to_owned) } else { None };
        let named = |id| {
            let name = self.wheels.iter().find(|wheel| wheel.word == id);
            name.map_or(id, |wheel| wheel.name.as_str())
        };
        let name = ["name", "id", "part", "label", "text"].into_iter().find_map(said);
        let name = name.map(|name| words::written(self.reader.lang, name).to_owned());
        let between = || Some(format!("{} – {}", named(said("from")?), named(said("to")?)));
        let name = name.or_else(between).or_else(|| said("wheel").map(|id| named(id).to_owned()));
        FormEntry {
            path: path.to_owned(),
            name: name.unwrap_or_default(),
            wheel,
            rows: self.rows(rows, key.name),
            problems: self.exactly_at(path),
        }
    }

    fn meaning(&self, row: &Row, above: &str) -> String {
        let lang = self.reader.lang;
        let of_key = field_meaning(lang, above, row.key);
        let word = match &row.content {
            Content::Value(layout::Value::Text(word)) => choice_meaning(lang, row.key, word),
            _ => None,
        };
        word.map_or_else(|| of_key.to_owned(), |of_word| format!("{of_key} {of_word}"))
    }

    fn choices(&self, key: &'static Key) -> Vec<FormChoice> {
        match key.kind {
            Kind::Choice(words) => {
                let choice = |word: &&'static str| FormChoice {
                    word: (*word).to_owned(),
                    name: choice_name(self.reader.lang, key, word).to_owned(),
                };
                words.iter().map(choice).collect()
            }
            Kind::WheelId => self.wheels.clone(),
            _ => Vec::new(),
        }
    }

    /// A problem of one entry of a list of figures is told at the list.
    fn problems_at(&self, path: &str, kind: FieldKind) -> Vec<String> {
        match kind {
            FieldKind::Table | FieldKind::Tables => self.exactly_at(path),
            _ => {
                let below = format!("{path}[");
                let here = |p: &&ProblemLine| p.key == path || p.key.starts_with(&below);
                self.problems.iter().filter(here).map(|p| p.text.clone()).collect()
            }
        }
    }

    fn exactly_at(&self, path: &str) -> Vec<String> {
        let here = |p: &&ProblemLine| p.key == path;
        self.problems.iter().filter(here).map(|p| p.text.clone()).collect()
    }
}

fn kind(key: &Key) -> FieldKind {
    match key.kind {
        Kind::Text { longest } if longest > 200 => FieldKind::LongText,
        Kind::Text { .. } | Kind::Id => FieldKind::Text,
        Kind::Choice(_) | Kind::WheelId => FieldKind::Choice,
        Kind::Flag => FieldKind::Flag,
        Kind::Whole(_) | Kind::Number(_) => FieldKind::Number,
        Kind::Point(_) | Kind::Pair(_) => FieldKind::Two,
        Kind::List { .. } => FieldKind::List,
        Kind::Table(_) => FieldKind::Table,
        Kind::Tables { .. } => FieldKind::Tables,
    }
}
