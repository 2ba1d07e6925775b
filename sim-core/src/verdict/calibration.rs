//! Whether verdicts mean what they say, on invented colonies whose truth is known.
//!
//! Simulation-based calibration (Cook, Gelman & Rubin 2006; Talts et al. 2018): where colonies are drawn
//! from the priors and visited with the errors that visits are thought to have, the truth's rank
//! among the members that are left is uniform, and a 90 % band holds it in 90 of 100 colonies.

use serde::Serialize;

use super::{Candidate, Cause, Effort, Fault, condition, rank, rehearse};
use crate::Error;
use crate::ensemble::{Alone, Member, Peers};
use crate::order;
use crate::priors::Unknown;
use crate::visits::Visit;

/// Members that ranks are counted among, chosen evenly: as many ranks as these and one.
const AMONG: usize = 99;

/// Classes of ranks for the chi-square.
pub const CLASSES: usize = 10;

/// Days from the last visit to the forecast that is tested.
const AHEAD: usize = 28;

/// What is tested: a name, and whether it is a number of the colony or an unknown.
pub const QUANTITIES: [&str; 9] = [
    "bees at the last visit",
    "brood at the last visit",
    "bees four weeks later",
    "stores four weeks later",
    "the queen's laying power",
    "workers' life",
    "bees at the start",
    "forage",
    "mites at the start",
];

fn quantities(at_visit: &Member, later: &Member) -> [f64; QUANTITIES.len()] {
    let unknown = |which: Unknown| at_visit.unknowns[which as usize];
    let (now, then) = (&at_visit.walk.colony, &later.walk.colony);
    [
        now.stock.adults.adults(),
        now.stock.worker_brood(),
        then.stock.adults.adults(),
        then.stores.honey_g + then.stores.unripe_g,
        unknown(Unknown::Queen),
        unknown(Unknown::WorkerLife),
        unknown(Unknown::Bees),
        unknown(Unknown::Forage),
        unknown(Unknown::Mites),
    ]
}

/// One invented colony.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Trial {
    /// Members below the truth, of 99, in the order of [`QUANTITIES`].
    pub ranks: [u32; QUANTITIES.len()],
    /// Whether the 90 % band held the truth.
    pub held: [bool; QUANTITIES.len()],
}

/// Draws a colony, visits it, and ranks the truth among what the visits leave.
///
/// # Errors
/// A day that does not add up.
pub fn trial(peers: &Peers, sheets: &[Visit], number: u32, effort: Effort) -> Result<Trial, Error> {
    let (truth, visits) = rehearse(peers, sheets, number, None)?;
    // Each trial has an ensemble of its own.
    let ensemble = peers.with_seed(
        peers
            .seed()
            .wrapping_add(number.wrapping_mul(2))
            .wrapping_add(1),
    );
    let conditioned = condition(&ensemble, &visits, effort, &Alone)?;
    let later = |peers: &Peers, candidate: &Candidate| -> Result<[f64; QUANTITIES.len()], Error> {
        let mut member = candidate.member.clone();
        let until = member.walk.day + AHEAD;
        peers.advance(&mut member, until, |_, _, _, _| {})?;
        Ok(quantities(&candidate.member, &member))
    };
    let truth = later(peers, &truth)?;
    let count = conditioned.candidates.len();
    let left: Vec<[f64; QUANTITIES.len()]> = (0..AMONG)
        .map(|k| {
            later(
                &ensemble,
                &conditioned.candidates[(2 * k + 1) * count / (2 * AMONG)],
            )
        })
        .collect::<Result<_, _>>()?;
    let mut result = Trial {
        ranks: [0; QUANTITIES.len()],
        held: [false; QUANTITIES.len()],
    };
    for k in 0..QUANTITIES.len() {
        let mut values: Vec<f64> = left.iter().map(|values| values[k]).collect();
        order::numbers(&mut values);
        let below = values.iter().filter(|value| **value < truth[k]).count();
        let level = values.iter().filter(|value| **value == truth[k]).count();
        // Level ones, as where both are lost, are dealt out by the number of the trial.
        let of_level = if level > 0 {
            number as usize % (level + 1)
        } else {
            0
        };
        result.ranks[k] = (below + of_level) as u32;
        // Of 100 even ranks, 90: the band from the 5th of 99 values to the 95th.
        result.held[k] = (5..95).contains(&result.ranks[k]);
    }
    Ok(result)
}

/// How one quantity came out over many trials.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Calibrated {
    /// Which.
    pub quantity: &'static str,
    /// Trials whose rank falls into each tenth.
    pub classes: [u32; CLASSES],
    /// Chi-square of the classes against even ones; 9 degrees of freedom.
    pub chi_square: f64,
    /// Share of trials whose 90 % band held the truth.
    pub held: f64,
}

/// Sums up trials.
pub fn calibrated(trials: &[Trial]) -> Vec<Calibrated> {
    let even = trials.len() as f64 / CLASSES as f64;
    QUANTITIES
        .iter()
        .enumerate()
        .map(|(k, quantity)| {
            let mut classes = [0; CLASSES];
            for trial in trials {
                classes[trial.ranks[k] as usize * CLASSES / (AMONG + 1)] += 1;
            }
            let chi_square = classes
                .iter()
                .map(|&count| (f64::from(count) - even) * (f64::from(count) - even) / even)
                .sum();
            let held = trials.iter().filter(|trial| trial.held[k]).count();
            Calibrated {
                quantity,
                classes,
                chi_square,
                held: held as f64 / trials.len() as f64,
            }
        })
        .collect()
}

/// The cause that a verdict puts first for an invented colony, and whether it holds that likelier than
/// that nothing is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Recognised {
    /// The likeliest cause.
    pub first: Cause,
    /// Whether it is likelier than none.
    pub named: bool,
}

/// What a verdict says of a colony with a planted fault.
///
/// # Errors
/// No swarm can be planted; a day that does not add up.
pub fn recognised(
    peers: &Peers,
    sheets: &[Visit],
    number: u32,
    fault: Fault,
    effort: Effort,
) -> Result<Recognised, Error> {
    let (_, visits) = rehearse(peers, sheets, number, Some(fault))?;
    let ensemble = peers.with_seed(
        peers
            .seed()
            .wrapping_add(number.wrapping_mul(2))
            .wrapping_add(1),
    );
    let conditioned = condition(&ensemble, &visits, effort, &Alone)?;
    let members = conditioned.candidates.iter().map(|it| &it.member);
    let (causes, sound) = rank(members.clone(), members);
    Ok(Recognised {
        first: causes[0].cause,
        named: causes[0].probability > sound,
    })
}
