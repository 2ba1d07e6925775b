//! Published measurements beside what the model gives.
//!
//! A row that lies outside its range stays in the table as failing. A range is what was published, or
//! is derived from it in the row's own words; ranges are not widened to let the model pass.

mod adult_life;
mod drone_comb;
mod exact;
mod mites;
mod package;
mod protocol;
mod queens;
mod size;
mod sky;
mod theory;
mod timing;
mod treatments;
mod untreated;
mod wintering;
mod year;

use std::collections::BTreeMap;

use serde::Serialize;

use crate::Error;
use crate::weather::{self, BuiltIn, Report, Weather};

/// What the model is known to miss of that which the shipped scenarios expect: the scenario's name, the date and the column.
///
/// What is expected is a published measurement: it stays, and is not met. Packages in dry, warm springs reach 1.4 to 1.5 times
/// their start on day 59, not 1.8: pollen and nurses hold the queen back from day 10 to day 50.
pub const KNOWN_MISSES: [(&str, &str, &str); 2] = [
    ("A package in a desert spring", "2010-04-28", "adult_bees"),
    ("A package in a southern spring", "2014-12-02", "adult_bees"),
];

/// One published measurement beside the model's value.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Evidence {
    /// Number of the check and a letter or two: stable, so that rows can be referred to.
    pub id: String,
    /// What is compared, in words.
    pub check: String,
    /// Author and year; "from memory" where the value was recalled; "common practice, no source".
    pub source: &'static str,
    /// The published value in words.
    pub published: &'static str,
    /// Lower end of the range; minus infinity is written as null.
    pub low: f64,
    /// Upper end of the range; infinity is written as null.
    pub high: f64,
    /// Unit of the range and the model's value.
    pub unit: &'static str,
    /// What the model gives.
    pub value: f64,
    /// Whether the value lies in the range.
    pub inside: bool,
    /// Whether the model could have missed the range: not so where the published value went into the model, nor where
    /// published equations were coded beside it.
    pub tested: bool,
    /// How the range follows from what was published, or why the model fails; may be empty.
    pub note: &'static str,
}

/// Real weather that the checks run in.
#[derive(Debug, Clone)]
pub struct Records {
    seattle: (Weather, Report),
    new_york: (Weather, Report),
    maricopa: (Weather, Report),
}

impl Records {
    /// Reads the stations from the built-in records; `load` gives the bytes of a file under `scenarios/weather`.
    ///
    /// # Errors
    /// A record that cannot be read.
    pub fn read(load: impl Fn(&str) -> Vec<u8>) -> Result<Self, Error> {
        let station = |name: &str| {
            let built_in = BuiltIn::named(name)
                .ok_or_else(|| Error::weather(name, "there is no built-in record of this name"))?;
            weather::read(&load(built_in.file), built_in.file, built_in.station, None)
        };
        Ok(Self {
            seattle: station("seattle")?,
            new_york: station("new-york")?,
            maricopa: station("maricopa")?,
        })
    }
}

/// Every check, in order.
///
/// # Errors
/// A season that cannot be run: a fault of the program or a record that does not cover 2012 to 2015.
pub fn all(records: &Records) -> Result<Vec<Evidence>, Error> {
    all_with(records, &BTreeMap::new())
}

/// Every check with some parameters set to other values: what would this constant do to the evidence?
///
/// # Errors
/// As [`all`]; an unknown parameter or a value out of its range.
pub fn all_with(
    records: &Records,
    parameters: &BTreeMap<String, f64>,
) -> Result<Vec<Evidence>, Error> {
    let mut table = Table::default();
    let sites = [
        protocol::Site::new("Seattle", "-S", 47.45, 137.0, &records.seattle, parameters),
        protocol::Site::new("New York", "-N", 40.78, 40.0, &records.new_york, parameters),
    ];
    let desert = protocol::Site::new("Maricopa", "", 33.07, 361.0, &records.maricopa, parameters);
    exact::check(&mut table);
    mites::check_equations(&mut table);
    mites::check_wash(&mut table);
    treatments::check_inputs(&mut table);
    untreated::check_warm(&mut table, desert.clone())?;
    wintering::check_warm(&mut table, desert)?;
    sky::check(&mut table, &records.new_york.0)?;
    for site in &sites {
        table.place = site.mark;
        adult_life::check(&mut table, site)?;
        package::check(&mut table, site)?;
        year::check(&mut table, site)?;
        size::check(&mut table, site)?;
        wintering::check(&mut table, site)?;
        mites::check(&mut table, site)?;
        untreated::check(&mut table, site)?;
        queens::check(&mut table, site)?;
        treatments::check(&mut table, site)?;
        drone_comb::check(&mut table, site)?;
        timing::check(&mut table, site)?;
        theory::check(&mut table, site)?;
    }
    table.rows.sort_by(|a, b| a.id.cmp(&b.id));
    Ok(table.rows)
}

/// Opens the note of a row whose published value went into the model.
const AN_INPUT: &str = "an input";

/// The note of a row that is not about the model.
const NOT_THE_MODEL: &str = "the published equations, coded as an oracle; not the model";

/// Collects rows.
#[derive(Debug, Default)]
struct Table {
    rows: Vec<Evidence>,
    /// Ends every row's id: the place, where the check is run at several.
    place: &'static str,
}

/// What is compared with what; [`Table::row`] adds the model's value.
struct Published {
    source: &'static str,
    published: &'static str,
    range: (f64, f64),
    unit: &'static str,
    note: &'static str,
}

impl Table {
    fn row(&mut self, id: &str, check: impl Into<String>, published: &Published, value: f64) {
        let (low, high) = published.range;
        self.rows.push(Evidence {
            id: format!("{id}{}", self.place),
            check: check.into(),
            source: published.source,
            published: published.published,
            low,
            high,
            unit: published.unit,
            value,
            inside: (low..=high).contains(&value),
            tested: !published.note.starts_with(AN_INPUT) && published.note != NOT_THE_MODEL,
            note: published.note,
        });
    }
}
