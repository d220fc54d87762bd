//! What a file says once each key has been checked by itself: a tree of plain values, the wrong
//! ones left out but remembered as present.
//!
//! Must not know which keys there are, nor what is right across keys.

use std::ops::Range;

use crate::findings::{Finding, Findings};
use crate::place::{Lines, Places};
use crate::problem::ProblemKind;

/// A table of the file.
#[derive(Default)]
pub(crate) struct Node {
    /// Its header, or the whole of an inline table.
    pub(crate) span: Range<usize>,
    /// Its key path, empty for the top.
    pub(crate) path: String,
    /// The id of the wheel that it belongs to.
    pub(crate) part: Option<String>,
    pub(crate) entries: Vec<Entry>,
}

/// One key of a table that the format knows.
pub(crate) struct Entry {
    pub(crate) name: &'static str,
    /// What stands behind the equals sign; the first header of a list of tables.
    pub(crate) span: Range<usize>,
    pub(crate) content: Content,
}

/// What stands behind a key.
pub(crate) enum Content {
    /// Something wrong, already told.
    Wrong,
    Text(String),
    Number(f64),
    Numbers(Vec<f64>),
    Flag(bool),
    Table(Node),
    Tables(Vec<Node>),
}

impl Node {
    /// The path of one of its keys.
    pub(crate) fn path_of(&self, name: &str) -> String {
        if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) }
    }

    /// Whether the key is there, right or wrong.
    pub(crate) fn has(&self, name: &str) -> bool {
        self.entry(name).is_some()
    }

    pub(crate) fn text(&self, name: &str) -> Option<&str> {
        match self.content(name)? {
            Content::Text(text) => Some(text),
            _ => None,
        }
    }

    pub(crate) fn number(&self, name: &str) -> Option<f64> {
        match self.content(name)? {
            Content::Number(number) => Some(*number),
            _ => None,
        }
    }

    pub(crate) fn numbers(&self, name: &str) -> Option<&[f64]> {
        match self.content(name)? {
            Content::Numbers(numbers) => Some(numbers),
            _ => None,
        }
    }

    /// A point or a pair.
    pub(crate) fn two(&self, name: &str) -> Option<[f64; 2]> {
        self.numbers(name)?.try_into().ok()
    }

    pub(crate) fn flag(&self, name: &str) -> Option<bool> {
        match self.content(name)? {
            Content::Flag(flag) => Some(*flag),
            _ => None,
        }
    }

    pub(crate) fn table(&self, name: &str) -> Option<&Node> {
        match self.content(name)? {
            Content::Table(node) => Some(node),
            _ => None,
        }
    }

    /// The tables of a list; none where it is left out.
    pub(crate) fn tables(&self, name: &str) -> &[Node] {
        match self.content(name) {
            Some(Content::Tables(nodes)) => nodes,
            _ => &[],
        }
    }

    /// A finding about one of its keys, or about the table where the key is not there.
    pub(crate) fn finding(&self, name: &str, kind: ProblemKind) -> Finding {
        Finding { kind, span: self.span_of(name), key: self.path_of(name), part: self.part.clone() }
    }

    /// Adds that finding.
    pub(crate) fn tell(&self, findings: &mut Findings<'_>, name: &str, kind: ProblemKind) {
        findings.add(self.span_of(name), |_| self.finding(name, kind));
    }

    /// Adds that finding, about the wheel `part`.
    pub(crate) fn tell_of(
        &self,
        findings: &mut Findings<'_>,
        name: &str,
        part: &str,
        kind: ProblemKind,
    ) {
        findings.add(self.span_of(name), |_| Finding {
            part: Some(part.to_owned()),
            ..self.finding(name, kind)
        });
    }

    /// The place of every table and key in it, by path.
    pub(crate) fn places(&self, lines: &Lines<'_>) -> Places {
        let mut places = Places::new();
        self.note_places(lines, &mut places);
        places
    }

    fn note_places(&self, lines: &Lines<'_>, places: &mut Places) {
        places.insert(self.path.clone(), lines.place(&self.span));
        for entry in &self.entries {
            places.insert(self.path_of(entry.name), lines.place(&entry.span));
            for node in entry.nodes() {
                node.note_places(lines, places);
            }
        }
    }

    /// The last table whose header begins at or before `offset`.
    pub(crate) fn table_around(&self, offset: usize, text: &str) -> &Node {
        let is_header = |node: &Node| text.as_bytes().get(node.span.start) == Some(&b'[');
        self.entries
            .iter()
            .flat_map(Entry::nodes)
            .flat_map(|node| [node, node.table_around(offset, text)])
            .filter(|node| node.span.start <= offset && is_header(node))
            .max_by_key(|node| node.span.start)
            .unwrap_or(self)
    }

    fn entry(&self, name: &str) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.name == name)
    }

    fn content(&self, name: &str) -> Option<&Content> {
        self.entry(name).map(|entry| &entry.content)
    }

    /// Where the key is, or the table where it is not there.
    pub(crate) fn span_of(&self, name: &str) -> Range<usize> {
        self.entry(name).map_or(self.span.clone(), |entry| entry.span.clone())
    }
}

impl Entry {
    /// The tables directly in it.
    fn nodes(&self) -> &[Node] {
        match &self.content {
            Content::Table(node) => std::slice::from_ref(node),
            Content::Tables(nodes) => nodes,
            _ => &[],
        }
    }
}
