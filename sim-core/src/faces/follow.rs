//! From one evening to the next: what was is kept in its place as far as the model still counts it.

use std::sync::Arc;

use super::lattice::{Lattice, Seat};
use super::patterns::Patterns;
use super::{Cell, Faces, noise};
use crate::Parameters;
use crate::brood::{Brood, MOST_DAYS, Stages};
use crate::colony::Colony;
use crate::order;
use crate::queen::QueenState;

/// Share of cells that the queen passes over, so that they stay empty for a round.
const PASSED_OVER: f64 = 0.06;

/// Where brood lies that the model counts together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Nest {
    Worker,
    /// Of a frame that has its own, or of all others.
    Drone(Option<usize>),
}

/// The brood of one day in one nest.
#[derive(Debug, Clone)]
pub(super) struct Cohort {
    nest: Nest,
    laid: i16,
    /// Its cells, each with a number by lot in front.
    cells: Vec<i64>,
}

/// A cell with a number by lot in front, by which some of a cohort die.
fn with_lot(cell: u32) -> i64 {
    let lot = (noise(cell, 3) * f64::from(u32::MAX)) as u32;
    i64::from(lot as i32) << 32 | i64::from(cell)
}

fn whole(cells: f64) -> usize {
    libm::round(cells.max(0.0)) as usize
}

impl Faces {
    /// The next evening: everything that was is kept in its place as far as the model still counts it.
    pub(super) fn follow(
        &mut self,
        day: i16,
        colony: &Colony,
        p: &Parameters,
        patterns: &mut Patterns,
    ) {
        self.day = day;
        self.without_place = 0;
        self.stages = Some((colony.worker_brood.stages, Stages::drone(&p.brood)));
        let seated = self.seat_frames(colony, p, patterns);
        let lost = self.draw_comb(colony);
        if seated || lost {
            self.take_stock();
        }
        let workers = &colony.worker_brood;
        self.hatch(workers.stages.total(), Stages::drone(&p.brood).total());
        let missing = self.trim(workers, Nest::Worker);
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

    /// Gives every frame its lattice; what a frame held stays with it while it stays in its place. Returns whether there are others than before.
    fn seat_frames(&mut self, colony: &Colony, p: &Parameters, patterns: &mut Patterns) -> bool {
        let frames = &colony.frames.frames;
        let same = frames.len() == self.lattices.len()
            && frames
                .iter()
                .zip(&self.lattices)
                .all(|(frame, lattice)| lattice.seat == Seat::of(frame));
        if same {
            return false;
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
                    let lattice = patterns.lattice(frame, start, &p.comb);
                    self.cells.resize(start + 2 * lattice.cells, Cell::Undrawn);
                    lattice
                }
            };
            self.lattices.push(lattice);
        }
        self.orders = patterns.orders(&self.lattices, &colony.frames.boxes);
        true
    }

    /// Returns whether comb was lost, with what lay in it.
    fn draw_comb(&mut self, colony: &Colony) -> bool {
        let mut lost = false;
        for (lattice, frame) in self.lattices.iter_mut().zip(&colony.frames.frames) {
            let all = 2 * lattice.cells;
            let drawn = whole(frame.drawn / frame.room * all as f64).min(all);
            let (from, to, cell) = if drawn >= lattice.drawn {
                (lattice.drawn, drawn, Cell::Empty)
            } else {
                lost = true;
                (drawn, lattice.drawn, Cell::Undrawn)
            };
            for &changed in &lattice.order[from..to] {
                self.cells[lattice.start + changed as usize] = cell;
            }
            lattice.drawn = drawn;
        }
        lost
    }

    /// Lists anew what lies in the cells: their places have changed.
    fn take_stock(&mut self) {
        (self.brood, self.hatched, self.stored) = Default::default();
        for frame in 0..self.lattices.len() {
            let lattice = &self.lattices[frame];
            let drones = Nest::Drone(lattice.own_drones.then_some(frame));
            for id in lattice.range() {
                match self.cells[id] {
                    Cell::Worker(laid) => self.cohort(Nest::Worker, laid).push(with_lot(id as u32)),
                    Cell::Drone(laid) => self.cohort(drones, laid).push(with_lot(id as u32)),
                    Cell::Hatched(_) => self.hatched.push(id as u32),
                    cell => {
                        if let Some(kind) = cell.store() {
                            self.stored[kind] += 1;
                        }
                    }
                }
            }
        }
    }

    /// The cells of a cohort, each with its lot; none where there is no such cohort yet.
    fn cohort(&mut self, nest: Nest, laid: i16) -> &mut Vec<i64> {
        let known = self
            .brood
            .iter()
            .position(|cohort| (cohort.nest, cohort.laid) == (nest, laid));
        let at = known.unwrap_or_else(|| {
            self.brood.push(Cohort {
                nest,
                laid,
                cells: Vec::new(),
            });
            self.brood.len() - 1
        });
        &mut self.brood[at].cells
    }

    /// Puts something into a cell that has no brood.
    fn put(&mut self, id: u32, cell: Cell) {
        let before = std::mem::replace(&mut self.cells[id as usize], cell);
        if let Some(kind) = before.store() {
            self.stored[kind] -= 1;
        }
        if let Some(kind) = cell.store() {
            self.stored[kind] += 1;
        }
    }

    /// Bees come out after so many days as worker and as drone; the cells that were left the day before are empty.
    fn hatch(&mut self, worker_days: usize, drone_days: usize) {
        for id in std::mem::take(&mut self.hatched) {
            let cell = &mut self.cells[id as usize];
            if matches!(*cell, Cell::Hatched(_)) {
                *cell = Cell::Empty;
            }
        }
        let (cells, hatched, day) = (&mut self.cells, &mut self.hatched, self.day);
        self.brood.retain(|cohort| {
            let days = match cohort.nest {
                Nest::Worker => worker_days,
                Nest::Drone(_) => drone_days,
            };
            let stays = ((day - cohort.laid) as usize) < days;
            if !stays {
                for &cell in &cohort.cells {
                    cells[cell as u32 as usize] = Cell::Hatched(day);
                    hatched.push(cell as u32);
                }
            }
            stays
        });
    }

    /// Takes out brood that the model counts no more, here and there in a nest; returns how many cells of each age are missing.
    fn trim(&mut self, brood: &Brood, nest: Nest) -> [usize; MOST_DAYS] {
        std::array::from_fn(|age| {
            let counted = whole(brood.cells[age]);
            let laid = self.day - age as i16;
            let cohort = self.cohort(nest, laid);
            let there = cohort.len();
            if there > counted {
                order::whole(cohort);
                for dead in cohort.split_off(counted) {
                    self.cells[dead as u32 as usize] = Cell::Empty;
                }
            }
            counted.saturating_sub(there)
        })
    }

    /// Drone brood: each drone frame and foundationless frame its own, the rest at corners of worker comb.
    fn follow_drones(&mut self, colony: &Colony) {
        let orders = Arc::clone(&self.orders);
        for nest in &colony.drone_brood {
            let missing = self.trim(&nest.brood, Nest::Drone(nest.frame));
            let own = nest.frame.map(|frame| {
                let lattice = &self.lattices[frame];
                (lattice.start as u32, Arc::clone(&lattice.for_drones))
            });
            let (start, order) = own
                .as_ref()
                .map_or((0, &orders.corners[..]), |(start, order)| (*start, order));
            let mut places = order.iter().map(|&cell| start + cell);
            for (age, &count) in missing.iter().enumerate() {
                let laid = self.day - age as i16;
                for _ in 0..count {
                    let free = |&id: &u32| {
                        let cell = self.cells[id as usize];
                        !matches!(cell, Cell::Undrawn | Cell::Worker(_) | Cell::Drone(_))
                    };
                    match places.by_ref().find(free) {
                        Some(id) => {
                            self.put(id, Cell::Drone(laid));
                            self.cohort(Nest::Drone(nest.frame), laid)
                                .push(with_lot(id));
                        }
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
                    self.put(id, Cell::Empty);
                    surplus -= 1;
                }
            }
        }
        wanted
    }

    fn count(&self, kind: Cell) -> usize {
        kind.store().map_or(0, |kind| self.stored[kind])
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
                        let day = self.day - age as i16;
                        self.put(id, Cell::Worker(day));
                        self.cohort(Nest::Worker, day).push(with_lot(id));
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
                    let free = match self.cells[id as usize] {
                        Cell::Empty => !outside || orders.rank[id as usize] > ring,
                        // Honey over the brood is carried up to make room for a band of pollen.
                        Cell::Honey => kind == Cell::Pollen && outside,
                        Cell::Nectar => kind != Cell::Nectar && outside,
                        Cell::Hatched(_) => !outside,
                        _ => false,
                    };
                    if free {
                        self.put(id, kind);
                        count -= 1;
                    }
                }
            }
            self.without_place += count;
        }
    }
}
