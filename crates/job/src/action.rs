//! What a person can do to the drive, what came of it, and why it may be refused.
//!
//! Must not know: how it is done.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Most degrees in one turn, and farthest that the crank may be turned to: somewhat above a million
/// turns.
pub const MOST_DEG: f64 = 4.0e8;

/// One thing done to the drive. As JSON: `{"turn": {"shaft": "crank", "deg": 90.0}}`,
/// `{"turn_to": {"crank_deg": 720.0}}`, `{"tensioner_to": {"travel": -30.0}}`, `{"tensioner": "back"}`,
/// `{"set_teeth": {"cam_left": -1}}`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Action {
    /// Turn a shaft by so many of its own degrees, forward positive.
    Turn {
        /// The sprocket's id.
        shaft: String,
        /// Degrees at that shaft.
        deg: f64,
    },
    /// Turn the crank to an angle over any number of turns, degrees from its mark.
    TurnTo {
        /// Crank degrees, forward positive.
        crank_deg: f64,
    },
    /// Move the tensioner to a travel, in the layout's unit, positive tightening. It goes no further
    /// than the tight belt lets it.
    TensionerTo {
        /// Travel, mm on a slide, degrees about a pivot.
        travel: f64,
    },
    /// Move the tensioner to one of its places.
    Tensioner(TensionerMove),
    /// Put shafts so many teeth from in time, ahead positive.
    SetTeeth(
        #[cfg_attr(feature = "ts", tsify(type = "Record<string, number>"))] BTreeMap<String, i64>,
    ),
}

/// A place of the tensioner that has a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(rename_all = "snake_case")]
pub enum TensionerMove {
    /// Right back.
    Back,
    /// Bolted up: where the layout says that it stands with its pin in, or turned and locked; the
    /// tight belt where the layout does not say.
    BoltUp,
    /// Pin out: the spring takes up all slack.
    PullPin,
}

/// A step of the history.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// An action was done.
    Done(Action),
    /// Another layout was put on the bench.
    Opened,
}

/// What an action came to.
#[derive(Clone, Debug, PartialEq)]
pub enum Did {
    /// A shaft was turned.
    Turned {
        /// Index of its wheel.
        wheel: usize,
        /// By how many of its degrees, forward positive.
        deg: f64,
    },
    /// The crank was turned to an angle.
    TurnedTo {
        /// Degrees from its mark.
        crank_deg: f64,
    },
    /// The tensioner was moved.
    TensionerMoved {
        /// Where it stands now, in the layout's unit.
        travel: f64,
        /// Whether the tight belt, or the end of its travel, kept it from going further.
        stopped: bool,
    },
    /// Shafts were put teeth from in time: (wheel, teeth).
    TeethSet(Vec<(usize, i64)>),
}

/// Why an action was not done. Nothing has changed.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// No wheel has this id.
    NoSuchShaft {
        /// The id asked for.
        found: String,
        /// The ids of all shafts that can be turned.
        shafts: Vec<String>,
    },
    /// The belt does not turn this wheel by its teeth, or it has no mark: only a marked sprocket can
    /// be teeth out.
    NotTimed {
        /// The id asked for.
        found: String,
        /// The ids of all shafts that are timed.
        timed: Vec<String>,
    },
    /// A smooth wheel: turning it moves nothing.
    NotASprocket {
        /// The id asked for.
        found: String,
        /// The ids of all shafts that can be turned.
        shafts: Vec<String>,
    },
    /// Not a number, or too large.
    OutOfRange {
        /// The number asked for.
        found: f64,
        /// Least allowed.
        least: f64,
        /// Most allowed.
        most: f64,
        /// Its unit: `deg`, `mm` or `teeth`.
        unit: &'static str,
    },
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn actions_are_the_json_that_files_hold() {
        for (json, action) in [
            (
                r#"{"turn":{"shaft":"crank","deg":90.0}}"#,
                Action::Turn { shaft: "crank".into(), deg: 90.0 },
            ),
            (r#"{"turn_to":{"crank_deg":720.0}}"#, Action::TurnTo { crank_deg: 720.0 }),
            (r#"{"tensioner_to":{"travel":-30.0}}"#, Action::TensionerTo { travel: -30.0 }),
            (r#"{"tensioner":"back"}"#, Action::Tensioner(TensionerMove::Back)),
            (r#"{"tensioner":"bolt_up"}"#, Action::Tensioner(TensionerMove::BoltUp)),
            (r#"{"tensioner":"pull_pin"}"#, Action::Tensioner(TensionerMove::PullPin)),
            (
                r#"{"set_teeth":{"cam_left":-1}}"#,
                Action::SetTeeth(BTreeMap::from([("cam_left".into(), -1)])),
            ),
        ] {
            assert_eq!(serde_json::from_str::<Action>(json).unwrap(), action);
            assert_eq!(serde_json::to_string(&action).unwrap(), json);
        }
        assert!(
            serde_json::from_str::<Action>(r#"{"turn":{"shaft":"crank","degrees":1}}"#).is_err()
        );
    }
}
