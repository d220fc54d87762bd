//! Proof that the mathematics stays mathematics: the pure crates build for a processor without an
//! operating system, lean on nothing but arithmetic, and only the page's crate knows the browser.
//!
//! Must not know what the pure crates compute.

use std::collections::BTreeSet;

use anyhow::{Result, bail};

use crate::need;
use crate::project::{Project, output, run};
use crate::test::Outcome;

/// A processor with a floating-point unit and nothing else: there is no standard library for it.
const BARE: &str = "thumbv7em-none-eabihf";

/// The pure crates, each with all that it may lean on, directly or not.
const PURE: &[(&str, &[&str])] = &[("drive", &["glam", "libm"]), ("engine", &["libm"])];

/// Builds each pure crate alone, so that no other crate can turn on something for it.
///
/// # Errors
/// When one of them does not build, or the target cannot be had.
pub fn bare_metal(project: &Project) -> Result<Outcome> {
    need::target(project, BARE)?;
    for (name, _) in there(project) {
        run(&mut project.cargo(["build", "-p", name, "--lib", "--target", BARE]))?;
    }
    Ok(Outcome::Passed)
}

/// Looks at who leans on whom.
///
/// # Errors
/// When a pure crate leans on something new, or a crate other than the page's on wasm-bindgen.
pub fn dependencies(project: &Project) -> Result<Outcome> {
    for (name, allowed) in there(project) {
        let leans_on = tree(project, name)?;
        let strangers: Vec<&str> = leans_on
            .iter()
            .map(String::as_str)
            .filter(|found| *found != *name && !allowed.contains(found))
            .collect();
        if !strangers.is_empty() {
            bail!(
                "crates/{name} may lean on {} only, and leans on {} too: take that out of its Cargo.toml",
                allowed.join(" and "),
                strangers.join(", ")
            );
        }
    }
    let mut with_bindings = Vec::new();
    for name in project.packages() {
        if tree(project, name)?.contains("wasm-bindgen") {
            with_bindings.push(name);
        }
    }
    if with_bindings != ["page"] {
        bail!(
            "crates/page and nothing else may lean on wasm-bindgen, and these do: {}; put it behind a \
             feature that only crates/page turns on",
            with_bindings.join(", ")
        );
    }
    Ok(Outcome::Passed)
}

fn there(
    project: &Project,
) -> impl Iterator<Item = &'static (&'static str, &'static [&'static str])> {
    PURE.iter().filter(|(name, _)| project.has_package(name))
}

/// The names of everything that ends up in one package, taken alone.
fn tree(project: &Project, name: &str) -> Result<BTreeSet<String>> {
    let words = ["tree", "-p", name, "-e", "normal", "--prefix", "none", "--format", "{p}"];
    let lines = output(&mut project.cargo(words))?;
    Ok(lines.lines().filter_map(|line| line.split(' ').next()).map(str::to_owned).collect())
}
