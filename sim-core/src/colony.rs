//! The colony: everything that is carried from one day to the next, and nothing else.

use crate::adults::{Adults, Census, census};
use crate::brood::{Brood, Stages};
use crate::comb::Frames;
use crate::forage::Conditions;
use crate::math::{least, ln, most, unit};
use crate::mites::Mites;
use crate::moves::Beekeeping;
use crate::queen::{QueenBee, QueenState};
use crate::scenario::{Established, Scenario};
use crate::stores::Stores;
use crate::succession::Succession;
use crate::syrup::KG_PER_POUND;
use crate::{Error, Parameters};

/// Bees in a pound, as the trade counts them: 9,900 in three pounds (common practice, no source:
/// 3,300 to 3,500).
pub const BEES_PER_POUND: f64 = 3300.0;

/// Fewest adults that are still a colony; below this the model calls it lost.
pub const FEWEST_ADULTS: f64 = 500.0;

/// One colony at nightfall.
#[derive(Debug, Clone, PartialEq)]
pub struct Colony {
    /// Adult workers that emerged sound.
    pub adults: Adults,
    /// Adult workers that mites or virus damaged as pupae: short-lived, without winter physiology.
    pub damaged: Adults,
    /// Adult drones.
    pub drones: f64,
    /// Worker brood.
    pub worker_brood: Brood,
    /// Drone brood, place by place.
    pub drone_brood: Vec<DroneNest>,
    /// The queen.
    pub queen: QueenBee,
    /// What is under way to follow her.
    pub succession: Succession,
    /// Frames and comb.
    pub frames: Frames,
    /// Sugar and pollen.
    pub stores: Stores,
    /// Mites on bees, and virus.
    pub mites: Mites,
    /// What is in the feeders.
    pub feeder: Feeder,
    /// What the colony remembers of the last days.
    pub recent: Recent,
    /// What the beekeeper has going on: treatments, frames in the shed, moves that were done.
    pub beekeeping: Beekeeping,
    /// Whether any bee was ever damaged: until then that part of the day is skipped.
    pub has_damaged: bool,
    /// Whether there are still bees enough.
    pub alive: bool,
    /// What is there at nightfall.
    pub stock: Stock,
}

/// A count of the whole colony at nightfall, from which the next day starts.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Stock {
    /// Adult workers by jobs.
    pub adults: Census,
    /// Damaged ones among them.
    pub damaged: f64,
    /// Mother mites in capped cells.
    pub mites_in_cells: f64,
    /// Worker eggs, cells.
    pub eggs: f64,
    /// Open worker larvae, cells.
    pub larvae: f64,
    /// Capped worker brood, cells.
    pub capped: f64,
    /// Drone brood of all stages and places, cells.
    pub drone_brood: f64,
    /// Open drone larvae of all places, cells.
    pub drone_larvae: f64,
    /// Drone brood at corners and edges of worker comb, cells.
    pub drone_brood_in_corners: f64,
}

impl Stock {
    /// All worker brood, cells.
    pub fn worker_brood(&self) -> f64 {
        self.eggs + self.larvae + self.capped
    }
}

/// Drone brood in one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DroneNest {
    /// The frame, by its place in [`Frames::frames`]; `None` for corners and edges of worker comb.
    pub frame: Option<usize>,
    /// The brood.
    pub brood: Brood,
    /// Cells with brood when they were last counted, kept up through the day.
    pub cells: f64,
    /// Whether there was any brood or mite when they were last counted.
    pub occupied: bool,
    /// Drones that emerged from it since the frame was put in or emptied.
    pub emerged: f64,
}

/// What is in the feeders.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Feeder {
    /// Syrup, g as honey; infinite while the feeders are kept full.
    pub syrup_g: f64,
    /// Patty, g.
    pub patty_g: f64,
    /// Feeders that moves put on.
    pub feeders: f64,
    /// Whether a move put a patty on.
    pub patty: bool,
}

/// Running means: each day moves a share of the way to the new value.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Recent {
    /// Nurses, about six days, in full nurses.
    pub nurses: f64,
    /// Pollen income, about five days, g/d.
    pub pollen_income_g: f64,
    /// Sugar income, about four days, g as honey for each bee.
    pub income_per_bee: f64,
    /// Days on end on which pollen income was under half of the brood's need.
    pub days_without_pollen: f64,
    /// Death risk of house bees on the last day, 1/d: mites on them die with them.
    pub house_death: f64,
}

impl Colony {
    /// Counts everything afresh.
    pub fn take_stock(&mut self) {
        for nest in &mut self.drone_brood {
            nest.occupied = true;
        }
        self.take_stock_at_nightfall();
    }

    /// Counts everything afresh, but for drone nests that were empty when they were last counted and in which
    /// nothing was laid since: for half of the year that is all of them. The audit finds what this would miss.
    pub fn take_stock_at_nightfall(&mut self) {
        let brood = self.worker_brood.count();
        let mut stock = Stock {
            adults: census(&self.adults),
            mites_in_cells: brood.mites,
            eggs: brood.eggs,
            larvae: brood.larvae,
            capped: brood.capped(),
            ..Stock::default()
        };
        for nest in &mut self.drone_brood {
            if !nest.occupied && nest.cells <= 0.0 {
                continue;
            }
            let (cells, mites) = (nest.brood.all(), nest.brood.mites());
            nest.cells = cells;
            nest.occupied = cells + mites > 0.0;
            stock.drone_brood += cells;
            stock.mites_in_cells += mites;
            stock.drone_larvae += nest.brood.larvae();
            if nest.frame.is_none() {
                stock.drone_brood_in_corners += cells;
            }
        }
        if self.has_damaged {
            let damaged = census(&self.damaged);
            stock.damaged = damaged.adults();
            stock.adults.add(&damaged);
        }
        stock.adults.ln_adults = ln(most(stock.adults.adults(), 1.0));
        self.stock = stock;
    }

    /// Makes a nest for each frame with drone comb that has none yet.
    pub fn find_drone_frames(&mut self, stages: Stages) {
        for (i, frame) in self.frames.frames.iter().enumerate() {
            if frame.has_drone_comb() && !self.drone_brood.iter().any(|nest| nest.frame == Some(i))
            {
                self.drone_brood.push(DroneNest {
                    frame: Some(i),
                    brood: Brood::none(stages),
                    cells: 0.0,
                    occupied: false,
                    emerged: 0.0,
                });
            }
        }
    }

    /// The colony of a scenario on the morning of its first day.
    ///
    /// # Errors
    /// No start, more than one, or a size that is missing.
    pub fn new(
        scenario: &Scenario,
        first: &Conditions,
        parameters: &Parameters,
    ) -> Result<Self, Error> {
        let start = &scenario.start;
        let p = parameters;
        let mut colony = Self {
            adults: Adults::default(),
            damaged: Adults::default(),
            has_damaged: false,
            mites: Mites::default(),
            drones: 0.0,
            worker_brood: Brood::none(Stages::worker(&p.brood)),
            drone_brood: vec![DroneNest {
                frame: None,
                brood: Brood::none(Stages::drone(&p.brood)),
                cells: 0.0,
                occupied: false,
                emerged: 0.0,
            }],
            queen: QueenBee {
                state: QueenState::Laying,
                age_d: start.queen.age_years * 365.0,
                caged_for_d: 0.0,
                laying_for_d: 30.0,
                power: start.queen.laying_power,
            },
            succession: Succession::default(),
            frames: Frames::new(&scenario.hive.boxes, &p.comb),
            stores: Stores::default(),
            feeder: Feeder::default(),
            recent: Recent::default(),
            beekeeping: Beekeeping::default(),
            alive: true,
            stock: Stock::default(),
        };
        colony.find_drone_frames(Stages::drone(&p.brood));
        match (&start.package, &start.swarm, &start.nuc, &start.established) {
            (Some(package), None, None, None) => {
                let bees = head_count(
                    "start.package",
                    package.pounds,
                    package.kilograms,
                    package.bees,
                )?;
                // Shaken from the brood nests of strong colonies: young bees.
                colony.adults = Adults::spread(bees, 0.0, 13.0);
                colony.stores.unripe_g = least(p.stores.package_crop_g, p.stores.crop_g) * bees;
                colony.queen.laying_for_d = 0.0;
                if package.queen_caged_days > 0.0 {
                    colony.queen.state = QueenState::Caged;
                    colony.queen.caged_for_d = package.queen_caged_days;
                }
            }
            (None, Some(swarm), None, None) => {
                let bees = head_count("start.swarm", swarm.pounds, swarm.kilograms, swarm.bees)?;
                // Bees of all ages but the oldest leave, with full crops; the queen has slimmed down.
                let foragers = libm::round(0.15 * bees);
                colony.adults = Adults::spread(bees - foragers, foragers, 22.0);
                colony.stores.unripe_g = p.stores.crop_g * bees;
                colony.queen.laying_for_d = 0.0;
            }
            (None, None, Some(there), None) | (None, None, None, Some(there)) => {
                colony.settle(there, first, p);
            }
            _ => {
                return Err(Error::scenario(
                    "start",
                    "expected exactly one of package, swarm, nuc and established",
                ));
            }
        }
        colony.infest(start.mites_per_100_bees.unwrap_or(0.0));
        colony.take_stock();
        colony.recent.nurses = colony.stock.adults.nurses;
        Ok(colony)
    }

    /// Fills the hive as a beekeeper describes it.
    fn settle(&mut self, there: &Established, first: &Conditions, p: &Parameters) {
        let bees = libm::round(there.frames_of_bees * p.comb.frame_of_bees);
        let brood = there.frames_of_brood * p.comb.brood_frame_cells;
        // Much brood for the bees: a colony in its season, with foragers and bees of all ages.
        // Little or none: a winter cluster of bees that have aged slowly.
        let active = unit(2.0 * brood / most(bees, 1.0)) * unit(first.laying_season / 0.3);
        let oldest = 14.0 + 16.0 * active;
        let foragers = libm::round(active * 0.24 * bees);
        self.adults = Adults::spread(bees - foragers, foragers, oldest);
        let stages = self.worker_brood.stages;
        for (age, cells) in self.worker_brood.cells[..stages.total()]
            .iter_mut()
            .enumerate()
        {
            let done = |days: usize| libm::round(brood * days as f64 / stages.total() as f64);
            *cells = done(age + 1) - done(age);
        }
        self.stores.honey_g = there.honey_kg * 1000.0;
        self.stores.pollen_g = there.pollen_kg * 1000.0;
        self.stores.unripe_g = least(0.01, p.stores.crop_g) * bees;
        self.recent.pollen_income_g = 0.5 * first.pollen * active * 0.01 * bees;
    }

    /// Puts mites on the bees as a wash would find them, and as many more into capped brood as belong to them.
    fn infest(&mut self, mites_per_100_bees: f64) {
        let bees = census(&self.adults).adults();
        self.mites.on_bees = libm::round(mites_per_100_bees / 100.0 * bees);
        let (open, total) = (
            self.worker_brood.stages.open(),
            self.worker_brood.stages.total(),
        );
        let capped = self.worker_brood.capped();
        if capped < 1.0 || self.mites.on_bees < 1.0 {
            return;
        }
        // Two thirds of the mites are in brood in full season (Rosenkranz et al. 2010, from memory):
        // twice those on bees, where there is a capped cell for each bee; fewer where there is less.
        let in_cells = 2.0 * self.mites.on_bees * unit(2.0 * capped / most(bees, 1.0));
        let days = (total - open) as f64;
        for day in 0..total - open {
            let done = |d: usize| libm::round(in_cells * d as f64 / days);
            self.worker_brood
                .take_in_at(open + day, done(day + 1) - done(day));
        }
    }

    /// Takes the last bees, the brood and the feed away: the colony is lost. Stores and comb stay.
    pub fn die_out(&mut self) {
        self.alive = false;
        self.adults = Adults::default();
        self.damaged = Adults::default();
        self.drones = 0.0;
        self.mites = Mites::default();
        self.worker_brood.clear();
        for nest in &mut self.drone_brood {
            nest.brood.clear();
        }
        self.queen.state = QueenState::None;
        self.succession.die_out();
        self.recent = Recent::default();
    }
}

pub(crate) fn head_count(
    place: &str,
    pounds: Option<f64>,
    kilograms: Option<f64>,
    bees: Option<f64>,
) -> Result<f64, Error> {
    let count = match (pounds, kilograms, bees) {
        (Some(pounds), None, None) => pounds * BEES_PER_POUND,
        (None, Some(kilograms), None) => kilograms / KG_PER_POUND * BEES_PER_POUND,
        (None, None, Some(bees)) => bees,
        _ => {
            return Err(Error::scenario(
                place,
                "expected exactly one of pounds, kilograms and bees",
            ));
        }
    };
    Ok(libm::round(count))
}
