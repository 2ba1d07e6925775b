//! Many colonies of one start and weather: a worker's share of them, their bands, the verdict on a hive's visits, and what to do next.

use std::sync::atomic::{AtomicU32, Ordering};

use combcast_core::agenda::{Agenda, Asked, agenda};
use combcast_core::calendar::{CalendarDate, days_between, parse_date};
use combcast_core::ensemble::{Alone, Bands, Hands, Path, Peers, Spread, looked_at};
use combcast_core::search::{self, Search};
use combcast_core::verdict::{Effort, Verdict, judge};
use combcast_core::visits::{Aside, Visit, VisitBook, sift};
use combcast_core::{Error, Scenario};
use js_sys::{Float64Array, Function};
use serde::Serialize;
use wasm_bindgen::prelude::*;

use crate::outcome::set;
use crate::search::Wishes;
use crate::to_js;

/// Most members that are asked of a browser.
const MOST_MEMBERS: u32 = 10_000;
/// Weeks for which visits are listed.
const WEEKS: u32 = 4;
/// Plans that a search shows.
const BEST: usize = 3;

/// The colonies of one scenario, made ready once.
#[derive(Debug)]
pub struct Crowd {
    scenario: Scenario,
    peers: Peers,
    /// Days that are looked at, counted from 0.
    days: Vec<usize>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Facts<'a> {
    members: usize,
    weathers: usize,
    /// On 100 bees at the start, where the plan does not say.
    assumed_mites: Option<f64>,
    dates: Vec<CalendarDate>,
    measures: Vec<&'static str>,
    thresholds: &'a [combcast_core::ensemble::Passed],
    risks: &'a [combcast_core::ensemble::Risk],
}

impl Crowd {
    /// Makes a scenario ready; every `every`th day is looked at, the last, and those around its moves.
    pub fn new(scenario: Scenario, peers: Peers, every: u32) -> Self {
        let days = looked_at(&scenario, peers.days() - 1, every as usize);
        Self {
            scenario,
            peers,
            days,
        }
    }

    /// The paths of the members `from` up to `to` as numbers, one path behind the other.
    pub fn share(&self, from: u32, to: u32) -> Result<Float64Array, Error> {
        check_size(to)?;
        let mut numbers = Vec::new();
        for number in from..to {
            let mut member = self.peers.member(number)?;
            Path::of(&self.peers, &mut member, &self.days)?.pack(&mut numbers);
        }
        Ok(Float64Array::from(&numbers[..]))
    }

    /// The bands of all shares in the order of their members: facts, and `values`, for each measure the 5, 25, 50, 75
    /// and 95 % lines over the dates.
    pub fn bands(&self, shares: &[f64]) -> Result<JsValue, JsValue> {
        let paths = Path::unpack(shares, self.days.len()).map_err(crate::problem::thrown)?;
        let bands = Bands::of(&self.scenario, &self.peers, &self.days, &paths);
        let measures = bands.dates.first().map_or(&[][..], |there| &there.measures);
        let object = to_js(&Facts {
            members: bands.members,
            weathers: bands.weathers,
            assumed_mites: (bands.assumed_mites.as_ref()).map(|assumed| assumed.per_100_bees),
            dates: bands.dates.iter().map(|there| there.date).collect(),
            measures: measures.iter().map(|known| known.name).collect(),
            thresholds: &bands.thresholds,
            risks: &bands.risks,
        });
        let lines: [fn(&Spread) -> f64; 5] = [
            |spread| spread.q05,
            |spread| spread.q25,
            |spread| spread.median,
            |spread| spread.q75,
            |spread| spread.q95,
        ];
        let mut values = Vec::new();
        for measure in 0..measures.len() {
            for line in lines {
                let dates = bands.dates.iter();
                values.extend(dates.map(|there| line(&there.measures[measure].spread)));
            }
        }
        set(&object, "values", &Float64Array::from(&values[..]))?;
        Ok(object)
    }

    /// The verdict on a hive's visits; `progress` is told now and then how many lives were lived.
    pub fn verdict(
        &self,
        book: &VisitBook,
        today: Option<&str>,
        members: u32,
        progress: &Function,
    ) -> Result<Verdict, Error> {
        let today = today.map(|today| date_of("today", today)).transpose()?;
        let (visits, aside) = self.sifted(book, today)?;
        let (effort, counting) = (effort(members)?, Counting::new(progress));
        judge(
            &self.scenario,
            &self.peers,
            &book.hive,
            (&visits, aside),
            effort,
            &counting,
        )
    }

    /// What to do next, after a hive's visits or, without any, with a colony of this start; from `on` or the last visit.
    /// `today`: the date in Greenwich.
    pub fn next(
        &self,
        book: &VisitBook,
        on: Option<CalendarDate>,
        today: CalendarDate,
        members: u32,
        progress: &Function,
    ) -> Result<Agenda, Error> {
        let (visits, aside) = self.sifted(book, Some(today))?;
        if visits.is_empty()
            && let Some(aside) = aside.first()
        {
            let message = format!("no visit can be used: {}", aside.reason);
            return Err(Error::scenario("visit", message));
        }
        let asked = Asked {
            scenario: &self.scenario,
            peers: &self.peers,
            hive: &book.hive,
            visits: &visits,
            on: on.map(|date| date.0),
            weeks: WEEKS,
            effort: effort(members)?,
        };
        agenda(asked, &Counting::new(progress))
    }

    /// Begins a search for the best plans within limits, after a hive's visits or, without any, with a colony of this start;
    /// from `on` or the last visit. `today`: the date in Greenwich.
    pub fn begin_search(
        &self,
        book: &VisitBook,
        wishes: &Wishes,
        (on, today): (Option<CalendarDate>, CalendarDate),
        members: u32,
    ) -> Result<Search, Error> {
        let (visits, _) = self.sifted(book, Some(today))?;
        let (goals, limits) = (wishes.goals()?, wishes.limits()?);
        let asked = search::Asked {
            scenario: &self.scenario,
            peers: &self.peers,
            hive: &book.hive,
            visits: &visits,
            on: on.map(|date| date.0),
            goals: &goals,
            limits: &limits,
            best: BEST,
            effort: effort(members)?,
        };
        Search::begin(asked, &Alone)
    }

    /// The visits that can be used, and what is set aside.
    fn sifted(
        &self,
        book: &VisitBook,
        today: Option<CalendarDate>,
    ) -> Result<(Vec<Visit>, Vec<Aside>), Error> {
        let (first, last) = (self.scenario.start.date.0, self.scenario.until.0);
        let frames = self.peers.frames_by_day()?;
        let frames_in_hive = |day| {
            let day = days_between(first, day).max(0) as usize;
            frames[day.min(frames.len() - 1)]
        };
        let today = today.map(|date| date.0);
        Ok(sift(book, (first, last), today, &frames_in_hive))
    }
}

pub fn date_of(place: &str, iso: &str) -> Result<CalendarDate, Error> {
    parse_date(iso).map_err(|reason| Error::scenario(place, reason))
}

fn effort(members: u32) -> Result<Effort, Error> {
    check_size(members)?;
    Ok(Effort {
        members,
        ..Effort::default()
    })
}

fn check_size(members: u32) -> Result<(), Error> {
    if (1..=MOST_MEMBERS).contains(&members) {
        return Ok(());
    }
    Err(Error::scenario(
        "members",
        format!("expected 1 to {MOST_MEMBERS} members, got {members}"),
    ))
}

/// One life after the other, telling how many there were.
struct Counting<'a> {
    tell: Tell<'a>,
    lived: AtomicU32,
}

impl<'a> Counting<'a> {
    fn new(progress: &'a Function) -> Self {
        Self {
            tell: Tell(progress),
            lived: AtomicU32::new(0),
        }
    }
}

/// A function of the page. A module of the page has one thread: nothing is ever shared.
struct Tell<'a>(&'a Function);

/// Lives between two words of progress.
const BETWEEN: u32 = 100;

impl Hands for Counting<'_> {
    fn each<T: Send, F: Fn(usize, &mut T) + Sync + Send>(&self, items: &mut [T], work: F) {
        for (index, item) in items.iter_mut().enumerate() {
            work(index, item);
            let lived = self.lived.fetch_add(1, Ordering::Relaxed) + 1;
            if lived.is_multiple_of(BETWEEN) {
                // Who does not listen misses nothing.
                let _ = self.tell.0.call1(&JsValue::NULL, &lived.into());
            }
        }
    }
}
