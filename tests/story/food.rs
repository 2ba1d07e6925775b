//! For how long food lasts is told by what the colony eats in the days to come, and in autumn whether it lasts until spring.

use combcast_core::story::{Emphasis, Units};
use combcast_core::words::Language;
use jiff::civil::date;

use super::{is_silent_about, on, place, says, season, shipped, told};

#[test]
fn what_broodless_bees_eat_is_not_stretched_over_the_brood_to_come() {
    // 5 kg at 60 g a day; from day 30 on ten times as much.
    let season = season(60, |index, day| {
        day.honey_eaten_kg = if index < 30 { 0.06 } else { 0.6 };
    });
    says(&told(&season, 5), "There is food for about 4 weeks if");
    // What lies beyond the season is as its last week, unless less was eaten lately.
    let quiet = super::season(30, |index, day| {
        day.honey_eaten_kg = if index < 20 { 0.06 } else { 0.12 };
    });
    says(&told(&quiet, 15), "There is food for about 6 weeks if");
    // Not for longer than can be foreseen.
    let long = super::season(30, |_, day| day.honey_eaten_kg = 0.06);
    says(
        &told(&long, 15),
        "There is food beyond 29 May, the end of this season, if nothing comes in (5 kg of stores).",
    );
    says(
        &on(&long, 15, Language::German).plain(),
        "Das Futter reicht über den 29. Mai, das Ende dieser Saison, hinaus",
    );
}

#[test]
fn autumn_and_winter_say_whether_food_lasts_until_spring() {
    let package = shipped("wet-spring.toml");
    let days = |from, to| place(&package, from)..=place(&package, to);
    for index in days(date(2012, 10, 1), date(2012, 10, 31)) {
        let story = told(&package, index);
        is_silent_about(&story, "There is food for");
        says(&story, "that lasts until spring.");
    }
    let first = place(&package, date(2012, 10, 1));
    says(&told(&package, first), " kg when winter begins, about ");
    let last = place(&package, date(2012, 10, 31));
    is_silent_about(&told(&package, last), "when winter begins");
    says(
        &on(&package, first, Language::German).plain(),
        "Das reicht bis zum Frühling.",
    );
    // The mark is that of lists of jobs: stores to go into winter with.
    let mut strict = package.clone();
    strict.parameters.agenda.winter_stores_kg = 40.0;
    for index in [first, last] {
        let story = on(&strict, index, Units::Metric);
        // The season ends before the winter does.
        says(&story.plain(), " kg less than is usually advised.");
        let mut spans = story.sentences.iter().flatten();
        assert!(spans.any(|span| span.kind == Emphasis::Caution && span.text == "12 kg"));
    }
}

#[test]
fn what_is_eaten_in_winter_is_not_wanted_again_and_spring_ends_it() {
    let treated = shipped("treated.toml");
    let stores = |index: i32| {
        let day = &treated.days[index as usize];
        day.honey_kg + day.unripe_kg
    };
    let (autumn, spring) = (
        place(&treated, date(2012, 11, 1)),
        place(&treated, date(2013, 3, 10)),
    );
    assert!(stores(autumn) > 25.0 && stores(spring) < 25.0);
    for index in autumn..=spring {
        says(&told(&treated, index), "that lasts until spring.");
    }
    // From spring on, what the growing colony eats in the weeks to come.
    let index = place(&treated, date(2013, 4, 5));
    let coming = &treated.days[index as usize + 1..];
    let mut left = stores(index);
    let lasts = coming.iter().position(|day| {
        left -= day.honey_eaten_kg;
        left < 0.0
    });
    let lasts = lasts.expect("it eats that up") as f64;
    let lately = treated.days[index as usize].honey_eaten_kg;
    assert!(1.3 * lasts < stores(index) / lately, "{lasts} days");
    let weeks = (lasts / 7.0).round();
    says(
        &told(&treated, index),
        &format!("There is food for about {weeks} weeks if nothing comes in"),
    );
    // A season that is seen to come short does not last, however much is in store by the rule: food for ten days is kept.
    let mut hungry = treated.clone();
    let late = place(&treated, date(2013, 2, 20)) as usize;
    (hungry.days[late].honey_kg, hungry.days[late].unripe_kg) = (0.5, 0.0);
    hungry.days[late].honey_eaten_kg = 0.2;
    says(
        &told(&hungry, autumn),
        ": 1.5 kg less than they need until spring.",
    );
}
