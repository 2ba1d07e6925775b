//! `combcast weather`: what a weather record holds.

use crate::args;
use crate::output::{self, Failure};

pub fn run(given: &args::Weather) -> Result<(), Failure> {
    let _ = given;
    output::write("")
}
