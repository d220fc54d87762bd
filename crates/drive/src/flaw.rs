//! What can be wrong with a drive's geometry, each as a value that names the part.
//!
//! Must not know: sentences. Wheels are named by their index in the drive.

use alloc::vec::Vec;

/// A reason why no belt could run so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Flaw {
    /// Two neighbours on the belt overlap, or one lies inside the other: no straight run leads from
    /// the first to the second.
    NoTangent {
        /// The wheel that the belt would leave.
        from: usize,
        /// The wheel that it would meet.
        to: usize,
    },
    /// The belt would pass this wheel without touching it on the face that it should.
    NotTouched {
        /// The wheel.
        wheel: usize,
        /// By how much the belt would have to bend the wrong way there, rad, above zero.
        missed_by_rad: f64,
        /// Where the tensioner stands when this happens.
        when: When,
    },
    /// Two wheels, or a wheel and the belt lying on another, occupy the same place.
    Overlap {
        /// The earlier wheel on the belt.
        a: usize,
        /// The later one.
        b: usize,
        /// How far they would have to be moved apart, mm.
        by_mm: f64,
    },
    /// A straight run of the belt passes through a wheel that it does not run on.
    SpanThroughWheel {
        /// The wheel that the span leaves.
        from: usize,
        /// The wheel that it meets.
        to: usize,
        /// The wheel in the way.
        wheel: usize,
        /// How deep, mm.
        by_mm: f64,
    },
    /// Two spans cross.
    SpansCross {
        /// The wheel that the first span leaves.
        a: usize,
        /// The wheel that the second span leaves.
        b: usize,
    },
    /// Two spans come so close that the belt's own thickness has no room between them.
    SpansTouch {
        /// The wheel that the first span leaves.
        a: usize,
        /// The wheel that the second span leaves.
        b: usize,
        /// The room that is missing, mm.
        by_mm: f64,
    },
    /// A sprocket so small that nothing is left of it under the belt's teeth.
    NoMetal {
        /// The sprocket.
        wheel: usize,
        /// How far the teeth would reach beyond its centre, mm.
        by_mm: f64,
    },
    /// Followed all round, the belt does not turn exactly once in the crank's sense: the wheels are
    /// listed in an order, or on faces, that no belt could join.
    NotOneLoop {
        /// How often it turns, crank's sense positive.
        turns: i32,
    },
    /// Even right back, the tensioner leaves the path longer than the belt.
    BeltTooShort {
        /// What is missing, mm.
        by_mm: f64,
    },
    /// Even fully out, the tensioner leaves the path shorter than the belt.
    BeltTooLong {
        /// What is left over, mm.
        by_mm: f64,
    },
    /// Within its travel the tensioner passes a place beyond which further travel no longer tightens.
    DeadPoint {
        /// The travel at which that is, mm or radians.
        travel: f64,
    },
    /// Teeth counted from mark to mark that are not whole from groove to groove: one mark is on a
    /// groove and the other on a tooth.
    CountNotWhole {
        /// The wheel counted from.
        from: usize,
        /// The wheel counted to.
        to: usize,
    },
    /// Counted teeth that leave none for another run.
    CountLeavesNone {
        /// The wheel that this run leaves.
        from: usize,
        /// The wheel that it meets.
        to: usize,
        /// What is left for it, below one.
        teeth: i64,
    },
    /// Teeth stated for the belt and for its runs that do not add up.
    CountsDoNotSum {
        /// The stated counts' sum.
        counted: i64,
        /// The belt's teeth.
        belt: i64,
    },
}

impl Flaw {
    /// The wheels that the flaw concerns, by index: those to look at.
    pub fn wheels(&self) -> Vec<usize> {
        match *self {
            Self::NoTangent { from: a, to: b }
            | Self::Overlap { a, b, .. }
            | Self::CountNotWhole { from: a, to: b }
            | Self::CountLeavesNone { from: a, to: b, .. } => Vec::from([a, b]),
            Self::NotTouched { wheel, .. } | Self::NoMetal { wheel, .. } => Vec::from([wheel]),
            Self::SpanThroughWheel { from, to, wheel, .. } => Vec::from([from, to, wheel]),
            Self::SpansCross { a, b } | Self::SpansTouch { a, b, .. } => Vec::from([a, b]),
            Self::NotOneLoop { .. }
            | Self::BeltTooShort { .. }
            | Self::BeltTooLong { .. }
            | Self::DeadPoint { .. }
            | Self::CountsDoNotSum { .. } => Vec::new(),
        }
    }

    /// Whether this and `other` say the same of the same part, perhaps with the tensioner elsewhere.
    pub(crate) fn same_part(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::NotTouched { wheel: a, .. }, Self::NotTouched { wheel: b, .. }) => a == b,
            _ => self == other,
        }
    }
}

/// Where the tensioner stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum When {
    /// Where the belt is tight, or where the layout draws it if it never is.
    Taut,
    /// Right back.
    RightBack,
}
