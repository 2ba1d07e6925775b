/**
 * Whether data has the shape that a JSON Schema asks for: as much of the schema language as our own schemas use.
 */
import { text } from '../text/index.svelte';

interface Schema {
  $ref?: string;
  $defs?: Record<string, Schema>;
  anyOf?: Schema[];
  oneOf?: Schema[];
  const?: unknown;
  type?: string | string[];
  format?: string;
  minimum?: number;
  properties?: Record<string, Schema>;
  additionalProperties?: boolean;
  required?: string[];
  items?: Schema;
}

/** Data that is not what it should be, with its place. */
export class ShapeError extends Error {
  constructor(
    readonly place: string,
    readonly wrong: string,
  ) {
    super(`${place}: ${wrong}`);
    this.name = 'ShapeError';
  }
}

const KINDS: Record<string, (value: unknown) => boolean> = {
  null: (value) => value === null,
  object: isObject,
  array: Array.isArray,
  string: (value) => typeof value === 'string',
  boolean: (value) => typeof value === 'boolean',
  number: (value) => typeof value === 'number' && Number.isFinite(value),
  integer: Number.isInteger,
};

export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

const words = () => text().yard.fault;

/** That `value` is not what it should be. */
export function unlike(place: string, expected: string, value: unknown): ShapeError {
  return new ShapeError(place, words().expected(expected, shown(value)));
}

/** A value as it is shown in a message. */
export function shown(value: unknown): string {
  const said = JSON.stringify(value) ?? words().nothing;
  return said.length > 40 ? `${said.slice(0, 38)}…` : said;
}

/** Throws a `ShapeError` where `value` is not what the definition `name` of a schema asks for. */
export function check(root: unknown, name: string, value: unknown, place: string): void {
  const { $defs = {} } = root as Schema;
  walk($defs, $defs[name] ?? {}, value, place);
}

function walk(defs: Record<string, Schema>, schema: Schema, value: unknown, place: string): void {
  if (schema.$ref) {
    walk(defs, defs[schema.$ref.replace('#/$defs/', '')] ?? {}, value, place);
    return;
  }
  const choices = schema.anyOf ?? schema.oneOf;
  if (choices) {
    const faults = choices.map((choice) => faultOf(defs, choice, value, place));
    if (faults.includes(null)) return;
    const constants = choices.flatMap((choice) => ('const' in choice ? [shown(choice.const)] : []));
    throw constants.length > 0
      ? unlike(place, words().oneOf(constants.join(', ')), value)
      : // `null` is the other choice everywhere: what the first one says is the more telling.
        (faults[0] as ShapeError);
  }
  if ('const' in schema && schema.const !== value) throw unlike(place, shown(schema.const), value);
  const types = schema.type === undefined ? [] : [schema.type].flat();
  if (types.length > 0 && !types.some((type) => KINDS[type]?.(value))) {
    throw unlike(place, types.join(words().or), value);
  }
  if (schema.format === 'date' && !isDate(value)) throw unlike(place, words().date, value);
  if (schema.minimum !== undefined && typeof value === 'number' && value < schema.minimum) {
    throw unlike(place, words().atLeast(schema.minimum), value);
  }
  if (Array.isArray(value) && schema.items) {
    for (const [i, item] of value.entries()) walk(defs, schema.items, item, `${place}[${i}]`);
  }
  if (isObject(value) && schema.properties) {
    const { properties, required = [] } = schema;
    for (const name of required) if (!(name in value)) throw new ShapeError(place, words().missing(name));
    for (const [name, part] of Object.entries(value)) {
      const known = properties[name];
      if (known) walk(defs, known, part, `${place}.${name}`);
      else if (schema.additionalProperties === false) throw new ShapeError(place, words().unknown(name));
    }
  }
}

function faultOf(defs: Record<string, Schema>, schema: Schema, value: unknown, place: string): ShapeError | null {
  try {
    walk(defs, schema, value, place);
    return null;
  } catch (fault) {
    if (fault instanceof ShapeError) return fault;
    throw fault;
  }
}

export function isDate(value: unknown): boolean {
  if (typeof value !== 'string' || !/^\d{4}-\d{2}-\d{2}$/.test(value)) return false;
  const time = Date.parse(`${value}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(value);
}
