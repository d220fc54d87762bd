//! What the proofs share: random drives that are sound by construction, random engines, and a second,
//! plain way of working out a belt's path, a valve's gap and a change to a layout to hold the first against.
//!
//! Must not know: any expected value. Those stand beside the checks, each with its source.

pub mod broken;
pub mod deed;
pub mod engine_text;
pub mod follow;
pub mod plain;
pub mod plain_edit;
pub mod plain_engine;
pub mod random;
pub mod random_engine;
pub mod ring;
mod shape;
pub mod slip;
pub mod state;
pub mod stopwatch;
pub mod tensioning;
mod toml_text;
pub mod untidy;
