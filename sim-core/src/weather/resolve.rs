//! The weather of a scenario: its record or place type, with what the scenario lays over it.

use jiff::civil::{Date, date};

use super::built_in::{BUILT_IN, BuiltIn};
use super::generator::{Generator, State};
use super::report::{Report, SeasonDays};
use super::{Origin, Weather, overlay};
use crate::Error;
use crate::calendar::{days_between, plus_days};
use crate::scenario::Scenario;
use crate::words::Saying;

/// Longest run of days that is made, in years.
const LONGEST_YEARS: i32 = 200;

/// The weather from 1 January (south of the equator 1 July) on or before the first day of the
/// scenario to its last day, and what was done to get it.
///
/// `record` holds the bytes of the file that `weather.record` names: of [`BuiltIn::file`] where it is
/// the name of a built-in record. Days outside the record are drawn by the generator fitted to it;
/// days typed by hand stand in place of what the record has, and rain spells are laid over all.
///
/// # Errors
///
/// Those of [`super::read`], and faults of the scenario's weather, each with its place.
pub fn resolve(scenario: &Scenario, record: Option<&[u8]>) -> Result<(Weather, Report), Error> {
    match record {
        Some(bytes) => {
            let (weather, report) = read_for(scenario, bytes)?;
            lay(scenario, Some((&weather, &report)), 0)
        }
        None => lay(scenario, None, 0),
    }
}

/// Reads the scenario's record: the first half of [`resolve`], for callers that keep what is read.
///
/// # Errors
///
/// Those of [`super::read`]; a scenario that names no record.
pub fn read_for(scenario: &Scenario, bytes: &[u8]) -> Result<(Weather, Report), Error> {
    let source = &scenario.weather;
    let Some(name) = &source.record else {
        return Err(Error::scenario("weather.record", "no record is named here"));
    };
    let built_in = BuiltIn::named(name);
    let file = built_in.map_or(name.as_str(), |record| record.file);
    let station = source
        .station
        .as_deref()
        .or(built_in.and_then(|record| record.station));
    super::read(bytes, file, station, source.units)
}

/// Lays the scenario's weather over a record that was read: the second half of [`resolve`].
///
/// `member` counts the members of an ensemble, which share the record and differ in what is drawn.
///
/// # Errors
///
/// Faults of the scenario's weather, each with its place.
pub fn lay(
    scenario: &Scenario,
    record: Option<(&Weather, &Report)>,
    member: u32,
) -> Result<(Weather, Report), Error> {
    let source = &scenario.weather;
    let southern = scenario.place.latitude < 0.0;
    overlay::check(source)?;
    let (first, last) = days_of(scenario, southern)?;

    let (mut weather, mut report) = match (record, &source.record, &source.place_type) {
        (_, Some(_), Some(_)) => {
            return Err(Error::scenario(
                "weather",
                "give either `record` or `place_type`, not both",
            ));
        }
        (Some((record, report)), Some(_), None) => {
            let mut report = report.clone();
            let record = overlay::shift(record, source.shift_years, &mut report)?;
            (
                continued(&record, first, last, scenario.seed, member, &mut report)?,
                report,
            )
        }
        (None, Some(name), None) => {
            return Err(Error::said(
                "weather.record",
                Saying::new(|words| words.problems.record_not_there).text("name", name),
            ));
        }
        (_, None, Some(name)) => {
            let mut generator = Generator::place_type(name)?;
            if southern {
                generator = generator.half_a_year_later();
            }
            (
                generator.days(first, last, scenario.seed, member),
                Report::empty(name, first, last),
            )
        }
        (_, None, None) => {
            let names: Vec<&str> = BUILT_IN.iter().map(|record| record.name).collect();
            return Err(Error::scenario(
                "weather",
                format!(
                    "give `record` (a file, or one of {}) or `place_type`",
                    names.join(", ")
                ),
            ));
        }
    };
    overlay::lay_typed_days(&mut weather, &source.typed, &mut report);
    overlay::lay_rain(&mut weather, &source.rain, &mut report);

    let count = |origin| {
        weather
            .days
            .iter()
            .filter(|day| day.origin == origin)
            .count()
    };
    report.season = Some(SeasonDays {
        first,
        last,
        measured: count(Origin::Measured),
        filled: count(Origin::Filled),
        typed: count(Origin::Typed),
        spell: count(Origin::Spell),
        generated: count(Origin::Generated),
    });
    Ok((weather, report))
}

/// First and last day of the weather that a scenario needs.
fn days_of(scenario: &Scenario, southern: bool) -> Result<(Date, Date), Error> {
    let (start, until) = (scenario.start.date.0, scenario.until.0);
    for (place, day) in [("start.date", start), ("until", until)] {
        if !(1700..=2300).contains(&day.year()) {
            return Err(Error::scenario(
                place,
                format!("the year {} is not in 1700 to 2300", day.year()),
            ));
        }
    }
    if until < start {
        return Err(Error::scenario(
            "until",
            format!("the last day, {until}, comes before the first, {start}"),
        ));
    }
    if days_between(start, until) > LONGEST_YEARS * 366 {
        return Err(Error::scenario(
            "until",
            format!("more than {LONGEST_YEARS} years after the first day"),
        ));
    }
    let first = match (southern, start.month()) {
        (false, _) => date(start.year(), 1, 1),
        (true, 7..) => date(start.year(), 7, 1),
        (true, _) => date(start.year() - 1, 7, 1),
    };
    Ok((first, until))
}

/// The days from `first` to `last`: of the record where it has them, drawn before and after it.
fn continued(
    record: &Weather,
    first: Date,
    last: Date,
    seed: u32,
    member: u32,
    report: &mut Report,
) -> Result<Weather, Error> {
    let record_last = record.last();
    let inside = first >= record.first && last <= record_last;
    if inside {
        let from = days_between(record.first, first) as usize;
        let to = days_between(record.first, last) as usize;
        return Ok(Weather {
            first,
            days: record.days[from..=to].to_vec(),
        });
    }
    let (generator, note) = Generator::for_record(record)?;
    report.notes.extend(note);
    let mut days = Vec::new();
    if first < record.first {
        let before = last.min(plus_days(record.first, -1));
        days.extend(generator.days(first, before, seed, member).days);
    }
    for (day, weather) in record.dated() {
        if day >= first && day <= last {
            days.push(*weather);
        }
    }
    if last > record_last {
        let end = record.days[record.days.len() - 1];
        let mut state: State = generator.state_of(record_last, &end);
        for after in 1..=days_between(record_last, last) {
            let day = plus_days(record_last, after);
            let drawn = generator.next(&mut state, day, seed, member);
            if day >= first {
                days.push(drawn);
            }
        }
    }
    Ok(Weather { first, days })
}
