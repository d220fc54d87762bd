//! What the drive's readings come to, in sentences.
//!
//! Must not know: how the figures were found.

pub mod adds_up;
mod crank;
mod did;
pub mod engine;
mod exercise;
mod explain;
mod fitting;
mod marks;
mod returns;
mod sight;
mod slack;
mod stages;
mod tension;
mod valve_gaps;
mod warnings;
mod wearing;
mod what_if;
mod wheel;

pub use crank::{
    crank_angle, crank_state, dial_spoken, seen_from, stripe_meets, stripe_now, turn_of_cycle,
};
pub use did::{outcome, step_name};
pub use exercise::{
    Hidden, answer_teeth, exercise_title, fault, hidden_slack, seen_mark, seen_run, stands_on,
    verdict,
};
pub use explain::{lesson_length, step_of};
pub use fitting::{
    back_off, best_tooth_told, count_is_sure, count_told, fitting_headline, fitting_sure, lands,
    lash_sentence, off,
};
pub use marks::{
    against_crank, belt_off, best_tooth, fitted, groove_from_mark, mark_at_turn, mark_now,
    shaft_sentence, shaft_stands,
};
pub use returns::{comes_back_late, repeats_late};
pub use sight::{aside, sight_apparent, sight_gaps, sight_sentence, square_enough};
pub use slack::{run_name, run_side, slack_cell, slack_sentence, slack_tag, tensioner_sentence};
pub use stages::{stage_name, stage_why};
pub use tension::{
    by_hand, pin_move, pin_moves_sentence, resting, seized_sentence, tension_assumes,
    tension_gives_way, tension_now, tension_rests_on, tone, turning_move, turns_range,
    turns_sentence,
};
pub use valve_gaps::{
    arcs_note, arcs_sentence, curve_sentence, cylinder_name, cylinder_sentence, from_piston,
    gaps_now, least_gap, map_sentence, not_stated, teeth_place, teeth_sentence, valve_name,
};
pub use warnings::{pointer_sentence, travel, warning};
pub use wearing::{assumption, assumption_refused, millions, wearing_assumes};
pub use what_if::{out_at_crank, out_at_shaft, what_if_sentence};
pub use wheel::wheel_note;

use crate::lang::Lang;

/// A list in words: `A`, `A and B`, `A, B and C`.
pub(crate) fn list(lang: Lang, names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} {} {last}", most.join(", "), lang.pick("and", "und")),
    }
}
