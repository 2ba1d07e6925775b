//! `combcast treatments`: what is published of treatments against mites, by active ingredient.

use combcast_core::treatments::{LABEL, SuperRule, TREATMENTS, TreatmentInfo};

use crate::args;
use crate::output::{self, BOLD, Failure};

pub fn run(given: &args::Treatments) -> Result<(), Failure> {
    if given.json {
        return output::write(&output::json(&TREATMENTS)?);
    }
    let mut text = format!("{BOLD}{}{BOLD:#}\n", output::wrapped(LABEL, 0));
    text.push_str(&output::wrapped(
        "A season is treated by a move: `[[move]]` with `date` and `treat.with`.",
        0,
    ));
    text.push('\n');
    for row in &TREATMENTS {
        text.push_str(&told(row));
    }
    output::write(&text)
}

fn told(row: &TreatmentInfo) -> String {
    let percent = |share: f64| format!("{:.0} %", 100.0 * share);
    let cells = if row.in_cells > 0.0 {
        format!("and {} of those in capped cells", percent(row.in_cells))
    } else {
        "and none in capped cells".to_owned()
    };
    let supers = match row.supers {
        SuperRule::Off => "no honey supers",
        SuperRule::SomeLabels => "honey supers only where the label allows them",
    };
    let days = if row.days == 1 {
        "1 day".to_owned()
    } else {
        format!("{} days", row.days)
    };
    let facts = format!(
        "kills {} of the mites on bees in a day {cells}; {days}; {:.0} to {:.0} °C; {supers}.",
        percent(row.on_bees),
        row.window_c.0,
        row.window_c.1
    );
    let mut name = row.name.to_owned();
    name[..1].make_ascii_uppercase();
    format!(
        "\n{BOLD}{name}{BOLD:#}\n{}\n{}\n{}\n",
        output::wrapped(&facts, 2),
        output::wrapped(row.caution, 2),
        output::wrapped(&format!("Source: {}.", row.source), 2)
    )
}
