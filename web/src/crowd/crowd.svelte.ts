/**
 * Many colonies of the same start and weather, lived by a pool of workers, one for each core. Each worker lives shares of
 * the members; the shares are put together in the order of the members, so the number of workers changes nothing.
 */
import { dayNumber } from '../calendar';
import { Client, Latest, problemOf } from '../client';
import type { Scenario } from '../scenario';
import type { Problem } from '../types';
import { BandsView } from './bands';

/** Colonies behind the bands. */
export const MEMBERS = 200;
/** Members of one share. */
const SHARE = 25;
/** Dates that are looked at, about. */
const DATES = 100;
const MOST_WORKERS = 8;
/** Changes that follow each other this fast, ms, have their bands when the last one rests: a drag has the cores to itself. */
const REST_MS = 100;
/** The name of the measured time from a season to its bands. */
export const BANDS_MEASURE = 'combcast: bands of the members';

export class Crowd {
  bands = $state.raw<BandsView | null>(null);
  /** The scenario that the bands are of. */
  of = $state.raw<Scenario | null>(null);
  problem = $state.raw<Problem | null>(null);

  #newWorker: () => Worker;
  #onFatal: (message: string) => void;
  #clients: Client[] = [];
  #files = new Map<string, Uint8Array>();
  #runs = new Latest();
  #wanted: Scenario | null = null;

  constructor(newWorker: () => Worker, onFatal: (message: string) => void) {
    this.#newWorker = newWorker;
    this.#onFatal = onFatal;
  }

  /** Keeps a weather file for the workers, also for those that start later. */
  async keepFile(name: string, file: Uint8Array): Promise<void> {
    this.#files.set(name, file);
    await Promise.all(this.#clients.map((client) => client.keepFile(name, file)));
  }

  /** Works out the bands of a scenario; a newer one takes the place of one that is under way, at its next share. */
  async follow(scenario: Scenario): Promise<void> {
    this.#wanted = scenario;
    await new Promise((resolve) => setTimeout(resolve, REST_MS));
    if (this.#wanted !== scenario) return;
    try {
      await this.#runs.run(() => this.#work(scenario));
      this.problem = null;
    } catch (fault) {
      this.problem = problemOf(fault);
      this.bands = null;
      this.of = null;
    }
  }

  async #work(scenario: Scenario): Promise<void> {
    const clients = this.#started();
    const began = performance.now();
    const days = dayNumber(scenario.until) - dayNumber(scenario.start.date) + 1;
    const every = Math.max(1, Math.ceil(days / DATES));
    const parts: Float64Array[] = [];
    let next = 0;
    const late = () => this.#wanted !== scenario;
    const work = async (client: Client) => {
      while (next < MEMBERS && !late()) {
        const from = next;
        next += SHARE;
        const { numbers } = await client.ask('share', { scenario, every, from, to: Math.min(next, MEMBERS) });
        parts[from / SHARE] = numbers;
      }
    };
    await Promise.all(clients.map(work));
    const [first] = clients;
    if (!first || late()) return;
    const shares = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
    let at = 0;
    for (const part of parts) {
      shares.set(part, at);
      at += part.length;
    }
    const { bands } = await first.ask('bands', { scenario, every, shares }, [shares.buffer]);
    this.bands = new BandsView(bands);
    this.of = scenario;
    performance.measure(BANDS_MEASURE, { start: began });
  }

  #started(): Client[] {
    if (this.#clients.length === 0) {
      const count = Math.min(MOST_WORKERS, Math.max(1, globalThis.navigator?.hardwareConcurrency ?? 1));
      this.#clients = Array.from({ length: count }, () => new Client(this.#newWorker(), this.#onFatal));
      for (const client of this.#clients) {
        for (const [name, file] of this.#files) void client.keepFile(name, file);
      }
    }
    return this.#clients;
  }
}
