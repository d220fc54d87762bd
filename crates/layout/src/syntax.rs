//! What sort of slip a TOML syntax error is.
//!
//! The parser tells its errors in English words only; this is the one place that knows them.
//! Must not know the keys of the format.

use std::ops::Range;

use crate::unclosed::{BLANK, is_in_key, is_value_word};

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
    /// The sort of slip that the parser means by its words about this stretch of the text, and
    /// where it is. `next` are its words about what it stumbles on behind.
    pub(crate) fn from_parser(
        says: &str,
        next: &str,
        span: Range<usize>,
        text: &str,
    ) -> (Self, Range<usize>) {
        match Self::key_behind_value(says, next, &span, text) {
            Some((fault, at)) => (fault, at..at),
            None => (Self::of(says, &span, text), span),
        }
    }

    fn of(says: &str, span: &Range<usize>, text: &str) -> Self {
        let has = |words: &str| says.contains(words);
        let found = text.get(span.clone()).unwrap_or_default();
        let before = text.get(..span.start).and_then(|before| before.rsplit('\n').next());
        let after = text.get(span.start..).unwrap_or_default();
        let is_word = is_word(found) && !before.unwrap_or_default().ends_with(is_in_number);
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
        } else if is_word && (has("boolean") || has("float")) {
            // By its first letter it might have been `true` or `inf`.
            Self::Unquoted
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

    /// A key behind a value and no comma or line's end between them, which the parser takes for
    /// one word; and where the key is.
    fn key_behind_value(
        says: &str,
        next: &str,
        span: &Range<usize>,
        text: &str,
    ) -> Option<(Self, usize)> {
        let fault = if next.contains("extra assignment") {
            Self::MissingComma
        } else if next.contains("unexpected key or value") {
            Self::ExtraText
        } else {
            return None;
        };
        let (value, key) = text.get(span.clone())?.split_once(BLANK)?;
        let key = key.trim_start_matches(BLANK);
        let behind = text.get(span.end..)?.trim_start_matches(BLANK);
        let is_value = is_value_word(value) || value.replace('_', "").parse::<f64>().is_ok();
        let is_key = key.chars().all(is_in_key) && behind.starts_with('=');
        (says.contains("must be quoted") && is_value && is_key)
            .then(|| (fault, span.end - key.len()))
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

/// Whether it is one word, and not one that stands for a value.
fn is_word(found: &str) -> bool {
    found.starts_with(char::is_alphabetic)
        && found.chars().all(|c| c.is_alphanumeric() || matches!(c, '_' | '-'))
        && !is_value_word(found)
}

/// Whether a number may go on behind this character.
fn is_in_number(c: char) -> bool {
    c == '+' || is_in_key(c)
}

/// The path in the header of a table, where `span` is its last key.
pub(crate) fn header_ending_in(span: &Range<usize>, text: &str) -> Option<Range<usize>> {
    let before = text.get(..span.start)?;
    let is_in_path = |c: char| is_in_key(c) || BLANK.contains(&c) || matches!(c, '"' | '\'');
    let brackets = before.trim_end_matches(is_in_path);
    let outside = brackets.strip_suffix('[')?;
    let outside = outside.strip_suffix('[').unwrap_or(outside).trim_end_matches(BLANK);
    let path = before.get(brackets.len()..)?.trim_start_matches(BLANK);
    (outside.is_empty() || outside.ends_with('\n')).then(|| span.start - path.len()..span.end)
}

/// Where the header next behind `offset` is, or the end of the text.
pub(crate) fn next_header(offset: usize, text: &str) -> usize {
    let mut at = offset;
    for line in text.get(offset..).unwrap_or_default().split_inclusive('\n') {
        if at > offset && line.trim_start_matches(BLANK).starts_with('[') {
            return at;
        }
        at += line.len();
    }
    text.len()
}

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
        let next = |at: usize| errors.get(at + 1).map_or("", toml::de::Error::message);
        let fault = |(at, error): (usize, &toml::de::Error)| {
            SyntaxFault::from_parser(error.message(), next(at), error.span().unwrap(), text).0
        };
        errors.iter().enumerate().map(fault).collect()
    }

    /// Where the reader finds what slips in a text, by the bytes that stand there.
    fn told(text: &str) -> Vec<(usize, SyntaxFault, String)> {
        let told = |problem: crate::Problem| match problem.kind {
            crate::ProblemKind::Syntax { fault, .. } => {
                Some((problem.place.from_byte, fault, problem.key))
            }
            _ => None,
        };
        crate::read(text).unwrap_err().into_iter().filter_map(told).collect()
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

    #[test]
    fn words_without_quotation_marks_are_no_numbers_and_no_flags() {
        use SyntaxFault::*;
        for word in [
            "idler",
            "injection_pump",
            "No",
            "nähe",
            "n2",
            "toothed",
            "tensioner",
            "false-start",
            "t",
            "other",
            "No 2",
        ] {
            for text in [format!("a = {word}"), format!("a = [{word}]"), format!("a={{b={word}}}")]
            {
                assert_eq!(faults(&text), [Unquoted], "{text:?}");
            }
        }
        for (value, fault) in [
            ("True", BadFlag),
            ("FALSE", BadFlag),
            ("NaN", BadNumber),
            ("Inf", BadNumber),
            ("-Inf", BadNumber),
            ("1.5mm", BadNumber),
            ("1e", BadNumber),
        ] {
            assert_eq!(faults(&format!("a = {value}\n")), [fault], "{value:?}");
        }
    }

    #[test]
    fn a_bracket_not_closed_is_told_once_where_it_is_opened() {
        use crate::sample::SLIDE;
        for (whole, open, mark) in [
            ("at_mm = [0, 200]", "at_mm = [0, 200", '['),
            ("at_mm = [-180.5, 310]", "at_mm = [\n  -180.5,\n  310\n", '['),
            ("at_mm = [90, 80]", "at_mm = [90, 80,", '['),
            ("on = \"tooth\" }", "on = \"tooth\"", '{'),
            ("on = \"tooth\" }", "on = \"tooth }", '"'),
            ("{ angle_deg = 90.0 }]", "{ angle_deg = 90.0 }", '['),
            ("{ angle_deg = 90.0 }]", "{ angle_deg = 90.0 ]", '{'),
            ("480, 600]", "480, 600", '['),
        ] {
            for line_end in ["\n", "\r\n"] {
                let text = SLIDE.replacen(whole, open, 1).replace('\n', line_end);
                let told = told(&text);
                assert_eq!(told.len(), 1, "{open:?}: {told:?}");
                assert_eq!(
                    (told[0].1, &text[told[0].0..][..1]),
                    (SyntaxFault::Unclosed, &*mark.to_string())
                );
                assert_eq!(crate::read(&text).unwrap_err().len(), 1, "{open:?}");
            }
        }
    }

    #[test]
    fn a_bracket_not_closed_hides_nothing_behind_it() {
        let text = crate::sample::SLIDE
            .replace("at_mm = [0.0, 0.0]", "at_mm = [0.0, 0.0")
            .replace("friction_n_m = 8.0", "friction_n_m = 8000")
            .replace("at_mm = [90, 80]", "at_mm = [90, 80")
            .replace("force_n = 350.0", "force_n = 350 N");
        let problems = crate::read(&text).unwrap_err();
        let told: Vec<_> = problems.iter().map(|p| (p.place.line, p.key.as_str())).collect();
        let keys = ["wheel[0]", "wheel[0].friction_n_m", "wheel[4]", "tensioner"];
        assert_eq!(told.iter().map(|(_, key)| *key).collect::<Vec<_>>(), keys);
        assert_eq!(told.iter().map(|(line, _)| *line).collect::<Vec<_>>(), [24, 26, 66, 74]);
    }

    #[test]
    fn a_key_behind_a_value_wants_a_comma_or_a_line_of_its_own() {
        use SyntaxFault::*;
        for (text, fault) in [
            ("a = { b = 0.0 on = 'x' }\n", MissingComma),
            ("a = { b = -1_0 \t on.x=2 }\n", MissingComma),
            ("a = {\n  b = 7 on = 2 }\n", MissingComma),
            ("a = { b = true on = 2 }\n", MissingComma),
            ("a = { b = 'x' on = 2 }\n", MissingComma),
            ("a = 1.5 on = 2\n", ExtraText),
        ] {
            let on = text.find("on").unwrap();
            assert_eq!(told(text).first(), Some(&(on, fault, String::new())), "{text:?}");
            assert_eq!(told(text).len(), 1, "{text:?}");
        }
        for (text, fault) in [
            ("a = { b = 5 mm }\n", BadNumber),
            ("a = { b = 5 mm, on = 2 }\n", BadNumber),
            ("a = { b = 5 mm on = 2 }\n", BadNumber),
            ("a = { b = groove on = 2 }\n", Unquoted),
        ] {
            assert_eq!(faults(text).first(), Some(&fault), "{text:?}");
        }
    }

    #[test]
    fn a_table_given_twice_is_told_once_by_its_own_name() {
        use crate::sample::SLIDE;
        for (behind, name, key, more) in [
            ("[belt]\nteeth = 160\npitch_mm = 8\n", "belt", "belt", 0),
            ("[ belt ] # again\nteeth = 160\ncolour = 3\n", "belt", "belt", 1),
            ("[[belt]]\nteeth = 160\n", "belt", "belt", 0),
            ("[[belt]]\nteeth = 160\nteeth = 8\n[engine]\n", "belt", "belt", 1),
            ("[wheel.mark]\non = \"groove\"\n", "mark", "wheel[4].mark", 0),
            ("[wheel]\nid = \"again\"\n", "wheel", "wheel", 0),
        ] {
            let wheel = "at_mm = [90, 80]\nmark = { on = \"tooth\", cover_clock_deg = 1 }\n";
            let text = SLIDE.replace("at_mm = [90, 80]\n", wheel) + "\n" + behind;
            let told = told(&text);
            let at = text.len() - behind.len() + behind.find(name).unwrap();
            assert_eq!(told[0], (at, SyntaxFault::RepeatedKey, key.to_owned()), "{behind:?}");
            assert_eq!(crate::read(&text).unwrap_err().len(), 1 + more, "{behind:?}");
        }
    }
}
