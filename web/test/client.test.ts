import { describe, expect, it } from 'vitest';
import { Client, Latest, type Port, ProblemError } from '../src/client';
import type { Answer } from '../src/protocol';
import { language } from '../src/text/index.svelte';

class FakeWorker implements Port {
  asked: { id: number; kind: string }[] = [];
  #listeners = new Map<string, ((event: never) => void)[]>();
  postMessage(message: unknown): void {
    this.asked.push(message as { id: number; kind: string });
  }
  addEventListener(type: string, listener: (event: never) => void): void {
    this.#listeners.set(type, [...(this.#listeners.get(type) ?? []), listener]);
  }
  fire(type: string, event: unknown): void {
    for (const listener of this.#listeners.get(type) ?? []) listener(event as never);
  }
  answer(data: Answer): void {
    this.fire('message', { data });
  }
}

function connected() {
  const worker = new FakeWorker();
  const fatal: string[] = [];
  return { worker, fatal, client: new Client(worker, (message) => fatal.push(message)) };
}

describe('the line to the worker', () => {
  it('matches answers to questions by id, in any order', async () => {
    const { worker, client } = connected();
    const first = client.ask('save', { scenario: {} as never });
    const second = client.ask('save', { scenario: {} as never });
    const [a, b] = worker.asked.map(({ id }) => id) as [number, number];
    worker.answer({ id: b, kind: 'save', text: 'second' });
    worker.answer({ id: a, kind: 'save', text: 'first' });
    expect([(await first).text, (await second).text]).toEqual(['first', 'second']);
  });

  it('says in which language an answer’s words are wanted', () => {
    const { worker, client } = connected();
    void client.ask('story', { which: 'plan', date: '2012-05-10', units: 'metric' });
    expect(worker.asked[0]).toMatchObject({ kind: 'story', date: '2012-05-10', language: language() });
  });

  it('throws a problem with its place', async () => {
    const { worker, client } = connected();
    const asked = client.ask('save', { scenario: {} as never });
    const problem = { kind: 'scenario', place: 'until', message: 'too early', language: 'en', excerpt: null } as const;
    worker.answer({ id: 1, kind: 'problem', problem });
    await expect(asked).rejects.toThrow(ProblemError);
    await expect(asked).rejects.toThrow('until: too early');
  });

  it.each([
    ['a fatal message', (worker: FakeWorker) => worker.answer({ id: null, kind: 'fatal', message: 'gone' })],
    ['an error event', (worker: FakeWorker) => worker.fire('error', { message: 'gone' })],
  ])('fails every question, now and later, after %s', async (_, kill) => {
    const { worker, client, fatal } = connected();
    const waiting = client.ask('catalogue', {});
    kill(worker);
    kill(worker);
    await expect(waiting).rejects.toThrow('gone');
    await expect(client.ask('catalogue', {})).rejects.toThrow('gone');
    expect(fatal).toEqual(['gone']);
  });
});

describe('the latest wins', () => {
  it('starts one at a time, and of those that wait only the newest', async () => {
    const latest = new Latest();
    const started: number[] = [];
    const doors: (() => void)[] = [];
    const task = (n: number) => () => {
      started.push(n);
      return new Promise<number>((resolve) => doors.push(() => resolve(n)));
    };
    const results = [1, 2, 3, 4].map((n) => latest.run(task(n)));
    expect(started).toEqual([1]);
    doors[0]?.();
    expect(await results[0]).toBe(1);
    expect(await results[1]).toBeNull();
    expect(await results[2]).toBeNull();
    await Promise.resolve();
    expect(started).toEqual([1, 4]);
    doors[1]?.();
    expect(await results[3]).toBe(4);
  });

  it('goes on after a task that failed', async () => {
    const latest = new Latest();
    const failed = latest.run(() => Promise.reject(new Error('no')));
    const next = latest.run(() => Promise.resolve('yes'));
    await expect(failed).rejects.toThrow('no');
    expect(await next).toBe('yes');
  });
});
