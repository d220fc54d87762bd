//! From a file, or standard input, to a plan; from a directory to its files.
//!
//! Must not know: what a layout holds.

use crate::fault::Fault;
use layout::Plan;
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use words::Lang;
use words::command::{Unreadable, unreadable};

/// Bytes after which reading stops: far more than a layout may have, so that one too long is still
/// told its length, and an endless one ends.
const ENOUGH: u64 = 64 * 1024 * 1024;

/// Why a file gave no plan.
pub enum Closed {
    /// It could not be read.
    Unreadable(Fault),
    /// It could, and has these problems.
    Wrong {
        /// The problems.
        faults: Vec<Fault>,
        /// The file's text; empty where it is none.
        text: String,
    },
}

impl Closed {
    /// All that is to be told of it.
    pub fn faults(self) -> Vec<Fault> {
        match self {
            Self::Unreadable(fault) => vec![fault],
            Self::Wrong { faults, .. } => faults,
        }
    }
}

/// The plan of the layout in `file`; `-` is standard input.
///
/// # Errors
/// Why it could not be read, or every problem in it.
pub fn plan(lang: Lang, file: &Path) -> Result<Plan, Closed> {
    let bytes = read(file).map_err(|why| Closed::Unreadable(not_read(lang, file, &why)))?;
    Plan::open_bytes(&bytes).map_err(|problems| {
        let faults = problems.into_iter().map(|problem| Fault {
            line: Some(problem.place.line),
            column: Some(problem.place.column),
            ..Fault::of_file(file, &problem.key, words::problem(lang, &problem))
        });
        let text = String::from_utf8(bytes.clone()).unwrap_or_default();
        Closed::Wrong { faults: faults.collect(), text }
    })
}

/// The text of a file that is not a layout; `-` is standard input.
///
/// # Errors
/// Why it could not be read.
pub fn text(lang: Lang, file: &Path) -> Result<String, Fault> {
    let bytes = read(file).map_err(|why| not_read(lang, file, &why))?;
    if bytes.len() as u64 >= ENOUGH {
        return Err(not_read(lang, file, &Unreadable::TooLong { most: ENOUGH }));
    }
    String::from_utf8(bytes)
        .map_err(|why| not_read(lang, file, &Unreadable::Failed(format!("{}", why.utf8_error()))))
}

/// The files that stand for `named`: of a directory the layouts in it by name, none from folders below.
///
/// # Errors
/// That the directory cannot be read, or has no layouts.
pub fn files(lang: Lang, named: &Path) -> Result<Vec<PathBuf>, Fault> {
    if !named.is_dir() {
        return Ok(vec![named.to_owned()]);
    }
    let told = |why: io::Error| not_read(lang, named, &reason(&why));
    let mut files = Vec::new();
    for entry in std::fs::read_dir(named).map_err(told)? {
        let path = entry.map_err(told)?.path();
        if path.extension().is_some_and(|end| end == "toml") && !path.is_dir() {
            files.push(path);
        }
    }
    files.sort();
    if files.is_empty() { Err(not_read(lang, named, &Unreadable::NoLayouts)) } else { Ok(files) }
}

fn not_read(lang: Lang, file: &Path, why: &Unreadable) -> Fault {
    Fault::of_file(file, "", unreadable(lang, why))
}

fn read(file: &Path) -> Result<Vec<u8>, Unreadable> {
    let mut bytes = Vec::new();
    let done = if file == Path::new("-") {
        io::stdin().lock().take(ENOUGH).read_to_end(&mut bytes)
    } else {
        File::open(file).and_then(|open| open.take(ENOUGH).read_to_end(&mut bytes))
    };
    done.map(|_| bytes).map_err(|why| reason(&why))
}

fn reason(why: &io::Error) -> Unreadable {
    match why.kind() {
        io::ErrorKind::NotFound => Unreadable::NoSuchFile,
        io::ErrorKind::IsADirectory => Unreadable::Directory,
        io::ErrorKind::PermissionDenied => Unreadable::NotAllowed,
        _ => Unreadable::Failed(why.to_string()),
    }
}
