//! The engine behind the belt made ready for the page: what teeth out come to, and what may be turned with
//! the belt off.
//!
//! Must not know: any formula, any sentence.

use super::{Said, said};
use advice::{BeltOff, CamshaftOut, EngineOut, ValveOut, gauge_change, valve_name};
use job::{Action, Job};
use serde::Serialize;
use tsify::Tsify;
use words::Reader;
use words::say::engine;

/// What the installation does to the engine.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct BanksPart {
    /// Interference or free-wheeling; that there is no engine.
    pub contact: String,
    /// What a figure here is worth.
    pub only_figures: String,
    /// The camshafts.
    pub banks: Vec<BankPart>,
    /// The exponent of cranking pressures.
    pub exponent: f64,
    /// Whether somebody chose it.
    pub exponent_chosen: bool,
    /// Whether pressures are told at all.
    pub has_pressure: bool,
}

/// A camshaft.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct BankPart {
    /// Id of its wheel.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What becomes of it, in a sentence or two.
    pub sentence: String,
    /// Whether something would touch.
    pub touches: bool,
    /// Its figures, each beside its value in time.
    pub rows: Vec<BankRow>,
    /// Which way its springs push it at its mark.
    pub snap: String,
}

/// A figure.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct BankRow {
    /// Of what.
    pub name: String,
    /// Now, the figure itself first, then what there is to say about it.
    pub now: Vec<Said>,
    /// In time.
    pub in_time: String,
    /// Whether it is one to watch.
    pub watch: bool,
}

/// The belt off.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct BeltOffPart {
    /// How things stand, and whether there is a way.
    pub sentence: String,
    /// The moves of the way.
    pub moves: Vec<MovePart>,
    /// How far each shaft may turn.
    pub freedom: Vec<String>,
    /// Where to leave the crank, best first.
    pub parking: Vec<String>,
    /// That a four's parking angle is wrong here; empty where it is not.
    pub trap: String,
    /// What a figure here is worth.
    pub only_figures: String,
}

/// A move.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct MovePart {
    /// In words.
    pub text: String,
    /// What does it.
    pub action: Action,
}

impl BanksPart {
    /// The engine of a job; `out` is its answer.
    pub fn of(job: &Job, reader: Reader, out: Option<&EngineOut>, names: &[&str]) -> Self {
        let lang = reader.lang;
        let Some(out) = out else {
            return Self {
                contact: engine::no_engine(lang).to_owned(),
                only_figures: String::new(),
                banks: Vec::new(),
                exponent: 0.0,
                exponent_chosen: false,
                has_pressure: false,
            };
        };
        let banks = out.camshafts.iter().map(|c| bank(job, reader, out, c, names[c.wheel]));
        Self {
            contact: engine::contact(reader, out.any_angle.as_ref()),
            only_figures: engine::only_figures(lang).to_owned(),
            banks: banks.collect(),
            exponent: out.exponent,
            exponent_chosen: out.exponent_chosen,
            has_pressure: out.camshafts.iter().any(|c| c.cranking.is_some()),
        }
    }
}

fn bank(job: &Job, reader: Reader, out: &EngineOut, c: &CamshaftOut, name: &str) -> BankPart {
    let lang = reader.lang;
    let id = job.plan().id(c.wheel).to_owned();
    let key = |what: &str| format!("engine.{id}.{what}");
    let mut rows = Vec::new();
    for v in &c.valves {
        rows.extend(valve_rows(reader, &id, v));
    }
    if let Some([now, time]) = &c.between {
        rows.push(BankRow {
            name: lang.pick("Overlap", "Überschneidung").to_owned(),
            now: vec![said(key("overlap_deg"), now.overlap_deg, engine::between(lang, now))],
            in_time: engine::between(lang, time),
            watch: false,
        });
    }
    if let Some(both) = &c.cranking {
        let ([now, time], chosen) = (both, out.exponent_chosen);
        let change = gauge_change(both);
        rows.push(BankRow {
            name: lang.pick("Cranking pressure", "Kompressionsdruck beim Starten").to_owned(),
            now: vec![
                said(key("gauge_bar"), now.gauge_bar[1], engine::gauge(lang, now, chosen)),
                said(key("gauge_change"), change, engine::pressure_change(lang, both)),
                said(key("absolute_bar"), now.absolute_bar[1], engine::absolute(lang, now, chosen)),
                said(
                    key("closes_abdc_deg"),
                    now.closes_abdc_deg,
                    engine::counted_from(reader, now),
                ),
            ],
            in_time: engine::pressure(lang, time, chosen),
            watch: false,
        });
    }
    let leaks = c.leaks.map_or("", |open| engine::no_compression(lang, open));
    BankPart {
        name: name.to_owned(),
        sentence: format!("{} {leaks}", engine::bank(reader, c, name)).trim_end().to_owned(),
        touches: c.worst().is_some_and(|(_, least)| least.along_bore_mm < 0.0),
        rows,
        snap: engine::snap(lang, c.snap.as_ref()),
        id,
    }
}

fn valve_rows(reader: Reader, id: &str, v: &ValveOut) -> Vec<BankRow> {
    let lang = reader.lang;
    let name = engine::valve_name(lang, v.kind);
    let key = |what: &str| format!("engine.{id}.{}.{what}", valve_name(v.kind));
    let mut rows = vec![BankRow {
        name: name.to_owned(),
        now: vec![said(
            key("centreline_deg"),
            v.events[0].centreline_deg(),
            engine::events(lang, v, false),
        )],
        in_time: engine::events(lang, v, true),
        watch: false,
    }];
    if let Some([now, time]) = &v.least {
        rows.push(BankRow {
            name: lang.pick("Least gap to the piston", "Kleinster Abstand zum Kolben").to_owned(),
            now: vec![
                said(key("least_gap_mm"), now.along_bore_mm, engine::least_gap(reader, now)),
                said(key("least_gap_at_deg"), now.at_deg, engine::least_gap_place(lang, now)),
            ],
            in_time: engine::least_gap_and_place(reader, time),
            watch: v.under_usual,
        });
    }
    rows
}

impl BeltOffPart {
    /// The answer in words; `name` gives what people call a wheel by its id.
    pub fn of(reader: Reader, answer: &BeltOff, name: &dyn Fn(&str) -> String) -> Self {
        let lang = reader.lang;
        let moves = answer.moves.iter().map(|m| MovePart {
            text: engine::move_text(reader, m, &name(&m.shaft)),
            action: Action::Turn { shaft: m.shaft.clone(), deg: m.deg },
        });
        let freedom = answer.freedom.iter();
        Self {
            sentence: engine::belt_off(reader, answer),
            moves: moves.collect(),
            freedom: freedom
                .map(|f| format!("{}: {}", name(&f.shaft), engine::freedom(lang, f)))
                .collect(),
            parking: answer.parking.iter().map(|p| engine::parking(reader, p)).collect(),
            trap: engine::parking_trap(reader, answer.quarter_turn_depth_mm),
            only_figures: engine::only_figures(lang).to_owned(),
        }
    }
}
