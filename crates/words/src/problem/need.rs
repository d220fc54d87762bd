//! Wheels that are not fit for what a file asks of them.
//!
//! Must not know: how a wheel was found unfit.

use super::place::Spot;
use super::quoted;
use crate::lang::Lang;
use layout::Need;

/// What the wheel `id` would have to be.
pub(super) fn unfit(lang: Lang, spot: &Spot<'_>, id: &str, needs: Need) -> String {
    let wheel = quoted(lang, id);
    let (key, last) = (spot.key(), spot.last());
    match (needs, lang) {
        (Need::Toothed, Lang::En) if last == "role" => {
            format!("{key} is for a toothed wheel: give it teeth in place of outside_diameter_mm.")
        }
        (Need::Toothed, Lang::De) if last == "role" => format!(
            "{key} passt nur zu einem verzahnten Rad: teeth angeben statt outside_diameter_mm."
        ),
        (Need::Toothed, Lang::En) => {
            format!("{key} is for a toothed wheel, one with teeth; this wheel is smooth.")
        }
        (Need::Toothed, Lang::De) => {
            format!("{key} passt nur zu einem verzahnten Rad mit teeth; dieses ist glatt.")
        }
        (Need::ToothedFace, Lang::En) => format!(
            "{key} must be “toothed”: the wheel has teeth, and the belt's back has none to mesh with them."
        ),
        (Need::ToothedFace, Lang::De) => format!(
            "{key} muss „toothed“ sein: Das Rad ist verzahnt, und der Riemenrücken hat keine Zähne, die eingreifen könnten."
        ),
        (Need::Marked, Lang::En) if spot.is_at_wheel() => {
            format!("{key} is missing; every other shaft is timed by the crank's mark.")
        }
        (Need::Marked, Lang::De) if spot.is_at_wheel() => format!(
            "{key} fehlt; nach der Markierung der Kurbelwelle richten sich alle anderen Wellen."
        ),
        (Need::Marked, Lang::En) => {
            format!("{key} is {wheel}, which has no mark; it must be a wheel with a mark.")
        }
        (Need::Marked, Lang::De) => {
            format!("{key} ist {wheel}, ein Rad ohne Markierung; es muss ein Rad mit mark sein.")
        }
        (Need::Role(role), Lang::En) => {
            format!("{key} is {wheel}; it must be a wheel whose role is {}.", quoted(lang, role))
        }
        (Need::Role(role), Lang::De) => {
            format!("{key} ist {wheel}; es muss ein Rad mit role {} sein.", quoted(lang, role))
        }
        (Need::First, Lang::En) => {
            format!("{key} is “crank”; the crank must be the first [[wheel]] in the file.")
        }
        (Need::First, Lang::De) => {
            format!("{key} ist „crank“; die Kurbelwelle muss das erste [[wheel]] der Datei sein.")
        }
        (Need::NotASecondCrank, Lang::En) => {
            format!("{key} is “crank”, and an earlier wheel is the crank; there can be only one.")
        }
        (Need::NotASecondCrank, Lang::De) => format!(
            "{key} ist „crank“, und ein früheres Rad ist die Kurbelwelle; es kann nur eine geben."
        ),
        (Need::AnotherWheel, Lang::En) => {
            format!("{key} is {wheel}, the same as from; it must be another wheel.")
        }
        (Need::AnotherWheel, Lang::De) => {
            format!("{key} ist {wheel}, dasselbe wie from; es muss ein anderes Rad sein.")
        }
    }
}
