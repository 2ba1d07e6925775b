//! What a beekeeper would write into the diary: the first time that something is seen.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::calendar::plus_days;
use crate::colony::Colony;
use crate::day::Outcome;
use crate::observe::DayRecord;
use crate::order;
use crate::season::Event;
use crate::succession::{Seen, SuccessionParameters, notes};
use crate::words::Saying;

/// What is noted the first time only.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum First {
    Eggs,
    Capped,
    Young,
    Drones,
}

/// Watches the days go by and notes what is worth noting.
#[derive(Debug)]
pub struct Watch {
    first: Date,
    events: Vec<Event>,
    seen: Vec<First>,
    hungry: bool,
    full_boxes: usize,
    queens: Option<Seen>,
}

impl Watch {
    /// Nothing seen yet.
    pub fn new(first: Date) -> Self {
        Self {
            first,
            events: Vec::new(),
            seen: Vec::new(),
            hungry: false,
            full_boxes: 0,
            queens: None,
        }
    }

    fn note(&mut self, day: usize, kind: &'static str, text: Saying) {
        self.events.push(Event {
            date: plus_days(self.first, day as i32).to_string(),
            day: day as u32 + 1,
            kind,
            text,
            step: None,
            figures: BTreeMap::new(),
        });
    }

    fn note_first(&mut self, seen: bool, day: usize, first: First) {
        if seen && !self.seen.contains(&first) {
            self.seen.push(first);
            let (kind, text) = match first {
                First::Eggs => ("brood", Saying::new(|words| words.events.first_eggs)),
                First::Capped => ("brood", Saying::new(|words| words.events.first_capped)),
                First::Young => ("bees", Saying::new(|words| words.events.first_young)),
                First::Drones => ("drones", Saying::new(|words| words.events.drones_fly)),
            };
            self.note(day, kind, text);
        }
    }

    /// Looks at one day.
    pub fn see(
        &mut self,
        day: usize,
        today: &DayRecord,
        outcome: &Outcome,
        colony: &Colony,
        p: &SuccessionParameters,
    ) {
        if day == 0 {
            let text = Saying::new(|words| words.events.start).about("bees", today.adult_bees);
            self.note(day, "start", text);
        }
        for report in &outcome.moves {
            let kind = if report.refused { "refused" } else { "move" };
            self.note(day, kind, report.text.clone());
            if let Some(event) = self.events.last_mut() {
                event.step = report.number;
                event.figures = report.figures.iter().copied().collect();
            }
        }
        if day == 0 && today.capped_worker >= 1.0 {
            // What a colony began with is no first.
            self.seen.extend([First::Eggs, First::Capped, First::Young]);
        }
        let brood_before = self.seen.contains(&First::Eggs) || day == 0;
        if outcome.queen_released {
            self.note(day, "queen", Saying::new(|words| words.events.queen_out));
        }
        if day > 0 || today.eggs > 0.0 {
            let empty_start = !brood_before || today.capped_worker < 1.0;
            self.note_first(today.eggs_laid >= 1.0 && empty_start, day, First::Eggs);
        }
        if self.seen.contains(&First::Eggs) {
            self.note_first(today.capped_worker >= 1.0, day, First::Capped);
            self.note_first(today.emerged >= 1.0, day, First::Young);
        }
        self.note_first(today.drones >= 30.0 && day > 0, day, First::Drones);
        self.see_boxes(day, colony);
        self.see_queens(day, outcome, colony, p);
        let hungry = today.starving;
        if hungry && !self.hungry {
            self.note(day, "food", Saying::new(|words| words.events.starving));
        }
        self.hungry = hungry;
        if outcome.lost {
            self.note(day, "lost", Saying::new(|words| words.events.lost));
        }
    }

    fn see_queens(
        &mut self,
        day: usize,
        outcome: &Outcome,
        colony: &Colony,
        p: &SuccessionParameters,
    ) {
        let now = Seen::of(colony, p);
        let before = self.queens.replace(now);
        if let Some(before) = before.filter(|_| colony.alive) {
            for (kind, text) in notes(&before, &now, &outcome.ledger) {
                self.note(day, kind, text);
            }
        }
    }

    fn see_boxes(&mut self, day: usize, colony: &Colony) {
        let boxes = colony.frames.boxes.len();
        if self.full_boxes >= boxes {
            return;
        }
        let of_box = colony
            .frames
            .frames
            .iter()
            .filter(|frame| frame.in_box == self.full_boxes);
        let (drawn, room) = of_box.fold((0.0, 0.0), |sum, frame| {
            (sum.0 + frame.drawn, sum.1 + frame.room)
        });
        if room > 0.0 && drawn >= 0.8 * room {
            if day > 0 {
                let text =
                    Saying::new(|words| words.events.box_drawn).count("box", self.full_boxes + 1);
                self.note(day, "comb", text);
            }
            self.full_boxes += 1;
            if day == 0 {
                // All that the colony began with, so that none of it is told later.
                self.see_boxes(day, colony);
            }
        }
    }

    /// Adds what can only be told afterwards, and puts everything in order.
    pub fn finish(mut self, days: &[DayRecord]) -> Vec<Event> {
        if self.seen.contains(&First::Eggs) {
            // A colony that starts without brood is lowest within its first ten weeks, if it lives.
            let lowest = days[..days.len().min(70)]
                .iter()
                .enumerate()
                .min_by(|a, b| a.1.adult_bees.total_cmp(&b.1.adult_bees));
            if let Some((day, record)) =
                lowest.filter(|(day, record)| *day > 5 && record.adult_bees > 0.0)
            {
                let text =
                    Saying::new(|words| words.events.fewest_bees).about("bees", record.adult_bees);
                self.note(day, "bees", text);
            }
        }
        order::by_key(&mut self.events, |event| i64::from(event.day));
        self.events
    }
}
