/** The model as the page asks it: which worker answers what, and of questions that come faster than their answers only the newest. */
import { plan as shipped } from 'virtual:shipped';
import { isoDate } from './calendar';
import { Client, Latest, LongWorker, problemOf } from './client';
import { twinOf } from './plan';
import type { Questions } from './protocol';
import { type Keeper, type RecordFile as Shipped, Records } from './records';
import type { Scenario } from './scenario';
import type { RecordFile } from './storage';
import type { Outcome, Problem } from './types';
import type { UnitSystem } from './units';

type Answer<K extends keyof Questions> = Questions[K]['answer'];

/** The season of a first visit and its twin, as text. */
const FIRST = JSON.stringify(shipped);
const FIRST_TWIN = JSON.stringify(twinOf(shipped, 'feed', null));

const isFirst = (plan: Scenario): boolean => JSON.stringify(plan) === FIRST;
const isFirstTwin = (twin: Scenario | null): boolean => JSON.stringify(twin) === FIRST_TWIN;

export class Model {
  /** Resolves when the first season has been asked for. */
  readonly asked: Promise<void>;
  /** Tries plans over and over, so that the page itself never waits for that. */
  readonly trier: LongWorker;

  /** The open hive: its seasons, their stories, its file. */
  #page: Client;
  /** The combs are worked out by a worker of their own, so that a slider does not wait for them. */
  #drawer: Client;
  /** Works out the seasons of the other hives. */
  #lister: LongWorker;
  #records: Records;
  #onAsked: () => void = () => {};
  #runs = new Latest();
  #stories = new Latest();
  #cells = new Latest();

  /** `records`: the shipped weather file of each record; `others`: who else keeps weather files. */
  constructor(newWorker: () => Worker, onFatal: (message: string) => void, records: Readonly<Record<string, Shipped>>, others: readonly Keeper[]) {
    this.asked = new Promise((resolve) => {
      this.#onAsked = resolve;
    });
    this.#page = new Client(newWorker(), onFatal);
    this.#drawer = new Client(newWorker(), onFatal);
    this.#lister = new LongWorker(newWorker, onFatal);
    this.trier = new LongWorker(newWorker, onFatal);
    this.#records = new Records(records, [this.#page, this.#drawer, this.#lister, this.trier, ...others]);
  }

  /** What the model offers, in the language of the page. */
  catalogue(): Promise<Answer<'catalogue'>> {
    return this.#page.ask('catalogue', {});
  }

  /** Hands a weather file of a hive's own to everybody who runs seasons. */
  keepFile({ name, bytes }: RecordFile): Promise<void> {
    return this.#records.keep(name, bytes);
  }

  /** Reads a scenario file, or its text. */
  async read(file: Uint8Array | string): Promise<Scenario> {
    const bytes = typeof file === 'string' ? new TextEncoder().encode(file) : file;
    return (await this.#page.ask('open', { file: bytes })).scenario;
  }

  /** A scenario as the text of a file. */
  async write(scenario: Scenario): Promise<string> {
    return (await this.#page.ask('save', { scenario })).text;
  }

  /** Reads a scenario strictly; what is wrong with it, or nothing. */
  async problemWith(scenario: Scenario): Promise<Problem | null> {
    try {
      await this.write(scenario);
      return null;
    } catch (fault) {
      return problemOf(fault);
    }
  }

  /** Runs a plan and its twin, and tells a day of the plan; `null`: another plan came meanwhile. */
  run(plan: Scenario, twin: Scenario | null, day: number, units: UnitSystem): Promise<Answer<'run'> | null> {
    return this.#runs.run(async () => {
      // Asked at once where nothing has to be fetched: the page draws its controls while the season is worked out.
      if (!this.#records.brought([plan, twin])) await this.#records.bring([plan, twin]);
      this.#onAsked();
      return this.#page.ask('run', { plan, twin, date: isoDate(day), units, first: isFirst(plan) && isFirstTwin(twin) });
    });
  }

  /** Tells a day of the plan that was run last; `null`: another day was asked for meanwhile, or there is nothing to tell. */
  tell(day: number, units: UnitSystem): Promise<Answer<'story'> | null> {
    const ask = { which: 'plan' as const, date: isoDate(day), units };
    return this.#stories.run(() => this.#page.ask('story', ask)).catch(() => null);
  }

  /** What lies in the combs on a day; `null` as for `tell`. */
  draw(scenario: Scenario, day: number): Promise<Answer<'cells'> | null> {
    const ask = { scenario, date: isoDate(day), first: isFirst(scenario) };
    return this.#cells.run(() => this.#drawer.ask('cells', ask)).catch(() => null);
  }

  /** Runs the plan of a hive that is not open; `files`: its own weather files. */
  async runOther(plan: Scenario, files: readonly RecordFile[], units: UnitSystem): Promise<Outcome> {
    await this.#records.bring([plan]);
    // Hives may call different files by the same name.
    for (const { name, bytes } of files) await this.#lister.keepFile(name, bytes);
    return (await this.#lister.client.ask('run', { plan, twin: null, date: null, units, first: false })).plan;
  }
}
