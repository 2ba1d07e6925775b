//! Daily weather: reading station records, mending them, and going on after their last day.
//!
//! [`read`] turns the bytes of a file into an unbroken run of days and a [`Report`] of everything
//! that was done to it. [`resolve`] makes the weather of a scenario: its record or place type, the
//! days typed by hand, the rain spells, and generated days where a record does not reach.

mod built_in;
mod carry_over;
mod dly;
mod generator;
mod layout;
mod mend;
mod month;
mod names;
mod overlay;
mod place_type;
mod raw;
mod report;
mod resolve;
mod seasonal;
mod table;
mod units;

use std::fmt;

use jiff::civil::Date;

pub use built_in::{BUILT_IN, BuiltIn};
pub use generator::{Generator, State};
pub use month::{MonthClimate, MonthSummary, Spread, by_month, climate};
pub(crate) use names::plain as plain_heading;
pub use names::{NamedColumn, columns};
pub use place_type::{PLACE_TYPES, PlaceType};
pub use report::{Filling, Flags, Format, Gap, Report, SeasonDays};
pub use resolve::{lay, read_for, resolve};

use crate::Error;
use crate::calendar::days_between;
use crate::scenario::RecordUnits;

/// A day with this much rain or more is a wet day, mm (about a hundredth of an inch).
pub const WET_DAY_MM: f64 = 0.3;

/// Where a day's weather came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Origin {
    /// Read from a record as it stands.
    Measured,
    /// Missing or faulty in the record and filled in.
    Filled,
    /// Typed by hand in the scenario.
    Typed,
    /// Changed by a rain spell of the scenario.
    Spell,
    /// Drawn by the weather generator.
    Generated,
}

/// One day's weather.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct WeatherDay {
    /// Highest air temperature, °C.
    pub high_c: f64,
    /// Lowest air temperature, °C.
    pub low_c: f64,
    /// Rain and melted snow, mm.
    pub rain_mm: f64,
    /// Mean wind at the height of the station's instrument, m/s; `None` where it was not measured.
    pub wind_m_s: Option<f64>,
    /// Solar radiation, MJ/m²; `None` where it was not measured (then it is estimated).
    pub sun_mj_m2: Option<f64>,
    /// Where it came from.
    pub origin: Origin,
}

impl WeatherDay {
    /// Whether the day has at least [`WET_DAY_MM`] of rain.
    pub fn is_wet(&self) -> bool {
        self.rain_mm >= WET_DAY_MM
    }
}

/// An unbroken run of days.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Weather {
    /// First day.
    pub first: Date,
    /// One entry a day from `first` on, none missing.
    pub days: Vec<WeatherDay>,
}

impl Weather {
    /// The day's weather; `None` outside the run.
    pub fn on(&self, date: Date) -> Option<&WeatherDay> {
        let index = usize::try_from(days_between(self.first, date)).ok()?;
        self.days.get(index)
    }

    /// The last day; the day before `first` where there are no days.
    pub fn last(&self) -> Date {
        crate::calendar::plus_days(self.first, self.days.len() as i32 - 1)
    }

    /// Every day with its date, in order.
    pub fn dated(&self) -> impl Iterator<Item = (Date, &WeatherDay)> {
        crate::calendar::dates_from(self.first).zip(&self.days)
    }
}

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Field {
    /// Highest temperature of the day.
    High,
    /// Lowest temperature of the day.
    Low,
    /// Rain and melted snow.
    Rain,
    /// Mean wind.
    Wind,
    /// Solar radiation.
    Sun,
}

impl Field {
    /// Everything that is measured.
    pub(crate) const ALL: [Self; 5] = [Self::High, Self::Low, Self::Rain, Self::Wind, Self::Sun];
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::High => "high",
            Self::Low => "low",
            Self::Rain => "rain",
            Self::Wind => "wind",
            Self::Sun => "sun",
        })
    }
}

/// Largest file that is read, bytes: more than two hundred years of any daily format in use.
pub const LARGEST_FILE: usize = 64 << 20;

/// Reads a weather record and mends its gaps.
///
/// The layout is told from the content: GHCN-Daily fixed width (`.dly`), NOAA's daily CSV, a CSV
/// with named columns ([`columns`]), or such a table set apart by blanks. `file_name` only stands
/// in messages and for the station's name where the file has none. `station` chooses by identifier
/// or name, in capitals or not, where a file holds several. `units` is needed where neither the
/// format nor the columns say what the numbers are and the bulk of the numbers does not give it away.
///
/// The record is mended as its [`Report`] tells: up to three missing days of temperature are filled
/// in a straight line, up to three of rain are taken as dry; longer gaps are drawn by the generator
/// fitted to the record. A reading that no weather has is taken as missing, one that is seldom is named.
/// Days before the first and after the last that have both temperatures are
/// left out.
///
/// # Errors
///
/// With the line at fault: text that is not UTF-8, a cut-off line, a number or date that cannot be
/// one, many values that no weather has, more than a year between two days of a table, two different readings for one day, high and low swapped
/// throughout, units that cannot be told, several stations and none chosen, no day with a high, a
/// low and rain.
pub fn read(
    bytes: &[u8],
    file_name: &str,
    station: Option<&str>,
    units: Option<RecordUnits>,
) -> Result<(Weather, Report), Error> {
    let wanted = station.map(str::trim).filter(|name| !name.is_empty());
    text_of(bytes)
        .and_then(|text| {
            if dly::looks_like(text) {
                dly::read(text, wanted)
            } else {
                table::read(text, wanted, units, file_name)
            }
        })
        .and_then(mend::mend)
        .map_err(|error| error.within(file_name))
}

/// The text of a file, without the mark that some programs put before it.
fn text_of(bytes: &[u8]) -> Result<&str, Error> {
    if bytes.len() > LARGEST_FILE {
        let megabytes = bytes.len() >> 20;
        return Err(Error::weather(
            "",
            format!(
                "this file has {megabytes} MB; a daily record of one station has far less than 64 MB"
            ),
        ));
    }
    if bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]) {
        return Err(Error::weather(
            "line 1",
            "this file is saved as UTF-16: save it as UTF-8 text",
        ));
    }
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    let line_at = |index: usize| 1 + bytes[..index].iter().filter(|&&byte| byte == b'\n').count();
    if let Some(index) = bytes.iter().position(|&byte| byte == 0) {
        return Err(Error::weather(
            format!("line {}", line_at(index)),
            "this is not a text file: a weather record is plain text",
        ));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| {
        Error::weather(
            format!("line {}", line_at(error.valid_up_to())),
            "not UTF-8 text: save the file as UTF-8",
        )
    })?;
    if text.trim().is_empty() {
        return Err(Error::weather("", "the file is empty"));
    }
    Ok(text)
}
