//! A wheel as metal: a sprocket's grooves cut to take the belt's teeth, windows and holes that make
//! its turning visible, hub and bolt.
//!
//! Must not know: marks, or how far the wheel is turned (the outline is made once, unturned).

use crate::list::{Class, List, Part};
use drive::{Angle, Belt, DVec2, Rim, Wheel};
use std::f64::consts::TAU;

/// Half a groove's width at the rim and at its root, and half a belt tooth's at the pitch line and at
/// its tip, as parts of the pitch. The groove is the wider: the tooth sits in it with a little room.
const GROOVE_HALF: [f64; 2] = [0.30, 0.22];
pub(crate) const TOOTH_HALF: [f64; 2] = [0.26, 0.18];
/// Room under a seated belt tooth, mm.
const ROOT_ROOM_MM: f64 = 0.4;

/// A wheel's unturned outline about its own centre.
#[derive(Clone, Debug)]
pub(crate) struct WheelShape {
    /// The rim, one closed outline; empty where a circle will do.
    rim: Vec<DVec2>,
    /// Radius of the metal, mm.
    outside: f64,
    /// The windows, each a closed outline.
    windows: Vec<Vec<DVec2>>,
    /// Radius of the hub, mm.
    hub: f64,
    /// Radius of the circle inside which marks are drawn, mm.
    pub face: f64,
}

impl WheelShape {
    /// The shape of a wheel. `groove` is the direction of one of a sprocket's grooves before it turns.
    pub fn new(wheel: &Wheel, belt: &Belt, groove: Angle) -> Self {
        let outside = wheel.outside_radius_mm(belt);
        match wheel.rim {
            Rim::Toothed { teeth } => {
                let pitch_radius = wheel.pitch_radius_mm(belt);
                let root = pitch_radius - belt.tips_mm() - ROOT_ROOM_MM;
                let face = root - 1.0;
                let hub = (outside * 0.24).max(6.0).min(outside * 0.45);
                Self {
                    rim: grooved(teeth, outside, root, groove),
                    outside,
                    // A small one has no room for windows beside its mark.
                    windows: if face > 45.0 {
                        spokes(5, hub * 1.45, face - 15.0, groove)
                    } else {
                        Vec::new()
                    },
                    hub,
                    face,
                }
            }
            Rim::Smooth { .. } => Self {
                rim: Vec::new(),
                outside,
                windows: holes(5, outside * 0.70, outside * 0.075, groove),
                hub: outside * 0.34,
                face: outside,
            },
        }
    }

    /// Emits the metal: rim first, then all windows, then hubs; `pass` says which.
    pub fn draw(&self, list: &mut List, pass: Class, wheel: usize, at: DVec2, turned: Angle) {
        let turn = turned.unit();
        let place = |p: &DVec2| at + turn.rotate(*p);
        let part = Part::Wheel(wheel);
        match pass {
            Class::Metal => {
                list.begin(pass, part);
                if self.rim.is_empty() {
                    list.circle(at, self.outside);
                } else {
                    list.polygon(self.rim.iter().map(place));
                }
            }
            Class::Window => {
                for window in &self.windows {
                    list.begin(pass, part);
                    list.polygon(window.iter().map(place));
                }
            }
            Class::Ring => {
                list.begin(pass, part);
                list.circle(at, self.hub * 1.5);
            }
            Class::Hub => {
                list.begin(pass, part);
                list.circle(at, self.hub);
            }
            Class::Bolt => {
                // Six flats, so that the bolt is seen to turn.
                list.begin(pass, part);
                list.polygon((0..6).map(|i| {
                    at + turned.turned(TAU * f64::from(i) / 6.0).unit() * (self.hub * 0.56)
                }));
            }
            _ => {}
        }
    }
}

fn polar(radius: f64, angle: Angle) -> DVec2 {
    angle.unit() * radius
}

fn grooved(teeth: u32, outside: f64, root: f64, groove: Angle) -> Vec<DVec2> {
    let step = TAU / f64::from(teeth);
    let mut rim = Vec::with_capacity(teeth as usize * 6);
    for i in 0..teeth {
        let middle = groove.turned(step * f64::from(i));
        for (radius, part) in [
            (outside, -GROOVE_HALF[0]),
            (root, -GROOVE_HALF[1]),
            (root, GROOVE_HALF[1]),
            (outside, GROOVE_HALF[0]),
        ] {
            rim.push(polar(radius, middle.turned(step * part)));
        }
        rim.push(polar(outside, middle.turned(step / 2.0)));
    }
    rim
}

/// Windows between `n` spokes, from radius `inner` to `outer`; a spoke lies at `groove`.
fn spokes(n: u32, inner: f64, outer: f64, groove: Angle) -> Vec<Vec<DVec2>> {
    const STEPS: u32 = 10;
    let step = TAU / f64::from(n);
    let half = |radius: f64| 0.5 * step - 6.5 / radius;
    (0..n)
        .map(|i| {
            let middle = groove.turned(step * (f64::from(i) + 0.5));
            let side = |radius: f64, k: u32| {
                let part = f64::from(k) / f64::from(STEPS) * 2.0 - 1.0;
                polar(radius, middle.turned(half(radius) * part))
            };
            let out = (0..=STEPS).map(|k| side(outer, k));
            let back = (0..=STEPS).rev().map(|k| side(inner, k));
            out.chain(back).collect()
        })
        .collect()
}

fn holes(n: u32, at: f64, radius: f64, groove: Angle) -> Vec<Vec<DVec2>> {
    const STEPS: u32 = 20;
    (0..n)
        .map(|i| {
            let centre = polar(at, groove.turned(TAU * (f64::from(i) + 0.5) / f64::from(n)));
            (0..STEPS)
                .map(|k| {
                    let around = Angle::from_rad(TAU * f64::from(k) / f64::from(STEPS));
                    centre + polar(radius, around)
                })
                .collect()
        })
        .collect()
}
