//! Everything that the page says, made ready: each reading with its key, its full figure and its text.
//!
//! Must not know: where on the page any of it stands.

mod engine;
mod fill;
mod fitting;
mod form;
mod sight;
mod tension;
mod wearing;

pub use engine::{BanksPart, BeltOffPart};
pub use fill::wheel_names;
pub use fitting::FittingPart;
pub use form::{Filled, Form, FormChoice, FormRow};

use crate::draft::DraftPart;
use advice::{Assumption, Assumptions, Fitting, Report, Tension, TensionAsked, Wearing};
use layout::Plan;
use serde::Serialize;
use sight::SightPart;
use tension::TensionPart;
use tsify::Tsify;
use wearing::WearingPart;

/// A reading: its path in the JSON that the command line prints, its full figure, its text.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct Said {
    /// Such as `shafts.cam_left.mark_error_teeth`.
    pub key: String,
    /// Full precision.
    pub value: f64,
    /// As shown and spoken.
    pub text: String,
}

pub(crate) fn said(key: String, value: f64, text: String) -> Said {
    Said { key, value, text }
}

/// What is wanted beyond what every task shows.
#[derive(Clone, Copy, Debug, Default)]
pub struct Wanted {
    /// The task *Fitting*.
    pub fitting: bool,
    /// The engine behind *What if*.
    pub engine: bool,
    /// What every wheel goes through.
    pub wearing: bool,
    /// The exponent of cranking pressures that somebody chose.
    pub exponent: Option<f64>,
    /// How far off square the marks are looked at, degrees.
    pub aside_deg: f64,
    /// Index of a wheel that is taken to seize.
    pub seized: Option<usize>,
    /// An assumption that was asked for and cannot be so.
    pub refused: Option<(Assumption, [f64; 2])>,
}

/// What follows from a plan alone, worked out once for each.
#[derive(Clone, Debug)]
pub struct Answers {
    /// The report.
    pub report: Report,
    /// How to hang the belt.
    pub fitting: Fitting,
    /// How tight it is at rest.
    pub tension: Tension,
    /// How tight it is while a hand turns the crank forward.
    pub by_hand: Tension,
    /// What wheels and belt go through.
    pub wearing: Wearing,
}

impl Answers {
    /// The answers for a plan, by these assumptions.
    pub fn of(plan: &Plan, assumptions: &Assumptions) -> Self {
        let asked = TensionAsked::default();
        Self {
            report: advice::report(plan),
            fitting: advice::fitting(plan),
            tension: advice::tension(plan, &asked),
            by_hand: advice::tension(plan, &asked.by_hand()),
            wearing: advice::wearing(plan, assumptions),
        }
    }
}

/// All that the page says of a job as it stands.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct Panel {
    /// The layout's title.
    pub title: String,
    /// That it is provisional, in a sentence; else empty.
    pub provisional: String,
    /// What its maker says of it.
    pub about: String,
    /// What the layout says to watch out for.
    pub cautions: Vec<String>,
    /// The crank's angle.
    pub crank: Said,
    /// Which turn that is.
    pub crank_turn: String,
    /// The crank's angle within the cycle that the dial shows, 0 up to 720.
    pub dial_deg: f64,
    /// The dial as spoken.
    pub crank_spoken: String,
    /// How the drive is seen and which way it runs.
    pub seen_from: String,
    /// One tooth in crank degrees.
    pub tooth_deg: f64,
    /// Where the crank stands, in a sentence.
    pub crank_sentence: String,
    /// Which shafts are out, in sentences; may be empty.
    pub shaft_sentence: String,
    /// Where slack hangs, in a sentence.
    pub slack_sentence: String,
    /// Whether the belt is tight all round.
    pub tight: bool,
    /// The marked shafts.
    pub shafts: Vec<ShaftRow>,
    /// The marks each time the crank's comes up.
    pub turns: Vec<TurnRow>,
    /// Shafts that two turns prove nothing of, a sentence or a few each.
    pub late: Vec<String>,
    /// The crank's stripe.
    pub stripe: Said,
    /// When it meets its mark, in a sentence.
    pub stripe_sentence: String,
    /// Crank turns after which it does.
    pub stripe_meets: Said,
    /// Crank turns after which all stripes and marks do.
    pub all_meet: Said,
    /// The crank angle at which the stripe next meets its mark, degrees.
    pub stripe_meets_at_deg: f64,
    /// The crank angle at which all stripes and marks next meet, degrees; null beyond reach.
    pub all_meet_at_deg: Option<f64>,
    /// What the installation comes to, in sentences.
    pub what_if_sentence: String,
    /// Whether any shaft is put out.
    pub any_out: bool,
    /// The shafts of the installation.
    pub what_if: Vec<OutRow>,
    /// The runs.
    pub runs: Vec<RunRow>,
    /// All slack together.
    pub slack: Said,
    /// The tensioner.
    pub tensioner: TensionerPart,
    /// The marks looked at from the side.
    pub sight: SightPart,
    /// How tight the belt is, before the pin, after it and under the hand.
    pub tension: TensionPart,
    /// What every wheel goes through, if it is asked for.
    pub wearing: Option<WearingPart>,
    /// The task *Fitting*, while it is shown.
    pub fitting: Option<FittingPart>,
    /// What the installation does to the engine, while *What if* is shown.
    pub engine: Option<BanksPart>,
    /// Whether the belt is on.
    pub belt_on: bool,
    /// What every mark looks like that is not a timing mark, in the order of wheels and their marks.
    pub letters: Vec<String>,
    /// All wheels.
    pub wheels: Vec<WheelRow>,
    /// A layout that can be read but not run, while it is shown as a sketch.
    pub draft: Option<DraftPart>,
    /// What undo would take back.
    pub undo: Option<String>,
    /// What redo would do again.
    pub redo: Option<String>,
}

/// A marked shaft.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct ShaftRow {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Where its mark stands.
    pub mark: Said,
    /// Whether it is on, with the belt tight: with slack a mark proves nothing.
    pub on: bool,
    /// How it stands against the crank.
    pub against: Said,
    /// Whether that is in time.
    pub in_time: bool,
    /// How it is out, for its label in the view; empty where it is not.
    pub out: String,
    /// After how many turns it comes back.
    pub returns: Said,
    /// Whether it is held.
    pub held: bool,
}

/// The marks at one whole turn.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct TurnRow {
    /// The turn.
    pub turn: String,
    /// Each shaft's mark, in the order of the shafts.
    pub marks: Vec<TurnMark>,
    /// The stripe.
    pub stripe: String,
}

/// One mark in that table.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct TurnMark {
    /// Where it stands.
    pub text: String,
    /// Whether it is on.
    pub on: bool,
}

/// A shaft of the installation.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct OutRow {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Teeth that it is put out.
    pub set_teeth: i64,
    /// The same as text, signed.
    pub set_text: String,
    /// Most teeth either way.
    pub most_teeth: i64,
    /// At the shaft.
    pub at_shaft: Said,
    /// At the crank.
    pub at_crank: Said,
    /// What the best tooth leaves.
    pub best_tooth: Said,
    /// Whether it is in time.
    pub in_time: bool,
}

/// A run.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct RunRow {
    /// Its two ends.
    pub name: String,
    /// Which side it is with the engine running; empty for neither.
    pub side: String,
    /// Belt teeth in it.
    pub teeth: Said,
    /// Its slack.
    pub slack: Said,
    /// The same for a tag in the view; empty where there is hardly any.
    pub tag: String,
    /// Whether it is tight.
    pub tight: bool,
}

/// The tensioner.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct TensionerPart {
    /// Index of its wheel.
    pub wheel: usize,
    /// Its travel.
    pub travel: Said,
    /// What one press of a key moves it, in the unit of its travel.
    pub step: f64,
    /// Where it stands, in a sentence.
    pub sentence: String,
    /// Travel right back.
    pub right_back: f64,
    /// Travel with the belt tight.
    pub tight: f64,
}

/// A wheel.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct WheelRow {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// A few words on it.
    pub note: String,
    /// Whether it can be turned by hand.
    pub turns: bool,
    /// One of its teeth, degrees at it; 0 on a smooth wheel.
    pub tooth_deg: f64,
    /// How far it is turned.
    pub turned: Said,
    /// The wrap.
    pub wrap: Said,
    /// Belt pitches on it.
    pub in_mesh: Said,
}
