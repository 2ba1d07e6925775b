//! Colonies of the same start and weather that differ in what nobody knows.

use rand::RngExt;
use rand_distr::{Distribution, StandardNormal};

use super::Fates;
use crate::colony::Colony;
use crate::day::Outcome;
use crate::draw::Random;
use crate::priors::{self, AssumedMites, COUNT, Unknown, Unknowns};
use crate::queen::QueenState;
use crate::rng::{Topic, stream};
use crate::scenario::{Mode, Scenario, Start};
use crate::season::{Prepared, Walk, prepare};
use crate::syrup::SUGAR_IN_HONEY;
use crate::weather::{self, Report, Weather};
use crate::{Error, Parameters};

/// Runs of drawn weather that an ensemble shares out among its members.
pub const DRAWN_WEATHERS: u32 = 48;

/// Whoever does work that falls apart into pieces: one after the other, or on many threads.
///
/// The pieces do not see each other, so the result is the same.
pub trait Hands: Sync {
    /// Does `work` on each item with its index.
    fn each<T: Send, F: Fn(usize, &mut T) + Sync + Send>(&self, items: &mut [T], work: F);

    /// Makes `count` things, in their order.
    fn make<T: Send, F: Fn(usize) -> T + Sync + Send>(&self, count: usize, work: F) -> Vec<T> {
        let mut made: Vec<Option<T>> = (0..count).map(|_| None).collect();
        self.each(&mut made, |index, place| *place = Some(work(index)));
        made.into_iter().flatten().collect()
    }
}

/// One after the other.
#[derive(Debug, Clone, Copy, Default)]
pub struct Alone;

impl Hands for Alone {
    fn each<T: Send, F: Fn(usize, &mut T) + Sync + Send>(&self, items: &mut [T], work: F) {
        for (index, item) in items.iter_mut().enumerate() {
            work(index, item);
        }
    }
}

/// The keys of a member's chance and drawn weather: each holds from its day on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Luck(pub Vec<(usize, u32)>);

impl Luck {
    /// One luck from the first day on.
    pub fn of(key: u32) -> Self {
        Self(vec![(0, key)])
    }

    /// Another luck from `day` on.
    pub fn turns(&mut self, day: usize, key: u32) {
        self.0.retain(|(from, _)| *from < day || *from == 0);
        if day > 0 {
            self.0.push((day, key));
        } else {
            self.0 = vec![(0, key)];
        }
    }

    /// The key that holds on `day`, and the day on which the next takes over.
    fn on(&self, day: usize) -> (u32, usize) {
        let next = self.0.iter().position(|(from, _)| *from > day);
        let now = next.unwrap_or(self.0.len()).saturating_sub(1);
        (self.0[now].1, next.map_or(usize::MAX, |k| self.0[k].0))
    }
}

/// What a member has come to so far.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct SoFar {
    /// Sugar taken from feeders since the start, kg.
    pub sugar_fed_kg: f64,
    /// Days on which food was lacking.
    pub hungry_days: f64,
    /// Workers gone with swarms.
    pub swarmed: f64,
    /// Day of the first swarm, counted from 0.
    pub swarm_day: Option<usize>,
    /// Mites fallen on a board on the last day.
    pub mite_fall: f64,
}

/// One colony of the ensemble.
#[derive(Debug, Clone)]
pub struct Member {
    /// What nobody knows of it.
    pub unknowns: Unknowns,
    /// Its chance.
    pub luck: Luck,
    /// Its parameters.
    pub parameters: Box<Parameters>,
    /// The colony as far as it has come.
    pub walk: Walk,
    /// What it has come to.
    pub so_far: SoFar,
}

/// A scenario from which any number of colonies can be made, alike in start and weather.
#[derive(Debug, Clone)]
pub struct Peers {
    seasons: Vec<Prepared>,
    // Start and hive of the scenario; what else it says is in the prepared seasons.
    hive: Scenario,
    seed: u32,
    mode: Mode,
}

impl Peers {
    /// Makes a scenario ready.
    ///
    /// Where some of its days are drawn by the weather generator, members have one of
    /// a few runs of weather. In mean mode bees are expected numbers and queens' fates
    /// chance ([`Fates`]); in random mode all is.
    ///
    /// # Errors
    /// A scenario that cannot be run.
    pub fn new(scenario: &Scenario, record: Option<(&Weather, &Report)>) -> Result<Self, Error> {
        let (weather, report) = weather::lay(scenario, record, 0)?;
        let drawn = report.season.is_some_and(|days| days.generated > 0);
        let mut seasons = vec![prepare(scenario, &weather)?];
        for member in 1..if drawn { DRAWN_WEATHERS } else { 1 } {
            let (weather, _) = weather::lay(scenario, record, member)?;
            seasons.push(prepare(scenario, &weather)?);
        }
        if scenario.start.package.is_none() {
            // Only of packages is it published; a colony with brood raises another queen besides.
            for season in &mut seasons {
                season.parameters.priors.queen_dead = 0.0;
            }
        }
        let mut hive = scenario.clone();
        hive.moves.clear();
        hive.feed.clear();
        hive.bloom.clear();
        hive.expect.clear();
        hive.weather.typed.clear();
        Ok(Self {
            seasons,
            hive,
            seed: scenario.seed,
            mode: scenario.mode,
        })
    }

    /// The same scenario and weather with other colonies.
    #[must_use]
    pub fn with_seed(&self, seed: u32) -> Self {
        Self {
            seed,
            ..self.clone()
        }
    }

    /// The same colonies, place and weather with the feed and moves of another plan.
    ///
    /// # Errors
    /// A move that does not hold together.
    pub fn with_plan(&self, scenario: &Scenario) -> Result<Self, Error> {
        let seasons = self.seasons.iter();
        Ok(Self {
            seasons: seasons
                .map(|season| season.with_plan(scenario))
                .collect::<Result<_, _>>()?,
            hive: self.hive.clone(),
            seed: self.seed,
            mode: self.mode,
        })
    }

    /// The season of the first weather: dates, conditions, parameters.
    pub fn season(&self) -> &Prepared {
        &self.seasons[0]
    }

    /// The season in every run of weather among the members.
    pub fn seasons(&self) -> &[Prepared] {
        &self.seasons
    }

    /// Runs of weather among the members.
    pub fn weathers(&self) -> usize {
        self.seasons.len()
    }

    /// How the colony starts, as the scenario says.
    pub fn start(&self) -> &Start {
        &self.hive.start
    }

    /// Mites that its colonies were given without the scenario saying so.
    pub fn assumed_mites(&self) -> Option<AssumedMites> {
        AssumedMites::of(self.start(), &self.season().parameters.priors)
    }

    /// The seed.
    pub fn seed(&self) -> u32 {
        self.seed
    }

    /// Whether members' bees are means or whole animals.
    pub fn mode(&self) -> Mode {
        self.mode
    }

    /// Days of the season.
    pub fn days(&self) -> usize {
        self.season().conditions.len()
    }

    /// A key of luck that belongs to a place of the ensemble and a day.
    pub fn key(&self, place: u32, day: usize) -> u32 {
        stream(self.seed, place, Topic::Luck, day as u32 + 1).random()
    }

    /// Member number `number`, drawn from what is known before any visit, on its first morning.
    ///
    /// # Errors
    /// None that a scenario which was made ready could cause.
    pub fn member(&self, number: u32) -> Result<Member, Error> {
        let mut stream = stream(self.seed, number, Topic::Luck, 0);
        let unknowns: Unknowns =
            core::array::from_fn::<f64, COUNT, _>(|_| StandardNormal.sample(&mut stream));
        self.with(unknowns, Luck::of(number))
    }

    /// The colony with these unknowns and this luck, on its first morning.
    ///
    /// # Errors
    /// As [`Peers::member`].
    pub fn with(&self, mut unknowns: Unknowns, luck: Luck) -> Result<Member, Error> {
        if self.start().mites_per_100_bees == Some(0.0) {
            // Many times none is none: a colony said to have no mites cannot have far more than was thought.
            unknowns[Unknown::Mites as usize] = 0.0;
        }
        let mut parameters = Box::new(self.season().parameters.clone());
        let mut hive = self.hive.clone();
        priors::apply(&unknowns, &mut hive.start, &mut parameters);
        let mut colony = Colony::new(&hive, &self.season().conditions[0], &parameters)?;
        if Unknown::Queen.is_nothing(unknowns[Unknown::Queen as usize], &parameters.priors) {
            colony.queen.state = QueenState::None;
        }
        Ok(Member {
            unknowns,
            luck,
            parameters,
            walk: Walk::new(colony),
            so_far: SoFar::default(),
        })
    }

    /// Frames in the hive on each morning, as the plan has it.
    ///
    /// # Errors
    /// A day that does not add up: a fault of the program.
    pub fn frames_by_day(&self) -> Result<Vec<f64>, Error> {
        let mut member = self.with([0.0; COUNT], Luck::of(0))?;
        let mut frames = vec![member.walk.colony.frames.frames.len() as f64];
        self.advance(&mut member, self.days(), |_, colony, _, _| {
            frames.push(colony.frames.frames.len() as f64);
        })?;
        Ok(frames)
    }

    /// Lets a member live until day `until` (counted from 0) comes next.
    ///
    /// # Errors
    /// A day that does not add up: a fault of the program.
    pub fn advance(
        &self,
        member: &mut Member,
        until: usize,
        mut each_day: impl FnMut(usize, &Colony, &Outcome, &SoFar),
    ) -> Result<(), Error> {
        self.live(member, until, &mut each_day)
    }

    // Compiled once, and not anew for every watcher: the day is the largest part of it.
    fn live(
        &self,
        member: &mut Member,
        until: usize,
        each_day: &mut dyn FnMut(usize, &Colony, &Outcome, &SoFar),
    ) -> Result<(), Error> {
        let until = until.min(self.days());
        while member.walk.day < until {
            let (key, turns) = member.luck.on(member.walk.day);
            let season = &self.seasons[key as usize % self.seasons.len()];
            let stop = until.min(turns);
            let so_far = &mut member.so_far;
            let see = |day: usize, colony: &Colony, outcome: &Outcome| {
                let flow = &outcome.ledger;
                so_far.sugar_fed_kg += flow.syrup_g * SUGAR_IN_HONEY / 1000.0;
                so_far.hungry_days += f64::from(u8::from(outcome.is_hungry()));
                so_far.swarmed += flow.swarmed;
                if flow.swarmed > 0.0 {
                    so_far.swarm_day.get_or_insert(day);
                }
                so_far.mite_fall = flow.mites.fall();
                each_day(day, colony, outcome, so_far);
            };
            let (walk, parameters) = (&mut member.walk, &member.parameters);
            match self.mode {
                Mode::Mean => {
                    season.walk(walk, stop, parameters, &mut Fates::new(self.seed, key), see)?;
                }
                Mode::Random => {
                    season.walk(
                        walk,
                        stop,
                        parameters,
                        &mut Random::new(self.seed, key),
                        see,
                    )?;
                }
            }
        }
        Ok(())
    }
}
