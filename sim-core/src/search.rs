//! Search: which of many plans serves a beekeeper's goals best within the limits that are given, and how sure that is.
//!
//! Candidates are the plan with more moves: drone frames on a calendar, treatments, feed, boxes, queen cells removed.
//! They are tried on the same members, luck and weather as the plan as it is. They race: all
//! are tried on a few members, the worse half drops out, the rest is tried on more. The few that are
//! left are then judged on members that the race has not seen, for the winner of a race is also
//! the luckiest. Moves fall on regular days of visit only.

mod candidates;
mod found;
mod kept;
mod race;
mod words;

use core::ops::ControlFlow;

use jiff::civil::Date;
use serde::Serialize;

pub use candidates::{Family, Limits};
pub use found::{Costs, Found, Gain, Judged, Measured};
pub use kept::Search;
pub use race::LOST_MITES_PER_100;
pub use words::DatedMove;

use crate::Error;
use crate::ensemble::{Hands, Peers};
use crate::scenario::Scenario;
use crate::verdict::Effort;
use crate::visits::Visit;
use race::Life;

/// What a beekeeper wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Goal {
    /// That the colony lives on the last day of the season.
    Alive,
    /// Few mites on 100 bees on the last day; a lost colony counts as 100.
    FewMites,
    /// Ripe stores in the comb on the last day: honey, and what syrup became.
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
            Self::Honey => "ripe stores, syrup included, kg",
            Self::NoSwarm => "colonies that do not swarm",
            Self::Bees => "bees",
        }
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

/// What a search is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Doing {
    /// It finds colonies that fit the visits.
    Finding,
    /// Plans race.
    Racing,
    /// The best are judged: the last stage.
    Judging,
}

/// How far a search is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// What it is doing.
    pub doing: Doing,
    /// Lives lived so far in this stage; while colonies are found, visits that were taken in.
    pub done: usize,
    /// Lives of this stage; while colonies are found, visits.
    pub of: usize,
    /// The stage, from 1; of a search that is over, one more than there were.
    pub stage: usize,
    /// Plans still in the race, or judged; none while colonies are found.
    pub plans: usize,
    /// Lives lived so far in all, those of finding colonies too.
    pub lived: usize,
}

/// Searches, telling `progress` after each piece of work; where that breaks off, the best so far are
/// returned, as the last stage that was finished left them: the same for the same number of stages.
///
/// # Errors
/// Those of [`Search::begin`], [`Search::go_on`] and [`Search::found`].
pub fn search<H: Hands>(
    asked: Asked,
    hands: &H,
    mut progress: impl FnMut(Progress) -> ControlFlow<()>,
) -> Result<Found, Error> {
    let mut search = Search::begin(asked, hands)?;
    let _ = search.go_on(hands, &mut progress)?;
    search.found()
}
