//! How fast mites grow: the theory of a colony that stays as it is.
//!
//! Mites on bees enter cells, and come out of them as many days later as these are capped. In a colony that
//! does not change that is a matrix, the same each day ([`Still::matrix`]), and mites grow by its largest
//! eigenvalue. The matrix is that of a life cycle with two loops, so that the eigenvalue is the one
//! positive root of a short equation ([`Still::growth`]).

use crate::Parameters;
use crate::colony::Colony;
use crate::forage::Conditions;
use crate::math::{exp, ln, most};
use crate::mites::{MitesParameters, hazard, maturing};

/// A colony that does not change, as mites meet it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Still {
    /// Weight of all adult bees, g.
    pub bees_g: f64,
    /// Worker cells capped in a day.
    pub worker_capped: f64,
    /// Drone cells capped in a day.
    pub drone_capped: f64,
    /// Days that a worker cell is capped.
    pub worker_d: usize,
    /// Days that a drone cell is capped.
    pub drone_d: usize,
    /// Daily death risk of a mite on bees.
    pub death: f64,
    /// Mites that come out of worker cells alive, for each mother that went in.
    pub out_of_worker: f64,
    /// Mites that come out of drone cells alive, for each mother that went in.
    pub out_of_drone: f64,
}

impl Still {
    /// A colony as it stands at nightfall: its bees, the cells that it capped over the last two weeks, as
    /// crowded with mites as they are, in the season that it is.
    pub fn of(colony: &Colony, today: &Conditions, p: &Parameters) -> Self {
        let worker = &colony.worker_brood;
        let drones = colony.drone_brood.iter().map(|nest| &nest.brood);
        let drone_d = drones
            .clone()
            .map(|brood| brood.stages.capped)
            .next()
            .unwrap_or(1);
        let (mut drone_cells, mut drone_mites) = (0.0, 0.0);
        for brood in drones {
            drone_cells += brood.capped();
            drone_mites += brood.mites();
        }
        let worker_d = worker.stages.capped;
        let load = |mites: f64, cells: f64| mites / most(cells, 1.0);
        let maturing = |load: f64| maturing(load, today.ten_days_c, &p.mites);
        let in_worker = maturing(load(worker.mites(), colony.stock.capped));
        let in_drone = maturing(load(drone_mites, drone_cells));
        Self {
            bees_g: colony.stock.adults.adults() * p.mites.bee_g,
            worker_capped: colony.stock.capped / worker_d as f64,
            drone_capped: drone_cells / drone_d as f64,
            worker_d,
            drone_d,
            death: (p.mites.death_on_bees + colony.recent.house_death).min(1.0),
            out_of_worker: (1.0 + p.mites.daughters_worker * in_worker) * p.mites.survive_worker,
            out_of_drone: (1.0 + p.mites.daughters_drone * in_drone) * p.mites.survive_drone,
        }
    }

    /// Chances of a mite on bees today: to stay there alive, to enter a worker cell, to enter a drone cell.
    fn chances(&self, p: &MitesParameters) -> (f64, f64, f64) {
        let (into_worker, into_drone) =
            hazard(self.worker_capped, self.drone_capped, self.bees_g, p);
        let all = into_worker + into_drone;
        let enters = 1.0 - exp(-all);
        let share = if all > 0.0 { into_worker / all } else { 0.0 };
        let stays = (1.0 - enters) * (1.0 - self.death);
        (stays, enters * share, enters * (1.0 - share))
    }

    /// One day of its mites: rows are tomorrow's places, columns today's; first the mites on bees, then worker
    /// cells by days since capping, then drone cells.
    pub fn matrix(&self, p: &MitesParameters) -> Vec<Vec<f64>> {
        let (worker_d, drone_d) = (self.worker_d, self.drone_d);
        let size = 1 + worker_d + drone_d;
        let mut matrix = vec![vec![0.0; size]; size];
        let (stays, into_worker, into_drone) = self.chances(p);
        matrix[0][0] = stays;
        matrix[1][0] = into_worker;
        matrix[1 + worker_d][0] = into_drone;
        for day in 1..worker_d {
            matrix[1 + day][day] = 1.0;
        }
        for day in 1..drone_d {
            matrix[1 + worker_d + day][worker_d + day] = 1.0;
        }
        // What comes out today is on bees tonight; it dies and enters again from tomorrow.
        matrix[0][worker_d] = self.out_of_worker;
        matrix[0][worker_d + drone_d] = self.out_of_drone;
        matrix
    }

    /// Growth of its mites, 1/d: the logarithm of the largest eigenvalue of [`Still::matrix`]; negative where
    /// they grow fewer.
    ///
    /// With growth r, a mite on bees today came from one on bees yesterday, or came out of a cell that was
    /// entered as many days ago as it was capped, and one more: e^r = stays + worker e^(-12 r) + drone e^(-14 r).
    /// The left side rises with r and the right side falls, so that there is one root; Newton's steps are
    /// kept between bounds that close in on it.
    pub fn growth(&self, p: &MitesParameters) -> f64 {
        let (stays, into_worker, into_drone) = self.chances(p);
        let (worker, drone) = (
            into_worker * self.out_of_worker,
            into_drone * self.out_of_drone,
        );
        let (worker_d, drone_d) = (self.worker_d as f64, self.drone_d as f64);
        // No mite multiplies more than this in a day, and fewer are left of none.
        let (mut low, mut high) = (-3.0, 3.0);
        let mut r = 0.0;
        for _ in 0..60 {
            let (grown, from_worker, from_drone) = (
                exp(r),
                worker * exp(-worker_d * r),
                drone * exp(-drone_d * r),
            );
            let gap = grown - stays - from_worker - from_drone;
            if gap > 0.0 {
                high = r;
            } else {
                low = r;
            }
            let slope = grown + worker_d * from_worker + drone_d * from_drone;
            let newton = r - gap / slope;
            let next = if low < newton && newton < high {
                newton
            } else {
                0.5 * (low + high)
            };
            if (next - r).abs() < 1e-13 {
                return next;
            }
            r = next;
        }
        r
    }
}

/// Days in which mites double at a growth of `rate` (1/d); `None` where they do not grow.
///
/// ```
/// use combcast_core::growth::doubling_d;
/// assert_eq!(doubling_d(0.02).map(f64::round), Some(35.0));
/// assert_eq!(doubling_d(-0.01), None);
/// ```
pub fn doubling_d(rate: f64) -> Option<f64> {
    (rate > 0.0).then(|| ln(2.0) / rate)
}

/// Days of growth at `rate` (1/d) that a removal of this `share` of all mites takes back; `None` where they do
/// not grow, or all are removed.
///
/// ```
/// use combcast_core::growth::days_bought;
/// // Half of them gone: one doubling.
/// assert_eq!(days_bought(0.5, 0.02).map(f64::round), Some(35.0));
/// ```
pub fn days_bought(share: f64, rate: f64) -> Option<f64> {
    (rate > 0.0 && share < 1.0).then(|| -ln(1.0 - share) / rate)
}
