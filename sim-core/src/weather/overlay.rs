//! What a scenario lays over its weather: another year, days typed by hand, rain spells.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::report::Report;
use super::{Origin, Weather, WeatherDay};
use crate::Error;
use crate::calendar::{days_between, plus_days};
use crate::scenario::{RainSpell, TypedDay, WeatherSource};
use crate::words::Saying;

/// Checks the days and spells that are written in the scenario.
pub(super) fn check(source: &WeatherSource) -> Result<(), Error> {
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
            let said = Saying::new(|words| words.problems.range_of)
                .plain("min", low)
                .plain("max", high)
                .text("unit", unit);
            Err(Error::said(
                format!("weather.{list}[{index}].{name}"),
                said.plain("got", value),
            ))
        };
    let mut typed_on = BTreeMap::new();
    for (index, day) in source.typed.iter().enumerate() {
        in_range("typed", index, "high_c", day.high_c, -60.0, 60.0, "°C")?;
        in_range("typed", index, "low_c", day.low_c, -60.0, 60.0, "°C")?;
        in_range("typed", index, "rain_mm", day.rain_mm, 0.0, 600.0, "mm")?;
        if day.low_c > day.high_c {
            return Err(Error::said(
                format!("weather.typed[{index}].low_c"),
                Saying::new(|words| words.problems.low_above_high)
                    .plain("low", day.low_c)
                    .plain("high", day.high_c),
            ));
        }
        if let Some(before) = typed_on.insert(day.date, index) {
            return Err(Error::said(
                format!("weather.typed[{index}].date"),
                Saying::new(|words| words.problems.typed_twice)
                    .text("date", day.date)
                    .text("other", format_args!("weather.typed[{before}]")),
            ));
        }
    }
    for (index, spell) in source.rain.iter().enumerate() {
        in_range("rain", index, "mm_a_day", spell.mm_a_day, 0.0, 200.0, "mm")?;
        in_range("rain", index, "cooler_c", spell.cooler_c, 0.0, 20.0, "°C")?;
        if spell.to < spell.from {
            return Err(Error::said(
                format!("weather.rain[{index}].to"),
                Saying::new(|words| words.problems.spell_ends_early)
                    .text("to", spell.to)
                    .text("from", spell.from),
            ));
        }
    }
    Ok(())
}

/// The record as if it had happened so many years later.
pub(super) fn shift(record: &Weather, years: i16, report: &mut Report) -> Result<Weather, Error> {
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
    for day in crate::calendar::dates_from(first).take_while(|day| *day <= last) {
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
    report
        .notes
        .push(Saying::new(|words| words.weather.years_later).text("years", format!("{years:+}")));
    if dropped > 0 {
        report
            .notes
            .push(Saying::new(|words| words.weather.leap_days_out).counted(
                "years",
                |words| words.weather.leap_years,
                dropped as f64,
            ));
    }
    if added > 0 {
        report
            .notes
            .push(Saying::new(|words| words.weather.leap_days_in).counted(
                "years",
                |words| words.weather.years,
                added as f64,
            ));
    }
    Ok(Weather { first, days })
}

/// Puts the days typed by hand in place of what stands there.
pub(super) fn lay_typed_days(weather: &mut Weather, typed: &[TypedDay], report: &mut Report) {
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
        report
            .notes
            .push(Saying::new(|words| words.weather.typed_outside).counted(
                "days",
                |words| words.weather.typed_days,
                outside as f64,
            ));
    }
}

/// Lays rain spells over the weather.
///
/// A day with less rain gets the spell's. A dry day that turns wet gets a high lowered by `cooler_c`,
/// but not below 1 °C above its low; its measured sun no longer holds.
pub(super) fn lay_rain(weather: &mut Weather, spells: &[RainSpell], report: &mut Report) {
    for (index, spell) in spells.iter().enumerate() {
        let from = spell.from.0.max(weather.first);
        let to = spell.to.0.min(weather.last());
        if from > to {
            report
                .notes
                .push(Saying::new(|words| words.weather.spell_outside).count("index", index));
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
