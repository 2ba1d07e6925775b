//! Chores of the repository: `cargo xtask` lists them.

mod bench;
mod bless;
mod chromium;
mod guard;
mod page;
mod parity;
mod parts;
mod report;
mod serve;
mod shell;
mod test;
mod wasm;

use std::process::ExitCode;

use anyhow::{Result, bail};

const USAGE: &str = "\
Chores of the Combcast repository.

usage: cargo xtask CHORE

  explore [--port N]   build the WebAssembly and the page, serve the page on this machine
  test                 run every check there is; ends with a line 'N passed, N failed'
  parity               run every shipped scenario natively and in WebAssembly and compare the bits
  bless                write down the shipped scenarios' results as the ones to keep to
  bench                measure the speed natively, in WebAssembly and of a NumPy twin
  wasm                 build the WebAssembly module and its glue into web/src/wasm
  tables               write the evidence and the parameters for the page into web/src/evidence
  serve [--port N]     serve web/dist as it is
  guard                check that no crate sends the random numbers through the platform's maths
";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let (chore, rest) = match arguments.split_first() {
        Some((chore, rest)) => (chore.as_str(), rest),
        None => ("help", &[][..]),
    };
    match run(chore, rest) {
        Ok(code) => code,
        Err(error) => {
            eprintln!("xtask {chore}: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(chore: &str, arguments: &[String]) -> Result<ExitCode> {
    match chore {
        "explore" => serve::explore(port(arguments)?)?,
        "serve" => serve::serve(port(arguments)?)?,
        "test" => return none(arguments).map(|()| test::test()),
        "parity" => none(arguments).and_then(|()| parity::parity())?,
        "bless" => none(arguments).and_then(|()| bless::bless())?,
        "bench" => none(arguments).and_then(|()| bench::bench())?,
        "wasm" => none(arguments).and_then(|()| wasm::build())?,
        "tables" => none(arguments).and_then(|()| page::tables())?,
        "guard" => none(arguments).and_then(|()| guard::check())?,
        "help" | "--help" | "-h" => print!("{USAGE}"),
        _ => bail!("no such chore\n\n{USAGE}"),
    }
    Ok(ExitCode::SUCCESS)
}

fn none(arguments: &[String]) -> Result<()> {
    match arguments {
        [] => Ok(()),
        [first, ..] => bail!("expected no argument, got {first:?}"),
    }
}

fn port(arguments: &[String]) -> Result<Option<u16>> {
    match arguments {
        [] => Ok(None),
        [name, value] if name == "--port" => match value.parse() {
            Ok(port) if port > 0 => Ok(Some(port)),
            _ => bail!("--port: expected a number from 1 to 65535, got {value:?}"),
        },
        _ => bail!("expected nothing or --port N, got {arguments:?}"),
    }
}
