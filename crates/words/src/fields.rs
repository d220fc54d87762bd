//! What the keys of a layout file and the words behind them are called in a form, and what they mean.
//!
//! Must not know: values. The English meaning of a key stands in the layout's own table of keys.

mod choices;
mod keys;

use crate::lang::Lang;
use choices::CHOICES;
use keys::KEYS;
use layout::{Key, Kind};

/// The short name of the key that stands in a table called `above` (empty at the top).
///
/// ```
/// use words::{Lang, field_name};
/// let pitch = layout::key_at(layout::LAYOUT, "belt.pitch_mm").unwrap();
/// assert_eq!(field_name(Lang::De, "belt", pitch), "Teilung");
/// ```
pub fn field_name(lang: Lang, above: &str, key: &Key) -> &'static str {
    named(above, key).map_or(key.name, |(_, _, en, de, _)| lang.pick(en, de))
}

/// What the key means, in a sentence or two.
pub fn field_meaning(lang: Lang, above: &str, key: &Key) -> &'static str {
    named(above, key).map_or(key.about, |(_, _, _, _, de)| lang.pick(key.about, de))
}

/// A word that may stand behind `key`, as people say it; one that may not, as it is.
pub fn choice_name<'w>(lang: Lang, key: &Key, word: &'w str) -> &'w str {
    chosen(key, word).map_or(word, |(_, _, en, de, _, _)| lang.pick(en, de))
}

/// What the word means behind `key`, in a sentence; `None` for one that may not stand there.
pub fn choice_meaning(lang: Lang, key: &Key, word: &str) -> Option<&'static str> {
    chosen(key, word).map(|(_, _, _, _, en, de)| lang.pick(en, de))
}

/// Beside the name of a key that need not be there, whether it may stay empty; of some, exactly one must be
/// filled in.
pub fn field_optional(lang: Lang, above: &str, key: &Key) -> &'static str {
    match (above, key.name) {
        ("wheel", "teeth") => {
            lang.pick("this or the outside diameter", "dies oder der Außendurchmesser")
        }
        ("wheel", "outside_diameter_mm") => lang.pick("this or the teeth", "dies oder die Zähne"),
        ("fastener", "torque_n_m" | "torque_lbf_ft" | "torque_lbf_in") => {
            lang.pick("one torque, or stages", "ein Drehmoment oder Stufen")
        }
        ("stages", "torque_n_m" | "torque_lbf_ft" | "torque_lbf_in" | "angle_deg") => {
            lang.pick("one torque, or an angle", "ein Drehmoment oder ein Winkel")
        }
        _ => lang.pick("may stay empty", "darf leer bleiben"),
    }
}

/// The name of a button that puts one more into a list of tables; empty for any other key.
pub fn one_more(lang: Lang, key: &Key) -> &'static str {
    if !matches!(key.kind, Kind::Tables { .. }) {
        return "";
    }
    match key.name {
        "wheel" => lang.pick("Add a wheel", "Rad hinzufügen"),
        "count" => lang.pick("Add a count", "Zählung hinzufügen"),
        "camshaft" => lang.pick("Add a camshaft", "Nockenwelle hinzufügen"),
        "fastener" => lang.pick("Add a bolt or nut", "Schraube oder Mutter hinzufügen"),
        "stages" => lang.pick("Add a stage", "Stufe hinzufügen"),
        "caution" => lang.pick("Add a caution", "Warnung hinzufügen"),
        "other_marks" => lang.pick("Add a mark", "Markierung hinzufügen"),
        _ => "",
    }
}

/// What each of the two figures of a point or a pair is; `None` for any other key.
pub fn figure_names(lang: Lang, key: &Key) -> Option<[&'static str; 2]> {
    Some(match (key.kind, key.name) {
        (Kind::Point(_), _) => {
            [lang.pick("x, to the right", "x, nach rechts"), lang.pick("y, up", "y, nach oben")]
        }
        (Kind::Pair(_), "travel_mm" | "travel_deg") => {
            [lang.pick("right back", "ganz zurück"), lang.pick("fully out", "ganz vor")]
        }
        (Kind::Pair(_), "slot_deg") => [lang.pick("back", "zurück"), lang.pick("forward", "vor")],
        (Kind::Pair(_), "range_cam_deg") => {
            [lang.pick("latest", "spätestens"), lang.pick("earliest", "frühestens")]
        }
        (Kind::Pair(_), _) => [lang.pick("from", "von"), lang.pick("to", "bis")],
        _ => return None,
    })
}

fn named(above: &str, key: &Key) -> Option<&'static keys::Entry> {
    let called = |entry: &&keys::Entry| entry.1 == key.name;
    let here = KEYS.iter().filter(called).find(|entry| entry.0 == above);
    here.or_else(|| KEYS.iter().filter(called).find(|entry| entry.0.is_empty()))
}

fn chosen(key: &Key, word: &str) -> Option<&'static choices::Entry> {
    CHOICES.iter().find(|entry| entry.0 == key.name && entry.1 == word)
}

#[cfg(test)]
mod tests {
    use super::*;
    use layout::LAYOUT;
    use std::collections::{BTreeMap, BTreeSet};

    /// Every key with the name of the table that it stands in.
    fn every(
        keys: &'static [Key],
        above: &'static str,
        each: &mut impl FnMut(&'static str, &'static Key),
    ) {
        for key in keys {
            each(above, key);
            every(key.keys(), key.name, each);
        }
    }

    #[test]
    fn no_key_is_without_a_name_and_a_meaning() {
        let mut used = BTreeSet::new();
        let mut shared: BTreeMap<&str, &Key> = BTreeMap::new();
        every(LAYOUT, "", &mut |above, key| {
            let Some(entry) = named(above, key) else { panic!("{above}.{} has no name", key.name) };
            used.insert((entry.0, entry.1));
            // One entry for keys of several tables is right only where they are one and the same key.
            if entry.0.is_empty() {
                let first = shared.entry(key.name).or_insert(key);
                assert_eq!(*first, key, "{above}.{} needs a name of its own", key.name);
            }
        });
        for entry in KEYS {
            assert!(used.contains(&(entry.0, entry.1)), "{}.{} is no key", entry.0, entry.1);
        }
        assert_eq!(used.len(), KEYS.len(), "an entry is there twice");
    }

    #[test]
    fn no_word_is_without_a_name_and_a_meaning() {
        let mut used = BTreeSet::new();
        every(LAYOUT, "", &mut |_, key| {
            let Kind::Choice(words) = key.kind else { return };
            for word in words {
                let Some(entry) = chosen(key, word) else { panic!("{} = {word:?}", key.name) };
                used.insert((entry.0, entry.1));
            }
            // Nobody could choose between two that are called the same.
            for lang in Lang::ALL {
                let names: BTreeSet<_> = words.iter().map(|w| choice_name(lang, key, w)).collect();
                assert_eq!(names.len(), words.len(), "{} in {}", key.name, lang.code());
            }
        });
        for entry in CHOICES {
            assert!(used.contains(&(entry.0, entry.1)), "{} = {:?} is no word", entry.0, entry.1);
        }
        assert_eq!(used.len(), CHOICES.len(), "an entry is there twice");
    }

    #[test]
    fn names_are_short_and_meanings_are_sentences() {
        let name = |name: &str| {
            assert!((1..=34).contains(&name.chars().count()) && name.trim() == name, "{name}");
            assert!(!name.contains('_') && !name.ends_with('.'), "{name}");
        };
        let meaning = |meaning: &str, of: &str| {
            assert!(meaning.ends_with('.') && meaning.chars().count() > 5, "{of}: {meaning}");
            // Whoever fills in a form sees no names of keys.
            assert!(!meaning.contains('_') && !meaning.contains("  "), "{of}: {meaning}");
        };
        for lang in Lang::ALL {
            every(LAYOUT, "", &mut |above, key| {
                name(field_name(lang, above, key));
                meaning(field_meaning(lang, above, key), key.name);
                if let Kind::Choice(words) = key.kind {
                    for word in words {
                        name(choice_name(lang, key, word));
                        meaning(choice_meaning(lang, key, word).unwrap_or_default(), word);
                    }
                }
                let two = matches!(key.kind, Kind::Point(_) | Kind::Pair(_));
                let names = figure_names(lang, key);
                assert_eq!(names.is_some(), two, "{}", key.name);
                assert!(names.is_none_or(|[first, second]| first != second), "{}", key.name);
            });
        }
    }

    #[test]
    fn every_list_of_tables_says_of_what_one_more_is_added() {
        every(LAYOUT, "", &mut |_, key| {
            for lang in Lang::ALL {
                let list = matches!(key.kind, Kind::Tables { .. });
                assert_eq!(one_more(lang, key).is_empty(), !list, "{}", key.name);
            }
        });
    }

    /// Of keys that exclude one another none is said to stay empty as it likes.
    #[test]
    fn what_must_be_there_one_way_or_another_does_not_just_stay_empty() {
        every(LAYOUT, "", &mut |above, key| {
            let either = match above {
                "wheel" => matches!(key.name, "teeth" | "outside_diameter_mm"),
                "fastener" | "stages" => {
                    key.name.starts_with("torque") || (above, key.name) == ("stages", "angle_deg")
                }
                _ => false,
            };
            let says = field_optional(Lang::En, above, key);
            assert_eq!(says != "may stay empty", either, "{above}.{}", key.name);
        });
    }

    /// Within one table no two fields are called the same; the same torque in another unit says so.
    #[test]
    fn no_two_fields_of_a_table_are_called_the_same() {
        fn tables(
            keys: &'static [Key],
            above: &'static str,
            each: &mut impl FnMut(&'static str, &'static [Key]),
        ) {
            each(above, keys);
            for key in keys.iter().filter(|key| !key.keys().is_empty()) {
                tables(key.keys(), key.name, each);
            }
        }
        tables(LAYOUT, "", &mut |above, keys| {
            for (i, key) in keys.iter().enumerate() {
                for other in &keys[..i] {
                    // Keys of different kinds of tensioner never stand together.
                    let apart = key.presence != other.presence;
                    for lang in Lang::ALL {
                        let (a, b) = (field_name(lang, above, key), field_name(lang, above, other));
                        assert!(a != b || apart, "{above}: {} and {}", key.name, other.name);
                    }
                }
            }
        });
    }
}
