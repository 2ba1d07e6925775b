//! Drone comb as a trap for mites: taking it out, freezing it, swapping it, cutting it out.

use super::bees::place_of;
use super::layout::DroneBrood;
use super::{Done, Hand, Result, Shelved};
use crate::comb::Frame;
use crate::growth::{Still, days_bought};
use crate::math::most;
use crate::scenario::Comb;
use crate::scenario::moves::At;
use crate::words::Saying;

/// What is looked for, and what is said where it is not at a place or not in the hive.
struct Wanted {
    is: fn(&Frame) -> bool,
    not_there: fn() -> Saying,
    none: fn() -> Saying,
}

const DRONE_FRAME: Wanted = Wanted {
    is: is_drone_frame,
    not_there: || Saying::new(|words| words.refusals.not_a_drone_frame),
    none: || Saying::new(|words| words.refusals.no_drone_frame),
};

const FOUNDATIONLESS: Wanted = Wanted {
    is: |frame| frame.kind == Comb::Foundationless,
    not_there: || Saying::new(|words| words.refusals.not_foundationless),
    none: || Saying::new(|words| words.refusals.no_foundationless),
};

fn is_drone_frame(frame: &Frame) -> bool {
    matches!(frame.kind, Comb::DroneFrame | Comb::DrawnDroneFrame)
}

impl Hand<'_> {
    /// The drone frame (or foundationless frame) at a place, or the one with most drone brood.
    fn find(&self, at: Option<At>, wanted: &Wanted) -> Result<usize> {
        let frames = &self.colony.frames.frames;
        if let Some(at) = at {
            let index = self.frame_at(at)?;
            if !(wanted.is)(&frames[index]) {
                return Err((wanted.not_there)().at(at));
            }
            return Ok(index);
        }
        let brood = |i: usize| -> f64 {
            let nests = self.colony.drone_brood.iter();
            nests
                .filter(|nest| nest.frame == Some(i))
                .map(|nest| nest.brood.all())
                .sum()
        };
        (0..frames.len())
            .filter(|&i| (wanted.is)(&frames[i]))
            .max_by(|&a, &b| brood(a).total_cmp(&brood(b)).then(b.cmp(&a)))
            .ok_or_else(wanted.none)
    }

    /// Says what a removal came to: there were `all_mites` before it, and its wax took `comb_g` of honey.
    fn told(&mut self, drone: &DroneBrood, comb_g: f64, said: Saying, all_mites: f64) -> Done {
        // What is left grows as it does without the frame.
        self.colony.take_stock();
        let still = Still::of(self.colony, self.conditions, self.parameters);
        let growth = still.growth(&self.parameters.mites);
        let p = self.parameters;
        let share = if all_mites > 0.0 {
            drone.mites / all_mites
        } else {
            0.0
        };
        let bought = days_bought(share, growth).filter(|_| drone.mites >= 0.5);
        let mut said = said
            .and(|words| words.moves.drone_cells)
            .grouped("open", drone.open)
            .grouped("capped", drone.capped)
            .grouped("emerged", drone.emerged);
        if all_mites > 0.0 {
            said = said
                .and(|words| words.moves.mites_removed)
                .grouped("mites", drone.mites)
                .decimal("share", 100.0 * share, 0);
        }
        if let Some(days) = bought {
            said = said
                .and(|words| words.moves.days_bought)
                .decimal("days", days, 0);
        }
        let honey = drone.sugar_eaten_g + comb_g;
        // What a worker larva is fed until it is capped.
        let of_a_worker = p.stores.larva_g * self.colony.worker_brood.stages.larva as f64;
        let larvae = drone.sugar_eaten_g / most(of_a_worker, 1e-9);
        if honey >= 5.0 {
            said = said
                .and(|words| words.moves.drones_cost)
                .grouped("drones", drone.all())
                .grams("honey", honey)
                .grouped("larvae", larvae);
        }
        let mut done = Done::new(said)
            .with("drone_cells_open", drone.open)
            .with("drone_cells_capped", drone.capped)
            .with("drones_emerged", drone.emerged)
            .with("mites_removed", drone.mites)
            .with("share_of_mites", share)
            .with("drones_lost", drone.all())
            .with("worker_larvae_cost", larvae)
            .with("honey_cost_kg", honey / 1000.0)
            .with(
                "pollen_cost_kg",
                drone.sugar_eaten_g * p.stores.larva_pollen_g / p.stores.larva_g / 1000.0,
            );
        if let Some(days) = bought {
            done = done.with("days_of_growth_bought", days);
        }
        done
    }

    fn all_mites(&self) -> f64 {
        self.colony.mites.on_bees + self.colony.stock.mites_in_cells
    }

    /// Honey that its wax took, g.
    fn wax_g(&self, frame: &Frame) -> f64 {
        let p = &self.parameters.comb;
        let part = if frame.kind == Comb::DroneFrame {
            p.waxed_foundation
        } else {
            1.0
        };
        frame.drawn * p.honey_per_cell_g * part
    }

    fn lift(&mut self, at: Option<At>, said: Saying) -> Result<(Frame, Done)> {
        let index = self.find(at, &DRONE_FRAME)?;
        self.can_spare(&[index])?;
        let mites = self.all_mites();
        let mut frame = self.colony.frames.frames[index];
        let drone = self.take_out(&[index]).drone;
        let done = self.told(&drone, 0.0, said, mites);
        if frame.drawn >= frame.room {
            frame.kind = Comb::DrawnDroneFrame;
        }
        Ok((frame, done))
    }

    pub(super) fn take_drone_frame(&mut self, at: Option<At>) -> Result {
        let (frame, done) = self.lift(at, Saying::new(|words| words.moves.drone_frame_out))?;
        self.colony.beekeeping.shed.push(Shelved {
            frame,
            back_on: None,
        });
        Ok(done)
    }

    pub(super) fn freeze_drone_frame(&mut self, hours: f64, at: Option<At>) -> Result {
        let (frame, done) = self.lift(at, Saying::new(|words| words.moves.drone_frame_frozen))?;
        let days = libm::ceil(hours / 24.0) as u32;
        self.colony.beekeeping.shed.push(Shelved {
            frame,
            back_on: Some(self.day + days),
        });
        Ok(done)
    }

    pub(super) fn swap_drone_frames(&mut self, at: Option<At>) -> Result {
        let (frame, done) = self.lift(at, Saying::new(|words| words.moves.drone_frames_swapped))?;
        let ours = |kept: &Shelved| {
            kept.back_on.is_none() && is_drone_frame(&kept.frame) && kept.frame.size == frame.size
        };
        let spare = self.colony.beekeeping.shed.iter().position(ours);
        let place = (frame.in_box, frame.position);
        let mut twin = match spare {
            Some(index) => self.colony.beekeeping.shed.remove(index).frame,
            None => Frame::new(Comb::DroneFrame, frame.size, place, &self.parameters.comb),
        };
        (twin.in_box, twin.position) = place;
        self.rearrange(|slots| slots.push((twin, None)));
        self.colony.beekeeping.shed.push(Shelved {
            frame,
            back_on: None,
        });
        Ok(done)
    }

    pub(super) fn cut_out_comb(&mut self, at: Option<At>) -> Result {
        let index = self.find(at, &FOUNDATIONLESS)?;
        let frame = self.colony.frames.frames[index];
        if frame.drawn < 1.0 {
            return Err(Saying::new(|words| words.refusals.nothing_built).at(place_of(&frame)));
        }
        let mites = self.all_mites();
        let taken = self.empty(&[index]);
        let wax = self.wax_g(&frame);
        let said = Saying::new(|words| words.moves.comb_cut_out)
            .grams("honey", taken.sugar_g)
            .grouped("cells", taken.worker_brood);
        let mut drone = taken.drone;
        drone.mites = taken.mites;
        let done = self
            .told(&drone, wax, said, mites)
            .with("worker_brood_taken", taken.worker_brood)
            .with("honey_taken_kg", taken.sugar_g / 1000.0);
        self.rearrange(|slots| {
            let frame = &mut slots[index].0;
            frame.drawn = 0.0;
            frame.drone_part = 0.0;
        });
        Ok(done)
    }
}
