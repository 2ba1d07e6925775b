//! Boxes and frames: giving, moving, taking out, putting back.

use super::bees::place_of;
use super::layout::Taken;
use super::{Done, Hand, Result, Shelved};
use crate::comb::Frame;
use crate::order;
use crate::scenario::moves::{At, NewFrame};
use crate::scenario::{Comb, HiveBox, MOST_BOXES};
use crate::words::Saying;

/// Part of a frame that may be drawn while a beekeeper still calls it undrawn.
const UNDRAWN: f64 = 0.02;

impl Hand<'_> {
    pub(super) fn add_box(&mut self, hive_box: &HiveBox) -> Result {
        let boxes = self.colony.frames.boxes.len();
        if boxes >= MOST_BOXES {
            return Err(Saying::new(|words| words.refusals.most_boxes).count("boxes", boxes));
        }
        self.colony.frames.add_box(hive_box, &self.parameters.comb);
        self.colony.find_drone_frames(self.drone_stages);
        let said = Saying::new(|words| words.moves.box_given).count("frames", hive_box.frames);
        Ok(Done::new(said))
    }

    pub(super) fn remove_box(&mut self, number: u8) -> Result {
        let boxes = self.colony.frames.boxes.len();
        let in_box = usize::from(number).wrapping_sub(1);
        if in_box >= boxes {
            return Err(Saying::new(|words| words.refusals.no_box)
                .plain("box", number)
                .count("boxes", boxes));
        }
        if boxes == 1 {
            return Err(Saying::new(|words| words.refusals.only_box));
        }
        let chosen: Vec<usize> = (0..self.colony.frames.frames.len())
            .filter(|&i| self.colony.frames.frames[i].in_box == in_box)
            .collect();
        self.can_spare(&chosen)?;
        let taken = self.take_out(&chosen);
        self.colony.frames.boxes.remove(in_box);
        self.rearrange(|slots| {
            for (frame, _) in slots {
                if frame.in_box > in_box {
                    frame.in_box -= 1;
                }
            }
        });
        Ok(Done::new(
            Saying::new(|words| words.moves.box_away)
                .plain("box", number)
                .grams("honey", taken.sugar_g)
                .grouped("cells", taken.worker_brood + taken.drone.all()),
        )
        .with("honey_taken_kg", taken.sugar_g / 1000.0)
        .with("worker_brood_taken", taken.worker_brood)
        .with("drone_brood_taken", taken.drone.all())
        .with("mites_taken", taken.mites))
    }

    pub(super) fn swap_boxes(&mut self, one: u8, other: u8) -> Result {
        let boxes = self.colony.frames.boxes.len();
        let highest = usize::from(one.max(other));
        if highest > boxes || one == 0 || other == 0 {
            return Err(Saying::new(|words| words.refusals.no_box)
                .count("box", highest)
                .count("boxes", boxes));
        }
        let (a, b) = (usize::from(one) - 1, usize::from(other) - 1);
        self.colony.frames.boxes.swap(a, b);
        self.rearrange(|slots| {
            for (frame, _) in slots {
                if frame.in_box == a {
                    frame.in_box = b;
                } else if frame.in_box == b {
                    frame.in_box = a;
                }
            }
        });
        Ok(Done::new(
            Saying::new(|words| words.moves.boxes_swapped)
                .plain("one", one)
                .plain("other", other),
        ))
    }

    /// Refuses when no frame, or no drawn comb for what stays, would be left.
    pub(super) fn can_spare(&self, chosen: &[usize]) -> Result<()> {
        if chosen.len() >= self.colony.frames.frames.len() {
            return Err(Saying::new(|words| words.refusals.no_frame_left));
        }
        Ok(())
    }

    fn is_undrawn(&self, index: usize) -> bool {
        let frame = &self.colony.frames.frames[index];
        let nest = |nest: &crate::colony::DroneNest| {
            nest.frame == Some(index) && !super::bees::is_empty(&nest.brood)
        };
        frame.drawn <= UNDRAWN * frame.room && !self.colony.drone_brood.iter().any(nest)
    }

    /// Places for `count` frames: empty ones first, then those of undrawn frames, from the outside.
    pub(super) fn free_places(&self, count: usize) -> Result<Vec<At>> {
        let frames = &self.colony.frames;
        let mut places = Vec::new();
        for (in_box, storey) in frames.boxes.iter().enumerate() {
            for position in 0..storey.places {
                let taken = frames
                    .frames
                    .iter()
                    .any(|frame| frame.in_box == in_box && frame.position == position);
                if !taken {
                    places.push(At {
                        in_box: in_box as u8 + 1,
                        place: position as u8 + 1,
                    });
                }
            }
        }
        let mut undrawn: Vec<usize> = (0..frames.frames.len())
            .filter(|&i| self.is_undrawn(i))
            .collect();
        order::by_key(&mut undrawn, |&i| {
            let frame = &frames.frames[i];
            1000 * frame.in_box as i64 - frames.from_middle(frame) as i64
        });
        places.extend(undrawn.iter().map(|&i| place_of(&frames.frames[i])));
        if places.len() < count {
            let refusal = if count == 1 {
                Saying::new(|words| words.refusals.no_free_place)
            } else {
                Saying::new(|words| words.refusals.no_free_places).count("count", count)
            };
            return Err(refusal.count("there", places.len()));
        }
        places.truncate(count);
        Ok(places)
    }

    /// Puts a frame into a place, instead of the frame that may be there; returns it.
    pub(super) fn put_in(&mut self, comb: Comb, at: At) -> Frame {
        let (in_box, position) = (usize::from(at.in_box) - 1, usize::from(at.place) - 1);
        let size = self.colony.frames.boxes[in_box].size;
        let new = Frame::new(comb, size, (in_box, position), &self.parameters.comb);
        self.put(new);
        new
    }

    /// Puts a frame into its place; what lay in the frame that was there is taken out first.
    fn put(&mut self, new: Frame) {
        self.clear(place_of(&new));
        self.rearrange(|slots| slots.push((new, None)));
    }

    /// Takes out the frame that may be at a place.
    fn clear(&mut self, at: At) -> Taken {
        let there = self.frame_at(at);
        there.map_or_else(|_| Taken::default(), |index| self.take_out(&[index]))
    }

    pub(super) fn fill_places(&mut self, comb: Option<Comb>, places: &[At]) {
        if let Some(comb) = comb {
            for at in places {
                self.put_in(comb, *at);
            }
        }
    }

    pub(super) fn give_frame(&mut self, new: &NewFrame) -> Result {
        let at = match new.at {
            None => self.free_places(1)?[0],
            Some(at) => {
                self.place(at)?;
                if let Ok(index) = self.frame_at(at)
                    && !new.replace
                    && !self.is_undrawn(index)
                {
                    return Err(Saying::new(|words| words.refusals.drawn_frame_there).at(at));
                }
                at
            }
        };
        let taken = self.clear(at);
        self.put_in(new.comb, at);
        let said = Saying::new(|words| words.moves.frame_given)
            .choice("comb", |words| &words.moves.combs, new.comb as usize)
            .at(at);
        let brood = taken.worker_brood + taken.drone.all();
        if brood < 0.5 && taken.sugar_g < 0.5 {
            return Ok(Done::new(said));
        }
        let said = said
            .and(|words| words.moves.instead_of_frame)
            .grams("honey", taken.sugar_g)
            .grouped("cells", brood);
        Ok(Done::new(said)
            .with("honey_taken_kg", taken.sugar_g / 1000.0)
            .with("worker_brood_taken", taken.worker_brood)
            .with("drone_brood_taken", taken.drone.all())
            .with("mites_taken", taken.mites))
    }

    pub(super) fn move_frame(&mut self, from: At, to: At) -> Result {
        self.frame_at(from)?;
        let (to_box, to_position) = self.place(to)?;
        let (from_box, from_position) = self.place(from)?;
        let boxes = &self.colony.frames.boxes;
        if boxes[from_box].size != boxes[to_box].size {
            return Err(Saying::new(|words| words.refusals.does_not_fit));
        }
        self.rearrange(|slots| {
            for (frame, _) in slots {
                let here = (frame.in_box, frame.position);
                if here == (from_box, from_position) {
                    (frame.in_box, frame.position) = (to_box, to_position);
                } else if from_box != to_box && here == (to_box, to_position) {
                    (frame.in_box, frame.position) = (from_box, from_position);
                } else if from_box == to_box && frame.in_box == from_box {
                    // Those between close up.
                    if from_position < frame.position && frame.position <= to_position {
                        frame.position -= 1;
                    } else if to_position <= frame.position && frame.position < from_position {
                        frame.position += 1;
                    }
                }
            }
        });
        let said = Saying::new(|words| words.moves.frame_moved)
            .at(from)
            .plain("to_place", to.place)
            .plain("to_box", to.in_box);
        Ok(Done::new(said))
    }

    pub(super) fn take_frame(&mut self, at: At) -> Result {
        let index = self.frame_at(at)?;
        self.can_spare(&[index])?;
        let frame = self.colony.frames.frames[index];
        let taken = self.take_out(&[index]);
        self.colony.beekeeping.shed.push(Shelved {
            frame,
            back_on: None,
        });
        Ok(Done::new(
            Saying::new(|words| words.moves.frame_out)
                .at(at)
                .grams("honey", taken.sugar_g)
                .grouped("cells", taken.worker_brood + taken.drone.all()),
        )
        .with("honey_taken_kg", taken.sugar_g / 1000.0)
        .with("worker_brood_taken", taken.worker_brood)
        .with("drone_brood_taken", taken.drone.all())
        .with("mites_taken", taken.mites))
    }

    pub(super) fn put_back_frame(&mut self, at: Option<At>) -> Result {
        let shed = &self.colony.beekeeping.shed;
        let Some(last) = shed.iter().rposition(|kept| kept.back_on.is_none()) else {
            return Err(Saying::new(|words| words.refusals.no_frame_out));
        };
        let mut frame = shed[last].frame;
        let at = at.unwrap_or_else(|| place_of(&frame));
        let (in_box, position) = self.place(at)?;
        if self.frame_at(at).is_ok() {
            return Err(Saying::new(|words| words.refusals.frame_there).at(at));
        }
        if self.colony.frames.boxes[in_box].size != frame.size {
            return Err(Saying::new(|words| words.refusals.does_not_fit));
        }
        (frame.in_box, frame.position) = (in_box, position);
        self.colony.beekeeping.shed.remove(last);
        self.put(frame);
        Ok(Done::new(
            Saying::new(|words| words.moves.frame_back).at(at),
        ))
    }

    /// Puts back what comes out of the freezer today.
    pub(super) fn return_frames(&mut self, reports: &mut Vec<super::Report>) {
        let due = |kept: &Shelved| kept.back_on == Some(self.day);
        let Some(index) = self.colony.beekeeping.shed.iter().position(due) else {
            return;
        };
        // From here on it lies in the shed like any other, last.
        let mut kept = self.colony.beekeeping.shed.remove(index);
        kept.back_on = None;
        self.colony.beekeeping.shed.push(kept);
        let outcome = self.put_back_frame(None).map(|_| {
            Done::new(Saying::new(|words| words.moves.frozen_frame_back).at(place_of(&kept.frame)))
        });
        reports.push(super::report(None, outcome));
        self.return_frames(reports);
    }
}
