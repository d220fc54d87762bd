//! Runs the built command.
#![allow(dead_code, clippy::unwrap_used, reason = "a test uses its part; what fails, fails it")]

use serde_json::Value;
use std::io::Write as _;
use std::process::{Command, Stdio};

/// The layout that ships: crank 24 teeth, camshafts 48, belt 173, travel −38 to 12 mm.
pub const SIX: &str =
    concat!(env!("CARGO_MANIFEST_DIR"), "/../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

/// What came of it.
pub struct Done {
    pub code: Option<i32>,
    pub out: String,
    pub err: String,
}

/// Runs the command with an environment in English and nothing on standard input.
pub fn run(args: &[&str]) -> Done {
    run_with(args, "", &[("LC_ALL", "C")])
}

/// Runs the command with this on standard input and these variables.
pub fn run_with(args: &[&str], input: impl AsRef<[u8]>, variables: &[(&str, &str)]) -> Done {
    let mut child = Command::new(env!("CARGO_BIN_EXE_two-turns"))
        .args(args)
        .env_remove("LC_ALL")
        .env_remove("LC_MESSAGES")
        .env_remove("LANG")
        .envs(variables.iter().copied())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // One that reads nothing may have gone already.
    let _ = child.stdin.take().unwrap().write_all(input.as_ref());
    let done = child.wait_with_output().unwrap();
    Done {
        code: done.status.code(),
        out: String::from_utf8(done.stdout).unwrap(),
        err: String::from_utf8(done.stderr).unwrap(),
    }
}

/// Runs it with `--json`; it must be done, and say nothing else.
pub fn json(args: &[&str]) -> Value {
    let args = [args, &["--json"]].concat();
    let done = run(&args);
    assert_eq!((done.code, done.err.as_str()), (Some(0), ""), "{args:?}");
    serde_json::from_str(&done.out).unwrap()
}

/// The layout that ships, with `from` replaced.
pub fn edited(from: &str, to: &str) -> String {
    let text = std::fs::read_to_string(SIX).unwrap();
    assert!(text.contains(from), "{from}");
    text.replacen(from, to, 1)
}

/// The keys of an object, in alphabetical order.
pub fn keys(value: &Value) -> Vec<&str> {
    let mut keys: Vec<&str> = value.as_object().unwrap().keys().map(String::as_str).collect();
    keys.sort_unstable();
    keys
}

/// All of `key` in a list of objects.
pub fn numbers(list: &Value, key: &str) -> Vec<f64> {
    list.as_array().unwrap().iter().map(|entry| entry[key].as_f64().unwrap()).collect()
}

/// The object of a list that has this id.
pub fn with_id<'v>(list: &'v Value, id: &str) -> &'v Value {
    list.as_array().unwrap().iter().find(|entry| entry["id"] == id).unwrap()
}
