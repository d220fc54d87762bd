//! A caption with its readings named in braces: `The left camshaft: {shafts.cam_left.ahead_teeth}.`
//!
//! Must not know: what any reading is.

use std::str::Split;

/// A piece of a caption.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece<'a> {
    /// Words as they stand.
    Words(&'a str),
    /// A reading, by its key.
    Reading(&'a str),
}

/// The pieces of a caption in their order, none empty; `None` where a brace is never closed, never
/// opened, or holds no key.
pub fn pieces(caption: &str) -> Option<Vec<Piece<'_>>> {
    let mut opened: Split<'_, char> = caption.split('{');
    let first = opened.next().unwrap_or_default();
    if first.contains('}') {
        return None;
    }
    let mut all = vec![Piece::Words(first)];
    for part in opened {
        let (key, words) = part.split_once('}')?;
        if !is_key(key) || words.contains('}') {
            return None;
        }
        all.extend([Piece::Reading(key), Piece::Words(words)]);
    }
    all.retain(|piece| *piece != Piece::Words(""));
    Some(all)
}

/// Whether it looks like a reading's key: `runs.crank>cam_left.slack_mm`.
fn is_key(key: &str) -> bool {
    let allowed = |c: char| c.is_ascii_alphanumeric() || "._>".contains(c);
    !key.is_empty() && key.chars().all(allowed)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_and_readings_in_their_order() {
        let told = pieces("Slack: {slack_mm}, {runs.crank>cam.slack_mm}.").unwrap();
        let wanted = [
            Piece::Words("Slack: "),
            Piece::Reading("slack_mm"),
            Piece::Words(", "),
            Piece::Reading("runs.crank>cam.slack_mm"),
            Piece::Words("."),
        ];
        assert_eq!(told, wanted);
        assert_eq!(pieces("{a}{b}").unwrap(), [Piece::Reading("a"), Piece::Reading("b")]);
        assert_eq!(pieces("").unwrap(), []);
    }

    #[test]
    fn a_brace_out_of_place_is_none() {
        for text in ["{a", "a}", "{}", "{a b}", "{a}}", "{{a}", "{a}b}"] {
            assert_eq!(pieces(text), None, "{text}");
        }
    }
}
