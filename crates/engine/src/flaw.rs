//! What can be wrong with an engine's figures, each as a value that names the part.
//!
//! Must not know: sentences. Cylinders and camshafts are named by index.

use crate::events::Kind;

/// A figure outside what is allowed, or figures that do not fit together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Flaw {
    /// A figure is not within its bounds, or not a number.
    OutOfRange {
        /// Which figure.
        figure: Figure,
        /// What was found, in the figure's own unit.
        found: f64,
        /// The least allowed.
        least: f64,
        /// The most allowed.
        most: f64,
    },
    /// A figure must stay short of another one.
    NotBetween {
        /// Which figure.
        figure: Figure,
        /// What was found, in the figure's own unit.
        found: f64,
        /// It must be above this, or this itself where `or_equal`.
        above: f64,
        /// It must be below this.
        below: f64,
        /// Whether `above` itself is allowed.
        or_equal: bool,
    },
    /// Too few or too many of something.
    Count {
        /// Of what.
        figure: Figure,
        /// How many.
        found: usize,
        /// The fewest allowed.
        fewest: usize,
        /// The most allowed.
        most: usize,
    },
    /// A camshaft names a cylinder that is not there.
    NoSuchCylinder {
        /// The camshaft.
        camshaft: usize,
        /// The index that it names.
        cylinder: usize,
        /// How many there are.
        cylinders: usize,
    },
    /// A valve of a cylinder is moved twice: by two camshafts, or named twice by one.
    MovedTwice {
        /// The later camshaft.
        camshaft: usize,
        /// The cylinder.
        cylinder: usize,
        /// The valve.
        valve: Kind,
    },
    /// A measured lift does not rise to one top and fall from it in order of angle, or does not begin
    /// and end at zero.
    TableTurnsBack {
        /// The camshaft.
        camshaft: usize,
        /// The valve.
        valve: Kind,
        /// The first point that does not fit.
        point: usize,
    },
    /// Room between valves is stated, and a camshaft shares cylinders with more than one other: such
    /// an engine is not worked out.
    MeetsMoreThanOne {
        /// The camshaft.
        camshaft: usize,
    },
}

/// A figure, by what it is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// Cylinder diameter, mm.
    Bore,
    /// Stroke, mm.
    Stroke,
    /// Connecting rod, mm.
    Rod,
    /// Compression ratio, a bare number.
    CompressionRatio,
    /// Crank after cylinder 1's top at the marks, degrees.
    CrankAtMarks,
    /// Firing top of this cylinder, degrees; or how many there are, of the first.
    FiresAt(usize),
    /// How many camshafts.
    Camshafts,
    /// The cylinders of this camshaft.
    Cylinders(usize),
    /// One end of this camshaft's phasing, crank degrees.
    Phaser(usize),
    /// Sum of lifts at which valves meet, mm.
    ValvesMeet,
    /// A figure of a valve.
    Valve {
        /// The camshaft.
        camshaft: usize,
        /// Which of its valves.
        valve: Kind,
        /// Which figure of it.
        figure: ValveFigure,
    },
    /// Exponent of the compression, a bare number.
    Exponent,
    /// Air pressure, bar.
    Air,
}

/// A figure of a valve.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ValveFigure {
    /// Opening before its dead centre, degrees.
    Opens,
    /// Closing after its dead centre, degrees.
    Closes,
    /// From opening to closing, degrees.
    Duration,
    /// From the middle of the top to the seat, phasing included, degrees.
    Reach,
    /// Greatest lift, mm.
    Lift,
    /// The lift at which events are read, mm.
    AtLift,
    /// Points of a measured lift.
    Points,
    /// Lean of the stem, degrees.
    Lean,
    /// Room at the top, mm.
    Gap,
    /// Spring force with the valve shut, N.
    SpringShut,
    /// Spring rate, N per mm.
    SpringRate,
}
