//! The words that a layout file chooses from, by the key that they stand behind: names and meanings.
//!
//! Must not know: which of them a layout uses.

/// Key, word, English name, German name, English meaning, German meaning. A name goes on where the key's own
/// leaves off.
pub(super) type Entry =
    (&'static str, &'static str, &'static str, &'static str, &'static str, &'static str);

#[rustfmt::skip]
pub(super) static CHOICES: &[Entry] = &[
    ("crank_turns", "clockwise", "clockwise", "im Uhrzeigersinn", "With the clock.", "Mit der Uhr."),
    ("crank_turns", "anticlockwise", "anticlockwise", "gegen den Uhrzeigersinn", "Against the clock.", "Gegen die Uhr."),

    ("role", "crank", "crankshaft", "Kurbelwelle", "It drives the belt; there is one, and it comes first.", "Sie treibt den Riemen; es gibt eine, und sie steht zuerst."),
    ("role", "camshaft", "camshaft", "Nockenwelle", "It opens valves and must keep step with the crank.", "Sie öffnet Ventile und muss mit der Kurbelwelle Schritt halten."),
    ("role", "injection_pump", "injection pump", "Einspritzpumpe", "A fuel pump that injects in step with the crank.", "Sie spritzt im Takt der Kurbelwelle ein."),
    ("role", "balance_shaft", "balance shaft", "Ausgleichswelle", "Its weights must keep step with the crank.", "Ihre Gewichte müssen mit der Kurbelwelle Schritt halten."),
    ("role", "intermediate_shaft", "intermediate shaft", "Zwischenwelle", "It drives others behind it and must keep step with the crank.", "Sie treibt andere hinter sich und muss mit der Kurbelwelle Schritt halten."),
    ("role", "distributor", "distributor", "Zündverteiler", "It deals out the ignition and must keep step with the crank.", "Er verteilt die Zündung und muss mit der Kurbelwelle Schritt halten."),
    ("role", "water_pump", "water pump", "Wasserpumpe", "It moves the coolant; any groove will do.", "Sie fördert das Kühlmittel; jede Zahnlücke ist recht."),
    ("role", "oil_pump", "oil pump", "Ölpumpe", "It moves the oil; any groove will do.", "Sie fördert das Öl; jede Zahnlücke ist recht."),
    ("role", "fuel_pump", "fuel pump", "Kraftstoffpumpe", "It moves fuel and need not be timed.", "Sie fördert Kraftstoff und muss nicht eingestellt werden."),
    ("role", "idler", "idler", "Umlenkrolle", "It only guides the belt.", "Sie führt nur den Riemen."),
    ("role", "tensioner", "tensioner pulley", "Spannrolle", "It is what the tensioner moves.", "Sie wird vom Spanner bewegt."),
    ("role", "adjuster", "adjuster", "Einstellrolle", "It is set once by hand and bolted.", "Sie wird einmal von Hand eingestellt und festgeschraubt."),
    ("role", "other", "something else", "etwas anderes", "Anything else that the belt runs over.", "Alles andere, worüber der Riemen läuft."),

    ("face", "toothed", "the teeth", "die Zähne", "The face with the teeth.", "Die Seite mit den Zähnen."),
    ("face", "back", "the back", "der Rücken", "The smooth back.", "Der glatte Rücken."),

    ("on", "groove", "a groove", "einer Zahnlücke", "It is at a groove between two teeth.", "Sie ist an einer Lücke zwischen zwei Zähnen."),
    ("on", "tooth", "a tooth", "einem Zahn", "It is at a tooth.", "Sie ist an einem Zahn."),
    ("on", "shaft", "the shaft", "die Welle", "The shaft itself; its sprocket may be slackened.", "Die Welle selbst; ihr Rad darf gelöst werden."),
    ("on", "sprocket", "the sprocket", "das Rad", "The sprocket, and the shaft only through it.", "Das Rad, und die Welle nur durch das Rad."),
    ("on", "flywheel", "the flywheel", "das Schwungrad", "The flywheel, and the crankshaft with it.", "Das Schwungrad und damit die Kurbelwelle."),

    ("seen_at", "cover", "the cover", "der Abdeckung", "At the belt cover or the engine behind the wheel.", "An der Riemenabdeckung oder am Motor hinter dem Rad."),
    ("seen_at", "damper", "the damper", "dem Dämpfer", "At the crankshaft's vibration damper.", "Am Schwingungsdämpfer der Kurbelwelle."),
    ("seen_at", "flywheel", "the flywheel", "dem Schwungrad", "At the flywheel.", "Am Schwungrad."),

    ("use", "decoy", "a lookalike", "nur ähnlich", "It is not for timing and easily taken for the timing mark.", "Sie gilt nicht für die Steuerzeiten und ist leicht mit der Markierung zu verwechseln."),
    ("use", "assembly", "for assembly", "für den Zusammenbau", "It serves to put the wheel together or on.", "Sie dient dazu, das Rad zusammen- oder anzubauen."),
    ("use", "other_engine", "for another engine", "für einen anderen Motor", "It belongs to another engine that takes the same wheel.", "Sie gehört zu einem anderen Motor, der das gleiche Rad hat."),

    ("fixing", "keyed", "keyed", "mit Passfeder", "By a key or a dowel: one way only.", "Mit Passfeder oder Stift: nur in einer Stellung."),
    ("fixing", "slotted", "slotted", "mit Langlöchern", "By slotted holes: some degrees to either side until the bolts are tight.", "Mit Langlöchern: einige Grad zu jeder Seite, bis die Schrauben fest sind."),
    ("fixing", "taper", "on a taper", "auf einem Kegel", "On a plain taper: any way until the bolt is tight.", "Auf einem glatten Kegel: beliebig, bis die Schraube fest ist."),

    ("by", "pin", "a pin", "einem Stift", "A pin through a hole made for it.", "Ein Stift durch ein Loch, das dafür da ist."),
    ("by", "bolt", "a bolt", "einer Schraube", "A bolt screwed in for it.", "Eine Schraube, die dafür eingedreht wird."),
    ("by", "plate", "a plate", "einer Platte", "A plate or a bar.", "Eine Platte oder eine Leiste."),
    ("by", "tool", "a tool", "einem Werkzeug", "A holding tool.", "Ein Haltewerkzeug."),

    ("rest", "late", "late", "spät", "At its late end.", "An seinem späten Ende."),
    ("rest", "early", "early", "früh", "At its early end.", "An seinem frühen Ende."),

    ("kind", "slide", "slide", "Schieber", "The wheel moves along a straight line.", "Das Rad bewegt sich auf einer Geraden."),
    ("kind", "arm", "sprung arm", "Spannarm", "The wheel sits on an arm that a spring turns about its pivot.", "Das Rad sitzt auf einem Arm, den eine Feder um seinen Drehpunkt dreht."),
    ("kind", "eccentric", "eccentric, locked", "Exzenter, festgeschraubt", "The wheel turns about a bolt beside its centre and is locked there; no spring.", "Das Rad dreht um eine Schraube neben seinem Mittelpunkt und wird dort festgeschraubt; keine Feder."),
    ("kind", "sprung_eccentric", "sprung eccentric", "Exzenter mit Feder", "As an eccentric, with a spring, a pointer and the window in which it must stand.", "Wie ein Exzenter, mit Feder, Zeiger und dem Fenster, in dem er stehen muss."),

    ("tightening", "clockwise", "clockwise", "im Uhrzeigersinn", "With the clock.", "Mit der Uhr."),
    ("tightening", "anticlockwise", "anticlockwise", "gegen den Uhrzeigersinn", "Against the clock.", "Gegen die Uhr."),

    ("counted_from", "reference", "the wraps' middles", "den Mitten der Umschlingungen", "Between the grooves nearest the middle of each wrap, the marks in time.", "Zwischen den Lücken, die der Mitte jeder Umschlingung am nächsten liegen, wenn alle Markierungen stimmen."),
    ("counted_from", "mark", "the marks", "den Markierungen", "Between the marked grooves or teeth.", "Zwischen den markierten Lücken oder Zähnen."),

    ("cylinder_1_at_marks", "firing", "firing", "am Zünd-OT", "The top between compression and power.", "Der obere Totpunkt zwischen Verdichten und Arbeiten."),
    ("cylinder_1_at_marks", "overlap", "valve overlap", "am Überschneidungs-OT", "The top between exhaust and intake.", "Der obere Totpunkt zwischen Ausstoßen und Ansaugen."),

    ("law", "harmonic", "harmonic", "harmonisch", "Half a cosine.", "Ein halber Kosinus."),
    ("law", "cycloidal", "cycloidal", "zykloidisch", "A cycloid.", "Eine Zykloide."),
    ("law", "3-4-5", "3-4-5 polynomial", "Polynom 3-4-5", "The polynomial of the third to fifth powers.", "Das Polynom der dritten bis fünften Potenzen."),
    ("law", "4-5-6-7", "4-5-6-7 polynomial", "Polynom 4-5-6-7", "The polynomial of the fourth to seventh powers.", "Das Polynom der vierten bis siebten Potenzen."),

    ("when", "before_belt", "before the belt goes on", "vor dem Auflegen des Riemens", "It must be tight when the belt goes on.", "Es muss fest sein, wenn der Riemen aufgelegt wird."),
    ("when", "before_tension", "before tensioning", "vor dem Spannen", "With the belt on and not tensioned yet.", "Mit aufgelegtem, noch nicht gespanntem Riemen."),
    ("when", "after_tension", "after tensioning", "nach dem Spannen", "Once the belt is tensioned.", "Sobald der Riemen gespannt ist."),

    ("thread", "right", "right-hand", "Rechtsgewinde", "Turned clockwise it tightens.", "Im Uhrzeigersinn gedreht wird es fest."),
    ("thread", "left", "left-hand", "Linksgewinde", "Turned anticlockwise it tightens.", "Gegen den Uhrzeigersinn gedreht wird es fest."),
];
