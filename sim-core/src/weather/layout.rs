//! Layouts of tables with named columns: separated by commas, semicolons or tabs, or by blanks.

use csv::StringRecord;

use super::Field;
use super::names::{Column, Unit, meaning};
use super::raw::at_line;
use super::report::{Format, counted};
use crate::Error;
use crate::spreadsheet::Opening;

/// A table as text.
pub(super) struct Table {
    pub format: Format,
    pub headings: Vec<String>,
    pub columns: Vec<Column>,
    /// Each row with its line.
    pub rows: Vec<(usize, StringRecord)>,
    pub latitude: Option<f64>,
    pub elevation_m: Option<f64>,
    pub decimal_comma: bool,
    /// Columns without a unit are in °C, mm, m/s and MJ/m² by the definition of the format.
    pub metric: bool,
}

/// Lines within which a table set apart by blanks must name its columns.
const PREAMBLE_LINES: usize = 60;

/// Takes a text apart into headings and rows.
pub(super) fn table_of(text: &str) -> Result<Table, Error> {
    let table = match blank_separated(text)? {
        Some(table) => table,
        None => comma_separated(text)?,
    };
    table.check()?;
    Ok(table)
}

/// A table under a line of at least four headings that are set apart by blanks.
fn blank_separated(text: &str) -> Result<Option<Table>, Error> {
    let mut latitude = None;
    let mut elevation_m = None;
    let mut lines = text.lines().enumerate();
    for (_, line) in lines.by_ref().take(PREAMBLE_LINES) {
        let headings: Vec<&str> = line.split_whitespace().collect();
        let columns: Vec<Column> = headings.iter().map(|heading| meaning(heading)).collect();
        let known = columns
            .iter()
            .filter(|column| **column != Column::Unknown)
            .count();
        if headings.len() >= 4
            && known >= 4
            && !line.contains([',', ';'])
            && !set_apart_by_tabs(line)
        {
            let mut rows = Vec::new();
            for (index, line) in lines {
                let cells: StringRecord = line.split_whitespace().collect();
                if !cells.is_empty() {
                    rows.push((index + 1, cells));
                }
            }
            return Ok(Some(Table {
                format: Format::Table,
                headings: headings
                    .iter()
                    .map(|heading| (*heading).to_owned())
                    .collect(),
                // The FAO-56 daily table defines its units, and is known by its date column.
                metric: columns.contains(&Column::YearAndDay),
                columns,
                rows,
                latitude,
                elevation_m,
                decimal_comma: false,
            }));
        }
        // Such tables put "361.0 Weather station elevation (z) (m)" before their columns.
        let number = headings.first().and_then(|word| word.parse::<f64>().ok());
        let words = line.to_ascii_lowercase();
        if words.contains("latitude") {
            latitude = number.filter(|degrees| degrees.abs() <= 90.0);
        } else if words.contains("elevation") {
            elevation_m = number.filter(|metres| (-500.0..9000.0).contains(metres));
        }
    }
    Ok(None)
}

/// Whether single tabs stand between the cells of a line: then a cell may hold blanks, or nothing.
fn set_apart_by_tabs(line: &str) -> bool {
    line.contains('\t') && line.trim().split('\t').all(|cell| !cell.trim().is_empty())
}

fn comma_separated(text: &str) -> Result<Table, Error> {
    let opening = Opening::of(text);
    if let Some(line) = opening.open_quote(true) {
        return Err(at_line(
            line,
            "a quote (\") begins a cell and does not end it",
        ));
    }
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(opening.separator as u8)
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .from_reader(opening.table.as_bytes());
    let mut rows = Vec::new();
    for row in reader.records() {
        let row =
            row.map_err(|error| Error::weather("", format!("not a readable CSV: {error}")))?;
        let line = row
            .position()
            .map_or(0, |position| position.line() as usize);
        rows.push((opening.lines_before + line, row));
    }
    if rows.is_empty() {
        return Err(Error::weather("", "the file has no rows"));
    }
    let (line, headings) = rows.remove(0);
    refuse_other_layouts(line, &headings)?;
    let columns: Vec<Column> = headings.iter().map(meaning).collect();
    let is = |name: &str| headings.iter().any(|heading| heading == name);
    let noaa = is("STATION") && is("DATE") && (is("TMAX") || is("TMIN") || is("PRCP"));
    Ok(Table {
        format: if noaa { Format::NoaaCsv } else { Format::Csv },
        headings: headings.iter().map(str::to_owned).collect(),
        columns,
        rows,
        latitude: None,
        elevation_m: None,
        decimal_comma: opening.decimal_comma(),
        metric: false,
    })
}

/// Layouts of weather files that are not read, by name, with what to take instead.
fn refuse_other_layouts(line: usize, first: &StringRecord) -> Result<(), Error> {
    let is = |name: &str| {
        first
            .iter()
            .any(|heading| heading.eq_ignore_ascii_case(name))
    };
    let long_form = first
        .get(1)
        .is_some_and(|cell| cell.len() == 8 && cell.bytes().all(|b| b.is_ascii_digit()))
        && first.get(2).is_some_and(|cell| cell.len() == 4)
        || is("ELEMENT");
    if is("FRSHTT") {
        return Err(at_line(
            line,
            "a Global Summary of the Day file (°F, inches, knots): take the station's daily summaries instead",
        ));
    }
    if long_form {
        return Err(at_line(
            line,
            "one row for each element: take the station's file with one row for each day instead",
        ));
    }
    Ok(())
}

impl Table {
    /// Every needed column is there, once, and rows are as wide as the headings.
    fn check(&self) -> Result<(), Error> {
        let has = |column: Column| self.columns.contains(&column);
        let dated = has(Column::Date)
            || has(Column::YearAndDay)
            || has(Column::Year)
                && (has(Column::Month) && has(Column::Day) || has(Column::DayOfYear));
        let headings = self.headings.join(", ");
        if !dated {
            return Err(Error::weather(
                "line 1",
                format!(
                    "no column with the date (`date`, or `year`, `month`, `day`) among: {headings}"
                ),
            ));
        }
        for field in [
            Field::High,
            Field::Low,
            Field::Rain,
            Field::Wind,
            Field::Sun,
        ] {
            let named: Vec<&str> = self
                .readings()
                .filter(|(_, other, _)| *other == field)
                .map(|(index, ..)| self.headings[index].as_str())
                .collect();
            if named.is_empty() && matches!(field, Field::High | Field::Low | Field::Rain) {
                let (name, unit) = match field {
                    Field::High => ("high_c", "high_f"),
                    Field::Low => ("low_c", "low_f"),
                    _ => ("rain_mm", "rain_in"),
                };
                return Err(Error::weather(
                    "line 1",
                    format!(
                        "no column with the {field} (`{name}` or `{unit}`, say) among: {headings}"
                    ),
                ));
            }
            if named.len() > 1 {
                return Err(Error::weather(
                    "line 1",
                    format!(
                        "more than one column with the {field}: {}",
                        named.join(", ")
                    ),
                ));
            }
        }
        let width = self.headings.len();
        for (line, row) in &self.rows {
            if row.len() < width {
                return Err(at_line(
                    *line,
                    format!(
                        "{} where the headings name {width}: cut off?",
                        counted(row.len(), "value", "values")
                    ),
                ));
            }
            if row.iter().skip(width).any(|cell| !cell.is_empty()) {
                return Err(at_line(
                    *line,
                    format!("{} values where the headings name {width}", row.len()),
                ));
            }
        }
        if self.rows.is_empty() {
            return Err(Error::weather("", "the file has headings and no days"));
        }
        Ok(())
    }

    pub fn column(&self, wanted: Column) -> Option<usize> {
        self.columns.iter().position(|column| *column == wanted)
    }

    /// Index, field and unit of each column with readings.
    pub fn readings(&self) -> impl Iterator<Item = (usize, Field, Option<Unit>)> + '_ {
        self.columns
            .iter()
            .enumerate()
            .filter_map(|(index, column)| match column {
                // Sun without a unit is not read: there are too many.
                Column::Reading(Field::Sun, None) if !self.metric => None,
                Column::Reading(field, unit) => Some((index, *field, *unit)),
                _ => None,
            })
    }
}
