//! The arguments of what looks ahead: what next, and the search.

use std::path::PathBuf;

use clap::Args;
use combcast_core::search::{Family, Goal};
use jiff::civil::Date;

use super::{Scenario, Speech, date};

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast next scenarios/wet-spring.toml scenarios/visits/alder-row-3.toml
  combcast next scenarios/wet-spring.toml --on 2012-06-01 --units us
  combcast next scenarios/wet-spring.toml scenarios/visits/alder-row-3.toml --calendar > bees.ics
  combcast next scenarios/wet-spring.toml class.csv --sheet

The list is read off the colonies that fit the visits; without visits, off colonies of the same start \
and weather. From which share of them on something is listed, and the rules of the trade that \
it rests on, are parameters: `combcast params agenda`.

A teaching aid: it never replaces opening the hive. For any treatment the label is the law.")]
pub struct Next {
    #[command(flatten)]
    pub scenario: Scenario,
    /// Visits: TOML for one hive, CSV for many
    #[arg(value_name = "VISITS")]
    pub visits: Option<PathBuf>,
    /// Begin the list on this date, and use the visits up to it; otherwise at the last visit, or the start
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub on: Option<Date>,
    /// The date in Greenwich; otherwise by the computer. Visits later than the day after it are set aside
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
    /// Weeks for which visits and planned moves are listed
    #[arg(long, value_name = "N", default_value_t = 4, value_parser = clap::value_parser!(u16).range(1..=52))]
    pub weeks: u16,
    /// Colonies to try
    #[arg(long, value_name = "N", default_value_t = 2000, value_parser = clap::value_parser!(u32).range(50..=100_000))]
    pub members: u32,
    /// Rounds in which each of them is offered another life after a visit
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(0..=50))]
    pub rounds: u32,
    /// Threads to run on; otherwise one for each core. The result is the same
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    #[command(flatten)]
    pub speech: Speech,
    /// A sheet to print and tick off, 80 columns wide
    #[arg(long, conflicts_with_all = ["json", "calendar"])]
    pub sheet: bool,
    /// Everything as JSON, a list with an entry for each hive
    #[arg(long, conflicts_with = "calendar")]
    pub json: bool,
    /// A calendar file (iCalendar, RFC 5545) that calendars of phones and computers read
    #[arg(long)]
    pub calendar: bool,
    /// The day on which the calendar says that it was made; otherwise the first of the list
    #[arg(long, value_name = "DATE", value_parser = date, requires = "calendar")]
    pub stamp: Option<Date>,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast search scenarios/wet-spring.toml --what drone-frames
  combcast search scenarios/wet-spring.toml --what drone-frames --calendar > frames.ics
  combcast search scenarios/wet-spring.toml scenarios/visits/alder-row-3.toml --no-chemicals
  combcast search scenarios/wet-spring.toml scenarios/visits/class.csv --hive 'Alder Row 4'
  combcast search scenarios/overwintered.toml --goal no-swarm --goal honey --what box,queen-cells
  combcast search scenarios/wet-spring.toml --goal alive --goal few-mites --until 2013-04-01 --seconds 60

All plans are tried on a few colonies, the worse half drops out, and so on; those that are left are judged \
on colonies that the race has not seen. The first goal decides; where it cannot tell two plans \
apart, the next does. Ctrl-C ends the search, and the best so far are shown.

A teaching aid. For any treatment the label is the law; nothing here is a dosing instruction.")]
pub struct Search {
    #[command(flatten)]
    pub scenario: Scenario,
    /// Visits: TOML for one hive, CSV for many
    #[arg(value_name = "VISITS")]
    pub visits: Option<PathBuf>,
    /// Which hive, where the visits are of several
    #[arg(long, value_name = "NAME", requires = "visits")]
    pub hive: Option<String>,
    /// What is wanted, the most important first; otherwise few mites. "honey" is ripe stores, syrup included
    #[arg(long, value_name = "GOAL", value_parser = goal, value_delimiter = ',')]
    pub goal: Vec<Goal>,
    /// Kinds of moves that may be added: drone-frames, treatment, feed, box, queen-cells; otherwise all
    #[arg(long, value_name = "KIND", value_parser = family, value_delimiter = ',')]
    pub what: Vec<Family>,
    /// No treatment
    #[arg(long)]
    pub no_chemicals: bool,
    /// Quart jars of syrup that may be given
    #[arg(long, value_name = "N", default_value_t = 20.0, value_parser = jars, allow_negative_numbers = true)]
    pub jars: f64,
    /// Visits in a week; what is added is done on their days, what the plan has keeps its own
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..=7))]
    pub visits_per_week: u8,
    /// Begin on this date, and use the visits up to it; otherwise at the last visit, or the start
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub on: Option<Date>,
    /// Judge plans on this date, the last of the season; otherwise as the scenario says. What the plan does later is left out
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub until: Option<Date>,
    /// The date in Greenwich; otherwise by the computer. Visits later than the day after it are set aside
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
    /// Plans to show
    #[arg(long, value_name = "N", default_value_t = 3, value_parser = clap::value_parser!(u8).range(1..=20))]
    pub best: u8,
    /// Colonies: half of them for the race, half to judge by; those that fit visits are found among 2000 at least
    #[arg(long, value_name = "N", default_value_t = 400, value_parser = clap::value_parser!(u32).range(50..=100_000))]
    pub members: u32,
    /// Rounds in which each of them is offered another life after a visit
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(0..=50))]
    pub rounds: u32,
    /// Show the best so far after this time
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=86_400))]
    pub seconds: Option<u32>,
    /// Threads to run on; otherwise one for each core. The result is the same
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    #[command(flatten)]
    pub speech: Speech,
    /// Everything as one JSON document
    #[arg(long, conflicts_with_all = ["moves", "calendar"])]
    pub json: bool,
    /// The moves of the best plan, to be added to the scenario file
    #[arg(long, conflicts_with = "calendar")]
    pub moves: bool,
    /// The best plan as a calendar file (iCalendar, RFC 5545)
    #[arg(long)]
    pub calendar: bool,
    /// The day on which the calendar says that it was made; otherwise the first on which something may be done
    #[arg(long, value_name = "DATE", value_parser = date, requires = "calendar")]
    pub stamp: Option<Date>,
}

/// Reads one of several names.
pub(super) fn one_of<T: Copy>(
    text: &str,
    known: &[T],
    name: fn(T) -> &'static str,
) -> Result<T, String> {
    known
        .iter()
        .copied()
        .find(|&one| name(one) == text)
        .ok_or_else(|| {
            let names: Vec<&str> = known.iter().map(|&one| name(one)).collect();
            format!("expected one of {}", names.join(", "))
        })
}

fn goal(text: &str) -> Result<Goal, String> {
    one_of(text, &Goal::ALL, Goal::name)
}

fn family(text: &str) -> Result<Family, String> {
    one_of(text, &Family::ALL, Family::name)
}

fn jars(text: &str) -> Result<f64, String> {
    match text.parse() {
        Ok(jars) if (0.0..=200.0).contains(&jars) => Ok(jars),
        _ => Err("expected 0 to 200 jars".to_owned()),
    }
}
