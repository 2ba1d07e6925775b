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
