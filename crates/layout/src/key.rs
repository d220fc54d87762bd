//! What can be said of a key of the layout file: its name, its kind, its bounds.
//!
//! Must not know which keys there are (that is `keys`) nor how a file is read.

/// One key of one table.
#[derive(Debug, PartialEq)]
pub struct Key {
    /// Its name in the file, unit included.
    pub name: &'static str,
    /// What may stand behind the equals sign.
    pub kind: Kind,
    /// Whether it must be there.
    pub presence: Presence,
    /// What it is, in one plain English sentence.
    pub about: &'static str,
}

/// What may stand behind a key.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// Text of 1 to `longest` characters.
    Text {
        /// Most characters.
        longest: usize,
    },
    /// The name by which other tables call this one: `[a-z][a-z0-9_]*`, at most 40 characters.
    Id,
    /// The id of a wheel in the same file.
    WheelId,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A whole number; `24.0` counts as one.
    Whole(Bounds),
    /// A number; a whole one will do.
    Number(Bounds),
    /// `[x, y]`, each within the bounds; x to the right and y up, seen at the belt end.
    Point(Bounds),
    /// `[low, high]`, each within the bounds, low below high.
    Pair(Bounds),
    /// A list of numbers, each within the bounds.
    List {
        /// Bounds of each entry.
        each: Bounds,
        /// Whether each entry must be a whole number.
        whole: bool,
        /// Fewest entries.
        fewest: usize,
        /// Most entries.
        most: usize,
    },
    /// `true` or `false`.
    Flag,
    /// A table, `[name]` or `name = { … }`.
    Table(&'static [Key]),
    /// A list of tables, `[[name]]` or `name = [{ … }]`.
    Tables {
        /// The keys of each.
        keys: &'static [Key],
        /// Fewest tables.
        fewest: usize,
        /// Most tables.
        most: usize,
    },
}

/// Least and most, both allowed, and the unit they are in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// The least allowed.
    pub least: f64,
    /// The most allowed.
    pub most: f64,
    /// The unit of both.
    pub unit: Unit,
}

impl Bounds {
    /// Whether `number` lies within; never for a NaN.
    pub fn allow(&self, number: f64) -> bool {
        self.least <= number && number <= self.most
    }
}

/// The unit of a number in the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// A bare number, such as a ratio or a version.
    Bare,
    /// Millimetres.
    Millimetres,
    /// Degrees: clock degrees where the key says so, else of the part that the key names.
    Degrees,
    /// Teeth of a belt or a wheel.
    Teeth,
    /// Turns of the crankshaft.
    CrankTurns,
    /// Newtons.
    Newtons,
    /// Newtons to the millimetre.
    NewtonsPerMillimetre,
    /// Newton metres.
    NewtonMetres,
    /// Pounds-force feet.
    PoundForceFeet,
    /// Pounds-force inches.
    PoundForceInches,
    /// Kilograms to the metre.
    KilogramsPerMetre,
}

/// Whether a key must be there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Presence {
    /// Always.
    Required,
    /// It may be left out.
    Optional,
    /// It depends on what a neighbouring key says.
    When {
        /// The neighbouring key, a [`Kind::Choice`].
        key: &'static str,
        /// The words with which it must be there.
        required: &'static [&'static str],
        /// The words with which it may be there. With any other word it must not.
        optional: &'static [&'static str],
    },
}

impl Key {
    /// A key that must be there.
    pub(crate) const fn required(name: &'static str, kind: Kind, about: &'static str) -> Self {
        Self { name, kind, presence: Presence::Required, about }
    }

    /// A key that may be left out.
    pub(crate) const fn optional(name: &'static str, kind: Kind, about: &'static str) -> Self {
        Self { name, kind, presence: Presence::Optional, about }
    }

    /// The keys below it, where it is a table or a list of tables.
    pub fn keys(&self) -> &'static [Key] {
        match self.kind {
            Kind::Table(keys) | Kind::Tables { keys, .. } => keys,
            _ => &[],
        }
    }
}

pub(crate) const fn bare(least: f64, most: f64) -> Bounds {
    Bounds { least, most, unit: Unit::Bare }
}

pub(crate) const fn mm(least: f64, most: f64) -> Bounds {
    Bounds { least, most, unit: Unit::Millimetres }
}

pub(crate) const fn deg(least: f64, most: f64) -> Bounds {
    Bounds { least, most, unit: Unit::Degrees }
}

pub(crate) const fn teeth(least: f64, most: f64) -> Bounds {
    Bounds { least, most, unit: Unit::Teeth }
}

pub(crate) const fn newton_metres(least: f64, most: f64) -> Bounds {
    Bounds { least, most, unit: Unit::NewtonMetres }
}

/// The key that a path names (`wheel[3].teeth`, `wheel.cam_left.teeth`, `engine.bore_mm`), or
/// `None` where the format has no such key. An entry of a list (`wheel[3].at_mm[0]`) gives the
/// list's key.
pub fn key_at(keys: &'static [Key], path: &str) -> Option<&'static Key> {
    let mut keys = keys;
    let mut found: Option<&'static Key> = None;
    let mut id_may_follow = false;
    for step in path.split('.') {
        let name = step.split('[').next().unwrap_or(step);
        match keys.iter().find(|key| key.name == name) {
            Some(key) => {
                keys = key.keys();
                found = Some(key);
                id_may_follow = matches!(key.kind, Kind::Tables { .. }) && name == step;
            }
            None if id_may_follow => id_may_follow = false,
            None => return None,
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::LAYOUT;

    #[test]
    fn paths_find_their_keys() {
        let name = |path| key_at(LAYOUT, path).map(|key| key.name);
        assert_eq!(name("wheel[3].teeth"), Some("teeth"));
        assert_eq!(name("wheel.cam_left.teeth"), Some("teeth"));
        assert_eq!(name("wheel[3].at_mm[0]"), Some("at_mm"));
        assert_eq!(name("engine.camshaft[0].intake.law"), Some("law"));
        assert_eq!(name("wheel.cam_left"), Some("wheel"));
        assert_eq!(name("belt.cam_left"), None);
        assert_eq!(name("wheel.cam_left.colour"), None);
        assert_eq!(name("wheel[3].colour"), None);
        assert_eq!(name(""), None);
    }
}
