//! Giving and taking bees, brood, stores and honey.

use super::{Done, Hand, Result};
use crate::adults::{Adults, CLASSES};
use crate::brood::Brood;
use crate::colony::FEWEST_ADULTS;
use crate::comb::Frame;
use crate::math::{least, most, sum};
use crate::nest::Contents;
use crate::order;
use crate::scenario::moves::{At, BroodFrames};
use crate::scenario::{BoxSize, Comb};
use crate::words::Saying;

/// Physiological age of the bees that stay on brood when a frame is lifted and shaken, d.
const YOUNG_D: f64 = 14.0;

impl Hand<'_> {
    /// Takes workers away: `house` bees, youngest first if `young`, and `foragers`; with their crops and mites.
    ///
    /// Returns how many bees went, and the mites that went on them.
    pub(super) fn take_workers(&mut self, house: f64, foragers: f64, young: bool) -> (f64, f64) {
        let colony = &mut *self.colony;
        let before = colony.stock.adults.adults();
        if before <= 0.0 {
            return (0.0, 0.0);
        }
        let sound = sum(&colony.adults.house);
        let all_house = most(sound + sum(&colony.damaged.house), 1e-9);
        let all_foragers = most(colony.stock.adults.foragers, 1e-9);
        let mut gone = 0.0;
        for (adults, share_h) in [
            (&mut colony.adults, sound / all_house),
            (&mut colony.damaged, 1.0 - sound / all_house),
        ] {
            let share_f = sum(&adults.foragers) / all_foragers;
            let wanted = house * share_h;
            let mut taken = 0.0;
            if young {
                let mut nurses = [0.0; CLASSES];
                for (k, slot) in nurses.iter_mut().enumerate() {
                    if adults.age[k] < YOUNG_D {
                        *slot = adults.house[k];
                    }
                }
                let kept = nurses;
                taken += self.draw.take(&mut nurses, wanted);
                for k in 0..CLASSES {
                    adults.house[k] -= kept[k] - nurses[k];
                }
            }
            // Mean mode leaves a trace of rounding that is no bee.
            if wanted - taken > 1e-6 {
                taken += self.draw.take(&mut adults.house, wanted - taken);
            }
            taken += self.draw.take(&mut adults.foragers, foragers * share_f);
            gone += taken;
        }
        let p = &self.parameters.stores;
        let share = least(1.0, gone / before);
        let crops = least(colony.stores.unripe_g, p.crop_g * before) * share;
        colony.stores.unripe_g -= crops;
        self.ledger.honey_taken_g += crops;
        let mut on_bees = [colony.mites.on_bees];
        let mites = self.draw.take(&mut on_bees, share * colony.mites.on_bees);
        colony.mites.on_bees = on_bees[0];
        self.ledger.mites_given -= mites;
        self.ledger.workers_given -= gone;
        colony.take_stock();
        (gone, mites)
    }

    /// Refuses when fewer bees than a colony needs would be left.
    pub(super) fn enough_left(&self, taken: f64) -> Result<()> {
        let left = self.colony.stock.adults.adults() - taken;
        if left < FEWEST_ADULTS {
            return Err(Saying::new(|words| words.refusals.too_few_left)
                .grouped("left", most(0.0, left))
                .grouped("all", self.colony.stock.adults.adults()));
        }
        Ok(())
    }

    pub(super) fn shake_out(&mut self, bees: f64, said: Saying) -> Result {
        let house = self.colony.stock.adults.house;
        if bees > house {
            return Err(Saying::new(|words| words.refusals.too_few_to_shake)
                .grouped("bees", bees)
                .grouped("house", house));
        }
        self.enough_left(bees)?;
        let (gone, mites) = self.take_workers(bees, 0.0, false);
        Ok(Done::new(said.grouped("bees", gone))
            .with("bees_taken", gone)
            .with("mites_taken", mites))
    }

    /// Adds workers, `oldest` days old at the most, with a little in their crops.
    pub(super) fn add_workers(&mut self, bees: f64, foragers: f64, oldest: f64) -> (f64, f64) {
        let (bees, foragers) = (libm::round(bees), libm::round(foragers));
        let coming = bees + foragers;
        let before = most(self.colony.stock.adults.adults(), 1.0);
        let p = self.parameters;
        let on_each = p.moves.mites_on_given_bees * self.colony.mites.on_bees / before;
        let mites = libm::floor(on_each * coming);
        let crops = least(p.stores.package_crop_g, p.stores.crop_g) * coming;
        let colony = &mut *self.colony;
        colony
            .adults
            .take_in(&Adults::spread(bees, foragers, oldest));
        colony.mites.on_bees += mites;
        colony.stores.unripe_g += crops;
        self.ledger.workers_given += coming;
        self.ledger.mites_given += mites;
        self.ledger.sugar_given_g += crops;
        colony.take_stock();
        (coming, mites)
    }

    pub(super) fn give_bees(&mut self, frames: f64) -> Result {
        let bees = frames * self.parameters.comb.frame_of_bees;
        // Foragers among the shaken bees fly home.
        let (bees, mites) = self.add_workers(bees, 0.0, YOUNG_D);
        Ok(
            Done::new(Saying::new(|words| words.moves.bees_given).grouped("bees", bees))
                .with("bees_given", bees)
                .with("mites_given", mites),
        )
    }

    /// Cells of a full frame of brood of this size.
    fn brood_cells(&self, size: BoxSize) -> f64 {
        let p = &self.parameters.comb;
        match size {
            BoxSize::Deep => p.brood_frame_cells,
            BoxSize::Medium => p.brood_frame_cells * p.medium_cells / p.deep_cells,
        }
    }

    pub(super) fn give_brood(&mut self, brood: &BroodFrames) -> Result {
        let places = self.free_places(usize::from(brood.frames))?;
        let mut cells = 0.0;
        for at in &places {
            let frame = self.put_in(Comb::Drawn, *at);
            cells += libm::floor(least(self.brood_cells(frame.size), frame.room));
        }
        let mites = self.add_brood(cells);
        let mut done = Done::new(
            Saying::new(|words| words.moves.brood_given)
                .counted("frames", |words| words.moves.frames_of_brood, brood.frames)
                .grouped("cells", cells),
        )
        .with("worker_brood_given", cells);
        let mut mites_given = mites;
        if brood.with_bees {
            let bees = f64::from(brood.frames) * self.parameters.comb.frame_of_bees;
            self.colony.take_stock();
            let (bees, mites) = self.add_workers(bees, 0.0, YOUNG_D);
            mites_given += mites;
            done = done.with("bees_given", bees);
        }
        Ok(done.with("mites_given", mites_given))
    }

    /// Adds worker brood of all ages, as infested as our own; returns the mites.
    pub(super) fn add_brood(&mut self, cells: f64) -> f64 {
        let colony = &mut *self.colony;
        let (capped, mothers) = (colony.worker_brood.capped(), colony.worker_brood.mites());
        let p = &self.parameters.moves;
        let in_each = if capped >= 1.0 {
            least(1.0, mothers / capped)
        } else {
            0.0
        };
        let stages = colony.worker_brood.stages;
        let deal = |brood: &mut [f64], all: f64| {
            let days = brood.len() as f64;
            let mut dealt = 0.0;
            for (day, slot) in brood.iter_mut().enumerate() {
                let due = libm::round(all * (day + 1) as f64 / days) - dealt;
                *slot += due;
                dealt += due;
            }
            dealt
        };
        let given = deal(&mut colony.worker_brood.cells[..stages.total()], cells);
        let capped = cells * stages.capped as f64 / stages.total() as f64;
        let mites = deal(
            &mut colony.worker_brood.mothers[stages.open()..stages.total()],
            p.mites_on_given_bees * in_each * capped,
        );
        self.ledger.worker_brood_given += given;
        self.ledger.mites_given += mites;
        mites
    }

    pub(super) fn take_brood(&mut self, brood: &BroodFrames) -> Result {
        let chosen = self.frames_with_brood(brood.frames)?;
        let bees = f64::from(brood.frames) * self.parameters.comb.frame_of_bees;
        if brood.with_bees {
            self.enough_left(bees)?;
        }
        self.can_spare(&chosen)?;
        let places = self.places_of(&chosen);
        let taken = self.take_out(&chosen);
        self.fill_places(brood.in_their_place, &places);
        self.colony.take_stock();
        let mut mites_taken = taken.mites;
        let mut bees_taken = 0.0;
        if brood.with_bees {
            let (bees, mites) = self.take_workers(bees, 0.0, true);
            bees_taken = bees;
            mites_taken += mites;
        }
        Ok(Done::new(
            Saying::new(|words| words.moves.brood_taken)
                .counted("frames", |words| words.moves.frames_of_brood, brood.frames)
                .grouped("cells", taken.worker_brood)
                .grouped("bees", bees_taken),
        )
        .with("worker_brood_taken", taken.worker_brood)
        .with("bees_taken", bees_taken)
        .with("honey_taken_kg", taken.sugar_g / 1000.0)
        .with("mites_taken", mites_taken))
    }

    pub(super) fn give_stores(&mut self, frames: u8) -> Result {
        let places = self.free_places(usize::from(frames))?;
        let per_cell = self.parameters.stores.honey_per_cell_g;
        let mut honey = 0.0;
        for at in &places {
            honey += self.put_in(Comb::Drawn, *at).room * per_cell;
        }
        self.colony.stores.honey_g += honey;
        self.ledger.sugar_given_g += honey;
        Ok(Done::new(
            Saying::new(|words| words.moves.honey_frames_given)
                .counted("frames", |words| words.moves.frames_of_honey, frames)
                .grams("honey", honey),
        )
        .with("honey_given_kg", honey / 1000.0))
    }

    pub(super) fn take_stores(&mut self, frames: u8) -> Result {
        let refusal = Saying::new(|words| words.refusals.too_few_stores);
        let stores = |held: &Contents| held.sugar + held.pollen;
        let chosen = self.frames_by(usize::from(frames), refusal, stores)?;
        self.can_spare(&chosen)?;
        let taken = self.take_out(&chosen);
        Ok(Done::new(
            Saying::new(|words| words.moves.stores_taken)
                .counted("frames", |words| words.moves.frames_of_stores, frames)
                .grams("honey", taken.sugar_g)
                .grams("pollen", taken.pollen_g),
        )
        .with("honey_taken_kg", taken.sugar_g / 1000.0)
        .with("pollen_taken_kg", taken.pollen_g / 1000.0)
        .with("worker_brood_taken", taken.worker_brood)
        .with("mites_taken", taken.mites))
    }

    pub(super) fn take_honey(&mut self, leave_g: f64) -> Result {
        let taken = self.colony.stores.honey_g - leave_g;
        if taken <= 0.0 {
            return Err(Saying::new(|words| words.refusals.no_honey)
                .grams("honey", self.colony.stores.honey_g)
                .grams("left", leave_g));
        }
        self.colony.stores.honey_g -= taken;
        self.ledger.honey_taken_g += taken;
        Ok(
            Done::new(Saying::new(|words| words.moves.honey_taken).grams("honey", taken))
                .with("honey_taken_kg", taken / 1000.0),
        )
    }

    /// The frames that hold most brood.
    pub(super) fn frames_with_brood(&self, count: u8) -> Result<Vec<usize>> {
        let refusal = Saying::new(|words| words.refusals.too_little_brood);
        self.frames_by(usize::from(count), refusal, |held| held.brood)
    }

    /// The frames that hold most of something.
    pub(super) fn frames_by(
        &self,
        count: usize,
        refusal: Saying,
        measure: impl Fn(&Contents) -> f64,
    ) -> Result<Vec<usize>> {
        let contents = self.contents();
        // A frame with a handful of cells is not what a beekeeper means.
        let mut holding: Vec<usize> = (0..contents.len())
            .filter(|&i| measure(&contents[i]) >= 100.0)
            .collect();
        if holding.len() < count {
            return Err(refusal.count("count", count).count("there", holding.len()));
        }
        order::by_key(&mut holding, |&i| order::rank(-measure(&contents[i])));
        holding.truncate(count);
        Ok(holding)
    }

    pub(super) fn places_of(&self, chosen: &[usize]) -> Vec<At> {
        chosen
            .iter()
            .map(|&i| place_of(&self.colony.frames.frames[i]))
            .collect()
    }
}

/// A frame's place as a beekeeper counts.
pub(super) fn place_of(frame: &Frame) -> At {
    At {
        in_box: frame.in_box as u8 + 1,
        place: frame.position as u8 + 1,
    }
}

/// Whether a brood nest holds anything.
pub(super) fn is_empty(brood: &Brood) -> bool {
    brood.all() < 0.5
}
