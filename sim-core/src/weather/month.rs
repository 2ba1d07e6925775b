//! What the days of a month are like: of one month of a record, and of each calendar month.

use jiff::civil::Date;
use serde::Serialize;

use super::{Origin, Weather, WeatherDay};
use crate::math::ln;

/// Summary of one month of a record.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct MonthSummary {
    /// First day of the month, or of the record within it.
    pub first: Date,
    /// Number of days.
    pub days: usize,
    /// Mean of the daily highs, °C.
    pub high_c: f64,
    /// Mean of the daily lows, °C.
    pub low_c: f64,
    /// Highest temperature of the month, °C.
    pub highest_c: f64,
    /// Lowest temperature of the month, °C.
    pub lowest_c: f64,
    /// Rain of the month, mm.
    pub rain_mm: f64,
    /// Days with at least [`super::WET_DAY_MM`] of rain.
    pub wet_days: usize,
    /// Days that are not as measured.
    pub not_measured: usize,
}

/// Summaries of the months of a run of days, in order.
pub fn by_month(weather: &Weather) -> Vec<MonthSummary> {
    let dated: Vec<(Date, &WeatherDay)> = weather.dated().collect();
    dated
        .chunk_by(|(a, _), (b, _)| (a.year(), a.month()) == (b.year(), b.month()))
        .map(|month| {
            let count = month.len() as f64;
            let sum = |value: fn(&WeatherDay) -> f64| {
                month.iter().map(|(_, day)| value(day)).sum::<f64>()
            };
            let number =
                |test: fn(&WeatherDay) -> bool| month.iter().filter(|(_, day)| test(day)).count();
            MonthSummary {
                first: month[0].0,
                days: month.len(),
                high_c: sum(|day| day.high_c) / count,
                low_c: sum(|day| day.low_c) / count,
                highest_c: month
                    .iter()
                    .map(|(_, day)| day.high_c)
                    .fold(f64::MIN, f64::max),
                lowest_c: month
                    .iter()
                    .map(|(_, day)| day.low_c)
                    .fold(f64::MAX, f64::min),
                rain_mm: sum(|day| day.rain_mm),
                wet_days: number(WeatherDay::is_wet),
                not_measured: number(|day| day.origin != Origin::Measured),
            }
        })
        .collect()
}

/// Mean and standard deviation.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Spread {
    /// Mean.
    pub mean: f64,
    /// Standard deviation (of the days themselves, not an estimate for a longer record).
    pub sd: f64,
}

/// What the days of one calendar month are like over all years; `None` where days are too few to tell.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct MonthClimate {
    /// Number of measured days.
    pub days: usize,
    /// Chance of a wet day after a dry one.
    pub wet_after_dry: Option<f64>,
    /// Chance of a wet day after a wet one.
    pub wet_after_wet: Option<f64>,
    /// Share of wet days.
    pub wet_share: f64,
    /// Mean rain of a wet day, mm.
    pub wet_mm: Option<f64>,
    /// Shape of the gamma distribution of rain on wet days (its scale is the mean over the shape).
    pub wet_shape: Option<f64>,
    /// Highs of dry days, °C.
    pub high_dry: Option<Spread>,
    /// Highs of wet days, °C.
    pub high_wet: Option<Spread>,
    /// Lows of dry days, °C.
    pub low_dry: Option<Spread>,
    /// Lows of wet days, °C.
    pub low_wet: Option<Spread>,
    /// Wind, m/s.
    pub wind: Option<Spread>,
}

/// Fewest days from which a mean, a spread or a chance is taken.
const FEWEST_DAYS: usize = 8;
/// Fewest wet days from which the shape of the amounts is taken.
const FEWEST_AMOUNTS: usize = 15;

/// What each calendar month is like, January first, over the measured days of a record.
pub fn climate(weather: &Weather) -> [MonthClimate; 12] {
    let measured = |day: &&WeatherDay| matches!(day.origin, Origin::Measured | Origin::Typed);
    let mut months: [Vec<(Option<&WeatherDay>, &WeatherDay)>; 12] = Default::default();
    let mut before = None;
    for (date, day) in weather.dated() {
        if measured(&day) {
            months[date.month() as usize - 1].push((before, day));
        }
        before = Some(day).filter(measured);
    }
    months.map(|days| describe(&days))
}

/// Describes one month's days, each with the measured day before it.
fn describe(days: &[(Option<&WeatherDay>, &WeatherDay)]) -> MonthClimate {
    let wet = || days.iter().map(|(_, day)| *day).filter(|day| day.is_wet());
    let dry = || days.iter().map(|(_, day)| *day).filter(|day| !day.is_wet());
    let wet_after = |wet_before: bool| {
        let pairs: Vec<bool> = days
            .iter()
            .filter(|(before, _)| before.is_some_and(|before| before.is_wet() == wet_before))
            .map(|(_, day)| day.is_wet())
            .collect();
        let wet = pairs.iter().filter(|wet| **wet).count();
        (pairs.len() >= FEWEST_DAYS).then(|| wet as f64 / pairs.len() as f64)
    };
    let rain: Vec<f64> = wet().map(|day| day.rain_mm).collect();
    let wet_mm = spread(rain.iter().copied()).map(|spread| spread.mean);
    MonthClimate {
        days: days.len(),
        wet_after_dry: wet_after(false),
        wet_after_wet: wet_after(true),
        wet_share: rain.len() as f64 / days.len().max(1) as f64,
        wet_mm: wet_mm.or_else(|| {
            // A mean of few days still says more than another month's.
            (!rain.is_empty()).then(|| rain.iter().sum::<f64>() / rain.len() as f64)
        }),
        wet_shape: (rain.len() >= FEWEST_AMOUNTS)
            .then(|| gamma_shape(&rain))
            .flatten(),
        high_dry: spread(dry().map(|day| day.high_c)),
        high_wet: spread(wet().map(|day| day.high_c)),
        low_dry: spread(dry().map(|day| day.low_c)),
        low_wet: spread(wet().map(|day| day.low_c)),
        wind: spread(days.iter().filter_map(|(_, day)| day.wind_m_s)),
    }
}

/// Mean and standard deviation of at least [`FEWEST_DAYS`] values.
fn spread(values: impl Iterator<Item = f64> + Clone) -> Option<Spread> {
    let count = values.clone().count();
    if count < FEWEST_DAYS {
        return None;
    }
    let mean = values.clone().sum::<f64>() / count as f64;
    let square = values
        .map(|value| (value - mean) * (value - mean))
        .sum::<f64>()
        / count as f64;
    Some(Spread {
        mean,
        sd: square.sqrt(),
    })
}

/// Shape of a gamma distribution: Greenwood & Durand's (1960) approximation of maximum likelihood, within
/// 0.02 % (tested).
fn gamma_shape(values: &[f64]) -> Option<f64> {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let mean_log = values.iter().map(|value| ln(*value)).sum::<f64>() / count;
    let excess = ln(mean) - mean_log;
    // Equal amounts have no excess, and no gamma distribution fits them.
    (excess > 1e-6).then(|| {
        let square = excess * excess;
        if excess <= 0.5772 {
            (0.500_087_6 + 0.164_885_2 * excess - 0.054_427_4 * square) / excess
        } else {
            (8.898_919 + 9.059_95 * excess + 0.977_537_3 * square)
                / (excess * (17.797_28 + 11.968_477 * excess + square))
        }
    })
}
