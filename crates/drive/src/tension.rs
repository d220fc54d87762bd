//! The belt with its tensioner pulling: how tight every span is, what that does to bearings, to the belt's
//! length and to the marks, how a span sounds, and what a wheel that does not turn does to it.
//!
//! Must not know: what a tensioner's spring is called in a file, how fast anybody drives, words.
//!
//! One idea a file: `resting` (the spring against the belt), `spans` (how the tension changes from wheel to
//! wheel), `bearing` (what a shaft carries, and how many teeth carry it), `stretch` (what the tension does
//! to length and marks), `tone` (a span plucked or pushed), `slide` (a belt drawn over a wheel that does
//! not turn), `turns` (how often everything goes round).

mod bearing;
mod resting;
mod slide;
mod spans;
mod stretch;
mod tone;
mod turns;

pub use bearing::{LEAST_TEETH_IN_MESH, LEAST_WRAP_DEG, bearing_loads_n, in_mesh_factor};
pub use resting::{gives_way_n_m, resting_tension_n};
pub use slide::{Seized, grip, seized};
pub use spans::{NoBalance, Takes, Tensioned, Tensions, tensions};
pub use stretch::{Moves, moves, stretch_mm};
pub use tone::{pushed_tension_n, pushes_back_n, tone_hz, tone_tension_n};
pub use turns::{belt_speed_m_per_s, laps_per_crank_turn, tooth_meets_per_crank_turn};
