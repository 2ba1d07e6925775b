/**
 * What was drawn in a lesson, kept while this tab is open: a way back, another lesson or a newer version of the
 * page must not take it. It is of no worth to anybody else, so it is no part of the yard.
 */
import { isObject } from '../yard/shape';
import { emptyLine, type Line } from './drawing';
import type { Lesson } from './lessons';

export interface Progress {
  line: Line;
  seen: boolean;
  altered: boolean;
}

const keyOf = ({ name }: Pick<Lesson, 'name'>) => `combcast lesson ${name}`;

export function keptProgress(lesson: Pick<Lesson, 'name' | 'drawn'>): Progress {
  const { points, top } = lesson.drawn;
  const fresh = { line: emptyLine(points), seen: false, altered: false };
  try {
    const kept: unknown = JSON.parse(sessionStorage.getItem(keyOf(lesson)) ?? 'null');
    if (!isObject(kept) || !Array.isArray(kept.line) || kept.line.length !== points) return fresh;
    const isPoint = (value: unknown) => value === null || (typeof value === 'number' && value >= 0 && value <= top);
    if (!kept.line.every(isPoint)) return fresh;
    const line = kept.line as Line;
    const seen = kept.seen === true && line.every((value) => value !== null);
    return { line, seen, altered: seen && kept.altered === true };
  } catch {
    return fresh;
  }
}

export function keepProgress(lesson: Pick<Lesson, 'name'>, progress: Progress): void {
  try {
    sessionStorage.setItem(keyOf(lesson), JSON.stringify(progress));
  } catch {
    // Full or forbidden: the drawing is there until the lesson is left.
  }
}
