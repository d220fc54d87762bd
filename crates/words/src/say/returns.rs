//! Shafts that two turns prove nothing of, in words.
//!
//! Must not know: the arithmetic of coming back.

use crate::lang::Lang;

/// A mark that is not back after the two turns that bring a camshaft's back; empty where it is.
pub fn comes_back_late(lang: Lang, name: &str, after_turns: u64) -> String {
    if after_turns <= 2 {
        return String::new();
    }
    let turns = lang.turns(after_turns);
    match lang {
        Lang::En => format!(
            "{name}: its mark is back only after {turns}. Two turns are not enough to read it again."
        ),
        Lang::De => format!(
            "{name}: Die Markierung steht erst nach {turns} wieder. Zwei Umdrehungen genügen nicht, um sie noch einmal zu lesen."
        ),
    }
}

/// A shaft geared behind its sprocket that may stand elsewhere although the mark is right. `check` is
/// the layout's own words on how to tell.
pub fn repeats_late(lang: Lang, name: &str, every_turns: u32, check: Option<&str>) -> String {
    let turns = lang.turns(u64::from(every_turns));
    let told = match lang {
        Lang::En => format!(
            "{name}: its mark may be right and the shaft geared behind it still stand elsewhere; the two repeat together only every {turns}."
        ),
        Lang::De => format!(
            "{name}: Die Markierung kann stimmen und die Welle dahinter doch anders stehen; beide wiederholen sich zusammen nur alle {turns}."
        ),
    };
    check.map_or_else(|| told.clone(), |check| format!("{told} {check}"))
}
