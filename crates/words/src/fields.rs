//! Names of the keys of a layout file, as a form shows them, and what they mean.
//!
//! Must not know: values. The English meaning of a key stands in the layout's own table.

use crate::lang::Lang;
use layout::Key;

/// Above (the table that it stands in, empty for any), key, English name, German name, German meaning.
type Entry = (&'static str, &'static str, &'static str, &'static str, &'static str);

/// The short name of the key that stands in a table called `above` (empty at the top).
pub fn field_name(lang: Lang, above: &str, key: &Key) -> &'static str {
    entry(above, key).map_or(key.name, |(_, _, en, de, _)| lang.pick(en, de))
}

/// What the key means, in a sentence.
pub fn field_meaning(lang: Lang, above: &str, key: &Key) -> &'static str {
    entry(above, key).map_or(key.about, |(_, _, _, _, de)| lang.pick(key.about, de))
}

/// A word that may stand behind a key, as people say it.
pub fn choice_name(lang: Lang, word: &'static str) -> &'static str {
    let found = CHOICES.iter().find(|(key, _, _)| *key == word);
    found.map_or(word, |(_, en, de)| lang.pick(en, de))
}

fn entry(above: &str, key: &Key) -> Option<&'static Entry> {
    let called = |each: &&Entry| each.1 == key.name;
    let here = FIELDS.iter().filter(called).find(|each| each.0 == above);
    here.or_else(|| FIELDS.iter().filter(called).find(|each| each.0.is_empty()))
}

#[rustfmt::skip]
static FIELDS: &[Entry] = &[
    ("", "format", "Format", "Format", "Die Version des Dateiformats."),
    ("", "title", "Title", "Titel", "Wie das Layout heißt."),
    ("", "about", "About", "Über", "Was ein Leser über das Layout wissen sollte."),
    ("", "provisional", "Provisional", "Vorläufig", "Ob bis auf einige Zählungen alles erfunden ist; was darauf ruht, ist dann keine Antwort."),
    ("", "crank_turns", "The crank turns", "Die Kurbelwelle dreht", "Wie die Kurbelwelle im Lauf dreht, von der Riemenseite gesehen."),
    ("", "centres_good_to_mm", "Centres good to", "Mitten genau auf", "Wie weit die Mitte jedes Rades danebenliegen kann; fehlt es, hat niemand etwas gesagt."),
    ("", "provisional", "Provisional", "Vorläufig", "Ob nur die Zähnezahlen gezählt sind und alles andere angenommen ist."),
    ("", "belt", "Belt", "Riemen", "Der Zahnriemen."),
    ("", "wheel", "Wheels", "Räder", "Die Räder in der Reihenfolge, in der der laufende Riemen sie trifft, die Kurbelwelle zuerst."),
    ("", "tensioner", "Tensioner", "Spanner", "Was die Spannrolle bewegt."),
    ("", "count", "Counted teeth", "Gezählte Zähne", "Zähne, die jemand am Riemen gezählt hat."),
    ("", "engine", "Engine", "Motor", "Der Motor hinter dem Trieb; ohne ihn geht die Riemenseite trotzdem ganz."),
    ("", "fastener", "Bolts and nuts", "Schrauben und Muttern", "Schrauben und Muttern mit ihren Drehmomenten."),
    ("", "caution", "Cautions", "Vorsicht", "Worauf bei diesem Trieb zu achten ist."),
    ("belt", "teeth", "Teeth of the belt", "Zähne des Riemens", "Zähne rund um den Riemen."),
    ("", "pitch_mm", "Pitch", "Teilung", "Von einem Zahn zum nächsten, entlang der Wirklinie."),
    ("", "thickness_mm", "Thickness", "Dicke", "Der ganze Riemen, von der Zahnspitze bis zum Rücken."),
    ("", "tooth_height_mm", "Tooth height", "Zahnhöhe", "Vom Grund zwischen den Zähnen bis zur Zahnspitze."),
    ("", "pitch_line_differential_mm", "Pitch line above the land", "Wirklinie über dem Grund", "Vom Grund zwischen den Zähnen bis zur Wirklinie, wo die Zugstränge liegen."),
    ("", "width_mm", "Width", "Breite", "Breite des Riemens."),
    ("", "tensile_stiffness_n", "Tensile stiffness", "Zugsteifigkeit", "Kraft durch Dehnung: der Zug, der den Riemen auf das Doppelte dehnen würde."),
    ("", "mass_kg_per_m", "Mass", "Masse", "Masse eines Meters Riemen."),
    ("", "direction_arrow", "Direction arrow", "Laufrichtungspfeil", "Ob ein Pfeil auf dem Riemen sagt, wie er läuft."),
    ("", "id", "Id", "Id", "Wie der Rest der Datei das Rad nennt: Kleinbuchstaben, Ziffern, _."),
    ("", "name", "Name", "Name", "Wie Leute das Rad nennen; sonst gilt die Id."),
    ("", "role", "What it is", "Was es ist", "Wozu das Rad da ist."),
    ("", "face", "Belt face on it", "Riemenseite darauf", "Die Seite des Riemens, die darauf läuft."),
    ("wheel", "teeth", "Teeth", "Zähne", "Zähne eines verzahnten Rades; ein glattes hat stattdessen einen Durchmesser."),
    ("", "outside_diameter_mm", "Outside diameter", "Außendurchmesser", "Durchmesser eines glatten Rades, wo der Riemen läuft; ein verzahntes hat stattdessen Zähne."),
    ("", "at_mm", "Centre", "Mitte", "Wo seine Mitte ist, x nach rechts und y nach oben, von der Riemenseite gesehen."),
    ("", "mark", "Timing mark", "Steuerzeitenmarke", "Seine Steuerzeitenmarke."),
    ("", "cover_clock_deg", "Fixed mark at", "Feste Marke bei", "Wo die feste Marke ist: 0 bei zwölf Uhr, im Uhrzeigersinn, von der Riemenseite gesehen."),
    ("mark", "on", "Made on a", "Angebracht an", "Woran des Rades die Marke angebracht ist."),
    ("", "radius_mm", "Radius of the mark", "Radius der Marke", "Wie weit die Marke von der Mitte des Rades entfernt ist."),
    ("", "seen_at", "Looked at on", "Angesehen an", "Wo die Marke angesehen wird."),
    ("", "other_marks", "Other marks", "Andere Marken", "Marken am Rad, die nicht seine Steuerzeitenmarke sind."),
    ("", "wheel_clock_deg", "On the wheel at", "Am Rad bei", "Wo am Rad sie ist, im Uhrzeigersinn von der Steuerzeitenmarke."),
    ("", "label", "Looks like", "Sieht aus wie", "Wie sie aussieht."),
    ("", "use", "What for", "Wofür", "Wozu sie da ist."),
    ("", "friction_n_m", "Friction", "Reibung", "Was es braucht, die Welle von Hand zu drehen."),
    ("", "fixing", "Fixing", "Befestigung", "Wie das Rad auf seiner Welle sitzt."),
    ("", "slot_deg", "Slots let it turn", "Langlöcher erlauben", "Wie weit die Langlöcher das Rad auf seiner Welle drehen lassen, vorwärts positiv."),
    ("", "lock", "Lock", "Arretierung", "Was die Welle in ihrer Stellung hält."),
    ("lock", "by", "By", "Durch", "Womit die Welle arretiert wird."),
    ("lock", "on", "On the", "An", "Was die Arretierung hält."),
    ("", "repeats_every_crank_turns", "Repeats every", "Wiederholt sich alle", "Nach wie vielen Kurbelumdrehungen die Welle hinter dem Rad wieder gleich steht."),
    ("", "position_check", "How to check", "Wie zu prüfen", "Wie zu erkennen ist, in welcher ihrer Stellungen eine Welle hinter dem Rad steht."),
    ("", "phaser", "Phaser", "Versteller", "Was die Welle in ihrem Rad verdreht."),
    ("", "rest", "At rest", "In Ruhe", "Wo er in Ruhe steht."),
    ("", "range_cam_deg", "Range", "Bereich", "Wie weit er die Welle verdreht, in Grad der Nockenwelle, früh positiv."),
    ("", "locks", "Locks at rest", "In Ruhe verriegelt", "Ob ein Stift ihn in Ruhe hält."),
    ("", "spring_torque_n_m", "Valve springs' torque", "Moment der Ventilfedern", "Moment der Ventilfedern auf die Welle an ihrer Marke, vorwärts positiv."),
    ("tensioner", "wheel", "Its wheel", "Sein Rad", "Das Rad, das er bewegt."),
    ("", "kind", "Kind", "Art", "Wie sich das Rad bewegt."),
    ("", "tightening_clock_deg", "Tightens towards", "Spannt in Richtung", "Die Richtung, die spannt: 0 bei zwölf Uhr, im Uhrzeigersinn, von der Riemenseite gesehen."),
    ("", "travel_mm", "Travel", "Weg", "Ganz zurück und ganz ausgefahren; 0 ist bei der Mitte des Rades, positiv spannt."),
    ("", "pinned_mm", "Pinned at", "Mit Stift bei", "Wo er verschraubt steht, den Stift noch gesteckt."),
    ("", "force_n", "Force", "Kraft", "Kraft entlang des Weges, Stift gezogen."),
    ("", "pivot_mm", "Pivot", "Drehpunkt", "Wo der Arm dreht, x nach rechts und y nach oben, von der Riemenseite gesehen."),
    ("", "bolt_mm", "Bolt", "Schraube", "Wo die Schraube ist, um die der Exzenter dreht, x nach rechts und y nach oben."),
    ("", "tightening", "Tightens", "Spannt", "Wie herum er zum Spannen gedreht wird, von der Riemenseite gesehen."),
    ("", "travel_deg", "Travel", "Weg", "Ganz zurück und ganz ausgefahren; 0 ist bei der Mitte des Rades, positiv spannt."),
    ("", "pinned_deg", "Pinned at", "Mit Stift bei", "Wo er verschraubt steht, den Stift noch gesteckt."),
    ("", "set_deg", "Locked at", "Geklemmt bei", "Wie weit er vor dem Festziehen gedreht ist."),
    ("", "moment_n_m", "Moment", "Moment", "Moment der Feder, Stift gezogen."),
    ("", "pointer_window_deg", "Pointer's window", "Fenster des Zeigers", "Zwischen welchen Stellungen der Zeiger stehen muss."),
    ("", "from", "From", "Von", "Das markierte Rad, von dem gezählt wurde."),
    ("", "to", "To", "Bis", "Das markierte Rad, bis zu dem gezählt wurde, im Lauf des Riemens."),
    ("count", "teeth", "Teeth", "Zähne", "Riemenzähne zwischen beiden."),
    ("", "counted_from", "Counted between", "Gezählt zwischen", "Wozwischen gezählt wurde."),
    ("", "bore_mm", "Bore", "Bohrung", "Durchmesser eines Zylinders."),
    ("", "stroke_mm", "Stroke", "Hub", "Weg eines Kolbens."),
    ("", "rod_mm", "Rod length", "Pleuellänge", "Länge eines Pleuels zwischen seinen Mitten."),
    ("", "compression_ratio", "Compression ratio", "Verdichtungsverhältnis", "Volumen eines Zylinders unten durch das oben."),
    ("", "crank_at_marks_atdc_deg", "Crank past top at the marks", "Kurbel nach OT an den Marken", "Kurbelwinkel nach dem oberen Totpunkt von Zylinder 1, wenn alle Marken stimmen."),
    ("", "cylinder_1_at_marks", "Cylinder 1 at the marks", "Zylinder 1 an den Marken", "An welchem seiner beiden oberen Totpunkte Zylinder 1 steht, wenn alle Marken stimmen."),
    ("", "fires_at_deg", "Fires at", "Zündet bei", "Kurbelwinkel des Zünd-OT jedes Zylinders nach dem von Zylinder 1, dieser zuerst."),
    ("", "valves_meet_at_lift_sum_mm", "Valves meet at", "Ventile treffen sich bei", "Summe der Hübe, bei der ein Einlass- und ein Auslassventil eines Zylinders sich treffen."),
    ("", "camshaft", "Camshafts", "Nockenwellen", "Die Nockenwellen mit ihren Ventilen."),
    ("camshaft", "wheel", "Its sprocket", "Ihr Rad", "Das Rad, das sie antreibt."),
    ("", "cylinders", "Cylinders", "Zylinder", "Die Zylinder, deren Ventile sie bewegt, nach Nummern."),
    ("", "intake", "Intake valves", "Einlassventile", "Ihre Einlassventile, wenn sie welche hat."),
    ("", "exhaust", "Exhaust valves", "Auslassventile", "Ihre Auslassventile, wenn sie welche hat."),
    ("", "opens_btdc_deg", "Opens before top", "Öffnet vor OT", "Kurbelwinkel vor dem oberen Totpunkt, bei dem das Ventil öffnet."),
    ("", "closes_abdc_deg", "Closes after bottom", "Schließt nach UT", "Kurbelwinkel nach dem unteren Totpunkt, bei dem das Ventil schließt."),
    ("", "opens_bbdc_deg", "Opens before bottom", "Öffnet vor UT", "Kurbelwinkel vor dem unteren Totpunkt, bei dem das Ventil öffnet."),
    ("", "closes_atdc_deg", "Closes after top", "Schließt nach OT", "Kurbelwinkel nach dem oberen Totpunkt, bei dem das Ventil schließt."),
    ("", "lift_mm", "Lift", "Hub", "Wie weit das Ventil höchstens öffnet."),
    ("", "events_at_lift_mm", "Events read at a lift of", "Zeiten abgelesen bei Hub", "Der Hub, bei dem Öffnen und Schließen abgelesen wurden."),
    ("", "law", "Lift law", "Hubgesetz", "Das Gesetz, nach dem der Hub steigt und fällt."),
    ("", "measured_at_deg", "Measured at", "Gemessen bei", "Kurbelwinkel nach dem Überschneidungs-OT des Zylinders, bei denen der Hub gemessen wurde."),
    ("", "measured_lift_mm", "Measured lift", "Gemessener Hub", "Der Hub bei jedem dieser Winkel: von 0 bis zu einem Höchstwert und zurück auf 0."),
    ("", "lean_deg", "Lean", "Neigung", "Wie weit das Ventil von der Zylinderachse abweicht."),
    ("", "gap_at_tdc_mm", "Gap at top", "Abstand im OT", "Platz zwischen dem geschlossenen Ventil und dem Kolben in OT, entlang des Zylinders."),
    ("", "spring_shut_n", "Spring force, shut", "Federkraft, geschlossen", "Kraft der Ventilfeder bei geschlossenem Ventil."),
    ("", "spring_rate_n_per_mm", "Spring rate", "Federrate", "Wie sehr diese Kraft mit jedem Millimeter Hub wächst."),
    ("", "part", "Part", "Teil", "Wie es heißt."),
    ("fastener", "wheel", "Belongs to", "Gehört zu", "Das Rad, zu dem es gehört."),
    ("", "torque_n_m", "Torque", "Drehmoment", "Sein Drehmoment."),
    ("", "torque_lbf_ft", "Torque in lbf·ft", "Drehmoment in lbf·ft", "Sein Drehmoment."),
    ("", "torque_lbf_in", "Torque in lbf·in", "Drehmoment in lbf·in", "Sein Drehmoment."),
    ("", "stages", "Stages", "Stufen", "Die Stufen, in denen es angezogen wird, statt eines Drehmoments."),
    ("", "angle_deg", "Turn on by", "Weiterdrehen um", "Wie weit es weitergedreht wird."),
    ("", "new_each_time", "New each time", "Jedes Mal neu", "Ob jedes Mal ein neues genommen wird."),
    ("", "when", "When", "Wann", "Wann in der Arbeit es angezogen wird."),
    ("", "hold_with", "Hold with", "Gegenhalten mit", "Was das Teil dabei am Drehen hindert."),
    ("", "thread", "Thread", "Gewinde", "Wie herum sein Gewinde geht."),
    ("", "text", "Text", "Text", "Worauf zu achten ist."),
];

#[rustfmt::skip]
static CHOICES: &[(&str, &str, &str)] = &[
    ("clockwise", "clockwise", "im Uhrzeigersinn"),
    ("anticlockwise", "anticlockwise", "gegen den Uhrzeigersinn"),
    ("crank", "crankshaft", "Kurbelwelle"),
    ("camshaft", "camshaft", "Nockenwelle"),
    ("injection_pump", "injection pump", "Einspritzpumpe"),
    ("balance_shaft", "balance shaft", "Ausgleichswelle"),
    ("intermediate_shaft", "intermediate shaft", "Zwischenwelle"),
    ("distributor", "distributor", "Zündverteiler"),
    ("water_pump", "water pump", "Wasserpumpe"),
    ("oil_pump", "oil pump", "Ölpumpe"),
    ("fuel_pump", "fuel pump", "Kraftstoffpumpe"),
    ("idler", "idler", "Umlenkrolle"),
    ("tensioner", "tensioner", "Spannrolle"),
    ("adjuster", "adjuster", "Einsteller"),
    ("other", "something else", "etwas anderes"),
    ("toothed", "the toothed face", "die Zahnseite"),
    ("back", "the back", "der Rücken"),
    ("groove", "groove", "Zahnlücke"),
    ("tooth", "tooth", "Zahn"),
    ("cover", "the cover", "der Abdeckung"),
    ("damper", "the damper", "dem Schwingungsdämpfer"),
    ("flywheel", "the flywheel", "dem Schwungrad"),
    ("decoy", "misleads", "führt irre"),
    ("assembly", "for assembling something else", "für anderen Zusammenbau"),
    ("other_engine", "for another engine", "für einen anderen Motor"),
    ("pin", "a pin", "einen Stift"),
    ("bolt", "a bolt", "eine Schraube"),
    ("plate", "a plate", "eine Platte"),
    ("tool", "a tool", "ein Werkzeug"),
    ("shaft", "the shaft", "der Welle"),
    ("sprocket", "the sprocket", "dem Rad"),
    ("harmonic", "harmonic", "harmonisch"),
    ("cycloidal", "cycloidal", "zykloidisch"),
    ("keyed", "keyed", "mit Passfeder"),
    ("slotted", "slotted", "mit Langlöchern"),
    ("taper", "on a taper", "auf einem Konus"),
    ("late", "late", "spät"),
    ("early", "early", "früh"),
    ("slide", "slide", "Schieber"),
    ("arm", "arm", "Arm"),
    ("eccentric", "eccentric, locked", "Exzenter, geklemmt"),
    ("sprung_eccentric", "sprung eccentric", "Exzenter mit Feder"),
    ("reference", "reference grooves", "Bezugslücken"),
    ("mark", "marks", "Marken"),
    ("firing", "firing", "zündend"),
    ("overlap", "overlap", "Überschneidung"),
    ("before_belt", "before the belt", "vor dem Riemen"),
    ("before_tension", "before tensioning", "vor dem Spannen"),
    ("after_tension", "after tensioning", "nach dem Spannen"),
    ("right", "right-hand", "rechts"),
    ("left", "left-hand", "links"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use layout::{Kind, LAYOUT};
    use std::collections::HashSet;

    fn every(
        keys: &'static [Key],
        above: &'static str,
        each: &mut impl FnMut(&'static str, &'static Key),
    ) {
        for key in keys {
            each(above, key);
            every(key.keys(), key.name, each);
        }
    }

    #[test]
    fn no_key_and_no_word_is_without_a_name() {
        let mut used = HashSet::new();
        let mut words: HashSet<&'static str> = HashSet::new();
        every(LAYOUT, "", &mut |above, key| {
            let found = entry(above, key);
            assert!(found.is_some(), "{above}.{}", key.name);
            used.extend(found.map(|entry| (entry.0, entry.1)));
            if let Kind::Choice(of) = key.kind {
                words.extend(of);
            }
        });
        for word in &words {
            let named = CHOICES.iter().any(|(key, _, _)| key == word);
            // Some lift laws are called by figures in every language.
            assert!(named || word.starts_with(|c: char| c.is_ascii_digit()), "{word}");
        }
        for (above, key, ..) in FIELDS {
            assert!(used.contains(&(*above, *key)), "{above}.{key} is no key of the format");
        }
        for (word, _, _) in CHOICES {
            assert!(words.contains(word), "{word} is no word of the format");
        }
    }
}
