//! The pose as tables that a person reads; the belt's teeth, too many for that, are in the JSON.
//!
//! Must not know: how anything came to stand there, or any word that `words` has not.

use crate::report_text::{name, row, title, travel};
use crate::table::table;
use advice::PoseReport;
use layout::Plan;
use words::Reader;
use words::command::Headings;

/// The whole pose.
pub fn text(reader: Reader, plan: &Plan, pose: &PoseReport) -> String {
    let lang = reader.lang;
    let h = Headings::of(lang);
    let name = |id: &str| name(plan, id);
    let mut out = title(plan);
    out += &format!("{} {} {}\n", h.crank, h.travel, lang.degrees(pose.crank_deg));
    let travel = travel(reader, pose.tensioner.travel, pose.tensioner.unit);
    out += &format!("{} {} {travel}\n", h.tensioner, h.travel);

    let mut rows = vec![row([h.wheel, h.turned, h.mark_off, h.stands_at])];
    rows.extend(pose.wheels.iter().map(|w| {
        let [x, y] = w.at_mm.map(|mm| reader.length(mm));
        vec![
            name(&w.id),
            lang.degrees(w.turned_deg),
            w.mark_error_teeth.map_or("–".to_owned(), |teeth| lang.teeth(teeth, 2)),
            format!("{x}; {y}"),
        ]
    }));
    out += &table(&rows);

    let mut rows = vec![row([h.run, h.slack])];
    rows.extend(
        pose.runs.iter().map(|r| {
            vec![format!("{} → {}", name(&r.from), name(&r.to)), reader.length(r.slack_mm)]
        }),
    );
    out + &table(&rows)
}
