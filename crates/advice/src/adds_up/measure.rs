//! What a drive that may not close measures: its path with the tensioner where it is bolted up, against the
//! belt and against counted teeth.
//!
//! Must not know: slips.

use crate::laid_out::{bolted, moving};
use drive::{CountedBetween, Drive, Parts, Reference, Stance};
use layout::{Layout, TensionerKind, TravelUnit};

/// What belt and counts have over the path, teeth.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Measure {
    /// The belt.
    pub belt_teeth: f64,
    /// Each count.
    pub counts_teeth: Vec<f64>,
    /// How much of the tensioner's movement takes up belt, of what the same movement could along its pull:
    /// 1 straight along it, 0 square to it.
    pub along_pull: f64,
}

impl Measure {
    /// All differences together, without sign.
    pub fn left_over_teeth(&self) -> f64 {
        self.belt_teeth.abs() + self.counts_teeth.iter().map(|teeth| teeth.abs()).sum::<f64>()
    }

    /// The greatest difference.
    pub fn worst_teeth(&self) -> f64 {
        self.counts_teeth.iter().fold(self.belt_teeth.abs(), |most, teeth| most.max(teeth.abs()))
    }
}

/// Measures `parts` with the tensioner where `layout` has it bolted up; `None` where no line goes round.
pub(super) fn measure(layout: &Layout, parts: &Parts) -> Option<Measure> {
    let mut moving = moving(parts)?;
    let travel = bolted(layout);
    let (length_mm, rate) = moving.stand_at(travel).ok()?;
    let wheel = parts.tensioner.wheel;
    let pull = moving.path.arriving(wheel).direction - moving.path.spans[wheel].direction;
    let most = pull.length() * parts.tensioner.centre_rate(moving.home, travel).length();
    let along_pull = if most > 0.0 { rate / most } else { 0.0 };
    let pitch_mm = parts.belt.pitch_mm;
    let belt_teeth = (parts.belt.pitch_length_mm() - length_mm) / pitch_mm;
    let mut stance = Stance { discs: moving.discs, path: moving.path, ..Stance::default() };
    let sprockets: Vec<Reference> = (0..parts.wheels.len())
        .filter_map(|i| parts.wheels[i].teeth().map(|teeth| (i, teeth)))
        .map(|(i, teeth)| Reference::find(&parts.wheels, &stance.discs, &stance.path, i, teeth))
        .collect();
    stance.measure(&sprockets);
    let place = |wheel: usize| sprockets.iter().position(|s| s.wheel == wheel);
    let counts_teeth = parts.counted.iter().map(|count| {
        let (from, to) = (place(count.from)?, place(count.to)?);
        let mut along_mm = 0.0;
        let mut run = from;
        loop {
            along_mm += stance.run_mm[run];
            run = (run + 1) % sprockets.len();
            if run == to {
                break;
            }
        }
        let shift = match count.between {
            CountedBetween::References => 0.0,
            CountedBetween::Marks => {
                sprockets[to].past_mark_teeth? - sprockets[from].past_mark_teeth?
            }
        };
        Some(count.teeth as f64 + shift - along_mm / pitch_mm)
    });
    Some(Measure { belt_teeth, counts_teeth: counts_teeth.collect::<Option<_>>()?, along_pull })
}

/// Whether a belt can run so, its pointer in its window if it has one.
pub(super) fn closes(layout: &Layout, parts: &Parts) -> bool {
    let Ok(drive) = Drive::new(parts.clone()) else { return false };
    match layout.tensioner.kind {
        TensionerKind::SprungEccentric { pointer_window_deg: [low, high], .. } => {
            (low..=high).contains(&TravelUnit::Deg.outside(drive.taut().travel))
        }
        _ => true,
    }
}

/// Fewest and most whole teeth with which the tensioner could take up the belt.
pub(super) fn fits_teeth(parts: &Parts) -> Option<[u32; 2]> {
    let mut moving = moving(parts)?;
    let mut teeth = |travel| Some(moving.stand_at(travel).ok()?.0 / parts.belt.pitch_mm);
    let least = libm::ceil(teeth(parts.tensioner.right_back)?);
    let most = libm::floor(teeth(parts.tensioner.fully_out)?);
    (least <= most).then_some([least as u32, most as u32])
}
