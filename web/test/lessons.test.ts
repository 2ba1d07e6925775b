import { beforeAll, describe, expect, it } from 'vitest';
import { compared, type Facts, factsOf, judged, lastOffset, ranked, toldOf } from '../src/lessons/facts';
import { altered, begun, type Lesson, lessonCalled, LESSONS, type LessonName } from '../src/lessons/lessons';
import { edited } from '../src/plan';
import { SeasonView } from '../src/season';
import { lessons } from '../src/text/en/lessons';
import type { Change } from '../src/lessons/lessons';
import { catalogue, open } from '../src/wasm/sim_wasm.js';
import { explorer } from './door';

const model = explorer();
const { words } = lessons;

function season(lesson: Lesson, change: Change): SeasonView {
  const scenario = open(new TextEncoder().encode(lesson.scenario));
  return new SeasonView(model.run('lesson', JSON.stringify(edited(scenario, change))), catalogue());
}

function lived(name: LessonName) {
  const lesson = lessonCalled(name) as Lesson;
  const told = (change: Change, key: number): Facts => factsOf(season(lesson, change), lesson.drawn, key);
  return {
    lesson,
    base: told(begun(lesson), lesson.key),
    after: told(altered(lesson), lesson.asked),
    peers: (lesson.peers ?? []).map((peer) => season(lesson, peer)),
  };
}

describe.each(LESSONS.map((lesson) => [lesson.name, lesson] as const))('the lesson %s', (_, lesson: Lesson) => {
  it('has its days inside its season, and an axis that holds every line', () => {
    for (const change of [begun(lesson), altered(lesson)]) {
      const run = season(lesson, change);
      expect(lastOffset(lesson.drawn)).toBeLessThan(run.days);
      const { highest } = factsOf(run, lesson.drawn, lesson.key);
      expect(highest.value).toBeLessThanOrEqual(lesson.drawn.top);
    }
    // The change is asked about on a day on which it shows.
    const [before, after] = [begun(lesson), altered(lesson)].map((change) => season(lesson, change).column(lesson.drawn.column)[lesson.asked]) as [number, number];
    expect(compared(after, before)).not.toBe('same');
    for (const offset of [lesson.key, lesson.asked]) {
      expect(offset).toBeGreaterThan(lesson.drawn.from);
      expect(offset).toBeLessThanOrEqual(lastOffset(lesson.drawn));
    }
  });
});

describe.each(LESSONS.map((lesson) => [lesson.name, lesson] as const))('the words of %s', (name, lesson: Lesson) => {
  it('are whole sentences about the season that was run', () => {
    const { told, ask, note } = words[name];
    const said = told(toldOf(factsOf(season(lesson, begun(lesson)), lesson.drawn, lesson.key), lesson.drawn));
    if (name !== 'in-step') expect(said).toMatch(/^[A-Z].*\.$/);
    expect(said).not.toMatch(/null|undefined|NaN/);
    expect(note).toMatch(/\.$/);
    expect(ask.length).toBeGreaterThanOrEqual(2);
    for (const question of ask) expect(question).toMatch(/[?.]$/);
  });
});

describe('a line beside the season', () => {
  const lesson = lessonCalled('the-dip') as Lesson;
  const { drawn, key } = lesson;
  const run = season(lesson, begun(lesson));
  const model = Array.from({ length: drawn.points }, (_, i) => run.column(drawn.column)[drawn.from + drawn.every * (i + 1)] as number);

  it('is nowhere away from itself', () => {
    const { off, mean, came } = judged(model, run, drawn, key);
    expect(off).toBeCloseTo(0);
    expect(mean).toBeCloseTo(0);
    expect(came).toBe(run.column(drawn.column)[key]);
  });

  it('is away by what was drawn too high, on the day and on average', () => {
    const { off, mean } = judged(model.map((value) => value + 700), run, drawn, key);
    expect(off).toBeCloseTo(700);
    expect(mean).toBeCloseTo(700);
  });

  it('has its lowest point on the start where it only rises', () => {
    expect(judged(model.map((_, i) => 20_000 + i), run, drawn, key).lowest.day).toBe(run.first + drawn.from);
  });
});

describe('what the lessons teach is what the model does', () => {
  let now: ReturnType<typeof lived>;
  const teaching = (name: LessonName, test: () => void) =>
    describe(name, () => {
      beforeAll(() => {
        now = lived(name);
        if (process.env.LOOK) console.log(name, JSON.stringify({ base: now.base, after: now.after }, null, 1).replaceAll(/\n\s+/g, ' '));
      });
      it('shows it', test);
    });

  teaching('the-dip', () => {
    const { base, after } = now;
    expect(base.key.value).toBeLessThan(0.8 * base.start.value);
    expect(base.firstYoung).toBeGreaterThan(base.dayOf(20));
    expect(base.lowest.day).toBeGreaterThanOrEqual(base.firstYoung as number);
    expect(base.back).toBeLessThan(base.dayOf(49));
    expect(compared(after.key.value as number, base.key.value)).toBe('fewer');
  });
  teaching('rain-and-feed', () => {
    expect(now.base.key.value).toBeGreaterThan(5000);
    expect(now.after.key.value).toBeLessThan(1);
  });
  teaching('comb-is-the-brake', () => {
    // What the title says: on more days than all other brakes together.
    const { days, cells } = toldOf(now.base, now.lesson.drawn);
    expect(cells).toBeGreaterThan(days / 2);
    expect(now.after.braked.empty_cells).toBeUndefined();
    expect(now.after.key.value).toBeGreaterThan(1.05 * now.base.key.value);
  });
  teaching('late-then-fast', () => {
    expect(now.base.at('adult_bees', 28)).toBeLessThan(now.base.start.value);
    expect(now.base.key.value).toBeGreaterThan(3 * now.base.start.value);
    // Late, then fast, and nearly straight while the queen lays all she can.
    expect(now.base.back).toBeGreaterThan(now.base.dayOf(28));
    expect(now.base.doubled).toBeLessThan((now.base.back as number) + 35);
    const gains = [49, 56, 63, 70, 77, 84, 91].map((day) => now.base.at('adult_bees', day) - now.base.at('adult_bees', day - 7));
    const mean = gains.reduce((sum, gain) => sum + gain) / gains.length;
    for (const gain of gains) expect(Math.abs(gain - mean)).toBeLessThan(mean / 3);
    expect(now.after.key.value).toBeGreaterThan(now.base.at('adult_bees', 42));
  });
  teaching('drone-frame', () => {
    expect(now.after.key.value).toBeGreaterThan(1.5 * now.base.key.value);
  });
  teaching('one-mite-in-april', () => {
    // As its question says, and as it is written.
    expect(now.base.start.value.toFixed(1)).toBe('1.0');
    expect(now.base.key.value).toBeGreaterThan(10);
    expect(now.after.key.value).toBeLessThan(now.base.key.value / 2);
  });
  teaching('winter-bees', () => {
    expect(now.after.key.value).toBeLessThan(0.7 * now.base.key.value);
  });
  teaching('in-step', () => {
    const bees = now.peers.map((peer) => peer.column('adult_bees')[now.lesson.key] as number);
    expect(ranked(now.base.key.value, bees).stands).toBe('same');
    expect(ranked(now.after.key.value as number, bees).stands).toBe('fewer');
  });
});

describe('rain', () => {
  it('leaves more bees for some weeks and fewer later, as the lesson says', () => {
    const [rain, dry] = (['rain-and-feed', 'the-dip'] as const).map((name) => {
      const lesson = lessonCalled(name) as Lesson;
      return season(lesson, begun(lesson)).column('adult_bees');
    }) as [Float64Array, Float64Array];
    for (const week of [3, 4]) expect(rain[7 * week]).toBeGreaterThan(dry[7 * week] as number);
    expect(rain[7 * 9]).toBeLessThan(dry[7 * 9] as number);
  });
});
