//! Where the wheels of an arrangement stand, for a belt of a given length.
//!
//! Must not know: text.

use super::arrangement::Shape;
use drive::{Belt, DVec2, Disc, Path, Sense, distance_to_segment, touch};

/// Which way the crank of an arrangement turns.
pub(super) const TURNS: Sense = Sense::Clockwise;
/// How deep a smooth wheel presses into its span, as a part of the span.
const DEPTH: f64 = 0.2;
/// The most of the way to whatever lies across, so that the belt keeps off it.
const ACROSS: f64 = 0.42;
/// Outside radius of a smooth wheel, as a part of its span, and between what.
const RADIUS: f64 = 0.16;
const RADIUS_MM: [f64; 2] = [14.0, 32.0];
/// Between the belts of two sprockets that stand side by side, mm.
const CLEAR_MM: f64 = 6.0;
/// The scale is looked for up to here, mm: no belt of the format needs more.
const MOST_MM: f64 = 1900.0;

/// A smooth wheel in its place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Smooth {
    pub centre: DVec2,
    pub outside_radius_mm: f64,
    /// How deep it presses.
    pub depth_mm: f64,
    /// The way in which it presses.
    pub inwards: DVec2,
}

/// Belt length is met to this, mm.
const MET_MM: f64 = 1e-3;

/// An arrangement in its place.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    /// Centres of the sprockets.
    pub sprockets: Vec<DVec2>,
    /// The smooth wheels, as the shape has them.
    pub pressed: Vec<Smooth>,
    length_mm: f64,
}

/// The arrangement spread so far that the belt fits with the tensioner in the middle of its travel; `None`
/// where it would have to be closer than its wheels let.
pub(super) fn fitted(shape: &Shape, teeth: [u32; 2], belt: &Belt) -> Option<Placed> {
    let target_mm = belt.pitch_length_mm();
    let (mut near, mut far) = (0.0, MOST_MM);
    let mut best = None;
    // Each round halves what is open: 50 leave less than a double shows.
    for _ in 0..50 {
        let middle = (near + far) / 2.0;
        match placed(shape, teeth, belt, middle) {
            Some(placed) if placed.length_mm >= target_mm => {
                best = Some(placed);
                far = middle;
            }
            _ => near = middle,
        }
    }
    best.filter(|placed: &Placed| placed.length_mm - target_mm < MET_MM)
}

fn placed(shape: &Shape, [crank, driven]: [u32; 2], belt: &Belt, scale: f64) -> Option<Placed> {
    let radius = |i: usize| belt.sprocket_pitch_radius_mm(if i == 0 { crank } else { driven });
    let beside_mm = radius(1) + belt.back_mm() + CLEAR_MM / 2.0;
    let sense = TURNS.sign();
    let sprockets: Vec<Disc> = shape
        .sprockets
        .iter()
        .enumerate()
        .map(|(i, sprocket)| {
            let centre = DVec2::from_array(sprocket.beside) * beside_mm
                + DVec2::from_array(sprocket.along) * scale;
            Disc { centre, radius: radius(i), sense }
        })
        .collect();
    let free = Path::round(&sprockets).ok()?;
    let pressed: Vec<Smooth> =
        shape.pressed.iter().map(|wheel| pressed(&sprockets, &free, belt, wheel.after)).collect();
    let mut discs = Vec::with_capacity(sprockets.len() + pressed.len());
    for (i, disc) in sprockets.iter().enumerate() {
        discs.push(*disc);
        let of_span = shape.pressed.iter().zip(&pressed).filter(|(wheel, _)| wheel.after == i);
        discs.extend(of_span.map(|(_, smooth)| Disc {
            centre: smooth.centre,
            radius: smooth.outside_radius_mm + belt.back_mm(),
            sense: -sense,
        }));
    }
    let length_mm = Path::round(&discs).ok()?.length_mm;
    let sprockets = sprockets.iter().map(|disc| disc.centre).collect();
    Some(Placed { sprockets, pressed, length_mm })
}

/// A smooth wheel in the middle of the span that leaves sprocket `after`.
fn pressed(sprockets: &[Disc], free: &Path, belt: &Belt, after: usize) -> Smooth {
    let span = &free.spans[after];
    let middle = (span.leaves + span.meets) / 2.0;
    let next = (after + 1) % sprockets.len();
    let spans = free.spans.iter().enumerate().filter(|(i, _)| *i != after);
    let spans = spans.map(|(_, other)| distance_to_segment(middle, other.leaves, other.meets));
    let discs = sprockets.iter().enumerate().filter(|(i, _)| *i != after && *i != next);
    let discs = discs.map(|(_, disc)| (disc.centre - middle).length() - disc.radius);
    let across_mm = spans.chain(discs).fold(f64::INFINITY, f64::min);
    let depth_mm = (DEPTH * span.length).min(ACROSS * across_mm);
    let outside_radius_mm = (RADIUS * span.length).clamp(RADIUS_MM[0], RADIUS_MM[1]);
    let inwards = touch(span.direction, -TURNS.sign());
    let centre = middle - inwards * (outside_radius_mm + belt.back_mm() - depth_mm);
    Smooth { centre, outside_radius_mm, depth_mm, inwards }
}
