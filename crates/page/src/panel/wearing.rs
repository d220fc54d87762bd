//! What wheels and belt go through until the belt is due.
//!
//! Must not know: any formula, any sentence.

use super::{Said, Wanted, said};
use advice::{Assumption, Wearing};
use job::Job;
use serde::Serialize;
use tsify::Tsify;
use words::{Reader, say};

/// What wheels and belt go through. Of a range the full figure is its upper end.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct WearingPart {
    /// The wheels, in belt order.
    pub wheels: Vec<WearingRow>,
    /// How often each of the belt's teeth meets a groove.
    pub tooth_meets: Said,
    /// What all that rests on.
    pub assumes: String,
    /// The same, each to change; in the order in which a change names them.
    pub assumptions: Vec<AssumptionRow>,
    /// The wheel that is taken to seize, by index; −1 for none.
    pub seized: i32,
    /// What becomes of the belt then; empty for none.
    pub seized_sentence: String,
}

/// An assumption.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct AssumptionRow {
    /// Its name.
    pub name: String,
    /// The unit that it is typed in; may be empty.
    pub unit: String,
    /// Its lower and upper end.
    pub range: [f64; 2],
    /// Why what was asked last cannot be so; empty if it can.
    pub refused: String,
}

/// A wheel.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct WearingRow {
    /// Its name.
    pub name: String,
    /// What its bearing carries, if that is known.
    pub load: Option<Said>,
    /// How often it turns in a kilometre, if that is known.
    pub per_km: Option<Said>,
    /// How often in an hour, likewise.
    pub per_hour: Option<Said>,
    /// How often until the belt is due.
    pub due: Option<Said>,
    /// The belt's friction on it if it seizes; nothing for a sprocket, or where it is not known.
    pub friction: Option<Said>,
    /// What that heats with.
    pub heat: Option<Said>,
    /// Whether the belt, which slides over no teeth, strips its own or jumps if it seizes.
    pub strips: bool,
}

impl WearingPart {
    /// The part for a job; `wearing` is its plan's.
    pub fn of(
        job: &Job,
        reader: Reader,
        wearing: &Wearing,
        wanted: Wanted,
        names: &[&str],
    ) -> Self {
        let (lang, plan) = (reader.lang, job.plan());
        let wheels = wearing.wheels.iter().enumerate().map(|(i, wheel)| {
            let id = plan.id(i);
            let key = |what: &str| format!("tension.wheels.{id}.{what}");
            let seized = |what: &str| format!("tension.seized.{id}.{what}.1");
            let (per_km, due) = (wheel.turns_per_km, wheel.turns_when_due);
            let of_seized = wheel.seized.as_ref();
            let ends = |range: Option<[f64; 2]>, what: &str, told: &dyn Fn(f64) -> String| {
                range.map(|ends| said(seized(what), ends[1], lang.estimates(ends, told)))
            };
            WearingRow {
                name: names[i].to_owned(),
                load: wheel.bearing_load_n.map(|n| said(key("bearing_load_n"), n, lang.newtons(n))),
                per_km: per_km
                    .map(|n| said(key("turns_per_km.1"), n[1], say::turns_range(lang, n))),
                per_hour: wheel
                    .turns_per_hour
                    .map(|n| said(key("turns_per_hour.1"), n[1], say::turns_range(lang, n))),
                due: due.map(|n| said(key("turns_when_due.1"), n[1], say::millions(lang, n))),
                friction: ends(of_seized.and_then(|s| s.friction_n), "friction_n", &|n| {
                    lang.newtons(n)
                }),
                heat: ends(of_seized.and_then(|s| s.heat_w), "heat_w", &|w| lang.watts(w)),
                strips: of_seized.is_some_and(|s| s.end == "strips_or_jumps"),
            }
        });
        let meets = wearing.tooth_meets_when_due;
        let seized = wanted.seized.and_then(|i| Some((i, wearing.wheels.get(i)?.seized.as_ref()?)));
        Self {
            wheels: wheels.collect(),
            tooth_meets: said(
                "tension.belt.tooth_meets_when_due.1".into(),
                meets[1],
                say::millions(lang, meets),
            ),
            assumes: say::wearing_assumes(lang, wearing),
            assumptions: Assumption::ALL
                .map(|assumption| {
                    let (name, unit) = say::assumption(lang, assumption);
                    let refused = wanted.refused.filter(|(which, _)| *which == assumption);
                    AssumptionRow {
                        name: name.to_owned(),
                        unit: unit.to_owned(),
                        range: wearing.assumptions.of(assumption),
                        refused: refused.map_or_else(String::new, |(which, range)| {
                            say::assumption_refused(lang, which, range)
                        }),
                    }
                })
                .into(),
            seized: seized.map_or(-1, |(i, _)| i as i32),
            seized_sentence: seized.map_or_else(String::new, |(i, wheel)| {
                say::seized_sentence(lang, names[i], &wearing.assumed, wearing.provisional, wheel)
            }),
        }
    }
}
