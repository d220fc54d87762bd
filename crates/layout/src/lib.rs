//! The layout file: text in, checked plain values out, or every problem at once.
//!
//! [`read`] takes the TOML text of a layout and gives a [`Layout`], or all the [`Problem`]s in it:
//! each with its line and column, the path of its key, what was found and what is allowed.
//! What a file may hold stands in one table, [`LAYOUT`], from which the reader, the forms,
//! the schema and the tests all work.
//!
//! This crate must not know what is done with a layout, nor in which language a problem is told:
//! a [`ProblemKind`] carries figures and names, never a sentence. The geometry is the drive's: a
//! [`Plan`] is a layout together with the drive that it describes, both found sound.
//!
//! Reading goes one way: `read` → `unclosed` → `syntax` → `walk` (the document against the table,
//! giving a checked `tree`) → `rules` (what goes across keys) → `build` (the tree to a `Layout`)
//! → `plan` (the layout to a drive).
//!
//! ```
//! let problems = layout::read("format = 1\ntitel = 'A mistyped key'\n").unwrap_err();
//! let mistyped = problems.iter().find(|p| p.key == "titel").unwrap();
//! assert_eq!((mistyped.place.line, mistyped.place.column), (2, 1));
//! assert!(matches!(
//!     mistyped.kind,
//!     layout::ProblemKind::UnknownKey { nearest: Some("title"), .. }
//! ));
//! ```

mod another;
mod build;
mod choice;
mod document;
mod edit;
mod engine_values;
mod findings;
mod form;
mod key;
mod keys;
mod nearest;
mod newer;
mod place;
mod plan;
mod problem;
mod read;
mod rules;
#[cfg(test)]
mod sample;
mod schema;
mod start;
mod syntax;
mod tree;
mod unclosed;
mod walk;

pub use another::another;
pub use choice::{
    Arrangement, CountedFrom, CrankTurns, Face, Fixing, LockBy, LockOn, MarkOn, MarkUse,
    PhaserRest, Role, SeenAt, Tightening,
};
pub use document::{
    BeltValues, CautionValues, CountValues, Layout, LockValues, MarkValues, OtherMarkValues,
    PhaserValues, Rim, TensionerKind, TensionerValues, WheelValues,
};
pub use edit::{Edit, EditRefused, Value, apply};
pub use engine_values::{
    CamshaftValues, EngineValues, LiftReading, LiftValues, MotionValues, SpringValues, ValveValues,
};
pub use findings::MOST_PROBLEMS;
pub use form::{Content, Row, empty_rows, entries_at, form, text_in, value_at};
pub use key::{Bounds, Key, Kind, Presence, Unit, key_at};
pub use keys::{LAYOUT, MOST_WHEELS};
pub use nearest::nearest;
pub use place::Place;
pub use plan::{EnginePlan, Plan, Sketch, TravelUnit};
pub use problem::{Counted, Found, Need, Problem, ProblemKind, clipped};
pub use read::{MOST_BYTES, read, read_bytes};
pub use schema::schema;
pub use start::{StartCount, StartRefused, StartWords, camshaft_teeth, start};
pub use syntax::SyntaxFault;
