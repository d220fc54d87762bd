//! How far the work on the belt has come: how the tensioner stands, and how far the crank has been
//! turned since it came to stand so.
//!
//! Must not know: whether any of that is right.

use crate::action::TensionerState;
use drive::Turned;
use serde::{Deserialize, Serialize};

/// The work so far, as far as the belt and the shafts do not show it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Work {
    /// How the tensioner stands.
    pub tensioner: TensionerState,
    /// Where the crank stood when the belt was last put on; `None` while it has never been off.
    pub hung_at: Option<Turned>,
    /// Where the crank stood when the tensioner was last bolted up or locked.
    pub bolted_at: Option<Turned>,
    /// Where it stood when the pin was pulled.
    pub pulled_at: Option<Turned>,
    /// How far the crank had been turned forward since bolting up when the pin was pulled, degrees.
    pub turned_before_pin_deg: f64,
    /// Furthest that the crank has been since then.
    pub furthest: Turned,
    /// What was so when the belt came off; `None` while it has never been off.
    pub taken_off: Option<TakenOff>,
    /// How the crank and the sprockets stood when the belt was last put on.
    pub hung: Option<HungSo>,
}

/// How things stood as the belt came off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(deny_unknown_fields)]
pub struct TakenOff {
    /// Whether every mark was up, to half a tooth.
    pub marks_up: bool,
    /// Whether every marked shaft but the crank was held with its mark up.
    pub held: bool,
}

/// How things stood as the belt went on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(tsify::Tsify))]
#[serde(deny_unknown_fields)]
pub struct HungSo {
    /// Whether the crank stood half a tooth or more before its mark.
    pub crank_back: bool,
    /// Whether some sprocket's bolt was slack.
    pub bolt_slack: bool,
}

impl Work {
    /// A drive as it is found: running, its pin long out.
    pub(crate) fn found(tensioner: TensionerState) -> Self {
        Self {
            tensioner,
            hung_at: None,
            bolted_at: None,
            pulled_at: None,
            turned_before_pin_deg: 0.0,
            furthest: Turned::default(),
            taken_off: None,
            hung: None,
        }
    }

    /// The tensioner came to stand so with the crank where it is.
    pub(crate) fn tensioner_is(&mut self, state: TensionerState, crank: Turned) {
        let furthest = self.furthest.later(crank);
        self.furthest = crank;
        match state {
            TensionerState::Pinned | TensionerState::Locked => {
                (self.bolted_at, self.pulled_at) = (Some(crank), None);
            }
            TensionerState::PinOut => {
                if self.tensioner != TensionerState::PinOut {
                    let since = |at: Turned| furthest.since(at).max(0.0);
                    self.turned_before_pin_deg = self.bolted_at.map_or(0.0, since);
                    self.pulled_at = Some(crank);
                }
            }
            TensionerState::Back | TensionerState::DrawnBack => {
                (self.bolted_at, self.pulled_at) = (None, None);
            }
        }
        self.tensioner = state;
    }

    /// The belt was put on, and turns are counted anew, with the crank where it is.
    pub(crate) fn hung(&mut self, crank: Turned, so: HungSo) {
        (self.hung_at, self.hung) = (Some(crank), Some(so));
        let up = match self.tensioner {
            TensionerState::Pinned | TensionerState::Locked => (Some(crank), None),
            TensionerState::PinOut => (None, Some(crank)),
            TensionerState::Back | TensionerState::DrawnBack => (None, None),
        };
        (self.bolted_at, self.pulled_at) = up;
        (self.furthest, self.turned_before_pin_deg) = (crank, 0.0);
    }

    /// The belt came off.
    pub(crate) fn taken_off(&mut self, so: TakenOff) {
        (self.taken_off, self.hung_at, self.hung) = (Some(so), None, None);
    }

    /// The crank was turned.
    pub(crate) fn turned(&mut self, crank: Turned) {
        self.furthest = self.furthest.later(crank);
    }

    /// A lock that went in has drawn the crank along by so many degrees: that is no turning over.
    pub(crate) fn set_right(&mut self, deg: f64) {
        for at in [&mut self.hung_at, &mut self.bolted_at, &mut self.pulled_at] {
            *at = at.map(|at| at.plus(deg));
        }
        self.furthest = self.furthest.plus(deg);
    }

    /// How far the crank has gone forward since the pin was pulled, degrees; `None` while it is in, or
    /// was never pulled here.
    pub fn turned_since_pin_deg(&self) -> Option<f64> {
        self.pulled_at.map(|at| self.furthest.since(at))
    }

    /// How far the crank has gone forward since the tensioner was bolted up, degrees.
    pub fn turned_since_bolted_deg(&self) -> Option<f64> {
        self.bolted_at.map(|at| self.furthest.since(at))
    }
}
