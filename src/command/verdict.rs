//! `combcast verdict`: where colonies stand after their visits.

use std::time::{SystemTime, UNIX_EPOCH};

use combcast_core::calendar::{days_between, plus_days};
use combcast_core::ensemble::Peers;
use combcast_core::priors::COUNT;
use combcast_core::scenario::locate;
use combcast_core::story::grouped;
use combcast_core::verdict::{Effort, Verdict, judge};
use combcast_core::visits::{Aside, Visit, VisitBook, books_from_bytes, sift};
use combcast_core::words::Language;
use combcast_core::{Error, Scenario};
use jiff::civil::{Date, date};

use super::bands::{ranges, when};
use crate::args;
use crate::hands::Threads;
use crate::load;
use crate::output::{self, BAD, BOLD, DIM, Failure};

pub fn run(given: &args::Verdict) -> Result<(), Failure> {
    let file = &given.scenario.file;
    let (scenario, bytes) = load::scenario(&given.scenario)?;
    let within = |error: Error| {
        let text = std::str::from_utf8(&bytes).unwrap_or("");
        Failure::from(locate(error, text).within(&file.display().to_string()))
    };
    let record = load::record(&scenario, file)?;
    let record = record.as_ref().map(|(weather, report)| (weather, report));
    let peers = Peers::new(&scenario, record).map_err(within)?;
    let books = books_from_bytes(
        &load::read(&given.visits)?,
        &given.visits.display().to_string(),
    )?;
    let hands = Threads::new(given.threads)?;
    let mut verdicts = Vec::with_capacity(books.len());
    for book in &books {
        let verdict = one(&scenario, &peers, book, given, &hands)
            .map_err(|error| error.within(&given.visits.display().to_string()))?;
        verdicts.push(verdict);
    }
    let text = if given.json {
        output::json(&verdicts)?
    } else {
        let side_by_side = (verdicts.len() > 1).then(|| compared(&verdicts));
        side_by_side
            .into_iter()
            .chain(verdicts.iter().map(words))
            .collect::<Vec<_>>()
            .join("\n")
    };
    output::write(&text)
}

fn one(
    scenario: &Scenario,
    peers: &Peers,
    book: &VisitBook,
    given: &args::Verdict,
    hands: &Threads,
) -> Result<Verdict, Error> {
    let (visits, aside) = sifted(scenario, peers, book, given.on, given.today)?;
    let effort = Effort {
        members: given.members,
        rounds: given.rounds,
    };
    let verdict = judge(scenario, peers, &book.hive, (&visits, aside), effort, hands);
    verdict.map_err(|error| {
        if book.hive.is_empty() {
            error
        } else {
            error.within(&format!("hive {}", book.hive))
        }
    })
}

/// The visits of a book, up to a date, that can be used, and what is set aside.
pub fn sifted(
    scenario: &Scenario,
    peers: &Peers,
    book: &VisitBook,
    on: Option<Date>,
    now: Option<Date>,
) -> Result<(Vec<Visit>, Vec<Aside>), Error> {
    let season = (scenario.start.date.0, scenario.until.0);
    let frames = frames_by_day(peers)?;
    let frames_in_hive = |day: Date| {
        let day = days_between(season.0, day).max(0) as usize;
        frames[day.min(frames.len() - 1)]
    };
    let mut book = book.clone();
    if let Some(on) = on {
        book.visits.retain(|visit| visit.date.0 <= on);
    }
    Ok(sift(&book, season, now.or_else(today), &frames_in_hive))
}

/// Frames in the hive on each morning, as the plan has it.
fn frames_by_day(peers: &Peers) -> Result<Vec<f64>, Error> {
    let mut member = peers.with([0.0; COUNT], combcast_core::ensemble::Luck::of(0))?;
    let mut frames = vec![member.walk.colony.frames.frames.len() as f64];
    peers.advance(&mut member, peers.days(), |_, colony, _, _| {
        frames.push(colony.frames.frames.len() as f64);
    })?;
    Ok(frames)
}

/// The computer's date in Greenwich; `None` where its clock makes no sense.
fn today() -> Option<Date> {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).ok()?;
    let days = i32::try_from(since.as_secs() / 86_400).ok()?;
    // A day more, since it can be tomorrow already where the hive stands.
    Some(plus_days(date(1970, 1, 1), days + 1))
}

/// Several hives in a table.
fn compared(verdicts: &[Verdict]) -> String {
    let heading = [[
        "hive",
        "after",
        "stands",
        "weaker peers",
        "likeliest cause",
        "",
    ]];
    output::table(
        &heading,
        &[3, 5],
        verdicts.iter().map(|verdict| {
            let cause = &verdict.causes[0];
            let (what, chance) = if verdict.sound >= cause.probability {
                ("nothing is wrong", verdict.sound)
            } else {
                (cause.what, cause.probability)
            };
            [
                verdict.hive.clone(),
                verdict.date.to_string(),
                verdict.standing.word.words(Language::English).to_owned(),
                of_100(verdict.standing.weaker),
                what.to_owned(),
                of_100(chance),
            ]
        }),
    )
}

fn of_100(share: f64) -> String {
    match (100.0 * share).round() {
        all if all >= 100.0 && share < 1.0 => "over 99 of 100".to_owned(),
        none if none < 1.0 && share > 0.0 => "under 1 of 100".to_owned(),
        count => format!("{count} of 100"),
    }
}

fn words(verdict: &Verdict) -> String {
    let mut text = heading(verdict);
    text.push_str(&output::wrapped(&story(verdict), 0));
    text.push('\n');
    text.push_str(&section("What it may be"));
    text.push_str(&causes(verdict));
    if !verdict.unfit.is_empty() {
        text.push_str(&section("What does not fit"));
        for unfit in &verdict.unfit {
            text.push_str(&output::wrapped_after(
                &format!("  {}  {}", unfit.date, unfit.text),
                14,
            ));
            text.push('\n');
        }
    }
    if !verdict.aside.is_empty() {
        text.push_str(&section("Set aside"));
        for aside in &verdict.aside {
            let what = match aside.what {
                "visit" => String::new(),
                what => format!("{what}: "),
            };
            text.push_str(&output::wrapped_after(
                &format!(
                    "  visit {} ({})  {what}{}",
                    aside.visit, aside.date, aside.reason
                ),
                6,
            ));
            text.push('\n');
        }
    }
    for warning in &verdict.warnings {
        text.push_str(&format!("\n{BAD}Caution{BAD:#}: "));
        text.push_str(&output::wrapped_after(&warning.to_string(), 2));
        text.push('\n');
    }
    text.push_str(&section(
        "Found beside what was expected after the visits before",
    ));
    text.push_str(&found(verdict));
    text.push_str(&section("What is to come, nine in ten colonies that fit"));
    text.push_str(&ranges(
        &verdict.forecast.dates[..verdict.forecast.dates.len().min(9)],
    ));
    text.push('\n');
    text.push_str(&output::table(
        &[],
        &[],
        verdict
            .forecast
            .thresholds
            .iter()
            .filter(|passed| passed.share > 0.0 && !passed_already(verdict, passed.name))
            .map(|passed| [passed.what.to_owned(), when(passed)]),
    ));
    text.push_str(&output::table(
        &[],
        &[1],
        verdict
            .forecast
            .risks
            .iter()
            .map(|risk| [risk.what.to_owned(), of_100(risk.chance)]),
    ));
    text.push_str(&format!(
        "\n{DIM}{} visits, log-likelihood {:.1}; fewest of {} members that a visit left: {:.0}{DIM:#}\n",
        verdict.visits,
        verdict.log_likelihood,
        verdict.members,
        verdict
            .steps
            .iter()
            .map(|step| step.effective)
            .fold(f64::INFINITY, f64::min)
    ));
    text
}

/// Whether a threshold lay behind the colony on the day of the verdict in most of what fits.
fn passed_already(verdict: &Verdict, name: &str) -> bool {
    verdict
        .forecast
        .thresholds
        .iter()
        .any(|passed| passed.name == name && passed.median.is_some_and(|day| day <= verdict.date))
}

fn section(title: &str) -> String {
    format!("\n{BOLD}{title}{BOLD:#}\n")
}

fn heading(verdict: &Verdict) -> String {
    let hive = if verdict.hive.is_empty() {
        String::new()
    } else {
        format!("{}: ", verdict.hive)
    };
    format!(
        "{BOLD}{hive}{} on {}{BOLD:#}\n{DIM}{}{DIM:#}\n\n",
        verdict.standing.word.words(Language::English),
        verdict.date,
        verdict.scenario
    )
}

/// The verdict in sentences.
fn story(verdict: &Verdict) -> String {
    let standing = &verdict.standing;
    let days = match standing.days_ahead {
        Some(days) if days.abs() < 1.5 => String::new(),
        Some(days) if days > 0.0 => format!(", about {days:.0} days ahead of the middle one"),
        Some(days) => format!(", about {:.0} days behind the middle one", -days),
        None if standing.weaker < 0.5 => ", weaker than the middle one was on any day".to_owned(),
        None => ", stronger than the middle one will be in the next weeks".to_owned(),
    };
    let mut text = format!(
        "Of 100 colonies with the same start and weather, {:.0} are weaker than this one{days}. \
         Bees and brood together come to {} ({} to {}); the middle one has {}. \
         {:.0} of 100 have fewer bees, {:.0} of 100 less brood.",
        100.0 * standing.weaker,
        grouped(round(standing.strength.median)),
        grouped(round(standing.strength.q05)),
        grouped(round(standing.strength.q95)),
        grouped(round(standing.peers.median)),
        100.0 * standing.fewer_bees,
        100.0 * standing.less_brood,
    );
    let cause = &verdict.causes[0];
    if cause.probability > verdict.sound {
        text.push_str(&format!(
            " The likeliest cause is {}: it is found in {} colonies that would have shown what was seen, and in {} before the visits. To make sure, {}.",
            cause.what,
            of_100(cause.probability),
            of_100(cause.before),
            cause.tell
        ));
    } else {
        text.push_str(&format!(
            " Nothing need be wrong with it: {} colonies that would have shown what was seen have no fault.",
            of_100(verdict.sound)
        ));
    }
    text
}

fn round(x: f64) -> f64 {
    (x / 100.0).round() * 100.0
}

fn causes(verdict: &Verdict) -> String {
    let rows = verdict.causes.iter().map(|cause| {
        [
            cause.what.to_owned(),
            of_100(cause.probability),
            format!("({} before)", of_100(cause.before)),
        ]
    });
    let sound = [
        "none of these".to_owned(),
        of_100(verdict.sound),
        String::new(),
    ];
    output::table(&[], &[1], rows.chain([sound]))
}

fn found(verdict: &Verdict) -> String {
    let heading = [["date", "what", "found", "expected"]];
    output::table(
        &heading,
        &[2],
        verdict.seen.iter().map(|seen| {
            let sight = matches!(
                serde_json::to_value(seen.what)
                    .ok()
                    .and_then(|what| what.as_str().map(str::to_owned))
                    .as_deref(),
                Some("eggs" | "queen" | "charged_cells" | "capped_cells")
            );
            let number = |x: f64| {
                if x.abs() >= 20.0 {
                    format!("{x:.0}")
                } else {
                    format!("{x:.1}")
                }
            };
            let (found, expected) = if sight {
                (
                    if seen.found > 0.5 { "yes" } else { "no" }.to_owned(),
                    format!("{} say yes", of_100(seen.expected)),
                )
            } else {
                (
                    number(seen.found),
                    format!("{} to {}", number(seen.low), number(seen.high)),
                )
            };
            [
                seen.date.to_string(),
                seen.what.words(Language::English).to_owned(),
                found,
                expected,
            ]
        }),
    )
}
