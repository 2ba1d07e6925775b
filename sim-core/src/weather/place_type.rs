//! Built-in kinds of climate, for places without a record.

use serde::Serialize;

use super::month::{MonthClimate, Spread};
use crate::Error;
use crate::words::Language;

/// A built-in kind of climate.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PlaceType {
    /// Name in a scenario.
    pub name: &'static str,
    /// What it is like.
    pub description: &'static str,
    /// Latitude of the station it was computed from, degrees.
    pub latitude: f64,
    /// The station it was computed from.
    pub provenance: &'static str,
    /// The station in the table.
    key: &'static str,
}

impl PlaceType {
    /// The same with its description in a language.
    pub fn told(self, language: Language) -> Self {
        let place = PLACE_TYPES.iter().position(|one| one.name == self.name);
        let descriptions = &language.words().weather.place_types;
        Self {
            description: place.map_or(self.description, |place| descriptions[place]),
            ..self
        }
    }
}

/// The built-in kinds of climate.
pub const PLACE_TYPES: &[PlaceType] = &[
    PlaceType {
        name: "cool-wet-spring",
        description: "mild wet winter and spring, dry cool-warm summer",
        latitude: 47.45,
        provenance: "Seattle, Washington, 2012 to 2015",
        key: "Seattle",
    },
    PlaceType {
        name: "warm-humid-summer",
        description: "cold winter, warm humid summer, rain in every month",
        latitude: 40.78,
        provenance: "New York, 2012 to 2015",
        key: "New York",
    },
    PlaceType {
        name: "snowy-hills",
        description: "cold snowy winter, showery spring, warm summer",
        latitude: 40.79,
        provenance: "State College, Pennsylvania, 2000 to 2009",
        key: "statecollege",
    },
    PlaceType {
        name: "oceanic",
        description: "mild winter, cool summer, light rain on nearly every second day",
        latitude: 50.8,
        provenance: "Brussels, 1976 to 2005",
        key: "brussels",
    },
    PlaceType {
        name: "dry-plains",
        description: "cold dry winter, stormy early summer, hot days and cool nights",
        latitude: 40.4,
        provenance: "Champion, Nebraska, 1982 to 2018",
        key: "champion",
    },
    PlaceType {
        name: "dry-summer-coast",
        description: "mild rainy winter, hot summer without rain",
        latitude: 36.8,
        provenance: "Tunis, 1979 to 2002",
        key: "tunis",
    },
    PlaceType {
        name: "hot-desert",
        description: "mild winter, very hot summer, little rain",
        latitude: 33.07,
        provenance: "Maricopa, Arizona, 2003 to 2020",
        key: "maricopa",
    },
];

/// Monthly statistics of the stations; where they come from stands in the table's own heading.
const TABLE: &str = include_str!("../../data/generator-fit.csv");

/// The twelve months of a place type.
pub(super) fn months(name: &str) -> Result<[MonthClimate; 12], Error> {
    let Some(place) = PLACE_TYPES.iter().find(|place| place.name == name) else {
        let names: Vec<&str> = PLACE_TYPES.iter().map(|place| place.name).collect();
        return Err(Error::scenario(
            "weather.place_type",
            format!(
                "there is no place type \"{name}\"; there are: {}",
                names.join(", ")
            ),
        ));
    };
    let mut months = [MonthClimate::default(); 12];
    for line in TABLE.lines() {
        let cells: Vec<&str> = line.split(',').collect();
        if cells[0] != place.key {
            continue;
        }
        let number = |index: usize| cells.get(index).and_then(|cell| cell.parse::<f64>().ok());
        let spread = |index: usize| {
            Some(Spread {
                mean: number(index)?,
                sd: number(index + 1)?,
            })
        };
        let Some(month) = cells[1]
            .parse::<usize>()
            .ok()
            .and_then(|month| months.get_mut(month - 1))
        else {
            continue;
        };
        *month = MonthClimate {
            days: number(2).unwrap_or(0.0) as usize,
            wet_after_dry: number(3),
            wet_after_wet: number(4),
            wet_share: number(5).unwrap_or(0.0),
            wet_mm: number(6),
            wet_shape: number(7),
            high_dry: spread(9),
            high_wet: spread(11),
            low_dry: spread(13),
            low_wet: spread(15),
            wind: None,
        };
    }
    Ok(months)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_type_has_twelve_months() {
        for place in PLACE_TYPES {
            for month in months(place.name).unwrap() {
                assert!(month.days > 100, "{}", place.name);
                assert!(
                    month.wet_mm.is_some() && month.high_dry.is_some() && month.low_dry.is_some()
                );
            }
        }
    }

    #[test]
    fn an_unknown_place_type_lists_those_there_are() {
        let error = months("moon").unwrap_err().to_string();
        assert!(
            error.contains("hot-desert") && error.contains("moon"),
            "{error}"
        );
    }
}
