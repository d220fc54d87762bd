//! One wheel on the belt: a sprocket with grooves, or a smooth wheel on either face.
//!
//! Must not know: its neighbours on the belt, what it is called, or what it drives.

use crate::belt::Belt;
use crate::geometry::Disc;
use crate::units::Angle;
use glam::DVec2;

/// Which way something turns, seen at the belt end of the engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// As a clock's hands.
    Clockwise,
    /// The other way.
    Anticlockwise,
}

impl Sense {
    /// +1 for anticlockwise, −1 for clockwise: the sign of an angle turned this way.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Clockwise => -1.0,
            Self::Anticlockwise => 1.0,
        }
    }

    /// The other way round.
    pub const fn reversed(self) -> Self {
        match self {
            Self::Clockwise => Self::Anticlockwise,
            Self::Anticlockwise => Self::Clockwise,
        }
    }
}

/// The face of the belt that runs on a wheel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The face with the teeth, inside the loop.
    Toothed,
    /// The smooth back, outside the loop.
    Back,
}

/// What the belt runs on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rim {
    /// Grooves that the belt's teeth sit in; always on the toothed face.
    Toothed {
        /// Number of grooves, which is called its number of teeth.
        teeth: u32,
    },
    /// A plain rim.
    Smooth {
        /// Radius of the rim, mm.
        outside_radius_mm: f64,
        /// The belt face that runs on it.
        face: Face,
    },
}

/// What on the wheel the timing mark stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MarkOn {
    /// A groove's middle.
    Groove,
    /// A tooth's middle: half a pitch from a groove.
    Tooth,
}

/// A timing mark: the wheel's own is in time when it stands at the cover's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Direction of the cover's mark from the wheel's centre.
    pub cover: Angle,
    /// What on the wheel the mark stands on.
    pub on: MarkOn,
    /// Radius at which it is made, mm, where that is not the wheel's own: a damper or a flywheel.
    pub radius_mm: Option<f64>,
}

/// How a sprocket sits on its shaft, and how far it can turn there while its bolt is slack.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub enum Fixing {
    /// By a key or a dowel: one way only.
    #[default]
    Keyed,
    /// By slotted holes.
    Slotted {
        /// How far back, 0 or less.
        back: Angle,
        /// How far forward, 0 or more.
        forward: Angle,
    },
    /// On a plain taper: any way.
    Taper,
}

/// One wheel of the drive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wheel {
    /// Centre, mm, x to the right and y up; for the tensioner's wheel at no travel.
    pub centre: DVec2,
    /// What the belt runs on.
    pub rim: Rim,
    /// The timing mark of a sprocket that has to be timed.
    pub mark: Option<Mark>,
    /// Moment it takes to turn the shaft by hand, N·m, 0 or more.
    pub friction_n_m: f64,
    /// Moment with which valve springs turn the shaft at its mark, N·m, forward positive.
    pub spring_torque_n_m: f64,
    /// How a sprocket sits on its shaft.
    pub fixing: Fixing,
}

impl Wheel {
    /// Grooves, for a sprocket.
    pub fn teeth(&self) -> Option<u32> {
        match self.rim {
            Rim::Toothed { teeth } => Some(teeth),
            Rim::Smooth { .. } => None,
        }
    }

    /// The belt face that runs on it.
    pub fn face(&self) -> Face {
        match self.rim {
            Rim::Toothed { .. } => Face::Toothed,
            Rim::Smooth { face, .. } => face,
        }
    }

    /// Radius of the wheel's own metal, mm: for a sprocket its outside radius, which lies one
    /// pitch-line differential inside the pitch circle.
    pub fn outside_radius_mm(&self, belt: &Belt) -> f64 {
        match self.rim {
            Rim::Toothed { teeth } => {
                belt.sprocket_pitch_radius_mm(teeth) - belt.pitch_line_differential_mm
            }
            Rim::Smooth { outside_radius_mm, .. } => outside_radius_mm,
        }
    }

    /// Radius of the rim that carries the mark, mm, where that lies beyond the wheel's own.
    pub fn mark_rim_mm(&self, belt: &Belt) -> Option<f64> {
        let rim = self.mark?.radius_mm?;
        (rim > self.outside_radius_mm(belt)).then_some(rim)
    }

    /// Radius from the centre to the belt's pitch line, mm. The belt turns a wheel without slip at
    /// belt speed over this radius, not over the radius of the metal.
    pub fn pitch_radius_mm(&self, belt: &Belt) -> f64 {
        match self.rim {
            Rim::Toothed { teeth } => belt.sprocket_pitch_radius_mm(teeth),
            Rim::Smooth { outside_radius_mm, face: Face::Toothed } => {
                outside_radius_mm + belt.tips_mm()
            }
            Rim::Smooth { outside_radius_mm, face: Face::Back } => {
                outside_radius_mm + belt.back_mm()
            }
        }
    }

    /// Which way the running belt turns it.
    pub fn sense(&self, crank: Sense) -> Sense {
        match self.face() {
            Face::Toothed => crank,
            Face::Back => crank.reversed(),
        }
    }

    /// The circle that the belt's pitch line bends round.
    pub fn disc(&self, belt: &Belt, crank: Sense) -> Disc {
        Disc {
            centre: self.centre,
            radius: self.pitch_radius_mm(belt),
            sense: self.sense(crank).sign(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BELT: Belt = Belt {
        teeth: 100,
        pitch_mm: 9.525,
        thickness_mm: 5.5,
        tooth_height_mm: 3.5,
        pitch_line_differential_mm: 0.686,
    };

    fn smooth(face: Face) -> Wheel {
        Wheel {
            centre: DVec2::ZERO,
            rim: Rim::Smooth { outside_radius_mm: 30.0, face },
            mark: None,
            friction_n_m: 0.0,
            spring_torque_n_m: 0.0,
            fixing: Fixing::Keyed,
        }
    }

    #[test]
    fn the_pitch_line_lies_off_the_metal() {
        assert!((smooth(Face::Toothed).pitch_radius_mm(&BELT) - 34.186).abs() < 1e-12);
        assert!((smooth(Face::Back).pitch_radius_mm(&BELT) - 31.314).abs() < 1e-12);
    }

    #[test]
    fn the_back_turns_the_other_way() {
        assert_eq!(smooth(Face::Back).sense(Sense::Clockwise), Sense::Anticlockwise);
        assert_eq!(smooth(Face::Toothed).sense(Sense::Clockwise), Sense::Clockwise);
    }
}
