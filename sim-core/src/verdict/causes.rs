//! What can be wrong with a colony, and in how many of those that fit the visits it is.

use serde::Serialize;

use crate::ensemble::Member;
use crate::order;
use crate::priors::Unknown;
use crate::queen::QueenState;
use crate::words::Language;

/// A reason why a colony is not where it should be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// No queen lays: she is dead or lost, or a young one does not lay yet.
    NoQueen,
    /// The queen lays poorly.
    Queen,
    /// Forage or feed does not reach the colony.
    Food,
    /// Foundation is hardly taken up.
    Comb,
    /// Far more mites than was thought.
    Mites,
    /// Bees were lost: to another hive at the start, or with a swarm.
    Losses,
}

impl Cause {
    /// Every cause.
    pub const ALL: [Self; 6] = [
        Self::NoQueen,
        Self::Queen,
        Self::Food,
        Self::Comb,
        Self::Mites,
        Self::Losses,
    ];

    /// In plain words.
    pub fn words(self, language: Language) -> &'static str {
        language.words().causes.names[self as usize]
    }

    /// What would tell at the next visit.
    pub fn tell(self, language: Language) -> &'static str {
        language.words().causes.tell[self as usize]
    }

    /// What to do if it is so.
    pub fn remedy(self, language: Language) -> &'static str {
        language.words().causes.remedy[self as usize]
    }

    /// Whether a colony has it.
    pub fn is_in(self, member: &Member) -> bool {
        let faulty = |unknown: Unknown| {
            unknown.is_faulty(member.unknowns[unknown as usize], &member.parameters.priors)
        };
        let queen = member.unknowns[Unknown::Queen as usize];
        let dead = Unknown::Queen.is_nothing(queen, &member.parameters.priors);
        match self {
            Self::NoQueen => {
                // A colony that starved or dwindled away has lost its queen too, and after a swarm
                // the want of a queen is the swarm's doing.
                let colony = &member.walk.colony;
                let gone = !matches!(colony.queen.state, QueenState::Laying | QueenState::Caged);
                let of_itself = colony.alive && member.so_far.swarmed <= 0.0;
                gone && (dead || of_itself)
            }
            Self::Queen => faulty(Unknown::Queen) && !dead,
            Self::Food => faulty(Unknown::Forage) || faulty(Unknown::Feed),
            Self::Comb => faulty(Unknown::Comb),
            Self::Mites => faulty(Unknown::Mites),
            Self::Losses => faulty(Unknown::Bees) || member.so_far.swarmed > 0.0,
        }
    }
}

/// A cause and how likely it is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Likely {
    /// The cause.
    pub cause: Cause,
    /// In words.
    pub what: &'static str,
    /// Its probability after the visits.
    pub probability: f64,
    /// Its probability before any.
    pub before: f64,
    /// What would tell at the next visit.
    pub tell: &'static str,
}

/// Share of members with each cause, the likeliest first, and of those with none.
pub fn rank<'m>(
    now: impl Iterator<Item = &'m Member> + Clone,
    before: impl Iterator<Item = &'m Member> + Clone,
) -> (Vec<Likely>, f64) {
    let share = |members: &mut dyn Iterator<Item = &'m Member>, is: &dyn Fn(&Member) -> bool| {
        let (mut count, mut has) = (0_u32, 0_u32);
        for member in members {
            count += 1;
            has += u32::from(is(member));
        }
        f64::from(has) / f64::from(count.max(1))
    };
    let mut ranked: Vec<Likely> = Cause::ALL
        .iter()
        .map(|&cause| Likely {
            cause,
            what: cause.words(Language::English),
            probability: share(&mut now.clone(), &|member| cause.is_in(member)),
            before: share(&mut before.clone(), &|member| cause.is_in(member)),
            tell: cause.tell(Language::English),
        })
        .collect();
    order::by_key(&mut ranked, |cause| order::rank(-cause.probability));
    let sound = share(&mut now.clone(), &|member| {
        !Cause::ALL.iter().any(|cause| cause.is_in(member))
    });
    (ranked, sound)
}
