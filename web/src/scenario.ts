/* Made by scripts/types.mjs from the schema of the scenario file. Do not edit. */

/**
 * What a frame holds when it is given.
 */
export type Comb = 'foundation' | 'bare-foundation' | 'drawn' | 'foundationless' | 'drone-frame' | 'drawn-drone-frame';
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
   * What the beekeeper does on a date.
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
   * The last day to simulate, at most 20 years after the first; years 1800 to 2200.
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
}
/**
 * One box of frames.
 */
export interface HiveBox {
  /**
   * What the frames hold, unless `contents` names them one by one.
   */
  comb?: 'foundation' | 'bare-foundation' | 'drawn' | 'foundationless' | 'drone-frame' | 'drawn-drone-frame';
  /**
   * Frame by frame from left to right, in place of `comb`; as many entries as frames.
   */
  contents?: Comb[];
  /**
   * Number of frames, 1 to 12.
   */
  frames?: number;
  /**
   * Deep or medium.
   */
  size?: 'deep' | 'medium';
}
/**
 * Something that the beekeeper does on a date: exactly one action.
 */
export interface Move {
  /**
   * Give a box on top.
   */
  add_box?: HiveBox | null;
  /**
   * The day on which it is done, inside the season.
   */
  date: string;
  /**
   * Take honey off until this many kilograms are left, 0 to 100.
   */
  take_honey_leaving_kg?: number | null;
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
   * The first day; years 1800 to 2200.
   */
  date: string;
  /**
   * A colony that is already there, described as a beekeeper sees it.
   */
  established?: Established | null;
  /**
   * Mites that a wash of 100 bees would find on the first day, 0 to 50; left out: no mites.
   */
  mites_per_100_bees?: number;
  /**
   * A nucleus colony: a few frames with brood, stores and a laying queen.
   */
  nuc?: Established | null;
  /**
   * A package: bees and a caged queen, no comb.
   */
  package?: Package | null;
  queen?: Queen;
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
   * First wet day.
   */
  from: string;
  /**
   * Rain on each day, mm, 0 to 200; a day that was wetter stays as it was.
   */
  mm_a_day?: number;
  /**
   * Last wet day.
   */
  to: string;
}
/**
 * One day's weather typed in by hand.
 */
export interface TypedDay {
  /**
   * The day it stands for.
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
