//! The lattice of one frame: where each cell lies on its two faces, and in which order comb is drawn.

use std::sync::Arc;

use super::noise;
use crate::comb::{CombParameters, Frame};
use crate::nest::{WIDTH_CM, behind_cm, height_cm};
use crate::order;
use crate::scenario::{BoxSize, Comb};

/// What decides whether a frame on one day is the frame of the day before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Seat {
    pub in_box: usize,
    pub position: usize,
    pub size: BoxSize,
    /// Its cells are as wide as drones need.
    pub for_drones: bool,
}

impl Seat {
    pub fn of(frame: &Frame) -> Self {
        Self {
            in_box: frame.in_box,
            position: frame.position,
            size: frame.size,
            for_drones: matches!(frame.kind, Comb::DroneFrame | Comb::DrawnDroneFrame),
        }
    }
}

/// The cells of one frame: row by row from the top, left to right, the first face and then the second.
#[derive(Debug, Clone)]
pub struct Lattice {
    pub(super) seat: Seat,
    /// Cells in a row.
    pub columns: usize,
    /// Rows of a face.
    pub rows: usize,
    /// Cells on a face: full rows, as many as the model's or a few more.
    pub cells: usize,
    /// Where its first cell stands among all.
    pub(super) start: usize,
    /// How many cells of both faces are drawn.
    pub(super) drawn: usize,
    /// Cells of both faces in the order in which bees draw them.
    pub(super) order: Arc<[u32]>,
    /// Its drone brood is counted apart.
    pub(super) own_drones: bool,
    /// Then: its cells in the order in which drone eggs are laid.
    pub(super) for_drones: Arc<[u32]>,
}

/// Where a cell lies in the hive, cm: to the right of the middle, above the floor, behind the middle comb.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    pub across: f64,
    pub up: f64,
    pub behind: f64,
}

impl Lattice {
    /// Its size alone: the orders of its cells are put in by [`Lattice::with_orders`].
    pub(super) fn new(frame: &Frame, start: usize, p: &CombParameters) -> Self {
        let seat = Seat::of(frame);
        let area = if seat.for_drones {
            p.drone_cell_area
        } else {
            1.0
        };
        let wanted = libm::floor(frame.room / (2.0 * area)) as usize;
        // A face of 3,500 cells has 80 columns and 44 rows.
        let shape = height_cm(seat.size) / WIDTH_CM * 1.155;
        let rows = (libm::round(libm::sqrt(wanted as f64 * shape)) as usize).max(1);
        let columns = wanted.div_ceil(rows);
        Self {
            seat,
            columns,
            rows,
            cells: rows * columns,
            start,
            drawn: 0,
            order: Arc::default(),
            own_drones: frame.has_drone_comb(),
            for_drones: Arc::default(),
        }
    }

    /// With the orders in which comb is drawn, and in which drone eggs are laid: from the middle of a drone frame, low on others.
    pub(super) fn with_orders(mut self) -> Self {
        self.order = self.ordered(|cell| self.draw_cost(cell));
        if self.own_drones {
            let low = if self.seat.for_drones { 0.6 } else { 0.95 };
            self.for_drones = self.ordered(|cell| {
                let (across, down) = self.share(cell);
                let away = across * across + 1.5 * (down - low) * (down - low);
                away + 0.03 * noise(cell, 7)
            });
        }
        self
    }

    fn ordered(&self, cost: impl Fn(u32) -> f64) -> Arc<[u32]> {
        let mut cells: Vec<u32> = (0..2 * self.cells as u32).collect();
        let costs: Vec<i64> = cells.iter().map(|&cell| order::rank(cost(cell))).collect();
        order::by_key(&mut cells, |&cell| costs[cell as usize]);
        cells.into()
    }

    /// Whether its cells lie as those of another, and are drawn and laid in in the same order.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        (self.seat, self.columns, self.rows, self.own_drones)
            == (other.seat, other.columns, other.rows, other.own_drones)
    }

    /// Its box, from the bottom, 0 the lowest.
    pub fn in_box(&self) -> usize {
        self.seat.in_box
    }

    /// Its place in the box from left to right, 0 the first.
    pub fn place(&self) -> usize {
        self.seat.position
    }

    /// A medium frame.
    pub fn is_medium(&self) -> bool {
        self.seat.size == BoxSize::Medium
    }

    /// Its cells are as wide as drones need.
    pub fn is_for_drones(&self) -> bool {
        self.seat.for_drones
    }

    /// Where its cells stand among all.
    pub(super) fn range(&self) -> std::ops::Range<usize> {
        self.start..self.start + 2 * self.cells
    }

    /// Right of the middle and below the top, each as a share of the face: -1 to 1 and 0 to 1.
    fn share(&self, cell: u32) -> (f64, f64) {
        let on_face = cell as usize % self.cells;
        let (row, column) = (on_face / self.columns, on_face % self.columns);
        let shift = 0.5 * (row % 2) as f64;
        (
            2.0 * (column as f64 + 0.25 + shift) / self.columns as f64 - 1.0,
            (row as f64 + 0.5) / self.rows as f64,
        )
    }

    /// Comb grows down and outwards from the middle of the top bar, with a ragged edge.
    fn draw_cost(&self, cell: u32) -> f64 {
        let (across, down) = self.share(cell);
        let ragged = noise(cell, 17 + self.seat.position as u32) * 0.08;
        across * across + down * down + ragged
    }

    /// Where a cell lies in a hive whose boxes stand at these heights, cm.
    pub(super) fn spot(&self, cell: u32, floors_cm: &[f64], places: usize) -> Spot {
        let (across, down) = self.share(cell);
        let side = if (cell as usize) < self.cells {
            -0.6
        } else {
            0.6
        };
        Spot {
            across: across * WIDTH_CM / 2.0,
            up: floors_cm[self.seat.in_box] + (1.0 - down) * height_cm(self.seat.size),
            behind: behind_cm(self.seat.position, places) + side,
        }
    }
}
