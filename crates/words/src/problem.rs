//! What is wrong with a layout file, in a sentence or two: what was found, where in the drive, what is
//! allowed.
//!
//! Keys and words of the file format stay as they are in every language. What was found is told with
//! all its digits, so that it can be looked for in the file.
//!
//! Must not know: how the problem was found, or where its line and column are shown.

mod engine;
mod figure;
mod flaw;
mod keys;
mod kind;
mod need;
mod place;
mod quantity;
mod syntax;
#[cfg(test)]
mod tests;
mod wanted;

pub(crate) use keys::did_you_mean;
pub(crate) use place::{bare_list, quoted};
pub(crate) use quantity::{amount, range, unit_word};

use crate::lang::Lang;
use layout::Problem;

/// One problem of a layout file, always in one line.
///
/// ```
/// use words::Lang;
/// let problems = layout::read("format = 1\ntitel = 'A mistyped key'\n").unwrap_err();
/// let mistyped = problems.iter().find(|p| p.key == "titel").unwrap();
/// let told = words::problem(Lang::En, mistyped);
/// assert_eq!(told, "There is no key “titel” here. Did you mean “title”?");
/// ```
pub fn problem(lang: Lang, problem: &Problem) -> String {
    kind::told(lang, problem)
}
