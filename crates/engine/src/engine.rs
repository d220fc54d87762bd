//! A whole engine, its figures checked: values that cannot be wrong.
//!
//! Must not know: belts. Whoever asks says how far each camshaft is off, in crank degrees.

use crate::angle::{within, wrap_cycle};
use crate::bounds;
use crate::crank::SliderCrank;
use crate::events::{Between, Kind};
use crate::figures::{AtMarks, CamshaftFigures, Events, Figures, Top};
use crate::flaw::{Figure, Flaw};
use crate::valve::{Check, Valve};
use alloc::vec::Vec;

/// An engine whose figures hold together.
///
/// A camshaft's error is in crank degrees, ahead positive: with it ahead, its valves open and close
/// that many crank degrees earlier.
#[derive(Clone, Debug, PartialEq)]
pub struct Engine {
    bore_mm: Option<f64>,
    crank: Option<SliderCrank>,
    compression_ratio: Option<f64>,
    at_marks: AtMarks,
    fires_at_deg: Vec<f64>,
    camshafts: Vec<Camshaft>,
    valves_meet_at_lift_sum_mm: Option<f64>,
}

/// One checked camshaft.
#[derive(Clone, Debug, PartialEq)]
pub struct Camshaft {
    cylinders: Vec<usize>,
    intake: Option<Valve>,
    exhaust: Option<Valve>,
    phaser_deg: Option<[f64; 2]>,
}

impl Camshaft {
    /// The cylinders whose valves it moves, by index from 0, as they were given.
    pub fn cylinders(&self) -> &[usize] {
        &self.cylinders
    }

    /// Its valve of one kind.
    pub fn valve(&self, kind: Kind) -> Option<&Valve> {
        match kind {
            Kind::Intake => self.intake.as_ref(),
            Kind::Exhaust => self.exhaust.as_ref(),
        }
    }

    /// Its valves, the intake first.
    pub fn valves(&self) -> impl Iterator<Item = &Valve> {
        Kind::BOTH.into_iter().filter_map(|kind| self.valve(kind))
    }

    /// How far its phaser reaches from rest, crank degrees, back (not above 0) and ahead (not below).
    pub fn phaser_deg(&self) -> Option<[f64; 2]> {
        self.phaser_deg
    }
}

impl Engine {
    /// Checks an engine's figures.
    ///
    /// # Errors
    /// Every flaw found, by part.
    ///
    /// ```
    /// use engine::*;
    /// let figures = Figures {
    ///     bore_mm: None,
    ///     crank: Some(CrankFigures { stroke_mm: 80.0, rod_mm: 133.0 }),
    ///     compression_ratio: Some(9.5),
    ///     at_marks: AtMarks { crank_atdc_deg: 0.0, top: Top::Firing },
    ///     fires_at_deg: vec![0.0, 540.0, 180.0, 360.0],
    ///     camshafts: vec![CamshaftFigures {
    ///         cylinders: vec![0, 1, 2, 3],
    ///         intake: Some(ValveFigures {
    ///             motion: Motion::Law {
    ///                 events: Events::of(Kind::Intake, 10.0, 50.0),
    ///                 at_lift_mm: 0.0,
    ///                 lift_mm: 9.0,
    ///                 law: Law::Polynomial345,
    ///             },
    ///             room: Some(Room { lean_deg: 20.0, gap_at_top_mm: 2.6 }),
    ///             spring: None,
    ///         }),
    ///         exhaust: None,
    ///         phaser_deg: None,
    ///     }],
    ///     valves_meet_at_lift_sum_mm: None,
    /// };
    /// let engine = Engine::new(figures).unwrap();
    /// // In time this intake valve clears its piston; three teeth of 18 crank degrees ahead it does not.
    /// let gap = |ahead| engine.gap(0, Kind::Intake, ahead, Phasing::AtRest).unwrap().least();
    /// assert!(gap(0.0).along_bore_mm > 2.5);
    /// assert!(gap(54.0).along_bore_mm < 0.0);
    /// ```
    pub fn new(figures: Figures) -> Result<Self, Vec<Flaw>> {
        let mut flaws = Vec::new();
        let mut range = |figure, found: f64, (least, most): bounds::Bounds| {
            if !(least..=most).contains(&found) {
                flaws.push(Flaw::OutOfRange { figure, found, least, most });
            }
        };
        if let Some(bore) = figures.bore_mm {
            range(Figure::Bore, bore, bounds::BORE_MM);
        }
        if let Some(ratio) = figures.compression_ratio {
            range(Figure::CompressionRatio, ratio, bounds::COMPRESSION_RATIO);
        }
        range(Figure::CrankAtMarks, figures.at_marks.crank_atdc_deg, bounds::CRANK_AT_MARKS_DEG);
        for (cylinder, deg) in figures.fires_at_deg.iter().enumerate() {
            // Cylinder 1 fires 0° after itself.
            let allowed = if cylinder == 0 { (0.0, 0.0) } else { bounds::FIRES_AT_DEG };
            range(Figure::FiresAt(cylinder), *deg, allowed);
        }
        let mut crank = None;
        if let Some(stated) = figures.crank {
            range(Figure::Stroke, stated.stroke_mm, bounds::STROKE_MM);
            crank = SliderCrank::new(stated.stroke_mm, stated.rod_mm)
                .filter(|_| stated.rod_mm <= bounds::ROD_MOST_MM);
            if crank.is_none() {
                let (found, above) = (stated.rod_mm, stated.stroke_mm / 2.0);
                let (figure, below) = (Figure::Rod, bounds::ROD_MOST_MM);
                flaws.push(Flaw::NotBetween { figure, found, above, below, or_equal: false });
            }
        }
        let (fewest, most) = bounds::CYLINDERS;
        count(Figure::FiresAt(0), figures.fires_at_deg.len(), fewest, most, &mut flaws);
        count(Figure::Camshafts, figures.camshafts.len(), 0, bounds::MOST_CAMSHAFTS, &mut flaws);
        let cylinders = figures.fires_at_deg.len();
        let camshafts: Vec<Camshaft> = figures
            .camshafts
            .iter()
            .enumerate()
            .map(|(i, stated)| camshaft(i, stated, cylinders, &mut flaws))
            .collect();
        moved_twice(&camshafts, &mut flaws);
        if let Some(sum) = figures.valves_meet_at_lift_sum_mm {
            valves_meet(sum, &camshafts, &mut flaws);
        }
        if !flaws.is_empty() {
            return Err(flaws);
        }
        Ok(Self {
            bore_mm: figures.bore_mm,
            crank,
            compression_ratio: figures.compression_ratio,
            at_marks: figures.at_marks,
            fires_at_deg: figures.fires_at_deg,
            camshafts,
            valves_meet_at_lift_sum_mm: figures.valves_meet_at_lift_sum_mm,
        })
    }

    /// Cylinder diameter, mm.
    pub fn bore_mm(&self) -> Option<f64> {
        self.bore_mm
    }

    /// Stroke and rod.
    pub fn crank(&self) -> Option<&SliderCrank> {
        self.crank.as_ref()
    }

    /// Volume of a cylinder at the bottom over that at the top.
    pub fn compression_ratio(&self) -> Option<f64> {
        self.compression_ratio
    }

    /// How many cylinders there are, at least one.
    pub fn cylinders(&self) -> usize {
        self.fires_at_deg.len()
    }

    /// Crank degrees from cylinder 1's firing top to each cylinder's own.
    pub fn fires_at_deg(&self) -> &[f64] {
        &self.fires_at_deg
    }

    /// The camshafts, in the order in which they were given.
    pub fn camshafts(&self) -> &[Camshaft] {
        &self.camshafts
    }

    /// The sum of both lifts at which the valves of a cylinder meet, mm.
    pub fn valves_meet_at_lift_sum_mm(&self) -> Option<f64> {
        self.valves_meet_at_lift_sum_mm
    }

    /// Where the crank stands when all marks are in time: degrees after cylinder 1's firing top, in
    /// [0, 720).
    pub fn at_marks_deg(&self) -> f64 {
        let overlap = match self.at_marks.top {
            Top::Firing => 0.0,
            Top::Overlap => 360.0,
        };
        within(self.at_marks.crank_atdc_deg + overlap, 720.0)
    }

    /// The angle from a cylinder's own overlap top, in (−360, 360], when the crank stands `crank_deg`
    /// past its marks. For pistons the crank's angle counts, for valves their camshaft's (in crank
    /// degrees past its mark). A cylinder that is not there is taken as cylinder 1.
    pub fn from_overlap_deg(&self, cylinder: usize, crank_deg: f64) -> f64 {
        let fires = self.fires_at_deg.get(cylinder).copied().unwrap_or(0.0);
        wrap_cycle(self.at_marks_deg() + crank_deg - fires - 360.0)
    }

    /// A valve's opening and closing at the lift at which they are told, its camshaft `error_deg` crank
    /// degrees ahead.
    pub fn events(&self, camshaft: usize, kind: Kind, error_deg: f64) -> Option<Events> {
        Some(self.camshafts.get(camshaft)?.valve(kind)?.events().ahead(error_deg))
    }

    /// Overlap and separation of a cylinder's valves, each camshaft `errors_deg` crank degrees ahead (0
    /// where none is given); `None` unless both valves are known.
    pub fn between(&self, cylinder: usize, errors_deg: &[f64]) -> Option<Between> {
        let events = |kind| {
            let camshaft = self.moved_by(cylinder, kind)?;
            self.events(camshaft, kind, errors_deg.get(camshaft).copied().unwrap_or(0.0))
        };
        Some(Between::of(&events(Kind::Intake)?, &events(Kind::Exhaust)?))
    }

    /// Which camshaft moves a cylinder's valve.
    pub fn moved_by(&self, cylinder: usize, kind: Kind) -> Option<usize> {
        self.camshafts
            .iter()
            .position(|c| c.valve(kind).is_some() && c.cylinders.contains(&cylinder))
    }
}

fn count(figure: Figure, found: usize, fewest: usize, most: usize, flaws: &mut Vec<Flaw>) {
    if !(fewest..=most).contains(&found) {
        flaws.push(Flaw::Count { figure, found, fewest, most });
    }
}

/// One camshaft with whatever of it is sound.
fn camshaft(
    camshaft: usize,
    stated: &CamshaftFigures,
    cylinders: usize,
    flaws: &mut Vec<Flaw>,
) -> Camshaft {
    count(Figure::Cylinders(camshaft), stated.cylinders.len(), 1, bounds::CYLINDERS.1, flaws);
    for &cylinder in stated.cylinders.iter().filter(|c| **c >= cylinders) {
        flaws.push(Flaw::NoSuchCylinder { camshaft, cylinder, cylinders });
    }
    let (least, most) = bounds::PHASER_DEG;
    let [back, ahead] = stated.phaser_deg.unwrap_or([0.0, 0.0]);
    for (found, least, most) in [(back, least, 0.0), (ahead, 0.0, most)] {
        if !(least..=most).contains(&found) {
            flaws.push(Flaw::OutOfRange { figure: Figure::Phaser(camshaft), found, least, most });
        }
    }
    let mut valve = |kind, stated: &Option<_>| {
        let check = Check { camshaft, kind, flaws };
        stated.as_ref().and_then(|figures| check.valve(figures, [back, ahead]))
    };
    Camshaft {
        cylinders: stated.cylinders.clone(),
        intake: valve(Kind::Intake, &stated.intake),
        exhaust: valve(Kind::Exhaust, &stated.exhaust),
        phaser_deg: stated.phaser_deg,
    }
}

fn moved_twice(camshafts: &[Camshaft], flaws: &mut Vec<Flaw>) {
    for valve in Kind::BOTH {
        let mut seen = Vec::new();
        for (camshaft, c) in camshafts.iter().enumerate().filter(|(_, c)| c.valve(valve).is_some())
        {
            for &cylinder in &c.cylinders {
                if seen.contains(&cylinder) {
                    flaws.push(Flaw::MovedTwice { camshaft, cylinder, valve });
                }
                seen.push(cylinder);
            }
        }
    }
}

/// Two valves can meet only when both are open, and each camshaft can meet one other.
fn valves_meet(sum: f64, camshafts: &[Camshaft], flaws: &mut Vec<Flaw>) {
    let lifts = camshafts.iter().flat_map(Camshaft::valves).filter_map(Valve::lobe);
    let least = lifts.fold(0.0, |most: f64, lobe| most.max(lobe.most_mm()));
    let most = 2.0 * bounds::LIFT_MM.1;
    if !(least..=most).contains(&sum) {
        flaws.push(Flaw::OutOfRange { figure: Figure::ValvesMeet, found: sum, least, most });
    }
    for (camshaft, c) in camshafts.iter().enumerate() {
        let shares = |d: &Camshaft| d.cylinders.iter().any(|k| c.cylinders.contains(k));
        let others = camshafts.iter().enumerate().filter(|(j, d)| *j != camshaft && shares(d));
        if others.count() > 1 {
            flaws.push(Flaw::MeetsMoreThanOne { camshaft });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::{CrankFigures, Motion, ValveFigures};

    fn bare() -> Figures {
        Figures {
            bore_mm: None,
            crank: None,
            compression_ratio: None,
            at_marks: AtMarks { crank_atdc_deg: 0.0, top: Top::Firing },
            fires_at_deg: Vec::from([0.0, 540.0, 180.0, 360.0]),
            camshafts: Vec::new(),
            valves_meet_at_lift_sum_mm: None,
        }
    }

    fn degrees_only(kind: Kind) -> Option<ValveFigures> {
        let events = Events::of(kind, 10.0, 50.0);
        Some(ValveFigures { motion: Motion::Stated { events }, room: None, spring: None })
    }

    #[test]
    fn what_is_absent_is_no_flaw() {
        let engine = Engine::new(bare()).unwrap();
        assert_eq!((engine.cylinders(), engine.crank(), engine.between(0, &[])), (4, None, None));
        let mut figures = bare();
        figures.camshafts.push(CamshaftFigures {
            cylinders: Vec::from([0, 1]),
            intake: degrees_only(Kind::Intake),
            exhaust: None,
            phaser_deg: None,
        });
        let engine = Engine::new(figures).unwrap();
        assert_eq!(engine.events(0, Kind::Intake, 15.0).unwrap().opens_deg, -25.0);
        assert_eq!(engine.moved_by(1, Kind::Intake), Some(0));
        assert_eq!(engine.moved_by(2, Kind::Intake), None);
    }

    #[test]
    fn every_flaw_is_told_at_once() {
        let mut figures = bare();
        figures.bore_mm = Some(f64::NAN);
        figures.crank = Some(CrankFigures { stroke_mm: 80.0, rod_mm: 40.0 });
        figures.compression_ratio = Some(2.0);
        figures.fires_at_deg[0] = 1.0;
        for cylinders in [[0, 9], [0, 1]] {
            figures.camshafts.push(CamshaftFigures {
                cylinders: Vec::from(cylinders),
                intake: degrees_only(Kind::Intake),
                exhaust: None,
                phaser_deg: Some([10.0, 20.0]),
            });
        }
        let flaws = Engine::new(figures).unwrap_err();
        let has = |wanted: &dyn Fn(&Flaw) -> bool| flaws.iter().filter(|f| wanted(f)).count();
        assert_eq!(has(&|f| matches!(f, Flaw::OutOfRange { figure: Figure::Bore, .. })), 1);
        assert_eq!(
            has(&|f| matches!(
                f,
                Flaw::NotBetween { figure: Figure::Rod, found: 40.0, above: 40.0, .. }
            )),
            1
        );
        assert_eq!(has(&|f| matches!(f, Flaw::OutOfRange { figure: Figure::FiresAt(0), .. })), 1);
        assert_eq!(has(&|f| matches!(f, Flaw::NoSuchCylinder { camshaft: 0, cylinder: 9, .. })), 1);
        assert_eq!(has(&|f| matches!(f, Flaw::MovedTwice { camshaft: 1, cylinder: 0, .. })), 1);
        assert_eq!(has(&|f| matches!(f, Flaw::OutOfRange { figure: Figure::Phaser(_), .. })), 2);
        assert_eq!(flaws.len(), 8, "{flaws:?}");
    }

    #[test]
    fn angles_from_each_cylinders_own_overlap_top() {
        let mut figures = bare();
        let engine = Engine::new(figures.clone()).unwrap();
        assert_eq!(engine.from_overlap_deg(0, 0.0), 360.0);
        assert_eq!(engine.from_overlap_deg(3, 0.0), 0.0);
        assert_eq!(engine.from_overlap_deg(2, 0.0), 180.0);
        figures.at_marks = AtMarks { crank_atdc_deg: -60.0, top: Top::Overlap };
        let engine = Engine::new(figures).unwrap();
        assert_eq!(engine.at_marks_deg(), 300.0);
        assert_eq!(engine.from_overlap_deg(0, 0.0), -60.0);
        assert_eq!(engine.from_overlap_deg(0, 70.0), 10.0);
    }
}
