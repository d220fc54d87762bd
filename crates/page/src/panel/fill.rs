//! The panel of a job as it stands: readings from `advice`, words from `words`.
//!
//! Must not know: any formula, any sentence.

use super::sight::SightPart;
use super::tension::TensionPart;
use super::wearing::WearingPart;
use super::{
    Answers, BanksPart, FittingPart, OutRow, Panel, RunRow, ShaftRow, TensionerPart, TurnMark,
    TurnRow, Wanted, WheelRow, said,
};
use advice::{
    Readings, RunReading, ShaftReading, WhatIf, engine_out, marks_at_turns, readings, what_if,
};
use job::Job;
use layout::Plan;
use words::{Lang, Reader, say, written};

/// Runs go no further than this, degrees.
const REACH_DEG: f64 = 1e8;

/// What people call the wheels, by index.
pub fn wheel_names(plan: &Plan, lang: Lang) -> Vec<&str> {
    (0..plan.layout.wheels.len()).map(|i| written(lang, plan.name(i))).collect()
}

/// `told`, or that it is not known where all that it rests on is made up.
pub fn unless_made_up(plan: &Plan, lang: Lang, told: String) -> String {
    if plan.layout.provisional { words::start::not_known(lang).to_owned() } else { told }
}

impl Panel {
    /// The panel of a job as it stands. `turned_deg` for each wheel, as the pose has it; `answers`
    /// are its plan's.
    pub fn of(
        job: &Job,
        reader: Reader,
        turned_deg: &[f64],
        answers: &Answers,
        wanted: Wanted,
    ) -> Self {
        let lang = reader.lang;
        let now = readings(job);
        let plan = job.plan();
        let names: Vec<&str> = wheel_names(plan, lang);
        let installation = what_if(job);
        let marks = marks_at_turns(job);
        let report = &answers.report;
        let late = late(job, lang, &marks.wheels, &marks.returns_after);
        let teeth_of = |wheel: usize| plan.drive.wheels()[wheel].teeth().unwrap_or(0);
        let (undo, redo) = job.next_steps();
        let meets_at =
            (now.crank_turns + i64::try_from(now.stripe.turns_to_go).unwrap_or(0)) as f64 * 360.0;
        Self {
            title: written(lang, &plan.layout.title).to_owned(),
            provisional: if plan.layout.provisional {
                words::start::provisional(lang).to_owned()
            } else {
                String::new()
            },
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
            shaft_sentence: if now.belt_on {
                say::shaft_sentence(lang, &now.shafts, &names)
            } else {
                String::new()
            },
            slack_sentence: say::slack_sentence(reader, &now, &names),
            tight: now.belt_on && now.slack_mm == 0.0,
            shafts: now
                .shafts
                .iter()
                .zip(&marks.returns_after)
                .map(|(s, returns)| {
                    shaft_row(job, lang, s, *returns, now.belt_on && now.slack_mm == 0.0)
                })
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
            late: late.clone(),
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
            sight: SightPart::of(job, reader, wanted.aside_deg, &names),
            tension: TensionPart::of(job, reader, answers, &names),
            wearing: wanted
                .wearing
                .then(|| WearingPart::of(job, reader, &answers.wearing, wanted, &names)),
            fitting: wanted
                .fitting
                .then(|| FittingPart::of(job, reader, &now, &answers.fitting, &names, &late)),
            engine: wanted.engine.then(|| {
                let out = engine_out(job, wanted.exponent);
                BanksPart::of(job, reader, out.as_ref(), &names)
            }),
            belt_on: now.belt_on,
            letters: letters(plan, lang),
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
                        unless_made_up(plan, lang, lang.degrees(wheel.wrap_deg)),
                    ),
                    in_mesh: said(
                        format!("wheels.{}.teeth_in_mesh", wheel.id),
                        wheel.teeth_in_mesh,
                        unless_made_up(plan, lang, lang.teeth(wheel.teeth_in_mesh, 1)),
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

/// Labels of marks that are not the timing mark, as the picture counts them: beside a timing mark only.
fn letters(plan: &Plan, lang: Lang) -> Vec<String> {
    let wheels = plan.layout.wheels.iter().zip(plan.drive.wheels());
    let marks = wheels.filter(|(_, wheel)| wheel.mark.is_some()).flat_map(|(w, _)| &w.other_marks);
    marks.map(|mark| written(lang, &mark.label).to_owned()).collect()
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
            if job.cord().is_on() { say::against_crank(lang, s) } else { say::belt_off(lang) },
        ),
        in_time: s.in_time,
        out: match (s.out_teeth, job.cord().is_on()) {
            (None, _) => String::new(),
            (Some(_), true) => say::fitted(lang, s),
            (Some(_), false) => say::mark_now(lang, s, teeth),
        },
        returns: said(
            format!("shafts.{id}.returns_after_crank_turns"),
            returns as f64,
            lang.turns(returns),
        ),
        held: s.held,
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
            unless_made_up(job.plan(), reader.lang, reader.lang.teeth(run.teeth as f64, 0)),
        ),
        slack: said(format!("runs.{key}.slack_mm"), run.slack_mm, say::slack_cell(reader, run)),
        tag: say::slack_tag(reader, run),
        tight: run.slack_mm == 0.0,
    }
}

fn tensioner_part(job: &Job, reader: Reader, now: &Readings) -> TensionerPart {
    let plan = job.plan();
    let t = &now.tensioner;
    let text = say::travel(reader, t.travel, plan.travel_unit());
    TensionerPart {
        wheel: plan.drive.tensioner().wheel,
        travel: said("tensioner.travel".into(), t.travel, text),
        step: 1.0,
        sentence: say::tensioner_sentence(reader, t, plan.travel_unit(), now.belt_on),
        right_back: t.right_back,
        tight: t.tight,
    }
}
