/**
 * Where things stand on the chart of a lesson, in pixels of the page: what is drawn, and back from a finger to a point.
 */
import { dayNumber, shortDate } from '../calendar';
import { labelWidth, ticks } from '../scales';
import { lessonTexts } from '../text/lessons';
import { figure } from '../units';
import { settled } from './drawing';
import { lastOffset } from './facts';
import type { Drawn } from './lessons';

/** A day whose name is as long as any. */
const LONGEST = dayNumber('2026-09-30');

export interface Chart {
  width: number;
  height: number;
  left: number;
  right: number;
  top: number;
  bottom: number;
  /** Size of the figures on the axes. */
  size: number;
  /** Whether the names of the lines have room beside the chart; else they stand above it. */
  beside: boolean;
  marks: number[];
  /** Of every how many points the date is written. */
  every: number;
  x: (offset: number) => number;
  y: (value: number) => number;
}

/** `named`: whether names of lines are to stand beside the chart, where it is wide enough for that. */
export function chartOf(width: number, height: number, size: number, drawn: Drawn, named = true): Chart {
  const marks = ticks(drawn.top, height > 260 ? 6 : 4).filter((mark) => mark <= drawn.top);
  const left = Math.max(...marks.map((mark) => labelWidth(figure(mark), size))) + 12;
  // Half of a date at each end, but no room for the one before the axis: the figures are there.
  const date = labelWidth(shortDate(LONGEST), size);
  const gutter = named && width > 560 ? labelWidth(lessonTexts().model, size * 1.1) + 12 : 0;
  const right = width - Math.max(18, gutter);
  // Where the names have no room beside the lines they stand in a row of their own above them.
  const top = size * (named && gutter === 0 ? 2.8 : 1.3) + 12;
  const bottom = height - size - 14;
  const step = (right - left) / drawn.points;
  return {
    width,
    height,
    left,
    right,
    top,
    bottom,
    size,
    beside: gutter > 0,
    marks,
    every: Math.max(1, Math.ceil((date + 4) / step)),
    x: (offset) => left + ((offset - drawn.from) / (lastOffset(drawn) - drawn.from)) * (right - left),
    y: (value) => bottom - (value / drawn.top) * (bottom - top),
  };
}

/** The point under a place of the chart, and the value there. */
export function pointAt(chart: Chart, drawn: Drawn, x: number, y: number): { index: number; value: number } {
  const step = (chart.right - chart.left) / drawn.points;
  const index = Math.min(Math.max(Math.round((x - chart.left) / step) - 1, 0), drawn.points - 1);
  const share = (chart.bottom - y) / (chart.bottom - chart.top);
  return { index, value: settled(share * drawn.top, drawn.step, drawn.top) };
}

/** Moves heights apart, in their order, until none is nearer to the next than `gap`; all stay between `top` and `bottom`. */
export function apart(heights: readonly number[], gap: number, top: number, bottom: number): number[] {
  const order = heights.map((_, i) => i).toSorted((a, b) => (heights[a] as number) - (heights[b] as number));
  const placed = [...heights];
  let least = top;
  for (const i of order) {
    placed[i] = Math.max(placed[i] as number, least);
    least = (placed[i] as number) + gap;
  }
  let most = bottom;
  for (const i of order.toReversed()) {
    placed[i] = Math.min(placed[i] as number, most);
    most = (placed[i] as number) - gap;
  }
  return placed;
}
