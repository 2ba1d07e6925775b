//! One day, from morning to nightfall: the list of phases, in order.

mod bees;
mod food;
mod nest;

use std::sync::Arc;

use crate::adults::{self, Census, Rates};
use crate::brood::{BroodRisk, Emergence, Stages};
use crate::colony::{Colony, FEWEST_ADULTS};
use crate::comb::Built;
use crate::draw::Draw;
use crate::forage::Conditions;
use crate::ledger::{Audit, Ledger};
use crate::math::{least, most, unit};
use crate::mites::Neighbours;
use crate::moves::{Hand, Report, Task, treatments_work};
use crate::queen::{Brake, Limits};
use crate::stores::sugar_need_g;
use crate::succession::{self, Crowd, Nightfall};
use crate::{Error, Parameters};

/// Declares the phases of the day: their order, their names, and what each does.
macro_rules! phases {
    ($( $phase:ident, $what:literal; )+) => {
        /// The phases of a day in order: name and what happens.
        pub const PHASES: &[(&str, &str)] = &[$( (stringify!($phase), $what), )+];

        impl<D: Draw> Today<'_, D> {
            fn run_phases(&mut self) {
                $( self.$phase(); )+
            }
        }
    };
}

phases! {
    moves, "do what the beekeeper does today; treatments work";
    count, "count the bees by what they do, and work out how hard they work";
    forage, "fly for nectar and pollen, as far as hours, bloom and room allow";
    feed, "take syrup and patty";
    eat, "eat sugar and pollen, ripen nectar";
    build, "turn income into comb";
    brood, "brood dies or grows a day older; young bees emerge and leave their cells free";
    lay, "work out every limit on laying; lay worker and drone eggs";
    age, "bees age by their work, die, take up foraging, go back";
    mites, "mites enter cells, die, come out with young bees; virus spreads";
    drones, "drones emerge, die, are turned out";
    queen, "the queen leaves her cage, grows older; queen cells, swarms, young queens";
}

/// What the beekeeper does on one day, worked out from the scenario before the season starts.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Plan {
    /// Syrup that the feeders are filled up to today, g as honey; `None`: not filled.
    pub fill_syrup_g: Option<f64>,
    /// Patty that is put on today, g.
    pub put_patty_g: Option<f64>,
    /// Number of feeders on the hive.
    pub feeders: f64,
    /// Whether there is a patty feed today.
    pub patty: bool,
    /// Moves to look at today.
    pub moves: Vec<Arc<Task>>,
    /// Days from today until honey is taken next, not today.
    pub honey_taken_in: Option<u32>,
}

/// What does not change from day to day.
#[derive(Debug, Clone)]
pub struct Fixed<'a> {
    /// All parameters.
    pub parameters: &'a Parameters,
    /// Hives in flying distance.
    pub neighbours: Neighbours,
    drone_stages: Stages,
    worker_risk: BroodRisk,
    drone_risk: BroodRisk,
}

impl<'a> Fixed<'a> {
    /// Works out what follows from the parameters once.
    pub fn new(parameters: &'a Parameters, neighbours: Neighbours) -> Self {
        let (worker, drone) = (
            Stages::worker(&parameters.brood),
            Stages::drone(&parameters.brood),
        );
        Self {
            parameters,
            neighbours,
            drone_stages: drone,
            worker_risk: BroodRisk::new(worker, &parameters.brood),
            drone_risk: BroodRisk::new(drone, &parameters.brood),
        }
    }
}

/// All that a phase can see.
#[derive(Debug)]
pub struct Today<'a, D: Draw> {
    colony: &'a mut Colony,
    conditions: &'a Conditions,
    plan: &'a Plan,
    fixed: &'a Fixed<'a>,
    draw: &'a mut D,
    day: u32,
    count: Census,
    hours_flown: f64,
    larvae: f64,
    care: f64,
    income_g: f64,
    pollen_income_g: f64,
    need_g: f64,
    pollen_need_g: f64,
    food_lacking: f64,
    built: Built,
    /// Worker cells that brood takes.
    nest_cells: f64,
    emerged: Emergence,
    /// Share of the emerged workers' cells that held mites.
    infested: f64,
    drones_emerged: Emergence,
    young_bees: f64,
    /// What happened, for the record.
    pub outcome: &'a mut Outcome,
}

/// The books of the evening before, and what the day came to.
#[derive(Debug, Clone)]
pub struct Diary {
    books: Audit,
    /// What the last day came to.
    pub outcome: Outcome,
}

impl Diary {
    /// The diary of a colony on the morning of its first day.
    pub fn new(colony: &Colony) -> Self {
        Self {
            books: Audit::of(colony),
            outcome: Outcome::nothing(),
        }
    }
}

/// What a day came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// Every flow of the day.
    pub ledger: Ledger,
    /// Every limit on laying.
    pub limits: Limits,
    /// The one that bound.
    pub brake: Brake,
    /// Risks and pace of adult bees.
    pub rates: Rates,
    /// Share of the food that was lacking.
    pub food_lacking: f64,
    /// The queen came out of her cage today.
    pub queen_released: bool,
    /// The colony died out today.
    pub lost: bool,
    /// The moves that were done or refused today.
    pub moves: Vec<Report>,
}

/// Runs one day.
///
/// `day` counts from 0. A dead colony stays as it is. What the
/// day came to is written into `diary`.
///
/// # Errors
/// A sum that does not add up: a fault of the program, with the sum's name.
pub fn step<D: Draw>(
    colony: &mut Colony,
    conditions: &Conditions,
    plan: &Plan,
    fixed: &Fixed<'_>,
    draw: &mut D,
    day: u32,
    diary: &mut Diary,
) -> Result<(), Error> {
    draw.begin_day(day);
    diary.outcome.begin_day(colony.alive);
    let mut today = Today {
        colony,
        conditions,
        plan,
        fixed,
        draw,
        day,
        count: Census::default(),
        hours_flown: 0.0,
        larvae: 0.0,
        care: 0.0,
        income_g: 0.0,
        pollen_income_g: 0.0,
        need_g: 0.0,
        pollen_need_g: 0.0,
        food_lacking: 0.0,
        built: Built::default(),
        nest_cells: 0.0,
        emerged: Emergence::default(),
        infested: 0.0,
        drones_emerged: Emergence::default(),
        young_bees: 0.0,
        outcome: &mut diary.outcome,
    };
    if today.colony.alive {
        today.run_phases();
        today.lose_if_too_few();
    } else {
        today.moves();
    }
    colony.take_stock_at_nightfall();
    let found = Audit::of(colony);
    diary
        .books
        .check(&found, &diary.outcome.ledger, colony, fixed.parameters)?;
    diary.books = found;
    Ok(())
}

impl Outcome {
    /// Whether more than a fiftieth of the food was lacking.
    pub fn is_hungry(&self) -> bool {
        self.food_lacking > 0.02
    }

    /// Makes ready for another day. What a living colony works out anew every day can stay.
    fn begin_day(&mut self, alive: bool) {
        if !alive {
            *self = Self::nothing();
        }
        self.ledger = Ledger::default();
        self.food_lacking = 0.0;
        self.queen_released = false;
        self.lost = false;
        self.moves.clear();
    }

    /// A day on which nothing happens: there is no colony.
    pub fn nothing() -> Self {
        Self {
            ledger: Ledger::default(),
            limits: Limits::default(),
            brake: Brake::NoQueen,
            rates: Rates {
                nurse_pace: 0.0,
                worker_pace: 0.0,
                house_death: 0.0,
                old_death: 0.0,
                recruitment: 0.0,
                foraging_age: 0.0,
                forager_death: 0.0,
                reversion: 0.0,
            },
            food_lacking: 0.0,
            queen_released: false,
            lost: false,
            moves: Vec::new(),
        }
    }
}

/// Moves a running mean by the share that gives it the mean age of a plain mean over `days`.
fn blend(mean: &mut f64, value: f64, days: f64) {
    *mean += (value - *mean) * 2.0 / (days + 1.0);
}

impl<D: Draw> Today<'_, D> {
    fn count(&mut self) {
        let p = self.fixed.parameters;
        let colony = &mut *self.colony;
        let stock = colony.stock;
        self.count = stock.adults;
        self.larvae = stock.larvae + p.stores.drone_larva * stock.drone_larvae;
        self.care = least(
            1.0,
            adults::care_load(self.larvae, self.count.house, &p.adults),
        );
        let on_offer = self.conditions.nectar + self.conditions.pollen;
        self.hours_flown = adults::hours_flown(self.conditions.flight_hours, on_offer, &p.adults);
        self.need_g = sugar_need_g(
            &self.count,
            self.care,
            self.hours_flown,
            self.larvae,
            stock.worker_brood() + stock.drone_brood,
            colony.beekeeping.felt_c(self.conditions.mean_c, &p.moves),
            &p.stores,
        );
        self.pollen_need_g = p.stores.larva_pollen_g * self.larvae
            + p.stores.young_pollen_g * self.count.nurses * (0.1 + 0.9 * self.care);
        blend(&mut colony.recent.nurses, self.count.nurses, 6.0);
        self.nest_cells =
            stock.worker_brood() + stock.drone_brood_in_corners * p.comb.drone_cell_area;
    }

    #[inline(never)]
    fn moves(&mut self) {
        if !self.plan.moves.is_empty() || self.colony.beekeeping.is_due(self.day) {
            self.work();
        }
        let feeder = &mut self.colony.feeder;
        if let Some(fill_g) = self.plan.fill_syrup_g {
            feeder.syrup_g = most(feeder.syrup_g, fill_g);
        }
        if self.plan.feeders + feeder.feeders == 0.0 {
            feeder.syrup_g = 0.0;
        }
        if let Some(put_g) = self.plan.put_patty_g {
            feeder.patty_g = most(feeder.patty_g, put_g);
        }
        if !self.plan.patty && !feeder.patty {
            feeder.patty_g = 0.0;
        }
    }

    /// Does the moves of the day; treatments work.
    fn work(&mut self) {
        let mut reports = std::mem::take(&mut self.outcome.moves);
        let plan = self.plan;
        if let Some(effect) = self.hand().work(&plan.moves, &mut reports) {
            let ledger = &mut self.outcome.ledger;
            treatments_work(&effect, self.colony, ledger, self.draw);
            self.hand().risk_of_queen(effect.queen, &mut reports);
            self.colony.take_stock();
        }
        self.outcome.moves = reports;
    }

    fn hand(&mut self) -> Hand<'_> {
        Hand {
            colony: &mut *self.colony,
            conditions: self.conditions,
            parameters: self.fixed.parameters,
            drone_stages: self.fixed.drone_stages,
            draw: &mut *self.draw,
            ledger: &mut self.outcome.ledger,
            day: self.day,
            honey_taken_in: self.plan.honey_taken_in,
        }
    }

    fn queen(&mut self) {
        self.outcome.queen_released = self.colony.queen.live_a_day();
        let p = self.fixed.parameters;
        let colony = &mut *self.colony;
        let (bees, drawn) = (self.count.adults(), colony.frames.worker_cells);
        let used = self.nest_cells + colony.stores.cells(bees, &p.stores);
        let night = Nightfall {
            today: self.conditions,
            crowd: Crowd {
                adults: bees,
                nurses: colony.recent.nurses,
                room: drawn + colony.frames.left,
                used: used / most(drawn, 1.0),
                income_per_bee: colony.recent.income_per_bee,
                queen_years: colony.queen.age_d / 365.0,
            },
            vigour: unit(colony.queen.power) * colony.queen.vigour(&p.queen),
            crop_g: p.stores.crop_g,
            p: &p.succession,
        };
        succession::live_a_day(colony, &night, self.draw, &mut self.outcome.ledger);
    }

    /// Calls the colony lost when too few bees are left; the last of them count as dead.
    fn lose_if_too_few(&mut self) {
        let colony = &mut *self.colony;
        let flow = &self.outcome.ledger;
        let bees = self.count.adults() + flow.emerged
            - flow.died_in_hive
            - flow.died_outside
            - flow.swarmed;
        if bees >= FEWEST_ADULTS {
            return;
        }
        let ledger = &mut self.outcome.ledger;
        colony.take_stock();
        ledger.died_in_hive += colony.stock.adults.house;
        ledger.died_outside += colony.stock.adults.foragers;
        ledger.drones_died += colony.drones;
        ledger.worker_brood_died += colony.stock.worker_brood();
        ledger.drone_brood_died += colony.stock.drone_brood;
        ledger.mites.died_on_bees += colony.mites.on_bees + colony.stock.mites_in_cells;
        colony.die_out();
        self.outcome.lost = true;
    }
}
