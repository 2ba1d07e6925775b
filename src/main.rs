//! The `combcast` command line: files in, words, tables and files out. All file access of Combcast is here.

mod args;
mod command;
mod hands;
mod load;
mod output;
mod records;
mod words;

use std::process::ExitCode;

use clap::Parser;

fn main() -> ExitCode {
    // Without this, a closed pipe (`combcast run … | head`) ends in a panic of the print macros; we
    // write through `output::write`, which takes it as the end of interest.
    let cli = args::Cli::parse();
    match command::run(cli.command) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            output::report(&failure);
            failure.exit_code()
        }
    }
}
