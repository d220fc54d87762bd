//! How tight the belt is: before the pin, after it, under the hand that turns the crank.
//!
//! Must not know: any formula, any sentence.

use super::{Answers, Said, said};
use job::Job;
use serde::Serialize;
use tsify::Tsify;
use words::{Reader, say};

/// The belt's tension in the job.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct TensionPart {
    /// Where the job stands: before the pin, after it, in a sentence.
    pub now: String,
    /// Figures with their names, those that are known.
    pub figures: Vec<TensionFigure>,
    /// What pulling the pin does to marks, told apart from a tooth.
    pub pin_moves: String,
    /// What a hand needs.
    pub by_hand: String,
    /// When the tensioner yields.
    pub gives_way: String,
    /// What all that rests on.
    pub assumes: String,
    /// The marks; empty where it is not known how they move.
    pub marks: Vec<TensionMark>,
}

/// A figure with its name.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct TensionFigure {
    /// What it is.
    pub name: String,
    /// How much.
    pub reading: Said,
}

/// How a mark moves against the crank's as the belt stretches.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct TensionMark {
    /// Its shaft.
    pub name: String,
    /// When the pin is pulled.
    pub pin: Said,
    /// While a hand turns the crank forward, if that is known.
    pub hand: Option<Said>,
}

impl TensionPart {
    /// The part for a job as it stands.
    pub fn of(job: &Job, reader: Reader, answers: &Answers, names: &[&str]) -> Self {
        let (lang, plan) = (reader.lang, job.plan());
        let (rest, hand) = (&answers.tension.told(), &answers.by_hand.told());
        let figure = |name: &str, key: &str, x: Option<f64>, text: &dyn Fn(f64) -> String| {
            x.map(|x| TensionFigure {
                name: name.to_owned(),
                reading: said(key.into(), x, text(x)),
            })
        };
        let labels = words::Labels::of(lang);
        let figures = [
            figure(
                labels.resting_tension,
                "tension.resting_tension_n",
                rest.resting_tension_n,
                &|n| lang.newtons(n),
            ),
            figure(labels.belt_stretch, "tension.belt.stretch_mm", rest.belt.stretch_mm, &|mm| {
                reader.estimated_length(mm)
            }),
            figure(
                labels.moment_by_hand,
                "tension.by_hand.crank_moment_n_m",
                hand.crank_moment_n_m,
                &|n_m| lang.newton_metres(n_m),
            ),
            figure(
                labels.gives_way_from,
                "tension.tensioner.gives_way_n_m",
                rest.tensioner.gives_way_n_m,
                &|n_m| lang.newton_metres(n_m),
            ),
        ];
        let marks = rest.pin_moves.iter().map(|moves| {
            let name = plan.wheel_index(&moves.shaft).map_or("", |i| names[i]);
            let key = |what: &str| format!("tension.pin_moves.{}.{what}", moves.shaft);
            TensionMark {
                name: name.to_owned(),
                pin: said(key("mark_moves_deg"), moves.mark_moves_deg, say::pin_move(lang, moves)),
                hand: moves
                    .turning_deg
                    .map(|deg| said(key("turning_deg"), deg, say::turning_move(lang, moves))),
            }
        });
        Self {
            now: say::tension_now(lang, job.work().tensioner, job.cord().is_on(), rest),
            figures: figures.into_iter().flatten().collect(),
            pin_moves: say::pin_moves_sentence(reader, rest),
            by_hand: say::by_hand(lang, hand),
            gives_way: say::tension_gives_way(lang, rest),
            assumes: say::tension_rests_on(lang, rest).to_owned(),
            marks: marks.collect(),
        }
    }
}
