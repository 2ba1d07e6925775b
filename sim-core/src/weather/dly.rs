//! GHCN-Daily fixed-width files: one line holds one month of one element of one station.
//!
//! Layout after the data set's own description (version 3.00): identifier in columns 1 to 11, year
//! 12 to 15, month 16 to 17, element 18 to 21, then for each day of the month eight columns: value
//! (5), measurement flag, quality flag, source flag.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::Field;
use super::raw::{Raw, Total, at_line, date_of};
use super::report::Format;
use crate::Error;
use crate::words::Saying;

const FIRST_DAY_AT: usize = 21;
const DAY_WIDTH: usize = 8;
const VALUE_WIDTH: usize = 5;
const MISSING: &str = "-9999";

/// Whether the first line with text can only be of this layout.
pub(super) fn looks_like(text: &str) -> bool {
    let first = text.lines().find(|line| !line.trim().is_empty());
    first.is_some_and(has_key)
}

/// Whether a line starts with identifier, year, month and element.
fn has_key(line: &str) -> bool {
    let line = line.as_bytes();
    line.len() >= FIRST_DAY_AT
        && line[11..17].iter().all(u8::is_ascii_digit)
        && line[17..21]
            .iter()
            .all(|byte| byte.is_ascii_uppercase() || byte.is_ascii_digit())
        && line[..11].iter().all(u8::is_ascii_alphanumeric)
}

/// What an element means to us, and what its whole numbers are to be multiplied by.
fn meaning(element: &str) -> Option<(Field, f64)> {
    Some(match element {
        "TMAX" => (Field::High, 10.0),
        "TMIN" => (Field::Low, 10.0),
        "PRCP" => (Field::Rain, 10.0),
        "AWND" => (Field::Wind, 10.0),
        _ => return None,
    })
}

pub(super) fn read(text: &str, wanted: Option<&str>) -> Result<Raw, Error> {
    let station = choose_station(text, wanted)?;
    let mut raw = Raw::new(Format::GhcnDaily, station.clone());
    let mut months_read = BTreeMap::new();
    let mut repeated = 0;
    let mut unused = BTreeSet::new();
    let mut spans: BTreeMap<Date, usize> = BTreeMap::new();

    for (index, line) in text.lines().enumerate() {
        let number = index + 1;
        let line = line.trim_end();
        if line.is_empty() {
            continue;
        }
        if !line.is_ascii() {
            return Err(at_line(
                number,
                "only plain characters can stand in this format",
            ));
        }
        if line.len() < FIRST_DAY_AT + VALUE_WIDTH {
            return Err(at_line(
                number,
                format!("the line is cut off: {} of 269 characters", line.len()),
            ));
        }
        if has_key(line) && line[..11] != *station {
            continue;
        }
        let year = whole(number, "year", &line[11..15])?;
        let month = whole(number, "month", &line[15..17])?;
        let element = &line[17..21];
        let month_start = date_of(number, year, month, 1)?;
        if let Some(before) = months_read.insert((month_start, element.to_owned()), line) {
            if before != line {
                return Err(at_line(
                    number,
                    format!("{element} of {year}-{month:02} stands twice, with different values"),
                ));
            }
            repeated += 1;
            continue;
        }
        let target = meaning(element);
        if target.is_none() && !matches!(element, "MDPR" | "DAPR") {
            unused.insert(element.to_owned());
        }
        read_month(&mut raw, &mut spans, number, line, month_start, target)?;
    }

    for total in &mut raw.totals {
        total.days = spans.get(&total.last).copied();
    }
    if repeated > 0 {
        raw.repairs
            .push(Saying::new(|words| words.weather.lines_twice).counted(
                "lines",
                |words| words.weather.lines,
                repeated as f64,
            ));
    }
    if !unused.is_empty() {
        raw.notes.push(
            Saying::new(|words| words.weather.elements_unused)
                .text("list", unused.into_iter().collect::<Vec<_>>().join(", ")),
        );
    }
    Ok(raw)
}

/// Enters the days of one line.
fn read_month(
    raw: &mut Raw,
    spans: &mut BTreeMap<Date, usize>,
    number: usize,
    line: &str,
    month_start: Date,
    target: Option<(Field, f64)>,
) -> Result<(), Error> {
    let element = &line[17..21];
    for day in 1..=31_i8 {
        let at = FIRST_DAY_AT + DAY_WIDTH * (day as usize - 1);
        let in_month = day <= month_start.days_in_month();
        let Some(value) = line.get(at..at + VALUE_WIDTH) else {
            if in_month || line.len() > at {
                return Err(at_line(
                    number,
                    format!(
                        "the line is cut off at day {day}: {} of 269 characters",
                        line.len()
                    ),
                ));
            }
            break;
        };
        // Trimmed lines have lost the blanks that stand for "no flag".
        let flag = |offset: usize| line.as_bytes().get(at + offset).copied().unwrap_or(b' ');
        if value == MISSING {
            continue;
        }
        let value = f64::from(whole(number, element, value)?);
        if !in_month {
            return Err(at_line(
                number,
                format!(
                    "{element} has a value for day {day} of {:04}-{:02}, which has {} days",
                    month_start.year(),
                    month_start.month(),
                    month_start.days_in_month()
                ),
            ));
        }
        // It lies within the month.
        let date = jiff::civil::date(month_start.year(), month_start.month(), day);
        let failed = flag(6) != b' ';
        match (target, element) {
            (Some((field, _)), _) if failed => raw.flags.failed(field),
            (Some((field, per_unit)), _) => {
                if field == Field::Rain {
                    match flag(5) {
                        b'T' => raw.flags.traces += 1,
                        b'P' => raw.flags.presumed_zeros += 1,
                        _ => {}
                    }
                }
                raw.enter(date, number, field, value / per_unit)?;
            }
            (None, "MDPR") if !failed && value >= 0.0 => {
                raw.flags.multi_day_totals += 1;
                raw.totals.push(Total {
                    last: date,
                    days: None,
                    rain_mm: value / 10.0,
                });
            }
            (None, "DAPR") if !failed && (1.0..=366.0).contains(&value) => {
                spans.insert(date, value as usize);
            }
            _ => {}
        }
    }
    Ok(())
}

fn whole(line: usize, what: &str, text: &str) -> Result<i32, Error> {
    text.trim().parse().map_err(|_| {
        at_line(
            line,
            format!(
                "the {what} should be a whole number, not \"{}\"",
                text.trim()
            ),
        )
    })
}

/// The wanted station, or the only one.
fn choose_station(text: &str, wanted: Option<&str>) -> Result<String, Error> {
    let stations = text
        .lines()
        .filter(|line| has_key(line))
        .filter_map(|line| line.get(..11));
    super::table::choose(super::table::distinct(stations.map(str::to_owned)), wanted)
}
