//! What a table with named columns says: stations, dates, readings, flags, units.

use std::collections::{BTreeMap, BTreeSet};

use csv::StringRecord;
use jiff::civil::Date;

use super::layout::{Table, table_of};
use super::names::Column;
use super::raw::{Raw, Total, at_line, date_of};
use super::report::Format;
use super::units::{Evidence, ours};
use super::{Field, names};
use crate::Error;
use crate::scenario::RecordUnits;
use crate::spreadsheet::with_point;
use crate::words::Saying;

/// Rows with their lines.
type Rows<'a> = Vec<(usize, &'a StringRecord)>;

pub(super) fn read(
    text: &str,
    wanted: Option<&str>,
    units: Option<RecordUnits>,
    file_name: &str,
) -> Result<Raw, Error> {
    table_of(text)?.interpret(wanted, units, file_name)
}

impl Table {
    fn interpret(
        &self,
        wanted: Option<&str>,
        units: Option<RecordUnits>,
        file_name: &str,
    ) -> Result<Raw, Error> {
        let (station, rows) = self.rows_of_station(wanted, file_name)?;
        let mut raw = Raw::new(self.format, station);
        raw.latitude = self
            .latitude
            .or_else(|| self.constant(&rows, Column::Latitude));
        raw.elevation_m = self
            .elevation_m
            .or_else(|| self.constant(&rows, Column::Elevation));

        let mut evidence = Evidence {
            noaa: self.format == Format::NoaaCsv,
            ..Evidence::default()
        };
        let bare_temperatures = self
            .readings()
            .filter(|(_, field, unit)| matches!(field, Field::High | Field::Low) && unit.is_none())
            .count()
            == 2;
        let mut dated = Vec::with_capacity(rows.len());
        let mut months = [false; 12];
        for &(line, row) in &rows {
            let date = self.date(line, row)?;
            months[date.month() as usize - 1] = true;
            let mut values = [None; 5];
            for (index, field, unit) in self.readings() {
                let value = self.reading(&mut raw, line, row, index, field)?;
                values[field as usize] = value;
                self.weigh(&mut evidence, field, unit, value);
            }
            if let (true, Some(high), Some(low)) = (
                bare_temperatures,
                values[Field::High as usize],
                values[Field::Low as usize],
            ) {
                evidence.day(high, low);
            }
            dated.push((line, date, values, row));
        }
        evidence.whole_year = months == [true; 12];
        let units = self.units(units, &evidence, &mut raw)?;

        let mut seen: BTreeMap<Date, usize> = BTreeMap::new();
        let (mut repeated, mut backwards, mut previous) = (0, None, None);
        for (line, date, values, row) in dated {
            repeated += usize::from(seen.insert(date, line).is_some());
            if previous.is_some_and(|previous| previous > date) && backwards.is_none() {
                backwards = Some(line);
            }
            previous = Some(date);
            for (_, field, unit) in self.readings() {
                if let Some(value) = values[field as usize] {
                    let value = match unit {
                        Some(unit) => unit.ours(value),
                        None => units.map_or(value, |units| ours(units, field, value)),
                    };
                    raw.enter(date, line, field, value)?;
                }
            }
            self.multi_day_total(&mut raw, line, date, row, units)?;
        }
        if repeated > 0 {
            raw.repairs
                .push(Saying::new(|words| words.weather.days_twice).counted(
                    "days",
                    |words| words.forms.days,
                    repeated as f64,
                ));
        }
        if let Some(line) = backwards {
            raw.repairs
                .push(Saying::new(|words| words.weather.out_of_order).count("line", line));
        }
        self.name_unused(&mut raw);
        Ok(raw)
    }

    /// The one station's name and rows.
    fn rows_of_station(
        &self,
        wanted: Option<&str>,
        file_name: &str,
    ) -> Result<(String, Rows<'_>), Error> {
        let by_id = self.column(Column::Station);
        let by_name = self.column(Column::StationName);
        let cell = |row: &StringRecord, column: Option<usize>| {
            column
                .and_then(|index| row.get(index))
                .unwrap_or("")
                .to_owned()
        };
        let all = || self.rows.iter().map(|(line, row)| (*line, row));
        let names = distinct(all().map(|(_, row)| cell(row, by_name)));
        let column = match (by_id, by_name, wanted) {
            (None, None, _) => {
                let stem = file_name.rsplit(['/', '\\']).next().unwrap_or(file_name);
                return Ok((stem.to_owned(), all().collect()));
            }
            (_, Some(_), Some(wanted))
                if names.iter().any(|name| name.eq_ignore_ascii_case(wanted)) =>
            {
                by_name
            }
            (Some(_), ..) => by_id,
            (None, ..) => by_name,
        };
        let stations = distinct(all().map(|(_, row)| cell(row, column)));
        let station = choose(stations, wanted)?;
        let rows = all()
            .filter(|(_, row)| cell(row, column) == station)
            .collect();
        Ok((station, rows))
    }

    /// The number of a column that says the same in every row.
    fn constant(&self, rows: &Rows<'_>, column: Column) -> Option<f64> {
        let index = self.column(column)?;
        rows.first()?
            .1
            .get(index)?
            .parse()
            .ok()
            .filter(|value: &f64| value.is_finite() && value.abs() < 9000.0)
    }

    fn date(&self, line: usize, row: &StringRecord) -> Result<Date, Error> {
        let cell = |column| self.column(column).and_then(|index| row.get(index));
        let number = |column| -> Result<i32, Error> {
            let text = cell(column).unwrap_or("");
            text.parse().map_err(|_| {
                at_line(
                    line,
                    format!("expected a whole number in the date, not \"{text}\""),
                )
            })
        };
        if let Some(text) = cell(Column::Date) {
            return date_from(line, text);
        }
        if let Some(text) = cell(Column::YearAndDay) {
            let parts = text
                .split_once('-')
                .and_then(|(year, day)| Some((year.parse().ok()?, day.parse().ok()?)));
            let (year, day) = parts.ok_or_else(|| {
                at_line(
                    line,
                    format!("expected year and day as 2026-120, not \"{text}\""),
                )
            })?;
            return day_of_year(line, year, day);
        }
        let year = number(Column::Year)?;
        if self.column(Column::DayOfYear).is_some() {
            return day_of_year(line, year, number(Column::DayOfYear)?);
        }
        date_of(line, year, number(Column::Month)?, number(Column::Day)?)
    }

    /// One reading as it stands in the file; `None` where it is missing or failed the source's checks.
    fn reading(
        &self,
        raw: &mut Raw,
        line: usize,
        row: &StringRecord,
        index: usize,
        field: Field,
    ) -> Result<Option<f64>, Error> {
        let text = row.get(index).unwrap_or("");
        if field == Field::Rain && text.eq_ignore_ascii_case("t") {
            raw.flags.traces += 1;
            return Ok(Some(0.0));
        }
        let Some(value) = self.number(line, &self.headings[index], text)? else {
            return Ok(None);
        };
        // Measurement flag, quality flag, source flag.
        let mut flags = self
            .column(Column::Attributes(field))
            .and_then(|index| row.get(index))
            .unwrap_or("")
            .split(',')
            .map(str::trim);
        let measurement = flags.next().unwrap_or("");
        if flags.next().is_some_and(|quality| !quality.is_empty()) {
            raw.flags.failed(field);
            return Ok(None);
        }
        if field == Field::Rain {
            raw.flags.traces += usize::from(measurement == "T");
            raw.flags.presumed_zeros += usize::from(measurement == "P");
        }
        Ok(Some(value))
    }

    /// A number; `None` where the cell says that there is none.
    fn number(&self, line: usize, heading: &str, text: &str) -> Result<Option<f64>, Error> {
        const NONE: &[&str] = &["", "na", "n/a", "nan", "null", "none", "-", "--", ".", "m"];
        if NONE.contains(&text.to_ascii_lowercase().as_str()) {
            return Ok(None);
        }
        let number = if self.decimal_comma {
            with_point(text).parse::<f64>()
        } else {
            text.parse::<f64>()
        };
        match number {
            // Codes for "missing" that no reading reaches, in whatever unit.
            Ok(value) if [-9999.0, -999.0, 9999.0, -99.9, 9999.9, 999.9].contains(&value) => {
                Ok(None)
            }
            Ok(value) if value.is_finite() => Ok(Some(value)),
            _ => Err(at_line(
                line,
                format!("{heading}: \"{text}\" is not a number"),
            )),
        }
    }

    /// Notes what a reading shows about the units of columns that do not state them.
    fn weigh(
        &self,
        evidence: &mut Evidence,
        field: Field,
        unit: Option<names::Unit>,
        value: Option<f64>,
    ) {
        use names::Unit::{Celsius, Fahrenheit, Inch, Millimetre};
        match unit {
            Some(Celsius | Millimetre) => evidence.states_metric = true,
            Some(Fahrenheit | Inch) => evidence.states_us = true,
            Some(_) => {}
            None => match (field, value) {
                (Field::High | Field::Low, Some(value)) => evidence.temperature(value),
                (Field::Rain, Some(value)) => evidence.rain(value),
                _ => {}
            },
        }
    }

    /// Units of the columns that do not state them; `None` where all do.
    fn units(
        &self,
        given: Option<RecordUnits>,
        evidence: &Evidence,
        raw: &mut Raw,
    ) -> Result<Option<RecordUnits>, Error> {
        let bare = self.readings().any(|(_, _, unit)| unit.is_none());
        if self.metric {
            return Ok(Some(RecordUnits::Metric));
        }
        if !bare {
            if given.is_some() {
                raw.notes
                    .push(Saying::new(|words| words.weather.units_unused));
            }
            return Ok(None);
        }
        if let Some(units) = given {
            raw.notes
                .push(Saying::new(|words| words.weather.units_given).choice(
                    "units",
                    |words| &words.weather.units,
                    units as usize,
                ));
            return Ok(Some(units));
        }
        let units = evidence.tell()?;
        raw.notes
            .push(Saying::new(|words| words.weather.units_told).choice(
                "units",
                |words| &words.weather.units,
                units as usize,
            ));
        Ok(Some(units))
    }

    fn multi_day_total(
        &self,
        raw: &mut Raw,
        line: usize,
        date: Date,
        row: &StringRecord,
        units: Option<RecordUnits>,
    ) -> Result<(), Error> {
        let number = |column| match self.column(column) {
            Some(index) => self.number(line, &self.headings[index], row.get(index).unwrap_or("")),
            None => Ok(None),
        };
        if let (Some(total), Some(units)) = (number(Column::MultiDayRain)?, units) {
            let days = number(Column::MultiDayCount)?;
            raw.flags.multi_day_totals += 1;
            raw.totals.push(Total {
                last: date,
                days: days
                    .filter(|days| (1.0..=366.0).contains(days))
                    .map(|days| days as usize),
                rain_mm: ours(units, Field::Rain, total).max(0.0),
            });
        }
        Ok(())
    }

    fn name_unused(&self, raw: &mut Raw) {
        let unused: Vec<&str> = self
            .headings
            .iter()
            .zip(&self.columns)
            .filter(|(_, column)| match column {
                Column::Unknown => true,
                Column::Reading(Field::Sun, None) => !self.metric,
                _ => false,
            })
            .map(|(heading, _)| heading.as_str())
            .filter(|heading| !heading.is_empty())
            .collect();
        if !unused.is_empty() {
            raw.notes.push(
                Saying::new(|words| words.weather.columns_unused).text("list", unused.join(", ")),
            );
        }
    }
}

/// Names in their order, each once.
pub(super) fn distinct(names: impl Iterator<Item = String>) -> Vec<String> {
    let mut set = BTreeSet::new();
    // Collecting would sort first, with a sort of its own in the page's module.
    set.extend(names);
    set.into_iter().collect()
}

/// The wanted station, or the only one.
pub(super) fn choose(stations: Vec<String>, wanted: Option<&str>) -> Result<String, Error> {
    let list = || {
        let shown: Vec<&str> = stations.iter().take(10).map(String::as_str).collect();
        let more = stations.len().saturating_sub(10);
        let more = if more > 0 {
            format!(" and {more} more")
        } else {
            String::new()
        };
        format!("{}{more}", shown.join(", "))
    };
    match (wanted, stations.as_slice()) {
        (Some(wanted), all) => all
            .iter()
            .find(|name| name.trim().eq_ignore_ascii_case(wanted))
            .cloned()
            .ok_or_else(|| {
                Error::weather(
                    "",
                    format!("no station \"{wanted}\" in this record; it has: {}", list()),
                )
            }),
        (None, [only]) => Ok(only.clone()),
        (None, _) => Err(Error::weather(
            "",
            format!(
                "the record holds {} stations: set `station` to one of: {}",
                stations.len(),
                list()
            ),
        )),
    }
}

/// A date as 2026-04-30, 2026/04/30, 20260430 or 30.4.2026, with or without a time after it.
fn date_from(line: usize, text: &str) -> Result<Date, Error> {
    let day = text.split(['T', ' ']).next().unwrap_or(text);
    let (year, month, day) =
        crate::calendar::parts_of_date(day).map_err(|reason| at_line(line, reason))?;
    date_of(line, year, month, day)
}

fn day_of_year(line: usize, year: i32, day: i32) -> Result<Date, Error> {
    let first = date_of(line, year, 1, 1)?;
    if !(1..=i32::from(first.days_in_year())).contains(&day) {
        return Err(at_line(line, format!("the year {year} has no day {day}")));
    }
    Ok(crate::calendar::plus_days(first, day - 1))
}
