//! Outlines as the path data of SVG, and how far they reach.
//!
//! Must not know: classes or parts. Numbers have at most four decimals; y is turned down.

use crate::list::{List, Piece};
use drive::{Angle, DVec2};
use std::f64::consts::{FRAC_PI_2, TAU};

/// No piece of an arc goes further: beyond half a turn an end point tells no arc.
const MOST_SWEEP_RAD: f64 = TAU / 3.0;

/// A number with at most four decimals, without zeros that say nothing.
pub(super) fn number(x: f64) -> String {
    let text = format!("{x:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

fn point(p: DVec2) -> String {
    format!("{} {}", number(p.x), number(-p.y))
}

/// An outline as path data.
pub(super) fn path_data(outline: impl Iterator<Item = Piece>) -> String {
    let mut out = String::new();
    // Where the pen is, as it was written.
    let mut at = String::new();
    for piece in outline {
        match piece {
            Piece::Move(p) => {
                at = point(p);
                out += &format!("M{at}");
            }
            Piece::Line(p) => {
                at = point(p);
                out += &format!("L{at}");
            }
            Piece::Close => out.push('Z'),
            Piece::Arc { centre, radius, from_rad, sweep_rad } => {
                let start = point(on_circle(centre, radius, from_rad));
                if start != at {
                    // An arc joins on where the outline is.
                    out += &format!("{}{start}", if at.is_empty() { "M" } else { "L" });
                }
                let pieces = (sweep_rad.abs() / MOST_SWEEP_RAD).ceil().max(1.0);
                // Anticlockwise seen with y up is against the angles of SVG, whose y goes down.
                let flag = u8::from(sweep_rad < 0.0);
                let r = number(radius);
                for k in 1..=pieces as u32 {
                    let part = f64::from(k) / pieces;
                    at = point(on_circle(centre, radius, from_rad + sweep_rad * part));
                    out += &format!("A{r} {r} 0 0 {flag} {at}");
                }
            }
        }
    }
    out
}

fn on_circle(centre: DVec2, radius: f64, rad: f64) -> DVec2 {
    centre + Angle::from_rad(rad).unit() * radius
}

/// Lowest and highest corner of all that a list draws, lines without their width; a point at zero for
/// an empty list.
pub(super) fn bounds(list: &List) -> (DVec2, DVec2) {
    let mut corners: Option<(DVec2, DVec2)> = None;
    let mut see = |p: DVec2| {
        let (low, high) = corners.unwrap_or((p, p));
        corners = Some((low.min(p), high.max(p)));
    };
    for item in list.items() {
        for piece in list.outline(item) {
            match piece {
                Piece::Move(p) | Piece::Line(p) => see(p),
                Piece::Arc { centre, radius, from_rad, sweep_rad } => {
                    let (low, high) =
                        (from_rad.min(from_rad + sweep_rad), from_rad.max(from_rad + sweep_rad));
                    see(on_circle(centre, radius, low));
                    see(on_circle(centre, radius, high));
                    // Where it is furthest right, up, left and down.
                    let first = (low / FRAC_PI_2).ceil();
                    for k in 0..4 {
                        let rad = (first + f64::from(k)) * FRAC_PI_2;
                        if rad <= high {
                            see(on_circle(centre, radius, rad));
                        }
                    }
                }
                Piece::Close => {}
            }
        }
    }
    corners.unwrap_or((DVec2::ZERO, DVec2::ZERO))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::list::{Class, Part};
    use std::f64::consts::PI;

    #[test]
    fn numbers_are_short() {
        for (x, text) in
            [(0.0, "0"), (-0.00001, "0"), (100.0, "100"), (-7.5, "-7.5"), (1.0 / 3.0, "0.3333")]
        {
            assert_eq!(number(x), text);
        }
    }

    #[test]
    fn a_circle_is_arcs_that_close() {
        let mut list = List::default();
        list.begin(Class::Hub, Part::Wheel(0));
        list.circle(DVec2::new(1.0, 2.0), 3.0);
        let d = path_data(list.outline(&list.items()[0]));
        assert!(d.starts_with("M4 -2A3 3 0 0 0 -0.5 -4.5981A") && d.ends_with(" 4 -2Z"), "{d}");
        assert_eq!(d.matches('A').count(), 3);
        assert_eq!(bounds(&list), (DVec2::new(-2.0, -1.0), DVec2::new(4.0, 5.0)));
    }

    #[test]
    fn an_arc_joins_on_and_reaches_as_far_as_it_goes() {
        let mut list = List::default();
        list.begin(Class::Drift, Part::Wheel(0));
        list.move_to(DVec2::ZERO);
        list.arc(DVec2::ZERO, 2.0, PI, -PI);
        let d = path_data(list.outline(&list.items()[0]));
        assert!(d.starts_with("M0 0L-2 0A2 2 0 0 1 0 -2A"), "{d}");
        let (low, high) = bounds(&list);
        assert!((low - DVec2::new(-2.0, 0.0)).length() < 1e-9);
        assert!((high - DVec2::new(2.0, 2.0)).length() < 1e-9);
    }
}
