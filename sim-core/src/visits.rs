//! Visits: what was seen with the lid off, on a date, in the beekeeper's units.
//!
//! Everything but the date is optional, and what is left out was not looked at: it is never zero.

mod chance;
mod check;
mod file;
mod merge;
mod readings;
mod row;
mod table;

use serde::{Deserialize, Serialize};

pub(crate) use chance::Chance;
pub use check::{Aside, sift};
#[cfg(feature = "schema")]
pub use file::visits_schema;
pub use file::{Hives, book_from_toml, books_from_bytes, hives_from_bytes};
pub use readings::{Reading, Shown, What, at_visit, seen_by_chance};
pub use table::{COLUMNS, TableColumn, books_from_csv};

use crate::calendar::CalendarDate;
use crate::scenario::FeedKind;
use crate::syrup::{LITRES_PER_JAR, ONE_TO_ONE, TWO_TO_ONE, sugar_g_per_litre};

params! {
    /// How far off what is seen at a visit can be.
    VisitsParameters {
        /// Error of frames of bees, as a share of them.
        bees_share = 0.12, "-", 0.01..=1.0, Assumed, "about a tenth for trained eyes: Imdorf et al. 1987 (from memory); weather and hour change counts: COLOSS BEEBOOK";
        /// Error of frames of bees that stays in a small colony.
        bees_least = 0.30, "frames", 0.05..=3.0, Assumed, "written down in quarters";
        /// Error of frames of brood, as a share of them.
        brood_share = 0.12, "-", 0.01..=1.0, Assumed, "about a tenth for trained eyes: Imdorf et al. 1987 (from memory)";
        /// Error of frames of brood that stays in a small nest.
        brood_least = 0.25, "frames", 0.05..=3.0, Assumed, "written down in quarters";
        /// Error of frames drawn, as a share of them.
        drawn_share = 0.06, "-", 0.01..=1.0, Assumed, "comb keeps still; no figure found";
        /// Error of frames drawn that stays where there are few.
        drawn_least = 0.30, "frames", 0.05..=3.0, Assumed, "half-drawn frames are counted either way";
        /// Error of stores, as a share of them.
        stores_share = 0.20, "-", 0.01..=1.0, Assumed, "a full deep frame is called 6 to 8 lb: common practice, no source";
        /// Error of stores that stays where there is little.
        stores_least_kg = 0.6, "kg", 0.05..=5.0, Assumed, "a fifth of a frame";
        /// Honey in a full frame of stores.
        stores_frame_kg = 2.7, "kg", 1.0..=4.0, Published, "6 lb extractable from a deep frame: common practice, no source";
        /// Chance of seeing eggs where there are many.
        eggs_seen = 0.93, "-", 0.5..=1.0, Assumed, "poor light, white comb; no figure found";
        /// Eggs of which half the visits would see some.
        eggs_half = 60.0, "cells", 1.0..=1000.0, Assumed, "a patch of a few square centimetres";
        /// Chance of believing to see eggs where there are none.
        eggs_false = 0.01, "-", 0.0..=0.2, Assumed, "a glint; no figure found";
        /// Chance of seeing a queen that is there.
        queen_seen = 0.5, "-", 0.05..=1.0, Assumed, "no figure found";
        /// Chance of taking another bee for the queen.
        queen_false = 0.01, "-", 0.0..=0.2, Assumed, "no figure found";
        /// Chance of finding charged or capped queen cells that are there.
        cells_seen = 0.85, "-", 0.3..=1.0, Assumed, "hidden under bees and along bars; no figure found";
        /// Chance of writing down charged or capped queen cells where there are none.
        cells_false = 0.02, "-", 0.0..=0.2, Assumed, "a polished cup; no figure found";
        /// Chance of naming the state of the drone frame rightly.
        drone_frame_right = 0.85, "-", 0.2..=1.0, Assumed, "no figure found";
        /// How alike two bees of one wash are in their mites: intra-class correlation.
        wash_clumping = 0.004, "-", 0.0001..=0.2, Assumed, "counts of 300 bees vary a little more than binomially: Lee et al. 2010 (from memory)";
        /// Share of the mites that sugar dusting finds.
        sugar_recovery = 0.929, "-", 0.3..=1.0, Published, "Macedo, Wu & Ellis 2002";
        /// Error of mites fallen, as a share of them, beyond the chance of counting.
        fall_share = 0.35, "-", 0.01..=2.0, Assumed, "ants, wind, half of the fall misses the board; no figure found";
        /// Error of syrup taken, as a share of it.
        syrup_share = 0.10, "-", 0.01..=1.0, Assumed, "read off a jar";
        /// Error of syrup taken that stays where it is little, as sugar.
        syrup_least_kg = 0.12, "kg", 0.01..=2.0, Assumed, "about 0.2 litres of 1:1";
        /// Error of a gain in weight between two visits.
        weight_kg = 0.7, "kg", 0.05..=10.0, Assumed, "scales, wet wood, tools left on; no figure found";
        /// Share of entries that are slips of the pen or the eye.
        slips = 0.02, "-", 0.0..=0.3, Assumed, "no figure found";
        /// How many times as far off slips are.
        slips_wider = 5.0, "-", 1.5..=20.0, Assumed, "no figure found";
    }
}

/// The visits to one hive.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct VisitBook {
    /// Name of the hive.
    #[serde(default)]
    pub hive: String,
    /// Scenario file of this hive, as it is found from the file of the visits; otherwise the one that visits are
    /// held against. So can hives of a class stand in weather of their own.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub scenario: String,
    /// The visits.
    #[serde(default, rename = "visit")]
    pub visits: Vec<Visit>,
    /// The line of each visit in the table that it was read from; empty where there is no table.
    #[serde(skip)]
    pub lines: Vec<usize>,
}

/// One visit. What is left out was not looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Visit {
    /// The day.
    pub date: CalendarDate,
    /// Frames covered with bees on both sides, box by box from the bottom up, in quarters.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub frames_of_bees: Vec<f64>,
    /// Frames of worker brood of all ages, both sides, box by box from the bottom up, in quarters.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub frames_of_brood: Vec<f64>,
    /// Frames drawn, box by box from the bottom up, in quarters.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub frames_drawn: Vec<f64>,
    /// Frames of honey and nectar, in quarters. Give these or `stores_kg`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub frames_of_stores: Option<f64>,
    /// Honey and nectar, kg.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stores_kg: Option<f64>,
    /// Whether eggs were seen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub eggs_seen: Option<bool>,
    /// Whether the queen was seen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub queen_seen: Option<bool>,
    /// Empty queen cups. They say little, and are kept for the reader.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cups: Option<u32>,
    /// Queen cells with an egg or a larva.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub charged_cells: Option<u32>,
    /// Capped queen cells.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub capped_cells: Option<u32>,
    /// How far the drone frame is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drone_frame: Option<DroneFrame>,
    /// Mites in a wash or sugar roll.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wash: Option<MiteWash>,
    /// Mites fallen on a board.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mite_fall: Option<MiteFall>,
    /// Syrup that the bees took.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub syrup_taken: Option<SyrupTaken>,
    /// Weight of the whole hive, kg. The first weighing sets the mark; later ones say what was gained.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight_kg: Option<f64>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// A sheet on which everything is to be looked at that any hive can show: values to be filled in.
pub const FULL_SHEET: Visit = Visit {
    date: CalendarDate(jiff::civil::date(2000, 1, 1)),
    frames_of_bees: Vec::new(),
    frames_of_brood: Vec::new(),
    frames_drawn: Vec::new(),
    frames_of_stores: None,
    stores_kg: Some(0.0),
    eggs_seen: Some(false),
    queen_seen: Some(false),
    cups: None,
    charged_cells: Some(0),
    capped_cells: Some(0),
    drone_frame: None,
    wash: Some(MiteWash {
        mites: 0,
        bees: 300,
        sugar: false,
    }),
    mite_fall: None,
    syrup_taken: Some(SyrupTaken {
        litres: Some(0.0),
        jars: None,
        kind: FeedKind::OneToOne,
        since: None,
    }),
    weight_kg: None,
    notes: String::new(),
};

/// How far a drone frame is, by the oldest that is in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum DroneFrame {
    /// Hardly drawn.
    NotDrawn,
    /// Drawn and empty.
    Drawn,
    /// Eggs.
    Eggs,
    /// Larvae.
    Larvae,
    /// Capped.
    Capped,
    /// Drones have hatched from it.
    Hatched,
}

/// Mites in a wash or sugar roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct MiteWash {
    /// Mites found.
    pub mites: u32,
    /// Bees in the jar; half a cup is about 300.
    #[serde(default = "half_a_cup")]
    pub bees: u32,
    /// Whether it was sugar, which finds a few mites less than a wash.
    #[serde(default)]
    pub sugar: bool,
}

fn half_a_cup() -> u32 {
    300
}

/// Mites fallen on a board.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct MiteFall {
    /// Mites counted.
    pub mites: u32,
    /// Days for which the board lay.
    pub days: f64,
}

/// Syrup that the bees took. Give `litres` or `jars`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct SyrupTaken {
    /// Litres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub litres: Option<f64>,
    /// Quart jars (0.946 litres).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<f64>,
    /// What kind: 1:1 or 2:1.
    #[serde(default = "one_to_one")]
    pub kind: FeedKind,
    /// Since when; left out: since the visit before, or the start.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub since: Option<CalendarDate>,
}

fn one_to_one() -> FeedKind {
    FeedKind::OneToOne
}

impl SyrupTaken {
    /// Sugar in it, kg.
    pub fn sugar_kg(&self) -> f64 {
        let share = match self.kind {
            FeedKind::TwoToOne => TWO_TO_ONE,
            FeedKind::OneToOne | FeedKind::Patty => ONE_TO_ONE,
        };
        let litres = self.litres.unwrap_or(0.0) + self.jars.unwrap_or(0.0) * LITRES_PER_JAR;
        litres * sugar_g_per_litre(share) / 1000.0
    }
}
