//! One run of a colony: from a scenario and its weather to a record of days and events.

use std::collections::BTreeMap;
use std::sync::Arc;

use jiff::civil::Date;
use serde::Serialize;

use crate::adults::Marked;
use crate::calendar::{days_between, plus_days};
use crate::colony::Colony;
use crate::day::{Diary, Fixed, Outcome, Plan, step};
use crate::draw::{Draw, Mean, Random};
use crate::forage::{Conditions, Outlook, outlook};
use crate::mites::Neighbours;
use crate::moves::{Report, Task};
use crate::observe::{DayRecord, record};
use crate::scenario::{Action, Feed, FeedKind, Mode, Scenario};
use crate::syrup::filling_g;
use crate::weather::Weather;
use crate::words::Saying;
use crate::{Error, Parameters, events, moves};

/// Something that happened on a date.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Event {
    /// The day.
    pub date: String,
    /// Day of the season, the first being 1.
    pub day: u32,
    /// What kind of event, for machines: `start`, `queen`, `swarm`, `feed`, `comb`, `brood`, `bees`, `drones`, `food`, `move`, `refused`, `lost`.
    pub kind: &'static str,
    /// The event in words.
    pub text: Saying,
    /// Which move it came of: its place in the scenario's list, from 0.
    #[serde(rename = "move", skip_serializing_if = "Option::is_none")]
    pub step: Option<usize>,
    /// The figures of a move, by name.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub figures: BTreeMap<&'static str, f64>,
}

/// The result of one run.
#[derive(Debug, Clone)]
pub struct Season {
    /// First day.
    pub first: Date,
    /// One record a day from `first` on.
    pub days: Vec<DayRecord>,
    /// What each day offered, in step with them.
    pub conditions: Vec<Conditions>,
    /// What happened, in order of date.
    pub events: Vec<Event>,
    /// Every parameter as it was used.
    pub parameters: Parameters,
    /// The seed.
    pub seed: u32,
    /// Mean or random.
    pub mode: Mode,
    /// The colony at the end.
    pub colony: Colony,
}

/// A season made ready to run: its weather read, its parameters checked, its moves put on their days.
///
/// Preparing costs far more than running; a prepared season can be run again and again.
#[derive(Debug, Clone)]
pub struct Prepared {
    /// First day.
    pub first: Date,
    /// What each day offers, from the first day of the season on.
    pub conditions: Vec<Conditions>,
    /// What blooms, days counted from the first day of the season (can be before it).
    pub outlook: Outlook,
    /// First day of the season within the outlook.
    pub offset: usize,
    /// Every parameter.
    pub parameters: Parameters,
    neighbours: Neighbours,
    plans: Vec<Plan>,
    start: Colony,
    seed: u32,
    mode: Mode,
}

/// A colony on its way through a season.
#[derive(Debug, Clone)]
pub struct Walk {
    /// The colony at nightfall of the last day that was walked.
    pub colony: Colony,
    /// The day that comes next, counted from 0.
    pub day: usize,
    diary: Diary,
}

impl Walk {
    /// A colony on the morning of its first day.
    pub fn new(colony: Colony) -> Self {
        Self {
            diary: Diary::new(&colony),
            colony,
            day: 0,
        }
    }

    /// Puts honey into the combs that no ledger has: to try what a colony would come to with it.
    pub fn suppose_honey(&mut self, honey_g: f64) {
        self.colony.stores.honey_g += honey_g;
        self.diary = Diary::new(&self.colony);
    }
}

/// Runs a season.
///
/// `weather` must cover the scenario from its first day to its last, and should reach back to
/// 1 January (south of the equator: 1 July) before it, from where warmth is summed;
/// [`weather::resolve`](crate::weather::resolve) makes such a run of days.
///
/// # Errors
/// A scenario that does not hold together, a parameter out of range, or weather that does not cover it.
pub fn run(scenario: &Scenario, weather: &Weather) -> Result<Season, Error> {
    prepare(scenario, weather)?.run()
}

/// Makes a season ready to run.
///
/// # Errors
/// As [`run`].
pub fn prepare(scenario: &Scenario, weather: &Weather) -> Result<Prepared, Error> {
    scenario.validate()?;
    let mut parameters = Parameters::default();
    scenario.hive.fit(&mut parameters.comb);
    for (name, value) in &scenario.parameters {
        parameters.set(name, *value)?;
    }
    let first = scenario.start.date.0;
    let length = scenario.until.days_since(scenario.start.date) + 1;
    if length < 1 {
        return Err(Error::scenario(
            "until",
            format!(
                "expected a day not before the start ({first}), got {}",
                scenario.until
            ),
        ));
    }
    let offset = days_between(weather.first, first);
    if offset < 0 || (offset + length) as usize > weather.days.len() {
        let last = plus_days(weather.first, weather.days.len() as i32 - 1);
        return Err(Error::weather(
            "weather",
            format!(
                "the season runs from {first} to {}, the weather from {} to {last}",
                scenario.until, weather.first
            ),
        ));
    }
    let (offset, length) = (offset as usize, length as usize);
    let outlook = outlook(weather, &scenario.place, &scenario.bloom, &parameters)?;
    let conditions = outlook.days[offset..offset + length].to_vec();
    let start = Colony::new(scenario, &conditions[0], &parameters)?;
    let prepared = Prepared {
        first,
        conditions,
        outlook,
        offset,
        neighbours: scenario.place.neighbours,
        plans: plans(scenario, length)?,
        start,
        seed: scenario.seed,
        mode: scenario.mode,
        parameters,
    };
    prepared.looking_ahead()
}

impl Prepared {
    /// The seed.
    pub fn seed(&self) -> u32 {
        self.seed
    }

    /// Mean or random.
    pub fn mode(&self) -> Mode {
        self.mode
    }

    /// The same place, weather and start with the feed and moves of another plan.
    ///
    /// # Errors
    /// A move that does not hold together.
    pub fn with_plan(&self, scenario: &Scenario) -> Result<Self, Error> {
        let planned = Self {
            plans: plans(scenario, self.conditions.len())?,
            ..self.clone()
        };
        planned.looking_ahead()
    }

    fn looking_ahead(mut self) -> Result<Self, Error> {
        let taken = self.moves_of(|action| matches!(action, Action::TakeHoney(_)))?;
        let on: Vec<usize> = taken.iter().map(|(day, _)| *day).collect();
        moves::look_ahead_to_honey(&mut self.plans, &on);
        Ok(self)
    }

    /// The plan's moves of a kind with the days on which they are made: those of a date on its date; what waits until something
    /// is so, when the colony of expected numbers comes to it.
    ///
    /// # Errors
    /// As [`Prepared::run`].
    pub fn moves_of(&self, is: fn(&Action) -> bool) -> Result<Vec<(usize, &Action)>, Error> {
        let mut moves = Vec::new();
        let mut waiting = false;
        for (day, plan) in self.plans.iter().enumerate() {
            for task in plan.moves.iter().filter(|task| is(&task.action)) {
                if task.when.is_none() {
                    moves.push((day, &task.action));
                } else {
                    waiting = true;
                }
            }
        }
        if waiting {
            self.come_to(is, &mut moves)?;
        }
        Ok(moves)
    }

    /// Adds the moves of a kind to which the colony of expected numbers comes. Compiled apart from the page's first season.
    #[inline(never)]
    fn come_to<'a>(
        &'a self,
        is: fn(&Action) -> bool,
        moves: &mut Vec<(usize, &'a Action)>,
    ) -> Result<(), Error> {
        let mut day = 0;
        self.run_bare(&mut Mean, |_, outcome| {
            let done = |task: &Task| {
                let of_it = |report: &Report| report.number == Some(task.number);
                let mut reports = outcome.moves.iter();
                reports.any(|report| of_it(report) && !report.refused)
            };
            for task in &self.plans[day].moves {
                if is(&task.action) && task.when.is_some() && done(task) {
                    moves.push((day, &task.action));
                }
            }
            day += 1;
        })?;
        Ok(())
    }

    /// Whether the plan's feed, apart from its moves, fills feeders with syrup on a day.
    pub fn fills_feeders(&self, day: usize) -> bool {
        self.plans[day].fill_syrup_g.is_some()
    }

    /// Days from a day until the plan takes honey next, not on that day itself.
    pub fn honey_taken_in(&self, day: usize) -> Option<u32> {
        self.plans[day].honey_taken_in
    }

    /// Runs the season in its own mode.
    ///
    /// # Errors
    /// A day that does not add up: a fault of the program, with the day and the sum.
    pub fn run(&self) -> Result<Season, Error> {
        self.run_marking(|_, _| false).map(|(season, _)| season)
    }

    /// Runs the season and follows the bees of the days that `mark` chooses by day and how many emerged.
    ///
    /// # Errors
    /// As [`Prepared::run`].
    pub fn run_marking(
        &self,
        mark: impl Fn(usize, f64) -> bool,
    ) -> Result<(Season, Vec<Marked>), Error> {
        match self.mode {
            Mode::Mean => self.run_with(&mut Mean, mark),
            Mode::Random => self.run_with(&mut Random::new(self.seed, 0), mark),
        }
    }

    fn run_with<D: Draw>(
        &self,
        draw: &mut D,
        mark: impl Fn(usize, f64) -> bool,
    ) -> Result<(Season, Vec<Marked>), Error> {
        let fixed = Fixed::new(&self.parameters, self.neighbours);
        let mut colony = self.start.clone();
        let mut diary = Diary::new(&colony);
        let mut days = Vec::with_capacity(self.conditions.len());
        let mut marked: Vec<Marked> = Vec::new();
        let mut watch = events::Watch::new(self.first);
        for (day, conditions) in self.conditions.iter().enumerate() {
            let plan = &self.plans[day];
            step(
                &mut colony,
                conditions,
                plan,
                &fixed,
                draw,
                day as u32,
                &mut diary,
            )
            .map_err(|error| {
                error.within(&format!(
                    "day {} ({})",
                    day + 1,
                    plus_days(self.first, day as i32)
                ))
            })?;
            let outcome = &diary.outcome;
            for bees in &mut marked {
                bees.live(&outcome.rates, &self.parameters.adults);
            }
            if mark(day, outcome.ledger.emerged) {
                marked.push(Marked::new(day, outcome.ledger.emerged));
            }
            let today = record(day, &colony, conditions, outcome, &self.parameters);
            watch.see(day, &today, outcome, &colony, &self.parameters.succession);
            days.push(today);
        }
        let season = Season {
            first: self.first,
            events: watch.finish(&days),
            days,
            conditions: self.conditions.clone(),
            parameters: self.parameters.clone(),
            seed: self.seed,
            mode: self.mode,
            colony,
        };
        Ok((season, marked))
    }

    /// The season on the morning of its first day, to be lived day by day and branched.
    pub fn begin(&self) -> Course<'_> {
        Course {
            season: self,
            fixed: Fixed::new(&self.parameters, self.neighbours),
            diary: Diary::new(&self.start),
            colony: self.start.clone(),
            day: 0,
        }
    }

    /// Runs the season without writing anything down, and returns the colony at the end: what an
    /// ensemble pays for a member.
    ///
    /// # Errors
    /// As [`Prepared::run`].
    pub fn run_bare<D: Draw>(
        &self,
        draw: &mut D,
        mut each_day: impl FnMut(&Colony, &Outcome),
    ) -> Result<Colony, Error> {
        let fixed = Fixed::new(&self.parameters, self.neighbours);
        let mut colony = self.start.clone();
        let mut diary = Diary::new(&colony);
        for (day, (conditions, plan)) in self.conditions.iter().zip(&self.plans).enumerate() {
            step(
                &mut colony,
                conditions,
                plan,
                &fixed,
                draw,
                day as u32,
                &mut diary,
            )?;
            each_day(&colony, &diary.outcome);
        }
        Ok(colony)
    }

    /// The colony at the end of one member's season, in the scenario's mode; nothing is written down.
    ///
    /// # Errors
    /// As [`Prepared::run`].
    pub fn end_of(&self, member: u32) -> Result<Colony, Error> {
        match self.mode {
            Mode::Mean => self.run_bare(&mut Mean, |_, _| {}),
            Mode::Random => self.run_bare(&mut Random::new(self.seed, member), |_, _| {}),
        }
    }

    /// Goes on with a colony, under parameters of its own, until day `until` (counted from 0) comes next.
    ///
    /// # Errors
    /// As [`Prepared::run`].
    pub fn walk<D: Draw>(
        &self,
        walk: &mut Walk,
        until: usize,
        parameters: &Parameters,
        draw: &mut D,
        mut each_day: impl FnMut(usize, &Colony, &Outcome),
    ) -> Result<(), Error> {
        let fixed = Fixed::new(parameters, self.neighbours);
        while walk.day < until.min(self.conditions.len()) {
            let day = walk.day;
            step(
                &mut walk.colony,
                &self.conditions[day],
                &self.plans[day],
                &fixed,
                draw,
                day as u32,
                &mut walk.diary,
            )?;
            each_day(day, &walk.colony, &walk.diary.outcome);
            walk.day += 1;
        }
        Ok(())
    }
}

/// A season under way. A clone of it is a branch: both go on from the same evening.
#[derive(Debug, Clone)]
pub struct Course<'a> {
    season: &'a Prepared,
    fixed: Fixed<'a>,
    diary: Diary,
    /// The colony at nightfall.
    pub colony: Colony,
    /// The day that comes next, from 0.
    pub day: usize,
}

impl Course<'_> {
    /// Lives the next day, with `besides` done after the moves of the plan, and says what it came to.
    ///
    /// # Errors
    /// A day that does not add up, a fault of the program; a day after the last.
    pub fn live_a_day<D: Draw>(
        &mut self,
        besides: Option<&Arc<Task>>,
        draw: &mut D,
    ) -> Result<&Outcome, Error> {
        let season = self.season;
        let (Some(conditions), Some(plan)) =
            (season.conditions.get(self.day), season.plans.get(self.day))
        else {
            return Err(Error::scenario("until", "the season is over"));
        };
        let mut more;
        let plan = match besides {
            None => plan,
            Some(task) => {
                more = plan.clone();
                more.moves.push(Arc::clone(task));
                &more
            }
        };
        step(
            &mut self.colony,
            conditions,
            plan,
            &self.fixed,
            draw,
            self.day as u32,
            &mut self.diary,
        )?;
        self.day += 1;
        Ok(&self.diary.outcome)
    }
}

/// Puts feed and moves on their days.
fn plans(scenario: &Scenario, length: usize) -> Result<Vec<Plan>, Error> {
    let mut plans = vec![Plan::default(); length];
    for (k, feed) in scenario.feed.iter().enumerate() {
        let fill = fill_of(feed, k)?;
        let from = feed.from.days_since(scenario.start.date);
        let to = feed.to.days_since(scenario.start.date);
        for day in from.max(0)..=to.min(length as i32 - 1) {
            let plan = &mut plans[day as usize];
            let filled = match (fill, feed.every_days) {
                // Kept full.
                (f64::INFINITY, _) => true,
                (_, Some(every)) => (day - from) % i32::from(every) == 0,
                (_, None) => day == from,
            };
            if feed.kind == FeedKind::Patty {
                plan.patty = true;
                if filled {
                    *plan.put_patty_g.get_or_insert(0.0) += fill;
                }
            } else {
                plan.feeders += f64::from(feed.feeders);
                if filled {
                    *plan.fill_syrup_g.get_or_insert(0.0) += fill;
                }
            }
        }
    }
    moves::schedule(scenario, &mut plans)?;
    Ok(plans)
}

/// What one filling holds: syrup in g as honey, patty in g; infinite when kept full.
fn fill_of(feed: &Feed, k: usize) -> Result<f64, Error> {
    let patty = feed.kilograms.map(|kilograms| kilograms * 1000.0);
    match (feed.kind, feed.litres, feed.jars) {
        (FeedKind::Patty, ..) => Ok(patty.unwrap_or(f64::INFINITY)),
        (_, Some(_), Some(_)) => Err(Error::scenario(
            format!("feed[{k}]"),
            "expected litres or jars, not both",
        )),
        (kind, litres, jars) => Ok(filling_g(kind, litres, jars)),
    }
}
