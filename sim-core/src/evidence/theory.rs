//! Linear theory beside the season: the largest eigenvalue of June's colony, and how mites grew in June.

use jiff::civil::date;

use super::protocol::Site;
use super::{Published, Table};
use crate::Error;
use crate::math::ln;
use crate::mites::{MitesParameters, transition_matrix};

/// Means over June.
#[derive(Debug, Default)]
struct June {
    days: f64,
    bees: f64,
    worker_capped: f64,
    drone_capped: f64,
    death: f64,
    first: Option<f64>,
    last: f64,
}

pub fn check(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let trial = super::mites::light_load(site);
    let start = trial.scenario.start.date.0;
    let day_of = |date| crate::calendar::days_between(start, date);
    let (from, to) = (day_of(date(2013, 6, 1)), day_of(date(2013, 6, 30)));
    let mut june = June::default();
    let mut today = -1;
    trial.watch(|colony, outcome| {
        today += 1;
        if !(from..=to).contains(&today) {
            return;
        }
        june.last = colony.mites.on_bees + colony.stock.mites_in_cells;
        // The first evening is where growth starts from: what was capped that day is not part of it.
        if june.first.is_none() {
            june.first = Some(june.last);
            return;
        }
        june.days += 1.0;
        june.bees += colony.stock.adults.adults();
        june.worker_capped += colony.worker_brood.capped_today();
        for nest in &colony.drone_brood {
            june.drone_capped += nest.brood.capped_today();
        }
        june.death += outcome.rates.house_death;
    })?;
    let p = MitesParameters::default();
    let mean = |sum: f64| sum / june.days;
    let rows = transition_matrix(
        mean(june.bees) * p.bee_g,
        mean(june.worker_capped),
        mean(june.drone_capped),
        12,
        14,
        mean(june.death) + p.death_on_bees,
        20.0,
        &p,
    );
    let simulated = ln(june.last / june.first.unwrap_or(june.last)) / june.days;
    table.row(
        "20a",
        format!(
            "growth of mites in June 2013 against the largest eigenvalue of June's colony, {}",
            site.name
        ),
        &Published {
            source: "linear theory",
            published: "equal where nothing changes",
            range: (0.9, 1.1),
            unit: "-",
            note: "± 10 %: the colony of June is nearly still; equal to a millionth in a frozen one, and to SciPy (tests)",
        },
        simulated / ln(growth(&rows)),
    );
    Ok(())
}

/// The largest eigenvalue of a matrix without negative entries, by taking its powers.
fn growth(rows: &[Vec<f64>]) -> f64 {
    let mut mites = vec![1.0; rows.len()];
    let mut factor = 1.0;
    for _ in 0..2000 {
        let next: Vec<f64> = rows
            .iter()
            .map(|row| row.iter().zip(&mites).map(|(a, b)| a * b).sum())
            .collect();
        factor = next.iter().sum::<f64>() / mites.iter().sum::<f64>();
        mites = next.iter().map(|mites| mites / factor).collect();
    }
    factor
}
