//! Eggs, larvae and pupae by day of age, kept for each place where they lie.

use crate::math::{most, sum, unit};

/// Most days that a brood nest keeps apart; the longest drone development fits in.
pub const MOST_DAYS: usize = 28;

params! {
    /// Eggs, larvae and pupae.
    BroodParameters {
        /// Days as a worker egg.
        worker_egg_d = 3.0, "d", 2.0..=4.0, Published, "Winston 1987 (from memory)";
        /// Days as an open worker larva.
        worker_larva_d = 6.0, "d", 4.0..=8.0, Published, "Winston 1987 (from memory); 5 gives the 20 days of Fukuda & Sakagami 1968";
        /// Days as a capped worker.
        worker_capped_d = 12.0, "d", 10.0..=15.0, Published, "Winston 1987 (from memory)";
        /// Days as a drone egg.
        drone_egg_d = 3.0, "d", 2.0..=4.0, Published, "Winston 1987 (from memory)";
        /// Days as an open drone larva.
        drone_larva_d = 7.0, "d", 5.0..=8.0, Published, "Winston 1987: 6.5 (from memory); a whole day here, 24 in all";
        /// Days as a capped drone.
        drone_capped_d = 14.0, "d", 12.0..=15.0, Published, "Winston 1987: 14.5 (from memory); 24 in all";
        /// Share of eggs that hatch.
        egg_survival = 0.942, "-", 0.0..=1.0, Published, "Fukuda & Sakagami 1968";
        /// Share of open larvae that are capped.
        larva_survival = 0.917, "-", 0.0..=1.0, Published, "Fukuda & Sakagami 1968";
        /// Share of capped brood that emerges.
        capped_survival = 0.985, "-", 0.0..=1.0, Published, "Fukuda & Sakagami 1968";
        /// Daily survival of larvae under three days old when pollen has failed for five days.
        dearth_survival = 0.55, "1/d", 0.0..=1.0, Assumed, "that they are eaten: Schmickl & Crailsheim 2001; the rate is assumed";
        /// Share of open larvae lost in a day without any food.
        starving_loss = 0.35, "1/d", 0.0..=1.0, Assumed, "no figure found";
    }
}

/// Days spent in each stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stages {
    /// Days as egg.
    pub egg: usize,
    /// Days as open larva.
    pub larva: usize,
    /// Days capped.
    pub capped: usize,
}

impl Stages {
    /// Worker stages of these parameters; part days are rounded.
    pub fn worker(p: &BroodParameters) -> Self {
        Self::whole(p.worker_egg_d, p.worker_larva_d, p.worker_capped_d)
    }

    /// Drone stages of these parameters; part days are rounded.
    pub fn drone(p: &BroodParameters) -> Self {
        Self::whole(p.drone_egg_d, p.drone_larva_d, p.drone_capped_d)
    }

    fn whole(egg: f64, larva: f64, capped: f64) -> Self {
        let days = |x: f64| libm::round(x) as usize;
        Self {
            egg: days(egg),
            larva: days(larva),
            capped: days(capped),
        }
    }

    /// Days from laying to emergence.
    pub fn total(self) -> usize {
        self.egg + self.larva + self.capped
    }

    /// Days from laying to capping.
    pub fn open(self) -> usize {
        self.egg + self.larva
    }
}

/// Brood of one kind in one place: cells by day of age, 0 = laid today.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Brood {
    /// Cells by age in days since laying.
    pub cells: [f64; MOST_DAYS],
    /// Mother mites in the cells of each age; none before capping.
    pub mothers: [f64; MOST_DAYS],
    /// Length of the stages.
    pub stages: Stages,
    /// Whether mites ever went into its cells: until then nobody looks for them.
    infested: bool,
}

/// A count of the brood in one place.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct BroodCount {
    /// Cells with eggs.
    pub eggs: f64,
    /// Cells with open larvae.
    pub larvae: f64,
    /// All cells with brood.
    pub all: f64,
    /// Mother mites in all cells.
    pub mites: f64,
}

impl BroodCount {
    /// Capped cells.
    pub fn capped(&self) -> f64 {
        // What is neither egg nor larva; a trace of rounding is no brood.
        most(0.0, self.all - self.eggs - self.larvae)
    }
}

impl Brood {
    /// No brood yet.
    pub fn none(stages: Stages) -> Self {
        Self {
            cells: [0.0; MOST_DAYS],
            mothers: [0.0; MOST_DAYS],
            stages,
            infested: false,
        }
    }

    /// Counts cells and mites.
    pub fn count(&self) -> BroodCount {
        BroodCount {
            eggs: self.eggs(),
            larvae: self.larvae(),
            all: self.all(),
            mites: self.mites(),
        }
    }

    /// Cells with eggs.
    pub fn eggs(&self) -> f64 {
        self.cells[..self.stages.egg].iter().sum()
    }

    /// Cells with open larvae.
    pub fn larvae(&self) -> f64 {
        self.cells[self.stages.egg..self.stages.open()].iter().sum()
    }

    /// Capped cells.
    pub fn capped(&self) -> f64 {
        self.count().capped()
    }

    /// All cells with brood.
    pub fn all(&self) -> f64 {
        sum(&self.cells)
    }

    /// Mother mites in all cells.
    pub fn mites(&self) -> f64 {
        if self.infested {
            sum(&self.mothers)
        } else {
            0.0
        }
    }

    /// Cells that were capped today, after [`Brood::age_one_day`].
    pub fn capped_today(&self) -> f64 {
        self.cells[self.stages.open()]
    }

    /// Mother mites go into the cells that were capped today.
    pub fn take_in(&mut self, mothers: f64) {
        self.take_in_at(self.stages.open(), mothers);
    }

    /// Mother mites are in cells of this age.
    pub fn take_in_at(&mut self, age: usize, mothers: f64) {
        self.mothers[age] += mothers;
        self.infested |= mothers > 0.0;
    }

    /// Takes everything out: what was in the comb when it is cut or dies.
    pub fn clear(&mut self) {
        self.cells.fill(0.0);
        self.mothers.fill(0.0);
        self.infested = false;
    }

    /// All but those who `died` grow a day older; returns those who emerge.
    #[must_use]
    pub fn age_one_day(&mut self, died: &[f64; MOST_DAYS]) -> Emergence {
        let ripe = self.stages.total();
        move_up(&mut self.cells, died);
        let cells = std::mem::take(&mut self.cells[ripe]);
        let mut mothers = 0.0;
        if self.infested {
            move_up(&mut self.mothers, &[0.0; MOST_DAYS]);
            mothers = std::mem::take(&mut self.mothers[ripe]);
        }
        Emergence { cells, mothers }
    }
}

/// Moves what is left of each day of age to the next; nothing is as old as the last.
fn move_up(ages: &mut [f64; MOST_DAYS], gone: &[f64; MOST_DAYS]) {
    let mut younger = 0.0;
    for (here, gone) in ages.iter_mut().zip(gone) {
        (*here, younger) = (younger, *here - gone);
    }
}

/// Brood that emerges on a day, with the mites of its cells.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Emergence {
    /// Cells whose brood emerges.
    pub cells: f64,
    /// Mother mites in them.
    pub mothers: f64,
}

/// Probability of dying today, by day of age.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BroodRisk {
    /// The risk of an ordinary day, by day of age; each stage's loss is spread evenly over it.
    pub risk: [f64; MOST_DAYS],
    stages: Stages,
}

/// What brood meets on one day beyond the ordinary risks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hardship {
    /// Share of the day's food that was lacking, 0 to 1.
    pub food_lacking: f64,
    /// Pollen has failed for five days and more.
    pub pollen_failed: bool,
}

impl BroodRisk {
    /// Daily risks that multiply to the stage survivals.
    pub fn new(stages: Stages, p: &BroodParameters) -> Self {
        let daily =
            |survival: f64, days: usize| 1.0 - crate::math::pow(survival, 1.0 / days as f64);
        let mut risk = [0.0; MOST_DAYS];
        risk[..stages.egg].fill(daily(p.egg_survival, stages.egg));
        risk[stages.egg..stages.open()].fill(daily(p.larva_survival, stages.larva));
        risk[stages.open()..stages.total()].fill(daily(p.capped_survival, stages.capped));
        Self { risk, stages }
    }

    /// The risks of a hard day.
    pub fn under(&self, hardship: Hardship, p: &BroodParameters) -> [f64; MOST_DAYS] {
        let mut risk = self.risk;
        let fed = 1.0 - p.starving_loss * unit(hardship.food_lacking);
        for (age, risk) in risk[self.stages.egg..self.stages.open()]
            .iter_mut()
            .enumerate()
        {
            let spared = if hardship.pollen_failed && age < 3 {
                p.dearth_survival
            } else {
                1.0
            };
            *risk = 1.0 - (1.0 - *risk) * fed * spared;
        }
        risk
    }
}
