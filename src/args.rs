//! The arguments of every subcommand.

mod ahead;
mod lists;
mod speech;
mod visits;

use std::path::PathBuf;

use clap::builder::styling::{AnsiColor, Styles};
use clap::{Args, Parser, Subcommand, ValueEnum};
use combcast_core::calendar::typed_date;
use combcast_core::scenario::moves::At;
use combcast_core::scenario::{Mode, Without};
use jiff::civil::Date;

pub use ahead::{Next, Search};
pub use lists::{Evidence, Params, Places, Schema, Treatments, Weather};
pub use speech::{Speech, UnitChoice};
pub use visits::{Calibrate, Rehearse, Verdict};

const STYLES: Styles = Styles::styled()
    .header(AnsiColor::Blue.on_default().bold())
    .usage(AnsiColor::Blue.on_default().bold())
    .literal(AnsiColor::Green.on_default());

/// Simulate one honey bee colony day by day from its real weather, feed, comb and queen.
///
/// A scenario file says where the hive stands, which weather it has, how the colony starts, what it
/// is fed and what the beekeeper does. Combcast runs the season and tells it in words and numbers.
#[derive(Debug, Parser)]
#[command(version, styles = STYLES, max_term_width = 80, after_help = "\
Examples:
  combcast run scenarios/wet-spring.toml
  combcast check scenarios/*.toml

A teaching aid: it never replaces opening the hive. Stings can kill the allergic; for disease \
that the law names, call the bee inspector.

Exit codes: 0 all well, 1 an expectation was not met, 2 bad input.")]
pub struct Cli {
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Run a season: the story in words, week by week, or every day as JSON or CSV
    Run(Run),
    /// Set a plan against its twin: the same season, luck and weather, something done otherwise
    Twin(Twin),
    /// On which day a drone frame should come out: mites removed by day, and what being late does
    Window(Window),
    /// Show between which limits colonies of the same start and weather lie
    Bands(Bands),
    /// Say where a colony stands after its visits: in step or not, why, and what is to come
    Verdict(Verdict),
    /// List what to do in the coming weeks, with dates, amounts and reasons: text, sheet, JSON, calendar
    Next(Next),
    /// Search for the plan that serves given goals best, within limits: a calendar of drone frames, treatments, feed, boxes
    Search(Search),
    /// Invent visits to practise on: a colony of the model, looked at as people look
    Rehearse(Rehearse),
    /// Look into a weather record: station, span, gaps and how they were filled, months, flight hours
    Weather(Weather),
    /// List the built-in weather records, place types and forage types
    Places(Places),
    /// List what is published of treatments against mites, by active ingredient, with cautions
    Treatments(Treatments),
    /// List every parameter with default, unit, range and source
    Params(Params),
    /// Print the JSON Schema of scenario files, or of visit files
    Schema(Schema),
    /// Set published measurements beside what the model gives
    Evidence(Evidence),
    /// Test verdicts on invented colonies: do bands hold the truth, are planted faults found?
    Calibrate(Calibrate),
    /// Validate scenarios, run them, and test what they expect
    Check(Check),
    /// Print a completion script for a shell
    Completions(Completions),
    /// Print the digest of a season, to compare machines bit for bit
    #[command(hide = true)]
    Digest(Digest),
}

/// A scenario with changes to it.
#[derive(Debug, Clone, Args)]
pub struct Scenario {
    /// Scenario file (TOML, or JSON by its name); `-` reads from standard input
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// Another seed, 0 to 4294967295
    #[arg(long, allow_negative_numbers = true)]
    pub seed: Option<u32>,
    /// Another mode
    #[arg(long, value_enum)]
    pub mode: Option<ModeChoice>,
    /// Another value for a parameter; may be given several times
    #[arg(long, value_name = "SECTION.NAME=VALUE", value_parser = setting)]
    pub set: Vec<(String, f64)>,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast run scenarios/wet-spring.toml
  combcast run scenarios/wet-spring.toml --on 2012-06-10 --units us
  combcast run scenarios/wet-spring.toml --csv > season.csv
  combcast run scenarios/wet-spring.toml --set queen.best_rate=1200 --json")]
pub struct Run {
    #[command(flatten)]
    pub scenario: Scenario,
    /// Tell the story of this date in place of the whole season's
    #[arg(long, value_name = "DATE", value_parser = date, conflicts_with_all = ["json", "csv"])]
    pub on: Option<Date>,
    #[command(flatten)]
    pub speech: Speech,
    /// Every day, all events and parameters as one JSON document
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// Every day as a CSV table
    #[arg(long)]
    pub csv: bool,
}

#[derive(Debug, Args)]
#[command(
    after_help = "\
Examples:
  combcast twin scenarios/wet-spring.toml --without feed --on 2012-06-10
  combcast twin scenarios/wet-spring.toml --without move:1 --mode mean
  combcast twin scenarios/wet-spring.toml scenarios/drawn-comb.toml --members 200
  combcast twin scenarios/wet-spring.toml --without rain --csv > difference.csv

Each member of the ensemble is one season lived twice: both plans draw from the same luck by date, \
and from the same weather. Weather that the generator draws differs from member to member; \
measured weather is the same for all. A difference is the plan less its twin.",
    override_usage = "combcast twin [OPTIONS] <FILE> <FILE2|--without <WHAT>>",
    group(clap::ArgGroup::new("other").required(true).args(["against", "without"]))
)]
pub struct Twin {
    #[command(flatten)]
    pub scenario: Scenario,
    /// Another scenario file to set it against; runs with the first one's seed
    #[arg(value_name = "FILE2")]
    pub against: Option<PathBuf>,
    /// Leave out all `feed`, `rain` (spells) or `move`, one by its number in the file (`move:2`), or all moves of one action (`move:take_drone_frame`)
    #[arg(long, value_name = "WHAT", value_parser = without)]
    pub without: Option<Without>,
    /// Seasons to live twice; otherwise 1000, and one in mean mode
    #[arg(long, value_name = "N")]
    pub members: Option<u32>,
    /// Tell of this date in place of the widest gap and the last day; may be given several times
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub on: Vec<Date>,
    /// Look every so many days
    #[arg(long, value_name = "DAYS", default_value_t = 7, value_parser = clap::value_parser!(u16).range(1..=366))]
    pub every: u16,
    /// Threads to run on; otherwise one for each core. The result is the same
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    #[command(flatten)]
    pub speech: Speech,
    /// Plan, twin and difference on every date as one JSON document
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// The same as a CSV table, a line for each date and measure
    #[arg(long)]
    pub csv: bool,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast window scenarios/drone-frame-on-time.toml
  combcast window scenarios/untreated.toml --date 2012-06-20 --drawn
  combcast window scenarios/drone-frame-on-time.toml --members 200 --csv > window.csv

The season is run with the frame in it; on each morning a branch of it takes the frame out, and mites \
are counted later on. They are set against the same season, luck and weather without any drone \
frame. Moves of the plan that would take a drone frame out are set aside.")]
pub struct Window {
    #[command(flatten)]
    pub scenario: Scenario,
    /// Put a drone frame in on this day; otherwise the one of the plan
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub date: Option<Date>,
    /// Where to put it, box from the bottom and place from the left; otherwise where one fits
    #[arg(long, value_name = "BOX:PLACE", value_parser = at, requires = "date")]
    pub at: Option<At>,
    /// Its comb is drawn already
    #[arg(long, requires = "date")]
    pub drawn: bool,
    /// Count mites on this day; otherwise three weeks after the last day out
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub counted_on: Option<Date>,
    /// Seasons of whole animals; otherwise one in expected values
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub members: Option<u32>,
    /// Threads to run on; otherwise one for each core. The result is the same
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    #[command(flatten)]
    pub speech: Speech,
    /// Every day as one JSON document
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// Every day as a CSV table
    #[arg(long)]
    pub csv: bool,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast bands scenarios/wet-spring.toml
  combcast bands scenarios/wet-spring.toml --on 2012-06-10 --members 2000 --json
  combcast bands scenarios/wet-spring.toml --set priors.queen_fault=0.3

Members differ in what nobody knows of a colony (see `combcast params priors`), in what chance does \
to their queens, and in weather that the generator draws.")]
pub struct Bands {
    #[command(flatten)]
    pub scenario: Scenario,
    /// Colonies to try
    #[arg(long, value_name = "N", default_value_t = 1000, value_parser = clap::value_parser!(u32).range(10..=100_000))]
    pub members: u32,
    /// Look on this date too; may be given several times
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub on: Vec<Date>,
    /// Look every so many days, and on the days around each move
    #[arg(long, value_name = "DAYS", default_value_t = 14, value_parser = clap::value_parser!(u16).range(1..=366))]
    pub every: u16,
    /// Threads to run on; otherwise one for each core. The result is the same
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    #[command(flatten)]
    pub speech: Speech,
    /// Everything as one JSON document
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// A CSV table, a line for each date and measure
    #[arg(long)]
    pub csv: bool,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast check scenarios/*.toml
  combcast check my-hive.toml && echo in order

Two of the shipped scenarios, desert-spring.toml and southern-spring.toml, hold a published measurement \
that the model does not meet. Checking them ends with exit code 1, and the output says which; \
`combcast evidence --outside` says more. Exit codes: 0 all expectations met, 1 one was not, 2 bad input.")]
pub struct Check {
    /// Scenario files
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Example:
  combcast completions bash > ~/.local/share/bash-completion/completions/combcast")]
pub struct Completions {
    /// Which shell
    pub shell: clap_complete::Shell,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Example:
  combcast digest scenarios/wet-spring.toml")]
pub struct Digest {
    #[command(flatten)]
    pub scenario: Scenario,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
pub enum ModeChoice {
    /// Smooth expected values
    Mean,
    /// Whole animals and chance
    Random,
}

impl From<ModeChoice> for Mode {
    fn from(choice: ModeChoice) -> Self {
        match choice {
            ModeChoice::Mean => Self::Mean,
            ModeChoice::Random => Self::Random,
        }
    }
}

/// Reads a place in the hive: box and place.
fn at(text: &str) -> Result<At, String> {
    let expected = || format!("expected box and place, such as 1:3, got \"{text}\"");
    let (in_box, place) = text.split_once(':').ok_or_else(expected)?;
    match (in_box.trim().parse(), place.trim().parse()) {
        (Ok(in_box @ 1..), Ok(place @ 1..)) => Ok(At { in_box, place }),
        _ => Err(expected()),
    }
}

/// Reads what a twin does without.
fn without(text: &str) -> Result<Without, String> {
    text.parse()
}

/// Reads `section.name=value`.
fn setting(text: &str) -> Result<(String, f64), String> {
    let (path, value) = text
        .split_once('=')
        .ok_or("expected section.name=value, such as queen.best_rate=1200")?;
    let value = value
        .trim()
        .parse()
        .map_err(|_| format!("expected a number after the equals sign, got \"{value}\""))?;
    Ok((path.trim().to_owned(), value))
}

/// A date as people type it.
fn date(text: &str) -> Result<Date, String> {
    typed_date(text).map(|date| date.0)
}
