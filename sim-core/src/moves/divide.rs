//! Dividing and uniting colonies.

use super::{Done, Hand, Result};
use crate::math::{most, unit};
use crate::order;
use crate::queen::QueenState;
use crate::scenario::MOST_BOXES;
use crate::scenario::moves::{NucTaken, QueenGoes, Split, Unite};
use crate::succession;
use crate::words::Saying;

impl Hand<'_> {
    fn queen_can(&self, queen: QueenGoes) -> Result<()> {
        if queen == QueenGoes::Leaves && !self.has_queen() {
            return Err(Saying::new(|words| words.refusals.no_queen_to_leave));
        }
        Ok(())
    }

    /// Takes the queen away where she goes, and adds that to what is said.
    fn queen_goes(&mut self, queen: QueenGoes, said: Saying) -> Saying {
        match queen {
            QueenGoes::Leaves if succession::remove_queen(self.colony).is_ok() => {
                said.and(|words| words.moves.with_the_queen)
            }
            _ => said,
        }
    }

    pub(super) fn split(&mut self, split: &Split) -> Result {
        self.queen_can(split.queen)?;
        let adults = self.colony.stock.adults;
        let foragers = if split.to_another_yard {
            split.share * adults.foragers
        } else {
            0.0
        };
        let house = split.share * adults.house;
        self.enough_left(house + foragers)?;
        // Every so many frames of drawn comb, from the middle out, so that brood and stores are shared.
        let frames = &self.colony.frames;
        let mut drawn: Vec<usize> = (0..frames.frames.len())
            .filter(|&i| frames.frames[i].worker_cells() > 0.1 * frames.frames[i].room)
            .collect();
        if drawn.len() < 2 {
            return Err(Saying::new(|words| words.refusals.split_needs_comb));
        }
        order::by_key(&mut drawn, |&i| frames.from_the_nest(&frames.frames[i]));
        let chosen: Vec<usize> = drawn
            .iter()
            .enumerate()
            .filter(|(k, _)| {
                let gone = |k: usize| libm::floor(k as f64 * split.share + 0.5);
                gone(k + 1) > gone(*k)
            })
            .map(|(_, &i)| i)
            .collect();
        self.can_spare(&chosen)?;
        let places = self.places_of(&chosen);
        let taken = self.take_out(&chosen);
        self.fill_places(split.in_their_place, &places);
        self.colony.take_stock();
        let (bees, mites) = self.take_workers(house, foragers, false);
        let said = Saying::new(|words| words.moves.split)
            .count("frames", chosen.len())
            .grouped("cells", taken.worker_brood)
            .grams("honey", taken.sugar_g)
            .grouped("bees", bees);
        Ok(Done::new(self.queen_goes(split.queen, said))
            .with("frames_taken", chosen.len() as f64)
            .with("bees_taken", bees)
            .with("worker_brood_taken", taken.worker_brood)
            .with("honey_taken_kg", taken.sugar_g / 1000.0)
            .with("mites_taken", mites + taken.mites))
    }

    pub(super) fn take_nuc(&mut self, nuc: &NucTaken) -> Result {
        self.queen_can(nuc.queen)?;
        let mut chosen = self.frames_with_brood(nuc.frames_of_brood)?;
        let wanted = usize::from(nuc.frames_of_stores);
        if wanted > 0 {
            let contents = self.contents();
            let mut stores: Vec<usize> = (0..contents.len())
                .filter(|i| !chosen.contains(i) && contents[*i].sugar >= 100.0)
                .collect();
            if stores.len() < wanted {
                return Err(Saying::new(|words| words.refusals.too_few_stores_beside)
                    .count("count", wanted)
                    .count("there", stores.len()));
            }
            order::by_key(&mut stores, |&i| order::rank(-contents[i].sugar));
            chosen.extend(stores.into_iter().take(wanted));
        }
        let frames = f64::from(nuc.frames_of_brood) + nuc.further_bees;
        let bees = frames * self.parameters.comb.frame_of_bees;
        let house = self.colony.stock.adults.house;
        if bees > house {
            return Err(Saying::new(|words| words.refusals.too_few_to_take)
                .grouped("bees", bees)
                .grouped("house", house));
        }
        self.enough_left(bees)?;
        self.can_spare(&chosen)?;
        let places = self.places_of(&chosen);
        let taken = self.take_out(&chosen);
        self.fill_places(nuc.in_their_place, &places);
        self.colony.take_stock();
        let (bees, mites) = self.take_workers(bees, 0.0, true);
        let said = Saying::new(|words| words.moves.nuc_taken)
            .counted(
                "frames",
                |words| words.moves.frames_of_brood,
                nuc.frames_of_brood,
            )
            .plain("stores", nuc.frames_of_stores)
            .grouped("bees", bees);
        Ok(Done::new(self.queen_goes(nuc.queen, said))
            .with("bees_taken", bees)
            .with("worker_brood_taken", taken.worker_brood)
            .with("honey_taken_kg", taken.sugar_g / 1000.0)
            .with("mites_taken", mites + taken.mites))
    }

    pub(super) fn unite(&mut self, other: &Unite) -> Result {
        let p = self.parameters;
        let boxes = self.colony.frames.boxes.len();
        if boxes >= MOST_BOXES {
            return Err(Saying::new(|words| words.refusals.most_boxes).count("boxes", boxes));
        }
        if other.queen.is_some() && self.has_queen() {
            return Err(Saying::new(|words| words.refusals.both_have_a_queen));
        }
        if other.queen.is_some() && self.colony.queen.state == QueenState::LayingWorkers {
            return Err(Saying::new(|words| words.refusals.workers_lay_here));
        }
        let (honey, pollen) = (other.honey_kg * 1000.0, other.pollen_kg * 1000.0);
        let brood = libm::round(other.frames_of_brood * p.comb.brood_frame_cells);
        let needed =
            brood + honey / p.stores.honey_per_cell_g + pollen / p.stores.pollen_per_cell_g;
        let comb = crate::comb::Frames::new(std::slice::from_ref(&other.hive_box), &p.comb);
        if needed > comb.worker_cells {
            return Err(Saying::new(|words| words.refusals.no_room_in_its_box)
                .grouped("cells", needed)
                .grouped("there", comb.worker_cells));
        }
        self.add_box(&other.hive_box)?;
        let bees = other.frames_of_bees * p.comb.frame_of_bees;
        // As in a colony that is described at the start: foragers where there is brood to feed.
        let active = unit(2.0 * brood / most(bees, 1.0));
        let foragers = 0.24 * active * bees;
        let mites = self.add_brood(brood);
        let (came, on_bees) = self.add_workers(bees - foragers, foragers, 14.0 + 16.0 * active);
        self.colony.stores.honey_g += honey;
        self.colony.stores.pollen_g += pollen;
        self.ledger.sugar_given_g += honey;
        self.ledger.pollen_given_g += pollen;
        if let Some(queen) = &other.queen {
            succession::requeen(self.colony, queen.age_years, queen.laying_power, 0.0)?;
        }
        Ok(Done::new(
            Saying::new(|words| words.moves.united)
                .grouped("bees", came)
                .grouped("cells", brood)
                .grams("honey", other.honey_kg * 1000.0),
        )
        .with("bees_given", came)
        .with("worker_brood_given", brood)
        .with("honey_given_kg", other.honey_kg)
        .with("mites_given", mites + on_bees))
    }
}
