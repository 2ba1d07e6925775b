//! Rules for how a colony starts and for its hive: brood and stores have to fit into the comb.

use std::fmt::Arguments;

use super::checks::{Problems, figure};
use super::{Established, FrameSize, Hive, HiveBox, Move, Start};
use crate::Parameters;
use crate::comb::{CombParameters, Frames};
use crate::words::Saying;

/// Most boxes of a hive, those added by moves included.
pub const MOST_BOXES: usize = 6;
/// Most frames of a box.
const MOST_FRAMES: usize = 12;

/// One side of the comb of a deep frame, about 880 cm² (Delaplane et al. 2013), and of a medium one (Harbo
/// 1988): those that `comb.deep_cells` and `comb.medium_cells` are the cells of.
const DEEP_CM2: f64 = 43.0 * 20.5;
const MEDIUM_CM2: f64 = 43.0 * 13.0;

impl FrameSize {
    fn cm2(self) -> f64 {
        self.comb_width_mm * self.comb_height_mm / 100.0
    }
}

impl Hive {
    /// Fits the parameters of comb to frames of other dimensions, all by area: cells, brood on a full frame,
    /// bees that cover one. A value that is given as a parameter comes after this and wins.
    pub(crate) fn fit(&self, p: &mut CombParameters) {
        if let Some(frame) = self.deep_frame {
            let size = frame.cm2() / DEEP_CM2;
            p.deep_cells = libm::round(p.deep_cells * size);
            p.brood_frame_cells = libm::round(p.brood_frame_cells * size);
            p.frame_of_bees = libm::round(p.frame_of_bees * size);
        }
        if let Some(frame) = self.medium_frame {
            p.medium_cells = libm::round(p.medium_cells * frame.cm2() / MEDIUM_CM2);
        }
    }
}

impl Problems {
    pub(super) fn frame_sizes(&mut self, hive: &Hive) {
        for (name, frame) in [
            ("deep_frame", hive.deep_frame),
            ("medium_frame", hive.medium_frame),
        ] {
            let Some(frame) = frame else { continue };
            for (field, value, least, most) in [
                ("comb_width_mm", frame.comb_width_mm, 200.0, 500.0),
                ("comb_height_mm", frame.comb_height_mm, 80.0, 350.0),
            ] {
                self.number(
                    format_args!("hive.{name}.{field}"),
                    value,
                    least,
                    most,
                    "mm",
                );
            }
        }
    }

    pub(super) fn start(&mut self, start: &Start) {
        self.exactly_one(
            format_args!("start"),
            &[
                ("package", start.package.is_some()),
                ("swarm", start.swarm.is_some()),
                ("nuc", start.nuc.is_some()),
                ("established", start.established.is_some()),
            ],
        );
        if let Some(package) = &start.package {
            self.amount_of_bees(
                format_args!("start.package"),
                package.pounds,
                package.kilograms,
                package.bees,
                (10.0, 4.5),
            );
            self.number(
                format_args!("start.package.queen_caged_days"),
                package.queen_caged_days,
                0.0,
                10.0,
                "days",
            );
        }
        if let Some(swarm) = &start.swarm {
            self.amount_of_bees(
                format_args!("start.swarm"),
                swarm.pounds,
                swarm.kilograms,
                swarm.bees,
                (12.0, 5.5),
            );
        }
        for (kind, colony) in [("nuc", &start.nuc), ("established", &start.established)] {
            let Some(colony) = colony else { continue };
            for (field, value, min, max, unit) in [
                ("frames_of_bees", colony.frames_of_bees, 0.5, 40.0, "frames"),
                (
                    "frames_of_brood",
                    colony.frames_of_brood,
                    0.0,
                    20.0,
                    "frames",
                ),
                ("honey_kg", colony.honey_kg, 0.0, 100.0, "kg"),
                ("pollen_kg", colony.pollen_kg, 0.0, 5.0, "kg"),
            ] {
                self.number(format_args!("start.{kind}.{field}"), value, min, max, unit);
            }
        }
        self.number(
            format_args!("start.queen.age_years"),
            start.queen.age_years,
            0.0,
            5.0,
            "years",
        );
        self.number(
            format_args!("start.queen.laying_power"),
            start.queen.laying_power,
            0.0,
            1.5,
            "",
        );
        self.number(
            format_args!("start.mites_per_100_bees"),
            start.mites_per_100_bees.unwrap_or(0.0),
            0.0,
            50.0,
            "mites",
        );
    }

    pub(super) fn amount_of_bees(
        &mut self,
        place: Arguments<'_>,
        pounds: Option<f64>,
        kilograms: Option<f64>,
        bees: Option<f64>,
        (most_pounds, most_kilograms): (f64, f64),
    ) {
        self.exactly_one(
            place,
            &[
                ("pounds", pounds.is_some()),
                ("kilograms", kilograms.is_some()),
                ("bees", bees.is_some()),
            ],
        );
        self.optional(
            format_args!("{place}.pounds"),
            pounds,
            0.5,
            most_pounds,
            "pounds",
        );
        self.optional(
            format_args!("{place}.kilograms"),
            kilograms,
            0.2,
            most_kilograms,
            "kg",
        );
        self.optional(format_args!("{place}.bees"), bees, 500.0, 40000.0, "bees");
    }

    pub(super) fn hive(&mut self, boxes: &[HiveBox]) {
        if !(1..=MOST_BOXES).contains(&boxes.len()) {
            self.add(
                format_args!("hive.box"),
                Saying::new(|words| words.problems.boxes)
                    .count("most", MOST_BOXES)
                    .count("got", boxes.len()),
            );
        }
        for (index, hive_box) in boxes.iter().enumerate().take(MOST_BOXES) {
            self.hive_box(format_args!("hive.box[{index}]"), hive_box);
        }
    }

    pub(super) fn hive_box(&mut self, place: Arguments<'_>, hive_box: &HiveBox) {
        let frames = hive_box.frames;
        self.number(
            format_args!("{place}.frames"),
            frames as f64,
            1.0,
            MOST_FRAMES as f64,
            "frames",
        );
        let named = hive_box.contents.len();
        if named != 0 && named != frames {
            self.add(
                format_args!("{place}.contents"),
                format!(
                    "expected one entry for each of the {} frames, got {}",
                    figure(frames as f64),
                    figure(named as f64)
                ),
            );
        }
    }

    /// A nuc or an established colony has comb, and what it holds fits into it.
    pub(super) fn comb_for_colony(&mut self, start: &Start, boxes: &[HiveBox], p: &Parameters) {
        let (kind, colony): (&str, &Established) = match (&start.nuc, &start.established) {
            (Some(nuc), None) => ("nuc", nuc),
            (None, Some(established)) => ("established", established),
            _ => return,
        };
        // A hive out of all proportion is a problem of its own, and is not built to be measured.
        if boxes.len() > MOST_BOXES || boxes.iter().any(|hive_box| hive_box.frames > MOST_FRAMES) {
            return;
        }
        let drawn = Frames::new(boxes, &p.comb).worker_cells;
        let brood = colony.frames_of_brood * p.comb.brood_frame_cells;
        let honey = colony.honey_kg * 1000.0 / p.stores.honey_per_cell_g;
        let pollen = colony.pollen_kg * 1000.0 / p.stores.pollen_per_cell_g;
        let needed = brood + honey + pollen;
        if drawn == 0.0 && needed > 0.0 {
            self.add(
                format_args!("start.{kind}"),
                "brood and stores need drawn comb, and no frame of the hive is drawn; \
                 give a box comb = \"drawn\", or name its frames in contents",
            );
        } else if needed > drawn {
            self.add(
                format_args!("start.{kind}"),
                format!(
                    "brood ({} cells), honey ({}) and pollen ({}) need {} cells; \
                     the drawn worker comb of the hive has {}",
                    figure(brood.round()),
                    figure(honey.round()),
                    figure(pollen.round()),
                    figure(needed.round()),
                    figure(drawn.round())
                ),
            );
        }
    }

    pub(super) fn boxes_added(&mut self, at_start: usize, moves: &[Move]) {
        let adding = moves
            .iter()
            .enumerate()
            .filter(|(_, step)| step.add_box.is_some());
        let room = MOST_BOXES.saturating_sub(at_start);
        if let Some((index, _)) = adding.clone().nth(room) {
            self.add(
                format_args!("move[{index}].add_box"),
                format!(
                    "a hive has at most {MOST_BOXES} boxes; {at_start} at the start and {} added are too many",
                    adding.count()
                ),
            );
        }
    }
}
