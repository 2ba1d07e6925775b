//! The race: all plans on a few members, the better half on more, and so on (successive halving, Jamieson & Talwalkar
//! 2016).

use super::{Family, Goal};
use crate::Error;
use crate::ensemble::{Hands, Member, Peers, Spread};
use crate::order;
use crate::scenario::{Move, Scenario};
use crate::treatments::Treatment;

/// Members on which all plans are tried first.
const FIRST: usize = 8;

/// Mites on 100 bees with which a lost colony is ranked.
pub const LOST_MITES_PER_100: f64 = 100.0;

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
    /// The same plan, not tried yet.
    pub fn afresh(&self) -> Self {
        Self {
            families: self.families.clone(),
            moves: self.moves.clone(),
            lives: Vec::new(),
        }
    }

    fn kind(&self) -> Kind {
        let treats = self.moves.iter().filter_map(|step| step.treat.as_ref());
        (
            self.families.clone(),
            treats.map(|treat| treat.with).collect(),
        )
    }
}

/// Plans that are tried on ever more of the same members, stage by stage, beside the plan as it is.
#[derive(Debug)]
pub(super) struct Race {
    members: Vec<Member>,
    /// The plan as it is, on as many members as any other.
    pub baseline: Vec<Life>,
    /// The plans as the last stage left them, the best first; those that came after it, behind.
    pub runners: Vec<Runner>,
    /// Members on which every plan is tried in this stage.
    count: usize,
    /// What this stage has added so far: to the plan as it is, and to one plan after the other.
    more: Vec<Vec<Life>>,
}

impl Race {
    pub fn new(members: Vec<Member>) -> Self {
        Self {
            members,
            baseline: Vec::new(),
            runners: Vec::new(),
            count: 0,
            more: Vec::new(),
        }
    }

    /// More plans; from now on all are tried on a few members first.
    pub fn enter(&mut self, pool: Vec<Runner>) {
        self.runners.extend(pool);
        self.count = FIRST.min(self.members.len());
    }

    /// Plans that are all tried on every member at once.
    pub fn enter_final(&mut self, pool: Vec<Runner>) {
        self.runners = pool;
        self.count = self.members.len();
    }

    /// The best of each kind that was tried, up to `count`, and if there are fewer kinds, the next best.
    pub fn best(&self, count: usize) -> Vec<&Runner> {
        let all = || {
            let tried = self.runners.iter().enumerate();
            tried.filter(|(_, runner)| !runner.lives.is_empty())
        };
        let mut kinds: Vec<Kind> = Vec::new();
        let mut chosen: Vec<usize> = Vec::new();
        for (place, runner) in all() {
            let kind = runner.kind();
            if !kinds.contains(&kind) {
                kinds.push(kind);
                chosen.push(place);
            }
        }
        for (place, _) in all() {
            if !chosen.contains(&place) {
                chosen.push(place);
            }
        }
        chosen.truncate(count);
        all()
            .filter(|(place, _)| chosen.contains(place))
            .map(|(_, runner)| runner)
            .collect()
    }

    /// Lives of this stage.
    pub fn of(&self) -> usize {
        let all = self.runners.iter().map(|runner| &runner.lives);
        all.chain([&self.baseline])
            .map(|lives| self.count.saturating_sub(lives.len()))
            .sum()
    }

    /// Lives of this stage that were lived.
    pub fn done(&self) -> usize {
        self.more.iter().map(Vec::len).sum()
    }

    /// Whether the stage is over: every plan was brought to as many members.
    pub fn is_stage_over(&self) -> bool {
        self.more.len() > self.runners.len()
    }

    /// Brings the next plan to the members of this stage; gives the lives that it took.
    ///
    /// # Errors
    /// A day that does not add up.
    pub fn try_next<H: Hands>(
        &mut self,
        scenario: &Scenario,
        peers: &Peers,
        hands: &H,
    ) -> Result<usize, Error> {
        let (lives, moves) = match self.more.len().checked_sub(1) {
            None => (&self.baseline, &[][..]),
            Some(place) => {
                let runner = &self.runners[place];
                (&runner.lives, &runner.moves[..])
            }
        };
        let members = &self.members[lives.len().min(self.count)..self.count];
        let more = self::lives((scenario, peers), moves, members, hands)?;
        let lived = more.len();
        self.more.push(more);
        Ok(lived)
    }

    /// Adds what the stage has brought. Until then all is as the stage before left it.
    pub fn end_stage(&mut self) {
        let mut more = core::mem::take(&mut self.more).into_iter();
        self.baseline.extend(more.next().into_iter().flatten());
        for (runner, more) in self.runners.iter_mut().zip(more) {
            runner.lives.extend(more);
        }
    }

    /// Puts the plans in order and drops those that are not worth another stage; `true` when `keep` are left that were
    /// tried on every member.
    pub fn halve(&mut self, goals: &[Goal], keep: usize) -> bool {
        let lives: Vec<&[Life]> = self
            .runners
            .iter()
            .map(|runner| &runner.lives[..self.count])
            .collect();
        let order = ranking(goals, &lives);
        let mut places: Vec<Option<Runner>> = core::mem::take(&mut self.runners)
            .into_iter()
            .map(Some)
            .collect();
        for runner in order.iter().filter_map(|&place| places[place].take()) {
            // One that comes to the same in every life as a better or simpler one: what it does more has no effect.
            let same = |known: &Runner| {
                let mut lives = known.lives.iter().zip(&runner.lives);
                lives.all(|(known, this)| known.comes_to(this))
            };
            if !self.runners.iter().any(same) {
                self.runners.push(runner);
            }
        }
        if self.runners.len() <= keep && self.count == self.members.len() {
            return true;
        }
        let half = self.runners.len().div_ceil(2).max(keep);
        self.runners.truncate(half);
        self.count = (2 * self.count).min(self.members.len());
        false
    }
}

/// Lets members live to the end of the season under the plan and more moves.
///
/// # Errors
/// A day that does not add up.
fn lives<H: Hands>(
    (scenario, peers): (&Scenario, &Peers),
    moves: &[Move],
    members: &[Member],
    hands: &H,
) -> Result<Vec<Life>, Error> {
    if members.is_empty() {
        return Ok(Vec::new());
    }
    let mut plan = scenario.clone();
    let own = plan.moves.len();
    plan.moves.extend_from_slice(moves);
    let peers = peers.with_plan(&plan)?;
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
            LOST_MITES_PER_100
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
pub(super) fn ranking(goals: &[Goal], lives: &[impl AsRef<[Life]>]) -> Vec<usize> {
    let mut places: Vec<usize> = (0..lives.len()).collect();
    sort(goals, lives, &mut places);
    places
}

fn sort(goals: &[Goal], lives: &[impl AsRef<[Life]>], places: &mut Vec<usize>) {
    order::by_key(places, |&place| place as i64);
    let Some((&goal, others)) = goals.split_first() else {
        return;
    };
    let worth = |&place: &usize| {
        let lives = lives[place].as_ref();
        order::rank(
            -lives.iter().map(|life| goal.worth(life)).sum::<f64>() / lives.len().max(1) as f64,
        )
    };
    order::by_key(places, worth);
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
    near.extend(far);
    *places = near;
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
        assert_eq!(ranking(&[Goal::FewMites, Goal::Honey], &lives), [1, 0, 2]);
        assert_eq!(ranking(&[Goal::Honey, Goal::FewMites], &lives), [2, 1, 0]);
    }
}
