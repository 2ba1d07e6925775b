import { expect, it } from 'vitest';
import type { Client } from '../src/client';
import type { Scenario } from '../src/scenario';
import { Trials } from '../src/trials/trials.svelte';

it('a window that is asked for while another is worked out is not lost to the bands of the other', async () => {
  const asked: string[] = [];
  const client = {
    ask: (_: string, { scenario, members }: { scenario: Scenario; members: number }) => {
      asked.push(`${scenario.name} ${members}`);
      return new Promise((resolve) => setTimeout(() => resolve({ frame: { window: { plan: scenario.name, members } } }), 5));
    },
  } as unknown as Client;
  const trials = new Trials(() => client);
  const plan = (name: string) => ({ name }) as Scenario;
  const older = trials.findWindow(plan('older'), null);
  await Promise.resolve();
  const newer = trials.findWindow(plan('newer'), null);
  await Promise.all([older, newer]);
  expect(trials.frame?.window).toMatchObject({ plan: 'newer' });
  expect(asked.at(-1)).toMatch(/^newer [1-9]/);
});
