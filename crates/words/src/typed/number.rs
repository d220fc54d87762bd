//! A number as people write one, and what stands behind it.
//!
//! Must not know: units, bounds, sentences.

/// Why there is no number.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Misread {
    /// None begins the text.
    NoNumber,
    /// Its sign may part thousands or decimals.
    Thousands {
        /// With a decimal sign, a point.
        small: String,
        /// Without.
        large: String,
    },
}

/// A number at the beginning of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Number<'t> {
    /// The number.
    pub(super) x: f64,
    /// Whether it was written with a fraction.
    pub(super) has_fraction: bool,
    /// What stands behind it, without the blanks around.
    pub(super) rest: &'t str,
}

/// The number that begins `text`: `12,5 mm`, `-7/8`, `1 1/2"`, `1-1/2 in`, `½`, `400 000`, `1.234,5`.
/// `other` is the sign, point or comma, that is not the reader's own decimal sign.
pub(super) fn number(text: &str, other: char) -> Result<Number<'_>, Misread> {
    let text = text.trim();
    let (sign, after) = match text.strip_prefix(['-', '−', '–']) {
        Some(after) => (-1.0, after.trim_start()),
        None => (1.0, text.strip_prefix('+').unwrap_or(text).trim_start()),
    };
    let (x, has_fraction, rest) = unsigned(after, other)?;
    // Less than nothing is nothing: adding it to zero takes the sign off.
    Ok(Number { x: 0.0 + sign * x, has_fraction, rest: rest.trim() })
}

fn unsigned(text: &str, other: char) -> Result<(f64, bool, &str), Misread> {
    if let Some((x, rest)) = fraction(text) {
        return Ok((x, true, rest));
    }
    let (x, rest) = decimal(text, other)?;
    // A fraction behind a whole number belongs to it: one and a half.
    let joined = rest.trim_start();
    let joined = joined.strip_prefix('-').unwrap_or(joined).trim_start();
    match fraction(joined) {
        Some((part, rest)) if x.fract() == 0.0 && part < 1.0 => Ok((x + part, true, rest)),
        _ => Ok((x, false, rest)),
    }
}

fn decimal(text: &str, other: char) -> Result<(f64, &str), Misread> {
    let (point, rest) = match grouped(text) {
        Some(found) => found,
        None => plain(text, other)?,
    };
    let (power, rest) = exponent(rest);
    let x: f64 = format!("{point}{power}").parse().map_err(|_| Misread::NoNumber)?;
    if x.is_finite() { Ok((x, rest)) } else { Err(Misread::NoNumber) }
}

/// Digits with at most one decimal sign, written with a point, and the rest.
fn plain(text: &str, other: char) -> Result<(String, &str), Misread> {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',');
    let (digits, rest) = text.split_at(end.unwrap_or(text.len()));
    let signs = digits.matches(['.', ',']).count();
    if signs > 1 || !digits.contains(|c: char| c.is_ascii_digit()) {
        return Err(Misread::NoNumber);
    }
    let point = digits.replace(',', ".");
    if digits.contains(other)
        && let Some((before, after)) = point.split_once('.')
        && (after.len(), before != "0") == (3, true)
        && (1..=3).contains(&before.len())
    {
        let large = format!("{before}{after}");
        return Err(Misread::Thousands { small: point, large });
    }
    Ok((point, rest))
}

/// A number with its thousands parted in a way that can mean nothing else: by blanks, by apostrophes, twice by
/// the same sign, or by one sign and its decimals by the other.
fn grouped(text: &str) -> Option<(String, &str)> {
    let (head, _) = digits(text);
    let after = text.get(head.len()..)?;
    let sign = after.chars().next()?;
    let is_point = matches!(sign, '.' | ',');
    let is_blank = matches!(sign, ' ' | '\u{a0}' | '\u{2009}' | '\u{202f}' | '\'' | '’');
    if !(1..=3).contains(&head.len()) || !(is_point || is_blank) {
        return None;
    }
    let (mut whole, mut rest, mut groups) = (head.to_owned(), after, 0);
    while let Some((group, behind)) = rest.strip_prefix(sign).map(digits)
        && group.len() == 3
    {
        whole += group;
        (rest, groups) = (behind, groups + 1);
    }
    let decimals = match rest.chars().next() {
        Some(next @ ('.' | ',')) if next != sign => rest.get(1..).map(digits),
        _ => None,
    };
    let certain = groups > 1 || is_blank || decimals.is_some();
    let (point, rest) = match decimals {
        Some((decimals, rest)) => (format!("{whole}.{decimals}"), rest),
        None => (whole, rest),
    };
    // One more sign, or a fraction, and the groups are none.
    let broken = rest.starts_with(['.', ',']) || over(rest).is_some();
    (groups > 0 && certain && !broken).then_some((point, rest))
}

/// A power of ten at the beginning of `text`, such as `e-3`, and the rest.
fn exponent(text: &str) -> (&str, &str) {
    let Some(after) = text.strip_prefix(['e', 'E']) else { return ("", text) };
    let unsigned = after.strip_prefix(['+', '-']).unwrap_or(after);
    let (power, _) = digits(unsigned);
    if power.is_empty() {
        return ("", text);
    }
    text.split_at(text.len() - unsigned.len() + power.len())
}

fn fraction(text: &str) -> Option<(f64, &str)> {
    for (sign, x) in [
        ('½', 0.5),
        ('¼', 0.25),
        ('¾', 0.75),
        ('⅛', 0.125),
        ('⅜', 0.375),
        ('⅝', 0.625),
        ('⅞', 0.875),
    ] {
        if let Some(rest) = text.strip_prefix(sign) {
            return Some((x, rest));
        }
    }
    let (above, rest) = whole(text)?;
    let (below, rest) = whole(over(rest)?)?;
    (below > 0.0).then_some((above / below, rest))
}

/// What stands under the stroke of a fraction that begins `text`.
fn over(text: &str) -> Option<&str> {
    text.trim_start().strip_prefix(['/', '⁄']).map(str::trim_start)
}

fn whole(text: &str) -> Option<(f64, &str)> {
    let (digits, rest) = digits(text);
    if digits.is_empty() || digits.len() > 9 {
        return None;
    }
    Some((digits.parse().ok()?, rest))
}

/// The digits that begin `text`, and the rest.
fn digits(text: &str) -> (&str, &str) {
    text.split_at(text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Option<(f64, &str)> {
        number(text, ',').ok().map(|number| (number.x, number.rest))
    }

    #[test]
    fn numbers_and_what_is_behind_them() {
        for (text, x, rest) in [
            ("12.5", 12.5, ""),
            ("12,5 mm", 12.5, "mm"),
            (".5", 0.5, ""),
            ("5.", 5.0, ""),
            ("−95°", -95.0, "°"),
            ("– 95", -95.0, ""),
            ("+1e3N", 1000.0, "N"),
            ("2 ell", 2.0, "ell"),
            ("1.5E-3", 0.0015, ""),
            ("7/8", 0.875, ""),
            ("-7 / 8 in", -0.875, "in"),
            ("7⁄8\"", 0.875, "\""),
            ("1 1/2\"", 1.5, "\""),
            ("1-1/2 in", 1.5, "in"),
            ("1½", 1.5, ""),
            ("12 27/64", 12.421875, ""),
            ("1 125/1000", 1.125, ""),
            ("400 000", 400_000.0, ""),
            ("400\u{a0}000,5 N", 400_000.5, "N"),
            ("400'000", 400_000.0, ""),
            ("1.234.567", 1_234_567.0, ""),
            ("1,234,567.25", 1_234_567.25, ""),
            ("1,234.5", 1234.5, ""),
            ("1.234,5", 1234.5, ""),
            ("1.234", 1.234, ""),
            ("0,125", 0.125, ""),
            ("1234,567", 1234.567, ""),
            ("-0", 0.0, ""),
        ] {
            let found = read(text);
            assert_eq!(found, Some((x, rest)), "{text}");
            assert!(found.is_some_and(|(x, _)| x != 0.0 || x.is_sign_positive()), "{text}");
        }
    }

    #[test]
    fn no_number_is_made_up() {
        for text in
            ["", "-", "mm", ",", "1,2,3", "1.2.3", "1,23.4,5", "1,234.567,8", "1e999", "NaN"]
        {
            assert_eq!(number(text, ','), Err(Misread::NoNumber), "{text}");
        }
        let asked = Misread::Thousands { small: "1.234".into(), large: "1234".into() };
        assert_eq!(number("1,234 mm", ','), Err(asked.clone()));
        assert_eq!(number("-1.234", '.'), Err(asked));
        assert_eq!(read("1/0"), Some((1.0, "/0")));
        assert_eq!(read("1 3/2"), Some((1.0, "3/2")));
    }
}
