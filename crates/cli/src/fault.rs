//! What went wrong, as standard error tells it: a line each, or a list of the same as JSON.
//!
//! Must not know: what any of it says.

use serde::Serialize;
use std::fmt;
use std::io::Write as _;
use std::path::Path;

/// One thing that went wrong.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fault {
    /// The file, as it was named.
    pub file: String,
    /// Line, from 1; null where it is not the text that is wrong.
    pub line: Option<usize>,
    /// Column, from 1, in characters; null with `line`.
    pub column: Option<usize>,
    /// The path of the key, or the option; empty for the file as a whole.
    pub key: String,
    /// What is wrong, in a sentence.
    pub message: String,
}

impl Fault {
    /// One of the file as a whole, or of an option (`key`).
    pub fn of_file(file: &Path, key: &str, message: String) -> Self {
        let file = file.display().to_string();
        Self { file, line: None, column: None, key: key.to_owned(), message }
    }
}

impl fmt::Display for Fault {
    /// `file:line:column: key: message`, without what there is not.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.file)?;
        if let (Some(line), Some(column)) = (self.line, self.column) {
            write!(f, ":{line}:{column}")?;
        }
        if !self.key.is_empty() {
            write!(f, ": {}", self.key)?;
        }
        write!(f, ": {}", self.message)
    }
}

/// Each in a line of its own.
pub fn lines(faults: &[Fault]) -> String {
    // A name in the file may hold anything: one problem stays one line.
    let line = |fault: &Fault| fault.to_string().replace(char::is_control, "\u{fffd}") + "\n";
    faults.iter().map(line).collect()
}

/// Tells all of them on standard error. There is nowhere left to tell that this failed.
pub fn tell(faults: &[Fault], json: bool) {
    let out = if json {
        serde_json::to_string_pretty(faults).unwrap_or_default() + "\n"
    } else {
        lines(faults)
    };
    let _ = std::io::stderr().write_all(out.as_bytes());
}

/// Tells one line on standard error.
pub fn tell_line(line: &str) {
    let _ = std::io::stderr().write_all(line.as_bytes());
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_leaves_out_what_there_is_not() {
        let mut fault = Fault::of_file(Path::new("a.toml"), "", "Wrong.".to_owned());
        assert_eq!(fault.to_string(), "a.toml: Wrong.");
        fault.key = "belt.teeth".to_owned();
        (fault.line, fault.column) = (Some(8), Some(9));
        assert_eq!(fault.to_string(), "a.toml:8:9: belt.teeth: Wrong.");
    }
}
