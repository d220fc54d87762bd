//! `cargo xtask …`: builds the page, opens it, runs every check and every benchmark, writes the schema.
//!
//! This file is the list of commands. It must not know how any of them does its work.

mod bench;
mod browsers;
mod bundle;
mod need;
mod open;
mod packing;
mod page;
mod project;
mod purity;
mod schema;
mod test;

use std::process::ExitCode;

use anyhow::{Result, bail};
use project::Project;

const HELP: &str = "\
Usage: cargo xtask <command>

  page             build the page into dist/two-turns.html
  open             build the page and open it in the default browser
  test [--quick]   run every check; --quick leaves the browsers out
  schema           write layouts/layout.schema.json from the table of keys
  bench            run the benchmarks, native and in the browser

What a command needs and the machine lacks is fetched where that can be done, and named where not.";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match run(&words) {
        Ok(code) => code,
        Err(problem) => {
            eprintln!("xtask: {problem:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(words: &[&str]) -> Result<ExitCode> {
    match words {
        [] | ["help" | "--help" | "-h"] => println!("{HELP}"),
        ["page"] => {
            page::build(&Project::find()?)?;
        }
        ["open"] => open::build_and_open(&Project::find()?)?,
        ["test"] => return test::run(&Project::find()?, test::Extent::Full),
        ["test", "--quick"] => return test::run(&Project::find()?, test::Extent::Quick),
        ["schema"] => schema::write(&Project::find()?)?,
        ["bench"] => bench::run_all(&Project::find()?)?,
        [command @ ("page" | "open" | "test" | "schema" | "bench"), extra, ..] => {
            bail!(
                "`cargo xtask {command}` does not take `{extra}`; `cargo xtask help` lists what it takes"
            )
        }
        [unknown, ..] => {
            bail!("there is no command `{unknown}`; `cargo xtask help` lists the commands")
        }
    }
    Ok(ExitCode::SUCCESS)
}
