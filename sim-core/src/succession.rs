//! Queens and swarms: queen cells, swarming, supersedure, emergency queens, mating, laying workers.
//!
//! What chance decides is drawn in random mode. The expected colony of mean mode cannot half swarm:
//! it stays, and the record holds the chance that it would have gone. What a move sets going (a
//! queen removed, a swarm made to leave) runs in both modes, in mean mode on the median day.

mod daily;
mod hands;
mod seen;
mod swarm;
mod urge;

pub use daily::{Nightfall, live_a_day};
pub use hands::{
    Cells, cage_queen, force_swarm, give_queen_cell, release_queen, remove_queen,
    remove_queen_cells, requeen,
};
pub use seen::{Seen, notes};
pub use urge::{Crowd, mating_weather, supersedure_risk, swarm_urge, swarm_weather};

use crate::draw::Draw;
use crate::math::sum;
use crate::rng::Topic;

params! {
    /// Queens and swarms.
    SuccessionParameters {
        /// Days from the egg until a queen cell is capped: 3 as an egg, 5.5 as a larva.
        capped_after_d = 9.0, "d", 7.0..=11.0, Published, "Winston 1987: 8.5 (from memory), seen capped on day 9";
        /// Days from the egg until a queen emerges.
        emerges_after_d = 16.0, "d", 14.0..=17.0, Published, "Winston 1987 (from memory)";
        /// Age from which a virgin queen flies to mate.
        mature_d = 7.0, "d", 4.0..=12.0, Published, "7 or longer: Connor, Bee Culture; flights from day 5 to 10: Alberta extension";
        /// Days with mating flights that she needs.
        mating_days = 2.0, "d", 1.0..=5.0, Published, "2 or longer: Connor, Bee Culture";
        /// Days from mating to her first eggs.
        mated_to_laying_d = 3.0, "d", 1.0..=7.0, Published, "Connor, Bee Culture";
        /// Age at which a virgin can no longer mate and lays drone eggs only.
        too_old_to_mate_d = 25.0, "d", 18.0..=40.0, Published, "3 to 4 weeks: common practice, no source";
        /// Chance of losing a young queen on a day with a mating flight.
        mating_loss = 0.06, "1/d", 0.0..=0.5, Assumed, "birds and strange hives; no figure found";
        /// Highest temperature of a day below which no queen flies to mate.
        mating_from_c = 16.0, "°C", 10.0..=22.0, Assumed, "warm, dry, calm hours: common practice, no source";
        /// Highest temperature from which she flies freely.
        mating_full_c = 20.0, "°C", 14.0..=28.0, Assumed, "warm, dry, calm hours: common practice, no source";
        /// Chance that a fully driven colony begins to prepare for swarming today.
        swarm_rate = 0.090, "1/d", 0.0..=1.0, Tuned, "87 % of wild colonies requeen each summer, as an upper bound: Seeley 2017";
        /// Bees for each cell of room in the hive at which half of the crowding is reached.
        crowded_at = 0.27, "bees/cell", 0.05..=1.0, Assumed, "0.35 covers every frame: Burgett & Burikam 1985 (from memory)";
        /// Spread of that, from none to all.
        crowded_spread = 0.26, "bees/cell", 0.02..=1.0, Assumed, "no figure found";
        /// Share of drawn comb in use at which half of the congestion is reached.
        full_nest = 0.80, "-", 0.3..=1.0, Assumed, "a laid-up, backfilled nest: handbooks; no figure found";
        /// Spread of that, from none to all.
        full_nest_spread = 0.50, "-", 0.05..=1.0, Assumed, "no figure found";
        /// Full nurses for each adult at which half of the effect of young bees is reached.
        young_share = 0.30, "-", 0.05..=0.9, Assumed, "more nurses than brood to feed: handbooks; no figure found";
        /// Fewest workers that prepare for swarming, at the middle of the step.
        swarm_from_bees = 11000.0, "bees", 3000.0..=40000.0, Assumed, "swarms of about 16,000: Winston 1980 (from memory)";
        /// Part of the urge that a queen in her first summer leaves.
        young_queen_swarms = 0.10, "-", 0.0..=1.0, Published, "queen cells 0.07 / 2.23 / 9.90 by her year: A. m. bandasii";
        /// Age of a queen from which she holds nothing back.
        old_queen_years = 2.0, "a", 0.5..=4.0, Assumed, "cells rise to her third year: A. m. bandasii";
        /// Part of the urge left when no nectar comes in.
        urge_without_income = 0.40, "-", 0.0..=1.0, Assumed, "a flow is one trigger among several: handbooks";
        /// Cells that a colony raises to swarm.
        swarm_cells = 14.0, "cells", 3.0..=40.0, Assumed, "a dozen or two: common practice, no source";
        /// Daily chance of giving up once the cause is gone.
        gives_up = 0.15, "1/d", 0.0..=1.0, Assumed, "no figure found";
        /// Share of the workers that leave with a prime swarm.
        swarm_share = 0.75, "-", 0.2..=0.95, Published, "Rangel & Seeley 2012";
        /// Physiological age below which bees stay behind.
        stays_under_d = 3.0, "d", 0.0..=10.0, Assumed, "the youngest cannot fly yet";
        /// Chance that the first young queen leaves with an after-swarm, in a colony that is still strong.
        after_swarm = 0.45, "-", 0.0..=1.0, Assumed, "follow in days where bees are left: common practice, no source";
        /// Workers left at which half of that is reached.
        after_swarm_from_bees = 9000.0, "bees", 1000.0..=40000.0, Assumed, "no figure found";
        /// Share of the workers that leave with an after-swarm.
        after_swarm_share = 0.45, "-", 0.1..=0.9, Assumed, "no figure found";
        /// Chance in a year that a good first-year queen is superseded.
        supersedure_first_year = 0.10, "1/a", 0.0..=1.0, Assumed, "no figure found";
        /// The same for each further year of her life.
        supersedure_each_year = 0.25, "1/a", 0.0..=2.0, Assumed, "no figure found; old queens are replaced";
        /// How many times that for a queen that has lost all of her power.
        supersedure_of_failing = 3.1, "-", 1.0..=100.0, Assumed, "no figure found";
        /// Cells raised to supersede.
        supersedure_cells = 3.0, "cells", 1.0..=10.0, Assumed, "one to a few: common practice, no source";
        /// Emergency cells over larvae under two days old.
        emergency_cells = 13.2, "cells", 1.0..=50.0, Published, "mean 20.4, of them 64.7 % under two days: Fell & Morse 1984; older ones are taken as torn down";
        /// Part of the emergency cells still missing that is begun in a day.
        emergency_pace = 0.35, "1/d", 0.05..=1.0, Published, "peak by day 3 to 4, some to day 9: Fell & Morse 1984";
        /// Days without queen, young queen, cells and open brood before the first workers lay.
        laying_workers_from_d = 14.0, "d", 5.0..=40.0, Published, "two weeks at least: Collison; Miller & Ratnieks 2001";
        /// Daily chance from then on that workers lay.
        laying_workers_rate = 0.08, "1/d", 0.0..=1.0, Assumed, "typically after 3 to 4 weeks: common practice, no source";
        /// Drone eggs that live, of laying workers, a day for each bee of the colony.
        laying_worker_eggs = 0.010, "1/d", 0.0..=0.1, Assumed, "more than 6,000 drones before the colony dies: Page & Metcalf 1984";
        /// Empty queen cups in a strong colony.
        cups = 10.0, "cups", 0.0..=50.0, Assumed, "play cups: common practice, no source";
    }
}

/// Room for every day of age of a queen cell.
pub const CELL_DAYS: usize = 20;

/// Why queen cells are raised.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// To swarm.
    Swarm,
    /// To replace the queen.
    Supersedure,
    /// To replace a queen that is gone, over larvae in worker cells.
    Emergency,
    /// A cell that the beekeeper gave.
    Given,
}

/// A young queen that does not lay yet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct YoungQueen {
    /// Days since she emerged.
    pub age_d: f64,
    /// Days on which she flew to mate.
    pub flights: f64,
    /// Days since she mated; `None`: still a virgin.
    pub mated_for_d: Option<f64>,
}

/// An event that waits for its day: by the draw in random mode, on the median day in mean mode.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wait {
    spared: f64,
}

impl Default for Wait {
    fn default() -> Self {
        Self { spared: 1.0 }
    }
}

impl Wait {
    /// Whether it happens today, at this chance.
    fn meets<D: Draw>(&mut self, draw: &mut D, chance: f64) -> bool {
        let drawn = draw.how_many(Topic::Queen, 1.0, chance);
        if drawn >= 1.0 {
            *self = Self::default();
            return true;
        }
        // Only the mean gives a part of one event.
        self.spared *= 1.0 - drawn;
        let happens = drawn > 0.0 && self.spared <= 0.5;
        if happens {
            *self = Self::default();
        }
        happens
    }
}

/// What is under way to follow the queen.
#[derive(Debug, Clone, PartialEq)]
pub struct Succession {
    /// Queen cells by days since the egg.
    pub cells: [f64; CELL_DAYS],
    /// What they are for.
    pub purpose: Option<Purpose>,
    /// A young queen, alone or beside the old one.
    pub young: Option<YoungQueen>,
    /// Empty cups.
    pub cups: f64,
    /// Days without any queen.
    pub queenless_d: f64,
    /// Days without any queen, queen cell or open worker brood.
    pub hopeless_d: f64,
    /// Chance that the colony has not prepared for swarming so far this season.
    pub no_swarm: f64,
    /// Chance that it has not begun to supersede its queen.
    pub no_supersedure: f64,
    /// The next swarm is an after-swarm: the virgin leaves, the other cells are kept.
    after_swarm: bool,
    /// The beekeeper makes the swarm leave today.
    forced: bool,
    /// How crowded the colony was when it began to prepare.
    crowd_at_start: f64,
    wait: Wait,
}

impl Default for Succession {
    fn default() -> Self {
        Self {
            cells: [0.0; CELL_DAYS],
            purpose: None,
            young: None,
            cups: 0.0,
            queenless_d: 0.0,
            hopeless_d: 0.0,
            no_swarm: 1.0,
            no_supersedure: 1.0,
            after_swarm: false,
            forced: false,
            crowd_at_start: 0.0,
            wait: Wait::default(),
        }
    }
}

impl Succession {
    /// Queen cells of all ages.
    pub fn all_cells(&self) -> f64 {
        sum(&self.cells)
    }

    /// Queen cells with an egg or an open larva.
    pub fn charged(&self, p: &SuccessionParameters) -> f64 {
        self.cells[..capped_from(p)].iter().sum()
    }

    /// Capped queen cells.
    pub fn capped(&self, p: &SuccessionParameters) -> f64 {
        self.cells[capped_from(p)..].iter().sum()
    }

    /// The colony is lost: nothing is left but the chances that it ran.
    pub fn die_out(&mut self) {
        *self = Self {
            no_swarm: self.no_swarm,
            no_supersedure: self.no_supersedure,
            ..Self::default()
        };
    }

    /// Every cell is torn down or empty.
    fn clear_cells(&mut self) {
        self.cells = [0.0; CELL_DAYS];
        self.purpose = None;
        self.after_swarm = false;
        self.forced = false;
        self.wait = Wait::default();
    }
}

/// Age of a queen cell from which it is capped.
fn capped_from(p: &SuccessionParameters) -> usize {
    libm::round(p.capped_after_d) as usize
}

/// Age at which a queen emerges.
fn emerges_at(p: &SuccessionParameters) -> usize {
    libm::round(p.emerges_after_d) as usize
}
