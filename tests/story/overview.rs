//! A season as a whole: its turning points, its weeks, its bars.

use combcast_core::queen::Brake;
use combcast_core::story::{Units, overview, sparkline, week_table};
use jiff::civil::date;

use super::{package, says, season};

#[test]
fn the_overview_names_the_turning_points_and_counts_the_brakes() {
    let told = overview(&package(), Units::Metric.into()).plain();
    says(
        &told,
        "Mon 30 April: a start with about 9,800 bees, no brood, no comb drawn.",
    );
    says(&told, "Lowest on 24 May (day 25) with about 6,000 bees.");
    says(&told, "First new bees on 24 May.");
    says(&told, "Back to the starting number on 19 June.");
    says(
        &told,
        "What set the pace of laying, in days: empty cells 77, caged 3.",
    );
}

#[test]
fn weeks_sum_what_flows_and_end_with_what_is_there() {
    let season = season(17, |index, day| {
        day.rain_mm = index as f64;
        day.adult_bees = 1_000.0 + index as f64;
        if index >= 3 {
            day.brake = Brake::Pollen;
        }
    });
    let weeks = week_table(&season);
    assert_eq!(
        weeks.iter().map(|week| week.days).collect::<Vec<_>>(),
        [7, 7, 3]
    );
    assert_eq!(weeks[1].from, date(2012, 5, 7));
    assert_eq!(weeks[1].rain_mm, (7..14).sum::<i32>() as f64);
    assert_eq!(weeks[1].adult_bees, 1_013.0);
    assert_eq!(weeks[2].adult_bees, 1_016.0);
    assert_eq!(weeks[0].brake, Brake::Pollen);
    assert_eq!(weeks[0].eggs_a_day, 1_000.0);
}

#[test]
fn a_sparkline_has_one_bar_for_each_value_from_nothing_to_the_most() {
    assert_eq!(sparkline(&[0.0, 1.0, 4.0, 8.0]), "▁▂▅█");
    assert_eq!(sparkline(&[0.0, 0.0]), "▁▁");
    assert_eq!(sparkline(&[]), "");
}
