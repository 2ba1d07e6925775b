//! Colonies that are never treated: how long they live.

use jiff::civil::{Date, date};

use super::mites::{light_load, mites, published};
use super::protocol::Site;
use super::{Published, Table};
use crate::Error;
use crate::scenario::{Comb, ForageType};

pub fn check(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    collapse(table, site)?;
    from_a_handful(table, site)
}

/// A package with a hundred mites, never treated.
fn collapse(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let mut trial = site
        .trial(date(2012, 4, 30), date(2015, 5, 31), Comb::Foundation, 4)
        .package(9900.0, 3.0)
        .fed(49);
    for year in 2012..=2014 {
        trial = trial.take_honey(date(year, 8, 10), 30.0);
    }
    trial.scenario.start.mites_per_100_bees = Some(1.0);
    let season = trial.run()?;
    let of = |what: &str| {
        format!(
            "{what}, untreated package with 1 mite on 100 bees, {}",
            site.name
        )
    };
    let dead = season
        .days
        .iter()
        .position(|day| day.adult_bees < 1500.0 && day.mites_per_100_bees > 0.0);
    table.row(
        "16-23a",
        of("days until fewer than 1,500 bees are left"),
        &published(
            "extension.org: untreated colonies die within 1 to 3 years",
            "1 to 3 years",
            250.0,
            1095.0,
            "d",
        ),
        dead.map_or(f64::INFINITY, |day| day as f64),
    );
    let wash = |day: Date| season.days[season.at(day)].mites_per_100_bees;
    table.row(
        "16-23b",
        of("highest October wash before the end"),
        &published(
            "Liebig 2001: danger at 6 to 7; Fries et al. 2006: 19 to 47 in dying colonies",
            "well over 6 on 100 bees",
            6.5,
            120.0,
            "mites",
        ),
        wash(date(2012, 10, 1)).max(wash(date(2013, 10, 1))),
    );
    Ok(())
}

/// A handful of mites in spring, never treated.
fn from_a_handful(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let mut trial = light_load(site);
    // Three on bees, and twice as many in cells.
    trial.scenario.start.mites_per_100_bees = Some(0.022);
    let season = trial.run()?;
    let dead = season
        .days
        .iter()
        .position(|day| day.adult_bees < 1500.0 && mites(day) > 0.0);
    table.row(
        "16-23c",
        format!(
            "years until an untreated colony with 9 mites in May is lost, {}",
            site.name
        ),
        &Published {
            note: "fails: in Finland mites grow 8 to 25 times a year, with brood for less than five months; here about 12 to 15 times, \
                   so that the danger level is passed in the second autumn",
            ..published(
                "Korpela et al. 1992 (Finland)",
                "4 to 5 years from 5 to 8 mites",
                4.0,
                5.0,
                "years",
            )
        },
        dead.map_or(f64::INFINITY, |day| day as f64 / 365.25),
    );
    Ok(())
}

/// Where winters are warm: a handful of mites in January, a year later.
pub fn check_warm(table: &mut Table, site: Site<'_>) -> Result<(), Error> {
    let site = site.with_forage(ForageType::Dryland);
    let (from, to) = (date(2010, 1, 15), date(2011, 1, 14));
    let mut trial = site
        .trial(from, to, Comb::Drawn, 4)
        .established(12_000.0, 2.0, 15.0)
        .take_honey(date(2010, 7, 15), 30.0);
    trial.scenario.start.mites_per_100_bees = Some(0.022);
    let season = trial.run()?;
    let (first, last) = (&season.days[0], &season.days[season.days.len() - 1]);
    table.row(
        "16-09b",
        format!(
            "growth of mites in a year with brood all winter, {}",
            site.name
        ),
        &Published {
            note: "fails: here, too, the model's queen all but stops with the short days from October to January, however warm \
                   it is and whatever pollen comes in; with brood at hand mites would go on",
            ..published(
                "Kraus & Page 1995 (central California); Martin 1998 (from memory)",
                "about 300; up to 800 with brood all year",
                100.0,
                800.0,
                "-",
            )
        },
        mites(last) / mites(first),
    );
    Ok(())
}
