//! A particle filter: which members of an ensemble a series of observations leaves likely.
//!
//! Members run to an observation, are weighed by how likely it makes them, and are resampled in
//! proportion (systematic resampling: Kitagawa 1996). Where one observation would leave only a few
//! members, it is let in by parts, as many as it takes to keep half of the ensemble worth keeping
//! (tempering: Del Moral, Doucet & Jasra 2006). After each part a model may offer every copy another
//! life in place of its own, which it takes or leaves by the Metropolis rule under everything that was
//! observed so far (Chopin 2002): copies become different members again, without bias.
//!
//! The filter knows nothing of bees. It draws from keyed streams and starts no thread.

mod weights;

use core::ops::Range;

use rand::RngExt;
use serde::Serialize;

use crate::Error;
use crate::ensemble::Hands;
use crate::math::ln;
use crate::rng::{Topic, stream};
use weights::{effective, log_mean_weight, part_that_keeps, systematic};

/// What can be filtered.
pub trait Model: Sync {
    /// A member on its way.
    type Particle: Clone + Send + Sync;

    /// Member number `number`, before the first observation.
    ///
    /// # Errors
    /// The model's own.
    fn start(&self, number: u32) -> Result<Self::Particle, Error>;

    /// Runs a member to observation `step`, counted from 0; it stands at the one before, or the start.
    ///
    /// # Errors
    /// The model's own.
    fn advance(&self, particle: &mut Self::Particle, step: usize) -> Result<(), Error>;

    /// Logarithm of how likely a member at observation `step` makes it.
    fn log_likelihood(&self, particle: &Self::Particle, step: usize) -> f64;

    /// Tells a copy at observation `step` that it is member `number` from now on: chance that is yet
    /// to come is its own.
    fn part(&self, particle: &mut Self::Particle, number: u32, step: usize) {
        let _ = (particle, number, step);
    }

    /// Another life for a member, before the first observation, and the logarithm of the ratio of
    /// the two lives' probabilities before any observation, corrected for how they are proposed.
    /// `others` are all members. `None`: members keep theirs.
    ///
    /// # Errors
    /// The model's own.
    fn propose(
        &self,
        particle: &Self::Particle,
        others: &[Weighed<Self::Particle>],
        key: Key,
    ) -> Result<Option<(Self::Particle, f64)>, Error> {
        let _ = (particle, others, key);
        Ok(None)
    }
}

/// What a proposal may draw its random numbers from: no two have the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Key {
    /// Place of the member in the ensemble.
    pub number: u32,
    /// Counts the rounds of proposals.
    pub round: u32,
    /// The observation that the member stands at.
    pub step: usize,
}

/// A member, and how likely it makes what was observed.
#[derive(Debug, Clone)]
pub struct Weighed<P> {
    /// The member.
    pub particle: P,
    /// Logarithm of the likelihood of all observations before this one.
    pub before: f64,
    /// That of this observation.
    pub now: f64,
}

/// How a filter is run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// Number of members.
    pub members: u32,
    /// Rounds of proposals after each resampling.
    pub rounds: u32,
    /// The seed of resampling and of the Metropolis rule.
    pub seed: u32,
    /// Let an observation in by parts where fewer than this share of the members would be left.
    pub keep: f64,
}

/// What one observation did to the ensemble.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct Step {
    /// Effective number of members that the observation would have left in one go.
    pub effective: f64,
    /// Parts by which it was let in.
    pub parts: u32,
    /// Share of the proposals that were taken.
    pub taken: f64,
    /// Share of members that differ from each other in the end, by their ancestors and lives.
    pub distinct: f64,
    /// Logarithm of the observation's likelihood, given those before.
    pub log_likelihood: f64,
}

/// The ensemble after the last observation: every member counts the same.
#[derive(Debug, Clone)]
pub struct Filtered<P> {
    /// The members.
    pub members: Vec<P>,
    /// What each observation did.
    pub steps: Vec<Step>,
}

impl<P> Filtered<P> {
    /// Logarithm of the likelihood of all observations.
    pub fn log_likelihood(&self) -> f64 {
        self.steps.iter().map(|step| step.log_likelihood).sum()
    }
}

/// Most parts that one observation is let in by.
const MOST_PARTS: u32 = 12;

/// Filters an ensemble through `count` observations.
///
/// `look` sees the members at each observation before it is weighed: what is expected there.
///
/// # Errors
/// The model's.
pub fn run<M: Model, H: Hands>(
    model: &M,
    count: usize,
    settings: &Settings,
    hands: &H,
    mut look: impl FnMut(usize, &[Weighed<M::Particle>]),
) -> Result<Filtered<M::Particle>, Error> {
    let mut filter = Filter::new(count, *settings);
    while !filter.is_over() {
        filter.go_on(model, usize::MAX, hands, &mut look)?;
    }
    Ok(filter.end())
}

/// What is done to one member after the other, in pieces of any size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Pass {
    /// They are made.
    Start,
    /// They run to the next observation.
    Advance,
    /// They are offered other lives.
    Offer,
    /// Nothing more.
    Over,
}

/// A filter on its way. Gone on with in pieces of any size and by any hands, it comes to the same.
#[derive(Debug)]
pub struct Filter<P> {
    settings: Settings,
    /// Number of observations.
    count: usize,
    members: Vec<Weighed<P>>,
    pass: Pass,
    /// Members that this pass has come to.
    place: usize,
    /// What those take in place of their own lives.
    lives: Vec<Option<Weighed<P>>>,
    /// How much of the observation is let in.
    let_in: f64,
    /// Rounds of proposals that are still due before more is.
    due: u32,
    /// Counts resamplings and rounds of proposals: no two have the same chance.
    round: u32,
    /// What the observation has done so far.
    report: Step,
    /// The same of those before.
    steps: Vec<Step>,
}

impl<P: Clone + Send + Sync> Filter<P> {
    /// A filter of `count` observations, without members yet.
    pub fn new(count: usize, settings: Settings) -> Self {
        Self {
            settings,
            count,
            members: Vec::new(),
            pass: Pass::Start,
            place: 0,
            lives: Vec::new(),
            let_in: 0.0,
            due: 0,
            round: 0,
            report: Step::default(),
            steps: Vec::with_capacity(count),
        }
    }

    /// Whether every observation is let in.
    pub fn is_over(&self) -> bool {
        self.pass == Pass::Over
    }

    /// Observations that are let in.
    pub fn done(&self) -> usize {
        self.steps.len()
    }

    /// The members as they are now.
    pub fn members(&self) -> &[Weighed<P>] {
        &self.members
    }

    /// The ensemble as it is now.
    pub fn end(self) -> Filtered<P> {
        let members = self.members.into_iter();
        Filtered {
            members: members.map(|member| member.particle).collect(),
            steps: self.steps,
        }
    }

    /// Goes on with the next members, at most so many and at least one; gives how many they were.
    ///
    /// `look` sees all members at each observation before it is weighed: what is expected there.
    ///
    /// # Errors
    /// The model's, after which the filter is of no use.
    pub fn go_on<M: Model<Particle = P>, H: Hands>(
        &mut self,
        model: &M,
        at_most: usize,
        hands: &H,
        look: &mut dyn FnMut(usize, &[Weighed<P>]),
    ) -> Result<usize, Error> {
        let all = self.settings.members as usize;
        let piece = self.place..self.place.saturating_add(at_most.max(1)).min(all);
        self.place = piece.end;
        let number = piece.len();
        match self.pass {
            Pass::Start => self.start(model, piece, hands)?,
            Pass::Advance => {
                let step = self.steps.len();
                advance(model, &mut self.members[piece], step, hands)?;
            }
            Pass::Offer => self.offer(model, piece, hands)?,
            Pass::Over => return Ok(0),
        }
        if self.place == all {
            self.place = 0;
            self.end_pass(model, look);
        }
        Ok(number)
    }

    fn start<M: Model<Particle = P>, H: Hands>(
        &mut self,
        model: &M,
        piece: Range<usize>,
        hands: &H,
    ) -> Result<(), Error> {
        let made = hands.make(piece.len(), |place| {
            model.start((piece.start + place) as u32)
        });
        for particle in made {
            self.members.push(Weighed {
                particle: particle?,
                before: 0.0,
                now: 0.0,
            });
        }
        Ok(())
    }

    /// Offers each member of a piece another life.
    fn offer<M: Model<Particle = P>, H: Hands>(
        &mut self,
        model: &M,
        piece: Range<usize>,
        hands: &H,
    ) -> Result<(), Error> {
        let others = &self.members[..];
        let (step, round, seed) = (self.steps.len(), self.round, self.settings.seed);
        let let_in = self.let_in;
        let lives = hands.make(piece.len(), |place| {
            let place = piece.start + place;
            let member = &others[place];
            let key = Key {
                number: place as u32,
                round,
                step,
            };
            let Some((life, ratio)) = other_life(model, member, others, key)? else {
                return Ok(None);
            };
            let gain = life.before - member.before + let_in * (life.now - member.now) + ratio;
            let mut dice = stream(seed, key.number, Topic::Luck, u32::MAX - round);
            Ok((ln(dice.random::<f64>()) < gain).then_some(life))
        });
        for life in lives {
            let life: Result<_, Error> = life;
            self.lives.push(life?);
        }
        Ok(())
    }

    /// What all members were waiting for, and the pass that comes then.
    fn end_pass<M: Model<Particle = P>>(
        &mut self,
        model: &M,
        look: &mut dyn FnMut(usize, &[Weighed<P>]),
    ) {
        match self.pass {
            Pass::Start | Pass::Over => return self.head_for_next(),
            Pass::Advance => {
                look(self.steps.len(), &self.members);
                self.let_in = 0.0;
                self.report = Step {
                    effective: effective(&self.members, 1.0),
                    distinct: 1.0,
                    ..Step::default()
                };
            }
            Pass::Offer => self.take_lives(),
        }
        while self.due == 0 {
            if self.let_in >= 1.0 {
                let offered = f64::from(self.report.parts * self.settings.rounds);
                self.report.taken /= f64::max(offered, 1.0);
                self.steps.push(self.report);
                return self.head_for_next();
            }
            self.let_part_in(model);
        }
        self.pass = Pass::Offer;
    }

    fn head_for_next(&mut self) {
        self.pass = if self.steps.len() < self.count {
            Pass::Advance
        } else {
            Pass::Over
        };
    }

    /// Lets the observation in, or that part of it that keeps enough members, and resamples.
    fn let_part_in<M: Model<Particle = P>>(&mut self, model: &M) {
        let (members, report, step) = (&mut self.members, &mut self.report, self.steps.len());
        let count = members.len() as f64;
        let rest = 1.0 - self.let_in;
        report.parts += 1;
        let part = if report.parts >= MOST_PARTS {
            rest
        } else {
            part_that_keeps(members, rest, self.settings.keep * count)
        };
        report.log_likelihood += log_mean_weight(members, part);
        self.let_in = if part >= rest {
            1.0
        } else {
            self.let_in + part
        };
        let mut key = stream(self.settings.seed, self.round, Topic::Luck, step as u32);
        let chosen = systematic(members, part, key.random());
        report.distinct = 1.0 / count
            + chosen.windows(2).filter(|pair| pair[0] != pair[1]).count() as f64 / count;
        *members = chosen.iter().map(|&place| members[place].clone()).collect();
        for (number, member) in members.iter_mut().enumerate() {
            model.part(&mut member.particle, number as u32, step);
        }
        self.round += 1;
        self.due = self.settings.rounds;
    }

    /// Members take what they have chosen of the lives that they were offered.
    fn take_lives(&mut self) {
        let mut taken = 0.0;
        for (member, life) in self.members.iter_mut().zip(self.lives.drain(..)) {
            if let Some(life) = life {
                *member = life;
                taken += 1.0;
            }
        }
        let taken = taken / self.members.len() as f64;
        self.report.taken += taken;
        self.report.distinct += (1.0 - self.report.distinct) * taken;
        self.round += 1;
        self.due -= 1;
    }
}

fn advance<M: Model, H: Hands>(
    model: &M,
    members: &mut [Weighed<M::Particle>],
    step: usize,
    hands: &H,
) -> Result<(), Error> {
    let mut work: Vec<_> = members.iter_mut().map(|member| (member, Ok(()))).collect();
    hands.each(&mut work, |_, (member, result)| {
        *result = model.advance(&mut member.particle, step);
        member.before += member.now;
        member.now = model.log_likelihood(&member.particle, step);
    });
    work.into_iter().try_for_each(|(_, result)| result)
}

/// A proposed life, lived up to the observation.
#[expect(
    clippy::type_complexity,
    reason = "a proposal, if there is one, or an error"
)]
fn other_life<M: Model>(
    model: &M,
    member: &Weighed<M::Particle>,
    others: &[Weighed<M::Particle>],
    key: Key,
) -> Result<Option<(Weighed<M::Particle>, f64)>, Error> {
    let Some((particle, ratio)) = model.propose(&member.particle, others, key)? else {
        return Ok(None);
    };
    let mut life = Weighed {
        particle,
        before: 0.0,
        now: 0.0,
    };
    for step in 0..=key.step {
        model.advance(&mut life.particle, step)?;
        life.before += life.now;
        life.now = model.log_likelihood(&life.particle, step);
    }
    Ok(Some((life, ratio)))
}
