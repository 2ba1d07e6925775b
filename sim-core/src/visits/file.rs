//! Reading visits: a TOML file for one hive, a CSV table for many.

use std::collections::BTreeMap;
use std::str::FromStr;

use super::{MiteFall, MiteWash, SyrupTaken, Visit, VisitBook};
use crate::Error;
use crate::calendar::{CalendarDate, parse_date};
use crate::scenario::{FeedKind, nearest, read_form, to_toml};

/// The columns of a CSV table of visits. Boxes are set apart by `+` from the bottom up: `5.5+2`.
pub const COLUMNS: [&str; 24] = [
    "hive",
    "scenario",
    "date",
    "frames_of_bees",
    "frames_of_brood",
    "frames_drawn",
    "frames_of_stores",
    "stores_kg",
    "eggs_seen",
    "queen_seen",
    "cups",
    "charged_cells",
    "capped_cells",
    "drone_frame",
    "wash_mites",
    "wash_bees",
    "wash_sugar",
    "mite_fall",
    "mite_fall_days",
    "syrup_litres",
    "syrup_kind",
    "syrup_since",
    "weight_kg",
    "notes",
];

/// The JSON Schema of visit files.
#[cfg(feature = "schema")]
pub fn visits_schema() -> serde_json::Value {
    let schema = schemars::SchemaGenerator::default().into_root_schema_for::<VisitBook>();
    schema.to_value()
}

impl VisitBook {
    /// Writes the visits as TOML that [`book_from_toml`] reads back unchanged.
    ///
    /// # Errors
    /// A count beyond what TOML can hold.
    pub fn to_toml(&self) -> Result<String, Error> {
        to_toml(self)
    }
}

/// Reads the visits to one hive from TOML.
///
/// # Errors
/// The first fault, with its line, column and path in `place`, and the line itself in `excerpt`.
///
/// ```
/// use combcast_core::visits::book_from_toml;
/// let fault = book_from_toml("[[visit]]\ndate = 2012-05-07\nframes_of_bee = [4]\n").unwrap_err();
/// assert_eq!(fault.place, "line 3, column 1: visit[0].frames_of_bee");
/// ```
pub fn book_from_toml(text: &str) -> Result<VisitBook, Error> {
    let book: VisitBook = read_form(text)?;
    if book.visits.is_empty() {
        return Err(Error::scenario(
            "",
            "there is no visit; write each as [[visit]] with a date",
        ));
    }
    Ok(book)
}

/// Reads visits: a CSV table where the file name ends in `.csv`, otherwise TOML.
///
/// # Errors
/// As [`book_from_toml`] and [`books_from_csv`], with the file's name.
pub fn books_from_bytes(bytes: &[u8], file_name: &str) -> Result<Vec<VisitBook>, Error> {
    let text = std::str::from_utf8(bytes)
        .map(|text| text.strip_prefix('\u{feff}').unwrap_or(text))
        .map_err(|error| {
            let good = &bytes[..error.valid_up_to()];
            let line = 1 + good.iter().filter(|&&byte| byte == b'\n').count();
            Error::scenario(
                format!("line {line}"),
                "not UTF-8 text; save the file as UTF-8",
            )
        });
    let is_csv = file_name.to_ascii_lowercase().ends_with(".csv");
    text.and_then(|text| {
        if text.trim().is_empty() {
            Err(Error::scenario(
                "",
                "the file is empty; a visit has at least a date",
            ))
        } else if is_csv {
            books_from_csv(text)
        } else {
            book_from_toml(text).map(|book| vec![book])
        }
    })
    .map_err(|error| error.within(file_name))
}

/// Reads the visits to many hives from a CSV table with a heading of columns named after the fields of a visit.
///
/// An empty cell was not looked at. Hives come back in the order of their names.
///
/// # Errors
/// The first fault, with its line and column.
pub fn books_from_csv(text: &str) -> Result<Vec<VisitBook>, Error> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let heading = reader.headers().map_err(told)?.clone();
    for name in &heading {
        if !COLUMNS.contains(&name) {
            let hint = nearest(name, COLUMNS.iter().copied());
            let hint = hint.map_or_else(
                || format!("expected some of {}", COLUMNS.join(", ")),
                |near| format!("did you mean {near}?"),
            );
            return Err(Error::scenario(
                "line 1",
                format!("unknown column \"{name}\"; {hint}"),
            ));
        }
    }
    if !heading.iter().any(|name| name == "date") {
        return Err(Error::scenario("line 1", "there is no column \"date\""));
    }
    let mut books: BTreeMap<String, VisitBook> = BTreeMap::new();
    for row in reader.records() {
        let row = row.map_err(told)?;
        let line = row.position().map_or(0, csv::Position::line);
        let filled = heading.iter().zip(&row);
        // Collecting would sort first, with a sort of its own in the page's module.
        let mut cells: BTreeMap<&str, &str> = BTreeMap::new();
        cells.extend(filled.filter(|(_, cell)| !cell.is_empty()));
        let visit = Row {
            line,
            cells: &cells,
        }
        .visit()?;
        let hive = cells.get("hive").copied().unwrap_or("").to_owned();
        let book = books.entry(hive.clone()).or_insert_with(|| VisitBook {
            hive,
            ..VisitBook::default()
        });
        if let Some(scenario) = cells.get("scenario") {
            if !book.scenario.is_empty() && book.scenario != *scenario {
                return Err(Error::scenario(
                    format!("line {line}: scenario"),
                    format!(
                        "expected \"{}\", as in the lines of this hive before, got \"{scenario}\"",
                        book.scenario
                    ),
                ));
            }
            book.scenario = (*scenario).to_owned();
        }
        book.visits.push(visit);
    }
    if books.is_empty() {
        return Err(Error::scenario("", "there is no visit under the heading"));
    }
    Ok(books.into_values().collect())
}

fn told(error: csv::Error) -> Error {
    let line = error.position().map_or(1, csv::Position::line);
    Error::scenario(format!("line {line}"), error.to_string())
}

struct Row<'a> {
    line: u64,
    cells: &'a BTreeMap<&'a str, &'a str>,
}

impl Row<'_> {
    #[cold]
    fn fault(&self, column: &str, message: impl Into<String>) -> Error {
        Error::scenario(format!("line {}: {column}", self.line), message)
    }

    fn number<T: FromStr>(&self, column: &str, what: &str) -> Result<Option<T>, Error> {
        let Some(cell) = self.cells.get(column) else {
            return Ok(None);
        };
        cell.parse()
            .map(Some)
            .map_err(|_| self.fault(column, format!("expected {what}, got \"{cell}\"")))
    }

    fn boxes(&self, column: &str) -> Result<Vec<f64>, Error> {
        let Some(cell) = self.cells.get(column) else {
            return Ok(Vec::new());
        };
        cell.split('+')
            .map(|frames| {
                frames.trim().parse().map_err(|_| {
                    self.fault(
                        column,
                        format!("expected frames box by box, such as 5.5+2, got \"{cell}\""),
                    )
                })
            })
            .collect()
    }

    fn yes(&self, column: &str) -> Result<Option<bool>, Error> {
        match self.cells.get(column).map(|cell| cell.to_ascii_lowercase()) {
            None => Ok(None),
            Some(cell) => match cell.as_str() {
                "yes" | "y" | "true" | "1" => Ok(Some(true)),
                "no" | "n" | "false" | "0" => Ok(Some(false)),
                _ => Err(self.fault(column, format!("expected yes or no, got \"{cell}\""))),
            },
        }
    }

    fn date(&self, column: &str) -> Result<Option<CalendarDate>, Error> {
        self.cells
            .get(column)
            .map(|cell| parse_date(cell).map_err(|reason| self.fault(column, reason)))
            .transpose()
    }

    /// A value that the TOML format writes as a word.
    fn word<T: serde::de::DeserializeOwned>(&self, column: &str) -> Result<Option<T>, Error> {
        self.cells
            .get(column)
            .map(|cell| {
                serde_json::from_value((*cell).into())
                    .map_err(|error| self.fault(column, error.to_string()))
            })
            .transpose()
    }

    fn visit(&self) -> Result<Visit, Error> {
        let date = self
            .date("date")?
            .ok_or_else(|| self.fault("date", "there is no date"))?;
        let amount = |column| self.number::<f64>(column, "a number");
        let count = |column| self.number::<u32>(column, "a whole number");
        let wash = count("wash_mites")?.map(|mites| -> Result<MiteWash, Error> {
            Ok(MiteWash {
                mites,
                bees: count("wash_bees")?.unwrap_or(super::half_a_cup()),
                sugar: self.yes("wash_sugar")?.unwrap_or(false),
            })
        });
        let mite_fall = count("mite_fall")?.map(|mites| -> Result<MiteFall, Error> {
            Ok(MiteFall {
                mites,
                days: amount("mite_fall_days")?.unwrap_or(1.0),
            })
        });
        let syrup = amount("syrup_litres")?.map(|litres| -> Result<SyrupTaken, Error> {
            Ok(SyrupTaken {
                litres: Some(litres),
                jars: None,
                kind: self.word("syrup_kind")?.unwrap_or(FeedKind::OneToOne),
                since: self.date("syrup_since")?,
            })
        });
        Ok(Visit {
            date,
            frames_of_bees: self.boxes("frames_of_bees")?,
            frames_of_brood: self.boxes("frames_of_brood")?,
            frames_drawn: self.boxes("frames_drawn")?,
            frames_of_stores: amount("frames_of_stores")?,
            stores_kg: amount("stores_kg")?,
            eggs_seen: self.yes("eggs_seen")?,
            queen_seen: self.yes("queen_seen")?,
            cups: count("cups")?,
            charged_cells: count("charged_cells")?,
            capped_cells: count("capped_cells")?,
            drone_frame: self.word("drone_frame")?,
            wash: wash.transpose()?,
            mite_fall: mite_fall.transpose()?,
            syrup_taken: syrup.transpose()?,
            weight_kg: amount("weight_kg")?,
            notes: self.cells.get("notes").copied().unwrap_or("").to_owned(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_holds_many_hives() {
        let books = books_from_csv(
            "hive,date,frames_of_bees,eggs_seen,wash_mites,notes\n\
             B,2012-05-14,4.5+1,yes,,\n\
             A,2012-05-14,3,no,2,\"calm, sunny\"\n\
             B,2012-05-21,5,,,\n",
        )
        .unwrap();
        assert_eq!(books.len(), 2);
        assert_eq!((books[0].hive.as_str(), books[1].visits.len()), ("A", 2));
        assert_eq!(books[1].visits[0].frames_of_bees, [4.5, 1.0]);
        assert_eq!(books[0].visits[0].wash.unwrap().bees, 300);
        assert_eq!(books[0].visits[0].notes, "calm, sunny");
        assert_eq!(books[1].visits[1].eggs_seen, None);
    }

    #[test]
    fn faults_of_a_table_have_line_and_column() {
        for (text, place, message) in [
            (
                "date,frames_of_bee\n",
                "line 1",
                "did you mean frames_of_bees?",
            ),
            (
                "date,eggs_seen\n2012-05-14,perhaps\n",
                "line 2: eggs_seen",
                "expected yes or no",
            ),
            ("date\n2012-05-32\n", "line 2: date", "May"),
            (
                "date,stores_kg\n2012-05-14,1\n2012-05-21,much\n",
                "line 3: stores_kg",
                "expected a number",
            ),
            ("hive\nA\n", "line 1", "no column \"date\""),
        ] {
            let fault = books_from_csv(text).unwrap_err();
            assert_eq!(fault.place, place, "{text}");
            assert!(fault.message.contains(message), "{}", fault.message);
        }
    }

    #[test]
    fn a_file_reads_back_as_it_was_written() {
        let text = "hive = \"Alder Row 3\"\n[[visit]]\ndate = 2012-05-07\nframes_of_bees = [4.25]\neggs_seen = true\nwash = { mites = 3, bees = 290 }\nsyrup_taken = { jars = 2.5 }\ndrone_frame = \"capped\"\n";
        let book = book_from_toml(text).unwrap();
        let again = book_from_toml(&toml::to_string(&book).unwrap()).unwrap();
        assert_eq!(book, again);
    }
}
