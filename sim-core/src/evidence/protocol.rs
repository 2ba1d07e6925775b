//! The seasons that the checks run: trials as the publications describe them, on real weather.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::Error;
use crate::adults::Marked;
use crate::calendar::CalendarDate;
use crate::colony::Colony;
use crate::day::Outcome;
use crate::draw::Mean;
use crate::scenario::{
    Action, BoxSize, Comb, Established, Feed, FeedKind, ForageType, Hive, HiveBox, Move, Package,
    Place, Scenario, Start, WeatherSource,
};
use crate::season::{Prepared, Season, prepare};
use crate::weather::{self, Report, Weather};

/// A place with its weather.
#[derive(Debug, Clone)]
pub struct Site<'a> {
    /// Name of the record.
    pub name: &'static str,
    /// Ends the ids of its rows.
    pub mark: &'static str,
    latitude: f64,
    elevation_m: f64,
    forage: ForageType,
    record: &'a (Weather, Report),
    parameters: &'a BTreeMap<String, f64>,
}

impl<'a> Site<'a> {
    pub fn new(
        name: &'static str,
        mark: &'static str,
        latitude: f64,
        elevation_m: f64,
        record: &'a (Weather, Report),
        parameters: &'a BTreeMap<String, f64>,
    ) -> Self {
        Self {
            name,
            mark,
            latitude,
            elevation_m,
            forage: ForageType::default(),
            record,
            parameters,
        }
    }

    /// The same place with other forage.
    pub fn with_forage(self, forage: ForageType) -> Self {
        Self { forage, ..self }
    }

    /// A trial from one day to another.
    pub fn trial(&self, from: Date, until: Date, comb: Comb, boxes: usize) -> Trial<'a> {
        let hive_box = HiveBox {
            honey_super: false,
            size: BoxSize::Deep,
            frames: 10,
            comb,
            contents: Vec::new(),
        };
        Trial {
            record: self.record,
            scenario: Scenario {
                name: "Evidence".to_owned(),
                question: String::new(),
                until: CalendarDate(until),
                seed: 0,
                mode: Default::default(),
                place: Place {
                    name: self.name.to_owned(),
                    latitude: self.latitude,
                    elevation_m: self.elevation_m,
                    forage: self.forage,
                    neighbours: Default::default(),
                },
                weather: WeatherSource {
                    record: Some(self.name.to_owned()),
                    ..WeatherSource::default()
                },
                bloom: Vec::new(),
                start: Start {
                    date: CalendarDate(from),
                    package: None,
                    swarm: None,
                    nuc: None,
                    established: None,
                    queen: Default::default(),
                    mites_per_100_bees: None,
                },
                hive: Hive {
                    boxes: vec![hive_box; boxes],
                    deep_frame: None,
                    medium_frame: None,
                },
                feed: Vec::new(),
                moves: Vec::new(),
                parameters: self.parameters.clone(),
                expect: Vec::new(),
            },
        }
    }
}

/// A scenario with its weather.
#[derive(Debug, Clone)]
pub struct Trial<'a> {
    pub scenario: Scenario,
    record: &'a (Weather, Report),
}

impl Trial<'_> {
    /// Starts from a package of so many bees.
    pub fn package(mut self, bees: f64, queen_caged_days: f64) -> Self {
        self.scenario.start.package = Some(Package {
            bees: Some(bees),
            queen_caged_days,
            ..Package::default()
        });
        self
    }

    /// Starts from a colony as a beekeeper sees it.
    pub fn established(mut self, bees: f64, frames_of_brood: f64, honey_kg: f64) -> Self {
        self.scenario.start.established = Some(Established {
            frames_of_bees: bees / crate::comb::CombParameters::default().frame_of_bees,
            frames_of_brood,
            honey_kg,
            pollen_kg: 0.5,
        });
        self
    }

    /// Keeps 1:1 syrup on the hive for so many days from the start.
    pub fn fed(mut self, days: i32) -> Self {
        let from = self.scenario.start.date;
        self.scenario.feed.push(Feed {
            from,
            to: CalendarDate(crate::calendar::plus_days(from.0, days - 1)),
            kind: FeedKind::OneToOne,
            litres: None,
            jars: None,
            kilograms: None,
            every_days: None,
            feeders: 1,
        });
        self
    }

    /// Takes honey on a day, leaving so much.
    pub fn take_honey(self, date: Date, leaving_kg: f64) -> Self {
        self.doing(date, Action::TakeHoney(leaving_kg))
    }

    /// Does something on a day.
    pub fn doing(mut self, date: Date, action: Action) -> Self {
        let step = Move::on(CalendarDate(date), action);
        self.scenario.moves.push(step);
        self
    }

    /// Runs and looks into the hive every evening.
    pub fn watch(&self, look: impl FnMut(&Colony, &Outcome)) -> Result<(), Error> {
        self.prepare()?.run_bare(&mut Mean, look)?;
        Ok(())
    }

    pub fn run(&self) -> Result<Season, Error> {
        self.prepare()?.run()
    }

    fn prepare(&self) -> Result<Prepared, Error> {
        let (weather, report) = self.record;
        let (weather, _) = weather::lay(&self.scenario, Some((weather, report)), 0)?;
        prepare(&self.scenario, &weather)
    }

    /// What each day of the trial offers.
    pub fn conditions(&self) -> Result<Vec<crate::forage::Conditions>, Error> {
        Ok(self.prepare()?.conditions)
    }

    /// Runs and follows the bees that emerge on the days from `from` to `to`.
    pub fn run_marking(&self, from: Date, to: Date) -> Result<(Season, Vec<Marked>), Error> {
        let start = self.scenario.start.date.0;
        let day = |date| crate::calendar::days_between(start, date) as usize;
        let (from, to) = (day(from), day(to));
        self.prepare()?
            .run_marking(|day, emerged| (from..=to).contains(&day) && emerged > 0.0)
    }
}

impl Season {
    /// Place of a date in `days`.
    pub(super) fn at(&self, date: Date) -> usize {
        crate::calendar::days_between(self.first, date) as usize
    }
}
