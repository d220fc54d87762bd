//! How many teeth out a valve first meets its piston, and whether it could at all.
//!
//! Must not know: how many teeth any wheel has; it is told.

use crate::engine::Engine;
use crate::events::Kind;
use crate::gap::Phasing;

/// The first touching tooth each way; `None` where none touches as far as was searched, 0 where they
/// touch with none out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FirstTouch {
    /// Teeth ahead.
    pub early: Option<u32>,
    /// Teeth behind.
    pub late: Option<u32>,
}

/// The teeth by which a camshaft can be out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Teeth {
    /// Crank degrees to the tooth, above zero.
    pub deg_each: f64,
    /// Teeth of the camshaft's wheel; it is searched to half of them each way.
    pub all: u32,
}

/// Whether pistons and valves can meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Contact {
    /// Some valve would meet its piston at some angles of crank and camshaft.
    Interference,
    /// No valve reaches its piston at any angles.
    FreeWheeling,
}

/// How near the pistons come to valves for any angles of crank and camshafts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AnyAngle {
    /// What that means in the trade's words.
    pub contact: Contact,
    /// The gap of the worst valve, open furthest, over its piston at the top, along the bore, mm.
    pub worst_gap_mm: f64,
    /// Its camshaft.
    pub camshaft: usize,
    /// Which valve.
    pub valve: Kind,
    /// Whether every valve of every camshaft had the figures; if not, another might be worse.
    pub all_known: bool,
}

impl Engine {
    /// The first tooth early and late at which a valve of a camshaft touches its piston, counted from
    /// `error_deg` crank degrees ahead and searched to half a turn of the camshaft. `None` where the
    /// valve's gap is not known.
    pub fn first_touch(
        &self,
        camshaft: usize,
        valve: Kind,
        error_deg: f64,
        teeth: Teeth,
        phasing: Phasing,
    ) -> Option<FirstTouch> {
        self.gap(camshaft, valve, error_deg, phasing)?;
        let touches = |out: f64| {
            let error_deg = error_deg + out * teeth.deg_each;
            self.gap(camshaft, valve, error_deg, phasing).is_some_and(|gap| gap.touches())
        };
        let first = |sign: f64| (0..=teeth.all / 2).find(|n| touches(sign * f64::from(*n)));
        Some(FirstTouch { early: first(1.0), late: first(-1.0) })
    }

    /// The same for all valves of one camshaft: whichever touches first.
    pub fn first_touch_of_camshaft(
        &self,
        camshaft: usize,
        error_deg: f64,
        teeth: Teeth,
        phasing: Phasing,
    ) -> Option<FirstTouch> {
        Kind::BOTH
            .into_iter()
            .filter_map(|valve| self.first_touch(camshaft, valve, error_deg, teeth, phasing))
            .reduce(FirstTouch::earliest)
    }

    /// The same for the crank against every camshaft, which stand `errors_deg` crank degrees ahead (0
    /// where none is given): the crank a tooth ahead is every camshaft a tooth behind. `None` where no
    /// valve's gap is known.
    pub fn first_touch_of_crank(
        &self,
        errors_deg: &[f64],
        teeth: Teeth,
        phasing: Phasing,
    ) -> Option<FirstTouch> {
        (0..self.camshafts().len())
            .filter_map(|camshaft| {
                let error_deg = errors_deg.get(camshaft).copied().unwrap_or(0.0);
                let touch = self.first_touch_of_camshaft(camshaft, error_deg, teeth, phasing)?;
                Some(FirstTouch { early: touch.late, late: touch.early })
            })
            .reduce(FirstTouch::earliest)
    }

    /// Whether any valve could meet its piston, whatever the angles: the valve open furthest over the
    /// piston at its top, since neither can be nearer than there. `None` where no gap is known.
    pub fn any_angle(&self) -> Option<AnyAngle> {
        let mut worst: Option<AnyAngle> = None;
        let mut all_known = true;
        for (camshaft, c) in self.camshafts().iter().enumerate() {
            all_known &= c.valves().next().is_some();
            for valve in c.valves() {
                let Some((needed_mm, _)) = self.needs(camshaft, valve.kind()) else {
                    all_known = false;
                    continue;
                };
                if worst.is_none_or(|w| -needed_mm < w.worst_gap_mm) {
                    let contact =
                        if needed_mm > 0.0 { Contact::Interference } else { Contact::FreeWheeling };
                    let valve = valve.kind();
                    let worst_gap_mm = -needed_mm;
                    worst = Some(AnyAngle { contact, worst_gap_mm, camshaft, valve, all_known });
                }
            }
        }
        worst.map(|w| AnyAngle { all_known, ..w })
    }

    /// How far a piston must stand below its top to clear a valve open furthest, mm (not above zero
    /// where it always does), and the cosine of the valve's lean. `None` where that is not known.
    pub(crate) fn needs(&self, camshaft: usize, kind: Kind) -> Option<(f64, f64)> {
        let valve = self.camshafts().get(camshaft)?.valve(kind)?;
        let (lobe, room) = (valve.lobe()?, valve.room()?);
        let cos_lean = libm::cos(room.lean_deg * crate::crank::RAD_PER_DEG);
        Some((lobe.most_mm() * cos_lean - room.gap_at_top_mm, cos_lean))
    }
}

impl FirstTouch {
    /// Whichever comes first, each way.
    fn earliest(self, other: Self) -> Self {
        let first = |a: Option<u32>, b: Option<u32>| a.into_iter().chain(b).min();
        Self { early: first(self.early, other.early), late: first(self.late, other.late) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture::four;

    const TEETH: Teeth = Teeth { deg_each: 18.0, all: 40 };

    #[test]
    fn touching_with_none_out_is_told_as_none() {
        let touch = |gap| four(gap).first_touch(0, Kind::Intake, 0.0, TEETH, Phasing::AtRest);
        assert_eq!(touch(-1.0), Some(FirstTouch { early: Some(0), late: Some(0) }));
        assert_eq!(touch(30.0), Some(FirstTouch { early: None, late: None }));
        let near = touch(2.6).unwrap();
        assert!(near.early.is_some_and(|n| (1..20).contains(&n)), "{near:?}");
        assert_eq!(four(2.6).first_touch(1, Kind::Intake, 0.0, TEETH, Phasing::AtRest), None);
    }

    #[test]
    fn the_crank_is_the_other_way_round() {
        let engine = four(2.6);
        let cam = engine.first_touch_of_camshaft(0, 7.0, TEETH, Phasing::AtRest).unwrap();
        let crank = engine.first_touch_of_crank(&[7.0], TEETH, Phasing::AtRest).unwrap();
        assert_eq!((crank.early, crank.late), (cam.late, cam.early));
    }

    #[test]
    fn deep_pockets_make_it_free_wheeling() {
        assert_eq!(four(2.6).any_angle().unwrap().contact, Contact::Interference);
        let free = four(12.0).any_angle().unwrap();
        assert_eq!(free.contact, Contact::FreeWheeling);
        assert!(free.all_known && free.worst_gap_mm > 0.0);
    }
}
