import { describe, expect, it } from 'vitest';
import { dayNumber } from '../src/calendar';
import { ACTIONS, actionOf } from '../src/moves/actions';
import { reach, setAt, valueAt, withMove, withoutMove, withoutPin, withPinOn } from '../src/moves/edit';
import { CONDITIONS, sayMove, sayTime, sayWhen } from '../src/moves/words';
import { Ranges } from '../src/ranges';
import type { Move, Scenario } from '../src/scenario';
import { byDay, pinsOf } from '../src/strip/pins';
import { twinName, twinOf } from '../src/plan';
import { en } from '../src/text/en';
import { catalogue, save } from '../src/wasm/sim_wasm.js';
import { schemaText } from '../scripts/types.mjs';
import { explorer, run, scenario } from './door';

const plan = () => scenario('wet-spring.toml');
const date = '2012-06-10';
/** The scenario reader takes it, limits and all. */
const holds = (one: Scenario) => save(JSON.stringify(one));
const ranges = new Ranges(schemaText());

describe('the table of actions', () => {
  it('has every action of the scenario file and no other', () => {
    const schema = JSON.parse(schemaText()) as { $defs: { Move: { properties: Record<string, unknown> } } };
    const inFile = Object.keys(schema.$defs.Move.properties).filter((name) => !['date', 'when', 'every_days', 'until'].includes(name));
    expect(ACTIONS.map(({ name }) => name).toSorted()).toEqual(inFile.toSorted());
  });

  it.each(ACTIONS.map((action) => [action.name, action] as const))('puts %s into a plan that can be read', (name, action) => {
    const { scenario: with_, index } = withMove(plan(), name, date);
    holds(with_);
    const move = with_.move?.[index] as Move;
    expect(actionOf(move)).toBe(action);
    expect(sayMove(move)).toMatch(/\w/);
    const treatments = catalogue().treatments.map((row) => row.treatment);
    for (const field of action.fields) {
      if (field.kind === 'choice') expect(Object.keys(en.moves.option), field.path).toEqual(expect.arrayContaining([...field.options]));
      const values: unknown[] = [];
      if (field.path in en.moves.absent) values.push(undefined);
      if (field.kind === 'yes') values.push(false, true);
      if (field.kind === 'place') values.push({ box: 1, place: 12 });
      if (field.kind === 'choice') values.push(...(field.path === 'treat.with' ? treatments : field.options));
      if (field.kind === 'number') {
        const { min, max } = ranges.of(`move.${field.path}`);
        expect([min, max].every(Number.isFinite), field.path).toBe(true);
        values.push(min, max, field.usual ?? min);
        expect((max - min) / field.step).toBeGreaterThanOrEqual(1);
      }
      expect(values.length, field.path).toBeGreaterThan(0);
      for (const value of values) {
        const changed = structuredClone(with_);
        setAt(changed.move?.[index] as Move, field.path, value);
        // Changing a box for itself is no move.
        if (field.path.startsWith('swap_boxes')) continue;
        expect(() => holds(changed), `${field.path} = ${JSON.stringify(value)}`).not.toThrow();
      }
    }
  });
});

describe('conditions', () => {
  it.each(CONDITIONS.map((condition) => [condition.name, condition] as const))('%s can be used and is said', (name, { usual, reach: most }) => {
    const { min, max } = ranges.of(`move.when.${name}`);
    expect(usual).toBeGreaterThanOrEqual(min);
    expect(most).toBeLessThanOrEqual(max);
    const one = plan();
    one.move = [{ when: { [name]: usual }, add_box: { size: 'deep' } }];
    holds(one);
    expect(sayWhen({ [name]: usual }, 'metric')).toMatch(/^when there|^when [\d,]+/);
  });

  it('are said with repeats and ends', () => {
    expect(sayTime({ date, every_days: 21, until: '2012-08-01' }, 'metric')).toBe('every 21 days from 10 June, until 1 August');
    expect(sayTime({ date }, 'metric')).toBe('10 June');
    expect(sayTime({ when: { frames_drawn_at_least: 8, of_box: 1 } }, 'metric')).toBe('when 8 frames are drawn in box 1');
    expect(sayTime({ when: { honey_kg_at_least: 10 } }, 'us')).toBe('when there is 22.0 lb of honey or more');
  });
});

describe('pins', () => {
  const withDrone = () => withMove(plan(), 'give_frame', '2012-05-17').scenario;

  it('stand for the start, feed and moves, each where it can be taken hold of', () => {
    const { pins } = pinsOf(withDrone());
    expect(pins.map(({ text, target }) => [text, target?.kind ?? null])).toEqual([
      ['hived', null],
      ['1:1 feed on', 'feed'],
      ['drone frame in', 'move'],
      ['deep box on', 'move'],
      ['1:1 feed off', 'feed'],
    ]);
    expect(byDay(pins)[0]?.text).toBe('hived, 1:1 feed on');
  });

  it('go to another date, inside the season, and no feed ends before it starts', () => {
    const one = withDrone();
    const index = (one.move?.length ?? 0) - 1;
    const target = { kind: 'move', index } as const;
    expect(withPinOn(one, target, dayNumber('2012-05-20')).move?.[index]?.date).toBe('2012-05-20');
    expect(withPinOn(one, target, 0).move?.[index]?.date).toBe(one.start.date);
    expect(withPinOn(one, { kind: 'feed', index: 0, end: 'to' }, 0).feed?.[0]?.to).toBe(one.feed?.[0]?.from);
    expect(reach(one, target).last).toBe(dayNumber(one.until));
    expect(withoutPin(one, { kind: 'feed', index: 0, end: 'to' }).feed).toEqual([]);
    expect(withoutMove(one, index)).toEqual(plan());
  });

  it('say that a move was refused, and why', () => {
    const { scenario: one, index } = withMove(plan(), 'take_drone_frame', date);
    const outcome = run(explorer(), 'plan', one);
    const refused = pinsOf(one, outcome.events).pins.filter((pin) => pin.refused);
    expect(refused).toMatchObject([{ day: dayNumber(date), target: { kind: 'move', index }, text: 'drone frame out' }]);
    expect(refused[0]?.refused).toMatch(/drone frame/);
    // The rest of the plan is carried out.
    expect(outcome.events.some(({ kind, move }) => kind === 'move' && move === 0)).toBe(true);
  });

  it('stand where a repeated or conditional move came about', () => {
    const one = plan();
    one.move = [
      { when: { frames_drawn_at_least: 4 }, add_box: { size: 'medium' } },
      { date, every_days: 14, until: '2012-07-10', patty: { kilograms: 0.4 } },
    ];
    const { pins } = pinsOf(one, run(explorer(), 'plan', one).events);
    expect(pins.filter(({ text }) => text === 'medium box on')).toMatchObject([{ followed: true, target: null }]);
    expect(pins.filter(({ text }) => text === 'pollen patty on').map(({ followed }) => followed)).toEqual([false, true, true]);
  });
});

describe('the twin without a move', () => {
  it('differs in that move and nothing else', () => {
    const { scenario: one, index } = withMove(plan(), 'give_frame', date);
    expect(twinOf(one, `without ${index}`, null)).toEqual(plan());
    expect(twinName(one, `without ${index}`)).toBe('without “drone frame in”');
    expect(twinOf(one, 'without 9', null)).toBeNull();
  });
});

describe('entries of a move', () => {
  it('are found, made and taken out by their path', () => {
    const move: Move = { date, feed: { kind: '1:1', jars: 2 } };
    expect(valueAt(move, 'feed.jars')).toBe(2);
    expect(valueAt(move, 'patty.kilograms')).toBeUndefined();
    setAt(move, 'feed.litres', 3);
    setAt(move, 'feed.jars', undefined);
    expect(move.feed).toEqual({ kind: '1:1', litres: 3 });
  });
});
