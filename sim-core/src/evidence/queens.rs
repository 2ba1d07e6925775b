//! Queens and swarms: what leaves with a swarm, and when the next queen lays.

use jiff::civil::date;

use super::protocol::Site;
use super::{AN_INPUT, Published, Table};
use crate::Error;
use crate::observe::DayRecord;
use crate::queen::QueenState;
use crate::scenario::{Action, Comb};

/// Late spring: brood of all ages, and weather to mate.
const DAY: jiff::civil::Date = date(2013, 6, 1);

pub fn check(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    swarm(table, site)?;
    emergency(table, site)
}

/// The days from `DAY` on of a strong colony to which something is done on `DAY`.
fn after(site: &Site<'_>, action: Action) -> Result<Vec<DayRecord>, Error> {
    let season = site
        .trial(date(2013, 5, 1), date(2013, 8, 31), Comb::Drawn, 4)
        .established(12_000.0, 4.0, 12.0)
        .doing(DAY, action)
        .run()?;
    Ok(season.days[season.at(DAY)..].to_vec())
}

/// Days until something is so, from the first of these days; infinite if it never is.
fn first(days: &[DayRecord], is_so: impl Fn(&DayRecord) -> bool) -> f64 {
    days.iter()
        .position(is_so)
        .map_or(f64::INFINITY, |day| day as f64)
}

fn swarm(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let days = after(site, Action::LetSwarm(true))?;
    let of = |what: &str| format!("{what}, {}", site.name);
    table.row(
        "15a",
        of("workers that leave with a swarm"),
        &Published {
            source: "Rangel & Seeley 2012",
            published: "mean 0.75",
            range: (0.74, 0.76),
            unit: "-",
            note: AN_INPUT,
        },
        days[0].swarmed / (days[0].swarmed + days[0].adult_bees),
    );
    table.row(
        "15b",
        of("the next queen lays after her own egg was laid"),
        &Published {
            source: "Connor (beeculture.com)",
            published: "28 d at least: 16 to emergence, 7 to mature, 2 to mate, 3 to lay",
            range: (28.0, 45.0),
            unit: "d",
            note: "cells are capped, nine days from the egg, when a swarm leaves; upper end: drone layers come of queens \
                   that are not mated within 3 to 4 weeks",
        },
        first(&days, |day| {
            day.queen == QueenState::Laying && day.eggs_laid >= 1.0
        }) + 9.0,
    );
    Ok(())
}

fn emergency(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let days = after(site, Action::RemoveQueen(true))?;
    let of = |what: &str| format!("{what} after the queen is taken away, {}", site.name);
    let published = |source, published, low, high| Published {
        source,
        published,
        range: (low, high),
        unit: "d",
        note: "",
    };
    table.row(
        "15c",
        of("first emergency cells"),
        &published("Fell & Morse 1984", "12 to 48 hours", 0.5, 2.0),
        first(&days, |day| day.charged_cells >= 1.0),
    );
    table.row(
        "15d",
        of("an emergency queen emerges"),
        &published(
            "derived from Fell & Morse 1984 and a queen's 16 days",
            "day 12 to 15",
            12.0,
            15.0,
        ),
        first(&days, |day| day.queen == QueenState::Virgin),
    );
    let laid = 1 + days[1..]
        .iter()
        .position(|day| day.eggs_laid >= 1.0)
        .unwrap_or(days.len() - 1);
    table.row(
        "15e",
        of("first eggs"),
        &published(
            "derived from Fell & Morse 1984 and Connor",
            "day 24 to 30",
            24.0,
            30.0,
        ),
        laid as f64,
    );
    table.row(
        "15f",
        of("first young workers"),
        &published(
            "derived: 21 days after the eggs",
            "day 45 to 51",
            45.0,
            51.0,
        ),
        laid as f64 + first(&days[laid.min(days.len())..], |day| day.emerged >= 1.0),
    );
    Ok(())
}
