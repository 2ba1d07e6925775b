/**
 * A hive as it is kept: its plan, its visits, and what was being done with it. Whatever comes from outside, from the
 * device's storage too, is read here, and is told apart from what cannot be read.
 */
import visitsSchema from '../../../scenarios/visits/visits.schema.json';
import type { TwinKind } from '../plan';
import type { Scenario } from '../scenario';
import type { Visit } from '../visits';
import { BLANK, LETTERS, NO_BROOD, PARTS } from '../visit/parts';
import type { Sheet } from '../visit/sheet';
import { text } from '../text/index.svelte';
import { check, isObject, ShapeError, unlike } from './shape';

/**
 * Version of the shape below. A greater one was written by a newer page, and is left alone.
 *
 * 1: combs of drawings had no `NO_BROOD`.
 */
export const FORMAT = 2;

/** What was found on a day: the record as the visits file has it, and the drawing that its figures came from. */
export interface DrawnVisit {
  visit: Visit;
  sheet: Sheet;
}

/** What belongs to a hive wherever it is kept. */
export interface HiveContent {
  name: string;
  scenario: Scenario;
  /** Text that could not be read as a scenario. */
  faultyText: string | null;
  twinKind: TwinKind;
  /** The plan that was kept for comparison. */
  kept: Scenario | null;
  /** Name of the weather file of its own that it uses. */
  recordName: string | null;
  /** In order of date, one for a day. */
  visits: DrawnVisit[];
}

export interface Hive extends HiveContent {
  format: typeof FORMAT;
  id: string;
  /** How often it was written: the greater one is the newer. */
  revision: number;
  /** Its place in the list: the lesser one stands first. */
  order: number;
}

/** A name that nothing else has. */
export function newId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** A hive of a scenario, named after it. */
export function newHive(scenario: Scenario, order: number): Hive {
  const content = { name: scenario.name, scenario, faultyText: null, twinKind: 'feed' as const, kept: null, recordName: null, visits: [] };
  return { format: FORMAT, id: newId(), revision: 0, order, ...content };
}

/** A name that no hive of a list has: `Hive 3`, `Hive 3 (2)`. */
export function freeName(name: string, taken: readonly string[]): string {
  if (!taken.includes(name)) return name;
  const stem = name.replace(/ \(\d+\)$/, '');
  for (let n = 2; ; n += 1) if (!taken.includes(`${stem} (${n})`)) return `${stem} (${n})`;
}

/** Made by a newer page. */
export class NewerError extends ShapeError {
  override name = 'NewerError';
}

const words = () => text().yard.fault;

function need(right: boolean, place: string, expected: string, value: unknown): void {
  if (!right) throw unlike(place, expected, value);
}

function readScenario(value: unknown, place: string): Scenario {
  // Light on purpose: the model itself reads scenarios, strictly, and says what is wrong.
  need(isObject(value), place, words().scenario, value);
  const scenario = value as Record<string, unknown>;
  for (const part of ['place', 'weather', 'start', 'hive']) need(isObject(scenario[part]), `${place}.${part}`, words().object, scenario[part]);
  for (const part of ['name', 'until']) need(typeof scenario[part] === 'string', `${place}.${part}`, words().text, scenario[part]);
  return scenario as unknown as Scenario;
}

const COMB = new RegExp(`^[${BLANK}${NO_BROOD}${Object.values(LETTERS).join('')}]{${PARTS}}$`);

function readSheet(value: unknown, place: string): Sheet {
  need(isObject(value) && Array.isArray(value.boxes), place, words().drawing, value);
  const { boxes } = value as { boxes: unknown[] };
  for (const [b, box] of boxes.entries()) {
    const at = `${place}.boxes[${b}]`;
    need(isObject(box) && Array.isArray(box.frames) && isObject(box.said) && typeof box.medium === 'boolean', at, words().box, box);
    const { frames, said } = box as { frames: unknown[]; said: Record<string, unknown> };
    for (const what of ['bees', 'brood', 'drawn']) {
      const one = said[what];
      need(one === null || (Number.isFinite(one) && (one as number) >= 0), `${at}.said.${what}`, words().frames, one);
    }
    for (const [f, frame] of frames.entries()) {
      const inFrame = `${at}.frames[${f}]`;
      need(isObject(frame), inFrame, words().frame, frame);
      const { comb, bees } = frame as Record<string, unknown>;
      need(typeof comb === 'string' && COMB.test(comb), `${inFrame}.comb`, words().letters(PARTS), comb);
      const covered = bees === null || (Number.isInteger(bees) && (bees as number) >= 0 && (bees as number) <= PARTS);
      need(covered, `${inFrame}.bees`, words().between(0, PARTS), bees);
    }
  }
  return value as unknown as Sheet;
}

/** What belongs to a hive; throws a `ShapeError` with the place of the fault. */
export function readContent(value: unknown, place: string): HiveContent {
  need(isObject(value), place, words().hive, value);
  const hive = value as Record<string, unknown>;
  need(typeof hive.name === 'string', `${place}.name`, words().text, hive.name);
  const scenario = readScenario(hive.scenario, `${place}.scenario`);
  for (const part of ['faultyText', 'recordName']) {
    need(hive[part] === null || typeof hive[part] === 'string', `${place}.${part}`, words().textOrNull, hive[part]);
  }
  const kept = hive.kept === null ? null : readScenario(hive.kept, `${place}.kept`);
  const kind = hive.twinKind;
  need(typeof kind === 'string' && /^(none|feed|rain|kept|without \d+|hive \w+)$/.test(kind), `${place}.twinKind`, words().comparison, kind);
  need(Array.isArray(hive.visits), `${place}.visits`, words().list, hive.visits);
  const visits = (hive.visits as unknown[]).map((one, i): DrawnVisit => {
    const at = `${place}.visits[${i}]`;
    need(isObject(one), at, words().visit, one);
    const { visit, sheet } = one as Record<string, unknown>;
    check(visitsSchema, 'Visit', visit, `${at}.visit`);
    return { visit: visit as Visit, sheet: readSheet(sheet, `${at}.sheet`) };
  });
  return {
    name: hive.name as string,
    scenario,
    faultyText: hive.faultyText as string | null,
    twinKind: kind as TwinKind,
    kept,
    recordName: hive.recordName as string | null,
    visits: inOrder(visits),
  };
}

export const inOrder = (visits: readonly DrawnVisit[]): DrawnVisit[] =>
  visits.toSorted((a, b) => a.visit.date.localeCompare(b.visit.date));

/** A hive from this device's storage; throws a `ShapeError`. */
export function readHive(value: unknown): Hive {
  need(isObject(value), 'hive', words().hive, value);
  const hive = value as Record<string, unknown>;
  if (typeof hive.format === 'number' && hive.format > FORMAT) {
    throw new NewerError('hive.format', words().newer(hive.format, FORMAT));
  }
  need(hive.format === 1 || hive.format === FORMAT, 'hive.format', String(FORMAT), hive.format);
  need(typeof hive.id === 'string', 'hive.id', words().text, hive.id);
  need(Number.isInteger(hive.revision), 'hive.revision', words().wholeNumber, hive.revision);
  need(Number.isFinite(hive.order), 'hive.order', words().number, hive.order);
  const { id, revision, order } = hive as unknown as Hive;
  return { format: FORMAT, id, revision, order, ...readContent(value, 'hive') };
}

/** A plain copy, free of the page's own wrappings. */
export const plain = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;
