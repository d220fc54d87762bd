//! The report as tables that a person reads.
//!
//! Must not know: how a figure was found, or any word that `words` has not.

use crate::table::table;
use advice::Report;
use engine::Kind;
use layout::Plan;
use words::command::{Headings, exact_mm};
use words::{Lang, Reader, say};

/// The whole report.
pub fn text(reader: Reader, plan: &Plan, report: &Report) -> String {
    let lang = reader.lang;
    let h = Headings::of(lang);
    let name = |id: &str| name(plan, id);
    let arrow = |from: &str, to: &str| format!("{} → {}", name(from), name(to));
    if report.provisional {
        return provisional(reader, plan, report);
    }
    let travel = travel(reader, report.tensioner.travel, report.tensioner.unit);
    let mut out = title(plan);
    out += &format!(
        "{}: {}, {} {}, {} {}\n",
        h.belt,
        lang.teeth(f64::from(report.belt.teeth), 0),
        h.pitch,
        exact_mm(lang, report.belt.pitch_mm),
        h.pitch_length,
        reader.length(report.belt.pitch_length_mm)
    );
    out += &format!(
        "{}: {} {travel}; {} {}\n",
        h.tensioner,
        h.tight_at,
        h.slack_when_back,
        reader.length(report.tensioner.slack_when_back_mm)
    );
    out += &stripes(lang, report);
    out += &camshafts(lang, plan, report);

    let mut rows = vec![row([h.wheel, h.pitch_radius, h.wrap, h.in_mesh, h.turns_per_crank_turn])];
    rows.extend(report.wheels.iter().map(|w| {
        vec![
            name(&w.id),
            reader.length(w.pitch_radius_mm),
            lang.degrees(w.wrap_deg),
            lang.teeth(w.teeth_in_mesh, 1),
            lang.signed(w.turns_per_crank_turn, 3),
        ]
    }));
    out += &table(&rows);

    let mut rows = vec![row([h.span, h.length])];
    rows.extend(
        report.spans.iter().map(|s| vec![arrow(&s.from, &s.to), reader.length(s.length_mm)]),
    );
    out += &table(&rows);

    let mut rows = vec![row([h.between_marks, h.teeth, h.from_geometry])];
    rows.extend(report.counts.iter().map(|c| {
        let geometry = lang.number(c.geometric_teeth, 3);
        vec![arrow(&c.from, &c.to), say::count_told(lang, c.teeth, c.known), geometry]
    }));
    out += &table(&rows);

    let mut rows = vec![row([h.shaft, h.one_tooth, h.at_the_crank, h.best_tooth, h.back_every])];
    rows.extend(report.shafts.iter().map(|s| {
        vec![
            name(&s.id),
            lang.degrees(s.degrees_per_tooth),
            lang.degrees(s.crank_degrees_per_tooth),
            say::best_tooth(lang, s.best_tooth_error_teeth),
            lang.turns(s.returns_after_crank_turns),
        ]
    }));
    out += &table(&rows);
    if report.clearance.is_empty() {
        return out;
    }
    let mut rows = vec![row([h.shaft, h.valves, h.least_gap, h.touch_early, h.touch_late])];
    rows.extend(report.clearance.iter().map(|c| {
        let kind = if c.valve == "intake" { Kind::Intake } else { Kind::Exhaust };
        let teeth = |n: Option<u32>| n.map_or("–".to_owned(), |n| lang.teeth(f64::from(n), 0));
        vec![
            name(&c.camshaft),
            say::engine::valve_name(lang, kind).to_owned(),
            say::engine::gap_mm(reader, c.least_gap_mm),
            teeth(c.teeth_early_to_contact),
            teeth(c.teeth_late_to_contact),
        ]
    }));
    out += &table(&rows);
    out + &format!("\n{}\n", say::engine::only_figures(lang))
}

/// What does not rest on anything made up.
fn provisional(reader: Reader, plan: &Plan, report: &Report) -> String {
    let lang = reader.lang;
    let h = Headings::of(lang);
    let mut out = title(plan) + words::start::provisional(lang) + "\n\n";
    out += &format!("{}: {}\n", h.belt, lang.teeth(f64::from(report.belt.teeth), 0));
    out += &stripes(lang, report);
    out += &camshafts(lang, plan, report);
    let mut rows = vec![row([h.shaft, h.one_tooth, h.at_the_crank, h.back_every])];
    rows.extend(report.shafts.iter().map(|s| {
        vec![
            name(plan, &s.id),
            lang.degrees(s.degrees_per_tooth),
            lang.degrees(s.crank_degrees_per_tooth),
            lang.turns(s.returns_after_crank_turns),
        ]
    }));
    out += &table(&rows);
    let mut rows = vec![row([h.between_marks, h.teeth])];
    rows.extend(report.counts.iter().map(|c| {
        let ends = format!("{} → {}", name(plan, &c.from), name(plan, &c.to));
        vec![ends, say::count_told(lang, c.teeth, c.known)]
    }));
    out + &table(&rows)
}

/// Camshafts that do not turn as they must, a line each.
fn camshafts(lang: Lang, plan: &Plan, report: &Report) -> String {
    let lines = say::adds_up::camshaft_lines(lang, &plan.layout, &report.camshafts_out);
    lines.into_iter().map(|line| line.replace(char::is_control, " ") + "\n").collect()
}

fn stripes(lang: Lang, report: &Report) -> String {
    let h = Headings::of(lang);
    let every = report.stripes.crank_turns_to_meet_every_mark;
    format!(
        "{}: {} {}{}\n",
        h.stripes,
        h.meet_crank_mark,
        lang.turns(report.stripes.crank_turns_to_meet_crank_mark),
        every.map_or(String::new(), |n| format!("; {} {}", h.meet_every_mark, lang.turns(n)))
    )
}

/// The layout's title as the first line.
pub fn title(plan: &Plan) -> String {
    plan.layout.title.replace(char::is_control, " ") + "\n\n"
}

/// What people call the wheel of this id.
pub fn name(plan: &Plan, id: &str) -> String {
    plan.wheel_index(id).map_or(id, |i| plan.name(i)).replace(char::is_control, " ")
}

/// A travel in the unit that the JSON names.
pub fn travel(reader: Reader, travel: f64, unit: &str) -> String {
    if unit == "deg" { reader.lang.degrees(travel) } else { reader.length(travel) }
}

/// A row of fixed texts.
pub fn row<const N: usize>(cells: [&str; N]) -> Vec<String> {
    cells.map(str::to_owned).to_vec()
}
