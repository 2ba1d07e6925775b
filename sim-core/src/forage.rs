//! What weather and place offer to any colony: flight hours, bloom, season.
//!
//! All of it is worked out once for a run of days ([`outlook`]), before any colony is run in it.

use jiff::civil::Date;
use serde::Serialize;

use crate::calendar::{day_in_year, parse_month_day, plus_days};
use crate::math::{exp, pow, ramp, unit};
use crate::order;
use crate::scenario::{Bloom, ForageType, Place};
use crate::sky::{
    HourlyTemperature, day_length_h, radiation_above_mj_m2, radiation_from_range_mj_m2,
};
use crate::weather::{Weather, WeatherDay};
use crate::words::Language;
use crate::{Error, Parameters};

/// Days of the year on which the sun stands farthest north and farthest south.
const JUNE_SOLSTICE: f64 = 172.0;
const DECEMBER_SOLSTICE: f64 = 355.0;

params! {
    /// Flight weather and what bloom gives.
    ForageParameters {
        /// Air temperature at which the first bees fly.
        flight_from_c = 9.0, "°C", 0.0..=20.0, Published, "Winston 1987 (from memory)";
        /// Air temperature from which they fly freely.
        flight_full_c = 16.0, "°C", 5.0..=30.0, Assumed, "after Vicens & Bosch 2000: fully active at 12 to 14 °C and 300 W/m²";
        /// Air temperature from which heat keeps them at home.
        flight_hot_c = 35.0, "°C", 25.0..=45.0, Assumed, "Winston 1987: falls over 38 to 40 °C (from memory)";
        /// Air temperature at which heat ends flight.
        flight_too_hot_c = 42.0, "°C", 36.0..=55.0, Assumed, "Winston 1987 (from memory)";
        /// Radiation from which light no longer limits flight.
        flight_light = 250.0, "W/m²", 20.0..=800.0, Assumed, "light saturates near 250 in entrance counts by video (from memory)";
        /// Wind up to which bees fly freely.
        wind_free_km_h = 15.0, "km/h", 0.0..=40.0, Assumed, "synthesis of Winston 1987 and Gary 1975";
        /// Wind that ends flight.
        wind_ends_km_h = 34.0, "km/h", 10.0..=80.0, Published, "Gary 1975 (from memory): 24 to 34 km/h";
        /// Rain that leaves 1/e of a day's flight.
        rain_mm = 6.0, "mm", 0.5..=50.0, Assumed, "a day with 10 mm keeps about a fifth of its flight";
        /// Hargreaves coefficient where radiation was not measured.
        hargreaves = 0.17, "°C^-0.5", 0.1..=0.25, Published, "FAO-56: 0.16 inland to 0.19 at a coast";
        /// Rain of a day that leaves 1/e of its pollen and nectar to be had.
        bloom_rain_mm = 12.0, "mm", 0.5..=100.0, Assumed, "wet anthers stay shut and rain thins nectar: Percival 1955 (from memory); the amount is assumed";
        /// Nectar always about in the warm season, outside of any bloom.
        nectar_background = 0.06, "-", 0.0..=0.5, Assumed, "weeds and gardens";
        /// Pollen always about in the warm season, outside of any bloom.
        pollen_background = 0.20, "-", 0.0..=0.8, Assumed, "weeds and gardens";
        /// Longest less shortest day of the year up to which bees do not read the season off the light.
        light_unread_h = 1.0, "h", 0.0..=4.0, Assumed, "near the equator brood follows pollen all year: Winston 1987 (from memory); the hours are assumed";
        /// The same from which they read it as in the temperate zone, from about 31° on.
        light_read_h = 4.0, "h", 1.0..=6.0, Assumed, "brood all year with a low in winter in Louisiana: Harbo 1986, 1993; the hours are assumed";
        /// Day length that is as good as read where the light tells nothing: a middling season all year.
        light_unread_as_h = 13.0, "h", 11.0..=15.0, Assumed, "brood, drones and swarms in any month, never as much as in a northern June (from memory); the hours are assumed";
        /// Day length at which the queen's year would be at zero, with its trend added.
        laying_dark_h = 9.15, "h", 6.0..=12.0, Tuned, "restart after the solstice and autumn stop: Seeley 2019, Jeffree 1956";
        /// Day length at which the queen's year is at its full.
        laying_full_h = 15.0, "h", 11.0..=18.0, Tuned, "peak laying in June: Nolan 1925";
        /// How many days ahead bees read a lengthening day.
        laying_trend_d = 49.3, "d", 0.0..=90.0, Tuned, "restart after the solstice: Seeley 2019";
        /// The same for a shortening day.
        laying_trend_falling_d = 49.5, "d", 0.0..=90.0, Tuned, "midwinter bees emerge about mid-September: Mattila et al. 2001 (from memory)";
        /// Share of her best rate that warmth leaves a queen whatever the length of the day.
        laying_in_warmth = 0.1, "-", 0.0..=1.0, Assumed, "brood all year where winters are warm: Harbo 1986, 1993 (Louisiana)";
        /// Mean of ten days from which warmth keeps her laying.
        warmth_from_c = 6.2, "°C", 0.0..=20.0, Assumed, "warmth sets off brood more than day length does: Nürnberger et al. 2018 (from memory)";
        /// Mean of ten days from which that share is whole.
        warmth_full_c = 21.6, "°C", 10.0..=30.0, Assumed, "as above";
        /// Steepness of the queen's year.
        laying_steepness = 1.65, "-", 0.5..=4.0, Tuned, "about 100 cells in January: Seeley 2019";
    }
}

/// What one day offers to any colony at the place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Conditions {
    /// Day length as the bees of the place read it, h: that of the sun in the temperate zone, a middling one all year near
    /// the equator, where the season is left to warmth and forage.
    pub day_length_h: f64,
    /// Change of it from yesterday to today, h.
    pub day_length_change_h: f64,
    /// Highest temperature, °C.
    pub high_c: f64,
    /// Lowest temperature, °C.
    pub low_c: f64,
    /// Mean of the highest and the lowest temperature, °C.
    pub mean_c: f64,
    /// Mean of the last four lows, °C.
    pub nights_c: f64,
    /// Mean of the last ten days, °C.
    pub ten_days_c: f64,
    /// Rain, mm.
    pub rain_mm: f64,
    /// Hours that allow flight.
    pub flight_hours: f64,
    /// Nectar on offer, 0 (none) to about 1.6.
    pub nectar: f64,
    /// Pollen on offer, 0 (none) to about 1.6.
    pub pollen: f64,
    /// The queen's year: share of her best rate that day length and its trend allow, 0 to 1.
    pub laying_season: f64,
}

/// A bloom as it came out in this weather.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BloomSpan {
    /// The plant.
    pub plant: String,
    /// First day, counted from the first day of the weather.
    pub first: usize,
    /// One past the last day; can lie past the last day of the weather.
    pub end: usize,
    /// Nectar at its best, 0 to 1.
    pub nectar: f64,
    /// Pollen at its best, 0 to 1.
    pub pollen: f64,
}

/// What a run of days offers to any colony at the place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outlook {
    /// First day.
    pub first: Date,
    /// One entry a day, in step with the weather.
    pub days: Vec<Conditions>,
    /// What bloomed.
    pub blooms: Vec<BloomSpan>,
}

/// Works out an [`Outlook`] from the weather.
///
/// # Errors
/// A bloom with no start or with more than one.
pub fn outlook(
    weather: &Weather,
    place: &Place,
    bloom: &[Bloom],
    parameters: &Parameters,
) -> Result<Outlook, Error> {
    let days = &weather.days;
    let lengths: Vec<f64> = (0..=days.len())
        .map(|i| day_length_h(place.latitude, day_of_year(weather.first, i as i32 - 1)))
        .collect();
    let table;
    let bloom = if bloom.is_empty() {
        table = built_in(place.forage);
        &table
    } else {
        bloom
    };
    let blooms = bloom_spans(weather, place, bloom, &lengths[1..])?;
    let p = &parameters.forage;

    let light_read = light_read(place.latitude, p);
    let mut conditions: Vec<Conditions> = Vec::with_capacity(days.len());
    for (i, day) in days.iter().enumerate() {
        let sun = lengths[i + 1];
        let length = sun + (1.0 - light_read) * (p.light_unread_as_h - sun);
        let change = light_read * (sun - lengths[i]);
        let trend_d = if change < 0.0 {
            p.laying_trend_falling_d
        } else {
            p.laying_trend_d
        };
        let ten_days_c = mean_of_last(days, i, 10, |d| (d.high_c + d.low_c) / 2.0);
        let read_length = length + trend_d * change;
        let by_light = pow(
            ramp(read_length, p.laying_dark_h, p.laying_full_h),
            p.laying_steepness,
        );
        let in_warmth = p.laying_in_warmth * ramp(ten_days_c, p.warmth_from_c, p.warmth_full_c);
        conditions.push(Conditions {
            day_length_h: length,
            day_length_change_h: change,
            high_c: day.high_c,
            low_c: day.low_c,
            mean_c: (day.high_c + day.low_c) / 2.0,
            nights_c: mean_of_last(days, i, 4, |d| d.low_c),
            ten_days_c,
            rain_mm: day.rain_mm,
            flight_hours: flight_hours(weather, i, sun, place, p),
            nectar: 0.0,
            pollen: 0.0,
            laying_season: by_light + (1.0 - by_light) * in_warmth,
        });
    }
    for (i, today) in conditions.iter_mut().enumerate() {
        let warm_season = ramp(today.ten_days_c, 6.0, 14.0) * ramp(today.day_length_h, 10.0, 12.5);
        let bare = place.forage == ForageType::Bare;
        today.nectar = if bare {
            0.0
        } else {
            p.nectar_background * warm_season
        };
        today.pollen = if bare {
            0.0
        } else {
            p.pollen_background * warm_season
        };
        for span in blooms
            .iter()
            .filter(|span| (span.first..span.end).contains(&i))
        {
            let share = bloom_shape(
                (i - span.first) as f64 + 0.5,
                (span.end - span.first) as f64,
            );
            today.nectar += span.nectar * share;
            today.pollen += span.pollen * share;
        }
        let dry = exp(-today.rain_mm / p.bloom_rain_mm);
        today.nectar *= dry;
        today.pollen *= dry;
    }
    Ok(Outlook {
        first: weather.first,
        days: conditions,
        blooms,
    })
}

/// How far the season is read off the light at a latitude, 0 (not at all) to 1: bees cannot tell it where
/// all days are of a length.
fn light_read(latitude: f64, p: &ForageParameters) -> f64 {
    let swing = day_length_h(latitude, JUNE_SOLSTICE) - day_length_h(latitude, DECEMBER_SOLSTICE);
    ramp(swing.abs(), p.light_unread_h, p.light_read_h)
}

fn day_of_year(first: Date, offset: i32) -> f64 {
    f64::from(plus_days(first, offset).day_of_year())
}

fn mean_of_last(
    days: &[WeatherDay],
    today: usize,
    count: usize,
    value: impl Fn(&WeatherDay) -> f64,
) -> f64 {
    let window = &days[(today + 1).saturating_sub(count)..=today];
    window.iter().map(value).sum::<f64>() / window.len() as f64
}

/// Hours of a day that allow flight, each hour weighted by temperature, light, wind and rain.
fn flight_hours(
    weather: &Weather,
    i: usize,
    day_length: f64,
    place: &Place,
    p: &ForageParameters,
) -> f64 {
    const STEP_H: f64 = 0.5;
    let days = &weather.days;
    let today = &days[i];
    if today.high_c <= p.flight_from_c || day_length < STEP_H {
        return 0.0;
    }
    let previous_high = days[i.saturating_sub(1)].high_c;
    let next_low = days[(i + 1).min(days.len() - 1)].low_c;
    let air = HourlyTemperature::new(
        day_length,
        today.high_c,
        today.low_c,
        previous_high,
        next_low,
    );
    let above = radiation_above_mj_m2(place.latitude, day_of_year(weather.first, i as i32));
    let sun = today.sun_mj_m2.unwrap_or_else(|| {
        radiation_from_range_mj_m2(
            above,
            today.high_c,
            today.low_c,
            p.hargreaves,
            place.elevation_m,
        )
    });
    // The day's radiation spread over daylight as half a sine wave; its peak in W/m².
    let peak = sun * 1e6 / (day_length * 3600.0) * std::f64::consts::FRAC_PI_2;
    let wind = today.wind_m_s.map_or(1.0, |wind| {
        1.0 - ramp(wind * 3.6, p.wind_free_km_h, p.wind_ends_km_h)
    });
    let dry = exp(-today.rain_mm / p.rain_mm);
    let sunrise = 12.0 - day_length / 2.0;
    let steps = libm::ceil(day_length / STEP_H) as usize;
    let width = day_length / steps as f64;
    let hours: f64 = (0..steps)
        .map(|k| {
            let since_sunrise = (k as f64 + 0.5) * width;
            let temperature = air.at(sunrise + since_sunrise);
            let warm = ramp(temperature, p.flight_from_c, p.flight_full_c);
            let not_hot = ramp(temperature, p.flight_too_hot_c, p.flight_hot_c);
            let light = unit(
                peak * libm::sin(std::f64::consts::PI * since_sunrise / day_length)
                    / p.flight_light,
            );
            warm * not_hot * light * width
        })
        .sum();
    hours * wind * dry
}

/// Bloom over its days: rises over the first fifth, falls over the last third.
fn bloom_shape(day: f64, days: f64) -> f64 {
    let edge = |t: f64| (1.0 - libm::cos(std::f64::consts::PI * unit(t))) / 2.0;
    edge(day / (0.2 * days)) * edge((days - day) / (0.33 * days))
}

/// First day of the warmth year that `date` falls in: 1 January, south of the equator 1 July.
pub fn warmth_year_start(date: Date, latitude: f64) -> Date {
    let month = if latitude < 0.0 { 7 } else { 1 };
    let year = if date.month() < month {
        date.year() - 1
    } else {
        date.year()
    };
    jiff::civil::date(year, month, 1)
}

/// Warmth sum at the end of each day: daily means above 0 °C since the start of the warmth year, the
/// first month (January) halved and the second taken at three quarters.
pub fn warmth_sums(weather: &Weather, latitude: f64) -> Vec<f64> {
    let mut sum = 0.0;
    weather
        .days
        .iter()
        .enumerate()
        .map(|(i, day)| {
            let date = plus_days(weather.first, i as i32);
            let start = warmth_year_start(date, latitude);
            if date == start {
                sum = 0.0;
            }
            let months = (i32::from(date.month()) - i32::from(start.month())).rem_euclid(12);
            let weight = match months {
                0 => 0.5,
                1 => 0.75,
                _ => 1.0,
            };
            sum += weight * ((day.high_c + day.low_c) / 2.0).max(0.0);
            sum
        })
        .collect()
}

fn bloom_spans(
    weather: &Weather,
    place: &Place,
    bloom: &[Bloom],
    lengths: &[f64],
) -> Result<Vec<BloomSpan>, Error> {
    let sums = warmth_sums(weather, place.latitude);
    let mut spans = Vec::new();
    for (k, plant) in bloom.iter().enumerate() {
        let place_in_file = || format!("bloom[{k}].starts");
        let starts: Vec<usize> = match (
            plant.starts.warmth_sum,
            plant.starts.each_year.as_deref(),
            plant.starts.day_length_falls_to,
        ) {
            (Some(sum), None, None) => (1..sums.len())
                .filter(|&i| sums[i] >= sum && (sums[i - 1] < sum || sums[i - 1] > sums[i]))
                .collect(),
            (None, Some(month_day), None) => {
                let month_day = parse_month_day(month_day).map_err(|message| {
                    Error::scenario(format!("{}.each_year", place_in_file()), message)
                })?;
                (0..sums.len())
                    .filter(|&i| {
                        let date = plus_days(weather.first, i as i32);
                        day_in_year(date.year(), month_day) == Some(date)
                    })
                    .collect()
            }
            (None, None, Some(hours)) => (1..lengths.len())
                .filter(|&i| lengths[i] <= hours && lengths[i - 1] > hours)
                .collect(),
            _ => {
                return Err(Error::scenario(
                    place_in_file(),
                    "expected exactly one of warmth_sum, each_year and day_length_falls_to",
                ));
            }
        };
        for first in starts {
            spans.push(BloomSpan {
                plant: plant.plant.clone(),
                first,
                end: first + libm::round(plant.days) as usize,
                nectar: plant.nectar,
                pollen: plant.pollen,
            });
        }
    }
    order::by_key(&mut spans, |span| span.first as i64);
    Ok(spans)
}

/// A plant's name in a language; a name that is in no built-in bloom table stays as it is.
pub fn plant_in(name: &str, language: Language) -> &str {
    let known = &Language::English.words().weather.plants;
    let place = known.iter().position(|plant| *plant == name);
    place.map_or(name, |place| language.words().weather.plants[place])
}

/// The built-in bloom table of a forage type; empty for [`ForageType::Bare`].
///
/// Warmth sums after calendar lists of New Jersey and Vermont set against real records, and German
/// bloom lists; strengths are assumed.
pub fn built_in(forage: ForageType) -> Vec<Bloom> {
    use crate::scenario::BloomStart;
    let warmth = |plant: &str, sum: f64, days: f64, nectar: f64, pollen: f64| Bloom {
        plant: plant.to_owned(),
        starts: BloomStart {
            warmth_sum: Some(sum),
            ..BloomStart::default()
        },
        days,
        nectar,
        pollen,
    };
    let autumn = |plant: &str, hours: f64, days: f64, nectar: f64, pollen: f64| Bloom {
        plant: plant.to_owned(),
        starts: BloomStart {
            day_length_falls_to: Some(hours),
            ..BloomStart::default()
        },
        days,
        nectar,
        pollen,
    };
    match forage {
        ForageType::Mixed => vec![
            warmth("willow and maple", 200.0, 26.0, 0.15, 0.45),
            warmth("fruit trees", 530.0, 16.0, 0.55, 0.55),
            warmth("dandelion", 600.0, 25.0, 0.35, 0.60),
            warmth("bramble and hawthorn", 900.0, 30.0, 0.55, 0.30),
            warmth("white clover", 1150.0, 55.0, 0.85, 0.45),
            warmth("lime", 1600.0, 16.0, 0.70, 0.10),
            autumn("goldenrod and aster", 13.4, 48.0, 0.45, 0.55),
        ],
        ForageType::Orchard => vec![
            warmth("willow", 200.0, 24.0, 0.10, 0.45),
            warmth("fruit trees", 480.0, 22.0, 0.85, 0.75),
            warmth("dandelion", 600.0, 25.0, 0.35, 0.60),
            warmth("rape", 560.0, 24.0, 0.90, 0.70),
            warmth("white clover", 1150.0, 40.0, 0.35, 0.25),
            autumn("weeds and catch crops", 13.4, 40.0, 0.25, 0.35),
        ],
        ForageType::Meadow => vec![
            warmth("willow", 220.0, 21.0, 0.10, 0.35),
            warmth("dandelion", 620.0, 25.0, 0.45, 0.65),
            warmth("white clover", 1150.0, 60.0, 1.00, 0.50),
            warmth("knapweed and bird's-foot", 1500.0, 45.0, 0.45, 0.35),
            autumn("aster", 13.4, 40.0, 0.30, 0.40),
        ],
        ForageType::Woodland => vec![
            warmth("hazel, willow and maple", 180.0, 30.0, 0.20, 0.55),
            warmth("cherry and hawthorn", 540.0, 20.0, 0.45, 0.45),
            warmth("black locust", 900.0, 11.0, 1.00, 0.15),
            warmth("bramble", 1150.0, 35.0, 0.55, 0.45),
            warmth("lime", 1600.0, 16.0, 0.95, 0.10),
            autumn("ivy", 12.4, 40.0, 0.55, 0.55),
        ],
        ForageType::Dryland => vec![
            warmth("desert annuals", 500.0, 40.0, 0.25, 0.50),
            warmth("citrus", 800.0, 24.0, 0.75, 0.30),
            warmth("mesquite", 1500.0, 40.0, 0.80, 0.55),
            warmth("alfalfa", 2300.0, 90.0, 0.30, 0.25),
            autumn("late-summer desert bloom", 13.4, 50.0, 0.40, 0.50),
        ],
        ForageType::Bare => Vec::new(),
    }
}
