//! What was seen beside what was expected, and what of it does not fit at all.

use serde::Serialize;

use super::hive::{Candidate, Hive};
use crate::calendar::CalendarDate;
use crate::ensemble::quantile;
use crate::filter::Weighed;
use crate::order;
use crate::visits::{Visit, VisitsParameters, What};
use crate::words::Saying;

/// A reading is called unfit where one in a hundred would lie as far out.
const FAR_OUT: f64 = 0.01;

/// Members that tell what was expected; more would not move the figures.
const ASKED: usize = 500;

/// One reading beside what the colony was expected to show, after the visits before; brood and eggs
/// beside what it would show with a queen, where any colony that fits has one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Seen {
    /// Which visit, counted from 1 among those used.
    pub visit: usize,
    /// Its date.
    pub date: CalendarDate,
    /// What was read.
    pub what: What,
    /// What was found: an amount, a count, 1 for yes, 0 for no.
    pub found: f64,
    /// 5 % of the colonies would show less, errors of reading left out.
    pub low: f64,
    /// As many more as less.
    pub expected: f64,
    /// 95 % would show less.
    pub high: f64,
    /// The middle of each twentieth of the colonies, from what shows least: one dot for one colony in twenty.
    pub twentieths: [f64; 20],
    /// Probability of reading less than this, and half of that of reading just this.
    pub below: f64,
}

impl Seen {
    /// Probability of a reading as far out, to either side.
    pub fn tail(&self) -> f64 {
        2.0 * f64::min(self.below, 1.0 - self.below)
    }
}

/// What does not fit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Unfit {
    /// When.
    pub date: CalendarDate,
    /// What.
    pub what: What,
    /// How likely something as far out was.
    pub chance: f64,
    /// In words.
    pub text: Saying,
}

/// What members at a visit, not weighed yet, were expected to show.
pub fn expected(
    hive: &Hive,
    visits: &[Visit],
    step: usize,
    members: &[Weighed<Candidate>],
) -> Vec<Seen> {
    let p = &hive.peers.season().parameters.visits;
    let stride = members.len().div_ceil(ASKED);
    let asked: Vec<&Candidate> = members
        .iter()
        .step_by(stride)
        .map(|member| &member.particle)
        .collect();
    let with_queen: Vec<&Candidate> = asked
        .iter()
        .copied()
        .filter(|candidate| candidate.shown[step].queen)
        .collect();
    hive.readings[step]
        .iter()
        .map(|reading| {
            let hers = matches!(reading.what, What::FramesOfBrood | What::Eggs);
            let asked = if hers && !with_queen.is_empty() {
                &with_queen
            } else {
                &asked
            };
            let mut shown = Vec::with_capacity(asked.len());
            let mut below = 0.0;
            for candidate in asked {
                let (now, before) = (&candidate.shown[step], &candidate.shown[..step]);
                shown.push(reading.expected(now, before, p));
                below += reading.below(now, before, p);
            }
            order::numbers(&mut shown);
            Seen {
                visit: step + 1,
                date: visits[step].date,
                what: reading.what,
                found: reading.value,
                low: quantile(&shown, 0.05),
                expected: quantile(&shown, 0.5),
                high: quantile(&shown, 0.95),
                twentieths: std::array::from_fn(|part| {
                    quantile(&shown, (part as f64 + 0.5) / 20.0)
                }),
                below: below / asked.len() as f64,
            }
        })
        .collect()
}

/// Everything that does not fit: figures far out, and sights that contradict each other.
pub fn of(seen: &[Seen], visits: &[Visit], p: &VisitsParameters) -> Vec<Unfit> {
    let missing = nothing_of_hers(seen);
    let mut unfit: Vec<Unfit> = seen
        .iter()
        .enumerate()
        .filter(|(place, seen)| {
            seen.tail() < FAR_OUT
                || unlikely_sight(seen)
                || lacks_stores(seen, p)
                || missing.contains(place)
        })
        .map(|(_, seen)| seen)
        .map(|seen| Unfit {
            date: seen.date,
            what: seen.what,
            chance: seen.tail(),
            text: words(seen),
        })
        .collect();
    for visit in visits {
        let brood: f64 = visit.frames_of_brood.iter().sum();
        let looked = !visit.frames_of_brood.is_empty();
        if visit.eggs_seen == Some(true) && looked && brood == 0.0 {
            unfit.push(Unfit {
                date: visit.date,
                what: What::Eggs,
                chance: 1.0,
                text: Saying::new(|words| words.verdict.eggs_without_brood),
            });
        }
        if visit.eggs_seen == Some(false) && visit.queen_seen == Some(true) {
            unfit.push(Unfit {
                date: visit.date,
                what: What::Eggs,
                chance: 1.0,
                text: Saying::new(|words| words.verdict.queen_without_eggs),
            });
        }
    }
    order::by_key(&mut unfit, |unfit| unfit.date.number());
    unfit
}

/// Places of the readings that found no brood or no eggs where, since there last were any, a colony with a
/// queen would hardly have shown nothing each time. Any one of them can be put down to the eye; all
/// together cannot.
fn nothing_of_hers(seen: &[Seen]) -> Vec<usize> {
    let mut missing = Vec::new();
    let mut all = 1.0;
    let last = seen.last().map_or(0, |seen| seen.visit);
    for visit in 1..=last {
        let hers: Vec<(usize, &Seen)> = seen
            .iter()
            .enumerate()
            .filter(|(_, seen)| seen.visit == visit)
            .filter(|(_, seen)| matches!(seen.what, What::FramesOfBrood | What::Eggs))
            .collect();
        if hers.iter().any(|(_, seen)| seen.found > 0.0) {
            all = 1.0;
            continue;
        }
        // Half of the chance of reading just this is counted as below it.
        all *= hers
            .iter()
            .map(|(_, seen)| 2.0 * seen.below)
            .product::<f64>();
        if all < FAR_OUT {
            let some = |seen: &Seen| seen.what == What::Eggs || seen.low >= 0.05;
            let surprising = (hers.iter()).filter(|(_, seen)| 2.0 * seen.below < 0.5 && some(seen));
            missing.extend(surprising.map(|(place, _)| *place));
        }
    }
    missing
}

/// Stores far below those of all but a few colonies. That there are hardly any is seen at a glance: it is no slip of the
/// pen, and not to be waved away as one.
fn lacks_stores(seen: &Seen, p: &VisitsParameters) -> bool {
    let error = f64::sqrt(
        p.stores_share * p.stores_share * seen.low * seen.low
            + p.stores_least_kg * p.stores_least_kg,
    );
    // One in a hundred lies as far below, normal errors all.
    seen.what == What::Stores && seen.found < seen.low - 2.33 * error
}

/// A sight that is all but ruled out: half of the chance of either side is no measure of that.
fn unlikely_sight(seen: &Seen) -> bool {
    let sight = matches!(
        seen.what,
        What::Eggs | What::ChargedCells | What::CappedCells
    );
    let chance = if seen.found > 0.5 {
        2.0 * (1.0 - seen.below)
    } else {
        2.0 * seen.below
    };
    sight && chance < 0.04
}

fn words(seen: &Seen) -> Saying {
    let said = match seen.what {
        What::Eggs if seen.found < 0.5 => Saying::new(|words| words.verdict.no_eggs),
        What::Eggs => Saying::new(|words| words.verdict.eggs),
        What::Queen => Saying::new(|words| words.verdict.queen),
        What::ChargedCells | What::CappedCells if seen.found > 0.5 => {
            Saying::new(|words| words.verdict.cells)
        }
        What::ChargedCells | What::CappedCells => Saying::new(|words| words.verdict.no_cells),
        What::DroneFrame => Saying::new(|words| words.verdict.drone_frame),
        _ if seen.below < 0.5 => Saying::new(|words| words.verdict.fewer_than_expected),
        _ => Saying::new(|words| words.verdict.more_than_expected),
    };
    let digits = |x: f64| usize::from(x.abs() < 20.0);
    said.choice("what", |words| &words.verdict.readings, seen.what as usize)
        .decimal("found", seen.found, digits(seen.found))
        .decimal("low", seen.low, digits(seen.low))
        .decimal("high", seen.high, digits(seen.high))
}
