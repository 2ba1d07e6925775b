//! Telling the units of columns that do not state them: by exclusion, never by a guess.

use super::Field;
use super::names::Unit;
use super::raw::shown;
use crate::Error;
use crate::scenario::RecordUnits;

/// What the bare numbers of a record show about their units.
#[derive(Debug, Default)]
pub(super) struct Evidence {
    /// Largest and smallest temperature of the columns without a unit.
    pub warmest: Option<f64>,
    pub coldest: Option<f64>,
    /// A temperature (rain) with decimals stands in a column without a unit.
    pub fractional_temperature: bool,
    pub fractional_rain: bool,
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

impl Evidence {
    pub fn temperature(&mut self, value: f64) {
        self.warmest = Some(self.warmest.map_or(value, |warmest| warmest.max(value)));
        self.coldest = Some(self.coldest.map_or(value, |coldest| coldest.min(value)));
        self.fractional_temperature |= value.fract() != 0.0;
    }

    /// The only units that the numbers allow.
    ///
    /// Each rule excludes units that cannot be: tenths are whole numbers; no day is warmer than 60 °C or
    /// 135 °F; a place with bees has a day above 15 °C within a year; NOAA writes whole °F.
    pub fn tell(&self) -> Result<RecordUnits, Error> {
        let (Some(warmest), Some(coldest)) = (self.warmest, self.coldest) else {
            return self.refuse("the temperatures are stated, rain or wind is not");
        };
        let within = |(low, high): (f64, f64)| {
            (low..=high).contains(&coldest) && (low..=high).contains(&warmest)
        };
        let warm_enough = |fifteen_degrees: f64| !self.whole_year || warmest > fifteen_degrees;
        let tenths = !self.fractional_temperature
            && !self.fractional_rain
            && within((C_RANGE.0 * 10.0, C_RANGE.1 * 10.0))
            && warm_enough(150.0);
        let metric = within(C_RANGE) && warm_enough(15.0);
        let us =
            within(F_RANGE) && warm_enough(59.0) && !(self.noaa && self.fractional_temperature);
        match (
            tenths && !self.states_metric && !self.states_us,
            metric && !self.states_us,
            us && !self.states_metric,
        ) {
            (true, false, false) => Ok(RecordUnits::Tenths),
            (false, true, false) => Ok(RecordUnits::Metric),
            (false, false, true) => Ok(RecordUnits::Us),
            _ => self.refuse(&format!(
                "temperatures run from {} to {}",
                shown(coldest),
                shown(warmest)
            )),
        }
    }

    fn refuse(&self, seen: &str) -> Result<RecordUnits, Error> {
        // Rain beside stated temperatures follows their system.
        match (self.warmest.is_none(), self.states_metric, self.states_us) {
            (true, true, false) => return Ok(RecordUnits::Metric),
            (true, false, true) => return Ok(RecordUnits::Us),
            _ => {}
        }
        Err(Error::weather(
            "",
            format!(
                "the units cannot be told ({seen}): set `units` to \"tenths\" (0.1 °C, 0.1 mm), \
                 \"metric\" (°C, mm, m/s) or \"us\" (°F, inches, mph)"
            ),
        ))
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
    fn told_only_where_one_system_is_left() {
        use RecordUnits::{Metric, Tenths, Us};
        let plain = |_: &mut Evidence| {};
        // Beyond 135 only tenths are left.
        assert_eq!(evidence(&[267.0, -50.0], plain), Some(Tenths));
        // A summer in °F, or a cold spell in tenths? 61 could be 6.1 °C.
        assert_eq!(evidence(&[61.0, 40.0], plain), None);
        assert_eq!(
            evidence(&[61.0, 40.0], |e| e.fractional_rain = true),
            Some(Us)
        );
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
        // Nothing fits.
        assert_eq!(evidence(&[700.0], plain), None);
        // Stated temperatures carry the rain beside them.
        assert_eq!(evidence(&[], |e| e.states_us = true), Some(Us));
        assert_eq!(evidence(&[], plain), None);
    }
}
