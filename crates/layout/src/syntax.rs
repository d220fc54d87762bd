//! What sort of slip a TOML syntax error is.
//!
//! The parser tells its errors in English words only; this is the one place that knows them.
//! Must not know the keys of the format.

use std::ops::Range;

/// The sort of slip in the TOML text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SyntaxFault {
    /// A key or a table that is there already.
    RepeatedKey,
    /// A key with no equals sign behind it.
    MissingEquals,
    /// An equals sign or a comma with nothing behind it.
    MissingValue,
    /// Two entries with no comma between them.
    MissingComma,
    /// A comma or an equals sign too many.
    ExtraSeparator,
    /// Something more behind a value in its line.
    ExtraText,
    /// A number written with a comma, where TOML has a point.
    DecimalComma,
    /// A quotation mark, bracket or brace that is opened and never closed.
    Unclosed,
    /// A word that needs quotation marks.
    Unquoted,
    /// A number or a date that TOML cannot read, such as one with its unit behind it.
    BadNumber,
    /// `true` or `false` not written in small letters.
    BadFlag,
    /// A key that is empty, or has a character for which it needs quotation marks.
    BadKey,
    /// A backslash or a character that may not stand where it is.
    BadCharacter,
    /// One key used as a table and as something else.
    NotATable,
    /// Brackets within brackets without end.
    TooDeep,
    /// Anything else.
    Other,
}

impl SyntaxFault {
    /// The sort of slip that the parser means by its words about this stretch of the text.
    pub(crate) fn from_parser(says: &str, span: &Range<usize>, text: &str) -> Self {
        let has = |words: &str| says.contains(words);
        let found = text.get(span.clone()).unwrap_or_default();
        let before = text.get(..span.start).and_then(|before| before.rsplit('\n').next());
        let after = text.get(span.start..).unwrap_or_default();
        let before = before.unwrap_or_default().trim_end();
        if Self::is_repeated_key(says) {
            Self::RepeatedKey
        } else if has("key with no value") || has("missing assignment") {
            Self::MissingEquals
        } else if has("must be quoted") {
            Self::unquoted(found)
        } else if has("missing comma") || has("extra assignment") {
            Self::MissingComma
        } else if has("extra ") || has("unexpected `=`") {
            Self::ExtraSeparator
        } else if has("unexpected key or value") {
            if after.starts_with(',') { Self::DecimalComma } else { Self::ExtraText }
        } else if is_open_text(says) && !has("multi-line") && !before.contains(['"', '\'']) {
            Self::MissingValue
        } else if has("unclosed") || is_open_text(says) {
            Self::Unclosed
        } else if has("keys cannot") || has("unquoted key") {
            Self::BadKey
        } else if has("boolean") {
            Self::BadFlag
        } else if NUMBER_WORDS.iter().any(|word| has(word)) {
            Self::BadNumber
        } else if has("escape") || has("string") || has("character") || has("carriage") {
            Self::BadCharacter
        } else if has("cannot extend") {
            Self::NotATable
        } else if has("recurs") {
            Self::TooDeep
        } else {
            Self::Other
        }
    }

    /// Whether the parser means a key or a table that is there already.
    pub(crate) fn is_repeated_key(says: &str) -> bool {
        says == "duplicate key"
    }

    /// The parser takes whatever it does not know for text without its quotation marks.
    fn unquoted(found: &str) -> Self {
        let is_number = |word: &str| word.parse::<f64>().is_ok();
        if found.is_empty() {
            Self::MissingValue
        } else if found.contains(char::is_whitespace) && found.split_whitespace().all(is_number) {
            Self::MissingComma
        } else if found.starts_with(|first: char| first.is_ascii_digit()) {
            Self::BadNumber
        } else {
            Self::Unquoted
        }
    }
}

/// By these words the parser means a number or a date.
const NUMBER_WORDS: &[&str] = &[
    "leading zero",
    "radix",
    "prefix",
    "sign",
    "`_`",
    "float",
    "mantissa",
    "fraction",
    "exponent",
    "date",
    "time",
];

/// "invalid basic string, expected `"`" and the like.
fn is_open_text(says: &str) -> bool {
    says.contains("string") && (says.ends_with("expected `\"`") || says.ends_with("expected `'`"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The sorts of slip in a text, straight from the parser, in the order of the text.
    fn faults(text: &str) -> Vec<SyntaxFault> {
        let (_, mut errors) = toml::de::DeTable::parse_recoverable(text);
        errors.sort_by_key(|error| error.span().unwrap().start);
        let fault = |error: &toml::de::Error| {
            SyntaxFault::from_parser(error.message(), &error.span().unwrap(), text)
        };
        errors.iter().map(fault).collect()
    }

    #[test]
    fn the_common_slips_are_known() {
        use SyntaxFault::*;
        for (text, fault) in [
            ("a = 1\na = 2\n", RepeatedKey),
            ("[a]\n[a]\n", RepeatedKey),
            ("a\n", MissingEquals),
            ("a 1\n", MissingEquals),
            ("a =\n", MissingValue),
            ("a = # nothing\n", MissingValue),
            ("a = { b = }\n", MissingValue),
            ("a = [1 2]\n", MissingComma),
            ("a = ['x' 'y']\n", MissingComma),
            ("a = { b = 'x' c = 2 }\n", MissingComma),
            ("a = [1,,2]\n", ExtraSeparator),
            ("a == 1\n", ExtraSeparator),
            ("a = 'x' b = 2\n", ExtraText),
            ("a = 1,5\n", DecimalComma),
            ("a = [1, 2\n", Unclosed),
            ("a = { b = 1\n", Unclosed),
            ("[a\n", Unclosed),
            ("[[a]\n", Unclosed),
            ("a = \"text\n", Unclosed),
            ("a = 'text\n", Unclosed),
            ("a = \"\"\"text\n", Unclosed),
            ("a = crank\n", Unquoted),
            ("a = 012\n", BadNumber),
            ("a = 1__2\n", BadNumber),
            ("a = 5 mm\n", BadNumber),
            ("a = 5.\n", BadNumber),
            ("a = 1.2.3\n", BadNumber),
            ("a = 2020-13-45\n", BadNumber),
            ("a = True\n", BadFlag),
            ("ä = 1\n", BadKey),
            ("= 1\n", BadKey),
            ("a = \"\\q\"\n", BadCharacter),
            ("a = \"\u{1}\"\n", BadCharacter),
            ("# \u{1}\n", BadCharacter),
            ("a = 1\n[a.b]\n", NotATable),
            ("]\n", Other),
        ] {
            assert_eq!(faults(text).first(), Some(&fault), "{text:?}");
        }
        assert!(faults(&("a = ".to_owned() + &"[".repeat(500))).contains(&TooDeep));
    }
}
