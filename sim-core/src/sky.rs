//! Day length, radiation and the temperature of each hour, from the calendar and the day's extremes.

use std::f64::consts::PI;

/// Day length in hours, sunrise to sunset with refraction (Forsythe et al. 1995).
///
/// `latitude` in degrees, north positive; `day_of_year` 1..=366. 0 to 24; within 0.09 h of an
/// ephemeris from 55° south to 60° north (tested).
pub fn day_length_h(latitude: f64, day_of_year: f64) -> f64 {
    // The centre of the sun stands 0.8333° under the horizon when its upper edge appears.
    const HORIZON_DEG: f64 = 0.8333;
    let turn =
        0.216_310_8 + 2.0 * libm::atan(0.967_139_6 * libm::tan(0.008_60 * (day_of_year - 186.0)));
    let declination = libm::asin(0.397_95 * libm::cos(turn));
    let latitude = latitude.to_radians();
    let cosine = (libm::sin(HORIZON_DEG.to_radians())
        + libm::sin(latitude) * libm::sin(declination))
        / (libm::cos(latitude) * libm::cos(declination));
    24.0 - 24.0 / PI * libm::acos(cosine.clamp(-1.0, 1.0))
}

/// Radiation above the atmosphere, MJ/m² in a day (FAO-56 equations 21 to 25; Allen et al. 1998).
pub fn radiation_above_mj_m2(latitude: f64, day_of_year: f64) -> f64 {
    let angle = 2.0 * PI * day_of_year / 365.0;
    let distance = 1.0 + 0.033 * libm::cos(angle);
    let declination = 0.409 * libm::sin(angle - 1.39);
    let latitude = latitude.to_radians();
    let sunset = libm::acos((-libm::tan(latitude) * libm::tan(declination)).clamp(-1.0, 1.0));
    24.0 * 60.0 / PI
        * 0.0820
        * distance
        * (sunset * libm::sin(latitude) * libm::sin(declination)
            + libm::cos(latitude) * libm::cos(declination) * libm::sin(sunset))
}

/// Radiation at the ground, MJ/m² in a day, from the day's temperature range
/// (Hargreaves & Samani 1982; FAO-56 equations 37 and 50).
///
/// `coefficient` is 0.16 inland, 0.19 at a coast.
pub fn radiation_from_range_mj_m2(
    above_mj_m2: f64,
    high_c: f64,
    low_c: f64,
    coefficient: f64,
    elevation_m: f64,
) -> f64 {
    let clear_sky = (0.75 + 2e-5 * elevation_m) * above_mj_m2;
    (coefficient * f64::sqrt((high_c - low_c).max(0.0)) * above_mj_m2).min(clear_sky)
}

/// Degree days above `base_c` from the mean of the day's extremes, °C d; 0 where the mean lies below.
pub fn degree_days(high_c: f64, low_c: f64, base_c: f64) -> f64 {
    ((high_c + low_c) / 2.0 - base_c).max(0.0)
}

/// Degree days above `base_c` under a sine wave from the low to the high, °C d
/// (Baskerville & Emin 1969).
///
/// The mean over the day of how far the wave stands above the base, so never less than [`degree_days`].
pub fn degree_days_under_sine(high_c: f64, low_c: f64, base_c: f64) -> f64 {
    if low_c >= base_c || high_c <= base_c {
        return degree_days(high_c, low_c, base_c);
    }
    let (middle, half) = ((high_c + low_c) / 2.0, (high_c - low_c) / 2.0);
    // Where the wave passes the base, as an angle from its middle.
    let crossing = libm::asin((base_c - middle) / half);
    ((middle - base_c) * (PI / 2.0 - crossing) + half * libm::cos(crossing)) / PI
}

/// Air temperature by the hour of one day (Parton & Logan 1981, air at 1.5 m).
#[derive(Debug, Clone, Copy)]
pub struct HourlyTemperature {
    day_length_h: f64,
    sunrise_h: f64,
    high_c: f64,
    low_c: f64,
    next_low_c: f64,
    sunset_c: f64,
    previous_sunset_c: f64,
}

impl HourlyTemperature {
    /// Lag of the maximum after solar noon, h.
    const LAG_OF_MAXIMUM_H: f64 = 1.86;
    /// Speed of cooling through the night.
    const NIGHT_COOLING: f64 = 2.20;
    /// Lag of the minimum after sunrise, h.
    const LAG_OF_MINIMUM_H: f64 = -0.17;

    /// The day's curve; `previous_high_c` is yesterday's maximum and `next_low_c` tomorrow's minimum.
    pub fn new(
        day_length_h: f64,
        high_c: f64,
        low_c: f64,
        previous_high_c: f64,
        next_low_c: f64,
    ) -> Self {
        let mut curve = Self {
            day_length_h,
            sunrise_h: 12.0 - day_length_h / 2.0,
            high_c,
            low_c,
            next_low_c,
            sunset_c: 0.0,
            previous_sunset_c: 0.0,
        };
        let sunset_h = 12.0 + day_length_h / 2.0;
        curve.sunset_c = curve.by_day(sunset_h);
        // Yesterday's sunset, with yesterday's range taken to start from today's minimum.
        let share = (curve.sunset_c - low_c) / (high_c - low_c).max(0.01);
        curve.previous_sunset_c = low_c + (previous_high_c - low_c) * share;
        curve
    }

    fn by_day(&self, hour: f64) -> f64 {
        let since_minimum = hour - (self.sunrise_h + Self::LAG_OF_MINIMUM_H);
        self.low_c
            + (self.high_c - self.low_c)
                * libm::sin(PI * since_minimum / (self.day_length_h + 2.0 * Self::LAG_OF_MAXIMUM_H))
    }

    /// Temperature in °C at a solar hour (0 to 24, noon 12).
    pub fn at(&self, hour: f64) -> f64 {
        let sunset_h = 12.0 + self.day_length_h / 2.0;
        let night_h = (24.0 - self.day_length_h).max(0.01);
        if hour < self.sunrise_h + Self::LAG_OF_MINIMUM_H {
            let since_sunset = hour + 24.0 - sunset_h;
            self.low_c
                + (self.previous_sunset_c - self.low_c)
                    * libm::exp(-Self::NIGHT_COOLING * since_sunset / night_h)
        } else if hour <= sunset_h {
            self.by_day(hour)
        } else {
            self.next_low_c
                + (self.sunset_c - self.next_low_c)
                    * libm::exp(-Self::NIGHT_COOLING * (hour - sunset_h) / night_h)
        }
    }
}
