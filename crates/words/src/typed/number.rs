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
        /// With a decimal sign.
        small: String,
        /// Without.
        large: String,
    },
}

/// The number that begins `text`, and the rest of it without the blanks around it: `12,5 mm`, `-7/8`,
/// `1 1/2"`, `1-1/2 in`, `½`. `other` is the sign that is not the reader's own decimal sign.
pub(super) fn number(text: &str, other: char) -> Result<(f64, &str), Misread> {
    let text = text.trim();
    let (sign, after) = match text.strip_prefix(['-', '−']) {
        Some(after) => (-1.0, after.trim_start()),
        None => (1.0, text.strip_prefix('+').unwrap_or(text).trim_start()),
    };
    if let Some((x, rest)) = fraction(after) {
        return Ok((sign * x, rest.trim()));
    }
    let (x, rest) = decimal(after, other)?;
    // A fraction behind a whole number belongs to it: one and a half.
    let joined = rest.strip_prefix('-').unwrap_or(rest).trim_start();
    if x.fract() == 0.0
        && let Some((part, rest)) = fraction(joined)
        && part < 1.0
    {
        return Ok((sign * (x + part), rest.trim()));
    }
    Ok((sign * x, rest.trim()))
}

fn decimal(text: &str, other: char) -> Result<(f64, &str), Misread> {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',');
    let (digits, rest) = text.split_at(end.unwrap_or(text.len()));
    let signs = digits.matches(['.', ',']).count();
    if digits.is_empty() || signs > 1 || !digits.contains(|c: char| c.is_ascii_digit()) {
        return Err(Misread::NoNumber);
    }
    let point = digits.replace(',', ".");
    if let Some((before, after)) = point.split_once('.')
        && after.len() == 3
        && (1..=3).contains(&before.len())
        && before != "0"
        && digits.contains(other)
    {
        return Err(Misread::Thousands { small: point.clone(), large: format!("{before}{after}") });
    }
    let (power, rest) = exponent(rest);
    let x: f64 = format!("{point}{power}").parse().map_err(|_| Misread::NoNumber)?;
    if x.is_finite() { Ok((x, rest)) } else { Err(Misread::NoNumber) }
}

/// A power of ten at the beginning of `text`, such as `e-3`, and the rest.
fn exponent(text: &str) -> (&str, &str) {
    let Some(after) = text.strip_prefix(['e', 'E']) else { return ("", text) };
    let unsigned = after.strip_prefix(['+', '-']).unwrap_or(after);
    let digits = unsigned.chars().take_while(char::is_ascii_digit).count();
    if digits == 0 {
        return ("", text);
    }
    text.split_at(text.len() - unsigned.len() + digits)
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
    let (below, rest) = whole(rest.trim_start().strip_prefix('/')?.trim_start())?;
    (below > 0.0).then_some((above / below, rest))
}

fn whole(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let (digits, rest) = text.split_at(end);
    if digits.is_empty() || digits.len() > 9 {
        return None;
    }
    Some((digits.parse().ok()?, rest))
}
