//! One day, from morning to nightfall: the list of phases, in order.

use std::sync::Arc;

use crate::adults::{self, Census, Demands, Rates};
use crate::brood::{BroodRisk, Emergence, Hardship, Stages};
use crate::colony::{Colony, FEWEST_ADULTS};
use crate::comb::{BuildingDrive, Built, comb_wanted};
use crate::draw::Draw;
use crate::drones;
use crate::forage::Conditions;
use crate::ledger::{Audit, Ledger};
use crate::math::{least, most, unit};
use crate::moves::{Hand, Report, Task};
use crate::mites::{self, Neighbours};
use crate::queen::{self, Brake, Limits, QueenState, Support};
use crate::rng::Topic;
use crate::stores::{self, pollen_foragers, room, sugar_need_g, wanted_nest};
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
    queen, "the queen leaves her cage, grows older";
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
    drones_emerged: Emergence,
    young_bees: f64,
    /// What happened, for the record.
    pub outcome: Outcome,
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
/// `day` counts from 0. A dead colony stays as it is. `books` is the stock of the evening before,
/// [`Audit::of`] the colony at first, and becomes this evening's.
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
    books: &mut Audit,
) -> Result<Outcome, Error> {
    draw.begin_day(day);
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
        drones_emerged: Emergence::default(),
        young_bees: 0.0,
        outcome: Outcome::nothing(),
    };
    if today.colony.alive {
        today.run_phases();
        today.lose_if_too_few();
    } else {
        today.moves();
    }
    let outcome = today.outcome;
    colony.take_stock();
    let found = Audit::of(colony);
    books.check(&found, &outcome.ledger, colony, fixed.parameters)?;
    *books = found;
    Ok(outcome)
}

impl Outcome {
    /// A day on which nothing happens: there is no colony.
    fn nothing() -> Self {
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
            self.count.house,
            self.count.foragers,
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

    fn moves(&mut self) {
        let mut hand = Hand {
            colony: &mut *self.colony,
            conditions: self.conditions,
            parameters: self.fixed.parameters,
            drone_stages: self.fixed.drone_stages,
            draw: &mut *self.draw,
            ledger: &mut self.outcome.ledger,
            day: self.day,
        };
        hand.work(&self.plan.moves, &mut self.outcome.moves);
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

    /// Room for sugar as things stand now.
    fn room(&self) -> stores::Room {
        let p = self.fixed.parameters;
        let colony = &*self.colony;
        let bees = self.count.adults();
        let drawn = colony.frames.worker_cells;
        let best = p.queen.best_rate * colony.queen.power;
        room(
            drawn,
            self.nest_cells,
            wanted_nest(drawn, best, self.conditions.laying_season, &p.stores),
            colony.stores.cells(bees, &p.stores),
            most(0.0, p.stores.crop_g * bees - colony.stores.unripe_g),
            &p.stores,
        )
    }

    /// Part of the sugar drive that goes straight into new comb.
    fn straight_to_wax(&self) -> f64 {
        if self.colony.frames.finished() {
            return 0.0;
        }
        let adults = most(self.count.adults(), 1.0);
        self.fixed.parameters.stores.straight_to_wax * unit(4.0 * self.count.builders / adults)
    }

    fn forage(&mut self) {
        let p = &self.fixed.parameters.stores;
        let (room, wax) = (self.room(), self.straight_to_wax());
        let hours = self.count.foragers * self.hours_flown;
        let colony = &mut *self.colony;
        let stores_per_bee = colony.stores.sugar_g() / most(self.count.adults(), 1.0);
        let hunger = adults::hunger(stores_per_bee, &self.fixed.parameters.adults);
        let pollen_share = pollen_foragers(colony.stores.pollen_g, self.pollen_need_g, hunger, p);
        let drive = least(1.0, most(room.drive, 2.5 * wax));
        let nectar = hours
            * (1.0 - pollen_share)
            * p.nectar_load_g
            * least(1.6, self.conditions.nectar)
            * drive;
        let nectar = least(nectar, room.most_g);
        colony.stores.unripe_g += nectar;
        self.income_g += nectar;
        self.outcome.ledger.nectar_g += nectar;

        let on_offer = self.conditions.pollen;
        let most_pollen = least(
            p.pollen_most_g,
            p.pollen_most_share * colony.frames.worker_cells * p.pollen_per_cell_g,
        );
        // What the day's brood eats is fetched in any case; beyond it the store is filled up.
        let room_g = most(0.0, most_pollen - colony.stores.pollen_g);
        let zeal = unit((room_g + self.pollen_need_g) / most(0.67 * most_pollen, 1.0));
        let pollen = hours * pollen_share * p.pollen_load_g * on_offer / (on_offer + 0.25) * zeal;
        let pollen = least(
            pollen,
            least(room_g, room.free_cells * p.pollen_per_cell_g * 0.5) + self.pollen_need_g,
        );
        self.pollen_income_g += pollen;
        self.outcome.ledger.pollen_g += pollen;
    }

    fn feed(&mut self) {
        let p = &self.fixed.parameters.stores;
        if self.colony.feeder.syrup_g > 0.0 {
            let room = self.room();
            let drive = most(room.drive, self.straight_to_wax());
            let warm = unit((self.conditions.mean_c - 3.0) / 10.0);
            // In a flow bees leave the feeder for the flowers.
            let wanted = p.syrup_per_bee_g
                * self.count.adults()
                * warm
                * drive
                * (1.0 - 0.6 * unit(self.conditions.nectar));
            let colony = &mut *self.colony;
            let taken = least(
                least(wanted, room.most_g),
                least(colony.feeder.syrup_g, p.feeder_most_g * (self.plan.feeders + colony.feeder.feeders)),
            );
            colony.feeder.syrup_g -= taken;
            colony.stores.unripe_g += taken;
            self.income_g += taken;
            self.outcome.ledger.syrup_g += taken;
        }
        let colony = &mut *self.colony;
        if colony.feeder.patty_g > 0.0 {
            // Patty is eaten, not stored: no more of it than the pollen that the day leaves wanting.
            let wanted =
                most(0.0, self.pollen_need_g - self.pollen_income_g) / most(p.patty_pollen, 0.01);
            let eaten = least(
                least(colony.feeder.patty_g, wanted),
                p.patty_per_nurse_g * self.count.nurses,
            );
            colony.feeder.patty_g -= eaten;
            let pollen = eaten * p.patty_pollen;
            self.pollen_income_g += pollen;
            self.outcome.ledger.patty_pollen_g += pollen;
        }
        let bees = most(self.count.adults(), 1.0);
        blend(&mut colony.recent.income_per_bee, self.income_g / bees, 4.0);
        blend(
            &mut colony.recent.pollen_income_g,
            self.pollen_income_g,
            5.0,
        );
    }

    fn eat(&mut self) {
        let p = &self.fixed.parameters.stores;
        let free_cells = self.room().free_cells;
        let colony = &mut *self.colony;
        let eaten = colony.stores.eat_sugar(self.need_g);
        self.food_lacking = if self.need_g > 0.0 {
            1.0 - eaten / self.need_g
        } else {
            0.0
        };
        self.outcome.food_lacking = self.food_lacking;
        self.outcome.ledger.sugar_eaten_g += eaten;

        // Pollen is eaten as it comes; only what is over is stored.
        let there = colony.stores.pollen_g + self.pollen_income_g;
        let pollen = least(self.pollen_need_g, there);
        // Sugar was put away first; pollen beyond the cells that are left is not fetched.
        let over = most(
            0.0,
            there - pollen - colony.stores.pollen_g - free_cells * p.pollen_per_cell_g,
        );
        colony.stores.pollen_g = there - pollen - over;
        self.outcome.ledger.pollen_g = most(0.0, self.outcome.ledger.pollen_g - over);
        self.outcome.ledger.pollen_eaten_g += pollen;
        let failed =
            self.pollen_income_g < 0.5 * self.pollen_need_g && pollen < 0.999 * self.pollen_need_g;
        colony.recent.days_without_pollen = if failed {
            colony.recent.days_without_pollen + 1.0
        } else {
            0.0
        };
    }

    fn build(&mut self) {
        let p = self.fixed.parameters;
        if !self.colony.frames.finished() {
            let bees = self.count.adults();
            let colony = &mut *self.colony;
            let best = p.queen.best_rate * colony.queen.power * self.conditions.laying_season;
            let used = self.nest_cells + colony.stores.cells(bees, &p.stores) + best;
            let spring = unit(1.0 + 25.0 * self.conditions.day_length_change_h);
            let drive = BuildingDrive {
                builders: self.count.builders,
                mean_c: self.conditions.mean_c,
                wanted: comb_wanted(used, colony.frames.worker_cells, &p.comb),
                income_per_bee: colony.recent.income_per_bee,
                spare_g: least(self.income_g - 0.6 * self.need_g, colony.stores.sugar_g()),
                drone_wish: if bees > p.comb.drone_comb_from_bees {
                    spring
                } else {
                    0.0
                },
            };
            self.built = colony.frames.build(&drive, &p.comb);
            let paid = colony.stores.eat_sugar(self.built.honey_g);
            self.outcome.ledger.wax_honey_g += paid;
        }
        self.colony.stores.ripen(self.count.adults(), &p.stores);
    }

    fn lay(&mut self) {
        let p = self.fixed.parameters;
        let bees = self.count.adults();
        let colony = &mut *self.colony;
        let store_cells = colony.stores.cells(bees, &p.stores);
        let support = Support {
            drawn: colony.frames.worker_cells,
            brood: self.nest_cells,
            store_cells,
            built: self.built.cells,
            nurses: colony.recent.nurses,
            pollen_income_g: colony.recent.pollen_income_g,
            pollen_g: colony.stores.pollen_g,
            sugar_g: colony.stores.sugar_g(),
            income_per_bee: colony.recent.income_per_bee,
        };
        let limits = queen::limits(
            &colony.queen,
            &self.count,
            &support,
            self.conditions,
            &p.queen,
        );
        self.outcome.limits = limits;
        if colony.queen.state != QueenState::Laying {
            self.outcome.brake = if colony.queen.state == QueenState::Caged {
                Brake::Caged
            } else {
                Brake::NoQueen
            };
            return;
        }
        self.outcome.brake = limits.binding().1;
        let laid = limits.smooth_least();
        let wish = drones::wish(
            bees,
            colony.recent.pollen_income_g,
            self.conditions,
            &p.drones,
        );
        let drone_eggs = self.draw.events(Topic::Drones, self.drone_eggs(laid, wish));
        let free = most(0.0, support.drawn - support.brood - store_cells);
        let drone_laid = self.lay_drones(drone_eggs, free / p.comb.drone_cell_area);
        let colony = &mut *self.colony;
        let free = most(0.0, free - drone_laid * p.comb.drone_cell_area);
        let eggs = self
            .draw
            .events(Topic::Laying, most(0.0, laid - drone_laid));
        let eggs = if eggs > free { libm::floor(free) } else { eggs };
        colony.worker_brood.cells[0] += eggs;
        self.outcome.ledger.worker_eggs += eggs;
        self.outcome.ledger.drone_eggs += drone_laid;
    }

    /// Drone eggs that the queen means to lay today.
    fn drone_eggs(&self, laid: f64, wish: f64) -> f64 {
        let p = &self.fixed.parameters.drones;
        let comb = self.colony.frames.drone_cells;
        let share = p.egg_share + (p.egg_share_with_comb - p.egg_share) * unit(comb / 1000.0);
        share * wish * laid
    }

    /// Lays drone eggs, on drone comb first, as far as there is room; returns how many.
    fn lay_drones(&mut self, eggs: f64, corners_free: f64) -> f64 {
        let p = self.fixed.parameters;
        let colony = &mut *self.colony;
        let mut left = eggs;
        for nest in colony.drone_brood.iter_mut().rev() {
            if left <= 0.0 {
                break;
            }
            let comb = match nest.frame {
                Some(i) => {
                    let frame = &colony.frames.frames[i];
                    frame.drawn * frame.drone_part / p.comb.drone_cell_area
                }
                None => colony.frames.worker_cells * p.comb.drone_corners / p.comb.drone_cell_area,
            };
            let free = most(0.0, comb - nest.brood.all());
            let free = match nest.frame {
                Some(_) => free,
                None => least(free, corners_free),
            };
            let laid = if left > free { libm::floor(free) } else { left };
            nest.brood.cells[0] += laid;
            left -= laid;
        }
        eggs - left
    }

    fn brood(&mut self) {
        let p = &self.fixed.parameters.brood;
        let colony = &mut *self.colony;
        let hardship = Hardship {
            food_lacking: self.food_lacking,
            pollen_failed: colony.recent.days_without_pollen >= 5.0,
        };
        let hard = hardship.food_lacking > 0.0 || hardship.pollen_failed;
        let risks = |usual: &BroodRisk| {
            if hard {
                usual.under(hardship, p)
            } else {
                usual.risk
            }
        };
        let risk = risks(&self.fixed.worker_risk);
        let cells = colony.worker_brood.living();
        let died = self.draw.of_risks(Topic::Brood, cells, &risk);
        self.outcome.ledger.worker_brood_died += died;
        self.emerged = colony.worker_brood.age_one_day();
        self.nest_cells -= died + self.emerged.cells;
        let killed = mites::pupal_death(
            &self.emerged,
            colony.mites.virus,
            &self.fixed.parameters.mites,
        );
        let killed = self.draw.how_many(Topic::Mites, self.emerged.cells, killed);
        self.young_bees = self.emerged.cells - killed;
        self.outcome.ledger.worker_brood_died += killed;
        self.outcome.ledger.emerged += self.young_bees;

        let risk = risks(&self.fixed.drone_risk);
        for nest in &mut colony.drone_brood {
            let died = self
                .draw
                .of_risks(Topic::Drones, nest.brood.living(), &risk);
            let emerged = nest.brood.age_one_day();
            nest.emerged += emerged.cells;
            self.outcome.ledger.drone_brood_died += died;
            self.drones_emerged.cells += emerged.cells;
            self.drones_emerged.mothers += emerged.mothers;
            if nest.frame.is_none() {
                self.nest_cells -=
                    (died + emerged.cells) * self.fixed.parameters.comb.drone_cell_area;
            }
        }
        self.nest_cells = most(0.0, self.nest_cells);
    }

    fn age(&mut self) {
        let p = &self.fixed.parameters.adults;
        let colony = &mut *self.colony;
        let demands = Demands {
            larvae: self.larvae,
            flight_hours: self.conditions.flight_hours,
            hours_flown: self.hours_flown,
            nectar: self.conditions.nectar,
            stores_per_bee: colony.stores.sugar_g() / most(self.count.adults(), 1.0),
            food_lacking: self.food_lacking,
            virus_death: colony.mites.death_of_bees(&self.fixed.parameters.mites),
            nights_c: self.conditions.nights_c,
        };
        let rates = adults::rates(&self.count, &demands, p);
        let mut died = adults::live_a_day(&mut colony.adults, &rates, self.draw, p);
        let harmed = self.harmed();
        let colony = &mut *self.colony;
        colony
            .adults
            .join(rates.nurse_pace, self.young_bees - harmed);
        colony.has_damaged |= harmed > 0.0;
        if colony.has_damaged {
            let mites = &self.fixed.parameters.mites;
            let rates = rates.for_damaged(mites.damaged_pace, mites.damaged_idle);
            let more = adults::live_a_day(&mut colony.damaged, &rates, self.draw, p);
            colony.damaged.join(rates.nurse_pace, harmed);
            died.house += more.house;
            died.foragers += more.foragers;
        }
        self.outcome.rates = rates;
        self.outcome.ledger.died_in_hive += died.house;
        self.outcome.ledger.died_outside += died.foragers;
        // The dead take along what is in their crops.
        let bees = self.count.adults();
        let crops = least(
            colony.stores.unripe_g,
            self.fixed.parameters.stores.crop_g * bees,
        );
        let gone = if bees > 0.0 {
            crops * (died.house + died.foragers) / bees
        } else {
            0.0
        };
        colony.stores.unripe_g -= gone;
        self.outcome.ledger.sugar_lost_g += gone;
    }

    /// Young bees of today that emerged damaged by mites or virus.
    fn harmed(&mut self) -> f64 {
        let p = &self.fixed.parameters.mites;
        if self.emerged.mothers + self.colony.mites.virus <= 0.0 {
            return 0.0;
        }
        let share = mites::damaged(&self.emerged, self.colony.mites.virus, p);
        self.draw.how_many(Topic::Mites, self.young_bees, share)
    }

    fn mites(&mut self) {
        let p = &self.fixed.parameters.mites;
        let arriving = mites::immigration(self.fixed.neighbours, self.conditions, p);
        let there = self.colony.mites.on_bees + self.colony.stock.mites_in_cells;
        if there <= 0.0 && arriving <= 0.0 {
            return;
        }
        let entered = self.mites_enter();
        // Mites die with the bee that carries them; bees that die of old age die outside.
        let risk = p.death_on_bees + self.outcome.rates.house_death;
        let on_bees = self.colony.mites.on_bees - entered;
        let died = self.draw.how_many(Topic::Mites, on_bees, least(1.0, risk));
        let worker = mites::come_out(&self.emerged, false, self.conditions, self.draw, p);
        let drone = mites::come_out(&self.drones_emerged, true, self.conditions, self.draw, p);
        let came_in = self.draw.events(Topic::Mites, arriving);
        let flow = &mut self.outcome.ledger.mites;
        flow.came_out += worker.came_out + drone.came_out;
        flow.born += worker.born + drone.born;
        flow.died_at_emergence += worker.died_at_emergence + drone.died_at_emergence;
        flow.died_on_bees += died;
        flow.came_in += came_in;
        let mites = &mut self.colony.mites;
        mites.on_bees = on_bees - died + worker.came_out + drone.came_out + came_in;
        mites.spread_virus(self.count.adults(), p);
    }

    /// Mites on bees go into the cells that were capped today; returns how many.
    fn mites_enter(&mut self) -> f64 {
        let p = &self.fixed.parameters.mites;
        let colony = &mut *self.colony;
        let drone_cells: f64 = colony
            .drone_brood
            .iter()
            .map(|nest| nest.brood.capped_today())
            .sum();
        let (into_worker, into_drone) = mites::hazard(
            colony.worker_brood.capped_today(),
            drone_cells,
            self.count.adults() * p.bee_g,
            p,
        );
        let hazard = into_worker + into_drone;
        if hazard <= 0.0 {
            return 0.0;
        }
        let entered = self.draw.how_many(
            Topic::Mites,
            colony.mites.on_bees,
            1.0 - crate::math::exp(-hazard),
        );
        let into_drone = self
            .draw
            .how_many(Topic::Mites, entered, into_drone / hazard);
        colony.worker_brood.take_in(entered - into_drone);
        let (mut left, mut cells_left) = (into_drone, drone_cells);
        for nest in &mut colony.drone_brood {
            let cells = nest.brood.capped_today();
            if cells > 0.0 {
                let share = least(1.0, cells / cells_left);
                let mothers = self.draw.how_many(Topic::Mites, left, share);
                nest.brood.take_in(mothers);
                left -= mothers;
                cells_left -= cells;
            }
        }
        // Rounding of the shares can leave a trace: it stays with the worker brood.
        colony.worker_brood.take_in(left);
        entered
    }

    fn drones(&mut self) {
        let p = &self.fixed.parameters.drones;
        let colony = &mut *self.colony;
        let died = self.draw.how_many(
            Topic::Drones,
            colony.drones,
            drones::death_risk(self.conditions, p),
        );
        colony.drones += self.drones_emerged.cells - died;
        self.outcome.ledger.drones_emerged += self.drones_emerged.cells;
        self.outcome.ledger.drones_died += died;
    }

    fn queen(&mut self) {
        self.outcome.queen_released = self.colony.queen.live_a_day();
    }

    /// Calls the colony lost when too few bees are left; the last of them count as dead.
    fn lose_if_too_few(&mut self) {
        let colony = &mut *self.colony;
        let flow = &self.outcome.ledger;
        let bees = self.count.adults() + flow.emerged - flow.died_in_hive - flow.died_outside;
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
