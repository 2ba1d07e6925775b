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

/** So near before a month's name a figure is read with it, px. */
const BESIDE = 24;

/** From left to right, px. */
export interface TabPlace {
  left: number;
  width: number;
}

/** How much wider bold letters are; what the date has about it, and a button for a day on either side of it on a narrow strip, px. */
const BOLD = 1.1;
const TAB_MARGIN = 22;
const TAB_STEP = 44;

/** The tab over the line of the chosen day, inside of the strip's width. */
export function tabPlace(x: number, layout: StripLayout, width: number, date = ''): TabPlace {
  const usual = layout.narrow ? 216 : 112 * layout.larger;
  const words = labelWidth(date, layout.label) * BOLD + TAB_MARGIN * layout.larger + (layout.narrow ? 2 * TAB_STEP : 0);
  const wide = Math.min(width, Math.max(usual, words));
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
  const begins = (day: number) => dayX(scale, day) - step / 2;
  // On a narrow strip it stands above.
  const hidden = (from: number, wide: number) => tab !== null && !layout.narrow && from + wide > tab.left - 4 && from < tab.left + tab.width + 4;
  const monthMarks = marks.filter(({ month }) => month);
  // The year stands once, with the first month that has room for it.
  for (const [i, mark] of monthMarks.entries()) {
    const withYear = `${mark.text} ${dateParts(mark.day).year}`;
    const next = monthMarks[i + 1];
    const end = next ? begins(next.day) : scale.left + scale.width;
    const wide = labelWidth(withYear, layout.label);
    if (scale.days > 250 || begins(mark.day) + 5 + wide + 8 > end || hidden(begins(mark.day) + 5, wide)) continue;
    mark.text = withYear;
    break;
  }
  const names = monthMarks.map(({ day, text: name }) => ({ from: begins(day), to: begins(day) + 5 + labelWidth(name, layout.label) }));
  // A figure beside a month's name would be read with it (`30 August`). The tab with the date hides what runs into it.
  return marks.flatMap((mark) => {
    const { day, text: name, month } = mark;
    const x = dayX(scale, day);
    const wide = labelWidth(name, month ? layout.label : layout.figure);
    const from = month ? begins(day) + 5 : x - wide / 2;
    if (hidden(from, wide)) return month ? [{ ...mark, text: '' }] : [];
    if (month) return [mark];
    const free = !layout.narrow && names.every((name) => from + wide < name.from - BESIDE * larger || from > name.to + 8);
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
