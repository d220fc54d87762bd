//! The short fixed texts of the page: names of tasks, buttons, columns.
//!
//! Must not know: where each is shown. The page takes the whole table at once.

use crate::lang::Lang;

macro_rules! labels {
    ($($(#[$doc:meta])* $key:ident: $en:literal / $de:literal,)*) => {
        /// Every fixed text of the page in one language.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "ts", derive(serde::Serialize, tsify::Tsify))]
        pub struct Labels {
            $($(#[$doc])* pub $key: &'static str,)*
        }

        impl Labels {
            /// The texts in `lang`.
            pub const fn of(lang: Lang) -> Self {
                Self { $($key: lang.pick($en, $de),)* }
            }

            /// Every key with its text.
            pub fn all(&self) -> Vec<(&'static str, &'static str)> {
                vec![$((stringify!($key), self.$key),)*]
            }
        }
    };
}

labels! {
    /// The language itself, for a button that changes to the other one.
    other_language: "Deutsch" / "English",
    /// Code of that other language.
    other_language_code: "de" / "en",
    /// Button: open a layout file.
    open: "Open" / "Öffnen",
    /// Its longer name.
    open_long: "Open a layout file" / "Layoutdatei öffnen",
    /// Button: save the layout's text to the file that it was saved to before, or a new one.
    save_long: "Save" / "Speichern",
    /// Button: save the layout's text to another file.
    save_as: "Save as" / "Speichern unter",
    /// After a name of a file: the text has changed since.
    not_saved: "changed since it was saved" / "seit dem Speichern geändert",
    /// After a name of a file: the text is as it was saved.
    saved: "saved" / "gespeichert",
    /// Where a file could not be written.
    save_failed: "The file could not be written. The text is still here: try another place." / "Die Datei ließ sich nicht schreiben. Der Text ist noch hier: einen anderen Ort wählen.",
    /// Button: the layout in a link.
    link: "Link and QR code" / "Link und QR-Code",
    /// What the link holds.
    link_about: "The whole layout is in the part behind the # of this link; no server ever sees it. It opens wherever this page is at the same address; behind the address of another copy, the part from # on does the same." / "Das ganze Layout steckt im Teil hinter dem # dieses Links; kein Server sieht ihn je. Er geht überall auf, wo diese Seite unter derselben Adresse liegt; hinter der Adresse einer anderen Kopie wirkt der Teil ab # genauso.",
    /// That a link is too long for a QR code.
    link_too_long: "This link is too long for a QR code: send it as text, or save the file." / "Dieser Link ist zu lang für einen QR-Code: als Text schicken oder die Datei speichern.",
    /// That the page stands in a file of its own, so that the link leads nowhere else.
    link_local: "This page was opened from a file on this device, so the link and its code open here and nowhere else. To pass the layout on, save it as a file; or put the part from # on behind the address at which the other person has this page." / "Diese Seite wurde aus einer Datei auf diesem Gerät geöffnet; Link und Code gehen deshalb hier auf und nirgends sonst. Zum Weitergeben das Layout als Datei speichern; oder den Teil ab # hinter die Adresse setzen, unter der die andere Person diese Seite hat.",
    /// That the text in the link makes no sound drive.
    link_draft: "No belt can run by this text yet: whoever opens the link gets it to go on with, and no drive." / "Nach diesem Text kann noch kein Riemen laufen: Wer den Link öffnet, bekommt ihn zum Weiterschreiben und keinen Trieb.",
    /// That the text in the link has a slip in its writing.
    link_no_toml: "This text has a slip in its writing: whoever opens the link gets nothing. Mend it first." / "Dieser Text hat einen Schreibfehler: Wer den Link öffnet, bekommt nichts. Erst beheben.",
    /// What the QR code is.
    qr_code: "QR code of the link" / "QR-Code des Links",
    /// Name of what came in a link.
    from_link: "Layout from the link" / "Layout aus dem Link",
    /// That a link could not be read.
    bad_link: "The link is cut short or damaged: no layout could be read from it. What was here is still here. Ask for the link again, whole." / "Der Link ist abgeschnitten oder beschädigt: Kein Layout war darin zu lesen. Was hier war, ist noch hier. Den Link noch einmal ganz schicken lassen.",
    /// Button: the drive as an SVG picture.
    picture_svg: "Picture (SVG)" / "Bild (SVG)",
    /// Button: the drive as a PNG picture.
    picture_png: "Picture (PNG)" / "Bild (PNG)",
    /// That a picture could not be made.
    picture_failed: "This browser could not make the picture; the SVG one may do." / "Dieser Browser konnte das Bild nicht machen; vielleicht geht das SVG-Bild.",
    /// Heading: works kept in this browser.
    recent: "Kept in this browser" / "In diesem Browser aufbewahrt",
    /// What is kept.
    recent_about: "What you write is kept here as you go, on this device only; nothing of it leaves the browser." / "Was Sie schreiben, wird laufend hier aufbewahrt, nur auf diesem Gerät; nichts davon verlässt den Browser.",
    /// That nothing is kept yet.
    recent_none: "Nothing yet." / "Noch nichts.",
    /// Beside a work that some tab has open.
    recent_open: "open" / "offen",
    /// Button, before a title: forget a kept work.
    forget: "Forget" / "Vergessen",
    /// Before when: the last work was brought back.
    restored: "Your last work is here again, kept" / "Die letzte Arbeit ist wieder da, aufbewahrt",
    /// What of it comes back.
    restored_how: "Layout, text and drive are as they were; what was done before can no longer be undone." / "Layout, Text und Trieb sind wie zuvor; was davor getan wurde, lässt sich nicht mehr zurücknehmen.",
    /// Under it, where the drive could not be put back.
    restored_in_time: "The layout and its text are as they were; the drive stands in time on its marks." / "Layout und Text sind wie zuvor; der Trieb steht mit richtiger Steuerzeit auf den Markierungen.",
    /// The same where no belt can run yet.
    restored_draft: "The text is as it was; no belt can run so yet." / "Der Text ist wie zuvor; so kann noch kein Riemen laufen.",
    /// In its place, where this page cannot open it.
    restored_not: "A work that is kept here cannot be opened by this page: a newer one may have kept it. It stays kept as it is." / "Eine hier aufbewahrte Arbeit lässt sich mit dieser Seite nicht öffnen: Eine neuere hat sie vielleicht aufbewahrt. Sie bleibt aufbewahrt, wie sie ist.",
    /// Button: begin with a shipped layout instead.
    start_afresh: "Start afresh" / "Neu anfangen",
    /// That the browser keeps nothing.
    keep_forbidden: "This browser keeps nothing for this page (storage is forbidden or broken). What you write lasts as long as this tab: save it as a file." / "Dieser Browser bewahrt für diese Seite nichts auf (Speichern ist verboten oder gestört). Was Sie schreiben, hält so lange wie dieser Tab: als Datei speichern.",
    /// That the browser's storage is full.
    keep_full: "The browser's storage is full: the latest changes are only in this tab. Save them as a file, or forget kept works." / "Der Speicher des Browsers ist voll: Die letzten Änderungen sind nur in diesem Tab. Als Datei speichern oder Aufbewahrtes vergessen.",
    /// Starting from three counts.
    start_heading: "From three counts" / "Aus drei Zähnezahlen",
    /// How.
    start_note: "Choose the arrangement that is most like yours and enter what you counted. What follows at once stands below; a provisional drive comes into view, and Undo takes it back." / "Die Anordnung wählen, die der eigenen am nächsten kommt, und eintragen, was gezählt wurde. Was daraus folgt, steht sogleich darunter; ein vorläufiger Trieb kommt in die Ansicht, und Rückgängig nimmt ihn zurück.",
    /// Before the title of what is in view, where it is not what the counts come to.
    start_in_view: "In view is still:" / "Im Bild ist noch:",
    /// The arrangements.
    start_arrangement: "Arrangement" / "Anordnung",
    /// Whether belt, counts and centres agree.
    adds_up_heading: "Does it add up?" / "Geht es auf?",
    /// Over what would explain that they do not.
    adds_up_causes: "What would explain it, each tried:" / "Was es erklären würde, jeweils ausprobiert:",
    /// Where nothing tried would.
    adds_up_none: "No single slip that was tried would explain it. Measure again, or look for two slips." / "Keiner der ausprobierten einzelnen Fehler würde es erklären. Nachmessen oder nach zwei Fehlern suchen.",
    /// Button: change it so.
    adds_up_try: "Try this" / "Ausprobieren",
    /// The layout as a form.
    form_heading: "Fill it in" / "Ausfüllen",
    /// Where the form would be, of a text that is no TOML.
    form_no_toml: "The text below has a slip in its writing; mend that first, then the form is here again." / "Der Text unten hat einen Schreibfehler; ist der behoben, steht hier wieder das Formular.",
    /// Beside what must be there and is not.
    form_missing: "missing" / "fehlt",
    /// Beside what may be there and is not.
    form_not_there: "not given" / "nicht angegeben",
    /// Button, before a name: take away.
    form_remove: "Remove" / "Entfernen",
    /// Button: add a wheel behind this one.
    form_add_behind: "Add a wheel behind it" / "Rad dahinter einfügen",
    /// Button: one place earlier along the belt, or in its list.
    form_earlier: "One place earlier" / "Eine Stelle früher",
    /// Button: one place later.
    form_later: "One place later" / "Eine Stelle später",
    /// Choice.
    form_yes: "yes" / "ja",
    /// Choice.
    form_no: "no" / "nein",
    /// Button: a hand in the view moves wheels to other places.
    arrange: "Move wheels in the view" / "Räder im Bild verschieben",
    /// How.
    arrange_how: "Drag a wheel to where it sits; the belt follows. Where it cannot, the way that it would take is dashed, and by how much it does not fit stands at the view. On a label, the arrow keys move it by 1 mm, with Shift by 0.1 mm." / "Ein Rad dorthin ziehen, wo es sitzt; der Riemen folgt. Wo er nicht kann, ist der Weg gestrichelt, den er nähme, und im Bild steht, um wie viel er nicht passt. Auf einem Schild bewegen die Pfeiltasten es um 1 mm, mit Umschalt um 0,1 mm.",
    /// The same where everything but the counts is made up.
    arrange_provisional: "These places are made up so that the belt fits. Put one wheel where it really sits, and the belt no longer fits; it comes back once all of them are placed, the tensioner and its travel too." / "Diese Plätze sind erfunden, damit der Riemen passt. Steht ein Rad dort, wo es wirklich sitzt, passt er nicht mehr; er ist wieder da, sobald alle platziert sind, auch die Spannrolle und ihr Weg.",
    /// Button: take back.
    undo: "Undo" / "Rückgängig",
    /// Button: do again.
    redo: "Redo" / "Wiederholen",
    /// Button: about the program.
    about: "About" / "Über",
    /// Button: close.
    close: "Close" / "Schließen",
    /// Button: units.
    units: "Units" / "Einheiten",
    /// Units: millimetres.
    metric: "mm" / "mm",
    /// Units: inches.
    inch: "inch" / "Zoll",
    /// More things to do, on a narrow screen.
    menu: "Menu" / "Menü",
    /// Theme.
    light: "Light colours" / "Helle Farben",
    /// Theme.
    dark: "Dark colours" / "Dunkle Farben",
    /// Skip link.
    skip_to_tasks: "Skip to the tasks" / "Zu den Aufgaben springen",

    /// The picture, for a screen reader.
    drive_view: "The belt drive, seen at the belt end. What it shows stands in the readings." / "Der Riementrieb von der Riemenseite. Was er zeigt, steht in den Anzeigen.",
    /// The list of wheels' labels.
    wheels: "Wheels" / "Räder",
    /// Zoom.
    zoom: "Size of the drawing" / "Größe der Zeichnung",
    /// Zoom.
    zoom_in: "Larger" / "Größer",
    /// Zoom.
    zoom_out: "Smaller" / "Kleiner",
    /// Zoom.
    zoom_fit: "Whole drive" / "Ganzer Trieb",

    /// The dial.
    dial: "Turn dial: crank angle over two turns" / "Drehscheibe: Kurbelwinkel über zwei Umdrehungen",
    /// The group of turning buttons.
    turn_the_crank: "Turn the crank" / "Kurbelwelle drehen",
    /// One degree.
    one_degree: "1°" / "1°",
    /// One tooth.
    one_tooth: "tooth" / "Zahn",
    /// A quarter turn.
    quarter: "¼ turn" / "¼ Umdr.",
    /// A turn.
    one_turn: "turn" / "Umdr.",
    /// Forward, for a screen reader.
    forward: "forward" / "vorwärts",
    /// Back, for a screen reader.
    backward: "back" / "zurück",
    /// Stop a run.
    stop: "Stop" / "Anhalten",

    /// The list of tasks.
    tasks: "Tasks" / "Aufgaben",
    /// Task.
    layout: "Layout" / "Layout",
    /// Heading of the task.
    layout_heading: "Choose a layout, or write your own" / "Ein Layout wählen oder selbst schreiben",
    /// The text of the layout.
    layout_text: "The layout's text" / "Der Text des Layouts",
    /// Nothing is wrong with the text.
    layout_sound: "The file can be read, and a belt can run so." / "Die Datei ist lesbar, und ein Riemen kann so laufen.",
    /// The text was changed a moment ago.
    layout_looking: "Changed …" / "Geändert …",
    /// Something is wrong with the text.
    draft_not_sound: "No belt can run so yet. The work before is kept, and nothing typed is lost." / "So kann noch kein Riemen laufen. Die Arbeit davor bleibt erhalten, und nichts Getipptes ist verloren.",
    /// In place of how the drive stands, while it is a sketch.
    draft_standing: "No belt can run so yet: there are no readings." / "So kann noch kein Riemen laufen: Es gibt keine Anzeigen.",
    /// Button: give up what was typed.
    drop_changes: "Drop the changes" / "Änderungen verwerfen",
    /// At a wheel that stands in the belt's way.
    look_here: "look here" / "hier prüfen",
    /// Task.
    two_turns: "Two turns" / "Zwei Umdrehungen",
    /// Task.
    what_if: "What if" / "Was wenn",
    /// Task.
    explain: "Explain" / "Erklären",
    /// Heading of the task.
    explain_heading: "Make somebody else see it" / "Es jemandem zeigen",
    /// Under it.
    explain_note: "Short demonstrations for a customer or a class. What is on the bench now is put aside, and is back untouched when a demonstration ends. Every engine in them is invented." / "Kurze Vorführungen für Kunden oder eine Klasse. Was jetzt auf der Werkbank liegt, wird beiseitegelegt und ist danach unberührt wieder da. Jeder Motor darin ist erfunden.",
    /// The list of demonstrations.
    demonstrations: "Demonstrations" / "Vorführungen",
    /// Button.
    step_on: "Next" / "Weiter",
    /// Button.
    step_back: "Back" / "Zurück",
    /// Button.
    from_the_first: "From the beginning" / "Von vorn",
    /// Button.
    by_itself: "Play by itself" / "Von selbst abspielen",
    /// Button.
    pause: "Pause" / "Pause",
    /// Button.
    full_screen: "Full screen" / "Ganzer Bildschirm",
    /// Button.
    leave_full_screen: "Leave full screen" / "Vollbild verlassen",
    /// Button.
    end_demonstration: "End, my work back" / "Beenden, zurück zu meiner Arbeit",
    /// Button, after somebody has tried something.
    back_to_step: "Back to this step" / "Zurück zu diesem Schritt",
    /// In place of the caption, after somebody has tried something.
    strayed: "You are trying it yourself. “Back to this step” puts everything back exactly as it was." / "Du probierst es selbst. „Zurück zu diesem Schritt“ stellt alles genau wieder her.",
    /// Under the buttons.
    try_note: "Try it yourself at any step: drag a wheel, turn the dial, move the tensioner. Keys: arrows, Page Up and Page Down, space to go on, Escape to leave." / "Bei jedem Schritt selbst probieren: ein Rad ziehen, die Drehscheibe drehen, die Spannrolle bewegen. Tasten: Pfeile, Bild auf und ab, Leertaste weiter, Escape verlassen.",
    /// Heading.
    exercise_heading: "A blind exercise" / "Eine Übung ohne Vorwissen",
    /// Under it.
    exercise_note: "Write a number on the board. The same number hides the same fault on every machine: a shaft teeth out, a wrong mark used, a look from the side, slack in the wrong run, one of these or two. Turn, look, and say what is wrong." / "Eine Zahl an die Tafel schreiben. Dieselbe Zahl versteckt auf jedem Gerät denselben Fehler: eine Welle um Zähne versetzt, eine falsche Markierung benutzt, ein Blick von der Seite, loser Riemen im falschen Trum, davon einen oder zwei. Drehen, hinsehen und sagen, was nicht stimmt.",
    /// Field.
    exercise_number: "Number, 0 to 999999" / "Zahl, 0 bis 999999",
    /// Button.
    exercise_start: "Start" / "Anfangen",
    /// That what was typed is no such number.
    exercise_refused: "Type a whole number from 0 to 999999." / "Eine ganze Zahl von 0 bis 999999 eintippen.",
    /// Under the exercise's name.
    exercise_task: "One thing or two are wrong with this drive, or with how it is looked at. Figures are hidden. Turn the crank, look at the marks and the belt." / "An diesem Trieb, oder daran, wie man ihn ansieht, ist etwas falsch: eins oder zwei. Zahlen sind verborgen. Kurbelwelle drehen, Markierungen und Riemen ansehen.",
    /// Under it: what an engine does that this one does not.
    exercise_valves: "So that every mark can be seen twice round, no valve stops a turn here. In an engine a tooth out a valve may meet its piston: turn slowly by hand, and stop at any resistance." / "Damit jede Markierung zweimal herum zu sehen ist, hält hier kein Ventil eine Drehung auf. In einem Motor, der einen Zahn daneben steht, kann ein Ventil auf den Kolben treffen: langsam von Hand drehen und bei jedem Widerstand aufhören.",
    /// Opens what the eye sees as sentences.
    seen_heading: "What can be seen, in words" / "Was zu sehen ist, in Worten",
    /// Button: bring the eye square, as with a mirror.
    look_square: "Look square, with a mirror" / "Gerade hinsehen, mit Spiegel",
    /// Button.
    look_as_before: "Look as before" / "Hinsehen wie zuvor",
    /// Button: everything as it was found.
    as_found: "As it was found" / "Wie vorgefunden",
    /// Heading.
    answer_heading: "What is wrong?" / "Was stimmt nicht?",
    /// Box to tick.
    answer_aside: "We looked at it from the side" / "Wir haben von der Seite hingesehen",
    /// Chooser.
    answer_slack: "Slack hung in the wrong run" / "Loser Riemen im falschen Trum",
    /// No run.
    answer_no_slack: "no" / "nein",
    /// Button.
    answer_give: "Check the answer" / "Antwort prüfen",
    /// Button.
    answer_show: "Show the answer" / "Lösung zeigen",
    /// In other tasks while a demonstration is on the bench.
    set_aside: "A demonstration is on the bench; your own work is put aside." / "Auf der Werkbank ist eine Vorführung; die eigene Arbeit liegt beiseite.",
    /// Button there.
    to_demonstration: "To the demonstration" / "Zur Vorführung",
    /// Heading of the task.
    two_turns_heading: "Turn it over twice and read the marks" / "Zweimal durchdrehen und Markierungen lesen",
    /// Heading of the task.
    what_if_heading: "What if a shaft is teeth out?" / "Was, wenn eine Welle um Zähne versetzt ist?",
    /// Column.
    shaft: "Shaft" / "Welle",
    /// Column.
    mark: "Mark" / "Markierung",
    /// Column: how a shaft stands against the crank.
    against_crank: "Against the crank" / "Zur Kurbelwelle",
    /// Column.
    back_every: "Back every" / "Wieder nach",
    /// Heading of the table.
    at_each_turn: "What the marks will read, turn by turn" / "Was die Markierungen zeigen werden, Umdrehung für Umdrehung",
    /// Column.
    turn_number: "Turn" / "Umdr.",
    /// Column.
    stripe: "Stripe" / "Strich",
    /// Heading.
    stripes_heading: "Stripes on the belt" / "Striche auf dem Riemen",
    /// How far the crank's stripe is from its mark.
    stripe_from_mark: "Crank's stripe" / "Strich der Kurbelwelle",
    /// When it meets it.
    stripe_meets_every: "Back with the mark up after" / "Wieder da, Markierung oben, nach",
    /// When all meet.
    all_meet_every: "All stripes and marks together after" / "Alle Striche und Markierungen zusammen nach",
    /// Button: run on until the stripe meets the crank's mark.
    run_to_meet: "Run until the stripe is back" / "Laufen lassen, bis der Strich wieder da ist",
    /// Button: run on until all stripes and marks meet.
    run_to_meet_all: "Run until all are back together" / "Laufen lassen, bis alle zusammen wieder da sind",
    /// What the signs in the drawing are.
    key_note: "Wedge: the mark on a wheel. Notch: the mark on its cover. Dot: the groove that a stripe was painted at, one bar for the crank, two for the next shaft along the belt, and so on." / "Keil: Markierung am Rad. Kerbe: Markierung am Gehäuse. Punkt: die Lücke, an der ein Strich gezogen wurde, ein Balken für die Kurbelwelle, zwei für die nächste Welle in Laufrichtung, und so weiter.",
    /// Caution at the tensioner.
    tensioner_caution: "On an engine: cold, crank and camshafts held as its service information says. A spring or hydraulic tensioner can snap back: lock it. Marks read with the belt slack prove nothing." / "Am Motor: kalt, Kurbel- und Nockenwellen gehalten, wie die Serviceunterlagen es sagen. Eine Feder- oder Hydraulik-Spannrolle kann zurückschnellen: sichern. Markierungen bei losem Riemen beweisen nichts.",
    /// Beside the buttons that turn back.
    not_on_an_engine: "not on an engine" / "nicht am Motor",
    /// Button: two turns.
    two_turns_forward: "Two turns forward" / "Zwei Umdrehungen vorwärts",
    /// Button: to the start.
    to_the_start: "Back to the start" / "Zurück zum Anfang",
    /// Caution.
    turn_caution: "On an engine: turn by hand, slowly, at the crankshaft bolt and in its running direction. Stop at any resistance and find out why. Battery off, ignition or fuel disabled, fingers and clothing clear. Never turn back with the belt on: teeth may jump. With it off or slack, turn the crank only the few teeth that the step names, camshafts held: valves may strike pistons. Specifications and sequence come from the vehicle's own service information." / "Am Motor: von Hand, langsam, an der Kurbelwellenschraube und in Laufrichtung drehen. Bei jedem Widerstand anhalten und die Ursache suchen. Batterie abgeklemmt, Zündung oder Kraftstoff stillgelegt, Finger und Kleidung fernhalten. Mit aufgelegtem Riemen nie zurückdrehen: Zähne können überspringen. Ist er ab oder lose, die Kurbelwelle nur um die genannten Zähne drehen, die Nockenwellen arretiert: Ventile können auf Kolben treffen. Vorgaben und Reihenfolge stehen in den Serviceunterlagen des Fahrzeugs.",

    /// Task.
    fitting: "Fitting" / "Auflegen",
    /// Heading of the task.
    fitting_heading: "Rehearse hanging the belt" / "Das Auflegen des Riemens üben",
    /// Heading: the usual order.
    usual_order: "The usual order" / "Die übliche Reihenfolge",
    /// Under that heading.
    any_order: "Nothing keeps you to it: do anything in any order below, and see what comes of it. The vehicle's own service information has the order that counts." / "Nichts davon ist Pflicht: Unten geht alles in jeder Reihenfolge, mit seinen Folgen. Die Reihenfolge, die gilt, steht in den Serviceunterlagen des Fahrzeugs.",
    /// Button: do the next step.
    do_it: "Do it" / "Ausführen",
    /// A step that is done.
    done: "done" / "erledigt",
    /// A step whose time is over without it.
    skipped: "skipped" / "ausgelassen",
    /// Steps done, folded: behind their number.
    steps_done: "done" / "erledigt",
    /// Heading of what lies behind the answer.
    why_heading: "Why, and how sure" / "Warum, und wie sicher",
    /// The shortest caution, above the first button.
    short_caution: "On an engine: by hand, slowly, stop at any resistance, battery off, and by its own service information." / "Am Motor: von Hand, langsam, bei jedem Widerstand anhalten, Batterie ab, und nach seinen Serviceunterlagen.",
    /// The step that is next.
    next_step: "next" / "als Nächstes",
    /// All steps are done.
    all_done: "Every step is done, and every mark is right. Only now do the covers go on." / "Alle Schritte sind getan, und alle Markierungen stimmen. Erst jetzt kommen die Abdeckungen drauf.",
    /// Button: back to the beginning of the rehearsal.
    start_over: "Back to the beginning" / "An den Anfang",
    /// Button: play the rehearsal from its beginning.
    replay: "Replay" / "Abspielen",
    /// Heading: what to watch out for.
    watch_out: "Watch out" / "Achtung",
    /// Heading: the shafts and what can be done to them.
    shafts_heading: "The shafts" / "Die Wellen",
    /// Button.
    hold: "Hold" / "Arretieren",
    /// Button.
    let_go: "Let go" / "Loslassen",
    /// Button: turn a shaft until its mark is up.
    to_its_mark: "To its mark" / "Zur Markierung",
    /// Button: turn a shaft until another mark is up; its label follows.
    to_other_mark: "To" / "Zu",
    /// Button: a tooth back.
    tooth_back: "Tooth back" / "Zahn zurück",
    /// Button: a tooth forward.
    tooth_forward: "Tooth forward" / "Zahn vor",
    /// Button.
    slacken_bolt: "Slacken its bolt" / "Schraube lösen",
    /// Button.
    tighten_bolt: "Tighten its bolt" / "Schraube festziehen",
    /// Caution at the shafts.
    shafts_caution: "Turn a camshaft at its flats or with the tool that its service information names, never by its sprocket bolt; slowly, and stop at any resistance." / "Eine Nockenwelle an ihren Schlüsselflächen oder mit dem Werkzeug drehen, das die Serviceunterlagen nennen, nie an der Schraube ihres Zahnrads; langsam, und bei jedem Widerstand anhalten.",
    /// Heading: belt, crank and tensioner.
    belt_heading: "The belt" / "Der Riemen",
    /// Button.
    take_off: "Take it off" / "Abnehmen",
    /// Button.
    hang_in_time: "Hang it counted, in time" / "Gezählt auflegen",
    /// Button.
    hang_as_it_falls: "Hang it as it falls" / "Ungezählt auflegen",
    /// Button: hang with the counts chosen.
    hang_so: "Hang it with these teeth" / "Mit diesen Zähnen auflegen",
    /// Steppers of the counts.
    hang_teeth: "Teeth from mark to mark to hang it with" / "Zähne von Markierung zu Markierung beim Auflegen",
    /// Why some of them are empty.
    hang_teeth_unknown: "Empty where the count rests on centres that are made up: enter what you counted on the old belt; what stays empty is hung in time with the drive in view." / "Leer, wo die Zahl auf erfundenen Mittelpunkten beruht: eintragen, was am alten Riemen gezählt wurde; was leer bleibt, wird mit der Steuerzeit des Triebs im Bild aufgelegt.",
    /// Button on a stepper.
    one_fewer: "One tooth fewer" / "Ein Zahn weniger",
    /// Button on a stepper.
    one_more: "One tooth more" / "Ein Zahn mehr",
    /// Group: the crank.
    crank_heading: "The crank" / "Die Kurbelwelle",
    /// Button.
    back_off_button: "Back it off as above" / "Zurückdrehen wie oben",
    /// Button.
    bring_forward: "Bring it forward until tight" / "Nach vorn, bis straff",
    /// Group: the tensioner.
    tensioner_heading: "The tensioner" / "Die Spannrolle",
    /// Button.
    bolt_up: "Bolt up, pin in" / "Anschrauben, mit Stift",
    /// Button: an eccentric.
    turn_and_lock: "Turn until tight, lock" / "Straff drehen, festziehen",
    /// Button.
    pull_pin: "Pull the pin" / "Sicherungsstift ziehen",
    /// Heading.
    landing_heading: "A tooth more, a tooth less" / "Ein Zahn mehr, ein Zahn weniger",
    /// Under it.
    landing_note: "Shafts before the crank held on their marks, the belt into it drawn tight. The marks beside it are read once all is tight, with the crank on its own." / "Die Wellen davor auf ihren Markierungen gehalten, das Trum vor der Kurbelwelle straff. Die Markierungen daneben liest man, wenn alles straff ist und die Kurbelwelle auf ihrer steht.",
    /// Column.
    in_pulled_run: "In the run into the crank" / "Im Trum vor der Kurbelwelle",
    /// Column.
    crank_lands: "The crank lands" / "Die Kurbelwelle landet",
    /// Heading.
    paint_heading: "Count the old belt, paint the new" / "Alten Riemen zählen, neuen bemalen",
    /// Button that shows the counts on the drive.
    show_counts: "Show the teeth counted on the drive" / "Gezählte Zähne am Trieb zeigen",
    /// Under the heading.
    paint_note: "Count on the old belt before it comes off; where it disagrees with this table, the belt that ran is right, and the layout wants a count or a better centre. Printed lines and arrows on a new belt must agree as well: the arrow runs with the travel." / "Am alten Riemen zählen, bevor er abkommt; sagt er etwas anderes als diese Tabelle, hat der gelaufene Riemen recht, und dem Layout fehlt eine Zählung oder ein besserer Mittelpunkt. Auch gedruckte Linien und Pfeile eines neuen Riemens müssen passen: Der Pfeil zeigt in Laufrichtung.",
    /// Column.
    teeth_middles: "Between wrap middles" / "Zwischen den Mitten der Umschlingung",
    /// Entry.
    groove_is: "The first groove is" / "Die erste Lücke liegt",
    /// Column.
    how_sure: "How sure" / "Wie sicher",
    /// Heading.
    lay_on_heading: "Lay it on in this order" / "In dieser Reihenfolge auflegen",
    /// Under it.
    lay_on_note: "So that every run before the tensioner's lies taut and all slack ends there." / "So liegt jedes Trum vor dem der Spannrolle straff, und alles Lose endet dort.",
    /// Heading.
    coming_up_heading: "Coming up to a mark" / "Eine Markierung anfahren",
    /// Column.
    lash: "Lash at its mark" / "Spiel an der Markierung",
    /// Heading.
    jump_heading: "Jumping a tooth: an estimate" / "Zahn überspringen: eine Schätzung",
    /// Under it.
    jump_note: "The slack that can reach each sprocket now, of what its whole wrap needs for teeth to clear the grooves. From 50 % on be careful: a belt that climbs out at one end needs about half. Below that is no promise." / "Die lose Länge, die jedes Rad jetzt erreichen kann, gemessen an der, mit der seine ganze Umschlingung aus den Lücken kommt. Ab 50 % vorsichtig: Ein Riemen, der an einem Ende aufsteigt, braucht etwa die Hälfte. Darunter ist das kein Versprechen.",
    /// Column.
    slack_of_need: "Slack of need" / "Lose von nötig",
    /// Column.
    teeth_out: "Teeth out" / "Zähne versetzt",
    /// Column.
    at_shaft: "At the shaft" / "An der Welle",
    /// Column.
    at_crank: "At the crank" / "An der Kurbel",
    /// Column.
    best_tooth: "Best tooth leaves" / "Bester Zahn lässt übrig",
    /// Button on a stepper.
    tooth_behind: "One tooth behind" / "Einen Zahn zurück",
    /// Button on a stepper.
    tooth_ahead: "One tooth ahead" / "Einen Zahn vor",
    /// Button: all in time.
    all_in_time: "All in time" / "Alles auf Markierung",
    /// Note.
    same_degrees: "One tooth is the same number of crank degrees at every sprocket on this belt, large or small." / "Ein Zahn ist an jedem Zahnrad dieses Riemens gleich viele Grad Kurbelwinkel, ob groß oder klein.",
    /// Heading: the engine behind the belt.
    engine_heading: "The engine behind it" / "Der Motor dahinter",
    /// Column: a value in time.
    in_time: "in time, on its best tooth" / "Steuerzeit richtig, auf dem besten Zahn",
    /// Input: the exponent of cranking pressures.
    exponent: "Exponent for cranking pressure" / "Exponent für den Kompressionsdruck",
    /// Choice: no exponent, a range.
    exponent_range: "1.20 to 1.30, as a range" / "1,20 bis 1,30, als Bereich",
    /// Under it.
    exponent_note: "An estimate: warm, tight, throttle open. The change against in time says more than the figure." / "Eine Schätzung: warm, dicht, Drosselklappe offen. Die Änderung gegen die richtige Steuerzeit sagt mehr als der Wert.",
    /// A layout without an engine.
    degrees_only: "No engine figures in this layout: degrees only." / "Keine Motormaße in diesem Layout: nur Grad.",
    /// Heading: the belt off.
    belt_off_heading: "The belt off: what may be turned" / "Riemen ab: was gedreht werden darf",
    /// Button: look for the moves.
    find_way: "Find the way back to the marks" / "Weg zurück zu den Markierungen suchen",
    /// Heading: parking angles.
    parking_heading: "Where to leave the crank, best first" / "Wo die Kurbelwelle am besten steht",
    /// Heading: how far each may turn.
    freedom_heading: "How far each may turn from here, the others still" / "Wie weit jede von hier darf, die anderen in Ruhe",

    /// Heading.
    pistons_heading: "Pistons and valves" / "Kolben und Ventile",
    /// At every figure of the engine.
    gap_caution: "A calculation from figures that somebody entered, not a licence to turn an engine." / "Eine Rechnung aus Maßen, die jemand eingetragen hat, und keine Erlaubnis, einen Motor zu drehen.",
    /// Chooser.
    cylinder: "Cylinder" / "Zylinder",
    /// Of the chooser: follows the choice of teeth.
    nearest_cylinder: "the least gap" / "der kleinste Abstand",
    /// Under the section.
    section_note: "Along the bore true to the figures, the right-hand part enlarged. Sizes across the bore are drawn, not stated. Crowns are taken as flat, phasers at rest." / "Längs der Bohrung maßstäblich, rechts vergrößert. Maße quer dazu sind gezeichnet, nicht angegeben. Kolbenböden gelten als flach, Versteller als in Ruhe.",
    /// Heading.
    curves_heading: "Lift and piston over the cycle" / "Ventilhub und Kolben über das Arbeitsspiel",
    /// Axis.
    curves_across: "Crank from this cylinder's overlap top" / "Kurbelwinkel ab Überschneidungs-OT",
    /// Axis; a unit follows.
    curves_up: "Below the shut valve" / "Unter dem geschlossenen Ventil",
    /// Curve.
    curve_intake: "Intake valve" / "Einlassventil",
    /// Curve.
    curve_exhaust: "Exhaust valve" / "Auslassventil",
    /// Curve.
    curve_piston: "Piston" / "Kolben",
    /// Curve.
    curve_in_time: "dashed: in time" / "gestrichelt: auf Markierung",
    /// Under the curves.
    curves_note: "The gap is the distance from a valve's curve up to the piston's; where they cross, they would touch. Arrow keys move the reading." / "Der Abstand ist die Strecke von der Kurve eines Ventils hinauf zu der des Kolbens; wo sie sich kreuzen, würden sie anstoßen. Pfeiltasten bewegen die Ablesung.",
    /// Heading.
    teeth_gap_heading: "Least gap against teeth out" / "Kleinster Abstand und Zähne daneben",
    /// Axis.
    teeth_gap_across: "Camshaft out, teeth, ahead positive" / "Nockenwelle versetzt, Zähne, vor positiv",
    /// Axis; a unit follows.
    teeth_gap_up: "Least gap along the bore" / "Kleinster Abstand",
    /// Under the plot.
    teeth_gap_note: "Below the line at 0 they would touch. The ring marks the present choice." / "Unter der Linie bei 0 würden sie anstoßen. Der Ring zeigt die jetzige Wahl.",
    /// Opens the table of the same numbers.
    as_a_table: "The same as a table" / "Dasselbe als Tabelle",
    /// Heading.
    dial_arcs_heading: "On the dial" / "Auf der Drehscheibe",
    /// Heading.
    map_heading: "Belt off: where valves and pistons meet" / "Riemen ab: wo Ventile und Kolben sich treffen",
    /// Axis.
    map_across: "Crank, degrees from its mark" / "Kurbelwelle, Grad ab Markierung",
    /// Axis.
    map_up: "Camshaft, its own degrees from its mark" / "Nockenwelle, eigene Grad ab Markierung",
    /// Under the map.
    map_note: "Filled: some valve of this camshaft would touch its piston. The cross is both marks, the dot where they stand. Tap or drag to turn both shafts there, or use the arrow keys, 1° each. Only this camshaft's valves against pistons; a phaser counts wherever it is worst." / "Gefüllt: Ein Ventil dieser Nockenwelle würde seinen Kolben berühren. Das Kreuz sind beide Markierungen, der Punkt ist der jetzige Stand. Tippen oder Ziehen dreht beide Wellen dorthin, Pfeiltasten um je 1°. Nur Ventile dieser Nockenwelle gegen Kolben; ein Versteller zählt, wie er am schlechtesten steht.",
    /// Chooser.
    camshaft: "Camshaft" / "Nockenwelle",

    /// Heading.
    sight_heading: "A mark from the side" / "Eine Markierung von der Seite",
    /// Slider.
    sight_aside: "Look from the side" / "Von der Seite sehen",
    /// Button.
    sight_square: "Mirror: square again" / "Spiegel: wieder gerade",
    /// Column.
    mark_stands: "Stands" / "Steht",
    /// Column.
    mark_seems: "Seems" / "Scheint",
    /// Column.
    mark_seems_off: "Shifted by" / "Verschoben um",
    /// Column.
    sure_of_a_tooth: "Sure which tooth, within" / "Sicher, welcher Zahn, bis",
    /// Under the table.
    sight_note: "The wheel's mark and the cover's lie a gap apart: an eye off to one side sees them shifted, each mark taken from its own side. A small mirror, tilted until you look straight along the shaft, shows it as it stands." / "Zwischen der Marke am Rad und der festen ist ein Abstand: Ein Auge seitlich davon sieht sie verschoben, jede Marke von ihrer eigenen Seite. Ein kleiner Spiegel, so gekippt, dass der Blick gerade an der Welle entlang geht, zeigt sie, wie sie steht.",

    /// Heading.
    tension_heading: "Tension" / "Spannung",
    /// Figure.
    resting_tension: "At rest, pin out, about" / "In Ruhe, Stift gezogen, etwa",
    /// Figure.
    belt_stretch: "The belt is longer by about" / "Der Riemen ist länger um etwa",
    /// Figure.
    moment_by_hand: "To turn forward by hand, about" / "Von Hand vorwärts, etwa",
    /// Figure.
    gives_way_from: "Tensioner gives way turned back, from about" / "Spannrolle gibt rückwärts nach, ab etwa",
    /// Column.
    pin_pulled: "Pin pulled" / "Stift gezogen",
    /// Column.
    under_the_hand: "While turned by hand" / "Beim Drehen von Hand",

    /// Heading.
    wearing_heading: "What every wheel goes through" / "Was jedes Rad mitmacht",
    /// Figure.
    turns_an_hour: "Turns in an hour" / "Umdrehungen je Stunde",
    /// Over the assumptions.
    assumed_heading: "What is assumed" / "Was angenommen ist",
    /// The lower end of a range.
    assumed_from: "from" / "von",
    /// Its upper end.
    assumed_to: "to" / "bis",
    /// Chooser: a wheel that seizes.
    seized_choice: "Suppose this wheel seizes" / "Angenommen, dieses Rad wird fest",
    /// That none does.
    seized_none: "none" / "keins",
    /// Figure.
    bearing_load: "Its bearing carries about" / "Sein Lager trägt etwa",
    /// Column.
    turns_a_km: "Turns in a kilometre" / "Umdrehungen je Kilometer",
    /// Column.
    turns_when_due: "Turns until the belt is due" / "Umdrehungen, bis der Riemen fällig ist",
    /// Column.
    seized_friction: "Seized: friction, about" / "Fest: Reibung, etwa",
    /// Column.
    seized_heat: "Seized: heat, about" / "Fest: Hitze, etwa",
    /// In those columns, of a wheel with teeth.
    seized_strips: "strips or jumps" / "schert ab oder springt",
    /// Under them.
    tooth_meets: "How often each of the belt's teeth has run into a groove when the belt is due" / "So oft ist jeder Zahn des Riemens in eine Lücke gelaufen, bis der Riemen fällig ist",

    /// Heading.
    tensioner: "Tensioner and slack" / "Spannrolle und loser Riemen",
    /// Slider.
    tensioner_travel: "Tensioner travel" / "Weg der Spannrolle",
    /// Button.
    right_back: "Fully back" / "Ganz zurück",
    /// Button.
    take_up: "Take up all slack" / "Riemen straffen",
    /// Column.
    run: "Run" / "Trum",
    /// Column.
    teeth_between: "Teeth" / "Zähne",
    /// Column.
    slack: "Slack" / "Lose Länge",
    /// Note.
    teeth_between_note: "Teeth are counted between the dotted grooves, the ones nearest the middle of each wrap." / "Gezählt wird zwischen den Zahnlücken mit Punkt, den mittleren jeder Umschlingung.",

    /// Heading.
    readings: "All readings" / "Alle Anzeigen",
    /// Column.
    wheel: "Wheel" / "Rad",
    /// Column.
    wrap: "Wrap when tight" / "Umschlingung, straff",
    /// Column.
    in_mesh: "Belt teeth on it, tight" / "Riemenzähne darauf, straff",
    /// Column.
    turned: "Turned" / "Gedreht",

    /// The list of what is wrong with a text.
    problems: "What is wrong" / "Was nicht stimmt",
    /// Heading over the problems of a file.
    not_opened: "This file was not opened. What was shown before is still there." / "Diese Datei wurde nicht geöffnet. Die bisherige Ansicht bleibt.",
    /// Above the problems of what a link brought.
    link_not_opened: "This link was not opened. What was shown before is still there." / "Dieser Link wurde nicht geöffnet. Die bisherige Ansicht bleibt.",
    /// A file that the browser does not hand over.
    not_readable: "This cannot be read as a file. Choose a layout file (.toml)." / "Das lässt sich nicht als Datei lesen. Eine Layoutdatei (.toml) wählen.",
    /// A file that is far too large.
    too_large: "This file is far too large to be a layout, which has some kilobytes. Nothing of it was read." / "Diese Datei ist viel zu groß für ein Layout, das einige Kilobyte hat. Nichts davon wurde gelesen.",
    /// Column.
    line: "Line" / "Zeile",
    /// What to do with a file.
    drop_here: "Drop a layout file here" / "Layoutdatei hier ablegen",

    /// About: heading.
    about_heading: "What this is, and what it is not" / "Was das ist, und was nicht",
    /// About.
    about_what: "Two Turns models the belt drive of a layout file: the path of the belt, every tooth in its groove, every mark, and where slack hangs. It is named after the habit of turning the crank twice by hand before trusting the work." / "Two Turns rechnet den Riementrieb einer Layoutdatei: den Weg des Riemens, jeden Zahn in seiner Lücke, jede Markierung, und wo Durchhang hängt. Der Name kommt von der Gewohnheit, die Kurbelwelle vor dem Vertrauen zweimal von Hand durchzudrehen.",
    /// About.
    about_not: "Not true to life: wheels are rigid and lie in one plane; the belt has no bending stiffness, its stretch is told but not drawn, and slack is drawn with its true length but not its true sag; only the figures of tension and wear know speed: all else is as if turned slowly by hand, and no tooth ever jumps. A layout's own words come in the language that it was written in." / "Nicht wie im Leben: Räder sind starr und liegen in einer Ebene; der Riemen hat keine Biegesteifigkeit, seine Dehnung wird gesagt, aber nicht gezeichnet, Durchhang hat seine wahre Länge, aber nicht seine wahre Form; nur die Angaben zu Spannung und Verschleiß wissen von Geschwindigkeit: Alles andere ist wie langsam von Hand gedreht, und kein Zahn springt je über. Die Worte eines Layouts stehen in der Sprache, in der es geschrieben wurde.",
    /// About.
    about_defer: "Every figure for a real vehicle comes from its own service information and a qualified person's judgement. The layouts that come with this page are invented." / "Jede Angabe zu einem wirklichen Fahrzeug kommt aus dessen Serviceunterlagen und dem Urteil einer Fachkraft. Die mitgelieferten Layouts sind erfunden.",

    /// Panel shown when the program has stopped: heading.
    stopped: "The program stopped. Your layout is not lost." / "Das Programm ist stehen geblieben. Das Layout ist nicht verloren.",
    /// What to do then.
    stopped_advice: "Copy the text below into a file, then reload the page." / "Den Text unten in eine Datei kopieren, dann die Seite neu laden.",
    /// Button.
    copy: "Copy" / "Kopieren",
    /// Button.
    reload: "Reload" / "Neu laden",
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_text_is_there_in_every_language() {
        for lang in Lang::ALL {
            for (key, text) in Labels::of(lang).all() {
                assert!(!text.trim().is_empty(), "{key} in {}", lang.code());
            }
        }
    }
}
