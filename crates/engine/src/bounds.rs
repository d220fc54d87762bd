//! What an engine's figures may be: one table that feeds errors and tests.
//!
//! Must not know: what happens to a figure outside it.

/// Least and most, both allowed.
pub type Bounds = (f64, f64);

/// Cylinder diameter, mm.
pub const BORE_MM: Bounds = (10.0, 500.0);
/// Stroke, mm.
pub const STROKE_MM: Bounds = (10.0, 500.0);
/// Longest rod, mm; the shortest is longer than half the stroke.
pub const ROD_MOST_MM: f64 = 1500.0;
/// Compression ratio.
pub const COMPRESSION_RATIO: Bounds = (3.0, 30.0);
/// Crank after cylinder 1's top at the marks, degrees.
pub const CRANK_AT_MARKS_DEG: Bounds = (-360.0, 360.0);
/// Firing tops after cylinder 1's, degrees.
pub const FIRES_AT_DEG: Bounds = (0.0, 720.0);
/// Cylinders.
pub const CYLINDERS: (usize, usize) = (1, 16);
/// Camshafts.
pub const MOST_CAMSHAFTS: usize = 8;
/// How far opening lies before its dead centre and closing after its own, degrees.
pub const EVENT_DEG: Bounds = (-180.0, 180.0);
/// From opening to closing, at whichever lift it is stated, crank degrees.
pub const DURATION_DEG: Bounds = (20.0, 540.0);
/// Greatest angle between the middle of a valve's top and its seat, phasing included, crank degrees.
pub const REACH_DEG: Bounds = (10.0, 355.0);
/// Greatest lift, mm.
pub const LIFT_MM: Bounds = (0.5, 40.0);
/// Points of a measured lift.
pub const POINTS: (usize, usize) = (3, 1000);
/// Lean of a stem, degrees.
pub const LEAN_DEG: Bounds = (-60.0, 60.0);
/// Room between the shut valve and the piston at its top, mm.
pub const GAP_AT_TOP_MM: Bounds = (-5.0, 50.0);
/// Phasing each way, crank degrees.
pub const PHASER_DEG: Bounds = (-180.0, 180.0);
/// Spring force with the valve shut, N.
pub const SPRING_SHUT_N: Bounds = (0.0, 10_000.0);
/// Spring rate, N per mm.
pub const SPRING_RATE_N_PER_MM: Bounds = (0.0, 1000.0);
/// Exponent of the compression when cranked.
pub const EXPONENT: Bounds = (1.20, 1.30);
/// Air pressure, bar.
pub const AIR_BAR: Bounds = (0.5, 1.2);
