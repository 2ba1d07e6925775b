//! The story says what the season's numbers say, in either system of units, on every day.

mod food;
mod late;
mod mites;
mod overview;
mod states;
mod whole;

use std::path::Path;

use combcast_core::colony::Colony;
use combcast_core::forage::Conditions;
use combcast_core::observe::DayRecord;
use combcast_core::queen::{Brake, QueenState};
use combcast_core::scenario::Mode;
use combcast_core::story::{self, Emphasis, Story, Units, overview};
use combcast_core::weather::{BuiltIn, resolve};
use combcast_core::words::{Language, Speech};
use combcast_core::{Parameters, Scenario, Season};
use jiff::civil::{Date, date};

/// Monday.
const FIRST: Date = date(2012, 4, 30);

/// A made-up day: a small colony in fair weather, held back by nothing.
fn fair_day(index: usize) -> DayRecord {
    DayRecord {
        day: (index + 1) as f64,
        adult_bees: 10_000.0,
        house_bees: 7_000.0,
        foragers: 3_000.0,
        drones: 0.0,
        eggs: 3_000.0,
        open_larvae: 5_500.0,
        capped_worker: 11_000.0,
        drone_brood: 0.0,
        eggs_laid: 1_000.0,
        emerged: 900.0,
        died: 300.0,
        rate_of_queen: 1_000.0,
        limit_of_cells: 3_000.0,
        limit_of_nurses: 2_000.0,
        limit_of_pollen: 2_000.0,
        limit_of_food: 5_000.0,
        limit_of_warmth: 4_000.0,
        drawn_frames: 8.0,
        frames_of_bees: 5.0,
        frames_of_brood: 3.0,
        drawn_cells: 56_000.0,
        honey_kg: 4.0,
        unripe_kg: 1.0,
        pollen_kg: 0.5,
        syrup_kg: 0.0,
        nectar_kg: 0.5,
        pollen_in_kg: 0.1,
        honey_eaten_kg: 0.25,
        pollen_eaten_kg: 0.05,
        wax_honey_kg: 0.0,
        flight_hours: 6.0,
        nectar_index: 0.6,
        pollen_index: 0.6,
        high_c: 20.0,
        low_c: 10.0,
        rain_mm: 0.0,
        drone_eggs: 0.0,
        queen_cups: 0.0,
        charged_cells: 0.0,
        capped_queen_cells: 0.0,
        swarmed: 0.0,
        chance_of_swarm: 0.0,
        chance_of_supersedure: 0.0,
        mites_on_bees: 0.0,
        mites_in_cells: 0.0,
        mites_per_100_bees: 0.0,
        mite_fall: 0.0,
        damaged_bees: 0.0,
        virus_load: 0.0,
        mite_growth: 0.0,
        brake: Brake::HerRate,
        queen: QueenState::Laying,
        starving: false,
    }
}

fn season(days: usize, change: impl Fn(usize, &mut DayRecord)) -> Season {
    let days: Vec<DayRecord> = (0..days)
        .map(|index| {
            let mut day = fair_day(index);
            change(index, &mut day);
            day
        })
        .collect();
    // The story reads the days; the colony at the end only has to be there.
    let still_air = Conditions {
        day_length_h: 14.0,
        day_length_change_h: 0.0,
        high_c: 20.0,
        low_c: 10.0,
        mean_c: 15.0,
        nights_c: 10.0,
        ten_days_c: 15.0,
        rain_mm: 0.0,
        flight_hours: 6.0,
        nectar: 0.5,
        pollen: 0.5,
        laying_season: 1.0,
    };
    let parameters = Parameters::default();
    let scenario = Scenario::default_package();
    Season {
        first: FIRST,
        conditions: vec![still_air; days.len()],
        days,
        events: Vec::new(),
        seed: 0,
        mode: Mode::Mean,
        colony: Colony::new(&scenario, &still_air, &parameters).expect("a plain package starts"),
        parameters,
    }
}

/// A made-up package: caged for 3 days, dwindling until day 24, then growing.
fn package() -> Season {
    season(80, |index, day| {
        let brood = index >= 6;
        let young = index >= 24;
        day.adult_bees = if young {
            6_000.0 + 150.0 * (index - 24) as f64
        } else {
            9_840.0 - 160.0 * index as f64
        };
        if index < 3 {
            day.brake = Brake::Caged;
            day.queen = QueenState::Caged;
            day.eggs_laid = 0.0;
        } else {
            day.brake = Brake::EmptyCells;
        }
        if index < 3 {
            day.eggs = 0.0;
        }
        if !brood {
            (day.open_larvae, day.capped_worker) = (0.0, 0.0);
            day.frames_of_brood = 0.0;
        }
        if !young {
            day.emerged = 0.0;
        }
        day.drawn_frames = 0.1 * index as f64;
        day.drawn_cells = 7_000.0 * day.drawn_frames;
        // A fifth of the comb.
        day.honey_kg = 0.6 * day.drawn_frames;
        day.unripe_kg = 0.0;
    })
}

/// A season of the folder `scenarios` on its weather.
fn shipped(name: &str) -> Season {
    let text = std::fs::read_to_string(format!("scenarios/{name}")).expect("it is shipped");
    season_of(&text)
}

/// A season on the record of Seattle.
fn season_of(text: &str) -> Season {
    let (text, _) = text.split_once("[[expect]]").unwrap_or((text, ""));
    let scenario = Scenario::from_toml(text).expect("a sound scenario");
    let (weather, _) = resolve(&scenario, Some(crate::yard::record())).expect("its weather");
    combcast_core::run(&scenario, &weather).expect("it runs")
}

/// Place of a date in a season.
fn place(season: &Season, date: Date) -> i32 {
    combcast_core::calendar::days_between(season.first, date)
}

fn on(season: &Season, index: i32, speech: impl Into<Speech>) -> Story {
    let date = combcast_core::calendar::plus_days(season.first, index);
    story::on(season, date, speech.into()).expect("the day lies in the season")
}

fn told(season: &Season, index: i32) -> String {
    on(season, index, Units::Metric).plain()
}

#[track_caller]
fn says(told: &str, words: &str) {
    assert!(told.contains(words), "expected \"{words}\" in: {told}");
}

#[track_caller]
fn is_silent_about(told: &str, words: &str) {
    assert!(!told.contains(words), "unexpected \"{words}\" in: {told}");
}

#[test]
fn the_first_day_of_a_package_says_what_is_there_and_what_comes() {
    let told = told(&package(), 0);
    says(
        &told,
        "Mon 30 April, day 1. About 9,800 bees, no brood, no comb drawn.",
    );
    says(&told, "The queen is in her cage, to be out about 3 May.");
    says(&told, "First new bees about 24 May.");
    is_silent_about(&told, "Since");
}

#[test]
fn the_day_on_which_the_queen_is_out_says_so() {
    // Caged for most of the day, loose at nightfall.
    let season = season(30, |index, day| {
        if index <= 2 {
            day.brake = Brake::Caged;
        }
        if index < 2 {
            day.queen = QueenState::Caged;
        }
    });
    says(
        &told(&season, 1),
        "The queen is in her cage, to be out about 2 May.",
    );
    says(&told(&season, 2), "The queen came out of her cage today.");
}

#[test]
fn the_low_point_is_told_before_while_and_after() {
    let season = package();
    says(
        &told(&season, 14),
        "Numbers still fall, to 6,000 bees about 24 May.",
    );
    says(
        &told(&season, 22),
        "This is about the lowest point: 6,000 bees on 24 May.",
    );
    says(
        &told(&season, 30),
        "The lowest point is past: about 6,000 bees on 24 May.",
    );
    is_silent_about(&told(&season, 60), "lowest");
}

#[test]
fn a_colony_that_only_grows_has_no_low_point() {
    let season = season(60, |index, day| {
        day.adult_bees = 8_000.0 + 100.0 * index as f64
    });
    for index in 0..60 {
        is_silent_about(&told(&season, index), "lowest");
        is_silent_about(&told(&season, index), "still fall");
    }
}

#[test]
fn since_when_is_true() {
    let season = season(40, |index, day| {
        if index >= 10 {
            day.brake = Brake::Nurses;
        }
    });
    // Day index 10 is Thursday 10 May.
    says(
        &told(&season, 9),
        "From the first day nothing has held the queen back",
    );
    says(
        &told(&season, 10),
        "Today the queen is held back by too few nurse bees",
    );
    says(
        &told(&season, 11),
        "Since yesterday the queen has been held back by too few nurse bees",
    );
    says(
        &told(&season, 14),
        "Since Thursday the queen has been held back",
    );
    says(
        &told(&season, 30),
        "Since 10 May the queen has been held back",
    );
}

#[test]
fn a_brake_that_comes_and_goes_is_told_by_its_days() {
    let season = season(30, |index, day| {
        if index % 3 != 0 {
            day.brake = Brake::Warmth;
        }
    });
    // Of the indices 14 to 20 two are multiples of three, and 18 breaks the run.
    says(
        &told(&season, 20),
        "On 5 of the last 7 days the queen has been held back by the cold: nights down to 10 °C.",
    );
}

#[test]
fn rain_is_given_as_the_reason_where_it_rained() {
    let wet = season(30, |index, day| {
        if index >= 20 {
            day.brake = Brake::Pollen;
            day.pollen_in_kg = 0.0;
            day.rain_mm = 6.0;
        }
    });
    says(
        &told(&wet, 27),
        "too little pollen: none came in for 7 days, rain on 7 of the last 7 days (42 mm).",
    );
    let dry = season(30, |_, day| {
        day.brake = Brake::Pollen;
        day.pollen_in_kg = 0.01;
        day.pollen_index = 0.05;
    });
    says(
        &told(&dry, 27),
        "too little pollen: 70 g came in over 7 days, little is in bloom.",
    );
}

#[test]
fn on_the_first_day_what_came_in_came_today() {
    let first = season(30, |_, day| day.brake = Brake::Pollen);
    says(&told(&first, 0), "too little pollen: 100 g came in today.");
    says(&told(&first, 1), "200 g came in over 2 days");
    says(
        &on(&first, 0, Language::German).plain(),
        "heute kamen 100 g herein",
    );
}

#[test]
fn comb_is_short_because_it_is_full_or_growing_or_without_income() {
    let full = season(30, |_, day| {
        day.brake = Brake::EmptyCells;
        day.honey_kg = 15.0;
    });
    says(
        &told(&full, 20),
        "too few empty cells: honey and syrup fill two thirds of the drawn comb.",
    );
    says(
        &told(&package(), 20),
        "too few empty cells: half a frame drawn in the last 6 days, and she fills it as it comes.",
    );
    let poor = season(30, |_, day| {
        day.brake = Brake::EmptyCells;
        day.nectar_kg = 0.0;
    });
    says(
        &told(&poor, 20),
        "too few empty cells: little nectar, little new comb.",
    );
}

#[test]
fn food_is_told_in_days_and_hunger_by_its_name() {
    let season = season(40, |index, day| {
        day.honey_kg = (5.0 - 0.25 * index as f64).max(0.0);
        day.unripe_kg = 0.0;
        day.starving = day.honey_kg <= 0.0;
    });
    says(
        &told(&season, 4),
        "There is food for about 2 weeks if nothing comes in (4 kg of stores).",
    );
    says(
        &told(&season, 4),
        "Left like this, food runs out about 20 May.",
    );
    says(
        &told(&season, 17),
        "Short of food: 750 g of stores, enough for about 3 days",
    );
    says(
        &told(&season, 25),
        "Hungry: less comes in than they need, and nothing is in store.",
    );
    is_silent_about(&told(&season, 25), "runs out");
}

/// A package that is not fed and has not drawn a cell can starve: story, overview and events name one day.
#[test]
fn hunger_begins_on_one_day_in_story_overview_and_events() {
    let text = include_str!("../scenarios/wet-spring-unfed.toml");
    let (text, _) = text.split_once("[[expect]]").expect("expectations");
    let bare = text.replace("date = 2012-04-30", "date = 2012-04-10");
    let scenario = Scenario::from_toml(&bare).expect("a sound scenario");
    let seattle = BuiltIn::named("seattle").expect("it is built in");
    let record =
        std::fs::read(Path::new("scenarios/weather").join(seattle.file)).expect("the record");
    let (weather, _) = resolve(&scenario, Some(&record)).expect("its weather is there");
    let season = combcast_core::run(&scenario, &weather).expect("it runs");
    let starved = season.events.iter().find(|event| event.kind == "food");
    let first: Date = starved.expect("it starves").date.parse().expect("a date");
    let index = combcast_core::calendar::days_between(season.first, first);
    assert!(season.days[index as usize].drawn_cells < 1.0, "no comb yet");
    says(
        &told(&season, index),
        "Hungry: less comes in than they need",
    );
    is_silent_about(&told(&season, index), "runs out");
    is_silent_about(&told(&season, index - 1), "Hungry");
    let day = Language::English.day_and_month(first, false);
    let whole = overview(&season, Units::Metric.into()).plain();
    says(&whole, "Hungry on ");
    says(&whole, &format!("the first on {day}"));
}

#[test]
fn a_lost_colony_is_told_as_lost_and_nothing_else() {
    let season = season(60, |index, day| {
        day.adult_bees = (4_000.0 - 100.0 * index as f64).max(0.0);
    });
    assert_eq!(
        told(&season, 50),
        "Tue 19 June, day 51. No bees are left: the colony was lost on 9 June."
    );
    says(
        &told(&season, 20),
        "Left like this, the colony is lost about 9 June.",
    );
    says(
        &overview(&season, Units::Metric.into()).plain(),
        "The colony is lost on 9 June.",
    );
}

#[test]
fn winter_is_rest_not_trouble() {
    let season = season(60, |index, day| {
        day.frames_of_brood = 0.0;
        (day.eggs, day.open_larvae, day.capped_worker) = (0.0, 0.0, 0.0);
        (day.eggs_laid, day.rate_of_queen, day.emerged) = (0.0, 0.0, 0.0);
        day.honey_kg = 20.0;
        day.honey_eaten_kg = 0.06;
        if index >= 50 {
            day.frames_of_brood = 0.5;
        }
    });
    let told = told(&season, 10);
    says(&told, "no brood");
    says(&told, "The queen rests: she lays no eggs.");
    says(
        &told,
        "There is food beyond 28 June, the end of this season",
    );
    says(&told, "Brood again about 19 June.");
    is_silent_about(&told, "held back");
}

#[test]
fn us_units_replace_metric_ones() {
    let season = season(30, |_, day| {
        day.brake = Brake::Pollen;
        day.rain_mm = 10.0;
        day.syrup_kg = 0.3;
    });
    let us = on(&season, 20, Units::Us).plain();
    says(&us, "1.5 lb came in over 7 days");
    says(&us, "(2.8 inch)");
    says(&us, "11 lb of stores");
    is_silent_about(&us, "kg");
    is_silent_about(&us, "mm");
    let cold = self::season(30, |_, day| day.brake = Brake::Warmth);
    says(&on(&cold, 20, Units::Us).plain(), "nights down to 50 °F");
}

#[test]
fn dates_have_their_year_where_the_season_runs_over_several() {
    let season = season(400, |_, _| {});
    says(&told(&season, 300), "Sun 24 February 2013, day 301.");
}

#[test]
fn a_date_outside_of_the_season_has_no_story() {
    let season = package();
    assert!(story::on(&season, date(2012, 4, 29), Units::Metric.into()).is_none());
    assert!(story::on(&season, date(2012, 7, 19), Units::Metric.into()).is_none());
    assert!(story::on(&season, date(2012, 7, 18), Units::Metric.into()).is_some());
}

#[test]
fn spans_say_what_they_speak_of() {
    let story = on(&package(), 20, Units::Metric);
    let kind_of = |words: &str| {
        let spans = story.sentences.iter().flatten();
        spans
            .filter(|span| span.text == words)
            .map(|span| span.kind)
            .next()
    };
    assert_eq!(kind_of("Sun 20 May"), Some(Emphasis::Date));
    assert_eq!(kind_of("6,600 bees"), Some(Emphasis::Bees));
    assert_eq!(kind_of("3 frames of brood"), Some(Emphasis::Brood));
    assert_eq!(kind_of("2 frames drawn"), Some(Emphasis::Comb));
    assert_eq!(kind_of("too few empty cells"), Some(Emphasis::Brake));
    assert_eq!(kind_of("about 24 May"), Some(Emphasis::When));
}

#[test]
fn a_german_story_says_what_the_english_one_says() {
    let season = package();
    let german = Speech::from(Language::German);
    let told = on(&season, 20, german).plain();
    says(
        &told,
        "So 20. Mai, Tag 21. Etwa 6.600 Bienen, 3 Waben Brut, 2 Waben ausgebaut.",
    );
    says(&told, "durch zu wenige leere Zellen gebremst");
    says(&told, "Die ersten jungen Bienen um den 24. Mai.");
    let kinds = |story: &Story| -> Vec<Vec<Emphasis>> {
        let of = |spans: &Vec<story::Span>| {
            let mut kinds: Vec<Emphasis> = spans.iter().map(|span| span.kind).collect();
            kinds.retain(|kind| *kind != Emphasis::Plain);
            kinds.sort_by_key(|kind| format!("{kind:?}"));
            kinds
        };
        story.sentences.iter().map(of).collect()
    };
    for index in 0..80 {
        let (english, german) = (
            on(&season, index, Units::Metric),
            on(&season, index, german),
        );
        assert_eq!(kinds(&english), kinds(&german), "{}", german.plain());
    }
}
