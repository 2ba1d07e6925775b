/** The weather files that seasons are run on: which come with the page, and how every worker gets those that it needs. */
import { records } from 'virtual:shipped';
import { pageProblem } from './client';
import type { Scenario } from './scenario';
import { text } from './text/index.svelte';

const files = import.meta.glob<string>('../../scenarios/weather/*.{csv,dly,txt}', { query: '?url', import: 'default', eager: true });

/** A weather file that comes with the page: its name, and where it is. */
export interface RecordFile {
  file: string;
  url: string;
}

/** The file of each weather record that comes with the page, by the record's name. */
export const RECORDS: Readonly<Record<string, RecordFile>> = Object.fromEntries(
  records.map(([name, file]) => [name, { file, url: files[`../../scenarios/weather/${file}`] ?? '' }]),
);

/** Whoever runs seasons, and keeps the files for them. */
export interface Keeper {
  keepFile(name: string, file: Uint8Array): Promise<unknown>;
}

export class Records {
  #shipped: Readonly<Record<string, RecordFile>>;
  #keepers: readonly Keeper[];
  #brought = new Map<string, Promise<void>>();
  /** Those that are handed out. */
  #there = new Set<string>();

  /** `shipped`: the file of each record; `keepers`: who is handed every file. */
  constructor(shipped: Readonly<Record<string, RecordFile>>, keepers: readonly Keeper[]) {
    this.#shipped = shipped;
    this.#keepers = keepers;
  }

  /** Hands a file to everybody. */
  async keep(name: string, file: Uint8Array): Promise<void> {
    await Promise.all(this.#keepers.map((keeper) => keeper.keepFile(name, file)));
  }

  /** Whether everybody has the shipped records that scenarios name. */
  brought(scenarios: readonly (Scenario | null)[]): boolean {
    return this.#named(scenarios).every(({ file }) => this.#there.has(file));
  }

  /** Fetches the shipped records that scenarios name, each once. */
  async bring(scenarios: readonly (Scenario | null)[]): Promise<void> {
    for (const { file, url } of this.#named(scenarios)) {
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

  /** The shipped files that scenarios name. */
  #named(scenarios: readonly (Scenario | null)[]): RecordFile[] {
    return scenarios.flatMap((scenario) => this.#shipped[scenario?.weather.record ?? ''] ?? []);
  }

  async #fetch(file: string, url: string): Promise<void> {
    const answer = await fetch(url);
    if (!answer.ok) throw pageProblem(text().page.recordFailed(file, answer.status));
    await this.keep(file, new Uint8Array(await answer.arrayBuffer()));
    this.#there.add(file);
  }
}
