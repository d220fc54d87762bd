//! The tension answer as sentences and tables that a person reads.
//!
//! Must not know: how a figure was found, or any word that `words` has not.

use crate::report_text::{name, row, title};
use crate::table::table;
use advice::{Tension, TensionAsked};
use layout::Plan;
use words::command::Headings;
use words::{Reader, say};

/// A figure that is not known.
const NOT_KNOWN: &str = "–";

/// The whole answer.
pub fn text(reader: Reader, plan: &Plan, asked: &TensionAsked, answer: &Tension) -> String {
    let (lang, answer) = (reader.lang, &answer.told());
    let h = Headings::of(lang);
    let name = |id: &str| name(plan, id);
    let told = |x: Option<f64>, as_text: &dyn Fn(f64) -> String| {
        x.map_or_else(|| NOT_KNOWN.to_owned(), as_text)
    };
    let ends = |range: Option<[f64; 2]>| {
        range.map_or_else(|| NOT_KNOWN.to_owned(), |range| say::turns_range(lang, range))
    };
    let turning = advice::tension(plan, &asked.by_hand()).told();
    let mut sentences = vec![
        say::resting(lang, answer),
        say::pin_moves_sentence(reader, answer),
        say::by_hand(lang, &turning),
        say::tension_gives_way(lang, answer),
        say::turns_sentence(lang, answer),
    ];
    if let Some(wheel) = &answer.seized {
        sentences.push(say::seized_sentence(
            lang,
            &name(&wheel.wheel),
            &answer.assumed,
            answer.provisional,
            wheel,
        ));
    }
    sentences.push(say::tension_assumes(lang, answer).to_owned());
    let mut out = title(plan);
    for sentence in sentences.iter().filter(|sentence| !sentence.is_empty()) {
        out += &format!("{sentence}\n");
    }

    let mut rows = vec![row([h.span, h.length, h.tension, h.tone, h.push_aside, h.push])];
    rows.extend(answer.spans.iter().map(|span| {
        vec![
            format!("{} → {}", name(&span.from), name(&span.to)),
            reader.length(span.length_mm),
            told(span.tension_n, &|n| lang.newtons(n)),
            told(span.tone_hz, &|hz| say::tone(lang, hz)),
            reader.length(span.push_aside_mm),
            told(span.push_n, &|n| lang.newtons(n)),
        ]
    }));
    if rows.len() > 1 {
        out += &table(&rows);
    }

    let mut rows =
        vec![row([h.wheel, h.bearing, h.mesh_carries, h.turns_per_km, h.turns_per_hour])];
    rows.extend(answer.wheels.iter().map(|wheel| {
        vec![
            name(&wheel.id),
            told(wheel.bearing_load_n, &|n| lang.newtons(n)),
            told(wheel.in_mesh_factor, &|factor| lang.percent(factor)),
            ends(wheel.turns_per_km),
            ends(wheel.turns_per_hour),
        ]
    }));
    out += &table(&rows);

    let mut rows = vec![row([h.shaft, h.pin_moves])];
    rows.extend(answer.pin_moves.iter().map(|m| vec![name(&m.shaft), say::pin_move(lang, m)]));
    if rows.len() > 1 {
        out += &table(&rows);
    }
    out
}
