//! A blind exercise: from a number on the board one or two faults are hidden on a drive; a class turns, looks
//! and says what is wrong, and the answer is marked.
//!
//! Must not know: how a drive is drawn, or any sentence.
//!
//! The same number hides the same fault on every machine: the choice is whole-number arithmetic alone, over a
//! catalogue in a fixed order.

mod answer;
mod fault;
mod looks;

pub use answer::{ClassAnswer, Unknown, Verdict, run_name};
pub use fault::{ASIDE_DEG, Fault, Finding, catalogue};
pub use looks::{Looks, Place, SeenMark, SeenRun, looks};

use fault::{decoy_teeth, finding, hide};
use job::Job;
use layout::Plan;
use std::rc::Rc;

/// The largest number of an exercise; the least is 0.
pub const MOST_NUMBER: u32 = 999_999;

/// The layouts that exercises are set on, by their files' names without the ending.
pub const LAYOUTS: [&str; 5] = [
    "six-in-a-vee-one-camshaft-a-bank",
    "four-in-line-two-camshafts-arm",
    "four-in-line-one-camshaft-eccentric",
    "diesel-four-with-injection-pump",
    "six-in-a-vee-two-camshafts-a-bank",
];

/// An exercise.
#[derive(Clone, Debug)]
pub struct Exercise {
    /// The number on the board.
    pub number: u32,
    /// The drive as the class finds it, without anything in it that tells how it came about.
    pub job: Job,
    /// How far off square the class looks at it, degrees.
    pub aside_deg: f64,
    faults: Vec<Fault>,
    finding: Finding,
}

impl Exercise {
    /// The exercise of a number; what is beyond [`MOST_NUMBER`] is brought back to it. `plan` gives the plan
    /// of a layout by its name. `None` where it has none, or nothing can be hidden on it.
    pub fn of(number: u32, plan: &mut dyn FnMut(&str) -> Option<Rc<Plan>>) -> Option<Self> {
        let number = number.min(MOST_NUMBER);
        let mut chance = Chance::of(number);
        let plan = plan(LAYOUTS[chance.below(LAYOUTS.len())])?;
        let all = catalogue(&plan);
        // One fault or two, each as likely.
        let wanted = 1 + chance.below(2);
        let cases: Vec<&Vec<Fault>> = all.iter().filter(|case| case.len() == wanted).collect();
        let faults = (*cases.get(chance.below(cases.len().max(1)))?).clone();
        Self::with(number, plan, faults)
    }

    /// The exercise with these faults; `None` where they cannot all be hidden at once.
    pub fn with(number: u32, plan: Rc<Plan>, faults: Vec<Fault>) -> Option<Self> {
        let finding = finding(&plan, &faults);
        let (job, aside_deg) = hide(plan, &faults)?;
        Some(Self { number, job, aside_deg, faults, finding })
    }

    /// What is hidden.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// What that comes to.
    pub fn finding(&self) -> &Finding {
        &self.finding
    }

    /// By how many teeth a wheel is out with one of its other marks where its timing mark should be.
    pub fn decoy_teeth(&self, wheel: usize, mark: usize) -> i64 {
        decoy_teeth(self.job.plan(), wheel, mark)
    }

    /// Whether an answer is right, and in which of its parts.
    ///
    /// # Errors
    /// A name in it that the drive does not have.
    pub fn judge(&self, answer: &ClassAnswer) -> Result<Verdict, Unknown> {
        Ok(Verdict::of(&self.finding, &answer.finding(self.job.plan())?))
    }
}

/// Choices that follow from a number and from nothing else.
///
/// A linear congruence modulo 2⁶⁴ (multiplier and increment as Knuth gives them for MMIX; from memory), of
/// which the upper half of each value is taken: its low bits are poor, and neighbouring numbers would begin
/// alike, so the first few values are thrown away.
struct Chance(u64);

impl Chance {
    fn of(number: u32) -> Self {
        let mut chance = Self(u64::from(number));
        for _ in 0..4 {
            chance.next();
        }
        chance
    }

    fn next(&mut self) -> u64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        self.0 >> 32
    }

    /// A whole number from 0 up to, not including, `n`; 0 where `n` is 0.
    fn below(&mut self, n: usize) -> usize {
        // 32 bits times a small count: no bit is lost.
        ((self.next() * n as u64) >> 32) as usize
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn choices_spread_evenly_and_are_the_same_everywhere() {
        let mut counts = [0_u32; 10];
        for number in 0..=MOST_NUMBER {
            counts[Chance::of(number).below(10)] += 1;
        }
        for count in counts {
            assert!((90_000..110_000).contains(&count), "{counts:?}");
        }
        // Worked out by hand from the recurrence, with Python's whole numbers: five steps from 1.
        assert_eq!(Chance::of(1).next(), 3_416_422_068);
    }
}
