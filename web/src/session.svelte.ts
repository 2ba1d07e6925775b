/**
 * What the page knows: the scenario, the seasons that came of it, the chosen day. Everything that
 * changes the page changes this, and the page follows.
 */
import { tick } from 'svelte';
import { dayNumber, isoDate } from './calendar';
import { Client, Latest, ProblemError } from './client';
import { Crowd } from './crowd/crowd.svelte';
import type { ActionName } from './moves/actions';
import { type PinTarget, withMove, withoutPin } from './moves/edit';
import { edited, leftOut, twinOf, type TwinKind } from './plan';
import { asProblem } from './protocol';
import type { Scenario } from './scenario';
import { Ranges } from './ranges';
import { SeasonView } from './season';
import { keepView, keptView, type RecordFile, Store, type View } from './storage';
import type { Catalogue, HiveCells, Problem, Story } from './types';
import { text } from './text/index.svelte';
import { Trials } from './trials/trials.svelte';
import type { UnitSystem } from './units';
import { Finder } from './search/finder.svelte';
import { Judge } from './verdict/verdict.svelte';
import { type DrawnVisit, type Hive, newHive } from './yard/hive';
import { Yard } from './yard/yard.svelte';

/** Changes that follow each other faster are undone together, ms. */
const ONE_CHANGE_MS = 400;
const MOST_UNDONE = 200;
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
  /** The scenarios that the season on the page and its twin came of. */
  shown = $state.raw<Scenario | null>(null);
  shownTwin = $state.raw<Scenario | null>(null);
  story = $state.raw<Story | null>(null);
  /** What lies in the combs on the chosen day; it comes a moment after the day. */
  cells = $state.raw<HiveCells | null>(null);
  day = $state(0);
  units = $state<UnitSystem>(usualUnits());
  twinKind = $state<TwinKind>('feed');
  kept = $state.raw<Scenario | null>(null);
  /** Whether the controls are open, and which move of the plan is open in them. */
  changing = $state(false);
  openMove = $state<number | null>(null);
  canUndo = $state(false);
  record = $state.raw<RecordFile | null>(null);
  /** The colonies of the same start and weather. */
  readonly crowd: Crowd;
  /** Where the hive stands after its visits. */
  readonly judge: Judge;
  readonly finder: Finder;
  readonly trials = new Trials(() => (this.#trier ??= this.#another()));
  /** On the visit sheet what was expected is hidden: it leads the eye. */
  expectedHidden = $state(false);
  /** The hives on this device. */
  readonly yard = new Yard((hive) => void this.#adopt(hive));

  #view: View = {};
  #client: Client;
  /** The combs are worked out by a worker of their own, so that a slider does not wait for them. */
  #drawer: Client;
  #trier: Client | null = null;
  /** Works out the seasons of the other hives. */
  #lister: Client | null = null;
  #newClient: () => Client;
  /** Weather files that were brought, for workers that start later. */
  #files = new Map<string, Uint8Array>();
  #cells = new Latest();
  #runs = new Latest();
  #stories = new Latest();
  #texts = new Latest();
  #recordUrls: Record<string, string>;
  #brought = new Map<string, Promise<void>>();
  #past: Scenario[] = [];
  #gestures = 0;
  #lastChange = { gesture: '', at: Number.NEGATIVE_INFINITY };

  /** `recordUrls`: where each shipped weather file is, by its name. */
  constructor(newWorker: () => Worker, recordUrls: Record<string, string>) {
    this.#recordUrls = recordUrls;
    const onFatal = (message: string) => {
      this.fatal = message;
    };
    const newClient = () => new Client(newWorker(), onFatal);
    this.crowd = new Crowd(newWorker, onFatal);
    this.judge = new Judge(newWorker, onFatal);
    this.finder = new Finder(newWorker, onFatal);
    this.#client = newClient();
    this.#newClient = newClient;
    this.#drawer = newClient();
  }

  /** Loads the model, then what was left on this device, or the first scenario. */
  async start(firstScenario: string): Promise<void> {
    this.#view = keptView();
    this.units = this.#view.units ?? this.units;
    this.expectedHidden = this.#view.expectedHidden ?? false;
    try {
      const [{ catalogue, schema }] = await Promise.all([
        this.#client.ask('catalogue', {}),
        Store.open().then((store) => this.yard.open(store)),
      ]);
      this.catalogue = catalogue;
      this.ranges = new Ranges(schema);
    } catch {
      return;
    }
    const { hives } = this.yard;
    const hive = hives.find(({ id }) => id === this.#view.hive) ?? hives[0];
    if (hive) {
      await this.openHive(hive);
    } else {
      await this.openText(firstScenario);
      if (this.scenario) await this.addHive(newHive(this.scenario, 0));
    }
  }

  /** Opens a hive of the yard in the place of the one that is open. */
  async openHive(hive: Hive): Promise<void> {
    this.yard.currentId = hive.id;
    this.#past = [];
    this.canUndo = false;
    this.openMove = null;
    this.scenario = null;
    this.cells = null;
    this.day = this.#view.days?.[hive.id] ?? 0;
    this.#keepView();
    await this.#takeHive(hive);
  }

  /** Adds a hive, and opens it. */
  async addHive(hive: Hive, files: RecordFile[] = []): Promise<void> {
    const adding = this.yard.add(hive, files);
    this.yard.currentId = hive.id;
    const added = await adding;
    if (this.scenario === added.scenario) this.#keepView();
    else await this.openHive(added);
  }

  async #takeHive(hive: Hive): Promise<void> {
    this.twinKind = hive.twinKind;
    this.kept = hive.kept;
    this.textProblem = null;
    this.text = '';
    const files = hive.recordName ? await this.yard.filesOf(hive.id) : [];
    await this.#useRecord(files.find(({ name }) => name === hive.recordName) ?? null);
    await this.#take(hive.scenario);
    if (hive.faultyText) await this.typeText(hive.faultyText);
  }

  /** Takes what another window did to the open hive. */
  async #adopt(hive: Hive | null): Promise<void> {
    await (hive ? this.#takeHive(hive) : this.openAnother());
  }

  /** Opens the first hive of the yard in the place of one that is gone; the plan of that one starts another where none is left. */
  async openAnother(): Promise<void> {
    const [next] = this.yard.hives;
    if (next) await this.openHive(next);
    else if (this.scenario) await this.addHive(newHive(this.scenario, 0));
  }

  /** What was found in the open hive, in order of date. */
  get visits(): readonly DrawnVisit[] {
    return this.yard.current?.visits ?? [];
  }

  /** Opens the text of a scenario file; `true` when it holds together well enough to be read. */
  async openText(text: string): Promise<boolean> {
    return this.#openFile(new TextEncoder().encode(text), text);
  }

  /** Opens an example as a hive of its own: the open one stays as it is. */
  async openExample(text: string): Promise<void> {
    const before = this.yard.currentId;
    const hive = newHive(await this.scenarioOf(text), this.yard.nextOrder);
    await this.addHive(hive);
    if (before) this.yard.news = { kind: 'example', name: this.yard.hive(hive.id)?.name ?? hive.name, id: hive.id, before };
  }

  /** Goes back to the hive that was open before an example, and deletes that one; it can be brought back. */
  async closeExample(id: string, before: string): Promise<void> {
    const hive = this.yard.hive(before);
    if (hive) await this.openHive(hive);
    await this.yard.remove(id);
    if (!hive) await this.openAnother();
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
      this.#remember('');
      this.openMove = null;
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
      this.#remember('text');
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

  /** All changes of one `gesture`, such as a drag, are undone together. */
  replace(scenario: Scenario, gesture = ''): void {
    performance.mark('combcast: change');
    this.#remember(gesture);
    void this.#take(scenario);
  }

  /** Takes the last change back. */
  undo(): void {
    const before = this.#past.pop();
    this.canUndo = this.#past.length > 0;
    this.#lastChange = { gesture: '', at: Number.NEGATIVE_INFINITY };
    if (before) void this.#take(before);
  }

  /** A name for a drag, or for a change that is undone by itself. */
  newGesture(): string {
    this.#gestures += 1;
    return `gesture ${this.#gestures}`;
  }

  #remember(gesture: string): void {
    const { scenario } = this;
    const now = performance.now();
    const last = this.#lastChange;
    const same = gesture === last.gesture && (gesture !== '' || now - last.at < ONE_CHANGE_MS);
    this.#lastChange = { gesture, at: now };
    if (same || !scenario) return;
    this.#past = [...this.#past.slice(1 - MOST_UNDONE), scenario];
    this.canUndo = true;
  }

  /** Opens a move in the controls. */
  showMove(index: number | null): void {
    this.openMove = index;
    if (index !== null) this.changing = true;
  }

  addMove(name: ActionName): void {
    if (!this.scenario) return;
    const { scenario, index } = withMove(this.scenario, name, isoDate(this.day));
    this.replace(scenario, this.newGesture());
    this.openMove = index;
  }

  /** Takes what a pin stands for out of the plan; `undo` brings it back. */
  removePin(target: PinTarget): void {
    if (!this.scenario) return;
    if (target.kind === 'move') {
      const left = leftOut(this.twinKind);
      if (left === target.index) this.twinKind = 'none';
      else if (left !== null && left > target.index) this.twinKind = `without ${left - 1}`;
      this.openMove = null;
    }
    this.replace(withoutPin(this.scenario, target), this.newGesture());
  }

  compareWith(kind: TwinKind): void {
    this.twinKind = kind;
    if (kind === 'kept') this.kept = this.scenario;
    void this.#run();
    this.#keep();
  }

  async useRecordFile(file: File): Promise<void> {
    const record = { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) };
    await this.#useRecord(record);
    if (this.yard.currentId) await this.yard.keepFile(this.yard.currentId, record);
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
      if (!file || !url) continue;
      // Whoever comes while it is on its way waits for it too.
      let bringing = this.#brought.get(file);
      if (!bringing) {
        bringing = this.#bringRecord(file, url);
        this.#brought.set(file, bringing);
        // Not for good: the network may be back when it is asked for again.
        bringing.catch(() => this.#brought.delete(file));
      }
      await bringing;
    }
  }

  async #bringRecord(file: string, url: string): Promise<void> {
    const answer = await fetch(url);
    if (!answer.ok) throw new Error(text().page.recordFailed(file, answer.status));
    await this.#keepFile(file, new Uint8Array(await answer.arrayBuffer()));
  }

  async #keepFile(name: string, file: Uint8Array): Promise<void> {
    this.#files.set(name, file);
    const clients = [this.#client, this.#drawer, this.#trier, this.#lister];
    await Promise.all([
      ...clients.filter((client) => client !== null).map((client) => client.ask('keepFile', { name, file })),
      this.crowd.keepFile(name, file),
      this.judge.keepFile(name, file),
      this.finder.keepFile(name, file),
    ]);
  }

  /** A worker that starts later, with the weather files that were brought. */
  #another(): Client {
    const client = this.#newClient();
    for (const [name, file] of this.#files) void client.ask('keepFile', { name, file });
    return client;
  }

  /** The season of any hive of the yard; throws a `ProblemError` where it has none. */
  async seasonOf(hive: Pick<Hive, 'id' | 'scenario' | 'recordName'>): Promise<SeasonView> {
    const { catalogue } = this;
    if (!catalogue) throw new Error(text().page.notThere);
    this.#lister ??= this.#another();
    await this.#bringRecords([hive.scenario]);
    // Hives may call different files by the same name.
    for (const { name, bytes } of hive.recordName ? await this.yard.filesOf(hive.id) : []) await this.#lister.ask('keepFile', { name, file: bytes });
    const { plan } = await this.#lister.ask('run', { plan: hive.scenario, twin: null, units: this.units });
    return new SeasonView(plan, catalogue);
  }

  /** Reads a scenario strictly; what is wrong with it, or nothing. */
  async problemWith(scenario: Scenario): Promise<Problem | null> {
    try {
      await this.#client.ask('save', { scenario });
      return null;
    } catch (fault) {
      return problemOf(fault);
    }
  }

  /** Reads the text of a scenario file without opening it. */
  async scenarioOf(text: string): Promise<Scenario> {
    const { scenario } = await this.#client.ask('open', { file: new TextEncoder().encode(text) });
    return scenario;
  }

  /** Goes to a day, as near as the season allows. */
  goTo(day: number): void {
    if (this.plan) this.day = Math.min(Math.max(day, this.plan.first), this.plan.last);
    void this.#tell();
    void this.#draw();
    this.#keepView();
  }

  showUnits(units: UnitSystem): void {
    this.units = units;
    void this.#tell();
    // What happened is told again too.
    void this.#run();
    this.#keepView();
  }

  /** Asks again for everything that the model says: the language of the page has changed. */
  async retell(): Promise<void> {
    const { catalogue } = await this.#client.ask('catalogue', {});
    this.catalogue = catalogue;
    await this.#run();
    const { judge, shown } = this;
    if (!shown) return;
    if (judge.verdict) await judge.judge(shown);
    if (judge.list) await judge.next(shown, judge.list.from);
  }

  hideExpected(hidden: boolean): void {
    this.expectedHidden = hidden;
    this.#keepView();
  }

  async #take(scenario: Scenario, fromText = false): Promise<void> {
    const before = this.scenario?.start.date;
    if (before && before !== scenario.start.date) this.day += dayNumber(scenario.start.date) - dayNumber(before) || 0;
    this.scenario = scenario;
    if (!fromText && !this.textProblem) void this.#write(scenario);
    const run = this.#run();
    // Kept while the model is at work, not after it: a page may be closed at any moment.
    this.#keep();
    await run;
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
        return this.#client.ask('run', { plan: scenario, twin, units: this.units });
      });
      if (!answer) return;
      this.plan = new SeasonView(answer.plan, catalogue);
      this.twin = answer.twin && new SeasonView(answer.twin, catalogue);
      this.shown = scenario;
      this.shownTwin = twin;
      this.problem = null;
      this.twinProblem = answer.twinProblem;
      const { first, last } = this.plan;
      if (this.day < first || this.day > last) this.day = Math.min(first + FIRST_SHOWN, last);
      void this.#draw();
      await this.#tell();
      // After the page is drawn: the season itself never waits for its bands.
      if (this.crowd.of !== scenario) void tick().then(() => this.crowd.follow(scenario));
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

  /** Hands what the open hive has become to the yard, which keeps it. */
  #keep(): void {
    const { scenario, twinKind, kept } = this;
    const hive = this.yard.current;
    if (!scenario || !hive) return;
    const faultyText = this.textProblem ? this.text : null;
    const recordName = this.record?.name ?? null;
    const before = hive.scenario;
    if (before === scenario && hive.faultyText === faultyText && hive.twinKind === twinKind && hive.kept === kept && hive.recordName === recordName) return;
    // A hive that nobody has named is called after its scenario.
    const name = hive.name === before.name ? { name: scenario.name } : {};
    this.yard.change(hive.id, { scenario, faultyText, twinKind, kept, recordName, ...name });
  }

  #keepView(): void {
    const { currentId } = this.yard;
    this.#view = {
      ...this.#view,
      units: this.units,
      expectedHidden: this.expectedHidden,
      ...(currentId ? { hive: currentId, days: { ...this.#view.days, [currentId]: this.day } } : {}),
    };
    keepView(this.#view);
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
