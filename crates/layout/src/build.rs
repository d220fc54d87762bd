//! From the checked tree to a [`Layout`]. To keep more of a file, add its values to `document` and
//! a function here.
//!
//! Must not check anything: the table and the rules did.

mod engine;

use crate::choice::{
    CountedFrom, CrankTurns, Face, Fixing, LockBy, LockOn, MarkOn, MarkUse, PhaserRest, Role,
    SeenAt, Tightening,
};
use crate::document::{
    BeltValues, CautionValues, CountValues, Layout, LockValues, MarkValues, OtherMarkValues,
    PhaserValues, Rim, TensionerKind, TensionerValues, WheelValues,
};
use crate::findings::Finding;
use crate::place::{Lines, Place};
use crate::problem::ProblemKind;
use crate::tree::Node;

/// A value, or the key that is missing for it. After a clean check none is.
type Built<T> = Result<T, Box<Finding>>;

/// The layout of a tree in which nothing was found wrong.
pub(crate) fn layout(top: &Node, lines: &Lines<'_>) -> Built<Layout> {
    let wheels: Vec<WheelValues> =
        top.tables("wheel").iter().map(|node| wheel(node, lines)).collect::<Built<_>>()?;
    let counts = top.tables("count").iter().map(|node| count(node, &wheels, lines));
    Ok(Layout {
        title: text(top, "title")?,
        about: top.text("about").map(str::to_owned),
        provisional: top.flag("provisional").unwrap_or(false),
        crank_turns: word(top, "crank_turns", CrankTurns::from_word)?,
        centres_good_to_mm: top.number("centres_good_to_mm"),
        belt: belt(table(top, "belt")?, lines)?,
        tensioner: tensioner(table(top, "tensioner")?, &wheels, lines)?,
        counts: counts.collect::<Built<_>>()?,
        engine: top.table("engine").map(|node| engine::engine(node, &wheels)).transpose()?,
        cautions: top
            .tables("caution")
            .iter()
            .map(|node| Ok(CautionValues { text: text(node, "text")? }))
            .collect::<Built<_>>()?,
        wheels,
        places: top.places(lines),
    })
}

fn belt(node: &Node, lines: &Lines<'_>) -> Built<BeltValues> {
    Ok(BeltValues {
        teeth: whole(node, "teeth")?,
        pitch_mm: number(node, "pitch_mm")?,
        thickness_mm: number(node, "thickness_mm")?,
        tooth_height_mm: number(node, "tooth_height_mm")?,
        pitch_line_differential_mm: number(node, "pitch_line_differential_mm")?,
        width_mm: node.number("width_mm"),
        tensile_stiffness_n: node.number("tensile_stiffness_n"),
        mass_kg_per_m: node.number("mass_kg_per_m"),
        direction_arrow: node.flag("direction_arrow").unwrap_or(false),
        teeth_place: place(node, "teeth", lines),
    })
}

fn wheel(node: &Node, lines: &Lines<'_>) -> Built<WheelValues> {
    let id = text(node, "id")?;
    let rim = match node.number("outside_diameter_mm") {
        Some(outside_diameter_mm) => Rim::Smooth { outside_diameter_mm },
        None => Rim::Toothed { teeth: whole(node, "teeth")? },
    };
    Ok(WheelValues {
        name: node.text("name").unwrap_or(&id).to_owned(),
        id,
        role: word(node, "role", Role::from_word)?,
        face: word(node, "face", Face::from_word)?,
        rim,
        at_mm: two(node, "at_mm")?,
        mark: node.table("mark").map(mark).transpose()?,
        other_marks: node.tables("other_marks").iter().map(other_mark).collect::<Built<_>>()?,
        friction_n_m: node.number("friction_n_m"),
        fixing: node.text("fixing").and_then(Fixing::from_word),
        slot_deg: node.two("slot_deg"),
        lock: node.table("lock").map(lock).transpose()?,
        repeats_every_crank_turns: node.number("repeats_every_crank_turns").map(as_count),
        position_check: node.text("position_check").map(str::to_owned),
        phaser: node.table("phaser").map(phaser).transpose()?,
        spring_torque_n_m: node.number("spring_torque_n_m"),
        place: lines.place(&node.span),
        at_place: place(node, "at_mm", lines),
    })
}

fn mark(node: &Node) -> Built<MarkValues> {
    Ok(MarkValues {
        cover_clock_deg: number(node, "cover_clock_deg")?,
        on: word(node, "on", MarkOn::from_word)?,
        radius_mm: node.number("radius_mm"),
        gap_mm: node.number("gap_mm"),
        seen_at: node.text("seen_at").and_then(SeenAt::from_word),
    })
}

fn other_mark(node: &Node) -> Built<OtherMarkValues> {
    Ok(OtherMarkValues {
        wheel_clock_deg: number(node, "wheel_clock_deg")?,
        label: text(node, "label")?,
        mark_use: word(node, "use", MarkUse::from_word)?,
    })
}

fn lock(node: &Node) -> Built<LockValues> {
    Ok(LockValues {
        by: word(node, "by", LockBy::from_word)?,
        on: word(node, "on", LockOn::from_word)?,
    })
}

fn phaser(node: &Node) -> Built<PhaserValues> {
    Ok(PhaserValues {
        rest: word(node, "rest", PhaserRest::from_word)?,
        range_cam_deg: two(node, "range_cam_deg")?,
        locks: node.flag("locks").ok_or_else(|| missing(node, "locks"))?,
    })
}

fn tensioner(node: &Node, wheels: &[WheelValues], lines: &Lines<'_>) -> Built<TensionerValues> {
    let tightening = |node| word(node, "tightening", Tightening::from_word);
    let kind = match node.text("kind") {
        Some("slide") => TensionerKind::Slide {
            tightening_clock_deg: number(node, "tightening_clock_deg")?,
            travel_mm: two(node, "travel_mm")?,
            pinned_mm: number(node, "pinned_mm")?,
            force_n: number(node, "force_n")?,
        },
        Some("arm") => TensionerKind::Arm {
            pivot_mm: two(node, "pivot_mm")?,
            tightening: tightening(node)?,
            travel_deg: two(node, "travel_deg")?,
            pinned_deg: number(node, "pinned_deg")?,
            moment_n_m: number(node, "moment_n_m")?,
        },
        Some("eccentric") => TensionerKind::Eccentric {
            bolt_mm: two(node, "bolt_mm")?,
            tightening: tightening(node)?,
            travel_deg: two(node, "travel_deg")?,
            set_deg: number(node, "set_deg")?,
        },
        Some("sprung_eccentric") => TensionerKind::SprungEccentric {
            bolt_mm: two(node, "bolt_mm")?,
            tightening: tightening(node)?,
            travel_deg: two(node, "travel_deg")?,
            set_deg: node.number("set_deg"),
            moment_n_m: number(node, "moment_n_m")?,
            pointer_window_deg: two(node, "pointer_window_deg")?,
        },
        _ => return Err(missing(node, "kind")),
    };
    let wheel = wheel_index(node, "wheel", wheels)?;
    Ok(TensionerValues { wheel, kind, place: lines.place(&node.span) })
}

fn count(node: &Node, wheels: &[WheelValues], lines: &Lines<'_>) -> Built<CountValues> {
    Ok(CountValues {
        from: wheel_index(node, "from", wheels)?,
        to: wheel_index(node, "to", wheels)?,
        teeth: whole(node, "teeth")?,
        counted_from: word(node, "counted_from", CountedFrom::from_word)?,
        place: lines.place(&node.span),
    })
}

fn wheel_index(node: &Node, name: &'static str, wheels: &[WheelValues]) -> Built<usize> {
    let id = node.text(name).ok_or_else(|| missing(node, name))?;
    wheels.iter().position(|wheel| wheel.id == id).ok_or_else(|| missing(node, name))
}

fn text(node: &Node, name: &'static str) -> Built<String> {
    node.text(name).map(str::to_owned).ok_or_else(|| missing(node, name))
}

fn number(node: &Node, name: &'static str) -> Built<f64> {
    node.number(name).ok_or_else(|| missing(node, name))
}

fn whole(node: &Node, name: &'static str) -> Built<u32> {
    number(node, name).map(as_count)
}

fn two(node: &Node, name: &'static str) -> Built<[f64; 2]> {
    node.two(name).ok_or_else(|| missing(node, name))
}

fn word<T>(node: &Node, name: &'static str, from_word: fn(&str) -> Option<T>) -> Built<T> {
    node.text(name).and_then(from_word).ok_or_else(|| missing(node, name))
}

fn table<'n>(node: &'n Node, name: &'static str) -> Built<&'n Node> {
    node.table(name).ok_or_else(|| missing(node, name))
}

/// A whole number within its bounds, none of which is negative or large.
fn as_count(number: f64) -> u32 {
    number as u32
}

fn place(node: &Node, name: &str, lines: &Lines<'_>) -> Place {
    lines.place(&node.span_of(name))
}

fn missing(node: &Node, name: &'static str) -> Box<Finding> {
    Box::new(node.finding(name, ProblemKind::MissingKey { name }))
}
