//! The task *Fitting* made ready: the answer, the steps, what can be done to each shaft, what to watch.
//!
//! Must not know: any formula, any sentence.

use super::fill::unless_made_up;
use super::{Said, said};
use advice::{CountKnown, Fitting, Hand, Readings, Stage, hands, jump_margins, stages, warnings};
use job::{Action, Job};
use layout::Plan;
use serde::Serialize;
use tsify::Tsify;
use words::{Lang, Reader, say, written};

/// All that the task says.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct FittingPart {
    /// Which count lands the crank.
    pub headline: String,
    /// How far to back it off.
    pub back_off: String,
    /// How sure that is.
    pub sure: String,
    /// The count.
    pub pulled_teeth: Said,
    /// Most teeth to back off.
    pub most_teeth: Said,
    /// Names of the marks that the landing table has columns for.
    pub mark_names: Vec<String>,
    /// Where the crank lands with each count.
    pub landing: Vec<LandingRow>,
    /// What the best tooth leaves.
    pub best_tooth: Vec<NamedReading>,
    /// The lash, in a sentence.
    pub lash_sentence: String,
    /// The lash at each mark.
    pub lash: Vec<NamedReading>,
    /// How near each sprocket's belt is to jumping a tooth just now.
    pub jump: Vec<NamedReading>,
    /// Teeth between neighbouring marks.
    pub counts: Vec<CountRow>,
    /// The order in which to lay the belt on.
    pub thread_order: Vec<String>,
    /// The usual order.
    pub stages: Vec<StageRow>,
    /// Whether no step of it is left.
    pub finished: bool,
    /// Whether every step of it is done, none skipped.
    pub all_done: bool,
    /// What to watch out for just now.
    pub warnings: Vec<String>,
    /// What can be done to each marked shaft.
    pub hands: Vec<HandRow>,
    /// The crank's id.
    pub crank: String,
    /// Degrees to turn the crank to back it off as advised.
    pub back_off_deg: f64,
    /// Whether the belt is on.
    pub belt_on: bool,
    /// Whether the tensioner is turned and locked, with no pin.
    pub locked: bool,
    /// Where a sprung eccentric's pointer stands; empty without one.
    pub pointer: String,
    /// Whether the drive has a pulled run of its own to hang more or fewer teeth in.
    pub runs_differ: bool,
}

/// A count, and where it lands everything.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct LandingRow {
    /// Teeth in the pulled run.
    pub teeth: Said,
    /// Where the crank lands.
    pub lands: Said,
    /// Whether it is the right count.
    pub right: bool,
    /// Where each other mark then reads.
    pub marks: Vec<Said>,
}

/// A reading with the name of what it is of.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct NamedReading {
    /// The name.
    pub name: String,
    /// The reading.
    pub reading: Said,
    /// Whether it is one to watch.
    pub watch: bool,
}

/// Teeth between two neighbouring marks.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct CountRow {
    /// The count's name in an action.
    pub key: String,
    /// Its two ends.
    pub name: String,
    /// The right count.
    pub teeth: Said,
    /// Whether anything is known of it.
    pub known: bool,
    /// As the belt hangs now.
    pub now: i64,
    /// From wrap middle to wrap middle.
    pub middles: Said,
    /// Where its first groove is from the mark.
    pub past_mark: String,
    /// How sure it is.
    pub sure: String,
}

/// A step.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct StageRow {
    /// As an order.
    pub name: String,
    /// Why or how.
    pub why: String,
    /// Whether it is done.
    pub done: bool,
    /// Whether its time is over without it.
    pub skipped: bool,
    /// Whether it is next.
    pub next: bool,
    /// What does it.
    pub actions: Vec<Action>,
}

/// A marked shaft and what can be done to it.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct HandRow {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Where it stands.
    pub stands: String,
    /// Whether it is held.
    pub held: bool,
    /// Whether its sprocket can float.
    pub floats: bool,
    /// Whether its bolt is slack.
    pub bolt_slack: bool,
    /// One tooth, its own degrees.
    pub tooth_deg: f64,
    /// Turning by so much brings its mark up.
    pub to_mark_deg: f64,
    /// The same for other marks on the wheel.
    pub others: Vec<OtherPlace>,
}

/// Another mark that a shaft can be turned to.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct OtherPlace {
    /// What it looks like.
    pub label: String,
    /// Turning by so much brings it up.
    pub deg: f64,
}

impl FittingPart {
    /// The task for a job as it stands; `now` are its readings, `answer` is its plan's, `late` what two
    /// turns prove nothing of.
    pub fn of(
        job: &Job,
        reader: Reader,
        now: &Readings,
        answer: &Fitting,
        names: &[&str],
        late: &[String],
    ) -> Self {
        let lang = reader.lang;
        let (plan, drive) = (job.plan(), job.drive());
        let name =
            |id: &str| plan.wheel_index(id).map_or_else(String::new, |i| names[i].to_owned());
        let pulled = &answer.pulled_run;
        let steps = stages(job, answer);
        let locked = plan.is_locked_by_hand();
        Self {
            headline: say::fitting_headline(lang, answer, &name(&pulled.from), &name(&pulled.to)),
            back_off: say::back_off(lang, answer, drive.crank_deg_per_tooth()),
            sure: say::fitting_sure(reader, answer),
            pulled_teeth: said(
                "fitting.pulled_run.teeth".into(),
                pulled.teeth as f64,
                say::count_told(lang, pulled.teeth, answer.pulled_run_known),
            ),
            most_teeth: said(
                "fitting.most_teeth_back_off".into(),
                answer.most_teeth_back_off as f64,
                unless_made_up(plan, lang, lang.teeth(answer.most_teeth_back_off as f64, 0)),
            ),
            mark_names: answer.best_tooth.iter().map(|best| name(&best.shaft)).collect(),
            landing: landing(lang, answer),
            best_tooth: answer
                .best_tooth
                .iter()
                .map(|best| NamedReading {
                    name: name(&best.shaft),
                    reading: said(
                        format!("fitting.best_tooth.{}.teeth", best.shaft),
                        best.teeth,
                        say::best_tooth_told(lang, best),
                    ),
                    watch: best.told == Some(false),
                })
                .collect(),
            lash_sentence: say::lash_sentence(
                reader,
                answer.slack_when_bolted_mm,
                answer.slack_when_bolted_mm / drive.mm_per_crank_deg(),
            ),
            lash: answer
                .lash
                .iter()
                .skip(1)
                .map(|lash| NamedReading {
                    name: name(&lash.shaft),
                    reading: said(
                        format!("fitting.lash.{}.deg", lash.shaft),
                        lash.deg,
                        unless_made_up(plan, lang, lang.fine_degrees(lash.deg)),
                    ),
                    watch: false,
                })
                .collect(),
            jump: jump(job, lang, names),
            counts: counts(job, reader, answer, &name),
            thread_order: answer.thread_order.iter().map(|id| name(id)).collect(),
            finished: steps.iter().all(|step| step.done || step.skipped),
            all_done: steps.iter().all(|step| step.done),
            stages: steps
                .into_iter()
                .map(|step| StageRow {
                    name: say::stage_name(lang, step.stage, answer),
                    why: why(lang, step.stage, locked, late),
                    done: step.done,
                    skipped: step.skipped,
                    next: step.next,
                    actions: step.actions,
                })
                .collect(),
            warnings: warnings(job)
                .iter()
                .map(|w| say::warning(reader, w, names, &other_marks(plan, lang)))
                .collect(),
            hands: hands(job).iter().map(|hand| hand_row(job, lang, now, hand, names)).collect(),
            crank: plan.id(0).to_owned(),
            back_off_deg: -(answer.teeth_to_back_off as f64) * drive.crank_deg_per_tooth(),
            belt_on: job.cord().is_on(),
            locked,
            pointer: say::pointer_sentence(lang, &now.tensioner),
            runs_differ: answer.counts.len() > 1,
        }
    }
}

/// Labels of every wheel's marks that are not its timing mark.
pub fn other_marks(plan: &Plan, lang: Lang) -> Vec<Vec<&str>> {
    let wheels = plan.layout.wheels.iter();
    wheels
        .map(|wheel| wheel.other_marks.iter().map(|mark| written(lang, &mark.label)).collect())
        .collect()
}

/// Why or how, and for the turning steps which shafts come back later.
fn why(lang: Lang, stage: Stage, locked: bool, late: &[String]) -> String {
    let why = say::stage_why(lang, stage, locked);
    match stage {
        Stage::TurnTwice | Stage::TurnTwiceAgain if !late.is_empty() => {
            format!("{why} {}", late.join(" "))
        }
        _ => why.to_owned(),
    }
}

/// Where the crank lands; nothing while where the wheels stand is made up.
fn landing(lang: Lang, answer: &Fitting) -> Vec<LandingRow> {
    if answer.provisional {
        return Vec::new();
    }
    let rows = answer.landing.iter().enumerate();
    rows.map(|(i, row)| LandingRow {
        teeth: said(
            format!("fitting.landing.{i}.teeth_in_pulled_run"),
            row.teeth_in_pulled_run as f64,
            lang.teeth(row.teeth_in_pulled_run as f64, 0),
        ),
        lands: said(
            format!("fitting.landing.{i}.crank_lands_teeth"),
            row.crank_lands_teeth,
            say::lands(lang, row),
        ),
        right: row.teeth_in_pulled_run == answer.pulled_run.teeth,
        marks: row
            .marks
            .iter()
            .map(|mark| {
                said(
                    format!("fitting.landing.{i}.marks.{}.teeth", mark.shaft),
                    mark.teeth,
                    say::off(lang, mark.teeth, mark.deg),
                )
            })
            .collect(),
    })
    .collect()
}

fn jump(job: &Job, lang: Lang, names: &[&str]) -> Vec<NamedReading> {
    jump_margins(job)
        .into_iter()
        .map(|(wheel, margin)| NamedReading {
            name: names[wheel].to_owned(),
            reading: said(
                format!("jump_margin.{}.margin", job.plan().id(wheel)),
                margin,
                unless_made_up(job.plan(), lang, lang.percent(margin)),
            ),
            watch: margin >= drive::MAY_JUMP,
        })
        .collect()
}

fn counts(
    job: &Job,
    reader: Reader,
    answer: &Fitting,
    name: &dyn Fn(&str) -> String,
) -> Vec<CountRow> {
    let (lang, plan) = (reader.lang, job.plan());
    let gaps = job.drive().gaps();
    let rows = answer.counts.iter().zip(&gaps);
    rows.map(|(count, gap)| {
        let key = job.gap_name(*gap);
        CountRow {
            name: format!("{} → {}", name(&count.from), name(&count.to)),
            teeth: said(
                format!("fitting.counts.{key}.teeth"),
                count.teeth as f64,
                say::count_told(lang, count.teeth, count.known),
            ),
            known: count.known != CountKnown::Not,
            now: job.cord().gap_teeth(job.drive(), *gap),
            middles: said(
                format!("fitting.counts.{key}.between_wrap_middles_teeth"),
                count.between_wrap_middles_teeth,
                unless_made_up(plan, lang, lang.teeth(count.between_wrap_middles_teeth, 1)),
            ),
            past_mark: unless_made_up(
                plan,
                lang,
                say::groove_from_mark(lang, count.from_past_mark_teeth),
            ),
            sure: say::count_is_sure(reader, count),
            key,
        }
    })
    .collect()
}

fn hand_row(job: &Job, lang: Lang, now: &Readings, hand: &Hand, names: &[&str]) -> HandRow {
    let (plan, drive) = (job.plan(), job.drive());
    let reading = now.shafts.iter().find(|s| s.wheel == hand.wheel);
    let teeth = drive.wheels()[hand.wheel].teeth().unwrap_or(1);
    let marks = &plan.layout.wheels[hand.wheel].other_marks;
    HandRow {
        id: plan.id(hand.wheel).to_owned(),
        name: names[hand.wheel].to_owned(),
        stands: reading.map_or_else(String::new, |s| say::shaft_stands(lang, s, teeth)),
        held: reading.is_some_and(|s| s.held),
        floats: drive.wheels()[hand.wheel].fixing != drive::Fixing::Keyed,
        bolt_slack: reading.is_some_and(|s| s.bolt_slack),
        tooth_deg: 360.0 / f64::from(teeth),
        to_mark_deg: hand.to_mark_deg,
        others: hand
            .to_others_deg
            .iter()
            .map(|(i, deg)| OtherPlace {
                label: written(lang, &marks[*i].label).to_owned(),
                deg: *deg,
            })
            .collect(),
    }
}
