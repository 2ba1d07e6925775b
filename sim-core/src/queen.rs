//! The queen: what she would lay, and the brakes that hold her back.

use serde::Serialize;

use crate::adults::Census;
use crate::forage::Conditions;
use crate::math::{exp, least, most, ramp, unit};
use crate::words::Language;

params! {
    /// Laying and its brakes.
    QueenParameters {
        /// Most eggs that a good queen lays in a day.
        best_rate = 1400.0, "eggs/d", 300.0..=3000.0, Tuned, "highest 12-day mean 1587: Nolan 1925 (from memory)";
        /// Days from release to full laying.
        build_up_d = 7.5, "d", 1.0..=30.0, Assumed, "lays within 1 to 2 days of release: common practice, no source";
        /// Laying left to an unstimulated queen.
        stimulus_floor = 0.0147, "-", 0.0..=0.5, Tuned, "about 100 cells in January: Seeley 2019";
        /// Stimulus of stored pollen, at 600 g and more.
        stimulus_store = 0.119, "-", 0.0..=1.0, Tuned, "stored pollen and winter brood: Jeffree 1956";
        /// Stimulus of fresh pollen that covers the colony's need.
        stimulus_pollen = 1.0, "-", 0.0..=1.0, Tuned, "pollen income drives brood: Allen & Jeffree 1956 (from memory)";
        /// Stimulus of nectar or syrup coming in.
        stimulus_income = 0.234, "-", 0.0..=1.0, Tuned, "a flow or feed sets the queen laying: common practice, no source";
        /// Mean temperature of ten days at which cold begins to hold back laying.
        cold_from_c = 0.0, "°C", -10.0..=20.0, Assumed, "no brood in a tight winter cluster";
        /// Mean temperature of ten days at which only a tenth of laying is left.
        cold_to_c = -20.0, "°C", -40.0..=10.0, Assumed, "no brood in a tight winter cluster";
        /// Eggs a day for each full nurse.
        eggs_per_nurse = 0.608, "eggs/d", 0.05..=2.0, Tuned, "day 59 of Harbo 1988";
        /// Bees tied up by chores that do not grow with the colony.
        fixed_chores = 664.0, "bees", 0.0..=5000.0, Tuned, "best brood per bee at 4,500: Harbo 1986";
        /// Builders taken from nursing for each cell built in a day.
        builders_from_nursing = 0.65, "bees/cell", 0.0..=2.0, Tuned, "same age group";
        /// Pollen for one worker larva from hatching to capping.
        pollen_per_larva_g = 0.125, "g", 0.05..=0.25, Published, "Alfonsus 1933, Haydak 1935, Rosov 1944: 100 to 145 mg (from memory)";
        /// Eggs a day that a nurse can carry for a while from her own body.
        body_protein = 0.0293, "eggs/d", 0.0..=0.2, Tuned, "nurses draw on their own protein";
        /// Days without enough pollen after which that is used up.
        body_protein_lasts_d = 25.0, "d", 1.0..=120.0, Assumed, "rearing without pollen ends within weeks: Haydak 1935 (from memory)";
        /// Share of the free cells that the queen finds in a day.
        cells_found = 0.30, "1/d", 0.05..=1.0, Assumed, "no figure found";
        /// Share of drawn comb fit for brood; the rest is edge.
        brood_comb = 0.85, "-", 0.3..=1.0, Assumed, "edges and corners stay free of brood";
        /// Brood cells that a bee at the surface-free middle of the cluster keeps warm.
        warm_cells = 4.21, "cells/bee", 0.5..=30.0, Tuned, "surface to volume; no figure found";
        /// Laying of a queen in her second full season against her first.
        second_year = 0.80, "-", 0.2..=1.2, Published, "Akyol et al. 2008: 0.60; Greece and Ethiopia about 1";
        /// Laying of a queen in her third full season against her first.
        third_year = 0.60, "-", 0.1..=1.2, Published, "Akyol et al. 2008: 0.45; Ethiopia 0.73";
    }
}

/// What held laying back on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Brake {
    /// Nothing but the queen's own rate for her age, the season and her stimulus.
    HerRate,
    /// Empty cells.
    EmptyCells,
    /// Nurse bees.
    Nurses,
    /// Pollen.
    Pollen,
    /// Sugar: honey, nectar, syrup.
    Food,
    /// Cells that the cluster can keep warm.
    Warmth,
    /// She is in her cage.
    Caged,
    /// There is no laying queen.
    NoQueen,
}

impl Brake {
    /// Every brake, in a fixed order; its place is its code in compact output.
    pub const ALL: [Self; 8] = [
        Self::HerRate,
        Self::EmptyCells,
        Self::Nurses,
        Self::Pollen,
        Self::Food,
        Self::Warmth,
        Self::Caged,
        Self::NoQueen,
    ];

    /// A short name in plain words.
    pub fn words(self, language: Language) -> &'static str {
        language.words().brakes[self as usize]
    }
}

/// The state of the queen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum QueenState {
    /// In her cage.
    Caged,
    /// Loose and mated.
    Laying,
    /// There is only a young queen that has not mated yet.
    Virgin,
    /// There is only a young queen that has mated and does not lay yet.
    Mated,
    /// She never mated, or ran out of sperm: all her eggs are drones.
    DroneLayer,
    /// There is no queen, and workers lay drone eggs.
    LayingWorkers,
    /// Dead or gone.
    None,
}

/// The queen of a colony.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct QueenBee {
    /// Her state.
    pub state: QueenState,
    /// Age, d.
    pub age_d: f64,
    /// Days until she is out of her cage.
    pub caged_for_d: f64,
    /// Days since she was released or began to lay.
    pub laying_for_d: f64,
    /// Laying power against a good queen.
    pub power: f64,
}

impl QueenBee {
    /// One day passes; a caged queen may come out. Returns whether she came out today.
    pub fn live_a_day(&mut self) -> bool {
        self.age_d += 1.0;
        match self.state {
            QueenState::Caged => {
                self.caged_for_d -= 1.0;
                if self.caged_for_d <= 0.0 {
                    self.state = QueenState::Laying;
                    return true;
                }
            }
            QueenState::Laying | QueenState::DroneLayer => self.laying_for_d += 1.0,
            QueenState::Virgin
            | QueenState::Mated
            | QueenState::LayingWorkers
            | QueenState::None => {}
        }
        false
    }

    /// Share of her best that age leaves her, 0 to 1.
    pub fn vigour(&self, p: &QueenParameters) -> f64 {
        let years = self.age_d / 365.0;
        // Her first season and the next spring are her best.
        if years < 1.2 {
            1.0
        } else if years < 2.2 {
            1.0 + (p.second_year - 1.0) * (years - 1.2)
        } else {
            most(
                0.1,
                p.second_year + (p.third_year - p.second_year) * (years - 2.2),
            )
        }
    }
}

/// The limits on laying, worked out side by side every day, eggs a day.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Limits {
    /// The queen's own rate.
    pub queen: f64,
    /// Empty cells.
    pub cells: f64,
    /// Nurses.
    pub nurses: f64,
    /// Pollen.
    pub pollen: f64,
    /// Sugar.
    pub food: f64,
    /// Warmth.
    pub warmth: f64,
}

impl Limits {
    /// The smallest limit and its brake.
    pub fn binding(&self) -> (f64, Brake) {
        let mut least = (self.queen, Brake::HerRate);
        for other in [
            (self.cells, Brake::EmptyCells),
            (self.nurses, Brake::Nurses),
            (self.pollen, Brake::Pollen),
            (self.food, Brake::Food),
            (self.warmth, Brake::Warmth),
        ] {
            if other.0 < least.0 {
                least = other;
            }
        }
        least
    }

    /// Eggs laid: a smooth minimum, a little under the smallest limit where several are close.
    ///
    /// The eighth-power mean of the limits: its root is three square roots, which are the cheapest.
    pub fn smooth_least(&self) -> f64 {
        let inverse_eighth = |x: f64| {
            let inverse = 1.0 / x;
            let fourth = inverse * inverse * inverse * inverse;
            fourth * fourth
        };
        let limits = [
            self.queen,
            self.cells,
            self.nurses,
            self.pollen,
            self.food,
            self.warmth,
        ];
        if limits.iter().any(|&x| x < 0.5) {
            return 0.0;
        }
        let sum: f64 = limits.iter().map(|&x| inverse_eighth(x)).sum();
        1.0 / f64::sqrt(f64::sqrt(f64::sqrt(sum)))
    }
}

/// Natural logarithm of 3,000: a cluster of that size has all of its surface rule.
const LN_3000: f64 = 8.006_367_567_650_246;

/// What the colony offers the queen today.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Support {
    /// Drawn worker cells.
    pub drawn: f64,
    /// Worker brood, cells.
    pub brood: f64,
    /// Cells under honey, nectar and pollen.
    pub store_cells: f64,
    /// Cells built today.
    pub built: f64,
    /// Nurses, mean of the last days, in full nurses.
    pub nurses: f64,
    /// Pollen that came in, mean of five days, g/d.
    pub pollen_income_g: f64,
    /// Stored pollen, g.
    pub pollen_g: f64,
    /// Days in a row on which pollen was short, d.
    pub days_without_pollen: f64,
    /// Sugar of all kinds, g as honey.
    pub sugar_g: f64,
    /// Nectar and syrup coming in, mean of four days, g as honey for each bee.
    pub income_per_bee: f64,
}

/// How far food coming in sets the queen laying, 0 to 1.
fn stimulus(support: &Support, adults: f64, p: &QueenParameters) -> f64 {
    let need = 0.0015 * adults + 5.0;
    unit(
        p.stimulus_floor
            + p.stimulus_store * unit(support.pollen_g / 600.0)
            + p.stimulus_pollen * unit(support.pollen_income_g / need)
            + p.stimulus_income * unit(support.income_per_bee / 0.015),
    )
}

/// Works out every limit on today's laying.
pub fn limits(
    queen: &QueenBee,
    count: &Census,
    support: &Support,
    today: &Conditions,
    p: &QueenParameters,
) -> Limits {
    let adults = most(count.adults(), 1.0);
    let stimulus = stimulus(support, adults, p);
    // The stimulus works on the queen and on her nurses alike; the two multiply to the whole.
    let on_queen = f64::sqrt(stimulus);
    let on_nurses = on_queen;
    let build_up = unit((queen.laying_for_d + 1.0) / p.build_up_d);
    let warm = 0.1 + 0.9 * ramp(today.ten_days_c, p.cold_to_c, p.cold_from_c);
    let own = p.best_rate
        * queen.power
        * queen.vigour(p)
        * today.laying_season
        * build_up
        * warm
        * on_queen;

    let free_nurses = most(
        0.15 * support.nurses,
        support.nurses - p.fixed_chores - p.builders_from_nursing * support.built,
    );
    // A store that is not being refilled is rationed: fifteen days' worth, five when need is covered.
    let need_g = 0.017 * 6.0 * own + 0.002 * support.nurses;
    let ration_d = 15.0 - 10.0 * unit(support.pollen_income_g / most(need_g, 1.0));
    // Stores may fill the edges; brood may not.
    let free_cells = most(
        0.0,
        least(
            p.brood_comb * support.drawn,
            support.drawn - support.store_cells,
        ) - support.brood,
    );
    let surface = exp((LN_3000 - count.ln_adults) / 3.0);
    let kept_warm =
        p.warm_cells * adults * most(0.0, 1.0 - (34.0 - today.nights_c) / 50.0 * surface);
    Limits {
        queen: own,
        cells: p.cells_found * free_cells + least(0.6 * support.built, free_cells),
        nurses: p.eggs_per_nurse * on_nurses * free_nurses,
        pollen: (support.pollen_income_g + support.pollen_g / ration_d) / p.pollen_per_larva_g
            + p.body_protein
                * support.nurses
                * most(
                    0.0,
                    1.0 - support.days_without_pollen / p.body_protein_lasts_d,
                ),
        food: support.sugar_g / 0.18,
        warmth: kept_warm / 21.0,
    }
}
