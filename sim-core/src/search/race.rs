//! The race: all plans on a few members, the better half on more, and so on (successive halving, Jamieson & Talwalkar
//! 2016).

use core::ops::ControlFlow;

use super::{Asked, Family, Goal, Progress};
use crate::Error;
use crate::ensemble::{Hands, Member, Spread};
use crate::scenario::Move;
use crate::treatments::Treatment;

/// Members on which all plans are tried first.
const FIRST: usize = 8;

/// What one member comes to under a plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Life {
    pub alive: bool,
    pub bees: f64,
    pub mites_per_100: f64,
    pub honey_kg: f64,
    pub swarmed: bool,
    /// Drone brood destroyed, cells.
    pub drones: f64,
    /// Honey that went into it, kg.
    pub drone_honey_kg: f64,
    /// A move of the plan could not be done.
    pub refused: bool,
}

impl Life {
    /// Whether the colony ends in the same state.
    fn comes_to(&self, other: &Self) -> bool {
        (self.alive, self.bees, self.mites_per_100, self.honey_kg)
            == (other.alive, other.bees, other.mites_per_100, other.honey_kg)
    }
}

/// A plan in the race.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Runner {
    pub families: Vec<Family>,
    pub moves: Vec<Move>,
    pub lives: Vec<Life>,
}

/// Families and treatments: plans that have these in common differ in dates and amounts only.
type Kind = (Vec<Family>, Vec<Treatment>);

impl Runner {
    fn kind(&self) -> Kind {
        let treats = self.moves.iter().filter_map(|step| step.treat.as_ref());
        (
            self.families.clone(),
            treats.map(|treat| treat.with).collect(),
        )
    }
}

/// The race.
pub(super) struct Race<'a, H> {
    asked: Asked<'a>,
    members: &'a [Member],
    hands: &'a H,
    baseline: Vec<Life>,
    runners: Vec<Runner>,
    stage: usize,
}

impl<'a, H: Hands> Race<'a, H> {
    pub fn new(asked: Asked<'a>, members: &'a [Member], hands: &'a H) -> Self {
        Self {
            asked,
            members,
            hands,
            baseline: Vec::new(),
            runners: Vec::new(),
            stage: 0,
        }
    }

    /// The plans as the last stage left them, the best first.
    pub fn standing(&self) -> &[Runner] {
        &self.runners
    }

    /// Takes the plans out.
    pub fn take(&mut self) -> Vec<Runner> {
        core::mem::take(&mut self.runners)
    }

    /// Takes the plans out: the best of each kind, up to `count`, and if there are fewer kinds, the next best.
    pub fn take_best(&mut self, count: usize) -> Vec<Runner> {
        let all = self.take();
        let mut kinds: Vec<Kind> = Vec::new();
        let mut chosen: Vec<usize> = Vec::new();
        for (place, runner) in all.iter().enumerate() {
            let kind = runner.kind();
            if !kinds.contains(&kind) {
                kinds.push(kind);
                chosen.push(place);
            }
        }
        let others: Vec<usize> = (0..all.len())
            .filter(|place| !chosen.contains(place))
            .collect();
        chosen.extend(others);
        chosen.truncate(count);
        let places = all.into_iter().enumerate();
        places
            .filter(|(place, _)| chosen.contains(place))
            .map(|(_, runner)| runner)
            .collect()
    }

    /// The plan as it is, on as many members as any other.
    pub fn baseline(&self) -> &[Life] {
        &self.baseline
    }

    /// Stages that were run.
    pub fn stage(&self) -> usize {
        self.stage
    }

    /// Runs until `keep` plans are left that were tried on every member.
    ///
    /// # Errors
    /// A day that does not add up.
    pub fn run(
        &mut self,
        pool: Vec<Runner>,
        keep: usize,
        progress: &mut impl FnMut(Progress) -> ControlFlow<()>,
    ) -> Result<ControlFlow<()>, Error> {
        self.runners = pool;
        let mut count = FIRST;
        loop {
            let count_now = count.min(self.members.len());
            if self.bring_to(count_now, progress)?.is_break() {
                return Ok(ControlFlow::Break(()));
            }
            if self.runners.len() <= keep && count_now == self.members.len() {
                return Ok(ControlFlow::Continue(()));
            }
            let half = self.runners.len().div_ceil(2).max(keep);
            self.runners.truncate(half);
            count *= 2;
        }
    }

    /// Drops plans that come to the same in every life as a better or simpler one: what they do more has no effect.
    fn drop_doubles(&mut self) {
        let mut kept: Vec<Runner> = Vec::with_capacity(self.runners.len());
        for runner in self.take() {
            let same = |known: &Runner| {
                let lives = known.lives.iter().zip(&runner.lives);
                lives.into_iter().all(|(known, this)| known.comes_to(this))
            };
            if !kept.iter().any(same) {
                kept.push(runner);
            }
        }
        self.runners = kept;
    }

    /// Brings every plan to `count` members, and puts them in order. Broken off, it leaves all as it was.
    fn bring_to(
        &mut self,
        count: usize,
        progress: &mut impl FnMut(Progress) -> ControlFlow<()>,
    ) -> Result<ControlFlow<()>, Error> {
        let lacking = |lives: &[Life]| count.saturating_sub(lives.len());
        let of = lacking(&self.baseline)
            + self
                .runners
                .iter()
                .map(|runner| lacking(&runner.lives))
                .sum::<usize>();
        let mut done = 0;
        let mut more: Vec<Vec<Life>> = Vec::with_capacity(self.runners.len() + 1);
        let plans = self.runners.len();
        let all = core::iter::once((&self.baseline, &[][..])).chain(
            self.runners
                .iter()
                .map(|runner| (&runner.lives, &runner.moves[..])),
        );
        for (lives, moves) in all {
            let members = &self.members[lives.len().min(count)..count];
            more.push(self::lives(self.asked, moves, members, self.hands)?);
            done += members.len();
            let now = Progress {
                done,
                of,
                stage: self.stage + 1,
                plans,
                judging: false,
            };
            if progress(now).is_break() && done < of {
                return Ok(ControlFlow::Break(()));
            }
        }
        let mut more = more.into_iter();
        self.baseline.extend(more.next().into_iter().flatten());
        for (runner, more) in self.runners.iter_mut().zip(more) {
            runner.lives.extend(more);
        }
        self.stage += 1;
        let lives: Vec<&[Life]> = self
            .runners
            .iter()
            .map(|runner| &runner.lives[..count])
            .collect();
        let order = order(self.asked.goals, &lives);
        let mut places: Vec<Option<Runner>> = self.take().into_iter().map(Some).collect();
        self.runners = order
            .iter()
            .filter_map(|&place| places[place].take())
            .collect();
        self.drop_doubles();
        Ok(ControlFlow::Continue(()))
    }
}

/// Lets members live to the end of the season under the plan and more moves.
///
/// # Errors
/// A day that does not add up.
pub(super) fn lives<H: Hands>(
    asked: Asked,
    moves: &[Move],
    members: &[Member],
    hands: &H,
) -> Result<Vec<Life>, Error> {
    if members.is_empty() {
        return Ok(Vec::new());
    }
    let mut plan = asked.scenario.clone();
    let own = plan.moves.len();
    plan.moves.extend_from_slice(moves);
    let peers = asked.peers.with_plan(&plan)?;
    let lives = hands.make(members.len(), |place| {
        let mut member = members[place].clone();
        let swarmed = member.so_far.swarmed;
        let mut life = Life {
            alive: true,
            bees: 0.0,
            mites_per_100: 0.0,
            honey_kg: 0.0,
            swarmed: false,
            drones: 0.0,
            drone_honey_kg: 0.0,
            refused: false,
        };
        peers.advance(&mut member, peers.days(), |_, colony, outcome, _| {
            for report in &outcome.moves {
                let ours = report.number.is_some_and(|number| number >= own);
                // A dead colony refuses everything.
                life.refused |= ours && report.refused && colony.alive;
                for (name, figure) in &report.figures {
                    match *name {
                        "drones_lost" => life.drones += figure,
                        "honey_cost_kg" => life.drone_honey_kg += figure,
                        _ => {}
                    }
                }
            }
        })?;
        let colony = &member.walk.colony;
        let bees = colony.stock.adults.adults();
        life.alive = colony.alive;
        life.bees = bees;
        life.mites_per_100 = if colony.alive {
            100.0 * colony.mites.on_bees / bees.max(1.0)
        } else {
            100.0
        };
        life.honey_kg = if colony.alive {
            colony.stores.honey_g / 1000.0
        } else {
            0.0
        };
        life.swarmed = member.so_far.swarmed > swarmed;
        Ok(life)
    });
    lives.into_iter().collect()
}

/// Plans from the best to the worst: by the mean of the first goal; those that it cannot tell from the best of them, by
/// the next goal, and so on; at last in the order in which they came, simple ones first.
pub(super) fn order(goals: &[Goal], lives: &[impl AsRef<[Life]>]) -> Vec<usize> {
    let mut places: Vec<usize> = (0..lives.len()).collect();
    sort(goals, lives, &mut places);
    places
}

fn sort(goals: &[Goal], lives: &[impl AsRef<[Life]>], places: &mut [usize]) {
    let Some((&goal, others)) = goals.split_first() else {
        return places.sort_unstable();
    };
    let worth = |place: usize| {
        let lives = lives[place].as_ref();
        lives.iter().map(|life| goal.worth(life)).sum::<f64>() / lives.len().max(1) as f64
    };
    places.sort_by(|&a, &b| worth(b).total_cmp(&worth(a)).then(a.cmp(&b)));
    let Some(&first) = places.first() else {
        return;
    };
    // Within a standard error of the best, on the same members: five in six is not sure.
    let level = |place: usize| {
        let gains = lives[first].as_ref().iter().zip(lives[place].as_ref());
        let mut gains: Vec<f64> = gains
            .map(|(best, this)| goal.worth(best) - goal.worth(this))
            .collect();
        gains.is_empty() || {
            let behind = Spread::of(&mut gains);
            behind.mean <= behind.standard_error
        }
    };
    let (mut near, far): (Vec<usize>, Vec<usize>) = places.iter().partition(|&&place| level(place));
    sort(others, lives, &mut near);
    for (place, of) in places.iter_mut().zip(near.into_iter().chain(far)) {
        *place = of;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn life(mites_per_100: f64, honey_kg: f64) -> Life {
        Life {
            alive: true,
            bees: 10_000.0,
            mites_per_100,
            honey_kg,
            swarmed: false,
            drones: 0.0,
            drone_honey_kg: 0.0,
            refused: false,
        }
    }

    #[test]
    fn the_next_goal_decides_only_where_the_first_cannot() {
        let all = |mites: [f64; 4], honey: f64| mites.map(|mites| life(mites, honey));
        // The first two differ by less than their differences scatter; the third is worse in each.
        let lives = [
            all([1.0, 2.0, 3.0, 4.0], 5.0),
            all([2.0, 1.0, 4.0, 3.1], 9.0),
            all([6.0, 7.0, 8.0, 9.0], 30.0),
        ];
        assert_eq!(order(&[Goal::FewMites, Goal::Honey], &lives), [1, 0, 2]);
        assert_eq!(order(&[Goal::Honey, Goal::FewMites], &lives), [2, 1, 0]);
    }
}
