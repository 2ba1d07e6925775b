//! One hive's visits as something to filter: members are colonies, observations are visits.

use rand::RngExt;
use rand_distr::{Distribution, StandardNormal};

use crate::Error;
use crate::calendar::days_between;
use crate::ensemble::{Member, Peers};
use crate::filter::{Key, Model, Weighed};
use crate::priors::COUNT;
use crate::rng::{Topic, stream};
use crate::visits::{Reading, Shown, Visit, at_visit};

/// Sets the streams of proposals apart from those of the members.
const PROPOSALS: u32 = 0x9E37_79B9;

/// A hive and what was seen in it.
#[derive(Debug, Clone)]
pub struct Hive<'a> {
    /// The colonies that it could be.
    pub peers: &'a Peers,
    /// The day of each visit, counted from 0.
    pub days: Vec<usize>,
    /// What each visit reads.
    pub readings: Vec<Vec<Reading>>,
}

/// A colony and what it would have shown at the visits so far.
#[derive(Debug, Clone)]
pub struct Candidate {
    /// The colony.
    pub member: Member,
    /// What it would have shown.
    pub shown: Vec<Shown>,
}

impl<'a> Hive<'a> {
    /// A hive with visits in order of date, all within the season.
    pub fn new(peers: &'a Peers, visits: &[Visit]) -> Self {
        let season = peers.season();
        Self {
            peers,
            days: visits
                .iter()
                .map(|visit| days_between(season.first, visit.date.0).max(0) as usize)
                .collect(),
            readings: (0..visits.len())
                .map(|place| at_visit(visits, place, &season.parameters.visits))
                .collect(),
        }
    }
}

impl Model for Hive<'_> {
    type Particle = Candidate;

    fn start(&self, number: u32) -> Result<Candidate, Error> {
        Ok(Candidate {
            member: self.peers.member(number)?,
            shown: Vec::with_capacity(self.days.len()),
        })
    }

    fn advance(&self, candidate: &mut Candidate, step: usize) -> Result<(), Error> {
        self.peers
            .advance(&mut candidate.member, self.days[step], |_, _, _, _| {})?;
        candidate.shown.push(Shown::of(&candidate.member));
        Ok(())
    }

    fn log_likelihood(&self, candidate: &Candidate, step: usize) -> f64 {
        let p = &self.peers.season().parameters.visits;
        let (now, before) = (&candidate.shown[step], &candidate.shown[..step]);
        self.readings[step]
            .iter()
            .map(|reading| reading.log_likelihood(now, before, p))
            .sum()
    }

    fn part(&self, candidate: &mut Candidate, number: u32, step: usize) {
        let day = self.days[step];
        let key = self.peers.key(number, day);
        candidate.member.luck.turns(day, key);
    }

    /// Other unknowns or other luck. A third of the offers goes where two other members differ (ter
    /// Braak 2006), which fits the ensemble however narrow it has become; a third is a step that leaves
    /// the prior as it is (Neal 1998), small or large; a third draws one unknown, or the luck of one
    /// stretch between visits, afresh: so members pass from sound to faulty and back.
    fn propose(
        &self,
        candidate: &Candidate,
        others: &[Weighed<Candidate>],
        key: Key,
    ) -> Result<Option<(Candidate, f64)>, Error> {
        let seed = self.peers.seed() ^ PROPOSALS;
        let mut dice = stream(seed, key.number, Topic::Luck, key.round);
        let normal = |dice: &mut _| -> f64 { StandardNormal.sample(dice) };
        let old = &candidate.member.unknowns;
        let mut new = *old;
        let mut luck = candidate.member.luck.clone();
        let mut ratio = 0.0;
        let any =
            |dice: &mut rand_pcg::Pcg64Mcg, of: usize| dice.random_range(0..of as u32) as usize;
        match dice.random_range(0..6_u32) {
            0 | 1 => {
                let one = &others[any(&mut dice, others.len())].particle.member;
                let two = &others[any(&mut dice, others.len())].particle.member;
                // 2.38 / √(2 d) is best for a normal target; now and then a whole jump between modes.
                let stretch = if dice.random::<f64>() < 0.1 {
                    1.0
                } else {
                    2.38 / f64::sqrt(2.0 * COUNT as f64)
                };
                for (x, (a, b)) in new.iter_mut().zip(one.unknowns.iter().zip(&two.unknowns)) {
                    *x += stretch * (a - b) + 0.05 * normal(&mut dice);
                }
                let squares = |z: &[f64; COUNT]| z.iter().map(|x| x * x).sum::<f64>();
                ratio = 0.5 * (squares(old) - squares(&new));
            }
            2 | 3 => {
                let step = [0.25, 0.6][any(&mut dice, 2)];
                let stay = f64::sqrt(1.0 - step * step);
                for x in &mut new {
                    *x = stay * *x + step * normal(&mut dice);
                }
            }
            4 => new[any(&mut dice, COUNT)] = normal(&mut dice),
            _ => {
                let stretch = any(&mut dice, luck.0.len());
                luck.0[stretch].1 = dice.random();
            }
        }
        Ok(Some((
            Candidate {
                member: self.peers.with(new, luck)?,
                shown: Vec::with_capacity(self.days.len()),
            },
            ratio,
        )))
    }
}
