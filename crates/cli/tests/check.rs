//! What `two-turns check` tells of many files, and with which code it ends.

#![allow(clippy::unwrap_used, reason = "tests")]

mod run;

use run::{SIX, edited, keys, run, run_with};
use serde_json::Value;
use std::path::PathBuf;

/// A directory with a good layout, two that are not, and what is to be passed over.
fn directory(name: &str) -> PathBuf {
    let directory = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    let below = directory.join("below.toml");
    std::fs::create_dir_all(&below).unwrap();
    std::fs::write(directory.join("b-good.toml"), edited("", "")).unwrap();
    std::fs::write(directory.join("a-pitch.toml"), edited("pitch_mm = 9.525", "pitch_mm = 95"))
        .unwrap();
    std::fs::write(directory.join("c-bytes.toml"), b"\xff").unwrap();
    std::fs::write(directory.join("notes.txt"), "no layout").unwrap();
    std::fs::write(below.join("d.toml"), "no layout").unwrap();
    directory
}

fn lines(text: &str) -> Vec<&str> {
    text.lines().collect()
}

#[test]
fn sound_files_have_a_line_each() {
    let done = run(&["check", SIX, SIX]);
    assert_eq!((done.code, done.err.as_str()), (Some(0), ""));
    let line = format!("{SIX}: Six in a vee, one camshaft a bank, 173\u{a0}teeth: sound.");
    assert_eq!(lines(&done.out), [line.as_str(); 2]);
    let done = run_with(&["check", "-", "--lang", "de"], edited("", ""), &[]);
    assert_eq!(done.code, Some(0));
    assert!(done.out.starts_with("-: ") && done.out.ends_with(": in Ordnung.\n"), "{}", done.out);
}

#[test]
fn a_directory_stands_for_its_layouts() {
    let directory = directory("check-directory");
    let at = |file: &str| directory.join(file).display().to_string();
    let done = run(&["check", directory.to_str().unwrap(), SIX]);
    assert_eq!((done.code, done.err.as_str()), (Some(1), ""));
    let told = lines(&done.out);
    assert!(
        told[0].starts_with(&format!("{}:8:12: belt.pitch_mm: ", at("a-pitch.toml"))),
        "{told:?}"
    );
    // A pitch that is wrong leaves nothing to say of the geometry.
    assert!(told[1].starts_with(&format!("{}: Six", at("b-good.toml"))), "{told:?}");
    assert!(told[2].starts_with(&format!("{}:1:1: ", at("c-bytes.toml"))), "{told:?}");
    assert!(told[3].starts_with(&format!("{SIX}: Six")) && told.len() == 4, "{told:?}");
}

#[test]
fn what_cannot_be_read_outweighs_what_is_wrong() {
    let directory = directory("check-unreadable");
    let bad = directory.join("a-pitch.toml");
    let empty = directory.join("empty");
    std::fs::create_dir_all(&empty).unwrap();
    let done = run(&["check", "no-such.toml", bad.to_str().unwrap(), empty.to_str().unwrap(), SIX]);
    assert_eq!(done.code, Some(2));
    assert_eq!(lines(&done.out).len(), 2, "{}", done.out);
    let told = lines(&done.err);
    assert_eq!(told[0], "no-such.toml: There is no such file.");
    assert!(told[1].contains("empty: There is no layout file"), "{told:?}");
    assert_eq!(told.len(), 2);
}

#[test]
fn one_document_lists_all_files() {
    let directory = directory("check-json");
    let done = run(&["check", SIX, directory.to_str().unwrap(), "no-such.toml", "--json"]);
    assert_eq!((done.code, done.err.as_str()), (Some(2), ""));
    let document: Value = serde_json::from_str(&done.out).unwrap();
    let files = document["files"].as_array().unwrap();
    let states: Vec<&str> = files.iter().map(|file| file["state"].as_str().unwrap()).collect();
    assert_eq!(states, ["sound", "unsound", "sound", "unsound", "unreadable"]);
    assert_eq!(keys(&files[0]), ["adds_up", "belt_teeth", "file", "problems", "state", "title"]);
    assert_eq!((&files[0]["belt_teeth"], &files[0]["file"]), (&173.into(), &SIX.into()));
    assert_eq!(files[0]["problems"], Value::Array(Vec::new()));
    let problem = &files[1]["problems"][0];
    assert_eq!(keys(problem), ["column", "file", "key", "line", "message"]);
    assert_eq!((&problem["line"], &problem["key"]), (&8.into(), &"belt.pitch_mm".into()));
    assert!(files[1]["title"].is_null() && problem["file"] == files[1]["file"]);
    assert_eq!(files[4]["problems"][0]["message"], "There is no such file.");
    assert_eq!(run(&["check", SIX, "--json"]).code, Some(0));
    assert_eq!(run(&["check", directory.to_str().unwrap(), "--json"]).code, Some(1));
}

#[test]
fn many_files_keep_their_order() {
    let directory = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("check-many");
    std::fs::create_dir_all(&directory).unwrap();
    for n in 0..60 {
        let text = if n % 7 == 3 {
            "format = 1\n".to_owned()
        } else {
            edited("title = \"", &format!("title = \"{n:02} "))
        };
        std::fs::write(directory.join(format!("{n:02}.toml")), text).unwrap();
    }
    let done = run(&["check", directory.to_str().unwrap()]);
    assert_eq!((done.code, done.err.as_str()), (Some(1), ""));
    let mut numbers: Vec<&str> = lines(&done.out)
        .iter()
        .map(|line| &line.strip_prefix(directory.to_str().unwrap()).unwrap()[1..3])
        .collect();
    numbers.dedup();
    let all: Vec<String> = (0..60).map(|n| format!("{n:02}")).collect();
    assert_eq!(numbers, all);
}

#[test]
fn what_does_not_add_up_is_told_with_what_would() {
    let turned = edited("at_mm = [6.0, 240.0]", "at_mm = [240.0, 6.0]");
    let done = run_with(&["check", "-"], &turned, &[("LC_ALL", "C")]);
    assert_eq!((done.code, done.err.as_str()), (Some(1), ""));
    let told = done.out.replace('\u{a0}', " ");
    let cause = "-: Water pump at x 6, y 240 mm (x and y exchanged): then everything would fit to";
    assert!(told.contains(cause), "{told}");
    // Sound, and yet not right: the tensioner would stand far from where it is bolted up.
    let done = run_with(&["check", "-"], edited("teeth = 173", "teeth = 172"), &[("LC_ALL", "C")]);
    assert_eq!(done.code, Some(1));
    let can = "teeth: a belt can run so, but it does not add up.";
    assert!(done.out.contains(can) && done.out.contains("A belt of 173"), "{}", done.out);
    assert!(!done.out.contains("sound."), "{}", done.out);
    let done = run_with(&["check", "-", "--json"], &turned, &[]);
    let all: Value = serde_json::from_str(&done.out).unwrap();
    let adds_up = &all["files"][0]["adds_up"];
    assert_eq!(adds_up["adds_up"], false);
    assert_eq!(adds_up["causes"][0]["key"], "wheel[3].at_mm");
    assert_eq!(adds_up["causes"][0]["to"], "[6.0, 240.0]");
}

#[test]
fn a_camshaft_that_is_not_twice_the_crank_is_a_finding() {
    let wrong = edited("teeth = 48", "teeth = 47");
    let done = run_with(&["check", "-"], &wrong, &[("LC_ALL", "C")]);
    assert_eq!(done.code, Some(1));
    let told = done.out.replace('\u{a0}', " ");
    assert!(told.contains("with 24 teeth there it has 48, not 47 teeth"), "{told}");
    assert!(!told.contains("sound.") && !told.contains("49 teeth"), "{told}");
    let done = run_with(&["check", "-", "--json"], &wrong, &[]);
    let all: Value = serde_json::from_str(&done.out).unwrap();
    let out = &all["files"][0]["adds_up"]["camshafts_out"][0];
    assert_eq!((&out["wheel"], &out["usual_teeth"]), (&"cam_left".into(), &48.into()));
    let report = run_with(&["report", "-"], &wrong, &[("LC_ALL", "C")]).out;
    assert!(report.contains("it has 48, not 47"), "{report}");
}

#[test]
fn a_provisional_layout_is_called_so() {
    let text = edited("format = 1", "format = 1\nprovisional = true");
    let done = run_with(&["check", "-"], &text, &[("LC_ALL", "C")]);
    assert!(done.out.ends_with("teeth: provisional, sound.\n"), "{}", done.out);
}
