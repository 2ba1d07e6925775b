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

use rand::RngExt;
use serde::Serialize;

use crate::Error;
use crate::ensemble::Hands;
use crate::math::{exp, ln};
use crate::rng::{Topic, stream};

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
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
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
    let made = hands.make(settings.members as usize, |number| {
        model.start(number as u32)
    });
    let made: Result<Vec<_>, _> = made.into_iter().collect();
    let mut members: Vec<Weighed<M::Particle>> = made?
        .into_iter()
        .map(|particle| Weighed {
            particle,
            before: 0.0,
            now: 0.0,
        })
        .collect();
    let mut steps = Vec::with_capacity(count);
    let mut round = 0;
    for step in 0..count {
        advance(model, &mut members, step, hands)?;
        look(step, &members);
        steps.push(weigh(
            model,
            &mut members,
            step,
            settings,
            hands,
            &mut round,
        )?);
    }
    Ok(Filtered {
        members: members.into_iter().map(|member| member.particle).collect(),
        steps,
    })
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

/// Lets one observation in, by parts where it must be.
fn weigh<M: Model, H: Hands>(
    model: &M,
    members: &mut Vec<Weighed<M::Particle>>,
    step: usize,
    settings: &Settings,
    hands: &H,
    round: &mut u32,
) -> Result<Step, Error> {
    let count = members.len() as f64;
    let mut report = Step {
        effective: effective(members, 1.0),
        parts: 0,
        taken: 0.0,
        distinct: 1.0,
        log_likelihood: 0.0,
    };
    let (mut let_in, mut offered) = (0.0, 0.0);
    while let_in < 1.0 {
        let rest = 1.0 - let_in;
        report.parts += 1;
        let part = if report.parts >= MOST_PARTS {
            rest
        } else {
            part_that_keeps(members, rest, settings.keep * count)
        };
        report.log_likelihood += log_mean_weight(members, part);
        let_in = if part >= rest { 1.0 } else { let_in + part };
        let mut key = stream(settings.seed, *round, Topic::Luck, step as u32);
        let chosen = systematic(members, part, key.random());
        report.distinct = 1.0 / count
            + chosen.windows(2).filter(|pair| pair[0] != pair[1]).count() as f64 / count;
        *members = chosen.iter().map(|&place| members[place].clone()).collect();
        for (number, member) in members.iter_mut().enumerate() {
            model.part(&mut member.particle, number as u32, step);
        }
        for _ in 0..settings.rounds {
            *round += 1;
            let taken = rejuvenate(model, members, (step, let_in), settings, hands, *round)?;
            offered += 1.0;
            report.taken += taken;
            report.distinct += (1.0 - report.distinct) * taken;
        }
        *round += 1;
    }
    report.taken /= f64::max(offered, 1.0);
    Ok(report)
}

/// Offers each member another life; returns the share that took it.
fn rejuvenate<M: Model, H: Hands>(
    model: &M,
    members: &mut [Weighed<M::Particle>],
    (step, let_in): (usize, f64),
    settings: &Settings,
    hands: &H,
    round: u32,
) -> Result<f64, Error> {
    let others = &*members;
    let lives = hands.make(others.len(), |place| {
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
        let mut dice = stream(settings.seed, key.number, Topic::Luck, u32::MAX - round);
        Ok((ln(dice.random::<f64>()) < gain).then_some(life))
    });
    let mut taken = 0.0;
    for (member, life) in members.iter_mut().zip(lives) {
        let life: Result<_, Error> = life;
        if let Some(life) = life? {
            *member = life;
            taken += 1.0;
        }
    }
    Ok(taken / members.len() as f64)
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

/// Weights to the power `part`, the largest being 1.
fn weights<P>(members: &[Weighed<P>], part: f64) -> (Vec<f64>, f64) {
    let most = members
        .iter()
        .map(|member| member.now)
        .fold(f64::NEG_INFINITY, f64::max);
    let weights = members
        .iter()
        .map(|member| exp(part * (member.now - most)))
        .collect();
    (weights, part * most)
}

/// Effective number of members under the weights (Kish 1965).
fn effective<P>(members: &[Weighed<P>], part: f64) -> f64 {
    let (weights, _) = weights(members, part);
    let (sum, squares) = weights
        .iter()
        .fold((0.0, 0.0), |(sum, squares), w| (sum + w, squares + w * w));
    sum * sum / squares
}

fn log_mean_weight<P>(members: &[Weighed<P>], part: f64) -> f64 {
    let (weights, most) = weights(members, part);
    most + ln(weights.iter().sum::<f64>() / members.len() as f64)
}

/// The largest part of an observation that leaves `wanted` members, at most `rest`.
fn part_that_keeps<P>(members: &[Weighed<P>], rest: f64, wanted: f64) -> f64 {
    if effective(members, rest) >= wanted {
        return rest;
    }
    let (mut few, mut many) = (0.0, rest);
    for _ in 0..30 {
        let middle = 0.5 * (few + many);
        if effective(members, middle) >= wanted {
            few = middle;
        } else {
            many = middle;
        }
    }
    // Never nothing at all, or no end would come.
    f64::max(few, 1e-4 * rest)
}

/// Places of the members that go on: each as often as its weight asks for, within one.
fn systematic<P>(members: &[Weighed<P>], part: f64, offset: f64) -> Vec<usize> {
    let (weights, _) = weights(members, part);
    let scale = members.len() as f64 / weights.iter().sum::<f64>();
    let mut chosen = Vec::with_capacity(members.len());
    let mut along = 0.0;
    for (place, weight) in weights.iter().enumerate() {
        along += weight * scale;
        while chosen.len() < members.len() && chosen.len() as f64 + offset < along {
            chosen.push(place);
        }
    }
    // Rounding can leave the last places unfilled.
    let last = weights
        .iter()
        .rposition(|weight| *weight > 0.0)
        .unwrap_or(0);
    chosen.resize(members.len(), last);
    chosen
}
