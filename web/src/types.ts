/**
 * What crosses the door from the model, as `sim-wasm/src/lib.rs` hands it over.
 * `test/door.test.ts` checks these shapes against the built module; the scenario's own types are made (scenario.ts).
 */
import type { Move, Treat } from './scenario';
import type { UnitSystem } from './units';

/** Languages of the model's words; `sim-core/src/words.rs` has them. */
export type Language = 'en' | 'de';

/** A fault in words: where it stands, what is wrong, what was expected. */
export interface Problem {
  kind: 'scenario' | 'weather' | 'parameter' | 'invariant' | 'program';
  /** A path such as `start.package.pounds`, or `line 12`. */
  place: string;
  message: string;
  /** That of the message: English where the model has no words for it in another. */
  language: Language;
  /** The source line with a caret under the fault. */
  excerpt: string | null;
}

export interface ColumnInfo {
  name: string;
  label: string;
  unit: string;
  kind: 'stock' | 'flow' | 'condition';
}

/** What can hold the queen back. */
export interface Brake {
  name: string;
  words: string;
}

/** A built-in weather record. */
export interface BuiltInRecord {
  name: string;
  /** Its file among the shipped records. */
  file: string;
  station: string | null;
  place: string;
  latitude: number;
  elevation_m: number;
  /** First and last year that it covers from January to December. */
  first_year: number;
  last_year: number;
  provenance: string;
}

/** A built-in kind of climate. */
export interface PlaceType {
  name: string;
  description: string;
  latitude: number;
  provenance: string;
}

/** What is published of a treatment against mites. */
export interface TreatmentInfo {
  treatment: Treat['with'];
  name: string;
  /** Days that it works. */
  days: number;
  /** The day's mean above the first, its high below the second. */
  window_c: [number, number];
  supers: 'off' | 'some-labels';
  /** Part of the effect that is lost to resistance, 0 to 1. */
  resistance: number;
  source: string;
  caution: string;
}

export type QueenState = 'caged' | 'laying' | 'virgin' | 'mated' | 'drone_layer' | 'laying_workers' | 'none';

/** What the model offers, the same for every season. */
export interface Catalogue {
  version: string;
  columns: ColumnInfo[];
  brakes: Brake[];
  origins: string[];
  records: BuiltInRecord[];
  placeTypes: PlaceType[];
  queenStates: QueenState[];
  treatments: TreatmentInfo[];
  /** What stands before the caution of every treatment. */
  label: string;
}

export interface SeasonEvent {
  date: string;
  /** Day of the season, the first being 1. */
  day: number;
  kind: string;
  text: string;
  /** Which move it came of: its place in the scenario's list, from 0. */
  move?: number;
  /** The figures of a move, by name. */
  figures?: Record<string, number>;
}

export interface BloomTime {
  plant: string;
  from: string;
  to: string;
  /** At its best, 0 to 1. */
  nectar: number;
  pollen: number;
}

/** One season: columns one after the other in `values`, in the order of the catalogue. */
export interface Outcome {
  first: string;
  days: number;
  values: Float64Array;
  brakes: Uint8Array;
  /** What a wash of half a cup would find, for 100 bees: 95 of 100 washes lie between the two. */
  washLow: Float64Array;
  washHigh: Float64Array;
  queens: Uint8Array;
  origins: Uint8Array;
  events: SeasonEvent[];
  bloom: BloomTime[];
  /** What the record holds, what was mended, which days the season uses: a sentence each. */
  weatherNotes: string[];
  digest: string;
}

/** What a stretch of the story speaks of. */
export type Emphasis =
  | 'plain'
  | 'date'
  | 'bees'
  | 'brood'
  | 'comb'
  | 'eggs'
  | 'brake'
  | 'weather'
  | 'food'
  | 'when'
  | 'caution';

export interface StorySpan {
  text: string;
  kind: Emphasis;
}

/** The sentences of one day, each a list of stretches. */
export interface Story {
  sentences: StorySpan[][];
}

/** The combs of one evening, frame by frame: box by box from the bottom, left to right. */
export interface HiveCells {
  frames: FrameCells[];
  /** Her frame, and the cell among those of its two faces. */
  queen: [number, number] | null;
}

export interface FrameCells {
  /** Box from the bottom, place in it from left to right, both from 0. */
  inBox: number;
  place: number;
  columns: number;
  rows: number;
  forDrones: boolean;
  medium: boolean;
  /** What each cell holds: row by row from the top, the first face, then the second. */
  contents: Uint8Array;
}

/** What is compared in a trial. */
export interface MeasureInfo {
  name: 'bees' | 'brood_frames' | 'drawn_frames' | 'honey_kg' | 'mites' | 'mites_per_100_bees';
  unit: string;
  moreIsBetter: boolean;
}

/** A plan against its twin over an ensemble. */
export interface Trial {
  first: string;
  days: number;
  members: number;
  /** Members have weather of their own on some days. */
  drawnWeather: boolean;
  measures: MeasureInfo[];
  /**
   * For each measure the 5 % line of plan less twin over the days, its median, its 95 % line, and the probability
   * that the plan is the better.
   */
  values: Float64Array;
}

/** One date of a trial. */
export interface TrialDay {
  story: Story;
  /** Plan less twin, for each measure a number for each member. */
  differences: number[][];
  /** That the plan is the better, by measure. */
  probabilities: number[];
}

export interface Spread {
  mean: number;
  standard_error: number;
  q05: number;
  q25: number;
  median: number;
  q75: number;
  q95: number;
}

/** A drone frame taken out on one morning. */
export interface DayOut {
  date: string;
  days_in: number;
  /** Days after the last safe one, negative before it. */
  days_late: number | null;
  days_since_first_egg: number | null;
  drone_cells_open: number;
  drone_cells_capped: number;
  drones_emerged: number;
  mites_let_out: number;
  mites_removed: Spread;
  share_of_mites: number;
  /** Mites fewer (negative: more) than without the frame on the day of the count. */
  gain: Spread;
  probability: number;
  lost: number;
}

/** On which day a drone frame should come out. */
export interface FrameWindow {
  window: {
    members: number;
    mode: 'mean' | 'random';
    given: string;
    at: { box: number; place: number };
    set_aside: string[];
    first_egg: string | null;
    emerges: string | null;
    last_safe: string | null;
    /** The last of the days right after `last_safe` on which it is worth no less. */
    as_good_until: string | null;
    counted_on: string;
    mites_without: Spread;
    gain_left_in: Spread;
    days: DayOut[];
  };
  story: Story;
}

/** When a threshold is passed: by 5, 50 and 95 % of the members that pass it. */
export interface Passed {
  name: string;
  what: string;
  share: number;
  early: string | null;
  median: string | null;
  late: string | null;
}

/** How often something happens. */
export interface Risk {
  name: string;
  what: string;
  members: number;
  chance: number;
}

/** Between which limits colonies of one start and weather lie. */
export interface Bands {
  members: number;
  /** Runs of weather among them; 1: all days are of a record. */
  weathers: number;
  /** Mites on 100 bees at the start, where the plan does not say; otherwise null. */
  assumedMites: number | null;
  dates: string[];
  measures: string[];
  thresholds: Passed[];
  risks: Risk[];
  /** For each measure the 5, 25, 50, 75 and 95 % lines over the dates. */
  values: Float64Array;
}

/** What cannot wait. */
export type AlarmName = 'queen_cells' | 'low_stores' | 'many_mites' | 'many_fallen' | 'lost' | 'at_odds';

export type StandingWord = 'ahead' | 'in_step' | 'behind' | 'far_behind' | 'lost' | 'at_odds' | 'untold';
export type CauseName = 'no_queen' | 'queen' | 'food' | 'comb' | 'mites' | 'losses';
export type Reading =
  | 'frames_of_bees'
  | 'frames_of_brood'
  | 'frames_drawn'
  | 'stores'
  | 'eggs'
  | 'queen'
  | 'charged_cells'
  | 'capped_cells'
  | 'drone_frame'
  | 'wash'
  | 'mite_fall'
  | 'syrup'
  | 'weight';

/** One reading beside what the colony was expected to show, after the visits before. */
export interface Seen {
  /** Counted from 1. */
  visit: number;
  date: string;
  what: Reading;
  found: number;
  low: number;
  expected: number;
  high: number;
  /** One colony in twenty each, from what shows least. */
  twentieths: number[];
  below: number;
}

/** One thing to do, in words. */
export interface Told {
  title: string;
  details: string[];
  why: string;
  /** A count of colonies: `913 of 1,000`. */
  sure: string;
  cautions: string[];
}

/** What to do in the coming weeks, in order of date. */
export interface WhatNext {
  hive: string;
  visits: number;
  members: number;
  from: string;
  /** The last day on which a visit is listed. */
  to: string;
  /** The last day that was looked at. */
  until: string;
  warnings: string[];
  /** That some colonies were lost before the first day, in words. */
  left_out: string | null;
  /** Mites on 100 bees that were assumed, where the plan does not say how many there are at the start. */
  assumed_mites: number | null;
  items: { from: string; to: string; planned: boolean; visit: boolean; found: boolean; told: Record<UnitSystem, Told> }[];
  /** The list as a calendar file. */
  calendar: Record<UnitSystem, string>;
}

export type GoalName = 'alive' | 'few_mites' | 'honey' | 'no_swarm' | 'bees';

/** One plan against another on the same colonies. */
export interface Gain {
  goal: GoalName;
  with: Spread;
  difference: Spread;
  better: { ahead: number; level: number; behind: number };
  /** How sure it is that it is better in the mean, 0 to 1. */
  sure: number;
}

/** What a search found. */
export interface FoundPlans {
  hive: string;
  from: string;
  until: string;
  goals: GoalName[];
  tried: number;
  members: number;
  /** Whether it came to its end; if not, what is shown is flattered. */
  finished: boolean;
  as_it_is: { goal: GoalName; spread: Spread }[];
  best: {
    families: ('drone-frames' | 'treatment' | 'feed' | 'box' | 'queen-cells')[];
    moves: Move[];
    calendar: { date: string; text: string }[];
    costs: { visits: number; jars: number; sugar_kg: number; treatments: number; drones: number; drone_honey_kg: number; refused: number };
    gains: Gain[];
    besides: Gain[];
    /** Against the next of the best, for each goal; empty for the last. */
    against_next: Gain[];
  }[];
  /** That mites were assumed, where the plan does not say how many there are at the start. */
  assumed_mites: { per_100_bees: number; text: string } | null;
  warnings: string[];
  cautions: string[];
  /** The best plan as a calendar file. */
  ics: Record<UnitSystem, string>;
}

/** How far a search is, and the best so far. */
export interface SearchSoFar {
  /** Colonies that fit the visits are found first; the best plans are judged last. */
  doing: 'finding' | 'racing' | 'judging';
  /** Lives lived so far. */
  lived: number;
  /** The stage, from 1; the best so far are others in each. */
  stage: number;
  /** Plans in the race, or judged; none while colonies are found. */
  plans: number;
  /** In every language: to tell it anew takes no search. `null` before the first stage is over. */
  found: Record<Language, FoundPlans> | null;
}

/** Where a hive stands after its visits. */
export interface Verdict {
  scenario: string;
  hive: string;
  members: number;
  date: string;
  visits: number;
  aside: { visit: number; date: string; what: string; reason: string }[];
  standing: {
    word: StandingWord;
    weaker: number;
    strength: Spread;
    peers: Spread;
    days_ahead: number | null;
    days_least: number | null;
    days_most: number | null;
    fewer_bees: number;
    less_brood: number;
  };
  /** What visits found that cannot wait. */
  alarms: { date: string; alarm: AlarmName; text: string }[];
  causes: { cause: CauseName; what: string; probability: number; before: number; tell: string }[];
  sound: number;
  seen: Seen[];
  unfit: { date: string; what: Reading; chance: number; text: string }[];
  log_likelihood: number;
  steps: { effective: number; parts: number; taken: number; distinct: number; log_likelihood: number }[];
  /** That causes and forecast do not know of queen cells that were found, in words. */
  cells_unknown: string | null;
  warnings: string[];
  forecast: {
    /** That mites were assumed, where the plan does not say how many there are at the start. */
    assumed_mites: { per_100_bees: number; text: string } | null;
    dates: { date: string; measures: ({ name: string; unit: string } & Spread)[] }[];
    thresholds: Passed[];
    risks: Risk[];
  };
}
