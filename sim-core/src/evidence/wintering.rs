//! From late summer to spring: the nest draws in, and who comes through the winter.
//!
//! The values are recalled, not read again; they were looked at when constants were set.

use jiff::civil::{Date, date};

use super::mites::mites;
use super::protocol::{Site, Trial};
use super::{Published, Table};
use crate::Error;
use crate::observe::DayRecord;
use crate::scenario::moves::Treat;
use crate::scenario::{Action, Comb, ForageType};
use crate::season::Season;
use crate::treatments::Treatment;

pub fn check(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    late_summer(table, site)?;
    small_clusters(table, site)?;
    with_mites(table, site)?;
    acid_in_the_cold(table, site)
}

fn published(
    source: &'static str,
    published: &'static str,
    range: (f64, f64),
    unit: &'static str,
) -> Published {
    Published {
        source,
        published,
        range,
        unit,
        note: "",
    }
}

/// Mean of ten days around the middle of a month of 2013.
fn mid(season: &Season, month: i8, value: impl Fn(&DayRecord) -> f64) -> f64 {
    let from = season.at(date(2013, month, 10));
    let days = &season.days[from..=from + 10];
    days.iter().map(value).sum::<f64>() / days.len() as f64
}

fn brood(day: &DayRecord) -> f64 {
    day.eggs + day.open_larvae + day.capped_worker
}

/// Worker brood and bees of a strong colony without mites.
fn late_summer(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let season = super::year::overwintered(site).run()?;
    let imdorf = |range: &'static str, (low, high), unit, note| Published {
        note,
        ..published(
            "Imdorf, Ruoff & Fluri 2008 (Switzerland, from memory)",
            range,
            (low, high),
            unit,
        )
    };
    let early = "where it fails: day length alone draws the nest in, a little early, whatever pollen and nectar come in";
    let of = |what: &str| format!("{what} 2013, {}", site.name);
    let rows = [
        (
            "06n",
            "brood in mid-August",
            8,
            "12,000 to 20,000 cells",
            (12_000.0, 20_000.0),
        ),
        (
            "06o",
            "brood in mid-September",
            9,
            "5,000 to 10,000 cells",
            (5_000.0, 10_000.0),
        ),
    ];
    for (id, what, month, said, range) in rows {
        let value = mid(&season, month, brood);
        table.row(id, of(what), &imdorf(said, range, "cells", early), value);
    }
    table.row(
        "06p",
        of("bees in mid-September"),
        &imdorf(
            "12,000 to 20,000",
            (12_000.0, 20_000.0),
            "bees",
            "where it fails: bees of June and July live too long in August, when there is less brood to feed than in Swiss colonies",
        ),
        mid(&season, 9, |day| day.adult_bees),
    );
    Ok(())
}

/// A cluster on a few frames, put away for the winter with food enough.
fn wintering(site: &Site<'_>, bees: f64) -> Result<f64, Error> {
    let season = site
        .trial(date(2013, 10, 15), date(2014, 3, 15), Comb::Drawn, 1)
        .established(bees, 0.0, 15.0)
        .run()?;
    Ok(season.days[season.days.len() - 1].adult_bees / bees)
}

fn small_clusters(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let practice = |said: &'static str, high| {
        published(
            "under 5 frames combine: extension rule; Free & Racey 1968 (from memory)",
            said,
            (0.0, high),
            "-",
        )
    };
    for (id, bees, said, high) in [
        ("06q", 2430.0, "mostly dies", 0.35),
        ("06r", 4860.0, "often dies, and is small at best", 0.7),
    ] {
        table.row(
            id,
            format!(
                "left on 15 March of a cluster of {bees} in October 2013, {}",
                site.name
            ),
            &practice(said, high),
            wintering(site, bees)?,
        );
    }
    Ok(())
}

fn season_with<'a>(site: &Site<'a>, mites_in_may: f64) -> Trial<'a> {
    let mut trial = site
        .trial(date(2013, 5, 1), date(2014, 3, 15), Comb::Drawn, 4)
        .established(14_000.0, 4.0, 12.0)
        .take_honey(date(2013, 8, 10), 25.0);
    trial.scenario.start.mites_per_100_bees = Some(mites_in_may);
    trial
}

/// Bees in March after an October with so many mites on 100 bees, against none.
fn with_mites(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let march = |season: &Season| season.days[season.days.len() - 1].adult_bees;
    let without = march(&season_with(site, 0.0).run()?);
    // What is there in May decides what is there in October: halved until it is met.
    let after = |wanted: f64| -> Result<f64, Error> {
        let (mut low, mut high) = (0.0, 4.0);
        let mut left = f64::NAN;
        for _ in 0..16 {
            let may = f64::midpoint(low, high);
            let season = season_with(site, may).run()?;
            left = march(&season);
            if season.days[season.at(date(2013, 10, 15))].mites_per_100_bees < wanted {
                low = may;
            } else {
                high = may;
            }
        }
        Ok(left / without)
    };
    for (id, wanted, said, range) in [
        (
            "16-26a",
            3.0,
            "hardly a loss under 3 on 100 bees",
            (0.75, 1.0),
        ),
        ("16-26b", 7.0, "danger begins at 6 to 7", (0.35, 0.85)),
    ] {
        table.row(
            id,
            format!(
                "bees in March after {wanted} mites on 100 bees on 15 October, against none, {}",
                site.name
            ),
            &published(
                "Genersch et al. 2010; Liebig 2001 (from memory)",
                said,
                range,
                "-",
            ),
            after(wanted)?,
        );
    }
    Ok(())
}

/// Oxalic acid on a winter cluster, whatever the day's weather.
fn acid_in_the_cold(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let last: Date = date(2014, 1, 5);
    let days = [
        date(2013, 12, 5),
        date(2013, 12, 10),
        date(2013, 12, 15),
        date(2013, 12, 20),
        date(2013, 12, 25),
        last,
    ];
    let untreated = season_with(site, 0.1).run()?;
    for (id, with, what) in [
        ("16-27a", Treatment::OxalicDribble, "dribbled"),
        ("16-27b", Treatment::OxalicVapour, "as vapour"),
    ] {
        let mut least = 1.0_f64;
        for day in days {
            let treat = Action::Treat(Treat {
                with,
                days: None,
                resistance: None,
            });
            let season = season_with(site, 0.1).doing(day, treat).run()?;
            let after = season.at(day) + 2;
            least = least.min(1.0 - mites(&season.days[after]) / mites(&untreated.days[after]));
        }
        table.row(
            id,
            format!(
                "oxalic acid {what} on six days from 5 December to 5 January, least killed, {}",
                site.name
            ),
            &published(
                "Imdorf et al. 1997; Charriere & Imdorf 2002; Radetzki 2001 (from memory)",
                "more than nine in ten without brood, in the cold",
                (0.85, 1.0),
                "-",
            ),
            least,
        );
    }
    Ok(())
}

/// Where winters are mild: the same colony without mites in the desert.
pub fn check_warm(table: &mut Table, site: Site<'_>) -> Result<(), Error> {
    let site = site.with_forage(ForageType::Dryland);
    let season = site
        .trial(date(2009, 2, 1), date(2010, 2, 28), Comb::Drawn, 4)
        .established(15_000.0, 3.0, 12.0)
        .take_honey(date(2009, 7, 15), 30.0)
        .run()?;
    let practice = |said: &'static str, low, high, unit| {
        published(
            "counts of managed colonies in Arizona, DeGrandi-Hoffman and others (from memory)",
            said,
            (low, high),
            unit,
        )
    };
    let on = |day: Date| &season.days[season.at(day)];
    table.row(
        "06s",
        format!("bees on 15 February 2010, {}", site.name),
        &practice("8,000 to 16,000", 7_000.0, 18_000.0, "bees"),
        on(date(2010, 2, 15)).adult_bees,
    );
    table.row(
        "06t",
        format!("brood on 15 December 2009, {}", site.name),
        &Published {
            note: "fails: the model's queen all but stops with the short days, however mild it is; with more laying in mild \
                   weather the bees of temperate autumns wear out and are too few in March",
            ..practice("brood all winter", 1_500.0, 8_000.0, "cells")
        },
        brood(on(date(2009, 12, 15))),
    );
    Ok(())
}
