//! `combcast calibrate`: whether verdicts mean what they say, on invented colonies.

use combcast_core::Error;
use combcast_core::ensemble::Hands;
use combcast_core::verdict::{
    Calibrated, Cause, Effort, Fault, Trial, calibrated, recognised, sheets, trial,
};
use serde::Serialize;

use crate::args;
use crate::hands::Threads;
use crate::load;
use crate::output::{self, BOLD, Failure};

/// Chi-square with 9 degrees of freedom that one fair test in a hundred exceeds.
const ONE_IN_A_HUNDRED: f64 = 21.67;

#[derive(Debug, Serialize)]
struct Document {
    version: &'static str,
    scenario: String,
    colonies: u32,
    members: u32,
    rounds: u32,
    visits: Vec<usize>,
    calibrated: Vec<Calibrated>,
    confusion: Vec<Planted>,
}

/// What verdicts said of colonies with one fault.
#[derive(Debug, Serialize)]
struct Planted {
    /// The fault.
    fault: Fault,
    /// Colonies in which each cause came first, in the order of [`Cause::ALL`].
    first: [usize; Cause::ALL.len()],
    /// Colonies in which the first cause was likelier than that nothing is wrong.
    named: usize,
    /// Colonies in which the fault could not be planted.
    unplanted: usize,
}

pub fn run(given: &args::Calibrate) -> Result<(), Failure> {
    let (scenario, peers) = load::peers(&given.scenario)?;
    let hands = Threads::new(given.threads)?;
    let effort = Effort {
        members: given.members,
        rounds: given.rounds,
    };
    let (first, every) = (usize::from(given.first), usize::from(given.every));
    let days: Vec<usize> = (0..usize::from(given.visits))
        .map(|k| first + k * every)
        .collect();
    if days.last().is_some_and(|last| *last >= peers.days()) {
        return Err(Error::scenario("--visits", "the last lies after the season").into());
    }
    let feeds = !scenario.feed.is_empty();
    let sheets = sheets(&peers, &days, feeds, |place| place % 2 == 1);
    let numbers = |k: usize| 1_000_000 + k as u32;
    let count = given.colonies as usize;
    let trials = hands.make(count, |k| trial(&peers, &sheets, numbers(k), effort));
    let trials: Vec<Trial> = trials.into_iter().collect::<Result<_, _>>()?;

    let mut confusion = Vec::new();
    for (fault, _) in Fault::ALL {
        let said = hands.make(given.planted as usize, |k| {
            recognised(&peers, &sheets, numbers(k), fault, effort)
        });
        let mut planted = Planted {
            fault,
            first: [0; Cause::ALL.len()],
            named: 0,
            unplanted: 0,
        };
        for said in said {
            match said {
                Ok(said) => {
                    planted.first[said.first as usize] += 1;
                    planted.named += usize::from(said.named);
                }
                Err(_) => planted.unplanted += 1,
            }
        }
        confusion.push(planted);
    }
    let document = Document {
        version: combcast_core::document::VERSION,
        scenario: scenario.name.clone(),
        colonies: given.colonies,
        members: given.members,
        rounds: given.rounds,
        visits: days,
        calibrated: calibrated(&trials),
        confusion,
    };
    output::write(&if given.json {
        output::json(&document)?
    } else {
        words(&document)
    })
}

fn words(document: &Document) -> String {
    let mut text = format!(
        "{BOLD}{}{BOLD:#}\n{} colonies, {} visits each, {} members, {} rounds\n\n",
        document.scenario,
        document.colonies,
        document.visits.len(),
        document.members,
        document.rounds
    );
    if document.colonies > 0 {
        text.push_str(&output::table(
            &[[
                "quantity",
                "ranks by tenths",
                "chi-square",
                "90 % band holds",
            ]],
            &[2, 3],
            document.calibrated.iter().map(|row| {
                [
                    row.quantity.to_owned(),
                    row.classes.map(|count| format!("{count:2}")).join("\u{a0}"),
                    format!(
                        "{:.1}{}",
                        row.chi_square,
                        if row.chi_square > ONE_IN_A_HUNDRED {
                            " !"
                        } else {
                            ""
                        }
                    ),
                    format!("{:.1} %", 100.0 * row.held),
                ]
            }),
        ));
        text.push_str(&format!(
            "Even ranks stay below {ONE_IN_A_HUNDRED} in 99 of 100 tests; ! marks more.\n\n"
        ));
    }
    if document
        .confusion
        .iter()
        .all(|row| row.first.iter().sum::<usize>() == 0)
    {
        return text;
    }
    text.push_str(&output::table(
        &[[
            "planted", "no queen", "queen", "food", "comb", "mites", "losses", "named",
        ]],
        &[1, 2, 3, 4, 5, 6, 7],
        document.confusion.iter().map(|row| {
            let name = Fault::ALL
                .iter()
                .find(|(fault, _)| *fault == row.fault)
                .map_or("", |(_, name)| *name);
            let counts = row.first.iter().chain([&row.named]);
            let mut cells = vec![name.to_owned()];
            cells.extend(counts.map(ToString::to_string));
            cells.try_into().expect("a cause to a column")
        }),
    ));
    text
}
