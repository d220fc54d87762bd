//! Brackets and braces that are opened and never closed.
//!
//! The parser takes everything behind such a bracket for what is in it, up to the end of the file.
//! A person sees where it should have ended: before the next key or table. Must not know the keys
//! of the format. Looks at each byte a bounded number of times.

use std::ops::Range;

/// A bracket or brace, or a quotation mark within them, that is opened and never closed.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Unclosed {
    /// Where it is opened.
    pub(crate) at: usize,
    /// From the start of its key's line to where it should have ended: the start of a line, or the
    /// end of the text.
    pub(crate) statement: Range<usize>,
}

impl Unclosed {
    /// What the parser would say of it.
    pub(crate) fn parser_says(&self, text: &str) -> &'static str {
        match text.as_bytes().get(self.at) {
            Some(b'[') => "unclosed array, expected `]`",
            Some(b'{') => "unclosed inline table, expected `}`",
            Some(b'"') => "invalid basic string, expected `\"`",
            _ => "invalid literal string, expected `'`",
        }
    }
}

/// Those of a text that the parser has found fault with.
pub(crate) fn unclosed(text: &str) -> Vec<Unclosed> {
    let mut found = Vec::new();
    let mut from = 0;
    while from < text.len() {
        let (end, at) = statement(text, from);
        found.extend(at.map(|at| Unclosed { at, statement: from..end }));
        from = end;
    }
    found
}

/// The text without their statements, all else at its old place.
pub(crate) fn without(text: &str, unclosed: &[Unclosed]) -> String {
    let mut rest = String::with_capacity(text.len());
    for Unclosed { statement, .. } in unclosed {
        rest += text.get(rest.len()..statement.start).unwrap_or_default();
        rest.extend(std::iter::repeat_n(' ', statement.len()));
    }
    rest += text.get(rest.len()..).unwrap_or_default();
    rest
}

/// Blank within a line.
pub(crate) const BLANK: [char; 3] = [' ', '\t', '\r'];

/// `true` and the like, in right or wrong case.
pub(crate) fn is_value_word(word: &str) -> bool {
    ["true", "false", "inf", "nan"].iter().any(|value| value.eq_ignore_ascii_case(word))
}

/// Most brackets within one another, once one of them seems not to be closed: further ones are
/// seen when they are reached by themselves.
const DEEPEST: usize = 8;

/// What an opening bracket outside of all others is.
#[derive(PartialEq)]
enum Due {
    /// Part of a header.
    Key,
    /// A list or a table, behind the equals sign.
    Value,
    /// Something too many.
    Nothing,
}

/// Where the statement ends that starts at `from`, and what in it is not closed.
fn statement(text: &str, from: usize) -> (usize, Option<usize>) {
    let bytes = text.as_bytes();
    let mut due = Due::Key;
    let mut open: Vec<usize> = Vec::new();
    let mut open_text: Option<usize> = None;
    // Where it should have ended, if it is not closed, and what is not, by its place in `open`.
    let mut should_end: Option<(usize, usize)> = None;
    let mut last = b'\n';
    let mut at = from;
    let mut end = text.len();
    while let Some(&byte) = bytes.get(at) {
        let (next, closed) = token(text, at);
        let innermost = open.last().and_then(|at| bytes.get(*at)).copied();
        match byte {
            b'\n' => {
                let Some(innermost) = innermost else { return (next, None) };
                let line = text.get(next..).and_then(|rest| rest.split('\n').next());
                let line = line.unwrap_or_default();
                if is_header(line) {
                    end = next;
                    break;
                }
                // A table may go on in the next line, though only behind a comma.
                let goes_on = innermost == b'{' && matches!(last, b'{' | b',');
                if should_end.is_none() && !goes_on && is_assignment(line) {
                    should_end = Some((next, open.len() - 1));
                }
            }
            b'=' if due == Due::Key => due = Due::Value,
            b'[' | b'{' if !open.is_empty() || due == Due::Value => {
                due = Due::Nothing;
                open.push(at);
                if should_end.is_some() && open.len() > DEEPEST {
                    break;
                }
            }
            b']' | b'}' if innermost == Some(if byte == b']' { b'[' } else { b'{' }) => {
                open.pop();
                should_end = should_end.filter(|(_, place)| *place < open.len());
            }
            b'"' | b'\'' if !closed && !open.is_empty() => {
                open_text.get_or_insert(at);
            }
            _ => {}
        }
        if !matches!(byte, b' ' | b'\t' | b'\r' | b'\n' | b'#') {
            last = byte;
            if open.is_empty() && byte != b'=' && due == Due::Value {
                due = Due::Nothing;
            }
        }
        at = next;
    }
    let (end, place) = should_end.unwrap_or((end, open.len().saturating_sub(1)));
    let bracket = open.get(place).copied();
    (end, bracket.map(|bracket| open_text.filter(|at| *at < end).unwrap_or(bracket)))
}

/// Where the token ends that starts at `at`, and whether it is closed, if it is text. What is
/// neither text nor a comment is taken byte by byte.
fn token(text: &str, at: usize) -> (usize, bool) {
    let rest = text.as_bytes().get(at..).unwrap_or_default();
    let (long, escapes, delimiter): (_, _, &[u8]) = match rest {
        [b'"', b'"', b'"', ..] => (true, true, b"\"\"\""),
        [b'\'', b'\'', b'\'', ..] => (true, false, b"'''"),
        [b'"', ..] => (false, true, b"\""),
        [b'\'', ..] => (false, false, b"'"),
        [b'#', ..] => {
            let length = rest.iter().position(|byte| *byte == b'\n').unwrap_or(rest.len());
            return (at + length, true);
        }
        _ => return (at + 1, true),
    };
    let mut length = delimiter.len();
    while let Some(inside) = rest.get(length..).filter(|inside| !inside.is_empty()) {
        if inside.starts_with(delimiter) {
            length += delimiter.len();
            // Up to two more belong to the text.
            let more = rest.get(length..).unwrap_or_default().iter().zip(0..2);
            let more = more.take_while(|(byte, _)| long && delimiter.first() == Some(byte));
            return (at + length + more.count(), true);
        }
        match inside {
            [b'\n', ..] if !long => return (at + length, false),
            [b'\\', b'\n', ..] if !long => length += 1,
            [b'\\', _, ..] if escapes => length += 2,
            _ => length += 1,
        }
    }
    (at + rest.len(), false)
}

/// `[belt]` or `[[wheel]]`, a comment behind it or not.
pub(crate) fn is_header(line: &str) -> bool {
    let Some(inside) = line.trim_start_matches(BLANK).strip_prefix('[') else { return false };
    let inside = inside.strip_prefix('[').unwrap_or(inside);
    let Some((name, rest)) = inside.split_once(']') else { return false };
    let rest = rest.strip_prefix(']').unwrap_or(rest).trim_matches(BLANK);
    let name = name.trim_matches(BLANK);
    is_key(name) && !is_value_word(name) && (rest.is_empty() || rest.starts_with('#'))
}

/// `key = …`
fn is_assignment(line: &str) -> bool {
    line.split_once('=').is_some_and(|(key, _)| is_key(key.trim_matches(BLANK)))
}

fn is_key(word: &str) -> bool {
    word.starts_with(|first: char| first.is_ascii_alphabetic() || first == '_')
        && word.chars().all(is_in_key)
}

/// Whether a key, or a path of keys, may have this character without quotation marks.
pub(crate) fn is_in_key(c: char) -> bool {
    c.is_ascii_alphanumeric() || matches!(c, '_' | '-' | '.')
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is not closed, from there to where it should have ended.
    fn found(text: &str) -> Vec<&str> {
        unclosed(text).iter().map(|found| &text[found.at..found.statement.end]).collect()
    }

    #[test]
    fn a_bracket_should_end_before_the_next_key_or_table() {
        for (text, stretches) in [
            ("a = [1, 2\nb = 3\n[t]\nc = [4]\n", vec!["[1, 2\n"]),
            ("a = [1, 2,\nb = 3\n", vec!["[1, 2,\n"]),
            ("a = [1, 2\n\n# c = [\n[[t]] # more\nc = 4\n", vec!["[1, 2\n\n# c = [\n"]),
            ("a = [1, 2\r\nb = 3\r\n", vec!["[1, 2\r\n"]),
            ("a = [1, 2", vec!["[1, 2"]),
            ("a = [\n  1,\n  2\nb = 3\n", vec!["[\n  1,\n  2\n"]),
            ("a = [1\nb = [2\nc = {d = 3\n[t]\n", vec!["[1\n", "[2\n", "{d = 3\n"]),
            ("a = [{b = 1}, {b = 2\nc = [3]\n[t]\n", vec!["{b = 2\n"]),
            ("a = [{b = 1}, {b = 2}\nc = [3]\n[t]\n", vec!["[{b = 1}, {b = 2}\n"]),
            ("a = [{b = 1}, {b = 2]\nc = 3\n", vec!["{b = 2]\n"]),
            ("a = [1, 2}\nb = 3\n", vec!["[1, 2}\n"]),
            ("a = { b = 1\nc = { d = 2 }\n[t]\n", vec!["{ b = 1\n"]),
            ("a = { b = 1,\n[t]\nc = 3\n", vec!["{ b = 1,\n"]),
            ("a = {\n  b = 1,\n  c = 2\nd = 3\n[t]\n", vec!["{\n  b = 1,\n  c = 2\n"]),
            ("a = { b = 'c }\nd = 1\n[t]\n", vec!["'c }\n"]),
            ("a = [\"b, \"c\"]\nd = 1\n", vec!["\"]\n"]),
        ] {
            assert_eq!(found(text), stretches, "{text:?}");
        }
    }

    #[test]
    fn what_is_closed_or_no_bracket_is_let_be() {
        for text in [
            "",
            "[t]\n[[u.v]]\na = [1]\n",
            "a = [\n  [1, 2],\n  [3, 4],\n]\nb = { c = 1,\n  d = 2 }\n",
            "a = [{\n  b = 1\n}, {\n  b = 2,\n  c = 3 }]\nd = 4\n",
            "a = { b = 1\n  c = 2 }\nd = 3\n",
            "a = [\n  b = 1,\n  c = 2\n]\n[t]\n",
            "a = [ # [\n  '[', \"\\\"[\", \"\"\"\nb = [\"\"\\\"\n[t]\"\"\"\"\", '''\n[t]\n'''\n]\n",
            "a = [[true],\n[false],\n[nan]]\n",
            "a = 'text [\nb = \"{\nc = 1 [ 2\nd [\n[t\n[[t]\ne = = 5 {\n",
            "a = \"\"\"\nb = [\n",
        ] {
            assert_eq!(found(text), Vec::<&str>::new(), "{text:?}");
        }
    }

    #[test]
    fn all_else_stays_where_it_is() {
        let text = "a = 1\nb = ['ä',\n 2\nc = 3 # é\nd = {\n[t]\n";
        let rest = without(text, &unclosed(text));
        assert_eq!(rest.len(), text.len());
        assert_eq!(rest.split_whitespace().collect::<Vec<_>>().join(" "), "a = 1 c = 3 # é [t]");
        for kept in ["a = 1", "c = 3 # é", "[t]"] {
            assert_eq!(rest.find(kept), text.find(kept));
        }
    }
}
