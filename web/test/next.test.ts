import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dayNumber } from '../src/calendar';
import { byDate, upTo } from '../src/next/list';
import { de } from '../src/text/de';
import { en } from '../src/text/en';
import type { WhatNext } from '../src/types';
import type { VisitBook } from '../src/visits';
import { openVisits } from '../src/wasm/sim_wasm.js';
import { explorer, scenario, thrown } from './door';

const plan = JSON.stringify(scenario('wet-spring.toml'));
const [demo] = openVisits(readFileSync(new URL('../../scenarios/visits/alder-row-3.toml', import.meta.url)), 'alder-row-3.toml') as VisitBook[];
const between = (first: string, last: string) => `${first} to ${last}`;

function listOf(book: VisitBook, on?: string, language = 'en'): { list: WhatNext; told: number[] } {
  const told: number[] = [];
  const made = explorer();
  made.speak(language);
  const list = made.whatNext(plan, JSON.stringify(book), on, '2026-11-25', 200, (lived: number) => told.push(lived));
  return { list, told };
}

describe('what next', () => {
  it('says that mites were assumed where the plan does not say how many there are', () => {
    const { assumed_mites } = listOf({ visit: [] }, '2012-05-01').list;
    expect(assumed_mites).toBeGreaterThan(0);
    // The page names its own control, not the field of a file.
    for (const { bands } of [en, de]) expect(bands.assumedMites(String(assumed_mites))).toMatch(/“Start”|„Beginn“/);
  });

  it('says in words that colonies were lost before, and nothing where none was', () => {
    expect(listOf({ visit: [] }, '2012-05-01').list.left_out).toBeNull();
    const { list } = listOf({ visit: [] }, '2012-10-01', 'de');
    expect(list.left_out).toBe(`Vor diesem Tag eingegangen und nicht mitgezählt: ${200 - list.members} von 200 Völkern.`);
  });

  it('begins at the last visit, in words of both units, and tells how far it is', () => {
    const { list, told } = listOf(demo ?? {});
    expect(list).toMatchObject({ hive: demo?.hive, visits: 6, members: 200, from: '2012-06-18' });
    expect(told.length).toBeGreaterThan(2);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    const days = list.items.map(({ from }) => from);
    expect(days).toEqual(days.toSorted());
    expect(days.every((day) => day >= list.from && day <= list.until)).toBe(true);
    expect(list.items.some(({ visit }) => visit)).toBe(true);
    for (const { planned, told } of list.items) {
      for (const { title, why, sure } of [told.metric, told.us]) {
        expect(title).not.toBe('');
        if (planned) continue;
        expect(why).not.toBe('');
        expect(sure).toMatch(/^\d+ of 200$/);
      }
    }
    const words = (units: 'metric' | 'us') => JSON.stringify(list.items.map(({ told }) => told[units]));
    expect(words('metric')).toMatch(/\d kg/);
    expect(words('us')).toMatch(/\d lb/);
    expect(words('us')).not.toMatch(/\d kg/);
  });

  it('of a week holds what begins on its seventh day', () => {
    const { list } = listOf(demo ?? {});
    const dates = byDate(list, 'metric', between);
    const seventh = dayNumber(list.from) + 7;
    expect(dates.some(({ first }) => first === seventh)).toBe(true);
    const week = upTo(dates, seventh);
    expect(week.length).toBeGreaterThan(0);
    expect(week).toEqual(dates.slice(0, week.length));
    expect(week.at(-1)?.first).toBe(seventh);
    expect(upTo(dates, null)).toEqual(dates);
  });

  it('names the hive also where there is no visit', () => {
    expect(listOf({ hive: 'Hive 3', visit: [] }, '2012-05-01').list.hive).toBe('Hive 3');
  });

  it('is the same list in German, the calendar too', () => {
    const english = listOf(demo ?? {}).list;
    const { list } = listOf(demo ?? {}, undefined, 'de');
    expect(list.items.map(({ from, to }) => [from, to])).toEqual(english.items.map(({ from, to }) => [from, to]));
    const titles = list.items.map(({ told }) => told.metric.title);
    expect(titles).toContain('Öffne das Volk');
    const cautions = list.items.flatMap(({ told }) => told.metric.cautions);
    expect(cautions.join(' ')).toContain('Halte dich an das Etikett: Es ist Gesetz.');
    expect(list.calendar.metric).toContain('SUMMARY:Alder Row 3: Öffne das Volk');
  });

  it('is the same list as a calendar file, stamped with the date that it was given', () => {
    const { list } = listOf(demo ?? {});
    for (const calendar of [list.calendar.metric, list.calendar.us]) {
      expect(calendar).toMatch(/^BEGIN:VCALENDAR\r\n/);
      expect(calendar.match(/BEGIN:VEVENT/g)).toHaveLength(list.items.length);
      expect(new Set(calendar.match(/DTSTAMP:.*/g))).toEqual(new Set(['DTSTAMP:20261125T000000Z']));
    }
  });

  it('marks what was found at a visit, and nothing else', () => {
    const cells = listOf({ visit: [{ date: '2012-07-10', frames_of_bees: [7], eggs_seen: false, queen_seen: false, capped_cells: 10 }] }).list;
    expect(cells.items.filter(({ found }) => found).map(({ from, told }) => [from, told.metric.title])).toEqual([
      ['2012-07-10', expect.stringContaining('cut none before you know')],
    ]);
    const empty = listOf({ visit: [{ date: '2012-07-10', frames_of_bees: [7], stores_kg: 0 }] }, undefined, 'de').list;
    expect(empty.items.filter(({ found }) => found).map(({ told }) => told.metric.why)).toEqual([expect.stringContaining('wurde kein Vorrat gefunden')]);
    expect(listOf(demo ?? {}).list.items.some(({ found }) => found)).toBe(false);
  });

  it('without visits begins on the date that is asked for', () => {
    const { list } = listOf({ visit: [] }, '2012-05-10');
    expect(list).toMatchObject({ hive: '', visits: 0, from: '2012-05-10' });
    expect(list.items.length).toBeGreaterThan(0);
  });

  it('names what is wrong with dates and visits', () => {
    expect(thrown(() => listOf({ visit: [] }, '2031-01-01'))).toMatchObject({ place: 'on', message: expect.stringContaining('got 2031-01-01') });
    expect(thrown(() => listOf({ visit: [] }, 'soon'))).toMatchObject({ place: 'on' });
    const never = { visit: [{ date: '2019-06-04', frames_of_bees: [4] }] };
    expect(thrown(() => listOf(never))).toMatchObject({ place: 'visit', message: expect.stringContaining('no visit can be used') });
  });

  it('is laid out by date, with each caution once', () => {
    const { list } = listOf(demo ?? {});
    const dates = byDate(list, 'metric', between);
    expect(dates.flatMap(({ works }) => works)).toHaveLength(list.items.length);
    const cautions = dates.flatMap(({ works }) => works.flatMap((work) => work.cautions));
    expect(cautions.length).toBeGreaterThan(0);
    expect(new Set(cautions).size).toBe(cautions.length);
    expect(new Set(cautions)).toEqual(new Set(list.items.flatMap(({ told }) => told.metric.cautions)));
    const later = dates.map((date) => date.later);
    expect(later).toEqual(later.toSorted((a, b) => Number(a) - Number(b)));
    const told = { title: 'x', details: [], why: '', sure: '', cautions: [] };
    const item = (from: string, to: string) => ({ from, to, planned: false, visit: false, found: false, told: { metric: told, us: told } });
    const made = { ...list, from: '2026-12-01', until: '2027-01-30', items: [item('2026-12-03', '2026-12-03'), item('2026-12-03', '2026-12-09'), item('2026-12-30', '2027-01-02')] };
    expect(byDate(made, 'us', between).map(({ when }) => when)).toEqual(['Thu 3 December 2026', '3 to 9 December 2026', '30 December 2026 to 2 January 2027']);
  });
});
