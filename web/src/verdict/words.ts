/** The verdict in a few words. */
import { text } from '../text/index.svelte';
import type { Verdict } from '../types';

/** Days rounded; `null` where there are none. */
export function wholeDays(days: number | null): number | null {
  return days === null ? null : Math.round(days) + 0;
}

/** Fewer colonies than this share of the members do not carry a verdict; it is the share below which the model warns. */
const FEW = 0.01;

/** How many colonies carry the verdict at the visit that left fewest, where they are too few for a sure word; `null` where they are enough. */
export function fewThatFit({ steps, members }: Verdict): number | null {
  const fewest = Math.min(...steps.map(({ effective }) => effective));
  return fewest < Math.max(3, FEW * members) ? Math.max(1, Math.round(fewest)) : null;
}

/** Between how many days nine in ten of the colonies that fit lie: always, where it can be told in days. */
function rangeOf({ word, days_ahead, days_least, days_most }: Verdict['standing'], bySide: boolean): string {
  const say = text().standing;
  const [one, other] = [wholeDays(days_least), wholeDays(days_most)];
  if (word === 'lost' || word === 'at_odds' || word === 'untold' || one === null || other === null || one === other) return '';
  const [least, most] = [Math.min(one, other), Math.max(one, other)];
  if (least < 0 && most > 0) return say.daysEitherSide(-least, most);
  const behind = most <= 0;
  const [from, to] = behind ? [-most, -least] : [least, most];
  // Beside "behind by about 5 days" the side is said already.
  if (bySide && behind === (days_ahead ?? 0) < 0) return say.daysRange(from, to);
  return (behind ? say.daysBehind : say.daysAhead)(from, to);
}

/** The verdict in a few words, and how sure they are. */
export function headlineOf(verdict: Verdict): { words: string; range: string } {
  const { standing } = verdict;
  const say = text().standing;
  // Where nothing tells how strong it is, what cannot wait leads; neither of them is a guess.
  if (standing.word === 'untold') {
    const [alarm] = verdict.alarms;
    const words = alarm ? say.alarm[alarm.alarm] : say.word.untold;
    return { words: words.charAt(0).toUpperCase() + words.slice(1), range: '' };
  }
  const days = wholeDays(standing.days_ahead);
  const off = ['in_step', 'lost', 'at_odds'].includes(standing.word) || !days ? '' : say.byDays(Math.abs(days));
  const words = `${say.word[standing.word]}${off}`;
  return { words: fewThatFit(verdict) === null ? words : say.perhaps(words), range: rangeOf(standing, off !== '') };
}
