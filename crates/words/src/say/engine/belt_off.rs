//! The belt off in words: what meets, how far a shaft may turn, the way back to the marks, where to park.
//!
//! Must not know: how any of it was worked out.

use super::{CLOSE_MM, gap_mm};
use crate::lang::{Lang, Reader};
use crate::say::list;
use advice::{BeltOff, FreedomReport, MoveReport, NearParts};

/// Two parts that meet: `the intake valve of cylinder 3 and its piston`.
pub fn parts(lang: Lang, p: &NearParts) -> String {
    let cylinder = p.cylinder;
    match (lang, p.valve) {
        (Lang::En, Some(valve)) => {
            format!("the {valve} valve of cylinder {cylinder} and its piston")
        }
        (Lang::En, None) => format!("both valves of cylinder {cylinder}"),
        (Lang::De, Some("intake")) => {
            format!("das Einlassventil von Zylinder {cylinder} und sein Kolben")
        }
        (Lang::De, Some(_)) => format!("das Auslassventil von Zylinder {cylinder} und sein Kolben"),
        (Lang::De, None) => format!("beide Ventile von Zylinder {cylinder}"),
    }
}

/// How far a shaft may turn: `34° back, all the way forward`.
pub fn freedom(lang: Lang, f: &FreedomReport) -> String {
    let side = |deg: Option<f64>, meets: Option<&NearParts>, word: &str| match (deg, meets) {
        (Some(deg), Some(meets)) => {
            let (by, meets) = (lang.degrees(deg), parts(lang, meets));
            format!("{by} {word} ({meets})")
        }
        _ => match lang {
            Lang::En => format!("all the way {word}"),
            Lang::De => format!("ganz herum {word}"),
        },
    };
    let back = side(f.back_deg, f.back_meets.as_ref(), lang.pick("back", "zurück"));
    let forward = side(f.forward_deg, f.forward_meets.as_ref(), lang.pick("forward", "vorwärts"));
    format!("{back}; {forward}")
}

/// The belt off, in sentences: what is missing, or how near things are and whether there is a way.
pub fn belt_off(reader: Reader, answer: &BeltOff) -> String {
    let lang = reader.lang;
    if let Some(missing) = &answer.missing {
        return match lang {
            Lang::En => {
                format!("Nothing can be said with the belt off: the layout lacks {missing}.")
            }
            Lang::De => format!(
                "Bei abgenommenem Riemen lässt sich nichts sagen: Dem Layout fehlt {missing}."
            ),
        };
    }
    let mut all = Vec::new();
    if let Some(near) = &answer.nearest {
        let (gap, meets) = (gap_mm(reader, near.gap_mm.abs()), parts(lang, &near.parts));
        let (touching, sum) = (near.gap_mm.abs() < CLOSE_MM, near.parts.valve.is_none());
        all.push(match (lang, near.gap_mm < 0.0) {
            (Lang::En, false) if touching => format!("As they stand {meets} touch, or are too close to tell."),
            (Lang::De, false) if touching => format!("So wie sie stehen berühren sich {meets}, oder es ist zu knapp für ein Urteil."),
            (Lang::En, false) if sum => format!("As they stand nothing touches; nearest are {meets}, which may open {gap} further together before they meet."),
            (Lang::De, false) if sum => format!("So wie sie stehen berührt sich nichts; am nächsten: {meets}, zusammen dürfen sie {gap} weiter öffnen, bis sie sich treffen."),
            (Lang::En, false) => format!("As they stand nothing touches; nearest are {meets}, with {gap}."),
            (Lang::En, true) => format!("They cannot stand so: {meets} would be {gap} in each other's way, or something is bent."),
            (Lang::De, false) => format!("So wie sie stehen berührt sich nichts; am nächsten: {meets}, mit {gap}."),
            (Lang::De, true) => format!("So können sie nicht stehen: {meets} wären sich {gap} im Weg, oder etwas ist krumm."),
        });
    }
    match answer.way {
        Some("moves") if answer.moves.is_empty() => all.push(
            lang.pick("Every shaft stands on its mark.", "Jede Welle steht auf ihrer Markierung.")
                .to_owned(),
        ),
        Some("moves") => all.push(
            lang.pick(
                "In this order everything comes back to its mark touching nothing, by these figures:",
                "In dieser Reihenfolge kommt nach diesen Maßen alles zu seiner Markierung, ohne etwas zu berühren:",
            )
            .to_owned(),
        ),
        Some("none") => all.push(
            lang.pick(
                "There is no order of moves back to the marks that touches nothing, by these figures.",
                "Nach diesen Maßen gibt es keine Reihenfolge zurück zu den Markierungen, die nichts berührt.",
            )
            .to_owned(),
        ),
        Some("touches_at_marks") => all.push(
            lang.pick(
                "On their marks something would touch, by these figures: no way is looked for.",
                "Auf den Markierungen würde sich nach diesen Maßen etwas berühren: Es wird kein Weg gesucht.",
            )
            .to_owned(),
        ),
        _ => {}
    }
    if !answer.not_stated.is_empty() {
        let mut cylinders: Vec<usize> =
            answer.not_stated.iter().map(|(cylinder, _)| *cylinder).collect();
        cylinders.dedup();
        let cylinders: Vec<String> = cylinders.iter().map(usize::to_string).collect();
        let cylinders = list(lang, &cylinders);
        // Before any verdict.
        all.insert(0, match lang {
            Lang::En => format!("The layout says nothing of some valves, in cylinders {cylinders}: none of this speaks of them."),
            Lang::De => format!("Das Layout sagt nichts über manche Ventile, in den Zylindern {cylinders}: Von ihnen ist hier nicht die Rede."),
        });
    }
    all.join(" ")
}

/// One move: `Crankshaft 60° forward, 1.2 mm left at the least`.
pub fn move_text(reader: Reader, m: &MoveReport, name: &str) -> String {
    let lang = reader.lang;
    let by = lang.fine_degrees(m.deg.abs());
    let way =
        if m.deg < 0.0 { lang.pick("back", "zurück") } else { lang.pick("forward", "vorwärts") };
    let gap = m.least_gap_mm.map(|mm| gap_mm(reader, mm));
    match (lang, gap) {
        (Lang::En, Some(gap)) => format!("{name} {by} {way}, {gap} left at the least"),
        (Lang::De, Some(gap)) => format!("{name} {by} {way}, mindestens {gap} frei"),
        (_, None) => format!("{name} {by} {way}"),
    }
}

/// That a four's parking angle is wrong for this engine; empty where it is not, or nothing is known.
pub fn parking_trap(reader: Reader, depth_mm: Option<f64>) -> String {
    let lang = reader.lang;
    let Some(mm) = depth_mm else { return String::new() };
    let mm = gap_mm(reader, mm);
    match lang {
        Lang::En => format!(
            "A quarter turn past top, where a four in line is parked, is wrong for this engine: a piston stands only {mm} below its top there."
        ),
        Lang::De => format!(
            "Eine Vierteldrehung nach OT, wo man einen Reihenvierzylinder abstellt, ist für diesen Motor falsch: Ein Kolben steht dort nur {mm} unter OT."
        ),
    }
}

/// Where to leave the crank.
pub fn parking(reader: Reader, p: &advice::ParkingReport) -> String {
    let lang = reader.lang;
    let by = lang.degrees(p.crank_deg.abs());
    let at_mark = lang.number(p.crank_deg, 1) == lang.number(0.0, 1);
    let place = match (lang, p.crank_deg < 0.0) {
        (Lang::En, _) if at_mark => "crank at its mark".to_owned(),
        (Lang::De, _) if at_mark => "Kurbelwelle an ihrer Markierung".to_owned(),
        (Lang::En, true) => format!("crank {by} before its mark"),
        (Lang::En, false) => format!("crank {by} past its mark"),
        (Lang::De, true) => format!("Kurbelwelle {by} vor ihrer Markierung"),
        (Lang::De, false) => format!("Kurbelwelle {by} nach ihrer Markierung"),
    };
    let depth = p.least_depth_mm.map(|mm| {
        let mm = gap_mm(reader, mm);
        match lang {
            Lang::En => format!(", highest piston {mm} below its top"),
            Lang::De => format!(", höchster Kolben {mm} unter OT"),
        }
    });
    let clears = match p.clears_any_lift {
        Some(true) => {
            lang.pick(", clear of every valve at any lift", ", frei von jedem Ventil bei jedem Hub")
        }
        Some(false) => lang.pick(
            ", but not clear of every valve at full lift",
            ", aber nicht von jedem Ventil bei vollem Hub",
        ),
        None => "",
    };
    format!("{place}{}{clears}", depth.unwrap_or_default())
}
