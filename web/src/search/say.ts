/** What a search found, in words. */
import { searchTexts } from '../text/search';
import type { FoundPlans, Gain, GoalName, Spread } from '../types';
import { beeCount, figure, type UnitSystem, withUnit } from '../units';

type Plan = FoundPlans['best'][number];

const capital = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

/** Mites on 100 bees with which the model ranks a lost colony; `sim-core/src/search/race.rs` has it. */
const LOST = 100;

/** A value of a goal alone; none for what is so or not so. */
function numberOf(goal: GoalName, value: number, units: UnitSystem): string {
  if (goal === 'honey') return withUnit(value, 'stores', units);
  return goal === 'bees' ? beeCount(value) : figure(value, goal === 'few_mites' ? 1 : 0);
}

export function amount(goal: GoalName, spread: Spread, units: UnitSystem): string {
  const words = searchTexts();
  if (goal === 'alive' || goal === 'no_swarm') return words.amount[goal](figure(Math.round(100 * spread.mean)));
  const number = (value: number) => numberOf(goal, value, units);
  if (goal === 'few_mites') {
    if (spread.q05 === LOST) return words.amount[goal](words.allLost);
    if (spread.median === LOST) return words.amount[goal](words.halfLost(number(spread.q05)));
    if (spread.q95 === LOST) return words.amount[goal](words.someLost(number(spread.q05), number(spread.median)));
  }
  return words.amount[goal](words.spread(number(spread.q05), number(spread.q95), number(spread.median)));
}

function betterIn({ better: { ahead, behind, level } }: Gain): string {
  const words = searchTexts();
  return ahead + behind === 0 ? words.alike : words.better(figure(ahead), figure(ahead + behind + level), figure(behind));
}

/** A mean difference is told as one where it is as sure as this, to either side. */
const SURE = 0.9;

function howSure({ sure }: Gain): string {
  const words = searchTexts();
  if (Math.max(sure, 1 - sure) < SURE) return words.notSure;
  const share = Math.round(100 * Math.max(sure, 1 - sure));
  const said = share >= 100 ? words.moreThan(99) : String(share);
  return sure >= 0.5 ? words.sureBetter(said) : words.sureWorse(said);
}

export function gained(gain: Gain, units: UnitSystem): string {
  const same = gain.better.ahead + gain.better.behind === 0;
  return `${capital(amount(gain.goal, gain.with, units))}; ${betterIn(gain)}${same ? '' : `; ${howSure(gain)}`}.`;
}

export function kinds({ families, moves }: Plan): string {
  const words = searchTexts();
  const swaps = moves.some((move) => move.swap_drone_frames != null);
  return capital(families.map((family) => (family === 'drone-frames' && !swaps ? words.oneFrame : words.family[family])).join(', '));
}

export function costs({ costs: cost }: Plan, units: UnitSystem): string {
  const words = searchTexts();
  const list = [words.visits(cost.visits)];
  if (cost.jars > 0) list.push(words.jarsOf(figure(cost.jars, Number.isInteger(cost.jars) ? 0 : 1), withUnit(cost.sugar_kg, 'stores', units)));
  if (cost.treatments > 0) list.push(words.treatments(cost.treatments));
  if (cost.drones >= 50) list.push(words.drones(beeCount(cost.drones), withUnit(cost.drone_honey_kg, 'stores', units)));
  const refused = Math.round(100 * cost.refused);
  return `${words.costs(list.join('; '))}${refused > 0 ? ` ${words.refused(figure(refused))}` : ''}`;
}

/** What else differs on the last day, where most colonies agree on it. */
export function besides({ besides: gains }: Plan, units: UnitSystem): string {
  const words = searchTexts();
  const told = gains.filter(({ better: { ahead, behind, level } }) => Math.max(ahead, behind) > 0.8 * (ahead + behind + level));
  return told.length > 0 ? words.besides(told.map((gain) => `${amount(gain.goal, gain.with, units)} (${betterIn(gain)})`).join('; ')) : '';
}

/** Against the next plan, a sentence for each goal in which they differ. */
export function againstNext({ against_next: gains }: Plan, place: number): string {
  const words = searchTexts();
  const differ = gains.filter(({ better: { ahead, behind } }) => ahead + behind > 0);
  // Else it would look as if the worse one stood first.
  const order = differ.some(({ better: { ahead, behind } }) => behind > ahead) ? [words.byMean] : [];
  return differ
    .map((gain) => words.againstNext(place + 2, words.goal[gain.goal.replace('_', '-') as keyof typeof words.goal], betterIn(gain), howSure(gain)))
    .concat(order)
    .join(' ');
}

