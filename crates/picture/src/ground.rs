//! What of a drive takes up room on the screen and stays where it is: wheels, belt, marks, and where
//! slack would come to hang. Views and labels are fitted to it.
//!
//! Must not know: the screen, or where any shaft stands.

use advice::LaidOut;
use drive::{Belt, DVec2, Drive, Hang, Parts};

/// The unmoving ground of a picture, mm.
#[derive(Clone, Debug)]
pub struct Ground {
    /// Each wheel: centre, and radius out to the belt's outer face, or to the rim that carries its mark.
    pub(crate) wheels: Vec<(DVec2, f64)>,
    /// The belt's straight runs, or those of the way that it would take; none where there is none.
    pub(crate) spans: Vec<(DVec2, DVec2)>,
    /// The curves in which each run would hang with the tensioner right back, in straight pieces.
    pub(crate) slack: Vec<(DVec2, DVec2)>,
    /// The tensioner's wheel right back.
    pub(crate) drawn_back: (DVec2, f64),
    /// Where cover marks stand.
    pub(crate) marks: Vec<DVec2>,
    /// How thick the belt is.
    pub(crate) belt_mm: f64,
    /// How far belt and cover marks stand out beyond the pitch line.
    pub(crate) reach_mm: f64,
}

/// A slack curve is kept clear of in so many straight pieces.
const PIECES: u32 = 6;

impl Ground {
    /// The ground of a sound drive, its belt tight.
    pub fn of(drive: &Drive) -> Self {
        let stance = drive.taut_stance();
        let at = stance.discs.iter().map(|d| d.centre);
        let bare = Self::bare(drive.belt(), drive.wheels(), at, drive.tensioner());
        let path = &stance.path;
        let slack = drive.hanging().iter().flat_map(|place| {
            let slack_mm = drive.slack_when_back_mm();
            let hang = Hang::new(&path.spans[place.span], slack_mm, place.bow);
            let at = move |k| hang.at(hang.length_mm * f64::from(k) / f64::from(PIECES)).0;
            (0..PIECES).map(move |k| (at(k), at(k + 1)))
        });
        Self {
            slack: slack.collect(),
            spans: path.spans.iter().map(|s| (s.leaves, s.meets)).collect(),
            ..bare
        }
    }

    /// The ground of wheels that no belt can run round, `laid` out so.
    pub fn of_parts(parts: &Parts, laid: &LaidOut) -> Self {
        let at = laid.discs.iter().map(|disc| disc.centre);
        let spans = laid.path.iter().flat_map(|path| &path.spans);
        Self {
            spans: spans.map(|s| (s.leaves, s.meets)).collect(),
            ..Self::bare(&parts.belt, &parts.wheels, at, &parts.tensioner)
        }
    }

    fn bare(
        belt: &Belt,
        wheels: &[drive::Wheel],
        at: impl Iterator<Item = DVec2>,
        tensioner: &drive::Tensioner,
    ) -> Self {
        let reach_mm = belt.back_mm() + 20.0;
        let placed: Vec<(DVec2, &drive::Wheel)> = at.zip(wheels).collect();
        let radius = |w: &drive::Wheel| {
            let wheel = w.pitch_radius_mm(belt) + belt.thickness_mm;
            w.mark_rim_mm(belt).map_or(wheel, |rim| wheel.max(rim))
        };
        let marks = placed.iter().filter_map(|(at, w)| {
            let rim = w.mark_rim_mm(belt).unwrap_or(0.0).max(w.pitch_radius_mm(belt));
            let out = w.mark?.cover.unit() * (rim + reach_mm - 10.0);
            Some(*at + out)
        });
        let drawn_back = wheels.get(tensioner.wheel).map_or((DVec2::ZERO, 0.0), |w| {
            (tensioner.centre(w.centre, tensioner.right_back), radius(w))
        });
        Self {
            marks: marks.collect(),
            wheels: placed.iter().map(|(at, w)| (*at, radius(w))).collect(),
            spans: Vec::new(),
            slack: Vec::new(),
            drawn_back,
            belt_mm: belt.thickness_mm,
            reach_mm,
        }
    }

    /// Centre of wheel `i`, mm.
    pub fn wheel(&self, i: usize) -> Option<DVec2> {
        self.wheels.get(i).map(|w| w.0)
    }

    /// Lowest and highest corner of all there is.
    pub(crate) fn bounds(&self) -> (DVec2, DVec2) {
        let mut low = DVec2::splat(f64::INFINITY);
        let mut high = DVec2::splat(f64::NEG_INFINITY);
        for (centre, radius) in &self.wheels {
            let out = DVec2::splat(radius - self.belt_mm + self.reach_mm);
            low = low.min(*centre - out);
            high = high.max(*centre + out);
        }
        (low, high)
    }
}
