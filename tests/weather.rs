//! Weather: what is read is what the file says, what is mended is said, and bad input is told, not swallowed.

mod faults;
mod generator;
mod read;
mod records;
mod resolve;

use std::path::Path;

use combcast_core::weather::{self, BuiltIn, Report, Weather};

/// A shipped record's bytes.
fn shipped(name: &str) -> Vec<u8> {
    let record = BuiltIn::named(name).expect("built-in record");
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("scenarios/weather")
        .join(record.file);
    std::fs::read(path).expect("shipped record")
}

/// A shipped record, read.
pub fn read_shipped(name: &str) -> (Weather, Report) {
    let record = BuiltIn::named(name).expect("built-in record");
    weather::read(&shipped(name), record.file, record.station, None).expect("shipped record")
}

/// One line of a fixed-width record: a month of one element, `(day, value, flags)` where it has values.
fn dly_line(
    station: &str,
    year: i32,
    month: i32,
    element: &str,
    values: &[(usize, i32, &str)],
) -> String {
    let days: String = (1..=31)
        .map(|day| match values.iter().find(|(on, ..)| *on == day) {
            Some((_, value, flags)) => format!("{value:>5}{flags}"),
            None => "-9999   ".to_owned(),
        })
        .collect();
    format!("{station}{year}{month:02}{element}{days}\n")
}
