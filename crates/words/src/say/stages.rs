//! The steps of fitting a belt, by name and with why.
//!
//! Must not know: which is next.

use crate::lang::Lang;
use advice::{Fitting, Stage};

/// What a step is called, as an order.
pub fn stage_name(lang: Lang, stage: Stage, answer: &Fitting) -> String {
    let fixed = match stage {
        Stage::MarksUp => lang.pick("Bring every mark up", "Alle Markierungen anfahren"),
        Stage::HoldShafts => {
            lang.pick("Hold the shafts on their marks", "Wellen auf ihren Markierungen arretieren")
        }
        Stage::DrawBack => {
            lang.pick("Draw the tensioner fully back", "Spannrolle ganz zurückziehen")
        }
        Stage::TakeOff => lang.pick("Take the belt off", "Riemen abnehmen"),
        Stage::SlackenBolts => lang.pick(
            "Slacken the bolts of sprockets that float",
            "Schrauben der verdrehbaren Räder lösen",
        ),
        // How far rests on what is made up.
        Stage::BackOff if answer.provisional => {
            lang.pick("Back the crank off for room", "Kurbelwelle für Platz zurückdrehen")
        }
        Stage::BackOff => {
            let teeth = lang.teeth(answer.teeth_to_back_off as f64, 0);
            return match lang {
                Lang::En => format!("Back the crank off {teeth}"),
                Lang::De => format!("Kurbelwelle {teeth} zurückdrehen"),
            };
        }
        Stage::Hang => lang.pick("Hang the belt, counted", "Riemen auflegen, gezählt"),
        Stage::BoltUp => lang.pick("Bolt the tensioner up", "Spannrolle anschrauben"),
        Stage::TakeUp => {
            lang.pick("Bring the crank forward until tight", "Kurbelwelle nach vorn, bis straff")
        }
        Stage::TightenBolts => {
            lang.pick("Tighten the sprocket bolts", "Schrauben der Räder festziehen")
        }
        Stage::LetGo => lang.pick("Let go of every shaft", "Alle Wellen loslassen"),
        Stage::TurnTwice => lang
            .pick("Turn it over twice, read the marks", "Zweimal durchdrehen, Markierungen lesen"),
        Stage::PullPin => lang.pick("Pull the pin", "Sicherungsstift ziehen"),
        Stage::TurnTwiceAgain => lang
            .pick("Turn it over twice again, read again", "Noch zweimal durchdrehen, wieder lesen"),
    };
    fixed.to_owned()
}

/// Why, or how: a sentence under the step.
pub fn stage_why(lang: Lang, stage: Stage, locked: bool) -> &'static str {
    match stage {
        Stage::MarksUp => lang.pick(
            "Forwards, by hand, at the crank bolt. Look at each mark squarely.",
            "Vorwärts, von Hand, an der Kurbelwellenschraube. Jede Markierung gerade ansehen.",
        ),
        Stage::HoldShafts => lang.pick(
            "With clamps, locks or a counter-hold as the service information says. Never hold or turn a camshaft by its sprocket bolt. A lock that does not go in is not forced.",
            "Mit Arretier- oder Absteckwerkzeug oder Gegenhalter, wie die Serviceunterlagen es sagen. Eine Nockenwelle nie an der Schraube ihres Zahnrads halten oder drehen. Ein Werkzeug, das nicht hineingeht, nie mit Gewalt.",
        ),
        Stage::DrawBack => lang.pick(
            "All its slack is needed for the belt to come off. A spring can snap back: lock it.",
            "Der Riemen braucht ihre ganze lose Länge, um abzugehen. Eine Feder kann zurückschnellen: sichern.",
        ),
        Stage::TakeOff => lang.pick(
            "From here every shaft turns by itself. Turn none further than needed: valves may meet pistons.",
            "Ab hier dreht jede Welle für sich. Keine weiter drehen als nötig: Ventile können auf Kolben treffen.",
        ),
        Stage::SlackenBolts => lang.pick(
            "Counter-hold the sprocket. On a taper leave the bolt in and break the taper loose with the proper tool. The lock then keeps the shaft in time, and its sprocket takes whichever groove comes.",
            "Am Rad gegenhalten. Bei einem Konus die Schraube eingedreht lassen und ihn mit dem passenden Werkzeug abdrücken. Das Absteckwerkzeug hält die Welle dann in Steuerzeitenstellung, und ihr Rad nimmt die Lücke, die kommt.",
        ),
        Stage::BackOff => lang.pick(
            "Working room only; the count decides where it lands. Shafts held, slowly, no further than this, and only if the service information allows it.",
            "Nur Platz zum Arbeiten; wo sie landet, entscheidet die Zähnezahl. Wellen arretiert, langsam, nicht weiter, und nur wenn die Serviceunterlagen es zulassen.",
        ),
        Stage::Hang => lang.pick(
            "With the counts below, from the crank back along the belt, the tensioner last.",
            "Mit den Zahlen unten, von der Kurbelwelle gegen die Laufrichtung, die Spannrolle zuletzt.",
        ),
        Stage::BoltUp => {
            if locked {
                lang.pick(
                    "Turned until the belt is tight, then locked.",
                    "Gedreht, bis der Riemen straff ist, dann festgezogen.",
                )
            } else {
                lang.pick(
                    "With its pin in: the spring does not pull yet.",
                    "Mit Stift: Die Feder zieht noch nicht.",
                )
            }
        }
        Stage::TakeUp => lang.pick(
            "Slowly, at the crank bolt, until the belt into it is tight: all slack moves to the tensioner's side. It must land on its mark. If not: belt off, count again.",
            "Langsam, an der Kurbelwellenschraube, bis das Trum vor ihr straff ist: Alles Lose wandert zur Spannrolle. Sie muss auf ihrer Markierung landen. Wenn nicht: Riemen ab, neu zählen.",
        ),
        Stage::TightenBolts => lang.pick(
            "With a counter-hold on the sprocket; never against the lock, never against the belt.",
            "Mit Gegenhalter am Rad; nie gegen das Absteckwerkzeug, nie gegen den Riemen.",
        ),
        Stage::LetGo => lang.pick(
            "Everything that locks or clamps comes out before the crank turns.",
            "Alles, was sperrt oder klemmt, kommt heraus, bevor die Kurbelwelle dreht.",
        ),
        Stage::TurnTwice => lang.pick(
            "By hand, slowly, forwards, to the crank's mark. Stop at any resistance. With a mark out, go no further.",
            "Von Hand, langsam, vorwärts, bis zur Markierung der Kurbelwelle. Bei jedem Widerstand anhalten. Steht eine Markierung falsch, nicht weiter.",
        ),
        Stage::PullPin => lang.pick(
            "Only once the marks are right.",
            "Erst wenn die Markierungen stimmen.",
        ),
        Stage::TurnTwiceAgain => lang.pick(
            "Under the spring's pull. Two turns before the pin and two after it are common practice.",
            "Unter dem Zug der Feder. Zwei Umdrehungen vor dem Stift und zwei danach sind üblich.",
        ),
    }
}
