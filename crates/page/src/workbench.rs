//! The one object that the page holds.
//!
//! Must not know: elements, events, or any word.

use crate::crossing::{into, out, told};
use crate::draft::{Draft, ProblemLine, problem_lines};
use crate::hand::Hold;
use crate::painter::{Palette, paint};
use crate::panel::Panel;
use crate::run::Run;
use crate::shipped::{self, Shipped};
use drive::{DVec2, Pose, Turned};
use job::{Action, Job};
use js_sys::{Array, Float64Array};
use layout::Plan;
use picture::{
    Boxed, Class, DIAL_REACH, Dial, DrivePicture, Ground, LabelBox, LabelPlace, List, View,
    leaders, place_labels,
};
use serde::Serialize;
use std::rc::Rc;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;
use words::{Labels, Lang, Reader, Units, say};

/// What came of asking for something.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct Told {
    /// Whether it was done. If not, nothing has changed.
    pub done: bool,
    /// What was done, or why not, in a sentence.
    pub text: String,
    /// Whether another layout is on the bench now.
    pub other_layout: bool,
}

/// What came of opening a layout file.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct Opened {
    /// Everything wrong with it; empty if it is on the bench now.
    pub problems: Vec<ProblemLine>,
}

/// A hold and the wheel that it is on.
#[derive(Clone, Copy, Debug, Serialize, Tsify)]
pub struct Held {
    /// Index of the wheel under the hand.
    pub wheel: usize,
    /// Whether the hand can move it.
    pub moves: bool,
}

/// The bench: a layout, its state, and how the page shows it.
#[wasm_bindgen]
pub struct Workbench {
    job: Job,
    reader: Reader,
    picture: DrivePicture,
    pose: Pose,
    list: List,
    palette: Palette,
    fitted: View,
    view: View,
    size: DVec2,
    reserved: Vec<Boxed>,
    picked: Option<usize>,
    hold: Option<Hold>,
    run: Option<Run>,
    side: f64,
    labels: Vec<LabelPlace>,
    ground: Ground,
    draft: Option<Draft>,
    shipped: Shipped,
}

#[wasm_bindgen]
impl Workbench {
    /// A bench with the layout that ships, for a reader of the language `lang` (a code).
    ///
    /// # Errors
    /// If that layout were unsound, which tests rule out.
    #[wasm_bindgen(constructor)]
    pub fn new(lang: &str, inch: bool) -> Result<Self, JsError> {
        let plan =
            Plan::open(shipped::FIRST).map_err(|_| told("The shipped layout does not open."))?;
        let job = Job::new(Rc::new(plan));
        let nothing = View { scale: 1.0, origin: DVec2::ZERO };
        Ok(Self {
            picture: DrivePicture::new(job.drive()),
            ground: Ground::of(job.drive()),
            pose: Pose::of(job.drive(), job.stance(), job.cord()),
            job,
            reader: reader(lang, inch),
            list: List::default(),
            palette: Palette::default(),
            fitted: nothing,
            view: nothing,
            size: DVec2::ONE,
            reserved: Vec::new(),
            picked: None,
            hold: None,
            run: None,
            side: 0.0,
            labels: Vec::new(),
            draft: None,
            shipped: Shipped::default(),
        })
    }

    /// Changes the reader's language and units.
    #[wasm_bindgen(js_name = setReader)]
    pub fn set_reader(&mut self, lang: &str, inch: bool) {
        self.reader = reader(lang, inch);
    }

    /// The fixed texts in the reader's language.
    ///
    /// # Errors
    /// Never in practice.
    pub fn labels(&self) -> Result<Ts<Labels>, JsError> {
        out(&Labels::of(self.reader.lang))
    }

    /// Puts the layout of a file on the bench, in time, if nothing is wrong with it. Otherwise what
    /// was on the bench stays.
    ///
    /// # Errors
    /// Never in practice.
    pub fn open(&mut self, bytes: &[u8]) -> Result<Ts<Opened>, JsError> {
        let problems = match Plan::open_bytes(bytes) {
            Ok(plan) => self.put_on(plan, false),
            Err(problems) => {
                let text = String::from_utf8_lossy(bytes);
                problem_lines(self.reader.lang, &text, &problems)
            }
        };
        out(&Opened { problems })
    }

    /// As [`Workbench::open`] for a text that somebody is typing; with `goes_on`, the same spell of
    /// typing goes on. A layout that can be read but not run is shown as a sketch until the next text.
    ///
    /// # Errors
    /// Never in practice.
    pub fn edit(&mut self, text: &str, goes_on: bool) -> Result<Ts<Opened>, JsError> {
        let problems = match Plan::open(text) {
            Ok(plan) => self.put_on(plan, goes_on),
            Err(problems) => {
                self.draft = Draft::of(text, &problems);
                self.dress();
                problem_lines(self.reader.lang, text, &problems)
            }
        };
        out(&Opened { problems })
    }

    /// Shows the bench again in place of a sketch.
    #[wasm_bindgen(js_name = leaveDraft)]
    pub fn leave_draft(&mut self) {
        if self.draft.take().is_some() {
            self.dress();
        }
    }

    /// The text of the layout on the bench.
    #[wasm_bindgen(js_name = layoutText)]
    pub fn layout_text(&self) -> String {
        self.job.plan().text.clone()
    }

    /// How many layouts ship.
    #[wasm_bindgen(js_name = shippedCount)]
    pub fn shipped_count() -> usize {
        shipped::TEXTS.len()
    }

    /// Title of one of the layouts that ship.
    #[wasm_bindgen(js_name = shippedTitle)]
    pub fn shipped_title(&mut self, index: usize) -> String {
        self.shipped.title(index)
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
        let Some(job) = self.shipped.job(index) else { return Ok(()) };
        let pose = Pose::of(job.drive(), job.stance(), job.cord());
        self.list.clear();
        DrivePicture::new(job.drive()).draw(&mut self.list, job, &pose, None);
        let view = View::fit(&Ground::of(job.drive()), width, height, 0.0, &[]);
        paint(ctx, &self.list, &self.palette, &view, density)
    }

    /// Does an action; with `goes_on` it carries on the one before, as one drag of a hand. A run
    /// under way ends where it is.
    ///
    /// # Errors
    /// An action that is none.
    pub fn act(&mut self, action: Ts<Action>, goes_on: bool) -> Result<Ts<Told>, JsError> {
        let action = into(action)?;
        self.run = None;
        let told = self.do_it(&action, goes_on);
        out(&told)
    }

    /// Takes the last step back.
    ///
    /// # Errors
    /// Never in practice.
    pub fn undo(&mut self) -> Result<Ts<Told>, JsError> {
        self.run = None;
        self.step(Job::undo)
    }

    /// Takes the last undone step again.
    ///
    /// # Errors
    /// Never in practice.
    pub fn redo(&mut self) -> Result<Ts<Told>, JsError> {
        self.run = None;
        self.step(Job::redo)
    }

    /// Lets the crank run to an angle; with `still`, it is there at once.
    ///
    /// # Errors
    /// Never in practice; an angle out of range is told.
    #[wasm_bindgen(js_name = runTo)]
    pub fn run_to(&mut self, crank_deg: f64, still: bool) -> Result<Ts<Told>, JsError> {
        self.finish_run();
        let told = self.start_run(crank_deg, still);
        out(&told)
    }

    /// Lets the crank run on by so many degrees from where it is, or from where it is running to.
    ///
    /// # Errors
    /// Never in practice; an angle out of range is told.
    #[wasm_bindgen(js_name = runBy)]
    pub fn run_by(&mut self, deg: f64, still: bool) -> Result<Ts<Told>, JsError> {
        self.finish_run();
        let told = self.start_run(self.job.crank().total_deg() + deg, still);
        out(&told)
    }

    /// Ends a run where it is.
    #[wasm_bindgen(js_name = stopRun)]
    pub fn stop_run(&mut self) {
        self.run = None;
    }

    /// Brings a run on by so many milliseconds. Whether it goes on.
    pub fn frame(&mut self, elapsed_ms: f64) -> bool {
        let Some(run) = &mut self.run else { return false };
        let (at, done) = run.on(elapsed_ms / 1000.0);
        self.job.run_crank_to(at);
        if done {
            self.run = None;
        }
        !done
    }

    /// Everything that the page says.
    ///
    /// # Errors
    /// Never in practice.
    pub fn panel(&mut self) -> Result<Ts<Panel>, JsError> {
        self.pose.take(self.job.drive(), self.job.stance(), self.job.cord());
        let turned: Vec<f64> = (0..self.job.drive().wheels().len())
            .map(|i| self.pose.turned_deg(self.job.drive(), i))
            .collect();
        let mut panel = Panel::of(&self.job, self.reader, &turned);
        panel.draft = self.draft.as_ref().map(|draft| draft.wheels(self.reader.lang));
        out(&panel)
    }

    /// What `two-turns report --json` prints for the layout on the bench.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = reportJson)]
    pub fn report_json(&self) -> Result<String, JsError> {
        serde_json::to_string_pretty(&advice::report(self.job.plan())).map_err(told)
    }

    /// What `two-turns pose --json` prints for the bench as it stands.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = poseJson)]
    pub fn pose_json(&self) -> Result<String, JsError> {
        serde_json::to_string_pretty(&advice::pose(&self.job)).map_err(told)
    }

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

    /// Shows the drive `zoom` times as large as it fits, moved by so many px.
    #[wasm_bindgen(js_name = setZoom)]
    pub fn set_zoom(&mut self, zoom: f64, pan_x: f64, pan_y: f64) {
        self.view = self.fitted.zoomed(zoom, self.size / 2.0, DVec2::new(pan_x, pan_y));
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
        self.labels = place_labels(
            &self.ground,
            &self.view,
            &sizes,
            self.size.x,
            self.size.y,
            &self.reserved,
        );
        let flat: Vec<f64> = self
            .labels
            .iter()
            .flat_map(|p| [p.left, p.top, if p.clear { 1.0 } else { 0.0 }])
            .collect();
        Float64Array::from(flat.as_slice())
    }

    /// Rings a wheel, by index; none below 0.
    pub fn pick(&mut self, wheel: i32) {
        self.picked = usize::try_from(wheel).ok();
    }

    /// Takes hold of what is at a point of the view (px); nothing if there is nothing.
    ///
    /// # Errors
    /// Never in practice.
    pub fn grab(&mut self, x: f64, y: f64) -> Result<Option<Ts<Held>>, JsError> {
        let point = self.view.to_mm(DVec2::new(x, y));
        self.hold = None;
        if self.draft.is_some() {
            return Ok(None);
        }
        let Some(wheel) = self.picture.part_at(&self.job, point) else { return Ok(None) };
        self.hold = Hold::take(&self.job, wheel, point);
        out(&Held { wheel, moves: self.hold.is_some() }).map(Some)
    }

    /// Moves the hand to a point of the view (px). With `goes_on`, the same drag goes on.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = dragTo)]
    pub fn drag_to(&mut self, x: f64, y: f64, goes_on: bool) -> Result<Option<Ts<Told>>, JsError> {
        let Some(hold) = self.hold else { return Ok(None) };
        let point = self.view.to_mm(DVec2::new(x, y));
        let (hold, action) = hold.moved(&self.job, point);
        self.hold = Some(hold);
        self.run = None;
        let told = self.do_it(&action, goes_on);
        out(&told).map(Some)
    }

    /// The crank angle that a hand at a point of the dial asks for (px from its top left corner, on a
    /// dial of `size` px); no number at the very middle.
    #[wasm_bindgen(js_name = dialAngle)]
    pub fn dial_angle(&self, x: f64, y: f64, size: f64) -> f64 {
        let point = dial_view(size).to_mm(DVec2::new(x, y));
        picture::dial_angle_deg(point, self.job.crank().total_deg()).unwrap_or(f64::NAN)
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
            None => self.picture.draw(&mut self.list, &self.job, &self.pose, self.picked),
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

impl Workbench {
    fn finish_run(&mut self) {
        if let Some(run) = self.run.take() {
            self.job.run_crank_to(run.to());
        }
    }

    fn start_run(&mut self, crank_deg: f64, still: bool) -> Told {
        if let Err(refusal) = self.job.begin_run(crank_deg) {
            return self.refused(&refusal);
        }
        let run = Run::new(self.job.crank(), Turned::from_deg(crank_deg), still);
        if still {
            self.job.run_crank_to(run.to());
        } else {
            self.run = Some(run);
        }
        self.told(&job::Did::TurnedTo { crank_deg })
    }

    fn do_it(&mut self, action: &Action, goes_on: bool) -> Told {
        match self.job.act(action, goes_on) {
            Ok(did) => self.told(&did),
            Err(refusal) => self.refused(&refusal),
        }
    }

    fn told(&self, did: &job::Did) -> Told {
        let plan = self.job.plan();
        let names: Vec<&str> = (0..plan.layout.wheels.len()).map(|i| plan.name(i)).collect();
        let text = say::did(self.reader, did, &names, plan.travel_unit());
        Told { done: true, text, other_layout: false }
    }

    fn refused(&self, refusal: &job::Refusal) -> Told {
        {
            let text = words::refusal(self.reader.lang, refusal);
            Told { done: false, text, other_layout: false }
        }
    }

    fn step(&mut self, way: fn(&mut Job) -> Option<job::Step>) -> Result<Ts<Told>, JsError> {
        let plan = Rc::clone(self.job.plan());
        let step = way(&mut self.job);
        let text = step.as_ref().map_or("", |step| say::step_name(self.reader.lang, step));
        let other_layout = !Rc::ptr_eq(&plan, self.job.plan());
        if other_layout {
            self.draft = None;
            self.dress();
        }
        out(&Told { done: step.is_some(), text: text.to_owned(), other_layout })
    }

    fn put_on(&mut self, plan: Plan, goes_on: bool) -> Vec<ProblemLine> {
        self.job.open(Rc::new(plan), goes_on);
        self.draft = None;
        self.dress();
        Vec::new()
    }

    /// Everything that goes with the layout shown, made anew.
    fn dress(&mut self) {
        self.picture = DrivePicture::new(self.job.drive());
        self.ground = match &self.draft {
            Some(draft) => draft.ground(),
            None => Ground::of(self.job.drive()),
        };
        (self.picked, self.hold, self.run) = (None, None, None);
        self.labels.clear();
        self.fit();
    }

    fn fit(&mut self) {
        let (size, side) = (self.size, self.side);
        self.fitted = View::fit(&self.ground, size.x, size.y, side, &self.reserved);
        self.view = self.fitted;
    }
}

fn reader(lang: &str, inch: bool) -> Reader {
    let units = if inch { Units::Inch } else { Units::Metric };
    Reader { lang: Lang::from_code(lang), units }
}

/// The dial's own units in a square of `size` px.
fn dial_view(size: f64) -> View {
    View { scale: size / 2.0 / DIAL_REACH, origin: DVec2::splat(size / 2.0) }
}
