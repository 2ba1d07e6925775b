//! What is written down about each day: every column declared once.

use serde::Serialize;

use crate::queen::Brake;

/// How a column adds up over time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// What is there at the end of the day; a week shows its last day.
    Stock,
    /// What happened during the day; a week shows the sum.
    Flow,
    /// A condition of the day; a week shows the mean.
    Condition,
}

/// What a column of the day's record means.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ColumnInfo {
    /// Field name in JSON and CSV.
    pub name: &'static str,
    /// A short label for people.
    pub label: &'static str,
    /// Unit.
    pub unit: &'static str,
    /// How it adds up over time.
    pub kind: Kind,
}

macro_rules! columns {
    ($( $name:ident, $label:literal, $unit:literal, $kind:ident; )+) => {
        /// One day of a season, at nightfall.
        ///
        /// Every field but the last two is a number; see [`COLUMNS`] for units.
        #[derive(Debug, Clone, Copy, PartialEq, Serialize)]
        pub struct DayRecord {
            $( #[doc = $label] #[doc = concat!("(", $unit, ").")] pub $name: f64, )+
            /// What held the queen's laying back.
            pub brake: Brake,
            /// The state of the queen.
            pub queen: crate::queen::QueenState,
        }

        /// The numeric columns in order.
        pub const COLUMNS: &[ColumnInfo] = &[
            $( ColumnInfo { name: stringify!($name), label: $label, unit: $unit, kind: Kind::$kind }, )+
        ];

        impl DayRecord {
            /// The numeric columns as an array, in the order of [`COLUMNS`].
            pub fn values(&self) -> [f64; COLUMNS.len()] {
                [ $( self.$name, )+ ]
            }

            /// The numeric column called `name`.
            pub fn value(&self, name: &str) -> Option<f64> {
                match name {
                    $( stringify!($name) => Some(self.$name), )+
                    _ => None,
                }
            }
        }
    };
}

columns! {
    day, "day of the season, the first being 1", "d", Stock;
    adult_bees, "adult workers", "bees", Stock;
    house_bees, "house bees", "bees", Stock;
    foragers, "foragers", "bees", Stock;
    drones, "adult drones", "drones", Stock;
    eggs, "worker eggs", "cells", Stock;
    open_larvae, "open worker larvae", "cells", Stock;
    capped_worker, "capped worker brood", "cells", Stock;
    drone_brood, "drone brood of all stages", "cells", Stock;
    eggs_laid, "eggs laid, worker and drone", "eggs", Flow;
    emerged, "workers emerged", "bees", Flow;
    died, "workers died", "bees", Flow;
    rate_of_queen, "what the queen would lay", "eggs/d", Condition;
    limit_of_cells, "what empty cells allow", "eggs/d", Condition;
    limit_of_nurses, "what nurses allow", "eggs/d", Condition;
    limit_of_pollen, "what pollen allows", "eggs/d", Condition;
    limit_of_food, "what food allows", "eggs/d", Condition;
    limit_of_warmth, "what the cluster can keep warm", "eggs/d", Condition;
    drawn_frames, "frames of drawn comb", "frames", Stock;
    frames_of_bees, "frames covered with bees", "frames", Stock;
    frames_of_brood, "frames of worker brood", "frames", Stock;
    drawn_cells, "drawn worker cells", "cells", Stock;
    honey_kg, "ripe honey in the comb", "kg", Stock;
    unripe_kg, "nectar and syrup being ripened, as honey", "kg", Stock;
    pollen_kg, "stored pollen", "kg", Stock;
    syrup_kg, "sugar taken from feeders", "kg", Flow;
    nectar_kg, "nectar brought in, as honey", "kg", Flow;
    pollen_in_kg, "pollen brought in", "kg", Flow;
    honey_eaten_kg, "honey eaten, wax left out", "kg", Flow;
    pollen_eaten_kg, "pollen eaten", "kg", Flow;
    wax_honey_kg, "honey turned into wax", "kg", Flow;
    flight_hours, "hours that allow flight", "h", Condition;
    nectar_index, "nectar on offer, 1 is a strong flow", "-", Condition;
    pollen_index, "pollen on offer, 1 is plenty", "-", Condition;
    high_c, "highest temperature", "°C", Condition;
    low_c, "lowest temperature", "°C", Condition;
    rain_mm, "rain", "mm", Flow;
    mites_on_bees, "mites on adult bees", "mites", Stock;
    mites_in_cells, "mites in capped cells", "mites", Stock;
    mites_per_100_bees, "mites on 100 adult bees", "mites", Stock;
}
