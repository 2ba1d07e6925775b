//! The arguments of what lists and looks up: weather, places, treatments, parameters, schemas, evidence.

use clap::{Args, ValueEnum};
use combcast_core::scenario::{ForageType, RecordUnits};

use super::{UnitChoice, ahead};

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast weather seattle
  combcast weather maricopa --year 2012 --forage dryland --units us
  combcast weather my-station.csv --units-of-file us --latitude 44.5")]
pub struct Weather {
    /// A weather file, or the name of a built-in record (see `combcast places`)
    #[arg(value_name = "FILE|NAME")]
    pub record: String,
    /// Which station, where the file holds several
    #[arg(long)]
    pub station: Option<String>,
    /// Units of the file, where they cannot be told from it
    #[arg(long, value_enum)]
    pub units_of_file: Option<FileUnits>,
    /// Latitude in degrees, where the file has none: flight hours and bloom need it
    #[arg(long, allow_negative_numbers = true, value_parser = latitude)]
    pub latitude: Option<f64>,
    /// What grows around: a forage type (see `combcast places`)
    #[arg(long, default_value = "mixed", value_parser = forage)]
    pub forage: ForageType,
    /// Only this year, month by month; otherwise the mean year of the record
    #[arg(long)]
    pub year: Option<i16>,
    /// The report, months and blooms as JSON
    #[arg(long)]
    pub json: bool,
    /// Units of words and tables
    #[arg(long, value_enum, default_value_t)]
    pub units: UnitChoice,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast places
  combcast places --json")]
pub struct Places {
    /// The lists as one JSON document
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  combcast treatments
  combcast treatments --json")]
pub struct Treatments {
    /// The table as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast params queen
  combcast params --json | jq '.[] | select(.basis == \"assumed\")'")]
pub struct Params {
    /// Only this section
    pub section: Option<String>,
    /// The table as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Example:
  combcast schema > scenario.schema.json
  combcast schema --visits > visits.schema.json")]
pub struct Schema {
    /// Of visit files in place of scenario files
    #[arg(long)]
    pub visits: bool,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  combcast evidence --outside
  combcast evidence --json > evidence.json")]
pub struct Evidence {
    /// Only the rows that lie outside of the published range
    #[arg(long)]
    pub outside: bool,
    /// The rows as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
pub enum FileUnits {
    /// Whole tenths: 0.1 °C, 0.1 mm
    Tenths,
    /// °C, mm
    Metric,
    /// °F, inches
    Us,
}

impl From<FileUnits> for RecordUnits {
    fn from(units: FileUnits) -> Self {
        match units {
            FileUnits::Tenths => Self::Tenths,
            FileUnits::Metric => Self::Metric,
            FileUnits::Us => Self::Us,
        }
    }
}

/// Reads a forage type by the name that scenario files use.
fn forage(text: &str) -> Result<ForageType, String> {
    ahead::one_of(text, &ForageType::ALL, ForageType::name)
}

fn latitude(text: &str) -> Result<f64, String> {
    match text.parse() {
        Ok(degrees) if (-66.0..=66.0).contains(&degrees) => Ok(degrees),
        _ => Err("expected degrees from -66 to 66, north positive".to_owned()),
    }
}
