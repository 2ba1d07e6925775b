//! What a scenario must keep to beyond its form: ranges, dates in order, one choice of several,
//! and stores and brood that fit into the comb.
//!
//! Weather is checked where it is resolved (see [`weather`](crate::weather)).

use super::checks::{Days, Problems, figure};
use super::words::{nearest, shorten};
use super::{Bloom, Expectation, Feed, FeedKind, Hive, Scenario};
use crate::calendar::parse_month_day;
use crate::observe::COLUMNS;
use crate::words::Saying;
use crate::{Error, Parameters};

/// Longest season, in years.
pub const LONGEST_SEASON_YEARS: i16 = 20;
/// Most entries of each list of a scenario.
pub const MOST_ENTRIES: usize = 1000;

impl Scenario {
    /// Checks that the scenario holds together.
    ///
    /// # Errors
    /// The first of its [`problems`](Scenario::problems).
    pub fn validate(&self) -> Result<(), Error> {
        match self.problems().into_iter().next() {
            None => Ok(()),
            Some(error) => Err(error),
        }
    }

    /// Everything that is wrong with the scenario; empty when it is sound.
    pub fn problems(&self) -> Vec<Error> {
        let mut problems = Problems(Vec::new());
        problems.text(format_args!("name"), &self.name);
        let season = problems.season(self.start.date, self.until);
        self.check_lengths(&mut problems);
        problems.text(format_args!("place.name"), &self.place.name);
        problems.number(
            format_args!("place.latitude"),
            self.place.latitude,
            -66.0,
            66.0,
            "degrees",
        );
        problems.number(
            format_args!("place.elevation_m"),
            self.place.elevation_m,
            -430.0,
            5000.0,
            "m",
        );
        for (index, bloom) in self.bloom.iter().enumerate().take(MOST_ENTRIES) {
            problems.bloom(index, bloom);
        }
        problems.start(&self.start);
        problems.hive(&self.hive.boxes);
        problems.frame_sizes(&self.hive);
        let parameters = problems.parameters(&self.hive, self.parameters.iter().take(MOST_ENTRIES));
        problems.comb_for_colony(&self.start, &self.hive.boxes, &parameters);
        for (index, feed) in self.feed.iter().enumerate().take(MOST_ENTRIES) {
            problems.feed(index, feed, season);
        }
        for (index, step) in self.moves.iter().enumerate().take(MOST_ENTRIES) {
            problems.step(index, step, season);
        }
        problems.boxes_added(self.hive.boxes.len(), &self.moves);
        for (index, expectation) in self.expect.iter().enumerate().take(MOST_ENTRIES) {
            problems.expectation(index, expectation, season);
        }
        problems.0
    }

    fn check_lengths(&self, problems: &mut Problems) {
        for (place, entries) in [
            ("bloom", self.bloom.len()),
            ("feed", self.feed.len()),
            ("move", self.moves.len()),
            ("parameters", self.parameters.len()),
            ("expect", self.expect.len()),
        ] {
            if entries > MOST_ENTRIES {
                problems.add(
                    format_args!("{place}"),
                    Saying::new(|words| words.problems.entries)
                        .figure("most", MOST_ENTRIES as f64)
                        .figure("got", entries as f64),
                );
            }
        }
    }
}

impl Problems {
    fn bloom(&mut self, index: usize, bloom: &Bloom) {
        let starts = &bloom.starts;
        self.text(format_args!("bloom[{index}].plant"), &bloom.plant);
        self.exactly_one(
            format_args!("bloom[{index}].starts"),
            &[
                ("warmth_sum", starts.warmth_sum.is_some()),
                ("each_year", starts.each_year.is_some()),
                ("day_length_falls_to", starts.day_length_falls_to.is_some()),
            ],
        );
        self.optional(
            format_args!("bloom[{index}].starts.warmth_sum"),
            starts.warmth_sum,
            1.0,
            20000.0,
            "°C days",
        );
        if let Some(Err(message)) = starts.each_year.as_deref().map(parse_month_day) {
            self.add(format_args!("bloom[{index}].starts.each_year"), message);
        }
        self.optional(
            format_args!("bloom[{index}].starts.day_length_falls_to"),
            starts.day_length_falls_to,
            4.0,
            20.0,
            "hours",
        );
        self.number(
            format_args!("bloom[{index}].days"),
            bloom.days,
            1.0,
            200.0,
            "days",
        );
        self.number(
            format_args!("bloom[{index}].nectar"),
            bloom.nectar,
            0.0,
            1.0,
            "",
        );
        self.number(
            format_args!("bloom[{index}].pollen"),
            bloom.pollen,
            0.0,
            1.0,
            "",
        );
    }

    fn feed(&mut self, index: usize, feed: &Feed, season: Days) {
        if feed.to < feed.from {
            self.add(
                format_args!("feed[{index}].to"),
                Saying::new(|words| words.problems.feed_ends_early)
                    .text("to", feed.to)
                    .text("from", feed.from),
            );
        }
        self.inside(format_args!("feed[{index}].from"), feed.from, season);
        self.inside(format_args!("feed[{index}].to"), feed.to, season);

        let amounts = [
            ("litres", feed.litres, 0.1, 50.0, "litres"),
            ("jars", feed.jars, 0.25, 50.0, "jars"),
            ("kilograms", feed.kilograms, 0.05, 5.0, "kg"),
        ];
        let mut given = 0;
        for (field, amount, min, max, unit) in amounts {
            let Some(amount) = amount else { continue };
            given += 1;
            self.number(
                format_args!("feed[{index}].{field}"),
                amount,
                min,
                max,
                unit,
            );
            if (field == "kilograms") != (feed.kind == FeedKind::Patty) {
                self.add(
                    format_args!("feed[{index}].{field}"),
                    Saying::new(|words| words.problems.feed_amounts),
                );
            }
        }
        if given > 1 {
            self.add(
                format_args!("feed[{index}]"),
                Saying::new(|words| words.problems.give_only_one)
                    .text("names", "litres, jars, kilograms"),
            );
        }
        if let Some(days) = feed.every_days {
            self.number(
                format_args!("feed[{index}].every_days"),
                f64::from(days),
                1.0,
                60.0,
                "days",
            );
            if given == 0 {
                self.add(
                    format_args!("feed[{index}].every_days"),
                    Saying::new(|words| words.problems.feed_kept_full),
                );
            }
        }
        self.number(
            format_args!("feed[{index}].feeders"),
            f64::from(feed.feeders),
            1.0,
            8.0,
            "feeders",
        );
    }

    /// The parameters as far as they are sound.
    fn parameters<'a>(
        &mut self,
        hive: &Hive,
        values: impl Iterator<Item = (&'a String, &'a f64)>,
    ) -> Parameters {
        let mut parameters = Parameters::default();
        hive.fit(&mut parameters.comb);
        for (path, value) in values {
            let Err(mut error) = parameters.set(path, *value) else {
                continue;
            };
            let names = || {
                Parameters::INFO.iter().flat_map(|(section, rows)| {
                    rows.iter()
                        .map(move |row| format!("{section}.{}", row.name))
                })
            };
            if !names().any(|name| name == *path) {
                let all: Vec<_> = names().collect();
                if let Some(name) = nearest(path, all.iter().map(String::as_str)) {
                    error.message = format!("{}; did you mean \"{name}\"?", error.message);
                }
            }
            self.0.push(error);
        }
        parameters
    }

    fn expectation(&mut self, index: usize, expectation: &Expectation, season: Days) {
        self.inside(
            format_args!("expect[{index}].date"),
            expectation.date,
            season,
        );
        let names = || COLUMNS.iter().map(|column| column.name);
        if !names().any(|name| name == expectation.column) {
            let meant = nearest(&expectation.column, names())
                .map_or_else(String::new, |name| format!("; did you mean {name}?"));
            self.add(
                format_args!("expect[{index}].column"),
                format!(
                    "there is no column \"{}\"{meant}\nThe columns are: {}",
                    shorten(&expectation.column),
                    names().collect::<Vec<_>>().join(", ")
                ),
            );
        }
        for (field, bound) in [
            ("at_least", expectation.at_least),
            ("at_most", expectation.at_most),
        ] {
            if bound.is_some_and(|bound| !bound.is_finite()) {
                self.add(
                    format_args!("expect[{index}].{field}"),
                    "expected a finite number",
                );
            }
        }
        match (expectation.at_least, expectation.at_most) {
            (None, None) => self.add(
                format_args!("expect[{index}]"),
                "give at_least, at_most or both",
            ),
            (Some(low), Some(high)) if low > high => self.add(
                format_args!("expect[{index}].at_most"),
                format!(
                    "at_most is {}, below at_least, {}",
                    figure(high),
                    figure(low)
                ),
            ),
            _ => {}
        }
        if expectation.because.trim().is_empty() {
            self.add(
                format_args!("expect[{index}].because"),
                "expected the reason or the source of the range, got nothing",
            );
        }
    }
}
