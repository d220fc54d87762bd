//! Calls that show the drive: colours, size, labels, painting.
//!
//! Must not know: what the shapes mean.

use super::Workbench;
use crate::painter::{Palette, paint};
use drive::{DVec2, Hang, HangingPlace, rot90};
use js_sys::{Array, Float64Array};
use picture::{Boxed, Class, DIAL_REACH, Dial, LabelBox, LabelPlace, View, leaders, place_labels};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

#[wasm_bindgen]
impl Workbench {
    /// Names of the classes, in the order in which [`Workbench::set_palette`] takes their colours.
    #[wasm_bindgen(js_name = classNames)]
    pub fn class_names() -> Vec<String> {
        Class::ALL.iter().map(|class| class.name().to_owned()).collect()
    }

    /// Takes the colours: for each class, fill, then stroke; empty for none.
    #[wasm_bindgen(js_name = setPalette)]
    pub fn set_palette(&mut self, colours: &Array) {
        self.palette = Palette::new(colours);
    }

    /// Fits the drive into `width` × `height` px with `side` px left at each side for labels, clear of
    /// rectangles given as left, top, width, height one after the other.
    #[wasm_bindgen(js_name = setSize)]
    pub fn set_size(&mut self, width: f64, height: f64, side: f64, reserved: &Float64Array) {
        self.size = DVec2::new(width, height);
        self.reserved = reserved
            .to_vec()
            .chunks_exact(4)
            .map(|r| Boxed { left: r[0], top: r[1], width: r[2], height: r[3] })
            .collect();
        self.side = side;
        self.fit();
    }

    /// Shows the drive `zoom` times as large as it fits, about the picked wheel, or else the crank, moved
    /// by so many px.
    #[wasm_bindgen(js_name = setZoom)]
    pub fn set_zoom(&mut self, zoom: f64, pan_x: f64, pan_y: f64) {
        let wheel = self.picked.unwrap_or(0);
        let about = self.ground.wheel(wheel).map_or(self.size / 2.0, |at| self.fitted.to_px(at));
        // The more it is enlarged, the nearer that wheel comes to the middle.
        let towards = (self.size / 2.0 - about) * (1.0 - 1.0 / zoom.max(1.0));
        self.view = self.fitted.zoomed(zoom, about, towards + DVec2::new(pan_x, pan_y));
    }

    /// Places for the wheels' labels of these sizes (width, height one after the other): left, top and
    /// 1 where there is room, 0 where there is none, one after the other.
    #[wasm_bindgen(js_name = placeLabels)]
    pub fn place_labels(&mut self, sizes: &Float64Array) -> Float64Array {
        let sizes: Vec<LabelBox> = sizes
            .to_vec()
            .chunks_exact(2)
            .map(|s| LabelBox { width: s[0], height: s[1] })
            .collect();
        // An enlarged drawing keeps the size that was asked for.
        if self.fresh_fit && self.view == self.fitted {
            self.fresh_fit = false;
            self.make_room(&sizes);
        }
        self.labels = self.places(&self.view, &sizes);
        self.label_sizes = sizes;
        let flat: Vec<f64> = self
            .labels
            .iter()
            .flat_map(|p| [p.left, p.top, if p.clear { 1.0 } else { 0.0 }])
            .collect();
        Float64Array::from(flat.as_slice())
    }

    /// Where a tag of `TAG_PX` beside each run's slack has its middle, as last painted (x, y one after the
    /// other, px): just beyond where it hangs deepest.
    #[wasm_bindgen(js_name = slackCrowns)]
    pub fn slack_crowns(&self) -> Float64Array {
        let crown = |(j, place): (usize, &HangingPlace)| {
            let span = &self.job.stance().path.spans[place.span];
            let slack = self.pose.slack_mm.get(j).copied().unwrap_or(0.0);
            let hang = Hang::new(span, slack, place.bow);
            let (crown, along) = hang.at(hang.length_mm / 2.0);
            let up = rot90(along) * place.bow;
            // Off the belt by its own thickness, and by as much of the tag as lies that way.
            let out = DVec2::new(up.x, -up.y);
            let tag = out.abs().dot(TAG_PX / 2.0);
            let off = tag + self.job.drive().belt().thickness_mm * self.view.scale + 4.0;
            let crown = self.view.to_px(crown);
            let tries = FURTHER_PX.iter().flat_map(|more| [off + more, -(off + more)]);
            let clear = tries.map(|off| crown + out * off).find(|at| !self.on_a_label(*at));
            clear.unwrap_or(crown + out * off).to_array()
        };
        let flat: Vec<f64> =
            self.job.drive().hanging().iter().enumerate().flat_map(crown).collect();
        Float64Array::from(flat.as_slice())
    }

    /// Shows the belt's teeth counted from stripe to stripe, or no longer.
    #[wasm_bindgen(js_name = showCounts)]
    pub fn show_counts(&mut self, counted: bool) {
        self.counted = counted;
    }

    /// Where a tag with each count has its middle, as last painted (x, y one after the other, px), in
    /// the order of the panel's counts; empty with the belt off or the counts not shown.
    #[wasm_bindgen(js_name = countTags)]
    pub fn count_tags(&self) -> Float64Array {
        if !self.counted || self.draft.is_some() {
            return Float64Array::new_with_length(0);
        }
        let off_mm = COUNT_TAG_OFF_PX / self.view.scale;
        let at = self.picture.count_tags(&self.job, &self.pose, off_mm);
        let flat: Vec<f64> = at.iter().flat_map(|p| self.view.to_px(*p).to_array()).collect();
        Float64Array::from(flat.as_slice())
    }

    /// Paints the drive on a cleared canvas.
    ///
    /// # Errors
    /// What the canvas refuses.
    #[wasm_bindgen(js_name = paintDrive)]
    pub fn paint_drive(
        &mut self,
        ctx: &CanvasRenderingContext2d,
        density: f64,
    ) -> Result<(), JsValue> {
        self.pose.take(self.job.drive(), self.job.stance(), self.job.cord());
        self.list.clear();
        leaders(&mut self.list, &self.labels);
        match &self.draft {
            Some(draft) => draft.draw(&mut self.list),
            None => {
                self.picture.draw(&mut self.list, &self.job, &self.pose, self.picked);
                if self.counted {
                    self.picture.draw_counts(&mut self.list, &self.job, &self.pose);
                }
            }
        }
        paint(ctx, &self.list, &self.palette, &self.view, density)
    }

    /// Paints the dial, `size` px square, on a cleared canvas.
    ///
    /// # Errors
    /// What the canvas refuses.
    #[wasm_bindgen(js_name = paintDial)]
    pub fn paint_dial(
        &mut self,
        ctx: &CanvasRenderingContext2d,
        size: f64,
        density: f64,
    ) -> Result<(), JsValue> {
        self.list.clear();
        Dial::draw(&mut self.list, &self.job);
        paint(ctx, &self.list, &self.palette, &dial_view(size), density)
    }
}

/// Width and height of a tag that names slack, px, near enough.
const TAG_PX: DVec2 = DVec2::new(150.0, 28.0);

/// How far beyond the ticks a tag with a count has its middle, px.
const COUNT_TAG_OFF_PX: f64 = 26.0;

/// How much smaller than it fits a drive is shown, at the most, so that its labels have room.
const SMALLER: [f64; 5] = [1.0, 0.94, 0.88, 0.82, 0.76];

/// How much further off the belt a tag goes where a label is in its way, px.
const FURTHER_PX: [f64; 4] = [0.0, 24.0, 48.0, 72.0];

impl Workbench {
    /// Whether a tag with its middle there would lie over a wheel's label or the controls.
    fn on_a_label(&self, middle: DVec2) -> bool {
        let (low, high) = (middle - TAG_PX / 2.0, middle + TAG_PX / 2.0);
        let meets = |left: f64, top: f64, width: f64, height: f64| {
            left < high.x && left + width > low.x && top < high.y && top + height > low.y
        };
        let mut labels = self.labels.iter().zip(&self.label_sizes).filter(|(at, _)| at.clear);
        labels.any(|(at, size)| meets(at.left, at.top, size.width, size.height))
            || self.reserved.iter().any(|r| meets(r.left, r.top, r.width, r.height))
    }

    fn places(&self, view: &View, sizes: &[LabelBox]) -> Vec<LabelPlace> {
        place_labels(&self.ground, view, sizes, self.size.x, self.size.y, &self.reserved)
    }

    /// The largest view in which the most labels have room, once for each fit: the drawing must not
    /// change its size with every word.
    fn make_room(&mut self, sizes: &[LabelBox]) {
        let mut most = 0;
        let full = self.fitted;
        for factor in SMALLER {
            let view = full.zoomed(factor, self.size / 2.0, DVec2::ZERO);
            let clear = self.places(&view, sizes).iter().filter(|place| place.clear).count();
            if clear > most {
                (most, self.fitted) = (clear, view);
            }
            if most == sizes.len() {
                break;
            }
        }
        self.view = self.fitted;
    }
}

/// The dial's own units in a square of `size` px.
pub(super) fn dial_view(size: f64) -> View {
    View { scale: size / 2.0 / DIAL_REACH, origin: DVec2::splat(size / 2.0) }
}
