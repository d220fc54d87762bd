//! What can be wrong with a layout file, as plain figures and names.
//!
//! Must not know any language: there is no sentence here and no `Display`. Whoever tells a problem
//! matches on [`ProblemKind`].

use crate::key::{Bounds, Key, Kind, Unit};
use crate::place::Place;
use crate::plan::TravelUnit;
use crate::syntax::SyntaxFault;

/// One thing that is wrong, and where.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// What is wrong.
    pub kind: ProblemKind,
    /// Where to look. A missing key has the place of the table that it is missing from.
    pub place: Place,
    /// The path of the key, such as `wheel[3].teeth`, the wheels counted from 0; empty for the
    /// text as a whole. [`key_at`](crate::key_at) gives what the format says of it.
    pub key: String,
    /// The id of the wheel concerned, where there is one.
    pub part: Option<String>,
}

/// What is wrong. Text that was found is cut to 60 characters.
#[derive(Clone, Debug, PartialEq)]
pub enum ProblemKind {
    /// The text is too long to be a layout; nothing of it was read.
    TooLong {
        /// Bytes found.
        bytes: usize,
        /// Most bytes allowed.
        most: usize,
    },
    /// The file is from a later version of the format; nothing else of it was looked at.
    Newer {
        /// Its version.
        found: u32,
        /// The version that is read here.
        known: u32,
    },
    /// The bytes from here on are not UTF-8; nothing was read.
    NotUtf8,
    /// The text is not TOML here.
    Syntax {
        /// What sort of slip it is.
        fault: SyntaxFault,
        /// The TOML parser's own English words for it.
        parser_says: String,
    },
    /// The format has no such key here.
    UnknownKey {
        /// The key found.
        found: String,
        /// The key most likely meant, where one is near enough.
        nearest: Option<&'static str>,
        /// The keys that this table may have.
        allowed: &'static [Key],
    },
    /// A key that must be there is not. [`Problem::key`] is its path.
    MissingKey {
        /// The last step of that path.
        name: &'static str,
    },
    /// The key does not go with what a neighbouring key says.
    OutOfPlace {
        /// The neighbouring key.
        because: &'static str,
        /// What it says; `None` where it is not there.
        found: Option<String>,
        /// The words with which this key may be there.
        belongs_to: Vec<&'static str>,
    },
    /// Exactly one of these keys (at least one, if `more_allowed`) must be there.
    OneOf {
        /// The keys to choose from.
        keys: &'static [&'static str],
        /// Those that are there: none or too many.
        found: Vec<&'static str>,
        /// Whether several may be there.
        more_allowed: bool,
    },
    /// Something of another kind is wanted, such as a number and not text.
    WrongType {
        /// What was found.
        found: Found,
        /// What is wanted.
        wanted: Kind,
    },
    /// Figures of the engine that do not fit together.
    Engine {
        /// What is wrong.
        flaw: engine::Flaw,
    },
    /// A number outside its bounds.
    OutOfBounds {
        /// The number found.
        found: f64,
        /// What is allowed.
        bounds: Bounds,
    },
    /// A number that is none (`nan`) or has no end (`inf`, `1e999`).
    NotFinite {
        /// As written.
        found: String,
        /// What is allowed.
        bounds: Bounds,
    },
    /// A whole number is wanted.
    NotWhole {
        /// The number found.
        found: f64,
        /// What is allowed.
        bounds: Bounds,
    },
    /// None of the words allowed.
    NotAChoice {
        /// The word found.
        found: String,
        /// The word most likely meant, where one is near enough.
        nearest: Option<&'static str>,
        /// The words allowed.
        allowed: &'static [&'static str],
    },
    /// Too many or too few of something.
    WrongCount {
        /// Of what.
        of: Counted,
        /// How many were found.
        found: usize,
        /// Fewest allowed.
        fewest: usize,
        /// Most allowed.
        most: usize,
    },
    /// The first of two numbers must be below the second.
    NotInOrder {
        /// The first.
        low: f64,
        /// The second.
        high: f64,
        /// The unit of both.
        unit: Unit,
    },
    /// A number that does not go with another one of the file.
    Disagrees {
        /// The number found.
        found: f64,
        /// The least that the other allows.
        least: Option<f64>,
        /// The most that the other allows.
        most: Option<f64>,
        /// Whether `least` and `most` themselves are allowed.
        inclusive: bool,
        /// The unit of all three.
        unit: Unit,
        /// The path of the other key.
        set_by: String,
    },
    /// Two lists that go together entry by entry are not equally long.
    UnequalLists {
        /// Entries of this one.
        found: usize,
        /// Entries of the other.
        other: usize,
        /// The path of the other.
        other_key: String,
    },
    /// With the belt tight, the pointer of a sprung eccentric does not stand in its window.
    PointerOutside {
        /// Where it stands, degrees of travel.
        at_deg: f64,
        /// `[low, high]` of the window.
        window_deg: [f64; 2],
    },
    /// The drive that the file describes cannot be.
    Geometry {
        /// Why; wheels by index.
        flaw: drive::Flaw,
        /// What people call the wheels, by index.
        names: Vec<String>,
        /// The belt's pitch, mm: what a tooth is as a length.
        pitch_mm: f64,
        /// The unit of the tensioner's travel in the file.
        travel_unit: TravelUnit,
    },
    /// Not of the form `[a-z][a-z0-9_]*`, or longer than 40 characters.
    BadId {
        /// The id found.
        found: String,
    },
    /// A name that may be given once only.
    RepeatedId {
        /// The id found.
        found: String,
        /// The path of the key that gave it first.
        first: String,
    },
    /// No wheel of the file has this id.
    UnknownWheel {
        /// The id found.
        found: String,
        /// The id most likely meant, where one is near enough.
        nearest: Option<String>,
    },
    /// The wheel ([`Problem::part`]) is not fit for what is asked of it here.
    UnfitWheel {
        /// What it would have to be.
        needs: Need,
    },
    /// No wheel has the role `crank`.
    NoCrank,
    /// The last of a long list: so many more problems were found and are not told.
    More {
        /// How many.
        count: usize,
    },
}

/// What was found where something of another kind is wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Found {
    /// Text.
    Text(String),
    /// A number, as written.
    Number(String),
    /// `true` or `false`.
    Flag(bool),
    /// A date or a time of day.
    Date,
    /// A list of so many entries.
    List(usize),
    /// A table.
    Table,
}

/// What was counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Counted {
    /// Characters of a text.
    Characters,
    /// Entries of a list.
    Entries,
    /// Tables of a list of tables.
    Tables,
}

/// What a wheel would have to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Need {
    /// Toothed: given by `teeth`.
    Toothed,
    /// On the belt's toothed face: its back has no teeth to mesh.
    ToothedFace,
    /// One with a `mark`.
    Marked,
    /// One of this role.
    Role(&'static str),
    /// The first in the file: the crank comes first.
    First,
    /// Of another role than `crank`, of which there is one already.
    NotASecondCrank,
    /// Another wheel than the neighbouring key names.
    AnotherWheel,
}

/// `found`, cut to a length that can be shown: at most 60 characters and an ellipsis.
pub fn clipped(found: &str) -> String {
    const LONGEST: usize = 60;
    match found.char_indices().nth(LONGEST) {
        Some((end, _)) => found.get(..end).unwrap_or_default().to_owned() + "…",
        None => found.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_text_is_cut_between_characters() {
        assert_eq!(clipped("é"), "é");
        let long = clipped(&"é".repeat(1000));
        assert_eq!(long.chars().count(), 61);
        assert!(long.ends_with("é…"));
    }
}
