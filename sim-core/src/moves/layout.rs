//! What lies where in the hive, and taking frames out with what lies in them.

use super::{Hand, Result};
use crate::brood::Brood;
use crate::colony::DroneNest;
use crate::comb::Frame;
use crate::draw::Draw;
use crate::math::{least, most};
use crate::nest::{self, Contents};
use crate::order;
use crate::scenario::moves::At;
use crate::words::Saying;

/// What left the hive with frames.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Taken {
    pub worker_brood: f64,
    pub sugar_g: f64,
    pub pollen_g: f64,
    pub drone: DroneBrood,
    pub mites: f64,
}

/// Drone brood of a frame at the moment that it is taken.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct DroneBrood {
    pub open: f64,
    pub capped: f64,
    pub emerged: f64,
    pub mites: f64,
    pub sugar_eaten_g: f64,
}

impl DroneBrood {
    fn add(&mut self, other: Self) {
        self.open += other.open;
        self.capped += other.capped;
        self.emerged += other.emerged;
        self.mites += other.mites;
        self.sugar_eaten_g += other.sugar_eaten_g;
    }

    pub(super) fn all(&self) -> f64 {
        self.open + self.capped
    }
}

impl Hand<'_> {
    /// What lies in each frame.
    pub fn contents(&self) -> Vec<Contents> {
        let (colony, p) = (&*self.colony, self.parameters);
        let bees = colony.stock.adults.adults();
        let brood = colony.stock.worker_brood()
            + colony.stock.drone_brood_in_corners * p.comb.drone_cell_area;
        let pollen = colony.stores.pollen_g / p.stores.pollen_per_cell_g;
        let sugar = most(0.0, colony.stores.cells(bees, &p.stores) - pollen);
        nest::contents(&colony.frames, brood, pollen, sugar)
    }

    /// The frame at a place, by its index.
    pub(super) fn frame_at(&self, at: At) -> Result<usize> {
        let (in_box, position) = self.place(at)?;
        self.colony
            .frames
            .frames
            .iter()
            .position(|frame| frame.in_box == in_box && frame.position == position)
            .ok_or_else(|| Saying::new(|words| words.refusals.empty_place).at(at))
    }

    /// Box and place from 0, if the hive has them.
    pub(super) fn place(&self, at: At) -> Result<(usize, usize)> {
        let boxes = &self.colony.frames.boxes;
        let in_box = usize::from(at.in_box).wrapping_sub(1);
        let position = usize::from(at.place).wrapping_sub(1);
        match boxes.get(in_box) {
            None => Err(Saying::new(|words| words.refusals.no_box)
                .plain("box", at.in_box)
                .count("boxes", boxes.len())),
            Some(storey) if position >= storey.places => {
                Err(Saying::new(|words| words.refusals.no_place)
                    .at(at)
                    .count("places", storey.places))
            }
            Some(_) => Ok((in_box, position)),
        }
    }

    /// Takes all that lies in these frames out of the hive; the frames stay, with their comb.
    pub(super) fn empty(&mut self, chosen: &[usize]) -> Taken {
        self.colony.take_stock();
        let contents = self.contents();
        let mut sum = Contents::default();
        for &i in chosen {
            sum.brood += contents[i].brood;
            sum.pollen += contents[i].pollen;
            sum.sugar += contents[i].sugar;
        }
        let mut taken = self.take_from_nest(sum.brood);
        let p = &self.parameters.stores;
        let stores = &mut self.colony.stores;
        let bees = self.colony.stock.adults.adults();
        let in_cells = stores.unripe_in_cells_g(bees, p);
        let cells = (stores.honey_g + p.unripe_room * in_cells) / p.honey_per_cell_g;
        let share = if cells > 0.0 {
            least(1.0, sum.sugar / cells)
        } else {
            0.0
        };
        let honey = share * stores.honey_g;
        stores.honey_g -= honey;
        stores.unripe_g -= share * in_cells;
        taken.sugar_g = honey + share * in_cells;
        self.ledger.honey_taken_g += taken.sugar_g;
        taken.pollen_g = least(stores.pollen_g, sum.pollen * p.pollen_per_cell_g);
        stores.pollen_g -= taken.pollen_g;
        self.ledger.pollen_given_g -= taken.pollen_g;
        for &i in chosen {
            let drone = self.take_drone_brood(i);
            taken.mites += drone.mites;
            taken.drone.add(drone);
        }
        taken
    }

    /// Takes brood that fills so many worker cells out of the brood nest, all ages alike, with its mites.
    fn take_from_nest(&mut self, cells: f64) -> Taken {
        let area = self.parameters.comb.drone_cell_area;
        let stock = self.colony.stock;
        let nest = stock.worker_brood() + stock.drone_brood_in_corners * area;
        if cells <= 0.0 || nest <= 0.0 {
            return Taken::default();
        }
        let share = least(1.0, cells / nest);
        let colony = &mut *self.colony;
        let (worker, mut mites) = take_share(&mut colony.worker_brood, share, self.draw);
        let mut corners = 0.0;
        for nest in colony
            .drone_brood
            .iter_mut()
            .filter(|nest| nest.frame.is_none())
        {
            let (drones, on_drones) = take_share(&mut nest.brood, share, self.draw);
            corners += drones;
            mites += on_drones;
        }
        self.ledger.worker_brood_given -= worker;
        self.ledger.drone_brood_given -= corners;
        self.ledger.mites_given -= mites;
        Taken {
            worker_brood: worker,
            mites,
            ..Taken::default()
        }
    }

    /// Takes the drone brood out of a drone frame or foundationless comb, with its mites.
    pub(super) fn take_drone_brood(&mut self, frame: usize) -> DroneBrood {
        let mut taken = DroneBrood::default();
        let stages = self.drone_stages;
        let stores = &self.parameters.stores;
        let a_day_g = stores.larva_g * stores.drone_larva;
        for nest in &mut self.colony.drone_brood {
            if nest.frame != Some(frame) {
                continue;
            }
            let brood = &mut nest.brood;
            let fed: f64 = (0..stages.larva)
                .map(|age| (age + 1) as f64 * brood.cells[stages.egg + age])
                .sum();
            taken.add(DroneBrood {
                open: brood.eggs() + brood.larvae(),
                capped: brood.capped(),
                emerged: nest.emerged,
                mites: brood.mites(),
                sugar_eaten_g: a_day_g
                    * (fed + stages.larva as f64 * (brood.capped() + nest.emerged)),
            });
            brood.clear();
            nest.emerged = 0.0;
        }
        self.ledger.drone_brood_given -= taken.open + taken.capped;
        self.ledger.mites_given -= taken.mites;
        taken
    }

    /// Changes the frames of the hive; nests of drone brood stay with their frame, or go with it.
    ///
    /// What lies in frames that go has to be taken out before.
    pub(super) fn rearrange(&mut self, change: impl FnOnce(&mut Vec<(Frame, Option<DroneNest>)>)) {
        let colony = &mut *self.colony;
        let mut nests = std::mem::take(&mut colony.drone_brood);
        let mut slots: Vec<(Frame, Option<DroneNest>)> = Vec::new();
        for (i, frame) in colony.frames.frames.drain(..).enumerate() {
            let nest = nests.iter().position(|nest| nest.frame == Some(i));
            slots.push((frame, nest.map(|nest| nests.remove(nest))));
        }
        change(&mut slots);
        order::by_key(&mut slots, |(frame, _)| {
            (frame.in_box * 1000 + frame.position) as i64
        });
        for (i, (frame, nest)) in slots.into_iter().enumerate() {
            colony.frames.frames.push(frame);
            if let Some(mut nest) = nest {
                nest.frame = Some(i);
                nests.push(nest);
            }
        }
        colony.drone_brood = nests;
        colony.frames.refresh(&self.parameters.comb);
        colony.find_drone_frames(self.drone_stages);
    }

    /// Takes frames out of the hive with all that lies in them but the bees.
    pub(super) fn take_out(&mut self, chosen: &[usize]) -> Taken {
        let taken = self.empty(chosen);
        self.rearrange(|slots| {
            let mut index = 0;
            slots.retain(|_| {
                index += 1;
                !chosen.contains(&(index - 1))
            });
        });
        taken
    }
}

/// Takes a share of brood of all ages, and the same share of its mites; returns both.
fn take_share(brood: &mut Brood, share: f64, draw: &mut dyn Draw) -> (f64, f64) {
    let cells = brood.all();
    let taken = draw.take(&mut brood.cells, share * cells);
    let mites = brood.mites();
    let share = if cells > 0.0 { taken / cells } else { 0.0 };
    let mites = draw.take(&mut brood.mothers, share * mites);
    (taken, mites)
}
