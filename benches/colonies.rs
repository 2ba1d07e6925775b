//! The colonies that are timed, each for a year of drawn weather: a package, an established colony, and the
//! latter with mites and two drone frames.

use combcast_core::season::{Prepared, prepare};
use combcast_core::{Scenario, weather};

/// Days that each season lasts.
pub const DAYS: usize = 365;

/// A colony that is timed.
#[derive(Debug)]
pub struct Timed {
    /// How it is called.
    pub name: &'static str,
    /// The text of its scenario file.
    pub scenario: &'static str,
    /// Most that one of its days may take on one core in mean mode, ns.
    pub mean_ns: f64,
    /// The same in random mode, ns.
    pub random_ns: f64,
}

/// All of them.
pub const COLONIES: [Timed; 3] = [
    Timed {
        name: "package",
        scenario: include_str!("package.toml"),
        mean_ns: 250.0,
        random_ns: 1500.0,
    },
    Timed {
        name: "established",
        scenario: include_str!("established.toml"),
        mean_ns: 250.0,
        random_ns: 1500.0,
    },
    Timed {
        name: "infested",
        scenario: include_str!("infested.toml"),
        mean_ns: 350.0,
        random_ns: 2500.0,
    },
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
