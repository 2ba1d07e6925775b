//! A plan and its twin: two seasons on the same luck and the same weather, and what lies between them.
//!
//! Both seasons of a member draw from the same keyed streams (see [`rng`](crate::rng)), by date, so
//! that a difference comes from the plan and not from the dice. Weather that is drawn by the
//! generator is the same for both as well and another for each member; measured days are the same
//! for all. No thread is started here: a caller runs [`Pair::member`] wherever it likes and hands
//! the members to [`Comparison::of`] in the order of their numbers.

use jiff::civil::Date;
use serde::Serialize;

use crate::Error;
use crate::calendar::{CalendarDate, days_between, plus_days};
use crate::document::{VERSION, scenario_digest};
use crate::draw::{Draw, Mean, Random};
use crate::ensemble::{Spread, Tally};
use crate::observe::{DayRecord, record};
use crate::order;
use crate::scenario::{Mode, Scenario};
use crate::season::{Prepared, prepare};
use crate::weather::{self, Report, Weather};
use crate::words::Saying;

/// What is compared.
#[derive(Debug, Clone, Copy)]
pub struct Measure {
    /// Name in files.
    pub name: &'static str,
    /// A short label for people.
    pub label: &'static str,
    /// Unit.
    pub unit: &'static str,
    /// Whether more of it is better.
    pub more_is_better: bool,
    of: fn(&DayRecord) -> f64,
}

impl Measure {
    /// What it is on a day.
    pub fn value(&self, day: &DayRecord) -> f64 {
        (self.of)(day)
    }
}

/// Everything that is compared, in order; the first are the bees.
pub const MEASURES: [Measure; 6] = [
    Measure {
        name: "bees",
        label: "adult workers",
        unit: "bees",
        more_is_better: true,
        of: |day| day.adult_bees,
    },
    Measure {
        name: "brood_frames",
        label: "frames of worker brood",
        unit: "frames",
        more_is_better: true,
        of: |day| day.frames_of_brood,
    },
    Measure {
        name: "drawn_frames",
        label: "frames of drawn comb",
        unit: "frames",
        more_is_better: true,
        of: |day| day.drawn_frames,
    },
    Measure {
        name: "honey_kg",
        label: "ripe honey in the comb",
        unit: "kg",
        more_is_better: true,
        of: |day| day.honey_kg,
    },
    Measure {
        name: "mites",
        label: "mites on bees and in capped cells",
        unit: "mites",
        more_is_better: false,
        of: |day| day.mites_on_bees + day.mites_in_cells,
    },
    Measure {
        name: "mites_per_100_bees",
        label: "mites on 100 adult bees",
        unit: "mites",
        more_is_better: false,
        of: |day| day.mites_per_100_bees,
    },
];

/// Every measure of one colony at one nightfall, in the order of [`MEASURES`].
pub type Values = [f64; MEASURES.len()];

/// What comes first in the place of an error that is the twin's.
pub const TWIN: &str = "the twin";

/// Most numbers that an ensemble may keep: about half a gigabyte.
pub const MOST_NUMBERS: usize = 60_000_000;

/// One of the two: a scenario, and its record as read by [`weather::read_for`] where it names one.
#[derive(Debug, Clone, Copy)]
pub struct Side<'a> {
    /// The plan.
    pub scenario: &'a Scenario,
    /// The weather record.
    pub record: Option<(&'a Weather, &'a Report)>,
}

impl Side<'_> {
    /// Lays the weather of a member; also whether any of it was drawn.
    fn weather(&self, seed: u32, member: u32) -> Result<(Weather, bool), Error> {
        let laid = |scenario: &Scenario| weather::lay(scenario, self.record, member);
        let (weather, report) = if self.scenario.seed == seed {
            laid(self.scenario)?
        } else {
            let mut scenario = self.scenario.clone();
            scenario.seed = seed;
            laid(&scenario)?
        };
        let drawn = report.season.is_some_and(|days| days.generated > 0);
        Ok((weather, drawn))
    }
}

/// Whether both scenarios ask for the same run of weather.
fn same_weather(plan: &Scenario, twin: &Scenario) -> bool {
    plan.weather == twin.weather
        && plan.place.latitude == twin.place.latitude
        && plan.start.date == twin.start.date
        && plan.until == twin.until
}

/// A plan and its twin, ready to run, and the dates on which they are looked at.
///
/// The twin takes the plan's seed and, by date, its luck.
#[derive(Debug, Clone)]
pub struct Pair<'a> {
    plan: Side<'a>,
    twin: Side<'a>,
    dates: Vec<Date>,
    /// The two seasons of member 0, and of every member where no weather is drawn.
    ready: [Prepared; 2],
    drawn_weather: bool,
    /// Whether one run of weather does for both.
    one_weather: bool,
}

/// Both seasons of one member, on each date that is looked at.
#[derive(Debug, Clone, PartialEq)]
pub struct Member {
    /// The plan's numbers.
    pub plan: Vec<Values>,
    /// The twin's numbers.
    pub twin: Vec<Values>,
}

impl<'a> Pair<'a> {
    /// Makes a pair ready, looking at it on every `every`th day that both seasons have, on the last
    /// of them, and on the dates in `on`.
    ///
    /// # Errors
    /// A scenario that cannot be run, seasons without a day in common, a date outside of them.
    pub fn new(plan: Side<'a>, twin: Side<'a>, every: usize, on: &[Date]) -> Result<Self, Error> {
        let starts = [plan.scenario.start.date.0, twin.scenario.start.date.0];
        let first = starts[0].max(starts[1]);
        let last = plan.scenario.until.0.min(twin.scenario.until.0);
        let one_weather = same_weather(plan.scenario, twin.scenario) && plan.record == twin.record;
        let (ready, drawn_weather) = prepare_both(plan, twin, one_weather, 0)?;
        if last < first {
            return Err(Error::said(
                "",
                Saying::new(|words| words.problems.no_common_day)
                    .text("first", first)
                    .text("last", last),
            ));
        }
        if let Some(date) = on.iter().find(|date| **date < first || **date > last) {
            return Err(Error::scenario(
                "date",
                format!(
                    "expected a date from {first} to {last}, which both seasons have, got {date}"
                ),
            ));
        }
        let mut dates: Vec<Date> = (0..=days_between(first, last))
            .step_by(every.max(1))
            .map(|day| plus_days(first, day))
            .chain(on.iter().copied())
            .chain([last])
            .collect();
        order::by_key(&mut dates, |&date| CalendarDate(date).number());
        dates.dedup();
        Ok(Self {
            plan,
            twin,
            dates,
            ready,
            drawn_weather,
            one_weather,
        })
    }

    /// The dates on which the two are looked at, in order.
    pub fn dates(&self) -> &[Date] {
        &self.dates
    }

    /// Whether the members have weather of their own on some days.
    pub fn drawn_weather(&self) -> bool {
        self.drawn_weather
    }

    /// Refuses an ensemble whose numbers would not fit into memory.
    ///
    /// # Errors
    /// Says how many members would fit.
    pub fn check_size(&self, members: u32) -> Result<(), Error> {
        let each = self.dates.len() * MEASURES.len() * 2;
        let most = MOST_NUMBERS / each;
        if members >= 1 && members as usize <= most {
            return Ok(());
        }
        Err(Error::scenario(
            "members",
            format!(
                "expected 1 to {most} members with {} dates to look at, got {members}",
                self.dates.len()
            ),
        ))
    }

    /// Runs both seasons of one member, in whole animals.
    ///
    /// # Errors
    /// A day that does not add up: a fault of the program.
    pub fn member(&self, member: u32) -> Result<Member, Error> {
        let seed = self.plan.scenario.seed;
        let plan_start = self.plan.scenario.start.date;
        let twin_later = self.twin.scenario.start.date.days_since(plan_start);
        let mut draws = [
            Random::new(seed, member),
            Random::new(seed, member).starting_on(twin_later),
        ];
        if self.drawn_weather && member > 0 {
            let (ready, _) = prepare_both(self.plan, self.twin, self.one_weather, member)?;
            self.run(&ready, &mut draws)
        } else {
            self.run(&self.ready, &mut draws)
        }
    }

    /// Runs both seasons in expected values, in the weather of member 0.
    ///
    /// # Errors
    /// A day that does not add up: a fault of the program.
    pub fn mean(&self) -> Result<Member, Error> {
        self.run(&self.ready, &mut [Mean, Mean])
    }

    fn run<D: Draw>(&self, ready: &[Prepared; 2], draws: &mut [D; 2]) -> Result<Member, Error> {
        let [plan, twin] = ready;
        let [luck_of_plan, luck_of_twin] = draws;
        Ok(Member {
            plan: look(plan, luck_of_plan, &self.dates)?,
            twin: look(twin, luck_of_twin, &self.dates).map_err(|error| error.within(TWIN))?,
        })
    }
}

fn prepare_both(
    plan: Side,
    twin: Side,
    one_weather: bool,
    member: u32,
) -> Result<([Prepared; 2], bool), Error> {
    let of_twin = |error: Error| error.within(TWIN);
    let seed = plan.scenario.seed;
    let (weather, mut drawn) = plan.weather(seed, member)?;
    let ready_plan = prepare(plan.scenario, &weather)?;
    let ready_twin = if one_weather {
        prepare(twin.scenario, &weather)
    } else {
        let (weather, twin_drawn) = twin.weather(seed, member).map_err(of_twin)?;
        drawn |= twin_drawn;
        prepare(twin.scenario, &weather)
    };
    Ok(([ready_plan, ready_twin.map_err(of_twin)?], drawn))
}

/// Runs a season and writes down the measures on some dates, all of them inside of it.
fn look<D: Draw>(season: &Prepared, draw: &mut D, dates: &[Date]) -> Result<Vec<Values>, Error> {
    let mut seen = Vec::with_capacity(dates.len());
    let mut ahead = dates
        .iter()
        .map(|date| days_between(season.first, *date) as usize);
    let mut next = ahead.next();
    let mut day = 0;
    season.run_bare(draw, |colony, outcome| {
        if next == Some(day) {
            let conditions = &season.conditions[day];
            let today = record(day, colony, conditions, outcome, &season.parameters);
            seen.push(MEASURES.map(|measure| (measure.of)(&today)));
            next = ahead.next();
        }
        day += 1;
    })?;
    Ok(seen)
}

/// A plan and its twin over an ensemble.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Comparison {
    /// Version of the program.
    pub version: &'static str,
    /// Name of the plan.
    pub plan: String,
    /// Digest of the plan's scenario, 16 hexadecimal digits.
    pub plan_digest: String,
    /// Name of the twin.
    pub twin: String,
    /// Digest of the twin's scenario.
    pub twin_digest: String,
    /// The seed of both.
    pub seed: u32,
    /// Whole animals or expected values.
    pub mode: Mode,
    /// Number of members, each a season lived twice.
    pub members: usize,
    /// Whether the members have weather of their own on some days.
    pub drawn_weather: bool,
    /// The two on each date, in order.
    pub dates: Vec<OnDate>,
}

/// A plan and its twin on one date.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OnDate {
    /// The date.
    pub date: CalendarDate,
    /// Members in which the plan's colony is lost by then.
    pub plan_lost: usize,
    /// Members in which the twin's colony is lost by then.
    pub twin_lost: usize,
    /// Every measure, in the order of [`MEASURES`].
    pub measures: Vec<Compared>,
}

/// One measure on one date.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Compared {
    /// Name of the measure.
    pub name: &'static str,
    /// Unit.
    pub unit: &'static str,
    /// Over the plan's seasons.
    pub plan: Spread,
    /// Over the twin's seasons.
    pub twin: Spread,
    /// Plan less twin, member by member.
    pub difference: Spread,
    /// In how many members the plan is the better.
    pub better: Tally,
    /// Probability that the plan is the better.
    pub probability: f64,
    /// Its standard error; see [`Tally::standard_error`].
    pub probability_error: f64,
}

impl Comparison {
    /// Brings the members of an ensemble together, in the order of their numbers.
    ///
    /// # Errors
    /// That of the first member that has one; no member at all.
    pub fn of(
        pair: &Pair,
        mode: Mode,
        members: impl IntoIterator<Item = Result<Member, Error>>,
    ) -> Result<Self, Error> {
        let members = members.into_iter().collect::<Result<Vec<_>, _>>()?;
        if members.is_empty() {
            return Err(Error::scenario("members", "expected at least one member"));
        }
        let dates = pair.dates.iter().enumerate();
        Ok(Self {
            version: VERSION,
            plan: pair.plan.scenario.name.clone(),
            plan_digest: scenario_digest(pair.plan.scenario),
            twin: pair.twin.scenario.name.clone(),
            twin_digest: scenario_digest(pair.twin.scenario),
            seed: pair.plan.scenario.seed,
            mode,
            members: members.len(),
            drawn_weather: pair.drawn_weather,
            dates: dates.map(|(k, date)| on_date(*date, k, &members)).collect(),
        })
    }

    /// The pair on a date that was looked at.
    pub fn on(&self, date: Date) -> Option<&OnDate> {
        self.dates.iter().find(|there| there.date.0 == date)
    }

    /// The date on which the number of bees differs most, in the mean.
    pub fn widest(&self) -> Option<&OnDate> {
        let gap = |there: &&OnDate| there.measures[0].difference.mean.abs();
        self.dates
            .iter()
            // The first of equals.
            .rev()
            .max_by(|a, b| gap(a).total_cmp(&gap(b)))
    }
}

fn on_date(date: Date, k: usize, members: &[Member]) -> OnDate {
    let lost = |side: fn(&Member) -> &[Values]| {
        members
            .iter()
            .filter(|member| side(member)[k][0] <= 0.0)
            .count()
    };
    OnDate {
        date: CalendarDate(date),
        plan_lost: lost(|member| &member.plan),
        twin_lost: lost(|member| &member.twin),
        measures: (0..MEASURES.len())
            .map(|m| compared(m, k, members))
            .collect(),
    }
}

fn compared(m: usize, k: usize, members: &[Member]) -> Compared {
    let measure = &MEASURES[m];
    let mut plan: Vec<f64> = members.iter().map(|member| member.plan[k][m]).collect();
    let mut twin: Vec<f64> = members.iter().map(|member| member.twin[k][m]).collect();
    let mut difference: Vec<f64> = plan
        .iter()
        .zip(&twin)
        .map(|(plan, twin)| plan - twin)
        .collect();
    let sign = if measure.more_is_better { 1.0 } else { -1.0 };
    let better = Tally::of(difference.iter().map(|difference| sign * difference));
    Compared {
        name: measure.name,
        unit: measure.unit,
        plan: Spread::of(&mut plan),
        twin: Spread::of(&mut twin),
        difference: Spread::of(&mut difference),
        better,
        probability: better.probability(),
        probability_error: better.standard_error(),
    }
}
