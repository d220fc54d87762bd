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
    /// `error_deg` crank degrees ahead, `deg_per_tooth` crank degrees (above zero) to the tooth,
    /// searched to half a turn of a camshaft with `teeth` teeth. `None` where the valve's gap is not
    /// known.
    pub fn first_touch(
        &self,
        (camshaft, valve): (usize, Kind),
        error_deg: f64,
        deg_per_tooth: f64,
        teeth: u32,
        phasing: Phasing,
    ) -> Option<FirstTouch> {
        self.gap(camshaft, valve, error_deg, phasing)?;
        let touches = |out: f64| {
            let error_deg = error_deg + out * deg_per_tooth;
            self.gap(camshaft, valve, error_deg, phasing).is_some_and(|gap| gap.touches())
        };
        let first = |sign: f64| (0..=teeth / 2).find(|n| touches(sign * f64::from(*n)));
        Some(FirstTouch { early: first(1.0), late: first(-1.0) })
    }

    /// The same for all valves of one camshaft: whichever touches first.
    pub fn first_touch_of_camshaft(
        &self,
        camshaft: usize,
        error_deg: f64,
        deg_per_tooth: f64,
        teeth: u32,
        phasing: Phasing,
    ) -> Option<FirstTouch> {
        Kind::BOTH
            .into_iter()
            .filter_map(|valve| {
                self.first_touch((camshaft, valve), error_deg, deg_per_tooth, teeth, phasing)
            })
            .reduce(FirstTouch::earliest)
    }

    /// The same for the crank against every camshaft, which stand `errors_deg` crank degrees ahead (0
    /// where none is given): the crank a tooth ahead is every camshaft a tooth behind. Searched to as
    /// many crank degrees as half a camshaft's turn has, 360.
    pub fn first_touch_of_crank(
        &self,
        errors_deg: &[f64],
        deg_per_tooth: f64,
        phasing: Phasing,
    ) -> Option<FirstTouch> {
        let teeth = libm::floor(720.0 / deg_per_tooth).clamp(0.0, 1e4) as u32;
        (0..self.camshafts().len())
            .filter_map(|camshaft| {
                let error_deg = errors_deg.get(camshaft).copied().unwrap_or(0.0);
                let touch = self.first_touch_of_camshaft(
                    camshaft,
                    error_deg,
                    deg_per_tooth,
                    teeth,
                    phasing,
                )?;
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
