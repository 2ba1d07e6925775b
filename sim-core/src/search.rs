//! Search: which of many plans serves a beekeeper's goals best within the limits that are given, and how sure that is.
//!
//! Candidates are the plan with more moves: drone frames on a calendar, treatments, feed, boxes, queen cells removed.
//! They are tried on the same members, luck and weather as the plan as it is. They race: all
//! are tried on a few members, the worse half drops out, the rest is tried on more. The few that are
//! left are then judged on members that the race has not seen, for the winner of a race is also
//! the luckiest. Moves fall on regular days of visit only.

mod candidates;
mod race;
mod words;

use core::ops::ControlFlow;

use jiff::civil::Date;
use serde::Serialize;

pub use candidates::{Family, Limits};
pub use words::DatedMove;

use crate::Error;
use crate::agenda::{Event, calendar, capital, first_day};
use crate::calendar::{CalendarDate, plus_days};
use crate::document::{VERSION, scenario_digest};
use crate::ensemble::{Hands, Peers, Spread, Tally};
use crate::priors::normal_share;
use crate::scenario::{Move, Scenario};
use crate::verdict::{Effort, fitting};
use crate::visits::Visit;
use race::{Life, Race, Runner};

/// What a beekeeper wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Goal {
    /// That the colony lives on the last day of the season.
    Alive,
    /// Few mites on 100 bees on the last day; a lost colony counts as 100.
    FewMites,
    /// Honey in the comb on the last day.
    Honey,
    /// That no swarm leaves.
    NoSwarm,
    /// Bees on the last day.
    Bees,
}

impl Goal {
    /// Every goal.
    pub const ALL: [Self; 5] = [
        Self::Alive,
        Self::FewMites,
        Self::Honey,
        Self::NoSwarm,
        Self::Bees,
    ];

    /// Its name on a command line.
    pub fn name(self) -> &'static str {
        match self {
            Self::Alive => "alive",
            Self::FewMites => "few-mites",
            Self::Honey => "honey",
            Self::NoSwarm => "no-swarm",
            Self::Bees => "bees",
        }
    }

    /// What is measured.
    pub fn words(self) -> &'static str {
        match self {
            Self::Alive => "colonies that live",
            Self::FewMites => "mites on 100 bees",
            Self::Honey => "honey, kg",
            Self::NoSwarm => "colonies that do not swarm",
            Self::Bees => "bees",
        }
    }

    /// Whether it is so or not so in a season.
    pub fn is_yes_or_no(self) -> bool {
        matches!(self, Self::Alive | Self::NoSwarm)
    }

    /// What it is in a life.
    fn value(self, life: &Life) -> f64 {
        match self {
            Self::Alive => f64::from(u8::from(life.alive)),
            Self::FewMites => life.mites_per_100,
            Self::Honey => life.honey_kg,
            Self::NoSwarm => f64::from(u8::from(!life.swarmed)),
            Self::Bees => life.bees,
        }
    }

    /// The same, more being better.
    fn worth(self, life: &Life) -> f64 {
        match self {
            Self::FewMites => -self.value(life),
            _ => self.value(life),
        }
    }
}

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// The plan.
    pub scenario: &'a Scenario,
    /// The same, made ready.
    pub peers: &'a Peers,
    /// Name of the hive.
    pub hive: &'a str,
    /// Its visits, sifted; can be empty.
    pub visits: &'a [Visit],
    /// The day from which on something may be done; otherwise that of the last visit, or of the start.
    pub on: Option<Date>,
    /// What is wanted, the most important first, at least one.
    pub goals: &'a [Goal],
    /// What may be done.
    pub limits: &'a Limits,
    /// How many of the best plans to judge at the end, 1 to 20.
    pub best: usize,
    /// Members, half of them for the race and half to judge by, and rounds of the filter.
    pub effort: Effort,
}

/// How far a search is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// Lives lived so far in this stage.
    pub done: usize,
    /// Lives of this stage.
    pub of: usize,
    /// The stage, from 1.
    pub stage: usize,
    /// Plans still in the race.
    pub plans: usize,
    /// The last stage: the best are judged.
    pub judging: bool,
}

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
    /// What to beware of in them.
    pub cautions: Vec<&'static str>,
}

impl Found {
    /// The best plan as an iCalendar file (RFC 5545), an event for each move; `stamp` is the day on which it says that it
    /// was made.
    pub fn icalendar(&self, stamp: Date) -> String {
        let name = if self.hive.is_empty() {
            &self.scenario
        } else {
            &self.hive
        };
        let dated = self.best.iter().take(1).flat_map(|best| &best.calendar);
        let events = dated.map(|dated| Event {
            hive: &self.hive,
            scenario: &self.scenario,
            kind: "plan",
            from: dated.date.0,
            to: dated.date.0,
            title: capital(&dated.text),
            lines: self
                .cautions
                .iter()
                .map(|caution| format!("Caution: {caution}"))
                .collect(),
        });
        calendar(name, events, stamp)
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
    /// Against the next of the best, by the first goal; none for the last.
    pub against_next: Option<Gain>,
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

fn measured(goal: Goal, lives: &[Life]) -> Spread {
    Spread::of(
        &mut lives
            .iter()
            .map(|life| goal.value(life))
            .collect::<Vec<_>>(),
    )
}

/// Searches, telling `progress` after each piece of work; where that breaks off, the best so far are
/// returned, as the last stage that was finished left them: the same for the same number of stages.
///
/// # Errors
/// No goal, a day outside of the season, limits that allow nothing; a day that does not add up; broken off
/// before the first stage was finished.
pub fn search<H: Hands>(
    asked: Asked,
    hands: &H,
    mut progress: impl FnMut(Progress) -> ControlFlow<()>,
) -> Result<Found, Error> {
    let peers = asked.peers;
    if asked.goals.is_empty() {
        return Err(Error::scenario("goals", "expected at least one goal"));
    }
    let today = first_day(peers, asked.visits, asked.on)?;
    let members = fitting(peers, asked.visits, today, asked.effort, hands)?;
    let (runners, judges) = members.split_at(members.len() / 2);
    if runners.is_empty() {
        return Err(Error::scenario("members", "expected at least two members"));
    }
    let mut race = Race::new(asked, runners, hands);
    let pool = candidates::single(peers, today, asked.limits);
    if pool.is_empty() {
        return Err(Error::scenario(
            "limits",
            "nothing may be done within these limits; allow more, or begin earlier",
        ));
    }
    let mut tried = pool.len();
    let best = asked.best.clamp(1, 20);
    // Enough of each kind for plans that join several.
    let keep = best.max(8);
    let mut flow = race.run(pool, keep, &mut progress)?;
    if flow.is_continue() {
        let joined = candidates::joined(race.standing());
        if !joined.is_empty() {
            tried += joined.len();
            let pool = race.take().into_iter().chain(joined).collect();
            flow = race.run(pool, keep, &mut progress)?;
        }
    }
    let few = race.take_best(best);
    // Judged on members that had no part in the choice.
    let mut judged = Vec::with_capacity(few.len());
    let mut baseline = Vec::new();
    let mut finished = flow.is_continue();
    if finished {
        let of = judges.len() * (few.len() + 1);
        let (stage, plans) = (race.stage() + 1, few.len());
        let mut done = 0;
        for number in 0..=few.len() {
            let moves: &[Move] = number.checked_sub(1).map_or(&[], |place| &few[place].moves);
            let lives = race::lives(asked, moves, judges, hands)?;
            done += lives.len();
            if number == 0 {
                baseline = lives;
            } else {
                judged.push(lives);
            }
            let now = Progress {
                done,
                of,
                stage,
                plans,
                judging: true,
            };
            if progress(now).is_break() && done < of {
                finished = false;
                break;
            }
        }
    }
    if !finished {
        baseline = race.baseline().to_vec();
        judged = few.iter().map(|runner| runner.lives.clone()).collect();
        let Some(least) = judged.iter().map(Vec::len).min().filter(|least| *least > 0) else {
            return Err(Error::scenario(
                "search",
                "broken off before every plan had been tried once: nothing can be said",
            ));
        };
        baseline.truncate(least);
        for lives in &mut judged {
            lives.truncate(least);
        }
    }
    let order = race::order(asked.goals, &judged);
    let judged: Vec<(&Runner, &[Life])> = order
        .iter()
        .map(|&place| (&few[place], judged[place].as_slice()))
        .collect();
    let until = CalendarDate(plus_days(peers.season().first, peers.days() as i32 - 1));
    let judging = Judging {
        goals: asked.goals,
        baseline: &baseline,
        until,
    };
    let best = judged
        .iter()
        .enumerate()
        .map(|(place, (runner, lives))| {
            let next = judged.get(place + 1).map(|(_, lives)| *lives);
            judging.told(runner, lives, next)
        })
        .collect();
    Ok(Found {
        version: VERSION,
        scenario: asked.scenario.name.clone(),
        scenario_digest: scenario_digest(asked.scenario),
        hive: asked.hive.to_owned(),
        seed: peers.seed(),
        from: CalendarDate(plus_days(peers.season().first, today as i32)),
        until,
        goals: asked.goals.to_vec(),
        tried,
        members: baseline.len(),
        finished,
        as_it_is: Goal::ALL
            .iter()
            .map(|&goal| Measured {
                goal,
                spread: measured(goal, &baseline),
            })
            .collect(),
        cautions: words::cautions(judged.iter().flat_map(|(runner, _)| &runner.moves)),
        best,
    })
}

struct Judging<'a> {
    goals: &'a [Goal],
    baseline: &'a [Life],
    until: CalendarDate,
}

impl Judging<'_> {
    fn told(&self, runner: &Runner, lives: &[Life], next: Option<&[Life]>) -> Judged {
        let mean = |of: fn(&Life) -> f64, lives: &[Life]| {
            lives.iter().map(of).sum::<f64>() / lives.len() as f64
        };
        let more = |of: fn(&Life) -> f64| mean(of, lives) - mean(of, self.baseline);
        let syrup = candidates::syrup(&runner.moves);
        let calendar = words::calendar(&runner.moves, self.until);
        let mut days: Vec<CalendarDate> = calendar.iter().map(|dated| dated.date).collect();
        days.dedup();
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
            gains: self
                .goals
                .iter()
                .map(|&goal| Gain::of(goal, lives, self.baseline))
                .collect(),
            besides: Goal::ALL
                .iter()
                .filter(|goal| !self.goals.contains(goal))
                .map(|&goal| Gain::of(goal, lives, self.baseline))
                .collect(),
            against_next: next.map(|next| Gain::of(self.goals[0], lives, next)),
            calendar,
        }
    }
}
