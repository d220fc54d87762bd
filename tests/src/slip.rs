//! Random slips in the text of a layout file: a number changed a little or a lot, a word for another of
//! the file's words, lines lost, doubled or exchanged, wheels exchanged, two files spliced.
//!
//! Must not know: which of them leave a layout that can be opened.

use fastrand::Rng;

/// Words that may stand for one another, or nearly.
const WORDS: &[&[&str]] = &[
    &["\"toothed\"", "\"back\""],
    &["\"groove\"", "\"tooth\""],
    &["\"clockwise\"", "\"anticlockwise\""],
    &["\"slide\"", "\"arm\"", "\"eccentric\"", "\"sprung_eccentric\""],
    &["\"reference\"", "\"mark\""],
    &["\"crank\"", "\"camshaft\"", "\"idler\"", "\"tensioner\"", "\"water_pump\"", "\"other\""],
    &["\"cam\"", "\"cam_left\"", "\"cam_intake\"", "\"balance\"", "\"auxiliary\""],
    &["teeth = ", "outside_diameter_mm = "],
    &["pinned_mm", "pinned_deg", "set_deg"],
    &["travel_mm", "travel_deg", "pointer_window_deg"],
    &["pivot_mm", "bolt_mm", "at_mm"],
    &["[[wheel]]", "[[count]]", "[[caution]]", "[tensioner]", "[belt]"],
];

/// `text` with one to three slips; `other` is what it may be spliced with.
pub fn slipped(rng: &mut Rng, text: &str, other: &str) -> String {
    let mut text = text.to_owned();
    // Most often a single one: several seldom leave anything to open.
    for _ in 0..[1, 1, 1, 2, 3][rng.usize(..5)] {
        text = match rng.u8(..20) {
            0..=11 => number(rng, &text),
            12 | 13 => word(rng, &text),
            14 => blocks_exchanged(rng, &text),
            15 => block_from_other(rng, &text, other),
            16 => line_lost(rng, &text),
            17 => line_doubled(rng, &text),
            18 => lines_exchanged(rng, &text),
            _ => spliced(rng, &text, other),
        };
    }
    text
}

/// Where numbers stand, as byte ranges.
fn numbers(text: &str) -> Vec<(usize, usize)> {
    let bytes = text.as_bytes();
    let is_part = |b: u8| b.is_ascii_digit() || b == b'.' || b == b'-';
    let mut found = Vec::new();
    let mut at = 0;
    while at < bytes.len() {
        let before = at.checked_sub(1).map_or(b' ', |i| bytes[i]);
        let starts = matches!(before, b' ' | b'[') && is_part(bytes[at]);
        let end = at + bytes[at..].iter().take_while(|b| is_part(**b)).count();
        if starts && text[at..end].parse::<f64>().is_ok() {
            found.push((at, end));
        }
        at = end.max(at + 1);
    }
    found
}

fn number(rng: &mut Rng, text: &str) -> String {
    let places = numbers(text);
    let Some(&(from, to)) = places.get(rng.usize(..places.len().max(1))) else {
        return text.to_owned();
    };
    let old: f64 = text[from..to].parse().unwrap_or(0.0);
    let whole = !text[from..to].contains('.');
    let new = match rng.u8(..12) {
        0..=3 => old + (rng.f64() - 0.5) * 2.0,
        4..=6 => old + (rng.f64() - 0.5) * 30.0,
        7 => old * (0.5 + rng.f64()),
        8 => -old,
        9 => old * 10.0,
        10 => old / 10.0,
        _ => (rng.f64() - 0.5) * 2000.0,
    };
    let written = match (whole, rng.u8(..30)) {
        (_, 0) => ["nan", "inf", "-inf", "1e999", "0.0", "-0.0", "1e-300", "1e300"][rng.usize(..8)]
            .to_owned(),
        (true, 1..) => format!("{}", libm::round(new)),
        (false, 1..) => format!("{new:?}"),
    };
    format!("{}{written}{}", &text[..from], &text[to..])
}

fn word(rng: &mut Rng, text: &str) -> String {
    let set = WORDS[rng.usize(..WORDS.len())];
    let places: Vec<(usize, &str)> =
        set.iter().flat_map(|word| text.match_indices(*word)).collect();
    let Some(&(at, old)) = places.get(rng.usize(..places.len().max(1))) else {
        return text.to_owned();
    };
    let new = set[rng.usize(..set.len())];
    format!("{}{new}{}", &text[..at], &text[at + old.len()..])
}

fn blocks(text: &str) -> Vec<&str> {
    text.split("\n\n").collect()
}

fn blocks_exchanged(rng: &mut Rng, text: &str) -> String {
    let mut blocks = blocks(text);
    let n = blocks.len();
    blocks.swap(rng.usize(..n), rng.usize(..n));
    blocks.join("\n\n")
}

fn block_from_other(rng: &mut Rng, text: &str, other: &str) -> String {
    let mut mine = blocks(text);
    let theirs = blocks(other);
    let (at, from) = (rng.usize(..mine.len()), rng.usize(..theirs.len()));
    if rng.bool() {
        mine[at] = theirs[from];
    } else {
        mine.insert(at, theirs[from]);
    }
    mine.join("\n\n")
}

fn line_lost(rng: &mut Rng, text: &str) -> String {
    let mut lines: Vec<&str> = text.split('\n').collect();
    lines.remove(rng.usize(..lines.len()));
    lines.join("\n")
}

fn line_doubled(rng: &mut Rng, text: &str) -> String {
    let mut lines: Vec<&str> = text.split('\n').collect();
    let at = rng.usize(..lines.len());
    lines.insert(at, lines[at]);
    lines.join("\n")
}

fn lines_exchanged(rng: &mut Rng, text: &str) -> String {
    let mut lines: Vec<&str> = text.split('\n').collect();
    let n = lines.len();
    lines.swap(rng.usize(..n), rng.usize(..n));
    lines.join("\n")
}

fn spliced(rng: &mut Rng, text: &str, other: &str) -> String {
    let cut = |rng: &mut Rng, text: &str| {
        let ends: Vec<usize> = text.match_indices('\n').map(|(at, _)| at + 1).collect();
        ends.get(rng.usize(..ends.len().max(1))).copied().unwrap_or(0)
    };
    let (end, start) = (cut(rng, text), cut(rng, other));
    format!("{}{}", &text[..end], &other[start..])
}
