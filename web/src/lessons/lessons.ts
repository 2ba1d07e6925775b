/**
 * The lessons: a season to predict, what is drawn of it, and what is changed afterwards. Their words are in
 * `text/`; every number in those words comes of the seasons that are run here.
 */
import augustTreatment from '../../../scenarios/august-treatment.toml?raw';
import onTime from '../../../scenarios/drone-frame-on-time.toml?raw';
import wetSpring from '../../../scenarios/wet-spring.toml?raw';
import type { Scenario } from '../scenario';
import aprilMite from './scenarios/april-mite.toml?raw';
import packageInSpring from './scenarios/package.toml?raw';

export type Change = (draft: Scenario) => void;

export type CautionName = 'stings' | 'heavy' | 'smoker' | 'acids' | 'inspector';

/** What is drawn and compared. */
export interface Drawn {
  column: 'adult_bees' | 'eggs_laid' | 'mites_per_100_bees';
  /** Days from the start of the season to the first point, which is known. */
  from: number;
  /** Days from point to point, and how many are to be drawn. */
  every: number;
  points: number;
  /** The top of the empty axis: it must not give the answer away. */
  top: number;
  /** What one press of a key adds. */
  step: number;
}

export interface Lesson {
  /** Its word in the address, and of its texts. */
  name: string;
  scenario: string;
  /** What sets the lesson's season apart from the file's. */
  begin?: Change;
  /** Played with luck, not in expected values; and colonies that began alike. */
  peers?: readonly Change[];
  drawn: Drawn;
  /** Days from the start of the season to the day that the comparison speaks of. */
  key: number;
  /** What is changed afterwards in the season that was predicted. */
  change: Change;
  /** Days from the start of the season to the day that is asked about after the change. */
  asked: number;
  cautions: readonly CautionName[];
}

const unfed: Change = (draft) => {
  draft.feed = [];
};
/** The box of a nucleus colony, which gets no second one. */
const fiveFrames: Change = (draft) => {
  draft.move = [];
  for (const box of draft.hive.box) box.frames = 5;
};
const pounds =
  (weight: number): Change =>
  (draft) => {
    draft.start.package = { pounds: weight };
  };
const frameOutOn =
  (date: string): Change =>
  (draft) => {
    const out = draft.move?.find((move) => move.take_drone_frame);
    if (out) out.date = date;
  };
const treated =
  (date: string): Change =>
  (draft) => {
    draft.move = [...(draft.move?.filter((move) => !move.treat) ?? []), { date, treat: { with: 'amitraz', days: 56 } }];
  };
/** A package with its own weight, queen and luck. */
const colony =
  (seed: number, weight: number, bestRate: number): Change =>
  (draft) => {
    draft.mode = 'random';
    draft.seed = seed;
    draft.start.package = { pounds: weight };
    draft.parameters = { ...draft.parameters, 'queen.best_rate': bestRate };
  };

/** Twelve packages of one order: weights and queens differ about as much as they do in a delivery (assumed). */
const TWELVE = [
  colony(1, 2.85, 1500),
  colony(2, 3.1, 1620),
  colony(3, 2.95, 1400),
  colony(4, 3.2, 1550),
  colony(5, 3.0, 1480),
  colony(6, 2.8, 1600),
  colony(7, 3.05, 1350),
  colony(8, 2.9, 1530),
  colony(9, 3.15, 1450),
  colony(10, 3.0, 1650),
  colony(11, 2.75, 1520),
  colony(12, 3.1, 1560),
];

export const LESSONS = [
  {
    name: 'the-dip',
    scenario: packageInSpring,
    drawn: { column: 'adult_bees', from: 0, every: 7, points: 10, top: 30_000, step: 500 },
    key: 21,
    change: pounds(2),
    asked: 21,
    cautions: ['stings'],
  },
  {
    name: 'rain-and-feed',
    scenario: wetSpring,
    drawn: { column: 'adult_bees', from: 0, every: 7, points: 9, top: 30_000, step: 500 },
    key: 21,
    change: unfed,
    asked: 21,
    cautions: ['stings'],
  },
  {
    name: 'comb-is-the-brake',
    scenario: packageInSpring,
    begin: fiveFrames,
    // From the first young bees on: before them it is pollen and warmth that hold her back.
    drawn: { column: 'eggs_laid', from: 24, every: 7, points: 8, top: 2_400, step: 50 },
    key: 66,
    change: (draft) => {
      draft.move = [{ date: '2012-06-11', add_box: { frames: 5, comb: 'foundation' } }];
    },
    asked: 66,
    cautions: ['heavy', 'stings'],
  },
  {
    name: 'late-then-fast',
    scenario: packageInSpring,
    drawn: { column: 'adult_bees', from: 0, every: 14, points: 7, top: 50_000, step: 1_000 },
    key: 98,
    change: (draft) => {
      draft.start = { date: draft.start.date, nuc: { frames_of_bees: 4, frames_of_brood: 2, honey_kg: 2 } };
      for (const box of draft.hive.box) box.comb = 'drawn';
    },
    asked: 42,
    cautions: ['stings'],
  },
  {
    name: 'drone-frame',
    scenario: onTime,
    drawn: { column: 'mites_per_100_bees', from: 28, every: 14, points: 7, top: 8, step: 0.1 },
    key: 126,
    change: frameOutOn('2013-06-10'),
    asked: 126,
    cautions: ['stings', 'smoker'],
  },
  {
    name: 'one-mite-in-april',
    scenario: aprilMite,
    drawn: { column: 'mites_per_100_bees', from: 14, every: 14, points: 11, top: 60, step: 0.5 },
    key: 140,
    change: treated('2013-07-16'),
    asked: 140,
    cautions: ['acids', 'inspector'],
  },
  {
    name: 'winter-bees',
    scenario: augustTreatment,
    drawn: { column: 'adult_bees', from: 93, every: 28, points: 9, top: 40_000, step: 500 },
    key: 317,
    change: treated('2013-10-04'),
    asked: 317,
    cautions: ['acids', 'heavy', 'inspector'],
  },
  {
    name: 'in-step',
    scenario: packageInSpring,
    begin: colony(20, 3, 1530),
    peers: TWELVE,
    drawn: { column: 'adult_bees', from: 0, every: 7, points: 9, top: 30_000, step: 500 },
    key: 42,
    change: colony(21, 2.6, 1480),
    asked: 42,
    cautions: ['stings', 'inspector'],
  },
] as const satisfies readonly Lesson[];

export type LessonName = (typeof LESSONS)[number]['name'];

export function lessonCalled(name: string | null): Lesson | null {
  return LESSONS.find((lesson) => lesson.name === name) ?? null;
}

/** The season that is predicted. */
export function begun(lesson: Lesson): Change {
  return (draft) => lesson.begin?.(draft);
}

/** The season after the change. */
export function altered(lesson: Lesson): Change {
  return (draft) => {
    lesson.begin?.(draft);
    lesson.change(draft);
  };
}
