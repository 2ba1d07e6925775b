/** Moves of the open plan: put in, taken out, opened in the controls. */
import { isoDate } from '../calendar';
import { twinWithout } from '../plan';
import type { Session } from '../session.svelte';
import type { ActionName } from './actions';
import { type PinTarget, withMove, withoutPin } from './edit';
import { besideNest } from './place';

/** Opens a move in the controls. */
export function showMove(session: Session, index: number | null): void {
  session.openMove = index;
  if (index !== null) session.changing = true;
}

/** Puts a move on the chosen day, and opens it. */
export function addMove(session: Session, name: ActionName): void {
  if (!session.scenario) return;
  const { scenario, index } = withMove(session.scenario, name, isoDate(session.day), besideNest(session.cells));
  session.replace(scenario, session.past.newGesture());
  session.openMove = index;
}

/** Takes what a pin stands for out of the plan; undo brings it back. */
export function removePin(session: Session, target: PinTarget): void {
  if (!session.scenario) return;
  if (target.kind === 'move') {
    session.twinKind = twinWithout(session.twinKind, target.index);
    session.openMove = null;
  }
  session.replace(withoutPin(session.scenario, target), session.past.newGesture());
}
