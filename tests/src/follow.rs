//! Follows the pieces of a pose by their own numbers, and says where on the belt a place lies.
//!
//! Must not know: how the pieces were laid, or where teeth should be.

use crate::plain::unit;
use core::f64::consts::FRAC_PI_2;
use drive::{DVec2, Piece};

/// A closed line of pieces, with the place along it at which each begins.
#[derive(Clone, Debug)]
pub struct Line<'a> {
    pieces: &'a [Piece],
    /// Where each piece begins, mm along the line, and at the end the length of the whole.
    pub begins_mm: Vec<f64>,
}

/// A piece's length, mm.
pub fn length_mm(piece: &Piece) -> f64 {
    match piece {
        Piece::Arc(arc) => arc.radius * arc.sweep_rad.abs(),
        Piece::Line { from, to } => (*to - *from).length(),
    }
}

/// The point `along` mm into a piece, and the direction of travel there.
pub fn point(piece: &Piece, along: f64) -> (DVec2, DVec2) {
    match piece {
        Piece::Arc(arc) => {
            let way = if arc.sweep_rad < 0.0 { -1.0 } else { 1.0 };
            let at = arc.from_rad + way * along / arc.radius;
            (arc.centre + unit(at) * arc.radius, unit(at + way * FRAC_PI_2))
        }
        Piece::Line { from, to } => {
            let direction = (*to - *from) / (*to - *from).length();
            (*from + direction * along, direction)
        }
    }
}

impl<'a> Line<'a> {
    /// The line of these pieces.
    pub fn of(pieces: &'a [Piece]) -> Self {
        let mut begins_mm = vec![0.0];
        let mut whole = 0.0;
        for piece in pieces {
            whole += length_mm(piece);
            begins_mm.push(whole);
        }
        Self { pieces, begins_mm }
    }

    /// Length of the whole, mm.
    pub fn whole_mm(&self) -> f64 {
        self.begins_mm.last().copied().unwrap_or(0.0)
    }

    /// The piece on which the place `along` mm from the start lies (taken round and round), and how
    /// far into it.
    pub fn piece_at(&self, along: f64) -> (usize, f64) {
        let along = along.rem_euclid(self.whole_mm());
        let after = self.begins_mm.partition_point(|&begin| begin <= along);
        let piece = after.clamp(1, self.pieces.len()) - 1;
        (piece, along - self.begins_mm[piece])
    }

    /// The point `along` mm from the start, and the direction of travel there.
    pub fn at(&self, along: f64) -> (DVec2, DVec2) {
        let (piece, rest) = self.piece_at(along);
        point(&self.pieces[piece], rest)
    }

    /// Where on the line a point with a direction lies, mm from the start, to within `near_mm`.
    pub fn find(&self, at: DVec2, direction: DVec2, near_mm: f64) -> Option<f64> {
        self.pieces.iter().zip(&self.begins_mm).find_map(|(piece, begin)| {
            let along = match piece {
                Piece::Arc(arc) => {
                    let way = if arc.sweep_rad < 0.0 { -1.0 } else { 1.0 };
                    let out = at - arc.centre;
                    let from = unit(arc.from_rad);
                    let turn = way * libm::atan2(from.perp_dot(out), from.dot(out));
                    // A place just before the arc counts as its beginning.
                    let slip = near_mm / arc.radius;
                    let turn = if turn < -slip { turn + core::f64::consts::TAU } else { turn };
                    turn * arc.radius
                }
                Piece::Line { from, to } => (at - *from).dot((*to - *from).normalize()),
            };
            let inside = along >= -near_mm && along <= length_mm(piece) + near_mm;
            let (p, d) = point(piece, along);
            let here = (p - at).length() < near_mm && (d - direction).length() < 1e-3;
            (inside && here).then_some(begin + along)
        })
    }
}
