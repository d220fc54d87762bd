//! The fitting answer as sentences and tables that a person reads.
//!
//! Must not know: how a figure was found, or any word that `words` has not.

use crate::report_text::{name, row, title};
use crate::table::table;
use advice::Fitting;
use layout::Plan;
use words::command::Headings;
use words::{Lang, Reader, say};

/// The whole answer.
pub fn text(reader: Reader, plan: &Plan, answer: &Fitting) -> String {
    let lang = reader.lang;
    let h = Headings::of(lang);
    let name = |id: &str| name(plan, id);
    let drive = &plan.drive;
    let pulled = &answer.pulled_run;
    let mut out = title(plan);
    let headline = say::fitting_headline(lang, answer, &name(&pulled.from), &name(&pulled.to));
    if answer.provisional {
        out += &format!("{}\n{headline}\n", words::start::provisional(lang));
        out += &format!("{}\n", say::back_off(lang, answer, drive.crank_deg_per_tooth()));
        let mut rows = vec![row([h.between_marks, h.teeth])];
        rows.extend(answer.counts.iter().map(|count| {
            let ends = format!("{} → {}", name(&count.from), name(&count.to));
            vec![ends, say::count_told(lang, count.teeth, count.known)]
        }));
        out += &table(&rows);
        return out + &lay_on(lang, answer, name);
    }
    let sentences = [
        headline,
        say::back_off(lang, answer, drive.crank_deg_per_tooth()),
        say::fitting_sure(reader, answer),
        say::lash_sentence(
            reader,
            answer.slack_when_bolted_mm,
            answer.slack_when_bolted_mm / drive.mm_per_crank_deg(),
        ),
    ];
    for sentence in sentences {
        out += &format!("{sentence}\n");
    }
    let mut rows = vec![row([h.in_pulled_run, h.crank_lands])];
    rows[0].extend(answer.best_tooth.iter().map(|best| name(&best.shaft)));
    rows.extend(answer.landing.iter().map(|landing| {
        let mut cells =
            vec![lang.teeth(landing.teeth_in_pulled_run as f64, 0), say::lands(lang, landing)];
        cells.extend(landing.marks.iter().map(|m| say::off(lang, m.teeth, m.deg)));
        cells
    }));
    out += &table(&rows);

    let mut rows =
        vec![row([h.between_marks, h.teeth, h.from_wrap_middle, h.first_groove, h.sure])];
    rows.extend(answer.counts.iter().map(|count| {
        vec![
            format!("{} → {}", name(&count.from), name(&count.to)),
            say::count_told(lang, count.teeth, count.known),
            lang.teeth(count.between_wrap_middles_teeth, 1),
            say::groove_from_mark(lang, count.from_past_mark_teeth),
            say::count_is_sure(reader, count),
        ]
    }));
    out += &table(&rows);

    let mut rows = vec![row([h.shaft, h.best_tooth, h.lash])];
    for best in &answer.best_tooth {
        let lash = answer.lash.iter().find(|lash| lash.shaft == best.shaft);
        rows.push(vec![
            name(&best.shaft),
            say::best_tooth_told(lang, best),
            lash.map_or_else(String::new, |lash| lang.fine_degrees(lash.deg)),
        ]);
    }
    out += &table(&rows);

    let mut rows = vec![row([h.wheel, h.may_jump, h.may_jump_back])];
    rows.extend(answer.jump_margin.iter().map(|jump| {
        vec![name(&jump.wheel), lang.percent(jump.margin), lang.percent(jump.margin_right_back)]
    }));
    out += &table(&rows);
    out + &lay_on(lang, answer, name)
}

fn lay_on(lang: Lang, answer: &Fitting, name: impl Fn(&str) -> String) -> String {
    let order: Vec<String> = answer.thread_order.iter().map(|id| name(id)).collect();
    format!("\n{}: {}\n", Headings::of(lang).lay_on, order.join(", "))
}
