//! Wheels that no belt can run round, drawn as they are laid out: without the belt, and with those
//! ringed that stand in its way. An impossible belt is never drawn as if it ran.
//!
//! Must not know: what is wrong, only with which wheels.

use crate::list::{Class, List, Part};
use crate::mark_shape::{notch, wedge};
use crate::wheel_shape::WheelShape;
use drive::{Angle, Parts};

/// The shapes of wheels that make no drive, made once.
#[derive(Clone, Debug)]
pub struct SketchPicture {
    shapes: Vec<WheelShape>,
}

impl SketchPicture {
    /// The shapes of these parts.
    pub fn new(parts: &Parts) -> Self {
        let groove = |w: &drive::Wheel| w.mark.map_or(Angle::default(), |mark| mark.cover);
        let shape = |w: &drive::Wheel| WheelShape::new(w, &parts.belt, groove(w));
        Self { shapes: parts.wheels.iter().map(shape).collect() }
    }

    /// Draws the wheels on top of what `list` holds, those at `faults` (by index) ringed.
    pub fn draw(&self, list: &mut List, parts: &Parts, faults: &[usize]) {
        for pass in [Class::Metal, Class::Window, Class::Ring, Class::Hub, Class::Bolt] {
            for (i, (shape, wheel)) in self.shapes.iter().zip(&parts.wheels).enumerate() {
                shape.draw(list, pass, i, wheel.centre, Angle::default());
            }
        }
        for pass in [Class::CoverMark, Class::MarkIn] {
            for (i, (shape, wheel)) in self.shapes.iter().zip(&parts.wheels).enumerate() {
                let Some(mark) = wheel.mark else { continue };
                if pass == Class::CoverMark {
                    let inner = wheel.pitch_radius_mm(&parts.belt) + parts.belt.back_mm() + 3.5;
                    notch(list, i, wheel.centre, mark.cover, inner);
                } else {
                    wedge(list, pass, i, wheel.centre, mark.cover, shape.face - 1.0);
                }
            }
        }
        for i in faults {
            if let Some(wheel) = parts.wheels.get(*i) {
                list.begin(Class::Fault, Part::Wheel(*i));
                let radius = wheel.pitch_radius_mm(&parts.belt) + parts.belt.thickness_mm;
                list.circle(wheel.centre, radius);
            }
        }
    }
}
