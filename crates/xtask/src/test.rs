//! `cargo xtask test`: every check of the project, one after the other, and what came of each.
//!
//! This file is the list of checks. It must not know what the checked code does.

use std::io::{BufRead, BufReader, IsTerminal, Write};
use std::process::{Command, ExitCode, Stdio};
use std::time::Instant;

use anyhow::{Context, Result, bail};

use crate::project::{Project, line, run as run_command};
use crate::{browsers, need, page, purity};

/// The page may weigh this much, in thousands of bytes: a limit that somebody has to raise on purpose.
const PAGE_KB: f64 = 900.0;

/// Which checks are wanted.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Extent {
    /// Every check.
    Full,
    /// Every check that needs no browser.
    Quick,
}

/// How a check ended that did not fail.
pub enum Outcome {
    /// It ran and found nothing wrong.
    Passed,
    /// It ran and found nothing wrong, but could not look at all it should have, and why.
    Partly(String),
    /// It could not run here, and why.
    LeftOut(String),
}

/// What a check needs before it makes sense.
#[derive(Clone, Copy, PartialEq, Eq)]
enum After {
    Nothing,
    Page,
}

type Check = (&'static str, After, fn(&Project) -> Result<Outcome>);

const CHECKS: &[Check] = &[
    ("formatting", After::Nothing, |project| passed(&mut project.cargo(["fmt", "--check"]))),
    ("clippy", After::Nothing, |project| {
        let words = ["clippy", "--workspace", "--all-targets", "--", "-D", "warnings"];
        passed(&mut project.cargo(words))
    }),
    ("clippy, as the page compiles it", After::Nothing, |project| {
        need::target(project, page::WASM)?;
        let words = ["clippy", "-p", "page", "--target", page::WASM, "--", "-D", "warnings"];
        passed(&mut project.cargo(words))
    }),
    ("Rust tests", After::Nothing, |project| {
        closing_lines(&mut project.cargo(["test", "--workspace", "--no-fail-fast"]))
    }),
    ("bare metal", After::Nothing, purity::bare_metal),
    ("dependencies", After::Nothing, purity::dependencies),
    ("documentation", After::Nothing, |project| {
        let mut doc = project.cargo(["doc", "--workspace", "--no-deps"]);
        passed(doc.env("RUSTDOCFLAGS", "-D warnings"))
    }),
    ("page", After::Nothing, |project| page::build(project).map(|_| Outcome::Passed)),
    ("page size", After::Page, page_size),
    ("TypeScript types", After::Page, |project| {
        passed(need::tool(project, "www", "tsc").arg("--noEmit"))
    }),
    ("TypeScript lint", After::Nothing, |project| {
        need::packages(project, "www")?;
        let mut lint = need::tool(project, "www", "biome");
        lint.current_dir(&project.root).args(["ci", "--error-on-warnings"]);
        if !std::io::stdout().is_terminal() {
            lint.arg("--colors=off");
        }
        passed(lint.arg("."))
    }),
    ("browsers", After::Page, browsers::test),
];

/// Runs the checks and prints what came of each; fails when one of them did.
///
/// # Errors
/// When the screen cannot be written to.
pub fn run(project: &Project, extent: Extent) -> Result<ExitCode> {
    let (mut passed, mut failed, mut left_out) = (0, Vec::new(), Vec::new());
    for (name, after, check) in CHECKS {
        if extent == Extent::Quick && *name == "browsers" {
            left_out.push((*name, "asked for by --quick".to_owned()));
            continue;
        }
        println!("== {name}");
        let begun = Instant::now();
        let outcome = if *after == After::Page && failed.contains(&"page") {
            Ok(Outcome::LeftOut("the page did not build".to_owned()))
        } else {
            check(project)
        };
        let word = match outcome {
            Ok(Outcome::Passed) => {
                passed += 1;
                "passed"
            }
            Ok(Outcome::Partly(reason)) => {
                left_out.push((*name, reason));
                passed += 1;
                "passed in part"
            }
            Ok(Outcome::LeftOut(reason)) => {
                println!("{reason}");
                left_out.push((*name, reason));
                "left out"
            }
            Err(problem) => {
                println!("{problem:#}");
                failed.push(*name);
                "FAILED"
            }
        };
        println!("== {name}: {word} ({:.1} s)\n", begun.elapsed().as_secs_f64());
        std::io::stdout().flush().context("the screen could not be written to")?;
    }
    for name in &failed {
        println!("FAILED: {name}");
    }
    for (name, reason) in &left_out {
        println!("left out: {name}: {reason}");
    }
    println!("{passed} passed, {} failed", failed.len());
    Ok(if failed.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE })
}

fn passed(command: &mut Command) -> Result<Outcome> {
    run_command(command).map(|()| Outcome::Passed)
}

/// Runs cargo's tests; of what they print only the closing lines are shown while all is well, and
/// everything when something is not.
fn closing_lines(command: &mut Command) -> Result<Outcome> {
    let name = line(command);
    let mut child = command
        .stdout(Stdio::piped())
        .spawn()
        .with_context(|| format!("could not start {name}"))?;
    let mut printed = Vec::new();
    if let Some(lines) = child.stdout.take() {
        for line in BufReader::new(lines).split(b'\n') {
            let line =
                String::from_utf8_lossy(&line.context("the tests' lines broke off")?).into_owned();
            if line.starts_with("test result:") {
                println!("{line}");
            }
            printed.push(line);
        }
    }
    let status = child.wait().with_context(|| format!("{name} could not be waited for"))?;
    if !status.success() {
        println!("{}", printed.join("\n"));
        bail!("{name} failed ({status}); its own lines above say why");
    }
    Ok(Outcome::Passed)
}

fn page_size(project: &Project) -> Result<Outcome> {
    let page = page::Page::built(project)?;
    let kb = page.kilobytes();
    println!("{kb:.1} kB of {PAGE_KB:.0} kB");
    if kb > PAGE_KB {
        bail!(
            "the page weighs more than {PAGE_KB:.0} kB: find what made it grow, or raise the limit with a reason"
        );
    }
    Ok(Outcome::Passed)
}
