//! A timing-belt drive as pure mathematics: the belt and its wheels, the path it takes round them,
//! where the tensioner holds it tight, which tooth sits in which groove, how far every mark is off,
//! where the slack hangs when the belt is not tight, and how tight it is when it is.
//!
//! Looking at the belt end of the engine: x to the right, y up, millimetres; inside, radians
//! anticlockwise from +x. A wheel's own turning is *forward-positive*: forward is how it turns when
//! the engine runs, so that a positive mark error is *ahead* on every wheel, also on one that the back
//! of the belt turns the other way.
//!
//! **Must not know:** files, screens, words, clocks, randomness, engines. It allocates, and otherwise
//! needs nothing: it builds for a machine without an operating system.
//!
//! Reads downward: `units → geometry → belt, wheel, tensioner → path → sound, fit → mesh → count →
//! marks → cord → doubt, jump, thread → tension, sight → pose`.

#![no_std]

extern crate alloc;

mod belt;
mod cord;
mod count;
mod doubt;
mod drive;
mod fit;
mod flaw;
mod geometry;
mod hang;
mod jump;
mod marks;
mod mesh;
mod path;
mod pose;
mod sight;
mod sound;
mod tension;
mod tensioner;
mod thread;
mod turned;
mod units;
mod wheel;

pub use belt::Belt;
pub use cord::{Cord, CordState, Gap, Hold, SPRING_REACH_DEG, Seat, TIGHT_MM, TooShort};
pub use count::{Counted, CountedBetween, teeth_in_time};
pub use doubt::path_doubt;
pub use drive::{Drive, Parts};
pub use fit::{Moving, Taut};
pub use flaw::{Flaw, When};
pub use geometry::{Disc, Span, distance_to_segment, rot90, segments_meet, tangent, touch};
pub use glam::DVec2;
pub use hang::{Arc, Hang, HangingPlace};
pub use jump::{CLEARS, MAY_JUMP, clears_with_mm, comes_off_with_mm};
pub use marks::{
    all_return_after_crank_turns, mark_error_teeth, returns_after_crank_turns, stripe_drift_teeth,
    stripe_returns_after_crank_turns,
};
pub use mesh::{Reference, Stance};
pub use path::{NoTangent, Path};
pub use pose::{BeltTooth, Piece, Pose};
pub use sight::{SeemsOff, mark_radius_mm, seems_off, sight_shift_mm, squarer_than};
pub use sound::{Scene, flaws, not_touched};
pub use tension::{
    LEAST_TEETH_IN_MESH, LEAST_WRAP_DEG, Moves, NoBalance, Seized, Takes, Tensioned, Tensions,
    bearing_loads_n, belt_speed_m_per_s, gives_way_n_m, grip, in_mesh_factor, laps_per_crank_turn,
    moves, pushed_tension_n, pushes_back_n, resting_tension_n, seized, stretch_mm, tensions,
    tone_hz, tone_tension_n, tooth_meets_per_crank_turn,
};
pub use tensioner::{Carrier, Tensioner};
pub use thread::thread_order;
pub use turned::Turned;
pub use units::{Angle, gcd, lcm, rim_force_n, wrap_rad, wrap_to};
pub use wheel::{Face, Fixing, Mark, MarkOn, Rim, Sense, Wheel};
