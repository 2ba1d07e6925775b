//! What state a colony is in is told as it is: out of season, with drone brood only, before bees leave it.

use std::path::Path;

use combcast_core::queen::{Brake, QueenState};
use combcast_core::season::Event;
use combcast_core::story::{Emphasis, Units};
use combcast_core::weather::{BuiltIn, resolve};
use combcast_core::words::{Language, Speech};
use combcast_core::{Scenario, Season};
use jiff::civil::date;

use super::{is_silent_about, on, place, says, season, shipped, told};

#[test]
fn a_queen_who_lays_little_for_the_time_of_the_year_is_not_told_as_free_for_months() {
    let mut season = season(200, |index, day| {
        if index >= 120 {
            day.eggs_laid = 90.0;
        }
        if (160..190).contains(&index) {
            day.eggs_laid = if index < 170 { 20.0 } else { 0.0 };
        }
        if index >= 195 {
            day.eggs_laid = 900.0;
        }
    });
    for conditions in &mut season.conditions[120..195] {
        conditions.laying_season = 0.1;
    }
    let autumn = told(&season, 150);
    says(
        &autumn,
        "At this time of the year she lays little: about 90 eggs a day.",
    );
    is_silent_about(&autumn, "nothing has held");
    says(&told(&season, 100), "nothing has held the queen back");
    says(&told(&season, 165), "The queen hardly lays: 20 eggs a day.");
    says(&told(&season, 180), "The queen rests: she lays no eggs.");
    is_silent_about(&told(&season, 165), "rests");
    // What was before winter does not go on after it.
    says(
        &told(&season, 192),
        "At this time of the year she lays little",
    );
    says(
        &told(&season, 199),
        "Since Sunday nothing has held the queen back: she lays about 900 eggs a day.",
    );
    // A young queen builds up: that is no time of the year.
    let young = super::season(200, |index, day| {
        if (100..120).contains(&index) {
            day.queen = QueenState::Virgin;
        }
        if index >= 120 {
            (day.rate_of_queen, day.eggs_laid) = (90.0, 90.0);
        }
    });
    is_silent_about(&told(&young, 130), "At this time of the year");
}

#[test]
fn brood_that_is_too_little_to_be_seen_at_a_glance_is_still_some() {
    let cells = |cells: f64| {
        season(60, move |index, day| {
            (day.open_larvae, day.capped_worker, day.frames_of_brood) = (0.0, 0.0, 0.0);
            day.eggs = if index >= 40 { 3_000.0 } else { cells };
        })
    };
    let none = told(&cells(0.5), 10);
    says(&none, "no brood");
    says(&none, "Brood again about 9 June.");
    let few = told(&cells(8.0), 10);
    says(&few, "a few cells of brood");
    is_silent_about(&few, "Brood again");
    let patch = told(&cells(80.0), 10);
    says(&patch, "a patch of brood");
    is_silent_about(&patch, "Brood again");
}

#[test]
fn drone_brood_without_a_queen_is_told_as_that() {
    let with = |queen: QueenState| {
        season(40, move |_, day| {
            (day.eggs, day.open_larvae, day.capped_worker) = (0.0, 0.0, 0.0);
            (day.frames_of_brood, day.eggs_laid) = (0.0, 0.0);
            (day.drone_brood, day.brake, day.queen) = (900.0, Brake::NoQueen, queen);
        })
    };
    let workers = told(&with(QueenState::LayingWorkers), 20);
    says(&workers, "only drone brood");
    says(
        &workers,
        "The colony has no laying queen: workers are laying, and only drones come of their eggs.",
    );
    is_silent_about(&workers, "no brood");
    is_silent_about(&workers, "no new eggs");
    says(
        &told(&with(QueenState::DroneLayer), 20),
        "lays only drone eggs",
    );
    says(&told(&with(QueenState::None), 20), "no new eggs");
}

/// A colony that grows until a swarm leaves on day 30, and dwindles from then on for a while.
fn swarming(events: Vec<Event>) -> Season {
    let mut season = season(85, |index, day| {
        day.adult_bees = match index {
            0..30 => 20_000.0 + 200.0 * index as f64,
            30..50 => 12_000.0 - 100.0 * (index - 30) as f64,
            _ => 10_100.0 + 200.0 * (index - 50) as f64,
        };
    });
    season.events = events;
    season
}

/// What is written down when a colony swarms.
fn made_to_swarm() -> Event {
    let text = include_str!("../../scenarios/swarm.toml");
    let (text, _) = text.split_once("[[expect]]").expect("expectations");
    let scenario = Scenario::from_toml(text).expect("a sound scenario");
    let seattle = BuiltIn::named("seattle").expect("it is built in");
    let record =
        std::fs::read(Path::new("scenarios/weather").join(seattle.file)).expect("the record");
    let (weather, _) = resolve(&scenario, Some(&record)).expect("its weather is there");
    let season = combcast_core::run(&scenario, &weather).expect("it runs");
    let swarm = season
        .events
        .into_iter()
        .find(|event| event.kind == "swarm");
    swarm.expect("it swarms")
}

#[test]
fn the_day_on_which_a_queen_leaves_or_comes_tells_that_and_not_her_laying() {
    let swarm = shipped("swarm.toml");
    let day = |month, day| told(&swarm, place(&swarm, date(2013, month, day)));
    let leaves = made_to_swarm().text.told(Units::Metric.into());
    let left = day(6, 1);
    says(&left, &format!("Today: {leaves}."));
    is_silent_about(&left, "she lays");
    // Also in brief, as what holds the queen back.
    let story = on(&swarm, place(&swarm, date(2013, 6, 1)), Language::German);
    let mut spans = story.sentences.iter().flatten();
    assert!(spans.any(|span| span.kind == Emphasis::Brake && span.text.contains("Schwarm")));
    says(&day(5, 31), "she lays about 1,400 eggs a day");
    says(&day(6, 2), "The colony has no laying queen");
    let ready = day(6, 19);
    says(&ready, "Today: the young queen is ready to lay");
    is_silent_about(&ready, "no laying queen");
    // A move is told beside what holds her back, without what it warns of.
    says(&day(8, 1), "eggs a day. Today: 11 kg of honey is taken. ");
    let treated = shipped("every-move.toml");
    let treats = told(&treated, place(&treated, date(2013, 8, 5)));
    says(
        &treats,
        "Today: oxalic acid, slow release is given for 42 days. ",
    );
    is_silent_about(&treats, "label");
}

#[test]
fn bees_that_still_rise_are_not_told_to_fall() {
    let bare = swarming(Vec::new());
    let before = told(&bare, 23);
    says(
        &before,
        "Numbers hold until bees leave on 30 May, then fall to 10,100 bees about 18 June.",
    );
    is_silent_about(&before, "still fall");
    // A day or two before, they rise by so little that it would not be told.
    is_silent_about(&told(&bare, 29), "still fall");
    says(&told(&bare, 35), "Numbers still fall");
    // The words of a swarm are the model's own: those of the scenario that has one.
    let mut leaves = made_to_swarm();
    (leaves.date, leaves.day) = ("2012-05-30".to_owned(), 31);
    let what = leaves.text.told(Units::Metric.into());
    let named = swarming(vec![leaves]);
    says(
        &told(&named, 23),
        &format!("On 30 May: {what}; after that numbers fall, to 10,100 bees about 18 June."),
    );
    // Where none are lost after it, it is told at once how many stay.
    let mut still = named.clone();
    for day in &mut still.days[30..] {
        day.adult_bees = 12_000.0 + 100.0 * (day.day - 31.0);
    }
    says(
        &told(&still, 23),
        &format!("On 30 May: {what}; 12,000 bees are left."),
    );
    let german = Speech {
        language: Language::German,
        units: Units::Metric,
    };
    says(&on(&named, 23, german).plain(), "Am 30. Mai: ");
}

#[test]
fn bees_that_rise_before_they_fall_are_told_to_do_both() {
    let package = shipped("wet-spring.toml");
    let bees = |index: usize| package.days[index].adult_bees;
    let today = place(&package, date(2012, 5, 21));
    let before_low = today as usize..60;
    let low = before_low
        .min_by(|&a, &b| bees(a).total_cmp(&bees(b)))
        .expect("days");
    let most = (today as usize..low)
        .max_by(|&a, &b| bees(a).total_cmp(&bees(b)))
        .expect("days");
    assert!(bees(most) > 1.03 * bees(today as usize));
    let about = |index: usize| Language::English.about(bees(index));
    let day = |index: usize| {
        let date = combcast_core::calendar::plus_days(package.first, index as i32);
        Language::English.day_and_month(date, false)
    };
    let rises = told(&package, today);
    says(
        &rises,
        &format!(
            "Numbers rise to {} bees about {}, then fall to {} bees about {}.",
            about(most),
            day(most),
            about(low),
            day(low)
        ),
    );
    is_silent_about(&rises, "still fall");
    says(&told(&package, most as i32), "Numbers still fall, to ");
    says(
        &on(&package, today, Language::German).plain(),
        &format!(
            "danach um den {low_day}",
            low_day = {
                let date = combcast_core::calendar::plus_days(package.first, low as i32);
                Language::German.day_and_month(date, false)
            }
        ),
    );
}

#[test]
fn few_nurses_have_the_reason_that_few_young_bees_came_out() {
    let with = |emerged: f64| {
        season(40, move |index, day| {
            day.brake = Brake::Nurses;
            // Foragers make up for them: there are as many bees as before.
            day.house_bees -= 100.0 * index as f64;
            day.foragers += 100.0 * index as f64;
            day.emerged = emerged;
        })
    };
    let few = told(&with(150.0), 20);
    says(
        &few,
        "too few nurse bees: in 6 days 900 bees hatched, 1,500 went flying or were lost.",
    );
    says(
        &on(&with(150.0), 20, Language::German).plain(),
        "in 6 Tagen schlüpften 900 Bienen, 1.500 flogen aus oder gingen verloren.",
    );
    says(
        &told(&with(0.0), 20),
        "too few nurse bees: no bees hatched in 6 days.",
    );
    // That foragers are lost is no reason for few nurses.
    let foragers = season(40, |index, day| {
        day.brake = Brake::Nurses;
        day.adult_bees -= 100.0 * index as f64;
        day.foragers -= 60.0 * index as f64;
    });
    let story = told(&foragers, 20);
    says(
        &story,
        "too few nurse bees: those there are have 5,500 larvae to feed.",
    );
    is_silent_about(&story, "were lost");
}
