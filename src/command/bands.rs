//! `combcast bands`: between which limits colonies of one start and weather lie.

use combcast_core::Error;
use combcast_core::calendar::{CalendarDate, days_between};
use combcast_core::ensemble::{
    Bands, FEWEST_FOR_MITES, Hands, Member, OnDate, Passed, Path, Peers, looked_at,
};
use combcast_core::story::Units;
use combcast_core::words::{Language, Speech};

use crate::args;
use crate::hands::Threads;
use crate::load;
use crate::output::{self, BOLD, Failure};
use crate::words;

pub fn run(given: &args::Bands) -> Result<(), Failure> {
    let (scenario, peers) = load::peers(&given.scenario)?;
    let last = peers.days() - 1;
    let mut days = looked_at(&scenario, last, usize::from(given.every));
    for date in &given.on {
        let day = days_between(peers.season().first, *date);
        if !(0..=last as i32).contains(&day) {
            return Err(Error::scenario(
                "--on",
                format!(
                    "expected a date from {} to {}, got {date}",
                    scenario.start.date, scenario.until
                ),
            )
            .into());
        }
        days.push(day as usize);
    }
    days.sort_unstable();
    days.dedup();
    let hands = Threads::new(given.threads)?;
    let members = members(&peers, given.members, &hands)?;
    let walked = Path::of_all(&peers, &members, &days, &hands)?;
    let paths: Vec<Path> = walked.into_iter().map(|walked| walked.path).collect();
    let mut bands = Bands::of(&scenario, &peers, &days, &paths);
    let text = if given.json {
        output::json(&bands)?
    } else if given.csv {
        csv(&bands)
    } else {
        let speech = given.speech.get();
        bands.spoken(speech.language);
        told(&bands, speech) + &load::sky(&scenario, &given.scenario.file, speech.language)?
    };
    output::write(&text)
}

/// The first members of an ensemble, on their first morning.
pub fn members(peers: &Peers, count: u32, hands: &Threads) -> Result<Vec<Member>, Failure> {
    let made = hands.make(count as usize, |number| peers.member(number as u32));
    Ok(made.into_iter().collect::<Result<_, _>>()?)
}

fn told(bands: &Bands, speech: Speech) -> String {
    let language = speech.language;
    let words = &words::of(language).bands;
    let pattern = match bands.weathers {
        1 => words.title,
        _ => words.title_weathers,
    };
    let members = language.grouped(bands.members as f64);
    let weathers = language.grouped(bands.weathers as f64);
    let parts = [("members", &*members), ("weathers", &*weathers)];
    let mut text = format!(
        "{BOLD}{}{BOLD:#}\n{}\n",
        bands.scenario,
        output::dim(&words::text(pattern, &parts), 0),
    );
    if let Some(assumed) = &bands.assumed_mites {
        text.push_str(&output::wrapped(&assumed.text.told(speech), 0));
        text.push_str("\n\n");
    }
    text.push_str(&ranges(&bands.dates, speech));
    let fewest = language.grouped(FEWEST_FOR_MITES);
    let mites_of = words::text(words.mites_of, &[("bees", &fewest)]);
    text.push('\n');
    text.push_str(&output::dim(&mites_of, 0));
    text.push_str(&format!("\n{BOLD}{}{BOLD:#}\n", words.when));
    text.push_str(&thresholds(bands, |_| true, language));
    text.push_str(&format!("\n{BOLD}{}{BOLD:#}\n", words.how_often));
    text.push_str(&output::table(
        &[],
        &[1],
        bands.risks.iter().map(|risk| {
            [
                risk.what.to_owned(),
                words::text(
                    words.of,
                    &[
                        ("count", &language.grouped(risk.members as f64)),
                        ("all", &members),
                    ],
                ),
            ]
        }),
    ));
    text
}

/// The place of honey, kg, among the measures.
const HONEY: usize = 3;

/// Ranges of bees, brood, comb, honey and mites, a line for each date.
pub fn ranges(dates: &[OnDate], speech: Speech) -> String {
    let language = speech.language;
    let words = &words::of(language).shared;
    let units = match speech.units {
        Units::Metric => words.ranges_units,
        Units::Us => words.ranges_units_us,
    };
    let heading = [words.ranges, units];
    output::table(
        &heading,
        &[1, 2, 3, 4, 5],
        dates.iter().map(|there| {
            let range = |k: usize, digits: usize| {
                let spread = &there.measures[k].spread;
                let number = |x: f64| {
                    let x = if k == HONEY {
                        speech.units.weight(x)
                    } else {
                        x
                    };
                    if k == 0 {
                        language.grouped((x / 100.0).round() * 100.0)
                    } else {
                        language.decimal(x, digits)
                    }
                };
                language.range(&number(spread.q05), &number(spread.q95))
            };
            [
                there.date.to_string(),
                range(0, 0),
                range(1, 1),
                range(2, 0),
                range(HONEY, 1),
                range(5, 1),
            ]
        }),
    )
}

/// When thresholds are passed, a line for each, in words.
pub fn thresholds(bands: &Bands, which: impl Fn(&Passed) -> bool, language: Language) -> String {
    let first = bands.dates[0].date;
    let rows = bands.thresholds.iter().filter(|passed| which(passed));
    output::table(
        &[],
        &[],
        rows.map(|passed| [passed.what.to_owned(), when(passed, first, language)]),
    )
}

/// A threshold's dates in words; on the first day it was passed before.
fn when(passed: &Passed, first: CalendarDate, language: Language) -> String {
    let words = &words::of(language).shared;
    let (Some(early), Some(late)) = (passed.early, passed.late) else {
        return words.not_in_this_season.to_owned();
    };
    let dates = match (early == first, early == late) {
        (true, true) => words.from_the_start.to_owned(),
        (true, false) => words::text(words.from_the_start_to, &[("date", &late.to_string())]),
        (false, true) => early.to_string(),
        (false, false) => language.range(&early.to_string(), &late.to_string()),
    };
    if passed.share > 0.995 {
        dates
    } else {
        let count = format!("{:.0}", 100.0 * passed.share);
        let parts = [("dates", &*dates), ("count", &count)];
        words::text(words.in_some_colonies, &parts)
    }
}

/// One line for each date and measure, after comment lines that say what made it.
fn csv(bands: &Bands) -> String {
    let mut text = format!(
        "# combcast {}\n# scenario: {}\n# scenario digest: {}\n# seed: {}\n# members: {}\n",
        bands.version,
        bands.scenario.lines().collect::<Vec<_>>().join(" "),
        bands.scenario_digest,
        bands.seed,
        bands.members,
    );
    if let Some(assumed) = &bands.assumed_mites {
        text.push_str(&format!(
            "# assumed mites on 100 bees at the start: {}\n",
            assumed.per_100_bees
        ));
    }
    text.push_str("date,measure,unit,mean,q05,q25,median,q75,q95\n");
    for there in &bands.dates {
        for known in &there.measures {
            let spread = &known.spread;
            text.push_str(&format!(
                "{},{},{},{},{},{},{},{},{}\n",
                there.date,
                known.name,
                known.unit,
                spread.mean,
                spread.q05,
                spread.q25,
                spread.median,
                spread.q75,
                spread.q95
            ));
        }
    }
    text
}
