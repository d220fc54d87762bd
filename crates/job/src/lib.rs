//! The one truth of what is on the bench: the layout, where the crank and every other shaft stand, how
//! the belt is hung, where the tensioner is; the actions that change it; and the way back.
//!
//! Everything that a person does is one [`Action`]: the same JSON on the page, in a script of actions
//! and on the command line. An action either happens, and [`Did`] says what, or is refused with the
//! reason, and nothing has changed.
//!
//! **Must not know:** how anything is judged, worded or drawn; clocks.

mod action;
mod bench;
mod contact;
mod doing;
mod history;
mod left;
mod work;

pub use action::{
    Action, BeltMove, Did, HangAs, Moved, Outcome, Refusal, Step, Stopped, TensionerMove,
    TensionerState, TensionerStop,
};
pub use bench::{Job, Sheet};
pub use contact::{Contact, cycle_deg};
pub use history::History;
pub use left::{Left, LeftHold, LeftPlace, LeftSprocket};
pub use work::{HungSo, TakenOff, Work};
