//! What only the command line says: files that cannot be read, settings that cannot be, what came of
//! checking files, what a drawing shows, and the headings of its tables.
//!
//! Must not know: how a table is set.

use crate::lang::{Lang, Reader};
use crate::number::NBSP;
use crate::problem::{amount, bare_list, did_you_mean, quoted};
use crate::say::{shaft_sentence, slack_sentence};
use advice::{AddsUp, Readings, TensionerReading};
use layout::{Layout, TravelUnit, Unit, nearest};

/// Why a file could not be read, or the answer not written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// There is none of that name.
    NoSuchFile,
    /// It is a directory.
    Directory,
    /// A directory in which there is no layout.
    NoLayouts,
    /// This person may not read it.
    NotAllowed,
    /// It is longer than this many bytes.
    TooLong {
        /// The most.
        most: u64,
    },
    /// Reading failed; the system's own words.
    Failed(String),
    /// Writing the answer failed; the system's own words.
    NotWritten(String),
}

/// Why, in a sentence.
pub fn unreadable(lang: Lang, why: &Unreadable) -> String {
    match (why, lang) {
        (Unreadable::NoSuchFile, _) => {
            lang.pick("There is no such file.", "Diese Datei gibt es nicht.").to_owned()
        }
        (Unreadable::Directory, _) => lang
            .pick(
                "This is a directory and not a layout file.",
                "Das ist ein Verzeichnis und keine Layoutdatei.",
            )
            .to_owned(),
        (Unreadable::NoLayouts, _) => lang
            .pick(
                "There is no layout file, ending in .toml, in this directory.",
                "In diesem Verzeichnis ist keine Layoutdatei, die auf .toml endet.",
            )
            .to_owned(),
        (Unreadable::NotAllowed, _) => lang
            .pick("You may not read this file.", "Diese Datei darf nicht gelesen werden.")
            .to_owned(),
        (Unreadable::TooLong { most }, Lang::En) => {
            format!("This file is longer than {most} bytes; nothing of it was done.")
        }
        (Unreadable::TooLong { most }, Lang::De) => {
            format!("Diese Datei ist länger als {most} Byte; nichts davon wurde getan.")
        }
        (Unreadable::Failed(says), Lang::En) => format!("Reading failed: {}.", quoted(lang, says)),
        (Unreadable::Failed(says), Lang::De) => {
            format!("Das Lesen ist gescheitert: {}.", quoted(lang, says))
        }
        (Unreadable::NotWritten(says), Lang::En) => {
            format!("Writing the answer failed: {}.", quoted(lang, says))
        }
        (Unreadable::NotWritten(says), Lang::De) => {
            format!("Das Ausgeben ist gescheitert: {}.", quoted(lang, says))
        }
    }
}

/// That the tensioner cannot stand where it was asked to, and where it can: from right back to where
/// the belt is tight. What it may be is told to a thousandth, never beyond.
pub fn travel_refused(
    lang: Lang,
    asked: f64,
    reading: &TensionerReading,
    unit: TravelUnit,
) -> String {
    let unit = match unit {
        TravelUnit::Mm => Unit::Millimetres,
        TravelUnit::Deg => Unit::Degrees,
    };
    let thousandths = |x: f64, round: fn(f64) -> f64| round(x * 1000.0) / 1000.0;
    let asked = amount(lang, asked, unit);
    let back = amount(lang, thousandths(reading.right_back, f64::ceil), unit);
    let tight = amount(lang, thousandths(reading.tight, f64::floor), unit);
    match lang {
        Lang::En => format!(
            "The tensioner cannot stand at {asked}: it is right back at {back}, and at {tight} the belt is tight."
        ),
        Lang::De => format!(
            "Die Spannrolle kann nicht bei {asked} stehen: Ganz zurück steht sie bei {back}, und bei {tight} ist der Riemen straff."
        ),
    }
}

/// That layout and actions cannot both come from standard input.
pub const fn one_standard_input(lang: Lang) -> &'static str {
    lang.pick(
        "Only one of layout and actions can come from standard input.",
        "Nur eines von Layout und Aktionen kann von der Standardeingabe kommen.",
    )
}

/// That a line is no action; `says` are the parser's own words.
pub fn no_action(lang: Lang, says: &str) -> String {
    let says = quoted(lang, says);
    let known = "turn, turn_to, bring_forward, hold, release, slacken, tighten, belt, hang, tensioner_to, tensioner, set_teeth";
    match lang {
        Lang::En => format!("This is no action: {says}. Actions are {known}."),
        Lang::De => format!("Das ist keine Aktion: {says}. Aktionen sind {known}."),
    }
}

/// That an exponent of compression cannot be.
pub fn exponent_refused(lang: Lang, asked: f64, [least, most]: [f64; 2]) -> String {
    let (asked, least, most) = (lang.exact(asked), lang.number(least, 2), lang.number(most, 2));
    match lang {
        Lang::En => format!(
            "An exponent of {asked} is beyond what cranking gives; it may be {least} to {most}."
        ),
        Lang::De => format!(
            "Ein Exponent von {asked} kommt beim Durchdrehen nicht vor; möglich sind {least} bis {most}."
        ),
    }
}

/// That a figure cannot be, and what it may be. `unit` may be empty.
pub fn out_of_bounds(lang: Lang, found: f64, [least, most]: [f64; 2], unit: &str) -> String {
    let with_unit = |x: f64| {
        let number = if x.is_nan() { "NaN".to_owned() } else { lang.exact(x) };
        if unit.is_empty() { number } else { format!("{number}{NBSP}{unit}") }
    };
    let (found, least, most) = (with_unit(found), lang.exact(least), with_unit(most));
    match lang {
        Lang::En => format!("{found} cannot be; it may be {least} to {most}."),
        Lang::De => format!("{found} kann nicht sein; möglich sind {least} bis {most}."),
    }
}

/// That a range was given with its greater end first.
pub fn range_turned(lang: Lang, low: f64, high: f64) -> String {
    let (low, high) = (lang.exact(low), lang.exact(high));
    match lang {
        Lang::En => format!("{low} to {high} is no range; give the lower end first."),
        Lang::De => format!("{low} bis {high} ist kein Bereich; das kleinere Ende zuerst angeben."),
    }
}

/// What an option takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// A whole number.
    Whole,
    /// A number.
    Number,
    /// A number or a range.
    Range,
    /// A shaft and teeth.
    ShaftTeeth,
    /// A shaft and degrees.
    ShaftDegrees,
    /// A shaft and a moment.
    ShaftMoment,
}

/// That what was typed behind an option is not what it takes, and what is.
pub fn wanted(lang: Lang, found: &str, wanted: Wanted) -> String {
    let found = quoted(lang, found);
    let (not, instead) = match wanted {
        Wanted::Whole => (
            lang.pick("is no whole number", "ist keine ganze Zahl"),
            lang.pick("Give a bare whole number, such as 24.", "Eine ganze Zahl ohne Einheit angeben, etwa 24."),
        ),
        Wanted::Number => (
            lang.pick("is no number", "ist keine Zahl"),
            lang.pick(
                "Give a bare number, without a unit and with a decimal point, such as 12.5.",
                "Eine Zahl ohne Einheit und mit Dezimalpunkt angeben, etwa 12.5.",
            ),
        ),
        Wanted::Range => (
            lang.pick("is neither a number nor a range", "ist weder Zahl noch Bereich"),
            lang.pick(
                "Give one number with a decimal point, such as 0.5, or a range from low to high, such as 0.25..0.6.",
                "Eine Zahl mit Dezimalpunkt angeben, etwa 0.5, oder einen Bereich von klein nach groß, etwa 0.25..0.6.",
            ),
        ),
        Wanted::ShaftTeeth => (
            lang.pick("is no shaft with its teeth", "ist keine Welle mit ihren Zähnen"),
            lang.pick(
                "Give the shaft's id and a whole number, such as cam_left=-1.",
                "Die id der Welle und eine ganze Zahl angeben, etwa cam_left=-1.",
            ),
        ),
        Wanted::ShaftDegrees => (
            lang.pick("is no shaft with its degrees", "ist keine Welle mit ihren Grad"),
            lang.pick(
                "Give the shaft's id and a number with a decimal point, such as cam_left=7.5.",
                "Die id der Welle und eine Zahl mit Dezimalpunkt angeben, etwa cam_left=7.5.",
            ),
        ),
        Wanted::ShaftMoment => (
            lang.pick("is no wheel with its moment", "ist kein Rad mit seinem Moment"),
            lang.pick(
                "Give the wheel's id and a moment in N·m or with its unit, such as cam_left=4.5 or cam_left=40in-lb.",
                "Die id des Rads und ein Moment in N·m oder mit seiner Einheit angeben, etwa cam_left=4.5 oder cam_left=40in-lb.",
            ),
        ),
    };
    format!("{found} {not}. {instead}")
}

/// That a word is none of those that there are.
pub fn no_such_word(lang: Lang, found: &str, words: &[String]) -> String {
    not_among(
        lang,
        lang.pick("There is no", "Es gibt kein"),
        found,
        lang.pick("There are", "Es gibt"),
        words,
    )
}

/// That there is no wheel of this id, and which there are.
pub fn no_such_wheel(lang: Lang, found: &str, wheels: &[String]) -> String {
    let (none, all) = (
        lang.pick("There is no wheel", "Es gibt kein Rad"),
        lang.pick("The wheels are", "Die Räder sind"),
    );
    not_among(lang, none, found, all, wheels)
}

fn not_among(lang: Lang, none: &str, found: &str, all: &str, known: &[String]) -> String {
    let meant = did_you_mean(lang, nearest(found, known.iter().map(String::as_str)))
        .map_or_else(String::new, |meant| format!(" {meant}"));
    let known = bare_list(known, lang.pick("and", "und"));
    format!("{none} {}.{meant} {all} {known}.", quoted(lang, found))
}

/// That a file is there already, and would be lost.
pub const fn is_there(lang: Lang) -> &'static str {
    lang.pick(
        "There is a file of this name already, and nothing was written. Choose another name, or write over it with --force.",
        "Eine Datei dieses Namens gibt es schon; nichts wurde geschrieben. Einen anderen Namen wählen oder sie mit --force überschreiben.",
    )
}

/// That one shaft was given teeth twice.
pub fn given_twice(lang: Lang, shaft: &str) -> String {
    let shaft = quoted(lang, shaft);
    match lang {
        Lang::En => format!("{shaft} is given twice; give each shaft once."),
        Lang::De => format!("{shaft} ist zweimal angegeben; jede Welle nur einmal angeben."),
    }
}

/// That a drawing would take the place of the layout that it is made from.
pub const fn onto_the_layout(lang: Lang) -> &'static str {
    lang.pick(
        "The drawing would overwrite the layout; give it another name.",
        "Die Zeichnung würde das Layout überschreiben; ihr einen anderen Namen geben.",
    )
}

/// How it stands with a layout that a belt can run in: `Six in a vee, 173 teeth: sound.`; one that does not add
/// up, or whose camshafts do not turn as they must, is not called so.
pub fn checked(lang: Lang, layout: &Layout, answer: Option<&AddsUp>) -> String {
    let teeth = lang.teeth(f64::from(layout.belt.teeth), 0);
    let adds_up = answer.is_none_or(|answer| answer.adds_up);
    let in_ratio = answer.is_none_or(|answer| answer.camshafts_out.is_empty());
    let says = match (adds_up, in_ratio) {
        (true, true) => lang.pick("sound.", "in Ordnung."),
        (false, _) => lang.pick(
            "a belt can run so, but it does not add up.",
            "ein Riemen kann so laufen, aber es geht nicht auf.",
        ),
        (true, false) => lang.pick(
            "a belt can run so, but a camshaft turns wrong for a four-stroke.",
            "ein Riemen kann so laufen, aber eine Nockenwelle dreht sich falsch für einen Viertakter.",
        ),
    };
    let provisional =
        if layout.provisional { lang.pick("provisional, ", "vorläufig, ") } else { "" };
    format!("{}, {teeth}: {provisional}{says}", layout.title)
}

/// How many files have been checked, while more are waiting.
pub fn checked_so_far(lang: Lang, done: usize, all: usize) -> String {
    match lang {
        Lang::En => format!("{done} of {all} files checked"),
        Lang::De => format!("{done} von {all} Dateien geprüft"),
    }
}

/// What a drawing shows, in sentences: where the crank stands, which shafts are out, where slack hangs.
/// `names` by wheel index.
pub fn drawing_shows(reader: Reader, readings: &Readings, names: &[&str]) -> String {
    let lang = reader.lang;
    let crank = lang.degrees(readings.crank_deg);
    let crank = match lang {
        Lang::En => format!("Crank at {crank}."),
        Lang::De => format!("Kurbelwelle bei {crank}."),
    };
    let shafts = shaft_sentence(lang, &readings.shafts, names);
    let slack = slack_sentence(reader, readings, names);
    [crank, shafts, slack].into_iter().filter(|s| !s.is_empty()).collect::<Vec<_>>().join(" ")
}

/// A length as the file has it, all digits told: a pitch of `9.525 mm`.
pub fn exact_mm(lang: Lang, mm: f64) -> String {
    amount(lang, mm, Unit::Millimetres)
}

macro_rules! headings {
    ($($(#[$doc:meta])* $key:ident: $en:literal / $de:literal,)*) => {
        /// The short fixed texts of the command line's tables, in one language.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub struct Headings {
            $($(#[$doc])* pub $key: &'static str,)*
        }

        impl Headings {
            /// The texts in `lang`.
            pub const fn of(lang: Lang) -> Self {
                Self { $($key: lang.pick($en, $de),)* }
            }
        }
    };
}

headings! {
    /// Line: the belt.
    belt: "Belt" / "Riemen",
    /// Line: the belt's pitch.
    pitch: "pitch" / "Teilung",
    /// Line: the belt's length along the pitch line.
    pitch_length: "pitch length" / "Wirklänge",
    /// Line: the tensioner.
    tensioner: "Tensioner" / "Spannrolle",
    /// Line: its travel with the belt tight.
    tight_at: "belt tight at" / "Riemen straff bei",
    /// Line: slack with the tensioner right back.
    slack_when_back: "slack when right back" / "lose Länge ganz zurück",
    /// Line: the crank's angle.
    crank: "Crank" / "Kurbelwelle",
    /// Line: the tensioner's travel.
    travel: "at" / "bei",
    /// Column: a wheel.
    wheel: "Wheel" / "Rad",
    /// Column: radius to the pitch line.
    pitch_radius: "Pitch radius" / "Wirkradius",
    /// Column: wrap angle.
    wrap: "Wrap" / "Umschlingung",
    /// Column: teeth in mesh.
    in_mesh: "In mesh" / "Im Eingriff",
    /// Column: turns for one of the crank, with the sense as a sign.
    turns_per_crank_turn: "Per crank turn" / "Je Kurbelumdr.",
    /// Column: a straight span.
    span: "Span" / "Freies Trum",
    /// Column: a length.
    length: "Length" / "Länge",
    /// Column: from one marked wheel to the next.
    between_marks: "From mark to mark" / "Von Markierung zu Markierung",
    /// Column: whole teeth.
    teeth: "Teeth" / "Zähne",
    /// Column: what the geometry gives.
    from_geometry: "By geometry" / "Aus der Geometrie",
    /// Column: a marked shaft.
    shaft: "Shaft" / "Welle",
    /// Column: one tooth at the shaft.
    one_tooth: "One tooth" / "Ein Zahn",
    /// Column: the same in crank degrees.
    at_the_crank: "At the crank" / "An der Kurbel",
    /// Column: what the best tooth leaves.
    best_tooth: "Best tooth leaves" / "Bester Zahn lässt",
    /// Column: after which the mark is back.
    back_every: "Back every" / "Zurück alle",
    /// Line: stripes.
    stripes: "Stripes on the belt" / "Striche auf dem Riemen",
    /// Line: until the crank's stripe meets its mark.
    meet_crank_mark: "back at the crank's mark after" / "wieder an der Kurbelmarkierung nach",
    /// Line: until every stripe meets every mark.
    meet_every_mark: "at every mark after" / "an jeder Markierung nach",
    /// Column: how far a wheel is turned.
    turned: "Turned" / "Gedreht",
    /// Column: how far its mark is off.
    mark_off: "Mark off by" / "Markierung versetzt",
    /// Column: where a wheel stands.
    stands_at: "Stands at" / "Steht bei",
    /// Column: a run between toothed wheels.
    run: "Run" / "Trum",
    /// Column: teeth in the pulled run.
    in_pulled_run: "In the run into the crank" / "Im Trum vor der Kurbelwelle",
    /// Column: where the crank lands.
    crank_lands: "Crank lands" / "Kurbelwelle landet",
    /// Column: from wrap middle to wrap middle.
    from_wrap_middle: "Between wrap middles" / "Zwischen den Mitten",
    /// Column: where the groove to count from is.
    first_groove: "Groove to count from" / "Lücke zum Zählen",
    /// Column: how sure a count is.
    sure: "How sure" / "Wie sicher",
    /// Column: lash at a mark.
    lash: "Lash, pin in" / "Spiel, mit Stift",
    /// Column: how near a belt is to jumping.
    may_jump: "Slack of what a jump needs, pin in (estimate)" / "Lose Länge von der fürs Überspringen, mit Stift (Schätzung)",
    /// Column: the same with the tensioner right back.
    may_jump_back: "fully back" / "ganz zurück",
    /// Line: the order in which to lay the belt on.
    lay_on: "Lay the belt on in this order" / "Riemen in dieser Reihenfolge auflegen",
    /// Column: a camshaft's valves.
    valves: "Valves" / "Ventile",
    /// Column: least gap to the piston.
    least_gap: "Least gap to the piston, in time" / "Kleinster Abstand zum Kolben, Steuerzeit richtig",
    /// Column: first touching tooth early.
    touch_early: "Touch early from" / "Berührung zu früh ab",
    /// Column: first touching tooth late.
    touch_late: "late from" / "zu spät ab",
    /// Column: tension of a span.
    tension: "Tension, about" / "Spannung, etwa",
    /// Column: its tone.
    tone: "Tone, about" / "Ton, etwa",
    /// Column: how far its middle is pushed aside.
    push_aside: "Pushed aside by" / "Zur Seite gedrückt",
    /// Column: what that takes.
    push: "takes about" / "braucht etwa",
    /// Column: load on a bearing.
    bearing: "Bearing carries about" / "Lager trägt etwa",
    /// Column: what teeth in mesh leave of what a sprocket can carry.
    mesh_carries: "Teeth in mesh allow" / "Zähne im Eingriff erlauben",
    /// Column: turns in a kilometre.
    turns_per_km: "Turns in a km" / "Umdr. je km",
    /// Column: turns in an hour.
    turns_per_hour: "in an hour" / "je Stunde",
    /// Column: how a mark moves when the pin is pulled.
    pin_moves: "Mark moves when the pin is pulled" / "Markierung beim Ziehen des Stifts",
    /// Column: slack.
    slack: "Slack" / "Lose Länge",
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_offered_is_never_beyond_what_can_be() {
        let reading = TensionerReading {
            travel: 0.0,
            right_back: -38.0,
            tight: -1.9996,
            state: job::TensionerState::PinOut,
            window_deg: None,
        };
        let told =
            |lang| travel_refused(lang, 12.0, &reading, TravelUnit::Mm).replace('\u{a0}', " ");
        assert_eq!(
            told(Lang::En),
            "The tensioner cannot stand at 12 mm: it is right back at −38 mm, and at −2 mm the belt is tight."
        );
        assert_eq!(
            told(Lang::De),
            "Die Spannrolle kann nicht bei 12 mm stehen: Ganz zurück steht sie bei −38 mm, und bei −2 mm ist der Riemen straff."
        );
    }

    #[test]
    fn every_reason_is_a_sentence_in_one_line() {
        for lang in Lang::ALL {
            for why in [
                Unreadable::NoSuchFile,
                Unreadable::Directory,
                Unreadable::NoLayouts,
                Unreadable::NotAllowed,
                Unreadable::TooLong { most: 64 },
                Unreadable::Failed("broken\npipe".into()),
                Unreadable::NotWritten("no space left".into()),
            ] {
                let told = unreadable(lang, &why);
                assert!(told.ends_with('.') && !told.contains('\n'), "{told}");
            }
            assert!(given_twice(lang, "cam_left").contains("cam_left"));
            assert!(onto_the_layout(lang).ends_with('.'));
        }
    }
}
