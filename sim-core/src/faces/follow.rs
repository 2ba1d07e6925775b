//! From one evening to the next: what was is kept in its place as far as the model still counts it.

use std::sync::Arc;

use super::lattice::{Lattice, Seat};
use super::orders::Orders;
use super::{Cell, Faces, noise};
use crate::Parameters;
use crate::brood::{Brood, MOST_DAYS, Stages};
use crate::colony::Colony;
use crate::order;
use crate::queen::QueenState;

/// Share of cells that the queen passes over, so that they stay empty for a round.
const PASSED_OVER: f64 = 0.06;

fn lot(cell: u32) -> u32 {
    (noise(cell, 3) * f64::from(u32::MAX)) as u32
}

fn whole(cells: f64) -> usize {
    libm::round(cells.max(0.0)) as usize
}

impl Faces {
    /// The next evening: everything that was is kept in its place as far as the model still counts it.
    pub(super) fn follow(&mut self, day: i16, colony: &Colony, p: &Parameters) {
        self.day = day;
        self.without_place = 0;
        self.stages = Some((colony.worker_brood.stages, Stages::drone(&p.brood)));
        self.seat_frames(colony, p);
        self.draw_comb(colony);
        let workers = &colony.worker_brood;
        let total = workers.stages.total();
        let drone_total = Stages::drone(&p.brood).total();
        for cell in &mut self.cells {
            *cell = match *cell {
                Cell::Worker(laid) if (day - laid) as usize >= total => Cell::Hatched(day),
                Cell::Drone(laid) if (day - laid) as usize >= drone_total => Cell::Hatched(day),
                Cell::Hatched(on) if on < day => Cell::Empty,
                other => other,
            };
        }
        let frames: Vec<usize> = (0..self.lattices.len()).collect();
        let missing = self.trim(workers, &frames, Cell::Worker);
        self.follow_drones(colony);
        let brood_cells = whole(workers.all());
        self.lay(&missing, brood_cells);
        let stores = self.trim_stores(colony, p);
        self.store(stores, brood_cells);
        if !matches!(
            colony.queen.state,
            QueenState::None | QueenState::LayingWorkers
        ) {
            return;
        }
        self.queen = None;
    }

    /// Gives every frame its lattice; what a frame held stays with it while it stays in its place.
    fn seat_frames(&mut self, colony: &Colony, p: &Parameters) {
        let frames = &colony.frames.frames;
        let same = frames.len() == self.lattices.len()
            && frames
                .iter()
                .zip(&self.lattices)
                .all(|(frame, lattice)| lattice.seat == Seat::of(frame));
        if same {
            return;
        }
        let (old, held) = (
            std::mem::take(&mut self.lattices),
            std::mem::take(&mut self.cells),
        );
        for frame in frames {
            let start = self.cells.len();
            let kept = old.iter().find(|lattice| lattice.seat == Seat::of(frame));
            let lattice = match kept {
                Some(lattice) => {
                    let from = lattice.start;
                    self.cells
                        .extend_from_slice(&held[from..from + 2 * lattice.cells]);
                    Lattice {
                        start,
                        ..lattice.clone()
                    }
                }
                None => {
                    let lattice = Lattice::new(frame, start, &p.comb);
                    self.cells.resize(start + 2 * lattice.cells, Cell::Undrawn);
                    lattice
                }
            };
            self.lattices.push(lattice);
        }
        self.orders = Arc::new(Orders::new(&self.lattices, &colony.frames.boxes));
    }

    fn draw_comb(&mut self, colony: &Colony) {
        for (lattice, frame) in self.lattices.iter_mut().zip(&colony.frames.frames) {
            let all = 2 * lattice.cells;
            let drawn = whole(frame.drawn / frame.room * all as f64).min(all);
            let (from, to, cell) = if drawn >= lattice.drawn {
                (lattice.drawn, drawn, Cell::Empty)
            } else {
                (drawn, lattice.drawn, Cell::Undrawn)
            };
            for &changed in &lattice.order[from..to] {
                self.cells[lattice.start + changed as usize] = cell;
            }
            lattice.drawn = drawn;
        }
    }

    /// Takes out brood that the model counts no more, here and there in these frames; returns how
    /// many cells of each age are missing.
    fn trim(
        &mut self,
        brood: &Brood,
        frames: &[usize],
        kind: fn(i16) -> Cell,
    ) -> [usize; MOST_DAYS] {
        // Cells by age, each with a number by lot in front.
        let mut there: [Vec<i64>; MOST_DAYS] = std::array::from_fn(|_| Vec::new());
        for &frame in frames {
            for id in self.lattices[frame].range() {
                if let Cell::Worker(laid) | Cell::Drone(laid) = self.cells[id]
                    && self.cells[id] == kind(laid)
                {
                    there[(self.day - laid) as usize]
                        .push(i64::from(lot(id as u32) as i32) << 32 | id as i64);
                }
            }
        }
        std::array::from_fn(|age| {
            let counted = whole(brood.cells[age]);
            let ids = &mut there[age];
            if ids.len() > counted {
                order::whole(ids);
                for &id in &ids[counted..] {
                    self.cells[id as u32 as usize] = Cell::Empty;
                }
            }
            counted.saturating_sub(ids.len())
        })
    }

    /// Drone brood: each drone frame and foundationless frame its own, the rest at corners of worker comb.
    fn follow_drones(&mut self, colony: &Colony) {
        let orders = Arc::clone(&self.orders);
        for nest in &colony.drone_brood {
            let (frames, order) = match nest.frame {
                Some(frame) => (vec![frame], self.lattices[frame].for_drones()),
                None => {
                    let shared = |&frame: &usize| !self.lattices[frame].own_drones;
                    let frames = (0..self.lattices.len()).filter(shared).collect();
                    (frames, orders.corners.clone())
                }
            };
            let missing = self.trim(&nest.brood, &frames, Cell::Drone);
            let mut places = order.into_iter();
            for (age, &count) in missing.iter().enumerate() {
                for _ in 0..count {
                    let free = |&id: &u32| {
                        let cell = self.cells[id as usize];
                        !matches!(cell, Cell::Undrawn | Cell::Worker(_) | Cell::Drone(_))
                    };
                    match places.by_ref().find(free) {
                        Some(id) => self.cells[id as usize] = Cell::Drone(self.day - age as i16),
                        None => self.without_place += 1,
                    }
                }
            }
        }
    }

    /// Takes out stores that were eaten or carried away, from the middle outwards; returns
    /// how many cells each should fill.
    fn trim_stores(&mut self, colony: &Colony, p: &Parameters) -> [(Cell, usize); 3] {
        let orders = Arc::clone(&self.orders);
        let (stores, bees) = (&colony.stores, colony.stock.adults.adults());
        let s = &p.stores;
        let unripe = s.unripe_room * stores.unripe_in_cells_g(bees, s);
        let wanted = [
            (Cell::Pollen, whole(stores.pollen_g / s.pollen_per_cell_g)),
            (Cell::Honey, whole(stores.honey_g / s.honey_per_cell_g)),
            (Cell::Nectar, whole(unripe / s.honey_per_cell_g)),
        ];
        for (kind, wanted) in wanted {
            let mut surplus = self.count(kind).saturating_sub(wanted);
            for &id in &orders.from_middle {
                if surplus == 0 {
                    break;
                }
                if self.cells[id as usize] == kind {
                    self.cells[id as usize] = Cell::Empty;
                    surplus -= 1;
                }
            }
        }
        wanted
    }

    fn count(&self, kind: Cell) -> usize {
        self.cells.iter().filter(|&&cell| cell == kind).count()
    }

    /// The queen lays from the middle outwards into what is free; stores in the heart of the nest give way.
    fn lay(&mut self, missing: &[usize; MOST_DAYS], brood_cells: usize) {
        let orders = Arc::clone(&self.orders);
        let mut drawn = 0;
        let mut order = orders.from_middle.iter();
        let mut again = orders.from_middle.iter();
        let mut laid = Vec::new();
        for (age, &count) in missing.iter().enumerate() {
            for _ in 0..count {
                let cells = &self.cells;
                let mut free = |&&id: &&u32| {
                    let cell = cells[id as usize];
                    drawn += usize::from(cell != Cell::Undrawn);
                    match cell {
                        Cell::Empty | Cell::Hatched(_) => {
                            noise(id, 5 + self.day as u32 / 21) >= PASSED_OVER
                        }
                        Cell::Pollen | Cell::Nectar | Cell::Honey => drawn < brood_cells,
                        _ => false,
                    }
                };
                let place = order.by_ref().find(&mut free).or_else(|| {
                    // What was passed over is all that is left.
                    again.by_ref().find(|&&id| {
                        !matches!(
                            cells[id as usize],
                            Cell::Undrawn | Cell::Worker(_) | Cell::Drone(_)
                        )
                    })
                });
                match place {
                    Some(&id) => {
                        self.cells[id as usize] = Cell::Worker(self.day - age as i16);
                        if age == 0 {
                            laid.push(id);
                        }
                    }
                    None => self.without_place += 1,
                }
            }
        }
        self.queen = laid.get(laid.len() / 2).copied().or(self.queen);
    }

    /// Pollen goes next to the brood, under the honey, and nectar above and outside; what is ripe stays where it was nectar.
    fn store(&mut self, wanted: [(Cell, usize); 3], brood_cells: usize) {
        let orders = Arc::clone(&self.orders);
        // A rim around the brood stays free for it to grow.
        let ring = orders
            .from_middle
            .iter()
            .filter(|&&id| self.cells[id as usize] != Cell::Undrawn)
            .nth(brood_cells + brood_cells / 8)
            .map_or(u32::MAX, |&id| orders.rank[id as usize]);
        for (kind, wanted) in wanted {
            // Honey comes before nectar, whose cells it takes over as it ripens.
            let mut count = wanted.saturating_sub(self.count(kind));
            let order = if kind == Cell::Pollen {
                &orders.from_middle
            } else {
                &orders.for_stores
            };
            // First outside of the nest, then wherever there is room.
            for outside in [true, false] {
                for &id in order {
                    if count == 0 {
                        break;
                    }
                    let cell = &mut self.cells[id as usize];
                    let free = match *cell {
                        Cell::Empty => !outside || orders.rank[id as usize] > ring,
                        // Honey over the brood is carried up to make room for a band of pollen.
                        Cell::Honey => kind == Cell::Pollen && outside,
                        Cell::Nectar => kind != Cell::Nectar && outside,
                        Cell::Hatched(_) => !outside,
                        _ => false,
                    };
                    if free {
                        *cell = kind;
                        count -= 1;
                    }
                }
            }
            self.without_place += count;
        }
    }
}
