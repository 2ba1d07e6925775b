//! A season as a file: the JSON document, a stable contract, and the CSV table.
//!
//! Both say what made them (version, digest of the scenario, seed, mode), and their numbers read back
//! to the same bits.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::Serialize;

use crate::calendar::{CalendarDate, plus_days};
use crate::digest;
use crate::observe::{COLUMNS, DayRecord};
use crate::param::Parameters;
use crate::scenario::{Mode, Scenario};
use crate::season::{Event, Season};
use crate::weather::Report;

/// The version of the program that wrote a file.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// One season as a JSON document.
///
/// Fields are added in later versions, never renamed or taken away.
#[derive(Debug, Serialize)]
pub struct SeasonDocument<'a> {
    /// Version of the program.
    pub version: &'static str,
    /// Name of the scenario.
    pub scenario: &'a str,
    /// Digest of the scenario as it was run, 16 hexadecimal digits; see [`scenario_digest`].
    pub scenario_digest: String,
    /// The seed.
    pub seed: u32,
    /// `mean` or `random`.
    pub mode: Mode,
    /// The first day.
    pub first: CalendarDate,
    /// The last day.
    pub last: CalendarDate,
    /// One object a day: `date` and every field of [`DayRecord`].
    pub days: Vec<DocumentDay<'a>>,
    /// The weather record: station, gaps and how they were filled, where the season's days come from.
    pub weather: &'a Report,
    /// What happened, in order of date.
    pub events: &'a [Event],
    /// Every parameter as `"section.name": value`.
    pub parameters: BTreeMap<String, f64>,
}

/// One day of a [`SeasonDocument`].
#[derive(Debug, Serialize)]
pub struct DocumentDay<'a> {
    /// The date, year-month-day.
    pub date: CalendarDate,
    /// The day's numbers, brake and queen; units in [`COLUMNS`].
    #[serde(flatten)]
    pub record: &'a DayRecord,
}

impl<'a> SeasonDocument<'a> {
    /// The document of a season and the scenario that it was run from.
    pub fn new(scenario: &'a Scenario, season: &'a Season, weather: &'a Report) -> Self {
        let days: Vec<_> = dated(season)
            .map(|(date, record)| DocumentDay {
                date: CalendarDate(date),
                record,
            })
            .collect();
        Self {
            version: VERSION,
            scenario: &scenario.name,
            scenario_digest: scenario_digest(scenario),
            seed: season.seed,
            mode: season.mode,
            first: CalendarDate(season.first),
            last: days
                .last()
                .map_or(CalendarDate(season.first), |day| day.date),
            days,
            weather,
            events: &season.events,
            parameters: parameter_values(&season.parameters),
        }
    }
}

/// The season as a CSV table: comment lines that say what made it, a header line, one line a day.
///
/// The columns are `date`, those of [`COLUMNS`], `brake` and `queen`.
pub fn csv(scenario: &Scenario, season: &Season) -> String {
    let mut text = format!(
        "# combcast {VERSION}\n# scenario: {}\n# scenario digest: {}\n# seed: {}\n# mode: {}\n",
        scenario.name.lines().collect::<Vec<_>>().join(" "),
        scenario_digest(scenario),
        season.seed,
        mode_name(season.mode),
    );
    let mut writer = csv::Writer::from_writer(Vec::new());
    let names = COLUMNS.iter().map(|column| column.name);
    let header: Vec<&str> = ["date"]
        .into_iter()
        .chain(names)
        .chain(["brake", "queen"])
        .collect();
    writer
        .write_record(header)
        .expect("writing to memory does not fail");
    for (date, record) in dated(season) {
        writer
            .serialize((
                CalendarDate(date),
                &record.values()[..],
                record.brake,
                record.queen,
            ))
            .expect("a row of plain values goes into memory");
    }
    let table = writer
        .into_inner()
        .expect("flushing to memory does not fail");
    text.push_str(&String::from_utf8_lossy(&table));
    text
}

/// FNV-1a (64 bits) of the scenario as compact JSON, in 16 hexadecimal digits.
///
/// Two files that differ only in layout or comments have the same digest.
pub fn scenario_digest(scenario: &Scenario) -> String {
    let json = serde_json::to_vec(scenario).expect("a scenario is plain data");
    format!("{:016x}", digest::bytes(json))
}

/// Every parameter's value under `section.name`.
pub fn parameter_values(parameters: &Parameters) -> BTreeMap<String, f64> {
    let mut values = parameters.clone();
    Parameters::INFO
        .iter()
        .flat_map(|(section, rows)| rows.iter().map(move |row| (*section, row.name)))
        .map(|(section, name)| {
            let value = values
                .field_mut(section, name)
                .expect("the table lists fields that exist");
            (format!("{section}.{name}"), *value)
        })
        .collect()
}

fn mode_name(mode: Mode) -> &'static str {
    match mode {
        Mode::Mean => "mean",
        Mode::Random => "random",
    }
}

fn dated(season: &Season) -> impl Iterator<Item = (Date, &DayRecord)> {
    season
        .days
        .iter()
        .enumerate()
        .map(|(index, record)| (plus_days(season.first, index as i32), record))
}
