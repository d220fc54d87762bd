//! Cranking pressures in words, and that there is none.
//!
//! Must not know: how any of it was worked out.

use super::at_centre;
use crate::lang::{Lang, Reader};
use advice::{CrankingOut, gauge_change};
use engine::Kind;

/// A cranking pressure: a range where nobody chose an exponent.
pub fn pressure(lang: Lang, c: &CrankingOut, chosen: bool) -> String {
    format!("{} ({})", gauge(lang, c, chosen), absolute(lang, c, chosen))
}

/// What a gauge shows of it: `11.3 to 14.1 bar on a gauge`.
pub fn gauge(lang: Lang, c: &CrankingOut, chosen: bool) -> String {
    format!("{} {}", bar(lang, c.gauge_bar, chosen), lang.pick("on a gauge", "am Manometer"))
}

/// The same with the air's own: `12.3 to 15.1 bar absolute`.
pub fn absolute(lang: Lang, c: &CrankingOut, chosen: bool) -> String {
    format!("{} {}", bar(lang, c.absolute_bar, chosen), lang.pick("absolute", "absolut"))
}

fn bar(lang: Lang, [low, middle, high]: [f64; 3], chosen: bool) -> String {
    let range = if chosen { [middle; 2] } else { [low, high] };
    format!("{}\u{a0}bar", lang.range(range, |bar| lang.number(bar, 1)))
}

/// From where a cranking pressure is counted: `counted from the intake valve's closing, 50° after bottom`.
pub fn counted_from(reader: Reader, c: &CrankingOut) -> String {
    let lang = reader.lang;
    let side = at_centre(lang, c.closes_abdc_deg, false, lang.pick("bottom", "UT"));
    let lift = match (lang, c.shut_at_lift_mm > 0.0) {
        (_, false) => String::new(),
        (Lang::En, true) => format!(", at {} of lift", reader.length(c.shut_at_lift_mm)),
        (Lang::De, true) => format!(", bei {} Hub", reader.length(c.shut_at_lift_mm)),
    };
    match lang {
        Lang::En => format!("counted from the intake valve's closing, {side}{lift}"),
        Lang::De => format!("gerechnet ab Einlass schließt, {side}{lift}"),
    }
}

/// That nothing is squeezed: a valve is open.
pub const fn no_compression(lang: Lang, open: Kind) -> &'static str {
    match open {
        Kind::Intake => lang.pick(
            "No compression: by these figures the intake valve is open at the firing top, or shuts before the charge is in.",
            "Keine Kompression: Nach diesen Maßen ist das Einlassventil am Zünd-OT offen oder schließt, bevor die Ladung darin ist.",
        ),
        Kind::Exhaust => lang.pick(
            "No compression: by these figures the exhaust valve is open while the piston comes up to fire.",
            "Keine Kompression: Nach diesen Maßen ist das Auslassventil offen, während der Kolben zum Zünden hochkommt.",
        ),
    }
}

/// How a cranking pressure compares with that in time: `12 % lower than in time`.
pub fn pressure_change(lang: Lang, both: &[CrankingOut; 2]) -> String {
    let change = gauge_change(both);
    let by = format!("{}\u{a0}%", lang.number(change.abs() * 100.0, 0));
    if lang.number(change * 100.0, 0) == lang.number(0.0, 0) {
        return lang.pick("as in time", "wie mit richtiger Steuerzeit").to_owned();
    }
    match (lang, change > 0.0) {
        (Lang::En, true) => format!("{by} higher than in time"),
        (Lang::En, false) => format!("{by} lower than in time"),
        (Lang::De, true) => format!("{by} höher als mit richtiger Steuerzeit"),
        (Lang::De, false) => format!("{by} niedriger als mit richtiger Steuerzeit"),
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::plain;
    use super::*;

    #[test]
    fn pressures_are_ranges_until_somebody_chooses() {
        let c = |effective_ratio, gauge_bar: [f64; 3]| CrankingOut {
            closes_abdc_deg: 50.0,
            shut_at_lift_mm: 0.0,
            effective_ratio,
            gauge_bar,
            absolute_bar: gauge_bar.map(|bar| bar + 1.01325),
        };
        let (now, time) = (c(8.0, [11.3, 12.6, 14.1]), c(8.6, [12.4, 13.9, 15.6]));
        assert_eq!(
            plain(&pressure(Lang::En, &now, false)),
            "11.3 to 14.1 bar on a gauge (12.3 to 15.1 bar absolute)"
        );
        assert_eq!(
            plain(&pressure(Lang::De, &now, true)),
            "12,6 bar am Manometer (13,6 bar absolut)"
        );
        assert_eq!(plain(&pressure_change(Lang::En, &[now, time])), "9 % lower than in time");
        assert_eq!(plain(&pressure_change(Lang::En, &[time, time])), "as in time");
    }
}
