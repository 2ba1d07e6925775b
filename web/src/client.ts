/**
 * The page's end of the line to the worker.
 */
import { type Answer, asProblem, type Kind, type Question, type Questions } from './protocol';
import { language, text } from './text/index.svelte';
import type { Problem } from './types';

/** The part of `Worker` that is used; tests bring their own. */
export interface Port {
  postMessage(message: unknown, transfer?: Transferable[]): void;
  addEventListener(type: 'message', listener: (event: { data: Answer }) => void): void;
  addEventListener(type: 'error' | 'messageerror', listener: (event: { message?: string }) => void): void;
}

/** A problem of the model, thrown. */
export class ProblemError extends Error {
  constructor(readonly problem: Problem) {
    super(problem.place ? `${problem.place}: ${problem.message}` : problem.message);
    this.name = 'ProblemError';
  }
}

/** A problem in the page's own words, to be thrown. */
export function pageProblem(message: string): ProblemError {
  return new ProblemError({ kind: 'program', place: '', message, language: language(), excerpt: null });
}

interface Waiting {
  settle: (answer: Answer) => void;
  fail: (fault: Error) => void;
  progress?: (done: number) => void;
}

export class Client {
  #port: Port;
  #nextId = 1;
  #waiting = new Map<number, Waiting>();
  #dead: Error | null = null;

  /** `onFatal` is told once when the model is gone for good. */
  constructor(port: Port, onFatal: (message: string) => void) {
    this.#port = port;
    const die = (message: string) => {
      if (this.#dead) return;
      this.#dead = new Error(message);
      for (const { fail } of this.#waiting.values()) fail(this.#dead);
      this.#waiting.clear();
      onFatal(message);
    };
    port.addEventListener('message', ({ data }) => {
      if (data.kind === 'fatal') {
        die(data.unloaded ? text().page.notLoaded(data.message) : data.message);
        return;
      }
      const waiting = this.#waiting.get(data.id);
      if (data.kind === 'progress') {
        waiting?.progress?.(data.done);
        return;
      }
      this.#waiting.delete(data.id);
      if (data.kind === 'problem') waiting?.fail(new ProblemError(data.problem));
      else if (data.kind === 'unloaded') waiting?.fail(pageProblem(text().page.restNotLoaded(data.message)));
      else waiting?.settle(data);
    });
    port.addEventListener('error', ({ message }) => die(message || text().page.notStarted));
    port.addEventListener('messageerror', () => die(text().page.notReadable));
  }

  ask<K extends Kind>(kind: K, what: Questions[K]['ask'], transfer?: Transferable[], progress?: (done: number) => void): Promise<Questions[K]['answer']> {
    if (this.#dead) return Promise.reject(this.#dead);
    const id = this.#nextId++;
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, {
        settle: (answer) => resolve(answer as Questions[K]['answer']),
        fail: reject,
        progress,
      });
      this.#port.postMessage({ id, kind, language: language(), ...what } as unknown as Question, transfer);
    });
  }

  /** Keeps a weather file for the seasons to come. */
  async keepFile(name: string, file: Uint8Array): Promise<void> {
    await this.ask('keepFile', { name, file });
  }
}

/** A worker of its own for long work: ended when the work is given up, and started anew, with the weather files that it needs, when there is more. */
export class LongWorker {
  #start: () => Worker;
  #onFatal: (message: string) => void;
  #worker: Worker | null = null;
  #client: Client | null = null;
  #files = new Map<string, Uint8Array>();

  constructor(start: () => Worker, onFatal: (message: string) => void) {
    this.#start = start;
    this.#onFatal = onFatal;
  }

  async keepFile(name: string, file: Uint8Array): Promise<void> {
    this.#files.set(name, file);
    await this.#client?.keepFile(name, file);
  }

  get client(): Client {
    if (!this.#client) {
      this.#worker = this.#start();
      this.#client = new Client(this.#worker, this.#onFatal);
      for (const [name, file] of this.#files) void this.#client.keepFile(name, file);
    }
    return this.#client;
  }

  end(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.#client = null;
  }
}

/** What was thrown, as a problem in words. */
export function problemOf(fault: unknown): Problem {
  return fault instanceof ProblemError ? fault.problem : asProblem(fault);
}

/**
 * One task at a time, and of those that come meanwhile only the newest: a dragged slider never queues up.
 * The tasks in between resolve to `null` without having been started.
 */
export class Latest {
  #busy = false;
  #next: { task: () => Promise<void>; drop: () => void } | null = null;

  run<T>(task: () => Promise<T>): Promise<T | null> {
    return new Promise((resolve, reject) => {
      const entry = { task: () => task().then(resolve, reject), drop: () => resolve(null) };
      if (this.#busy) {
        this.#next?.drop();
        this.#next = entry;
      } else {
        void this.#start(entry.task);
      }
    });
  }

  async #start(task: () => Promise<void>): Promise<void> {
    this.#busy = true;
    await task();
    this.#busy = false;
    const next = this.#next;
    this.#next = null;
    if (next) void this.#start(next.task);
  }
}
