//! A package that came too late in the year, in two medium boxes: little brood, few bees, a winter and a spring.

use combcast_core::Season;
use combcast_core::story::{Emphasis, Units};
use combcast_core::words::Language;
use jiff::civil::{Date, date};

use super::{is_silent_about, on, place, says, season_of, shipped, told};

const LATE: &str = r#"
name = "A late package"
until = 2013-05-30
place = { name = "Alder Row", latitude = 47.45, elevation_m = 130, forage = "mixed" }
weather = { record = "seattle" }
start = { date = 2012-08-20, mites_per_100_bees = 1, package = { pounds = 3 } }
hive = { box = [{ size = "medium", frames = 8 }, { size = "medium", frames = 8 }] }
feed = [{ from = 2012-08-20, to = 2012-10-05, kind = "2:1", litres = 4, every_days = 4 }]
"#;

fn late(season: &Season, date: Date) -> String {
    told(season, place(season, date))
}

#[test]
fn a_queen_who_came_late_lays_little_for_the_time_of_the_year_and_starts_anew_after_winter() {
    let season = season_of(LATE);
    for day in [date(2012, 9, 20), date(2013, 2, 13)] {
        let story = late(&season, day);
        says(&story, "At this time of the year she lays little: about ");
        is_silent_about(&story, "nothing has held the queen back");
    }
    // Eggs are brood, however few.
    let january = place(&season, date(2013, 1, 8));
    let eggs = season.days[january as usize].eggs;
    assert!((1.0..50.0).contains(&eggs), "{eggs} eggs");
    let story = told(&season, january);
    says(&story, "a few cells of brood");
    says(&story, "The queen hardly lays: ");
    is_silent_about(&story, "no brood");
    is_silent_about(&story, "Brood again");
    says(
        &on(&season, january, Language::German).plain(),
        "ein paar Zellen Brut",
    );
}

#[test]
fn a_colony_that_cannot_take_its_winter_stores_is_told_to_be_too_small() {
    let season = season_of(LATE);
    let small = "too small to take in the stores of a winter, and so to winter alone: unite it";
    for day in [date(2012, 10, 10), date(2012, 11, 15)] {
        says(&late(&season, day), small);
    }
    let story = on(&season, place(&season, date(2012, 10, 10)), Units::Us);
    let mut spans = story.sentences.iter().flatten();
    assert!(spans.any(|span| span.kind == Emphasis::Caution && span.text == "too small"));
    // Before it is time to feed for winter it can still grow, and in winter nobody unites.
    for day in [date(2012, 9, 3), date(2013, 1, 8)] {
        is_silent_about(&late(&season, day), "too small");
    }
    // Ten times the bees take their stores in the weeks that are left.
    let mut strong = season.clone();
    for day in &mut strong.days {
        day.adult_bees *= 10.0;
    }
    is_silent_about(&late(&strong, date(2012, 10, 10)), "too small");
    // So does who has them.
    let package = shipped("wet-spring.toml");
    is_silent_about(&late(&package, date(2012, 10, 10)), "too small");
}

#[test]
fn what_is_advised_is_told_as_that_and_not_once_winter_shows_what_is_needed() {
    let season = season_of(LATE);
    says(
        &late(&season, date(2012, 10, 10)),
        " less than is usually advised, though in this plan it lasts until spring.",
    );
    for day in [date(2012, 11, 15), date(2013, 1, 8), date(2013, 2, 13)] {
        let story = late(&season, day);
        says(&story, " of stores: that lasts until spring.");
        is_silent_about(&story, "less than");
    }
    // What a colony lacks is told before and in winter.
    let mut hungry = season.clone();
    let from = place(&season, date(2013, 2, 1)) as usize;
    for day in &mut hungry.days[from..] {
        (day.honey_kg, day.unripe_kg) = (0.1, 0.0);
    }
    for day in [date(2012, 10, 10), date(2013, 1, 8)] {
        says(&late(&hungry, day), " less than they need until spring.");
    }
}

#[test]
fn brood_in_medium_frames_is_told_as_what_it_would_fill_of_deep_ones() {
    let season = season_of(LATE);
    let may = place(&season, date(2013, 5, 20));
    says(&told(&season, may), "brood to fill ");
    says(&told(&season, may), " deep frames, ");
    says(&on(&season, may, Language::German).plain(), " hohe Waben, ");
    let deep = season_of(&LATE.replace("\"medium\"", "\"deep\""));
    says(&told(&deep, may), " frames of brood, ");
}
