//! Timing marks as shapes: a wedge on the wheel, a notch on the cover, and how far one is from the
//! other.
//!
//! Must not know: why a mark is out. A wedge's first corner is its tip and points where the mark is; a
//! notch is even about the direction of the cover's mark.

use crate::list::{Class, List, Part};
use drive::{Angle, DVec2};

/// A wedge with its tip at radius `tip`, pointing outward.
pub(crate) fn wedge(
    list: &mut List,
    class: Class,
    wheel: usize,
    centre: DVec2,
    at: Angle,
    tip: f64,
) {
    let size = wedge_size(tip);
    let out = at.unit();
    let side = drive::rot90(out) * (size * 0.42);
    let base = centre + out * (tip - size);
    list.begin(class, Part::Wheel(wheel));
    list.polygon([centre + out * tip, base + side, base - side]);
}

/// A bar along the radius, as long as a wedge with its tip at radius `tip` and as far out: no wedge.
pub(crate) fn bar(list: &mut List, class: Class, wheel: usize, centre: DVec2, at: Angle, tip: f64) {
    let size = wedge_size(tip);
    let out = at.unit();
    let side = drive::rot90(out) * (size * 0.16);
    let (end, base) = (centre + out * tip, centre + out * (tip - size));
    list.begin(class, Part::Wheel(wheel));
    list.polygon([end + side, base + side, base - side, end - side]);
}

/// Length of a wedge whose tip is at radius `tip`, mm.
pub(crate) fn wedge_size(tip: f64) -> f64 {
    (tip * 0.3).clamp(8.0, 14.0)
}

/// The notch in the cover at radius `inner` and beyond: two flanks that leave a gap to look through.
pub(crate) fn notch(list: &mut List, wheel: usize, centre: DVec2, at: Angle, inner: f64) {
    let out = at.unit();
    let across = drive::rot90(out);
    for side in [1.0, -1.0] {
        list.begin(Class::CoverMark, Part::Cover(wheel));
        list.polygon([
            centre + out * inner + across * (side * 1.1),
            centre + out * (inner + 10.0) + across * (side * 1.1),
            centre + out * (inner + 10.0) + across * (side * 6.5),
        ]);
    }
}

/// How far a mark is from where it should be: an arc at `radius` from `should` by `sweep_rad`, with an
/// arrowhead where the mark is.
pub(crate) fn drift(
    list: &mut List,
    wheel: usize,
    centre: DVec2,
    should: Angle,
    sweep_rad: f64,
    radius: f64,
) {
    let head = 6.0 / radius;
    let sign = sweep_rad.signum();
    list.begin(Class::Drift, Part::Wheel(wheel));
    list.move_to(centre + should.unit() * radius);
    list.arc(centre, radius, should.rad(), sweep_rad);
    let tip = should.turned(sweep_rad);
    let back = tip.turned(-sign * head.min(sweep_rad.abs()));
    list.move_to(centre + back.unit() * (radius + 3.2));
    list.line_to(centre + tip.unit() * radius);
    list.line_to(centre + back.unit() * (radius - 3.2));
}
