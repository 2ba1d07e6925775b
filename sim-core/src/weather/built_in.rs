//! The weather records that come with the program.

use serde::Serialize;

/// A weather record that comes with the program.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct BuiltIn {
    /// Name in a scenario.
    pub name: &'static str,
    /// Name of the file among the shipped records.
    pub file: &'static str,
    /// The station within the file; `None` where there is one only.
    pub station: Option<&'static str>,
    /// Where it was measured.
    pub place: &'static str,
    /// Latitude, degrees, north positive.
    pub latitude: f64,
    /// Height above the sea, m.
    pub elevation_m: f64,
    /// First year that it covers from January to December.
    pub first_year: i16,
    /// Last such year.
    pub last_year: i16,
    /// Who measured it, when, and by what right it is shipped.
    pub provenance: &'static str,
}

/// The weather records that come with the program: one file for each, since the page fetches what its season needs.
pub const BUILT_IN: &[BuiltIn] = &[
    BuiltIn {
        name: "seattle",
        file: "seattle-2012-2015.csv",
        station: Some("Seattle"),
        place: "Seattle, Washington",
        latitude: 47.45,
        elevation_m: 130.0,
        first_year: 2012,
        last_year: 2015,
        provenance: "NOAA daily records 2012 to 2015, United States government data, public domain",
    },
    BuiltIn {
        name: "new-york",
        file: "new-york-2012-2015.csv",
        station: Some("New York"),
        place: "New York",
        latitude: 40.78,
        elevation_m: 40.0,
        first_year: 2012,
        last_year: 2015,
        provenance: "NOAA daily records 2012 to 2015, United States government data, public domain",
    },
    BuiltIn {
        name: "state-college",
        file: "USC00368449.dly",
        station: None,
        place: "State College, Pennsylvania",
        latitude: 40.79,
        elevation_m: 360.0,
        first_year: 2000,
        last_year: 2009,
        provenance: "NOAA GHCN-Daily USC00368449, 2000 to 2009, public domain",
    },
    BuiltIn {
        name: "maricopa",
        file: "maricopa-2003-2020.txt",
        station: None,
        place: "Maricopa, Arizona",
        latitude: 33.07,
        elevation_m: 361.0,
        first_year: 2003,
        last_year: 2020,
        provenance: "AZMET daily records 2003 to 2020, CC0-1.0",
    },
];

impl BuiltIn {
    /// The built-in record of this name.
    pub fn named(name: &str) -> Option<&'static Self> {
        BUILT_IN.iter().find(|record| record.name == name)
    }
}
