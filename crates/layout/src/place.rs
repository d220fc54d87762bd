//! Where in the text something stands: line, column and bytes.
//!
//! Must not know what stands there.

use std::collections::BTreeMap;
use std::ops::Range;

/// A stretch of the text. The default is the very start of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// Line of the first character, from 1.
    pub line: usize,
    /// Column of the first character, from 1, in characters (not bytes).
    pub column: usize,
    /// Offset of the first byte, from 0.
    pub from_byte: usize,
    /// Offset just after the last byte; equals `from_byte` where there is nothing to show.
    pub to_byte: usize,
}

impl Default for Place {
    fn default() -> Self {
        Self { line: 1, column: 1, from_byte: 0, to_byte: 0 }
    }
}

/// The places of all keys that a file has, by key path (`wheel[3].teeth`).
pub(crate) type Places = BTreeMap<String, Place>;

/// How many bytes apart the character counts are kept.
const BLOCK: usize = 64;

/// What it takes to turn byte offsets into lines and columns, each in logarithmic time however
/// long a line may be.
pub(crate) struct Lines<'t> {
    text: &'t [u8],
    /// Offset at which each line starts.
    starts: Vec<usize>,
    /// Characters before each multiple of [`BLOCK`].
    characters: Vec<usize>,
    /// Bytes of a byte order mark, which is no column.
    mark: usize,
}

impl<'t> Lines<'t> {
    pub(crate) fn new(text: &'t str) -> Self {
        let bytes = text.as_bytes();
        let newlines = bytes.iter().enumerate().filter(|(_, byte)| **byte == b'\n');
        let starts = std::iter::once(0).chain(newlines.map(|(at, _)| at + 1)).collect();
        let mut characters = vec![0];
        let mut so_far = 0;
        for block in bytes.chunks(BLOCK) {
            so_far += begun(block);
            characters.push(so_far);
        }
        let mark = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        Self { text: bytes, starts, characters, mark }
    }

    /// The line, from 0, in which the byte at `offset` stands.
    pub(crate) fn line(&self, offset: usize) -> usize {
        self.starts.partition_point(|start| *start <= offset).saturating_sub(1)
    }

    pub(crate) fn place(&self, span: &Range<usize>) -> Place {
        let from_byte = span.start.min(self.text.len());
        let to_byte = span.end.clamp(from_byte, self.text.len());
        let line = self.line(from_byte);
        let start = self.starts.get(line).copied().unwrap_or(0);
        let start = if line == 0 { start.max(self.mark) } else { start };
        let before = self.before(from_byte).saturating_sub(self.before(start));
        Place { line: line + 1, column: before + 1, from_byte, to_byte }
    }

    /// Characters that begin before `offset`.
    fn before(&self, offset: usize) -> usize {
        let block = offset / BLOCK;
        let counted = self.characters.get(block).copied().unwrap_or(0);
        counted + self.text.get(block * BLOCK..offset).map_or(0, begun)
    }
}

/// Characters that begin in these bytes of UTF-8.
fn begun(bytes: &[u8]) -> usize {
    bytes.iter().filter(|byte| **byte & 0b1100_0000 != 0b1000_0000).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters() {
        let text = "a = 1\nnäme = \"Zahnräder\" # x\n";
        let lines = Lines::new(text);
        let hash = text.find('#').unwrap();
        let place = lines.place(&(hash..hash + 1));
        assert_eq!((place.line, place.column), (2, 20));
    }

    #[test]
    fn agrees_with_counting_from_the_start_of_the_line() {
        let text = "\u{feff}é".to_owned() + &"aé€𝄞\n".repeat(40) + &"€x".repeat(300) + "\n\nend";
        let lines = Lines::new(&text);
        for (at, _) in text.char_indices().skip(1) {
            let before = text[..at].trim_start_matches('\u{feff}');
            let place = lines.place(&(at..at));
            assert_eq!(place.line, before.matches('\n').count() + 1);
            let line_start = before.rfind('\n').map_or(0, |n| n + 1);
            assert_eq!(place.column, before[line_start..].chars().count() + 1);
        }
    }

    #[test]
    fn any_offset_has_a_place() {
        let lines = Lines::new("é\n");
        for from in 0..9 {
            for to in 0..9 {
                let place = lines.place(&(from..to));
                assert!(place.from_byte <= place.to_byte && place.to_byte <= 3);
            }
        }
        assert_eq!(Lines::new("").place(&(0..0)), Place::default());
    }
}
