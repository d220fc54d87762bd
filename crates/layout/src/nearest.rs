//! The known word that somebody most likely meant.
//!
//! Must not know what the words are for.

/// Words longer than this are no slip of the fingers, and comparing them would take long.
const LONGEST: usize = 40;

/// The one of `known` that `found` is nearest to, or `None` where none is near enough: one slip in
/// every three letters, or one of them holds the other (`pitch` for `pitch_mm`).
/// Upper and lower case are the same here.
pub fn nearest<'k>(found: &str, known: impl Iterator<Item = &'k str>) -> Option<&'k str> {
    if found.len() > LONGEST {
        return None;
    }
    let found = found.to_lowercase().replace([' ', '-'], "_");
    let slips_allowed = (found.chars().count() / 3).max(1);
    known
        .filter_map(|word| {
            let slips = strsim::osa_distance(&found, word);
            let holds =
                found.len().min(word.len()) >= 4 && (word.contains(&found) || found.contains(word));
            (slips <= slips_allowed || holds).then_some((slips, word))
        })
        .min_by_key(|(slips, _)| *slips)
        .map(|(_, word)| word)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn near_enough_or_not() {
        let known = || ["teeth", "pitch_mm", "outside_diameter_mm", "id"].into_iter();
        assert_eq!(nearest("teeht", known()), Some("teeth"));
        assert_eq!(nearest("Teeth", known()), Some("teeth"));
        assert_eq!(nearest("pitch", known()), Some("pitch_mm"));
        assert_eq!(nearest("diameter_mm", known()), Some("outside_diameter_mm"));
        assert_eq!(nearest("ids", known()), Some("id"));
        assert_eq!(nearest("colour", known()), None);
        assert_eq!(nearest("", known()), None);
        assert_eq!(nearest(&"teeth".repeat(100), known()), None);
    }
}
