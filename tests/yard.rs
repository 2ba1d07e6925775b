//! Colonies in which moves are tried and refused.

use std::path::Path;
use std::sync::OnceLock;

use combcast_core::calendar::plus_days;
use combcast_core::weather::{BuiltIn, resolve};
use combcast_core::{Scenario, Season, run};
use jiff::civil::date;

/// The day on which moves are tried.
pub const DAY: &str = "2013-06-10";

/// Colonies in which moves are tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Yard {
    /// Two boxes, strong, a mite on two hundred bees.
    Strong,
    /// Two frames in a box for two.
    Nuc,
    /// A handful of bees on ten frames.
    Few,
    /// A package on foundation that gets nothing to build from.
    Foundation,
    /// Dead since spring.
    Dead,
    /// Without a queen for long.
    LayingWorkers,
}

impl Yard {
    fn start(self) -> &'static str {
        match self {
            Self::Strong | Self::LayingWorkers => {
                "start.established = { frames_of_bees = 6, frames_of_brood = 4, honey_kg = 12, pollen_kg = 0.5 }
                [[hive.box]]
                frames = 10
                comb = \"drawn\"
                [[hive.box]]
                frames = 10
                comb = \"drawn\"
                "
            }
            Self::Nuc => {
                "start.nuc = { frames_of_bees = 1, frames_of_brood = 0.5, honey_kg = 1, pollen_kg = 0.1 }
                [[hive.box]]
                frames = 1
                comb = \"drawn\"
                "
            }
            Self::Few => {
                "start.nuc = { frames_of_bees = 0.5, frames_of_brood = 0.3, honey_kg = 4, pollen_kg = 0.3 }
                start.queen = { laying_power = 0.03 }
                [[hive.box]]
                frames = 10
                comb = \"drawn\"
                "
            }
            Self::Foundation => {
                "start.package = { pounds = 6 }
                [[hive.box]]
                frames = 10
                comb = \"bare-foundation\"
                "
            }
            Self::Dead => {
                "start.established = { frames_of_bees = 0.5, frames_of_brood = 0, honey_kg = 4, pollen_kg = 0.1 }
                start.queen = { laying_power = 0 }
                [[hive.box]]
                frames = 10
                comb = \"drawn\"
                "
            }
        }
    }

    /// The season to so many days after [`DAY`]: what was done before, as \"MM-DD action\" with semicolons between,
    /// and the move of the day.
    pub fn season(self, before: &str, step: Option<&str>, days_after: i32) -> Season {
        let until = plus_days(date(2013, 6, 10), days_after);
        let mut text = format!(
            "name = \"A move\"\nuntil = {until}\nplace = {{ name = \"Alder Row\", latitude = 47.45, forage = \"mixed\" }}\nweather.record = \"seattle\"\n\
             start.date = {}\nstart.mites_per_100_bees = 0.5\n{}",
            if self == Self::Foundation {
                "2013-06-08"
            } else {
                "2013-04-15"
            },
            self.start()
        );
        let mut add = |date: &str, action: &str| {
            text += &format!("[[move]]\ndate = {date}\n{action}\n");
        };
        if self == Self::LayingWorkers {
            add("2013-04-16", "remove_queen = true");
            for day in ["2013-04-19", "2013-04-22", "2013-04-25", "2013-04-28"] {
                add(day, "remove_queen_cells = true");
            }
        }
        for one in before.split("; ").filter(|one| !one.is_empty()) {
            let (day, action) = one.trim().split_once(' ').expect("a day and an action");
            add(&format!("2013-{day}"), action);
        }
        if let Some(step) = step {
            add(DAY, step);
        }
        let scenario = Scenario::from_toml(&text).unwrap_or_else(|error| panic!("{error}\n{text}"));
        let (weather, _) = resolve(&scenario, Some(record())).expect("the record covers 2013");
        run(&scenario, &weather).unwrap_or_else(|error| panic!("{error}\n{text}"))
    }
}

/// The file with the records of Seattle and New York.
pub fn record() -> &'static [u8] {
    static RECORD: OnceLock<Vec<u8>> = OnceLock::new();
    RECORD.get_or_init(|| {
        let file = BuiltIn::named("seattle").expect("a shipped record").file;
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/weather");
        std::fs::read(folder.join(file)).expect("a shipped record")
    })
}
