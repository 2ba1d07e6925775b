//! The day: brood and laying.

use super::Today;
use crate::brood::Hardship;
use crate::colony::DroneNest;
use crate::draw::Draw;
use crate::drones;
use crate::math::{least, most};
use crate::mites;
use crate::queen::{self, Brake, QueenState, Support};
use crate::rng::Topic;

impl<D: Draw> Today<'_, D> {
    pub(super) fn lay(&mut self) {
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
            days_without_pollen: colony.recent.days_without_pollen,
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
        match colony.queen.state {
            QueenState::Laying => {}
            QueenState::Caged => {
                self.outcome.brake = Brake::Caged;
                return;
            }
            QueenState::DroneLayer | QueenState::LayingWorkers => {
                self.outcome.brake = Brake::NoQueen;
                self.lay_drones_only(most(0.0, support.drawn - support.brood - store_cells));
                return;
            }
            QueenState::Virgin | QueenState::Mated | QueenState::None => {
                self.outcome.brake = Brake::NoQueen;
                return;
            }
        }
        self.outcome.brake = limits.binding().1;
        let laid = limits.smooth_least();
        let wish = drones::wish(
            bees,
            colony.recent.pollen_income_g,
            self.conditions,
            &p.drones,
        );
        let corners = self
            .draw
            .events(Topic::Drones, p.drones.egg_share * wish * laid);
        let free = most(0.0, support.drawn - support.brood - store_cells);
        let in_corners = self.lay_in_corners(corners, free / p.comb.drone_cell_area);
        let drone_laid = in_corners + self.lay_in_drone_comb(laid, wish);
        let colony = &mut *self.colony;
        let free = most(0.0, free - in_corners * p.comb.drone_cell_area);
        let eggs = self
            .draw
            .events(Topic::Laying, most(0.0, laid - drone_laid));
        let eggs = if eggs > free { f64::floor(free) } else { eggs };
        colony.worker_brood.cells[0] += eggs;
        self.outcome.ledger.worker_eggs += eggs;
        self.outcome.ledger.drone_eggs += drone_laid;
    }

    /// A drone layer or laying workers lay: drone eggs only, in worker cells too.
    pub(super) fn lay_drones_only(&mut self, free: f64) {
        let p = self.fixed.parameters;
        let eggs = if self.colony.queen.state == QueenState::DroneLayer {
            self.outcome.limits.smooth_least()
        } else {
            p.succession.laying_worker_eggs * self.count.adults()
        };
        let eggs = self.draw.events(Topic::Drones, eggs);
        // Drones bulge out of worker cells and crowd their neighbours: each takes the room of a drone cell.
        let most_eggs = libm::floor(free / p.comb.drone_cell_area);
        let eggs = if eggs > most_eggs { most_eggs } else { eggs };
        let corners = self
            .colony
            .drone_brood
            .iter_mut()
            .find(|nest| nest.frame.is_none());
        if let Some(nest) = corners {
            nest.brood.cells[0] += eggs;
            nest.cells += eggs;
            self.outcome.ledger.drone_eggs += eggs;
        }
    }

    /// Lays drone eggs into corners and edges of worker comb, as far as there is room; returns how many.
    fn lay_in_corners(&mut self, eggs: f64, room: f64) -> f64 {
        let p = &self.fixed.parameters.comb;
        let colony = &mut *self.colony;
        let comb = colony.frames.worker_cells * p.drone_corners / p.drone_cell_area;
        let corners = colony
            .drone_brood
            .iter_mut()
            .find(|nest| nest.frame.is_none());
        corners.map_or(0.0, |nest| lay_as_fits(nest, eggs, least(comb, room)))
    }

    /// Lays drone eggs into drone frames and foundationless comb; returns how many.
    fn lay_in_drone_comb(&mut self, laid: f64, wish: f64) -> f64 {
        if self.colony.frames.drone_cells <= 0.0 {
            return 0.0;
        }
        let p = self.fixed.parameters;
        let colony = &mut *self.colony;
        let brood = colony.stock.drone_brood - colony.stock.drone_brood_in_corners;
        let days = self.fixed.drone_stages.total() as f64;
        let eggs = drones::eggs_into_comb(laid, wish, brood, days, &p.drones);
        let eggs = self.draw.events(Topic::Drones, eggs);
        let mut left = eggs;
        for nest in colony.drone_brood.iter_mut().rev() {
            if let Some(frame) = nest.frame {
                let frame = &colony.frames.frames[frame];
                let comb = frame.drawn * frame.drone_part / p.comb.drone_cell_area;
                left -= lay_as_fits(nest, left, comb);
            }
        }
        eggs - left
    }

    pub(super) fn brood(&mut self) {
        let p = &self.fixed.parameters.brood;
        let colony = &mut *self.colony;
        let hardship = Hardship {
            food_lacking: self.food_lacking,
            pollen_failed: colony.recent.days_without_pollen >= 5.0,
        };
        let hard = hardship.food_lacking > 0.0 || hardship.pollen_failed;
        let (worker_risk, drone_risk);
        let (worker_risk, drone_risk) = if hard {
            worker_risk = self.fixed.worker_risk.under(hardship, p);
            drone_risk = self.fixed.drone_risk.under(hardship, p);
            (&worker_risk, &drone_risk)
        } else {
            (&self.fixed.worker_risk.risk, &self.fixed.drone_risk.risk)
        };
        let (died, deaths) =
            self.draw
                .at_risk(Topic::Brood, &colony.worker_brood.cells, worker_risk);
        self.outcome.ledger.worker_brood_died += deaths;
        self.emerged = colony.worker_brood.age_one_day(&died);
        self.nest_cells -= deaths + self.emerged.cells;
        self.infested = mites::infested(&self.emerged);
        let killed = mites::pupal_death(
            self.infested,
            colony.mites.virus,
            &self.fixed.parameters.mites,
        );
        let killed = self.draw.how_many(Topic::Mites, self.emerged.cells, killed);
        self.young_bees = self.emerged.cells - killed;
        self.outcome.ledger.worker_brood_died += killed;
        self.outcome.ledger.emerged += self.young_bees;

        for nest in &mut colony.drone_brood {
            if !nest.occupied {
                continue;
            }
            let (died, deaths) = self
                .draw
                .at_risk(Topic::Drones, &nest.brood.cells, drone_risk);
            let emerged = nest.brood.age_one_day(&died);
            nest.emerged += emerged.cells;
            nest.cells -= deaths + emerged.cells;
            self.outcome.ledger.drone_brood_died += deaths;
            self.drones_emerged.cells += emerged.cells;
            self.drones_emerged.mothers += emerged.mothers;
            if nest.frame.is_none() {
                self.nest_cells -=
                    (deaths + emerged.cells) * self.fixed.parameters.comb.drone_cell_area;
            }
        }
        self.nest_cells = most(0.0, self.nest_cells);
    }
}

/// Lays eggs into the cells of a nest that are free, of `comb` cells in all; returns how many.
fn lay_as_fits(nest: &mut DroneNest, eggs: f64, comb: f64) -> f64 {
    let free = most(0.0, comb - nest.cells);
    // Whole eggs where the room is the limit.
    let laid = if eggs > free { f64::floor(free) } else { eggs };
    nest.brood.cells[0] += laid;
    nest.cells += laid;
    laid
}
