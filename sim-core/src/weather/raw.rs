//! Readings as a file gives them, converted to our units, before anything is mended.

use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use jiff::civil::Date;

use super::report::Format;
use super::{Field, Flags};
use crate::Error;
use crate::words::Saying;

/// One day's readings in °C, mm, m/s and MJ/m², by [`Field`].
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct RawDay {
    /// Line of the file that gave the day's first reading.
    pub line: usize,
    values: [Option<f64>; 5],
}

impl RawDay {
    pub fn get(&self, field: Field) -> Option<f64> {
        self.values[field as usize]
    }

    pub fn set(&mut self, field: Field, value: Option<f64>) {
        self.values[field as usize] = value;
    }
}

/// A rain total read after several days.
#[derive(Debug, Clone, Copy)]
pub(super) struct Total {
    pub last: Date,
    /// Days that it covers, where the station says so.
    pub days: Option<usize>,
    pub rain_mm: f64,
}

/// A reading that no weather has.
#[derive(Debug, Clone, Copy)]
pub(super) struct Beyond {
    pub date: Date,
    pub line: usize,
    pub field: Field,
    pub value: f64,
}

/// All readings of one station.
#[derive(Debug)]
pub(super) struct Raw {
    pub format: Format,
    pub station: String,
    pub latitude: Option<f64>,
    pub elevation_m: Option<f64>,
    pub days: BTreeMap<Date, RawDay>,
    pub totals: Vec<Total>,
    /// Readings that cannot be, and those that can but are seldom.
    pub beyond: Vec<Beyond>,
    pub unusual: Vec<Beyond>,
    pub flags: Flags,
    pub repairs: Vec<Saying>,
    pub notes: Vec<Saying>,
}

impl Raw {
    pub fn new(format: Format, station: String) -> Self {
        Self {
            format,
            station,
            latitude: None,
            elevation_m: None,
            days: BTreeMap::new(),
            totals: Vec::new(),
            beyond: Vec::new(),
            unusual: Vec::new(),
            flags: Flags::default(),
            repairs: Vec::new(),
            notes: Vec::new(),
        }
    }

    /// Enters one reading, or sets it aside where it cannot be; a second, different reading for the same day is an
    /// error.
    pub fn enter(
        &mut self,
        date: Date,
        line: usize,
        field: Field,
        value: f64,
    ) -> Result<(), Error> {
        let reading = Beyond {
            date,
            line,
            field,
            value,
        };
        let limits = limits(field);
        if !limits.possible.contains(&value) {
            self.beyond.push(reading);
            return Ok(());
        }
        if !limits.usual.contains(&value) {
            self.unusual.push(reading);
        }
        let day = self.days.entry(date).or_insert_with(|| RawDay {
            line,
            ..RawDay::default()
        });
        match day.get(field) {
            Some(before) if before != value => Err(at_line(
                line,
                format!(
                    "a second, different {field} for {date}: {} here, {} in line {}",
                    shown(value),
                    shown(before),
                    day.line
                ),
            )),
            _ => {
                day.set(field, Some(value));
                Ok(())
            }
        }
    }
}

/// An error in a line of the file.
pub(super) fn at_line(line: usize, message: impl Into<String>) -> Error {
    Error::weather(format!("line {line}"), message)
}

/// A number as a person writes it, at most three decimals.
pub(super) fn shown(value: f64) -> String {
    format!("{}", (value * 1000.0).round() / 1000.0)
}

/// A date, or an error that names the day that does not exist.
pub(super) fn date_of(line: usize, year: i32, month: i32, day: i32) -> Result<Date, Error> {
    if !(1700..=2300).contains(&year) {
        return Err(at_line(
            line,
            format!("the year {year} is not in 1700 to 2300"),
        ));
    }
    Date::new(
        year as i16,
        month.clamp(-1, 99) as i8,
        day.clamp(-1, 99) as i8,
    )
    .map_err(|_| {
        at_line(
            line,
            format!("there is no day {year:04}-{month:02}-{day:02} in the calendar"),
        )
    })
}

/// What a reading can be.
pub(super) struct Limits {
    /// Wider than every reading that the world has seen; outside it stands a fault or another unit.
    pub possible: RangeInclusive<f64>,
    /// Outside it a reading is named: it can be, and is more often a fault.
    pub usual: RangeInclusive<f64>,
    pub unit: &'static str,
}

/// What readings of a field can be. The most rain measured in a day is 1,825 mm (World Meteorological
/// Organization's archive of extremes, from memory).
pub(super) fn limits(field: Field) -> Limits {
    let (possible, usual, unit) = match field {
        Field::High | Field::Low => (-90.0..=60.0, -55.0..=52.0, "°C"),
        Field::Rain => (0.0..=2000.0, 0.0..=300.0, "mm"),
        Field::Wind => (0.0..=115.0, 0.0..=40.0, "m/s"),
        Field::Sun => (0.0..=50.0, 0.0..=45.0, "MJ/m²"),
    };
    Limits {
        possible,
        usual,
        unit,
    }
}
