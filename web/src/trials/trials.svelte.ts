/**
 * Moves tried over and over: the plan against its twin in many seasons, and the window of a drone frame. They have
 * a worker of their own, so that the page itself never waits for them.
 */
import { type Client, Latest, problemOf } from '../client';
import type { Scenario } from '../scenario';
import type { FrameWindow, Problem, Trial, TrialDay } from '../types';
import type { UnitSystem } from '../units';
import type { MeasureName } from './difference';

/** Seasons that are lived twice. */
export const TRIAL_MEMBERS = 200;
/** Seasons behind the bands of a window. */
export const WINDOW_MEMBERS = 100;

export class Trials {
  /** What is compared, here and on the season strip. */
  measure = $state<MeasureName>('bees');
  trial = $state.raw<Trial | null>(null);
  /** The two that were tried. */
  of = $state.raw<{ plan: Scenario; twin: Scenario } | null>(null);
  trialProblem = $state.raw<Problem | null>(null);
  day = $state.raw<TrialDay | null>(null);
  frame = $state.raw<FrameWindow | null>(null);
  frameProblem = $state.raw<Problem | null>(null);

  /** The last safe day of the drone frame that is given on `given`; `null` where it has none. */
  due = $state.raw<{ of: Scenario; given: string | null; lastSafe: string | null } | null>(null);
  /** How often somebody was led to the window of the drone frame. */
  led = $state(0);

  #client: () => Client;
  #trials = new Latest();
  #days = new Latest();
  #windows = new Latest();
  /** How many windows were asked for. */
  #asked = 0;
  #dues = new Latest();

  /** `client`: the worker, which starts when it is first asked for. */
  constructor(client: () => Client) {
    this.#client = client;
  }

  async compare(plan: Scenario, twin: Scenario): Promise<void> {
    try {
      const answer = await this.#trials.run(() => this.#client().ask('compare', { plan, twin, members: TRIAL_MEMBERS }));
      if (!answer) return;
      this.trial = answer.trial;
      this.of = { plan, twin };
      this.trialProblem = null;
    } catch (fault) {
      this.trial = null;
      this.of = null;
      this.day = null;
      this.trialProblem = problemOf(fault);
    }
  }

  /** Tells one date of the last trial, the two called by these names. */
  async tell(date: string, plan: string, twin: string, units: UnitSystem): Promise<void> {
    const answer = await this.#days.run(() => this.#client().ask('trialOn', { date, plan, twin, units })).catch(() => null);
    if (answer) this.day = answer.day;
  }

  /** When a drone frame must be out, in expected values. */
  async findDue(scenario: Scenario, given: string | null): Promise<void> {
    if (this.due?.of === scenario && this.due.given === given) return;
    const answer = await this.#dues.run(() => this.#client().ask('window', { scenario, date: given, members: 0 })).catch(() => null);
    this.due = answer && { of: scenario, given, lastSafe: answer.frame.window.last_safe };
  }

  /** The window in expected values, and with its bands a moment later. */
  async findWindow(scenario: Scenario, date: string | null): Promise<void> {
    this.#asked += 1;
    const asked = this.#asked;
    for (const members of [0, WINDOW_MEMBERS]) {
      // The bands of an older question would take the place of a newer one that waits.
      if (asked !== this.#asked) return;
      try {
        const answer = await this.#windows.run(() => this.#client().ask('window', { scenario, date, members }));
        if (!answer || asked !== this.#asked) return;
        this.frame = answer.frame;
        this.frameProblem = null;
      } catch (fault) {
        if (asked !== this.#asked) return;
        this.frame = null;
        this.frameProblem = problemOf(fault);
        return;
      }
    }
  }
}
