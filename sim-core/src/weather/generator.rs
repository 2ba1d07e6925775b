//! A weather generator after Richardson (1981): wet and dry days, amounts, and two temperatures.
//!
//! Whether a day is wet depends on the day before (a two-state chain for each month); the amount has
//! a gamma distribution; the high and the low follow a seasonal mean and spread of their own for wet
//! and dry days, plus departures that carry over from the day before.
//! Richardson, C. W. (1981), Water Resources Research 17, 182-190; the constants for short records
//! as published with WGEN (Richardson & Wright 1984, USDA ARS-8).

use jiff::civil::{Date, date};
use rand::RngExt;
use rand_distr::{Distribution, Gamma, StandardNormal};

use super::carry_over::{CarryOver, PUBLISHED};
use super::month::{MonthClimate, Spread, climate};
use super::place_type;
use super::seasonal::{Seasonal, dry_and_wet, mean_of};
use super::{Origin, WET_DAY_MM, Weather, WeatherDay};
use crate::Error;
use crate::calendar::{days_between, plus_days};
use crate::rng::{Topic, stream};
use crate::words::Saying;

/// Days of a calendar month below which a record is too short to be fitted.
const FEWEST_DAYS_OF_A_MONTH: usize = 25;
/// Pairs of days below which the carry-over of departures is not fitted but taken as published.
const FEWEST_PAIRS: usize = 700;
/// The narrowest day that is drawn, °C.
const NARROWEST_DAY_C: f64 = 1.0;
/// Departures of a measured day beyond this many standard deviations do not carry over further.
const LARGEST_DEPARTURE: f64 = 3.5;

/// Draws days that resemble those of a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Generator {
    months: [Rain; 12],
    high: [Seasonal; 2],
    low: [Seasonal; 2],
    wind: Option<[Spread; 12]>,
    carry_over: CarryOver,
}

/// What tomorrow needs to know about today.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct State {
    wet: bool,
    /// Departures of the high and the low from what is usual, in standard deviations.
    departure: [f64; 2],
}

/// Rain of one month.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Rain {
    wet_after_dry: f64,
    wet_after_wet: f64,
    mean_mm: f64,
    shape: f64,
}

impl Generator {
    /// The generator of a record with at least 25 measured days of each calendar month.
    ///
    /// # Errors
    ///
    /// Names the month with too few days.
    pub fn fit(weather: &Weather) -> Result<Self, Error> {
        let months = climate(weather);
        for (index, month) in months.iter().enumerate() {
            if month.days < FEWEST_DAYS_OF_A_MONTH {
                return Err(Error::weather(
                    "",
                    format!(
                        "the weather generator needs at least {FEWEST_DAYS_OF_A_MONTH} measured days of each \
                         month; month {} has {}",
                        index + 1,
                        month.days
                    ),
                ));
            }
        }
        let mut generator = Self::from_months(&months)?;
        if let Some(fitted) = generator.fit_carry_over(weather) {
            generator.carry_over = fitted;
        }
        Ok(generator)
    }

    /// The generator of a record, however short: where it cannot be fitted, the built-in place type
    /// that comes closest, made warmer or cooler as the record is. With a sentence for the report.
    ///
    /// # Errors
    ///
    /// Where the record has no measured day at all.
    pub fn for_record(weather: &Weather) -> Result<(Self, Option<Saying>), Error> {
        if let Ok(fitted) = Self::fit(weather) {
            return Ok((fitted, None));
        }
        let mut best: Option<(f64, Self, &str, [f64; 2])> = None;
        for place in place_type::PLACE_TYPES {
            let northern = Self::place_type(place.name)?;
            for candidate in [northern.half_a_year_later(), northern] {
                let Some((distance, offset)) = candidate.distance(weather) else {
                    continue;
                };
                if best.as_ref().is_none_or(|(least, ..)| distance < *least) {
                    best = Some((distance, candidate, place.name, offset));
                }
            }
        }
        let Some((_, mut generator, name, [high, low])) = best else {
            return Err(Error::weather("", "no measured day to go on from"));
        };
        for seasonal in &mut generator.high {
            seasonal.mean.iter_mut().for_each(|mean| *mean += high);
        }
        for seasonal in &mut generator.low {
            seasonal.mean.iter_mut().for_each(|mean| *mean += low);
        }
        let note = Saying::new(|words| words.weather.too_short)
            .text("name", name)
            .text("high", format!("{high:+.1}"))
            .text("low", format!("{low:+.1}"));
        Ok((generator, Some(note)))
    }

    /// The generator of a built-in place type, as it is in the northern hemisphere.
    ///
    /// # Errors
    ///
    /// Where there is no such type: lists the types there are.
    pub fn place_type(name: &str) -> Result<Self, Error> {
        let months = place_type::months(name)?;
        Self::from_months(&months)
    }

    /// The same climate in the other hemisphere.
    #[must_use]
    pub fn half_a_year_later(&self) -> Self {
        let mut other = self.clone();
        other.months.rotate_left(6);
        for seasonal in other.high.iter_mut().chain(&mut other.low) {
            seasonal.mean.rotate_left(6);
            seasonal.sd.rotate_left(6);
        }
        if let Some(wind) = &mut other.wind {
            wind.rotate_left(6);
        }
        other
    }

    fn from_months(months: &[MonthClimate; 12]) -> Result<Self, Error> {
        let [high_dry, high_wet] =
            dry_and_wet(months, |month| month.high_dry, |month| month.high_wet)?;
        let [low_dry, low_wet] = dry_and_wet(months, |month| month.low_dry, |month| month.low_wet)?;
        let never = || Error::weather("", "the record has too few wet days to draw rain");
        let usual =
            |value: fn(&MonthClimate) -> Option<f64>| mean_of(months.iter().filter_map(value));
        let after_wet = usual(|month| month.wet_after_wet).unwrap_or(0.3);
        let shape = usual(|month| month.wet_shape).unwrap_or(0.8);
        let amount = usual(|month| month.wet_mm).ok_or_else(never)?;
        let rain = months.map(|month| Rain {
            wet_after_dry: month.wet_after_dry.unwrap_or(month.wet_share),
            wet_after_wet: month.wet_after_wet.unwrap_or(after_wet),
            mean_mm: month.wet_mm.unwrap_or(amount),
            shape: month.wet_shape.unwrap_or(shape),
        });
        let wind: Vec<Spread> = months.iter().filter_map(|month| month.wind).collect();
        Ok(Self {
            months: rain,
            high: [Seasonal::through(high_dry), Seasonal::through(high_wet)],
            low: [Seasonal::through(low_dry), Seasonal::through(low_wet)],
            wind: wind.try_into().ok(),
            carry_over: PUBLISHED,
        })
    }

    /// What is usual on a date, high then low.
    fn usual(&self, date: Date, wet: bool) -> [Spread; 2] {
        [
            self.high[usize::from(wet)].on(date),
            self.low[usize::from(wet)].on(date),
        ]
    }

    /// The state after a day with this weather, from which [`Generator::next`] goes on.
    pub fn state_of(&self, date: Date, day: &WeatherDay) -> State {
        let wet = day.is_wet();
        let [high, low] = self.usual(date, wet);
        let departure = |value: f64, usual: Spread| {
            ((value - usual.mean) / usual.sd).clamp(-LARGEST_DEPARTURE, LARGEST_DEPARTURE)
        };
        State {
            wet,
            departure: [departure(day.high_c, high), departure(day.low_c, low)],
        }
    }

    /// Draws one day from the state that the day before left, and moves the state on.
    ///
    /// What is drawn depends on the seed, the member and the date only, so it does not matter which
    /// days have been drawn before; what comes of it depends on the state as well.
    pub fn next(&self, state: &mut State, date: Date, seed: u32, member: u32) -> WeatherDay {
        let mut random = stream(seed, member, Topic::Weather, day_number(date));
        let chance: f64 = random.random();
        let fresh: [f64; 2] = [
            StandardNormal.sample(&mut random),
            StandardNormal.sample(&mut random),
        ];
        let rain = &self.months[date.month() as usize - 1];
        let wet = chance
            < if state.wet {
                rain.wet_after_wet
            } else {
                rain.wet_after_dry
            };
        let before = state.departure;
        let CarryOver { kept, fresh: new } = self.carry_over;
        let departure = [0, 1].map(|i| {
            kept[i][0] * before[0]
                + kept[i][1] * before[1]
                + new[i][0] * fresh[0]
                + new[i][1] * fresh[1]
        });
        *state = State { wet, departure };

        let [high, low] = self.usual(date, wet);
        let mut high_c = high.mean + high.sd * departure[0];
        let mut low_c = low.mean + low.sd * departure[1];
        if high_c - low_c < NARROWEST_DAY_C {
            let middle = (high_c + low_c) / 2.0;
            high_c = middle + NARROWEST_DAY_C / 2.0;
            low_c = middle - NARROWEST_DAY_C / 2.0;
        }
        let rain_mm = if wet {
            gamma(rain.mean_mm, rain.shape, &mut random).max(WET_DAY_MM)
        } else {
            0.0
        };
        let wind_m_s = self.wind.map(|months| {
            let Spread { mean, sd } = months[date.month() as usize - 1];
            gamma(
                mean,
                (mean / sd.max(0.01)) * (mean / sd.max(0.01)),
                &mut random,
            )
        });
        WeatherDay {
            high_c,
            low_c,
            rain_mm,
            wind_m_s,
            sun_mj_m2: None,
            origin: Origin::Generated,
        }
    }

    /// Draws the days from `first` to `last` for a place without a record.
    ///
    /// The chain starts a year before `first`, so that its start does not show.
    pub fn days(&self, first: Date, last: Date, seed: u32, member: u32) -> Weather {
        const RUN_UP_DAYS: i32 = 365;
        let mut state = State::default();
        for back in (1..=RUN_UP_DAYS).rev() {
            self.next(&mut state, plus_days(first, -back), seed, member);
        }
        let days = (0..=days_between(first, last))
            .map(|day| self.next(&mut state, plus_days(first, day), seed, member))
            .collect();
        Weather { first, days }
    }

    /// Fits the carry-over of departures to a record; `None` where it is short or the fit is no process
    /// that could go on for ever.
    fn fit_carry_over(&self, weather: &Weather) -> Option<CarryOver> {
        let mut same = [[0.0; 2]; 2];
        let mut lagged = [[0.0; 2]; 2];
        let mut pairs = 0;
        let mut before: Option<[f64; 2]> = None;
        for (date, day) in weather.dated() {
            let now = (day.origin == Origin::Measured).then(|| self.state_of(date, day).departure);
            if let (Some(now), Some(before)) = (now, before) {
                pairs += 1;
                for i in 0..2 {
                    for j in 0..2 {
                        same[i][j] += now[i] * now[j];
                        lagged[i][j] += now[i] * before[j];
                    }
                }
            }
            before = now;
        }
        if pairs < FEWEST_PAIRS {
            return None;
        }
        CarryOver::from_moments(
            same.map(|row| row.map(|sum| sum / pairs as f64)),
            lagged.map(|row| row.map(|sum| sum / pairs as f64)),
        )
    }

    /// How far a record lies from this climate, and the mean by which its highs and lows are warmer.
    fn distance(&self, weather: &Weather) -> Option<(f64, [f64; 2])> {
        let (mut count, mut squares, mut offset) = (0.0, 0.0, [0.0; 2]);
        let (mut wet, mut wet_expected) = (0.0, 0.0);
        for (date, day) in weather
            .dated()
            .filter(|(_, day)| day.origin == Origin::Measured)
        {
            let [high, low] = self.usual(date, day.is_wet());
            let off = [day.high_c - high.mean, day.low_c - low.mean];
            count += 1.0;
            squares += off[0] * off[0] + off[1] * off[1];
            offset = [offset[0] + off[0], offset[1] + off[1]];
            let rain = &self.months[date.month() as usize - 1];
            wet += f64::from(day.is_wet());
            wet_expected += rain.wet_after_dry / (1.0 + rain.wet_after_dry - rain.wet_after_wet);
        }
        // A tenth more wet days weighs as much as one degree.
        let wetter = 10.0 * (wet - wet_expected) / count;
        (count > 0.0).then(|| {
            (
                squares / count + wetter * wetter,
                offset.map(|sum| sum / count),
            )
        })
    }
}

/// A draw from the gamma distribution with this mean and shape; the mean where there is no such distribution.
fn gamma(mean: f64, shape: f64, random: &mut rand_pcg::Pcg64Mcg) -> f64 {
    Gamma::new(shape, mean / shape).map_or(mean, |distribution| distribution.sample(random))
}

/// Days since the year 1: one date has one weather, whenever a season starts.
fn day_number(day: Date) -> u32 {
    days_between(date(1, 1, 1), day).unsigned_abs()
}
