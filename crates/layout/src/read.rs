//! The way in: bytes or text to a [`Layout`], or every problem there is.
//!
//! Must not know any key by name. Whatever the bytes, reading neither panics nor takes long: the
//! text is bounded before it is parsed, and all later work is in proportion to it.

use std::ops::Range;

use toml::de::{DeTable, Error};

use crate::build;
use crate::document::Layout;
use crate::findings::{Finding, Findings};
use crate::keys::LAYOUT;
use crate::newer::newer;
use crate::place::Lines;
use crate::problem::{Problem, ProblemKind, clipped};
use crate::rules;
use crate::syntax::{SyntaxFault, header_ending_in, next_header};
use crate::tree::Node;
use crate::unclosed::{self, Unclosed};
use crate::walk::Walk;

/// Most bytes of a layout's text: several times the largest drive with every key and a page of
/// comments, and little enough that even a text made of errors is read within 100 ms.
pub const MOST_BYTES: usize = 64 * 1024;

/// Reads the TOML text of a layout.
///
/// # Errors
///
/// Every problem in the text, in its order, at most [`MOST_PROBLEMS`](crate::MOST_PROBLEMS) and
/// then one that says how many more there are; never none. Of a file from a newer format that alone. Where the text is not TOML, keys that
/// are missing and what goes across keys are left for the next reading, since they may only
/// follow from that.
pub fn read(text: &str) -> Result<Layout, Vec<Problem>> {
    if text.len() > MOST_BYTES {
        return Err(vec![too_long(text.len())]);
    }
    let lines = Lines::new(text);
    let mut findings = Findings::new(&lines);
    let rest;
    let (mut document, mut errors) = DeTable::parse_recoverable(text);
    let unclosed = if errors.is_empty() { Vec::new() } else { unclosed::unclosed(text) };
    if !unclosed.is_empty() {
        rest = unclosed::without(text, &unclosed);
        (document, errors) = DeTable::parse_recoverable(&rest);
        unclosed.iter().for_each(|unclosed| tell_unclosed(unclosed, text, &mut findings));
    }
    if let Some(newer) = newer(document.get_ref(), &lines) {
        return Err(vec![newer]);
    }
    let complete = syntax(errors, text, &mut findings) && unclosed.is_empty();
    let top = Walk { findings: &mut findings, missing_too: complete }
        .document(document.get_ref(), LAYOUT);
    if complete {
        rules::check(&top, &mut findings);
    }
    findings.iter_mut().for_each(|finding| name_table(finding, &top, text));
    if findings.is_empty() {
        match build::layout(&top, &lines) {
            Ok(layout) => return Ok(layout),
            Err(missing) => findings.add(missing.span.clone(), |_| *missing),
        }
    }
    Err(findings.into_problems())
}

/// Reads the bytes of a layout file.
///
/// # Errors
///
/// Those of [`read`], and [`ProblemKind::NotUtf8`] at the first byte that is not UTF-8.
pub fn read_bytes(bytes: &[u8]) -> Result<Layout, Vec<Problem>> {
    read(text(bytes)?)
}

/// The bytes of a layout file as text.
pub(crate) fn text(bytes: &[u8]) -> Result<&str, Vec<Problem>> {
    if bytes.len() > MOST_BYTES {
        return Err(vec![too_long(bytes.len())]);
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
        let text = String::from_utf8_lossy(good);
        let place = Lines::new(&text).place(&(text.len()..text.len()));
        vec![Problem { place, ..of_the_text(ProblemKind::NotUtf8) }]
    })
}

/// Tells the syntax errors. Gives whether the document is complete all the same.
fn syntax(mut errors: Vec<Error>, text: &str, findings: &mut Findings<'_>) -> bool {
    let span = |error: &Error| error.span().unwrap_or(text.len()..text.len());
    errors.sort_by_key(|error| span(error).start);
    let mut complete = true;
    // The table that is there already: of its keys, none is told again.
    let mut repeated = 0..0;
    for (at, error) in errors.iter().enumerate() {
        let span = span(error);
        if SyntaxFault::is_repeated_key(error.message()) {
            if repeated.contains(&span.start) {
                continue;
            }
            // A repeated key hides nothing: the first of its name was read. A table may.
            if header_ending_in(&span, text).is_some() {
                complete = false;
                repeated = span.start..next_header(span.start, text);
            }
        } else {
            complete = false;
        }
        findings.add_syntax(span, |span| {
            let parser_says = error.message().to_owned();
            let next = errors.get(at + 1).map_or("", Error::message);
            let (fault, span) = SyntaxFault::from_parser(&parser_says, next, span, text);
            of_syntax(fault, parser_says, span)
        });
    }
    complete
}

fn tell_unclosed(unclosed: &Unclosed, text: &str, findings: &mut Findings<'_>) {
    findings.add_syntax(unclosed.at..unclosed.at + 1, |span| {
        of_syntax(SyntaxFault::Unclosed, unclosed.parser_says(text).to_owned(), span)
    });
}

fn of_syntax(fault: SyntaxFault, parser_says: String, span: Range<usize>) -> Finding {
    let kind = ProblemKind::Syntax { fault, parser_says };
    Finding { kind, span, key: String::new(), part: None }
}

fn too_long(bytes: usize) -> Problem {
    of_the_text(ProblemKind::TooLong { bytes, most: MOST_BYTES })
}

fn of_the_text(kind: ProblemKind) -> Problem {
    Problem { kind, place: Default::default(), key: String::new(), part: None }
}

/// Gives a syntax error the key path of the table that it stands in, or of what it repeats.
fn name_table(finding: &mut Finding, top: &Node, text: &str) {
    let ProblemKind::Syntax { fault, .. } = finding.kind else { return };
    let span = finding.span.clone();
    let table = top.table_around(span.start, text);
    finding.part = table.part.clone();
    finding.key = table.path.clone();
    if fault != SyntaxFault::RepeatedKey {
        return;
    }
    let written = |span| text.get(span).map(clipped).unwrap_or_default();
    match header_ending_in(&span, text) {
        Some(_) if table.span.contains(&span.start) => {}
        Some(header) => (finding.key, finding.part) = (written(header), None),
        None => finding.key = table.path_of(&written(span)),
    }
}

#[cfg(test)]
mod tests {

    use super::*;
    use crate::findings::MOST_PROBLEMS;
    use crate::sample::{SLIDE, all_kinds, one, told};

    #[test]
    fn good_layouts_are_read() {
        for text in all_kinds() {
            let layout = read(&text).unwrap();
            assert_eq!(layout.wheels.len(), 5);
            assert_eq!(layout.wheels[layout.tensioner.wheel].id, "tensioner");
            assert_eq!(read(&text.replace('\n', "\r\n")).unwrap().wheels[1].id, "cam_left");
            assert_eq!(read_bytes(text.as_bytes()), Ok(layout));
        }
    }

    #[test]
    fn comments_and_order_are_irrelevant() {
        let plain = read(SLIDE).unwrap();
        let mut blocks: Vec<&str> = SLIDE.split("\n\n").collect();
        // The wheels stay in their order; all else goes the other way round.
        let top = blocks.remove(0);
        let wheels: Vec<_> = blocks.extract_if(.., |b| b.starts_with("[[wheel]]")).collect();
        let engine: Vec<_> = blocks.extract_if(.., |b| b.contains("engine")).collect();
        blocks.retain(|block| !block.starts_with("[[fastener]]"));
        blocks.reverse();
        let order: Vec<_> = [top].into_iter().chain(blocks).chain(wheels).chain(engine).collect();
        let text = "# first\n\n".to_owned() + &order.join("  # a comment = 1\n\n");
        let mut other = read(&text).unwrap();
        assert_ne!(other, plain);
        let values = |layout: &Layout| format!("{layout:?}").replace(char::is_numeric, "");
        other.places.clear();
        let mut plain = plain;
        plain.places.clear();
        assert_eq!(values(&other), values(&plain));
    }

    #[test]
    fn syntax_errors_are_told_together_and_spoil_only_their_lines() {
        let text = SLIDE
            .replace("teeth = 167", "teeth = ")
            .replace("width_mm = 25.4", "width_mm = 25,4")
            .replace("friction_n_m = 8.0", "friction_n_m = 8000")
            .replace("id = \"pump\"", "id = pump");
        let problems = read(&text).unwrap_err();
        let told: Vec<_> = problems
            .iter()
            .map(|p| (p.place.line, p.place.column, p.key.as_str(), p.part.as_deref()))
            .collect();
        assert_eq!(
            told,
            [
                (8, 9, "belt", None),
                (13, 14, "belt", None),
                (26, 16, "wheel[0].friction_n_m", Some("crank")),
                (43, 6, "wheel[2]", Some("pump")),
            ]
        );
        assert!(matches!(
            problems[1].kind,
            ProblemKind::Syntax { fault: SyntaxFault::DecimalComma, .. }
        ));
    }

    #[test]
    fn a_repeated_key_hides_nothing() {
        let kind = ProblemKind::Syntax {
            fault: SyntaxFault::RepeatedKey,
            parser_says: "duplicate key".into(),
        };
        let mut told = told("teeth = 24", "teeth = 24\nteeth = 25\nradius = 3");
        assert_eq!(told.len(), 2);
        told.truncate(1);
        assert_eq!(told, one(kind, "24:1", "wheel[0].teeth", "crank"));
    }

    #[test]
    fn bytes_that_are_no_text_and_texts_that_are_too_long() {
        let problems = read_bytes(b"format = 1\ntitle = '\xC3\xA4\xFF'").unwrap_err();
        assert_eq!(problems.len(), 1);
        assert_eq!(problems[0].kind, ProblemKind::NotUtf8);
        assert_eq!((problems[0].place.line, problems[0].place.column), (2, 11));

        let long = SLIDE.to_owned() + &"#".repeat(MOST_BYTES - SLIDE.len());
        assert!(read(&long).is_ok());
        let problems = read(&(long + "#")).unwrap_err();
        let kind = ProblemKind::TooLong { bytes: MOST_BYTES + 1, most: MOST_BYTES };
        assert_eq!(problems[0].kind, kind);
        assert_eq!(read_bytes(&vec![0xFF; MOST_BYTES + 1]).unwrap_err()[0].kind, kind);
    }

    #[test]
    fn a_long_list_ends_in_how_many_more() {
        let keys: String = (0..500).map(|n| format!("unknown_{n} = 1\n")).collect();
        let problems = read(&(keys + SLIDE)).unwrap_err();
        assert_eq!(problems.len(), MOST_PROBLEMS + 1);
        assert_eq!(problems[MOST_PROBLEMS].kind, ProblemKind::More { count: 400 });
        assert!(problems.is_sorted_by_key(|problem| problem.place.from_byte));
    }

    /// Reads it and looks at what comes out. How long it takes, `cargo xtask bench` says.
    fn survive(bytes: &[u8]) {
        let outcome = read_bytes(bytes);
        let Err(problems) = outcome else { return };
        assert!((1..=MOST_PROBLEMS + 1).contains(&problems.len()));
        for Problem { place, .. } in problems {
            assert!(place.line >= 1 && place.column >= 1);
            assert!(place.from_byte <= place.to_byte && place.to_byte <= bytes.len());
        }
    }

    #[test]
    fn lines_lost_doubled_and_exchanged() {
        for text in all_kinds() {
            let lines: Vec<&str> = text.lines().collect();
            for at in 0..lines.len() {
                let mut lost = lines.clone();
                lost.remove(at);
                survive(lost.join("\n").as_bytes());
                let mut doubled = lines.clone();
                doubled.insert(at, lines[at]);
                survive(doubled.join("\n").as_bytes());
                let mut exchanged = lines.clone();
                exchanged.swap(at, (at * 7 + 3) % lines.len());
                survive(exchanged.join("\n").as_bytes());
                survive(lines[..at].join("\n").as_bytes());
            }
        }
    }

    #[test]
    fn bytes_struck_at_random() {
        let mut random = fastrand::Rng::with_seed(20);
        let kinds = all_kinds();
        let telling = b"[]{}=\"'\\#.,\n\r\t 0-_ex\xC3\xA4\xFF\0";
        for _ in 0..6000 {
            let mut bytes = kinds[random.usize(..4)].clone().into_bytes();
            for _ in 0..random.usize(1..6) {
                let at = random.usize(..bytes.len());
                let byte = telling[random.usize(..telling.len())];
                match random.u8(..4) {
                    0 => bytes[at] = random.u8(..),
                    1 => bytes[at] = byte,
                    2 => bytes.insert(at, byte),
                    _ => drop(bytes.drain(at..(at + random.usize(..40)).min(bytes.len()))),
                }
            }
            survive(&bytes);
        }
    }

    #[test]
    fn texts_made_to_take_long() {
        for piece in [
            "=\n",
            "[",
            "{",
            "a\n",
            "\"",
            "a=",
            "a.",
            "a.a=1\n",
            "[[a]]\n",
            "[a]\n",
            "a=[",
            "a={a=",
            "\\",
            "\0",
            "é",
            ". ",
            "[[wheel]]\n",
            "a=\"\\q\\q\\q\\q\\q\"\n",
            "a={},",
            "1,",
            "'',",
            "[[engine.camshaft]]\n",
            "{id='a'},",
            "[[wheel.other_marks]]\n",
            "\r",
            "}\n",
            "a=[1\n",
            "a={b=1\n",
            "a={b=1\nb=[{c=2}]\n",
            "a=[\n[a]\n",
            "a={\nb='c\n",
            "[[a\n[a]\n",
            "[a]\na=1\n",
            "a=1 a=",
            "a=i",
            "a=1,",
        ] {
            for before in ["", "a=[", "wheel=[", "a=\"", "a={", "[[wheel]]\nat_mm=[", "[[wheel]]\n"]
            {
                let times = (MOST_BYTES - before.len()) / piece.len();
                survive((before.to_owned() + &piece.repeat(times)).as_bytes());
            }
        }
        let keys: String = (0..10_000).map(|n| format!("k{n}=1\n")).collect();
        survive(keys.as_bytes());
        survive(("[belt]\n".to_owned() + &keys).as_bytes());
        let counts = "{from='a',to='b',teeth=1,counted_from='mark'},".repeat(2000);
        survive(format!("count=[{counts}]").as_bytes());
    }
}
