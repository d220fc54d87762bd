//! A belt round wheels that all lie inside it is their convex hull: its length by a general geometry
//! library, the `geo` crate, as a second witness.
//!
//! Must not know: spans or wraps.

use drive::Path;
use geo::{ConvexHull, Euclidean, Length, LineString, MultiPoint, Point};
use proofs::random::sound_layout;
use std::f64::consts::TAU;

/// Corners of the polygon that stands for a wheel: its hull is short by about a sixth of (π/n)².
const CORNERS: u32 = 720;
const LAYOUTS: u64 = 400;

#[test]
fn the_belt_is_the_hull_of_the_wheels() {
    let mut tried = 0;
    for layout in (0..10_000).map(sound_layout).filter(|l| l.all_inside).take(LAYOUTS as usize) {
        let parts = layout.parts;
        let discs: Vec<_> =
            parts.wheels.iter().map(|w| w.disc(&parts.belt, parts.crank_turns)).collect();
        let corners = discs.iter().flat_map(|disc| {
            (0..CORNERS).map(move |k| {
                let (sin, cos) = libm::sincos(TAU * f64::from(k) / f64::from(CORNERS));
                Point::new(disc.centre.x + disc.radius * cos, disc.centre.y + disc.radius * sin)
            })
        });
        let hull: MultiPoint<f64> = corners.collect();
        let around: LineString<f64> = hull.convex_hull().exterior().clone();
        let length = Euclidean.length(&around);
        let path = Path::round(&discs).unwrap().length_mm;
        let off = (path - length) / path;
        assert!(off.abs() < 1e-4, "seed {}: path {path}, hull {length}", layout.seed);
        tried += 1;
    }
    assert_eq!(tried, LAYOUTS, "layouts with every wheel inside");
}
