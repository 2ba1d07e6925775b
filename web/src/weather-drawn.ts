/** How much of a season's weather nobody measured: it is drawn at random by the model. */
import { shortDate } from './calendar';
import type { SeasonView } from './season';
import { text } from './text/index.svelte';

/** In one line; `null` where no day is drawn. */
export function weatherDrawn(plan: SeasonView): string | null {
  const words = text().page.drawnWeather;
  let [drawn, last] = [0, plan.first - 1];
  let begins = plan.last;
  for (let day = plan.first; day <= plan.last; day += 1) {
    if (plan.origin(day) === 'generated') {
      drawn += 1;
      begins = Math.min(begins, day);
    } else last = day;
  }
  if (drawn === 0) return null;
  if (drawn === plan.days) return words.all;
  // All of them after the last that is not drawn.
  return begins > last ? words.after(shortDate(last), drawn) : words.some(drawn);
}
