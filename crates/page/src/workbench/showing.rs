//! Calls that show the drive: colours, size, labels, painting.
//!
//! Must not know: what the shapes mean.

use super::Workbench;
use super::tags::TagPlaces;
use crate::painter::{Palette, paint};
use drive::{DVec2, Hang, rot90};
use js_sys::{Array, Float64Array};
use picture::{
    Boxed, Class, DIAL_REACH, Dial, DrivePicture, LabelBox, LabelPlace, View, leaders, place_labels,
};
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
        self.reserved = boxes(reserved);
        self.side = side;
        self.fit();
    }

    /// Keeps labels, and nothing else, off rectangles given in the same way.
    #[wasm_bindgen(js_name = keepLabelsOff)]
    pub fn keep_labels_off(&mut self, over: &Float64Array) {
        self.over = boxes(over);
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

    /// Where tags of these sizes (width, height one after the other, px) beside each run's slack have
    /// their middle, as last painted (x, y one after the other, px): just beyond where it hangs deepest,
    /// or further where something is in the way. A tag of no width goes nowhere.
    #[wasm_bindgen(js_name = slackCrowns)]
    pub fn slack_crowns(&self, sizes: &Float64Array) -> Float64Array {
        let sizes = tag_sizes(sizes);
        let mut places = TagPlaces::new(self);
        let mut flat = Vec::with_capacity(2 * sizes.len());
        for (j, (place, size)) in self.job.drive().hanging().iter().zip(&sizes).enumerate() {
            if size.x == 0.0 {
                flat.extend([0.0, 0.0]);
                continue;
            }
            let span = &self.job.stance().path.spans[place.span];
            let slack = self.pose.slack_mm.get(j).copied().unwrap_or(0.0);
            let hang = Hang::new(span, slack, place.bow);
            let (crown, along) = hang.at(hang.length_mm / 2.0);
            let up = rot90(along) * place.bow;
            let belt = self.job.drive().belt().thickness_mm * self.view.scale;
            let out = DVec2::new(up.x, -up.y);
            flat.extend(places.beside(self.view.to_px(crown), out, belt + 4.0, *size).to_array());
        }
        Float64Array::from(flat.as_slice())
    }

    /// Shows the belt's teeth counted from stripe to stripe, or no longer.
    #[wasm_bindgen(js_name = showCounts)]
    pub fn show_counts(&mut self, counted: bool) {
        self.counted = counted;
    }

    /// The same for a tag with each count, in the order of the panel's counts; empty with the belt off
    /// or the counts not shown.
    #[wasm_bindgen(js_name = countTags)]
    pub fn count_tags(&self, sizes: &Float64Array) -> Float64Array {
        if !self.counted || self.draft.is_some() {
            return Float64Array::new_with_length(0);
        }
        let mut places = TagPlaces::new(self);
        let on_belt = self.picture.count_tags(&self.job, &self.pose);
        let tags = on_belt.iter().zip(tag_sizes(sizes));
        let flat: Vec<f64> = tags
            .flat_map(|((at, up), size)| {
                let out = DVec2::new(up.x, -up.y);
                let ticks = TICKS_MM * self.view.scale;
                places.beside(self.view.to_px(*at), out, ticks, size).to_array()
            })
            .collect();
        Float64Array::from(flat.as_slice())
    }

    /// Where the letters of marks that are not the timing mark have their middle, in the order of the
    /// panel's letters (x, y one after the other, px).
    #[wasm_bindgen(js_name = letterTags)]
    pub fn letter_tags(&self) -> Float64Array {
        let off = LETTERS_PX / self.view.scale;
        let places = self.picture.letters(&self.job, &self.pose, self.aside_deg, off);
        let flat: Vec<f64> =
            places.into_iter().flat_map(|at| self.view.to_px(at).to_array()).collect();
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
                let draw = match self.hides() {
                    true => DrivePicture::draw_unjudged,
                    false => DrivePicture::draw_from,
                };
                let (list, aside_deg) = (&mut self.list, self.aside_deg);
                draw(&self.picture, list, &self.job, &self.pose, self.picked, aside_deg);
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
        if self.hides() {
            Dial::draw_unjudged(&mut self.list, &self.job);
        } else {
            Dial::draw(&mut self.list, &self.job, self.valves.arcs(&self.job));
        }
        paint(ctx, &self.list, &self.palette, &dial_view(size), density)
    }
}

/// From a mark to the middle of its letters, px.
const LETTERS_PX: f64 = 15.0;
/// From the belt's pitch line beyond the ticks of a count, mm.
const TICKS_MM: f64 = 14.0;

fn boxes(flat: &Float64Array) -> Vec<Boxed> {
    let each = |r: &[f64]| Boxed { left: r[0], top: r[1], width: r[2], height: r[3] };
    flat.to_vec().chunks_exact(4).map(each).collect()
}

fn tag_sizes(sizes: &Float64Array) -> Vec<DVec2> {
    sizes.to_vec().chunks_exact(2).map(|size| DVec2::new(size[0], size[1])).collect()
}

/// How much smaller than it fits a drive is shown, at the most, so that its labels have room.
const SMALLER: [f64; 5] = [1.0, 0.94, 0.88, 0.82, 0.76];

impl Workbench {
    fn places(&self, view: &View, sizes: &[LabelBox]) -> Vec<LabelPlace> {
        let taken = [self.reserved.as_slice(), &self.over].concat();
        place_labels(&self.ground, view, sizes, self.size.x, self.size.y, &taken)
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
