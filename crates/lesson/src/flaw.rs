//! What can be wrong with a demonstration's file.
//!
//! Must not know: which file it is.

/// Why a text is no demonstration. Steps count from 1.
#[derive(Clone, Debug, PartialEq)]
pub enum Flaw {
    /// No JSON, or not these keys and values.
    NotRead {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What was found there, in the reader's own words.
        what: String,
    },
    /// An id is small letters, digits and hyphens.
    BadId {
        /// The id found.
        found: String,
    },
    /// There is nothing to show.
    NoSteps,
    /// A text is empty in a language.
    NoText {
        /// The step; 0 for the title.
        step: usize,
        /// The language's code.
        lang: &'static str,
    },
    /// A brace that is never closed or opened, or no key between two.
    BadBraces {
        /// The step.
        step: usize,
        /// The language's code.
        lang: &'static str,
    },
    /// The languages of a caption do not name the same readings.
    ReadingsDiffer {
        /// The step.
        step: usize,
    },
    /// A pause out of range, seconds.
    BadPause {
        /// The step.
        step: usize,
        /// What was found.
        found: f64,
        /// The least allowed.
        least: f64,
        /// The most allowed.
        most: f64,
    },
    /// Looked at from too far to the side, degrees.
    BadSide {
        /// The step.
        step: usize,
        /// What was found.
        found: f64,
        /// The most allowed either way.
        most: f64,
    },
    /// Something must be done for a step to be stopped short.
    NothingToStop {
        /// The step.
        step: usize,
    },
    /// A cylinder can only be seen where there is an engine. Cylinders count from 1.
    NoCylinder {
        /// The step.
        step: usize,
    },
}
