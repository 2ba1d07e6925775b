//! `combcast params`: the table of parameters.

use combcast_core::{Basis, Error, ErrorKind, ParamInfo, Parameters};
use serde::Serialize;

use crate::args;
use crate::output::{self, BOLD, DIM, Failure};

/// One row of `--json`.
#[derive(Serialize)]
struct Row {
    section: &'static str,
    #[serde(flatten)]
    info: ParamInfo,
}

pub fn run(given: &args::Params) -> Result<(), Failure> {
    let sections = sections(given.section.as_deref())?;
    if given.json {
        let rows: Vec<Row> = sections
            .iter()
            .flat_map(|&(section, rows)| rows.iter().map(move |&info| Row { section, info }))
            .collect();
        let text = serde_json::to_string_pretty(&rows)
            .map_err(|error| Failure::File(error.to_string()))?;
        return output::write(&(text + "\n"));
    }
    let text: Vec<String> = sections
        .iter()
        .map(|(section, rows)| words(section, rows))
        .collect();
    output::write(&text.join("\n"))
}

type Section = (&'static str, &'static [ParamInfo]);

fn sections(wanted: Option<&str>) -> Result<Vec<Section>, Failure> {
    let all = Parameters::INFO;
    let Some(wanted) = wanted else {
        return Ok(all.to_vec());
    };
    let found: Vec<Section> = all
        .iter()
        .filter(|(name, _)| *name == wanted)
        .copied()
        .collect();
    if found.is_empty() {
        let names: Vec<&str> = all.iter().map(|(name, _)| *name).collect();
        let message = format!("no such section; expected one of {}", names.join(", "));
        return Err(Error::new(ErrorKind::Parameter, wanted, message).into());
    }
    Ok(found)
}

fn words(section: &str, rows: &[ParamInfo]) -> String {
    let mut text = String::new();
    for row in rows {
        let basis = match row.basis {
            Basis::Published => "published",
            Basis::Assumed => "assumed",
            Basis::Tuned => "tuned",
        };
        let unit = if row.unit == "-" {
            String::new()
        } else {
            format!(" {}", row.unit)
        };
        text.push_str(&format!(
            "{BOLD}{section}.{}{BOLD:#} = {}{unit}  {DIM}{} to {}, {basis}{DIM:#}\n",
            row.name, row.default, row.min, row.max
        ));
        text.push_str(&output::wrapped(row.doc, 4));
        text.push('\n');
        text.push_str(&output::wrapped(&format!("Source: {}", row.source), 4));
        text.push('\n');
    }
    text
}
