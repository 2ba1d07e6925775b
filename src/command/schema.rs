//! `combcast schema`: the JSON Schema of scenario files and of visit files.

use combcast_core::scenario::scenario_schema;
use combcast_core::visits::visits_schema;

use crate::args;
use crate::output::{self, Failure};

pub fn run(given: &args::Schema) -> Result<(), Failure> {
    let schema = if given.visits {
        visits_schema()
    } else {
        scenario_schema()
    };
    output::write(&format!("{schema:#}\n"))
}
