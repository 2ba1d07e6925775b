import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { scenarioTypes } from '../scripts/types.mjs';
import { dayNumber } from '../src/calendar';
import { SeasonView } from '../src/season';
import { en } from '../src/text/en';
import { catalogue, open, save } from '../src/wasm/sim_wasm.js';
import { explorer, run, scenario, scenarioFile, scenarioFiles, thrown } from './door';

const text = (value: string) => new TextEncoder().encode(value);

describe('the door', () => {
  it('hands out the types that the page is written against', async () => {
    const made = await scenarioTypes();
    expect(readFileSync(new URL('../src/scenario.ts', import.meta.url), 'utf8')).toBe(made);
  });

  it('has a catalogue of columns, brakes, records and climates', () => {
    const offered = catalogue();
    expect(offered.columns.map(({ name }) => name)).toContain('adult_bees');
    expect(offered.brakes.map(({ name }) => name)).toContain('her_rate');
    for (const { name, words } of offered.brakes) expect([name, words]).not.toContain('');
    expect(offered.origins).toEqual(['measured', 'filled', 'typed', 'spell', 'generated']);
    for (const { name, file, place, first_year, last_year } of offered.records) {
      expect([typeof name, typeof file, typeof place]).toEqual(['string', 'string', 'string']);
      expect(first_year).toBeLessThanOrEqual(last_year);
    }
    for (const { name, description, latitude } of offered.placeTypes) {
      expect([typeof name, typeof description, typeof latitude]).toEqual(['string', 'string', 'number']);
    }
  });

  it.each(scenarioFiles)('opens, saves and runs %s', (name) => {
    const plan = open(scenarioFile(name));
    expect(open(text(save(JSON.stringify(plan))))).toEqual(plan);
    const outcome = run(explorer(), 'plan', plan);
    const { columns } = catalogue();
    expect(outcome.values).toBeInstanceOf(Float64Array);
    expect(outcome.values.length).toBe(columns.length * outcome.days);
    expect(outcome.values.every(Number.isFinite)).toBe(true);
    expect([outcome.brakes.length, outcome.origins.length]).toEqual([outcome.days, outcome.days]);
    expect(outcome.first).toBe(plan.start.date);
    expect(outcome.digest).toMatch(/^[0-9a-f]{16}$/);
    const view = new SeasonView(outcome, catalogue());
    expect([...view.column('day').slice(0, 3)]).toEqual([1, 2, 3]);
    expect(view.at('adult_bees', view.first)).toBeGreaterThan(1000);
    expect(view.at('adult_bees', view.first - 1)).toBeNaN();
    // The page's own word for a colony that is gone is none of the model's brakes.
    if (view.lost(view.last)) expect(view.at('adult_bees', view.last)).toBeLessThan(1);
    else expect(catalogue().brakes).toContainEqual(view.brake(view.last));
  });

  it('gives the same bits each time, and others when a bee is added', () => {
    const plan = scenario('wet-spring.toml');
    const digests = [plan, plan, { ...plan, start: { ...plan.start, package: { bees: 9901 } } }].map(
      (one) => run(explorer(), 'plan', one).digest,
    );
    expect(digests[0]).toBe(digests[1]);
    expect(digests[2]).not.toBe(digests[0]);
  });

  it('tells a day of each season that it keeps, in either system of units', () => {
    const made = explorer();
    const plan = scenario('wet-spring.toml');
    run(made, 'plan', plan);
    run(made, 'twin', { ...plan, start: { ...plan.start, package: { bees: 4000 } } });
    const words = (name: string, units: string) =>
      made
        .story(name, '2012-05-10', units)
        ?.sentences.flat()
        .map((span) => span.text)
        .join(' ');
    expect(made.story('plan', '2012-05-10', 'metric')?.sentences[0]?.[0]).toEqual({ text: 'Thu 10 May', kind: 'date' });
    expect(words('twin', 'metric')).not.toBe(words('plan', 'metric'));
    expect(words('plan', 'us')).not.toBe(words('plan', 'metric'));
    expect(made.story('plan', '2031-01-01', 'metric')).toBeNull();
    expect(made.story('plan', 'no date', 'metric')).toBeNull();
    expect(made.story('nobody', '2012-05-10', 'metric')).toBeNull();
  });

  it('tells the events in the units that are asked for', () => {
    const plan = scenario('every-move.toml');
    const made = explorer();
    const told = (units?: string) => made.run('plan', JSON.stringify(plan), units).events.map(({ text }) => text);
    const [metric, us] = [told('metric'), told('us')];
    expect(told()).toEqual(metric);
    expect(us.length).toBe(metric.length);
    expect(metric.some((text) => /\d kg\b/.test(text))).toBe(true);
    expect(us.some((text) => /\d lb\b/.test(text))).toBe(true);
    expect(us.join(' ')).not.toMatch(/\d (kg|g)\b/);
  });

  it('tells the same in German, and in English again', () => {
    const made = explorer();
    const plan = scenario('wet-spring.toml');
    const english = run(made, 'plan', plan);
    const words = () =>
      made
        .story('plan', '2012-06-10', 'metric')
        ?.sentences.flat()
        .map(({ text }) => text)
        .join('') ?? '';
    const before = words();
    made.speak('de');
    const german = run(made, 'plan', plan);
    expect(words()).toContain('So 10. Juni, Tag 42.');
    expect(words()).toContain('Waben Brut');
    expect(german.events[0]?.text).toMatch(/^\d\.\d{3} Bienen im Volk$/);
    expect(german.events.map(({ day, kind }) => [day, kind])).toEqual(english.events.map(({ day, kind }) => [day, kind]));
    expect(german.values).toEqual(english.values);
    const names = (code?: string) => catalogue(code).treatments.map(({ name }) => name);
    expect(names('de')).toContain('Ameisensäure, Langzeit');
    expect(names()).toEqual(names('en'));
    expect(catalogue('de').brakes.map(({ words }) => words)).toContain('Ammenbienen');
    made.speak('en');
    expect(words()).toBe(before);
  });

  it('says what a wash would find, and how the queen is', () => {
    const outcome = run(explorer(), 'plan', scenario('untreated.toml'));
    const view = new SeasonView(outcome, catalogue());
    expect(view.hasMites).toBe(true);
    const mites = view.column('mites_per_100_bees');
    let inside = 0;
    for (let day = 0; day < outcome.days; day += 1) {
      const [low, high] = [outcome.washLow[day] ?? Number.NaN, outcome.washHigh[day] ?? Number.NaN];
      expect(low).toBeLessThanOrEqual(high);
      // A dying colony has more mites than bees; a wash finds at most one on each.
      const found = Math.min(mites[day] ?? 0, 100);
      if (low <= found && found <= high) inside += 1;
    }
    // Only a count of none is said to be none.
    expect(inside).toBe(outcome.days);
    const queens = catalogue().queenStates;
    expect(Object.keys(en.page.queen).toSorted()).toEqual([...queens].toSorted());
    expect(new Set([...outcome.queens].map((code) => queens[code]))).toContain('laying');
    const swarm = new SeasonView(run(explorer(), 'plan', scenario('swarm.toml')), catalogue());
    expect(swarm.hasQueenNews).toBe(true);
  });

  it('tries a plan against its twin in many seasons, and tells a date of it', () => {
    const made = explorer();
    const plan = scenario('wet-spring.toml');
    const twin = { ...plan, feed: [] };
    const trial = made.compare(JSON.stringify(plan), JSON.stringify(twin), 20);
    expect([trial.members, trial.first]).toEqual([20, plan.start.date]);
    expect(trial.values.length).toBe(trial.measures.length * 4 * trial.days);
    const told = made.trialOn('2012-06-11', 'the colony of this plan', 'the one without feed', 'metric');
    expect(told?.differences.map((members) => members.length)).toEqual(trial.measures.map(() => 20));
    const k = dayNumber('2012-06-11') - dayNumber(trial.first);
    const sorted = (told?.differences[0] ?? []).toSorted((a, b) => a - b);
    const median = trial.values[trial.days + k] ?? Number.NaN;
    expect(median).toBeGreaterThanOrEqual(sorted[9] ?? Number.NaN);
    expect(median).toBeLessThanOrEqual(sorted[10] ?? Number.NaN);
    expect(told?.probabilities[0]).toBe(1);
    expect(told?.story.sentences.flat().map(({ text }) => text).join('')).toContain('the one without feed');
    expect(made.trialOn('2031-01-01', 'a', 'b', 'metric')).toBeNull();
  });

  it('finds the window of a drone frame, and says why there is none', () => {
    const made = explorer();
    const { window, story } = made.window(JSON.stringify(scenario('drone-frame-late.toml')), undefined, 0);
    expect(window.mode).toBe('mean');
    const safe = window.days.find(({ days_late }) => days_late === 0);
    const late = window.days.find(({ days_late }) => days_late === 6);
    expect(safe?.date).toBe(window.last_safe);
    expect(safe?.gain.mean).toBeGreaterThan(0);
    expect(late?.gain.mean).toBeLessThan(0);
    expect(story.sentences.length).toBeGreaterThan(2);
    expect(thrown(() => made.window(JSON.stringify(scenario('wet-spring.toml')), undefined, 0))).toMatchObject({ kind: 'scenario' });
  });

  it('says where blooms begin and end, and what was done to the weather', () => {
    const outcome = run(explorer(), 'plan', scenario('wet-spring.toml'));
    expect(outcome.bloom.length).toBeGreaterThan(2);
    for (const { from, to, nectar, pollen } of outcome.bloom) {
      expect(from <= to).toBe(true);
      expect(Math.max(nectar, pollen)).toBeGreaterThan(0);
    }
    expect(outcome.weatherNotes.join(' ')).toContain('2012');
    expect(outcome.weatherNotes.at(-1)).toMatch(/days measured/);
    expect(outcome.events[0]).toMatchObject({ day: 1, kind: 'start' });
  });
});

describe('what cannot be used', () => {
  it.each([
    ['nothing', new Uint8Array()],
    ['text that is no TOML', text('name = "a\n')],
    ['bytes that are no text', new Uint8Array([0xff, 0xfe, 0x00, 0x41])],
    ['a field that does not exist', new Uint8Array([...scenarioFile('wet-spring.toml'), ...text('\n[place2]\nx = 1\n')])],
  ])('refuses %s as a file, in words', (_, file) => {
    const fault = thrown(() => open(file)) as Record<string, unknown>;
    expect(fault).toMatchObject({ kind: 'scenario' });
    expect(fault.message).toEqual(expect.stringMatching(/\w/));
  });

  it('shows the line at fault with a caret', () => {
    const file = new TextDecoder().decode(scenarioFile('wet-spring.toml')).replace('latitude = 47.45', 'latitude = "north"');
    const fault = thrown(() => open(text(file))) as { place: string; excerpt: string };
    expect(fault.excerpt).toContain('latitude = "north"');
    expect(fault.excerpt).toContain('^');
  });

  it('refuses unknown fields of an object too', () => {
    const plan = { ...scenario('wet-spring.toml'), colour: 'green' };
    expect(thrown(() => run(explorer(), 'plan', plan as never))).toMatchObject({ kind: 'scenario' });
  });

  it('names the entry that is out of range', () => {
    const plan = scenario('wet-spring.toml');
    plan.start.package = { pounds: 99 };
    expect(thrown(() => run(explorer(), 'plan', plan))).toMatchObject({ kind: 'scenario', place: 'start.package.pounds' });
  });

  it('says in German what is out of range', () => {
    const made = explorer();
    const plan = scenario('wet-spring.toml');
    plan.start.package = { pounds: 99 };
    made.speak('de');
    const german = thrown(() => run(made, 'plan', plan)) as { message: string };
    made.speak('en');
    const english = thrown(() => run(made, 'plan', plan)) as { message: string };
    expect(german.message).toMatch(/^erwartet: .* bis .* Pfund, angegeben: 99$/);
    expect(english.message).toMatch(/^expected .* to .* pounds, got 99$/);
    expect([german, english]).toMatchObject([{ language: 'de' }, { language: 'en' }]);
  });

  it('says so when the weather file is not there', () => {
    const plan = scenario('wet-spring.toml');
    plan.weather.record = 'my-own.csv';
    const made = explorer();
    made.speak('de');
    expect(thrown(() => run(made, 'plan', plan))).toMatchObject({ place: 'weather.record', message: 'die Datei der Messreihe „my-own.csv“ ist nicht da', language: 'de' });
    made.speak('en');
    expect(thrown(() => run(made, 'plan', plan))).toMatchObject({ message: 'the file of the record "my-own.csv" is not there', language: 'en' });
  });

  it('names the line of a weather file that cannot be read', () => {
    const made = explorer();
    made.keepFile('my-own.csv', text('date,high_c,low_c,rain_mm\n2012-01-01,5,1,0\n2012-01-02,oops,1,0\n'));
    const plan = scenario('wet-spring.toml');
    plan.weather.record = 'my-own.csv';
    const fault = thrown(() => run(made, 'plan', plan)) as { kind: string; place: string };
    expect(fault.kind).toBe('weather');
    expect(fault.place).toMatch(/my-own\.csv.*line 3/);
    // What is wrong with a file is said in English only, and marked so.
    made.speak('de');
    expect(thrown(() => run(made, 'plan', plan))).toMatchObject({ kind: 'weather', language: 'en' });
    made.speak('en');
  });
});
