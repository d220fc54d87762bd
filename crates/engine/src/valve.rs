//! One kind of valve of one camshaft, checked.
//!
//! Must not know: pistons, or which cylinders it belongs to.

use crate::bounds;
use crate::events::Kind;
use crate::figures::{Events, Motion, Room, Spring, ValveFigures};
use crate::flaw::{Figure, Flaw, ValveFigure};
use crate::lobe::Lobe;
use crate::table::{LiftPoint, Table};
use alloc::vec::Vec;

/// A valve whose figures hold together.
#[derive(Clone, Debug, PartialEq)]
pub struct Valve {
    kind: Kind,
    stated: Events,
    at_lift_mm: f64,
    lobe: Option<Lobe>,
    swept: Option<Lobe>,
    room: Option<Room>,
    spring: Option<Spring>,
}

impl Valve {
    /// Intake or exhaust.
    pub fn kind(&self) -> Kind {
        self.kind
    }

    /// Opening and closing at the lift at which they are told, in time.
    pub fn events(&self) -> Events {
        self.stated
    }

    /// The lift at which [`Self::events`] are told, mm.
    pub fn at_lift_mm(&self) -> f64 {
        self.at_lift_mm
    }

    /// Opening and closing at another lift; `None` without a lift, or where it is never exceeded.
    pub fn events_at(&self, lift_mm: f64) -> Option<Events> {
        let (opens_deg, closes_deg) = self.lobe.as_ref()?.above(lift_mm)?;
        Some(Events { opens_deg, closes_deg })
    }

    /// Its lift with the phaser, if any, at rest; `None` where only degrees are known.
    pub fn lobe(&self) -> Option<&Lobe> {
        self.lobe.as_ref()
    }

    /// The greatest lift that its phaser lets it have at each angle; the same as [`Self::lobe`]
    /// without one.
    pub fn swept(&self) -> Option<&Lobe> {
        self.swept.as_ref()
    }

    /// How it stands over the piston.
    pub fn room(&self) -> Option<Room> {
        self.room
    }

    /// Its spring.
    pub fn spring(&self) -> Option<Spring> {
        self.spring
    }
}

/// Names the figures of one valve in errors.
pub(crate) struct Check<'a> {
    pub(crate) camshaft: usize,
    pub(crate) kind: Kind,
    pub(crate) flaws: &'a mut Vec<Flaw>,
}

impl Check<'_> {
    fn name(&self, figure: ValveFigure) -> Figure {
        Figure::Valve { camshaft: self.camshaft, valve: self.kind, figure }
    }

    fn range(&mut self, figure: ValveFigure, found: f64, (least, most): bounds::Bounds) {
        if !(least..=most).contains(&found) {
            let figure = self.name(figure);
            self.flaws.push(Flaw::OutOfRange { figure, found, least, most });
        }
    }

    fn at_lift(&mut self, found: f64, lift_mm: f64) {
        if !(0.0..lift_mm).contains(&found) {
            let figure = self.name(ValveFigure::AtLift);
            let or_equal = true;
            self.flaws.push(Flaw::NotBetween {
                figure,
                found,
                above: 0.0,
                below: lift_mm,
                or_equal,
            });
        }
    }

    fn events(&mut self, events: &Events) {
        let (opens, closes) = events.before_after_deg(self.kind);
        self.range(ValveFigure::Opens, opens, bounds::EVENT_DEG);
        self.range(ValveFigure::Closes, closes, bounds::EVENT_DEG);
        self.range(ValveFigure::Duration, events.duration_deg(), bounds::DURATION_DEG);
    }

    /// The valve, unless a flaw was found in its figures; `phaser_deg` as a range about rest.
    pub(crate) fn valve(mut self, figures: &ValveFigures, phaser_deg: [f64; 2]) -> Option<Valve> {
        let before = self.flaws.len();
        if let Some(room) = figures.room {
            self.range(ValveFigure::Lean, room.lean_deg, bounds::LEAN_DEG);
            self.range(ValveFigure::Gap, room.gap_at_top_mm, bounds::GAP_AT_TOP_MM);
        }
        if let Some(spring) = figures.spring {
            self.range(ValveFigure::SpringShut, spring.shut_n, bounds::SPRING_SHUT_N);
            self.range(ValveFigure::SpringRate, spring.rate_n_per_mm, bounds::SPRING_RATE_N_PER_MM);
        }
        let (stated, at_lift_mm, lobe) = self.motion(&figures.motion, before)?;
        let swept = lobe.as_ref().map(|lobe| lobe.swept(phaser_deg[0], phaser_deg[1]));
        if let Some(swept) = &swept {
            self.range(ValveFigure::Reach, swept.reach_deg(), bounds::REACH_DEG);
        }
        (self.flaws.len() == before).then_some(Valve {
            kind: self.kind,
            stated,
            at_lift_mm,
            lobe,
            swept,
            room: figures.room,
            spring: figures.spring,
        })
    }

    fn motion(&mut self, motion: &Motion, before: usize) -> Option<(Events, f64, Option<Lobe>)> {
        match motion {
            Motion::Stated { events } => {
                self.events(events);
                Some((*events, 0.0, None))
            }
            Motion::Law { events, at_lift_mm, lift_mm, law } => {
                self.events(events);
                self.range(ValveFigure::Lift, *lift_mm, bounds::LIFT_MM);
                self.at_lift(*at_lift_mm, *lift_mm);
                if self.flaws.len() > before {
                    return None;
                }
                // The rise passes the stated lift at a share u of itself, so what is stated is
                // (1 − u) of the whole from seat to seat, about the same middle.
                let u = law.u_at(at_lift_mm / lift_mm);
                let half_deg = 0.5 * events.duration_deg() / (1.0 - u);
                let lobe = Lobe::law(*law, events.centreline_deg(), half_deg, *lift_mm);
                Some((*events, *at_lift_mm, Some(lobe)))
            }
            Motion::Measured { points, at_lift_mm } => {
                let lobe = self.table(points)?;
                self.range(ValveFigure::Lift, lobe.most_mm(), bounds::LIFT_MM);
                self.at_lift(*at_lift_mm, lobe.most_mm());
                let (opens_deg, closes_deg) = lobe.above(*at_lift_mm)?;
                Some((Events { opens_deg, closes_deg }, *at_lift_mm, Some(lobe)))
            }
        }
    }

    fn table(&mut self, points: &[LiftPoint]) -> Option<Lobe> {
        let (fewest, most) = bounds::POINTS;
        if !(fewest..=most).contains(&points.len()) {
            let figure = self.name(ValveFigure::Points);
            self.flaws.push(Flaw::Count { figure, found: points.len(), fewest, most });
            return None;
        }
        if let Some(point) = turns_back(points) {
            let (camshaft, valve) = (self.camshaft, self.kind);
            self.flaws.push(Flaw::TableTurnsBack { camshaft, valve, point });
            return None;
        }
        let (table, centre_deg) = Table::new(points)?;
        Some(Lobe::table(table, centre_deg))
    }
}

/// The first point that does not fit one rise and one fall in order of angle with zero at both ends.
fn turns_back(points: &[LiftPoint]) -> Option<usize> {
    let mut falling = false;
    for (i, p) in points.iter().enumerate() {
        let at_an_end = i == 0 || i + 1 == points.len();
        let finite = p.at_deg.abs() <= 720.0 && (0.0..=1e6).contains(&p.lift_mm);
        if !finite || (at_an_end && p.lift_mm != 0.0) {
            return Some(i);
        }
        if let Some(before) = i.checked_sub(1).map(|b| points[b]) {
            let rises = p.lift_mm > before.lift_mm;
            // Closer than this, slopes lose their meaning.
            if p.at_deg - before.at_deg < 1e-3 || (rises && falling) {
                return Some(i);
            }
            falling |= p.lift_mm < before.lift_mm;
        }
    }
    // All zero: it never opens.
    (!falling).then_some(0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::Law;

    fn checked(motion: Motion, phaser_deg: [f64; 2]) -> Result<Valve, Vec<Flaw>> {
        let mut flaws = Vec::new();
        let check = Check { camshaft: 2, kind: Kind::Intake, flaws: &mut flaws };
        let figures = ValveFigures { motion, room: None, spring: None };
        check.valve(&figures, phaser_deg).ok_or(flaws)
    }

    fn points(raw: &[(f64, f64)]) -> Vec<LiftPoint> {
        raw.iter().map(|&(at_deg, lift_mm)| LiftPoint { at_deg, lift_mm }).collect()
    }

    #[test]
    fn events_hold_at_the_lift_at_which_they_are_stated() {
        for law in Law::ALL {
            let events = Events::of(Kind::Intake, 8.0, 44.0);
            let motion = Motion::Law { events, at_lift_mm: 1.0, lift_mm: 9.0, law };
            let valve = checked(motion, [0.0, 0.0]).unwrap();
            let lobe = valve.lobe().unwrap();
            assert!((lobe.lift_mm(events.opens_deg) - 1.0).abs() < 1e-12, "{law:?}");
            assert!((lobe.lift_mm(events.closes_deg) - 1.0).abs() < 1e-12, "{law:?}");
            assert_eq!(lobe.lift_mm(events.centreline_deg()), 9.0);
            let seat = valve.events_at(0.0).unwrap();
            assert!(seat.duration_deg() > events.duration_deg() + 10.0);
        }
    }

    #[test]
    fn flaws_name_their_figure() {
        let events = Events::of(Kind::Intake, 200.0, 50.0);
        let name = |figure| Figure::Valve { camshaft: 2, valve: Kind::Intake, figure };
        let flaws = checked(Motion::Stated { events }, [0.0, 0.0]).unwrap_err();
        let (least, most) = bounds::EVENT_DEG;
        let figure = name(ValveFigure::Opens);
        assert_eq!(flaws, [Flaw::OutOfRange { figure, found: 200.0, least, most }]);
        let events = Events::of(Kind::Intake, 10.0, 50.0);
        let law =
            |at_lift_mm, lift_mm| Motion::Law { events, at_lift_mm, lift_mm, law: Law::Harmonic };
        let flaws = checked(law(9.0, 9.0), [0.0, 0.0]).unwrap_err();
        assert!(
            matches!(flaws[..], [Flaw::NotBetween { found: 9.0, below: 9.0, .. }]),
            "{flaws:?}"
        );
        let flaws = checked(law(8.99, 9.0), [0.0, 0.0]).unwrap_err();
        let figure = name(ValveFigure::Reach);
        assert!(
            matches!(flaws[..], [Flaw::OutOfRange { figure: f, .. }] if f == figure),
            "{flaws:?}"
        );
        assert!(checked(law(f64::NAN, 9.0), [0.0, 0.0]).is_err());
        assert!(checked(law(0.0, f64::NAN), [0.0, 0.0]).is_err());
    }

    #[test]
    fn tables_that_turn_back_are_told() {
        let told = |raw: &[(f64, f64)]| {
            let motion = Motion::Measured { points: points(raw), at_lift_mm: 0.0 };
            checked(motion, [0.0, 0.0]).map(|_| ()).map_err(|flaws| flaws[0])
        };
        let at = |point| Err(Flaw::TableTurnsBack { camshaft: 2, valve: Kind::Intake, point });
        assert_eq!(told(&[(0.0, 0.0), (60.0, 5.0), (60.0, 6.0), (120.0, 0.0)]), at(2));
        assert_eq!(told(&[(0.0, 0.0), (60.0, 5.0), (80.0, 4.0), (90.0, 4.1), (120.0, 0.0)]), at(3));
        assert_eq!(told(&[(0.0, 0.1), (60.0, 5.0), (120.0, 0.0)]), at(0));
        assert_eq!(told(&[(0.0, 0.0), (60.0, 5.0), (120.0, 0.2)]), at(2));
        assert_eq!(told(&[(0.0, 0.0), (60.0, 0.0), (120.0, 0.0)]), at(0));
        assert_eq!(told(&[(0.0, 0.0), (60.0, f64::NAN), (120.0, 0.0)]), at(1));
        assert!(matches!(told(&[(0.0, 0.0), (60.0, 5.0)]), Err(Flaw::Count { found: 2, .. })));
        assert_eq!(told(&[(0.0, 0.0), (60.0, 5.0), (90.0, 5.0), (120.0, 0.0)]), Ok(()));
    }
}
