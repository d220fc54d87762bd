//! From a file, or standard input, to a plan.
//!
//! Must not know: what a layout holds.

use crate::fault::Fault;
use layout::{Plan, Problem};
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;
use std::rc::Rc;
use words::Lang;
use words::command::{Unreadable, unreadable};

/// Bytes after which reading stops: far more than a layout may have, so that one too long is still
/// told its length, and an endless one ends.
const ENOUGH: u64 = 64 * 1024 * 1024;

/// The plan of the layout in `file`; `-` is standard input.
///
/// # Errors
/// Why it could not be read, or every problem in it.
pub fn plan(lang: Lang, file: &Path) -> Result<Rc<Plan>, Vec<Fault>> {
    let bytes = read(file).map_err(|why| {
        let message = unreadable(lang, &why);
        vec![Fault::of_file(file, "", message)]
    })?;
    open(bytes).map(Rc::new).map_err(|problems| {
        problems
            .into_iter()
            .map(|problem| Fault {
                line: Some(problem.place.line),
                column: Some(problem.place.column),
                ..Fault::of_file(file, &problem.key, words::problem(lang, &problem))
            })
            .collect()
    })
}

fn open(bytes: Vec<u8>) -> Result<Plan, Vec<Problem>> {
    match String::from_utf8(bytes) {
        Ok(text) => Plan::open(&text),
        Err(no_text) => match layout::read_bytes(no_text.as_bytes()) {
            Err(problems) => Err(problems),
            // What is no text is no layout either.
            Ok(_) => Err(Vec::new()),
        },
    }
}

fn read(file: &Path) -> Result<Vec<u8>, Unreadable> {
    let mut bytes = Vec::new();
    let done = if file == Path::new("-") {
        io::stdin().lock().take(ENOUGH).read_to_end(&mut bytes)
    } else {
        File::open(file).and_then(|open| open.take(ENOUGH).read_to_end(&mut bytes))
    };
    match done {
        Ok(_) => Ok(bytes),
        Err(why) => Err(match why.kind() {
            io::ErrorKind::NotFound => Unreadable::NoSuchFile,
            io::ErrorKind::IsADirectory => Unreadable::Directory,
            io::ErrorKind::PermissionDenied => Unreadable::NotAllowed,
            _ => Unreadable::Failed(why.to_string()),
        }),
    }
}
