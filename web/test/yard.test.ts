import { describe, expect, it } from 'vitest';
import { base64, BUNDLE, BUNDLE_VERSION, BundleError, packed, same, unpacked } from '../src/yard/bundle';
import { type DrawnVisit, freeName, type Hive, inOrder, newHive, readHive } from '../src/yard/hive';
import { LinkError, linkOf, planOf } from '../src/yard/link';
import { check, ShapeError } from '../src/yard/shape';
import { schemaText, visitsSchemaText } from '../scripts/types.mjs';
import { scenario, scenarioFiles } from './door';

const plan = () => scenario('wet-spring.toml');
const files = [{ name: 'garden.csv', bytes: new Uint8Array([0, 1, 250, 255]) }];
const found = (date: string): DrawnVisit => ({
  visit: { date, frames_of_bees: [4.5], eggs_seen: true, wash: { mites: 2, bees: 300, sugar: false }, notes: 'calm' },
  sheet: { boxes: [{ medium: false, frames: [{ comb: 'hhhbbbbbbeee', bees: 6 }, { comb: 'hhhnnnnnnnnn', bees: null }], said: { bees: 4.5, brood: null, drawn: null } }] },
});
const hive = (): Hive => ({ ...newHive(plan(), 3), name: 'Hive 3', recordName: 'garden.csv', visits: [found('2012-06-04'), found('2012-06-11')] });
const text = () => packed([{ hive: hive(), files }], '2012-06-12');
const refusal = (text: string) => {
  try {
    unpacked(text);
    return null;
  } catch (fault) {
    return fault instanceof BundleError ? [fault.refusal, fault.detail] : fault;
  }
};

describe('everything as one file', () => {
  it('comes back as it was', () => {
    const [back, ...more] = unpacked(text());
    const { format: _f, id: _i, revision: _r, order: _o, ...content } = hive();
    expect(more).toEqual([]);
    expect(back).toEqual({ content, files });
    expect(same(content, back?.content ?? content)).toBe(true);
    expect(same(content, { ...content, name: 'Hive 4' })).toBe(false);
  });
  it('is refused in words when it is not whole', () => {
    const whole = text();
    for (const part of [0.1, 0.5, 0.9, 0.999]) expect(refusal(whole.slice(0, whole.length * part))).toEqual(['damaged', '']);
    expect(refusal(whole.replace('"hives":', '"hives"'))).toEqual(['damaged', '']);
    expect(refusal(' \n')).toEqual(['empty', '']);
  });
  it('is read when a page of version 1 made it', () => {
    expect(unpacked(text().replace('"version": 2', '"version": 1'))).toEqual(unpacked(text()));
  });
  it('is refused when it is something else, or newer', () => {
    expect(refusal('name = "a scenario"')).toEqual(['foreign', '']);
    expect(refusal('{"format": "something"}')).toEqual(['foreign', '']);
    expect(refusal('[1, 2]')).toEqual(['foreign', '']);
    expect(refusal(JSON.stringify({ format: BUNDLE, version: BUNDLE_VERSION + 1, hives: [] }))).toEqual(['newer', String(BUNDLE_VERSION + 1)]);
    expect(refusal(JSON.stringify({ format: BUNDLE, version: 'one' }))).toEqual(['damaged', 'version']);
  });
  it('names the place of a fault', () => {
    const broken = (from: string, to: string) => refusal(text().replace(from, to));
    expect(broken('"2012-06-11"', '"2012-06-31"')).toEqual(['hive', 'hives[0].visits[1].visit.date: expected a date such as 2026-06-17, got "2012-06-31"']);
    expect(broken('"eggs_seen": true', '"eggs_seen": "yes"')).toEqual(['hive', 'hives[0].visits[0].visit.eggs_seen: expected boolean or null, got "yes"']);
    expect(broken('"eggs_seen"', '"eggs"')).toEqual(['hive', 'hives[0].visits[0].visit: eggs is not known here']);
    expect(broken('"mites": 2', '"mites": -2')).toEqual(['hive', 'hives[0].visits[0].visit.wash.mites: expected 0 or more, got -2']);
    expect(broken('hhhbbbbbbeee', 'hhhbbbbbbee?')).toEqual(['hive', 'hives[0].visits[0].sheet.boxes[0].frames[0].comb: expected 12 letters, got "hhhbbbbbbee?"']);
    expect(broken('"name": "Hive 3"', '"name": 3')).toEqual(['hive', 'hives[0].name: expected text, got 3']);
    expect(broken(base64(files[0]?.bytes ?? new Uint8Array()), '****')).toEqual(['hive', 'hives[0].files[0].base64: is not base64']);
    expect(broken('"name": "garden.csv"', '"name": "other.csv"')).toEqual(['hive', 'hives[0].files: the weather file garden.csv is missing']);
  });
});

describe('a hive', () => {
  it('is read as it was written', () => {
    const one = hive();
    expect(readHive(JSON.parse(JSON.stringify(one)))).toEqual(one);
    expect(() => readHive({ ...hive(), format: 3 })).toThrow('newer');
    // A page of format 1 knew of no place without brood.
    expect(readHive({ ...one, format: 1 })).toEqual(one);
    expect(() => readHive({ ...hive(), format: 0 })).toThrow('hive.format');
    expect(() => readHive({ ...hive(), revision: '3' })).toThrow('hive.revision: expected a whole number, got "3"');
    expect(() => readHive(null)).toThrow(ShapeError);
  });
  it('gets a name that no other has', () => {
    expect(freeName('Hive', ['Other'])).toBe('Hive');
    expect(freeName('Hive', ['Hive'])).toBe('Hive (2)');
    expect(freeName('Hive (2)', ['Hive', 'Hive (2)'])).toBe('Hive (3)');
  });
  it('has its visits in order of date', () => {
    expect(inOrder([found('2012-06-11'), found('2012-06-04')]).map(({ visit }) => visit.date)).toEqual(['2012-06-04', '2012-06-11']);
  });
});

describe('shapes', () => {
  it('are those of the schemas, which every shipped scenario has', () => {
    const schema = JSON.parse(schemaText()) as { $defs: object };
    for (const file of scenarioFiles) check({ $defs: { ...schema.$defs, Scenario: schema } }, 'Scenario', scenario(file), file);
    const visits = JSON.parse(visitsSchemaText()) as object;
    expect(() => check(visits, 'Visit', {}, 'visit')).toThrow('visit: date is missing');
    expect(() => check(visits, 'Visit', { date: '2012-06-11', drone_frame: 'hatching' }, 'visit')).toThrow('visit.drone_frame: expected one of "not-drawn"');
  });
});

describe('a plan as a link', () => {
  it('holds every shipped plan whole', async () => {
    for (const file of scenarioFiles) {
      const shared = { name: `Hive of ${file}, Ümläut`, scenario: scenario(file) };
      const link = await linkOf(shared);
      expect(link).toMatch(/^#plan=[A-Za-z0-9_-]+$/);
      expect(link.length).toBeLessThan(4000);
      expect(await planOf(link)).toEqual(shared);
    }
  });
  it('is refused when it is cut short, damaged, newer or too much', async () => {
    const link = await linkOf({ name: 'Hive', scenario: plan() });
    const refused = async (hash: string) => planOf(hash).then(() => null, (fault: unknown) => (fault instanceof LinkError ? fault.refusal : fault));
    for (const part of [0.2, 0.6, 0.98]) expect(await refused(link.slice(0, link.length * part))).toBe('damaged');
    expect(await refused('#plan=')).toBe('damaged');
    expect(await refused('#plan=%%%')).toBe('damaged');
    expect(await refused(`${link.slice(0, 60)}x${link.slice(61)}`)).toBe('damaged');
    const packed = async (data: unknown) => {
      const bytes = await new Response(new Blob([JSON.stringify(data)]).stream().pipeThrough(new CompressionStream('deflate-raw'))).arrayBuffer();
      return `#plan=${base64(new Uint8Array(bytes)).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '')}`;
    };
    expect(await refused(await packed({ version: 2, bees: [] }))).toBe('newer');
    expect(await refused(await packed({ version: 1, name: 3 }))).toBe('damaged');
    expect(await refused(await packed('x'.repeat(5_000_000)))).toBe('huge');
  });
});
