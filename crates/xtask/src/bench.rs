//! `cargo xtask bench`: how long things take, native and in the browser.
//!
//! Must not know what is measured: the benchmarks print their own medians.

use std::process::Command;

use anyhow::Result;

use crate::project::{Project, run};
use crate::{need, page};

/// Runs the native benchmarks of `tests`, then `tests/browser/bench.mjs`.
///
/// # Errors
/// When one of them fails, or something that it needs is missing.
pub fn run_all(project: &Project) -> Result<()> {
    if project.has_bench("proofs") {
        println!("== native");
        run(&mut project.cargo(["bench", "-p", "proofs", "--bench", "*"]))?;
    } else {
        println!("No native benchmark: the package `proofs` has no bench target.");
    }
    let folder = project.root.join("tests/browser");
    if folder.join("bench.mjs").exists() {
        println!("== in the browser");
        page::build(project)?;
        need::packages(project, "tests/browser")?;
        run(Command::new("node").current_dir(folder).arg("bench.mjs"))?;
    } else {
        println!("No browser benchmark: tests/browser/bench.mjs is not there.");
    }
    Ok(())
}
