//! What a person can do to the drive, what came of it, and why it may be refused.
//!
//! Must not know: how it is done.

use crate::contact::Contact;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Most degrees in one turn, and farthest that the crank may be turned to: somewhat above a million
/// turns.
pub const MOST_DEG: f64 = 4.0e8;

/// One thing done to the drive. As JSON: `{"turn": {"shaft": "crank", "deg": 90.0}}`,
/// `{"turn_to": {"crank_deg": 720.0}}`, `{"bring_forward": {"shaft": "crank"}}`,
/// `{"hold": {"shaft": "cam_left"}}`, `{"tensioner_to": {"travel": -30.0}}`, `{"tensioner": "back"}`,
/// `{"belt": "off"}`, `{"hang": "in_time"}`, `{"hang": {"teeth": {"crank>cam_left": 60}}}`,
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
    /// Turn a shaft forward until the belt from the last marked sprocket before it is tight, and no
    /// further.
    BringForward {
        /// The sprocket's id.
        shaft: String,
    },
    /// Hold a shaft where it stands: with the lock that the layout names, where it stands in its timed
    /// place, otherwise by a clamp or a wrench.
    Hold {
        /// The sprocket's id.
        shaft: String,
    },
    /// Let go of a shaft.
    Release {
        /// The sprocket's id.
        shaft: String,
    },
    /// Slacken the bolt of a slotted or taper sprocket: it floats on its shaft.
    Slacken {
        /// The sprocket's id.
        shaft: String,
    },
    /// Tighten that bolt again.
    Tighten {
        /// The sprocket's id.
        shaft: String,
    },
    /// Take the belt off.
    Belt(BeltMove),
    /// Put the belt on, or over.
    Hang(HangAs),
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

/// What can be done to the belt as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(rename_all = "snake_case")]
pub enum BeltMove {
    /// Off the wheels.
    Off,
}

/// With how many teeth the belt is put on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum HangAs {
    /// With the teeth between the marks that bring every mark in time.
    InTime,
    /// Uncounted: each run drawn as near to straight as its grooves let it, the rest at the tensioner.
    AsItFalls,
    /// With so many teeth from one marked sprocket to the next along the travel, such as
    /// `"crank>cam_left"`. What is not named stays in time, but for one run that takes the rest: the
    /// tensioner's, or else the one into the crank, or else the last not named.
    Teeth(
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
pub struct Outcome {
    /// What was done.
    pub did: Did,
    /// Held shafts that had to give all the same, since the belt cannot be hung otherwise.
    pub gave: Vec<Moved>,
    /// Shafts that the belt turned as it was drawn along.
    pub drew: Vec<Moved>,
    /// Shafts that their valve springs turned.
    pub sprang: Vec<Moved>,
    /// Where a tensioner with its pin out went on to, in the layout's unit, where the action let it.
    pub took_up: Option<f64>,
}

/// A shaft that moved without being asked to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// Index of its wheel.
    pub wheel: usize,
    /// By how many of its own degrees, forward positive.
    pub deg: f64,
}

/// What was done.
#[derive(Clone, Debug, PartialEq)]
pub enum Did {
    /// A shaft was turned.
    Turned {
        /// Index of its wheel.
        wheel: usize,
        /// By how many of its degrees, forward positive; less than asked for where it was stopped.
        deg: f64,
        /// What stopped it short.
        stopped_by: Option<Stopped>,
    },
    /// The crank was turned to an angle.
    TurnedTo {
        /// Degrees from its mark.
        crank_deg: f64,
        /// What stopped it short.
        stopped_by: Option<Stopped>,
    },
    /// A shaft was brought forward until the belt into it was tight.
    BroughtForward {
        /// Index of its wheel.
        wheel: usize,
        /// By how many of its degrees.
        deg: f64,
        /// What stopped it short.
        stopped_by: Option<Stopped>,
    },
    /// A shaft is held.
    Held {
        /// Index of its wheel.
        wheel: usize,
        /// Whether by the lock that the layout names, in its timed place.
        locked: bool,
    },
    /// A shaft is let go.
    Released {
        /// Index of its wheel.
        wheel: usize,
    },
    /// A sprocket's bolt is slack.
    Slackened {
        /// Index of its wheel.
        wheel: usize,
    },
    /// It is tight again.
    Tightened {
        /// Index of its wheel.
        wheel: usize,
        /// How far the sprocket sits forward on its shaft now, degrees.
        slip_deg: f64,
    },
    /// The belt is off.
    TakenOff,
    /// The belt is on.
    Hung {
        /// Whether with the teeth that bring every mark in time.
        in_time: bool,
    },
    /// The tensioner was moved.
    TensionerMoved {
        /// Where it stands now, in the layout's unit.
        travel: f64,
        /// How it stands there.
        state: TensionerState,
        /// What kept it from going further.
        stopped: Option<TensionerStop>,
    },
    /// Shafts were put teeth from in time: (wheel, teeth).
    TeethSet(Vec<(usize, i64)>),
}

impl Outcome {
    /// What stopped a turn short of what was asked.
    pub fn stopped(&self) -> Option<Stopped> {
        match self.did {
            Did::Turned { stopped_by, .. }
            | Did::TurnedTo { stopped_by, .. }
            | Did::BroughtForward { stopped_by, .. } => stopped_by,
            _ => None,
        }
    }
}

/// What stops a turn short.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stopped {
    /// The tight belt, at a wheel that is held, by index.
    Held(usize),
    /// A valve against its piston.
    Contact(Contact),
}

/// How the tensioner stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(rename_all = "snake_case")]
pub enum TensionerState {
    /// Right back.
    Back,
    /// Somewhere by hand.
    DrawnBack,
    /// Bolted up, its pin in.
    Pinned,
    /// Pin out: its spring takes up whatever slack it reaches.
    PinOut,
    /// An eccentric, turned and locked.
    Locked,
}

/// What keeps a tensioner from going further.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TensionerStop {
    /// The belt is tight all round, or the travel ends.
    End,
    /// The belt is tight between held shafts, while slack hangs elsewhere.
    Holds,
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
    /// A held shaft cannot be turned, nor put teeth out.
    IsHeld {
        /// Its id.
        found: String,
    },
    /// Nothing holds this shaft.
    IsNotHeld {
        /// Its id.
        found: String,
    },
    /// The sprocket sits on its shaft one way only.
    DoesNotFloat {
        /// The id asked for.
        found: String,
        /// The ids of all sprockets that float once their bolt is slack.
        floating: Vec<String>,
    },
    /// That needs the belt on.
    BeltIsOff,
    /// The tensioner leaves too little slack for the belt to come off or go on.
    NoRoom {
        /// Slack that there is, mm.
        slack_mm: f64,
        /// The least that it takes, mm.
        needs_mm: f64,
        /// Whether the tensioner stands right back already.
        fully_back: bool,
    },
    /// Teeth are counted from each marked sprocket to the next.
    NoSuchCount {
        /// What was asked for.
        found: String,
        /// All that there are.
        counts: Vec<String>,
    },
    /// The teeth given do not sum to the belt's.
    CountsDoNotSum {
        /// Their sum.
        sum: i64,
        /// Teeth of the belt.
        belt: i64,
    },
    /// As the shafts stand, the belt does not reach.
    DoesNotReach {
        /// Id of the wheel that the run leaves.
        from: String,
        /// Id of the wheel that it should meet.
        to: String,
        /// Teeth that it is short by.
        teeth: f64,
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

impl Refusal {
    /// The same with the ids of wheels in it replaced by what people call them; one that has no name
    /// stays.
    pub fn with_names(self, name: impl Fn(&str) -> Option<String>) -> Self {
        let one = |id: String| name(&id).unwrap_or(id);
        let all = |ids: Vec<String>| ids.into_iter().map(&one).collect();
        match self {
            Self::NoSuchShaft { found, shafts } => Self::NoSuchShaft { found, shafts: all(shafts) },
            Self::NotTimed { found, timed } => {
                Self::NotTimed { found: one(found), timed: all(timed) }
            }
            Self::NotASprocket { found, shafts } => {
                Self::NotASprocket { found: one(found), shafts: all(shafts) }
            }
            Self::IsHeld { found } => Self::IsHeld { found: one(found) },
            Self::IsNotHeld { found } => Self::IsNotHeld { found: one(found) },
            Self::DoesNotFloat { found, floating } => {
                Self::DoesNotFloat { found: one(found), floating: all(floating) }
            }
            Self::DoesNotReach { from, to, teeth } => {
                Self::DoesNotReach { from: one(from), to: one(to), teeth }
            }
            same @ (Self::BeltIsOff
            | Self::NoRoom { .. }
            | Self::NoSuchCount { .. }
            | Self::CountsDoNotSum { .. }
            | Self::OutOfRange { .. }) => same,
        }
    }
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
            (
                r#"{"bring_forward":{"shaft":"crank"}}"#,
                Action::BringForward { shaft: "crank".into() },
            ),
            (r#"{"hold":{"shaft":"cam_left"}}"#, Action::Hold { shaft: "cam_left".into() }),
            (r#"{"release":{"shaft":"cam_left"}}"#, Action::Release { shaft: "cam_left".into() }),
            (r#"{"slacken":{"shaft":"pump"}}"#, Action::Slacken { shaft: "pump".into() }),
            (r#"{"tighten":{"shaft":"pump"}}"#, Action::Tighten { shaft: "pump".into() }),
            (r#"{"belt":"off"}"#, Action::Belt(BeltMove::Off)),
            (r#"{"hang":"in_time"}"#, Action::Hang(HangAs::InTime)),
            (r#"{"hang":"as_it_falls"}"#, Action::Hang(HangAs::AsItFalls)),
            (
                r#"{"hang":{"teeth":{"crank>cam_left":60}}}"#,
                Action::Hang(HangAs::Teeth(BTreeMap::from([("crank>cam_left".into(), 60)]))),
            ),
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
