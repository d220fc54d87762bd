//! Every kind of problem in every language, and some sentences to the letter.

use super::*;
use drive::{Flaw, When};
use layout::{
    Counted, Found, Key, Kind, LAYOUT, Need, Place, ProblemKind, SyntaxFault, TravelUnit, Unit,
    key_at,
};

fn at(kind: ProblemKind, key: &str, part: &str) -> Problem {
    let part = (!part.is_empty()).then(|| part.to_owned());
    Problem { kind, place: Place::default(), key: key.to_owned(), part }
}

fn plain(lang: Lang, p: &Problem) -> String {
    problem(lang, p).replace('\u{a0}', " ")
}

fn key(path: &str) -> &'static Key {
    key_at(LAYOUT, path).unwrap()
}

fn bounds(path: &str) -> layout::Bounds {
    match key(path).kind {
        Kind::Whole(b) | Kind::Number(b) | Kind::Point(b) => b,
        _ => panic!("{path} has no bounds"),
    }
}

const SYNTAX: [SyntaxFault; 16] = [
    SyntaxFault::RepeatedKey,
    SyntaxFault::MissingEquals,
    SyntaxFault::MissingValue,
    SyntaxFault::MissingComma,
    SyntaxFault::ExtraSeparator,
    SyntaxFault::ExtraText,
    SyntaxFault::DecimalComma,
    SyntaxFault::Unclosed,
    SyntaxFault::Unquoted,
    SyntaxFault::BadNumber,
    SyntaxFault::BadFlag,
    SyntaxFault::BadKey,
    SyntaxFault::BadCharacter,
    SyntaxFault::NotATable,
    SyntaxFault::TooDeep,
    SyntaxFault::Other,
];

const UNITS: [(Unit, &str); 11] = [
    (Unit::Bare, "7"),
    (Unit::Millimetres, "7 mm"),
    (Unit::Degrees, "7°"),
    (Unit::Teeth, "7 "),
    (Unit::CrankTurns, "7 "),
    (Unit::Newtons, "7 N"),
    (Unit::NewtonsPerMillimetre, "7 N/mm"),
    (Unit::NewtonMetres, "7 N·m"),
    (Unit::PoundForceFeet, "7 lbf·ft"),
    (Unit::PoundForceInches, "7 lbf·in"),
    (Unit::KilogramsPerMetre, "7 kg/m"),
];

/// Problems with what their sentence has to contain.
fn every() -> Vec<(Problem, &'static str)> {
    let mut all = vec![
        (at(ProblemKind::TooLong { bytes: 99_999, most: 98_304 }, "", ""), "99999"),
        (at(ProblemKind::NotUtf8, "", ""), "UTF-8"),
        (at(ProblemKind::NoCrank, "wheel", ""), "crank"),
        (at(ProblemKind::Newer { found: 2, known: 1 }, "format", ""), "2"),
        (
            at(
                ProblemKind::PointerOutside { at_deg: 61.25, window_deg: [10.0, 50.0] },
                "tensioner.pointer_window_deg",
                "tensioner",
            ),
            "10°",
        ),
        (at(ProblemKind::More { count: 1 }, "", ""), "1"),
        (at(ProblemKind::More { count: 200 }, "", ""), "200"),
        (at(ProblemKind::BadId { found: "Crank".into() }, "wheel[0].id", ""), "Crank"),
    ];
    all.extend(SYNTAX.map(|fault| {
        let kind = ProblemKind::Syntax { fault, parser_says: "invalid table".into() };
        (at(kind, "wheel[2].teeth", "pump"), "pump")
    }));
    for nearest in [Some("teeth"), None] {
        let found = "tooths".to_owned();
        let kind = ProblemKind::UnknownKey { found, nearest, allowed: key("wheel").keys() };
        all.push((at(kind, "wheel[2].tooths", "pump"), "teeth"));
        let found = "tooth".to_owned();
        let allowed = &["groove", "tooth"];
        let kind = ProblemKind::NotAChoice { found, nearest: nearest.and(Some("groove")), allowed };
        all.push((at(kind, "wheel[2].mark.on", "pump"), "groove"));
        let nearest = nearest.map(str::to_owned);
        let kind = ProblemKind::UnknownWheel { found: "cam_lef".into(), nearest };
        all.push((at(kind, "count[0].from", ""), "cam_lef"));
    }
    for (path, says) in
        [("belt", "belt"), ("wheel", "wheel"), ("belt.pitch_mm", "mm"), ("belt.none", "none")]
    {
        all.push((at(ProblemKind::MissingKey { name: "x" }, path, ""), says));
    }
    for found in [Some("slide".to_owned()), None] {
        let belongs_to = vec!["arm", "sprung_eccentric"];
        let kind = ProblemKind::OutOfPlace { because: "kind", found, belongs_to };
        all.push((at(kind, "tensioner.moment_n_m", ""), "sprung_eccentric"));
    }
    for (found, more_allowed) in
        [(vec![], true), (vec![], false), (vec!["intake", "exhaust"], false)]
    {
        let keys = &["intake", "exhaust"];
        let kind = ProblemKind::OneOf { keys, found, more_allowed };
        all.push((at(kind, "engine.camshaft[0].intake", ""), "exhaust"));
    }
    let kinds = [
        ("title", "120"),
        ("wheel.id", "_"),
        ("tensioner.wheel", "id"),
        ("crank_turns", "anticlockwise"),
        ("belt.teeth", "400"),
        ("belt.pitch_mm", "mm"),
        ("wheel.at_mm", "mm"),
        ("tensioner.travel_deg", "°"),
        ("engine.fires_at_deg", "°"),
        ("belt.direction_arrow", "true"),
        ("belt", "T"),
        ("wheel", "[["),
    ];
    for (path, says) in kinds {
        for (found, there) in [
            (Found::Text("167".into()), "167"),
            (Found::Number("7.0".into()), "7.0"),
            (Found::Flag(false), "false"),
            (Found::Date, "Dat"),
            (Found::List(1), "1"),
            (Found::List(3), "3"),
            (Found::Table, "T"),
        ] {
            let kind = ProblemKind::WrongType { found, wanted: key(path).kind };
            all.push((at(kind.clone(), path, ""), says));
            all.push((at(kind.clone(), path, ""), there));
            all.push((at(kind, &format!("{path}[1]"), ""), there));
        }
    }
    for (unit, says) in UNITS {
        let bounds = layout::Bounds { least: 1.0, most: 5.0, unit };
        all.push((at(ProblemKind::OutOfBounds { found: 7.0, bounds }, "belt.x", ""), says));
        let kind = ProblemKind::NotFinite { found: "1e999".into(), bounds };
        all.push((at(kind, "belt.x", ""), "1e999"));
        all.push((at(ProblemKind::NotWhole { found: 7.5, bounds }, "belt.x", ""), "5"));
        all.push((at(ProblemKind::NotInOrder { low: 7.0, high: 2.0, unit }, "belt.x", ""), says));
        for (least, most) in [
            (None, None),
            (Some(9.0), None),
            (None, Some(2.0)),
            (Some(1.0), Some(2.0)),
            (Some(0.0), Some(0.0)),
        ] {
            for inclusive in [true, false] {
                for key in ["belt.x", "engine.fires_at_deg", "engine.camshaft[0].cylinders"] {
                    let set_by = "engine.fires_at_deg[0]".to_owned();
                    let kind =
                        ProblemKind::Disagrees { found: 7.0, least, most, inclusive, unit, set_by };
                    all.push((at(kind, key, ""), says));
                }
            }
        }
    }
    for of in [Counted::Characters, Counted::Entries, Counted::Tables] {
        for (found, says) in [(0, "120"), (1, "1"), (300, "300")] {
            for fewest in [1, 120] {
                let kind = ProblemKind::WrongCount { of, found, fewest, most: 120 };
                all.push((at(kind, "wheel[64]", ""), says));
            }
        }
    }
    let other_key = "engine.camshaft[0].intake.measured_at_deg".to_owned();
    let kind = ProblemKind::UnequalLists { found: 4, other: 5, other_key };
    all.push((at(kind, "engine.camshaft[0].intake.measured_lift_mm", ""), "measured_at_deg"));
    let kind = ProblemKind::RepeatedId { found: "cam_left".into(), first: "wheel[1].id".into() };
    all.push((at(kind, "wheel[2].id", "cam_left"), "wheel[1].id"));
    for needs in [
        Need::Toothed,
        Need::ToothedFace,
        Need::Marked,
        Need::Role("tensioner"),
        Need::First,
        Need::NotASecondCrank,
        Need::AnotherWheel,
    ] {
        for key in ["wheel[2].mark", "wheel[2].role", "tensioner.wheel"] {
            all.push((at(ProblemKind::UnfitWheel { needs }, key, "pump"), ""));
        }
    }
    all.extend(engine_flaws().into_iter().map(|(flaw, says)| {
        (at(ProblemKind::Engine { flaw }, "engine.camshaft[0].intake", "cam_left"), says)
    }));
    all.extend(flaws().map(|(flaw, says)| (geometry(flaw), says)));
    all
}

fn engine_flaws() -> Vec<(::engine::Flaw, &'static str)> {
    use ::engine::{Figure, Flaw, Kind, ValveFigure};
    let of_valve = |figure| Figure::Valve { camshaft: 0, valve: Kind::Intake, figure };
    let figures = [
        (Figure::Bore, "7 mm"),
        (Figure::Stroke, "7 mm"),
        (Figure::Rod, "7 mm"),
        (Figure::CompressionRatio, "7"),
        (Figure::CrankAtMarks, "7°"),
        (Figure::FiresAt(2), "7°"),
        (Figure::Camshafts, "7"),
        (Figure::Cylinders(0), "7"),
        (Figure::Phaser(0), "7°"),
        (Figure::ValvesMeet, "7 mm"),
        (Figure::Exponent, "7"),
        (Figure::Air, "bar"),
        (of_valve(ValveFigure::Opens), "7°"),
        (of_valve(ValveFigure::Closes), "7°"),
        (of_valve(ValveFigure::Duration), "7°"),
        (of_valve(ValveFigure::Reach), "7°"),
        (of_valve(ValveFigure::Lift), "7 mm"),
        (of_valve(ValveFigure::AtLift), "7 mm"),
        (of_valve(ValveFigure::Points), "7"),
        (of_valve(ValveFigure::Lean), "7°"),
        (of_valve(ValveFigure::Gap), "7 mm"),
        (of_valve(ValveFigure::SpringShut), "7 N"),
        (of_valve(ValveFigure::SpringRate), "7 N/mm"),
    ];
    let mut all = Vec::new();
    for (figure, says) in figures {
        all.push((Flaw::OutOfRange { figure, found: 7.0, least: 8.0, most: 9.0 }, says));
        for or_equal in [true, false] {
            let (found, above, below) = (7.0, 8.0, 9.0);
            all.push((Flaw::NotBetween { figure, found, above, below, or_equal }, says));
        }
        all.push((Flaw::Count { figure, found: 17, fewest: 1, most: 16 }, "17"));
    }
    let valves = [Kind::Intake, Kind::Exhaust];
    all.extend(valves.map(|valve| (Flaw::MovedTwice { camshaft: 1, cylinder: 2, valve }, "3")));
    let valve = Kind::Exhaust;
    all.push((Flaw::NoSuchCylinder { camshaft: 0, cylinder: 6, cylinders: 6 }, "7"));
    all.push((Flaw::TableTurnsBack { camshaft: 0, valve, point: 3 }, "4"));
    all.push((Flaw::MeetsMoreThanOne { camshaft: 0 }, "valves_meet_at_lift_sum_mm"));
    all
}

fn flaws() -> [(Flaw, &'static str); 15] {
    let missed_by_rad = 4.2_f64.to_radians();
    [
        (Flaw::NoTangent { from: 2, to: 0 }, "Idler"),
        (Flaw::NotTouched { wheel: 1, missed_by_rad, when: When::Taut }, "2°"),
        (Flaw::NotTouched { wheel: 1, missed_by_rad, when: When::RightBack }, "Water pump"),
        (Flaw::Overlap { a: 0, b: 1, by_mm: 3.0 }, "0 mm"),
        (Flaw::SpanThroughWheel { from: 0, to: 1, wheel: 2, by_mm: 0.004 }, "004 mm"),
        (Flaw::SpansCross { a: 0, b: 2 }, "Crankshaft"),
        (Flaw::NotOneLoop { turns: -1 }, "−1"),
        (Flaw::BeltTooShort { by_mm: 4.06 }, "1 mm"),
        (Flaw::BeltTooLong { by_mm: 12.0 }, "0 mm"),
        (Flaw::DeadPoint { travel: 0.3 }, "17"),
        (Flaw::SpansTouch { a: 0, b: 1, by_mm: 2.5 }, "5 mm"),
        (Flaw::NoMetal { wheel: 2, by_mm: 1.5 }, "5 mm"),
        (Flaw::CountNotWhole { from: 0, to: 1 }, "reference"),
        (Flaw::CountLeavesNone { from: 1, to: 2, teeth: -3 }, "3"),
        (Flaw::CountsDoNotSum { counted: 172, belt: 173 }, "172"),
    ]
}

fn geometry(flaw: Flaw) -> Problem {
    let names = ["Crankshaft", "Water pump", "Idler"].map(str::to_owned).to_vec();
    let (pitch_mm, travel_unit) = (9.525, TravelUnit::Deg);
    at(ProblemKind::Geometry { flaw, names, pitch_mm, travel_unit }, "wheel[1].at_mm", "water_pump")
}

#[test]
fn every_kind_has_whole_sentences_in_every_language() {
    let mut both = Vec::new();
    for (p, says) in every() {
        for lang in Lang::ALL {
            let told = plain(lang, &p);
            assert!(told.len() > 10 && told.ends_with(['.', '?']), "{told}");
            let says = crate::written(lang, says).to_lowercase();
            assert!(told.to_lowercase().contains(&says), "{told:?} has no {says:?}");
            for bad in ["{", "  ", "\n", " .", " ;", "NaN", ".."] {
                assert!(!told.contains(bad), "{told:?} has {bad:?}");
            }
            both.push(told);
        }
        let two = both.len() - 2;
        assert_ne!(both[two], both[two + 1]);
    }
}

#[test]
fn nothing_in_a_file_breaks_the_line() {
    let kind = ProblemKind::UnknownKey {
        found: "a\n\u{1b}[2J\u{202e}b".into(),
        nearest: None,
        allowed: &[],
    };
    let told = problem(Lang::En, &at(kind, "wheel[0].a\nb", "crank"));
    assert!(told.chars().all(|c| !c.is_control() && c != '\u{202e}'), "{told:?}");
}

#[test]
fn sentences_of_files_in_both_languages() {
    let kind = |path| key(path).kind;
    for (p, en, de) in [
        (
            at(
                ProblemKind::OutOfBounds { found: 5.0, bounds: bounds("wheel.teeth") },
                "wheel[3].teeth",
                "idler",
            ),
            "Wheel “idler”: teeth is 5; a toothed wheel has 6 to 200 teeth.",
            "Rad „idler“: teeth ist 5; ein verzahntes Rad hat 6 bis 200 Zähne.",
        ),
        (
            at(
                ProblemKind::OutOfBounds { found: -2500.5, bounds: bounds("wheel.at_mm") },
                "wheel[3].at_mm[0]",
                "idler",
            ),
            "Wheel “idler”: at_mm[0] is −2500.5 mm; it may be −2000 to 2000 mm.",
            "Rad „idler“: at_mm[0] ist −2500,5 mm; erlaubt sind −2000 bis 2000 mm.",
        ),
        (
            at(ProblemKind::OutOfBounds { found: 2.0, bounds: bounds("format") }, "format", ""),
            "format is 2; it must be 1.",
            "format ist 2; es muss 1 sein.",
        ),
        (
            at(
                ProblemKind::UnknownKey {
                    found: "tooths".into(),
                    nearest: Some("teeth"),
                    allowed: &[],
                },
                "wheel[3].tooths",
                "idler",
            ),
            "Wheel “idler”: there is no key “tooths” here. Did you mean “teeth”?",
            "Rad „idler“: Hier gibt es keinen Schlüssel „tooths“. Ist „teeth“ gemeint?",
        ),
        (
            at(ProblemKind::MissingKey { name: "pitch_mm" }, "belt.pitch_mm", ""),
            "belt.pitch_mm is missing: a number, 1 to 40 mm.",
            "belt.pitch_mm fehlt: eine Zahl, 1 bis 40 mm.",
        ),
        (
            at(
                ProblemKind::WrongType {
                    found: Found::Text("167".into()),
                    wanted: kind("belt.teeth"),
                },
                "belt.teeth",
                "",
            ),
            "belt.teeth is the text “167”; it must be a whole number, 20 to 400 teeth. Leave the quotation marks out.",
            "belt.teeth ist der Text „167“; verlangt ist eine ganze Zahl, 20 bis 400 Zähne. Die Anführungszeichen weglassen.",
        ),
        (
            at(
                ProblemKind::Disagrees {
                    found: 6.0,
                    least: None,
                    most: Some(5.1 - 3.2),
                    inclusive: false,
                    unit: Unit::Millimetres,
                    set_by: "belt.thickness_mm".into(),
                },
                "belt.tooth_height_mm",
                "",
            ),
            "belt.tooth_height_mm is 6 mm; it must be below 1.9 mm, as follows from belt.thickness_mm.",
            "belt.tooth_height_mm ist 6 mm; der Wert muss kleiner als 1,9 mm sein, das folgt aus belt.thickness_mm.",
        ),
        (
            at(
                ProblemKind::Disagrees {
                    found: 120.0,
                    least: Some(0.0),
                    most: Some(0.0),
                    inclusive: true,
                    unit: Unit::Degrees,
                    set_by: "engine.fires_at_deg[0]".into(),
                },
                "engine.fires_at_deg",
                "",
            ),
            "The first entry of engine.fires_at_deg is 120°; it must be 0°.",
            "Der erste Eintrag von engine.fires_at_deg ist 120°; er muss 0° sein.",
        ),
        (
            at(ProblemKind::UnfitWheel { needs: Need::Marked }, "count[0].from", "pump"),
            "count[0].from is “pump”, which has no mark; it must be a wheel with a mark.",
            "count[0].from ist „pump“, ein Rad ohne Markierung; es muss ein Rad mit mark sein.",
        ),
        (
            at(
                ProblemKind::WrongCount { of: Counted::Tables, found: 65, fewest: 2, most: 64 },
                "wheel[64]",
                "",
            ),
            "There are 65 [[wheel]]; there must be 2 to 64.",
            "Es gibt 65 [[wheel]]; es müssen 2 bis 64 sein.",
        ),
    ] {
        assert_eq!(plain(Lang::En, &p), en);
        assert_eq!(plain(Lang::De, &p), de);
    }
}

#[test]
fn sentences_of_drives_in_both_languages() {
    let missed_by_rad = 4.2_f64.to_radians();
    for (flaw, en, de) in [
        (
            Flaw::NoTangent { from: 2, to: 0 },
            "The belt cannot get from the Idler to the Crankshaft: they overlap or one lies inside the other. Check where both stand and how large they are.",
            "Der Riemen kommt nicht von „Umlenkrolle“ nach „Kurbelwelle“: Sie überdecken sich oder eines liegt im anderen. Lage und Größe beider prüfen.",
        ),
        (
            Flaw::NotTouched { wheel: 1, missed_by_rad, when: When::Taut },
            "The belt would pass the Water pump without touching it (by 4.2°): it is on the wrong face, or its place is wrong.",
            "Der Riemen liefe am Rad „Wasserpumpe“ vorbei, ohne es zu berühren (um 4,2°): Die Riemenseite oder die Lage stimmt nicht.",
        ),
        (
            Flaw::SpansCross { a: 0, b: 2 },
            "The span from the Crankshaft to the Water pump crosses the span from the Idler to the Crankshaft. Check the order of the wheels and the face that runs on each.",
            "Das Trum von „Kurbelwelle“ nach „Wasserpumpe“ kreuzt das Trum von „Umlenkrolle“ nach „Kurbelwelle“. Reihenfolge der Räder und die Riemenseite auf jedem prüfen.",
        ),
    ] {
        assert_eq!(plain(Lang::En, &geometry(flaw)), en);
        assert_eq!(plain(Lang::De, &geometry(flaw)), de);
    }
}
