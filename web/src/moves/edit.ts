/**
 * Putting moves into a plan, changing them and taking them out: pure functions, a new scenario out of an old one.
 */
import { dayNumber, isoDate } from '../calendar';
import { edited } from '../plan';
import type { Move, Scenario } from '../scenario';
import { text } from '../text/index.svelte';
import { actionNamed, type ActionName } from './actions';
import type { besideNest } from './place';

/** What a pin on the strip stands for. */
export type PinTarget = { kind: 'move'; index: number } | { kind: 'feed'; index: number; end: 'from' | 'to' };

/** The place beside the brood nest, where a drone frame goes. */
type BesideNest = ReturnType<typeof besideNest>;

/** A plan with one more move, and its place among the moves. `beside`: where a frame goes that is given. */
export function withMove(scenario: Scenario, name: ActionName, date: string, beside: BesideNest = null): { scenario: Scenario; index: number } {
  const fresh = structuredClone(actionNamed(name)?.fresh ?? {});
  if (fresh.give_frame && beside) Object.assign(fresh.give_frame, beside);
  const index = scenario.move?.length ?? 0;
  return { index, scenario: edited(scenario, (draft) => void (draft.move = [...(draft.move ?? []), { date, ...fresh }])) };
}

export function withoutMove(scenario: Scenario, index: number): Scenario {
  return edited(scenario, (draft) => void draft.move?.splice(index, 1));
}

export function withChangedMove(scenario: Scenario, index: number, change: (move: Move) => void): Scenario {
  return edited(scenario, (draft) => {
    const move = draft.move?.[index];
    if (move) change(move);
  });
}

/** The days between which a pin can stand. */
export function reach(scenario: Scenario, target: PinTarget): { first: number; last: number; why: string } {
  const first = dayNumber(scenario.start.date);
  const last = dayNumber(scenario.until);
  const why = text().moves.reach;
  if (target.kind === 'feed') {
    const feed = scenario.feed?.[target.index];
    if (feed && target.end === 'from') return { first, last: dayNumber(feed.to), why: why.feedEnds };
    if (feed) return { first: dayNumber(feed.from), last, why: why.feedStarts };
  } else {
    const until = scenario.move?.[target.index]?.until;
    if (until) return { first, last: dayNumber(until), why: why.repeatsEnd };
  }
  return { first, last, why: why.season };
}

/** A pin on another day, as near as it can go. */
export function withPinOn(scenario: Scenario, target: PinTarget, day: number): Scenario {
  const { first, last } = reach(scenario, target);
  const date = isoDate(Math.min(Math.max(day, first), last));
  return edited(scenario, (draft) => {
    if (target.kind === 'move') {
      const move = draft.move?.[target.index];
      if (move) move.date = date;
    } else {
      const feed = draft.feed?.[target.index];
      if (feed) feed[target.end] = date;
    }
  });
}

/** The plan without what a pin stands for. */
export function withoutPin(scenario: Scenario, target: PinTarget): Scenario {
  if (target.kind === 'move') return withoutMove(scenario, target.index);
  return edited(scenario, (draft) => void draft.feed?.splice(target.index, 1));
}

/** What stands at a dotted path. */
export function valueAt(move: Move, path: string): unknown {
  return path.split('.').reduce<unknown>((node, name) => (node as Record<string, unknown> | null | undefined)?.[name], move);
}

/** Puts a value at a dotted path; `undefined` takes it out. */
export function setAt(move: Move, path: string, value: unknown): void {
  const names = path.split('.');
  const last = names.pop() ?? '';
  let node = move as Record<string, unknown>;
  for (const name of names) {
    node[name] ??= {};
    node = node[name] as Record<string, unknown>;
  }
  if (value === undefined) delete node[last];
  else node[last] = value;
}

/** A drone frame given on a day. */
export function droneFrameIn(date: string, beside: BesideNest): Move {
  return { date, give_frame: { comb: 'drone-frame', replace: false, ...beside } };
}

/** The plan with its drone frame taken out on a day: that removal moved there, or a new one; and the frame given, where it is not `planned`. */
export function withDroneFrameOut(scenario: Scenario, given: string, planned: boolean, out: string, beside: BesideNest = null): Scenario {
  return edited(scenario, (draft) => {
    const moves = (draft.move ??= []);
    if (!planned) moves.push(droneFrameIn(given, beside));
    const removal = moves
      .filter(({ date, when, every_days, take_drone_frame }) => take_drone_frame && date && date > given && !when && !every_days)
      .sort((a, b) => (a.date ?? '').localeCompare(b.date ?? ''))[0];
    if (removal) removal.date = out;
    else moves.push({ date: out, take_drone_frame: {} });
  });
}
