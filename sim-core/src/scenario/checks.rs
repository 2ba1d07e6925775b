//! Collecting what is wrong with a scenario.

use std::fmt::Arguments;

use super::rules::LONGEST_SEASON_YEARS;
use crate::Error;
use crate::calendar::{CalendarDate, YEARS, day_in_year};
use crate::words::{Language, Saying};

/// First and last day of a sound season.
pub(super) type Days = Option<(CalendarDate, CalendarDate)>;

pub(super) struct Problems(pub(super) Vec<Error>);

impl Problems {
    pub(super) fn add(&mut self, place: Arguments<'_>, said: impl Into<Saying>) {
        self.0.push(Error::said(place.to_string(), said.into()));
    }

    pub(super) fn text(&mut self, place: Arguments<'_>, text: &str) {
        if text.trim().is_empty() {
            self.add(place, Saying::new(|words| words.problems.name_missing));
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
            let known = &Language::English.words().problems.units;
            let said = match known.iter().position(|known| *known == unit) {
                None if unit.is_empty() => Saying::new(|words| words.problems.range),
                None => Saying::new(|words| words.problems.range_of).text("unit", unit),
                Some(known) => Saying::new(|words| words.problems.range_of).choice(
                    "unit",
                    |words| &words.problems.units,
                    known,
                ),
            };
            let said = said.figure("min", min).figure("max", max);
            self.add(place, said.figure("got", value));
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

    pub(super) fn exactly_one(&mut self, place: Arguments<'_>, choices: &[(&'static str, bool)]) {
        let names: Vec<_> = choices.iter().map(|(name, _)| *name).collect();
        let given: Vec<_> = choices
            .iter()
            .filter(|(_, given)| *given)
            .map(|(name, _)| *name)
            .collect();
        match given.len() {
            1 => {}
            0 => self.add(
                place,
                Saying::new(|words| words.problems.give_one).text("names", names.join(", ")),
            ),
            _ => self.add(
                place,
                Saying::new(|words| words.problems.give_only_one_of)
                    .text("names", names.join(", "))
                    .joined("given", given, |words| words.problems.and),
            ),
        }
    }

    pub(super) fn season(&mut self, start: CalendarDate, until: CalendarDate) -> Days {
        let before = self.0.len();
        for (place, date) in [("start.date", start), ("until", until)] {
            if !YEARS.contains(&date.0.year()) {
                self.add(
                    format_args!("{place}"),
                    Saying::new(|words| words.problems.year)
                        .plain("first", *YEARS.start())
                        .plain("last", *YEARS.end())
                        .plain("got", date.0.year()),
                );
            }
        }
        if until < start {
            self.add(
                format_args!("until"),
                Saying::new(|words| words.problems.season_ends_early)
                    .text("until", until)
                    .text("start", start),
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
                    Saying::new(|words| words.problems.season_too_long)
                        .plain("years", LONGEST_SEASON_YEARS)
                        .text("latest", latest)
                        .text("until", until),
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
                Saying::new(|words| words.problems.outside_season)
                    .text("date", date)
                    .text("first", first)
                    .text("last", last),
            );
        }
    }
}

/// A number as people write it: thousands set apart.
pub(super) fn figure(value: f64) -> String {
    Language::English.figure(value)
}
