//! A CSV table of visits to many hives.

use std::collections::{BTreeMap, BTreeSet};
use std::str::FromStr;

use super::file::Hives;
use super::{MiteFall, MiteWash, SyrupTaken, Visit, VisitBook};
use crate::Error;
use crate::calendar::{CalendarDate, typed_date};
use crate::scenario::{FeedKind, nearest};
use crate::weather::{plain_heading, separator_of};

/// A column of a CSV table of visits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TableColumn {
    /// Its heading; capitals, blanks and signs in it count as small letters and `_`.
    pub name: &'static str,
    /// A cell.
    pub example: &'static str,
    /// What it holds.
    pub what: &'static str,
}

const fn column(name: &'static str, example: &'static str, what: &'static str) -> TableColumn {
    TableColumn {
        name,
        example,
        what,
    }
}

/// The columns of a CSV table of visits, in any order; only `date` is needed. An empty cell was not looked at.
pub const COLUMNS: [TableColumn; 24] = [
    column("hive", "Alder Row 3", "name of the hive"),
    column(
        "scenario",
        "wet-spring.toml",
        "file beside the table; else the one given",
    ),
    column("date", "2012-05-14", "day of the visit; also 14.5.2012"),
    column(
        "frames_of_bees",
        "5.5+2",
        "seams of bees, box by box from the bottom",
    ),
    column("frames_of_brood", "3+0.5", "frames of brood, box by box"),
    column("frames_drawn", "8+2", "frames drawn, box by box"),
    column("frames_of_stores", "2.5", "full frames of stores"),
    column("stores_kg", "6", "stores, kg"),
    column("eggs_seen", "yes", "yes or no"),
    column("queen_seen", "no", "yes or no"),
    column("cups", "2", "empty queen cups"),
    column("charged_cells", "0", "queen cells with a larva"),
    column("capped_cells", "0", "queen cells capped"),
    column(
        "drone_frame",
        "capped",
        "also not-drawn, drawn, eggs, larvae, hatched",
    ),
    column("wash_mites", "4", "mites washed off"),
    column(
        "wash_bees",
        "300",
        "bees in that wash; otherwise half a cup",
    ),
    column("wash_sugar", "no", "yes: shaken in sugar, not washed"),
    column("mite_fall", "12", "mites fallen on the board"),
    column("mite_fall_days", "3", "in so many days; otherwise 1"),
    column("syrup_litres", "1.9", "syrup taken, litres"),
    column("syrup_kind", "1:1", "1:1 or 2:1; otherwise 1:1"),
    column(
        "syrup_since",
        "2012-05-07",
        "since which day; otherwise the visit before",
    ),
    column("weight_kg", "31.5", "weight of the hive, kg"),
    column("notes", "calm", "anything"),
];

fn names() -> impl Iterator<Item = &'static str> {
    COLUMNS.iter().map(|column| column.name)
}

/// Reads the visits to many hives from a CSV table with a heading of columns named after the fields of a visit.
///
/// An empty cell was not looked at. Hives come back in the order of their names.
///
/// # Errors
/// The first fault, with its line and column.
pub fn books_from_csv(text: &str) -> Result<Vec<VisitBook>, Error> {
    let hives = hives_of_table(text)?;
    match hives.faults.into_iter().next() {
        Some(fault) => Err(fault),
        None => Ok(hives.books),
    }
}

/// Reads the table; a hive with a fault is left out, and its faults are listed.
pub(super) fn hives_of_table(text: &str) -> Result<Hives, Error> {
    let separator = separator_of(text);
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .delimiter(separator as u8)
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let mut heading: Vec<String> = Vec::new();
    for name in reader.headers().map_err(told)? {
        let plain = plain_heading(name);
        if !plain.is_empty() && !names().any(|known| known == plain) {
            let hint = nearest(&plain, names()).map_or_else(
                || {
                    format!(
                        "expected some of {}",
                        names().collect::<Vec<_>>().join(", ")
                    )
                },
                |near| format!("did you mean {near}?"),
            );
            return Err(Error::scenario(
                "line 1",
                format!("unknown column \"{name}\"; {hint}"),
            ));
        }
        if !plain.is_empty() && heading.contains(&plain) {
            return Err(Error::scenario(
                "line 1",
                format!("the column \"{name}\" stands there twice"),
            ));
        }
        heading.push(plain);
    }
    if !heading.iter().any(|name| name == "date") {
        return Err(Error::scenario("line 1", "there is no column \"date\""));
    }
    let mut books: BTreeMap<String, VisitBook> = BTreeMap::new();
    let mut faults = Vec::new();
    let mut faulty = BTreeSet::new();
    for row in reader.records() {
        let row = row.map_err(told)?;
        if row.iter().all(str::is_empty) {
            continue;
        }
        // Collecting would sort first, with a sort of its own in the page's module.
        let mut cells: BTreeMap<&str, &str> = BTreeMap::new();
        let filled = heading.iter().map(String::as_str).zip(&row);
        cells.extend(filled.filter(|(name, cell)| !name.is_empty() && !cell.is_empty()));
        let row_of_table = Row {
            line: row.position().map_or(0, csv::Position::line),
            decimal_comma: separator == ';',
            cells: &cells,
        };
        let hive = cells.get("hive").copied().unwrap_or("");
        let read = row_of_table
            .width(row.len(), heading.len())
            .and_then(|()| row_of_table.visit())
            .and_then(|visit| row_of_table.put(visit, hive, &mut books));
        if let Err(fault) = read {
            faulty.insert(hive.to_owned());
            faults.push(fault);
        }
    }
    for hive in &faulty {
        books.remove(hive);
    }
    if books.is_empty() && faults.is_empty() {
        return Err(Error::scenario("", "there is no visit under the heading"));
    }
    Ok(Hives {
        books: books.into_values().collect(),
        faults,
    })
}

fn told(error: csv::Error) -> Error {
    let line = error.position().map_or(1, csv::Position::line);
    Error::scenario(format!("line {line}"), error.to_string())
}

struct Row<'a> {
    line: u64,
    /// Semicolons part the cells, and a comma the decimals.
    decimal_comma: bool,
    cells: &'a BTreeMap<&'a str, &'a str>,
}

impl Row<'_> {
    #[cold]
    fn fault(&self, column: &str, message: impl Into<String>) -> Error {
        Error::scenario(format!("line {}: {column}", self.line), message)
    }

    /// A row with cells missing or left over.
    fn width(&self, cells: usize, wide: usize) -> Result<(), Error> {
        if cells == wide {
            return Ok(());
        }
        Err(Error::scenario(
            format!("line {}", self.line),
            format!("expected {wide} cells, as in the heading, got {cells}"),
        ))
    }

    /// Puts a visit into the book of its hive.
    fn put(
        &self,
        visit: Visit,
        hive: &str,
        books: &mut BTreeMap<String, VisitBook>,
    ) -> Result<(), Error> {
        let book = books.entry(hive.to_owned()).or_insert_with(|| VisitBook {
            hive: hive.to_owned(),
            ..VisitBook::default()
        });
        if let Some(scenario) = self.cells.get("scenario") {
            if !book.scenario.is_empty() && book.scenario != *scenario {
                let before = &book.scenario;
                return Err(self.fault(
                    "scenario",
                    format!(
                        "expected \"{before}\", as in the lines of this hive before, got \"{scenario}\""
                    ),
                ));
            }
            book.scenario = (*scenario).to_owned();
        }
        book.visits.push(visit);
        Ok(())
    }

    /// A cell as a number is read.
    fn plain(&self, cell: &str) -> String {
        if self.decimal_comma {
            cell.trim().replace(',', ".")
        } else {
            cell.trim().to_owned()
        }
    }

    fn number<T: FromStr>(&self, column: &str, what: &str) -> Result<Option<T>, Error> {
        let Some(cell) = self.cells.get(column) else {
            return Ok(None);
        };
        self.plain(cell)
            .parse()
            .map(Some)
            .map_err(|_| self.fault(column, format!("expected {what}, got \"{cell}\"")))
    }

    fn boxes(&self, column: &str) -> Result<Vec<f64>, Error> {
        let Some(cell) = self.cells.get(column) else {
            return Ok(Vec::new());
        };
        cell.split('+')
            .map(|frames| {
                self.plain(frames).parse().map_err(|_| {
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
            .map(|cell| typed_date(cell).map_err(|reason| self.fault(column, reason)))
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
    fn examples_of_columns_are_read() {
        let row =
            |cell: fn(&TableColumn) -> &'static str| COLUMNS.iter().map(cell).collect::<Vec<_>>();
        let names = row(|column| column.name).join(",");
        let books = books_from_csv(&format!(
            "{names}\n{}\n",
            row(|column| column.example).join(",")
        ));
        let visit = &books.unwrap()[0].visits[0];
        assert_eq!(visit.frames_of_bees, [5.5, 2.0]);
        assert_eq!(
            (visit.wash.unwrap().mites, visit.eggs_seen),
            (4, Some(true))
        );
    }

    /// The shapes that a weather table may have: capitals, semicolons with decimal commas, dates with dots.
    #[test]
    fn a_table_may_be_written_as_a_weather_table() {
        for text in [
            "Hive;Date;Frames of bees;Stores (kg)\nA;14.5.2012;5,5+2;6,5\n",
            "hive\tDATE\tframes-of-bees\tstores_kg\nA\t2012/05/14\t5.5+2\t6.5\n",
            "hive,date,frames_of_bees,stores_kg,\n\nA,20120514,5.5 + 2,6.5,\n",
        ] {
            let books = books_from_csv(text).expect(text);
            let visit = &books[0].visits[0];
            assert_eq!(
                visit.date,
                crate::calendar::parse_date("2012-05-14").unwrap()
            );
            assert_eq!(visit.frames_of_bees, [5.5, 2.0], "{text}");
            assert_eq!(visit.stores_kg, Some(6.5), "{text}");
        }
        let fault = books_from_csv("date\n14/05/2012\n").unwrap_err();
        assert!(fault.message.contains("two days"), "{fault}");
    }

    #[test]
    fn a_faulty_hive_does_not_hide_the_others() {
        let hives = hives_of_table(
            "hive,date,eggs_seen\nA,2012-05-14,yes\nB,2012-05-14,yes\nB,2012-05-21,perhaps\nC,2012-05-14,no\n",
        )
        .unwrap();
        let read: Vec<&str> = hives.books.iter().map(|book| book.hive.as_str()).collect();
        assert_eq!(read, ["A", "C"]);
        assert_eq!(hives.faults.len(), 1);
        assert_eq!(hives.faults[0].place, "line 4: eggs_seen");
    }
}
