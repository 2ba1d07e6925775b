//! A search that is kept: it goes on in pieces of any size, and can be asked at any time for the best so far.

use core::ops::ControlFlow;

use super::found::{Judging, measured};
use super::race::{self, Life, Race, Runner};
use super::{Asked, Doing, Found, Goal, Measured, Progress, candidates, words};
use crate::Error;
use crate::agenda::first_day;
use crate::calendar::{CalendarDate, plus_days};
use crate::document::{VERSION, scenario_digest};
use crate::ensemble::{Hands, Peers};
use crate::scenario::Scenario;
use crate::verdict::{Finding, Fitting};
use crate::words::{Language, Saying};

/// Fewest members of which those that fit visits are found, however few of them are tried: fewer leave copies of a
/// handful.
const FILTERED: u32 = 2000;
/// Colonies with which finding them goes on at once: a small share of them all, and enough for many threads.
const AT_ONCE: usize = 100;
/// Plans that a race leaves at least: enough of each kind for plans that join several.
const KEPT: usize = 8;

/// What is being done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    /// Plans of one kind race.
    Single,
    /// The best of them race with plans that join several kinds.
    Joined,
    /// The best few are judged on members that had no part in the choice.
    Judging,
    /// Nothing more.
    Over,
}

/// What there is before there are colonies.
#[derive(Debug)]
struct Start {
    finding: Finding,
    /// Members of the race and of the judging.
    members: usize,
    /// The first plans.
    pool: Vec<Runner>,
}

/// A search on its way. Gone on with in pieces of any size and by any hands, it comes to the same.
#[derive(Debug)]
pub struct Search {
    scenario: Scenario,
    peers: Peers,
    hive: String,
    goals: Vec<Goal>,
    best: usize,
    /// The day from which on something may be done, counted from 0.
    today: usize,
    warnings: Vec<Saying>,
    tried: usize,
    /// While colonies are being found.
    start: Option<Box<Start>>,
    race: Race,
    judging: Race,
    part: Part,
    /// Stages that were finished.
    stages: usize,
    lived: usize,
}

impl Search {
    /// Lists the first plans to be tried. Colonies that fit visits are found on the way; where there are none, it has its
    /// colonies at once.
    ///
    /// # Errors
    /// No goal, a day outside of the season, limits that allow nothing, fewer than two members; a day that does not add up.
    pub fn begin<H: Hands>(asked: Asked, hands: &H) -> Result<Self, Error> {
        let peers = asked.peers;
        if asked.goals.is_empty() {
            return Err(Error::scenario("goals", "expected at least one goal"));
        }
        let today = first_day(peers, asked.visits, asked.on)?;
        let pool = candidates::single(peers, today, asked.limits);
        if pool.is_empty() {
            return Err(Error::said(
                "limits",
                Saying::new(|words| words.problems.nothing_allowed),
            ));
        }
        let mut effort = asked.effort;
        if !asked.visits.is_empty() {
            effort.members = effort.members.max(FILTERED);
        }
        let mut search = Self {
            scenario: asked.scenario.clone(),
            peers: peers.clone(),
            hive: asked.hive.to_owned(),
            goals: asked.goals.to_vec(),
            best: asked.best.clamp(1, 20),
            today,
            warnings: Vec::new(),
            tried: pool.len(),
            start: Some(Box::new(Start {
                finding: Finding::new(peers, asked.visits, today, effort),
                members: asked.effort.members as usize,
                pool,
            })),
            race: Race::new(Vec::new()),
            judging: Race::new(Vec::new()),
            part: Part::Single,
            stages: 0,
            lived: 0,
        };
        while asked.visits.is_empty() && search.start.is_some() {
            search.find(hands)?;
        }
        Ok(search)
    }

    /// Goes on, telling `progress` after each piece of work, until that breaks off or the search is over. Nothing is lost when it
    /// breaks off: the next call begins where this one ended.
    ///
    /// Gives `Continue` when the search is over, `Break` when there is more to do.
    ///
    /// # Errors
    /// Too few colonies for a race; a day that does not add up. After that there is no going on.
    pub fn go_on<H: Hands>(
        &mut self,
        hands: &H,
        progress: &mut dyn FnMut(Progress) -> ControlFlow<()>,
    ) -> Result<ControlFlow<()>, Error> {
        while !self.is_over() {
            let now = if self.start.is_some() {
                self.find(hands)?
            } else {
                self.try_next(hands)?
            };
            if progress(now).is_break() && !self.is_over() {
                return Ok(ControlFlow::Break(()));
            }
        }
        Ok(ControlFlow::Continue(()))
    }

    /// Finds some more colonies; when there are all, the race begins.
    fn find<H: Hands>(&mut self, hands: &H) -> Result<Progress, Error> {
        if let Some(start) = &mut self.start {
            self.lived += start.finding.go_on(&self.peers, AT_ONCE, hands)?;
        }
        let now = self.progress();
        let is_over = |start: &mut Box<Start>| start.finding.is_over();
        if let Some(start) = self.start.take_if(is_over) {
            let Fitting {
                mut members,
                mut warnings,
                left_out,
            } = start.finding.end()?;
            members.truncate(start.members);
            let judges = members.split_off(members.len() / 2);
            if members.is_empty() {
                return Err(Error::scenario("members", "expected at least two members"));
            }
            warnings.extend(left_out);
            self.warnings = warnings;
            self.race = Race::new(members);
            self.race.enter(start.pool);
            self.judging = Race::new(judges);
        }
        Ok(now)
    }

    /// Tries a plan.
    fn try_next<H: Hands>(&mut self, hands: &H) -> Result<Progress, Error> {
        let race = match self.part {
            Part::Single | Part::Joined => &mut self.race,
            Part::Judging | Part::Over => &mut self.judging,
        };
        self.lived += race.try_next(&self.scenario, &self.peers, hands)?;
        let stage_is_over = race.is_stage_over();
        let now = self.progress();
        if stage_is_over {
            self.end_stage();
        }
        Ok(now)
    }

    /// Whether it came to its end.
    pub fn is_over(&self) -> bool {
        self.part == Part::Over
    }

    /// How far it is.
    pub fn progress(&self) -> Progress {
        let (doing, race) = match self.part {
            _ if self.start.is_some() => (Doing::Finding, &self.race),
            Part::Single | Part::Joined => (Doing::Racing, &self.race),
            Part::Judging | Part::Over => (Doing::Judging, &self.judging),
        };
        let (done, of) = match &self.start {
            Some(start) => start.finding.visits(),
            None => (race.done(), race.of()),
        };
        Progress {
            doing,
            done,
            of,
            stage: self.stages + 1,
            plans: race.runners.len(),
            lived: self.lived,
        }
    }

    fn end_stage(&mut self) {
        self.stages += 1;
        if self.part == Part::Judging {
            self.judging.end_stage();
            self.part = Part::Over;
            return;
        }
        self.race.end_stage();
        if !self.race.halve(&self.goals, self.best.max(KEPT)) {
            return;
        }
        if self.part == Part::Single {
            let joined = candidates::joined(&self.race.runners);
            if !joined.is_empty() {
                self.tried += joined.len();
                self.race.enter(joined);
                self.part = Part::Joined;
                return;
            }
        }
        let few = self.race.best(self.best).into_iter().map(Runner::afresh);
        self.judging.enter_final(few.collect());
        self.part = Part::Judging;
    }

    /// The best so far, as the last stage that was finished left them.
    ///
    /// # Errors
    /// The first stage is not finished yet.
    pub fn found(&self) -> Result<Found, Error> {
        let finished = self.is_over();
        let race = if finished { &self.judging } else { &self.race };
        let few = race.best(self.best);
        let Some(least) = few.iter().map(|runner| runner.lives.len()).min() else {
            return Err(Error::scenario(
                "search",
                "broken off before every plan had been tried once: nothing can be said",
            ));
        };
        let lives: Vec<&[Life]> = few.iter().map(|runner| &runner.lives[..least]).collect();
        let baseline = &race.baseline[..least];
        let order = race::ranking(&self.goals, &lives);
        let first = self.peers.season().first;
        let until = CalendarDate(plus_days(first, self.peers.days() as i32 - 1));
        let judging = Judging {
            goals: &self.goals,
            baseline,
            until,
        };
        let told = |(number, &place): (usize, &usize)| {
            let next = order.get(number + 1).map(|&next| lives[next]);
            judging.told(few[place], lives[place], next)
        };
        Ok(Found {
            version: VERSION,
            scenario: self.scenario.name.clone(),
            scenario_digest: scenario_digest(&self.scenario),
            hive: self.hive.clone(),
            seed: self.peers.seed(),
            from: CalendarDate(plus_days(first, self.today as i32)),
            until,
            goals: self.goals.clone(),
            tried: self.tried,
            members: least,
            finished,
            as_it_is: Goal::ALL
                .iter()
                .map(|&goal| Measured {
                    goal,
                    spread: measured(goal, baseline),
                })
                .collect(),
            best: order.iter().enumerate().map(told).collect(),
            assumed_mites: self.peers.assumed_mites(),
            warnings: self.warnings.clone(),
            cautions: words::cautions(
                order.iter().flat_map(|&place| &few[place].moves),
                Language::English,
            ),
        })
    }
}
