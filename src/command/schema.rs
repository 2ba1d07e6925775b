//! `combcast schema`: the JSON Schema of scenario files.

use combcast_core::scenario::scenario_schema;

use crate::output::{self, Failure};

pub fn run() -> Result<(), Failure> {
    output::write(&format!("{:#}\n", scenario_schema()))
}
