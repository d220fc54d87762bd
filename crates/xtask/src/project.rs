//! Where things lie in this project, and how its commands are started.
//!
//! Must not know what any command is for.

use std::ffi::{OsStr, OsString};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, anyhow, bail};
use serde_json::Value;

/// The project as cargo sees it.
pub struct Project {
    /// The folder of the workspace's `Cargo.toml`.
    pub root: PathBuf,
    /// Where cargo puts what it builds.
    pub target: PathBuf,
    packages: Vec<Value>,
}

impl Project {
    /// Asks cargo where the project is.
    ///
    /// # Errors
    /// When cargo does not answer, which in a command started by cargo means a broken `Cargo.toml`.
    pub fn find() -> Result<Self> {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        // A copied target folder carries the old place in `env!`: the running cargo knows better.
        let here = std::env::var_os("CARGO_MANIFEST_DIR").map_or(here.to_path_buf(), PathBuf::from);
        let mut ask = cargo(&here);
        ask.args(["metadata", "--no-deps", "--format-version=1"]);
        let answer: Value = serde_json::from_str(&output(&mut ask)?)
            .context("`cargo metadata` answered something that is not JSON")?;
        let folder = |key: &str| {
            let path = answer[key].as_str().map(PathBuf::from);
            path.ok_or_else(|| anyhow!("`cargo metadata` did not say its `{key}`"))
        };
        Ok(Self {
            root: folder("workspace_root")?,
            target: folder("target_directory")?,
            packages: answer["packages"].as_array().cloned().unwrap_or_default(),
        })
    }

    /// A cargo command in the project's folder.
    #[must_use]
    pub fn cargo<S: AsRef<OsStr>>(&self, words: impl IntoIterator<Item = S>) -> Command {
        let mut command = cargo(&self.root);
        command.args(words);
        command
    }

    /// The names of the workspace's packages.
    pub fn packages(&self) -> impl Iterator<Item = &str> {
        self.packages.iter().filter_map(|package| package["name"].as_str())
    }

    /// Whether the workspace has a package of this name.
    #[must_use]
    pub fn has_package(&self, name: &str) -> bool {
        self.packages().any(|package| package == name)
    }

    /// Whether a package has a benchmark to run.
    #[must_use]
    pub fn has_bench(&self, name: &str) -> bool {
        let found = self.packages.iter().find(|package| package["name"] == name);
        let targets = found.and_then(|package| package["targets"].as_array());
        let is_bench = |target: &Value| {
            target["kind"].as_array().is_some_and(|kinds| kinds.iter().any(|kind| kind == "bench"))
        };
        targets.is_some_and(|targets| targets.iter().any(is_bench))
    }
}

fn cargo(folder: &Path) -> Command {
    let program = std::env::var_os("CARGO").unwrap_or_else(|| OsString::from("cargo"));
    let mut command = Command::new(program);
    command.current_dir(folder);
    command
}

/// Runs a command to its end, its lines going straight to the screen.
///
/// # Errors
/// When it cannot be started, or ends with anything but success.
pub fn run(command: &mut Command) -> Result<()> {
    let status = command.status().with_context(|| format!("could not start {}", line(command)))?;
    if !status.success() {
        bail!("{} failed ({status}); its own lines above say why", line(command));
    }
    Ok(())
}

/// Runs a command and returns what it printed; its complaints go to the screen.
///
/// # Errors
/// When it cannot be started, or ends with anything but success.
pub fn output(command: &mut Command) -> Result<String> {
    let done = command
        .stderr(Stdio::inherit())
        .output()
        .with_context(|| format!("could not start {}", line(command)))?;
    if !done.status.success() {
        bail!("{} failed ({})", line(command), done.status);
    }
    String::from_utf8(done.stdout).with_context(|| format!("{} did not print text", line(command)))
}

/// A command as a person would type it, without the folder of its program.
#[must_use]
pub fn line(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let mut words = vec![program.file_stem().unwrap_or_default().to_string_lossy()];
    words.extend(command.get_args().map(OsStr::to_string_lossy));
    format!("`{}`", words.join(" "))
}
