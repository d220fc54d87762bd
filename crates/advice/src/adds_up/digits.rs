//! What a number may have been meant to be that was mistyped.
//!
//! Must not know: what it is a number of.

use super::slip::Mistyped;

/// The numbers that a slip of the fingers could have made into `number`: another sign, two neighbouring digits
/// the other way round, the point a place off, a hundred more or less.
pub(super) fn meant(number: f64) -> Vec<(Mistyped, f64)> {
    let mut all = Vec::new();
    if number != 0.0 {
        all.push((Mistyped::Sign, -number));
        all.push((Mistyped::Decimal, tidy(number / 10.0)));
        all.push((Mistyped::Decimal, tidy(number * 10.0)));
    }
    let sign = if number < 0.0 { -1.0 } else { 1.0 };
    all.push((Mistyped::Hundred, tidy(number - 100.0 * sign)));
    all.push((Mistyped::Hundred, tidy(number + 100.0 * sign)));
    all.extend(transposed(number).into_iter().map(|other| {
        // With a nought at the front in one of the two.
        let nought = digits_before_the_point(number) != digits_before_the_point(other);
        (if nought { Mistyped::Nought } else { Mistyped::Digits }, other)
    }));
    all
}

/// With two neighbouring digits the other way round, the point where it is.
fn transposed(number: f64) -> Vec<f64> {
    // With the nothings at either end that may have come to stand there.
    let sign = if number < 0.0 { "-" } else { "" };
    let text = format!("{sign}0{:?}", number.abs());
    let places: Vec<usize> =
        text.char_indices().filter(|(_, c)| c.is_ascii_digit()).map(|(i, _)| i).collect();
    let pairs = places.iter().zip(places.iter().skip(1));
    let with = |(a, b): (&usize, &usize)| {
        let mut bytes = text.clone().into_bytes();
        bytes.swap(*a, *b);
        String::from_utf8(bytes).ok()?.parse().ok().filter(|other| *other != number)
    };
    pairs.filter_map(with).collect()
}

fn digits_before_the_point(number: f64) -> usize {
    format!("{:.0}", libm::floor(number.abs())).len()
}

/// Without what doubles add in their last digits: a place of a wheel has four decimals at the most.
fn tidy(number: f64) -> f64 {
    libm::round(number * 1e4) / 1e4
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_fingers_do() {
        let meant = meant(-153.3);
        for (how, number) in [
            (Mistyped::Sign, 153.3),
            (Mistyped::Decimal, -15.33),
            (Mistyped::Decimal, -1533.0),
            (Mistyped::Hundred, -53.3),
            (Mistyped::Hundred, -253.3),
            (Mistyped::Digits, -513.3),
            (Mistyped::Digits, -135.3),
        ] {
            assert!(meant.contains(&(how, number)), "{how:?} {number}: {meant:?}");
        }
        assert!(
            self::meant(14.1).contains(&(Mistyped::Nought, 104.1)),
            "a nothing went to the front"
        );
        assert!(
            self::meant(334.0).contains(&(Mistyped::Digits, 330.4)),
            "a nothing went to the end"
        );
    }
}
