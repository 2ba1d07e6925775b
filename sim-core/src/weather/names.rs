//! Names of columns: what a heading such as `Tmax (°C)`, `low_f` or `RAIN mm` means.

use super::Field;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Column {
    Date,
    Year,
    Month,
    Day,
    DayOfYear,
    YearAndDay,
    Station,
    StationName,
    Latitude,
    Elevation,
    Reading(Field, Option<Unit>),
    /// The three flags that NOAA puts beside a reading.
    Attributes(Field),
    MultiDayRain,
    MultiDayCount,
    Unknown,
}

/// Units that a heading can name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unit {
    Celsius,
    Fahrenheit,
    Millimetre,
    Inch,
    MetrePerSecond,
    KilometrePerHour,
    MilePerHour,
    Knot,
    Megajoule,
    Watt,
}

/// A kind of column that a table can have, with the headings that are understood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NamedColumn {
    /// What it holds.
    pub what: &'static str,
    /// Headings, in small letters; blanks, brackets and signs count as `_`.
    pub names: &'static [&'static str],
    /// Endings that state a unit; without one the units of the record must be told or given.
    pub units: &'static [&'static str],
}

const DATE: &[&str] = &["date"];
const YEAR: &[&str] = &["year"];
const MONTH: &[&str] = &["month"];
const DAY: &[&str] = &["day"];
const DAY_OF_YEAR: &[&str] = &["doy", "day_of_year", "julian_day"];
const YEAR_AND_DAY: &[&str] = &["year_doy"];
const STATION: &[&str] = &["station", "station_id", "id", "location", "site"];
const STATION_NAME: &[&str] = &["name", "station_name"];
const LATITUDE: &[&str] = &["latitude", "lat"];
const ELEVATION: &[&str] = &["elevation", "elevation_m"];
const HIGH: &[&str] = &[
    "high",
    "tmax",
    "t_max",
    "temp_max",
    "max_temp",
    "maxtemp",
    "tempmax",
    "temperature_max",
    "max_temperature",
    "maximum_temperature",
    "temperature_2m_max",
];
const LOW: &[&str] = &[
    "low",
    "tmin",
    "t_min",
    "temp_min",
    "min_temp",
    "mintemp",
    "tempmin",
    "temperature_min",
    "min_temperature",
    "minimum_temperature",
    "temperature_2m_min",
];
const RAIN: &[&str] = &[
    "rain",
    "rainfall",
    "precipitation",
    "precip",
    "prcp",
    "rain_sum",
    "precipitation_sum",
];
const WIND: &[&str] = &[
    "wind",
    "wind_speed",
    "windspeed",
    "wind_mean",
    "wndsp",
    "awnd",
];
const SUN: &[&str] = &[
    "sun",
    "srad",
    "solar",
    "radiation",
    "solar_radiation",
    "shortwave_radiation_sum",
];

const TEMPERATURE_UNITS: &[&str] = &[
    "_c",
    "_degc",
    "_deg_c",
    "_celsius",
    "_f",
    "_degf",
    "_deg_f",
    "_fahrenheit",
];
const RAIN_UNITS: &[&str] = &["_mm", "_in", "_inch", "_inches"];
const WIND_UNITS: &[&str] = &[
    "_m_s", "_ms", "_mps", "_km_h", "_kmh", "_kph", "_mph", "_kn", "_kt", "_knots",
];
const SUN_UNITS: &[&str] = &["_mj_m2", "_mj_m", "_mj", "_w_m2", "_w_m", "_w"];

/// The columns that are read from a table with named columns, in any order. Others are left out and
/// named in the report. Needed: a date (in one, two or three columns), high, low and rain.
pub fn columns() -> Vec<NamedColumn> {
    let column = |what, names, units| NamedColumn { what, names, units };
    vec![
        column(
            "date, as 2026-04-30, 2026/04/30, 20260430 or 30.4.2026",
            DATE,
            &[],
        ),
        column("year and day of the year, as 2026-120", YEAR_AND_DAY, &[]),
        column(
            "year, with month and day or with the day of the year",
            YEAR,
            &[],
        ),
        column("month, 1 to 12", MONTH, &[]),
        column("day of the month", DAY, &[]),
        column("day of the year, 1 to 366", DAY_OF_YEAR, &[]),
        column("station, where the file holds several", STATION, &[]),
        column("name of the station", STATION_NAME, &[]),
        column("latitude, degrees", LATITUDE, &[]),
        column("height above the sea, m", ELEVATION, &[]),
        column("highest temperature of the day", HIGH, TEMPERATURE_UNITS),
        column("lowest temperature of the day", LOW, TEMPERATURE_UNITS),
        column("rain and melted snow", RAIN, RAIN_UNITS),
        column("mean wind", WIND, WIND_UNITS),
        column("solar radiation; read only with a unit", SUN, SUN_UNITS),
    ]
}

/// A heading in small letters, with one `_` in place of everything else.
pub(crate) fn plain(heading: &str) -> String {
    let mut name = String::new();
    for character in heading.trim().chars() {
        if character.is_ascii_alphanumeric() {
            name.push(character.to_ascii_lowercase());
        } else if character == '²' {
            name.push('2');
        } else if !name.is_empty() && !name.ends_with('_') {
            name.push('_');
        }
    }
    name.trim_end_matches('_').to_owned()
}

/// What a heading means.
pub(super) fn meaning(heading: &str) -> Column {
    let name = plain(heading);
    let name = name.as_str();
    for (names, column) in [
        (DATE, Column::Date),
        (YEAR, Column::Year),
        (MONTH, Column::Month),
        (DAY, Column::Day),
        (DAY_OF_YEAR, Column::DayOfYear),
        (YEAR_AND_DAY, Column::YearAndDay),
        (STATION, Column::Station),
        (STATION_NAME, Column::StationName),
        (LATITUDE, Column::Latitude),
        (ELEVATION, Column::Elevation),
        (&["mdpr"], Column::MultiDayRain),
        (&["dapr"], Column::MultiDayCount),
    ] {
        if names.contains(&name) {
            return column;
        }
    }
    if let Some(field) = name.strip_suffix("_attributes").and_then(field_named) {
        return Column::Attributes(field);
    }
    if let Some(field) = field_named(name) {
        return Column::Reading(field, None);
    }
    for suffixes in [TEMPERATURE_UNITS, RAIN_UNITS, WIND_UNITS, SUN_UNITS] {
        for suffix in suffixes {
            if let Some(field) = name.strip_suffix(suffix).and_then(field_named)
                && suffixes == units_of(field)
            {
                return Column::Reading(field, Some(unit_of(suffix)));
            }
        }
    }
    Column::Unknown
}

fn field_named(name: &str) -> Option<Field> {
    [
        (HIGH, Field::High),
        (LOW, Field::Low),
        (RAIN, Field::Rain),
        (WIND, Field::Wind),
        (SUN, Field::Sun),
    ]
    .into_iter()
    .find_map(|(names, field)| names.contains(&name).then_some(field))
}

fn units_of(field: Field) -> &'static [&'static str] {
    match field {
        Field::High | Field::Low => TEMPERATURE_UNITS,
        Field::Rain => RAIN_UNITS,
        Field::Wind => WIND_UNITS,
        Field::Sun => SUN_UNITS,
    }
}

fn unit_of(suffix: &str) -> Unit {
    match suffix {
        "_c" | "_degc" | "_deg_c" | "_celsius" => Unit::Celsius,
        "_f" | "_degf" | "_deg_f" | "_fahrenheit" => Unit::Fahrenheit,
        "_mm" => Unit::Millimetre,
        "_in" | "_inch" | "_inches" => Unit::Inch,
        "_m_s" | "_ms" | "_mps" => Unit::MetrePerSecond,
        "_km_h" | "_kmh" | "_kph" => Unit::KilometrePerHour,
        "_mph" => Unit::MilePerHour,
        "_kn" | "_kt" | "_knots" => Unit::Knot,
        "_mj_m2" | "_mj_m" | "_mj" => Unit::Megajoule,
        _ => Unit::Watt,
    }
}

impl Unit {
    /// The reading in °C, mm, m/s or MJ/m².
    pub fn ours(self, value: f64) -> f64 {
        match self {
            Self::Celsius | Self::Millimetre | Self::MetrePerSecond | Self::Megajoule => value,
            Self::Fahrenheit => (value - 32.0) / 1.8,
            Self::Inch => value * 25.4,
            Self::KilometrePerHour => value / 3.6,
            Self::MilePerHour => value * 0.447_04,
            Self::Knot => value * 1852.0 / 3600.0,
            // A mean power over the 86,400 seconds of a day.
            Self::Watt => value * 0.0864,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_as_people_write_them() {
        let reading = |field, unit| Column::Reading(field, Some(unit));
        for (heading, expected) in [
            ("DATE", Column::Date),
            ("Year-DOY", Column::YearAndDay),
            ("TMAX", Column::Reading(Field::High, None)),
            ("Tmax (°C)", reading(Field::High, Unit::Celsius)),
            ("Tmin(C)", reading(Field::Low, Unit::Celsius)),
            ("low_f", reading(Field::Low, Unit::Fahrenheit)),
            ("RAIN mm", reading(Field::Rain, Unit::Millimetre)),
            ("Prcp(mm)", reading(Field::Rain, Unit::Millimetre)),
            ("precipitation_in", reading(Field::Rain, Unit::Inch)),
            (
                "Wind speed [km/h]",
                reading(Field::Wind, Unit::KilometrePerHour),
            ),
            (
                "solar radiation (MJ/m²)",
                reading(Field::Sun, Unit::Megajoule),
            ),
            ("TMAX_ATTRIBUTES", Column::Attributes(Field::High)),
            ("weather", Column::Unknown),
            ("rain_c", Column::Unknown),
            ("", Column::Unknown),
        ] {
            assert_eq!(meaning(heading), expected, "{heading}");
        }
    }

    #[test]
    fn every_listed_heading_is_understood() {
        for column in columns() {
            for name in column.names {
                assert_ne!(meaning(name), Column::Unknown, "{name}");
                for unit in column.units {
                    assert_ne!(
                        meaning(&format!("{name}{unit}")),
                        Column::Unknown,
                        "{name}{unit}"
                    );
                }
            }
        }
    }

    #[test]
    fn units_convert() {
        assert!((Unit::Fahrenheit.ours(212.0) - 100.0).abs() < 1e-12);
        assert!((Unit::Inch.ours(0.5) - 12.7).abs() < 1e-12);
        assert!((Unit::MilePerHour.ours(15.0) - 6.705_6).abs() < 1e-12);
        assert!((Unit::KilometrePerHour.ours(36.0) - 10.0).abs() < 1e-12);
        assert!((Unit::Knot.ours(10.0) - 5.144_444).abs() < 1e-6);
        // FAO-56: 1 MJ/m² in a day is 11.574 W/m² on average.
        assert!((Unit::Watt.ours(11.574) - 1.0).abs() < 1e-4);
    }
}
