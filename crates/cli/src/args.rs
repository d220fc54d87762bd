//! What a person typed, as values; the language too, from the options or the environment.
//!
//! Must not know: what is done with it.

use clap::builder::PossibleValuesParser;
use clap::{Parser, Subcommand};
use layout::Arrangement;
use std::path::PathBuf;
use words::Lang;
use words::command::Wanted;

/// Models an engine's timing belt drive: where every tooth, mark and slack run is.
#[derive(Debug, Parser)]
#[command(name = "two-turns", version, arg_required_else_help = true)]
pub struct Args {
    /// Language of sentences and tables; else that of the environment, else English
    #[arg(long, global = true, value_name = "LANG", value_parser = PossibleValuesParser::new(["en", "de"]))]
    lang: Option<String>,
    #[command(subcommand)]
    pub command: Command,
}

/// What is asked for.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Print what follows from a layout: path, wrap, counts, best teeth, stripes
    Report(Report),
    /// Print where everything stands: each wheel, mark, slack run and belt tooth
    Pose(Pose),
    /// Draw the same as an SVG, true to size
    Draw(Draw),
    /// Print how to hang the belt: the count that decides, how far to back the crank off, where it lands
    Fitting(Report),
    /// Print how tight the belt is: spans, bearings, marks when the pin is pulled, a seized wheel
    Tension(Tension),
    /// Print what shafts teeth out come to: degrees, events, gaps, compression
    WhatIf(WhatIf),
    /// Print what may be turned with the belt off, and an order of moves back to the marks
    BeltOff(BeltOff),
    /// Do a file of actions, one JSON object a line, and print the readings after each
    Run(Run),
    /// Start a layout from three tooth counts: a provisional drive that fits them
    Start(Start),
    /// Check layout files: every problem in any of them, with its line
    Check(Check),
}

/// Options of `report` and `fitting`.
#[derive(Debug, clap::Args)]
pub struct Report {
    /// The layout file; - reads standard input
    pub file: PathBuf,
    /// Print JSON, full precision
    #[arg(long)]
    pub json: bool,
}

/// Options of `tension`.
#[derive(Debug, clap::Args)]
pub struct Tension {
    /// The layout file; - reads standard input
    pub file: PathBuf,
    /// Crank speed while the engine runs; else figures that need one are told for a range
    #[arg(long, value_name = "N", value_parser = number)]
    pub rpm: Option<f64>,
    /// A wheel that no longer turns
    #[arg(long, value_name = "ID")]
    pub seized: Option<String>,
    /// Crank turns in a kilometre, one number or a range
    #[arg(long, value_name = "LOW..HIGH", value_parser = range, conflicts_with = "km_per_h")]
    pub turns_per_km: Option<[f64; 2]>,
    /// Road speed at --rpm, from which the crank turns in a kilometre follow
    #[arg(long, value_name = "KM/H", value_parser = number, requires = "rpm")]
    pub km_per_h: Option<f64>,
    /// Coefficient of friction of the belt's back on a wheel that does not turn, one number or a range
    #[arg(long, value_name = "LOW..HIGH", value_parser = range)]
    pub friction_back: Option<[f64; 2]>,
    /// The same of its toothed face
    #[arg(long, value_name = "LOW..HIGH", value_parser = range)]
    pub friction_toothed: Option<[f64; 2]>,
    /// What a wheel takes from the belt while it turns, in N·m or with its unit (40in-lb), in place of its
    /// friction; several by commas or once more
    #[arg(long, value_name = "WHEEL=N·M", value_delimiter = ',', value_parser = wheel_moment)]
    pub moment: Vec<(String, String)>,
    /// Resting tension that somebody measured, in place of the spring's
    #[arg(long, value_name = "N", value_parser = number)]
    pub tension_n: Option<f64>,
    /// Print JSON, full precision
    #[arg(long)]
    pub json: bool,
}

/// Options of `pose`.
#[derive(Debug, clap::Args)]
pub struct Pose {
    #[command(flatten)]
    pub stand: Stand,
    /// Print JSON, full precision
    #[arg(long)]
    pub json: bool,
}

/// Options of `draw`.
#[derive(Debug, clap::Args)]
pub struct Draw {
    #[command(flatten)]
    pub stand: Stand,
    /// Where the drawing goes; - prints it
    #[arg(short, long, value_name = "OUT.svg")]
    pub out: PathBuf,
}

/// Options of `what-if`.
#[derive(Debug, clap::Args)]
pub struct WhatIf {
    /// The layout file; - reads standard input
    pub file: PathBuf,
    /// Teeth that a shaft is put from in time, ahead positive; several by commas or once more
    #[arg(long, value_name = "SHAFT=TEETH", value_delimiter = ',', value_parser = shaft_teeth)]
    pub teeth: Vec<(String, i64)>,
    /// Exponent of cranking pressures, 1.20 to 1.30; else they are told as a range
    #[arg(long, value_name = "N", value_parser = number)]
    pub exponent: Option<f64>,
    /// Print JSON, full precision
    #[arg(long)]
    pub json: bool,
}

/// Options of `belt-off`.
#[derive(Debug, clap::Args)]
pub struct BeltOff {
    /// The layout file; - reads standard input
    pub file: PathBuf,
    /// Where the crank stands, degrees from its mark, forward positive
    #[arg(
        long,
        value_name = "DEG",
        allow_hyphen_values = true,
        value_parser = number,
        default_value = "0"
    )]
    pub crank_deg: f64,
    /// Where a camshaft stands, its own degrees from its mark; several by commas or once more
    #[arg(long, value_name = "SHAFT=DEG", value_delimiter = ',', value_parser = shaft_deg)]
    pub shaft: Vec<(String, f64)>,
    /// Print JSON, full precision
    #[arg(long)]
    pub json: bool,
}

/// Options of `run`.
#[derive(Debug, clap::Args)]
pub struct Run {
    /// The layout file; - reads standard input
    pub file: PathBuf,
    /// The actions, one JSON object a line, such as {"turn": {"shaft": "crank", "deg": 90}}; - reads
    /// standard input
    #[arg(value_name = "ACTIONS.jsonl")]
    pub actions: PathBuf,
    /// Print a line of JSON after each action, full precision
    #[arg(long)]
    pub json: bool,
}

/// Options of `start`.
#[derive(Debug, clap::Args)]
pub struct Start {
    /// How the wheels are arranged
    #[arg(value_parser = PossibleValuesParser::new(Arrangement::WORDS))]
    pub arrangement: String,
    /// Teeth of the crank sprocket
    #[arg(long, value_name = "TEETH", value_parser = whole)]
    pub crank: u32,
    /// Teeth of each sprocket that it drives, a camshaft's or a balance shaft's
    #[arg(long, visible_alias = "balance-shaft", value_name = "TEETH", value_parser = whole)]
    pub camshaft: u32,
    /// Teeth of the belt
    #[arg(long, value_name = "TEETH", value_parser = whole)]
    pub belt: u32,
    /// Where the layout goes; else it is printed
    #[arg(short, long, value_name = "OUT.toml")]
    pub out: Option<PathBuf>,
    /// Write over a file that is there
    #[arg(long, requires = "out")]
    pub force: bool,
}

/// Options of `check`.
#[derive(Debug, clap::Args)]
pub struct Check {
    /// Layout files; of a directory those in it that end in .toml; - reads standard input
    #[arg(required = true)]
    pub files: Vec<PathBuf>,
    /// Print one JSON document that lists the files with their problems
    #[arg(long)]
    pub json: bool,
}

/// A layout, and how its drive is to stand.
#[derive(Debug, clap::Args)]
pub struct Stand {
    /// The layout file; - reads standard input
    pub file: PathBuf,
    /// Crank degrees from its mark, over any number of turns, forward positive
    #[arg(
        long,
        value_name = "DEG",
        allow_hyphen_values = true,
        value_parser = number,
        default_value = "0"
    )]
    pub crank_deg: f64,
    /// Teeth that a shaft is put from in time, ahead positive; several by commas or once more
    #[arg(long, value_name = "SHAFT=TEETH", value_delimiter = ',', value_parser = shaft_teeth)]
    pub teeth: Vec<(String, i64)>,
    /// Where the tensioner stands, mm or degrees as the layout has it; else the belt is tight
    #[arg(long, value_name = "TRAVEL", allow_hyphen_values = true, value_parser = number)]
    pub travel: Option<f64>,
}

impl Args {
    /// Whether JSON is asked for.
    pub fn json(&self) -> bool {
        match &self.command {
            Command::Report(asked) | Command::Fitting(asked) => asked.json,
            Command::Run(asked) => asked.json,
            Command::WhatIf(asked) => asked.json,
            Command::Tension(asked) => asked.json,
            Command::BeltOff(asked) => asked.json,
            Command::Pose(asked) => asked.json,
            Command::Check(asked) => asked.json,
            Command::Draw(_) | Command::Start(_) => false,
        }
    }

    /// The language asked for, or that of the environment.
    pub fn language(&self) -> Lang {
        match &self.lang {
            Some(code) => Lang::from_code(code),
            None => language_of(|name| std::env::var(name).ok()),
        }
    }
}

/// The first of the three variables that says anything decides, as POSIX has it.
fn language_of(variable: impl Fn(&str) -> Option<String>) -> Lang {
    let set = |name| variable(name).filter(|value| !value.is_empty());
    let locale = ["LC_ALL", "LC_MESSAGES", "LANG"].into_iter().find_map(set).unwrap_or_default();
    // Without the encoding and the variant behind it: `de_DE.UTF-8`, `de@euro`.
    Lang::from_code(locale.split(['.', '@']).next().unwrap_or_default())
}

/// The language of what is wrong with an option: that of the options as far as they can be read, else that of
/// the environment.
pub fn language_before(mut args: impl Iterator<Item = String>) -> Lang {
    let named = args.find_map(|arg| match arg.strip_prefix("--lang") {
        Some("") => Some(None),
        Some(rest) => rest.strip_prefix('=').map(|code| Some(code.to_owned())),
        None => None,
    });
    match named.and_then(|code| code.or_else(|| args.next())) {
        Some(code) => Lang::from_code(&code),
        None => language_of(|name| std::env::var(name).ok()),
    }
}

/// What an option does not take, to be told in whichever language.
#[derive(Clone, Debug)]
pub struct NotTaken(pub Wanted);

impl std::fmt::Display for NotTaken {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:?}", self.0)
    }
}

impl std::error::Error for NotTaken {}

/// A number, with either minus sign: that of the keyboard or that of the printed tables.
pub fn number(text: &str) -> Result<f64, NotTaken> {
    text.trim().replace('−', "-").parse().map_err(|_| NotTaken(Wanted::Number))
}

fn whole(text: &str) -> Result<u32, NotTaken> {
    text.trim().parse().map_err(|_| NotTaken(Wanted::Whole))
}

/// `SHAFT=` and what stands behind it.
fn of_shaft<T>(
    text: &str,
    wanted: Wanted,
    behind: impl Fn(&str) -> Option<T>,
) -> Result<(String, T), NotTaken> {
    let (shaft, rest) = text.split_once('=').ok_or(NotTaken(wanted))?;
    let value = behind(rest.trim()).ok_or(NotTaken(wanted))?;
    Ok((shaft.trim().to_owned(), value))
}

fn shaft_teeth(text: &str) -> Result<(String, i64), NotTaken> {
    of_shaft(text, Wanted::ShaftTeeth, |teeth| teeth.replace('−', "-").parse().ok())
}

fn wheel_moment(text: &str) -> Result<(String, String), NotTaken> {
    let some = |typed: &str| (!typed.is_empty()).then(|| typed.to_owned());
    of_shaft(text, Wanted::ShaftMoment, some)
}

fn shaft_deg(text: &str) -> Result<(String, f64), NotTaken> {
    of_shaft(text, Wanted::ShaftDegrees, |deg| number(deg).ok())
}

/// `LOW..HIGH`, or one number for both.
fn range(text: &str) -> Result<[f64; 2], NotTaken> {
    let (low, high) = text.split_once("..").unwrap_or((text, text));
    let end = |end: &str| number(end).map_err(|_| NotTaken(Wanted::Range));
    Ok([end(low)?, end(high)?])
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory as _;

    fn pose(line: &str) -> Stand {
        match Args::try_parse_from(line.split(' ')).unwrap().command {
            Command::Pose(Pose { stand, .. }) | Command::Draw(Draw { stand, .. }) => stand,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn the_options_make_sense() {
        Args::command().debug_assert();
    }

    #[test]
    fn negative_numbers_are_no_options() {
        for (text, deg) in [("-90", -90.0), ("-.5", -0.5), ("-1e3", -1e3), ("−7.5", -7.5)] {
            assert_eq!(pose(&format!("two-turns pose f --crank-deg {text}")).crank_deg, deg);
            assert_eq!(pose(&format!("two-turns pose f --travel={text}")).travel, Some(deg));
        }
        let drawn = pose("two-turns draw f --crank-deg -7 -o out.svg --teeth=a=-1");
        assert_eq!((drawn.crank_deg, drawn.teeth.len()), (-7.0, 1));
        let teeth = |pose: Stand| pose.teeth.into_iter().map(|(_, n)| n).collect::<Vec<_>>();
        assert_eq!(teeth(pose("two-turns pose f --teeth a=-1,b=2 --teeth c=−3")), [-1, 2, -3]);
        for bad in ["--teeth a", "--teeth a=1.5", "--crank-deg x", "--lang fr", "--travel"] {
            let line = format!("two-turns pose f {bad}");
            assert!(Args::try_parse_from(line.split(' ')).is_err(), "{bad}");
        }
    }

    #[test]
    fn the_environment_has_a_language() {
        let of = |all: &str, lang: &str| {
            language_of(|name| match name {
                "LC_ALL" => Some(all.to_owned()),
                "LANG" => Some(lang.to_owned()),
                _ => None,
            })
        };
        assert_eq!(of("", "de_AT.UTF-8"), Lang::De);
        assert_eq!(of("", "de@euro"), Lang::De);
        assert_eq!(of("C", "de_DE.UTF-8"), Lang::En);
        assert_eq!(of("", ""), Lang::En);
        assert_eq!(language_of(|_| None), Lang::En);
    }
}
