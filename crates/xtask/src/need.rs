//! What has to be on the machine before a command can work: compile targets, Node, its packages.
//!
//! Fetches what can be fetched, and says in one sentence what cannot. Must not know what the tools
//! are used for.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::SystemTime;

use anyhow::{Context, Result, anyhow, bail};

use crate::project::{Project, output, run};

/// Makes sure that Rust can compile for a target, adding it with rustup when it is missing.
///
/// # Errors
/// When it is missing and there is no rustup, or rustup cannot fetch it.
pub fn target(project: &Project, name: &str) -> Result<()> {
    let mut ask = Command::new("rustc");
    let folder = output(ask.current_dir(&project.root).args([
        "--print",
        "target-libdir",
        "--target",
        name,
    ]))?;
    if Path::new(folder.trim()).is_dir() {
        return Ok(());
    }
    if !answers("rustup") {
        bail!(
            "Rust's target {name} is missing and there is no `rustup` to add it: install rustup, \
             or the package of your system that brings this target"
        );
    }
    println!("adding Rust's target {name}");
    run(Command::new("rustup").current_dir(&project.root).args(["target", "add", name]))
        .with_context(|| format!("Rust's target {name} is missing and could not be added"))
}

/// Makes sure that there is Node, and that the packages of one folder are those of its lock file.
///
/// # Errors
/// When there is no Node or no npm, or the packages cannot be fetched.
pub fn packages(project: &Project, folder: &str) -> Result<()> {
    node()?;
    let place = project.root.join(folder);
    let lock = changed(&place.join("package-lock.json"))
        .ok_or_else(|| anyhow!("{folder}/package-lock.json is missing: take it back from git"))?;
    if changed(&place.join("node_modules/.package-lock.json")).is_some_and(|kept| kept >= lock) {
        return Ok(());
    }
    let npm = if cfg!(windows) { "npm.cmd" } else { "npm" };
    if !answers(npm) {
        bail!("`npm` was not found: it comes with Node.js, or with your system's package npm");
    }
    println!("fetching the packages of {folder}");
    // Nothing here needs the install scripts that packages bring along, so none is run.
    let words = ["ci", "--ignore-scripts", "--no-fund", "--no-audit", "--loglevel=error"];
    run(Command::new(npm).current_dir(place).args(words).stdout(Stdio::null()))
        .with_context(|| format!("the packages of {folder} could not be fetched"))
}

/// Makes sure that there is Node.
///
/// # Errors
/// When there is none.
pub fn node() -> Result<()> {
    if !answers("node") {
        bail!(
            "Node.js was not found: install version 20 or later, so that `node --version` answers"
        );
    }
    Ok(())
}

/// A command that one of the fetched packages brings.
#[must_use]
pub fn tool(project: &Project, folder: &str, name: &str) -> Command {
    let file = if cfg!(windows) { format!("{name}.cmd") } else { name.to_owned() };
    let path: PathBuf = project.root.join(folder).join("node_modules/.bin").join(file);
    let mut command = Command::new(path);
    command.current_dir(project.root.join(folder));
    command
}

/// Whether a program is there: it starts, and tells its version.
#[must_use]
pub fn answers(program: &str) -> bool {
    let mut ask = Command::new(program);
    ask.arg("--version").stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    ask.status().is_ok_and(|status| status.success())
}

fn changed(file: &Path) -> Option<SystemTime> {
    file.metadata().and_then(|about| about.modified()).ok()
}
