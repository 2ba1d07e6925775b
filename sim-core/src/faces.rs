//! What each cell of each comb holds, for drawing: the model's numbers laid out the way a nest grows.
//!
//! The model counts brood and stores for the hive as a whole (drone frames apart). Here every one of
//! these cells gets a place that it keeps from day to day: the queen lays from the middle of the nest
//! outwards into what is free, young bees leave cells that are laid in again, pollen lies around the
//! brood, nectar and honey above and outside. The places are a picture; the counts are the model's own.

mod follow;
mod lattice;
mod orders;
mod patterns;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::brood::Stages;
use crate::colony::Colony;
use crate::draw::{Mean, Random};
use crate::scenario::Mode;
use crate::season::Prepared;
use crate::{Error, Parameters};

use follow::Cohort;
pub use lattice::Lattice;
use orders::Orders;
use patterns::Patterns;

/// Days from one set of faces that an album keeps to the next.
const KEPT_EVERY: usize = 8;

/// What a cell holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Cell {
    Undrawn,
    Empty,
    /// A bee came out on this day.
    Hatched(i16),
    /// Laid on this day, counted from the first of the season; before it: below zero.
    Worker(i16),
    Drone(i16),
    Pollen,
    Nectar,
    Honey,
}

impl Cell {
    /// Its place in [`Faces::stored`].
    fn store(self) -> Option<usize> {
        match self {
            Cell::Pollen => Some(0),
            Cell::Honey => Some(1),
            Cell::Nectar => Some(2),
            _ => None,
        }
    }
}

/// What a cell holds, as one number for drawing: a row for each, in the order of the numbers.
pub const CONTENTS: [&str; 24] = [
    "foundation or an empty frame",
    "being drawn, low walls",
    "being drawn, half high",
    "being drawn, almost done",
    "empty",
    "hatched today",
    "worker egg",
    "worker larva, first sixth of its time",
    "worker larva, second sixth",
    "worker larva, third sixth",
    "worker larva, fourth sixth",
    "worker larva, fifth sixth",
    "worker larva, last sixth",
    "capped worker",
    "drone egg",
    "drone larva, first sixth of its time",
    "drone larva, second sixth",
    "drone larva, third sixth",
    "drone larva, fourth sixth",
    "drone larva, fifth sixth",
    "drone larva, last sixth",
    "capped drone",
    "pollen",
    "nectar or syrup",
];
/// The number of ripe honey, after those of [`CONTENTS`].
pub const HONEY: u8 = CONTENTS.len() as u8;

const EMPTY: u8 = 4;
const HATCHED: u8 = 5;
const WORKER_EGG: u8 = 6;
const DRONE_EGG: u8 = 14;
const POLLEN: u8 = 22;
const NECTAR: u8 = 23;

/// The cells of a hive on one evening.
#[derive(Debug, Clone, Default)]
pub struct Faces {
    lattices: Vec<Lattice>,
    cells: Vec<Cell>,
    orders: Arc<Orders>,
    /// All cells with brood, by nest and day.
    brood: Vec<Cohort>,
    /// All cells that a bee has left.
    hatched: Vec<u32>,
    /// How many cells hold pollen, honey, nectar.
    stored: [usize; 3],
    day: i16,
    /// Stages of worker and of drone brood.
    stages: Option<(Stages, Stages)>,
    queen: Option<u32>,
    /// Cells of the model that found no place: none, unless parameters contradict the lattice.
    pub without_place: usize,
}

/// The faces of a whole season, worked out as far as somebody looks.
#[derive(Debug)]
pub struct Album {
    evenings: Vec<Colony>,
    parameters: Parameters,
    kept: BTreeMap<usize, Faces>,
    patterns: Patterns,
}

impl Album {
    /// The album of a prepared season. One with the same frames is ready several times sooner after `another`, whatever that was of.
    ///
    /// # Errors
    /// As [`Prepared::run`].
    pub fn new(prepared: &Prepared, another: Option<Self>) -> Result<Self, Error> {
        let mut evenings = Vec::with_capacity(prepared.conditions.len());
        let keep = |colony: &Colony, _: &_| evenings.push(colony.clone());
        match prepared.mode() {
            Mode::Mean => prepared.run_bare(&mut Mean, keep),
            Mode::Random => prepared.run_bare(&mut Random::new(prepared.seed(), 0), keep),
        }?;
        Ok(Self {
            evenings,
            parameters: prepared.parameters.clone(),
            kept: BTreeMap::new(),
            patterns: another.map(|album| album.patterns).unwrap_or_default(),
        })
    }

    /// The colony on each evening.
    pub fn evenings(&self) -> &[Colony] {
        &self.evenings
    }

    /// The faces on the evening of a day, counted from 0; after the last day: on the last.
    pub fn on(&mut self, day: usize) -> Faces {
        let day = day.min(self.evenings.len().saturating_sub(1));
        let before = self.kept.range(..=day).next_back();
        let (mut next, mut faces) = before.map_or((0, Faces::default()), |(&kept, faces)| {
            (kept + 1, faces.clone())
        });
        while next <= day {
            if let Some(colony) = self.evenings.get(next) {
                faces.follow(next as i16, colony, &self.parameters, &mut self.patterns);
            }
            if next % KEPT_EVERY == 0 {
                self.kept.insert(next, faces.clone());
            }
            next += 1;
        }
        faces
    }
}

/// A whole number for each cell and salt, evenly spread over 0 to 1.
fn noise(cell: u32, salt: u32) -> f64 {
    let mut x = cell.wrapping_mul(0x9E37_79B1) ^ salt.wrapping_mul(0x85EB_CA6B);
    x ^= x >> 15;
    x = x.wrapping_mul(0x2C1B_3C6D);
    x ^= x >> 12;
    x = x.wrapping_mul(0x297A_2D39);
    x ^= x >> 15;
    f64::from(x) / f64::from(u32::MAX)
}

impl Faces {
    /// The frames, in the order of the model's.
    pub fn frames(&self) -> &[Lattice] {
        &self.lattices
    }

    /// What each cell of a frame holds, as in [`CONTENTS`]: row by row from the top, first face, second face.
    pub fn contents(&self, frame: usize) -> Vec<u8> {
        let lattice = &self.lattices[frame];
        let cells = &self.cells[lattice.range()];
        let mut codes: Vec<u8> = cells.iter().map(|&cell| self.code(cell)).collect();
        // The edge of the comb rises in three steps.
        if lattice.drawn > 0 {
            let step = lattice.cells / 40;
            for (k, &cell) in lattice.order[lattice.drawn..]
                .iter()
                .take(3 * step)
                .enumerate()
            {
                codes[cell as usize] = 3 - (k / step.max(1)) as u8;
            }
        }
        codes
    }

    /// Where the queen is: frame, and cell of its two faces; on the brood that she laid last.
    pub fn queen(&self) -> Option<(usize, usize)> {
        let cell = self.queen? as usize;
        let frame = self
            .lattices
            .iter()
            .rposition(|lattice| lattice.start <= cell)?;
        Some((frame, cell - self.lattices[frame].start))
    }

    fn code(&self, cell: Cell) -> u8 {
        let Some((worker, drone)) = self.stages else {
            return 0;
        };
        let brood = |first: u8, stages: Stages, laid: i16| {
            let age = usize::try_from(self.day - laid).unwrap_or(0);
            if age < stages.egg {
                first
            } else if age < stages.open() {
                first + 1 + (6 * (age - stages.egg) / stages.larva.max(1)) as u8
            } else {
                first + 7
            }
        };
        match cell {
            Cell::Undrawn => 0,
            Cell::Empty => EMPTY,
            Cell::Hatched(_) => HATCHED,
            Cell::Worker(laid) => brood(WORKER_EGG, worker, laid),
            Cell::Drone(laid) => brood(DRONE_EGG, drone, laid),
            Cell::Pollen => POLLEN,
            Cell::Nectar => NECTAR,
            Cell::Honey => HONEY,
        }
    }
}
