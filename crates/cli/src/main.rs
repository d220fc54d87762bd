//! The `two-turns` command: reads layout files and prints or draws what follows from them.
//!
//! `usage` → `args` (what was asked) → `input` (the file to a plan) → `commands` (the answer) → `output`; what
//! goes wrong on the way is a [`fault::Fault`], told on standard error.
//!
//! Must not know: any formula, any sentence.

mod args;
mod check;
mod commands;
mod drawing;
mod engine_text;
mod fault;
mod fitting_text;
mod input;
mod output;
mod pose_text;
mod rehearse;
mod report_text;
mod start;
mod table;
mod tension;
mod tension_text;
mod usage;

use args::{Args, Command};
use check::State;
use fault::Fault;
use std::process::ExitCode;
use words::Lang;

/// Done, with a finding.
const FOUND: u8 = 1;
/// Could not be done.
const COULD_NOT: u8 = 2;

fn main() -> ExitCode {
    let args = match usage::args() {
        Ok(args) => args,
        Err(line) => {
            fault::tell_line(&line);
            return ExitCode::from(COULD_NOT);
        }
    };
    match run(&args, args.language()) {
        Ok(code) => code,
        Err(faults) => {
            fault::tell(&faults, args.json());
            ExitCode::from(COULD_NOT)
        }
    }
}

fn run(args: &Args, lang: Lang) -> Result<ExitCode, Vec<Fault>> {
    match &args.command {
        Command::Report(asked) => output::print(lang, &commands::report(lang, asked)?)?,
        Command::Pose(asked) => output::print(lang, &commands::pose(lang, asked)?)?,
        Command::Draw(asked) => output::write(lang, &asked.out, &commands::draw(lang, asked)?)?,
        Command::Fitting(asked) => output::print(lang, &commands::fitting(lang, asked)?)?,
        Command::Tension(asked) => output::print(lang, &tension::tension(lang, asked)?)?,
        Command::WhatIf(asked) => output::print(lang, &commands::what_if(lang, asked)?)?,
        Command::BeltOff(asked) => output::print(lang, &commands::belt_off(lang, asked)?)?,
        Command::Start(asked) => start::start(lang, asked)?,
        Command::Run(asked) => {
            let rehearsed = rehearse::run(lang, asked)?;
            output::print(lang, &rehearsed.answer)?;
            if !rehearsed.faults.is_empty() {
                return Err(rehearsed.faults);
            }
        }
        Command::Check(asked) => {
            let checked = check::check(lang, asked)?;
            output::print(lang, &checked.answer)?;
            fault::tell(&checked.unreadable, false);
            return Ok(match checked.state {
                State::Sound if checked.add_up => ExitCode::SUCCESS,
                State::Sound | State::Unsound => ExitCode::from(FOUND),
                State::Unreadable => ExitCode::from(COULD_NOT),
            });
        }
    }
    Ok(ExitCode::SUCCESS)
}
