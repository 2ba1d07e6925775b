//! Rules for moves that can be checked before the season runs: dates, ranges, one action each.
//!
//! What depends on the state of the hive on the day is refused on the day; see [`moves`](crate::moves).

use std::fmt::Arguments;

use super::checks::{Days, Problems};
use super::moves::{At, BroodFrames, NewQueen, Syrup, When};
use super::{FeedKind, Move};
use crate::words::Saying;

impl Problems {
    pub(super) fn step(&mut self, index: usize, step: &Move, season: Days) {
        let place = format!("move[{index}]");
        self.exactly_one(format_args!("{place}"), &step.choices());
        self.dates(&place, step, season);
        if let Some(when) = &step.when {
            self.when(&format!("{place}.when"), when);
        }
        for (field, flag) in [
            ("stop_feeding", step.stop_feeding),
            ("reverse_boxes", step.reverse_boxes),
            ("release_queen", step.release_queen),
            ("remove_queen", step.remove_queen),
            ("give_queen_cell", step.give_queen_cell),
            ("remove_queen_cells", step.remove_queen_cells),
            ("let_swarm", step.let_swarm),
            ("end_treatment", step.end_treatment),
            ("wrap_for_winter", step.wrap_for_winter),
            ("unwrap", step.unwrap),
        ] {
            if flag == Some(false) {
                self.add(
                    format_args!("{place}.{field}"),
                    Saying::new(|words| words.problems.move_not_true),
                );
            }
        }
        self.feeding(&place, step);
        self.frames_and_boxes(&place, step);
        self.bees_and_brood(&place, step);
        self.queens(&place, step);
        if let Some(treat) = &step.treat {
            let days = treat.days.map(f64::from);
            self.optional(format_args!("{place}.treat.days"), days, 1.0, 90.0, "days");
            let part = treat.resistance;
            self.optional(format_args!("{place}.treat.resistance"), part, 0.0, 1.0, "");
        }
    }

    fn dates(&mut self, place: &str, step: &Move, season: Days) {
        if let Some(date) = step.date {
            self.inside(format_args!("{place}.date"), date, season);
        } else if step.when.is_none() {
            self.add(
                format_args!("{place}"),
                Saying::new(|words| words.problems.move_without_date),
            );
        }
        if let Some(until) = step.until {
            self.inside(format_args!("{place}.until"), until, season);
            if step.date.is_some_and(|date| until < date) {
                self.add(
                    format_args!("{place}.until"),
                    Saying::new(|words| words.problems.move_ends_early).text("until", until),
                );
            }
            if step.every_days.is_none() && step.when.is_none() {
                self.add(
                    format_args!("{place}.until"),
                    Saying::new(|words| words.problems.move_needs_no_until),
                );
            }
        }
        let every = step.every_days.map(f64::from);
        self.optional(
            format_args!("{place}.every_days"),
            every,
            1.0,
            365.0,
            "days",
        );
    }

    fn when(&mut self, place: &str, when: &When) {
        let bounds = [
            (
                "frames_drawn_at_least",
                when.frames_drawn_at_least,
                0.0,
                72.0,
                "frames",
            ),
            ("bees_at_least", when.bees_at_least, 0.0, 100_000.0, "bees"),
            ("bees_at_most", when.bees_at_most, 0.0, 100_000.0, "bees"),
            (
                "brood_frames_at_least",
                when.brood_frames_at_least,
                0.0,
                40.0,
                "frames",
            ),
            (
                "brood_frames_at_most",
                when.brood_frames_at_most,
                0.0,
                40.0,
                "frames",
            ),
            (
                "capped_drone_cells_at_least",
                when.capped_drone_cells_at_least,
                1.0,
                20_000.0,
                "cells",
            ),
            (
                "honey_kg_at_least",
                when.honey_kg_at_least,
                0.0,
                200.0,
                "kg",
            ),
            ("honey_kg_at_most", when.honey_kg_at_most, 0.0, 200.0, "kg"),
        ];
        if bounds.iter().all(|(_, bound, ..)| bound.is_none()) {
            let names: Vec<_> = bounds.iter().map(|(name, ..)| *name).collect();
            self.add(
                format_args!("{place}"),
                Saying::new(|words| words.problems.give_some).text("names", names.join(", ")),
            );
        }
        for (field, bound, min, max, unit) in bounds {
            self.optional(format_args!("{place}.{field}"), bound, min, max, unit);
        }
        if let Some(of_box) = when.of_box {
            self.number(
                format_args!("{place}.of_box"),
                f64::from(of_box),
                1.0,
                6.0,
                "",
            );
            if when.frames_drawn_at_least.is_none() {
                self.add(
                    format_args!("{place}.of_box"),
                    Saying::new(|words| words.problems.of_box_alone),
                );
            }
        }
    }

    fn feeding(&mut self, place: &str, step: &Move) {
        if let Some(Syrup {
            kind,
            litres,
            jars,
            feeders,
        }) = &step.feed
        {
            if *kind == FeedKind::Patty {
                self.add(
                    format_args!("{place}.feed.kind"),
                    Saying::new(|words| words.problems.patty_as_feed)
                        .text("patty", "patty = { kilograms = 0.5 }"),
                );
            }
            if litres.is_some() && jars.is_some() {
                self.add(
                    format_args!("{place}.feed"),
                    Saying::new(|words| words.problems.give_only_one).text("names", "litres, jars"),
                );
            }
            self.optional(
                format_args!("{place}.feed.litres"),
                *litres,
                0.1,
                50.0,
                "litres",
            );
            self.optional(format_args!("{place}.feed.jars"), *jars, 0.25, 50.0, "jars");
            let feeders = f64::from(*feeders);
            self.number(
                format_args!("{place}.feed.feeders"),
                feeders,
                1.0,
                8.0,
                "feeders",
            );
        }
        if let Some(patty) = &step.patty {
            let weight = patty.kilograms;
            self.number(
                format_args!("{place}.patty.kilograms"),
                weight,
                0.05,
                5.0,
                "kg",
            );
        }
    }

    fn frames_and_boxes(&mut self, place: &str, step: &Move) {
        if let Some(hive_box) = &step.add_box {
            self.hive_box(format_args!("{place}.add_box"), hive_box);
        }
        if let Some(number) = step.remove_box {
            self.box_number(format_args!("{place}.remove_box"), number);
        }
        if let Some(pair) = &step.swap_boxes {
            self.box_number(format_args!("{place}.swap_boxes.one"), pair.one);
            self.box_number(format_args!("{place}.swap_boxes.other"), pair.other);
            if pair.one == pair.other {
                self.add(
                    format_args!("{place}.swap_boxes"),
                    Saying::new(|words| words.problems.box_with_itself),
                );
            }
        }
        let which = |which: &Option<super::moves::Which>| which.as_ref().and_then(|which| which.at);
        for (field, at) in [
            (
                "give_frame.at",
                step.give_frame.as_ref().and_then(|frame| frame.at),
            ),
            (
                "move_frame.from",
                step.move_frame.as_ref().map(|both| both.from),
            ),
            (
                "move_frame.to",
                step.move_frame.as_ref().map(|both| both.to),
            ),
            ("take_frame", step.take_frame),
            ("put_back_frame.at", which(&step.put_back_frame)),
            ("take_drone_frame.at", which(&step.take_drone_frame)),
            (
                "freeze_drone_frame.at",
                step.freeze_drone_frame
                    .as_ref()
                    .and_then(|freeze| freeze.at),
            ),
            ("swap_drone_frames.at", which(&step.swap_drone_frames)),
            ("cut_out_comb.at", which(&step.cut_out_comb)),
        ] {
            if let Some(At {
                in_box,
                place: number,
            }) = at
            {
                self.box_number(format_args!("{place}.{field}.box"), in_box);
                let number = f64::from(number);
                self.number(format_args!("{place}.{field}.place"), number, 1.0, 12.0, "");
            }
        }
        if let Some(freeze) = &step.freeze_drone_frame {
            let at = format_args!("{place}.freeze_drone_frame.hours");
            self.number(at, freeze.hours, 24.0, 336.0, "hours");
        }
    }

    fn box_number(&mut self, place: Arguments<'_>, number: u8) {
        self.number(place, f64::from(number), 1.0, 6.0, "");
    }

    fn bees_and_brood(&mut self, place: &str, step: &Move) {
        for (field, brood) in [
            ("give_brood", &step.give_brood),
            ("take_brood", &step.take_brood),
        ] {
            if let Some(BroodFrames { frames, .. }) = brood {
                let frames = f64::from(*frames);
                self.number(
                    format_args!("{place}.{field}.frames"),
                    frames,
                    1.0,
                    8.0,
                    "frames",
                );
            }
        }
        for (field, value, min, max, unit) in [
            ("give_bees", step.give_bees, 0.25, 10.0, "frames"),
            ("take_bees", step.take_bees, 0.25, 10.0, "frames"),
            (
                "give_stores",
                step.give_stores.map(f64::from),
                1.0,
                8.0,
                "frames",
            ),
            (
                "take_stores",
                step.take_stores.map(f64::from),
                1.0,
                8.0,
                "frames",
            ),
            (
                "take_honey_leaving_kg",
                step.take_honey_leaving_kg,
                0.0,
                100.0,
                "kg",
            ),
        ] {
            self.optional(format_args!("{place}.{field}"), value, min, max, unit);
        }
        if let Some(split) = &step.split {
            self.number(
                format_args!("{place}.split.share"),
                split.share,
                0.1,
                0.9,
                "",
            );
        }
        if let Some(nuc) = &step.take_nuc {
            for (field, value, min, max) in [
                ("frames_of_brood", f64::from(nuc.frames_of_brood), 1.0, 4.0),
                (
                    "frames_of_stores",
                    f64::from(nuc.frames_of_stores),
                    0.0,
                    2.0,
                ),
                ("further_bees", nuc.further_bees, 0.0, 4.0),
            ] {
                self.number(
                    format_args!("{place}.take_nuc.{field}"),
                    value,
                    min,
                    max,
                    "frames",
                );
            }
        }
        if let Some(unite) = &step.unite {
            for (field, value, min, max, unit) in [
                ("frames_of_bees", unite.frames_of_bees, 0.5, 20.0, "frames"),
                (
                    "frames_of_brood",
                    unite.frames_of_brood,
                    0.0,
                    10.0,
                    "frames",
                ),
                ("honey_kg", unite.honey_kg, 0.0, 40.0, "kg"),
                ("pollen_kg", unite.pollen_kg, 0.0, 5.0, "kg"),
            ] {
                self.number(format_args!("{place}.unite.{field}"), value, min, max, unit);
            }
            self.hive_box(format_args!("{place}.unite.box"), &unite.hive_box);
            if let Some(queen) = &unite.queen {
                self.queen_given(
                    &format!("{place}.unite.queen"),
                    queen.age_years,
                    queen.laying_power,
                );
            }
        }
        if let Some(bees) = &step.shake_package {
            self.amount_of_bees(
                format_args!("{place}.shake_package"),
                bees.pounds,
                bees.kilograms,
                bees.bees,
                (10.0, 4.5),
            );
        }
    }

    fn queens(&mut self, place: &str, step: &Move) {
        if let Some(cage) = &step.cage_queen {
            self.optional(
                format_args!("{place}.cage_queen.days"),
                cage.days,
                1.0,
                60.0,
                "days",
            );
        }
        for (field, queen) in [
            ("give_queen", &step.give_queen),
            ("replace_queen", &step.replace_queen),
        ] {
            let Some(NewQueen {
                age_years,
                laying_power,
                caged_days,
            }) = queen
            else {
                continue;
            };
            self.queen_given(&format!("{place}.{field}"), *age_years, *laying_power);
            self.number(
                format_args!("{place}.{field}.caged_days"),
                *caged_days,
                0.0,
                10.0,
                "days",
            );
        }
    }

    fn queen_given(&mut self, place: &str, age_years: f64, laying_power: f64) {
        self.number(
            format_args!("{place}.age_years"),
            age_years,
            0.0,
            5.0,
            "years",
        );
        self.number(
            format_args!("{place}.laying_power"),
            laying_power,
            0.0,
            1.5,
            "",
        );
    }
}
