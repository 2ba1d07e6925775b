//! `combcast digest`: one number for a whole season, to compare machines bit for bit.

use combcast_core::digest;

use crate::args;
use crate::load;
use crate::output::{self, Failure};

pub fn run(given: &args::Digest) -> Result<(), Failure> {
    let run = load::run(&given.scenario)?;
    output::write(&format!("{:016x}\n", digest::of(&run.season)))
}
