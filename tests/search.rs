//! Search: the best plans keep to the limits, are better on colonies that they were not chosen by, and do not
//! depend on threads or on the pieces in which it is gone on with; broken off, it says what it has.

use std::ops::ControlFlow;

use combcast_core::Error;
use combcast_core::ensemble::{Alone, Peers};
use combcast_core::scenario::Scenario;
use combcast_core::search::{Asked, Doing, Family, Found, Goal, Limits, Progress, Search, search};
use combcast_core::verdict::Effort;
use combcast_core::visits::{Visit, books_from_bytes, sift};
use combcast_core::weather;
use serde_json::Value;

use super::common::{self, good, output, overwintered};

const WET_SPRING: &str = "scenarios/wet-spring.toml";
const DEMO: &str = "scenarios/visits/alder-row-3.toml";

struct Yard {
    scenario: Scenario,
    peers: Peers,
    visits: Vec<Visit>,
}

impl Yard {
    fn new() -> Self {
        Self::of(include_str!("../scenarios/wet-spring.toml"))
    }

    fn of(text: &str) -> Self {
        let (scenario, (record, report)) = common::scenario(text);
        let peers = Peers::new(&scenario, Some((&record, &report)));
        Self {
            peers: peers.expect("a season that can be run"),
            scenario,
            visits: Vec::new(),
        }
    }

    /// The same after the first visits to the demo hive.
    fn visited(visits: usize) -> Self {
        let mut yard = Self::new();
        let file = include_bytes!("../scenarios/visits/alder-row-3.toml");
        let books = books_from_bytes(file, "the demo hive").expect("sound visits");
        let span = (yard.scenario.start.date.0, yard.scenario.until.0);
        (yard.visits, _) = sift(&books[0], span, None, &|_| 10.0);
        yard.visits.truncate(visits);
        yard
    }

    fn search(
        &self,
        goals: &[Goal],
        limits: &Limits,
        best: usize,
        members: u32,
        progress: impl FnMut(Progress) -> ControlFlow<()>,
    ) -> Result<Found, Error> {
        search(self.asked(goals, limits, best, members), &Alone, progress)
    }

    fn asked<'a>(
        &'a self,
        goals: &'a [Goal],
        limits: &'a Limits,
        best: usize,
        members: u32,
    ) -> Asked<'a> {
        Asked {
            scenario: &self.scenario,
            peers: &self.peers,
            hive: "",
            visits: &self.visits,
            on: None,
            goals,
            limits,
            best,
            effort: Effort { members, rounds: 1 },
        }
    }
}

fn on(_: Progress) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

fn only(families: &[Family]) -> Limits {
    Limits {
        families: families.to_vec(),
        ..Limits::default()
    }
}

#[test]
fn a_calendar_of_drone_frames_takes_mites_and_says_what_it_costs() {
    let found = Yard::new()
        .search(&[Goal::FewMites], &only(&[Family::DroneFrames]), 3, 100, on)
        .expect("plans");
    assert!(found.finished && found.tried > 100, "{found:?}");
    // Half race, half judge.
    assert!(
        found.members >= 45 && found.members <= 50,
        "{}",
        found.members
    );
    let best = &found.best[0];
    let gain = &best.gains[0];
    assert_eq!(gain.better.members(), found.members);
    assert!(gain.sure > 0.99 && gain.probability > 0.8, "{gain:?}");
    assert!(
        gain.with.median < found.as_it_is[1].spread.median,
        "{gain:?}"
    );
    assert!(
        best.costs.drones > 100.0 && best.costs.drone_honey_kg > 0.0,
        "{:?}",
        best.costs
    );
    assert!(best.costs.visits >= 2, "{:?}", best.costs);
    // In on the first day, out on the last, and no frame stays longer than a drone takes and a few days.
    let words: Vec<String> = best
        .calendar
        .iter()
        .map(|one| one.text.to_string())
        .collect();
    assert!(words[0].starts_with("put in a drone frame"), "{words:?}");
    assert_eq!(*words.last().unwrap(), "take the drone frame out");
    for pair in best.calendar.windows(2) {
        assert!(
            (12..=30).contains(&pair[1].date.days_since(pair[0].date)),
            "{pair:?}"
        );
    }
}

#[test]
fn limits_are_kept_whatever_is_wanted() {
    let yard = Yard::new();
    for (visits_per_week, no_chemicals, jars) in [(1, true, 4.0), (2, false, 0.0)] {
        let limits = Limits {
            visits_per_week,
            no_chemicals,
            jars,
            ..Limits::default()
        };
        let goals = [Goal::FewMites, Goal::Honey];
        let found = yard.search(&goals, &limits, 8, 60, on).expect("plans");
        assert!(!found.best.is_empty());
        let step = 7_i32.div_euclid(i32::from(visits_per_week)) + i32::from(visits_per_week > 1);
        for plan in &found.best {
            assert!(plan.costs.jars <= jars + 1e-9, "{:?}", plan.costs);
            assert!(!no_chemicals || plan.moves.iter().all(|step| step.treat.is_none()));
            assert_eq!(plan.gains.len(), 2);
            // The last has none behind it.
            let against: Vec<Goal> = plan.against_next.iter().map(|gain| gain.goal).collect();
            assert!(against == goals || (against.is_empty() && plan == found.best.last().unwrap()));
            for one in &plan.calendar {
                let days = one.date.days_since(found.from);
                assert!(days > 0 && days % step == 0, "{one:?}: every {step} days");
            }
        }
    }
}

#[test]
fn nothing_is_tried_that_taints_honey_or_that_is_too_cold_to_be_taken() {
    let text = overwintered();
    let year = |keep: fn(&str) -> bool| {
        let parts: Vec<&str> = text.split("\n\n").filter(|part| keep(part)).collect();
        let parts = parts.join("\n\n");
        parts.replace("until = 2015-04-15", "until = 2013-11-30")
    };
    let first = |part: &str| !part.contains("2014-") && !part.contains("[[expect]]");
    let with = Yard::of(&year(first));
    let without = Yard::of(&year(|part| {
        !part.contains("2014-") && !part.contains("[[expect]]") && !part.contains("take_honey")
    }));
    let limits = only(&[Family::Treatment]);
    let found = |yard: &Yard| {
        let found = yard.search(&[Goal::FewMites], &limits, 20, 8, on);
        found.expect("a search")
    };
    let (with, without) = (found(&with), found(&without));
    assert!(with.tried < without.tried);
    let harvest = jiff::civil::date(2013, 8, 11);
    let off = ["thymol", "amitraz", "fluvalinate", "coumaphos"];
    let mut later = 0;
    for dated in with.best.iter().flat_map(|plan| &plan.calendar) {
        if off.iter().any(|name| dated.text.to_string().contains(name)) {
            assert!(dated.date.0 >= harvest, "{dated:?}");
            later += 1;
        }
    }
    assert!(later > 0);

    // The last day on which `next` has feed for winter in this plan.
    let limits = only(&[Family::Feed]);
    let found = Yard::new().search(&[Goal::Honey], &limits, 20, 8, on);
    let best = found.expect("a search").best;
    for dated in best.iter().flat_map(|plan| &plan.calendar) {
        assert!(dated.date.0 <= jiff::civil::date(2012, 10, 20), "{dated:?}");
    }
}

#[test]
fn the_race_keeps_what_a_trial_of_all_finds_best() {
    // Of boxes there are so few that none drops out before the end.
    let yard = Yard::new();
    let limits = only(&[Family::Box]);
    let all = yard
        .search(&[Goal::Bees], &limits, 20, 100, on)
        .expect("plans");
    let means: Vec<f64> = all
        .best
        .iter()
        .map(|plan| plan.gains[0].difference.mean)
        .collect();
    let top = means.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let first = &all.best[0].gains[0].difference;
    // The first is the best, or cannot be told from it.
    let near = all
        .best
        .iter()
        .map(|plan| plan.gains[0].difference.standard_error);
    assert!(first.mean >= top - near.fold(0.0, f64::max), "{means:?}");
    let one = yard
        .search(&[Goal::Bees], &limits, 1, 100, on)
        .expect("a plan");
    assert_eq!(one.best.len(), 1);
    let place = all
        .best
        .iter()
        .position(|plan| plan.moves == one.best[0].moves);
    let place = place.expect("it is among all");
    assert!(
        means[place] >= top - 2.0 * first.standard_error.max(1.0),
        "{means:?}"
    );
}

#[test]
fn broken_off_it_shows_what_the_last_whole_stage_left() {
    let yard = Yard::new();
    let limits = only(&[Family::DroneFrames]);
    let until = |stage: usize, part: f64| {
        let mut seen: Vec<Progress> = Vec::new();
        let found = yard.search(&[Goal::FewMites], &limits, 2, 100, |now| {
            seen.push(now);
            let there = now.stage == stage && now.done as f64 > part * now.of as f64;
            if there {
                ControlFlow::Break(())
            } else {
                ControlFlow::Continue(())
            }
        });
        (found, seen)
    };
    let (found, seen) = until(3, 0.3);
    let found = found.expect("the best so far");
    assert!(!found.finished && found.members >= 8, "{found:?}");
    assert!(seen.iter().all(|now| now.done <= now.of && now.plans > 0));
    assert!(seen.is_sorted_by_key(|now| now.stage));
    // Wherever in the stage it ends.
    let (again, _) = until(3, 0.7);
    assert_eq!(found, again.expect("the best so far"));
    let (nothing, _) = until(1, 0.0);
    let error = nothing.expect_err("nothing was tried");
    assert!(error.message.contains("nothing can be said"), "{error}");
}

#[test]
fn gone_on_with_in_pieces_of_any_size_it_comes_to_the_same() {
    let seen = the_same_in_pieces(
        &Yard::new(),
        &only(&[Family::QueenCells, Family::Box, Family::Treatment]),
    );
    assert_eq!(seen[0].doing, Doing::Racing, "{:?}", seen[0]);
}

#[test]
fn colonies_that_fit_visits_are_found_in_pieces_too() {
    let seen = the_same_in_pieces(&Yard::visited(2), &only(&[Family::Box]));
    let finding = seen.iter().filter(|now| now.doing == Doing::Finding);
    let finding: Vec<&Progress> = finding.collect();
    // 2,000 of them live, are offered other lives twice at the least, and go on to the day of the search.
    assert!(finding.len() >= 80, "{}", finding.len());
    assert!(
        finding
            .windows(2)
            .all(|two| { two[1].lived - two[0].lived <= 100 && two[1].done >= two[0].done })
    );
    assert_eq!(finding.last().map(|now| (now.done, now.of)), Some((2, 2)));
    assert!(
        seen[finding.len()..]
            .iter()
            .all(|now| now.plans > 0 && now.doing != Doing::Finding)
    );
}

/// What a search that is never stopped tells of its progress; stopped again and again, it comes to the same.
fn the_same_in_pieces(yard: &Yard, limits: &Limits) -> Vec<Progress> {
    let goals = [Goal::FewMites, Goal::Honey];
    let mut all = Vec::new();
    let one_go = yard.search(&goals, limits, 3, 40, |now| {
        all.push(now);
        on(now)
    });
    let one_go = one_go.expect("plans");
    assert!(one_go.finished);
    for lives in [1, 97, 600] {
        let mut search =
            Search::begin(yard.asked(&goals, limits, 3, 40), &Alone).expect("a search");
        assert!(search.found().is_err(), "nothing was tried yet");
        let (mut seen, mut pauses, mut goes_on) = (Vec::new(), 0, true);
        while goes_on {
            let first = seen.len();
            let flow = search.go_on(&Alone, &mut |now: Progress| {
                seen.push(now);
                let before = seen[first].lived;
                if now.lived - before < lives {
                    ControlFlow::Continue(())
                } else {
                    ControlFlow::Break(())
                }
            });
            goes_on = flow.expect("sound days").is_break();
            pauses += usize::from(goes_on);
            assert_eq!(search.is_over(), !goes_on);
            // To ask it changes nothing, and once there is something to say there always is.
            let last = *seen.last().expect("a piece of work");
            if last.stage > 1 {
                let found = search.found().expect("the best so far");
                assert_eq!(found.finished, !goes_on);
                assert!(!found.best.is_empty() && found.members > 0, "{last:?}");
            }
        }
        assert!(pauses > 1, "{lives}: {pauses}");
        assert_eq!(seen, all, "{lives}");
        assert_eq!(search.found().expect("the best"), one_go, "{lives}");
        // What is over stays as it is.
        let mut told = 0;
        let flow = search.go_on(&Alone, &mut |_| {
            told += 1;
            ControlFlow::Break(())
        });
        assert_eq!((flow, told), (Ok(ControlFlow::Continue(())), 0));
    }
    all
}

#[test]
fn the_same_plans_on_any_number_of_threads() {
    let with = |threads: &str| {
        good(&[
            "search",
            WET_SPRING,
            DEMO,
            "--members",
            "60",
            "--json",
            "--threads",
            threads,
            "--what",
            "drone-frames,treatment",
        ])
    };
    let one = with("1");
    assert_eq!(one, with("3"));
    let found: Value = serde_json::from_str(&one).expect("JSON");
    assert_eq!(found["hive"], "Alder Row 3");
    assert_eq!(found["goals"][0], "few_mites");
    assert_eq!(found["finished"], true);
}

#[test]
fn the_best_plan_is_told_and_can_be_added_to_the_scenario() {
    let text = good(&[
        "search",
        WET_SPRING,
        "--what",
        "drone-frames",
        "--members",
        "60",
    ]);
    for words in [
        "What to do for few mites",
        "As it is: mites on 100 bees",
        "put in a drone frame",
        "% sure)",
        "Costs ",
        "Stings can kill",
    ] {
        assert!(text.contains(words), "no \"{words}\" in\n{text}");
    }
    assert!(
        text.lines().all(|line| line.chars().count() <= 88),
        "{text}"
    );
    let moves = good(&[
        "search",
        WET_SPRING,
        "--what",
        "drone-frames",
        "--members",
        "60",
        "--moves",
    ]);
    let plan = format!("{}\n{moves}", include_str!("../scenarios/wet-spring.toml"));
    let scenario = Scenario::from_toml(&plan).expect("a scenario with the moves in it");
    let (record, _) =
        weather::resolve(&scenario, Some(common::record(&scenario))).expect("weather");
    let season = combcast_core::run(&scenario, &record).expect("a season");
    let out = season
        .events
        .iter()
        .filter(|event| event.text.to_string().contains("the drone frame is"));
    assert!(out.count() >= 1);
}

#[test]
fn what_cannot_be_searched_is_told() {
    for (arguments, words) in [
        (vec!["--goal", "gold"], "few-mites"),
        (vec!["--what", "magic"], "drone-frames"),
        (
            vec!["--what", "treatment", "--no-chemicals"],
            "nothing may be done",
        ),
        (vec!["--jars", "-1"], "0 to 200 jars"),
        (vec!["--on", "2013-05-01"], "--on"),
    ] {
        let all: Vec<&str> = ["search", WET_SPRING]
            .into_iter()
            .chain(arguments)
            .collect();
        let output = output(&all);
        assert_eq!(output.status.code(), Some(2), "{all:?}");
        let told = String::from_utf8(output.stderr).expect("text");
        assert!(told.contains(words), "{all:?}: {told}");
    }
}
