//! When treatment comes too late: before winter bees are reared, and after.

use jiff::civil::{Date, date};

use super::protocol::Site;
use super::{Published, Table};
use crate::Error;
use crate::scenario::moves::Treat;
use crate::scenario::{Action, Comb, Mode};
use crate::treatments::Treatment;

/// Colonies in each group, drawn by chance, each with its own load of mites.
const COLONIES: u32 = 24;
/// Fewest bees with which a colony counts as alive in spring.
const ALIVE: f64 = 1500.0;

/// Share of the colonies of a group that are alive in the next spring.
fn alive(site: &Site<'_>, treated_on: Option<Date>) -> Result<f64, Error> {
    let mut living = 0.0;
    for member in 0..COLONIES {
        let mut trial = site
            .trial(date(2013, 5, 1), date(2014, 4, 15), Comb::Drawn, 4)
            .established(12_000.0, 4.0, 12.0)
            .take_honey(date(2013, 8, 1), 30.0);
        // A wash in May finds none to nine mites on 300 bees.
        trial.scenario.start.mites_per_100_bees = Some(0.125 * f64::from(member + 1));
        trial.scenario.mode = Mode::Random;
        trial.scenario.seed = member;
        if let Some(day) = treated_on {
            let strips = Treat {
                with: Treatment::Amitraz,
                days: Some(56),
                resistance: Some(0.0),
            };
            trial = trial.doing(day, Action::Treat(strips));
        }
        let season = trial.run()?;
        if season.days[season.days.len() - 1].adult_bees >= ALIVE {
            living += 1.0;
        }
    }
    Ok(living / f64::from(COLONIES))
}

pub fn check(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let never = alive(site, None)?;
    let august = alive(site, Some(date(2013, 8, 10)))?;
    let october = alive(site, Some(date(2013, 10, 10)))?;
    let row = |published, low, note| Published {
        source: "Amdam et al. 2004: treat before winter bees are reared",
        published,
        range: (low, 1.0),
        unit: "-",
        note,
    };
    table.row(
        "16-22a",
        format!(
            "colonies that August treatment saves and the same in October does not, {}",
            site.name
        ),
        &row(
            "August saves more",
            1.0 / f64::from(COLONIES),
            "24 colonies by chance with 1/8 to 3 mites on 100 bees in May; at least one of them",
        ),
        august - october,
    );
    table.row(
        "16-22b",
        format!(
            "colonies that October treatment saves and no treatment does not, {}",
            site.name
        ),
        &row("late treatment saves fewer colonies, yet some", 0.0, ""),
        october - never,
    );
    Ok(())
}
