//! One file for each subcommand.

mod bands;
mod calibrate;
mod check;
mod completions;
mod digest;
mod evidence;
mod next;
mod params;
mod places;
mod rehearse;
mod run;
mod schema;
mod search;
mod treatments;
mod twin;
mod verdict;
mod weather;
mod window;

use crate::args::Command;
use crate::output::Failure;

pub fn run(command: Command) -> Result<(), Failure> {
    match command {
        Command::Run(given) => run::run(&given),
        Command::Twin(given) => twin::run(&given),
        Command::Window(given) => window::run(&given),
        Command::Bands(given) => bands::run(&given),
        Command::Verdict(given) => verdict::run(&given),
        Command::Next(given) => next::run(&given),
        Command::Search(given) => search::run(&given),
        Command::Rehearse(given) => rehearse::run(&given),
        Command::Calibrate(given) => calibrate::run(&given),
        Command::Weather(given) => weather::run(&given),
        Command::Places(given) => places::run(&given),
        Command::Treatments(given) => treatments::run(&given),
        Command::Params(given) => params::run(&given),
        Command::Schema(given) => schema::run(&given),
        Command::Evidence(given) => evidence::run(&given),
        Command::Check(given) => check::run(&given),
        Command::Completions(given) => completions::run(&given),
        Command::Digest(given) => digest::run(&given),
    }
}
