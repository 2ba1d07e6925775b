//! `combcast twin`: a plan against the same season done otherwise, over an ensemble.

use combcast_core::ensemble::Hands;
use combcast_core::scenario::{Mode, Without, locate};
use combcast_core::story::{self, Names, Units};
use combcast_core::twin::{Comparison, OnDate, Pair, Side, TWIN};
use combcast_core::weather::{Report, Weather};
use combcast_core::words::{Language, Speech};
use combcast_core::{Error, Scenario};
use jiff::civil::Date;

use crate::args;
use crate::hands::Threads;
use crate::load;
use crate::output::{self, BOLD, DIM, Failure};
use crate::words;

/// Members where nothing is said of them.
const MEMBERS: u32 = 1000;

pub fn run(given: &args::Twin) -> Result<(), Failure> {
    let file = &given.scenario.file;
    let (plan, bytes) = load::scenario(&given.scenario)?;
    let record = load::record(&plan, file)?;
    let mut twin_file = None;
    let mut heads = None;
    let (twin, twin_record, names) = match (&given.against, given.without) {
        (Some(other), _) => {
            let (mut twin, bytes) = load::scenario(&args::Scenario {
                file: other.clone(),
                seed: None,
                mode: None,
                set: given.scenario.set.clone(),
            })?;
            twin_file = Some((other, bytes));
            let record = load::record(&twin, other)?;
            twin.seed = plan.seed;
            let mut named = [plan.clone(), twin.clone()];
            if plan.name == twin.name {
                // Two plans of one name are told apart by their files.
                for (one, file) in named.iter_mut().zip([file, other]) {
                    one.name = format!("{} ({})", one.name, load::name(file));
                }
            }
            let [one, other] = &named;
            let names = Names::of(one, other, given.speech.language.get());
            let titles = [one.name.clone(), other.name.clone()];
            heads = Some(titles);
            (twin, record, names)
        }
        (None, without) => {
            let without = without.ok_or_else(|| {
                Error::scenario("", "expected another scenario file, or --without")
            })?;
            let twin = plan
                .without(without)
                .map_err(|error| refused(error, without))?;
            (
                twin,
                record.clone(),
                Names::without(&plan, without, given.speech.language.get()),
            )
        }
    };
    let within = |mut error: Error| {
        let of_twin = error
            .place
            .strip_prefix(TWIN)
            .map(|place| place.strip_prefix(": ").unwrap_or(place).to_owned());
        let (file, bytes) = match (of_twin, &twin_file) {
            (Some(place), Some((file, bytes))) => {
                error.place = place;
                (*file, bytes)
            }
            _ => (file, &bytes),
        };
        let text = std::str::from_utf8(bytes).unwrap_or("");
        Failure::from(locate(error, text).within(&load::name(file)))
    };
    let pair = Pair::new(
        side(&plan, &record),
        side(&twin, &twin_record),
        usize::from(given.every),
        &given.on,
    )
    .map_err(within)?;
    let comparison = compare(&pair, given)?;
    let text = if given.json {
        json(&comparison)?
    } else if given.csv {
        csv(&comparison)
    } else {
        let language = given.speech.language.get();
        let (title, against) = match (heads, given.without) {
            (Some([one, other]), _) => (one, against(&other, language)),
            (None, Some(without)) => (plan.name.clone(), not_with(&plan, without, language)),
            (None, None) => (plan.name.clone(), against(&comparison.twin, language)),
        };
        told(
            &comparison,
            given,
            &names,
            &format!("{BOLD}{title}{BOLD:#}\n{against}\n"),
        ) + &load::sky(&plan, file, language)?
    };
    output::write(&text)
}

fn against(twin: &str, language: Language) -> String {
    words::text(words::of(language).twin.against, &[("twin", twin)])
}

/// The same plan without something, in the words of the language.
fn not_with(plan: &Scenario, without: Without, language: Language) -> String {
    let what = plan.words_of(without).told(language.into());
    words::text(words::of(language).twin.against_without, &[("what", &what)])
}

fn side<'a>(scenario: &'a Scenario, record: &'a Option<(Weather, Report)>) -> Side<'a> {
    Side {
        scenario,
        record: record.as_ref().map(|(weather, report)| (weather, report)),
    }
}

fn refused(error: Error, without: Without) -> Failure {
    error.within(&format!("--without {without}")).into()
}

fn compare(pair: &Pair, given: &args::Twin) -> Result<Comparison, Failure> {
    if matches!(given.scenario.mode, Some(args::ModeChoice::Mean)) {
        if given.members.is_some_and(|members| members != 1) {
            return Err(Error::scenario(
                "--members",
                "expected values are one pair of seasons: leave out --members, or --mode mean",
            )
            .into());
        }
        return Ok(Comparison::of(pair, Mode::Mean, [pair.mean()])?);
    }
    let members = given.members.unwrap_or(MEMBERS);
    pair.check_size(members)
        .map_err(|error| error.within("--members"))?;
    // In the order of the members, whichever thread had them.
    let seasons =
        Threads::new(given.threads)?.make(members as usize, |member| pair.member(member as u32));
    Ok(Comparison::of(pair, Mode::Random, seasons)?)
}

fn json(comparison: &Comparison) -> Result<String, Failure> {
    serde_json::to_string_pretty(comparison)
        .map(|text| text + "\n")
        .map_err(|error| Failure::File(error.to_string()))
}

/// One line for each date and measure, after comment lines that say what made it.
fn csv(comparison: &Comparison) -> String {
    let one_line = |name: &str| name.lines().collect::<Vec<_>>().join(" ");
    let mode = match comparison.mode {
        Mode::Mean => "mean",
        Mode::Random => "random",
    };
    let mut text = format!(
        "# combcast {}\n# plan: {}\n# plan digest: {}\n# twin: {}\n# twin digest: {}\n# seed: {}\n# mode: {mode}\n# members: {}\n",
        comparison.version,
        one_line(&comparison.plan),
        comparison.plan_digest,
        one_line(&comparison.twin),
        comparison.twin_digest,
        comparison.seed,
        comparison.members,
    );
    text.push_str("date,measure,unit");
    for of in ["plan", "twin", "difference"] {
        for what in [
            "mean",
            "standard_error",
            "q05",
            "q25",
            "median",
            "q75",
            "q95",
        ] {
            text.push_str(&format!(",{of}_{what}"));
        }
    }
    text.push_str(",ahead,level,behind,probability,probability_error,plan_lost,twin_lost\n");
    for there in &comparison.dates {
        for measure in &there.measures {
            text.push_str(&format!("{},{},{}", there.date, measure.name, measure.unit));
            for spread in [&measure.plan, &measure.twin, &measure.difference] {
                text.push_str(&format!(
                    ",{},{},{},{},{},{},{}",
                    spread.mean,
                    spread.standard_error,
                    spread.q05,
                    spread.q25,
                    spread.median,
                    spread.q75,
                    spread.q95
                ));
            }
            text.push_str(&format!(
                ",{},{},{},{},{},{},{}\n",
                measure.better.ahead,
                measure.better.level,
                measure.better.behind,
                measure.probability,
                measure.probability_error,
                there.plan_lost,
                there.twin_lost
            ));
        }
    }
    text
}

fn told(comparison: &Comparison, given: &args::Twin, names: &Names, title: &str) -> String {
    let speech = given.speech.get();
    let last = comparison.dates.last();
    let told: Vec<&OnDate> = if given.on.is_empty() {
        let mut told: Vec<&OnDate> = comparison.widest().into_iter().chain(last).collect();
        told.dedup();
        told
    } else {
        given
            .on
            .iter()
            .filter_map(|date| comparison.on(*date))
            .collect()
    };
    let mut text = title.to_owned() + &how(comparison, speech);
    for there in &told {
        text.push('\n');
        text.push_str(&output::story(&story::twin(
            comparison, there, names, speech,
        )));
        text.push('\n');
    }
    text.push('\n');
    text.push_str(&weeks(comparison, &given.on, speech));
    text
}

/// How many seasons were compared, and in what weather.
fn how(comparison: &Comparison, speech: Speech) -> String {
    let words = &words::of(speech.language).twin;
    let mut text = String::new();
    let pattern = match (comparison.mode, comparison.drawn_weather) {
        (Mode::Mean, _) => words.mean,
        (Mode::Random, true) => words.random_weather,
        (Mode::Random, false) => words.random,
    };
    let members = speech.language.grouped(comparison.members as f64);
    let seed = comparison.seed.to_string();
    let how = words::text(pattern, &[("members", &members), ("seed", &seed)]);
    for line in output::wrapped(&how, 0).lines() {
        text.push_str(&format!("{DIM}{line}{DIM:#}\n"));
    }
    text
}

/// Columns of one pair of seasons, which has neither quantiles nor a count of those that are ahead.
const OF_ONE: [usize; 7] = [0, 1, 2, 6, 7, 8, 9];

/// The table over time: the plan's bees, then every difference.
fn weeks(comparison: &Comparison, on: &[Date], speech: Speech) -> String {
    let years = over_years(comparison);
    let rows = comparison.dates.iter().map(|there| {
        let mark = match on.contains(&there.date.0) {
            _ if on.is_empty() => "",
            true => "› ",
            false => "  ",
        };
        // Hard spaces, so that a narrow table does not break dates.
        let date = speech
            .language
            .short_date(there.date.0, years)
            .replace(' ', "\u{a0}");
        let [bees, brood, drawn, honey, mites] = [0, 1, 2, 3, 4].map(|m| &there.measures[m]);
        [
            format!("{mark}{date}"),
            speech.language.grouped(bees.plan.mean),
            output::signed_count(bees.difference.mean, speech.language),
            output::signed_count(bees.difference.q05, speech.language),
            output::signed_count(bees.difference.q95, speech.language),
            speech.language.grouped(bees.better.ahead as f64),
            signed_tenths(brood.difference.mean, speech),
            signed_tenths(drawn.difference.mean, speech),
            signed_tenths(speech.units.weight(honey.difference.mean), speech),
            output::signed_count(mites.difference.mean, speech.language),
        ]
    });
    let weight = match speech.units {
        Units::Metric => "kg",
        Units::Us => "lb",
    };
    // A hard space, so that the heading stays on its line.
    let words = &words::of(speech.language).twin;
    let members = speech.language.grouped(comparison.members as f64);
    let of = words::text(words.of, &[("members", &members)]).replace(' ', "\u{a0}");
    let mut units = words.units;
    (units[5], units[8]) = (&of, weight);
    let headings = [words.headings, units];
    let table = if comparison.members > 1 {
        output::table(&headings, &[1, 2, 3, 4, 5, 6, 7, 8, 9], rows)
    } else {
        let rows = rows.map(|row| OF_ONE.map(|column| row[column].clone()));
        let headings = headings.map(|row| OF_ONE.map(|column| row[column]));
        output::table(&headings, &[1, 2, 3, 4, 5, 6], rows)
    };
    table.replace('\u{a0}', " ")
}

fn over_years(comparison: &Comparison) -> bool {
    let year = |there: Option<&OnDate>| there.map(|there| there.date.0.year());
    year(comparison.dates.first()) != year(comparison.dates.last())
}

/// One decimal with its sign; 0.0 without.
fn signed_tenths(value: f64, speech: Speech) -> String {
    let sign = match format!("{value:+.1}").as_str() {
        "+0.0" | "-0.0" => return speech.language.decimal(0.0, 1),
        text if text.starts_with('+') => "+",
        _ => "",
    };
    format!("{sign}{}", speech.language.decimal(value, 1))
}
