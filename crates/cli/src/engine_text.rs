//! The engine's answers as sentences that a person reads.
//!
//! Must not know: how a figure was found, or any word that `words` has not.

use crate::report_text::{name, title};
use advice::{BeltOff, EngineOut, WhatIf};
use layout::Plan;
use words::say::{self, engine};
use words::{Lang, Reader};

/// What teeth out come to.
pub fn what_if(reader: Reader, plan: &Plan, out: &WhatIf, behind: Option<&EngineOut>) -> String {
    let lang = reader.lang;
    let names: Vec<String> = plan.layout.wheels.iter().map(|wheel| name(plan, &wheel.id)).collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let mut text = title(plan);
    text += &format!("{}\n", say::what_if_sentence(lang, out, &names));
    let Some(behind) = behind else {
        return text + &format!("{}\n", engine::no_engine(lang));
    };
    text += &format!("{}\n\n", engine::contact(reader, behind.any_angle.as_ref()));
    for c in &behind.camshafts {
        text += &format!("{}\n", engine::bank(reader, c, names[c.wheel]));
        for v in &c.valves {
            let now = engine::events(lang, v, false);
            let time = engine::events(lang, v, true);
            text += &format!(
                "  {}: {now} ({}: {time})\n",
                engine::valve_name(lang, v.kind),
                in_time(lang)
            );
            if let Some([now, time]) = &v.least {
                let [now, time] = [now, time].map(|l| engine::least_gap_and_place(reader, l));
                text += &format!("    {now} ({}: {time})\n", in_time(lang));
            }
        }
        if let Some([now, time]) = &c.between {
            let (now, time) = (engine::between(lang, now), engine::between(lang, time));
            text += &format!("  {now} ({}: {time})\n", in_time(lang));
        }
        if let Some(both) = &c.cranking {
            let now = engine::pressure(lang, &both[0], behind.exponent_chosen);
            let from = engine::counted_from(reader, &both[0]);
            text += &format!("  {now}, {}; {from}\n", engine::pressure_change(lang, both));
        }
        if let Some(open) = c.leaks {
            text += &format!("  {}\n", engine::no_compression(lang, open));
        }
    }
    text + &format!("\n{}\n", engine::only_figures(lang))
}

/// The belt off.
pub fn belt_off(reader: Reader, plan: &Plan, answer: &BeltOff) -> String {
    let lang = reader.lang;
    let mut text = title(plan);
    text += &format!("{}\n", engine::belt_off(reader, answer));
    for (n, m) in answer.moves.iter().enumerate() {
        text += &format!("  {}. {}\n", n + 1, engine::move_text(reader, m, &name(plan, &m.shaft)));
    }
    if !answer.freedom.is_empty() {
        text.push('\n');
    }
    for f in &answer.freedom {
        text += &format!("{}: {}\n", name(plan, &f.shaft), engine::freedom(lang, f));
    }
    if !answer.parking.is_empty() {
        text.push('\n');
    }
    for p in &answer.parking {
        text += &format!("{}\n", engine::parking(reader, p));
    }
    let trap = engine::parking_trap(reader, answer.quarter_turn_depth_mm);
    if !trap.is_empty() {
        text += &format!("{trap}\n");
    }
    text + &format!("\n{}\n", engine::only_figures(lang))
}

const fn in_time(lang: Lang) -> &'static str {
    lang.pick("in time, on its best tooth", "Steuerzeit richtig, auf dem besten Zahn")
}
