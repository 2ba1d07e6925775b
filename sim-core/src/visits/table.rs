//! A CSV table of visits to many hives.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use super::VisitBook;
use super::file::Hives;
use super::row::Row;
use crate::Error;
use crate::order;
use crate::scenario::nearest;
use crate::spreadsheet::Opening;
use crate::weather::plain_heading;

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
pub const COLUMNS: [TableColumn; 27] = [
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
    column("stores_lb", "13", "the same, lb"),
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
    column("syrup_quarts", "2", "the same, US quarts"),
    column("syrup_kind", "1:1", "1:1 or 2:1; otherwise 1:1"),
    column(
        "syrup_since",
        "2012-05-07",
        "since which day; otherwise the visit before",
    ),
    column("weight_kg", "31.5", "weight of the hive, kg"),
    column("weight_lb", "69.5", "the same, lb"),
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
    let opening = Opening::of(text);
    let heading_line = opening.lines_before + 1;
    let in_heading = |message| Error::scenario(format!("line {heading_line}"), message);
    if let Some(line) = opening.open_quote(false) {
        return Err(Error::scenario(
            format!("line {line}"),
            "a quote (\") begins a cell and does not end it: close it, or leave it out",
        ));
    }
    let told = |error: csv::Error| {
        let line = error.position().map_or(1, csv::Position::line) as usize;
        Error::scenario(
            format!("line {}", opening.lines_before + line),
            error.to_string(),
        )
    };
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(opening.separator as u8)
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(opening.table.as_bytes());
    let heading = columns_of(reader.headers().map_err(told)?).map_err(in_heading)?;
    let mut books: BTreeMap<Name, VisitBook> = BTreeMap::new();
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
        let line = row.position().map_or(0, csv::Position::line) as usize;
        let row_of_table = Row {
            line: opening.lines_before + line,
            decimal_comma: opening.decimal_comma(),
            cells: &cells,
        };
        let name = Name(row_of_table.hive().to_owned());
        let book = books.entry(name.clone()).or_insert_with(|| VisitBook {
            hive: name.0.clone(),
            ..VisitBook::default()
        });
        let read = row_of_table
            .width(row.len(), heading.len())
            .and_then(|()| row_of_table.put(book));
        if let Err(fault) = read {
            faulty.insert(name);
            faults.push(fault);
        }
    }
    for name in &faulty {
        books.remove(name);
    }
    if books.is_empty() && faults.is_empty() {
        return Err(Error::scenario("", "there is no visit under the heading"));
    }
    Ok(Hives {
        books: books.into_values().collect(),
        faults,
    })
}

/// Whether a text is a table of visits by its heading. In TOML no line is like it.
pub(super) fn is_table(text: &str) -> bool {
    let opening = Opening::of(text);
    let heading = opening.table.lines().next().unwrap_or("");
    heading
        .split(opening.separator)
        .any(|name| plain_heading(name) == "date")
}

/// The columns by the cells of the heading, each known and there once, the date among them.
fn columns_of(cells: &csv::StringRecord) -> Result<Vec<String>, String> {
    let mut heading: Vec<String> = Vec::new();
    for name in cells {
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
            return Err(format!("unknown column \"{name}\"; {hint}"));
        }
        if !plain.is_empty() && heading.contains(&plain) {
            return Err(format!("the column \"{name}\" stands there twice"));
        }
        heading.push(plain);
    }
    if heading.iter().any(|name| name == "date") {
        Ok(heading)
    } else {
        Err("there is no column \"date\"".to_owned())
    }
}

/// The name of a hive; in order, numbers in it count as numbers: 2 before 10.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Name(String);

impl Ord for Name {
    fn cmp(&self, other: &Self) -> Ordering {
        order::natural(&self.0, &other.0)
    }
}

impl PartialOrd for Name {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::visits::Visit;

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
            ("# my hives\n\nhive\nA\n", "line 3", "no column \"date\""),
            (
                "# my hives\ndate,frames_of_bees\n2012-05-14,4+NaN\n",
                "line 3: frames_of_bees",
                "expected frames box by box, such as 5.5+2, got \"4+NaN\"",
            ),
            (
                "date,stores_kg\n2012-05-14,inf\n",
                "line 2: stores_kg",
                "expected a number, got \"inf\"",
            ),
            (
                "date,stores_kg,stores_lb\n2012-05-14,6,13\n",
                "line 2: stores_lb",
                "expected an empty cell, since stores_kg is filled in",
            ),
            (
                "date,syrup_litres,syrup_quarts\n2012-05-14,2,2\n",
                "line 2: syrup_quarts",
                "since syrup_litres is filled in",
            ),
        ] {
            let fault = books_from_csv(text).unwrap_err();
            assert_eq!(fault.place, place, "{text}");
            assert!(fault.message.contains(message), "{}", fault.message);
        }
    }

    #[test]
    fn examples_of_columns_are_read() {
        let us = |column: &&TableColumn| {
            ["_lb", "_quarts"]
                .iter()
                .any(|unit| column.name.ends_with(unit))
        };
        let metric = |column: &&TableColumn| {
            ["_kg", "_litres"]
                .iter()
                .any(|unit| column.name.ends_with(unit))
        };
        let visit = |columns: Vec<&TableColumn>| {
            let row = |cell: fn(&TableColumn) -> &str| -> String {
                let cells: Vec<&str> = columns.iter().copied().map(cell).collect();
                cells.join(",")
            };
            let text = format!(
                "{}\n{}\n",
                row(|column| column.name),
                row(|column| column.example)
            );
            books_from_csv(&text)
                .expect(&text)
                .remove(0)
                .visits
                .remove(0)
        };
        let of_metric = visit(COLUMNS.iter().filter(|column| !us(column)).collect());
        assert_eq!(of_metric.frames_of_bees, [5.5, 2.0]);
        assert_eq!(
            (of_metric.wash.unwrap().mites, of_metric.eggs_seen),
            (4, Some(true))
        );
        // The examples in pounds and quarts say about the same.
        let of_us = visit(COLUMNS.iter().filter(|column| !metric(column)).collect());
        let weights = |visit: &Visit| [visit.stores_kg.unwrap(), visit.weight_kg.unwrap()];
        for (kilograms, pounds) in weights(&of_metric).into_iter().zip(weights(&of_us)) {
            assert!((kilograms - pounds).abs() < 0.15, "{kilograms} {pounds}");
        }
        let sugar = |visit: &Visit| visit.syrup_taken.unwrap().sugar_kg();
        assert!((sugar(&of_metric) / sugar(&of_us) - 1.0).abs() < 0.02);
        assert_eq!(
            COLUMNS.iter().filter(us).count(),
            COLUMNS.iter().filter(metric).count()
        );
    }

    #[test]
    fn no_row_vanishes() {
        let books = books_from_csv("hive,date\n#1,2012-05-14\n#10,2012-05-14\n#2,2012-05-14\n");
        let hives: Vec<String> = books.unwrap().into_iter().map(|book| book.hive).collect();
        assert_eq!(hives, ["#1", "#2", "#10"]);
        for text in [
            "# a class\nhive,date,notes\nA,2012-05-14,\"calm\nB,2012-05-14,windy\n",
            "# a class\nhive,date,notes\nA,2012-05-14,\"calm\nB,2012-05-14,\"windy\"\n",
        ] {
            let fault = books_from_csv(text).unwrap_err();
            assert_eq!(fault.place, "line 3", "{text}");
            assert!(fault.message.contains("quote"), "{fault}");
        }
        let books =
            books_from_csv("hive,date,notes\nA,2012-05-14,\"calm,\nwarm\"\nA,2012-05-21,x\n")
                .unwrap();
        assert_eq!(books[0].visits[0].notes, "calm,\nwarm");
        assert_eq!(books[0].lines, [2, 4]);
    }

    #[test]
    fn a_table_may_be_german_or_from_a_spreadsheet() {
        let books = books_from_csv(
            "sep=;\r\nHive;Date;Frames of bees;Weight kg;Eggs seen;Queen seen\r\n\
             A;14.5.2012;5,5+2;1.031,5;ja;NEIN\r\nA;21.5.2012;;31,5;WAHR;Falsch\r\n",
        )
        .unwrap();
        let [one, other] = &books[0].visits[..] else {
            panic!("{books:?}");
        };
        assert_eq!(one.frames_of_bees, [5.5, 2.0]);
        assert_eq!((one.weight_kg, other.weight_kg), (Some(1031.5), Some(31.5)));
        for visit in [one, other] {
            assert_eq!(
                (visit.eggs_seen, visit.queen_seen),
                (Some(true), Some(false))
            );
        }
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
