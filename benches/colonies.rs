//! The two colonies that are timed: a package and an established colony, each for a year of drawn weather.

use combcast_core::season::{Prepared, prepare};
use combcast_core::{Scenario, weather};

/// Days that each season lasts.
pub const DAYS: usize = 365;

/// Names and scenario files.
pub const COLONIES: [(&str, &str); 2] = [
    ("package", include_str!("package.toml")),
    ("established", include_str!("established.toml")),
];

/// A season made ready to run.
///
/// # Panics
/// When the scenario does not hold together or the colony dies: a fault of this folder.
pub fn prepared(scenario: &str) -> Prepared {
    let scenario = read(scenario);
    let (weather, _) = weather::resolve(&scenario, None).expect("the weather is drawn");
    let prepared = prepare(&scenario, &weather).expect("the scenario holds together");
    assert_eq!(prepared.conditions.len(), DAYS);
    // A dead colony costs next to nothing: it must not be timed.
    let season = prepared.run().expect("every day adds up");
    assert!(
        season.colony.alive,
        "the colony does not live through its year"
    );
    prepared
}

/// A scenario.
///
/// # Panics
/// When it cannot be read: a fault of this folder.
pub fn read(scenario: &str) -> Scenario {
    Scenario::from_toml(scenario).expect("the scenario can be read")
}
