//! The `two-turns` command: reads a layout file and prints what follows from it.
//!
//! `args` (what was asked) → `input` (the file to a plan) → `commands` (the answer) → `output`; what
//! goes wrong on the way is a [`fault::Fault`], told on standard error.
//!
//! Must not know: any formula, any sentence.

mod args;
mod commands;
mod fault;
mod input;
mod output;
mod pose_text;
mod report_text;
mod table;

use args::{Args, Command};
use clap::Parser as _;
use std::process::ExitCode;

/// Could not be done.
const COULD_NOT: u8 = 2;

fn main() -> ExitCode {
    let args = Args::parse();
    let lang = args.language();
    let answer = match &args.command {
        Command::Report(asked) => commands::report(lang, asked),
        Command::Pose(asked) => commands::pose(lang, asked),
    };
    match answer.and_then(|text| output::print(lang, &text)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(faults) => {
            fault::tell(&faults, args.json());
            ExitCode::from(COULD_NOT)
        }
    }
}
