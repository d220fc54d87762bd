//! Writes the answer to standard output, or to a file.
//!
//! Must not know: what it says.

use crate::fault::Fault;
use std::fs::File;
use std::io::{self, Write as _};
use std::path::Path;
use words::Lang;
use words::command::{Unreadable, is_there, unreadable};

/// Prints the answer. A reader that stops reading, such as `head`, has had enough: no fault.
///
/// # Errors
/// That it could not be written.
pub fn print(lang: Lang, answer: &str) -> Result<(), Vec<Fault>> {
    let mut out = io::stdout().lock();
    match out.write_all(answer.as_bytes()).and_then(|()| out.flush()) {
        Err(why) if why.kind() != io::ErrorKind::BrokenPipe => {
            let message = unreadable(lang, &Unreadable::NotWritten(why.to_string()));
            Err(vec![Fault::of_file(Path::new("-"), "", message)])
        }
        Ok(()) | Err(_) => Ok(()),
    }
}

/// Writes the answer to `file`, in place of what is there; `-` prints it.
///
/// # Errors
/// That it could not be written.
pub fn write(lang: Lang, file: &Path, answer: &str) -> Result<(), Vec<Fault>> {
    if file == Path::new("-") {
        return print(lang, answer);
    }
    std::fs::write(file, answer).map_err(|why| {
        let message = unreadable(lang, &Unreadable::NotWritten(why.to_string()));
        vec![Fault::of_file(file, "", message)]
    })
}

/// Writes the answer to `file`, unless something is there; `-` prints it.
///
/// # Errors
/// That something is there; that it could not be written.
pub fn write_new(lang: Lang, file: &Path, answer: &str) -> Result<(), Vec<Fault>> {
    if file == Path::new("-") {
        return print(lang, answer);
    }
    let written = File::create_new(file).and_then(|mut out| out.write_all(answer.as_bytes()));
    written.map_err(|why| {
        let message = match why.kind() {
            io::ErrorKind::AlreadyExists => is_there(lang).to_owned(),
            _ => unreadable(lang, &Unreadable::NotWritten(why.to_string())),
        };
        vec![Fault::of_file(file, "", message)]
    })
}
