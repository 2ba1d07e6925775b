//! `combcast evidence`: published measurements beside what the model gives.

use combcast_core::evidence::{self, Evidence, Records};

use crate::args;
use crate::output::{self, BAD, BOLD, DIM, Failure, GOOD};
use crate::records;

pub fn run(given: &args::Evidence) -> Result<(), Failure> {
    let records = Records::read(|file| records::bytes(file).to_vec())?;
    let mut rows = evidence::all(&records)?;
    let (all, inside) = (rows.len(), rows.iter().filter(|row| row.inside).count());
    if given.outside {
        rows.retain(|row| !row.inside);
    }
    if given.json {
        let text = serde_json::to_string_pretty(&rows)
            .map_err(|error| Failure::File(error.to_string()))?;
        return output::write(&(text + "\n"));
    }
    let mut text: String = rows.iter().map(words).collect();
    text.push_str(&format!(
        "{BOLD}{inside} of {all} inside the published range, {} outside{BOLD:#}\n",
        all - inside
    ));
    output::write(&text)
}

fn words(row: &Evidence) -> String {
    let (style, word) = if row.inside {
        (GOOD, "✓ inside ")
    } else {
        (BAD, "✗ outside")
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
        output::figure(row.value),
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

fn range(row: &Evidence) -> String {
    match (row.low.is_finite(), row.high.is_finite()) {
        (true, true) => format!(
            "{} to {}",
            output::figure(row.low),
            output::figure(row.high)
        ),
        (true, false) => format!("at least {}", output::figure(row.low)),
        (false, true) => format!("at most {}", output::figure(row.high)),
        (false, false) => "anything".to_owned(),
    }
}
