//! `combcast evidence`: published measurements beside what the model gives.

use combcast_core::evidence::{self, Evidence, Records};

use crate::args;
use crate::output::{self, BAD, BOLD, DIM, Failure, GOOD};
use crate::records;

pub fn run(given: &args::Evidence) -> Result<(), Failure> {
    let records = Records::read(|file| records::bytes(file).to_vec())?;
    let mut rows = evidence::all(&records)?;
    let summary = summary(&rows);
    if given.outside {
        rows.retain(|row| !row.inside);
    }
    if given.json {
        let text = serde_json::to_string_pretty(&rows)
            .map_err(|error| Failure::File(error.to_string()))?;
        return output::write(&(text + "\n"));
    }
    let mut text: String = rows.iter().map(words).collect();
    text.push_str(&summary);
    output::write(&text)
}

/// How many of the rows that the model could have missed lie inside, and what else there is.
fn summary(rows: &[Evidence]) -> String {
    let (tests, given): (Vec<&Evidence>, Vec<&Evidence>) = rows.iter().partition(|row| row.tested);
    let inside = |rows: &[&Evidence]| rows.iter().filter(|row| row.inside).count();
    let told = format!(
        "{} of {} inside the published range, {} outside",
        inside(&tests),
        tests.len(),
        tests.len() - inside(&tests)
    );
    let besides = format!(
        "{} rows besides test nothing, {} of them inside: what went into the model, and published equations coded beside it.",
        given.len(),
        inside(&given)
    );
    format!("{BOLD}{told}{BOLD:#}\n{}", output::wrapped(&besides, 0))
}

fn words(row: &Evidence) -> String {
    let (style, word) = match (row.tested, row.inside) {
        (true, true) => (GOOD, "✓ inside "),
        (false, true) => (DIM, "· given  "),
        (_, false) => (BAD, "✗ outside"),
    };
    let unit = match row.unit {
        "-" | "" => String::new(),
        unit => format!(" {unit}"),
    };
    let heading = output::wrapped_after(&format!("{word}  {}  {}", row.id, row.check), 11);
    let mut text = heading.replacen(word, &format!("{style}{word}{style:#}"), 1);
    text.push('\n');
    let compared = format!(
        "model {}{unit}; expected {}. Published: {}",
        figure(row, row.value),
        range(row),
        row.published
    );
    text.push_str(&output::wrapped(&compared, 11));
    text.push('\n');
    for line in [row.source, row.note]
        .into_iter()
        .filter(|line| !line.is_empty())
    {
        for line in output::wrapped(line, 11).lines() {
            text.push_str(&format!("{DIM}{line}{DIM:#}\n"));
        }
    }
    text.push('\n');
    text
}

/// A number of a row; shares as so many of a hundred.
fn figure(row: &Evidence, value: f64) -> String {
    let within = |value: f64| (0.0..=1.0).contains(&value);
    let least = if row.low.is_finite() { row.low } else { 0.0 };
    let most = if row.high.is_finite() { row.high } else { 1.0 };
    if row.unit == "-" && within(least) && within(most) && within(row.value) {
        format!("{} %", output::figure(100.0 * value))
    } else {
        output::figure(value)
    }
}

fn range(row: &Evidence) -> String {
    match (row.low.is_finite(), row.high.is_finite()) {
        (true, true) => format!("{} to {}", figure(row, row.low), figure(row, row.high)),
        (true, false) => format!("at least {}", figure(row, row.low)),
        (false, true) => format!("at most {}", figure(row, row.high)),
        (false, false) => "anything".to_owned(),
    }
}
