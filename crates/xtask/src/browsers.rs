//! The tests in real browsers: which are there, which can be had, and which are left out.
//!
//! Where a browser lies is told by `tests/browser/engines.mjs`, and how it is driven is known only
//! there. Must not know what the tests look at.

use std::path::Path;
use std::process::{Command, Stdio};

use anyhow::{Result, anyhow};

use crate::need;
use crate::project::{Project, output, run};
use crate::test::Outcome;

const FOLDER: &str = "tests/browser";

/// A browser engine on this machine.
struct Engine {
    name: String,
    /// What is not there, in words.
    missing: Option<String>,
    /// The Debian packages that bring it.
    packages: Vec<String>,
}

/// Runs the browser tests, after fetching the browsers where the machine allows that.
///
/// # Errors
/// When a test fails, or Node is missing.
pub fn test(project: &Project) -> Result<Outcome> {
    need::packages(project, FOLDER)?;
    let mut engines = look(project)?;
    if engines.iter().any(|engine| engine.missing.is_some()) && can_install() {
        // A failure is no reason to stop: what is there is tested, and what is not is named.
        if let Err(problem) = install(&engines) {
            println!("{problem:#}");
        }
        engines = look(project)?;
    }
    let absent: Vec<String> = engines
        .iter()
        .filter_map(|engine| Some(format!("{}, {}", engine.name, engine.missing.as_ref()?)))
        .collect();
    if absent.len() == engines.len() {
        let reason = "no browser was found: install Chromium or Firefox, and this check runs";
        return Ok(Outcome::LeftOut(reason.to_owned()));
    }
    let mut tests = Command::new("node");
    run(tests.current_dir(project.root.join(FOLDER)).args([
        "--test",
        "--test-concurrency=3",
        "--test-reporter=spec",
    ]))?;
    Ok(if absent.is_empty() { Outcome::Passed } else { Outcome::Partly(absent.join("; ")) })
}

/// Asks the tests themselves what they find, so that there is one list only.
fn look(project: &Project) -> Result<Vec<Engine>> {
    let mut ask = Command::new("node");
    let lines = output(ask.current_dir(project.root.join(FOLDER)).arg("engines.mjs"))?;
    lines.lines().map(engine).collect()
}

fn engine(line: &str) -> Result<Engine> {
    let words: Vec<&str> = line.split('\t').collect();
    let [name, state, packages] = words[..] else {
        return Err(anyhow!(
            "{FOLDER}/engines.mjs printed `{line}`, which is not name, state, packages"
        ));
    };
    Ok(Engine {
        name: name.to_owned(),
        missing: (state != "found").then(|| state.to_owned()),
        packages: packages.split(' ').map(str::to_owned).collect(),
    })
}

/// Whether this is a Debian whose packages we may install without asking anyone.
fn can_install() -> bool {
    let user = Command::new("id").arg("-u").output();
    let is_root = user.is_ok_and(|answer| answer.stdout.trim_ascii() == b"0");
    is_root && Path::new("/etc/debian_version").exists() && need::answers("apt-get")
}

fn install(engines: &[Engine]) -> Result<()> {
    let missing = engines.iter().filter(|engine| engine.missing.is_some());
    let packages: Vec<&str> =
        missing.flat_map(|engine| &engine.packages).map(String::as_str).collect();
    println!("installing {}", packages.join(" "));
    run(Command::new("apt-get").args(["update", "-qq"]).stdout(Stdio::null()))?;
    let mut install = Command::new("apt-get");
    install.env("DEBIAN_FRONTEND", "noninteractive");
    install.args(["install", "-y", "-qq", "--no-install-recommends"]);
    // Without one font at least, a page has no letters.
    run(install.args(packages).arg("fonts-dejavu-core").stdout(Stdio::null()))
}
