//! `combcast search`: the plan that serves given goals best.

use std::io::{IsTerminal, Write};
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use combcast_core::Error;
use combcast_core::ensemble::Spread;
use combcast_core::search::{
    Asked, Doing, Family, Found, Gain, Goal, Judged, LOST_MITES_PER_100, Limits, Progress, search,
};
use combcast_core::verdict::Effort;
use combcast_core::visits::{VisitBook, hives_from_bytes};
use combcast_core::words::{Language, Speech};

use super::verdict::sifted;
use crate::args;
use crate::hands::Threads;
use crate::load;
use crate::output::{self, BOLD, Failure};
use crate::words;

pub fn run(given: &args::Search) -> Result<(), Failure> {
    let hands = Threads::new(given.threads)?.quiet();
    let book = match &given.visits {
        Some(visits) => one_book(visits, given.hive.as_deref())?,
        None => VisitBook::default(),
    };
    let beside = given.visits.as_deref().unwrap_or(Path::new(""));
    let own = load::of_hive(&given.scenario, beside, &book);
    let (scenario, peers) = load::peers_until(&own, given.until)?;
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
        let speech = given.speech.get();
        told(&found, speech) + &load::sky(&scenario, &own.file, speech.language)?
    })
}

/// The visits of the one hive that there is, or of the one that is chosen. What is wrong with others does not hinder it.
fn one_book(visits: &Path, chosen: Option<&str>) -> Result<VisitBook, Failure> {
    let name = load::name(visits);
    let hives = hives_from_bytes(&load::read(visits)?, &name)?;
    let mut books = hives.books;
    let names: Vec<String> = books.iter().map(|book| book.hive.clone()).collect();
    if let Some(chosen) = chosen {
        books.retain(|book| book.hive == chosen);
    }
    match (books.pop(), books.is_empty()) {
        (Some(book), true) if chosen.is_some() || hives.faults.is_empty() => Ok(book),
        _ if !hives.faults.is_empty() => Err(Failure::Input(hives.faults)),
        _ => Err(Error::scenario(
            "--hive",
            format!("expected which hive of {name}: {}", names.join(", ")),
        )
        .into()),
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
            let grouped = |number: usize| Language::English.grouped(number as f64);
            let (done, of) = (grouped(progress.done), grouped(progress.of));
            let plans = grouped(progress.plans);
            let what = match progress.doing {
                Doing::Finding => format!(
                    "finding colonies that fit the visits: {done} of {of} visits, {} lives",
                    grouped(progress.lived)
                ),
                Doing::Racing => format!(
                    "stage {}: {plans} plans, {done} of {of} lives",
                    progress.stage
                ),
                Doing::Judging => format!("judging the best {plans}, {done} of {of} lives"),
            };
            let end = match progress.doing {
                Doing::Finding => "ends the search",
                Doing::Racing | Doing::Judging => "shows the best so far",
            };
            eprint!("\r\u{1b}[K{what}; Ctrl-C {end}");
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

fn told(found: &Found, speech: Speech) -> String {
    let language = speech.language;
    let words = &words::of(language).search;
    let goals: Vec<&str> = found
        .goals
        .iter()
        .map(|goal| words.goals[*goal as usize])
        .collect();
    let title = words::text(words.title, &[("goals", &goals.join(words.then))]);
    let mut text = format!(
        "{BOLD}{}{BOLD:#}\n",
        output::of_hive(&found.hive, &output::wrapped(&title, 0), language)
    );
    let parts = [
        ("tried", &*language.grouped(found.tried as f64)),
        ("from", &language.day_and_month(found.from.0, true)),
        ("until", &language.day_and_month(found.until.0, true)),
        ("members", &language.grouped(found.members as f64)),
    ];
    text.push_str(&output::dim(&words::text(words.intro, &parts), 0));
    if let Some(assumed) = &found.assumed_mites {
        text.push_str(&output::dim(&assumed.text.told(speech), 0));
    }
    for warning in &found.warnings {
        let warning = output::caution(&warning.told(speech), language);
        text.push_str(&output::wrapped_after(&warning, 2));
        text.push('\n');
    }
    if !found.finished {
        let members = language.grouped(found.members as f64);
        let why = words::text(words.broken_off, &[("members", &members)]);
        text.push_str(&output::wrapped_after(&output::caution(&why, language), 2));
        text.push('\n');
    }
    let as_it_is: Vec<String> = found
        .goals
        .iter()
        .filter_map(|goal| found.as_it_is.iter().find(|known| known.goal == *goal))
        .map(|measured| amount(measured.goal, &measured.spread, speech))
        .collect();
    let as_it_is = words::text(words.as_it_is, &[("list", &as_it_is.join("; "))]);
    text.push_str(&format!("\n{}\n", output::wrapped(&as_it_is, 0)));
    for (place, plan) in found.best.iter().enumerate() {
        text.push_str(&one(found, place, plan, speech));
    }
    text.push('\n');
    for caution in found.cautions_in(language) {
        let caution = output::caution(caution, language);
        text.push_str(&output::wrapped_after(&caution, 2));
        text.push('\n');
    }
    text
}

/// "0.4 to 3.1 mites on 100 bees, in the middle 1.2"; "812 of 1,000 live".
/// Mites on 100 bees; a lost colony is ranked behind all others, and has none.
fn mites(value: f64, language: Language) -> String {
    if value == LOST_MITES_PER_100 {
        words::of(language).search.lost.to_owned()
    } else {
        language.decimal(value, 1)
    }
}

fn amount(goal: Goal, spread: &Spread, speech: Speech) -> String {
    let language = speech.language;
    let words = &words::of(language).search;
    let number = |value: f64| match goal {
        Goal::Honey => speech.weight_text(value),
        Goal::Bees => language.grouped((value / 100.0).round() * 100.0),
        Goal::FewMites => mites(value, language),
        _ => language.decimal(value, 1),
    };
    // Lost colonies are ranked behind all others.
    let lost = |mites: f64| goal == Goal::FewMites && mites == LOST_MITES_PER_100;
    let pattern = match [spread.q05, spread.median, spread.q95].map(lost) {
        [true, ..] => words.spread_all_lost,
        [_, true, _] => words.spread_half_lost,
        [.., true] => words.spread_some_lost,
        _ => words.spread,
    };
    let parts = [
        ("low", &*number(spread.q05)),
        ("high", &number(spread.q95)),
        ("middle", &number(spread.median)),
    ];
    let parts = [
        ("share", &*language.decimal(100.0 * spread.mean, 0)),
        ("spread", &words::text(pattern, &parts)),
    ];
    words::text(words.amounts[goal as usize], &parts)
}

fn one(found: &Found, place: usize, plan: &Judged, speech: Speech) -> String {
    let words = &words::of(speech.language).search;
    let kinds: Vec<&str> = plan
        .families
        .iter()
        .map(|family| family_words(*family, plan, speech.language))
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
            dated.text.told(speech)
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
        let besides = words::text(words.besides, &[("list", &besides.join("; "))]);
        text.push_str(&output::wrapped(&besides, 2));
        text.push('\n');
    }
    for next in &plan.against_next {
        text.push_str(&output::dim(&against_next(next, place, speech.language), 2));
    }
    text
}

fn family_words(family: Family, plan: &Judged, language: Language) -> &'static str {
    let words = &words::of(language).search;
    let swaps = plan
        .moves
        .iter()
        .any(|step| step.swap_drone_frames.is_some());
    match family {
        Family::DroneFrames if !swaps => words.one_drone_frame,
        _ => words.families[family as usize],
    }
}

fn gained(gain: &Gain, speech: Speech) -> String {
    let words = &words::of(speech.language).search;
    let with = capital(&amount(gain.goal, &gain.with, speech));
    if gain.better.ahead + gain.better.behind == 0 {
        return words::text(words.no_different, &[("with", &with)]);
    }
    compared(gain, words.gained, ("with", &with), speech.language)
}

/// In how many colonies it is better and worse, and how sure it is that it is better in the mean.
fn compared(gain: &Gain, pattern: &str, what: (&str, &str), language: Language) -> String {
    let count = |count: usize| language.grouped(count as f64);
    let goal = words::of(language).search.goals[gain.goal as usize];
    let parts = [
        what,
        ("goal", goal),
        ("ahead", &count(gain.better.ahead)),
        ("members", &count(gain.better.members())),
        ("behind", &count(gain.better.behind)),
        ("sure", &sureness(gain.sure, language)),
    ];
    words::text(pattern, &parts)
}

/// A mean difference is told as one where it is as sure as this, to either side.
const SURE: f64 = 0.9;

fn sureness(sure: f64, language: Language) -> String {
    let words = &words::of(language).search;
    if sure.max(1.0 - sure) < SURE {
        return words.not_sure.to_owned();
    }
    let better = sure >= 0.5;
    let share = (100.0 * if better { sure } else { 1.0 - sure }).round();
    let pattern = match (better, share >= 100.0) {
        (true, true) => words.better_very_sure,
        (true, false) => words.better_sure,
        (false, true) => words.worse_very_sure,
        (false, false) => words.worse_sure,
    };
    words::text(pattern, &[("share", &share.to_string())])
}

fn costs(plan: &Judged, speech: Speech) -> String {
    let language = speech.language;
    let words = &words::of(language).search;
    let costs = &plan.costs;
    let mut list = vec![match costs.visits {
        1 => words.one_visit.to_owned(),
        visits => words::text(words.visits, &[("count", &visits.to_string())]),
    }];
    if costs.jars > 0.0 {
        let parts = [
            ("jars", &*language.decimal(costs.jars, 0)),
            ("sugar", &speech.weight_text(costs.sugar_kg)),
        ];
        list.push(words::text(words.jars, &parts));
    }
    if costs.treatments > 0 {
        list.push(words.a_treatment.to_owned());
    }
    if costs.drones >= 0.5 {
        let parts = [
            (
                "drones",
                &*language.grouped((costs.drones / 10.0).round() * 10.0),
            ),
            ("honey", &speech.weight_text(costs.drone_honey_kg)),
        ];
        list.push(words::text(words.drones, &parts));
    }
    let mut text = words::text(words.costs, &[("list", &list.join("; "))]);
    if costs.refused >= 0.005 {
        let share = language.decimal(100.0 * costs.refused, 0);
        text += &words::text(words.refused, &[("share", &share)]);
    }
    text
}

/// What was not asked for and differs all the same, so far as that is sure.
fn besides(found: &Found, plan: &Judged, speech: Speech) -> Vec<String> {
    let language = speech.language;
    let words = &words::of(language).search;
    let differs = |gain: &&Gain| !(0.025..=0.975).contains(&gain.sure);
    plan.besides
        .iter()
        .filter(differs)
        .filter_map(|gain| {
            let as_it_is = found
                .as_it_is
                .iter()
                .find(|known| known.goal == gain.goal)?;
            let mean = |spread: &Spread| match gain.goal {
                Goal::Alive | Goal::NoSwarm => language.decimal(100.0 * spread.mean, 0),
                // A mean over lost colonies too would say nothing.
                Goal::FewMites => mites(spread.median, language),
                Goal::Honey => speech.weight_text(spread.mean),
                Goal::Bees => language.grouped((spread.mean / 100.0).round() * 100.0),
            };
            let (with, without) = (mean(&gain.with), mean(&as_it_is.spread));
            let parts = [("with", &*with), ("without", &*without)];
            (with != without).then(|| words::text(words.beside[gain.goal as usize], &parts))
        })
        .collect()
}

fn against_next(gain: &Gain, place: usize, language: Language) -> String {
    let words = &words::of(language).search;
    let number = (place + 2).to_string();
    if gain.better.ahead + gain.better.behind == 0 {
        let parts = [
            ("number", &*number),
            ("goal", words.goals[gain.goal as usize]),
        ];
        return words::text(words.next_as_good, &parts);
    }
    let said = compared(gain, words.against_next, ("number", &number), language);
    // Else it would look as if the worse one stood first.
    if gain.better.behind > gain.better.ahead {
        format!("{said} {}", words.order)
    } else {
        said
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_difference_is_one_only_where_it_is_sure() {
        let said = |sure| sureness(sure, Language::English);
        for sure in [0.11, 0.5, 0.89] {
            assert_eq!(said(sure), "no difference in the mean that could be seen");
        }
        assert_eq!(said(0.95), "in the mean it is better (95 % sure)");
        assert_eq!(said(0.001), "in the mean it is worse (more than 99 % sure)");
        assert!(sureness(0.5, Language::German).contains("kein Unterschied"));
    }

    #[test]
    fn lost_colonies_are_not_told_as_mites() {
        let told = |mut values: Vec<f64>| {
            let speech = Speech::from(Language::English);
            amount(Goal::FewMites, &Spread::of(&mut values), speech)
        };
        let lost = LOST_MITES_PER_100;
        let some = "mites on 100 bees: 2.0 or more, 2.0 in the middle; one colony in twenty or more is lost";
        assert_eq!(told([vec![2.0; 10], vec![lost; 2]].concat()), some);
        assert!(
            told(vec![2.0, lost, lost, lost, lost])
                .ends_with("half of the colonies or more are lost")
        );
        assert!(told(vec![lost; 4]).ends_with("nearly all colonies are lost"));
        assert_eq!(
            told(vec![2.0; 4]),
            "mites on 100 bees: 2.0 to 2.0, 2.0 in the middle"
        );
    }
}
