//! Checks a parsed document against the table of keys, each key by itself.
//!
//! Must not know any key by name; what goes across keys is for `rules`. The one exception is
//! `id`, by which a table's problems are told.

mod value;

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::findings::{Finding, Findings};
use crate::key::{Key, Kind, Presence};
use crate::nearest::nearest;
use crate::problem::{ProblemKind, clipped};
use crate::tree::{Entry, Node};
use value::is_id;

/// Walks a document. With `missing_too` false, keys that are not there are not missed: they may
/// have been lost to a syntax error.
pub(crate) struct Walk<'f, 't> {
    pub(crate) findings: &'f mut Findings<'t>,
    pub(crate) missing_too: bool,
}

/// The key that is being looked at.
struct At {
    span: Range<usize>,
    path: String,
    part: Option<String>,
}

impl Walk<'_, '_> {
    /// The whole document.
    pub(crate) fn document(&mut self, table: &DeTable<'_>, keys: &'static [Key]) -> Node {
        self.table(table, keys, At { span: 0..0, path: String::new(), part: None })
    }

    fn table(&mut self, table: &DeTable<'_>, keys: &'static [Key], at: At) -> Node {
        let has_id = keys.iter().any(|key| key.kind == Kind::Id);
        let id = if has_id { word(table, "id").filter(|id| is_id(id)) } else { None };
        let part = id.map(str::to_owned).or(at.part);
        let mut node = Node { span: at.span, path: at.path, part, entries: Vec::new() };
        let mut in_order: Vec<_> = table.iter().collect();
        in_order.sort_by_key(|(name, _)| name.span().start);
        for (name, value) in in_order {
            // What a syntax error left behind has no place of its own.
            let span = if value.span().is_empty() { name.span() } else { value.span() };
            match keys.iter().find(|key| key.name == name.get_ref()) {
                Some(key) => {
                    let path = node.path_of(key.name);
                    let at = At { span: span.clone(), path, part: node.part.clone() };
                    let content = self.value(value.get_ref(), &key.kind, at);
                    node.entries.push(Entry { name: key.name, span, content });
                }
                None => self.unknown(name.get_ref(), name.span(), keys, &node),
            }
        }
        for key in keys {
            self.presence(key, keys, &node);
        }
        node
    }

    fn unknown(&mut self, name: &str, span: Range<usize>, keys: &'static [Key], node: &Node) {
        self.findings.add(span, |span| Finding {
            kind: ProblemKind::UnknownKey {
                found: clipped(name),
                nearest: nearest(name, keys.iter().map(|key| key.name)),
                allowed: keys,
            },
            span,
            key: node.path_of(&clipped(name)),
            part: node.part.clone(),
        });
    }

    /// Whether a key is there where it must be, and not where it must not.
    fn presence(&mut self, key: &'static Key, keys: &'static [Key], node: &Node) {
        let must = match key.presence {
            Presence::Required => true,
            Presence::Optional => false,
            Presence::When { key: decider, required, optional } => {
                let word = node.text(decider);
                let required_itself =
                    |key: &Key| key.name == decider && key.presence == Presence::Required;
                if word.is_none() && (node.has(decider) || keys.iter().any(required_itself)) {
                    return; // It is wrong or missing itself, and that is told already.
                }
                let among = |words: &[&str]| word.is_some_and(|word| words.contains(&word));
                if node.has(key.name) && !among(required) && !among(optional) {
                    let kind = ProblemKind::OutOfPlace {
                        because: decider,
                        found: word.map(str::to_owned),
                        belongs_to: required.iter().chain(optional).copied().collect(),
                    };
                    node.tell(self.findings, key.name, kind);
                }
                among(required)
            }
        };
        if must && !node.has(key.name) && self.missing_too {
            node.tell(self.findings, key.name, ProblemKind::MissingKey { name: key.name });
        }
    }
}

fn word<'d>(table: &'d DeTable<'_>, name: &str) -> Option<&'d str> {
    table.get(name).and_then(|value: &Spanned<DeValue<'_>>| value.get_ref().as_str())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::key::key_at;
    use crate::keys::LAYOUT;
    use crate::sample::{all_kinds, one, told, told_of};

    #[test]
    fn unknown_keys_name_the_nearest() {
        let unknown = |found: &str, nearest, path| ProblemKind::UnknownKey {
            found: found.into(),
            nearest,
            allowed: key_at(LAYOUT, path).unwrap().keys(),
        };
        assert_eq!(
            told("width_mm = 25.4", "widht_mm = 25.4"),
            one(unknown("widht_mm", Some("width_mm"), "belt"), "13:1", "belt.widht_mm", "")
        );
        assert_eq!(
            told("friction_n_m = 8.0", "friction_n_m = 8.0\n  colour = 1"),
            one(unknown("colour", None, "wheel"), "27:3", "wheel[0].colour", "crank")
        );
        assert_eq!(
            told("by = \"pin\",", "by = \"pin\", bye = 1,"),
            one(unknown("bye", Some("by"), "wheel.lock"), "38:22", "wheel[1].lock.bye", "cam_left")
        );
        assert_eq!(told("[[caution]]", "[[cautoin]]").len(), 1);
    }

    #[test]
    fn missing_keys_are_missed_at_their_table() {
        assert_eq!(
            told("pitch_mm = 9.525", ""),
            one(ProblemKind::MissingKey { name: "pitch_mm" }, "7:1", "belt.pitch_mm", "")
        );
        assert_eq!(
            told("role = \"water_pump\"", ""),
            one(ProblemKind::MissingKey { name: "role" }, "42:1", "wheel[2].role", "pump")
        );
        assert_eq!(
            told(", locks = true", ""),
            one(
                ProblemKind::MissingKey { name: "locks" },
                "39:10",
                "wheel[1].phaser.locks",
                "cam_left"
            )
        );
        let nothing: Vec<_> =
            crate::read("").unwrap_err().into_iter().map(|problem| problem.key).collect();
        assert_eq!(nothing, ["format", "title", "crank_turns", "belt", "wheel", "tensioner"]);
    }

    #[test]
    fn keys_go_with_the_kind_of_tensioner() {
        assert_eq!(
            told("force_n = 350.0", "force_n = 350.0\nmoment_n_m = 3"),
            one(
                ProblemKind::OutOfPlace {
                    because: "kind",
                    found: Some("slide".into()),
                    belongs_to: vec!["arm", "sprung_eccentric"],
                },
                "75:14",
                "tensioner.moment_n_m",
                ""
            )
        );
        assert_eq!(
            told("force_n = 350.0", ""),
            one(ProblemKind::MissingKey { name: "force_n" }, "68:1", "tensioner.force_n", "")
        );
        assert_eq!(
            told("fixing = \"slotted\"", ""),
            one(
                ProblemKind::OutOfPlace {
                    because: "fixing",
                    found: None,
                    belongs_to: vec!["slotted"],
                },
                "37:12",
                "wheel[1].slot_deg",
                "cam_left"
            )
        );
        let [_, _, eccentric, sprung] = all_kinds();
        assert_eq!(told_of(&eccentric, "set_deg = 40\n", "").len(), 1);
        assert!(crate::read(&sprung.replace("set_deg = 40\n", "")).is_ok());
        // With a wrong kind, nothing is said of the keys that hang on it.
        assert_eq!(told("kind = \"slide\"", "kind = \"slid\"").len(), 1);
    }
}
