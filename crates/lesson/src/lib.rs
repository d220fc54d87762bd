//! What a class is shown: demonstrations, each a file of steps told in plain words, and how they are
//! played on a job.
//!
//! A demonstration is data: the same actions as everywhere else, where to look, what to say. Its sentences
//! name readings by their key, and whoever shows them fills in the reading itself, so that no number in a
//! sentence can differ from the one beside the drive.
//!
//! A blind [`exercise`] hides a fault and marks what a class says of it.
//!
//! **Must not know:** the page, the reader's language, how a reading is worded.

mod caption;
mod demonstration;
pub mod exercise;
mod flaw;
mod play;

pub use caption::{Piece, pieces};
pub use demonstration::{Camera, Demonstration, FILES, Step, Text};
pub use flaw::Flaw;
pub use play::{Play, Scene, Stuck, Why};
