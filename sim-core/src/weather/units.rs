//! Telling the units of columns that do not state them: by exclusion, never by a guess.

use super::Field;
use super::names::Unit;
use super::raw::shown;
use crate::Error;
use crate::order;
use crate::scenario::RecordUnits;

/// What the bare numbers of a record show about their units.
///
/// They are told from the bulk of the numbers. One number typed wrong proves nothing: it is found, and named by its
/// line, once the units are known.
#[derive(Debug, Default)]
pub(super) struct Evidence {
    /// Temperatures of columns without a unit, and how many of them have decimals.
    pub temperatures: Vec<f64>,
    pub fractional_temperatures: usize,
    /// From low to high of each day, where neither states a unit.
    pub ranges: Vec<f64>,
    /// Rain of wet days in a column without a unit, and how many of them have decimals.
    pub wet: Vec<f64>,
    pub fractional_rain: usize,
    /// All twelve months have temperatures.
    pub whole_year: bool,
    /// The export is NOAA's, which gives whole degrees Fahrenheit.
    pub noaa: bool,
    /// Other columns state °C or mm; °F or inches.
    pub states_metric: bool,
    pub states_us: bool,
}

/// The hottest and coldest days on earth, with room to spare: °F beyond them are no temperatures.
const F_RANGE: (f64, f64) = (-130.0, 135.0);
const C_RANGE: (f64, f64) = (-90.0, 60.0);

/// From low to high on a middling day, K: under thick cloud on a coast, and in a desert, with room to spare.
const DAY_RANGE_K: (f64, f64) = (2.0, 25.0);

/// Rain of a middling wet day, mm, with room to spare, and wet days that it takes to say so.
const WET_DAY_RANGE_MM: (f64, f64) = (0.2, 40.0);
const WET_DAYS: usize = 10;

/// One number of this many may be a fault.
const ONE_FAULT_IN: usize = 50;

impl Evidence {
    pub fn temperature(&mut self, value: f64) {
        self.temperatures.push(value);
        self.fractional_temperatures += usize::from(value.fract() != 0.0);
    }

    pub fn rain(&mut self, value: f64) {
        if value > 0.0 {
            self.wet.push(value);
            self.fractional_rain += usize::from(value.fract() != 0.0);
        }
    }

    /// High and low of one day.
    pub fn day(&mut self, high: f64, low: f64) {
        self.ranges.push(high - low);
    }

    /// The only units that the numbers allow.
    ///
    /// Each rule excludes units that cannot be: tenths are whole numbers; no day is warmer than 60 °C or
    /// 135 °F; a place with bees has days above 15 °C within a year; from low to high are 2 to 25 K on
    /// a middling day; a middling wet day has 0.2 to 40 mm; NOAA writes whole °F.
    pub fn tell(&self) -> Result<RecordUnits, Error> {
        let sorted = |numbers: &[f64]| {
            let mut numbers = numbers.to_vec();
            order::numbers(&mut numbers);
            numbers
        };
        let temperatures = sorted(&self.temperatures);
        let aside = set_aside(temperatures.len());
        let (Some(&coldest), Some(&warmest)) = (
            temperatures.get(aside),
            temperatures.iter().rev().nth(aside),
        ) else {
            return self.refuse("the temperatures are stated, rain or wind is not");
        };
        let middle = |numbers: Vec<f64>| numbers.get(numbers.len() / 2).copied();
        let day_range = middle(sorted(&self.ranges));
        let wet_day = (self.wet.len() >= WET_DAYS)
            .then(|| middle(sorted(&self.wet)))
            .flatten();

        let within = |(low, high): (f64, f64), value: f64| (low..=high).contains(&value);
        let temperate = |range| within(range, coldest) && within(range, warmest);
        let warm_enough = |fifteen_degrees: f64| !self.whole_year || warmest > fifteen_degrees;
        let days_can_be =
            |kelvin: f64| day_range.is_none_or(|range| within(DAY_RANGE_K, range * kelvin));
        let rain_can_be = |mm: f64| wet_day.is_none_or(|rain| within(WET_DAY_RANGE_MM, rain * mm));
        let decimal_temperatures = self.fractional_temperatures > set_aside(temperatures.len());
        let decimal_rain = self.fractional_rain > set_aside(self.wet.len());

        let tenths = !decimal_temperatures
            && !decimal_rain
            && temperate((C_RANGE.0 * 10.0, C_RANGE.1 * 10.0))
            && warm_enough(150.0)
            && days_can_be(0.1)
            && rain_can_be(0.1);
        let metric =
            temperate(C_RANGE) && warm_enough(15.0) && days_can_be(1.0) && rain_can_be(1.0);
        let us = temperate(F_RANGE)
            && warm_enough(59.0)
            && !(self.noaa && decimal_temperatures)
            && days_can_be(1.0 / 1.8)
            && rain_can_be(25.4);
        match (
            tenths && !self.states_metric && !self.states_us,
            metric && !self.states_us,
            us && !self.states_metric,
        ) {
            (true, false, false) => Ok(RecordUnits::Tenths),
            (false, true, false) => Ok(RecordUnits::Metric),
            (false, false, true) => Ok(RecordUnits::Us),
            _ => self.refuse(&format!(
                "most temperatures run from {} to {}",
                shown(coldest),
                shown(warmest)
            )),
        }
    }

    fn refuse(&self, seen: &str) -> Result<RecordUnits, Error> {
        // Rain beside stated temperatures follows their system.
        match (
            self.temperatures.is_empty(),
            self.states_metric,
            self.states_us,
        ) {
            (true, true, false) => return Ok(RecordUnits::Metric),
            (true, false, true) => return Ok(RecordUnits::Us),
            _ => {}
        }
        Err(Error::weather(
            "",
            format!(
                "the units cannot be told ({seen}): set `units` to \"tenths\" (0.1 °C, 0.1 mm), \
                 \"metric\" (°C, mm, m/s) or \"us\" (°F, inches, mph); in a scenario under [weather], \
                 on the command line with --units-of-file; or name them in the headings (high_c, low_c, rain_mm)"
            ),
        ))
    }
}

/// So many of sorted numbers are left out at each end: a few faults decide nothing.
fn set_aside(count: usize) -> usize {
    if count < 20 {
        0
    } else {
        count.div_ceil(ONE_FAULT_IN)
    }
}

/// The reading of a bare number in °C, mm or m/s.
pub(super) fn ours(units: RecordUnits, field: Field, value: f64) -> f64 {
    match (units, field) {
        (RecordUnits::Tenths, _) => value / 10.0,
        (RecordUnits::Metric, _) => value,
        (RecordUnits::Us, Field::High | Field::Low) => Unit::Fahrenheit.ours(value),
        (RecordUnits::Us, Field::Rain) => Unit::Inch.ours(value),
        (RecordUnits::Us, _) => Unit::MilePerHour.ours(value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn evidence(temperatures: &[f64], change: impl FnOnce(&mut Evidence)) -> Option<RecordUnits> {
        let mut evidence = Evidence::default();
        temperatures
            .iter()
            .for_each(|&value| evidence.temperature(value));
        change(&mut evidence);
        evidence.tell().ok()
    }

    #[test]
    fn one_number_decides_nothing() {
        use RecordUnits::{Metric, Tenths, Us};
        // A year of months from -3 to 30 °C, in °C, tenths and °F; then one number typed wrong.
        let celsius: Vec<f64> = (0..60).map(|i| f64::from(i % 12) * 3.0 - 3.5).collect();
        let whole = |e: &mut Evidence| e.whole_year = true;
        for (scale, offset, units, fault) in [
            (1.0, 0.0, Metric, 91.5),
            (1.0, 0.0, Metric, 195.0),
            (10.0, 0.0, Tenths, 19.5),
            (1.8, 32.0, Us, 685.0),
        ] {
            let mut numbers: Vec<f64> = celsius
                .iter()
                .map(|t| (t * scale + offset).round())
                .collect();
            if units == Metric {
                numbers.clone_from(&celsius);
            }
            assert_eq!(evidence(&numbers, whole), Some(units), "{units:?}");
            numbers[30] = fault;
            assert_eq!(
                evidence(&numbers, whole),
                Some(units),
                "{units:?} with {fault}"
            );
        }
    }

    #[test]
    fn told_only_where_one_system_is_left() {
        use RecordUnits::{Metric, Tenths, Us};
        let plain = |_: &mut Evidence| {};
        // Beyond 135 only tenths are left.
        assert_eq!(evidence(&[267.0, -50.0], plain), Some(Tenths));
        // A summer in °F, or a cold spell in tenths? 61 could be 6.1 °C.
        assert_eq!(evidence(&[61.0, 40.0], plain), None);
        assert_eq!(evidence(&[61.0, 40.0], |e| e.rain(0.2)), Some(Us));
        assert_eq!(evidence(&[95.0, 10.0], |e| e.whole_year = true), Some(Us));
        // A short run of whole numbers between 10 and 20 can be anything.
        assert_eq!(evidence(&[20.0, 10.0], plain), None);
        assert_eq!(
            evidence(&[20.0, 10.0], |e| e.whole_year = true),
            Some(Metric)
        );
        // Decimals: °C, or °F in a file that is not NOAA's.
        assert_eq!(evidence(&[20.5, 10.0], plain), None);
        assert_eq!(evidence(&[20.5, 10.0], |e| e.noaa = true), Some(Metric));
        assert_eq!(
            evidence(&[20.5, 10.0], |e| e.whole_year = true),
            Some(Metric)
        );
        // From low to high are no 1.5 K on a middling day; and no wet day in the middle has 5 inches.
        let days = |e: &mut Evidence| (0..9).for_each(|_| e.day(20.0, 10.0));
        assert_eq!(evidence(&[20.0, 10.0], days), None);
        let rain = |e: &mut Evidence| {
            days(e);
            (0..10).for_each(|_| e.rain(5.0));
        };
        assert_eq!(evidence(&[20.0, 10.0], rain), Some(Metric));
        // Nothing fits.
        assert_eq!(evidence(&[700.0], plain), None);
        // Stated temperatures carry the rain beside them.
        assert_eq!(evidence(&[], |e| e.states_us = true), Some(Us));
        assert_eq!(evidence(&[], plain), None);
    }
}
