/* Made by scripts/types.mjs from the schema of the visits file. Do not edit. */

/**
 * How far a drone frame is, by the oldest that is in it.
 */
export type DroneFrame = 'not-drawn' | 'drawn' | 'eggs' | 'larvae' | 'capped' | 'hatched';
/**
 * A calendar date, year-month-day.
 */
export type CalendarDate = string;

/**
 * The visits to one hive.
 */
export interface VisitBook {
  /**
   * Name of the hive.
   */
  hive?: string;
  /**
   * Scenario file of this hive, as it is found from the file of the visits; otherwise the one that visits are
   * held against. So can hives of a class stand in weather of their own.
   */
  scenario?: string;
  /**
   * The visits.
   */
  visit?: Visit[];
}
/**
 * One visit. What is left out was not looked at.
 */
export interface Visit {
  /**
   * Capped queen cells.
   */
  capped_cells?: number | null;
  /**
   * Queen cells with an egg or a larva.
   */
  charged_cells?: number | null;
  /**
   * Empty queen cups. They say little, and are kept for the reader.
   */
  cups?: number | null;
  /**
   * A calendar date, year-month-day.
   */
  date: string;
  /**
   * How far the drone frame is.
   */
  drone_frame?: DroneFrame | null;
  /**
   * Whether eggs were seen.
   */
  eggs_seen?: boolean | null;
  /**
   * Frames drawn, box by box from the bottom up, in quarters.
   */
  frames_drawn?: number[];
  /**
   * Frames covered with bees on both sides, box by box from the bottom up, in quarters.
   */
  frames_of_bees?: number[];
  /**
   * Frames of worker brood of all ages, both sides, box by box from the bottom up, in quarters.
   */
  frames_of_brood?: number[];
  /**
   * Frames of honey and nectar, in quarters. Give these or `stores_kg`.
   */
  frames_of_stores?: number | null;
  /**
   * Mites fallen on a board.
   */
  mite_fall?: MiteFall | null;
  /**
   * Anything else.
   */
  notes?: string;
  /**
   * Whether the queen was seen.
   */
  queen_seen?: boolean | null;
  /**
   * Honey and nectar, kg.
   */
  stores_kg?: number | null;
  /**
   * Syrup that the bees took.
   */
  syrup_taken?: SyrupTaken | null;
  /**
   * Mites in a wash or sugar roll.
   */
  wash?: MiteWash | null;
  /**
   * Weight of the whole hive, kg. The first weighing sets the mark; later ones say what was gained.
   */
  weight_kg?: number | null;
}
/**
 * Mites fallen on a board.
 */
export interface MiteFall {
  /**
   * Days for which the board lay.
   */
  days: number;
  /**
   * Mites counted.
   */
  mites: number;
}
/**
 * Syrup that the bees took. Give `litres` or `jars`.
 */
export interface SyrupTaken {
  /**
   * Quart jars (0.946 litres).
   */
  jars?: number | null;
  /**
   * What kind: 1:1 or 2:1.
   */
  kind?: '1:1' | '2:1' | 'patty';
  /**
   * Litres.
   */
  litres?: number | null;
  /**
   * Since when; left out: since the visit before, or the start.
   */
  since?: CalendarDate | null;
}
/**
 * Mites in a wash or sugar roll.
 */
export interface MiteWash {
  /**
   * Bees in the jar; half a cup is about 300.
   */
  bees?: number;
  /**
   * Mites found.
   */
  mites: number;
  /**
   * Whether it was sugar, which finds a few mites less than a wash.
   */
  sugar?: boolean;
}
