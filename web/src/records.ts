/** The weather files that seasons are run on: which come with the page, and how every worker gets those that it needs. */
import { pageProblem } from './client';
import type { Scenario } from './scenario';
import { text } from './text/index.svelte';
import type { Catalogue } from './types';

const files = import.meta.glob<string>('../../scenarios/weather/*.{csv,dly,txt}', { query: '?url', import: 'default', eager: true });

/** Where each weather record that comes with the page is, by the name of its file. */
export const RECORD_URLS: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(files).map(([path, url]) => [path.split('/').pop() ?? path, url]),
);

/** Whoever runs seasons, and keeps the files for them. */
export interface Keeper {
  keepFile(name: string, file: Uint8Array): Promise<unknown>;
}

export class Records {
  #urls: Readonly<Record<string, string>>;
  #keepers: readonly Keeper[];
  #brought = new Map<string, Promise<void>>();
  /** Those that are handed out. */
  #there = new Set<string>();

  /** `urls`: where each shipped file is; `keepers`: who is handed every file. */
  constructor(urls: Readonly<Record<string, string>>, keepers: readonly Keeper[]) {
    this.#urls = urls;
    this.#keepers = keepers;
  }

  /** Hands a file to everybody. */
  async keep(name: string, file: Uint8Array): Promise<void> {
    await Promise.all(this.#keepers.map((keeper) => keeper.keepFile(name, file)));
  }

  /** Whether everybody has the shipped records that scenarios name. */
  brought(scenarios: readonly (Scenario | null)[], shipped: Catalogue['records']): boolean {
    return this.#named(scenarios, shipped).every(([file]) => this.#there.has(file));
  }

  /** Fetches the shipped records that scenarios name, each once. */
  async bring(scenarios: readonly (Scenario | null)[], shipped: Catalogue['records']): Promise<void> {
    for (const [file, url] of this.#named(scenarios, shipped)) {
      // Whoever comes while it is on its way waits for it too.
      let bringing = this.#brought.get(file);
      if (!bringing) {
        bringing = this.#fetch(file, url);
        this.#brought.set(file, bringing);
        // Not for good: the network may be back when it is asked for again.
        bringing.catch(() => this.#brought.delete(file));
      }
      await bringing;
    }
  }

  /** The shipped files that scenarios name, and where they are. */
  #named(scenarios: readonly (Scenario | null)[], shipped: Catalogue['records']): [file: string, url: string][] {
    return scenarios.flatMap((scenario) => {
      const file = shipped.find(({ name }) => name === scenario?.weather.record)?.file;
      const url = file && this.#urls[file];
      return file && url ? [[file, url]] : [];
    });
  }

  async #fetch(file: string, url: string): Promise<void> {
    const answer = await fetch(url);
    if (!answer.ok) throw pageProblem(text().page.recordFailed(file, answer.status));
    await this.keep(file, new Uint8Array(await answer.arrayBuffer()));
    this.#there.add(file);
  }
}
