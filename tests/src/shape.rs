//! A ring with what is pressed into it and the wheel that moves, closed by a whole number of teeth.
//!
//! Must not know: the crate under test beyond its belt, marks, or where on the page the drive lies.
//!
//! *The belt closes.* Length grows without bound with the ring's radius, and nothing in ring.rs minds
//! a larger ring. So the ring is enlarged until the tight belt is the next whole number of teeth: the
//! tensioner stands inside its travel with the belt tight, wherever that travel begins and ends.

use crate::plain::{Circle, path};
use crate::ring::{Pressed, Ring};
use crate::tensioning::bisect;
use drive::Belt;
use fastrand::Rng;

/// What runs on the belt at one place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// This wheel of the ring.
    Ring(usize),
    /// This pressed-in wheel.
    Pressed(usize),
}

/// A ring with what is pressed into it, and which of all these moves.
#[derive(Clone, Debug)]
pub struct Shape {
    /// The ring.
    pub ring: Ring,
    /// What is pressed into it, no two into one span.
    pub pressed: Vec<Pressed>,
    /// The tensioner's wheel; never the crank.
    pub moves: Part,
}

impl Shape {
    /// Draws one for this belt.
    pub fn draw(rng: &mut Rng, belt: &Belt) -> Self {
        let ring = Ring::draw(rng, belt);
        let n = ring.count();
        let mut spans: Vec<usize> = (0..n).collect();
        rng.shuffle(&mut spans);
        if rng.f64() < 0.6 {
            let mut pressed: Vec<Pressed> =
                spans.iter().filter_map(|&s| Pressed::draw(rng, belt, &ring, s, 0.0)).collect();
            pressed.truncate(rng.usize(1..=3));
            if !pressed.is_empty() {
                return Self { ring, pressed, moves: Part::Pressed(0) };
            }
        }
        // A wheel of the ring moves, so the spans at either side of it are left alone.
        let moving = rng.usize(1..n);
        let still = spans.iter().filter(|&&s| s != moving && (s + 1) % n != moving);
        let mut pressed: Vec<Pressed> =
            still.filter_map(|&s| Pressed::draw(rng, belt, &ring, s, ring.displaced_mm)).collect();
        pressed.truncate(rng.usize(0..=3));
        Self { ring, pressed, moves: Part::Ring(moving) }
    }

    /// All parts in belt order, the crank first.
    pub fn order(&self) -> Vec<Part> {
        let mut order = Vec::new();
        for i in 0..self.ring.count() {
            order.push(Part::Ring(i));
            order.extend(
                (0..self.pressed.len()).filter(|&k| self.pressed[k].span == i).map(Part::Pressed),
            );
        }
        order
    }

    /// The circles of all parts on a ring of this radius, in belt order.
    pub fn circles(&self, radius_mm: f64) -> Vec<Circle> {
        let ring = self.ring.circles(radius_mm);
        let free = path(&ring);
        let circle = |part: &Part| match *part {
            Part::Ring(i) => ring[i],
            Part::Pressed(k) => self.pressed[k].circle(&ring, &free),
        };
        self.order().iter().map(circle).collect()
    }

    /// The circles of the ring enlarged to the next whole number of teeth, and that number.
    pub fn closed(&self, pitch_mm: f64) -> (Vec<Circle>, u32) {
        let length = |radius_mm: f64| path(&self.circles(radius_mm)).length_mm;
        let small = self.ring.radius_mm;
        let teeth = libm::ceil(length(small) / pitch_mm);
        let mut large = small + pitch_mm;
        while length(large) < teeth * pitch_mm {
            large += pitch_mm;
        }
        let radius_mm = bisect(small, large, |r| length(r) < teeth * pitch_mm);
        (self.circles(radius_mm), teeth as u32)
    }
}
