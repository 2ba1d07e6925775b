//! `combcast verdict`: where colonies stand after their visits.

use std::time::{SystemTime, UNIX_EPOCH};

use combcast_core::calendar::{days_between, plus_days};
use combcast_core::ensemble::{Passed, Peers};
use combcast_core::priors::COUNT;
use combcast_core::story::Units;
use combcast_core::verdict::{Alarm, Cause, Effort, Verdict, Word, judge};
use combcast_core::visits::{Aside, Visit, VisitBook, hives_from_bytes, sift};
use combcast_core::words::{Language, Speech};
use combcast_core::{Error, Scenario};
use jiff::civil::{Date, date};

use super::bands::{ranges, thresholds};
use crate::args;
use crate::hands::Threads;
use crate::load;
use crate::output::{self, BOLD, DIM, Failure};
use crate::words;

pub fn run(given: &args::Verdict) -> Result<(), Failure> {
    let name = load::name(&given.visits);
    let hives = hives_from_bytes(&load::read(&given.visits)?, &name)?;
    let hands = Threads::new(given.threads)?;
    let speech = given.speech.get();
    let mut faults = hives.faults;
    let mut verdicts = Vec::with_capacity(hives.books.len());
    let mut skies = Vec::with_capacity(hives.books.len());
    for book in &hives.books {
        let own = load::of_hive(&given.scenario, &given.visits, book);
        let judged = load::peers(&own).and_then(|(scenario, peers)| {
            let verdict =
                one(&scenario, &peers, book, given, &hands).map_err(|error| error.within(&name))?;
            Ok((verdict, load::sky(&scenario, &own.file, speech.language)?))
        });
        match judged {
            Ok((mut verdict, sky)) => {
                if !given.json {
                    verdict.spoken(speech);
                }
                verdicts.push(verdict);
                skies.push(sky);
            }
            Err(failure) => faults.extend(failure.of_hive(&book.hive)),
        }
    }
    if !verdicts.is_empty() {
        output::write(&if given.json {
            output::json(&verdicts)?
        } else {
            let side_by_side = (verdicts.len() > 1).then(|| compared(&verdicts, speech.language));
            let each = verdicts.iter().zip(&skies);
            side_by_side
                .into_iter()
                .chain(each.map(|(verdict, sky)| told(verdict, speech) + sky))
                .collect::<Vec<_>>()
                .join("\n")
        })?;
    }
    output::after_faults(faults)
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
    let (mut visits, mut aside) = sift(book, season, now.or_else(today), &frames_in_hive);
    // Only now, so that what is set aside is counted as it stands in the file.
    if let Some(on) = on {
        visits.retain(|visit| visit.date.0 <= on);
        aside.retain(|aside| aside.date.0 <= on);
    }
    Ok((visits, aside))
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

/// The date in Greenwich by the computer; `None` where its clock makes no sense.
fn today() -> Option<Date> {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).ok()?;
    let days = i32::try_from(since.as_secs() / 86_400).ok()?;
    Some(plus_days(date(1970, 1, 1), days))
}

/// Several hives in a table, each among colonies of its own start and weather.
fn compared(verdicts: &[Verdict], language: Language) -> String {
    let words = &words::of(language).verdict;
    let heading = [words.compared];
    output::table(
        &heading,
        &[4, 6],
        verdicts.iter().map(|verdict| {
            let sure = |share| of_100(share, language);
            let (what, chance) = match (verdict.alarms.first(), verdict.leading()) {
                (Some(alarm), _) => (alarm.what.words(language), String::new()),
                (None, Some(cause)) => (cause.what, sure(cause.probability)),
                (None, None) if verdict.standing.word == Word::Untold => ("", String::new()),
                (None, None) if verdict.sound >= verdict.causes[0].probability => {
                    (words.nothing_wrong, sure(verdict.sound))
                }
                (None, None) => (words.not_held_back, String::new()),
            };
            [
                verdict.hive.clone(),
                verdict.scenario.clone(),
                verdict.date.to_string(),
                verdict.standing.word.words(language).to_owned(),
                match verdict.standing.word {
                    Word::Untold => String::new(),
                    _ => of_100(verdict.standing.weaker, language),
                },
                what.to_owned(),
                chance,
            ]
        }),
    )
}

fn of_100(share: f64, language: Language) -> String {
    let words = &words::of(language).shared;
    match (100.0 * share).round() {
        all if all >= 100.0 && share < 1.0 => words.over_99.to_owned(),
        none if none < 1.0 && share > 0.0 => words.under_1.to_owned(),
        count => words::text(words.of_100, &[("count", &count.to_string())]),
    }
}

fn told(verdict: &Verdict, speech: Speech) -> String {
    let language = speech.language;
    let words = &words::of(language).verdict;
    let mut text = heading(verdict, language);
    text.push_str(&output::wrapped(&story(verdict, language), 0));
    text.push('\n');
    // In a colony that is not held back, these are no more than what nobody knows of it.
    text.push_str(&section(match verdict.standing.word {
        Word::InStep | Word::Ahead => words.causes_all_the_same,
        _ => words.causes,
    }));
    if let Some(unknown) = &verdict.cells_unknown {
        text.push_str(&output::wrapped(&unknown.told(speech), 0));
        text.push('\n');
    }
    text.push_str(&causes(verdict, language));
    if !verdict.unfit.is_empty() {
        text.push_str(&section(words.unfit));
        for unfit in &verdict.unfit {
            let date = language.day_and_month(unfit.date.0, true);
            let told = format!("  {date}  {}", unfit.text);
            text.push_str(&output::wrapped_after(&told, 6));
            text.push('\n');
        }
    }
    if !verdict.aside.is_empty() {
        text.push_str(&section(words.aside));
        for aside in &verdict.aside {
            let parts = [
                ("visit", &*aside.visit.to_string()),
                ("date", &language.day_and_month(aside.date.0, true)),
            ];
            let visit = words::text(words.aside_visit, &parts);
            let told = format!("  {visit}  {}", aside.placed().told(speech));
            text.push_str(&output::wrapped_after(&told, 6));
            text.push('\n');
        }
    }
    if let Some(assumed) = &verdict.forecast.assumed_mites {
        text.push('\n');
        text.push_str(&output::wrapped(&assumed.text.to_string(), 0));
        text.push('\n');
    }
    for warning in &verdict.warnings {
        text.push('\n');
        let warning = output::caution(&warning.to_string(), language);
        text.push_str(&output::wrapped_after(&warning, 2));
        text.push('\n');
    }
    text.push_str(&section(words.found));
    text.push_str(&found(verdict, speech));
    text.push_str(&section(words.to_come));
    text.push_str(&ranges(
        &verdict.forecast.dates[..verdict.forecast.dates.len().min(9)],
        speech,
    ));
    text.push('\n');
    let ahead = |passed: &Passed| passed.share > 0.0;
    text.push_str(&thresholds(&verdict.forecast, ahead, language));
    text.push_str(&output::table(
        &[],
        &[1],
        verdict
            .forecast
            .risks
            .iter()
            .map(|risk| [risk.what.to_owned(), of_100(risk.chance, language)]),
    ));
    let steps = verdict.steps.iter().map(|step| step.effective);
    let fewest = steps.fold(f64::INFINITY, f64::min);
    let pattern = match verdict.visits {
        1 => words.footing_of_one,
        _ => words.footing,
    };
    let parts = [
        ("visits", &*verdict.visits.to_string()),
        ("likelihood", &language.decimal(verdict.log_likelihood, 1)),
        ("members", &language.grouped(f64::from(verdict.members))),
        ("fewest", &language.decimal(fewest, 0)),
    ];
    text.push('\n');
    text.push_str(&output::dim(&words::text(pattern, &parts), 0));
    text
}

fn section(title: &str) -> String {
    let title = output::wrapped(title, 0);
    format!("\n{BOLD}{title}{BOLD:#}\n")
}

fn heading(verdict: &Verdict, language: Language) -> String {
    // What cannot wait leads where nothing else was found.
    let standing = match (verdict.standing.word, verdict.alarms.first()) {
        (Word::Untold, Some(alarm)) => alarm.what.words(language),
        (word, _) => word.words(language),
    };
    let parts = [
        ("standing", standing),
        ("date", &language.day_and_month(verdict.date.0, true)),
    ];
    let stands = words::text(words::of(language).verdict.heading, &parts);
    format!(
        "{BOLD}{}{BOLD:#}\n{DIM}{}{DIM:#}\n\n",
        output::of_hive(&verdict.hive, &stands, language),
        verdict.scenario
    )
}

/// The verdict in sentences.
fn story(verdict: &Verdict, language: Language) -> String {
    let words = &words::of(language).verdict;
    let standing = &verdict.standing;
    let (pattern, days) = match standing.days_ahead {
        Some(days) if days.abs() < 1.5 => (words.middle, days),
        Some(days) if days > 0.0 => (words.days_ahead, days),
        Some(days) => (words.days_behind, -days),
        None => (words.middle, 0.0),
    };
    let of_100 = |share: f64| of_100(share, language);
    let share = |share: f64| language.decimal(100.0 * share, 0);
    let strength = |count: f64| language.grouped(round(count));
    let parts = [
        ("weaker", &*share(standing.weaker)),
        ("days", &language.decimal(days, 0)),
        ("middle", &strength(standing.strength.median)),
        ("low", &strength(standing.strength.q05)),
        ("high", &strength(standing.strength.q95)),
        ("peers", &strength(standing.peers.median)),
        ("fewer", &share(standing.fewer_bees)),
        ("less", &share(standing.less_brood)),
    ];
    let mut sentences = Vec::new();
    match standing.word {
        Word::AtOdds | Word::Untold => {}
        // Where hardly a colony of the plan lives, there is nothing to hold it against.
        Word::Lost if standing.peers.median < 100.0 && !verdict.alarms.is_empty() => {}
        Word::Lost => sentences.push(words::text(words.no_bees, &parts)),
        _ => {
            sentences.push(words::text(pattern, &parts));
            sentences.push(words::text(words.strength, &parts));
        }
    }
    let alarms = verdict.alarms.iter();
    sentences.extend(alarms.map(|alarm| alarm.text.to_string()));
    if standing.word == Word::Untold {
        sentences.push(words.untold.to_owned());
    }
    let lost = standing.word == Word::Lost;
    if let Some(cause) = verdict.leading() {
        let parts = [
            ("cause", cause.what),
            ("share", &of_100(cause.probability)),
            ("before", &of_100(cause.before)),
        ];
        sentences.push(words::text(words.likeliest, &parts));
        let known = |alarm: &Alarm| alarm.what.is_of_mites();
        let known = cause.cause == Cause::Mites && verdict.alarms.iter().any(known);
        // What to do about a queen, the cells have told.
        let of_queen = matches!(cause.cause, Cause::Queen | Cause::NoQueen);
        let known = known || (of_queen && verdict.cells_unknown.is_some());
        if !lost && !known {
            sentences.push(words::text(words.to_make_sure, &[("tell", cause.tell)]));
            sentences.push(cause.cause.remedy(language).to_owned());
        }
    } else if matches!(standing.word, Word::Lost | Word::AtOdds | Word::Untold) {
        // It has been said what it is, or that nothing can be.
    } else if verdict.sound >= verdict.causes[0].probability {
        let pattern = if verdict.alarms.is_empty() {
            words.sound
        } else {
            words.sound_besides
        };
        sentences.push(words::text(pattern, &[("share", &of_100(verdict.sound))]));
    } else {
        sentences.push(words.no_cause_sought.to_owned());
    }
    if lost {
        sentences.push(words.lost.to_owned());
    }
    sentences.join(" ")
}

fn round(x: f64) -> f64 {
    (x / 100.0).round() * 100.0
}

fn causes(verdict: &Verdict, language: Language) -> String {
    let words = &words::of(language).verdict;
    let rows = verdict.causes.iter().map(|cause| {
        [
            cause.what.to_owned(),
            of_100(cause.probability, language),
            words::text(words.before, &[("share", &of_100(cause.before, language))]),
        ]
    });
    let sound = [
        words.none.to_owned(),
        of_100(verdict.sound, language),
        String::new(),
    ];
    output::table(&[], &[1], rows.chain([sound]))
}

fn found(verdict: &Verdict, speech: Speech) -> String {
    let language = speech.language;
    let words = &words::of(language).verdict;
    let heading = [words.found_headings];
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
            // What is weighed says so, with its unit at the end.
            let what = seen.what.words(language);
            let weighed = what.strip_suffix("(kg)");
            let weighed = weighed.filter(|_| speech.units == Units::Us);
            let number = |x: f64| {
                let x = weighed.map_or(x, |_| speech.units.weight(x));
                let places = usize::from(x.abs() < 20.0);
                language.decimal(x, places)
            };
            let (found, expected) = if sight {
                (
                    if seen.found > 0.5 {
                        words.yes
                    } else {
                        words.no
                    }
                    .to_owned(),
                    words::text(
                        words.say_yes,
                        &[("share", &of_100(seen.expected, language))],
                    ),
                )
            } else {
                // Found as it was written down: people write quarters.
                (
                    weighed.map_or_else(
                        || language.plain((100.0 * seen.found).round() / 100.0),
                        |_| number(seen.found),
                    ),
                    language.range(&number(seen.low), &number(seen.high)),
                )
            };
            [
                seen.date.to_string(),
                weighed.map_or_else(|| what.to_owned(), |what| format!("{what}(lb)")),
                found,
                expected,
            ]
        }),
    )
}
