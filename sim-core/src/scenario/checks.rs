//! Collecting what is wrong with a scenario.

use std::fmt::Arguments;

use super::rules::LONGEST_SEASON_YEARS;
use crate::Error;
use crate::calendar::{CalendarDate, YEARS, day_in_year};

/// First and last day of a sound season.
pub(super) type Days = Option<(CalendarDate, CalendarDate)>;

pub(super) struct Problems(pub(super) Vec<Error>);

impl Problems {
    pub(super) fn add(&mut self, place: Arguments<'_>, message: impl Into<String>) {
        self.0.push(Error::scenario(place.to_string(), message));
    }

    pub(super) fn text(&mut self, place: Arguments<'_>, text: &str) {
        if text.trim().is_empty() {
            self.add(place, "expected a name, got nothing");
        }
    }

    // Written so that NaN is out of range.
    pub(super) fn number(
        &mut self,
        place: Arguments<'_>,
        value: f64,
        min: f64,
        max: f64,
        unit: &str,
    ) {
        if !(min..=max).contains(&value) {
            let space = if unit.is_empty() { "" } else { " " };
            self.add(
                place,
                format!(
                    "expected {} to {}{space}{unit}, got {}",
                    figure(min),
                    figure(max),
                    figure(value)
                ),
            );
        }
    }

    pub(super) fn optional(
        &mut self,
        place: Arguments<'_>,
        value: Option<f64>,
        min: f64,
        max: f64,
        unit: &str,
    ) {
        if let Some(value) = value {
            self.number(place, value, min, max, unit);
        }
    }

    pub(super) fn exactly_one(&mut self, place: Arguments<'_>, choices: &[(&str, bool)]) {
        let names: Vec<_> = choices.iter().map(|(name, _)| *name).collect();
        let given: Vec<_> = choices
            .iter()
            .filter(|(_, given)| *given)
            .map(|(name, _)| *name)
            .collect();
        match given.len() {
            1 => {}
            0 => self.add(place, format!("give one of {}", names.join(", "))),
            _ => self.add(
                place,
                format!(
                    "give only one of {}; {} are given",
                    names.join(", "),
                    given.join(" and ")
                ),
            ),
        }
    }

    pub(super) fn season(&mut self, start: CalendarDate, until: CalendarDate) -> Days {
        let before = self.0.len();
        for (place, date) in [("start.date", start), ("until", until)] {
            if !YEARS.contains(&date.0.year()) {
                self.add(
                    format_args!("{place}"),
                    format!(
                        "expected a year from {} to {}, got {}",
                        YEARS.start(),
                        YEARS.end(),
                        date.0.year()
                    ),
                );
            }
        }
        if until < start {
            self.add(
                format_args!("until"),
                format!("the season ends on {until}, before it starts on {start}"),
            );
        } else if self.0.len() == before {
            let date = start.0;
            let latest = day_in_year(
                date.year() + LONGEST_SEASON_YEARS,
                (date.month(), date.day()),
            );
            if let Some(latest) = latest
                && until.0 > latest
            {
                self.add(
                    format_args!("until"),
                    format!("a season lasts at most {LONGEST_SEASON_YEARS} years, here to {latest}; got {until}"),
                );
            }
        }
        (self.0.len() == before).then_some((start, until))
    }

    pub(super) fn inside(&mut self, place: Arguments<'_>, date: CalendarDate, season: Days) {
        if let Some((first, last)) = season
            && !(first..=last).contains(&date)
        {
            self.add(
                place,
                format!("{date} lies outside the season, {first} to {last}"),
            );
        }
    }
}

/// A number as people write it: thousands set apart.
pub(super) fn figure(value: f64) -> String {
    let plain = format!("{value}");
    let digits = plain.strip_prefix('-').unwrap_or(&plain);
    if digits.len() < 4 || digits.len() > 15 || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return plain;
    }
    let mut grouped = String::from(if plain.len() > digits.len() { "-" } else { "" });
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index) % 3 == 0 {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    grouped
}
