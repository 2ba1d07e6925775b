//! The day: forage, feed, eat, build.

use super::{Today, blend};
use crate::adults;
use crate::comb::{BuildingDrive, comb_wanted};
use crate::draw::Draw;
use crate::math::{least, most, unit};
use crate::stores::{self, pollen_foragers, room, wanted_nest};

impl<D: Draw> Today<'_, D> {
    /// Room for sugar as things stand now.
    pub(super) fn room(&self) -> stores::Room {
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
    pub(super) fn straight_to_wax(&self) -> f64 {
        if self.colony.frames.finished() {
            return 0.0;
        }
        let adults = most(self.count.adults(), 1.0);
        self.fixed.parameters.stores.straight_to_wax * unit(4.0 * self.count.builders / adults)
    }

    pub(super) fn forage(&mut self) {
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

    pub(super) fn feed(&mut self) {
        let p = &self.fixed.parameters.stores;
        if self.colony.feeder.syrup_g > 0.0 {
            let room = self.room();
            let drive = most(room.drive, self.straight_to_wax());
            let warm = stores::syrup_uptake(self.conditions.mean_c, p);
            // In a flow bees leave the feeder for the flowers.
            let wanted = p.syrup_per_bee_g
                * self.count.adults()
                * warm
                * drive
                * (1.0 - 0.6 * unit(self.conditions.nectar));
            let colony = &mut *self.colony;
            let taken = least(
                least(wanted, room.most_g),
                least(
                    colony.feeder.syrup_g,
                    p.feeder_most_g * (self.plan.feeders + colony.feeder.feeders),
                ),
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

    pub(super) fn eat(&mut self) {
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

    pub(super) fn build(&mut self) {
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
}
