/** The axis of dates: which days have a figure, which the name of a month, and where the tab with the chosen date stands. */
import { dateParts } from '../calendar';
import { type DayScale, dayWidth, dayX, labelWidth } from '../scales';
import { text } from '../text/index.svelte';
import type { StripLayout } from './layout';

export interface Mark {
  day: number;
  text: string;
  /** The first of a month. */
  month: boolean;
}

/** From left to right, px. */
export interface TabPlace {
  left: number;
  width: number;
}

/** The tab over the line of the chosen day, inside of the strip's width. */
export function tabPlace(x: number, layout: StripLayout, width: number): TabPlace {
  const wide = (layout.narrow ? 150 : 112) * (layout.label > 16 ? 1.5 : 1);
  return { left: Math.min(Math.max(x - wide / 2, 0), Math.max(0, width - wide)), width: wide };
}

/**
 * Days, or every so many weeks the weekday of the season's `first` day, as figures; the first of each month in words. `larger`: how much larger
 * than usual the type is; `tab`: where no words can stand.
 */
export function axisMarks(first: number, scale: DayScale, layout: StripLayout, larger: number, tab: TabPlace | null): Mark[] {
  const marks: Mark[] = [];
  const step = dayWidth(scale);
  const every = [1, 7, 14, 28].find((days) => days * step > (layout.narrow ? 34 : 40) * larger) ?? 56;
  for (let day = scale.first; day < scale.first + scale.days; day += 1) {
    const { date, month, year } = dateParts(day);
    if (date === 1) marks.push({ day, text: monthName(month, year, scale, layout), month: true });
    else if ((day - first) % every === 0) marks.push({ day, text: String(date), month: false });
  }
  const months = marks.filter(({ month }) => month).map(({ day }) => dayX(scale, day));
  // A figure beside a month's name would run into it, both into the tab with the date.
  return marks.flatMap((mark) => {
    const { day, text: name, month } = mark;
    const x = dayX(scale, day);
    const wide = labelWidth(name, month ? layout.label : layout.figure);
    const from = month ? x - step / 2 + 5 : x - wide / 2;
    if (tab && from + wide > tab.left - 4 && from < tab.left + tab.width + 4) return month ? [{ ...mark, text: '' }] : [];
    if (month) return [mark];
    const free = !layout.narrow && months.every((at) => x < at - 14 || x > at + labelWidth(text().calendar.months[8] ?? '', layout.label) + 8);
    return free ? [mark] : [];
  });
}

/** As much of a month's name as there is room for; over most of a year its letter, or the year that begins. */
function monthName(month: number, year: number, scale: DayScale, layout: StripLayout): string {
  const name = text().calendar.months[month] ?? '';
  const room = 30 * dayWidth(scale) - 8;
  if (scale.days > 250) return month === 0 ? String(year) : (name[0] ?? '');
  return labelWidth(name, layout.label) < room ? name : name.slice(0, 3);
}
