import { afterEach, describe, expect, it, vi } from 'vitest';
import { RECORD_URLS, Records } from '../src/records';
import type { Scenario } from '../src/scenario';
import type { BuiltInRecord } from '../src/types';
import { scenario } from './door';

const shipped = [{ name: 'valley', file: 'valley.csv' }] as BuiltInRecord[];
const plan = (record: string | null): Scenario => {
  const plan = scenario('wet-spring.toml');
  return { ...plan, weather: { ...plan.weather, record } };
};

class Kept {
  files: [string, number][] = [];
  keepFile(name: string, file: Uint8Array): Promise<void> {
    this.files.push([name, file.length]);
    return Promise.resolve();
  }
}

const answer = (bytes: number[], status = 200) => new Response(new Uint8Array(bytes), { status });
afterEach(() => {
  vi.unstubAllGlobals();
});

describe('weather records', () => {
  it('that come with the page are named by their files', () => {
    expect(Object.keys(RECORD_URLS).length).toBeGreaterThan(2);
    for (const [name, url] of Object.entries(RECORD_URLS)) expect(url).toContain(name.replace(/\.\w+$/, ''));
  });

  it('are fetched once, also for those who ask while they are on their way, and handed to everybody', async () => {
    const fetched = vi.fn(() => Promise.resolve(answer([1, 2, 3])));
    vi.stubGlobal('fetch', fetched);
    const keepers = [new Kept(), new Kept()];
    const records = new Records({ 'valley.csv': './valley-1.csv' }, keepers);
    await Promise.all([records.bring([plan('valley'), null], shipped), records.bring([plan('valley')], shipped)]);
    await records.bring([plan('valley')], shipped);
    expect(fetched.mock.calls).toEqual([['./valley-1.csv']]);
    for (const { files } of keepers) expect(files).toEqual([['valley.csv', 3]]);
  });

  it('of somebody else are not looked for', async () => {
    const fetched = vi.fn();
    vi.stubGlobal('fetch', fetched);
    await new Records({ 'valley.csv': './valley-1.csv' }, []).bring([plan('mine.csv'), plan(null)], shipped);
    expect(fetched).not.toHaveBeenCalled();
  });

  it('that did not come say so, and are asked for again the next time', async () => {
    const fetched = vi.fn(() => Promise.resolve(answer([1], 503)));
    vi.stubGlobal('fetch', fetched);
    const keeper = new Kept();
    const records = new Records({ 'valley.csv': './valley-1.csv' }, [keeper]);
    await expect(records.bring([plan('valley')], shipped)).rejects.toThrow(/valley\.csv.*503/);
    expect(keeper.files).toEqual([]);
    fetched.mockImplementation(() => Promise.resolve(answer([1])));
    await records.bring([plan('valley')], shipped);
    expect(keeper.files).toEqual([['valley.csv', 1]]);
  });
});
