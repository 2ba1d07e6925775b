//! What a search found: the best plans, what each costs and gains, how sure that is.

use jiff::civil::Date;
use serde::Serialize;

use super::race::{Life, Runner};
use super::{DatedMove, Family, Goal, candidates, words};
use crate::agenda::{Event, calendar, capital};
use crate::calendar::CalendarDate;
use crate::ensemble::{Spread, Tally};
use crate::priors::{AssumedMites, normal_share};
use crate::scenario::Move;
use crate::words::{Language, Saying, Speech, text};

/// What was found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Found {
    /// Version of the program.
    pub version: &'static str,
    /// Name of the scenario.
    pub scenario: String,
    /// Its digest, 16 hexadecimal digits.
    pub scenario_digest: String,
    /// Name of the hive; empty: none.
    pub hive: String,
    /// The seed.
    pub seed: u32,
    /// The day from which on something may be done.
    pub from: CalendarDate,
    /// The last day of the season, on which plans are judged.
    pub until: CalendarDate,
    /// What is wanted, the most important first.
    pub goals: Vec<Goal>,
    /// Plans that were tried.
    pub tried: usize,
    /// Members that the best were judged on.
    pub members: usize,
    /// Whether the search came to its end. If not, the best so far were judged on members of the race, which flatters
    /// them.
    pub finished: bool,
    /// The plan as it is: each goal that there is.
    pub as_it_is: Vec<Measured>,
    /// The best plans, in order.
    pub best: Vec<Judged>,
    /// Mites at the start that the scenario does not speak of.
    pub assumed_mites: Option<AssumedMites>,
    /// Where what was found rests on few members.
    pub warnings: Vec<Saying>,
    /// What to beware of in them.
    pub cautions: Vec<&'static str>,
}

impl Found {
    /// The best plan as an iCalendar file (RFC 5545), an event for each move; `stamp` is the day on which it says that it
    /// was made.
    pub fn icalendar(&self, speech: Speech, stamp: Date) -> String {
        let name = if self.hive.is_empty() {
            &self.scenario
        } else {
            &self.hive
        };
        let dated = self.best.iter().take(1).flat_map(|best| &best.calendar);
        let words = &speech.words().agenda;
        let events = dated.map(|dated| Event {
            hive: &self.hive,
            scenario: &self.scenario,
            kind: "plan",
            from: dated.date.0,
            to: dated.date.0,
            title: capital(&dated.text.told(speech)),
            lines: self
                .cautions_in(speech.language)
                .iter()
                .map(|caution| text(words.calendar_caution, &[("caution", caution)]))
                .collect(),
        });
        calendar(name, events, stamp, speech.language)
    }

    /// What to beware of in the best plans.
    pub fn cautions_in(&self, language: Language) -> Vec<&'static str> {
        words::cautions(self.best.iter().flat_map(|plan| &plan.moves), language)
    }
}

/// A goal over the members.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Measured {
    /// Which.
    pub goal: Goal,
    /// Its values.
    pub spread: Spread,
}

/// A plan and what comes of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Judged {
    /// What kinds of moves it adds.
    pub families: Vec<Family>,
    /// The moves that it adds.
    pub moves: Vec<Move>,
    /// The same day by day.
    pub calendar: Vec<DatedMove>,
    /// What it costs.
    pub costs: Costs,
    /// What it gains over the plan as it is, for each goal.
    pub gains: Vec<Gain>,
    /// The same for what was not asked for.
    pub besides: Vec<Gain>,
    /// Against the next of the best, for each goal in order; empty for the last.
    pub against_next: Vec<Gain>,
}

/// What a plan costs beyond the plan as it is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Costs {
    /// Days on which something is done.
    pub visits: usize,
    /// Quart jars of syrup.
    pub jars: f64,
    /// Sugar for it, kg.
    pub sugar_kg: f64,
    /// Treatments.
    pub treatments: usize,
    /// Drone brood destroyed, cells, mean.
    pub drones: f64,
    /// Honey that went into that brood and its comb, kg, mean.
    pub drone_honey_kg: f64,
    /// Moves that were refused, share of members in which any was.
    pub refused: f64,
}

/// One side against another on the same members.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Gain {
    /// By which goal.
    pub goal: Goal,
    /// Its values with this plan.
    pub with: Spread,
    /// What it is better by (negative: worse), member by member.
    pub difference: Spread,
    /// In how many members it is better.
    pub better: Tally,
    /// Probability that it is better in a season.
    pub probability: f64,
    /// Its standard error; see [`Tally::standard_error`].
    pub probability_error: f64,
    /// How sure it is that it is better in the mean, 0 to 1: from the mean difference and its standard error.
    pub sure: f64,
}

impl Gain {
    fn of(goal: Goal, with: &[Life], against: &[Life]) -> Self {
        let gains: Vec<f64> = with
            .iter()
            .zip(against)
            .map(|(with, against)| goal.worth(with) - goal.worth(against))
            .collect();
        let better = Tally::of(gains.iter().copied());
        let difference = Spread::of(&mut gains.clone());
        Self {
            goal,
            with: measured(goal, with),
            better,
            probability: better.probability(),
            probability_error: better.standard_error(),
            sure: surely(&difference),
            difference,
        }
    }
}

/// How sure it is that a mean lies above zero.
fn surely(difference: &Spread) -> f64 {
    if difference.standard_error > 0.0 {
        normal_share(difference.mean / difference.standard_error)
    } else {
        match difference.mean {
            mean if mean > 0.0 => 1.0,
            mean if mean < 0.0 => 0.0,
            _ => 0.5,
        }
    }
}

pub(super) fn measured(goal: Goal, lives: &[Life]) -> Spread {
    Spread::of(
        &mut lives
            .iter()
            .map(|life| goal.value(life))
            .collect::<Vec<_>>(),
    )
}

/// Judges plans against the plan as it is.
pub(super) struct Judging<'a> {
    pub goals: &'a [Goal],
    pub baseline: &'a [Life],
    pub until: CalendarDate,
}

impl Judging<'_> {
    pub fn told(&self, runner: &Runner, lives: &[Life], next: Option<&[Life]>) -> Judged {
        let mean = |of: fn(&Life) -> f64, lives: &[Life]| {
            lives.iter().map(of).sum::<f64>() / lives.len() as f64
        };
        let more = |of: fn(&Life) -> f64| mean(of, lives) - mean(of, self.baseline);
        let syrup = candidates::syrup(&runner.moves);
        let calendar = words::calendar(&runner.moves, self.until);
        let mut days: Vec<CalendarDate> = calendar.iter().map(|dated| dated.date).collect();
        days.dedup();
        let gains = |against: &[Life]| -> Vec<Gain> {
            let goals = self.goals.iter();
            goals.map(|&goal| Gain::of(goal, lives, against)).collect()
        };
        Judged {
            families: runner.families.clone(),
            moves: runner.moves.clone(),
            costs: Costs {
                visits: days.len(),
                jars: syrup.0,
                sugar_kg: syrup.1,
                treatments: runner
                    .moves
                    .iter()
                    .filter(|step| step.treat.is_some())
                    .count(),
                drones: more(|life| life.drones),
                drone_honey_kg: more(|life| life.drone_honey_kg),
                refused: mean(|life| f64::from(u8::from(life.refused)), lives),
            },
            gains: gains(self.baseline),
            besides: Goal::ALL
                .iter()
                .filter(|goal| !self.goals.contains(goal))
                .map(|&goal| Gain::of(goal, lives, self.baseline))
                .collect(),
            against_next: next.map(gains).unwrap_or_default(),
            calendar,
        }
    }
}
