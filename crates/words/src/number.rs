//! Numbers and quantities as text: never bare, never finer than they are known, the same wherever they
//! are shown or spoken.
//!
//! Must not know: what a number is of.

use crate::lang::{Lang, Reader, Units};

/// Millimetres in an inch, exactly (NIST SP 811).
const MM_PER_INCH: f64 = 25.4;

/// A no-break space: a number and its unit stay together.
pub(crate) const NBSP: char = '\u{a0}';

impl Lang {
    /// `x` with `places` decimals, a true minus sign, and this language's decimal sign. Minus zero is
    /// zero.
    ///
    /// ```
    /// use words::Lang;
    /// assert_eq!(Lang::En.number(-7.46, 1), "−7.5");
    /// assert_eq!(Lang::De.number(-0.04, 1), "0,0");
    /// ```
    pub fn number(self, x: f64, places: usize) -> String {
        let text = format!("{:.*}", places, x.abs());
        let zero = text.bytes().all(|b| b == b'0' || b == b'.');
        let text = match self {
            Self::En => text,
            Self::De => text.replace('.', ","),
        };
        if x < 0.0 && !zero { format!("−{text}") } else { text }
    }

    /// As [`Lang::number`], without decimals that are only zeros: `7.5`, `15`.
    pub fn short_number(self, x: f64, places: usize) -> String {
        let text = self.number(x, places);
        if places == 0 {
            return text;
        }
        let cut = text.trim_end_matches('0').trim_end_matches(['.', ',']);
        cut.to_owned()
    }

    /// A signed quantity always with its sign, zero without.
    pub fn signed(self, x: f64, places: usize) -> String {
        let text = self.number(x, places);
        let zero = text.bytes().all(|b| b == b'0' || b == b'.' || b == b',');
        if x > 0.0 && !zero { format!("+{text}") } else { text }
    }

    /// `x` in as few digits as tell it from every other number, as somebody would have typed it:
    /// `9.525`, `−12`; powers of ten only where it is very large or very small.
    pub fn exact(self, x: f64) -> String {
        let size = x.abs();
        let plain = size == 0.0 || !size.is_finite() || (1e-4..1e9).contains(&size);
        let text = if plain { format!("{size}") } else { format!("{size:e}") };
        let text = match self {
            Self::En => text.replace('-', "−"),
            Self::De => text.replace('-', "−").replace('.', ","),
        };
        if x < 0.0 { format!("−{text}") } else { text }
    }

    /// `x` to a tenth; where that would be nothing, to its first digit.
    pub fn tenths(self, x: f64) -> String {
        let zero = |places: usize| self.number(x, places) == self.number(0.0, places);
        let places = (1..12).find(|places| !zero(*places)).unwrap_or(1);
        self.number(x, places)
    }

    /// Degrees, `7.5°`; trailing zeros left out.
    pub fn degrees(self, deg: f64) -> String {
        format!("{}°", self.short_number(deg, 1))
    }

    /// Degrees to a tenth; below one to the first digit that is not a zero, but no finer than a
    /// hundredth: `0.04°`.
    pub fn fine_degrees(self, deg: f64) -> String {
        let places = if deg.abs() < 0.1 { 2 } else { 1 };
        format!("{}°", self.short_number(deg, places))
    }

    /// Teeth: `1 tooth`, `2.2 teeth`.
    pub fn teeth(self, teeth: f64, places: usize) -> String {
        let number = self.short_number(teeth, places);
        let one = number == "1" || number == "−1";
        let unit = match (self, one) {
            (Self::En, true) => "tooth",
            (Self::En, false) => "teeth",
            (Self::De, true) => "Zahn",
            (Self::De, false) => "Zähne",
        };
        format!("{number}{NBSP}{unit}")
    }

    /// The same in the dative that `mit`, `bei` and `ab` take: `mit 47 Zähnen`.
    pub fn teeth_dative(self, teeth: f64, places: usize) -> String {
        let told = self.teeth(teeth, places);
        match self {
            Self::De if told.ends_with("Zähne") => told + "n",
            _ => told,
        }
    }

    /// Teeth that a mark is off, to a tenth, below half a tooth to a hundredth, so that what is nearly alike
    /// reads so: `0.13 of a tooth`, `0.6 of a tooth`, `1.1 teeth`.
    pub fn teeth_off(self, teeth: f64) -> String {
        if teeth >= 0.95 {
            return self.teeth(teeth, 1);
        }
        let number = self.short_number(teeth, if teeth < 0.495 { 2 } else { 1 });
        match self {
            Self::En => format!("{number} of a tooth"),
            Self::De => format!("{number}{NBSP}Zahn"),
        }
    }

    /// A share as per cent, to a whole one; far beyond whole as `over 999 %`.
    pub fn percent(self, share: f64) -> String {
        let number = self.number(share.min(9.99) * 100.0, 0);
        if share > 9.99 {
            return format!("{} {number}{NBSP}%", self.pick("over", "über"));
        }
        format!("{number}{NBSP}%")
    }

    /// An estimated force, to two digits: `230 N`, `4.1 N`.
    pub fn newtons(self, n: f64) -> String {
        format!("{}{NBSP}N", self.two_digits(n))
    }

    /// An estimated moment, to two digits: `17 N·m`.
    pub fn newton_metres(self, n_m: f64) -> String {
        format!("{}{NBSP}N·m", self.two_digits(n_m))
    }

    /// Estimated heat, to two digits: `180 W`, from a kilowatt on `1.9 kW`.
    pub fn watts(self, w: f64) -> String {
        if w.abs() < 995.0 {
            return format!("{}{NBSP}W", self.two_digits(w));
        }
        format!("{}{NBSP}kW", self.two_digits(w / 1000.0))
    }

    /// An estimate to two digits, no finer than a hundredth: `1200`, `48`, `0.37`.
    pub fn two_digits(self, x: f64) -> String {
        let (unit, places) = second_digit(x);
        self.short_number((x / unit).round() * unit, places)
    }

    /// A range of estimates, each end `told` to two digits, rounded outward so that it holds what it held.
    pub fn estimates(self, [low, high]: [f64; 2], told: impl Fn(f64) -> String) -> String {
        if low == high {
            return told(low);
        }
        let [of_low, of_high] = [second_digit(low).0, second_digit(high).0];
        self.range([(low / of_low).floor() * of_low, (high / of_high).ceil() * of_high], told)
    }

    /// A range in words, each end as `told`: `90 N to 310 N`; where both read alike, that once.
    pub fn range(self, [low, high]: [f64; 2], told: impl Fn(f64) -> String) -> String {
        let (low, high) = (told(low), told(high));
        if low == high { low } else { format!("{low} {} {high}", self.pick("to", "bis")) }
    }

    /// Whole turns: `1 turn`, `173 turns`.
    pub fn turns(self, turns: u64) -> String {
        let unit = match (self, turns == 1) {
            (Self::En, true) => "turn",
            (Self::En, false) => "turns",
            (Self::De, true) => "Umdrehung",
            (Self::De, false) => "Umdrehungen",
        };
        format!("{turns}{NBSP}{unit}")
    }
}

/// What the second digit of a number counts, no less than a hundredth, and its decimal places.
fn second_digit(x: f64) -> (f64, usize) {
    let (mut unit, mut places) = (0.01, 2_usize);
    while x.abs() / unit >= 99.5 {
        unit *= 10.0;
        places = places.saturating_sub(1);
    }
    (unit, places)
}

impl Reader {
    /// A length as a number in the reader's unit, for an axis that names the unit.
    pub fn in_unit(self, mm: f64) -> f64 {
        match self.units {
            Units::Metric => mm,
            Units::Inch => mm / MM_PER_INCH,
        }
    }

    /// The reader's unit of length, `mm` or `in`.
    pub const fn unit(self) -> &'static str {
        match self.units {
            Units::Metric => "mm",
            Units::Inch => "in",
        }
    }

    /// A small length in the reader's unit, to a hundredth of a millimetre or a thousandth of an inch.
    pub fn fine_length(self, mm: f64) -> String {
        let places = match self.units {
            Units::Metric => 2,
            Units::Inch => 3,
        };
        format!("{}{NBSP}{}", self.lang.number(self.in_unit(mm), places), self.unit())
    }

    /// A small length that is estimated, in the reader's unit, to two digits.
    pub fn estimated_length(self, mm: f64) -> String {
        match self.units {
            Units::Metric => format!("{}{NBSP}mm", self.lang.two_digits(mm)),
            Units::Inch => self.fine_length(mm),
        }
    }

    /// A length in the reader's unit, to a tenth of a millimetre or a hundredth of an inch.
    pub fn length(self, mm: f64) -> String {
        match self.units {
            Units::Metric => format!("{}{NBSP}mm", self.lang.number(mm, 1)),
            Units::Inch => format!("{}{NBSP}in", self.lang.number(mm / MM_PER_INCH, 2)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_in_both_languages() {
        assert_eq!(Lang::En.number(1234.56, 1), "1234.6");
        assert_eq!(Lang::De.number(1234.56, 1), "1234,6");
        assert_eq!(Lang::En.short_number(15.0, 1), "15");
        assert_eq!(Lang::En.short_number(100.0, 0), "100");
        assert_eq!(Lang::En.signed(0.04, 1), "0.0");
        assert_eq!(Lang::De.signed(0.14, 1), "+0,1");
        assert_eq!(Lang::De.exact(-9.525), "−9,525");
        assert_eq!(Lang::En.exact(-0.0), "0");
        assert_eq!(Lang::En.exact(4.0e8), "400000000");
        assert_eq!(Lang::En.exact(1.5e-7), "1.5e−7");
        assert_eq!(Lang::En.tenths(4.06), "4.1");
        assert_eq!(Lang::En.tenths(-0.0031), "−0.003");
        assert_eq!(Lang::En.tenths(0.0), "0.0");
    }

    #[test]
    fn estimates_have_two_digits_and_ranges_hold_what_they_held() {
        let plain = |text: String| text.replace('\u{a0}', " ");
        let newtons = |n| plain(Lang::En.newtons(n));
        let told = [232.4, 999.0, 99.6, 17.2, 4.08, 0.0, 1234.0].map(newtons);
        assert_eq!(told, ["230 N", "1000 N", "100 N", "17 N", "4.1 N", "0 N", "1200 N"]);
        assert_eq!(plain(Lang::De.watts(1871.0)), "1,9 kW");
        assert_eq!(plain(Lang::En.watts(997.0)), "1 kW");
        let range = |ends| plain(Lang::En.estimates(ends, |n| Lang::En.newtons(n)));
        assert_eq!(range([93.7, 311.0]), "93 N to 320 N");
        assert_eq!(range([234.0, 234.0]), "230 N");
        assert_eq!(range([120.0, 350.0]), "120 N to 350 N");
        // 1° and 1.1° of a wheel of 48 teeth: not 0.1 beside 0.2.
        let off = [1.0, 1.125].map(|deg| plain(Lang::En.teeth_off(deg / 7.5)));
        assert_eq!(off, ["0.13 of a tooth", "0.15 of a tooth"]);
    }

    #[test]
    fn quantities_have_their_unit_and_its_number() {
        assert_eq!(Lang::En.teeth(1.0, 1), "1\u{a0}tooth");
        assert_eq!(Lang::En.teeth(0.0, 1), "0\u{a0}teeth");
        assert_eq!(Lang::De.teeth(-1.0, 1), "−1\u{a0}Zahn");
        assert_eq!(Lang::De.teeth_dative(47.0, 0), "47\u{a0}Zähnen");
        assert_eq!(Lang::De.teeth_dative(1.0, 0), "1\u{a0}Zahn");
        assert_eq!(Lang::En.teeth_dative(47.0, 0), "47\u{a0}teeth");
        assert_eq!(Lang::En.degrees(7.5), "7.5°");
        let reader = |units| Reader { lang: Lang::En, units };
        assert_eq!(reader(Units::Metric).length(21.04), "21.0\u{a0}mm");
        assert_eq!(reader(Units::Inch).length(25.4), "1.00\u{a0}in");
    }
}
