//! Every flow of a day, and the check that it all adds up.

use crate::colony::Colony;
use crate::error::ErrorKind;
use crate::mites::MiteFlows;
use crate::{Error, Parameters};

/// The flows of one day. Sugar is in grams as honey.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Ledger {
    /// Worker eggs laid.
    pub worker_eggs: f64,
    /// Drone eggs laid.
    pub drone_eggs: f64,
    /// Worker brood that died.
    pub worker_brood_died: f64,
    /// Drone brood that died.
    pub drone_brood_died: f64,
    /// Workers that emerged.
    pub emerged: f64,
    /// House bees that died.
    pub died_in_hive: f64,
    /// Foragers that died.
    pub died_outside: f64,
    /// Workers that left with a swarm.
    pub swarmed: f64,
    /// Worker larvae that are raised as queens.
    pub raised_as_queens: f64,
    /// Drones that emerged.
    pub drones_emerged: f64,
    /// Drones that died or were turned out.
    pub drones_died: f64,
    /// Nectar brought in.
    pub nectar_g: f64,
    /// Syrup taken.
    pub syrup_g: f64,
    /// Sugar eaten.
    pub sugar_eaten_g: f64,
    /// Sugar turned into wax.
    pub wax_honey_g: f64,
    /// Sugar lost with dead bees.
    pub sugar_lost_g: f64,
    /// Sugar that a swarm took along.
    pub swarm_sugar_g: f64,
    /// Sugar of all kinds taken by the beekeeper.
    pub honey_taken_g: f64,
    /// Pollen brought in.
    pub pollen_g: f64,
    /// Pollen from patties.
    pub patty_pollen_g: f64,
    /// Pollen eaten.
    pub pollen_eaten_g: f64,
    /// Workers given by the beekeeper, less those taken.
    pub workers_given: f64,
    /// Drones given by the beekeeper, less those taken.
    pub drones_given: f64,
    /// Worker brood given by the beekeeper, less that taken, cells.
    pub worker_brood_given: f64,
    /// Drone brood given by the beekeeper, less that taken, cells.
    pub drone_brood_given: f64,
    /// Sugar given by the beekeeper in comb and crops.
    pub sugar_given_g: f64,
    /// Pollen given by the beekeeper in comb, less that taken.
    pub pollen_given_g: f64,
    /// Mites given by the beekeeper with bees and brood, less those taken.
    pub mites_given: f64,
    /// Mites: what came and went.
    pub mites: MiteFlows,
}

/// The stocks that must add up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Audit {
    workers: f64,
    drones: f64,
    worker_brood: f64,
    drone_brood: f64,
    sugar_g: f64,
    pollen_g: f64,
    mites: f64,
}

/// The names of the stocks, in the order of [`Audit::stocks`].
const STOCKS: [&str; 7] = [
    "workers",
    "drones",
    "worker brood",
    "drone brood",
    "sugar",
    "pollen",
    "mites",
];

impl Audit {
    fn stocks(&self) -> [f64; STOCKS.len()] {
        [
            self.workers,
            self.drones,
            self.worker_brood,
            self.drone_brood,
            self.sugar_g,
            self.pollen_g,
            self.mites,
        ]
    }

    /// What the colony counts at nightfall.
    pub fn of(colony: &Colony) -> Self {
        Self {
            workers: colony.stock.adults.adults(),
            drones: colony.drones,
            worker_brood: colony.stock.worker_brood(),
            drone_brood: colony.stock.drone_brood,
            sugar_g: colony.stores.sugar_g(),
            pollen_g: colony.stores.pollen_g,
            mites: colony.mites.on_bees + colony.stock.mites_in_cells,
        }
    }

    /// Checks that before + in - out = after, that nothing is negative or not a number, and that no
    /// more cells are in use than are drawn.
    ///
    /// # Errors
    /// The name of the sum that does not hold, with its figures.
    pub fn check(
        &self,
        after: &Self,
        flow: &Ledger,
        colony: &Colony,
        parameters: &Parameters,
    ) -> Result<(), Error> {
        let expected = [
            self.workers + flow.workers_given + flow.emerged
                - flow.died_in_hive
                - flow.died_outside
                - flow.swarmed,
            self.drones + flow.drones_given + flow.drones_emerged - flow.drones_died,
            self.worker_brood + flow.worker_brood_given + flow.worker_eggs
                - flow.worker_brood_died
                - flow.emerged
                - flow.raised_as_queens,
            self.drone_brood + flow.drone_brood_given + flow.drone_eggs
                - flow.drone_brood_died
                - flow.drones_emerged,
            self.sugar_g + flow.sugar_given_g + flow.nectar_g + flow.syrup_g
                - flow.sugar_eaten_g
                - flow.wax_honey_g
                - flow.sugar_lost_g
                - flow.swarm_sugar_g
                - flow.honey_taken_g,
            self.pollen_g + flow.pollen_given_g + flow.pollen_g + flow.patty_pollen_g
                - flow.pollen_eaten_g,
            self.mites + flow.mites_given + flow.mites.born + flow.mites.came_in
                - flow.mites.died_at_emergence
                - flow.mites.died_on_bees
                - flow.mites.left,
        ];
        let found = after.stocks();
        // Written so that NaN fails.
        let holds = |k: usize| {
            let (expected, found) = (expected[k], found[k]);
            (expected - found).abs() <= 1e-6 * (1.0 + expected.abs()) && found >= -1e-9
        };
        // All of them without a branch between: they hold on every day of a sound program.
        if !(0..expected.len()).fold(true, |all, k| all & holds(k)) {
            let wrong = (0..expected.len()).find(|&k| !holds(k)).unwrap_or(0);
            let (expected, found) = (expected[wrong], found[wrong]);
            return Err(fault(
                STOCKS[wrong],
                format!("expected {expected}, found {found}"),
            ));
        }
        let used = after.worker_brood
            + colony.stock.drone_brood_in_corners * parameters.comb.drone_cell_area
            + colony.stores.cells(after.workers, &parameters.stores);
        let drawn = colony.frames.worker_cells;
        // A dead colony leaves stores in the comb without crops to hold the rest.
        if colony.alive && used > drawn * (1.0 + 1e-9) + 0.5 {
            return Err(fault("cells", format!("{used} in use, {drawn} drawn")));
        }
        Ok(())
    }
}

fn fault(name: &str, figures: String) -> Error {
    Error::new(
        ErrorKind::Invariant,
        name,
        format!("the day does not add up: {figures}"),
    )
}
