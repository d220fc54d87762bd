//! Files and lines that are not right: what standard error says, and with which code it ends.

#![allow(clippy::unwrap_used, reason = "tests")]

mod run;

use run::{SIX, edited, keys, run, run_with};
use serde_json::Value;
use std::process::{Command, Stdio};

fn report(text: impl AsRef<[u8]>) -> run::Done {
    run_with(&["report", "-"], text, &[])
}

/// Where `found` stands in the layout that ships: `line:column`.
fn place(text: &str, found: &str) -> String {
    let before = &text[..text.find(found).unwrap()];
    let column = before.chars().rev().take_while(|c| *c != '\n').count();
    format!("{}:{}", before.matches('\n').count() + 1, column + 1)
}

#[test]
fn every_problem_has_its_line() {
    let text = edited("teeth = 24", "teth = 24").replacen("pitch_mm = 9.525", "pitch_mm = 95", 1);
    let done = report(&text);
    assert_eq!((done.code, done.out.as_str()), (Some(2), ""));
    let lines: Vec<&str> = done.err.lines().collect();
    let pitch = format!("-:{}: belt.pitch_mm: ", place(&text, "95"));
    let teeth = format!("-:{}: wheel[0].teth: ", place(&text, "teth"));
    assert_eq!(lines[0], format!("{pitch}belt.pitch_mm is 95\u{a0}mm; it may be 1 to 40\u{a0}mm."));
    assert!(lines.iter().any(|line| *line
        == format!("{teeth}Wheel “crank”: there is no key “teth” here. Did you mean “teeth”?")));
}

#[test]
fn as_json_the_same_list_stands_on_standard_error() {
    let text = edited("teeth = 173", "teeth = 5");
    let done = run_with(&["report", "-", "--json"], &text, &[("LANG", "de_DE")]);
    assert_eq!((done.code, done.out.as_str()), (Some(2), ""));
    let faults: Value = serde_json::from_str(&done.err).unwrap();
    assert_eq!(keys(&faults[0]), ["column", "file", "key", "line", "message"]);
    assert_eq!(faults[0]["file"], "-");
    assert_eq!(faults[0]["key"], "belt.teeth");
    assert_eq!(faults[0]["line"], 7);
    assert_eq!(faults[0]["column"], 9);
    assert_eq!(faults[0]["message"], "belt.teeth ist 5; ein Riemen hat 20 bis 400\u{a0}Zähne.");
}

#[test]
fn geometry_names_the_wheels() {
    // The idler onto the crank.
    let done = report(edited("at_mm = [89.0, 125.0]", "at_mm = [5.0, 5.0]"));
    assert_eq!(done.code, Some(2));
    assert!(done.err.contains("the Idler") && done.err.contains("wheel[0].at_mm"), "{}", done.err);
    // 20 teeth too many for any travel.
    let done = report(edited("teeth = 173", "teeth = 193"));
    assert!(done.err.contains("shorter than the belt"), "{}", done.err);
}

#[test]
fn what_is_no_layout_is_refused_in_one_line() {
    for text in [&b"\xff\xfe"[..], b"format = 1\n# \xc3\x28", &[b'#'; 200_000]] {
        let done = report(text);
        assert_eq!((done.code, done.out.as_str()), (Some(2), ""));
        assert_eq!(done.err.lines().count(), 1, "{}", done.err);
        assert!(done.err.starts_with("-:"), "{}", done.err);
    }
    assert_eq!(report("").code, Some(2));
    // Nothing that a file holds breaks a line or reaches the terminal as a command.
    let done = report(edited("title =", "\"a\\nb\\u001b[2J\" = 1\ntitle ="));
    assert_eq!((done.code, done.err.lines().count()), (Some(2), 1), "{}", done.err);
    assert!(!done.err.contains('\u{1b}'));
}

#[test]
fn files_that_cannot_be_read() {
    let directory = env!("CARGO_MANIFEST_DIR");
    for (file, says) in
        [("no-such.toml", "no-such.toml: There is no such file."), (directory, "directory")]
    {
        for command in ["report", "pose"] {
            let done = run(&[command, file]);
            assert_eq!((done.code, done.out.as_str()), (Some(2), ""));
            assert!(done.err.contains(says) && done.err.lines().count() == 1, "{}", done.err);
        }
    }
    let done = run_with(&["report", "no-such.toml", "--json", "--lang", "de"], "", &[]);
    let faults: Value = serde_json::from_str(&done.err).unwrap();
    assert_eq!(faults[0]["message"], "Diese Datei gibt es nicht.");
    assert!(faults[0]["line"].is_null());
}

#[test]
fn what_cannot_be_asked_ends_with_2() {
    for args in [
        &[][..],
        &["report"],
        &["turn", SIX],
        &["report", SIX, "--xml"],
        &["pose", SIX, "--teeth", "cam_left"],
        &["pose", SIX, "--crank-deg", "a bit"],
        &["report", SIX, "--lang", "xx"],
    ] {
        let done = run(args);
        assert_eq!((done.code, done.out.as_str()), (Some(2), ""), "{args:?}");
        assert!(!done.err.is_empty());
    }
    assert_eq!(run(&["--help"]).code, Some(0));
}

#[test]
fn a_reader_that_has_had_enough_is_no_fault() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_two-turns"))
        .args(["pose", SIX, "--json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let done = child.wait_with_output().unwrap();
    assert_eq!((done.status.code(), done.stderr.len()), (Some(0), 0));
}
