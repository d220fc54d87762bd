//! Whole belt teeth between sprockets: what geometry suggests, settled by what somebody counted.
//!
//! Must not know: slack, or where any shaft stands.
//!
//! Counted from the crank along the travel, sprocket k would be dead on its mark with Σ G/p teeth, G
//! being the path from reference groove to reference groove. The nearest whole number puts it within
//! half a tooth, and all of them sum to the belt; rounding each run on its own need not. A count on the
//! old belt outranks that: measured centres leave it open where the geometry lies near half a tooth.

use crate::belt::Belt;
use crate::flaw::Flaw;
use crate::mesh::Reference;
use alloc::vec;
use alloc::vec::Vec;

/// Teeth that somebody counted along the travel from one marked sprocket to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Counted {
    /// Index of the wheel counted from.
    pub from: usize,
    /// Index of the wheel counted to.
    pub to: usize,
    /// How many.
    pub teeth: i64,
    /// Between what.
    pub between: CountedBetween,
}

/// Between what teeth were counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CountedBetween {
    /// The reference grooves.
    References,
    /// The places on the belt where the marks point.
    Marks,
}

/// Whole belt teeth in each run with every mark in time; they sum to the belt. Shafts that a count ties
/// to the crank stand where it puts them; of those tied only to each other, the one met first is put
/// nearest its mark.
///
/// # Errors
/// Counts that contradict each other or the belt, or that are not whole between reference grooves.
pub fn teeth_in_time(
    belt: &Belt,
    sprockets: &[Reference],
    run_mm: &[f64],
    counted: &[Counted],
) -> Result<Vec<i64>, Flaw> {
    let total = i64::from(belt.teeth);
    let ties = counted.iter().map(|c| tie(sprockets, c)).collect::<Result<Vec<_>, _>>()?;
    let mut placed: Vec<Option<i64>> = vec![None; sprockets.len()];
    let mut along = 0.0;
    for k in 0..sprockets.len() {
        if placed[k].is_none() {
            let nearest = libm::round(along / belt.pitch_mm) as i64;
            placed[k] = Some(nearest);
            spread(&ties, total, &mut placed)?;
        }
        along += run_mm[k];
    }
    let upto: Vec<i64> = placed.into_iter().map(|p| p.unwrap_or(0)).chain([total]).collect();
    let teeth: Vec<i64> = upto.windows(2).map(|pair| pair[1] - pair[0]).collect();
    match teeth.iter().position(|n| *n < 1) {
        None => Ok(teeth),
        Some(run) => {
            let to = if run + 1 == sprockets.len() { 0 } else { run + 1 };
            let (from, to) = (sprockets[run].wheel, sprockets[to].wheel);
            Err(Flaw::CountLeavesNone { from, to, teeth: teeth[run] })
        }
    }
}

/// A count between sprockets, from reference groove to reference groove.
#[derive(Clone, Copy)]
struct Tie {
    from: usize,
    to: usize,
    teeth: i64,
}

fn tie(sprockets: &[Reference], counted: &Counted) -> Result<Tie, Flaw> {
    let not_whole = Flaw::CountNotWhole { from: counted.from, to: counted.to };
    let find = |wheel| sprockets.iter().position(|s| s.wheel == wheel).ok_or(not_whole);
    let (from, to) = (find(counted.from)?, find(counted.to)?);
    let shift = match counted.between {
        CountedBetween::References => 0.0,
        // From mark to mark is past the one's reference groove and short of the other's.
        CountedBetween::Marks => {
            let past = |k: usize| sprockets[k].past_mark_teeth.ok_or(not_whole);
            past(to)? - past(from)?
        }
    };
    if shift != libm::round(shift) {
        return Err(not_whole);
    }
    Ok(Tie { from, to, teeth: counted.teeth + shift as i64 })
}

/// Follows the ties from what is placed, until nothing more follows.
fn spread(ties: &[Tie], total: i64, placed: &mut [Option<i64>]) -> Result<(), Flaw> {
    // Each round places a sprocket or is the last.
    for _ in 0..=placed.len() {
        for tie in ties {
            // Past the crank the count goes on from nothing again.
            let teeth = if tie.to > tie.from { tie.teeth } else { tie.teeth - total };
            match (placed[tie.from], placed[tie.to]) {
                (Some(from), None) => placed[tie.to] = Some(from + teeth),
                (None, Some(to)) => placed[tie.from] = Some(to - teeth),
                (Some(from), Some(to)) if to - from != teeth => {
                    let counted = total + teeth - (to - from);
                    return Err(Flaw::CountsDoNotSum { counted, belt: total });
                }
                _ => {}
            }
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn belt(teeth: u32) -> Belt {
        Belt {
            teeth,
            pitch_mm: 1.0,
            thickness_mm: 1.0,
            tooth_height_mm: 0.5,
            pitch_line_differential_mm: 0.1,
        }
    }

    fn sprockets(past: &[f64]) -> Vec<Reference> {
        past.iter()
            .enumerate()
            .map(|(i, past)| Reference {
                wheel: 2 * i,
                teeth: 20,
                at_rad: 0.0,
                past_mark_teeth: Some(*past),
            })
            .collect()
    }

    fn counted(from: usize, to: usize, teeth: i64, between: CountedBetween) -> Counted {
        Counted { from: 2 * from, to: 2 * to, teeth, between }
    }

    #[test]
    fn rounding_from_the_crank_sums_to_the_belt() {
        // Each run alone would round to 3, which sums to 9.
        let teeth = teeth_in_time(&belt(10), &sprockets(&[0.0; 3]), &[10.0 / 3.0; 3], &[]);
        assert_eq!(teeth, Ok(Vec::from([3, 4, 3])));
    }

    #[test]
    fn a_count_settles_what_geometry_leaves_open() {
        use CountedBetween::References;
        let runs = [30.45, 39.1, 30.45];
        let at =
            |counts: &[Counted]| teeth_in_time(&belt(100), &sprockets(&[0.0; 3]), &runs, counts);
        assert_eq!(at(&[]), Ok(Vec::from([30, 40, 30])));
        assert_eq!(at(&[counted(0, 1, 31, References)]), Ok(Vec::from([31, 39, 30])));
        assert_eq!(at(&[counted(2, 0, 31, References)]), Ok(Vec::from([30, 39, 31])));
        // Tied only to each other: the one met first is put nearest its mark.
        assert_eq!(at(&[counted(1, 2, 39, References)]), Ok(Vec::from([30, 39, 31])));
        // Through the crank, from the last to the second.
        assert_eq!(at(&[counted(2, 1, 62, References)]), Ok(Vec::from([30, 38, 32])));
    }

    #[test]
    fn a_count_from_mark_to_mark_knows_how_far_the_grooves_are() {
        use CountedBetween::Marks;
        let s = sprockets(&[-5.0, 2.0, 0.5]);
        let runs = [30.0, 40.0, 30.0];
        // The crank's groove is 5 before its mark, the other's 2 past: 7 more from groove to groove.
        let one = [counted(0, 1, 24, Marks)];
        assert_eq!(teeth_in_time(&belt(100), &s, &runs, &one), Ok(Vec::from([31, 39, 30])));
        let half = [counted(0, 2, 60, Marks)];
        assert_eq!(
            teeth_in_time(&belt(100), &s, &runs, &half),
            Err(Flaw::CountNotWhole { from: 0, to: 4 })
        );
    }

    #[test]
    fn counts_that_contradict_are_named() {
        use CountedBetween::References;
        let s = sprockets(&[0.0; 3]);
        let all = [
            counted(0, 1, 30, References),
            counted(1, 2, 40, References),
            counted(2, 0, 29, References),
        ];
        assert_eq!(
            teeth_in_time(&belt(100), &s, &[30.0, 40.0, 30.0], &all),
            Err(Flaw::CountsDoNotSum { counted: 99, belt: 100 })
        );
        let backwards = [counted(0, 1, 80, References)];
        assert!(matches!(
            teeth_in_time(&belt(100), &s, &[30.0, 40.0, 30.0], &backwards),
            Err(Flaw::CountLeavesNone { from: 2, to: 4, .. })
        ));
    }
}
