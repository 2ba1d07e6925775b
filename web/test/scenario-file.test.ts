import { describe, expect, it } from 'vitest';
import { ProblemError } from '../src/client';
import { ScenarioFile } from '../src/change/scenario-file.svelte';
import type { Scenario } from '../src/scenario';
import { scenario } from './door';

const plan = scenario('wet-spring.toml');
const fault = { kind: 'scenario', place: 'line 1', message: 'not a plan', language: 'en', excerpt: null } as const;

/** Reads every text that begins with `plan`, in its own time. */
function file() {
  const told: string[] = [];
  const waiting: (() => void)[] = [];
  const read = async (file: Uint8Array | string): Promise<Scenario> => {
    const text = typeof file === 'string' ? file : new TextDecoder().decode(file);
    await new Promise<void>((resolve) => waiting.push(resolve));
    if (!text.startsWith('plan')) throw new ProblemError(fault);
    return { ...plan, name: text };
  };
  const write = ({ name }: Scenario) => Promise.resolve(`text of ${name}`);
  const opened = new ScenarioFile(
    { read, write },
    {
      read: ({ name }) => Promise.resolve(void told.push(`read: ${name}`)),
      written: () => void told.push('written'),
    },
  );
  /** Lets the model answer, until nothing is asked any more. */
  const answer = async () => {
    for (let i = 0; i < 10; i += 1) {
      waiting.shift()?.();
      await new Promise((resolve) => setTimeout(resolve, 0));
    }
  };
  return { opened, told, answer };
}

const bytes = (text: string) => new TextEncoder().encode(text);

describe('the text of a plan', () => {
  it('stays with its fault where it cannot be read, also when the plan changes elsewhere', async () => {
    const { opened, told } = file();
    opened.refuse(bytes('shopping list'), fault);
    expect(opened.problem).toEqual(fault);
    expect(opened.faulty).toBe('shopping list');
    expect(told).toEqual(['written']);
    await opened.follow(plan);
    expect(opened.text).toBe('shopping list');
    await opened.replaceWith(plan);
    expect(opened.faulty).toBeNull();
    expect(opened.text).toBe(`text of ${plan.name}`);
  });

  it('is taken as it is typed: the newest of what was asked', async () => {
    const { opened, told, answer } = file();
    const typed = ['p', 'pl', 'plan', 'plan a'].map((text) => opened.type(text));
    await answer();
    await Promise.all(typed);
    expect(told.filter((what) => what !== 'written')).toEqual(['read: plan a']);
    expect(opened.faulty).toBeNull();
  });

  it('follows the plan, and is cleared for another hive', async () => {
    const { opened, answer } = file();
    await opened.follow(plan);
    expect(opened.text).toBe(`text of ${plan.name}`);
    const typing = opened.type('nonsense');
    await answer();
    await typing;
    expect(opened.faulty).toBe('nonsense');
    opened.clear();
    expect([opened.text, opened.faulty]).toEqual(['', null]);
  });
});
