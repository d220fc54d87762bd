//! Where the wheels' labels go: near their wheels, clear of wheels, belt, marks and each other.
//!
//! Must not know: what the labels say, only how large they are.

use crate::ground::Ground;
use crate::list::{Class, List, Part};
use crate::view::{Boxed, View};
use drive::DVec2;
use std::f64::consts::TAU;

/// A label's size, px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelBox {
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// Where a label goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelPlace {
    /// Left edge, px.
    pub left: f64,
    /// Top edge, px.
    pub top: f64,
    /// From the label to its wheel, mm, where it stands so far off that this is not plain.
    pub leader: Option<(DVec2, DVec2)>,
    /// Whether it is clear of everything. Where it is not there is no room for it, or its wheel is out of
    /// sight, and its place is over its wheel.
    pub clear: bool,
}

/// Directions tried round a wheel.
const AROUND: u32 = 48;
/// Distances tried, px beyond the nearest.
const BEYOND_PX: [f64; 6] = [0.0, 8.0, 18.0, 30.0, 45.0, 64.0];
/// What speaks against a place over which slack may come to hang, or the tensioner be drawn back.
const UNDER_SLACK: f64 = 150.0;
/// How much nearer a label should be to its own wheel than to any other, px.
const CLEARLY_OWN_PX: f64 = 24.0;
/// Radius round a cover mark's middle that is its own, mm.
const MARK_MM: f64 = 9.0;
/// A label this far from its wheel gets a line to it, px.
const LEADER_FROM_PX: f64 = 26.0;
/// Room between a label and anything else, px.
const GAP_PX: f64 = 4.0;

/// Emits the lines from labels to wheels; they lie under everything else.
pub fn leaders(list: &mut List, places: &[LabelPlace]) {
    for (i, place) in places.iter().enumerate() {
        if let Some((label, rim)) = place.leader {
            list.begin(Class::Leader, Part::Wheel(i));
            list.move_to(label);
            list.line_to(rim);
        }
    }
}

/// A place for each wheel's label, in `width` × `height` px, clear of `reserved`. The wheels with the
/// fewest places to choose from choose first.
pub fn place_labels(
    ground: &Ground,
    view: &View,
    sizes: &[LabelBox],
    width: f64,
    height: f64,
    reserved: &[Boxed],
) -> Vec<LabelPlace> {
    let fixed = Fixed::new(ground, view, width, height, reserved);
    let mut choices: Vec<(usize, Vec<(Boxed, f64)>)> = sizes
        .iter()
        .enumerate()
        .filter(|(i, _)| *i < ground.wheels.len())
        .map(|(i, size)| (i, fixed.choices(i, *size)))
        .collect();
    choices.sort_by_key(|(_, c)| c.len());
    let mut taken: Vec<Boxed> = Vec::with_capacity(sizes.len());
    let over_wheel = |(i, size): (usize, &LabelBox)| {
        let centre = fixed.wheels.get(i).map_or(DVec2::ZERO, |w| w.0);
        LabelPlace {
            left: centre.x - size.width / 2.0,
            top: centre.y - size.height / 2.0,
            leader: None,
            clear: false,
        }
    };
    let mut places: Vec<LabelPlace> = sizes.iter().enumerate().map(over_wheel).collect();
    for (i, options) in choices {
        let free = options.iter().filter(|(b, _)| !taken.iter().any(|t| t.near(b, GAP_PX)));
        if let Some((best, _)) = free.min_by(|a, b| a.1.total_cmp(&b.1)) {
            taken.push(*best);
            let leader = fixed.leader(view, i, best);
            places[i] = LabelPlace { left: best.left, top: best.top, leader, clear: true };
        }
    }
    places
}

/// Everything that labels keep clear of, on the screen.
struct Fixed<'a> {
    wheels: Vec<(DVec2, f64)>,
    belt: Vec<(DVec2, DVec2)>,
    /// The curves in which each run would hang with the tensioner right back.
    slack: Vec<(DVec2, DVec2)>,
    /// The tensioner's wheel right back.
    drawn_back: (DVec2, f64),
    belt_px: f64,
    marks: Vec<(DVec2, f64)>,
    reserved: &'a [Boxed],
    width: f64,
    height: f64,
    middle: DVec2,
}

impl<'a> Fixed<'a> {
    fn new(ground: &Ground, view: &View, width: f64, height: f64, reserved: &'a [Boxed]) -> Self {
        let px = |p: &DVec2| view.to_px(*p);
        let lines = |of: &[(DVec2, DVec2)]| of.iter().map(|(p, q)| (px(p), px(q))).collect();
        let round = |(c, r): &(DVec2, f64)| (px(c), r * view.scale);
        let sum: DVec2 = ground.wheels.iter().map(|w| w.0).sum();
        Self {
            wheels: ground.wheels.iter().map(round).collect(),
            belt: lines(&ground.spans),
            slack: lines(&ground.slack),
            drawn_back: round(&ground.drawn_back),
            belt_px: ground.belt_mm * view.scale,
            marks: ground.marks.iter().map(|m| (px(m), MARK_MM * view.scale)).collect(),
            reserved,
            width,
            height,
            middle: px(&(sum / ground.wheels.len().max(1) as f64)),
        }
    }

    fn clear(&self, b: &Boxed) -> bool {
        b.left >= GAP_PX
            && b.top >= GAP_PX
            && b.left + b.width <= self.width - GAP_PX
            && b.top + b.height <= self.height - GAP_PX
            && self.wheels.iter().all(|(c, r)| b.distance(*c) > r + GAP_PX)
            && self.marks.iter().all(|(c, r)| b.distance(*c) > r + GAP_PX)
            && self.reserved.iter().all(|r| !r.near(b, GAP_PX))
            && self.off(&self.belt, b)
    }

    fn off(&self, lines: &[(DVec2, DVec2)], b: &Boxed) -> bool {
        lines.iter().all(|(p, q)| b.distance_to_line(*p, *q) > self.belt_px + GAP_PX)
    }

    /// A line from a box to the rim of wheel `i`, mm, if the box does not plainly belong to it.
    fn leader(&self, view: &View, i: usize, b: &Boxed) -> Option<(DVec2, DVec2)> {
        let (centre, radius) = self.wheels[i];
        let away = b.distance(centre) - radius;
        if away < LEADER_FROM_PX && away + CLEARLY_OWN_PX < self.nearest_other(i, b) {
            return None;
        }
        let edge = b.nearest(centre);
        let inward = (centre - edge).normalize_or_zero();
        let rim = centre - inward * (radius - self.belt_px);
        Some((view.to_mm(edge + inward * 2.0), view.to_mm(rim)))
    }

    /// Distance from a box to the rim of the nearest wheel but `i`, px.
    fn nearest_other(&self, i: usize, b: &Boxed) -> f64 {
        let others = self.wheels.iter().enumerate().filter(|(k, _)| *k != i);
        others.map(|(_, (c, r))| b.distance(*c) - r).fold(f64::INFINITY, f64::min)
    }

    /// Whether at least a quarter of wheel `i` is in the view, as far across: what is less is no wheel to
    /// the eye, and a label beside it would name nothing.
    fn in_sight(&self, i: usize) -> bool {
        let (centre, rim) = self.wheels[i];
        let view = Boxed { left: 0.0, top: 0.0, width: self.width, height: self.height };
        view.distance(centre) <= rim / 2.0
    }

    /// Places round wheel `i` that are clear, each with what speaks against it.
    fn choices(&self, i: usize, size: LabelBox) -> Vec<(Boxed, f64)> {
        if !self.in_sight(i) {
            return Vec::new();
        }
        let (centre, rim) = self.wheels[i];
        let radius = rim + GAP_PX + 2.0;
        let outward = (centre - self.middle).normalize_or_zero();
        let mut found = Vec::new();
        for beyond in BEYOND_PX {
            for k in 0..AROUND {
                let out = drive::Angle::from_rad(TAU * f64::from(k) / f64::from(AROUND)).unit();
                // The box's nearest point lies on the ray: move its middle out by its own reach.
                let own = DVec2::new(out.x * size.width / 2.0, out.y * size.height / 2.0);
                let middle = centre + out * (radius + beyond) + own;
                let wide = (self.width - size.width - 2.0 * GAP_PX).max(0.0);
                let b = Boxed {
                    left: (middle.x - size.width / 2.0 - GAP_PX).clamp(0.0, wide) + GAP_PX,
                    top: middle.y - size.height / 2.0,
                    width: size.width,
                    height: size.height,
                };
                if self.clear(&b) {
                    // Near its own wheel and not nearer to another, outside the loop, and rather
                    // beside the wheel than above or below it.
                    let away = b.distance(centre) - rim;
                    let doubt = (away + CLEARLY_OWN_PX - self.nearest_other(i, &b)).max(0.0);
                    let side = 16.0 * (1.0 - out.dot(outward)) + 10.0 * out.y.abs();
                    let (back, radius) = self.drawn_back;
                    let free = self.off(&self.slack, &b) && b.distance(back) > radius + GAP_PX;
                    let slack = if free { 0.0 } else { UNDER_SLACK };
                    found.push((b, away + 4.0 * doubt + side + slack));
                }
            }
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two wheels of 20 mm, 200 mm apart, at 1 px a millimetre in 150 × 150 px about the first.
    #[test]
    fn a_wheel_out_of_sight_has_no_label() {
        let ground = Ground {
            wheels: vec![(DVec2::ZERO, 20.0), (DVec2::new(200.0, 0.0), 20.0)],
            spans: Vec::new(),
            slack: Vec::new(),
            drawn_back: (DVec2::splat(1e3), 1.0),
            marks: Vec::new(),
            belt_mm: 5.0,
            reach_mm: 10.0,
        };
        let view = View { scale: 1.0, origin: DVec2::splat(75.0) };
        let sizes = [LabelBox { width: 30.0, height: 12.0 }; 2];
        let clear = |view: &View| {
            let places = place_labels(&ground, view, &sizes, 150.0, 150.0, &[]);
            places.iter().map(|place| place.clear).collect::<Vec<_>>()
        };
        assert_eq!(clear(&view), [true, false]);
        // Half of the second in sight.
        let moved = View { origin: view.origin - DVec2::new(125.0, 0.0), ..view };
        assert_eq!(clear(&moved), [false, true]);
    }
}
