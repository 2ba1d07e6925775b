//! A strong colony through the years.

use jiff::civil::{Date, date};

use super::protocol::{Site, Trial};
use super::{Published, Table};
use crate::Error;
use crate::observe::DayRecord;
use crate::scenario::Comb;
use crate::season::Season;

/// A colony of 12,000 bees on 1 May 2012 with room enough, its surplus taken in late summer, to the end of 2015.
pub fn overwintered<'a>(site: &Site<'a>) -> Trial<'a> {
    let mut trial = site
        .trial(date(2012, 5, 1), date(2015, 12, 31), Comb::Drawn, 4)
        .established(12_000.0, 4.0, 12.0);
    for year in 2012..=2015 {
        for (month, day) in [(7, 15), (8, 1), (8, 25)] {
            trial = trial.take_honey(date(year, month, day), 30.0);
        }
    }
    trial
}

fn sum(season: &Season, from: Date, to: Date, value: impl Fn(&DayRecord) -> f64) -> f64 {
    season.days[season.at(from)..=season.at(to)]
        .iter()
        .map(value)
        .sum()
}

fn mean(season: &Season, from: Date, to: Date, value: impl Fn(&DayRecord) -> f64) -> f64 {
    let days = (season.at(to) - season.at(from) + 1) as f64;
    sum(season, from, to, value) / days
}

fn brood(day: &DayRecord) -> f64 {
    day.eggs + day.open_larvae + day.capped_worker
}

pub fn check(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let trial = overwintered(site);
    let season = trial.run()?;
    for year in [2013, 2014] {
        spring(table, site, &season, year);
    }
    laying(table, site, &season);
    food(table, site, &season);
    drones(table, site, &season);
    reared_in_winter(table, site, &trial)?;
    reared_in_autumn(table, site, &trial)
}

fn spring(table: &mut Table, site: &Site<'_>, season: &Season, year: i16) {
    let suffix = year % 100;
    let seeley = |published, low, high, note| Published {
        source: "Seeley 2019",
        published,
        range: (low, high),
        unit: "cells",
        note,
    };
    table.row(
        &format!("06g-{suffix}"),
        format!("brood on 10 January {year}, {}", site.name),
        &seeley(
            "about 100 cells soon after the solstice",
            30.0,
            400.0,
            "an order of magnitude: a third to four times",
        ),
        brood(&season.days[season.at(date(year, 1, 10))]),
    );
    table.row(
        &format!("06h-{suffix}"),
        format!("brood on 20 March {year}, {}", site.name),
        &seeley(
            "more than 1,000 cells by early spring",
            1000.0,
            25_000.0,
            "upper end: what 15,000 bees can rear",
        ),
        brood(&season.days[season.at(date(year, 3, 20))]),
    );
    let bees = |published, source, low, high, note| Published {
        source,
        published,
        range: (low, high),
        unit: "bees",
        note,
    };
    table.row(
        &format!("06i-{suffix}"),
        format!("bees in March {year}, {}", site.name),
        &bees(
            "13,274 ± 1,078 (5,000 to 20,746); 8,000 to 15,000 usual",
            "Harris 2008 (Manitoba)",
            8000.0,
            15_000.0,
            "where it fails: New York's autumn of 2012 was mild, and more bees were reared in it",
        ),
        mean(season, date(year, 3, 1), date(year, 3, 31), |day| {
            day.adult_bees
        }),
    );
    table.row(
        &format!("06j-{suffix}"),
        format!("bees from 25 May to 10 June {year}, {}", site.name),
        &bees(
            "about 30,000 in late spring",
            "Seeley 2019",
            22_000.0,
            38_000.0,
            "",
        ),
        mean(season, date(year, 5, 25), date(year, 6, 10), |day| {
            day.adult_bees
        }),
    );
}

fn laying(table: &mut Table, site: &Site<'_>, season: &Season) {
    let year = &season.days[season.at(date(2013, 1, 1))..=season.at(date(2013, 12, 31))];
    let best = year
        .windows(12)
        .map(|days| days.iter().map(|day| day.eggs_laid).sum::<f64>() / 12.0)
        .fold(0.0, f64::max);
    table.row(
        "08a",
        format!("best 12 days of laying, 2013, {}", site.name),
        &Published {
            source: "Nolan 1925 (from memory)",
            published: "highest 12-day mean 1,587 a day; most colonies up to 1,000 to 1,400",
            range: (1000.0, 1600.0),
            unit: "eggs/d",
            note: "",
        },
        best,
    );
    table.row(
        "08b",
        format!("eggs in 2013, {}", site.name),
        &Published {
            source: "Headrick; extension figures",
            published: "220,000 to 250,000 a year",
            range: (150_000.0, 250_000.0),
            unit: "eggs",
            note: "lower end for a short season",
        },
        year.iter().map(|day| day.eggs_laid).sum(),
    );
}

fn food(table: &mut Table, site: &Site<'_>, season: &Season) {
    let (from, to) = (date(2013, 1, 1), date(2013, 12, 31));
    let seeley = |published, low, high, note| Published {
        source: "Seeley 2019; Seeley & Visscher 1985",
        published,
        range: (low, high),
        unit: "kg",
        note,
    };
    let of = |what: &str| format!("{what}, {}", site.name);
    let id = |letter: &str| format!("10{letter}");
    table.row(
        &id("a"),
        of("honey eaten in 2013"),
        &seeley("60 kg", 36.0, 84.0, "± 40 %"),
        sum(season, from, to, |day| day.honey_eaten_kg),
    );
    table.row(
        &id("b"),
        of("pollen eaten in 2013"),
        &seeley("20 to 30 kg", 12.0, 42.0, "± 40 %"),
        sum(season, from, to, |day| day.pollen_eaten_kg),
    );
    let (from, to) = (date(2012, 10, 15), date(2013, 4, 1));
    table.row(
        &id("c"),
        of("honey eaten from 15 October to 1 April"),
        &seeley("15 to 25 kg", 15.0, 25.0, ""),
        sum(season, from, to, |day| day.honey_eaten_kg),
    );
    table.row(
        &id("d"),
        of("largest pollen store"),
        &Published {
            source: "McLellan 1978",
            published: "2 kg at the peak of brood",
            range: (0.5, 2.2),
            unit: "kg",
            note: "",
        },
        season
            .days
            .iter()
            .map(|day| day.pollen_kg)
            .fold(0.0, f64::max),
    );
}

fn drones(table: &mut Table, site: &Site<'_>, season: &Season) {
    let start = season.at(date(2013, 1, 1));
    let year = &season.days[start..=season.at(date(2013, 12, 31))];
    let first = year
        .iter()
        .position(|day| day.drones > 30.0)
        .map_or(f64::NAN, |day| day as f64 + 1.0);
    let last = year
        .iter()
        .rposition(|day| day.drones > 30.0)
        .map_or(f64::NAN, |day| day as f64 + 1.0);
    let published = |source, published, low, high, unit, note| Published {
        source,
        published,
        range: (low, high),
        unit,
        note,
    };
    let of = |what: &str| format!("{what}, 2013, {}", site.name);
    let id = |letter: &str| format!("14{letter}");
    let most = year.iter().map(|day| day.drones).fold(0.0, f64::max);
    table.row(
        &id("a"),
        of("first day with over 30 drones"),
        &published(
            "Allen 1965: three weeks before swarming",
            "April to May",
            91.0,
            151.0,
            "day of year",
            "",
        ),
        first,
    );
    table.row(
        &id("b"),
        of("last day with over 30 drones"),
        &published(
            "Free & Williams 1975; Flottum",
            "late summer to autumn",
            227.0,
            304.0,
            "day of year",
            "15 August to 31 October",
        ),
        last,
    );
    table.row(
        &id("c"),
        of("most drones"),
        &published("Gruszka 1998", "300 to 1,000", 300.0, 1000.0, "drones", ""),
        most,
    );
    table.row(
        &id("d"),
        of("drones on 15 December"),
        &published("Free & Williams 1975", "none", 0.0, 1.0, "drones", ""),
        season.days[season.at(date(2013, 12, 15))].drones,
    );
}

fn reared_in_winter(table: &mut Table, site: &Site<'_>, trial: &Trial<'_>) -> Result<(), Error> {
    let (season, winter) = trial.run_marking(date(2012, 12, 1), date(2013, 3, 15))?;
    let then = date(2013, 3, 15);
    let age = |day: usize| season.at(then) - day;
    let alive: f64 = winter
        .iter()
        .map(|bees| bees.count * (1.0 - bees.died.iter().take(age(bees.day)).sum::<f64>()))
        .sum();
    table.row(
        "06k",
        format!(
            "bees of 15 March 2013 reared since 1 December, {}",
            site.name
        ),
        &Published {
            source: "Harris 2008 (Manitoba, indoor wintering)",
            published: "34 to 50 %",
            range: (0.33, 0.50),
            unit: "-",
            note: "",
        },
        alive / season.days[season.at(then)].adult_bees,
    );
    Ok(())
}

/// When the bees of midwinter emerged.
fn reared_in_autumn(table: &mut Table, site: &Site<'_>, trial: &Trial<'_>) -> Result<(), Error> {
    let (season, cohorts) = trial.run_marking(date(2012, 7, 1), date(2012, 12, 31))?;
    let then = season.at(date(2013, 1, 1));
    let alive: Vec<(usize, f64)> = cohorts
        .iter()
        .map(|bees| {
            let dead: f64 = bees.died.iter().take(then - bees.day).sum();
            (bees.day, bees.count * (1.0 - dead))
        })
        .collect();
    let all: f64 = alive.iter().map(|(_, bees)| bees).sum();
    let before = |day: usize| -> f64 {
        let earlier = alive.iter().filter(|(emerged, _)| *emerged < day);
        earlier.map(|(_, bees)| bees).sum::<f64>() / all
    };
    let middle = (season.at(date(2012, 7, 1))..then)
        .find(|&day| before(day) >= 0.5)
        .unwrap_or(then);
    let mattila = |published, low, high, unit, note| Published {
        source: "Mattila, Harris & Otis 2001 (from memory)",
        published,
        range: (low, high),
        unit,
        note,
    };
    table.row(
        "06l",
        format!(
            "day on which half of the bees of 1 January 2013 had emerged, {}",
            site.name
        ),
        &mattila(
            "mostly mid-September (Ontario and Manitoba)",
            249.0,
            279.0,
            "day of year",
            "5 September to 5 October: milder autumns than there",
        ),
        (middle - season.at(date(2012, 7, 1))) as f64 + 183.0,
    );
    table.row(
        "06m",
        format!(
            "bees of 1 January 2013 that emerged before 20 August, {}",
            site.name
        ),
        &Published {
            source: "Farrar 1944; Mattila, Harris & Otis 2001 (from memory)",
            published: "winter bees emerge after 20 August, late August to October",
            range: (0.0, 0.15),
            unit: "-",
            note: "next to none; a seventh allowed",
        },
        before(season.at(date(2012, 8, 20))),
    );
    Ok(())
}
