//! What was typed to options, or what is wrong with it in a line: what an option does not take in the reader's
//! language, what the options themselves are in clap's own words.
//!
//! Must not know: what is done with them.

use crate::args::{Args, NotTaken, language_before};
use clap::Parser as _;
use clap::error::{ContextKind, ContextValue, Error, ErrorKind};
use std::error::Error as _;
use words::Lang;
use words::command::{no_such_word, wanted};

/// The arguments.
///
/// # Errors
/// A line for standard error, where it is ours to word.
pub fn args() -> Result<Args, String> {
    Args::try_parse().map_err(|error| match ours(language_before(std::env::args()), &error) {
        Some(line) => line,
        None => error.exit(),
    })
}

fn ours(lang: Lang, error: &Error) -> Option<String> {
    let text = |kind| match error.get(kind) {
        Some(ContextValue::String(text)) => Some(text.as_str()),
        _ => None,
    };
    let (option, found) = (text(ContextKind::InvalidArg)?, text(ContextKind::InvalidValue)?);
    // `--crank <TEETH>`: what stands behind the name says what it takes.
    let option = option.split(' ').next().unwrap_or(option).trim_matches(['<', '>']);
    let says = match (error.kind(), error.get(ContextKind::ValidValue)) {
        (ErrorKind::ValueValidation, _) => {
            wanted(lang, found, error.source()?.downcast_ref::<NotTaken>()?.0)
        }
        (ErrorKind::InvalidValue, Some(ContextValue::Strings(known))) if !found.is_empty() => {
            no_such_word(lang, found, known)
        }
        _ => return None,
    };
    Some(format!("{option}: {says}\n"))
}
