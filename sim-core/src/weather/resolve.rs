//! The weather of a scenario: its record or place type, with what the scenario lays over it.

use std::collections::BTreeMap;

use jiff::civil::{Date, date};
use serde::Serialize;

use super::generator::{Generator, State};
use super::report::{Report, SeasonDays, counted};
use super::{Origin, Weather, WeatherDay};
use crate::Error;
use crate::calendar::{days_between, plus_days};
use crate::scenario::{RainSpell, Scenario, TypedDay, WeatherSource};

/// A weather record that comes with the program.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct BuiltIn {
    /// Name in a scenario.
    pub name: &'static str,
    /// Name of the file among the shipped records.
    pub file: &'static str,
    /// The station within the file; `None` where there is one only.
    pub station: Option<&'static str>,
    /// Where it was measured.
    pub place: &'static str,
    /// Latitude, degrees, north positive.
    pub latitude: f64,
    /// Height above the sea, m.
    pub elevation_m: f64,
    /// First year that it covers from January to December.
    pub first_year: i16,
    /// Last such year.
    pub last_year: i16,
    /// Who measured it, when, and by what right it is shipped.
    pub provenance: &'static str,
}

/// The weather records that come with the program.
pub const BUILT_IN: &[BuiltIn] = &[
    BuiltIn {
        name: "seattle",
        file: "seattle-newyork-2012-2015.csv",
        station: Some("Seattle"),
        place: "Seattle, Washington",
        latitude: 47.45,
        elevation_m: 130.0,
        first_year: 2012,
        last_year: 2015,
        provenance: "NOAA daily records 2012 to 2015, United States government data, public domain",
    },
    BuiltIn {
        name: "new-york",
        file: "seattle-newyork-2012-2015.csv",
        station: Some("New York"),
        place: "New York",
        latitude: 40.78,
        elevation_m: 40.0,
        first_year: 2012,
        last_year: 2015,
        provenance: "NOAA daily records 2012 to 2015, United States government data, public domain",
    },
    BuiltIn {
        name: "state-college",
        file: "USC00368449.dly",
        station: None,
        place: "State College, Pennsylvania",
        latitude: 40.79,
        elevation_m: 360.0,
        first_year: 2000,
        last_year: 2009,
        provenance: "NOAA GHCN-Daily USC00368449, 2000 to 2009, public domain",
    },
    BuiltIn {
        name: "maricopa",
        file: "maricopa-2003-2020.txt",
        station: None,
        place: "Maricopa, Arizona",
        latitude: 33.07,
        elevation_m: 361.0,
        first_year: 2003,
        last_year: 2020,
        provenance: "AZMET daily records 2003 to 2020, CC0-1.0",
    },
];

impl BuiltIn {
    /// The built-in record of this name.
    pub fn named(name: &str) -> Option<&'static Self> {
        BUILT_IN.iter().find(|record| record.name == name)
    }
}

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
    check(source)?;
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
            let record = shift(record, source.shift_years, &mut report)?;
            (
                continued(&record, first, last, scenario.seed, member, &mut report)?,
                report,
            )
        }
        (None, Some(name), None) => {
            return Err(Error::scenario(
                "weather.record",
                format!("the file of the record \"{name}\" is not there"),
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
    lay_typed_days(&mut weather, &source.typed, &mut report);
    lay_rain(&mut weather, &source.rain, &mut report);

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

/// Checks the days and spells that are written in the scenario.
fn check(source: &WeatherSource) -> Result<(), Error> {
    if !(-200..=200).contains(&source.shift_years) {
        return Err(Error::scenario(
            "weather.shift_years",
            format!("expected -200 to 200 years, got {}", source.shift_years),
        ));
    }
    let in_range =
        |list: &str, index: usize, name: &str, value: f64, low: f64, high: f64, unit: &str| {
            if (low..=high).contains(&value) {
                return Ok(());
            }
            Err(Error::scenario(
                format!("weather.{list}[{index}].{name}"),
                format!("expected {low} to {high} {unit}, got {value}"),
            ))
        };
    let mut typed_on = BTreeMap::new();
    for (index, day) in source.typed.iter().enumerate() {
        in_range("typed", index, "high_c", day.high_c, -60.0, 60.0, "°C")?;
        in_range("typed", index, "low_c", day.low_c, -60.0, 60.0, "°C")?;
        in_range("typed", index, "rain_mm", day.rain_mm, 0.0, 600.0, "mm")?;
        if day.low_c > day.high_c {
            return Err(Error::scenario(
                format!("weather.typed[{index}].low_c"),
                format!(
                    "the low of {} °C is above the high of {} °C",
                    day.low_c, day.high_c
                ),
            ));
        }
        if let Some(before) = typed_on.insert(day.date, index) {
            return Err(Error::scenario(
                format!("weather.typed[{index}].date"),
                format!(
                    "{} is typed twice: weather.typed[{before}] has it as well",
                    day.date
                ),
            ));
        }
    }
    for (index, spell) in source.rain.iter().enumerate() {
        in_range("rain", index, "mm_a_day", spell.mm_a_day, 0.0, 200.0, "mm")?;
        in_range("rain", index, "cooler_c", spell.cooler_c, 0.0, 20.0, "°C")?;
        if spell.to < spell.from {
            return Err(Error::scenario(
                format!("weather.rain[{index}].to"),
                format!(
                    "the last wet day, {}, comes before the first, {}",
                    spell.to, spell.from
                ),
            ));
        }
    }
    Ok(())
}

/// The record as if it had happened so many years later.
fn shift(record: &Weather, years: i16, report: &mut Report) -> Result<Weather, Error> {
    if years == 0 || record.days.is_empty() {
        return Ok(record.clone());
    }
    let moved = |day: Date| day.with().year(day.year() + years).build().ok();
    let mut shifted: BTreeMap<Date, WeatherDay> = BTreeMap::new();
    let mut dropped = 0;
    for (day, weather) in record.dated() {
        match moved(day) {
            Some(day) => {
                shifted.insert(day, *weather);
            }
            // 29 February of a year that the new year does not answer to.
            None => dropped += 1,
        }
    }
    let Some((&first, _)) = shifted.first_key_value() else {
        return Err(Error::scenario(
            "weather.shift_years",
            "nothing of the record is left after this shift",
        ));
    };
    let last = shifted.last_key_value().map_or(first, |(&day, _)| day);
    let mut days: Vec<WeatherDay> = Vec::with_capacity(shifted.len() + 1);
    let mut added = 0;
    for day in first
        .series(jiff::Span::new().days(1))
        .take_while(|day| *day <= last)
    {
        let weather = match shifted.get(&day) {
            Some(weather) => *weather,
            // 29 February that the record's year did not have: as any short gap.
            None => {
                added += 1;
                let (before, after) = (days[days.len() - 1], shifted[&plus_days(day, 1)]);
                WeatherDay {
                    high_c: (before.high_c + after.high_c) / 2.0,
                    low_c: (before.low_c + after.low_c) / 2.0,
                    rain_mm: 0.0,
                    wind_m_s: None,
                    sun_mj_m2: None,
                    origin: Origin::Filled,
                }
            }
        };
        days.push(weather);
    }
    report.notes.push(format!(
        "the record is used as if it had happened {years:+} years later"
    ));
    if dropped > 0 {
        report.notes.push(format!(
            "29 February left out of {}",
            counted(dropped, "leap year", "leap years")
        ));
    }
    if added > 0 {
        report.notes.push(format!(
            "29 February put into {}: temperatures between its neighbours', dry",
            counted(added, "year", "years")
        ));
    }
    Ok(Weather { first, days })
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

fn lay_typed_days(weather: &mut Weather, typed: &[TypedDay], report: &mut Report) {
    let mut outside = 0;
    for day in typed {
        match day_mut(weather, day.date.0) {
            Some(target) => {
                *target = WeatherDay {
                    high_c: day.high_c,
                    low_c: day.low_c,
                    rain_mm: day.rain_mm,
                    wind_m_s: target.wind_m_s,
                    // The sun of the day that stood here belongs to its temperatures.
                    sun_mj_m2: None,
                    origin: Origin::Typed,
                }
            }
            None => outside += 1,
        }
    }
    if outside > 0 {
        report.notes.push(format!(
            "{} outside the season: not used",
            counted(outside, "typed day", "typed days")
        ));
    }
}

/// Lays rain spells over the weather.
///
/// A day with less rain gets the spell's. A dry day that turns wet gets a high lowered by `cooler_c`,
/// but not below 1 °C above its low; its measured sun no longer holds.
fn lay_rain(weather: &mut Weather, spells: &[RainSpell], report: &mut Report) {
    for (index, spell) in spells.iter().enumerate() {
        let from = spell.from.0.max(weather.first);
        let to = spell.to.0.min(weather.last());
        if from > to {
            report.notes.push(format!(
                "weather.rain[{index}] lies outside the season: not used"
            ));
            continue;
        }
        for step in 0..=days_between(from, to) {
            let Some(day) = day_mut(weather, plus_days(from, step)) else {
                continue;
            };
            if day.rain_mm >= spell.mm_a_day {
                continue;
            }
            let was_wet = day.is_wet();
            day.rain_mm = spell.mm_a_day;
            day.origin = Origin::Spell;
            if !was_wet && day.is_wet() {
                let floor = day.high_c.min(day.low_c + 1.0);
                day.high_c = (day.high_c - spell.cooler_c).max(floor);
                day.sun_mj_m2 = None;
            }
        }
    }
}

fn day_mut(weather: &mut Weather, date: Date) -> Option<&mut WeatherDay> {
    let index = usize::try_from(days_between(weather.first, date)).ok()?;
    weather.days.get_mut(index)
}
