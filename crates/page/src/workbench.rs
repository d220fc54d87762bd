//! The one object that the page holds. Its calls stand by kind in the files below it.
//!
//! Must not know: elements, events, or any word.

mod arranging;
mod assuming;
mod contact_map;
mod doing;
mod engine;
mod exercising;
mod explain;
mod filling;
mod layouts;
mod showing;
mod starting;
mod tags;

use crate::crossing::{out, told};
use crate::draft::{Draft, ProblemLine};
use crate::hand::Hold;
use crate::painter::Palette;
use crate::panel::{Answers, BeltOffPart, Panel, Wanted, wheel_names};
use crate::run::Run;
use crate::shipped::{self, Shipped};
use crate::valves::Valves;
use advice::Assumptions;
use assuming::Assuming;
use drive::{DVec2, Pose};
use job::Job;
use layout::Plan;
use picture::{Boxed, DrivePicture, Ground, LabelBox, LabelPlace, List, Texts, View, WheelTexts};
use serde::Serialize;
use std::rc::Rc;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsError, wasm_bindgen};
use words::{Labels, Lang, Reader, Units};

/// What came of asking for something.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct Told {
    /// Whether it was done. If not, nothing has changed.
    pub done: bool,
    /// What was done, or why not, in a sentence.
    pub text: String,
    /// Whether something stopped it short of what was asked.
    pub stopped: bool,
    /// Whether another layout is on the bench or being written now.
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
    /// What stands over the drawing, so that only labels keep off it.
    over: Vec<Boxed>,
    picked: Option<usize>,
    hold: Option<Hold>,
    /// A wheel that is moved to another place.
    moving: Option<arranging::Move>,
    run: Option<Run>,
    side: f64,
    fresh_fit: bool,
    labels: Vec<LabelPlace>,
    label_sizes: Vec<LabelBox>,
    ground: Ground,
    /// Whether a text that makes no sound drive yet is sketched in place of the bench.
    sketching: bool,
    draft: Option<Draft>,
    shipped: Shipped,
    /// The plan on the bench as it was last dressed, and what follows from it.
    answered: Rc<Plan>,
    answers: Answers,
    /// Whether the belt's teeth are shown counted.
    counted: bool,
    /// The exponent of cranking pressures that somebody chose.
    exponent: Option<f64>,
    assuming: Assuming,
    /// How far off square the marks are looked at, degrees.
    aside_deg: f64,
    /// What the pictures of the engine are made from.
    valves: Valves,
    /// What is shown in place of the person's own job.
    lesson: Option<explain::Lesson>,
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
        let job = Job::new(Rc::new(plan)).feeling_contact();
        let nothing = View { scale: 1.0, origin: DVec2::ZERO };
        Ok(Self {
            answered: Rc::clone(job.plan()),
            answers: Answers::of(job.plan(), &Assumptions::default()),
            counted: false,
            exponent: None,
            assuming: Assuming::default(),
            aside_deg: 0.0,
            valves: Valves::default(),
            lesson: None,
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
            over: Vec::new(),
            picked: None,
            hold: None,
            moving: None,
            run: None,
            side: 0.0,
            fresh_fit: true,
            labels: Vec::new(),
            label_sizes: Vec::new(),
            sketching: false,
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

    /// Everything that the page says; the task *Fitting*, the engine behind *What if* and what every wheel goes
    /// through only if they are asked for.
    ///
    /// # Errors
    /// Never in practice.
    pub fn panel(
        &mut self,
        fitting: bool,
        engine: bool,
        wearing: bool,
    ) -> Result<Ts<Panel>, JsError> {
        self.pose.take(self.job.drive(), self.job.stance(), self.job.cord());
        let turned: Vec<f64> = (0..self.job.drive().wheels().len())
            .map(|i| self.pose.turned_deg(self.job.drive(), i))
            .collect();
        let wanted = Wanted {
            fitting,
            engine,
            wearing,
            exponent: self.exponent,
            aside_deg: self.aside_deg,
            seized: self.assuming.seized,
            refused: self.assuming.refused,
        };
        let mut panel = Panel::of(&self.job, self.reader, &turned, &self.answers, wanted);
        if self.hides() {
            self.hide_in(&mut panel);
        }
        panel.draft = self.draft.as_ref().map(|draft| draft.part(self.reader));
        out(&panel)
    }

    /// Takes the exponent of cranking pressures, 1.20 to 1.30; anything else, and they are told as a range.
    #[wasm_bindgen(js_name = setExponent)]
    pub fn set_exponent(&mut self, exponent: f64) {
        let [least, most] = advice::EXPONENTS;
        self.exponent = Some(exponent).filter(|n| (least..=most).contains(n));
    }

    /// Looks at the marks so many degrees off square, positive to the side from which they seem ahead; 0 is
    /// square again, and no more than can be looked from.
    #[wasm_bindgen(js_name = setSight)]
    pub fn set_sight(&mut self, aside_deg: f64) {
        self.aside_deg = advice::sight(&self.job, aside_deg).aside_deg;
    }

    /// What may be turned with the belt off as the shafts stand, and an order of moves back to the marks;
    /// nothing without an engine in the layout.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = beltOff)]
    pub fn belt_off(&self) -> Result<Option<Ts<BeltOffPart>>, JsError> {
        let plan = self.job.plan();
        let Some(stand) = advice::stand(&self.job) else { return Ok(None) };
        let Some(answer) = advice::belt_off(plan, &stand, true) else { return Ok(None) };
        let names = wheel_names(plan, self.reader.lang);
        let name =
            |id: &str| plan.wheel_index(id).map_or_else(String::new, |i| names[i].to_owned());
        out(&BeltOffPart::of(self.reader, &answer, &name)).map(Some)
    }

    /// What `two-turns report --json` prints for the layout on the bench.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = reportJson)]
    pub fn report_json(&self) -> Result<String, JsError> {
        serde_json::to_string_pretty(&self.answers.report).map_err(told)
    }

    /// What `two-turns fitting --json` prints for the layout on the bench.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = fittingJson)]
    pub fn fitting_json(&self) -> Result<String, JsError> {
        serde_json::to_string_pretty(&self.answers.fitting).map_err(told)
    }

    /// What `two-turns tension --json` prints for the layout on the bench.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = tensionJson)]
    pub fn tension_json(&self) -> Result<String, JsError> {
        serde_json::to_string_pretty(&self.answers.tension).map_err(told)
    }

    /// The readings that `two-turns run --json` prints after an action, for the bench as it stands.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = momentJson)]
    pub fn moment_json(&self) -> Result<String, JsError> {
        serde_json::to_string(&advice::moment(&self.job)).map_err(told)
    }

    /// The drive as it stands, as an SVG file.
    pub fn svg(&self) -> String {
        let (plan, drive, lang) = (self.job.plan(), self.job.drive(), self.reader.lang);
        let names = wheel_names(plan, lang);
        let wheels: Vec<WheelTexts<'_>> = names
            .iter()
            .enumerate()
            .map(|(i, name)| WheelTexts { id: plan.id(i), name, sprocket: drive.sprocket_of(i) })
            .collect();
        let pose = Pose::of(drive, self.job.stance(), self.job.cord());
        let mut list = List::default();
        self.picture.draw(&mut list, &self.job, &pose, None);
        let texts = Texts {
            title: words::written(lang, &plan.layout.title),
            about: &words::command::drawing_shows(
                self.reader,
                &advice::readings(&self.job),
                &names,
            ),
            language: lang.code(),
            wheels: &wheels,
        };
        picture::svg(&list, &Ground::of(drive), &texts)
    }

    /// What `two-turns pose --json` prints for the bench as it stands.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = poseJson)]
    pub fn pose_json(&self) -> Result<String, JsError> {
        serde_json::to_string_pretty(&advice::pose(&self.job)).map_err(told)
    }
}

impl Workbench {
    /// Everything that goes with the layout shown, made anew, and fitted into the view.
    pub(crate) fn dress(&mut self) {
        self.remake();
        (self.picked, self.hold, self.run) = (None, None, None);
        self.labels.clear();
        self.fit();
    }

    /// Everything that goes with the layout shown, made anew, in the view as it is.
    pub(crate) fn remake(&mut self) {
        // What is written beside a plan changes neither.
        if !Rc::ptr_eq(&self.answered, self.job.plan()) {
            self.answered = Rc::clone(self.job.plan());
            self.answers = Answers::of(&self.answered, &self.assumptions());
            self.picture = DrivePicture::new(self.job.drive());
        }
        let draft = self.job.draft().filter(|_| self.sketching);
        self.draft = draft.and_then(|text| Draft::of(text));
        self.ground = match &self.draft {
            Some(draft) => draft.ground(),
            None => Ground::of(self.job.drive()),
        };
        self.valves = Valves::default();
    }

    pub(crate) fn fit(&mut self) {
        let (size, side) = (self.size, self.side);
        self.fitted = View::fit(&self.ground, size.x, size.y, side, &self.reserved);
        self.view = self.fitted;
        self.fresh_fit = true;
    }
}

fn reader(lang: &str, inch: bool) -> Reader {
    let units = if inch { Units::Inch } else { Units::Metric };
    Reader { lang: Lang::from_code(lang), units }
}
