/** The plan as the text of a scenario file, each following the other; what was typed stays, also where it has a fault. */
import { Latest, problemOf } from '../client';
import type { Model } from '../model';
import type { Scenario } from '../scenario';
import type { Problem } from '../types';

/** Who is told what came of a text. */
export interface Reader {
  /** It has become this plan. */
  read(scenario: Scenario): Promise<void>;
  /** It has been written, whether it can be read or not. */
  written(): void;
}

export class ScenarioFile {
  text = $state('');
  problem = $state.raw<Problem | null>(null);

  #model: Pick<Model, 'read' | 'write'>;
  #reader: Reader;
  #texts = new Latest();

  constructor(model: Pick<Model, 'read' | 'write'>, reader: Reader) {
    this.#model = model;
    this.#reader = reader;
  }

  /** The text, where it cannot be read. */
  get faulty(): string | null {
    return this.problem ? this.text : null;
  }

  /** Starts with nothing: another hive is being opened. */
  clear(): void {
    this.problem = null;
    this.text = '';
  }

  /** Shows a file that cannot be read, with its fault. */
  refuse(file: Uint8Array, problem: Problem): void {
    this.text = new TextDecoder().decode(file);
    this.problem = problem;
    this.#reader.written();
  }

  /** Takes the text as it is being typed. */
  async type(text: string): Promise<void> {
    this.text = text;
    const scenario = await this.#texts
      .run(() => this.#model.read(text))
      .catch((fault: unknown) => {
        this.problem = problemOf(fault);
        return null;
      });
    if (scenario && this.text === text) {
      this.problem = null;
      await this.#reader.read(scenario);
    }
    this.#reader.written();
  }

  /** Follows a plan that was changed elsewhere; a faulty text stays as it is. */
  async follow(scenario: Scenario): Promise<void> {
    if (this.problem) return;
    const text = await this.#texts.run(() => this.#model.write(scenario)).catch(() => null);
    if (text !== null && !this.problem) this.text = text;
  }

  /** Throws a faulty text away in favour of the plan that is drawn. */
  async replaceWith(scenario: Scenario): Promise<void> {
    this.problem = null;
    await this.follow(scenario);
  }
}
