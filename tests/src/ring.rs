//! The bare shape of a random drive: wheels of the toothed face on a ring, each touched by the belt,
//! and smooth wheels pressed from outside into the middle of its spans.
//!
//! Must not know: the crate under test beyond its vector and belt; which wheel is called what.
//!
//! The shape is drawn so that it *is* sound; nothing is tried and thrown away. Throughout, the crank
//! turns anticlockwise, wheel 0 of the ring is the crank, Δ is the least angle between neighbours
//! seen from the ring's middle, R the ring's radius, ρ the pitch radii, and one wheel may be
//! displaced by up to m (the tensioner's travel).
//!
//! *Touched.* In its own direction θᵢ wheel i reaches R + ρᵢ, any other at most R·cos Δ + ρⱼ. So with
//! ρmax − ρmin + m < R·(1 − cos Δ) every wheel reaches furthest somewhere, displaced or not. Here only
//! `BUDGET` of the right side is spent, so that each wrap reaches well to both sides of θᵢ: the
//! direction square to span i, i+1 is off the middle between θᵢ and θᵢ₊₁ by at most
//! asin((ρmax − ρmin + m)/D) < Δ/4 or so, since D ≥ 2R·sin(Δ/2).
//!
//! *Apart.* Neighbours' centres are at least 2R·sin(Δ/2) apart; the belt's thickness goes between.
//!
//! *Pressed in.* A smooth wheel pressed h deep into the middle of a span of length ℓ bends the belt by
//! δ at each end, where h = (ℓ/2)·tan δ − (ρ + ρ_back)·(1/cos δ − 1). Two belts that leave a wheel
//! never meet again while its wrap stays below a half turn, so δ may use a part of what the wrap
//! leaves of it. Nothing else lies in the way while h stays under half the depth at which the nearest
//! other wheel lies below the span. With two wheels only, both wraps are near a half turn and the
//! opposite span is what must not be met: there h stays below the smaller radius.

use crate::plain::{Circle, PlainPath, path, reach, unit};
use core::f64::consts::{FRAC_PI_2, PI, TAU};
use drive::Belt;
use fastrand::Rng;

/// Part of R·(1 − cos Δ) that differences of radius, travel and clearance may use.
const BUDGET: f64 = 0.5;
/// Least angle between neighbours on the ring, as a part of an even spread.
const LEAST_GAP: f64 = 0.75;
/// Radius of the largest ring, in pitches: with the wheels' own turn and what is pressed in, that
/// keeps the belt under 400 teeth. The wheels, of at most 60 grooves, find room on it.
const MOST_RING_PITCHES: f64 = 48.0;
/// Clearance beyond what is needed, mm.
const CLEAR_MM: f64 = 3.0;
/// Part of the half turn left over by a wrap that pressing in at one end may use.
const BEND_SHARE: f64 = 0.4;
/// Most that pressing in bends the belt at one end, rad.
const MOST_BEND_RAD: f64 = 0.6;
/// Part of a span by which a pressed-in wheel may be displaced along it.
const ALONG_SHARE: f64 = 0.15;
/// Smallest pitch radius of a wheel on the back, mm.
const LEAST_BACK_MM: f64 = 14.0;
/// A span that cannot be pressed in by this much is left alone, mm.
const LEAST_PRESS_MM: f64 = 2.0;

/// Uniform in `[low, high)`.
pub fn between(rng: &mut Rng, low: f64, high: f64) -> f64 {
    low + (high - low) * rng.f64()
}

/// A plausible belt section, as parts of a pitch from 5 to 15 mm; the tooth count comes later.
pub fn section(rng: &mut Rng) -> Belt {
    let pitch_mm = between(rng, 5.0, 15.0);
    let tooth_height_mm = pitch_mm * between(rng, 0.30, 0.40);
    let pitch_line_differential_mm = pitch_mm * between(rng, 0.05, 0.09);
    let cover_mm = pitch_mm * between(rng, 0.08, 0.16);
    let thickness_mm = tooth_height_mm + pitch_line_differential_mm + cover_mm;
    Belt { teeth: 0, pitch_mm, thickness_mm, tooth_height_mm, pitch_line_differential_mm }
}

/// The wheels of the toothed face.
#[derive(Clone, Debug)]
pub struct Ring {
    /// Direction of each wheel from the ring's middle, rad, growing; wheel 0 is the crank.
    pub at_rad: Vec<f64>,
    /// Pitch radius of each, mm.
    pub pitch_radius_mm: Vec<f64>,
    /// Grooves of each that has any; the crank has, and at least one more.
    pub grooves: Vec<Option<u32>>,
    /// Radius of the ring, mm.
    pub radius_mm: f64,
    /// How far one of the wheels may be displaced, mm.
    pub displaced_mm: f64,
}

impl Ring {
    /// Draws a ring for this belt.
    pub fn draw(rng: &mut Rng, belt: &Belt) -> Self {
        let n = rng.usize(2..=7);
        let least_gap = if n == 2 { PI } else { LEAST_GAP * TAU / n as f64 };
        // What differences of radius and travel may use together on the largest ring.
        let budget = BUDGET * (1.0 - libm::cos(least_gap));
        let largest_mm = MOST_RING_PITCHES * belt.pitch_mm;
        let room_mm = budget * largest_mm - belt.tooth_height_mm - CLEAR_MM;
        let travel_mm = room_mm * between(rng, 0.4, 0.7);
        let displaced_mm = travel_mm.min(belt.pitch_mm * between(rng, 1.5, 4.0));
        let least_teeth = rng.u32(16..=30);
        let more_teeth = ((room_mm - displaced_mm) / belt.sprocket_pitch_radius_mm(1)) as u32;
        let most_teeth = least_teeth + rng.u32(0..=least_teeth.min(more_teeth));
        let (small, large) =
            (belt.sprocket_pitch_radius_mm(least_teeth), belt.sprocket_pitch_radius_mm(most_teeth));
        let surely_toothed = rng.usize(1..n);
        let mut grooves = Vec::new();
        let mut pitch_radius_mm = Vec::new();
        for i in 0..n {
            if i == 0 || i == surely_toothed || rng.f64() < 0.7 {
                let z = rng.u32(least_teeth..=most_teeth);
                grooves.push(Some(z));
                pitch_radius_mm.push(belt.sprocket_pitch_radius_mm(z));
            } else {
                grooves.push(None);
                pitch_radius_mm.push(between(rng, small, large));
            }
        }
        let spread = large - small + displaced_mm + belt.tooth_height_mm + CLEAR_MM;
        let touched = spread / budget;
        let apart = 2.0 * (large + belt.thickness_mm) + displaced_mm + CLEAR_MM;
        let apart = apart / (2.0 * libm::sin(least_gap / 2.0));
        let least_mm = touched.max(apart);
        let radius_mm = between(rng, least_mm, largest_mm.min(1.6 * least_mm));
        let at_rad = spread_out(rng, n, least_gap);
        Self { at_rad, pitch_radius_mm, grooves, radius_mm, displaced_mm }
    }

    /// Number of wheels.
    pub fn count(&self) -> usize {
        self.at_rad.len()
    }

    /// The circles of a ring of this shape and another radius.
    pub fn circles(&self, radius_mm: f64) -> Vec<Circle> {
        self.at_rad
            .iter()
            .zip(&self.pitch_radius_mm)
            .map(|(at, &radius)| Circle { centre: unit(*at) * radius_mm, radius, sense: 1.0 })
            .collect()
    }
}

/// `n` directions, rad, growing from 0, neighbours at least `least_gap` apart all round.
fn spread_out(rng: &mut Rng, n: usize, least_gap: f64) -> Vec<f64> {
    let shares: Vec<f64> = (0..n).map(|_| 0.05 + rng.f64()).collect();
    let all: f64 = shares.iter().sum();
    let left_over = TAU - least_gap * n as f64;
    let mut at = 0.0;
    shares
        .iter()
        .map(|share| {
            let here = at;
            at += least_gap + left_over * share / all;
            here
        })
        .collect()
}

/// A smooth wheel on the belt's back, pressed into the middle of a span of the ring.
#[derive(Clone, Copy, Debug)]
pub struct Pressed {
    /// The ring's wheel that the span leaves.
    pub span: usize,
    /// Pitch radius, mm.
    pub pitch_radius_mm: f64,
    /// How deep, mm.
    pub depth_mm: f64,
    /// How far it may be displaced in any direction, mm.
    pub displaced_mm: f64,
}

impl Pressed {
    /// A wheel pressed into span `span` of the ring, where there is room for one; `displaced_mm` is
    /// how far a wheel of the ring itself may move.
    pub fn draw(
        rng: &mut Rng,
        belt: &Belt,
        ring: &Ring,
        span: usize,
        displaced_mm: f64,
    ) -> Option<Self> {
        let circles = ring.circles(ring.radius_mm);
        let free = path(&circles);
        let next = (span + 1) % circles.len();
        let (a, b) = (&circles[span], &circles[next]);
        let larger = a.radius.max(b.radius);
        let half = free.span_mm[span] * (0.5 - ALONG_SHARE);
        let most_back_mm = half - larger - belt.thickness_mm - CLEAR_MM;
        if most_back_mm < LEAST_BACK_MM {
            return None;
        }
        let high = most_back_mm.min(3.0 * LEAST_BACK_MM);
        let pitch_radius_mm = between(rng, LEAST_BACK_MM, high.max(LEAST_BACK_MM));
        let moved_rad = 2.0 * displaced_mm / free.span_mm[span];
        let mut most = depth_below(&circles, &free, belt, span, displaced_mm);
        for i in [span, next] {
            let left_over = PI - free.wrap_rad[i] - moved_rad;
            let share = if circles.len() == 2 { MOST_BEND_RAD } else { BEND_SHARE * left_over };
            let bend = share.clamp(0.0, MOST_BEND_RAD);
            let (sin, cos) = (libm::sin(bend), libm::cos(bend));
            let radii = circles[i].radius + pitch_radius_mm;
            most = most.min((half * sin - radii * (1.0 - cos)) / cos);
        }
        if most < LEAST_PRESS_MM {
            return None;
        }
        let depth_mm = most * between(rng, 0.45, 0.7);
        let displaced_mm = (most - depth_mm)
            .min(depth_mm - 0.25 * LEAST_PRESS_MM)
            .min(ALONG_SHARE * free.span_mm[span]);
        Some(Self { span, pitch_radius_mm, depth_mm, displaced_mm })
    }

    /// Its circle on a ring whose own path is `free`.
    pub fn circle(&self, ring: &[Circle], free: &PlainPath) -> Circle {
        let out = unit(free.heading_rad[self.span] - FRAC_PI_2);
        Circle {
            centre: free.middle(ring, self.span) + out * (self.pitch_radius_mm - self.depth_mm),
            radius: self.pitch_radius_mm,
            sense: -1.0,
        }
    }
}

/// How deep span `span` may be pressed in before it nears anything, mm.
fn depth_below(
    circles: &[Circle],
    free: &PlainPath,
    belt: &Belt,
    span: usize,
    displaced_mm: f64,
) -> f64 {
    let n = circles.len();
    if n == 2 {
        return circles[0].radius.min(circles[1].radius) - belt.thickness_mm - CLEAR_MM;
    }
    let out = free.heading_rad[span] - FRAC_PI_2;
    let top = reach(&circles[span], out);
    let nearest = (0..n)
        .filter(|&i| i != span && i != (span + 1) % n)
        .map(|i| top - reach(&circles[i], out))
        .fold(f64::INFINITY, f64::min);
    (nearest - displaced_mm - belt.tooth_height_mm - belt.thickness_mm - CLEAR_MM) / 2.0
}
