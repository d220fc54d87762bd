//! What the proofs share: random drives that are sound by construction, and a second, plain way of
//! working out a belt's path to hold the first against.
//!
//! Must not know: any expected value. Those stand beside the checks, each with its source.

pub mod deed;
pub mod follow;
pub mod plain;
pub mod random;
pub mod ring;
mod shape;
pub mod slip;
pub mod state;
pub mod stopwatch;
pub mod tensioning;
mod toml_text;
