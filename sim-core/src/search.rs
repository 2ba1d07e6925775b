//! Search: which of many plans serves a beekeeper's goals best within the limits that are given, and how sure that is.
//!
//! Candidates are the plan with more moves: drone frames on a calendar, treatments, feed, boxes, queen cells removed.
//! They are tried on the same members, luck and weather as the plan as it is. They race: all
//! are tried on a few members, the worse half drops out, the rest is tried on more. The few that are
//! left are then judged on members that the race has not seen, for the winner of a race is also
//! the luckiest. Moves fall on regular days of visit only.

mod candidates;
mod found;
mod race;
mod words;

use core::ops::ControlFlow;

use jiff::civil::Date;
use serde::Serialize;

pub use candidates::{Family, Limits};
pub use found::{Costs, Found, Gain, Judged, Measured};
pub use words::DatedMove;

use crate::Error;
use crate::agenda::first_day;
use crate::calendar::{CalendarDate, plus_days};
use crate::document::{VERSION, scenario_digest};
use crate::ensemble::{Hands, Peers};
use crate::scenario::{Move, Scenario};
use crate::verdict::{Effort, Fitting, fitting};
use crate::visits::Visit;
use crate::words::Language;
use found::{Judging, measured};
use race::{Life, Race, Runner};

/// Fewest members of which those that fit visits are found, however few of them are tried: fewer leave copies of a
/// handful.
const FILTERED: u32 = 2000;

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
    let mut effort = asked.effort;
    if !asked.visits.is_empty() {
        effort.members = effort.members.max(FILTERED);
    }
    let Fitting {
        mut members,
        warnings,
    } = fitting(peers, asked.visits, today, effort, hands)?;
    members.truncate(asked.effort.members as usize);
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
        cautions: words::cautions(
            judged.iter().flat_map(|(runner, _)| &runner.moves),
            Language::English,
        ),
        best,
        warnings,
    })
}
