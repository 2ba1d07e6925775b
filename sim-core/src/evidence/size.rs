//! Brood per bee and winter use in colonies of different sizes.

use jiff::civil::{Date, date};

use super::protocol::Site;
use super::{Published, Table};
use crate::Error;
use crate::calendar::plus_days;
use crate::scenario::Comb;

/// The colony sizes of the published trials, bees.
const SIZES: [f64; 5] = [2300.0, 4500.0, 9000.0, 17_000.0, 35_000.0];

/// Brood per bee 19 days after a broodless colony of each size was given a laying queen.
fn brood_per_bee(site: &Site<'_>, start: Date) -> Result<[f64; 5], Error> {
    let mut result = [0.0; 5];
    for (value, bees) in result.iter_mut().zip(SIZES) {
        let boxes = if bees > 10_000.0 { 3 } else { 1 };
        let mut trial = site
            .trial(start, plus_days(start, 19), Comb::Drawn, boxes)
            .established(bees, 0.0, bees * 0.0005)
            .fed(19);
        // Stores in proportion, so that only size differs.
        if let Some(there) = &mut trial.scenario.start.established {
            there.pollen_kg = bees * 0.00003;
        }
        let day = trial.run()?.days[19];
        *value = (day.eggs + day.open_larvae + day.capped_worker) / bees;
    }
    Ok(result)
}

pub fn check(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let spring = brood_per_bee(site, date(2013, 4, 20))?;
    let dearth = brood_per_bee(site, date(2013, 8, 1))?;
    let harbo = |published, range, unit, note| Published {
        source: "Harbo 1986",
        published,
        range,
        unit,
        note,
    };
    let best = |values: &[f64; 5]| {
        let k = (0..5)
            .max_by(|&a, &b| values[a].total_cmp(&values[b]))
            .unwrap_or(0);
        SIZES[k]
    };
    let of = |what: &str| format!("{what}, {}", site.name);
    table.row(
        "09a",
        of("size with most brood per bee, spring"),
        &harbo(
            "4,500 of 2,300 / 4,500 / 9,000 / 17,000 / 35,000; overall 9,000",
            (4500.0, 9000.0),
            "bees",
            "the trial names both: 4,500 in one series, 9,000 over all",
        ),
        best(&spring),
    );
    table.row(
        "09b",
        of("size with most brood per bee, August dearth"),
        &harbo(
            "9,000",
            (4500.0, 9000.0),
            "bees",
            "9,000 in the dearth, 4,500 in another series",
        ),
        best(&dearth),
    );
    table.row(
        "09c",
        of("brood per bee, 35,000 against the best size, spring"),
        &harbo("declining above 4,500", (0.0, 0.8), "-", ""),
        spring[4] / spring.iter().copied().fold(0.0, f64::max),
    );
    table.row(
        "Q11",
        of("brood per bee after 19 days, 9,000 bees, spring"),
        &Published {
            source: "Harbo 1993 (Louisiana, winter)",
            published: "0.34 ± 0.20 crowded, 0.72 ± 0.31 uncrowded",
            range: (0.14, 1.34),
            unit: "cells/bee",
            note: "lower end one, upper end two standard deviations off: winter bees of Louisiana rear less than spring bees",
        },
        spring[2],
    );
    for (letter, bees, low, high, published) in [
        ("a", 4400.0, 5.2, 8.2, "6.7 ± 1.5 mg at 4,400 bees"),
        ("b", 8900.0, 2.8, 6.2, "4.5 ± 1.7 mg at 8,900 bees"),
        ("c", 34_000.0, 3.5, 4.9, "4.2 ± 0.7 mg at 34,000 bees"),
    ] {
        table.row(
            &format!("13{letter}"),
            of(&format!(
                "honey used by a bee in a day, no brood, {bees} bees"
            )),
            &Published {
                source: "Harbo 1983",
                published,
                range: (low, high),
                unit: "mg",
                note: "one standard deviation",
            },
            broodless_use(site, bees)?,
        );
    }
    Ok(())
}

/// Honey used by a bee in a day over three mild weeks without brood, mg.
fn broodless_use(site: &Site<'_>, bees: f64) -> Result<f64, Error> {
    let start = date(2013, 10, 20);
    let mut trial = site
        .trial(start, plus_days(start, 23), Comb::Drawn, 3)
        .established(bees, 0.0, 15.0);
    trial.scenario.start.queen.laying_power = 0.0;
    let days = trial.run()?.days;
    let used: f64 = days.iter().map(|day| day.honey_eaten_kg).sum();
    let bee_days: f64 = days.iter().map(|day| day.adult_bees).sum();
    Ok(used * 1e6 / bee_days)
}
