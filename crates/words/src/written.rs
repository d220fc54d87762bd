//! What a layout's author wrote, in the reader's language where this program knows it: the trade's names
//! for wheels, and the texts of the layouts that ship. Whatever else somebody wrote stays as written.
//!
//! Must not know: which layout a text comes from.

use crate::lang::Lang;

/// `text` in the reader's language, or as it is.
///
/// ```
/// use words::{Lang, written};
/// assert_eq!(written(Lang::De, "Left camshaft"), "Nockenwelle links");
/// assert_eq!(written(Lang::De, "Uncle Henry's pump"), "Uncle Henry's pump");
/// ```
pub fn written(lang: Lang, text: &str) -> &str {
    match lang {
        Lang::En => text,
        Lang::De => {
            let known = NAMES.iter().chain(&TEXTS).find(|(en, _)| *en == text);
            known.map_or(text, |(_, de)| de)
        }
    }
}

/// English and German names of wheels.
const NAMES: [(&str, &str); 26] = [
    ("Crankshaft", "Kurbelwelle"),
    ("Camshaft", "Nockenwelle"),
    ("Left camshaft", "Nockenwelle links"),
    ("Right camshaft", "Nockenwelle rechts"),
    ("Intake camshaft", "Einlassnockenwelle"),
    ("Exhaust camshaft", "Auslassnockenwelle"),
    ("Left intake camshaft", "Einlassnockenwelle links"),
    ("Left exhaust camshaft", "Auslassnockenwelle links"),
    ("Right intake camshaft", "Einlassnockenwelle rechts"),
    ("Right exhaust camshaft", "Auslassnockenwelle rechts"),
    ("Injection pump", "Einspritzpumpe"),
    ("Balance shaft", "Ausgleichswelle"),
    ("Intermediate shaft", "Zwischenwelle"),
    ("Auxiliary shaft", "Nebenwelle"),
    ("Distributor", "Zündverteiler"),
    ("Water pump", "Wasserpumpe"),
    ("Oil pump", "Ölpumpe"),
    ("Fuel pump", "Kraftstoffpumpe"),
    ("Idler", "Umlenkrolle"),
    ("Left idler", "Umlenkrolle links"),
    ("Right idler", "Umlenkrolle rechts"),
    ("Guide pulley", "Führungsrolle"),
    ("Tensioner", "Spannrolle"),
    ("Adjuster", "Einstellrolle"),
    ("Left balance shaft", "Ausgleichswelle links"),
    ("Right balance shaft", "Ausgleichswelle rechts"),
];

/// English and German texts of the layouts that ship.
const TEXTS: [(&str, &str); 23] = [
    ("Six in a vee, one camshaft a bank", "Sechszylinder-V, eine Nockenwelle je Bank"),
    ("Six in a vee, two camshafts a bank", "Sechszylinder-V, zwei Nockenwellen je Bank"),
    ("Four in line, one camshaft, an eccentric", "Vierzylinder-Reihe, eine Nockenwelle, Exzenter"),
    ("Four in line, two camshafts, an arm", "Vierzylinder-Reihe, zwei Nockenwellen, Spannarm"),
    ("Diesel four with an injection pump", "Vierzylinder-Diesel mit Einspritzpumpe"),
    ("Balance-shaft belt of a three in line", "Ausgleichswellenriemen eines Dreizylinders"),
    (
        "Invented for demonstration. Not a real engine: take no figure from it to a vehicle. Left and right are as seen at the belt end.",
        "Zur Vorführung erfunden. Kein wirklicher Motor: keine Angabe daraus an ein Fahrzeug übernehmen. Links und rechts wie von der Riemenseite gesehen.",
    ),
    (
        "Invented for demonstration. Not a real engine: take no figure from it to a vehicle. The auxiliary shaft has 33 grooves on a crank of 22: its mark comes back every third turn of the crank only.",
        "Zur Vorführung erfunden. Kein wirklicher Motor: keine Angabe daraus an ein Fahrzeug übernehmen. Die Nebenwelle hat 33 Lücken bei 22 an der Kurbelwelle: Ihre Markierung steht nur nach jeder dritten Kurbelumdrehung wieder.",
    ),
    (
        "Invented for demonstration. Not a real engine: take no figure from it to a vehicle. The crank's mark is read at the damper; the two camshafts take the same sprocket, which has a mark for either.",
        "Zur Vorführung erfunden. Kein wirklicher Motor: keine Angabe daraus an ein Fahrzeug übernehmen. Die Kurbelmarkierung wird am Dämpfer gelesen; beide Nockenwellen haben das gleiche Rad, mit einer Markierung für jede.",
    ),
    (
        "Invented for demonstration. Not a real engine: take no figure from it to a vehicle. The water pump runs on the teeth without a mark: any groove of it will do.",
        "Zur Vorführung erfunden. Kein wirklicher Motor: keine Angabe daraus an ein Fahrzeug übernehmen. Die Wasserpumpe läuft auf den Zähnen und hat keine Markierung: Jede ihrer Lücken ist recht.",
    ),
    (
        "Invented for demonstration. Not a real engine: take no figure from it to a vehicle. This small belt drives the balance shaft only; the camshaft has a belt of its own. Behind the balance sprocket a pair of gears, 4 to 3, turns the weights: one and a half turns for each of the crank's.",
        "Zur Vorführung erfunden. Kein wirklicher Motor: keine Angabe daraus an ein Fahrzeug übernehmen. Dieser kleine Riemen treibt nur die Ausgleichswelle; die Nockenwelle hat ihren eigenen. Hinter dem Ausgleichsrad dreht ein Zahnradpaar, 4 zu 3, die Gewichte: anderthalb Umdrehungen je Umdrehung der Kurbelwelle.",
    ),
    (
        "After two turns of the crank the auxiliary shaft stands a third of a turn past its mark. It is back after three, and all marks at once after six.",
        "Nach zwei Kurbelumdrehungen steht die Nebenwelle eine drittel Umdrehung nach ihrer Markierung. Nach dreien steht sie wieder, und alle Markierungen zugleich nach sechs.",
    ),
    (
        "Both marks in place prove little: the weights may still stand half a turn out behind their gears. Check with the rod every time.",
        "Dass beide Markierungen stehen, beweist wenig: Die Gewichte hinter ihren Zahnrädern können doch eine halbe Umdrehung versetzt sein. Jedes Mal mit dem Stab prüfen.",
    ),
    (
        "Each camshaft sprocket has a mark I and a mark EX. Only the one for its own camshaft counts.",
        "Jedes Nockenwellenrad hat eine Markierung I und eine Markierung EX. Nur die für die eigene Nockenwelle zählt.",
    ),
    (
        "Lock the camshaft and the injection pump before the belt comes off: both are pushed round by what they drive.",
        "Nockenwelle und Einspritzpumpe arretieren, bevor der Riemen abgenommen wird: Beide werden von dem, was sie antreiben, verdreht.",
    ),
    (
        "Push an 8 mm rod through the plug hole beside the sprocket. It goes in 70 mm where the weight stands right and stops at 25 mm where the shaft is half a turn out.",
        "Einen 8-mm-Stab durch das Stopfenloch neben dem Rad schieben. Er geht 70 mm hinein, wo das Gewicht richtig steht, und stößt bei 25 mm an, wo die Welle eine halbe Umdrehung versetzt ist.",
    ),
    (
        "Set the pointer with the engine cold. Turn two turns and read it again before the nut is tightened.",
        "Den Zeiger bei kaltem Motor einstellen. Zwei Umdrehungen drehen und noch einmal ablesen, bevor die Mutter angezogen wird.",
    ),
    (
        "The damper sits on the crankshaft by a key, its outer ring on rubber: a ring that has crept takes the mark with it. Check it against cylinder 1, at its top a quarter turn of the crank further on.",
        "Der Dämpfer sitzt mit einer Passfeder auf der Kurbelwelle, sein Außenring auf Gummi: Ein gewanderter Ring nimmt die Markierung mit. An Zylinder 1 prüfen, der eine viertel Kurbelumdrehung weiter in seinem oberen Totpunkt steht.",
    ),
    (
        "The eccentric has no spring: turn it to its place and hold it there with the key while the bolt is tightened, or it turns on with the bolt.",
        "Der Exzenter hat keine Feder: in seine Stellung drehen und mit dem Schlüssel halten, während die Schraube angezogen wird, sonst dreht er mit.",
    ),
    (
        "The locks are for holding still only. Loosen and tighten no sprocket bolt against them.",
        "Die Arretierungen halten nur fest. Keine Radschraube gegen sie lösen oder anziehen.",
    ),
    (
        "Turn the engine by hand, slowly, at the crankshaft bolt, and stop at any resistance.",
        "Den Motor von Hand, langsam, an der Kurbelwellenschraube drehen und bei jedem Widerstand anhalten.",
    ),
    (
        "Turn the engine by hand, slowly, at the crankshaft bolt, and stop at any resistance. With the glow plugs out it turns far more easily.",
        "Den Motor von Hand, langsam, an der Kurbelwellenschraube drehen und bei jedem Widerstand anhalten. Ohne Glühkerzen dreht er viel leichter.",
    ),
    (
        "With the belt off, a camshaft may snap round under its valve springs: keep fingers away from the sprockets.",
        "Bei abgenommenem Riemen kann eine Nockenwelle unter ihren Ventilfedern herumschnellen: Finger von den Rädern fernhalten.",
    ),
];
