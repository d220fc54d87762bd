//! How a job stands, as plain values to keep and to take up again: after a closed tab, a crash.
//!
//! Must not know: where it is kept. What it takes up may have been kept by another hand, and is checked.

use crate::action::TensionerState;
use crate::bench::Job;
use crate::work::{HungSo, TakenOff, Work};
use drive::{Cord, CordState, Hold, Seat, Turned};
use serde::{Deserialize, Serialize};

/// How a job stands on its layout: everything that undo would bring back, but not the way back itself.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(deny_unknown_fields)]
pub struct Left {
    /// The sprockets in belt order, the crank first.
    pub sprockets: Vec<LeftSprocket>,
    /// Whether the belt is on.
    pub belt_on: bool,
    /// The tensioner's travel, mm on a slide and radians about a pivot.
    pub travel: f64,
    /// How the tensioner stands.
    pub tensioner: TensionerState,
    /// See [`Work`].
    pub hung_at: Option<LeftPlace>,
    /// See [`Work`].
    pub bolted_at: Option<LeftPlace>,
    /// See [`Work`].
    pub pulled_at: Option<LeftPlace>,
    /// See [`Work`].
    pub turned_before_pin_deg: f64,
    /// See [`Work`].
    pub furthest: LeftPlace,
    /// See [`Work`].
    pub taken_off: Option<TakenOff>,
    /// See [`Work`].
    pub hung: Option<HungSo>,
}

/// How a sprocket and its shaft stand.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(deny_unknown_fields)]
pub struct LeftSprocket {
    /// How far it is turned.
    pub turned: LeftPlace,
    /// Teeth from in time, ahead positive.
    pub teeth_out: i64,
    /// How far it is bolted forward on its shaft, crank degrees; nothing where its bolt is slack.
    pub slip_deg: Option<f64>,
    /// Where its shaft stands, if its bolt is slack.
    pub shaft: Option<LeftPlace>,
    /// What of it is held.
    pub held: Option<LeftHold>,
}

/// What of a sprocket and its shaft is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(rename_all = "snake_case")]
pub enum LeftHold {
    /// The shaft.
    Shaft,
    /// The sprocket.
    Sprocket,
}

/// Belt travel: whole crank turns and crank degrees beyond.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(deny_unknown_fields)]
pub struct LeftPlace {
    /// Whole crank turns.
    pub turns: i64,
    /// Crank degrees beyond.
    pub deg: f64,
}

impl From<Turned> for LeftPlace {
    fn from(Turned { turns, deg }: Turned) -> Self {
        Self { turns, deg }
    }
}

impl From<LeftPlace> for Turned {
    fn from(LeftPlace { turns, deg }: LeftPlace) -> Self {
        Self { turns, deg }
    }
}

impl Job {
    /// How the job stands.
    pub fn left(&self) -> Left {
        let CordState { turned, teeth_out, seats, holds, on } = self.cord.state();
        let sprockets = (0..turned.len()).map(|k| {
            let (slip_deg, shaft) = match seats[k] {
                Seat::Tight { slip_deg } => (Some(slip_deg), None),
                Seat::Loose { shaft } => (None, Some(shaft.into())),
            };
            let held = holds[k].map(|hold| match hold {
                Hold::Shaft => LeftHold::Shaft,
                Hold::Sprocket => LeftHold::Sprocket,
            });
            let (turned, teeth_out) = (turned[k].into(), teeth_out[k]);
            LeftSprocket { turned, teeth_out, slip_deg, shaft, held }
        });
        let work = self.work;
        Left {
            sprockets: sprockets.collect(),
            belt_on: on,
            travel: self.stance.travel,
            tensioner: work.tensioner,
            hung_at: work.hung_at.map(LeftPlace::from),
            bolted_at: work.bolted_at.map(LeftPlace::from),
            pulled_at: work.pulled_at.map(LeftPlace::from),
            turned_before_pin_deg: work.turned_before_pin_deg,
            furthest: work.furthest.into(),
            taken_off: work.taken_off,
            hung: work.hung,
        }
    }

    /// Takes the job up as it was left, as no step of its own: undo then goes back to before the layout was
    /// put on the bench. Whether it can stand so; if not, nothing has changed.
    pub fn take_up_left(&mut self, left: &Left) -> bool {
        if !(left.travel.is_finite() && left.turned_before_pin_deg.is_finite()) {
            return false;
        }
        let stance = self.plan.drive.stance_at(left.travel);
        let seat = |sprocket: &LeftSprocket| match (sprocket.slip_deg, sprocket.shaft) {
            (Some(slip_deg), None) => Some(Seat::Tight { slip_deg }),
            (None, Some(shaft)) => Some(Seat::Loose { shaft: shaft.into() }),
            _ => None,
        };
        let Some(seats) = left.sprockets.iter().map(seat).collect::<Option<Vec<_>>>() else {
            return false;
        };
        let held = |held: LeftHold| match held {
            LeftHold::Shaft => Hold::Shaft,
            LeftHold::Sprocket => Hold::Sprocket,
        };
        let state = CordState {
            turned: left.sprockets.iter().map(|sprocket| sprocket.turned.into()).collect(),
            teeth_out: left.sprockets.iter().map(|sprocket| sprocket.teeth_out).collect(),
            seats,
            holds: left.sprockets.iter().map(|sprocket| sprocket.held.map(held)).collect(),
            on: left.belt_on,
        };
        let Some(cord) = Cord::resumed(&self.plan.drive, &stance, state) else { return false };
        (self.cord, self.stance) = (cord, stance);
        self.work = Work {
            tensioner: left.tensioner,
            hung_at: left.hung_at.map(Turned::from),
            bolted_at: left.bolted_at.map(Turned::from),
            pulled_at: left.pulled_at.map(Turned::from),
            turned_before_pin_deg: left.turned_before_pin_deg,
            furthest: left.furthest.into(),
            taken_off: left.taken_off,
            hung: left.hung,
        };
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use layout::Plan;
    use std::rc::Rc;

    const SIX: &str = include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");
    const WORK: &str = include_str!("../../../layouts/six-in-a-vee-rehearsal.jsonl");

    #[test]
    fn a_job_is_taken_up_at_every_step_as_it_was_left_and_goes_on_the_same() {
        let plan = Rc::new(Plan::open(SIX).unwrap());
        let actions = || WORK.lines().map(|line| serde_json::from_str(line).unwrap());
        let mut job = Job::new(Rc::clone(&plan));
        for (i, action) in actions().enumerate() {
            job.act(&action, false).unwrap();
            let json = serde_json::to_string(&job.left()).unwrap();
            let mut again = Job::new(Rc::clone(&plan));
            assert!(again.take_up_left(&serde_json::from_str(&json).unwrap()), "{i}");
            assert_eq!(again.left(), job.left());
            assert_eq!(again.next_steps(), (None, None), "that is no step");
            let mut first = job.clone();
            for action in actions().skip(i + 1) {
                assert_eq!(again.act(&action, false), first.act(&action, false), "{i}");
            }
            assert_eq!(again.left(), first.left());
        }
    }

    #[test]
    fn what_cannot_be_is_not_taken_up() {
        let mut job = Job::new(Rc::new(Plan::open(SIX).unwrap()));
        let whole = job.left();
        let wrong: [&dyn Fn(&mut Left); 8] = [
            // Tight all round, so that nothing can stand elsewhere by itself.
            &|left| left.sprockets[1].turned.deg += 1.0,
            &|left| left.sprockets[1].turned.deg = f64::NAN,
            &|left| left.sprockets[0].turned.turns = i64::MAX,
            &|left| left.sprockets[1].teeth_out = i64::MIN,
            &|left| left.sprockets[0].slip_deg = None,
            &|left| left.sprockets[0].slip_deg = Some(f64::INFINITY),
            &|left| left.travel = f64::NAN,
            &|left| left.sprockets.clear(),
        ];
        for (i, change) in wrong.iter().enumerate() {
            let mut left = whole.clone();
            change(&mut left);
            assert!(!job.take_up_left(&left), "{i}");
            assert_eq!(job.left(), whole);
        }
        // With the belt off a shaft may stand anywhere.
        let mut off = whole.clone();
        off.sprockets[1].turned.deg += 1.0;
        off.belt_on = false;
        assert!(job.take_up_left(&off));
    }
}
