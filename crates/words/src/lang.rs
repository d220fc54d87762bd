//! The languages that the words come in, and what a person has chosen to read.
//!
//! Must not know: any sentence.

/// A language.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Lang {
    /// English.
    #[default]
    En,
    /// German.
    De,
}

impl Lang {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::En, Self::De];

    /// Its code as in a page's `lang` (BCP 47).
    pub const fn code(self) -> &'static str {
        match self {
            Self::En => "en",
            Self::De => "de",
        }
    }

    /// The language of a code such as `de-AT`; English for one that there is not.
    pub fn from_code(code: &str) -> Self {
        let main = code.split(['-', '_']).next().unwrap_or_default();
        Self::ALL
            .into_iter()
            .find(|lang| lang.code().eq_ignore_ascii_case(main))
            .unwrap_or_default()
    }

    /// The one of two texts that is in this language.
    pub const fn pick<'a>(self, en: &'a str, de: &'a str) -> &'a str {
        match self {
            Self::En => en,
            Self::De => de,
        }
    }
}

/// The units that lengths are shown in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Units {
    /// Millimetres.
    #[default]
    Metric,
    /// Inches.
    Inch,
}

/// How a person reads: language and units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Reader {
    /// The language.
    pub lang: Lang,
    /// The units of length.
    pub units: Units,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_with_a_region_are_known() {
        assert_eq!(Lang::from_code("de-AT"), Lang::De);
        assert_eq!(Lang::from_code("EN"), Lang::En);
        assert_eq!(Lang::from_code("xx"), Lang::En);
        assert_eq!(Lang::from_code(""), Lang::En);
    }
}
