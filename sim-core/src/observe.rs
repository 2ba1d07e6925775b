//! What is written down about each day: every column declared once.

use serde::Serialize;

use crate::Parameters;
use crate::colony::Colony;
use crate::day::Outcome;
use crate::forage::Conditions;
use crate::growth::Still;
use crate::queen::Brake;
use crate::syrup::SUGAR_IN_HONEY;

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
        /// Every field but the last three is a number; see [`COLUMNS`] for units.
        #[derive(Debug, Clone, Copy, PartialEq, Serialize)]
        pub struct DayRecord {
            $( #[doc = $label] #[doc = concat!("(", $unit, ").")] pub $name: f64, )+
            /// What held the queen's laying back.
            pub brake: Brake,
            /// The state of the queen.
            pub queen: crate::queen::QueenState,
            /// Whether the bees had too little to eat: what the event "starving" begins with. Files have the event.
            #[serde(skip)]
            pub starving: bool,
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
    drone_eggs, "drone eggs", "cells", Stock;
    queen_cups, "empty queen cups", "cups", Stock;
    charged_cells, "queen cells with an egg or a larva", "cells", Stock;
    capped_queen_cells, "capped queen cells", "cells", Stock;
    swarmed, "workers gone with a swarm", "bees", Flow;
    chance_of_swarm, "chance that the colony has prepared to swarm by this day", "-", Stock;
    chance_of_supersedure, "chance that it has begun to replace its queen by this day", "-", Stock;
    mites_on_bees, "mites on adult bees", "mites", Stock;
    mites_in_cells, "mites in capped cells", "mites", Stock;
    mites_per_100_bees, "mites on 100 adult bees", "mites", Stock;
    mite_fall, "mites that fall on a board", "mites", Flow;
    damaged_bees, "adult workers damaged as pupae", "bees", Stock;
    virus_load, "virus load, 1 is the most", "-", Stock;
    mite_growth, "growth of mites, were the colony to stay as it is; 0 without mites", "1/d", Condition;
}

/// Writes down a day.
pub fn record(
    day: usize,
    colony: &Colony,
    today: &Conditions,
    outcome: &Outcome,
    p: &Parameters,
) -> DayRecord {
    let (house, foragers) = (colony.stock.adults.house, colony.stock.adults.foragers);
    let (flow, limits) = (&outcome.ledger, &outcome.limits);
    let (eggs, larvae, capped) = (colony.stock.eggs, colony.stock.larvae, colony.stock.capped);
    DayRecord {
        day: (day + 1) as f64,
        adult_bees: house + foragers,
        house_bees: house,
        foragers,
        drones: colony.drones,
        eggs,
        open_larvae: larvae,
        capped_worker: capped,
        drone_brood: colony.stock.drone_brood,
        eggs_laid: flow.worker_eggs + flow.drone_eggs,
        emerged: flow.emerged,
        died: flow.died_in_hive + flow.died_outside,
        rate_of_queen: limits.queen,
        limit_of_cells: limits.cells,
        limit_of_nurses: limits.nurses,
        limit_of_pollen: limits.pollen,
        limit_of_food: limits.food,
        limit_of_warmth: limits.warmth,
        drawn_frames: colony.frames.drawn_frames,
        frames_of_bees: (house + foragers) / p.comb.frame_of_bees,
        frames_of_brood: (eggs + larvae + capped) / p.comb.brood_frame_cells,
        drawn_cells: colony.frames.worker_cells,
        honey_kg: colony.stores.honey_g / 1000.0,
        unripe_kg: colony.stores.unripe_g / 1000.0,
        pollen_kg: colony.stores.pollen_g / 1000.0,
        syrup_kg: flow.syrup_g * SUGAR_IN_HONEY / 1000.0,
        nectar_kg: flow.nectar_g / 1000.0,
        pollen_in_kg: flow.pollen_g / 1000.0,
        honey_eaten_kg: flow.sugar_eaten_g / 1000.0,
        pollen_eaten_kg: flow.pollen_eaten_g / 1000.0,
        wax_honey_kg: flow.wax_honey_g / 1000.0,
        flight_hours: today.flight_hours,
        nectar_index: today.nectar,
        pollen_index: today.pollen,
        high_c: today.high_c,
        low_c: today.low_c,
        rain_mm: today.rain_mm,
        mites_on_bees: colony.mites.on_bees,
        mites_in_cells: colony.stock.mites_in_cells,
        mites_per_100_bees: if house + foragers > 0.0 {
            100.0 * colony.mites.on_bees / (house + foragers)
        } else {
            0.0
        },
        mite_fall: flow.mites.fall(),
        damaged_bees: colony.stock.damaged,
        mite_growth: if colony.mites.on_bees + colony.stock.mites_in_cells >= 0.5 {
            Still::of(colony, today, p).growth(&p.mites)
        } else {
            0.0
        },
        virus_load: colony.mites.virus,
        drone_eggs: colony
            .drone_brood
            .iter()
            .map(|nest| nest.brood.eggs())
            .sum(),
        queen_cups: libm::round(colony.succession.cups),
        charged_cells: colony.succession.charged(&p.succession),
        capped_queen_cells: colony.succession.capped(&p.succession),
        swarmed: flow.swarmed,
        chance_of_swarm: 1.0 - colony.succession.no_swarm,
        chance_of_supersedure: 1.0 - colony.succession.no_supersedure,
        brake: outcome.brake,
        queen: colony.queen.state,
        starving: outcome.is_hungry() && colony.alive,
    }
}
