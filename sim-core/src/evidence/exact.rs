//! Checks that need no season: stage survival, wax, syrup, published equations.

use super::{AN_INPUT, NOT_THE_MODEL, Published, Table};
use crate::Parameters;
use crate::brood::{Brood, BroodRisk, MOST_DAYS, Stages};
use crate::syrup::{
    ONE_TO_ONE, SUGAR_IN_HONEY, TWO_TO_ONE, density, litres_from_a_litre_of_water,
    sugar_g_per_litre,
};

pub fn check(table: &mut Table) {
    stage_survival(table);
    wax(table);
    syrup(table);
    khoury(table);
}

/// A thousand eggs followed to emergence.
fn stage_survival(table: &mut Table) {
    let p = Parameters::default();
    let stages = Stages::worker(&p.brood);
    let risk = BroodRisk::new(stages, &p.brood).risk;
    let mut brood = Brood::none(stages);
    brood.cells[0] = 1000.0;
    let mut counts = Vec::new();
    loop {
        for (cells, risk) in brood.cells.iter_mut().zip(&risk) {
            *cells *= 1.0 - risk;
        }
        let emerged = brood.age_one_day(&[0.0; MOST_DAYS]).cells;
        if emerged > 0.0 {
            counts.push(emerged);
            break;
        }
        counts.push(brood.all());
    }
    let published = |published, percent: f64| Published {
        source: "Fukuda & Sakagami 1968",
        published,
        range: (percent - 0.1, percent + 0.1),
        unit: "%",
        note: "an input: shows that the daily rates multiply to the published shares",
    };
    table.row(
        "02a",
        "eggs that hatch",
        &published("94.2 %", 94.2),
        counts[stages.egg - 1] / 10.0,
    );
    table.row(
        "02b",
        "eggs that are capped",
        &published("86.4 %", 86.4),
        counts[stages.open() - 1] / 10.0,
    );
    table.row(
        "02c",
        "eggs that emerge",
        &published("85.1 %", 85.1),
        counts[stages.total() - 1] / 10.0,
    );
}

fn wax(table: &mut Table) {
    let p = Parameters::default().comb;
    // 11.8 mg of wax in a cell: 2.6 lb for 100,000 cells.
    let ratio = p.honey_per_cell_g / 0.0118;
    table.row(
        "11a",
        "honey for wax",
        &Published {
            source: "Whitcomb 1946",
            published: "8.4 : 1 (6.66 to 8.80)",
            range: (6.66, 8.80),
            unit: "-",
            note: AN_INPUT,
        },
        ratio,
    );
    table.row(
        "11b",
        "sugar to draw ten deep frames from nothing",
        &Published {
            source: "derived from Whitcomb 1946 and 2.6 lb of wax for 100,000 cells",
            published: "15 lb of honey: 5.6 kg of sugar",
            range: (4.4, 5.9),
            unit: "kg",
            note: "6.66 to 8.80 honey for 0.83 kg of wax, times 0.82",
        },
        10.0 * p.deep_cells * p.honey_per_cell_g * SUGAR_IN_HONEY / 1000.0,
    );
}

fn syrup(table: &mut Table) {
    let exact = |source, published, value: f64, within: f64, unit| Published {
        source,
        published,
        range: (value - within, value + within),
        unit,
        note: "",
    };
    let icumsa = "ICUMSA 1990; CRC table";
    table.row(
        "12a",
        "density of 1:1 syrup at 20 °C",
        &exact(icumsa, "1.2296", 1.2296, 1e-3, "g/cm³"),
        density(ONE_TO_ONE),
    );
    table.row(
        "12b",
        "density of 2:1 syrup at 20 °C",
        &exact(icumsa, "1.3267", 1.3267, 1e-3, "g/cm³"),
        density(TWO_TO_ONE),
    );
    table.row(
        "12c",
        "density at 66 % sugar",
        &exact("CRC table (from memory)", "1.3224", 1.3224, 1e-3, "g/cm³"),
        density(0.66),
    );
    table.row(
        "12d",
        "density at 10 % sugar",
        &exact("CRC table (from memory)", "1.0381", 1.0381, 1e-3, "g/cm³"),
        density(0.10),
    );
    table.row(
        "12e",
        "sugar in a litre of 1:1",
        &exact("derived", "614.8 g", 614.8, 0.6, "g"),
        sugar_g_per_litre(ONE_TO_ONE),
    );
    table.row(
        "12f",
        "sugar in a litre of 2:1",
        &exact("derived", "884.4 g", 884.4, 0.9, "g"),
        sugar_g_per_litre(TWO_TO_ONE),
    );
    let litres = litres_from_a_litre_of_water;
    table.row(
        "12g",
        "1:1 from a gallon of water",
        &exact("derived", "1.62 gallons", 1.62, 0.01, "gal"),
        litres(ONE_TO_ONE),
    );
    table.row(
        "12h",
        "2:1 from a gallon of water",
        &exact("derived", "2.26 gallons", 2.26, 0.01, "gal"),
        litres(TWO_TO_ONE),
    );
    let pounds = sugar_g_per_litre(TWO_TO_ONE) * crate::syrup::LITRES_PER_GALLON
        / SUGAR_IN_HONEY
        / (1000.0 * crate::syrup::KG_PER_POUND);
    table.row(
        "12i",
        "stores from a gallon of 2:1, nothing lost",
        &exact("derived", "9.0 lb", 9.0, 0.05, "lb"),
        pounds,
    );
}

/// The published equations of Khoury, Myerscough & Barron 2011, as an oracle.
///
/// House bees `H`, foragers `F`: eclosion `L N / (w + N)`, recruitment `alpha - sigma F / N`, forager death `m`.
mod oracle {
    const LAYING: f64 = 2000.0;
    const HALF: f64 = 27_000.0;
    const ALPHA: f64 = 0.25;
    const SIGMA: f64 = 0.75;

    /// Foragers for each house bee at equilibrium.
    fn ratio(death: f64) -> f64 {
        let b = ALPHA / death - SIGMA / death - 1.0;
        0.5 * (b + f64::sqrt(b * b + 4.0 * ALPHA / death))
    }

    /// Adults at equilibrium; negative where no colony holds itself.
    pub fn adults(death: f64) -> f64 {
        let j = ratio(death);
        let foragers = LAYING / death - HALF * j / (1.0 + j);
        foragers * (1.0 + 1.0 / j)
    }

    /// The forager death rate above which no colony holds itself, 1/d.
    pub fn threshold() -> f64 {
        let (rate, root) = (
            LAYING / HALF,
            f64::sqrt((ALPHA - SIGMA) * (ALPHA - SIGMA) + 4.0 * LAYING * SIGMA / HALF),
        );
        rate / 2.0 * (ALPHA + SIGMA + root) / (ALPHA - rate)
    }

    /// Adults after `days` from 16,000 house bees and 8,000 foragers, by fourth-order Runge-Kutta.
    pub fn adults_after(days: f64, death: f64) -> f64 {
        let slope = |house: f64, foragers: f64| {
            let all = house + foragers;
            let recruits = house * (ALPHA - SIGMA * foragers / all);
            (
                LAYING * all / (HALF + all) - recruits,
                recruits - death * foragers,
            )
        };
        let step = 0.01;
        let (mut house, mut foragers) = (16_000.0, 8_000.0);
        for _ in 0..libm::round(days / step) as usize {
            let a = slope(house, foragers);
            let b = slope(house + step / 2.0 * a.0, foragers + step / 2.0 * a.1);
            let c = slope(house + step / 2.0 * b.0, foragers + step / 2.0 * b.1);
            let d = slope(house + step * c.0, foragers + step * c.1);
            house += step / 6.0 * (a.0 + 2.0 * b.0 + 2.0 * c.0 + d.0);
            foragers += step / 6.0 * (a.1 + 2.0 * b.1 + 2.0 * c.1 + d.1);
        }
        house + foragers
    }
}

fn khoury(table: &mut Table) {
    let published = |published, value: f64, within: f64, unit| Published {
        source: "Khoury, Myerscough & Barron 2011 (equations from memory)",
        published,
        range: (value - within, value + within),
        unit,
        note: NOT_THE_MODEL,
    };
    table.row(
        "05a",
        "published equations: forager death that no colony survives",
        &published("0.355 a day", 0.3552, 0.0005, "1/d"),
        oracle::threshold(),
    );
    table.row(
        "05b",
        "published equations: adults at equilibrium, forager death 0.24",
        &published("8,458", 8458.0, 5.0, "bees"),
        oracle::adults(0.24),
    );
    table.row(
        "05c",
        "published equations: adults after 50 days, forager death 0.40",
        &published("5,382", 5382.0, 5.0, "bees"),
        oracle::adults_after(50.0, 0.40),
    );
}
