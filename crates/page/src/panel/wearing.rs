//! What wheels and belt go through until the belt is due.
//!
//! Must not know: any formula, any sentence.

use super::{Said, said};
use advice::Wearing;
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
    /// How often until the belt is due.
    pub due: Option<Said>,
    /// The belt's friction on it if it seizes; nothing for a sprocket, or where it is not known.
    pub friction: Option<Said>,
    /// What that heats with.
    pub heat: Option<Said>,
    /// Whether it has teeth, over which no belt slides.
    pub toothed: bool,
}

impl WearingPart {
    /// The part for a job; `wearing` is its plan's.
    pub fn of(job: &Job, reader: Reader, wearing: &Wearing, names: &[&str]) -> Self {
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
                due: due.map(|n| said(key("turns_when_due.1"), n[1], say::millions(lang, n))),
                friction: ends(of_seized.and_then(|s| s.friction_n), "friction_n", &|n| {
                    lang.newtons(n)
                }),
                heat: ends(of_seized.and_then(|s| s.heat_w), "heat_w", &|w| lang.watts(w)),
                toothed: plan.drive.wheels()[i].teeth().is_some(),
            }
        });
        let meets = wearing.tooth_meets_when_due;
        Self {
            wheels: wheels.collect(),
            tooth_meets: said(
                "tension.belt.tooth_meets_when_due.1".into(),
                meets[1],
                say::millions(lang, meets),
            ),
            assumes: say::wearing_assumes(lang, wearing),
        }
    }
}
