//! Whether a real belt could run along a path: every way in which it could not, named.
//!
//! Must not know: teeth, or how the tensioner came to stand where it does.

use crate::belt::Belt;
use crate::flaw::{Flaw, When};
use crate::geometry::{Disc, Span, segments_meet, touch};
use crate::path::Path;
use alloc::vec::Vec;
use core::f64::consts::{FRAC_PI_2, TAU};
use glam::DVec2;

/// What the check looks at: a traced path, and the metal behind it.
#[derive(Clone, Copy, Debug)]
pub struct Scene<'a> {
    /// The belt, for its section.
    pub belt: &'a Belt,
    /// The circles that the pitch line bends round.
    pub discs: &'a [Disc],
    /// Radius of each wheel's metal, mm.
    pub outside_mm: &'a [f64],
    /// The path round the discs.
    pub path: &'a Path,
    /// The crank's sense as a sign.
    pub sense: f64,
}

/// Everything wrong with the scene, in no more than one entry a pair of parts.
pub fn flaws(scene: &Scene) -> Vec<Flaw> {
    let mut found = Vec::new();
    not_touched(scene, When::Taut, &mut found);
    no_metal(scene, &mut found);
    overlaps(scene, &mut found);
    spans_through_wheels(scene, &mut found);
    crossings(scene, &mut found);
    if found.is_empty() {
        let turned: f64 =
            scene.discs.iter().zip(&scene.path.wraps_rad).map(|(d, wrap)| d.sense * wrap).sum();
        let turns = libm::round(turned * scene.sense / TAU);
        if turns != 1.0 {
            found.push(Flaw::NotOneLoop { turns: turns as i32 });
        }
    }
    found
}

/// Wheels that the belt would pass without touching.
///
/// There the wrap comes out as a small negative angle, folded round to nearly a whole turn. It is
/// told from a true large wrap exactly: with a wrap β above π the arriving and the leaving line meet
/// at ρ·tan(π − β/2) from the points of contact, and if both spans are longer than that, the belt
/// would have to pass through itself there.
pub fn not_touched(scene: &Scene, when: When, found: &mut Vec<Flaw>) {
    let n = scene.path.len();
    for i in 0..n {
        if let Some(missed_by_rad) = folded(scene, i)
            && n > 2
            && missed_by_rad < FRAC_PI_2
        {
            found.push(Flaw::NotTouched { wheel: i, missed_by_rad, when });
        }
    }
}

/// By how much the wrap on disc `i` is short of a whole turn, if its two spans cross, rad.
fn folded(scene: &Scene, i: usize) -> Option<f64> {
    let missing = TAU - scene.path.wraps_rad[i];
    if missing >= TAU / 2.0 {
        return None;
    }
    let reach = scene.discs[i].radius * libm::tan(missing / 2.0);
    let cross = scene.path.arriving(i).length > reach && scene.path.spans[i].length > reach;
    cross.then_some(missing)
}

fn no_metal(scene: &Scene, found: &mut Vec<Flaw>) {
    for (wheel, (disc, outside)) in scene.discs.iter().zip(scene.outside_mm).enumerate() {
        // The metal of a sprocket lies inside its pitch circle, that of a smooth wheel on the teeth
        // further in still, by the teeth themselves.
        let sprocket = *outside > disc.radius - scene.belt.tips_mm();
        let by_mm = scene.belt.tips_mm() - disc.radius;
        if sprocket && disc.sense == scene.sense && by_mm >= 0.0 {
            found.push(Flaw::NoMetal { wheel, by_mm });
        }
    }
}

fn overlaps(scene: &Scene, found: &mut Vec<Flaw>) {
    let n = scene.discs.len();
    for a in 0..n {
        for b in a + 1..n {
            let between = scene.discs[b].centre - scene.discs[a].centre;
            let metal = scene.outside_mm[a] + scene.outside_mm[b];
            let d2 = between.length_squared();
            // The belt never stands off more than its own thickness on either wheel.
            let reach = metal + 2.0 * scene.belt.thickness_mm;
            if d2 >= reach * reach {
                continue;
            }
            let d = libm::sqrt(d2);
            let room = d
                - metal
                - belt_between(scene, a, between / d)
                - belt_between(scene, b, -between / d);
            if room < 0.0 {
                found.push(Flaw::Overlap { a, b, by_mm: -room });
            }
        }
    }
}

/// How far the belt stands out from the metal of wheel `i` in direction `towards`: its thickness
/// where the wrap covers that direction (on a sprocket only what stands out of the grooves).
fn belt_between(scene: &Scene, i: usize, towards: DVec2) -> f64 {
    let disc = &scene.discs[i];
    let meets = touch(scene.path.arriving(i).direction, disc.sense);
    let turn = disc.sense * libm::atan2(meets.perp_dot(towards), meets.dot(towards));
    let past = if turn < 0.0 { turn + TAU } else { turn };
    if past > scene.path.wraps_rad[i] {
        return 0.0;
    }
    let outside =
        if disc.sense == scene.sense { scene.belt.back_mm() } else { scene.belt.tips_mm() };
    disc.radius + outside - scene.outside_mm[i]
}

fn spans_through_wheels(scene: &Scene, found: &mut Vec<Flaw>) {
    let n = scene.discs.len();
    for (i, span) in scene.path.spans.iter().enumerate() {
        let to = if i + 1 == n { 0 } else { i + 1 };
        for wheel in 0..n {
            if wheel == i || wheel == to {
                continue;
            }
            let centre = scene.discs[wheel].centre;
            // The belt never stands off more than its own thickness, on the wheel or in the span.
            let reach = scene.outside_mm[wheel] + 2.0 * scene.belt.thickness_mm;
            let along = (centre - span.leaves).dot(span.direction);
            if along < -reach || along > span.length + reach {
                continue;
            }
            let away = span.leaves + span.direction * along.clamp(0.0, span.length) - centre;
            let apart = away.length();
            if apart >= reach {
                continue;
            }
            // The wheel lies on the belt's toothed side or on its back's side.
            let left = span.direction.perp_dot(centre - span.leaves) > 0.0;
            let toothed_side = left == (scene.sense > 0.0);
            let belt_mm = if toothed_side { scene.belt.tips_mm() } else { scene.belt.back_mm() };
            let on_wheel_mm = belt_between(scene, wheel, away / apart);
            let by_mm = scene.outside_mm[wheel] + on_wheel_mm + belt_mm - apart;
            if by_mm > 0.0 {
                found.push(Flaw::SpanThroughWheel { from: i, to, wheel, by_mm });
            }
        }
    }
}

fn crossings(scene: &Scene, found: &mut Vec<Flaw>) {
    let spans = &scene.path.spans;
    let n = spans.len();
    for a in 0..n {
        for b in a + 1..n {
            let neighbours = b == a + 1 || (a == 0 && b + 1 == n);
            if neighbours {
                let i = if b == a + 1 { b } else { 0 };
                if folded(scene, i).is_some_and(|missing| n == 2 || missing >= FRAC_PI_2) {
                    found.push(Flaw::SpansCross { a, b });
                }
            } else if segments_meet(
                spans[a].leaves,
                spans[a].meets,
                spans[b].leaves,
                spans[b].meets,
            ) {
                found.push(Flaw::SpansCross { a, b });
            } else if let Some(by_mm) = too_close(scene, &spans[a], &spans[b]) {
                found.push(Flaw::SpansTouch { a, b, by_mm });
            }
        }
    }
}

/// The room that the belt lacks between two spans that do not cross, mm.
fn too_close(scene: &Scene, a: &Span, b: &Span) -> Option<f64> {
    let belt_towards = |span: &Span, p: DVec2| {
        let left = span.direction.perp_dot(p - span.leaves) > 0.0;
        if left == (scene.sense > 0.0) { scene.belt.tips_mm() } else { scene.belt.back_mm() }
    };
    // Two segments that do not cross are nearest at an end of one of them.
    let ends = [
        (a.leaves, b.nearest(a.leaves)),
        (a.meets, b.nearest(a.meets)),
        (a.nearest(b.leaves), b.leaves),
        (a.nearest(b.meets), b.meets),
    ];
    let (on_a, on_b) = ends
        .into_iter()
        .min_by(|x, y| (x.0 - x.1).length_squared().total_cmp(&(y.0 - y.1).length_squared()))?;
    let needed = belt_towards(a, on_b) + belt_towards(b, on_a);
    let apart = (on_a - on_b).length();
    (apart < needed).then_some(needed - apart)
}

#[cfg(test)]
mod tests {
    use super::*;
    use glam::DVec2;

    const BELT: Belt = Belt {
        teeth: 100,
        pitch_mm: 9.525,
        thickness_mm: 5.5,
        tooth_height_mm: 3.5,
        pitch_line_differential_mm: 0.686,
    };

    /// Flaws of wheels given as (x, y, radius, sense), anticlockwise crank, metal at 0.686 inside.
    fn found(wheels: &[(f64, f64, f64, f64)]) -> Vec<Flaw> {
        let discs: Vec<Disc> = wheels
            .iter()
            .map(|&(x, y, radius, sense)| Disc { centre: DVec2::new(x, y), radius, sense })
            .collect();
        let outside: Vec<f64> = wheels.iter().map(|w| w.2 - 0.686).collect();
        let path = Path::round(&discs).unwrap();
        flaws(&Scene { belt: &BELT, discs: &discs, outside_mm: &outside, path: &path, sense: 1.0 })
    }

    #[test]
    fn two_wheels_are_sound_and_crossed_are_not() {
        assert_eq!(found(&[(0.0, 0.0, 20.0, 1.0), (100.0, 0.0, 30.0, 1.0)]), []);
        let crossed = found(&[(0.0, 0.0, 20.0, 1.0), (100.0, 0.0, 30.0, -1.0)]);
        assert!(matches!(crossed[..], [Flaw::SpansCross { a: 0, b: 1 }]), "{crossed:?}");
    }

    #[test]
    fn a_wheel_inside_the_loop_is_not_touched() {
        let f = found(&[(0.0, 0.0, 20.0, 1.0), (300.0, 0.0, 20.0, 1.0), (150.0, 14.0, 5.0, 1.0)]);
        assert!(matches!(f[..], [Flaw::NotTouched { wheel: 2, .. }]), "{f:?}");
    }

    #[test]
    fn two_misses_that_cancel_are_both_named() {
        // One wheel on the toothed face misses to the inside, one on the back misses to the outside:
        // the sum of all turns is still one.
        let f = found(&[
            (0.0, 0.0, 20.0, 1.0),
            (400.0, 0.0, 20.0, 1.0),
            (300.0, 14.0, 5.0, 1.0),
            (100.0, 30.0, 5.0, -1.0),
        ]);
        let missed: Vec<usize> = f
            .iter()
            .filter_map(
                |f| if let Flaw::NotTouched { wheel, .. } = f { Some(*wheel) } else { None },
            )
            .collect();
        assert_eq!(missed, [2, 3], "{f:?}");
    }

    /// A belt that comes back past itself: the first span clears the third wheel's metal, but not the
    /// belt that lies there.
    #[test]
    fn a_span_through_the_belt_on_another_wheel() {
        let wheels = |third_y| {
            [
                (-436.1, 205.2, 69.04, 1.0),
                (-101.7, 205.7, 30.21, -1.0),
                (-242.8, third_y, 57.79, 1.0),
                (220.1, 98.4, 64.44, 1.0),
                (-101.1, 741.2, 62.13, 1.0),
                (-368.6, 649.5, 50.63, 1.0),
            ]
        };
        let f = found(&wheels(131.2));
        assert!(
            matches!(f[..], [Flaw::SpanThroughWheel { from: 0, to: 1, wheel: 2, by_mm }]
                if by_mm > 0.0 && by_mm < 2.0),
            "{f:?}"
        );
        assert_eq!(found(&wheels(128.0)), []);
    }

    #[test]
    fn a_belt_too_thick_for_its_wheels() {
        // Two wheels of pitch radius 4 under teeth that reach 4.186 mm in from the pitch line.
        let f = found(&[(0.0, 0.0, 4.0, 1.0), (200.0, 0.0, 4.0, 1.0)]);
        assert!(f.iter().any(|f| matches!(f, Flaw::NoMetal { wheel: 0, .. })), "{f:?}");
        // A back-side wheel presses one span to 5 mm from the other; teeth of both need 8.372 mm.
        let f = found(&[(0.0, 0.0, 20.0, 1.0), (400.0, 0.0, 20.0, 1.0), (200.0, 35.0, 50.0, -1.0)]);
        assert!(
            f.iter().any(|f| matches!(f, Flaw::SpanThroughWheel { .. } | Flaw::SpansTouch { .. })),
            "{f:?}"
        );
    }

    #[test]
    fn a_span_through_a_wheel_and_bodies_that_overlap() {
        let f = found(&[
            (0.0, 0.0, 20.0, 1.0),
            (300.0, 0.0, 20.0, 1.0),
            (300.0, 200.0, 20.0, 1.0),
            (150.0, 60.0, 30.0, 1.0),
            (0.0, 200.0, 20.0, 1.0),
        ]);
        assert!(
            f.iter().any(|f| matches!(f, Flaw::NotTouched { wheel: 3, .. })
                || matches!(f, Flaw::SpanThroughWheel { .. })),
            "{f:?}"
        );
        let f = found(&[(0.0, 0.0, 30.0, 1.0), (300.0, 0.0, 60.0, 1.0), (260.0, 90.0, 40.0, 1.0)]);
        assert!(f.iter().any(|f| matches!(f, Flaw::Overlap { a: 1, b: 2, .. })), "{f:?}");
    }
}
