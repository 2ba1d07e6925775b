//! Reading visits: a TOML file for one hive, a CSV table for many.

use super::VisitBook;
use super::table::{hives_of_table, is_table};
use crate::Error;
use crate::scenario::{read_form, text_of, to_toml};

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

/// Reads visits: a CSV table where the file name ends in `.csv` or there is a heading with a `date`, otherwise TOML.
///
/// # Errors
/// As [`book_from_toml`] and [`books_from_csv`](super::books_from_csv), with the file's name.
pub fn books_from_bytes(bytes: &[u8], file_name: &str) -> Result<Vec<VisitBook>, Error> {
    let hives = hives_from_bytes(bytes, file_name)?;
    match hives.faults.into_iter().next() {
        Some(fault) => Err(fault),
        None => Ok(hives.books),
    }
}

/// The hives of a file of visits.
#[derive(Debug, Clone, PartialEq)]
pub struct Hives {
    /// Those that can be read, in the order of their names.
    pub books: Vec<VisitBook>,
    /// What is wrong with the others, with its place.
    pub faults: Vec<Error>,
}

/// Reads visits as [`books_from_bytes`], and those of sound hives also where others have faults.
///
/// # Errors
/// What is wrong with the file as a whole, with its name.
pub fn hives_from_bytes(bytes: &[u8], file_name: &str) -> Result<Hives, Error> {
    let is_csv = file_name.to_ascii_lowercase().ends_with(".csv");
    text_of(bytes)
        .and_then(|text| {
            if text.trim().is_empty() {
                Err(Error::scenario(
                    "",
                    "the file is empty; a visit has at least a date",
                ))
            } else if is_csv || is_table(text) {
                hives_of_table(text)
            } else {
                book_from_toml(text).map(|book| Hives {
                    books: vec![book],
                    faults: Vec::new(),
                })
            }
        })
        .map(|mut hives| {
            let within = |fault: Error| fault.within(file_name);
            hives.faults = hives.faults.into_iter().map(within).collect();
            hives
        })
        .map_err(|error| error.within(file_name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_reads_back_as_it_was_written() {
        let text = "hive = \"Alder Row 3\"\n[[visit]]\ndate = 2012-05-07\nframes_of_bees = [4.25]\neggs_seen = true\nwash = { mites = 3, bees = 290 }\nsyrup_taken = { jars = 2.5 }\ndrone_frame = \"capped\"\n";
        let book = book_from_toml(text).unwrap();
        let again = book_from_toml(&toml::to_string(&book).unwrap()).unwrap();
        assert_eq!(book, again);
    }

    #[test]
    fn a_table_is_known_by_its_name_or_its_heading() {
        let table = "sep=;\nhive;Date\n3;2012-05-07\n";
        let toml = "hive = \"3\"\n[[visit]]\ndate = 2012-05-07\n";
        for (text, name) in [
            (table, "-"),
            (table, "a.csv"),
            (toml, "-"),
            (toml, "a.toml"),
        ] {
            let books = books_from_bytes(text.as_bytes(), name).expect(text);
            assert_eq!(books[0].hive, "3", "{name}");
        }
        let fault = books_from_bytes(toml.as_bytes(), "a.csv").unwrap_err();
        assert_eq!(fault.place, "a.csv: line 1", "{fault}");
    }

    #[test]
    fn what_is_not_utf_8_is_told() {
        let utf_16: Vec<u8> = "\u{feff}date\n"
            .encode_utf16()
            .flat_map(u16::to_le_bytes)
            .collect();
        let fault = books_from_bytes(&utf_16, "a.csv").unwrap_err();
        assert!(fault.message.contains("UTF-16"), "{fault}");
        let fault = books_from_bytes(b"date,notes\n2012-05-07,w\xfcst\n", "a.csv").unwrap_err();
        assert_eq!(fault.place, "a.csv: line 2");
        assert!(fault.message.contains("not UTF-8"), "{fault}");
    }
}
