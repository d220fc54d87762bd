//! Shafts put teeth out, in words.
//!
//! Must not know: valves.

use crate::lang::Lang;
use crate::say::list;
use advice::{ShaftOut, WhatIf};

/// `7.5°`, at the shaft; 0° without a tooth out.
pub fn out_at_shaft(lang: Lang, shaft: &ShaftOut) -> String {
    lang.degrees(shaft.shaft_deg.abs())
}

/// `15° late`, at the crank.
pub fn out_at_crank(lang: Lang, shaft: &ShaftOut) -> String {
    let deg = lang.degrees(shaft.crank_deg.abs());
    if shaft.crank_deg == 0.0 {
        return deg;
    }
    format!("{deg} {}", early_late(lang, shaft.crank_deg))
}

fn early_late(lang: Lang, deg: f64) -> &'static str {
    if deg > 0.0 { lang.pick("early", "zu früh") } else { lang.pick("late", "zu spät") }
}

fn ahead_behind(lang: Lang, teeth: i64) -> &'static str {
    if teeth > 0 { lang.pick("ahead", "zu früh") } else { lang.pick("behind", "zu spät") }
}

/// The installation in a sentence or a few. `names` by wheel index; the crank is the first shaft.
pub fn what_if_sentence(lang: Lang, what_if: &WhatIf, names: &[&str]) -> String {
    let name = |s: &ShaftOut| names.get(s.wheel).copied().unwrap_or_default().to_owned();
    let Some((crank, others)) = what_if.shafts.split_first() else { return String::new() };
    let out: Vec<&ShaftOut> = others.iter().filter(|s| s.teeth != 0).collect();
    if out.is_empty() && crank.teeth == 0 {
        return lang
            .pick(
                "Every shaft is in time, as near as whole teeth allow.",
                "Jede Steuerzeit stimmt, so genau ganze Zähne es erlauben.",
            )
            .to_owned();
    }
    let mut sentences = Vec::new();
    if crank.teeth != 0 {
        let count = lang.teeth(crank.teeth.unsigned_abs() as f64, 0);
        let way = ahead_behind(lang, crank.teeth);
        let deg = lang.degrees(crank.crank_deg.abs());
        let other_way = ahead_behind(lang, -crank.teeth);
        sentences.push(match lang {
            Lang::En => format!(
                "{} {count} {way}: {deg} of crank. That is the same as every other shaft {count} {other_way}.",
                name(crank)
            ),
            Lang::De => format!(
                "{} {count} {way}: {deg} Kurbelwinkel. Das ist dasselbe wie jede andere Welle {count} {other_way}.",
                name(crank)
            ),
        });
    }
    // With the crank out, the others follow from it: said once is enough.
    let apart = |s: &&&ShaftOut| crank.teeth == 0 || s.set_teeth != 0;
    for shaft in out.iter().filter(apart) {
        let count = lang.teeth(shaft.teeth.unsigned_abs() as f64, 0);
        let way = ahead_behind(lang, shaft.teeth);
        let (at_shaft, at_crank) = (out_at_shaft(lang, shaft), out_at_crank(lang, shaft));
        sentences.push(match lang {
            Lang::En => format!(
                "{} {count} {way}: {at_shaft} at the shaft, {} of crank {}.",
                name(shaft),
                lang.degrees(shaft.crank_deg.abs()),
                early_late(lang, shaft.crank_deg)
            ),
            Lang::De => format!(
                "{} {count} {way}: {at_shaft} an der Welle, {at_crank} an der Kurbelwelle.",
                name(shaft)
            ),
        });
    }
    let in_time: Vec<String> = others.iter().filter(|s| s.teeth == 0).map(&name).collect();
    if !in_time.is_empty() && !out.is_empty() {
        let names = list(lang, &in_time);
        sentences.push(match (lang, in_time.len()) {
            (Lang::En, 1) => format!("{names} is in time."),
            (Lang::En, _) => format!("{names} are in time."),
            (Lang::De, _) => format!("{names}: Steuerzeit stimmt."),
        });
    }
    sentences.join(" ")
}
