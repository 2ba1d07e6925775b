//! Frames and comb: what is drawn, what is left to draw, and how fast bees build.

use crate::math::{least, most, smooth_step, unit};
use crate::order;
use crate::scenario::{BoxSize, Comb, HiveBox};

params! {
    /// Comb building.
    CombParameters {
        /// Worker cells on a deep frame, both sides.
        deep_cells = 7000.0, "cells", 2000.0..=12000.0, Published, "extension figure (from memory); 7200 from 880 cm² a side: Delaplane et al. 2013";
        /// Worker cells on a medium frame, both sides.
        medium_cells = 4450.0, "cells", 1000.0..=9000.0, Published, "by area: 13 x 43 cm against 880 cm²: Harbo 1988";
        /// Room for a worker cell that a drone cell takes.
        drone_cell_area = 1.46, "cells", 1.0..=2.5, Published, "6.4 against 5.3 mm: Seeley & Morse 1976";
        /// Honey turned into the wax of one worker cell on nothing at all.
        honey_per_cell_g = 0.099, "g", 0.02..=0.5, Published, "8.39 : 1 (Whitcomb 1946) x 11.8 mg a cell";
        /// Part of that wax that bees must add to waxed foundation.
        waxed_foundation = 0.525, "-", 0.1..=1.0, Tuned, "foundation saves up to half: trade figure (from memory)";
        /// Speed of work on plastic without wax.
        bare_speed = 0.5, "-", 0.0..=1.0, Assumed, "taken up slowly: common practice, no source";
        /// Cells that a full builder draws in a day.
        cells_per_builder = 1.12, "cells/d", 0.1..=10.0, Tuned, "8 of 10 frames after 30 to 36 days: common practice, no source";
        /// Mean temperature at which building begins.
        build_from_c = 3.0, "°C", -5.0..=15.0, Assumed, "wax is worked at nest temperature; cold ties up heaters";
        /// Mean temperature at which cold no longer slows building.
        build_full_c = 12.0, "°C", 5.0..=25.0, Assumed, "as above";
        /// Sugar income per bee at which building runs at half speed.
        half_income_g = 0.0117, "g/bee/d", 0.001..=0.2, Tuned, "no income, no comb: common practice, no source";
        /// Largest part of the income beyond the colony's own needs that goes into wax.
        wax_share = 0.633, "-", 0.0..=1.0, Tuned, "8 of 10 frames after 30 to 36 days: common practice, no source";
        /// Share of comb in use at which half of the builders see a need for more.
        fill_wanted = 0.43, "-", 0.2..=1.0, Tuned, "second box at 8 of 10 frames: common practice, no source";
        /// Part of foundationless comb built with drone cells in spring.
        drone_share_of_free_comb = 0.75, "-", 0.0..=1.0, Assumed, "mostly drone comb: common practice, no source";
        /// Part of the comb on foundation that ends up as drone cells, at corners and edges.
        drone_corners = 0.05, "-", 0.0..=0.3, Published, "managed comb, about 5 %";
        /// Workers from which a colony builds drone comb.
        drone_comb_from_bees = 4000.0, "bees", 500.0..=20000.0, Published, "Smith et al. 2014";
        /// Brood cells on a frame that a beekeeper calls a full frame of brood, deep.
        brood_frame_cells = 5000.0, "cells", 1000.0..=12000.0, Assumed, "rims and corners are left free; 4000 is called typical";
        /// Workers that cover a deep frame on both sides.
        frame_of_bees = 2430.0, "bees", 500.0..=5000.0, Published, "Burgett & Burikam 1985 (from memory)";
        /// Frames that are worked on at a time.
        frames_at_a_time = 3.0, "frames", 1.0..=6.0, Assumed, "drawn from the middle out";
    }
}

/// One frame and how far it is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Box, counted from the bottom, 0 the lowest.
    pub in_box: usize,
    /// Place in the box from left to right, 0 the first.
    pub position: usize,
    /// Deep or medium.
    pub size: BoxSize,
    /// What it was given as.
    pub kind: Comb,
    /// Room on both sides, in worker cells.
    pub room: f64,
    /// Drawn so far, in worker cells of room.
    pub drawn: f64,
    /// Part of `drawn` that is drone comb.
    pub drone_part: f64,
}

impl Frame {
    /// A frame as it is given, in this box and place (both from 0).
    pub fn new(
        kind: Comb,
        size: BoxSize,
        (in_box, position): (usize, usize),
        p: &CombParameters,
    ) -> Self {
        let room = match size {
            BoxSize::Deep => p.deep_cells,
            BoxSize::Medium => p.medium_cells,
        };
        let drawn = matches!(kind, Comb::Drawn | Comb::DrawnDroneFrame);
        let drone = matches!(kind, Comb::DroneFrame | Comb::DrawnDroneFrame);
        Self {
            in_box,
            position,
            size,
            kind,
            room,
            drawn: if drawn { room } else { 0.0 },
            drone_part: f64::from(u8::from(drone)),
        }
    }

    /// Drawn worker cells.
    pub fn worker_cells(&self) -> f64 {
        self.drawn * (1.0 - self.drone_part)
    }

    /// Whether drone brood can lie in it.
    pub fn has_drone_comb(&self) -> bool {
        matches!(
            self.kind,
            Comb::DroneFrame | Comb::DrawnDroneFrame | Comb::Foundationless
        )
    }
}

/// One box of a hive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Storey {
    /// Deep or medium.
    pub size: BoxSize,
    /// Places for frames.
    pub places: usize,
    /// Its honey is for people.
    pub honey_super: bool,
}

/// The frames of a hive with their sums.
#[derive(Debug, Clone, PartialEq)]
pub struct Frames {
    /// Every frame, box by box from the bottom, left to right.
    pub frames: Vec<Frame>,
    /// The boxes, from the bottom.
    pub boxes: Vec<Storey>,
    /// Frames still to be drawn, in the order in which bees take them up.
    to_draw: Vec<usize>,
    /// Drawn worker cells.
    pub worker_cells: f64,
    /// Drawn drone cells on drone frames and foundationless comb.
    pub drone_cells: f64,
    /// Room left to draw, in worker cells.
    pub left: f64,
    /// Frames of drawn comb, deep or medium.
    pub drawn_frames: f64,
}

/// What was built on a day.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Built {
    /// Room drawn, in worker cells.
    pub cells: f64,
    /// Honey that became wax, g.
    pub honey_g: f64,
}

impl Frames {
    /// The frames of these boxes, from the bottom up.
    pub fn new(boxes: &[HiveBox], p: &CombParameters) -> Self {
        let mut frames = Self {
            frames: Vec::new(),
            boxes: Vec::new(),
            to_draw: Vec::new(),
            worker_cells: 0.0,
            drone_cells: 0.0,
            left: 0.0,
            drawn_frames: 0.0,
        };
        for hive_box in boxes {
            frames.add_box(hive_box, p);
        }
        frames
    }

    /// Whether a honey super is on.
    pub fn has_honey_super(&self) -> bool {
        self.boxes.iter().any(|storey| storey.honey_super)
    }

    /// Puts a box on top.
    pub fn add_box(&mut self, hive_box: &HiveBox, p: &CombParameters) {
        let in_box = self.boxes.len();
        self.boxes.push(Storey {
            size: hive_box.size,
            places: hive_box.frames,
            honey_super: hive_box.honey_super,
        });
        for position in 0..hive_box.frames {
            let kind = hive_box
                .contents
                .get(position)
                .copied()
                .unwrap_or(hive_box.comb);
            self.frames
                .push(Frame::new(kind, hive_box.size, (in_box, position), p));
        }
        self.refresh(p);
    }

    /// Works out order of building and sums afresh, after frames were given, moved or taken.
    pub fn refresh(&mut self, p: &CombParameters) {
        self.plan_building();
        self.sum_up(p);
    }

    /// How far a frame is from the middle of its box: twice the distance, so that it stays whole.
    pub fn from_middle(&self, frame: &Frame) -> usize {
        (2 * frame.position + 1).abs_diff(self.boxes[frame.in_box].places)
    }

    /// A number that grows from the middle of the lowest box outwards, box by box.
    pub fn from_the_nest(&self, frame: &Frame) -> i64 {
        (frame.in_box * 1000 + self.from_middle(frame)) as i64
    }

    /// Lower boxes first, each from the middle out.
    fn plan_building(&mut self) {
        let mut to_draw: Vec<usize> = (0..self.frames.len())
            .filter(|&i| self.frames[i].drawn < self.frames[i].room)
            .collect();
        // The left of two equals comes first.
        order::by_key(&mut to_draw, |&i| self.from_the_nest(&self.frames[i]));
        self.to_draw = to_draw;
    }

    fn sum_up(&mut self, p: &CombParameters) {
        let mut sums = (0.0, 0.0, 0.0, 0.0);
        for frame in &self.frames {
            sums.0 += frame.drawn * (1.0 - frame.drone_part);
            sums.1 += frame.drawn * frame.drone_part / p.drone_cell_area;
            sums.2 += frame.room - frame.drawn;
            sums.3 += frame.drawn / frame.room;
        }
        (
            self.worker_cells,
            self.drone_cells,
            self.left,
            self.drawn_frames,
        ) = sums;
    }

    /// Whether everything is drawn.
    pub fn finished(&self) -> bool {
        self.to_draw.is_empty()
    }

    /// How fast the next frames are worked, and the honey that a cell on them costs, g.
    fn next_frames(&self, p: &CombParameters) -> (f64, f64) {
        let front = &self.to_draw[..self.to_draw.len().min(p.frames_at_a_time as usize)];
        let count = front.len() as f64;
        let (mut speed, mut cost) = (0.0, 0.0);
        for &i in front {
            let kind = self.frames[i].kind;
            speed += if kind == Comb::BareFoundation {
                p.bare_speed
            } else {
                1.0
            };
            let waxed = matches!(kind, Comb::Foundation | Comb::DroneFrame);
            cost += p.honey_per_cell_g * if waxed { p.waxed_foundation } else { 1.0 };
        }
        (speed / count, cost / count)
    }

    /// Draws comb for a day and returns what was built.
    pub fn build(&mut self, drive: &BuildingDrive, p: &CombParameters) -> Built {
        if self.to_draw.is_empty() || drive.builders <= 0.0 {
            return Built::default();
        }
        let (speed, cost_g) = self.next_frames(p);
        let warm = unit((drive.mean_c - p.build_from_c) / (p.build_full_c - p.build_from_c));
        let paid = drive.income_per_bee / (drive.income_per_bee + p.half_income_g);
        let hands = drive.builders * p.cells_per_builder * speed * warm * drive.wanted * paid;
        let wax = p.wax_share * most(0.0, drive.spare_g) / cost_g;
        let cells = least(least(hands, wax), self.left);
        // Less than a tenth of a cell is not worth the arithmetic.
        if cells < 0.1 {
            return Built::default();
        }
        self.draw(cells, drive, p);
        Built {
            cells,
            honey_g: cells * cost_g,
        }
    }

    /// Spreads `cells` over the frames at work; what one cannot take goes to the next.
    fn draw(&mut self, cells: f64, drive: &BuildingDrive, p: &CombParameters) {
        let mut left = cells;
        while left > 1e-9 && !self.to_draw.is_empty() {
            let front = self.to_draw.len().min(p.frames_at_a_time as usize);
            let share = left / front as f64;
            for &i in &self.to_draw[..front] {
                let frame = &mut self.frames[i];
                let added = least(share, frame.room - frame.drawn);
                let drone = match frame.kind {
                    Comb::DroneFrame | Comb::DrawnDroneFrame => 1.0,
                    Comb::Foundationless => drive.drone_wish * p.drone_share_of_free_comb,
                    _ => 0.0,
                };
                let before = frame.drawn;
                frame.drawn += added;
                if frame.drawn > 0.0 {
                    frame.drone_part = (before * frame.drone_part + added * drone) / frame.drawn;
                }
                // A frame is done when what is left is lost in rounding.
                if frame.room - frame.drawn < 1e-6 {
                    frame.drawn = frame.room;
                }
                let drone_room = added * drone;
                self.worker_cells += added - drone_room;
                self.drone_cells += drone_room / p.drone_cell_area;
                self.drawn_frames += added / frame.room;
                self.left = most(0.0, self.left - added);
                left -= added;
            }
            let frames = &self.frames;
            let done = self.to_draw[..front]
                .iter()
                .any(|&i| frames[i].drawn >= frames[i].room);
            if done {
                self.to_draw.retain(|&i| frames[i].drawn < frames[i].room);
            }
        }
        if self.to_draw.is_empty() {
            // The running sums drift by rounding; put them right when the last frame is done.
            self.sum_up(p);
        }
    }
}

/// What drives building on a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BuildingDrive {
    /// Builders, in full builders.
    pub builders: f64,
    /// Mean temperature, °C.
    pub mean_c: f64,
    /// How many builders see a need, 0 to 1.
    pub wanted: f64,
    /// Nectar and syrup coming in, mean of four days, g as honey for each bee.
    pub income_per_bee: f64,
    /// Sugar that came in today beyond what the colony lives on, g as honey.
    pub spare_g: f64,
    /// How far the colony is set on drone comb, 0 to 1.
    pub drone_wish: f64,
}

/// How many builders see a need for comb: from the share of the comb that is in use.
pub fn comb_wanted(cells_used: f64, drawn: f64, p: &CombParameters) -> f64 {
    if drawn < 1.0 {
        1.0
    } else {
        smooth_step(cells_used / drawn, p.fill_wanted, 0.48)
    }
}
