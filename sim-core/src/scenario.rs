//! What a season is made of, as a person writes it: the scenario file.
//!
//! These types are the file format. Their documentation comments become the published JSON Schema.

mod checks;
mod colony;
mod file;
mod move_rules;
pub mod moves;
mod reader;
mod rules;
mod tree;
mod without;
mod words;
mod writer;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::calendar::CalendarDate;
use crate::mites::Neighbours;

pub use colony::MOST_BOXES;
#[cfg(feature = "schema")]
pub use file::scenario_schema;
pub(crate) use file::text_of;
pub use file::{LARGEST_FILE, locate, problems_in_file, problems_in_toml, read_form};
pub use moves::{Action, Move};
pub use rules::{LONGEST_SEASON_YEARS, MOST_ENTRIES};
pub use without::{Part, Without};
pub(crate) use words::nearest;
pub(crate) use words::shorten;
pub(crate) use writer::to_toml;

/// One season of one colony: where, in what weather, how it starts, and what the beekeeper does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Scenario {
    /// A short name, shown as the title.
    pub name: String,
    /// The question that this scenario answers.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub question: String,
    /// The last day to simulate, at most 20 years after the first; years 1800 to 2200.
    pub until: CalendarDate,
    /// Seed of the random mode and of the weather generator, 0 to 4,294,967,295.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(max = 4294967295.0)))]
    pub seed: u32,
    /// `mean` for smooth expected values, `random` for whole animals and chance.
    #[serde(default)]
    pub mode: Mode,
    /// Where the hive stands.
    pub place: Place,
    /// The weather that the colony has.
    pub weather: WeatherSource,
    /// What blooms, in place of the table of the place's forage. Empty: use that table.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bloom: Vec<Bloom>,
    /// How the colony starts.
    pub start: Start,
    /// The boxes and frames on the first day.
    pub hive: Hive,
    /// Feed on offer.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub feed: Vec<Feed>,
    /// What the beekeeper does, each on a date or when something is so.
    #[serde(default, rename = "move", skip_serializing_if = "Vec::is_empty")]
    pub moves: Vec<Move>,
    /// Parameters that differ from their defaults, as `"section.name" = value`.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub parameters: BTreeMap<String, f64>,
    /// What the result should be, each with the reason or source; checked by `combcast check`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub expect: Vec<Expectation>,
}

/// Smooth expected values, or whole animals and chance.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "lowercase")]
pub enum Mode {
    /// Every draw is replaced by its mean: smooth, for trying things out.
    #[default]
    Mean,
    /// Whole animals, drawn by chance from the seed.
    Random,
}

/// Where the hive stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// Name of the yard, as shown beside the title.
    pub name: String,
    /// Latitude in degrees, north positive, -66 to 66.
    #[cfg_attr(feature = "schema", schemars(range(min = -66.0, max = 66.0)))]
    pub latitude: f64,
    /// Height above the sea in metres, -430 to 5000.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = -430.0, max = 5000.0)))]
    pub elevation_m: f64,
    /// What grows around: one of the built-in forage types.
    #[serde(default)]
    pub forage: ForageType,
    /// Hives in flying distance, from which mites come in autumn: `none`, `few` or `many`.
    #[serde(default)]
    pub neighbours: Neighbours,
}

/// What grows around the hive: a built-in bloom table.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum ForageType {
    /// Gardens, hedges, orchards and clover: something for most of the warm season.
    #[default]
    Mixed,
    /// Orchard and crops: a rich spring, a poor summer.
    Orchard,
    /// Meadow and clover: a late start, a long main flow.
    Meadow,
    /// Wood edge: willow, maple, locust, lime, ivy.
    Woodland,
    /// Irrigated dry land: mesquite and citrus in spring, then heat; alfalfa and late-summer desert bloom.
    Dryland,
    /// Nothing at all, for trials.
    Bare,
}

impl ForageType {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::Mixed,
        Self::Orchard,
        Self::Meadow,
        Self::Woodland,
        Self::Dryland,
        Self::Bare,
    ];

    /// The name that scenario files use.
    pub fn name(self) -> &'static str {
        match self {
            Self::Mixed => "mixed",
            Self::Orchard => "orchard",
            Self::Meadow => "meadow",
            Self::Woodland => "woodland",
            Self::Dryland => "dryland",
            Self::Bare => "bare",
        }
    }
}

/// The weather that the colony has.
///
/// Give `record`, or `place_type`; typed days and rain spells are laid over it.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct WeatherSource {
    /// A weather file beside the scenario (`.dly`, `.csv` or `.txt`), or the name of a built-in record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub record: Option<String>,
    /// Which station, where the record holds several.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub station: Option<String>,
    /// Units of the record where they cannot be told from it: `tenths` (0.1 °C, 0.1 mm), `metric` (°C, mm) or `us` (°F, inch).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub units: Option<RecordUnits>,
    /// Use the record's days as if they had happened this many years later (negative: earlier), -200 to 200.
    #[serde(default, skip_serializing_if = "is_zero")]
    #[cfg_attr(feature = "schema", schemars(range(min = -200, max = 200)))]
    pub shift_years: i16,
    /// A built-in kind of climate, for places without a record; days are drawn by the generator.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place_type: Option<String>,
    /// Days typed in by hand.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub typed: Vec<TypedDay>,
    /// Spells of rain laid over the weather: "make it rain from … to …".
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rain: Vec<RainSpell>,
}

fn is_zero(years: &i16) -> bool {
    *years == 0
}

/// Units of a weather record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "lowercase")]
pub enum RecordUnits {
    /// Whole tenths: 0.1 °C, 0.1 mm, 0.1 m/s.
    Tenths,
    /// °C, mm, m/s.
    Metric,
    /// °F, inches, miles per hour.
    Us,
}

/// One day's weather typed in by hand.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TypedDay {
    /// The day it stands for.
    pub date: CalendarDate,
    /// Highest temperature, °C, -60 to 60.
    #[cfg_attr(feature = "schema", schemars(range(min = -60.0, max = 60.0)))]
    pub high_c: f64,
    /// Lowest temperature, °C, -60 to 60 and not above the highest.
    #[cfg_attr(feature = "schema", schemars(range(min = -60.0, max = 60.0)))]
    pub low_c: f64,
    /// Rain, mm, 0 to 600.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 600.0)))]
    pub rain_mm: f64,
}

/// A spell of rain laid over the weather.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RainSpell {
    /// First wet day.
    pub from: CalendarDate,
    /// Last wet day.
    pub to: CalendarDate,
    /// Rain on each day, mm, 0 to 200; a day that was wetter stays as it was.
    #[serde(default = "default_spell_mm")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 200.0)))]
    pub mm_a_day: f64,
    /// How much cooler the days' highs are than they were, °C, 0 to 20. A dry day that turns wet is cooler.
    #[serde(default = "default_spell_cooler")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 20.0)))]
    pub cooler_c: f64,
}

fn default_spell_mm() -> f64 {
    12.0
}

fn default_spell_cooler() -> f64 {
    4.0
}

/// One plant, or group of plants, in bloom.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Bloom {
    /// Name of the plant or group.
    pub plant: String,
    /// When it starts. Exactly one way must be given.
    pub starts: BloomStart,
    /// How long it blooms, days, 1 to 200.
    #[cfg_attr(feature = "schema", schemars(range(min = 1.0, max = 200.0)))]
    pub days: f64,
    /// Nectar at its best, 0 (none) to 1 (a strong flow).
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1.0)))]
    pub nectar: f64,
    /// Pollen at its best, 0 (none) to 1 (plenty).
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1.0)))]
    pub pollen: f64,
}

/// When a bloom starts; exactly one must be given.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct BloomStart {
    /// When the warmth sum of the year (daily means above 0 °C, January halved, February three quarters;
    /// in the southern hemisphere from 1 July) reaches this many °C days, 1 to 20,000.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1.0, max = 20000.0)))]
    pub warmth_sum: Option<f64>,
    /// Each year on this day, as `month-day`, for example `"08-25"`; `"02-29"` is 28 February in a year without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub each_year: Option<String>,
    /// When the day length falls through this many hours after midsummer, 4 to 20.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 4.0, max = 20.0)))]
    pub day_length_falls_to: Option<f64>,
}

/// How the colony starts: on a date, in exactly one of four ways.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Start {
    /// The first day; years 1800 to 2200.
    pub date: CalendarDate,
    /// A package: bees and a caged queen, no comb.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub package: Option<Package>,
    /// A swarm that was hived: bees full of honey and their own queen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swarm: Option<Swarm>,
    /// A nucleus colony: a few frames with brood, stores and a laying queen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nuc: Option<Established>,
    /// A colony that is already there, described as a beekeeper sees it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub established: Option<Established>,
    /// The queen on the first day.
    #[serde(default)]
    pub queen: Queen,
    /// Mites that a wash of 100 bees would find on the first day, 0 to 50. Left out: a season has no mites, and colonies
    /// that differ in what nobody knows of them have a usual load.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 50.0)))]
    pub mites_per_100_bees: Option<f64>,
}

/// A package of bees. Give `pounds`, `kilograms` or `bees`.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Package {
    /// Weight of the bees in pounds, 0.5 to 10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.5, max = 10.0)))]
    pub pounds: Option<f64>,
    /// Weight of the bees in kilograms, 0.2 to 4.5.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.2, max = 4.5)))]
    pub kilograms: Option<f64>,
    /// Number of bees, 500 to 40,000.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 500.0, max = 40000.0)))]
    pub bees: Option<f64>,
    /// Days until the queen is out of her cage, 0 to 10.
    #[serde(default = "default_caged_days")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 10.0)))]
    pub queen_caged_days: f64,
}

fn default_caged_days() -> f64 {
    3.0
}

/// A hived swarm. Give `pounds`, `kilograms` or `bees`.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Swarm {
    /// Weight of the bees in pounds, 0.5 to 12.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.5, max = 12.0)))]
    pub pounds: Option<f64>,
    /// Weight of the bees in kilograms, 0.2 to 5.5.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.2, max = 5.5)))]
    pub kilograms: Option<f64>,
    /// Number of bees, 500 to 40,000.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 500.0, max = 40000.0)))]
    pub bees: Option<f64>,
}

/// A colony as a beekeeper sees it with the lid off.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Established {
    /// Frames covered with bees on both sides, 0.5 to 40 (deep frames).
    #[cfg_attr(feature = "schema", schemars(range(min = 0.5, max = 40.0)))]
    pub frames_of_bees: f64,
    /// Frames filled with worker brood on both sides, all stages together, 0 to 20 (deep frames).
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 20.0)))]
    pub frames_of_brood: f64,
    /// Honey in the comb, kg, 0 to 100.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 100.0)))]
    pub honey_kg: f64,
    /// Pollen in the comb, kg, 0 to 5.
    #[serde(default = "default_pollen_kg")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 5.0)))]
    pub pollen_kg: f64,
}

fn default_pollen_kg() -> f64 {
    0.5
}

/// The queen on the first day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields, default)]
pub struct Queen {
    /// Her age in years, 0 (this year's) to 5.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 5.0)))]
    pub age_years: f64,
    /// Her laying power against a good queen of her age, 0 (does not lay) to 1.5.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1.5)))]
    pub laying_power: f64,
}

impl Default for Queen {
    fn default() -> Self {
        Self {
            age_years: 0.0,
            laying_power: 1.0,
        }
    }
}

/// The boxes and frames, from the bottom up.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Hive {
    /// Boxes from the bottom up, 1 to 6.
    #[serde(rename = "box")]
    pub boxes: Vec<HiveBox>,
    /// The comb of a deep frame of this hive, where it is not 430 mm wide and 205 mm high.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deep_frame: Option<FrameSize>,
    /// The comb of a medium frame of this hive, where it is not 430 mm wide and 130 mm high.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub medium_frame: Option<FrameSize>,
}

/// The comb of a frame, inside of its bars.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct FrameSize {
    /// Width of the comb, mm, 200 to 500.
    #[cfg_attr(feature = "schema", schemars(range(min = 200.0, max = 500.0)))]
    pub comb_width_mm: f64,
    /// Height of the comb, mm, 80 to 350.
    #[cfg_attr(feature = "schema", schemars(range(min = 80.0, max = 350.0)))]
    pub comb_height_mm: f64,
}

/// One box of frames.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct HiveBox {
    /// Deep or medium.
    #[serde(default)]
    pub size: BoxSize,
    /// Number of frames, 1 to 12: 5 for a nuc, 8 or 10 for a common box.
    #[serde(default = "default_frames")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 12)))]
    pub frames: usize,
    /// What the frames hold, unless `contents` names them one by one.
    #[serde(default)]
    pub comb: Comb,
    /// Frame by frame from left to right, in place of `comb`; as many entries as frames.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub contents: Vec<Comb>,
    /// A honey super: its honey is for people, which some treatments forbid.
    #[serde(default, skip_serializing_if = "moves::is_false")]
    pub honey_super: bool,
}

fn default_frames() -> usize {
    10
}

/// Height of a box.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "lowercase")]
pub enum BoxSize {
    /// Deep frames, 232 mm high.
    #[default]
    Deep,
    /// Medium frames, 159 mm high.
    Medium,
}

/// What a frame holds when it is given.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Comb {
    /// Waxed foundation, nothing drawn.
    #[default]
    Foundation,
    /// Plastic foundation without wax: taken up slowly.
    BareFoundation,
    /// Drawn worker comb.
    Drawn,
    /// No foundation: the bees choose the cells.
    Foundationless,
    /// A frame of drone cells, not drawn.
    DroneFrame,
    /// A frame of drone cells, drawn.
    DrawnDroneFrame,
}

/// Feed on offer from one day to another.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Feed {
    /// First day, inside the season.
    pub from: CalendarDate,
    /// Last day, inside the season.
    pub to: CalendarDate,
    /// What is fed.
    pub kind: FeedKind,
    /// Litres of syrup at each filling, 0.1 to 50. Give this, or `jars`, or `kilograms` (patties); none: kept full.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.1, max = 50.0)))]
    pub litres: Option<f64>,
    /// Quart jars (0.946 litres) of syrup at each filling, 0.25 to 50.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.25, max = 50.0)))]
    pub jars: Option<f64>,
    /// Kilograms of pollen patty at each filling, 0.05 to 5.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.05, max = 5.0)))]
    pub kilograms: Option<f64>,
    /// Filled again every so many days, 1 to 60; left out: filled once, on the first day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 60)))]
    pub every_days: Option<u16>,
    /// Number of feeders side by side, 1 to 8: they share the filling and set how many bees can drink.
    #[serde(default = "default_feeders")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 8)))]
    pub feeders: u8,
}

fn default_feeders() -> u8 {
    1
}

/// What is fed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum FeedKind {
    /// One part sugar to one part water by weight.
    #[serde(rename = "1:1")]
    OneToOne,
    /// Two parts sugar to one part water by weight.
    #[serde(rename = "2:1")]
    TwoToOne,
    /// Pollen patty.
    #[serde(rename = "patty")]
    Patty,
}

/// What a result should be, with the reason.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Expectation {
    /// The day to look at, inside the season.
    pub date: CalendarDate,
    /// The column of the day's record, for example `adult_bees`.
    pub column: String,
    /// Smallest value that is in order.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_least: Option<f64>,
    /// Largest value that is in order.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_most: Option<f64>,
    /// Where the range comes from.
    pub because: String,
}
