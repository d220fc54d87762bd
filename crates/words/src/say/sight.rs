//! A mark looked at from the side, in words.
//!
//! Must not know: how the shift was found.

use crate::lang::{Lang, Reader};
use crate::say::off;
use advice::{Sight, SightedMark};

/// From where marks are looked at, and what that does.
pub fn sight_sentence(reader: Reader, sight: &Sight) -> String {
    let lang = reader.lang;
    if sight.aside_deg == 0.0 {
        return lang
            .pick(
                "Looked at square: marks read as they stand.",
                "Gerade von vorn gesehen: Markierungen zeigen, wie sie stehen.",
            )
            .to_owned();
    }
    let deg = lang.degrees(sight.aside_deg.abs());
    let shift = reader.length(sight.marks.iter().map(|m| m.seems_mm.abs()).fold(0.0, f64::max));
    match (lang, sight.aside_deg > 0.0) {
        (Lang::En, true) => format!(
            "Looked at {deg} from the side: marks seem up to {shift} ahead. The drive has not moved."
        ),
        (Lang::En, false) => format!(
            "Looked at {deg} from the side: marks seem up to {shift} behind. The drive has not moved."
        ),
        (Lang::De, true) => format!(
            "Um {deg} von der Seite gesehen: Markierungen scheinen bis zu {shift} zu früh. Der Trieb hat sich nicht bewegt."
        ),
        (Lang::De, false) => format!(
            "Um {deg} von der Seite gesehen: Markierungen scheinen bis zu {shift} zu spät. Der Trieb hat sich nicht bewegt."
        ),
    }
}

/// How far off square: `12.5°`, signed; `square` at none.
pub fn aside(lang: Lang, deg: f64) -> String {
    if deg == 0.0 {
        return lang.pick("square", "gerade").to_owned();
    }
    format!("{}°", lang.signed(deg, 0))
}

/// What a mark seems to read.
pub fn sight_apparent(lang: Lang, mark: &SightedMark) -> String {
    off(lang, mark.apparent_teeth, mark.apparent_deg)
}

/// How square one must look to be sure of half a tooth, and the gap that rests on.
pub fn square_enough(reader: Reader, mark: &SightedMark) -> String {
    let lang = reader.lang;
    let deg = lang.degrees(mark.squarer_than_deg.floor());
    let gap = reader.length(mark.gap_mm);
    match (lang, mark.gap_assumed) {
        (Lang::En, false) => format!("within {deg} of square, gap {gap}"),
        (Lang::En, true) => format!("within {deg} of square, gap taken as {gap}"),
        (Lang::De, false) => format!("auf {deg} genau gerade, Abstand {gap}"),
        (Lang::De, true) => format!("auf {deg} genau gerade, Abstand angenommen {gap}"),
    }
}
