//! Drone comb as a trap for mites: what is in it, what pulling it does in time and too late.

use jiff::civil::{Date, date};

use super::mites::{mites, published};
use super::protocol::{Site, Trial};
use super::{Published, Table};
use crate::Error;
use crate::calendar::plus_days;
use crate::scenario::moves::{At, NewFrame, Which};
use crate::scenario::{Action, Comb};
use crate::season::Season;

/// A strong colony in two deep boxes of drawn comb and one to grow into, with the mites of an ordinary spring.
///
/// Half a mite on 100 bees is the mean of commercial colonies in Ontario in May (provincial survey, 2015).
fn colony<'a>(site: &Site<'a>) -> Trial<'a> {
    let mut trial = site
        .trial(date(2013, 4, 15), date(2013, 9, 1), Comb::Drawn, 3)
        .established(12_000.0, 4.0, 12.0)
        .take_honey(date(2013, 7, 15), 30.0);
    trial.scenario.start.mites_per_100_bees = Some(0.48);
    trial
}

/// Instead of the outermost frame, where no brood goes with it that the colony without the drone frame keeps.
const PLACE: At = At {
    in_box: 1,
    place: 1,
};

fn drone_frame(comb: Comb) -> Action {
    Action::GiveFrame(NewFrame {
        comb,
        at: Some(PLACE),
        replace: true,
    })
}

fn pull() -> Action {
    Action::TakeDroneFrame(Which::default())
}

/// Swaps the drone frame for an empty drawn one so many times, every so many days from a date.
fn swapped<'a>(mut trial: Trial<'a>, from: Date, every: i32, times: i32) -> Trial<'a> {
    trial = trial.doing(from, drone_frame(Comb::DrawnDroneFrame));
    for time in 1..=times {
        let day = plus_days(from, every * time);
        trial = trial.doing(day, Action::SwapDroneFrames(Which::default()));
    }
    trial
}

pub fn check(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    in_the_cells(table, site)?;
    window(table, site)?;
    season_long(table, site)
}

/// Mites in drone and worker cells when drone cells are a tenth to a seventh of all that are capped.
fn in_the_cells(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let trial = colony(site).doing(date(2013, 5, 10), drone_frame(Comb::DrawnDroneFrame));
    let mut nearest = (f64::INFINITY, 0.0, 0.0);
    trial.watch(|colony, _| {
        let (mut cells, mut mothers) = (0.0, 0.0);
        for nest in &colony.drone_brood {
            cells += nest.brood.capped();
            mothers += nest.brood.mites();
        }
        let worker = &colony.worker_brood;
        let off = (cells / (cells + worker.capped()) - 0.14).abs();
        if off < nearest.0 && mothers > 0.0 {
            let all = colony.mites.on_bees + mothers + worker.mites();
            let in_each = (mothers / cells) / (worker.mites() / worker.capped());
            nearest = (off, mothers / all, in_each);
        }
    })?;
    let source = "Al Toufailia et al. (towards integrated control of varroa 3)";
    table.row(
        "16-06a",
        format!(
            "mites in drone cells when these are 14 % of all capped cells, of all mites, {}",
            site.name
        ),
        &Published {
            note: "44 %, and a little to either side; where it is over, drone cells have just been capped together, and mites \
                   went into them at the same time",
            ..published(source, "44 %", 0.40, 0.50, "-")
        },
        nearest.1,
    );
    table.row(
        "16-06b",
        format!(
            "mites in a drone cell for each in a worker cell, {}",
            site.name
        ),
        &published(
            "Fuchs 1990; Boot et al. 1995; Al Toufailia et al.",
            "8.3; 11.6; 13",
            6.0,
            13.0,
            "-",
        ),
        nearest.2,
    );
    Ok(())
}

fn at(season: &Season, day: Date) -> f64 {
    mites(&season.days[season.at(day)])
}

/// A drawn drone frame put in on 10 May, pulled on the day that it is capped, and days too late.
fn window(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let put_in = date(2013, 5, 10);
    let end = date(2013, 6, 30);
    let with = |days: i32| {
        colony(site)
            .doing(put_in, drone_frame(Comb::DrawnDroneFrame))
            .doing(plus_days(put_in, days), pull())
    };
    let without = at(&colony(site).run()?, end);
    table.row(
        "17a",
        format!(
            "mites at the end of June, drone frame pulled after 21 days, against no frame, {}",
            site.name
        ),
        &Published {
            note: "derived: what is capped goes out with its mites before day 24",
            ..published("drone biology", "fewer", 0.0, 0.95, "-")
        },
        at(&with(21).run()?, end) / without,
    );
    table.row(
        "17b",
        format!("the same, pulled after 31 days, {}", site.name),
        &Published {
            note: "derived: a drone cell gives twice the daughters of a worker cell, and a frame that is laid up within days \
                   empties within days",
            ..published("drone biology", "more", 1.02, 5.0, "-")
        },
        at(&with(31).run()?, end) / without,
    );
    Ok(())
}

/// Frames swapped from mid-April to mid-July.
fn season_long(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let from = date(2013, 4, 16);
    let control = colony(site).run()?;
    let swapped = swapped(colony(site), from, 24, 4).run()?;
    let mut removed: Vec<f64> = swapped
        .events
        .iter()
        .filter_map(|event| event.figures.get("mites_removed").copied())
        .collect();
    removed.sort_by(f64::total_cmp);
    let median = match removed.len() {
        0 => 0.0,
        n => f64::midpoint(removed[(n - 1) / 2], removed[n / 2]),
    };
    table.row(
        "17c",
        format!(
            "median of mites in a drone frame, four pulled from April to July, {}",
            site.name
        ),
        &Published {
            note: "half to twice the median: what those colonies carried was not published; here 1 mite on 200 bees in mid-April",
            ..published(
                "Odemer et al. 2022",
                "71.5, 262 frames",
                35.75,
                143.0,
                "mites",
            )
        },
        median,
    );
    let august = date(2013, 8, 15);
    table.row(
        "16-20a",
        format!(
            "fewer mites in mid-August after four drone frames, against none, {}",
            site.name
        ),
        &Published {
            note: "fails: a deep frame of 3,000 drone cells takes a third to a half of all mites at each cut, as one cycle did for \
                   Al Toufailia et al., and four of these multiply to nine tenths; trials cut smaller pieces, and hives \
                   beside them brought mites back. With half of the cells the row passes, and one cycle takes too few",
            ..published(
                "Charriere et al. 2003 (from memory and second-hand)",
                "71 to 75 % fewer with 4 to 6 cuts; 40 to 75 %",
                0.40,
                0.75,
                "-",
            )
        },
        1.0 - at(&swapped, august) / at(&control, august),
    );
    let bees = |season: &Season| season.days[season.at(august)].adult_bees;
    table.row(
        "16-20b",
        format!("bees in mid-August, the same against none, {}", site.name),
        &published(
            "Charriere et al. 2003; Calderone 2005",
            "no effect on bees",
            0.9,
            1.2,
            "-",
        ),
        bees(&swapped) / bees(&control),
    );
    Ok(())
}
