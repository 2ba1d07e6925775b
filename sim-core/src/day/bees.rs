//! The day: adult bees, mites, drones.

use super::Today;
use crate::adults::{self, Demands};
use crate::draw::Draw;
use crate::drones;
use crate::math::{least, most};
use crate::mites;
use crate::rng::Topic;

impl<D: Draw> Today<'_, D> {
    pub(super) fn age(&mut self) {
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
        colony.recent.house_death = rates.house_death;
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
    pub(super) fn harmed(&mut self) -> f64 {
        let p = &self.fixed.parameters.mites;
        if self.emerged.mothers + self.colony.mites.virus <= 0.0 {
            return 0.0;
        }
        let share = mites::damaged(self.infested, self.colony.mites.virus, p);
        self.draw.how_many(Topic::Mites, self.young_bees, share)
    }

    pub(super) fn mites(&mut self) {
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
    pub(super) fn mites_enter(&mut self) -> f64 {
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

    pub(super) fn drones(&mut self) {
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
}
