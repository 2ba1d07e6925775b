//! What a record held and what was done to it: nothing is mended in silence.

use std::fmt;

use jiff::civil::Date;
use serde::Serialize;

use super::Field;
use crate::words::{Language, Saying, text};

/// What a weather record held, and everything that was done to make an unbroken run of days of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Report {
    /// Station as the record names it; the file's name where it names none; the place type's name
    /// where there is no record.
    pub station: String,
    /// Layout of the file; `None` where there is no record.
    pub format: Option<Format>,
    /// First day of the record.
    pub first: Date,
    /// Last day of the record.
    pub last: Date,
    /// Days from first to last.
    pub days: usize,
    /// Latitude that the file gives, degrees, north positive.
    pub latitude: Option<f64>,
    /// Height above the sea that the file gives, m.
    pub elevation_m: Option<f64>,
    /// Runs of missing days, with how each was filled.
    pub gaps: Vec<Gap>,
    /// Counts of the marks that the record carries.
    pub flags: Flags,
    /// Faults that were put right, and readings to look at, one sentence each.
    pub repairs: Vec<Saying>,
    /// What else a reader should know, one sentence each.
    pub notes: Vec<Saying>,
    /// The days that a season uses, counted by origin; `None` before a season is made.
    pub season: Option<SeasonDays>,
}

/// Layout of a weather file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Format {
    /// GHCN-Daily, fixed width.
    GhcnDaily,
    /// Daily summaries of NOAA, one row a day.
    NoaaCsv,
    /// Comma-separated with named columns.
    Csv,
    /// Columns set apart by blanks under a line that names them.
    Table,
}

/// A run of days on which one thing is missing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Gap {
    /// First missing day.
    pub first: Date,
    /// Last missing day.
    pub last: Date,
    /// Number of days.
    pub days: usize,
    /// What is missing.
    pub field: Field,
    /// How it was filled.
    pub how: Filling,
}

/// How a gap was filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Filling {
    /// In a straight line from the day before to the day after.
    Interpolated,
    /// Taken as days without rain.
    AssumedDry,
    /// Equal shares of a total that the station read after several days.
    SharedTotal,
    /// Drawn by the weather generator.
    Drawn,
}

/// Counts of the marks that a record carries.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Flags {
    /// Highs that failed the source's own checks (taken as missing).
    pub failed_highs: usize,
    /// Lows that failed the source's own checks (taken as missing).
    pub failed_lows: usize,
    /// Rain that failed the source's own checks (taken as missing).
    pub failed_rain: usize,
    /// Wind or sun that failed the source's own checks (taken as missing).
    pub failed_others: usize,
    /// Days with a trace of rain (taken as 0 mm).
    pub traces: usize,
    /// Days without a rain reading that the source presumes dry.
    pub presumed_zeros: usize,
    /// Totals read after several days.
    pub multi_day_totals: usize,
}

impl Flags {
    pub(super) fn failed(&mut self, field: Field) {
        *match field {
            Field::High => &mut self.failed_highs,
            Field::Low => &mut self.failed_lows,
            Field::Rain => &mut self.failed_rain,
            Field::Wind | Field::Sun => &mut self.failed_others,
        } += 1;
    }
}

/// The days that a season uses, counted by where they come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct SeasonDays {
    /// First day.
    pub first: Date,
    /// Last day.
    pub last: Date,
    /// Days as measured.
    pub measured: usize,
    /// Days missing in the record and filled.
    pub filled: usize,
    /// Days typed by hand.
    pub typed: usize,
    /// Days changed by a rain spell.
    pub spell: usize,
    /// Days drawn by the weather generator.
    pub generated: usize,
}

impl Report {
    pub(super) fn empty(station: &str, first: Date, last: Date) -> Self {
        Self {
            station: station.to_owned(),
            format: None,
            first,
            last,
            days: (crate::calendar::days_between(first, last) + 1).max(0) as usize,
            latitude: None,
            elevation_m: None,
            gaps: Vec::new(),
            flags: Flags::default(),
            repairs: Vec::new(),
            notes: Vec::new(),
            season: None,
        }
    }
}

/// `1 day`, `2 days`.
pub(super) fn counted(number: usize, one: &str, more: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { more })
}

impl Gap {
    /// In words.
    pub fn told(&self, language: Language) -> String {
        let words = &language.words().weather;
        let pattern = if self.days > 1 {
            words.long_gap
        } else {
            words.gap
        };
        let parts = [
            ("field", words.fields[self.field as usize]),
            ("days", &*language.words().forms.days.number(self.days)),
            ("first", &*self.first.to_string()),
            ("last", &*self.last.to_string()),
            ("how", words.fillings[self.how as usize]),
        ];
        text(pattern, &parts)
    }
}

impl Report {
    /// In words, a line for each fact.
    pub fn told(&self, language: Language) -> Vec<String> {
        let words = &language.words().weather;
        let days = |count: usize| language.words().forms.days.number(count);
        let (pattern, format) = match self.format {
            Some(format) => (words.span_of_format, words.formats[format as usize]),
            None => (words.span, ""),
        };
        let parts = [
            ("station", &*self.station),
            ("format", format),
            ("first", &self.first.to_string()),
            ("last", &self.last.to_string()),
            ("days", &days(self.days)),
        ];
        let mut lines = vec![text(pattern, &parts)];
        let mut listed = |line: String| lines.push(format!("- {line}"));
        for gap in &self.gaps {
            listed(gap.told(language));
        }
        let flags = &self.flags;
        for (number, pattern) in [
            flags.failed_highs,
            flags.failed_lows,
            flags.failed_rain,
            flags.failed_others,
            flags.traces,
            flags.presumed_zeros,
            flags.multi_day_totals,
        ]
        .into_iter()
        .zip(words.flags)
        {
            if number > 0 {
                listed(text(pattern, &[("days", &days(number))]));
            }
        }
        for line in self.repairs.iter().chain(&self.notes) {
            listed(line.told(language.into()));
        }
        lines.extend(self.season_told(language));
        lines
    }

    /// In one sentence, how much of the weather of a season was measured, and where the rest comes from; `None` before
    /// a season is made.
    pub fn season_told(&self, language: Language) -> Option<String> {
        let season = self.season.as_ref()?;
        let words = &language.words().weather;
        let drawn = match self.format {
            Some(_) => words.season_days_drawn,
            None => words.season_days_of_type,
        };
        let counts = [
            (season.measured, words.season_days[0]),
            (season.filled, words.season_days[1]),
            (season.typed, words.season_days[2]),
            (season.spell, words.season_days[3]),
            (season.generated, drawn),
        ];
        let said: Vec<String> = counts
            .into_iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, pattern)| {
                text(
                    pattern,
                    &[("days", &language.words().forms.days.number(count))],
                )
            })
            .collect();
        let parts = [
            ("station", &*self.station),
            ("first", &*language.day_and_month(season.first, true)),
            ("last", &*language.day_and_month(season.last, true)),
            ("list", &*said.join(", ")),
        ];
        Some(text(words.season, &parts))
    }
}

/// In English.
impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.told(Language::English)
            .iter()
            .try_for_each(|line| writeln!(f, "{line}"))
    }
}
