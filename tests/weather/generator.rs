//! The weather generator: its days have the statistics it was made from, at fixed seeds.
//!
//! Tolerances are derived, not tried: four standard errors of the statistic, plus half of the last digit of
//! the table. One comparison in 16,000 lies outside by chance; there are about 1,300.

use std::sync::LazyLock;

use combcast_core::weather::{
    Generator, MonthClimate, Origin, PLACE_TYPES, Spread, Weather, climate,
};
use jiff::civil::date;
use serde_json::Value;

use super::read_shipped;

const YEARS: i16 = 1000;
const ERRORS: f64 = 4.0;

/// The monthly table that the place types are made from.
const TABLE: &str = include_str!("../../sim-core/data/generator-fit.csv");

/// Column numbers of the table; a spread takes two.
mod column {
    pub const DAYS: usize = 2;
    pub const WET_AFTER_DRY: usize = 3;
    pub const WET_AFTER_WET: usize = 4;
    pub const WET_SHARE: usize = 5;
    pub const WET_MM: usize = 6;
    pub const SHAPE: usize = 7;
    pub const HIGH_DRY: usize = 9;
    pub const HIGH_WET: usize = 11;
    pub const LOW_DRY: usize = 13;
    pub const LOW_WET: usize = 15;
}

/// One month of one station of the table.
struct Row(Vec<&'static str>);

impl Row {
    fn all(station: &str) -> Vec<Row> {
        let rows: Vec<Row> = TABLE
            .lines()
            .map(|line| Row(line.split(',').collect()))
            .filter(|row| row.0[0] == station)
            .collect();
        assert_eq!(rows.len(), 12, "{station}");
        rows
    }

    fn number(&self, column: usize) -> Option<f64> {
        self.0[column].parse().ok()
    }

    fn spread(&self, column: usize) -> Option<Spread> {
        Some(Spread {
            mean: self.number(column)?,
            sd: self.number(column + 1)?,
        })
    }

    fn name(&self) -> String {
        format!("{} month {}", self.0[0], self.0[1])
    }
}

/// The station in the table behind each place type.
const STATIONS: [(&str, &str); 7] = [
    ("cool-wet-spring", "Seattle"),
    ("warm-humid-summer", "New York"),
    ("snowy-hills", "statecollege"),
    ("oceanic", "brussels"),
    ("dry-plains", "champion"),
    ("dry-summer-coast", "tunis"),
    ("hot-desert", "maricopa"),
];

/// A thousand years of each place type, counted as measured so that their statistics can be taken.
static DRAWN: LazyLock<Vec<(&str, Weather)>> = LazyLock::new(|| {
    assert_eq!(PLACE_TYPES.len(), STATIONS.len());
    STATIONS
        .iter()
        .map(|(place_type, station)| {
            let generator = Generator::place_type(place_type).unwrap();
            (*station, as_measured(long_run(&generator, 1)))
        })
        .collect()
});

fn long_run(generator: &Generator, seed: u32) -> Weather {
    generator.days(date(2001, 1, 1), date(2000 + YEARS, 12, 31), seed, 0)
}

fn as_measured(mut weather: Weather) -> Weather {
    for day in &mut weather.days {
        assert_eq!(day.origin, Origin::Generated);
        day.origin = Origin::Measured;
    }
    weather
}

fn near(value: f64, expected: f64, within: f64, what: impl std::fmt::Display) {
    assert!(
        (value - expected).abs() <= within,
        "{what}: {value}, expected {expected} ± {within}"
    );
}

/// Whether a day is wet is an independent draw given the day before, so a chance p taken over n days has
/// the standard error √(p(1-p)/n). Of the days of a month, all but the first follow a day of that month.
#[test]
fn wet_days_follow_wet_and_dry_days_as_in_the_table() {
    for (station, weather) in DRAWN.iter() {
        for (row, month) in Row::all(station).iter().zip(&climate(weather)) {
            let days = month.days as f64 * 29.0 / 30.0;
            for (column, chance, days) in [
                (
                    column::WET_AFTER_DRY,
                    month.wet_after_dry,
                    days * (1.0 - month.wet_share),
                ),
                (
                    column::WET_AFTER_WET,
                    month.wet_after_wet,
                    days * month.wet_share,
                ),
            ] {
                // An empty cell: too few days to tell; another month's chance is taken.
                if let Some(expected) = row.number(column) {
                    let error = (expected * (1.0 - expected) / days).sqrt();
                    near(
                        chance.unwrap(),
                        expected,
                        ERRORS * error + 0.0005,
                        row.name(),
                    );
                }
            }
        }
    }
}

/// Rain of wet days: a gamma distribution of mean m and shape k has the variance m²/k and the kurtosis
/// 3 + 6/k, so the mean of n days has the relative error 1/√(kn) and their variance √((2 + 6/k)/n).
/// Amounts below a wet day's 0.3 mm are raised to it, which lifts the mean by less than 0.3 mm times the
/// share of such days.
#[test]
fn rain_has_the_mean_and_spread_of_the_table() {
    let mut compared = 0;
    for (station, weather) in DRAWN.iter() {
        for row in Row::all(station) {
            let (Some(mean), Some(shape)) = (row.number(column::WET_MM), row.number(column::SHAPE))
            else {
                continue;
            };
            let number: i8 = row.0[1].parse().unwrap();
            let rain: Vec<f64> = weather
                .dated()
                .filter(|(date, day)| date.month() == number && day.is_wet())
                .map(|(_, day)| day.rain_mm)
                .collect();
            let days = rain.len() as f64;
            let raised = rain.iter().filter(|mm| **mm == 0.3).count() as f64 / days;
            let drawn_mean = rain.iter().sum::<f64>() / days;
            let error = mean / (shape * days).sqrt();
            near(
                drawn_mean,
                mean + 0.15 * raised,
                ERRORS * error + 0.005 + 0.15 * raised,
                row.name(),
            );
            let square = rain
                .iter()
                .map(|mm| (mm - drawn_mean) * (mm - drawn_mean))
                .sum::<f64>();
            let ratio = square / days / (mean * mean / shape);
            let error = ((2.0 + 6.0 / shape) / days).sqrt();
            let rounding = 0.005 / shape + 0.01 / mean;
            // Raising a share q of amounts by under 0.3 mm lowers the variance by under 2 · 0.3 · q · m.
            let raising = 0.6 * raised * mean / (mean * mean / shape);
            near(
                ratio,
                1.0 - raising / 2.0,
                ERRORS * error + rounding + raising / 2.0,
                row.name(),
            );
            compared += 1;
        }
    }
    assert!(compared > 75, "{compared}");
}

/// Departures carry over with the published matrix, whose larger eigenvalue is 0.686: n days in a row tell
/// as much about their mean as n · 0.314/1.686 independent ones, about their spread as n · 0.53/1.47.
/// A day is at least 1 °C wide: where high and low would come closer, the lack is shared between them,
/// which lifts the mean high and lowers the mean low.
#[test]
fn temperatures_of_dry_and_wet_days_have_the_means_and_spreads_of_the_table() {
    for (station, weather) in DRAWN.iter() {
        let months = climate(weather);
        compare_temperatures(&Row::all(station), &months);
    }
}

fn compare_temperatures(rows: &[Row], months: &[MonthClimate; 12]) {
    let mut compared = 0;
    for (row, month) in rows.iter().zip(months) {
        for (wet, high, low, high_column, low_column) in [
            (
                false,
                month.high_dry,
                month.low_dry,
                column::HIGH_DRY,
                column::LOW_DRY,
            ),
            (
                true,
                month.high_wet,
                month.low_wet,
                column::HIGH_WET,
                column::LOW_WET,
            ),
        ] {
            let (Some(table_high), Some(table_low)) =
                (row.spread(high_column), row.spread(low_column))
            else {
                continue;
            };
            let share = if wet {
                month.wet_share
            } else {
                1.0 - month.wet_share
            };
            let days = month.days as f64 * share;
            let lack = mean_lack(table_high, table_low);
            for (drawn, table, up, name) in [
                (high.unwrap(), table_high, 1.0, "high"),
                (low.unwrap(), table_low, -1.0, "low"),
            ] {
                let what = format!("{} {name}, wet: {wet}", row.name());
                let error = table.sd * (1.686 / 0.314 / days).sqrt();
                near(
                    drawn.mean,
                    table.mean + up * lack / 4.0,
                    ERRORS * error + 0.05 + lack / 4.0,
                    &what,
                );
                let error = (1.47 / 0.53 / (2.0 * days)).sqrt();
                near(
                    drawn.sd / table.sd,
                    1.0,
                    ERRORS * error + (0.05 + lack) / table.sd,
                    &what,
                );
                compared += 1;
            }
        }
    }
    assert!(compared >= 40, "{compared}");
}

/// Mean of how far the range of a day falls short of 1 °C before it is widened, taking the range as normal
/// and the departures of high and low as correlated by 0.64 (what the published matrices lead to).
fn mean_lack(high: Spread, low: Spread) -> f64 {
    let range = high.mean - low.mean;
    let sd = (high.sd * high.sd + low.sd * low.sd - 2.0 * 0.64 * high.sd * low.sd).sqrt();
    const STEP: f64 = 0.01;
    (-600..600)
        .map(|step| f64::from(step) * STEP)
        .map(|z| (1.0 - range - sd * z).max(0.0) * (-z * z / 2.0).exp() * STEP)
        .sum::<f64>()
        / std::f64::consts::TAU.sqrt()
}

#[test]
fn the_other_hemisphere_has_the_same_months_half_a_year_later() {
    let north = Generator::place_type("snowy-hills").unwrap();
    let south = north.half_a_year_later();
    assert_eq!(south.half_a_year_later(), north);
    let mut months = climate(&as_measured(long_run(&south, 2)));
    months.rotate_left(6);
    compare_temperatures(&Row::all("statecollege"), &months);
    assert_ne!(north, south);
}

/// The statistics of the shipped records are those of the table, which another program computed from the
/// same records: to the last digit.
#[test]
fn the_climate_of_a_record_is_that_of_the_table() {
    for (record, station) in [
        ("seattle", "Seattle"),
        ("new-york", "New York"),
        ("state-college", "statecollege"),
        ("maricopa", "maricopa"),
    ] {
        let (weather, _) = read_shipped(record);
        for (row, month) in Row::all(station).iter().zip(&climate(&weather)) {
            let agree = |column: usize, value: Option<f64>, digit: f64| {
                if let (Some(expected), Some(value)) = (row.number(column), value) {
                    near(
                        value,
                        expected,
                        0.5001 * digit,
                        format!("{} column {column}", row.name()),
                    );
                }
            };
            agree(column::DAYS, Some(month.days as f64), 1.0);
            agree(column::WET_AFTER_DRY, month.wet_after_dry, 0.001);
            agree(column::WET_AFTER_WET, month.wet_after_wet, 0.001);
            agree(column::WET_SHARE, Some(month.wet_share), 0.001);
            agree(column::WET_MM, month.wet_mm, 0.01);
            for (column, spread) in [
                (column::HIGH_DRY, month.high_dry),
                (column::HIGH_WET, month.high_wet),
                (column::LOW_DRY, month.low_dry),
                (column::LOW_WET, month.low_wet),
            ] {
                agree(column, spread.map(|spread| spread.mean), 0.1);
                agree(column + 1, spread.map(|spread| spread.sd), 0.1);
            }
        }
    }
}

/// The approximation of the maximum likelihood is good to 0.02 %; the reference has four decimals.
#[test]
fn the_shape_of_rain_is_the_most_likely_one() {
    let reference: Value = serde_json::from_str(include_str!("../reference/sky.json")).unwrap();
    let mut compared = 0;
    for (record, station) in [("seattle", "Seattle"), ("new-york", "New York")] {
        let months = climate(&read_shipped(record).0);
        for row in reference["rain"].as_array().unwrap() {
            if row["station"] != station {
                continue;
            }
            let month = &months[row["month"].as_u64().unwrap() as usize - 1];
            near(
                month.wet_mm.unwrap(),
                row["mean_mm"].as_f64().unwrap(),
                1e-4,
                row,
            );
            // The eleven wet Julys of Seattle are too few for a shape.
            if let Some(shape) = month.wet_shape {
                let likely = row["shape"].as_f64().unwrap();
                near(shape, likely, 2e-4 * likely + 5e-5, row);
                compared += 1;
            }
        }
    }
    assert_eq!(compared, 23);
}

/// Correlation of a day's departures from its month's usual high (dry or wet) with the day before's.
fn carry_over(weather: &Weather) -> f64 {
    let months = climate(weather);
    let departures: Vec<f64> = weather
        .dated()
        .map(|(date, day)| {
            let month = &months[date.month() as usize - 1];
            let usual = if day.is_wet() {
                month.high_wet
            } else {
                month.high_dry
            };
            usual.map_or(0.0, |usual| (day.high_c - usual.mean) / usual.sd)
        })
        .collect();
    let products: f64 = departures.windows(2).map(|pair| pair[0] * pair[1]).sum();
    products
        / departures
            .iter()
            .map(|departure| departure * departure)
            .sum::<f64>()
}

/// A generator fitted to a record carries departures over as the record does: within the error of such a
/// correlation r over the record's n days, (1 - r²)/√n.
#[test]
fn a_fitted_generator_carries_over_like_its_record() {
    for record in ["seattle", "new-york", "state-college", "maricopa"] {
        let (weather, _) = read_shipped(record);
        let fitted = Generator::fit(&weather).unwrap();
        let drawn = carry_over(&as_measured(long_run(&fitted, 3)));
        let measured = carry_over(&weather);
        let error = (1.0 - measured * measured) / (weather.days.len() as f64).sqrt();
        near(drawn, measured, ERRORS * error, record);
    }
}

#[test]
fn a_record_too_short_to_be_fitted_is_refused_with_the_month() {
    let mut weather = read_shipped("seattle").0;
    weather.days.truncate(200);
    let error = Generator::fit(&weather).unwrap_err();
    assert!(error.message.contains("month 7 has 18"), "{error}");
    // In its place the nearest place type, moved to agree.
    let (generator, note) = Generator::for_record(&weather).unwrap();
    assert!(
        note.as_ref().unwrap().to_string().contains("too short"),
        "{note:?}"
    );
    let spring = |weather: &Weather| {
        let highs: Vec<f64> = weather
            .dated()
            .filter(|(date, _)| (3..=5).contains(&date.month()))
            .map(|(_, day)| day.high_c)
            .collect();
        highs.iter().sum::<f64>() / highs.len() as f64
    };
    // A spring's mean high varies by about 1 °C between years.
    near(
        spring(&long_run(&generator, 4)),
        spring(&weather),
        3.0,
        "mean high of spring",
    );
}

#[test]
fn the_same_seed_and_member_give_the_same_days_and_others_give_others() {
    let generator = Generator::place_type("oceanic").unwrap();
    let days = |seed, member| generator.days(date(2026, 1, 1), date(2026, 12, 31), seed, member);
    assert_eq!(days(7, 0), days(7, 0));
    let alike =
        |a: &Weather, b: &Weather| a.days.iter().zip(&b.days).filter(|(a, b)| a == b).count();
    assert_eq!(alike(&days(7, 0), &days(8, 0)), 0);
    assert_eq!(alike(&days(7, 0), &days(7, 1)), 0);
}

/// Frozen: a change here changes every season with drawn weather, and is to be told as such.
#[test]
fn the_days_of_a_seed_stay_what_they_are() {
    let generator = Generator::place_type("oceanic").unwrap();
    let days = generator
        .days(date(2026, 5, 1), date(2026, 5, 3), 7, 0)
        .days;
    let values: Vec<[f64; 3]> = days
        .iter()
        .map(|day| [day.high_c, day.low_c, day.rain_mm])
        .collect();
    assert_eq!(
        values,
        [
            [20.189544868066957, 6.246568730603895, 1.7705997303246392],
            [24.39435613285944, 8.329740970180318, 0.4242189299825527],
            [18.722228860740177, 7.795686219206327, 0.576354299684065],
        ]
    );
}
