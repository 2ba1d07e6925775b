/**
 * What crosses the door from the model, as `sim-wasm/src/lib.rs` hands it over.
 * `test/door.test.ts` checks these shapes against the built module; the scenario's own types are made (scenario.ts).
 */

/** A fault in words: where it stands, what is wrong, what was expected. */
export interface Problem {
  kind: 'scenario' | 'weather' | 'parameter' | 'invariant' | 'program';
  /** A path such as `start.package.pounds`, or `line 12`. */
  place: string;
  message: string;
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

/** What the model offers, the same for every season. */
export interface Catalogue {
  version: string;
  columns: ColumnInfo[];
  brakes: Brake[];
  origins: string[];
  records: BuiltInRecord[];
  placeTypes: PlaceType[];
}

export interface SeasonEvent {
  date: string;
  /** Day of the season, the first being 1. */
  day: number;
  kind: string;
  text: string;
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
