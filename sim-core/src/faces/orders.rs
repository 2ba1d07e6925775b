//! In which order the cells of a hive are laid in and filled.

use super::lattice::{Lattice, Spot};
use super::noise;
use crate::comb::Storey;
use crate::nest;
use crate::order;

/// Orders of the cells of a hive.
#[derive(Debug, Default)]
pub(super) struct Orders {
    /// Worker cells from the middle of the nest outwards.
    pub from_middle: Vec<u32>,
    /// Worker cells in the order in which stores go into them.
    pub for_stores: Vec<u32>,
    /// Worker cells at lower corners, from the nest outwards.
    pub corners: Vec<u32>,
    /// Rank of each cell in `from_middle`; the last for cells on drone frames.
    pub rank: Vec<u32>,
}

impl Orders {
    pub fn new(lattices: &[Lattice], boxes: &[Storey]) -> Self {
        let floors_cm = nest::floors_cm(boxes);
        let (mut middle, mut stores, mut corners) = (Vec::new(), Vec::new(), Vec::new());
        let workers = lattices.iter().filter(|lattice| !lattice.is_for_drones());
        for lattice in workers {
            let places = boxes[lattice.in_box()].places;
            for cell in 0..2 * lattice.cells as u32 {
                let Spot { across, up, behind } = lattice.spot(cell, &floors_cm, places);
                let id = lattice.start as u32 + cell;
                let high = nest::above_middle_cm(up);
                let away = nest::out_cm(across, high, behind);
                middle.push(keyed(away + noise(id, 1), id));
                stores.push(keyed(away + nest::pull_cm(high) + 1.5 * noise(id, 2), id));
                let above = up - floors_cm[lattice.in_box()];
                if !lattice.own_drones {
                    let beside = libm::fabs(libm::fabs(across) - 15.0);
                    corners.push(keyed(beside + 2.5 * above + 0.6 * libm::fabs(behind), id));
                }
            }
        }
        let from_middle = ids(middle);
        let all = lattices.last().map_or(0, |lattice| lattice.range().end);
        let mut rank = vec![u32::MAX; all];
        for (place, &id) in from_middle.iter().enumerate() {
            rank[id as usize] = place as u32;
        }
        Self {
            from_middle,
            for_stores: ids(stores),
            corners: ids(corners),
            rank,
        }
    }
}

/// A cell with its cost, as one whole number that sorts quickly.
fn keyed(cost: f64, id: u32) -> i64 {
    // Costs lie within 100 cm of zero.
    (((cost + 1000.0) * 10_000.0) as i64) << 32 | i64::from(id)
}

fn ids(mut keyed: Vec<i64>) -> Vec<u32> {
    order::whole(&mut keyed);
    keyed.into_iter().map(|key| key as u32).collect()
}
