//! Calls that put layouts on the bench: opened, typed, or one of those that ship.
//!
//! Must not know: files, or what is wrong with a text.

use super::{Opened, Workbench};
use crate::crossing::{into, out};
use crate::draft::{ProblemLine, problem_lines};
use crate::painter::paint;
use crate::shipped::{self, Gallery};
use drive::{DVec2, Pose};
use job::Left;
use layout::{Plan, Problem, ProblemKind, text_in};
use picture::{DrivePicture, Ground, View};
use std::rc::Rc;
use tsify::Ts;
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

#[wasm_bindgen]
impl Workbench {
    /// Puts the layout of a file on the bench, in time, if nothing is wrong with it. Otherwise what
    /// was on the bench stays.
    ///
    /// # Errors
    /// Never in practice.
    pub fn open(&mut self, bytes: &[u8]) -> Result<Ts<Opened>, JsError> {
        let opened = self.opened(bytes, Plan::open_bytes(bytes));
        out(&opened)
    }

    /// As [`Workbench::open`] for what a link brings: a text of this format that makes no sound drive yet
    /// comes as something to go on with.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = openLinked)]
    pub fn open_linked(&mut self, bytes: &[u8]) -> Result<Ts<Opened>, JsError> {
        let read = Plan::open_bytes(bytes);
        let is_newer = |problem: &Problem| matches!(problem.kind, ProblemKind::Newer { .. });
        let goes_on = read.as_ref().is_err_and(|problems| !problems.iter().any(is_newer));
        let text = std::str::from_utf8(bytes).ok().filter(|_| goes_on);
        let opened = match text.filter(|text| layout::form(text).is_some()) {
            Some(text) => {
                self.take_up_own();
                self.job.open_draft(text);
                self.dress();
                Opened { problems: Vec::new() }
            }
            None => self.opened(bytes, read),
        };
        out(&opened)
    }

    /// As [`Workbench::open`] for a text that somebody is writing; with `goes_on`, the same spell of
    /// writing goes on. A text that makes no sound drive yet is kept beside the layout on the bench.
    ///
    /// # Errors
    /// Never in practice.
    pub fn edit(&mut self, text: &str, goes_on: bool) -> Result<Ts<Opened>, JsError> {
        let problems = self.write(text, goes_on);
        self.dress();
        out(&Opened { problems })
    }

    /// The text of the layout as it is being written.
    #[wasm_bindgen(js_name = writtenText)]
    pub fn written_text(&self) -> String {
        self.own().text().to_owned()
    }

    /// What is wrong with the text as it is being written.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = writtenProblems)]
    pub fn written_problems(&self) -> Result<Ts<Opened>, JsError> {
        let problems = self.own().draft().map_or_else(Vec::new, |text| {
            let problems = Plan::open(text).err().unwrap_or_default();
            problem_lines(self.reader.lang, text, &problems)
        });
        out(&Opened { problems })
    }

    /// Whether a text that makes no sound drive yet is sketched in place of the bench.
    pub fn sketch(&mut self, on: bool) {
        self.sketching = on;
        if self.draft.is_some() || self.job.draft().is_some() {
            self.dress();
        }
    }

    /// The text of the layout on the bench.
    #[wasm_bindgen(js_name = layoutText)]
    pub fn layout_text(&self) -> String {
        self.own().plan().text.clone()
    }

    /// The title that is being written, or else that of the layout on the bench.
    #[wasm_bindgen(js_name = layoutTitle)]
    pub fn layout_title(&self) -> String {
        let own = self.own();
        let rows = own.draft().and_then(|text| layout::form(text)).unwrap_or_default();
        let title = text_in(&rows, "title").unwrap_or(&own.plan().layout.title);
        words::written(self.reader.lang, title).to_owned()
    }

    /// Which document it is: every layout opened is one of its own, and undo past an opening is on the one
    /// before again.
    pub fn sheet(&self) -> u32 {
        self.own().sheet().0
    }

    /// How the job on it stands.
    ///
    /// # Errors
    /// Never in practice.
    pub fn left(&self) -> Result<Ts<Left>, JsError> {
        out(&self.own().left())
    }

    /// Takes the job up as it was left. Whether it can stand so; if not, nothing has changed.
    #[wasm_bindgen(js_name = takeUpLeft)]
    pub fn take_up_left(&mut self, left: Ts<Left>) -> bool {
        self.take_up_own();
        into(left).is_ok_and(|left| self.job.take_up_left(&left))
    }

    /// How many layouts ship.
    #[wasm_bindgen(js_name = shippedCount)]
    pub fn shipped_count() -> usize {
        shipped::TEXTS.len()
    }

    /// Title of one of the layouts that ship.
    #[wasm_bindgen(js_name = shippedTitle)]
    pub fn shipped_title(&mut self, index: usize) -> String {
        words::written(self.reader.lang, &self.shipped.title(index)).to_owned()
    }

    /// Text of one of the layouts that ship.
    #[wasm_bindgen(js_name = shippedText)]
    pub fn shipped_text(index: usize) -> String {
        shipped::TEXTS.get(index).map_or_else(String::new, |text| (*text).to_owned())
    }

    /// Paints a small picture of one of the layouts that ship on a cleared canvas.
    ///
    /// # Errors
    /// What the canvas refuses.
    #[wasm_bindgen(js_name = paintShipped)]
    pub fn paint_shipped(
        &mut self,
        index: usize,
        ctx: &CanvasRenderingContext2d,
        width: f64,
        height: f64,
        density: f64,
    ) -> Result<(), JsValue> {
        self.paint_small(Gallery::Shipped, index, ctx, width, height, density)
    }
}

impl Workbench {
    /// Paints a small picture of a layout of a gallery on a cleared canvas.
    pub(super) fn paint_small(
        &mut self,
        gallery: Gallery,
        index: usize,
        ctx: &CanvasRenderingContext2d,
        width: f64,
        height: f64,
        density: f64,
    ) -> Result<(), JsValue> {
        let Some(job) = self.shipped.job(gallery, index) else { return Ok(()) };
        let pose = Pose::of(job.drive(), job.stance(), job.cord());
        self.list.clear();
        DrivePicture::new(job.drive()).draw(&mut self.list, job, &pose, None);
        let fit = View::fit(&Ground::of(job.drive()), width, height, 0.0, &[]);
        // The margins of the large view are too wide for a small one.
        let view = fit.zoomed(1.45, DVec2::new(width, height) / 2.0, DVec2::ZERO);
        paint(ctx, &self.list, &self.palette, &view, density)
    }

    /// Puts a layout that was read from `bytes` on the bench, or tells what is wrong with it.
    fn opened(&mut self, bytes: &[u8], read: Result<Plan, Vec<Problem>>) -> Opened {
        let problems = match read {
            Ok(plan) => {
                self.take_up_own();
                self.job.open(Rc::new(plan));
                self.dress();
                Vec::new()
            }
            Err(problems) => {
                let text = String::from_utf8_lossy(bytes);
                problem_lines(self.reader.lang, &text, &problems)
            }
        };
        Opened { problems }
    }

    /// Takes a text as it is written, without dressing the view.
    pub(super) fn write(&mut self, text: &str, goes_on: bool) -> Vec<ProblemLine> {
        self.take_up_own();
        if text == self.job.plan().text {
            // Written and taken back: everything is as it was.
            self.job.write(text, goes_on);
            return Vec::new();
        }
        match Plan::open(text) {
            Ok(plan) => {
                self.job.rewrite(Rc::new(plan), goes_on);
                Vec::new()
            }
            Err(problems) => {
                self.job.write(text, goes_on);
                problem_lines(self.reader.lang, text, &problems)
            }
        }
    }
}
