//! Every word that a person reads, in every language, and every number with its unit.
//!
//! A sentence is made from what `advice`, `job` and `layout` hand over as figures and names; the same
//! function makes what is shown and what is spoken. A new language is a new arm in each table here.
//!
//! **Must not know:** where its words are shown.

pub mod command;
mod fields;
mod labels;
mod lang;
mod number;
mod problem;
mod refusal;
pub mod say;
pub mod start;
pub mod typed;
mod written;

pub use fields::{
    choice_meaning, choice_name, field_meaning, field_name, field_optional, figure_names, one_more,
};
pub use labels::Labels;
pub use lang::{Lang, Reader, Units};
pub use problem::problem;
pub use refusal::refusal;
pub use written::written;
