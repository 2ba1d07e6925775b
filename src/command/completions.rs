//! `combcast completions`: a completion script for a shell.

use clap::CommandFactory;

use crate::args::{self, Cli};
use crate::output::{self, Failure};

pub fn run(given: &args::Completions) -> Result<(), Failure> {
    let mut script = Vec::new();
    clap_complete::generate(given.shell, &mut Cli::command(), "combcast", &mut script);
    output::write(&String::from_utf8_lossy(&script))
}
