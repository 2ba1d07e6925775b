//! Moves: what the beekeeper does, on a date or when something is so.

use serde::{Deserialize, Serialize};

use super::{Comb, FeedKind, HiveBox, Queen};
use crate::calendar::CalendarDate;
use crate::treatments::Treatment;

/// Declares [`Move`], one optional field for each action, and [`Action`], one choice for each.
macro_rules! actions {
    ($( $(#[doc = $doc:literal])+ $([$min:literal, $max:literal])? $field:ident: $variant:ident($type:ty); )+) => {
        /// Something that the beekeeper does: on a date, when something is so, or again and again; exactly one action.
        #[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[serde(deny_unknown_fields)]
        pub struct Move {
            /// The day on which it is done, inside the season; with `when`, the first day on which to look. Needed unless `when` is given.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pub date: Option<CalendarDate>,
            /// Do it on the first day on which this is so.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pub when: Option<When>,
            /// Do it again every so many days, 1 to 365.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 365)))]
            pub every_days: Option<u16>,
            /// The last day on which it is done; left out: to the end of the season.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pub until: Option<CalendarDate>,
            $(
                $(#[doc = $doc])+
                #[serde(default, skip_serializing_if = "Option::is_none")]
                $(#[cfg_attr(feature = "schema", schemars(range(min = $min, max = $max)))])?
                pub $field: Option<$type>,
            )+
        }

        /// One action of a move.
        #[derive(Debug, Clone, PartialEq)]
        pub enum Action {
            $( $(#[doc = $doc])+ $variant($type), )+
        }

        impl Action {
            /// Its name in a scenario file.
            pub fn name(&self) -> &'static str {
                match self { $( Self::$variant(_) => stringify!($field), )+ }
            }
        }

        impl Move {
            /// Every action's name, and whether it is given.
            pub fn choices(&self) -> Vec<(&'static str, bool)> {
                vec![$( (stringify!($field), self.$field.is_some()), )+]
            }

            /// The action; of several, the first in the order of the fields.
            pub fn action(&self) -> Option<Action> {
                $( if let Some(given) = &self.$field { return Some(Action::$variant(given.clone())); } )+
                None
            }

            /// One action on a date.
            pub fn on(date: CalendarDate, action: Action) -> Self {
                let mut new = Self { date: Some(date), ..Self::default() };
                match action { $( Action::$variant(given) => new.$field = Some(given), )+ }
                new
            }
        }
    };
}

actions! {
    /// Put syrup on and leave the feeders there; filled again at each repeat.
    feed: Feed(Syrup);
    /// `true`: take off the feeders and the patty that moves put on.
    stop_feeding: StopFeeding(bool);
    /// Put a pollen patty on.
    patty: Patty(Patty);
    /// Give a box on top.
    add_box: AddBox(HiveBox);
    /// Take away a box with all that is in it but the bees; boxes count from the bottom, 1 to 6.
    [1, 6] remove_box: RemoveBox(u8);
    /// `true`: the two lowest boxes change places.
    reverse_boxes: ReverseBoxes(bool);
    /// Two boxes change places.
    swap_boxes: SwapBoxes(BoxPair);
    /// Give a frame: drawn comb, foundation, foundationless or a drone frame.
    give_frame: GiveFrame(NewFrame);
    /// Move a frame to another place; those between close up.
    move_frame: MoveFrame(FromTo);
    /// Take a frame out with all that is in it but the bees, who are shaken off; its comb is kept in the shed.
    take_frame: TakeFrame(At);
    /// Put back the frame that was taken out last.
    put_back_frame: PutBackFrame(Which);
    /// Take the drone frame out; its brood is destroyed, and its comb is kept in the shed.
    take_drone_frame: TakeDroneFrame(Which);
    /// Freeze the drone frame and put it back.
    freeze_drone_frame: FreezeDroneFrame(Freeze);
    /// Take the drone frame out, and put in its place the one from the shed, or a new one the first time.
    swap_drone_frames: SwapDroneFrames(Which);
    /// Cut the comb out of a foundationless frame, which stays.
    cut_out_comb: CutOutComb(Which);
    /// Give frames of brood from another hive.
    give_brood: GiveBrood(BroodFrames);
    /// Take frames of brood out for another hive.
    take_brood: TakeBrood(BroodFrames);
    /// Shake in young bees from so many frames of another hive, 0.25 to 10 frames.
    [0.25, 10.0] give_bees: GiveBees(f64);
    /// Shake out the bees of so many frames, 0.25 to 10 frames; house bees, for foragers fly home.
    [0.25, 10.0] take_bees: TakeBees(f64);
    /// Give frames full of honey, 1 to 8 frames.
    [1, 8] give_stores: GiveStores(u8);
    /// Take out the frames with most stores, 1 to 8 frames.
    [1, 8] take_stores: TakeStores(u8);
    /// Take honey off until this many kilograms are left, 0 to 100.
    [0.0, 100.0] take_honey_leaving_kg: TakeHoney(f64);
    /// Cage the queen.
    cage_queen: CageQueen(Cage);
    /// `true`: let the queen out of her cage.
    release_queen: ReleaseQueen(bool);
    /// `true`: take the queen away.
    remove_queen: RemoveQueen(bool);
    /// Give a mated queen to a hive that has none.
    give_queen: GiveQueen(NewQueen);
    /// Take the queen away and give a mated one.
    replace_queen: ReplaceQueen(NewQueen);
    /// `true`: give a ripe queen cell.
    give_queen_cell: GiveQueenCell(bool);
    /// `true`: break every queen cell and cup.
    remove_queen_cells: RemoveQueenCells(bool);
    /// `true`: make the colony swarm, for lessons and trials.
    let_swarm: LetSwarm(bool);
    /// Split the colony; the season follows what is left here.
    split: Split(Split);
    /// Take out a nuc; the season follows what is left here.
    take_nuc: TakeNuc(NucTaken);
    /// Unite with another colony, put on top in its own box.
    unite: Unite(Unite);
    /// Shake a package out of the colony: house bees.
    shake_package: ShakePackage(BeesTaken);
    /// Treat against mites. Follow the label: it is the law.
    treat: Treat(Treat);
    /// `true`: take out what is left of every treatment.
    end_treatment: EndTreatment(bool);
    /// `true`: wrap the hive for winter.
    wrap_for_winter: WrapForWinter(bool);
    /// `true`: take the wrap off.
    unwrap: Unwrap(bool);
}

/// What has to be so, all that is given at once; at least one must be given. Looked at in the morning.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct When {
    /// Frames drawn, 0 to 72.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 72.0)))]
    pub frames_drawn_at_least: Option<f64>,
    /// The box that `frames_drawn_at_least` looks at, from the bottom, 1 to 6; left out: the whole hive.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 6)))]
    pub of_box: Option<u8>,
    /// Adult workers, 0 to 100,000.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 100000.0)))]
    pub bees_at_least: Option<f64>,
    /// Adult workers, 0 to 100,000.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 100000.0)))]
    pub bees_at_most: Option<f64>,
    /// Frames of worker brood, 0 to 40.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 40.0)))]
    pub brood_frames_at_least: Option<f64>,
    /// Frames of worker brood, 0 to 40; 0 waits for a hive without brood.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 40.0)))]
    pub brood_frames_at_most: Option<f64>,
    /// Capped drone cells on drone frames and foundationless comb, 1 to 20,000.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1.0, max = 20000.0)))]
    pub capped_drone_cells_at_least: Option<f64>,
    /// Honey in the comb, kg, 0 to 200.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 200.0)))]
    pub honey_kg_at_least: Option<f64>,
    /// Honey in the comb, kg, 0 to 200.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 200.0)))]
    pub honey_kg_at_most: Option<f64>,
}

/// Syrup put on by a move. Give `litres` or `jars`; none: kept full.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Syrup {
    /// `1:1` or `2:1`.
    pub kind: FeedKind,
    /// Litres at each filling, 0.1 to 50.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.1, max = 50.0)))]
    pub litres: Option<f64>,
    /// Quart jars (0.946 litres) at each filling, 0.25 to 50.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.25, max = 50.0)))]
    pub jars: Option<f64>,
    /// Number of feeders, 1 to 8.
    #[serde(default = "one")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 8)))]
    pub feeders: u8,
}

/// A pollen patty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Patty {
    /// Its weight, kg, 0.05 to 5.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.05, max = 5.0)))]
    pub kilograms: f64,
}

/// A place in the hive, as a beekeeper counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct At {
    /// Box from the bottom, 1 to 6.
    #[serde(rename = "box")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 6)))]
    pub in_box: u8,
    /// Place in the box from left to right, 1 to 12.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 12)))]
    pub place: u8,
}

/// Which frame or place.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Which {
    /// Box and place; left out: the one with most drone brood, or the first place that fits.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<At>,
}

/// Two boxes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct BoxPair {
    /// One box, from the bottom, 1 to 6.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 6)))]
    pub one: u8,
    /// The other box, from the bottom, 1 to 6.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 6)))]
    pub other: u8,
}

/// A frame that is given.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct NewFrame {
    /// What it holds.
    pub comb: Comb,
    /// Where; left out: in the first empty place, or instead of a frame that is not drawn at all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<At>,
    /// Take out the frame at that place with all that is in it. Without this, only an undrawn frame gives way.
    #[serde(default, skip_serializing_if = "is_false")]
    pub replace: bool,
}

/// From one place to another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct FromTo {
    /// Where the frame is.
    pub from: At,
    /// Where it goes: into an empty place, between frames of its box, or in exchange with a frame of another box.
    pub to: At,
}

/// Freezing a frame.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Freeze {
    /// Hours in the freezer, 24 to 336; it goes back when they are over.
    #[serde(default = "two_days")]
    #[cfg_attr(feature = "schema", schemars(range(min = 24.0, max = 336.0)))]
    pub hours: f64,
    /// Box and place; left out: the drone frame with most brood.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<At>,
}

/// Frames of brood given or taken.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct BroodFrames {
    /// Number of frames, 1 to 8.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 8)))]
    pub frames: u8,
    /// With the bees that cover them.
    #[serde(default, skip_serializing_if = "is_false")]
    pub with_bees: bool,
    /// What is put in the place of a frame that is taken; left out: nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub in_their_place: Option<Comb>,
}

/// Caging the queen.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Cage {
    /// Days until she is let out, 1 to 60; left out: until `release_queen`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1.0, max = 60.0)))]
    pub days: Option<f64>,
}

/// A mated queen that is given.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct NewQueen {
    /// Her age in years, 0 (this year's) to 5.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 5.0)))]
    pub age_years: f64,
    /// Her laying power against a good queen of her age, 0 to 1.5.
    #[serde(default = "full")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1.5)))]
    pub laying_power: f64,
    /// Days until she is out of her cage, 0 to 10.
    #[serde(default = "three")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 10.0)))]
    pub caged_days: f64,
}

/// Where the queen goes when a colony is divided.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum QueenGoes {
    /// She stays in this hive.
    #[default]
    Stays,
    /// She goes with those who leave.
    Leaves,
}

/// A split: a share of comb, brood, bees and stores leaves.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Split {
    /// The share that leaves, 0.1 to 0.9.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.1, max = 0.9)))]
    pub share: f64,
    /// The queen.
    #[serde(default)]
    pub queen: QueenGoes,
    /// The new hive goes to another yard: its share of the foragers goes too. Otherwise they fly back to the old stand.
    #[serde(default, skip_serializing_if = "is_false")]
    pub to_another_yard: bool,
    /// What is put in the places of the frames that leave; left out: nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub in_their_place: Option<Comb>,
}

/// A nuc that is taken out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct NucTaken {
    /// Frames of brood, with the bees on them, 1 to 4.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 4)))]
    pub frames_of_brood: u8,
    /// Frames of stores, 0 to 2.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = 0, max = 2)))]
    pub frames_of_stores: u8,
    /// Further bees shaken in, in frames, 0 to 4.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 4.0)))]
    pub further_bees: f64,
    /// The queen.
    #[serde(default)]
    pub queen: QueenGoes,
    /// What is put in the places of the frames that leave; left out: nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub in_their_place: Option<Comb>,
}

/// Another colony that is put on top.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Unite {
    /// Frames covered with bees, 0.5 to 20.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.5, max = 20.0)))]
    pub frames_of_bees: f64,
    /// Frames of brood, 0 to 10.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 10.0)))]
    pub frames_of_brood: f64,
    /// Honey, kg, 0 to 40.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 40.0)))]
    pub honey_kg: f64,
    /// Pollen, kg, 0 to 5.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 5.0)))]
    pub pollen_kg: f64,
    /// The box that it comes in, whose comb has to hold its brood and stores.
    #[serde(rename = "box")]
    pub hive_box: HiveBox,
    /// Its queen. One of two queens has to be taken away first; left out: it has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub queen: Option<Queen>,
}

/// Bees that are shaken out. Give `pounds`, `kilograms` or `bees`.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct BeesTaken {
    /// Weight in pounds, 0.5 to 10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.5, max = 10.0)))]
    pub pounds: Option<f64>,
    /// Weight in kilograms, 0.2 to 4.5.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.2, max = 4.5)))]
    pub kilograms: Option<f64>,
    /// Number of bees, 500 to 40,000.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 500.0, max = 40000.0)))]
    pub bees: Option<f64>,
}

/// A treatment against mites. Follow the label: it is the law; nothing here is a dosing instruction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Treat {
    /// The active ingredient and the way in which it is given.
    pub with: Treatment,
    /// Days that it stays, 1 to 90; left out: as the table of treatments says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 90)))]
    pub days: Option<u16>,
    /// Part of the effect lost to resistance, 0 to 1; left out: as the table of treatments says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1.0)))]
    pub resistance: Option<f64>,
}

fn one() -> u8 {
    1
}

fn two_days() -> f64 {
    48.0
}

fn full() -> f64 {
    1.0
}

fn three() -> f64 {
    3.0
}

pub(super) fn is_false(value: &bool) -> bool {
    !*value
}
