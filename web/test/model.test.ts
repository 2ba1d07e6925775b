import { describe, expect, it } from 'vitest';
import { Model } from '../src/model';
import { twinOf } from '../src/plan';
import type { Question } from '../src/protocol';
import type { Scenario } from '../src/scenario';
import { scenario } from './door';

const named = (name: string): Scenario => ({ ...scenario('wet-spring.toml'), name });

/** A worker that remembers what it was asked, and answers when it is told. */
class Asked {
  questions: Question[] = [];
  #answer: (event: { data: unknown }) => void = () => {};
  addEventListener(type: string, listener: (event: { data: unknown }) => void): void {
    if (type === 'message') this.#answer = listener;
  }
  postMessage(question: Question): void {
    this.questions.push(question);
  }
  terminate(): void {}
  /** What was asked, with the plan's name where there is one. */
  get kinds(): string[] {
    return this.questions.map((question) => ('plan' in question && typeof question.plan === 'object' ? `${question.kind} ${question.plan.name}` : question.kind));
  }
  async answer(what: object = {}): Promise<void> {
    for (const { id, kind } of this.questions.splice(0)) this.#answer({ data: { id, kind, ...what } });
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
}

function model() {
  const workers: Asked[] = [];
  const start = () => {
    workers.push(new Asked());
    return workers.at(-1) as unknown as Worker;
  };
  const files: string[] = [];
  const other = { keepFile: (name: string) => Promise.resolve(void files.push(name)) };
  return { made: new Model(start, () => {}, {}, [other]), workers, files };
}

const rest = () => new Promise((resolve) => setTimeout(resolve, 0));

describe('the model', () => {
  it('is asked for the newest plan only, and says so to those in between', async () => {
    const { made, workers } = model();
    const [page] = workers as [Asked];
    const asked = ['one', 'two', 'three'].map((name) => made.run(named(name), null, 15_500, 'metric'));
    await rest();
    expect(page.kinds).toEqual(['run one']);
    await page.answer();
    expect(page.kinds).toEqual(['run three']);
    await page.answer();
    const [one, two, three] = await Promise.all(asked);
    expect([one === null, two, three === null]).toEqual([false, null, false]);
  });

  it('draws combs beside the seasons, so that neither waits for the other', async () => {
    const { made, workers } = model();
    const [page, drawer] = workers as [Asked, Asked];
    void made.run(named('one'), null, 15_500, 'metric');
    void made.draw(named('one'), 15_500);
    void made.tell(15_500, 'metric');
    await rest();
    expect([page.kinds.toSorted(), drawer.kinds]).toEqual([['run one', 'story'], ['cells']]);
    expect(page.questions.find(({ kind }) => kind === 'run')).toMatchObject({ date: '2012-06-09' });
    expect(drawer.questions[0]).toMatchObject({ date: '2012-06-09' });
  });

  it('starts the workers for other hives and for trials when they are needed, with the files that came before', async () => {
    const { made, workers, files } = model();
    const kept = made.keepFile({ name: 'mine.csv', bytes: new Uint8Array(3) });
    expect(workers.map(({ kinds }) => kinds)).toEqual([['keepFile'], ['keepFile']]);
    for (const worker of workers) await worker.answer();
    await kept;
    expect(files).toEqual(['mine.csv']);
    const outcome = made.runOther(named('next door'), [{ name: 'theirs.csv', bytes: new Uint8Array(3) }], 'metric');
    await rest();
    const lister = workers[2] as Asked;
    expect(lister.kinds).toEqual(['keepFile', 'keepFile', 'run next door']);
    await lister.answer({ plan: 'a season' });
    expect(await outcome).toBe('a season');
    expect(made.trier.client).toBe(made.trier.client);
    expect(workers[3]?.kinds).toEqual(['keepFile']);
  });

  it('says what is wrong with a plan, or nothing', async () => {
    const { made, workers } = model();
    const [page] = workers as [Asked];
    const right = made.problemWith(named('right'));
    await page.answer({ text: '' });
    expect(await right).toBeNull();
    const wrong = made.problemWith(named('wrong'));
    const problem = { kind: 'scenario', place: 'until', message: 'too early', language: 'en', excerpt: null };
    await page.answer({ kind: 'problem', problem });
    expect(await wrong).toEqual(problem);
  });
});

describe('the season of a first visit', () => {
  it('is marked, as it was read or kept, so that it does not wait for the rest of the model', async () => {
    const { made, workers } = model();
    const [page, drawer] = workers as [Asked, Asked];
    const marks = async (plan: Scenario, twin: Scenario | null) => {
      void made.run(plan, twin, 15_500, 'metric');
      void made.draw(plan, 15_500);
      await rest();
      const questions = [...page.questions, ...drawer.questions];
      await page.answer();
      await drawer.answer();
      return questions.map((question) => 'first' in question && question.first);
    };
    const plan = structuredClone(scenario('wet-spring.toml'));
    const twin = twinOf(plan, 'feed', null);
    expect(await marks(plan, twin)).toEqual([true, true]);
    expect(await marks(plan, null)).toEqual([false, true]);
    expect(await marks(named('another'), twin)).toEqual([false, false]);
  });
});
