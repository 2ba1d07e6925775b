//! `combcast search`: the plan that serves given goals best.

use std::io::{IsTerminal, Write};
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use combcast_core::Error;
use combcast_core::ensemble::Spread;
use combcast_core::search::{Asked, Family, Found, Gain, Goal, Judged, Limits, Progress, search};
use combcast_core::verdict::Effort;
use combcast_core::visits::{VisitBook, books_from_bytes};
use combcast_core::words::{Language, Speech};

use super::verdict::sifted;
use crate::args;
use crate::hands::Threads;
use crate::load;
use crate::output::{self, BAD, BOLD, DIM, Failure};

pub fn run(given: &args::Search) -> Result<(), Failure> {
    let hands = Threads::new(given.threads)?.quiet();
    let book = match &given.visits {
        Some(visits) => one_book(visits)?,
        None => VisitBook::default(),
    };
    let beside = given.visits.as_deref().unwrap_or(Path::new(""));
    let scenario = load::of_hive(&given.scenario, beside, &book);
    let (scenario, peers) = load::peers_until(&scenario, given.until)?;
    let (visits, _) = sifted(&scenario, &peers, &book, given.on, given.today)?;
    let limits = Limits {
        families: if given.what.is_empty() {
            Family::ALL.to_vec()
        } else {
            given.what.clone()
        },
        visits_per_week: given.visits_per_week,
        no_chemicals: given.no_chemicals,
        jars: given.jars,
    };
    let goals = if given.goal.is_empty() {
        vec![Goal::FewMites]
    } else {
        given.goal.clone()
    };
    let asked = Asked {
        scenario: &scenario,
        peers: &peers,
        hive: &book.hive,
        visits: &visits,
        on: given.on,
        goals: &goals,
        limits: &limits,
        best: usize::from(given.best),
        effort: Effort {
            members: given.members,
            rounds: given.rounds,
        },
    };
    let mut watch = Watch::new(given.seconds)?;
    let found = search(asked, &hands, |progress| watch.see(progress));
    watch.clear();
    let found = found.map_err(|error| match error.place.as_str() {
        "on" => Error::scenario("--on", error.message),
        "limits" | "search" => Error::scenario("", error.message),
        _ => error,
    })?;
    output::write(&if given.json {
        output::json(&found)?
    } else if given.moves {
        moves(&found)?
    } else if given.calendar {
        found.icalendar(given.speech.get(), given.stamp.unwrap_or(found.from.0))
    } else {
        words(&found, given.speech.get())
    })
}

fn one_book(visits: &Path) -> Result<VisitBook, Failure> {
    let name = visits.display().to_string();
    let mut books = books_from_bytes(&load::read(visits)?, &name)?;
    match (books.pop(), books.is_empty()) {
        (Some(book), true) => Ok(book),
        (_, _) => Err(Error::scenario(name, "expected the visits of one hive").into()),
    }
}

/// Shows how far the search is, and ends it on Ctrl-C or when its time is up.
struct Watch {
    ended: Arc<AtomicBool>,
    begun: Instant,
    time: Option<Duration>,
    told: Option<Instant>,
    shows: bool,
}

impl Watch {
    fn new(seconds: Option<u32>) -> Result<Self, Failure> {
        let ended = Arc::new(AtomicBool::new(false));
        let on_signal = Arc::clone(&ended);
        ctrlc::set_handler(move || {
            // Whoever asks twice does not want the best so far.
            if on_signal.swap(true, Ordering::Relaxed) {
                std::process::exit(130);
            }
        })
        .map_err(|error| Failure::File(format!("Ctrl-C: {error}")))?;
        Ok(Self {
            ended,
            begun: Instant::now(),
            time: seconds.map(|seconds| Duration::from_secs(u64::from(seconds))),
            told: None,
            shows: std::io::stderr().is_terminal(),
        })
    }

    fn see(&mut self, progress: Progress) -> ControlFlow<()> {
        let now = Instant::now();
        let often = |told: Instant| now - told < Duration::from_millis(100);
        if self.shows && !self.told.is_some_and(often) {
            self.told = Some(now);
            let what = if progress.judging {
                format!("judging the best {}", progress.plans)
            } else {
                format!("stage {}: {} plans", progress.stage, progress.plans)
            };
            eprint!(
                "\r\u{1b}[K{what}, {} of {} lives; Ctrl-C shows the best so far",
                Language::English.grouped(progress.done as f64),
                Language::English.grouped(progress.of as f64)
            );
            let _ = std::io::stderr().flush();
        }
        let late = self.time.is_some_and(|time| now - self.begun >= time);
        if late || self.ended.load(Ordering::Relaxed) {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    }

    fn clear(&self) {
        if self.told.is_some() {
            eprint!("\r\u{1b}[K");
        }
    }
}

/// The moves of the best plan as a piece of a scenario file.
fn moves(found: &Found) -> Result<String, Failure> {
    let best = found.best.first().map_or(&[][..], |best| &best.moves);
    #[derive(serde::Serialize)]
    struct Moves<'a> {
        #[serde(rename = "move")]
        moves: &'a [combcast_core::scenario::Move],
    }
    toml::to_string(&Moves { moves: best }).map_err(|error| Failure::File(error.to_string()))
}

fn words(found: &Found, speech: Speech) -> String {
    let hive = if found.hive.is_empty() {
        String::new()
    } else {
        format!("{}: ", found.hive)
    };
    let goals: Vec<&str> = found.goals.iter().map(|goal| wanted(*goal)).collect();
    let mut text = format!(
        "{BOLD}{hive}{}{BOLD:#}\n",
        output::wrapped(&format!("what to do for {}", goals.join(", then ")), 0)
    );
    let intro = format!(
        "{} plans from {} on, judged on {} in {} colonies; each against the plan as it is, on the same luck and weather.",
        speech.language.grouped(found.tried as f64),
        speech.language.day_and_month(found.from.0, true),
        speech.language.day_and_month(found.until.0, true),
        speech.language.grouped(found.members as f64)
    );
    text.push_str(&dim(&intro, 0));
    for warning in &found.warnings {
        let warning = format!("{BAD}Caution{BAD:#}: {warning}");
        text.push_str(&output::wrapped_after(&warning, 2));
        text.push('\n');
    }
    if !found.finished {
        let why = format!(
            "{BAD}Caution{BAD:#}: the search was broken off. These are the best so far, shown on the {} colonies that they were chosen by, which flatters them.",
            found.members
        );
        text.push_str(&output::wrapped_after(&why, 2));
        text.push('\n');
    }
    let as_it_is: Vec<String> = found
        .goals
        .iter()
        .filter_map(|goal| found.as_it_is.iter().find(|known| known.goal == *goal))
        .map(|measured| amount(measured.goal, &measured.spread, speech))
        .collect();
    text.push_str(&format!(
        "\n{}\n",
        output::wrapped(&format!("As it is: {}.", as_it_is.join("; ")), 0)
    ));
    for (place, plan) in found.best.iter().enumerate() {
        text.push_str(&one(found, place, plan, speech));
    }
    text.push('\n');
    for caution in &found.cautions {
        let caution = format!("{BAD}Caution{BAD:#}: {caution}");
        text.push_str(&output::wrapped_after(&caution, 2));
        text.push('\n');
    }
    text
}

fn wanted(goal: Goal) -> &'static str {
    match goal {
        Goal::Alive => "a colony that lives",
        Goal::FewMites => "few mites",
        Goal::Honey => "honey",
        Goal::NoSwarm => "no swarm",
        Goal::Bees => "bees",
    }
}

/// "0.4 to 3.1 mites on 100 bees, in the middle 1.2"; "812 of 1,000 live".
fn amount(goal: Goal, spread: &Spread, speech: Speech) -> String {
    let range = |number: &dyn Fn(f64) -> String| {
        format!(
            "{} to {}, {} in the middle",
            number(spread.q05),
            number(spread.q95),
            number(spread.median)
        )
    };
    match goal {
        Goal::Alive => format!("{:.0} of 100 colonies live", 100.0 * spread.mean),
        Goal::NoSwarm => format!("{:.0} of 100 colonies do not swarm", 100.0 * spread.mean),
        Goal::FewMites => format!(
            "mites on 100 bees: {}",
            range(&|mites| format!("{mites:.1}"))
        ),
        Goal::Honey => format!("honey: {}", range(&|kg| speech.weight_text(kg))),
        Goal::Bees => format!(
            "bees: {}",
            range(&|bees| speech.language.grouped((bees / 100.0).round() * 100.0))
        ),
    }
}

fn one(found: &Found, place: usize, plan: &Judged, speech: Speech) -> String {
    let kinds: Vec<&str> = plan
        .families
        .iter()
        .map(|family| family_words(*family, plan))
        .collect();
    let mut text = format!(
        "\n{BOLD}{}. {}{BOLD:#}\n",
        place + 1,
        capital(&kinds.join(", "))
    );
    let years = found.from.0.year() != found.until.0.year();
    for dated in &plan.calendar {
        // As wide as the longest date: "25 September", or with its year.
        let wide = if years { 17 } else { 12 };
        let line = format!(
            "{:>wide$}  {}",
            speech.language.day_and_month(dated.date.0, years),
            dated.text
        );
        text.push_str(&output::wrapped_after(&line, wide + 2));
        text.push('\n');
    }
    for gain in &plan.gains {
        text.push_str(&output::wrapped(&gained(gain, speech), 2));
        text.push('\n');
    }
    text.push_str(&output::wrapped(&costs(plan, speech), 2));
    text.push('\n');
    let besides = besides(found, plan, speech);
    if !besides.is_empty() {
        let besides = format!("Besides, on the last day: {}.", besides.join("; "));
        text.push_str(&output::wrapped(&besides, 2));
        text.push('\n');
    }
    if let Some(next) = &plan.against_next {
        text.push_str(&dim(&against_next(next, place, speech), 2));
    }
    text
}

fn family_words(family: Family, plan: &Judged) -> &'static str {
    let swaps = plan
        .moves
        .iter()
        .any(|step| step.swap_drone_frames.is_some());
    match family {
        Family::DroneFrames if !swaps => "a drone frame",
        Family::DroneFrames => "a pair of drone frames",
        Family::Treatment => "a treatment",
        Family::Feed => "feed",
        Family::Box => "a box",
        Family::QueenCells => "queen cells broken",
    }
}

fn gained(gain: &Gain, speech: Speech) -> String {
    let with = amount(gain.goal, &gain.with, speech);
    if gain.better.ahead + gain.better.behind == 0 {
        return format!("{}; in no colony is that different.", capital(&with));
    }
    let better = format!(
        "better in {} of {} colonies, worse in {}",
        speech.language.grouped(gain.better.ahead as f64),
        speech.language.grouped(gain.better.members() as f64),
        speech.language.grouped(gain.better.behind as f64)
    );
    format!("{}; {better}; {}.", capital(&with), sureness(gain.sure))
}

fn sureness(sure: f64) -> String {
    let (word, sure) = if sure >= 0.5 {
        ("better", sure)
    } else {
        ("worse", 1.0 - sure)
    };
    let sure = match (100.0 * sure).round() {
        all if all >= 100.0 => "more than 99 % sure".to_owned(),
        share => format!("{share} % sure"),
    };
    format!("in the mean it is {word} ({sure})")
}

fn costs(plan: &Judged, speech: Speech) -> String {
    let costs = &plan.costs;
    let mut parts = vec![match costs.visits {
        1 => "1 visit".to_owned(),
        visits => format!("{visits} visits"),
    }];
    if costs.jars > 0.0 {
        parts.push(format!(
            "up to {:.0} quart jars of syrup ({} of sugar)",
            costs.jars,
            speech.weight_text(costs.sugar_kg)
        ));
    }
    if costs.treatments > 0 {
        parts.push("a treatment".to_owned());
    }
    if costs.drones >= 0.5 {
        parts.push(format!(
            "{} drones, and {} of honey that went into them",
            speech
                .language
                .grouped((costs.drones / 10.0).round() * 10.0),
            speech.weight_text(costs.drone_honey_kg)
        ));
    }
    let mut text = format!("Costs {}.", parts.join("; "));
    if costs.refused >= 0.005 {
        text.push_str(&format!(
            " In {:.0} of 100 colonies a part of it cannot be done.",
            100.0 * costs.refused
        ));
    }
    text
}

/// What was not asked for and differs all the same, so far as that is sure.
fn besides(found: &Found, plan: &Judged, speech: Speech) -> Vec<String> {
    let differs = |gain: &&Gain| !(0.025..=0.975).contains(&gain.sure);
    plan.besides
        .iter()
        .filter(differs)
        .filter_map(|gain| {
            let as_it_is = found
                .as_it_is
                .iter()
                .find(|known| known.goal == gain.goal)?;
            let (with, without) = (&gain.with, &as_it_is.spread);
            let of_100 = |spread: &Spread| format!("{:.0}", 100.0 * spread.mean);
            let bees = |spread: &Spread| {
                speech
                    .language
                    .grouped((spread.mean / 100.0).round() * 100.0)
            };
            let (what, with, without) = match gain.goal {
                Goal::Alive => ("of 100 colonies live", of_100(with), of_100(without)),
                Goal::NoSwarm => ("of 100 have not swarmed", of_100(with), of_100(without)),
                Goal::FewMites => (
                    "mites on 100 bees",
                    format!("{:.1}", with.mean),
                    format!("{:.1}", without.mean),
                ),
                Goal::Honey => (
                    "of honey",
                    speech.weight_text(with.mean),
                    speech.weight_text(without.mean),
                ),
                Goal::Bees => ("bees", bees(with), bees(without)),
            };
            (with != without).then(|| format!("{with} {what} (as it is: {without})"))
        })
        .collect()
}

fn against_next(gain: &Gain, place: usize, speech: Speech) -> String {
    if gain.better.ahead + gain.better.behind == 0 {
        return format!("Number {} does as well in every colony.", place + 2);
    }
    format!(
        "Against number {}: better in {} of {} colonies, worse in {}; {}.",
        place + 2,
        speech.language.grouped(gain.better.ahead as f64),
        speech.language.grouped(gain.better.members() as f64),
        speech.language.grouped(gain.better.behind as f64),
        sureness(gain.sure)
    )
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

fn dim(text: &str, indent: usize) -> String {
    output::wrapped(text, indent)
        .lines()
        .map(|line| format!("{DIM}{line}{DIM:#}\n"))
        .collect()
}
