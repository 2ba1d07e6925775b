//! The arguments of what holds visits against the model, invents them, or tests verdicts on them.

use std::path::PathBuf;

use clap::Args;
use combcast_core::verdict::Fault;
use combcast_core::visits;
use jiff::civil::Date;

use super::{Scenario, Speech, date};

#[derive(Debug, Args)]
#[command(after_help = visit_help())]
pub struct Verdict {
    #[command(flatten)]
    pub scenario: Scenario,
    /// Visits: TOML for one hive, CSV for many
    #[arg(value_name = "VISITS")]
    pub visits: PathBuf,
    /// Judge after the visits up to this date only
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub on: Option<Date>,
    /// The date in Greenwich; otherwise by the computer. Visits later than the day after it are set aside
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
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
    /// Everything as JSON, a list with an entry for each hive
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast rehearse scenarios/wet-spring.toml --visits 6 --first 2012-05-14 > practice.toml
  combcast rehearse scenarios/wet-spring.toml --fault queen --colony 3

The colony differs from the scenario's in what nobody knows, and what is written down has the errors \
that people make. It is invented, and says so at its head.")]
pub struct Rehearse {
    #[command(flatten)]
    pub scenario: Scenario,
    /// Name of the hive
    #[arg(long, default_value = "practice")]
    pub hive: String,
    /// Which colony: each number is another
    #[arg(long, value_name = "N", default_value_t = 1_000_000)]
    pub colony: u32,
    /// A fault to plant: queen, mites, hunger or swarm
    #[arg(long, value_name = "FAULT")]
    pub fault: Option<Fault>,
    /// Number of visits
    #[arg(long, value_name = "N", default_value_t = 6, value_parser = clap::value_parser!(u16).range(1..=60))]
    pub visits: u16,
    /// Date of the first visit; otherwise two weeks after the start
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub first: Option<Date>,
    /// Days from visit to visit
    #[arg(long, value_name = "DAYS", default_value_t = 7, value_parser = clap::value_parser!(u16).range(1..=60))]
    pub every: u16,
    /// Wash half a cup of bees at every such visit; 0: never
    #[arg(long, value_name = "N", default_value_t = 3)]
    pub wash_every: u16,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast calibrate scenarios/wet-spring.toml
  combcast calibrate scenarios/wet-spring.toml --colonies 0 --planted 100 --visits 3 --every 14

Takes minutes. Colonies are drawn from the priors, visited with the errors of visits, and judged.")]
pub struct Calibrate {
    #[command(flatten)]
    pub scenario: Scenario,
    /// Colonies drawn from the priors
    #[arg(long, value_name = "N", default_value_t = 200)]
    pub colonies: u32,
    /// Colonies for each planted fault
    #[arg(long, value_name = "N", default_value_t = 0)]
    pub planted: u32,
    /// Visits to each
    #[arg(long, value_name = "N", default_value_t = 6, value_parser = clap::value_parser!(u16).range(1..=60))]
    pub visits: u16,
    /// Day of the first visit, counted from 0
    #[arg(long, value_name = "DAY", default_value_t = 14)]
    pub first: u16,
    /// Days from visit to visit
    #[arg(long, value_name = "DAYS", default_value_t = 7, value_parser = clap::value_parser!(u16).range(1..=60))]
    pub every: u16,
    /// Members of each ensemble
    #[arg(long, value_name = "N", default_value_t = 400, value_parser = clap::value_parser!(u32).range(100..=100_000))]
    pub members: u32,
    /// Rounds in which each of them is offered another life after a visit
    #[arg(long, value_name = "N", default_value_t = 4, value_parser = clap::value_parser!(u32).range(0..=50))]
    pub rounds: u32,
    /// Threads to run on; otherwise one for each core. The result is the same
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    /// The table as JSON
    #[arg(long)]
    pub json: bool,
}

/// What `combcast verdict --help` says of files of visits, from the code that reads them.
fn visit_help() -> String {
    let columns: String = visits::COLUMNS
        .iter()
        .map(|column| {
            format!(
                "  {:<16} {:<15} {}\n",
                column.name, column.example, column.what
            )
        })
        .collect();
    format!(
        "\
Examples:
  combcast verdict scenarios/wet-spring.toml scenarios/visits/alder-row-3.toml
  combcast verdict scenarios/wet-spring.toml scenarios/visits/class.csv --json

A visit file has a table [[visit]] for each visit, with its date and whatever \
was looked at; `combcast schema --visits` describes its fields. A CSV table, \
parted by commas, semicolons (then decimals may have commas) or tabs, has many \
hives; on standard input (`-`), as in a file of another name than .csv, it is \
known by its heading. Kilograms or pounds, litres or quarts: one of the two in \
a row, and yes or no also in German. With a column `scenario` each hive stands in a scenario of its own, as a \
class does that began in one week and in different weather.

Columns of the table, in any order, each with a cell as an example; only the \
date is needed, and an empty cell was not looked at:
{columns}
See `combcast params visits` for how far off each thing that is seen can be, \
and `combcast params priors` for what nobody knows before.

A teaching aid: it never replaces opening the hive."
    )
}
