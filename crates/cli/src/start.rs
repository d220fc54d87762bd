//! A layout started from three counts.
//!
//! Must not know: how it is made.

use crate::args::Start;
use crate::fault::{self, Fault};
use crate::output;
use layout::{Arrangement, StartCount, StartRefused};
use std::path::Path;
use words::Lang;
use words::start::{start_refused, start_warning, start_words};

/// Writes or prints the layout; what is unusual about the counts is told on standard error.
///
/// # Errors
/// Counts that cannot be; that the file is there, or could not be written.
pub fn start(lang: Lang, asked: &Start) -> Result<(), Vec<Fault>> {
    let &Start { crank, camshaft, belt, .. } = asked;
    let out = asked.out.as_deref().unwrap_or(Path::new("-"));
    // The options let no other word through.
    let kind = Arrangement::from_word(&asked.arrangement).unwrap_or(Arrangement::InLineOne);
    let text = layout::start(kind, crank, camshaft, belt, &start_words(lang, kind))
        .map_err(|why| vec![Fault::of_file(out, option(why), start_refused(lang, kind, why))])?;
    if let Some(warning) = start_warning(lang, kind, crank, camshaft) {
        fault::tell(&[Fault::of_file(out, "--camshaft", warning)], false);
    }
    if asked.force { output::write(lang, out, &text) } else { output::write_new(lang, out, &text) }
}

/// The option that a refusal is about.
const fn option(why: StartRefused) -> &'static str {
    match why {
        StartRefused::OutOfBounds { count: StartCount::Crank, .. } => "--crank",
        StartRefused::OutOfBounds { count: StartCount::Driven, .. } => "--camshaft",
        StartRefused::OutOfBounds { count: StartCount::Belt, .. }
        | StartRefused::BeltTooShort { .. }
        | StartRefused::NotDrawn { .. }
        | StartRefused::NoBelt { .. } => "--belt",
    }
}
