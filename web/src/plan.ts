/**
 * Editing a scenario: pure functions, a new scenario out of an old one.
 */
import { dayNumber, plusDays, shortDate } from './calendar';
import { sayMove } from './moves/words';
import type { Feed, HiveBox, Package, RainSpell, Scenario } from './scenario';
import { text } from './text/index.svelte';
import type { BuiltInRecord } from './types';
import { figure, inBox, shown, type UnitSystem, unitOf } from './units';

/** A changed copy. */
export function edited(scenario: Scenario, change: (draft: Scenario) => void): Scenario {
  const draft = structuredClone(scenario);
  change(draft);
  return draft;
}

/** Pounds in a kilogram. */
export const KG_PER_LB = 0.453_592_37;

export type StartKind = 'package' | 'swarm' | 'nuc' | 'established';

export function startKind(scenario: Scenario): StartKind {
  const { start } = scenario;
  if (start.swarm) return 'swarm';
  if (start.nuc) return 'nuc';
  if (start.established) return 'established';
  return 'package';
}

const USUAL_STARTS: { readonly [Kind in StartKind]: NonNullable<Scenario['start'][Kind]> } = {
  package: { pounds: 3 },
  swarm: { pounds: 4 },
  nuc: { frames_of_bees: 5, frames_of_brood: 3, honey_kg: 4 },
  established: { frames_of_bees: 8, frames_of_brood: 4, honey_kg: 10 },
};
/** Whether bees come alone or on combs of their own. */
const comesOn = (kind: StartKind) => (kind === 'package' || kind === 'swarm' ? 'none' : 'combs');
type CombOfBox = Pick<HiveBox, 'comb' | 'contents'>;

/** Ways to start that were left, each with what it began with; and the lowest box as it was for bees that come alone, and on combs. */
export interface LeftStarts {
  start: Partial<Pick<Scenario['start'], StartKind>>;
  box: Partial<Record<ReturnType<typeof comesOn>, CombOfBox>>;
}

/** What is left with the start of a plan. */
export function leavingStart(scenario: Scenario, left: LeftStarts = { start: {}, box: {} }): LeftStarts {
  const kind = startKind(scenario);
  const { comb, contents } = scenario.hive.box[0] ?? {};
  return { start: { ...left.start, [kind]: scenario.start[kind] }, box: { ...left.box, [comesOn(kind)]: { comb, contents } } };
}

/** Another way to start: as it was left, or a usual one; bees that come on combs stand on drawn ones. */
export function withStartKind(scenario: Scenario, kind: StartKind, left?: LeftStarts): Scenario {
  return edited(scenario, (draft) => {
    const { date, queen, mites_per_100_bees } = draft.start;
    const rest = { date, ...(queen ? { queen } : {}), ...(mites_per_100_bees == null ? {} : { mites_per_100_bees }) };
    draft.start = { ...rest, [kind]: left?.start[kind] ?? USUAL_STARTS[kind] };
    const box = draft.hive.box[0];
    const on = comesOn(kind);
    if (!box || on === comesOn(startKind(scenario))) return;
    const { comb, contents }: CombOfBox = left?.box[on] ?? (on === 'combs' ? { comb: 'drawn' } : box);
    delete box.comb;
    delete box.contents;
    Object.assign(box, comb && { comb }, contents && { contents });
  });
}

/** The weight of a package or swarm in pounds, if it is given as a weight. */
export function pounds(bees: Pick<Package, 'pounds' | 'kilograms'>): number | null {
  if (bees.pounds != null) return bees.pounds;
  if (bees.kilograms != null) return bees.kilograms / KG_PER_LB;
  return null;
}

/** The year whose weather a season has. */
export function weatherYear({ start, weather }: Scenario): number {
  return Number(start.date.slice(0, 4)) - (weather.shift_years ?? 0);
}

/** By how many years a record is shifted for its weather to be that of a year, or of the nearest that it holds whole. */
export function shiftTo(year: number, startDate: string, record: Pick<BuiltInRecord, 'first_year' | 'last_year'>): number {
  return Number(startDate.slice(0, 4)) - Math.min(Math.max(year, record.first_year), record.last_year);
}

/**
 * Moves the whole season: start, feed, moves, rain and end keep their distance from one another, and the weather is still
 * that of the year chosen. Days of weather written in by hand stay: they were read on their dates.
 */
export function withStartDate(scenario: Scenario, date: string, records: readonly BuiltInRecord[] = []): Scenario {
  const shift = dayNumber(date) - dayNumber(scenario.start.date);
  if (!Number.isFinite(shift) || shift === 0) return scenario;
  return edited(scenario, (draft) => {
    draft.start.date = date;
    draft.until = plusDays(draft.until, shift);
    const record = records.find(({ name }) => name === draft.weather.record);
    if (record) draft.weather.shift_years = shiftTo(weatherYear(scenario), date, record);
    for (const spell of draft.weather.rain ?? []) {
      spell.from = plusDays(spell.from, shift);
      spell.to = plusDays(spell.to, shift);
    }
    for (const feed of draft.feed ?? []) {
      feed.from = plusDays(feed.from, shift);
      feed.to = plusDays(feed.to, shift);
    }
    for (const move of draft.move ?? []) {
      if (move.date) move.date = plusDays(move.date, shift);
      if (move.until) move.until = plusDays(move.until, shift);
    }
    for (const expectation of draft.expect ?? []) expectation.date = plusDays(expectation.date, shift);
  });
}

/** Whether a plan feeds its colony at all. */
export const isFed = ({ feed, move }: Scenario): boolean => Boolean(feed?.length) || (move ?? []).some((one) => one.feed || one.patty);

/** How the season can be compared with itself. */
export type TwinKind = 'none' | 'feed' | 'rain' | 'kept' | `without ${number}` | `hive ${string}`;

/** Another hive, as far as a plan is compared with it. */
export type OtherHive = Readonly<{ id: string; name: string; scenario: Scenario; recordName: string | null }>;

/** Which move the twin goes without, by its place in the plan. */
export function leftOut(kind: TwinKind): number | null {
  return kind.startsWith('without ') ? Number(kind.slice(8)) : null;
}

/** Which hive is the twin, by its id. */
export function otherHive(kind: TwinKind): string | null {
  return kind.startsWith('hive ') ? kind.slice(5) : null;
}

/**
 * The hives that a plan can be compared with: their seasons share days with it, and their weather is none that a file of their own
 * holds, which another hive may call by the same name.
 */
export function comparable<Hive extends OtherHive>(scenario: Scenario, hives: readonly Hive[]): Hive[] {
  return hives.filter(
    ({ scenario: other, recordName }) =>
      (recordName === null || other.weather.record !== recordName) && other.start.date <= scenario.until && other.until >= scenario.start.date,
  );
}

/** The comparison after a move has gone from the plan: moves behind it have moved up. */
export function twinWithout(kind: TwinKind, index: number): TwinKind {
  const left = leftOut(kind);
  if (left === index) return 'none';
  return left !== null && left > index ? `without ${left - 1}` : kind;
}

/** A feed to try where the plan has none: 1:1 syrup, a feeder kept full for six weeks from the start. */
export function usualFeed(scenario: Scenario): Feed {
  const { date } = scenario.start;
  const to = plusDays(date, 42);
  return { from: date, to: to < scenario.until ? to : scenario.until, kind: '1:1' };
}

/** A rain spell to try: three weeks from a fortnight after the start. */
export function usualRain(scenario: Scenario): RainSpell {
  const from = plusDays(scenario.start.date, 14);
  return { from, to: plusDays(from, 20), mm_a_day: 12, cooler_c: 4 };
}

/** The same season but for one thing, or that of another hive; `null` where there is nothing to compare with. */
export function twinOf(scenario: Scenario, kind: TwinKind, kept: Scenario | null, hives: readonly OtherHive[] = []): Scenario | null {
  const other = otherHive(kind);
  if (other !== null) return comparable(scenario, hives).find(({ id }) => id === other)?.scenario ?? null;
  switch (kind) {
    case 'none':
      return null;
    case 'feed':
      return edited(scenario, (draft) => {
        draft.feed = draft.feed?.length ? [] : [usualFeed(draft)];
      });
    case 'rain':
      return edited(scenario, (draft) => {
        draft.weather.rain = draft.weather.rain?.length ? [] : [usualRain(draft)];
      });
    case 'kept':
      return kept;
    default: {
      const index = leftOut(kind) ?? -1;
      if (!scenario.move?.[index]) return null;
      return edited(scenario, (draft) => void draft.move?.splice(index, 1));
    }
  }
}

/** What the twin differs in, as a label beside its line. */
export function twinName(scenario: Scenario, kind: TwinKind, hives: readonly OtherHive[] = []): string {
  const words = text().twin;
  const other = otherHive(kind);
  if (other !== null) {
    const hive = hives.find(({ id }) => id === other);
    return hive ? words.ofHive(text().plans.called(hive.name)) : '';
  }
  switch (kind) {
    case 'none':
      return '';
    case 'feed':
      return scenario.feed?.length ? words.withoutFeed : words.withFeed;
    case 'rain':
      return scenario.weather.rain?.length ? words.withoutRain : words.withRain;
    case 'kept':
      return words.kept;
    default: {
      const move = scenario.move?.[leftOut(kind) ?? -1];
      return move ? words.withoutMove(sayMove(move)) : '';
    }
  }
}

/** The start in a line: `package of 1.4 kg on foundation, 30 April 2012`. */
export function startLine(scenario: Scenario, units: UnitSystem): string {
  const { start, hive } = scenario;
  const words = text().page;
  const day = dayNumber(start.date);
  const comb = words.startComb[hive.box[0]?.contents?.length ? 'mixed' : (hive.box[0]?.comb ?? 'foundation')];
  const bees = start.package ?? start.swarm;
  const what = bees
    ? words.start[start.swarm ? 'swarm' : 'package'](amount(bees, units))
    : start.nuc
      ? words.start.nuc(String(start.nuc.frames_of_bees))
      : words.start.established(String(start.established?.frames_of_bees ?? '?'));
  return words.startLine(what, comb, Number.isNaN(day) ? start.date : `${shortDate(day)} ${start.date.slice(0, 4)}`);
}

/** As it was weighed where that is in these units; otherwise to the first decimal: nobody sells bees closer. */
function amount(bees: Pick<Package, 'pounds' | 'kilograms' | 'bees'>, units: UnitSystem): string {
  const weighed = units === 'us' ? bees.pounds : bees.kilograms;
  const weight = pounds(bees);
  if (weighed != null) return `${inBox(weighed, 2)} ${unitOf('stores', units).label}`;
  if (weight != null) return `${inBox(shown(weight * KG_PER_LB, 'stores', units), 1)} ${unitOf('stores', units).label}`;
  return text().page.bees(bees.bees == null ? '?' : figure(bees.bees));
}
