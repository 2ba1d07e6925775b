import { afterEach, describe, expect, it, vi } from 'vitest';
import { RECORDS, Records } from '../src/records';
import type { Scenario } from '../src/scenario';
import { scenario } from './door';

const shipped = { valley: { file: 'valley.csv', url: './valley-1.csv' } };
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
    expect(Object.keys(RECORDS).length).toBeGreaterThan(2);
    for (const { file, url } of Object.values(RECORDS)) expect(url).toContain(file.replace(/\.\w+$/, ''));
  });

  it('are fetched once, also for those who ask while they are on their way, and handed to everybody', async () => {
    const fetched = vi.fn(() => Promise.resolve(answer([1, 2, 3])));
    vi.stubGlobal('fetch', fetched);
    const keepers = [new Kept(), new Kept()];
    const records = new Records(shipped, keepers);
    await Promise.all([records.bring([plan('valley'), null]), records.bring([plan('valley')])]);
    await records.bring([plan('valley')]);
    expect(fetched.mock.calls).toEqual([['./valley-1.csv']]);
    for (const { files } of keepers) expect(files).toEqual([['valley.csv', 3]]);
  });

  it('of somebody else are not looked for', async () => {
    const fetched = vi.fn();
    vi.stubGlobal('fetch', fetched);
    await new Records(shipped, []).bring([plan('mine.csv'), plan(null)]);
    expect(fetched).not.toHaveBeenCalled();
  });

  it('that did not come say so, and are asked for again the next time', async () => {
    const fetched = vi.fn(() => Promise.resolve(answer([1], 503)));
    vi.stubGlobal('fetch', fetched);
    const keeper = new Kept();
    const records = new Records(shipped, [keeper]);
    await expect(records.bring([plan('valley')])).rejects.toThrow(/valley\.csv.*503/);
    expect(keeper.files).toEqual([]);
    fetched.mockImplementation(() => Promise.resolve(answer([1])));
    await records.bring([plan('valley')]);
    expect(keeper.files).toEqual([['valley.csv', 1]]);
  });
});
