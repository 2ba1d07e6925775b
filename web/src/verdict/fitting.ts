/** The colonies that fit what was found, as bands over the days from the last visit on. */
import { BandsView } from '../crowd/bands';
import type { Spread, Verdict } from '../types';

/** The lines of a band, as a forecast names them. */
const LINES: readonly (keyof Spread)[] = ['q05', 'q25', 'median', 'q75', 'q95'];

export function bandsOf({ forecast, members }: Verdict): BandsView {
  const { dates, thresholds, risks, assumed_mites } = forecast;
  const measures = dates[0]?.measures.map(({ name }) => name) ?? [];
  const values = measures.flatMap((_, k) => LINES.flatMap((line) => dates.map(({ measures }) => measures[k]?.[line] ?? Number.NaN)));
  return new BandsView({
    members,
    weathers: 1,
    assumedMites: assumed_mites?.per_100_bees ?? null,
    dates: dates.map(({ date }) => date),
    measures,
    thresholds,
    risks,
    values: Float64Array.from(values),
  });
}
