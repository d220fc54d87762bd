//! Where one is in a demonstration.
//!
//! Must not know: what it shows.

use crate::lang::Lang;

/// `Step 2 of 6`; `step` counts from 0.
pub fn step_of(lang: Lang, step: usize, steps: usize) -> String {
    let step = step + 1;
    match lang {
        Lang::En => format!("Step {step} of {steps}"),
        Lang::De => format!("Schritt {step} von {steps}"),
    }
}

/// How long a demonstration is: `6 steps`.
pub fn lesson_length(lang: Lang, steps: usize) -> String {
    match (lang, steps) {
        (Lang::En, 1) => "1 step".to_owned(),
        (Lang::En, _) => format!("{steps} steps"),
        (Lang::De, 1) => "1 Schritt".to_owned(),
        (Lang::De, _) => format!("{steps} Schritte"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_count_from_one() {
        assert_eq!(step_of(Lang::En, 0, 6), "Step 1 of 6");
        assert_eq!(step_of(Lang::De, 5, 6), "Schritt 6 von 6");
        assert_eq!(lesson_length(Lang::De, 1), "1 Schritt");
    }
}
