//! The verdict: where a colony stands, why, what does not fit, and what is to come.
//!
//! [`judge`] conditions an ensemble on a hive's visits and reads the answer off the members that are
//! left. The peers that the colony is held against are the same ensemble before any visit.

pub(crate) mod alarms;
mod calibration;
mod causes;
mod fitting;
mod hive;
mod rehearse;
mod standing;
mod unfit;

use serde::Serialize;

pub use alarms::{Alarm, Alarming, Sign};
pub use calibration::{CLASSES, Calibrated, QUANTITIES, Trial, calibrated, recognised, trial};
pub use causes::{Cause, Likely, rank};
pub use fitting::{Conditioned, Finding, Fitting, condition, fitting};
pub use hive::{Candidate, Hive};
pub use rehearse::{Fault, rehearse, sheets};
pub use standing::{Size, Standing, Word};
pub use unfit::{Seen, Unfit};

use crate::Error;
use crate::calendar::{CalendarDate, plus_days};
use crate::document::{VERSION, scenario_digest};
use crate::ensemble::{Bands, Hands, Member, Path, Peers, Risk, Spread, quantile};
use crate::filter::{Settings, Step};
use crate::order;
use crate::priors::Unknown;
use crate::scenario::Scenario;
use crate::visits::{Aside, Visit, at_visit};
use crate::words::{Language, Saying, Speech};

/// Days beyond the last visit on which the median peer is still looked for.
const LOOK_AHEAD: usize = 60;

/// The answer after the last visit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Verdict {
    /// Version of the program.
    pub version: &'static str,
    /// Name of the scenario.
    pub scenario: String,
    /// Its digest, 16 hexadecimal digits.
    pub scenario_digest: String,
    /// Name of the hive.
    pub hive: String,
    /// The seed.
    pub seed: u32,
    /// Number of members.
    pub members: u32,
    /// The last visit that was used: the day of the verdict.
    pub date: CalendarDate,
    /// Visits that were used.
    pub visits: usize,
    /// What was set aside, and why.
    pub aside: Vec<Aside>,
    /// Where it stands among its peers.
    pub standing: Standing,
    /// What visits found that cannot wait.
    pub alarms: Vec<Alarm>,
    /// What can be wrong, the likeliest first.
    pub causes: Vec<Likely>,
    /// Probability that nothing of that is wrong.
    pub sound: f64,
    /// Everything that was seen beside what was expected of the colony after the visits before.
    pub seen: Vec<Seen>,
    /// What of it does not fit at all.
    pub unfit: Vec<Unfit>,
    /// What nobody knew, before the visits and after them.
    pub unknowns: Vec<Learned>,
    /// Logarithm of the likelihood of all visits.
    pub log_likelihood: f64,
    /// What each visit did to the ensemble.
    pub steps: Vec<Step>,
    /// That queen cells were found and most of the colonies that fit had none: causes and forecast do not know of them.
    pub cells_unknown: Option<Saying>,
    /// Where the verdict stands on few members.
    pub warnings: Vec<Saying>,
    /// What is to come, from the day of the last visit.
    pub forecast: Bands,
}

impl Verdict {
    /// Puts its words into a language; it is made in English.
    pub fn spoken(&mut self, speech: impl Into<Speech>) {
        let speech: Speech = speech.into();
        let language = speech.language;
        for cause in &mut self.causes {
            cause.what = cause.cause.words(language);
            cause.tell = cause.cause.tell(language);
        }
        for learned in &mut self.unknowns {
            learned.what = learned.unknown.words(language);
        }
        let sayings = (self.warnings.iter_mut())
            .chain(&mut self.cells_unknown)
            .chain(self.alarms.iter_mut().map(|alarm| &mut alarm.text))
            .chain(self.unfit.iter_mut().map(|unfit| &mut unfit.text))
            .chain(self.aside.iter_mut().map(|aside| &mut aside.reason));
        for saying in sayings {
            saying.spoken(speech);
        }
        self.forecast.spoken(language);
    }
}

impl Verdict {
    /// The cause that is likelier than that nothing is wrong, where the colony's standing asks for one: one that is in step or
    /// ahead is not held back, whatever nobody knows of its comb, its forage or its queen's best rate, and of one whose strength was not
    /// seen that cannot be said.
    pub fn leading(&self) -> Option<&Likely> {
        let matters = |cause: Cause| match self.standing.word {
            Word::Ahead | Word::InStep | Word::Untold => {
                matches!(cause, Cause::NoQueen | Cause::Mites)
            }
            Word::Behind | Word::FarBehind | Word::Lost => true,
            Word::AtOdds => false,
        };
        let mut likely = self.causes.iter().filter(|it| matters(it.cause));
        likely.next().filter(|it| it.probability > self.sound)
    }
}

/// What the visits say of an unknown: its multiplier before and after.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Learned {
    /// Which.
    pub unknown: Unknown,
    /// In words.
    pub what: &'static str,
    /// Before the visits.
    pub before: Spread,
    /// After them.
    pub after: Spread,
}

/// How a verdict is worked out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effort {
    /// Members of the ensemble.
    pub members: u32,
    /// Rounds of other lives after each resampling.
    pub rounds: u32,
}

impl Default for Effort {
    fn default() -> Self {
        Self {
            members: 2000,
            rounds: 1,
        }
    }
}

impl Effort {
    /// The filter's settings.
    pub fn settings(self, seed: u32) -> Settings {
        Settings {
            members: self.members,
            rounds: self.rounds,
            // Apart from the streams of the members themselves.
            seed: seed ^ 0x85EB_CA6B,
            keep: 0.5,
        }
    }
}

/// The verdict on a hive after its visits, at least one, sifted before
/// ([`sift`](crate::visits::sift)).
///
/// # Errors
/// No visit, or none of which anything could be judged; a day that does not add up.
pub fn judge<H: Hands>(
    scenario: &Scenario,
    peers: &Peers,
    hive: &str,
    (visits, aside): (&[Visit], Vec<Aside>),
    effort: Effort,
    hands: &H,
) -> Result<Verdict, Error> {
    let Some(last) = visits.last() else {
        let said = Saying::new(|words| words.problems.no_visit);
        return Err(Error::said("", because(said, aside)));
    };
    let read = |place| !at_visit(visits, place, &peers.season().parameters.visits).is_empty();
    if !(0..visits.len()).any(read) {
        return Err(Error::said("", because(nothing_read(), aside)));
    }
    let conditioned = condition(peers, visits, effort, hands)?;
    let day = Hive::new(peers, visits).days[visits.len() - 1];
    let before = peers_until(peers, effort.members, day, hands)?;

    let now = conditioned.candidates.iter().map(|it| &it.member);
    let (causes, sound) = rank(now.clone(), before.members.iter());
    let sizes: Vec<Size> = now.clone().map(size).collect();
    let mut standing = Standing::of(&sizes, &before.sizes, &before.medians, day);
    if standing.word != Word::Lost && !strength_was_seen(peers, visits) {
        standing = standing.untold();
    }
    let here: Vec<&Member> = now.clone().collect();
    let then: Vec<&Member> = before.members.iter().collect();
    let alarms = alarms::of(peers, visits, (&here, &then), day)?;
    for alarm in &alarms {
        match alarm.what {
            Alarming::Lost { .. } => standing.word = Word::Lost,
            Alarming::AtOdds { .. } => standing.word = Word::AtOdds,
            _ => {}
        }
    }
    let cells_unknown = cells_unknown(&alarms, visits, &conditioned);
    let unknowns = learned(now.clone(), &before.members);
    let warnings = fitting::warnings(&conditioned, visits);

    let last_day = peers.days() - 1;
    let mut days: Vec<usize> = (day..=last_day).step_by(7).collect();
    if days.last() != Some(&last_day) {
        days.push(last_day);
    }
    let members: Vec<Member> = now.cloned().collect();
    let paths: Vec<Path> = Path::of_all(peers, &members, &days, hands)?
        .into_iter()
        .map(|walked| walked.path)
        .collect();
    let mut forecast = Bands::of(scenario, peers, &days, &paths);
    if cells_unknown.is_some() {
        let of_cells = |risk: &Risk| matches!(risk.name, "swarm" | "lost" | "no_queen");
        forecast.risks.retain(|risk| !of_cells(risk));
    }
    Ok(Verdict {
        version: VERSION,
        scenario: scenario.name.clone(),
        scenario_digest: scenario_digest(scenario),
        hive: hive.to_owned(),
        seed: peers.seed(),
        members: effort.members,
        date: last.date,
        visits: visits.len(),
        aside,
        standing,
        alarms,
        causes,
        sound,
        unfit: unfit::of(&conditioned.seen, visits, &peers.season().parameters.visits),
        log_likelihood: conditioned
            .steps
            .iter()
            .map(|step| step.log_likelihood)
            .sum(),
        steps: conditioned.steps,
        seen: conditioned.seen,
        unknowns,
        cells_unknown,
        warnings,
        forecast,
    })
}

/// What is set aside, visit by visit, as the reason of a fault.
fn because(said: Saying, aside: Vec<Aside>) -> Saying {
    aside.into_iter().fold(said, |said, aside| {
        said.and(|words| words.problems.no_visit_why)
            .count("visit", aside.visit)
            .date("date", aside.date.0)
            .said("why", aside.placed())
    })
}

/// That most of the colonies that fit had no queen cells when some were found, where it is so. They are weighed like everything
/// that is found; but where hardly a colony raises any, those without them that are taken to show some are more.
fn cells_unknown(alarms: &[Alarm], visits: &[Visit], found: &Conditioned) -> Option<Saying> {
    let is_of_cells = |alarm: &&Alarm| matches!(alarm.what, Alarming::QueenCells { .. });
    let date = alarms.iter().find(is_of_cells)?.date;
    let place = visits.iter().position(|visit| visit.date == date)?;
    let has_cells = |candidate: &&Candidate| {
        let shown = &candidate.shown[place];
        shown.charged || shown.capped
    };
    let (count, all) = (
        found.candidates.iter().filter(has_cells).count(),
        found.candidates.len(),
    );
    let said = |words: &'static crate::words::Words| words.verdict.cells_unknown;
    (2 * count < all).then(|| Saying::new(said).said("colonies", alarms::counted_of(count, all)))
}

/// Whether any visit read something that tells how strong the colony is.
fn strength_was_seen(peers: &Peers, visits: &[Visit]) -> bool {
    let read = |place| at_visit(visits, place, &peers.season().parameters.visits);
    (0..visits.len())
        .flat_map(read)
        .any(|reading| reading.what.tells_strength())
}

/// Visits with notes alone say nothing of a colony; nor does its first weighing.
fn nothing_read() -> Saying {
    Saying::new(|words| words.problems.nothing_read)
}

/// The peers on a day, and the median peer's strength day by day.
struct Before {
    members: Vec<Member>,
    sizes: Vec<Size>,
    medians: Vec<f64>,
}

fn size(member: &Member) -> Size {
    let stock = &member.walk.colony.stock;
    Size {
        bees: stock.adults.adults(),
        brood: stock.worker_brood(),
    }
}

/// Lets the ensemble live without any visit.
fn peers_until<H: Hands>(
    peers: &Peers,
    count: u32,
    day: usize,
    hands: &H,
) -> Result<Before, Error> {
    let until = peers.days().min(day + LOOK_AHEAD);
    let lives = hands.make(count as usize, |number| {
        let mut member = peers.member(number as u32)?;
        // Strength on the morning of each day, the first included.
        let strength = |stock: &crate::colony::Stock| stock.adults.adults() + stock.worker_brood();
        let mut strengths = vec![strength(&member.walk.colony.stock)];
        peers.advance(&mut member, day, |_, colony, _, _| {
            strengths.push(strength(&colony.stock));
        })?;
        let mut later = member.clone();
        peers.advance(&mut later, until, |_, colony, _, _| {
            strengths.push(strength(&colony.stock));
        })?;
        Ok((member, strengths))
    });
    let lives: Result<Vec<(Member, Vec<f64>)>, Error> = lives.into_iter().collect();
    let (members, strengths): (Vec<Member>, Vec<Vec<f64>>) = lives?.into_iter().unzip();
    let medians = (0..=until)
        .map(|day| {
            let mut today: Vec<f64> = strengths.iter().map(|life| life[day]).collect();
            order::numbers(&mut today);
            quantile(&today, 0.5)
        })
        .collect();
    Ok(Before {
        sizes: members.iter().map(size).collect(),
        members,
        medians,
    })
}

fn learned<'m>(now: impl Iterator<Item = &'m Member> + Clone, before: &[Member]) -> Vec<Learned> {
    let value = |member: &Member, unknown: Unknown| {
        unknown.value(member.unknowns[unknown as usize], &member.parameters.priors)
    };
    Unknown::ALL
        .iter()
        .map(|&unknown| {
            let mut then: Vec<f64> = before.iter().map(|member| value(member, unknown)).collect();
            let mut after: Vec<f64> = now.clone().map(|member| value(member, unknown)).collect();
            Learned {
                unknown,
                what: unknown.words(Language::English),
                before: Spread::of(&mut then),
                after: Spread::of(&mut after),
            }
        })
        .collect()
}

/// A date of the season.
pub fn date_of(peers: &Peers, day: usize) -> CalendarDate {
    CalendarDate(plus_days(peers.season().first, day as i32))
}
