//! Daily weather: reading station records, mending them, and going on after their last day.

use jiff::civil::Date;

/// Where a day's weather came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Origin {
    /// Read from a record as it stands.
    Measured,
    /// Missing or faulty in the record and filled in.
    Filled,
    /// Typed by hand in the scenario.
    Typed,
    /// Changed by a rain spell of the scenario.
    Spell,
    /// Drawn by the weather generator.
    Generated,
}

/// One day's weather.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct WeatherDay {
    /// Highest air temperature, °C.
    pub high_c: f64,
    /// Lowest air temperature, °C.
    pub low_c: f64,
    /// Rain and melted snow, mm.
    pub rain_mm: f64,
    /// Mean wind at the height of the station's instrument, m/s; `None` where it was not measured.
    pub wind_m_s: Option<f64>,
    /// Solar radiation, MJ/m²; `None` where it was not measured (then it is estimated).
    pub sun_mj_m2: Option<f64>,
    /// Where it came from.
    pub origin: Origin,
}

/// An unbroken run of days.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Weather {
    /// First day.
    pub first: Date,
    /// One entry a day from `first` on, none missing.
    pub days: Vec<WeatherDay>,
}
