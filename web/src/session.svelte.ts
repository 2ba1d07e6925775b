/**
 * What the page knows: the scenario, the seasons that came of it, the chosen day. Everything that
 * changes the page changes this, and the page follows.
 */
import { tick } from 'svelte';
import { dayNumber, isoDate } from './calendar';
import { Client, Latest, ProblemError } from './client';
import { edited, twinOf, type TwinKind } from './plan';
import { asProblem } from './protocol';
import type { Scenario } from './scenario';
import { Ranges } from './ranges';
import { SeasonView } from './season';
import { keptState, keepRecord, keepState, type RecordFile, recordFile } from './storage';
import type { Catalogue, HiveCells, Problem, Story } from './types';
import type { UnitSystem } from './units';

/** The day of the season that is shown first. */
const FIRST_SHOWN = 42;
/** The name of the measured time from a change to the page redrawn. */
export const REDRAWN = 'combcast: change to redrawn';

export class Session {
  catalogue = $state.raw<Catalogue | null>(null);
  ranges = $state.raw<Ranges>(new Ranges('{}'));
  scenario = $state.raw<Scenario | null>(null);
  /** The scenario as the text of a file; what was typed stays, also where it has a fault. */
  text = $state('');
  textProblem = $state.raw<Problem | null>(null);
  /** Why the scenario has no season; the one before it stays on the page. */
  problem = $state.raw<Problem | null>(null);
  twinProblem = $state.raw<Problem | null>(null);
  /** The model itself is gone. */
  fatal = $state<string | null>(null);
  plan = $state.raw<SeasonView | null>(null);
  twin = $state.raw<SeasonView | null>(null);
  /** The scenario that the season on the page came of. */
  shown = $state.raw<Scenario | null>(null);
  story = $state.raw<Story | null>(null);
  /** What lies in the combs on the chosen day; it comes a moment after the day. */
  cells = $state.raw<HiveCells | null>(null);
  day = $state(0);
  units = $state<UnitSystem>(usualUnits());
  twinKind = $state<TwinKind>('feed');
  kept = $state.raw<Scenario | null>(null);
  record = $state.raw<RecordFile | null>(null);

  #client: Client;
  /** The combs are worked out by a worker of their own, so that a slider does not wait for them. */
  #drawer: Client;
  #cells = new Latest();
  #runs = new Latest();
  #stories = new Latest();
  #texts = new Latest();
  #recordUrls: Record<string, string>;
  #brought = new Set<string>();

  /** `recordUrls`: where each shipped weather file is, by its name. */
  constructor(worker: Worker, drawer: Worker, recordUrls: Record<string, string>) {
    this.#recordUrls = recordUrls;
    const die = (message: string) => {
      this.fatal = message;
    };
    this.#client = new Client(worker, die);
    this.#drawer = new Client(drawer, die);
  }

  /** Loads the model, then what was left on this device, or the first scenario. */
  async start(firstScenario: string): Promise<void> {
    try {
      const { catalogue, schema } = await this.#client.ask('catalogue', {});
      this.catalogue = catalogue;
      this.ranges = new Ranges(schema);
    } catch {
      return;
    }
    const kept = keptState();
    if (kept) {
      this.units = kept.units;
      this.twinKind = kept.twinKind;
      this.kept = kept.kept;
      this.day = kept.day;
      if (kept.recordName) await this.#useRecord(await recordFile());
      await this.#take(kept.scenario);
      if (kept.faultyText) await this.typeText(kept.faultyText);
    } else {
      await this.openText(firstScenario);
    }
  }

  /** Opens the text of a scenario file; `true` when it holds together well enough to be read. */
  async openText(text: string): Promise<boolean> {
    return this.#openFile(new TextEncoder().encode(text), text);
  }

  /** Opens a scenario file. What cannot be read stays in the text box with its fault. */
  async openFile(file: Blob): Promise<boolean> {
    const bytes = new Uint8Array(await file.arrayBuffer());
    return this.#openFile(bytes, new TextDecoder().decode(bytes));
  }

  async #openFile(bytes: Uint8Array, text: string): Promise<boolean> {
    this.text = text;
    try {
      const { scenario } = await this.#client.ask('open', { file: bytes });
      this.textProblem = null;
      await this.#take(scenario, true);
      return true;
    } catch (fault) {
      this.textProblem = problemOf(fault);
      this.#keep();
      return false;
    }
  }

  /** Takes the text as it is being typed. */
  async typeText(text: string): Promise<void> {
    this.text = text;
    const answer = await this.#texts
      .run(() => this.#client.ask('open', { file: new TextEncoder().encode(text) }))
      .catch((fault: unknown) => {
        this.textProblem = problemOf(fault);
        return null;
      });
    if (answer && this.text === text) {
      this.textProblem = null;
      await this.#take(answer.scenario, true);
    }
    this.#keep();
  }

  /** Throws the faulty text away in favour of the scenario that is drawn. */
  async textFromScenario(): Promise<void> {
    if (!this.scenario) return;
    this.textProblem = null;
    await this.#write(this.scenario);
  }

  /** Changes the scenario; the page follows by itself. */
  change(change: (draft: Scenario) => void): void {
    if (this.scenario) this.replace(edited(this.scenario, change));
  }

  replace(scenario: Scenario): void {
    performance.mark('combcast: change');
    void this.#take(scenario);
  }

  compareWith(kind: TwinKind): void {
    this.twinKind = kind;
    if (kind === 'kept') this.kept = this.scenario;
    void this.#run();
  }

  async useRecordFile(file: File): Promise<void> {
    const record = { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) };
    await this.#useRecord(record);
    await keepRecord(record);
    this.change((draft) => {
      draft.weather.record = record.name;
      draft.weather.place_type = null;
      draft.weather.station = null;
      draft.weather.units = null;
      draft.weather.shift_years = 0;
    });
  }

  async #useRecord(record: RecordFile | null): Promise<void> {
    this.record = record;
    if (record) await this.#keepFile(record.name, record.bytes);
  }

  /** Fetches the shipped records that scenarios name, each once. */
  async #bringRecords(scenarios: readonly (Scenario | null)[]): Promise<void> {
    for (const scenario of scenarios) {
      const file = this.catalogue?.records.find(({ name }) => name === scenario?.weather.record)?.file;
      const url = file && this.#recordUrls[file];
      if (!file || !url || this.#brought.has(file)) continue;
      this.#brought.add(file);
      const answer = await fetch(url);
      if (!answer.ok) throw new Error(`The weather record ${file} could not be loaded (${answer.status}).`);
      await this.#keepFile(file, new Uint8Array(await answer.arrayBuffer()));
    }
  }

  async #keepFile(name: string, file: Uint8Array): Promise<void> {
    await Promise.all([this.#client, this.#drawer].map((client) => client.ask('keepFile', { name, file })));
  }

  /** Goes to a day, as near as the season allows. */
  goTo(day: number): void {
    if (this.plan) this.day = Math.min(Math.max(day, this.plan.first), this.plan.last);
    void this.#tell();
    void this.#draw();
    this.#keep();
  }

  showUnits(units: UnitSystem): void {
    this.units = units;
    void this.#tell();
    this.#keep();
  }

  async #take(scenario: Scenario, fromText = false): Promise<void> {
    const before = this.scenario?.start.date;
    if (before && before !== scenario.start.date) this.day += dayNumber(scenario.start.date) - dayNumber(before) || 0;
    this.scenario = scenario;
    if (!fromText && !this.textProblem) void this.#write(scenario);
    await this.#run();
    this.#keep();
  }

  async #write(scenario: Scenario): Promise<void> {
    const answer = await this.#texts.run(() => this.#client.ask('save', { scenario })).catch(() => null);
    if (answer && !this.textProblem) this.text = answer.text;
  }

  async #run(): Promise<void> {
    const { scenario, catalogue } = this;
    if (!scenario || !catalogue) return;
    const twin = twinOf(scenario, this.twinKind, this.kept);
    try {
      const answer = await this.#runs.run(async () => {
        await this.#bringRecords([scenario, twin]);
        return this.#client.ask('run', { plan: scenario, twin });
      });
      if (!answer) return;
      this.plan = new SeasonView(answer.plan, catalogue);
      this.twin = answer.twin && new SeasonView(answer.twin, catalogue);
      this.shown = scenario;
      this.problem = null;
      this.twinProblem = answer.twinProblem;
      const { first, last } = this.plan;
      if (this.day < first || this.day > last) this.day = Math.min(first + FIRST_SHOWN, last);
      void this.#draw();
      await this.#tell();
    } catch (fault) {
      this.problem = problemOf(fault);
    }
    await measure();
  }

  async #tell(): Promise<void> {
    const ask = { which: 'plan' as const, date: isoDate(this.day), units: this.units };
    const answer = await this.#stories.run(() => this.#client.ask('story', ask)).catch(() => null);
    if (answer) this.story = answer.story;
  }

  async #draw(): Promise<void> {
    const { shown } = this;
    if (!shown) return;
    const ask = { scenario: shown, date: isoDate(this.day) };
    const answer = await this.#cells.run(() => this.#drawer.ask('cells', ask)).catch(() => null);
    if (answer) this.cells = answer.cells;
  }

  #keep(): void {
    if (!this.scenario) return;
    keepState({
      scenario: this.scenario,
      faultyText: this.textProblem ? this.text : null,
      units: this.units,
      day: this.day,
      twinKind: this.twinKind,
      kept: this.kept,
      recordName: this.record?.name ?? null,
    });
  }
}

/** Pounds and Fahrenheit where they are in use, until somebody chooses. */
function usualUnits(): UnitSystem {
  return /-(US|LR|MM)$/i.test(navigator.language) ? 'us' : 'metric';
}

function problemOf(fault: unknown): Problem {
  return fault instanceof ProblemError ? fault.problem : asProblem(fault);
}

/** Notes the time from the last change until the page has been redrawn. */
async function measure(): Promise<void> {
  await tick();
  if (performance.getEntriesByName('combcast: change', 'mark').length > 0) {
    performance.measure(REDRAWN, 'combcast: change');
    performance.clearMarks('combcast: change');
  }
}
