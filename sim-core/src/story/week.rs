//! The season week by week, and one row of it as a line of small bars.

use jiff::civil::Date;
use serde::Serialize;

use super::Units;
use super::facts::{mean, stores_kg, sum};
use crate::calendar::plus_days;
use crate::observe::DayRecord;
use crate::queen::Brake;
use crate::season::Season;
use crate::words::{Language, Speech};

/// One week of a season. Bees, comb, brood and stores as on its last day; eggs and flight as means
/// of its days; rain as a sum.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WeekRow {
    /// First day of the week.
    #[serde(serialize_with = "as_text")]
    pub from: Date,
    /// Number of days: 7, but for the last week.
    pub days: usize,
    /// Adult workers.
    pub adult_bees: f64,
    /// Frames of worker brood.
    pub frames_of_brood: f64,
    /// Frames of drawn comb.
    pub drawn_frames: f64,
    /// Eggs laid a day.
    pub eggs_a_day: f64,
    /// Honey and what is being ripened, kg.
    pub stores_kg: f64,
    /// Rain, mm.
    pub rain_mm: f64,
    /// Hours fit for flight a day.
    pub flight_hours: f64,
    /// The brake of most of its days.
    pub brake: Brake,
}

fn as_text<S: serde::Serializer>(date: &Date, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(date)
}

/// The season in weeks counted from its first day.
pub fn week_table(season: &Season) -> Vec<WeekRow> {
    season
        .days
        .chunks(7)
        .enumerate()
        .map(|(week, days)| row(plus_days(season.first, 7 * week as i32), days))
        .collect()
}

fn row(from: Date, days: &[DayRecord]) -> WeekRow {
    let last = days[days.len() - 1];
    WeekRow {
        from,
        days: days.len(),
        adult_bees: last.adult_bees,
        frames_of_brood: last.frames_of_brood,
        drawn_frames: last.drawn_frames,
        eggs_a_day: mean(days, |day| day.eggs_laid),
        stores_kg: stores_kg(&last),
        rain_mm: sum(days, |day| day.rain_mm),
        flight_hours: mean(days, |day| day.flight_hours),
        brake: commonest(days),
    }
}

/// The brake of most days; of two that are equal, the later.
fn commonest(days: &[DayRecord]) -> Brake {
    let count = |brake: Brake| days.iter().filter(|day| day.brake == brake).count();
    days.iter()
        .map(|day| day.brake)
        .max_by_key(|&brake| count(brake))
        .expect("a week has at least one day")
}

/// Column headings of the week-by-week table.
pub fn week_headings(language: Language) -> [&'static str; 9] {
    language.words().story.week_headings
}

/// Units under the column headings of the week-by-week table.
pub fn week_units(speech: Speech) -> [&'static str; 9] {
    let words = &speech.words().story;
    match speech.units {
        Units::Metric => words.week_units,
        Units::Us => words.week_units_us,
    }
}

/// Values as small bars, one for each, from nothing to the largest.
///
/// ```
/// assert_eq!(combcast_core::story::sparkline(&[0.0, 1.0, 8.0]), "▁▂█");
/// ```
pub fn sparkline(values: &[f64]) -> String {
    const BARS: [char; 8] = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];
    let most = values.iter().copied().fold(0.0, f64::max);
    values
        .iter()
        .map(|&value| {
            if most <= 0.0 || value <= 0.0 {
                BARS[0]
            } else {
                BARS[((value / most * 8.0) as usize).min(7)]
            }
        })
        .collect()
}
