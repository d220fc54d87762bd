//! The layouts that ship, those that are broken on purpose, and thousands broken at random: each opens
//! sound or is answered by its problems, never otherwise.
//!
//! Must not know: how a file is read, or by which signs a drive is judged.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use core::f64::consts::TAU;
use layout::{MOST_BYTES, MOST_PROBLEMS, Plan, Problem, ProblemKind, TensionerKind};
use proofs::slip::slipped;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use toml::de::{DeTable, DeValue};

const MUTATIONS: u64 = 10_000;
const NOTICE: &str =
    "Invented for demonstration. Not a real engine: take no figure from it to a vehicle.";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../layouts")
}

/// The names of the files ending in `.toml`, in order.
fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.ends_with(".toml"))
        .collect();
    names.sort();
    names
}

fn shipped() -> Vec<(String, String)> {
    let folder = folder();
    let read = |name: String| {
        let text = std::fs::read_to_string(folder.join(&name)).unwrap();
        (name, text)
    };
    names(&folder).into_iter().map(read).collect()
}

fn open(name: &str, text: &str) -> Plan {
    Plan::open(text).unwrap_or_else(|problems| panic!("{name}: {problems:?}"))
}

/// Where the tensioner stands bolted up, locked, or by its window: lowest and highest, in the file's unit.
fn setting(kind: &TensionerKind) -> [f64; 2] {
    match *kind {
        TensionerKind::Slide { pinned_mm: at, .. }
        | TensionerKind::Arm { pinned_deg: at, .. }
        | TensionerKind::Eccentric { set_deg: at, .. } => [at, at],
        TensionerKind::SprungEccentric { pointer_window_deg, .. } => pointer_window_deg,
    }
}

#[test]
fn the_shipped_layouts_are_what_they_say() {
    let shipped = shipped();
    assert_eq!(shipped.len(), 6);
    let mut titles = BTreeSet::new();
    for (name, text) in &shipped {
        let stem = name.strip_suffix(".toml").unwrap();
        assert!(stem.bytes().all(|b| b.is_ascii_lowercase() || b == b'-'), "{name}");
        let plan = open(name, text);
        assert!(titles.insert(plan.layout.title.clone()), "{name}: title given twice");
        assert!(plan.layout.about.as_ref().unwrap().starts_with(NOTICE), "{name}");
        assert!(!plan.layout.cautions.is_empty(), "{name}");
        assert!(plan.layout.wheels.iter().all(|wheel| wheel.friction_n_m.is_some()), "{name}");
        let belt = &plan.layout.belt;
        assert!(belt.width_mm.is_some() && belt.tensile_stiffness_n.is_some(), "{name}");
        assert!(belt.mass_kg_per_m.is_some(), "{name}");

        let report = advice::report(&plan);
        for shaft in &report.shafts {
            assert!(shaft.best_tooth_error_teeth.abs() < 0.25, "{name}: {shaft:?}");
        }
        let freed = report.tensioner.slack_when_back_mm / report.belt.pitch_mm;
        assert!((1.5..=4.0).contains(&freed), "{name}: right back frees {freed} teeth");
        let [low, high] = setting(&plan.layout.tensioner.kind);
        let taut = report.tensioner.travel;
        assert!(taut.abs() <= 2.5, "{name}: taut at {taut}");
        assert!(low - 3.5 <= taut && taut <= high + 3.5, "{name}: taut at {taut}");
        for (wheel, values) in report.wheels.iter().zip(&plan.layout.wheels) {
            let (mesh, wrap) = (wheel.teeth_in_mesh, wheel.wrap_deg);
            let believable = match values.role {
                layout::Role::Crank => mesh >= 8.0,
                layout::Role::Camshaft | layout::Role::InjectionPump => mesh >= 10.0,
                layout::Role::Idler => (15.0..=90.0).contains(&wrap),
                _ => wrap >= 15.0,
            };
            assert!(believable, "{name}: {wheel:?}");
        }
        check_sound(&plan, name);
    }
}

/// Counted teeth in a shipped layout are those that its geometry gives without them.
#[test]
fn counts_in_the_shipped_layouts_agree_with_the_geometry() {
    let mut counted = 0;
    for (name, text) in shipped() {
        let with = open(&name, &text);
        counted += with.layout.counts.len();
        let blocks = text.split("\n\n").filter(|block| !block.starts_with("[[count]]"));
        let without = open(&name, &blocks.collect::<Vec<_>>().join("\n\n"));
        assert!(without.layout.counts.is_empty());
        assert_eq!(with.drive.teeth_in_time(), without.drive.teeth_in_time(), "{name}");
    }
    assert!(counted > 0);
}

/// What the table says of one file: line, column, key, kind, and what tells some kinds apart.
type Told = (usize, usize, String, String, Option<String>);

fn string(value: &DeValue<'_>) -> String {
    value.as_str().unwrap().to_owned()
}

fn number(value: &DeValue<'_>) -> usize {
    value.as_integer().unwrap().as_str().parse().unwrap()
}

/// What the table says of each file, and whether it is not yet so.
fn table() -> BTreeMap<String, (BTreeSet<Told>, bool)> {
    let text = std::fs::read_to_string(folder().join("broken/expected.toml")).unwrap();
    let document = DeTable::parse(&text).unwrap();
    let mut files = BTreeMap::new();
    for file in document.get_ref()["file"].get_ref().as_array().unwrap() {
        let file = file.get_ref().as_table().unwrap();
        assert!(!string(file["slip"].get_ref()).is_empty());
        let problems = file["problems"].get_ref().as_array().unwrap();
        let told: BTreeSet<Told> = problems
            .iter()
            .map(|problem| {
                let problem = problem.get_ref().as_table().unwrap();
                let at = problem["at"].get_ref().as_array().unwrap();
                let of = problem.get("fault").or(problem.get("when"));
                (
                    number(at[0].get_ref()),
                    number(at[1].get_ref()),
                    string(problem["key"].get_ref()),
                    string(problem["kind"].get_ref()),
                    of.map(|of| string(of.get_ref())),
                )
            })
            .collect();
        assert_eq!(told.len(), problems.len(), "the table says one thing twice");
        let name = string(file["name"].get_ref());
        let not_yet = file.get("not_yet").is_some();
        assert!(files.insert(name.clone(), (told, not_yet)).is_none(), "{name} is there twice");
    }
    files
}

/// The name of an enum's variant.
fn variant(value: &impl core::fmt::Debug) -> String {
    format!("{value:?}").chars().take_while(|c| c.is_alphanumeric()).collect()
}

fn told(problem: &Problem) -> Told {
    let (kind, of) = match &problem.kind {
        ProblemKind::Syntax { fault, .. } => (variant(&problem.kind), Some(variant(fault))),
        ProblemKind::Geometry { flaw, .. } => {
            let when = match flaw {
                drive::Flaw::NotTouched { when, .. } => Some(variant(when)),
                _ => None,
            };
            (variant(flaw), when)
        }
        ProblemKind::Engine { flaw } => (variant(flaw), None),
        kind => (variant(kind), None),
    };
    (problem.place.line, problem.place.column, problem.key.clone(), kind, of)
}

#[test]
fn each_broken_file_gives_exactly_its_problems() {
    let folder = folder().join("broken");
    let mut wrong = String::new();
    for (name, (expected, not_yet)) in table() {
        let bytes = std::fs::read(folder.join(&name)).unwrap();
        let problems = Plan::open_bytes(&bytes).err().unwrap_or_default();
        let found: BTreeSet<Told> = problems.iter().map(told).collect();
        let as_expected = found == expected && found.len() == problems.len();
        assert!(!problems.is_empty(), "{name} opens");
        if as_expected == not_yet {
            wrong += &format!("{name}\n  expected {expected:?}\n  found    {found:?}\n");
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn every_broken_file_is_in_the_table_and_the_other_way_round() {
    let files: BTreeSet<String> = names(&folder().join("broken")).into_iter().collect();
    let mut listed: BTreeSet<String> = table().into_keys().collect();
    listed.insert("expected.toml".to_owned());
    assert_eq!(files, listed);
    assert!(files.len() > 45);
}

/// Every kind of problem and every flaw that a file can have occurs among the broken ones. `TooLong`
/// and `More` are made below.
#[test]
fn the_broken_files_have_every_kind_of_problem() {
    let kinds: BTreeSet<String> =
        table().into_values().flat_map(|(told, _)| told).map(|(_, _, _, kind, _)| kind).collect();
    for kind in [
        "NotUtf8",
        "Syntax",
        "UnknownKey",
        "MissingKey",
        "OutOfPlace",
        "OneOf",
        "WrongType",
        "OutOfBounds",
        "NotFinite",
        "NotWhole",
        "NotAChoice",
        "WrongCount",
        "NotInOrder",
        "Disagrees",
        "PointerOutside",
        "BadId",
        "RepeatedId",
        "UnknownWheel",
        "UnfitWheel",
        "NoCrank",
        "NoTangent",
        "NotTouched",
        "Overlap",
        "SpanThroughWheel",
        "SpansCross",
        "SpansTouch",
        "NoMetal",
        "BeltTooShort",
        "BeltTooLong",
        "DeadPoint",
        "CountNotWhole",
        "CountLeavesNone",
        "CountsDoNotSum",
        "UnequalLists",
        "OutOfRange",
        "NotBetween",
        "MovedTwice",
        "TableTurnsBack",
        "MeetsMoreThanOne",
    ] {
        assert!(kinds.contains(kind), "no broken file gives {kind}");
    }
}

#[test]
fn a_file_too_long_and_a_list_too_long() {
    let (name, text) = &shipped()[0];
    let filled = format!("{text}{}", "#".repeat(MOST_BYTES - text.len()));
    open(name, &filled);
    let problems = Plan::open(&format!("{filled}#")).unwrap_err();
    let [ProblemKind::TooLong { bytes, most }] = [problems[0].kind.clone()] else {
        panic!("{problems:?}")
    };
    assert_eq!((problems.len(), bytes, most), (1, MOST_BYTES + 1, MOST_BYTES));

    let keys: String = (0..=MOST_PROBLEMS).map(|n| format!("bolt_{n} = 1\n")).collect();
    let problems = Plan::open(&(keys + text)).unwrap_err();
    assert_eq!(problems.len(), MOST_PROBLEMS + 1);
    assert_eq!(problems.last().unwrap().kind, ProblemKind::More { count: 1 });
}

/// A plan that opened holds what it promises.
fn check_sound(plan: &Plan, what: &str) {
    let drive = &plan.drive;
    let stance = drive.taut_stance();
    let (path, n) = (&stance.path, stance.discs.len());
    let mut turned = 0.0;
    for i in 0..n {
        let (span, disc, next) = (&path.spans[i], &stance.discs[i], &stance.discs[(i + 1) % n]);
        // The path is closed: every span ends where the next wheel's arc begins, square to its radius.
        let ends = [(span.leaves - disc.centre, disc), (span.meets - next.centre, next)];
        for (out, disc) in ends {
            assert!((out.length() - disc.radius).abs() < 1e-6, "{what}: span {i} off its wheel");
            assert!(out.dot(span.direction).abs() < 1e-6, "{what}: span {i} not a tangent");
        }
        assert!((0.0..TAU).contains(&path.wraps_rad[i]), "{what}: wrap {i}");
        turned += disc.sense * path.wraps_rad[i];
    }
    assert!((turned * drive.crank_turns().sign() - TAU).abs() < 1e-6, "{what}: turns {turned}");
    let belt = drive.belt();
    assert!((path.length_mm - belt.pitch_length_mm()).abs() < 1e-5, "{what}: {}", path.length_mm);

    let report = advice::report(plan);
    let teeth: i64 = report.counts.iter().map(|count| count.teeth).sum();
    assert_eq!(teeth, i64::from(belt.teeth), "{what}");
    assert_eq!(drive.teeth_in_time().iter().sum::<i64>(), i64::from(belt.teeth), "{what}");
    assert!(report.tensioner.slack_when_back_mm >= -1e-6, "{what}: {:?}", report.tensioner);
    let mut report = serde_json::to_value(report).unwrap();
    // The figures that may be missing; any other null is a number that is none.
    report["stripes"]["crank_turns_to_meet_every_mark"] = 0.into();
    for c in report["clearance"].as_array_mut().unwrap() {
        for key in ["least_gap_phased_mm", "teeth_early_to_contact", "teeth_late_to_contact"] {
            c[key] = 0.into();
        }
    }
    let text = report.to_string();
    assert_eq!(text.matches("null").count(), 0, "{what}: {text}");
}

#[test]
fn random_slips_open_sound_or_are_told() {
    let shipped = shipped();
    let (mut sound, mut kinds) = (0_u64, BTreeMap::<String, u64>::new());
    for seed in 0..MUTATIONS {
        let mut rng = fastrand::Rng::with_seed(seed);
        let (name, text) = &shipped[rng.usize(..shipped.len())];
        let other = &shipped[rng.usize(..shipped.len())].1;
        let text = slipped(&mut rng, text, other);
        match Plan::open(&text) {
            Ok(plan) => {
                sound += 1;
                check_sound(&plan, &format!("seed {seed}, {name}"));
            }
            Err(problems) => {
                assert!((1..=MOST_PROBLEMS + 1).contains(&problems.len()), "seed {seed}, {name}");
                for problem in problems {
                    let place = problem.place;
                    assert!(place.line >= 1 && place.column >= 1, "seed {seed}");
                    assert!(place.to_byte <= text.len(), "seed {seed}: {problem:?}");
                    *kinds.entry(told(&problem).3).or_default() += 1;
                }
            }
        }
    }
    println!("{sound} sound of {MUTATIONS}; {kinds:?}");
    assert!(sound > MUTATIONS / 10 && kinds.len() > 20, "{sound} sound, {kinds:?}");
}

/// The layouts that ship are read in every language of the page.
#[test]
fn what_the_shipped_layouts_say_is_known_in_german() {
    use words::{Lang, written};
    for file in std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../layouts")).unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_none_or(|e| e != "toml") {
            continue;
        }
        let layout = Plan::open(&std::fs::read_to_string(&path).unwrap()).unwrap().layout;
        let mut texts = vec![layout.title, layout.about.unwrap_or_default()];
        texts.extend(layout.cautions.into_iter().map(|caution| caution.text));
        texts.extend(layout.wheels.iter().map(|wheel| wheel.name.clone()));
        texts.extend(layout.wheels.into_iter().filter_map(|wheel| wheel.position_check));
        for text in texts {
            assert_ne!(written(Lang::De, &text), text, "{}", path.display());
            assert_eq!(written(Lang::En, &text), text);
        }
    }
}
