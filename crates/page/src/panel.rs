//! Everything that the page says, made ready: each reading with its key, its full figure and its text.
//!
//! Must not know: where on the page any of it stands.

use crate::draft::DraftWheel;
use advice::{
    Readings, RunReading, ShaftReading, WhatIf, marks_at_turns, readings, report, what_if,
};
use job::Job;
use layout::Plan;
use serde::Serialize;
use tsify::Tsify;
use words::{Lang, Reader, say, written};

/// Runs go no further than this, degrees.
const REACH_DEG: f64 = 1e8;

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

/// All that the page says of a job as it stands.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct Panel {
    /// The layout's title.
    pub title: String,
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
    /// All wheels.
    pub wheels: Vec<WheelRow>,
    /// The wheels of a layout that can be read but not run, while it is shown as a sketch.
    pub draft: Option<Vec<DraftWheel>>,
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
    /// After how many turns it comes back.
    pub returns: Said,
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

/// What people call the wheels, by index.
pub fn wheel_names(plan: &Plan, lang: Lang) -> Vec<&str> {
    (0..plan.layout.wheels.len()).map(|i| written(lang, plan.name(i))).collect()
}

fn said(key: String, value: f64, text: String) -> Said {
    Said { key, value, text }
}

impl Panel {
    /// The panel of a job as it stands. `turned_deg` for each wheel, as the pose has it.
    pub fn of(job: &Job, reader: Reader, turned_deg: &[f64]) -> Self {
        let lang = reader.lang;
        let now = readings(job);
        let plan = job.plan();
        let names: Vec<&str> = wheel_names(plan, lang);
        let installation = what_if(job);
        let marks = marks_at_turns(job);
        let report = report(plan);
        let teeth_of = |wheel: usize| plan.drive.wheels()[wheel].teeth().unwrap_or(0);
        let (undo, redo) = job.next_steps();
        let meets_at =
            (now.crank_turns + i64::try_from(now.stripe.turns_to_go).unwrap_or(0)) as f64 * 360.0;
        Self {
            title: written(lang, &plan.layout.title).to_owned(),
            about: written(lang, plan.layout.about.as_deref().unwrap_or_default()).to_owned(),
            cautions: plan
                .layout
                .cautions
                .iter()
                .map(|caution| written(lang, &caution.text).to_owned())
                .collect(),
            crank: said("crank_deg".into(), now.crank_deg, say::crank_angle(lang, &now)),
            crank_turn: say::turn_of_cycle(lang, &now),
            dial_deg: picture::Dial::within_cycle(job.crank()),
            crank_spoken: say::dial_spoken(lang, &now),
            seen_from: say::seen_from(lang, plan.drive.crank_turns()).to_owned(),
            tooth_deg: plan.drive.crank_deg_per_tooth(),
            crank_sentence: say::crank_state(lang, &now),
            shaft_sentence: say::shaft_sentence(lang, &now.shafts, &names),
            slack_sentence: say::slack_sentence(reader, &now, &names),
            tight: now.slack_mm == 0.0,
            shafts: now
                .shafts
                .iter()
                .zip(&marks.returns_after)
                .map(|(s, returns)| shaft_row(job, lang, s, *returns, now.slack_mm == 0.0))
                .collect(),
            turns: marks
                .rows
                .iter()
                .map(|row| TurnRow {
                    turn: lang.number(row.crank_turns as f64, 0),
                    marks: row
                        .marks
                        .iter()
                        .zip(&marks.wheels)
                        .map(|(mark, wheel)| TurnMark {
                            text: say::mark_at_turn(lang, mark, teeth_of(*wheel)),
                            on: mark.on,
                        })
                        .collect(),
                    stripe: lang.teeth(f64::from(row.stripe_past_mark_teeth), 0),
                })
                .collect(),
            late: late(job, lang, &marks.wheels, &marks.returns_after),
            stripe: said(
                "stripes.past_crank_mark_teeth".into(),
                now.stripe.past_mark_teeth,
                say::stripe_now(lang, &now.stripe),
            ),
            stripe_sentence: say::stripe_meets(lang, &now.stripe),
            stripe_meets: said(
                "stripes.crank_turns_to_meet_crank_mark".into(),
                now.stripe.meets_after_turns as f64,
                lang.turns(now.stripe.meets_after_turns),
            ),
            all_meet: said(
                "stripes.crank_turns_to_meet_every_mark".into(),
                report.stripes.crank_turns_to_meet_every_mark.map_or(f64::NAN, |t| t as f64),
                report
                    .stripes
                    .crank_turns_to_meet_every_mark
                    .map_or_else(|| "–".to_owned(), |t| lang.turns(t)),
            ),
            stripe_meets_at_deg: meets_at,
            all_meet_at_deg: report.stripes.crank_turns_to_meet_every_mark.and_then(|every| {
                let turns = now.crank_turns.div_euclid(i64::try_from(every).ok()?) + 1;
                Some(turns as f64 * every as f64 * 360.0).filter(|deg| *deg < REACH_DEG)
            }),
            what_if_sentence: say::what_if_sentence(lang, &installation, &names),
            any_out: installation.shafts.iter().any(|s| s.set_teeth != 0),
            what_if: out_rows(job, lang, &installation),
            runs: now.runs.iter().map(|run| run_row(job, reader, run, &names)).collect(),
            slack: said(
                "slack_mm".into(),
                now.slack_mm,
                if now.slack_mm == 0.0 { String::new() } else { reader.length(now.slack_mm) },
            ),
            tensioner: tensioner_part(job, reader, &now),
            wheels: report
                .wheels
                .iter()
                .enumerate()
                .map(|(i, wheel)| WheelRow {
                    id: wheel.id.clone(),
                    name: names[i].to_owned(),
                    note: say::wheel_note(lang, &plan.layout.wheels[i]),
                    turns: plan.drive.wheels()[i].teeth().is_some(),
                    tooth_deg: plan.drive.wheels()[i].teeth().map_or(0.0, |z| 360.0 / f64::from(z)),
                    turned: said(
                        format!("wheels.{}.turned_deg", wheel.id),
                        turned_deg.get(i).copied().unwrap_or_default(),
                        lang.degrees(turned_deg.get(i).copied().unwrap_or_default()),
                    ),
                    wrap: said(
                        format!("wheels.{}.wrap_deg", wheel.id),
                        wheel.wrap_deg,
                        lang.degrees(wheel.wrap_deg),
                    ),
                    in_mesh: said(
                        format!("wheels.{}.teeth_in_mesh", wheel.id),
                        wheel.teeth_in_mesh,
                        lang.teeth(wheel.teeth_in_mesh, 1),
                    ),
                })
                .collect(),
            draft: None,
            undo: undo.map(|step| say::step_name(lang, step).to_owned()),
            redo: redo.map(|step| say::step_name(lang, step).to_owned()),
        }
    }
}

fn late(job: &Job, lang: Lang, wheels: &[usize], returns_after: &[u64]) -> Vec<String> {
    let mut notes = Vec::new();
    for (i, after) in wheels.iter().zip(returns_after) {
        let wheel = &job.plan().layout.wheels[*i];
        notes.push(say::comes_back_late(lang, written(lang, &wheel.name), *after));
        if let Some(every) = wheel.repeats_every_crank_turns {
            let check = wheel.position_check.as_deref().map(|check| written(lang, check));
            notes.push(say::repeats_late(lang, written(lang, &wheel.name), every, check));
        }
    }
    notes.retain(|note| !note.is_empty());
    notes
}

fn shaft_row(job: &Job, lang: Lang, s: &ShaftReading, returns: u64, tight: bool) -> ShaftRow {
    let plan = job.plan();
    let id = plan.id(s.wheel);
    let teeth = plan.drive.wheels()[s.wheel].teeth().unwrap_or(0);
    ShaftRow {
        id: id.to_owned(),
        name: written(lang, plan.name(s.wheel)).to_owned(),
        mark: said(
            format!("shafts.{id}.mark_error_teeth"),
            s.mark_error_teeth,
            say::mark_now(lang, s, teeth),
        ),
        on: s.on_its_mark && tight,
        against: said(
            format!("shafts.{id}.ahead_teeth"),
            s.ahead_teeth,
            say::against_crank(lang, s),
        ),
        in_time: s.in_time,
        returns: said(
            format!("shafts.{id}.returns_after_crank_turns"),
            returns as f64,
            lang.turns(returns),
        ),
    }
}

fn out_rows(job: &Job, lang: Lang, installation: &WhatIf) -> Vec<OutRow> {
    let plan = job.plan();
    installation
        .shafts
        .iter()
        .map(|s| {
            let id = plan.id(s.wheel);
            OutRow {
                id: id.to_owned(),
                name: written(lang, plan.name(s.wheel)).to_owned(),
                set_teeth: s.set_teeth,
                set_text: lang.signed(s.set_teeth as f64, 0),
                most_teeth: s.most_teeth,
                at_shaft: said(
                    format!("shafts.{id}.out_deg"),
                    s.shaft_deg,
                    say::out_at_shaft(lang, s),
                ),
                at_crank: said(
                    format!("shafts.{id}.out_crank_deg"),
                    s.crank_deg,
                    say::out_at_crank(lang, s),
                ),
                best_tooth: said(
                    format!("shafts.{id}.best_tooth_error_teeth"),
                    s.best_tooth_error_teeth,
                    say::best_tooth(lang, s.best_tooth_error_teeth),
                ),
                in_time: s.teeth == 0,
            }
        })
        .collect()
}

fn run_row(job: &Job, reader: Reader, run: &RunReading, names: &[&str]) -> RunRow {
    let plan = job.plan();
    let key = format!("{}>{}", plan.id(run.from), plan.id(run.to));
    RunRow {
        name: say::run_name(run, names),
        side: say::run_side(reader.lang, run, 0).to_owned(),
        teeth: said(
            format!("runs.{key}.teeth"),
            run.teeth as f64,
            reader.lang.teeth(run.teeth as f64, 0),
        ),
        slack: said(format!("runs.{key}.slack_mm"), run.slack_mm, say::slack_cell(reader, run)),
        tight: run.slack_mm == 0.0,
    }
}

fn tensioner_part(job: &Job, reader: Reader, now: &Readings) -> TensionerPart {
    let plan = job.plan();
    let t = &now.tensioner;
    let text = match plan.travel_unit() {
        layout::TravelUnit::Mm => reader.length(t.travel),
        layout::TravelUnit::Deg => reader.lang.degrees(t.travel),
    };
    TensionerPart {
        wheel: plan.drive.tensioner().wheel,
        travel: said("tensioner.travel".into(), t.travel, text),
        step: 1.0,
        sentence: say::tensioner_sentence(reader, t, plan.travel_unit()),
        right_back: t.right_back,
        tight: t.tight,
    }
}
