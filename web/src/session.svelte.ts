/**
 * What the page knows: the scenario, the seasons that came of it, the chosen day. Everything that
 * changes the page changes this, and the page follows.
 */
import { tick } from 'svelte';
import { dayNumber } from './calendar';
import { ScenarioFile } from './change/scenario-file.svelte';
import { pageProblem, problemOf } from './client';
import { Crowd } from './crowd/crowd.svelte';
import { keepingAlike } from './hive/cells';
import { Model } from './model';
import { Past } from './past.svelte';
import { edited, type LeftStarts, otherHive, twinName, twinOf, type TwinKind } from './plan';
import type { RecordFile as Shipped } from './records';
import { markChange, measureRedrawn } from './redrawn';
import type { Scenario } from './scenario';
import { Finder } from './search/finder.svelte';
import { SeasonView } from './season';
import { keepView, keptView, type RecordFile, Store, type View } from './storage';
import { text } from './text/index.svelte';
import { Trials } from './trials/trials.svelte';
import type { Catalogue, HiveCells, Problem, Story } from './types';
import type { UnitSystem } from './units';
import { Judge } from './verdict/verdict.svelte';
import { type DrawnVisit, type Hive, newHive } from './yard/hive';
import { Yard } from './yard/yard.svelte';

/** The day of the season that is shown first. */
const FIRST_SHOWN = 42;
/** A changed plan is handed to the yard after this long at the latest, drawn or not, ms. */
const KEEP_WITHIN_MS = 50;

export class Session {
  catalogue = $state.raw<Catalogue | null>(null);
  scenario = $state.raw<Scenario | null>(null);
  /** Why the scenario has no season; the one before it stays on the page. */
  problem = $state.raw<Problem | null>(null);
  /** Whether a change of the plan has not been handed to the yard yet. */
  unkept = $state(false);
  twinProblem = $state.raw<Problem | null>(null);
  /** Why the weather file that was chosen last cannot be used; the plan keeps the weather that it had. */
  weatherProblem = $state.raw<Problem | null>(null);
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
  /** What was switched off or left in the controls, to come back as it was. */
  laidAside: Pick<Scenario, 'feed'> & Pick<Scenario['weather'], 'rain'> & { starts?: LeftStarts } = {};
  /** Whether the controls are open, and which move of the plan is open in them. */
  changing = $state(false);
  openMove = $state<number | null>(null);
  /** On the visit sheet what was expected is hidden: it leads the eye. */
  expectedHidden = $state(false);
  readonly model: Model;
  /** The scenario as a text that can be edited. */
  readonly file: ScenarioFile;
  readonly past = new Past();
  /** The colonies of the same start and weather. */
  readonly crowd: Crowd;
  /** Where the hive stands after its visits. */
  readonly judge: Judge;
  readonly finder: Finder;
  readonly trials: Trials;
  /** The hives on this device. */
  readonly yard = new Yard((hive) => void (hive ? this.#takeHive(hive) : this.openAnother()));

  #catalogue: Promise<Catalogue> | null = null;
  #view: View = {};
  /** The weather file of its own that the open hive uses. */
  #record: RecordFile | null = null;

  /** `records`: the weather file of each record that comes with the page. */
  constructor(newWorker: () => Worker, records: Readonly<Record<string, Shipped>>) {
    const onFatal = (message: string) => {
      this.fatal = message;
    };
    this.crowd = new Crowd(newWorker, onFatal);
    this.judge = new Judge(newWorker, onFatal);
    this.finder = new Finder(newWorker, onFatal);
    this.model = new Model(newWorker, onFatal, records, [this.crowd, this.judge, this.finder]);
    this.trials = new Trials(() => this.model.trier.client);
    this.file = new ScenarioFile(this.model, { read: (scenario) => this.#read(scenario), written: () => this.#keep() });
  }

  /** Loads the model, then what was left on this device, or the `first` scenario. */
  async start(first: Scenario, itsText: string): Promise<void> {
    this.#view = keptView();
    this.units = this.#view.units ?? this.units;
    this.expectedHidden = this.#view.expectedHidden ?? false;
    // Nobody waits for it but who draws: the season is asked for right behind it.
    this.#catalogue = this.model.catalogue().then(({ catalogue }) => (this.catalogue = catalogue));
    this.#catalogue.catch(() => {});
    try {
      await this.yard.open(await Store.open());
    } catch (fault) {
      // Nothing is put beside what cannot be read, lest it take its place.
      this.fatal ??= problemOf(fault).message;
      return;
    }
    const { hives } = this.yard;
    const hive = hives.find(({ id }) => id === this.#view.hive) ?? hives[0];
    if (hive) {
      await this.openHive(hive);
    } else {
      this.file.text = itsText;
      await this.#take(first, true);
      await this.addHive(newHive(first, 0));
    }
  }

  /** Opens a hive of the yard in the place of the one that is open. */
  async openHive(hive: Hive): Promise<void> {
    this.yard.currentId = hive.id;
    this.past.forget();
    this.openMove = null;
    this.weatherProblem = null;
    this.laidAside = {};
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

  /** Opens the first hive of the yard in the place of one that is gone; the plan of that one starts another where none is left. */
  async openAnother(): Promise<void> {
    const [next] = this.yard.hives;
    if (next) await this.openHive(next);
    else if (this.scenario) await this.addHive(newHive(this.scenario, 0));
  }

  /** Takes what a hive of the yard holds: it was opened, or another window did something to the open one. */
  async #takeHive(hive: Hive): Promise<void> {
    this.twinKind = hive.twinKind;
    this.kept = hive.kept;
    this.file.clear();
    const files = hive.recordName ? await this.yard.filesOf(hive.id) : [];
    await this.#useRecord(files.find(({ name }) => name === hive.recordName) ?? null);
    await this.#take(hive.scenario);
    if (hive.faultyText) await this.file.type(hive.faultyText);
  }

  /** Hands what the open hive has become to the yard, which keeps it. */
  #keep(): void {
    const { scenario, twinKind, kept } = this;
    const hive = this.yard.current;
    if (!scenario || !hive) return;
    const faultyText = this.file.faulty;
    const recordName = this.#record?.name ?? null;
    const before = hive.scenario;
    if (before === scenario && hive.faultyText === faultyText && hive.twinKind === twinKind && hive.kept === kept && hive.recordName === recordName) return;
    // A hive that nobody has named is called after its scenario.
    const name = hive.name === before.name ? { name: scenario.name } : {};
    this.yard.change(hive.id, { scenario, faultyText, twinKind, kept, recordName, ...name });
  }

  /** What was found in the open hive, in order of date. */
  get visits(): readonly DrawnVisit[] {
    return this.yard.visits;
  }

  /** What the other season on the page is called. */
  readonly twinName = $derived(this.shown ? twinName(this.shown, this.twinKind, otherHive(this.twinKind) === null ? [] : this.yard.hives) : '');

  /** Changes the scenario; the page follows by itself. */
  change(change: (draft: Scenario) => void): void {
    if (this.scenario) this.replace(edited(this.scenario, change));
  }

  /** All changes of one `gesture`, such as a drag, are undone together. */
  replace(scenario: Scenario, gesture = ''): void {
    markChange();
    this.past.keep(this.scenario, gesture);
    void this.#take(scenario);
  }

  /** Takes the last change back. */
  undo(): void {
    const before = this.past.takeBack();
    if (before) void this.#take(before);
  }

  compareWith(kind: TwinKind): void {
    this.twinKind = kind;
    if (kind === 'kept') this.kept = this.scenario;
    void this.#run();
    this.#keep();
  }

  /** Takes weather of somebody's own, where a season can be had of it. */
  async useRecordFile(file: File): Promise<void> {
    const { scenario, problem } = this;
    const id = this.yard.currentId;
    if (!scenario) return;
    const record = { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) };
    const withRecord = (draft: Scenario) => {
      draft.weather.record = record.name;
      draft.weather.place_type = null;
      draft.weather.station = null;
      draft.weather.units = null;
      draft.weather.shift_years = 0;
    };
    const fault = await this.model.runOther(edited(scenario, withRecord), [record], this.units).then(() => null, problemOf);
    if (this.yard.currentId !== id) return;
    // What the plan had before is no fault of the file.
    this.weatherProblem = fault && fault.message !== problem?.message ? fault : null;
    if (this.weatherProblem) return;
    await this.#useRecord(record);
    if (id) await this.yard.keepFile(id, record);
    this.change(withRecord);
  }

  async #useRecord(record: RecordFile | null): Promise<void> {
    this.#record = record;
    if (record) await this.model.keepFile(record);
  }

  /** The season of any hive of the yard; throws a `ProblemError` where it has none. */
  async seasonOf(hive: Pick<Hive, 'id' | 'scenario' | 'recordName'>): Promise<SeasonView> {
    const { catalogue } = this;
    if (!catalogue) throw pageProblem(text().page.notThere);
    const files = hive.recordName ? await this.yard.filesOf(hive.id) : [];
    return new SeasonView(await this.model.runOther(hive.scenario, files, this.units), catalogue);
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

  /** What the open hive is called. */
  get hiveName(): string {
    return text().plans.called(this.yard.current?.name ?? this.shown?.name ?? '');
  }

  /** Asks again for everything that the model says: the language of the page has changed. */
  async retell(): Promise<void> {
    if (this.yard.news?.kind === 'opened') this.yard.news = null;
    const { catalogue } = await this.model.catalogue();
    this.catalogue = catalogue;
    await this.#run();
    const { judge, shown } = this;
    if (!shown) return;
    if (judge.verdict) await judge.judge(shown);
    if (judge.list) await judge.next(shown, judge.list.from, this.hiveName);
  }

  hideExpected(hidden: boolean): void {
    this.expectedHidden = hidden;
    this.#keepView();
  }

  /** Takes the plan that a text has become. */
  async #read(scenario: Scenario): Promise<void> {
    this.past.keep(this.scenario, 'text');
    await this.#take(scenario, true);
  }

  async #take(scenario: Scenario, fromText = false): Promise<void> {
    const before = this.scenario?.start.date;
    if (before && before !== scenario.start.date) this.day += dayNumber(scenario.start.date) - dayNumber(before) || 0;
    this.scenario = scenario;
    const run = this.#run();
    if (!fromText) void this.file.follow(scenario);
    this.unkept = true;
    // Kept once it is drawn, so that a drag is not held up; soon in any case: a page may be closed at any moment.
    await Promise.race([run, new Promise((resolve) => setTimeout(resolve, KEEP_WITHIN_MS))]);
    this.#keep();
    this.unkept = false;
    await run;
  }

  async #run(): Promise<void> {
    const { scenario } = this;
    if (!scenario) return;
    const twin = twinOf(scenario, this.twinKind, this.kept, this.yard.hives);
    try {
      const asked = this.#dayWithin(dayNumber(scenario.start.date), dayNumber(scenario.until));
      const answer = await this.model.run(scenario, twin, asked, this.units);
      const catalogue = this.catalogue ?? (await this.#catalogue);
      if (!answer || !catalogue) return;
      this.plan = new SeasonView(answer.plan, catalogue);
      this.twin = answer.twin && new SeasonView(answer.twin, catalogue);
      this.shown = scenario;
      this.shownTwin = twin;
      this.problem = null;
      this.twinProblem = answer.twinProblem;
      this.day = this.#dayWithin(this.plan.first, this.plan.last);
      void this.#draw();
      if (this.day === asked) this.story = answer.story;
      else await this.#tell();
      // After the page is drawn: the season itself never waits for its bands.
      if (this.crowd.of !== scenario) void tick().then(() => this.crowd.follow(scenario));
    } catch (fault) {
      this.problem = problemOf(fault);
    }
    await measureRedrawn();
  }

  /** The chosen day; the one that is shown first where a season does not have it. */
  #dayWithin(first: number, last: number): number {
    return this.day >= first && this.day <= last ? this.day : Math.min(first + FIRST_SHOWN, last);
  }

  async #tell(): Promise<void> {
    const answer = await this.model.tell(this.day, this.units);
    if (answer) this.story = answer.story;
  }

  async #draw(): Promise<void> {
    const answer = this.shown && (await this.model.draw(this.shown, this.day));
    if (answer) this.cells = keepingAlike(this.cells, answer.cells);
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
