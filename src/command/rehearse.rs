//! `combcast rehearse`: invented visits to practise on.

use combcast_core::Error;
use combcast_core::calendar::days_between;
use combcast_core::document::VERSION;
use combcast_core::verdict::{rehearse, sheets};
use combcast_core::visits::VisitBook;

use crate::args;
use crate::load;
use crate::output::{self, Failure};

pub fn run(given: &args::Rehearse) -> Result<(), Failure> {
    let (scenario, peers) = load::peers(&given.scenario)?;
    let first = given
        .first
        .map_or(14, |first| days_between(scenario.start.date.0, first));
    let last = first + i32::from(given.every) * (i32::from(given.visits) - 1);
    if first < 0 || last >= peers.days() as i32 {
        return Err(Error::scenario(
            "--visits",
            format!(
                "expected visits from {} to {}; there are {} every {} days from day {}",
                scenario.start.date,
                scenario.until,
                given.visits,
                given.every,
                first + 1
            ),
        )
        .into());
    }
    let days: Vec<usize> = (first..=last)
        .step_by(usize::from(given.every))
        .map(|day| day as usize)
        .collect();
    let every = usize::from(given.wash_every);
    let wash = |place: usize| every > 0 && (place + 1).is_multiple_of(every);
    let sheets = sheets(&peers, &days, !scenario.feed.is_empty(), wash);
    let (_, visits) = rehearse(&peers, &sheets, given.colony, given.fault)?;
    let book = VisitBook {
        hive: given.hive.clone(),
        visits,
        ..VisitBook::default()
    };
    let quoted = |word: String| {
        if word.contains(' ') {
            format!("'{word}'")
        } else {
            word
        }
    };
    let told: Vec<String> = std::env::args().skip(1).map(quoted).collect();
    let told = told.join(" ");
    let text = book.to_toml().map_err(|error| error.within(&given.hive))?;
    output::write(&format!(
        "# Invented visits: a colony of the model, with the errors that people make in looking.\n\
         # Made by combcast {VERSION}: combcast {told}\n{text}"
    ))
}
