//! `combcast check`: are these scenarios in order, and does each do what it expects?

use std::path::Path;

use combcast_core::calendar::days_between;
use combcast_core::evidence::KNOWN_MISSES;
use combcast_core::scenario::{Expectation, problems_in_file};
use combcast_core::words::Language;
use combcast_core::{Error, Scenario, Season};

use crate::args;
use crate::load;
use crate::output::{self, BAD, BOLD, DIM, Failure, GOOD};

const WHY: &str = "A known difference: packages in dry, warm springs grow more slowly in the model than was measured. \
    `combcast evidence --outside` lists what differs, place by place, and why.";

/// How a file came off.
enum Verdict {
    Met { text: String },
    Missed { text: String, known: bool },
    Faulty(Failure),
}

/// Checks every file, so that one faulty file does not hide the others.
pub fn run(given: &args::Check) -> Result<(), Failure> {
    let (mut missed, mut known_only, mut faulty) = (0, 0, 0);
    for file in &given.files {
        match check(file) {
            Verdict::Met { text } => output::write(&text)?,
            Verdict::Missed { text, known } => {
                missed += 1;
                known_only += u32::from(known);
                output::write(&text)?;
            }
            Verdict::Faulty(failure) => {
                faulty += 1;
                output::report(&failure);
            }
        }
    }
    if given.files.len() > 1 {
        let in_order = given.files.len() - missed - faulty;
        output::write(&format!(
            "{in_order} of {} in order, {missed} with expectations not met{}, {faulty} faulty\n",
            given.files.len(),
            match known_only {
                0 => String::new(),
                known => format!(" ({known} of them by known differences alone)"),
            }
        ))?;
    }
    if faulty > 0 {
        // Told already, file by file.
        Err(Failure::Input(Vec::new()))
    } else if missed > 0 {
        Err(Failure::Expectation)
    } else {
        Ok(())
    }
}

fn check(file: &Path) -> Verdict {
    let season = load::read(file).and_then(|bytes| {
        let name = load::name(file);
        let problems = problems_in_file(&bytes, &name);
        if !problems.is_empty() {
            return Err(Failure::Input(problems));
        }
        let scenario = Scenario::from_bytes(&bytes, &name)?;
        load::season(scenario, file, &bytes)
    });
    let run = match season {
        Ok(run) => run,
        Err(failure) => return Verdict::Faulty(failure),
    };
    match compare(&run.scenario, &run.season) {
        Ok((lines, missed, known)) => {
            let expected = run.scenario.expect.len();
            let (style, word) = if missed == 0 {
                (GOOD, "ok")
            } else {
                (BAD, "not met")
            };
            let text = format!(
                "{style}{word}{style:#} {BOLD}{}{BOLD:#}: {} of {expected} expectations met\n{sky}{lines}",
                file.display(),
                expected - missed,
                sky = load::sky_of(&run.report, Language::English),
            );
            if missed == 0 {
                Verdict::Met { text }
            } else {
                Verdict::Missed {
                    text,
                    known: missed == known,
                }
            }
        }
        Err(error) => Verdict::Faulty(error.within(&load::name(file)).into()),
    }
}

/// A line for each expectation, how many were not met, and how many of those are known.
fn compare(scenario: &Scenario, season: &Season) -> Result<(String, usize, usize), Error> {
    let mut lines = String::new();
    let (mut missed, mut known) = (0, 0);
    for (index, expectation) in scenario.expect.iter().enumerate() {
        let value = value(expectation, season)
            .map_err(|message| Error::scenario(format!("expect[{index}]"), message))?;
        let met = expectation.at_least.is_none_or(|least| value >= least)
            && expectation.at_most.is_none_or(|most| value <= most);
        if !met {
            missed += 1;
        }
        let (style, mark) = if met { (GOOD, "✓") } else { (BAD, "✗") };
        lines.push_str(&format!(
            "  {style}{mark}{style:#} {} {} is {}; expected {}\n",
            expectation.date,
            expectation.column,
            output::figure(value),
            range(expectation),
        ));
        for line in output::wrapped(&expectation.because, 4).lines() {
            lines.push_str(&format!("{DIM}{line}{DIM:#}\n"));
        }
        if !met && is_known(scenario, expectation) {
            known += 1;
            lines.push_str(&output::wrapped(WHY, 4));
            lines.push('\n');
        }
    }
    Ok((lines, missed, known))
}

fn is_known(scenario: &Scenario, expectation: &Expectation) -> bool {
    let date = expectation.date.to_string();
    KNOWN_MISSES.contains(&(&scenario.name, &date, &expectation.column))
}

fn value(expectation: &Expectation, season: &Season) -> Result<f64, String> {
    let day = usize::try_from(days_between(season.first, expectation.date.0))
        .ok()
        .and_then(|index| season.days.get(index))
        .ok_or_else(|| format!("{} lies outside of the season", expectation.date))?;
    day.value(&expectation.column)
        .ok_or_else(|| format!("there is no column \"{}\"", expectation.column))
}

fn range(expectation: &Expectation) -> String {
    match (expectation.at_least, expectation.at_most) {
        (Some(least), Some(most)) => {
            format!("{} to {}", output::figure(least), output::figure(most))
        }
        (Some(least), None) => format!("at least {}", output::figure(least)),
        (None, Some(most)) => format!("at most {}", output::figure(most)),
        (None, None) => "nothing".to_owned(),
    }
}
