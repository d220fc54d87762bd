//! The engine behind a belt drive as pure mathematics: where its pistons and valves stand, how near
//! they come, what a camshaft out of time does to that and to compression, and what may be turned once
//! the belt is off.
//!
//! All angles are degrees. *Crank degrees* compare shafts, 720 to the working cycle; a camshaft turns
//! half as many. Ahead, or early, is positive. Lengths are millimetres. Angles asked about are finite.
//!
//! **Must not know:** belts and teeth on them, files, words, screens, clocks, randomness. It is told
//! each camshaft's error in crank degrees. It allocates, and otherwise needs nothing: it builds for a
//! machine without an operating system.
//!
//! Reads downward: `angle → crank, law → table, figures, events → lobe, bounds, flaw → valve → engine →
//! gap → teeth → parking, compression, snap → stand → obstacle → together, loose → free → route → walk →
//! moves`.

#![no_std]

extern crate alloc;

mod angle;
pub mod bounds;
mod compression;
mod crank;
mod engine;
mod events;
mod figures;
#[cfg(test)]
mod fixture;
mod flaw;
mod free;
mod gap;
mod law;
mod lobe;
mod loose;
mod moves;
mod obstacle;
mod parking;
mod route;
mod snap;
mod stand;
mod table;
mod teeth;
mod together;
mod turning;
mod valve;
mod walk;

pub use angle::{Arc, CYCLE_DEG, TURN_DEG, wrap_cycle, wrap_turn};
pub use compression::{Cranking, Pressure, polytropic, ratio_from};
pub use crank::SliderCrank;
pub use engine::{Camshaft, Engine};
pub use events::{Between, Kind};
pub use figures::{
    AtMarks, CamshaftFigures, CrankFigures, Events, Figures, Motion, Room, Spring, Top,
    ValveFigures,
};
pub use flaw::{Figure, Flaw, ValveFigure};
pub use gap::{Gap, LeastGap, Phasing, ValveGap};
pub use law::Law;
pub use lobe::Lobe;
pub use loose::{Loose, Missing};
pub use moves::{Move, Way};
pub use parking::Parking;
pub use snap::{Snap, Turns};
pub use stand::{Freedom, Meeting, Near, Shaft, Stand, Stop};
pub use table::LiftPoint;
pub use teeth::{AnyAngle, Contact, FirstTouch, Teeth};
pub use turning::Turning;
pub use valve::Valve;
