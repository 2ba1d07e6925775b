/* Made by scripts/types.mjs from the schema of the scenario file. Do not edit. */

/**
 * What a frame holds when it is given.
 */
export type Comb = 'foundation' | 'bare-foundation' | 'drawn' | 'foundationless' | 'drone-frame' | 'drawn-drone-frame';
/**
 * A calendar date, year-month-day.
 */
export type CalendarDate = string;
/**
 * Units of a weather record.
 */
export type RecordUnits = 'tenths' | 'metric' | 'us';

/**
 * One season of one colony: where, in what weather, how it starts, and what the beekeeper does.
 */
export interface Scenario {
  /**
   * What blooms, in place of the table of the place's forage. Empty: use that table.
   */
  bloom?: Bloom[];
  /**
   * What the result should be, each with the reason or source; checked by `combcast check`.
   */
  expect?: Expectation[];
  /**
   * Feed on offer.
   */
  feed?: Feed[];
  hive: Hive;
  /**
   * `mean` for smooth expected values, `random` for whole animals and chance.
   */
  mode?: 'mean' | 'random';
  /**
   * What the beekeeper does, each on a date or when something is so.
   */
  move?: Move[];
  /**
   * A short name, shown as the title.
   */
  name: string;
  /**
   * Parameters that differ from their defaults, as `"section.name" = value`.
   */
  parameters?: {
    [k: string]: number;
  };
  place: Place;
  /**
   * The question that this scenario answers.
   */
  question?: string;
  /**
   * Seed of the random mode and of the weather generator, 0 to 4,294,967,295.
   */
  seed?: number;
  start: Start;
  /**
   * A calendar date, year-month-day.
   */
  until: string;
  weather: WeatherSource;
}
/**
 * One plant, or group of plants, in bloom.
 */
export interface Bloom {
  /**
   * How long it blooms, days, 1 to 200.
   */
  days: number;
  /**
   * Nectar at its best, 0 (none) to 1 (a strong flow).
   */
  nectar?: number;
  /**
   * Name of the plant or group.
   */
  plant: string;
  /**
   * Pollen at its best, 0 (none) to 1 (plenty).
   */
  pollen?: number;
  starts: BloomStart;
}
/**
 * When it starts. Exactly one way must be given.
 */
export interface BloomStart {
  /**
   * When the day length falls through this many hours after midsummer, 4 to 20.
   */
  day_length_falls_to?: number | null;
  /**
   * Each year on this day, as `month-day`, for example `"08-25"`; `"02-29"` is 28 February in a year without it.
   */
  each_year?: string | null;
  /**
   * When the warmth sum of the year (daily means above 0 °C, January halved, February three quarters;
   * in the southern hemisphere from 1 July) reaches this many °C days, 1 to 20,000.
   */
  warmth_sum?: number | null;
}
/**
 * What a result should be, with the reason.
 */
export interface Expectation {
  /**
   * Smallest value that is in order.
   */
  at_least?: number | null;
  /**
   * Largest value that is in order.
   */
  at_most?: number | null;
  /**
   * Where the range comes from.
   */
  because: string;
  /**
   * The column of the day's record, for example `adult_bees`.
   */
  column: string;
  /**
   * The day to look at, inside the season.
   */
  date: string;
}
/**
 * Feed on offer from one day to another.
 */
export interface Feed {
  /**
   * Filled again every so many days, 1 to 60; left out: filled once, on the first day.
   */
  every_days?: number | null;
  /**
   * Number of feeders side by side, 1 to 8: they share the filling and set how many bees can drink.
   */
  feeders?: number;
  /**
   * First day, inside the season.
   */
  from: string;
  /**
   * Quart jars (0.946 litres) of syrup at each filling, 0.25 to 50.
   */
  jars?: number | null;
  /**
   * Kilograms of pollen patty at each filling, 0.05 to 5.
   */
  kilograms?: number | null;
  /**
   * What is fed.
   */
  kind: '1:1' | '2:1' | 'patty';
  /**
   * Litres of syrup at each filling, 0.1 to 50. Give this, or `jars`, or `kilograms` (patties); none: kept full.
   */
  litres?: number | null;
  /**
   * Last day, inside the season.
   */
  to: string;
}
/**
 * The boxes and frames on the first day.
 */
export interface Hive {
  /**
   * Boxes from the bottom up, 1 to 6.
   */
  box: HiveBox[];
  /**
   * The comb of a deep frame of this hive, where it is not 430 mm wide and 205 mm high.
   */
  deep_frame?: FrameSize | null;
  /**
   * The comb of a medium frame of this hive, where it is not 430 mm wide and 130 mm high.
   */
  medium_frame?: FrameSize | null;
}
/**
 * One box of frames.
 */
export interface HiveBox {
  /**
   * What a frame holds when it is given.
   */
  comb?: 'foundation' | 'bare-foundation' | 'drawn' | 'foundationless' | 'drone-frame' | 'drawn-drone-frame';
  /**
   * Frame by frame from left to right, in place of `comb`; as many entries as frames.
   */
  contents?: Comb[];
  /**
   * Number of frames, 1 to 12: 5 for a nuc, 8 or 10 for a common box.
   */
  frames?: number;
  /**
   * A honey super: its honey is for people, which some treatments forbid.
   */
  honey_super?: boolean;
  /**
   * Deep or medium.
   */
  size?: 'deep' | 'medium';
}
/**
 * The comb of a frame, inside of its bars.
 */
export interface FrameSize {
  /**
   * Height of the comb, mm, 80 to 350.
   */
  comb_height_mm: number;
  /**
   * Width of the comb, mm, 200 to 500.
   */
  comb_width_mm: number;
}
/**
 * Something that the beekeeper does: on a date, when something is so, or again and again; exactly one action.
 */
export interface Move {
  /**
   * Give a box on top.
   */
  add_box?: HiveBox | null;
  /**
   * Cage the queen.
   */
  cage_queen?: Cage | null;
  /**
   * Cut the comb out of a foundationless frame, which stays.
   */
  cut_out_comb?: Which | null;
  /**
   * The day on which it is done, inside the season; with `when`, the first day on which to look. Needed unless `when` is given.
   */
  date?: CalendarDate | null;
  /**
   * `true`: take out what is left of every treatment.
   */
  end_treatment?: boolean | null;
  /**
   * Do it again every so many days, 1 to 365.
   */
  every_days?: number | null;
  /**
   * Put syrup on and leave the feeders there; filled again at each repeat.
   */
  feed?: Syrup | null;
  /**
   * Freeze the drone frame and put it back.
   */
  freeze_drone_frame?: Freeze | null;
  /**
   * Shake in young bees from so many frames of another hive, 0.25 to 10 frames.
   */
  give_bees?: number | null;
  /**
   * Give frames of brood from another hive.
   */
  give_brood?: BroodFrames | null;
  /**
   * Give a frame: drawn comb, foundation, foundationless or a drone frame.
   */
  give_frame?: NewFrame | null;
  /**
   * Give a mated queen to a hive that has none.
   */
  give_queen?: NewQueen | null;
  /**
   * `true`: give a ripe queen cell.
   */
  give_queen_cell?: boolean | null;
  /**
   * Give frames full of honey, 1 to 8 frames.
   */
  give_stores?: number | null;
  /**
   * `true`: make the colony swarm, for lessons and trials.
   */
  let_swarm?: boolean | null;
  /**
   * Move a frame to another place; those between close up.
   */
  move_frame?: FromTo | null;
  /**
   * Put a pollen patty on.
   */
  patty?: Patty | null;
  /**
   * Put back the frame that was taken out last.
   */
  put_back_frame?: Which | null;
  /**
   * `true`: let the queen out of her cage.
   */
  release_queen?: boolean | null;
  /**
   * Take away a box with all that is in it but the bees; boxes count from the bottom, 1 to 6.
   */
  remove_box?: number | null;
  /**
   * `true`: take the queen away.
   */
  remove_queen?: boolean | null;
  /**
   * `true`: break every queen cell and cup.
   */
  remove_queen_cells?: boolean | null;
  /**
   * Take the queen away and give a mated one.
   */
  replace_queen?: NewQueen | null;
  /**
   * `true`: the two lowest boxes change places.
   */
  reverse_boxes?: boolean | null;
  /**
   * Shake a package out of the colony: house bees.
   */
  shake_package?: BeesTaken | null;
  /**
   * Split the colony; the season follows what is left here.
   */
  split?: Split | null;
  /**
   * `true`: take off the feeders and the patty that moves put on.
   */
  stop_feeding?: boolean | null;
  /**
   * Two boxes change places.
   */
  swap_boxes?: BoxPair | null;
  /**
   * Take the drone frame out, and put in its place the one from the shed, or a new one the first time.
   */
  swap_drone_frames?: Which | null;
  /**
   * Shake out the bees of so many frames, 0.25 to 10 frames; house bees, for foragers fly home.
   */
  take_bees?: number | null;
  /**
   * Take frames of brood out for another hive.
   */
  take_brood?: BroodFrames | null;
  /**
   * Take the drone frame out; its brood is destroyed, and its comb is kept in the shed.
   */
  take_drone_frame?: Which | null;
  /**
   * Take a frame out with all that is in it but the bees, who are shaken off; its comb is kept in the shed.
   */
  take_frame?: At | null;
  /**
   * Take honey off until this many kilograms are left, 0 to 100.
   */
  take_honey_leaving_kg?: number | null;
  /**
   * Take out a nuc; the season follows what is left here.
   */
  take_nuc?: NucTaken | null;
  /**
   * Take out the frames with most stores, 1 to 8 frames.
   */
  take_stores?: number | null;
  /**
   * Treat against mites. Follow the label: it is the law.
   */
  treat?: Treat | null;
  /**
   * Unite with another colony, put on top in its own box.
   */
  unite?: Unite | null;
  /**
   * The last day on which it is done; left out: to the end of the season.
   */
  until?: CalendarDate | null;
  /**
   * `true`: take the wrap off.
   */
  unwrap?: boolean | null;
  /**
   * Do it on the first day on which this is so.
   */
  when?: When | null;
  /**
   * `true`: wrap the hive for winter.
   */
  wrap_for_winter?: boolean | null;
}
/**
 * Caging the queen.
 */
export interface Cage {
  /**
   * Days until she is let out, 1 to 60; left out: until `release_queen`.
   */
  days?: number | null;
}
/**
 * Which frame or place.
 */
export interface Which {
  /**
   * Box and place; left out: the one with most drone brood, or the first place that fits.
   */
  at?: At | null;
}
/**
 * A place in the hive, as a beekeeper counts.
 */
export interface At {
  /**
   * Box from the bottom, 1 to 6.
   */
  box: number;
  /**
   * Place in the box from left to right, 1 to 12.
   */
  place: number;
}
/**
 * Syrup put on by a move. Give `litres` or `jars`; none: kept full.
 */
export interface Syrup {
  /**
   * Number of feeders, 1 to 8.
   */
  feeders?: number;
  /**
   * Quart jars (0.946 litres) at each filling, 0.25 to 50.
   */
  jars?: number | null;
  /**
   * `1:1` or `2:1`.
   */
  kind: '1:1' | '2:1' | 'patty';
  /**
   * Litres at each filling, 0.1 to 50.
   */
  litres?: number | null;
}
/**
 * Freezing a frame.
 */
export interface Freeze {
  /**
   * Box and place; left out: the drone frame with most brood.
   */
  at?: At | null;
  /**
   * Hours in the freezer, 24 to 336; it goes back when they are over.
   */
  hours?: number;
}
/**
 * Frames of brood given or taken.
 */
export interface BroodFrames {
  /**
   * Number of frames, 1 to 8.
   */
  frames: number;
  /**
   * What is put in the place of a frame that is taken; left out: nothing.
   */
  in_their_place?: Comb | null;
  /**
   * With the bees that cover them.
   */
  with_bees?: boolean;
}
/**
 * A frame that is given.
 */
export interface NewFrame {
  /**
   * Where; left out: in the first empty place, or instead of a frame that is not drawn at all.
   */
  at?: At | null;
  /**
   * What a frame holds when it is given.
   */
  comb: 'foundation' | 'bare-foundation' | 'drawn' | 'foundationless' | 'drone-frame' | 'drawn-drone-frame';
  /**
   * Take out the frame at that place with all that is in it. Without this, only an undrawn frame gives way.
   */
  replace?: boolean;
}
/**
 * A mated queen that is given.
 */
export interface NewQueen {
  /**
   * Her age in years, 0 (this year's) to 5.
   */
  age_years?: number;
  /**
   * Days until she is out of her cage, 0 to 10.
   */
  caged_days?: number;
  /**
   * Her laying power against a good queen of her age, 0 to 1.5.
   */
  laying_power?: number;
}
/**
 * From one place to another.
 */
export interface FromTo {
  from: At1;
  to: At2;
}
/**
 * A place in the hive, as a beekeeper counts.
 */
export interface At1 {
  /**
   * Box from the bottom, 1 to 6.
   */
  box: number;
  /**
   * Place in the box from left to right, 1 to 12.
   */
  place: number;
}
/**
 * A place in the hive, as a beekeeper counts.
 */
export interface At2 {
  /**
   * Box from the bottom, 1 to 6.
   */
  box: number;
  /**
   * Place in the box from left to right, 1 to 12.
   */
  place: number;
}
/**
 * A pollen patty.
 */
export interface Patty {
  /**
   * Its weight, kg, 0.05 to 5.
   */
  kilograms: number;
}
/**
 * Bees that are shaken out. Give `pounds`, `kilograms` or `bees`.
 */
export interface BeesTaken {
  /**
   * Number of bees, 500 to 40,000.
   */
  bees?: number | null;
  /**
   * Weight in kilograms, 0.2 to 4.5.
   */
  kilograms?: number | null;
  /**
   * Weight in pounds, 0.5 to 10.
   */
  pounds?: number | null;
}
/**
 * A split: a share of comb, brood, bees and stores leaves.
 */
export interface Split {
  /**
   * What is put in the places of the frames that leave; left out: nothing.
   */
  in_their_place?: Comb | null;
  /**
   * The queen.
   */
  queen?: 'stays' | 'leaves';
  /**
   * The share that leaves, 0.1 to 0.9.
   */
  share: number;
  /**
   * The new hive goes to another yard: its share of the foragers goes too. Otherwise they fly back to the old stand.
   */
  to_another_yard?: boolean;
}
/**
 * Two boxes.
 */
export interface BoxPair {
  /**
   * One box, from the bottom, 1 to 6.
   */
  one: number;
  /**
   * The other box, from the bottom, 1 to 6.
   */
  other: number;
}
/**
 * A nuc that is taken out.
 */
export interface NucTaken {
  /**
   * Frames of brood, with the bees on them, 1 to 4.
   */
  frames_of_brood: number;
  /**
   * Frames of stores, 0 to 2.
   */
  frames_of_stores?: number;
  /**
   * Further bees shaken in, in frames, 0 to 4.
   */
  further_bees?: number;
  /**
   * What is put in the places of the frames that leave; left out: nothing.
   */
  in_their_place?: Comb | null;
  /**
   * The queen.
   */
  queen?: 'stays' | 'leaves';
}
/**
 * A treatment against mites. Follow the label: it is the law; nothing here is a dosing instruction.
 */
export interface Treat {
  /**
   * Days that it stays, 1 to 90; left out: as the table of treatments says.
   */
  days?: number | null;
  /**
   * Part of the effect lost to resistance, 0 to 1; left out: as the table of treatments says.
   */
  resistance?: number | null;
  /**
   * The active ingredient and the way in which it is given.
   */
  with:
    | 'oxalic-dribble'
    | 'oxalic-vapour'
    | 'oxalic-extended'
    | 'formic-slow'
    | 'formic-flash'
    | 'thymol'
    | 'amitraz'
    | 'hop-acids'
    | 'fluvalinate'
    | 'coumaphos';
}
/**
 * Another colony that is put on top.
 */
export interface Unite {
  box: HiveBox1;
  /**
   * Frames covered with bees, 0.5 to 20.
   */
  frames_of_bees: number;
  /**
   * Frames of brood, 0 to 10.
   */
  frames_of_brood?: number;
  /**
   * Honey, kg, 0 to 40.
   */
  honey_kg?: number;
  /**
   * Pollen, kg, 0 to 5.
   */
  pollen_kg?: number;
  /**
   * Its queen. One of two queens has to be taken away first; left out: it has none.
   */
  queen?: Queen | null;
}
/**
 * One box of frames.
 */
export interface HiveBox1 {
  /**
   * What a frame holds when it is given.
   */
  comb?: 'foundation' | 'bare-foundation' | 'drawn' | 'foundationless' | 'drone-frame' | 'drawn-drone-frame';
  /**
   * Frame by frame from left to right, in place of `comb`; as many entries as frames.
   */
  contents?: Comb[];
  /**
   * Number of frames, 1 to 12: 5 for a nuc, 8 or 10 for a common box.
   */
  frames?: number;
  /**
   * A honey super: its honey is for people, which some treatments forbid.
   */
  honey_super?: boolean;
  /**
   * Deep or medium.
   */
  size?: 'deep' | 'medium';
}
/**
 * The queen on the first day.
 */
export interface Queen {
  /**
   * Her age in years, 0 (this year's) to 5.
   */
  age_years?: number;
  /**
   * Her laying power against a good queen of her age, 0 (does not lay) to 1.5.
   */
  laying_power?: number;
}
/**
 * What has to be so, all that is given at once; at least one must be given. Looked at in the morning.
 */
export interface When {
  /**
   * Adult workers, 0 to 100,000.
   */
  bees_at_least?: number | null;
  /**
   * Adult workers, 0 to 100,000.
   */
  bees_at_most?: number | null;
  /**
   * Frames of worker brood, 0 to 40.
   */
  brood_frames_at_least?: number | null;
  /**
   * Frames of worker brood, 0 to 40; 0 waits for a hive without brood.
   */
  brood_frames_at_most?: number | null;
  /**
   * Capped drone cells on drone frames and foundationless comb, 1 to 20,000.
   */
  capped_drone_cells_at_least?: number | null;
  /**
   * Frames drawn, 0 to 72.
   */
  frames_drawn_at_least?: number | null;
  /**
   * Honey in the comb, kg, 0 to 200.
   */
  honey_kg_at_least?: number | null;
  /**
   * Honey in the comb, kg, 0 to 200.
   */
  honey_kg_at_most?: number | null;
  /**
   * The box that `frames_drawn_at_least` looks at, from the bottom, 1 to 6; left out: the whole hive.
   */
  of_box?: number | null;
}
/**
 * Where the hive stands.
 */
export interface Place {
  /**
   * Height above the sea in metres, -430 to 5000.
   */
  elevation_m?: number;
  /**
   * What grows around: one of the built-in forage types.
   */
  forage?: 'mixed' | 'orchard' | 'meadow' | 'woodland' | 'dryland' | 'bare';
  /**
   * Latitude in degrees, north positive, -66 to 66.
   */
  latitude: number;
  /**
   * Name of the yard, as shown beside the title.
   */
  name: string;
  /**
   * Hives in flying distance, from which mites come in autumn: `none`, `few` or `many`.
   */
  neighbours?: 'none' | 'few' | 'many';
}
/**
 * How the colony starts.
 */
export interface Start {
  /**
   * A calendar date, year-month-day.
   */
  date: string;
  /**
   * A colony that is already there, described as a beekeeper sees it.
   */
  established?: Established | null;
  /**
   * Mites that a wash of 100 bees would find on the first day, 0 to 50. Left out: a season has no mites, and colonies
   * that differ in what nobody knows of them have a usual load.
   */
  mites_per_100_bees?: number | null;
  /**
   * A nucleus colony: a few frames with brood, stores and a laying queen.
   */
  nuc?: Established | null;
  /**
   * A package: bees and a caged queen, no comb.
   */
  package?: Package | null;
  queen?: Queen1;
  /**
   * A swarm that was hived: bees full of honey and their own queen.
   */
  swarm?: Swarm | null;
}
/**
 * A colony as a beekeeper sees it with the lid off.
 */
export interface Established {
  /**
   * Frames covered with bees on both sides, 0.5 to 40 (deep frames).
   */
  frames_of_bees: number;
  /**
   * Frames filled with worker brood on both sides, all stages together, 0 to 20 (deep frames).
   */
  frames_of_brood?: number;
  /**
   * Honey in the comb, kg, 0 to 100.
   */
  honey_kg: number;
  /**
   * Pollen in the comb, kg, 0 to 5.
   */
  pollen_kg?: number;
}
/**
 * A package of bees. Give `pounds`, `kilograms` or `bees`.
 */
export interface Package {
  /**
   * Number of bees, 500 to 40,000.
   */
  bees?: number | null;
  /**
   * Weight of the bees in kilograms, 0.2 to 4.5.
   */
  kilograms?: number | null;
  /**
   * Weight of the bees in pounds, 0.5 to 10.
   */
  pounds?: number | null;
  /**
   * Days until the queen is out of her cage, 0 to 10.
   */
  queen_caged_days?: number;
}
/**
 * The queen on the first day.
 */
export interface Queen1 {
  /**
   * Her age in years, 0 (this year's) to 5.
   */
  age_years?: number;
  /**
   * Her laying power against a good queen of her age, 0 (does not lay) to 1.5.
   */
  laying_power?: number;
}
/**
 * A hived swarm. Give `pounds`, `kilograms` or `bees`.
 */
export interface Swarm {
  /**
   * Number of bees, 500 to 40,000.
   */
  bees?: number | null;
  /**
   * Weight of the bees in kilograms, 0.2 to 5.5.
   */
  kilograms?: number | null;
  /**
   * Weight of the bees in pounds, 0.5 to 12.
   */
  pounds?: number | null;
}
/**
 * The weather that the colony has.
 */
export interface WeatherSource {
  /**
   * A built-in kind of climate, for places without a record; days are drawn by the generator.
   */
  place_type?: string | null;
  /**
   * Spells of rain laid over the weather: "make it rain from … to …".
   */
  rain?: RainSpell[];
  /**
   * A weather file beside the scenario (`.dly`, `.csv` or `.txt`), or the name of a built-in record.
   */
  record?: string | null;
  /**
   * Use the record's days as if they had happened this many years later (negative: earlier), -200 to 200.
   */
  shift_years?: number;
  /**
   * Which station, where the record holds several.
   */
  station?: string | null;
  /**
   * Days typed in by hand.
   */
  typed?: TypedDay[];
  /**
   * Units of the record where they cannot be told from it: `tenths` (0.1 °C, 0.1 mm), `metric` (°C, mm) or `us` (°F, inch).
   */
  units?: RecordUnits | null;
}
/**
 * A spell of rain laid over the weather.
 */
export interface RainSpell {
  /**
   * How much cooler the days' highs are than they were, °C, 0 to 20. A dry day that turns wet is cooler.
   */
  cooler_c?: number;
  /**
   * A calendar date, year-month-day.
   */
  from: string;
  /**
   * Rain on each day, mm, 0 to 200; a day that was wetter stays as it was.
   */
  mm_a_day?: number;
  /**
   * A calendar date, year-month-day.
   */
  to: string;
}
/**
 * One day's weather typed in by hand.
 */
export interface TypedDay {
  /**
   * A calendar date, year-month-day.
   */
  date: string;
  /**
   * Highest temperature, °C, -60 to 60.
   */
  high_c: number;
  /**
   * Lowest temperature, °C, -60 to 60 and not above the highest.
   */
  low_c: number;
  /**
   * Rain, mm, 0 to 600.
   */
  rain_mm?: number;
}
