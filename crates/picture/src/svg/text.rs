//! Text for XML: escaped, measured by estimate, broken into lines.
//!
//! Must not know: fonts. Widths are those of a common sans serif, near enough to keep room.

/// A text as it may stand in an element or an attribute. What XML cannot hold becomes U+FFFD.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' | '\r' => out.push(' '),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

/// About how wide a text is, in ems.
pub(super) fn width_em(text: &str) -> f64 {
    text.chars()
        .map(|c| match c {
            'i' | 'j' | 'l' | 'I' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' => 0.28,
            'f' | 't' | 'r' | ' ' | '\u{a0}' | '(' | ')' | '[' | ']' | '-' => 0.36,
            'm' | 'w' | 'M' | 'W' | '→' | '%' | '@' => 0.9,
            'A'..='Z' | 'Ä' | 'Ö' | 'Ü' | '&' | '+' | '=' | '<' | '>' => 0.7,
            // Scripts with wide characters.
            '\u{1100}'.. => 1.0,
            _ => 0.56,
        })
        .sum()
}

/// A text in lines of at most `most_em`, broken between words; a longer word has a line of its own.
pub(super) fn wrapped(text: &str, most_em: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    // A no-break space keeps a number and its unit together.
    for word in text.split([' ', '\n', '\t']).filter(|word| !word.is_empty()) {
        match lines.last_mut() {
            Some(line) if width_em(line) + width_em(" ") + width_em(word) <= most_em => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_a_name_holds_ends_its_element() {
        assert_eq!(escaped("a<b & \"c\">\n\u{1b}ä"), "a&lt;b &amp; &quot;c&quot;&gt; \u{fffd}ä");
    }

    #[test]
    fn lines_are_no_longer_than_they_may_be() {
        let text = "The crank is 90\u{a0}° past its mark. Slack: none.";
        let lines = wrapped(text, 8.0);
        assert!(lines.len() > 2 && lines.iter().all(|line| width_em(line) <= 8.0), "{lines:?}");
        assert_eq!(lines.join(" "), text);
        assert_eq!(wrapped("Unbreakable", 1.0), ["Unbreakable"]);
        assert!(wrapped("", 1.0).is_empty());
    }
}
