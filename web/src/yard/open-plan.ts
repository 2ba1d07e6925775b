/** Files and examples as hives of their own: the one that was open stays as it is, and the way back leads to it. */
import { problemOf } from '../client';
import type { Scenario } from '../scenario';
import type { Session } from '../session.svelte';
import { newHive } from './hive';

/** Opens a plan; what cannot be read stays in the text box of the open hive, with its fault. */
export async function openPlan(session: Session, file: Uint8Array): Promise<void> {
  const { yard } = session;
  const open = yard.current;
  let scenario: Scenario;
  try {
    scenario = await session.model.read(file);
  } catch (fault) {
    session.file.refuse(file, problemOf(fault));
    return;
  }
  // Weather of somebody's own is in no plan: it goes along where the plan speaks of it.
  const record = (open && (await yard.filesOf(open.id)).find(({ name }) => name === scenario.weather.record)) ?? null;
  const hive = { ...newHive(scenario, yard.nextOrder), recordName: record?.name ?? null };
  await session.addHive(hive, record ? [record] : []);
  if (open) yard.news = { kind: 'opened', name: yard.hive(hive.id)?.name ?? hive.name, id: hive.id, before: open.id, scenario };
}

/** Goes back to the hive that was open before a plan was, and deletes that one; it can be brought back. */
export async function closePlan(session: Session, id: string, before: string): Promise<void> {
  const { yard } = session;
  const hive = yard.hive(before);
  if (hive) await session.openHive(hive);
  await yard.remove(id);
  if (!hive) await session.openAnother();
}
