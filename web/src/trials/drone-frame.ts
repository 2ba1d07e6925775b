/** Drone frames of a plan. */
import type { Scenario } from '../scenario';

/** The dates on which a plan gives one. */
export function droneFrames({ move }: Scenario): string[] {
  return (move ?? []).flatMap(({ date, when, give_frame }) => (date && !when && give_frame?.comb.includes('drone-frame') ? [date] : []));
}

/** Whether one is in the hive from the start. */
export function hasDroneFrame({ hive }: Scenario): boolean {
  return hive.box.some(({ comb, contents }) => [comb, ...(contents ?? [])].some((one) => one?.includes('drone-frame')));
}

/** The day on which the frame was given that is in the hive on a day, `null` for one that was in from the start; `undefined` where none is in. */
export function frameIn(scenario: Scenario, day: string): string | null | undefined {
  const last = droneFrames(scenario)
    .filter((date) => date <= day)
    .toSorted()
    .at(-1);
  const given = last ?? (hasDroneFrame(scenario) ? null : undefined);
  if (given === undefined) return undefined;
  const out = (scenario.move ?? []).some(
    ({ date, when, take_drone_frame, swap_drone_frames, freeze_drone_frame }) =>
      date && !when && date <= day && (given === null || date > given) && (take_drone_frame || swap_drone_frames || freeze_drone_frame),
  );
  return out ? undefined : given;
}

/** Whether a plan puts a drone frame in at a place on a day, boxes and places counted from 0: one that is given nowhere in particular may be any. */
export function putIn(scenario: Scenario, day: string, { inBox, place }: { inBox: number; place: number }): boolean {
  return (scenario.move ?? []).some(({ date, when, give_frame, swap_drone_frames }) => {
    if (date !== day || when) return false;
    if (swap_drone_frames) return true;
    const at = give_frame?.comb.includes('drone-frame') ? (give_frame.at ?? { box: inBox + 1, place: place + 1 }) : null;
    return at?.box === inBox + 1 && at.place === place + 1;
  });
}
