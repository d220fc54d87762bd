//! Where the wheels' names stand on a drawing, and how large its letters are.
//!
//! Must not know: how a name is written down.

use super::Texts;
use super::text::{width_em, wrapped};
use crate::ground::Ground;
use crate::labels::{LabelBox, leaders, place_labels};
use crate::list::{Class, List, Part, Piece};
use crate::view::View;
use drive::{Angle, DVec2};

/// How large the letters of a drawing are.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sizes {
    /// Size of the letters, mm.
    pub em_mm: f64,
    /// From one line of text to the next, mm.
    pub line_mm: f64,
}

impl Sizes {
    /// For what is drawn `size` wide and high: easy to read when a whole drive fills a sheet.
    pub fn of(size: DVec2) -> Self {
        let em_mm = (size.max_element() / 50.0).clamp(2.0, 40.0);
        Self { em_mm, line_mm: 1.3 * em_mm }
    }
}

/// One wheel's name where it goes.
#[derive(Clone, Debug)]
pub(super) struct Name {
    /// Index of the wheel.
    pub wheel: usize,
    /// Its lines.
    pub lines: Vec<String>,
    /// Lowest and highest corner, mm.
    pub low: DVec2,
    pub high: DVec2,
}

/// Longest line of a name, in ems.
const MOST_EM: f64 = 14.0;
/// Labels are placed as on a screen where letters have this size.
const EM_PX: f64 = 13.0;

/// Places for the wheels' names about what `list` draws from `low` to `high`, and the lines from names
/// that stand off to their wheels.
pub(super) fn names(
    list: &List,
    ground: &Ground,
    texts: &Texts<'_>,
    sizes: &Sizes,
    (low, high): (DVec2, DVec2),
) -> (Vec<Name>, List) {
    let px_per_mm = EM_PX / sizes.em_mm;
    let of_wheels = texts.wheels.iter().take(ground.wheels.len());
    let lines: Vec<Vec<String>> = of_wheels.map(|w| wrapped(w.name, MOST_EM)).collect();
    let boxes: Vec<LabelBox> = lines.iter().map(|lines| label_box(lines)).collect();
    let wide = boxes.iter().map(|b| b.width).fold(0.0, f64::max) + 2.0 * EM_PX;
    let size = (high - low) * px_per_mm + DVec2::splat(2.0 * wide);
    let origin = DVec2::new(wide - low.x * px_per_mm, wide + high.y * px_per_mm);
    let view = View { scale: px_per_mm, origin };
    let ground = as_drawn(ground, list);
    let places = place_labels(&ground, &view, &boxes, size.x, size.y, &[]);
    let mut lead = List::default();
    leaders(&mut lead, &places);
    let names =
        places.iter().zip(&boxes).zip(lines).enumerate().map(|(wheel, ((at, b), lines))| {
            let low = view.to_mm(DVec2::new(at.left, at.top + b.height));
            let high = view.to_mm(DVec2::new(at.left + b.width, at.top));
            Name { wheel, lines, low, high }
        });
    (names.collect(), lead)
}

fn label_box(lines: &[String]) -> LabelBox {
    let wide = lines.iter().map(|line| width_em(line)).fold(0.0, f64::max);
    LabelBox { width: wide * EM_PX, height: 1.3 * EM_PX * lines.len() as f64 }
}

/// The ground with its wheels and its belt where the list has them; a drawing does not move, so that
/// what might come to hang is no matter.
fn as_drawn(ground: &Ground, list: &List) -> Ground {
    const PIECES: u32 = 6;
    let mut ground = Ground {
        slack: Vec::new(),
        drawn_back: (DVec2::ZERO, f64::NEG_INFINITY),
        ..ground.clone()
    };
    let mut belt = Vec::new();
    for item in list.items() {
        match (item.class, item.part) {
            (Class::Hub, Part::Wheel(i)) => {
                let centre = list.outline(item).find_map(|piece| match piece {
                    Piece::Arc { centre, .. } => Some(centre),
                    _ => None,
                });
                if let (Some(wheel), Some(centre)) = (ground.wheels.get_mut(i), centre) {
                    wheel.0 = centre;
                }
            }
            (Class::BeltBody, Part::Belt(Some(_))) => {
                let mut at = None;
                for piece in list.outline(item) {
                    let points: Vec<DVec2> = match piece {
                        Piece::Move(p) | Piece::Line(p) => vec![p],
                        Piece::Arc { centre, radius, from_rad, sweep_rad } => (0..=PIECES)
                            .map(|k| from_rad + sweep_rad * f64::from(k) / f64::from(PIECES))
                            .map(|rad| centre + Angle::from_rad(rad).unit() * radius)
                            .collect(),
                        Piece::Close => Vec::new(),
                    };
                    for p in points {
                        if !matches!(piece, Piece::Move(_)) {
                            belt.extend(at.map(|at| (at, p)));
                        }
                        at = Some(p);
                    }
                }
            }
            _ => {}
        }
    }
    if !belt.is_empty() {
        ground.spans = belt;
    }
    ground
}
