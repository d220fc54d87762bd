//! What `two-turns tension` does: what is asked against what can be, and the answer as text.
//!
//! Must not know: how a figure is found.

use crate::args;
use crate::commands::json;
use crate::fault::Fault;
use crate::{input, tension_text};
use advice::{Assumption, TensionAsked};
use layout::{LAYOUT, Plan, Value, key_at};
use words::command::{Wanted, given_twice, no_such_wheel, out_of_bounds, range_turned, wanted};
use words::{Lang, Reader};

/// Road speeds, km/h.
const KM_PER_H: [f64; 2] = [0.1, 500.0];
/// Moments at a shaft, N·m.
const MOMENT_N_M: [f64; 2] = [-500.0, 500.0];
/// Resting tensions, N.
const TENSION_N: [f64; 2] = [0.0, 20_000.0];

/// How tight the belt is.
///
/// # Errors
/// The problems of the file; what of the asked cannot be.
pub fn tension(lang: Lang, asked: &args::Tension) -> Result<String, Vec<Fault>> {
    let plan = input::plan(lang, &asked.file).map_err(input::Closed::faults)?;
    let asked_for = asked_for(lang, asked, &plan)
        .map_err(|(option, message)| vec![Fault::of_file(&asked.file, option, message)])?;
    let answer = advice::tension(&plan, &asked_for);
    if asked.json {
        return json(&asked.file, &answer);
    }
    Ok(tension_text::text(Reader { lang, ..Reader::default() }, &plan, &asked_for, &answer))
}

type Refused = (&'static str, String);

fn asked_for(lang: Lang, asked: &args::Tension, plan: &Plan) -> Result<TensionAsked, Refused> {
    let within = |option, unit, [least, most]: [f64; 2], found: f64| {
        if (least..=most).contains(&found) {
            return Ok(found);
        }
        Err((option, out_of_bounds(lang, found, [least, most], unit)))
    };
    let range = |option, unit, bounds, asked: [f64; 2]| {
        let [low, high] = asked;
        if low > high {
            return Err((option, range_turned(lang, low, high)));
        }
        Ok([within(option, unit, bounds, low)?, within(option, unit, bounds, high)?])
    };
    let wheel = |option, id: &str| {
        plan.wheel_index(id).ok_or_else(|| {
            let wheels: Vec<String> = plan.layout.wheels.iter().map(|w| w.id.clone()).collect();
            (option, no_such_wheel(lang, id, &wheels))
        })
    };
    let usual = TensionAsked::default();
    let mut moments_n_m = Vec::new();
    for (id, typed) in &asked.moment {
        let shaft = wheel("--moment", id)?;
        if moments_n_m.iter().any(|(other, _)| *other == shaft) {
            return Err(("--moment", given_twice(lang, id)));
        }
        let n_m = newton_metres(lang, typed).map_err(|says| ("--moment", says))?;
        moments_n_m.push((shaft, within("--moment", "N·m", MOMENT_N_M, n_m)?));
    }
    let rpm =
        asked.rpm.map(|rpm| within("--rpm", "rpm", Assumption::Rpm.bounds(), rpm)).transpose()?;
    let speed = asked.km_per_h.map(|v| within("--km-per-h", "km/h", KM_PER_H, v)).transpose()?;
    let turns_per_km = asked
        .turns_per_km
        .map(|r| range("--turns-per-km", "", Assumption::CrankTurnsPerKm.bounds(), r));
    let friction = |option, asked: Option<[f64; 2]>, usual| {
        let bounds = Assumption::FrictionBack.bounds();
        asked.map_or(Ok(usual), |asked| range(option, "", bounds, asked))
    };
    Ok(TensionAsked {
        rpm,
        speeds_rpm: usual.speeds_rpm,
        turning: false,
        crank_turns_per_km: match rpm.zip(speed) {
            Some((rpm, km_per_h)) => Some(advice::crank_turns_per_km(rpm, km_per_h)),
            None => turns_per_km.transpose()?,
        },
        seized: asked.seized.as_deref().map(|id| wheel("--seized", id)).transpose()?,
        moments_n_m,
        friction_back: friction("--friction-back", asked.friction_back, usual.friction_back)?,
        friction_toothed: friction(
            "--friction-toothed",
            asked.friction_toothed,
            usual.friction_toothed,
        )?,
        measured_n: asked
            .tension_n
            .map(|n| within("--tension-n", "N", TENSION_N, n))
            .transpose()?,
    })
}

/// A moment as typed, in N·m or in the unit that stands behind it, as a field of the page takes it.
fn newton_metres(lang: Lang, typed: &str) -> Result<f64, String> {
    if let Ok(bare) = args::number(typed) {
        return Ok(bare);
    }
    let reader = Reader { lang, ..Reader::default() };
    let unknown = || wanted(lang, typed, Wanted::ShaftMoment);
    // A key of the layout that holds a moment either way.
    let key = key_at(LAYOUT, "wheel[0].spring_torque_n_m").ok_or_else(unknown)?;
    match words::typed::understood(reader, key, None, &[typed.to_owned()])? {
        Some(understood) => match understood.value {
            Value::Number(n_m) => Ok(n_m),
            _ => Err(unknown()),
        },
        None => Err(unknown()),
    }
}
