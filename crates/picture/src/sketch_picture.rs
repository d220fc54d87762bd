//! Wheels that no belt can run round, drawn as they are laid out, with those ringed that stand in its way. The
//! way that the belt would take is a dashed line: an impossible belt is never drawn as if it ran.
//!
//! Must not know: what is wrong, only with which wheels.

use crate::list::{Class, List, Part};
use crate::mark_shape::{notch, wedge};
use crate::wheel_shape::WheelShape;
use advice::LaidOut;
use drive::{Angle, Disc, Parts, Path};

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

    /// Draws the wheels, `laid` out so, on top of what `list` holds, those at `faults` (by index) ringed.
    pub fn draw(&self, list: &mut List, parts: &Parts, laid: &LaidOut, faults: &[usize]) {
        let wheels = || self.shapes.iter().zip(&parts.wheels).zip(&laid.discs).enumerate();
        for pass in [Class::Metal, Class::Window, Class::Ring, Class::Hub, Class::Bolt] {
            for (i, ((shape, _), disc)) in wheels() {
                shape.draw(list, pass, i, disc.centre, Angle::default());
            }
        }
        if let Some(path) = &laid.path {
            way(list, &laid.discs, path);
        }
        for pass in [Class::CoverMark, Class::MarkIn] {
            for (i, ((shape, wheel), disc)) in wheels() {
                let Some(mark) = wheel.mark else { continue };
                if pass == Class::CoverMark {
                    let inner = disc.radius + parts.belt.back_mm() + 3.5;
                    notch(list, i, disc.centre, mark.cover, inner);
                } else {
                    wedge(list, pass, i, disc.centre, mark.cover, shape.face - 1.0);
                }
            }
        }
        for i in faults {
            if let Some(disc) = laid.discs.get(*i) {
                list.begin(Class::Fault, Part::Wheel(*i));
                list.circle(disc.centre, disc.radius + parts.belt.thickness_mm);
            }
        }
    }
}

/// The pitch line round the wheels, as one line, so that its dashes run on.
fn way(list: &mut List, discs: &[Disc], path: &Path) {
    list.begin(Class::Unhung, Part::Belt(None));
    for (i, span) in path.spans.iter().enumerate() {
        if i == 0 {
            list.move_to(span.leaves);
        }
        list.line_to(span.meets);
        let next = (i + 1) % discs.len();
        let (on, from) = (&discs[next], path.meets_at(discs, next));
        list.arc(on.centre, on.radius, from.rad(), on.sense * path.wraps_rad[next]);
    }
}
