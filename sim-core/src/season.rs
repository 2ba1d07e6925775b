//! One run of a colony: from a scenario and its weather to a record of days and events.

use jiff::civil::Date;
use serde::Serialize;

use crate::observe::DayRecord;
use crate::scenario::Scenario;
use crate::weather::Weather;
use crate::{Error, Parameters};

/// Something that happened on a date.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Event {
    /// The day.
    pub date: String,
    /// What kind of event, for machines: `start`, `queen`, `feed`, `comb`, `brood`, `food`, `move`, `lost`.
    pub kind: &'static str,
    /// The event in words.
    pub text: String,
}

/// The result of one run.
#[derive(Debug, Clone)]
pub struct Season {
    /// First day.
    pub first: Date,
    /// One record a day from `first` on.
    pub days: Vec<DayRecord>,
    /// What happened, in order of date.
    pub events: Vec<Event>,
    /// Every parameter as it was used.
    pub parameters: Parameters,
    /// The seed.
    pub seed: u32,
}

/// Runs a season.
///
/// `weather` must cover the scenario from 1 January (south of the equator: 1 July) before its start
/// to its last day; [`weather::resolve`](crate::weather) makes such a run of days.
///
/// # Errors
/// A scenario that does not hold together, or a parameter out of range.
pub fn run(scenario: &Scenario, weather: &Weather) -> Result<Season, Error> {
    let _ = (scenario, weather);
    Err(Error::scenario("", "stub"))
}
