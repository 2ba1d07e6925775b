//! What was seen beside what was expected, and what of it does not fit at all.

use serde::Serialize;

use super::hive::{Candidate, Hive};
use crate::calendar::CalendarDate;
use crate::ensemble::quantile;
use crate::filter::Weighed;
use crate::order;
use crate::visits::{Visit, What};

/// A reading is called unfit where one in a hundred would lie as far out.
const FAR_OUT: f64 = 0.01;

/// Members that tell what was expected; more would not move the figures.
const ASKED: usize = 500;

/// One reading beside what the colony was expected to show, after the visits before.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Seen {
    /// Place of the visit among those used, from 0.
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
    pub text: String,
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
    hive.readings[step]
        .iter()
        .map(|reading| {
            let mut shown = Vec::with_capacity(asked.len());
            let mut below = 0.0;
            for candidate in &asked {
                let (now, before) = (&candidate.shown[step], &candidate.shown[..step]);
                shown.push(reading.expected(now, before, p));
                below += reading.below(now, before, p);
            }
            order::numbers(&mut shown);
            Seen {
                visit: step,
                date: visits[step].date,
                what: reading.what,
                found: reading.value,
                low: quantile(&shown, 0.05),
                expected: quantile(&shown, 0.5),
                high: quantile(&shown, 0.95),
                below: below / asked.len() as f64,
            }
        })
        .collect()
}

/// Everything that does not fit: figures far out, and sights that contradict each other.
pub fn of(seen: &[Seen], visits: &[Visit]) -> Vec<Unfit> {
    let mut unfit: Vec<Unfit> = seen
        .iter()
        .filter(|seen| seen.tail() < FAR_OUT || unlikely_sight(seen))
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
                text: "eggs, and no brood over 4 days: did she just start, or start again?".into(),
            });
        }
        if visit.eggs_seen == Some(false) && visit.queen_seen == Some(true) {
            unfit.push(Unfit {
                date: visit.date,
                what: What::Eggs,
                chance: 1.0,
                text: "the queen was seen, and no eggs: is she caged, new, slimmed down to swarm, or out of room or food?".into(),
            });
        }
    }
    order::by_key(&mut unfit, |unfit| unfit.date.number());
    unfit
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

fn words(seen: &Seen) -> String {
    let what = seen.what.words();
    match seen.what {
        What::Eggs if seen.found < 0.5 => {
            "no eggs, where all but a few colonies have some: look again with the sun behind you"
                .into()
        }
        What::Eggs => "eggs, where hardly any colony would have some".into(),
        What::Queen => "the queen was seen, where hardly any colony has one".into(),
        What::ChargedCells | What::CappedCells if seen.found > 0.5 => {
            format!("{what}, where hardly any colony would raise them")
        }
        What::ChargedCells | What::CappedCells => {
            format!("no {what}, where all but a few colonies have some")
        }
        What::DroneFrame => "the drone frame is not as far as it should be, or farther".into(),
        _ => {
            let side = if seen.below < 0.5 { "fewer" } else { "more" };
            format!(
                "{what}: {} found, {} to {} expected; {side} than can be put down to the eye",
                number(seen.found),
                number(seen.low),
                number(seen.high)
            )
        }
    }
}

fn number(x: f64) -> String {
    if x.abs() >= 20.0 {
        format!("{x:.0}")
    } else {
        format!("{x:.1}")
    }
}
