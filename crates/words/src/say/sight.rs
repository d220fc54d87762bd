//! A mark looked at from the side, in words.
//!
//! Must not know: how the shift was found.

use crate::lang::{Lang, Reader};
use crate::say::off;
use advice::{Sight, SightedMark, USUAL_GAPS_MM};

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
            "Um {deg} von der Seite gesehen: Markierungen scheinen bis zu {shift} voraus. Der Trieb hat sich nicht bewegt."
        ),
        (Lang::De, false) => format!(
            "Um {deg} von der Seite gesehen: Markierungen scheinen bis zu {shift} zurück. Der Trieb hat sich nicht bewegt."
        ),
    }
}

/// How far off square: `12°`, with a minus to the side from which marks seem behind; `square` at none.
pub fn aside(lang: Lang, deg: f64) -> String {
    if deg == 0.0 {
        return lang.pick("square", "gerade").to_owned();
    }
    format!("{}°", lang.number(deg, 0))
}

/// What a mark seems to read.
pub fn sight_apparent(lang: Lang, mark: &SightedMark) -> String {
    off(lang, mark.apparent_teeth, mark.apparent_deg)
}

/// How square one must look to be sure of the tooth: `25°`, rounded down; where the gap is assumed, for the
/// greatest that may be met, and so said.
pub fn square_enough(reader: Reader, mark: &SightedMark) -> String {
    let lang = reader.lang;
    let deg = lang.degrees(mark.squarer_than_deg.floor());
    if !mark.gap_assumed {
        return deg;
    }
    let gap = reader.length(mark.squarer_for_gap_mm);
    match lang {
        Lang::En => format!("{deg} at a gap of {gap}"),
        Lang::De => format!("{deg} bei {gap} Abstand"),
    }
}

/// What gap all that rests on.
pub fn sight_gaps(reader: Reader, sight: &Sight) -> String {
    let lang = reader.lang;
    let gap = |assumed: bool| {
        let gaps = sight.marks.iter().filter(|m| m.gap_assumed == assumed).map(|m| m.gap_mm);
        let [low, high] =
            gaps.fold([f64::INFINITY, 0.0], |[low, high], mm| [low.min(mm), high.max(mm)]);
        (low <= high).then(|| lang.range([low, high], |mm| reader.length(mm)))
    };
    let stated = gap(false).map(|gap| match lang {
        Lang::En => format!("Gap in front of the mark by the layout: {gap}."),
        Lang::De => format!("Abstand vor der Markierung nach dem Layout: {gap}."),
    });
    let usual = lang.range(USUAL_GAPS_MM, |mm| reader.length(mm));
    let assumed = gap(true).map(|gap| match lang {
        Lang::En => format!(
            "Where the layout states no gap, marks are shown for an assumed {gap}; {usual} may be met, and the shift grows with it, so how square is square enough is told for the most."
        ),
        Lang::De => format!(
            "Wo das Layout keinen Abstand angibt, sind die Markierungen für angenommene {gap} gezeigt; {usual} kommen vor, und die Verschiebung wächst damit; wie gerade gerade genug ist, gilt darum für den größten."
        ),
    });
    [stated, assumed].into_iter().flatten().collect::<Vec<_>>().join(" ")
}
