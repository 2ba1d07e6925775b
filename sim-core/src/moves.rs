//! Moves: what the beekeeper does. When each is due, and carrying it out or refusing it.
//!
//! A move either happens in full or is refused with the reason, and then changes nothing. All that
//! enters or leaves the hive is a line of the ledger.
//!
//! Brood and stores are kept for the hive as a whole; what lies in one frame follows from the rule of
//! [`nest`](crate::nest).

mod bees;
mod divide;
mod drone_frames;
mod feeding;
mod frames;
mod layout;
mod queens;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::brood::Stages;
use crate::colony::Colony;
use crate::comb::Frame;
use crate::day::Plan;
use crate::draw::Draw;
use crate::forage::Conditions;
use crate::ledger::Ledger;
use crate::rng::Topic;
use crate::scenario::moves::When;
use crate::scenario::{Action, Scenario};
use crate::treatments::{self, Effect, Running};
use crate::words::Saying;
use crate::{Error, Parameters};

params! {
    /// What the beekeeper's hand does.
    MovesParameters {
        /// How much warmer the air seems to a wrapped colony on days under 10 °C.
        wrap_c = 3.0, "°C", 0.0..=10.0, Assumed, "covered hives eat less in winter: St. Clair et al. 2022 (from memory); the size is assumed";
        /// Share of an unopened hive's mites on the bees of a frame given from it, for each of our own.
        mites_on_given_bees = 1.0, "-", 0.0..=5.0, Assumed, "another hive of the yard is taken to be as infested as this one";
    }
}

/// One move of a scenario, made ready: where it stands in the file, and what is due.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// Its place in the scenario's list of moves, from 0.
    pub number: usize,
    /// What has to be so.
    pub when: Option<When>,
    /// Days until it is done again.
    pub every_days: Option<u32>,
    /// What is done.
    pub action: Action,
}

/// What came of a move on a day.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// The move's place in the scenario's list, from 0; `None` for what follows from an earlier move.
    pub number: Option<usize>,
    /// It could not be done; the text says why.
    pub refused: bool,
    /// What was done.
    pub text: Saying,
    /// Its figures, by name.
    pub figures: Vec<(&'static str, f64)>,
}

/// What was done: the words and the figures of a report.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Done {
    text: Saying,
    figures: Vec<(&'static str, f64)>,
}

impl Done {
    fn new(text: Saying) -> Self {
        Self {
            text,
            figures: Vec::new(),
        }
    }

    fn with(mut self, name: &'static str, figure: f64) -> Self {
        self.figures.push((name, figure));
        self
    }
}

/// Done, or the reason why it cannot be done.
pub type Result<T = Done> = std::result::Result<T, Saying>;

/// A frame that was taken out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shelved {
    /// The frame, without anything in it.
    pub frame: Frame,
    /// The day on which it goes back by itself.
    pub back_on: Option<u32>,
}

/// What the beekeeper has going on.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Beekeeping {
    /// Treatments in the hive.
    pub treatments: Vec<Running>,
    /// Frames in the shed or in the freezer.
    pub shed: Vec<Shelved>,
    /// The hive is wrapped.
    pub wrapped: bool,
    /// The day on which each move with a condition was done last.
    pub done: BTreeMap<usize, u32>,
}

impl Beekeeping {
    /// Whether something goes on today without a move: a treatment works, or a frame comes back.
    pub fn is_due(&self, day: u32) -> bool {
        let back = |kept: &Shelved| kept.back_on == Some(day);
        !self.treatments.is_empty() || self.shed.iter().any(back)
    }

    /// The mean temperature as the cluster feels it, °C.
    pub fn felt_c(&self, mean_c: f64, p: &MovesParameters) -> f64 {
        if self.wrapped && mean_c < 10.0 {
            (mean_c + p.wrap_c).min(10.0)
        } else {
            mean_c
        }
    }
}

/// Puts the moves of a scenario on their days.
///
/// # Errors
/// A move without an action, or whose date lies outside the season.
pub fn schedule(scenario: &Scenario, plans: &mut [Plan]) -> std::result::Result<(), Error> {
    let last = plans.len() as i32 - 1;
    for (number, step) in scenario.moves.iter().enumerate() {
        let day_of = |field: &str, date: crate::calendar::CalendarDate| {
            let day = date.days_since(scenario.start.date);
            if (0..=last).contains(&day) {
                Ok(day)
            } else {
                Err(Error::scenario(
                    format!("move[{number}].{field}"),
                    format!(
                        "expected a day from {} to {}, got {date}",
                        scenario.start.date, scenario.until
                    ),
                ))
            }
        };
        let action = step
            .action()
            .ok_or_else(|| Error::scenario(format!("move[{number}]"), "there is nothing to do"))?;
        let from = step.date.map_or(Ok(0), |date| day_of("date", date))?;
        let to = step.until.map_or(Ok(last), |date| day_of("until", date))?;
        let task = Arc::new(Task {
            number,
            when: step.when.clone(),
            every_days: step.every_days.map(u32::from),
            action,
        });
        let pace = match (&task.when, task.every_days) {
            (Some(_), _) => 1,
            (None, Some(every)) => every as usize,
            (None, None) => plans.len(),
        };
        for day in (from..=to).step_by(pace.max(1)) {
            plans[day as usize].moves.push(Arc::clone(&task));
        }
    }
    Ok(())
}

/// Lets each day know when honey is taken next, where it is taken on these days: what would taint it waits.
pub fn look_ahead_to_honey(plans: &mut [Plan], on: &[usize]) {
    let mut taken_in = None;
    for (day, plan) in plans.iter_mut().enumerate().rev() {
        plan.honey_taken_in = taken_in;
        taken_in = if on.contains(&day) {
            Some(1)
        } else {
            taken_in.map(|days| days + 1)
        };
    }
}

/// The beekeeper's hand in the hive for a day.
#[derive(Debug)]
pub struct Hand<'a> {
    /// The colony.
    pub colony: &'a mut Colony,
    /// The day's weather and bloom.
    pub conditions: &'a Conditions,
    /// All parameters.
    pub parameters: &'a Parameters,
    /// Stages of drone brood.
    pub drone_stages: Stages,
    /// Chance, or its mean. Moves are rare and many: one code for every kind of draw is small, and costs nothing.
    pub draw: &'a mut dyn Draw,
    /// What enters and leaves.
    pub ledger: &'a mut Ledger,
    /// Day of the season, from 0.
    pub day: u32,
    /// Days from today until the plan takes honey next.
    pub honey_taken_in: Option<u32>,
}

impl Hand<'_> {
    /// Does what is due today; adds what came of it to `reports`, and returns what treatments do today.
    pub fn work(&mut self, tasks: &[Arc<Task>], reports: &mut Vec<Report>) -> Option<Effect> {
        self.return_frames(reports);
        for task in tasks {
            if !self.due(task) {
                continue;
            }
            let outcome = self.perform(&task.action);
            if task.when.is_some() {
                self.colony.beekeeping.done.insert(task.number, self.day);
            }
            reports.push(report(Some(task.number), outcome));
        }
        let treatments = &mut self.colony.beekeeping.treatments;
        treatments.retain(|one| !one.over(self.day));
        if treatments.is_empty() || !self.colony.alive {
            self.colony.take_stock();
            return None;
        }
        let today = self.conditions;
        let treatments = &self.colony.beekeeping.treatments;
        Some(treatments::together(
            treatments,
            self.day,
            today.mean_c,
            today.high_c,
        ))
    }

    /// Whether a move that may be due today is.
    fn due(&self, task: &Task) -> bool {
        let Some(when) = &task.when else { return true };
        let again = match (
            self.colony.beekeeping.done.get(&task.number),
            task.every_days,
        ) {
            (None, _) => true,
            (Some(_), None) => false,
            (Some(&last), Some(every)) => self.day >= last + every,
        };
        again && self.holds(when)
    }

    fn holds(&self, when: &When) -> bool {
        let (colony, p) = (&*self.colony, self.parameters);
        let stock = &colony.stock;
        let drawn = match when.of_box {
            None => colony.frames.drawn_frames,
            Some(number) => colony
                .frames
                .frames
                .iter()
                .filter(|frame| frame.in_box + 1 == usize::from(number))
                .map(|frame| frame.drawn / frame.room)
                .sum(),
        };
        let brood = stock.worker_brood() / p.comb.brood_frame_cells;
        let drone_cells: f64 = colony
            .drone_brood
            .iter()
            .filter(|nest| nest.frame.is_some())
            .map(|nest| nest.brood.capped())
            .sum();
        let honey_kg = colony.stores.honey_g / 1000.0;
        let at_least = |bound: Option<f64>, value: f64| bound.is_none_or(|bound| value >= bound);
        // A trace left by smooth means is nothing to a beekeeper.
        let at_most =
            |bound: Option<f64>, value: f64| bound.is_none_or(|bound| value <= bound + 0.005);
        colony.alive
            && at_least(when.frames_drawn_at_least, drawn + 0.005)
            && at_least(when.bees_at_least, stock.adults.adults())
            && at_most(when.bees_at_most, stock.adults.adults())
            && at_least(when.brood_frames_at_least, brood)
            && at_most(when.brood_frames_at_most, brood)
            && at_least(when.capped_drone_cells_at_least, drone_cells)
            && at_least(when.honey_kg_at_least, honey_kg)
            && at_most(when.honey_kg_at_most, honey_kg)
    }

    /// Does one action, or says why it cannot be done.
    ///
    /// # Errors
    /// The reason, in words; then nothing has changed.
    pub fn perform(&mut self, action: &Action) -> Result {
        let for_empty_hives = matches!(
            action,
            Action::AddBox(_)
                | Action::RemoveBox(_)
                | Action::ReverseBoxes(_)
                | Action::SwapBoxes(_)
                | Action::TakeFrame(_)
                | Action::GiveFrame(_)
                | Action::MoveFrame(_)
                | Action::TakeHoney(_)
                | Action::TakeStores(_)
                | Action::EndTreatment(_)
                | Action::StopFeeding(_)
        );
        if !self.colony.alive && !for_empty_hives {
            return Err(Saying::new(|words| words.refusals.dead));
        }
        // Earlier moves of the day count.
        self.colony.take_stock();
        match action {
            Action::AddBox(hive_box) => self.add_box(hive_box),
            other => self.carry_out(other),
        }
    }

    /// All moves. Compiled apart from the one of the page's first season, which comes without the others.
    #[inline(never)]
    fn carry_out(&mut self, action: &Action) -> Result {
        match action {
            Action::Feed(syrup) => self.feed(syrup),
            Action::StopFeeding(_) => self.stop_feeding(),
            Action::Patty(patty) => self.patty(patty.kilograms),
            Action::AddBox(hive_box) => self.add_box(hive_box),
            Action::RemoveBox(number) => self.remove_box(*number),
            Action::ReverseBoxes(_) => self.swap_boxes(1, 2),
            Action::SwapBoxes(pair) => self.swap_boxes(pair.one, pair.other),
            Action::GiveFrame(new) => self.give_frame(new),
            Action::MoveFrame(both) => self.move_frame(both.from, both.to),
            Action::TakeFrame(at) => self.take_frame(*at),
            Action::PutBackFrame(which) => self.put_back_frame(which.at),
            Action::TakeDroneFrame(which) => self.take_drone_frame(which.at),
            Action::FreezeDroneFrame(freeze) => self.freeze_drone_frame(freeze.hours, freeze.at),
            Action::SwapDroneFrames(which) => self.swap_drone_frames(which.at),
            Action::CutOutComb(which) => self.cut_out_comb(which.at),
            Action::GiveBrood(brood) => self.give_brood(brood),
            Action::TakeBrood(brood) => self.take_brood(brood),
            Action::GiveBees(frames) => self.give_bees(*frames),
            Action::TakeBees(frames) => {
                let bees = frames * self.parameters.comb.frame_of_bees;
                self.shake_out(bees, Saying::new(|words| words.moves.bees_shaken_out))
            }
            Action::GiveStores(frames) => self.give_stores(*frames),
            Action::TakeStores(frames) => self.take_stores(*frames),
            Action::TakeHoney(leaving_kg) => self.take_honey(leaving_kg * 1000.0),
            Action::CageQueen(cage) => self.cage_queen(cage.days),
            Action::ReleaseQueen(_) => self.release_queen(),
            Action::RemoveQueen(_) => self.remove_queen(),
            Action::GiveQueen(queen) => self.give_queen(queen),
            Action::ReplaceQueen(queen) => self.replace_queen(queen),
            Action::GiveQueenCell(_) => self.give_queen_cell(),
            Action::RemoveQueenCells(_) => self.remove_queen_cells(),
            Action::LetSwarm(_) => self.let_swarm(),
            Action::Split(split) => self.split(split),
            Action::TakeNuc(nuc) => self.take_nuc(nuc),
            Action::Unite(other) => self.unite(other),
            Action::ShakePackage(bees) => {
                let bees = crate::colony::head_count(
                    "shake_package",
                    bees.pounds,
                    bees.kilograms,
                    bees.bees,
                )
                .map_err(|error| {
                    Saying::new(|words| words.forms.as_it_is).text("text", error.message)
                })?;
                self.shake_out(bees, Saying::new(|words| words.moves.bees_packaged))
            }
            Action::Treat(treat) => self.treat(treat),
            Action::EndTreatment(_) => self.end_treatment(),
            Action::WrapForWinter(_) => self.wrap(true),
            Action::Unwrap(_) => self.wrap(false),
        }
    }
}

/// Treatments kill mites, and harm brood and bees.
pub fn treatments_work<D: Draw>(
    effect: &Effect,
    colony: &mut Colony,
    ledger: &mut Ledger,
    draw: &mut D,
) {
    let killed = draw.how_many(Topic::Mites, colony.mites.on_bees, effect.mites_on_bees);
    colony.mites.on_bees -= killed;
    ledger.mites.died_on_bees += killed;
    let nests = std::iter::once(&mut colony.worker_brood)
        .chain(colony.drone_brood.iter_mut().map(|nest| &mut nest.brood));
    for (index, brood) in nests.enumerate() {
        if effect.mites_in_cells > 0.0 {
            let risks = [effect.mites_in_cells; crate::brood::MOST_DAYS];
            ledger.mites.died_at_emergence +=
                draw.of_risks(Topic::Mites, &mut brood.mothers, &risks);
        }
        if effect.open_brood > 0.0 {
            let mut risks = [0.0; crate::brood::MOST_DAYS];
            risks[brood.stages.egg..brood.stages.open()].fill(effect.open_brood);
            let (topic, died) = if index == 0 {
                (Topic::Brood, &mut ledger.worker_brood_died)
            } else {
                (Topic::Drones, &mut ledger.drone_brood_died)
            };
            *died += draw.of_risks(topic, &mut brood.cells, &risks);
        }
    }
    if effect.bees > 0.0 {
        let risks = [effect.bees; crate::adults::CLASSES];
        for adults in [&mut colony.adults, &mut colony.damaged] {
            ledger.died_in_hive += draw.of_risks(Topic::Adults, &mut adults.house, &risks);
        }
    }
}

fn report(number: Option<usize>, outcome: Result) -> Report {
    let (refused, done) = match outcome {
        Ok(done) => (false, done),
        Err(reason) => (true, Done::new(reason)),
    };
    Report {
        number,
        refused,
        text: done.text,
        figures: done.figures,
    }
}
