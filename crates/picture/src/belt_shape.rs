//! The belt: its body along the pitch line, its teeth, the stripes painted across it.
//!
//! Must not know: wheels. A tooth's first and last corner lie on the pitch line, evenly about its
//! middle; the four corners of a stripe's bars are even about the tooth that it is painted on.

use crate::list::{Class, List, Part};
use crate::wheel_shape::TOOTH_HALF;
use drive::{Belt, BeltTooth, DVec2, Piece, Pose, rot90};

/// Width of one bar of a stripe and the room between two, mm.
const BAR_MM: f64 = 2.3;
const BETWEEN_BARS_MM: f64 = 1.3;
/// How far a stripe stands out beyond the belt's faces, mm.
const STANDS_OUT_MM: f64 = 0.8;

/// Emits every belt tooth. `sense` is the crank's, as a sign: the teeth are on that side of the travel.
pub(crate) fn teeth(list: &mut List, belt: &Belt, pose: &Pose, sense: f64) {
    let [base, tip] = TOOTH_HALF.map(|half| half * belt.pitch_mm);
    let tips = belt.tips_mm();
    for (number, tooth) in pose.teeth.iter().enumerate() {
        let along = tooth.direction;
        let inward = rot90(along) * sense;
        list.begin(Class::BeltTooth, Part::BeltTooth(number));
        list.polygon([
            tooth.at - along * base,
            tooth.at + inward * tips - along * tip,
            tooth.at + inward * tips + along * tip,
            tooth.at + along * base,
        ]);
    }
}

/// Emits the belt's body, one shape for each sprocket's wrap and for each run. Its line runs along the
/// middle between the land and the back; the pitch line lies `offset` from it, by [`body_offset`].
pub(crate) fn body(list: &mut List, belt: &Belt, pose: &Pose, sense: f64) {
    let width = belt.thickness_mm - belt.tooth_height_mm;
    let offset = body_offset(belt);
    let mut shown = None;
    for (piece, run) in pose.pieces.iter().zip(&pose.piece_run) {
        if shown != Some(*run) {
            list.begin_wide(Class::BeltBody, Part::Belt(*run), width);
        }
        match *piece {
            Piece::Arc(arc) => {
                // The centre lies on the toothed side where the belt turns the crank's way.
                let radius = arc.radius + offset * sense * arc.sweep_rad.signum();
                if shown != Some(*run) {
                    let start = drive::Angle::from_rad(arc.from_rad).unit() * radius;
                    list.move_to(arc.centre + start);
                }
                list.arc(arc.centre, radius, arc.from_rad, arc.sweep_rad);
            }
            Piece::Line { from, to } => {
                let out = rot90((to - from).normalize_or_zero()) * -sense * offset;
                if shown != Some(*run) {
                    list.move_to(from + out);
                }
                list.line_to(to + out);
            }
        }
        shown = Some(*run);
    }
}

/// How far the middle of the belt's body lies from the pitch line towards the back, mm.
pub(crate) fn body_offset(belt: &Belt) -> f64 {
    (belt.back_mm() - belt.pitch_line_differential_mm) / 2.0
}

/// Emits the stripe of sprocket `sprocket` across the belt at `tooth`: `bars` bars.
pub(crate) fn stripe(
    list: &mut List,
    belt: &Belt,
    tooth: &BeltTooth,
    sense: f64,
    sprocket: usize,
    bars: u32,
) {
    let along = tooth.direction;
    let inward = rot90(along) * sense;
    let back: DVec2 = tooth.at - inward * (belt.back_mm() + STANDS_OUT_MM);
    let front: DVec2 = tooth.at + inward * (belt.tips_mm() + STANDS_OUT_MM);
    let step = BAR_MM + BETWEEN_BARS_MM;
    for bar in 0..bars {
        let middle = along * (step * (f64::from(bar) - f64::from(bars - 1) / 2.0));
        let half = along * (BAR_MM / 2.0);
        list.begin(Class::Stripe, Part::Stripe(sprocket));
        list.polygon([
            back + middle - half,
            front + middle - half,
            front + middle + half,
            back + middle + half,
        ]);
    }
}
