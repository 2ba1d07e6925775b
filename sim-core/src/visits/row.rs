//! One row of a table of visits: its cells as what was seen.

use std::collections::BTreeMap;

use super::{MiteFall, MiteWash, SyrupTaken, Visit, VisitBook};
use crate::Error;
use crate::calendar::{CalendarDate, typed_date};
use crate::scenario::FeedKind;
use crate::spreadsheet::with_point;
use crate::syrup::KG_PER_POUND;

/// The cells of one visit.
pub(super) struct Row<'a> {
    /// Counted from 1 in the file.
    pub line: usize,
    /// Semicolons part the cells, and a comma the decimals.
    pub decimal_comma: bool,
    /// By the name of the column; empty ones are left out.
    pub cells: &'a BTreeMap<&'a str, &'a str>,
}

impl Row<'_> {
    #[cold]
    fn fault(&self, column: &str, message: impl Into<String>) -> Error {
        Error::scenario(format!("line {}: {column}", self.line), message)
    }

    /// A row with cells missing or left over.
    pub fn width(&self, cells: usize, wide: usize) -> Result<(), Error> {
        if cells == wide {
            return Ok(());
        }
        Err(Error::scenario(
            format!("line {}", self.line),
            format!("expected {wide} cells, as in the heading, got {cells}"),
        ))
    }

    /// The hive that the visit was to.
    pub fn hive(&self) -> &str {
        self.cells.get("hive").copied().unwrap_or("")
    }

    /// Puts the visit into the book of its hive.
    pub fn put(&self, book: &mut VisitBook) -> Result<(), Error> {
        let visit = self.visit()?;
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
        book.lines.push(self.line);
        Ok(())
    }

    /// A cell as a number is read.
    fn plain(&self, cell: &str) -> String {
        if self.decimal_comma {
            with_point(cell.trim())
        } else {
            cell.trim().to_owned()
        }
    }

    fn count(&self, column: &str) -> Result<Option<u32>, Error> {
        let Some(cell) = self.cells.get(column) else {
            return Ok(None);
        };
        let count = self
            .plain(cell)
            .parse()
            .map_err(|_| self.fault(column, format!("expected a whole number, got \"{cell}\"")))?;
        Ok(Some(count))
    }

    /// A number that there is: not `NaN`, nor more than a number can hold.
    fn finite(&self, cell: &str) -> Option<f64> {
        let number: f64 = self.plain(cell).parse().ok()?;
        number.is_finite().then_some(number)
    }

    fn amount(&self, column: &str) -> Result<Option<f64>, Error> {
        let Some(cell) = self.cells.get(column) else {
            return Ok(None);
        };
        match self.finite(cell) {
            None => Err(self.fault(column, format!("expected a number, got \"{cell}\""))),
            number => Ok(number),
        }
    }

    /// The one of two columns that is filled in.
    fn either(&self, one: &str, other: &str) -> Result<[Option<f64>; 2], Error> {
        match [self.amount(one)?, self.amount(other)?] {
            [Some(_), Some(_)] => Err(self.fault(
                other,
                format!("expected an empty cell, since {one} is filled in"),
            )),
            amounts => Ok(amounts),
        }
    }

    /// A weight, kg, from a column in kilograms or one in pounds.
    fn kilograms(&self, metric: &str, us: &str) -> Result<Option<f64>, Error> {
        let [kilograms, pounds] = self.either(metric, us)?;
        Ok(kilograms.or(pounds.map(|pounds| pounds * KG_PER_POUND)))
    }

    fn boxes(&self, column: &str) -> Result<Vec<f64>, Error> {
        let Some(cell) = self.cells.get(column) else {
            return Ok(Vec::new());
        };
        cell.split('+')
            .map(|frames| {
                self.finite(frames).ok_or_else(|| {
                    self.fault(
                        column,
                        format!("expected frames box by box, such as 5.5+2, got \"{cell}\""),
                    )
                })
            })
            .collect()
    }

    /// In English or German, as people write it or as spreadsheets do.
    fn yes(&self, column: &str) -> Result<Option<bool>, Error> {
        match self.cells.get(column).map(|cell| cell.to_ascii_lowercase()) {
            None => Ok(None),
            Some(cell) => match cell.as_str() {
                "yes" | "y" | "true" | "1" | "ja" | "j" | "wahr" => Ok(Some(true)),
                "no" | "n" | "false" | "0" | "nein" | "falsch" => Ok(Some(false)),
                _ => Err(self.fault(
                    column,
                    format!("expected yes or no, got \"{}\"", self.cells[column]),
                )),
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
        let wash = self
            .count("wash_mites")?
            .map(|mites| -> Result<MiteWash, Error> {
                Ok(MiteWash {
                    mites,
                    bees: self.count("wash_bees")?.unwrap_or(super::half_a_cup()),
                    sugar: self.yes("wash_sugar")?.unwrap_or(false),
                })
            });
        let mite_fall = self
            .count("mite_fall")?
            .map(|mites| -> Result<MiteFall, Error> {
                Ok(MiteFall {
                    mites,
                    days: self.amount("mite_fall_days")?.unwrap_or(1.0),
                })
            });
        let syrup = match self.either("syrup_litres", "syrup_quarts")? {
            [None, None] => None,
            [litres, jars] => Some(SyrupTaken {
                litres,
                jars,
                kind: self.word("syrup_kind")?.unwrap_or(FeedKind::OneToOne),
                since: self.date("syrup_since")?,
            }),
        };
        Ok(Visit {
            date,
            frames_of_bees: self.boxes("frames_of_bees")?,
            frames_of_brood: self.boxes("frames_of_brood")?,
            frames_drawn: self.boxes("frames_drawn")?,
            frames_of_stores: self.amount("frames_of_stores")?,
            stores_kg: self.kilograms("stores_kg", "stores_lb")?,
            eggs_seen: self.yes("eggs_seen")?,
            queen_seen: self.yes("queen_seen")?,
            cups: self.count("cups")?,
            charged_cells: self.count("charged_cells")?,
            capped_cells: self.count("capped_cells")?,
            drone_frame: self.word("drone_frame")?,
            wash: wash.transpose()?,
            mite_fall: mite_fall.transpose()?,
            syrup_taken: syrup,
            weight_kg: self.kilograms("weight_kg", "weight_lb")?,
            notes: self.cells.get("notes").copied().unwrap_or("").to_owned(),
        })
    }
}
