//! From millimetres to the screen: how large the drive is shown and where, clear of what else stands
//! there.
//!
//! Must not know: what is drawn.

use crate::ground::Ground;
use drive::{DVec2, distance_to_segment};

/// A rectangle on the screen, px, y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Boxed {
    /// Left edge.
    pub left: f64,
    /// Top edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

impl Boxed {
    /// Whether it and `other` overlap, or come nearer than `gap`.
    pub fn near(&self, other: &Self, gap: f64) -> bool {
        self.left < other.left + other.width + gap
            && other.left < self.left + self.width + gap
            && self.top < other.top + other.height + gap
            && other.top < self.top + self.height + gap
    }

    /// The rectangle's point nearest to `p`.
    pub fn nearest(&self, p: DVec2) -> DVec2 {
        let corner = DVec2::new(self.left, self.top);
        p.clamp(corner, corner + DVec2::new(self.width, self.height))
    }

    /// Distance from a point to the rectangle; 0 inside.
    pub fn distance(&self, p: DVec2) -> f64 {
        (p - self.nearest(p)).length()
    }

    /// Distance from a segment to the rectangle, near enough for keeping clear of it; 0 where they
    /// meet.
    pub fn distance_to_line(&self, a: DVec2, b: DVec2) -> f64 {
        let (l, t) = (self.left, self.top);
        let (r, u) = (l + self.width, t + self.height);
        let corners = [DVec2::new(l, t), DVec2::new(r, t), DVec2::new(r, u), DVec2::new(l, u)];
        let crosses = (0..4).any(|i| drive::segments_meet(a, b, corners[i], corners[(i + 1) % 4]));
        if crosses {
            return 0.0;
        }
        let near_corner = corners.map(|c| distance_to_segment(c, a, b));
        near_corner.into_iter().fold(self.distance(a).min(self.distance(b)), f64::min)
    }
}

/// The drive on the screen: px = origin + scale · (x, −y).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// Pixels a millimetre.
    pub scale: f64,
    /// Where the drive's zero is, px.
    pub origin: DVec2,
}

/// What is left free round the drive, px.
const MARGIN_PX: f64 = 18.0;

impl View {
    /// The largest view of a drive's ground in `width` × `height` px that leaves `side_px` free at each side
    /// for labels and keeps clear of the `reserved` rectangles.
    pub fn fit(ground: &Ground, width: f64, height: f64, side_px: f64, reserved: &[Boxed]) -> Self {
        let (low, high) = ground.bounds();
        let size = high - low;
        let free = DVec2::new(
            (width - 2.0 * (MARGIN_PX + side_px)).max(width * 0.3),
            (height - 2.0 * MARGIN_PX).max(height * 0.3),
        );
        let mut scale = (free.x / size.x).min(free.y / size.y).max(1e-3);
        let mut view = Self { scale, origin: DVec2::ZERO };
        for _ in 0..40 {
            view.scale = scale;
            let middle = (low + high) / 2.0;
            // What the height leaves over goes below, where the dial is.
            let top = MARGIN_PX + (free.y - size.y * scale).min(40.0) / 2.0;
            let y = if reserved.is_empty() { height / 2.0 } else { top + size.y * scale / 2.0 };
            view.origin = DVec2::new(width / 2.0 - middle.x * scale, y + middle.y * scale);
            if reserved.iter().all(|r| view.clear_of(ground, r)) {
                break;
            }
            scale *= 0.97;
        }
        view
    }

    fn clear_of(&self, ground: &Ground, reserved: &Boxed) -> bool {
        let beyond = (ground.reach_mm - ground.belt_mm) * self.scale + 6.0;
        let belt = ground.reach_mm * self.scale + 6.0;
        let wheel =
            |(c, r): &(DVec2, f64)| reserved.distance(self.to_px(*c)) > r * self.scale + beyond;
        let span = |(p, q): &(DVec2, DVec2)| {
            reserved.distance_to_line(self.to_px(*p), self.to_px(*q)) > belt
        };
        ground.wheels.iter().all(wheel) && ground.spans.iter().all(span)
    }

    /// A point of the drive on the screen.
    pub fn to_px(&self, p: DVec2) -> DVec2 {
        self.origin + DVec2::new(p.x, -p.y) * self.scale
    }

    /// A point of the screen in the drive.
    pub fn to_mm(&self, px: DVec2) -> DVec2 {
        let d = (px - self.origin) / self.scale;
        DVec2::new(d.x, -d.y)
    }

    /// This view enlarged by `zoom` about `middle` (px) and moved by `pan` (px).
    pub fn zoomed(&self, zoom: f64, middle: DVec2, pan: DVec2) -> Self {
        Self { scale: self.scale * zoom, origin: middle + (self.origin - middle) * zoom + pan }
    }
}
