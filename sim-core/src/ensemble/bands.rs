//! Between which limits colonies lie, when they pass thresholds, and how often things happen to them.

use serde::Serialize;

use super::{Hands, Member, Peers, SoFar, Spread, quantile};
use crate::Error;
use crate::calendar::{CalendarDate, plus_days};
use crate::colony::Colony;
use crate::day::Outcome;
use crate::document::{VERSION, scenario_digest};
use crate::observe::record;
use crate::order;
use crate::priors::AssumedMites;
use crate::scenario::{Mode, Scenario};
use crate::twin::{MEASURES, Values};
use crate::words::Language;

/// What is passed once in a season: its name in files.
pub const THRESHOLDS: [&str; 6] = [
    "young_bees",
    "as_at_start",
    "next_box",
    "drones",
    "mites_2",
    "mites_3",
];

/// Place of the day on which there are as many bees as at the start again, among the [`THRESHOLDS`].
const AS_AT_START: usize = 1;

/// Place of the mites on 100 bees among the [`MEASURES`].
const MITES_PER_100: usize = 5;

/// Place of the honey among the [`MEASURES`]. A beekeeper who lifts a frame does not tell it from what is still unripe, nor
/// does what is read at a visit: bands have both together, as stores.
const STORES: usize = 3;

/// What can happen to a colony: its name in files. One that is lost is not counted among those without a laying queen.
pub const RISKS: [&str; 5] = ["swarm", "hunger", "mites_3", "lost", "no_queen"];

/// Fewest bees of which mites on 100 bees are told: less than a frame of them (2,430 on a deep one: Burgett & Burikam 1985,
/// from memory) is no colony to take 300 from for a wash. The last bees of a colony that goes under carry all of its mites.
pub const FEWEST_FOR_MITES: f64 = 2000.0;

/// Days of a season, counted from 0, to look at for bands that run straight between them: every so many, the `last`, and the day of
/// each move and the one before it, as bees come and go at once with a move.
pub fn looked_at(scenario: &Scenario, last: usize, every: usize) -> Vec<usize> {
    let start = scenario.start.date;
    let once = scenario.moves.iter().filter(|one| one.every_days.is_none());
    let dates = once.filter_map(|one| one.date);
    let of_moves = dates.filter_map(|date| usize::try_from(date.days_since(start)).ok());
    let around = of_moves.flat_map(|day| [day.saturating_sub(1), day]);
    let mut days: Vec<usize> = (0..last)
        .step_by(every.max(1))
        .chain(around.filter(|&day| day < last))
        .chain([last])
        .collect();
    days.sort_unstable();
    days.dedup();
    days
}

/// What one member came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// Measures on each day that was looked at, in the order of [`MEASURES`], stores in the place of honey; mites on 100 bees are no number where there are
    /// fewer than [`FEWEST_FOR_MITES`] bees.
    pub values: Vec<Values>,
    /// The day on which each of [`THRESHOLDS`] was passed, counted from 0.
    pub passed: [Option<usize>; THRESHOLDS.len()],
    /// Whether there were ever fewer bees than 95 % of those at the start: otherwise there is no way back to as many.
    pub fell: bool,
    /// Whether each of [`RISKS`] happened.
    pub happened: [bool; RISKS.len()],
}

/// A member on its way, and what it has come to.
#[derive(Debug, Clone)]
pub struct Walked {
    /// The member at the end.
    pub member: Member,
    /// Its path.
    pub path: Path,
}

impl Path {
    /// Lets a member live to the end of the season, and looks at it on `days` (counted from 0, in
    /// order, those before its next day left out).
    ///
    /// # Errors
    /// A day that does not add up: a fault of the program.
    pub fn of(peers: &Peers, member: &mut Member, days: &[usize]) -> Result<Self, Error> {
        let mut path = Self {
            values: Vec::with_capacity(days.len()),
            passed: [None; THRESHOLDS.len()],
            fell: false,
            happened: [false; RISKS.len()],
        };
        let began = member.walk.day;
        let at_start = member.walk.colony.stock.adults.adults();
        let parameters = member.parameters.clone();
        let mut ahead = days.iter().copied().skip_while(|day| *day < began);
        let mut next = ahead.next();
        let mut swarmed_before = member.so_far.swarmed;
        let mut hungry_before = member.so_far.hungry_days;
        let conditions = &peers.season().conditions;
        let see = |day: usize, colony: &Colony, outcome: &Outcome, so_far: &SoFar| {
            let bees = colony.stock.adults.adults();
            let told = bees >= FEWEST_FOR_MITES;
            let mites = if told {
                100.0 * colony.mites.on_bees / bees
            } else {
                0.0
            };
            // Of those that are walked from a later day the start is not known.
            path.fell |= began == 0 && bees < 0.95 * at_start;
            let [young, again, next_box, drones, mites_2, mites_3] = &mut path.passed;
            let pass = |place: &mut Option<usize>, is: bool| {
                if is && place.is_none() {
                    *place = Some(day);
                }
            };
            pass(young, outcome.ledger.emerged >= 1.0);
            pass(again, path.fell && bees >= at_start);
            if next_box.is_none() {
                pass(next_box, first_box_drawn(colony) >= 0.8);
            }
            pass(drones, colony.drones >= 30.0);
            pass(mites_2, mites >= 2.0);
            pass(mites_3, mites >= 3.0);
            let [swarm, hunger, many_mites, lost, _] = &mut path.happened;
            *swarm |= so_far.swarmed > swarmed_before;
            *hunger |= so_far.hungry_days > hungry_before;
            *many_mites |= mites >= 3.0;
            *lost |= !colony.alive;
            (swarmed_before, hungry_before) = (so_far.swarmed, so_far.hungry_days);
            if next == Some(day) {
                let today = record(day, colony, &conditions[day], outcome, &parameters);
                let mut values = MEASURES.map(|measure| measure.value(&today));
                values[STORES] += today.unripe_kg;
                if !told {
                    values[MITES_PER_100] = f64::NAN;
                }
                path.values.push(values);
                next = ahead.next();
            }
        };
        peers.advance(member, peers.days(), see)?;
        let colony = &member.walk.colony;
        path.happened[4] = colony.alive && colony.queen.state != crate::queen::QueenState::Laying;
        Ok(path)
    }

    /// The path as numbers, behind `numbers`: to be brought from wherever it was walked.
    pub fn pack(&self, numbers: &mut Vec<f64>) {
        numbers.extend(self.values.as_flattened());
        numbers.extend(
            self.passed
                .map(|day| day.map_or(f64::NAN, |day| day as f64)),
        );
        numbers.push(f64::from(u8::from(self.fell)));
        numbers.extend(self.happened.map(|it| f64::from(u8::from(it))));
    }

    /// Paths with `days` days looked at, from their numbers one behind the other.
    ///
    /// # Errors
    /// Numbers that are no whole number of paths.
    pub fn unpack(numbers: &[f64], days: usize) -> Result<Vec<Self>, Error> {
        const FIELDS: usize = MEASURES.len();
        let length = days * FIELDS + THRESHOLDS.len() + 1 + RISKS.len();
        if numbers.is_empty() || !numbers.len().is_multiple_of(length) {
            return Err(Error::scenario(
                "members",
                format!(
                    "expected paths of {length} numbers, got {} numbers",
                    numbers.len()
                ),
            ));
        }
        let paths = numbers.chunks_exact(length).map(|path| {
            let (values, rest) = path.split_at(days * FIELDS);
            let (passed, rest) = rest.split_at(THRESHOLDS.len());
            let (fell, happened) = rest.split_at(1);
            Self {
                values: values.as_chunks::<FIELDS>().0.to_vec(),
                passed: core::array::from_fn(|k| {
                    (!passed[k].is_nan()).then_some(passed[k] as usize)
                }),
                fell: fell[0] > 0.5,
                happened: core::array::from_fn(|k| happened[k] > 0.5),
            }
        });
        Ok(paths.collect())
    }

    /// The paths of many members from where they stand, by whoever does the work.
    ///
    /// # Errors
    /// The first member's that failed.
    pub fn of_all<H: Hands>(
        peers: &Peers,
        members: &[Member],
        days: &[usize],
        hands: &H,
    ) -> Result<Vec<Walked>, Error> {
        let walked = hands.make(members.len(), |place| {
            let mut member = members[place].clone();
            Self::of(peers, &mut member, days).map(|path| Walked { member, path })
        });
        walked.into_iter().collect()
    }
}

/// Share of the lowest box that is drawn.
fn first_box_drawn(colony: &Colony) -> f64 {
    let (drawn, room) = colony
        .frames
        .frames
        .iter()
        .filter(|frame| frame.in_box == 0)
        .fold((0.0, 0.0), |sum, frame| {
            (sum.0 + frame.drawn, sum.1 + frame.room)
        });
    if room > 0.0 { drawn / room } else { 0.0 }
}

/// Bands of an ensemble.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Bands {
    /// Version of the program.
    pub version: &'static str,
    /// Name of the scenario.
    pub scenario: String,
    /// Its digest, 16 hexadecimal digits.
    pub scenario_digest: String,
    /// The seed.
    pub seed: u32,
    /// Whether bees are expected numbers (queens' fates are chance in both) or whole animals.
    pub mode: Mode,
    /// Number of members.
    pub members: usize,
    /// Runs of weather among them; 1: all days are of a record.
    pub weathers: usize,
    /// Mites at the start that the scenario does not speak of.
    pub assumed_mites: Option<AssumedMites>,
    /// The bands on each date, in order.
    pub dates: Vec<OnDate>,
    /// When thresholds are passed. That there are as many bees as at the start again is left out where there never were fewer,
    /// and what was so from the first of the days on in most members.
    pub thresholds: Vec<Passed>,
    /// How often things happen.
    pub risks: Vec<Risk>,
}

/// The bands on a date, one for each of [`MEASURES`], with stores, ripe and unripe, in the place of honey.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OnDate {
    /// The date.
    pub date: CalendarDate,
    /// The bands.
    pub measures: Vec<Known>,
}

/// Between which limits a measure lies.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Known {
    /// Name of the measure.
    pub name: &'static str,
    /// Unit.
    pub unit: &'static str,
    /// The band.
    #[serde(flatten)]
    pub spread: Spread,
}

/// When a threshold is passed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Passed {
    /// Name of the threshold.
    pub name: &'static str,
    /// The threshold in words.
    pub what: &'static str,
    /// Share of the members that pass it in the season.
    pub share: f64,
    /// Of those, 5 % pass it before this date.
    pub early: Option<CalendarDate>,
    /// Half of them.
    pub median: Option<CalendarDate>,
    /// 5 % of them pass it after this date.
    pub late: Option<CalendarDate>,
}

/// How often something happens.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Risk {
    /// Name.
    pub name: &'static str,
    /// In words.
    pub what: &'static str,
    /// In how many members.
    pub members: usize,
    /// Their share.
    pub chance: f64,
}

impl Bands {
    /// The bands of paths on `days`, all of them looked at on the same days.
    pub fn of(scenario: &Scenario, peers: &Peers, days: &[usize], paths: &[Path]) -> Self {
        let date = |day: f64| CalendarDate(plus_days(peers.season().first, day as i32));
        let dates = days
            .iter()
            .enumerate()
            .map(|(place, day)| OnDate {
                date: date(*day as f64),
                measures: MEASURES
                    .iter()
                    .enumerate()
                    .map(|(k, measure)| {
                        let values = paths.iter().map(|path| path.values[place][k]);
                        let mut values: Vec<f64> = values.filter(|value| !value.is_nan()).collect();
                        if values.is_empty() {
                            values.push(0.0);
                        }
                        Known {
                            name: if k == STORES {
                                "stores_kg"
                            } else {
                                measure.name
                            },
                            unit: measure.unit,
                            spread: Spread::of(&mut values),
                        }
                    })
                    .collect(),
            })
            .collect();
        let count = paths.len() as f64;
        let words = &Language::English.words().verdict;
        let thresholds = THRESHOLDS
            .iter()
            .enumerate()
            .filter(|(k, _)| *k != AS_AT_START || paths.iter().any(|path| path.fell))
            .filter(|(k, _)| {
                let at_once = |path: &&Path| path.passed[*k].is_some_and(|day| day <= days[0]);
                2 * paths.iter().filter(at_once).count() <= paths.len()
            })
            .map(|(k, &name)| {
                let mut passed: Vec<f64> = paths
                    .iter()
                    .filter_map(|path| path.passed[k].map(|day| day as f64))
                    .collect();
                order::numbers(&mut passed);
                let at = |share| {
                    (!passed.is_empty()).then(|| date(libm::round(quantile(&passed, share))))
                };
                Passed {
                    name,
                    what: words.thresholds[k],
                    share: passed.len() as f64 / count,
                    early: at(0.05),
                    median: at(0.5),
                    late: at(0.95),
                }
            })
            .collect();
        let risks = RISKS
            .iter()
            .enumerate()
            .map(|(k, &name)| {
                let members = paths.iter().filter(|path| path.happened[k]).count();
                Risk {
                    name,
                    what: words.risks[k],
                    members,
                    chance: members as f64 / count,
                }
            })
            .collect();
        Self {
            version: VERSION,
            scenario: scenario.name.clone(),
            scenario_digest: scenario_digest(scenario),
            seed: peers.seed(),
            mode: peers.mode(),
            members: paths.len(),
            weathers: peers.weathers(),
            assumed_mites: peers.assumed_mites(),
            dates,
            thresholds,
            risks,
        }
    }

    /// Puts its words into a language; they are made in English.
    pub fn spoken(&mut self, language: Language) {
        let words = &language.words().verdict;
        for passed in &mut self.thresholds {
            if let Some(k) = THRESHOLDS.iter().position(|name| *name == passed.name) {
                passed.what = words.thresholds[k];
            }
        }
        for risk in &mut self.risks {
            if let Some(k) = RISKS.iter().position(|name| *name == risk.name) {
                risk.what = words.risks[k];
            }
        }
        if let Some(assumed) = &mut self.assumed_mites {
            assumed.text.spoken(language.into());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ensemble::{Alone, Luck};
    use crate::priors::{COUNT, Unknown};

    #[test]
    fn the_last_bees_of_a_colony_are_not_washed_for_mites() {
        assert_eq!(MEASURES[MITES_PER_100].name, "mites_per_100_bees");
        assert_eq!(MEASURES[STORES].name, "honey_kg");
        // Fed packages without a queen: they dwindle to the last bee.
        let scenario = Scenario::from_toml(
            "name = \"Without a queen\"
            until = 2012-10-31
            place = { name = \"Alder Row\", latitude = 47.45, elevation_m = 130, forage = \"mixed\" }
            weather = { place_type = \"oceanic\" }
            start = { date = 2012-05-01, package = { pounds = 3 }, mites_per_100_bees = 3 }
            hive = { box = [{ frames = 10, comb = \"foundation\" }] }
            feed = [{ from = 2012-05-01, to = 2012-06-17, kind = \"1:1\", jars = 4, every_days = 5 }]",
        )
        .expect("a scenario");
        let peers = Peers::new(&scenario, None).expect("a season");
        let mut unknowns = [0.0; COUNT];
        let dead = Unknown::Queen.middle_of_nothing(&peers.season().parameters.priors);
        unknowns[Unknown::Queen as usize] = dead.expect("packages can be without a queen");
        let days: Vec<usize> = (0..peers.days()).collect();
        let members: Vec<Member> = (0..5)
            .map(|key| peers.with(unknowns, Luck::of(key)).expect("a member"))
            .collect();
        let walked = Path::of_all(&peers, &members, &days, &Alone).expect("paths");
        let paths: Vec<Path> = walked.into_iter().map(|walked| walked.path).collect();
        let few = |values: &Values| values[0] < FEWEST_FOR_MITES;
        let all = || paths.iter().flat_map(|path| &path.values);
        assert!(all().any(|values| few(values) && values[0] > 1.0));
        assert!(all().all(|values| few(values) == values[MITES_PER_100].is_nan()));
        // Without a queen all are lost in the end: none of them counts among those that live without one.
        let [lost, no_queen] =
            [3, 4].map(|risk| paths.iter().filter(|path| path.happened[risk]).count());
        assert_eq!([lost, no_queen], [paths.len(), 0]);
        let bands = Bands::of(&scenario, &peers, &days, &paths);
        for there in &bands.dates {
            let mites = there.measures[MITES_PER_100].spread;
            assert!(mites.q95.is_finite(), "{}: {mites:?}", there.date);
        }
    }

    #[test]
    fn only_who_had_fewer_bees_comes_back_to_as_many() {
        let scenario = Scenario::from_toml(
            "name = \"A package\"
            until = 2012-07-31
            place = { name = \"Alder Row\", latitude = 47.45, forage = \"mixed\" }
            weather = { place_type = \"oceanic\" }
            start = { date = 2012-05-01, package = { pounds = 3 }, mites_per_100_bees = 0 }
            hive = { box = [{ frames = 10, comb = \"drawn\" }] }",
        )
        .expect("a scenario");
        let peers = Peers::new(&scenario, None).expect("a season");
        let path = |fell: bool, day: Option<usize>| Path {
            values: vec![[9000.0, 1.0, 2.0, 3.0, 4.0, 5.0]],
            passed: [None, day, None, None, None, None],
            fell,
            happened: [false; RISKS.len()],
        };
        let again = |paths: &[Path], language: Language| {
            let mut bands = Bands::of(&scenario, &peers, &[0], paths);
            bands.spoken(language);
            let row = bands
                .thresholds
                .iter()
                .find(|passed| passed.name == "as_at_start");
            let drones = bands
                .thresholds
                .iter()
                .find(|passed| passed.name == "drones");
            let words = &language.words().verdict;
            assert_eq!(drones.expect("a row").what, words.thresholds[3]);
            row.copied()
        };
        for language in Language::ALL {
            assert_eq!(
                again(&[path(false, None), path(false, None)], language),
                None
            );
            let row = again(&[path(false, None), path(true, Some(40))], language).expect("a row");
            assert_eq!(
                (row.share, row.what),
                (0.5, language.words().verdict.thresholds[1])
            );
            let never = again(&[path(true, None)], language).expect("a row");
            assert_eq!(never.share, 0.0);
        }
        // A package dwindles before its brood emerges.
        let mut member = peers.member(0).expect("a member");
        assert!(Path::of(&peers, &mut member, &[0]).expect("a path").fell);
    }

    #[test]
    fn what_was_so_from_the_start_in_most_colonies_is_passed_by_none() {
        let scenario = Scenario::from_toml(
            "name = \"An established colony\"
            until = 2012-05-31
            place = { name = \"Alder Row\", latitude = 47.45, forage = \"mixed\" }
            weather = { place_type = \"oceanic\" }
            start = { date = 2012-05-01, established = { frames_of_bees = 6, frames_of_brood = 4, honey_kg = 12, pollen_kg = 0.5 }, mites_per_100_bees = 0 }
            hive = { box = [{ frames = 10, comb = \"drawn\" }] }",
        )
        .expect("a scenario");
        let peers = Peers::new(&scenario, None).expect("a season");
        let members = [peers.member(0).expect("a member")];
        let walked = Path::of_all(&peers, &members, &[0], &Alone).expect("paths");
        let colony = &walked[0].path;
        assert_eq!([colony.passed[0], colony.passed[2]], [Some(0), Some(0)]);
        let later = Path {
            passed: [Some(9); THRESHOLDS.len()],
            ..colony.clone()
        };
        let row = |paths: &[&Path]| {
            let paths: Vec<Path> = paths.iter().copied().cloned().collect();
            let bands = Bands::of(&scenario, &peers, &[0], &paths);
            let young = |passed: &&Passed| passed.name == "young_bees";
            bands.thresholds.iter().find(young).copied()
        };
        assert_eq!(row(&[colony, colony, &later]), None);
        let early = row(&[colony, &later, &later]).and_then(|row| row.early);
        assert!(early.is_some_and(|early| early < scenario.until));
    }

    #[test]
    fn a_path_comes_back_from_its_numbers() {
        let path = |bees: f64, day: Option<usize>| Path {
            values: vec![
                [bees, 1.0, 2.0, 3.0, 4.0, 5.0],
                [bees + 1.0, 0.0, 0.5, 0.0, 0.0, 0.0],
            ],
            passed: [day, None, Some(0), None, None, Some(7)],
            fell: day.is_none(),
            happened: [true, false, false, true, false],
        };
        let paths = [path(9000.5, Some(21)), path(0.0, None)];
        let mut numbers = Vec::new();
        paths.iter().for_each(|path| path.pack(&mut numbers));
        assert_eq!(Path::unpack(&numbers, 2).unwrap(), paths);
        assert!(Path::unpack(&numbers[1..], 2).is_err());
        assert!(Path::unpack(&[], 2).is_err());
    }
}
