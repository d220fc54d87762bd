//! A file from a later version of the format: that is all there is to say of it, since nobody can know
//! what else in it is right.
//!
//! Must not know what any other key means.

use toml::de::{DeTable, DeValue};

use crate::place::Lines;
use crate::problem::{Problem, ProblemKind};

/// The version of the format that is read here.
pub(crate) const KNOWN: u32 = 1;

/// The problem of a document whose `format` is later than the one known here; `None` for any other, one
/// that is too early or no number at all included.
pub(crate) fn newer(document: &DeTable<'_>, lines: &Lines<'_>) -> Option<Problem> {
    let (_, format) = document.iter().find(|(key, _)| key.get_ref() == "format")?;
    let DeValue::Integer(written) = format.get_ref() else { return None };
    let found = u32::from_str_radix(written.as_str(), written.radix()).ok()?;
    (found > KNOWN).then(|| Problem {
        kind: ProblemKind::Newer { found, known: KNOWN },
        place: lines.place(&format.span()),
        key: "format".into(),
        part: None,
    })
}

#[cfg(test)]
mod tests {
    use crate::problem::ProblemKind;
    use crate::sample::{SLIDE, told};

    #[test]
    fn of_a_newer_file_nothing_else_is_told() {
        let newer = SLIDE.replace("format = 1", "format = 0x10").replace("pitch_mm", "spacing_mm");
        let problems = crate::read(&newer).unwrap_err();
        let kinds: Vec<_> = problems.iter().map(|problem| &problem.kind).collect();
        assert_eq!(kinds, [&ProblemKind::Newer { found: 16, known: 1 }]);
        assert_eq!((problems[0].place.line, problems[0].place.column), (2, 10));
        // What no version can be is a slip like any other.
        for none in ["0", "-1", "1.5", "'1'", "99999999999"] {
            let told = told("format = 1", &format!("format = {none}"));
            assert!(!matches!(told[..], [(ProblemKind::Newer { .. }, ..)]), "{none}");
            assert_eq!(told.len(), 1, "{none}");
        }
    }
}
