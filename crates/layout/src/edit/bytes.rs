//! A changed document put back into the text that it was read from, so that what did not change keeps every
//! byte: line ends of either kind and the byte order mark, which a document does not hold.
//!
//! Must not know: what changed.

const BYTE_ORDER_MARK: &str = "\u{feff}";

/// `text`, of which `before` is what its document is without any change, changed as `after` is.
pub(super) fn spliced(text: &str, before: &str, after: &str) -> String {
    if before == after {
        return text.to_owned();
    }
    let (mark, text) = match text.strip_prefix(BYTE_ORDER_MARK) {
        Some(text) => (BYTE_ORDER_MARK, text),
        None => ("", text),
    };
    // A document ends a last line that has a key; the text may not.
    let end = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let unended = before.ends_with('\n') && !text.ends_with('\n');
    let added = if unended { end } else { "" };
    let text = &format!("{text}{added}");
    let head = same(before.bytes(), after.bytes());
    let tail = same(before.bytes().skip(head).rev(), after.bytes().skip(head).rev());
    let head = floor(before, head);
    // Where the end that both share begins, in each of them.
    let shared = tail - (ceil(before, before.len() - tail) - (before.len() - tail));
    let (from, to) = (in_text(text, before, head), in_text(text, before, before.len() - shared));
    let new = after.get(head..after.len() - shared).unwrap_or_default();
    let new = new.replace("\r\n", "\n").replace('\n', end);
    let last = if shared > 0 { text.len() - added.len() } else { text.len() };
    [Some(mark), text.get(..from), Some(&new), text.get(to..last)].into_iter().flatten().collect()
}

/// How many bytes are the same from the first on.
fn same(a: impl Iterator<Item = u8>, b: impl Iterator<Item = u8>) -> usize {
    a.zip(b).take_while(|(a, b)| a == b).count()
}

/// The last place between two characters at or before `at`.
fn floor(text: &str, at: usize) -> usize {
    (0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0)
}

/// The first place between two characters at or after `at`.
fn ceil(text: &str, at: usize) -> usize {
    (at..=text.len()).find(|at| text.is_char_boundary(*at)).unwrap_or(text.len())
}

/// The place in `text` of byte `at` of `before`, which is `text` less some of its bytes.
fn in_text(text: &str, before: &str, at: usize) -> usize {
    let mut written = text.bytes().enumerate();
    for wanted in before.bytes().take(at) {
        written.by_ref().find(|(_, byte)| *byte == wanted);
    }
    match at == before.len() {
        true => text.len(),
        false => written.next().map_or(text.len(), |(place, _)| place),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_did_not_change_keeps_its_bytes() {
        for (text, before, after, wanted) in [
            ("a\r\nb\nc\r\n", "a\nb\nc\n", "a\nx\nc\n", "a\r\nx\nc\r\n"),
            ("a\r\nb\nc\r\n", "a\nb\nc\n", "a\nx\ny\nb\nc\n", "a\r\nx\r\ny\r\nb\nc\r\n"),
            ("a\r\nb", "a\nb\n", "a\nb\nc\n", "a\r\nb\r\nc\r\n"),
            ("a\n# b", "a\n# b", "c\n# b", "c\n# b"),
            ("a\nb", "a\nb\n", "c\nb\n", "c\nb"),
            ("\u{feff}a\n", "a\n", "b\na\n", "\u{feff}b\na\n"),
            ("é\n", "é\n", "è\n", "è\n"),
            ("\u{1f980}\n", "\u{1f980}\n", "\u{1f981}\n", "\u{1f981}\n"),
            ("aa\n", "aa\n", "aaa\n", "aaa\n"),
            ("aaa\n", "aaa\n", "a\n", "a\n"),
            ("a\r\n", "a\n", "", ""),
            ("", "", "a\n", "a\n"),
        ] {
            assert_eq!(spliced(text, before, after), wanted, "{text:?} {after:?}");
            assert_eq!(spliced(text, before, before), text);
        }
    }
}
