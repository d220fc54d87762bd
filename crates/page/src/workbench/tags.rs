//! Places for tags in the view: beside what they name, off wheels, labels, controls and each other.
//!
//! Must not know: what a tag says.

use super::Workbench;
use drive::DVec2;

/// How much further off a tag goes where something is in its way, px.
const FURTHER_PX: [f64; 7] = [0.0, 14.0, 28.0, 46.0, 66.0, 90.0, 120.0];
/// Room between a tag and anything else, px.
const ROOM_PX: f64 = 3.0;

/// A rectangle by its lowest and highest corner, px.
#[derive(Clone, Copy)]
struct Box2 {
    low: DVec2,
    high: DVec2,
}

/// What is in the way of tags, and those placed already.
pub(super) struct TagPlaces {
    size: DVec2,
    boxes: Vec<Box2>,
    discs: Vec<(DVec2, f64)>,
}

impl TagPlaces {
    /// Nothing placed yet.
    pub(super) fn new(bench: &Workbench) -> Self {
        let labels = bench.labels.iter().zip(&bench.label_sizes).filter(|(at, _)| at.clear);
        let labels = labels.map(|(at, size)| {
            let low = DVec2::new(at.left, at.top);
            Box2 { low, high: low + DVec2::new(size.width, size.height) }
        });
        let controls = bench.reserved.iter().map(|r| {
            let low = DVec2::new(r.left, r.top);
            Box2 { low, high: low + DVec2::new(r.width, r.height) }
        });
        let belt = bench.job.drive().belt().thickness_mm;
        let wheels = bench.job.stance().discs.iter();
        let scale = bench.view.scale;
        Self {
            size: bench.size,
            boxes: labels.chain(controls).collect(),
            discs: wheels
                .map(|d| (bench.view.to_px(d.centre), (d.radius + belt) * scale))
                .collect(),
        }
    }

    /// The middle of a tag of `size` beside `at`, `off` px along `out` or against it from there to its
    /// edge, as near as there is room; as near as can be where there is none.
    pub(super) fn beside(&mut self, at: DVec2, out: DVec2, off: f64, size: DVec2) -> DVec2 {
        let own = out.abs().dot(size / 2.0) + off;
        let ways = FURTHER_PX.iter().flat_map(|more| [own + more, -(own + more)]);
        let mut best: Option<(f64, DVec2)> = None;
        for way in ways {
            // Along the belt a little too: a crowded place may have room just beside.
            for aside in [0.0, 0.5, -0.5, 1.0, -1.0] {
                let middle = at + out * way + DVec2::new(-out.y, out.x) * (aside * size.x);
                let half = size / 2.0 + DVec2::splat(ROOM_PX);
                let tag = Box2 { low: middle - half, high: middle + half };
                let bad = self.in_the_way(&tag);
                if best.is_none_or(|(least, _)| bad < least) {
                    best = Some((bad, middle));
                }
            }
            if best.is_some_and(|(bad, _)| bad == 0.0) {
                break;
            }
        }
        let middle = best.map_or(at, |(_, middle)| middle);
        self.boxes.push(Box2 { low: middle - size / 2.0, high: middle + size / 2.0 });
        middle
    }

    /// How much of a tag lies over something or outside the view, px squared, near enough.
    fn in_the_way(&self, tag: &Box2) -> f64 {
        let area = |low: DVec2, high: DVec2| {
            let over = (high - low).max(DVec2::ZERO);
            over.x * over.y
        };
        let inside = area(tag.low.max(DVec2::ZERO), tag.high.min(self.size));
        let outside = area(tag.low, tag.high) - inside;
        let boxes: f64 =
            self.boxes.iter().map(|b| area(tag.low.max(b.low), tag.high.min(b.high))).sum();
        let discs: f64 = self
            .discs
            .iter()
            .map(|(centre, radius)| {
                let nearest = centre.clamp(tag.low, tag.high);
                let deep = radius - (nearest - *centre).length();
                if deep > 0.0 { deep * deep } else { 0.0 }
            })
            .sum();
        4.0 * outside + boxes + discs
    }
}
